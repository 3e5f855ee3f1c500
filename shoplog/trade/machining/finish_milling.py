"""The finish that milling leaves: the cusps of a ball nose, the marks of teeth on wall and face."""

from __future__ import annotations

from math import sqrt

from shoplog.trade.declare import (
    Micrometre,
    Millimetre,
    MillimetrePerTooth,
    OutOfRange,
    ToothPerRev,
    TradeError,
    offered,
)
from shoplog.trade.machining.cutting import (
    MOST_TEETH,
    require_count,
    require_positive,
    require_within,
)
from shoplog.trade.machining.finish_record import Finish, arcs_finish

__all__ = ["ball_nose_finish", "face_milled_finish", "step_over_for_height", "wall_milled_finish"]

CUSP = "geometry of circular arcs: h = R - sqrt(R^2 - P^2/4)"
WALL = "Ghosh and Mallik, Manufacturing Science, example 4.25; Dormer Pramet, milling, page 772"
FACE = "Tungaloy, User's guide, page L061: the marks are those of single-point turning"
# A step below this part of the radius leaves nothing that can be measured.
LEAST_STEP = 1e-6
MARKS = ("revolution", "tooth")


@offered(source=CUSP)
def ball_nose_finish(step_over: Millimetre, diameter: Millimetre) -> Finish:
    """Roughness across the passes of a ball-nosed cutter on a flat face, by geometry alone.

    Rt = R - sqrt(R^2 - P^2/4), with R the radius of the ball and P the step-over.

    Parameters
    ----------
    step_over : float [mm]
        Over 0 and at most the diameter.
    diameter : float [mm]
        Over 0; of the ball.

    Returns
    -------
    Finish [-]
        Height of the cusps and Ra across them.

    Raises
    ------
    OutOfRange
        The step-over is more than the diameter.

    Notes
    -----
    For a flat face, level or sloped. A hollow face gets lower cusps, a crowned one higher. Along
    the pass the feed per tooth leaves marks of its own.

    Examples
    --------
    >>> round(ball_nose_finish(0.5, 6).rt, 2)
    10.43

    References
    ----------
    Geometry.
    """
    require_positive("step_over", step_over, "mm")
    require_positive("diameter", diameter, "mm")
    _require_step("step_over", step_over, diameter / 2)
    return arcs_finish(step_over, diameter / 2)


@offered(source=CUSP)
def step_over_for_height(height: Micrometre, diameter: Millimetre) -> Millimetre:
    """Greatest step-over of a ball-nosed cutter that leaves cusps of a height.

    P = 2 sqrt(h (D - h)), with h the height and D the diameter of the ball.

    Parameters
    ----------
    height : float [um]
        Over 0 and at most half the diameter.
    diameter : float [mm]
        Over 0; of the ball.

    Returns
    -------
    float [mm]
        Step-over.

    Raises
    ------
    OutOfRange
        The height is more than half the diameter.

    Notes
    -----
    As for `ball_nose_finish`.

    Examples
    --------
    >>> round(step_over_for_height(5, 6), 3)
    0.346

    References
    ----------
    Geometry.
    """
    require_positive("height", height, "um")
    require_positive("diameter", diameter, "mm")
    if height > 500 * diameter:
        raise OutOfRange("height", height, "um", most=500 * diameter, source="half the diameter")
    return 2 * sqrt(height / 1000 * (diameter - height / 1000))


@offered(source=WALL)
def wall_milled_finish(
    feed_per_tooth: MillimetrePerTooth,
    diameter: Millimetre,
    teeth: ToothPerRev = 1,
    marks: str = "revolution",
) -> Finish:
    """Marks along a wall that is milled with the side of a cutter, by geometry alone.

    Rt is that of arcs of the cutter's radius at the spacing of the marks; close to s^2 / (4 D).

    Parameters
    ----------
    feed_per_tooth : float [mm/tooth]
        Over 0.
    diameter : float [mm]
        Over 0; of the cutter.
    teeth : float [tooth/rev]
        Whole, 1 to 1000.
    marks : str [-]
        `revolution` where one tooth stands proud and marks once a revolution, as in most cutters;
        `tooth` for a cutter that runs true to a fraction of the marks' height.

    Returns
    -------
    Finish [-]
        Rt and Ra along the feed.

    Raises
    ------
    OutOfRange
        The marks are further apart than the cutter is wide.
    TradeError
        The marks are another word.

    Notes
    -----
    The path of a tooth is taken as a circle: the feed is small beside the cutter. A cutter that
    bends leaves a leaning wall, which is not counted here.

    Examples
    --------
    >>> round(wall_milled_finish(0.05, 10, 4).rt, 3)
    1.0

    References
    ----------
    Ghosh and Mallik, Manufacturing Science, example 4.25; Dormer Pramet, milling, page 772.
    """
    require_positive("feed_per_tooth", feed_per_tooth, "mm/tooth")
    require_positive("diameter", diameter, "mm")
    spacing = _spacing(feed_per_tooth, teeth, marks)
    _require_step("feed_per_tooth", spacing, diameter / 2)
    return arcs_finish(spacing, diameter / 2, 0, _cases(teeth, marks))


@offered(source=FACE)
def face_milled_finish(
    feed_per_tooth: MillimetrePerTooth,
    corner_radius: Millimetre,
    teeth: ToothPerRev = 1,
    flat: Millimetre = 0,
    marks: str = "revolution",
) -> Finish:
    """Marks on a face that is milled, or faced with a single-point facing head, by geometry alone.

    As in turning: arcs of the corner's radius at the spacing of the marks, less the flat.

    Parameters
    ----------
    feed_per_tooth : float [mm/tooth]
        Over 0; of a single-point head the feed per revolution.
    corner_radius : float [mm]
        Over 0.
    teeth : float [tooth/rev]
        Whole, 1 to 1000; 1 for a single-point head.
    flat : float [mm]
        0 or more; width of the flat at the corner, along the feed.
    marks : str [-]
        `revolution` where one tooth stands proud and marks once a revolution, as in most cutters;
        `tooth` where every tooth leaves its own.

    Returns
    -------
    Finish [-]
        Rt and Ra along the feed, in the middle of the cutter's path.

    Raises
    ------
    OutOfRange
        The spacing less the flat is more than twice the corner radius.
    TradeError
        The marks are another word.

    Notes
    -----
    For a spindle that is square to the table, or leans so that only the leading side cuts.

    Examples
    --------
    >>> round(face_milled_finish(0.1, 0.8, teeth=4, marks="tooth").parabolic_rt, 4)
    1.5625

    References
    ----------
    Tungaloy, User's guide, page L061.
    """
    require_positive("feed_per_tooth", feed_per_tooth, "mm/tooth")
    require_positive("corner_radius", corner_radius, "mm")
    require_within("flat", flat, "mm", 0, 1000)
    spacing = _spacing(feed_per_tooth, teeth, marks)
    _require_step("feed_per_tooth", spacing - flat, corner_radius)
    return arcs_finish(spacing, corner_radius, flat, _cases(teeth, marks))


def _spacing(feed_per_tooth: float, teeth: float, marks: str) -> float:
    require_count("teeth", teeth, MOST_TEETH)
    if marks not in MARKS:
        raise TradeError(
            f"the marks are {marks[:20]!r}, they must be {' or '.join(MARKS)}", argument="marks"
        )
    return feed_per_tooth * teeth if marks == "revolution" else feed_per_tooth


def _cases(teeth: float, marks: str) -> tuple[str, ...]:
    return ("proud",) if marks == "revolution" and teeth > 1 else ()


def _require_step(argument: str, spacing: float, radius: float) -> None:
    """Refuse marks that are further apart than their arcs reach, or too near to measure."""
    if spacing > 2 * radius:
        raise OutOfRange(
            argument,
            spacing,
            "mm",
            most=2 * radius,
            source="the spacing of the marks, less a flat, against twice the radius",
        )
    if 0 < spacing < LEAST_STEP * radius:
        raise OutOfRange(argument, spacing, "mm", least=LEAST_STEP * radius)
