"""Threads: their sizes and limits, tapping, cutting and measuring them."""
