"""Comparisons: whether they hold over the whole range of what they compare."""

from __future__ import annotations

from shoplog.calc.formulas import kind_of
from shoplog.calc.results import PageValue, Truth
from shoplog.problems import Mistake, Span, message
from shoplog.values import Hardness, Value, plain, same

__all__ = ["compare"]

COMPARED_KINDS = message(
    "compared-kinds", "{one} and {other} do not compare", example='check "x" == 3 mm'
)
ORDER_OF = message(
    "no-order", "{found} has no order; only == and != apply", example='check "a" < "b"'
)


def compare(one: PageValue, other: PageValue, sign: str, span: Span) -> Truth:
    """Whether a comparison holds over the whole range of both sides.

    Raises
    ------
    Mistake
        The two do not compare, or have no order.
    """
    if isinstance(one, Value) and isinstance(other, Value):
        try:
            left, right = one.compared(other, sign)
        except Mistake as mistake:
            mistake.span = mistake.span or span
            raise
        return _equal(left, right, sign) if sign in ("==", "!=") else _ordered(left, right, sign)
    if isinstance(one, Hardness) and isinstance(other, Hardness) and one.scale == other.scale:
        return compare(plain(one.number), plain(other.number), sign, span)
    truths = isinstance(one, bool | Truth) and isinstance(other, bool | Truth)
    if not truths and (type(one) is not type(other) or isinstance(one, Hardness)):
        raise Mistake(COMPARED_KINDS, span, one=_shown_kind(one), other=_shown_kind(other))
    if sign not in ("==", "!="):
        raise Mistake(ORDER_OF, span, found=kind_of(one))
    same_values = _same(one, other, span)
    return same_values if sign == "==" else ~same_values


def _same(one: PageValue, other: PageValue, span: Span) -> Truth:
    if Truth.SOMETIMES in (one, other):
        return Truth.SOMETIMES
    if not isinstance(one, tuple) or not isinstance(other, tuple):
        return Truth.YES if one == other else Truth.NO
    if len(one) != len(other):
        return Truth.NO
    # A list holds no lists, so this goes no deeper.
    found = {compare(this, that, "==", span) for this, that in zip(one, other, strict=True)}
    if Truth.NO in found:
        return Truth.NO
    return Truth.SOMETIMES if Truth.SOMETIMES in found else Truth.YES


def _shown_kind(value: PageValue) -> str:
    return f"a hardness in {value.scale}" if isinstance(value, Hardness) else kind_of(value)


def _equal(left: Value, right: Value, sign: str) -> Truth:
    truth = Truth.NO
    if left.has_limits and right.has_limits:
        pairs = ((left.nominal, right.nominal), (left.min, right.min), (left.max, right.max))
        if all(same(a, b, left.unit) for a, b in pairs):
            truth = Truth.YES
    else:
        ends = (left.min, right.min), (left.max, right.max)
        if all(same(a, b, left.unit) for a, b in ends):
            truth = Truth.YES
        elif left.min <= right.max and right.min <= left.max:
            truth = Truth.SOMETIMES
    return truth if sign == "==" else ~truth


def _ordered(left: Value, right: Value, sign: str) -> Truth:
    """By the difference, whose contributors cancel where the sides share them."""
    if sign[0] == ">":
        left, right, sign = right, left, sign.replace(">", "<")
    gap = left - right
    # Ends that are the same as == means it touch, however the float falls.
    ends = left.min, left.max, right.min, right.max
    scale = max(abs(end) for end in ends)
    least, most = gap.min, gap.max
    if left.unit.point:
        least, most = (number * gap.unit.factor / left.unit.factor for number in (least, most))
    touches_least = same(scale + least, scale, left.unit)
    touches_most = same(scale + most, scale, left.unit)
    if sign == "<=":
        if most <= 0 or touches_most:
            return Truth.YES
        return Truth.NO if least > 0 and not touches_least else Truth.SOMETIMES
    if most < 0 and not touches_most:
        return Truth.YES
    return Truth.NO if least >= 0 or touches_least else Truth.SOMETIMES
