"""From the parser's words to the tree's nodes, and what a grammar cannot refuse."""

from __future__ import annotations

import re
from typing import Any

from lark import Token, Transformer, v_args

from shoplog.calc import tree as t
from shoplog.problems import Mistake, Span, message
from shoplog.values import MAGNITUDE, MOST_MAGNITUDE, ZERO

__all__ = ["tree_builder"]

FRACTION_BRACKETS = message(
    "fraction-brackets",
    "a fraction after {sign} needs brackets",
    hint="write {sign} ({text})",
    example="a = 2 * 1/2 in",
)
LIMITS_BRACKETS = message(
    "limits-brackets",
    "a size with limits beside {sign} needs brackets",
    hint="write ({text})",
    example="a = 2 * 16 mm H7",
)
MIXED = message(
    "mixed-number",
    "{text} is not a mixed number: its fraction is proper, with a denominator of 2 to 128",
    example="a = 1-3/2 in",
)
UPPER_FIRST = message(
    "upper-first",
    "the upper deviation comes first, and {upper:g} is below {lower:g}",
    hint="write {sign_lower}/{sign_upper}",
    example="a = 16 mm -0.02/+0.01",
)
ONE_WAY = message(
    "comparison-directions",
    "a chain of comparisons goes one way",
    hint="write two checks",
    example="check 1 mm < 3 mm > 2 mm",
)
TWICE = message(
    "argument-twice",
    "the argument {name} is given twice",
    example="a = spindle_speed(diameter=1 mm, diameter=2 mm)",
)
ORDER = message(
    "argument-order",
    "an argument without a name stands before those with one",
    example="a = spindle_speed(diameter=10 mm, 30 m/min)",
)
TOO_SMALL = message(
    "too-small", "{text} is too small a number to reckon with", example="a = 1e-400"
)
SAME_SIGNS = {"≤": "<=", "≥": ">=", "≠": "!="}


@v_args(inline=True)
class _TreeBuilder(Transformer[Token, Any]):
    """From the parser's words to the tree's nodes, while it parses: no recursion."""

    def assign(self, name: Token, expression: t.Node) -> t.Assign:
        return t.Assign(str(name), _span(name), expression)

    def check(self, _check: Token, condition: t.Node) -> t.Check:
        return t.Check(condition)

    def mate(
        self, _m: Token, one: t.Node, _w: Token, other: t.Node, _as: Token | None, asked: Any
    ) -> t.Mate:
        return t.Mate(one, other, asked)

    def asked_text(self, text: Token) -> t.Asked:
        return t.Asked(text[1:-1], "", None, None, _span(text))

    def asked_kind(self, kind: Token, least: Any, most: Any) -> t.Asked:
        end: int = most.span.end if most else kind.end_pos or 0
        return t.Asked("", str(kind), least, most, Span(kind.start_pos or 0, end))

    def measured(
        self, _m: Token, name: Token, label: Token | None, expression: t.Node
    ) -> t.Measured:
        piece = int(label) if label is not None and label.type == "INTEGER" else None
        text = str(label)[1:-1] if label is not None and piece is None else ""
        return t.Measured(str(name), _span(name), text, piece, expression)

    def concession(self, _c: Token, name: Token, _b: Token, reason: Token) -> t.Concession:
        return t.Concession(str(name), _span(name), reason[1:-1])

    def draw(self, _draw: Token, expression: t.Node) -> t.Draw:
        return t.Draw(expression)

    def use(self, _use: Token, page: Token, _as: Token, name: Token) -> t.Use:
        return t.Use(page[1:-1], _span(page), str(name), _span(name))

    def bare(self, expression: t.Node) -> t.Bare:
        return t.Bare(expression)

    def logic(self, left: t.Node, word: Token, right: t.Node) -> t.Logic:
        return t.Logic(str(word), left, right, _over(left, right))

    def negation(self, word: Token, inner: t.Node) -> t.Not:
        return t.Not(inner, Span(word.start_pos or 0, inner.span.end))

    def compare(self, *parts: Any) -> t.Compare:
        signs = tuple(SAME_SIGNS.get(sign, str(sign)) for sign in parts[1::2])
        span = _over(parts[0], parts[-1])
        ways = {sign[0] for sign in signs}
        if len(signs) > 1 and len(ways) > 1:
            raise Mistake(ONE_WAY, span)
        return t.Compare(tuple(parts[::2]), signs, span)

    def to(self, inner: t.Node, _to: Token, unit: Token) -> t.To:
        return t.To(inner, str(unit), Span(inner.span.start, unit.end_pos or 0))

    def binary(self, left: t.Node, sign: Token, right: t.Node) -> t.Binary:
        made = t.Binary(str(sign), left, right, _over(left, right))
        if sign in ("*", "/", "**"):
            _refuse_unbracketed(made)
        return made

    def negative(self, minus: Token, inner: t.Node) -> t.Negative:
        return t.Negative(inner, Span(minus.start_pos or 0, inner.span.end))

    def positive(self, _plus: Token, inner: t.Node) -> t.Node:
        return inner

    def name(self, name: Token) -> t.Name:
        return t.Name(str(name), _span(name))

    def field(self, base: t.Node, name: Token) -> t.Field:
        return t.Field(base, str(name), Span(base.span.start, name.end_pos or 0), _span(name))

    def index(self, base: t.Node, _open: Token, number: Token, close: Token) -> t.Index:
        return t.Index(base, int(number), Span(base.span.start, close.end_pos or 0))

    def call(self, name: Token, _open: Token, *arguments: Any) -> t.Call:
        positional: list[t.Node] = []
        named: dict[str, tuple[str, t.Node, Span]] = {}
        close: Token = arguments[-1]
        for argument in arguments[:-1]:
            if argument is None:
                continue
            if isinstance(argument, tuple):
                key, node, span = argument
                if key in named:
                    raise Mistake(TWICE, span, name=key)
                named[key] = argument
            else:
                node = argument
                if named:
                    raise Mistake(ORDER, node.span)
                positional.append(node)
        span = Span(name.start_pos or 0, close.end_pos or 0)
        return t.Call(str(name), tuple(positional), tuple(named.values()), span, _span(name))

    def named(self, name: Token, node: t.Node) -> tuple[str, t.Node, Span]:
        return str(name), node, _span(name)

    def positional(self, node: t.Node) -> t.Node:
        return node

    def group(self, opened: Token, inner: t.Node, close: Token) -> t.Group:
        return t.Group(inner, Span(opened.start_pos or 0, close.end_pos or 0))

    def list(self, opened: Token, *items: Any) -> t.Items:
        close: Token = items[-1]
        kept = tuple(item for item in items[:-1] if item is not None)
        return t.Items(kept, Span(opened.start_pos or 0, close.end_pos or 0))

    def text(self, text: Token) -> t.Text:
        return t.Text(text[1:-1], _span(text))

    def number(self, token: Token) -> Token:
        return token

    def plain_number(self, token: Token) -> t.Number:
        return t.Number(_number(token), str(token), _span(token))

    def quantity(self, token: Token, unit: Token) -> t.Quantity:
        form = {"FRACTION": "fraction", "MIXED": "mixed"}.get(token.type, "decimal")
        span = Span(token.start_pos or 0, unit.end_pos or 0)
        return t.Quantity(_number(token), str(token), str(unit), form, span)

    def with_class(self, base: t.Quantity, name: Token) -> t.Sized:
        span = Span(base.span.start, name.end_pos or 0)
        return t.Sized(base, str(name), 0.0, 0.0, "", str(name), span)

    def with_deviations(self, base: t.Quantity, token: Token, unit: Token | None) -> t.Sized:
        return self._deviations(base, token, unit, base.unit)

    def angle_with_deviations(self, angle: Token, token: Token, unit: Token | None) -> t.Sized:
        return self._deviations(self.angle(angle), token, unit, "deg")

    def _deviations(
        self, base: t.Quantity | t.Angle, token: Token, unit: Token | None, own: str
    ) -> t.Sized:
        upper, lower = (float(part) for part in token.split("/"))
        span = Span(base.span.start, (unit or token).end_pos or 0)
        if upper < lower:
            raise Mistake(
                UPPER_FIRST,
                _span(token),
                upper=upper,
                lower=lower,
                sign_upper=token.split("/")[0],
                sign_lower=token.split("/")[1],
            )
        return t.Sized(base, "", upper, lower, str(unit) if unit else own, str(token), span)

    def with_spread(self, base: t.Quantity, token: Token, unit: Token | None) -> t.Sized:
        return _spread(base, token, unit, base.unit)

    def angle(self, token: Token) -> t.Angle:
        return t.Angle(_degrees(str(token)), str(token), _span(token))

    def angle_with_spread(self, angle: Token, token: Token, unit: Token | None) -> t.Sized:
        return _spread(self.angle(angle), token, unit, "deg")

    def hardness(self, token: Token, scale: Token) -> t.HardnessLiteral:
        span = Span(token.start_pos or 0, scale.end_pos or 0)
        return t.HardnessLiteral(_number(token), str(scale), f"{token} {scale}", span)


def tree_builder() -> Transformer[Token, Any]:
    """What the parser calls for each rule of the grammar."""
    return _TreeBuilder()


def _span(token: Token) -> Span:
    return Span(token.start_pos or 0, token.end_pos or 0)


def _over(left: t.Node, right: t.Node) -> Span:
    return Span(left.span.start, right.span.end)


def _spread(base: t.Quantity | t.Angle, token: Token, unit: Token | None, own: str) -> t.Sized:
    half = float(token.lstrip("±+/- "))
    span = Span(base.span.start, (unit or token).end_pos or 0)
    text = f"±{token.lstrip('±+/- ')}"
    return t.Sized(base, "", half, -half, str(unit) if unit else own, text, span, spread=True)


def _number(token: Token) -> float:
    if token.type == "FRACTION":
        return _fraction(token)
    if token.type == "MIXED":
        whole, _, fraction = token.replace(" ", "-").partition("-")
        over, under = (int(part) for part in fraction.split("/"))
        if not (2 <= under <= 128 and 0 < over < under):
            raise Mistake(MIXED, _span(token), text=str(token))
        return int(whole) + over / under
    number = float(token)
    if abs(number) > MOST_MAGNITUDE:
        raise Mistake(MAGNITUDE, _span(token), most=MOST_MAGNITUDE)
    if number == 0 and re.search(r"[1-9]", token.lower().partition("e")[0]):
        raise Mistake(TOO_SMALL, _span(token), text=str(token))
    return number


def _fraction(token: Token) -> float:
    over, under = (int(part) for part in token.split("/"))
    if under == 0:
        raise Mistake(ZERO, _span(token))
    return over / under


def _degrees(text: str) -> float:
    degrees, _, rest = text.partition("°")
    minutes, _, seconds = rest.partition("'")
    return float(degrees) + float(minutes or 0) / 60 + float(seconds.rstrip('"') or 0) / 3600


def _refuse_unbracketed(made: t.Binary) -> None:
    for side in (made.left, made.right):
        if isinstance(side, t.Sized):
            unit = side.base.unit if isinstance(side.base, t.Quantity) else ""
            text = f"{side.base.text} {unit} {side.text}".replace("  ", " ")
            raise Mistake(LIMITS_BRACKETS, side.span, sign=made.sign, text=text)
    right = made.right
    if isinstance(right, t.Quantity) and right.form != "decimal":
        text = f"{right.text} {right.unit}"
        raise Mistake(FRACTION_BRACKETS, right.span, sign=made.sign, text=text)
