"""Ranges of cutting speed and feed: what is looked up, derived, corrected, said and refused."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting_data import (
    CuttingRange,
    corrected_range,
    cut_rating,
    cutting_range,
)
from shoplog.units import unit
from shoplog.values import Value

OPERATIONS = tuple(row["operation"] for row in table("cutting_operations").rows)
GROUPS = tuple(row["group"] for row in table("cutting_work_groups").rows)
CUTTERS = tuple(row["cutter"] for row in table("cutting_cutters").rows)
BY_HAND = ("hand tapping", "hand reaming")
NO_FEED = ("threading", "tapping", *BY_HAND, "broaching", "grinding")


def speeds(cut: CuttingRange) -> tuple[float, float]:
    """The band of speed, which must be there."""
    assert cut.speed_min is not None
    assert cut.speed_max is not None
    return cut.speed_min, cut.speed_max


def feeds(cut: CuttingRange) -> tuple[float, float]:
    """The band of feed, which must be there."""
    band = cut.feed_band()
    assert band is not None
    return band[0], band[1]


# What is looked up


def test_every_operation_of_the_trade_is_known() -> None:
    wanted = """turning, facing, boring, parting, grooving, forming, knurling, threading, drilling,
        core drilling, step drilling, reaming, hand tapping, machine tapping, countersinking,
        counterboring, face milling, side milling, slot milling, profile milling, plunge milling,
        single-point boring head, facing head, T-slot, dovetail, slitting, broaching, shaping,
        grinding"""
    for name in wanted.split(","):
        assert cutting_range(name, "low-carbon steel", diameter=10).source


@pytest.mark.parametrize("operation", OPERATIONS)
def test_bands_are_in_order_and_whole_for_steel_iron_brass_and_aluminium(operation: str) -> None:
    for material in ("low-carbon steel", "stainless 304", "brass", "6082-T6", "copper"):
        cut = cutting_range(operation, material, diameter=12)
        if operation in BY_HAND:
            assert cut.speed_min is None
            assert cut.speed_max is None
        else:
            low, high = speeds(cut)
            assert 0 < low <= high
        if operation in NO_FEED:
            assert cut.feed_band() is None
            assert cut.feed_min is None
        else:
            low, high = feeds(cut)
            assert 0 < low <= high
        assert cut.describe().startswith(operation)


@pytest.mark.parametrize("material", [row["name"] for row in table("materials").rows])
def test_every_material_of_the_table_has_a_group(material: str) -> None:
    cut = cutting_range("grinding", material)
    assert cut.group in GROUPS
    assert cut.material == material


@pytest.mark.parametrize("group", GROUPS)
def test_every_group_is_met_by_its_own_name(group: str) -> None:
    assert cutting_range("grinding", group).group == group


@pytest.mark.parametrize(
    ("name", "group"),
    [
        ("EN8", "medium-carbon steel"),
        ("1.0715", "free-cutting steel"),
        ("AISI 303", "free-cutting stainless steel"),
        ("316L", "austenitic stainless steel"),
        ("EN24T", "tempered steel"),
        ("grade 2 titanium", "pure titanium"),
        ("AZ31B", "magnesium"),
        ("G10", "laminate"),
        ("unknown steel", "tempered steel"),
        ("ISO K", "grey cast iron"),
        ("mild steel", "low-carbon steel"),
    ],
)
def test_names_of_materials_lead_to_their_group(name: str, group: str) -> None:
    assert cutting_range("turning", name).group == group


@pytest.mark.parametrize(
    ("word", "operation"),
    [
        ("sliding", "turning"),
        ("Screw-cutting", "threading"),
        ("machine tapping", "tapping"),
        ("end milling", "profile milling"),
        ("parting off", "parting"),
        ("spot facing", "counterboring"),
        ("planing", "shaping"),
        ("tapping by hand", "hand tapping"),
    ],
)
def test_other_words_for_an_operation_mean_the_same(word: str, operation: str) -> None:
    assert cutting_range(word, "brass", diameter=6).operation == operation


@pytest.mark.parametrize(
    ("word", "cutter"),
    [("high speed steel", "HSS"), ("M42", "cobalt HSS"), ("TCT", "brazed carbide")],
)
def test_other_words_for_a_cutter_mean_the_same(word: str, cutter: str) -> None:
    assert cutting_range("turning", "C45", word).cutter == cutter


def test_rough_and_finish_are_told_apart_and_together_make_the_whole() -> None:
    rough, finish, whole = (
        cutting_range(name, "C45") for name in ("rough turning", "turning, finish", "turning")
    )
    assert (rough.stage, finish.stage, whole.stage) == ("rough", "finish", None)
    assert speeds(whole) == (speeds(rough)[0], speeds(finish)[1])
    assert feeds(whole) == (feeds(finish)[0], feeds(rough)[1])


def test_a_stage_that_no_source_tells_apart_is_said() -> None:
    cut = cutting_range("milling, finish", "C45", diameter=10)
    assert "the source does not tell finish cuts from others here" in cut.notes
    assert speeds(cut) == speeds(cutting_range("milling", "C45", diameter=10))


def test_a_feed_comes_in_its_own_unit() -> None:
    slot = cutting_range("slot milling", "C45", diameter=10)
    assert slot.feed_per_rev_min is None
    assert slot.feed_min == Value(slot.feed_per_tooth_min or 0, unit("mm/tooth"))
    hole = cutting_range("drilling", "C45", diameter=10)
    assert hole.feed_per_tooth_max is None
    assert hole.feed_max == Value(hole.feed_per_rev_max or 0, unit("mm/rev"))
    ram = cutting_range("shaping", "C45")
    assert ram.feed_max == Value(ram.feed_per_stroke_max or 0, unit("mm"))


@pytest.mark.parametrize("operation", ["drilling", "reaming", "slot milling"])
def test_a_feed_that_goes_with_the_diameter_is_left_out_without_it(operation: str) -> None:
    cut = cutting_range(operation, "C45")
    assert cut.feed_band() is None
    assert "its feed goes with the diameter of the cutter: give diameter" in cut.notes


def test_spindle_speeds_are_those_of_the_speeds_at_the_diameter() -> None:
    cut = cutting_range("drilling", "low-carbon steel", diameter=10)
    assert cut.spindle_speed_min == pytest.approx(776.2, abs=0.1)  # 80 ft/min
    assert cut.spindle_speed_max == pytest.approx(1067.2, abs=0.1)  # 110 ft/min
    assert cutting_range("drilling", "low-carbon steel").spindle_speed_max is None
    for stroke in ("shaping", "broaching", "grinding"):
        assert cutting_range(stroke, "low-carbon steel", diameter=10).spindle_speed_max is None


def test_roughing_feeds_go_down_with_thin_work_but_not_under_finishing_ones() -> None:
    inch, thin, wire = (
        cutting_range("rough turning", "C45", diameter=d) for d in (25.4, 12.7, 2.0)
    )
    assert feeds(inch) == pytest.approx((0.254, 0.508))
    assert feeds(thin) == pytest.approx((0.127, 0.254))
    assert feeds(wire) == pytest.approx((0.0762, 0.254))
    assert not any("go down with work" in note for note in inch.notes)
    assert any("go down with work under 25.4 mm" in note for note in thin.notes)


# What is derived


def test_a_derived_speed_says_what_it_was_taken_from() -> None:
    bore = cutting_range("boring", "low-carbon steel")
    turn = cutting_range("turning", "low-carbon steel")
    assert speeds(bore) == pytest.approx((0.7 * speeds(turn)[0], speeds(turn)[1]))
    assert "taken as 0.7 to 1 times the speed of turning: common practice" in bore.notes


def test_a_counterbore_runs_at_80_to_85_percent_of_a_drill() -> None:
    drill, bore = (
        cutting_range(name, "C45", diameter=10) for name in ("drilling", "counterboring")
    )
    assert speeds(bore) == pytest.approx((0.8 * speeds(drill)[0], 0.85 * speeds(drill)[1]))
    assert feeds(bore) == pytest.approx(tuple(0.85 * feed for feed in feeds(drill)))


def test_a_carbon_steel_drill_runs_at_half_the_speed() -> None:
    fast, slow = (cutting_range("drilling", "C45", cutter) for cutter in ("HSS", "carbon steel"))
    assert speeds(slow) == pytest.approx(tuple(0.5 * speed for speed in speeds(fast)))


def test_an_insert_without_figures_takes_those_of_brazed_carbide() -> None:
    brazed, insert = (
        cutting_range("turning", "copper", cutter)
        for cutter in ("brazed carbide", "indexable carbide")
    )
    assert speeds(insert) == speeds(brazed)
    assert "no source read has it for indexable carbide: taken as brazed carbide" in insert.notes


def test_carbide_that_is_not_said_to_be_brazed_is_an_insert_and_that_is_said() -> None:
    cut = cutting_range("turning", "C45", "carbide")
    assert cut.cutter == "indexable carbide"
    assert any(note.startswith("a carbide that is not said to be brazed") for note in cut.notes)
    assert not any("brazed" in note for note in cutting_range("turning", "C45", "insert").notes)


def test_the_group_that_stands_in_for_a_material_is_said() -> None:
    said = "low-carbon steel stands for S275JR: no source read has a row of its own for it"
    assert said in cutting_range("turning", "S275JR").notes
    assert not any("stands for" in n for n in cutting_range("turning", "low-carbon steel").notes)
    wide = "austenitic stainless steel stands for the whole of ISO group M"
    assert wide in cutting_range("turning", "ISO M").notes


@pytest.mark.parametrize("cutter", CUTTERS)
def test_harder_steels_are_never_cut_faster(cutter: str) -> None:
    order = ("low-carbon steel", "medium-carbon steel", "high-carbon steel")
    if cutter == "ceramic insert":
        order = order[1:]
    tops = [speeds(cutting_range("turning", group, cutter))[1] for group in order]
    assert tops == sorted(tops, reverse=True)


@pytest.mark.parametrize("material", ["low-carbon steel", "C45", "cast iron", "brass"])
def test_better_cutters_are_never_slower(material: str) -> None:
    order = ("carbon steel", "HSS", "cobalt HSS", "brazed carbide", "indexable carbide")
    tops = [speeds(cutting_range("milling", material, cutter, 10))[1] for cutter in order]
    assert tops == sorted(tops)


def test_a_light_machine_takes_less_and_a_wheel_keeps_its_speed() -> None:
    firm, light = (
        cutting_range("slot milling", "C45", diameter=10, rigidity=word)
        for word in ("ordinary", "light")
    )
    assert speeds(light) == pytest.approx(tuple(0.75 * speed for speed in speeds(firm)))
    assert feeds(light) == pytest.approx(tuple(0.5 * feed for feed in feeds(firm)))
    wheels = {speeds(cutting_range("grinding", "C45", rigidity=w)) for w in ("rigid", "light")}
    assert len(wheels) == 1


# What is corrected


@pytest.mark.parametrize(
    ("depth", "speed", "feed"),
    [(14, 1, 1), (15, 0.9, 0.9), (20, 0.8, 0.9), (25, 0.7, 0.8), (60, 0.6, 0.8)],
)
def test_deep_holes_are_drilled_more_slowly(depth: float, speed: float, feed: float) -> None:
    # Metal Drilling Reference Guide (studylib.net 18232362): at 3, 4, 5 and 6 diameters
    hole = cutting_range("drilling", "C45", diameter=5)
    deep = corrected_range(hole, depth=depth)
    assert speeds(deep) == pytest.approx(tuple(speed * each for each in speeds(hole)))
    assert feeds(deep) == pytest.approx(tuple(feed * each for each in feeds(hole)))
    assert (deep.notes == hole.notes) == (speed == 1)


@pytest.mark.parametrize(("depth", "factor"), [(5, 1), (10, 0.75), (15, 0.5)])
def test_deep_slots_are_milled_more_slowly(depth: float, factor: float) -> None:
    # Dormer Pramet milling catalogue 2021, page 114: at 50, 100 and 150 % of the diameter
    slot = cutting_range("slot milling", "C45", diameter=10)
    deep = corrected_range(slot, depth=depth)
    assert speeds(deep) == pytest.approx(tuple(factor * each for each in speeds(slot)))


@pytest.mark.parametrize(
    ("width", "speed", "feed"), [(0.5, 1.48, 2.29), (1, 1.35, 1.67), (2, 1.22, 1.25), (6, 1, 1)]
)
def test_narrow_cuts_are_fed_faster(width: float, speed: float, feed: float) -> None:
    # Dormer Pramet milling catalogue 2021, page 114: at 5, 10, 20 and over 50 % of the diameter
    edge = cutting_range("profile milling", "C45", diameter=10)
    thin = corrected_range(edge, width=width)
    assert speeds(thin) == pytest.approx(tuple(speed * each for each in speeds(edge)))
    assert feeds(thin) == pytest.approx(tuple(feed * each for each in feeds(edge)))


def test_a_dry_cut_is_slower_with_steel_and_not_in_iron_or_with_carbide() -> None:
    for material, cutter, factor in (
        ("C45", "HSS", 0.75),
        ("cast iron", "HSS", 1),
        ("C45", "indexable carbide", 1),
    ):
        cut = cutting_range("turning", material, cutter)
        dry = corrected_range(cut, coolant="dry")
        assert speeds(dry) == pytest.approx(tuple(factor * each for each in speeds(cut)))


def test_corrections_multiply_and_each_is_said() -> None:
    cut = cutting_range("slot milling", "C45", diameter=10)
    made = corrected_range(cut, depth=10, stick_out=40, coolant="brushed", feed_by="hand")
    assert speeds(made) == pytest.approx(tuple(0.75 * 0.8 * 0.9 * v for v in speeds(cut)))
    assert feeds(made) == pytest.approx(tuple(0.75 * 0.75 * 0.6 * f for f in feeds(cut)))
    assert len(made.notes) == len(cut.notes) + 4
    assert made.cautions[-1] == "10 mm is deeper than the 5 mm that is usual"


def test_a_slender_boring_bar_is_run_slowly() -> None:
    bore = cutting_range("boring", "C45", diameter=30)
    slim = corrected_range(bore, stick_out=80, bar_diameter=16)
    assert speeds(slim) == pytest.approx(tuple(0.6 * each for each in speeds(bore)))


# How a cut lies in its range


@pytest.mark.parametrize(
    ("speed", "word"),
    [
        (10, "under the band"),
        (22, "gentle"),
        (28, "ordinary"),
        (35, "brisk"),
        (40, "over the band"),
    ],
)
def test_a_band_is_rated_by_thirds(speed: float, word: str) -> None:
    cut = cutting_range("milling", "low-carbon steel")  # 21.3 to 36.6 m/min
    assert cut_rating(cut, speed).speed == word


def test_what_the_range_does_not_know_is_not_rated_and_that_is_said() -> None:
    cut = cutting_range("tapping", "C45")
    rating = cut_rating(cut, 8, feed_per_rev=1.25)
    assert (rating.feed, rating.notes) == (None, ("the range has no feed to rate by",))


def test_a_band_of_one_figure_is_rated_a_tenth_about_it() -> None:
    cut = cutting_range("turning, rough", "C45", "carbon steel")  # 10 m/min
    words = [cut_rating(cut, speed).speed for speed in (8.9, 10, 11.1)]
    assert words == ["under the band", "ordinary", "over the band"]


# What can hurt


@pytest.mark.parametrize(
    ("operation", "material", "said"),
    [
        ("parting", "C45", "a parting or form tool that digs in"),
        ("slot milling", "C45", "climb milling pulls the table through its backlash"),
        ("grinding", "C45", "never above the wheel's marked speed"),
        ("grinding", "6082-T6", "light metal dust burns and explodes"),
        ("turning", "titanium", "titanium chips and dust burn"),
        ("turning", "titanium alloy", "titanium chips burn"),
        ("milling", "magnesium", "magnesium chips and dust burn fiercely"),
        ("turning", "cast iron", "cast-iron dust"),
        ("drilling", "brass", "a sharp drill pulls itself into brass"),
        ("hand tapping", "C45", "by hand only with the spindle locked"),
        ("turning", "C45", "never above the speed marked on the chuck"),
    ],
)
def test_cautions_stand_beside_what_can_hurt(operation: str, material: str, said: str) -> None:
    cautions = cutting_range(operation, material).cautions
    assert [text for text in cautions if text.startswith(said)], cautions


def test_milling_in_every_group_has_the_caution_on_climb_milling() -> None:
    for row in table("cutting_operations").rows:
        if row["feed"] == "tooth":
            cut = cutting_range(row["operation"], "brass", diameter=10)
            assert any(text.startswith("climb milling") for text in cut.cautions)


def test_grinding_tells_the_speed_of_the_work_and_what_a_pass_takes() -> None:
    # Machinery's Handbook, 31st ed., pages 1318 and 1329: 70 ft/min, 0.002 and 0.0005 in
    notes = cutting_range("grinding", "hardened steel").notes
    assert (
        "cylindrical grinding: the work at 21 m/min, 0.05 mm a pass roughing, 0.013 mm finishing"
        " (Machinery's Handbook, 31st ed.)"
    ) in notes


# What is refused


@pytest.mark.parametrize(
    ("ask", "message", "hint"),
    [
        (
            lambda: cutting_range("turnig", "C45"),
            '"turnig" is not an operation that is known here',
            "did you mean turning?",
        ),
        (
            lambda: cutting_range("", "C45"),
            '"" is not an operation that is known here',
            "such as turning, drilling, slot milling",
        ),
        (
            lambda: cutting_range("rough finish turning", "C45"),
            '"rough finish turning" is rough and finish at once',
            "",
        ),
        (
            lambda: cutting_range("turning", "plastics"),
            '"plastics" is not a material that is known here',
            "did you mean plastic?",
        ),
        (
            lambda: cutting_range("turning", "C45", "HSSS"),
            '"HSSS" is not a cutter that is known here',
            "did you mean HSS?",
        ),
        (
            lambda: cutting_range("turning", "C45", rigidity="wobbly"),
            '"wobbly" is not a rigidity that is known here',
            "such as rigid, ordinary, light",
        ),
        (
            lambda: cutting_range("turning", "hardened steel"),
            "no source gives turning of hardened steel with HSS",
            "the cutter: indexable carbide or ceramic insert",
        ),
        (
            lambda: cutting_range("drilling", "C45", "ceramic"),
            "no source gives drilling of medium-carbon steel with ceramic insert",
            "the cutter: HSS or carbon steel or cobalt HSS or brazed carbide or indexable carbide",
        ),
        (
            lambda: cutting_range("tapping", "hardened steel"),
            "no source gives tapping of hardened steel with HSS",
            "no source read has one: grind it?",
        ),
        (
            lambda: cutting_range("turning", "C45", diameter=0),
            "diameter is 0 mm, it must be at least 0.1 mm and at most 2000 mm",
            "",
        ),
        (
            lambda: corrected_range(cutting_range("drilling", "C45"), depth=10),
            "the depth of drilling is judged by the cutter's diameter, which is not given",
            "give cutting_range its diameter",
        ),
        (
            lambda: corrected_range(cutting_range("drilling", "C45", diameter=5), width=2),
            "no correction of drilling for its width is known here",
            "",
        ),
        (
            lambda: corrected_range(cutting_range("grinding", "C45"), depth=1),
            "no correction of grinding for its depth is known here",
            "",
        ),
        (
            lambda: corrected_range(cutting_range("milling", "C45", diameter=5), width=6),
            "the cut is 6 mm wide and the cutter 5 mm",
            "at most the cutter's diameter",
        ),
        (
            lambda: corrected_range(cutting_range("boring", "C45"), stick_out=60),
            "the stick-out of a boring bar is judged by its diameter, which is not given",
            "bar_diameter",
        ),
        (
            lambda: corrected_range(cutting_range("turning", "C45"), coolant="beer"),
            '"beer" is not a coolant that is known here',
            "such as flood, brushed, dry",
        ),
        (
            lambda: corrected_range(cutting_range("turning", "C45"), feed_by="foot"),
            '"foot" is not a way to feed that is known here',
            "such as power, hand",
        ),
        (
            lambda: cut_rating(cutting_range("turning", "C45")),
            "there is nothing to rate",
            "give cutting_speed, a feed or depth",
        ),
        (
            lambda: cut_rating(cutting_range("drilling", "C45", diameter=5), feed_per_tooth=0.1),
            "drilling is rated by its feed a turn",
            "feed_per_rev",
        ),
        (
            lambda: cut_rating(cutting_range("tapping", "C45"), feed_per_rev=1),
            "the range has no feed to rate by",
            "give cutting_speed, a feed or depth",
        ),
    ],
)
def test_what_cannot_be_answered_is_refused_with_a_hint(
    ask: Callable[[], object], message: str, hint: str
) -> None:
    with pytest.raises(TradeError, match=re.escape(message)) as caught:
        ask()
    assert (caught.value.message, caught.value.hint) == (message, hint)


@given(
    st.sampled_from((*OPERATIONS, "?")),
    st.text(max_size=80),
    st.sampled_from(CUTTERS),
    st.floats(allow_nan=False, allow_infinity=False),
)
def test_no_words_and_no_diameter_bring_anything_but_a_refusal(
    operation: str, material: str, cutter: str, diameter: float
) -> None:
    for text in (material, "low-carbon steel"):
        with suppress(TradeError):
            assert cutting_range(operation, text, cutter, diameter).describe()


@given(st.sampled_from(OPERATIONS), st.floats(min_value=0.1, max_value=2000))
def test_every_diameter_has_its_feed(operation: str, diameter: float) -> None:
    cut = cutting_range(operation, "C45", diameter=diameter)
    assert (cut.feed_band() is None) == (operation in NO_FEED)
