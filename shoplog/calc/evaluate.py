"""From a tree to a value: the meaning of the language, for one expression.

An expression reads names through a `Scope` and nothing else. Its work is bounded by a `Budget`
that the statements of a page share.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from shoplog.calc import tree as t
from shoplog.calc.compare import compare
from shoplog.calc.explain import dotted_name
from shoplog.calc.formulas import call_offer, kind_of, offer_named, read_field
from shoplog.calc.functions import ARGUMENTS, FUNCTIONS, call_function, truth_of
from shoplog.calc.literals import (
    ONE_LETTER,
    quantity,
    refuse_divided_literal,
    sized,
    value_field,
)
from shoplog.calc.parse import parse_expression
from shoplog.calc.past import PAST, call_past
from shoplog.calc.results import NotMeasured, PageValue, Truth, Working
from shoplog.calc.scope import Scope
from shoplog.calc.statements import MOST_LENGTH, TOO_LONG, split_note
from shoplog.problems import Mistake, Span, message
from shoplog.units import UnitMismatch, unit
from shoplog.values import (
    TEMPERATURES,
    Hardness,
    Value,
    plain,
    real_temperature,
)

__all__ = ["Budget", "Evaluator", "evaluate_text", "fresh_budget"]

WORK = message(
    "work-bound",
    "this page asks for more work than {most} steps",
    hint="split the page",
    example="",
)
OPERANDS = message(
    "operand-kind", "{sign} takes quantities; this is {found}", example='a = "x" + 1 mm'
)
CANNOT_CONVERT = message(
    "cannot-convert",
    "{found} is not {wanted}, so `to {unit}` does not apply",
    example="a = 5 mm to s",
)
TO_KIND = message("to-kind", "`to` takes a quantity; this is {found}", example='a = "x" to mm')
NOT_TRUTH = message(
    "not-a-condition", "a condition is wanted; this is {found}", example="check 3 mm"
)
INDEX_RANGE = message(
    "index-range",
    "this list has {held}",
    example="a = [1 mm, 2 mm]\nb = a[2]",
)
INDEX_KIND = message("index-kind", "{found} is not a list", example="a = 3 mm\nb = a[0]")
LIST_KINDS = message(
    "list-kinds",
    "a list holds things of one kind, this one {one} and {other}",
    example="a = [1 mm, 2 s]",
)
LIST_IN_LIST = message("list-in-list", "a list holds no lists", example="a = [[1 mm], [2 mm]]")
PIECE_UNREAD = message(
    "piece-not-measured",
    "piece {piece} of these has not been measured",
    hint="the first piece is [0]",
    example="",
)
MEASURED_OF = message(
    "measured-of", "`.measured` follows a name", example="a = (16 mm H7).measured"
)

MOST_WORK = 200_000
CALL_WORK = 25
_PI = plain(3.141592653589793)


@dataclass(slots=True)
class Budget:
    """How much work a page has left."""

    left: int = MOST_WORK

    def spend(self, amount: int, span: Span) -> None:
        """Take an amount; raise where none is left."""
        self.left -= amount
        if self.left < 0:
            raise Mistake(WORK, span, most=MOST_WORK)


def fresh_budget() -> Budget:
    """The budget of a page."""
    return Budget()


def evaluate_text(
    text: str, scope: Scope, *, order: int = 1_000_000_000, budget: Budget | None = None
) -> tuple[PageValue, Working]:
    """The value of an expression's text, read after a page's statements.

    Raises
    ------
    Mistake
        It cannot be read or worked out; its span is in the text.
    Waits
        It reads a name that could not be worked out.
    """
    if len(text) > MOST_LENGTH:
        raise Mistake(TOO_LONG, Span(0, 1), length=len(text), most=MOST_LENGTH)
    code, note = split_note(text)
    node, mistake = parse_expression(code if not note else text)
    if node is None:
        assert mistake is not None
        raise mistake
    working = Working()
    evaluator = Evaluator(scope, order, working, budget or Budget())
    return evaluator.value(node), working


@dataclass(slots=True)
class Evaluator:
    """Works out one expression. `order` is its statement's place among those of the page."""

    scope: Scope
    order: int
    working: Working
    budget: Budget = field(default_factory=Budget)

    def value(self, node: t.Node) -> PageValue:
        """The value of a tree."""
        self.budget.spend(1, node.span)
        try:
            return self._value(node)
        except Mistake as mistake:
            if mistake.span is None:
                mistake.span = node.span
            raise

    def truth(self, node: t.Node) -> Truth:
        """The truth of a condition."""
        found = truth_of(value := self.value(node))
        if found is None:
            raise Mistake(NOT_TRUTH, node.span, found=kind_of(value))
        return found

    def _value(self, node: t.Node) -> PageValue:
        match node:
            case t.Quantity():
                return quantity(node, self.scope.taken_units())
            case t.Name(name=name, span=span):
                return self._name(name, span)
            case t.Number(number=number):
                return plain(number)
            case t.Field():
                return self._field(node)
            case t.Call():
                return self._call(node)
            case t.Binary():
                return self._binary(node)
            case t.Group(inner=inner):
                return self.value(inner)
            case t.To():
                return self._to(node)
            case t.Sized():
                return sized(node, self.scope.taken_units())
            case t.Negative(inner=inner):
                return self._negative(inner)
            case t.Text(text=text):
                return text
            case t.Compare() | t.Logic() | t.Not():
                found = self._condition(node)
                return found if found is Truth.SOMETIMES else found is Truth.YES
            case t.Angle(degrees=degrees):
                return Value(degrees, unit("deg"))
            case t.Items():
                return self._items(node)
            case t.Index():
                return self._index(node)
            case t.HardnessLiteral(number=number, scale=scale):
                return Hardness(number, scale)
        raise TypeError(f"no meaning for {type(node).__name__}")

    def _name(self, name: str, span: Span) -> PageValue:
        if name == "pi":
            return _PI
        value = self.scope.read(name, span, self.order)
        self.working.names[name] = value
        return value

    def _field(self, node: t.Field) -> PageValue:
        if node.name == "measured":
            return self._measured(node)
        base = node.base
        if isinstance(base, t.Name) and base.name not in self.scope.entries:
            other = self.scope.part(base.name)
            if other is not None:
                value = other.read_from(base.name, node.name, node.name_span)
                self.working.names[f"{base.name}.{node.name}"] = value
                return value
        value = self.value(base)
        if isinstance(value, Value):
            return value_field(value, node, self.working)
        found = read_field(value, node.name, node.name_span, self.working)
        dotted = dotted_name(node)
        if dotted:
            self.working.names[dotted] = found
        return found

    def _measured(self, node: t.Field) -> PageValue:
        base, scope, name = node.base, self.scope, ""
        before: int | None = self.order
        if isinstance(base, t.Name):
            name = base.name
        elif isinstance(base, t.Field) and isinstance(base.base, t.Name):
            other = self.scope.part(base.base.name)
            if other is not None and base.base.name not in self.scope.entries:
                scope, name, before = other, base.name, None
        if not name:
            raise Mistake(MEASURED_OF, node.span)
        if name not in scope.entries:  # say that it is unknown, rather than not measured
            return self.value(base)
        value = scope.reading(name, node.span, before, dotted_name(base))
        self.working.names[dotted_name(node)] = value
        return value

    def _call(self, node: t.Call) -> PageValue:
        self.budget.spend(CALL_WORK, node.span)
        if node.name in FUNCTIONS:
            if node.named:
                name, _, span = node.named[0]
                usage = FUNCTIONS[node.name][3]
                raise Mistake(
                    ARGUMENTS, span, name=node.name, wanted=f"no named {name}", usage=usage
                )
            values = [self.value(item) for item in node.positional]
            spans = [item.span for item in node.positional]
            self._note_dropped(node.name, values)
            return call_function(node.name, values, spans, node.span)
        if node.name == PAST.name:
            return call_past(node, self.value, self.working, self.scope.past)
        offer = offer_named(node.name, node.name_span, (*FUNCTIONS, PAST.name))
        return call_offer(offer, node, self.value, self.working)

    def _note_dropped(self, name: str, values: list[PageValue]) -> None:
        limited = any(isinstance(value, Value) and value.has_limits for value in values)
        if limited and name not in ("min", "max", "abs", "sqrt"):
            self.working.note(f"{name} is not made for limits: the nominal was taken")

    def _binary(self, node: t.Binary) -> Value:
        left, right = self._operand(node.left, node.sign), self._operand(node.right, node.sign)
        match node.sign:
            case "+":
                made = left + right
            case "-":
                made = left - right
            case "*":
                made = left * right
            case "/":
                refuse_divided_literal(node, left)
                made = left / right
            case _:
                made = left**right
        self.budget.spend(len(made.parts) // 4, node.span)  # a long stack-up is work
        if (left.has_limits or right.has_limits) and not made.has_limits:
            self.working.note(f"{node.sign} does not carry these limits: the nominal was taken")
        return made

    def _operand(self, node: t.Node, sign: str) -> Value:
        value = self.value(node)
        if not isinstance(value, Value):
            raise Mistake(OPERANDS, node.span, sign=sign, found=kind_of(value))
        return value

    def _negative(self, inner: t.Node) -> Value:
        if isinstance(inner, t.Quantity) and unit(inner.unit).point:
            # The sign belongs to the literal.
            return real_temperature(Value(-inner.number, unit(inner.unit)))
        if isinstance(inner, t.Sized) and isinstance(inner.base, t.Quantity):
            base = unit(inner.base.unit)
            if base.point:
                size = sized(inner, self.scope.taken_units())
                return real_temperature(replace(size, nominal=-size.nominal))
        return -self._operand(inner, "-")

    def _to(self, node: t.To) -> Value:
        value = self.value(node.inner)
        if not isinstance(value, Value):
            raise Mistake(TO_KIND, node.inner.span, found=kind_of(value))
        if node.unit in self.scope.taken_units():
            hint = "give the name another letter"
            raise Mistake(ONE_LETTER, node.span, hint=hint, unit=node.unit)
        want = unit(node.unit)
        if value.unit.point != want.point:
            raise Mistake(
                TEMPERATURES, node.span, what=f"{value.unit.kind} does not become {want.kind}"
            )
        try:
            return value.to(want, loose=True)
        except UnitMismatch:
            raise Mistake(
                CANNOT_CONVERT, node.span, found=value.unit.kind, wanted=want.kind, unit=node.unit
            ) from None

    def _items(self, node: t.Items) -> tuple[PageValue, ...]:
        values = tuple(self.value(item) for item in node.items)
        first = values[0] if values else None
        for value, item in zip(values, node.items, strict=True):
            if isinstance(value, tuple):
                raise Mistake(LIST_IN_LIST, item.span)
            one = first.unit.dimension if isinstance(first, Value) else type(first)
            other = value.unit.dimension if isinstance(value, Value) else type(value)
            if one != other:
                raise Mistake(LIST_KINDS, item.span, one=kind_of(first), other=kind_of(value))
        return values

    def _index(self, node: t.Index) -> PageValue:
        value = self.value(node.base)
        if not isinstance(value, tuple):
            raise Mistake(INDEX_KIND, node.base.span, found=kind_of(value))
        if node.index >= len(value):
            held = {0: "no items", 1: "1 item, [0]"}.get(
                len(value), f"{len(value)} items, [0] to [{len(value) - 1}]"
            )
            raise Mistake(INDEX_RANGE, node.span, held=held)
        found = value[node.index]
        if isinstance(found, NotMeasured):
            raise Mistake(PIECE_UNREAD, node.span, piece=found.piece)
        return found

    def _condition(self, node: t.Compare | t.Logic | t.Not) -> Truth:
        match node:
            case t.Not(inner=inner):
                return ~self.truth(inner)
            case t.Logic(word=word, left=left, right=right):
                sides = {self.truth(left), self.truth(right)}
                decides = Truth.NO if word == "and" else Truth.YES
                if decides in sides:
                    return decides
                return Truth.SOMETIMES if Truth.SOMETIMES in sides else ~decides
            case t.Compare():
                return self._compare(node)

    def _compare(self, node: t.Compare) -> Truth:
        values = [self.value(side) for side in node.sides]
        found = Truth.YES
        for index, sign in enumerate(node.signs):
            span = Span(node.sides[index].span.start, node.sides[index + 1].span.end)
            truth = compare(values[index], values[index + 1], sign, span)
            if truth is Truth.NO:
                return Truth.NO
            if truth is Truth.SOMETIMES:
                found = Truth.SOMETIMES
        return found
