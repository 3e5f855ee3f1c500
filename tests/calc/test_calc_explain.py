"""The steps of a result: what was written, with values put in, and the equation of each formula."""

from __future__ import annotations

import ast
import inspect
import math
import textwrap
from doctest import DocTestParser

import pytest
from calc_page import items, project

from shoplog.calc import tree as t
from shoplog.calc.explain import MATHEMATICS, argument_texts, equation, explain, steps
from shoplog.calc.results import Result
from shoplog.trade.declare import In, Offer
from shoplog.trade.offers import OFFERS


def written(node: t.Node) -> str:
    """A tree in one line."""
    match node:
        case t.Number(text=text) | t.Angle(text=text):
            return text
        case t.Quantity(text=text, unit=unit) | t.Shown(text=text, unit=unit):
            return f"{text} {unit}".strip()
        case t.Name(name=name):
            return name
        case t.Field(base=base, name=name):
            return f"{written(base)}.{name}"
        case t.Index(base=base, index=index):
            return f"{written(base)}[{index}]"
        case t.Binary(sign=sign, left=left, right=right):
            return f"{written(left)} {sign} {written(right)}"
        case t.Group(inner=inner):
            return f"({written(inner)})"
        case t.Negative(inner=inner):
            return f"-{written(inner)}"
        case t.To(inner=inner, unit=unit):
            return f"{written(inner)} to {unit}"
        case t.Call(name=name, positional=positional, named=named):
            shown = [written(one) for one in positional]
            return f"{name}({', '.join([*shown, *(f'{n}={written(v)}' for n, v, _ in named)])})"
    raise AssertionError(node)


def steps_of(text: str) -> list[tuple[str, str]]:
    last = items(text)[-1]
    assert isinstance(last, Result)
    return [(step.label, written(step.tree)) for step in steps(last)]


def test_a_literal_has_no_steps() -> None:
    assert steps_of("a = 16 mm") == []
    assert steps_of("a = 16 mm H7") == []


def test_a_sum_is_shown_as_written_and_with_values() -> None:
    assert steps_of("a = 16 mm\nb = 1/4 in\nc = (a + b) / 2 to mm") == [
        ("as written", "(a + b) / 2 to mm"),
        ("with values", "(16.000 mm + 0.2500 in) / 2 to mm"),
    ]


def test_a_value_put_in_is_shown_as_a_drawing_states_it() -> None:
    assert steps_of("a = 16 mm H7\nb = 20 mm - a")[1] == ("with values", "20 mm - 16 mm H7")


def test_a_formula_is_shown_by_its_equation_and_with_its_arguments() -> None:
    assert steps_of("d = 10 mm\nn = spindle_speed(cutting_speed=30 m/min, diameter=d)") == [
        ("as written", "spindle_speed(cutting_speed=30 m/min, diameter=d)"),
        ("with values", "spindle_speed(cutting_speed=30 m/min, diameter=10.000 mm)"),
        ("spindle_speed", "1000 * cutting_speed / (pi * diameter)"),
        ("spindle_speed, with values", "1000 * 30.0 m/min / (pi * 10.000 mm)"),
    ]


def test_an_argument_left_out_is_shown_with_its_default() -> None:
    assert steps_of("p = drill_point_depth(10 mm)")[-1] == (
        "drill_point_depth, with values",
        "10.000 mm / (2 * tan(118.0000 deg / 2))",
    )
    (found,) = items("p = drill_point_depth(10 mm)")
    assert argument_texts(found.working.formulas[0]) == {
        "diameter": "10.000 mm",
        "point_angle": "118.0000° (118°00'00\")",
    }


def test_names_of_other_pages_and_fields_are_put_in() -> None:
    log = project(gear="a = shaft.x + shaft.p.pitch", shaft='x = 3 mm\np = thread("M6x1")')
    (found,) = log.pages["gear.md"].results
    assert [written(step.tree) for step in steps(found)] == [
        "shaft.x + shaft.p.pitch",
        "3.000 mm + 1.000 mm",
    ]


def test_a_check_is_worked_out_once_for_its_steps() -> None:
    (found,) = items("check spindle_speed(30 m/min, 10 mm) < 900 rpm")
    assert len(found.working.formulas) == 1
    assert [step.label for step in explain(found.condition, found.working)] == [
        "as written",
        "spindle_speed",
        "spindle_speed, with values",
    ]


def test_a_formula_s_source_and_cautions_stand_beside_its_result() -> None:
    (found,) = items("n = spindle_speed(30 m/min, 10 mm)")
    assert found.working.sources == [OFFERS["spindle_speed"].source]
    assert found.working.cautions == list(OFFERS["spindle_speed"].cautions)


def closed_form(offer: Offer) -> bool:
    """Whether a formula's body ends in one expression of nothing but its parameters."""
    body = ast.parse(textwrap.dedent(inspect.getsource(offer.function))).body[0]
    returns = [node for node in ast.walk(body) if isinstance(node, ast.Return)]
    if len(returns) != 1 or returns[0].value is None or not isinstance(offer.returns[0], In):
        return False
    names = {node.id for node in ast.walk(returns[0].value) if isinstance(node, ast.Name)}
    known = {parameter.name for parameter in offer.parameters} | MATHEMATICS | {"pi", "math"}
    known |= {"radians", "degrees", "float"}
    numbers = {k for k, v in offer.function.__globals__.items() if isinstance(v, int | float)}
    plain_parts = (ast.expr_context, ast.operator, ast.unaryop)
    shapes = (ast.BinOp, ast.UnaryOp, ast.Call, ast.Name, ast.Constant, *plain_parts)
    shaped = all(isinstance(node, shapes) for node in ast.walk(returns[0].value))
    return shaped and names <= known | numbers


FORMULAS = [offer for offer in OFFERS.values() if isinstance(offer.returns[0], In)]


@pytest.mark.parametrize(
    "offer", [one for one in FORMULAS if equation(one)], ids=lambda one: one.name
)
def test_an_equation_is_in_the_names_of_the_parameters(offer: Offer) -> None:
    tree = equation(offer)
    assert tree is not None
    known = {parameter.name for parameter in offer.parameters} | {"pi"}
    assert {node.name for node in t.walk(tree) if isinstance(node, t.Name)} <= known


def test_every_formula_of_one_expression_has_an_equation() -> None:
    closed = [offer.name for offer in FORMULAS if closed_form(offer)]
    assert [name for name in closed if equation(OFFERS[name]) is None] == []
    assert len(closed) >= 19


# Angles are in degrees in an equation and in radians in Python, so those are held elsewhere.
ALGEBRAIC = [
    offer
    for offer in FORMULAS
    if (tree := equation(offer)) and not any(isinstance(n, t.Call) for n in t.walk(tree))
]


@pytest.mark.parametrize("offer", ALGEBRAIC, ids=lambda one: one.name)
def test_an_equation_gives_what_its_formula_gives(offer: Offer) -> None:
    """The tree, worked out in the units of the parameters, is the function's own number."""
    given = example_of(offer)
    tree = equation(offer)
    assert tree is not None
    assert number_of(tree, given) == pytest.approx(offer.function(**given), rel=1e-12)


def example_of(offer: Offer) -> dict[str, float]:
    """The arguments of the first example in a formula's docstring, and the others' defaults."""
    text = inspect.getdoc(offer.function) or ""
    for example in DocTestParser().get_examples(text):
        for node in ast.walk(ast.parse(example.source)):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == offer.name:
                names = [parameter.name for parameter in offer.parameters]
                given = {p.name: p.default for p in offer.parameters if not p.required}
                given |= {n: number(v) for n, v in zip(names, node.args, strict=False)}
                return given | {k.arg or "": number(k.value) for k in node.keywords}
    raise AssertionError(f"{offer.name} has no example")


def number(node: ast.expr) -> float:
    """A number of an example, which may be a fraction: `1 / 50`."""
    return float(eval(compile(ast.Expression(node), "example", "eval"), {"__builtins__": {}}))


def number_of(node: t.Node, given: dict[str, float]) -> float:
    match node:
        case t.Number(number=number):
            return number
        case t.Name(name="pi"):
            return math.pi
        case t.Name(name=name):
            return given[name]
        case t.Group(inner=inner):
            return number_of(inner, given)
        case t.Negative(inner=inner):
            return -number_of(inner, given)
        case t.Binary(sign=sign, left=left, right=right):
            one, other = number_of(left, given), number_of(right, given)
            return {
                "+": one + other,
                "-": one - other,
                "*": one * other,
                "/": one / other if sign == "/" else 0.0,
                "**": one**other if sign == "**" else 0.0,
            }[sign]
    raise AssertionError(node)
