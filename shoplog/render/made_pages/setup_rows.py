"""The setups that a made page is about: counted in a sentence, and the newest in a table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from heapq import nlargest

from shoplog.calc.show import Shown, show
from shoplog.find.clean import clipped
from shoplog.find.record import Record
from shoplog.outcomes import OUTCOMES
from shoplog.problems import counted
from shoplog.render.html import Html, join, printed, scrolled, tag
from shoplog.render.made_pages.made_text import MadeLink, block, in_markdown, listed
from shoplog.render.made_pages.setups_page_columns import outcome_text
from shoplog.render.outcomes import NO_SIGN, SIGNS
from shoplog.render.pictures.sizes import plain
from shoplog.render.systems import in_line
from shoplog.units import convert, unit
from shoplog.values import Value

__all__ = [
    "MOST_LISTED",
    "Key",
    "Reference",
    "from_to",
    "key_of",
    "keys_of",
    "newest",
    "quantity",
    "setups_section",
    "setups_table",
    "tally",
]

MOST_LISTED = 50
"""Setups that a page lists; the setups page has all of them."""
MOST_TEXT = 80
Key = tuple[str, str]
"""What a page is about: `machine`, `cutter`, `holder`, `material`, `operation`; and which one."""


def key_of(kind: str, name: str) -> Key:
    """The key of a thing by its name, in whichever case."""
    return kind, " ".join(name.casefold().split())


def keys_of(one: Record) -> tuple[Key, ...]:
    """The keys of what a record is about; those that it does not say are left out.

    >>> keys_of(Record(machine="Bench lathe", material_group="bronze"))
    (('machine', 'bench lathe'), ('material', 'group bronze'))
    """
    group = f"group {one.material_group}" if one.material_group else ""
    found = (
        ("machine", one.machine),
        ("cutter", one.cutter_name),
        ("holder", one.holding.partition(",")[0]),
        ("material", one.material_row or group),
        ("operation", one.operation_kind),
    )
    return tuple(key_of(kind, name) for kind, name in found if name)


@dataclass(frozen=True, slots=True)
class Reference:
    """What every made page needs: how one page leads to another, and which pages there are."""

    link: MadeLink
    pages: Mapping[Key, str] = field(default_factory=dict)
    """The path of each page."""
    all_setups: Callable[[str, Key, Record], str] = lambda here, key, one: ""
    """From a page, what it is about and one of its records, to where all its setups are shown; or
    nothing."""

    def anchor(self, here: str, there: str, text: str, id_: str = "") -> Html:
        """A link from one page to another."""
        return tag("a", text, href=self.link(here, there, id_))


def newest(records: Iterable[Record], most: int = MOST_LISTED) -> list[Record]:
    """The newest first; those of no day last, in the order of their pages."""
    return nlargest(most, records, key=lambda one: (one.date, one.page, one.line or 0, one.run))


# ---- counted ----


def tally(records: Iterable[Record]) -> str:
    """How many setups there are, how their runs went, and between which days.

    >>> tally([Record(anchor="a", run=1, outcome="good"), Record(anchor="b", run=0)])
    '2 setups: 1 good and 1 planned that has not run'

    Where one ran more than once, the runs are counted, so that the outcomes add up.
    """
    records = [*records]
    if not records:
        return "no setup yet"
    setups = len({(one.page, one.anchor) for one in records})
    runs = sum(bool(one.run) for one in records)
    often = f", run {runs} times" if len(records) > setups else ""
    return f"{counted(setups, 'setup')}{often}: {listed(_went(records))}{_between(records)}"


def _went(records: Sequence[Record]) -> Iterator[str]:
    ran = Counter(one.outcome for one in records if one.run or one.outcome)
    yield from (f"{ran[word]} {word}" for word in OUTCOMES if ran[word])
    untold = sum(number for word, number in ran.items() if word not in OUTCOMES)
    if untold:
        yield f"{untold} with no outcome told"
    planned = sum(not one.run and not one.outcome for one in records)
    if planned:
        yield f"{planned} planned that {'has' if planned == 1 else 'have'} not run"


def _between(records: Sequence[Record]) -> str:
    days = sorted({one.date for one in records if one.date})
    if not days:
        return ""
    return f", on {days[0]}" if len(days) == 1 else f", from {days[0]} to {days[-1]}"


# ---- figures in both systems ----


@lru_cache(maxsize=4096)  # a setup stands on a handful of pages
def quantity(number: float, unit_name: str, before: str = "") -> Html:
    """A figure in both systems, on a line of its own."""
    shown = show(Value(number, unit(unit_name)))
    return tag("span", before, in_line(printed(shown.own), shown), class_="shoplog-figure-line")


def from_to(least: float, most: float, metric: str, inch: str, digits: int = 15) -> Shown:
    """A range in both systems, of so many digits in inch; one figure where its ends read the same.

    >>> from_to(19.812, 42.672, "m/min", "ft/min").both
    '19.8 to 42.7 m/min (65 to 140 ft/min)'
    >>> from_to(10, 10, "m/min", "ft/min").metric
    '10 m/min'
    """
    texts = []
    for of in (metric, inch):
        ends = [convert(end, unit(metric), unit(of)) for end in (least, most)]
        if of == inch:
            ends = [float(f"{end:.{digits}g}") for end in ends]
        told = dict.fromkeys(plain(end, of) for end in ends)
        texts.append(f"{' to '.join(told)} {of}")
    return Shown(texts[0], texts[1], texts[0])


# ---- the table ----


def setups_section(
    records: Sequence[Record], listed: Sequence[Record], here: str, about: Key, to: Reference
) -> tuple[str, ...]:
    """The heading, how many are listed of how many, and the table."""
    if not records:
        return ()
    told = "The newest come first."
    if len(listed) < len(records):
        told = f"The newest {len(listed)} of {len(records)}."
    address = to.all_setups(here, about, records[0])
    if address:
        every = tag("a", "See them among all setups", href=address)
        told = f"{told} {in_markdown(every)}."
    return "## Setups", told, block(setups_table(listed, here, about[0], to), search=False)


_HEADS = ("No.", "Date", "Setup", "With", "Speed", "Feed and depth", "Outcome")


def setups_table(records: Sequence[Record], here: str, about: str, to: Reference) -> Html:
    """The setups in the order given, numbered from 1 as a picture above numbers them.

    Parameters
    ----------
    here : str [-]
        The path of the page that the table is for.
    about : str [-]
        The kind of what it is about; that column is not told again.
    """
    rows = [_row(number, one, here, about, to) for number, one in enumerate(records, 1)]
    heads = [tag("th", head, scope="col") for head in _HEADS]
    table = tag(
        "table",
        tag("thead", tag("tr", *heads)),
        tag("tbody", *rows),
        class_="shoplog-table shoplog-setups",
    )
    return scrolled(table, "Setups")


def _row(number: int, one: Record, here: str, about: str, to: Reference) -> Html:
    cells = (
        one.date or "–",
        _what(one, here, to),
        _with(one, here, about, to),
        join(_speed(one)),
        join(_cut(one)),
        _outcome(one),
    )
    made = [tag("td", cell, data_head=head) for head, cell in zip(_HEADS[1:], cells, strict=True)]
    return tag("tr", tag("th", str(number), scope="row"), *made)


def _what(one: Record, here: str, to: Reference) -> Html:
    run = f", run {one.run}" if one.run and one.run > 1 else ""
    text = clipped(one.operation, MOST_TEXT) or "setup"
    place = clipped(", ".join(filter(None, (one.feature, one.title or one.page))), MOST_TEXT)
    return join([to.anchor(here, one.page, text, one.anchor), tag("small", f"{place}{run}")])


def _with(one: Record, here: str, about: str, to: Reference) -> Html:
    """Material, cutter and machine, each leading to its page where it has one."""
    texts = (("material", one.material), ("cutter", one.cutter), ("machine", one.machine))
    pages = {key[0]: to.pages.get(key) for key in keys_of(one)}
    lines = [
        tag("span", _named(clipped(text, MOST_TEXT), pages.get(kind), here, to))
        for kind, text in texts
        if text and kind != about
    ]
    return join(lines or ["–"])


def _named(text: str, there: str | None, here: str, to: Reference) -> Html:
    return to.anchor(here, there, text) if there else join([text])


def _speed(one: Record) -> Iterator[Html]:
    figures = one.figures
    if figures.cutting_speed_m_per_min is not None:
        yield quantity(figures.cutting_speed_m_per_min, "m/min")
    if figures.spindle_speed_rpm is not None:
        yield quantity(figures.spindle_speed_rpm, "rpm")
    if one.size_mm is not None:
        yield quantity(one.size_mm, "mm", "⌀\u00a0")


def _cut(one: Record) -> Iterator[Html]:
    figures = one.figures
    if figures.by_hand:
        yield tag("span", "by hand", class_="shoplog-figure-line")
    elif one.fed is not None:
        feed, by = one.fed
        yield quantity(feed, f"mm/{by}")
    for number, before in (
        (figures.depth_of_cut_mm, "depth\u00a0"),
        (figures.width_of_cut_mm, "width\u00a0"),
    ):
        if number is not None:
            yield quantity(number, "mm", before)


def _outcome(one: Record) -> Html:
    """A sign and a word; the colour only underlines it."""
    if one.outcome not in OUTCOMES:
        return tag("span", f"{NO_SIGN}\u00a0{outcome_text(one) or 'not told'}")
    told = tag("strong", f"{SIGNS[one.outcome]}\u00a0{one.outcome}")
    fault = tag("small", clipped(", ".join(one.fault), MOST_TEXT)) if one.fault else ""
    return tag("span", told, fault, class_=f"shoplog-went-{one.outcome}")
