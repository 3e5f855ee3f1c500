"""Threads against what others publish: each value's source stands beside it in threads.json.

Where sources disagree:

- Root of a Unified external thread. Catalogues that give one root for all threads print
  d - 1.2269 P (17/12 H), as for a metric one; ASME B1.1 since 1989 has d - 1.1908 P (11/8 H, UNR).
  The standard is followed, so the catalogue's root of UNF threads is no check here.
- Minor diameter of #6 UNC and larger. ASME B1.1 prints the least minor diameter of class 2B to
  three places, rounded; the formula is followed and the tolerance says so.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.threads import Thread

PUBLISHED = json.loads(Path(__file__).with_name("threads.json").read_text("utf-8"))
INCH = 25.4


def named(value: dict[str, Any]) -> str:
    return f"{value['thread']} {value['check']} {value['unit']}"


@pytest.mark.parametrize("value", PUBLISHED["sizes"], ids=named)
def test_a_basic_size_is_as_published(value: dict[str, Any]) -> None:
    thread = Thread.from_text(value["thread"])
    found = getattr(thread, value["check"]) / (INCH if value["unit"] == "in" else 1)
    assert found == pytest.approx(value["expected"], abs=value["tolerance"]), value["source"]


@pytest.mark.parametrize("value", PUBLISHED["pitches"], ids=lambda value: value["size"])
def test_the_pitches_of_iso_262_are_held_and_the_coarse_one_is_meant(value: dict[str, Any]) -> None:
    coarse = Thread.from_text(value["size"])
    assert (coarse.pitch, coarse.series) == (value["coarse"], "ISO metric coarse"), value["source"]
    for pitch in value["fine"]:
        fine = Thread.from_text(f"{value['size']}x{pitch:g}")
        assert (fine.pitch, fine.series) == (pitch, "ISO metric fine"), value["source"]


@pytest.mark.parametrize("value", PUBLISHED["choices"], ids=lambda value: value["size"])
def test_the_choice_of_a_size_is_as_published(value: dict[str, Any]) -> None:
    assert Thread.from_text(value["size"]).choice == value["choice"], value["source"]


@pytest.mark.parametrize("value", PUBLISHED["large"], ids=lambda value: value["size"])
def test_a_size_over_64_mm_has_the_pitches_that_are_published(value: dict[str, Any]) -> None:
    size = value["size"]
    held = [p for p in (8.0, 6.0, 4.0, 3.0, 2.0, 1.5, 1.0) if is_read(f"{size}x{p:g}")]
    assert held == value["pitches"], value["source"]


def is_read(designation: str) -> bool:
    try:
        return bool(Thread.from_text(designation))
    except TradeError:
        return False


def test_every_value_has_its_source() -> None:
    groups = ("sizes", "pitches", "choices", "large")
    values = [value for name in groups for value in PUBLISHED[name]]
    assert len(values) >= 270
    assert all(value["source"] and value["confidence"] == "read" for value in values)
