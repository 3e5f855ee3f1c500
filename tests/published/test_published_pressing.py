"""Pressed and shrunk joints against worked examples, handbook tables and makers (pressing.json)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.tables import table
from shoplog.trade.declare import Size
from shoplog.trade.press_fits.cylinders import lame_pressure
from shoplog.trade.press_fits.elastic import elastic_material
from shoplog.trade.press_fits.joint_capacity import joint_force
from shoplog.trade.press_fits.press_record import JointFriction
from shoplog.trade.press_fits.pressing import press_fit

FILE = json.loads(Path(__file__).with_name("pressing.json").read_text("utf-8"))
LISTS = [name for name in FILE if name != "about"]


def listed(name: str) -> Any:
    """Parametrise a test with every value of a list, each under its own id."""
    return pytest.mark.parametrize("value", FILE[name], ids=[value["id"] for value in FILE[name]])


@published("pressing")
def test_a_joint_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@listed("joints")
def test_a_fit_of_two_sizes_gives_the_pressures_of_the_book(value: dict[str, Any]) -> None:
    joint = press_fit(
        Size(*value["hole"]),
        Size(*value["shaft"]),
        40,
        value["hub_diameter"],
        elastic_material("steel", yield_strength=400),
        hub_roughness=0,
        shaft_roughness=0,
    )
    assert getattr(joint, value["field"]) == pytest.approx(
        value["expected"], rel=0, abs=value["tolerance"]
    ), value["source"]


# The handbook's factors are of practice, and of one friction: 0.075 brings all of them within an
# eighth. F stands for tons on each square inch of the joint and each inch of allowance, twice.
@listed("press_factors")
def test_a_press_force_is_that_of_the_handbook_within_an_eighth(value: dict[str, Any]) -> None:
    diameter, allowance = 25.4 * value["diameter_in"], 25.4  # µm: a thousandth of an inch
    pressure = lame_pressure(allowance, diameter, 2 * diameter, 0, 100, 0.25, 207, 0.3)
    area_in2 = 3.141592653589793 * value["diameter_in"]  # a joint one inch long
    tons = area_in2 * 0.001 * value["factor"] / 2
    assert joint_force(pressure, diameter, 25.4, 0.075) == pytest.approx(
        tons * 2000 * 4.4482216 / 1000, rel=0.125
    ), value["source"]


@listed("frictions")
def test_the_friction_of_a_state_is_the_published_one(value: dict[str, Any]) -> None:
    friction = JointFriction.from_text(value["state"])
    assert getattr(friction, value["which"]) == value["expected"], value["source"]


@listed("ceilings")
def test_the_ceiling_of_a_part_is_the_published_one(value: dict[str, Any]) -> None:
    row = next(row for row in table("press_ceilings").rows if row["part"] == value["part"])
    assert float(row["ceiling_degc"]) == value["expected"], value["source"]


@pytest.mark.parametrize("name", LISTS)
def test_every_value_has_its_source_and_says_whether_it_was_read(name: str) -> None:
    assert all(value["source"] for value in FILE[name])
    assert {value["confidence"] for value in FILE[name]} <= {"read", "from memory"}


def test_a_value_that_is_off_would_be_seen() -> None:
    for value in FILE["values"]:
        assert value["tolerance"] <= 0.01 * max(abs(value["expected"][0]), 0.01), value["id"]
