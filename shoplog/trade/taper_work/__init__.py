"""Tapers: their names and sizes, setting a machine to them, and proving them."""
