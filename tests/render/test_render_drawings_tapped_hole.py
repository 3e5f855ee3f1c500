"""A tapped hole's picture: its depths and its lines, read back from what is drawn."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.screw_threads.tapped_holes import tapped_hole
from shoplog.trade.screw_threads.threads import Thread

DEPTHS = ("full_thread", "tap_depth", "drill_depth", "tip_depth")
M8 = Thread.from_text("M8")
HOLES = {
    "usual": tapped_hole(M8, 12),
    "inch": tapped_hole(Thread.from_text("1/4-20 UNC"), 12.7, "inch bottoming"),
    "pipe": tapped_hole(Thread.from_text("G1/2"), 15, "form C"),
    "deep": tapped_hole(Thread.from_text("M3"), 200, "bottoming"),
    "shallow": tapped_hole(Thread.from_text("M64"), 0.5, "bottoming", None, 0, 180),
    "sharp point": tapped_hole(Thread.from_text("M6"), 12, "taper", None, None, 10),
    "huge": tapped_hole(Thread.from_text("M64"), 1e6),
    "needle": tapped_hole(M8, 12, "second", None, None, 1e-6),
}


@pytest.mark.parametrize("hole", HOLES.values(), ids=HOLES)
def test_every_depth_is_told_and_drawn_to_scale_from_the_face(hole):
    drawn = Drawn(hole)
    told = {name: drawn.told(name) for name in DEPTHS}
    scale = told["tip_depth"].length / hole.tip_depth
    for name, depth in told.items():
        assert depth.value == pytest.approx(getattr(hole, name))
        assert isclose(depth.length, depth.value * scale, abs_tol=0.02)
        assert isclose(depth.top, told["tip_depth"].top)  # all from the face


def test_widths_have_the_scale_of_the_depths_and_the_point_its_angle():
    hole = HOLES["usual"]
    drawn = Drawn(hole)
    scale = drawn.told("full_thread").length / hole.full_thread
    wall = drawn.told("drill")
    assert isclose(wall.wide, hole.drill * scale, abs_tol=0.02)
    (right, shoulder), (axis, tip) = wall.points[1:3]
    assert isclose(tip - shoulder, (right - axis) / 1.6643, rel_tol=0.01)  # tan 59 degrees


def test_the_root_is_narrow_the_crest_wide_and_the_thread_ends_in_a_wide_line():
    hole = HOLES["usual"]
    drawn = Drawn(hole)
    scale = drawn.told("full_thread").length / hole.full_thread
    major, end, wall = drawn.told("major"), drawn.told("thread_end"), drawn.told("drill")
    axis = (wall.left + wall.right) / 2
    assert isclose(major.left - axis, 8 / 2 * scale, abs_tol=0.02)
    assert major.bottom == end.top
    groups = {kind: list(drawn.of_class(f"shoplog-{kind}")[0]) for kind in ("thin", "outline")}
    assert major.element in groups["thin"]
    assert end.element in groups["outline"]
    assert wall.element in groups["outline"]


def test_the_hatching_stops_at_the_crest():
    hole = HOLES["usual"]
    drawn = Drawn(hole)
    wall = drawn.told("drill")
    (metal,) = drawn.of_class("shoplog-rising")
    edges = metal.get("d")
    assert f"{wall.right:g}," in edges
    assert f"{drawn.told('major').right:g}," not in edges


def test_the_runout_slants_from_the_root_to_the_end_of_the_tap():
    hole = HOLES["usual"]
    drawn = Drawn(hole)
    low = drawn.told("tap_depth").bottom
    slanting = [
        line for line in drawn.strokes("thin") if line[0][0] != line[-1][0] and len(line) == 2
    ]
    assert len(slanting) == 2
    for start, end in slanting:
        assert start[1] == drawn.told("thread_end").top
        assert end[1] == low


def test_an_extreme_hole_says_how_much_wider_it_is_drawn():
    drawn = Drawn(HOLES["deep"])
    assert "Widths are drawn 10.9 times as large as depths." in drawn.html
    ratio = (drawn.told("drill").wide / 2.5) / (drawn.told("tip_depth").length / 202.7511)
    assert isclose(ratio, 10.9, rel_tol=0.02)
    assert "times as large" not in Drawn(HOLES["usual"]).html


def test_depths_are_in_the_system_of_the_thread_and_the_key_in_both():
    assert {"M8", "12", "19.5", "Ø6.8 drill"} <= set(Drawn(HOLES["usual"]).words)
    inch = Drawn(HOLES["inch"])
    assert {"1/4-20 UNC", "0.5 in", "Ø0.201 in drill"} <= set(inch.words)
    assert inch.others == ["Ø5.105 drill", "12.7", "15.24", "17.78", "19.314"]
    depths = ["0.4724 in", "0.6693 in", "0.7677 in", "0.8481 in"]
    assert Drawn(HOLES["usual"]).others == ["Ø0.2677 in drill", *depths]
    assert inch.key[0] == ("full thread", "0.5000 in", "12.700 mm")
    names = [row[0] for row in Drawn(HOLES["usual"]).key]
    assert names == [
        "full thread",
        "runout of the second tap",
        "to the end of the tap",
        "room below it",
        "drill, to its full diameter",
        "drill, to its tip",
        "drill",
    ]


@pytest.mark.parametrize("hole", HOLES.values(), ids=HOLES)
def test_no_words_meet_and_nothing_leaves_the_frame(hole):
    drawn = Drawn(hole)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@given(st.floats(1e-6, 1e9), st.floats(0, 1e9), st.floats(1e-6, 180))
def test_any_hole_is_drawn_without_a_fault(full_thread, room, point_angle):
    hole = tapped_hole(M8, full_thread, "second", None, room, point_angle)
    assert faults(Drawn(hole)) == []
