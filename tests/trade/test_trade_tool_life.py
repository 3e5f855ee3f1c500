"""Tool life: Taylor's law there and back, the cheapest speed by trial, ranges, and refusals."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import isfinite, nan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.taylor import (
    taylor_constant,
    taylor_exponent,
    taylor_life,
    taylor_speed,
)
from shoplog.trade.machining.tool_economy import economic_life, economic_speed
from shoplog.trade.machining.tool_life import speed_for_life, taylor_exponents, tool_life_at

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

MATERIALS = [row["material"] for row in table("tool_life_exponents").rows]
exponents = st.floats(0.05, 0.9)
lives = st.floats(1, 500)
speeds = st.floats(1, 1000)


# What must hold


@given(lives, speeds, exponents)
def test_speed_and_life_undo_each_other(life: float, constant: float, exponent: float) -> None:
    speed = taylor_speed(life, constant, exponent)
    assert taylor_life(speed, constant, exponent) == pytest.approx(life, rel=1e-9)


@given(lives, speeds, exponents)
def test_the_constant_holds_the_run_that_it_came_from(
    life: float, speed: float, exponent: float
) -> None:
    constant = taylor_constant(speed, life, exponent)
    assert taylor_speed(life, constant, exponent) == pytest.approx(speed)
    assert taylor_life(speed, constant, exponent) == pytest.approx(life, rel=1e-9)


@given(lives, st.floats(1.1, 20), speeds, exponents)
def test_the_exponent_of_two_runs_is_the_one_they_were_made_with(
    life: float, factor: float, constant: float, exponent: float
) -> None:
    longer = life * factor
    first, second = (taylor_speed(t, constant, exponent) for t in (life, longer))
    assume(second >= 0.001)  # below it no speed is taken
    assert taylor_exponent(first, life, second, longer) == pytest.approx(exponent, rel=1e-6)


@given(lives, speeds, st.sampled_from(MATERIALS))
def test_at_the_known_speed_the_known_life_is_sure(life: float, speed: float, of: str) -> None:
    found = tool_life_at(speed, speed, life, of)
    assert (found.least, found.usual, found.most) == pytest.approx((life, life, life))


@given(st.floats(5, 120), st.floats(0.8, 1.25), speeds, st.sampled_from(MATERIALS))
def test_the_ranges_are_in_order_and_undo_each_other(
    life: float, factor: float, speed: float, of: str
) -> None:
    found = tool_life_at(factor * speed, speed, life, of)
    assert found.least <= found.usual * (1 + 1e-9)
    assert found.usual <= found.most * (1 + 1e-9)
    back = speed_for_life(found.usual, speed, life, of)
    assert back.usual == pytest.approx(factor * speed)
    assert back.least <= back.usual * (1 + 1e-9)
    assert back.usual <= back.most * (1 + 1e-9)


@given(exponents, st.floats(0.1, 30), st.floats(0, 50), st.floats(0.05, 5))
def test_the_economic_speed_is_the_cheapest_of_the_speeds_about_it(
    exponent: float, change: float, edge: float, minute: float
) -> None:
    def cost(speed: float) -> float:
        """Money for a cut of one minute at C: the cutting, and its share of an edge."""
        cutting = 100 / speed
        share = cutting / taylor_life(speed, 100, exponent)
        return minute * cutting + share * (minute * change + edge)

    best = economic_speed(100, exponent, change, edge, minute)
    assert cost(best) <= cost(1.001 * best)
    assert cost(best) <= cost(0.999 * best)


@given(exponents, st.floats(0.1, 30), speeds)
def test_the_economic_speed_lasts_the_economic_life(
    exponent: float, change: float, constant: float
) -> None:
    speed = economic_speed(constant, exponent, change)
    life = economic_life(exponent, change)
    assert taylor_life(speed, constant, exponent) == pytest.approx(life, rel=1e-9)


@pytest.mark.parametrize("row", table("tool_life_exponents").rows, ids=MATERIALS)
def test_the_table_has_its_bands_in_order(row: dict[str, str]) -> None:
    spread = taylor_exponents(row["material"])
    assert 0 < spread.least <= spread.usual <= spread.most < 1


# Words and remarks


@pytest.mark.parametrize(
    ("asked", "material"),
    [("hss", "HSS"), (" High-speed steel ", "HSS"), ("indexable carbide", "carbide")],
)
def test_a_cutter_material_is_known_by_its_other_names(asked: str, material: str) -> None:
    assert taylor_exponents(asked).material == material


def first_words(texts: tuple[str, ...]) -> list[str]:
    return [" ".join(text.split()[:3]) for text in texts]


def test_a_speed_near_the_known_one_brings_the_scatter_alone() -> None:
    found = tool_life_at(29, 30, 60, "HSS")
    assert (found.cautions, first_words(found.notes)) == ((), ["a life is"])


def test_a_faster_speed_is_cautioned() -> None:
    assert first_words(tool_life_at(31, 30, 60, "HSS").cautions) == ["faster than what"]


def test_a_life_outside_the_tests_is_cautioned() -> None:
    assert first_words(tool_life_at(25, 30, 60, "HSS").cautions) == ["a life under"]
    assert first_words(speed_for_life(240, 30, 60, "HSS").cautions) == ["a life under"]


def test_a_speed_far_from_the_known_one_is_cautioned() -> None:
    assert "this speed is" in first_words(tool_life_at(160, 100, 60, "ceramic").cautions)


def test_a_range_is_told_in_a_sentence() -> None:
    assert tool_life_at(150, 100, 60, "carbide").describe() == (
        "about 11.9 min, between 7.9 and 15.5 min (carbide, n between 0.2 and 0.3)"
    )


# What is refused


@pytest.mark.parametrize(
    ("call", "message", "hint", "argument"),
    [
        (
            lambda: taylor_speed(0, 100, 0.25),
            "tool life is 0 min, it must be at least 0.001 min and at most 1e+06 min",
            "",
            "tool_life",
        ),
        (
            lambda: taylor_speed(60, 100, 1.2),
            "exponent is 1.2, it must be at least 0.04 and at most 0.95",
            "",
            "exponent",
        ),
        (
            lambda: taylor_speed(60, nan, 0.2),
            "constant is nan m/min, it must be at least 0.001 m/min and at most 1e+06 m/min",
            "",
            "constant",
        ),
        (
            lambda: taylor_life(1, 1000, 0.1),
            "the tool life comes to 1e+30 min, it must be at least 0.001 min and at most"
            " 1000000 min",
            "this speed is too far from what the constant was found at",
            "cutting_speed",
        ),
        (
            lambda: taylor_life(300, 30, 0.125),
            "the tool life comes to 1e-08 min, it must be at least 0.001 min and at most"
            " 1000000 min",
            "this speed is too far from what the constant was found at",
            "cutting_speed",
        ),
        (
            lambda: taylor_exponent(60, 81, 90, 100),
            "60 m/min lasted 81 min and 90 m/min 100 min: the faster run must be the shorter",
            "something else changed, or a built-up edge broke the law",
            "second_life",
        ),
        (
            lambda: taylor_exponent(60, 81, 60, 81),
            "60 m/min lasted 81 min and 60 m/min 81 min: the faster run must be the shorter",
            "something else changed, or a built-up edge broke the law",
            "second_life",
        ),
        (
            lambda: economic_life(0.25, 0),
            "the tool life comes to 0 min, it must be at least 0.001 min and at most 1000000 min",
            "give the time to change the edge, or what the edge costs",
            "change_time",
        ),
        (
            lambda: economic_speed(100, 0.25, 1, -1),
            "edge cost is -1, it must be at least 0 and at most 1e+09",
            "",
            "edge_cost",
        ),
        (
            lambda: economic_speed(100, 0.25, 1, 1, 0),
            "cost per minute is 0, it must be over 0",
            "",
            "cost_per_minute",
        ),
        (
            lambda: taylor_exponents("carbid"),
            "no exponent is known for a cutter of 'carbid'",
            "did you mean carbide?",
            "cutter_material",
        ),
        (
            lambda: tool_life_at(30, 30, 60, "diamond"),
            "no exponent is known for a cutter of 'diamond'",
            "there are carbon steel, HSS, cast alloy, brazed carbide, carbide, coated carbide,"
            " ceramic",
            "cutter_material",
        ),
        (
            lambda: tool_life_at(0, 30, 60, "HSS"),
            "cutting speed is 0 m/min, it must be over 0 m/min",
            "",
            "cutting_speed",
        ),
        (
            lambda: speed_for_life(-5, 30, 60, "HSS"),
            "tool life is -5 min, it must be over 0 min",
            "",
            "tool_life",
        ),
    ],
)
def test_refusals_say_the_value_and_the_limit(
    call: Callable[[], object], message: str, hint: str, argument: str
) -> None:
    with pytest.raises(TradeError) as refused:
        call()
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == argument


FLOATS = st.sampled_from((0.0, -1.0, 1e-300, 5e-324, 1e-9, 0.3, 50.0, 1e9, 1e100, -1e100, nan))
CALLS: dict[str, Callable[[float, float, float], float]] = {
    "speed": taylor_speed,
    "life": taylor_life,
    "constant": taylor_constant,
    "exponent": lambda a, b, c: taylor_exponent(a, b, c, a),
    "economic life": lambda a, b, c: economic_life(0.3, a, b, c),
    "economic speed": lambda a, b, c: economic_speed(a, 0.3, b, c, a),
    "life at": lambda a, b, c: tool_life_at(a, b, c, "HSS").most,
    "speed for": lambda a, b, c: speed_for_life(a, b, c, "HSS").most,
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
