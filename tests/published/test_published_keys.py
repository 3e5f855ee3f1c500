"""Keys, keyways and flats against published tables and worked examples (keys.json)."""

from __future__ import annotations

from typing import Any

import pytest
from test_published_cutting import found, published


@published("keys")
def test_keys_agree_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    values = published("keys").args[1]
    assert all(value["source"] for value in values)
    assert {value["confidence"] for value in values} <= {"read", "from memory"}
    assert sum(value["confidence"] == "read" for value in values) > 0.9 * len(values)


def test_a_value_that_is_off_would_be_seen() -> None:
    # A tolerance that swallows more than a twentieth of the value checks little.
    for value in published("keys").args[1]:
        assert value["tolerance"] <= 0.05 * max(abs(value["expected"][0]), 0.15), value["id"]
