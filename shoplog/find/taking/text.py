"""The text of a file of somebody's spreadsheet: its signs, its separator, its rows and cells.

A row is split when it is asked for, so a large file costs its text and little more. Each cell knows
where it stands in the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from shoplog.problems import Place

__all__ = ["MOST_BYTES", "MOST_COLUMNS", "MOST_ROWS", "NotTaken", "Row", "Rows", "read_text"]

MOST_BYTES = 64 * 1024 * 1024
MOST_ROWS = 100_000
MOST_COLUMNS = 200
MOST_SHOWN = 300
"""Characters of a row that stand in a problem."""

_BINARIES = {
    b"PK\x03\x04": "a workbook or another packed file",
    b"\xd0\xcf\x11\xe0": "a workbook of an old kind",
    b"%PDF": "a PDF",
    b"SQLite format 3": "a database",
}
# Two quotes in a row are one that is meant. What was matched is not given up again.
_QUOTED = re.compile(r'"[^"]*+(?:""[^"]*+)*+"')
_SAVE_AS = "save the sheet as CSV"


class NotTaken(ValueError):
    """A file of which nothing can be taken: why not, in a sentence."""


def read_text(path: Path) -> tuple[str, str]:
    """The text of a file and what it was read as; every line end is a newline.

    UTF-8, with its mark or without, and UTF-16 with its mark are told by their bytes; what is none
    of them is read as Windows-1252, which holds Latin-1.

    Raises
    ------
    NotTaken
        It is too large, is no text, or cannot be read.
    """
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise NotTaken(f"{path} cannot be read: {error.strerror}") from None
    if len(data) > MOST_BYTES:
        raise NotTaken(f"{path} is larger than {MOST_BYTES} bytes; take it in parts")
    for sign, what in _BINARIES.items():
        if data.startswith(sign):
            raise NotTaken(f"{path} is {what} and no CSV; {_SAVE_AS}")
    text, encoding = _decoded(path, data)
    if "\0" in text:
        raise NotTaken(f"{path} holds NUL characters, so it is no text; {_SAVE_AS}, as UTF-8")
    return text.replace("\r\n", "\n").replace("\r", "\n"), encoding


def _decoded(path: Path, data: bytes) -> tuple[str, str]:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return data.decode("utf-16"), "UTF-16"
        except UnicodeDecodeError:
            raise NotTaken(f"{path} begins as UTF-16 and goes on otherwise; {_SAVE_AS}") from None
    try:
        return data.decode("utf-8-sig"), "UTF-8"
    except UnicodeDecodeError:
        pass
    try:
        return data.decode("cp1252"), "Windows-1252"
    except UnicodeDecodeError:  # five bytes mean nothing there, and a control sign in Latin-1
        return data.decode("latin-1"), "Latin-1"


@dataclass(frozen=True, slots=True)
class Row:
    """A row: the line of the file that it begins on, and its cells as they were written."""

    line: int
    at: int
    """Where it begins in the text."""
    cells: tuple[str, ...]
    starts: tuple[int, ...]
    """Where each cell begins in the text, its quote too."""

    @property
    def empty(self) -> bool:
        """Whether nothing stands in it."""
        return not any(cell.strip() for cell in self.cells)


class Rows:
    """The rows of a text that have something in them, split at a separator.

    Parameters
    ----------
    path : str [-]
        What problems call the file.
    text : str [-]
        With newlines for line ends.
    separator : str [-]
        One sign.

    Raises
    ------
    NotTaken
        There are too many.
    """

    def __init__(self, path: str, text: str, separator: str) -> None:
        self.path, self.text, self.separator = path, text, separator
        self.unclosed: list[int] = []
        """Lines on which a quote is opened that nothing closes: it counts as a sign."""
        self._ends = re.compile(rf"[{re.escape(separator)}\n]")
        self._places: list[tuple[int, int]] = []
        at, line = 0, 1
        while at < len(text):
            row, end = self._split(line, at)
            if not row.empty:
                self._places.append((line, at))
            line += text.count("\n", at, end + 1)
            at = end + 1
            if len(self._places) > MOST_ROWS + 1:
                raise NotTaken(f"{path} has more than {MOST_ROWS} rows; take it in parts")

    def __len__(self) -> int:
        return len(self._places)

    def __iter__(self) -> Iterator[Row]:
        return self.after(0)

    def after(self, index: int) -> Iterator[Row]:
        """The rows from one on, by its number from 0."""
        for line, at in self._places[index:]:
            yield self._split(line, at)[0]

    def first(self, count: int) -> list[Row]:
        """The first rows, at most so many."""
        return [self._split(line, at)[0] for line, at in self._places[:count]]

    def place(self, row: Row, column: int) -> Place:
        """Where a cell stands in the file; a row that has no such cell is named at its front."""
        at = row.starts[column] if column < len(row.starts) else row.at
        line = row.line + self.text.count("\n", row.at, at)
        begins = self.text.rfind("\n", 0, at) + 1
        ends = self.text.find("\n", at)
        source = self.text[begins : min(ends if ends >= 0 else len(self.text), at + MOST_SHOWN)]
        width = len(row.cells[column].partition("\n")[0]) if column < len(row.cells) else 1
        return Place(self.path, line, at - begins + 1, max(1, width), source)

    def _split(self, line: int, at: int) -> tuple[Row, int]:
        """The row that begins here and where it ends."""
        end = self.text.find("\n", at)
        end = len(self.text) if end < 0 else end
        if self.text.find('"', at, end) >= 0:
            return self._split_quoted(line, at)
        cells = self.text[at:end].split(self.separator, MOST_COLUMNS + 1)
        return Row(line, at, tuple(cells), _starts(at, cells)), end

    def _split_quoted(self, line: int, at: int) -> tuple[Row, int]:
        cells, starts, begins = [], [], at
        while True:
            starts.append(at)
            cell, at = self._cell(line, at)
            cells.append(cell)
            more = self.text[at : at + 1] == self.separator and len(cells) <= MOST_COLUMNS
            if not more:
                end = at if at >= len(self.text) or self.text[at] == "\n" else self._end(at)
                return Row(line, begins, tuple(cells), tuple(starts)), end
            at += 1

    def _cell(self, line: int, at: int) -> tuple[str, int]:
        """The cell that begins here and where it ends; what follows its quotes is added to it."""
        text, opens = self.text, at
        while text[opens : opens + 1] == " ":
            opens += 1
        if text[opens : opens + 1] != '"':
            end = self._next(at)
            return text[at:end], end
        quoted = _QUOTED.match(text, opens)
        if quoted is None:
            if line not in self.unclosed:
                self.unclosed.append(line)
            end = self._next(at)
            return text[at:end], end
        end = self._next(quoted.end())
        inside = text[opens + 1 : quoted.end() - 1].replace('""', '"')
        return inside + text[quoted.end() : end].rstrip(), end

    def _next(self, at: int) -> int:
        found = self._ends.search(self.text, at)
        return found.start() if found else len(self.text)

    def _end(self, at: int) -> int:
        found = self.text.find("\n", at)
        return len(self.text) if found < 0 else found


def _starts(at: int, cells: list[str]) -> tuple[int, ...]:
    starts = []
    for cell in cells:
        starts.append(at)
        at += len(cell) + 1
    return tuple(starts)
