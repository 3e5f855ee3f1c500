"""Values: what their arithmetic gives and refuses, and that nothing is lost on the way."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.problems import Mistake
from shoplog.units import UnitMismatch, unit
from shoplog.values import (
    Contributor,
    Hardness,
    Value,
    difference_of,
    limited,
    plain,
    real_temperature,
    same,
)


def length(number: float, half: float = 0.0, of: str = "mm") -> Value:
    if not half:
        return Value(number, unit(of))
    factor = unit(of).factor
    return limited(Value(number, unit(of)), Contributor("x", -half * factor, half * factor))


def test_a_sum_is_in_the_unit_of_its_first() -> None:
    found = length(1, of="in") + length(25.4)
    assert (found.nominal, found.unit) == (pytest.approx(2), unit("in"))


def test_limits_are_carried_through_units_products_and_ratios() -> None:
    size = length(16, 0.1)
    for found, least, most in (
        (size.to(unit("in")), 15.9 / 25.4, 16.1 / 25.4),
        (size * plain(2), 31.8, 32.2),
        (size / plain(2), 7.95, 8.05),
        (size * Value(50, unit("%")), 7.95, 8.05),
        (size / Value(2, unit("s")), 7.95, 8.05),
        (size / length(1, of="in"), 15.9 / 25.4, 16.1 / 25.4),
        (-size, -16.1, -15.9),
    ):
        assert (found.min, found.max) == (pytest.approx(least), pytest.approx(most))
        assert found.has_limits


@pytest.mark.parametrize(
    ("found", "least", "most"),
    [
        (length(2, 0.1) * length(3, 0.1), 1.9 * 2.9, 2.1 * 3.1),
        (length(-2, 0.1) * length(3, 0.1), -2.1 * 3.1, -1.9 * 2.9),
        (length(0, 0.1) * length(3, 0.1), -0.31, 0.31),
        (plain(1) / length(3, 0.1), 1 / 3.1, 1 / 2.9),
        (length(6, 0.1) / length(3, 0.1), 5.9 / 3.1, 6.1 / 2.9),
        (length(6) / length(-3, 0.1), -6 / 2.9, -6 / 3.1),
        (length(3, 0.1) ** plain(2), 2.9**2, 3.1**2),
        (length(0.5, 1) ** plain(2), 0, 2.25),
        (length(-3, 0.1) ** plain(3), -(3.1**3), -(2.9**3)),
        (length(4, 0.1) ** plain(-1), 1 / 4.1, 1 / 3.9),
        (length(4, 0.1) ** plain(0.5), 3.9**0.5, 4.1**0.5),
    ],
)
def test_a_product_a_ratio_and_a_power_hold_every_corner(
    found: Value, least: float, most: float
) -> None:
    assert (found.min, found.max) == (pytest.approx(least), pytest.approx(most))


def test_a_power_of_nothing_is_one_and_has_no_limits() -> None:
    assert not (length(3, 0.1) ** plain(0)).has_limits


def test_a_per_cent_with_limits_becomes_a_plain_number() -> None:
    found = length(5, 1, "%").to(unit(""), loose=True)
    assert (found.nominal, found.min, found.max) == (
        pytest.approx(0.05),
        pytest.approx(0.04),
        pytest.approx(0.06),
    )


def test_the_estimate_is_about_the_middle() -> None:
    size = limited(length(10), Contributor("x", 0.0, 0.2e-3))
    found = size.rss()
    assert (found.nominal, found.min, found.max) == (
        pytest.approx(10.1),
        pytest.approx(10.0),
        pytest.approx(10.2),
    )


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (
            lambda: length(1) + Value(1, unit("kg")),
            "a length and a mass do not go together under +",
        ),
        (lambda: length(1) / plain(0), "a division by zero"),
        (lambda: plain(0) ** plain(-1), "a division by zero"),
        (lambda: length(1) / length(1, 1), "a division by a size whose limits reach 0"),
        (lambda: length(1, 2) ** plain(-2), "a division by a size whose limits reach 0"),
        (
            lambda: length(1, 2) ** plain(0.5),
            "-1 to the power 0.5 is not a real, finite number",
        ),
        (lambda: plain(-1) ** plain(0.5), "-1 to the power 0.5 is not a real, finite number"),
        (
            lambda: plain(2) ** plain(101),
            "an exponent is a plain number between -100 and 100; this one is 101",
        ),
        (
            lambda: plain(2) ** length(1),
            "an exponent is a plain number between -100 and 100; this one is a length",
        ),
        (lambda: plain(1e200) * plain(1e200), "the number grew beyond 1e+250"),
        (lambda: plain(1e100) ** plain(100), "the number grew beyond 1e+250"),
        (
            lambda: limited(length(1), Contributor("x", -1e300, 0)),
            "the number grew beyond 1e+250",
        ),
        (
            lambda: length(1, 1e200) * plain(1e200),
            "the number grew beyond 1e+250",
        ),
        (
            lambda: real_temperature(Value(-500, unit("degF"))),
            "-500 degF is below absolute zero, -459.67 degF",
        ),
        (
            lambda: Value(20, unit("degC")) + Value(20, unit("degC")),
            "two temperatures do not add",
        ),
        (
            lambda: Value(5, unit("%")) + plain(1),
            "a percentage stands under * and / and with another percentage,"
            " not under + with a plain number",
        ),
    ],
)
def test_what_arithmetic_refuses(make: object, message: str) -> None:
    with pytest.raises(Mistake) as met:
        make()  # type: ignore[operator]
    assert str(met.value) == message


def test_a_value_does_not_become_another_dimension() -> None:
    with pytest.raises(UnitMismatch, match=r"^a length \(mm\) is not a time$"):
        length(1).to(unit("s"))


@pytest.mark.parametrize(
    ("one", "other", "of", "equal"),
    [
        (0.1 + 0.2, 0.3, "", True),
        (1, 1 + 9e-10, "", True),
        (1, 1 + 2e-9, "", False),
        (0, 9e-10, "mm", True),
        (0, 2e-9, "mm", False),
        (0, 9e-10, "s", False),
        (0, 3e-11, "in", True),
    ],
)
def test_numbers_are_the_same_within_a_part_in_a_thousand_million(
    one: float, other: float, of: str, equal: bool
) -> None:
    assert same(one, other, unit(of)) is equal


def test_the_difference_of_temperatures_is_in_kelvin() -> None:
    assert difference_of(unit("degF")) is unit("K")
    assert difference_of(unit("mm")) is unit("mm")


def test_a_hardness_is_a_number_on_its_scale() -> None:
    assert str(Hardness(52, "HRC")) == "52 HRC"
    assert Hardness(52, "HRC") != Hardness(52, "HRB")


NUMBERS = st.floats(-1e6, 1e6)
HALVES = st.floats(0, 10)


@given(NUMBERS, HALVES, NUMBERS, HALVES)
def test_what_is_added_and_taken_away_again_leaves_nothing(
    one: float, half: float, other: float, other_half: float
) -> None:
    a, b = length(one, half), length(other, other_half, "in")
    left = (a + b) - b - a
    assert left.nominal == pytest.approx(0, abs=1e-8)
    assert (left.lower, left.upper) == (pytest.approx(0, abs=1e-9), pytest.approx(0, abs=1e-9))


@given(NUMBERS, HALVES, NUMBERS, HALVES)
def test_a_sum_is_as_wide_as_its_parts_together(
    one: float, half: float, other: float, other_half: float
) -> None:
    for found in (
        length(one, half) + length(other, other_half),
        length(one, half) - length(other, other_half),
    ):
        assert found.upper == pytest.approx(half + other_half, abs=1e-9)
        assert found.lower == pytest.approx(-half - other_half, abs=1e-9)
        assert math.isfinite(found.min)
        assert found.min <= found.nominal <= found.max
