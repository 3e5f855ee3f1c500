"""Values of a kind that is asked for: in setup blocks, in the shop profile, and of cutters.

The calculation language reads the text; what is here holds the value to its kind and range.
"""

from __future__ import annotations

from collections.abc import Callable

from shoplog.calc import tree as t
from shoplog.calc.formulas import kind_of
from shoplog.calc.literals import quantity as quantity_of
from shoplog.calc.parse import parse_expression
from shoplog.calc.results import PageValue
from shoplog.calc.show import from_size
from shoplog.calc.statements import code_of
from shoplog.problems import Mistake, Span, message
from shoplog.trade.declare import OutOfRange, Size
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within
from shoplog.units import Unit, alike, unit
from shoplog.values import Value, plain

__all__ = ["Evaluate", "literal", "matching_unit", "quantity", "shifted", "whole"]

Evaluate = Callable[[str], PageValue]
"""Gives the value of an expression's text; raises `Mistake` with its span in that text, or
`shoplog.calc.scope.Waits`."""

MOST_TEXT = 4000
MOST_COUNT = 1000

NOT_KIND = message(
    "quantity-kind",
    "`{key}` is {wanted}, and this is {found}",
    example="```setup\ndiameter: 16.4\n```\n",
)
NOT_IN_RANGE = message("quantity-range", "{what}", example="```setup\ndiameter: 0 mm\n```\n")
NOT_WHOLE = message(
    "not-whole",
    "`{key}` is a whole number from {least} to {most}, and this is {found}",
    example="```setup\nteeth: 2.5\n```\n",
)
NOT_LITERAL = message(
    "not-literal", "a number with its unit stands here, such as 120 rpm", example=""
)
TOO_LONG = message(
    "value-too-long",
    "this value is {length} characters long, {most} at most",
    example="```setup\ndiameter: " + "1 + " * 1001 + "1\n```\n",
)
# What a page may have meant by a value of another kind, by the kinds wanted and found.
_MEANT = {
    ("a spindle speed", "a feed or speed"): "did you mean cutting speed?",
    ("a cutting speed", "a spindle speed"): "did you mean speed?",
    ("a feed per rev, tooth or minute", "a length"): "such as 0.1 mm/rev or 0.05 mm/tooth",
}


def quantity(
    key: str, text: str, evaluate: Evaluate, wanted: str, units: tuple[str, ...], *, zero: bool
) -> Value:
    """The value of a text, held to the kind of one of the units, and to be over 0 (or 0).

    Raises
    ------
    Mistake
        It cannot be worked out, or is of another kind or out of range.
    Waits
        It reads a name that could not be worked out.
    """
    found = worked(text, evaluate)
    span = Span(0, len(text))
    if not isinstance(found, Value) or matching_unit(found, units) is None:
        raise Mistake(
            NOT_KIND,
            span,
            hint=_kind_hint(found, wanted, units[0]),
            key=key,
            wanted=wanted,
            found=kind_of(found),
        )
    try:
        if zero:
            require_within(key, found.nominal, found.unit.text, 0, LARGEST)
        else:
            require_positive(key, found.nominal, found.unit.text)
    except OutOfRange as error:
        raise Mistake(NOT_IN_RANGE, span, hint=error.hint, what=error.message) from None
    return found


def whole(key: str, text: str, evaluate: Evaluate, least: int) -> Value:
    """The count that a text gives, as a plain number; `2`, `010` and `2 tooth` are counts.

    Raises
    ------
    Mistake
        It is no whole number within the limits.
    Waits
        It reads a name that could not be worked out.
    """
    digits = text.isascii() and text.isdigit() and len(text) < 9
    found = plain(int(text)) if digits else worked(text, evaluate)
    counts = {"tooth", "revolution"}
    good = (
        isinstance(found, Value)
        and not found.unit.point
        and {name for name, _ in found.unit.dimension} <= counts
        and found.nominal == round(found.nominal)
        and least <= found.nominal <= MOST_COUNT
    )
    if isinstance(found, Value) and good:
        return plain(found.nominal)
    shown = text if len(text) <= 20 else kind_of(found)
    span = Span(0, len(text))
    raise Mistake(NOT_WHOLE, span, key=key, least=least, most=MOST_COUNT, found=shown)


def literal(text: str) -> Value:
    """A number with its unit, read by the calculation language; no names and no arithmetic.

    >>> literal("120 rpm").unit.kind
    'a spindle speed'

    Raises
    ------
    Mistake
        It is anything else.
    """
    node, mistake = parse_expression(code_of(text))
    if mistake is not None:
        raise mistake
    match node:
        case t.Number(number=number):
            return plain(number)
        case t.Quantity():
            return quantity_of(node, frozenset())
        case t.Angle(degrees=degrees):
            return Value(degrees, unit("deg"))
    raise Mistake(NOT_LITERAL, Span(0, len(text)))


def worked(text: str, evaluate: Evaluate) -> PageValue:
    """The value of a text; a size of the trade as a value with limits."""
    if len(text) > MOST_TEXT:
        raise Mistake(TOO_LONG, Span(0, 1), length=len(text), most=MOST_TEXT)
    found = evaluate(text)
    return from_size(found, "") if isinstance(found, Size) else found


def matching_unit(value: Value, units: tuple[str, ...]) -> Unit | None:
    """The first of the units that measures what a value does."""
    return next((unit(text) for text in units if alike(value.unit, unit(text))), None)


def shifted(mistake: Mistake, by: int, width: int) -> Span:
    """Where a mistake in a part of a text stands in all of it; the whole part without a span."""
    span = mistake.span or Span(0, width)
    return Span(by + span.start, by + max(span.end, span.start + 1))


def _kind_hint(found: PageValue, wanted: str, text: str) -> str:
    if isinstance(found, Value) and found.unit.plain:
        return f"write its unit, such as {text}"
    return _MEANT.get((wanted, kind_of(found)), "")
