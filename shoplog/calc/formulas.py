"""Calls: a page's arguments to a formula's units, and what it gives back to a page's values."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any, get_args, get_origin

from shoplog.calc import tree as t
from shoplog.calc.results import FormulaUse, PageValue, Truth, Working
from shoplog.calc.show import from_size, show
from shoplog.problems import Mistake, Span, message, near
from shoplog.trade.declare import In, Offer, Parameter, Size, TradeError, readable_fields
from shoplog.trade.offers import OFFERS
from shoplog.units import UnitMismatch, unit
from shoplog.values import MAGNITUDE, MOST_MAGNITUDE, Hardness, Value

__all__ = [
    "arguments_of",
    "as_size",
    "call_offer",
    "keep_use",
    "kind_of",
    "read_field",
    "refused",
    "taken_from",
]

NO_FUNCTION = message(
    "function-unknown", "there is no formula `{name}`", example="a = spindel(3 mm)"
)
TOO_MANY = message(
    "arguments-too-many",
    "{name} takes {most} arguments at most, this is one more",
    example="a = spindle_speed(30 m/min, 10 mm, 3)",
)
NO_ARGUMENT = message(
    "argument-unknown",
    "{name} has no argument `{argument}`",
    example="a = spindle_speed(cutting_speed=30 m/min, dimeter=10 mm)",
)
GIVEN_BOTH = message(
    "argument-both",
    "{argument} of {name} is given twice, by its place and by its name",
    example="a = spindle_speed(30 m/min, cutting_speed=20 m/min)",
)
MISSING = message(
    "argument-missing",
    "{name} needs {argument}, {wanted}",
    hint="{name}({signature})",
    example="a = spindle_speed(30 m/min)",
)
WRONG_KIND = message(
    "argument-kind",
    "{argument} of {name} is {wanted}; this is {found}",
    example="a = spindle_speed(30 m/min, 10 s)",
)
NO_LIMITS = message(
    "no-limits",
    "{argument} of {name} is a size with limits; this one has none",
    hint="give it a class or limits: 16 mm H7, 16 mm ±0.05",
    example="a = fit(16 mm, 16 mm f7)",
)
REFUSED = message("refused", "{what}", example="a = spindle_speed(30 m/min, 0 mm)")
NO_FIELD = message(
    "field-unknown",
    "{what} has no field `{field}`",
    hint="it has {fields}",
    example='a = thread("M6x1").mayor',
)
NOT_KNOWN = message(
    "field-not-known", "{what} says nothing of {field}", example='a = taper("1:50").large_diameter'
)


def call_offer(
    offer: Offer,
    call: t.Call,
    evaluate: Callable[[t.Node], PageValue],
    working: Working,
) -> PageValue:
    """Call a formula with a page's arguments.

    Raises
    ------
    Mistake
        An argument is missing, unknown, of another kind, or refused by the formula.
    """
    given, arguments = arguments_of(offer, call, evaluate, working)
    result = _result(offer, arguments, call, given)
    keep_use(offer, arguments, result, call, working)
    return result


def arguments_of(
    offer: Offer,
    call: t.Call,
    evaluate: Callable[[t.Node], PageValue],
    working: Working,
) -> tuple[dict[str, t.Node], dict[str, Any]]:
    """A call's arguments by parameter: as they stand in the page, and as the formula takes them.

    Raises
    ------
    Mistake
        An argument is missing, unknown or of another kind.
    """
    given = _bound(offer, call)
    arguments: dict[str, Any] = {}
    for parameter in offer.parameters:
        node = given.get(parameter.name)
        if node is None:
            if parameter.required:
                raise _missing(offer, parameter, call)
            continue
        value = evaluate(node)
        arguments[parameter.name] = _converted(offer, parameter, value, node.span, working)
    return given, arguments


def keep_use(
    offer: Offer, arguments: dict[str, Any], result: PageValue, call: t.Call, working: Working
) -> None:
    """Keep that a formula was called, with its source and what it and its result remark."""
    shown = {
        parameter.name: _shown_argument(offer, parameter.name, value)
        for parameter in offer.parameters
        if (value := arguments.get(parameter.name, parameter.default)) is not None
        and (parameter.name in arguments or isinstance(value, int | float))
    }
    working.formulas.append(FormulaUse(offer, shown, result, call.span.start))
    for text, kept in (
        (offer.source, working.sources),
        *((c, working.cautions) for c in offer.cautions),
    ):
        if text not in kept:
            kept.append(text)
    _keep_remarks(result, working)


def _bound(offer: Offer, call: t.Call) -> dict[str, t.Node]:
    parameters = offer.parameters
    if len(call.positional) > len(parameters):
        extra = call.positional[len(parameters)]
        raise Mistake(TOO_MANY, extra.span, name=offer.name, most=len(parameters))
    given = {
        parameter.name: node for parameter, node in zip(parameters, call.positional, strict=False)
    }
    for name, node, span in call.named:
        if name not in {parameter.name for parameter in parameters}:
            close = near(name, (parameter.name for parameter in parameters))
            hint = f"did you mean {close}?" if close else f"{offer.name}({_signature(offer)})"
            raise Mistake(NO_ARGUMENT, span, hint=hint, name=offer.name, argument=name)
        if name in given:
            raise Mistake(GIVEN_BOTH, span, name=offer.name, argument=name)
        given[name] = node
    return given


def _signature(offer: Offer) -> str:
    return ", ".join(
        parameter.name if parameter.required else f"{parameter.name}=…"
        for parameter in offer.parameters
    )


def _missing(offer: Offer, parameter: Parameter, call: t.Call) -> Mistake:
    wanted = _wanted(parameter)
    signature = _signature(offer)
    return Mistake(
        MISSING,
        call.span,
        name=offer.name,
        argument=parameter.name,
        wanted=wanted,
        signature=signature,
    )


def _wanted(parameter: Parameter) -> str:
    return " or ".join(_kind_words(kind) for kind in parameter.kinds)


def _kind_words(kind: Any) -> str:
    if isinstance(kind, In):
        return unit(kind.unit).kind
    if get_origin(kind) is list:
        return f"a list, each {_kind_words(get_args(kind)[0])}"
    named = {Size: "a size with limits", str: "a text in quotes", bool: "true or false"}
    if kind in named:
        return named[kind]
    if kind is int:
        return "a whole number"
    return _record_words(kind.__name__)


def _record_words(name: str) -> str:
    """A record's class in words.

    >>> _record_words("HolePattern")
    'a hole pattern'
    """
    words = re.sub(r"(?<!^)(?=[A-Z])", " ", name).lower()
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


def _converted(
    offer: Offer, parameter: Parameter, value: PageValue, span: Span, working: Working
) -> Any:
    for kind in parameter.kinds:
        made = _as_kind(offer, parameter, kind, value, span, working)
        if made is not None:
            return made
    data = {"argument": parameter.name, "name": offer.name}
    if Size in parameter.kinds and isinstance(value, Value) and not value.has_limits:
        raise Mistake(NO_LIMITS, span, **data)
    hint = _unit_hint(parameter, value)
    raise Mistake(
        WRONG_KIND, span, hint=hint, wanted=_wanted(parameter), found=kind_of(value), **data
    )


def _unit_hint(parameter: Parameter, value: PageValue) -> str:
    """What a plain number lacks: `write 65 %`."""
    units = [kind.unit for kind in parameter.kinds if isinstance(kind, In) and kind.unit]
    if not units or not isinstance(value, Value) or not value.unit.plain:
        return ""
    return f"write {value.nominal:g} {unit(units[0]).text}"


def _as_kind(
    offer: Offer, parameter: Parameter, kind: Any, value: PageValue, span: Span, working: Working
) -> Any:
    if isinstance(kind, In):
        return _number(parameter, kind, value, working)
    if kind is Size:
        return as_size(value)
    if kind is int:
        if isinstance(value, Value):
            number = _number(parameter, In("tooth/rev"), value, working)
            return int(number) if number is not None and number == int(number) else None
        return None
    if kind in (str, bool):
        return value if type(value) is kind else None
    if get_origin(kind) is list:
        return _list(offer, parameter, get_args(kind)[0], value, span, working)
    if isinstance(value, kind):
        return value
    if isinstance(value, str) and hasattr(kind, "from_text"):
        try:
            return kind.from_text(value)
        except TradeError as error:
            raise Mistake(REFUSED, span, hint=error.hint, what=error.message) from None
    return None


def _number(parameter: Parameter, kind: In, value: PageValue, working: Working) -> float | None:
    if not isinstance(value, Value):
        return None
    want = unit(kind.unit)
    if value.unit.plain and value.nominal == 0 and not want.point:
        return 0.0
    if value.unit.plain and kind.unit == "%":
        return None  # 65 would be 6500 %, and 0.65 might be either
    try:
        number = value.to(want, loose=True).nominal
    except UnitMismatch:
        return None
    if value.has_limits:
        name = parameter.name.replace("_", " ")
        taken = "as read" if value.uncertain else "at its nominal size"
        working.note(f"{name} is taken {taken}, {show(value.only(value.nominal)).own}")
    return number


def _list(
    offer: Offer, parameter: Parameter, kind: Any, value: PageValue, span: Span, working: Working
) -> list[Any] | None:
    if not isinstance(value, tuple):
        return None
    made = [_as_kind(offer, parameter, kind, item, span, working) for item in value]
    return None if None in made else made


def as_size(value: PageValue) -> Size | None:
    """A length with limits as the trade's size, in mm; nothing for anything else."""
    if isinstance(value, Size):
        return value
    if not isinstance(value, Value) or not value.has_limits:
        return None
    try:
        mm = value.to(unit("mm"))
    except UnitMismatch:
        return None
    return Size(mm.nominal, mm.lower, mm.upper, mm.tolerance_class)


def _result(
    offer: Offer, arguments: dict[str, Any], call: t.Call, given: dict[str, t.Node]
) -> PageValue:
    try:
        result = _called(offer, arguments)
    except TradeError as error:
        node = given.get(error.argument)
        span = node.span if node is not None else call.span
        raise Mistake(REFUSED, span, hint=error.hint, what=error.message) from None
    except (OverflowError, ZeroDivisionError, ValueError):  # the float ran out, or left its range
        raise Mistake(MAGNITUDE, call.span, most=MOST_MAGNITUDE) from None
    made = taken_from(result, offer.returns, f"{offer.name}(…)")
    if isinstance(made, Value) and not abs(made.nominal) <= MOST_MAGNITUDE:
        raise Mistake(MAGNITUDE, call.span, most=MOST_MAGNITUDE)
    return made


def _called(offer: Offer, arguments: dict[str, Any]) -> Any:
    try:
        return _remembered(offer.function, tuple(arguments.items()))
    except TypeError:  # a list is not hashed; a formula's own TypeError comes again
        return offer.function(**arguments)


@lru_cache(maxsize=4096)
def _remembered(function: Callable[..., Any], arguments: tuple[tuple[str, Any], ...]) -> Any:
    """A formula's result: it is pure, and a page may ask the same two thousand times."""
    return function(**dict(arguments))


def taken_from(result: Any, kinds: tuple[Any, ...], name: str) -> PageValue:
    """What a formula or a record's field gives, as a page's value."""
    if isinstance(result, Size):
        return from_size(result, name)
    number = isinstance(result, int | float) and not isinstance(result, bool)
    kind = next((one for one in kinds if isinstance(one, In) == number), None)
    if isinstance(kind, In):
        return Value(float(result), unit(kind.unit))
    if isinstance(result, list | tuple):
        inner = get_args(kind)[:1] if kind is not None else ()
        return tuple(taken_from(item, inner, name) for item in result)
    if isinstance(result, int | float) and not isinstance(result, bool):
        return Value(float(result), unit(""))
    return result


def _shown_argument(offer: Offer, name: str, value: Any) -> PageValue:
    kinds = next(p.kinds for p in offer.parameters if p.name == name)
    return taken_from(value, kinds, name)


def _keep_remarks(result: PageValue, working: Working) -> None:
    for text in getattr(result, "cautions", ()):
        if text not in working.cautions:
            working.cautions.append(text)
    for text in getattr(result, "notes", ()):
        working.note(text)


def read_field(record: Any, field: str, span: Span, working: Working) -> PageValue:
    """A field of a record that a formula gave."""
    kinds = _fields_of(type(record))
    if field not in kinds:
        close = near(field, kinds)
        hint = f"did you mean {close}?" if close else None
        if not kinds:
            hint = ""
        raise Mistake(
            NO_FIELD, span, hint=hint, what=kind_of(record), field=field, fields=", ".join(kinds)
        )
    value = getattr(record, field)
    if value is None:
        raise Mistake(NOT_KNOWN, span, what=kind_of(record), field=field)
    made = taken_from(value, kinds[field], field)
    if isinstance(made, Value) and not abs(made.nominal) <= MOST_MAGNITUDE:
        raise Mistake(MAGNITUDE, span, most=MOST_MAGNITUDE)
    _keep_remarks(made, working)
    return made


def _fields_of(record: Any) -> dict[str, tuple[Any, ...]]:
    return readable_fields(record) if hasattr(record, "__dataclass_fields__") else {}


def kind_of(value: PageValue) -> str:
    """What a value is, in words a message can use."""
    if isinstance(value, Value):
        return value.unit.kind
    if isinstance(value, bool | Truth):
        return "true or false"
    if isinstance(value, str):
        return "a text"
    if isinstance(value, tuple):
        return "a list"
    if isinstance(value, Hardness):
        return "a hardness"
    return _record_words(type(value).__name__)


def refused(error: TradeError, span: Span) -> Mistake:
    """What the trade refuses, as a mistake at a span."""
    return Mistake(REFUSED, span, hint=error.hint, what=error.message)


def _near_part(name: str, known: list[str]) -> str:
    """The first formula whose name begins with a word near this one: `spindel`, say."""
    first_words = {whole.partition("_")[0]: whole for whole in reversed(known)}
    return first_words.get(near(name, first_words), "")


def offer_named(name: str, span: Span, also: tuple[str, ...]) -> Offer:
    """The formula of a name, or the mistake that there is none."""
    offer = OFFERS.get(name)
    if offer is None:
        known = [*OFFERS, *also]
        close = near(name, known) or _near_part(name, known)
        hint = f"did you mean {close}?" if close else ""
        raise Mistake(NO_FUNCTION, span, hint=hint, name=name)
    return offer
