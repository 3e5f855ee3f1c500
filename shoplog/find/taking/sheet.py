"""A spreadsheet's file as a sheet: which row holds the headings, and what stands below them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from shoplog.find.clean import clean, clipped
from shoplog.find.export import unguarded
from shoplog.find.taking.columns import heading_guess, is_own_export
from shoplog.find.taking.numbers import readings
from shoplog.find.taking.text import MOST_COLUMNS, NotTaken, Row, Rows, read_text

__all__ = ["Sheet", "read_sheet"]

SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}
MOST_HEADING = 80
LOOKED_AT = 30
"""Rows from the top among which the headings are looked for."""
SAMPLE = 64 * 1024
_SAYS_SEPARATOR = "sep="
_ENCODINGS = {
    "UTF-16": ("it was read as UTF-16",),
    **{
        name: (f"it is no UTF-8 text, and was read as {name}: look whether its letters are right",)
        for name in ("Windows-1252", "Latin-1")
    },
}


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet: its headings, each once, and the rows below them."""

    path: Path
    rows: Rows
    headings: tuple[str, ...]
    head: Row
    below: int
    """The number of rows down to the headings."""
    own: bool
    """Whether it is our own export."""
    notes: tuple[str, ...]
    """What a reader should know of how it was read."""

    def body(self) -> Iterator[Row]:
        """The rows below the headings that have something in them."""
        return self.rows.after(self.below)

    def __len__(self) -> int:
        return len(self.rows) - self.below


def read_sheet(path: Path) -> Sheet:
    """Read the file of a spreadsheet.

    Raises
    ------
    NotTaken
        It is no text, is too large, or has no row below its headings.
    """
    text, encoding = read_text(path)
    if not text.strip():
        raise NotTaken(f"{path} is empty")
    separator = _separator(str(path), text)
    rows = Rows(str(path), text, separator)
    at, head = _head(rows.first(LOOKED_AT))
    if len(head.cells) > MOST_COLUMNS:
        raise NotTaken(f"{path} has more than {MOST_COLUMNS} columns")
    if len(rows) == at + 1:
        raise NotTaken(f"{path} has headings on line {head.line}, and no row below them")
    names = [clipped(clean(unguarded(cell)).strip(), MOST_HEADING) for cell in head.cells]
    headings = _once(names)
    notes = [
        *_ENCODINGS.get(encoding, ()),
        *([f"its cells are parted by {SEPARATORS[separator]}"] if separator != "," else []),
        *_told_of_top(rows.first(at)),
        *_told_of_names(names, headings),
        *(f"the quote that line {n} opens is never closed; it is a sign" for n in rows.unclosed),
    ]
    return Sheet(path, rows, headings, head, at + 1, is_own_export(names), tuple(notes))


def _separator(path: str, text: str) -> str:
    """The sign between cells: the one by which headings are known, else the most regular one."""
    if text.startswith(_SAYS_SEPARATOR) and text[4:5] in SEPARATORS and text[5:6] == "\n":
        return text[4]
    return max(SEPARATORS, key=lambda sign: _regularity(Rows(path, text[:SAMPLE], sign)))


def _regularity(rows: Rows) -> tuple[int, int]:
    first = rows.first(LOOKED_AT)
    known = max((_known(row) for row in first), default=0)
    width, count = _usual_width(first)
    return (known if known > 1 else 0), count * (width - 1)


def _usual_width(rows: list[Row]) -> tuple[int, int]:
    widths = Counter(len(row.cells) for row in rows)
    return max(widths.items(), key=lambda found: (found[1], found[0]), default=(1, 0))


def _known(row: Row) -> int:
    """How many things a row names that a column may be."""
    found = (heading_guess(cell.strip()[:MOST_HEADING]).target for cell in row.cells)
    return len({target.name for target in found if target})


def _head(rows: list[Row]) -> tuple[int, Row]:
    """The row of the headings and its number: the one that names most, else one of words alone."""
    known = [_known(row) for row in rows]
    if max(known) >= min(2, _usual_width(rows)[0]):
        at = known.index(max(known))
        return at, rows[at]
    width, _ = _usual_width(rows)
    for at, row in enumerate(rows):
        if len(row.cells) == width and not any(readings(cell) for cell in row.cells):
            return at, row
    return 0, rows[0]


def _once(names: list[str]) -> tuple[str, ...]:
    """Each name once: a second `Notes` is `Notes (2)`, and one that is empty has its number."""
    made: dict[str, None] = {}
    for number, name in enumerate(names, 1):
        base = name or f"column {number}"
        found, count = base, 1
        while found in made:
            count += 1
            found = f"{base} ({count})"
        made[found] = None
    return tuple(made)


def _told_of_top(rows: list[Row]) -> Iterator[str]:
    above = [row for row in rows if not row.cells[0].startswith(_SAYS_SEPARATOR)]
    if above:
        lines = [str(row.line) for row in above]
        which = f"line {lines[0]}" if len(lines) == 1 else f"lines {lines[0]} to {lines[-1]}"
        yield f"{which} above the headings: left out"


def _told_of_names(names: list[str], headings: tuple[str, ...]) -> Iterator[str]:
    for name, heading in zip(names, headings, strict=True):
        if name and name != heading:
            yield f"the heading `{name}` stands there again; the column is called `{heading}`"
