"""Patterns of the values of a shop profile, for its JSON Schema: regular expressions of ECMA 262.

They say what the reader takes, as near as a pattern can: that a number is followed by a unit of the
kind, say, and not that a thread exists. No sign is escaped that an editor's engine would refuse.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from shoplog.log.profile.forms import AXIS_FILLERS, AXIS_WORDS
from shoplog.units import alike, unit, unit_texts

__all__ = ["Pattern", "any_case", "whole"]

NUMBER = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_FRACTION = r"(?:[0-9]+[- ])?[0-9]+/[0-9]+"
_OVER_ZERO = r"(?![0.]+(?:[^0-9.]|$))"
_COUNT = r"0*(?:[1-9][0-9]{0,2}|1000)"
_LIMITS = (
    r"(?: *[A-Za-z]{1,2}[0-9]{1,2}"
    rf"| *(?:±|\+/-) *{NUMBER}"
    rf"| *[+-]?{NUMBER}/[+-]?{NUMBER})"
)
_WORDS_BEHIND = r"(?:, +[A-Za-z\u00c0-\u024f].*)?"
_BESIDE = r" *[x×] *"
_COMMA = r" *, *"


def whole(pattern: str) -> str:
    """A pattern that all of a text must meet, spaces around it aside."""
    return rf"^\s*(?:{pattern})\s*$"


def any_case(word: str) -> str:
    """A word in whichever case.

    >>> any_case("x y")
    '[xX] +[yY]'
    """
    signs = [f"[{sign}{sign.upper()}]" if sign.isalpha() else re.escape(sign) for sign in word]
    return "".join(signs).replace("\\ ", " +")


def one_of(words: Iterable[str]) -> str:
    """One of some words, in whichever case."""
    return f"(?:{'|'.join(any_case(word) for word in sorted(words, key=len, reverse=True))})"


def several(pattern: str) -> str:
    """One or more of a pattern, with commas between."""
    return rf"{pattern}(?:{_COMMA}{pattern})*{_COMMA.replace('*,', '*,?')}"


COUNT = _COUNT
AXIS = rf"(?:{one_of(AXIS_FILLERS)} +)*{one_of(AXIS_WORDS)}(?: +{one_of(AXIS_FILLERS)})*"
RATIO = rf"{NUMBER}(?: *: *1)?"


class Pattern:
    """The patterns of quantities of some units; `zero` says whether they may be 0."""

    def __init__(self, units: tuple[str, ...], *, zero: bool = False) -> None:
        guard = "" if zero else _OVER_ZERO
        self.bare = rf"{guard}(?:{_FRACTION}|{NUMBER})"
        self.quantity = rf"{self.bare} *(?:{_units(units)})"

    @property
    def with_words(self) -> str:
        """A quantity, behind which words may stand."""
        return self.quantity + _WORDS_BEHIND

    @property
    def error(self) -> str:
        """A quantity either way."""
        return rf"(?:(?:±|\+/-) *)?{self.with_words}"

    @property
    def list(self) -> str:
        """Quantities with commas between."""
        return several(self.quantity)

    @property
    def range(self) -> str:
        """From one quantity to another; the first may go without its unit."""
        start = rf"(?:from +)?(?:{self.quantity}|{self.bare})"
        return rf"{start}(?: +to +| *\.\. *| *… *){self.quantity}"

    @property
    def axes(self) -> str:
        """A quantity for each slide or axis."""
        return several(rf"{self.quantity}(?: +{AXIS})?")

    @property
    def bar(self) -> str:
        """One to three quantities side by side; the last has the unit."""
        return rf"(?:(?:{self.quantity}|{self.bare}){_BESIDE}){{0,2}}{self.quantity}"

    @property
    def size(self) -> str:
        """A quantity with a class or limits where it has them."""
        return self.quantity + _LIMITS + "?"


@cache
def _units(units: tuple[str, ...]) -> str:
    wanted = [unit(text) for text in units]
    texts = [text for text in unit_texts() if any(alike(unit(text), one) for one in wanted)]
    return "|".join(re.escape(text) for text in texts)
