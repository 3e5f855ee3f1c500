"""The pages that the rows of a sheet become: which row on which page, under which name.

A page has the rows of one project and one part, else of one year. No name of a folder or a file is
taken as it stands in a cell.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import PurePosixPath

from shoplog.find.clean import clean
from shoplog.find.taking.rows import Taken
from shoplog.log.blocks import read_page
from shoplog.log.header import part_name, read_keys
from shoplog.problems import counted

__all__ = ["NewPage", "file_name", "pages_of"]

MOST_SETUPS = 200
"""Setups that a page takes; more of them go on in a next page."""
MOST_NAME = 60
MOST_FOLDERS = 4
UNDATED = "undated"

# Names that Windows keeps for devices, and a folder that MkDocs publishes nothing of.
_PORTS = (f"{port}{n}" for port in ("com", "lpt") for n in range(10))
_KEPT = frozenset(("con", "prn", "aux", "nul", "templates", *_PORTS))
_OTHERS = re.compile(r"[\W_]+")
_MARKS = re.compile(r"([\\`*\[\]{}])")


@dataclass(slots=True)
class NewPage:
    """A page to be written: its path in the folder, its setups, and what it is called."""

    path: str
    heading: str
    project: str
    part: str = ""
    setups: list[Taken] = field(default_factory=list)

    def text(self, source: str) -> str:
        """The page's text; `source` is the file that its setups are from."""
        header = f"---\npart: {_quoted(self.part)}\n---\n" if self.part else ""
        told = f"Taken from {_plain(source)}: {counted(len(self.setups), 'setup')}."
        blocks = (f"```setup\n{one.text}\n```\n" for one in self.setups)
        return f"{header}# {_plain(self.heading)}\n\n{told}\n\n" + "\n".join(blocks)


def pages_of(
    setups: Iterable[Taken],
    stem: str,
    taken_parts: Callable[[str], set[str]],
    *,
    paths: bool = False,
) -> list[NewPage]:
    """Setups on their pages, in the order of the rows.

    Parameters
    ----------
    setups : iterable of Taken [-]
        The rows that became setups.
    stem : str [-]
        What the project is called where a row names none.
    taken_parts : function [-]
        The parts that a folder of the log has pages of already.
    paths : bool [-]
        Whether projects and pages are named by their paths in a log, as our own export has them;
        else a `/` is a sign as others are: a `3/8 jig` is no folder in another.
    """
    groups: dict[tuple[str, str, str], list[Taken]] = {}
    for one in setups:
        if paths:
            one = replace(one, page=PurePosixPath(one.page).stem)
        folder = _folder(one.project, paths=paths) or file_name(stem) or "taken"
        groups.setdefault((folder, _name(one), one.part), []).append(one)
    names = _Names(taken_parts)
    return [
        names.page(folder, name, group[at : at + MOST_SETUPS], stem)
        for (folder, name, _), group in groups.items()
        for at in range(0, len(group), MOST_SETUPS)
    ]


class _Names:
    """Gives each page a name that no other has, and each part one page."""

    def __init__(self, taken_parts: Callable[[str], set[str]]) -> None:
        self._taken_parts = taken_parts
        self._paths: set[str] = set()
        self._parts: dict[str, set[str]] = {}

    def page(self, folder: str, name: str, setups: list[Taken], stem: str) -> NewPage:
        path, count = f"{folder}/{name}.md", 1
        while path in self._paths:
            count += 1
            path = f"{folder}/{name}-{count}.md"
        self._paths.add(path)
        part = self._part(folder, setups[0].part)
        return NewPage(path, _heading(setups[0], folder, stem), folder, part, setups)

    def _part(self, folder: str, text: str) -> str:
        """The part that the page's header says; none where another page is it, or it cannot be."""
        if folder not in self._parts:
            self._parts[folder] = set(self._taken_parts(folder))
        name = part_name(text)
        header = f"---\npart: {_quoted(text)}\n---\n\n# Part\n"
        if not name or name in self._parts[folder] or read_keys(read_page("", header))[1]:
            return ""
        self._parts[folder].add(name)
        return text


def _folder(project: str, *, paths: bool) -> str:
    """The folder of a project; one within another where it is a path."""
    words = project.split("/")[-MOST_FOLDERS:] if paths else [project]
    return "/".join(filter(None, map(file_name, words)))


def _name(one: Taken) -> str:
    return file_name(one.page) or file_name(one.part) or one.date[:4] or UNDATED


def file_name(text: str) -> str:
    """A text as the name of a file or folder anywhere; nothing where no letter is left of it.

    >>> file_name("Boat Winch, No. 2"), file_name("../../etc"), file_name("CON"), file_name("..")
    ('boat-winch-no-2', 'etc', 'con-log', '')
    """
    plain = unicodedata.normalize("NFKC", text[: 10 * MOST_NAME]).casefold()
    name = _OTHERS.sub("-", plain).strip("-")[:MOST_NAME].strip("-")
    return f"{name}-log" if name in _KEPT else name


def _heading(one: Taken, folder: str, stem: str) -> str:
    project = one.project if "/" not in folder else one.project.rpartition("/")[2]
    name = one.part or one.page
    told = f": {name}" if name else f", {one.date[:4] or UNDATED}"
    return f"{project or stem}{told}"


def _plain(text: str) -> str:
    r"""A text that Markdown shows as it is: no value, no link, no picture and no HTML.

    >>> _plain("<b>[=a]*"), _plain("boat_winch")
    ('&lt;b&gt;\\[=a\\]\\*', 'boat_winch')
    """
    entities = clean(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return _MARKS.sub(r"\\\1", entities)


def _quoted(text: str) -> str:
    return json.dumps(clean(text), ensure_ascii=False)


def parts_in(texts: Iterator[tuple[str, str]]) -> set[str]:
    """The parts that some pages say they are, by their paths and texts."""
    found = (read_keys(read_page(path, text))[0].part for path, text in texts)
    return set(filter(None, found))
