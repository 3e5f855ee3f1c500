"""The file of the index: its tables, how it is opened, and how the rows of a page are replaced.

It is a cache: whatever is wrong with it, it is made anew from the pages, and where it cannot be
kept the same tables stand in memory. A log may be a stranger's, and so may a file that lies where
the index lies: one whose tables are not exactly these is never asked anything.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import astuple
from functools import cache
from pathlib import Path

from shoplog.find.indexing.stamps import Stamp
from shoplog.find.indexing.stored import COLUMNS, NAMED, SIZE_COLUMNS, PageRow, PageRows, RecordRow

__all__ = ["Store", "Unkept", "forget", "index_file"]

FOLDER = ".shoplog"
FILE = "setups.sqlite"
BUSY_SECONDS = 3.0
SMALL = 4 * 1024 * 1024
"""Bytes of an index that is looked through each time; a larger one is broken where it says so."""


def _columns(names: Iterable[str]) -> str:
    return ", ".join(names)


_SCHEMA = f"""
CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL);
CREATE TABLE pages (
    key TEXT PRIMARY KEY, modified INTEGER, changed INTEGER, size INTEGER, seen INTEGER,
    digest TEXT, uses TEXT, alone INTEGER, by_history INTEGER, rows TEXT
);
CREATE TABLE records (id INTEGER PRIMARY KEY, {_columns(COLUMNS)});
CREATE INDEX records_of_page ON records (page);
CREATE TABLE kept (id INTEGER PRIMARY KEY, told TEXT, words TEXT);
CREATE VIRTUAL TABLE search USING fts5(
    words, content='kept', content_rowid='id', tokenize="unicode61 remove_diacritics 2"
);
CREATE TABLE faults (record INTEGER, fault TEXT);
CREATE INDEX faults_of_record ON faults (record);
CREATE TABLE names (
    field TEXT, key TEXT, value TEXT, name TEXT, PRIMARY KEY (field, key, value)
) WITHOUT ROWID;
CREATE TABLE sizes (id INTEGER PRIMARY KEY, {_columns(SIZE_COLUMNS)});
CREATE INDEX sizes_of_page ON sizes (page);
"""


class Unkept(Exception):
    """An index cannot be kept here: why, as a clause."""


class Store:
    """The tables of an index, in a file or in memory."""

    def __init__(self, connection: sqlite3.Connection, place: str = "") -> None:
        self.connection = connection
        self.place = place
        """Which file it is: one that was copied or unpacked here is another."""

    @classmethod
    def in_memory(cls) -> Store:
        """Empty tables that are gone with the process."""
        connection = sqlite3.connect(":memory:", isolation_level=None)
        connection.executescript(_SCHEMA)
        return cls(connection)

    @classmethod
    def in_folder(cls, home: Path) -> Store:
        """The index of the log in a folder, made where there is none.

        Raises
        ------
        Unkept
            The folder takes no file, or leads elsewhere.
        sqlite3.DatabaseError
            The file is locked, broken or no index of this version.
        """
        folder, file = home / FOLDER, index_file(home)
        if folder.is_symlink() or file.is_symlink():
            raise Unkept(f"{folder} leads out of the log")
        if not file.exists():
            _make_folder(folder)
        connection = _connected(file)
        try:
            store = cls._checked(connection)
            found = file.stat()
            store.place = str(found.st_ino)
            if found.st_size <= SMALL and not store.is_sound():
                raise sqlite3.DatabaseError("the file is not in order")
            return store
        except BaseException:
            connection.close()
            raise

    @classmethod
    def _checked(cls, connection: sqlite3.Connection) -> Store:
        connection.execute("PRAGMA trusted_schema = OFF")
        if not _tables(connection):
            with _writing(connection):
                if not _tables(connection):  # nor has another process made them meanwhile
                    _execute_all(connection, _SCHEMA)
        if _tables(connection) != _wanted_tables():
            raise sqlite3.DatabaseError("the tables are not those of this version")
        return cls(connection)

    def close(self) -> None:
        """Let the file go."""
        self.connection.close()

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Write all or nothing, one process at a time."""
        with _writing(self.connection):
            yield

    def is_sound(self) -> bool:
        """Whether SQLite finds the whole file in order; it reads all of it."""
        (found,) = self.connection.execute("PRAGMA quick_check(1)").fetchone()
        return bool(found == "ok")

    def meta(self) -> dict[str, str]:
        """What the index was made of."""
        return dict(self.connection.execute("SELECT key, value FROM meta"))

    def set_meta(self, **values: str) -> None:
        """State what the index was made of."""
        self.connection.executemany("INSERT OR REPLACE INTO meta VALUES (?, ?)", values.items())

    def pages(self) -> dict[str, PageRow]:
        """Every page that the index knows."""
        rows = self.connection.execute("SELECT * FROM pages")
        return {key: _page_row(*rest) for key, *rest in rows}

    def set_page(self, key: str, page: PageRow) -> None:
        """State what a page file was."""
        stamp = page.stamp
        self.connection.execute(
            "INSERT OR REPLACE INTO pages VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (
                *(key, stamp.modified, stamp.changed, stamp.size, page.seen, page.digest),
                *("\n".join(page.uses), page.alone, page.by_history, page.rows),
            ),
        )

    def replace(self, key: str, rows: PageRows) -> None:
        """Put the rows of a page in the place of those that it had."""
        self._clear(key)
        for number, row in enumerate(rows.records):
            self._add(key, number, row)
        names = dict.fromkeys(name for row in rows.records for name in row.names)
        self.connection.executemany("INSERT OR IGNORE INTO names VALUES (?, ?, ?, ?)", names)
        marks = ", ".join("?" * len(SIZE_COLUMNS))
        self.connection.executemany(
            f"INSERT INTO sizes ({_columns(SIZE_COLUMNS)}) VALUES ({marks})",
            ((key, *astuple(one)) for one in rows.sizes),
        )

    def remove(self, key: str) -> None:
        """Forget a page."""
        self._clear(key)
        self.connection.execute("DELETE FROM pages WHERE key = ?", (key,))

    def forget_names(self) -> None:
        """Forget the names of what no record has any more; it looks through all records."""
        run = self.connection.execute
        for name in NAMED:
            none = f"value NOT IN (SELECT {name} FROM records)"
            run(f"DELETE FROM names WHERE field = ? AND {none}", (name,))
        run("DELETE FROM names WHERE field = 'fault' AND value NOT IN (SELECT fault FROM faults)")

    def empty(self) -> None:
        """Forget everything."""
        run = self.connection.execute
        run("INSERT INTO search (search) VALUES ('delete-all')")
        for name in ("meta", "pages", "records", "kept", "faults", "names", "sizes"):
            run(f"DELETE FROM {name}")

    def _clear(self, key: str) -> None:
        run = self.connection.execute
        of_page = "(SELECT id FROM records WHERE page = ?)"
        run(
            "INSERT INTO search (search, rowid, words)"
            f" SELECT 'delete', id, words FROM kept WHERE id IN {of_page}",
            (key,),
        )
        run(f"DELETE FROM kept WHERE id IN {of_page}", (key,))
        run(f"DELETE FROM faults WHERE record IN {of_page}", (key,))
        run("DELETE FROM records WHERE page = ?", (key,))
        run("DELETE FROM sizes WHERE page = ?", (key,))

    def _add(self, key: str, number: int, row: RecordRow) -> None:
        run = self.connection.execute
        marks = ", ".join("?" * len(COLUMNS))
        made = run(
            f"INSERT INTO records ({_columns(COLUMNS)}) VALUES ({marks})",
            (key, number, *row.columns),
        )
        own = made.lastrowid
        run("INSERT INTO kept VALUES (?, ?, ?)", (own, row.told, row.words))
        run("INSERT INTO search (rowid, words) VALUES (?, ?)", (own, row.words))
        faults = ((own, fault) for fault in row.faults)
        self.connection.executemany("INSERT INTO faults VALUES (?, ?)", faults)


def index_file(home: Path) -> Path:
    """The file of the index of the log in a folder."""
    return home / FOLDER / FILE


def forget(home: Path) -> None:
    """Take away the index of a log, which loses nothing."""
    file = index_file(home)
    for path in (file, file.with_name(f"{FILE}-journal")):
        path.unlink(missing_ok=True)


def _make_folder(folder: Path) -> None:
    """The folder of the index: git and what publishes pages pass it over."""
    try:
        folder.mkdir(exist_ok=True)
        ignore = folder / ".gitignore"
        if not ignore.exists():
            ignore.write_text("# Made by shoplog, and may be deleted at any time.\n*\n", "utf-8")
    except OSError as error:
        raise Unkept(f"{folder} cannot be written: {error.strerror}") from None


def _connected(file: Path) -> sqlite3.Connection:
    return sqlite3.connect(file, timeout=BUSY_SECONDS, isolation_level=None)


@contextmanager
def _writing(connection: sqlite3.Connection) -> Iterator[None]:
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        with suppress(sqlite3.Error):
            connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def _execute_all(connection: sqlite3.Connection, script: str) -> None:
    """Run a script within the transaction that is open; `executescript` would end it."""
    for statement in script.split(";"):
        connection.execute(statement)


def _tables(connection: sqlite3.Connection) -> frozenset[tuple[str, str, str]]:
    return frozenset(connection.execute("SELECT type, name, coalesce(sql, '') FROM sqlite_master"))


@cache
def _wanted_tables() -> frozenset[tuple[str, str, str]]:
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.executescript(_SCHEMA)
        return _tables(connection)


def _page_row(
    modified: int,
    changed: int,
    size: int,
    seen: int,
    digest: str,
    uses: str,
    alone: int,
    by_history: int,
    rows: str,
) -> PageRow:
    stamp = Stamp(modified, changed, size)
    used = tuple(uses.split("\n")) if uses else ()
    return PageRow(stamp, seen, digest, used, bool(alone), bool(by_history), rows)
