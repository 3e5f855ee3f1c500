"""Measuring a taper: a plug over two rollers at two heights, a bore with two balls; and back."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan, cos, degrees, radians, sin, tan

from shoplog.trade.declare import Degree, Millimetre, Number, TradeError, offered
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within
from shoplog.trade.taper_work.tapers import InchPerFoot, Taper

__all__ = [
    "MeasuredTaper",
    "ball_depth",
    "over_rollers",
    "taper_by_balls",
    "taper_over_rollers",
]

METROLOGY = "Mechanical Engineer's Data Handbook (Carvill), section 7.2, angle measurement"
STEEPEST = 80.0
MOUTH, PLATE = "at the mouth", "on the plate"


@dataclass(frozen=True, slots=True)
class MeasuredTaper:
    """A taper as it was measured, with a diameter at a plane."""

    half_angle: Degree
    diameter: Millimetre
    where: str
    """`at the mouth` of a bore, or `on the plate` that a plug stands on."""

    @property
    def included_angle(self) -> Degree:
        """Angle of the whole cone."""
        return 2 * self.half_angle

    @property
    def ratio(self) -> Number:
        """Change of diameter over length."""
        return 2 * tan(radians(self.half_angle))

    @property
    def one_in(self) -> Number:
        """Length in which the diameter changes by 1."""
        return 1 / self.ratio

    @property
    def taper_per_foot(self) -> InchPerFoot:
        """Change of diameter in inch over a foot of length."""
        return 12 * self.ratio

    @property
    def taper(self) -> Taper:
        """As a taper, for a mate or a setting."""
        size = self.diameter if self.where == MOUTH else None
        return Taper(f"measured 1:{self.one_in:.6g}", self.ratio, size)

    def describe(self) -> str:
        """What was measured, in one sentence."""
        return (
            f"1:{self.one_in:.6g} on diameter, {self.half_angle:.4f}° to the axis,"
            f" {self.included_angle:.4f}° included; {self.diameter:.3f} mm {self.where}."
        )


def _diameter_over(measure: float, roller: float, half_angle: float) -> float:
    """Of the cone at the height of the rollers' axes, from the measure over both."""
    return measure - roller * (1 + 1 / cos(half_angle))


@offered(source=METROLOGY)
def taper_over_rollers(
    over_low: Millimetre,
    over_high: Millimetre,
    low: Millimetre,
    high: Millimetre,
    roller: Millimetre,
) -> MeasuredTaper:
    """Taper of a plug that stands on its small end, from two measures over a pair of rollers.

    tan(alpha / 2) = (M2 - M1) / (2 (h2 - h1)), with M over the rollers and h their heights; at the
    axes of the rollers the plug is D = M - d (1 + sec(alpha / 2)), with d the rollers.

    Parameters
    ----------
    over_low : float [mm]
        Over 0; over both rollers at the lower height.
    over_high : float [mm]
        More than over_low; over both rollers at the higher one.
    low : float [mm]
        0 or more; of the blocks under the rollers, 0 where they stand on the plate.
    high : float [mm]
        More than low.
    roller : float [mm]
        Over 0; diameter of each, both the same.

    Returns
    -------
    MeasuredTaper [-]
        Angles and ratio, and the diameter of the small end, on the plate.

    Raises
    ------
    TradeError
        The measures show no taper, or one that stands on its large end.

    Notes
    -----
    An error e of one measure is e / (2 (h2 - h1)) of the angle in radians: the further apart the
    heights, the better.

    Examples
    --------
    >>> made = taper_over_rollers(32.0, 35.0, 0, 60, 10)
    >>> round(made.one_in, 6), round(made.diameter, 4)
    (20.0, 11.7469)

    References
    ----------
    J. Carvill, Mechanical Engineer's Data Handbook, section 7.2.
    """
    for argument, value in (("over_low", over_low), ("over_high", over_high), ("roller", roller)):
        require_positive(argument, value, "mm")
    for argument, value in (("low", low), ("high", high)):
        require_within(argument, value, "mm", 0, LARGEST)
    _require_more("high", high, low, "the rollers must be measured at two heights")
    _require_more(
        "over_high", over_high, over_low, "a plug that stands on its small end widens upwards"
    )
    half_angle = atan((over_high - over_low) / (2 * (high - low)))
    _require_slim(half_angle, "over_high")
    middle = _diameter_over(over_low, roller, half_angle)
    small = middle - 2 * (low + roller / 2) * tan(half_angle)
    if small < 0:
        raise TradeError(
            f"the plug would end {-small:.3f} mm on diameter below nothing, measures and rollers do"
            " not go together",
            argument="roller",
        )
    return MeasuredTaper(degrees(half_angle), small, PLATE)


def _require_more(argument: str, value: float, than: float, why: str) -> None:
    if not value > than:
        other = argument.replace("high", "low")
        raise TradeError(
            f"{argument} is {value:g} mm, it must be over {other}, {than:g} mm",
            hint=why,
            argument=argument,
        )


def _require_slim(half_angle: float, argument: str) -> None:
    if not degrees(half_angle) <= STEEPEST:
        raise TradeError(
            f"that is a half-angle of {degrees(half_angle):.2f}°, it must be at most {STEEPEST:g}°",
            argument=argument,
        )


@offered(source=METROLOGY)
def over_rollers(
    taper: Taper, small_diameter: Millimetre, height: Millimetre, roller: Millimetre
) -> Millimetre:
    """What to measure over two rollers on a plug that stands on its small end.

    M = D + C (h + d / 2) + d (1 + sec(alpha / 2)), with D the small end and d the rollers.

    Parameters
    ----------
    taper : Taper [-]
        A taper, or its designation as text.
    small_diameter : float [mm]
        0 to 1 000 000; on the plate.
    height : float [mm]
        0 to 1 000 000; of the blocks under the rollers.
    roller : float [mm]
        Over 0; diameter of each.

    Returns
    -------
    float [mm]
        Over both rollers.

    Notes
    -----
    `taper_over_rollers` is the other way round.

    Examples
    --------
    >>> round(over_rollers(Taper.from_text("1:20"), 11.7469, 60, 10), 3)
    35.0

    References
    ----------
    J. Carvill, Mechanical Engineer's Data Handbook, section 7.2.
    """
    require_within("small_diameter", small_diameter, "mm", 0, 1e6)
    require_within("height", height, "mm", 0, 1e6)
    require_positive("roller", roller, "mm")
    _require_slim(radians(taper.half_angle), "taper")
    upward = 1 + 1 / cos(radians(taper.half_angle))
    return small_diameter + taper.ratio * (height + roller / 2) + roller * upward


@offered(source=METROLOGY)
def taper_by_balls(
    small_ball: Millimetre,
    large_ball: Millimetre,
    small_depth: Millimetre,
    large_depth: Millimetre,
) -> MeasuredTaper:
    """Taper of a bore, from the depths at which two balls rest in it.

    sin(alpha / 2) = (R - r) / (a - (R - r)), with r and R the radii of the balls and a the
    difference of their depths.

    Parameters
    ----------
    small_ball : float [mm]
        Over 0; diameter.
    large_ball : float [mm]
        More than the small one.
    small_depth : float [mm]
        More than that of the large ball by over twice the difference of the radii; from the face to
        the top of the small ball.
    large_depth : float [mm]
        From the face to the top of the large ball; below 0 where it stands proud of the face.

    Returns
    -------
    MeasuredTaper [-]
        Angles and ratio, and the diameter at the mouth.

    Raises
    ------
    TradeError
        The balls and depths show no taper, or one that widens inwards.

    Notes
    -----
    The bore must be clean and the balls must rest on its side, not on its bottom.

    Examples
    --------
    >>> taper_by_balls(8, 12, 25, 15).describe()
    '1:1.93649 on diameter, 14.4775° to the axis, 28.9550° included; 23.238 mm at the mouth.'

    References
    ----------
    J. Carvill, Mechanical Engineer's Data Handbook, section 7.2.
    """
    require_positive("small_ball", small_ball, "mm")
    require_positive("large_ball", large_ball, "mm")
    _require_larger(large_ball, small_ball)
    for argument, depth in (("small_depth", small_depth), ("large_depth", large_depth)):
        require_within(argument, depth, "mm", -LARGEST, LARGEST)
    apart = (small_depth + small_ball / 2) - (large_depth + large_ball / 2)
    more = (large_ball - small_ball) / 2
    if not apart * sin(radians(STEEPEST)) > more:
        raise TradeError(
            f"the centres of the balls are {apart:g} mm apart, they must be over"
            f" {more / sin(radians(STEEPEST)):g} mm apart for a taper that these balls touch",
            hint="the small ball rests deeper: give the depth from the face to the top of each",
            argument="small_depth",
        )
    half_angle = asin(more / apart)
    centre = large_depth + large_ball / 2
    if centre + large_ball / 2 * sin(half_angle) < 0:
        raise TradeError(
            f"the large ball stands {-large_depth:g} mm proud: it rests on the edge of the bore,"
            " not on its side",
            hint="take a smaller ball",
            argument="large_depth",
        )
    mouth = large_ball / cos(half_angle) + 2 * centre * tan(half_angle)
    return MeasuredTaper(degrees(half_angle), mouth, MOUTH)


def _require_larger(large_ball: float, small_ball: float) -> None:
    if not large_ball > small_ball:
        raise TradeError(
            f"the large ball is {large_ball:g} mm, it must be over the small one,"
            f" {small_ball:g} mm",
            hint="two balls of one size rest at one depth and show no taper",
            argument="large_ball",
        )


@offered(source=METROLOGY)
def ball_depth(taper: Taper, mouth: Millimetre, ball: Millimetre) -> Millimetre:
    """Depth from the face to the top of a ball that rests in a tapered bore.

    t = (D - d / cos(alpha / 2)) / C - d / 2, with D the mouth and d the ball.

    Parameters
    ----------
    taper : Taper [-]
        A taper, or its designation as text; its half-angle at most 80°.
    mouth : float [mm]
        Over 0; diameter of the bore at its face.
    ball : float [mm]
        Over 0; diameter.

    Returns
    -------
    float [mm]
        Below 0 where the ball stands proud of the face.

    Notes
    -----
    A ball that would rest above the face's edge does not touch the side: its depth from this is
    meaningless, so it is refused.

    Examples
    --------
    >>> round(ball_depth(Taper.from_text("Morse 2"), 17.78, 16), 2)
    27.53

    References
    ----------
    J. Carvill, Mechanical Engineer's Data Handbook, section 7.2.
    """
    require_positive("mouth", mouth, "mm")
    require_positive("ball", ball, "mm")
    angle = radians(taper.half_angle)
    _require_slim(angle, "taper")
    if not ball * cos(angle) <= mouth:
        raise TradeError(
            f"the ball of {ball:g} mm touches the side where it is {ball * cos(angle):.3f} mm wide,"
            f" the bore is only {mouth:g} mm at its mouth",
            hint=f"take a ball up to {mouth / cos(angle):.4g} mm",
            argument="ball",
        )
    return (mouth - ball / cos(angle)) / taper.ratio - ball / 2
