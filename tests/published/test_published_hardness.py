"""Hardness of steels against reprints of ISO 18265 and of another standard (hardness.json)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from shoplog.trade.hardness import hardness_from_tensile, hardness_to, tensile_from_hardness

FILE = json.loads(Path(__file__).with_name("hardness.json").read_text("utf-8"))
LISTS = [name for name in FILE if name != "about"]
# ISO 18265 and ASTM A370 (which prints ASTM E140) were measured apart: on Rockwell C they are
# nearly one, on Rockwell B they differ by up to a twentieth, and ISO is followed.
STANDARDS_DIFFER = {
    ("HRC", "HV"): 0.004,
    ("HRC", "HRA"): 0.002,
    ("HRC", "HB"): 0.015,
    ("HRB", "HV"): 0.052,
}
TENSILE_DIFFERS = 0.055


def listed(name: str) -> Any:
    """Parametrise a test with every value of a list, each under its own id."""
    return pytest.mark.parametrize("value", FILE[name], ids=[value["id"] for value in FILE[name]])


@listed("values")
def test_a_row_of_the_standard_comes_out_as_it_is_printed(value: dict[str, Any]) -> None:
    found = hardness_to(value["given"], value["to"]).number
    assert found == pytest.approx(value["expected"], rel=0, abs=value["tolerance"]), value["source"]


@listed("values")
def test_a_row_of_the_standard_comes_out_backwards_too(value: dict[str, Any]) -> None:
    number, scale = value["given"].split()
    back = hardness_to(f"{value['expected']} {value['to']}", scale).number
    assert back == pytest.approx(float(number), rel=0, abs=0.5), value["source"]


@listed("tensile")
def test_the_tensile_strength_of_a_row_is_the_one_printed(value: dict[str, Any]) -> None:
    assert tensile_from_hardness(value["given"]).tensile_strength == value["expected"], value[
        "source"
    ]


@listed("tensile")
def test_the_hardness_of_a_printed_tensile_strength_is_its_row(value: dict[str, Any]) -> None:
    assert str(hardness_from_tensile(value["expected"], "HV").hardness) == value["given"], value[
        "source"
    ]


@listed("other_standard")
def test_another_standard_lies_near(value: dict[str, Any]) -> None:
    found = hardness_to(value["given"], value["to"]).number
    near = STANDARDS_DIFFER[value["given"].split()[1], value["to"]]
    assert found == pytest.approx(value["expected"], rel=near), value["source"]


@listed("other_tensile")
def test_the_tensile_strength_of_another_standard_lies_near(value: dict[str, Any]) -> None:
    found = tensile_from_hardness(value["given"])
    assert found.tensile_strength == pytest.approx(value["expected"], rel=TENSILE_DIFFERS), value[
        "source"
    ]


@pytest.mark.parametrize("name", LISTS)
def test_every_value_has_its_source_and_says_whether_it_was_read(name: str) -> None:
    assert all(value["source"] for value in FILE[name])
    assert {value["confidence"] for value in FILE[name]} <= {"read", "from memory"}


def test_a_row_that_is_off_by_one_would_be_seen() -> None:
    assert all(value["tolerance"] <= 0.5 for value in FILE["values"])
