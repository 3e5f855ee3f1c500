"""Hole patterns as a digital readout wants them, and the distances that check them."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees, dist

from shoplog.trade.declare import Degree, Millimetre, TradeError, offered
from shoplog.trade.hole_work.hole_patterns import HoleLayout
from shoplog.trade.hole_work.holes import GEOMETRY, Hole, HolePattern
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within

__all__ = [
    "HoleDistance",
    "Readout",
    "ReadoutLine",
    "distance_over_pins",
    "hole_distance",
    "hole_readout",
]


@dataclass(frozen=True, slots=True)
class ReadoutLine:
    """One hole as it is dialled in: where it is, how far from the hole before."""

    number: int
    x: Millimetre
    y: Millimetre
    step_x: Millimetre
    """From the hole before; from the readout's zero for the first."""
    step_y: Millimetre
    chord: Millimetre
    """Straight distance from the hole before; 0 for the first."""

    def describe(self) -> str:
        """The line as it is printed."""
        check = f", {self.chord:.3f} mm from hole {self.number - 1}" if self.number > 1 else ""
        return f"{self.number}: X {self.x:+.3f} mm, Y {self.y:+.3f} mm{check}"


@dataclass(frozen=True, slots=True)
class Readout:
    """Every hole of a pattern in the order of drilling, as a digital readout shows it."""

    lines: tuple[ReadoutLine, ...]

    @property
    def x(self) -> tuple[Millimetre, ...]:
        """What the readout shows along x at each hole."""
        return tuple(line.x for line in self.lines)

    @property
    def y(self) -> tuple[Millimetre, ...]:
        """What the readout shows along y at each hole."""
        return tuple(line.y for line in self.lines)

    @property
    def closing(self) -> Millimetre:
        """Distance from the last hole back to the first: the last check."""
        first, last = self.lines[0], self.lines[-1]
        return dist((first.x, first.y), (last.x, last.y))

    def describe(self) -> str:
        """The whole list."""
        return "; ".join(line.describe() for line in self.lines) + "."


@dataclass(frozen=True, slots=True)
class HoleDistance:
    """How two holes of a pattern lie to each other."""

    first: int
    second: int
    distance: Millimetre
    """From centre to centre."""
    along_x: Millimetre
    along_y: Millimetre
    angle: Degree
    """Of the line from the first to the second, counter-clockwise from +x."""

    def describe(self) -> str:
        """The distance in one sentence."""
        return (
            f"Hole {self.second} is {self.distance:.3f} mm from hole {self.first},"
            f" {self.along_x:+.3f} mm along x and {self.along_y:+.3f} mm along y,"
            f" at {self.angle:.4f}°."
        )


@offered(source=GEOMETRY)
def hole_readout(
    pattern: HolePattern | HoleLayout, zero_x: Millimetre = 0, zero_y: Millimetre = 0
) -> Readout:
    """Holes as a digital readout shows them from its zero, each with the distance to check it by.

    Parameters
    ----------
    pattern : HolePattern or HoleLayout [-]
        The holes.
    zero_x : float [mm]
        Where the readout is set to 0 along x, from the datum of the pattern.
    zero_y : float [mm]
        Where the readout is set to 0 along y.

    Returns
    -------
    Readout [-]
        A line for each hole: x, y, the step and the chord from the hole before.

    Notes
    -----
    Which way the readout counts is the machine's matter; mirror the holes if x runs the other way.

    Examples
    --------
    >>> from shoplog.trade.hole_work.hole_patterns import hole_row
    >>> print(hole_readout(hole_row(2, 25), zero_x=10).describe())
    1: X -10.000 mm, Y +0.000 mm; 2: X +15.000 mm, Y +0.000 mm, 25.000 mm from hole 1.

    References
    ----------
    Plane geometry.
    """
    require_within("zero_x", zero_x, "mm", -LARGEST, LARGEST)
    require_within("zero_y", zero_y, "mm", -LARGEST, LARGEST)
    lines: list[ReadoutLine] = []
    for hole in pattern.points:
        x, y = hole.x - zero_x, hole.y - zero_y
        before = lines[-1] if lines else None
        back_x, back_y = (before.x, before.y) if before else (0.0, 0.0)
        chord = dist((x, y), (back_x, back_y)) if before else 0.0
        lines.append(ReadoutLine(hole.number, x, y, x - back_x, y - back_y, chord))
    return Readout(tuple(lines))


def _hole(pattern: HolePattern | HoleLayout, number: float, argument: str) -> Hole:
    count = len(pattern.points)
    require_within(argument, number, "", 1, count)
    if number != round(number):
        raise TradeError(f"{argument} is {number:g}, it must be a whole number", argument=argument)
    return pattern.points[int(number) - 1]


@offered(source=GEOMETRY)
def hole_distance(pattern: HolePattern | HoleLayout, first: int, second: int) -> HoleDistance:
    """Distance between two holes of a pattern, to check them by after drilling.

    L = sqrt((x2 - x1)^2 + (y2 - y1)^2).

    Parameters
    ----------
    pattern : HolePattern or HoleLayout [-]
        The holes.
    first : int [-]
        Number of the one hole.
    second : int [-]
        Number of the other hole.

    Returns
    -------
    HoleDistance [-]
        The straight distance, its parts along x and y, and its angle.

    Notes
    -----
    With pins in both holes `distance_over_pins` gives what the caliper shows.

    Examples
    --------
    >>> from shoplog.trade.hole_work.holes import bolt_circle
    >>> round(hole_distance(bolt_circle(60, 6), 1, 3).distance, 3)
    51.962

    References
    ----------
    Plane geometry.
    """
    one, other = _hole(pattern, first, "first"), _hole(pattern, second, "second")
    along_x, along_y = other.x - one.x, other.y - one.y
    angle = degrees(atan2(along_y, along_x)) % 360 % 360
    apart = dist((one.x, one.y), (other.x, other.y))
    return HoleDistance(one.number, other.number, apart, along_x, along_y, angle)


@offered(source=GEOMETRY)
def distance_over_pins(
    distance: Millimetre, pin: Millimetre, other_pin: Millimetre | None = None
) -> Millimetre:
    """What a caliper shows over pins that stand in two holes.

    M = L + (d1 + d2) / 2.

    Parameters
    ----------
    distance : float [mm]
        Over 0; between the holes' centres.
    pin : float [mm]
        Over 0; diameter of the pin in the one hole.
    other_pin : float [mm]
        Over 0; in the other hole; the same if not given.

    Returns
    -------
    float [mm]
        Size over both pins.

    Notes
    -----
    Between the pins it is less by both diameters. The pins must fill the holes.

    Examples
    --------
    >>> distance_over_pins(50, 6)
    56.0

    References
    ----------
    Plane geometry.
    """
    second = pin if other_pin is None else other_pin
    require_positive("distance", distance, "mm")
    require_positive("pin", pin, "mm")
    require_positive("other_pin", second, "mm")
    return distance + (pin + second) / 2
