"""Finishes against the standard's grades, makers' tables and worked examples (finish.json)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.machining.finish import turned_finish
from shoplog.trade.machining.finish_feed import nose_radius_for_ra
from shoplog.trade.machining.roughness_grades import grade_met

FILE = json.loads(Path(__file__).with_name("finish.json").read_text("utf-8"))


def listed(name: str) -> Any:
    """Parametrise a test with every value of a list, each under its own id."""
    return pytest.mark.parametrize("value", FILE[name], ids=[value["id"] for value in FILE[name]])


@published("finish")
def test_a_finish_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@listed("met")
def test_a_surface_meets_the_grade_that_is_published(value: dict[str, Any]) -> None:
    assert grade_met(value["ra"]).name == value["grade"], value["source"]


# Two printed values differ from the equation that stands beside them; why is in the file.
@listed("departures")
def test_where_a_source_departs_from_its_own_equation_ours_follows_the_equation(
    value: dict[str, Any],
) -> None:
    assert found(value) == pytest.approx(value["ours"], rel=1e-3), value["why"]
    assert found(value) == pytest.approx(value["expected"][0], rel=0.07), value["source"]


# Qu and Shih, Machining Science and Technology 7 (2003) 281-294, abstract, read: the parabolic
# approximation is less than 1.6 % off where the feed is under half of the radius.
@pytest.mark.parametrize("ratio", [0.01, 0.1, 0.2, 0.3, 0.4, 0.499])
def test_the_parabola_is_less_than_1_6_per_cent_off_below_half_a_radius(ratio: float) -> None:
    finish = turned_finish(ratio, 1)
    assert abs(finish.parabolic_error) < 1.6
    assert abs(finish.parabolic_ra / finish.ra - 1) < 0.016


def test_the_parabola_is_more_than_1_6_per_cent_off_beyond_it() -> None:
    assert abs(turned_finish(0.52, 1).parabolic_error) > 1.6


# Sumitomo Electric, SUMIBORON catalogue, page L100, read: a nose of 2.4 mm for one of 0.8 mm makes
# a third of the theoretical roughness at 0.2 mm/rev.
def test_three_times_the_nose_is_a_third_of_the_roughness() -> None:
    large, small = turned_finish(0.2, 2.4), turned_finish(0.2, 0.8)
    assert small.rt / large.rt == pytest.approx(3, rel=0.02)


# Common practice, no source: fine finishing in steel with HSS wants a large nose radius, and
# slender work then chatters. 0.1 mm/rev is a usual fine feed, Ra 0.4 µm by geometry a fine finish.
def test_fine_finishing_wants_a_large_nose_under_which_slender_work_chatters() -> None:
    nose = nose_radius_for_ra(0.4, 0.1)
    assert nose > 0.75
    slender = turned_finish(0.1, nose, length=120, diameter=12)
    stout = turned_finish(0.1, nose, length=24, diameter=12)
    assert slender.cautions[0].startswith("slender work chatters under a large nose radius")
    assert not any("slender" in caution for caution in stout.cautions)


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    rows = FILE["values"] + FILE["met"] + FILE["departures"]
    assert all(row["source"] for row in rows)
    assert {row["confidence"] for row in rows} == {"read", "from memory"}
    assert len({row["id"] for row in rows}) == len(rows)


def test_a_value_that_is_off_would_be_seen() -> None:
    for value in FILE["values"]:
        near_nothing = 0.02 if value["expected"][1] == "um" else 0  # 3 nm, printed as 0.000003 mm
        most = 0.05 * max(abs(value["expected"][0]), near_nothing)
        assert value["tolerance"] <= most, value["id"]
