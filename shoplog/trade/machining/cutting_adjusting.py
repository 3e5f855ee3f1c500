"""What the depth, width, stick-out and coolant of a cut ask of its range."""

from __future__ import annotations

from dataclasses import replace

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.machining.cutting_bands import STEEL_CUTTERS
from shoplog.trade.machining.cutting_naming import Row, named_coolant, named_feed
from shoplog.trade.machining.cutting_record import CuttingRange

__all__ = ["for_coolant", "for_depth", "for_feed", "for_stick_out", "for_width", "scaled"]

LEAST, GREATEST = 1e-6, 2000.0
CUT_DRY = ("iron", "hard iron", "brass", "plastic")


def scaled(cut: CuttingRange, factor: Row) -> CuttingRange:
    """A range times a correction's two factors, with a note where it says something."""
    speed, feed = float(factor["speed_factor"]), float(factor["feed_factor"])
    said = f"{factor['says']}: speed x {speed:g}, feed x {feed:g} ({factor['source']})"
    return replace(
        cut,
        speed_min=_times(cut.speed_min, speed),
        speed_max=_times(cut.speed_max, speed),
        feed_per_rev_min=_times(cut.feed_per_rev_min, feed),
        feed_per_rev_max=_times(cut.feed_per_rev_max, feed),
        feed_per_tooth_min=_times(cut.feed_per_tooth_min, feed),
        feed_per_tooth_max=_times(cut.feed_per_tooth_max, feed),
        feed_per_stroke_min=_times(cut.feed_per_stroke_min, feed),
        feed_per_stroke_max=_times(cut.feed_per_stroke_max, feed),
        notes=(*cut.notes, said) if factor["says"] else cut.notes,
    )


def _times(value: float | None, factor: float) -> float | None:
    return None if value is None else value * factor


def _step(kind: str, value: float) -> Row:
    """The row of a kind of correction that holds at a value."""
    rows = (row for row in table("cutting_corrections").rows if row["kind"] == kind)
    return [row for row in rows if float(row["from_value"]) <= value][-1]


def for_feed(feed_by: str) -> list[Row]:
    """The correction of a feed by hand; one that changes nothing for power."""
    return [named_feed(feed_by)]


def _ratio(cut: CuttingRange, name: str, value: float) -> float:
    require_within(name, value, "mm", LEAST, GREATEST)
    if cut.diameter is None:
        raise TradeError(
            f"the {name} of {cut.operation} is judged by the cutter's diameter, which is not given",
            hint="give cutting_range its diameter",
            argument=name,
        )
    return value / cut.diameter


def for_depth(cut: CuttingRange, depth: float | None) -> list[Row]:
    """The correction of a depth of cut, or of a hole."""
    if depth is None:
        return []
    if cut.family == "turning":
        require_within("depth", depth, "mm", LEAST, GREATEST)
        return [_step("turning_depth", depth)]
    if cut.family not in ("drilling", "milling", "tapping"):
        raise _not_asked(cut, "depth")
    kind = "slot_depth" if cut.family == "milling" else "hole_depth"
    return [_step(kind, _ratio(cut, "depth", depth))]


def for_width(cut: CuttingRange, width: float | None) -> list[Row]:
    """The correction of a width of cut in milling."""
    if width is None:
        return []
    if cut.family != "milling":
        raise _not_asked(cut, "width")
    ratio = _ratio(cut, "width", width)
    if ratio > 1:
        raise TradeError(
            f"the cut is {width:g} mm wide and the cutter {cut.diameter:g} mm",
            hint="at most the cutter's diameter",
            argument="width",
        )
    return [_step("width", ratio)]


def for_stick_out(
    cut: CuttingRange, stick_out: float | None, bar_diameter: float | None
) -> list[Row]:
    """The correction of a slender cutter or bar."""
    if stick_out is None:
        return []
    if cut.family == "milling":
        return [_step("mill_stick_out", _ratio(cut, "stick_out", stick_out))]
    if cut.operation not in ("boring", "single-point boring head"):
        raise _not_asked(cut, "stick_out")
    if bar_diameter is None:
        raise TradeError(
            "the stick-out of a boring bar is judged by its diameter, which is not given",
            hint="bar_diameter",
            argument="stick_out",
        )
    require_within("bar_diameter", bar_diameter, "mm", LEAST, GREATEST)
    return [_step("bar_stick_out", stick_out / bar_diameter)]


def for_coolant(cut: CuttingRange, coolant: str) -> list[Row]:
    """The correction of a way of cooling; none for carbide and for what is cut dry anyway."""
    row = named_coolant(coolant)
    feed_class = next(
        each["feed_class"]
        for each in table("cutting_work_groups").rows
        if each["group"] == cut.group
    )
    usual = cut.cutter not in STEEL_CUTTERS or feed_class in CUT_DRY or cut.group == "magnesium"
    return [] if usual else [row]


def _not_asked(cut: CuttingRange, name: str) -> TradeError:
    words = name.replace("_", "-")
    return TradeError(
        f"no correction of {cut.operation} for its {words} is known here", argument=name
    )
