"""Fits asked for in words: what the words are read as, and which fit answers them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, TradeError, readable_fields
from shoplog.trade.limits_and_fits.fit_duties import SuggestedFit, fit_for, inch_fit_for
from shoplog.trade.wording import Reading, best_row, read_words

DUTIES = table("fits_duties").rows
TRAITS = {trait for row in DUTIES for trait in (*row["traits"].split(), *row["also"].split())}


@pytest.mark.parametrize(
    ("text", "asked", "refused", "unread"),
    [
        ("slides by hand, no shake", ("slides", "hand", "close"), (), ()),
        ("pressed, not to turn", ("pressed", "holds"), (), ()),
        ("no shake or play, turns", ("close", "turns"), (), ()),
        ("neither loose nor rattling", ("close",), (), ("rattling",)),
        ("not hot, runs", ("turns",), ("hot",), ()),
        ("runs without shake in oil", ("turns", "close", "oiled"), (), ()),
        ("TURNS; Freely.", ("turns", "free"), (), ()),
        ("Welle läuft", (), (), ("welle", "läuft")),
        ("", (), (), ()),
    ],
)
def test_words_are_read_with_what_negates_them(
    text: str, asked: tuple[str, ...], refused: tuple[str, ...], unread: tuple[str, ...]
) -> None:
    assert read_words(text, "fits_words") == Reading(asked, refused, unread)


def test_no_more_of_a_text_is_read_than_a_line_or_two() -> None:
    assert read_words("hub " * 50 + "turns", "fits_words").asked == ()


def test_every_word_means_a_trait_that_some_duty_has() -> None:
    words = table("fits_words").rows
    assert {row["trait"] for row in words} - {""} <= TRAITS
    assert {row["negated"] for row in words} - {""} <= TRAITS
    meant = {row["trait"] for row in words} | {row["negated"] for row in words}
    assert sorted(TRAITS - meant) == []
    assert len({row["word"] for row in words}) == len(words)


@pytest.mark.parametrize(
    ("duty", "pair", "inch_class"),
    [
        ("slides by hand, no shake", "H7/g6", "RC2"),
        ("sliding fit", "H7/g6", "RC2"),
        ("turns in oil with little play", "H8/f7", "RC4"),
        ("running fit", "H8/f7", "RC4"),
        ("runs freely, fast and hot", "H9/d9", "RC7"),
        ("loose, out in the weather", "H11/c11", "RC9"),
        ("stands still, goes on by hand", "H7/h6", "LC2"),
        ("locates", "H7/h6", "LC2"),
        ("tapped together, comes apart", "H7/k6", "LT3"),
        ("driven in, tight", "H7/n6", "LT5"),
        ("press fit", "H7/p6", "LN2"),
        ("bush pressed in to stay put", "H7/p6", "LN2"),
        ("pressed, not to turn", "H7/s6", "FN2"),
        ("must not slip", "H7/s6", "FN2"),
        ("shrunk on, carries heavy torque", "H7/u6", "FN4"),
    ],
)
def test_a_duty_is_answered_by_a_preferred_fit(duty: str, pair: str, inch_class: str) -> None:
    suggested = fit_for(duty, 16)
    assert (suggested.designation, suggested.inch_class) == (f"16 mm {pair}", inch_class)
    assert inch_fit_for(duty, 0.625).fit_class == inch_class


@pytest.mark.parametrize("row", DUTIES, ids=lambda row: row["hole_basis"])
def test_the_traits_of_a_duty_lead_to_it(row: dict[str, str]) -> None:
    reading = Reading(tuple(row["traits"].split()), (), ())
    assert best_row(reading, "fits_duties") == row


@pytest.mark.parametrize("row", DUTIES, ids=lambda row: row["hole_basis"])
def test_the_words_of_a_duty_itself_lead_to_it(row: dict[str, str]) -> None:
    assert fit_for(row["duty"], 40).designation == f"40 mm {row['hole_basis']}"


def test_a_refused_trait_leads_away() -> None:
    assert best_row(Reading(("pressed",), ("still",), ()), "fits_duties") != best_row(
        Reading(("pressed",), (), ()), "fits_duties"
    )
    assert best_row(Reading((), ("hot",), ()), "fits_duties") is None


def test_the_shaft_basis_has_an_h_shaft_and_gives_the_same() -> None:
    on_hole, on_shaft = fit_for("slides, no shake", 16), fit_for("slides, no shake", 16, "shaft")
    assert on_shaft.designation == "16 mm G7/h6"
    assert (on_shaft.clearance_min, on_shaft.clearance_max) == (
        on_hole.clearance_min,
        on_hole.clearance_max,
    )


def test_a_suggestion_says_how_it_was_taken_and_what_was_not_read() -> None:
    suggested = fit_for("runs, pressed into the flange", 16)
    assert suggested.notes == (
        "taken as a joint that turns in oil with little play",
        "no preferred fit is all that is asked; left out here: pressed",
        "not read: flange",
    )
    assert inch_fit_for("sliding", 1).notes == (
        "taken as a joint that slides, or turns now and then, by hand and without shake",
    )


def test_a_suggestion_is_described_in_plain_words_with_the_cautions_of_its_fit() -> None:
    suggested = fit_for("pressed, not to turn", 16)
    assert suggested.describe() == (
        "16 mm H7/s6, an interference fit of 10 to 39 µm: it drives ordinary steel parts, pressed"
        " or shrunk on, and is about the tightest that cast iron bears"
    )
    assert [caution.split(":")[0] for caution in suggested.cautions] == ["pressing", "shrinking"]
    assert (suggested.kind, suggested.clearance_min, suggested.clearance_max) == (
        "interference",
        -39,
        -10,
    )


def test_a_page_can_read_the_fields_of_a_suggestion() -> None:
    assert sorted(readable_fields(SuggestedFit)) == [
        "clearance_max",
        "clearance_min",
        "designation",
        "duty",
        "fit",
        "hole",
        "inch_class",
        "kind",
        "notes",
        "shaft",
    ]


@given(st.text(max_size=300), st.floats(min_value=0.5, max_value=500))
def test_any_text_is_answered_or_refused_in_words(text: str, diameter: float) -> None:
    said = ""
    try:
        said = fit_for(text, diameter).designation
    except TradeError as refused:
        said = str(refused)
    assert " mm H" in said or "says what the joint is to do" in said


WORDS = (
    "words such as: turns, slides, stands still; freely, loosely, by hand, tapped, pressed,"
    " shrunk; no shake, not to turn, comes apart"
)


def test_what_cannot_be_suggested_is_refused_word_for_word() -> None:
    with pytest.raises(TradeError) as refused:
        fit_for("for the lever", 16)
    assert str(refused.value) == "no word of 'for the lever' says what the joint is to do"
    assert (refused.value.hint, refused.value.argument) == (WORDS, "duty")
    with pytest.raises(TradeError) as refused:
        fit_for("slides", 16, "bore")
    assert str(refused.value) == "the basis is 'bore', it must be `hole` or `shaft`"
    assert refused.value.argument == "basis"
    with pytest.raises(OutOfRange) as beyond:
        fit_for("slides", 600)
    assert str(beyond.value) == (
        "diameter is 600 mm, it must be over 0 mm and at most 500 mm (preferred fits of ANSI B4.2)"
    )
    with pytest.raises(OutOfRange, match=r"^diameter is 20 in, it must be over 0 in and at most"):
        inch_fit_for("slides", 20)
