"""Kinds of work: which operation a setup names, and what its figures need to know of it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from shoplog.log.profile.shop import Holder, Machine
from shoplog.values import Value

__all__ = ["OPERATIONS", "Cut", "Operation", "operation_of"]


@dataclass(frozen=True, slots=True)
class Operation:
    """A kind of work: which family's kinematics it has, and whether its removal rate is known."""

    word: str
    family: str
    """`turning`, `milling` or `drilling`."""
    removes: bool = True


OPERATIONS: tuple[Operation, ...] = (
    *(Operation(word, "turning") for word in ("turning", "facing", "boring")),
    *(
        Operation(word, "turning", removes=False)
        for word in ("parting", "grooving", "threading", "screw cutting", "knurling")
    ),
    *(Operation(word, "milling") for word in ("milling", "slotting", "slot drilling", "slitting")),
    Operation("drilling", "drilling"),
    *(
        Operation(word, "drilling", removes=False)
        for word in ("reaming", "countersinking", "counterboring", "spotting", "tapping")
    ),
)
_OPERATION = {one.word: one for one in OPERATIONS}
_WORDS = re.compile(rf"\b({'|'.join(sorted(_OPERATION, key=len, reverse=True))})\b")
MOST_OPERATION = 200


def operation_of(text: str, machine_kind: str = "") -> Operation | None:
    """The operation that a text names first; facing on a mill is milling.

    >>> operation_of("taper turning, finish").family
    'turning'
    """
    found = _WORDS.search(text[:MOST_OPERATION].casefold())
    made = _OPERATION[found[1]] if found else None
    if made and made.word == "facing" and "mill" in machine_kind.split():
        return Operation("facing", "milling")
    return made


@dataclass(frozen=True, slots=True)
class Cut:
    """What a setup says above its runs, as far as the figures need it."""

    operation: Operation | None = None
    operation_text: str = ""
    diameter: Value | None = None
    diameter_is: str = "diameter"
    """Which diameter it is: of the work, of the hole or of the cutter."""
    cutter_diameter: Value | None = None
    teeth: Value | None = None
    machine: Machine | None = None
    holder: Holder | None = None
