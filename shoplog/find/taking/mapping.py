"""The mapping file: what the columns of a spreadsheet are, where their headings do not say it.

It is written to be filled in, and read strictly: whatever in it is not understood is a problem at
its line.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import yaml

from shoplog.find.clean import clean
from shoplog.find.taking.columns import SKIP, TARGETS, Target, fits
from shoplog.find.taking.days import DAY_ORDERS
from shoplog.find.taking.numbers import DECIMALS, unit_of
from shoplog.log import strict_yaml
from shoplog.log.setups.lines import clipped, nearest
from shoplog.outcomes import OUTCOMES
from shoplog.problems import Mistake, Place, Problem, message

__all__ = ["CHOICES", "Mapping", "outcome_word", "read_mapping"]

MOST_TEXT = 256 * 1024
MOST_DEPTH = 10
MOST_WORD = 100

LARGE = message(
    "mapping-large", "the mapping file has {size} characters; it may have {most}", example=""
)
UNREAD = message("mapping-yaml", "the mapping file cannot be read: {why}", example="")
REFERENCE = message(
    "mapping-alias",
    "`{sign}` is a YAML reference, which is not read here",
    hint="put a name that begins so in quotes",
    example="",
)
NOT_LINES = message("mapping-lines", "`{key}` is lines `name: text` below it", example="")
NOT_TEXT = message("mapping-text", "`{key}` is a text on its line", example="")
UNKNOWN = message("mapping-key", "`{key}` is not a key of a mapping file", example="")
TWICE = message(
    "mapping-twice",
    "`{key}` is given at line {line} already",
    hint="keep one of them",
    example="",
)
UNFILLED = message(
    "mapping-unfilled",
    "`{key}` is still to be filled in",
    hint="{wanted}",
    example="",
)
NO_TARGET = message("mapping-target", "`{text}` is nothing that a column can be", example="")
NO_UNIT = message(
    "mapping-unit",
    "`{text}` is no unit for {key}",
    hint="such as {units}",
    example="",
)
NEEDLESS = message("mapping-unit-needless", "{key} has no unit", example="")
NO_COLUMN = message("mapping-column", "the spreadsheet has no column `{name}`", example="")
CHOICE = message("mapping-choice", "`{key}` is {wanted}, and this is `{text}`", example="")

CHOICES = {"dates": DAY_ORDERS, "decimal": DECIMALS}
KEYS = ("columns", "outcomes", *CHOICES)


def outcome_word(text: str) -> str:
    """What a word of an outcome is known by."""
    return clean(text[:MOST_WORD]).strip().casefold()


@dataclass(slots=True)
class Mapping:
    """What a mapping file says."""

    columns: dict[str, tuple[Target, str]] = field(default_factory=dict)
    """The target and the unit of columns, by their headings."""
    outcomes: dict[str, str] = field(default_factory=dict)
    """The outcome that a word stands for, or `skip`, by what `outcome_word` makes of the word."""
    dates: str = ""
    decimal: str = ""


def read_mapping(
    path: Path, text: str, headings: tuple[str, ...]
) -> tuple[Mapping, tuple[Problem, ...]]:
    """Read a mapping file's text.

    Parameters
    ----------
    path : Path [-]
        As problems name it.
    text : str [-]
        What the file holds.
    headings : tuple of str [-]
        The columns that the spreadsheet has.

    Returns
    -------
    tuple [-]
        What it says, and every problem in it, in the order of its lines.
    """
    reader = _Reader(str(path), text, headings)
    reader.read()
    return reader.made, tuple(sorted(reader.problems, key=lambda one: one.place.line))


class _Reader:
    def __init__(self, path: str, text: str, headings: tuple[str, ...]) -> None:
        self.path, self.text, self.headings = path, text, headings
        self.lines = text.splitlines() or [""]
        self.made = Mapping()
        self.problems: list[Problem] = []

    def problem(self, mistake: Mistake, line: int, column: int = 0, width: int = 1) -> None:
        """Keep a mistake at a place that YAML counts from 0."""
        line = min(line, len(self.lines) - 1)
        source = self.lines[line]
        place = Place(self.path, line + 1, min(column, len(source)) + 1, max(1, width), source)
        self.problems.append(mistake.at(place))

    def wrong(self, mistake: Mistake, node: yaml.Node) -> None:
        start, end = node.start_mark, node.end_mark
        width = end.column - start.column if end.line == start.line else 1
        self.problem(mistake, start.line, start.column, width)

    def read(self) -> None:
        root = self._composed()
        if root is None:
            return
        for key, value in self._pairs("the mapping file", root):
            if key.value not in KEYS:
                hint = nearest(key.value, KEYS)
                self.wrong(Mistake(UNKNOWN, hint=hint, key=clipped(key.value)), key)
            elif key.value == "columns":
                for name, what in self._pairs("columns", value):
                    self._column(name, what)
            elif key.value == "outcomes":
                for word, what in self._pairs("outcomes", value):
                    found = self._choice(word.value, what, (*OUTCOMES, SKIP))
                    self.made.outcomes[outcome_word(word.value)] = found
            else:
                found = self._choice(key.value, value, CHOICES[key.value])
                setattr(self.made, key.value, found)

    def _composed(self) -> yaml.Node | None:
        if len(self.text) > MOST_TEXT:
            self.problem(Mistake(LARGE, size=len(self.text), most=MOST_TEXT), 0)
            return None
        try:
            return strict_yaml.compose(self.text, MOST_DEPTH)
        except strict_yaml.Unread as fault:
            self.problem(_mistake(fault), fault.line, fault.column)
            return None

    def _pairs(self, what: str, node: yaml.Node) -> Iterator[tuple[yaml.ScalarNode, yaml.Node]]:
        """The lines of a part of the file, each name once; an empty part has none."""
        if isinstance(node, yaml.ScalarNode) and not node.value:
            return
        if not isinstance(node, yaml.MappingNode):
            self.wrong(Mistake(NOT_LINES, key=what), node)
            return
        first: dict[str, int] = {}
        for key, value in node.value:
            if not isinstance(key, yaml.ScalarNode):
                self.wrong(Mistake(NOT_TEXT, key="a name"), key)
            elif key.value in first:
                mistake = Mistake(TWICE, key=clipped(key.value), line=first[key.value])
                self.wrong(mistake, key)
            else:
                first[key.value] = key.start_mark.line + 1
                yield key, value

    def _scalar(self, key: str, node: yaml.Node, wanted: str) -> str:
        """The text of a line; a problem and nothing where it has none."""
        if not isinstance(node, yaml.ScalarNode):
            self.wrong(Mistake(NOT_TEXT, key=clipped(key)), node)
            return ""
        if not node.value.strip():
            self.wrong(Mistake(UNFILLED, key=clipped(key), wanted=wanted), node)
        return str(node.value).strip()

    def _choice(self, key: str, node: yaml.Node, choices: tuple[str, ...]) -> str:
        wanted = f"one of {', '.join(choices)}"
        text = self._scalar(key, node, wanted)
        if text and text.casefold() not in choices:
            hint = nearest(text, choices)
            data = {"key": clipped(key), "wanted": wanted, "text": clipped(text)}
            self.wrong(Mistake(CHOICE, None, hint=hint, **data), node)
        return text.casefold()

    def _column(self, name: yaml.ScalarNode, node: yaml.Node) -> None:
        if name.value not in self.headings:
            hint = nearest(name.value, self.headings)
            self.wrong(Mistake(NO_COLUMN, hint=hint, name=clipped(name.value)), name)
            return
        wanted = f"a key of a setup, remarks, or {SKIP}"
        text = self._scalar(name.value, node, wanted)
        if not text:
            return
        called, comma, named_unit = text.partition(",")
        target = TARGETS.get(" ".join(called.casefold().split()))
        if target is None:
            hint = nearest(called.strip(), TARGETS)
            self.wrong(Mistake(NO_TARGET, hint=hint, text=clipped(called.strip())), node)
            return
        found = self._unit(name.value, target, named_unit.strip(), node) if comma else ""
        self.made.columns[name.value] = target, found

    def _unit(self, name: str, target: Target, text: str, node: yaml.Node) -> str:
        found = unit_of(text)
        units = ", ".join(target.units)
        if not target.units:
            self.wrong(Mistake(NEEDLESS, key=target.name), node)
        elif not text:
            self.wrong(Mistake(UNFILLED, key=clipped(name), wanted=f"its unit, {units}"), node)
        elif not found or not fits(found, target.units):
            self.wrong(Mistake(NO_UNIT, text=clipped(text), key=target.name, units=units), node)
        return found


def _mistake(fault: strict_yaml.Unread) -> Mistake:
    match fault:
        case strict_yaml.Reference():
            return Mistake(REFERENCE, sign=clipped(fault.sign))
        case strict_yaml.Unreadable():
            return Mistake(UNREAD, why=fault.why)
        case _:
            return Mistake(UNREAD, why="lists and keys are nested too deeply")
