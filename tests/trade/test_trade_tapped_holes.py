"""Depths of tapped holes, engagement, tightening, and what set screws hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, TradeError
from shoplog.trade.fastening.set_screws import set_screw_hold
from shoplog.trade.fastening.tightening import (
    preload_from_torque,
    tensile_stress_area,
    torque_for_preload,
)
from shoplog.trade.screw_threads.engagement import engagement_strength, least_engagement
from shoplog.trade.screw_threads.tapped_holes import tapped_hole, thread_in_hole
from shoplog.trade.screw_threads.threads import Thread

SCREWS = ["M3", "M6", "M8x1", "M10", "M20-6H", "1/4-20 UNC", "1/2-20 UNF-2B", "#10-32 UNF"]


def thread(text: str) -> Thread:
    return Thread.from_text(text)


# ---- depths ----------------------------------------------------------------------------------


def test_drill_and_tap_depths_add_up() -> None:
    hole = tapped_hole(thread("M6"), 12, "second")
    assert (hole.lead, hole.tap_depth, hole.drill_depth) == (4, 16, 18)
    assert hole.drill == pytest.approx(5.0)
    assert hole.tip_depth == pytest.approx(18 + 1.502, abs=1e-3)
    assert hole.tap_turns == pytest.approx(16)
    assert hole.describe() == (
        "M6, 12.00 mm of full thread with a second tap: drill 5.00 mm to 18.00 mm at the full"
        " diameter (19.50 mm to the tip), tap to 16.00 mm."
    )


def test_a_bottoming_tap_wants_less_depth_than_a_taper_one() -> None:
    depths = [
        tapped_hole(thread("M6"), 12, tap).drill_depth for tap in ("bottoming", "second", "taper")
    ]
    assert depths == [16, 18, 20]


def test_a_room_a_drill_and_a_point_of_ones_own_are_taken() -> None:
    hole = tapped_hole(thread("M6"), 12, "Form C", drill=5.2, room=0, point_angle=180)
    assert (hole.tap, hole.drill, hole.room) == ("form C", 5.2, 0)
    assert hole.tip_depth == pytest.approx(hole.tap_depth)


@given(
    text=st.sampled_from(SCREWS[:4]),
    full=st.floats(0.5, 100),
    tap=st.sampled_from(["taper", "second", "bottoming", "form C"]),
    room=st.floats(0, 10),
)
def test_thread_and_depth_there_and_back(text: str, full: float, tap: str, room: float) -> None:
    there = tapped_hole(thread(text), full, tap, room=room)
    back = thread_in_hole(thread(text), there.drill_depth, tap, room=room)
    assert back.full_thread == pytest.approx(full)
    assert back.tip_depth == pytest.approx(there.tip_depth)


def test_a_hole_too_shallow_for_any_thread_is_refused() -> None:
    with pytest.raises(TradeError) as refused:
        thread_in_hole(thread("M6"), 6)
    assert (str(refused.value), refused.value.hint) == (
        "drill depth is 6 mm, it must be over 6 mm (lead of a second tap and room under it)",
        "a bottoming tap and less room want less",
    )
    assert thread_in_hole(thread("M6"), 6, "bottoming").full_thread == pytest.approx(2)


@pytest.mark.parametrize("row", table("screws_taps").rows, ids=lambda row: row["tap"])
def test_every_tap_of_the_table_is_found(row: dict[str, str]) -> None:
    assert tapped_hole(thread("M6"), 5, row["tap"]).lead == float(row["most"])
    assert 0 < float(row["least"]) <= float(row["most"])


@pytest.mark.parametrize(
    ("given_", "message", "hint"),
    [
        ({"full_thread": 0.0}, "full thread is 0 mm, it must be over 0 mm", ""),
        (
            {"full_thread": 12.0, "tap": "plug"},
            '"plug" is no tap that is held',
            "taps are taper, second, bottoming, inch taper, inch plug, inch bottoming, form A,"
            " form B, form C, form D, form E, form F",
        ),
        (
            {"full_thread": 12.0, "tap": ""},
            '"" is no tap that is held',
            "taps are taper, second, bottoming, inch taper, inch plug, inch bottoming, form A,"
            " form B, form C, form D, form E, form F",
        ),
        (
            {"full_thread": 12.0, "drill": 6.0},
            "drill is 6 mm, it must be at least 4.701 mm and below 6 mm (M6)",
            "",
        ),
        (
            {"full_thread": 12.0, "room": -1.0},
            "room is -1 mm, it must be at least 0 mm and at most 1e+09 mm",
            "",
        ),
        (
            {"full_thread": 12.0, "point_angle": 0.0},
            "point angle is 0 deg, it must be over 0 deg",
            "",
        ),
    ],
)
def test_what_cannot_be_tapped_is_refused(
    given_: dict[str, float | str], message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        tapped_hole(thread("M6"), **given_)  # type: ignore[arg-type]
    assert (str(refused.value), refused.value.hint) == (message, hint)


# ---- engagement ------------------------------------------------------------------------------


@given(
    text=st.sampled_from(SCREWS),
    screw=st.floats(200, 1500),
    hole=st.floats(50, 1200),
    share=st.floats(0.3, 1),
)
def test_at_the_least_engagement_the_thread_strips_as_the_screw_breaks(
    text: str, screw: float, hole: float, share: float
) -> None:
    least = least_engagement(thread(text), screw, hole, share)
    there = engagement_strength(thread(text), least.length, screw, hole, share)
    assert there.holds == pytest.approx(there.breaking_load)
    assert min(there.screw_strips_at, there.hole_strips_at) == pytest.approx(there.breaking_load)
    assert there.screw_breaks_first
    assert there.least == pytest.approx(there.length)
    short = engagement_strength(thread(text), 0.9 * least.length, screw, hole, share)
    assert not short.screw_breaks_first
    assert short.holds == pytest.approx(0.9 * there.breaking_load)


def test_which_thread_strips_hangs_on_the_weaker_material() -> None:
    soft = engagement_strength(thread("M8"), 8, "8.8", "cast aluminium")
    hard = engagement_strength(thread("M8"), 4, 400.0, 1200.0)
    long = engagement_strength(thread("M8"), 30, "8.8", "mild steel")
    assert [found.gives_first for found in (soft, hard, long)] == [
        "the thread of the hole strips",
        "the thread of the screw strips",
        "the screw breaks",
    ]


def test_the_class_of_a_thread_is_taken_where_it_says_one() -> None:
    usual = least_engagement(thread("M10"), "8.8", "mild steel")
    wide = least_engagement(thread("M10-7H"), "8.8", "mild steel")
    tight = least_engagement(thread("M10-4h"), "8.8", "mild steel")
    assert tight.least < usual.least < wide.least
    assert (usual.notes, wide.notes, tight.notes) == (
        ("worst limits of 6g in 6H",),
        ("worst limits of 6g in 7H",),
        ("worst limits of 4h in 6H",),
    )


def test_a_hard_screw_brings_its_caution() -> None:
    assert least_engagement(thread("M8"), "12.9", "mild steel").cautions
    assert not least_engagement(thread("M8"), "8.8", "mild steel").cautions


def test_an_engagement_describes_itself() -> None:
    assert engagement_strength(thread("M8"), 8, "8.8", "6082").describe() == (
        "M8, 8.00 mm engaged: the thread of the hole strips at about 19.5 kN; from 12.00 mm of full"
        " thread (1.50 diameters) the screw breaks first (29.3 kN)."
    )


@pytest.mark.parametrize(
    ("text", "given_", "message", "hint"),
    [
        (
            "1/4 BSW",
            ("8.8", "brass"),
            "the strength of BSW threads is not held",
            "it is for ISO metric and Unified threads",
        ),
        (
            "M8",
            ("8.8", "cheese"),
            'the strength of "cheese" is not held',
            "give it in MPa; held are mild steel, free-cutting steel, medium carbon steel, grey"
            " iron, aluminium 6082-T6, aluminium 6061-T6, aluminium 2011-T3, cast aluminium, brass,"
            " bronze, acetal",
        ),
        (
            "M8",
            (0.0, "brass"),
            "screw is 0 MPa, it must be at least 10 MPa and at most 3000 MPa",
            "",
        ),
        (
            "M8",
            ("8.8", 1e100),
            "hole is 1e+100 MPa, it must be at least 10 MPa and at most 3000 MPa",
            "",
        ),
        (
            "M8",
            ("8.8", "brass", 0.0),
            "shear share is 0, it must be at least 0.3 and at most 1",
            "",
        ),
    ],
)
def test_an_engagement_that_cannot_be_worked_out_is_refused(
    text: str, given_: tuple[float | str, ...], message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        least_engagement(thread(text), *given_)  # type: ignore[arg-type]
    assert (str(refused.value), refused.value.hint) == (message, hint)


# ---- tightening ------------------------------------------------------------------------------


@given(
    text=st.sampled_from(SCREWS),
    share=st.floats(1, 100),
    condition=st.sampled_from(["black", "zinc plated", "oiled", "cadmium plated", "anti-seize"]),
)
def test_torque_and_preload_there_and_back(text: str, share: float, condition: str) -> None:
    there = torque_for_preload(thread(text), "8.8", share, condition)
    back = preload_from_torque(thread(text), there.torque, "8.8", condition)
    assert back.force == pytest.approx(there.force)
    assert back.of_proof == pytest.approx(share)
    assert back.least < back.force < back.most


def test_an_oiled_screw_gets_more_from_the_same_torque() -> None:
    dry = preload_from_torque(thread("M8"), 24, condition="dry")
    oiled = preload_from_torque(thread("M8"), 24, condition="Oiled")
    assert (dry.condition, dry.factor, dry.spread) == ("black", 0.30, 35)
    assert oiled.force > 1.5 * dry.force
    assert preload_from_torque(thread("M8"), 24, factor=0.2).force == pytest.approx(15)


def test_a_torque_that_may_stretch_the_screw_is_cautioned() -> None:
    gentle = preload_from_torque(thread("M6"), 8)
    assert gentle.cautions == ()
    assert preload_from_torque(thread("M6"), 12).cautions == (
        "at that torque the preload may be 13.9 kN, over the proof load of 11.7 kN: the screw may"
        " yield",
    )
    assert gentle.describe() == (
        "M6, class 8.8, oiled: 8.00 N·m makes about 7.41 kN, from 5.56 to 9.26 kN (±25 %); that is"
        " 63 % of the proof load."
    )


@pytest.mark.parametrize(
    ("given_", "message"),
    [
        ({"torque": 0.0}, "torque is 0 N*m, it must be over 0 N*m"),
        ({"torque": 1e5}, "torque is 100000 N*m, it must be at least 0 N*m and at most 10000 N*m"),
        ({"torque": 10.0, "condition": "wet"}, '"wet" is no condition that is held'),
        ({"torque": 10.0, "property_class": "7.7"}, '"7.7" is no property class that is held'),
        (
            {"torque": 10.0, "factor": 0.0},
            "factor is 0, it must be at least 0.05 and at most 0.6",
        ),
    ],
)
def test_a_preload_that_cannot_be_worked_out_is_refused(
    given_: dict[str, float | str], message: str
) -> None:
    with pytest.raises(TradeError) as refused:
        preload_from_torque(thread("M6"), **given_)  # type: ignore[arg-type]
    assert str(refused.value) == message
    assert refused.value.argument == list(given_)[-1]


@pytest.mark.parametrize("share", [0.0, 101.0])
def test_a_share_outside_the_proof_load_is_refused(share: float) -> None:
    with pytest.raises(OutOfRange, match="it must be over 0 % and at most 100 %"):
        torque_for_preload(thread("M6"), "8.8", share)


def test_a_stress_area_is_for_screws() -> None:
    with pytest.raises(TradeError) as refused:
        tensile_stress_area(thread("Tr 16x4"))
    assert str(refused.value) == "the stress area of Tr threads is not held"


# ---- set screws ------------------------------------------------------------------------------


def test_a_set_screw_holds_in_proportion_to_its_torque() -> None:
    full = set_screw_hold(thread("1/4-20 UNC"), 12.7)
    half = set_screw_hold(thread("1/4-20 UNC"), 12.7, full.seating_torque / 2)
    assert half.force == pytest.approx(full.force / 2)
    assert full.shaft_torque == pytest.approx(full.force * 12.7 / 2)
    assert (full.working_force, full.working_torque) == (full.force / 2, full.shaft_torque / 4)
    assert full.notes == ()
    assert full.preload == pytest.approx(full.torque / (0.18 * 6.35))
    assert full.least_preload < full.preload < full.most_preload
    dry = set_screw_hold(thread("1/4-20 UNC"), 12.7, condition="black")
    assert (dry.force, dry.preload < full.preload) == (full.force, True)
    assert half.describe() == (
        "1/4 set screw, cup point, 4.91 N·m, on a shaft of 12.7 mm: holds about 2.22 kN along the"
        " shaft or 14.12 N·m round it, with a thrust of 3.22 to 5.37 kN; use half for a steady"
        " load, an eighth to a quarter for one that changes."
    )


def test_a_metric_set_screw_is_read_between_inch_sizes() -> None:
    found = set_screw_hold(thread("M6"), 12)
    low, high = (set_screw_hold(thread(t), 12).force for t in ("#10-24 UNC", "1/4-20 UNC"))
    assert low < found.force < high
    assert found.notes == ("between #10 and 1/4 in of a table for inch screws",)


@given(diameters=st.sampled_from(["M1.6", "M2", "M3", "M4", "M5", "M6", "M8", "M10", "M12", "M24"]))
def test_every_metric_set_screw_of_the_range_holds_something(diameters: str) -> None:
    found = set_screw_hold(thread(diameters), 20)
    assert 0 < found.force < 40
    assert found.torque == found.seating_torque


@pytest.mark.parametrize(
    ("text", "given_", "message"),
    [
        (
            "M6",
            {"torque": 20.0},
            "torque is 20 N*m, it must be at most 8.506 N*m (seating torque of M6)",
        ),
        ("M6", {"point": "round"}, '"round" is no point of a set screw'),
        ("M6", {"condition": "wet"}, '"wet" is no condition that is held'),
        ("M30", {}, "the holding power of a M30 set screw is not held"),
        ("M1", {}, "the holding power of a M1 set screw is not held"),
        ("1/4 BSW", {}, "the holding power of a 1/4-20 BSW set screw is not held"),
        ("M6", {"torque": 0.0}, "torque is 0 N*m, it must be over 0 N*m"),
    ],
)
def test_what_a_set_screw_cannot_do_is_refused(
    text: str, given_: dict[str, float | str], message: str
) -> None:
    with pytest.raises(TradeError) as refused:
        set_screw_hold(thread(text), 12, **given_)  # type: ignore[arg-type]
    assert str(refused.value) == message
