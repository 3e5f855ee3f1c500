"""Tapers against standards, handbook tables and worked examples (tapers.json)."""

from __future__ import annotations

from typing import Any

import pytest
from test_published_cutting import found, published


@published("tapers")
def test_taper_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )
