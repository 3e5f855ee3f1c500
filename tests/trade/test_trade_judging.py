"""A whole cut judged at once: each limit against its formula and by hand, good and bad input."""

from __future__ import annotations

import re
from math import pi
from typing import Any

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st

from shoplog.calc.wrong import RESERVED
from shoplog.trade.declare import TradeError
from shoplog.trade.judging.judging import judged_cut
from shoplog.trade.judging.judging_record import HARD, JudgedCut, Limit, amount
from shoplog.trade.machining.bending import boring_bar_bending, end_mill_bending
from shoplog.trade.machining.cutting_data import corrected_range, cutting_range
from shoplog.trade.machining.drilling_forces import drilling_forces
from shoplog.trade.machining.finish import turned_finish
from shoplog.trade.machining.forces import spindle_torque, turning_forces
from shoplog.trade.machining.milling_forces import milling_forces
from shoplog.trade.machining.work_bending import work_bending
from shoplog.trade.materials import material
from shoplog.trade.offers import OFFERS

STEPS = [110.0, 180.0, 290.0, 460.0, 740.0, 1180.0]
LATHE: dict[str, Any] = {"spindle_steps": STEPS, "power": 0.37, "drive_force": 500.0}
# A bar of 25 mm standing 60 mm out of the chuck, in light roughing.
TURNED: dict[str, Any] = {
    **LATHE,
    "spindle_speed": 290.0,
    "feed_per_rev": 0.1,
    "depth_of_cut": 0.6,
    "diameter": 25.0,
    "nose_radius": 0.4,
    "length": 60.0,
    "holding": "chuck",
    "tolerance": 0.05,
    "chuck_speed": 2500.0,
}
MILLED: dict[str, Any] = {
    "spindle_speed": 600.0,
    "feed_per_tooth": 0.03,
    "depth_of_cut": 4.0,
    "width_of_cut": 3.0,
    "cutter_diameter": 10.0,
    "teeth": 4.0,
    "stick_out": 28.0,
    "direction": "conventional",
    "tolerance": 0.05,
    "most_speed": 1600.0,
    "least_speed": 160.0,
    "power": 0.37,
    "drive_force": 800.0,
}
DRILLED: dict[str, Any] = {
    "spindle_speed": 520.0,
    "feed_per_rev": 0.12,
    "cutter_diameter": 10.0,
    "depth_of_cut": 15.0,
    "power": 0.25,
    "drive_force": 1500.0,
    "spindle_steps": [310.0, 520.0, 780.0],
}


def turned(**changed: Any) -> JudgedCut:
    return judged_cut("turning", "C45", **{**TURNED, **changed})


def milled(operation: str = "profile milling", **changed: Any) -> JudgedCut:
    return judged_cut(operation, "C45", **{**MILLED, **changed})


def drilled(**changed: Any) -> JudgedCut:
    return judged_cut("drilling", "low-carbon steel", **{**DRILLED, **changed})


def limit(cut: JudgedCut, what: str) -> Limit:
    found = cut.named(what)
    assert found is not None, [each.what for each in cut.limits]
    return found


class TestTurning:
    def test_fastest_step_of_the_machine_is_not_called_nearest(self) -> None:
        cut = turned(spindle_speed=290.0, spindle_steps=[110.0, 290.0])
        assert limit(cut, "spindle speed").share == 100
        assert cut.limits[0].what == "spindle speed"
        assert "nearest is overhang" in cut.first

    def test_power_is_that_of_the_formula_and_by_hand(self) -> None:
        made = turning_forces(
            material("C45"), 0.6, 0.1, pi * 25 * 290 / 1000, diameter=25, nose_radius=0.4
        )
        found = limit(turned(), "power")
        assert found.figure.nominal == pytest.approx(made.motor_power.mean)
        # By hand, 1 mm deep: the edge is 0.4 pi/2 + 0.6 = 1.228 mm, the chip 0.0814 mm,
        # kc = 1.2 * 1500 * 0.0814^-0.22 = 3126 N/mm^2, F = 312.6 N, and at 22.78 m/min that takes
        # 312.6 * 22.78 / 60000 / 0.75 = 0.1582 kW; the torque is 312.6 N * 12.5 mm = 3.91 N·m.
        deep = limit(turned(depth_of_cut=1.0), "power")
        assert deep.figure.nominal == pytest.approx(0.1582, abs=0.0001)
        assert deep.share == pytest.approx(100 * 0.1582 / 0.37, abs=0.1)
        assert deep.spread == 25
        torque = limit(turned(depth_of_cut=1.0), "torque")
        assert torque.figure.nominal == pytest.approx(3.907, abs=0.002)

    def test_torque_is_held_against_what_the_motor_gives_at_the_step(self) -> None:
        found = limit(turned(), "torque")
        # By hand: 9550 * 0.37 * 0.75 / 290 = 9.14 N·m.
        assert found.bound.nominal == pytest.approx(9.138, abs=0.002)
        assert found.bound.nominal == pytest.approx(spindle_torque(0.37, 290, 75))
        assert limit(turned(torque=5.0), "torque").bound.nominal == 5

    def test_feed_force_and_bending_are_those_of_the_formulas(self) -> None:
        steel = material("C45")
        made = turning_forces(steel, 0.6, 0.1, pi * 25 * 290 / 1000, diameter=25, nose_radius=0.4)
        cut = turned()
        assert limit(cut, "feed force").figure.nominal == pytest.approx(made.feed.mean)
        bend = work_bending(made.radial, 25 - 1.2, 60, "chuck", steel).worst
        assert limit(cut, "bending").figure.nominal == pytest.approx(bend.mean)
        # By hand: twice F L^3 / (3 E I) of the radial force on 23.8 mm.
        moment = pi * 23.8**4 / 64
        hand = 2 * made.radial.mean * 60**3 / (3 * 1000 * steel.youngs_modulus * moment) * 1000
        assert bend.mean == pytest.approx(hand, rel=1e-6)

    def test_overhang_of_the_work_is_its_length_over_its_diameter(self) -> None:
        found = limit(turned(), "overhang")
        assert (found.figure.nominal, found.bound.nominal) == (2.4, 3)
        assert found.share == pytest.approx(80)
        past = limit(turned(length=100.0), "overhang")
        assert past.change == (
            "75 mm at most (work in the chuck), or bring up the tailstock centre, or hold the end"
            " in a steady"
        )

    def test_speed_and_feed_are_held_against_the_range(self) -> None:
        band = cutting_range("turning", "C45", "HSS", 25.0)
        cut = turned()
        assert limit(cut, "cutting speed").bound.nominal == band.speed_max
        assert limit(cut, "feed").bound.nominal == band.feed_per_rev_max
        assert limit(cut, "cutting speed").figure.nominal == pytest.approx(22.777, abs=0.001)

    def test_finish_is_theoretical_ra_and_only_where_asked(self) -> None:
        assert turned().finish is None
        found = limit(turned(wanted_ra=0.5), "finish")
        assert found.figure.nominal == pytest.approx(turned_finish(0.1, 0.4).ra)
        # By hand: f^2 / (31.2 r) = 0.01 / 12.48 mm = 0.80 µm.
        assert found.figure.nominal == pytest.approx(0.801, abs=0.01)
        assert found.change == "a feed of 0.078 mm a turn"

    def test_chip_is_held_against_the_edge(self) -> None:
        found = limit(turned(), "chip thickness")
        assert (found.figure.nominal, found.bound.nominal) == (pytest.approx(100), 5)
        assert found.share == pytest.approx(5)
        assert found.bound_is == "least"

    def test_boring_bar_bends_by_its_own_formula(self) -> None:
        cut = judged_cut(
            "boring", "C45", spindle_speed=290, feed_per_rev=0.08, depth_of_cut=0.4, diameter=25,
            nose_radius=0.4, shank_diameter=12, stick_out=50, tolerance=0.05,
        )  # fmt: skip
        made = turning_forces(
            material("C45"), 0.4, 0.08, pi * 25 * 290 / 1000, 25, operation="boring"
        )
        bend = boring_bar_bending(made.radial, 12, 50).bore_error
        assert limit(cut, "bending").figure.nominal == pytest.approx(bend.mean)
        assert limit(cut, "overhang").share == pytest.approx(100 * 50 / 12 / 4)

    def test_power_that_is_not_given_is_missing_and_not_judged(self) -> None:
        cut = turned(power=None)
        assert cut.power is None
        assert cut.torque is None
        assert "power of the motor (of the shop profile): no power or torque" in cut.missing


class TestMilling:
    def test_power_torque_and_feed_force_are_those_of_the_formula(self) -> None:
        made = milling_forces(material("C45"), 10, 4, 0.03, 4, 3, 600)
        cut = milled()
        assert limit(cut, "power").figure.nominal == pytest.approx(made.motor_power.mean)
        assert limit(cut, "torque").figure.nominal == pytest.approx(made.torque_peak.mean)
        assert limit(cut, "feed force").figure.nominal == pytest.approx(made.feed_push.mean)

    def test_power_agrees_with_the_removal_rate_by_hand(self) -> None:
        cut = milled()
        made = milling_forces(material("C45"), 10, 4, 0.03, 4, 3, 600)
        # kc ap ae vf: the table moves 0.03 * 4 * 600 = 72 mm/min, 864 mm^3/min come off.
        thickness = made.chip.mean
        steel = material("C45")
        assert steel.specific_cutting_force is not None
        assert steel.chip_exponent is not None
        resistance = 1.2 * steel.specific_cutting_force * thickness**-steel.chip_exponent
        hand = resistance * 4 * 3 * 72 / 6e7 / 0.75
        assert limit(cut, "power").figure.nominal == pytest.approx(hand, rel=0.01)

    def test_bending_is_that_of_the_end_mill(self) -> None:
        made = milling_forces(material("C45"), 10, 4, 0.03, 4, 3, 600)
        bend = end_mill_bending(made.radial, 10, 28, 28, load_from_tip=2).deflection
        found = limit(milled(), "bending")
        assert found.figure.nominal == pytest.approx(abs(bend.mean))
        # By hand: a bar of 8 mm, the load 26 mm out: F a^2 (3 L - a) / (6 E I).
        hand = made.radial.mean * 26**2 * (3 * 28 - 26) / (6 * 210000 * pi * 8**4 / 64)
        assert found.figure.nominal == pytest.approx(abs(1000 * hand), rel=1e-6)
        assert found.spread == 35

    @pytest.mark.parametrize(
        ("cutter", "modulus"), [("solid carbide", 600), ("brazed carbide", 206), ("M35", 210)]
    )
    def test_shank_of_a_tipped_cutter_is_steel(self, cutter: str, modulus: float) -> None:
        stiff = limit(milled(cutter=cutter, edge_radius=5.0), "bending").figure.nominal
        force = milled(cutter=cutter, edge_radius=5.0).forces
        assert force is not None
        assert force.side is not None
        hand = force.side.mean * 26**2 * (3 * 28 - 26) / (6 * modulus * pi * 8**4 / 64)
        assert stiff == pytest.approx(abs(hand), rel=1e-6)

    def test_range_is_the_corrected_one(self) -> None:
        band = cutting_range("profile milling", "C45", "HSS", 10.0)
        band = corrected_range(band, depth=4, width=3, stick_out=28)
        assert limit(milled(), "cutting speed").bound.nominal == band.speed_max
        assert limit(milled(), "feed").bound.nominal == band.feed_per_tooth_max

    def test_slot_is_as_wide_as_its_cutter(self) -> None:
        cut = milled("slot milling", width_of_cut=None, direction=None)
        made = milling_forces(material("C45"), 10, 4, 0.03, 4, 10, 600)
        assert limit(cut, "power").figure.nominal == pytest.approx(made.motor_power.mean)
        assert cut.feed_force is not None

    def test_side_cut_without_a_direction_has_power_and_no_feed_force(self) -> None:
        cut = milled(direction=None)
        assert cut.power is not None
        assert cut.feed_force is None
        assert cut.bend is None
        assert "direction of the feed (of the setup): no feed force or bending" in cut.missing

    def test_feed_may_be_given_in_each_way(self) -> None:
        by_tooth = milled()
        by_minute = milled(feed_per_tooth=None, feed_rate=72.0)
        by_turn = milled(feed_per_tooth=None, feed_per_rev=0.12)
        shares = {round(limit(cut, "power").share, 6) for cut in (by_tooth, by_minute, by_turn)}
        assert len(shares) == 1


class TestDrilling:
    def test_power_and_thrust_are_those_of_the_formula(self) -> None:
        made = drilling_forces(material("low-carbon steel"), 10, 0.12, 520)
        cut = drilled()
        assert limit(cut, "power").figure.nominal == pytest.approx(made.motor_power.mean)
        assert limit(cut, "feed force").figure.nominal == pytest.approx(made.thrust.mean)
        assert limit(cut, "feed force").spread == 40
        assert cut.bend is None

    def test_hole_that_is_there_takes_force_away(self) -> None:
        less = judged_cut("core drilling", "low-carbon steel", **DRILLED, drilled_before=6.0)
        assert limit(less, "power").share < limit(drilled(), "power").share

    def test_change_is_a_feed(self) -> None:
        found = limit(drilled(drive_force=800.0), "feed force")
        feed = float(re.findall(r"a feed of ([\d.]+) mm a turn", found.change)[0])
        assert (
            limit(drilled(drive_force=800.0, feed_per_rev=feed), "feed force").verdict == "within"
        )


# What is passed, by how much, and what is said of it first.
FINDINGS = [
    (
        "spindle speed",
        turned(spindle_speed=1500.0),
        "rated",
        127.1,
        "1180 rpm, the fastest of the machine",
    ),
    (
        "slowest spindle speed",
        milled(spindle_speed=80.0),
        "rated",
        200,
        "160 rpm, the slowest of the machine",
    ),
    (
        "chuck's marked speed",
        turned(chuck_speed=250.0),
        "marked",
        116,
        "180 rpm, the fastest step at or below 250 rpm",
    ),
    (
        "cutter's marked speed",
        milled(cutter_speed=500.0),
        "marked",
        120,
        "500 rpm at most",
    ),
    (
        "cutter in its slot",
        milled("slot milling", width_of_cut=None, slot_width=9.5),
        "geometry",
        105.26,
        "a cutter of 9.5 mm at most",
    ),
    ("width of cut", milled(width_of_cut=24.0), "geometry", 240, "3 cuts of 8 mm"),
    (
        "depth of all passes",
        milled(depth_of_cut=1.5, passes=5, total_depth=8.0),
        "geometry",
        106.67,
        "6 passes of 1.3333 mm or 5 passes of 1.6 mm",
    ),
    (
        "depth of all passes",
        milled(depth_of_cut=1.5, passes=6, total_depth=8.0),
        "geometry",
        112.5,
        "6 passes of 1.3333 mm",
    ),
    (
        "bite if the table jumps",
        milled(direction="climb", backlash=0.15),
        "geometry",
        600,
        "feed against the cutter (conventional), or lock the table",
    ),
    (
        "chip thickness",
        turned(feed_per_rev=0.004),
        "geometry",
        125,
        "a feed of 0.005 mm a turn",
    ),
]


@pytest.mark.parametrize(
    ("what", "cut", "kind", "share", "change"), FINDINGS, ids=[each[0] for each in FINDINGS]
)
def test_passed_limit_is_a_finding_with_its_share_and_change(
    what: str, cut: JudgedCut, kind: str, share: float, change: str
) -> None:
    found = limit(cut, what)
    assert found.kind == kind
    assert found.hard
    assert found.share == pytest.approx(share, abs=0.1)
    assert found.verdict == "beyond"
    assert found.change == change
    assert what in cut.beyond
    assert not cut.holds
    assert cut.limits[0].hard


class TestFirst:
    def test_passed_power_is_first_with_depth_and_step(self) -> None:
        cut = turned(depth_of_cut=2.5, feed_per_rev=0.2, spindle_speed=460.0)
        assert cut.first == (
            "Power gives way first: 1.05 kW (±25 %), at most 370 W: 284 %; the nearest change that"
            " helps: a depth of cut of 0.67 mm, or 110 rpm, the fastest step at or below 130 rpm,"
            " at the same feed a turn."
        )

    def test_bound_within_the_spread_cannot_be_told(self) -> None:
        share = limit(turned(), "power").share
        cut = turned(power=0.37 * share / 95)
        found = limit(cut, "power")
        assert found.share == pytest.approx(95)
        assert found.verdict == "cannot tell"
        assert "power" not in cut.beyond
        assert not cut.holds
        assert cut.first.startswith("Power may give way first, within its spread: ")

    def test_range_that_is_left_does_not_give_way(self) -> None:
        cut = turned(spindle_speed=740.0, depth_of_cut=0.2)
        assert cut.first.startswith(
            "Cutting speed goes past what is usual: 58.1 m/min, at most 42.7 m/min: 136 %;"
            " the nearest change that helps: 460 rpm, the fastest step at or below 543 rpm."
        )

    def test_hard_limit_comes_before_a_greater_share_of_a_range(self) -> None:
        cut = turned(spindle_speed=1500.0)
        shares = [each.share for each in cut.limits]
        assert cut.limits[0].hard
        assert max(shares) > cut.limits[0].share

    def test_nothing_known_says_so(self) -> None:
        assert judged_cut("turning", "C45").first == (
            "Nothing could be judged: see what is missing."
        )


@pytest.mark.parametrize(
    ("what", "cut_of", "given"),
    [
        ("power", turned, {"power": 0.08}),
        ("torque", turned, {"torque": 1.0}),
        ("feed force", turned, {"drive_force": 60.0}),
        ("bending", turned, {"tolerance": 0.002}),
        ("power", milled, {"power": 0.06}),
        ("feed force", milled, {"drive_force": 150.0}),
        ("bending", milled, {"tolerance": 0.005}),
    ],
)
def test_depth_that_is_named_helps_and_is_near(
    what: str, cut_of: Any, given: dict[str, float]
) -> None:
    passed = limit(cut_of(**given), what)
    assert passed.share_most > 100
    depth = float(re.findall(r"a depth of cut of ([\d.]+) mm", passed.change)[0])
    assert limit(cut_of(**given, depth_of_cut=depth), what).verdict == "within"
    deeper = limit(cut_of(**given, depth_of_cut=1.35 * depth), what)
    assert deeper.share_most > 100


@pytest.mark.parametrize(
    ("what", "given"), [("power", {"power": 0.08}), ("torque", {"power": 0.08})]
)
def test_step_that_is_named_helps(what: str, given: dict[str, float]) -> None:
    change = limit(turned(**given), what).change
    step = float(re.findall(r"or (\d+) rpm", change)[0])
    assert step in STEPS
    assert limit(turned(**given, spindle_speed=step), what).verdict == "within"


class TestForceIsWithheld:
    def test_feed_by_hand_has_no_force(self) -> None:
        cut = milled(feed_by="hand")
        forced = {"power", "torque", "feed force", "bending"}
        assert not forced & {each.what for each in cut.limits}
        assert cut.forces is None
        assert "fed by hand: no force, power or bending is worked out" in cut.notes

    def test_every_force_has_its_spread(self) -> None:
        for cut in (turned(), milled(), drilled()):
            for what in ("power", "torque", "feed force"):
                assert limit(cut, what).spread >= 20

    def test_chip_that_bears_has_no_force(self) -> None:
        cut = turned(feed_per_rev=0.004)
        assert cut.forces is None
        assert "the chip bears and does not cut: no force is worked out" in cut.notes

    def test_cut_that_cannot_be_made_has_no_force(self) -> None:
        cut = milled(width_of_cut=24.0)
        assert cut.forces is None
        assert "the cutter cannot make this cut: no force is worked out" in cut.notes

    def test_group_of_materials_has_a_range_and_no_force(self) -> None:
        cut = judged_cut("turning", "ISO M", **TURNED)
        assert cut.speed is not None
        assert cut.forces is None
        assert (
            "a material by name, not a group (of the setup): no power, torque, feed force or"
            " bending"
        ) in cut.missing

    def test_operation_whose_force_is_not_known_says_so(self) -> None:
        cut = judged_cut(
            "reaming", "brass", spindle_speed=200, feed_per_rev=0.2, cutter_diameter=10
        )
        assert cut.speed is not None
        assert cut.forces is None
        assert "no force of reaming is known here" in cut.notes


class TestClimb:
    FAULT = (
        "climb milling with a backlash of 0.15 mm and neither lock nor compensator is for a light"
        " finishing pass only"
    )

    def test_fault_is_a_caution_and_a_finding(self) -> None:
        cut = milled(direction="climb", backlash=0.15)
        assert self.FAULT in cut.cautions
        assert cut.first.startswith("Bite if the table jumps gives way first: 0.18 mm a tooth, at")

    @pytest.mark.parametrize(
        ("operation", "given"),
        [
            ("profile milling, finish", {"direction": "climb", "backlash": 0.15}),
            ("profile milling", {"direction": "climb", "backlash": 0.15, "table": "locked"}),
            ("profile milling", {"direction": "climb", "backlash": 0.15, "table": "compensated"}),
            ("profile milling", {"direction": "climb", "backlash": 0.0}),
            ("profile milling", {"direction": "conventional", "backlash": 0.15}),
        ],
    )
    def test_no_fault_where_the_table_is_held_or_the_pass_light(
        self, operation: str, given: dict[str, Any]
    ) -> None:
        cut = milled(operation, **given)
        assert cut.named("bite if the table jumps") is None
        assert self.FAULT not in cut.cautions

    def test_backlash_that_is_not_known_is_missing(self) -> None:
        cut = milled(direction="climb")
        expected = "backlash (of the shop profile): no jump of the table in climb milling"
        assert expected in cut.missing


def test_what_is_missing_is_named_with_its_home() -> None:
    assert judged_cut("turning", "C45").missing == (
        "spindle speed (of the setup): no spindle or cutting speed",
        "diameter at the edge (of the setup): no cutting speed",
        "feed (of the setup): no feed a turn or force",
        "spindle speed, diameter at the edge, feed, depth of cut (of the setup): no power,"
        " torque, feed force or bending",
    )


def test_nothing_is_missing_from_a_whole_setup() -> None:
    assert turned().missing == ()
    assert milled().missing == ()


def test_marked_speed_is_always_minded() -> None:
    for cut in (turned(), milled(), drilled(), judged_cut("hand tapping", "brass")):
        assert any("marked" in caution for caution in cut.cautions)


def test_speed_that_is_no_step_is_noted() -> None:
    assert "300 rpm is no step" not in " ".join(turned().notes)
    assert "350 rpm is no step of the machine; nearest are 290 rpm and 460 rpm" in (
        turned(spindle_speed=350.0).notes
    )


REFUSED = [
    (
        {"spindle_steps": None, "least_speed": 900.0, "most_speed": 200.0},
        "least_speed",
        "least speed is 900 rpm, it must be at most 200 rpm",
    ),
    ({"material": "unobtainium"}, "material", '"unobtainium" is not a material that is known here'),
    ({"operation": "frying"}, "operation", '"frying" is not an operation that is known here'),
    ({"cutter": "butter"}, "cutter", '"butter" is not a cutter that is known here'),
    (
        {"depth_of_cut": 0.0},
        "depth_of_cut",
        "depth of cut is 0 mm, it must be at least 0.001 mm and at most 500 mm",
    ),
    (
        {"spindle_speed": -5.0},
        "spindle_speed",
        "spindle speed is -5 rpm, it must be at least 0.1 rpm and at most 1e+06 rpm",
    ),
    (
        {"feed_rate": 30.0},
        "feed_rate",
        "the feed is given twice, as feed_per_rev and as feed_rate",
    ),
    ({"holding": "glue"}, "holding", '"glue" is no holding that is known here'),
    ({"direction": "up"}, "direction", '"up" is no direction that is known here'),
    ({"table": "loose"}, "table", '"loose" is no table that is known here'),
    ({"feed_by": "mouth"}, "feed_by", '"mouth" is no feed_by that is known here'),
    (
        {"spindle_steps": [100.0, 0.0]},
        "spindle_steps",
        "step 2 is 0 rpm, it must be at least 0.1 rpm and at most 1e+06 rpm",
    ),
]


@pytest.mark.parametrize(("given", "argument", "text"), REFUSED, ids=[r[1] for r in REFUSED])
def test_nonsense_is_refused_with_its_limit(
    given: dict[str, Any], argument: str, text: str
) -> None:
    setup = {"operation": "turning", "material": "C45", **TURNED, **given}
    with pytest.raises(TradeError) as caught:
        judged_cut(**setup)
    assert str(caught.value) == text
    assert caught.value.argument == argument


def test_forces_read_in_one_sentence() -> None:
    forces = turned(depth_of_cut=1.0).forces
    assert forces is not None
    assert forces.describe() == (
        "tangential 313 N (234 to 391 N); feed 153 N (99.2 to 206 N); side 61.1 N (39.7 to 82.4 N);"
        " torque 3.91 N·m (2.93 to 4.88 N·m); motor 158 W (119 to 198 W)."
    )


def test_limit_reads_in_one_sentence() -> None:
    assert limit(turned(depth_of_cut=1.0), "power").describe() == (
        "power 158 W (±25 %), at most 370 W: 43 %, within."
    )


def test_no_argument_is_a_reserved_word() -> None:
    names = {parameter.name for parameter in OFFERS["judged_cut"].parameters}
    assert not names & set(RESERVED)


def test_amounts_read_as_in_the_shop() -> None:
    assert amount(5, "um") == "5 µm"
    assert amount(1.25, "kW") == "1.25 kW"
    assert amount(16.3, "N*m") == "16.3 N·m"


def numbers(least: float, most: float) -> st.SearchStrategy[float | None]:
    return st.one_of(st.none(), st.floats(least, most), st.sampled_from([0.0, 1e-12, -3.0, 1e12]))


ANY = st.fixed_dictionaries(
    {
        "operation": st.sampled_from(
            ["turning", "facing", "boring, finish", "parting", "threading", "slot milling",
             "face milling", "profile milling, finish", "drilling", "core drilling", "tapping",
             "reaming", "grinding", "shaping", "broaching", "hand reaming", "slitting",
             "T-slot milling", "facing head", "knurling"]
        ),
        "material": st.sampled_from(["C45", "brass", "ISO K", "titanium", "nylon", "magnesium"]),
        "cutter": st.sampled_from(["HSS", "indexable carbide", "ceramic insert", "M35", "carbide"]),
        "spindle_speed": numbers(1, 1e5),
        "feed_rate": numbers(0.01, 1e4),
        "depth_of_cut": numbers(0.001, 400),
        "width_of_cut": numbers(0.001, 900),
        "diameter": numbers(0.1, 1900),
        "cutter_diameter": numbers(0.1, 900),
        "teeth": st.sampled_from([None, 1.0, 4.0, 2.5, 100.0]),
        "nose_radius": numbers(0, 100),
        "edge_radius": numbers(0, 400),
        "stick_out": numbers(0.1, 900),
        "flute_length": numbers(0.1, 900),
        "shank_diameter": numbers(0.1, 900),
        "length": numbers(0.1, 9000),
        "holding": st.sampled_from([None, "chuck", "centres"]),
        "drilled_before": numbers(0, 900),
        "slot_width": numbers(0.1, 900),
        "passes": st.sampled_from([None, 1, 7, 1000]),
        "total_depth": numbers(0.001, 900),
        "direction": st.sampled_from([None, "climb", "conventional"]),
        "backlash": numbers(0, 9),
        "power": numbers(0.001, 900),
        "drive_force": numbers(0.1, 1e5),
        "tolerance": numbers(1e-4, 9),
        "wanted_ra": numbers(0.01, 100),
        "most_speed": numbers(1, 1e5),
        "coolant": st.sampled_from(["flood", "dry"]),
        "feed_by": st.sampled_from(["power", "power", "hand"]),
    }
)  # fmt: skip


@settings(max_examples=250, deadline=None)
@given(ANY)
def test_any_setup_is_judged_in_order_or_refused(given_: dict[str, Any]) -> None:
    try:
        cut = judged_cut(**given_)
    except TradeError as error:
        event(type(error).__name__)
        return
    passed = [each.kind in HARD and each.share > 100 * (1 + 1e-9) for each in cut.limits]
    assert passed == sorted(passed, reverse=True)
    for group in (True, False):
        shares = [e.share for e, hard in zip(cut.limits, passed, strict=True) if hard is group]
        assert shares == sorted(shares, reverse=True)
    for each in cut.limits:
        assert each.share >= 0
        assert each.source
        assert (each.verdict == "within") == (each.share_most <= 100 * (1 + 1e-9))
        if each.what in ("power", "torque", "feed force"):
            assert each.spread >= 20
    assert cut.first.endswith(".")
    if given_["feed_by"] == "hand":
        assert cut.forces is None


def test_cut_that_is_past_mending_names_no_change() -> None:
    cut = milled(drive_force=1.0)
    found = limit(cut, "feed force")
    assert found.verdict == "beyond"
    assert found.change == ""
    assert cut.first.endswith(f": {found.share:.0f} %.")


def test_no_spindle_is_told_to_stand_still() -> None:
    slow: dict[str, Any] = {"spindle_speed": 1.0, "least_speed": None, "depth_of_cut": 10.0}
    slow |= {"width_of_cut": 10.0}
    found = limit(milled(**slow, power=0.001), "torque")
    assert found.share_most > 100
    assert "rpm" not in found.change


def test_range_goes_with_hand_feed_coolant_and_rigidity() -> None:
    usual = milled()
    feed = limit(usual, "feed").bound.nominal
    speed = limit(usual, "cutting speed").bound.nominal
    by_hand = limit(milled(feed_by="hand"), "feed").bound.nominal
    dry = limit(milled(coolant="dry"), "cutting speed").bound.nominal
    light = limit(milled(rigidity="light"), "feed").bound.nominal
    assert by_hand == pytest.approx(0.6 * feed)
    assert dry == pytest.approx(0.75 * speed)
    assert light == pytest.approx(0.5 * feed)


def test_feed_a_tooth_of_a_drill_is_half_of_that_a_turn() -> None:
    by_tooth = drilled(feed_per_rev=None, feed_per_tooth=0.06, teeth=2.0)
    assert limit(by_tooth, "feed").figure.nominal == pytest.approx(0.12)
    assert limit(by_tooth, "power").share == pytest.approx(limit(drilled(), "power").share)


def test_bending_past_the_axis_is_missing_with_its_reason() -> None:
    cut = turned(depth_of_cut=13.0)
    assert cut.bend is None
    assert "diameter is -1 mm, it must be at least 0.1 mm and at most 1000 mm: no bending" in (
        cut.missing
    )


def test_passes_that_add_up_are_no_limit() -> None:
    cut = milled(depth_of_cut=1.6, passes=5, total_depth=8.0)
    assert cut.named("depth of all passes") is None


def test_a_total_depth_without_passes_is_missing_them() -> None:
    cut = milled(depth_of_cut=1.6, total_depth=8.0)
    assert "passes (of the setup): no depth of all passes" in cut.missing


@pytest.mark.parametrize("passes", [0, 1.5, 1001])
def test_passes_are_whole_and_not_too_many(passes: float) -> None:
    with pytest.raises(TradeError, match=r"^passes is "):
        milled(passes=passes, total_depth=8.0)


def test_climbing_on_a_locked_table_counts_on_the_lock() -> None:
    locked = milled(direction="climb", backlash=0.15, table="locked")
    assert locked.named("bite if the table jumps") is None
    assert any(
        said.startswith("climb milling counts on the table's lock") for said in locked.cautions
    )
    tight = milled(direction="climb", backlash=0.15, table="compensated")
    assert not any("table's lock" in said for said in tight.cautions)


def test_a_feed_below_what_is_usual_gives_way_to_what_can_break() -> None:
    found = judged_cut("turning", "C15", **{**TURNED, "feed_per_rev": 0.05})
    assert found.limits[-1].what == "least feed"
    assert (found.holds, found.bears) == (False, True)
    assert re.fullmatch(
        r"Nothing judged gives way; nearest is .*; below what is usual:"
        r" feed 0\.05 mm a turn, at least [\d.]+ mm a turn\.",
        found.first,
    )


def test_a_load_that_is_passed_comes_before_a_feed_below_what_is_usual() -> None:
    asked = {**TURNED, "feed_per_rev": 0.05, "power": 0.001}
    found = judged_cut("turning", "C15", **asked)
    assert found.first.startswith("Power gives way first: ")
    assert not found.bears
