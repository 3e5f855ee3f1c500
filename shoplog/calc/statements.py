"""A block's text split into statements, each parsed alone: one open bracket costs one statement.

An open bracket goes on only over indented or blank lines; an unindented line always begins a
statement. `#` opens the row's note.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from shoplog.calc.parse import MOST_LENGTH, TOO_LONG, parse_statement
from shoplog.calc.tree import StatementNode
from shoplog.problems import Mistake, Place, Problem, Span

__all__ = ["MOST_LENGTH", "TOO_LONG", "SourceLine", "Statement", "split_statements", "statement_of"]


# Characters that are taken as equal, one for one so that columns stay true.
_SPACES = "\t\r\u00a0\u1680\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B)))
_EQUAL = str.maketrans(
    {"−": "-", "×": "*", "·": "*", "÷": "/", "μ": "µ", **dict.fromkeys(_SPACES, " ")}
)
_PARTS = re.compile(
    r"""(?P<angle>(?<!\d)\d+°(?:\d+(?:'(?:\d+(?:\.\d+)?"?)?)?)?)"""
    r"""|(?P<text>"[^"\n]*"?)|(?P<note>\#)|(?P<open>[(\[])|(?P<close>[)\]])"""
)


class SourceLine(Protocol):
    """A line of a block: its number and column in the file, and its text from there on."""

    @property
    def number(self) -> int: ...  # noqa: D102
    @property
    def column(self) -> int: ...  # noqa: D102
    @property
    def text(self) -> str: ...  # noqa: D102


@dataclass(frozen=True, slots=True)
class Statement:
    """A statement with its place: the code without notes, its note, its node or its mistake."""

    path: str
    code: str
    note: str
    lines: tuple[SourceLine, ...]
    node: StatementNode | None
    mistake: Mistake | None = None

    @property
    def line(self) -> int:
        """The line it begins on."""
        return self.lines[0].number

    def place(self, span: Span | None = None) -> Place:
        """Where a span of its code stands in the file; without one, where it begins."""
        if span is None:
            start = len(self.code) - len(self.code.lstrip())
            first = self.code.split("\n", 1)[0]
            span = Span(start, max(start + 1, len(first.rstrip())))
        start = min(span.start, len(self.code))
        before = self.code[:start]
        index = before.count("\n")
        offset = start - (before.rfind("\n") + 1)
        line = self.lines[index]
        end = min(span.end, start + len(line.text) - offset)
        source = " " * (line.column - 1) + line.text
        width = max(1, end - start)
        return Place(self.path, line.number, line.column + offset, width, source)

    def problem(self, mistake: Mistake, *also: Place) -> Problem:
        """A mistake, placed in this statement."""
        return mistake.at(self.place(mistake.span), *also)


def split_statements(path: str, lines: Iterable[SourceLine]) -> tuple[Statement, ...]:
    """The statements of a block, each parsed; lines with nothing but a note are passed over."""
    made = []
    gathered: list[SourceLine] = []
    depth = 0
    for line in lines:
        going_on = depth > 0 and (not line.text.strip() or line.text[:1] in " \t\u00a0")
        if gathered and not going_on:
            made.append(_statement(path, gathered))
            gathered, depth = [], 0
        gathered.append(line)
        depth = max(0, depth + _opened(line.text))
    if gathered:
        made.append(_statement(path, gathered))
    return tuple(found for found in made if found is not None)


def statement_of(path: str, line: SourceLine, node: StatementNode) -> Statement:
    """A statement made for one expression that stands outside a block."""
    return Statement(path, line.text, "", (line,), node)


def _opened(text: str) -> int:
    depth = 0
    for part in _PARTS.finditer(text):
        if part.lastgroup == "note":
            break
        depth += {"open": 1, "close": -1}.get(part.lastgroup or "", 0)
    return depth


def _statement(path: str, lines: Sequence[SourceLine]) -> Statement | None:
    codes, notes = zip(*(split_note(line.text) for line in lines), strict=True)
    while len(codes) > 1 and not codes[-1].strip():
        codes, lines = codes[:-1], lines[:-1]
    code = "\n".join(codes)
    if not code.strip():
        return None
    note = " ".join(note for note in notes if note)
    made = Statement(path, code, note, tuple(lines), None)
    if len(code) > MOST_LENGTH:
        mistake = Mistake(TOO_LONG, None, length=len(code), most=MOST_LENGTH)
        return Statement(path, code, note, tuple(lines), None, mistake)
    node, mistake_met = parse_statement(code, note)
    return Statement(path, code, note, made.lines, node, mistake_met)


def split_note(text: str) -> tuple[str, str]:
    """A line's code, with equal characters made one, and its note.

    >>> split_note('a = drill("#7")  # first')
    ('a = drill("#7")  ', 'first')
    """
    end, note = len(text), ""
    for part in _PARTS.finditer(text):
        if part.lastgroup == "note":
            end, note = part.start(), text[part.end() :].strip()
            break
    return code_of(text[:end]), note


def code_of(text: str) -> str:
    """Code with characters that mean the same made one; what stands in quotes is left alone."""
    made = []
    last = 0
    for part in _PARTS.finditer(text):
        if part.lastgroup == "text":
            made += [text[last : part.start()].translate(_EQUAL), part.group()]
            last = part.end()
    made.append(text[last:].translate(_EQUAL))
    code = "".join(made)
    composed = unicodedata.normalize("NFC", code)
    # NFC may shorten a text; columns matter more than a letter in two parts does.
    return composed if len(composed) == len(code) else _composed_in_place(code)


def _composed_in_place(code: str) -> str:
    """NFC letter by letter, padded behind each word so that later columns stay true."""
    return re.sub(
        r"\w[\w\u0300-\u036f]*",
        lambda word: unicodedata.normalize("NFC", word.group()).ljust(len(word.group())),
        code,
    )
