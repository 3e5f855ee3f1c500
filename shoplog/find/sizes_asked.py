"""A size that is asked for, as what the index holds of the sizes that equal it.

It is read as a page would read it, so `M8` is `M8x1.25`, and a size in inches equals the same size
in millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from shoplog.find.clean import clean
from shoplog.find.wrong import WrongQuestion
from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.thread_record import Thread
from shoplog.trade.taper_work.tapers import SAME_TAPER, Taper

if TYPE_CHECKING:
    from shoplog.values import Value

__all__ = ["SizeAsked", "asked_size", "asked_taper", "asked_thread", "thread_key", "thread_more"]

SAME_MM = 1e-6  # a thousandth of a micrometre: what is left of a size after going through inches
MOST_ASKED = 200


@dataclass(frozen=True, slots=True)
class SizeAsked:
    """Which rows of the sizes are the one that is asked for: a condition with its values."""

    text: str
    condition: str
    values: tuple[Any, ...]


def thread_key(thread: Thread) -> str:
    """What two threads of one kind share; pipe threads of one size are of several kinds."""
    series = thread.series if thread.family == "Whitworth pipe" else thread.family
    return f"{series} {thread.major:.4f} {thread.pitch:.5f}"


def thread_more(thread: Thread) -> str:
    """What two such threads may differ in: class, hand and starts."""
    return f"{thread.tolerance_class}|{thread.hand}|{thread.starts}"


def asked_thread(text: str) -> SizeAsked:
    """A thread that is asked for; a class, a left hand or several starts count where they are said.

    Raises
    ------
    WrongQuestion
        It is no thread.
    """
    thread = _read(Thread, text, "thread")
    values: list[str] = [thread_key(thread)]
    condition = "kind = 'thread' AND key = ?"
    if thread.tolerance_class:
        condition += " AND more LIKE ? || '|%'"
        values.append(thread.tolerance_class)
    if thread.hand == "left":
        condition += " AND more LIKE '%|left|%'"
    if thread.starts > 1:
        condition += " AND more LIKE '%|' || ?"
        values.append(str(thread.starts))
    return SizeAsked(f"--thread {text}", condition, tuple(values))


def asked_taper(text: str) -> SizeAsked:
    """A taper that is asked for: by its name, or by its ratio whatever its name.

    Raises
    ------
    WrongQuestion
        It is no taper.
    """
    taper = _read(Taper, text, "taper")
    if taper.large_diameter is None:
        near = "kind = 'taper' AND abs(nominal / ? - 1) <= ?"
        return SizeAsked(f"--taper {text}", near, (taper.ratio, SAME_TAPER))
    named = "kind = 'taper' AND key = ?"
    return SizeAsked(f"--taper {text}", named, (taper.designation.casefold(),))


def asked_size(text: str) -> SizeAsked:
    """A size that is asked for: every one of its nominal, or those with its class or limits.

    Raises
    ------
    WrongQuestion
        It is no length.
    """
    from shoplog.units import UnitMismatch, unit

    value = _literal(text)
    try:
        mm = value.to(unit("mm"))
    except UnitMismatch as mismatch:
        raise WrongQuestion(f"--size is a length, and {text} is {mismatch.have.kind}") from None
    condition, values = "kind = 'size' AND abs(nominal - ?) <= ?", [mm.nominal, SAME_MM]
    if value.has_limits:
        condition += " AND abs(lower - ?) <= ? AND abs(upper - ?) <= ?"
        values += [mm.lower, SAME_MM, mm.upper, SAME_MM]
    return SizeAsked(f"--size {text}", condition, tuple(values))


def _read(kind: Any, text: str, called: str) -> Any:
    try:
        return kind.from_text(text[:MOST_ASKED])
    except TradeError as error:
        hint = f" ({error.hint})" if error.hint else ""
        raise WrongQuestion(f"--{called}: {clean(str(error))}{hint}") from None


def _literal(text: str) -> Value:
    """A size as a page writes it: a length, with a class or limits or without.

    The language is loaded here; a thread or a taper that is asked for needs none of it.
    """
    from shoplog.calc import tree as t
    from shoplog.calc.literals import quantity, sized
    from shoplog.calc.parse import parse_expression
    from shoplog.calc.statements import code_of
    from shoplog.problems import Mistake

    node, mistake = parse_expression(code_of(text[:MOST_ASKED]))
    try:
        if mistake is not None:
            raise mistake
        match node:
            case t.Quantity():
                return quantity(node, frozenset())
            case t.Sized():
                return sized(node, frozenset())
    except Mistake as wrong:
        hint = f" ({wrong.hint})" if wrong.hint else ""
        raise WrongQuestion(f"--size: {clean(str(wrong))}{hint}") from None
    raise WrongQuestion("--size is a length such as 14 mm, 9/16 in, 14 mm H7 or 14 mm ±0.02")
