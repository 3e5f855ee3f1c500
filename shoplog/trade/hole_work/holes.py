"""Drilled holes: the length of a drill's point, and holes on a circle by coordinates."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, isclose, pi, radians, sin, tan

from shoplog.trade.declare import Degree, Millimetre, OutOfRange, offered
from shoplog.trade.machining.cutting import LARGEST, require_count, require_positive, require_within

__all__ = [
    "Hole",
    "HolePattern",
    "bolt_circle",
    "drill_depth",
    "drill_point_depth",
    "patterns_mate",
]

MOST_HOLES = 200
GEOMETRY = "plane geometry; the same figures as the factors for jig boring in Machinery's Handbook"


def _require_point_angle(point_angle: float) -> None:
    require_positive("point_angle", point_angle, "deg")
    if not point_angle <= 180:
        raise OutOfRange("point_angle", point_angle, "deg", most=180)


@offered(source="Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, eq. 22.10")
def drill_point_depth(diameter: Millimetre, point_angle: Degree = 118) -> Millimetre:
    """Length of a drill's point, from the tip to the full diameter.

    A = D / (2 tan(theta / 2)), with D the drill and theta its point angle.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the drill.
    point_angle : float [deg]
        Over 0, at most 180; 118 where nothing is said, 135 for many split points.

    Returns
    -------
    float [mm]
        Length of the point.

    Notes
    -----
    For a sharp cone: the chisel edge of a twist drill makes it a little shorter.

    Examples
    --------
    >>> round(drill_point_depth(10), 3)
    3.004

    References
    ----------
    Groover, 4th ed. 2010, eq. 22.10 (from memory).
    """
    require_positive("diameter", diameter, "mm")
    _require_point_angle(point_angle)
    return diameter / (2 * tan(radians(point_angle / 2)))


@offered(source="Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, section 22.3")
def drill_depth(
    full_depth: Millimetre, diameter: Millimetre, point_angle: Degree = 118
) -> Millimetre:
    """Depth to the tip of a drill that makes a hole of a depth at its full diameter.

    Parameters
    ----------
    full_depth : float [mm]
        0 or more; at the full diameter.
    diameter : float [mm]
        Over 0; of the drill.
    point_angle : float [deg]
        Over 0, at most 180; 118 where nothing is said, 135 for many split points.

    Returns
    -------
    float [mm]
        Depth from the face to the tip.

    Notes
    -----
    A depth stop is set from where the tip touches; a point needs room below a blind hole.

    Examples
    --------
    >>> round(drill_depth(60, 12.7), 2)
    63.82

    References
    ----------
    Groover, 4th ed. 2010, section 22.3 (from memory).
    """
    require_within("full_depth", full_depth, "mm", 0, LARGEST)
    return full_depth + drill_point_depth(diameter, point_angle)


@dataclass(frozen=True, slots=True)
class Hole:
    """One hole of a pattern, by its coordinates from the datum."""

    number: int
    x: Millimetre
    y: Millimetre
    angle: Degree
    """Counter-clockwise from +x, from 0 to below 360."""

    def describe(self) -> str:
        """The hole in one sentence."""
        return f"Hole {self.number}: x {self.x:.3f} mm, y {self.y:.3f} mm, at {self.angle:.4f}°."


@dataclass(frozen=True, slots=True)
class HolePattern:
    """Holes evenly spaced on a circle; hole 1 is at the start angle."""

    count: int
    diameter: Millimetre
    """Of the circle through the holes' centres."""
    start_angle: Degree = 0
    centre_x: Millimetre = 0
    centre_y: Millimetre = 0

    @property
    def spacing(self) -> Degree:
        """Angle from one hole to the next."""
        return 360 / self.count

    @property
    def chord(self) -> Millimetre:
        """Distance between the centres of neighbouring holes; 0 for a single hole."""
        return 0.0 if self.count == 1 else self.diameter * sin(pi / self.count)

    @property
    def points(self) -> tuple[Hole, ...]:
        """Every hole, counter-clockwise from hole 1."""
        return tuple(self._hole(number) for number in range(1, self.count + 1))

    @property
    def x(self) -> tuple[Millimetre, ...]:
        """The holes' x, in order."""
        return tuple(hole.x for hole in self.points)

    @property
    def y(self) -> tuple[Millimetre, ...]:
        """The holes' y, in order."""
        return tuple(hole.y for hole in self.points)

    def _hole(self, number: int) -> Hole:
        # Twice, for a tiny negative angle leaves 360 itself.
        angle = (self.start_angle + (number - 1) * 360 / self.count) % 360 % 360
        radius = self.diameter / 2
        return Hole(
            number,
            _coordinate(self.centre_x, radius, cos(radians(angle))),
            _coordinate(self.centre_y, radius, sin(radians(angle))),
            angle,
        )

    def describe(self) -> str:
        """The pattern in one sentence."""
        on = f"on a circle of {self.diameter:.3f} mm, hole 1 at {self.start_angle:g}°"
        if self.count == 1:
            return f"1 hole {on}."
        return (
            f"{self.count} holes {on}, {self.spacing:.4f}° apart,"
            f" {self.chord:.3f} mm from centre to centre."
        )


def _coordinate(centre: float, radius: float, part: float) -> float:
    """A sum whose rounding residue (cos 90° is 6e-17) is not passed on as a size."""
    total = centre + radius * part
    return 0.0 if abs(total) <= 1e-12 * radius else total


@offered(source=GEOMETRY)
def bolt_circle(
    diameter: Millimetre,
    holes: int,
    start_angle: Degree = 0,
    centre_x: Millimetre = 0,
    centre_y: Millimetre = 0,
) -> HolePattern:
    """Coordinates of holes evenly spaced on a circle, counter-clockwise from the start angle.

    x = cx + D/2 cos(a + 360 k / n) and y = cy + D/2 sin(a + 360 k / n), for k from 0 to n - 1.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the circle through the holes' centres.
    holes : int [-]
        1 to 200.
    start_angle : float [deg]
        -360 to 360; where hole 1 is, counter-clockwise from +x.
    centre_x : float [mm]
        x of the circle's centre, from the datum.
    centre_y : float [mm]
        y of the circle's centre, from the datum.

    Returns
    -------
    HolePattern [-]
        Every hole with x, y and angle, and the chord to check neighbours with.

    Notes
    -----
    Coordinates are exact; they are rounded where they are shown. Take up the backlash of a table's
    screw from the same side at every hole.

    Examples
    --------
    >>> [(round(hole.x, 3), round(hole.y, 3)) for hole in bolt_circle(40, 3).points]
    [(20.0, 0.0), (-10.0, 17.321), (-10.0, -17.321)]

    References
    ----------
    Machinery's Handbook, hole coordinate dimension factors for jig boring (from memory).
    """
    require_positive("diameter", diameter, "mm")
    require_count("holes", holes, MOST_HOLES)
    require_within("start_angle", start_angle, "deg", -360, 360)
    require_within("centre_x", centre_x, "mm", -LARGEST, LARGEST)
    require_within("centre_y", centre_y, "mm", -LARGEST, LARGEST)
    return HolePattern(int(holes), diameter, start_angle, centre_x, centre_y)


def patterns_mate(one: HolePattern, other: HolePattern) -> str:
    """Why two patterns do not go together, or nothing where they do.

    Both are taken as seen from the same side. A turn by the angle from hole to hole is no
    difference. The centres are not compared: each part has its own datum.
    """
    if one.count != other.count:
        return f"the numbers of holes differ: {one.count} and {other.count}"
    if not isclose(one.diameter, other.diameter, rel_tol=1e-9):
        return f"the circles differ: {one.diameter:.3f} mm and {other.diameter:.3f} mm"
    turn = (one.start_angle - other.start_angle) % one.spacing
    turn = min(turn, one.spacing - turn)
    if turn > 1e-9:
        return f"the patterns are turned against each other by {turn:.4f}°"
    return ""
