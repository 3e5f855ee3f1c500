"""What mates with what: sizes, threads, tapers, patterns, keys and pins; and what is asked of it.

This is the case that must never slip through: two parts that are meant to go together and differ in
nominal size, or whose limits do not give what was asked.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from shoplog.calc import tree as t
from shoplog.calc.formulas import as_size, kind_of
from shoplog.calc.results import PageValue
from shoplog.calc.show import show
from shoplog.problems import Mistake, Span, message
from shoplog.trade.declare import Size, TradeError
from shoplog.trade.fastening.key_record import Key, KeySeat
from shoplog.trade.fastening.keys import keys_mate
from shoplog.trade.fastening.pins import ParallelPin, SpringPin, pins_mate
from shoplog.trade.hole_work.hole_patterns import HoleLayout, layouts_mate
from shoplog.trade.hole_work.holes import HolePattern, patterns_mate
from shoplog.trade.limits_and_fits.bearings import BearingSeat
from shoplog.trade.limits_and_fits.fits import Fit, fit, same_nominal
from shoplog.trade.screw_threads.threads import Thread, thread_mate
from shoplog.trade.taper_work.tapers import Taper, tapers_mate
from shoplog.units import UnitMismatch, unit
from shoplog.values import Value

__all__ = ["Mating", "mating"]

CANNOT_MATE = message(
    "cannot-mate",
    "{one} and {other} do not mate",
    hint="a mate takes two round sizes, threads, tapers, hole patterns, a key and its seats, or a"
    " pin and its hole",
    example='a = 16 mm H7\nb = thread("M6x1-6g")\nmate a with b',
)
MATE_LIMITS = message(
    "mate-limits",
    "{what} has no limits, so nothing proves that it mates",
    hint="give it a class or limits: 16 mm H7, 16 mm ±0.05",
    example="a = 16 mm H7\nb = 16 mm\nmate a with b",
)
ASKED = message(
    "asked-unreadable",
    "`{text}` is not a fit",
    hint='such as "H7/f7", or clearance 15 um..55 um, or interference 20 um..40 um',
    example='a = 16 mm H7\nb = 16 mm f7\nmate a with b as "close"',
)
ASKED_ORDER = message(
    "asked-order",
    "the bounds of the {kind} are the wrong way round: {least} is over {most}",
    example="a = 16 mm H7\nb = 16 mm f7\nmate a with b as clearance 55 um..15 um",
)
ASKED_KIND = message(
    "asked-kind",
    "the bounds of the {kind} are lengths; this is {found}",
    example="a = 16 mm H7\nb = 16 mm f7\nmate a with b as clearance 15 s..55 s",
)
ASKED_OF = message(
    "asked-of",
    "{what} take no `as`",
    example='a = thread("M6x1-6H")\nb = thread("M6x1-6g")\nmate a with b as "H7/f7"',
)

_PAIR = re.compile(r"([A-Z]{1,2}\d{1,2})\s*/\s*([a-z]{1,2}\d{1,2})")
_TOLERANCE_UM = 1e-6


@dataclass(frozen=True, slots=True)
class Mating:
    """How two things go together: what was found, why not where they do not, what is assumed."""

    found: str
    fault: str = ""
    fit: Any = None
    asked: str = ""
    nominal_differs: bool = False
    """The fault is a difference in nominal size, which takes a concession on both sides."""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def mating(node: t.Mate, one: PageValue, other: PageValue) -> Mating:
    """Whether two values mate as asked.

    Raises
    ------
    Mistake
        They are not things that mate, have no limits, or what is asked cannot be read.
    """
    asked = node.asked
    if isinstance(one, Thread) and isinstance(other, Thread):
        _refuse_asked(asked, "two threads")
        found = thread_mate(one, other)
        cautions = (found.caution,) if found.caution else ()
        return Mating(f"{one.designation} with {other.designation}", found.fault, cautions=cautions)
    for kinds, mate, what in _ALIKE:
        if isinstance(one, kinds) and isinstance(other, kinds):
            _refuse_asked(asked, what)
            return Mating(f"{_named(one)} with {_named(other)}", mate(one, other))
    if isinstance(one, ParallelPin | SpringPin):
        return _pinned(node, one, other, node.other.span)
    if isinstance(other, ParallelPin | SpringPin):
        return _pinned(node, other, one, node.one.span)
    screw = isinstance(one, Thread) or isinstance(other, Thread)
    inside = next((v for v in (one, other) if isinstance(v, Thread) and v.side == "internal"), None)
    if inside is not None and as_size(other if inside is one else one):
        fault = f"{inside.designation} is an internal thread, so it goes into no hole"
        return Mating("no fit", fault, asked=_asked_text(asked))
    first, second = _size(one, node.one.span), _size(other, node.other.span)
    if first is None or second is None:
        span = Span(node.one.span.start, node.other.span.end)
        raise Mistake(CANNOT_MATE, span, one=kind_of(one), other=kind_of(other))
    if screw and (asked is None or asked.kind != "clearance"):
        raise Mistake(
            CANNOT_MATE,
            Span(node.one.span.start, node.other.span.end),
            hint="a screw in its clearance hole is a mate `as clearance`",
            one=kind_of(one),
            other=kind_of(other),
        )
    if screw:
        hole, shaft = (first, second) if isinstance(other, Thread) else (second, first)
        return _round(hole, shaft, asked, screw, ())
    hole, shaft, notes = _hole_and_shaft(first, second)
    return _round(hole, shaft, asked, screw, notes)


# What goes together with its like, and the trade's word on whether it does.
_ALIKE: tuple[tuple[tuple[type, ...], Callable[[Any, Any], str], str], ...] = (
    ((Taper,), tapers_mate, "two tapers"),
    ((HolePattern,), patterns_mate, "two hole patterns"),
    ((HolePattern, HoleLayout), layouts_mate, "two hole patterns"),
    ((Key, KeySeat), keys_mate, "a key and its seats"),
)


def _named(value: PageValue) -> str:
    """A record as it is called, or its own sentence."""
    return str(getattr(value, "designation", "") or show(value).own.rstrip("."))


def _pinned(node: t.Mate, pin: ParallelPin | SpringPin, hole: PageValue, place: Span) -> Mating:
    """A pin in its hole: the diameters, then the fit that the two sizes make."""
    size = None if isinstance(hole, Thread) else _size(hole, place)
    if size is None:
        span = Span(node.one.span.start, node.other.span.end)
        raise Mistake(CANNOT_MATE, span, one=kind_of(pin), other=kind_of(hole))
    fault = pins_mate(pin, size)
    if fault or isinstance(pin, SpringPin):
        _refuse_asked(node.asked, "a spring pin and its hole")
        return Mating(f"{pin.designation} in its hole", fault)
    return _round(size, pin.size, node.asked, False, ())


def _refuse_asked(asked: t.Asked | None, what: str) -> None:
    if asked is not None:
        raise Mistake(ASKED_OF, asked.span, what=what)


def _size(value: PageValue, span: Span) -> Size | None:
    if isinstance(value, Thread):
        return Size(value.major, 0.0, 0.0)
    if isinstance(value, BearingSeat):
        return value.seat
    size = as_size(value)
    if size is None and isinstance(value, Value):
        try:
            value.to(unit("mm"))
        except UnitMismatch:
            return None
        raise Mistake(MATE_LIMITS, span, what=show(value).own)
    return size


def _hole_and_shaft(one: Size, other: Size) -> tuple[Size, Size, tuple[str, ...]]:
    """Which is the hole: by the letters of the classes, else the first."""
    if one.tolerance_class[:1].islower() or other.tolerance_class[:1].isupper():
        if not (one.tolerance_class[:1].isupper() or other.tolerance_class[:1].islower()):
            return other, one, ()
    elif not one.tolerance_class and not other.tolerance_class:
        return one, other, ("neither has a class, so the first is taken as the hole",)
    return one, other, ()


def _round(
    hole: Size, shaft: Size, asked: t.Asked | None, screw: bool, notes: tuple[str, ...]
) -> Mating:
    text = _asked_text(asked)
    bounded = asked is not None and asked.least is not None
    if (screw or bounded) and not same_nominal(hole.nominal, shaft.nominal):
        clearance = (hole.min - shaft.max) * 1000, (hole.max - shaft.min) * 1000
        found = _clearance_text(*clearance)
        fault = _asked_fault(asked, clearance, None) if asked else ""
        return Mating(found, fault, asked=text, notes=notes)
    try:
        made = fit(hole, shaft)
    except TradeError as error:
        differs = not same_nominal(hole.nominal, shaft.nominal)
        return Mating("no fit", error.message, None, text, differs, notes=notes)
    fault = _asked_fault(asked, (made.clearance_min, made.clearance_max), made) if asked else ""
    cautions = made.cautions
    return Mating(
        f"{made.designation}: {made.describe()}", fault, made, text, cautions=cautions, notes=notes
    )


def _asked_text(asked: t.Asked | None) -> str:
    if asked is None:
        return ""
    if asked.least is None or asked.most is None:
        return asked.text or asked.kind
    least, most = asked.least, asked.most
    return f"{asked.kind} {least.text} {least.unit} to {most.text} {most.unit}"


def _asked_fault(asked: t.Asked, clearance: tuple[float, float], made: Fit | None) -> str:
    if asked.text:
        return _class_fault(asked, made)
    sign = 1 if asked.kind == "clearance" else -1
    least, most = sorted(sign * play for play in clearance)
    bounds = _bounds(asked)
    if bounds is None:
        ok = least >= -_TOLERANCE_UM
    else:
        ok = bounds[0] - _TOLERANCE_UM <= least and most <= bounds[1] + _TOLERANCE_UM
    if ok:
        return ""
    return f"{_asked_text(asked)} is asked, the limits give {_clearance_text(*clearance)}"


def _bounds(asked: t.Asked) -> tuple[float, float] | None:
    if asked.least is None or asked.most is None:
        return None
    micrometres = []
    for bound in (asked.least, asked.most):
        value = Value(bound.number, unit(bound.unit))
        try:
            micrometres.append(value.to(unit("um")).nominal)
        except UnitMismatch:
            raise Mistake(ASKED_KIND, bound.span, kind=asked.kind, found=value.unit.kind) from None
    if micrometres[0] > micrometres[1]:
        raise Mistake(
            ASKED_ORDER,
            asked.span,
            kind=asked.kind,
            least=f"{asked.least.text} {asked.least.unit}",
            most=f"{asked.most.text} {asked.most.unit}",
        )
    return micrometres[0], micrometres[1]


def _class_fault(asked: t.Asked, made: Fit | None) -> str:
    pair = _PAIR.fullmatch(asked.text.strip())
    if pair is None:
        raise Mistake(ASKED, asked.span, text=asked.text)
    if made is None:
        return f"{asked.text} is asked of parts that make no fit"
    have = (made.hole.tolerance_class or "no class", made.shaft.tolerance_class or "no class")
    if have == pair.groups():
        return ""
    return f"{asked.text} is asked, the sizes are {have[0]}/{have[1]}"


def _clearance_text(least: float, most: float) -> str:
    low, high = (show(Value(play, unit("um"))).own for play in (least, most))
    if least >= 0:
        return f"a clearance of {low} to {high}"
    if most <= 0:
        low, high = (show(Value(-play, unit("um"))).own for play in (most, least))
        return f"an interference of {low} to {high}"
    tight = show(Value(-least, unit("um"))).own
    return f"{tight} of interference to {high} of clearance"
