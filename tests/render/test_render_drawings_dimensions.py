"""Dimensions in both systems: what they say, and where each system's number finds its place."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import NUMBER, SVG, points

from shoplog.render.pictures.canvas import Canvas
from shoplog.render.pictures.dimensions import across, leader, upright
from shoplog.render.pictures.labels import text_width
from shoplog.render.pictures.sizes import limit_sizes, limits, millimetres, own_first, size
from shoplog.units import convert, unit

METRIC, INCH = "shoplog-mm", "shoplog-inch"


def drawn(canvas):
    return ElementTree.fromstring(re.search(r"<svg.*</svg>", str(canvas.html("One", "It.")))[0])


def words(svg, system):
    """Its words of a system: text, place and whether they are turned."""
    (group,) = (
        part
        for part in svg.iter(f"{SVG}g")
        if part.get("class") == system and next(part.iter(f"{SVG}text"), None) is not None
    )
    (text,) = group.iter(f"{SVG}text")
    return text.text, (float(text.get("x")), float(text.get("y"))), bool(text.get("transform"))


def lines(svg, system):
    """The lines that only the readers of a system see."""
    for part in svg.iter(f"{SVG}g"):
        if part.get("class") == system:
            for path in part.iter(f"{SVG}path"):
                yield from (points(piece) for piece in re.findall(r"M[^M]*", path.get("d")))


@pytest.mark.parametrize(
    ("length", "own", "other"),
    [
        (16.0, "16", "0.6299 in"),
        (25.4, "25.4", "1 in"),
        (0.0, "0", "0 in"),
        (-0.5, "−0.5", "−0.0197 in"),
        (0.0127, "0.013", "0.0005 in"),
        (0.01, "0.01", "0.0004 in"),  # a fiftieth off: a workshop says four tenths
        (0.002, "0.002", "0.000079 in"),  # a quarter off, with four places
        (0.004, "0.004", "0.00016 in"),
        (1e9, "1e+09", "39370078.7402 in"),
    ],
)
def test_a_length_has_four_places_of_an_inch_or_as_many_as_tell_it(length, own, other):
    both = size(length)
    assert (both.own, both.other, both.in_inches) == (own, other, False)


@given(st.floats(1e-12, 1e9))
def test_no_length_is_told_far_off_in_inches(length):
    inch = float(size(length).other.removesuffix(" in").replace("−", "-"))
    assert inch == pytest.approx(convert(length, unit("mm"), unit("in")), rel=0.051)


def test_what_is_drawn_in_inches_has_them_first():
    both = size(6.35, "Ø{} drill", inches=True)
    assert (both.own, both.other, both.in_inches) == ("Ø0.25 in drill", "Ø6.35 drill", True)
    assert millimetres(6.35, inches=True) == ("0.2500 in", "6.350 mm")
    assert limits(6.35, 6.4, inches=True) == ("0.2500 to 0.2520 in", "6.350 to 6.400 mm")
    assert own_first("1 mm", "0.0394 in", True) == ("0.0394 in", "1 mm")


def test_a_size_with_a_sign_has_it_in_both_systems():
    assert (size(1.25, sign=True).own, size(1.25, sign=True).other) == ("+1.25", "+0.0492 in")


def test_limits_are_told_apart_in_both_systems():
    lower, upper = limit_sizes(10.0, 10.0005, "d {}")
    assert (lower.own, upper.own) == ("d 10", "d 10.0005")
    assert (lower.other, upper.other) == ("d 0.3937 in", "d 0.39372 in")


def test_a_number_that_fits_stands_in_its_dimension_and_one_that_does_not_beyond_it():
    canvas = Canvas("drawing")
    across(canvas, (50, 60), (90, 60), 40, size(16))
    svg = drawn(canvas)
    own, other = words(svg, METRIC), words(svg, INCH)
    assert own == ("16", (70, 37.5), False)
    assert other[0] == "0.6299 in"
    assert other[1][0] > 90
    assert [*lines(svg, METRIC)] == []
    ((start, end),) = lines(svg, INCH)
    assert (start, end[1]) == ((90, 40), 40)
    assert end[0] >= other[1][0] + text_width("0.6299 in")


@pytest.mark.parametrize(("top", "above"), [(150, True), (20, False)])
def test_a_turned_number_that_does_not_fit_stands_on_the_line_carried_on(top, above):
    canvas = Canvas("drawing")
    upright(canvas, (50, top), (50, top + 30), 100, size(16), beside="turned")
    svg = drawn(canvas)
    assert words(svg, METRIC) == ("16", (97.5, top + 15), True)
    text, (x, y), turned = words(svg, INCH)
    half = text_width(text) / 2
    assert (text, x, turned) == ("0.6299 in", 97.5, True)
    assert (y + half < top) if above else (y - half > top + 30)
    ((start, end),) = lines(svg, INCH)
    assert start == (100, top if above else top + 30)
    assert end[0] == 100
    assert abs(end[1] - start[1]) > 2 * half


def test_a_turned_number_with_no_room_beyond_its_line_stands_beside_its_middle():
    canvas = Canvas("drawing")
    for y in (70, 150):
        canvas.write("in its way", 100, y, "middle")
    upright(canvas, (50, 100), (50, 120), 100, size(16, "Ø{} through"), beside="turned")
    assert words(drawn(canvas), INCH)[1] == (97.5, 110)


def test_a_leader_is_as_long_as_its_words_in_each_system():
    canvas = Canvas("drawing")
    leader(canvas, (40, 40), (60, 80), size(16, "Ø{}"))
    svg = drawn(canvas)
    for system, text in ((METRIC, "Ø16"), (INCH, "Ø0.6299 in")):
        ((start, end),) = lines(svg, system)
        assert start == (60, 80)
        assert end[0] - start[0] == pytest.approx(text_width(text) + 2, abs=0.01)
        assert words(svg, system)[0] == text


def test_of_two_systems_the_other_is_hidden_until_the_page_asks_for_it():
    canvas = Canvas("drawing")
    across(canvas, (50, 60), (250, 60), 40, size(25.4, inches=True))
    shown = {
        part.get("class"): part.get("display")
        for part in drawn(canvas).iter(f"{SVG}g")
        if part.get("class") in (METRIC, INCH)
    }
    assert shown == {INCH: None, METRIC: "none"}
    assert NUMBER.findall(words(drawn(canvas), INCH)[0]) == ["1"]
