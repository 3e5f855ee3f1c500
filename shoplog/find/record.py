"""The record of a setup: what is kept of it in the index, in `setups.json` and in a spreadsheet.

One record is one time that a setup ran; one that never ran is a record of its plan alone. The name
of a field is its name everywhere, and a number's name says its unit.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, fields
from typing import Any

from shoplog.outcomes import OUTCOMES

__all__ = [
    "FIGURES",
    "RECORD",
    "Figures",
    "Known",
    "Record",
    "known_fields",
    "record_from",
    "told",
]


@dataclass(frozen=True, slots=True)
class Known:
    """A field of a record: its name, its kind, its unit, and what it is."""

    name: str
    kind: str
    """`text`, `texts`, `number`, `whole` or `truth`."""
    unit: str
    doc: str


def _text(doc: str) -> Any:
    return field(default="", metadata={"kind": "text", "doc": doc})


def _texts(doc: str) -> Any:
    return field(default=(), metadata={"kind": "texts", "doc": doc})


def _number(unit: str, doc: str) -> Any:
    return field(default=None, metadata={"kind": "number", "unit": unit, "doc": doc})


def _whole(doc: str) -> Any:
    return field(default=None, metadata={"kind": "whole", "doc": doc})


def _truth(doc: str) -> Any:
    return field(default=False, metadata={"kind": "truth", "doc": doc})


@dataclass(frozen=True, slots=True)
class Figures:
    """What was set, given or worked out; a size with limits counts by its nominal."""

    spindle_speed_rpm: float | None = _number("rpm", "The speed of the spindle.")
    cutting_speed_m_per_min: float | None = _number("m/min", "How fast the edge cut.")
    feed_per_rev_mm: float | None = _number("mm/rev", "The feed of a revolution.")
    feed_per_tooth_mm: float | None = _number(
        "mm/tooth",
        "The feed of an edge; a single point has one, a drill two where nothing is said.",
    )
    feed_rate_mm_per_min: float | None = _number("mm/min", "The feed of a minute.")
    by_hand: bool = _truth("Whether it was fed by hand.")
    depth_of_cut_mm: float | None = _number("mm", "Radial in turning, axial in milling.")
    width_of_cut_mm: float | None = _number("mm", "Radial, in milling.")
    passes: int | None = _whole("How many cuts.")
    removal_rate_cm3_per_min: float | None = _number("cm^3/min", "How much came off a minute.")
    coolant: str = _text("`none`, or what it was.")
    gives_way_first: str = _text("What gives way first, where it could be judged.")


@dataclass(frozen=True, slots=True)
class Record:
    """A setup as it was planned and one time that it ran, with its place in the log."""

    page: str = _text("The page, from the folder of the pages: `boat-winch/bush.md`.")
    anchor: str = _text("The id of its card on the page.")
    line: int | None = _whole("The line of the page that opens its block.")
    run: int | None = _whole("Which of its runs, from 1; 0 where it has not run.")
    date: str = _text("The day, as 2026-03-14.")
    date_from: str = _text("Who says the day: `block`, `page`, `git`, or nothing.")
    project: str = _text("The folder of the page.")
    part: str = _text("What the page makes, by its front matter.")
    title: str = _text("The page's heading.")
    step: int | None = _whole("Its place in the order of the work.")
    feature: str = _text("What it was done to.")
    operation: str = _text("What was done, as it was written.")
    operation_kind: str = _text("The kind of operation: `turning`, `slot milling`.")
    material: str = _text("What was cut, as it was written.")
    material_row: str = _text("The row of the materials that it is, where one knows it.")
    material_group: str = _text("The group that cutting data are given for.")
    cutter: str = _text("The cutter, as it was written.")
    cutter_name: str = _text("What the shop profile calls it.")
    cutter_kind: str = _text("What kind of cutter: `end mill`, `turning tool`.")
    cutter_material: str = _text("What its edge is of: `HSS`, `carbide`.")
    cutter_diameter_mm: float | None = _number("mm", "The size of a cutter that turns.")
    teeth: int | None = _whole("How many teeth it has.")
    nose_radius_mm: float | None = _number("mm", "The nose radius of a turning tool.")
    cutter_width_mm: float | None = _number(
        "mm", "How wide a grooving or parting tool or a saw cuts."
    )
    machine: str = _text("The machine.")
    holding: str = _text("What held the work.")
    stick_out_mm: float | None = _number("mm", "How far work or tool stood out.")
    direction: str = _text("`climb` or `conventional`.")
    diameter_mm: float | None = _number("mm", "The size before the cut: of the work, or the hole.")
    length_mm: float | None = _number("mm", "The length of the cut.")
    outcome: str = _text(f"How it went: {', '.join(OUTCOMES)}, or nothing.")
    fault: tuple[str, ...] = _texts("What went wrong.")
    remarks: str = _text("What else was worth keeping.")
    pictures: tuple[str, ...] = _texts("Names of picture files.")
    private: bool = _truth("Whether it is kept off the site.")
    planned: Figures | None = field(default=None, metadata={"kind": "figures"})
    ran: Figures | None = field(default=None, metadata={"kind": "figures"})

    @property
    def id(self) -> str:
        """The record's name in its log: `boat-winch/bush.md#setup-2`, its run behind a dot."""
        run = f".{self.run}" if self.run and self.run > 1 else ""
        return f"{self.page}#{self.anchor}{run}"

    @property
    def figures(self) -> Figures:
        """What ran; what was planned where it has not run."""
        return self.ran or self.planned or Figures()

    @property
    def size_mm(self) -> float | None:
        """The diameter at the edge: of the cutter where it turns, else of the work."""
        return self.cutter_diameter_mm if self.cutter_diameter_mm is not None else self.diameter_mm

    @property
    def fed(self) -> tuple[float, str] | None:
        """Its feed in mm, as the trade tells it, and by what: `tooth`, `rev` or `min`.

        By the tooth where a cutter of several mills, else by the turn, else as it is known.
        """
        figures = self.figures
        milled = (self.teeth or 1) > 1 and "drill" not in self.operation_kind
        feeds = (
            (figures.feed_per_tooth_mm if milled else None, "tooth"),
            (figures.feed_per_rev_mm, "rev"),
            (figures.feed_per_tooth_mm, "tooth"),
            (figures.feed_rate_mm_per_min, "min"),
        )
        return next(((feed, by) for feed, by in feeds if feed is not None), None)


def known_fields(kind: type[Record] | type[Figures]) -> tuple[Known, ...]:
    """The fields of a record or of its figures that hold a value, in order."""
    return tuple(
        Known(one.name, one.metadata["kind"], one.metadata.get("unit", ""), one.metadata["doc"])
        for one in fields(kind)
        if one.metadata["kind"] != "figures"
    )


RECORD = known_fields(Record)
FIGURES = known_fields(Figures)


def told(record: Record, declared: Iterable[Known] = RECORD) -> dict[str, Any]:
    """What a record says, as nested data for JSON: nothing that is empty, unknown or not so.

    >>> told(Record(page="bush.md", teeth=4, ran=Figures(passes=2)))
    {'page': 'bush.md', 'teeth': 4, 'ran': {'passes': 2}}
    """
    found = _said(record, declared)
    for kind in ("planned", "ran"):
        figures = getattr(record, kind)
        if figures is not None:
            found[kind] = _said(figures, FIGURES)
    return found


def _said(of: Record | Figures, declared: Iterable[Known]) -> dict[str, Any]:
    values = {known.name: getattr(of, known.name) for known in declared}
    return {name: value for name, value in values.items() if value or _is_zero(value)}


def _is_zero(value: Any) -> bool:
    """Whether it is the number 0, which says something: a record that has not run is run 0."""
    return value == 0 and value is not False


def record_from(data: dict[str, Any]) -> Record:
    """The record that `told` made data of; data of anyone else is read by `find.published`.

    >>> record_from({"page": "bush.md", "teeth": 4, "ran": {"passes": 2}}).figures.passes
    2
    """
    made: dict[str, Any] = {
        name: tuple(value) if isinstance(value, list) else value for name, value in data.items()
    }
    made |= {kind: Figures(**data[kind]) for kind in ("planned", "ran") if kind in data}
    return Record(**made)
