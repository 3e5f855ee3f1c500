"""The standard sets of drills: each by its designation, and the drills about a diameter.

The sets are those of the standards: metric, fractional inch, number and letter. Choosing works on
any sequence of drills, so that a workshop's own drawer can take their place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import NoReturn

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, OutOfRange, TradeError

__all__ = [
    "Drill",
    "DrillChoice",
    "choose",
    "drills_of",
    "read_drill",
]

INCH = 25.4
LARGEST = 100
"""In mm: where the sets end."""
SETS = ("metric", "fractional", "number", "letter")
INCH_SETS = ("fractional", "number", "letter")
EQUAL = 1e-6


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill: how it is called, its diameter, and the set it belongs to."""

    designation: str
    """`6.8 mm`, `25/64 in`, `#7` or `F`."""
    diameter: Millimetre
    set_name: str
    """`metric`, `fractional`, `number` or `letter`; `none` for a size between those of the sets."""

    @classmethod
    def from_text(cls, text: str) -> Drill:
        """The drill that a designation names."""
        return read_drill(text)

    def describe(self) -> str:
        """The drill in one sentence, in both systems."""
        where = f"{self.set_name} set" if self.set_name in SETS else "in no standard set"
        inches = self.diameter / INCH
        return f"drill {self.designation} ({where}): {self.diameter:.3f} mm, {inches:.4f} in"


@dataclass(frozen=True, slots=True)
class DrillChoice:
    """The drills about a diameter: the nearest, and the ones on either side of it."""

    diameter: Millimetre
    """The diameter asked for."""
    nearest: Drill
    at_or_under: Drill
    """The greatest drill that is not larger than asked."""
    at_or_over: Drill
    """The least drill that is not smaller than asked."""

    @property
    def difference(self) -> Millimetre:
        """Nearest drill less the diameter asked."""
        return self.nearest.diameter - self.diameter

    @property
    def under_difference(self) -> Millimetre:
        """The drill at or under less the diameter asked: 0 or negative."""
        return self.at_or_under.diameter - self.diameter

    @property
    def over_difference(self) -> Millimetre:
        """The drill at or over less the diameter asked: 0 or positive."""
        return self.at_or_over.diameter - self.diameter

    def describe(self) -> str:
        """The choice in one sentence, with the differences."""
        if abs(self.difference) < EQUAL:
            return f"{self.nearest.designation} is a drill of {self.diameter:.3f} mm"
        return (
            f"the nearest drill to {self.diameter:.3f} mm is {self.nearest.designation}"
            f" ({self.difference:+.3f} mm); under it {self.at_or_under.designation}"
            f" ({self.under_difference:+.3f} mm), over it {self.at_or_over.designation}"
            f" ({self.over_difference:+.3f} mm)"
        )


def choose(diameter: Millimetre, drills: Sequence[Drill]) -> DrillChoice:
    """The drills of a sequence about a diameter; of two equally near, the smaller."""
    ordered = sorted(drills, key=lambda each: each.diameter)
    if not ordered:
        raise TradeError("there is no drill to choose from", argument="sets")
    least, most = ordered[0].diameter, ordered[-1].diameter
    if not least - EQUAL <= diameter <= most + EQUAL:
        raise OutOfRange("diameter", diameter, "mm", least=least, most=most, source="those drills")
    return DrillChoice(
        diameter,
        nearest=min(ordered, key=lambda each: abs(each.diameter - diameter)),
        at_or_under=max(
            (each for each in ordered if each.diameter <= diameter + EQUAL),
            key=lambda each: each.diameter,
        ),
        at_or_over=next(each for each in ordered if each.diameter >= diameter - EQUAL),
    )


# ---- the sets --------------------------------------------------------------------------------


def drills_of(sets: str = "") -> tuple[Drill, ...]:
    """The drills of the named sets, with commas between the names; of all four if empty."""
    names = [name.strip() for name in sets.split(",")] if sets.strip() else list(SETS)
    for name in names:
        if name not in SETS:
            raise TradeError(
                f'"{name}" is no set of drills', hint=f"sets are {', '.join(SETS)}", argument="sets"
            )
    return tuple(each for name in dict.fromkeys(names) for each in _set(name))


def _ranges(name: str) -> Iterator[int]:
    for row in table(f"drills_{name}").rows:
        first, last, step = (int(cell) for cell in row.values())
        yield from range(first, last + 1, step)


@cache
def _set(name: str) -> tuple[Drill, ...]:
    """The drills of one standard set, in the order of its table."""
    if name == "metric":
        return tuple(
            Drill(_metric_name(um / 1000), um / 1000, name) for um in sorted(_ranges(name))
        )
    if name == "fractional":
        sizes = (Fraction(n, 64) for n in _ranges(name))
        return tuple(Drill(_inch_name(inch), float(inch) * INCH, name) for inch in sizes)
    return tuple(
        Drill(row["size"], round(float(row["diameter_in"]) * INCH, 6), name)
        for row in table(f"drills_{name}").rows
    )


def _metric_name(diameter: float) -> str:
    return f"{diameter:.1f} mm" if round(diameter * 10, 6) % 1 == 0 else f"{diameter:g} mm"


def _inch_name(inch: Fraction) -> str:
    whole, rest = divmod(inch, 1)
    parts = [str(part) for part in (whole, rest) if part]
    return "-".join(parts) + " in"


# ---- reading a designation -------------------------------------------------------------------

_DECIMAL = re.compile(r"([0-9]+\.[0-9]+|\.[0-9]+|[0-9]+) ?(mm|in)?")
_FRACTION = re.compile(r"(?:([0-9]+)[- ])?([0-9]+)/([0-9]+)(?: ?in)?")
_NUMBER = re.compile(r"(?:#|No\. ?|No )([0-9]+)")


def _refuse(message: str, hint: str = "") -> NoReturn:
    raise TradeError(message, hint=hint, argument="designation")


@lru_cache(maxsize=1024)
def read_drill(text: str) -> Drill:
    """The drill that a designation names.

    Raises
    ------
    TradeError
        The text names no drill, or might name two.
    """
    plain = " ".join(text.split())
    if len(plain) > 60:
        _refuse(f"a drill designation has at most 60 characters, this has {len(plain)}")
    if found := _NUMBER.fullmatch(plain):
        return _numbered(found[1])
    if re.fullmatch("[A-Z]", plain):
        return next(each for each in _set("letter") if each.designation == plain)
    if found := _FRACTION.fullmatch(plain):
        return _fraction(text, *found.groups())
    if found := _DECIMAL.fullmatch(plain):
        return _decimal(*found.groups())
    hint = 'write "#7", "F", "5/32 in" or "6.8 mm"'
    if re.fullmatch("[a-z]", plain):
        hint = f'did you mean "{plain.upper()}"'
    _refuse(f'"{text}" names no drill', hint)


def _numbered(number: str) -> Drill:
    wanted = f"#{int(number)}"
    for each in _set("number"):
        if each.designation == wanted:
            return each
    _refuse(f"{wanted} is no number drill: they run from #1 to #80 (ASME B94.11M)")


def _fraction(text: str, whole: str | None, over: str, under: str) -> Drill:
    if int(under) == 0:
        _refuse(f'"{text}" divides by 0')
    inch = int(whole or 0) + Fraction(int(over), int(under))
    for each in _set("fractional"):
        if abs(each.diameter - float(inch) * INCH) < EQUAL:
            return each
    _refuse(
        f'"{text}" is no fractional drill: they run from 1/64 to 3-1/2 in (ASME B94.11M)',
        "they go by 64ths to 1-3/4 in, by 32nds to 2-1/4 in, by 16ths to 3 in",
    )


def _decimal(number: str, unit: str | None) -> Drill:
    if unit is None and "." not in number:
        _refuse(
            f"{number} may be a number drill or a size in mm",
            f'write "#{number}" or "{number} mm"' if len(number) < 4 else "",
        )
    if unit == "in":
        return _in_inches(number)
    diameter = _in_range(float(number), f"{number} mm")
    return _at(diameter, _set("metric")) or Drill(_metric_name(diameter), diameter, "none")


def _in_range(diameter: float, text: str) -> float:
    if not 0 < diameter <= LARGEST:
        _refuse(f"a drill of {text} is not held: they are over 0 and at most {LARGEST} mm")
    return diameter


def _in_inches(number: str) -> Drill:
    diameter = _in_range(float(number) * INCH, f"{number} in")
    found = _at(diameter, drills_of(",".join(INCH_SETS)), within=0.00005 * INCH)
    return found or Drill(f"{float(number):g} in", diameter, "none")


def _at(diameter: float, drills: Sequence[Drill], within: float = EQUAL) -> Drill | None:
    near = min(drills, key=lambda each: abs(each.diameter - diameter))
    return near if abs(near.diameter - diameter) <= within else None
