"""Bands of speed and feed against published tables (cutting_data.json), all read."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest
from test_published_cutting import published

from shoplog.tables import table
from shoplog.trade.machining.cutting_data import CuttingRange, cut_rating, cutting_range
from shoplog.units import convert, unit

ROUNDING = 0.03
THIRD = 1 / 3
IN_OURS = {
    "ft/min": "m/min",
    "m/min": "m/min",
    "in/rev": "mm/rev",
    "mm/rev": "mm/rev",
    "in/tooth": "mm/tooth",
    "mm/tooth": "mm/tooth",
}


def printed_and_given(value: dict[str, Any]) -> tuple[float, float, float, float, CuttingRange]:
    """The printed band and the one that the range gives, in m/min, mm/rev or mm/tooth."""
    cut = cutting_range(
        value["operation"], value["material"], value["cutter"], value.get("diameter_mm")
    )
    least, most = (
        convert(end, unit(value["unit"]), unit(IN_OURS[value["unit"]])) for end in value["printed"]
    )
    if value["quantity"] == "speed":
        assert cut.speed_min is not None
        assert cut.speed_max is not None
        return least, most, cut.speed_min, cut.speed_max, cut
    band = cut.feed_band()
    assert band is not None
    assert band[2] == IN_OURS[value["unit"]]
    return least, most, band[0], band[1], cut


def lies(least: float, most: float, low: float, high: float) -> str:
    """How a printed band lies to the one given, as the file's `holds` has it."""
    if abs(low - least) <= ROUNDING * least and abs(high - most) <= ROUNDING * most:
        return "ends"
    if least >= low * (1 - ROUNDING) and most <= high * (1 + ROUNDING):
        return "inside"
    near = least >= low * (1 - THIRD) - 1e-9 and most <= high * (1 + THIRD) + 1e-9
    return "third" if near else "apart"


@published("cutting_data")
def test_bands_hold_what_is_published(value: dict[str, Any]) -> None:
    least, most, low, high, _ = printed_and_given(value)
    assert lies(least, most, low, high) == value["holds"], value["source"]


@published("cutting_data")
def test_what_lies_apart_is_said_to_the_reader(value: dict[str, Any]) -> None:
    cut = printed_and_given(value)[-1]
    told = any(note.startswith("sources disagree: ") for note in cut.notes)
    assert told or value["holds"] != "apart", value["source"]


def test_most_of_what_is_published_lies_in_the_bands() -> None:
    held = Counter(value["holds"] for value in published("cutting_data").args[1])
    assert held["ends"] + held["inside"] > 0.75 * held.total()
    assert held["apart"] < 0.1 * held.total()


def test_every_value_was_read_and_names_its_source() -> None:
    values = published("cutting_data").args[1]
    assert {value["confidence"] for value in values} == {"read"}
    assert all(value["source"] for value in values)
    assert len({value["source"].split(",")[0] for value in values}) >= 15


@pytest.mark.parametrize(
    ("printed", "given", "how"),
    [
        ((10, 20), (10, 20), "ends"),
        ((12, 18), (10, 20), "inside"),
        ((7, 26), (10, 20), "third"),
        ((6, 20), (10, 20), "apart"),
        ((10, 27), (10, 20), "apart"),
    ],
)
def test_a_band_that_is_off_would_be_seen(
    printed: tuple[float, float], given: tuple[float, float], how: str
) -> None:
    assert lies(*printed, *given) == how


def test_a_slot_drill_of_5_32_in_runs_at_an_ordinary_speed_a_brisk_feed_and_a_gentle_depth() -> (
    None
):
    # common practice, no source: 2200 rpm, 100 mm/min, two teeth, 0.25 mm deep in mild steel
    cut = cutting_range("slot milling", "low-carbon steel", diameter=5 / 32 * 25.4)
    assert cut.spindle_speed_min is not None
    assert cut.spindle_speed_max is not None
    assert cut.spindle_speed_min < 2200 < cut.spindle_speed_max
    speed, feed = 3.14159 * 3.96875 * 2200 / 1000, 100 / (2 * 2200)
    assert (round(speed), round(feed, 3)) == (27, 0.023)
    rating = cut_rating(cut, speed, feed_per_tooth=feed, depth=0.25)
    assert (rating.speed, rating.feed, rating.depth) == ("ordinary", "brisk", "gentle")


def test_every_row_of_a_band_names_a_source_that_the_head_spells_out_or_says_from_memory() -> None:
    for name in ("cutting_speeds", "cutting_feeds"):
        known = f"{table('cutting_speeds').head['source']}; {table(name).head['source']}"
        keys = {part.partition(" = ")[0].split()[-1] for part in known.split("; ") if " = " in part}
        for row in table(name).rows:
            words = set(row["source"].replace(";", " ").replace(":", " ").split())
            spelt = words & keys or "maker's" in row["source"] or "dealer's" in row["source"]
            assert spelt or row["source"].startswith("from memory"), row
