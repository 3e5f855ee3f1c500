"""Speeds, feeds, removal rates, times and spindle steps: good input, bad input, identities."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import isfinite, nan, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.trade.declare import In, TradeError
from shoplog.trade.machining import cutting as c
from shoplog.trade.offers import OFFERS

# A slow machine is no fault of a formula.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

speeds = st.floats(0.1, 1e4)
sizes = st.floats(0.01, 1e4)
feeds = st.floats(1e-4, 10)
counts = st.integers(1, 100)

FLOATS = (0.0, -1.0, 1e-300, 5e-324, 1e100, -1e100, nan)
FORMULAS = {
    c.spindle_speed: (30.0, 10.0),
    c.cutting_speed: (955.0, 10.0),
    c.table_feed: (0.05, 4, 900.0),
    c.feed_per_tooth: (180.0, 4, 900.0),
    c.feed_rate: (0.1, 500.0),
    c.feed_per_rev: (50.0, 500.0),
    c.removal_rate_turning: (30.0, 0.1, 0.5),
    c.removal_rate_milling: (0.5, 10.0, 180.0),
    c.removal_rate_drilling: (10.0, 0.1, 900.0),
    c.turning_time: (100.0, 0.1, 500.0, 2),
    c.milling_time: (100.0, 180.0, 5.0, 5.0, 2),
    c.drilling_time: (20.0, 0.1, 500.0),
}


def refused_argument(call: Callable[[], float]) -> str:
    """The argument at fault where a call is refused; `""` where it gives a finite number."""
    try:
        number = call()
    except TradeError as refused:
        return refused.argument
    return "" if isfinite(number) else "none: it gave a number that is not finite"


@given(speeds, sizes)
def test_spindle_speed_and_cutting_speed_undo_each_other(speed: float, diameter: float) -> None:
    assert c.cutting_speed(c.spindle_speed(speed, diameter), diameter) == pytest.approx(speed)


@given(speeds, sizes)
def test_twice_the_diameter_is_half_the_spindle_speed(speed: float, diameter: float) -> None:
    halved = c.spindle_speed(speed, 2 * diameter)
    assert 2 * halved == pytest.approx(c.spindle_speed(speed, diameter))


@given(feeds, counts, speeds)
def test_table_feed_and_feed_per_tooth_undo_each_other(
    feed: float, teeth: int, speed: float
) -> None:
    table_feed = c.table_feed(feed, teeth, speed)
    assert c.feed_per_tooth(table_feed, teeth, speed) == pytest.approx(feed)


@given(feeds, counts, speeds)
def test_table_feed_is_the_feed_rate_of_all_teeth(feed: float, teeth: int, speed: float) -> None:
    assert c.table_feed(feed, teeth, speed) == pytest.approx(c.feed_rate(feed * teeth, speed))


@given(feeds, speeds)
def test_feed_rate_and_feed_per_rev_undo_each_other(feed: float, speed: float) -> None:
    assert c.feed_per_rev(c.feed_rate(feed, speed), speed) == pytest.approx(feed)


@given(st.floats(1, 1000), st.floats(0.001, 0.499), feeds, speeds)
def test_turned_ring_at_mean_diameter_is_time_times_removal_rate(
    diameter: float, part: float, feed: float, speed: float
) -> None:
    depth = part * diameter
    mean = c.cutting_speed(speed, diameter - depth)
    volume = c.removal_rate_turning(mean, feed, depth) * c.turning_time(100, feed, speed)
    ring = pi / 4 * (diameter**2 - (diameter - 2 * depth) ** 2) * 100 / 1000
    assert volume == pytest.approx(ring)


@given(sizes, feeds, speeds)
def test_drilled_hole_is_time_times_removal_rate(
    diameter: float, feed: float, speed: float
) -> None:
    rate = c.removal_rate_drilling(diameter, feed, speed)
    hole = pi / 4 * diameter**2 * 30 / 1000
    assert rate * c.drilling_time(30, feed, speed) == pytest.approx(hole)


@given(sizes, st.floats(1, 1e4), counts)
def test_milled_slab_is_time_times_removal_rate(length: float, feed: float, passes: int) -> None:
    minutes = c.milling_time(length, feed, passes=passes)
    volume = c.removal_rate_milling(2, 10, feed) * minutes
    assert volume == pytest.approx(passes * 2 * 10 * length / 1000)


def test_approach_and_overrun_are_travelled_in_every_pass() -> None:
    assert c.milling_time(80, 100, 15, 5, 3) == pytest.approx(3.0)


def test_passes_multiply_turning_time() -> None:
    assert c.turning_time(100, 0.1, 500, 3) == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: c.spindle_speed(30, 0),
            "diameter is 0 mm, it must be over 0 mm",
            "diameter",
        ),
        (
            lambda: c.spindle_speed(-30, 10),
            "cutting speed is -30 m/min, it must be over 0 m/min",
            "cutting_speed",
        ),
        (
            lambda: c.spindle_speed(30, nan),
            "diameter is nan mm, it must be over 0 mm",
            "diameter",
        ),
        (
            lambda: c.cutting_speed(1e100, 10),
            "spindle speed is 1e+100 rpm, it must be at least 1e-09 rpm and at most 1e+09 rpm",
            "spindle_speed",
        ),
        (
            lambda: c.table_feed(0.05, 2.5, 900),
            "teeth is 2.5, it must be a whole number",
            "teeth",
        ),
        (
            lambda: c.table_feed(0.05, 0, 900),
            "teeth is 0, it must be at least 1 and at most 1000",
            "teeth",
        ),
        (
            lambda: c.feed_per_tooth(0, 4, 900),
            "table feed is 0 mm/min, it must be over 0 mm/min",
            "table_feed",
        ),
        (
            lambda: c.feed_rate(-0.1, 500),
            "feed per rev is -0.1 mm/rev, it must be over 0 mm/rev",
            "feed_per_rev",
        ),
        (
            lambda: c.removal_rate_turning(30, 0.1, 0),
            "depth of cut is 0 mm, it must be over 0 mm",
            "depth_of_cut",
        ),
        (
            lambda: c.removal_rate_milling(1, -4, 100),
            "width of cut is -4 mm, it must be over 0 mm",
            "width_of_cut",
        ),
        (
            lambda: c.turning_time(100, 0.1, 500, 0),
            "passes is 0, it must be at least 1 and at most 1000",
            "passes",
        ),
        (
            lambda: c.milling_time(100, 180, approach=-1),
            "approach is -1 mm, it must be at least 0 mm and at most 1e+09 mm",
            "approach",
        ),
        (
            lambda: c.drilling_time(-5, 0.1, 500),
            "depth is -5 mm, it must be over 0 mm",
            "depth",
        ),
        (lambda: c.spindle_step(100, []), "no steps are given", "steps"),
        (
            lambda: c.spindle_step(100, [200, 0, 400]),
            "step 2 is 0 rpm, it must be over 0 rpm and at most 1e+09 rpm",
            "steps",
        ),
        (
            lambda: c.spindle_step(100, [-200]),
            "step 1 is -200 rpm, it must be over 0 rpm and at most 1e+09 rpm",
            "steps",
        ),
        (lambda: c.spindle_step(0, [200]), "speed is 0 rpm, it must be over 0 rpm", "speed"),
        (
            lambda: c.spindle_step(100, [200], diameter=0),
            "diameter is 0 mm, it must be over 0 mm",
            "diameter",
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


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__name__)
@pytest.mark.parametrize("odd", FLOATS)
def test_no_float_gets_past_as_an_error_of_another_kind(
    formula: Callable[..., float], odd: float
) -> None:
    good = FORMULAS[formula]
    for place in range(len(good)):
        arguments = [*good[:place], odd, *good[place + 1 :]]
        name = OFFERS[formula.__name__].parameters[place].name
        assert refused_argument(partial(formula, *arguments)) in ("", name)


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__name__)
@pytest.mark.parametrize("extreme", [c.SMALLEST, c.LARGEST])
def test_the_ends_of_the_range_give_finite_numbers(
    formula: Callable[..., float], extreme: float
) -> None:
    parameters = OFFERS[formula.__name__].parameters
    counted = {"teeth": 1, "passes": 1000}
    other = c.SMALLEST if extreme == c.LARGEST else c.LARGEST
    for alternate in (extreme, other):
        arguments = [
            counted.get(parameter.name, alternate if place else extreme)
            for place, parameter in enumerate(parameters)
        ]
        assert isfinite(formula(*arguments))


def test_step_is_the_fastest_at_or_below() -> None:
    step = c.spindle_step(955, [1600, 200, 800, 400, 800])
    assert step == c.SpindleStep(800, 955, None)
    assert step.cutting_speed is None
    assert step.cautions == ()
    assert step.describe() == "800 rpm: the fastest step at or below the 955 rpm asked."


def test_step_equal_to_the_speed_is_taken() -> None:
    assert c.spindle_step(400, [200, 400, 800]).speed == 400


def test_step_equal_but_for_rounding_is_taken() -> None:
    assert c.spindle_step(0.1 + 0.2, [0.1, 0.3]).speed == 0.3
    assert c.spindle_step(0.3, [0.1, 0.1 + 0.2]).speed == 0.1 + 0.2


def test_step_with_a_diameter_gives_the_true_cutting_speed() -> None:
    step = c.spindle_step(955, [200, 400, 800], diameter=10)
    assert step.cutting_speed == pytest.approx(25.1327, abs=5e-5)
    assert step.describe() == (
        "800 rpm, 25.1 m/min at 10 mm: the fastest step at or below the 955 rpm asked."
    )


def test_below_the_slowest_step_that_step_with_a_caution_and_its_cutting_speed() -> None:
    step = c.spindle_step(60, [400, 100, 200], diameter=100)
    assert step.speed == 100
    assert step.below_slowest
    assert step.cautions == (
        "60 rpm is below the slowest step: it runs at 100 rpm,"
        " and cuts at 31.4 m/min, not 18.8 m/min",
    )
    assert step.describe() == (
        "100 rpm, 31.4 m/min at 100 mm: the slowest step, above the 60 rpm asked."
    )


def test_below_the_slowest_step_without_a_diameter() -> None:
    step = c.spindle_step(2.5, [100])
    assert step.cautions == ("2.5 rpm is below the slowest step: it runs at 100 rpm",)


@given(speeds, st.lists(speeds, min_size=1, max_size=20))
def test_step_is_one_of_the_steps_and_none_is_nearer_from_below(
    speed: float, steps: list[float]
) -> None:
    step = c.spindle_step(speed, steps)
    assert step.speed in steps
    assert not any(step.speed < other <= speed for other in steps)
    assert bool(step.cautions) == (min(steps) > speed * (1 + 1e-9))


def test_a_speed_to_set_carries_the_caution_of_marked_speeds() -> None:
    cutting = [offer for offer in OFFERS.values() if offer.topic == "cutting"]
    carrying = [offer.name for offer in cutting if offer.cautions == (c.MARKED_SPEED,)]
    assert carrying == ["spindle_speed", "spindle_step"]


def test_a_diameter_may_be_left_out_of_a_step() -> None:
    *_, diameter = OFFERS["spindle_step"].parameters
    assert (diameter.kinds, diameter.required) == ((In("mm"),), False)
