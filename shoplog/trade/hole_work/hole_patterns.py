"""Rows, grids, arcs and listed holes by coordinates: turned, mirrored, moved, read out, measured.

Coordinates are exact and rounded where they are shown. Angles run counter-clockwise from +x.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, degrees, dist, radians, sin

from shoplog.trade.declare import Degree, Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.hole_work.holes import GEOMETRY, MOST_HOLES, Hole, HolePattern
from shoplog.trade.machining.cutting import LARGEST, require_count, require_positive, require_within

__all__ = [
    "HoleLayout",
    "hole_arc",
    "hole_grid",
    "hole_row",
    "holes_at",
    "layout_of",
    "layouts_mate",
    "mirrored_holes",
    "moved_holes",
    "turned_holes",
]

SAME_PLACE = 1e-6
"""In mm: closer than this, two holes are one."""


@dataclass(frozen=True, slots=True)
class HoleLayout:
    """Holes by their coordinates from the datum, in the order in which they are drilled."""

    kind: str
    """What it was made as: `row`, `grid`, `arc`, `circle` or `list`."""
    points: tuple[Hole, ...]

    @property
    def count(self) -> int:
        """Number of holes."""
        return len(self.points)

    @property
    def x(self) -> tuple[Millimetre, ...]:
        """The holes' x, in order."""
        return tuple(hole.x for hole in self.points)

    @property
    def y(self) -> tuple[Millimetre, ...]:
        """The holes' y, in order."""
        return tuple(hole.y for hole in self.points)

    @property
    def steps(self) -> tuple[Millimetre, ...]:
        """Distance from each hole to the next in order, to check neighbours with."""
        return tuple(_apart(one, other) for one, other in pairwise(self.points))

    @property
    def across_x(self) -> Millimetre:
        """From the least x to the greatest."""
        return max(self.x) - min(self.x)

    @property
    def across_y(self) -> Millimetre:
        """From the least y to the greatest."""
        return max(self.y) - min(self.y)

    def describe(self) -> str:
        """The layout in one sentence."""
        holes = "1 hole" if self.count == 1 else f"{self.count} holes"
        extent = f"{self.across_x:.3f} mm along x and {self.across_y:.3f} mm along y"
        return f"{holes} ({self.kind}) over {extent}, hole 1 at {_place(self.points[0])}."


def _place(hole: Hole) -> str:
    return f"x {hole.x:.3f} mm, y {hole.y:.3f} mm"


def _apart(one: Hole, other: Hole) -> float:
    return dist((one.x, one.y), (other.x, other.y))


def layout_of(kind: str, places: Iterable[tuple[float, float]]) -> HoleLayout:
    """The layout of holes at places, numbered in order.

    Raises
    ------
    TradeError
        Two holes are at one place.
    """
    clean = [(_settled(x), _settled(y)) for x, y in places]
    scale = max((abs(part) for place in clean for part in place), default=0.0)
    same = max(SAME_PLACE, 1e-12 * scale)
    first: dict[tuple[int, int], int] = {}
    for number, (x, y) in enumerate(clean, start=1):
        cell = (round(x / same), round(y / same))
        if cell in first:
            raise TradeError(
                f"holes {first[cell]} and {number} are at one place, x {x:g} mm, y {y:g} mm"
            )
        first[cell] = number
    return HoleLayout(
        kind,
        tuple(
            Hole(number, x, y, degrees(atan2(y, x)) % 360 % 360)
            for number, (x, y) in enumerate(clean, start=1)
        ),
    )


def _settled(part: float) -> float:
    """A coordinate whose rounding residue (cos 90° is 6e-17) is not passed on as a size."""
    return 0.0 if abs(part) <= 1e-9 else part


def _turned(
    x: float, y: float, angle: float, about_x: float, about_y: float
) -> tuple[float, float]:
    right, up = x - about_x, y - about_y
    # Exact at a whole number of turns, and without residue at quarters.
    turn = radians(angle % 360)
    c, s = (round(part, 15) for part in (cos(turn), sin(turn)))
    return about_x + right * c - up * s, about_y + right * s + up * c


def _require_place(**coordinates: float) -> None:
    for name, value in coordinates.items():
        require_within(name, value, "mm", -LARGEST, LARGEST)


def _require_turn(argument: str, angle: float) -> None:
    require_within(argument, angle, "deg", -360, 360)


@offered(source=GEOMETRY)
def hole_row(
    holes: int,
    spacing: Millimetre,
    angle: Degree = 0,
    first_x: Millimetre = 0,
    first_y: Millimetre = 0,
) -> HoleLayout:
    """Coordinates of holes evenly spaced on a straight line.

    x = x1 + k s cos(a) and y = y1 + k s sin(a), for k from 0 to n - 1.

    Parameters
    ----------
    holes : int [-]
        1 to 200.
    spacing : float [mm]
        Over 0; from centre to centre.
    angle : float [deg]
        -360 to 360; of the row, counter-clockwise from +x.
    first_x : float [mm]
        x of hole 1, from the datum.
    first_y : float [mm]
        y of hole 1, from the datum.

    Returns
    -------
    HoleLayout [-]
        Every hole with x and y.

    Notes
    -----
    Each hole is reckoned from the datum, so no error of a step adds up along the row.

    Examples
    --------
    >>> hole_row(3, 25, first_x=10).x
    (10.0, 35.0, 60.0)

    References
    ----------
    Plane geometry.
    """
    require_count("holes", holes, MOST_HOLES)
    require_positive("spacing", spacing, "mm")
    _require_turn("angle", angle)
    _require_place(first_x=first_x, first_y=first_y)
    places = ((first_x + k * spacing, first_y) for k in range(int(holes)))
    return layout_of("row", (_turned(x, y, angle, first_x, first_y) for x, y in places))


@offered(source=GEOMETRY)
def hole_grid(
    columns: int,
    rows: int,
    column_spacing: Millimetre,
    row_spacing: Millimetre,
    angle: Degree = 0,
    first_x: Millimetre = 0,
    first_y: Millimetre = 0,
) -> HoleLayout:
    """Coordinates of holes in rows and columns, each row drilled back along the one before.

    Parameters
    ----------
    columns : int [-]
        1 to 200; holes in a row.
    rows : int [-]
        1 to 200; at most 200 holes in all.
    column_spacing : float [mm]
        Over 0; along x before turning.
    row_spacing : float [mm]
        Over 0; along y before turning.
    angle : float [deg]
        -360 to 360; the whole grid turned about hole 1.
    first_x : float [mm]
        x of hole 1, from the datum.
    first_y : float [mm]
        y of hole 1, from the datum.

    Returns
    -------
    HoleLayout [-]
        Every hole with x and y.

    Notes
    -----
    The order to and fro is the short way for the table, but every second row is come to from the
    other side: take up the backlash from one side all the same.

    Examples
    --------
    >>> [(hole.x, hole.y) for hole in hole_grid(2, 2, 40, 30).points]
    [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)]

    References
    ----------
    Plane geometry.
    """
    require_count("columns", columns, MOST_HOLES)
    require_count("rows", rows, MOST_HOLES)
    if columns * rows > MOST_HOLES:
        raise OutOfRange("rows", rows, "", most=MOST_HOLES // int(columns))
    require_positive("column_spacing", column_spacing, "mm")
    require_positive("row_spacing", row_spacing, "mm")
    _require_turn("angle", angle)
    _require_place(first_x=first_x, first_y=first_y)
    places = (
        (first_x + (column if row % 2 == 0 else columns - 1 - column) * column_spacing, y)
        for row in range(int(rows))
        for y in (first_y + row * row_spacing,)
        for column in range(int(columns))
    )
    return layout_of("grid", (_turned(x, y, angle, first_x, first_y) for x, y in places))


@offered(source=GEOMETRY)
def hole_arc(
    diameter: Millimetre,
    holes: int,
    start_angle: Degree,
    end_angle: Degree,
    centre_x: Millimetre = 0,
    centre_y: Millimetre = 0,
) -> HoleLayout:
    """Coordinates of holes evenly spaced on an arc, with a hole at each end.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the circle that the arc is part of.
    holes : int [-]
        2 to 200.
    start_angle : float [deg]
        -360 to 360; where hole 1 is, counter-clockwise from +x.
    end_angle : float [deg]
        -360 to 360; where the last hole is; less than the start for clockwise, and less than a
        whole turn from it.
    centre_x : float [mm]
        x of the circle's centre, from the datum.
    centre_y : float [mm]
        y of the circle's centre, from the datum.

    Returns
    -------
    HoleLayout [-]
        Every hole with x and y.

    Notes
    -----
    A whole circle is `bolt_circle`.

    Examples
    --------
    >>> [(round(hole.x, 3), round(hole.y, 3)) for hole in hole_arc(80, 3, 0, 90).points]
    [(40.0, 0.0), (28.284, 28.284), (0.0, 40.0)]

    References
    ----------
    Plane geometry.
    """
    require_positive("diameter", diameter, "mm")
    require_within("holes", holes, "", 2, MOST_HOLES)
    require_count("holes", holes, MOST_HOLES)
    _require_turn("start_angle", start_angle)
    _require_turn("end_angle", end_angle)
    _require_place(centre_x=centre_x, centre_y=centre_y)
    sweep = end_angle - start_angle
    if not 0 < abs(sweep) < 360:
        raise TradeError(
            f"the arc goes over {sweep:g} deg, it must be over 0 deg and below 360 deg",
            hint="a whole circle is bolt_circle",
            argument="end_angle",
        )
    angles = (start_angle + k * sweep / (holes - 1) for k in range(int(holes)))
    start = (centre_x + diameter / 2, centre_y)
    return layout_of("arc", (_turned(*start, a, centre_x, centre_y) for a in angles))


@offered(source=GEOMETRY)
def holes_at(x: list[Millimetre], y: list[Millimetre]) -> HoleLayout:
    """Holes by their own coordinates from a drawing, to turn, mirror, move and read out.

    Parameters
    ----------
    x : list of float [mm]
        x of each hole, from the datum; 1 to 200 of them.
    y : list of float [mm]
        y of each hole, as many.

    Returns
    -------
    HoleLayout [-]
        Every hole with x and y.

    Notes
    -----
    `holes_at([0 mm, 40 mm], [0 mm, 12.5 mm])` on a page.

    Examples
    --------
    >>> holes_at([0, 30], [0, 40]).steps
    (50.0,)

    References
    ----------
    Plane geometry.
    """
    require_within("x", len(x), "", 1, MOST_HOLES)
    if len(x) != len(y):
        raise TradeError(f"there are {len(x)} x and {len(y)} y, one each is wanted", argument="y")
    for name, values in (("x", x), ("y", y)):
        for value in values:
            require_within(name, value, "mm", -LARGEST, LARGEST)
    return layout_of("list", zip(x, y, strict=True))


def _kind(pattern: HolePattern | HoleLayout) -> str:
    return pattern.kind if isinstance(pattern, HoleLayout) else "circle"


@offered(source=GEOMETRY)
def turned_holes(
    pattern: HolePattern | HoleLayout,
    angle: Degree,
    about_x: Millimetre = 0,
    about_y: Millimetre = 0,
) -> HoleLayout:
    """Holes turned about a point, counter-clockwise.

    Parameters
    ----------
    pattern : HolePattern or HoleLayout [-]
        The holes.
    angle : float [deg]
        -360 to 360.
    about_x : float [mm]
        x of the point that stays.
    about_y : float [mm]
        y of the point that stays.

    Returns
    -------
    HoleLayout [-]
        The holes in the same order.

    Notes
    -----
    For a part that is clamped askew: turn the holes by the angle found with an indicator.

    Examples
    --------
    >>> turned_holes(hole_row(2, 50), 90).y
    (0.0, 50.0)

    References
    ----------
    Plane geometry.
    """
    _require_turn("angle", angle)
    _require_place(about_x=about_x, about_y=about_y)
    places = ((hole.x, hole.y) for hole in pattern.points)
    turned = (_turned(x, y, angle, about_x, about_y) for x, y in places)
    return layout_of(_kind(pattern), turned)


@offered(source=GEOMETRY)
def mirrored_holes(
    pattern: HolePattern | HoleLayout, across: str = "x", at: Millimetre = 0
) -> HoleLayout:
    """Holes mirrored in a line, as the other side of the part or its opposite hand has them.

    Parameters
    ----------
    pattern : HolePattern or HoleLayout [-]
        The holes.
    across : str [-]
        Which coordinate changes: `x` mirrors left and right, `y` up and down.
    at : float [mm]
        Where the line is on that coordinate.

    Returns
    -------
    HoleLayout [-]
        The holes in the same order.

    Notes
    -----
    A part turned over about its y axis shows its holes mirrored across x.

    Examples
    --------
    >>> mirrored_holes(hole_row(2, 50, first_x=10), "x", at=40).x
    (70.0, 20.0)

    References
    ----------
    Plane geometry.
    """
    if across not in ("x", "y"):
        raise TradeError(f'"{across[:20]}" is no coordinate', hint='"x" or "y"', argument="across")
    require_within("at", at, "mm", -LARGEST, LARGEST)
    if across == "x":
        places = ((2 * at - hole.x, hole.y) for hole in pattern.points)
    else:
        places = ((hole.x, 2 * at - hole.y) for hole in pattern.points)
    return layout_of(_kind(pattern), places)


@offered(source=GEOMETRY)
def moved_holes(
    pattern: HolePattern | HoleLayout, along_x: Millimetre, along_y: Millimetre
) -> HoleLayout:
    """Holes moved, as when the datum is put elsewhere.

    Parameters
    ----------
    pattern : HolePattern or HoleLayout [-]
        The holes.
    along_x : float [mm]
        How far along x.
    along_y : float [mm]
        How far along y.

    Returns
    -------
    HoleLayout [-]
        The holes in the same order.

    Notes
    -----
    A datum moved by +10 mm moves the holes by -10 mm.

    Examples
    --------
    >>> moved_holes(hole_row(2, 50), -5, 8).x
    (-5.0, 45.0)

    References
    ----------
    Plane geometry.
    """
    _require_place(along_x=along_x, along_y=along_y)
    return layout_of(
        _kind(pattern), ((hole.x + along_x, hole.y + along_y) for hole in pattern.points)
    )


def layouts_mate(one: HolePattern | HoleLayout, other: HolePattern | HoleLayout) -> str:
    """Why two layouts do not go together, or nothing where they do.

    Both are taken as seen from the same side, and neither is turned. Where the datum of each part
    is makes no difference: the holes are compared from their common middle.
    """
    here, there = _about_middle(one), _about_middle(other)
    if len(here) != len(there):
        return f"the numbers of holes differ: {len(here)} and {len(there)}"
    for number, place in enumerate(here, start=1):
        nearest = min(there, key=lambda each: dist(place, each))
        off = dist(place, nearest)
        if off > SAME_PLACE:
            return f"hole {number} of the first is {off:.3f} mm off the nearest hole of the second"
    return ""


def _about_middle(pattern: HolePattern | HoleLayout) -> list[tuple[float, float]]:
    points = pattern.points
    middle_x = sum(hole.x for hole in points) / len(points)
    middle_y = sum(hole.y for hole in points) / len(points)
    return [(hole.x - middle_x, hole.y - middle_y) for hole in points]
