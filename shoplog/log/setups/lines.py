"""The lines of a setup block, split into keys and texts.

A line is `key: rest of the line`, and nothing is read into the rest here: it stays text until its
key reads it. Lines under `planned:` and `ran:` are indented; a comment is a line that begins with a
`#`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from shoplog.log.blocks import Line
from shoplog.log.setups.keys import SETUP_KEYS, Reads
from shoplog.problems import Mistake, Place, Problem, message, near

__all__ = ["Entry", "Section", "SetupLines", "clipped", "nearest", "place", "read_lines"]

MOST_LINES = 1000
MOST_KEY = 40
"""Characters of a key that is looked at for a near hint, and that a message shows."""
TAB_STOP = 4

NO_COLON = message(
    "setup-colon",
    "a line of a setup is `key: text`, and this one has no colon",
    example="```setup\nfeed 0.1 mm/rev\n```\n",
)
NO_KEY = message(
    "setup-key-missing",
    "no key stands before the colon",
    hint="a line of a setup is `key: text`",
    example="```setup\n: 16 mm\n```\n",
)
UNKNOWN_KEY = message(
    "setup-key", "`{key}` is not a key of a setup", example="```setup\ndimeter: 16 mm\n```\n"
)
KEY_TWICE = message(
    "setup-key-twice",
    "`{key}` is given at line {line} already",
    hint="keep one of them",
    example="```setup\nstep: 1\nstep: 2\n```\n",
)
KEY_PLACE = message(
    "setup-key-place",
    "`{key}` stands {where}, and here it stands {here}",
    example="```setup\nfeed: 0.1 mm/rev\n```\n",
)
EMPTY = message(
    "setup-empty",
    "`{key}` has no value",
    hint="leave the line out until there is one",
    example="```setup\noutcome:\n```\n",
)
SECTION_TEXT = message(
    "setup-section-text",
    "nothing stands after `{key}:` on its line",
    hint="write a line `key: text` below it, indented",
    example="```setup\nran: 1180 rpm\n  feed: by hand\n```\n",
)
SECTION_EMPTY = message(
    "setup-section-empty",
    "no line stands under `{key}:`",
    hint="its lines are indented; leave it out until there is one",
    example="```setup\nplanned:\nstep: 1\n```\n",
)
INDENT = message(
    "setup-indent",
    "this line is indented by {found}, and the first one under `{key}:` by {wanted}",
    hint="begin the lines under `{key}:` in one column",
    example="```setup\nran:\n  speed: 600 rpm\n    feed: by hand\n```\n",
)
INDENT_ALONE = message(
    "setup-indent-alone",
    "this line is indented, and stands under neither `planned:` nor `ran:`",
    hint="a value ends with its line",
    example="```setup\nstep: 1\n  feature: journal\n```\n",
)
LINES = message(
    "setup-lines",
    "a setup has {most} lines at most, and this one has {found}; those from here on are not read",
    example="```setup\n" + "# more\n" * 1000 + "step: 1\n```\n",
)


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of a setup: its key and its text, and the offset of the text in the line."""

    key: str
    text: str
    line: Line
    offset: int
    good: bool = True
    """Whether its key may stand here and has a text; if not, the text is kept and not read."""


@dataclass(slots=True)
class Section:
    """The lines of one place: those of the setup itself, or those under `planned:` or `ran:`."""

    kind: str
    line: int
    entries: dict[str, Entry] = field(default_factory=dict)
    head: Line | None = None
    """The line that opens it; the setup itself has none."""


@dataclass(slots=True)
class SetupLines:
    """A setup block, split. A second `planned:` is a problem, and its lines are in `spare`."""

    top: Section
    planned: Section | None = None
    ran: list[Section] = field(default_factory=list)
    spare: list[Section] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


_INDENT = re.compile(r"[ \t\u00a0]*")


def read_lines(lines: Sequence[Line], path: str) -> SetupLines:
    """Split the lines of a setup block by their keys; each mistake is a problem at its place."""
    reader = _Reader(path)
    told = [line for line in lines[:MOST_LINES] if _content(line.text)]
    margin = min((_columns(line.text) for line in told), default=0)
    for line in told:
        reader.take(line, _columns(line.text) - margin)
    reader.close()
    if len(lines) > MOST_LINES:
        mistake = Mistake(LINES, most=MOST_LINES, found=len(lines))
        reader.problem(mistake, lines[MOST_LINES])
    return reader.made


def place(path: str, line: Line, start: int = 0, end: int | None = None) -> Place:
    """The place of a part of a line; of all that it holds where no end is given."""
    end = len(line.text.rstrip()) if end is None else end
    source = " " * (line.column - 1) + line.text.rstrip()
    return Place(path, line.number, line.column + start, max(1, end - start), source)


def clipped(text: str) -> str:
    r"""A text as a message shows it: not too long, and with no sign that could turn the line.

    >>> clipped("a\u202eb")
    'a\\u202eb'
    """
    short = text if len(text) <= MOST_KEY else f"{text[: MOST_KEY - 1]}…"
    return "".join(
        sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in short
    )


def nearest(word: str, known: Iterable[str]) -> str:
    """A near hint, or nothing; a long word is near to none."""
    found = near(word, known) if len(word) <= MOST_KEY else ""
    return f"did you mean {found}?" if found else ""


def _content(text: str) -> str:
    text = text.strip()
    return "" if text.startswith("#") else text


def _columns(text: str) -> int:
    """How many columns a line is indented by."""
    found = _INDENT.match(text)
    return len(found.group().expandtabs(TAB_STOP)) if found else 0


class _Reader:
    def __init__(self, path: str) -> None:
        self.path = path
        self.made = SetupLines(Section("setup", 0))
        self.open: Section | None = None
        self.opened_at: Line | None = None
        self.indent = 0
        self.lines: dict[tuple[int, str], Line] = {}

    def problem(self, mistake: Mistake, line: Line, start: int = 0, end: int | None = None) -> None:
        self.made.problems.append(mistake.at(place(self.path, line, start, end)))

    def take(self, line: Line, indent: int) -> None:
        start = len(line.text) - len(line.text.lstrip())
        section = self._section(line, indent, start)
        head, colon, rest = line.text.rstrip().partition(":")
        key = head.strip()
        if not colon:
            self.problem(Mistake(NO_COLON, hint=_colon_hint(key)), line, start)
        elif not key:
            self.problem(Mistake(NO_KEY), line, start, start + 1)
        else:
            text = rest.strip()
            offset = len(head) + 1 + len(rest) - len(rest.lstrip())
            self._enter(section, Entry(key, text, line, offset), start)

    def _section(self, line: Line, indent: int, start: int) -> Section:
        """The place that a line belongs to by its indent."""
        if indent == 0:
            self.close()
            return self.made.top
        if self.open is None:
            self.problem(Mistake(INDENT_ALONE), line, start)
            return self.made.top
        if not self.indent:
            self.indent = indent
        elif indent != self.indent:
            mistake = Mistake(INDENT, found=indent, wanted=self.indent, key=self.open.kind)
            self.problem(mistake, line, start)
        return self.open

    def _enter(self, section: Section, entry: Entry, start: int) -> None:
        mistake = self._key_mistake(section, entry)
        declared = SETUP_KEYS.get(entry.key)
        first = self.lines.setdefault((id(section), entry.key), entry.line)
        end = start + len(entry.key)
        if mistake:
            self.problem(mistake, entry.line, start, end)
        elif declared and declared.reads is Reads.LINES:
            self._open(entry, start, end)
            return
        elif first is not entry.line:
            self._twice(entry, first, start, end)
            return
        elif not entry.text:
            self.problem(Mistake(EMPTY, key=entry.key), entry.line, start)
        good = not mistake and bool(entry.text)
        made = Entry(entry.key, entry.text, entry.line, entry.offset, good)
        section.entries.setdefault(entry.key, made)

    def _key_mistake(self, section: Section, entry: Entry) -> Mistake | None:
        declared = SETUP_KEYS.get(entry.key)
        if declared is None:
            hint = nearest(" ".join(entry.key.replace("_", " ").split()), SETUP_KEYS)
            return Mistake(UNKNOWN_KEY, hint=hint, key=clipped(entry.key))
        if section.kind in declared.where:
            return None
        here = "at the margin" if section.kind == "setup" else f"under `{section.kind}:`"
        return Mistake(KEY_PLACE, key=entry.key, where=declared.stands, here=here)

    def _twice(self, entry: Entry, first: Line, start: int, end: int) -> None:
        mistake = Mistake(KEY_TWICE, key=entry.key, line=first.number)
        before = len(first.text) - len(first.text.lstrip())
        at = place(self.path, entry.line, start, end)
        also = place(self.path, first, before, before + len(entry.key))
        self.made.problems.append(mistake.at(at, also))

    def _open(self, entry: Entry, start: int, end: int) -> None:
        section = Section(entry.key, entry.line.number, head=entry.line)
        if entry.text:
            self.problem(Mistake(SECTION_TEXT, key=entry.key), entry.line, entry.offset)
        if entry.key == "ran":
            self.made.ran.append(section)
        elif self.made.planned is None:
            self.made.planned = section
        else:
            self._twice(entry, self.lines[id(self.made.top), "planned"], start, end)
            self.made.spare.append(section)
        self.open, self.opened_at, self.indent = section, entry.line, 0

    def close(self) -> None:
        """End the lines under `planned:` or `ran:`; that there are none is a problem."""
        if self.open and self.opened_at and not self.indent:
            mistake = Mistake(SECTION_EMPTY, key=self.open.kind)
            start = len(self.opened_at.text) - len(self.opened_at.text.lstrip())
            self.problem(mistake, self.opened_at, start, start + len(self.open.kind))
        self.open = None


def _colon_hint(text: str) -> str:
    key = next((key for key in SETUP_KEYS if text.startswith(f"{key} ")), "")
    rest = text[len(key) :].strip()
    return f"write {key}: {clipped(rest)}" if key else "put a colon after its key"
