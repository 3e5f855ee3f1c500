"""Drill points and bolt circles against handbook factors and worked examples (holes.json)."""

from __future__ import annotations

from typing import Any

import pytest
from test_published_cutting import found, published


@published("holes")
def test_holes_agree_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )
