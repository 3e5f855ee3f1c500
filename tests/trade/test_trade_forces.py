"""Chips, cutting forces, torque and power: identities, second opinions, good and bad input."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import acos, cos, hypot, isfinite, nan, pi, radians, sin, tan
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.chip_thickness import (
    chip_thickness_milling,
    chip_thickness_turning,
    edge_in_cut,
    feed_for_chip,
)
from shoplog.trade.machining.cutting import removal_rate_milling, removal_rate_turning, table_feed
from shoplog.trade.machining.cutting_resistance import (
    CuttingResistance,
    cutting_resistance,
    force_correction,
    specific_cutting_force,
)
from shoplog.trade.machining.drilling_forces import drilling_forces, tapping_torque
from shoplog.trade.machining.feed_direction import climb_fault, feed_direction
from shoplog.trade.machining.force_estimates import BendEstimate, ForceEstimate, PowerEstimate
from shoplog.trade.machining.forces import (
    spindle_power,
    spindle_torque,
    table_drive_force,
    turning_forces,
)
from shoplog.trade.machining.milling_forces import milling_forces
from shoplog.trade.materials import Material
from shoplog.trade.offers import OFFERS

STEEL = CuttingResistance(1500, 0.22)
FLOATS = (0.0, -1.0, 1e-300, 5e-324, 1e100, -1e100, nan)

resistances = st.builds(CuttingResistance, st.floats(100, 2500), st.floats(0, 0.5))
depths, feeds = st.floats(0.1, 10), st.floats(0.01, 1)
angles, noses = st.floats(30, 100), st.floats(0, 3)
shares = st.floats(0.02, 1)


# What the kinds of work ask, and the corrections


@given(resistances, st.floats(0.01, 1), st.floats(1.5, 8))
def test_two_readings_of_a_law_give_the_law_back(
    law: CuttingResistance, chip: float, times: float
) -> None:
    found = cutting_resistance(law.at(chip), chip, law.at(times * chip), times * chip)
    assert (found.kc1_1, found.mc) == pytest.approx((law.kc1_1, law.mc), rel=1e-6, abs=1e-9)


@given(resistances, st.floats(0.002, 1))
def test_a_thinner_chip_never_asks_less_of_a_square_millimetre(
    law: CuttingResistance, chip: float
) -> None:
    thick, thin = (specific_cutting_force(law, h) for h in (2 * chip, chip))
    assert thin >= thick * (1 - 1e-12)
    assert chip * thin <= 2 * chip * thick  # yet the whole force still falls


def test_a_material_brings_its_own_law_and_spread() -> None:
    cut = turning_forces(Material.from_text("C45"), 1, 0.1, 30, nose_radius=0, cutter="carbide")
    assert cut.tangential.mean == pytest.approx(1500 * 0.1**-0.22 * 0.1)
    assert (cut.tangential.spread, cut.feed.spread) == (25, 35)


def test_the_rake_that_a_figure_holds_for_goes_by_the_group_of_the_material() -> None:
    names = ("C45", "cast iron", "brass")
    plain, raked = (
        [
            turning_forces(Material.from_text(name), 1, 0.2, 60, cutter="carbide", rake=rake)
            for name in names
        ]
        for rake in (None, 6)
    )
    factors = [a.tangential.mean / b.tangential.mean for a, b in zip(raked, plain, strict=True)]
    assert factors == pytest.approx([1, 0.96, 0.94])


def test_corrections_are_factors_and_stand_for_each_other() -> None:
    made = force_correction("cobalt HSS", "boring", "worn", rake=16)
    assert made.total == pytest.approx(1.2 * 1.2 * 1.3 * 0.9)
    whole = turning_forces(
        STEEL, 1, 0.1, 30, cutter="cobalt HSS", operation="boring", edge="worn", rake=16
    )
    given_whole = turning_forces(STEEL, 1, 0.1, 30, correction=made.total)
    assert whole.tangential.mean == pytest.approx(given_whole.tangential.mean)
    assert made.describe() == (
        "1.68 times: 1.2 for the cutter, 1.2 for the operation, 1.3 for the edge, 0.9 for the rake."
    )


def test_every_case_of_the_table_of_corrections_is_asked_for_by_its_name() -> None:
    rows = table("forces_corrections").rows
    for row in rows:
        if row["what"] in ("operation", "edge"):
            made = force_correction("carbide", **{row["what"]: row["case"]})
            assert getattr(made, row["what"]) == float(row["value"])
    assert {row["what"] for row in rows} == {"operation", "edge", "base rake"}


# Chips


@given(feeds, depths, angles)
def test_a_sharp_corner_thins_the_chip_by_the_sine_of_its_angle(
    feed: float, depth: float, angle: float
) -> None:
    chip = chip_thickness_turning(feed, depth, angle)
    assert chip.mean == pytest.approx(feed * sin(radians(angle)))
    assert chip.edge_length == pytest.approx(depth / sin(radians(angle)))
    assert chip.chord_angle == pytest.approx(angle)


@given(feeds, depths, angles, noses)
def test_a_turned_chip_keeps_its_section_whatever_the_edge(
    feed: float, depth: float, angle: float, nose: float
) -> None:
    chip = chip_thickness_turning(feed, depth, angle, nose)
    assert chip.mean * chip.edge_length == pytest.approx(feed * depth)
    assert chip.mean <= chip.thickest * (1 + 1e-9)
    assert chip.thickest <= feed * (1 + 1e-9)


def edge_by_small_steps(depth: float, angle: float, nose: float) -> tuple[float, float]:
    """Length of the edge and its reach along the feed, by walking up it in small steps."""
    steps, height, length, along = 40000, 0.0, 0.0, 0.0
    turn = 0.0
    step = 2 * depth / sin(radians(angle)) / steps + 2 * nose / steps
    while height < depth:
        length += step
        along += step * cos(turn)
        height += step * sin(turn)
        if nose and turn < radians(angle):
            turn = min(radians(angle), turn + step / nose)
        else:
            turn = radians(angle)
    return length, along


@pytest.mark.parametrize("depth", [0.2, 0.8, 3])
@pytest.mark.parametrize("angle", [45, 75, 95])
@pytest.mark.parametrize("nose", [0.4, 1.2])
def test_the_edge_in_the_cut_is_what_walking_along_it_finds(
    depth: float, angle: float, nose: float
) -> None:
    edge = edge_in_cut(depth, angle, nose)
    length, along = edge_by_small_steps(depth, angle, nose)
    assert edge.length == pytest.approx(length, rel=2e-3)
    assert edge.along == pytest.approx(along, rel=5e-3, abs=2e-3)


def mean_chip_by_steps(feed: float, entry: float, leave: float) -> float:
    """Mean of fz sin(angle) over the immersion, by the midpoints of small steps."""
    steps = 20000
    reach = (leave - entry) / steps
    return sum(feed * sin(entry + (n + 0.5) * reach) for n in range(steps)) / steps


@pytest.mark.parametrize("share", [0.02, 0.1, 0.3, 0.5, 0.8, 1])
def test_the_mean_chip_is_the_integral_over_the_immersion(share: float) -> None:
    beside = chip_thickness_milling(0.1, 20, 20 * share)
    leave = acos(1 - 2 * share)
    assert beside.mean == pytest.approx(mean_chip_by_steps(0.1, 0, leave), rel=1e-6)
    centred = chip_thickness_milling(0.1, 20, 20 * share, "centred")
    half = acos(1) + pi / 2 - acos(share)
    mean = mean_chip_by_steps(0.1, pi / 2 - half, pi / 2 + half)
    assert centred.mean == pytest.approx(mean, rel=1e-6)


@given(st.floats(0.005, 0.5), st.floats(1, 100), shares, angles)
def test_the_feed_for_a_chip_gives_that_chip(
    chip: float, diameter: float, share: float, angle: float
) -> None:
    feed = feed_for_chip(chip, diameter, share * diameter, angle)
    assume(feed < 5)
    made = chip_thickness_milling(feed, diameter, share * diameter, entering_angle=angle)
    assert made.mean == pytest.approx(chip)


@given(feeds, st.floats(1, 100), shares)
def test_a_tooth_cuts_all_that_the_feed_brings_it(
    feed: float, diameter: float, share: float
) -> None:
    chip = chip_thickness_milling(feed, diameter, share * diameter)
    arc = diameter / 2 * radians(chip.immersion)
    assert chip.mean * arc == pytest.approx(feed * share * diameter)


def test_a_lighter_side_cut_thins_the_chip_and_past_half_the_cutter_nothing_does() -> None:
    thickest = [chip_thickness_milling(0.1, 20, width).thickest for width in (1, 5, 10, 15, 20)]
    assert thickest == pytest.approx([0.0436, 0.0866, 0.1, 0.1, 0.1], abs=1e-4)


def test_a_round_insert_thins_the_chip_in_milling_too() -> None:
    square = chip_thickness_milling(0.1, 50, 50, depth_of_cut=1)
    rounded = chip_thickness_milling(0.1, 50, 50, depth_of_cut=1, nose_radius=6)
    assert rounded.mean / square.mean == pytest.approx(1 / (6 * acos(1 - 1 / 6)))
    assert rounded.feed_factor == pytest.approx(1 / sin(acos(1 - 1 / 6)))


# Turning


@given(resistances, depths, feeds, st.floats(5, 300), angles, noses)
def test_turning_power_is_the_specific_force_times_the_removal_rate(
    law: CuttingResistance, depth: float, feed: float, speed: float, angle: float, nose: float
) -> None:
    cut = turning_forces(law, depth, feed, speed, None, angle, nose, correction=1, edge_radius=0)
    rate = removal_rate_turning(speed, feed, depth)
    assert cut.power.mean == pytest.approx(law.at(cut.chip.mean) * rate / 60000)
    assert cut.motor_power.mean == pytest.approx(cut.power.mean / 0.75)


@given(depths, feeds, angles, noses)
def test_feed_and_radial_force_follow_the_chord_of_the_edge(
    depth: float, feed: float, angle: float, nose: float
) -> None:
    cut = turning_forces(STEEL, depth, feed, 30, None, angle, nose, edge_radius=0)
    chord = radians(cut.chip.chord_angle)
    thrust = hypot(cut.feed.mean, cut.radial.mean)
    assert cut.feed.mean == pytest.approx(thrust * sin(chord), abs=1e-9 * thrust)
    assert cut.radial.mean == pytest.approx(thrust * cos(chord), abs=1e-9 * thrust)
    assert thrust <= 0.6 * cut.tangential.mean * (1 + 1e-9)


def test_a_large_nose_and_a_small_depth_push_the_work_away() -> None:
    light = turning_forces(STEEL, 0.2, 0.05, 30, nose_radius=1.2)
    heavy = turning_forces(STEEL, 2, 0.05, 30, nose_radius=0.2)
    assert light.radial.mean > 2 * light.feed.mean
    assert heavy.feed.mean > 5 * heavy.radial.mean


def test_an_edge_square_to_the_feed_with_a_sharp_corner_has_no_radial_force() -> None:
    cut = turning_forces(STEEL, 1, 0.1, 30, nose_radius=0)
    assert cut.radial.mean == 0
    assert cut.feed.mean == pytest.approx(0.6 * cut.tangential.mean)


def test_torque_is_known_where_the_diameter_is() -> None:
    assert turning_forces(STEEL, 1, 0.1, 30).torque is None
    cut = turning_forces(STEEL, 1, 0.1, 30, diameter=40)
    assert cut.torque is not None
    assert cut.torque.mean == pytest.approx(cut.tangential.mean * 0.02)
    speed = 30 * 1000 / (pi * 40)
    assert spindle_power(cut.torque.mean, speed) == pytest.approx(cut.power.mean)


def test_a_turning_cut_is_described_with_its_bands() -> None:
    cut = turning_forces(STEEL, 1, 0.1, 30, diameter=25)
    assert cut.describe() == (
        "Tangential 313 N (250 to 375 N), feed 153 N (107 to 198 N), radial 61.1 N (42.7 to 79.4"
        " N); 208 W (167 to 250 W) at the motor."
    )
    assert cut.notes == ()
    assert len(cut.cautions) == 2


@given(st.floats(0.01, 100), st.floats(10, 5000), st.floats(10, 100))
def test_torque_and_power_of_a_spindle_undo_each_other(
    power: float, speed: float, efficiency: float
) -> None:
    torque = spindle_torque(power, speed, efficiency)
    assert spindle_power(torque, speed) == pytest.approx(power * efficiency / 100)


def test_a_turn_of_the_feed_screw_does_the_work_of_its_torque() -> None:
    force = table_drive_force(2, 5, efficiency=100)
    assert force * 0.005 == pytest.approx(2 * pi * 2)
    assert table_drive_force(2, 5) == pytest.approx(0.3 * force)


# Milling


def milled(**changed: Any) -> Any:
    ordinary = {
        "work": STEEL,
        "cutter_diameter": 10,
        "teeth": 4,
        "feed_per_tooth": 0.05,
        "depth_of_cut": 5,
        "width_of_cut": 2,
        "spindle_speed": 900,
    }
    return milling_forces(**(ordinary | changed))


@given(resistances, st.floats(2, 50), st.integers(1, 12), st.floats(0.02, 0.3), shares)
def test_milling_power_is_the_specific_force_times_the_removal_rate(
    law: CuttingResistance, diameter: float, teeth: int, feed: float, share: float
) -> None:
    cut = milled(
        work=law,
        cutter_diameter=diameter,
        teeth=teeth,
        feed_per_tooth=feed,
        width_of_cut=share * diameter,
        helix=0,
        correction=1,
        edge_radius=0,
    )
    rate = removal_rate_milling(5, share * diameter, table_feed(feed, teeth, 900))
    assert cut.power.mean == pytest.approx(law.at(cut.chip.mean) * rate / 60000)
    assert cut.torque.mean == pytest.approx(cut.power.mean * 30000 / (pi * 900))
    assert cut.tangential_peak.mean >= cut.tangential.mean
    assert cut.side_peak.mean <= hypot(1, 0.6) * cut.tangential_peak.mean * (1 + 1e-9)


def forces_by_steps(
    law: CuttingResistance, feed: float, depth: float, entry: float, leave: float
) -> tuple[float, float, float]:
    """Means over a whole turn of one straight tooth: tangential, push on the table, across."""
    steps = 20000
    tangential = push = across = 0.0
    for n in range(steps):
        angle = entry + (leave - entry) * (n + 0.5) / steps
        chip = feed * sin(angle)
        force = law.kc1_1 * chip ** (1 - law.mc) * depth
        tangential += force
        push += force * cos(angle) + 0.6 * force * sin(angle)
        across += force * sin(angle) - 0.6 * force * cos(angle)
    part = (leave - entry) / (2 * pi) / steps
    return tangential * part, push * part, across * part


@pytest.mark.parametrize("direction", ["conventional", "climb"])
@pytest.mark.parametrize("share", [0.1, 0.4, 0.9])
def test_mean_forces_are_the_integral_over_the_immersion(direction: str, share: float) -> None:
    cut = milled(
        width_of_cut=10 * share, direction=direction, teeth=3, correction=1, cutter="carbide"
    )
    leave = acos(1 - 2 * share)
    arc = (0, leave) if direction == "conventional" else (pi - leave, pi)
    tangential, push, across = (3 * force for force in forces_by_steps(STEEL, 0.05, 5, *arc))
    assert cut.feed.mean == pytest.approx(push, rel=1e-3, abs=1e-3 * tangential)
    off = -across if direction == "conventional" else across
    assert cut.radial.mean == pytest.approx(off, rel=1e-3, abs=1e-3 * tangential)
    # The handbook's mean, at the mean chip, lies a little over the mean of the force itself.
    assert 1 <= cut.tangential.mean / tangential < 1.05


@pytest.mark.parametrize("share", [0.05, 0.2])
def test_climb_milling_asks_less_of_the_drive_and_pulls_the_table(share: float) -> None:
    climb, conventional = (
        milled(width_of_cut=10 * share, direction=way) for way in ("climb", "conventional")
    )
    assert climb.tangential == conventional.tangential
    assert climb.feed.mean < 0 < conventional.feed.mean
    assert climb.feed_pull.mean > 0
    assert conventional.feed_pull.mean == 0
    assert climb.cautions[0].startswith("the cutter pulls the table along with up to ")
    assert not any("pulls the table" in caution for caution in conventional.cautions)


def test_climb_milling_pushes_the_cutter_off_its_wall_and_a_deep_conventional_cut_into_it() -> None:
    assert milled(direction="climb").radial.mean > 0
    assert milled(direction="conventional", width_of_cut=5).radial.mean < 0


def test_a_slot_is_the_same_in_both_directions_but_for_the_side_that_is_the_wall() -> None:
    climb, conventional = (
        milled(width_of_cut=10, direction=way, helix=0) for way in ("climb", "conventional")
    )
    assert climb.feed.mean == pytest.approx(conventional.feed.mean)
    assert climb.radial.mean == pytest.approx(-conventional.radial.mean)


def test_one_straight_tooth_peaks_at_its_thickest_chip() -> None:
    cut = milled(teeth=1, helix=0, width_of_cut=7, correction=1, cutter="carbide")
    assert cut.tangential_peak.mean == pytest.approx(1500 * 0.05**0.78 * 5)
    narrow = milled(teeth=1, helix=0, width_of_cut=1, correction=1, cutter="carbide")
    thickest = 0.05 * sin(acos(0.8))
    assert narrow.tangential_peak.mean == pytest.approx(1500 * thickest**0.78 * 5)


def test_a_helix_smooths_the_peak_and_leaves_the_mean() -> None:
    peaks = [milled(depth_of_cut=10, helix=helix).tangential_peak.mean for helix in (0, 20, 45)]
    assert peaks == sorted(peaks, reverse=True)
    assert peaks[0] > 1.5 * peaks[2]
    means = {milled(depth_of_cut=10, helix=helix).tangential.mean for helix in (0, 20, 45)}
    assert len(means) == 1


def test_twice_the_depth_is_twice_every_mean_force() -> None:
    one, two = (milled(depth_of_cut=depth) for depth in (2, 4))
    for name in ("tangential", "feed", "radial"):
        assert getattr(two, name).mean == pytest.approx(2 * getattr(one, name).mean)


def test_an_ordinary_slot_in_low_carbon_steel_is_well_within_a_small_mill() -> None:
    # Common practice, no source: 5/32 in, two teeth, 2200 rpm, 100 mm/min, 0.25 mm deep.
    cut = milling_forces(
        Material.from_text("low-carbon steel"), 5 / 32 * 25.4, 2, 100 / 4400, 0.25, 3.96, 2200
    )
    assert 10 < cut.tangential.mean < 25
    assert cut.motor_power.most < 0.02
    assert cut.chip.thickest == pytest.approx(0.0227, abs=1e-4)
    assert len(cut.notes) == 1


def test_a_milling_cut_is_described_by_what_the_table_feels() -> None:
    assert milled(direction="climb", width_of_cut=0.5).describe() == (
        "Tangential 77.1 N (61.7 to 92.6 N), 220 N at its peak; the table's drive is pulled with"
        " 58.3 N (40.8 to 75.8 N); 48.5 W (38.8 to 58.2 W) at the motor."
    )
    assert "the table's drive pushes with" in milled().describe()


# Drilling and tapping


@given(st.floats(2, 40), st.floats(0.05, 0.5), st.floats(0, 0.9))
def test_a_hole_drilled_in_two_steps_takes_the_torque_of_one(
    diameter: float, feed: float, share: float
) -> None:
    inner = share * diameter
    parts = [
        drilling_forces(STEEL, size, feed, 500, before, correction=1).torque.mean
        for size, before in ((diameter, inner), (inner, 0))
        if size > 0.1
    ]
    whole = drilling_forces(STEEL, diameter, feed, 500, correction=1).torque.mean
    assert sum(parts) == pytest.approx(whole, rel=1e-6, abs=1e-3)


def torque_by_rings(law: CuttingResistance, diameter: float, feed: float) -> float:
    """Torque of the lips, ring by ring from the centre to the margin, in N·m."""
    chip, rings = feed / 2 * sin(radians(59)), 2000
    width = diameter / 2 / rings
    return sum(law.at(chip) * feed * width * (n + 0.5) * width / 1000 for n in range(rings))


@pytest.mark.parametrize("diameter", [5, 12, 25])
def test_drilling_torque_is_the_sum_of_its_rings(diameter: float) -> None:
    made = drilling_forces(STEEL, diameter, 0.2, 500, correction=1)
    assert made.torque.mean == pytest.approx(torque_by_rings(STEEL, diameter, 0.2))


def test_below_16_mm_the_torque_falls_with_the_handbooks_power() -> None:
    small, large = (drilling_forces(STEEL, size, 0.1, 500).torque.mean for size in (4, 8))
    assert large / small == pytest.approx(2**1.8)
    small, large = (drilling_forces(STEEL, size, 0.1, 500).torque.mean for size in (16, 32))
    assert large / small == pytest.approx(2**2)


def test_a_drill_is_described_with_its_bands() -> None:
    made = drilling_forces(STEEL, 10, 0.15, 700)
    assert made.describe() == (
        "Thrust 2540 N (1524 to 3556 N), torque 8.14 N·m (6.51 to 9.77 N·m); 795 W (636 to 954 W)"
        " at the motor."
    )
    assert made.cautions[1].startswith("a drill grabs as it breaks through")


@given(st.floats(2, 40), st.floats(0.75, 0.95))
def test_tapping_torque_goes_by_the_cube_of_the_size(diameter: float, share: float) -> None:
    one, two = (
        tapping_torque("C45", size, share * size).torque.mean for size in (diameter, 2 * diameter)
    )
    assert two == pytest.approx(8 * one)


def test_tapping_torque_is_the_makers_equation() -> None:
    made = tapping_torque("C45", 10, 8.5)
    hand = tan(radians(30)) * 3900 * 1.35 * 1.5**2 * 27 / 24000
    assert made.torque.mean == pytest.approx(hand)
    assert made.thread_depth == 0.75


@pytest.mark.parametrize(
    ("work", "tap", "thread", "factor"),
    [
        ("steel", "plug", "fine", 3600 * 1.25),
        ("stainless steel", "spiral point", "coarse", 4200 * 0.95),
        ("cast iron", "bottoming", "fine", 2900 * 1.25),
        ("aluminium", "spiral flute", "coarse", 1300 * 1.05),
        ("brass", "plug", "coarse", 2300 * 1.60),
        ("brass", "spiral pointed", "fine", 2300 * 1.00),
        (5000, "gun", "coarse", 5000 * 0.95),
    ],
)
def test_each_work_takes_its_own_factor_of_the_tap(
    work: str | float, tap: str, thread: str, factor: float
) -> None:
    made = tapping_torque(work, 10, 8.5, tap, thread)
    hand = tan(radians(30)) * factor * 1.5**2 * 27 / 24000
    assert made.torque.mean == pytest.approx(hand)


def test_a_worn_tap_asks_a_third_more() -> None:
    sharp, worn = (tapping_torque("steel", 6, 5, edge=edge).torque for edge in ("sharp", "worn"))
    assert worn.mean == pytest.approx(1.3 * sharp.mean)


def test_what_is_dangerous_in_the_material_is_said_with_its_forces() -> None:
    titanium = Material.from_text("titanium")
    assert titanium.cautions
    for cut in (
        turning_forces(titanium, 1, 0.1, 15),
        milled(work=titanium),
        drilling_forces(titanium, 6, 0.1, 500),
    ):
        assert set(titanium.cautions) < set(cut.cautions)


# The direction of feed


def test_each_direction_says_what_it_does() -> None:
    climb = feed_direction("climb", 0.15, cut="finishing", feed_per_tooth=0.02)
    conventional = feed_direction("conventional", 0.15)
    assert "asks less of the drive" in climb.feed_force
    assert "pushes against the feed" in conventional.feed_force
    assert climb.worst_chip == pytest.approx(0.17)
    assert conventional.worst_chip is None
    assert climb.cautions[0].startswith("climb milling draws the table through its backlash")
    assert climb.describe().endswith("; a jump would make a chip of 0.17 mm.")


@pytest.mark.parametrize(
    ("backlash", "table_state", "cut", "borne"),
    [
        (0.15, "free", "roughing", False),
        (0.15, "free", "finishing", True),
        (0.15, "locked", "roughing", True),
        (0.15, "compensated", "roughing", True),
        (0, "free", "roughing", True),
        (None, "free", "roughing", True),
    ],
)
def test_climb_milling_through_backlash_is_a_fault_only_where_nothing_bears_it(
    backlash: float | None, table_state: str, cut: str, borne: bool
) -> None:
    assert (climb_fault("climb", backlash, table_state, cut) == "") is borne
    assert climb_fault("conventional", backlash, table_state, cut) == ""


def test_climb_milling_with_an_unknown_backlash_carries_the_caution() -> None:
    assert len(feed_direction("climb").cautions) == 2
    assert feed_direction("climb", 0).cautions == ()


# What is refused, and what is cautioned


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: turning_forces(1500, 1, 0.1, 30),
            "mc is not given with a specific cutting force of 1500 N/mm^2",
            "mc",
        ),
        (
            lambda: turning_forces(Material.from_text("ABS"), 1, 0.1, 30),
            "no cutting force of ABS is known",
            "work",
        ),
        (
            lambda: turning_forces(STEEL, 0.2, 0.004, 30, nose_radius=0),
            "the chip is 4 µm at its thickest, thinner than the edge's radius of 5 µm: it bears and"
            " does not cut",
            "feed_per_rev",
        ),
        (
            lambda: milled(feed_per_tooth=0.02, cutter="carbide insert"),
            "the chip is 16 µm at its thickest, thinner than the edge's radius of 30 µm: it bears"
            " and does not cut",
            "feed_per_tooth",
        ),
        (
            lambda: milled(width_of_cut=12),
            "width of cut is 12 mm, it must be over 0 mm and at most 10 mm",
            "width_of_cut",
        ),
        (
            lambda: milled(width_of_cut=10, slot_width=8),
            "cutter diameter is 10 mm, it must be over 0 mm and at most 8 mm",
            "cutter_diameter",
        ),
        (
            lambda: milled(direction="up"),
            '"up" is no direction that is known here',
            "direction",
        ),
        (
            lambda: milled(position="middle"),
            '"middle" is no position that is known here',
            "position",
        ),
        (lambda: milled(teeth=2.5), "teeth is 2.5, it must be a whole number", "teeth"),
        (
            lambda: milled(cutter="cheese"),
            '"cheese" is no cutter material that is known here',
            "cutter",
        ),
        (lambda: milled(edge="blunt"), '"blunt" is no edge that is known here', "edge"),
        (
            lambda: force_correction(operation="sawing"),
            '"sawing" is no operation that is known here',
            "operation",
        ),
        (
            lambda: turning_forces(STEEL, 1, 0.1, 30, operation="milling"),
            '"milling" is no operation that is known here',
            "operation",
        ),
        (
            lambda: chip_thickness_milling(0.1, 20, 5, nose_radius=3),
            "depth of cut is not given with a nose radius of 3 mm",
            "depth_of_cut",
        ),
        (
            lambda: cutting_resistance(2000, 0.3, 1500, 0.2),
            "thick chip is 0.2 mm, it must be over the thin one of 0.3 mm",
            "thick_chip",
        ),
        (
            lambda: cutting_resistance(2000, 0.1, 2500, 0.2),
            "these readings make mc -0.322, it must be at least 0 and at most 0.9",
            "thick_force",
        ),
        (
            lambda: drilling_forces(STEEL, 6, 0.1, 500, 6),
            "drilled before is 6 mm, it must be at least 0 mm and below 6 mm",
            "drilled_before",
        ),
        (
            lambda: drilling_forces(STEEL, 6, 0.01, 500),
            "the chip is 4.29 µm at its thickest, thinner than the edge's radius of 5 µm: it bears"
            " and does not cut",
            "feed_per_rev",
        ),
        (
            lambda: tapping_torque("steel", 6, 6),
            "drilled is 6 mm, it must be at least 3 mm and below 6 mm",
            "drilled",
        ),
        (
            lambda: tapping_torque("cheese", 6, 5),
            '"cheese" is no work that the tapping table knows',
            "work",
        ),
        (
            lambda: tapping_torque("brass", 6, 5, "spiral flute", "fine"),
            "there is no figure for a spiral flute tap in a fine thread in brass",
            "tap",
        ),
        (
            lambda: feed_direction("climb", 0.2),
            "climb milling with a backlash of 0.2 mm and neither lock nor compensator is for a"
            " light finishing pass only",
            "direction",
        ),
        (
            lambda: feed_direction("climb", table="loose"),
            '"loose" is no table that is known here',
            "table",
        ),
        (
            lambda: spindle_torque(0, 500),
            "power is 0 kW, it must be over 0 kW",
            "power",
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


def test_a_chip_that_bears_for_part_of_the_way_is_cautioned() -> None:
    cut = milled(width_of_cut=0.2, feed_per_tooth=0.03)
    assert cut.cautions[0] == (
        "the chip is 4.23 µm on average, thinner than the edge's radius of 5 µm: for part of the"
        " way the edge rubs"
    )


def test_a_thin_chip_carries_the_note_that_the_law_was_not_measured_there() -> None:
    cut = turning_forces(STEEL, 1, 0.03, 30, nose_radius=0)
    assert cut.notes == (
        "a chip of 30 µm is thinner than those the law was measured on (50 µm and more): the force"
        " may be more than this",
    )


GOOD: dict[Callable[..., Any], dict[str, Any]] = {
    specific_cutting_force: {"work": 1500.0, "chip_thickness": 0.1, "mc": 0.2, "correction": 1.0},
    cutting_resistance: {
        "thin_force": 2000.0,
        "thin_chip": 0.1,
        "thick_force": 1500.0,
        "thick_chip": 0.4,
    },
    force_correction: {"rake": 5.0, "base_rake": 6.0},
    chip_thickness_turning: {
        "feed_per_rev": 0.1,
        "depth_of_cut": 1.0,
        "entering_angle": 90.0,
        "nose_radius": 0.4,
    },
    chip_thickness_milling: {
        "feed_per_tooth": 0.1,
        "cutter_diameter": 20.0,
        "width_of_cut": 5.0,
        "entering_angle": 90.0,
        "depth_of_cut": 2.0,
        "nose_radius": 1.0,
    },
    feed_for_chip: {
        "chip_thickness": 0.02,
        "cutter_diameter": 20.0,
        "width_of_cut": 5.0,
        "entering_angle": 90.0,
    },
    turning_forces: {
        "work": 1500.0,
        "depth_of_cut": 1.0,
        "feed_per_rev": 0.1,
        "cutting_speed": 30.0,
        "diameter": 25.0,
        "entering_angle": 90.0,
        "nose_radius": 0.4,
        "mc": 0.2,
        "rake": 6.0,
        "efficiency": 75.0,
        "edge_radius": 5.0,
        "correction": 1.0,
    },
    milling_forces: {
        "work": 1500.0,
        "cutter_diameter": 10.0,
        "teeth": 4.0,
        "feed_per_tooth": 0.05,
        "depth_of_cut": 5.0,
        "width_of_cut": 2.0,
        "spindle_speed": 900.0,
        "helix": 30.0,
        "entering_angle": 90.0,
        "nose_radius": 0.0,
        "slot_width": 10.0,
        "mc": 0.2,
        "rake": 6.0,
        "efficiency": 75.0,
        "edge_radius": 5.0,
        "correction": 1.0,
    },
    drilling_forces: {
        "work": 1500.0,
        "diameter": 10.0,
        "feed_per_rev": 0.1,
        "spindle_speed": 700.0,
        "drilled_before": 3.0,
        "point_angle": 118.0,
        "mc": 0.2,
        "efficiency": 75.0,
        "edge_radius": 5.0,
        "correction": 1.0,
    },
    tapping_torque: {"work": 3600.0, "diameter": 6.0, "drilled": 5.0, "thread_angle": 60.0},
    feed_direction: {"direction": "climb", "backlash": 0.0, "feed_per_tooth": 0.02},
    spindle_torque: {"power": 0.5, "spindle_speed": 400.0, "efficiency": 75.0},
    spindle_power: {"torque": 10.0, "spindle_speed": 400.0},
    table_drive_force: {"torque": 1.0, "lead": 2.0, "efficiency": 30.0},
}


def numbers_in(result: Any) -> list[float]:
    """Every number of a result, its records' too."""
    if isinstance(result, int | float):
        return [float(result)]
    names = getattr(result, "__dataclass_fields__", {})
    return [number for name in names for number in numbers_in(getattr(result, name))]


def refused_argument(call: Callable[[], Any]) -> str:
    """The argument at fault where a call is refused; `""` where it gives finite numbers."""
    try:
        result = call()
    except TradeError as refused:
        return refused.argument
    return "" if all(map(isfinite, numbers_in(result))) else "none: a number is not finite"


@pytest.mark.parametrize("formula", GOOD, ids=lambda formula: formula.__name__)
@pytest.mark.parametrize("odd", FLOATS)
def test_no_float_gets_past_as_an_error_of_another_kind(
    formula: Callable[..., Any], odd: float
) -> None:
    good = GOOD[formula]
    assert refused_argument(partial(formula, **good)) == ""
    names = {parameter.name for parameter in OFFERS[formula.__name__].parameters}
    for name, value in good.items():
        if isinstance(value, float):
            assert refused_argument(partial(formula, **(good | {name: odd}))) in {"", *names}


def test_estimates_say_their_bands() -> None:
    assert ForceEstimate(-100, 30).least == -130
    assert ForceEstimate(-100, 30).most == -70
    assert ForceEstimate(-100, 30).describe() == "-100 N (-130 to -70 N)"
    assert PowerEstimate(1.5, 20).describe() == "1.5 kW (1.2 to 1.8 kW)"
    assert BendEstimate(2500, 10).describe() == "2.5 mm (2.25 to 2.75 mm)"
    assert BendEstimate(12, 0).describe() == "12 µm"


@pytest.mark.parametrize(
    "name",
    [
        "turning_forces",
        "milling_forces",
        "drilling_forces",
        "tapping_torque",
        "feed_direction",
    ],
)
def test_what_can_hurt_carries_its_caution_and_defers_to_the_manual(name: str) -> None:
    whole = " ".join(row["caution"] for row in table("forces_cautions").rows)
    assert "manuals of machine, chuck and cutter come first" in whole
    good = {"feed_direction": {"direction": "climb"}}.get(name) or GOOD[OFFERS[name].function]
    assert OFFERS[name].function(**good).cautions
