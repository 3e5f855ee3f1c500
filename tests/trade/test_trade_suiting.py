"""Measured fits and sizes made to suit: read forwards and backwards, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoplog.trade.declare import OutOfRange, Size, TradeError, readable_fields
from shoplog.trade.limits_and_fits.fits import fit, limits_of
from shoplog.trade.limits_and_fits.measured_fits import MeasuredFit, measured_fit
from shoplog.trade.limits_and_fits.suiting import SuitedSize, hole_for, shaft_for

BORE = Size(16.009, -0.003, 0.003)
JOURNAL = Size(15.98, -0.004, 0.004)
FITS = ["H11/c11", "H9/d9", "H8/f7", "H7/g6", "H7/h6", "H7/k6", "H7/n6", "H7/p6", "H7/s6", "H7/u6"]


@given(
    st.floats(min_value=1, max_value=500),
    st.sampled_from(FITS),
    st.floats(min_value=0, max_value=0.002),
    st.floats(min_value=-0.01, max_value=0.01),
)
def test_a_shaft_made_to_suit_gives_the_fit_with_the_bore_as_measured(
    nominal: float, name: str, uncertainty: float, off: float
) -> None:
    bore = Size(nominal + off, -uncertainty, uncertainty)
    hole, shaft = name.split("/")
    assume(limits_of(nominal, shaft).min > 0)
    wanted = fit(limits_of(nominal, hole), limits_of(nominal, shaft))
    assume(wanted.clearance_max - wanted.clearance_min > 2000 * uncertainty + 0.1)
    suited = shaft_for(bore, name, nominal=nominal)
    made = measured_fit(bore, Size(nominal, suited.min - nominal, suited.max - nominal))
    assert made.clearance_min == pytest.approx(wanted.clearance_min, abs=1e-4)
    assert made.clearance_max == pytest.approx(wanted.clearance_max, abs=1e-4)
    assert suited.min < suited.aim < suited.max


@given(st.sampled_from(FITS), st.floats(min_value=0, max_value=0.003))
def test_a_hole_made_to_suit_gives_the_fit_with_the_shaft_as_measured(
    name: str, uncertainty: float
) -> None:
    journal = Size(40.0, -uncertainty, uncertainty)
    hole, shaft = name.split("/")
    wanted = fit(limits_of(40, hole), limits_of(40, shaft))
    suited = hole_for(journal, name)
    made = measured_fit(Size(40, suited.size.lower, suited.size.upper), journal)
    assert made.clearance_min == pytest.approx(wanted.clearance_min, abs=1e-4)
    assert made.clearance_max == pytest.approx(wanted.clearance_max, abs=1e-4)


@given(
    st.floats(min_value=0.01, max_value=200),
    st.floats(min_value=0.01, max_value=200),
    st.booleans(),
)
def test_there_and_back_the_hole_for_the_shaft_for_a_hole_is_that_hole(
    least: float, spread: float, tight: bool
) -> None:
    asked = [least, least + spread]
    bore = 16.009
    one = {"interference": asked} if tight else {"clearance": asked}
    journal = shaft_for(bore, **one)  # type: ignore[arg-type]
    back = hole_for(journal.aim, **one)  # type: ignore[arg-type]
    assert back.aim == pytest.approx(bore, abs=1e-6)


def test_a_class_alone_stands_for_the_preferred_fit_it_belongs_to() -> None:
    assert shaft_for(BORE, "f7").wanted == "H8/f7"
    assert shaft_for(BORE, "h6").wanted == "H7/h6"
    assert hole_for(JOURNAL, "F8").wanted == "F8/h7"
    assert hole_for(JOURNAL, "P7").wanted == "P7/h6"


def test_a_class_of_no_preferred_fit_takes_a_hole_one_grade_coarser() -> None:
    assert shaft_for(BORE, "m5").wanted == "H6/m5"
    assert shaft_for(BORE, "e9").wanted == "H9/e9"
    assert hole_for(JOURNAL, "M6").wanted == "M6/h5"
    assert hole_for(JOURNAL, "E9").wanted == "E9/h9"


def test_a_wanted_hole_is_suited_too_and_keeps_its_nominal_size() -> None:
    suited = shaft_for(limits_of(16, "H7"), "H8/f7")
    assert (suited.size, suited.notes) == (Size(16, -0.043, -0.016), ())


def test_the_nominal_size_is_said_or_given() -> None:
    assert shaft_for(Size(30.009, 0, 0), "g6").notes == (
        "the fit is taken at a nominal size of 30 mm; give nominal= where it is another",
    )
    suited = shaft_for(19.062, "g6", nominal=19.05)
    assert (suited.size.nominal, suited.notes) == (19.05, ())
    assert shaft_for(30.009, clearance=[15, 55]).notes == ()


def test_a_suited_size_is_described_in_plain_words() -> None:
    assert shaft_for(BORE, "f7").describe() == (
        "make it 15.951 to 15.990 mm, aiming at 15.971 mm: H8/f7, 16 to 61 µm of clearance"
    )
    assert shaft_for(BORE, "H7/k6").describe() == (
        "make it 15.995 to 16.018 mm, aiming at 16.006 mm: H7/k6, 12 µm interference to 17 µm"
        " clearance"
    )
    assert hole_for(16.0, interference=[20, 40]).describe() == (
        "make it 15.960 to 15.980 mm, aiming at 15.970 mm: 20 to 40 µm of interference"
    )


def test_a_pair_made_to_be_pressed_carries_its_cautions() -> None:
    pressed = shaft_for(BORE, interference=[20, 40])
    assert [caution.split(":")[0] for caution in pressed.cautions] == ["pressing", "shrinking"]
    assert shaft_for(BORE, "f7").cautions == ()
    assert measured_fit(16.0, 16.03).cautions == pressed.cautions


def test_two_measured_parts_make_a_clearance_with_its_uncertainty() -> None:
    made = measured_fit(BORE, Size(15.985, -0.004, 0.004))
    assert (made.clearance, made.uncertainty) == (24, 5)
    assert (made.clearance_min, made.clearance_max, made.kind) == (17, 31, "clearance")
    assert made.notes == ()
    assert made.describe() == "24 µm of clearance, ±5 µm; 17 to 31 µm at the worst"


def test_readings_too_coarse_to_tell_say_so() -> None:
    made = measured_fit(Size(16, -0.005, 0.005), Size(16.003, -0.005, 0.005))
    assert made.kind == "cannot tell"
    assert made.describe() == (
        "3 µm of interference, ±7.1 µm; anything from 13 µm interference to 7 µm clearance"
    )


def test_a_part_without_uncertainty_is_taken_as_exact_and_said_to_be() -> None:
    made = measured_fit(16.0, Size(16.03, -0.002, 0.002))
    assert (made.interference, made.uncertainty, made.kind) == (30, 2, "interference")
    assert made.notes == ("the hole is taken as exact: it states no uncertainty",)
    assert made.describe() == "30 µm of interference, ±2 µm; 28 to 32 µm at the worst"


def test_a_page_can_read_the_fields() -> None:
    assert sorted(readable_fields(MeasuredFit)) == [
        "clearance",
        "clearance_max",
        "clearance_min",
        "hole",
        "interference",
        "kind",
        "notes",
        "shaft",
        "uncertainty",
    ]
    assert sorted(readable_fields(SuitedSize)) == [
        "aim",
        "clearance_max",
        "clearance_min",
        "max",
        "min",
        "notes",
        "size",
        "wanted",
    ]


WAYS = 'one of: "H8/f7", clearance=[15 um, 55 um], interference=[20 um, 40 um]'


@pytest.mark.parametrize(
    ("asked", "argument", "message", "hint"),
    [
        ({}, "wanted", "nothing is asked of the fit", WAYS),
        (
            {"wanted": "f7", "clearance": [15, 55]},
            "wanted",
            "the fit is asked for in two ways",
            WAYS,
        ),
        (
            {"clearance": [15]},
            "clearance",
            "the clearance has 1 bounds, it must have 2",
            "the least and the greatest: clearance=[15 um, 55 um]",
        ),
        (
            {"interference": [40, 20]},
            "interference",
            "the bounds of the interference are 40 and 20 µm: the least comes first",
            "interference=[15 um, 55 um]",
        ),
        (
            {"wanted": "H7"},
            "wanted",
            "'H7' is not a fit with this hole",
            "such as H8/f7, or f7",
        ),
        (
            {"wanted": "f7/H8"},
            "wanted",
            "'f7/H8' is not a fit with this hole",
            "such as H8/f7, or f7",
        ),
        (
            {"wanted": "q6"},
            "wanted",
            "'q6' is not a fit with this hole",
            "such as H8/f7, or f7",
        ),
        (
            {"wanted": "H8/q7"},
            "",
            "q7 is not a tolerance class: ISO 286-1 has no letter q",
            "did you mean k7 or j7?",
        ),
        (
            {"wanted": "f7", "nominal": 25},
            "nominal",
            "the nominal size is 25 mm, and the part is 16.009 mm",
            "the nominal size is the one on the drawing, close to the part's",
        ),
        (
            {"clearance": [5, 9]},
            "hole",
            "the hole is known to 6 µm, and what is asked lies within 4 µm: no size is sure to"
            " give it",
            "measure the hole more closely, or ask for more spread",
        ),
        (
            {"clearance": [20000, 21000]},
            "hole",
            "the least size to make would be -4.99 mm, it must be over 0 mm",
            "",
        ),
    ],
)
def test_what_cannot_be_suited_is_refused(
    asked: dict[str, object], argument: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        shaft_for(BORE, **asked)  # type: ignore[arg-type]
    assert (str(refused.value), refused.value.argument) == (message, argument)
    assert refused.value.hint == hint or argument == ""


def test_an_h_hole_alone_is_no_fit_for_a_shaft() -> None:
    with pytest.raises(TradeError) as refused:
        hole_for(JOURNAL, "H7")
    assert str(refused.value) == "H7 alone says no fit: with an h it is one, with an s another"
    assert refused.value.hint == "name both, H7/g6"


@pytest.mark.parametrize("size", [0.0, -16.0, Size(0, 0, 0.1)])
def test_a_size_not_over_0_is_refused(size: Size | float) -> None:
    with pytest.raises(OutOfRange, match=r"^hole is -?[0-9]+ mm, it must be over 0 mm$"):
        measured_fit(size, 16.0)


def test_two_parts_of_two_sizes_are_refused() -> None:
    with pytest.raises(TradeError) as refused:
        measured_fit(16.009, 15.0)
    assert str(refused.value) == (
        "the hole is 16.009 mm and the shaft 15 mm: they are not one size"
    )
    with pytest.raises(TradeError, match=r"^the shaft's upper deviation \(-0.1 mm\) is below"):
        measured_fit(16.0, Size(16, 0.1, -0.1))
    with pytest.raises(TradeError, match=r"^the hole's least size is -1 mm, it must be over 0 mm$"):
        measured_fit(Size(1, -2, 0), 1.0)


@given(st.floats(allow_nan=False, allow_infinity=False), st.text(max_size=12))
def test_any_number_and_text_is_suited_or_refused_in_words(size: float, wanted: str) -> None:
    for suit in (shaft_for, hole_for):
        said = ""
        try:
            said = suit(size, wanted).describe()
        except TradeError as refused:
            said = str(refused)
        assert said
