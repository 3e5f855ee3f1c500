"""Ranges of figures as they are asked for: `3..5mm`, `3mm..1/4in`, `..0.1 mm/rev`, `5mm`.

They are in the units of the one who asks. A single value means what is shown as that value.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from shoplog.find.clean import clean, clipped
from shoplog.find.wrong import WrongQuestion
from shoplog.problems import near

__all__ = ["RANGED", "Range", "read_range"]

_SAME = 1e-9
MOST_SHOWN = 40

RANGED: dict[str, tuple[tuple[str, str], ...]] = {
    "diameter": (("mm", "diameter_mm"),),
    "cutter-diameter": (("mm", "cutter_diameter_mm"),),
    "cutter-width": (("mm", "cutter_width_mm"),),
    "speed": (("rpm", "spindle_speed_rpm"),),
    "cutting-speed": (("m/min", "cutting_speed_m_per_min"),),
    "feed": (
        ("mm/rev", "feed_per_rev_mm"),
        ("mm/tooth", "feed_per_tooth_mm"),
        ("mm/min", "feed_rate_mm_per_min"),
    ),
    "depth": (("mm", "depth_of_cut_mm"),),
}
"""What may be asked for by a range, and the column of the index for each kind of unit."""

_WANTED = {
    "diameter": "a length, such as 16 mm, 3..5mm or 1/4in",
    "cutter-diameter": "a length, such as 6 mm, 3..5mm or 1/4in",
    "cutter-width": "a length, such as 3 mm, 1..2mm or 1/16in",
    "speed": "a spindle speed, such as 300..600 rpm",
    "cutting-speed": "a cutting speed, such as 20..30 m/min or 90 ft/min",
    "feed": "a feed, such as 0.05..0.1 mm/rev, 0.02 mm/tooth or 2..4 in/min",
    "depth": "a length, such as 0.5 mm or ..0.02in",
}
_END = re.compile(r"\s*(?:(?:(\d+)[-\s])?(\d+)/(\d+)|(\d*\.?\d+))\s*(.*?)\s*", re.ASCII | re.DOTALL)


_ELSEWHERE = (
    (re.compile(r"(?<=\d),(?=\d)"), "."),
    (re.compile(r"(?<=\S)\s*(?:\.\.\.|…|\bto\b|[-–—])\s*(?=[\d.])"), ".."),
    (re.compile(r"[Øø⌀]\s*"), ""),
    (re.compile(r"[\"″”]|''"), "in"),
)
"""Spellings of a range that are not read here, and what is meant by each."""


@dataclass(frozen=True, slots=True)
class Range:
    """A range of a column of the index, in the column's unit; an end that is open is none."""

    option: str
    text: str
    column: str
    least: float | None
    most: float | None


@dataclass(frozen=True, slots=True)
class _End:
    """An end of a range, in the unit of its column."""

    column: str
    number: float
    half: float
    """Half of the last place that its unit is shown with."""


def read_range(option: str, text: str) -> Range:
    """Read a range of what an option asks for.

    Raises
    ------
    WrongQuestion
        It has no number, no unit or another's unit, or ends below where it begins.
    """
    try:
        return _read(option, text)
    except WrongQuestion as wrong:
        meant = _respelt(text[:MOST_SHOWN])
        if meant == text:
            raise
        try:
            _read(option, meant)
        except WrongQuestion:
            raise wrong from None
        raise WrongQuestion(f"{wrong}; did you mean {meant}?") from None


def _respelt(text: str) -> str:
    """A range as it is written here, where it is written as people do elsewhere.

    >>> _respelt("3-5 mm"), _respelt("3,5 to 4 mm"), _respelt('Ø1/4"')
    ('3..5 mm', '3.5..4 mm', '1/4in')
    """
    for elsewhere, here in _ELSEWHERE:
        text = elsewhere.sub(here, text)
    return text


def _read(option: str, text: str) -> Range:
    least, most = _ends(option, text)
    one = least or most
    if one is None:
        raise _wrong(option, text)
    if least and most and least.column != most.column:
        raise WrongQuestion(f"--{option} {_shown(text)}: the two ends are of different kinds")
    if least and most and least.number > most.number:
        raise WrongQuestion(
            f"--{option} {_shown(text)} ends below where it begins; the lesser end comes first"
        )
    spread = ".." not in text
    return Range(
        option,
        text,
        one.column,
        least.number - (least.half if spread else least.number * _SAME) if least else None,
        most.number + (most.half if spread else most.number * _SAME) if most else None,
    )


def _ends(option: str, text: str) -> tuple[_End | None, _End | None]:
    """The ends of a range; a unit that one of them lacks is the other's."""
    first, dots, last = text.partition("..")
    ends = [_number(option, text, end) if end.strip() else None for end in (first, last)]
    given = [unit_text for end in reversed(ends) if end for unit_text in end[1:] if unit_text]
    unit_text = next(iter(given), "")
    least, most = (
        _converted(option, text, end[0], end[1] or unit_text) if end else None for end in ends
    )
    return (least, most) if dots else (least, least)


def _shown(text: str) -> str:
    return clipped(clean(text), MOST_SHOWN)


def _wrong(option: str, text: str, hint: str = "") -> WrongQuestion:
    return WrongQuestion(f"--{option} is {_WANTED[option]}; this is `{_shown(text)}`{hint}")


def _number(option: str, text: str, end: str) -> tuple[float, str]:
    """The number of an end, and its unit as it is written."""
    found = _END.fullmatch(end[:MOST_SHOWN])
    if found is None or (found[3] and not int(found[3])):
        raise _wrong(option, text)
    whole, over, under, decimal, unit_text = found.groups()
    number = float(decimal) if decimal else int(whole or 0) + int(over) / int(under)
    return number, unit_text


def _converted(option: str, text: str, number: float, unit_text: str) -> _End:
    """An end in the unit of the column that its own unit belongs to.

    The units are loaded here: most questions ask for no figure.
    """
    from shoplog.units import PLACES, alike, convert, is_unit, unit, unit_texts

    if not unit_text and option == "speed":
        unit_text = "rpm"  # a spindle has no other
    if not unit_text:
        raise _wrong(option, text, ", without its unit")
    if not is_unit(unit_text):
        close = near(unit_text, unit_texts())
        raise _wrong(option, text, f"; did you mean {close}?" if close else "")
    own = unit(unit_text)
    for name, column in RANGED[option]:
        wanted = unit(name)
        if alike(own, wanted, loose=option == "speed"):
            half = 0.5 * 10 ** -PLACES.get(own.text, 3)
            at, around = (convert(each, own, wanted, loose=True) for each in (number, half))
            return _End(column, at, around)
    raise _wrong(option, text, f", {own.kind}")
