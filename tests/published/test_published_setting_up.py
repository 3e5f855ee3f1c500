"""Tram, tool bits and dividing against handbooks, an army's course and worked examples."""

from __future__ import annotations

import json
from math import radians, sin
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.declare import TradeError
from shoplog.trade.offers import OFFERS
from shoplog.trade.setting_up.dividing import dividing, plate_sets
from shoplog.trade.setting_up.tool_angles import tool_bit_angles
from shoplog.trade.setting_up.tram import tram_dish

TABLES = json.loads(Path(__file__).with_name("setting_up.json").read_text("utf-8"))


@published("setting_up")
def test_setting_up_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@pytest.mark.parametrize("row", TABLES["dividing"], ids=lambda row: row["id"])
def test_turns_and_spaces_are_those_that_are_published(row: dict[str, Any]) -> None:
    made = OFFERS[row["formula"]].function(**row["given"])
    assert {name: getattr(made, name) for name in row["expected"]} == row["expected"], row["source"]


def divides(divisions: int) -> bool:
    try:
        return dividing(divisions, plates="three plates").divisions == divisions
    except TradeError:
        return False


def test_three_plates_divide_what_their_maker_said_they_do() -> None:
    # Practical Treatise on Milling and Milling Machines, page 80 (en.wikisource.org): the plates
    # divide all numbers to 50, and all even numbers to 100, except 96.
    assert [number for number in range(2, 51) if not divides(number)] == []
    assert [number for number in range(52, 101, 2) if not divides(number)] == [96]


def test_the_two_sides_of_one_plate_have_the_holes_that_the_army_s_course_lists() -> None:
    # US Army, OD1644 Milling Machine Operations, figure 11 (armyordnance.tpub.com).
    sides: dict[str, list[int]] = {}
    for each in plate_sets()["one plate"]:
        sides.setdefault(each.plate, []).append(each.holes)
    assert sides == {
        "first side": [24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43],
        "second side": [46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66],
    }


@pytest.mark.parametrize("angle", [2, 10, 30])
def test_a_tilted_circle_hollows_to_its_radius_over_the_sine_of_the_tilt(angle: float) -> None:
    # S. Horace in Radius of a groove by a tilted end mill (jhm3rd.github.io): the sine of the angle
    # between vertical and the cutter's axis is the cutter's radius over the groove's.
    assert tram_dish(angle, 20, 5).dish_radius == pytest.approx(10 / sin(radians(angle)))


def test_a_grinder_s_rest_stands_no_further_off_than_the_rule() -> None:
    # 29 CFR 1910.215(a)(4), from memory: at most one-eighth inch.
    assert "3 mm (1/8 in)" in tool_bit_angles("mild steel").cautions[0]


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    rows = [*TABLES["values"], *TABLES["dividing"]]
    assert all(row["source"] for row in rows)
    assert {row["confidence"] for row in rows} == {"read"}
