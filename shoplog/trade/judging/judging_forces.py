"""Limits of a cut that hang on its forces: power, torque, feed force and bending."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from shoplog.trade.declare import TradeError
from shoplog.trade.judging.in_both import NOTHING, InBoth, in_both
from shoplog.trade.judging.judging_bands import SETUP, SHOP, thickest_chip
from shoplog.trade.judging.judging_changes import feed_change, held, slower
from shoplog.trade.judging.judging_record import CutForces, Limit, limit_at_most, with_change
from shoplog.trade.judging.judging_setup import (
    BORED,
    DRILLED,
    END_MILLED,
    MILLED,
    TURNED,
    USUAL_NOSE,
    Remarks,
    Setup,
)
from shoplog.trade.machining.bending import boring_bar_bending, end_mill_bending
from shoplog.trade.machining.drilling_forces import DRILLING, drilling_forces
from shoplog.trade.machining.force_estimates import BendEstimate
from shoplog.trade.machining.forces import EFFICIENCY, TURNING, spindle_torque, turning_forces
from shoplog.trade.machining.milling_forces import MILLING, milling_forces
from shoplog.trade.machining.work_bending import work_bending

__all__ = ["force_limits", "forces_of"]

NO_FORCE = "power, torque, feed force or bending"
FORCE_EXPONENT = 0.75
"""Force grows as the feed to 1 - mc, or a little less fast."""


def known_forces(setup: Setup) -> CutForces | None:
    """The forces of a cut, where everything that they hang on is known; refused as they refuse."""
    if setup.known is None or setup.spindle_speed is None:
        return None
    operation = setup.kind.operation
    if operation in TURNED:
        return _turned(setup)
    if operation in DRILLED:
        return _drilled(setup)
    return _milled(setup) if operation in MILLED else None


def _turned(setup: Setup) -> CutForces | None:
    depth, feed, speed = setup.depth_of_cut, setup.rev_feed, setup.cutting_speed
    if setup.known is None or depth is None or feed is None or speed is None:
        return None
    made = turning_forces(
        setup.known,
        depth,
        feed,
        speed,
        setup.turning_diameter,
        entering_angle=90 if setup.entering_angle is None else setup.entering_angle,
        nose_radius=USUAL_NOSE if setup.nose_radius is None else setup.nose_radius,
        cutter=setup.force_cutter,
        operation="boring" if setup.kind.operation in BORED else "turning",
        efficiency=_efficiency(setup),
        edge_radius=setup.edge_radius,
    )
    if made.torque is None:
        return None
    forces = (made.tangential, made.feed, made.radial, made.torque, made.motor_power)
    return CutForces(*forces, TURNING, made.cautions, made.notes)


def _drilled(setup: Setup) -> CutForces | None:
    diameter, feed, speed = setup.turning_diameter, setup.rev_feed, setup.spindle_speed
    if setup.known is None or diameter is None or feed is None or speed is None:
        return None
    made = drilling_forces(
        setup.known,
        diameter,
        feed,
        speed,
        drilled_before=setup.drilled_before or 0,
        cutter=setup.force_cutter,
        efficiency=_efficiency(setup),
        edge_radius=setup.edge_radius,
    )
    forces = (None, made.thrust, None, made.torque, made.motor_power)
    return CutForces(*forces, DRILLING, made.cautions, made.notes)


def _milled(setup: Setup) -> CutForces | None:
    diameter, teeth, feed = setup.turning_diameter, setup.teeth, setup.tooth_feed
    depth, width, speed = setup.depth_of_cut, setup.width, setup.spindle_speed
    if setup.known is None or diameter is None or teeth is None or feed is None:
        return None
    if depth is None or width is None or speed is None:
        return None
    made = milling_forces(
        setup.known,
        diameter,
        teeth,
        feed,
        depth,
        width,
        speed,
        direction=setup.direction or "conventional",
        position="centred" if setup.kind.operation == "face milling" else "side",
        entering_angle=90 if setup.entering_angle is None else setup.entering_angle,
        nose_radius=setup.nose_radius or 0,
        slot_width=setup.slot_width,
        cutter=setup.force_cutter,
        efficiency=_efficiency(setup),
        edge_radius=setup.edge_radius,
    )
    # In a full slot both sides of the cutter cut, and the direction is nothing to the forces.
    told = setup.direction is not None or width >= diameter
    return CutForces(
        made.tangential,
        made.feed_push if told else None,
        made.radial if told else None,
        made.torque_peak,
        made.motor_power,
        MILLING,
        made.cautions,
        made.notes,
    )


def _efficiency(setup: Setup) -> float:
    return EFFICIENCY if setup.efficiency is None else setup.efficiency


def forces_of(setup: Setup, remarks: Remarks) -> CutForces | None:
    """The forces of a cut; none for work by hand, and none that hang on what is not known."""
    if setup.by_hand:
        remarks.note("fed by hand: no force, power or bending is worked out")
        return None
    if not _force_is_known(setup, remarks):
        return None
    forces = remarks.attempt(NO_FORCE, lambda: known_forces(setup))
    if forces is not None:
        remarks.caution(*forces.cautions)
        remarks.note(*forces.notes, *_assumed(setup))
    return forces


def force_limits(setup: Setup, forces: CutForces | None, remarks: Remarks) -> Iterator[Limit]:
    """Power, torque, feed force and bending."""
    if forces is None:
        return
    for what, make in MAKERS.items():
        limit = remarks.attempt(what, partial(make, setup, forces))
        if limit is not None:
            yield with_change(limit, _change(setup, limit, make))
    _miss_bounds(setup, forces, remarks)


def _force_is_known(setup: Setup, remarks: Remarks) -> bool:
    kind = setup.kind
    if kind.operation not in (*TURNED, *DRILLED, *MILLED):
        other = ": `tapping_torque` knows that of the tap" if kind.operation == "tapping" else ""
        remarks.note(f"no force of {kind.operation} is known here{other}")
        return False
    if setup.known is None:
        remarks.miss("a material by name, not a group", SETUP, NO_FORCE)
        return False
    needs = {"spindle speed": setup.spindle_speed, "diameter at the edge": setup.turning_diameter}
    needs["feed"] = setup.rev_feed if not kind.milled else setup.tooth_feed or setup.rev_feed
    if kind.operation not in DRILLED:
        needs["depth of cut"] = setup.depth_of_cut
    if kind.milled:
        needs |= {"width of cut": setup.width, "teeth": setup.teeth}
    lacking = [name for name, value in needs.items() if value is None]
    if lacking:
        remarks.miss(", ".join(lacking), SETUP, NO_FORCE)
        return False
    return _cuts(setup, remarks)


def _cuts(setup: Setup, remarks: Remarks) -> bool:
    """Whether the cutter can make the cut at all; what it cannot is a limit of its own."""
    edge = setup.edge_mm
    chip = remarks.attempt(NO_FORCE, lambda: thickest_chip(setup))
    diameter, wide = setup.turning_diameter, setup.slot_width
    narrow = setup.kind.milled and wide is not None and (diameter or 0) > wide * (1 + 1e-9)
    over = setup.kind.milled and (setup.width or 0) > (diameter or 0) * (1 + 1e-9)
    if edge is None:
        remarks.miss("edge radius and force of such a cutter", SETUP, NO_FORCE)
    elif chip is not None and chip < edge * (1 - 1e-9):
        remarks.note("the chip bears and does not cut: no force is worked out")
    elif narrow or over:
        remarks.note("the cutter cannot make this cut: no force is worked out")
    else:
        return chip is not None
    return False


def _assumed(setup: Setup) -> Iterator[str]:
    if setup.efficiency is None:
        yield f"the efficiency from motor to cut is taken as {EFFICIENCY:g} %"
    if setup.nose_radius is None and setup.kind.operation in TURNED:
        yield f"the nose radius is taken as {USUAL_NOSE:g} mm"
    bends = setup.tolerance is not None and setup.stick_out is not None
    if bends and setup.kind.operation in END_MILLED and setup.flute_length is None:
        yield "all that sticks out of the cutter is taken as fluted"


def _power_limit(setup: Setup, forces: CutForces) -> Limit | None:
    if setup.power is None:
        return None
    need = forces.motor_power
    pair = (need.mean, setup.power)
    return limit_at_most("power", *pair, "kW", "rated", forces.source, need.spread)


def _torque_limit(setup: Setup, forces: CutForces) -> Limit | None:
    speed, bound = setup.spindle_speed, setup.torque
    if bound is None and setup.power is not None and speed is not None:
        bound = spindle_torque(setup.power, speed, _efficiency(setup))
    if bound is None:
        return None
    pair = (forces.torque.mean, bound)
    return limit_at_most("torque", *pair, "N*m", "rated", forces.source, forces.torque.spread)


def _feed_limit(setup: Setup, forces: CutForces) -> Limit | None:
    if forces.feed is None or setup.drive_force is None:
        return None
    pair = (forces.feed.mean, setup.drive_force)
    return limit_at_most("feed force", *pair, "N", "rated", forces.source, forces.feed.spread)


def _bend_limit(setup: Setup, forces: CutForces) -> Limit | None:
    bend = bend_of(setup, forces)
    if bend is None or setup.tolerance is None:
        return None
    pair = (abs(bend.mean), 1000 * setup.tolerance)
    return limit_at_most("bending", *pair, "um", "asked", "beam theory", bend.spread)


Make = Callable[[Setup, CutForces], Limit | None]
MAKERS: dict[str, Make] = {
    "power": _power_limit,
    "torque": _torque_limit,
    "feed force": _feed_limit,
    "bending": _bend_limit,
}


def bend_of(setup: Setup, forces: CutForces) -> BendEstimate | None:
    """Error of the wall in milling, of the diameter in turning and boring."""
    operation, stick_out = setup.kind.operation, setup.stick_out
    if forces.side is None:
        return None
    if operation in END_MILLED and stick_out is not None and setup.turning_diameter is not None:
        return end_mill_bending(
            forces.side,
            setup.turning_diameter,
            min(stick_out, setup.flute_length or stick_out),
            stick_out,
            setup.shank_diameter,
            _shank_of(setup.cutter),
            load_from_tip=min(setup.depth_of_cut or 0, stick_out) / 2,
        ).deflection
    if operation in BORED and stick_out is not None and setup.shank_diameter is not None:
        return boring_bar_bending(forces.side, setup.shank_diameter, stick_out).bore_error
    if operation != "turning" or setup.length is None or setup.holding is None:
        return None
    if setup.known is None:
        return None
    turned = (setup.diameter or 0) - 2 * (setup.depth_of_cut or 0)
    return work_bending(forces.side, turned, setup.length, setup.holding, setup.known).worst


def _shank_of(cutter: str) -> str:
    """What an end mill is made of: tips and inserts sit on steel."""
    word = " ".join(cutter.split()).casefold()
    if word in ("carbide", "solid carbide"):
        return "carbide"
    return "steel" if "carbide" in word or "insert" in word else "HSS"


def _change(setup: Setup, limit: Limit, make: Make) -> InBoth:
    """The depth, in drilling the feed, at which a limit is kept with its spread; or a step."""
    if limit.share_most <= 100:
        return NOTHING

    def share_most(changed: Setup) -> float | None:
        forces = known_forces(changed)
        made = make(changed, forces) if forces else None
        return made.share_most if made else None

    changes = [_lighter(setup, share_most)]
    speed = setup.spindle_speed or 0
    if limit.what == "power" or (limit.what == "torque" and setup.torque is None):
        step = slower(setup, 100 * speed / limit.share_most)
        same = "tooth" if setup.kind.milled else "turn"
        changes.append(step and step + in_both(f", at the same feed a {same}"))
    first, *others = [change for change in changes if change] or [NOTHING]
    return sum((in_both(", or ") + other for other in others), start=first)


def _lighter(setup: Setup, share_most: Callable[[Setup], float | None]) -> InBoth:
    try:
        if setup.kind.operation in DRILLED:
            by_turn = replace(
                setup, feed_per_rev=setup.rev_feed, feed_per_tooth=None, feed_rate=None
            )
            feed = held(by_turn, "feed_per_rev", share_most, FORCE_EXPONENT)
            return feed_change(setup, feed, False) if feed else NOTHING
        depth = held(setup, "depth_of_cut", share_most)
        return in_both("a depth of cut of {}", depth) if depth else NOTHING
    except TradeError:
        return NOTHING


def _miss_bounds(setup: Setup, forces: CutForces, remarks: Remarks) -> None:
    if setup.power is None:
        judged = "power" if setup.torque is not None else "power or torque"
        remarks.miss("power of the motor", SHOP, judged)
    if forces.feed is None:
        remarks.miss("direction of the feed", SETUP, "feed force or bending")
    elif setup.drive_force is None:
        remarks.miss("force of the feed's drive", SHOP, "feed force")
    bends = setup.kind.operation in (*END_MILLED, *BORED, "turning")
    if bends and setup.tolerance is None:
        remarks.miss("tolerance", SETUP, "bending")
