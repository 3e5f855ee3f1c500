"""Rules 22 to 24 of the language: where a message points, and what it hints at."""

from __future__ import annotations

import pytest
from calc_page import findings, items, log_of, only

from shoplog.calc.evaluate import evaluate_text
from shoplog.calc.scope import Scope
from shoplog.problems import Mistake


def test_the_end_is_the_end_of_the_code_before_the_note() -> None:
    """Rule 22."""
    assert only("a = 3 +   # to be done")[0] == "1:8"
    assert only("a = (3 +\n  4) *  # to be done")[0] == "2:7"


def test_the_wrong_word_is_taken_from_the_source_whole() -> None:
    """Rule 22."""
    (found,) = log_of("a = 3 mm blank + 4 mm").problems
    assert found.message == "an operator or the end is wanted before `blank`"
    assert (found.place.column, found.place.width) == (10, 5)


@pytest.mark.parametrize(
    ("text", "column", "width"),
    [
        ('a = 1 + ( "x" )', 9, 7),
        ("a = [ ] + 1 mm", 5, 3),
        ("a = 1 + sqrt( 1 , 2 )", 9, 13),
        ("p = [1]\na = 1 + p[ 3 ]", 9, 6),
        ("a = 1 mm + ( 2 s + 1 s )", 5, 20),
    ],
)
def test_a_bracket_is_marked_from_end_to_end(text: str, column: int, width: int) -> None:
    """Rule 22."""
    (found,) = log_of(text).problems
    assert (found.place.column, found.place.width) == (column, width)


def test_a_finding_shows_the_line_and_a_caret_under_the_word() -> None:
    """Rule 22."""
    (found,) = log_of("a\t= 3 mm + bore  # a note").problems
    assert found.text == (
        "page.md:2:12: `bore` is not a name of this page\n"
        "    a = 3 mm + bore  # a note\n"
        "               ^^^^"
    )


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a = spindle_speed(30 m/min,\n  dimeter=10 mm)", "2:3"),
        ("a = (1 mm +\n   bore)", "2:4"),
        ("a = [1 mm,\n\n  2 s]", "3:3"),
        ("  a = bore", "1:7"),
        ("a = café + bore\ncafé = 3", "1:5"),
        ('a = "ü" == bore', "1:12"),
    ],
)
def test_the_place_is_that_of_the_part_that_is_wrong(text: str, place: str) -> None:
    """Rule 22."""
    assert findings(text)[0].split(" ")[0] == place


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 3 mm draw", "1:10", "an operator or the end is wanted before `draw`", ""),
        ("a = 3 mm – draw", "1:10", "a dash, which is not a minus", "write -"),
        ("a = (,)", "1:6", "a value is wanted before `,`", ""),
        ("a = 3 inch", "1:7", "`inch` is not a unit of this log", "did you mean in?"),
        ("a = 3 mm blank", "1:10", "an operator or the end is wanted before `blank`", ""),
        ("a = bore +", "1:11", "the line ends too soon: a value is wanted", ""),
        ("boar = 3\na = bore", "2:5", "`bore` is not a name of this page", "did you mean boar?"),
        ("mate a b", "1:8", "an operator or the end is wanted before `b`", ""),
        ("mate a with", "1:12", "the line ends too soon: a value is wanted", ""),
        (
            "mate a with b as snug",
            "1:18",
            'a fit such as "H7/f7", or `clearance 15 um..55 um`, is wanted before `snug`',
            "",
        ),
        (
            "mate a with b as clearance 15 um",
            "1:33",
            "the line ends too soon: `..` and the other bound is wanted",
            "",
        ),
        ("mate a with b as clearance 15..55 um", "1:30", "a unit is wanted before `.`", ""),
        (
            "mate a with b as clearance 15 um to 55 um",
            "1:34",
            "`..` and the other bound is wanted before `to`",
            "",
        ),
        ("concession a because worn", "1:22", "a text in quotes is wanted before `worn`", ""),
        ("measured a.x = 3 mm", "1:11", "`=` is wanted before `.`", ""),
        ("use x as y", "1:5", "a text in quotes is wanted before `x`", ""),
        ('use "x" as 3', "1:12", "a name is wanted before `3`", ""),
        ("draw", "1:5", "the line ends too soon: a value is wanted", ""),
        ("check", "1:6", "the line ends too soon: a value is wanted", ""),
    ],
)
def test_hints_come_in_order(text: str, place: str, message: str, hint: str) -> None:
    """Rule 23: reserved word, trap, what could follow, near unit or name, else an operator."""
    assert only(text) == (place, message, hint)


def test_the_length_of_a_statement_is_bounded_before_it_is_parsed() -> None:
    """Rule 24."""
    assert only("a = " + "(" * 20_000 + "1" + ")" * 20_000) == (
        "1:1",
        "this statement is 40005 characters long, 4000 at most",
        "give a part of it a name",
    )
    with pytest.raises(Mistake, match=r"^this statement is 40001 characters long"):
        evaluate_text("(" * 20_000 + "1" + ")" * 20_000, Scope())


def test_a_statement_is_parsed_once_for_its_text() -> None:
    """Rule 24."""
    first, second = (items("memoised = 1 mm + 2 mm")[0].expression for _ in range(2))
    assert first is second
