"""Reaming allowances, pilots, centre drills, reamers against published values (drilling.json)."""

from __future__ import annotations

from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.declare import Size
from shoplog.trade.limits_and_fits.iso286 import limits_of
from shoplog.trade.machining.drilling import reamer_limits


@published("drilling")
def test_drilling_agree_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    values = published("drilling").args[1]
    assert all(value["source"] for value in values)
    assert {value["confidence"] for value in values} <= {"read", "from memory"}
    assert sum(value["confidence"] == "read" for value in values) > 0.6 * len(values)


def test_a_value_that_is_off_would_be_seen() -> None:
    # A tolerance that swallows more than a twentieth of the value checks little.
    for value in published("drilling").args[1]:
        assert value["tolerance"] <= 0.05 * max(abs(value["expected"][0]), 0.15), value["id"]


def test_a_reamer_for_10_d8_has_the_limits_of_the_makers_example() -> None:
    # A reamer maker's guide to DIN 1420 (dormertools.com, reaming tolerance limits), read.
    hole = Size(10, 0.040, 0.062, "D8")
    assert limits_of(10, "D8") == hole
    reamer = reamer_limits(hole)
    assert (reamer.min, reamer.max) == pytest.approx((10.050, 10.058), abs=1e-9)
