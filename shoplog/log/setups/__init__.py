"""Setup blocks: their keys read, their figures worked out, the cut judged."""
