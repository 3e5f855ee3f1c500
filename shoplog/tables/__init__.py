"""The tables of the trade: each read once, when first asked for, with its source beside it.

A table is a CSV file in `data/` that opens with a head of `# key: value` lines (an indented `#`
line goes on with the value above). The head must say `title`, `source`, `edition` and
`from memory` (which rows or columns were recalled and not read; `nothing` where none was).
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib import resources

__all__ = ["Table", "TableFault", "table", "table_names"]

_HEAD = ("title", "source", "edition", "from memory")


class TableFault(ValueError):
    """A data file is not as it must be."""

    def __init__(self, name: str, line: int, what: str) -> None:
        super().__init__(name, line, what)
        self.name, self.line, self.what = name, line, what

    def __str__(self) -> str:
        return f"data/{self.name}.csv:{self.line}: {self.what}"


@dataclass(frozen=True, slots=True)
class Table:
    """A table with its head and its rows, in the file's order; every cell is text."""

    name: str
    head: dict[str, str]
    columns: tuple[str, ...]
    rows: tuple[dict[str, str], ...]

    @property
    def source(self) -> str:
        """Where the table's values come from, and which edition."""
        return f"{self.head['source']} ({self.head['edition']})"


@cache
def table(name: str) -> Table:
    """The table of a name, such as `"iso286_grades"`.

    Raises
    ------
    TableFault
        There is no such table, its head lacks a key, or a row has too few or too many cells.
    """
    file = resources.files("shoplog.data").joinpath(f"{name}.csv")
    try:
        lines = file.read_text("utf-8").splitlines()
    except FileNotFoundError:
        raise TableFault(name, 0, "there is no such table") from None
    head: dict[str, str] = {}
    key = ""
    first = next((n for n, line in enumerate(lines) if not line.startswith("#")), len(lines))
    for line in lines[:first]:
        text = line[1:].strip()
        if line.startswith("#   ") and key:
            head[key] += f" {text}"
        elif ":" in text:
            key, _, value = text.partition(":")
            head[key] = value.strip()
    missing = [key for key in _HEAD if not head.get(key)]
    if missing:
        raise TableFault(name, 1, f"the head does not say {', '.join(missing)}")
    columns, *cells = csv.reader(lines[first:])
    for number, row in enumerate(cells, start=first + 2):
        if len(row) != len(columns):
            raise TableFault(name, number, f"{len(row)} cells under {len(columns)} columns")
    rows = tuple(dict(zip(columns, row, strict=True)) for row in cells)
    return Table(name, head, tuple(columns), rows)


def table_names() -> tuple[str, ...]:
    """The name of every table that is shipped."""
    files = resources.files("shoplog.data").iterdir()
    return tuple(sorted(file.name[:-4] for file in files if file.name.endswith(".csv")))
