"""Flats, D-shafts, squares and hexagons from round stock, and square holes that are filed out."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sqrt, tan

from shoplog.trade.declare import Degree, Millimetre, OutOfRange, offered
from shoplog.trade.fastening.fixing_cautions import fixing_cautions
from shoplog.trade.hole_work.drills import Drill, choose, drills_of
from shoplog.trade.machining.cutting import LARGEST, require_count, require_positive, require_within

__all__ = [
    "Polygon",
    "SquareHole",
    "d_flat_across",
    "flat_depth",
    "flat_width",
    "polygon_on_round",
    "round_for_polygon",
    "square_hole",
]

SEGMENT = "plane geometry: chord and height of a segment"
POLYGON = "plane geometry of the regular polygon: corners = flats / cos(180 / n)"
MOST_SIDES = 100


@offered(source=SEGMENT)
def flat_depth(diameter: Millimetre, width: Millimetre) -> Millimetre:
    """Depth of a flat on a round, from its width.

    h = (D - sqrt(D^2 - w^2)) / 2.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the round.
    width : float [mm]
        Over 0, at most the diameter; of the flat across the round.

    Returns
    -------
    float [mm]
        Depth below the top of the round, at most the radius.

    Notes
    -----
    Width is the easier to see and the worse to measure from: near the top a little depth makes
    much width.

    Examples
    --------
    >>> flat_depth(10, 6)
    1.0

    References
    ----------
    Plane geometry.
    """
    require_positive("diameter", diameter, "mm")
    require_positive("width", width, "mm")
    if width > diameter:
        raise OutOfRange("width", width, "mm", over=0, most=diameter)
    return (diameter - sqrt(diameter**2 - width**2)) / 2


def _require_depth(diameter: float, depth: float) -> None:
    require_positive("diameter", diameter, "mm")
    if not 0 < depth <= diameter / 2:
        raise OutOfRange(
            "depth",
            depth,
            "mm",
            over=0,
            most=diameter / 2,
            hint="a flat ends at the radius: beyond it the width falls again",
        )


@offered(source=SEGMENT)
def flat_width(diameter: Millimetre, depth: Millimetre) -> Millimetre:
    """Width of a flat on a round, from its depth.

    w = 2 sqrt(h (D - h)).

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the round.
    depth : float [mm]
        Over 0, at most the radius; below the top of the round.

    Returns
    -------
    float [mm]
        Width of the flat.

    Notes
    -----
    Measured diameter and depth make it exact.

    Examples
    --------
    >>> flat_width(10, 1)
    6.0

    References
    ----------
    Plane geometry.
    """
    _require_depth(diameter, depth)
    return 2 * sqrt(depth * (diameter - depth))


@offered(source=SEGMENT)
def d_flat_across(diameter: Millimetre, depth: Millimetre, flats: int = 1) -> Millimetre:
    """Size over a flat of a D-shaft, or over two flats that face each other.

    D - n h, with n flats of depth h.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the round.
    depth : float [mm]
        Over 0, at most the radius, below it for two flats; of each flat.
    flats : int [-]
        1 for a D-shaft, 2 for flats that face each other.

    Returns
    -------
    float [mm]
        From the flat to the far side, or from flat to flat.

    Notes
    -----
    For a spanner's flats give `depth` as half of diameter less the width across flats.

    Examples
    --------
    >>> d_flat_across(6, 1.5)
    4.5

    References
    ----------
    Plane geometry.
    """
    _require_depth(diameter, depth)
    require_within("flats", flats, "", 1, 2)
    require_count("flats", flats, 2)
    if flats == 2 and depth >= diameter / 2:
        raise OutOfRange("depth", depth, "mm", over=0, below=diameter / 2)
    return diameter - flats * depth


@dataclass(frozen=True, slots=True)
class Polygon:
    """A regular polygon with the round that it is cut from."""

    sides: int
    across_flats: Millimetre
    """Diameter of the circle inside: from flat to flat where the sides are even in number."""
    corners: Millimetre
    """Diameter of the circle through the corners."""
    diameter: Millimetre
    """Of the round stock."""

    @property
    def side(self) -> Millimetre:
        """Length of a side of the sharp polygon."""
        return self.across_flats * tan(pi / self.sides)

    @property
    def flat_depth(self) -> Millimetre:
        """How deep each flat is cut, from the top of the round."""
        return (self.diameter - self.across_flats) / 2

    @property
    def flat_width(self) -> Millimetre:
        """Width of each flat: the side, or less where the round does not reach the corners."""
        return min(self.side, sqrt(max(0.0, self.diameter**2 - self.across_flats**2)))

    @property
    def over_round(self) -> Millimetre:
        """From a flat to the far side of the round, to measure while the first flats are cut."""
        return self.diameter - self.flat_depth

    @property
    def step(self) -> Degree:
        """Angle to turn from flat to flat."""
        return 360 / self.sides

    @property
    def full(self) -> bool:
        """Whether the round reaches the sharp corners."""
        return self.diameter >= self.corners * (1 - 1e-9)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of filing and cutting flats."""
        return fixing_cautions("flats")

    def describe(self) -> str:
        """The polygon in one sentence."""
        corner = "sharp corners" if self.full else "rounded corners"
        return (
            f"{self.sides} sides, {self.across_flats:.3f} mm across flats, {self.corners:.3f} mm"
            f" across corners, from round {self.diameter:.3f} mm ({corner}): each flat"
            f" {self.flat_depth:.3f} mm deep, {self.flat_width:.3f} mm wide."
        )


def _corner_ratio(sides: float) -> float:
    require_within("sides", sides, "", 3, MOST_SIDES)
    require_count("sides", sides, MOST_SIDES)
    return 1 / cos(pi / sides)


@offered(source=POLYGON)
def round_for_polygon(across_flats: Millimetre, sides: int = 6) -> Polygon:
    """Round to turn for a polygon with sharp corners: across corners, depth and width of a flat.

    e = s / cos(180 / n): 1.1547 s for a hexagon, 1.4142 s for a square.

    Parameters
    ----------
    across_flats : float [mm]
        Over 0; width across flats.
    sides : int [-]
        3 to 100; 4 for a square, 6 for a hexagon.

    Returns
    -------
    Polygon [-]
        The polygon on a round as large as its corners.

    Notes
    -----
    Nuts and bolt heads are chamfered: a round 0.95 of the corners shows no lack under a spanner
    (common practice, no source); give it to `polygon_on_round`.

    Examples
    --------
    >>> round(round_for_polygon(17).corners, 3)
    19.63

    References
    ----------
    Plane geometry.
    """
    ratio = _corner_ratio(sides)
    require_positive("across_flats", across_flats, "mm")
    corners = across_flats * ratio
    return Polygon(int(sides), across_flats, corners, corners)


@offered(source=POLYGON)
def polygon_on_round(
    diameter: Millimetre, sides: int = 6, across_flats: Millimetre | None = None
) -> Polygon:
    """Largest polygon that a round gives, or a smaller or rounded one of a width across flats.

    s = D cos(180 / n) where no width is given.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the round.
    sides : int [-]
        3 to 100; 4 for a square, 6 for a hexagon.
    across_flats : float [mm]
        Over 0, below the diameter; over `D cos(180 / n)` the corners stay round.

    Returns
    -------
    Polygon [-]
        Width across flats, depth and width of each flat.

    Notes
    -----
    Cut one flat, turn it half round, cut the second and measure: the size across decides, not the
    dial.

    Examples
    --------
    >>> round(polygon_on_round(20, 4).across_flats, 3)
    14.142

    References
    ----------
    Plane geometry.
    """
    ratio = _corner_ratio(sides)
    require_positive("diameter", diameter, "mm")
    across = diameter / ratio if across_flats is None else across_flats
    if not 0 < across < diameter:
        raise OutOfRange("across_flats", across, "mm", over=0, below=diameter)
    corners = diameter if across_flats is None else across * ratio
    return Polygon(int(sides), across, corners, diameter)


@dataclass(frozen=True, slots=True)
class SquareHole:
    """A square hole that is drilled, then filed or broached to its corners."""

    side: Millimetre
    drill: Drill
    """The largest drill of the sets that leaves the flats whole."""

    @property
    def corners(self) -> Millimetre:
        """Across the corners: what a drill would need to clear them."""
        return self.side * sqrt(2)

    @property
    def corner_left(self) -> Millimetre:
        """What is left to file or broach in each corner, along the diagonal."""
        return (self.corners - self.drill.diameter) / 2

    @property
    def flat_left(self) -> Millimetre:
        """What is left to file on each flat."""
        return (self.side - self.drill.diameter) / 2

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of filing and of pressing a broach."""
        return fixing_cautions("flats", "tool bit")

    def describe(self) -> str:
        """The hole in one sentence."""
        return (
            f"Square {self.side:g} mm: drill {self.drill.designation}, then file or broach"
            f" {self.flat_left:.3f} mm off each flat and {self.corner_left:.3f} mm out of each"
            f" corner; {self.corners:.3f} mm across corners."
        )


@offered(source="plane geometry; the drill leaves the flats whole")
def square_hole(side: Millimetre, leave: Millimetre = 0.1, sets: str = "") -> SquareHole:
    """Drill before a square hole that is filed or broached, such as for a tool bit in a bar.

    The largest drill at or under s - leave.

    Parameters
    ----------
    side : float [mm]
        Over what is left, at most 100; of the square, with the clearance that the tool bit needs.
    leave : float [mm]
        0 or more; to take off the flats, over both sides.
    sets : str [-]
        Which sets: some of `metric`, `fractional`, `number`, `letter`, with commas; metric if
        empty.

    Returns
    -------
    SquareHole [-]
        The drill, and what is left on the flats and in the corners.

    Notes
    -----
    A tool bit is held by its screw, not by the fit: 0.1 mm over the bit lets it slide. A broach
    in steps takes the corners without a file.

    Examples
    --------
    >>> square_hole(6.45).drill.designation
    '6.3 mm'

    References
    ----------
    Plane geometry.
    """
    require_positive("side", side, "mm")
    require_within("leave", leave, "mm", 0, LARGEST)
    drills = drills_of(sets or "metric")
    least, most = drills_range(drills)
    if not least <= side - leave <= most:
        raise OutOfRange("side", side, "mm", least=least + leave, most=most + leave)
    return SquareHole(side, choose(side - leave, drills).at_or_under)


def drills_range(drills: tuple[Drill, ...]) -> tuple[float, float]:
    """The least and the greatest diameter of some drills."""
    sizes = [each.diameter for each in drills]
    return min(sizes), max(sizes)
