"""Days as people write them in spreadsheets; one whose order cannot be told is asked about."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

from shoplog.log.setups.lines import clipped
from shoplog.problems import Mistake, message

__all__ = ["DAY_ORDERS", "day_order", "read_day"]

NOT_DAY = message(
    "take-day", "`{text}` is not a day", hint="write it as 2026-03-14 or 14.3.2026", example=""
)

MOST_DAY = 60
DAY_ORDERS = ("day first", "month first")

_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", re.ASCII)
_POINTED = re.compile(r"(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{2}|\d{4})", re.ASCII)
_SLASHED = re.compile(r"(\d{1,2})[/-](\d{1,2})[/-](\d{2}|\d{4})", re.ASCII)
_NAMED = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?[\s.-]+([a-z]{3,9})[\s.,-]+(\d{2}|\d{4})", re.ASCII)
_NAMED_US = re.compile(r"([a-z]{3,9})[\s.]+(\d{1,2})(?:st|nd|rd|th)?[\s,]+(\d{4})", re.ASCII)
_CLOCK = re.compile(r"[T\s]+\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:\s*[ap]m|Z)?$", re.I | re.ASCII)
_MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split()
_FULL_MONTHS = (
    "january february march april may june july august september october november december".split()
)


def day_order(texts: Iterable[str]) -> tuple[str, bool]:
    """What a column of days with slashes says of their order, and whether it needs to be said.

    >>> day_order(["3/14/2026", "2/1/2026"]), day_order(["1/2/2026"]), day_order(["2026-03-14"])
    (('month first', True), ('', True), ('', False))
    """
    needed = False
    said: set[str] = set()
    for text in texts:
        found = _SLASHED.fullmatch(_CLOCK.sub("", text.strip()[:MOST_DAY]))
        if found:
            first, second = int(found[1]), int(found[2])
            needed = needed or first != second
            said |= {"day first"} if first > 12 else set()
            said |= {"month first"} if second > 12 else set()
    return (said.pop() if len(said) == 1 else ""), needed


def read_day(text: str, order: str) -> str:
    """A day as 2026-03-14.

    Parameters
    ----------
    text : str [-]
        `2026-03-14`, `14.3.2026`, `14 March 2026`, `March 14, 2026`, or with slashes; a time behind
        it is left out, and a year of two digits from 69 on is of the century before.
    order : str [-]
        One of `DAY_ORDERS`, for days with slashes.

    Raises
    ------
    Mistake
        It is no day.
    """
    plain = _CLOCK.sub("", text.strip()[:MOST_DAY]).casefold()
    numbers = _day_numbers(plain, order)
    if numbers is None:
        raise Mistake(NOT_DAY, text=clipped(text))
    try:
        return date(*numbers).isoformat()
    except ValueError:
        raise Mistake(NOT_DAY, text=clipped(text)) from None


def _day_numbers(text: str, order: str) -> tuple[int, int, int] | None:
    """Year, month and day of a text; nothing where it is written in no known way."""
    if found := _ISO.fullmatch(text):
        return int(found[1]), int(found[2]), int(found[3])
    if found := _POINTED.fullmatch(text):
        return _year(found[3]), int(found[2]), int(found[1])
    if found := _SLASHED.fullmatch(text):
        first, second = int(found[1]), int(found[2])
        if order == "month first" or (not order and first == second):
            first, second = second, first
        elif not order:
            return None
        return _year(found[3]), second, first
    if found := _NAMED.fullmatch(text):
        return _year(found[3]), _month(found[2]), int(found[1])
    if found := _NAMED_US.fullmatch(text):
        return _year(found[3]), _month(found[1]), int(found[2])
    return None


def _year(text: str) -> int:
    year = int(text)
    return year if len(text) == 4 else year + (1900 if year >= 69 else 2000)


def _month(word: str) -> int:
    """The number of a month by its name or the first letters of it; 0 for another word."""
    if word == "sept":
        return 9
    names = _FULL_MONTHS if word in _FULL_MONTHS else _MONTHS
    return names.index(word) + 1 if word in names else 0
