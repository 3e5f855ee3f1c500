"""Passes to size: sums that come out, plans read and held against a depth, and what is refused."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import fsum, isfinite, nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting import turning_time
from shoplog.trade.machining.pass_checks import passes_time, stated_passes
from shoplog.trade.machining.pass_limits import depth_for_force, depth_for_power
from shoplog.trade.machining.pass_plan import NEAR_MM, PassPlan
from shoplog.trade.machining.passes import stock_passes, turning_passes

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

read = PassPlan.from_text
stocks = st.floats(0.1, 200)
depths = st.floats(0.2, 10)
shares = st.floats(0, 0.45)
splits = st.sampled_from(("equal", "greatest"))


# What must hold


@given(stocks, depths, shares, st.integers(1, 2), splits)
def test_the_passes_come_to_the_stock_and_none_is_deeper_than_allowed(
    stock: float, greatest: float, share: float, finish_passes: int, split: str
) -> None:
    plan = stock_passes(stock, greatest, share * stock, finish_passes, split)
    assert fsum(plan.depths) == pytest.approx(stock, rel=0, abs=NEAR_MM)
    assert plan.roughing_depth <= greatest + NEAR_MM
    assert all(depth > 0 for depth in plan.depths)


@given(stocks, depths, splits)
def test_one_roughing_pass_fewer_would_not_do(stock: float, greatest: float, split: str) -> None:
    plan = stock_passes(stock, greatest, split=split)
    assert (plan.count - 1) * greatest < stock


@given(stocks, depths)
def test_both_splits_take_as_many_passes(stock: float, greatest: float) -> None:
    equal = stock_passes(stock, greatest)
    assert equal.count == stock_passes(stock, greatest, split="greatest").count


@given(st.floats(5, 300), st.floats(0.1, 0.9), depths, shares)
def test_turning_ends_at_the_finished_diameter_by_twice_the_depths(
    stock_diameter: float, part: float, greatest: float, share: float
) -> None:
    finished = part * stock_diameter
    fine = share * (stock_diameter - finished) / 2
    plan = turning_passes(stock_diameter, finished, greatest, fine)
    assert plan.diameters[-1] == finished
    assert plan.off_diameter == pytest.approx(stock_diameter - finished)
    steps = zip((stock_diameter, *plan.diameters), plan.diameters, strict=False)
    for (before, after), depth in zip(steps, plan.depths, strict=True):
        assert before - after == pytest.approx(2 * depth, abs=2 * NEAR_MM)


@given(st.integers(1, 40), st.integers(1, 4000))
def test_a_plan_of_like_passes_is_read_as_it_is_written(count: int, hundredths: int) -> None:
    depth = hundredths / 100
    plan = read(f"{count} passes of {depth} mm")
    assert (plan.count, plan.total) == (count, pytest.approx(count * depth))
    assert stated_passes(plan, count * depth) is plan


@given(stocks, depths, splits)
def test_a_plan_that_was_made_passes_its_own_check(
    stock: float, greatest: float, split: str
) -> None:
    plan = stock_passes(stock, greatest, 0.1 * stock, 1, split)
    assert stated_passes(plan, stock) is plan


@given(st.floats(0.05, 5), st.floats(20, 300), st.floats(0.02, 0.5), st.floats(500, 4000))
def test_depth_for_power_and_for_force_agree_about_the_same_cut(
    power: float, speed: float, feed: float, kc: float
) -> None:
    force = 60000 * power * 0.75 / speed
    by_power = depth_for_power(power, kc, speed, feed)
    assert by_power == pytest.approx(depth_for_force(force, kc, feed))


def test_a_depth_for_power_uses_that_power() -> None:
    depth = depth_for_power(1.5, 2000, 60, 0.2, 80, 0)
    assert 2000 * depth * 0.2 * 60 / 60000 == pytest.approx(1.5 * 0.8)


# Plans and their words


def test_equal_passes_share_what_the_finishing_pass_leaves() -> None:
    plan = turning_passes(60, 50, 2, 0.25)
    assert plan.describe() == (
        "3 roughing passes of 1.583 mm and 1 finishing pass of 0.25 mm:"
        " 5 mm on the radius, 10 mm of diameter"
    )
    assert plan.notes == ("measure before the last pass, and let the work cool first",)


def test_the_greatest_depth_comes_first_and_the_rest_last() -> None:
    plan = turning_passes(20, 26, 1, 0.1, 2, "greatest")
    assert plan.describe() == (
        "2 roughing passes of 1 mm and 1 roughing pass of 0.8 mm and 2 finishing passes of 0.1 mm:"
        " 3 mm on the radius, 6 mm of diameter"
    )
    assert plan.diameters == pytest.approx((22, 24, 25.6, 25.8, 26))


def test_what_each_pass_is_set_to_adds_up() -> None:
    assert stock_passes(6, 2, 0.5).infeeds == pytest.approx((5.5 / 3, 11 / 3, 5.5, 6))


def test_a_finishing_pass_alone_may_take_it_all() -> None:
    plan = stock_passes(0.2, 1, 0.2)
    assert (plan.count, plan.roughing_depth, plan.finishing_allowance) == (1, 0, 0.2)
    assert plan.describe() == "1 finishing pass of 0.2 mm: 0.2 mm in all"


def test_three_depths_are_told_apart() -> None:
    assert read("1 mm, 0.5 mm then 0.25 mm").describe() == (
        "1 pass of 1 mm, 1 pass of 0.5 mm and 1 pass of 0.25 mm: 1.75 mm in all"
    )


def test_a_thin_last_pass_is_told() -> None:
    thin = stock_passes(2, 1, 0.04).notes
    assert thin[0].startswith("a last pass under 0.05 mm rubs")


def test_a_last_pass_heavier_than_the_ones_before_is_cautioned() -> None:
    assert (
        stock_passes(2, 0.5, 1).cautions[0].startswith("a last pass heavier than the ones before")
    )
    assert stock_passes(2, 1.5, 0.5).cautions == ()


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("5 passes of 1.5 mm", [1.5] * 5),
        ("1 pass of 1.5 mm", [1.5]),
        ("4 x 1.5 mm + 0.25 mm", [1.5] * 4 + [0.25]),
        ("4×1.5mm+.25mm", [1.5] * 4 + [0.25]),
        ("2 cuts of 0.060 in and 0.010 in", [1.524, 1.524, 0.254]),
        ("3 cuts of 2 mm on diameter", [1.0] * 3),
        ("3 cuts of 2 mm off the diameter", [1.0] * 3),
        ("3 cuts of 2 mm, on the radius", [2.0] * 3),
        ("10 thou", [0.254]),
        ("2 passes at 250 um; 50 µm", [0.25, 0.25, 0.05]),
        ("  2 Passes OF 1 MM ", [1.0, 1.0]),
    ],
)
def test_a_plan_is_read_from_words(text: str, wanted: list[float]) -> None:
    assert read(text).depths == pytest.approx(wanted)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "5 passes",
        "5 passes of 1.5",
        "5 passes of mm",
        "five passes of 1 mm",
        "1 mm +",
        "1 mm -0.5 mm",
        "1,5 mm",
        "1 mm on the moon",
        "1 mm " * 80,
    ],
)
def test_a_plan_that_says_no_depth_cannot_be_read(text: str) -> None:
    with pytest.raises(TradeError) as refused:
        read(text)
    assert str(refused.value) == f"the plan {text[:40]!r} cannot be read"
    assert refused.value.hint == (
        "write it as: 5 passes of 1.5 mm; 4 x 1.5 mm + 0.25 mm; 3 cuts of 2 mm on diameter"
    )


# A stated plan against its depth


@pytest.mark.parametrize(
    ("text", "depth", "message", "hint"),
    [
        (
            "5 passes of 1.5 mm",
            8,
            "5 passes of 1.5 mm come to 7.5 mm, the depth is 8 mm: 0.5 mm short",
            "6 passes of 1.3333 mm or 5 passes of 1.6 mm",
        ),
        (
            "5 passes of 1.5 mm",
            6,
            "5 passes of 1.5 mm come to 7.5 mm, the depth is 6 mm: 1.5 mm too deep",
            "4 passes of 1.5 mm or 5 passes of 1.2 mm",
        ),
        (
            "1 pass of 1 mm",
            1.1,
            "1 pass of 1 mm comes to 1 mm, the depth is 1.1 mm: 0.1 mm short",
            "2 passes of 0.55 mm or 1 pass of 1.1 mm",
        ),
        (
            "4 x 1.5 mm + 0.25 mm",
            6.5,
            "4 passes of 1.5 mm and 1 pass of 0.25 mm come to 6.25 mm, the depth is 6.5 mm:"
            " 0.25 mm short",
            "one pass more of 0.25 mm, or a last pass of 0.5 mm",
        ),
        (
            "4 x 1.5 mm + 0.25 mm",
            6.1,
            "4 passes of 1.5 mm and 1 pass of 0.25 mm come to 6.25 mm, the depth is 6.1 mm:"
            " 0.15 mm too deep",
            "a last pass of 0.1 mm",
        ),
        (
            "4 x 1.5 mm + 0.25 mm",
            5,
            "4 passes of 1.5 mm and 1 pass of 0.25 mm come to 6.25 mm, the depth is 5 mm:"
            " 1.25 mm too deep",
            "fewer passes: 1.25 mm is more than the last one",
        ),
    ],
)
def test_a_plan_that_misses_the_depth_is_refused_with_what_would_do(
    text: str, depth: float, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        stated_passes(read(text), depth)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == "plan"


@given(st.integers(1, 60), st.integers(10, 500), st.integers(10, 5000))
def test_what_would_do_does(count: int, hundredths: int, tenths: int) -> None:
    plan, depth = read(f"{count} passes of {hundredths / 100} mm"), tenths / 10
    try:
        stated_passes(plan, depth)
    except TradeError as refused:
        for text in refused.hint.split(" or "):
            offered = read(text)
            assert stated_passes(offered, depth) is offered


def test_what_was_run_is_a_caution_and_is_not_refused() -> None:
    plan = stated_passes(read("5 passes of 1.5 mm"), 8, "ran")
    assert plan.cautions == ("5 passes of 1.5 mm come to 7.5 mm, the depth is 8 mm: 0.5 mm short",)


def test_half_a_micrometre_is_no_difference() -> None:
    assert stated_passes(read("3 passes of 0.3333 mm"), 1.0).count == 3


# Time


def test_every_pass_travels_approach_and_overrun() -> None:
    assert passes_time(read("3 passes of 1 mm"), 100, 0.1, 500, 3, 2) == pytest.approx(6.3)


def test_finishing_passes_have_a_feed_and_a_speed_of_their_own() -> None:
    plan = turning_passes(60, 50, 2, 0.25)
    both = passes_time(plan, 100, 0.2, 400, finishing_feed=0.08, finishing_speed=600)
    assert both == pytest.approx(turning_time(100, 0.2, 400, 3) + turning_time(100, 0.08, 600))


# What is refused


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (lambda: stock_passes(0, 1), "stock is 0 mm, it must be over 0 mm", "stock"),
        (
            lambda: stock_passes(5, -1),
            "greatest depth is -1 mm, it must be over 0 mm",
            "greatest_depth",
        ),
        (
            lambda: stock_passes(5, 0.001),
            "greatest depth is 0.001 mm, it must be at least 0.005 mm (1000 passes at most)",
            "greatest_depth",
        ),
        (
            lambda: stock_passes(0.5, 1, 0.6),
            "finishing depth is 0.6 mm, it must be at least 0 mm and at most 0.5 mm",
            "finishing_depth",
        ),
        (
            lambda: stock_passes(0.5, 1, 0.3, 2),
            "finishing depth is 0.3 mm, it must be at most 0.25 mm"
            " (2 finishing passes of a stock of 0.5 mm)",
            "finishing_depth",
        ),
        (
            lambda: stock_passes(5, 1, 0.1, 0),
            "finish passes is 0, it must be at least 1 and at most 20",
            "finish_passes",
        ),
        (
            lambda: stock_passes(5, 1, split="uneven"),
            "the split is 'uneven', it must be equal or greatest",
            "split",
        ),
        (
            lambda: turning_passes(60, 60, 1),
            "the stock and the finished diameter are both 60 mm",
            "finished_diameter",
        ),
        (
            lambda: turning_passes(60, nan, 1),
            "finished diameter is nan mm, it must be over 0 mm",
            "finished_diameter",
        ),
        (
            lambda: read("1001 passes of 1 mm"),
            "the plan has 1001 passes, there may be 1 to 1000",
            "plan",
        ),
        (
            lambda: read("600 x 1 mm + 600 x 1 mm"),
            "the plan has 1200 passes, there may be 1 to 1000",
            "plan",
        ),
        (
            lambda: read("0 passes of 1 mm"),
            "the plan has 0 passes, there may be 1 to 1000",
            "plan",
        ),
        (lambda: read("2 passes of 0 mm"), "a pass of 0 mm takes nothing off", "plan"),
        (
            lambda: stated_passes(PassPlan(()), 1),
            "the plan has no passes",
            "plan",
        ),
        (
            lambda: stated_passes(read("1 mm"), 0),
            "depth is 0 mm, it must be over 0 mm",
            "depth",
        ),
        (
            lambda: stated_passes(read("1 mm"), 1, "done"),
            "the status is 'done', it must be planned or ran",
            "status",
        ),
        (
            lambda: passes_time(read("1 mm"), 100, 0.1, 500, -1),
            "approach is -1 mm, it must be at least 0 mm and at most 1e+06 mm",
            "approach",
        ),
        (
            lambda: passes_time(read("1 mm"), 100, 0.1, 500, finishing_feed=0),
            "finishing feed is 0 mm/rev, it must be over 0 mm/rev",
            "finishing_feed",
        ),
        (
            lambda: depth_for_power(1, 0.5, 30, 0.1),
            "specific cutting force is 0.5 MPa, it must be at least 1 MPa and at most 100000 MPa",
            "specific_cutting_force",
        ),
        (
            lambda: depth_for_power(1, 2000, 30, 0.1, 0.8),
            "efficiency is 0.8 %, it must be at least 1 % and at most 100 %",
            "efficiency",
        ),
        (
            lambda: depth_for_force(100, 2000, 0.1, 95),
            "reserve is 95 %, it must be at least 0 % and at most 90 %",
            "reserve",
        ),
    ],
)
def test_refusals_say_the_value_and_the_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as refused:
        call()
    assert (str(refused.value), refused.value.argument) == (message, argument)


FLOATS = st.sampled_from((0.0, -1.0, 1e-300, 5e-324, 1e-9, 0.3, 50.0, 1e9, 1e100, -1e100, nan))
CALLS: dict[str, Callable[[float, float, float], float]] = {
    "stock": lambda a, b, c: stock_passes(a, b, c).total,
    "greatest": lambda a, b, c: stock_passes(a, b, c, 2, "greatest").total,
    "turning": lambda a, b, c: turning_passes(a, b, c).off_diameter,
    "stated": lambda a, b, c: stated_passes(PassPlan((b,) if b > 0 else ()), a, "ran").total,
    "time": lambda a, b, c: passes_time(PassPlan((1.0,)), a, b, c, a, b),
    "power": lambda a, b, c: depth_for_power(a, b, c, a),
    "force": depth_for_force,
}


def outcome(call: Callable[[], float]) -> str:
    """What a call comes to: a reason of the trade, or a number that is finite and not below 0."""
    try:
        number = call()
    except TradeError as refused:
        return "a reason" if refused.message else "no words"
    return "a finite number" if isfinite(number) and number >= 0 else f"{number}"


@pytest.mark.parametrize("call", CALLS.values(), ids=CALLS)
@given(FLOATS, FLOATS, FLOATS)
def test_any_numbers_give_a_finite_value_or_a_reason(
    call: Callable[[float, float, float], float], a: float, b: float, c: float
) -> None:
    assert outcome(partial(call, a, b, c)) in ("a finite number", "a reason")


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    assert outcome(lambda: read(text).total) in ("a finite number", "a reason")
