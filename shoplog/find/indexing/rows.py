"""Records and sizes of pages as rows of the index: all that a question may ask for, worked out."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from functools import lru_cache

from shoplog.find.clean import clean
from shoplog.find.indexing.stored import NAMED, NUMBERS, PageRows, RecordRow, SizeRow
from shoplog.find.names import ends_of, key_of, operation_key, stage_of
from shoplog.find.record import Record, told
from shoplog.find.records import material_iso, material_names
from shoplog.trade.machining.cutting_naming import cutter_known, operation_known

__all__ = ["page_rows", "record_row"]

MOST_MEMORY = 4096
MOST_NAME = 20

Name = tuple[str, str, str, str]
"""The field that a name is asked for in, its key, the value that it is a name of, and the name."""


def page_rows(records: Iterable[Record], sizes: Iterable[SizeRow] = ()) -> PageRows:
    """What a page gives the index."""
    return PageRows(tuple(map(record_row, records)), tuple(sizes))


def record_row(record: Record) -> RecordRow:
    """A record as it is indexed."""
    numbers = (
        getattr(record, name) if hasattr(record, name) else getattr(record.figures, name)
        for name in NUMBERS
    )
    columns = (
        *(record.anchor, record.run, record.date, record.outcome, record.private),
        *(getattr(record, name) for name in NAMED),
        *(record.operation_kind, stage_of(record.operation)),
        *(record.material_row, record.material_group),
        *(material_iso(record.material), record.cutter_kind),
        next(iter(_edge_names(record.cutter_material)), record.cutter_material),
        *numbers,
    )
    return RecordRow(
        columns,
        json.dumps(told(record), ensure_ascii=False, separators=(",", ":")),
        _words(record),
        record.fault,
        _names(record),
    )


def _words(record: Record) -> str:
    """Everything that a word may be found in."""
    own = (
        *(record.remarks, record.feature, record.part, record.project, record.title),
        *(*record.fault, record.machine, record.cutter, record.cutter_name, record.holding),
        *(record.operation, record.operation_kind, record.cutter_kind, record.cutter_material),
        record.outcome,
    )
    texts = {line: None for text in own if text for line in _spelt(text)}
    return "\n".join((*texts, *_material_words(record.material)))


@lru_cache(MOST_MEMORY)
def _material_words(text: str) -> tuple[str, ...]:
    """A material by every name that it has."""
    names = dict.fromkeys((text, *material_names(text)))
    return tuple(line for name in names if name for line in _spelt(name))


def _spelt(text: str) -> tuple[str, ...]:
    """A text, and a short name with a figure in one piece too: `EN 1A` is also found as `EN1A`."""
    text = clean(text)
    joined = key_of(text) if len(text) <= MOST_NAME and any(map(str.isdigit, text)) else ""
    return (text, joined) if joined and joined != text.casefold() else (text,)


def _names(record: Record) -> tuple[Name, ...]:
    """The names of what stands in each field that is asked for by them."""
    found = (
        *_named("material", record.material, material_names(record.material)),
        *_named("cutter", record.cutter, (record.cutter_name, *ends_of(record.cutter_kind))),
        *_named("cutter_material", record.cutter_material, _edge_names(record.cutter_material)),
        *_named("machine", record.machine, tuple(ends_of(record.machine))),
        *_named("project", record.project, tuple(_ends_of_path(record.project))),
        *_named("part", record.part, ()),
        *(name for fault in record.fault for name in _named("fault", fault, ())),
        *_operation_names(record.operation, record.operation_kind),
    )
    return tuple(dict.fromkeys(found))


@lru_cache(MOST_MEMORY)
def _named(field: str, value: str, names: tuple[str, ...]) -> tuple[Name, ...]:
    return tuple((field, key_of(name), value, clean(name)) for name in (value, *names) if name)


@lru_cache(MOST_MEMORY)
def _operation_names(text: str, kind: str) -> tuple[Name, ...]:
    """An operation's names: as written, its kind, the words for that, each with its stage too."""
    if not text:
        return ()
    names = [text, kind, kind.rpartition(" ")[2]]
    known = operation_known(text)
    stage = known[1] if known else ""
    names += known[0]["words"].split(";") if known else [text.partition(",")[0]]
    staged = [f"{name}, {stage}" for name in names[1:]] if stage else []
    keys = {operation_key(name): name for name in (*staged, *names) if name}
    return tuple(("operation", key, text, clean(name)) for key, name in keys.items())


@lru_cache(MOST_MEMORY)
def _edge_names(text: str) -> tuple[str, ...]:
    """What the material of an edge is called; nothing where no table knows it."""
    row = cutter_known(text)
    return (row["cutter"], *row["words"].split(";")) if row else ()


def _ends_of_path(path: str) -> Iterator[str]:
    """A folder by its whole path, and by the end of it."""
    while path:
        yield path
        path = path.partition("/")[2]
