"""Past setups: their records, the index of them, and the questions asked of it."""
