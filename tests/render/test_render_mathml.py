"""MathML from expression trees: every kind of node is well-formed XML, whatever its text."""

from dataclasses import dataclass
from typing import get_args
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.calc import tree as t
from shoplog.calc.statements import split_statements
from shoplog.problems import Span
from shoplog.render.mathml import math, unit_shown

NO = Span(0, 0)
X = t.Name("x", NO)
TWO = t.Number(2.0, "2", NO)


@dataclass(frozen=True)
class Line:
    text: str
    number: int = 1
    column: int = 1


def expression(text):
    statement = split_statements("page.md", [Line(f"a = {text}")])[0]
    assert statement.mistake is None, str(statement.mistake)
    return statement.node.expression


def condition(text):
    statement = split_statements("page.md", [Line(f"check {text}")])[0]
    assert statement.mistake is None, str(statement.mistake)
    return statement.node.condition


def shown(node):
    """The content of a node's MathML, without the `math` element around it."""
    html = math(node)
    ElementTree.fromstring(html)
    return html.removeprefix('<math displaystyle="true">').removesuffix("</math>")


def words(node):
    return "".join(ElementTree.fromstring(math(node)).itertext())


EVERY_KIND = (
    TWO,
    t.Quantity(2.0, "2", "mm", "decimal", NO),
    t.Angle(8.5, "8°30'", NO),
    t.Sized(t.Quantity(2.0, "2", "mm", "decimal", NO), "H7", 0, 0, "", "H7", NO),
    t.HardnessLiteral(52, "HRC", "52 HRC", NO),
    t.Text("M8", NO),
    X,
    t.Field(X, "max", NO, NO),
    t.Index(X, 0, NO),
    t.Call("fit", (X,), (("shaft", X, NO),), NO, NO),
    t.Items((X, TWO), NO),
    t.Group(X, NO),
    t.Negative(X, NO),
    t.Binary("+", X, TWO, NO),
    t.To(X, "mm", NO),
    t.Compare((X, TWO, X), ("<", "<="), NO),
    t.Logic("and", X, X, NO),
    t.Not(X, NO),
    t.Shown("16.000", "mm", NO),
)


def test_the_list_of_kinds_has_every_node():
    assert {type(node) for node in EVERY_KIND} == set(get_args(t.Node))


@pytest.mark.parametrize("node", EVERY_KIND, ids=lambda node: type(node).__name__)
def test_every_kind_of_node_is_well_formed_and_shows_its_words(node):
    assert words(node).strip()


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("x / 2", "<mfrac><mi>x</mi><mn>2</mn></mfrac>"),
        ("(x + 1) / (y)", "<mfrac><mrow><mi>x</mi><mo>+</mo><mn>1</mn></mrow><mi>y</mi></mfrac>"),
        ("x ** 2", "<msup><mi>x</mi><mn>2</mn></msup>"),
        ("sqrt(x)", "<msqrt><mi>x</mi></msqrt>"),
        ("pi * x", "<mrow><mi>π</mi><mo>×</mo><mi>x</mi></mrow>"),
        ("-x", "<mrow><mo>−</mo><mi>x</mi></mrow>"),
        ("5 mm", "<mrow><mn>5</mn><mtext>\u00a0mm</mtext></mrow>"),
        ("7/32 in", "<mrow><mfrac><mn>7</mn><mn>32</mn></mfrac><mtext>\u00a0in</mtext></mrow>"),
        (
            "1-1/2 in",
            "<mrow><mrow><mn>1</mn><mfrac><mn>1</mn><mn>2</mn></mfrac></mrow>"
            "<mtext>\u00a0in</mtext></mrow>",
        ),
        (
            "16 mm +0.02/-0.01",
            "<mrow><mrow><mn>16</mn><mtext>\u00a0mm</mtext></mrow>"
            "<mtext>\u00a0+0.02/−0.01</mtext></mrow>",
        ),
        ("shaft.journal.max", "<mi>shaft.journal.max</mi>"),
        ("x[1]", "<msub><mi>x</mi><mn>1</mn></msub>"),
    ],
)
def test_an_expression_is_set_as_it_is_written_by_hand(text, wanted):
    assert shown(expression(text)) == wanted


def test_simple_brackets_do_not_stretch_and_those_about_a_fraction_do():
    assert '<mo stretchy="false">(</mo>' in shown(expression("2 * (x + 1)"))
    tall = shown(expression("2 * (x / 3)"))
    assert "<mo>(</mo>" in tall
    assert "stretchy" not in tall


def test_a_unit_keeps_its_exponent_apart_from_a_power_of_the_quantity():
    assert shown(expression("(5 mm) ** 2")).startswith("<msup><mrow><mo")
    put_in = t.Binary("**", t.Shown("5.000", "mm", NO), TWO, NO)
    assert words(put_in) == "(5.000\u00a0mm)2"


def test_a_field_of_a_value_put_in_has_the_value_in_brackets():
    assert words(t.Field(t.Shown("25 mm f7", "", NO), "max", NO, NO)) == "(25 mm f7).max"


@pytest.mark.parametrize("text", ["-3", "-0.5"])
def test_a_negative_value_put_in_gets_brackets(text):
    minus = t.Binary("-", X, t.Shown(text, "", NO), NO)
    assert words(minus) == f"x−({text.replace('-', '−')})"


def test_a_comparison_keeps_its_signs():
    assert words(condition("1 mm < x <= 2 mm")) == "1\u00a0mm<x≤2\u00a0mm"
    assert "&lt;" in shown(condition("x < 2 mm"))


@pytest.mark.parametrize(
    ("text", "wanted"),
    [("N*mm", "N·mm"), ("mm^2", "mm²"), ("um", "µm"), ("deg", "°"), ("in", "in")],
)
def test_a_unit_is_printed(text, wanted):
    assert unit_shown(text) == wanted


HOSTILE = (
    "<script>alert(1)</script>",
    "</mtext></math><img src=x onerror=alert(1)>",
    "a & b",
    "\"quoted\" and 'so'",
    "\u202egnp.exe\u202c",
    "\x02wzxhzdk:0\x03",
    "nul\x00",
)


def with_text(text):
    """A node of every kind that carries a text of the page."""
    yield t.Number(1.0, text, NO)
    yield t.Angle(1.0, text, NO)
    yield t.Quantity(1.0, text, text, "decimal", NO)
    yield t.Quantity(1.0, f"1/{text}", text, "fraction", NO)
    yield t.Sized(t.Angle(1.0, "1°", NO), "", 0, 0, text, text, NO)
    yield t.HardnessLiteral(1, text, text, NO)
    yield t.Text(text, NO)
    yield t.Name(text, NO)
    yield t.Field(X, text, NO, NO)
    yield t.Field(t.Call("f", (), (), NO, NO), text, NO, NO)
    yield t.Call(text, (X,), ((text, X, NO),), NO, NO)
    yield t.Binary(text, X, X, NO)
    yield t.To(X, text, NO)
    yield t.Compare((X, X), (text,), NO)
    yield t.Logic(text, X, X, NO)
    yield t.Shown(text, text, NO)


ALLOWED = {"math", "mrow", "mfrac", "msup", "msub", "msqrt", "mi", "mn", "mo", "mtext"}


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_text_stays_text(text):
    for node in with_text(text):
        tree = ElementTree.fromstring(math(node))
        assert {element.tag for element in tree.iter()} <= ALLOWED
        assert not {"\x00", "\x02", "\x03"} & set("".join(tree.itertext()))


@given(st.text())
def test_any_text_makes_well_formed_mathml(text):
    for node in with_text(text):
        assert {element.tag for element in ElementTree.fromstring(math(node)).iter()} <= ALLOWED
