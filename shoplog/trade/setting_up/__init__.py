"""Setting up: a head in tram, tool bits, dividing, and bars cut into pieces."""
