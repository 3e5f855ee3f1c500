"""Materials against textbooks, reprints of standards and makers' sheets (materials.json)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from shoplog.tables import table
from shoplog.trade.materials import material
from shoplog.values import Hardness

FILE = json.loads(Path(__file__).with_name("materials.json").read_text("utf-8"))
LISTS = [name for name in FILE if name != "about"]
# What a figure of the record is called in the columns that say how it was come by.
FIGURES = {
    "hardness_least": "hardness",
    "hardness_greatest": "hardness",
    "hardened_greatest": "hardened",
    "youngs_modulus": "modulus",
    "yield_least": "yield",
    "yield_greatest": "yield",
    "tensile_least": "tensile",
    "tensile_greatest": "tensile",
}


def listed(name: str) -> Any:
    """Parametrise a test with every value of a list, each under its own id."""
    return pytest.mark.parametrize("value", FILE[name], ids=[value["id"] for value in FILE[name]])


@listed("values")
def test_a_figure_of_a_material_is_the_published_one(value: dict[str, Any]) -> None:
    found = getattr(material(value["name"]), value["field"])
    number = found.number if isinstance(found, Hardness) else found
    assert number == pytest.approx(value["expected"], rel=0, abs=value["tolerance"]), value[
        "source"
    ]


@listed("values")
def test_a_figure_that_was_read_is_not_called_recalled(value: dict[str, Any]) -> None:
    figure = FIGURES.get(value["field"], value["field"])
    assert value["confidence"] == "read"
    assert figure not in material(value["name"]).recalled


@listed("cutting_groups")
def test_a_cutting_force_and_its_exponent_are_the_published_ones(value: dict[str, Any]) -> None:
    (row,) = (r for r in table("materials_cutting_groups").rows if r["group"] == value["group"])
    assert float(row["kc11_n_mm2"]) == value["kc11"], value["source"]
    assert (float(row["mc"]) if row["mc"] else None) == value["mc"], value["source"]


@pytest.mark.parametrize("name", LISTS)
def test_every_value_has_its_source_and_says_whether_it_was_read(name: str) -> None:
    assert all(value["source"] for value in FILE[name])
    assert {value["confidence"] for value in FILE[name]} <= {"read", "from memory"}


def test_a_value_that_is_off_would_be_seen() -> None:
    for value in FILE["values"]:
        assert value["tolerance"] <= 0.01 * value["expected"], value["id"]
