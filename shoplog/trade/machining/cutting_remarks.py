"""What has to be said beside a range: its sources, who disagrees, and what can hurt."""

from __future__ import annotations

from functools import cache

from shoplog.tables import table
from shoplog.trade.machining.cutting_naming import Row, WorkGroup

__all__ = ["cautions_of", "disagreements", "operation_notes", "sourced"]

MM_PER_INCH = 25.4
METRES_PER_FOOT = 0.3048


def operation_notes(row: Row, work: WorkGroup, by_hand: bool, family: str) -> tuple[str, ...]:
    """What an operation is always told."""
    notes = ("by hand: no speed and no feed; feel decides",) if by_hand else ()
    return notes + _grinding_notes(work.name) if family == "grinding" else notes


def _grinding_notes(group: str) -> tuple[str, ...]:
    said = ["the speed is of the wheel's rim; its marked speed comes first"]
    for row in table("cutting_grinding").rows:
        if group in row["groups"].split(";"):
            low, high = (
                float(row[f"work_{end}_ft_min"]) * METRES_PER_FOOT for end in ("least", "greatest")
            )
            speed = f"{low:.0f}" if low == high else f"{low:.0f} to {high:.0f}"
            rough, finish = (float(row[f"{cut}_in"]) * MM_PER_INCH for cut in ("rough", "finish"))
            moves = "the work at" if row["kind"] == "cylindrical" else "the table at"
            said.append(
                f"{row['kind']} grinding: {moves} {speed} m/min, {rough:.2f} mm a pass roughing,"
                f" {finish:.3f} mm finishing (Machinery's Handbook, 31st ed.)"
            )
    return tuple(said)


def disagreements(row: Row, work: WorkGroup) -> tuple[str, ...]:
    """Where the sources of an operation in a group differ by more than a third."""
    return tuple(
        f"sources disagree: {each['says']}"
        for each in table("cutting_disagreements").rows
        if row["operation"] in each["operations"].split(";")
        and ({work.name, "*"} & set(each["groups"].split(";")))
    )


def cautions_of(row: Row, work: WorkGroup) -> tuple[str, ...]:
    """The operation's cautions, then the material's own or, for a group's name, the group's."""
    keys = row["cautions"].split()
    said = [
        each["caution"]
        for each in table("cutting_cautions").rows
        if ({work.name, "*"} & set(each["groups"].split(";")))
        and (each["key"] in keys or (each["key"] == "*" and _is_wanted(each, work)))
    ]
    return tuple(dict.fromkeys((*said, *(work.material.cautions if work.material else ()))))


def _is_wanted(row: Row, work: WorkGroup) -> bool:
    return row["groups"] == "*" or work.material is None or not work.material.cautions


@cache
def _source_keys(name: str) -> dict[str, str]:
    """What the keys of a table's head stand for; a head may use those of cutting_speeds too."""
    parts = table(name).head["source"].split("; ")
    named = (part.partition(" = ") for part in parts)
    found = {key.split()[-1]: text for key, equals, text in named if equals}
    return found if name == "cutting_speeds" else _source_keys("cutting_speeds") | found


def sourced(name: str, cell: str) -> str:
    """A row's source with its keys spelt out."""
    keys = _source_keys(name)
    words = cell.replace(";", " ").replace(":", " ").split()
    named = [keys[word] for word in dict.fromkeys(words) if word in keys]
    return f"{cell} ({'; '.join(named)})" if named else cell
