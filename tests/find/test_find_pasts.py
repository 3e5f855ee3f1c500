"""`past(…)` in a log: which records count, what they come to, and what is said of it."""

from __future__ import annotations

from math import pi

import pytest
from past_pages import answer, calc, notes_of, page, plan, problems_of, setup, value_of, whole_of

from shoplog.calc.past import ask_of
from shoplog.calc.past_record import Past
from shoplog.find.alike import edge_size, setup_of
from shoplog.find.pasts import MOST_NAMED, MOST_PASTS, Pasts
from shoplog.find.record import Figures, Record
from shoplog.log import read_log
from shoplog.trade.declare import TradeError

TURNING = 'past(operation="turning", material="mild steel", diameter=20 mm)'
BAND = "diameters from 10.000 mm to 40.000 mm count: half to double"


def speed_at(rpm: float, diameter_mm: float) -> float:
    """Cutting speed in m/min: pi D n / 1000 (ISO 3002-3)."""
    return pi * diameter_mm * rpm / 1000


def three(*speeds: str) -> str:
    return page(*(setup(f"2026-01-1{n}", speed=speed) for n, speed in enumerate(speeds)))


def test_the_middle_and_the_spread_of_what_went_well() -> None:
    found = answer(TURNING, bush=three("300 rpm", "400 rpm", "700 rpm"))
    assert found.cutting_speed == pytest.approx(speed_at(400, 20))
    assert found.cutting_speed_least == pytest.approx(speed_at(300, 20))
    assert found.cutting_speed_most == pytest.approx(speed_at(700, 20))
    assert (found.speed_least, found.speed, found.speed_most) == (300, 400, 700)
    assert found.feed_per_rev == pytest.approx(0.1)
    assert found.feed_rate == pytest.approx(40)
    assert found.depth_of_cut == pytest.approx(0.5)
    assert found.width_of_cut is None
    assert (found.count, found.good, found.usable, found.poor, found.spoiled) == (3, 3, 0, 0, 0)
    assert (found.oldest, found.newest) == ("2026-01-10", "2026-01-12")
    assert found.from_handbook == ""
    assert found.material == "steel"


def test_the_middle_of_an_even_number_is_between_the_two() -> None:
    found = answer(TURNING, bush=three("300 rpm", "400 rpm", "500 rpm", "900 rpm"))
    assert found.speed == 450


def test_it_says_itself_in_one_line_with_what_is_behind_it() -> None:
    found = answer(TURNING, bush=three("300 rpm", "400 rpm", "700 rpm"))
    assert found.describe() == (
        "3 good setups: 25.1 m/min (18.8 to 44.0), 0.100 mm/rev, depth of cut 0.500 mm;"
        " newest 2026-01-12"
    )
    assert found.notes == (BAND,)


def test_the_setups_behind_it_are_named_the_newest_first() -> None:
    found = answer(TURNING, a__bush=three("300 rpm", "400 rpm", "700 rpm"))
    assert [one.describe() for one in found.setups] == [
        "a/bush.md:29, 2026-01-12",
        "a/bush.md:16, 2026-01-11",
        "a/bush.md:3, 2026-01-10",
    ]
    assert [one.anchor for one in found.setups] == ["setup-3", "setup-2", "setup"]
    assert found.setups[0].title == "Bush"
    assert found.setups[0].figures == "44.0 m/min, 0.100 mm/rev"


def test_each_run_of_a_setup_counts_with_its_own_outcome() -> None:
    twice = setup(outcome="").replace(
        "```\n\n",
        "  outcome: poor\nran:\n  speed: 300 rpm\n  feed: 0.1 mm/rev\n  outcome: good\n```\n\n",
    )
    found = answer(TURNING, bush=page(twice))
    assert (found.good, found.poor, found.speed) == (1, 1, 300)


def test_what_went_poorly_counts_for_no_figure_and_is_named() -> None:
    bush = page(setup(), setup(speed="900 rpm", outcome="poor", fault="rubbed, taper"))
    found = answer(TURNING, bush=bush)
    assert (found.count, found.speed_most, found.poor) == (1, 400, 1)
    assert [(one.outcome, one.fault) for one in found.went_poorly] == [("poor", "rubbed, taper")]
    assert found.describe() == (
        "1 good setup: 25.1 m/min, 0.100 mm/rev, depth of cut 0.500 mm; 1 poor; newest 2026-01-10"
    )


def test_usable_ones_count_where_few_went_good_and_only_then() -> None:
    usable = setup(speed="700 rpm", outcome="usable")
    few = answer(TURNING, bush=page(setup(), setup(), usable))
    assert (few.count, few.good, few.usable, few.speed_most) == (3, 2, 1, 700)
    assert few.notes == (BAND, "usable ones count too: fewer than 3 went good")
    assert few.describe().startswith("2 good and 1 usable setups: ")
    enough = answer(TURNING, bush=page(setup(), setup(), setup(), usable))
    assert (enough.count, enough.usable, enough.speed_most) == (3, 1, 400)


def test_a_plan_that_never_ran_and_a_run_without_outcome_do_not_count() -> None:
    found = answer(TURNING, bush=page(plan(speed="900 rpm"), setup(), setup(outcome="")))
    assert (found.count, found.speed) == (1, 400)


def test_with_none_it_says_so_and_gives_the_handbook_s_range() -> None:
    found = answer(TURNING, bush=page(setup(outcome="spoiled", fault="broke")))
    assert (found.count, found.spoiled) == (0, 1)
    assert found.from_handbook.startswith("databook 9-2")
    assert found.notes[:3] == (
        "no record of this log is like it and went well: these figures are the handbook's, and"
        " nobody's own",
        "HSS is taken for the cutter: cutter_material says another",
        BAND,
    )
    assert found.describe() == (
        "no record that went well; the handbook's: 35.1 m/min (24.4 to 45.7),"
        " 0.238 mm/rev (0.076 to 0.400); 1 spoiled"
    )
    assert [one.fault for one in found.went_poorly] == ["broke"]


def test_with_none_and_no_handbook_it_is_a_problem() -> None:
    whole = whole_of(bush=page(setup(outcome="poor")), ask=calc('a = past(machine="bench lathe")'))
    assert problems_of(whole) == [
        "ask.md:2:5: no record of this log is like it and went well, and a handbook's range goes by"
        " operation and material (give operation=… and material=…)"
    ]


def test_with_none_and_no_handbook_a_misspelt_word_is_the_likely_reason() -> None:
    whole = whole_of(
        bush=page(setup(more="machine: bench lathe")), ask=calc('a = past(machine="bench lath")')
    )
    assert problems_of(whole) == [
        "ask.md:2:18: no record of this log is like it and went well, and a handbook's range goes"
        " by operation and material (no record names the machine `bench lath`: did you mean bench"
        " lathe?)"
    ]


def test_a_material_by_any_of_its_names() -> None:
    for name in ("mild steel", "S235JR", "1020", "1.0038"):
        found = answer(f'past("turning", "{name}")', bush=page(setup(material="hot-rolled steel")))
        assert (found.count, found.material) == (1, "steel"), name


def test_a_material_s_own_records_come_before_its_group_s() -> None:
    bush = page(setup(), setup(material="bright mild steel", speed="700 rpm"))
    own = answer('past("turning", "bright mild steel")', bush=bush)
    assert (own.count, own.speed, own.material, own.notes) == (1, 700, "C15", ())


def test_where_none_of_its_own_went_well_the_group_s_count_and_it_says_so() -> None:
    bush = page(setup(), setup(material="bright mild steel", speed="700 rpm", outcome="poor"))
    found = answer('past("turning", "bright mild steel")', bush=bush)
    assert (found.count, found.speed, found.material) == (1, 400, "low-carbon steel")
    assert found.poor == 1
    assert (
        found.notes
        == (
            "none in bright mild steel itself went well: all low-carbon steel counts",
            "usable ones count too: fewer than 3 went good",
        )[:1]
    )


def test_a_group_asks_for_all_of_it() -> None:
    bush = page(setup(), setup(material="bright mild steel"), setup(material="brass"))
    assert answer('past("turning", "ISO P")', bush=bush).count == 0
    assert answer('past("turning", "free-cutting brass")', bush=bush).count == 1


def test_the_operation_is_its_row_and_a_stage_narrows_it() -> None:
    bush = page(
        setup(operation="turning, rough", speed="300 rpm"),
        setup(operation="turning, finish", speed="700 rpm"),
        setup(operation="taper turning", speed="500 rpm"),
        setup(operation="facing", speed="900 rpm"),
    )
    assert answer('past("turning", "mild steel")', bush=bush).count == 3
    finish = answer('past("turning, finish", "mild steel")', bush=bush)
    assert (finish.count, finish.speed, finish.notes) == (1, 700, ())


def test_a_stage_that_no_record_says_is_told() -> None:
    found = answer('past("turning, finish", "mild steel")', bush=page(setup()))
    assert (found.count, found.notes) == (1, ("none that went well says finish: every cut counts",))


def test_kind_and_material_of_the_cutter_and_the_machine() -> None:
    bush = page(
        setup(cutter="turning tool, high-speed steel", speed="300 rpm"),
        setup(cutter="turning tool, indexable carbide", speed="900 rpm"),
        setup(cutter="parting blade, HSS", speed="200 rpm", more="machine: big lathe"),
    )
    by = 'operation="turning", material="mild steel"'
    assert (
        answer(f'past({by}, cutter_material="HSS", cutter="Turning tool")', bush=bush).speed == 300
    )
    assert answer(f'past({by}, cutter_material="indexable carbide")', bush=bush).speed == 900
    assert answer(f'past({by}, machine="Big lathe")', bush=bush).speed == 200
    assert answer('past(machine="big lathe")', bush=bush).speed == 200


def test_a_cutter_or_machine_that_no_record_names_is_told_with_the_nearest() -> None:
    by = 'operation="turning", material="mild steel"'
    bush = page(setup(more="machine: bench lathe"))
    found = answer(f'past({by}, cutter="turnin tool", machine="bench lath")', bush=bush)
    assert found.count == 0
    assert found.notes[2:4] == (
        "no record names the cutter `turnin tool`: did you mean turning tool?",
        "no record names the machine `bench lath`: did you mean bench lathe?",
    )
    none = answer(f'past({by}, machine="{"x" * 500}")', bush=bush)
    assert f"no record names the machine `{'x' * 59}…`" in none.notes


def test_diameters_from_half_to_double_count() -> None:
    sizes = ("9.9 mm", "10 mm", "40 mm", "40.1 mm", "")
    bush = page(*(setup(diameter=size, speed=f"{100 + n} rpm") for n, size in enumerate(sizes)))
    found = answer(TURNING, bush=bush)
    assert (found.count, found.speed_least, found.speed_most) == (2, 101, 102)


def test_the_size_is_the_work_s_in_turning_and_the_cutter_s_in_milling() -> None:
    boring = Record(operation_kind="boring", diameter_mm=30.0, cutter_diameter_mm=8.0)
    milling = Record(operation_kind="slot milling", diameter_mm=30.0, cutter_diameter_mm=8.0)
    drilling = Record(operation_kind="drilling", diameter_mm=30.0)
    assert [edge_size(one) for one in (boring, milling, drilling)] == [30.0, 8.0, 30.0]


def test_milling_is_told_by_its_feed_of_a_tooth() -> None:
    mill = setup(
        operation="slot milling",
        cutter="end mill, HSS, diameter 6 mm, 4 teeth",
        diameter="",
        feed="0.02 mm/tooth",
        depth="1 mm",
        speed="1500 rpm",
    )
    found = answer('past("slot milling", "mild steel", diameter=6 mm)', bush=page(mill))
    assert found.describe() == (
        "1 good setup: 28.3 m/min, 0.020 mm/tooth, depth of cut 1.000 mm; newest 2026-01-10"
    )


def test_a_feed_by_hand_has_no_figure_and_few_that_give_one_are_counted() -> None:
    bush = page(setup(feed="by hand"), setup(depth=""), setup(feed="0.2 mm/rev"))
    found = answer('past("turning", "mild steel")', bush=bush)
    assert (found.count, found.feed_per_rev_least, found.feed_per_rev_most) == (3, 0.1, 0.2)
    assert found.notes == ("depth of cut is of 2 of the 3",)


def test_setups_without_any_figure_say_so() -> None:
    bush = page(setup(speed="", feed="by hand", depth=""))
    found = answer('past("turning", "mild steel")', bush=bush)
    assert found.describe() == "1 good setup: no speed or feed was written down; newest 2026-01-10"


def test_the_page_s_own_setups_do_not_count() -> None:
    own = f"{page(setup(speed='900 rpm'))}{calc(f'answer = {TURNING}')}"
    assert value_of(whole_of(ask=own, bush=page(setup())), "answer").speed == 400


def test_a_page_with_a_day_knows_nothing_later_and_nothing_without_a_day() -> None:
    bush = page(
        setup("2026-01-01", speed="300 rpm"),
        setup("2026-02-01", speed="500 rpm"),
        setup("2026-02-02", speed="900 rpm"),
        setup("", speed="700 rpm"),
    )
    found = answer('past("turning", "mild steel")', "date: 2026-02-01", bush=bush)
    assert (found.count, found.speed_least, found.speed_most) == (2, 300, 500)
    assert found.notes == (
        "records up to 2026-02-01 count, the day of this page",
        "1 record like it left out: no day is known of it",
    )
    without = answer('past("turning", "mild steel")', bush=bush)
    assert (without.count, without.notes) == (4, ())


def test_what_is_cut_later_changes_nothing_on_a_page_with_a_day() -> None:
    early = page(setup("2026-01-01"))
    late = page(setup("2026-09-01", speed="900 rpm"))
    asked = ('past("turning", "mild steel")', "date: 2026-02-01")
    assert answer(*asked, bush=early) == answer(*asked, bush=early, other=late)


def test_the_day_of_the_other_page_counts_where_its_setup_has_none() -> None:
    bush = page(setup("", speed="300 rpm"), front="date: 2026-01-20")
    found = answer('past("turning", "mild steel")', "date: 2026-01-20", bush=bush)
    assert (found.count, found.newest) == (1, "2026-01-20")


def test_private_records_are_nowhere_in_an_answer() -> None:
    secret = setup(speed="900 rpm", more="private: yes", cutter="Secret cutter, HSS")
    poorly = setup(speed="950 rpm", outcome="poor", more="private: yes")
    bush = page(setup(), secret, poorly)
    found = answer('past("turning", "mild steel", cutter="secret cuter")', bush=bush)
    assert (found.count, found.poor) == (0, 0)
    assert "no record names the cutter `secret cuter`" in found.notes
    assert answer(TURNING, bush=bush) == answer(TURNING, bush=page(setup()))


def test_a_page_that_keeps_no_records_gives_none() -> None:
    found = answer(TURNING, guide=page(setup(speed="900 rpm"), front="records: no"))
    assert found.count == 0


def test_more_different_questions_than_a_page_may_ask() -> None:
    asks = "\n".join(f'a{n} = past("turning", "brass", diameter={n + 1} mm)' for n in range(51))
    again = '\nb = past("turning", "brass", diameter=1 mm)'
    whole = whole_of(bush=page(setup(material="brass")), ask=calc(asks + again))
    assert MOST_PASTS == 50
    assert problems_of(whole) == [
        "ask.md:52:7: this page asks the past for more than 50 different things (split the page)"
    ]


def test_a_question_without_an_answer_is_not_worked_out_twice() -> None:
    asked = Pasts([])("ask.md", None)
    with pytest.raises(TradeError) as first:
        asked(ask_of(machine="x"))
    with pytest.raises(TradeError) as second:
        asked(ask_of(machine="x"))
    assert first.value is second.value


def test_five_thousand_records_and_what_a_page_is_told_of_them() -> None:
    records = [
        Record(
            page=f"page-{n // 5}.md",
            anchor=f"setup-{n % 5}",
            line=1,
            run=1,
            date=f"2026-01-{n % 28 + 1:02}",
            operation="turning",
            operation_kind="turning",
            material="mild steel",
            material_row="steel",
            material_group="low-carbon steel",
            outcome="good",
            ran=Figures(cutting_speed_m_per_min=float(n)),
        )
        for n in range(5000)
    ]
    found = Pasts(records)("ask.md", None)(ask_of("turning", "mild steel"))
    assert (found.count, found.cutting_speed) == (5000, 2499.5)
    assert (len(found.setups), found.newest) == (MOST_NAMED, "2026-01-28")


def test_texts_of_another_page_are_named_short_and_clean() -> None:
    record = Record(title="x\x1b[31m" + "y" * 200, fault=("z" * 200,), material="q\u202e")
    one = setup_of(record)
    assert (len(one.title), len(one.fault), one.material) == (60, 60, "q\ufffd")
    assert "\x1b" not in one.title


def test_a_log_read_without_records_answers_with_the_handbook() -> None:
    texts = {"bush.md": page(setup()), "ask.md": calc(f"answer = {TURNING}")}
    (item,) = read_log(texts).pages["ask.md"].results
    assert isinstance(item.value, Past)
    assert item.value.notes[0].startswith("no records were looked through: ")


def test_its_notes_stand_with_the_result() -> None:
    whole = whole_of(bush=page(setup()), ask=calc(f"answer = {TURNING}"))
    assert notes_of(whole) == [BAND]
