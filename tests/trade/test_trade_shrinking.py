"""Shrinking, heat and speed: what must hold, a second opinion, and what is refused, in words."""

from __future__ import annotations

from math import isfinite, pi, sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.trade.declare import Size, TradeError
from shoplog.trade.limits_and_fits.fits import limits_of
from shoplog.trade.press_fits.cylinders import hub_hoop_stress, lame_pressure
from shoplog.trade.press_fits.elastic import elastic_material
from shoplog.trade.press_fits.press_record import JointFriction, PressFit
from shoplog.trade.press_fits.pressing import press_fit
from shoplog.trade.press_fits.running import running_joint
from shoplog.trade.press_fits.shrinking import (
    ShrinkTemperatures,
    assembly_temperatures,
    heated_diameter_growth,
    interference_at_temperature,
)
from shoplog.trade.press_fits.spinning import centrifugal_loss, loosening_speed, spinning_hub_stress

HOLE, SHAFT = limits_of(30, "H7"), limits_of(30, "s6")
ALUMINIUM = elastic_material("aluminium")


def joint(**changes: Any) -> PressFit:
    figures = {"hole": HOLE, "shaft": SHAFT, "length": 25, "hub_diameter": 60, "hub": ALUMINIUM}
    return press_fit(**(figures | changes))


# Temperatures to join at


def plan(**changes: Any) -> ShrinkTemperatures:
    return assembly_temperatures(**({"hole": HOLE, "shaft": SHAFT} | changes))


def test_each_way_of_joining_brings_interference_and_slip_together() -> None:
    made = plan(shaft_material=elastic_material("aluminium"))
    assert (made.interference_max, made.slip, made.growth) == (48, 30, 78)
    assert heated_diameter_growth(30, made.heat_hub_to) == pytest.approx(78)
    assert made.cool_shaft_to is not None
    assert heated_diameter_growth(30, made.cool_shaft_to, 18) == pytest.approx(-78)
    hot = heated_diameter_growth(30, made.heat_hub_with_cold_shaft)
    cold = heated_diameter_growth(30, -78, 18)
    assert hot - cold == pytest.approx(78)


def test_a_stated_slip_and_a_colder_shaft_ask_for_less_heat() -> None:
    assert plan(slip=10).heat_hub_to < plan().heat_hub_to
    colder = plan(cold_shaft=-196)
    assert colder.heat_hub_with_cold_shaft < plan().heat_hub_with_cold_shaft
    assert colder.heat_hub_to == plan().heat_hub_to
    enough = plan(slip=0, cold_shaft=-196, shaft_material=ALUMINIUM)
    assert enough.heat_hub_with_cold_shaft == 20  # the cold alone does it
    assert plan(hub=ALUMINIUM).heat_hub_to < plan().heat_hub_to


def test_cold_that_is_not_to_be_had_is_told() -> None:
    made = plan()
    assert made.cool_shaft_to is None
    assert made.notes == (
        "48 µm of interference and 30 µm of slip are to be won; parts cool fast, so work without"
        " a pause",
        "cooling the shaft alone is not enough, even with liquid nitrogen",
    )
    assert made.describe() == (
        "heat the hub to 242 °C, or the hub to 171 °C with the shaft at -78 °C."
    )
    light = plan(shaft=limits_of(30, "n6"), slip=5, shaft_material=ALUMINIUM)
    assert light.describe() == (
        "heat the hub to 114 °C, or the shaft to -41 °C, or the hub to 20 °C with the shaft at"
        " -78 °C."
    )


def test_a_plan_carries_the_cautions_of_heat_cold_and_welding() -> None:
    said = " ".join(plan().cautions)
    for word in ("burns", "temper", "seals and grease", "PTFE", "plated", "oxygen", "burn", "weld"):
        assert word in said
    warned = plan(part="hardened steel").cautions[0]
    assert warned == (
        "heating the hub alone goes beyond its ceiling of 200 °C (hardened steel): cool the shaft"
        " too"
    )


@pytest.mark.parametrize(
    ("changes", "argument", "message"),
    [
        (
            {"part": "open bearing"},
            "shaft",
            "with the shaft at -78 °C the hub must still be heated to 171 °C, beyond its ceiling of"
            " 120 °C (open bearing: its rings change in size and hardness)",
        ),
        (
            {"part": "cheese"},
            "part",
            "'cheese' is not a part whose ceiling is known here",
        ),
        (
            {"shaft": limits_of(30, "g6")},
            "shaft",
            "these two sizes have a clearance of 7 µm or more: they go together cold",
        ),
        ({"slip": -1}, "slip", "slip is -1 µm, it must be at least 0 µm and at most 1e+09 µm"),
        (
            {"cold_shaft": -250},
            "cold_shaft",
            "cold shaft is -250 degC, it must be at least -196 degC and at most 20 degC",
        ),
        ({"room": 80}, "room", "room is 80 degC, it must be at least 0 degC and at most 50 degC"),
        (
            {"hub": elastic_material("alloy", 70, 0.3)},
            "",
            "alloy has no expansion here, and it is needed",
        ),
    ],
)
def test_a_plan_that_cannot_be_is_refused(
    changes: dict[str, Any], argument: str, message: str
) -> None:
    with pytest.raises(TradeError) as refused:
        plan(**changes)
    assert (str(refused.value), refused.value.argument) == (message, argument)


def test_the_hint_for_a_missing_figure_can_be_typed() -> None:
    with pytest.raises(TradeError) as refused:
        plan(shaft_material=elastic_material("alloy", 70, 0.3))
    assert refused.value.hint == 'give it: elastic_material("alloy", expansion=…)'


# Heat and speed

temperatures = st.floats(min_value=-196, max_value=350)


@given(st.floats(min_value=-100, max_value=100), temperatures, st.floats(min_value=1, max_value=30))
def test_two_parts_of_one_material_and_temperature_keep_their_interference(
    interference: float, temperature: float, expansion: float
) -> None:
    left = interference_at_temperature(
        interference, 30, temperature, temperature, expansion, expansion
    )
    assert left == pytest.approx(interference, abs=1e-9)


@given(temperatures, temperatures)
def test_interference_changes_by_what_the_two_diameters_grow(hub: float, shaft: float) -> None:
    grown = heated_diameter_growth(40, shaft, 11.7) - heated_diameter_growth(40, hub, 23.6)
    assert interference_at_temperature(20, 40, hub, shaft, 23.6, 11.7) == pytest.approx(20 + grown)


def test_an_aluminium_hub_loosens_as_it_warms_and_tightens_as_it_cools() -> None:
    made = joint()
    warm, cold = running_joint(made, 80, 80), running_joint(made, 0, 0)
    assert warm.interference_max == pytest.approx(48 - 10.08 - (23.6 - 11.7) * 30 * 60 / 1000)
    assert cold.interference_max == pytest.approx(48 - 10.08 + (18 - 8.5) * 30 * 20 / 1000)
    assert warm.torque_min == warm.pressure_min == warm.force_min == 0
    assert warm.notes[-1] == (
        "the loosest pair is loose at this temperature and speed: it holds nothing"
    )
    assert warm.loosening_speed == 0
    assert warm.cautions == ()
    assert warm.describe() == (
        "at 0 rpm, hub 80 °C and shaft 80 °C, -18 to 17 µm are left: it holds 0 N·m or 0 kN at"
        " the least."
    )


def test_a_joint_at_room_temperature_and_rest_is_itself() -> None:
    made = joint(friction=JointFriction.from_text("shrunk"))
    still = running_joint(made)
    assert still.pressure_min == pytest.approx(made.pressure_min)
    assert still.torque_min == pytest.approx(made.torque_min)
    assert still.hub_stress_max == pytest.approx(made.hub_stress_max)
    assert still.hub_safety == pytest.approx(made.hub_safety)


@given(st.floats(min_value=0, max_value=0.999))
def test_pressure_falls_with_the_square_of_the_speed_to_nothing_where_it_loosens(
    share: float,
) -> None:
    made = joint()
    free = running_joint(made).loosening_speed
    assert free is not None
    running = running_joint(made, speed=share * free)
    still = made.pressure_min
    assert running.pressure_min == pytest.approx(still * (1 - share**2), rel=1e-6, abs=1e-9)
    assert running.loosening_speed == pytest.approx(free)
    assert bool(running.cautions) == (share * free > 0)


def spun(inner: float, outer: float, force: float, modulus: float, poisson: float) -> list[float]:
    """Displacement of a spinning ring, free at both edges, by finite differences.

    u'' + u'/r - u/r^2 = -(1 - v^2) rho w^2 r / E, relaxed as a two-point problem by shooting:
    two runs of the fourth-order Runge and Kutta step, combined so that the outside is free.
    """
    steps = 2000
    step = (outer - inner) / steps
    load = -(1 - poisson**2) * force / modulus

    def slope(radius: float, u: float, du: float, share: float) -> tuple[float, float]:
        return du, share * load * radius - du / radius + u / radius**2

    def run(u: float, share: float) -> tuple[float, float]:
        radius, du = inner, -poisson * u / inner  # sigma_r = 0 at the bore
        for _ in range(steps):
            a = slope(radius, u, du, share)
            b = slope(radius + step / 2, u + step / 2 * a[0], du + step / 2 * a[1], share)
            c = slope(radius + step / 2, u + step / 2 * b[0], du + step / 2 * b[1], share)
            d = slope(radius + step, u + step * c[0], du + step * c[1], share)
            u += step / 6 * (a[0] + 2 * b[0] + 2 * c[0] + d[0])
            du += step / 6 * (a[1] + 2 * b[1] + 2 * c[1] + d[1])
            radius += step
        return u, du + poisson * u / outer

    loaded, unit = run(0.0, 1.0), run(1.0, 0.0)
    bore = -loaded[1] / unit[1]
    return [bore, loaded[0] + bore * unit[0]]


def test_what_speed_does_agrees_with_the_equations_of_a_spinning_ring_solved_in_numbers() -> None:
    omega = 4000 * pi / 30
    force = 2710e-12 * omega**2  # N/mm³ over mm: density in t/mm³
    hub = spun(30, 90, force, 69000, 0.33)
    shaft = spun(12, 30, 7850e-12 * omega**2, 207000, 0.3)
    loss = centrifugal_loss(4000, 60, 180, 24, 2710, 69, 0.33, 7850, 207, 0.3)
    assert loss == pytest.approx(2000 * (hub[0] - shaft[1]), rel=1e-6)
    stress = spinning_hub_stress(4000, 60, 180, 2710, 0.33)
    assert stress == pytest.approx(69000 * hub[0] / 30, rel=1e-6)


@given(st.floats(min_value=0.1, max_value=500))
def test_the_loosening_speed_is_where_the_loss_is_the_interference(interference: float) -> None:
    speed = loosening_speed(interference, 30, 120, 10)
    assert centrifugal_loss(speed, 30, 120, 10) == pytest.approx(interference)


def test_a_heavy_hollow_shaft_in_a_light_hub_tightens_with_speed() -> None:
    assert centrifugal_loss(5000, 60, 70, 50, 2710, 120, 0.3, 8930, 100, 0.34) < 0
    with pytest.raises(TradeError) as refused:
        loosening_speed(20, 60, 70, 50, 2710, 120, 0.3, 8930, 100, 0.34)
    assert str(refused.value) == (
        "this joint does not loosen with speed: its shaft grows more than its hub"
    )


def test_the_stress_of_a_running_hub_is_that_of_pressure_and_speed_together() -> None:
    made = running_joint(joint(), speed=12000)
    pressure = made.pressure_max
    assert pressure < joint().pressure_max
    hoop = hub_hoop_stress(pressure, 30, 60) + spinning_hub_stress(12000, 30, 60, 2710, 0.33)
    assert made.hub_stress_max == pytest.approx(sqrt(hoop**2 + hoop * pressure + pressure**2))
    assert made.hub_safety == pytest.approx(276 / made.hub_stress_max)
    assert "stay well below this speed" in made.cautions[0]


@pytest.mark.parametrize(
    ("changes", "argument", "message"),
    [
        (
            {"hub_temperature": 400},
            "hub_temperature",
            "hub temperature is 400 degC, it must be at least -196 degC and at most 350 degC",
        ),
        (
            {"speed": -1},
            "speed",
            "speed is -1 rpm, it must be at least 0 rpm and at most 1e+06 rpm",
        ),
        (
            {"speed": 200_000},
            "speed",
            "the hub gives way at this temperature and speed: its equivalent stress is 935 MPa,"
            " and aluminium 6061-T6 bears 276 MPa",
        ),
        (
            {"shaft_temperature": 350},
            "joint",
            "the hub gives way at this temperature and speed: its equivalent stress is 370 MPa,"
            " and aluminium 6061-T6 bears 276 MPa",
        ),
    ],
)
def test_a_joint_that_cannot_run_so_is_refused(
    changes: dict[str, Any], argument: str, message: str
) -> None:
    with pytest.raises(TradeError) as refused:
        running_joint(joint(), **changes)
    assert (str(refused.value), refused.value.argument) == (message, argument)


def test_a_material_without_a_density_may_warm_but_not_turn() -> None:
    made = joint(hub=elastic_material("alloy", 70, 0.33, expansion=23))
    warm = running_joint(made, 40, 40)
    assert warm.interference_max < made.interference_max
    assert warm.loosening_speed is None
    with pytest.raises(TradeError) as refused:
        running_joint(made, speed=100)
    assert str(refused.value) == "alloy has no density here, and it is needed"


def test_a_joint_keeps_its_pressure_where_only_the_hub_is_measured_hot() -> None:
    made = joint(hub=elastic_material("C45"))
    hot = running_joint(made, 60, 20)
    left = 48 - 10.08 - 11.3 * 30 * 40 / 1000
    assert hot.pressure_max == pytest.approx(lame_pressure(left, 30, 60))


any_number = st.floats(allow_nan=False, allow_infinity=False)
FORMULAS = {
    heated_diameter_growth: 4,
    interference_at_temperature: 7,
    centrifugal_loss: 10,
    loosening_speed: 10,
    spinning_hub_stress: 5,
}


@given(st.sampled_from(list(FORMULAS)), st.lists(any_number, min_size=10, max_size=10))
def test_a_formula_takes_any_number_or_refuses_it_by_its_argument(
    formula: Any, figures: list[float]
) -> None:
    argument = ""
    found = 0.0
    try:
        found = formula(*figures[: FORMULAS[formula]])
    except TradeError as refused:
        argument = refused.argument
    assert argument or isfinite(found)


def test_a_size_with_plain_limits_shrinks_too() -> None:
    made = assembly_temperatures(Size(50, 0, 0.025), Size(50, 0.05, 0.06), slip=20)
    assert made.growth == 80
