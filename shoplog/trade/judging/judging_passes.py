"""The passes of a cut, all alike, against the depth that they must come to together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import repeat

from shoplog.trade.judging.in_both import in_both
from shoplog.trade.judging.judging_record import Limit, limit_at_least, limit_at_most, with_change
from shoplog.trade.judging.judging_setup import Remarks, Setup
from shoplog.trade.machining.pass_checks import what_would_do
from shoplog.trade.machining.pass_plan import NEAR_MM, PassPlan
from shoplog.trade.machining.passes import PRACTICE

__all__ = ["pass_limits"]

WHAT = "depth of all passes"


def pass_limits(setup: Setup, remarks: Remarks) -> Iterator[Limit]:
    """What the passes come to against what they must; said only where they do not add up."""
    wanted, depth, passes = setup.total_depth, setup.depth_of_cut, setup.passes
    if wanted is None:
        return
    if depth is None or passes is None:
        remarks.miss("depth of cut" if depth is None else "passes", "setup", WHAT)
        return
    plan = PassPlan(tuple(repeat(depth, round(passes))))
    off = wanted - plan.total
    if abs(off) > NEAR_MM:
        bounded = limit_at_least if off > 0 else limit_at_most
        limit = bounded(WHAT, plan.total, wanted, "mm", "geometry", PRACTICE)
        yield with_change(limit, in_both(what_would_do(plan, wanted)))
