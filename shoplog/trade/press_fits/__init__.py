"""Interference: pressing, shrinking, bushes, and discs that spin."""
