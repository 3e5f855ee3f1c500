"""The reference of disagreements: each row names a value that the project really gives."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

from shoplog.log import report_of_text
from shoplog.problems import Grade

HERE = Path(__file__).parent
PAGE = HERE.parent / "docs" / "reference" / "disagreements.md"
HEADER = "| what | followed | not followed | why | it holds |"
LINES = PAGE.read_text("utf-8").splitlines()
ROWS = [line.strip("| ").split(" | ") for line in LINES if line.startswith("|")]
ROWS = [row for row in ROWS if not row[0].startswith(("what", "---"))]


def problems_of(condition: str) -> list[str]:
    page = report_of_text(f"```calc\ncheck {condition}\n```\n", "disagreements")
    return [found.message for found in page.problems if found.grade is Grade.PROBLEM]


def condition_of(row: list[str]) -> str:
    return row[-1].strip("`")


def published(name: str) -> ModuleType:
    """A module of the published checks, which are no package."""
    path = HERE / "published" / f"{name}.py"
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_the_value_that_a_row_says_is_followed_is_given(row: list[str]) -> None:
    assert len(row) == 5
    assert all(cell.strip() for cell in row)
    assert problems_of(condition_of(row)) == []


def test_a_row_that_names_another_value_would_be_seen() -> None:
    assert problems_of("(8 mm g6).max == 7.992 mm") == [
        "this check does not hold: (8 mm g6).max is 7.995 mm"
    ]


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_a_row_asks_a_formula_or_a_class_and_compares_what_it_says(row: list[str]) -> None:
    # A condition between plain numbers would hold whatever the project gives.
    for part in condition_of(row).split(" and "):
        one = re.split(r" (?:==|<|>) ", part)[0]
        assert re.search(r"\w\(|mm [a-zA-Z]{1,2}[0-9]", one), part


def test_every_table_of_the_page_has_its_columns_in_order() -> None:
    headings = [line for line in LINES if line.startswith("## ")]
    assert LINES.count(HEADER) == len(headings) >= 8
    assert len(ROWS) >= 80


def deviations(pair: tuple[float, float]) -> str:
    """Upper over lower, as a row writes them."""
    low, high = sorted(pair)
    if low == -high:
        return f"±{high:g}"
    return f"{_signed(high)}/{_signed(low)}"


def _signed(number: float) -> str:
    return f"{number:+g}" if number else "0"


@pytest.mark.parametrize("entry", published("test_published_fits").DISAGREEMENTS, ids=str)
def test_every_disagreement_about_iso_286_stands_on_the_page(
    entry: tuple[float, str, tuple[float, float], str, tuple[float, float], str],
) -> None:
    nominal, name, followed, _, other, _ = entry
    (row,) = [row for row in ROWS if row[0] == f"{nominal:g} mm {name}"]
    assert row[1].startswith(f"{deviations(followed)} µm: ")
    assert row[2].startswith(f"{deviations(other)} µm: ")


@pytest.mark.parametrize("entry", published("test_published_inch_fits").DISAGREEMENTS, ids=str)
def test_every_disagreement_about_inch_fits_stands_on_the_page(
    entry: tuple[str, float, tuple[float, float], str, tuple[float, float], str],
) -> None:
    name, diameter, followed, _, other, _ = entry
    (row,) = [row for row in ROWS if row[0] == f"{diameter:g} in {name}, shaft"]
    assert row[1].startswith("/".join(f"{number:.1f}" for number in followed))
    assert row[2].startswith("/".join(f"{number:.1f}" for number in other))
