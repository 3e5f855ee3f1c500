"""A dividing plate: circles, holes, pin and arms, read back from what is drawn."""

import re
from math import atan2, degrees, hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.declare import TradeError
from shoplog.trade.setting_up.dividing import dividing, dividing_angle

INDEXINGS = {
    "six": dividing(6),
    "thirty-one": dividing(31),
    "whole turns": dividing(10),
    "one plate": dividing(28, 60, plates="one plate"),
    "angle": dividing_angle(8 + 50 / 60),
    "many circles": dividing(360, 40, [float(holes) for holes in range(15, 100)]),
    "a thousand holes": dividing(7, 40, [1000.0, 700.0]),
    "one circle": dividing(3, 40, [3.0]),
    "all but one": dividing(41, 40),
}
with_circle = pytest.mark.parametrize(
    "found", [one for one in INDEXINGS.values() if one.circle], ids=lambda one: one.describe()[:12]
)


def around(drawn, place):
    """The angle of a place about the plate's centre, clockwise from the top, and its radius."""
    middle = drawn.all("circle")[0].points[0]
    x, y = place[0] - middle[0], place[1] - middle[1]
    return degrees(atan2(x, -y)) % 360, hypot(x, y)


def centre_of(told):
    return (told.left + told.right) / 2, told.points[0][1]


def radius_of(told):
    return float(told.element.get("r"))


@with_circle
def test_the_pin_goes_from_the_top_over_its_spaces_clockwise(found):
    drawn = Drawn(found)
    assert around(drawn, centre_of(drawn.told("pin_from")))[0] % 360 == pytest.approx(0, abs=0.3)
    to = drawn.told("pin_to")
    assert to.value == found.spaces
    angle, radius = around(drawn, centre_of(to))
    assert angle == pytest.approx(360 * found.spaces / found.holes, abs=0.5)
    (chosen,) = [told for told in drawn.all("circle") if told.value == found.holes]
    assert radius == pytest.approx(radius_of(chosen), abs=0.1)


@pytest.mark.parametrize("found", INDEXINGS.values(), ids=INDEXINGS)
def test_what_is_counted_is_in_neither_system(found):
    drawn = Drawn(found)
    assert drawn.others == []
    assert all(text.isdigit() for text in drawn.words)


@with_circle
def test_the_arms_stand_just_outside_the_two_holes(found):
    drawn = Drawn(found)
    space = 360 / found.holes
    first, last = drawn.told("arm_from"), drawn.told("arm_to")
    assert first.value == last.value == found.spaces + 1
    before = around(drawn, first.points[-1])[0] - 360
    after = around(drawn, last.points[-1])[0]
    assert -0.5 * space - 0.3 < before < 0
    assert 0 < after - found.spaces * space < 0.5 * space + 0.3


def test_every_hole_of_the_chosen_circle_is_drawn_at_its_angle():
    found = INDEXINGS["six"]
    drawn = Drawn(found)
    rings = drawn.told("holes")
    starts = re.findall(r"M([\d.]+),([\d.]+)A([\d.]+)", rings.element.get("d"))
    assert rings.value == len(starts) == 39
    middles = [(float(x) + float(size), float(y)) for x, y, size in starts]
    angles = sorted((around(drawn, middle)[0] + 1) % 360 - 1 for middle in middles)
    assert angles == pytest.approx([number * 360 / 39 for number in range(39)], abs=0.3)


def test_the_circles_lie_from_the_fewest_holes_to_the_most():
    drawn = Drawn(INDEXINGS["six"])
    told = drawn.all("circle")
    by_radius = sorted(told, key=radius_of)
    assert [one.value for one in by_radius] == [37, 39, 41, 43, 47, 49]


def test_holes_are_counted_from_the_pin_which_is_0():
    words = Drawn(INDEXINGS["six"]).words
    assert {"0", "5", "10", "26"} <= set(words)
    assert {"0", "9"} <= set(Drawn(INDEXINGS["thirty-one"]).words)


def test_the_key_says_turns_circle_spaces_and_the_holes_between_the_arms():
    assert Drawn(INDEXINGS["six"]).key == [
        ("whole turns of the crank", "6"),
        ("circle", "39 holes, plate 3"),
        ("spaces besides", "26"),
        ("holes between the arms", "27, the pin&#x27;s own counted"),
    ]
    assert "Circles of this plate: 37, 39, 41, 43, 47, 49." in Drawn(INDEXINGS["six"]).html
    assert ("off what was asked", "-61.2 seconds of arc") in Drawn(INDEXINGS["angle"]).key


def test_whole_turns_need_no_sector():
    drawn = Drawn(INDEXINGS["whole turns"])
    assert not drawn.tells("arm_from")
    assert "Whole turns: any circle, and back to the same hole." in drawn.html


def test_of_many_circles_and_holes_some_are_drawn_and_that_is_said():
    drawn = Drawn(INDEXINGS["many circles"])
    assert len(drawn.all("circle")) <= 13
    assert INDEXINGS["many circles"].holes in [told.value for told in drawn.all("circle")]
    assert "of 85 circles are drawn." in drawn.html
    assert "are too many to draw each." in Drawn(INDEXINGS["a thousand holes"]).html


@pytest.mark.parametrize("found", INDEXINGS.values(), ids=INDEXINGS)
def test_no_words_meet_and_nothing_leaves_the_frame(found):
    drawn = Drawn(found)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES + 3000  # a path for each hole of a circle


@settings(deadline=None)
@given(
    st.integers(2, 400), st.integers(1, 120), st.lists(st.integers(1, 1000), min_size=1, max_size=9)
)
def test_any_division_is_drawn_without_a_fault(divisions, ratio, circles):
    try:
        found = dividing(divisions, ratio, [*map(float, circles)])
    except TradeError:
        found = dividing_angle(360 / divisions, ratio, [*map(float, circles)])
    assert faults(Drawn(found)) == []
