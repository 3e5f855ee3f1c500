"""A stated plan of passes held against the depth it must reach, and the time that a plan takes."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, fsum

from shoplog.trade.declare import (
    Millimetre,
    MillimetrePerRev,
    Minute,
    RevPerMinute,
    TradeError,
    offered,
)
from shoplog.trade.machining.cutting import (
    MOST_PASSES,
    require_positive,
    require_within,
    turning_time,
)
from shoplog.trade.machining.pass_plan import NEAR_MM, PassPlan, say_mm
from shoplog.trade.machining.passes import PRACTICE

__all__ = ["passes_time", "stated_passes", "what_would_do"]

STATUSES = ("planned", "ran")


@offered(source=PRACTICE)
def stated_passes(plan: PassPlan, depth: Millimetre, status: str = "planned") -> PassPlan:
    """A stated plan of passes, held against the depth that it must reach.

    Parameters
    ----------
    plan : PassPlan [-]
        As text: `5 passes of 1.5 mm`, `4 x 1.5 mm + 0.25 mm`, `3 cuts of 2 mm on diameter`.
    depth : float [mm]
        Over 0; square to the surface, in turning on the radius.
    status : str [-]
        `planned`, or `ran`: then a sum that differs is a caution, and nothing is refused.

    Returns
    -------
    PassPlan [-]
        The plan, as it was stated.

    Raises
    ------
    TradeError
        The passes do not add up to the depth, or the plan cannot be read.

    Notes
    -----
    Sums within half a micrometre are the same.

    Examples
    --------
    >>> stated_passes(PassPlan.from_text("5 passes of 1.5 mm"), 7.5).count
    5

    References
    ----------
    Common practice, no source.
    """
    require_positive("depth", depth, "mm")
    if status not in STATUSES:
        raise TradeError(
            f"the status is {status[:20]!r}, it must be {' or '.join(STATUSES)}", argument="status"
        )
    if not plan.depths:
        raise TradeError("the plan has no passes", argument="plan")
    off = depth - plan.total
    if abs(off) <= NEAR_MM:
        return plan
    verb = "comes" if plan.count == 1 else "come"
    said = f"{_say_plan(plan)} {verb} to {say_mm(plan.total)}, the depth is {say_mm(depth)}"
    said += f": {say_mm(abs(off))} {'short' if off > 0 else 'too deep'}"
    if status == "ran":
        return replace(plan, cautions=(*plan.cautions, said))
    raise TradeError(said, hint=what_would_do(plan, depth), argument="plan")


@offered(source="Groover, 4th ed. 2010, eq. 22.4, for each pass with its approach and overrun")
def passes_time(
    plan: PassPlan,
    length: Millimetre,
    feed_per_rev: MillimetrePerRev,
    spindle_speed: RevPerMinute,
    approach: Millimetre = 0,
    overrun: Millimetre = 0,
    finishing_feed: MillimetrePerRev | None = None,
    finishing_speed: RevPerMinute | None = None,
) -> Minute:
    """Time that the tool travels at its feed over all the passes of a plan on the lathe.

    t = sum of (L + A + O)/(f n) over the passes; L the length, A the approach, O the overrun.

    Parameters
    ----------
    plan : PassPlan [-]
        A plan, or its text.
    length : float [mm]
        Over 0; of the work along the feed, in facing half the diameter.
    feed_per_rev : float [mm/rev]
        Over 0; of the roughing passes.
    spindle_speed : float [rpm]
        Over 0; of the roughing passes.
    approach : float [mm]
        0 or more; before each pass.
    overrun : float [mm]
        0 or more; after each pass.
    finishing_feed : float [mm/rev]
        Over 0; of the finishing passes, where it is another.
    finishing_speed : float [rpm]
        Over 0; of the finishing passes, where it is another.

    Returns
    -------
    float [min]
        Time at the feed; setting, return and measuring come on top.

    Raises
    ------
    OutOfRange
        A value is outside its range.

    Notes
    -----
    On the mill, give `milling_time` the plan's `count`.

    Examples
    --------
    >>> plan = PassPlan.from_text("3 passes of 1.667 mm")
    >>> round(passes_time(plan, 170, 0.3, 440, overrun=5), 2)
    3.98

    References
    ----------
    Groover, 4th ed. 2010, eq. 22.4.
    """
    require_positive("length", length, "mm")
    require_within("approach", approach, "mm", 0, 1e6)
    require_within("overrun", overrun, "mm", 0, 1e6)
    travel = length + approach + overrun
    rough = turning_time(travel, feed_per_rev, spindle_speed)
    fine_feed = feed_per_rev if finishing_feed is None else finishing_feed
    fine_speed = spindle_speed if finishing_speed is None else finishing_speed
    require_positive("finishing_feed", fine_feed, "mm/rev")
    require_positive("finishing_speed", fine_speed, "rpm")
    fine = turning_time(travel, fine_feed, fine_speed)
    return fsum([(plan.count - plan.finish_passes) * rough, plan.finish_passes * fine])


def _say_plan(plan: PassPlan) -> str:
    return plan.describe().partition(":")[0]


def _say_share(depth: float, count: int) -> str:
    """A depth's equal share, with so many places that the passes do come to the depth."""
    return f"{round(depth / count, 3 + len(str(count))):.12g} mm"


def what_would_do(plan: PassPlan, depth: float) -> str:
    """What would reach the depth: other passes all alike, or another last pass."""
    first, *_, last = (*plan.depths, plan.depths[-1])
    if max(plan.depths) - min(plan.depths) < NEAR_MM:
        counts = dict.fromkeys((max(ceil((depth - NEAR_MM) / first), 1), plan.count))
        return " or ".join(
            f"{n} {'pass' if n == 1 else 'passes'} of {_say_share(depth, n)}"
            for n in counts
            if n <= MOST_PASSES
        )
    missing = depth - plan.total
    if missing > 0:
        return f"one pass more of {say_mm(missing)}, or a last pass of {say_mm(last + missing)}"
    if last + missing > NEAR_MM:
        return f"a last pass of {say_mm(last + missing)}"
    return f"fewer passes: {say_mm(-missing)} is more than the last one"
