"""The mathematics of the language: roots, angles, the least and the greatest, and `limits`."""

from __future__ import annotations

import math
from collections.abc import Callable

from shoplog.calc.formulas import kind_of
from shoplog.calc.results import PageValue, Truth
from shoplog.problems import Mistake, Span, message
from shoplog.units import UnitMismatch, unit
from shoplog.values import NOT_REAL, Contributor, Value, difference_of, limited, plain

__all__ = ["FUNCTIONS", "call_function"]

ARGUMENTS = message(
    "function-arguments", "{name} takes {wanted}", hint="{usage}", example="a = sqrt(1, 2)"
)
FUNCTION_KIND = message(
    "function-kind", "{name} takes {wanted}; this is {found}", example="a = sin(3 mm)"
)
DOMAIN = message("function-domain", "{name} of {found} does not exist", example="a = sqrt(0 - 4)")
LIMITS_ALREADY = message(
    "limits-already",
    "this size has limits already",
    hint="limits(x.nominal, upper, lower) gives its nominal new ones",
    example="a = 16 mm H7\nb = limits(a, 0.02 mm, -0.01 mm)",
)

_NOTHING = 1e-15
_RADIAN = unit("rad")
_DEGREE = unit("deg")


def _numbers(name: str, values: list[PageValue], spans: list[Span]) -> list[Value]:
    for value, span in zip(values, spans, strict=True):
        if not isinstance(value, Value):
            raise Mistake(FUNCTION_KIND, span, name=name, wanted="a quantity", found=kind_of(value))
    return [value for value in values if isinstance(value, Value)]


def _angle(name: str, value: Value, span: Span) -> float:
    if value.unit.plain and value.nominal == 0:
        return 0.0
    try:
        return value.to(_RADIAN).nominal
    except UnitMismatch:
        raise Mistake(
            FUNCTION_KIND, span, name=name, wanted="an angle", found=value.unit.kind
        ) from None


def _of_angle(
    function: Callable[[float], float],
) -> Callable[[str, list[Value], list[Span]], Value]:
    def call(name: str, values: list[Value], spans: list[Span]) -> Value:
        found = function(_angle(name, values[0], spans[0]))
        return plain(0.0 if abs(found) < _NOTHING else found)  # sin(180°) is 0, not 1e-16

    return call


def _tan(name: str, values: list[Value], spans: list[Span]) -> Value:
    angle = _angle(name, values[0], spans[0])
    if abs(math.cos(angle)) < _NOTHING:
        raise Mistake(DOMAIN, spans[0], name=name, found=f"{math.degrees(angle):g} deg")
    return _of_angle(math.tan)(name, values, spans)


def _to_angle(
    function: Callable[[float], float],
) -> Callable[[str, list[Value], list[Span]], Value]:
    def call(name: str, values: list[Value], spans: list[Span]) -> Value:
        value = values[0]
        if value.unit.dimension:
            raise Mistake(
                FUNCTION_KIND, spans[0], name=name, wanted="a plain number", found=value.unit.kind
            )
        try:
            return Value(math.degrees(function(value.base())), _DEGREE)
        except ValueError:
            raise Mistake(DOMAIN, spans[0], name=name, found=f"{value.base():g}") from None

    return call


def _sqrt(name: str, values: list[Value], spans: list[Span]) -> Value:
    if values[0].min < 0:
        raise Mistake(DOMAIN, spans[0], name=name, found=f"{values[0].min:g}")
    return values[0] ** plain(0.5)


def _abs(name: str, values: list[Value], _spans: list[Span]) -> Value:
    value = values[0]
    if value.min >= 0:
        return value
    if value.max <= 0:
        return -value
    # The range spans 0, so what it came from no longer adds up: its ends are kept.
    return _between(name, value.only(abs(value.nominal)), 0.0, max(-value.min, value.max))


def _extreme(least: bool) -> Callable[[str, list[Value], list[Span]], Value]:
    pick = min if least else max

    def call(name: str, values: list[Value], _spans: list[Span]) -> Value:
        found = values[0]
        for value in values[1:]:
            one, other = value.compared(found, name)
            first, second = (one, other) if least else (other, one)
            gap = second - first  # shared contributors cancel here
            if gap.min >= 0:
                found = one
            elif gap.max <= 0:
                found = other if found.unit.plain else found  # a bare 0 takes the unit
            else:
                nominal = one.only(pick(one.nominal, other.nominal))
                ends = pick(one.min, other.min), pick(one.max, other.max)
                found = _between(name, nominal, *ends)
        return found

    return call


def _between(name: str, nominal: Value, least: float, most: float) -> Value:
    """A value whose range is known and whose contributors are not: one stands for them."""
    factor = nominal.unit.factor
    lower, upper = ((end - nominal.nominal) * factor for end in (least, most))
    return limited(nominal, Contributor(f"{name}(…)", lower, upper))


def _limits(name: str, values: list[Value], spans: list[Span]) -> Value:
    nominal, upper, lower = values
    if nominal.has_limits:
        raise Mistake(LIMITS_ALREADY, spans[0])
    own = difference_of(nominal.unit)
    deviations = []
    for value, span in ((lower, spans[2]), (upper, spans[1])):
        try:
            zero = value.unit.plain and value.nominal == 0
            deviations.append(0.0 if zero else value.to(own).base())
        except UnitMismatch:
            raise Mistake(
                FUNCTION_KIND, span, name=name, wanted=own.kind, found=value.unit.kind
            ) from None
    if deviations[0] > deviations[1]:
        raise Mistake(
            ARGUMENTS, spans[1], name=name, wanted="the upper deviation first", usage=_USAGE
        )
    return limited(nominal, Contributor("limits", *deviations))


_USAGE = "limits(16 mm, 0.02 mm, -0.01 mm)"

# Name: how many arguments it takes at least and at most, what it does, and how it is used.
FUNCTIONS: dict[str, tuple[int, int, Callable[[str, list[Value], list[Span]], Value], str]] = {
    "sqrt": (1, 1, _sqrt, "sqrt(2 mm^2)"),
    "abs": (1, 1, _abs, "abs(a - b)"),
    "min": (1, 50, _extreme(True), "min(a, b)"),
    "max": (1, 50, _extreme(False), "max(a, b)"),
    "sin": (1, 1, _of_angle(math.sin), "sin(30 deg)"),
    "cos": (1, 1, _of_angle(math.cos), "cos(30 deg)"),
    "tan": (1, 1, _tan, "tan(8°25'30\")"),
    "asin": (1, 1, _to_angle(math.asin), "asin(0.5)"),
    "acos": (1, 1, _to_angle(math.acos), "acos(0.5)"),
    "atan": (1, 1, _to_angle(math.atan), "atan(1/20)"),
    "limits": (3, 3, _limits, _USAGE),
}


def call_function(name: str, values: list[PageValue], spans: list[Span], span: Span) -> Value:
    """Call a mathematical function on evaluated arguments."""
    least, most, function, usage = FUNCTIONS[name]
    if not least <= len(values) <= most:
        wanted = f"{least} argument{'s' if least > 1 else ''}"
        if most > least:
            wanted = f"{least} to {most} arguments"
        raise Mistake(ARGUMENTS, span, name=name, wanted=wanted, usage=usage)
    try:
        made = function(name, _numbers(name, values, spans), spans)
    except OverflowError:
        raise Mistake(NOT_REAL, span, what=f"{name}(…)") from None
    if not math.isfinite(made.nominal):
        raise Mistake(NOT_REAL, span, what=f"{name}(…)")
    return made


def truth_of(value: PageValue) -> Truth | None:
    """The truth that a value is, or nothing."""
    if isinstance(value, Truth):
        return value
    return {True: Truth.YES, False: Truth.NO}[value] if isinstance(value, bool) else None
