"""Setting a lathe for a taper, measuring it, pinning with it, and blocks under a sine bar."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import combinations
from math import cos, isfinite, nan, radians, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError, readable_fields
from shoplog.trade.offers import OFFERS
from shoplog.trade.taper_work import gauge_blocks as g
from shoplog.trade.taper_work import sine_bars as b
from shoplog.trade.taper_work import taper_checks as c
from shoplog.trade.taper_work import taper_indicating as i
from shoplog.trade.taper_work import taper_pins as p
from shoplog.trade.taper_work import taper_setting as s
from shoplog.trade.taper_work.tapers import Taper, taper_from_angle

# A slow machine is no fault of a formula.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

ONE_IN_20 = Taper.from_text("1:20")
MORSE_2 = Taper.from_text("Morse 2")
SETS = sorted({row["set"] for row in table("gauge_blocks_sets").rows})

included_angles = st.floats(0.2, 15)
lengths = st.floats(10, 1000)


def refusal(call: Callable[[], object]) -> tuple[str, str, str]:
    """The message, the hint and the argument of what is refused."""
    with pytest.raises(TradeError) as caught:
        call()
    return str(caught.value), caught.value.hint, caught.value.argument


def attempt(call: Callable[[], object]) -> tuple[object, TradeError | None]:
    """What a call gives, or how it is refused."""
    try:
        return call(), None
    except TradeError as refused:
        return None, refused


# The tailstock


def test_set_over_takes_the_centres_depth_off_the_work() -> None:
    made = s.tailstock_set_over(MORSE_2, 250, centre_depth=5)
    assert made.between_points == 240
    assert made.set_over == pytest.approx(240 * sin(radians(MORSE_2.half_angle)))
    assert made.by_the_rule == pytest.approx(6.2438, abs=5e-5)
    assert made.describe() == (
        "Morse 2 on work 250 mm long: tailstock 5.992 mm over, towards you for a small end at the"
        " tailstock."
    )
    assert made.notes == (
        "every piece of the batch must have this length and these centre depths: the taper changes"
        " with them",
        "half the taper over the whole length would be 6.244 mm, 0.252 mm too far",
    )


def test_set_over_shows_how_the_centre_hole_gapes() -> None:
    made = s.tailstock_set_over(Taper.from_text("1:10"), 200, bearing=4)
    assert made.opening == pytest.approx(1000 * 4 * sin(radians(made.taper.half_angle)))
    assert made.notes[-1] == (
        "the centre hole gapes by 200 µm across its bearing; a ball centre does not mind"
    )
    assert s.tailstock_set_over(ONE_IN_20, 200).opening is None


def test_a_steep_set_over_has_one_more_caution() -> None:
    gentle = s.tailstock_set_over(ONE_IN_20, 200).cautions
    steep = s.tailstock_set_over(Taper.from_text("1:10"), 200).cautions
    assert gentle == s.taper_cautions("set-over")
    assert steep == (*gentle, *s.taper_cautions("steep-set-over"))
    assert len(gentle) == 2
    assert len(steep) == 3


@pytest.mark.parametrize(
    ("call", "message", "hint", "argument"),
    [
        (
            lambda: s.tailstock_set_over(ONE_IN_20, 200, surface="bore"),
            "a set-over tailstock tapers the outside of work between centres, not a bore",
            "swing the top slide (compound_setting) or use a taper attachment",
            "surface",
        ),
        (
            lambda: s.tailstock_set_over(ONE_IN_20, 200, surface="inside"),
            "the surface is 'inside', it must be 'outside' or 'bore'",
            "",
            "surface",
        ),
        (
            lambda: s.tailstock_set_over(Taper.from_text("7:24"), 200),
            "7:24 has a half-angle of 8.30°, a tailstock is set over for at most 8°",
            "swing the top slide (compound_setting) for a steep taper",
            "taper",
        ),
        (
            lambda: s.tailstock_set_over(Taper.from_text("1:10"), 250, travel=10),
            "the set-over is 12.484 mm, this tailstock has at most 10 mm",
            "work up to 200.2 mm long can be turned so; else swing the top slide or use a taper"
            " attachment",
            "travel",
        ),
        (
            lambda: s.tailstock_set_over(ONE_IN_20, 0),
            "length is 0 mm, it must be over 0 mm",
            "",
            "length",
        ),
        (
            lambda: s.tailstock_set_over(ONE_IN_20, 10, centre_depth=5),
            "centre depth is 5 mm, it must be at least 0 mm and below 5 mm",
            "",
            "centre_depth",
        ),
        (
            lambda: s.taper_from_set_over(95, 100),
            "set over is 95 mm, it must be over 0 mm and below 90 mm",
            "",
            "set_over",
        ),
        (
            lambda: s.taper_from_set_over(0, 100),
            "set over is 0 mm, it must be over 0 mm",
            "",
            "set_over",
        ),
        (
            lambda: s.plug_travel(ONE_IN_20, -1),
            "removal is -1 mm, it must be at least 0 mm and at most 1e+06 mm",
            "",
            "removal",
        ),
    ],
)
def test_a_setting_that_cannot_be_is_refused(
    call: Callable[[], object], message: str, hint: str, argument: str
) -> None:
    assert refusal(call) == (message, hint, argument)


def test_work_of_the_hinted_length_can_be_turned() -> None:
    longest = s.tailstock_set_over(Taper.from_text("1:10"), 200.2, travel=10)
    assert longest.set_over == pytest.approx(10, abs=0.01)


@given(included_angles, lengths, st.floats(0, 0.3))
def test_set_over_leads_back_to_its_taper(angle: float, length: float, part: float) -> None:
    taper = taper_from_angle(angle)
    depth = part * length
    made = s.tailstock_set_over(taper, length, centre_depth=depth)
    back = s.taper_from_set_over(made.set_over, length, depth)
    assert back.ratio == pytest.approx(taper.ratio)


@given(included_angles, st.floats(0, 10))
def test_a_plug_goes_in_by_the_removal_over_the_taper_and_back(
    angle: float, removal: float
) -> None:
    taper = taper_from_angle(angle)
    travel = s.plug_travel(taper, removal)
    assert s.removal_for_travel(taper, travel) == pytest.approx(removal)


# The indicator


@pytest.mark.parametrize(
    ("along", "rise"), [("top slide", 50 * 0.05 / 2 / (1 + 0.025**2) ** 0.5), ("carriage", 1.25)]
)
def test_indicator_rises_by_the_sine_or_the_tangent(along: str, rise: float) -> None:
    made = i.indicator_setting(ONE_IN_20, 50, along)
    assert made.rise == pytest.approx(rise)
    assert made.cautions == s.taper_cautions("indicator")


def test_indicator_setting_in_words() -> None:
    made = i.indicator_setting(MORSE_2, 50)
    assert made.describe() == (
        "Morse 2: 1.248 mm of the indicator over 50 mm of the top slide; 0.01 mm of the reading is"
        " 0.7' of the angle."
    )
    assert made.notes == (
        "move the top slide along itself, always from one side to keep the screw's backlash out;"
        " set the plunger square to the spindle's axis and at its height",
    )


@given(included_angles, lengths, st.sampled_from(["top slide", "carriage"]))
def test_indicator_rise_and_angle_lead_to_each_other(
    angle: float, travel: float, along: str
) -> None:
    taper = taper_from_angle(angle)
    rise = i.indicator_setting(taper, travel, along).rise
    found = i.indicator_finding(taper, travel, rise, along)
    assert found.half_angle == pytest.approx(taper.half_angle)
    assert found.angle_error == pytest.approx(0, abs=1e-9)
    assert found.diameter_error_per_100 == pytest.approx(0, abs=1e-6)


@given(included_angles, st.floats(20, 200), st.sampled_from(["top slide", "carriage"]))
def test_the_stated_error_of_the_angle_is_that_of_the_reading(
    angle: float, travel: float, along: str
) -> None:
    taper = taper_from_angle(angle)
    setting = i.indicator_setting(taper, travel, along, reading_error=0.001)
    off = i.indicator_finding(taper, travel, setting.rise + 0.001, along)
    assert off.angle_error == pytest.approx(setting.angle_error, rel=1e-3)


@given(included_angles, lengths, st.floats(-9, 9))
def test_drift_along_a_master_and_the_error_lead_to_each_other(
    angle: float, travel: float, error: float
) -> None:
    taper = taper_from_angle(angle)
    drift = i.master_drift(taper, travel, error)
    assert i.angle_from_drift(taper, travel, drift) == pytest.approx(error, abs=1e-9)
    # A slide that is off by the error rises so much more than the master's side below it.
    swung = radians(taper.half_angle + error)
    assert drift == pytest.approx(
        travel * (sin(swung) - cos(swung) * taper.ratio / 2), abs=1e-9 * travel
    )


@given(included_angles, st.floats(20, 200), st.floats(-0.2, 0.2))
def test_master_and_bar_find_the_same_error(angle: float, travel: float, error: float) -> None:
    taper = taper_from_angle(angle)
    swung = radians(taper.half_angle + error)
    if swung > 0:
        found = i.indicator_finding(taper, travel, travel * sin(swung))
        drift = i.master_drift(taper, travel, error)
        assert found.angle_error == pytest.approx(
            i.angle_from_drift(taper, travel, drift), abs=1e-9
        )


def test_a_finding_says_which_way_and_what_it_makes_of_the_work() -> None:
    far = i.indicator_finding(MORSE_2, 50, 1.26)
    assert far.describe() == (
        "set to 1.4440° where Morse 2 is 1.4307°: 0.80' too far, +46.6 µm on diameter over 100 mm."
    )
    assert far.diameter_error == pytest.approx(46.6 * MORSE_2.length / 100, abs=0.1)
    little = i.indicator_finding(ONE_IN_20, 50, 1.24)
    assert "too little, -38.5 µm" in little.describe()
    assert little.diameter_error is None
    exact = i.indicator_finding(ONE_IN_20, 50, 1.25, "carriage")
    assert exact.describe() == (
        "set to 1.4321° where 1:20 is 1.4321°: right, +0.0 µm on diameter over 100 mm."
    )


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: i.indicator_setting(ONE_IN_20, 50, "bed"),
            "the travel is along 'bed', it must be along 'top slide' or 'carriage'",
            "along",
        ),
        (
            lambda: i.indicator_setting(ONE_IN_20, 0),
            "travel is 0 mm, it must be over 0 mm",
            "travel",
        ),
        (
            lambda: i.indicator_setting(ONE_IN_20, 20_000),
            "travel is 20000 mm, it must be over 0 mm and at most 10000 mm",
            "travel",
        ),
        (
            lambda: i.indicator_setting(ONE_IN_20, 10, reading_error=6),
            "reading error is 6 mm, it must be at least 0 mm and below 5 mm",
            "reading_error",
        ),
        (
            lambda: i.indicator_finding(ONE_IN_20, 50, 50),
            "rise is 50 mm, it must be at least 0 mm and below 45 mm",
            "rise",
        ),
        (
            lambda: i.angle_from_drift(ONE_IN_20, 50, 10),
            "drift is 10 mm, it must be at least -8.5 mm and at most 8.5 mm",
            "drift",
        ),
        (
            lambda: i.master_drift(ONE_IN_20, 50, 11),
            "angle error is 11 deg, it must be at least -10 deg and at most 10 deg",
            "angle_error",
        ),
    ],
)
def test_a_reading_that_cannot_be_is_refused(
    call: Callable[[], object], message: str, argument: str
) -> None:
    found, _, at = refusal(call)
    assert (found, at) == (message, argument)


# Gauge blocks


@pytest.mark.parametrize("name", SETS)
def test_a_set_has_as_many_different_blocks_as_its_name_says(name: str) -> None:
    sizes = g.gauge_block_set(name).sizes
    assert len(sizes) == len(set(sizes)) == int(name.split()[1])


@given(st.sampled_from(SETS), st.floats(8, 100))
def test_a_stack_adds_up_and_is_within_its_stated_error(name: str, height: float) -> None:
    blocks = g.BlockSet.from_text(name)
    stack = g.gauge_block_stack(height, blocks)
    assert sum(stack.blocks) == pytest.approx(stack.height, abs=1e-9)
    assert stack.error == pytest.approx(1000 * (stack.height - height), abs=1e-6)
    finest = {"metric 78": 1.25, "metric 47": 2.5, "inch 81": 1.27, "metric 45": 0.5}
    assert abs(stack.error) <= finest.get(name, 0.25) + 1e-6
    assert set(stack.blocks) <= set(blocks.sizes)
    assert len(set(stack.blocks)) == len(stack.blocks) == stack.wrung_pairs + 1


@given(
    st.lists(st.integers(500, 20_000), min_size=1, max_size=7),
    st.integers(500, 60_000),
    st.integers(0, 300),
)
def test_no_fewer_blocks_make_the_height_and_none_are_nearer(
    microns: list[int], height: int, within: int
) -> None:
    # Against every choice there is, which only a handful of blocks allows.
    choices = [
        (len(chosen), abs(sum(chosen) - height))
        for count in range(1, len(microns) + 1)
        for chosen in combinations(microns, count)
    ]
    good = [choice for choice in choices if choice[1] <= within]
    blocks = [size / 1000 for size in microns]
    stack, refused = attempt(lambda: g.gauge_block_stack(height / 1000, blocks, within=within))
    if isinstance(stack, g.BlockStack):
        assert (len(stack.blocks), round(abs(stack.error), 3)) == min(good)
    else:
        assert not good
        assert ", the nearest " in str(refused)


def test_a_block_is_used_once_unless_it_is_there_twice() -> None:
    assert g.gauge_block_stack(4, [2, 2]).blocks == (2, 2)
    assert refusal(lambda: g.gauge_block_stack(4, [2, 1], within=1)) == (
        "no stack of up to 8 of these blocks is 4 mm high within 1 µm, the nearest is 3 mm",
        "ask for a height that they make, allow more with within=, or add blocks",
        "blocks",
    )


def test_both_neighbours_are_named_where_the_height_lies_between_them() -> None:
    message, _, _ = refusal(lambda: g.gauge_block_stack(7.3, [10, 5, 2, 1], within=1))
    assert message == (
        "no stack of up to 8 of these blocks is 7.3 mm high within 1 µm, the nearest are 7 mm"
        " and 8 mm"
    )
    inch, _, _ = refusal(lambda: g.gauge_block_stack(0.4, g.BlockSet.from_text("inch 81")))
    assert inch == (
        "no stack of up to 8 of these blocks is 0.015748 in high within 1.27 µm, the nearest is"
        " 0.0500 in"
    )


def test_metric_and_inch_stacks_in_words() -> None:
    metric = g.gauge_block_stack(25.8819, g.BlockSet.from_text("metric 88"), grade="1")
    assert metric.describe() == (
        "20 + 3.5 + 1.38 + 1.002 = 25.882 mm: 4 blocks, 3 wrung pairs, +0.10 µm off, and ±0.90 µm"
        " of grade 1 blocks."
    )
    assert metric.block_error == pytest.approx(0.30 + 3 * 0.20)
    inch = g.gauge_block_stack(25.4, g.BlockSet.from_text("inch 81"))
    assert inch.describe() == "1.0000 = 1.0000 in: 1 block, 0 wrung pairs, +0.00 µm off."
    assert inch.block_error is None
    assert "_inches" not in readable_fields(g.BlockStack)


@pytest.mark.parametrize(
    ("call", "message", "hint", "argument"),
    [
        (
            lambda: g.gauge_block_set("metric 99"),
            "'metric 99' is not a set of gauge blocks that is known",
            "there are metric 45, metric 47, metric 78, metric 88, metric 112, inch 81;"
            " or give the sizes as a list",
            "name",
        ),
        (
            lambda: g.gauge_block_stack(10, []),
            "blocks is 0, it must be at least 1 and at most 150",
            "",
            "blocks",
        ),
        (
            lambda: g.gauge_block_stack(10, [1.0] * 151),
            "blocks is 151, it must be at least 1 and at most 150",
            "",
            "blocks",
        ),
        (
            lambda: g.gauge_block_stack(10, [5, -1]),
            "a block is -1 mm, it must be at least 0.001 mm and at most 2000 mm",
            "",
            "blocks",
        ),
        (
            lambda: g.gauge_block_stack(10, [5, nan]),
            "a block is nan mm, it must be at least 0.001 mm and at most 2000 mm",
            "",
            "blocks",
        ),
        (
            lambda: g.gauge_block_stack(0, [5]),
            "height is 0 mm, it must be over 0 mm",
            "",
            "height",
        ),
        (
            lambda: g.gauge_block_stack(3000, [5]),
            "height is 3000 mm, it must be over 0 mm and at most 2000 mm",
            "",
            "height",
        ),
        (
            lambda: g.gauge_block_stack(10, [5], within=-1),
            "within is -1 um, it must be at least 0 um and at most 10000 um",
            "",
            "within",
        ),
        (
            lambda: g.gauge_block_stack(10, [5], grade="AA"),
            "there is no grade 'AA' of gauge blocks",
            'ISO 3650 has the grades "0", "1" and "2" for use',
            "grade",
        ),
        (
            lambda: g.gauge_block_stack(10, [5.000001, 3.33, 2]),
            "these blocks have only 1 nm in common, which is too fine to search to 10 mm",
            "give blocks of one system, with the sizes marked on them",
            "blocks",
        ),
    ],
)
def test_blocks_that_cannot_be_stacked_are_refused(
    call: Callable[[], object], message: str, hint: str, argument: str
) -> None:
    assert refusal(call) == (message, hint, argument)


# The sine bar


@given(st.sampled_from([100.0, 127.0, 200.0]), st.floats(3, 60))
def test_a_sine_bar_with_its_stack_makes_the_angle_that_it_says(
    centres: float, angle: float
) -> None:
    made = b.sine_bar(centres, angle, g.BlockSet.from_text("metric 88"))
    assert made.stack is not None
    assert sum(made.stack.blocks) == pytest.approx(made.height, abs=0.25e-3 + 1e-9)
    assert b.sine_bar_angle(centres, made.stack.height) == pytest.approx(made.angle_made)
    assert abs(made.angle_error) <= 0.251 * made.angle_per_micrometre


@given(st.floats(10, 500), st.floats(0.1, 60))
def test_sine_bar_height_and_angle_lead_to_each_other(centres: float, angle: float) -> None:
    height = b.sine_bar(centres, angle).height * (1 - 1e-12)
    assert b.sine_bar_angle(centres, height) == pytest.approx(angle)


def test_an_angle_over_45_degrees_carries_a_caution() -> None:
    assert b.sine_bar(100, 45).cautions == ()
    assert b.sine_bar(100, 45.1).cautions == s.taper_cautions("steep-sine-bar")
    assert b.sine_bar(100, 60).angle_per_micrometre == pytest.approx(
        2 * b.sine_bar(100, 1e-6).angle_per_micrometre
    )


def test_sine_bar_in_words() -> None:
    made = b.sine_bar(
        127, Taper.from_text("Morse 3").included_angle, g.BlockSet.from_text("inch 81")
    )
    assert made.describe() == (
        "2.8754° on a 127 mm sine bar: 6.3708 mm (0.25082 in). Blocks: 0.1500 + 0.1008 ="
        " 0.2508 in: 2 blocks, 1 wrung pair, -0.53 µm off."
    )
    assert made.notes == (
        "a taper plug that lies on the bar is set to its included angle",
        "the stack is -0.9 seconds of arc off; a micrometre of height is 1.6",
    )
    alone = b.sine_bar(100, 30)
    assert (alone.stack, alone.angle_made, alone.angle_error) == (None, 30, 0)


@pytest.mark.parametrize(
    ("call", "message", "hint"),
    [
        (
            lambda: b.sine_bar(100, 70),
            "angle is 70 deg, it must be over 0 deg and at most 60 deg",
            "set the complement, 20 deg, from a square face",
        ),
        (lambda: b.sine_bar(100, 0), "angle is 0 deg, it must be over 0 deg", ""),
        (lambda: b.sine_bar(0, 10), "centres is 0 mm, it must be over 0 mm", ""),
        (
            lambda: b.sine_bar(3000, 10),
            "centres is 3000 mm, it must be over 0 mm and at most 2000 mm",
            "",
        ),
        (
            lambda: b.sine_bar_angle(100, 90),
            "height is 90 mm, it must be over 0 mm and at most 86.6025 mm",
            "",
        ),
        (
            lambda: b.sine_bar(100, 0.1, g.BlockSet.from_text("metric 88")),
            "no stack of up to 8 of these blocks is 0.1745328 mm high within 0.25 µm, the nearest"
            " is 0.5 mm",
            "ask for a height that they make, allow more with within=, or add blocks",
        ),
    ],
)
def test_a_sine_bar_that_cannot_be_set_is_refused(
    call: Callable[[], object], message: str, hint: str
) -> None:
    assert refusal(call)[:2] == (message, hint)


# Balls and rollers


@given(included_angles, st.floats(5, 100), st.floats(0, 20), st.floats(20, 80), st.floats(2, 20))
def test_rollers_there_and_back(
    angle: float, small: float, low: float, more: float, roller: float
) -> None:
    taper = taper_from_angle(angle)
    over = [c.over_rollers(taper, small, height, roller) for height in (low, low + more)]
    made = c.taper_over_rollers(*over, low, low + more, roller)
    assert made.half_angle == pytest.approx(taper.half_angle, rel=1e-6)
    assert made.diameter == pytest.approx(small, abs=1e-6)


@given(included_angles, st.floats(0.3, 0.95), st.floats(0.3, 0.9), st.floats(10, 100))
def test_balls_there_and_back(angle: float, part: float, less: float, mouth: float) -> None:
    taper = taper_from_angle(angle)
    large, small = part * mouth, less * part * mouth
    depths = [c.ball_depth(taper, mouth, ball) for ball in (small, large)]
    made = c.taper_by_balls(small, large, *depths)
    assert made.half_angle == pytest.approx(taper.half_angle, rel=1e-6)
    assert made.diameter == pytest.approx(mouth, rel=1e-6)


def test_a_ball_rests_where_it_touches_the_side() -> None:
    # Its distance from the side, worked out from the depth, is its radius.
    depth = c.ball_depth(MORSE_2, 17.78, 16)
    angle = radians(MORSE_2.half_angle)
    half_width = 17.78 / 2 - (depth + 8) * tan(angle)
    assert half_width * cos(angle) == pytest.approx(8)


def test_measured_tapers_in_words_and_as_a_taper() -> None:
    plug = c.taper_over_rollers(32, 35, 0, 60, 10)
    assert plug.describe() == (
        "1:20 on diameter, 1.4321° to the axis, 2.8642° included; 11.747 mm on the plate."
    )
    assert plug.taper.large_diameter is None
    bore = c.taper_by_balls(8, 12, 25, 15)
    assert bore.taper.large_diameter == bore.diameter
    assert bore.taper_per_foot == pytest.approx(12 * bore.ratio)


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: c.taper_over_rollers(32, 32, 0, 60, 10),
            "over_high is 32 mm, it must be over over_low, 32 mm",
            "over_high",
        ),
        (
            lambda: c.taper_over_rollers(32, 35, 60, 60, 10),
            "high is 60 mm, it must be over low, 60 mm",
            "high",
        ),
        (
            lambda: c.taper_over_rollers(20, 23, 0, 60, 10),
            "the plug would end 0.253 mm on diameter below nothing, measures and rollers do not go"
            " together",
            "roller",
        ),
        (
            lambda: c.taper_over_rollers(32, 1000, 0, 60, 10),
            "that is a half-angle of 82.93°, it must be at most 80°",
            "over_high",
        ),
        (
            lambda: c.taper_by_balls(10, 10, 40, 10),
            "the large ball is 10 mm, it must be over the small one, 10 mm",
            "large_ball",
        ),
        (
            lambda: c.taper_by_balls(10, 14, 10, 10),
            "the centres of the balls are -2 mm apart, they must be over 2.03085 mm apart for a"
            " taper that these balls touch",
            "small_depth",
        ),
        (
            lambda: c.taper_by_balls(10, 14, 60, -8),
            "the large ball stands 8 mm proud: it rests on the edge of the bore, not on its side",
            "large_depth",
        ),
        (
            lambda: c.ball_depth(MORSE_2, 17.78, 19),
            "the ball of 19 mm touches the side where it is 18.994 mm wide, the bore is only"
            " 17.78 mm at its mouth",
            "ball",
        ),
        (
            lambda: c.ball_depth(MORSE_2, 0, 10),
            "mouth is 0 mm, it must be over 0 mm",
            "mouth",
        ),
    ],
)
def test_measures_that_show_no_taper_are_refused(
    call: Callable[[], object], message: str, argument: str
) -> None:
    found, _, at = refusal(call)
    assert (found, at) == (message, argument)


# Pins


@pytest.mark.parametrize(
    ("text", "length", "said"),
    [
        ("6 mm", 40, "taper pin 6x40, 40 mm long: 6.000 mm at the small end, 6.800 mm at the"),
        ("ISO 2339-B-2.5 mm", 20, "taper pin 2.5x20, 20 mm long: 2.500 mm at the small end,"),
        ("ISO 2339-6", 40, "taper pin 6x40, 40 mm long: 6.000 mm at the small end, 6.800 mm"),
        ("No. 4", 38.1, "taper pin No. 4, 38.1 mm long: 5.556 mm at the small end, 6.350 mm"),
        ("#10", 50, "taper pin No. 10, 50 mm long: 16.891 mm at the small end, 17.932 mm"),
        ("7/0", 10, "taper pin No. 7/0, 10 mm long: 1.379 mm at the small end, 1.587 mm"),
    ],
)
def test_a_pin_is_read_and_has_two_ends(text: str, length: float, said: str) -> None:
    made = p.taper_pin(text, length)
    assert made.describe().startswith(said)
    assert made.cautions == s.taper_cautions("pin")
    assert made.small_diameter == pytest.approx(made.taper.small_diameter)


def test_a_metric_pin_of_an_unusual_length_says_so() -> None:
    assert p.taper_pin("6 mm", 40).notes == (
        "drill for the small end, then ream 1:50 with both parts clamped together, trying the pin"
        " as you go: 0.1 mm on diameter lets it in by 5.0 mm",
    )
    assert p.taper_pin("6 mm", 100).notes[1:] == ("pins of 6 mm are usual from 22 to 90 mm long",)
    assert len(p.taper_pin("No. 4", 300).notes) == 1


@pytest.mark.parametrize(
    ("text", "length", "message", "argument"),
    [
        ("6", 40, "'6' is not a taper pin that is known", "designation"),
        ("7 mm", 40, "there is no metric taper pin of 7 mm", "designation"),
        ("ISO 2339-6.5.2", 40, "there is no metric taper pin of 0 mm", "designation"),
        ("No. 20", 40, "there is no inch taper pin No. 20", "designation"),
        ("x" * 500, 40, f"'{'x' * 40}' is not a taper pin that is known", "designation"),
        ("6 mm", 0, "length is 0 mm, it must be over 0 mm", "length"),
        ("6 mm", 2000, "length is 2000 mm, it must be at most 1000 mm", "length"),
        (
            "7/0",
            100,
            "an inch taper pin No. 7/0 comes to a point 76.2 mm from its large end, it must be"
            " longer than the 100 mm asked",
            "length",
        ),
    ],
)
def test_a_pin_that_does_not_exist_is_refused(
    text: str, length: float, message: str, argument: str
) -> None:
    found, _, at = refusal(lambda: p.taper_pin(text, length))
    assert (found, at) == (message, argument)


# Any input


def numbers_in(result: object) -> list[float]:
    """The numbers that a page can read of a result."""
    fields = readable_fields(type(result)) if hasattr(result, "__dataclass_fields__") else {}
    values = [getattr(result, field) for field in fields] or [result]
    return [value for value in values if isinstance(value, float)]


@pytest.mark.parametrize("odd", [0.0, -1.0, 1e-300, 5e-324, 1e100, -1e100, nan])
@pytest.mark.parametrize(
    ("formula", "good"),
    [
        (s.tailstock_set_over, (ONE_IN_20, 200.0, 5.0, 20.0, 3.0)),
        (s.taper_from_set_over, (5.0, 200.0, 5.0)),
        (s.plug_travel, (ONE_IN_20, 0.1)),
        (s.removal_for_travel, (ONE_IN_20, 2.0)),
        (i.indicator_setting, (ONE_IN_20, 50.0)),
        (i.indicator_finding, (ONE_IN_20, 50.0, 1.25)),
        (i.master_drift, (ONE_IN_20, 50.0, 0.1)),
        (i.angle_from_drift, (ONE_IN_20, 50.0, 0.1)),
        (g.gauge_block_stack, (25.0, [10.0, 15.0], 1.0)),
        (b.sine_bar, (100.0, 10.0)),
        (b.sine_bar_angle, (100.0, 10.0)),
        (c.taper_over_rollers, (32.0, 35.0, 0.0, 60.0, 10.0)),
        (c.over_rollers, (ONE_IN_20, 12.0, 60.0, 10.0)),
        (c.taper_by_balls, (8.0, 12.0, 25.0, 15.0)),
        (c.ball_depth, (ONE_IN_20, 20.0, 15.0)),
        (p.taper_pin, ("6 mm", 40.0)),
    ],
)
def test_no_float_gets_past_as_an_error_of_another_kind(
    formula: Callable[..., object], good: tuple[object, ...], odd: float
) -> None:
    for place, value in enumerate(good):
        if isinstance(value, float):
            result, refused = attempt(partial(formula, *good[:place], odd, *good[place + 1 :]))
            arguments = {parameter.name for parameter in OFFERS[formula.__name__].parameters}
            assert refused is None or refused.argument in arguments
            assert all(isfinite(number) for number in numbers_in(result))


@given(st.text(max_size=60))
def test_any_text_is_a_pin_or_a_set_or_is_refused(text: str) -> None:
    pin, no_pin = attempt(lambda: p.taper_pin(text, 10))
    blocks, no_set = attempt(lambda: g.gauge_block_set(text))
    assert no_pin.argument in ("designation", "length") if no_pin else isinstance(pin, p.TaperPin)
    assert no_set.argument == "name" if no_set else isinstance(blocks, g.BlockSet)


def test_every_kind_of_caution_is_used_and_told() -> None:
    kinds = {row["when"] for row in table("tapers_cautions").rows}
    assert kinds == {
        "set-over",
        "steep-set-over",
        "indicator",
        "steep-sine-bar",
        "pin",
    }
    assert all(row["caution"] for row in table("tapers_cautions").rows)
