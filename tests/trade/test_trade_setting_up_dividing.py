"""Simple indexing: every division by hand arithmetic, and what no plate gives."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.trade.declare import TradeError
from shoplog.trade.setting_up.dividing import dividing, dividing_angle, plate_sets

CIRCLES = st.lists(st.integers(1, 200), min_size=1, max_size=8)


def floats(numbers):
    return [float(number) for number in numbers]


def attempt(call: Callable[[], object]) -> object:
    """What a call gives, or how it is refused."""
    try:
        return call()
    except TradeError as refused:
        return str(refused)


@given(st.integers(2, 1000), st.integers(1, 120), CIRCLES)
def test_so_many_moves_of_the_crank_are_one_turn_of_the_work(divisions, ratio, circles):
    made = attempt(lambda: dividing(divisions, ratio, floats(circles)))
    possible = Fraction(ratio, divisions) % 1 == 0 or any(
        (Fraction(ratio, divisions) * holes).denominator == 1 for holes in circles
    )
    assert isinstance(made, str) != possible
    if not isinstance(made, str):
        part = Fraction(made.spaces, made.holes) if made.holes else 0
        assert (made.turns + part) * divisions == ratio
        assert made.made == pytest.approx(360 / divisions)
        assert made.spaces < made.holes or not made.holes


@given(st.integers(2, 1000), st.integers(1, 120), CIRCLES)
def test_the_circles_are_ranked_largest_first_and_each_does(divisions, ratio, circles):
    made = attempt(lambda: dividing(divisions, ratio, floats(circles)))
    if isinstance(made, str) or made.circle is None:
        return
    ranked = [made.circle, *made.others]
    assert [each.holes for each in ranked] == sorted({each.holes for each in ranked}, reverse=True)
    assert {Fraction(each.spaces, each.holes) for each in ranked} == {
        Fraction(made.spaces, made.holes)
    }


@given(st.floats(1 / 3600, 360), st.integers(1, 120), CIRCLES)
def test_no_hole_is_nearer_to_an_angle_than_the_one_that_is_taken(angle, ratio, circles):
    made = dividing_angle(angle, ratio, floats(circles))
    errors = [abs(round(angle * ratio / 360 * n) / n * 360 / ratio - angle) for n in circles]
    assert abs(made.error) == pytest.approx(min(errors), abs=1e-6)


def test_a_division_says_turns_spaces_and_the_arms():
    made = dividing(31)
    assert made.describe() == (
        "31 divisions at 40:1: 1 turn and 9 spaces on the circle of 31 (plate 2)."
    )
    assert made.between_arms == 10
    assert "set the arms to 10 holes, the pin's own counted, and move them on after every cut" in (
        made.notes
    )
    assert made.error == 0
    assert "lock the spindle" in made.cautions[0]


def test_other_circles_that_do_are_named():
    made = dividing(6)
    assert [each.holes for each in made.others] == [33, 27, 21, 18, 15]
    assert made.on_plate == (37, 39, 41, 43, 47, 49)
    assert "26 spaces on the circle of 39 (plate 3)" in made.describe()
    assert made.notes[-1].startswith("the same: 22 spaces on the circle of 33 (plate 2); ")


def test_whole_turns_need_no_circle():
    made = dividing(10)
    assert (made.turns, made.circle, made.spaces, made.holes, made.between_arms) == (
        4, None, 0, 0, 0,
    )  # fmt: skip
    assert made.describe() == "10 divisions at 40:1: 4 turns."


def test_given_circles_come_before_a_set_of_plates():
    assert dividing(9, circles=[18.0, 27.0]).holes == 27
    assert dividing(28, 60, plates="One plate").circle.plate == "second side"


def test_an_angle_takes_the_nearest_hole_and_tells_what_is_missing():
    exact = dividing_angle(19)
    assert (exact.turns, exact.spaces, exact.holes, exact.error) == (2, 3, 27, 0.0)
    off = dividing_angle(8 + 50 / 60)
    assert off.describe() == (
        "8.83333° at 40:1: 48 spaces on the circle of 49 (plate 3), -61.2 seconds of arc off."
    )
    assert dividing_angle(8 + 50 / 60, plates="one plate").error == pytest.approx(0, abs=1e-9)
    assert dividing_angle(360).turns == 40


def test_what_no_circle_gives_says_what_would_and_what_is_nearest():
    with pytest.raises(TradeError) as caught:
        dividing(127)
    assert str(caught.value) == (
        "no circle gives 127 divisions at 40:1: it takes a number of holes that 127 goes into"
    )
    assert caught.value.hint == (
        "differential or compound indexing, or another plate; nearest that go are 124 and 128"
    )
    for near in (124, 128):
        assert dividing(near).divisions == near


def test_with_nothing_near_the_hint_names_no_number():
    with pytest.raises(TradeError) as caught:
        dividing(99_991, 1, [2.0])
    assert caught.value.hint == "differential or compound indexing, or another plate"


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: dividing(1),
            "divisions is 1, it must be at least 2 and at most 100000",
            "divisions",
        ),
        (lambda: dividing(6.5), "divisions is 6.5, it must be a whole number", "divisions"),
        (lambda: dividing(6, 0), "ratio is 0, it must be at least 1 and at most 1000", "ratio"),
        (lambda: dividing(6, circles=[]), "there are 0 circles, there may be 1 to 100", "circles"),
        (
            lambda: dividing(6, circles=[15.0, 0.5]),
            "circle 2 has 0.5 holes, it must have a whole number from 1 to 1000",
            "circles",
        ),
        (lambda: dividing(6, plates="mine"), "no set of plates is called 'mine'", "plates"),
        (
            lambda: dividing_angle(361),
            "angle is 361 deg, it must be at least 0.000277778 deg and at most 360 deg",
            "angle",
        ),
    ],
)
def test_what_cannot_be_is_refused(call, message, argument):
    with pytest.raises(TradeError) as caught:
        call()
    assert (str(caught.value), caught.value.argument) == (message, argument)


def test_the_sets_that_are_known_by_name():
    assert {name: len(circles) for name, circles in plate_sets().items()} == {
        "three plates": 18,
        "one plate": 22,
    }
