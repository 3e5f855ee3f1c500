"""An index brought up to date: what changed since it was written, worked out again and put there.

Whether a page changed is told by its stamp, and by its content where the stamp cannot tell. What
changes every page (this program, its tables, the shop profile, the folder of the pages) makes the
whole index anew, and so does a file that was not made where it lies: nothing in it is believed.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Mapping
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import Any, cast

from shoplog.files import SITE
from shoplog.find.indexing.stamps import (
    Stamp,
    content_digest,
    engine_stamp,
    history_stamp,
    page_stamps,
    stamp_of,
)
from shoplog.find.indexing.store import Store
from shoplog.find.indexing.stored import PageRow, PageRows

__all__ = ["bring_up_to_date", "docs_known"]

SHOP = "shop.yml"
MOST_TRIES = 4
_ALL_HANG_ON = ("engine", "shop", "docs", "place")


@dataclass(frozen=True, slots=True)
class _Seen:
    """What lies on disk, by stamps alone."""

    docs: Path
    made_of: Mapping[str, str]
    pages: Mapping[str, Stamp]
    at: int


def docs_known(home: Path, made_of: Mapping[str, str]) -> Path | None:
    """The folder of the pages as an index knows it, unless the site's settings changed since."""
    same = made_of.get("site") == stamp_of(home / SITE)
    return home / made_of["docs"] if same and "docs" in made_of else None


def bring_up_to_date(store: Store, home: Path) -> Path:
    """Make an index say what the pages say now; gives the folder of the pages.

    Where another process writes first, what it wrote is taken as it is found.

    Raises
    ------
    NoLog
        There is no log there.
    sqlite3.DatabaseError
        The index is broken, or in use, or takes no changes.
    """
    for _ in range(MOST_TRIES):
        made_of, known = store.meta(), store.pages()
        seen = _look(store, home, made_of)
        change = _change(seen, made_of, known)
        if change is None:
            break
        try:
            if _is_written(store, home, seen, made_of, change):
                break
        except sqlite3.OperationalError:
            if change.worked:
                raise
            break  # only stamps are newer: what the index says holds
    return seen.docs


def _look(store: Store, home: Path, made_of: Mapping[str, str]) -> _Seen:
    at = time.time_ns()
    site = stamp_of(home / SITE)
    docs = docs_known(home, made_of)
    if docs is None:
        docs = cast(Path, import_module("shoplog.log.folder").folder_texts(home).docs)
    made = {
        "engine": engine_stamp(),
        "shop": stamp_of(home / SHOP),
        "docs": Path(os.path.relpath(docs, home)).as_posix(),
        "place": store.place,
        "site": site,
        "history": history_stamp(docs),
    }
    return _Seen(docs, made, page_stamps(docs), at)


@dataclass(frozen=True, slots=True)
class _Change:
    """What is to be written: pages as they are known, without a digest where they are not."""

    known: Mapping[str, PageRow]
    whole: bool
    """Whether everything is worked out anew."""
    worked: bool
    """Whether anything is."""


def _change(
    seen: _Seen, made_of: Mapping[str, str], known: Mapping[str, PageRow]
) -> _Change | None:
    """What differs from the index; nothing where nothing does."""
    whole = any(made_of.get(key) != seen.made_of[key] for key in _ALL_HANG_ON) or not seen.pages
    if whole:
        return _Change({}, True, True)
    history = made_of.get("history") != seen.made_of["history"]
    now = {key: _known(key, page, seen, history) for key, page in known.items()}
    worked = now.keys() != seen.pages.keys() or any(not page.digest for page in now.values())
    same = now == known and made_of.items() >= seen.made_of.items()
    return None if same and not worked else _Change(now, False, worked)


def _known(key: str, page: PageRow, seen: _Seen, history: bool) -> PageRow:
    """A page as it is known now: without its digest where it must be worked out again."""
    stamp = seen.pages.get(key, page.stamp)
    if history and page.by_history:
        return replace(page, stamp=stamp, seen=seen.at, digest="")
    if key not in seen.pages or (stamp == page.stamp and not stamp.is_young(page.seen)):
        return page
    same = content_digest(seen.docs / key) == page.digest
    return replace(page, stamp=stamp, seen=seen.at, digest=page.digest if same else "")


def _is_written(
    store: Store, home: Path, seen: _Seen, made_of: Mapping[str, str], change: _Change
) -> bool:
    """Write a change; not, where another process wrote since this one looked."""
    worked: Mapping[str, Any] = {}
    if change.worked:
        rework = import_module("shoplog.find.indexing.rework").rework
        worked = rework(home, change.known, whole=change.whole)
    with store.writing():
        if store.meta() != made_of:
            return False
        before = {} if change.whole else store.pages()
        if change.whole:
            store.empty()
        for key in before.keys() - seen.pages.keys():
            store.remove(key)
        for key, stamp in seen.pages.items():
            page = _page(seen, key, stamp, change.known.get(key), worked.get(key))
            was = before.get(key)
            if was is None or was.rows != page.rows:
                store.replace(key, worked[key].rows if key in worked else PageRows())
            if was != page:
                store.set_page(key, page)
        if before and change.worked:
            store.forget_names()
        store.set_meta(**seen.made_of, written=f"{seen.at} {os.getpid()}")
    return True


def _page(seen: _Seen, key: str, stamp: Stamp, known: PageRow | None, worked: Any) -> PageRow:
    """What the index is to know of a page."""
    if worked is not None:
        return PageRow(
            *(stamp, seen.at, worked.digest, worked.uses, worked.alone, worked.by_history),
            worked.rows.digest,
        )
    if known is not None and known.digest:
        return known
    # It gives no rows, for it cannot be read as a page; its content tells when that changes.
    return PageRow(stamp, seen.at, content_digest(seen.docs / key))
