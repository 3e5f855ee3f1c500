"""Rolling bearings against reprints of ISO 492 and makers' catalogues, with their sources."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from shoplog.trade.limits_and_fits.bearings import (
    bearing_bore,
    bearing_housing_seat,
    bearing_outside,
    bearing_shaft_seat,
)
from shoplog.trade.limits_and_fits.fits import fit
from shoplog.trade.limits_and_fits.iso286 import limits_of

VALUES: list[dict[str, Any]] = json.loads(
    Path(__file__).with_name("bearings.json").read_text("utf-8")
)["values"]


def of_kind(*kinds: str) -> list[dict[str, Any]]:
    return [value for value in VALUES if value["kind"] in kinds]


def name_of(value: dict[str, Any]) -> str:
    words = [value.get(key, "") for key in ("name", "turning", "load")]
    what = " ".join((value["kind"], *filter(None, words)))
    return f"{what}, over {value['over']} to {value['to']} mm, {value['source']}"


def probes(value: dict[str, Any]) -> tuple[float, float]:
    """Just over the range's lower end, and its upper end."""
    return value["over"] + 1e-3, value["to"]


@pytest.mark.parametrize("value", of_kind("bore", "outside"), ids=name_of)
def test_a_ring_has_the_tolerance_that_is_published(value: dict[str, Any]) -> None:
    ring = bearing_bore if value["kind"] == "bore" else bearing_outside
    for diameter in probes(value):
        size = ring(diameter)
        assert size.upper == 0
        assert 1000 * size.lower == pytest.approx(value["expected"], abs=value["tolerance"] + 1e-9)


@pytest.mark.parametrize("value", of_kind("fit"), ids=name_of)
def test_a_bore_and_a_shaft_make_the_fit_that_is_published(value: dict[str, Any]) -> None:
    for diameter in probes(value):
        made = fit(bearing_bore(diameter), limits_of(diameter, value["name"]))
        assert [made.clearance_min, made.clearance_max] == pytest.approx(value["expected"])


@pytest.mark.parametrize("value", of_kind("shaft seat", "housing seat"), ids=name_of)
def test_a_seat_has_the_class_that_is_published(value: dict[str, Any]) -> None:
    seat = bearing_shaft_seat if value["kind"] == "shaft seat" else bearing_housing_seat
    for diameter in probes(value):
        found = seat(diameter, value["turning"], value["load"])
        assert found.tolerance_class == value["expected"]
