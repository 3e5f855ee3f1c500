"""Bought parts and the seats they need: screws, pins, rings, seals and keys."""
