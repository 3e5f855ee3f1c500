"""The stages of a cut: a module by itself, so that a search loads no more than these words."""

from __future__ import annotations

__all__ = ["STAGES"]

STAGES = {"rough": "rough", "roughing": "rough", "finish": "finish", "finishing": "finish"}
"""The stage that each word for one means."""
