"""A setup that does again what went poorly is told so, at its line and with the places."""

from __future__ import annotations

import pytest
from past_pages import page, plan, repeats_of, setup, whole_of

from shoplog.find.record import Figures, Record
from shoplog.find.repeats import with_repeats
from shoplog.find.whole import WholeLog, work_out_log
from shoplog.log import read_log
from shoplog.problems import Grade

POOR = setup("2026-01-10", outcome="poor", fault="rubbed, taper")
TOLD = (
    "next.md:9:1: caution: this repeats a setup that went poorly on 2026-01-10 at 25.1 m/min,"
    " 0.100 mm/rev (rubbed, taper) [see bush.md:3:1]"
)


def told(next_setup: str, *before: str, **pages: str) -> list[str]:
    """What a setup on a page of its own is told, beside a page of others."""
    return repeats_of(whole_of(bush=page(*(before or (POOR,))), next=page(next_setup), **pages))


def test_a_plan_that_repeats_what_went_poorly_is_told_at_its_line() -> None:
    assert told(plan("2026-02-01")) == [TOLD]


def test_it_is_a_caution_and_fails_nothing() -> None:
    whole = whole_of(bush=page(POOR), next=page(plan("2026-02-01")))
    (found,) = [one for one in whole.log.problems if one.code == "setup-repeats"]
    assert found.grade is Grade.CAUTION
    assert found.place.source == "planned:"
    assert whole.log.counts.problems == 0
    assert found in whole.log.pages["next.md"].problems
    assert found in whole.log.pages["next.md"].blocks[0].problems


def test_the_card_knows_both_places() -> None:
    good = setup("2026-01-12", speed="600 rpm")
    whole = whole_of(bush=page(POOR, good), next=page(plan("2026-02-01")))
    (block,) = whole.log.pages["next.md"].blocks
    assert block.setup is not None
    repeats = block.setup.repeats
    assert repeats is not None
    assert repeats.well is not None
    assert (repeats.poorly.page, repeats.poorly.anchor) == ("bush.md", "setup")
    assert (repeats.well.anchor, repeats.well.figures) == ("setup-2", "37.7 m/min, 0.100 mm/rev")
    assert repeats.message == (
        "this repeats a setup that went poorly on 2026-01-10 at 25.1 m/min, 0.100 mm/rev (rubbed,"
        " taper); 37.7 m/min, 0.100 mm/rev went well on 2026-01-12"
    )


def test_a_run_that_repeats_and_is_not_said_to_have_gone_well_is_told() -> None:
    for outcome in ("", "poor", "spoiled"):
        assert told(setup("2026-02-01", outcome=outcome)) == [TOLD], outcome
    for outcome in ("good", "usable"):
        assert told(setup("2026-02-01", outcome=outcome)) == [], outcome


def test_what_ran_counts_and_not_what_was_planned_for_it() -> None:
    changed = setup("2026-02-01", speed="700 rpm", outcome="poor")
    changed = changed.replace("ran:", "planned:\n  speed: 400 rpm\n  feed: 0.1 mm/rev\nran:")
    assert told(changed) == []


def test_spoiled_work_and_no_fault() -> None:
    spoiled = setup("2026-01-10", outcome="spoiled")
    assert told(plan("2026-02-01"), spoiled) == [
        "next.md:9:1: caution: this repeats a setup that was spoiled on 2026-01-10 at 25.1 m/min,"
        " 0.100 mm/rev [see bush.md:3:1]"
    ]


@pytest.mark.parametrize(
    ("near", "far"),
    [
        ({"speed": "459 rpm"}, {"speed": "461 rpm"}),
        ({"speed": "341 rpm"}, {"speed": "339 rpm"}),
        ({"feed": "0.125 mm/rev"}, {"feed": "0.126 mm/rev"}),
        ({"feed": "0.075 mm/rev"}, {"feed": "0.074 mm/rev"}),
        ({"depth": "0.625 mm"}, {"depth": "0.63 mm"}),
        ({"depth": ""}, {"depth": "0.3 mm"}),
        ({"diameter": "25 mm", "speed": "320 rpm"}, {"diameter": "25.1 mm", "speed": "320 rpm"}),
        ({"diameter": "15 mm", "speed": "533 rpm"}, {"diameter": "14.9 mm", "speed": "533 rpm"}),
        ({"material": "S235JR"}, {"material": "brass"}),
        ({"operation": "turning, finish"}, {"operation": "facing"}),
        ({"cutter": "turning tool, high-speed steel"}, {"cutter": "turning tool, carbide"}),
        ({"cutter": "Turning tool, HSS"}, {"cutter": "parting blade, HSS"}),
        ({}, {"feed": "by hand"}),
        ({}, {"speed": ""}),
        ({}, {"operation": ""}),
        ({}, {"material": ""}),
    ],
)
def test_how_near_counts_as_the_same(near: dict[str, str], far: dict[str, str]) -> None:
    assert len(told(plan("2026-02-01", **near))) == 1
    assert told(plan("2026-02-01", **far)) == []


def test_two_feeds_by_hand_are_alike() -> None:
    by_hand = setup("2026-01-10", feed="by hand", outcome="poor")
    assert len(told(plan("2026-02-01", feed="by hand"), by_hand)) == 1
    assert told(plan("2026-02-01"), by_hand) == []


def test_milling_is_compared_by_its_feed_of_a_tooth() -> None:
    given = {"operation": "slot milling", "diameter": "", "depth": "1 mm", "speed": "1500 rpm"}
    four = setup(
        "2026-01-10",
        cutter="end mill, HSS, diameter 6 mm, 4 teeth",
        feed="0.02 mm/tooth",
        outcome="poor",
        **given,  # type: ignore[arg-type]
    )
    two = {**given, "cutter": "end mill, HSS, diameter 6 mm, 2 teeth"}
    assert len(told(plan("2026-02-01", feed="60 mm/min", **two), four)) == 1
    assert told(plan("2026-02-01", feed="120 mm/min", **two), four) == []


def test_another_material_of_the_group_is_named() -> None:
    found = told(plan("2026-02-01", material="bright mild steel"))
    assert found == [TOLD.replace("a setup that", "a setup in mild steel that")]


def test_the_same_material_comes_before_a_newer_one_of_its_group() -> None:
    other = setup("2026-01-20", material="bright mild steel", outcome="poor")
    assert told(plan("2026-02-01"), POOR, other)[-1] == TOLD


def test_the_newest_that_went_poorly_is_the_one_named() -> None:
    newer = setup("2026-01-15", outcome="poor", fault="chatter")
    line = told(plan("2026-02-01"), POOR, newer)[-1]
    assert "on 2026-01-15 at 25.1 m/min, 0.100 mm/rev (chatter) [see bush.md:17:1]" in line


def test_a_good_one_since_at_nearly_the_same_figures_ends_it() -> None:
    good = setup("2026-01-20", speed="420 rpm")
    assert told(plan("2026-02-01"), POOR, good) == []
    assert len(told(plan("2026-02-01"), setup("2026-01-05", speed="420 rpm"), POOR)) == 1
    usable = setup("2026-01-20", speed="420 rpm", outcome="usable")
    assert told(plan("2026-02-01"), POOR, usable) == [TOLD]


def test_a_second_run_of_the_setup_that_went_well_ends_it() -> None:
    twice = setup("2026-01-10", outcome="").replace(
        "```\n\n",
        "  outcome: poor\nran:\n  speed: 400 rpm\n  feed: 0.1 mm/rev\n  outcome: good\n```\n\n",
    )
    assert told(plan("2026-02-01"), twice) == []


def test_what_went_well_since_then_is_told_and_else_what_went_well_before() -> None:
    before = setup("2026-01-05", speed="600 rpm")
    since = setup("2026-01-20", speed="800 rpm")
    (line,) = told(plan("2026-02-01"), before, POOR)
    assert line.endswith(
        "(rubbed, taper); 37.7 m/min, 0.100 mm/rev went well on 2026-01-05 [see bush.md:16:1]"
        " [see bush.md:3:1]"
    )
    (line,) = told(plan("2026-02-01"), before, POOR, since)
    assert "; 50.3 m/min, 0.100 mm/rev went well on 2026-01-20 [" in line


def test_only_an_earlier_one_counts() -> None:
    assert told(plan("2026-01-09")) == []
    assert told(plan("2026-01-10")) == []
    assert told(plan("2026-01-11")) == [TOLD]


def test_a_plan_without_a_day_is_of_what_comes_next() -> None:
    assert [line.replace("next.md:8", "next.md:9") for line in told(plan())] == [TOLD]
    assert told(setup("", outcome="")) == []


def test_one_without_a_day_is_earlier_only_above_on_its_own_page() -> None:
    undated = setup("", outcome="poor")
    assert told(plan("2026-02-01"), undated) == []
    assert repeats_of(whole_of(bush=page(undated, plan()))) == [
        "bush.md:20:1: caution: this repeats a setup that went poorly at 25.1 m/min, 0.100 mm/rev"
        " [see bush.md:3:1]"
    ]
    assert repeats_of(whole_of(bush=page(plan(), undated))) == []


def test_on_the_same_day_the_one_above_on_the_page_is_earlier() -> None:
    whole = whole_of(bush=page(POOR, plan("2026-01-10")))
    assert len(repeats_of(whole)) == 1
    assert repeats_of(whole_of(bush=page(plan("2026-01-10"), POOR))) == []


def test_a_setup_does_not_repeat_itself_nor_its_own_runs() -> None:
    assert repeats_of(whole_of(bush=page(POOR))) == []
    twice = POOR.replace(
        "outcome: poor",
        "  outcome: poor\nran:\n  speed: 400 rpm\n  feed: 0.1 mm/rev\noutcome: poor",
    )
    assert repeats_of(whole_of(bush=page(twice))) == []


def test_a_setup_is_told_once_however_often_it_ran() -> None:
    twice = setup("2026-02-01", outcome="").replace(
        "```\n\n", "ran:\n  speed: 400 rpm\n  feed: 0.1 mm/rev\n```\n\n"
    )
    assert told(twice) == [TOLD]


def test_a_private_one_is_told_at_a_private_setup_alone() -> None:
    private = setup("2026-01-10", outcome="poor", fault="rubbed, taper", more="private: yes")
    assert told(plan("2026-02-01"), private) == []
    own = plan("2026-02-01", more="private: yes")
    assert [line.replace(":10:1", ":9:1") for line in told(own, private)] == [TOLD]
    assert len(told(own, POOR)) == 1


def test_what_went_well_in_private_neither_shows_nor_hides_anything() -> None:
    secret = setup("2026-01-20", speed="600 rpm", more="private: yes")
    assert told(plan("2026-02-01"), POOR, secret) == [TOLD]
    near = setup("2026-01-20", more="private: yes")
    assert told(plan("2026-02-01"), POOR, near) == [TOLD]


def test_a_page_that_keeps_no_records_is_told_nothing_and_tells_nothing() -> None:
    guide = page(plan("2026-02-01"), front="records: no")
    assert repeats_of(whole_of(bush=page(POOR), guide=guide)) == []
    bad = page(POOR, front="records: no")
    assert repeats_of(whole_of(guide=bad, next=page(plan("2026-02-01")))) == []


def test_findings_stay_in_the_order_of_pages_and_lines() -> None:
    texts = {
        "a.md": page(POOR, plan("2026-02-01")) + "```calc\nx = y\n```\n",
        "b.md": "```calc\nz = w\n```\n" + page(plan("2026-02-01")),
    }
    whole = work_out_log(texts, shop_profile="nonsense: 1\n")
    lines = [(one.place.path, one.place.line) for one in whole.log.problems]
    assert lines == sorted(lines, key=lambda at: (at[0] != "shop.yml", at))
    assert len(repeats_of(whole)) == 2
    plain = read_log(texts, shop_profile="nonsense: 1\n")
    rest = [one for one in whole.log.problems if one.code != "setup-repeats"]
    assert rest == [*plain.problems]


def test_a_log_with_nothing_to_tell_is_the_same_log() -> None:
    log = read_log({"bush.md": page(POOR)})
    assert with_repeats(log, ()) is log


def test_many_of_one_kind_are_compared_with_the_newest_alone() -> None:
    """Twice the records, about twice the comparisons: nothing is compared with everything."""
    assert _compared(4000) < 3 * _compared(2000)


def _compared(number: int) -> int:
    """How often figures are looked at while a log's records are compared."""
    looked = [0]

    class Counted(Figures):
        def __getattribute__(self, name: str) -> object:
            looked[0] += name == "cutting_speed_m_per_min"
            return super().__getattribute__(name)

    records = [
        Record(
            page=f"page-{n}.md",
            anchor="setup",
            line=1,
            run=1,
            date=f"20{n % 20 + 10}-01-{n % 28 + 1:02}",
            operation_kind="turning",
            material_group="low-carbon steel",
            outcome="poor",
            ran=Counted(cutting_speed_m_per_min=float(n)),
        )
        for n in range(number)
    ]
    log = read_log({"page.md": ""})
    assert with_repeats(log, records) is log  # each is fed as none of the others is
    return looked[0]


def test_a_log_of_many_setups_is_told_as_a_small_one_is() -> None:
    bad = page(*(setup(f"2026-01-{n % 28 + 1:02}", outcome="poor") for n in range(60)))
    whole: WholeLog = whole_of(bush=bad, next=page(plan("2026-02-01")))
    assert len([line for line in repeats_of(whole) if line.startswith("next.md")]) == 1
