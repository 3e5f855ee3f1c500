"""Rules 11 to 13 of the language: dimensions, temperatures, numbers that are equal."""

from __future__ import annotations

import math

import pytest
from calc_page import codes, findings, limits, number, only, value


@pytest.mark.parametrize(
    ("expression", "unit", "expected"),
    [
        ("0.1 mm/rev * 500 rpm", "mm/min", 50),
        ("30 m/min/(pi*10 mm) to rpm", "rpm", 954.9296585513721),
        ("0.05 mm/tooth*4 tooth/rev*900 rpm", "mm/min", 180),
        ("60 rpm to 1/s", "1/s", 1),
        ("1 Hz to rpm", "rpm", 60),
        ("3 mm to mm/rev", "mm/rev", 3),
        ("6 in/min / 200 rpm", "in/rev", 0.03),
        ("2 rpm * 3 min", "rev", 6),
        ("1 rev * 3 mm/rev", "mm", 3),
        ("1/(8 tpi)", "in", 0.125),
        ("20 tpi * 1 in", "", 20),
        ("180 deg to rad", "rad", math.pi),
        ("5 % * 100 mm", "mm", 5),
        ("100 mm / 5 %", "mm", 2000),
        ("5 % + 3 %", "%", 8),
        ("5 % * 5 %", "", 0.0025),
        ("0.05 to %", "%", 5),
        ("2**(50 %)", "", 2**0.5),
        ("5 N/mm^2 to MPa", "MPa", 5),
    ],
)
def test_revolutions_teeth_and_per_cent_in_products(
    expression: str, unit: str, expected: float
) -> None:
    """Rule 11."""
    assert number(expression, unit) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("teeth", ["4", "4 tooth", "4 tooth/rev"])
def test_the_arguments_of_a_formula_let_a_tooth_and_a_revolution_vanish(teeth: str) -> None:
    """Rule 11."""
    call = f"table_feed(feed_per_tooth=0.05 mm/tooth, teeth={teeth}, spindle_speed=900 rpm)"
    assert number(call, "mm/min") == pytest.approx(180)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 0.1 mm/rev + 3 mm",
            "1:5",
            "a feed per revolution and a length do not go together under +",
            "`to mm/rev` lets a revolution or a tooth appear or vanish",
        ),
        ("a = 45 deg + 0.5", "1:5", "an angle and a plain number do not go together under +", ""),
        (
            "check 4 tooth == 4 rev",
            "1:7",
            "a number of teeth and a number of revolutions do not go together under ==",
            "`to tooth` lets a revolution or a tooth appear or vanish",
        ),
        (
            "a = 4 tooth + 2",
            "1:5",
            "a number of teeth and a plain number do not go together under +",
            "`to tooth` lets a revolution or a tooth appear or vanish",
        ),
        (
            "a = 3 rev + 4 rad",
            "1:5",
            "a number of revolutions and an angle do not go together under +",
            "",
        ),
        (
            "a = 360 deg to rev",
            "1:5",
            "an angle is not a number of revolutions, so `to rev` does not apply",
            "",
        ),
        (
            "a = 10 rad/s to rpm",
            "1:5",
            "a quantity in rad/s is not a spindle speed, so `to rpm` does not apply",
            "",
        ),
        (
            "check 30 m/min/(pi*10 mm) == 955 rpm",
            "1:7",
            "a rate and a spindle speed do not go together under ==",
            "`to 1/min` lets a revolution or a tooth appear or vanish",
        ),
        ("a = 5 mm + 3 kg", "1:5", "a length and a mass do not go together under +", ""),
        ("a = 3 mm + 0", "1:5", "a length and a plain number do not go together under +", ""),
        ("a = 5 mm to s", "1:5", "a length is not a time, so `to s` does not apply", ""),
    ],
)
def test_revolution_tooth_and_radian_are_dimensions_in_sums(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 11."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 100 mm + 5 %",
            "1:5",
            (
                "a percentage stands under * and / and with another percentage, not "
                "under + with a length"
            ),
            "write 1.05 * x, or 5 % * x",
        ),
        (
            "a = 5 % + 3",
            "1:5",
            (
                "a percentage stands under * and / and with another percentage, not "
                "under + with a plain number"
            ),
            "write 1.05 * x, or 5 % * x",
        ),
        (
            "check 5 % == 0.05",
            "1:7",
            (
                "a percentage stands under * and / and with another percentage, not "
                "under == with a plain number"
            ),
            "write 1.05 * x, or 5 % * x",
        ),
        ("a = 5 % to mm", "1:5", "a percentage is not a length, so `to mm` does not apply", ""),
    ],
)
def test_a_per_cent_is_not_added_to_anything_else(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 11."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("expression", "unit", "expected"),
    [
        ("-40 degF to degC", "degC", -40),
        ("- 40 degF to degC", "degC", -40),
        ("150 degC", "degF", 302),
        ("20 degC + 5 K", "degC", 25),
        ("5 K + 20 degC", "degC", 25),
        ("20 degC - 5 K", "degC", 15),
        ("20 degC - 15 degC", "K", 5),
        ("212 degF - 100 degC", "K", 0),
        ("68 degF - 20 degC", "K", 0),
        ("20 degC + 9 K to degF", "degF", 84.2),
        ("12 um/m/K * (30 degC - 20 degC) * 100 mm", "um", 12),
        ("min(20 degC, 30 degC)", "degC", 20),
    ],
)
def test_temperatures_and_differences(expression: str, unit: str, expected: float) -> None:
    """Rule 12."""
    assert number(expression, unit) == pytest.approx(expected, rel=1e-12, abs=1e-12)


def test_no_difference_of_temperatures_is_exactly_nothing() -> None:
    """Rule 12."""
    assert value("68 degF - 20 degC").nominal == 0.0


def test_a_temperature_carries_limits_of_itself_and_of_a_difference() -> None:
    """Rules 12 and 17."""
    assert limits("20 degC ±2", "degC") == (18, 22)
    assert limits("20 degC ±2 K", "degC") == (18, 22)
    assert limits("68 degF ±9", "degC") == (15, 25)
    assert limits("68 degF ±5 K", "degC") == (15, 25)
    assert limits("-5 degC ±1", "degC") == (-6, -4)
    assert limits("20 degC - (5 K ±1)", "degC") == (14, 16)
    assert limits("(20 degC ±1) - (15 degC ±1)", "K") == (3, 7)
    assert limits("limits(20 degC, 2 K, -1 K)", "degC") == (19, 22)
    before = "t = 20 degC ±2\n"
    assert findings(before + "check t < 23 degC\ncheck t < 71 degF") == [
        "3:7 this check holds for some of the sizes only: t is 18 to 22 degC"
    ]
    assert value("t - t", before).max == 0


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 20 degC + 5 mm", "1:5", "a temperature and a length do not go together under +", ""),
        (
            "a = 20 degC + 5 degC",
            "1:5",
            "two temperatures do not add",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = 5 K - 20 degC",
            "1:5",
            "a temperature is not taken from a temperature difference",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = 20 degC to K",
            "1:5",
            "a temperature does not become a temperature difference",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = 20 K to degC",
            "1:5",
            "a temperature difference does not become a temperature",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "check 20 K < 20 degC",
            "1:7",
            "a temperature and a temperature difference do not compare",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = 20 degC * 2",
            "1:5",
            "a temperature does not multiply or divide",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = 20 degC / 2",
            "1:5",
            "a temperature does not multiply or divide",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = (20 degC)**2",
            "1:5",
            "a temperature does not multiply or divide",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = -(20 degC)",
            "1:5",
            "a temperature has no negative: -(20 degC) means nothing",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "check 20 degC > 0",
            "1:7",
            "a temperature and a temperature difference do not compare",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = max(20 degC, 5 K)",
            "1:5",
            "a temperature and a temperature difference do not compare",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = -300 degC",
            "1:5",
            "-300 degC is below absolute zero, -273.15 degC",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = -460 degF",
            "1:5",
            "-460 degF is below absolute zero, -459.67 degF",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = 20 degC - 300 K",
            "1:5",
            "-280 degC is below absolute zero, -273.15 degC",
            "degC and degF are temperatures, K is a difference between two of them",
        ),
        (
            "a = 20 degC ±2 mm",
            "1:5",
            "the limits are a length, the size is a temperature",
            "limits are in the size's unit unless they have their own: 16 mm ±0.05, 16 mm ±5 um",
        ),
    ],
)
def test_what_a_temperature_does_not_do(text: str, place: str, message: str, hint: str) -> None:
    """Rule 12."""
    assert only(text) == (place, message, hint)


def test_numbers_are_equal_within_what_a_float_can_tell() -> None:
    """Rule 13."""
    assert (
        findings(
            "check 0.1 + 0.2 == 0.3\n"
            "check 1 in == 25.4 mm\n"
            "check 1 mm == 1.0000000009 mm\n"
            "check 5 mm - 5 mm == 0\n"
            "check 0.3 mm - 0.2 mm - 0.1 mm == 0\n"
            "check 20 degC == 68 degF\n"
            "check 0 mm == 0\n"
            "check 0 < 3 mm < 5 mm\n"
        )
        == []
    )
    assert codes("check 1 mm == 1.00000001 mm") == ["check-fails"]
    assert codes("check 1 mm < 1.0000000001 mm") == ["check-fails"]


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("-2**2", -4),
        ("(-2)**2", 4),
        ("2**-1", 0.5),
        ("2**3**2", 512),
        ("2**0.5", 2**0.5),
        ("0**0", 1),
        ("sqrt(5 %)", 0.05**0.5),
        ("sin(180 deg)", 0),
        ("sin(0)", 0),
        ("cos(90 deg)", 0),
    ],
)
def test_powers_and_functions_of_numbers(expression: str, expected: float) -> None:
    """Rule 13."""
    assert number(expression) == pytest.approx(expected, rel=1e-12)
    assert (number(expression) == 0) == (expected == 0)


def test_lists_of_equal_things_are_equal() -> None:
    """Rules 13 and 20."""
    assert value("[1 in, 2 in] == [25.4 mm, 50.8 mm]") is True
    assert value("[1 in] == [25.4 mm, 1 mm]") is False
    assert value("[1 mm] != [2 mm]") is True
    assert findings("a = 16 mm ±0.1\ncheck [a] == [16 mm]") == [
        "2:7 this check holds for some of the sizes only: [a] is "
        "[15.900 to 16.100 mm]; [16 mm] is [16.000 mm]"
    ]


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("check 1 mm == 1 s", "1:7", "a length and a time do not go together under ==", ""),
        ("check 3 mm == 3", "1:7", "a length and a plain number do not go together under ==", ""),
        (
            "check 3 rpm == 3 1/min",
            "1:7",
            "a spindle speed and a rate do not go together under ==",
            "`to rpm` lets a revolution or a tooth appear or vanish",
        ),
        ('check "a" == 3', "1:7", "a text and a plain number do not compare", ""),
        ('check "a" < "b"', "1:7", "a text has no order; only == and != apply", ""),
        (
            "check 52 HRC > 50 HV",
            "1:7",
            "a hardness in HRC and a hardness in HV do not compare",
            "",
        ),
        ("check [1 mm] < [2 mm]", "1:7", "a list has no order; only == and != apply", ""),
        ("check [1 mm] == [1 s]", "1:7", "a length and a time do not go together under ==", ""),
        ("check (1 < 2) == 3", "1:7", "true or false and a plain number do not compare", ""),
    ],
)
def test_what_does_not_compare(text: str, place: str, message: str, hint: str) -> None:
    """Rule 13."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 1/0", "1:5", "a division by zero", ""),
        ("a = 5 mm/(3 - 3)", "1:5", "a division by zero", ""),
        ("a = 0**-1", "1:5", "a division by zero", ""),
        ("a = (0 - 4)**0.5", "1:5", "-4 to the power 0.5 is not a real, finite number", ""),
        ("a = (-8)**(1/3)", "1:5", "-8 to the power 0.333333 is not a real, finite number", ""),
        ("a = sqrt(-4)", "1:10", "sqrt of -4 does not exist", ""),
        ("a = asin(2)", "1:10", "asin of 2 does not exist", ""),
        ("a = acos(-1.01)", "1:10", "acos of -1.01 does not exist", ""),
        ("a = tan(90 deg)", "1:9", "tan of 90 deg does not exist", ""),
        (
            "a = 2**(3 mm)",
            "1:5",
            "an exponent is a plain number between -100 and 100; this one is a length",
            "",
        ),
        (
            "a = 2**101",
            "1:5",
            "an exponent is a plain number between -100 and 100; this one is 101",
            "",
        ),
        (
            "a = 9**9**9**9",
            "1:8",
            "an exponent is a plain number between -100 and 100; this one is 3.874e+08",
            "",
        ),
        (
            "a = 1e250*1e250",
            "1:5",
            "the number grew beyond 1e+250",
            "is a unit or an exponent wrong?",
        ),
        (
            "a = 10**100*10**100*10**100",
            "1:5",
            "the number grew beyond 1e+250",
            "is a unit or an exponent wrong?",
        ),
        ("a = sin(30)", "1:9", "sin takes an angle; this is a plain number", ""),
        ("a = sqrt(1, 2)", "1:5", "sqrt takes 1 argument", "sqrt(2 mm^2)"),
        ("a = min()", "1:5", "min takes 1 to 50 arguments", "min(a, b)"),
        ("a = sin(x=3 deg)", "1:9", "sin takes no named x", "sin(30 deg)"),
        ('a = "x" + 1 mm', "1:5", "+ takes quantities; this is a text", ""),
        ('a = "x" to mm', "1:5", "`to` takes a quantity; this is a text", ""),
        ('a = max("x", 2)', "1:9", "max takes a quantity; this is a text", ""),
    ],
)
def test_a_number_that_is_not_real_or_finite(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 13."""
    assert only(text) == (place, message, hint)
