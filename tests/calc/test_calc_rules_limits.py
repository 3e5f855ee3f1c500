"""Rules 14 to 17 of the language: deviations, classes, brackets, comparisons over a range."""

from __future__ import annotations

import pytest
from calc_page import findings, items, limits, number, only, value

from shoplog.calc.results import Truth
from shoplog.calc.show import show
from shoplog.trade.limits_and_fits.fits import limits_of, tolerance_classes


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("16 mm +0.02/-0.01", (15.99, 16.02)),
        ("16 mm -0.02/-0.04", (15.96, 15.98)),
        ("16 mm +0.02/0", (16, 16.02)),
        ("16 mm +0.02/-0", (16, 16.02)),
        ("16 mm 0/-0.01", (15.99, 16)),
        ("16 mm +0/-0.01", (15.99, 16)),
        ("16 mm +0.02/+0.01", (16.01, 16.02)),
        ("16 mm ±0.05", (15.95, 16.05)),
        ("16 mm ± 0.05", (15.95, 16.05)),
        ("16 mm +/-0.05", (15.95, 16.05)),
        ("16 mm ±.05", (15.95, 16.05)),
        ("16mm±0.05", (15.95, 16.05)),
        ("16 mm ±5 um", (15.995, 16.005)),
        ("16 mm ±5um", (15.995, 16.005)),
        ("16 mm +5/-3 um", (15.997, 16.005)),
        ("1 in ±0.1 mm", (25.3, 25.5)),
        ("1-1/2 in ±0.5 mm", (37.6, 38.6)),
        ("10 mm + 16 mm ±0.05", (25.95, 26.05)),
        ("16 mm ±0.05 + 10 mm", (25.95, 26.05)),
        ("10 mm ±0.1 - 4 mm ±0.1", (5.8, 6.2)),
        ("-16 mm ±0.1", (-16.1, -15.9)),
        ("limits(16 mm, 0.02 mm, -0.01 mm)", (15.99, 16.02)),
        ("limits(16 mm, 0.02 mm, 0)", (16, 16.02)),
        ("limits(16 mm, 20 um, -10 um)", (15.99, 16.02)),
    ],
)
def test_deviations(expression: str, expected: tuple[float, float]) -> None:
    """Rule 14."""
    assert limits(expression, "mm") == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 16 mm -0.02/+0.01",
            "1:11",
            "the upper deviation comes first, and -0.02 is below 0.01",
            "write +0.01/-0.02",
        ),
        ("a = 16 mm +0.02 /-0.01", "1:11", "spaces in limits", "write +0.02/-0.01"),
        ("a = 16 mm + 0.02/-0.01", "1:11", "spaces in limits", "write +0.02/-0.01"),
        ("a = 16 mm + 0.02 / - 0.01", "1:11", "spaces in limits", "write +0.02/-0.01"),
        ("a = 16 ±0.05", "1:8", "limits follow a number with a unit", "write 16 mm ±0.05"),
        (
            "a = 16 +0.02/-0.01",
            "1:8",
            "limits follow a number with a unit",
            "write 16 mm +0.02/-0.01",
        ),
        (
            "a = 16 mm ±-0.05",
            "1:11",
            "after ± stands one number, as a decimal and without a sign",
            "such as ±0.05, or ±5 um",
        ),
        (
            "a = 16 mm ±1/64 in",
            "1:11",
            "after ± stands one number, as a decimal and without a sign",
            "such as ±0.05, or ±5 um",
        ),
        (
            "a = 16 mm ±0.05/2",
            "1:11",
            "after ± stands one number, as a decimal and without a sign",
            "such as ±0.05, or ±5 um",
        ),
        (
            "a = 16 mm ±1e-3",
            "1:11",
            "after ± stands one number, as a decimal and without a sign",
            "such as ±0.05, or ±5 um",
        ),
        (
            "a = 16 mm ±",
            "1:11",
            "after ± stands one number, as a decimal and without a sign",
            "such as ±0.05, or ±5 um",
        ),
        (
            "a = 16 mm ±0.05 s",
            "1:5",
            "the limits are a time, the size is a length",
            "limits are in the size's unit unless they have their own: 16 mm ±0.05, 16 mm ±5 um",
        ),
        (
            "a = 16 mm ±1 %",
            "1:5",
            "the limits are a percentage, the size is a length",
            "limits are in the size's unit unless they have their own: 16 mm ±0.05, 16 mm ±5 um",
        ),
        (
            "x = 5 mm\na = x ±0.05",
            "2:7",
            "limits belong to a number with a unit, not to a name or a bracket",
            "write limits(x, upper, lower)",
        ),
        (
            "x = 5 mm\na = x±0.05",
            "2:6",
            "limits belong to a number with a unit, not to a name or a bracket",
            "write limits(x, upper, lower)",
        ),
        (
            "x = 5 mm\na = x +0.02/-0.01",
            "2:7",
            "limits belong to a number with a unit, not to a name or a bracket",
            "write limits(x, upper, lower)",
        ),
        (
            "a = (5 mm) ±0.05",
            "1:12",
            "limits belong to a number with a unit, not to a name or a bracket",
            "write limits(x, upper, lower)",
        ),
        ("a = 16 mm H7 ±0.05", "1:14", "a class and limits on one size", "give one of the two"),
        ("a = 16 mm ±0.05 H7", "1:17", "a class and limits on one size", "give one of the two"),
        (
            "a = limits(16 mm, -0.02 mm, 0.01 mm)",
            "1:19",
            "limits takes the upper deviation first",
            "limits(16 mm, 0.02 mm, -0.01 mm)",
        ),
        (
            "a = limits(16 mm, 0.02, -0.01)",
            "1:25",
            "limits takes a length; this is a plain number",
            "",
        ),
        (
            "a = 16 mm H7\nb = limits(a, 0.02 mm, 0)",
            "2:12",
            "this size has limits already",
            "limits(x.nominal, upper, lower) gives its nominal new ones",
        ),
        (
            "a = limits(16 mm)",
            "1:5",
            "limits takes 3 arguments",
            "limits(16 mm, 0.02 mm, -0.01 mm)",
        ),
        (
            "a = 16 mm ±1e249",
            "1:11",
            "after ± stands one number, as a decimal and without a sign",
            "such as ±0.05, or ±5 um",
        ),
    ],
)
def test_deviations_that_are_none(text: str, place: str, message: str, hint: str) -> None:
    """Rule 14."""
    assert only(text) == (place, message, hint)


def test_an_expression_of_plain_numbers_is_no_deviation() -> None:
    """Rule 14."""
    assert number("3-1/2") == 2.5
    assert number("x + 0.02 mm / -1", "mm", before="x = 5 mm") == pytest.approx(4.98)


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("16 mm H7", (16, 16.018)),
        ("16 mm h6", (15.989, 16)),
        ("16 mm JS7", (15.991, 16.009)),
        ("30 mm p6", (30.022, 30.035)),
        ("1 in H7", (25.4, 25.421)),
        ("3/4 in H7", (19.05, 19.071)),
    ],
)
def test_a_class_follows_a_length(expression: str, expected: tuple[float, float]) -> None:
    """Rule 15; the limits are those of ISO 286-2, which tests/published/ holds."""
    assert limits(expression, "mm") == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 16 mm Q7",
            "1:5",
            "Q7 is not a tolerance class: ISO 286-1 has no letter Q",
            "a letter and a grade, such as H7 or js6",
        ),
        (
            "a = 16 mm H70",
            "1:5",
            "H70 has no grade in ISO 286-1: its grades are 01, 0, and 1 to 18",
            "give the limits themselves, upper first, such as 16 mm +0.02/-0.01",
        ),
        (
            "a = 30 m H7",
            "1:5",
            "nominal size is 30000 mm, it must be over 0 mm and at most 3150 mm (ISO 286-1)",
            "`m` is the metre; 30 mm has a class. Else give the limits themselves, upper first,"
            " such as 16 mm +0.02/-0.01",
        ),
        (
            "a = 0 mm H7",
            "1:5",
            "nominal size is 0 mm, it must be over 0 mm and at most 3150 mm (ISO 286-1)",
            "",
        ),
        (
            "a = 16 kg H7",
            "1:5",
            "a class belongs to a length; this is a mass",
            "give the limits themselves, upper first, such as 20 kg +0.5/-0.2",
        ),
        (
            "a = 16 deg H7",
            "1:5",
            "a class belongs to a length; this is an angle",
            "give the limits themselves, upper first, such as 20 kg +0.5/-0.2",
        ),
        ("a = 16 mm H", "1:11", "an operator or the end is wanted before `H`", ""),
    ],
)
def test_a_class_that_is_none(text: str, place: str, message: str, hint: str) -> None:
    """Rule 15."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("(16 mm ±0.1) * 2", (31.8, 32.2)),
        ("2 * (16 mm ±0.1)", (31.8, 32.2)),
        ("(16 mm ±0.1) / 2", (7.95, 8.05)),
        ("(16 mm ±0.1) * 50 %", (7.95, 8.05)),
        ("-2 * (16 mm +0.1/-0.3)", (-32.2, -31.4)),
    ],
)
def test_a_bracketed_literal_with_limits_is_scaled(
    expression: str, expected: tuple[float, float]
) -> None:
    """Rule 16."""
    assert limits(expression, "mm") == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("field", "expected"),
    [
        ("min", 15.99),
        ("max", 16.02),
        ("nominal", 16),
        ("middle", 16.005),
        ("tolerance", 0.03),
        ("upper", 0.02),
        ("lower", -0.01),
    ],
)
def test_the_fields_of_a_size_with_limits(field: str, expected: float) -> None:
    """Rule 16."""
    assert number(f"(16 mm +0.02/-0.01).{field}", "mm") == pytest.approx(expected, abs=1e-12)
    assert not value(f"(16 mm +0.02/-0.01).{field}").has_limits


def test_the_root_sum_square_is_an_estimate_about_the_middle() -> None:
    """Rule 16."""
    assert limits("(a + b).rss", "mm", "a = 10 mm +0.3/-0.1\nb = 5 mm ±0.15") == (14.85, 15.35)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 2 * 16 mm H7",
            "1:9",
            "a size with limits beside * needs brackets",
            "write (16 mm H7)",
        ),
        (
            "a = 16 mm ±0.05 * 2",
            "1:5",
            "a size with limits beside * needs brackets",
            "write (16 mm ±0.05)",
        ),
        (
            "a = 16 mm ±0.1 / 2",
            "1:5",
            "a size with limits beside / needs brackets",
            "write (16 mm ±0.1)",
        ),
        (
            "a = 16 mm H7 / 16 mm g6",
            "1:5",
            "a size with limits beside / needs brackets",
            "write (16 mm H7)",
        ),
        (
            "a = 16 mm ±0.1 ** 2",
            "1:5",
            "a size with limits beside ** needs brackets",
            "write (16 mm ±0.1)",
        ),
        (
            "a = 16 mm H7.max",
            "1:13",
            "a field cannot follow a literal",
            "bracket it: (16 mm H7).max",
        ),
        ("a = 16 mm.x", "1:10", "a field cannot follow a literal", "bracket it: (16 mm).x"),
        (
            "a = (16 mm).max",
            "1:13",
            "this size has no limits, so no `max`",
            "give it a class or limits: 16 mm H7, 16 mm ±0.05",
        ),
        (
            "a = (16 mm H7).foo",
            "1:16",
            "a length has no field `foo`",
            "a size has min, max, nominal, middle, tolerance, upper, lower, rss, measured",
        ),
        ("a = 16 mm H7\nb = a.Max", "2:7", "a length has no field `Max`", "did you mean max?"),
        (
            "a = 16 mm H7\nb = a.max.min",
            "2:11",
            "this size has no limits, so no `min`",
            "give it a class or limits: 16 mm H7, 16 mm ±0.05",
        ),
        ('a = "x".upper', "1:9", "a text has no field `upper`", ""),
    ],
)
def test_a_literal_with_limits_needs_brackets(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 16."""
    assert only(text) == (place, message, hint)


A = "a = 16 mm ±0.1\nb = 16 mm ±0.1\nc = 20 mm ±0.1\n"


@pytest.mark.parametrize(
    ("condition", "truth"),
    [
        ("a < c", True),
        ("c > a", True),
        ("a > c", False),
        ("a < 16.1 mm", Truth.SOMETIMES),
        ("a <= 16.1 mm", True),
        ("a >= 15.9 mm", True),
        ("a > 15.9 mm", Truth.SOMETIMES),
        ("a < 15.9 mm", False),
        ("a < 16.05 mm", Truth.SOMETIMES),
        ("not a < 16.05 mm", Truth.SOMETIMES),
        ("not not a < 16.05 mm", Truth.SOMETIMES),
        ("not a < 15 mm", True),
        ("a == b", True),
        ("a != b", False),
        ("a == c", False),
        ("a == 16 mm", Truth.SOMETIMES),
        ("a != 16 mm", Truth.SOMETIMES),
        ("a == 17 mm", False),
        ("a != 17 mm", True),
        ("a == 16 mm +0.1/-0.2", False),
        ("a == limits(16 mm, 0.1 mm, -0.1 mm)", True),
        ("a == a", True),
        ("a <= a", True),
        ("a < a", False),
        ("a - a == 0", True),
        ("(a + b) - b == a", True),
        ("a - b == 0", Truth.SOMETIMES),
        ("a < a + 1 um", True),
        ("15 mm < a < 17 mm", True),
        ("15 mm < a < 16.05 mm", Truth.SOMETIMES),
        ("17 mm < a < 16.05 mm", False),
        ("a < 16.05 mm and a < 15 mm", False),
        ("a < 16.05 mm and a > 15 mm", Truth.SOMETIMES),
        ("a < 16.05 mm or a > 15 mm", True),
        ("a < 16.05 mm or a < 15 mm", Truth.SOMETIMES),
        ("(a < 16.05 mm) == (a < 16.05 mm)", Truth.SOMETIMES),
        ("(a < 17 mm) == (a < c)", True),
    ],
)
def test_a_comparison_holds_over_the_whole_range(condition: str, truth: bool | Truth) -> None:
    """Rule 17."""
    assert value(condition, A) is truth


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 16 mm ±0.1\ncheck a < 16.05 mm",
            "2:7",
            "this check holds for some of the sizes only: a is 15.900 to 16.100 mm",
            "",
        ),
        (
            "a = 16 mm ±0.1\ncheck not a < 16.05 mm",
            "2:7",
            "this check holds for some of the sizes only: a is 15.900 to 16.100 mm",
            "",
        ),
        (
            "a = 16 mm ±0.1\nok = a < 16.05 mm\ncheck ok",
            "3:7",
            "this check holds for some of the sizes only: ok is yes for some of the sizes only",
            "",
        ),
        (
            "a = 16 mm ±0.1\nok = a < 16.05 mm\ncheck not ok",
            "3:7",
            "this check holds for some of the sizes only: ok is yes for some of the sizes only",
            "",
        ),
        ("check 3 mm < 2 mm", "1:7", "this check does not hold: it reads no name", ""),
        ("a = 3 mm\ncheck a < 2 mm < a", "2:7", "this check does not hold: a is 3.000 mm", ""),
    ],
)
def test_a_check_that_holds_for_some_sizes_fails_and_says_so(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 17."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize("name", [name for name in tolerance_classes() if name.startswith("M")])
def test_a_class_of_the_letter_m_is_no_thread(name: str) -> None:
    """Rule 9 stops at a length: `30 mm M7` is a hole, `M7` alone a thread."""
    expected = limits_of(30.0, name)
    assert limits(f"30 mm {name}", "mm") == pytest.approx((expected.min, expected.max), abs=1e-9)
    assert findings(f"a = {name}")[0].startswith(f"1:5 {name} is a thread's designation")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a = 16 mm H 7", "1:8 a class is one word (write H7)"),
        ("a = 3/4 in js 9", "1:9 a class is one word (write js9)"),
        (
            "a = 16 mm H7\nb = 16 mm f7\nmate a with b as H7/f7",
            '3:18 what is asked stands in quotes (write as "H7/f7")',
        ),
        ("chek a == 3", "1:6 `=` is wanted before `a` (did you mean check?)"),
        ("my bore = 5 mm", "1:4 `=` is wanted before `bore` (a name is one word: my_bore)"),
        (
            "bore = 16 mm H7\nmeasured boer = 16.05 mm",
            "2:10 caution: `boer` begins a new name; nothing wanted goes by it"
            " (did you mean bore?)",
        ),
        (
            'a = tap_drill("M3", percent=65)',
            "1:29 percent of tap_drill is a percentage; this is a plain number (write 65 %)",
        ),
    ],
)
def test_a_slip_of_the_pen_has_its_hint(text: str, message: str) -> None:
    assert message in findings(text)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("25 mm js5", "24.9955 to 25.0045 mm"),
        ("10 mm js7", "9.9925 to 10.0075 mm"),
        ("25 mm js6", "24.9935 to 25.0065 mm"),
        ("25 mm H7", "25.000 to 25.021 mm"),
    ],
)
def test_half_a_micrometre_is_shown(text: str, shown: str) -> None:
    """No limit is rounded outward: a part at the limit shown is within it."""
    (found,) = items(f"a = {text}")
    assert show(found.value).own == shown
