"""Setting, measuring and stacking for tapers against handbooks and worked examples."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.taper_work.gauge_blocks import BlockSet, gauge_block_stack
from shoplog.trade.taper_work.sine_bars import sine_bar_angle

TABLES = json.loads(Path(__file__).with_name("taper_setting.json").read_text("utf-8"))
LIMITS = [
    (row[0], grade, limit)
    for row in TABLES["grades"]
    for grade, limit in zip("012", row[1:], strict=True)
]


@published("taper_setting")
def test_taper_setting_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@pytest.mark.parametrize(
    ("length", "grade", "limit"), LIMITS, ids=[f"{length}-grade-{g}" for length, g, _ in LIMITS]
)
def test_a_block_may_be_off_by_what_its_grade_allows(
    length: float, grade: str, limit: float
) -> None:
    alone = gauge_block_stack(length, [length], grade=grade)
    assert alone.block_error == limit, TABLES["grades_source"]


def test_the_laboratory_needs_five_blocks_where_four_do() -> None:
    # National Physical Laboratory (UK), how to select gauge blocks: 58.345 mm with an M112 set.
    theirs = (1.005, 1.04, 1.30, 5.0, 50.0)
    blocks = BlockSet.from_text("metric 112")
    assert sum(theirs) == pytest.approx(58.345, abs=1e-9)
    assert set(theirs) <= set(blocks.sizes)
    assert len(gauge_block_stack(58.345, blocks).blocks) == 4


@pytest.mark.parametrize(("angle", "published_error"), [(30, 0.00132), (60, 0.00229)])
def test_an_error_of_the_stack_grows_with_the_angle(angle: float, published_error: float) -> None:
    # Answer in a forum of home machinists, 2012: 0.0001 in more under a 5 in sine bar.
    centres = 127.0
    height = {30: 0.5, 60: 0.75**0.5}[angle] * centres * (1 - 1e-12)
    less = height - 0.0001 * 25.4
    made = sine_bar_angle(centres, height) - sine_bar_angle(centres, less)
    assert made == pytest.approx(published_error, abs=6e-6)
