"""What material is left about a hole: to an edge, to another hole, below a blind hole's point."""

from __future__ import annotations

from dataclasses import dataclass
from math import isclose

from shoplog.trade.declare import Degree, Millimetre, Number, TradeError, offered
from shoplog.trade.hole_work.holes import drill_depth, drill_point_depth
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within

__all__ = [
    "BlindHole",
    "HoleWall",
    "blind_hole",
    "edge_wall",
    "through_travel",
    "wall_between",
]

EDGE_RULE = (
    "GB 50017 table 11.5.2 for steel plate with bolts (edge 1.5 d, end 2 d, pitch 3 d), read in a"
    " software maker's summary; for other work common practice, no source"
)
LEAST_EDGE = 1.5  # diameters from the centre
LEAST_PITCH = 3.0
LEAST_FLOOR = 1.0  # mm below the tip; common practice, no source


@dataclass(frozen=True, slots=True)
class HoleWall:
    """The wall between a hole and an edge, or between two holes."""

    wall: Millimetre
    """Material that is left at the thinnest place."""
    distance: Millimetre
    """From the hole's centre to the edge, or from centre to centre."""
    diameter: Millimetre
    """Of the hole, the mean of both where there are two."""
    least_ratio: Number
    """Distance over diameter that the rule asks for."""

    @property
    def ratio(self) -> Number:
        """Distance over diameter."""
        return self.distance / self.diameter

    @property
    def cautions(self) -> tuple[str, ...]:
        """That the hole is nearer than the rule allows."""
        if self.ratio >= self.least_ratio * (1 - 1e-9):
            return ()
        return (
            f"the distance is {self.ratio:.2f} diameters, below {self.least_ratio:g}: the drill may"
            f" run out, the wall bulge, and a loaded bolt tear out",
        )

    def describe(self) -> str:
        """The wall in one sentence."""
        return f"A wall of {self.wall:.3f} mm is left; the distance is {self.ratio:.2f} diameters."


def _wall(wall: float, argument: str, distance: float, least: float) -> float:
    if wall <= 0 or isclose(wall, 0, abs_tol=1e-9):
        raise TradeError(
            f"no wall is left: the {argument.replace('_', ' ')} is {distance:g} mm, it must be over"
            f" {least:g} mm",
            hint="a smaller hole, or farther away",
            argument=argument,
        )
    return wall


@offered(source=EDGE_RULE)
def edge_wall(centre_to_edge: Millimetre, diameter: Millimetre) -> HoleWall:
    """Wall that a hole leaves to the edge of the part.

    t = e - d / 2, and e / d is compared with 1.5.

    Parameters
    ----------
    centre_to_edge : float [mm]
        Over half the diameter; from the hole's centre to the edge.
    diameter : float [mm]
        Over 0; of the hole.

    Returns
    -------
    HoleWall [-]
        The wall, and the distance in diameters; with a caution below 1.5.

    Notes
    -----
    A bolt loaded towards the edge wants 2 diameters. For a tapped hole take the thread's major
    diameter.

    Examples
    --------
    >>> edge_wall(12, 8).wall
    8.0

    References
    ----------
    GB 50017, table 11.5.2 (read in a summary); common practice for other work.
    """
    require_positive("centre_to_edge", centre_to_edge, "mm")
    require_positive("diameter", diameter, "mm")
    wall = _wall(centre_to_edge - diameter / 2, "centre_to_edge", centre_to_edge, diameter / 2)
    return HoleWall(wall, centre_to_edge, diameter, LEAST_EDGE)


@offered(source=EDGE_RULE)
def wall_between(
    distance: Millimetre, diameter: Millimetre, other_diameter: Millimetre | None = None
) -> HoleWall:
    """Wall that is left between two holes.

    t = L - (d1 + d2) / 2, and L over the mean diameter is compared with 3.

    Parameters
    ----------
    distance : float [mm]
        Over the mean of the diameters; from centre to centre.
    diameter : float [mm]
        Over 0; of the one hole.
    other_diameter : float [mm]
        Over 0; of the other; the same if not given.

    Returns
    -------
    HoleWall [-]
        The wall, and the distance in diameters; with a caution below 3.

    Notes
    -----
    3 diameters is for bolts that carry load; holes for pins and oil stand nearer.

    Examples
    --------
    >>> wall_between(30, 10).wall
    20.0

    References
    ----------
    GB 50017, table 11.5.2 (read in a summary); common practice for other work.
    """
    second = diameter if other_diameter is None else other_diameter
    require_positive("distance", distance, "mm")
    require_positive("diameter", diameter, "mm")
    require_positive("other_diameter", second, "mm")
    mean = (diameter + second) / 2
    return HoleWall(_wall(distance - mean, "distance", distance, mean), distance, mean, LEAST_PITCH)


@dataclass(frozen=True, slots=True)
class BlindHole:
    """A blind hole in a part of a thickness: where its tip ends, what floor it leaves."""

    thickness: Millimetre
    full_depth: Millimetre
    tip_depth: Millimetre
    """From the face to the tip of the drill."""

    @property
    def floor(self) -> Millimetre:
        """Material left below the tip."""
        return self.thickness - self.tip_depth

    @property
    def cautions(self) -> tuple[str, ...]:
        """That the floor is thin."""
        if self.floor >= LEAST_FLOOR:
            return ()
        return (
            f"only {self.floor:.2f} mm is left below the tip: it may bulge or break through; set"
            " the stop from where the tip touches, or use a flatter drill",
        )

    def describe(self) -> str:
        """The hole in one sentence."""
        return (
            f"{self.full_depth:.3f} mm deep at the full diameter, {self.tip_depth:.3f} mm to the"
            f" tip; {self.floor:.3f} mm is left below it."
        )


@offered(source="Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, section 22.3")
def blind_hole(
    thickness: Millimetre,
    full_depth: Millimetre,
    diameter: Millimetre,
    point_angle: Degree = 118,
) -> BlindHole:
    """Floor that a blind hole leaves in a part, refused where the drill's tip breaks through.

    Parameters
    ----------
    thickness : float [mm]
        Over the depth to the tip; of the part along the hole.
    full_depth : float [mm]
        0 or more; at the full diameter.
    diameter : float [mm]
        Over 0; of the drill.
    point_angle : float [deg]
        Over 0, at most 180; 118 where nothing is said.

    Returns
    -------
    BlindHole [-]
        The depth to the tip, and the floor below it; with a caution below 1 mm.

    Notes
    -----
    A hole in the side of a shaft or towards a bore is reckoned the same way, with the thickness
    of the wall.

    Examples
    --------
    >>> round(blind_hole(20, 12, 10).floor, 3)
    4.996

    References
    ----------
    Groover, 4th ed. 2010, eq. 22.10 (from memory).
    """
    require_positive("thickness", thickness, "mm")
    tip = drill_depth(full_depth, diameter, point_angle)
    if tip >= thickness:
        raise TradeError(
            f"the tip breaks through: it reaches {tip:.3f} mm, the part is {thickness:g} mm thick",
            hint=f"at most {max(0.0, thickness - tip + full_depth):.3f} mm at the full diameter",
            argument="full_depth",
        )
    return BlindHole(thickness, full_depth, tip)


@offered(source="Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, eq. 22.9 to 22.11")
def through_travel(
    thickness: Millimetre,
    diameter: Millimetre,
    point_angle: Degree = 118,
    overrun: Millimetre = 1,
) -> Millimetre:
    """Travel of a drill, from where its tip touches, until its full diameter is through.

    Parameters
    ----------
    thickness : float [mm]
        Over 0; of the part.
    diameter : float [mm]
        Over 0; of the drill.
    point_angle : float [deg]
        Over 0, at most 180; 118 where nothing is said.
    overrun : float [mm]
        0 or more; beyond the far face.

    Returns
    -------
    float [mm]
        Travel: thickness, point and overrun.

    Notes
    -----
    What lies below the part needs as much room: parallels, vise or table.

    Examples
    --------
    >>> round(through_travel(12, 10), 3)
    16.004

    References
    ----------
    Groover, 4th ed. 2010, eq. 22.10 (from memory).
    """
    require_positive("thickness", thickness, "mm")
    require_within("overrun", overrun, "mm", 0, LARGEST)
    return thickness + drill_point_depth(diameter, point_angle) + overrun
