"""Rules 6 to 10 of the language: numbers, units, fractions, designations, angles."""

from __future__ import annotations

import pytest
from calc_page import codes, findings, limits, number, only, value


@pytest.mark.parametrize(
    ("expression", "unit", "expected"),
    [
        ("100 mm/min / 2", "mm/min", 50),
        ("25 mm/2", "mm", 12.5),
        ("30 m/min / (pi * 10 mm)", "1/min", 954.9296585513721),
        ("3 mm/min/2", "mm/min", 1.5),
        ("3mm+2mm", "mm", 5),
        ("3   mm", "mm", 3),
        ("3 mm²", "mm^2", 3),
        ("2 mm³/min", "mm^3/min", 2),
        ("3 mm^2", "mm^2", 3),
        ("3 mm**2", "mm^2", 9),
        ("12 1/min", "1/min", 12),
        ("0.2 mm/tooth", "mm/tooth", 0.2),
        ("5 % * 100 mm", "mm", 5),
        ("25 mm / min(2, 5)", "mm", 12.5),
        ("25 mm * min(2, 5)", "mm", 50),
        ("5 N*m", "N*mm", 5000),
    ],
)
def test_a_unit_follows_a_number_and_binds_without_spaces(
    expression: str, unit: str, expected: float
) -> None:
    """Rule 6."""
    assert number(expression, unit) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 5 furlong", "1:7", "`furlong` is not a unit of this log", ""),
        ("a = 5 inch", "1:7", "`inch` is not a unit of this log", "did you mean in?"),
        ("a = 120 ipm", "1:9", "`ipm` is not a unit of this log", "did you mean in/min?"),
        ("a = 5 mm3", "1:7", "`mm3` is not a unit of this log", "did you mean mm^3?"),
        ("a = 5 in3", "1:7", "`in3` is not a unit of this log", "did you mean in^3?"),
        ("a = 5 Nm", "1:7", "`Nm` is not a unit of this log", "did you mean N*m?"),
        ("a = 4 teeth", "1:7", "`teeth` is not a unit of this log", "did you mean tooth?"),
        ("a = 5 MM", "1:7", "`MM` is not a unit of this log", "did you mean mm?"),
        ("a = 5 mm to inch", "1:13", "`inch` is not a unit of this log", "did you mean in?"),
        ("a = 5 mm to furlong", "1:13", "`furlong` is not a unit of this log", "such as mm or rpm"),
        ("a = 5 mm to 3", "1:13", "`3` is not a unit of this log", "such as mm or rpm"),
        ("a = 5 mm to", "1:12", "a unit is wanted after `to`", "such as mm"),
        (
            "a = 3 mm/kg",
            "1:7",
            "`mm/kg` is not a unit of this log",
            "write it with numbers: … / (1 kg)",
        ),
        (
            "a = 3 kg*mm",
            "1:7",
            "`kg*mm` is not a unit of this log",
            "write it with numbers: … * (1 mm)",
        ),
        (
            "a = 3 mm/min/tooth",
            "1:7",
            "`mm/min/tooth` is not a unit of this log",
            "write it with numbers: … / (1 tooth)",
        ),
        ("a = 3 mm^5", "1:7", "`mm^5` is not a unit of this log", "did you mean mm^4?"),
        ("a = 3 lb/in^2", "1:7", "`lb/in^2` is not a unit of this log", "psi"),
        ("a = 3 x 4", "1:7", "`x` is not a unit of this log", ""),
        ("a = 3 if 4", "1:7", "`if` is not a unit of this log", ""),
    ],
)
def test_a_unit_that_is_none(text: str, place: str, message: str, hint: str) -> None:
    """Rule 6."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 25 mm / min", "1:8", "spaces in a unit", "no spaces in a unit: mm/min"),
        ("a = 25 mm /min", "1:8", "spaces in a unit", "no spaces in a unit: mm/min"),
        ("a = 25 mm/ min", "1:8", "spaces in a unit", "no spaces in a unit: mm/min"),
        ("a = 2 N * mm", "1:7", "spaces in a unit", "no spaces in a unit: N*mm"),
        (
            "a = 3 kg / mm",
            "1:7",
            "spaces in a unit",
            "no spaces in a unit: kg/mm is not a unit of this log",
        ),
        (
            "x = 2\na = x mm",
            "2:7",
            "an operator or the end is wanted before `mm`",
            "a unit follows a number: … * 1 mm, or `to mm`",
        ),
        (
            "a = (3) mm",
            "1:9",
            "an operator or the end is wanted before `mm`",
            "a unit follows a number: … * 1 mm, or `to mm`",
        ),
        (
            "a = 5 m m",
            "1:9",
            "an operator or the end is wanted before `m`",
            "a unit follows a number: … * 1 m, or `to m`",
        ),
    ],
)
def test_a_unit_has_no_spaces_and_stands_behind_a_number(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 6."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 3^2", "1:6", "`^` stands in units only", "a power is **"),
        ("a = (3)^2", "1:8", "`^` stands in units only", "a power is **"),
        ("x = 3\na = x²", "2:6", "`²` stands in units only", "a power is **"),
        ("a = 3²", "1:6", "`²` stands in units only", "a power is **"),
    ],
)
def test_a_power_sign_stands_in_units_only(text: str, place: str, message: str, hint: str) -> None:
    """Rule 6."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("expression", "unit", "expected"),
    [
        (".5 in", "in", 0.5),
        ("1e3 mm", "mm", 1000),
        ("1E-3 mm", "mm", 0.001),
        ("00012 mm", "mm", 12),
        ("5 mm − 3 mm", "mm", 2),
        ("5 mm × 3", "mm", 15),
        ("5 mm · 3", "mm", 15),
        ("6 mm ÷ 3", "mm", 2),
        ("5 μm + 5 µm", "um", 10),
        ("5\u00a0mm", "mm", 5),
        ("5\u202fmm", "mm", 5),
        ("5\u2009mm", "mm", 5),
        ("\t5\tmm", "mm", 5),
        ("5 mm\r", "mm", 5),
        ("min(3, 5)", "", 3),
        ("5--3", "", 8),
    ],
)
def test_a_number_as_people_type_it(expression: str, unit: str, expected: float) -> None:
    """Rule 7."""
    assert number(expression, unit) == pytest.approx(expected, rel=1e-12)


def test_comparison_signs_are_taken_as_equal() -> None:
    """Rule 7."""
    assert findings("check 3 ≤ 4\ncheck 4 ≥ 3\ncheck 3 ≠ 4") == []


def test_signs_in_a_text_are_left_alone() -> None:
    """Rule 7."""
    assert value('"5 × 3 − 1\u00a0÷ 2"') == "5 × 3 − 1\u00a0÷ 2"


def test_columns_count_characters_behind_tabs_and_wide_spaces() -> None:
    """Rule 7."""
    assert only("a\t=\u00a0bore")[0] == "1:5"
    assert only("a = 5 mm \r\nb = bore")[0] == "2:5"


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 5. in", "1:5", "a point needs a digit after it", "write 5"),
        ("a = 5.", "1:5", "a point needs a digit after it", "write 5"),
        ("a = 1.e5", "1:5", "a point needs a digit after it", "write 1"),
        (
            "a = 3,5 mm",
            "1:5",
            "a comma between digits",
            "a decimal point is a point: 3.5; after a comma between arguments comes a space",
        ),
        (
            "a = min(3,5)",
            "1:9",
            "a comma between digits",
            "a decimal point is a point: 3.5; after a comma between arguments comes a space",
        ),
        (
            "a = min(x3,5)",
            "1:10",
            "a comma between digits",
            "a decimal point is a point: 3.5; after a comma between arguments comes a space",
        ),
        (
            "a = 1,000 mm",
            "1:5",
            "a comma between digits",
            (
                "a decimal point is a point: 1000 or 1.000; after a comma between "
                "arguments comes a space"
            ),
        ),
        (
            "a = 1.000,5 mm",
            "1:5",
            "a comma between digits",
            "a decimal point is a point: 1000.5; after a comma between arguments comes a space",
        ),
        ("a = 1 000", "1:5", "digits in groups", "write 1000"),
        ("a = 1 000 000 mm", "1:5", "digits in groups", "write 1000000"),
        ("a = 12 345.6 mm", "1:5", "digits in groups", "write 12345.6"),
        ("a = 1_000 mm", "1:5", "digits in groups", "write 1000"),
        ("a = 1e mm", "1:5", "1e is not a number", "an exponent has digits: 1e3"),
        ("a = 3.5e mm", "1:5", "3.5e is not a number", "an exponent has digits: 1e3"),
        ("a = 3e+ mm", "1:5", "3e is not a number", "an exponent has digits: 1e3"),
        ("a = 1e999 mm", "1:5", "the number grew beyond 1e+250", "is a unit or an exponent wrong?"),
        ("a = 1e-400 mm", "1:5", "1e-400 is too small a number to reckon with", ""),
        ("a = 1.2.3 mm", "1:8", "an operator or the end is wanted before `.`", ""),
        (
            "a = 0x10",
            "1:6",
            "`x10` cannot stand here",
            'quote a designation: thread("M10x1.5-6H"), drill("#7")',
        ),
        (
            "a = ３ mm",
            "1:5",
            "`３` is not a digit of this language",
            "names and numbers have the digits 0 to 9: 3",
        ),
        (
            "a = ٣ mm",
            "1:5",
            "`٣` is not a digit of this language",
            "names and numbers have the digits 0 to 9: 3",
        ),
        (
            "a = 3 mm + ①",
            "1:12",
            "`①` is not a digit of this language",
            "names and numbers have the digits 0 to 9: 1",
        ),
    ],
)
def test_a_number_that_is_none(text: str, place: str, message: str, hint: str) -> None:
    """Rule 7."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = Ø16 mm", "1:5", "a diameter sign", "a diameter is a length: 16 mm"),
        ("a = ⌀16 mm", "1:5", "a diameter sign", "a diameter is a length: 16 mm"),
        ("a = ½ in", "1:5", "the character ½", "write a fraction with its unit: 1/2 in, 1-1/2 in"),
        ("a = 1½ in", "1:6", "the character ½", "write a fraction with its unit: 1/2 in, 1-1/2 in"),
        ("a = “x”", "1:5", "a curly quote", 'text stands in straight quotes: "…"'),
        (
            "a = drill('#7')",
            "1:11",
            "a single quote",
            'text stands in double quotes: "…"; minutes of arc follow a degree sign: 8°25\'',
        ),
        ("a = 3 mm – 1 mm", "1:10", "a dash, which is not a minus", "write -"),
        ("a = 3 mm — 1 mm", "1:10", "a dash, which is not a minus", "write -"),
        ("a = 3 mm ‐ 1 mm", "1:10", "a dash, which is not a minus", "write -"),
        ("a = 5\u200bmm", "1:6", "a character that cannot be seen, U+200B", "delete it"),
        ("a = \ufeff5 mm", "1:5", "a character that cannot be seen, U+FEFF", "delete it"),
        ("a = 5 mm\xad", "1:9", "a character that cannot be seen, U+00AD", "delete it"),
        ("a = 1\x07", "1:6", "an unprintable character", ""),
        ("a = 3 mm;", "1:9", "an operator or the end is wanted before `;`", ""),
        ("a = {3}", "1:5", "a value is wanted before `{`", ""),
        ("a = $5", "1:5", "a value is wanted before `$`", ""),
        ("a = 3 mm, 4 mm", "1:9", "an operator or the end is wanted before `,`", ""),
        ("a = 3 // 4", "1:8", "a value is wanted before `/`", ""),
        ("a = 7 % 3", "1:9", "an operator or the end is wanted before `3`", ""),
    ],
)
def test_a_character_that_is_not_the_one_meant(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 7."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("expression", "unit", "expected"),
    [
        ("7/32 in", "in", 7 / 32),
        ("1-1/2 in", "in", 1.5),
        ("1 1/2 in", "in", 1.5),
        ("1-1/2in", "in", 1.5),
        ("12-3/4 ft", "ft", 12.75),
        ("3/2 in", "in", 1.5),
        ("1/3 tooth", "tooth", 1 / 3),
        ("100/3 mm", "mm", 100 / 3),
        ("1-1/128 in", "in", 1 + 1 / 128),
        ("-1-1/2 in", "in", -1.5),
        ("3 in - 1/2 in", "in", 2.5),
        ("10 in + 1 1/2 in", "in", 11.5),
        ("1/2 in * 2", "in", 1),
        ("2 * (1/2 in)", "in", 1),
        ("pi / (4 in)", "1/in", 0.7853981633974483),
        ("(pi/4) * 1 in", "in", 0.7853981633974483),
        ("1-1/2", "", 0.5),
        ("7/32", "", 0.21875),
    ],
)
def test_fractions_and_mixed_numbers(expression: str, unit: str, expected: float) -> None:
    """Rule 8."""
    assert number(expression, unit) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("expression", ["x * 3 - 1/2 in", "x*3 - 1/2 in", "x / 3 - 1/2 in"])
def test_a_difference_behind_a_product_is_no_mixed_number(expression: str) -> None:
    """Rule 8."""
    assert number(expression, "in", before="x = 6 in") in (17.5, 1.5)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 1-3/2 in",
            "1:5",
            ("1-3/2 is not a mixed number: its fraction is proper, with a denominator of 2 to 128"),
            "",
        ),
        (
            "a = 1-1/1 in",
            "1:5",
            ("1-1/1 is not a mixed number: its fraction is proper, with a denominator of 2 to 128"),
            "",
        ),
        (
            "a = 1-0/2 in",
            "1:5",
            ("1-0/2 is not a mixed number: its fraction is proper, with a denominator of 2 to 128"),
            "",
        ),
        (
            "a = 1-1/129 in",
            "1:5",
            (
                "1-1/129 is not a mixed number: its fraction is proper, with a "
                "denominator of 2 to 128"
            ),
            "",
        ),
        ("a = 1/0 in", "1:5", "a division by zero", ""),
        ("a = 1-1/2 mm", "1:5", "a mixed number is in inches or feet, not in mm", "write 1.5 mm"),
        ("a = 1 1/2 mm", "1:5", "a mixed number is in inches or feet, not in mm", "write 1.5 mm"),
        (
            "a = 1 1/2",
            "1:7",
            "an operator or the end is wanted before `1`",
            "a mixed number has its unit behind it, in or ft: 1 1/2 in",
        ),
        (
            "a = 3 - 1/2 in",
            "1:5",
            "3 - 1/2 in could be a mixed number or a subtraction",
            "write 3 in - 1/2 in, or 3-1/2 in",
        ),
        (
            "a = 1 -1/2 in",
            "1:5",
            "1 -1/2 in could be a mixed number or a subtraction",
            "write 1 in - 1/2 in, or 1-1/2 in",
        ),
        (
            "a = 1- 1/2 in",
            "1:5",
            "1- 1/2 in could be a mixed number or a subtraction",
            "write 1 in - 1/2 in, or 1-1/2 in",
        ),
        ("a = 2 * 1/2 in", "1:9", "a fraction after * needs brackets", "write * (1/2 in)"),
        ("a = 2 / 1/2 in", "1:9", "a fraction after / needs brackets", "write / (1/2 in)"),
        ("a = 2 * 1-1/2 in", "1:9", "a fraction after * needs brackets", "write * (1-1/2 in)"),
        ("a = 2 ** 1/2 in", "1:10", "a fraction after ** needs brackets", "write ** (1/2 in)"),
    ],
)
def test_a_fraction_or_mixed_number_that_is_none(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 8."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = pi/4 in",
            "1:5",
            "a plain number over `4 in` could be a fraction or a division",
            "write (pi/4) * 1 in for a part of it, or pi / (4 in)",
        ),
        (
            "a = 7 / 32 in",
            "1:5",
            "a plain number over `32 in` could be a fraction or a division",
            "write 7/32 in without spaces for a fraction, or 7 / (32 in)",
        ),
        (
            "a = 7/ 32 in",
            "1:5",
            "a plain number over `32 in` could be a fraction or a division",
            "write 7/32 in without spaces for a fraction, or 7 / (32 in)",
        ),
        (
            "x = 5\na = x/32 in",
            "2:5",
            "a plain number over `32 in` could be a fraction or a division",
            "write (x/32) * 1 in for a part of it, or x / (32 in)",
        ),
        (
            "a = (1 + 2)/32 in",
            "1:5",
            "a plain number over `32 in` could be a fraction or a division",
            "write (x/32) * 1 in for a part of it, or x / (32 in)",
        ),
        (
            "a = 1 / 5 mm**2",
            "1:5",
            "a plain number over `5 mm` could be a fraction or a division",
            "write 1/5 mm without spaces for a fraction, or 1 / (5 mm)",
        ),
    ],
)
def test_a_plain_number_over_a_literal_with_a_unit(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 8."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 1/4-20", "1:5", "1/4-20 is a thread's designation", 'quote it: thread("1/4-20")'),
        (
            "a = 1/4-20 UNC",
            "1:5",
            "1/4-20 UNC is a thread's designation",
            'quote it: thread("1/4-20 UNC")',
        ),
        (
            "a = 1/4-28 UNF-2B",
            "1:5",
            "1/4-28 UNF-2B is a thread's designation",
            'quote it: thread("1/4-28 UNF-2B")',
        ),
        (
            "a = 1-1/4-7 UNC",
            "1:5",
            "1-1/4-7 UNC is a thread's designation",
            'quote it: thread("1-1/4-7 UNC")',
        ),
        (
            "a = 10-32 UNF",
            "1:5",
            "10-32 UNF is a thread's designation",
            'quote it: thread("10-32 UNF")',
        ),
        ("a = M8", "1:5", "M8 is a thread's designation", 'quote it: thread("M8")'),
        ("a = thread(M8)", "1:12", "M8 is a thread's designation", 'quote it: thread("M8")'),
        ("a = M10x1.5", "1:5", "M10x1.5 is a thread's designation", 'quote it: thread("M10x1.5")'),
        ("a = M10×1.5", "1:5", "M10x1.5 is a thread's designation", 'quote it: thread("M10x1.5")'),
        (
            "a = M10x1.5-6H",
            "1:5",
            "M10x1.5-6H is a thread's designation",
            'quote it: thread("M10x1.5-6H")',
        ),
        ("M8 = 3", "1:1", "M8 is a thread's designation", 'quote it: thread("M8")'),
        ("a = 5/8-11 + 3", "1:5", "5/8-11 is a thread's designation", 'quote it: thread("5/8-11")'),
        (
            "a = thread(10x1.5)",
            "1:14",
            "`x1` cannot stand here",
            'quote a designation: thread("M10x1.5-6H"), drill("#7")',
        ),
    ],
)
def test_an_unquoted_designation(text: str, place: str, message: str, hint: str) -> None:
    """Rule 9: the traps run even where the line would parse."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = 16 H7", "1:8", "a class follows a length, and 16 has no unit", "write 16 mm H7"),
        ("a = 16H7", "1:7", "a class follows a length, and 16 has no unit", "write 16 mm H7"),
        ("a = 16mmH7", "1:7", "`mmH7` is not a unit of this log", "write 16 mm H7"),
        (
            "a = 16 mm H7/g6",
            "1:11",
            "two classes on one size",
            "one class a size, then fit(hole, shaft)",
        ),
        (
            "a = 16 H7/g6",
            "1:8",
            "two classes on one size",
            "one class a size, then fit(hole, shaft)",
        ),
        (
            "a = fit(16 mm H7/g6)",
            "1:15",
            "two classes on one size",
            "one class a size, then fit(hole, shaft)",
        ),
        (
            "a = 16 mm H7 g6",
            "1:14",
            "two classes on one size",
            "one class a size, then fit(hole, shaft)",
        ),
        (
            "a = 16 mm H7-g6",
            "1:14",
            "`g6` is not a name of this page",
            "a class follows a length: 16 mm g6",
        ),
    ],
)
def test_a_class_in_the_wrong_place(text: str, place: str, message: str, hint: str) -> None:
    """Rule 9."""
    assert only(text) == (place, message, hint)


def test_a_quoted_designation_is_read() -> None:
    """Rule 9."""
    assert value('thread("1/4-20 UNC").pitch', "").nominal == pytest.approx(25.4 / 20)
    assert number('thread("M10×1.5").pitch', "mm") == 1.5


@pytest.mark.parametrize(
    ("expression", "degrees"),
    [
        ("8°25'30\"", 8.425),
        ("8°25'", 8 + 25 / 60),
        ("8°", 8),
        ("8.5°", 8.5),
        ("8°25.5'", 8.425),
        ("8°25'30.5\"", 8 + 25 / 60 + 30.5 / 3600),
        ("-8°25'30\"", -8.425),
        ("8 °", 8),
        ("8 deg", 8),
        ("30 arcmin", 0.5),
        ("1/2°", 0.5),
        ("2 * 8°30'", 17),
    ],
)
def test_angles(expression: str, degrees: float) -> None:
    """Rule 10."""
    assert number(expression, "deg") == pytest.approx(degrees, rel=1e-12)


def test_an_angle_is_known_before_a_text() -> None:
    """Rule 10: its second mark opens no text."""
    assert value('tan(8°25\'30") + thread("M6x1").pitch / 1 mm').nominal == pytest.approx(
        1.148, abs=1e-3
    )
    assert codes('a = 8°25\'30"  # 8° 25\' "is" the note') == []


def test_a_temperature_scale_is_no_angle() -> None:
    """Rule 10."""
    assert number("5 °C", "degC") == 5
    assert number("5°C", "degC") == 5
    assert number("-40 °F", "degC") == pytest.approx(-40)


def test_an_angle_has_limits_in_degrees() -> None:
    """Rule 14."""
    assert limits("45° ±0.5", "deg") == (44.5, 45.5)
    assert limits("8°25'30\" ±10 arcsec", "arcsec") == (30320, 30340)
    assert limits("45° +0.5/-0.25", "deg") == (44.75, 45.5)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 8° 25' 30\"",
            "1:5",
            "spaces in an angle",
            "an angle stands without spaces: 8°25'30\"",
        ),
        (
            "a = 8°25' 30\"",
            "1:5",
            "spaces in an angle",
            "an angle stands without spaces: 8°25'30\"",
        ),
        (
            "a = 8°25",
            "1:5",
            "`8°25` is not an angle",
            "whole degrees, minutes and seconds have their marks: 8°25'30\", 8°25', 8.5°",
        ),
        (
            "a = 8°25'30",
            "1:5",
            "`8°25'30` is not an angle",
            "whole degrees, minutes and seconds have their marks: 8°25'30\", 8°25', 8.5°",
        ),
        (
            "a = 8.5°30'",
            "1:5",
            "`8.5°30'` is not an angle",
            "whole degrees, minutes and seconds have their marks: 8°25'30\", 8°25', 8.5°",
        ),
        ("a = 8°75'", "1:5", "minutes and seconds of arc are below 60: `8°75'`", ""),
        ("a = 8°25'75\"", "1:5", "minutes and seconds of arc are below 60: `8°25'75\"`", ""),
        (
            "a = 8°25′30″",
            "1:5",
            "`8°25` is not an angle",
            "whole degrees, minutes and seconds have their marks: 8°25'30\", 8°25', 8.5°",
        ),
        ("a = 8º", "1:6", "`º` is not the degree sign", "write °, or deg"),
        ("a = 8˚30'", "1:6", "`˚` is not the degree sign", "write °, or deg"),
        ('a = 3"', "1:5", "an inch mark", "inch is `in`: 3 in"),
        ('a = 7/32"', "1:5", "an inch mark", "inch is `in`: 7/32 in"),
        ('a = 1-1/2"', "1:5", "an inch mark", "inch is `in`: 1-1/2 in"),
        (
            "a = 3'",
            "1:6",
            "a single quote",
            'text stands in double quotes: "…"; minutes of arc follow a degree sign: 8°25\'',
        ),
    ],
)
def test_an_angle_or_inch_mark_that_is_none(text: str, place: str, message: str, hint: str) -> None:
    """Rule 10."""
    assert only(text) == (place, message, hint)
