"""A tool bit in three views: each angle as it is drawn, read back from its lines."""

from math import atan2, degrees

import pytest
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.render.pictures.tool_angles import ANGLES
from shoplog.tables import table
from shoplog.trade.setting_up.tool_angles import tool_bit_angles

GROUPS = [name for row in table("tool_bit_angles").rows for name in row["groups"].split(";")]
bits = pytest.mark.parametrize("group", GROUPS)


def outline(drawn, number):
    """The corners of a view: from above, from the front, from the side."""
    return [line for line in drawn.strokes("outline") if len(line) >= 4][number]


def slope(one, other):
    return degrees(atan2(other[1] - one[1], other[0] - one[0]))


@bits
def test_each_angle_is_told_at_the_middle_of_its_range(group):
    bit = tool_bit_angles(group)
    drawn = Drawn(bit)
    for name in ANGLES:
        told = drawn.told(name)
        assert (told.value, told.unit) == (getattr(bit, name), "deg")


@bits
def test_the_edges_and_faces_are_drawn_at_their_angles(group):
    bit = tool_bit_angles(group)
    drawn = Drawn(bit)
    plan, front, side = (outline(drawn, number) for number in range(3))
    _, foot, nose, corner, _ = plan
    assert 90 + slope(foot, nose) == pytest.approx(bit.side_cutting_edge, abs=0.05)
    assert slope(nose, corner) == pytest.approx(bit.end_cutting_edge, abs=0.05)
    edge, far, _, under = front[:4]
    assert slope(edge, far) == pytest.approx(bit.side_rake, abs=0.05)
    assert 90 - slope(edge, under) == pytest.approx(bit.side_relief, abs=0.05)
    _, under, nose, end = side[:4]
    assert slope(nose, end) == pytest.approx(bit.back_rake, abs=0.05)
    assert 90 - slope(nose, under) == pytest.approx(bit.end_relief, abs=0.05)


def test_the_views_and_the_letters_are_named_and_the_key_gives_the_ranges():
    drawn = Drawn(tool_bit_angles("mild steel"))
    views = {"from above", "from the front", "from the side"}
    assert views | {"A 11.5°", "B 15°", "C 8°", "D 11°", "E 15°", "F 15°"} <= set(drawn.words)
    assert drawn.key == [
        ("A: back rake", "8° to 15°"),
        ("B: side rake", "12° to 18°"),
        ("C: end relief", "8°"),
        ("D: side relief", "10° to 12°"),
        ("E: end cutting edge", "15°"),
        ("F: side cutting edge", "15°"),
        ("metal behind the edge, across", "64°"),
    ]
    assert "Where an angle has a range, its middle is drawn." in drawn.html
    assert "its middle" not in Drawn(tool_bit_angles("copper")).html


@bits
def test_angles_are_in_neither_system(group):
    drawn = Drawn(tool_bit_angles(group))
    assert drawn.others == []
    assert sum(text.endswith("°") for text in drawn.words) == len(ANGLES)


@bits
def test_no_words_meet_and_nothing_leaves_the_frame(group):
    drawn = Drawn(tool_bit_angles(group))
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES
