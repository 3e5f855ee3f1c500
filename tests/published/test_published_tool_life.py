"""Tool life against worked examples and makers' tables of speed factors (tool_life.json)."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.machining.taylor import taylor_constant, taylor_exponent, taylor_life
from shoplog.trade.machining.tool_life import tool_life_at

FILE = json.loads(Path(__file__).with_name("tool_life.json").read_text("utf-8"))
ranges = pytest.mark.parametrize("value", FILE["ranges"], ids=[row["id"] for row in FILE["ranges"]])


@published("tool_life")
def test_tool_life_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@ranges
def test_a_life_lies_in_the_published_range(value: dict[str, Any]) -> None:
    first, second, asked = (pi * value["diameter_mm"] * n / 1000 for n in value["speeds_rpm"])
    exponent = taylor_exponent(first, value["lives_min"][0], second, value["lives_min"][1])
    constant = taylor_constant(first, value["lives_min"][0], exponent)
    life = taylor_life(asked, constant, exponent)
    assert value["least"] < life < value["most"], value["source"]


# Mitsubishi Materials, Effects of cutting conditions for turning, read: 20 % more speed halves the
# life, 50 % more leaves a fifth; both must lie within the band of carbide.
@pytest.mark.parametrize(("faster", "share"), [(1.2, 0.5), (1.5, 0.2)])
def test_the_makers_rule_lies_within_the_band_of_carbide(faster: float, share: float) -> None:
    life = tool_life_at(100 * faster, 100, 60, "carbide")
    assert life.least < 60 * share < life.most


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    rows = FILE["values"] + FILE["ranges"]
    assert all(row["source"] for row in rows)
    assert {row["confidence"] for row in rows} == {"read", "from memory"}
    assert len({row["id"] for row in rows}) == len(rows)


def test_a_value_that_is_off_would_be_seen() -> None:
    for value in FILE["values"]:
        assert value["tolerance"] <= 0.05 * abs(value["expected"][0]), value["id"]
