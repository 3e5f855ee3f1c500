"""Pressed joints: a numerical second opinion, what must hold, and what is refused, in words."""

from __future__ import annotations

from collections.abc import Callable
from math import isfinite
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.trade.declare import OutOfRange, Size, TradeError
from shoplog.trade.limits_and_fits.fits import limits_of
from shoplog.trade.press_fits.bushes import PressedBush, pressed_bush
from shoplog.trade.press_fits.cylinders import (
    bore_closure,
    hub_equivalent_stress,
    hub_hoop_stress,
    lame_interference,
    lame_pressure,
    shaft_equivalent_stress,
    shaft_hoop_stress,
)
from shoplog.trade.press_fits.elastic import ElasticMaterial, elastic_material
from shoplog.trade.press_fits.fitting import bush_chamfer, lead_chamfer, retaining_gap
from shoplog.trade.press_fits.joint_capacity import joint_force, joint_torque, smoothing_loss
from shoplog.trade.press_fits.press_record import JointFriction, PressFit
from shoplog.trade.press_fits.pressing import joint_friction, press_fit

# A numerical second opinion


def solved(
    inner: float, outer: float, modulus: float, poisson: float, inside: float, outside: float
) -> Callable[[float], tuple[float, float]]:
    """Displacement and hoop stress of a ring under pressures, by finite differences.

    Equilibrium of a ring in plane stress, u'' + u'/r - u/r^2 = 0, on a row of points with a
    ghost point beyond each end for the pressures there; u = 0 at the middle of a solid disc.
    Lengths in mm, modulus and pressures in MPa.
    """
    count = 800
    step = (outer - inner) / count
    radii = [inner + step * index for index in range(count + 1)]
    below, middle, above, right = ([0.0] * (count + 1) for _ in range(4))
    for index, radius in enumerate(radii):
        if radius == 0:
            middle[index] = 1.0
            continue
        low = 1 / step**2 - 1 / (2 * step * radius)
        high = 1 / step**2 + 1 / (2 * step * radius)
        below[index], above[index] = low, high
        middle[index] = -2 / step**2 - 1 / radius**2
        if index in (0, count):  # sigma_r = E/(1-v^2) (u' + v u/r) gives the ghost point
            pressure = inside if index == 0 else outside
            slope = -pressure * (1 - poisson**2) / modulus
            sign = -1 if index == 0 else 1
            ghost = low if index == 0 else high
            middle[index] -= sign * ghost * 2 * step * poisson / radius
            right[index] = -sign * ghost * 2 * step * slope
            below[index], above[index] = (0.0, low + high) if index == 0 else (low + high, 0.0)
    for index in range(1, count + 1):  # Thomas' algorithm
        share = below[index] / middle[index - 1]
        middle[index] -= share * above[index - 1]
        right[index] -= share * right[index - 1]
    found = [0.0] * (count + 1)
    found[count] = right[count] / middle[count]
    for index in range(count - 1, -1, -1):
        found[index] = (right[index] - above[index] * found[index + 1]) / middle[index]

    def at(radius: float) -> tuple[float, float]:
        index = round((radius - inner) / step)
        radial = -inside if index == 0 else -outside
        return found[index], modulus * found[index] / radius + poisson * radial

    return at


SHAPES = [
    (30.0, 60.0, 0.0, "steel", "steel"),
    (30.0, 45.0, 20.0, "cast iron", "bronze"),
    (20.0, 80.0, 16.0, "aluminium", "steel"),
    (100.0, 110.0, 60.0, "brass", "titanium"),
]


@pytest.mark.parametrize(("diameter", "outside", "bore", "hub", "shaft"), SHAPES)
def test_pressure_agrees_with_the_equations_of_equilibrium_solved_in_numbers(
    diameter: float, outside: float, bore: float, hub: str, shaft: str
) -> None:
    a, b = elastic_material(hub), elastic_material(shaft)
    radius = diameter / 2
    ring = solved(radius, outside / 2, 1000 * a.youngs_modulus, a.poisson, 1.0, 0.0)
    core = solved(bore / 2, radius, 1000 * b.youngs_modulus, b.poisson, 0.0, 1.0)
    apart = 2000 * (ring(radius)[0] - core(radius)[0])  # µm on diameter at 1 MPa
    pressure = lame_pressure(
        25,
        *(diameter, outside, bore),
        *(a.youngs_modulus, a.poisson, b.youngs_modulus, b.poisson),
    )
    assert pressure == pytest.approx(25 / apart, rel=1e-4)
    assert hub_hoop_stress(1, diameter, outside) == pytest.approx(ring(radius)[1], rel=1e-4)
    if bore:
        closed = -2000 * core(bore / 2)[0]
        assert bore_closure(1, diameter, bore, b.youngs_modulus) == pytest.approx(closed, rel=1e-4)
        inside = core(bore / 2)
        assert shaft_hoop_stress(1, diameter, bore) == pytest.approx(inside[1], rel=1e-4)
    else:
        assert shaft_hoop_stress(1, diameter) == pytest.approx(core(radius)[1], rel=1e-4)


# What must hold

lengths = st.floats(min_value=1, max_value=500)
shares = st.floats(min_value=0.05, max_value=0.95)
moduli = st.floats(min_value=10, max_value=400)
poissons = st.floats(min_value=0, max_value=0.5)
interferences = st.floats(min_value=0, max_value=500)


@given(interferences, st.floats(min_value=0, max_value=20), lengths, shares, shares, moduli)
def test_pressure_is_in_proportion_to_the_interference(
    interference: float, factor: float, diameter: float, wall: float, bore: float, modulus: float
) -> None:
    figures = (diameter, diameter / wall, diameter * bore, modulus)
    one = lame_pressure(interference, *figures)
    assert lame_pressure(factor * interference, *figures) == pytest.approx(factor * one, abs=1e-9)


@given(interferences, lengths, shares, shares, moduli, poissons, moduli, poissons)
def test_interference_and_pressure_undo_each_other(
    interference: float,
    diameter: float,
    wall: float,
    bore: float,
    hub_modulus: float,
    hub_poisson: float,
    shaft_modulus: float,
    shaft_poisson: float,
) -> None:
    figures = (hub_modulus, hub_poisson, shaft_modulus, shaft_poisson)
    shape = (diameter, diameter / wall, diameter * bore, *figures)
    back = lame_interference(lame_pressure(interference, *shape), *shape)
    assert back == pytest.approx(interference, rel=1e-9, abs=1e-12)


@given(st.floats(min_value=0, max_value=1000), lengths, shares)
def test_the_pull_in_the_hub_balances_the_pressure(
    pressure: float, diameter: float, wall: float
) -> None:
    # Over half a ring: the pressure on the joint's width equals the hoop stress over the two
    # walls. The hoop stress at a radius is Lamé's; summed by Simpson's rule.
    outside = diameter / wall
    a, b, steps = diameter / 2, outside / 2, 2000
    step = (b - a) / steps

    def hoop(radius: float) -> float:
        return pressure * a**2 / (b**2 - a**2) * (1 + b**2 / radius**2)

    assert hoop(a) == pytest.approx(hub_hoop_stress(pressure, diameter, outside), rel=1e-9)
    inner = sum((4 if i % 2 else 2) * hoop(a + i * step) for i in range(1, steps))
    pulled = step / 3 * (hoop(a) + inner + hoop(b))
    assert 2 * pulled == pytest.approx(pressure * diameter, rel=1e-5, abs=1e-9)


@given(st.floats(min_value=0, max_value=1000), lengths, shares, moduli)
def test_a_bore_closes_with_the_pressure_and_not_without(
    pressure: float, diameter: float, bore: float, modulus: float
) -> None:
    assert bore_closure(0, diameter, bore * diameter, modulus) == 0
    closed = bore_closure(pressure, diameter, bore * diameter, modulus)
    squeezed = -shaft_hoop_stress(pressure, diameter, bore * diameter)
    # At a free surface the strain is the hoop stress over Young's modulus.
    assert closed == pytest.approx(squeezed / modulus * bore * diameter, rel=1e-9, abs=1e-12)


@given(st.floats(min_value=0, max_value=1000), lengths, shares)
def test_equivalent_stress_is_von_mises_of_the_two_stresses(
    pressure: float, diameter: float, wall: float
) -> None:
    hoop = hub_hoop_stress(pressure, diameter, diameter / wall)
    mises = (hoop**2 + hoop * pressure + pressure**2) ** 0.5
    found = hub_equivalent_stress(pressure, diameter, diameter / wall)
    assert found == pytest.approx(mises, rel=1e-9, abs=1e-9)
    assert found >= 3**0.5 * pressure / (1 - wall**2) - 1e-9  # never below that of DIN 7190
    assert shaft_equivalent_stress(pressure, diameter) == pressure


@given(st.floats(min_value=0, max_value=1000), lengths, lengths, shares)
def test_torque_is_the_force_at_the_radius(
    pressure: float, diameter: float, length: float, friction: float
) -> None:
    force = joint_force(pressure, diameter, length, friction)  # kN at mm is N·m
    torque = joint_torque(pressure, diameter, length, friction)
    assert torque == pytest.approx(force * diameter / 2, rel=1e-9)


any_number = st.floats(allow_nan=False, allow_infinity=False)
FORMULAS = {
    lame_pressure: 8,
    lame_interference: 8,
    hub_hoop_stress: 3,
    hub_equivalent_stress: 3,
    shaft_hoop_stress: 3,
    bore_closure: 3,
    joint_force: 4,
    joint_torque: 4,
    smoothing_loss: 2,
    lead_chamfer: 2,
    bush_chamfer: 1,
}


@given(st.sampled_from(list(FORMULAS)), st.lists(any_number, min_size=8, max_size=8))
def test_a_formula_takes_any_number_or_refuses_it_by_its_argument(
    formula: Any, figures: list[float]
) -> None:
    argument = ""
    found: Any = None
    try:
        found = formula(*figures[: FORMULAS[formula]])
    except TradeError as refused:
        argument = refused.argument
    assert argument or isfinite(getattr(found, "front_diameter", found))


# The joint of two sizes

HOLE, SHAFT = limits_of(30, "H7"), limits_of(30, "s6")
C45 = elastic_material("C45")


def joint(**changes: Any) -> PressFit:
    figures = {"hole": HOLE, "shaft": SHAFT, "length": 25, "hub_diameter": 60, "hub": C45}
    return press_fit(**(figures | changes))


def test_a_press_fit_gives_what_it_holds_and_what_it_must_bear() -> None:
    made = joint(friction=JointFriction.from_text("pressed dry"))
    assert (made.interference_min, made.interference_max) == (14, 48)
    assert made.smoothing == pytest.approx(10.08)
    assert made.pressure_min == pytest.approx(lame_pressure(14 - 10.08, 30, 60))
    assert made.pressure_max == pytest.approx(lame_pressure(48 - 10.08, 30, 60))
    assert made.torque_min == pytest.approx(joint_torque(made.pressure_min, 30, 25, 0.08))
    assert made.torque_max == pytest.approx(joint_torque(made.pressure_max, 30, 25, 0.11))
    assert made.force_min == pytest.approx(joint_force(made.pressure_min, 30, 25, 0.08))
    assert made.press_force_max == pytest.approx(joint_force(made.pressure_max, 30, 25, 0.11))
    assert made.hub_safety == pytest.approx(290 / made.hub_stress_max)
    assert made.shaft_safety == pytest.approx(210 / made.shaft_stress_max)
    assert made.gives_way_first == "hub"
    assert (made.bore_closure_min, made.bore_closure_max) == (0, 0)
    assert made.describe() == (
        "a joint of 30 mm by 25 mm at 10.1 to 98.1 MPa: it holds 28.7 N·m or 1.91 kN at the"
        " least, and takes up to 25.4 kN to press; the hub would give way first, at 1.3 times"
        " this."
    )


def test_the_hub_grows_outside_as_the_strain_there_says() -> None:
    made = joint()
    # At the free outside the hoop stress is the bore's less the pressure.
    strain = (made.hub_hoop_max - made.pressure_max) / 207
    assert made.hub_growth_max == pytest.approx(strain * 60)


def test_the_notes_say_what_was_taken_for_granted() -> None:
    assert joint().notes == (
        "10.1 µm of the interference is counted as lost to smoothing (DIN 7190-1)",
        "the hub is taken as C45 (1040 hot rolled, taken for C45 (1.0503) too), the shaft as"
        " steel (mild steel, hot rolled)",
    )
    loose = joint(shaft=limits_of(30, "p6"))
    assert loose.pressure_min == loose.torque_min == 0
    assert loose.notes[-1] == "the loosest pair has no interference left: it holds nothing"


def test_a_press_fit_carries_its_cautions() -> None:
    said = " ".join(joint().cautions)
    for word in ("out of line", "ring that is fitted", "blind hole", "weld"):
        assert word in said
    assert "cast iron" not in said
    brittle = joint(hub=elastic_material("cast iron"), shaft=limits_of(30, "p6"))
    assert "a cast iron hub does not stretch before it breaks" in " ".join(brittle.cautions)


def test_a_material_without_a_strength_leaves_safety_out() -> None:
    made = joint(hub=elastic_material("oak", youngs_modulus=10, poisson=0.3))
    assert made.hub_safety is None
    assert made.gives_way_first is None
    assert made.describe().endswith("kN to press.")


def test_two_materials_and_a_hollow_shaft_change_the_pressure() -> None:
    hollow = joint(shaft_bore=20, shaft_material=C45)
    soft = joint(hub=elastic_material("aluminium"))
    assert hollow.pressure_max < joint().pressure_max
    assert hollow.bore_closure_max > 0
    assert soft.pressure_max == pytest.approx(lame_pressure(37.92, 30, 60, 0, 69, 0.33, 207, 0.3))


@pytest.mark.parametrize(
    ("changes", "argument", "message", "hint"),
    [
        (
            {"hub": None},
            "hole",
            "the hub gives way: at the greatest interference of 48 µm its equivalent stress is"
            " 229 MPa, and steel yields at 210 MPa",
            "it bears 45 µm at the most: a looser class, a thicker wall or a stronger material",
        ),
        (
            {"hub": elastic_material("cast iron")},
            "hole",
            "the hub gives way: at the greatest interference of 48 µm its equivalent stress is"
            " 131 MPa, and half the tensile strength of cast iron is 103 MPa",
            "it bears 40 µm at the most: a looser class, a thicker wall or a stronger material",
        ),
        (
            {"shaft_bore": 24, "shaft_material": elastic_material("bronze")},
            "shaft",
            "the shaft gives way: at the greatest interference of 48 µm its equivalent stress is"
            " 136 MPa, and bronze yields at 125 MPa",
            "it bears 45 µm at the most: a looser class, a thicker wall or a stronger material",
        ),
        (
            {"shaft": limits_of(30, "g6")},
            "shaft",
            "these two sizes do not press: they have a clearance of 7 µm or more",
            "a class s6 or u6 in a hole H7, say, or smoother faces",
        ),
        (
            {"shaft": limits_of(30, "k6"), "hub_roughness": 16},
            "shaft",
            "these two sizes do not press: they have 15 µm of interference at the most, and"
            " smoothing takes 17.8 µm",
            "a class s6 or u6 in a hole H7, say, or smoother faces",
        ),
        (
            {"hub_diameter": 28},
            "hub_diameter",
            "the hub's wall is -1.0105 mm thick, it must be over 0 mm: 28 mm outside on 30.021 mm",
            "hub_diameter is the outside of the hub",
        ),
        (
            {"shaft_bore": 32},
            "shaft_bore",
            "the shaft's wall is -0.9825 mm thick, it must be over 0 mm: 32 mm bored in 30.035 mm",
            "shaft_bore is the hole through the inner part; 0 mm for a solid one",
        ),
        (
            {"shaft_bore": -1},
            "shaft_bore",
            "shaft bore is -1 mm, it must be at least 0 mm and at most 1e+09 mm",
            "",
        ),
        ({"length": 0}, "length", "length is 0 mm, it must be over 0 mm", ""),
        (
            {"hub_roughness": -1},
            "hub_roughness",
            "hub roughness is -1 µm, it must be at least 0 µm and at most 1000 µm",
            "",
        ),
        (
            {"shaft": limits_of(24, "s6")},
            "shaft",
            "the nominal sizes differ: the hole is 30 mm (1.1811 in), the shaft 24 mm (0.9449 in)",
            "a fit is between a hole and a shaft of one nominal size",
        ),
    ],
)
def test_a_joint_that_cannot_be_is_refused(
    changes: dict[str, Any], argument: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        joint(**changes)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == argument


def test_what_the_refusal_offers_does_hold() -> None:
    with pytest.raises(TradeError, match=r"^the hub gives way") as refused:
        joint(hub=None)
    assert "it bears 45 µm at the most" in refused.value.hint
    just = joint(hub=None, shaft=Size(30, 0.03, 0.0447))
    assert just.hub_safety == pytest.approx(1, abs=0.03)


# A bush


def bush(**changes: Any) -> PressedBush:
    figures = {
        "hole": limits_of(24, "H7"),
        "bush": limits_of(24, "r6"),
        "bore": Size(16, 0.02, 0.03),
        "length": 20,
        "housing_diameter": 50,
        "bush_material": elastic_material("bronze", yield_strength=200),
    }
    return pressed_bush(**(figures | changes))


def test_a_bush_closes_by_what_the_pressure_makes_of_it() -> None:
    made = bush()
    pressure = made.joint.pressure_max
    assert pressure == pytest.approx(lame_pressure(41 - 10.08, 24, 50, 16, 207, 0.3, 100, 0.34))
    assert made.closure_max == pytest.approx(bore_closure(pressure, 24, 16, 100))
    assert made.bore_after.min == pytest.approx(16.02 - made.closure_max / 1000)
    assert made.bore_after.max == pytest.approx(16.03 - made.closure_min / 1000)
    assert made.describe() == (
        "the bore closes by 0 to 23 µm, from 16.020 to 16.030 mm before pressing to 15.997 to"
        " 16.030 mm after it."
    )


def test_a_bush_says_whether_to_ream_it_after_pressing() -> None:
    assert not bush().ream_after  # nothing was asked of its bore
    made = bush(wanted=limits_of(16, "H7"), bore=Size(16, -0.1, -0.05))
    assert made.ream_after
    assert made.notes[-1] == (
        "ream after pressing: the bore comes out at 15.877 to 15.950 mm, and 16.000 to 16.018 mm"
        " is wanted"
    )
    assert bush(wanted=limits_of(16, "H7")).notes[-1] == (
        "the bore may come out too large, at 16.030 mm where 16.018 mm is wanted at the most:"
        " leave it smaller before pressing"
    )
    right = bush(wanted=Size(16, -0.02, 0.04))
    assert not right.ream_after
    assert not any("ream" in note for note in right.notes)


def test_what_to_make_a_bore_to_ends_within_what_is_wanted() -> None:
    wanted = Size(16, 0, 0.06)
    made = bush(wanted=wanted).bore_to_make
    assert made is not None
    after = bush(bore=made, wanted=wanted).bore_after
    assert after.min == pytest.approx(wanted.min, abs=1e-9)
    assert after.max == pytest.approx(wanted.max, abs=1e-9)
    assert bush(wanted=limits_of(16, "H7")).bore_to_make is None  # it closes by more than that
    assert bush().bore_to_make is None


def test_a_thin_bush_that_yields_is_told_and_not_refused() -> None:
    made = bush(bush_material=elastic_material("bronze"), bush=limits_of(24, "s6"))
    assert made.bush_yields
    assert made.ream_after
    assert made.notes[2].startswith("the bush yields in the tightest pair (")
    assert made.notes[2].endswith(
        " MPa against 125 MPa), as thin bushes often do: its bore may close more than this, and"
        " it holds less; ream it after pressing"
    )


@pytest.mark.parametrize(
    ("changes", "argument", "message"),
    [
        (
            {"bore": Size(24, 0, 0.1)},
            "bore",
            "the wall of the bush is -0.036 mm thick, it must be over 0 mm",
        ),
        (
            {"housing_diameter": 24},
            "housing_diameter",
            "the wall of the housing is -0.0105 mm thick, it must be over 0 mm",
        ),
        (
            {"wanted": limits_of(18, "H7")},
            "wanted",
            "the bore is 16 mm before pressing and 18 mm is wanted of it: they must be one nominal"
            " size",
        ),
        (
            {"bush": limits_of(24, "g6")},
            "bush",
            "these two sizes do not press: they have a clearance of 7 µm or more",
        ),
        (
            {"housing": elastic_material("lead", 16, 0.44, yield_strength=5)},
            "hole",
            "the housing gives way: at the greatest interference of 41 µm its equivalent stress is"
            " 19 MPa, and lead yields at 5 MPa",
        ),
    ],
)
def test_a_bush_that_cannot_be_is_refused(
    changes: dict[str, Any], argument: str, message: str
) -> None:
    with pytest.raises(TradeError) as refused:
        bush(**changes)
    assert (str(refused.value), refused.value.argument) == (message, argument)


# Materials and friction


@pytest.mark.parametrize("name", ["steel", "Mild Steel", " S235 ", "1.0038", "1020"])
def test_a_material_is_found_by_any_of_its_names(name: str) -> None:
    assert elastic_material(name) == ElasticMaterial.from_text("steel")


def test_given_figures_come_before_those_of_the_table() -> None:
    made = elastic_material("C45", yield_strength=430, expansion=11)
    assert (made.youngs_modulus, made.yield_strength, made.expansion) == (207, 430, 11)
    assert made.expansion_on_cooling == 8.25
    assert elastic_material("C45").expansion_on_cooling == 8.5
    own = elastic_material("my alloy", youngs_modulus=70, poisson=0.33)
    assert (own.name, own.yield_strength, own.expansion_on_cooling) == ("my alloy", None, None)


@pytest.mark.parametrize(
    ("given_figures", "message"),
    [
        ({"name": "unobtainium"}, "'unobtainium' is not a material that is known here"),
        ({"name": "x" * 99}, f"'{'x' * 40}' is not a material that is known here"),
        ({"name": "alloy", "poisson": 0.3}, "'alloy' is not a material that is known here"),
        (
            {"name": "steel", "poisson": 0.7},
            "poisson is 0.7, it must be at least 0 and at most 0.5",
        ),
        (
            {"name": "steel", "youngs_modulus": 0},
            "youngs modulus is 0 GPa, it must be at least 0.01 GPa and at most 1000 GPa",
        ),
    ],
)
def test_a_material_that_is_none_is_refused(given_figures: dict[str, Any], message: str) -> None:
    with pytest.raises(TradeError) as refused:
        elastic_material(**given_figures)
    assert str(refused.value) == message
    if "material" in message:
        assert 'elastic_material("my alloy", youngs_modulus=70 GPa' in refused.value.hint
        assert "there are steel, C45, 42CrMo4, stainless 304, cast iron" in refused.value.hint


def test_a_state_of_friction_is_asked_for_by_name() -> None:
    assert (
        JointFriction.from_text("Pressed  dry").describe() == "Friction 0.08 to 0.11 (pressed dry)."
    )
    with pytest.raises(TradeError) as refused:
        JointFriction.from_text("slippery")
    assert str(refused.value) == "'slippery' is not a state of a joint that is known here"
    assert "or joint_friction(0.1, 0.16)" in refused.value.hint


@pytest.mark.parametrize(("least", "greatest"), [(0.2, 0.1), (-0.1, 0.1), (0.1, 1.1)])
def test_a_friction_that_is_none_is_refused(least: float, greatest: float) -> None:
    with pytest.raises(TradeError) as refused:
        joint_friction(least, greatest)
    assert str(refused.value) == (
        f"a friction from {least:g} to {greatest:g} is none: they must be 0 to 1, the least first"
    )


def test_smoothing_takes_eight_tenths_of_both_surfaces() -> None:
    assert smoothing_loss(0, 0) == 0
    assert smoothing_loss(10, 5) == pytest.approx(12)


# Chamfers and gaps


def test_a_lead_chamfer_narrows_the_front_below_the_hole() -> None:
    made = lead_chamfer(30)
    assert made.width == pytest.approx(30 ** (1 / 3))
    assert made.front_diameter < 29.8
    assert bush_chamfer(40).describe() == "a lead of 20° over 1.2 ±0.4 mm, 40.87 mm at its front."


@pytest.mark.parametrize(
    ("diameter", "angle", "message"),
    [
        (0, 5, "diameter is 0 mm, it must be over 0 mm"),
        (600, 5, "diameter is 600 mm, it must be at most 500 mm"),
        (30, 0, "angle is 0 deg, it must be over 0 deg and at most 5 deg"),
        (30, 15, "angle is 15 deg, it must be over 0 deg and at most 5 deg"),
        (0.05, 5, "diameter is 0.05 mm, it must be over 0.0731935 mm"),
    ],
)
def test_a_lead_chamfer_that_does_no_good_is_refused(
    diameter: float, angle: float, message: str
) -> None:
    with pytest.raises(OutOfRange) as refused:
        lead_chamfer(diameter, angle)
    assert str(refused.value) == message


def test_a_housing_beyond_the_table_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"^bore is 501 mm, it must be at most 500 mm$"):
        bush_chamfer(501)


def test_a_gap_is_told_beside_what_the_compound_wants() -> None:
    good = retaining_gap(Size(20, 0.04, 0.06), Size(20, -0.02, 0))
    assert (good.gap_min, good.gap_max, good.suits) == (40, 80, True)
    assert good.describe() == (
        "a gap of 40 to 80 µm on diameter suits a thin retaining compound (10 to 150 µm,"
        " strongest at 50 to 130 µm)."
    )
    assert good.notes == (
        "the data sheet of the compound in hand comes first; both faces degreased",
    )
    wide = retaining_gap(Size(20, 0.1, 0.2), Size(20, -0.1, 0), "thin")
    assert not wide.suits
    assert wide.notes[0] == (
        "the loosest pair has 300 µm of gap, and a thin compound fills 150 µm at the most"
    )
    tight = retaining_gap(limits_of(20, "H7"), limits_of(20, "h6"), "thick")
    assert tight.notes[0] == (
        "the tightest pair has 0 µm of gap, and a thick compound wants 10 µm at the least: it is"
        " wiped off"
    )


def test_a_compound_that_is_none_is_refused() -> None:
    with pytest.raises(TradeError) as refused:
        retaining_gap(HOLE, SHAFT, "glue")
    assert str(refused.value) == "'glue' is not a compound that is known here"
    assert refused.value.hint == "thin or thick"
