"""Angles of tool bits: every group that high-speed steel cuts has a row, and its cautions."""

from __future__ import annotations

import pytest

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.materials import material_known
from shoplog.trade.setting_up.tool_angles import ANGLES, tool_bit_angles

GROUPS = [row["group"] for row in table("cutting_work_groups").rows]


@pytest.mark.parametrize("group", [group for group in GROUPS if group != "hardened steel"])
def test_every_group_has_angles_that_leave_an_edge(group):
    bit = tool_bit_angles(group)
    assert bit.group == group
    for name in ANGLES:
        least, most = getattr(bit.least, name), getattr(bit.most, name)
        assert least <= getattr(bit, name) <= most
        assert -10 <= least <= most <= 45
    assert bit.least.end_relief > 0
    assert bit.least.side_relief > 0
    assert bit.wedge == pytest.approx(90 - bit.side_rake - bit.side_relief)
    assert 55 < bit.wedge < 90


def test_no_group_has_two_rows():
    named = [name for row in table("tool_bit_angles").rows for name in row["groups"].split(";")]
    assert len(named) == len(set(named))
    assert set(named) <= set(GROUPS)


def test_the_angles_are_told_in_a_sentence():
    assert tool_bit_angles("mild steel").describe() == (
        "For low-carbon steel: back rake 8° to 15°, side rake 12° to 18°, end relief 8°, side"
        " relief 10° to 12°, end cutting edge 15°, side cutting edge 15°."
    )
    assert tool_bit_angles("copper").least.describe() == (
        "back rake 16°, side rake 20°, end relief 10°, side relief 12°, end cutting edge 5°, side"
        " cutting edge 5°"
    )


def test_a_material_itself_does_as_well_as_its_name():
    assert tool_bit_angles(material_known("C45")) == tool_bit_angles("C45")


def test_grinding_always_carries_its_cautions_and_some_materials_one_more():
    usual = tool_bit_angles("mild steel").cautions
    assert len(usual) == 4
    said = " ".join(usual)
    for word in ("eye protection", "3 mm (1/8 in)", "speed marked on the wheel", "carbide"):
        assert word in said
    assert "drawn into" in tool_bit_angles("brass").cautions[-1]
    assert "burn" in tool_bit_angles("magnesium").cautions[-1]


def test_what_is_recalled_says_so():
    assert not tool_bit_angles("brass").from_memory
    assert tool_bit_angles("titanium alloy").from_memory
    assert "rake and relief are recalled, not read" in tool_bit_angles("acetal").notes


def test_what_high_speed_steel_does_not_cut_is_refused_with_what_to_do():
    with pytest.raises(TradeError) as caught:
        tool_bit_angles("hardened steel")
    assert str(caught.value) == "no tool bit of high-speed steel is ground for hardened steel"
    assert caught.value.hint == "grind it, or turn it with a tipped tool by its maker's data"
    assert caught.value.argument == "material"


def test_a_material_that_no_row_knows_is_refused():
    with pytest.raises(TradeError, match="unobtainium"):
        tool_bit_angles("unobtainium")
