"""A cell as the text that a setup has for its key: a quantity with its unit, a day, a word."""

from __future__ import annotations

import re

from shoplog.find.taking.columns import SKIP, YES_NO, fits
from shoplog.find.taking.days import read_day
from shoplog.find.taking.mapping import outcome_word
from shoplog.find.taking.numbers import MOST_NUMBER, read_sized
from shoplog.find.taking.plan import Column, Plan
from shoplog.log.setups.figures import BY_HAND
from shoplog.log.setups.keys import Reads
from shoplog.log.setups.lines import clipped
from shoplog.problems import Mistake, message

__all__ = ["cell_value", "one_line"]

UNIT_UNSAID = message(
    "take-unit-unsaid",
    "`{text}` has no unit, and the column has none",
    hint="such as {units}",
    example="",
)
UNIT_KIND = message(
    "take-unit-kind", "`{text}` is in {unit}, and a {key} is in {units}", example=""
)

# Line ends of every kind, then signs that no line of a page should hold.
_BREAKS = re.compile("[\n\x0b\x0c\r\x1c-\x1e\x85\u2028\u2029]+")
_CONTROL = re.compile("[\x00-\x08\x0e-\x1b\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
_BETWEEN_WORDS = re.compile(r"[;,|\n]+")
_COMMA = re.compile(",")
_OFF = re.compile(r"\s*off\s+diameter$", re.I)
_HAND = ("by hand", "hand", "manual", "hand feed")
_YES = ("yes", "y", "true", "1", "x")
_NO = ("no", "n", "false", "0")


def one_line(text: str) -> str:
    r"""A text as it may stand on a line of a page.

    >>> one_line("first cut\nchatter\x07")
    'first cut; chatter�'
    """
    lines = (line.strip() for line in _BREAKS.split(text.replace("\t", " ")))
    return _CONTROL.sub("\ufffd", "; ".join(filter(None, lines))).strip()


def cell_value(column: Column, text: str, plan: Plan) -> tuple[str, str]:
    """The key that a cell belongs to, and its text as a setup says it."""
    target = column.target
    match target.reads:
        case Reads.DATE:
            return target.key, read_day(text, plan.dates)
        case Reads.QUANTITY:
            return _quantity(column, text)
        case Reads.WHOLE:
            number, _ = read_sized(text, column.decimal)
            return target.key, re.sub(r"\.0*$", "", number)
        case Reads.WORDS:
            between = _COMMA if plan.own else _BETWEEN_WORDS
            words = (one_line(word) for word in between.split(text))
            return target.key, ", ".join(filter(None, words))
        case Reads.ONE_OF:
            return target.key, _choice(column, text, plan)
    return target.key, one_line(text)


def _choice(column: Column, text: str, plan: Plan) -> str:
    word = text.casefold()
    if column.target.key == "outcome":
        found = plan.outcomes[outcome_word(text)]
        return "" if found == SKIP else found
    if column.target.choices == YES_NO:
        yes = word in _YES
        if column.target.key == "feed":
            return BY_HAND if yes else ""
        return "yes" if yes else "" if word in _NO else one_line(text)
    return one_line(text)


def _quantity(column: Column, text: str) -> tuple[str, str]:
    """A quantity with its unit; a speed in metres a minute is a cutting speed."""
    target = column.target
    if target.key == "feed" and text.casefold() in _HAND:
        return "feed", BY_HAND
    off = None
    if target.key == "depth of cut" and len(text) <= MOST_NUMBER:
        off = _OFF.search(text)
    number, found = read_sized(text[: off.start()] if off else text, column.decimal)
    found = found or column.unit
    units = ", ".join(target.units)
    if not found:
        raise Mistake(UNIT_UNSAID, text=clipped(text), units=units)
    if not fits(found, target.units):
        raise Mistake(UNIT_KIND, text=clipped(text), unit=found, key=target.key, units=units)
    key = target.key
    if key == "speed" and not fits(found, ("rpm",)):
        key = "cutting speed"
    return key, f"{number} {found}{' off diameter' if off else ''}"
