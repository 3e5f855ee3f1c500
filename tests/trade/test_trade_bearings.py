"""Rolling bearings: their limits, their seats, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, Size, TradeError, readable_fields
from shoplog.trade.limits_and_fits.bearings import (
    BearingSeat,
    bearing_bore,
    bearing_housing_seat,
    bearing_outside,
    bearing_shaft_seat,
)
from shoplog.trade.limits_and_fits.fits import fit, limits_of

TURNING = ("shaft", "housing", "either")
SHAFT_LOADS = ("light", "normal", "heavy", "axial")


def test_the_bore_and_the_outside_of_a_bearing_are_never_over_their_size() -> None:
    assert bearing_bore(17) == Size(17, -0.008, 0)
    assert bearing_outside(40) == Size(40, -0.011, 0)
    for row in table("bearings_tolerances").rows:
        assert float(row["lower_um"]) < 0


def test_a_shaft_fits_tighter_in_a_bearing_than_in_an_h_hole() -> None:
    with_bearing = fit(bearing_bore(20), limits_of(20, "k5"))
    with_hole = fit(limits_of(20, "H7"), limits_of(20, "k5"))
    assert with_bearing.kind == "interference"
    assert with_hole.kind == "transition"


@given(
    st.floats(min_value=0.7, max_value=499), st.sampled_from(TURNING), st.sampled_from(SHAFT_LOADS)
)
def test_a_shaft_seat_is_given_or_its_want_is_said(
    diameter: float, turning: str, load: str
) -> None:
    if load == "light" and turning != "housing" and diameter > 140:
        with pytest.raises(TradeError, match=r"^no class is given for a shaft of"):
            bearing_shaft_seat(diameter, turning, load)
        return
    found = bearing_shaft_seat(diameter, turning, load)
    assert found.fit == fit(bearing_bore(diameter), found.seat)
    assert found.seat.nominal == diameter
    assert bool(found.cautions) == (found.clearance_min < 0)


@given(
    st.floats(min_value=3, max_value=499),
    st.sampled_from(TURNING),
    st.sampled_from(SHAFT_LOADS[:3]),
)
def test_a_housing_seat_is_given_and_tighter_the_more_it_must_hold(
    diameter: float, turning: str, load: str
) -> None:
    found = bearing_housing_seat(diameter, turning, load)
    assert found.fit == fit(found.seat, bearing_outside(diameter))
    still = bearing_housing_seat(diameter, "shaft", load)
    assert found.clearance_min <= still.clearance_min


def test_the_ring_that_turns_against_its_load_is_held_and_the_other_may_slide() -> None:
    assert bearing_shaft_seat(20).fit.kind == "interference"
    assert bearing_shaft_seat(20, "housing").clearance_max > 0
    assert bearing_housing_seat(47).fit.kind == "clearance"
    assert bearing_housing_seat(47, "housing").clearance_min < -20


def test_where_it_is_not_sure_what_turns_the_shaft_is_held_as_if_it_did() -> None:
    for load in SHAFT_LOADS:
        assert bearing_shaft_seat(20, "either", load) == bearing_shaft_seat(20, "shaft", load)


def test_a_tight_seat_says_through_which_ring_to_press() -> None:
    found = bearing_shaft_seat(17)
    assert [caution.split(":")[0] for caution in found.cautions] == [
        "press a bearing only through the ring that is fitted",
        "warmed to go on, a bearing stays below 125 °C, and below what its seals, cage and grease"
        " bear; never heat it with a flame; a hot ring burns, so use dry gloves; the bearing"
        " maker's instructions come first",
    ]
    assert len(found.notes) == 2
    loose = bearing_housing_seat(40)
    assert (loose.cautions, len(loose.notes)) == ((), 1)


@pytest.mark.parametrize(
    ("seat", "described"),
    [
        (
            bearing_shaft_seat(20),
            "20 mm k5, from 2 to 21 µm of interference: the inner ring must not creep round the"
            " shaft",
        ),
        (
            bearing_shaft_seat(17),
            "17 mm j5, from 13 µm interference to 3 µm clearance: the inner ring must not creep"
            " round the shaft",
        ),
        (
            bearing_housing_seat(40),
            "40 mm H7, from 0 to 36 µm of clearance: the outer ring stands still against the load,"
            " and may slide to find its place",
        ),
    ],
)
def test_a_seat_is_described_in_plain_words(seat: BearingSeat, described: str) -> None:
    assert seat.describe() == described


def test_a_page_can_read_the_fields_of_a_seat() -> None:
    assert sorted(readable_fields(BearingSeat)) == [
        "clearance_max",
        "clearance_min",
        "fit",
        "notes",
        "seat",
        "tolerance_class",
        "why",
    ]


@pytest.mark.parametrize("diameter", [0, -17, 0.6, 500.1, 1e100])
def test_a_bore_outside_the_table_is_refused(diameter: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        bearing_bore(diameter)
    assert str(refused.value) == (
        f"diameter is {diameter:g} mm, it must be over 0.6 mm and at most 500 mm (ISO 492)"
    )


def test_an_outside_diameter_outside_the_table_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"^diameter is 2 mm, it must be over 2.5 mm and at most"):
        bearing_outside(2)


def test_words_that_are_not_known_are_refused_with_those_that_are() -> None:
    with pytest.raises(TradeError) as refused:
        bearing_shaft_seat(17, "wheel")
    assert str(refused.value) == ("turning is 'wheel', it must be one of: shaft, housing, either")
    with pytest.raises(TradeError) as refused:
        bearing_housing_seat(40, "shaft", "axial")
    assert str(refused.value) == "load is 'axial', it must be one of: light, normal, heavy"
    assert refused.value.argument == "load"


def test_a_size_for_which_no_class_is_given_is_refused() -> None:
    with pytest.raises(TradeError) as refused:
        bearing_shaft_seat(160, "shaft", "light")
    assert str(refused.value) == "no class is given for a shaft of 160 mm with light load"
    assert refused.value.hint == "the bearing maker's catalogue says"
