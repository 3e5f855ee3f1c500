"""What each column of a sheet becomes: by the mapping file, else by its heading and its cells.

What neither tells is asked, in a mapping file that is written to be filled in.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from shoplog.find.clean import clean, clipped
from shoplog.find.export import unguarded
from shoplog.find.taking.columns import PLANNED, SKIP, TARGETS, Guess, Target, heading_guess
from shoplog.find.taking.days import day_order
from shoplog.find.taking.mapping import CHOICES, Mapping, outcome_word
from shoplog.find.taking.numbers import decimal_sign, has_unit, is_doubtful
from shoplog.find.taking.sheet import Sheet
from shoplog.log.setups.keys import Reads
from shoplog.outcomes import OUTCOMES

__all__ = ["BLANKS", "Column", "Plan", "Question", "asked_lines", "mapping_text", "plan"]

BLANKS = frozenset(("", "-", "–", "—", "?", "n/a", "na", "#n/a"))
"""What stands in a cell of numbers or days that says nothing."""
MOST_LOOKED_AT = 100
"""Characters of a cell that is looked at before its column is known."""
MOST_WORDS = 40
MOST_SAMPLES = 3
MOST_SAMPLE = 24


@dataclass(frozen=True, slots=True)
class Column:
    """A column: what it becomes, the unit of its cells, and how its numbers are meant."""

    index: int
    heading: str
    target: Target
    unit: str = ""
    decimal: str = ""
    named: bool = False
    """Whether its heading stands before its text, in the remarks."""

    @property
    def told(self) -> str:
        """What it becomes, as a mapping file says it."""
        return f"{self.target.name}, {self.unit}" if self.unit else self.target.name


@dataclass(frozen=True, slots=True)
class Question:
    """What could not be told: of which column or word, why, and the line of the mapping file."""

    about: str
    part: str
    """`columns`, `outcomes`, `dates` or `decimal`."""
    why: str
    given: str = ""
    """What is known already, for the line that asks."""


@dataclass(slots=True)
class Plan:
    """What every column becomes, and what is asked first."""

    columns: list[Column] = field(default_factory=list)
    outcomes: dict[str, str] = field(default_factory=dict)
    dates: str = ""
    own: bool = False
    """Whether the sheet is our own export."""
    empty: list[str] = field(default_factory=list)
    """Columns with nothing in them."""
    questions: list[Question] = field(default_factory=list)

    @property
    def used(self) -> list[Column]:
        """The columns that become something."""
        return [column for column in self.columns if column.target.name != SKIP]


@dataclass(slots=True)
class _Cells:
    """What stands in a column: each text once, in the order met."""

    texts: dict[str, None] = field(default_factory=dict)
    some: bool = False

    def take(self, cell: str) -> None:
        text = unguarded(cell.strip())[:MOST_LOOKED_AT]
        if text:
            self.some = True
            self.texts[text] = None

    @property
    def said(self) -> list[str]:
        """The texts that say something where a number or a day is wanted."""
        return [text for text in self.texts if text.casefold() not in BLANKS]

    @property
    def samples(self) -> str:
        shown = [clipped(clean(text), MOST_SAMPLE) for text in list(self.texts)[:MOST_SAMPLES]]
        return ", ".join(shown)


def plan(sheet: Sheet, mapping: Mapping | None) -> Plan:
    """What the columns of a sheet become; see `Plan.questions` for what is asked first."""
    cells = [_Cells() for _ in sheet.headings]
    for row in sheet.body():
        for one, cell in zip(cells, row.cells, strict=False):
            one.take(cell)
    return _Planner(sheet, mapping or Mapping(), cells).plan()


class _Planner:
    def __init__(self, sheet: Sheet, mapping: Mapping, cells: list[_Cells]) -> None:
        self.sheet, self.mapping, self.cells = sheet, mapping, cells
        outcomes = {word: word for word in OUTCOMES} | mapping.outcomes
        self.made = Plan(outcomes=outcomes, own=sheet.own)

    def plan(self) -> Plan:
        guesses = {n: found for n, found in enumerate(self._guesses()) if found is not None}
        numbers = {n: self.cells[n].said for n, found in guesses.items() if _is_number(found)}
        whole = decimal_sign(text for texts in numbers.values() for text in texts)
        for index, guess in guesses.items():
            decimal = self.mapping.decimal or whole or decimal_sign(numbers.get(index, ()))
            self._column(index, guess, decimal)
        self._decimal(numbers, whole)
        self._days()
        self._outcomes()
        return self.made

    def _guesses(self) -> Iterator[Guess | None]:
        """What each column is; nothing for one that is empty."""
        for heading, cells in zip(self.sheet.headings, self.cells, strict=True):
            if not cells.some:
                self.made.empty.append(heading)
                yield None
            elif heading in self.mapping.columns:
                yield Guess(*self.mapping.columns[heading])
            else:
                yield heading_guess(heading, self.sheet.own)

    def _column(self, index: int, guess: Guess, decimal: str) -> None:
        heading, cells = self.sheet.headings[index], self.cells[index]
        target, mapped = guess.target, heading in self.mapping.columns
        if target is None:
            self._ask(heading, "columns", f"it could not be told what it is: {cells.samples}")
            return
        same = [one.heading for one in self.made.columns if one.target == target]
        alone = not target.units and target.name not in (SKIP, "remarks")
        if same and alone and not mapped:
            why = f"`{same[0]}` is {target.name} already: {cells.samples}"
            self._ask(heading, "columns", why)
            return
        bare = target.units and not guess.unit and not mapped
        if bare and not all(has_unit(text) for text in cells.said):
            units = ", ".join(target.units)
            why = f"its unit ({units}) is not said: {cells.samples}"
            self._ask(heading, "columns", why, f"{target.name},")
            return
        named = mapped and target.name == "remarks" and not _says_remarks(heading)
        self.made.columns.append(Column(index, heading, target, guess.unit, decimal, named))

    def _ask(self, about: str, part: str, why: str, given: str = "") -> None:
        self.made.questions.append(Question(clean(about), part, clean(why), given))

    def _decimal(self, numbers: dict[int, list[str]], whole: str) -> None:
        """Ask for the decimal sign where a number may be read in two ways and nothing tells."""
        if self.mapping.decimal or whole:
            return
        doubtful = [text for texts in numbers.values() for text in texts if is_doubtful(text)]
        by_column = all(decimal_sign(texts) for texts in numbers.values() if _doubted(texts))
        commas = any("," in text for text in doubtful)
        if not doubtful or by_column:
            return
        if commas or self.sheet.rows.separator != ",":
            shown = ", ".join(doubtful[:MOST_SAMPLES])
            self._ask("decimal", "decimal", f"is it a point or a comma in {shown}?")
            return
        self.made.columns = [
            Column(one.index, one.heading, one.target, one.unit, "point", one.named)
            for one in self.made.columns
        ]

    def _days(self) -> None:
        texts = [
            text
            for column in self.made.columns
            if column.target.reads is Reads.DATE
            for text in self.cells[column.index].said
        ]
        said, needed = day_order(texts)
        self.made.dates = self.mapping.dates or said
        if needed and not self.made.dates:
            shown = ", ".join(texts[:MOST_SAMPLES])
            self._ask("dates", "dates", f"does the day or the month come first in {shown}?")

    def _outcomes(self) -> None:
        for column in self.made.columns:
            if column.target.name != "outcome":
                continue
            words = {outcome_word(text): text for text in self.cells[column.index].said}
            unknown = [text for word, text in words.items() if word not in self.made.outcomes]
            if len(unknown) > MOST_WORDS:
                why = f"it holds {len(unknown)} different texts; it may rather be remarks"
                self._ask(column.heading, "columns", why)
                return
            for text in unknown:
                self._ask(text, "outcomes", "how well did it go?")


def _is_number(guess: Guess) -> bool:
    return guess.target is not None and guess.target.reads in (Reads.QUANTITY, Reads.WHOLE)


def _doubted(texts: Iterable[str]) -> bool:
    return any(map(is_doubtful, texts))


def _says_remarks(heading: str) -> bool:
    found = heading_guess(heading).target
    return found is not None and found.name == "remarks"


_PREFACE = """\
# How the columns of {name} become setups. Fill in what stands empty, then run the same command
# again. Nothing is taken before.
#
# A column is one of the names below. A quantity has the unit of its cells behind a comma, such as
# `diameter, in`; a cell that has a unit itself keeps it. Units are mm, cm, um, in, thou, ft; rpm;
# m/min, ft/min, m/s; mm/rev, in/rev, mm/tooth, in/tooth, mm/min, in/min.
# `remarks` keeps the text of any column behind its heading; `skip` leaves it out.
#
"""


def mapping_text(made: Plan, name: str) -> str:
    """The text of a mapping file: all that is known, and a line to fill in for each question."""
    again = {one.about for one in made.questions if one.part == "columns"}
    lines = [_PREFACE.format(name=clean(name)), *_names_in_comments(), "columns:\n"]
    lines += [
        f"  {_quoted(column.heading)}: {column.told}\n"
        for column in made.columns
        if column.heading not in again
    ]
    return "".join((*lines, *asked_lines(made, heads=_PARTS[1:])))


def asked_lines(made: Plan, heads: tuple[str, ...] = ()) -> Iterator[str]:
    """The lines of a mapping file that are to be filled in; `heads` are the parts to be opened."""
    heads = heads or _PARTS
    for part in _PARTS:
        asked = [one for one in made.questions if one.part == part]
        if part in CHOICES:
            choices = " or ".join(CHOICES[part])
            yield from (f"\n# {one.why}\n# {choices}\n{part}:\n" for one in asked)
        elif asked:
            if part in heads:
                yield f"\n# {_TOLD[part]}\n{part}:\n"
            yield from map(_line, asked)


_PARTS = ("columns", "outcomes", *CHOICES)
_TOLD = {
    "columns": "Each is a key of a setup with its unit behind a comma, or remarks, or skip.",
    "outcomes": f"Each is one of {', '.join(OUTCOMES)}, or {SKIP}.",
}


def _line(question: Question) -> str:
    given = f" {question.given}" if question.given else ""
    why = f"  # {question.why}\n" if question.part == "columns" else ""
    return f"{why}  {_quoted(question.about)}:{given}\n"


def _quoted(text: str) -> str:
    """A text as a YAML key, whatever it holds: a JSON text is one."""
    return json.dumps(clean(text), ensure_ascii=False)


def _names_in_comments() -> Iterator[str]:
    """Every name that a column may have, and what it is."""
    for name, target in TARGETS.items():
        if name.startswith(PLANNED):
            continue
        unit = f", {target.units[0]}" if target.units else ""
        plain = f"{name}{unit}"
        planned = " (or planned)" if PLANNED + name in TARGETS else ""
        yield f"#   {plain:<22}{target.doc}{planned}\n"
    yield "\n"
