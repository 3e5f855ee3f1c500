"""The table of the page of setups as it stands without a script: the newest, in metric units."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from shoplog.find.clean import clean, clipped
from shoplog.find.record import Record
from shoplog.render.html import Html, join, scrolled, tag
from shoplog.render.made_pages.made_text import MadeLink
from shoplog.render.made_pages.setups_page_columns import (
    COLUMNS,
    FIGURES,
    Figure,
    outcome_text,
)
from shoplog.render.outcomes import NO_SIGN, SIGNS

__all__ = ["plain_table"]

MOST_TEXT = 300
_FIGURES = {one.name: one for one in FIGURES}
_NUMBERS = frozenset(name for name, _ in COLUMNS if name in _FIGURES)


def plain_table(records: Iterable[Record], here: str, link: MadeLink) -> Html:
    """The records as a table, each leading to its card; `here` is the path of the page."""
    heads = [
        tag("th", _head(name, label), scope="col", class_=_class(name)) for name, label in COLUMNS
    ]
    rows = [_row(one, link(here, one.page, one.anchor)) for one in records]
    table = tag(
        "table",
        tag("thead", tag("tr", *heads)),
        tag("tbody", join(rows, "\n")),
        class_="shoplog-table setups-records",
    )
    return scrolled(table, "Setups")


def _head(name: str, label: str) -> str:
    return _FIGURES[name].head if name in _FIGURES else label


def _class(name: str) -> str:
    return "setups-number" if name in _NUMBERS else "setups-text"


def _row(one: Record, address: str) -> Html:
    first = tag("th", *_setup(one, address), scope="row", data_head="Setup")
    cells = [
        tag("td", *_CELLS[name](one), class_=_class(name), data_head=_head(name, label))
        for name, label in COLUMNS
        if name in _CELLS
    ]
    return tag("tr", first, *cells)


def _short(text: str) -> str:
    return clipped(clean(text), MOST_TEXT)


def _small(text: str) -> Html:
    return tag("small", _short(text)) if text else Html("")


def _setup(one: Record, address: str) -> Iterator[Html]:
    yield tag("a", _short(one.operation) or "setup", href=address)
    run = f"run {one.run}" if one.run and one.run > 1 else ""
    yield _small(", ".join(filter(None, (one.feature, one.title or one.page, run))))


def _figure(figure: Figure) -> Callable[[Record], Iterator[str]]:
    return lambda one: iter((figure.shown(one),))


def _date(one: Record) -> Iterator[str]:
    yield _short(one.date)
    yield _small("by its history" if one.date_from == "git" else "")


def _cutter(one: Record) -> Iterator[str]:
    """A cutter that the shop names says nothing of its width, so that stands beside it."""
    yield _short(one.cutter)
    width = _FIGURES["cutter-width"]
    shown = width.shown(one) if one.cutter_name else ""
    yield _small(f"{shown} {width.heads[0]} wide" if shown else "")


def _cutting_speed(one: Record) -> Iterator[str]:
    yield _FIGURES["cutting-speed"].shown(one)
    speed = _FIGURES["speed"]
    if shown := speed.shown(one):
        yield _small(f"{shown} {speed.heads[0]}")


def _feed(one: Record) -> Iterator[str]:
    turn = _FIGURES["feed-per-rev"]
    by_turn = f"{turn.shown(one)} {turn.heads[0]}" if turn.shown(one) else ""
    feed = _FIGURES["feed"].shown(one) or by_turn
    fed = "by hand" if one.figures.by_hand else ""
    yield feed or fed
    yield _small(fed if feed else "")


def _outcome(one: Record) -> Iterator[Html]:
    word = outcome_text(one)
    sign = SIGNS.get(word, NO_SIGN)
    told = tag("strong", f"{sign} {word or 'not told'}")
    yield tag("span", told, class_=f"shoplog-went-{word}") if word in SIGNS else told
    yield _small(", ".join(one.fault))
    yield _small(one.remarks)


_CELLS: dict[str, Callable[[Record], Iterator[str]]] = {
    "date": _date,
    "material": lambda one: iter((_short(one.material),)),
    "cutter": _cutter,
    "machine": lambda one: iter((_short(one.machine),)),
    "diameter": _figure(_FIGURES["diameter"]),
    "cutting-speed": _cutting_speed,
    "feed": _feed,
    "depth": _figure(_FIGURES["depth"]),
    "outcome": _outcome,
}
