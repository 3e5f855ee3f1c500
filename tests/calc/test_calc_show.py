"""How values are shown: the design's digits, in both systems, limits as a drawing states them."""

from __future__ import annotations

import pytest
from calc_page import value

from shoplog.calc.show import show
from shoplog.trade.declare import Size
from shoplog.units import degrees_minutes_seconds, unit, write_number, write_quantity
from shoplog.values import Value


@pytest.mark.parametrize(
    ("expression", "both"),
    [
        ("16 mm", "16.000 mm (0.6299 in)"),
        ("1/4 in", "0.2500 in (6.350 mm)"),
        ("25.4 mm", "25.400 mm (1.0000 in)"),
        ("5 um", "5 µm (0.2 thou)"),
        ("0.9 thou", "0.9 thou (23 µm)"),
        ("954.93 rpm", "955 rpm"),
        ("30 m/min", "30.0 m/min (98 ft/min)"),
        ("6 in/min", "6.0 in/min (152 mm/min)"),
        ("0.06 mm/rev", "0.060 mm/rev (0.0024 in/rev)"),
        ("8.425 deg", "8.4250° (8°25'30\")"),
        ("5.7105931 deg", "5.7106° (5°42'38\")"),
        ("-0.5°", "-0.5000° (-0°30'00\")"),
        ("150 degC", "150 degC (302 degF)"),
        ("5 %", "5.0 %"),
        ("0.5", "0.5"),
        ("4 tooth", "4 tooth"),
        ("20 tpi", "20.00 tpi"),
        ("52 HRC", "52 HRC"),
        ('"a text"', "a text"),
        ("1 < 2", "yes"),
        ("2 < 1", "no"),
        ("[1 mm, 2 in]", "[1.000 mm, 2.0000 in]"),
        ("0 mm - 0 mm", "0.000 mm (0.0000 in)"),
        ("-0.0000000000000001 mm * 0", "0.000 mm (0.0000 in)"),
        ("1e-7 mm", "0.0000001 mm (0.0000000039 in)"),
        ("1e12 mm", "1e+12 mm (3.93701e+10 in)"),
        ("1e-200 mm", "1e-200 mm (3.94e-202 in)"),
        ("1e200", "1e+200"),
    ],
)
def test_the_digits_of_a_value(expression: str, both: str) -> None:
    assert show(value(expression)).both == both


@pytest.mark.parametrize(
    ("expression", "own", "nominal", "metric", "inch"),
    [
        (
            "16 mm H7",
            "16.000 to 16.018 mm",
            "16 mm H7",
            "16.000 to 16.018 mm",
            "0.6299 to 0.6306 in",
        ),
        (
            "1-1/2 in H7",
            "1.5000 to 1.5010 in",
            "1-1/2 in H7",
            "38.100 to 38.125 mm",
            "1.5000 to 1.5010 in",
        ),
        (
            "16 mm ±0.05",
            "15.950 to 16.050 mm",
            "16 mm ±0.05",
            "15.950 to 16.050 mm",
            "0.6280 to 0.6319 in",
        ),
        (
            "3/4 in ±0.002",
            "0.7480 to 0.7520 in",
            "3/4 in ±0.002",
            "18.999 to 19.101 mm",
            "0.7480 to 0.7520 in",
        ),
        (
            "16 mm +0.02/0",
            "16.000 to 16.020 mm",
            "16 mm +0.02/0",
            "16.000 to 16.020 mm",
            "0.6299 to 0.6307 in",
        ),
        (
            "16 mm 0/-0.0105",
            "15.9895 to 16.000 mm",
            "16 mm 0/-0.0105",
            "15.9895 to 16.000 mm",
            "0.6295 to 0.6299 in",
        ),
        (
            "45° ±0.5",
            "44.5000° (44°30'00\") to 45.5000° (45°30'00\")",
            "45 deg ±0.5",
            "44.5000° (44°30'00\") to 45.5000° (45°30'00\")",
            "44.5000° (44°30'00\") to 45.5000° (45°30'00\")",
        ),
        ("20 degC ±2", "18 to 22 degC", "20 degC ±2", "18 to 22 degC", "64 to 72 degF"),
    ],
)
def test_a_size_with_limits(
    expression: str, own: str, nominal: str, metric: str, inch: str
) -> None:
    shown = show(value(expression))
    assert (shown.own, shown.nominal) == (own, nominal)
    assert (shown.metric, shown.inch) == (metric, inch)


def test_a_statement_of_limits_is_never_rounded() -> None:
    assert show(value("16.00005 mm ±0.00025")).nominal == "16.00005 mm ±0.00025"
    assert show(value("1/64 in ±0.00005")).nominal == "1/64 in ±0.00005"
    assert show(value("0.015625 in ±0.00005")).nominal == "0.015625 in ±0.00005"


@pytest.mark.parametrize(
    ("text", "stated", "own"),
    [
        ("5/8 in", "5/8 in", "0.6250 in"),
        ("1-1/4 in", "1-1/4 in", "1.2500 in"),
        ("1 1/4 in", "1-1/4 in", "1.2500 in"),
        ("(5/8 in)", "5/8 in", "0.6250 in"),
        ("5/8 in to in", "5/8 in", "0.6250 in"),
        ("5/8 in H8", "5/8 in H8", "0.6250 to 0.6261 in"),
        ("41/64 in +0.005/-0.0", "41/64 in +0.005/0", "0.6406 to 0.6456 in"),
        ("3/4 hp", "3/4 hp", "0.75 hp"),
    ],
)
def test_a_fraction_stays_the_fraction_that_its_author_wrote(
    text: str, stated: str, own: str
) -> None:
    shown = show(value(text))
    assert (shown.nominal, shown.own) == (stated, own)


@pytest.mark.parametrize(
    "text",
    ["0.625 in", "5/8 in to mm", "5/8 in * 1", "-(5/8 in)", "5/8 in + 1/8 in", "(5/8 in H8).min"],
)
def test_what_is_no_fraction_of_its_author_is_stated_as_none(text: str) -> None:
    assert show(value(text)).nominal == ""


def test_fractions_in_a_list_stay_fractions() -> None:
    assert show(value("[1/4 in, 0.5 in, 3/8 in]")).own == "[1/4 in, 0.5000 in, 3/8 in]"


def test_a_fraction_is_equal_to_its_decimal_and_names_what_it_contributes() -> None:
    assert value("5/8 in") == value("0.625 in")
    total = value("(5/8 in ±0.002) + (3 mm ±0.1)")
    assert isinstance(total, Value)
    assert [source.name for source, _ in total.parts] == ["5/8 in ±0.002", "3.000 mm ±0.1"]


def test_a_reading_is_shown_with_its_uncertainty() -> None:
    def read(text: str) -> str:
        return show(value("a.measured", f"measured a = {text}")).own

    assert read("16.009 mm ±0.003") == "16.009 ± 0.003 mm"
    assert read("16.009 mm ±0.0015") == "16.009 ± 0.0015 mm"
    assert read("16 mm +0.01/-0.02") == "15.995 ± 0.015 mm"
    assert read("45° ±0.1") == "45.0000 ± 0.1°"


def test_a_value_in_full() -> None:
    assert show(value("1 mm / 3")).full == "0.3333333333333333 mm"
    assert show(value("16 mm ±0.1")).full == "15.9 to 16.1 mm"


def test_a_size_of_the_trade_is_shown_as_one_of_a_page() -> None:
    assert show(Size(16, 0, 0.018, "H7")).nominal == "16 mm H7"


def test_a_long_list_is_cut() -> None:
    text = "[" + ", ".join(["1 mm"] * 20) + "]"
    assert show(value(text)).own.count("1.000 mm") == 12
    assert show(value(text)).own.endswith(", …]")


@pytest.mark.parametrize(
    ("number", "of", "text"),
    [
        (-0.0, "mm", "0.000"),
        (-0.0004, "mm", "-0.0004"),
        (0.0005, "mm", "0.0005"),
        (-1e-20, "mm", "-1e-20"),
        (1234567.8, "rpm", "1234568"),
        (0.3, "rpm", "0.3"),
        (1 / 3, "", "0.333333"),
        (1e-9, "", "1e-09"),
    ],
)
def test_numbers_are_written_by_their_unit(number: float, of: str, text: str) -> None:
    assert write_number(number, of) == text


def test_a_quantity_is_written_with_its_unit() -> None:
    assert write_quantity(16.0, unit("mm")) == "16.000 mm"
    assert write_quantity(16.0, unit("")) == "16"


@pytest.mark.parametrize(
    ("degrees", "text"),
    [
        (0.0, "0°00'00\""),
        (-1e-9, "0°00'00\""),
        (59.99999, "60°00'00\""),
        (-8.425, "-8°25'30\""),
        (0.00013888888, "0°00'00\""),
        (0.0001389, "0°00'01\""),
    ],
)
def test_angles_are_written_to_the_second(degrees: float, text: str) -> None:
    assert degrees_minutes_seconds(degrees) == text
