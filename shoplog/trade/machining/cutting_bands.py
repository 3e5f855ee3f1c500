"""Bands of speed, feed and depth, looked up in the tables or derived from another's."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting_naming import Row, WorkGroup
from shoplog.trade.machining.cutting_remarks import sourced

__all__ = ["STEEL_CUTTERS", "Band", "depth_of", "family_of", "feed_band", "speed_band"]

TO_M_MIN = {"m/min": 1.0, "ft/min": 0.3048}
MM_PER_INCH = 25.4
# Under it roughing feeds go down with the diameter of the work (T.O. 1-1A-9, table 2-8, note 1).
FULL_FEED_DIAMETER = 25.4
THIN_WORK = "roughing feeds go down with work under 25.4 mm (T.O. 1-1A-9, table 2-8, note 1)"
STEEL_CUTTERS = ("HSS", "cobalt HSS", "carbon steel")
WHEEL = "grinding"
Band = tuple[float, float]
Way = tuple[tuple[Row, ...], Band, tuple[str, ...]]
"""Rows to go by, what their figures are multiplied by, and what has to be said of that."""


def speed_band(
    row: Row, stage: str, work: WorkGroup, edge: Row
) -> tuple[Band, tuple[str, ...], tuple[str, ...]]:
    """The band of speed, its sources, and what was derived from what."""
    found = next(_ways(row, work, edge), None)
    if found is None:
        raise _no_speed(row, work, edge)
    rows, (low, high), notes = found
    told = [each for each in rows if not stage or each["stage"] == stage]
    if stage and not told:
        notes = (*notes, f"the source does not tell {stage} cuts from others here")
    told = told or list(rows)
    band = (
        low * min(_metres(each, "least") for each in told),
        high * max(_metres(each, "greatest") for each in told),
    )
    return band, tuple(sourced("cutting_speeds", each["source"]) for each in told), notes


def _ways(row: Row, work: WorkGroup, edge: Row) -> Iterator[Way]:
    """Ways to a speed, best first: the operation's own rows, then those of its base."""
    wheel = row["operation"] == WHEEL
    if not wheel and not _is_made_for(edge, row):
        return
    share: Band = (1.0, 1.0)
    notes: tuple[str, ...] = ()
    for step in _line_of(row):
        for rows, times, said in _at_step(step["operation"], work.name, edge, wheel):
            yield rows, (share[0] * times[0], share[1] * times[1]), (*notes, *said)
        part = (float(step["share_least"]), float(step["share_greatest"]))
        share = (share[0] * part[0], share[1] * part[1])
        if step["base"] and part != (1, 1):
            source = sourced("cutting_operations", step["source"])
            notes = (*notes, f"taken as {_times(part)} times the speed of {step['base']}: {source}")


def _at_step(operation: str, group: str, edge: Row, wheel: bool) -> Iterator[Way]:
    """Rows of one operation: the cutter's own, of the one it stands in for, and of HSS."""
    cutter = "HSS" if wheel else edge["cutter"]
    if own := _speed_rows(operation, cutter, group):
        yield own, (1.0, 1.0), ()
    other = edge["else_as"]
    if rows := _speed_rows(operation, other, group):
        yield rows, (1.0, 1.0), (f"no source read has it for {cutter}: taken as {other}",)
    plain = _speed_rows(operation, "HSS", group)
    if plain and edge["times_least"] and cutter != "HSS":
        times = (float(edge["times_least"]), float(edge["times_greatest"]))
        source = sourced("cutting_cutters", edge["source"])
        yield plain, times, (f"taken as {_times(times)} times the speed of HSS: {source}",)


def _times(band: Band) -> str:
    return f"{band[0]:g}" if band[0] == band[1] else f"{band[0]:g} to {band[1]:g}"


def _line_of(row: Row) -> Iterator[Row]:
    """An operation, its base, and so on."""
    operations = {each["operation"]: each for each in table("cutting_operations").rows}
    while True:
        yield row
        if not row["base"]:
            return
        row = operations[row["base"]]


def family_of(row: Row) -> str:
    """The operation that one is a kind of."""
    return list(_line_of(row))[-1]["operation"]


def _is_made_for(edge: Row, row: Row) -> bool:
    families, names = (list(filter(None, edge[key].split(";"))) for key in ("families", "names"))
    in_family = not families or family_of(row) in families or row["operation"] == "reaming"
    return in_family and (not names or row["operation"] in names)


@cache
def _speed_rows(operation: str, cutter: str, group: str) -> tuple[Row, ...]:
    return tuple(
        row
        for row in table("cutting_speeds").rows
        if row["operation"] == operation
        and row["cutter"] == cutter
        and ({group, "*"} & set(row["groups"].split(";")))
    )


def _metres(row: Row, column: str) -> float:
    return float(row[column]) * TO_M_MIN[row["unit"]]


def _no_speed(row: Row, work: WorkGroup, edge: Row) -> TradeError:
    others = [
        each["cutter"]
        for each in table("cutting_cutters").rows
        if next(_ways(row, work, each), None) is not None
    ]
    hint = f"the cutter: {' or '.join(others)}" if others else "no source read has one: grind it?"
    return TradeError(
        f"no source gives {row['operation']} of {work.name} with {edge['cutter']}",
        hint=hint,
        argument="cutter" if others else "operation",
    )


def feed_band(
    row: Row, stage: str, work: WorkGroup, edge: Row, diameter: float | None, family: str
) -> tuple[Band | None, tuple[str, ...], tuple[str, ...]]:
    """The band of feed in mm, its sources, and what has to be said of it."""
    if row["feed"] in ("pitch", "none"):
        said = ("the feed is the thread's pitch",) if row["feed"] == "pitch" else ()
        return None, (), said
    every = _feed_rows(row["feeds_as"] or row["operation"], edge["cutter"], work.row["feed_class"])
    rows = tuple(each for each in every if not stage or each["stage"] in ("", stage)) or every
    if not rows:
        return None, (), ("no source read gives its feed",)
    if diameter is None and any(each["to_mm"] or each["unit"] == "D" for each in rows):
        return None, (), ("its feed goes with the diameter of the cutter: give diameter",)
    if diameter is not None:
        rows = tuple(each for each in rows if _holds_at(each, diameter))
    notes = _feed_notes(row)
    bands = [_feed_of(each, diameter) for each in rows]
    if family == "turning" and diameter is not None and diameter < FULL_FEED_DIAMETER:
        finish = _envelope([_feed_of(each, None) for each in every if each["stage"] == "finish"])
        part = diameter / FULL_FEED_DIAMETER
        thin = _for_thin_work(rows, bands, part, finish or (0.0, 0.0))
        notes, bands = (*notes, *([THIN_WORK] if thin != bands else [])), thin
    low, high = _envelope(bands) or (0.0, 0.0)
    share = float(row["feed_share"])
    sources = tuple(sourced("cutting_feeds", each["source"]) for each in rows)
    return (share * low, share * high), sources, notes


def _envelope(bands: list[Band]) -> Band | None:
    if not bands:
        return None
    return min(low for low, _ in bands), max(high for _, high in bands)


@cache
def _feed_rows(operation: str, cutter: str, feed_class: str) -> tuple[Row, ...]:
    return tuple(
        row
        for row in table("cutting_feeds").rows
        if row["operation"] == operation
        and ({cutter, "*"} & set(row["cutters"].split(";")))
        and ({feed_class, "*"} & set(row["feed_classes"].split(";")))
    )


def _holds_at(row: Row, diameter: float) -> bool:
    over = float(row["over_mm"] or 0)
    return over < diameter and (not row["to_mm"] or diameter <= float(row["to_mm"]))


def _feed_of(row: Row, diameter: float | None) -> Band:
    low, high = float(row["least"]), float(row["greatest"])
    if row["unit"] != "D":
        unit_mm = MM_PER_INCH if row["unit"] == "in" else 1.0
        return low * unit_mm, high * unit_mm
    most, size = float(row["most_mm"]), diameter or 0.0
    return min(low * size, most * low / high), min(high * size, most)


def _feed_notes(row: Row) -> tuple[str, ...]:
    if row["feeds_as"] and float(row["feed_share"]) != 1:
        said = f"its feed is taken as {float(row['feed_share']):g} of that of {row['feeds_as']}"
        return (f"{said} (common practice, no source)",)
    return ()


def _for_thin_work(
    rows: tuple[Row, ...], bands: list[Band], part: float, floor: Band
) -> list[Band]:
    """Roughing feeds in proportion to thin work, never under the finishing ones."""
    return [
        (max(part * low, floor[0]), max(part * high, floor[1])) if row["stage"] == "rough" else band
        for row, band in zip(rows, bands, strict=True)
        for low, high in (band,)
    ]


def depth_of(
    row: Row, work: WorkGroup, edge: Row, diameter: float | None, family: str
) -> float | None:
    """The deepest usual cut in mm: a share of the cutter, or what a bench machine bears."""
    if row["depth"] == "bench":
        where = "mill" if family == "milling" else "lathe"
        with_edge = "hss" if edge["cutter"] in STEEL_CUTTERS else "carbide"
        depths = {each["depth_class"]: each for each in table("cutting_depths").rows}
        return float(depths[work.row["depth_class"]][f"{where}_{with_edge}_in"]) * MM_PER_INCH
    return float(row["depth"]) * diameter if row["depth"] and diameter is not None else None
