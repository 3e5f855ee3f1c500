"""`past(…)`: what one's own records say, and where they say nothing, the handbook's range.

Which records there are, and which are like what is asked, is the log's to say; a page that is
worked out with no log around it has none.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from shoplog.calc import tree as t
from shoplog.calc.formulas import arguments_of, keep_use, refused
from shoplog.calc.past_record import Past
from shoplog.calc.results import PageValue, Working
from shoplog.problems import Mistake, message
from shoplog.trade.declare import Millimetre, Offer, TradeError
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.machining.cutting_data import (
    GREATEST_DIAMETER,
    LEAST_DIAMETER,
    cutting_range,
)
from shoplog.trade.machining.cutting_naming import named_cutter, named_operation, work_group
from shoplog.trade.machining.cutting_record import CuttingRange

__all__ = [
    "PAST",
    "Answer",
    "PastAsk",
    "ask_of",
    "call_past",
    "from_handbook",
    "past",
]

NOTHING_ASKED = message(
    "past-nothing-asked",
    "past needs at least one of {arguments}",
    hint='past(operation="turning", material="mild steel", diameter=20 mm)',
    example="a = past()",
)

USUAL_CUTTER = "HSS"
OWN_RECORDS = "own records"
NO_LOG = "no records were looked through"


@dataclass(frozen=True, slots=True)
class PastAsk:
    """What is asked, read into the words that records have; what was not asked is empty."""

    operation: str = ""
    """The row of the operations."""
    stage: str = ""
    """`rough` or `finish`, where it was asked for."""
    material: str = ""
    """The row of the materials; nothing where a whole group was asked for."""
    group: str = ""
    """The group that cutting data are given for."""
    cutter: str = ""
    """The kind of cutter, or what the shop profile calls it."""
    cutter_material: str = ""
    """The row of the cutter materials."""
    machine: str = ""
    diameter: float | None = None
    """In mm."""
    material_text: str = ""
    """The material as it was written."""


Answer = Callable[[PastAsk], Past]
"""What a log answers; raises `TradeError` where nothing is known, `Waits` where it is too soon."""


def past(
    operation: str | None = None,
    material: str | None = None,
    cutter: str | None = None,
    cutter_material: str | None = None,
    machine: str | None = None,
    diameter: Millimetre | None = None,
) -> Past:
    """What ran and went well before, asked where there are no records: the handbook's range."""
    ask = ask_of(operation, material, cutter, cutter_material, machine, diameter)
    return from_handbook(ask, NO_LOG)


PAST = Offer("past", past, OWN_RECORDS)


def ask_of(
    operation: str | None = None,
    material: str | None = None,
    cutter: str | None = None,
    cutter_material: str | None = None,
    machine: str | None = None,
    diameter: float | None = None,
) -> PastAsk:
    """What is asked, each word read into its row.

    Raises
    ------
    TradeError
        A word that no row knows, with the nearest that one does; a diameter out of range.
    """
    row, stage = named_operation(operation) if operation is not None else (None, "")
    work = work_group(material) if material is not None else None
    if diameter is not None:
        require_within("diameter", diameter, "mm", LEAST_DIAMETER, GREATEST_DIAMETER)
    return PastAsk(
        operation=row["operation"] if row else "",
        stage=stage,
        material=work.material.name if work and work.material else "",
        group=work.name if work else "",
        cutter=_words(cutter),
        cutter_material=_edge(cutter_material) if cutter_material is not None else "",
        machine=_words(machine),
        diameter=diameter,
        material_text=material or "",
    )


def _words(text: str | None) -> str:
    return " ".join((text or "").split()).casefold()


def _edge(text: str) -> str:
    try:
        return named_cutter(text)[0]["cutter"]
    except TradeError as error:
        raise TradeError(error.message, hint=error.hint, argument="cutter_material") from None


def call_past(
    call: t.Call,
    evaluate: Callable[[t.Node], PageValue],
    working: Working,
    answer: Answer | None,
) -> Past:
    """Answer a page's `past(…)`: from a log's records, or where there is no log, with none.

    Raises
    ------
    Mistake
        Nothing is asked, a word is not known, or nothing is known of it.
    Waits
        The log is not far enough to answer.
    """
    given, arguments = arguments_of(PAST, call, evaluate, working)
    if not any(value not in (None, "") for value in arguments.values()):
        *names, last = (parameter.name for parameter in PAST.parameters)
        raise Mistake(NOTHING_ASKED, call.span, arguments=f"{', '.join(names)} and {last}")
    try:
        found = answer(ask_of(**arguments)) if answer else past(**arguments)
    except TradeError as error:
        node = given.get(error.argument)
        raise refused(error, node.span if node is not None else call.span) from None
    source = f"the handbook: {found.from_handbook}" if found.from_handbook else OWN_RECORDS
    keep_use(replace(PAST, source=source), arguments, found, call, working)
    return found


def from_handbook(ask: PastAsk, why: str, **known: Any) -> Past:
    """The handbook's range for what is asked, where no record went well.

    Parameters
    ----------
    ask : PastAsk [-]
        What is asked.
    why : str [-]
        Why no record is behind the figures.
    known [-]
        What is known all the same: the counts, `went_poorly`, `notes`.

    Raises
    ------
    TradeError
        The handbook has no range for it either, or operation and material are not both asked.
    """
    counts = dict.fromkeys(("count", "good", "usable", "poor", "spoiled"), 0)
    if not (ask.operation and ask.group):
        missing = "material" if ask.operation else "operation" if ask.group else ""
        raise TradeError(
            f"{why}, and a handbook's range goes by operation and material",
            hint=f"give {missing}=…" if missing else "give operation=… and material=…",
        )
    cut = _range(ask, why)
    told = [f"{why}: these figures are the handbook's, and nobody's own"]
    if not ask.cutter_material:
        told.append(f"{USUAL_CUTTER} is taken for the cutter: cutter_material says another")
    notes = (*told, *known.pop("notes", ()), *cut.notes)
    fields = {**counts, **_figures_of(cut), **known}
    return Past(
        operation=ask.operation,
        material=cut.group,
        from_handbook=cut.source,
        notes=notes,
        cautions=cut.cautions,
        **fields,
    )


def _range(ask: PastAsk, why: str) -> CuttingRange:
    operation = f"{ask.operation}, {ask.stage}" if ask.stage else ask.operation
    edge = ask.cutter_material or USUAL_CUTTER
    try:
        cut = cutting_range(operation, ask.material_text, edge, ask.diameter)
    except TradeError as error:
        argument = "cutter_material" if error.argument == "cutter" else error.argument
        hint = error.hint.replace("the cutter:", "cutter_material:")
        raise TradeError(f"{why}, and {error.message}", hint=hint, argument=argument) from None
    if cut.speed_min is None and cut.feed_band() is None:
        raise TradeError(f"{why}, and {ask.operation} has no range in a handbook")
    return cut


def _figures_of(cut: CuttingRange) -> dict[str, float | None]:
    bands = {
        "cutting_speed": (cut.speed_min, cut.speed_max),
        "feed_per_rev": (cut.feed_per_rev_min, cut.feed_per_rev_max),
        "feed_per_tooth": (cut.feed_per_tooth_min, cut.feed_per_tooth_max),
        "speed": (cut.spindle_speed_min, cut.spindle_speed_max),
    }
    made: dict[str, float | None] = {"depth_of_cut_most": cut.depth_max}
    for name, (least, most) in bands.items():
        if least is not None and most is not None:
            made |= {name: (least + most) / 2, f"{name}_least": least, f"{name}_most": most}
    return made
