"""A page as its author wrote it: its header, its blocks and the values in its prose.

`read_page` reads a page file; `scan` reads the lines of a body, however a host of Markdown came by
them, and finds the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shoplog.log.fences import Block, Line, Scanner
from shoplog.log.prose import ProseReader, ProseValue
from shoplog.log.source import Slip, normalised, read_header
from shoplog.problems import Place, Problem

__all__ = ["Block", "Line", "PageSource", "ProseValue", "Scan", "read_page", "scan"]


@dataclass(frozen=True, slots=True)
class PageSource:
    """A page file as it was read; `text` and `lines` have newlines and no byte order mark.

    A date in the front matter is a `datetime.date`. `body_line` is where MkDocs begins the body;
    where it leaves none, the line after the last one.
    """

    path: str
    text: str
    lines: tuple[str, ...]
    front_matter: dict[str, object]
    front_matter_lines: dict[str, int]
    body_line: int
    blocks: tuple[Block, ...]
    prose: tuple[ProseValue, ...]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Scan:
    """What the lines of a body hold."""

    blocks: tuple[Block, ...]
    prose: tuple[ProseValue, ...]
    slips: tuple[Slip, ...]


def read_page(path: str, text: str) -> PageSource:
    """Read a page file's text: its header, its blocks, its prose values and their problems."""
    text = normalised(text)
    lines = tuple(text.split("\n"))
    header = read_header(path, lines)
    found = scan(lines[header.body_line - 1 :], header.body_line)
    problems = [
        slip.mistake.at(Place(path, slip.line, slip.column, slip.width, lines[slip.line - 1]))
        for slip in found.slips
    ]
    problems = sorted(
        header.problems + problems, key=lambda one: (one.place.line, one.place.column)
    )
    return PageSource(
        path,
        text,
        lines,
        header.values,
        header.lines,
        header.body_line,
        found.blocks,
        found.prose,
        tuple(problems),
    )


def scan(lines: Sequence[str], first_line: int = 1) -> Scan:
    """The blocks, prose values and mistakes of a body whose first line has this number."""
    scanner = Scanner(lines, first_line)
    scanner.run()
    prose = ProseReader(first_line)
    for run in scanner.runs:
        prose.read(run)
    return Scan(tuple(scanner.blocks), tuple(prose.values), tuple(scanner.slips + prose.slips))
