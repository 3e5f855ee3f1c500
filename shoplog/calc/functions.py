"""The mathematics of the language: roots, angles, the least and the greatest, and `limits`."""

from __future__ import annotations

import math
from collections.abc import Callable

from shoplog.calc.formulas import kind_of
from shoplog.calc.results import PageValue, Truth
from shoplog.problems import Mistake, Span, message
from shoplog.units import UnitMismatch, unit
from shoplog.values import NOT_REAL, Contributor, Value, plain

__all__ = ["FUNCTIONS", "call_function"]

ARGUMENTS = message(
    "function-arguments", "{name} takes {wanted}", hint="{usage}", example="a = sqrt(1, 2)"
)
FUNCTION_KIND = message(
    "function-kind", "{name} takes {wanted}; this is {found}", example="a = sin(3 mm)"
)
DOMAIN = message("function-domain", "{name} of {found} does not exist", example="a = sqrt(0 - 4)")

_RADIAN = unit("rad")
_DEGREE = unit("deg")


def _numbers(name: str, values: list[PageValue], spans: list[Span]) -> list[Value]:
    for value, span in zip(values, spans, strict=True):
        if not isinstance(value, Value):
            raise Mistake(FUNCTION_KIND, span, name=name, wanted="a quantity", found=kind_of(value))
    return [value for value in values if isinstance(value, Value)]


def _angle(name: str, value: Value, span: Span) -> float:
    try:
        return value.to(_RADIAN).nominal
    except UnitMismatch:
        raise Mistake(
            FUNCTION_KIND, span, name=name, wanted="an angle", found=value.unit.kind
        ) from None


def _of_angle(
    function: Callable[[float], float],
) -> Callable[[str, list[Value], list[Span]], Value]:
    return lambda name, values, spans: plain(function(_angle(name, values[0], spans[0])))


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
    if values[0].nominal < 0:
        raise Mistake(DOMAIN, spans[0], name=name, found=f"{values[0].nominal:g}")
    return values[0].only(values[0].nominal) ** plain(0.5)


def _abs(_name: str, values: list[Value], _spans: list[Span]) -> Value:
    return values[0] if values[0].nominal >= 0 else -values[0]


def _extreme(least: bool) -> Callable[[str, list[Value], list[Span]], Value]:
    def call(_name: str, values: list[Value], _spans: list[Span]) -> Value:
        found = values[0]
        for value in values[1:]:
            one, other = value.compared(found, "min" if least else "max")
            if (one.nominal < other.nominal) == least:
                found = value
        return found

    return call


def _limits(name: str, values: list[Value], spans: list[Span]) -> Value:
    nominal, upper, lower = values
    if nominal.has_limits:
        raise Mistake(DOMAIN, spans[0], name=name, found="a size that has limits already")
    deviations = []
    for value, span in ((lower, spans[2]), (upper, spans[1])):
        try:
            zero = value.unit.plain and value.nominal == 0
            deviations.append(0.0 if zero else value.to(nominal.unit).base())
        except UnitMismatch:
            raise Mistake(
                FUNCTION_KIND, span, name=name, wanted=nominal.unit.kind, found=value.unit.kind
            ) from None
    if deviations[0] > deviations[1]:
        raise Mistake(
            ARGUMENTS, spans[1], name=name, wanted="the upper deviation first", usage=_USAGE
        )
    return Value(nominal.nominal, nominal.unit, ((Contributor("limits", *deviations), 1.0),))


_USAGE = "limits(16 mm, 0.02 mm, -0.01 mm)"

# Name: how many arguments it takes at least and at most, what it does, and how it is used.
FUNCTIONS: dict[str, tuple[int, int, Callable[[str, list[Value], list[Span]], Value], str]] = {
    "sqrt": (1, 1, _sqrt, "sqrt(2 mm^2)"),
    "abs": (1, 1, _abs, "abs(a - b)"),
    "min": (1, 50, _extreme(True), "min(a, b)"),
    "max": (1, 50, _extreme(False), "max(a, b)"),
    "sin": (1, 1, _of_angle(math.sin), "sin(30 deg)"),
    "cos": (1, 1, _of_angle(math.cos), "cos(30 deg)"),
    "tan": (1, 1, _of_angle(math.tan), "tan(8°25'30\")"),
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
            wanted += " or more"
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
