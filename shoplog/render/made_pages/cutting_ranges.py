"""What handbooks give for the cuts that were made, beside what those cuts were."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from shoplog.find.clean import clipped
from shoplog.find.record import Record
from shoplog.problems import counted
from shoplog.render.findings import caution, note
from shoplog.render.html import Html, join, paragraph, scrolled, tag
from shoplog.render.made_pages.band_chart import BandRow, Ran, band_chart
from shoplog.render.made_pages.made_text import block, chart_block
from shoplog.render.made_pages.setup_rows import from_to
from shoplog.render.systems import in_line
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting_data import CuttingRange, cutting_range
from shoplog.trade.machining.cutting_naming import cutter_known, named_operation

__all__ = ["Kept", "ranges_section"]

MOST_ROWS = 10
MOST_LABEL = 40
NO_MATERIAL = "no table knows the material"
NOT_TOLD = "a cutter of untold material"
_NO_FEED = {"pitch": "the pitch of the thread", "none": "none, or by hand"}
_INCH_FEEDS = {"mm/rev": "in/rev", "mm/tooth": "in/tooth", "mm": "in"}


@dataclass(frozen=True, slots=True)
class Kept:
    """Cuts of one kind: what a handbook gives for them, and their records."""

    what: str
    """The operation, or the group of materials."""
    operation: str
    edge: str
    """What the cutter is of; nothing where it is not told."""
    cut: CuttingRange | None
    why_not: str
    records: tuple[Record, ...]

    @property
    def label(self) -> str:
        """In words: `turning with HSS`."""
        return f"{clipped(self.what, MOST_LABEL)} with {clipped(self.edge, MOST_LABEL) or NOT_TOLD}"

    @property
    def speeds(self) -> tuple[float, float] | None:
        """The range of cutting speed in m/min."""
        if self.cut is None or self.cut.speed_min is None or self.cut.speed_max is None:
            return None
        return self.cut.speed_min, self.cut.speed_max

    def row(self, numbers: dict[int, int]) -> BandRow:
        """As it is drawn; `numbers` are those of the records in the table, by their `id()`."""
        ran = [
            Ran(numbers[id(one)], speed, one.outcome)
            for one in self.records
            if one.run and id(one) in numbers
            if (speed := one.figures.cutting_speed_m_per_min) is not None
        ]
        return BandRow(self.label, self.speeds, tuple(ran))

    @property
    def went_well(self) -> list[float]:
        """The cutting speeds of all that went well."""
        return [
            speed
            for one in self.records
            if one.outcome == "good" and one.run
            if (speed := one.figures.cutting_speed_m_per_min) is not None
        ]


def kept(records: Iterable[Record], ask: Callable[[Record], tuple[str, str, str]]) -> list[Kept]:
    """The cuts of some records by their kind, most of them first.

    `ask` gives, for a record, what its kind is called, the operation and the material to look up.
    """
    found: dict[tuple[str, str, str, str], list[Record]] = {}
    for one in records:
        found.setdefault((*ask(one), _edge(one.cutter_material)), []).append(one)
    made = [_kept(key, tuple(group)) for key, group in found.items() if key[0]]
    return sorted(made, key=lambda one: (-len(one.records), one.label))


def _edge(text: str) -> str:
    """The row of a cutter's material; the text itself where no row knows it."""
    row = cutter_known(text)
    return row["cutter"] if row else text


def _kept(key: tuple[str, str, str, str], records: tuple[Record, ...]) -> Kept:
    what, operation, material, edge = key
    if not material:
        return Kept(what, operation, edge, None, NO_MATERIAL, records)
    try:
        return Kept(
            what, operation, edge, cutting_range(operation, material, edge or "HSS"), "", records
        )
    except TradeError as error:
        return Kept(what, operation, edge, None, error.message, records)


# ---- the section of a page ----


def ranges_section(
    records: Iterable[Record],
    listed: Sequence[Record],
    of: str,
    ask: Callable[[Record], tuple[str, str, str]],
) -> tuple[str, str]:
    """A picture of the ranges with the setups that are listed, and the ranges in a table.

    Parameters
    ----------
    of : str [-]
        What the page is about, for the picture's title.
    """
    rows = kept(records, ask)[:MOST_ROWS]
    if not rows:
        return "", ""
    numbers = {id(one): number for number, one in enumerate(listed, 1)}
    drawn = [row for row in (one.row(numbers) for one in rows) if row.band or row.ran]
    picture = ""
    if drawn:
        points = counted(sum(len(row.ran) for row in drawn), "setup")
        title = f"Cutting speed, {of}: what handbooks give, and {points} of this log"
        caption = (
            "Cutting speed by what handbooks give for a sharp edge, and the setups that are listed"
            " below, by how they went; the numbers are those of the list."
        )
        picture = chart_block(band_chart(drawn, "drawing", title), caption)
    return picture, block(_table(rows), *_cautions(rows), _sources(rows))


def _table(rows: Sequence[Kept]) -> Html:
    heads = ("Cut", "Speed, by handbooks", "Feed, by handbooks", "Went well here")
    body = [
        tag(
            "tr",
            tag("th", one.label, scope="row"),
            tag("td", _speed(one), data_head=heads[1]),
            tag("td", _feed(one), data_head=heads[2]),
            tag("td", _went_well(one), data_head=heads[3]),
        )
        for one in rows
    ]
    table = tag(
        "table",
        tag("thead", tag("tr", *(tag("th", head, scope="col") for head in heads))),
        tag("tbody", *body),
        class_="shoplog-table shoplog-ranges",
    )
    return scrolled(table, "Ranges")


def _speed(one: Kept) -> Html:
    if one.speeds is None:
        return join([one.why_not or "by hand, or by feel"])
    shown = from_to(*one.speeds, "m/min", "ft/min")
    taken = "" if one.edge else tag("small", "taken as HSS")
    return join([in_line(shown.own, shown), taken])


def _feed(one: Kept) -> Html:
    band = one.cut.feed_band() if one.cut else None
    if band is None:
        return join([_no_feed(one.operation) if one.cut else "–"])
    least, most, name = band
    shown = from_to(least, most, name, _INCH_FEEDS[name])
    return in_line(shown.own, shown)


def _no_feed(operation: str) -> str:
    feed = named_operation(operation)[0]["feed"]
    return _NO_FEED.get(feed, "goes with the diameter")


def _went_well(one: Kept) -> Html:
    speeds = one.went_well
    if not speeds:
        return join(["none yet"])
    shown = from_to(min(speeds), max(speeds), "m/min", "ft/min")
    return join([in_line(shown.own, shown), tag("small", f"{len(speeds)} good")])


def _cautions(rows: Iterable[Kept]) -> Iterator[Html]:
    said = (text for one in rows if one.cut for text in one.cut.cautions)
    return map(caution, dict.fromkeys(said))


def _sources(rows: Iterable[Kept]) -> Html:
    """Where each range is from, and what its sources say beside it; to be opened."""
    sources = dict.fromkeys((one.label, one.cut.source) for one in rows if one.cut)
    notes = dict.fromkeys(text for one in rows if one.cut for text in one.cut.notes)
    return tag(
        "details",
        tag("summary", "Sources and notes"),
        *(paragraph("shoplog-sources", f"Source of {label}: {text}") for label, text in sources),
        *map(note, notes),
        class_="shoplog-details",
        data_search_exclude=True,
    )
