"""What the page of setups shows, filters and sorts, declared once for its HTML and its script."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from shoplog.find.record import Record
from shoplog.outcomes import OUTCOMES
from shoplog.render.outcomes import SIGNS
from shoplog.units import PLACES, convert, unit, write_number

__all__ = [
    "COLUMNS",
    "FACETS",
    "FIGURES",
    "TEXTS",
    "Facet",
    "Figure",
    "Text",
    "declared",
    "newest_first",
    "outcome_text",
]


@dataclass(frozen=True, slots=True)
class Text:
    """A text of a record, under the name that it has in the page's data."""

    name: str
    of: Callable[[Record], str]
    searched: bool = False
    """Whether the words that a reader types are looked for in it."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of a record in its two units; `unit` and `inch` as a heading says them."""

    name: str
    label: str
    of: Callable[[Record], float | None]
    units: tuple[str, str]
    heads: tuple[str, str]
    ranged: bool = False
    """Whether it is asked for from one figure to another."""

    def shown(self, one: Record) -> str:
        """The number of a record in the metric unit; nothing where it has none."""
        number = self.of(one)
        return "" if number is None else write_number(number, self.units[0])

    @property
    def head(self) -> str:
        """Its heading, in the metric unit."""
        return f"{self.label}, {self.heads[0]}"


@dataclass(frozen=True, slots=True)
class Facet:
    """A text that a reader picks values of; `empty` is what a record is called that has none."""

    name: str
    label: str
    text: str
    empty: str


def _same(name: str, searched: bool = False) -> Text:
    return Text(name, lambda one: getattr(one, name), searched)


def outcome_text(one: Record) -> str:
    """How it went, in a word of ours."""
    if one.outcome in OUTCOMES:
        return one.outcome
    return "" if one.run else "planned"


TEXTS = (
    _same("page"),
    _same("anchor"),
    _same("date", searched=True),
    _same("date_from"),
    *(_same(name, searched=True) for name in ("project", "part", "title", "feature")),
    *(_same(name, searched=True) for name in ("operation", "operation_kind")),
    *(_same(name, searched=True) for name in ("material", "material_row", "material_group")),
    *(_same(name, searched=True) for name in ("cutter", "cutter_name", "cutter_kind")),
    *(_same(name, searched=True) for name in ("cutter_material", "machine", "holding")),
    Text("outcome", outcome_text, searched=True),
    Text("fault", lambda one: ", ".join(one.fault), searched=True),
    _same("remarks", searched=True),
    Text("fed", lambda one: "by hand" if one.figures.by_hand else ""),
    Text("run", lambda one: str(one.run) if one.run and one.run > 1 else ""),
)
FACETS = (
    Facet("operation", "Operation", "operation_kind", "not told"),
    Facet("material", "Material", "material_group", "not known"),
    Facet("cutter", "Cutter", "cutter_kind", "not known"),
    Facet("machine", "Machine", "machine", "not told"),
    Facet("outcome", "Outcome", "outcome", "not told"),
    Facet("project", "Project", "project", "none"),
)
_LENGTH = ("mm", "in")


def _by_the_turn(one: Record) -> float | None:
    """The feed of a revolution, for a cutter whose teeth nobody told: it has none per tooth."""
    figures = one.figures
    return figures.feed_per_rev_mm if figures.feed_per_tooth_mm is None else None


FIGURES = (
    Figure("diameter", "Diameter", lambda one: one.size_mm, _LENGTH, _LENGTH, ranged=True),
    Figure(
        "cutter-width",
        "Cutter width",
        lambda one: one.cutter_width_mm,
        _LENGTH,
        _LENGTH,
        ranged=True,
    ),
    Figure(
        "cutting-speed",
        "Cutting speed",
        lambda one: one.figures.cutting_speed_m_per_min,
        ("m/min", "ft/min"),
        ("m/min", "ft/min"),
        ranged=True,
    ),
    Figure(
        "feed",
        "Feed per tooth",
        lambda one: one.figures.feed_per_tooth_mm,
        ("mm/tooth", "in/tooth"),
        _LENGTH,
        ranged=True,
    ),
    Figure(
        "feed-per-rev", "Feed per rev", _by_the_turn, ("mm/rev", "in/rev"), ("mm/rev", "in/rev")
    ),
    Figure("depth", "Depth of cut", lambda one: one.figures.depth_of_cut_mm, _LENGTH, _LENGTH),
    Figure(
        "speed", "Speed", lambda one: one.figures.spindle_speed_rpm, ("rpm", "rpm"), ("rpm", "rpm")
    ),
)
# The columns of the table by what they are sorted by: a text or a figure.
COLUMNS = (
    ("operation", "Setup"),
    ("date", "Date"),
    ("material", "Material"),
    ("cutter", "Cutter"),
    ("machine", "Machine"),
    ("diameter", "Diameter"),
    ("cutting-speed", "Cutting speed"),
    ("feed", "Feed per tooth"),
    ("depth", "Depth of cut"),
    ("outcome", "Outcome"),
)


def newest_first(records: Iterable[Record]) -> list[Record]:
    """In the order that the page has them: those of no day last, a day's as the pages stand."""
    return sorted(records, key=lambda one: one.date, reverse=True)


def declared() -> dict[str, Any]:
    """What the script is told of columns, facets, figures and outcomes."""
    return {
        "columns": [{"name": name, "label": label} for name, label in COLUMNS],
        "facets": [
            {"name": one.name, "label": one.label, "text": one.text, "empty": one.empty}
            for one in FACETS
        ],
        "figures": [_figure(one) for one in FIGURES],
        "searched": [one.name for one in TEXTS if one.searched],
        "outcomes": [{"word": word, "sign": SIGNS[word]} for word in OUTCOMES],
    }


def _figure(one: Figure) -> dict[str, Any]:
    systems = {
        system: {
            "unit": head,
            "factor": convert(1, unit(one.units[0]), unit(of)),
            "places": PLACES[of],
        }
        for system, of, head in zip(("mm", "inch"), one.units, one.heads, strict=True)
    }
    return {"name": one.name, "label": one.label, "ranged": one.ranged, **systems}
