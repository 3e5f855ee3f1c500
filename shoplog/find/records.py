"""The records of a log that was read: each setup with what it was resolved to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from shoplog.calc.results import PageValue
from shoplog.find.record import Figures, Record
from shoplog.log import Log
from shoplog.log.cutters import Cutter
from shoplog.log.report import BlockReport, PageReport, Run, SetupField, SetupReport
from shoplog.log.setup_figures import BY_HAND
from shoplog.log.setup_judging import material_known_by
from shoplog.log.setup_operations import operation_of
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting_naming import named_operation, work_group
from shoplog.units import UnitMismatch, unit
from shoplog.values import Value

__all__ = ["material_names", "page_records", "records_of"]

LIPS_OF_A_DRILL = 2
MOST_TEXT = 2000
"""Characters of a text that a record keeps; the page has all of it."""

_FIGURES = {
    "spindle_speed_rpm": ("rpm", ("speed", "step", "spindle speed")),
    "cutting_speed_m_per_min": (
        "m/min",
        ("cutting speed at the step", "cutting speed"),
    ),
    "feed_per_rev_mm": ("mm/rev", ("feed", "feed per rev")),
    "feed_per_tooth_mm": ("mm/tooth", ("feed", "feed per tooth")),
    "feed_rate_mm_per_min": ("mm/min", ("feed", "feed a minute", "table feed")),
    "depth_of_cut_mm": ("mm", ("depth of cut",)),
    "width_of_cut_mm": ("mm", ("width of cut",)),
    "removal_rate_cm3_per_min": ("cm^3/min", ("removal rate",)),
}


def records_of(log: Log, days: Mapping[str, str] | None = None) -> Iterator[Record]:
    """The records of a log, page by page.

    Parameters
    ----------
    log : Log [-]
        The log as it came out.
    days : mapping of str to str [-]
        For pages that give no date, the day that their history says, by their path in the log.
    """
    for key, report in log.pages.items():
        yield from page_records(key, report, (days or {}).get(key, ""))


def page_records(key: str, report: PageReport, history: str = "") -> Iterator[Record]:
    """The records of one page; `history` is the day that counts where nothing else says one."""
    for block in report.blocks if report.records else ():
        if block.setup is None:
            continue
        for number, run in _runs(block.setup):
            yield _record(key, report, block, block.setup, number, run, history)


def _runs(setup: SetupReport) -> Iterator[tuple[int, Run | None]]:
    """Each time that it ran with its number; a plan alone counts as number 0."""
    if not setup.ran:
        yield 0, None
    yield from enumerate(setup.ran, 1)


def _record(
    key: str,
    report: PageReport,
    block: BlockReport,
    setup: SetupReport,
    number: int,
    run: Run | None,
    history: str,
) -> Record:
    above = setup.fields
    told = {**above, **(run.fields if run else {})}
    cutter = above["cutter"].value if "cutter" in above else None
    cutter = cutter if isinstance(cutter, Cutter) else Cutter("")
    teeth = _given(above, "teeth", "") or _in(cutter.teeth, "")
    kind, lips = _operation(above)
    edges = teeth or lips
    day, said_by = _day(above, report, history)
    row, group = _material(_text(above, "material"))
    return Record(
        page=key,
        anchor=setup.anchor,
        line=block.block.first_line - 1,
        run=number,
        date=day,
        date_from=said_by,
        project=report.project,
        part=report.part,
        title=report.title,
        step=_whole(_given(above, "step", "")),
        feature=_text(above, "feature"),
        operation=_text(above, "operation"),
        operation_kind=kind,
        material=_text(above, "material"),
        material_row=row,
        material_group=group,
        cutter=_text(above, "cutter"),
        cutter_name=cutter.name,
        cutter_kind=cutter.kind.casefold(),
        cutter_material=cutter.material,
        cutter_diameter_mm=_given(above, "cutter diameter", "mm") or _in(cutter.diameter, "mm"),
        teeth=_whole(teeth),
        nose_radius_mm=_in(cutter.nose_radius, "mm"),
        machine=_resolved(above, "machine"),
        holding=_text(above, "holding"),
        stick_out_mm=_given(above, "stick-out", "mm"),
        direction=_resolved(above, "direction"),
        diameter_mm=_given(above, "diameter", "mm"),
        length_mm=_given(above, "length", "mm"),
        outcome=_resolved(told, "outcome"),
        fault=_words(told, "fault"),
        remarks=_remarks(above, run),
        pictures=_words(above, "pictures"),
        private=block.private,
        planned=_figures(setup.planned, edges) if setup.planned else None,
        ran=_figures(run, edges) if run else None,
    )


def _operation(above: dict[str, SetupField]) -> tuple[str, float | None]:
    """The kind of operation, and how many edges cut where no teeth are given."""
    text = _text(above, "operation")
    known = operation_of(text)
    try:
        kind = named_operation(text)[0]["operation"]
    except TradeError:
        kind = known.word if known else text.partition(",")[0].strip().casefold()
    edges = {"turning": 1.0, "drilling": float(LIPS_OF_A_DRILL)}
    return kind, edges.get(known.family) if known else None


def _figures(run: Run, edges: float | None) -> Figures:
    found = {name: _first(run, labels, unit_name) for name, (unit_name, labels) in _FIGURES.items()}
    per_rev, rate = found["feed_per_rev_mm"], found["feed_rate_mm_per_min"]
    speed = found["spindle_speed_rpm"]
    if per_rev is None and rate is not None and speed:
        found["feed_per_rev_mm"] = per_rev = rate / speed
    if found["feed_per_tooth_mm"] is None and per_rev is not None and edges:
        found["feed_per_tooth_mm"] = per_rev / edges
    return Figures(
        **found,
        by_hand="feed" in run.fields and run.fields["feed"].value == BY_HAND,
        passes=_whole(_given(run.fields, "passes", "")),
        coolant=_text(run.fields, "coolant"),
        gives_way_first=run.judged.first if run.judged and run.judged.limits else "",
    )


def _first(run: Run, labels: tuple[str, ...], unit_name: str) -> float | None:
    """The first of some figures that has a value of this unit's kind, given or worked out."""
    derived = {figure.label: figure.value for figure in run.derived}
    for label in labels:
        given = run.fields[label].value if label in run.fields else None
        for value in (given, derived.get(label)):
            number = _in(value, unit_name)
            if number is not None:
                return number
    return None


def _in(value: PageValue | None, unit_name: str) -> float | None:
    """A value's nominal in a unit; nothing where it is of another kind."""
    if not isinstance(value, Value):
        return None
    wanted = unit(unit_name)
    if {name for name, _ in value.unit.dimension} ^ {name for name, _ in wanted.dimension} > {
        "tooth"
    }:
        return None
    try:
        return value.to(wanted, loose=True).nominal
    except UnitMismatch:
        return None


def _given(fields: dict[str, SetupField], key: str, unit_name: str) -> float | None:
    return _in(fields[key].value, unit_name) if key in fields else None


def _whole(number: float | None) -> int | None:
    return None if number is None else round(number)


def _text(fields: dict[str, SetupField], key: str) -> str:
    return fields[key].text[:MOST_TEXT] if key in fields else ""


def _resolved(fields: dict[str, SetupField], key: str) -> str:
    """The word that a text was read as; the text where it was read as none."""
    value = fields[key].value if key in fields else None
    return value if isinstance(value, str) else _text(fields, key)


def _words(fields: dict[str, SetupField], key: str) -> tuple[str, ...]:
    value = fields[key].value if key in fields else None
    return tuple(word for word in value if isinstance(word, str)) if type(value) is tuple else ()


def _remarks(above: dict[str, SetupField], run: Run | None) -> str:
    told = [_text(above, "remarks"), _text(run.fields, "remarks") if run else ""]
    return "; ".join(filter(None, told))


def _day(above: dict[str, SetupField], report: PageReport, history: str) -> tuple[str, str]:
    """The day and who says it: the block, else the page, else its history."""
    value = above["date"].value if "date" in above else None
    if isinstance(value, str):
        return value, "block"
    if report.date is not None:
        return report.date.isoformat(), "page"
    return (history, "git") if history else ("", "")


@cache
def _material(text: str) -> tuple[str, str]:
    """The row and the group of a material as a setup writes it; nothing where none knows it."""
    if not text:
        return "", ""
    try:
        found = work_group(material_known_by(text))
    except TradeError:
        return "", ""
    return found.material.name if found.material else "", found.name


@cache
def material_names(text: str) -> tuple[str, ...]:
    """Every name that a material goes by, its groups' too; nothing where none knows it.

    >>> "mild steel" in material_names("S235JR"), "low-carbon steel" in material_names("S235JR")
    (True, True)
    """
    try:
        found = work_group(material_known_by(text))
    except TradeError:
        return ()
    names = [found.name, *filter(None, (found.row["iso513"],))]
    if found.material is not None:
        one = found.material
        own = (one.name, one.designation, one.number, *one.other_names, one.family)
        names += [name for name in own if name]
    return tuple(dict.fromkeys(names))
