"""Drill designations, the nearest drill, and the drill to tap a thread with."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, TradeError
from shoplog.trade.hole_work.drills import (
    Drill,
    choose,
    drill,
    drills_of,
    nearest_drill,
    tap_drill,
    thread_percent,
)
from shoplog.trade.offers import OFFERS
from shoplog.trade.screw_threads.threads import Thread

INCH = 25.4


def threads() -> list[str]:
    """Every thread of the tables for which both systems have drills."""
    found = []
    for row in (row for row in table("threads_metric").rows if float(row["size_mm"]) <= 64):
        pitches = f"{row['coarse_mm']} {row['fine_mm']}".split()
        found += [f"M{row['size_mm']}x{pitch}" for pitch in pitches]
    for row in table("threads_unified").rows:
        found += [f"{row['size']}-{row[f'{s}_tpi']} {s}" for s in ("UNC", "UNF") if row[f"{s}_tpi"]]
    return [name for name in found if name != "4-4 UNC"]  # no drill is that large


EVERY = threads()


@pytest.mark.parametrize(
    ("text", "written", "inch", "set_name"),
    [
        ("#7", "#7", 0.2010, "number"),
        ("No. 7", "#7", 0.2010, "number"),
        ("#007", "#7", 0.2010, "number"),
        ("F", "F", 0.2570, "letter"),
        ("5/32 in", "5/32 in", 5 / 32, "fractional"),
        ("5/32", "5/32 in", 5 / 32, "fractional"),
        ("8/64", "1/8 in", 1 / 8, "fractional"),
        ("1-1/8 in", "1-1/8 in", 1.125, "fractional"),
        ("1 1/8", "1-1/8 in", 1.125, "fractional"),
        ("1 in", "1 in", 1.0, "fractional"),
        ("6.8 mm", "6.8 mm", 6.8 / INCH, "metric"),
        ("6.8", "6.8 mm", 6.8 / INCH, "metric"),
        ("7 mm", "7.0 mm", 7 / INCH, "metric"),
        ("7.0", "7.0 mm", 7 / INCH, "metric"),
        ("14.25mm", "14.25 mm", 14.25 / INCH, "metric"),
        ("6.83 mm", "6.83 mm", 6.83 / INCH, "none"),
        ("0.201 in", "#7", 0.2010, "number"),
        ("0.25 in", "1/4 in", 0.25, "fractional"),
        (".2 in", "0.2 in", 0.2, "none"),
    ],
)
def test_a_drill_is_read_by_its_designation(
    text: str, written: str, inch: float, set_name: str
) -> None:
    found = drill(text)
    assert (found.designation, found.set_name) == (written, set_name)
    assert found.diameter == pytest.approx(inch * INCH)


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("7", "7 may be a number drill or a size in mm", 'write "#7" or "7 mm"'),
        ("12345", "12345 may be a number drill or a size in mm", ""),
        ("f", '"f" names no drill', 'did you mean "F"'),
        ("", '"" names no drill', 'write "#7", "F", "5/32 in" or "6.8 mm"'),
        ("banana", '"banana" names no drill', 'write "#7", "F", "5/32 in" or "6.8 mm"'),
        ("#0", "#0 is no number drill: they run from #1 to #80 (ASME B94.11M)", ""),
        ("#81", "#81 is no number drill: they run from #1 to #80 (ASME B94.11M)", ""),
        ("1/0", '"1/0" divides by 0', ""),
        (
            "1/3 in",
            '"1/3 in" is no fractional drill: they run from 1/64 to 3-1/2 in (ASME B94.11M)',
            "they go by 64ths to 1-3/4 in, by 32nds to 2-1/4 in, by 16ths to 3 in",
        ),
        (
            "1-49/64",
            '"1-49/64" is no fractional drill: they run from 1/64 to 3-1/2 in (ASME B94.11M)',
            "they go by 64ths to 1-3/4 in, by 32nds to 2-1/4 in, by 16ths to 3 in",
        ),
        ("0.0 mm", "a drill of 0.0 mm is not held: they are over 0 and at most 100 mm", ""),
        ("101 mm", "a drill of 101 mm is not held: they are over 0 and at most 100 mm", ""),
        ("4 in", "a drill of 4 in is not held: they are over 0 and at most 100 mm", ""),
        ("7" * 61, "a drill designation has at most 60 characters, this has 61", ""),
    ],
)
def test_what_is_no_drill_is_refused(text: str, message: str, hint: str) -> None:
    with pytest.raises(TradeError) as refused:
        drill(text)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == "designation"


def test_a_drill_describes_itself_in_both_systems() -> None:
    assert drill("#7").describe() == "drill #7 (number set): 5.105 mm, 0.2010 in"
    assert drill("6.83").describe() == "drill 6.83 mm (in no standard set): 6.830 mm, 0.2689 in"


def test_the_sets_are_whole_and_rise() -> None:
    sizes = {name: drills_of(name) for name in ("metric", "fractional", "number", "letter")}
    assert [len(held) for held in sizes.values()] == [342, 112 + 16 + 12 + 2 + 1, 80, 26]
    for name in ("metric", "fractional", "letter"):
        diameters = [each.diameter for each in sizes[name]]
        assert diameters == sorted(set(diameters))
    falling = [each.diameter for each in sizes["number"]]
    assert falling == sorted(set(falling), reverse=True)


@pytest.mark.parametrize("held", drills_of(), ids=lambda each: each.designation)
def test_every_drill_of_the_sets_reads_back(held: Drill) -> None:
    assert Drill.from_text(held.designation) == held


@given(
    st.one_of(
        st.text(max_size=60),
        st.text("#0123456789/.-  inmAFZ", max_size=60),
        st.from_regex(r"[0-9]{0,9}[-/. ]{0,2}[0-9]{1,9}(/[0-9]{1,5})?( ?in| ?mm)?", fullmatch=True),
    )
)
def test_any_text_is_a_drill_or_refused(text: str) -> None:
    try:
        found = drill(text)
    except TradeError as refused:
        said = (str(refused) != "", refused.argument)
    else:
        said = (0 < found.diameter <= 100, "designation")
    assert said == (True, "designation")


def test_the_nearest_drill_has_one_on_either_side() -> None:
    found = nearest_drill(6.83)
    assert found.nearest.designation == "6.8 mm"
    assert found.at_or_under.diameter <= 6.83 <= found.at_or_over.diameter
    assert found.describe() == (
        "the nearest drill to 6.830 mm is 6.8 mm (-0.030 mm); under it 6.8 mm (-0.030 mm), over it"
        " 6.9 mm (+0.070 mm)"
    )


def test_a_drill_of_the_very_diameter_is_all_three() -> None:
    found = nearest_drill(6.8, "metric")
    assert found.nearest == found.at_or_under == found.at_or_over == drill("6.8 mm")
    assert found.difference == found.under_difference == found.over_difference == 0
    assert found.describe() == "6.8 mm is a drill of 6.800 mm"


def test_of_two_drills_equally_near_the_smaller_is_taken() -> None:
    two = (Drill("b", 3.0, "none"), Drill("a", 2.0, "none"))
    assert choose(2.5, two).nearest.designation == "a"


def test_the_drills_may_be_those_of_one_drawer() -> None:
    drawer = (drill("#7"), drill("F"), drill("6.8 mm"))
    assert choose(6.6, drawer).nearest.designation == "F"


def test_an_empty_drawer_is_refused() -> None:
    with pytest.raises(TradeError) as refused:
        choose(2.5, ())
    assert str(refused.value) == "there is no drill to choose from"


@given(st.floats(0.2, 100), st.sampled_from(["", "metric", "metric, fractional"]))
def test_no_drill_of_the_sets_is_nearer_than_the_nearest(diameter: float, sets: str) -> None:
    found = nearest_drill(diameter, sets)
    assert abs(found.difference) == min(abs(e.diameter - diameter) for e in drills_of(sets))
    assert found.under_difference <= 1e-6
    assert found.over_difference >= -1e-6


@pytest.mark.parametrize("diameter", [0, -1, 0.19, 100.1, 1e100, -1e100])
def test_a_diameter_outside_the_sets_is_refused(diameter: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        nearest_drill(diameter)
    assert str(refused.value) == (
        f"diameter is {diameter:g} mm, it must be at least 0.2 mm and at most 100 mm (those drills)"
    )


def test_an_unknown_set_is_refused() -> None:
    with pytest.raises(TradeError) as refused:
        nearest_drill(5, "metric, imperial")
    assert str(refused.value) == '"imperial" is no set of drills'
    assert refused.value.hint == "sets are metric, fractional, number, letter"
    assert refused.value.argument == "sets"


@pytest.mark.parametrize(
    ("name", "chosen"),
    [
        ("M6x1", "5.0 mm"),
        ("M8x1.25", "6.8 mm"),
        ("M10x1.5", "8.5 mm"),
        ("7/16-20 UNF", "25/64 in"),
        ("1/4-20", "#7"),
        ("#10-32 UNF", "#21"),
        ("1/4-28 UNF", "#3"),
    ],
)
def test_the_tap_drill_is_what_a_chart_gives(name: str, chosen: str) -> None:
    assert tap_drill(Thread.from_text(name)).drill.designation == chosen


def test_a_tap_drill_says_what_it_really_gives_in_both_systems() -> None:
    found = tap_drill(Thread.from_text("7/16-20 UNF"))
    assert found.diameter == pytest.approx(9.8752, abs=5e-5)
    assert found.percent == pytest.approx(72.2, abs=0.05)
    assert (found.nearest_metric.designation, found.nearest_inch.designation) == (
        "9.9 mm",
        "25/64 in",
    )
    assert found.nearest_metric_percent == pytest.approx(73.5, abs=0.05)
    assert found.nearest_inch_percent == found.percent
    assert found.describe() == (
        "7/16-20 UNF: drill 25/64 in (9.922 mm) for 72.2 % of thread; asked 75 % is 9.875 mm; in"
        " the other system 9.9 mm (73.5 %)"
    )


def test_the_sets_asked_are_the_sets_chosen_from() -> None:
    found = tap_drill(Thread.from_text("M8"), 75, "fractional, letter")
    assert found.drill.designation == "H"
    assert found.nearest_metric.designation == "6.8 mm"


def test_a_higher_percentage_gives_a_smaller_drill() -> None:
    drills = [tap_drill(Thread.from_text("M10"), percent).diameter for percent in (50, 60, 75, 90)]
    assert drills == sorted(drills, reverse=True)


def test_the_rule_of_charts_is_a_note_where_it_gives_another_drill() -> None:
    assert tap_drill(Thread.from_text("M6")).notes == ()
    assert tap_drill(Thread.from_text("M12")).notes == (
        "charts made by the rule D - P give 10.25 mm (77.0 %)",
    )


def test_a_left_hand_thread_takes_a_left_hand_tap() -> None:
    assert tap_drill(Thread.from_text("M6-LH")).notes == ("it takes a left-hand tap",)


def test_a_hole_below_the_basic_minor_diameter_has_a_caution() -> None:
    assert tap_drill(Thread.from_text("M10"), 90).cautions == (
        "the drill is smaller than the basic minor diameter 8.376 mm, the least that ISO 965-1"
        " allows; the tap binds and may break",
    )
    assert tap_drill(Thread.from_text("M10"), 75).cautions == ()


def test_less_than_half_a_thread_has_a_caution() -> None:
    assert tap_drill(Thread.from_text("1/4-20 UNC"), 40).cautions == (
        "the drill is larger than 5.258 mm, the greatest minor diameter by ASME B1.1 in class 2B",
        "less than half a thread may strip (common practice, no source)",
    )


def test_a_drill_far_from_what_was_asked_has_a_caution() -> None:
    assert tap_drill(Thread.from_text("M62x1.5")).cautions == (
        "the drill is larger than 60.676 mm, the greatest minor diameter by ISO 965-1 in class 6H",
        "no drill of the sets is near: 51.3 % where 75 % was asked; bore or ream to 60.539 mm",
    )


def test_the_offer_says_that_it_is_for_cutting_taps_and_how_to_stay_whole() -> None:
    assert OFFERS["tap_drill"].cautions[0] == (
        "for a cutting tap; a forming tap wants a larger hole, by its maker's table"
    )
    assert "eye protection" in OFFERS["tap_drill"].cautions[1]


def test_an_external_thread_is_not_tapped() -> None:
    with pytest.raises(TradeError) as refused:
        tap_drill(Thread.from_text("M8-6g"))
    assert str(refused.value) == "M8-6g is an external thread; a tap cuts an internal one"
    assert refused.value.argument == "thread"


@pytest.mark.parametrize("percent", [0, -75, 100.1, 1e100, -1e100])
def test_a_percentage_outside_the_thread_is_refused(percent: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        tap_drill(Thread.from_text("M8"), percent)
    assert str(refused.value) == (
        f"percent is {percent:g} %, it must be over 0 % and at most 100 %"
    )


@pytest.mark.parametrize(
    ("name", "sets", "message"),
    [
        (
            "M64",
            "number",
            "no drill of the sets asked suits M64: it takes 58.154 mm, they are 0.343 to 5.791 mm",
        ),
        (
            "M1",
            "letter",
            "no drill of the sets asked suits M1: it takes 0.756 mm, they are 5.944 to 10.490 mm",
        ),
    ],
)
def test_a_set_without_a_drill_for_the_thread_is_refused(
    name: str, sets: str, message: str
) -> None:
    with pytest.raises(TradeError) as refused:
        tap_drill(Thread.from_text(name), 75, sets)
    assert (str(refused.value), refused.value.hint) == (message, "leave the sets out")


def test_a_large_thread_has_a_drill_in_millimetres_alone_or_is_bored() -> None:
    found = tap_drill(Thread.from_text("M100x4"))
    assert (found.drill.designation, found.nearest_inch) == ("96.0 mm", None)
    with pytest.raises(TradeError) as refused:
        tap_drill(Thread.from_text("M110x4"))
    assert (str(refused.value), refused.value.hint) == (
        "no drill of the sets suits M110x4: it takes 106.103 mm, they are 0.200 to 100.000 mm",
        "bore it to 106.103 mm",
    )


@pytest.mark.parametrize("diameter", [0, -1, 6, 7, 1e100])
def test_a_hole_that_leaves_no_thread_is_refused(diameter: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        thread_percent(Thread.from_text("M6"), diameter)
    assert str(refused.value) == (
        f"drill is {diameter:g} mm, it must be over 0 mm and below 6 mm (M6)"
    )


def test_a_hole_of_the_basic_minor_diameter_is_five_sixths_of_a_thread() -> None:
    for name in ("M6", "M10x1.25", "1/4-20 UNC"):
        thread = Thread.from_text(name)
        assert thread_percent(thread, thread.minor_diameter) == pytest.approx(500 / 6)


@given(st.sampled_from(EVERY), st.floats(0.1, 100))
def test_the_exact_diameter_gives_the_percentage_back(name: str, percent: float) -> None:
    thread = Thread.from_text(name)
    assert thread_percent(thread, tap_drill(thread, percent).diameter) == pytest.approx(percent)


@pytest.mark.parametrize("name", EVERY)
def test_every_thread_has_a_drill_in_both_systems(name: str) -> None:
    found = tap_drill(Thread.from_text(name))
    assert 45 < found.percent < 85
    assert found.percent in (found.nearest_metric_percent, found.nearest_inch_percent)
    assert 0 < found.nearest_metric_percent < 100
    assert 0 < found.nearest_inch_percent < 100
    assert found.describe().startswith(found.thread.designation)
