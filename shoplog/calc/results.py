"""What evaluation gives, in the order of the page: rendering and the index depend on these only."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import Any

from shoplog.calc import tree as t
from shoplog.calc.statements import Statement
from shoplog.problems import Place, Problem
from shoplog.trade.declare import Offer
from shoplog.values import Hardness, Value

__all__ = [
    "CheckResult",
    "ConcessionResult",
    "DrawResult",
    "FormulaUse",
    "Item",
    "MateResult",
    "MeasuredResult",
    "NotMeasured",
    "Operand",
    "PageValue",
    "Result",
    "Truth",
    "Unworked",
    "UseResult",
    "Verdict",
    "Working",
]

# Any other object is a record that a formula gave: a frozen dataclass of shoplog.trade.
PageValue = Value | Hardness | bool | str | tuple[Any, ...] | Any


class Truth(Enum):
    """Whether a condition holds over the whole range of what it compares."""

    YES = "holds"
    NO = "does not hold"
    SOMETIMES = "holds for some of the sizes only"

    def __invert__(self) -> Truth:
        return {Truth.YES: Truth.NO, Truth.NO: Truth.YES}.get(self, Truth.SOMETIMES)


class Verdict(Enum):
    """What a measured size is to the wanted one."""

    IN = "in"
    OUT = "out"
    CANNOT_TELL = "cannot tell"
    NOT_ASKED = "no limits asked"


@dataclass(frozen=True, slots=True)
class NotMeasured:
    """The place of a numbered piece that has no reading, in the list of those that have."""

    piece: int

    def describe(self) -> str:
        """In words."""
        return "not measured"


@dataclass(frozen=True, slots=True)
class FormulaUse:
    """A formula as it was called: its arguments in its own units, and what it gave."""

    offer: Offer
    arguments: dict[str, PageValue]
    result: PageValue
    span_start: int


@dataclass(slots=True)
class Working:
    """What was met on the way to a value: kept so that its steps can be shown on demand."""

    names: dict[str, PageValue] = field(default_factory=dict)
    """Values read, by the name as written: `bore`, `shaft.journal`."""
    formulas: list[FormulaUse] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)

    def note(self, text: str) -> None:
        """Keep a note once."""
        if text not in self.notes:
            self.notes.append(text)


@dataclass(frozen=True, slots=True)
class Result:
    """A named value."""

    statement: Statement
    name: str
    value: PageValue
    expression: t.Node
    working: Working
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Operand:
    """A side of a check or a mate: as written, and what it is."""

    text: str
    value: PageValue


@dataclass(frozen=True, slots=True)
class CheckResult:
    """A stated condition; `conceded` is the reason of the concession that lets it pass."""

    statement: Statement
    condition: t.Node
    truth: Truth
    sides: tuple[Operand, ...]
    working: Working
    conceded: str = ""
    problems: tuple[Problem, ...] = ()
    mirrors: tuple[Place, ...] = ()
    """Where the other pages' names that it read are given: a failure is shown there too."""

    @property
    def passes(self) -> bool:
        """Whether it counts as held."""
        return self.truth is Truth.YES or bool(self.conceded)


@dataclass(frozen=True, slots=True)
class MateResult:
    """Two things meant to go together; `fit` is the record that says how, where there is one."""

    statement: Statement
    one: Operand
    other: Operand
    asked: str
    found: str
    fit: Any = None
    fault: str = ""
    conceded: str = ""
    working: Working = field(default_factory=Working)
    problems: tuple[Problem, ...] = ()
    mirrors: tuple[Place, ...] = ()

    @property
    def passes(self) -> bool:
        """Whether it counts as mating."""
        return not self.fault or bool(self.conceded)


@dataclass(frozen=True, slots=True)
class MeasuredResult:
    """A reading, beside what was wanted."""

    statement: Statement
    name: str
    label: str
    piece: int | None
    value: PageValue
    wanted: PageValue | None
    verdict: Verdict
    working: Working
    conceded: str = ""
    problems: tuple[Problem, ...] = ()
    counts: bool = True
    """Whether it is the last reading; an earlier one is history, and no problem."""


@dataclass(frozen=True, slots=True)
class ConcessionResult:
    """A stated, reasoned deviation."""

    statement: Statement
    name: str
    reason: str
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawResult:
    """A value to be drawn."""

    statement: Statement
    text: str
    value: PageValue
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class UseResult:
    """Another project's page, under a name of this page."""

    statement: Statement
    name: str
    page: str
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Unworked:
    """A statement that could not be worked out: wrong itself, or waiting for one that is."""

    statement: Statement
    problems: tuple[Problem, ...]
    waits_for: str = ""
    name: str = ""
    mirrors: tuple[Place, ...] = ()


Item = (
    Result
    | CheckResult
    | MateResult
    | MeasuredResult
    | ConcessionResult
    | DrawResult
    | UseResult
    | Unworked
)
