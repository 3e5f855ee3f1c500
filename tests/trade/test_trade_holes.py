"""Drill points and holes on a circle: good input, bad input, identities, and what mates."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import dist, isfinite, nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.trade.declare import TradeError, readable_fields
from shoplog.trade.hole_work import holes as h
from shoplog.trade.offers import OFFERS

# A slow machine is no fault of a formula.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

patterns = st.builds(
    h.bolt_circle,
    st.floats(0.1, 1000),
    st.integers(1, 200),
    st.floats(-360, 360),
    st.floats(-500, 500),
    st.floats(-500, 500),
)


def refused_argument(call: Callable[[], float]) -> str:
    """The argument at fault where a call is refused; `""` where it gives a finite number."""
    try:
        number = call()
    except TradeError as refused:
        return refused.argument
    return "" if isfinite(number) else "none: it gave a number that is not finite"


def test_point_of_a_118_degree_drill_is_three_tenths_of_its_diameter() -> None:
    assert h.drill_point_depth(10) == pytest.approx(3.00430, abs=5e-6)


def test_a_flat_drill_has_no_point() -> None:
    assert h.drill_point_depth(10, 180) == pytest.approx(0, abs=1e-12)


@given(st.floats(0, 500), st.floats(0.1, 50), st.floats(60, 180))
def test_depth_to_the_tip_is_the_full_depth_and_the_point(
    full: float, diameter: float, angle: float
) -> None:
    point = h.drill_point_depth(diameter, angle)
    assert h.drill_depth(full, diameter, angle) == pytest.approx(full + point)


@given(st.floats(0.1, 50), st.floats(60, 170))
def test_a_blunter_drill_has_a_shorter_point(diameter: float, angle: float) -> None:
    assert h.drill_point_depth(diameter, angle + 1) < h.drill_point_depth(diameter, angle)


def test_holes_run_counter_clockwise_from_the_start_angle() -> None:
    pattern = h.bolt_circle(40, 4, start_angle=90)
    assert [(hole.number, hole.angle) for hole in pattern.points] == [
        (1, 90),
        (2, 180),
        (3, 270),
        (4, 0),
    ]
    assert [round(x, 9) for x in pattern.x] == [0, -20, 0, 20]
    assert [round(y, 9) for y in pattern.y] == [20, 0, -20, 0]


def test_coordinates_are_from_the_datum() -> None:
    pattern = h.bolt_circle(50, 2, centre_x=100, centre_y=-30)
    assert (pattern.x, pattern.y) == (pytest.approx((125, 75)), pytest.approx((-30, -30)))


@pytest.mark.parametrize("count", range(1, 201))
def test_no_rounding_residue_stands_for_zero(count: int) -> None:
    pattern = h.bolt_circle(37.3, count, centre_x=37.3 / 2)
    assert all(value == 0 or abs(value) > 1e-6 for value in (*pattern.x, *pattern.y))


@given(patterns)
def test_chord_is_the_distance_between_neighbours(pattern: h.HolePattern) -> None:
    points = [(hole.x, hole.y) for hole in pattern.points]
    for here, there in zip(points, [*points[1:], points[0]], strict=True):
        assert dist(here, there) == pytest.approx(pattern.chord, abs=1e-9 * 1000)


@given(patterns)
def test_every_hole_lies_on_the_circle(pattern: h.HolePattern) -> None:
    centre = (pattern.centre_x, pattern.centre_y)
    for hole in pattern.points:
        assert dist(centre, (hole.x, hole.y)) == pytest.approx(pattern.diameter / 2, abs=1e-9)


@given(patterns)
def test_coordinates_sum_to_the_centre(pattern: h.HolePattern) -> None:
    if pattern.count > 1:
        assert sum(pattern.x) / pattern.count == pytest.approx(pattern.centre_x, abs=1e-6)
        assert sum(pattern.y) / pattern.count == pytest.approx(pattern.centre_y, abs=1e-6)


@given(patterns)
def test_angles_are_within_a_turn_and_numbers_in_order(pattern: h.HolePattern) -> None:
    assert all(0 <= hole.angle < 360 for hole in pattern.points)
    assert [hole.number for hole in pattern.points] == list(range(1, pattern.count + 1))


def test_pattern_and_hole_describe_themselves() -> None:
    pattern = h.bolt_circle(40, 6, start_angle=30)
    assert pattern.describe() == (
        "6 holes on a circle of 40.000 mm, hole 1 at 30°, 60.0000° apart,"
        " 20.000 mm from centre to centre."
    )
    assert pattern.points[0].describe() == "Hole 1: x 17.321 mm, y 10.000 mm, at 30.0000°."


def test_a_single_hole_has_no_neighbour() -> None:
    pattern = h.bolt_circle(40, 1)
    assert pattern.chord == 0
    assert pattern.describe() == "1 hole on a circle of 40.000 mm, hole 1 at 0°."


def test_a_page_reads_points_coordinates_and_chord() -> None:
    assert {"count", "diameter", "points", "x", "y", "chord", "spacing"} <= set(
        readable_fields(h.HolePattern)
    )


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: h.drill_point_depth(0),
            "diameter is 0 mm, it must be over 0 mm",
            "diameter",
        ),
        (
            lambda: h.drill_point_depth(10, 0),
            "point angle is 0 deg, it must be over 0 deg",
            "point_angle",
        ),
        (
            lambda: h.drill_point_depth(10, 181),
            "point angle is 181 deg, it must be at most 180 deg",
            "point_angle",
        ),
        (
            lambda: h.drill_depth(-1, 10),
            "full depth is -1 mm, it must be at least 0 mm and at most 1e+09 mm",
            "full_depth",
        ),
        (
            lambda: h.bolt_circle(0, 6),
            "diameter is 0 mm, it must be over 0 mm",
            "diameter",
        ),
        (
            lambda: h.bolt_circle(40, 0),
            "holes is 0, it must be at least 1 and at most 200",
            "holes",
        ),
        (
            lambda: h.bolt_circle(40, 201),
            "holes is 201, it must be at least 1 and at most 200",
            "holes",
        ),
        (
            lambda: h.bolt_circle(40, 2.5),  # type: ignore[arg-type]
            "holes is 2.5, it must be a whole number",
            "holes",
        ),
        (
            lambda: h.bolt_circle(40, 6, start_angle=400),
            "start angle is 400 deg, it must be at least -360 deg and at most 360 deg",
            "start_angle",
        ),
        (
            lambda: h.bolt_circle(40, 6, centre_x=1e100),
            "centre x is 1e+100 mm, it must be at least -1e+09 mm and at most 1e+09 mm",
            "centre_x",
        ),
        (
            lambda: h.bolt_circle(40, 6, centre_y=nan),
            "centre y is nan mm, it must be at least -1e+09 mm and at most 1e+09 mm",
            "centre_y",
        ),
    ],
)
def test_wrong_input_is_refused_with_value_and_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as caught:
        call()
    assert str(caught.value) == message
    assert caught.value.argument == argument


@pytest.mark.parametrize("odd", [0.0, -1.0, 1e-300, 5e-324, 1e100, -1e100, nan])
def test_no_float_gets_past_as_an_error_of_another_kind(odd: float) -> None:
    calls: dict[str, tuple[Callable[..., float], list[float]]] = {
        "drill_point_depth": (h.drill_point_depth, [10.0, 118.0]),
        "drill_depth": (h.drill_depth, [20.0, 10.0, 118.0]),
        "bolt_circle": (lambda d, *rest: sum(h.bolt_circle(d, 6, *rest).x), [40.0, 30.0, 5.0, 5.0]),
    }
    for name, (formula, good) in calls.items():
        names = [parameter.name for parameter in OFFERS[name].parameters]
        for place in range(len(good)):
            call = partial(formula, *good[:place], odd, *good[place + 1 :])
            assert refused_argument(call) in ("", *names)


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        (h.bolt_circle(40, 6), h.bolt_circle(40, 6), ""),
        (h.bolt_circle(40, 6), h.bolt_circle(40, 6, start_angle=60), ""),
        (h.bolt_circle(40, 6, start_angle=-30), h.bolt_circle(40, 6, start_angle=30), ""),
        (h.bolt_circle(40, 6), h.bolt_circle(40, 6, centre_x=100), ""),
        (h.bolt_circle(25.4, 3, start_angle=0.1 + 0.2), h.bolt_circle(25.4, 3, 0.3), ""),
        (
            h.bolt_circle(40, 6),
            h.bolt_circle(40, 5),
            "the numbers of holes differ: 6 and 5",
        ),
        (
            h.bolt_circle(40, 6),
            h.bolt_circle(42, 6),
            "the circles differ: 40.000 mm and 42.000 mm",
        ),
        (
            h.bolt_circle(40, 6),
            h.bolt_circle(40, 6, start_angle=30),
            "the patterns are turned against each other by 30.0000°",
        ),
        (
            h.bolt_circle(40, 6, start_angle=59),
            h.bolt_circle(40, 6),
            "the patterns are turned against each other by 1.0000°",
        ),
    ],
)
def test_patterns_mate_where_count_circle_and_angle_agree(
    one: h.HolePattern, other: h.HolePattern, why: str
) -> None:
    assert h.patterns_mate(one, other) == why
    assert (
        h.patterns_mate(other, one)
        .replace("5 and 6", "6 and 5")
        .replace("42.000 mm and 40.000 mm", "40.000 mm and 42.000 mm")
        == why
    )
