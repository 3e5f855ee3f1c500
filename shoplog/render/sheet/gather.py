"""What a bench sheet says, gathered from a page report: sizes, work in order, tools, cautions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeGuard

from shoplog.calc.results import (
    CheckResult,
    ConcessionResult,
    DrawResult,
    Item,
    MateResult,
    PageValue,
    Result,
)
from shoplog.calc.show import Shown, show
from shoplog.log.profile.shop import ShopProfile
from shoplog.log.report import PageReport
from shoplog.log.titles import shown_title
from shoplog.problems import Grade
from shoplog.render.sheet.tools import tools_of
from shoplog.render.sheet.work import WorkLine, setups_in_order, work_of
from shoplog.render.values import one_line
from shoplog.values import Value

__all__ = ["Sheet", "SizeLine", "StatedLine", "ValueLine", "sheet_of"]

MOST_BOXES = 12
"""Boxes for as-measured sizes on a line; the sheet says so of a batch of more."""


@dataclass(frozen=True, slots=True)
class SizeLine:
    """A size with limits, and how many pieces it is measured on."""

    name: str
    shown: Shown
    note: str
    boxes: int
    asked: str
    """Its nominal, as a page would write it."""


@dataclass(frozen=True, slots=True)
class ValueLine:
    """Any other named value: a quantity in both systems, or a record by its own sentence."""

    name: str
    text: str
    note: str


@dataclass(frozen=True, slots=True)
class StatedLine:
    """A check or a mate: what is stated, how it stands, and whether it holds."""

    text: str
    how: str
    holds: bool
    mate: bool


@dataclass(frozen=True, slots=True)
class Sheet:
    """A bench sheet, ready to be laid out."""

    title: str
    path: str
    """Where its file is, as problems name it."""
    page: str
    """The page within its log, which is the same wherever the sheet was made."""
    part: str
    made: int | None
    date: str
    materials: tuple[str, ...]
    sizes: tuple[SizeLine, ...]
    values: tuple[ValueLine, ...]
    work: tuple[WorkLine, ...]
    tools: tuple[str, ...]
    stated: tuple[StatedLine, ...]
    concessions: tuple[tuple[str, str], ...]
    drawn: tuple[tuple[str, PageValue], ...]
    cautions: tuple[str, ...]
    problems: int


def sheet_of(report: PageReport, shop: ShopProfile | None = None, page: str = "") -> Sheet:
    """The bench sheet of a page.

    Parameters
    ----------
    report : PageReport [-]
        The page as it was worked out; its private setups are on the sheet too, for it is their
        author's own.
    shop : ShopProfile [-]
        For what a machine's dial shows; without one nothing is said of dials.
    page : str [-]
        Its path within the log; without one the sheet names its file.

    Returns
    -------
    Sheet [-]
        Sizes in the page's order; setups by their step, then in the page's order.
    """
    items = [item for block in report.blocks for item in block.items]
    results = [item for item in items if isinstance(item, Result)]
    sizes = tuple(
        SizeLine(
            one.name,
            show(one.value),
            one.statement.note,
            min(report.made or 1, MOST_BOXES),
            f"{one.value.nominal!r} {one.value.unit.text}",
        )
        for one in results
        if _is_size(one.value)
    )
    work = tuple(work_of(report, shop))
    said = [text for item in results for text in item.working.cautions]
    said += [text for line in work for text in line.cautions]
    return Sheet(
        title=shown_title(report) or report.path,
        path=report.path,
        page=page or report.path,
        part=report.part.replace("_", " "),
        made=report.made,
        date=report.date.isoformat() if report.date else "",
        materials=_each(report, "material"),
        sizes=sizes,
        values=tuple(_values(results)),
        work=work,
        tools=tuple(dict.fromkeys(tools_of(report, results))),
        stated=tuple(_stated(items)),
        concessions=tuple(
            (item.name, item.reason) for item in items if isinstance(item, ConcessionResult)
        ),
        drawn=tuple((item.text, item.value) for item in items if isinstance(item, DrawResult)),
        cautions=tuple(dict.fromkeys(said)),
        problems=report.count(Grade.PROBLEM),
    )


def _is_size(value: PageValue) -> TypeGuard[Value]:
    """Whether a value is one to be measured: it has limits, and is no reading."""
    return isinstance(value, Value) and value.has_limits and not value.uncertain


def _values(results: list[Result]) -> Iterator[ValueLine]:
    for one in results:
        if not _is_size(one.value):
            yield ValueLine(one.name, _short(one.value), one.statement.note)


def _short(value: PageValue) -> str:
    """A record by what a drawing calls it, where it is called something: `M8-6H`."""
    called = getattr(value, "designation", "")
    return called if called and isinstance(called, str) else one_line(value)


def _each(report: PageReport, key: str) -> tuple[str, ...]:
    setups = (setup for _, setup in setups_in_order(report))
    return tuple(dict.fromkeys(s.fields[key].text for s in setups if key in s.fields))


def _stated(items: list[Item]) -> Iterator[StatedLine]:
    for item in items:
        if isinstance(item, MateResult):
            text = item.statement.code.strip().removeprefix("mate").strip()
            yield StatedLine(text, item.fault, item.passes, mate=True)
        elif isinstance(item, CheckResult):
            text = item.statement.code.strip().removeprefix("check").strip()
            yield StatedLine(text, item.truth.value, item.passes, mate=False)
