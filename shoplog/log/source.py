"""The raw text of a page file: its lines, its header, and the line on which its body begins.

MkDocs reads the header with a reader of its own that is silent about mistakes. What is read here
is what it reads, and where it would keep silent there is a problem.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field

import yaml

from shoplog.problems import Mistake, Place, Problem, message

__all__ = ["Header", "Run", "Slip", "normalised", "read_header"]

MAX_HEADER = 64 * 1024
"""Characters a header may have; a page needs a few lines."""
MAX_HEADER_DEPTH = 20
"""Lists and mappings that may stand in one another in a header."""

HEADER_YAML = message(
    "header-yaml",
    "the header cannot be read: {why}; MkDocs would show it as text",
    hint="put a text that holds a colon or a sign in quotes",
    example="---\npart: [shaft\n---\n\n# Shaft\n",
)
HEADER_NOT_KEYS = message(
    "header-not-keys",
    "the header holds no `key: value` lines, so MkDocs would show it as text",
    hint="write `part: name` and the like, or leave the --- lines out",
    example="---\nshaft\n---\n\n# Shaft\n",
)
HEADER_UNCLOSED = message(
    "header-unclosed",
    "the header has no closing --- line, so MkDocs would show it as text",
    hint="close it with a line that holds --- only, and an empty line",
    example="---\npart: shaft\n\n# Shaft\n",
)
HEADER_TWICE = message(
    "header-twice",
    "the header gives `{key}` twice: here and on line {first}",
    hint="keep one of them",
    example="---\npart: shaft\npart: bush\n---\n\n# Shaft\n",
)
HEADER_ALIAS = message(
    "header-alias",
    "the header uses `{sign}`, a YAML reference, which is not read here",
    hint='write the value out, or in quotes if it is a text: "{sign}"',
    example="---\npart: &name shaft\nmates: [*name]\n---\n\n# Shaft\n",
)
HEADER_DEEP = message(
    "header-deep",
    "the header nests lists and mappings more than {limit} deep",
    hint="a header takes short lines, as `mates: [gear, bush]`",
    example="---\npart: " + "[" * 21 + "]" * 21 + "\n---\n\n# Shaft\n",
)
HEADER_LARGE = message(
    "header-large",
    "the header has {size} characters; it may have {limit}",
    hint="put the text into the page",
)
LINE_LOST = message(
    "line-lost",
    "MkDocs takes {lines} for a header, as `{key}:` opens the page, and would not show it",
    hint="open the page with a heading or an empty line",
    example="Feed: 120 mm/min\n\nThe plate is faced first.\n",
)

# What MkDocs and its themes read from such lines: with nothing else, they are meant as a header.
SITE_KEYS = frozenset(
    "title template description author authors date tags hide search icon status subtitle"
    " comments keywords image robots".split()
)
# As MkDocs has them: a key opens a header line, and an indented line goes on with its value.
_KEY = re.compile(r"[ ]{0,3}([A-Za-z0-9_-]+):")
_MORE = re.compile(r"(?:[ ]{4}|\t)")
_CLOSING = re.compile(r"(?:-{3}|\.{3})[ \t]*")
_MARK = re.compile(r"[^\S\n]*([&*][^\s,\[\]{}]*)")


Run = list[tuple[int, str]]
"""Lines of prose with their indexes; what is no prose in them is blank."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A mistake with its line in the file, its column and its width."""

    mistake: Mistake
    line: int
    column: int
    width: int


@dataclass(slots=True)
class Header:
    """What stands before a page's body."""

    values: dict[str, object] = field(default_factory=dict)
    lines: dict[str, int] = field(default_factory=dict)
    body_line: int = 1
    problems: list[Problem] = field(default_factory=list)


def normalised(text: str) -> str:
    r"""The text as MkDocs reads a file: without a byte order mark, every line end a newline.

    >>> normalised("\ufeffa\r\nb\rc")
    'a\nb\nc'
    """
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def read_header(path: str, lines: Sequence[str]) -> Header:
    """The header of a page and the line on which the body begins, as MkDocs finds them.

    A header that MkDocs would show as text is part of the body, and a problem.
    """
    reader = _Reader(path, lines)
    if lines[0].rstrip(" \t") == "---":
        reader.read_yaml()
    else:
        reader.skip_lost_lines()
    return reader.header


class _Reader:
    def __init__(self, path: str, lines: Sequence[str]) -> None:
        self.path = path
        self.lines = lines
        self.header = Header()

    def problem(self, mistake: Mistake, line: int, column: int = 1, width: int = 0) -> None:
        source = self.lines[line - 1]
        place = Place(self.path, line, column, width or max(1, len(source)), source)
        self.header.problems.append(mistake.at(place))

    def read_yaml(self) -> None:
        end = self._closing()
        if end is None:
            if len(self.lines) > 1 and _KEY.match(self.lines[1]):
                self.problem(Mistake(HEADER_UNCLOSED), 1)
            return
        text = "\n".join(self.lines[1:end]) + "\n"
        if len(text) > MAX_HEADER:
            self.problem(Mistake(HEADER_LARGE, size=len(text), limit=MAX_HEADER), 1)
            self._body_after(end)
            return
        try:
            with _placed(text):
                if not self._refuse(text):
                    self._take(text)
        except _Unread as error:
            self.problem(error.mistake, error.line + 2, error.column + 1)
            return
        self._body_after(end)

    def _closing(self) -> int | None:
        """The closing line. The first line after the opening one never closes, and the last
        line of a file only where a newline ends it: so MkDocs has it.
        """
        for number in range(2, len(self.lines) - 1):
            if _CLOSING.fullmatch(self.lines[number]):
                return number
        return None

    def _refuse(self, text: str) -> bool:
        """Whether the header holds what MkDocs reads and this does not, with the problem."""
        depth = 0
        for event in yaml.parse(text, Loader=yaml.SafeLoader):
            depth += isinstance(event, yaml.CollectionStartEvent)
            depth -= isinstance(event, yaml.CollectionEndEvent)
            mark = event.start_mark
            line, column = (mark.line, mark.column) if mark else (0, 0)
            if depth > MAX_HEADER_DEPTH:
                self.problem(Mistake(HEADER_DEEP, limit=MAX_HEADER_DEPTH), line + 2, column + 1, 1)
                return True
            if name := getattr(event, "anchor", None):
                shown = _MARK.match(self.lines[line + 1], column)
                sign = shown.group(1) if shown else f"&{name}"
                mistake = Mistake(HEADER_ALIAS, sign=sign)
                self.problem(mistake, line + 2, column + 1, len(sign))
                return True
        return False

    def _take(self, text: str) -> None:
        for key, line, value in _pairs(text):
            if key in self.header.lines:
                first = self.header.lines[key]
                self.problem(Mistake(HEADER_TWICE, key=key, first=first), line)
            self.header.values[key] = value
            self.header.lines[key] = line

    def skip_lost_lines(self) -> None:
        """Where there is no header, MkDocs takes `key: value` lines at the top for one."""
        count, key = 0, ""
        keys: set[str] = set()
        for line in self.lines:
            if not line.strip():
                count += 1
                break
            if begun := _KEY.match(line):
                key = key or begun.group(1)
                keys.add(begun.group(1).casefold())
            elif not (key and _MORE.match(line)):
                break
            count += 1
        if key and not keys <= SITE_KEYS:
            lost = sum(1 for line in self.lines[:count] if line.strip())
            lines = "this line" if lost == 1 else f"these {lost} lines"
            self.problem(Mistake(LINE_LOST, lines=lines, key=key), 1)
        self._body_after(count - 1)

    def _body_after(self, index: int) -> None:
        """The body begins after the line of this index and the empty lines that follow it."""
        index += 1
        while index < len(self.lines) - 1 and not self.lines[index]:
            index += 1
        self.header.body_line = index + 1


class _Unread(Exception):
    """A header that MkDocs would show as text: why, and where in the header's own lines."""

    def __init__(self, mistake: Mistake, line: int, column: int = 0) -> None:
        super().__init__(mistake, line, column)
        self.mistake, self.line, self.column = mistake, line, column


def _unreadable(why: str, line: int, column: int) -> _Unread:
    return _Unread(Mistake(HEADER_YAML, why=why), line, column)


def _pairs(text: str) -> list[tuple[str, int, object]]:
    """Each key of a header with its line in the file and its value; a date is a `date`."""
    loader = yaml.SafeLoader(text)
    node = loader.get_single_node()
    if not isinstance(node, yaml.MappingNode):
        raise _Unread(Mistake(HEADER_NOT_KEYS), -1)
    return [_pair(loader, key, value) for key, value in node.value]


def _pair(loader: yaml.SafeLoader, key: yaml.Node, value: yaml.Node) -> tuple[str, int, object]:
    mark = key.start_mark
    if not isinstance(key, yaml.ScalarNode):
        raise _unreadable("a key is a word", mark.line, mark.column)
    try:
        made: object = loader.construct_object(value, deep=True)
    except (ValueError, OverflowError, TypeError, KeyError, AttributeError) as error:
        # What PyYAML lets through of a value that is not what its tag says.
        mark = value.start_mark
        why = str(error) if isinstance(error, ValueError) else "the value is not what its tag says"
        raise _unreadable(why, mark.line, mark.column) from error
    return str(key.value), mark.line + 2, made


@contextmanager
def _placed(text: str) -> Iterator[None]:
    """Whatever YAML finds wrong, as the header's own mistake with its place."""
    try:
        yield
    except yaml.MarkedYAMLError as error:
        mark, last = error.problem_mark, text.count("\n") - 1
        if mark is None or mark.line > last:  # the end was met: what is open there is the place
            mark = error.context_mark
        line, column = (mark.line, mark.column) if mark and mark.line <= last else (last, 0)
        why = error.problem or error.context or "it is not YAML"
        raise _unreadable(why, line, column) from error
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position)
        column = error.position - (text.rfind("\n", 0, error.position) + 1)
        why = f"the character U+{ord(text[error.position]):04X} may not stand in it"
        raise _unreadable(why, line, column) from error
