"""The reference pages are what the declarations say, and are committed as they are made."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from shoplog.log.setups.keys import SETUP_KEYS
from shoplog.problems import CATALOGUE, Message, message
from shoplog.render import reference
from shoplog.render.reference import example_finding, main, pages
from shoplog.render.reference_formulas import example_call, formula_pages, sections
from shoplog.tables import table_names
from shoplog.trade.offers import OFFERS
from shoplog.units import COMPOUND_UNITS, SIMPLE_UNITS

REFERENCE = Path(__file__).parents[2] / "docs" / "reference"
PAGES = pages()


@pytest.mark.parametrize("name", sorted(PAGES))
def test_a_committed_page_is_what_the_declarations_make(name: str) -> None:
    assert (REFERENCE / name).read_text("utf-8") == PAGES[name]


def test_no_made_page_is_left_over() -> None:
    committed = {
        path.relative_to(REFERENCE).as_posix()
        for path in REFERENCE.rglob("*.md")
        if reference.MADE in path.read_text("utf-8")
    }
    assert committed == set(PAGES)


def test_main_writes_every_page(tmp_path: Path) -> None:
    main(tmp_path / "reference")
    written = {
        path.relative_to(tmp_path / "reference").as_posix(): path.read_text("utf-8")
        for path in (tmp_path / "reference").rglob("*.md")
    }
    assert written == PAGES


@pytest.mark.parametrize("offer", OFFERS.values(), ids=OFFERS)
def test_a_formula_has_its_section_with_every_argument(offer) -> None:  # type: ignore[no-untyped-def]
    text = PAGES[f"formulas/{offer.topic}.md"]
    section = text.partition(f"{{#{offer.name}}}")[2].partition("\n## ")[0]
    assert f"\n```text\n{example_call(offer)}\n= " in section
    assert f"*Source: {offer.source}.*" in section
    for parameter in offer.parameters:
        assert f"\n| `{parameter.name}` | " in section
    for caution in offer.cautions:
        assert f"    {caution[0].upper()}{caution[1:]}.\n" in section
    assert f"{{#{offer.name}}}" in text


def test_an_argument_says_its_range() -> None:
    text = formula_pages()["cutting.md"]
    assert "| `cutting_speed` | m/min | Over 0. |" in text


def test_a_closed_form_is_shown_as_it_is_worked_out() -> None:
    text = formula_pages()["cutting.md"]
    assert "```text\n1000 * cutting_speed / (pi * diameter)\n```" in text
    assert "= 955 rpm" in text


def test_a_record_has_its_fields_with_units() -> None:
    text = formula_pages()["fits.md"]
    assert "| `clearance_min` | um | The smallest hole less the largest shaft. |" in text
    assert "| `kind` | text | `clearance`, `transition` or `interference`. |" in text


def test_a_docstring_is_split_into_its_sections() -> None:
    found = sections(OFFERS["spindle_speed"].function)
    assert list(found) == ["", "Parameters", "Returns", "Notes", "Examples", "References"]


def test_every_unit_key_and_table_is_listed() -> None:
    for text in (*SIMPLE_UNITS, *COMPOUND_UNITS):
        assert f"`{text}`" in PAGES["units.md"]
    for key in SETUP_KEYS.values():
        assert f"| `{key.name}` | " in PAGES["setup-keys.md"]
        assert key.doc in PAGES["setup-keys.md"]
    for name in table_names():
        assert f"{{#{name}}}" in PAGES["tables.md"]


@pytest.mark.parametrize(
    "found", [one for one in CATALOGUE.values() if one.example], ids=lambda one: one.code
)
def test_a_message_that_has_an_example_is_met_by_it(found: Message) -> None:
    assert example_finding(found) is not None


def test_a_message_whose_example_is_right_is_not_met() -> None:
    assert example_finding(Message("trailing-point", "…", example="a = 5.0 in")) is None


def test_a_text_with_backticks_is_shown_whole() -> None:
    assert reference._code("`a` is `b`") == "`` `a` is `b` ``"
    assert reference._code("a | b") == r"`a \| b`"


def test_a_message_of_no_room_is_left_out() -> None:
    made = message("new-one", "a message of a test")
    try:
        assert reference._messages().strip() in PAGES["messages.md"]
    finally:
        del CATALOGUE[made.code]


def test_every_message_of_the_package_is_found_in_its_module() -> None:
    declared = {
        code
        for path in (Path(reference.__file__).parents[1]).rglob("*.py")
        for code in re.findall(r'\bmessage\(\s*"([\w-]+)"', path.read_text("utf-8"))
    }
    assert {one.code for _, one in reference._by_module()} == declared
