"""Passes to size against makers' tables of passes and worked examples (passes.json)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.machining.pass_checks import passes_time, stated_passes
from shoplog.trade.machining.pass_plan import NEAR_MM, PassPlan
from shoplog.trade.machining.passes import turning_passes

FILE = json.loads(Path(__file__).with_name("passes.json").read_text("utf-8"))
plans = pytest.mark.parametrize("value", FILE["plans"], ids=[row["id"] for row in FILE["plans"]])


@published("passes")
def test_passes_agree_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@plans
def test_the_passes_of_a_table_come_to_its_depth(value: dict[str, Any]) -> None:
    plan = stated_passes(PassPlan.from_text(value["plan"]), value["depth"])
    assert plan.total == pytest.approx(value["depth"], rel=0, abs=NEAR_MM), value["source"]


@plans
def test_the_passes_of_a_table_are_as_many_as_it_says(value: dict[str, Any]) -> None:
    assert PassPlan.from_text(value["plan"]).count == value["count"], value["source"]


# A tutorial on turning (scribd 546471836), read: 5 mm of stock cannot be cut in one pass of 2 mm
# at most, and 175 mm are travelled in each pass, 5 mm of them beside the work.
def test_five_millimetres_at_two_at_most_are_three_passes() -> None:
    assert turning_passes(60, 50, 2).count == 3


# The same tutorial, problem 4: 60 mm to 40 mm, roughing 3 mm deep at most, finishing 1 mm.
def test_ten_millimetres_rough_and_finish_as_the_tutorial_asks() -> None:
    plan = turning_passes(60, 40, 3, 1)
    assert (plan.depths, plan.finish_passes) == ((3.0, 3.0, 3.0, 1.0), 1)


# Rao, Manufacturing Technology, volume 2, 2nd ed. 2009, page 130, read: 2 x 2.888 + 2.77 = 8.546
# minutes for two roughing passes and a finishing pass, each with 2 mm of approach.
def test_a_whole_plan_takes_the_time_of_the_textbook() -> None:
    plan = turning_passes(50, 42, 2, 0.75)
    time = passes_time(plan, 120, 0.24, 176, 2, finishing_feed=0.1, finishing_speed=440)
    assert (plan.count, plan.finish_passes) == (3, 1)
    assert time == pytest.approx(8.546, rel=0, abs=0.005)


def test_every_value_has_its_source_and_was_read() -> None:
    rows = FILE["values"] + FILE["plans"]
    assert all(row["source"] and row["confidence"] == "read" for row in rows)
    assert len({row["id"] for row in rows}) == len(rows)


def test_a_value_that_is_off_would_be_seen() -> None:
    for value in FILE["values"]:
        assert value["tolerance"] <= 0.05 * abs(value["expected"][0]), value["id"]
