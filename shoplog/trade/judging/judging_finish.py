"""The finish of a cut that is judged, against the one that is wanted."""

from __future__ import annotations

from collections.abc import Iterator

from shoplog.trade.judging.judging_bands import SETUP
from shoplog.trade.judging.judging_changes import feed_change, floor_two
from shoplog.trade.judging.judging_record import Limit, limit_at_most, with_change
from shoplog.trade.judging.judging_setup import END_MILLED, TURNED, Remarks, Setup
from shoplog.trade.machining.finish import turned_finish
from shoplog.trade.machining.finish_milling import face_milled_finish, wall_milled_finish
from shoplog.trade.machining.finish_record import ARCS, Finish

__all__ = ["finish_limits"]


def finish_limits(setup: Setup, remarks: Remarks) -> Iterator[Limit]:
    """The theoretical Ra against the one that is wanted."""
    if setup.wanted_ra is None:
        return
    made = remarks.attempt("finish", lambda: _finish(setup, remarks))
    if made is None:
        return
    remarks.caution(*made.cautions)
    remarks.note(*made.notes)
    limit = limit_at_most("finish", made.ra, setup.wanted_ra, "um", "asked", ARCS)
    per_tooth = setup.kind.milled
    feed = (setup.tooth_feed if per_tooth else setup.rev_feed) or 0
    finer = floor_two(0.999 * feed * (setup.wanted_ra / made.ra) ** 0.5) if made.ra else feed
    yield with_change(limit, feed_change(setup, finer, per_tooth))


def _finish(setup: Setup, remarks: Remarks) -> Finish | None:
    kind, nose, diameter = setup.kind, setup.nose_radius, setup.turning_diameter
    if kind.operation in TURNED and setup.rev_feed is not None:
        if nose:
            return turned_finish(
                setup.rev_feed,
                nose,
                depth_of_cut=setup.depth_of_cut,
                length=setup.length,
                diameter=setup.diameter,
            )
        remarks.miss("nose radius", SETUP, "finish")
    elif kind.operation == "face milling" and setup.tooth_feed is not None:
        if nose:
            return face_milled_finish(setup.tooth_feed, nose, setup.teeth or 1)
        remarks.miss("corner radius of the cutter", SETUP, "finish")
    elif kind.operation in (*END_MILLED, "side milling") and setup.tooth_feed and diameter:
        return wall_milled_finish(setup.tooth_feed, diameter, setup.teeth or 1)
    else:
        remarks.note(f"the finish of {kind.operation} cannot be judged from what is known")
    return None
