"""`[=expression]` in a page's prose: where the values are, and what makes Markdown lose one.

What is found here is what Markdown will show: nothing in code, comments, tags or mathematics, and
nothing that a backslash escapes. Every text is read once from left to right.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate

from shoplog.log.source import Run, Slip
from shoplog.problems import Mistake, message

__all__ = ["MAX_VALUES", "Found", "ProseReader", "ProseValue", "value_at", "values_in"]

MAX_VALUES = 2000
"""Values that the prose of one page may hold."""

VALUE_EMPTY = message(
    "value-empty",
    "there is nothing to work out between `[=` and `]`",
    hint=r"write a name or an expression, as [=bore]; to show the signs themselves, \[=]",
    example="The bore is [=].\n",
)
VALUE_UNCLOSED = message(
    "value-unclosed",
    "this value has no closing `]` on its line",
    hint=r"close it on the line it begins on, as [=bore]; to show the signs themselves, \[=",
    example="The bore is [=bore to in\nand it is reamed.\n",
)
VALUE_LINK = message(
    "value-link",
    "the `(` after `{raw}` makes it the text of a link, and the value is not shown",
    hint="put a space before the bracket; a link around a value is [{raw}](page.md)",
    example="The bore is [=bore](reamed).\n",
)
VALUE_REFERENCE = message(
    "value-reference",
    "the `[` after `{raw}` makes it the text of a link, and the value is not shown",
    hint="put a space and a word before the bracket; a link around a value is [{raw}][name]",
    example="The bore is [=bore][drawing].\n",
)
VALUE_CELL = message(
    "value-cell",
    "the `|` inside `{raw}` begins a new cell in a table, and no expression holds one",
    hint="leave the `|` out",
    example="The bore is [=bore | 2].\n",
)
VALUES_TOO_MANY = message(
    "values-too-many",
    "the prose of this page holds more than {limit} values; those from here on are left out",
    hint="make several pages of it",
)


@dataclass(frozen=True, slots=True)
class ProseValue:
    """A value in prose; line and columns are those of the file, the first of each is 1."""

    line: int
    column: int
    expression: str
    expression_column: int
    raw: str


@dataclass(frozen=True, slots=True)
class Found:
    """A `[=` in a text: where it and its expression stand, and what is wrong with it, if so."""

    start: int
    end: int
    expression: str = ""
    expression_start: int = 0
    mistake: Mistake | None = None


# An angle is known before a text: its signs for minutes and seconds are quotes. A quote that
# pairs with none before the next value is an inch sign, and is left to the language.
_PART = re.compile(
    r"""\d°(?:\d+(?:\.\d+)?['′](?:\d+(?:\.\d+)?["″])?)?"""
    r"""|"(?:[^"\n\[]|\[(?!=))*"|(?P<value>\[=)|(?P<open>\[)|(?P<close>\])|(?P<line>\n)"""
)


def value_at(text: str, start: int) -> Found:
    """The value whose `[=` stands at `start`: it ends by bracket depth, on its own line.

    >>> value_at("[=sizes[0]] mm", 0).expression
    'sizes[0]'
    """
    end = _end(text, start + 2)
    if end is None:
        return Found(start, start + 2, mistake=Mistake(VALUE_UNCLOSED))
    inner = text[start + 2 : end - 1]
    expression = inner.strip()
    at = start + 2 + len(inner) - len(inner.lstrip())
    return Found(start, end, expression, at, _wrong(text, expression, start, end))


def _end(text: str, position: int) -> int | None:
    depth = 0
    for part in _PART.finditer(text, position):
        if part["value"] or part["line"]:
            return None
        if part["open"]:
            depth += 1
        elif part["close"]:
            if not depth:
                return part.end()
            depth -= 1
    return None


def _wrong(text: str, expression: str, start: int, end: int) -> Mistake | None:
    raw = text[start:end]
    if not expression:
        return Mistake(VALUE_EMPTY)
    if "|" in expression:
        return Mistake(VALUE_CELL, raw=raw)
    if text.startswith("(", end):
        return Mistake(VALUE_LINK, raw=raw)
    if text.startswith("[", end) and not text.startswith("[=", end):
        return Mistake(VALUE_REFERENCE, raw=raw)
    return None


_SIGN = re.compile(r"\\|`+|<|\$\$?|\[=")
_TAG = re.compile(r"</?[A-Za-z][^<>]*>")


def values_in(text: str) -> Iterator[Found]:
    """Every `[=` in one run of prose that Markdown will show, from left to right."""
    skip = _Skipper(text)
    position = 0
    while sign := _SIGN.search(text, position):
        if sign[0] == "[=":
            yield (found := value_at(text, sign.start()))
            position = found.end
        else:
            position = skip.after(sign)


class _Skipper:
    """Where the text goes on after code, a tag, a comment, mathematics or an escape."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.runs: dict[int, list[int]] | None = None
        self.never: set[str] = set()

    def after(self, sign: re.Match[str]) -> int:
        start, end = sign.span()
        match sign[0][0]:
            case "`":
                return self._code(end, end - start)
            case "\\":
                return self._escape(end)
            case "<":
                return self._tag(start)
        return self._math(start, end)

    def _code(self, position: int, length: int) -> int:
        if self.runs is None:
            self.runs = {}
            for run in re.finditer("`+", self.text):
                self.runs.setdefault(len(run[0]), []).append(run.start())
        starts = self.runs.get(length, [])
        following = bisect_right(starts, position)
        return starts[following] + length if following < len(starts) else position

    def _escape(self, position: int) -> int:
        escaped = self.text[position : position + 2]
        if escaped[:1] == "(":
            return self._beyond("\\)", position + 1, position + 1)
        if escaped[:1] == "[" and escaped != "[=":
            return self._beyond("\\]", position + 1, position + 1)
        return position + 1

    def _tag(self, start: int) -> int:
        if self.text.startswith("<!--", start):
            return self._beyond("-->", start + 4, start + 4)
        tag = _TAG.match(self.text, start)
        return tag.end() if tag else start + 1

    def _math(self, start: int, end: int) -> int:
        if end - start == 2:
            return self._beyond("$$", end, end)
        # A sign of money stands before a figure, and what follows it ends in a space.
        close = self.text.find("$", end)
        inner = self.text[end:close]
        is_math = close > end and "\n" not in inner and inner == inner.strip()
        return close + 1 if is_math else end

    def _beyond(self, close: str, position: int, otherwise: int) -> int:
        """The place after the next `close`, looked for once where there is none."""
        if close in self.never:
            return otherwise
        found = self.text.find(close, position)
        if found < 0:
            self.never.add(close)
            return otherwise
        return found + len(close)


_DELIMITERS = re.compile(r"[-:|> \t]*")


class ProseReader:
    """The values in the runs of prose; of a table, each row is a run of its own."""

    def __init__(self, first_line: int) -> None:
        self.first = first_line
        self.values: list[ProseValue] = []
        self.slips: list[Slip] = []

    def read(self, run: Run) -> None:
        """Take the values of one run of prose."""
        below = run[1][1] if len(run) > 1 and "|" in run[0][1] else ""
        is_table = "-" in below and _DELIMITERS.fullmatch(below)
        for part in [[line] for line in run] if is_table else [run]:
            text = "\n".join(line for _, line in part)
            if "[=" in text:
                self._read(text, part)

    def _read(self, text: str, run: Run) -> None:
        starts = list(accumulate((len(line) + 1 for _, line in run), initial=0))
        for found in values_in(text):
            place = bisect_right(starts, found.start) - 1
            if not self._take(found, text, run[place][0] + self.first, starts[place]):
                return

    def _take(self, found: Found, text: str, line: int, start: int) -> bool:
        """Take one value or its mistake; not, when the page holds too many."""
        column, mistake = found.start - start + 1, found.mistake
        if len(self.values) + len(self.slips) >= MAX_VALUES:
            if len(self.values) + len(self.slips) == MAX_VALUES:
                self.slips.append(Slip(Mistake(VALUES_TOO_MANY, limit=MAX_VALUES), line, column, 2))
            return False
        if mistake:
            self.slips.append(Slip(mistake, line, column, found.end - found.start))
        else:
            raw = text[found.start : found.end]
            at = found.expression_start - start + 1
            self.values.append(ProseValue(line, column, found.expression, at, raw))
        return True
