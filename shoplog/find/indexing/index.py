"""The index of a log's setups and sizes, found, brought up to date and asked.

Where no index can be kept, or another process has it, the same is worked out in memory, and a note
says so. One that is broken or of another version is made anew.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any, TypeVar

from shoplog.files import shown_folder, site_above
from shoplog.find.indexing.store import Store, Unkept, forget, index_file
from shoplog.find.indexing.update import bring_up_to_date, docs_known

__all__ = ["Index", "ask_index"]

_IN_USE = frozenset((sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED))
_NOT_OURS = frozenset(
    (
        *(sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM),
        *(sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR, sqlite3.SQLITE_AUTH),
    )
)
_PRIMARY = 0xFF  # of an extended error code of SQLite, what it is an error of

Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class Index:
    """An index that holds what the pages say now."""

    store: Store
    docs: Path
    within: str = ""
    """What the keys of the pages that were asked about begin with; nothing for all of them."""
    notes: tuple[str, ...] = ()

    @property
    def root(self) -> str:
        """How a place names the folder of the pages: from here, with its last `/`."""
        return shown_folder(self.docs)


def ask_index(folder: Path, ask: Callable[[Index], Answer]) -> Answer:
    """Bring the index of a log up to date and ask it.

    Parameters
    ----------
    folder : Path [-]
        The folder of mkdocs.yml, a folder of pages, or one among the pages of a log.
    ask : function [-]
        What is asked of the index; asked again where the file turns out to be broken.

    Returns
    -------
    Answer [-]
        What `ask` gave.

    Raises
    ------
    NoLog
        There is no log there.
    """
    home, within = _place(folder)
    try:
        return _from_file(home, within, ask)
    except Unkept as why:
        note = f"{why}; this was worked out without an index"
    except sqlite3.DatabaseError as error:
        note = _why_not(home, error)
        if not note:
            with suppress(OSError, Unkept, sqlite3.DatabaseError):
                forget(home)
                return _from_file(home, within, ask)
            note = "the index is broken and cannot be made anew; this was worked out without it"
    with closing(Store.in_memory()) as store:
        return ask(Index(store, bring_up_to_date(store, home), within, (note,)))


def _why_not(home: Path, error: sqlite3.DatabaseError) -> str:
    """Why an index cannot be used as it is; nothing where it is broken or of another version."""
    code = getattr(error, "sqlite_errorcode", 0) & _PRIMARY
    if code in _IN_USE:
        return "the index is in use by another process; this was worked out without it"
    if code in _NOT_OURS:
        return f"{index_file(home)} cannot be used ({error}); this was worked out without an index"
    return ""


def _from_file(home: Path, within: str, ask: Callable[[Index], Answer]) -> Answer:
    if not index_file(home).exists():
        _folder_texts(home)  # where there is no log, no file is made
    with closing(Store.in_folder(home)) as store:
        return ask(Index(store, bring_up_to_date(store, home), within))


def _folder_texts(folder: Path) -> Any:
    """The texts of the log in a folder; the engine is loaded here, which most answers need not."""
    return import_module("shoplog.log.folder").folder_texts(folder)


def _place(folder: Path) -> tuple[Path, str]:
    """The folder of the log that a folder is of, and what its pages' keys begin with there."""
    asked = folder.resolve()
    above = site_above(asked)
    if above is None or above == asked:
        return folder, ""
    home = Path(os.path.relpath(above))
    docs = _docs_known(home)
    if docs is None:
        found = _folder_texts(folder)
        return Path(found.shop_path).parent, found.within
    if not asked.is_relative_to(docs.resolve()):
        return folder, ""
    inside = asked.relative_to(docs.resolve()).as_posix()
    return home, "" if inside == "." else f"{inside}/"


def _docs_known(home: Path) -> Path | None:
    """The folder of the pages, where an index knows it that the settings have not outlived."""
    if not index_file(home).is_file():
        return None
    with suppress(Unkept, sqlite3.DatabaseError), closing(Store.in_folder(home)) as store:
        return docs_known(home, store.meta())
    return None
