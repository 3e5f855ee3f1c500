"""Holes: drills, patterns, walls and flats."""
