"""What a bench sheet says, gathered from a page report: sizes, work in order, tools, cautions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, is_dataclass
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
from shoplog.log.cutters import Cutter
from shoplog.log.report import BlockReport, PageReport, Run, SetupField, SetupReport
from shoplog.log.shop import ShopProfile
from shoplog.log.shop_things import Machine
from shoplog.log.titles import shown_title
from shoplog.problems import Grade
from shoplog.trade.hole_work.centre_drills import CentreDrill
from shoplog.trade.hole_work.drill_sets import Drill, DrillChoice
from shoplog.trade.screw_threads.tapping import TapDrill
from shoplog.units import unit, write_quantity
from shoplog.values import Value

__all__ = ["Figure", "Sheet", "SizeLine", "StatedLine", "ValueLine", "WorkLine", "sheet_of"]

MOST_BOXES = 6
"""Boxes for as-measured sizes on a line; a batch of more is numbered on paper of its own."""
_RUN_KEYS = ("speed", "cutting speed", "feed", "depth of cut", "width of cut", "passes", "coolant")
_PLACE_KEYS = ("machine", "holding", "stick-out", "direction", "drill", "taper")
_SIZE_KEYS = ("cutter diameter", "diameter", "length", "slot width", "total depth")


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
    shown: Shown
    note: str
    record: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of a setup: its label, and its value in both systems."""

    label: str
    own: str
    other: str = ""
    after: str = ""
    """What the machine's dial shows for it, or which step it is."""


@dataclass(frozen=True, slots=True)
class WorkLine:
    """A setup in the order of the work."""

    step: str
    operation: str
    feature: str
    line: int
    """Where the setup stands on the page; what ran is filled in there."""
    places: tuple[tuple[str, str], ...]
    """What it is done with: cutter, machine, holding and the like."""
    figures: tuple[Figure, ...]
    planned: bool
    """Whether the figures are a plan; if not, they are what ran the last time."""
    outcome: str
    cautions: tuple[str, ...]
    has_run: bool = False
    """Whether the page says already how it went: another run has its own outcome and remarks."""


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


def sheet_of(report: PageReport, shop: ShopProfile | None = None) -> Sheet:
    """The bench sheet of a page.

    Parameters
    ----------
    report : PageReport [-]
        The page as it was worked out; its private setups are on the sheet too, for it is their
        author's own.
    shop : ShopProfile [-]
        For what a machine's dial shows; without one nothing is said of dials.

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
    work = tuple(_work(report, shop))
    said = [text for item in results for text in item.working.cautions]
    said += [text for line in work for text in line.cautions]
    return Sheet(
        title=shown_title(report) or report.path,
        path=report.path,
        part=report.part.replace("_", " "),
        made=report.made,
        date=report.date.isoformat() if report.date else "",
        materials=_each(report, "material"),
        sizes=sizes,
        values=tuple(_values(results)),
        work=work,
        tools=tuple(dict.fromkeys(_tools(report, results))),
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
            record = is_dataclass(one.value) and not isinstance(one.value, Value)
            yield ValueLine(one.name, _short(one.value), one.statement.note, record)


def _short(value: PageValue) -> Shown:
    """A record by what a drawing calls it, where it is called something: `M8-6H`."""
    called = getattr(value, "designation", "")
    return Shown(called, called, called) if called and isinstance(called, str) else show(value)


def _setups(report: PageReport) -> list[tuple[BlockReport, SetupReport]]:
    """The setups in the order of the work: by step, those without one where they stand."""
    found = [(block, block.setup) for block in report.blocks if block.setup is not None]
    step = 0.0
    keyed = []
    for order, (block, setup) in enumerate(found):
        given = setup.fields["step"].value if "step" in setup.fields else None
        step = given.nominal if isinstance(given, Value) else step
        keyed.append((step, order, block, setup))
    return [(block, setup) for _, _, block, setup in sorted(keyed, key=lambda one: one[:2])]


def _each(report: PageReport, key: str) -> tuple[str, ...]:
    setups = (setup for _, setup in _setups(report))
    return tuple(dict.fromkeys(s.fields[key].text for s in setups if key in s.fields))


def _work(report: PageReport, shop: ShopProfile | None) -> Iterator[WorkLine]:
    for block, setup in _setups(report):
        fields = setup.fields
        run = setup.planned or (setup.ran[-1] if setup.ran else None)
        machine = shop.machine(fields["machine"].text) if shop and "machine" in fields else None
        yield WorkLine(
            step=_text(fields, "step"),
            operation=_text(fields, "operation") or "setup",
            feature=_text(fields, "feature"),
            line=block.block.first_line,
            places=tuple(_places(fields)),
            figures=tuple(_figures(fields, run, machine)) if run else (),
            planned=setup.planned is not None,
            outcome=_text(fields, "outcome"),
            cautions=run.cautions if run else (),
            has_run=bool(setup.ran) or "outcome" in fields or "remarks" in fields,
        )


def _text(fields: dict[str, SetupField], key: str) -> str:
    return fields[key].text if key in fields else ""


def _places(fields: dict[str, SetupField]) -> Iterator[tuple[str, str]]:
    if "cutter" in fields:
        value = fields["cutter"].value
        yield "cutter", value.describe() if isinstance(value, Cutter) else fields["cutter"].text
    for key in _PLACE_KEYS:
        if key in fields:
            yield key, fields[key].text
    for key in _SIZE_KEYS:
        if key in fields:
            shown = show(fields[key].value) if fields[key].value is not None else None
            yield key, shown.both if shown else fields[key].text


def _figures(fields: dict[str, SetupField], run: Run, machine: Machine | None) -> Iterator[Figure]:
    """What to set, in the order in which it is set; the speed is the machine's step."""
    derived = {figure.label: figure for figure in run.derived}
    speed = derived.get("step") or derived.get("spindle speed")
    if "speed" not in run.fields and speed is not None:
        yield _figure("speed", speed.value, _step_name(machine, speed.value))
    for key in _RUN_KEYS:
        if key not in run.fields:
            continue
        given = run.fields[key]
        if not isinstance(given.value, Value):
            yield Figure(key, given.text)
            continue
        after = _step_name(machine, given.value) if key == "speed" else ""
        after = _dial(fields, given.value, machine) if key == "depth of cut" else after
        yield _figure(key, given.value, after)
    for label in ("table feed", "feed a minute"):
        if label in derived:
            yield _figure(label, derived[label].value, "")


def _figure(label: str, value: PageValue, after: str) -> Figure:
    shown = show(value)
    other = shown.inch if shown.own == shown.metric else shown.metric
    return Figure(label, shown.nominal or shown.own, other if other != shown.own else "", after)


def _step_name(machine: Machine | None, speed: PageValue) -> str:
    """Which belts and gears give a speed, where the shop profile names its steps."""
    if machine is None or not isinstance(speed, Value):
        return ""
    return machine.drive.name_of(speed)


def _dial(fields: dict[str, SetupField], depth: Value, machine: Machine | None) -> str:
    """What the cross slide's dial shows for a depth, where it is known which way it reads."""
    turned = any(
        word in _text(fields, "operation").casefold() for word in ("turning", "boring", "facing")
    )
    if machine is None or not machine.dial_reads or not turned:
        return ""
    reads = depth * Value(2.0, unit("")) if machine.dial_reads == "diameter" else depth
    division = _division(machine)
    counted = ""
    if division is not None:
        counted = f", {reads.to(division.unit).nominal / division.nominal:.4g} divisions"
    return f"dial {write_quantity(reads.nominal, reads.unit)}{counted}"


def _division(machine: Machine) -> Value | None:
    if machine.dial_division is None:
        return None
    return machine.dial_division.cross or machine.dial_division.every


def _tools(report: PageReport, results: list[Result]) -> Iterator[str]:
    """What to lay out: cutters, drills and taps by their size, and what holds the work."""
    for _, setup in _setups(report):
        yield from (text for key, text in _places(setup.fields) if key == "cutter")
        if "drill" in setup.fields:
            yield f"drill {setup.fields['drill'].text}"
    for one in results:
        match one.value:
            case TapDrill(drill=drill, thread=thread):
                yield f"drill {drill.designation}"
                yield f"tap {thread.designation}"
            case Drill(designation=designation) | DrillChoice(nearest=Drill(designation)):
                yield f"drill {designation}"
            case CentreDrill(designation=designation):
                yield f"centre drill {designation}"
    for _, setup in _setups(report):
        if "holding" in setup.fields:
            yield setup.fields["holding"].text


def _stated(items: list[Item]) -> Iterator[StatedLine]:
    for item in items:
        if isinstance(item, MateResult):
            text = item.statement.code.strip().removeprefix("mate").strip()
            yield StatedLine(text, item.fault, item.passes, mate=True)
        elif isinstance(item, CheckResult):
            text = item.statement.code.strip().removeprefix("check").strip()
            yield StatedLine(text, item.truth.value, item.passes, mate=False)
