"""How an outcome is shown: by a sign and a word; the colour beside them only underlines it."""

__all__ = ["NO_SIGN", "SIGNS", "STATES"]

SIGNS = {"good": "✓", "usable": "◑", "poor": "✗", "spoiled": "✗"}
NO_SIGN = "–"
"""Where no outcome is told."""
STATES = {"good": "good", "usable": "part", "poor": "bad", "spoiled": "bad"}
"""The state whose colour the style sheet has."""
