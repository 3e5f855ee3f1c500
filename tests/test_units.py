"""The registry of units: the closed list, conversion, products, and how units are written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.units import (
    COMPOUND_UNITS,
    SIMPLE_UNITS,
    UnitMismatch,
    convert,
    divide,
    is_unit,
    multiply,
    power,
    unit,
    unit_texts,
    write_quantity,
)

ALL = sorted({*SIMPLE_UNITS, *COMPOUND_UNITS})


@pytest.mark.parametrize("text", ALL)
def test_every_text_of_the_list_is_a_unit_and_is_read_again_as_it_is_written(text: str) -> None:
    found = unit(text)
    assert is_unit(text)
    assert found.factor > 0
    assert unit(found.text) is found


@pytest.mark.parametrize(
    "text",
    ["mil", "pin", "1e", "furlong", "mm ", "MM", "mm^5", "kg*mm", "mm/kg", "d", "J", "L", " "],
)
def test_no_other_text_is_a_unit(text: str) -> None:
    assert not is_unit(text)
    with pytest.raises(KeyError):
        unit(text)


def test_power_signs_and_both_micro_signs_are_read() -> None:
    assert unit("mm²") is unit("mm^2")
    assert unit("mm³/min") is unit("mm^3/min")
    assert unit("µm") is unit("um")
    assert unit("µm/m") is unit("um/m")


def test_a_unit_is_one_object_however_it_came() -> None:
    assert multiply(unit("mm"), unit("mm"))[0] is unit("mm^2")
    assert divide(unit("mm"), unit("min"))[0] is unit("mm/min")
    assert multiply(unit("lbf"), unit("in"))[0] is unit("in*lbf") is unit("lbf*in")
    assert unit("in*lbf").text == "in*lbf"
    assert unit("ft*lbf") is unit("lbf*ft")


def test_texts_come_longest_first_so_the_longest_is_read() -> None:
    texts = list(unit_texts())
    assert texts == sorted(texts, key=lambda text: (-len(text), text))
    assert {"mm", "mm/min", "mm²", "µm/m"} <= set(texts)


@pytest.mark.parametrize(
    ("number", "have", "want", "expected"),
    [
        (1, "in", "mm", 25.4),
        (60, "rpm", "1/s", 1),
        (1, "1/s", "rpm", 60),
        (5, "%", "", 0.05),
        (0.05, "", "%", 5),
        (100, "%", "%", 100),
        (3, "mm", "mm/rev", 3),
        (4, "tooth/rev", "", 4),
        (900, "tooth/min", "1/min", 900),
        (1, "mm/m", "", 0.001),
        (-40, "degF", "degC", -40),
    ],
)
def test_conversion_lets_a_revolution_a_tooth_and_a_per_cent_vanish_where_asked(
    number: float, have: str, want: str, expected: float
) -> None:
    assert convert(number, unit(have), unit(want), loose=True) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("have", "want", "what"),
    [
        ("rpm", "1/s", "a spindle speed (rpm) is not a rate"),
        ("%", "", "a percentage (%) is not a plain number"),
        ("mm", "s", "a length (mm) is not a time"),
        ("K", "degC", "a temperature difference (K) is not a temperature"),
        ("degC", "K", "a temperature (degC) is not a temperature difference"),
        ("deg", "", "an angle (deg) is not a plain number"),
        ("", "mm", "a plain number (1) is not a length"),
        ("in^4", "mm", "a quantity in in^4 (in^4) is not a length"),
    ],
)
def test_units_of_different_dimension_do_not_convert(have: str, want: str, what: str) -> None:
    with pytest.raises(UnitMismatch) as met:
        convert(1.0, unit(have), unit(want))
    assert str(met.value) == what


def test_an_angle_never_vanishes() -> None:
    with pytest.raises(UnitMismatch, match=r"^an angle \(rad\) is not a number of revolutions$"):
        convert(1.0, unit("rad"), unit("rev"), loose=True)


@pytest.mark.parametrize(
    ("one", "other", "text"),
    [
        ("mm/rev", "rpm", "mm/min"),
        ("mm/tooth", "tooth/rev", "mm/rev"),
        ("tpi", "in", ""),
        ("1/min", "min", ""),
        ("mm/m", "m", "mm"),
        ("kg", "mm", "kg*mm"),
    ],
)
def test_a_product_is_reduced_and_written_as_a_page_would(one: str, other: str, text: str) -> None:
    made, scale = multiply(unit(one), unit(other))
    assert made.text == text
    assert made.factor * scale == pytest.approx(unit(one).factor * unit(other).factor)


def test_ratios_with_a_name_of_their_own_are_written_out_in_products() -> None:
    assert divide(unit(""), unit("tpi")) == (unit("in"), 1.0)
    assert divide(unit(""), unit("rpm"))[0].text == "min/rev"
    assert power(unit("tpi"), 2)[0].text == "1/in^2"
    assert multiply(unit("rpm"), unit(""))[0] is unit("rpm")


UNITS = st.sampled_from([text for text in ALL if not unit(text).point])


@given(UNITS, UNITS)
def test_products_and_ratios_keep_the_quantity(one: str, other: str) -> None:
    have, by = unit(one), unit(other)
    made, scale = multiply(have, by)
    assert made.factor * scale == pytest.approx(have.factor * by.factor, rel=1e-9)
    made, scale = divide(have, by)
    assert made.factor * scale == pytest.approx(have.factor / by.factor, rel=1e-9)


@given(st.floats(-1e6, 1e6), UNITS, UNITS)
def test_a_conversion_there_and_back_changes_nothing(number: float, one: str, other: str) -> None:
    have, want = unit(one), unit(other)
    if have.dimension != want.dimension:
        with pytest.raises(UnitMismatch):
            convert(number, have, want)
        return
    back = convert(convert(number, have, want), want, have)
    assert back == pytest.approx(number, rel=1e-12, abs=1e-12)


@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(ALL))
def test_a_number_is_written_shortly_and_never_as_minus_nothing(number: float, text: str) -> None:
    written = write_quantity(number, unit(text))
    assert len(written) < 60
    shown = written.split(" ")[0]
    assert not (shown.startswith("-") and float(shown) == 0)
    assert (float(shown) == 0) == (number == 0)
