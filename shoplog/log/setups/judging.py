"""A run judged: what of cutter, machine, holding and finish gives way first.

What the setup and the shop profile say goes to `judged_cut` as it is; nothing is guessed, and what
is missing is named in its answer.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from shoplog.log.profile.shop import Machine
from shoplog.log.report import Derived, SetupField
from shoplog.log.setups.cutters import Cutter
from shoplog.log.setups.figures import BY_HAND
from shoplog.log.setups.operations import Cut
from shoplog.problems import Grade, Mistake, message
from shoplog.trade.declare import TradeError
from shoplog.trade.hardness import hardness_to
from shoplog.trade.judging.judging import judged_cut
from shoplog.trade.judging.judging_record import JudgedCut, Limit
from shoplog.trade.machining.cutting_naming import work_group
from shoplog.trade.materials import material_known
from shoplog.units import UnitMismatch, unit
from shoplog.values import Value

__all__ = ["findings_of", "hardness_mistake", "judge_run", "material_known_by"]

BEYOND_LIMIT = message(
    "setup-beyond-limit",
    "{what} is beyond its limit: {against}",
    hint="{change}",
    example="",
)
MAY_BE_BEYOND = message(
    "setup-near-limit",
    "{what} {how}: {against}",
    hint="{change}",
    example="",
    grade=Grade.CAUTION,
)

HARDNESS = message(
    "setup-hardness",
    "the {said}",
    hint="no steel of the table has that number: is the scale another?",
    example="```setup\nmaterial: C45, 70 HRC\nplanned:\n  speed: 200 rpm\n```\n",
)
HARDER = message(
    "setup-harder",
    "{stated} is harder than the row of {name}, {greatest} at most: its speeds and forces are for"
    " that",
    hint="a row of that condition, or `unknown steel`",
    example="```setup\nmaterial: C45, 45 HRC\nplanned:\n  speed: 200 rpm\n```\n",
    grade=Grade.CAUTION,
)

# Told at the value of the key already, by the figures.
_TOLD = frozenset(
    ("spindle speed", "slowest spindle speed", "chuck's marked speed", "width of cut")
)
_SHAPE = re.compile(
    r"\s+(?:flat |round |square |hex(?:agon)? )?(?:plate|bar|rod|sheet|tube|strip|stock|casting)$",
    re.IGNORECASE,
)
_HARDNESS = re.compile(r"\b\d+(?:\.\d+)?\s*(?:HRC|HRB|HRA|HBW?|HV)\b")
_FERROUS = frozenset("PMKH")


def judge_run(
    fields: dict[str, SetupField],
    above: dict[str, SetupField],
    cut: Cut,
    cutter: Cutter | None,
    derived: tuple[Derived, ...],
) -> tuple[JudgedCut | None, str]:
    """Judge a plan or a run; where it cannot be judged, why not.

    Parameters
    ----------
    fields, above : mapping [-]
        The run's own lines, and those above the runs.
    cut : Cut [-]
        Operation, diameters, teeth, machine and holder, as the figures took them.
    cutter : Cutter [-]
        The cutter, where one is named.
    derived : tuple of Derived [-]
        The run's figures: the speed of the spindle may be one of them.
    """
    speed = _number(_speed(fields, derived), "rpm")
    if not cut.operation_text or "material" not in above or speed is None:
        return None, ""
    given: dict[str, Any] = {
        "spindle_speed": speed,
        **_feed(fields),
        **_sizes(fields, above, cut, cutter),
        **(_machine(cut.machine) if cut.machine else {}),
        **_words(fields, above),
    }
    if cut.holder is not None and cut.holder.marked_speed is not None:
        given["chuck_speed"] = _number(cut.holder.marked_speed, "rpm")
    if cutter is not None and cutter.material:
        given["cutter"] = cutter.material
    if cutter is not None:
        given["cutter_speed"] = _number(cutter.marked_speed, "rpm")
    known = {name: value for name, value in given.items() if value is not None}
    try:
        material = material_known_by(above["material"].text)
        return judged_cut(cut.operation_text, material, **known), ""
    except TradeError as error:
        return None, f"not judged: {error.message}"


@lru_cache(maxsize=512)  # the line's check, its hardness and each run of the setup ask the same
def material_known_by(text: str) -> str:
    """The name that the materials know, of a line such as `gauge plate, annealed`.

    >>> material_known_by("mild steel plate")
    'mild steel'

    Raises
    ------
    TradeError
        No row and no group goes by it.
    """
    name = text.partition(",")[0].strip()
    for candidate in (text, name, _SHAPE.sub("", name)):
        try:
            work_group(candidate)
        except TradeError:
            continue
        return candidate
    work_group(name)
    return name


def hardness_mistake(text: str) -> Mistake | None:
    """What is wrong with the hardness that a line such as `C45, 45 HRC` states, if anything.

    Steels and irons alone: the table between the scales knows no others.
    """
    met = _HARDNESS.search(text.partition(",")[2])
    known = material_known(material_known_by(text)) if met else None
    if met is None or known is None or known.iso_group not in _FERROUS:
        return None
    try:
        stated = hardness_to(met[0], "HV")
    except TradeError as error:
        return Mistake(HARDNESS, said=error.message)
    greatest = known.hardness_greatest
    if greatest is None or stated.number <= hardness_to(greatest, "HV").number:
        return None
    return Mistake(HARDER, stated=met[0], name=known.name, greatest=str(greatest))


def findings_of(judged: JudgedCut) -> list[Mistake]:
    """The limits that are passed, or may be; one that the figures tell already is left out.

    A feed or depth that a handbook's band does not hold is no finding: the card says it.
    """
    found = []
    for limit in judged.limits:
        gentle = limit.kind == "range" and limit.what != "cutting speed"
        if limit.verdict == "within" or limit.what in _TOLD or gentle:
            continue
        beyond = limit.hard and limit.verdict == "beyond"
        found.append(_finding(limit, BEYOND_LIMIT if beyond else MAY_BE_BEYOND))
    return found


def _finding(limit: Limit, found: Any) -> Mistake:
    how = "is past what is usual" if limit.verdict == "beyond" else "may be beyond its limit"
    change = f"the nearest change that helps: {limit.change}" if limit.change else ""
    return Mistake(found, what=limit.what, against=limit.against, change=change, how=how)


def _speed(fields: dict[str, SetupField], derived: tuple[Derived, ...]) -> Any:
    figures = {figure.label: figure.value for figure in derived}
    given = fields["speed"].value if "speed" in fields else None
    return given or figures.get("step") or figures.get("spindle speed")


def _number(value: Any, name: str) -> float | None:
    """A value in a unit, or nothing where it is of another kind."""
    if not isinstance(value, Value):
        return None
    try:
        return value.to(unit(name), loose=True).nominal
    except UnitMismatch:
        return None


def _feed(fields: dict[str, SetupField]) -> dict[str, Any]:
    value = fields["feed"].value if "feed" in fields else None
    if value == BY_HAND:
        return {"feed_by": "hand"}
    if not isinstance(value, Value):
        return {}
    dimension = {name for name, _ in value.unit.dimension}
    name, of = (
        ("feed_rate", "mm/min")
        if "time" in dimension
        else ("feed_per_tooth", "mm/tooth")
        if "tooth" in dimension
        else ("feed_per_rev", "mm/rev")
    )
    return {name: _number(value, of)}


def _sizes(
    fields: dict[str, SetupField], above: dict[str, SetupField], cut: Cut, cutter: Cutter | None
) -> dict[str, Any]:
    def of(key: str, where: dict[str, SetupField]) -> float | None:
        return _number(where[key].value, "mm") if key in where else None

    slotted = cut.operation_text.casefold().startswith("slot milling")
    bored = cut.operation_text.casefold().startswith("boring")  # the cutter's size is the bar's
    drilled = cut.operation is not None and cut.operation.family == "drilling"
    return {
        "depth_of_cut": of("depth of cut", fields),
        "width_of_cut": of("width of cut", fields),
        "slot_width": of("slot width", above) or (of("width of cut", fields) if slotted else None),
        **_passes(fields, above),
        "diameter": _number(cut.diameter, "mm") if drilled else of("diameter", above),
        "cutter_diameter": _number(cut.cutter_diameter, "mm"),
        "teeth": _number(cut.teeth, "tooth/rev"),
        "nose_radius": _number(cutter.nose_radius, "mm") if cutter else None,
        "shank_diameter": _number(cut.cutter_diameter, "mm") if bored else None,
        "tolerance": of("tolerance", above),
        "wanted_ra": _number(above["roughness"].value, "um") if "roughness" in above else None,
        "stick_out": of("stick-out", above),
        "length": of("length", above),
    }


def _passes(fields: dict[str, SetupField], above: dict[str, SetupField]) -> dict[str, Any]:
    """How many passes, where it is said what they must come to."""
    if "total depth" not in above:
        return {}
    passes = fields["passes"].value if "passes" in fields else None
    return {
        "passes": _number(passes, ""),
        "total_depth": _number(above["total depth"].value, "mm"),
    }


def _machine(machine: Machine) -> dict[str, Any]:
    """What the shop profile says of a machine; of the backlash of several slides the largest."""
    steps = [number for step in machine.steps if (number := _number(step, "rpm"))]
    return {
        "spindle_steps": steps or None,
        "least_speed": _number(machine.slowest, "rpm"),
        "most_speed": _number(machine.limit, "rpm") if not steps else None,
        "power": _number(machine.power, "kW"),
        "torque": _number(machine.torque, "N*m"),
        "drive_force": _number(machine.feed_force, "N"),
        "backlash": _number(machine.backlash.largest, "mm") if machine.backlash else None,
        "table": _table(machine.table_lock),
    }


def _table(lock: str) -> str:
    """How the table is held, by the words of the shop profile."""
    if lock == "compensated screws":
        return "compensated"
    return "locked" if lock in ("both slides", "one slide", "yes") else "free"


def _words(fields: dict[str, SetupField], above: dict[str, SetupField]) -> dict[str, Any]:
    direction, holding = above.get("direction"), above.get("holding")
    coolant = fields["coolant"].text.casefold() if "coolant" in fields else ""
    return {
        "direction": direction.value if direction else None,
        "holding": _holding(holding.text.casefold()) if holding else None,
        "coolant": "dry" if coolant in ("none", "no", "dry", "air") else None,
    }


def _holding(text: str) -> str | None:
    """How the work is held, as `judged_cut` knows it."""
    if "centres" in text:
        return "centres"
    if "chuck" in text:
        return "chuck and centre" if "centre" in text else "chuck"
    return None
