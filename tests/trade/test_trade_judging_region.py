"""The limits of a cut over speed and feed: each lies where the judging of that cut finds it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from shoplog.trade.judging.judging import judged_cut
from shoplog.trade.judging.judging_region import region_of

CUTS = {
    "slot": ("slot milling", "mild steel", "HSS", {
        "spindle_speed": 900.0, "feed_per_tooth": 0.03, "depth_of_cut": 3.0,
        "cutter_diameter": 10.0, "teeth": 4.0, "stick_out": 30.0, "tolerance": 0.05,
        "direction": "conventional", "power": 0.4, "drive_force": 800.0,
        "spindle_steps": [200.0, 400.0, 900.0, 1600.0], "wanted_ra": 3.2,
    }),
    "side": ("side milling", "mild steel", "HSS", {
        "spindle_speed": 90.0, "feed_rate": 60.0, "depth_of_cut": 3.0, "width_of_cut": 2.0,
        "cutter_diameter": 60.0, "teeth": 14.0, "direction": "conventional", "power": 0.4,
        "drive_force": 800.0,
    }),
    "face": ("face milling", "C45", "carbide", {
        "spindle_speed": 500.0, "feed_per_tooth": 0.05, "depth_of_cut": 0.5,
        "width_of_cut": 40.0, "cutter_diameter": 63.0, "teeth": 4.0, "nose_radius": 0.8,
        "direction": "conventional", "power": 0.4, "torque": 4.0, "wanted_ra": 3.2,
    }),
    "rough": ("turning, rough", "C45", "HSS", {
        "spindle_speed": 290.0, "feed_per_rev": 0.1, "depth_of_cut": 1.0, "diameter": 25.0,
        "nose_radius": 0.4, "power": 0.5, "tolerance": 0.01, "length": 90.0,
        "holding": "chuck", "chuck_speed": 2500.0, "wanted_ra": 3.2, "most_speed": 1500.0,
    }),
    "finish": ("turning, finish", "brass", "HSS", {
        "spindle_speed": 900.0, "feed_per_rev": 0.06, "depth_of_cut": 0.1, "diameter": 25.0,
        "nose_radius": 0.8, "power": 0.05, "wanted_ra": 0.4,
    }),
    "drill": ("drilling", "C45", "HSS", {
        "spindle_speed": 290.0, "feed_per_rev": 0.1, "diameter": 10.0, "power": 0.5,
        "drive_force": 900.0,
    }),
}  # fmt: skip


def judged(name, **changes):
    operation, material, cutter, given = CUTS[name]
    return judged_cut(operation, material, cutter, **{**given, **changes})


def at(name, region, speed, feed):
    """The same cut judged at another speed and feed."""
    fed = dict.fromkeys(("feed_rate", "feed_per_rev", "feed_per_tooth"))
    fed["feed_per_tooth" if region.feed_unit == "mm/tooth" else "feed_per_rev"] = feed
    return judged(name, **fed, spindle_speed=speed)


@pytest.mark.parametrize("name", CUTS)
def test_the_cut_judged_on_a_bound_is_at_its_limit(name):
    """The bound is found by powers; the judging itself is the second opinion."""
    region = region_of(judged(name))
    found = set()
    for bound in region.bounds:
        speed, feed = bound.speed_at(region.feed), region.feed
        if speed is None:
            speed, feed = region.speed, bound.feed_at(region.speed)
        if not (0.1 <= speed <= 1e6 and 1e-4 <= feed <= 1):
            continue
        limit = at(name, region, speed, feed).named(bound.limit.what)
        if limit is None:  # the low end of a range is judged only where it is passed
            assert bound.limit.bound_is == "least"
            continue
        found.add(limit.what)
        assert limit.share == pytest.approx(100, rel=0.005)
    assert len(found) >= 4


@pytest.mark.parametrize("name", CUTS)
def test_far_along_a_sloped_bound_the_cut_is_at_its_limit_too(name):
    region = region_of(judged(name))
    sloped = [bound for bound in region.bounds if bound.speed_power and bound.feed_power]
    assert sloped
    for bound in sloped:
        for feed in (region.feed * 0.6, region.feed * 3):
            limit = at(name, region, bound.speed_at(feed), feed).named(bound.limit.what)
            assert limit.share == pytest.approx(100, rel=0.005)


@pytest.mark.parametrize("name", CUTS)
@pytest.mark.parametrize(("faster", "more"), [(1, 1), (0.6, 1.4), (1.5, 0.7), (3, 3), (0.3, 2)])
def test_what_holds_is_what_the_judging_lets_hold(name, faster, more):
    region = region_of(judged(name))
    speed, feed = region.speed * faster, region.feed * more
    cut = at(name, region, speed, feed)
    known = {bound.limit.what for bound in region.bounds if bound.bars}
    # Torque that the motor alone bounds is one line with its power.
    passed = {limit.what for limit in cut.limits if limit.verdict != "within"}
    assert region.holds(speed, feed) == (not passed & (known | {"torque"}))


def test_the_low_end_of_a_usual_range_bars_nothing():
    bounds = {bound.limit.what: bound.bars for bound in region_of(judged("slot")).bounds}
    assert not bounds["least cutting speed"]
    assert not bounds["least feed"]
    assert bounds["cutting speed"]
    assert bounds["slowest spindle speed"]
    assert bounds["chip thickness"]


def test_the_motor_s_own_torque_is_one_line_with_its_power():
    names = [bound.limit.what for bound in region_of(judged("rough")).bounds]
    assert "power" in names
    assert "torque" not in names
    assert "torque" in [bound.limit.what for bound in region_of(judged("face")).bounds]


def test_a_stated_torque_does_not_hang_on_the_speed():
    (torque,) = [b for b in region_of(judged("face")).bounds if b.limit.what == "torque"]
    assert torque.speed_power == 0
    assert torque.speed_at(0.05) is None
    (power,) = [b for b in region_of(judged("face")).bounds if b.limit.what == "power"]
    assert power.speed_power == pytest.approx(1)
    (speed,) = [b for b in region_of(judged("face")).bounds if b.limit.what == "cutting speed"]
    assert speed.feed_at(500) is None


def test_what_no_speed_or_feed_mends_is_named():
    assert region_of(judged("slot")).whatever == ()
    assert region_of(judged("slot", stick_out=90.0)).whatever == ("overhang",)


@pytest.mark.parametrize(
    "changes",
    [{"feed_by": "hand", "feed_per_rev": None}, {"spindle_speed": None}, {"feed_per_rev": None}],
    ids=["by hand", "no speed", "no feed"],
)
def test_without_a_speed_and_a_feed_there_is_no_region(changes):
    assert region_of(judged("rough", **changes)) is None


def test_a_cut_that_was_not_judged_from_a_setup_has_no_region():
    assert region_of(replace(judged("rough"), _setup=None)) is None


def test_where_fewer_than_two_limits_hang_on_speed_and_feed_there_is_no_region():
    bare = judged_cut("tapping", "C45", "HSS", spindle_speed=100.0, feed_per_rev=1.0)
    assert region_of(bare) is None


def test_the_setup_of_a_judged_cut_is_no_value_of_a_page():
    from shoplog.trade.declare import readable_fields
    from shoplog.trade.judging.judging_record import JudgedCut

    assert not {name for name in readable_fields(JudgedCut) if "setup" in name}
