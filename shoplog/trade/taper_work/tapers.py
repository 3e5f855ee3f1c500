"""Tapers: those with names and plain ratios; their angles, and how a top slide is swung for them.

A taper is the change of *diameter* over a length. Half of its included angle is what a lathe is
set to, and that is atan((D - d) / (2 L)), which half of atan((D - d) / L) is not.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, degrees, isclose, radians, tan
from typing import Annotated, Self

from shoplog.trade.declare import (
    Degree,
    In,
    Millimetre,
    Number,
    OutOfRange,
    TradeError,
    offered,
)
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within
from shoplog.trade.taper_work.taper_names import read_taper

__all__ = [
    "CompoundSetting",
    "Taper",
    "compound_setting",
    "large_diameter_of",
    "small_diameter_of",
    "taper",
    "taper_from_angle",
    "taper_half_angle",
    "taper_included_angle",
    "taper_per_foot_of",
    "taper_ratio",
    "tapers_mate",
]

InchPerFoot = Annotated[float, In("in/ft")]

GEOMETRY = "ISO 3040:2016, rate of taper and cone angle (from memory)"
SWUNG_SLIDE = (
    "turn the spindle by hand through the whole travel first: a swung top slide and its handle"
    " can reach the chuck jaws; the machine's manual decides"
)

# 1:19.231 and 0.624 in on 12 in are one taper; the nearest two Morse tapers differ 20 times more.
SAME_TAPER = 5e-5


@dataclass(frozen=True, slots=True)
class Taper:
    """A taper; its size at the large end and its length where a standard gives them."""

    designation: str
    ratio: Number
    """Change of diameter over length."""
    large_diameter: Millimetre | None = None
    """At the gauge plane."""
    length: Millimetre | None = None
    """From the gauge plane to the small end of the plug gauge."""

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The taper that a designation names: `Morse 2`, `7:24 ISO 40`, `1:50`."""
        found = read_taper(text)
        return cls(found.designation, found.ratio, found.large_diameter, found.length)

    @property
    def one_in(self) -> Number:
        """Length in which the diameter changes by 1: 20 for a taper of 1:20."""
        return 1 / self.ratio

    @property
    def included_angle(self) -> Degree:
        """Angle of the whole cone."""
        return 2 * self.half_angle

    @property
    def half_angle(self) -> Degree:
        """Angle between the axis and the side, which a lathe is set to."""
        return degrees(atan(self.ratio / 2))

    @property
    def taper_per_foot(self) -> InchPerFoot:
        """Change of diameter in inch over a foot of length."""
        return 12 * self.ratio

    @property
    def small_diameter(self) -> Millimetre | None:
        """At the small end of the plug gauge, where the length is known."""
        if self.large_diameter is None or self.length is None:
            return None
        return self.large_diameter - self.ratio * self.length

    def describe(self) -> str:
        """The taper in one sentence."""
        at = self.large_diameter
        size = "" if at is None else f" ({at:.3f} mm at the gauge)"
        return (
            f"{self.designation}{size}: 1:{self.one_in:.6g} on diameter,"
            f" {self.taper_per_foot:.4f} in/ft, {self.included_angle:.4f}° included."
        )


def _require_cone(large_diameter: float, small_diameter: float, length: float) -> None:
    require_positive("large_diameter", large_diameter, "mm")
    if not small_diameter >= 0:
        raise OutOfRange("small_diameter", small_diameter, "mm", least=0)
    require_positive("length", length, "mm")
    if not small_diameter < large_diameter:
        raise TradeError(
            f"the small diameter ({small_diameter:g} mm) is not less than the large one"
            f" ({large_diameter:g} mm)",
            hint="a cylinder is no taper; the large diameter comes first",
            argument="small_diameter",
        )


def _require_angle(included_angle: float) -> None:
    require_positive("included_angle", included_angle, "deg")
    if not included_angle < 180:
        raise OutOfRange("included_angle", included_angle, "deg", below=180)


@offered(
    source="ISO 296:1991 (Morse 0 to 6, metric); ASME B5.10-1994 (Morse 7, Brown & Sharpe);"
    " ISO 297:1988 (7:24); ISO 239:1999 (Jacobs, B10 to B24); the rule of the Jarno taper;"
    " ISO 15488:2003 (collets of 8°); ISO 2339:1986 and ASME B18.8.2 (taper pins)"
)
def taper(designation: str) -> Taper:
    """Taper of a designation as the standard writes it, or of a ratio.

    Parameters
    ----------
    designation : str [-]
        `Morse 2` (`MT2`), `B16`, `7:24 ISO 40`, `Jarno 8`, `Brown & Sharpe 7` (`B&S 7`),
        `Jacobs 33`, `Jacobs 2 short` (`JT2S`), `Metric 80`, `ISO 15488 collet 32`,
        `taper pin 6x30`, `taper pin No. 4`; a ratio as `1:50`.

    Returns
    -------
    Taper [-]
        Ratio, angles and taper per foot; the diameters and the length where the standard has them.

    Notes
    -----
    A ratio is on diameter. Every Morse number has a ratio of its own. A metric pin is named by its
    small end, and its length makes its large one; an inch pin's number stands for its large end.

    Examples
    --------
    >>> taper("Morse 2").describe()
    'Morse 2 (17.780 mm at the gauge): 1:20.02 on diameter, 0.5994 in/ft, 2.8613° included.'
    >>> round(taper("7:24").included_angle, 4)
    16.5943
    >>> round(taper("Jarno 8").small_diameter / 25.4, 4)
    0.8

    References
    ----------
    The standards named in the heads of the tables tapers_morse, tapers_morse_short,
    tapers_7_24, tapers_jarno, tapers_brown_sharpe, tapers_jacobs, tapers_metric, tapers_collet,
    tapers_pins_metric and tapers_pins_inch.
    """
    return Taper.from_text(designation)


@offered(source=GEOMETRY)
def taper_half_angle(
    large_diameter: Millimetre, small_diameter: Millimetre, length: Millimetre
) -> Degree:
    """Angle between the axis of a cone and its side, which a lathe is set to.

    alpha/2 = atan((D - d) / (2 L)), with D and d the diameters and L the length between them.

    Parameters
    ----------
    large_diameter : float [mm]
        Over 0.
    small_diameter : float [mm]
        0 or more, and less than the large one.
    length : float [mm]
        Over 0; along the axis.

    Returns
    -------
    float [deg]
        Half of the included angle.

    Notes
    -----
    Half of atan((D - d) / L) is a little less, and wrong: by 6 minutes of arc at 1:4.

    Examples
    --------
    >>> round(taper_half_angle(50, 30, 60), 2)
    9.46

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    _require_cone(large_diameter, small_diameter, length)
    return degrees(atan((large_diameter - small_diameter) / (2 * length)))


@offered(source=GEOMETRY)
def taper_included_angle(
    large_diameter: Millimetre, small_diameter: Millimetre, length: Millimetre
) -> Degree:
    """Angle of a whole cone from its two diameters and the length between them.

    alpha = 2 atan((D - d) / (2 L)), with D and d the diameters and L the length.

    Parameters
    ----------
    large_diameter : float [mm]
        Over 0.
    small_diameter : float [mm]
        0 or more, and less than the large one.
    length : float [mm]
        Over 0; along the axis.

    Returns
    -------
    float [deg]
        Included angle.

    Notes
    -----
    A lathe is set to half of it.

    Examples
    --------
    >>> round(taper_included_angle(60, 20, 80), 3)
    28.072

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    _require_cone(large_diameter, small_diameter, length)
    return degrees(2 * atan((large_diameter - small_diameter) / (2 * length)))


@offered(source=GEOMETRY)
def taper_ratio(
    large_diameter: Millimetre, small_diameter: Millimetre, length: Millimetre
) -> Number:
    """Change of diameter over length of a cone.

    C = (D - d) / L, with D and d the diameters and L the length between them.

    Parameters
    ----------
    large_diameter : float [mm]
        Over 0.
    small_diameter : float [mm]
        0 or more, and less than the large one.
    length : float [mm]
        Over 0; along the axis.

    Returns
    -------
    float [-]
        Ratio; 0.05 is a taper of 1:20.

    Notes
    -----
    Measured diameters must be that length apart along the axis, not along the side.

    Examples
    --------
    >>> taper_ratio(22, 20, 40)
    0.05

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    _require_cone(large_diameter, small_diameter, length)
    return (large_diameter - small_diameter) / length


@offered(source=GEOMETRY)
def taper_per_foot_of(included_angle: Degree) -> InchPerFoot:
    """Taper per foot of a cone of an included angle.

    Taper per foot = 24 tan(alpha / 2), in inch of diameter on a foot of length.

    Parameters
    ----------
    included_angle : float [deg]
        Over 0, below 180.

    Returns
    -------
    float [in/ft]
        Change of diameter over a foot.

    Notes
    -----
    The angle is that of the whole cone, not what the lathe is set to.

    Examples
    --------
    >>> round(taper_per_foot_of(3), 4)
    0.6285

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    _require_angle(included_angle)
    return 24 * tan(radians(included_angle / 2))


@offered(source=GEOMETRY)
def taper_from_angle(included_angle: Degree) -> Taper:
    """Taper of a cone of an included angle: its ratio and its taper per foot.

    C = 2 tan(alpha / 2), with alpha the included angle.

    Parameters
    ----------
    included_angle : float [deg]
        Over 0, below 180.

    Returns
    -------
    Taper [-]
        Ratio, angles and taper per foot; no size.

    Notes
    -----
    The angle is that of the whole cone, not what the lathe is set to.

    Examples
    --------
    >>> taper_from_angle(60).describe()
    '60° cone: 1:0.866025 on diameter, 13.8564 in/ft, 60.0000° included.'

    References
    ----------
    ISO 3040:2016; ISO 1119:2011 (from memory).
    """
    _require_angle(included_angle)
    return Taper(f"{included_angle:g}° cone", 2 * tan(radians(included_angle / 2)))


@offered(source=GEOMETRY)
def small_diameter_of(large_diameter: Millimetre, ratio: Number, length: Millimetre) -> Millimetre:
    """Small diameter of a cone, a length from its large one.

    d = D - C L, with D the large diameter, C the ratio and L the length.

    Parameters
    ----------
    large_diameter : float [mm]
        Over 0.
    ratio : float [-]
        Over 0; of diameter to length, so 0.05 for 1:20.
    length : float [mm]
        Over 0; along the axis, and short of the point of the cone.

    Returns
    -------
    float [mm]
        Small diameter.

    Notes
    -----
    `taper("1:20").ratio` gives the ratio of a designation.

    Examples
    --------
    >>> round(small_diameter_of(75, 1 / 200, 600), 6)
    72.0

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    require_positive("large_diameter", large_diameter, "mm")
    require_positive("ratio", ratio, "")
    require_positive("length", length, "mm")
    _require_before_point(large_diameter, ratio, length)
    return large_diameter - ratio * length


def _require_before_point(large_diameter: float, ratio: float, length: float) -> None:
    if length * ratio >= large_diameter:
        raise TradeError(
            f"the cone comes to a point {large_diameter / ratio:g} mm from its large end,"
            f" it must be longer than the {length:g} mm asked",
            argument="length",
        )


@offered(source=GEOMETRY)
def large_diameter_of(small_diameter: Millimetre, ratio: Number, length: Millimetre) -> Millimetre:
    """Large diameter of a cone, a length from its small one.

    D = d + C L, with d the small diameter, C the ratio and L the length.

    Parameters
    ----------
    small_diameter : float [mm]
        0 or more.
    ratio : float [-]
        Over 0; of diameter to length, so 0.05 for 1:20.
    length : float [mm]
        Over 0; along the axis.

    Returns
    -------
    float [mm]
        Large diameter.

    Notes
    -----
    `taper("1:20").ratio` gives the ratio of a designation.

    Examples
    --------
    >>> large_diameter_of(20, 1 / 30, 60)
    22.0

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    require_within("small_diameter", small_diameter, "mm", 0, LARGEST)
    require_positive("ratio", ratio, "")
    require_positive("length", length, "mm")
    return small_diameter + ratio * length


@dataclass(frozen=True, slots=True)
class CompoundSetting:
    """How a lathe's top slide (compound rest) is swung for a taper."""

    taper: Taper

    @property
    def angle(self) -> Degree:
        """Angle of the slide from the spindle's axis."""
        return self.taper.half_angle

    @property
    def from_cross_slide(self) -> Degree:
        """Reading of a swivel scale that is at 0 along the cross slide."""
        return 90 - self.angle

    @property
    def notes(self) -> tuple[str, ...]:
        """What to know when setting it."""
        return (
            "the swivel scale is too coarse for a taper that must hold: set with an indicator"
            " along a gauge or a good taper, then try with marking blue",
        )

    def describe(self) -> str:
        """The setting in one sentence."""
        return (
            f"{self.taper.designation}: top slide {self.angle:.4f}° from the axis"
            f" ({self.from_cross_slide:.4f}° if the scale is 0 along the cross slide)."
        )


@offered(
    source="F. D. Jones, Turning and Boring, 1914, taper turning with the compound rest",
    cautions=(SWUNG_SLIDE,),
)
def compound_setting(taper: Taper) -> CompoundSetting:
    """Angle to which a lathe's top slide (compound rest) is swung for a taper.

    The setting is alpha / 2 from the spindle's axis; 90 - alpha / 2 from the cross slide.

    Parameters
    ----------
    taper : Taper [-]
        A taper, or its designation as text.

    Returns
    -------
    CompoundSetting [-]
        The angle from the spindle's axis, and the reading from the cross slide.

    Notes
    -----
    The edge must be at the height of the spindle's axis, or the side comes out hollow.

    Examples
    --------
    >>> compound_setting(Taper.from_text("1:20")).describe()
    '1:20: top slide 1.4321° from the axis (88.5679° if the scale is 0 along the cross slide).'

    References
    ----------
    F. D. Jones, Turning and Boring, 1914.
    """
    return CompoundSetting(taper)


def tapers_mate(one: Taper, other: Taper) -> str:
    """Why two tapers do not go together, or nothing where they do.

    Sizes are compared where both tapers have one; a plain ratio has none.
    """
    if not isclose(one.ratio, other.ratio, rel_tol=SAME_TAPER):
        return (
            f"the tapers differ: {one.designation} is 1:{one.one_in:.6g}"
            f" and {other.designation} is 1:{other.one_in:.6g}"
        )
    if one.large_diameter is None or other.large_diameter is None:
        return ""
    if not isclose(one.large_diameter, other.large_diameter, rel_tol=1e-9):
        return (
            f"the sizes differ: {one.designation} is {one.large_diameter:.3f} mm at the gauge"
            f" and {other.designation} is {other.large_diameter:.3f} mm"
        )
    return ""
