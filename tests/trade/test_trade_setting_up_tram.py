"""A head out of tram: what the sweep says, and what the tilt leaves by a second way."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, isfinite, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.trade.declare import TradeError
from shoplog.trade.setting_up.tram import head_tram, tram_dish, tram_shim


def lowest(tilt: float, diameter: float, along: bool, across: np.ndarray) -> np.ndarray:
    """The height that a tilted circle of points leaves at each place across the feed, by search.

    The circle is turned about the line across the feed (lean along it) or along the feed.
    """
    turn = np.linspace(0, 2 * np.pi, 2_000_001)
    radius, lean = diameter / 2, radians(tilt)
    x, y = radius * np.cos(turn), radius * np.sin(turn)
    if along:
        places, heights = y, -x * sin(lean)
    else:
        places, heights = y * cos(lean), -y * sin(lean)
    found = []
    for place in across:
        near = np.abs(places - place) < diameter * 1e-6
        found.append(heights[near].min())
    return np.array(found)


@pytest.mark.parametrize(("tilt", "diameter", "width"), [(0.5, 80, 60), (3, 63, 50), (12, 100, 20)])
def test_the_dish_is_what_a_tilted_circle_leaves(tilt, diameter, width):
    edge, middle = lowest(tilt, diameter, True, np.array([width / 2, 0.0]))
    made = tram_dish(tilt, diameter, width)
    assert made.dish == pytest.approx(1000 * (edge - middle), rel=2e-4)


@pytest.mark.parametrize(("tilt", "diameter", "width"), [(0.5, 80, 60), (3, 63, 50), (12, 100, 20)])
def test_the_step_is_what_a_circle_tilted_across_leaves(tilt, diameter, width):
    one, other = lowest(tilt, diameter, False, np.array([-width / 2, width / 2]))
    made = tram_dish(tilt, diameter, width)
    assert made.step == pytest.approx(1000 * (one - other), rel=2e-4)


def test_the_hollow_has_its_radius_at_the_middle():
    made = tram_dish(2, 80, 1)
    assert made.dish == pytest.approx(1000 * 0.5**2 / (2 * made.dish_radius), rel=1e-3)
    assert tram_dish(0, 80, 60).dish_radius is None


def test_a_strip_as_wide_as_the_cutter_has_the_whole_tilt_of_its_radius():
    made = tram_dish(0.1, 80, 80)
    assert made.dish == pytest.approx(1000 * 40 * sin(radians(0.1)))
    assert made.heel == pytest.approx(2 * made.dish)


@given(st.floats(0.001, 30), st.floats(1, 500), st.floats(0.05, 1))
def test_the_dish_is_less_than_half_the_step_and_grows_with_the_width(tilt, diameter, part):
    made = tram_dish(tilt, diameter, diameter * part)
    narrower = tram_dish(tilt, diameter, diameter * part * 0.9)
    assert narrower.dish < made.dish <= made.step / 2 * (1 + 1e-9)


@given(st.floats(-0.49, 0.49), st.floats(1, 1000))
def test_the_tilt_leads_back_to_the_readings(part, sweep):
    made = head_tram(part * sweep, sweep)
    assert sweep * sin(radians(made.tilt)) == pytest.approx(part * sweep, abs=1e-9 * sweep)
    assert made.per_100 == pytest.approx(1e5 * tan(radians(made.tilt)))


def test_the_sweep_is_told_in_a_sentence_with_the_way_to_swing():
    made = head_tram(0.08, 200)
    assert made.describe() == (
        "+0.080 mm across 200 mm: the head leans 0.0229°, 40.0 µm over 100 mm."
    )
    assert made.notes[0] == (
        "the spindle's face is lower at the right: swing the head so that its right side goes up,"
        " until both sides read alike"
    )
    assert "its left side goes up" in head_tram(-0.08, 200).notes[0]
    assert len(made.cautions) == 2
    assert "isolated" in made.cautions[0]


def test_a_head_in_tram_asks_for_the_other_plane():
    assert head_tram(0, 200).notes == (
        "this plane is square; sweep the other one too, from front to back",
    )


def test_a_shim_lifts_one_row_of_bolts_by_the_tilt():
    assert tram_shim(head_tram(0.08, 200), 150) == pytest.approx(0.06)
    assert tram_shim(head_tram(-0.08, 200), 150) == pytest.approx(0.06)


def test_the_dish_is_told_in_a_sentence():
    assert tram_dish(0.0573, 80, 60).describe() == (
        "0.0573° out of tram, 60 mm wide with a cutter of 80 mm: a dish 13.5 µm deep if it leans"
        " along the feed, a step of 60.0 µm if across."
    )


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: head_tram(120, 200),
            "indicator difference is 120 mm, it must be at least -100 mm and at most 100 mm",
            "indicator_difference",
        ),
        (
            lambda: head_tram(0.1, 0),
            "sweep diameter is 0 mm, it must be over 0 mm",
            "sweep_diameter",
        ),
        (
            lambda: tram_dish(31, 80, 60),
            "tilt is 31 deg, it must be at least 0 deg and at most 30 deg",
            "tilt",
        ),
        (
            lambda: tram_dish(-0.1, 80, 60),
            "tilt is -0.1 deg, it must be at least 0 deg and at most 30 deg",
            "tilt",
        ),
        (
            lambda: tram_dish(0.1, 80, 90),
            "width of cut is 90 mm, it must be at most 80 mm (the cutter's diameter)",
            "width_of_cut",
        ),
        (lambda: tram_shim(head_tram(0.1, 200), -1), "bolt distance is -1 mm, it must be over 0 mm",
         "bolt_distance"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(call, message, argument):
    with pytest.raises(TradeError) as caught:
        call()
    assert (str(caught.value), caught.value.argument) == (message, argument)


def attempt(call: Callable[[], float]) -> float | str:
    """What a call gives, or how it is refused."""
    try:
        return call()
    except TradeError as refused:
        return str(refused)


NUMBERS = st.sampled_from([0.0, -1.0, 1e-300, 1e100, -1e100, 1e9, 1.0])


@given(NUMBERS, NUMBERS, NUMBERS)
def test_no_number_breaks_a_formula(one, other, third):
    for call in (
        lambda: head_tram(one, other).per_100,
        lambda: tram_dish(one, other, third).dish,
        lambda: tram_dish(one, other, third).step,
        lambda: tram_shim(head_tram(one, other), third),
    ):
        made = attempt(call)
        assert made if isinstance(made, str) else isfinite(made)
