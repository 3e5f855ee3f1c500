"""The marks of an edge: their profile, Rt and Ra to scale, read back from what is drawn."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.render.pictures.drawing import drawing
from shoplog.render.pictures.roughness import marks_of
from shoplog.trade.machining.finish import sharp_tool_finish, turned_finish
from shoplog.trade.machining.finish_milling import ball_nose_finish, face_milled_finish
from shoplog.trade.machining.finish_record import arcs_finish

FINISHES = {
    "fine": (turned_finish(0.1, 0.4), 0.4, 0.0),
    "coarse": (turned_finish(0.2, 0.1), 0.1, 0.0),
    "flat nose": (turned_finish(0.01, 6), 6, 0.0),
    "ball": (ball_nose_finish(2, 3), 1.5, 0.0),
    "wiper": (face_milled_finish(0.05, 0.8, 4, 0.1), 0.8, 0.1),
    "wall": (arcs_finish(0.1, 8.0), 8.0, 0.0),
    "nearly nothing": (arcs_finish(1e-4, 50.0), 50.0, 0.0),
}
finishes = pytest.mark.parametrize(
    ("found", "radius", "flat"), FINISHES.values(), ids=FINISHES.keys()
)


@finishes
def test_the_edge_behind_a_finish_is_found_again(found, radius, flat):
    marks = marks_of(found)
    assert marks.radius == pytest.approx(radius, rel=1e-4)
    assert marks.flat == pytest.approx(flat, abs=1e-4 * found.spacing)
    assert 1000 * marks.height_at(found.spacing / 2) == pytest.approx(found.rt, rel=1e-6)


@finishes
def test_the_average_of_the_profile_that_is_drawn_is_ra(found, radius, flat):
    """A sum over the drawn shape, against the closed form of the finish."""
    marks = marks_of(found)
    places = [(step + 0.5) / 20000 * found.spacing / 2 for step in range(20000)]
    heights = [marks.height_at(place) for place in places]
    mean = sum(heights) / len(heights)
    average = sum(abs(height - mean) for height in heights) / len(heights)
    assert 1000 * average == pytest.approx(found.ra, rel=1e-3)
    assert marks.mean == pytest.approx(mean, rel=1e-3)


@finishes
def test_rt_ra_and_the_spacing_are_drawn_to_their_scales(found, radius, flat):
    drawn = Drawn(found)
    rt, spacing = drawn.told("rt"), drawn.told("spacing")
    assert (rt.value, rt.unit) == (pytest.approx(found.rt), "um")
    assert (spacing.value, spacing.unit) == (pytest.approx(found.spacing), "mm")
    profile = drawn.told("profile")
    assert profile.tall == pytest.approx(rt.tall, abs=0.05)
    tall = drawn.told("ra_below").top - drawn.told("ra_above").top
    assert tall / rt.tall == pytest.approx(2 * found.ra / found.rt, abs=0.002)
    peaks = [x for x, y in profile.points if y == pytest.approx(profile.top, abs=0.011)]
    assert [b - a for a, b in pairwise(peaks)] == [pytest.approx(spacing.wide, abs=0.05)] * 4


@finishes
def test_how_much_larger_the_heights_are_is_told_and_true(found, radius, flat):
    drawn = Drawn(found)
    per_mm = drawn.told("spacing").wide / found.spacing
    larger = drawn.told("rt").tall / (found.rt / 1000) / per_mm
    told = f"Heights are drawn {float(f'{larger:.1g}'):g} times their size along the feed."
    assert told in drawn.html
    assert 30 < drawn.told("rt").tall < 77


def test_heights_and_spacing_stand_in_the_other_system_too():
    drawn = Drawn(FINISHES["fine"][0])
    assert drawn.words == ["Rt 3.14 µm", "Ra 0.804 µm to either side of the mean line", "0.1"]
    assert drawn.others == [
        "Rt 0.12 thou",
        "Ra 0.032 thou to either side of the mean line",
        "0.0039 in",
    ]


def test_the_mean_line_lies_between_peak_and_valley_where_the_profile_says():
    found = FINISHES["fine"][0]
    drawn, marks = Drawn(found), marks_of(found)
    rt = drawn.told("rt")
    up = (rt.bottom - drawn.told("mean").top) / rt.tall
    assert up == pytest.approx(marks.mean / marks.height, abs=0.003)


def test_a_pointed_tool_leaves_a_saw_tooth_and_the_picture_says_what_it_does_not_show():
    found = sharp_tool_finish(0.125, 30, 7)
    drawn = Drawn(found)
    assert marks_of(found).radius == 0
    assert "Each tooth is drawn even; the angles of the tool make it lean." in drawn.html
    assert ("radius of the edge", "a point") in drawn.key
    assert drawn.told("profile").tall == pytest.approx(drawn.told("rt").tall, abs=0.05)
    assert faults(drawn) == []


def test_where_a_flat_covers_the_feed_nothing_is_drawn():
    found = turned_finish(0.1, 0.4, flat=0.2)
    assert found.rt == 0
    assert "has no picture" in drawing(found, "it", "drawing")


def test_the_key_says_the_numbers_in_both_systems_with_the_grade():
    assert Drawn(FINISHES["wiper"][0]).key == [
        ("Rt", "1.56 µm", "0.062 thou"),
        ("Ra", "0.33 µm", "0.013 thou"),
        ("roughness grade", "N5"),
        ("from mark to mark", "0.200 mm", "0.0079 in"),
        ("radius of the edge", "0.800 mm", "0.0315 in"),
        ("flat of the edge", "0.100 mm", "0.0039 in"),
    ]


@finishes
def test_no_words_meet_and_nothing_leaves_the_frame(found, radius, flat):
    drawn = Drawn(found)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@settings(deadline=None)
@given(st.floats(1e-5, 5), st.floats(0.5, 1e5), st.floats(0, 0.95))
def test_any_finish_of_arcs_is_drawn_without_a_fault(spacing, ratio, flat):
    assert faults(Drawn(arcs_finish(spacing, spacing * ratio, spacing * flat))) == []
