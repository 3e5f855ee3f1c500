"""A page reaches nothing but values: no attribute, no Python name, no private field."""

from __future__ import annotations

import pytest
from calc_page import codes, findings, value

from shoplog.trade.declare import readable_fields

BEFORE = """\
a = 16 mm H7
t = thread("M6x1")
f = fit(16 mm H7, 16 mm f7)
p = bolt_circle(50 mm, 3)
s = "x"
"""


@pytest.mark.parametrize(
    "expression",
    [
        "a.__class__",
        "a.parts",
        "a.unit",
        "a._worst",
        "a.to_base",
        "t.__class__",
        "t.__dict__",
        "t.from_text",
        "t.describe",
        "f.cautions",
        "f.describe",
        "f.__init__",
        "f.hole.__class__",
        "p.points.__len__",
        "p.points[0].__class__",
        "s.__class__",
        "s.format",
        "(1 < 2).__class__",
        "[1].__class__",
        "52 HRC.scale",
    ],
)
def test_a_field_is_one_of_those_that_are_for_pages(expression: str) -> None:
    (code,) = codes(f"{BEFORE}x = {expression}")
    assert code in {"value-field", "field-unknown", "field-on-literal"}


@pytest.mark.parametrize(
    "expression",
    [
        "__import__",
        "__builtins__",
        "self",
        "None",
        "True",
        "math",
        "math.pi",
        "print",
        "lambda",
        "Scope",
    ],
)
def test_no_name_of_python_is_a_name_of_a_page(expression: str) -> None:
    assert codes(f"x = {expression}") == ["name-unknown"]


@pytest.mark.parametrize(
    "name", ["eval", "exec", "open", "__import__", "getattr", "print", "round"]
)
def test_no_function_of_python_is_a_formula(name: str) -> None:
    assert codes(f'x = {name}("1")') == ["function-unknown"]


@pytest.mark.parametrize(
    "text", ["x = a.b()", "x = (1)(2)", "x = [1](2)", "x = f(1)(2)", "x = 'a'"]
)
def test_only_a_formula_by_its_name_is_called(text: str) -> None:
    assert len(codes(text)) == 1


def test_the_fields_for_pages_leave_out_cautions_and_what_is_private() -> None:
    fields = readable_fields(type(value("f", BEFORE)))
    assert "clearance_max" in fields
    assert "cautions" not in fields
    assert not any(name.startswith("_") for name in fields)


def test_a_text_with_braces_is_data_in_every_message() -> None:
    assert findings('x = thread("{0}{name!r}")')[0].startswith('1:12 "{0}{name!r}"')
    assert findings('x = "{a}" + 1 mm') == ["1:5 + takes quantities; this is a text"]
    asked = findings('mate 16 mm H7 with 16 mm f7 as "{0}"')
    assert asked[0].startswith("1:32 `{0}` is not a fit")
    assert findings('use "{page}" as p') == ["1:5 there is no page `{page}` in this log"]


def test_no_text_grows() -> None:
    assert codes('a = "x" + "y"') == ["operand-kind"]
    assert codes('a = "x" * 1000') == ["operand-kind"]
    assert codes('a = max("x", "y")') == ["function-kind"]
