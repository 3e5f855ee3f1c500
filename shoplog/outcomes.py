"""How a setup went: the words for it, in one place for blocks, records, questions and pages."""

__all__ = ["OUTCOMES", "POORLY", "WELL"]

OUTCOMES = ("good", "usable", "poor", "spoiled")
"""From best to worst."""
WELL = OUTCOMES[:2]
POORLY = OUTCOMES[2:]
