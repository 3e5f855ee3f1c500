"""What the index holds of pages: its columns, and the rows that a page gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shoplog.find.indexing.stamps import Stamp, digest_of

__all__ = [
    "COLUMNS",
    "NAMED",
    "NUMBERS",
    "SIZE_COLUMNS",
    "PageRow",
    "PageRows",
    "RecordRow",
    "SizeRow",
]

NAMED = ("material", "operation", "cutter", "cutter_material", "machine", "project", "part")
"""Columns of a record that are asked for by any of the names of what stands there."""
NUMBERS = (
    *("diameter_mm", "cutter_diameter_mm", "cutter_width_mm"),
    *("spindle_speed_rpm", "cutting_speed_m_per_min"),
    *("feed_per_rev_mm", "feed_per_tooth_mm", "feed_rate_mm_per_min", "depth_of_cut_mm"),
)
"""Columns of a record that are asked for by a range."""
_KINDS = (
    *("operation_kind", "stage", "material_row", "material_group", "material_iso"),
    *("cutter_kind", "edge"),
)
COLUMNS = (
    *("page", "place", "anchor", "run", "date", "outcome", "private"),
    *(*NAMED, *_KINDS, *NUMBERS),
)
SIZE_COLUMNS = (
    "page",
    "line",
    "name",
    "kind",
    "shown",
    "key",
    "more",
    "nominal",
    "lower",
    "upper",
)


@dataclass(frozen=True, slots=True)
class RecordRow:
    """A record as it is indexed: its columns, its data, its words, and what its values are called.

    `names` holds a field, a value as the record has it, and one of the value's names with its key.
    """

    columns: tuple[Any, ...]
    told: str
    words: str
    faults: tuple[str, ...]
    names: tuple[tuple[str, str, str, str], ...]


@dataclass(frozen=True, slots=True)
class SizeRow:
    """A named size of a page: a thread, a length with limits or a taper, with what it equals by."""

    line: int
    name: str
    kind: str
    shown: str
    key: str
    more: str
    nominal: float
    lower: float | None = None
    upper: float | None = None


@dataclass(frozen=True, slots=True)
class PageRows:
    """What a page gives the index."""

    records: tuple[RecordRow, ...] = ()
    sizes: tuple[SizeRow, ...] = ()

    @property
    def digest(self) -> str:
        """What tells these rows from any others."""
        return digest_of(repr(self).encode("utf-8", "surrogatepass"))


@dataclass(frozen=True, slots=True)
class PageRow:
    """What the index knows of a page file."""

    stamp: Stamp
    seen: int
    digest: str
    uses: tuple[str, ...] = ()
    """Pages that it reads from other projects, as it writes them."""
    alone: bool = True
    """Whether it reads no records of others."""
    by_history: bool = False
    """Whether the day of a record hangs on the history."""
    rows: str = ""
    """The digest of its rows."""
