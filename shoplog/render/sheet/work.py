"""The work on a bench sheet: each setup in its order, what it is done with and what to set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.calc.results import PageValue
from shoplog.calc.show import show
from shoplog.log.profile.shop import ShopProfile
from shoplog.log.profile.things import Machine
from shoplog.log.report import BlockReport, PageReport, Run, SetupField, SetupReport
from shoplog.render.html import printed
from shoplog.render.values import as_written, in_inches, one_line
from shoplog.units import unit, write_quantity
from shoplog.values import Value

__all__ = ["Figure", "WorkLine", "setups_in_order", "work_of"]

_RUN_KEYS = ("speed", "cutting speed", "feed", "depth of cut", "width of cut", "passes", "coolant")
_PLACE_KEYS = ("cutter", "machine", "holding", "direction", "drill", "taper")
_SIZE_KEYS = ("stick-out", "cutter diameter", "diameter", "length", "slot width", "total depth")


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


def setups_in_order(report: PageReport) -> list[tuple[BlockReport, SetupReport]]:
    """The setups in the order of the work: by step, those without one where they stand."""
    found = [(block, block.setup) for block in report.blocks if block.setup is not None]
    step = 0.0
    keyed = []
    for order, (block, setup) in enumerate(found):
        given = setup.fields["step"].value if "step" in setup.fields else None
        step = given.nominal if isinstance(given, Value) else step
        keyed.append((step, order, block, setup))
    return [(block, setup) for _, _, block, setup in sorted(keyed, key=lambda one: one[:2])]


def work_of(report: PageReport, shop: ShopProfile | None) -> Iterator[WorkLine]:
    """Each setup in its order; without a shop profile nothing is said of dials and belts."""
    for block, setup in setups_in_order(report):
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
    """What a setup is done with, and the sizes that it begins from, as their author wrote them."""
    for key in _PLACE_KEYS:
        if key in fields:
            yield key, fields[key].text
    for key in _SIZE_KEYS:
        if key in fields:
            yield key, _in_both(fields[key])


def _in_both(fact: SetupField) -> str:
    """A size as written, the other system in brackets."""
    value = fact.value
    if not isinstance(value, Value):
        return fact.text
    if value.has_limits:
        return one_line(value)
    shown = show(value)
    told = as_written(fact.text, value)
    return told if shown.other == shown.own else f"{told} ({printed(shown.other)})"


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
    inch = "feed" in run.fields and in_inches([run.fields["feed"]])
    for label in ("table feed", "feed a minute"):
        if label in derived:
            yield _figure(label, derived[label].value, "", inch)


def _figure(label: str, value: PageValue, after: str, inch: bool = False) -> Figure:
    """A figure as it is stated; beside it the other system, and the decimal of a fraction.

    `inch` puts the inches of a metric figure first.
    """
    shown = show(value)
    if inch:
        return Figure(label, shown.inch, shown.metric, after)
    return Figure(label, shown.stated, " · ".join(shown.beside), after)


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
