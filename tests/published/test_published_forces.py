"""Cutting forces against makers' tables, textbooks and handbooks (forces.json)."""

from __future__ import annotations

import json
from math import radians, sin
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.machining.chip_thickness import chip_thickness_milling
from shoplog.trade.machining.cutting_resistance import cutting_resistance, specific_cutting_force
from shoplog.trade.machining.drilling_forces import drilling_forces
from shoplog.trade.materials import Material

FILE = json.loads(Path(__file__).with_name("forces.json").read_text("utf-8"))
FEEDS = FILE["feeds"]
BETWEEN = [
    pytest.param(row, place, id=f"{row['id']}-{FEEDS[place]}")
    for row in FILE["laws"]
    for place in (1, 2, 3)
]
NO_LAW = pytest.mark.parametrize("row", FILE["no law"], ids=[row["id"] for row in FILE["no law"]])


def law_through_the_ends(row: dict[str, Any]) -> Any:
    forces = row["forces"]
    return cutting_resistance(forces[0], FEEDS[0], forces[-1], FEEDS[-1])


@published("forces")
def test_forces_agree_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@pytest.mark.parametrize(("row", "place"), BETWEEN)
def test_a_law_through_the_ends_of_a_makers_row_meets_what_lies_between(
    row: dict[str, Any], place: int
) -> None:
    worked = specific_cutting_force(law_through_the_ends(row), FEEDS[place])
    assert worked == pytest.approx(row["forces"][place], rel=0.05), row["source"]


@NO_LAW
def test_a_row_that_is_no_power_of_the_feed_still_lies_within_the_stated_spread(
    row: dict[str, Any],
) -> None:
    law = law_through_the_ends(row)
    off = [
        abs(specific_cutting_force(law, feed) / force - 1)
        for feed, force in zip(FEEDS, row["forces"], strict=True)
    ]
    assert 0.05 < max(off) < law.spread / 100


def handbook(drill: list[float], factor: float) -> tuple[float, float]:
    """Thrust in N and torque in N·m of a sharp standard drill, by the handbook's factors."""
    book = FILE["handbook drills"]
    size, thrust, torque = drill
    return (
        0.05 * book["Kd"] * factor * thrust * book["B"] + 0.007 * book["Kd"] * size**2 * book["J"],
        0.000025 * book["Kd"] * factor * torque * book["A"],
    )


@pytest.mark.parametrize("drill", FILE["handbook drills"]["drills"], ids=lambda drill: drill[0])
@pytest.mark.parametrize("feed", FILE["handbook drills"]["feeds"], ids=lambda feed: feed[0])
def test_a_drill_in_steel_agrees_with_the_handbook_within_the_stated_spreads(
    drill: list[float], feed: list[float]
) -> None:
    # 1.0503 annealed, 190 HB, against the handbook's steel of 200 HB.
    made = drilling_forces(Material.from_text("C45"), drill[0], feed[0], 500)
    thrust, torque = handbook(drill, feed[1])
    assert made.torque.least < torque < made.torque.most
    assert made.thrust.least < thrust < made.thrust.most


@pytest.mark.parametrize("diameter", [6, 10, 16])
@pytest.mark.parametrize("feed", [0.1, 0.2, 0.3])
def test_a_drill_in_steel_lies_between_a_makers_easiest_and_hardest_steels(
    diameter: float, feed: float
) -> None:
    made = drilling_forces(Material.from_text("C45"), diameter, feed, 500, cutter="carbide")
    maker = FILE["maker drills"]
    torque = diameter**2 * (0.630 + 16.84 * feed) / 100
    thrust = 570 * diameter * feed**0.85
    assert maker["least"] < made.torque.mean / torque < maker["most"], maker["source"]
    assert made.thrust.least < maker["most"] * thrust
    assert made.thrust.most > maker["least"] * thrust


def test_a_drill_meets_the_torque_that_a_maker_names() -> None:
    made = drilling_forces(Material.from_text("C45"), 10, 0.3, 700)
    assert made.torque.least < FILE["a drill"]["torque"] < made.torque.most


def test_the_thrust_of_a_makers_sheet_lies_within_the_stated_spread() -> None:
    made = drilling_forces(2000, 12, 0.2, 500, mc=0, correction=1)
    assert made.thrust.least < 0.7 * 12 / 2 * 0.2 * 2000 < made.thrust.most


@pytest.mark.parametrize("width", [12, 14, 16, 18, 19.9])
def test_the_mean_chip_past_half_the_cutter_agrees_with_a_makers_second_method(
    width: float,
) -> None:
    # ISCAR, Machining titanium, 2019, table 11, first method: fz sin(AE / 2), over 90 degrees of
    # engagement: the chip half way through, which lies somewhat over the mean.
    chip = chip_thickness_milling(0.1, 20, width)
    halfway = 0.1 * sin(radians(chip.immersion / 2))
    assert chip.mean < halfway < 1.6 * chip.mean


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    values = [*FILE["values"], *FILE["laws"], *FILE["no law"]]
    assert all(value["source"] for value in values)
    assert {value["confidence"] for value in values} == {"read", "from memory"}
    assert len({value["id"] for value in values}) == len(values)


def test_a_value_that_is_off_would_be_seen() -> None:
    for value in FILE["values"]:
        assert value["tolerance"] <= 0.05 * max(abs(value["expected"][0]), 0.01), value["id"]
