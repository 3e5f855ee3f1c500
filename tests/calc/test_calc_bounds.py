"""Hard bounds: nothing that a page holds raises, hangs or recurses, and any text gives findings."""

from __future__ import annotations

import random
from contextlib import suppress

import pytest
from calc_page import block, codes, findings, items, log_of
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.calc.evaluate import MOST_WORK, Budget, evaluate_text
from shoplog.calc.explain import argument_texts, explain
from shoplog.calc.parse import parse_expression
from shoplog.calc.results import Result, Unworked
from shoplog.calc.scope import Scope, Waits
from shoplog.calc.show import show
from shoplog.calc.statements import MOST_LENGTH, code_of, split_statements
from shoplog.log import read_log
from shoplog.log.blocks import read_page
from shoplog.problems import Mistake

LONG = MOST_LENGTH - 100


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("a = " + "(" * 20_000 + "1" + ")" * 20_000, "statement-too-long"),
        ("a = (\n" + " (\n" * 20_000, "statement-too-long"),
        ("a = " + "1 + " * 16_000 + "1", "statement-too-long"),
        ("a = " + "1 + " * 900 + "1", "too-many-parts"),
        ("a = " + "-" * LONG + "1", "too-many-parts"),
        ("check " + "not " * 900 + "1 < 2", "too-many-parts"),
        ("a = " + "9**" * 1000 + "9", "too-many-parts"),
        ("a = " + "9**" * 100 + "9", "exponent"),
        ("a = " + "(" * 61 + "1" + ")" * 61, "nesting"),
        ("a = " + "[" * 61 + "1" + "]" * 61, "nesting"),
        ("a = " + "max(" * 61 + "1" + ")" * 61, "nesting"),
        ("a = " + "1 < " * 900 + "1", None),
        ("a = " + "+" * LONG + "1", None),
        ("a = [" + ", ".join(["1"] * 900) + "]", None),
        ("a = max(" + ", ".join(["1"] * 51) + ")", "function-arguments"),
        ("a = " + "9" * 400, "word-too-long"),
        ("a = " + "9" * LONG + " mm", "word-too-long"),
        ("a = " + "9" * 1900 + "/" + "9" * 1900 + " in", "word-too-long"),
        ("a = " + "9" * 1000 + "-1/2 in", "word-too-long"),
        ("a = 16 mm +" + "9" * 400 + "/-1", "word-too-long"),
        ("a = 1°" + "9" * 400 + "'", "angle-marks"),
        ("p = [1]\na = p[" + "9" * LONG + "]", "word-too-long"),
        ("a = 1 mm\nmeasured a " + "9" * LONG + " = 1 mm", "word-too-long"),
        ("a" * LONG + " = 3", "word-too-long"),
        ("a = 5 " + "m" * LONG, "word-too-long"),
        ("a = M" + "1" * LONG, "word-too-long"),
        ("a = 1e999", "magnitude"),
        ("a = 1e999 mm", "magnitude"),
        ("a = -1e249 mm ±1 + 1e250 km", "magnitude"),
        ("a = " + '"x" ' * 900, "operator-wanted"),
        ("a = " + '"' * 901, "quote-unclosed"),
        ("a = " + "1," * 1900, "decimal-comma"),
        ("a = " + "1 000 " * 600, "thousands"),
        ("a = 1" + "_1" * 1900, "word-too-long"),
        ("a = " + "1/" * 1900 + "1 in", "fraction-brackets"),
        ("a = " + "1-" * 1900 + "1 in", "too-many-parts"),
        ("a = " + "1°1'" * 900, "angle-marks"),
        ("a = 5" + " " * LONG + "mm", None),
        ("a = b" + " " * LONG + "±1", "operator-wanted"),
        ("a = 1 mm " + "to in " * 600, "to-last"),
        ("a = " + "x to y" * 600, "unit-unknown"),
        ("a = " + "1." * 1900, "operator-wanted"),
        ("a = " + "ab " * 1300, "operator-wanted"),
        ('a = "' + "x" * LONG + '"', None),
    ],
    ids=lambda value: str(value)[:24],
)
def test_a_statement_without_end(text: str, code: str | None) -> None:
    assert codes(text) == ([] if code is None else [code])


def test_lists_do_not_nest_so_no_page_doubles_one_without_end() -> None:
    text = "a0 = [1, 1]\n" + "\n".join(f"a{i} = [a{i - 1}, a{i - 1}]" for i in range(1, 60))
    assert codes(text) == ["list-in-list"]


def test_a_stack_of_thousands_of_sizes_is_work() -> None:
    rows = "a0 = 1 mm ±0.1\n" + "\n".join(f"a{i} = a{i - 1} + 1 mm ±0.1" for i in range(1, 1800))
    assert set(codes(rows)) == {"work-bound"}


def test_the_budget_is_spent_by_parts_and_by_calls() -> None:
    budget = Budget()
    evaluate_text("1 + 2", Scope(), budget=budget)
    assert budget.left == MOST_WORK - 3
    evaluate_text("max(1, 2)", Scope(), budget=budget)
    assert budget.left == MOST_WORK - 3 - 3 - 25
    with pytest.raises(Mistake, match=r"^this page asks for more work than 200000 steps$"):
        evaluate_text("1 + 2", Scope(), budget=Budget(2))


def test_a_long_chain_of_names_is_worked_out_without_recursion() -> None:
    text = "a0 = 1\n" + "\n".join(f"a{i} = a{i - 1} + 1" for i in range(1, 2500))
    last = items(text)[-1]
    assert isinstance(last, Result)
    assert last.value.nominal == 2500


def test_a_long_chain_of_pages_is_worked_out_without_recursion() -> None:
    texts = {
        f"p{i}.md": block(f"x = p{i - 1}.x + 1" if i else "x = 1", f"part: p{i}")
        for i in range(1200)
    }
    log = read_log(texts)
    assert log.problems == ()
    assert log.pages["p1199.md"].results[0].value.nominal == 1200


def test_a_page_of_unknown_names_gets_few_hints() -> None:
    text = "\n".join(f"abcdefgh{i} = 1" for i in range(500))
    text += "\n" + "\n".join(f"b{i} = abcdexgh{i}" for i in range(500))
    problems = log_of(text).problems
    assert len(problems) == 500
    assert sum(bool(found.hint) for found in problems) == 50


def test_many_readings_and_many_readers() -> None:
    text = "a = 16 mm H7\n" + "\n".join(
        f"measured a = 16.00{i % 9} mm\nb{i} = a.measured" for i in range(700)
    )
    assert codes(text) == []


GOOD = (
    "bore = 16 mm H7  # reamed",
    "a = 7/32 in + 1-1/2 in - 3 mm ±0.05",
    "b = tan(8°25'30\") * 16 mm +0.02/-0.01",
    "n = spindle_speed(cutting_speed=30 m/min, diameter=10 mm) to rpm",
    'mate bore with c as "H7/f7"',
    "mate bore with c as clearance 15 um..55 um",
    'measured bore "before" = 16.009 mm ±0.003',
    'concession bore because "the shaft was turned to suit"',
    "check 1 mm < bore <= 17 mm and not bore == 3 in or 52 HRC > 50 HRC",
    'p = [1 mm, 2 mm][0] ** -2 / thread("M10x1.5-6H").pitch',
    'use "other/page" as other',
    "draw fit(16 mm H7, 16 mm f7)",
    "t = -40 degF to degC",
)


def whole(text: str) -> None:
    """Work a text out as a block, as an expression in prose, and show all that comes of it."""
    log = read_log({"page.md": block(text)})
    for found in log.problems:
        assert found.line
        assert found.text
        assert found.place.column >= 1
        assert "{" not in found.message or "{" in text
    for report in log.pages.values():
        for item in (item for part in report.blocks for item in part.items):
            if isinstance(item, Result):
                assert show(item.value).both
                explain(item.expression, item.working)
                assert all(argument_texts(use) is not None for use in item.working.formulas)
            elif isinstance(item, Unworked):
                assert item.problems or item.waits_for
    with suppress(Mistake, Waits):
        show(evaluate_text(text, Scope())[0])


@given(st.text(max_size=200))
@settings(max_examples=300, deadline=None)
def test_any_text_gives_values_or_findings(text: str) -> None:
    whole(text)


SIGNS = "0123456789abmnihHf .,+-*/=<>()[]\"'#°±²_^%&|{}\\\n\t\u00a0½–“Ø×÷−\u0301\u200b٣ß"


@given(
    start=st.sampled_from(GOOD),
    edits=st.lists(
        st.tuples(st.integers(0, 80), st.integers(0, 3), st.text(SIGNS, max_size=3)), max_size=5
    ),
)
@settings(max_examples=600, deadline=None)
def test_a_good_row_that_was_mistyped_gives_values_or_findings(
    start: str, edits: list[tuple[int, int, str]]
) -> None:
    for at, cut, put in edits:
        start = start[:at] + put + start[at + cut :]
    whole(start)


WORDS = [
    *"( ) [ ] , + - * / ** = == < > <= and or not to . .. ± # \" '".split(),
    *"check measured mate with as concession because draw use".split(),
    *"1 2 0 7/32 1-1/2 1e9 0.05 mm in rpm degC % ° H7 f7 HRC a b m pi max fit thread".split(),
    '"M6x1"',
    "+0.02/-0.01",
    "8°25'30\"",
    "\n",
]


@given(st.lists(st.sampled_from(WORDS), max_size=40), st.sampled_from(["", " "]))
@settings(max_examples=600, deadline=None)
def test_words_of_the_language_in_any_order_give_values_or_findings(
    words: list[str], between: str
) -> None:
    whole(between.join(words))


def test_formulas_of_any_arguments_give_values_or_findings() -> None:
    """Every formula and function, with numbers at the ends of what can be written."""
    from shoplog.calc.functions import FUNCTIONS
    from shoplog.trade.declare import In
    from shoplog.trade.offers import OFFERS

    chance = random.Random(20260314)
    numbers = "0 1 2 4 1e-200 1e200 1e249 -1 -5 0.5 3.7 1e6 1e-12 118 180 359.9 1e15".split()
    texts = [
        "M6x1",
        "1/4-20 UNC-2A",
        "#10-32 UNF",
        "Morse 2",
        "1:20",
        "7:24 ISO 40",
        "#7",
        "F",
        "5/32 in",
        "",
        "x{0}y",
        "H7",
        "M1e99",
        "M999999999x1",
        "1:0",
        "0:1",
        "1/0-20",
        "#99999999999999",
        "1:1e400",
        "-1:5",
        "8°",
    ]
    literals = [
        "16 mm H7",
        "0.5 mm ±0.6",
        "(1e200 mm ±1)",
        "(-5 mm ±1)",
        "(400 mm +1e3/-2)",
        "20 degC",
        "5 %",
        "[1 rpm, 2 rpm]",
        "[]",
        "4 tooth",
        "4 tooth/rev",
        "52 HRC",
    ]

    def argument(kinds: tuple[object, ...]) -> str:
        kind = chance.choice(kinds)
        if isinstance(kind, In) and chance.random() < 0.8:
            return f"{chance.choice(numbers)} {kind.unit}".strip()
        return chance.choice([*literals, f'"{chance.choice(texts)}"', chance.choice(numbers)])

    for name, offer in OFFERS.items():
        rows = []
        for row in range(60):
            parameters = [p for p in offer.parameters if p.required or chance.random() < 0.5]
            given = ", ".join(f"{p.name}={argument(p.kinds)}" for p in parameters)
            rows.append(f"a{row} = {name}({given})")
        whole("\n".join(rows))
    kinds = (In("mm"), In("deg"), In(""))
    for name, (least, _, _, _) in FUNCTIONS.items():
        calls = [", ".join(argument(kinds) for _ in range(least)) for _ in range(60)]
        whole("\n".join(f"a{row} = {name}({call})" for row, call in enumerate(calls)))


@given(st.text(max_size=60))
def test_code_keeps_its_length_so_columns_stay_true(text: str) -> None:
    assert len(code_of(text)) == len(text)


@given(st.text(st.sampled_from(SIGNS), max_size=300))
@settings(max_examples=200)
def test_the_places_of_statements_are_places_of_the_page(text: str) -> None:
    source = read_page("page.md", block(text))
    for found in source.blocks:
        for statement in split_statements("page.md", found.lines):
            place = statement.place(statement.mistake.span if statement.mistake else None)
            assert 1 <= place.line <= len(source.lines)


def test_findings_of_a_block_are_in_the_order_of_its_rows() -> None:
    assert [line.split(":")[0] for line in findings("a = 1/0\nb = 5 furlong\nc = bore")] == [
        "1",
        "2",
        "3",
    ]


@pytest.mark.parametrize("text", ["a = 1 mm.", "a = (16 mm H7).", "a = 1 mm. ", "a = 16 mm ±0.1."])
def test_a_point_at_the_end_is_told(text: str) -> None:
    (code,) = codes(text)
    assert code in {"operator-wanted", "ends-too-soon", "trailing-point"}


def test_an_expression_alone_is_bounded_before_it_is_parsed() -> None:
    node, mistake = parse_expression("(" * 20_000 + "1" + ")" * 20_000)
    assert node is None
    assert str(mistake) == "this statement is 40001 characters long, 4000 at most"
