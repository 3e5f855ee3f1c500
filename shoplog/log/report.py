"""A page of the log as it came out: what rendering, the command and the index read."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from shoplog.calc.past_record import PastSetup
from shoplog.calc.results import CheckResult, Item, MateResult, PageValue, Result
from shoplog.log.blocks import Block, PageSource
from shoplog.problems import Grade, Problem
from shoplog.trade.judging.judging_record import JudgedCut

__all__ = [
    "BlockReport",
    "Derived",
    "PageReport",
    "ProseReport",
    "Repeats",
    "Run",
    "SetupField",
    "SetupReport",
]


@dataclass(frozen=True, slots=True)
class SetupField:
    """A line of a setup block: its key, its text as written, and its value where it has one."""

    key: str
    text: str
    line: int
    value: PageValue | None = None
    waits: str = ""
    """The name that its value waits for, which could not be worked out."""


@dataclass(frozen=True, slots=True)
class Derived:
    """A figure worked out from a run: `cutting speed`, `feed per tooth`, `removal rate`."""

    label: str
    value: PageValue
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Run:
    """What was planned, or one of the times that it ran."""

    kind: str
    """`planned` or `ran`."""
    line: int
    fields: dict[str, SetupField]
    derived: tuple[Derived, ...] = ()
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    judged: JudgedCut | None = None
    """What gives way first, where it could be judged."""


@dataclass(frozen=True, slots=True)
class Repeats:
    """That a setup does again what went poorly before."""

    message: str
    """All of it in one line."""
    poorly: PastSetup
    """What went poorly."""
    well: PastSetup | None = None
    """What near it went well, where something did."""
    material: str = ""
    """What it was in, where that was another material of the group."""


@dataclass(frozen=True, slots=True)
class SetupReport:
    """A setup block, read: the fields above `planned:`, and the runs in the order written."""

    fields: dict[str, SetupField]
    planned: Run | None
    ran: tuple[Run, ...]
    notes: tuple[str, ...] = ()
    anchor: str = ""
    """Its id on the page: `setup`, `setup-2`; private ones are counted too, so that a setup that is
    made private moves no link to another."""
    repeats: Repeats | None = None


@dataclass(frozen=True, slots=True)
class BlockReport:
    """A block as it came out: items of a calculation block, or a setup; and what is wrong in it."""

    block: Block
    items: tuple[Item, ...] = ()
    setup: SetupReport | None = None
    problems: tuple[Problem, ...] = ()
    """Of all three grades; those of its items too."""

    @property
    def private(self) -> bool:
        """Whether it is kept off the site. A word that is not `no` is taken for yes."""
        if self.block.kind != "setup":
            return False
        lines = (line.text.partition(":") for line in self.block.lines)
        return any(
            key.strip().casefold() == "private" and text.strip().casefold() != "no"
            for key, _, text in lines
        )


@dataclass(frozen=True, slots=True)
class ProseReport:
    """A value in a sentence: what it is, or why it is not."""

    expression: str
    value: PageValue | None
    problem: Problem | None = None


@dataclass(frozen=True, slots=True)
class PageReport:
    """A page as it came out. `problems` holds every finding of the page, in the file's order."""

    source: PageSource
    path: str
    """As problems name it."""
    part: str
    project: str
    blocks: tuple[BlockReport, ...]
    prose: dict[str, ProseReport] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    date: date | None = None
    """The day that its front matter gives."""
    records: bool = True
    """Whether its setups are kept as records."""
    made: int | None = None
    """How many are made, where its front matter says so."""

    @property
    def title(self) -> str:
        """Its first heading, or nothing."""
        for line in self.source.lines[self.source.body_line - 1 :]:
            if line.startswith(("```", "~~~")):
                break
            if line.startswith("# "):
                return line[2:].strip()
        return ""

    @property
    def results(self) -> tuple[Result, ...]:
        """The named values, in order."""
        items = (item for block in self.blocks for item in block.items)
        return tuple(item for item in items if isinstance(item, Result))

    @property
    def checks(self) -> tuple[CheckResult | MateResult, ...]:
        """The checks and mates, in order."""
        items = (item for block in self.blocks for item in block.items)
        return tuple(item for item in items if isinstance(item, CheckResult | MateResult))

    def count(self, grade: Grade) -> int:
        """How many findings of a grade the page has."""
        return sum(problem.grade is grade for problem in self.problems)
