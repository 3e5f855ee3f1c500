"""A sine bar's picture: its triangle and its blocks, read back from what is drawn."""

from math import isclose, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.taper_work.gauge_blocks import BlockSet, gauge_block_stack
from shoplog.trade.taper_work.sine_bars import sine_bar

METRIC, INCH = BlockSet.from_text("metric 88"), BlockSet.from_text("inch 81")
BARS = {
    "usual": sine_bar(100, 25, METRIC),
    "inch": sine_bar(127, 30, INCH),
    "steep": sine_bar(100, 59, METRIC),
    "gentle": sine_bar(100, 5, METRIC),
    "flat": sine_bar(200, 0.5, METRIC, 10),
    "without blocks": sine_bar(100, 60),
    "next to nothing": sine_bar(100, 1e-7),
    "long": sine_bar(2000, 3),
}


@pytest.mark.parametrize("bar", BARS.values(), ids=BARS)
def test_height_and_length_are_drawn_to_scale_or_the_picture_says_how_many_times(bar):
    drawn = Drawn(bar)
    height, length = drawn.told("height"), drawn.told("centres")
    assert length.value == pytest.approx(bar.centres)
    assert height.value == pytest.approx(bar.stack.height if bar.stack else bar.height)
    ratio = height.length / length.length / (height.value / length.value)
    if "times its size" in drawn.html:
        said = float(drawn.html.partition("The height is drawn ")[2].partition(" ")[0])
        assert isclose(ratio, said, rel_tol=0.01)
    else:
        assert isclose(ratio, 1, rel_tol=0.01)


@pytest.mark.parametrize("bar", BARS.values(), ids=BARS)
def test_the_angle_is_that_of_the_bar(bar):
    drawn = Drawn(bar)
    assert drawn.told("angle").value == pytest.approx(bar.angle)
    if "times its size" not in drawn.html:
        (_, low), (_, high) = drawn.told("centres").points
        rise = abs(high - low) / drawn.told("centres").length
        assert isclose(rise, sin(bar.angle * 3.14159265 / 180), abs_tol=0.002)


def test_each_block_is_as_high_as_its_size_and_they_stand_on_each_other():
    bar = BARS["usual"]
    drawn = Drawn(bar)
    blocks = drawn.all("block")
    assert [block.value for block in blocks] == [40, 1.26, 1.002]
    scale = drawn.told("height").length / bar.stack.height
    for block in blocks:
        assert isclose(block.tall, block.value * scale, abs_tol=0.03)
    assert [block.bottom for block in blocks[1:]] == [block.top for block in blocks[:-1]]
    assert {"40", "1.26", "1.002", "42.262"} <= set(drawn.words)


def test_the_key_has_the_angle_the_height_in_both_systems_and_the_blocks():
    key = {row[0]: row[1:] for row in Drawn(BARS["usual"]).key}
    assert key["angle"] == ("25°", "25°00&#x27;00&quot;")
    assert key["height"] == ("42.2618 mm", "1.66385 in")
    assert key["blocks"] == ("40 + 1.26 + 1.002 mm", "1.5748 + 0.04961 + 0.03945 in")
    assert key["off what was asked"] == ("0.17 µm", "0.007 thou")


def test_blocks_in_inches_are_told_in_inches():
    drawn = Drawn(BARS["inch"])
    assert {"2 in", "0.5 in", "5 in", "2.5 in"} <= set(drawn.words)
    assert sorted(drawn.others) == ["12.7", "127", "50.8", "63.5"]
    assert drawn.key[1:] == [
        ("between the rollers", "5.0000 in", "127.000 mm"),
        ("height", "2.50000 in", "63.5000 mm"),
        ("blocks", "2 + 0.5 in", "50.8 + 12.7 mm"),
        ("their height", "2.50000 in", "63.5000 mm"),
        ("off what was asked", "0 µm", "0.0 thou"),
        ("the angle that they make", "30°00&#x27;00&quot;", "+0.0 seconds of arc off"),
    ]


def test_blocks_and_heights_are_told_to_a_hundred_thousandth_of_an_inch():
    drawn = Drawn(BARS["usual"])
    told = ["1.5748 in", "0.04961 in", "0.03945 in", "3.937 in", "1.66386 in"]
    assert drawn.others == told


def test_a_block_of_half_a_micrometre_is_told_apart():
    drawn = Drawn(gauge_block_stack(37.4565, METRIC))
    assert drawn.words == ["30", "4", "1.45", "1.006", "1.0005", "37.4565"]
    blocks = ["1.1811 in", "0.15748 in", "0.05709 in", "0.03961 in", "0.03939 in"]
    assert drawn.others == [*blocks, "1.47467 in"]


def test_a_stack_alone_stands_to_scale():
    stack = gauge_block_stack(37.456, METRIC)
    drawn = Drawn(stack)
    scale = drawn.told("height").length / stack.height
    for block in drawn.all("block"):
        assert isclose(block.tall, block.value * scale, abs_tol=0.03)
    assert sum(block.value for block in drawn.all("block")) == pytest.approx(37.456)


@pytest.mark.parametrize("value", [*BARS.values(), gauge_block_stack(37.456, METRIC)])
def test_no_words_meet_and_nothing_leaves_the_frame(value):
    drawn = Drawn(value)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@given(st.floats(1e-6, 2000), st.floats(1e-6, 60))
def test_any_bar_is_drawn_without_a_fault(centres, angle):
    assert faults(Drawn(sine_bar(centres, angle))) == []
