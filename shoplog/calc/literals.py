"""Literals with units and limits, and the fields of a size."""

from __future__ import annotations

from dataclasses import replace

from shoplog.calc import tree as t
from shoplog.calc.formulas import refused
from shoplog.calc.results import Working
from shoplog.calc.show import from_size, show
from shoplog.problems import Mistake, message, near
from shoplog.trade.declare import TradeError
from shoplog.trade.limits_and_fits.fits import limits_of
from shoplog.units import UnitMismatch, alike, unit
from shoplog.values import Contributor, Value, difference_of, limited, real_temperature

__all__ = ["ONE_LETTER", "quantity", "refuse_divided_literal", "sized", "value_field"]

DIVIDES_LITERAL = message(
    "divides-literal",
    "a plain number over `{text}` could be a fraction or a division",
    hint="write ({part}) * 1 {unit} for a part of it, or {left} / ({text})",
    example="a = pi/4 in",
)
LIMITS_KIND = message(
    "limits-kind",
    "the limits are {found}, the size is {wanted}",
    hint="limits are in the size's unit unless they have their own: 16 mm ±0.05, 16 mm ±5 um",
    example="a = 16 mm ±1 s",
)
CLASS_KIND = message(
    "class-kind",
    "a class belongs to a length; this is {found}",
    hint="give the limits themselves, upper first, such as 20 kg +0.5/-0.2",
    example="a = 16 kg H7",
)
ONE_LETTER = message(
    "one-letter-unit",
    "`{unit}` is a name on this page, so it is no unit here",
    hint="write {number} * {unit} for the name, or give the name another letter",
    example="m = 3 mm\na = 2 m",
)
VALUE_FIELD = message(
    "value-field",
    "{what} has no field `{field}`",
    hint="a size has min, max, nominal, middle, tolerance, upper, lower, rss, measured",
    example="a = 16 mm H7\nb = a.diameter",
)
WITHOUT_LIMITS = message(
    "without-limits",
    "this size has no limits, so no `{field}`",
    hint="give it a class or limits: 16 mm H7, 16 mm ±0.05",
    example="a = 16 mm\nb = a.tolerance",
)


def quantity(node: t.Quantity, taken: frozenset[str]) -> Value:
    """A number with a unit. `taken` are the one-letter units that are names on the page."""
    if node.unit in taken:
        raise Mistake(ONE_LETTER, node.span, unit=node.unit, number=node.text)
    written = node.text.replace(" ", "-") if node.form != "decimal" else ""
    return real_temperature(Value(node.number, unit(node.unit), written=written))


def sized(node: t.Sized, taken: frozenset[str]) -> Value:
    """A number with limits: a class, or deviations in its unit or their own."""
    if isinstance(node.base, t.Angle):
        base = Value(node.base.degrees, unit("deg"))
    else:
        base = quantity(node.base, taken)
    text = f"{show(base).stated} {node.text}"
    if node.tolerance_class:
        return _classed(node, base, text)
    if node.unit in taken:
        hint = "give the name another letter"
        raise Mistake(ONE_LETTER, node.span, hint=hint, unit=node.unit)
    own = unit(node.unit)
    if own is not base.unit and not alike(own, difference_of(base.unit)):
        raise Mistake(LIMITS_KIND, node.span, found=own.kind, wanted=base.unit.kind)
    source = Contributor(text, node.lower * own.factor, node.upper * own.factor)
    return replace(limited(base, source), written=base.written)


def _classed(node: t.Sized, base: Value, text: str) -> Value:
    try:
        mm = base.to(unit("mm")).nominal
    except UnitMismatch as mismatch:
        raise Mistake(CLASS_KIND, node.span, found=mismatch.have.kind) from None
    try:
        size = limits_of(mm, node.tolerance_class)
    except TradeError as error:
        raise refused(error, node.span) from None
    part = from_size(size, text).parts[0]
    return replace(base, parts=(part,), tolerance_class=size.tolerance_class)


def value_field(value: Value, node: t.Field, working: Working) -> Value:
    """A field of a size: one of its ends, its middle, and the like.

    Raises
    ------
    Mistake
        There is no such field, or the size has no limits.
    """
    name = node.name
    if name == "nominal":
        return value.only(value.nominal)
    plain_fields = ("min", "max", "middle", "tolerance", "upper", "lower", "rss")
    if name not in plain_fields:
        close = near(name, (*plain_fields, "nominal", "measured"))
        hint = f"did you mean {close}?" if close else None
        raise Mistake(VALUE_FIELD, node.name_span, hint=hint, what=value.unit.kind, field=name)
    if not value.has_limits:
        raise Mistake(WITHOUT_LIMITS, node.name_span, field=name)
    if name == "rss":
        working.note("root-sum-square is an estimate about the middle of the limits")
        return value.rss()
    if name == "middle":
        return value.only((value.min + value.max) / 2)
    if name == "tolerance":
        return value.only(value.upper - value.lower)
    return value.only(getattr(value, name))


def refuse_divided_literal(node: t.Binary, left: Value) -> None:
    """A plain number over a literal with a unit, `pi/4 in`, which people read in two ways."""
    right = node.right
    if isinstance(right, t.Binary) and right.sign == "**":
        right = right.left
    if not left.unit.plain or not isinstance(right, t.Quantity):
        return
    text = f"{right.text} {right.unit}"
    over = node.left
    if isinstance(over, t.Number) and over.text.isdigit() and right.text.isdigit():
        hint = f"write {over.text}/{text} without spaces for a fraction, or {over.text} / ({text})"
        raise Mistake(DIVIDES_LITERAL, node.span, hint=hint, text=text)
    left_text = over.name if isinstance(over, t.Name) else "x"
    part = f"{left_text}/{right.text}"
    raise Mistake(DIVIDES_LITERAL, node.span, text=text, part=part, unit=right.unit, left=left_text)
