"""Every message of the language has an input that causes it, and that input is run."""

from __future__ import annotations

import importlib
import pkgutil

import pytest
from calc_page import block, codes, log_of, project

import shoplog.calc
from shoplog import values
from shoplog.problems import CATALOGUE, Message


def declared_in(module: object) -> set[str]:
    return {found.code for found in vars(module).values() if isinstance(found, Message)}


MODULES = [
    importlib.import_module(f"shoplog.calc.{found.name}")
    for found in pkgutil.iter_modules(shoplog.calc.__path__)
]
OURS = sorted({code for module in (*MODULES, values) for code in declared_in(module)})

# What takes more than one block of one page to cause; each is caused below.
ELSEWHERE = {
    "conceded",
    "formula-caution",
    "name-unknown-there",
    "part-alone",
    "piece-not-measured",
    "work-bound",
}


@pytest.mark.parametrize("code", [code for code in OURS if code not in ELSEWHERE])
def test_the_example_of_a_message_causes_it(code: str) -> None:
    found = CATALOGUE[code]
    assert found.example, f"{code} has no example, and no test of its own"
    met = [problem for problem in log_of(found.example).problems if problem.code == code]
    assert met
    assert met[0].grade is found.grade


@pytest.mark.parametrize("code", [code for code in OURS if code not in ELSEWHERE])
def test_the_example_of_a_message_causes_nothing_else(code: str) -> None:
    assert set(codes(CATALOGUE[code].example)) == {code}


@pytest.mark.parametrize("code", sorted(ELSEWHERE))
def test_a_message_without_example_says_so(code: str) -> None:
    assert CATALOGUE[code].example == ""


def test_a_name_that_another_page_lacks_and_a_part_alone() -> None:
    log = project(gear="a = shaft.bore\nb = shaft", shaft="journal = 3 mm")
    assert [found.code for found in log.problems] == ["name-unknown-there", "part-alone"]


def test_a_formula_s_own_caution_and_a_concession() -> None:
    assert codes("n = spindle_speed(30 m/min, 10 mm)") == ["formula-caution"]
    text = 'a = 16 mm H7\nconcession a because "worn"\nmeasured a = 17 mm'
    assert codes(text) == ["conceded"]


def test_a_piece_that_was_not_measured() -> None:
    text = "a = 16 mm H7\nmeasured a 2 = 16.001 mm\nb = a.measured[0]"
    assert codes(text, "made: 2") == ["piece-not-measured"]


def test_the_work_of_a_page() -> None:
    rows = "a0 = 1 mm ±0.1\n" + "\n".join(f"a{i} = a{i - 1} + 1 mm ±0.1" for i in range(1, 1500))
    assert set(codes(rows)) == {"work-bound"}


def test_a_message_is_a_clause_without_capital_or_full_stop() -> None:
    for code in OURS:
        text = CATALOGUE[code].text
        assert not text.endswith(".")
        assert not text[0].isupper()
        assert text == text.strip()


def test_what_the_examples_give_is_never_a_python_word() -> None:
    for code in OURS:
        for found in log_of(CATALOGUE[code].example).problems:
            assert "None" not in found.line
            assert "<class" not in found.line
            assert "{" not in found.message


def test_an_example_is_the_text_of_one_block() -> None:
    for code in OURS:
        assert "```" not in block(CATALOGUE[code].example)[3:-4].replace("calc\n", "", 1)
