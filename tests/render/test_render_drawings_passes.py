"""Passes to size: each layer as deep as its pass, with what it leaves, read back."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.render.pictures.drawing import drawing
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.pass_plan import PassPlan
from shoplog.trade.machining.passes import stock_passes, turning_passes
from shoplog.trade.screw_threads.screw_cutting import thread_infeed
from shoplog.trade.screw_threads.threads import thread

TURNED = turning_passes(25, 16, 1.2, 0.15, finish_passes=2)
PLANS = {
    "turned": TURNED,
    "face": stock_passes(6, 1.6, 0.25),
    "one": stock_passes(0.5, 1),
    "many": stock_passes(50, 0.06, 0.01),
    "a thousand": stock_passes(1000, 1),
    "thin": stock_passes(0.0021, 0.001),
    "huge": stock_passes(9e8, 3e8, 1e-3),
    "read": PassPlan.from_text("4 x 1.5 mm + 0.25 mm"),
}
THREADS = {
    "M10": thread_infeed(thread("M10x1.5")),
    "compound": thread_infeed(thread("1/4-20 UNC"), compound_angle=29.5),
    "trapezoidal": thread_infeed(thread("Tr20x4")),
}


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_the_lines_lie_as_deep_as_the_passes_come_to(plan):
    drawn = Drawn(plan)
    surface = drawn.told("stock").top
    scale = (drawn.told(f"pass_{plan.count}").top - surface) / plan.total
    assert scale > 0
    seen = 0
    for number, depth in enumerate(plan.infeeds, 1):
        if drawn.tells(f"pass_{number}"):
            told = drawn.told(f"pass_{number}")
            assert told.value == pytest.approx(depth, rel=1e-9)
            assert told.top - surface == pytest.approx(depth * scale, abs=0.02)
            seen += 1
    assert seen == plan.count or seen >= 30


def test_each_pass_tells_its_depth_and_the_diameter_that_it_leaves():
    words = Drawn(TURNED).words
    told = ("Ø25", "1: 1.05", "Ø22.9", "4: 1.05", "Ø16.6", "5: 0.15", "Ø16.3", "6: 0.15", "Ø16")
    assert set(told) <= set(words)
    assert {"depth, mm", "leaves, mm"} <= set(words)


def test_every_depth_and_what_it_leaves_stand_in_inches_too():
    left = ["0.9843", "0.9016", "0.8189", "0.7362", "0.6535", "0.6417", "0.6299"]
    deep = ["0.0413", "0.0413", "0.0413", "0.0413", "0.0059", "0.0059"]
    assert Drawn(TURNED).others == [
        *(f"Ø{each}" for each in left),
        "depth, in",
        "leaves, in",
        *(f"{number}: {each}" for number, each in enumerate(deep, 1)),
    ]
    face = Drawn(PLANS["one"])
    assert set(face.words_in("inch")) == {"0", "0.0197", "1: 0.0197", "depth, in", "reaches, in"}


def test_a_face_tells_the_depth_that_is_reached():
    words = Drawn(PLANS["face"]).words
    assert {"0", "1.438", "2.875", "5.75", "6", "5: 0.25", "reaches, mm"} <= set(words)


def test_what_the_finishing_passes_take_is_tinted_and_said():
    drawn = Drawn(TURNED)
    (tint,) = drawn.of_class("shoplog-tint")
    numbers = [float(pair.split(",")[1]) for pair in tint.get("d").strip("MZ").split("L")]
    assert min(numbers) == pytest.approx(drawn.told("pass_4").top, abs=0.02)
    assert max(numbers) == pytest.approx(drawn.told("pass_6").top, abs=0.02)
    assert "What the finishing passes take is tinted." in drawn.html
    assert Drawn(PLANS["read"]).of_class("shoplog-tint") == []


def test_the_key_gives_the_depths_in_both_systems_and_says_where_they_are_radial():
    assert Drawn(TURNED).key == [
        ("roughing", "4 passes"),
        ("deepest roughing pass, on the radius", "1.050 mm", "0.0413 in"),
        ("2 to finish, on the radius", "0.300 mm", "0.0118 in"),
        ("in all, on the radius", "4.500 mm", "0.1772 in"),
        ("off the diameter", "9.000 mm", "0.3543 in"),
        ("diameter at the end", "16.000 mm", "0.6299 in"),
    ]


def test_of_many_passes_some_are_drawn_and_that_is_said():
    drawn = Drawn(PLANS["many"])
    assert drawn.tells("pass_835")
    assert "Of 835 passes 40 are drawn as lines, the last among them." in drawn.html
    assert "835: 0.01" in drawn.words


@pytest.mark.parametrize("infeed", THREADS.values(), ids=THREADS)
def test_a_thread_is_drawn_in_its_radial_depths_and_tells_the_slide_s_dial(infeed):
    drawn = Drawn(infeed)
    surface, last = drawn.told("stock").top, drawn.told(f"pass_{infeed.passes}")
    assert last.value == pytest.approx(infeed.radial_depth)
    scale = (last.top - surface) / infeed.radial_depth
    for number, depth in enumerate(infeed.total, 1):
        if drawn.tells(f"pass_{number}"):
            told = drawn.told(f"pass_{number}")
            assert told.top - surface == pytest.approx(depth * scale, abs=0.02)
    assert ("passes", str(infeed.passes)) in drawn.key
    assert faults(drawn) == []


def test_a_compound_s_dial_is_told_where_one_is_set():
    drawn = Drawn(THREADS["compound"])
    assert "compound, mm" in drawn.words
    assert {"radial depth, in", "compound, in", "1: 0.0105", "0.0342"} <= set(drawn.others)
    assert "slide, mm" in Drawn(THREADS["M10"]).words


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_no_words_meet_and_nothing_leaves_the_frame(plan):
    drawn = Drawn(plan)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES + 2500


@settings(deadline=None)
@given(st.floats(0.01, 1e6), st.floats(1e-3, 10), st.floats(1e-6, 0.4), st.integers(1, 20))
def test_any_plan_is_drawn_without_a_fault(stock, part, share, finish):
    try:
        plan = stock_passes(stock, stock * part, stock * share / finish, finish)
    except TradeError:
        return
    assert faults(Drawn(plan)) == []


def test_passes_that_come_to_nothing_have_no_picture():
    assert "has no picture" in drawing(PassPlan((1e-300,)), "it", "drawing")
