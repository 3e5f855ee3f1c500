"""Values that carry limits: sums by contributor, worst case, the estimate, least and greatest."""

from __future__ import annotations

import itertools
import math

import pytest
from calc_page import findings, limits, value
from hypothesis import given
from hypothesis import strategies as st

from shoplog.calc.show import nominal_text
from shoplog.units import unit
from shoplog.values import Contributor, Value

MM = unit("mm")


def sized(nominal: float, lower: float, upper: float, of: str = "mm", name: str = "x") -> Value:
    """A size in a unit, with deviations in the same unit."""
    factor = unit(of).factor
    source = Contributor(name, lower * factor, upper * factor)
    return Value(nominal, unit(of), ((source, 1.0),))


BEFORE = "a = 10 mm +0.3/-0.1\nb = 5 mm ±0.2\nc = 2 in ±0.01"


def test_what_is_taken_from_itself_is_nothing() -> None:
    found = value("a - a", BEFORE)
    assert (found.nominal, found.lower, found.upper) == (0, 0, 0)
    assert limits("(a + b) - b", "mm", BEFORE) == (9.9, 10.3)
    assert limits("2*a - a - a/2", "mm", BEFORE) == (4.95, 5.15)
    assert limits("a + b - (b + a) + a", "mm", BEFORE) == (9.9, 10.3)


def test_two_literals_of_the_same_size_do_not_cancel() -> None:
    assert limits("16 mm ±0.1 - 16 mm ±0.1", "mm") == (-0.2, 0.2)


def test_units_mix_in_a_stack() -> None:
    assert limits("a + c", "in", BEFORE) == pytest.approx(
        ((9.9 / 25.4) + 1.99, (10.3 / 25.4) + 2.01), abs=1e-9
    )
    assert limits("a to in", "mm", BEFORE) == (9.9, 10.3)


def test_contributors_are_known_by_the_name_they_were_given() -> None:
    text = f"{BEFORE}\nd = limits(4 mm, 0.1 mm, 0)\ne = (3 mm ±0.1)\nf = 2 * a"
    found = value("a + b - 2*d + e + f + 1 mm ±0.5", text)
    assert {source.name: round(k, 9) for source, k in found.parts} == {
        "a": 3,
        "b": 1,
        "d": -2,
        "e": 1,
        "1.000 mm ±0.5": 1,
    }


def test_a_class_is_lost_by_arithmetic_and_kept_by_a_conversion() -> None:
    assert value("a", "a = 16 mm H7").tolerance_class == "H7"
    assert value("a to in", "a = 16 mm H7").tolerance_class == "H7"
    assert value("a + 1 mm", "a = 16 mm H7").tolerance_class == ""


def test_the_estimate_is_never_wider_than_the_worst_case() -> None:
    assert limits("(a + b + c).rss", "mm", BEFORE) == pytest.approx(
        tuple(65.9 + sign * math.sqrt(0.2**2 + 0.2**2 + 0.254**2) for sign in (-1, 1)), abs=1e-9
    )


SIZES = st.tuples(
    st.floats(-100, 100, allow_nan=False),
    st.floats(-2, 0, allow_nan=False),
    st.floats(0, 2, allow_nan=False),
)
FACTORS = st.lists(st.integers(-3, 3), min_size=1, max_size=4)


@given(
    sizes=st.lists(SIZES, min_size=4, max_size=4),
    factors=FACTORS,
    unit_text=st.sampled_from(["mm", "in", "um"]),
)
def test_the_worst_case_is_that_of_every_corner(
    sizes: list[tuple[float, float, float]], factors: list[int], unit_text: str
) -> None:
    parts = [sized(*one, unit_text, f"x{index}") for index, one in enumerate(sizes)]
    total = Value(0.0, MM)
    used = list(zip(parts, factors, strict=False))
    for part, factor in used:
        total = total + part * Value(float(factor), unit(""))
    scale = unit(unit_text).factor / MM.factor
    corners = [
        math.fsum(factor * end * scale for (_, factor), end in zip(used, ends, strict=True))
        for ends in itertools.product(*((part.min, part.max) for part, _ in used))
    ]
    assert total.min == pytest.approx(min(corners), abs=1e-6)
    assert total.max == pytest.approx(max(corners), abs=1e-6)


@given(one=SIZES, other=SIZES)
def test_least_greatest_and_absolute_hold_every_corner(
    one: tuple[float, float, float], other: tuple[float, float, float]
) -> None:
    def written(nominal: float, lower: float, upper: float) -> str:
        return f"limits({nominal:.6f} mm, {upper:.6f} mm, {lower:.6f} mm)"

    before = f"a = {written(*one)}\nb = {written(*other)}"
    a, b = value("a", before), value("b", before)
    for name, of in (("min", min), ("max", max)):
        found = value(f"{name}(a, b)", before)
        assert found.min == pytest.approx(of(a.min, b.min), abs=1e-9)
        assert found.max == pytest.approx(of(a.max, b.max), abs=1e-9)
        assert found.nominal in (a.nominal, b.nominal)
    found = value("abs(a)", before)
    ends = (abs(a.min), abs(a.max))
    spans = a.min < 0 < a.max
    assert found.min == pytest.approx(0 if spans else min(ends), abs=1e-9)
    assert found.max == pytest.approx(max(ends), abs=1e-9)


def test_the_greatest_keeps_its_contributors_where_one_is_always_the_greatest() -> None:
    assert limits("max(a, a + 1 mm) - a", "mm", BEFORE) == (1, 1)
    assert limits("max(a, b) - a", "mm", BEFORE) == (0, 0)
    assert limits("max(a, 10.1 mm)", "mm", BEFORE) == (10.1, 10.3)
    assert limits("min(a, 10.1 mm)", "mm", BEFORE) == (9.9, 10.1)
    assert value("max(0, 5 mm)").unit.text == value("max(0, -5 mm)").unit.text == "mm"
    assert limits("max(20 degC ±3, 21 degC)", "degC") == (21, 23)


def test_a_product_is_checked_over_its_whole_range() -> None:
    before = "a = 10 mm ±0.1\nb = 5 mm ±0.1\n"
    assert limits("a * b", "mm^2", before) == (48.51, 51.51)
    assert limits("a / b", "", before) == pytest.approx((9.9 / 5.1, 10.1 / 4.9), abs=1e-9)
    assert limits("sqrt(a * b)", "mm", before) == pytest.approx((48.51**0.5, 51.51**0.5), abs=1e-9)
    assert findings(before + "check a * b < 52 mm^2\ncheck a * b < 51 mm^2") == [
        "4:7 this check holds for some of the sizes only: a * b is 48.51 to 51.51 mm^2"
    ]


def test_an_absolute_value_of_a_range_over_nothing_begins_at_nothing() -> None:
    assert limits("abs(1 mm - b)", "mm", "b = 1 mm ±0.1") == (0, 0.1)
    assert limits("abs(-b)", "mm", "b = 1 mm ±0.1") == (0.9, 1.1)
    assert findings("b = 1 mm ±0.1\ncheck abs(1 mm - b) < 0.2 mm") == []


@given(
    nominal=st.decimals("0.001", "999", places=4),
    upper=st.decimals("-0.9", "0.9", places=5),
    lower=st.decimals("-0.9", "0.9", places=5),
    of=st.sampled_from(["mm", "in", "deg"]),
)
def test_what_a_drawing_states_is_read_again_as_the_same(
    nominal: object, upper: object, lower: object, of: str
) -> None:
    upper, lower = max(upper, lower), min(upper, lower)  # type: ignore[type-var]
    size = sized(float(nominal), float(lower), float(upper), of)  # type: ignore[arg-type]
    read = value(nominal_text(size))
    assert read.nominal == pytest.approx(size.nominal, abs=1e-12)
    assert (read.lower, read.upper) == pytest.approx((size.lower, size.upper), abs=1e-12)
