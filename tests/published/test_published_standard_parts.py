"""Circlips, pins, O-rings and countersinks against published tables (standard_parts.json)."""

from __future__ import annotations

from math import pi
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.tables import table


@published("standard_parts")
def test_standard_parts_agree_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    values = published("standard_parts").args[1]
    assert all(value["source"] for value in values)
    assert {value["confidence"] for value in values} <= {"read", "from memory"}
    assert sum(value["confidence"] == "read" for value in values) > 0.9 * len(values)


def test_a_value_that_is_off_would_be_seen() -> None:
    # A tolerance that swallows more than a twentieth of the value checks little.
    for value in published("standard_parts").args[1]:
        assert value["tolerance"] <= 0.05 * max(abs(value["expected"][0]), 0.15), value["id"]


@pytest.mark.parametrize("name", ["circlips_shaft", "circlips_bore"])
def test_grooves_bear_what_their_ring_of_metal_bears_at_200_mpa(name: str) -> None:
    # DIN 471 and 472: F_N = R_e A_N / q at 200 MPa, with A_N the groove's ring of metal and q about
    # 1.2 (from memory). A misread diameter or load would stand out.
    for row in table(name).rows:
        one, other = float(row["diameter_mm"]), float(row["groove_mm"])
        ring = pi / 4 * abs(one**2 - other**2)
        q = 200 * ring / 1000 / float(row["groove_kN"])
        assert 1.08 < q < 1.32, row


@pytest.mark.parametrize("name", ["circlips_shaft", "circlips_bore"])
def test_a_groove_is_wider_than_its_ring_and_its_edge_thrice_as_deep(name: str) -> None:
    # DIN 471 and 472: the edge n is three times the groove's depth t, rounded up a little.
    for row in table(name).rows:
        depth = abs(float(row["diameter_mm"]) - float(row["groove_mm"])) / 2
        assert 0.08 < float(row["groove_width_mm"]) - float(row["thickness_mm"]) < 0.16, row
        assert 2.9 * depth <= float(row["edge_mm"]) <= 3.4 * depth, row
