"""What a canvas draws with: kinds of lines, fills, the numbers that they tell, and path data.

The kinds of lines are those of ISO 128-2 (ISO 128-20 before it): a wide line for an outline, and
lines of half its width for dimensions, hatching, hidden edges, axes and neighbouring parts.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, hypot, isfinite, radians, sin

__all__ = [
    "ARROW",
    "CENTRE",
    "CLOSE",
    "CURVE",
    "DASHED_CURVE",
    "DIMENSION",
    "FALLING",
    "HIDDEN",
    "KINDS",
    "LEAST_EXTENT",
    "OUTLINE",
    "PHANTOM",
    "PLAIN",
    "RISING",
    "THIN",
    "TINT",
    "Fill",
    "LineKind",
    "Point",
    "Tells",
    "apart",
    "arc",
    "circle",
    "coordinate",
    "lines",
    "on_circle",
    "per_unit",
]

LEAST_EXTENT = 1e-200

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class LineKind:
    """A kind of line: its name in the style sheet, its width, and its dashes."""

    name: str
    width: float
    dashes: str = ""


# Dashes in widths of the line (ISO 128-2): a dash 12, a gap 3, a long dash 24, a dot 0.5.
OUTLINE = LineKind("outline", 1.4)
THIN = LineKind("thin", 0.7)
HIDDEN = LineKind("hidden", 0.7, "8.4 2.1")
CENTRE = LineKind("centre", 0.7, "16.8 2.1 0.7 2.1")
PHANTOM = LineKind("phantom", 0.7, "16.8 2.1 0.7 2.1 0.7 2.1")
DIMENSION = LineKind("dimension", 0.7)
CURVE = LineKind("curve", 1.8)
DASHED_CURVE = LineKind("dashed-curve", 1.8, "6 3")
KINDS = (HIDDEN, CENTRE, PHANTOM, THIN, OUTLINE, DASHED_CURVE, CURVE, DIMENSION)
"""From the back to the front."""


@dataclass(frozen=True, slots=True)
class Fill:
    """What an area is filled with: its name in the style sheet, and the slant of its hatching."""

    name: str
    slant: float | None = None
    step: float = 6.0


# Two parts that touch are hatched against each other (ISO 128-3, hatching at 45°).
RISING = Fill("rising", 45)
FALLING = Fill("falling", -45)
CLOSE = Fill("close", 45, 3.0)
"""A third part between two others."""
TINT = Fill("tint")
PLAIN = Fill("plain")
"""The ground of the page, which covers what lies behind."""
ARROW = Fill("arrow")
"""Solid, in the colour of the lines: the heads of arrows."""


@dataclass(frozen=True, slots=True)
class Tells:
    """The number that something drawn stands for: the name of the result's field, and its unit."""

    name: str
    value: float
    unit: str = ""

    def attributes(self) -> dict[str, str]:
        """As the element carries it."""
        shown = {"data_shows": self.name, "data_value": f"{self.value:.12g}"}
        return shown | {"data_unit": self.unit} if self.unit else shown


def per_unit(room: float, extent: float) -> float:
    """Units of the picture for one of what is drawn, so that an extent fills the room; 1 where
    there is no extent, or none that a number can be divided by.
    """
    return room / extent if extent > LEAST_EXTENT else 1.0


# ---- path data ----


def lines(points: Iterable[Point], *, closed: bool = False) -> str:
    """The path data of a line through points."""
    return "M" + "L".join(map(_pair, points)) + ("Z" if closed else "")


def circle(centre: Point, radius: float) -> str:
    """The path data of a whole circle."""
    r = coordinate(radius)
    left, right = (centre[0] - radius, centre[1]), (centre[0] + radius, centre[1])
    return f"M{_pair(left)}A{r} {r} 0 0 1 {_pair(right)}A{r} {r} 0 0 1 {_pair(left)}Z"


def arc(centre: Point, radius: float, start: float, end: float) -> str:
    """The path data of an arc from one angle to another, counter-clockwise from the right."""
    one, other = (on_circle(centre, radius, angle) for angle in (start, end))
    size, large, sweep = coordinate(radius), int(abs(end - start) > 180), int(end < start)
    return f"{lines((one,))}A{size} {size} 0 {large} {sweep} {_pair(other)}"


def on_circle(centre: Point, radius: float, angle: float) -> Point:
    """The place on a circle at an angle in degrees, counter-clockwise from the right."""
    turn = radians(angle)
    return centre[0] + radius * cos(turn), centre[1] - radius * sin(turn)


def apart(one: Point, other: Point) -> float:
    """The distance of two places."""
    return hypot(other[0] - one[0], other[1] - one[1])


def _pair(point: Point) -> str:
    return f"{coordinate(point[0])},{coordinate(point[1])}"


def coordinate(number: float) -> str:
    """A coordinate to a hundredth of a unit, which no eye can see."""
    if not isfinite(number):
        raise ValueError(f"{number} is no place in a picture")
    text = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
