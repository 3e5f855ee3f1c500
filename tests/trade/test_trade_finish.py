"""Finishes: the profile integrated as a second opinion, identities, remarks and refusals."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import cos, inf, isfinite, nan, pi, sin, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.trade.declare import TradeError
from shoplog.trade.machining.edge_chip import nose_chip_thickness, rubbing_limit
from shoplog.trade.machining.finish import sharp_tool_finish, turned_finish
from shoplog.trade.machining.finish_feed import feed_for_ra, feed_for_rt, nose_radius_for_ra
from shoplog.trade.machining.finish_milling import (
    ball_nose_finish,
    face_milled_finish,
    step_over_for_height,
    wall_milled_finish,
)
from shoplog.trade.machining.roughness_grades import grade_met, likely_roughness, roughness_grade

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

# A numerical second opinion: the profile drawn point by point, and averaged


def drawn(spacing: float, height_at: Callable[[float], float]) -> tuple[float, float]:
    """Rt and Ra in µm of a profile that repeats, from its heights at many points (mm)."""
    count = 40_000
    heights = [height_at(spacing * (index + 0.5) / count) for index in range(count)]
    mean = sum(heights) / count
    ra = sum(abs(height - mean) for height in heights) / count
    peak = max(*heights, height_at(0), height_at(spacing))
    return 1000 * (peak - min(heights)), 1000 * ra


def arcs(spacing: float, radius: float, flat: float = 0) -> Callable[[float], float]:
    """A flat with an arc of a radius rising at either side of it."""

    def height_at(place: float) -> float:
        aside = max(abs(place - spacing / 2) - flat / 2, 0)
        return radius - sqrt(max(radius**2 - aside**2, 0))

    return height_at


@pytest.mark.parametrize(
    ("feed", "radius", "flat"),
    [
        (0.2, 0.8, 0),
        (0.05, 0.4, 0),
        (0.8, 0.4, 0),  # two radii: half circles
        (0.7, 0.4, 0),
        (0.001, 0.8, 0),
        (0.3, 0.8, 0.1),
        (1.2, 0.4, 0.5),
        (0.3, 0.8, 0.29),
        (3, 8, 0),
    ],
)
def test_turned_finish_is_that_of_the_drawn_profile(
    feed: float, radius: float, flat: float
) -> None:
    rt, ra = drawn(feed, arcs(feed, radius, flat))
    finish = turned_finish(feed, radius, flat)
    assert finish.rt == pytest.approx(rt, rel=1e-7)
    assert finish.ra == pytest.approx(ra, rel=1e-5)


@pytest.mark.parametrize("feed", [0.1, 0.2, 0.5])
def test_the_parabolic_values_are_those_of_drawn_parabolas(feed: float) -> None:
    rt, ra = drawn(feed, lambda place: (place - feed / 2) ** 2 / (2 * 0.8))
    finish = turned_finish(feed, 0.8)
    assert finish.parabolic_rt == pytest.approx(rt, rel=1e-3)
    assert finish.parabolic_ra == pytest.approx(ra, rel=1e-6)


def test_the_parabolic_values_with_a_flat_are_those_of_the_drawn_profile() -> None:
    rt, ra = drawn(0.4, lambda place: max(abs(place - 0.2) - 0.05, 0) ** 2 / (2 * 0.8))
    finish = turned_finish(0.4, 0.8, 0.1)
    assert finish.parabolic_rt == pytest.approx(rt, rel=1e-3)
    assert finish.parabolic_ra == pytest.approx(ra, rel=1e-6)


@pytest.mark.parametrize(("side", "end"), [(0, 7), (30, 7), (15, 5), (45, 45), (10, 80)])
def test_sharp_tool_finish_is_that_of_the_drawn_profile(side: float, end: float) -> None:
    rise, fall = (
        cos(side * pi / 180) / sin(side * pi / 180) if side else inf,
        sin(end * pi / 180) / cos(end * pi / 180),
    )
    rt, ra = drawn(0.2, lambda place: min(place * fall, (0.2 - place) * rise))
    finish = sharp_tool_finish(0.2, side, end)
    assert finish.rt == pytest.approx(rt, rel=1e-3)
    assert finish.ra == pytest.approx(ra, rel=1e-3)


def test_ball_nose_finish_is_that_of_the_drawn_profile() -> None:
    rt, ra = drawn(1.5, arcs(1.5, 3))
    finish = ball_nose_finish(1.5, 6)
    assert (finish.rt, finish.ra) == (pytest.approx(rt, rel=1e-3), pytest.approx(ra, rel=1e-5))


def test_wall_and_face_marks_are_those_of_the_drawn_profiles() -> None:
    wall, face = drawn(0.4, arcs(0.4, 5)), drawn(0.4, arcs(0.4, 0.8, 0.1))
    assert wall_milled_finish(0.1, 10, 4).ra == pytest.approx(wall[1], rel=1e-5)
    assert face_milled_finish(0.1, 0.8, 4, flat=0.1).ra == pytest.approx(face[1], rel=1e-5)


def test_the_chip_on_a_nose_is_the_distance_between_two_arcs() -> None:
    # At the top of the cut the arc of the turn before stands a feed away; square to the edge.
    feed, depth, radius = 1e-4, 0.1, 0.8
    height = radius - depth
    across = sqrt(radius**2 - height**2)
    gap = sqrt((across + feed) ** 2 + height**2) - radius
    assert nose_chip_thickness(feed, depth, radius) == pytest.approx(gap, rel=1e-3)


# What must hold

feeds = st.floats(1e-3, 2)
radii = st.floats(0.05, 20)


@given(feeds, radii)
def test_feed_for_ra_and_turned_finish_undo_each_other(feed: float, radius: float) -> None:
    feed = min(feed, 2 * radius)
    assert feed_for_ra(turned_finish(feed, radius).ra, radius) == pytest.approx(feed, rel=1e-6)


@given(feeds, radii)
def test_feed_for_rt_and_turned_finish_undo_each_other(feed: float, radius: float) -> None:
    feed = min(feed, 1.99 * radius)
    assert feed_for_rt(turned_finish(feed, radius).rt, radius) == pytest.approx(feed, rel=1e-9)


@given(feeds, radii)
def test_nose_radius_for_ra_and_turned_finish_undo_each_other(feed: float, radius: float) -> None:
    feed = min(feed, 1.99 * radius)
    assert nose_radius_for_ra(turned_finish(feed, radius).ra, feed) == pytest.approx(
        radius, rel=1e-6
    )


@given(st.floats(0.01, 10), st.floats(1, 50))
def test_step_over_for_height_and_ball_nose_finish_undo_each_other(
    step: float, diameter: float
) -> None:
    step = min(step, 0.99 * diameter)
    height = ball_nose_finish(step, diameter).rt
    assert step_over_for_height(height, diameter) == pytest.approx(step, rel=1e-9)


@given(feeds, radii, st.floats(0.5, 20))
def test_a_profile_in_another_size_is_rougher_in_the_same_measure(
    feed: float, radius: float, factor: float
) -> None:
    feed = min(feed, 2 * radius)
    one, other = turned_finish(feed, radius), turned_finish(factor * feed, factor * radius)
    assert other.rt == pytest.approx(factor * one.rt)
    assert other.ra == pytest.approx(factor * one.ra)


@given(feeds, radii)
def test_the_exact_marks_are_never_lower_than_the_parabolic_ones(
    feed: float, radius: float
) -> None:
    finish = turned_finish(min(feed, 2 * radius), radius)
    assert finish.rt >= finish.parabolic_rt * (1 - 1e-9)
    assert finish.ra >= finish.parabolic_ra * (1 - 1e-9)


@given(st.floats(0.01, 0.5), st.floats(0, 0.4))
def test_a_wider_flat_never_makes_it_rougher(feed: float, flat: float) -> None:
    flat = min(flat, feed)
    assert turned_finish(feed, 0.8, flat).rt <= turned_finish(feed, 0.8, flat / 2).rt + 1e-12


@pytest.mark.parametrize("angle", [0.009999, 0.010001])
def test_the_series_for_small_arcs_joins_the_closed_form(angle: float) -> None:
    # Where the half angle is 0.01 the one takes over from the other; the ratio is smooth there.
    finish = turned_finish(2 * sin(angle), 1)
    assert finish.ra / finish.parabolic_ra == pytest.approx(1 + angle**2 / 5, abs=1e-9)


def test_a_flat_as_wide_as_the_feed_leaves_nothing_and_says_so() -> None:
    finish = turned_finish(0.2, 0.8, 0.2)
    assert (finish.rt, finish.ra, finish.parabolic_error) == (0, 0, 0)
    assert finish.notes[0].startswith("the flat is as wide as the feed")


def test_a_wiper_lets_twice_the_feed_leave_the_same_marks() -> None:
    assert turned_finish(0.4, 0.8, 0.2).rt == pytest.approx(turned_finish(0.2, 0.8).rt)


def test_one_proud_tooth_marks_once_a_revolution() -> None:
    every, once = wall_milled_finish(0.05, 10, 4, "tooth"), wall_milled_finish(0.05, 10, 4)
    assert (every.spacing, once.spacing) == (0.05, 0.2)
    assert once.rt == pytest.approx(16 * every.rt, rel=1e-3)
    assert once.notes[0].startswith("one tooth stands proud")
    assert len(every.notes) == 1


def test_a_single_point_facing_head_marks_as_a_turning_tool_does() -> None:
    assert face_milled_finish(0.1, 0.4).ra == turned_finish(0.1, 0.4).ra


# Remarks


def said(finish_cautions: tuple[str, ...]) -> list[str]:
    return [text.split()[0] for text in finish_cautions]


def test_a_chip_thinner_than_the_edge_lifts_is_cautioned() -> None:
    blunt = turned_finish(0.06, 0.8, depth_of_cut=0.05, edge_radius=60)
    keen = turned_finish(0.06, 0.8, depth_of_cut=0.05, edge_radius=5)
    assert any(text.startswith("the chip is thinner") for text in blunt.cautions)
    assert not any(text.startswith("the chip is thinner") for text in keen.cautions)


def test_without_a_depth_the_feed_itself_is_held_against_the_edge() -> None:
    assert any(
        text.startswith("the chip is thinner")
        for text in turned_finish(0.01, 0.8, edge_radius=50).cautions
    )


def test_a_fine_feed_is_cautioned_for_its_chips_and_a_coarse_one_is_not() -> None:
    assert said(turned_finish(0.1, 0.8).cautions) == ["a"]
    assert turned_finish(0.3, 0.8).cautions == ()


def test_notes_say_what_the_sum_leaves_out() -> None:
    notes = turned_finish(0.3, 0.4, depth_of_cut=0.1, end_cutting_edge_angle=5).notes
    assert said(notes) == ["the", "the", "the", "the"]
    assert "under twice the feed" in notes[0]
    assert "shallower than two thirds" in notes[1]
    assert "the end cutting edge takes part" in notes[2]
    assert "a real surface is rougher" in notes[3]


def test_slender_work_bears_a_small_nose() -> None:
    small = turned_finish(0.1, 0.4, length=200, diameter=10)
    assert not any("slender" in text for text in small.cautions)


# Grades


@pytest.mark.parametrize(
    ("ra", "grade"),
    [(0.001, "N1"), (0.025, "N1"), (0.0251, "N2"), (1.6, "N7"), (1.61, "N8"), (50, "N12")],
)
def test_a_surface_meets_the_finest_grade_that_is_not_under_it(ra: float, grade: str) -> None:
    assert grade_met(ra).name == grade


@pytest.mark.parametrize("number", range(1, 13))
def test_every_grade_meets_itself(number: int) -> None:
    grade = roughness_grade(f"N{number}")
    assert grade_met(grade.ra) == grade


def test_a_finish_rougher_than_every_grade_says_so() -> None:
    assert turned_finish(8, 8).grade == "rougher than N12"


def test_a_grade_is_read_with_spaces_and_in_small_letters() -> None:
    assert roughness_grade(" n7 ").ra_inch == 63


def test_cast_iron_comes_out_rougher_than_steel() -> None:
    assert likely_roughness(1, "Cast iron").least == likely_roughness(1).most == 3


# What is refused


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: turned_finish(0, 0.8),
            "feed per rev is 0 mm/rev, it must be over 0 mm/rev",
            "feed_per_rev",
        ),
        (
            lambda: turned_finish(0.2, -0.8),
            "nose radius is -0.8 mm, it must be over 0 mm",
            "nose_radius",
        ),
        (
            lambda: turned_finish(0.2, 0.05),
            "feed per rev is 0.2 mm/rev, it must be at most 0.1 mm/rev"
            " (less the flat, for a nose radius of 0.05 mm)",
            "feed_per_rev",
        ),
        (
            lambda: turned_finish(0.2, 0.8, -0.1),
            "flat is -0.1 mm, it must be at least 0 mm and at most 1000 mm",
            "flat",
        ),
        (
            lambda: turned_finish(0.2, 0.8, end_cutting_edge_angle=90),
            "end cutting edge angle is 90 deg, it must be at least 0.01 deg and below 90 deg",
            "end_cutting_edge_angle",
        ),
        (
            lambda: turned_finish(0.2, 0.8, edge_radius=0),
            "edge radius is 0 um, it must be over 0 um",
            "edge_radius",
        ),
        (
            lambda: turned_finish(0.2, 0.8, length=0, diameter=10),
            "length is 0 mm, it must be over 0 mm",
            "length",
        ),
        (
            lambda: turned_finish(1e-7, 0.8),
            "feed per rev is 1e-07 mm/rev, it must be at least 8e-07 mm/rev (less the flat)",
            "feed_per_rev",
        ),
        (
            lambda: sharp_tool_finish(0.2, 90, 5),
            "side cutting edge angle is 90 deg, it must be at least 0 deg and below 90 deg",
            "side_cutting_edge_angle",
        ),
        (
            lambda: sharp_tool_finish(0.2, 30, 0),
            "end cutting edge angle is 0 deg, it must be at least 0.01 deg and below 90 deg",
            "end_cutting_edge_angle",
        ),
        (
            lambda: feed_for_ra(200, 0.8),
            "ra is 200 um, it must be at least 2.566e-11 um and at most 145.042 um"
            " (nose radius 0.8 mm)",
            "ra",
        ),
        (
            lambda: feed_for_ra(1.6, 0.8, 20),
            "rougher by is 20, it must be at least 1 and at most 10",
            "rougher_by",
        ),
        (
            lambda: feed_for_rt(900, 0.8),
            "rt is 900 um, it must be at most 800 um (the nose radius)",
            "rt",
        ),
        (
            lambda: nose_radius_for_ra(20, 0.1),
            "ra is 20 um, it must be at least 3.2075e-06 um and at most 9.06515 um"
            " (a feed of 0.1 mm/rev)",
            "ra",
        ),
        (
            lambda: ball_nose_finish(7, 6),
            "step over is 7 mm, it must be at most 6 mm"
            " (the spacing of the marks, less a flat, against twice the radius)",
            "step_over",
        ),
        (
            lambda: step_over_for_height(4000, 6),
            "height is 4000 um, it must be at most 3000 um (half the diameter)",
            "height",
        ),
        (
            lambda: wall_milled_finish(0.1, 10, 2.5),
            "teeth is 2.5, it must be a whole number",
            "teeth",
        ),
        (
            lambda: wall_milled_finish(0.1, 10, 2, "flute"),
            "the marks are 'flute', they must be revolution or tooth",
            "marks",
        ),
        (
            lambda: face_milled_finish(0.5, 0.4, 4),
            "feed per tooth is 2 mm, it must be at most 0.8 mm"
            " (the spacing of the marks, less a flat, against twice the radius)",
            "feed_per_tooth",
        ),
        (
            lambda: roughness_grade("N13"),
            "there is no roughness grade 'N13'",
            "name",
        ),
        (
            lambda: grade_met(51),
            "ra is 51 um, it must be at most 50 um (N12, the coarsest grade)",
            "ra",
        ),
        (
            lambda: likely_roughness(1, "brass"),
            "no factor is known for 'brass'",
            "material",
        ),
        (
            lambda: rubbing_limit(nan),
            "edge radius is nan um, it must be over 0 um",
            "edge_radius",
        ),
    ],
)
def test_refusals_say_the_value_and_the_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as refused:
        call()
    assert (str(refused.value), refused.value.argument) == (message, argument)


FLOATS = st.sampled_from((0.0, -1.0, 1e-300, 5e-324, 1e-12, 1e-9, 0.3, 1e9, 1e100, -1e100, nan))
CALLS: dict[str, Callable[[float, float, float], float]] = {
    "turned": lambda a, b, c: turned_finish(a, b, c).ra,
    "turned with all": lambda a, b, c: turned_finish(a, b, 0, c, a, b, c, a).rt,
    "sharp": lambda a, b, c: sharp_tool_finish(a, b, c).rt,
    "feed for Ra": feed_for_ra,
    "feed for Rt": lambda a, b, _: feed_for_rt(a, b),
    "nose": lambda a, b, _: nose_radius_for_ra(a, b),
    "ball": lambda a, b, _: ball_nose_finish(a, b).ra,
    "step": lambda a, b, _: step_over_for_height(a, b),
    "wall": lambda a, b, c: wall_milled_finish(a, b, c).ra,
    "face": lambda a, b, c: face_milled_finish(a, b, 1, c).ra,
    "chip": nose_chip_thickness,
    "grade": lambda a, _, __: grade_met(a).ra,
}


def outcome(call: Callable[[], float]) -> str:
    """What a call comes to: a reason of the trade, or a number that is finite and not below 0."""
    try:
        number = call()
    except TradeError as refused:
        return "a reason" if refused.message else "no words"
    return "a finite number" if isfinite(number) and number >= 0 else f"{number}"


@pytest.mark.parametrize("call", CALLS.values(), ids=CALLS)
@given(FLOATS, FLOATS, FLOATS)
def test_any_numbers_give_a_finite_value_or_a_reason(
    call: Callable[[float, float, float], float], a: float, b: float, c: float
) -> None:
    assert outcome(partial(call, a, b, c)) in ("a finite number", "a reason")
