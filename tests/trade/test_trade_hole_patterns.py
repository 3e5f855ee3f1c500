"""Rows, grids, arcs, turned and mirrored holes, readouts and walls: good input, bad, identities."""

from __future__ import annotations

from collections.abc import Callable
from math import dist, nan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoplog.trade.declare import TradeError
from shoplog.trade.hole_work import hole_patterns as p
from shoplog.trade.hole_work import hole_readout as r
from shoplog.trade.hole_work import hole_walls as w
from shoplog.trade.hole_work.holes import HolePattern, bolt_circle

lengths = st.floats(0.5, 300)
places = st.floats(-500, 500)
angles = st.floats(-360, 360)
layouts = st.one_of(
    st.builds(p.hole_row, st.integers(1, 40), lengths, angles, places, places),
    st.builds(
        p.hole_grid,
        st.integers(1, 12),
        st.integers(1, 12),
        lengths,
        lengths,
        angles,
        places,
        places,
    ),
    st.builds(bolt_circle, st.floats(20, 500), st.integers(1, 40), angles, places, places),
)
Layout = p.HoleLayout | HolePattern


def spots(layout: Layout) -> list[tuple[float, float]]:
    return [(hole.x, hole.y) for hole in layout.points]


def same(one: Layout, other: Layout) -> None:
    assert [hole.number for hole in one.points] == [hole.number for hole in other.points]
    for here, there in zip(spots(one), spots(other), strict=True):
        assert here == pytest.approx(there, abs=1e-6)


def test_a_row_runs_at_its_angle_from_the_first_hole() -> None:
    row = p.hole_row(3, 20, angle=90, first_x=5, first_y=-10)
    assert spots(row) == [(5, -10), (5, 10), (5, 30)]
    assert row.steps == (20, 20)
    assert row.describe() == (
        "3 holes (row) over 0.000 mm along x and 40.000 mm along y, hole 1 at x 5.000 mm,"
        " y -10.000 mm."
    )


def test_a_grid_goes_to_and_fro() -> None:
    grid = p.hole_grid(3, 2, 40, 30)
    assert spots(grid) == [(0, 0), (40, 0), (80, 0), (80, 30), (40, 30), (0, 30)]
    assert (grid.count, grid.across_x, grid.across_y) == (6, 80, 30)


def test_a_turned_grid_keeps_its_first_hole() -> None:
    grid = p.hole_grid(2, 2, 40, 30, angle=90, first_x=10, first_y=20)
    assert spots(grid) == [(10, 20), (10, 60), (-20, 60), (-20, 20)]


def test_an_arc_has_a_hole_at_each_end_and_runs_clockwise_where_asked() -> None:
    arc = p.hole_arc(100, 4, 90, 0, centre_x=10)
    assert spots(arc)[0] == pytest.approx((10, 50))
    assert spots(arc)[-1] == pytest.approx((60, 0))
    assert arc.steps == pytest.approx((25.8819,) * 3, abs=5e-5)


def test_listed_holes_keep_their_order_and_angle() -> None:
    layout = p.holes_at([0, 30, -30], [10, 40, 0])
    assert [hole.angle for hole in layout.points] == pytest.approx([90, 53.130102, 180])
    assert layout.kind == "list"


def test_a_single_hole_has_no_steps() -> None:
    assert p.hole_row(1, 20).steps == ()
    assert p.hole_row(1, 20).describe().startswith("1 hole (row) over 0.000 mm")


@given(layouts, st.sampled_from([-360.0, 0.0, 360.0]), places, places)
def test_a_whole_turn_changes_nothing(layout: Layout, turn: float, x: float, y: float) -> None:
    same(p.turned_holes(layout, turn, x, y), layout)


@given(layouts, angles, places, places)
def test_a_turn_and_back_changes_nothing(layout: Layout, angle: float, x: float, y: float) -> None:
    same(p.turned_holes(p.turned_holes(layout, angle, x, y), -angle, x, y), layout)


@given(layouts, st.sampled_from(["x", "y"]), places)
def test_mirrored_twice_changes_nothing(layout: Layout, across: str, at: float) -> None:
    same(p.mirrored_holes(p.mirrored_holes(layout, across, at), across, at), layout)


@given(layouts, places, places)
def test_mirrored_across_both_is_half_a_turn(layout: Layout, x: float, y: float) -> None:
    both = p.mirrored_holes(p.mirrored_holes(layout, "x", x), "y", y)
    same(both, p.turned_holes(layout, 180, x, y))


@given(layouts, places, places)
def test_moved_and_back_changes_nothing(layout: Layout, x: float, y: float) -> None:
    same(p.moved_holes(p.moved_holes(layout, x, y), -x, -y), layout)


@given(layouts, angles, places, places)
def test_turning_keeps_every_distance(layout: Layout, angle: float, x: float, y: float) -> None:
    turned = p.turned_holes(layout, angle, x, y)
    here, there = spots(layout), spots(turned)
    for k in range(len(here) - 1):
        assert dist(there[k], there[k + 1]) == pytest.approx(dist(here[k], here[k + 1]), abs=1e-6)


@given(st.floats(10, 500), st.integers(2, 60), angles, st.floats(1, 300))
def test_the_chord_of_an_arc_is_the_distance_of_its_holes(
    diameter: float, holes: int, start: float, sweep: float
) -> None:
    assume(start + sweep <= 360)
    arc = p.hole_arc(diameter, holes, start, start + sweep)
    for step in arc.steps:
        assert step == pytest.approx(arc.steps[0], abs=1e-9 * diameter * 10)
    for spot in spots(arc):
        assert dist(spot, (0, 0)) == pytest.approx(diameter / 2)


@given(st.floats(10, 500), st.integers(3, 60), angles)
def test_a_bolt_circle_is_an_arc_that_stops_a_step_short(
    diameter: float, holes: int, start: float
) -> None:
    end = start + 360 - 360 / holes
    assume(end <= 360)
    same(p.hole_arc(diameter, holes, start, end), bolt_circle(diameter, holes, start))


@given(layouts, places, places)
def test_a_readout_is_the_holes_from_its_zero_and_its_steps_add_up(
    layout: Layout, x: float, y: float
) -> None:
    shown = r.hole_readout(layout, x, y)
    assert shown.x == pytest.approx([hole.x - x for hole in layout.points])
    assert shown.y == pytest.approx([hole.y - y for hole in layout.points])
    assert sum(line.step_x for line in shown.lines) == pytest.approx(shown.x[-1], abs=1e-6)
    assert sum(line.step_y for line in shown.lines) == pytest.approx(shown.y[-1], abs=1e-6)


@given(layouts, st.data())
def test_a_chord_is_the_distance_and_the_same_backwards(
    layout: Layout, data: st.DataObject
) -> None:
    count = len(layout.points)
    first, second = (data.draw(st.integers(1, count)) for _ in range(2))
    there = r.hole_distance(layout, first, second)
    back = r.hole_distance(layout, second, first)
    assert there.distance == back.distance
    assert there.distance == pytest.approx(
        dist(spots(layout)[first - 1], spots(layout)[second - 1])
    )
    assert (there.along_x, there.along_y) == (-back.along_x, -back.along_y)


def test_a_readout_prints_each_hole_with_its_check() -> None:
    shown = r.hole_readout(bolt_circle(60, 6), zero_x=-30, zero_y=-30)
    assert [line.describe() for line in shown.lines[:2]] == [
        "1: X +60.000 mm, Y +30.000 mm",
        "2: X +45.000 mm, Y +55.981 mm, 30.000 mm from hole 1",
    ]
    assert shown.closing == pytest.approx(30)


def test_a_distance_describes_itself() -> None:
    assert r.hole_distance(p.hole_grid(2, 2, 30, 40), 1, 3).describe() == (
        "Hole 3 is 50.000 mm from hole 1, +30.000 mm along x and +40.000 mm along y, at 53.1301°."
    )


def test_pins_of_two_sizes_add_half_of_each() -> None:
    assert r.distance_over_pins(50, 6) == 56
    assert r.distance_over_pins(50, 6, 8) == 57


@given(layouts, places, places)
def test_a_layout_mates_with_itself_from_another_datum(layout: Layout, x: float, y: float) -> None:
    assert p.layouts_mate(layout, p.moved_holes(layout, x, y)) == ""


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        (p.hole_row(3, 20), p.hole_row(4, 20), "the numbers of holes differ: 3 and 4"),
        (
            p.hole_row(3, 20),
            p.hole_row(3, 21),
            "hole 1 of the first is 1.000 mm off the nearest hole of the second",
        ),
        (p.hole_grid(2, 2, 40, 30), p.hole_grid(2, 2, 30, 40, angle=90), ""),
        (bolt_circle(60, 6), p.turned_holes(bolt_circle(60, 6), 60), ""),
        (
            bolt_circle(60, 6),
            p.turned_holes(bolt_circle(60, 6), 30),
            "hole 1 of the first is 15.529 mm off the nearest hole of the second",
        ),
        (
            p.holes_at([0, 40, 10], [0, 0, 20]),
            p.mirrored_holes(p.holes_at([0, 40, 10], [0, 0, 20])),
            "hole 1 of the first is 6.667 mm off the nearest hole of the second",
        ),
    ],
)
def test_layouts_mate_where_every_hole_has_its_other(one: Layout, other: Layout, why: str) -> None:
    assert p.layouts_mate(one, other) == why


def test_a_wall_to_the_edge_and_its_caution() -> None:
    near, far = w.edge_wall(10, 8), w.edge_wall(12, 8)
    assert (near.wall, near.ratio, far.cautions) == (6, 1.25, ())
    assert near.cautions == (
        "the distance is 1.25 diameters, below 1.5: the drill may run out, the wall bulge, and a"
        " loaded bolt tear out",
    )
    assert far.describe() == "A wall of 8.000 mm is left; the distance is 1.50 diameters."


def test_a_wall_between_two_holes() -> None:
    found = w.wall_between(30, 8, 12)
    assert (found.wall, found.ratio, found.cautions) == (20, 3, ())
    assert w.wall_between(20, 8).cautions != ()


def test_a_blind_hole_tells_its_floor_and_warns_of_a_thin_one() -> None:
    hole = w.blind_hole(20, 12, 10)
    assert hole.tip_depth == pytest.approx(15.0043, abs=5e-5)
    assert hole.cautions == ()
    assert hole.describe() == (
        "12.000 mm deep at the full diameter, 15.004 mm to the tip; 4.996 mm is left below it."
    )
    assert w.blind_hole(15.5, 12, 10).cautions == (
        "only 0.50 mm is left below the tip: it may bulge or break through; set the stop from"
        " where the tip touches, or use a flatter drill",
    )


@given(st.floats(1, 100), st.floats(0.5, 50), st.floats(60, 180), st.floats(0, 10))
def test_the_travel_through_is_the_thickness_the_point_and_the_overrun(
    thickness: float, diameter: float, angle: float, overrun: float
) -> None:
    travel = w.through_travel(thickness, diameter, angle, overrun)
    assert travel >= thickness + overrun
    with pytest.raises(TradeError):
        w.blind_hole(thickness, travel, diameter, angle)


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (lambda: p.hole_row(0, 20), "holes is 0, it must be at least 1 and at most 200", "holes"),
        (lambda: p.hole_row(3, 0), "spacing is 0 mm, it must be over 0 mm", "spacing"),
        (
            lambda: p.hole_row(3, 20, 400),
            "angle is 400 deg, it must be at least -360 deg and at most 360 deg",
            "angle",
        ),
        (lambda: p.hole_grid(20, 20, 5, 5), "rows is 20, it must be at most 10", "rows"),
        (
            lambda: p.hole_grid(2, 2, 5, -5),
            "row spacing is -5 mm, it must be over 0 mm",
            "row_spacing",
        ),
        (
            lambda: p.hole_arc(80, 1, 0, 90),
            "holes is 1, it must be at least 2 and at most 200",
            "holes",
        ),
        (
            lambda: p.hole_arc(80, 3, 0, 360),
            "the arc goes over 360 deg, it must be over 0 deg and below 360 deg",
            "end_angle",
        ),
        (lambda: p.holes_at([1, 2], [1]), "there are 2 x and 1 y, one each is wanted", "y"),
        (lambda: p.holes_at([], []), "x is 0, it must be at least 1 and at most 200", "x"),
        (
            lambda: p.holes_at([1, nan], [1, 2]),
            "x is nan mm, it must be at least -1e+09 mm and at most 1e+09 mm",
            "x",
        ),
        (
            lambda: p.holes_at([5, 9, 5], [0, 0, 0]),
            "holes 1 and 3 are at one place, x 5 mm, y 0 mm",
            "",
        ),
        (lambda: p.mirrored_holes(p.hole_row(2, 5), "z"), '"z" is no coordinate', "across"),
        (
            lambda: r.hole_distance(p.hole_row(3, 20), 1, 4),
            "second is 4, it must be at least 1 and at most 3",
            "second",
        ),
        (lambda: r.distance_over_pins(50, 0), "pin is 0 mm, it must be over 0 mm", "pin"),
        (
            lambda: w.edge_wall(4, 8),
            "no wall is left: the centre to edge is 4 mm, it must be over 4 mm",
            "centre_to_edge",
        ),
        (
            lambda: w.wall_between(9, 8, 12),
            "no wall is left: the distance is 9 mm, it must be over 10 mm",
            "distance",
        ),
        (
            lambda: w.blind_hole(20, 18, 10),
            "the tip breaks through: it reaches 21.004 mm, the part is 20 mm thick",
            "full_depth",
        ),
        (
            lambda: w.through_travel(10, 8, overrun=-1),
            "overrun is -1 mm, it must be at least 0 mm and at most 1e+09 mm",
            "overrun",
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
