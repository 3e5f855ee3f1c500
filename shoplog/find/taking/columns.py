"""What the columns of a spreadsheet can be, and which of them its headings name.

What a cell may become is read off the keys of a setup; beside them stand what makes the pages and
the words of a cutter. The columns of our own export are known by their exact names.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from shoplog.find.record import FIGURES, RECORD
from shoplog.find.taking.numbers import unit_of
from shoplog.log.setups.keys import SETUP_KEYS, Reads
from shoplog.units import alike, unit

__all__ = [
    "PLANNED",
    "SKIP",
    "TARGETS",
    "Guess",
    "Target",
    "fits",
    "heading_guess",
    "is_own_export",
]

SKIP = "skip"
PLANNED = "planned "
YES_NO = ("yes", "no")


@dataclass(frozen=True, slots=True)
class Target:
    """What a column becomes; `under` is where: `setup`, `planned`, `ran`, or `page`, `cutter`."""

    name: str
    key: str
    under: str
    reads: Reads
    doc: str
    units: tuple[str, ...] = ()
    """For a quantity: a unit of each kind that it may be of."""
    choices: tuple[str, ...] = ()


def _targets() -> Iterator[Target]:
    for key in SETUP_KEYS.values():
        # A speed may turn out to be one of the edge, by its unit.
        units = (*key.units, "m/min") if key.name == "speed" else key.units
        told = (key.reads, key.doc, units, key.choices)
        if "setup" in key.where and key.reads is not Reads.LINES:
            yield Target(key.name, key.name, "setup", *told)
        elif key.reads is not Reads.LINES:
            yield Target(key.name, key.name, "ran", *told)
            yield Target(PLANNED + key.name, key.name, "planned", *told)
    hand = (Reads.ONE_OF, "`yes` where it was fed by hand.", (), YES_NO)
    yield Target("by hand", "feed", "ran", *hand)
    yield Target(f"{PLANNED}by hand", "feed", "planned", *hand)
    yield Target("cutter kind", "kind", "cutter", Reads.TEXT, "What kind of cutter it is.")
    yield Target("cutter material", "material", "cutter", Reads.TEXT, "What its edge is of.")
    docs = {known.name: known.doc for known in RECORD}
    for name, field in (("nose radius", "nose_radius_mm"), ("cutter width", "cutter_width_mm")):
        word = name.removeprefix("cutter ")
        yield Target(name, word, "cutter", Reads.QUANTITY, docs[field], ("mm",))
    yield Target("project", "project", "page", Reads.TEXT, "Its folder is called after it.")
    yield Target("part", "part", "page", Reads.TEXT, "A page of its own for each.")
    yield Target("page", "page", "page", Reads.TEXT, "What the page's file is called.")
    yield Target(SKIP, SKIP, SKIP, Reads.TEXT, "Nothing.")


TARGETS = {one.name: one for one in _targets()}
"""Every name that a mapping file may give a column."""


@dataclass(frozen=True, slots=True)
class Guess:
    """What a heading names: nothing where it cannot be told; its unit where it says one."""

    target: Target | None
    unit: str = ""


@cache
def fits(name: str, wanted: tuple[str, ...]) -> bool:
    """Whether a unit measures what one of others does."""
    return any(alike(unit(name), unit(one)) for one in wanted)


# What people call a column, in small letters; the first word is the target, and `feed /rev` is a
# feed whose unit of length is one of a revolution.
_CALLED = {
    "date": "day|when",
    "step": "op no|op number|operation no|operation number|sequence",
    "operation": "op|process|job type|cut type|type of cut|operation type",
    "feature": "surface",
    "diameter": "dia|diam|ø|work diameter|work dia|workpiece diameter|stock diameter|stock dia"
    "|bar diameter|hole diameter|hole dia",
    "length": "length of cut|cut length|cutting length",
    "material": "mat|matl|work|work material|workpiece material|stock|stock material|metal",
    "cutter": "tool|tool used|cutting tool|bit",
    "cutter diameter": "cutter dia|tool diameter|tool dia|end mill diameter|end mill dia"
    "|drill diameter|drill dia",
    "cutter material": "tool material|edge material",
    "nose radius": "tool nose radius|tnr",
    "cutter width": "tool width|blade width|saw width",
    "teeth": "flutes|flute count|no of flutes|number of flutes|no of teeth|number of teeth|tooth",
    "machine": "machine tool",
    "holding": "workholding|work holding|held in",
    "stick-out": "stickout|overhang|tool overhang",
    "direction": "cut direction|milling direction",
    "roughness": "ra|surface roughness",
    "speed": "spindle speed|spindle rpm|spindle|revs|n",
    "cutting speed": "vc|v c|surface speed|edge speed",
    "feed": "f|feed rate|feedrate",
    "feed /rev": "feed per rev|feed per revolution|feed rev|fn|f n",
    "feed /tooth": "feed per tooth|feed tooth|fz|f z|chip load|chipload",
    "feed /min": "feed per minute|feed per min|table feed|vf|v f",
    "depth of cut": "doc|depth|cut depth|ap|a p|axial depth|axial doc",
    "width of cut": "woc|stepover|step over|ae|a e|radial depth|radial doc",
    "passes": "cuts|no of passes|number of passes",
    "coolant": "lubricant|lube|cutting fluid|cutting oil",
    "outcome": "result|results|rating",
    "fault": "faults|problem|problems|issue|issues|defect|defects",
    "remarks": "remark|notes|note|comments|comment|observations",
    "pictures": "picture|photos|photo|images",
    "project": "job|job name|project name",
    "part": "component|part name",
}
_NAMES = {
    **{name.replace("-", " "): name for name in TARGETS if name != SKIP},
    **{word: name for name, words in _CALLED.items() for word in words.split("|")},
}

# Which target the fields of a record are in our own export; `skip` is worked out again.
_OF_FIELD = {
    **{name: name for name in ("page", "date", "project", "part", "step", "feature", "operation")},
    **{name: name for name in ("material", "cutter", "teeth", "machine", "holding", "direction")},
    **{name: name for name in ("outcome", "fault", "remarks", "pictures", "private")},
    "stick_out_mm": "stick-out",
    "diameter_mm": "diameter",
    "length_mm": "length",
    "cutter_kind": "cutter kind",
    "cutter_material": "cutter material",
    "cutter_diameter_mm": "cutter diameter",
    "nose_radius_mm": "nose radius",
    "cutter_width_mm": "cutter width",
    "spindle_speed_rpm": "speed",
    "cutting_speed_m_per_min": "cutting speed",
    "feed_per_rev_mm": "feed",
    "feed_per_tooth_mm": "feed",
    "feed_rate_mm_per_min": "feed",
    "by_hand": "by hand",
    "depth_of_cut_mm": "depth of cut",
    "width_of_cut_mm": "width of cut",
    "passes": "passes",
    "coolant": "coolant",
}


def _own() -> dict[str, Guess]:
    made = {}
    for known in RECORD:
        made[known.name] = Guess(TARGETS[_OF_FIELD.get(known.name, SKIP)], known.unit)
    for known in FIGURES:
        name = _OF_FIELD.get(known.name, SKIP)
        planned = name if name == SKIP else PLANNED + name
        made[f"ran_{known.name}"] = Guess(TARGETS[name], known.unit)
        made[f"planned_{known.name}"] = Guess(TARGETS[planned], known.unit)
    return made


_OWN = _own()


def is_own_export(headings: list[str]) -> bool:
    """Whether headings are those of `shoplog export`, by what no other sheet has."""
    return {"page", "anchor", "ran_spindle_speed_rpm"} <= set(headings)


_BRACKETED = re.compile(r"(?P<name>[^(\[]*)[(\[](?P<unit>[^)\]]*)[)\]]\s*")
_APART = re.compile(r"[\s_\-.:*]+")
_OF_SPEED = ("m/min", "ft/min", "m/s")  # a feed is told in smaller lengths
_RUNS = {"planned": "planned", "plan": "planned", "ran": "ran", "actual": "ran"}


@cache
def heading_guess(heading: str, own: bool = False) -> Guess:
    """What a heading names.

    >>> heading_guess("Feed (mm/rev)").target.name, heading_guess("Tool_dia_in").unit
    ('feed', 'in')
    >>> heading_guess("planned rpm").target.name
    'planned speed'

    Parameters
    ----------
    heading : str [-]
        As it stands in the sheet.
    own : bool [-]
        Whether the sheet is our own export.
    """
    if own:
        return _OWN.get(heading, Guess(None))
    text = heading.casefold().replace("#", " no ").strip()
    for name, named_unit in _parts(text):
        found = _named(name, named_unit)
        if found.target is not None:
            return found
    return Guess(None)


def _parts(text: str) -> list[tuple[str, str]]:
    """The ways to part a heading into a name and a unit."""
    bracketed = _BRACKETED.fullmatch(text)
    if bracketed:
        return [(bracketed["name"], unit_of(bracketed["unit"]))]
    words = _APART.sub(" ", text.replace(",", " ")).split()
    parts = []
    for count in (3, 2, 1):
        if len(words) >= count:
            name, end = " ".join(words[:-count]), words[-count:]
            parts += [(name, unit_of(" ".join(end))), (name, unit_of("/".join(end)))]
    return [*((name, found) for name, found in parts if found), (text, "")]


def _named(name: str, named_unit: str) -> Guess:
    """The target of a name, and its unit where that measures what the target is."""
    words = _APART.sub(" ", name).split()
    run = _RUNS.get(words[0], "") if words else ""
    plain = " ".join(words[1:] if run else words)
    if plain not in _NAMES and (alone := named_unit if not plain else unit_of(plain)):
        plain, named_unit = _by_unit(alone), alone
    called = _NAMES.get(plain)
    if called is None:
        return Guess(None)
    base, _, per = called.partition(" /")
    prefixed = PLANNED + base if run == "planned" else base
    target = TARGETS.get(prefixed)
    if per and named_unit and "/" not in named_unit:
        named_unit = unit_of(f"{named_unit}/{per}")
    if target is None or (named_unit and not (target.units and fits(named_unit, target.units))):
        return Guess(None)
    return Guess(target, named_unit)


def _by_unit(named_unit: str) -> str:
    """What a heading names that is a unit and nothing else: `RPM`, `ipm`."""
    if named_unit in _OF_SPEED:
        return "cutting speed"
    kinds = {"speed": ("rpm",), "feed": SETUP_KEYS["feed"].units}
    return next((key for key, units in kinds.items() if fits(named_unit, units)), "")
