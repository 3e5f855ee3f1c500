"""Pictures of holes: each hole at its coordinates to scale, numbered, with a table beside."""

import re
from math import dist, isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import SVG, Drawn, faults

from shoplog.trade.hole_work.hole_patterns import (
    hole_arc,
    hole_grid,
    hole_row,
    holes_at,
    turned_holes,
)
from shoplog.trade.hole_work.hole_readout import hole_readout
from shoplog.trade.hole_work.holes import bolt_circle

CIRCLES = {
    "five": bolt_circle(40, 5, 10),
    "off centre": bolt_circle(40, 4, 0, 15, -8),
    "far": bolt_circle(20, 3, 0, 500, 400),
    "one": bolt_circle(20, 1),
    "many": bolt_circle(100, 200),
    "lost beside its distance": bolt_circle(1e-9, 4, 0, 1e9, 3),
}
LAYOUTS = {
    "row": hole_row(8, 25, 0, 10, 12),
    "slanting row": hole_row(4, 12, 30),
    "grid": hole_grid(20, 10, 5, 8),
    "arc": hole_arc(80, 7, 0, 120),
    "listed": holes_at([0, 40, 63], [0, 12.5, 50]),
    "one": holes_at([3], [4]),
    "at the datum": holes_at([0], [0]),
    "narrow": holes_at([3, 3.001, 8], [4, 4, 900]),
    "far": holes_at([500, 510], [0, 3]),
    "turned": turned_holes(bolt_circle(40, 6), 12),
    "huge": holes_at([0, 1e6], [0, -1e6]),
}
ALL = {**CIRCLES, **{f"layout, {name}": layout for name, layout in LAYOUTS.items()}}


@pytest.mark.parametrize("pattern", [*CIRCLES.values()][:-1], ids=[*CIRCLES][:-1])
def test_each_hole_of_a_circle_is_at_its_coordinates_to_scale(pattern):
    drawn = Drawn(pattern)
    circle = drawn.told("diameter")
    assert circle.value == pytest.approx(pattern.diameter)
    (centre,) = circle.points
    scale = float(circle.element.get("r")) / (pattern.diameter / 2)
    holes = drawn.all("hole")
    assert [hole.value for hole in holes] == [hole.number for hole in pattern.points]
    for hole, shown in zip(pattern.points, holes, strict=True):
        ((x, y),) = shown.points
        assert isclose(x, centre[0] + (hole.x - pattern.centre_x) * scale, abs_tol=0.02)
        assert isclose(y, centre[1] - (hole.y - pattern.centre_y) * scale, abs_tol=0.02)


@pytest.mark.parametrize("layout", LAYOUTS.values(), ids=LAYOUTS)
def test_the_holes_of_a_layout_are_as_far_apart_as_their_coordinates_say(layout):
    drawn = Drawn(layout)
    places = [shown.points[0] for shown in drawn.all("hole")]
    assert len(places) == layout.count
    if layout.count == 1:
        return
    first, last = layout.points[0], layout.points[-1]
    scale = dist(places[0], places[-1]) / dist((first.x, first.y), (last.x, last.y))
    for hole, (x, y) in zip(layout.points, places, strict=True):
        assert isclose(x - places[0][0], (hole.x - first.x) * scale, abs_tol=0.03)
        assert isclose(places[0][1] - y, (hole.y - first.y) * scale, abs_tol=0.03)


def test_what_a_layout_spreads_over_is_dimensioned_from_hole_to_hole():
    drawn = Drawn(LAYOUTS["listed"])
    wide, tall = drawn.told("across_x"), drawn.told("across_y")
    assert (wide.value, tall.value) == (63, 50)
    assert isclose(wide.length / tall.length, 63 / 50, rel_tol=1e-3)
    places = [shown.points[0] for shown in drawn.all("hole")]
    assert [x for x, _ in wide.points] == [places[0][0], places[2][0]]
    assert sorted(y for _, y in tall.points) == [places[2][1], places[0][1]]


def test_a_single_hole_is_dimensioned_from_the_datum():
    drawn = Drawn(LAYOUTS["one"])
    across, upright = drawn.told("x"), drawn.told("y")
    assert (across.value, upright.value) == (3, 4)
    assert isclose(across.length / upright.length, 3 / 4, rel_tol=1e-3)


def test_the_datum_is_where_x_and_y_are_nothing():
    pattern = CIRCLES["off centre"]
    drawn = Drawn(pattern)
    circle = drawn.told("diameter")
    scale = float(circle.element.get("r")) / (pattern.diameter / 2)
    ((x, y),) = drawn.told("datum").points
    assert isclose(x, circle.points[0][0] - 15 * scale, abs_tol=0.02)
    assert isclose(y, circle.points[0][1] - 8 * scale, abs_tol=0.02)
    assert {"x", "y"} <= set(drawn.words)


@pytest.mark.parametrize("pattern", [CIRCLES["far"], LAYOUTS["far"]])
def test_a_datum_far_away_is_told_of(pattern):
    drawn = Drawn(pattern)
    assert not drawn.tells("datum")
    assert "The datum, x 0 and y 0, lies outside the picture." in drawn.html


@pytest.mark.parametrize("pattern", ALL.values(), ids=ALL)
def test_holes_are_numbered_and_no_words_meet(pattern):
    drawn = Drawn(pattern)
    numbers = [text for text in drawn.words if text.isdigit()]
    assert "1" in numbers
    assert faults(drawn) == []


@pytest.mark.parametrize("pattern", [CIRCLES["many"], LAYOUTS["grid"]])
def test_where_there_is_no_room_every_so_many_holes_are_numbered_and_it_says_so(pattern):
    drawn = Drawn(pattern)
    numbers = [int(text) for text in drawn.words if text.isdigit()]
    step = 10 if pattern is CIRCLES["many"] else 5
    word = {10: "tenth", 5: "fifth"}[step]
    assert f"Every {word} hole is numbered; they follow in the order of the table." in drawn.html
    left_out = set(range(step, 201, step)) - set(numbers)
    assert len(left_out) <= 3
    assert len(drawn.all("hole")) == 200


def test_a_number_stands_nearest_to_its_own_hole():
    drawn = Drawn(CIRCLES["five"])
    holes = {str(int(told.value)): told.points[0] for told in drawn.all("hole")}
    for text, box in drawn.boxes():
        if text in holes:
            middle = (box.left + box.right) / 2, (box.top + box.bottom) / 2
            assert min(holes, key=lambda name: dist(holes[name], middle)) == text


def test_the_table_has_every_coordinate_in_both_systems():
    html = re.sub(' class="shoplog-(mm|inch)"', "", Drawn(CIRCLES["five"]).html)
    row = "".join(f"<td>{text}</td>" for text in ("1", "19.696", "3.473", "0.7754", "0.1367"))
    assert row in html
    assert html.count("<tr>") == 6
    assert 'class="shoplog-scroll" tabindex="0"' in html


def test_a_readout_is_drawn_from_its_zero_with_the_step_from_the_hole_before():
    html = Drawn(hole_readout(hole_row(3, 25), zero_x=10)).html
    for units, mark in (("mm", "shoplog-mm"), ("in", "shoplog-inch")):
        assert f'<th scope="col" class="{mark}">From the one before, {units}</th>' in html
    html = re.sub(' class="shoplog-(mm|inch)"', "", html)
    first = "".join(f"<td>{text}</td>" for text in ("1", "-10.000", "0.000", "-0.3937", "0.0000"))
    assert f"{first}<td></td><td></td>" in html
    second = ("40.000", "0.000", "1.5748", "0.0000", "25.000", "0.9843")
    assert "".join(f"<td>{text}</td>" for text in second) in html
    drawn = Drawn(hole_readout(hole_row(3, 25), zero_x=10))
    ((x, _),) = drawn.told("datum").points
    places = [told.points[0][0] for told in drawn.all("hole")]
    assert isclose((x - places[0]) / (places[1] - places[0]), 10 / 25, abs_tol=0.002)


@pytest.mark.parametrize(
    ("pattern", "others"),
    [
        (CIRCLES["five"], ["Ø1.5748 in"]),
        (LAYOUTS["listed"], ["2.4803 in", "1.9685 in"]),
        (LAYOUTS["one"], ["0.1181 in", "0.1575 in"]),
        (LAYOUTS["at the datum"], []),
    ],
)
def test_every_distance_is_told_in_both_systems(pattern, others):
    assert Drawn(pattern).others == others


@given(
    st.lists(
        st.tuples(st.floats(-1e9, 1e9), st.floats(-1e9, 1e9)), min_size=1, max_size=8, unique=True
    )
)
def test_holes_anywhere_are_drawn_without_a_fault(places):
    spread = {(round(x, 3), round(y, 3)) for x, y in places}
    layout = holes_at(*([place[axis] for place in sorted(spread)] for axis in (0, 1)))
    drawn = Drawn(layout)
    assert faults(drawn) == []
    assert sum(part.tag == f"{SVG}circle" for part in drawn.svg.iter()) >= layout.count
