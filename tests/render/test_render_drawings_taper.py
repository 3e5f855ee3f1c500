"""A taper's picture: its diameters, length and angle, read back from what is drawn."""

from math import atan, degrees, isclose, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.taper_work.taper_pins import taper_pin
from shoplog.trade.taper_work.tapers import (
    Taper,
    compound_setting,
    taper_from_angle,
)

TAPERS = {
    "Morse": Taper.from_text("Morse 2"),
    "pin": Taper.from_text("taper pin 1x50"),
    "steep": Taper.from_text("7:24 ISO 40"),
    "ratio": Taper.from_text("1:50"),
    "1:1000": Taper.from_text("1:1000"),
    "1:1000 with sizes": Taper("a long taper", 0.001, 20.0, 100.0),
    "60 degrees": taper_from_angle(60),
    "179 degrees": taper_from_angle(179.9999),
    "next to nothing": taper_from_angle(1e-9),
    "pointed": Taper("a point", 0.5, 10.0, 20.0),
    "long and thin": Taper("a needle", 1e-6, 0.1, 5000.0),
    "short and wide": Taper("a plate", 0.1, 3000.0, 0.1),
}
SIZED = [name for name, taper in TAPERS.items() if taper.large_diameter and taper.length]


def said(drawn, before):
    """How many times, where the picture says so."""
    return float(drawn.html.partition(before)[2].partition(" ")[0])


def drawn_slope(drawn, large, small):
    return (large.length - small.length) / 2 / drawn.told("length").length


@pytest.mark.parametrize("name", SIZED)
def test_the_side_is_as_steep_as_it_is_or_as_the_picture_says(name):
    taper = TAPERS[name]
    drawn = Drawn(taper)
    large, small = drawn.told("large_diameter"), drawn.told("small_diameter")
    assert large.value == pytest.approx(taper.large_diameter)
    assert small.value == pytest.approx(taper.small_diameter)
    assert drawn.told("length").value == pytest.approx(taper.length)
    times = drawn_slope(drawn, large, small) / (taper.ratio / 2)
    if "times as steep" in drawn.html:
        assert isclose(times, said(drawn, "The taper is drawn "), rel_tol=0.02)
    elif "Diameters are drawn" in drawn.html:
        assert isclose(times, said(drawn, "Diameters are drawn "), rel_tol=0.02)
    elif "Lengths are drawn" in drawn.html:
        assert isclose(times, 1 / said(drawn, "Lengths are drawn "), rel_tol=0.02)
    else:
        assert isclose(times, 1, rel_tol=0.02)


def test_a_taper_of_one_in_a_thousand_says_that_it_is_drawn_steeper():
    drawn = Drawn(TAPERS["1:1000 with sizes"])
    assert said(drawn, "The taper is drawn ") > 20
    assert {"Ø20", "Ø19.9", "100", "1:1000"} <= set(drawn.words)


@pytest.mark.parametrize("name", TAPERS)
def test_the_half_angle_and_the_rate_are_told(name):
    taper = TAPERS[name]
    drawn = Drawn(taper)
    assert drawn.told("half_angle").value == pytest.approx(taper.half_angle)
    assert drawn.all("one_in")[0].value == pytest.approx(taper.one_in)


def test_the_angle_is_drawn_as_it_is_where_the_taper_is_to_scale():
    taper = TAPERS["60 degrees"]
    drawn = Drawn(taper)
    assert "times as" not in drawn.html
    (cone,) = [line for line in drawn.strokes("outline") if len(line) == 4]
    (x, y), (x2, y2) = cone[:2]
    assert isclose(degrees(atan((y2 - y) / (x2 - x))), 30, abs_tol=0.02)
    arc = drawn.told("half_angle").points
    vertex = cone[2]
    assert isclose((arc[1][1] - vertex[1]) / (vertex[0] - arc[1][0]), tan(0.5235988), abs_tol=0.01)


def test_a_ratio_without_sizes_has_letters_and_the_rule():
    words = Drawn(TAPERS["ratio"]).words
    assert {"D", "d", "L", "D − d = L / 50", "1:50"} <= set(words)


def test_the_key_has_the_taper_per_foot_both_angles_and_the_sizes_in_both_systems():
    assert Drawn(TAPERS["Morse"]).key == [
        ("taper, on diameter", "1:20.02", "0.5994 in/ft"),
        ("half-angle, to the axis", "1.4307°", "1°25&#x27;50&quot;"),
        ("included angle", "2.8613°", "2°51&#x27;41&quot;"),
        ("large diameter", "17.780 mm", "0.7000 in"),
        ("small diameter", "14.529 mm", "0.5720 in"),
        ("length", "65.087 mm", "2.5625 in"),
    ]


@pytest.mark.parametrize(
    ("name", "others"),
    [
        ("Morse", ["Ø0.572 in", "Ø0.7 in", "2.5625 in"]),
        ("long and thin", ["Ø0.0037 in", "Ø0.0039 in", "196.8504 in"]),
        ("steep", ["Ø1.75 in"]),
        ("ratio", []),
    ],
)
def test_every_size_is_told_in_both_systems(name, others):
    assert sorted(Drawn(TAPERS[name]).others) == sorted(others)


def test_a_taper_pin_is_drawn_with_its_own_length():
    pin = taper_pin("6 mm", 30)
    drawn = Drawn(pin)
    told = [drawn.told(name).value for name in ("large_diameter", "small_diameter", "length")]
    assert told == pytest.approx([6.6, 6, 30])


@pytest.mark.parametrize("name", TAPERS)
def test_a_top_slide_lies_along_the_side_of_the_cone(name):
    setting = compound_setting(TAPERS[name])
    drawn = Drawn(setting)
    assert drawn.told("angle").value == pytest.approx(setting.angle)
    cone, slide = sorted(
        (line for line in drawn.strokes("outline") if len(line) == 4), key=lambda line: line[0][1]
    )
    lower = (cone[2][1] - cone[3][1]) / (cone[2][0] - cone[3][0])
    side = (slide[1][1] - slide[0][1]) / (slide[1][0] - slide[0][0])
    assert isclose(lower, side, abs_tol=0.01)
    assert drawn.key[1][0] == "slide, from the cross slide"


@pytest.mark.parametrize("name", TAPERS)
def test_no_words_meet_and_nothing_leaves_the_frame(name):
    for value in (TAPERS[name], compound_setting(TAPERS[name])):
        drawn = Drawn(value)
        assert faults(drawn) == []
        assert len(drawn.html) < MOST_BYTES


@given(st.floats(1e-9, 1e9), st.floats(1e-3, 1e6), st.floats(0, 1))
def test_any_taper_is_drawn_without_a_fault(ratio, large, part):
    length = large / ratio * part
    taper = Taper("any", ratio, large, length) if length else Taper("any", ratio)
    assert faults(Drawn(taper)) == []
    assert faults(Drawn(compound_setting(taper))) == []
