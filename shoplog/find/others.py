"""The published setups of other logs, as indexes that are asked beside one's own."""

from __future__ import annotations

from pathlib import Path

from shoplog.find.asking import Source
from shoplog.find.indexing.rows import page_rows
from shoplog.find.indexing.store import Store
from shoplog.find.published import read_published_file
from shoplog.find.record import Record

__all__ = ["other_source"]


def other_source(path: Path) -> tuple[Source, tuple[str, ...]]:
    """An index of a file that another log published, and what of it was left out.

    Raises
    ------
    NotPublished
        It is no such file.
    """
    published = read_published_file(path)
    pages: dict[str, list[Record]] = {}
    for record in published.records:
        pages.setdefault(record.page, []).append(record)
    store = Store.in_memory()
    with store.writing():
        for page, records in pages.items():
            store.replace(page, page_rows(records))
    return Source(store, whose=published.name or path.name), published.notes
