"""A press fit's picture: its walls and its stresses, read back from what is drawn."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.declare import Size
from shoplog.trade.limits_and_fits.fits import limits_of
from shoplog.trade.press_fits.bushes import pressed_bush
from shoplog.trade.press_fits.elastic import ElasticMaterial, elastic_material
from shoplog.trade.press_fits.press_record import PressFit, unknown_friction
from shoplog.trade.press_fits.pressing import press_fit
from shoplog.trade.press_fits.wall_stress import hub_wall_stress, shaft_wall_stress

H7, S6, P6 = (limits_of(30, name) for name in ("H7", "s6", "p6"))
STEEL = ElasticMaterial.from_text("steel")
STRONG = elastic_material("42CrMo4")
JOINTS = {
    "solid": press_fit(H7, S6, 25, 60, elastic_material("C45")),
    "hollow": press_fit(H7, S6, 25, 60, STRONG, STRONG, 20),
    "thin hub": press_fit(limits_of(500, "H7"), limits_of(500, "s6"), 25, 505, STRONG),
    "thin shaft": press_fit(H7, S6, 25, 3000, STRONG, STRONG, 28),
}


def at_joint(drawn, name):
    curve = drawn.told(name)
    return curve, curve.points[0] if name.startswith("hub") else curve.points[-1]


@pytest.mark.parametrize("joint", JOINTS.values(), ids=JOINTS)
def test_every_curve_lies_at_its_stress_to_scale_about_the_zero_line(joint):
    drawn = Drawn(joint)
    zero = drawn.told("zero").points[0][1]
    hub = hub_wall_stress(joint.pressure_max, joint.diameter, joint.hub_diameter, joint.diameter)
    shaft = shaft_wall_stress(joint.pressure_max, joint.diameter, joint.shaft_bore, joint.diameter)
    lowest = max(y for _, y in drawn.told("shaft_hoop").points)
    highest = drawn.told("hub_hoop").top
    scale = (lowest - highest) / (joint.hub_hoop_max - joint.shaft_hoop_max)
    assert drawn.told("hub_hoop").value == pytest.approx(joint.hub_hoop_max)
    for name, stress in (
        ("hub_hoop", hub.hoop),
        ("hub_radial", hub.radial),
        ("shaft_hoop", shaft.hoop),
        ("shaft_radial", shaft.radial),
    ):
        curve, (_, y) = at_joint(drawn, name)
        assert curve.value == pytest.approx(stress)
        assert isclose(zero - y, stress * scale, abs_tol=0.03)


def test_the_ends_of_the_curves_are_those_of_lame():
    joint = JOINTS["hollow"]
    drawn = Drawn(joint)
    zero = drawn.told("zero").points[0][1]
    hoop = drawn.told("shaft_hoop")
    scale = (hoop.points[0][1] - zero) / -joint.shaft_hoop_max  # at the bore it is greatest
    assert isclose((zero - drawn.told("hub_hoop").points[0][1]) / scale, joint.hub_hoop_max,
                   rel_tol=2e-3)  # fmt: skip
    # Nothing presses on the bore of the shaft or the outside of the hub.
    assert isclose(drawn.told("shaft_radial").points[0][1], zero, abs_tol=0.02)
    assert isclose(drawn.told("hub_radial").points[-1][1], zero, abs_tol=0.02)


def test_the_values_are_written_at_the_ends():
    words = set(Drawn(JOINTS["solid"]).words)
    assert {"+163.5", "+65.4", "−98.1", "0", "axis", "Ø30", "Ø60", "hub", "shaft"} <= words
    assert {"round the wall", "across it", "MPa"} <= words


def test_stresses_and_diameters_stand_in_the_other_system_too():
    wanted = ["psi", "+9487", "+23718", "Ø1.1811 in", "Ø2.3622 in", "−14231", "−14231"]
    assert Drawn(JOINTS["solid"]).others == wanted


@pytest.mark.parametrize("joint", JOINTS.values(), ids=JOINTS)
def test_the_walls_are_drawn_to_scale_or_it_says_how_many_times_thicker(joint):
    drawn = Drawn(joint)
    shaft, hub = drawn.told("shaft_wall"), drawn.told("hub_wall")
    ratio = (hub.wide / hub.value) / (shaft.wide / shaft.value)
    said = 1.0
    for part, sense in (("hub", 1), ("shaft", -1)):
        found = drawn.html.partition(f"The {part}&#x27;s wall is drawn ")[2]
        if found:
            said = float(found.partition(" ")[0]) ** sense
    assert isclose(ratio, said, rel_tol=0.01)
    assert hub.left == shaft.right == drawn.told("hub_hoop").points[0][0]


def test_the_two_lines_are_told_apart_by_their_dashes():
    drawn = Drawn(JOINTS["solid"])
    (solid,), (dashed,) = (drawn.of_class(f"shoplog-{kind}") for kind in ("curve", "dashed-curve"))
    assert solid.get("stroke-dasharray") is None
    assert dashed.get("stroke-dasharray") == "6 3"


def test_the_key_has_pressures_and_stresses_in_both_systems():
    key = Drawn(JOINTS["solid"]).key
    assert ("pressure, tightest pair", "98.1 MPa", "14231 psi") in key
    assert ("hub, yields at", "1.27 times this") in key


def test_a_pressed_bush_shows_its_joint_and_its_bore():
    bush = pressed_bush(H7, P6, limits_of(24, "H7"), 30, 60, STRONG)
    drawn = Drawn(bush)
    assert drawn.tells("hub_hoop")
    assert drawn.key[0][0] == "bore before pressing"
    assert drawn.key[1][0] == "bore after pressing"
    assert faults(drawn) == []


@pytest.mark.parametrize("joint", JOINTS.values(), ids=JOINTS)
def test_no_words_meet_and_nothing_leaves_the_frame(joint):
    drawn = Drawn(joint)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@given(st.floats(0.1, 1e4), st.floats(1.00001, 1e3), st.floats(0, 0.99999), st.floats(1e-6, 1))
def test_any_joint_is_drawn_without_a_fault(diameter, hub, bore, strain):
    plastic = ElasticMaterial("of unknown strength", 3.0, 0.35)
    joint = PressFit(
        diameter, 10.0, diameter * hub, diameter * bore, STEEL, plastic, unknown_friction(),
        0.0, 1000 * diameter * strain, 0.0,
    )  # fmt: skip
    assert faults(Drawn(joint)) == []


def test_a_size_without_interference_is_no_joint_to_draw():
    with pytest.raises(ValueError, match="these two sizes do not press"):
        press_fit(H7, Size(30, -0.05, -0.03), 25, 60)
