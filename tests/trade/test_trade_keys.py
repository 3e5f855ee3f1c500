"""Keys, keyways and flats: good input, bad input, identities, and what mates."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.fastening import keys as k
from shoplog.trade.fastening import woodruff as w
from shoplog.trade.fastening.key_record import keys_mate
from shoplog.trade.hole_work import flats as f
from shoplog.trade.limits_and_fits.iso286 import limits_of

shafts = st.floats(6, 500)


def test_a_metric_key_has_its_sizes_classes_and_depths() -> None:
    joint = k.parallel_key(25)
    assert joint.key.designation == "8x7 mm"
    assert joint.key.width == limits_of(8, "h9")
    assert joint.key.height == limits_of(7, "h11")
    assert joint.shaft.width == limits_of(8, "N9")
    assert joint.hub.width == limits_of(8, "JS9")
    assert (joint.shaft.over_opposite.min, joint.shaft.over_opposite.max) == (20.8, 21)
    assert (joint.hub.over_opposite.min, joint.hub.over_opposite.max) == (28.3, 28.5)


@pytest.mark.parametrize(("fit", "shaft", "hub"), [("tight", "P9", "P9"), ("sliding", "H9", "D10")])
def test_the_fit_decides_the_widths(fit: str, shaft: str, hub: str) -> None:
    joint = k.parallel_key(40, fit)
    assert joint.shaft.width == limits_of(12, shaft)
    assert joint.hub.width == limits_of(12, hub)


def test_a_square_key_has_the_height_h9() -> None:
    assert k.parallel_key(20).key.height == limits_of(6, "h9")


def test_a_shaft_on_the_step_takes_the_smaller_key() -> None:
    assert k.parallel_key(30).key.designation == "8x7 mm"
    assert k.parallel_key(30.001).key.designation == "10x8 mm"


def test_a_key_and_a_joint_describe_themselves() -> None:
    joint = k.parallel_key(25)
    assert joint.key.describe() == (
        "Key 8x7 mm (DIN 6885-1): 8 mm 0/-36 µm wide, 7 mm 0/-90 µm high."
    )
    assert joint.shaft.describe() == (
        "Keyway in the shaft of 25 mm: 8 mm 0/-36 µm wide, 4 mm +200/0 µm deep, 21 mm 0/-200 µm"
        " over the far side."
    )
    assert joint.describe() == (
        "Key 8x7 mm at 25 mm, normal fit: shaft 8 mm 0/-36 µm wide, 21 mm 0/-200 µm over the far"
        " side; hub 8 mm +18/-18 µm wide, 28.3 mm +200/0 µm from the far side of the bore."
    )
    assert [text.partition(":")[0] for text in joint.cautions] == [
        "cutting a keyway",
        "a key left loose flies out",
    ]


@given(shafts, st.sampled_from(list(k.FITS)))
def test_the_key_never_stands_on_the_floor_of_the_hub(diameter: float, fit: str) -> None:
    joint = k.parallel_key(diameter, fit)
    assert joint.clearance.min > 0
    assert keys_mate(joint.shaft, joint.hub) == ""
    assert keys_mate(joint.key, joint.shaft) == ""
    assert keys_mate(joint.hub, joint.key) == ""


@given(st.floats(7.94, 165.1), st.sampled_from(["square", "flat"]))
def test_an_inch_key_never_stands_on_the_floor_of_the_hub(diameter: float, shape: str) -> None:
    assume(shape == "square" or diameter > 11.2)
    joint = k.inch_parallel_key(diameter, shape)
    assert joint.clearance.nominal == pytest.approx(0.005 * 25.4)
    assert joint.clearance.min > 0
    assert keys_mate(joint.shaft, joint.hub) == ""


@given(shafts)
def test_depth_from_a_flat_and_over_the_far_side_agree(diameter: float) -> None:
    seat = k.parallel_key(diameter).shaft
    depth = k.keyway_depth(diameter, seat.depth_from_flat, seat.width.nominal)
    assert depth == pytest.approx(seat.depth.nominal)
    across = k.keyway_across(diameter, depth)
    assert across == pytest.approx(seat.over_opposite.nominal)
    assert diameter - across == pytest.approx(depth)


@given(shafts)
def test_a_hub_measured_across_gives_its_depth_back(diameter: float) -> None:
    seat = k.parallel_key(diameter).hub
    assert k.keyway_across(diameter, seat.depth.nominal, "hub") == pytest.approx(
        seat.over_opposite.nominal
    )
    assert seat.depth_from_flat > seat.depth.nominal


def test_shafts_of_the_table_follow_each_other_without_a_gap() -> None:
    for name, over, to in (
        ("keys_parallel_metric", "over_mm", "to_mm"),
        ("keys_parallel_inch", "over_in", "to_in"),
        ("keys_woodruff_metric", "shaft_over_mm", "shaft_to_mm"),
    ):
        for one, other in pairwise(table(name).rows):
            assert one[to] == other[over]


def test_a_woodruff_key_by_size_by_number_and_by_shaft() -> None:
    metric, inch = w.woodruff_key("5x6.5x16", 17), w.woodruff_key("404", 12.7)
    assert w.woodruff_key_for(17) == metric
    assert metric.key.describe() == (
        "Key Woodruff 5x6.5x16 (ISO 3912): 5 mm 0/-30 µm wide, 6.5 mm 0/-90 µm high,"
        " diameter 16 mm."
    )
    assert inch.key.width.nominal == pytest.approx(25.4 / 8)
    assert inch.key.diameter == pytest.approx(12.7)
    assert inch.hub.depth.nominal == pytest.approx((1 / 16 + 0.006) * 25.4)
    assert inch.shaft.depth.nominal == pytest.approx((0.203 - 1 / 16 - 0.005) * 25.4)
    assert w.woodruff_key("202½", 12) == w.woodruff_key("202.5", 12)


def test_the_number_of_an_inch_woodruff_key_says_its_size() -> None:
    for row in table("keys_woodruff_inch").rows:
        number = row["number"].replace("½", "")
        assert float(number[:-2]) == float(row["width_in"]) * 32
        eighths = float(number[-2:]) + (0.5 if "½" in row["number"] else 0)
        assert eighths == float(row["diameter_in"]) * 8


def test_every_metric_woodruff_key_sits_in_its_keyways() -> None:
    for row in table("keys_woodruff_metric").rows:
        joint = w.woodruff_key_for(float(row["shaft_to_mm"]))
        assert joint.key.designation == f"Woodruff {row['size']}"
        assert joint.clearance.min > 0
        assert keys_mate(joint.shaft, joint.hub) == ""
        # A disc cut off below its middle is never as high as half its diameter.
        assert joint.key.diameter is not None
        assert joint.key.height.nominal < joint.key.diameter / 2 + 0.1


def test_every_inch_woodruff_key_clears_the_floor_of_the_hub() -> None:
    for row in table("keys_woodruff_inch").rows:
        joint = w.woodruff_key(row["number"], 50)
        assert joint.clearance.min / 25.4 == pytest.approx(0.001)
        assert keys_mate(joint.key, joint.shaft) == ""


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        (
            k.parallel_key(25).key,
            k.parallel_key(35).shaft,
            "the widths differ: key 8 mm, keyway 10 mm",
        ),
        (
            k.inch_parallel_key(25.4, "flat").key,
            k.inch_parallel_key(25.4).hub,
            "the heights differ: key 4.762 mm, keyway for 6.35 mm",
        ),
        (
            k.parallel_key(25).shaft,
            k.parallel_key(28).hub,
            "the diameters differ: 25 mm and 28 mm",
        ),
        (
            k.inch_parallel_key(25.4).shaft,
            k.parallel_key(25.4).hub,
            "the widths differ: shaft 6.35 mm, hub 8 mm",
        ),
        (
            k.inch_parallel_key(25.4).shaft,
            k.inch_parallel_key(25.4, "flat").hub,
            "the keyways are for keys of 6.35 mm and 4.762 mm in height",
        ),
        (k.parallel_key(25).hub, k.parallel_key(25).hub, "both keyways are of the hub"),
        (
            k.parallel_key(25).key,
            k.parallel_key(25).key,
            "both are keys: a key goes with a keyway",
        ),
        (
            k.parallel_key(16).key,
            w.woodruff_key("5x6.5x16", 16).shaft,
            "a parallel key does not fit a keyway for a Woodruff key",
        ),
        (
            w.woodruff_key("5x7.5x19", 20).key,
            w.woodruff_key("5x6.5x16", 20).shaft,
            "the heights differ: key 7.5 mm, keyway for 6.5 mm",
        ),
        (k.parallel_key(25, "tight").shaft, k.parallel_key(25, "sliding").hub, ""),
    ],
)
def test_keys_mate_where_width_height_and_diameter_agree(
    one: k.Key | k.KeySeat, other: k.Key | k.KeySeat, why: str
) -> None:
    assert keys_mate(one, other) == why


def test_a_hub_too_shallow_for_the_key_is_told() -> None:
    joint = k.parallel_key(25)
    shallow = k.KeySeat("hub", joint.key, 25, joint.hub.width, limits_of(2.9, "JS9"))
    assert keys_mate(joint.shaft, shallow) == (
        "the key stands on the hub's floor by up to 0.112 mm"
    )


def test_the_wall_of_a_hub_is_reckoned_at_the_deepest() -> None:
    assert k.hub_wall(50, k.parallel_key(25).hub) == pytest.approx(9.0)


@given(st.floats(1, 500), st.floats(0.001, 1))
def test_depth_and_width_of_a_flat_there_and_back(diameter: float, share: float) -> None:
    width = share * diameter
    depth = f.flat_depth(diameter, width)
    assume(depth > 1e-6)
    assert f.flat_width(diameter, depth) == pytest.approx(width, rel=1e-6)


@given(st.floats(1, 500), st.floats(0.01, 0.999))
def test_a_flat_measured_over_the_far_side(diameter: float, share: float) -> None:
    depth = share * diameter / 2
    assert f.d_flat_across(diameter, depth) == pytest.approx(diameter - depth)
    assert f.d_flat_across(diameter, depth, 2) == pytest.approx(diameter - 2 * depth)


@given(st.floats(1, 500), st.integers(3, 100))
def test_a_polygon_and_its_round_there_and_back(across: float, sides: int) -> None:
    made = f.round_for_polygon(across, sides)
    back = f.polygon_on_round(made.corners, sides)
    assert back.across_flats == pytest.approx(across)
    assert back.flat_depth == pytest.approx(f.flat_depth(made.corners, made.side), rel=1e-6)
    assert back.full
    assert made.flat_width == pytest.approx(made.side, rel=1e-6)


def test_a_hexagon_and_a_square_describe_themselves() -> None:
    assert f.round_for_polygon(17).describe() == (
        "6 sides, 17.000 mm across flats, 19.630 mm across corners, from round 19.630 mm (sharp"
        " corners): each flat 1.315 mm deep, 9.815 mm wide."
    )
    small = f.polygon_on_round(12, 4, 10)
    assert not small.full
    assert small.describe() == (
        "4 sides, 10.000 mm across flats, 14.142 mm across corners, from round 12.000 mm (rounded"
        " corners): each flat 1.000 mm deep, 6.633 mm wide."
    )
    assert (small.over_round, small.step) == (11, 90)


def test_a_square_hole_says_what_is_left_to_file() -> None:
    hole = f.square_hole(6.45)
    assert hole.drill.designation == "6.3 mm"
    assert hole.corner_left == pytest.approx((6.45 * sqrt(2) - 6.3) / 2)
    assert hole.describe() == (
        "Square 6.45 mm: drill 6.3 mm, then file or broach 0.075 mm off each flat and 1.411 mm out"
        " of each corner; 9.122 mm across corners."
    )
    assert len(hole.cautions) == 2


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: k.parallel_key(5),
            "shaft diameter is 5 mm, it must be at least 6 mm and at most 500 mm (DIN 6885-1)",
            "shaft_diameter",
        ),
        (lambda: k.parallel_key(25, "loose"), '"loose" is no fit of a key', "fit"),
        (
            lambda: k.inch_parallel_key(200),
            "shaft diameter is 200 mm, it must be at least 7.9375 mm and at most 165.1 mm"
            " (ASME B17.1)",
            "shaft_diameter",
        ),
        (
            lambda: k.inch_parallel_key(9.525, "flat"),
            "there is no flat key for a shaft of 0.375 in",
            "shape",
        ),
        (lambda: k.inch_parallel_key(25, "round"), '"round" is no shape of a key', "shape"),
        (
            lambda: k.keyway_across(20, 20),
            "depth is 20 mm, it must be over 0 mm and below 20 mm",
            "depth",
        ),
        (lambda: k.keyway_across(20, 4, "key"), '"key" is no side', "side"),
        (
            lambda: k.keyway_depth(20, 3, 20),
            "width is 20 mm, it must be over 0 mm and below 20 mm",
            "width",
        ),
        (
            lambda: k.hub_wall(30, k.parallel_key(25).hub),
            "outside diameter is 30 mm, it must be over 32 mm",
            "outside_diameter",
        ),
        (
            lambda: k.hub_wall(50, k.parallel_key(25).shaft),
            "this is the keyway of the shaft",
            "seat",
        ),
        (lambda: w.woodruff_key("4x4", 12), 'there is no Woodruff key "4x4"', "size"),
        (
            lambda: w.woodruff_key("8x11x28", 8),
            "shaft diameter is 8 mm, it must be over 8.3 mm (key Woodruff 8x11x28)",
            "shaft_diameter",
        ),
        (
            lambda: w.woodruff_key_for(3),
            "shaft diameter is 3 mm, it must be over 3 mm and at most 38 mm (ISO 3912)",
            "shaft_diameter",
        ),
        (
            lambda: f.flat_depth(10, 12),
            "width is 12 mm, it must be over 0 mm and at most 10 mm",
            "width",
        ),
        (
            lambda: f.flat_width(10, 6),
            "depth is 6 mm, it must be over 0 mm and at most 5 mm",
            "depth",
        ),
        (
            lambda: f.d_flat_across(10, 5, 2),
            "depth is 5 mm, it must be over 0 mm and below 5 mm",
            "depth",
        ),
        (
            lambda: f.d_flat_across(10, 2, 3),
            "flats is 3, it must be at least 1 and at most 2",
            "flats",
        ),
        (
            lambda: f.round_for_polygon(10, 2),
            "sides is 2, it must be at least 3 and at most 100",
            "sides",
        ),
        (
            lambda: f.polygon_on_round(10, 4, 10),
            "across flats is 10 mm, it must be over 0 mm and below 10 mm",
            "across_flats",
        ),
        (
            lambda: f.square_hole(200),
            "side is 200 mm, it must be at least 0.3 mm and at most 100.1 mm",
            "side",
        ),
    ],
)
def test_wrong_input_is_refused_with_value_and_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as caught:
        call()
    assert str(caught.value) == message
    assert caught.value.argument == argument
