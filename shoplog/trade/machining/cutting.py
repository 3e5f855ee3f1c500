"""Speeds, feeds, removal rates and times of turning, milling and drilling.

Plain kinematics: nothing here knows a material. What speed a material and a tool bear is a band
of experience, and comes from a chart or from past setups.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from shoplog.trade.declare import (
    Centimetre3PerMinute,
    MetrePerMinute,
    Millimetre,
    MillimetrePerMinute,
    MillimetrePerRev,
    MillimetrePerTooth,
    Minute,
    OutOfRange,
    RevPerMinute,
    ToothPerRev,
    TradeError,
    offered,
)

__all__ = [
    "SpindleStep",
    "cutting_speed",
    "drilling_time",
    "feed_per_rev",
    "feed_per_tooth",
    "feed_rate",
    "milling_time",
    "removal_rate_drilling",
    "removal_rate_milling",
    "removal_rate_turning",
    "spindle_speed",
    "spindle_step",
    "table_feed",
    "turning_time",
]

# Beyond these no size of a workshop lies; within them no product of a few overflows or vanishes.
SMALLEST, LARGEST = 1e-9, 1e9
MOST_TEETH = MOST_PASSES = 1000

KINEMATICS = "ISO 3002-3:1984, geometric and kinematic quantities in cutting (from memory)"
TEXTBOOK = "Groover, Fundamentals of Modern Manufacturing, 4th ed. 2010, chapter 22"
MARKED_SPEED = (
    "never above the speed marked on the chuck, faceplate, cutter or wheel;"
    " the machine's manual and local rules decide"
)


def require_positive(argument: str, value: float, unit: str) -> None:
    """Refuse what is not over 0, or is no size of a workshop."""
    if not value > 0:
        raise OutOfRange(argument, value, unit, over=0)
    if not SMALLEST <= value <= LARGEST:
        raise OutOfRange(argument, value, unit, least=SMALLEST, most=LARGEST)


def require_within(argument: str, value: float, unit: str, least: float, most: float) -> None:
    """Refuse what is outside two limits, both of which are allowed."""
    if not least <= value <= most:
        raise OutOfRange(argument, value, unit, least=least, most=most)


def require_count(argument: str, value: float, most: int) -> None:
    """Refuse what is not a whole number from 1 to a limit."""
    require_within(argument, value, "", 1, most)
    if value != round(value):
        raise TradeError(f"{argument} is {value:g}, it must be a whole number", argument=argument)


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, eq. 22.1", cautions=(MARKED_SPEED,))
def spindle_speed(cutting_speed: MetrePerMinute, diameter: Millimetre) -> RevPerMinute:
    """Spindle speed at which a diameter moves past the edge at a cutting speed.

    n = 1000 v / (pi D), with v the cutting speed in m/min and D the diameter in mm.

    Parameters
    ----------
    cutting_speed : float [m/min]
        Over 0.
    diameter : float [mm]
        Over 0; of the work before the cut in turning, of the cutter in milling and drilling.

    Returns
    -------
    float [rpm]
        Spindle speed.

    Notes
    -----
    In facing and parting the diameter shrinks to the centre, and the cutting speed with it.

    Examples
    --------
    >>> round(spindle_speed(30, 10), 2)
    954.93

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, eq. 22.1.
    """
    require_positive("cutting_speed", cutting_speed, "m/min")
    require_positive("diameter", diameter, "mm")
    return 1000 * cutting_speed / (pi * diameter)


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, eq. 22.1")
def cutting_speed(spindle_speed: RevPerMinute, diameter: Millimetre) -> MetrePerMinute:
    """Cutting speed of a diameter that turns at a spindle speed.

    v = pi D n / 1000, with n the spindle speed in rpm and D the diameter in mm.

    Parameters
    ----------
    spindle_speed : float [rpm]
        Over 0.
    diameter : float [mm]
        Over 0; of the work before the cut in turning, of the cutter in milling and drilling.

    Returns
    -------
    float [m/min]
        Cutting speed at that diameter.

    Notes
    -----
    In milling the feed adds to it; that is left out, as handbooks do.

    Examples
    --------
    >>> round(cutting_speed(700, 50), 1)
    110.0

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, eq. 22.1.
    """
    require_positive("spindle_speed", spindle_speed, "rpm")
    require_positive("diameter", diameter, "mm")
    return pi * diameter * spindle_speed / 1000


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, section 22.4")
def table_feed(
    feed_per_tooth: MillimetrePerTooth, teeth: ToothPerRev, spindle_speed: RevPerMinute
) -> MillimetrePerMinute:
    """Feed of a milling machine's table for a feed per tooth.

    vf = fz z n, with fz the feed per tooth, z the teeth of the cutter and n the spindle speed.

    Parameters
    ----------
    feed_per_tooth : float [mm/tooth]
        Over 0.
    teeth : float [tooth/rev]
        Whole, 1 to 1000.
    spindle_speed : float [rpm]
        Over 0.

    Returns
    -------
    float [mm/min]
        Table feed.

    Notes
    -----
    A cutter that runs out gives more to one tooth and less to the others.

    Examples
    --------
    >>> round(table_feed(0.05, 4, 900), 6)
    180.0

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, section 22.4.
    """
    require_positive("feed_per_tooth", feed_per_tooth, "mm/tooth")
    require_count("teeth", teeth, MOST_TEETH)
    require_positive("spindle_speed", spindle_speed, "rpm")
    return feed_per_tooth * teeth * spindle_speed


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, section 22.4")
def feed_per_tooth(
    table_feed: MillimetrePerMinute, teeth: ToothPerRev, spindle_speed: RevPerMinute
) -> MillimetrePerTooth:
    """Feed per tooth that a table feed gives.

    fz = vf / (z n), with vf the table feed, z the teeth of the cutter and n the spindle speed.

    Parameters
    ----------
    table_feed : float [mm/min]
        Over 0.
    teeth : float [tooth/rev]
        Whole, 1 to 1000.
    spindle_speed : float [rpm]
        Over 0.

    Returns
    -------
    float [mm/tooth]
        Feed per tooth, in the direction of the feed.

    Notes
    -----
    The chip is thinner than this where the width of cut is under half the cutter.

    Examples
    --------
    >>> feed_per_tooth(500, 10, 500)
    0.1

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, section 22.4.
    """
    require_positive("table_feed", table_feed, "mm/min")
    require_count("teeth", teeth, MOST_TEETH)
    require_positive("spindle_speed", spindle_speed, "rpm")
    return table_feed / (teeth * spindle_speed)


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, eq. 22.3")
def feed_rate(feed_per_rev: MillimetrePerRev, spindle_speed: RevPerMinute) -> MillimetrePerMinute:
    """Feed a minute for a feed per revolution: a carriage, a cross slide or a drill.

    vf = f n, with f the feed per revolution and n the spindle speed.

    Parameters
    ----------
    feed_per_rev : float [mm/rev]
        Over 0.
    spindle_speed : float [rpm]
        Over 0.

    Returns
    -------
    float [mm/min]
        Feed a minute.

    Notes
    -----
    In screw cutting the feed per revolution is the lead of the thread.

    Examples
    --------
    >>> round(feed_rate(0.1, 500), 6)
    50.0

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, eq. 22.3.
    """
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_positive("spindle_speed", spindle_speed, "rpm")
    return feed_per_rev * spindle_speed


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, eq. 22.3")
def feed_per_rev(feed_rate: MillimetrePerMinute, spindle_speed: RevPerMinute) -> MillimetrePerRev:
    """Feed per revolution that a feed a minute gives.

    f = vf / n, with vf the feed a minute and n the spindle speed.

    Parameters
    ----------
    feed_rate : float [mm/min]
        Over 0.
    spindle_speed : float [rpm]
        Over 0.

    Returns
    -------
    float [mm/rev]
        Feed per revolution.

    Notes
    -----
    For a cutter of several teeth, this is the feed per tooth times the teeth.

    Examples
    --------
    >>> feed_per_rev(120, 500)
    0.24

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, eq. 22.3.
    """
    require_positive("feed_rate", feed_rate, "mm/min")
    require_positive("spindle_speed", spindle_speed, "rpm")
    return feed_rate / spindle_speed


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, eq. 22.6")
def removal_rate_turning(
    cutting_speed: MetrePerMinute, feed_per_rev: MillimetrePerRev, depth_of_cut: Millimetre
) -> Centimetre3PerMinute:
    """Volume that a turning cut removes in a minute.

    Q = v f a, with v the cutting speed, f the feed per revolution and a the depth of cut.

    Parameters
    ----------
    cutting_speed : float [m/min]
        Over 0.
    feed_per_rev : float [mm/rev]
        Over 0.
    depth_of_cut : float [mm]
        Over 0; radial, half of what comes off the diameter.

    Returns
    -------
    float [cm^3/min]
        Removal rate.

    Notes
    -----
    With v at the diameter before the cut it is high by a part a / (D - a), D being that
    diameter; with v at the mean diameter it is exact.

    Examples
    --------
    >>> round(removal_rate_turning(138, 0.32, 1.8), 3)
    79.488

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, eq. 22.6.
    """
    require_positive("cutting_speed", cutting_speed, "m/min")
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_positive("depth_of_cut", depth_of_cut, "mm")
    return cutting_speed * feed_per_rev * depth_of_cut


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, section 22.4")
def removal_rate_milling(
    depth_of_cut: Millimetre, width_of_cut: Millimetre, table_feed: MillimetrePerMinute
) -> Centimetre3PerMinute:
    """Volume that a milling cut removes in a minute.

    Q = ap ae vf / 1000, with ap the axial depth, ae the radial width and vf the table feed.

    Parameters
    ----------
    depth_of_cut : float [mm]
        Over 0; along the cutter's axis.
    width_of_cut : float [mm]
        Over 0; across the cutter, and not more than its diameter.
    table_feed : float [mm/min]
        Over 0.

    Returns
    -------
    float [cm^3/min]
        Removal rate while the cutter is fully in the work.

    Notes
    -----
    Less while the cutter enters and leaves.

    Examples
    --------
    >>> round(removal_rate_milling(5, 60, 1534.5), 3)
    460.35

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, section 22.4.
    """
    require_positive("depth_of_cut", depth_of_cut, "mm")
    require_positive("width_of_cut", width_of_cut, "mm")
    require_positive("table_feed", table_feed, "mm/min")
    return depth_of_cut * width_of_cut * table_feed / 1000


@offered(source=f"{KINEMATICS}; {TEXTBOOK}, section 22.3")
def removal_rate_drilling(
    diameter: Millimetre, feed_per_rev: MillimetrePerRev, spindle_speed: RevPerMinute
) -> Centimetre3PerMinute:
    """Volume that a drill removes in a minute from the solid.

    Q = pi D^2 f n / 4000, with D the drill, f the feed per revolution and n the spindle speed.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the drill.
    feed_per_rev : float [mm/rev]
        Over 0.
    spindle_speed : float [rpm]
        Over 0.

    Returns
    -------
    float [cm^3/min]
        Removal rate once the drill cuts at its full diameter.

    Notes
    -----
    Less in a hole that is there already: take away the rate for that hole's diameter.

    Examples
    --------
    >>> round(removal_rate_drilling(12.7, 0.3, 626.6), 2)
    23.81

    References
    ----------
    ISO 3002-3:1984 (from memory); Groover, 4th ed. 2010, section 22.3.
    """
    require_positive("diameter", diameter, "mm")
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_positive("spindle_speed", spindle_speed, "rpm")
    return pi * diameter**2 * feed_per_rev * spindle_speed / 4000


@offered(source=f"{TEXTBOOK}, eq. 22.4")
def turning_time(
    length: Millimetre,
    feed_per_rev: MillimetrePerRev,
    spindle_speed: RevPerMinute,
    passes: int = 1,
) -> Minute:
    """Time that the tool is in the cut while a length is turned.

    t = i L / (f n), with L the length, f the feed per revolution, n the spindle speed, i passes.

    Parameters
    ----------
    length : float [mm]
        Over 0; with the run-in and run-out that the tool travels at the feed.
    feed_per_rev : float [mm/rev]
        Over 0.
    spindle_speed : float [rpm]
        Over 0.
    passes : int [-]
        1 to 1000.

    Returns
    -------
    float [min]
        Time in the cut; setting, return and measuring come on top.

    Notes
    -----
    In facing, the length is half of the diameter.

    Examples
    --------
    >>> turning_time(100, 0.2, 1000)
    0.5

    References
    ----------
    Groover, 4th ed. 2010, eq. 22.4.
    """
    require_positive("length", length, "mm")
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_positive("spindle_speed", spindle_speed, "rpm")
    require_count("passes", passes, MOST_PASSES)
    return passes * length / (feed_per_rev * spindle_speed)


@offered(source=f"{TEXTBOOK}, section 22.4")
def milling_time(
    length: Millimetre,
    table_feed: MillimetrePerMinute,
    approach: Millimetre = 0,
    overrun: Millimetre = 0,
    passes: int = 1,
) -> Minute:
    """Time that the table travels at its feed while a length is milled.

    t = i (L + A + O) / vf, with L the length, A the approach, O the overrun, vf the feed, i passes.

    Parameters
    ----------
    length : float [mm]
        Over 0; of the work, along the feed.
    table_feed : float [mm/min]
        Over 0.
    approach : float [mm]
        0 or more; from where the feed starts to where the cutter is fully in.
    overrun : float [mm]
        0 or more; from the end of the work to where the feed stops.
    passes : int [-]
        1 to 1000.

    Returns
    -------
    float [min]
        Time at the feed; setting, return and measuring come on top.

    Notes
    -----
    A cutter of diameter D that clears the work at both ends travels the length and D more.

    Examples
    --------
    >>> milling_time(300, 800, approach=100, overrun=100)
    0.625

    References
    ----------
    Groover, 4th ed. 2010, section 22.4.
    """
    require_positive("length", length, "mm")
    require_positive("table_feed", table_feed, "mm/min")
    require_within("approach", approach, "mm", 0, LARGEST)
    require_within("overrun", overrun, "mm", 0, LARGEST)
    require_count("passes", passes, MOST_PASSES)
    return passes * (length + approach + overrun) / table_feed


@offered(source=f"{TEXTBOOK}, section 22.3")
def drilling_time(
    depth: Millimetre, feed_per_rev: MillimetrePerRev, spindle_speed: RevPerMinute
) -> Minute:
    """Time that a drill is fed through a depth.

    t = L / (f n), with L the depth to the drill's tip, f the feed per revolution, n the speed.

    Parameters
    ----------
    depth : float [mm]
        Over 0; to the tip, so with the length of the point (`drill_depth`).
    feed_per_rev : float [mm/rev]
        Over 0.
    spindle_speed : float [rpm]
        Over 0.

    Returns
    -------
    float [min]
        Time in the cut; clearing chips comes on top.

    Notes
    -----
    With a hand feed it is no more than an estimate.

    Examples
    --------
    >>> round(drilling_time(63.8, 0.3, 626.6), 3)
    0.339

    References
    ----------
    Groover, 4th ed. 2010, section 22.3.
    """
    require_positive("depth", depth, "mm")
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_positive("spindle_speed", spindle_speed, "rpm")
    return depth / (feed_per_rev * spindle_speed)


def _rpm(speed: float) -> str:
    return f"{speed:.0f} rpm" if speed >= 10 else f"{speed:.3g} rpm"


@dataclass(frozen=True, slots=True)
class SpindleStep:
    """The step of a stepped spindle that is taken for a speed."""

    speed: RevPerMinute
    asked: RevPerMinute
    diameter: Millimetre | None = None

    @property
    def cutting_speed(self) -> MetrePerMinute | None:
        """True cutting speed at that step, where the diameter is known."""
        return None if self.diameter is None else cutting_speed(self.speed, self.diameter)

    @property
    def below_slowest(self) -> bool:
        """Whether less was asked than the slowest step gives."""
        return self.speed > self.asked * (1 + 1e-9)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to mind at this step."""
        if not self.below_slowest:
            return ()
        text = f"{_rpm(self.asked)} is below the slowest step: it runs at {_rpm(self.speed)}"
        if self.diameter is not None:
            asked, true = (cutting_speed(n, self.diameter) for n in (self.asked, self.speed))
            text += f", and cuts at {true:.1f} m/min, not {asked:.1f} m/min"
        return (text,)

    def describe(self) -> str:
        """The step in one sentence."""
        true = self.cutting_speed
        at = "" if true is None else f", {true:.1f} m/min at {self.diameter:g} mm"
        if self.below_slowest:
            return f"{_rpm(self.speed)}{at}: the slowest step, above the {_rpm(self.asked)} asked."
        return f"{_rpm(self.speed)}{at}: the fastest step at or below the {_rpm(self.asked)} asked."


@offered(source="common practice, no source", cautions=(MARKED_SPEED,))
def spindle_step(
    speed: RevPerMinute, steps: list[RevPerMinute], diameter: Millimetre | None = None
) -> SpindleStep:
    """Fastest step of a stepped spindle at or below a speed; below the slowest, the slowest.

    Parameters
    ----------
    speed : float [rpm]
        Over 0; the speed that is wanted.
    steps : list of float [rpm]
        Every step of the spindle, each over 0, in any order.
    diameter : float [mm]
        Over 0; to give the true cutting speed at the step. It may be left out.

    Returns
    -------
    SpindleStep [-]
        The step, and the cutting speed there; a caution where the slowest step is too fast.

    Notes
    -----
    A step within a billionth of the speed counts as that speed.

    Examples
    --------
    >>> spindle_step(955, [200, 400, 800, 1600], diameter=10).describe()
    '800 rpm, 25.1 m/min at 10 mm: the fastest step at or below the 955 rpm asked.'

    References
    ----------
    Common practice, no source.
    """
    require_positive("speed", speed, "rpm")
    if diameter is not None:
        require_positive("diameter", diameter, "mm")
    if not steps:
        raise TradeError("no steps are given", hint="steps=[200 rpm, 400 rpm]", argument="steps")
    for number, step in enumerate(steps, start=1):
        if not SMALLEST <= step <= LARGEST:
            raise TradeError(
                f"step {number} is {step:g} rpm, it must be over 0 rpm and at most {LARGEST:g} rpm",
                argument="steps",
            )
    slower = [step for step in steps if step <= speed * (1 + 1e-9)]
    return SpindleStep(max(slower) if slower else min(steps), speed, diameter)
