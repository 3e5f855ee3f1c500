"""The stress through the walls of a joint: its ends, its equilibrium, what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.trade.declare import OutOfRange, TradeError
from shoplog.trade.press_fits.cylinders import hub_hoop_stress, shaft_hoop_stress
from shoplog.trade.press_fits.wall_stress import hub_wall_stress, shaft_wall_stress


def test_at_the_ends_it_is_what_the_other_formulas_say() -> None:
    hub = hub_wall_stress(60, 30, 70, 30)
    assert hub.hoop == pytest.approx(hub_hoop_stress(60, 30, 70))
    assert hub.radial == pytest.approx(-60)
    assert hub_wall_stress(60, 30, 70, 70).radial == pytest.approx(0)
    shaft = shaft_wall_stress(60, 30, 12, 12)
    assert shaft.hoop == pytest.approx(shaft_hoop_stress(60, 30, 12))
    assert shaft.radial == pytest.approx(0)
    assert shaft_wall_stress(60, 30, 12, 30).radial == pytest.approx(-60)


def test_a_solid_shaft_is_pressed_alike_all_through() -> None:
    for at in (0, 1e-9, 15, 30):
        found = shaft_wall_stress(60, 30, 0, at)
        assert (found.hoop, found.radial) == (-60, -60)


@given(st.floats(1, 500), st.floats(1.01, 20), st.floats(0, 1), st.floats(0, 1000))
def test_hoop_and_radial_stress_have_one_sum_all_through_a_wall(
    diameter: float, ratio: float, part: float, pressure: float
) -> None:
    """Lamé's 2 A: what makes the strain along the axis the same everywhere."""
    outside = diameter * ratio
    at = min(outside, diameter + part * (outside - diameter))
    one, two = (hub_wall_stress(pressure, diameter, outside, place) for place in (at, diameter))
    assert one.hoop + one.radial == pytest.approx(two.hoop + two.radial, abs=1e-6)
    bore = diameter / ratio
    at = max(bore, min(diameter, bore + part * (diameter - bore)))
    one, two = (shaft_wall_stress(pressure, diameter, bore, place) for place in (at, diameter))
    assert one.hoop + one.radial == pytest.approx(two.hoop + two.radial, abs=1e-6)


def test_each_ring_of_a_wall_is_in_equilibrium() -> None:
    """The pull round the rings of a half wall bears the pressure over the joint's diameter."""
    steps, pressure, inner, outer = 20_000, 60, 30.0, 70.0
    width = (outer - inner) / steps
    pull = sum(
        hub_wall_stress(pressure, inner, outer, inner + (step + 0.5) * width).hoop * width / 2
        for step in range(steps)
    )
    assert 2 * pull == pytest.approx(pressure * inner, rel=1e-6)


@pytest.mark.parametrize("at", [29, 71, -1, 1e100])
def test_a_place_outside_the_hub_is_refused(at: float) -> None:
    with pytest.raises(OutOfRange, match=r"must be at least 30 mm and at most 70 mm"):
        hub_wall_stress(60, 30, 70, at)


def test_no_wall_and_no_pressure_below_nothing_are_taken() -> None:
    with pytest.raises(TradeError, match="wall is 0 mm thick"):
        hub_wall_stress(60, 30, 30, 30)
    with pytest.raises(OutOfRange, match="pressure is -1 MPa"):
        shaft_wall_stress(-1, 30, 0, 10)
    with pytest.raises(OutOfRange, match="at is 31 mm"):
        shaft_wall_stress(1, 30, 0, 31)


def test_the_sentence_names_both_stresses() -> None:
    assert hub_wall_stress(60, 30, 60, 30).describe() == (
        "at 30.000 mm diameter: 100.0 MPa round the wall, -60.0 MPa across it."
    )
