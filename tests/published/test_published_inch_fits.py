"""The inch fits of ANSI B4.1 against reprints of its tables: every value with its source."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from shoplog.trade.limits_and_fits.inch_fits import inch_fit

VALUES: list[dict[str, Any]] = json.loads(
    Path(__file__).with_name("inch_fits.json").read_text("utf-8")
)["values"]
CLEARANCES = [value for value in VALUES if "expected" in value]
LIMITS = [value for value in VALUES if "limits" in value]


def name_of(value: dict[str, Any]) -> str:
    return f"{value['fit_class']}, over {value['over']} to {value['to']} in, {value['source']}"


def probes(value: dict[str, Any]) -> tuple[float, float]:
    """Just over the range's lower end, and its upper end."""
    return value["over"] + 1e-6, value["to"]


def test_there_are_over_300_values_and_each_has_a_source() -> None:
    assert len(VALUES) > 300
    assert all(len(value["source"]) > 10 for value in VALUES)


@pytest.mark.parametrize("value", CLEARANCES, ids=name_of)
def test_a_class_gives_the_clearance_that_is_published(value: dict[str, Any]) -> None:
    for diameter in probes(value):
        made = inch_fit(value["fit_class"], diameter)
        found = [made.clearance_min, made.clearance_max]
        assert found == pytest.approx(value["expected"], abs=1e-9), diameter


@pytest.mark.parametrize("value", LIMITS, ids=name_of)
def test_a_class_has_the_limits_that_are_published(value: dict[str, Any]) -> None:
    for diameter in probes(value):
        made = inch_fit(value["fit_class"], diameter)
        found = [made.hole_upper, made.shaft_upper, made.shaft_lower]
        assert found == pytest.approx(value["limits"], abs=1e-9), diameter


# Where sources disagree: who is followed, and why.
# (class, basic size, shaft followed, by whom, the other shaft, by whom)
DISAGREEMENTS = [
    # The clearances that the handbook and the scan of 1987 print bear out the handbook's shafts.
    ("RC2", 10, (-0.8, -1.7), "Machinery's Handbook, Table 8a", (-0.7, -1.6), "Appendix B"),
    ("RC2", 14, (-1.0, -2.0), "Machinery's Handbook, Table 8a", (-0.7, -1.7), "Appendix B"),
    ("RC2", 18, (-1.2, -2.2), "Machinery's Handbook, Table 8a", (-0.8, -1.8), "Appendix B"),
    ("RC4", 10, (-2.5, -4.5), "Machinery's Handbook, Table 8a", (-2.2, -4.2), "Appendix B"),
    ("RC4", 14, (-3.0, -5.2), "Machinery's Handbook, Table 8a", (-2.5, -4.7), "Appendix B"),
    ("RC4", 18, (-4.0, -6.5), "Machinery's Handbook, Table 8a", (-2.8, -5.3), "Appendix B"),
]


@pytest.mark.parametrize(
    ("name", "diameter", "followed", "by", "other", "of"),
    DISAGREEMENTS,
    ids=[f"{name} at {diameter} in, not {of}" for name, diameter, _, _, _, of in DISAGREEMENTS],
)
def test_where_sources_disagree_the_one_named_is_followed(
    name: str,
    diameter: float,
    followed: tuple[float, float],
    by: str,
    other: tuple[float, float],
    of: str,
) -> None:
    made = inch_fit(name, diameter)
    assert (made.shaft_upper, made.shaft_lower) == followed, by
    assert (made.shaft_upper, made.shaft_lower) != other, of


def test_the_clearance_of_lc8_at_a_tenth_of_an_inch_is_not_the_misprint() -> None:
    # cobanengineering.com prints 1.0 to 2.0, which its own limits, +1.6/0 and -1.0/-2.0, deny.
    made = inch_fit("LC8", 0.1)
    assert (made.hole_upper, made.shaft_upper, made.shaft_lower) == (1.6, -1.0, -2.0)
    assert (made.clearance_min, made.clearance_max) == (1.0, 3.6)
