"""The steps of a result: the expression as written, with values put in, and each formula used.

A formula's equation is read from the one expression of its Python body, so it is declared once.
"""

from __future__ import annotations

import ast
import inspect
import textwrap
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from shoplog.calc import tree as t
from shoplog.calc.results import FormulaUse, PageValue, Result, Working
from shoplog.calc.show import show
from shoplog.problems import Span
from shoplog.trade.declare import In, Offer
from shoplog.units import write_number
from shoplog.values import Value, plain

__all__ = ["Step", "equation", "put_in", "steps"]

MATHEMATICS = frozenset("sin cos tan asin acos atan sqrt hypot exp log min max abs".split())
_NOWHERE = Span(0, 0)
_SIGNS: dict[type[ast.operator], str] = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.Div: "/",
    ast.Pow: "**",
}


@dataclass(frozen=True, slots=True)
class Step:
    """A step: a tree, and what it is (`as written`, `with values`, a formula's name, …)."""

    label: str
    tree: t.Node


def steps(result: Result) -> tuple[Step, ...]:
    """The steps of a result, from what was written to the value; none for a plain literal."""
    return explain(result.expression, result.working)


def explain(expression: t.Node, working: Working) -> tuple[Step, ...]:
    """The steps of an expression that was worked out."""
    made = []
    if not isinstance(expression, t.Number | t.Quantity | t.Angle | t.Sized | t.Text):
        made.append(Step("as written", expression))
        filled = put_in(expression, working.names)
        if filled != expression:
            made.append(Step("with values", filled))
    for use in working.formulas:
        made += _formula_steps(use)
    return tuple(made)


def put_in(node: t.Node, values: dict[str, PageValue]) -> t.Node:
    """A tree with each name that was read replaced by its value as it is shown."""
    match node:
        case t.Name(name=name, span=span):
            return _shown(values[name], span) if name in values else node
        case t.Field(base=base, name=name, span=span):
            dotted = dotted_name(node)
            if dotted in values:
                return _shown(values[dotted], span)
            return replace(node, base=put_in(base, values))
        case t.Index(base=inner):
            return replace(node, base=put_in(inner, values))
        case t.Group() | t.Negative() | t.To() | t.Not():
            return replace(node, inner=put_in(node.inner, values))
        case t.Binary() | t.Logic():
            return replace(node, left=put_in(node.left, values), right=put_in(node.right, values))
        case t.Compare(sides=sides):
            return replace(node, sides=tuple(put_in(side, values) for side in sides))
        case t.Items(items=items):
            return replace(node, items=tuple(put_in(item, values) for item in items))
        case t.Call(positional=positional, named=named):
            return replace(
                node,
                positional=tuple(put_in(item, values) for item in positional),
                named=tuple((name, put_in(item, values), span) for name, item, span in named),
            )
    return node


def dotted_name(node: t.Node) -> str:
    """`shaft.journal` for a field of names, else nothing."""
    if isinstance(node, t.Name):
        return node.name
    if isinstance(node, t.Field):
        base = dotted_name(node.base)
        return f"{base}.{node.name}" if base else ""
    return ""


def _shown(value: PageValue, span: Span) -> t.Shown:
    if isinstance(value, Value) and not value.has_limits:
        return t.Shown(write_number(value.nominal, value.unit.text), value.unit.text, span)
    shown = show(value)
    return t.Shown(shown.stated, "", span)


def _formula_steps(use: FormulaUse) -> list[Step]:
    body = equation(use.offer)
    if body is None:
        return []
    filled = put_in(body, use.arguments)
    return [Step(use.offer.name, body), Step(f"{use.offer.name}, with values", filled)]


@cache
def _body(offer_name: str, function: object) -> t.Node | None:
    try:
        source = textwrap.dedent(inspect.getsource(function))  # type: ignore[arg-type]
    except (OSError, TypeError):
        return None
    definition = ast.parse(source).body[0]
    if not isinstance(definition, ast.FunctionDef):
        return None
    returns = [line for line in ast.walk(definition) if isinstance(line, ast.Return)]
    if len(returns) != 1 or returns[0].value is None:
        return None
    try:
        return _from_python(returns[0].value, 0)
    except ValueError:
        return None


def equation(offer: Offer) -> t.Node | None:
    """A formula's equation, where its body ends in one expression of its parameters.

    Numbers that the module names are put in; an expression that reads a table, a record or a step
    before it says nothing alone, and is none.
    """
    if not isinstance(offer.returns[0], In):
        return None
    body = _body(offer.name, offer.function)
    if body is None:
        return None
    known = {parameter.name for parameter in offer.parameters} | {"pi"}
    body = _with_constants(body, known, offer.function.__globals__)
    nodes = list(t.walk(body))
    names = {node.name for node in nodes if isinstance(node, t.Name)}
    calls = {node.name for node in nodes if isinstance(node, t.Call)}
    return body if names <= known and calls <= MATHEMATICS else None


def _with_constants(node: t.Node, known: set[str], constants: dict[str, Any]) -> t.Node:
    numbers: dict[str, PageValue] = {
        name: plain(constants[name])
        for found in t.walk(node)
        if isinstance(found, t.Name) and (name := found.name) not in known
        if isinstance(constants.get(name), int | float)
    }
    return put_in(node, numbers)


def _from_python(node: ast.expr, level: int) -> t.Node:
    """A Python expression as a tree of the language; brackets where precedence asks for them."""
    match node:
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _SIGNS:
            sign = _SIGNS[type(op)]
            rank = {"+": 1, "-": 1, "*": 2, "/": 2, "**": 4}[sign]
            made = t.Binary(
                sign, _from_python(left, rank), _from_python(right, rank + (sign in "-/")), _NOWHERE
            )
            return t.Group(made, _NOWHERE) if rank < level else made
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return t.Negative(_from_python(operand, 3), _NOWHERE)
        case ast.Name(id=name):
            return t.Name(name, _NOWHERE)
        case ast.Constant(value=value) if isinstance(value, int | float):
            return t.Number(float(value), f"{value:g}", _NOWHERE)
        case ast.Attribute(value=ast.Name(id="math"), attr=name):
            return t.Name(name, _NOWHERE)
        case ast.Call(func=function, args=arguments, keywords=[]):
            called = _from_python(function, 0)
            if not isinstance(called, t.Name):
                raise ValueError
            if called.name in ("radians", "degrees", "float") and len(arguments) == 1:
                return _from_python(arguments[0], level)  # units of Python, not of the equation
            shown = tuple(_from_python(argument, 0) for argument in arguments)
            return t.Call(called.name, shown, (), _NOWHERE, _NOWHERE)
    raise ValueError


def argument_texts(use: FormulaUse) -> dict[str, str]:
    """Each argument of a call as it is shown, by its parameter's name."""
    return {name: show(value).own for name, value in use.arguments.items()}
