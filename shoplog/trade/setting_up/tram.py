"""A mill's head against its table: its tilt from an indicator's sweep, and what a tilt leaves."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, degrees, radians, sin, sqrt, tan

from shoplog.tables import table
from shoplog.trade.declare import Degree, Micrometre, Millimetre, OutOfRange, offered
from shoplog.trade.machining.cutting import require_positive, require_within

__all__ = ["HeadTram", "TramDish", "head_tram", "tram_dish", "tram_shim"]

GEOMETRY = "common practice, no source: geometry of a tilted circle"
PER = 100.0
"""Millimetres that a tilt is told over."""
MOST_TILT = 30.0
MOST_PART = 0.5
"""A reading of half the sweep is 30° already: no head is so far out."""
SIDES = ("right", "left")


def _cautions(*when: str) -> tuple[str, ...]:
    return tuple(row["caution"] for row in table("tram_cautions").rows if row["when"] in when)


@dataclass(frozen=True, slots=True)
class HeadTram:
    """How far a spindle leans in the plane of two readings, and which way to correct it."""

    indicator_difference: Millimetre
    """Reading at the right (or the back) less that at the left (or the front)."""
    sweep_diameter: Millimetre
    """Of the circle that the indicator's tip goes round."""

    @property
    def tilt(self) -> Degree:
        """Of the spindle from square to the table; over 0 where the reading is higher at the right.

        A reading that is higher there says that the tip is nearer to the table there.
        """
        return degrees(asin(self.indicator_difference / self.sweep_diameter))

    @property
    def per_100(self) -> Micrometre:
        """The same as a slope: over 100 mm."""
        return 1000 * PER * tan(radians(self.tilt))

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of a sweep by hand, and of easing a head's bolts."""
        return _cautions("sweep")

    @property
    def notes(self) -> tuple[str, ...]:
        """Which way, and how it is proved."""
        if not self.indicator_difference:
            return ("this plane is square; sweep the other one too, from front to back",)
        near = SIDES[self.indicator_difference < 0]
        return (
            f"the spindle's face is lower at the {near}: swing the head so that its {near} side"
            " goes up, until both sides read alike",
            "from front to back the same holds, with back for right and front for left",
            "sweep the table itself or a parallel on it, and once more after the bolts are tight",
        )

    def describe(self) -> str:
        """The tilt in one sentence."""
        return (
            f"{self.indicator_difference:+.3f} mm across {self.sweep_diameter:g} mm: the head leans"
            f" {abs(self.tilt):.4f}°, {abs(self.per_100):.1f} µm over 100 mm."
        )


@offered(source=GEOMETRY, cautions=_cautions("sweep"))
def head_tram(indicator_difference: Millimetre, sweep_diameter: Millimetre) -> HeadTram:
    """Tilt of a mill's head from the two readings of an indicator that is swept over the table.

    tilt = asin(x / d), with x the difference of the readings and d the diameter of the sweep.

    Parameters
    ----------
    indicator_difference : float [mm]
        The right reading less the left one, or the back less the front; at most half the sweep
        either way. It is counted over 0 where the plunger is pushed in more.
    sweep_diameter : float [mm]
        Over 0; from the tip on one side to the tip on the other.

    Returns
    -------
    HeadTram [-]
        The tilt, the same over 100 mm, and which way to swing the head.

    Raises
    ------
    OutOfRange
        The sweep has no size, or the difference is more than half of it.

    Notes
    -----
    The table is taken as flat and square to the knee's travel. A lever indicator reads true only
    with its lever level with the table.

    Examples
    --------
    >>> head_tram(0.02, 200).describe()
    '+0.020 mm across 200 mm: the head leans 0.0057°, 10.0 µm over 100 mm.'

    References
    ----------
    Common practice, no source.
    """
    require_positive("sweep_diameter", sweep_diameter, "mm")
    most = MOST_PART * sweep_diameter
    require_within("indicator_difference", indicator_difference, "mm", -most, most)
    return HeadTram(indicator_difference, sweep_diameter)


@offered(source=GEOMETRY, cautions=_cautions("sweep"))
def tram_shim(tram: HeadTram, bolt_distance: Millimetre) -> Millimetre:
    """Shim that squares a head or a column which does not swing, under one of two rows of bolts.

    s = b sin(tilt), with b the distance of the two rows in the direction of the tilt.

    Parameters
    ----------
    tram : HeadTram [-]
        What the sweep found.
    bolt_distance : float [mm]
        Over 0; between the rows of bolts, in the plane of the readings.

    Returns
    -------
    float [mm]
        Thickness, under the side where the spindle's face is lower.

    Notes
    -----
    For a head that is bolted to a level face. One on an upright face is shimmed at the rows one
    above the other, under the lower row where the spindle's face is lower at the front.

    Examples
    --------
    >>> round(tram_shim(head_tram(0.08, 200), 150), 4)
    0.06

    References
    ----------
    Common practice, no source.
    """
    require_positive("bolt_distance", bolt_distance, "mm")
    return bolt_distance * abs(sin(radians(tram.tilt)))


@dataclass(frozen=True, slots=True)
class TramDish:
    """What a face mill leaves behind when its spindle leans."""

    tilt: Degree
    cutter_diameter: Millimetre
    width_of_cut: Millimetre
    """Of the strip that one pass leaves, about the cutter's middle."""

    @property
    def dish(self) -> Micrometre:
        """With the lean along the feed: how much deeper the strip's middle is than its edges."""
        across, width = self.cutter_diameter / 2, self.width_of_cut / 2
        # The same as R - sqrt(R^2 - w^2), without loss where the strip is narrow.
        sag = width**2 / (across + sqrt(across**2 - width**2))
        return 1000 * sag * sin(radians(self.tilt))

    @property
    def step(self) -> Micrometre:
        """With the lean across the feed: from one edge of the strip to the other, as a slope.

        Strips side by side make saw-teeth of this height.
        """
        return 1000 * self.width_of_cut * tan(radians(self.tilt))

    @property
    def dish_radius(self) -> Millimetre | None:
        """Of the hollow at the middle of the strip; nothing where there is no tilt."""
        lean = sin(radians(self.tilt))
        return self.cutter_diameter / 2 / lean if lean else None

    @property
    def heel(self) -> Micrometre:
        """How far the cutter's far edge is clear of the face, or cuts it again, with the lean along
        the feed.
        """
        return 1000 * self.cutter_diameter * sin(radians(self.tilt))

    @property
    def notes(self) -> tuple[str, ...]:
        """What the shapes hang on."""
        return (
            "with the lean along the feed the cutter must lean so that its leading edge is lower:"
            " the other way its far edge cuts the face a second time",
            "a strip as wide as the cutter has the deepest dish: a narrower one has less than its"
            " share",
        )

    def describe(self) -> str:
        """Both shapes in one sentence."""
        return (
            f"{self.tilt:.4f}° out of tram, {self.width_of_cut:g} mm wide with a cutter of"
            f" {self.cutter_diameter:g} mm: a dish {self.dish:.1f} µm deep if it leans along the"
            f" feed, a step of {self.step:.1f} µm if across."
        )


@offered(source=GEOMETRY)
def tram_dish(tilt: Degree, cutter_diameter: Millimetre, width_of_cut: Millimetre) -> TramDish:
    """Dish and step that a face mill leaves when its spindle is not square to the table.

    dish = (R - sqrt(R^2 - w^2/4)) sin(tilt), with R the cutter's radius and w the width of the
    strip; step = w tan(tilt).

    Parameters
    ----------
    tilt : float [deg]
        0 to 30; of the spindle, as `head_tram` gives it, without its sign.
    cutter_diameter : float [mm]
        Over 0; over the points of the teeth.
    width_of_cut : float [mm]
        Over 0 and at most the cutter's diameter.

    Returns
    -------
    TramDish [-]
        The dish with the lean along the feed, the step with the lean across it.

    Raises
    ------
    OutOfRange
        The strip is wider than the cutter, or the tilt is none of a head.

    Notes
    -----
    The strip is centred under the cutter; off centre the dish leans. The points of the teeth are
    taken as one plane, and nothing bends.

    Examples
    --------
    >>> made = tram_dish(0.0573, 80, 60)
    >>> round(made.dish, 1), round(made.step, 1)
    (13.5, 60.0)

    References
    ----------
    Common practice, no source.
    """
    require_within("tilt", tilt, "deg", 0, MOST_TILT)
    require_positive("cutter_diameter", cutter_diameter, "mm")
    require_positive("width_of_cut", width_of_cut, "mm")
    if width_of_cut > cutter_diameter:
        raise OutOfRange(
            "width_of_cut",
            width_of_cut,
            "mm",
            most=cutter_diameter,
            source="the cutter's diameter",
            hint="a wider face is cut in strips: the width of one of them",
        )
    return TramDish(tilt, cutter_diameter, width_of_cut)
