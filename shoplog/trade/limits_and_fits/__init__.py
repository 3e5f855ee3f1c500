"""Sizes with limits: tolerance classes, fits, and what was measured."""
