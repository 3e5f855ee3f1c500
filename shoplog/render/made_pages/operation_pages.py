"""A page for each kind of operation that the log has done: what it asks, the ranges, the setups."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shoplog.find.record import Record
from shoplog.log.setups.operations import operation_of
from shoplog.render.html import capital
from shoplog.render.made_pages.cutting_ranges import ranges_section
from shoplog.render.made_pages.fact_tables import Told, facts_table
from shoplog.render.made_pages.made_text import block, page, title
from shoplog.render.made_pages.setup_rows import Reference, key_of, newest, setups_section, tally
from shoplog.trade.machining.cutting_bands import family_of
from shoplog.trade.machining.cutting_naming import Row, operation_known
from shoplog.trade.machining.cutting_remarks import sourced

__all__ = ["is_known", "operation_page"]

_FEEDS = {
    "rev": "by the turn",
    "tooth": "by the tooth",
    "stroke": "by the stroke",
    "pitch": "the pitch of the thread",
    "none": "by hand, or none",
}


def is_known(one: Record) -> bool:
    """Whether the kind of a record's operation is one that the log knows."""
    return _row(one.operation_kind) is not None or operation_of(one.operation_kind) is not None


def _row(kind: str) -> Row | None:
    known = operation_known(kind)
    return known[0] if known else None


def operation_page(records: Sequence[Record], here: str, to: Reference) -> str:
    """The page of the operation of some records, which are all of one kind."""
    kind = records[0].operation_kind
    row = _row(kind)
    listed = newest(records)

    def ask(record: Record) -> tuple[str, str, str]:
        return record.material_group or "what no table knows", kind, record.material_group

    picture, ranges = ranges_section(records, listed, kind, ask)
    return page(
        title(capital(kind)),
        f"{tally(records).capitalize()}.",
        "## What it is" if row else "",
        block(facts_table(_facts(row))) if row else "",
        "## Cutting speed by group of materials" if ranges else "",
        picture,
        ranges,
        *setups_section(records, listed, here, key_of("operation", kind), to),
    )


def _facts(row: Row) -> Iterator[Told]:
    yield "Also called", tuple(filter(None, row["words"].split(";")))
    family = family_of(row)
    yield "A kind of", family if family != row["operation"] else ""
    yield "Its feed is given", _FEEDS[row["feed"]]
    yield "Its speed is taken from", _share(row)
    depth = row["depth"]
    deepest = f"{float(depth):g} times the cutter's diameter" if depth not in ("", "bench") else ""
    yield "Usual depth, at most", deepest


def _share(row: Row) -> str:
    """Whose speed it takes a share of, where it has none of its own."""
    if not row["base"]:
        return ""
    least, most = float(row["share_least"]), float(row["share_greatest"])
    if least == most == 1:
        return row["base"]
    times = f"{least:g}" if least == most else f"{least:g} to {most:g}"
    source = sourced("cutting_operations", row["source"])
    return f"{row['base']}, times {times}, where it has no row of its own ({source})"
