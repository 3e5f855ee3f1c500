"""Setup blocks: what each key reads, what is wrong and where, and the figures of the runs."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.calc.evaluate import evaluate_text
from shoplog.calc.scope import Scope, Waits
from shoplog.calc.show import show
from shoplog.log.blocks import Block, Line, read_page
from shoplog.log.profile.shop import read_shop
from shoplog.log.setups.keys import SETUP_KEYS
from shoplog.log.setups.operations import operation_of
from shoplog.log.setups.reading import read_setup
from shoplog.problems import CATALOGUE, Grade
from shoplog.trade.offers import OFFERS
from shoplog.units import unit
from shoplog.values import Contributor, Value

JOURNAL = """\
date: 2026-03-14
step: 4
operation: turning, finish
feature: journal
material: free-cutting brass
cutter: turning tool, HSS, nose radius 0.4 mm
machine: bench lathe
diameter: 16.4 mm
planned:
  cutting speed: 60 m/min
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
ran:
  speed: 1180 rpm
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
  coolant: none
outcome: good
remarks: mirror finish: after the edge was stoned
"""
SHOP = """\
machines:
  - name: bench lathe
    kind: lathe
    speeds: 120 rpm, 600 rpm, 1000 rpm
    dial reads: diameter
  - name: mill
    kind: mill
    speeds: 100 rpm to 2500 rpm
cutters:
  small end mill:
    kind: end mill
    diameter: 6 mm
    teeth: 4
chucks:
  - name: small chuck
    marked speed: 800 rpm
"""
JOURNAL_SIZE = Value(16.0, unit("mm"), ((Contributor("journal", -2e-5, 0.0), 1.0),), "f7")
NAMES = {"shaft.journal": JOURNAL_SIZE, "label": "a text"}


def evaluate(text):
    if text == "broken":
        raise Waits("broken")
    return NAMES[text] if text in NAMES else evaluate_text(text, Scope())[0]


def setup(text, shop=None, column=1):
    """The report of a block whose first line is line 10 of `page.md`, and its problems."""
    texts = text.removesuffix("\n").split("\n")
    lines = tuple(Line(number, column, one) for number, one in enumerate(texts, start=10))
    block = Block("setup", 9, 10 + len(lines), column, lines, closed=True)
    profile = read_shop(shop)[0] if shop else None
    return read_setup(block, "page.md", evaluate, profile)


def good(text, shop=None):
    report, problems = setup(text, shop)
    assert [problem.line for problem in problems] == []
    return report


def lines(text, shop=None):
    return [problem.line for problem in setup(text, shop)[1]]


def derived(run):
    return {figure.label: show(figure.value).own for figure in run.derived}


# What each key reads


def test_the_setup_of_a_journal_is_read_whole():
    report = good(JOURNAL)
    values = {key: one.value for key, one in report.fields.items() if one.value is not None}
    assert values["date"] == "2026-03-14"
    assert values["step"].nominal == 4
    assert values["outcome"] == "good"
    assert values["cutter"].describe() == "turning tool, HSS, nose radius 0.400 mm"
    assert (values["diameter"].nominal, values["diameter"].unit.text) == (16.4, "mm")
    assert report.fields["remarks"].text == "mirror finish: after the edge was stoned"
    assert (report.planned.kind, report.planned.line) == ("planned", 18)
    assert [(run.kind, run.line) for run in report.ran] == [("ran", 22)]
    assert report.ran[0].fields["coolant"].text == "none"


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("taper", "1:50"),
        ("taper", "no"),
        ("drill", "#30"),
        ("drill", "1/4 in"),
        ("feature", "010"),
        ("remarks", "yes"),
        ("remarks", "at 440 it sang: the bar was long"),
        ("remarks", "# not a comment here"),
        ("holding", "{a: b}"),
    ],
)
def test_a_text_stays_what_it_is(key, text):
    field = good(f"{key}: {text}\n").fields[key]
    assert (field.text, field.value) == (text, None)


def test_coolant_no_stays_the_word():
    assert good("ran:\n  coolant: no\n").ran[0].fields["coolant"].text == "no"


def test_a_count_with_a_leading_nought_is_decimal():
    field = good("step: 010\n").fields["step"]
    assert (field.text, field.value.nominal) == ("010", 10)


def test_sizes_may_reckon_and_name_those_of_the_page():
    report = good(
        "diameter: shaft.journal\nstick-out: 3 * 10 mm\ncutter diameter: 5/32 in\nteeth: 2 tooth\n"
    )
    assert report.fields["diameter"].value is JOURNAL_SIZE
    assert report.fields["stick-out"].value.nominal == 30
    assert report.fields["cutter diameter"].value.unit.text == "in"
    assert report.fields["teeth"].value.nominal == 2


@pytest.mark.parametrize("feed", ["6 in/min", "40 mm/min", "0.1 mm/rev", "2 thou/tooth"])
def test_a_feed_is_by_the_minute_the_revolution_or_the_tooth(feed):
    assert show(good(f"ran:\n  feed: {feed}\n").ran[0].fields["feed"].value).own.split()[1] in feed


def test_comments_blank_lines_tabs_and_carriage_returns_are_passed_over():
    report = good("# first\r\n\r\nstep: 2\r\nplanned:\r\n\t# later\r\n\tspeed: 600 rpm\r\n")
    assert report.fields["step"].text == "2"
    assert report.planned.fields["speed"].text == "600 rpm"


def test_a_tab_and_four_spaces_are_one_indent():
    run = good("ran:\n\tspeed: 600 rpm\n    feed: by hand\n").ran[0]
    assert list(run.fields) == ["speed", "feed"]


def test_a_block_that_is_indented_as_a_whole_is_read():
    report = good("  step: 1\n  ran:\n    speed: 600 rpm\n")
    assert list(report.fields) == ["step"]
    assert list(report.ran[0].fields) == ["speed"]


def test_ran_may_come_more_than_once_each_with_its_outcome():
    report = good(
        "ran:\n  speed: 600 rpm\n  outcome: poor\n  fault: Chatter, sang\n"
        "ran:\n  speed: 300 rpm\n  outcome: good\n  remarks: slower: better\n"
    )
    first, second = report.ran
    assert first.fields["fault"].value == ("chatter", "sang")
    assert [run.fields["outcome"].value for run in report.ran] == ["poor", "good"]
    assert second.fields["remarks"].text == "slower: better"


def test_a_fault_near_to_a_known_one_is_kept_with_a_note():
    report = good("fault: chater, burr\n")
    assert report.fields["fault"].value == ("chater", "burr")
    assert report.notes == ("fault `chater` is kept; did you mean chatter?",)


@pytest.mark.parametrize("said", ["width 1.1 mm", "1.1 mm wide"])
def test_the_width_of_a_cutter_is_read_either_way(said):
    report = good(f"cutter: grooving tool, HSS, {said}, honed\n")
    cutter = report.fields["cutter"].value
    assert (cutter.width.nominal, cutter.width.unit.text) == (1.1, "mm")
    assert cutter.describe() == "grooving tool, HSS, width 1.100 mm, honed"
    assert report.notes == ("`honed` of the cutter is kept as text",)


def test_words_of_a_cutter_that_are_not_read_stay_as_text():
    report = good("cutter: end mill, HSS, diameter 6 mm, 2 flutes, resharpened\n")
    cutter = report.fields["cutter"].value
    assert (cutter.diameter.nominal, cutter.teeth.nominal) == (6, 2)
    assert cutter.other == ("resharpened",)
    assert report.notes == ("`resharpened` of the cutter is kept as text",)


def test_a_block_that_holds_nothing_is_no_setup():
    assert setup("") == (None, ())
    assert setup("# nothing\n\n") == (None, ())


def test_a_value_that_waits_for_a_broken_one_is_a_note():
    report = good("diameter: broken\nstep: 1\n")
    assert report.fields["diameter"].value is None
    assert report.notes == ("diameter waits for `broken`, which could not be worked out",)


# What is wrong, and where


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            "feeed: 1 mm/rev\n",
            "page.md:10:1: `feeed` is not a key of a setup (did you mean feed?)",
        ),
        (
            "planned:\n  Cutting Speed: 30 m/min\n",
            "page.md:11:3: `Cutting Speed` is not a key of a setup (did you mean cutting speed?)",
        ),
        ("lubrication: oil\n", "page.md:10:1: `lubrication` is not a key of a setup"),
        (
            "step: 1\nstep: 2\n",
            "page.md:11:1: `step` is given at line 10 already (keep one of them)"
            " [see page.md:10:1]",
        ),
        (
            "planned:\n  speed: 1 rpm\nplanned:\n  speed: 2 rpm\n",
            "page.md:12:1: `planned` is given at line 10 already (keep one of them)"
            " [see page.md:10:1]",
        ),
        (
            "feed: 0.1 mm/rev\n",
            "page.md:10:1: `feed` stands under `planned:` or `ran:`,"
            " and here it stands at the margin",
        ),
        (
            "ran:\n  material: brass\n",
            "page.md:11:3: `material` stands at the margin, and here it stands under `ran:`",
        ),
        (
            "planned:\n  outcome: good\n",
            "page.md:11:3: `outcome` stands at the margin or under `ran:`,"
            " and here it stands under `planned:`",
        ),
        (
            "ran:\n  speed 600 rpm\n",
            "page.md:11:3: a line of a setup is `key: text`, and this one has no colon"
            " (write speed: 600 rpm)",
        ),
        (
            ": 16 mm\n",
            "page.md:10:1: no key stands before the colon (a line of a setup is `key: text`)",
        ),
        (
            "outcome:\n",
            "page.md:10:1: `outcome` has no value (leave the line out until there is one)",
        ),
        (
            "ran: 1180 rpm\n  feed: by hand\n",
            "page.md:10:6: nothing stands after `ran:` on its line"
            " (write a line `key: text` below it, indented)",
        ),
        (
            "ran:\n  speed: by hand\n",
            "page.md:11:10: `speed` is a spindle speed, and this is no number"
            " (leave the line `speed` out, and say it in `remarks`)",
        ),
        (
            "planned:\nstep: 1\n",
            "page.md:10:1: no line stands under `planned:`"
            " (its lines are indented; leave it out until there is one)",
        ),
        (
            "ran:\n  speed: 600 rpm\n    feed: by hand\n",
            "page.md:12:5: this line is indented by 4, and the first one under `ran:` by 2"
            " (begin the lines under `ran:` in one column)",
        ),
        (
            "step: 1\n  feature: journal\n",
            "page.md:11:3: this line is indented, and stands under neither `planned:` nor `ran:`"
            " (a value ends with its line)",
        ),
        (
            "date: 14.3.2026\n",
            "page.md:10:7: `14.3.2026` is not a date (write year, month and day: 2026-03-14)",
        ),
        ("date: 2026-02-30\n", "page.md:10:7: 2026-02-30 is on no calendar"),
        (
            "outcome: god\n",
            "page.md:10:10: `outcome` is one of good, usable, poor, spoiled, and this is `god`"
            " (did you mean good?)",
        ),
        (
            "outcome: good, after stoning\n",
            "page.md:10:10: `outcome` is one of good, usable, poor, spoiled,"
            " and this is `good, after stoning` (what else is to say goes under `remarks`)",
        ),
        (
            "direction: clim\n",
            "page.md:10:12: `direction` is one of climb, conventional, and this is `clim`"
            " (did you mean climb?)",
        ),
        ("private: maybe\n", "page.md:10:10: `private` is one of yes, no, and this is `maybe`"),
        (
            "diameter: 16.4\n",
            "page.md:10:11: `diameter` is a length, and this is a plain number"
            " (write its unit, such as mm)",
        ),
        ("diameter: label\n", "page.md:10:11: `diameter` is a length, and this is a text"),
        ("diameter: bore\n", "page.md:10:11: `bore` is not a name of this page"),
        ("length:  3 mm + 2 furlong\n", "page.md:10:19: `furlong` is not a unit of this log"),
        ("diameter: -1 mm\n", "page.md:10:11: diameter is -1 mm, it must be over 0 mm"),
        (
            "diameter: 0,4 mm\n",
            "page.md:10:11: a comma between digits (a decimal point is a point: 0.4;"
            " after a comma between arguments comes a space)",
        ),
        (
            "teeth: 2.5\n",
            "page.md:10:8: `teeth` is a whole number from 1 to 1000, and this is 2.5",
        ),
        (
            "ran:\n  speed: 60 m/min\n",
            "page.md:11:10: `speed` is a spindle speed, and this is a feed or speed"
            " (did you mean cutting speed?)",
        ),
        (
            "ran:\n  cutting speed: 600 rpm\n",
            "page.md:11:18: `cutting speed` is a cutting speed, and this is a spindle speed"
            " (did you mean speed?)",
        ),
        (
            "ran:\n  feed: 0.1 mm\n",
            "page.md:11:9: `feed` is a feed per rev, tooth or minute, and this is a length"
            " (such as 0.1 mm/rev or 0.05 mm/tooth)",
        ),
        (
            "cutter: turning tool, HSS, nose radius 0.4\n",
            "page.md:10:40: `nose radius` is a length, and this is a plain number"
            " (write its unit, such as mm)",
        ),
        (
            "operation: milling\nplanned:\n  depth of cut: 1 mm off diameter\n",
            "page.md:12:22: `off diameter` belongs to turning, and this is milling"
            " (a depth of cut is along the cutter's axis here)",
        ),
    ],
)
def test_what_is_wrong_is_said_at_its_place(text, found):
    assert lines(text) == [found]


def test_a_place_counts_the_columns_before_the_block():
    problem = setup("diameter: 16.4\n", column=5)[1][0]
    assert (problem.place.line, problem.place.column, problem.place.width) == (10, 15, 4)
    assert problem.place.source == "    diameter: 16.4"


def test_no_line_is_lost_to_a_mistake_in_another():
    report, problems = setup("feeed: x\nstep: 1\nhello\nran:\n  spede: 3\n  speed: 600 rpm\n")
    assert len(problems) == 3
    assert report.fields["feeed"].text == "x"
    assert report.fields["step"].value.nominal == 1
    assert report.ran[0].fields["spede"].text == "3"
    assert report.ran[0].fields["speed"].value.nominal == 600


MESSAGES = [one.code for one in CATALOGUE.values() if one.example.startswith("```setup")]


@pytest.mark.parametrize("code", MESSAGES)
def test_the_example_of_a_message_causes_it(code):
    page = read_page("page.md", CATALOGUE[code].example)
    problems = read_setup(page.blocks[0], "page.md", evaluate, None)[1]
    assert code in [problem.code for problem in problems]


def test_every_key_says_what_it_is_for():
    assert all(key.doc and key.where for key in SETUP_KEYS.values())


# Figures


def test_a_cutting_speed_gives_the_speed_of_the_spindle():
    figures = good(JOURNAL).planned.derived
    assert [(one.label, round(one.value.nominal, 3), one.value.unit.text) for one in figures] == [
        ("spindle speed", 1164.548, "rpm"),  # 1000 × 60 / (π × 16.4)
        ("feed a minute", 69.873, "mm/min"),  # 0.06 × 1164.548
        ("removal rate", 0.72, "cm^3/min"),  # 60 × 0.06 × 0.2
    ]
    assert figures[0].source == OFFERS["spindle_speed"].source
    assert figures[0].note == "at the diameter, 16.400 mm"


def test_a_derived_spindle_speed_carries_the_caution_of_its_formula():
    report = good(JOURNAL)
    assert report.planned.cautions[:1] == OFFERS["spindle_speed"].cautions
    judged = report.ran[0].judged
    assert judged is not None
    assert report.ran[0].cautions == judged.cautions


def test_a_speed_gives_the_cutting_speed():
    assert derived(good(JOURNAL).ran[0]) == {
        "cutting speed": "60.8 m/min",  # π × 16.4 × 1180 / 1000
        "feed a minute": "71 mm/min",
        "removal rate": "0.73 cm^3/min",
    }


def test_milling_takes_the_cutter_and_its_teeth():
    run = good(
        "operation: milling, slot\ncutter: end mill, HSS, diameter 6 mm, 4 teeth\ndiameter: 90 mm\n"
        "ran:\n  speed: 1500 rpm\n  feed: 150 mm/min\n  depth of cut: 2 mm\n  width of cut: 6 mm\n"
    ).ran[0]
    assert derived(run) == {
        "cutting speed": "28.3 m/min",  # π × 6 × 1500 / 1000
        "feed per tooth": "0.025 mm/tooth",  # 150 / (4 × 1500)
        "removal rate": "1.80 cm^3/min",  # 2 × 6 × 150 / 1000
    }
    assert run.derived[0].note == "at the cutter diameter, 6.000 mm"


def test_a_feed_per_tooth_gives_the_table_feed():
    run = good(
        "operation: milling\ncutter diameter: 1/4 in\nteeth: 2\n"
        "planned:\n  speed: 1000 1/min\n  feed: 0.05 mm/tooth\n"
    ).planned
    assert derived(run)["table feed"] == "100 mm/min"  # 0.05 × 2 × 1000


def test_drilling_takes_the_drill():
    run = good(
        "operation: drilling\ndiameter: 12.7 mm\n"
        "ran:\n  speed: 626.6 rpm\n  feed: 0.3 mm/rev\n  coolant: oil\n"
    ).ran[0]
    assert derived(run) == {
        "cutting speed": "25.0 m/min",
        "feed a minute": "188 mm/min",
        "removal rate": "23.81 cm^3/min",  # π × 12.7² × 0.3 × 626.6 / 4000
    }


def test_a_depth_read_off_the_diameter_is_halved():
    run = good(JOURNAL.replace("0.2 mm\n  coolant", "0.4 mm off diameter\n  coolant")).ran[0]
    assert run.fields["depth of cut"].text == "0.4 mm off diameter"
    assert run.fields["depth of cut"].value.nominal == pytest.approx(0.2)
    assert run.notes == ("depth of cut was read off the diameter: half of it is radial",)
    assert derived(run)["removal rate"] == "0.73 cm^3/min"


def test_a_hand_feed_has_no_figures():
    run = good(
        "operation: turning\ndiameter: 10 mm\nran:\n  speed: 500 rpm\n  feed: by hand\n"
        "  depth of cut: 1 mm\n"
    ).ran[0]
    assert run.fields["feed"].value == "by hand"
    assert list(derived(run)) == ["cutting speed"]
    assert run.notes == ("fed by hand: no figures of the feed, and no removal rate",)


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        (
            "operation: turning\nran:\n  speed: 500 rpm\n",
            (
                "no diameter: no cutting speed",
                "no cutting speed and no feed and no depth of cut: no removal rate",
            ),
        ),
        (
            "operation: turning\nran:\n  cutting speed: 30 m/min\n  feed: 0.1 mm/rev\n"
            "  depth of cut: 1 mm\n",
            ("no diameter: no spindle speed", "no speed: no feed a minute"),
        ),
        (
            "operation: milling\ncutter diameter: 6 mm\nran:\n  speed: 500 rpm\n"
            "  feed: 0.1 mm/tooth\n  depth of cut: 1 mm\n  width of cut: 1 mm\n",
            ("no teeth: no table feed",),
        ),
        (
            "operation: filing\nran:\n  feed: by hand\n",
            (
                "no speed: no cutting speed",
                "fed by hand: no figures of the feed, and no removal rate",
                "no removal rate is known for `filing`",
            ),
        ),
        (
            "diameter: 6 mm\nran:\n  speed: 300 rpm\n",
            ("no operation: no removal rate",),
        ),
        (
            "operation: reaming\ndiameter: 6 mm\nran:\n  speed: 300 rpm\n  feed: 0.1 mm/rev\n",
            ("no removal rate is known for reaming",),
        ),
        (
            "operation: turning\ndiameter: 6 mm\nran:\n  speed: 300 rpm\n  feed: 0.1 mm/rev\n"
            "  depth of cut: 0 mm\n",
            ("a depth of cut of 0: no removal rate",),
        ),
        (
            "operation: turning\ndiameter: shaft.journal\nran:\n  speed: 300 rpm\n"
            "  feed: 0.1 mm/rev\n  depth of cut: 1 mm\n",
            ("diameter has limits: the figures are at its nominal size",),
        ),
        ("ran:\n  coolant: none\n", ()),
    ],
)
def test_what_is_missing_is_said(text, notes):
    assert good(text).ran[0].notes == notes


def test_speeds_that_disagree_are_a_problem_planned_and_a_caution_ran():
    text = "operation: turning\ndiameter: 10 mm\nplanned:\n  speed: 500 rpm\n"
    text += "  cutting speed: 30 m/min\n"
    told = "speed and cutting speed do not agree: 30.0 m/min at 10.000 mm is 955 rpm, not 500 rpm"
    hint = "(leave one of them out, or is the diameter another?)"
    assert lines(text) == [f"page.md:14:18: {told} {hint}"]
    ran = text.replace("planned", "ran")
    assert lines(ran) == [f"page.md:14:18: caution: {told} {hint}"]
    assert lines(text.replace("500 rpm", "970 rpm")) == []


def test_a_stepped_spindle_takes_the_step_below():
    report = setup(JOURNAL.replace("1180", "990"), SHOP)[0]
    assert derived(report.planned) == {
        "spindle speed": "1165 rpm",
        "step": "1000 rpm",
        "cutting speed at the step": "51.5 m/min",
        "feed a minute": "60 mm/min",  # at the step
        "removal rate": "0.62 cm^3/min",
    }
    assert report.planned.derived[1].note == (
        "1000 rpm, 51.5 m/min at 16.4 mm: the fastest step at or below the 1165 rpm asked."
    )


def test_below_the_slowest_step_is_a_caution_with_the_true_cutting_speed():
    report = good(
        "operation: turning\nmachine: bench lathe\ndiameter: 100 mm\n"
        "planned:\n  cutting speed: 20 m/min\n",
        SHOP,
    )
    assert report.planned.cautions[-1] == (
        "64 rpm is below the slowest step: it runs at 120 rpm, and cuts at 37.7 m/min,"
        " not 20.0 m/min"
    )


def test_a_speed_that_is_no_step_is_a_note():
    report = good(
        "operation: drilling\nmachine: bench lathe\ndiameter: 6 mm\n"
        "planned:\n  speed: 700 rpm\n  feed: by hand\n",
        SHOP,
    )
    assert "bench lathe has no step of 700 rpm: the next below is 600 rpm" in report.planned.notes


def test_beyond_the_greatest_speed_is_a_problem_planned_and_a_caution_ran():
    told = "1180 rpm is beyond the greatest speed of bench lathe, 1000 rpm"
    hint = "(its marking, the machine's manual and local rules decide)"
    assert lines(JOURNAL, SHOP) == [f"page.md:23:10: caution: {told} {hint}"]
    text = "machine: bench lathe\nplanned:\n  speed: 1180 rpm\n"
    assert lines(text, SHOP) == [f"page.md:12:10: {told} {hint}"]
    assert lines(text) == []


def test_beyond_the_end_of_a_range_is_found_from_the_cutting_speed():
    text = "operation: milling\nmachine: mill\ncutter diameter: 2 mm\n"
    text += "planned:\n  cutting speed: 30 m/min\n"
    assert lines(text, SHOP) == [
        "page.md:14:18: 4775 rpm is beyond the greatest speed of mill, 2500 rpm"
        " (its marking, the machine's manual and local rules decide)"
    ]


def test_below_a_range_is_a_caution():
    assert lines("machine: mill\nplanned:\n  speed: 50 rpm\n", SHOP) == [
        "page.md:12:10: caution: 50 rpm is below the slowest speed of mill, 100 rpm"
    ]


def test_beyond_the_marked_speed_of_a_chuck_is_a_problem():
    assert lines("holding: Small chuck, soft jaws\nplanned:\n  speed: 900 rpm\n", SHOP) == [
        "page.md:12:10: 900 rpm is beyond the marked speed of small chuck, 800 rpm"
        " (its marking, the machine's manual and local rules decide)"
    ]


def test_a_cut_wider_than_the_cutter_is_found():
    text = "operation: milling\ncutter: small end mill\nplanned:\n  width of cut: 8 mm\n"
    assert lines(text, SHOP) == [
        "page.md:13:17: a width of cut of 8.000 mm is more than the cutter, 6.000 mm"
    ]
    assert setup(text.replace("planned", "ran"), SHOP)[1][0].grade is Grade.CAUTION


def test_a_machine_is_found_in_the_profile_by_its_name():
    report = good("machine: Bench Lathe\n", SHOP)
    assert (report.fields["machine"].text, report.fields["machine"].value) == (
        "Bench Lathe",
        "bench lathe",
    )
    assert lines("machine: bench lath\n", SHOP) == [
        "page.md:10:10: caution: the shop profile has no machine `bench lath`"
        " (did you mean bench lathe?)"
    ]
    assert lines("machine: bench lath\n") == []


def test_the_dial_that_reads_the_diameter_is_told_of():
    report = setup(JOURNAL, SHOP)[0]
    assert report.planned.notes == (
        "depth of cut is radial; the dial of bench lathe reads diameter, and shows twice that",
    )


@pytest.mark.parametrize(
    ("text", "kind", "family"),
    [
        ("turning, finish", "", "turning"),
        ("Face milling", "", "milling"),
        ("slot drilling", "", "milling"),
        ("facing", "lathe", "turning"),
        ("facing", "mill", "milling"),
        ("screw cutting", "", "turning"),
        ("drilling and reaming", "", "drilling"),
    ],
)
def test_an_operation_belongs_to_a_family(text, kind, family):
    assert operation_of(text, kind).family == family


def test_an_operation_that_is_not_known_belongs_to_none():
    assert operation_of("filing") is None


# Hostile input


@pytest.mark.parametrize(
    "text",
    [
        "x" * 65_536,
        "diameter: " + "1" * 65_526,
        "diameter: " + "(" * 65_526,
        "remarks: " + "a, " * 21_000,
        "fault: " + "a, " * 21_000,
        "cutter: " + "a, " * 21_000,
        "operation: " + "turn " * 13_000,
        " " * 65_000 + "step: 1",
        "\t" * 65_000 + "step: 1",
        ":" * 65_536,
        "ran:\n  depth of cut: " + "off " * 16_000 + "off diameter",
    ],
)
def test_a_line_as_long_as_a_block_is_read_without_harm(text):
    report, problems = setup(text)
    assert report is not None
    assert len(problems) <= 2
    assert all(len(problem.message) < 300 for problem in problems)


def test_the_lines_of_a_block_are_bounded():
    found = lines("lubrication: oil\n" * 10_000)
    assert len(found) == 1001
    assert found[-1] == (
        "page.md:1010:1: a setup has 1000 lines at most, and this one has 10000;"
        " those from here on are not read"
    )


def test_signs_that_cannot_be_seen_are_shown_in_messages():
    assert lines("di\x00am\u202eeter: 1\n") == [
        "page.md:10:1: `di\\x00am\\u202eeter` is not a key of a setup (did you mean diameter?)"
    ]
    assert lines("diameter: 1\x00 mm\n") == ["page.md:10:12: an unprintable character"]


def test_html_is_a_text_like_any_other():
    field = good("remarks: <script>alert(1)</script>\n").fields["remarks"]
    assert (field.text, field.value) == ("<script>alert(1)</script>", None)


_KEY_TEXTS = st.sampled_from([*SETUP_KEYS, "feeed", "Date", ""])
_VALUE_TEXTS = st.one_of(
    st.text(max_size=20),
    st.sampled_from(
        "turning;milling;drilling;1e9 mm;0 mm;16 mm ±0.1;1e9 rpm;60 m/min;0.1 mm/rev;by hand;"
        "6 in/min;20 degC;5 %;1 mm off diameter;off diameter;bench lathe;mill;2".split(";")
    ),
)
_LINE_TEXTS = st.tuples(st.sampled_from(["", "  ", "\t"]), _KEY_TEXTS, _VALUE_TEXTS)


@given(st.lists(_LINE_TEXTS, max_size=12), st.sampled_from([None, SHOP]))
def test_every_block_is_read_and_every_problem_stands_in_it(parts, shop):
    texts = [f"{indent}{key}: {value}".replace("\n", " ") for indent, key, value in parts]
    _, problems = setup("\n".join(texts), shop)
    assert all(10 <= problem.place.line < 10 + max(1, len(texts)) for problem in problems)
    assert all(1 <= one.place.column <= len(one.place.source) + 1 for one in problems)
