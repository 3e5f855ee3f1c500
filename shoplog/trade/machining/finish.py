"""The finish that a turning feed leaves.

All of it is geometry: the marks of a perfect edge in a perfect material. It is the least that a
feed can leave, never a promise.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin, tan

from shoplog.trade.declare import (
    Degree,
    Micrometre,
    Millimetre,
    MillimetrePerRev,
    OutOfRange,
    offered,
)
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.machining.edge_chip import NOSE, nose_chip_thickness, rubbing_limit
from shoplog.trade.machining.finish_profile import MOST_RATIO
from shoplog.trade.machining.finish_record import ARCS, Finish, arcs_finish, remarks

__all__ = [
    "sharp_tool_finish",
    "turned_finish",
]

SHARP = "Ghosh and Mallik, Manufacturing Science, chapter 4, example 4.24"
FINE_FEED = 0.15  # mm/rev; below it few chip breakers break the chip
SLENDER = 4.0  # length over diameter; common practice, no source
SMALL_NOSE = 0.4  # mm; a nose that slender work still bears; common practice, no source


@offered(source=ARCS)
def turned_finish(
    feed_per_rev: MillimetrePerRev,
    nose_radius: Millimetre,
    flat: Millimetre = 0,
    depth_of_cut: Millimetre | None = None,
    edge_radius: Micrometre | None = None,
    end_cutting_edge_angle: Degree | None = None,
    length: Millimetre | None = None,
    diameter: Millimetre | None = None,
) -> Finish:
    """Roughness that a round-nosed tool leaves in turning, facing or boring, by geometry alone.

    Rt = r - sqrt(r^2 - w^2/4) with w = f - b: f the feed, r the nose radius, b a flat (or wiper)
    that is ground along the feed. Ra is the exact average over arcs and flat.

    Parameters
    ----------
    feed_per_rev : float [mm/rev]
        Over 0; less the flat, at most twice the nose radius.
    nose_radius : float [mm]
        Over 0.
    flat : float [mm]
        0 or more; width of the flat at the nose, along the feed.
    depth_of_cut : float [mm]
        On the radius; with it the chip's thickness is looked at.
    edge_radius : float [um]
        Roundness of the edge itself: about 5 for a stoned HSS edge, 10 to 80 for a honed insert.
    end_cutting_edge_angle : float [deg]
        Over 0 and below 90; between the end edge and the finished surface.
    length : float [mm]
        Length that stands free; with the diameter it tells slender work.
    diameter : float [mm]
        Diameter of the work.

    Returns
    -------
    Finish [-]
        Rt and Ra, exact and parabolic, the grade, and what to look out for.

    Raises
    ------
    OutOfRange
        The feed is more than the nose can round off.

    Notes
    -----
    Beyond f = 2 r sin(end angle) the end edge takes part and the marks are lower than the sum.
    Where the chip is thinner than about 0.2 to 0.4 of the edge radius it is not cut but rubbed.
    A built-up edge, wear, vibration and the grain of the material come on top.

    Examples
    --------
    >>> round(turned_finish(0.2, 0.8).rt, 3), round(turned_finish(0.2, 0.8).parabolic_rt, 3)
    (6.275, 6.25)

    References
    ----------
    Qu and Shih, Machining Science and Technology 7 (2003) 281-294; Mitsubishi Materials and Kyocera
    catalogues for the parabolic form.
    """
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_positive("nose_radius", nose_radius, "mm")
    require_within("flat", flat, "mm", 0, 1000)
    _require_rounded(feed_per_rev - flat, nose_radius)
    cases = [
        *_cases_of_nose(feed_per_rev, nose_radius, end_cutting_edge_angle),
        *_cases_of_chip(feed_per_rev, nose_radius, depth_of_cut, edge_radius),
        *_cases_of_work(nose_radius, length, diameter),
    ]
    return arcs_finish(feed_per_rev, nose_radius, flat, cases)


@offered(source=SHARP)
def sharp_tool_finish(
    feed_per_rev: MillimetrePerRev,
    side_cutting_edge_angle: Degree,
    end_cutting_edge_angle: Degree,
) -> Finish:
    """Roughness that a pointed tool without a nose radius leaves, by geometry alone.

    Rt = f / (tan(psi) + cot(psi')), Ra = Rt / 4; psi the side angle, psi' the end angle.

    Parameters
    ----------
    feed_per_rev : float [mm/rev]
        Over 0.
    side_cutting_edge_angle : float [deg]
        0 or more and below 90; how far the side edge leans from square to the axis.
    end_cutting_edge_angle : float [deg]
        Over 0 and below 90; between the end edge and the finished surface.

    Returns
    -------
    Finish [-]
        Rt and Ra; the parabolic values are the same, for there is no arc.

    Raises
    ------
    OutOfRange
        An angle is outside its range.

    Notes
    -----
    A point does not stay sharp: after the first cut it has a nose.

    Examples
    --------
    >>> round(sharp_tool_finish(0.125, 30, 7).rt, 2)
    14.33

    References
    ----------
    Ghosh and Mallik, Manufacturing Science, example 4.24.
    """
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    _require_angle("side_cutting_edge_angle", side_cutting_edge_angle, 0)
    _require_angle("end_cutting_edge_angle", end_cutting_edge_angle, 0.01)
    side, end = radians(side_cutting_edge_angle), radians(end_cutting_edge_angle)
    rt = 1000 * feed_per_rev / (tan(side) + cos(end) / sin(end))
    cases = ("real", "fine") if feed_per_rev <= FINE_FEED else ("real",)
    return Finish(
        rt, rt / 4, rt, rt / 4, feed_per_rev, remarks("caution", cases), remarks("note", cases)
    )


def _require_rounded(width: float, nose_radius: float) -> None:
    if width > 2 * nose_radius:
        raise OutOfRange(
            "feed_per_rev",
            width,
            "mm/rev",
            most=2 * nose_radius,
            source=f"less the flat, for a nose radius of {nose_radius:g} mm",
            hint="makers ask for a feed of a half to a third of the nose radius",
        )
    if width * MOST_RATIO < nose_radius and width > 0:
        raise OutOfRange(
            "feed_per_rev", width, "mm/rev", least=nose_radius / MOST_RATIO, source="less the flat"
        )


def _require_angle(argument: str, angle: float, least: float) -> None:
    if not least <= angle < 90:
        raise OutOfRange(argument, angle, "deg", least=least, below=90)


def _cases_of_nose(feed: float, radius: float, end_angle: float | None) -> Iterator[str]:
    if feed <= FINE_FEED:
        yield "fine"
    if radius < 2 * feed:
        yield "coarse"
    if end_angle is not None:
        _require_angle("end_cutting_edge_angle", end_angle, 0.01)
        if feed > 2 * radius * sin(radians(end_angle)):
            yield "end edge"


def _cases_of_chip(
    feed: float, radius: float, depth: float | None, edge: float | None
) -> Iterator[str]:
    if depth is not None:
        require_positive("depth_of_cut", depth, "mm")
        if depth < NOSE * radius:
            yield "shallow"
    if edge is not None:
        chip = feed if depth is None else nose_chip_thickness(feed, depth, radius)
        if 1000 * chip < rubbing_limit(edge).most:
            yield "rubs"


def _cases_of_work(radius: float, length: float | None, diameter: float | None) -> Iterator[str]:
    if length is not None:
        require_positive("length", length, "mm")
    if diameter is not None:
        require_positive("diameter", diameter, "mm")
    if length and diameter and length > SLENDER * diameter and radius > SMALL_NOSE:
        yield "slender"
