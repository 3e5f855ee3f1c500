"""Bending of bars, cutters and work against beam tables and worked examples (bending.json)."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.machining.work_bending import work_bending

FILE = json.loads(Path(__file__).with_name("bending.json").read_text("utf-8"))


@published("bending")
def test_bending_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@pytest.mark.parametrize("beam", FILE["beams"], ids=[beam["id"] for beam in FILE["beams"]])
def test_work_held_in_any_way_bends_as_the_beam_tables_say(beam: dict[str, Any]) -> None:
    diameter = (64 * beam["second_moment"] / pi) ** 0.25
    bent = work_bending(
        beam["force"],
        diameter,
        beam["length"],
        beam["holding"],
        beam["modulus"],
        positions=[beam["at"]],
    )
    (deflection,) = bent.deflections
    assert deflection / 1000 == pytest.approx(beam["expected"], rel=0, abs=beam["tolerance"]), beam[
        "source"
    ]


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    values = [*FILE["values"], *FILE["beams"]]
    assert all(value["source"] for value in values)
    assert {value["confidence"] for value in values} <= {"read", "from memory"}
    assert len({value["id"] for value in values}) == len(values)


def test_a_value_that_is_off_would_be_seen() -> None:
    assert all(v["tolerance"] <= 0.05 * abs(v["expected"][0]) for v in FILE["values"])
    assert all(v["tolerance"] <= 0.01 * abs(v["expected"]) for v in FILE["beams"])
