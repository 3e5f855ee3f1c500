"""Pictures of counterbores, countersinks and engaged threads, read back from what is drawn."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.fastening.counterbores import counterbore, screw_countersink
from shoplog.trade.fastening.countersinks import countersink_for
from shoplog.trade.fastening.screws import Screw
from shoplog.trade.screw_threads.engagement import engagement_strength, least_engagement
from shoplog.trade.screw_threads.threads import Thread

M6 = Screw.from_text("ISO 4762 M6")
BORES = {
    "usual": counterbore(M6),
    "too narrow": counterbore(M6, 10),
    "set screw": counterbore(Screw.from_text("ISO 4026 M6"), 10),
    "hexagon": counterbore(Screw.from_text("ISO 4014 M8x40")),
    "very wide": counterbore(M6, 500),
    "very narrow": counterbore(M6, 0.5),
    "inch": counterbore(Screw.from_text("B18.3 cap 1/4-20")),
}
SINKS = {
    "screw": screw_countersink(Screw.from_text("ISO 10642 M5")),
    "size": countersink_for("M5"),
}
M8, ALUMINIUM = Thread.from_text("M8"), "aluminium 6082-T6"
ENGAGED = {
    "hole strips": engagement_strength(M8, 8, "8.8", ALUMINIUM),
    "least": least_engagement(Thread.from_text("1/4-20 UNC"), "8.8", "mild steel"),
    "next to nothing": engagement_strength(M8, 0.001, "8.8", ALUMINIUM),
    "far too much": engagement_strength(M8, 1000, "8.8", ALUMINIUM),
}


@pytest.mark.parametrize("name", ["usual", "too narrow", "hexagon", "inch"])
def test_seat_head_and_hole_have_one_scale(name):
    bore = BORES[name]
    drawn = Drawn(bore)
    scale = drawn.told("diameter").length / bore.diameter
    head = drawn.told("head")
    assert isclose(head.wide, bore.screw.greatest_diameter * scale, abs_tol=0.03)
    assert isclose(drawn.told("hole").length, bore.hole * scale, abs_tol=0.03)
    assert isclose(drawn.told("depth").length, bore.depth * scale, abs_tol=0.03)
    # The head stands on the seat and is flush with the face, or below it.
    assert head.top >= drawn.told("depth").top - 0.02


def test_a_head_that_does_not_pass_is_drawn_over_the_wall_and_the_key_says_so():
    drawn = Drawn(BORES["too narrow"])
    seat = drawn.told("seat")
    assert drawn.told("head").right > seat.right
    assert ("passes it", "no") in drawn.key
    assert ("DIN 974-1 has", "11.000 mm", "0.4331 in") in drawn.key
    assert ("passes it", "yes") in Drawn(BORES["usual"]).key


@pytest.mark.parametrize("sink", SINKS.values(), ids=SINKS)
def test_a_countersink_has_its_cone_to_scale(sink):
    drawn = Drawn(sink)
    scale = drawn.told("diameter").length / sink.diameter
    assert isclose(drawn.told("depth").length, sink.depth * scale, abs_tol=0.03)
    (right, face), (inner, floor) = drawn.told("seat").points[:2]
    assert isclose(right - inner, floor - face, abs_tol=0.02)  # 45 degrees on each side
    assert drawn.all("angle")[0].value == 90
    assert "90°" in drawn.words


@pytest.mark.parametrize("found", ENGAGED.values(), ids=ENGAGED)
def test_the_lengths_and_the_loads_are_each_to_one_scale(found):
    drawn = Drawn(found)
    length, least = drawn.told("length"), drawn.told("least")
    assert (length.value, least.value) == pytest.approx((found.length, found.least))
    longer = max(length, least, key=lambda one: one.value)
    scale = longer.length / longer.value
    for one in (length, least):
        assert isclose(one.length, one.value * scale, abs_tol=0.03)
    loads = [drawn.told(name) for name in ("breaking_load", "screw_strips_at", "hole_strips_at")]
    top = max(loads, key=lambda load: load.value)
    for load in loads:
        assert isclose(load.wide, load.value * top.wide / top.value, abs_tol=0.03)


def test_what_gives_first_stands_out_by_its_weight_and_is_named_in_the_key():
    drawn = Drawn(ENGAGED["hole strips"])
    strong = [part.text for part in drawn.of_class("shoplog-letter")]
    assert strong == ["the hole's thread strips", "19.5 kN", "4388 lbf"]
    assert drawn.key[-1] == ("what gives first", "the thread of the hole strips")


def test_lengths_and_loads_are_told_in_both_systems_those_of_the_thread_first():
    metric, inch = Drawn(ENGAGED["hole strips"]), Drawn(ENGAGED["least"])
    assert set(metric.words) >= {"8", "12.003 least", "29.3 kN", "38.9 kN", "19.5 kN"}
    loads = ["6584 lbf", "8750 lbf", "4388 lbf"]
    assert metric.others == ["0.315 in", "0.4726 in least", *loads]
    assert set(inch.words) >= {"0.2624 in", "0.2624 in least", "3692 lbf", "5601 lbf"}
    assert inch.others == ["6.665", "6.665 least", "16.4 kN", "24.9 kN", "16.4 kN"]
    assert inch.key[2] == ("the screw breaks", "3692 lbf", "16.4 kN")


@pytest.mark.parametrize(
    ("seat", "words", "others"),
    [
        (BORES["usual"], ["Ø11", "Ø6.6", "6.4"], ["Ø0.4331 in", "Ø0.2598 in", "0.252 in"]),
        (BORES["inch"], ["Ø0.4375 in", "Ø0.2812 in", "0.25 in"], ["Ø11.112", "Ø7.144", "6.35"]),
        (
            SINKS["screw"],
            ["90°", "Ø11.2", "Ø5.5", "2.85"],
            ["Ø0.4409 in", "Ø0.2165 in", "0.1122 in"],
        ),
    ],
)
def test_every_size_of_a_seat_is_told_in_both_systems(seat, words, others):
    drawn = Drawn(seat)
    assert sorted(drawn.words) == sorted(words)
    assert sorted(drawn.others) == sorted(others)


def test_the_key_of_the_seat_of_an_inch_screw_has_inches_first():
    assert Drawn(BORES["inch"]).key[:2] == [
        ("counterbore", "0.4375 in", "11.112 mm"),
        ("depth", "0.2500 in", "6.350 mm"),
    ]


def test_below_the_screw_the_hole_is_hatched_to_its_own_crest():
    found = ENGAGED["hole strips"]
    drawn = Drawn(found)
    scale = drawn.told("length").length / found.length
    crest = drawn.told("major").right
    metal = drawn.of_class("shoplog-rising")[0].get("d")
    assert f"{crest:g}," in metal
    hole = crest - (8 - found.thread.minor_diameter) / 2 * scale
    assert any(isclose(hole, line[0][0], abs_tol=0.02) for line in drawn.strokes("outline"))


@pytest.mark.parametrize("value", [*BORES.values(), *SINKS.values(), *ENGAGED.values()])
def test_no_words_meet_and_nothing_leaves_the_frame(value):
    drawn = Drawn(value)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@given(st.floats(0.5, 500))
def test_any_counterbore_is_drawn_without_a_fault(diameter):
    assert faults(Drawn(counterbore(M6, diameter))) == []


@given(st.floats(1e-6, 1e6))
def test_any_engagement_is_drawn_without_a_fault(length):
    assert faults(Drawn(engagement_strength(M8, length, "8.8", ALUMINIUM))) == []
