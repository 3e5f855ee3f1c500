"""The records of a log that was read: each setup with what it was resolved to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache

from shoplog.calc.results import PageValue
from shoplog.find.clean import clean
from shoplog.find.record import Figures, Record
from shoplog.log import Log
from shoplog.log.report import BlockReport, PageReport, Run, SetupField, SetupReport
from shoplog.log.setups.cutters import Cutter
from shoplog.log.setups.figures import BY_HAND
from shoplog.log.setups.judging import material_known_by
from shoplog.log.setups.operations import Operation, operation_of
from shoplog.log.titles import shown_title
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting_naming import operation_known, work_group
from shoplog.trade.materials import Material, material_known
from shoplog.units import UnitMismatch, unit
from shoplog.values import Value

__all__ = ["material_iso", "material_names", "page_records", "records_of"]

LIPS_OF_A_DRILL = 2

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
        For pages that give no date, the day that their history says, by their path in the log. It
        is asked for those pages only.
    """
    for key, report in log.pages.items():
        yield from page_records(key, report, days)


def page_records(
    key: str, report: PageReport, days: Mapping[str, str] | None = None
) -> Iterator[Record]:
    """The records of one page; `days` are asked where neither block nor page says the day."""
    title = clean(shown_title(report)) if report.records else ""
    for block in report.blocks if report.records else ():
        if block.setup is None:
            continue
        day, said_by = _day(key, block.setup, report, days)
        about = Record(page=key, title=title, date=day, date_from=said_by)
        for number, run in _runs(block.setup):
            yield _record(about, report, block, block.setup, number, run)


def _runs(setup: SetupReport) -> Iterator[tuple[int, Run | None]]:
    """Each time that it ran with its number; a plan alone counts as number 0."""
    if not setup.ran:
        yield 0, None
    yield from enumerate(setup.ran, 1)


def _record(
    about: Record,
    report: PageReport,
    block: BlockReport,
    setup: SetupReport,
    number: int,
    run: Run | None,
) -> Record:
    above = setup.fields
    told = {**above, **(run.fields if run else {})}
    cutter = above["cutter"].value if "cutter" in above else None
    cutter = cutter if isinstance(cutter, Cutter) else Cutter("")
    teeth = _given(above, "teeth", "") or _in(cutter.teeth, "")
    kind, lips = _operation(above)
    edges = teeth or lips
    row, group = _material(_text(above, "material"))
    return replace(
        about,
        anchor=setup.anchor,
        line=block.block.first_line,
        run=number,
        project=report.project,
        part=report.part,
        step=_whole(_given(above, "step", "")),
        feature=_text(above, "feature"),
        operation=_text(above, "operation"),
        operation_kind=kind,
        material=_text(above, "material"),
        material_row=row,
        material_group=group,
        cutter=_text(above, "cutter"),
        cutter_name=clean(cutter.name),
        cutter_kind=clean(cutter.kind.casefold()),
        cutter_material=clean(cutter.material),
        cutter_diameter_mm=_given(above, "cutter diameter", "mm") or _in(cutter.diameter, "mm"),
        teeth=_whole(teeth),
        nose_radius_mm=_in(cutter.nose_radius, "mm"),
        cutter_width_mm=_in(cutter.width, "mm"),
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
    known, named = operation_of(text), operation_known(text)
    if named is not None:
        kind = named[0]["operation"]
    else:
        kind = known.word if known else text.partition(",")[0].strip().casefold()
    return kind, _edges_of(known) if known else None


def _edges_of(known: Operation) -> float | None:
    """How many edges a tool of this operation has by its nature; a reamer or a tap may have any."""
    if known.word == "drilling":
        return float(LIPS_OF_A_DRILL)
    return 1.0 if known.family == "turning" else None


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
    return clean(fields[key].text) if key in fields else ""


def _resolved(fields: dict[str, SetupField], key: str) -> str:
    """The word that a text was read as; the text where it was read as none."""
    value = fields[key].value if key in fields else None
    return clean(value) if isinstance(value, str) else _text(fields, key)


def _words(fields: dict[str, SetupField], key: str) -> tuple[str, ...]:
    value = fields[key].value if key in fields else None
    texts = value if type(value) is tuple else ()
    return tuple(clean(word) for word in texts if isinstance(word, str))


def _remarks(above: dict[str, SetupField], run: Run | None) -> str:
    told = [_text(above, "remarks"), _text(run.fields, "remarks") if run else ""]
    return clean("; ".join(filter(None, told)))


def _day(
    key: str, setup: SetupReport, report: PageReport, days: Mapping[str, str] | None
) -> tuple[str, str]:
    """The day and who says it: the block, else the page, else its history."""
    value = setup.fields["date"].value if "date" in setup.fields else None
    if isinstance(value, str):
        return value, "block"
    if report.date is not None:
        return report.date.isoformat(), "page"
    history = (days or {}).get(key, "")
    return (history, "git") if history else ("", "")


def _material(text: str) -> tuple[str, str]:
    """The row and the group of a material as a setup writes it; nothing where none knows it."""
    material, group = _known(text)
    return material.name if material else "", group["group"] if group else ""


def material_names(text: str) -> tuple[str, ...]:
    """Every name that a material goes by, its groups' too; nothing where none knows it.

    >>> "mild steel" in material_names("S235JR"), "low-carbon steel" in material_names("S235JR")
    (True, True)
    """
    material, group = _known(text)
    names: list[str | None] = []
    if material is not None:
        names += [material.name, material.designation, material.number, *material.other_names]
        names += [material.family]
    if group is not None:
        names += [group["group"], *group["words"].split(";")]
        names += [group["iso513"], f"ISO {group['iso513']}"]
    return tuple(dict.fromkeys(name for name in names if name))


def material_iso(text: str) -> str:
    """The group of ISO 513 that a material belongs to, or nothing.

    >>> material_iso("mild steel"), material_iso("brass")
    ('P', 'N')
    """
    group = _known(text)[1]
    return group["iso513"] if group else ""


@cache
def _known(text: str) -> tuple[Material | None, dict[str, str] | None]:
    """The row of a material and of its group, each where one knows it."""
    if not text:
        return None, None
    try:
        found = work_group(material_known_by(text))
    except TradeError:  # it may be a material that no cutting data are given for
        return material_known(text.partition(",")[0]), None
    return found.material, found.row
