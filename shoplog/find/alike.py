"""What setups are compared by, and how one is named on the page of another."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from shoplog.calc.past_record import FIGURE_UNITS, PastSetup, feed_figure
from shoplog.find.clean import clean, clipped
from shoplog.find.record import Record
from shoplog.trade.machining.cutting_bands import family_of
from shoplog.trade.machining.cutting_naming import cutter_known, operation_known
from shoplog.units import unit, write_quantity

__all__ = [
    "FIGURE_OF",
    "MOST_WORDS",
    "edge_material",
    "edge_size",
    "setup_of",
    "short",
    "stage_of",
]

MOST_WORDS = 60
"""Characters of a text that another page shows."""

FIGURE_OF = {
    "cutting_speed": "cutting_speed_m_per_min",
    "feed_per_tooth": "feed_per_tooth_mm",
    "feed_per_rev": "feed_per_rev_mm",
    "feed_rate": "feed_rate_mm_per_min",
    "depth_of_cut": "depth_of_cut_mm",
    "width_of_cut": "width_of_cut_mm",
    "speed": "spindle_speed_rpm",
}
"""The figure of a record that each figure of a `Past` is of."""


@lru_cache(maxsize=4096)
def stage_of(operation: str) -> str:
    """`rough` or `finish`, where an operation says it.

    >>> stage_of("turning, finish"), stage_of("whittling")
    ('finish', '')
    """
    known = operation_known(operation)
    return known[1] if known else ""


@lru_cache(maxsize=4096)
def edge_material(text: str) -> str:
    """The row of a cutter's material, or the text as it is where no row knows it.

    >>> edge_material("high-speed steel"), edge_material("flint")
    ('HSS', 'flint')
    """
    row = cutter_known(text)
    return row["cutter"] if row else text.casefold()


@lru_cache(maxsize=256)
def _turns_the_work(operation_kind: str) -> bool:
    known = operation_known(operation_kind)
    return known is not None and family_of(known[0]) == "turning"


def edge_size(record: Record) -> float | None:
    """The diameter that passes the edge in mm: of the work where it turns, else of the cutter."""
    if _turns_the_work(record.operation_kind) and record.diameter_mm is not None:
        return record.diameter_mm
    return record.size_mm


def setup_of(record: Record) -> PastSetup:
    """A record as a page names it: its place, its day, how it went and what at."""
    return PastSetup(
        page=record.page,
        anchor=record.anchor,
        line=record.line or 1,
        title=short(record.title),
        date=record.date,
        outcome=record.outcome,
        fault=short(", ".join(record.fault)),
        material=short(record.material),
        figures=", ".join(_figure_texts(record)),
    )


def short(text: str) -> str:
    """A text of one page as another shows it."""
    return clipped(clean(text), MOST_WORDS)


def _figure_texts(record: Record) -> Iterator[str]:
    """Speed and feed in words; a feed by hand is said."""
    figures = record.figures
    for name in ("cutting_speed", feed_figure(record.operation_kind, per_tooth=False)):
        number = getattr(figures, FIGURE_OF[name])
        if number is not None:
            yield write_quantity(number, unit(FIGURE_UNITS[name]))
    if figures.by_hand:
        yield "fed by hand"
