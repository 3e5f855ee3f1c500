"""The words of a cut: operation, cutter, material and rigidity, each read into a row of a table."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from shoplog.problems import near
from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.stages import STAGES
from shoplog.trade.materials import Material, material_known

__all__ = [
    "WorkGroup",
    "cutter_known",
    "named_coolant",
    "named_cutter",
    "named_feed",
    "named_operation",
    "named_rigidity",
    "operation_known",
    "work_group",
]

LONGEST_TEXT = 60
SHOWN = 40

Row = dict[str, str]


@dataclass(frozen=True, slots=True)
class WorkGroup:
    """The group whose figures hold for a material, and what has to be said of that."""

    row: Row
    material: Material | None
    """The material, where its own row was found."""
    notes: tuple[str, ...]

    @property
    def name(self) -> str:
        """The group's name."""
        return self.row["group"]


def _key(text: str) -> str:
    return re.sub(r"[\s,_‐–-]", "", text).casefold()


def _shown(text: str) -> str:
    return '"' + " ".join(text.split())[:SHOWN] + '"'


@cache
def _names(name: str, column: str) -> dict[str, tuple[Row, bool]]:
    """The rows of a table by every word for them, and whether the word means more than the row."""
    found: dict[str, tuple[Row, bool]] = {}
    for row in table(name).rows:
        exact = (row[column], *row["words"].split(";"))
        found |= {_key(word): (row, False) for word in exact if word}
        found |= {_key(word): (row, True) for word in row.get("wider", "").split(";") if word}
    return found


def _spelt(name: str, column: str) -> tuple[str, ...]:
    rows = table(name).rows
    return tuple(w for row in rows for w in (row[column], *row["words"].split(";")) if w)


def _unknown(
    what: str, text: str, known: Iterable[str], shown: Iterable[str], argument: str = ""
) -> TradeError:
    close = near(text[:LONGEST_TEXT], known)
    hint = f"did you mean {close}?" if close else f"such as {', '.join(shown)}"
    article = "an" if what[0] in "aeiou" else "a"
    message = f"{_shown(text)} is not {article} {what} that is known here"
    return TradeError(message, hint=hint, argument=argument or what)


def named_operation(text: str) -> tuple[Row, str]:
    """The row of an operation and its stage: `rough`, `finish` or nothing.

    >>> row, stage = named_operation("turning, finish")
    >>> row["operation"], stage
    ('turning', 'finish')
    """
    row, stages = _operation(text)
    if len(stages) > 1:
        raise TradeError(f"{_shown(text)} is rough and finish at once", argument="operation")
    if row is None:
        spelt = _spelt("cutting_operations", "operation")
        raise _unknown("operation", text, spelt, ("turning", "drilling", "slot milling"))
    return row, "".join(stages)


def operation_known(text: str) -> tuple[Row, str] | None:
    """The row of an operation and its stage; nothing where no row has it, or it has two stages."""
    row, stages = _operation(text)
    return (row, "".join(stages)) if row is not None and len(stages) < 2 else None


def _operation(text: str) -> tuple[Row | None, set[str]]:
    words = re.split(r"[\s,]+", text[:LONGEST_TEXT].casefold().strip())
    rest = " ".join(word for word in words if word not in STAGES)
    row, _ = _names("cutting_operations", "operation").get(_key(rest), (None, False))
    return row, {STAGES[word] for word in words if word in STAGES}


def named_cutter(text: str) -> tuple[Row, tuple[str, ...]]:
    """The row of a cutter material, and what has to be said of the word for it.

    >>> named_cutter("high-speed steel")[0]["cutter"]
    'HSS'
    """
    row, wider = _cutter(text)
    if row is None:
        spelt = _spelt("cutting_cutters", "cutter")
        names = tuple(row["cutter"] for row in table("cutting_cutters").rows)
        raise _unknown("cutter", text, spelt, names)
    return row, (row["stands"],) if wider else ()


def cutter_known(text: str) -> Row | None:
    """The row of a cutter material; nothing where no row has it."""
    return _cutter(text)[0]


def _cutter(text: str) -> tuple[Row | None, bool]:
    if len(text) > LONGEST_TEXT:
        return None, False
    return _names("cutting_cutters", "cutter").get(_key(text), (None, False))


def named_rigidity(text: str) -> Row:
    """The row of a rigidity.

    >>> named_rigidity("light")["feed_factor"]
    '0.5'
    """
    return _of_kind("rigidity", text)


def named_coolant(text: str) -> Row:
    """The row of a way of cooling."""
    return _of_kind("coolant", text)


def named_feed(text: str) -> Row:
    """The row of what moves the feed: power or the hand."""
    return _of_kind("feed_by", text)


def _of_kind(kind: str, text: str) -> Row:
    rows = [row for row in table("cutting_corrections").rows if row["kind"] == kind]
    names = [row["word"] for row in rows]
    for row in rows:
        if row["word"] == text.strip().casefold():
            return row
    what = "way to feed" if kind == "feed_by" else kind
    raise _unknown(what, text, names, names, kind)


def work_group(text: str) -> WorkGroup:
    """The group of a material, by any name of the material or of the group.

    >>> work_group("EN8").name, work_group("ISO K").name
    ('medium-carbon steel', 'grey cast iron')
    """
    found = material_known(text)
    if found is not None:
        row = _row_of(found)
        if row is None:
            raise TradeError(
                f"there are no cutting data for {found.name}",
                hint="the group of one that cuts like it",
                argument="material",
            )
        return WorkGroup(row, found, _stands_for(text, found, row["group"]))
    named = _names("cutting_work_groups", "group").get(_key(text[:LONGEST_TEXT]))
    if named is None:
        spelt = (
            *_spelt("cutting_work_groups", "group"),
            *(row["name"] for row in table("materials").rows),
        )
        raise _unknown("material", text, spelt, ("low-carbon steel", "1.0503", "brass", "ISO M"))
    row, wider = named
    return WorkGroup(row, None, (row["stands"],) if wider else ())


def _row_of(material: Material) -> Row | None:
    """The group that names a material, else the one of its family and cutting group."""
    rows = table("cutting_work_groups").rows
    number = (material.cutting_group or "").partition(":")[0]
    asked = f"{material.family}/{number}"
    named = (row for row in rows if material.name in row["materials"].split(";"))
    matched = (row for row in rows if asked in row["matches"].split(";"))
    return next(named, None) or next(matched, None)


def _stands_for(text: str, material: Material, group: str) -> tuple[str, ...]:
    if _key(group) in (_key(material.name), _key(text)):
        return ()
    return (f"{group} stands for {material.name}: no source read has a row of its own for it",)
