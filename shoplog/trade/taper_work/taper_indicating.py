"""Setting a lathe's slide for a taper with an indicator: its rise, its error, and a master.

Every angle here is half of the cone's, between its axis and its side. The indicator stands with
its plunger square to the spindle's axis, at the height of the axis.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan, cos, degrees, radians, sin, tan

from shoplog.trade.declare import Degree, Micrometre, Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.taper_work.taper_setting import require_length, taper_cautions
from shoplog.trade.taper_work.tapers import Taper

__all__ = [
    "IndicatorFinding",
    "IndicatorSetting",
    "angle_from_drift",
    "indicator_finding",
    "indicator_setting",
    "master_drift",
]

TRIGONOMETRY = "common practice, no source: trigonometry of a right triangle"
MOST_ANGLE_ERROR = 10.0
USUAL_READING_ERROR = 0.01
TOP_SLIDE, CARRIAGE = "top slide", "carriage"


@dataclass(frozen=True, slots=True)
class IndicatorSetting:
    """What an indicator shows over a travel when a slide is set to a taper."""

    taper: Taper
    travel: Millimetre
    along: str
    """`top slide` or `carriage`."""
    reading_error: Millimetre

    @property
    def rise(self) -> Millimetre:
        """Change of the reading over the travel."""
        angle = radians(self.taper.half_angle)
        return self.travel * (self.taper.ratio / 2 if self.along == CARRIAGE else sin(angle))

    @property
    def angle_error(self) -> Degree:
        """Of the half-angle, for an error of the reading."""
        angle = radians(self.taper.half_angle)
        part = cos(angle) ** 2 if self.along == CARRIAGE else 1 / cos(angle)
        return degrees(self.reading_error / self.travel * part)

    @property
    def diameter_error_over_travel(self) -> Millimetre:
        """What that error makes of a diameter at the far end of the travel."""
        return 2 * self.reading_error

    @property
    def cautions(self) -> tuple[str, ...]:
        """The machine stands still."""
        return taper_cautions("indicator")

    @property
    def notes(self) -> tuple[str, ...]:
        """What to know when setting it."""
        on = "carriage along the bed" if self.along == CARRIAGE else "top slide along itself"
        return (
            f"move the {on}, always from one side to keep the screw's backlash out; set the plunger"
            " square to the spindle's axis and at its height",
        )

    def describe(self) -> str:
        """The setting in one sentence."""
        return (
            f"{self.taper.designation}: {self.rise:.3f} mm of the indicator over"
            f" {self.travel:g} mm of the {self.along}; {self.reading_error:g} mm of the reading is"
            f" {self.angle_error * 60:.1f}' of the angle."
        )


@offered(source=TRIGONOMETRY)
def indicator_setting(
    taper: Taper,
    travel: Millimetre,
    along: str = TOP_SLIDE,
    reading_error: Millimetre = USUAL_READING_ERROR,
) -> IndicatorSetting:
    """Rise of an indicator over a travel, to which a slide is set for a taper.

    Over a travel s of the swung top slide, on a cylinder or bar held true: s sin(alpha / 2). Over a
    travel of the carriage along the axis, on the slide's side or the cone: s tan(alpha / 2).

    Parameters
    ----------
    taper : Taper [-]
        A taper, or its designation as text.
    travel : float [mm]
        Over 0, at most 10 000; the longer, the less an error of the reading matters.
    along : str [-]
        What travels: the swung `top slide`, or the `carriage`.
    reading_error : float [mm]
        0 or more, less than half the travel; of the indicator.

    Returns
    -------
    IndicatorSetting [-]
        The rise, and what an error of the reading makes of the angle.

    Raises
    ------
    TradeError
        A value is out of range.

    Notes
    -----
    A good taper of the same kind, held true, needs no sum: the indicator must not move along it
    (`master_drift`).

    Examples
    --------
    >>> round(indicator_setting(Taper.from_text("1:20"), 50).rise, 4)
    1.2496
    >>> round(indicator_setting(Taper.from_text("1:20"), 50, along="carriage").rise, 4)
    1.25

    References
    ----------
    Common practice, no source.
    """
    _require_along(along)
    require_length("travel", travel)
    if not 0 <= reading_error < travel / 2:
        raise OutOfRange("reading_error", reading_error, "mm", least=0, below=travel / 2)
    return IndicatorSetting(taper, travel, along, reading_error)


def _require_along(along: str) -> None:
    if along not in (TOP_SLIDE, CARRIAGE):
        raise TradeError(
            f"the travel is along {along[:20]!r}, it must be along 'top slide' or 'carriage'",
            argument="along",
        )


@dataclass(frozen=True, slots=True)
class IndicatorFinding:
    """The angle to which a slide was found set, against the taper that is wanted."""

    taper: Taper
    travel: Millimetre
    half_angle: Degree
    """To which the slide is set."""

    @property
    def angle_error(self) -> Degree:
        """Of the half-angle: over 0 where the slide is swung too far."""
        return self.half_angle - self.taper.half_angle

    def error_over(self, length: float) -> float:
        """What it makes of a diameter, in mm, over a length along the axis in mm."""
        found = 2 * tan(radians(self.half_angle))
        return (found - self.taper.ratio) * length

    @property
    def diameter_error_per_100(self) -> Micrometre:
        """What it makes of a diameter over 100 mm of length: over 0 where the cone is too steep."""
        return 1000 * self.error_over(100)

    @property
    def diameter_error(self) -> Micrometre | None:
        """What it makes of the far diameter over the taper's own length, where that is known."""
        return None if self.taper.length is None else 1000 * self.error_over(self.taper.length)

    def describe(self) -> str:
        """The finding in one sentence."""
        off = self.angle_error * 60
        how = (
            "right" if abs(off) < 0.005 else f"{abs(off):.2f}' too {'far' if off > 0 else 'little'}"
        )
        return (
            f"set to {self.half_angle:.4f}° where {self.taper.designation} is"
            f" {self.taper.half_angle:.4f}°: {how}, {self.diameter_error_per_100:+.1f} µm on"
            " diameter over 100 mm."
        )


@offered(source=TRIGONOMETRY)
def indicator_finding(
    taper: Taper, travel: Millimetre, rise: Millimetre, along: str = TOP_SLIDE
) -> IndicatorFinding:
    """The angle to which a slide is set, from an indicator's rise over a travel.

    asin(r / s) over a travel s of the top slide; atan(r / s) over one of the carriage.

    Parameters
    ----------
    taper : Taper [-]
        The taper that is wanted.
    travel : float [mm]
        Over 0, at most 10 000.
    rise : float [mm]
        0 or more; less than 0.9 times the travel of a top slide, or 10 times that of a carriage.
    along : str [-]
        What travels: the swung `top slide`, or the `carriage`.

    Returns
    -------
    IndicatorFinding [-]
        The angle, its error, and what that makes of a diameter.

    Raises
    ------
    TradeError
        The rise is more than the travel can make.

    Notes
    -----
    `indicator_setting` is the other way round.

    Examples
    --------
    >>> indicator_finding(Taper.from_text("1:20"), 50, 1.26).describe()
    "set to 1.4440° where 1:20 is 1.4321°: 0.71' too far, +41.6 µm on diameter over 100 mm."

    References
    ----------
    Common practice, no source.
    """
    _require_along(along)
    require_length("travel", travel)
    below = travel * (10 if along == CARRIAGE else 0.9)
    if not 0 <= rise < below:
        raise OutOfRange("rise", rise, "mm", least=0, below=below)
    half_angle = degrees(atan(rise / travel) if along == CARRIAGE else asin(rise / travel))
    return IndicatorFinding(taper, travel, half_angle)


@offered(source=TRIGONOMETRY, cautions=taper_cautions("indicator"))
def master_drift(taper: Taper, travel: Millimetre, angle_error: Degree) -> Millimetre:
    """Drift of an indicator that a swung top slide carries along a master of the taper.

    x = s sin(e) / cos(alpha / 2), with s the travel of the slide and e the error of its angle.

    Parameters
    ----------
    taper : Taper [-]
        The master's: a good arbor, centre or plug gauge held true.
    travel : float [mm]
        Over 0, at most 10 000; of the top slide.
    angle_error : float [deg]
        -10 to 10; over 0 where the slide is swung too far.

    Returns
    -------
    float [mm]
        Change of the reading over the travel; 0 where the slide lies along the master.

    Notes
    -----
    A master that is held out of line with the spindle drifts too: turn the spindle half round and
    take the mean of both drifts.

    Examples
    --------
    >>> round(master_drift(Taper.from_text("Morse 3"), 60, 0.05), 4)
    0.0524

    References
    ----------
    Common practice, no source.
    """
    require_length("travel", travel)
    require_within("angle_error", angle_error, "deg", -MOST_ANGLE_ERROR, MOST_ANGLE_ERROR)
    return travel * sin(radians(angle_error)) / cos(radians(taper.half_angle))


@offered(source=TRIGONOMETRY, cautions=taper_cautions("indicator"))
def angle_from_drift(taper: Taper, travel: Millimetre, drift: Millimetre) -> Degree:
    """Error of a top slide's angle, from the drift of an indicator along a master of the taper.

    e = asin(x cos(alpha / 2) / s), with x the drift over a travel s of the slide.

    Parameters
    ----------
    taper : Taper [-]
        The master's.
    travel : float [mm]
        Over 0, at most 10 000; of the top slide.
    drift : float [mm]
        At most 0.17 times the travel either way; over 0 where the slide is swung too far.

    Returns
    -------
    float [deg]
        By which to swing the slide back.

    Notes
    -----
    `master_drift` is the other way round.

    Examples
    --------
    >>> round(angle_from_drift(Taper.from_text("Morse 3"), 60, 0.05), 4)
    0.0477

    References
    ----------
    Common practice, no source.
    """
    require_length("travel", travel)
    require_within("drift", drift, "mm", -0.17 * travel, 0.17 * travel)
    return degrees(asin(drift * cos(radians(taper.half_angle)) / travel))
