"""Findings: grades, places, how they are told, and the catalogue of messages."""

from __future__ import annotations

import pytest

from shoplog.problems import (
    CATALOGUE,
    Grade,
    Mistake,
    Place,
    Problem,
    Span,
    message,
    near,
    regrade,
)

PLACE = Place("page.md", 3, 5, 4, "a = bore + 1 mm")


def test_a_problem_in_one_line_and_in_full() -> None:
    also = Place("other.md", 7, 1)
    found = Problem(Grade.PROBLEM, "code", "what is wrong", PLACE, "did you mean boar?", (also,))
    assert (
        str(found)
        == found.line
        == ("page.md:3:5: what is wrong (did you mean boar?) [see other.md:7:1]")
    )
    assert found.text == (
        "page.md:3:5: what is wrong\n"
        "    a = bore + 1 mm\n"
        "        ^^^^\n"
        "  hint: did you mean boar?\n"
        "  see also other.md:7:1"
    )


@pytest.mark.parametrize("grade", [Grade.CAUTION, Grade.NOTE])
def test_a_lesser_grade_is_told_before_the_message(grade: Grade) -> None:
    found = Problem(grade, "code", "what it is", PLACE)
    assert found.line == f"page.md:3:5: {grade}: what it is"
    assert found.text.startswith(f"page.md:3:5: {grade}: what it is\n")


def test_a_finding_may_be_regraded() -> None:
    found = Problem(Grade.PROBLEM, "code", "what it is", PLACE)
    assert regrade(found, Grade.NOTE).grade is Grade.NOTE
    assert regrade(found, Grade.NOTE).place is PLACE


def test_a_caret_stays_within_its_line_and_a_tab_is_shown_as_a_space() -> None:
    found = Problem(Grade.PROBLEM, "c", "m", Place("p.md", 1, 3, 99, "a\tbore"))
    assert found.text == "p.md:1:3: m\n    a bore\n      ^^^^"
    found = Problem(Grade.PROBLEM, "c", "m", Place("p.md", 1, 9, 1, "a ="))
    assert found.text.splitlines()[2] == "            ^"


def test_a_message_is_declared_once() -> None:
    with pytest.raises(ValueError, match=r"^the message 'units-differ' is declared twice$"):
        message("units-differ", "another")


def test_a_mistake_fills_its_message_and_hint_with_data() -> None:
    made = message("test-only", "{what} is wrong", hint="try {other}", example="a = 1")
    try:
        mistake = Mistake(made, Span(4, 8), what="{bore}", other="{boar}")
        assert str(mistake) == "{bore} is wrong"
        assert mistake.hint == "try {boar}"
        assert mistake.at(PLACE).line == "page.md:3:5: {bore} is wrong (try {boar})"
        assert Mistake(made, hint="{as it is}", what="x").hint == "{as it is}"
        assert Mistake(made, hint="", what="x").hint == ""
    finally:
        del CATALOGUE["test-only"]


@pytest.mark.parametrize(
    ("word", "found"),
    [("dimeter", "diameter"), ("DIAMETER", "diameter"), ("fed", "feed"), ("xyz", ""), ("", "")],
)
def test_the_nearest_known_word(word: str, found: str) -> None:
    assert near(word, ["diameter", "feed"]) == found


def test_a_long_line_is_cut_around_its_fault() -> None:
    place = Place("a.md", 3, 50_001, 4, "x" * 50_000 + "half" + "y" * 50_000)
    said = Problem(Grade.PROBLEM, "c", "wrong", place).text.splitlines()
    assert said[1] == f"    …{'x' * 100}half{'y' * 100}…"
    assert said[2] == f"    {' ' * 101}^^^^"
    near_start = Place("a.md", 3, 2, 3, "ab cd" + "z" * 1000)
    said = Problem(Grade.PROBLEM, "c", "wrong", near_start).text.splitlines()
    assert said[1].startswith("    ab cdzzz")
    assert said[1].endswith("z…")
    assert said[2] == "     ^^^"
