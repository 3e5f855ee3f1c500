"""What tells that a file changed without reading it: the stamps of pages, engine and history.

A stamp is a file's times and its size. The time of the last change of its entry, which no program
sets, is among them, so a file that was copied, unpacked or put back is new.
"""

from __future__ import annotations

import os
from codecs import BOM_UTF8
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import astuple, dataclass
from hashlib import blake2b
from importlib import import_module
from pathlib import Path

import shoplog

__all__ = [
    "Stamp",
    "content_digest",
    "digest_of",
    "engine_stamp",
    "history_stamp",
    "page_stamps",
    "stamp_of",
]

YOUNG_NS = 2_000_000_000
"""A file may change twice within one tick of its clock; FAT counts in steps of two seconds."""
MOST_BYTES = 64 * 1024 * 1024
_ENGINE = (".py", ".lark", ".csv", ".txt")


@dataclass(frozen=True, slots=True)
class Stamp:
    """A file's times in ns and its size in bytes."""

    modified: int
    changed: int
    size: int

    def is_young(self, seen: int) -> bool:
        """Whether it might have changed after it was seen, in the same tick of the clock."""
        return max(self.modified, self.changed) >= seen - YOUNG_NS


def _stamp(found: os.stat_result) -> Stamp:
    return Stamp(found.st_mtime_ns, found.st_ctime_ns, found.st_size)


def stamp_of(path: Path) -> str:
    """The stamp of one file as text; nothing where it is not there."""
    try:
        return repr(astuple(_stamp(path.stat())))
    except OSError:
        return ""


def digest_of(data: bytes) -> str:
    """What tells the content of a file from every other."""
    return blake2b(data, digest_size=16).hexdigest()


def content_digest(path: Path) -> str:
    """What tells the content of a page's file from every other; its mark of UTF-8 does not count.

    Nothing where it cannot be read, or is larger than any page.
    """
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError:
        return ""
    return digest_of(data.removeprefix(BOM_UTF8)) if len(data) <= MOST_BYTES else ""


def page_stamps(docs: Path) -> dict[str, Stamp]:
    """The stamp of every Markdown file that may be a page, by its path in the log; in order.

    As `log.folder` finds them: no folder that begins with a dot, and no links to folders.
    """
    found: dict[str, Stamp] = {}
    for path, entry in _files(docs, (".md",)):
        key = path.removeprefix("/")
        if not key.startswith("templates/"):
            with suppress(OSError):  # gone meanwhile
                found[key] = _stamp(entry.stat())
    return dict(sorted(found.items()))


def _files(folder: Path, ends: tuple[str, ...]) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """The files of a folder and of those in it, by their path from it."""
    waiting = [(str(folder), "")]
    while waiting:
        place, shown = waiting.pop()
        try:
            entries = list(os.scandir(place))
        except OSError:  # gone meanwhile, or not ours to read
            continue
        for entry in entries:
            if entry.name.startswith("."):
                continue
            if entry.is_dir(follow_symlinks=False):
                waiting.append((entry.path, f"{shown}/{entry.name}"))
            elif entry.name.endswith(ends) and entry.is_file():
                yield f"{shown}/{entry.name}", entry


def engine_stamp(*rooms: Path) -> str:
    """What tells this shoplog from every other: its modules and its tables, or those of folders."""
    own = (Path(shoplog.__file__).parent, Path(import_module("shoplog.data").__path__[0]))
    return digest_of(repr(sorted(_stamped(rooms or own))).encode())


def _stamped(rooms: Iterable[Path]) -> Iterator[tuple[str, int, int]]:
    for room in rooms:
        for path, entry in _files(room, _ENGINE):
            found = entry.stat()
            yield f"{room.name}{path}", found.st_mtime_ns, found.st_size


def history_stamp(docs: Path) -> str:
    """What tells that a commit was made since: the stamp of git's own log of them."""
    for folder in (docs, *docs.resolve().parents):
        git = folder / ".git"
        if git.is_dir():
            return stamp_of(git / "logs" / "HEAD")
        if git.is_file():  # a working tree whose git folder is elsewhere
            return stamp_of(_elsewhere(git) / "logs" / "HEAD")
    return ""


def _elsewhere(file: Path) -> Path:
    """The git folder that such a file names; none on another computer."""
    with file.open(encoding="utf-8", errors="replace") as opened:
        named = opened.readline(4096).partition("gitdir:")[2].strip()
    return file.parent / (named if named[:2] not in ("//", "\\\\") else "")
