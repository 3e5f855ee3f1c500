"""What is wrong, and where: the three grades, places, and the catalogue of messages.

A message is declared once, beside the code that gives it, with an input that causes it. The same
catalogue is the guide's list of mistakes and the test that every message can be met.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from difflib import get_close_matches
from enum import StrEnum

__all__ = [
    "CATALOGUE",
    "Grade",
    "Message",
    "Mistake",
    "Place",
    "Problem",
    "Span",
    "counted",
    "message",
    "near",
]


def counted(number: int, word: str) -> str:
    """A number of things in words.

    >>> counted(1, "setup"), counted(12, "setup")
    ('1 setup', '12 setups')
    """
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


class Grade(StrEnum):
    """How much a finding weighs: only a problem fails a build."""

    PROBLEM = "problem"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Span:
    """Where something stands in a statement's text: offsets from its first character."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Place:
    """A place in a file as people count it: the first line is 1, the first column is 1."""

    path: str
    line: int
    column: int
    width: int = 1
    source: str = ""

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding, at its place; `also` are the other places that it is about."""

    grade: Grade
    code: str
    message: str
    place: Place
    hint: str = ""
    also: tuple[Place, ...] = ()

    def __str__(self) -> str:
        return self.line

    @property
    def line(self) -> str:
        """The finding in one line, as a compiler prints it."""
        grade = "" if self.grade is Grade.PROBLEM else f"{self.grade}: "
        hint = f" ({self.hint})" if self.hint else ""
        also = "".join(f" [see {place}]" for place in self.also)
        return f"{self.place}: {grade}{self.message}{hint}{also}"

    @property
    def text(self) -> str:
        """The finding in full: its line, the author's line with a caret, and the hint."""
        grade = "" if self.grade is Grade.PROBLEM else f"{self.grade}: "
        lines = [f"{self.place}: {grade}{self.message}"]
        if self.place.source:
            shown, column = _around(self.place)
            caret = "^" * max(1, min(self.place.width, len(shown) - column + 1))
            lines += [f"    {shown}", f"    {' ' * (column - 1)}{caret}"]
        if self.hint:
            lines.append(f"  hint: {self.hint}")
        lines += [f"  see also {place}" for place in self.also]
        return "\n".join(lines)


MOST_AROUND = 100
"""Characters of the author's line that are shown either side of a fault."""


def _around(place: Place) -> tuple[str, int]:
    """The author's line, cut to what stands around the fault, and the fault's column in it.

    A line may have a million characters, and as many faults.
    """
    shown = place.source.replace("\t", " ")
    column = place.column
    end = column - 1 + place.width + MOST_AROUND
    if len(shown) > end:
        shown = f"{shown[: min(end, column + 2 * MOST_AROUND)]}…"
    ahead = column - 1 - MOST_AROUND
    if ahead > 0:
        return f"…{shown[ahead:]}", column - ahead + 1
    return shown, column


@dataclass(frozen=True, slots=True)
class Message:
    """A message of the catalogue: its text and hint are formats, filled when it is given."""

    code: str
    text: str
    hint: str = ""
    example: str = ""
    grade: Grade = Grade.PROBLEM


CATALOGUE: dict[str, Message] = {}


def message(
    code: str, text: str, *, hint: str = "", example: str = "", grade: Grade = Grade.PROBLEM
) -> Message:
    """Declare a message; `example` is an input that causes it, which the tests run."""
    if code in CATALOGUE:
        raise ValueError(f"the message {code!r} is declared twice")
    CATALOGUE[code] = made = Message(code, text, hint, example, grade)
    return made


class Mistake(Exception):
    """A message with its data, raised where the mistake is met and placed where it is caught."""

    def __init__(
        self, message: Message, span: Span | None = None, *, hint: str | None = None, **data: object
    ) -> None:
        super().__init__(message, span, hint, data)
        self.message = message
        self.span = span
        self.data = data
        self._hint = hint

    @property
    def hint(self) -> str:
        """The near hint: the one given where it was raised, else the catalogue's."""
        return self.message.hint.format(**self.data) if self._hint is None else self._hint

    def __str__(self) -> str:
        return self.message.text.format(**self.data)

    def at(self, place: Place, *also: Place) -> Problem:
        """The finding that this mistake is, at a place."""
        return Problem(
            self.message.grade, self.message.code, str(self), place, self.hint, tuple(also)
        )


def near(word: str, known: Iterable[str]) -> str:
    """The known word nearest to a misspelt one, or nothing.

    >>> near("dimeter", ["diameter", "feed"])
    'diameter'
    """
    names = {name.casefold(): name for name in known}
    found = get_close_matches(word.casefold(), names, n=1, cutoff=0.7)
    return names[found[0]] if found else ""


def regrade(problem: Problem, grade: Grade) -> Problem:
    """The same finding at another grade: history that would be a problem as a plan, say."""
    return replace(problem, grade=grade)
