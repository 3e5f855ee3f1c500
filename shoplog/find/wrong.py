"""A question that cannot be asked."""

from __future__ import annotations

__all__ = ["WrongQuestion"]


class WrongQuestion(ValueError):
    """A question that cannot be asked as it is put: what is wrong with it, in a sentence."""
