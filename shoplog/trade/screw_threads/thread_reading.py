"""Reading a thread's designation: which family it is of, and what may follow its size.

Each family's reader is a pattern and a function from the pattern's groups to a thread. The first
pattern that fits the whole text is taken.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache

from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.thread_record import Thread

__all__ = ["SIZE", "Endings", "Rules", "endings", "number", "read", "refused", "written_size"]

LONGEST = 60
SIDES = ("internal", "external")
HELD = (
    "ISO metric (M6x1), UNC, UNF, UNEF and UN (1/4-20 UNC), BSW and BSF (1/4 BSW), BA (2 BA),"
    " G, R, Rp and Rc (G1/2), Tr (Tr 16x4), Acme (1/2-10 ACME) and NPT (1/4-18 NPT)"
)
SIZE = r"(?:#|No\. ?|No )?[0-9]+(?:[- ][0-9]+/[0-9]+|/[0-9]+)?|[0-9]*\.[0-9]+"
_SAME = str.maketrans({"×": "x", "X": "x", "−": "-", "–": "-", "\u00a0": " ", "\t": " "})
_STARTS = re.compile(r"[- ]?\(?([0-9]+) STARTS?\)?(?=$|[- ])", re.IGNORECASE)

Class = Callable[[str], "tuple[str, str] | None"]
Reader = tuple["re.Pattern[str]", Callable[..., Thread]]


def refused(message: str, hint: str = "") -> TradeError:
    """What is raised when a designation is refused."""
    return TradeError(message, hint=hint, argument="designation")


def number(text: str, digits: str) -> float:
    """A number as a standard writes it, with a decimal point."""
    if not re.fullmatch(r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+", digits):
        raise refused(f'{digits} in "{text}" is no number')
    return float(digits)


def written_size(size: str) -> str:
    """An inch size as the tables have it: `1-1/2`, `#10`."""
    return re.sub(r"No\.? ?", "#", size).replace(" ", "-")


@cache
def _readers() -> tuple[Reader, ...]:
    from shoplog.trade.screw_threads import (  # they use this module
        thread_families,
        thread_pipes,
        thread_series,
    )

    return (*thread_families.READERS, *thread_pipes.READERS, *thread_series.READERS)


@lru_cache(maxsize=1024)
def read(text: str) -> Thread:
    """The thread that a designation names.

    Raises
    ------
    TradeError
        The text is no designation of a family that is held, or its standard has no such thread.
    """
    if len(text) > LONGEST:
        raise refused(
            f"a thread designation has at most {LONGEST} characters, this has {len(text)}"
        )
    if re.search(r"[0-9],[0-9]", text):
        raise refused(f'"{text}" has a decimal comma', "write a decimal point")
    plain = " ".join(text.translate(_SAME).split())
    for pattern, reader in _readers():
        if found := pattern.fullmatch(plain):
            return reader(text, *found.groups())
    hint = 'a metric thread begins with a capital M: "M6"' if re.match("m ?[0-9]", plain) else ""
    raise refused(f'"{text}" is no thread that is held', hint or f"held are {HELD}")


# ---- what follows the size -------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Rules:
    """What a family's standard lets follow the size."""

    standard: str
    example: str
    tolerance: Class
    """A class and the side it stands for, or nothing where the word is no class."""
    groups: tuple[str, ...] = ()
    """Letters for the length of engagement."""
    sides: bool = False
    """Whether the words `internal` and `external` may follow, where the class says no side."""
    starts: bool = False
    """Whether `2 STARTS` may follow."""
    hand_first: bool = False
    """Whether the hand may stand before the class."""
    says_side: str = ""
    """Classes of both sides, where the class says the side: `6g is external, 6H internal`."""


@dataclass(frozen=True, slots=True)
class Endings:
    """What follows the size, read: the ending as the standard writes it, and what it says."""

    text: str
    hand: str
    side: str
    tolerance_class: str
    starts: int
    notes: tuple[str, ...]


def endings(text: str, rest: str, rules: Rules) -> Endings:
    """What follows the size in a designation.

    Raises
    ------
    TradeError
        A word that the standard does not write there, or a pair of threads.
    """
    starts, rest = _starts(text, rest, rules)
    said = dict.fromkeys(("hand", "side", "class", "group"), "")
    said_side = ""
    for word in _words(rest):
        if "/" in word:
            raise refused(
                f'"{text}" states both threads of a pair', "one class a thread, then mate them"
            )
        kind, value, side = _word(word, said, rules)
        if not kind:
            raise _side_word(word, rules) or refused(
                f"{word} is nothing that {rules.standard} writes here",
                f"{rules.example} may follow",
            )
        said[kind], said_side = value, side or said_side
    notes: tuple[str, ...] = ()
    if group := said["group"]:
        notes = (f"length of engagement {group} is read and not worked with",)
    ending = _written(said, starts)
    hand = "left" if said["hand"] else "right"
    return Endings(ending, hand, said_side, said["class"], starts, notes)


def _side_word(word: str, rules: Rules) -> TradeError | None:
    """What is said to `internal` or `external` where the class has said it; nothing to others."""
    if not rules.says_side or word.lower() not in SIDES:
        return None
    return refused(
        f"{rules.standard} writes no {word}: the class says which side of the pair a thread is on",
        rules.says_side,
    )


def _words(rest: str) -> Iterator[str]:
    yield from (word for word in rest.replace("-", " ").split(" ") if word)


def _word(word: str, said: dict[str, str], rules: Rules) -> tuple[str, str, str]:
    """Which of the endings a word is, how it is written, and the side that it says."""
    if word == "LH" and not said["hand"]:
        return "hand", word, ""
    if word in rules.groups and not said["group"]:
        return "group", word, ""
    if rules.sides and word.lower() in SIDES and not said["side"]:
        return "side", word.lower(), word.lower()
    late = said["hand"] and not rules.hand_first
    if not said["class"] and not late and (found := rules.tolerance(word)):
        return "class", *found
    return "", "", ""


def _written(said: dict[str, str], starts: int) -> str:
    parts = [said["class"], said["group"], said["hand"]]
    if starts > 1:
        parts.append(f"{starts} STARTS")
    side = f" {said['side']}" if said["side"] else ""
    return "".join(f"-{part}" for part in parts if part) + side


def _starts(text: str, rest: str, rules: Rules) -> tuple[int, str]:
    """How many starts an ending says, and the ending without them."""
    found = _STARTS.search(rest)
    if not found or not rules.starts:
        return 1, rest
    starts = int(found[1])
    if not 1 <= starts <= 12:
        raise refused(f'"{text}" has {starts} starts; 1 to 12 are worked with')
    return starts, rest[: found.start()] + rest[found.end() :]
