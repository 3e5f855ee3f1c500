"""Limits of a cut that ask for no force: speeds, feed, depth, chip, width, overhang, direction."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, pi, radians, sin

from shoplog.trade.judging.in_both import in_both
from shoplog.trade.judging.judging_changes import feed_change, floor_two, slower
from shoplog.trade.judging.judging_record import Limit, limit_at_least, limit_at_most, with_change
from shoplog.trade.judging.judging_setup import (
    BORED,
    DRILLED,
    END_MILLED,
    MILLED,
    STROKED,
    TURNED,
    USUAL_NOSE,
    USUAL_POINT,
    Remarks,
    Setup,
)
from shoplog.trade.machining.chip_thickness import chip_thickness_milling, chip_thickness_turning
from shoplog.trade.machining.cutting_data import corrected_range, cut_rating, cutting_range
from shoplog.trade.machining.cutting_record import CutRating, CuttingRange
from shoplog.trade.machining.feed_direction import climb_fault, feed_direction
from shoplog.trade.machining.overhang import RULES, Overhang, overhang_of
from shoplog.trade.machining.work_bending import RULES as HELD

__all__ = [
    "band_limits",
    "chip_limits",
    "cut_range",
    "direction_limits",
    "overhang_limits",
    "rated",
    "spindle_limits",
    "thickest_chip",
    "width_limits",
]

MACHINE, SHOP, SETUP = "the machine's own range, as given", "shop profile", "setup"
MARKED = "the speed marked on it, as given"
GEOMETRY = "geometry"
EDGE = "common practice, no source: a chip thinner than the edge is round bears and does not cut"
CLIMB = "common practice, no source; Somta, user guide, Climb or conventional milling"
DRAG = (
    "climb milling counts on the table's lock: draw it up as a drag along the feed before the cut,"
    " and clamp the other slides; the machine's manual decides whether it bears that"
)
CLIMB_CHANGE = "feed against the cutter (conventional), or lock the table"
ROUNDED = 1 + 1e-9


def spindle_limits(setup: Setup, remarks: Remarks) -> Iterator[Limit]:
    """The spindle speed against the machine's and against what is marked."""
    speed = setup.spindle_speed
    if speed is None:
        remarks.miss("spindle speed", SETUP, "spindle or cutting speed")
        return
    slow, fast = setup.steps_and_ends
    if fast is None:
        remarks.miss("spindle steps or fastest speed", SHOP, "spindle speed against the machine's")
    else:
        limit = limit_at_most("spindle speed", speed, fast, "rpm", "rated", MACHINE)
        yield with_change(limit, in_both(f"{fast:g} rpm, the fastest of the machine"))
    if slow is not None and speed < slow / ROUNDED:
        limit = limit_at_least("slowest spindle speed", speed, slow, "rpm", "rated", MACHINE)
        yield with_change(limit, in_both(f"{slow:g} rpm, the slowest of the machine"))
    _note_steps(setup, speed, remarks)
    yield from _marked_limits(setup, speed, remarks)


def _note_steps(setup: Setup, speed: float, remarks: Remarks) -> None:
    steps = setup.spindle_steps
    if steps and all(abs(step - speed) > 0.02 * speed for step in steps):
        near = sorted(steps, key=lambda step: abs(step - speed))[:2]
        names = " and ".join(f"{step:g} rpm" for step in sorted(near))
        remarks.note(f"{speed:g} rpm is no step of the machine; nearest are {names}")


def _marked_limits(setup: Setup, speed: float, remarks: Remarks) -> Iterator[Limit]:
    marks = {
        "chuck's marked speed": setup.chuck_speed,
        "cutter's marked speed": setup.cutter_speed,
    }
    for what, marked in marks.items():
        if marked is not None:
            limit = limit_at_most(what, speed, marked, "rpm", "marked", MARKED)
            yield with_change(limit, slower(setup, marked))
    if setup.chuck_speed is None and setup.holding in ("chuck", "chuck and centre"):
        remarks.miss("speed marked on the chuck", SHOP, "spindle speed against the chuck's")
    if setup.cutter_speed is None and setup.kind.family == "grinding":
        remarks.miss("speed marked on the wheel", SHOP, "spindle speed against the wheel's")


def cut_range(setup: Setup, remarks: Remarks) -> CuttingRange | None:
    """The handbooks' range, corrected for this cut as far as its operation has corrections."""
    kind, diameter = setup.kind, setup.turning_diameter
    operation = f"{kind.operation}, {kind.stage}" if kind.stage else kind.operation
    found = remarks.attempt(
        "cutting speed or feed against a handbook's",
        lambda: cutting_range(operation, setup.material, setup.cutter, diameter, setup.rigidity),
    )
    if found is None:
        return None
    sized = found.diameter is not None
    deep = kind.turned or (sized and found.family in ("drilling", "milling"))
    wide = kind.milled and sized and setup.width is not None
    bar = kind.operation in BORED and setup.shank_diameter is not None
    made = remarks.attempt(
        "correction of the handbook's range",
        lambda: corrected_range(
            found,
            depth=setup.depth_of_cut if deep and kind.operation not in STROKED else None,
            width=min(setup.width or 0, diameter or 0) if wide else None,
            stick_out=setup.stick_out if bar or (kind.milled and sized) else None,
            bar_diameter=setup.shank_diameter if bar else None,
            coolant=setup.coolant,
            feed_by=setup.feed_by,
        ),
    )
    used = made or found
    remarks.note(*used.notes)
    remarks.caution(*used.cautions)
    return used


def band_limits(setup: Setup, cut: CuttingRange | None, remarks: Remarks) -> Iterator[Limit]:
    """Cutting speed, feed and depth against the handbooks' range."""
    if cut is None:
        return
    yield from _speed_limits(setup, cut, remarks)
    yield from _feed_limits(setup, cut, remarks)
    # The depths are one laboratory's, for learners: what a rough cut may take, its power says.
    if cut.depth_max is not None and setup.depth_of_cut is not None and cut.stage != "rough":
        deep = (setup.depth_of_cut, cut.depth_max)
        limit = limit_at_most("depth of cut", *deep, "mm", "range", cut.source)
        yield with_change(limit, in_both("a depth of cut of {}", floor_two(cut.depth_max)))


def _speed_limits(setup: Setup, cut: CuttingRange, remarks: Remarks) -> Iterator[Limit]:
    speed, most = setup.cutting_speed, cut.speed_max
    if most is None or cut.speed_min is None:
        return
    if speed is None:
        if setup.kind.operation in STROKED:
            remarks.note("its speed is that of a stroke: it is not judged here")
        elif setup.turning_diameter is None:
            remarks.miss("diameter at the edge", SETUP, "cutting speed")
        return
    limit = limit_at_most("cutting speed", speed, most, "m/min", "range", cut.source)
    most_rpm = 1000 * most / (pi * (setup.turning_diameter or 1))
    yield with_change(limit, slower(setup, most_rpm))
    if speed < cut.speed_min / ROUNDED:
        remarks.note(
            f"{speed:.3g} m/min is under the range of {cut.speed_min:.3g} to {most:.3g} m/min:"
            " it costs time; carbide may build up an edge"
        )


def feed_of(setup: Setup, name: str) -> float | None:
    """The feed in the unit of a band."""
    return {"mm/rev": setup.rev_feed, "mm/tooth": setup.tooth_feed}.get(name)


def _feed_limits(setup: Setup, cut: CuttingRange, remarks: Remarks) -> Iterator[Limit]:
    band = cut.feed_band()
    if band is None or band[2] == "mm":
        return
    least, most, name = band
    feed = feed_of(setup, name)
    if feed is None:
        given = setup.rev_feed is not None
        remarks.miss("teeth" if given else "feed", SETUP, f"feed {_a(name)} or force")
        return
    per_tooth = name == "mm/tooth"
    limit = limit_at_most("feed", feed, most, name, "range", cut.source)
    yield with_change(limit, feed_change(setup, floor_two(most), per_tooth))
    if feed < least / ROUNDED:
        low = limit_at_least("least feed", feed, least, name, "range", cut.source)
        yield with_change(low, feed_change(setup, least, per_tooth))


def _a(name: str) -> str:
    return "a tooth" if name == "mm/tooth" else "a turn"


def rated(setup: Setup, cut: CuttingRange | None) -> CutRating | None:
    """Gentle, ordinary or brisk, for what the range knows."""
    if cut is None:
        return None
    band = cut.feed_band()
    name = band[2] if band else ""
    speed = setup.cutting_speed if cut.speed_max is not None else None
    depth = setup.depth_of_cut if cut.depth_max is not None else None
    feed = feed_of(setup, name)
    if speed is None and feed is None and depth is None:
        return None
    return cut_rating(
        cut,
        speed,
        feed_per_rev=feed if name == "mm/rev" else None,
        feed_per_tooth=feed if name == "mm/tooth" else None,
        depth=depth,
    )


def thickest_chip(setup: Setup) -> float | None:
    """The chip at its thickest, in mm, where operation, feed and cut are known."""
    kind, depth = setup.kind, setup.depth_of_cut
    angle = 90.0 if setup.entering_angle is None else setup.entering_angle
    if kind.operation in DRILLED and setup.rev_feed is not None:
        return setup.rev_feed / 2 * sin(radians(USUAL_POINT / 2))
    if kind.operation in TURNED and setup.rev_feed is not None and depth is not None:
        nose = USUAL_NOSE if setup.nose_radius is None else setup.nose_radius
        return chip_thickness_turning(setup.rev_feed, depth, angle, nose).thickest
    feed, width, diameter = setup.tooth_feed, setup.width, setup.turning_diameter
    if kind.operation not in MILLED or feed is None or width is None or diameter is None:
        return None
    nose = 0.0 if depth is None or setup.nose_radius is None else setup.nose_radius
    position = "centred" if kind.operation == "face milling" else "side"
    wide = min(width, diameter)
    return chip_thickness_milling(feed, diameter, wide, position, angle, depth, nose).thickest


def chip_limits(setup: Setup, remarks: Remarks) -> Iterator[Limit]:
    """The chip at its thickest against the radius of the edge."""
    if setup.by_hand:
        return
    chip = remarks.attempt("chip thickness", lambda: thickest_chip(setup))
    edge = setup.edge_mm
    if chip is None or not edge:
        return
    pair = (1000 * chip, 1000 * edge)
    limit = limit_at_least("chip thickness", *pair, "um", "geometry", EDGE)
    per_tooth = setup.kind.milled
    feed = setup.tooth_feed if per_tooth else setup.rev_feed
    yield with_change(limit, feed_change(setup, 1.001 * (feed or 0) * edge / chip, per_tooth))


def width_limits(setup: Setup) -> Iterator[Limit]:
    """A cutter in its slot and a width of cut over it; said only where it cannot be."""
    diameter, width, slot = setup.turning_diameter, setup.width_of_cut, setup.slot_width
    if not setup.kind.milled or diameter is None:
        return
    if slot is not None and diameter > slot * ROUNDED:
        limit = limit_at_most("cutter in its slot", diameter, slot, "mm", "geometry", GEOMETRY)
        yield with_change(limit, in_both("a cutter of {} at most", slot))
    if width is not None and width > diameter * ROUNDED:
        limit = limit_at_most("width of cut", width, diameter, "mm", "geometry", GEOMETRY)
        cuts = ceil(width / diameter - 1e-9)
        yield with_change(limit, in_both(f"{cuts} cuts of {{}}", width / cuts, digits=3))


def direction_limits(setup: Setup, remarks: Remarks) -> Iterator[Limit]:
    """Climb milling on a table that has slack and no lock."""
    if not setup.kind.milled or setup.direction is None:
        return
    stage = "finishing" if setup.kind.stage == "finish" else "roughing"
    backlash, feed = setup.backlash, setup.tooth_feed
    if setup.direction == "climb" and setup.table == "free" and backlash is None:
        remarks.miss("backlash", SHOP, "jump of the table in climb milling")
    fault = climb_fault(setup.direction, backlash, setup.table, stage)
    made = feed_direction(setup.direction, backlash, setup.table, "finishing")
    if setup.direction == "climb" and setup.table == "locked" and backlash != 0:
        remarks.caution(DRAG)
    remarks.caution(*((fault,) if fault else ()), *made.cautions)
    if fault and feed is not None and backlash is not None:
        jump = limit_at_most(
            "bite if the table jumps", backlash + feed, feed, "mm/tooth", "geometry", CLIMB
        )
        yield with_change(jump, in_both(CLIMB_CHANGE))


def overhang_limits(setup: Setup, remarks: Remarks) -> Iterator[Limit]:
    """Length over diameter of the end mill, of the boring bar and of the work."""
    for rule in (_cutter_overhang(setup, remarks), _work_overhang(setup, remarks)):
        if rule is None:
            continue
        pair = (rule.ratio, rule.most)
        limit = limit_at_most("overhang", *pair, "", "rule of thumb", RULES)
        change = in_both("{} at most", rule.longest, digits=3)
        change += in_both(f" ({rule.what}), or {rule.beyond}")
        yield with_change(limit, change)


def _cutter_overhang(setup: Setup, remarks: Remarks) -> Overhang | None:
    operation = setup.kind.operation
    if operation not in (*END_MILLED, *BORED):
        return None
    if setup.stick_out is None:
        remarks.miss("stick-out", SETUP, "overhang or bending of the cutter")
        return None
    if operation in END_MILLED:
        diameter = setup.turning_diameter
        return overhang_of("end mill", setup.stick_out, diameter) if diameter else None
    if setup.shank_diameter is None:
        remarks.miss("diameter of the boring bar", SETUP, "overhang or bending of the bar")
        return None
    return overhang_of("steel boring bar", setup.stick_out, setup.shank_diameter)


def _work_overhang(setup: Setup, remarks: Remarks) -> Overhang | None:
    if setup.kind.operation not in ("turning", "facing") or setup.diameter is None:
        return None
    if setup.length is None or setup.holding is None:
        what = "length" if setup.length is None else "holding"
        remarks.miss(f"{what} of the work", SETUP, "overhang or bending of the work")
        return None
    return overhang_of(HELD[setup.holding], setup.length, setup.diameter)
