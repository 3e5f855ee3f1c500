"""The raw text of a page file: its lines, its header, and the line on which its body begins.

MkDocs reads the header with a reader of its own that is silent about mistakes. What is read here
is what it reads, and where it would keep silent there is a problem.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

import yaml

from shoplog.log import strict_yaml
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
            if not self._take(text):
                return
        except strict_yaml.Unreadable as fault:
            self.problem(Mistake(HEADER_YAML, why=fault.why), fault.line + 2, fault.column + 1)
            return
        except strict_yaml.Reference as fault:
            mistake = Mistake(HEADER_ALIAS, sign=fault.sign)
            self.problem(mistake, fault.line + 2, fault.column + 1, fault.width)
        except strict_yaml.TooDeep as fault:
            mistake = Mistake(HEADER_DEEP, limit=MAX_HEADER_DEPTH)
            self.problem(mistake, fault.line + 2, fault.column + 1, fault.width)
        self._body_after(end)

    def _closing(self) -> int | None:
        """The closing line. The first line after the opening one never closes, and the last
        line of a file only where a newline ends it: so MkDocs has it.
        """
        for number in range(2, len(self.lines) - 1):
            if _CLOSING.fullmatch(self.lines[number]):
                return number
        return None

    def _take(self, text: str) -> bool:
        """Take what the header gives; whether it is one."""
        node = strict_yaml.compose(text, MAX_HEADER_DEPTH)
        if not isinstance(node, yaml.MappingNode):
            self.problem(Mistake(HEADER_NOT_KEYS), 1)
            return False
        loader = yaml.SafeLoader("")
        for key, line, value in [_pair(loader, key, value) for key, value in node.value]:
            if key in self.header.lines:
                first = self.header.lines[key]
                self.problem(Mistake(HEADER_TWICE, key=key, first=first), line)
            self.header.values[key] = value
            self.header.lines[key] = line
        return True

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


def _pair(loader: yaml.SafeLoader, key: yaml.Node, value: yaml.Node) -> tuple[str, int, object]:
    """A key of a header with its line in the file and its value; a date is a `date`."""
    mark = key.start_mark
    if not isinstance(key, yaml.ScalarNode):
        raise strict_yaml.Unreadable("a key is a word", mark.line, mark.column)
    try:
        made: object = loader.construct_object(value, deep=True)
    except (ValueError, OverflowError, TypeError, KeyError, AttributeError) as error:
        # What PyYAML lets through of a value that is not what its tag says.
        mark = value.start_mark
        why = str(error) if isinstance(error, ValueError) else "the value is not what its tag says"
        raise strict_yaml.Unreadable(why, mark.line, mark.column) from error
    except yaml.MarkedYAMLError as error:  # a tag that no constructor knows
        mark = error.problem_mark or value.start_mark
        raise strict_yaml.Unreadable(error.problem or "", mark.line, mark.column) from error
    return str(key.value), mark.line + 2, made
