"""A key's picture: shaft, hub and key in section, read back from what is drawn."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.fastening.keys import inch_parallel_key, parallel_key
from shoplog.trade.fastening.woodruff import woodruff_key

JOINTS = {
    "usual": parallel_key(30),
    "small": parallel_key(6),
    "large": parallel_key(500),
    "inch": inch_parallel_key(25.4),
    "Woodruff": woodruff_key("5x6.5x16", 17),
    "large shaft": woodruff_key("5x6.5x16", 1000),
    "thin shaft": woodruff_key("5x6.5x16", 5.3),
}


@pytest.mark.parametrize("joint", JOINTS.values(), ids=JOINTS)
def test_every_size_is_told_where_it_is_measured(joint):
    drawn = Drawn(joint)
    for seat in (joint.shaft, joint.hub):
        over = drawn.told(f"{seat.side}_over_opposite")
        depth = drawn.told(f"{seat.side}_depth")
        assert over.value == pytest.approx(seat.over_opposite.nominal)
        assert depth.value == pytest.approx(seat.depth.nominal)
    # The size over the far side ends where the depth does: at the keyway's floor.
    shaft = drawn.told("shaft_over_opposite"), drawn.told("shaft_depth")
    assert isclose(shaft[0].top, shaft[1].bottom, abs_tol=0.01)
    hub = drawn.told("hub_over_opposite"), drawn.told("hub_depth")
    assert isclose(hub[0].top, hub[1].top, abs_tol=0.01)
    # Both depths are measured from the top of the round.
    assert isclose(shaft[1].top, hub[1].bottom, abs_tol=0.01)


@pytest.mark.parametrize("name", ["usual", "small", "inch", "Woodruff"])
def test_round_and_key_have_one_scale(name):
    joint = JOINTS[name]
    drawn = Drawn(joint)
    assert "times its size" not in drawn.html
    scale = drawn.told("width").length / joint.key.width.nominal
    for field, size in (
        ("shaft_depth", joint.shaft.depth),
        ("hub_depth", joint.hub.depth),
        ("shaft_over_opposite", joint.shaft.over_opposite),
        ("hub_over_opposite", joint.hub.over_opposite),
    ):
        assert isclose(drawn.told(field).length, size.nominal * scale, abs_tol=0.03)
    key = drawn.told("key_height")
    assert isclose(key.tall, joint.key.height.nominal * scale, abs_tol=0.03)
    assert isclose(key.wide, joint.key.width.nominal * scale, abs_tol=0.03)


def test_a_key_that_would_be_lost_in_its_shaft_says_that_it_is_drawn_larger():
    joint = JOINTS["large shaft"]
    drawn = Drawn(joint)
    said = float(drawn.html.partition("The key is drawn ")[2].partition(" ")[0])
    of_key = drawn.told("width").length / joint.key.width.nominal
    of_round = (
        drawn.told("shaft_over_opposite").length + drawn.told("shaft_depth").length
    ) / joint.shaft.diameter
    assert isclose(of_key / of_round, said, rel_tol=0.01)


def test_the_key_has_every_limit_in_both_systems_its_own_first():
    rows = dict((row[0], row[1:]) for row in Drawn(JOINTS["usual"]).key)  # noqa: C402
    assert rows["shaft, over the far side"] == ("25.800 to 26.000 mm", "1.0157 to 1.0236 in")
    assert rows["hub, from the far side of the bore"][0] == "33.300 to 33.500 mm"
    assert rows["key to the hub's floor".replace("'", "&#x27;")][0] == "0.300 to 0.790 mm"
    inch = Drawn(JOINTS["inch"])
    assert inch.key[0] == ("key, width b", "0.2480 to 0.2500 in", "6.299 to 6.350 mm")
    assert "b 0.25 in" in inch.words


def test_every_size_is_told_in_both_systems_those_of_the_key_first():
    usual, inch = Drawn(JOINTS["usual"]), Drawn(JOINTS["inch"])
    metric = ["26", "3.3", "33.3", "4", "b 8"]
    assert sorted(usual.words_in("mm")) == sorted(usual.words) == metric
    imperial = ["0.1299 in", "0.1575 in", "1.0236 in", "1.311 in", "b 0.315 in"]
    assert sorted(usual.words_in("inch")) == sorted(usual.others) == imperial
    imperial = ["0.1141 in", "0.1409 in", "0.8591 in", "1.1141 in", "b 0.25 in"]
    assert sorted(inch.words_in("inch")) == sorted(inch.words) == imperial
    metric = ["2.899", "21.822", "28.299", "3.578", "b 6.35"]
    assert sorted(inch.words_in("mm")) == sorted(inch.others) == metric


def test_a_key_and_a_keyway_alone_are_told_in_both_systems():
    joint = JOINTS["inch"]
    key, seat = Drawn(joint.key), Drawn(joint.hub)
    assert (key.words, key.others) == (["0.25 in", "0.25 in"], ["6.35", "6.35"])
    assert seat.words == ["b 0.25 in", "1.1141 in", "0.1141 in"]
    assert seat.others == ["b 6.35", "28.299", "2.899"]


def test_three_parts_have_three_hatchings():
    drawn = Drawn(JOINTS["usual"])
    fills = {part.get("class") for part in drawn.svg.iter() if "url" in part.get("fill", "")}
    assert fills == {"shoplog-rising", "shoplog-falling", "shoplog-close"}


@pytest.mark.parametrize("side", ["shaft", "hub"])
def test_a_keyway_alone_has_the_sizes_of_its_side(side):
    seat = getattr(JOINTS["usual"], side)
    drawn = Drawn(seat)
    assert drawn.told(f"{side}_depth").value == pytest.approx(seat.depth.nominal)
    assert drawn.told(f"{side}_over_opposite").value == pytest.approx(seat.over_opposite.nominal)
    assert not drawn.tells("key_height")


def test_a_key_alone_is_its_section_to_scale():
    drawn = Drawn(JOINTS["usual"].key)
    width, height = drawn.told("width"), drawn.told("height")
    assert (width.value, height.value) == (8, 7)
    assert isclose(width.length / height.length, 8 / 7, rel_tol=1e-3)


@pytest.mark.parametrize("joint", JOINTS.values(), ids=JOINTS)
def test_no_words_meet_and_nothing_leaves_the_frame(joint):
    for value in (joint, joint.shaft, joint.hub, joint.key):
        drawn = Drawn(value)
        assert faults(drawn) == []
        assert len(drawn.html) < MOST_BYTES


@given(st.floats(6.01, 500))
def test_the_key_of_any_shaft_is_drawn_without_a_fault(diameter):
    assert faults(Drawn(parallel_key(diameter))) == []
