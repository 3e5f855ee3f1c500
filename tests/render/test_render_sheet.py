"""The bench sheet: what is on it, and what comes back from its boxes."""

import re
from html.parser import HTMLParser

import pytest

from shoplog.find.whole import work_out_log
from shoplog.log import read_log
from shoplog.render.sheet.fill import boxes_of, filled, mistake_in
from shoplog.render.sheet.gather import sheet_of
from shoplog.render.sheet.layout import PAPERS, sheets_html

SHOP = """name: Saltmarsh Lane workshop
machines:
  - name: bench lathe
    kind: lathe
    speeds: 110 rpm, 290 rpm, 460 rpm
    dial reads: diameter
    dial division: 0.02 mm
"""
PAGE = """---
part: bush
made: 2
date: 2026-02-14
---

# Bush of [=bore.nominal]

```calc
bore  = 16 mm H7        # reamed after pressing
width = 3/4 in ±0.002
angle = 30 deg
screw = thread("M8x1.25-6H")
hole  = tap_drill(screw)
pin   = 16 mm f7
mate bore with pin
check width > 15 mm
draw bore
```

```setup
step: 2
operation: turning, finish
feature: outside
material: leaded bronze
cutter: turning tool, HSS
machine: bench lathe
holding: three-jaw chuck
diameter: 24 mm
planned:
  cutting speed: 30 m/min
  feed: 0.05 mm/rev
  depth of cut: 0.2 mm
```

```setup
step: 1
operation: facing
material: leaded bronze
machine: bench lathe
ran:
  speed: 290 rpm
  feed: by hand
outcome: usable
private: yes
```
"""


@pytest.fixture(scope="module")
def sheet():
    log = read_log({"winch/bush.md": PAGE}, shop_profile=SHOP)
    assert [one.text for one in log.problems if one.grade == "problem"] == []
    return sheet_of(log.pages["winch/bush.md"], log.shop)


class _Words(HTMLParser):
    def __init__(self):
        super().__init__()
        self.words = []

    def handle_data(self, data):
        self.words.append(data)


def words(html):
    parser = _Words()
    parser.feed(html.partition("<body")[2])
    return " ".join(" ".join(parser.words).split())


def test_sizes_have_limits_in_both_systems_and_a_box_for_each_piece(sheet):
    assert [
        (size.name, size.shown.metric, size.shown.inch, size.boxes) for size in sheet.sizes
    ] == [
        ("bore", "16.000 to 16.018 mm", "0.6299 to 0.6306 in", 2),
        ("width", "18.999 to 19.101 mm", "0.7480 to 0.7520 in", 2),
        ("pin", "15.966 to 15.984 mm", "0.6286 to 0.6293 in", 2),
    ]
    assert sheets_html([sheet], "A4").count('<td class="shoplog-box">') == 6 + 2 * 4


def test_the_work_stands_in_the_order_of_its_steps(sheet):
    assert [(work.step, work.operation, work.planned) for work in sheet.work] == [
        ("1", "facing", False),
        ("2", "turning, finish", True),
    ]


def test_a_setup_says_the_step_to_take_and_what_the_dial_shows(sheet):
    figures = {figure.label: figure for figure in sheet.work[1].figures}
    assert figures["speed"].own == "290 rpm"
    assert figures["depth of cut"].after == "dial 0.400 mm, 20 divisions"
    assert (figures["feed"].own, figures["feed"].other) == ("0.050 mm/rev", "0.0020 in/rev")


def test_the_author_s_own_sheet_holds_what_is_kept_private_on_the_site(sheet):
    assert sheet.work[0].outcome == "usable"


def test_tools_are_laid_out_by_their_size(sheet):
    assert sheet.tools == (
        "turning tool, HSS",
        "drill 6.8 mm (0.2677 in)",
        "tap M8-6H",
        "three-jaw chuck",
    )


INCH = """# Handle

```calc
rod = 5/8 in ±0.002
knob_stock = 1-1/4 in        # round bar
spot = drill("5/16")
```

```setup
operation: turning, rough
material: mild steel
cutter: Knife
drill: #7
holding: three-jaw chuck
stick-out: 1-3/8 in
diameter: 1-1/4 in
length: 2 * 0.5 in
planned:
  speed: 290 rpm
  feed: 0.004 in/rev
  depth of cut: 1/32 in
```

```setup
operation: drilling
material: mild steel
cutter: drill, HSS, diameter 5/8 in
diameter: rod
drill: the long one
planned:
  feed: 0.1 mm/rev
```
"""
INCH_SHOP = f"{SHOP}cutters:\n  knife: turning tool, HSS, nose radius 1/64 in\n"


@pytest.fixture(scope="module")
def inch_sheet():
    log = read_log({"handle.md": INCH}, shop_profile=INCH_SHOP)
    assert [one.text for one in log.problems if one.grade == "problem"] == []
    return sheet_of(log.pages["handle.md"], log.shop)


def test_a_size_that_was_written_as_a_fraction_stays_one(inch_sheet):
    text = words(sheets_html([inch_sheet], "A4"))
    assert "rod 5/8 in ±0.002 15.926 mm 15.824 mm 0.6270 in 0.6230 in" in text
    assert "knob stock 1-1/4 in (1.2500 in, 31.750 mm) round bar" in text
    assert "0.625 in" not in text


def test_drills_are_laid_out_by_what_stands_on_them_and_by_their_size(inch_sheet):
    assert inch_sheet.tools == (
        "knife: turning tool, HSS, nose radius 1/64 in",
        "drill #7 (0.2010 in, 5.105 mm)",
        "drill, HSS, diameter 5/8 in",
        "drill the long one",
        "drill 5/16 in (0.3125 in, 7.938 mm)",
        "three-jaw chuck",
    )


def test_what_a_setup_begins_from_stands_as_it_was_written_or_as_what_it_comes_to(inch_sheet):
    turning, drilling = (dict(work.places) for work in inch_sheet.work)
    assert turning == {
        "cutter": "Knife",
        "holding": "three-jaw chuck",
        "drill": "#7",
        "stick-out": "1-3/8 in (34.925 mm)",
        "diameter": "1-1/4 in (31.750 mm)",
        "length": "1.0000 in (25.400 mm)",
    }
    assert drilling["diameter"] == ("5/8 in ±0.002: 0.6230 to 0.6270 in (15.824 to 15.926 mm)")


def test_a_fraction_to_be_set_has_its_decimal_for_the_dial(inch_sheet):
    figures = {figure.label: figure for figure in inch_sheet.work[0].figures}
    depth, feed = figures["depth of cut"], figures["feed a minute"]
    assert (depth.own, depth.other) == ("1/32 in", "0.0312 in · 0.794 mm")
    assert (feed.own, feed.other) == ("1.2 in/min", "29 mm/min")


def test_mates_are_listed_and_checks_that_hold_are_counted(sheet):
    text = words(sheets_html([sheet], "A4"))
    assert "✓ bore with pin" in text
    assert "✓ 1 check holds" in text


def test_every_caution_stands_once(sheet):
    assert len(sheet.cautions) == len(set(sheet.cautions)) > 2
    html = sheets_html([sheet], "A4")
    assert all(words(html).count(" ".join(caution.split())) == 1 for caution in sheet.cautions)


def test_the_title_holds_its_values(sheet):
    assert "<h1>Bush of 16.000 mm</h1>" in sheets_html([sheet], "A4")


def test_the_sheet_defers_to_the_machine_and_names_its_page(sheet):
    text = words(sheets_html([sheet], "A4"))
    assert "The machine's manual, what is marked on chuck and cutter, and local rules come" in text
    assert text.endswith("winch/bush.md")


@pytest.mark.parametrize("paper", PAPERS)
def test_the_document_asks_for_its_paper_and_for_nothing_else(sheet, paper):
    html = sheets_html([sheet], paper)
    assert f"@page {{ size: {PAPERS[paper]}; }}" in html
    assert not re.search(r"<script|<link|<img|url\((?!#)|@import|https?://(?!www\.w3\.org)", html)


def test_a_page_with_a_problem_says_so_at_the_top():
    log = work_out_log({"a.md": "# A\n\n```calc\na = 3 mm ±0.1\ncheck a > 5 mm\n```\n"}).log
    html = sheets_html([sheet_of(log.pages["a.md"])], "A5")
    stop = "✗ This page has a problem: run shoplog check before anything is cut by this sheet."
    assert html.index(stop) < html.index("<h2>")
    assert "✗ a &gt; 5 mm no" not in words(html)
    assert re.search(r"✗ a > 5 mm", words(html))


def test_what_a_page_says_cannot_become_part_of_the_document():
    evil = "<img src=x onerror=alert(1)>"
    text = (
        f'# {evil}\n\n```calc\na = 3 mm ±0.1 # {evil}\nconcession a because "{evil}"\n```\n\n'
        f"```setup\noperation: {evil}\ncutter: {evil}\nmachine: {evil}\n```\n"
    )
    log = read_log({"a.md": text}, shop_profile=f"name: '{evil}'\n")
    html = sheets_html([sheet_of(log.pages["a.md"], log.shop)], "A4", log.shop.name)
    assert "<img" not in html
    assert html.count("&lt;img src=x") >= 5


def test_a_page_without_anything_still_has_a_sheet():
    log = read_log({"a.md": "# Only words\n"})
    assert "<h1>Only words</h1>" in sheets_html([sheet_of(log.pages["a.md"])], "Letter")


def test_answers_become_lines_that_the_page_takes(sheet):
    boxes = {box.key: box for box in boxes_of(sheet)}
    answers = {
        boxes["bore 1"]: "16.009 mm ±0.003",
        boxes["2. turning, finish, speed"]: "290 rpm",
        boxes["2. turning, finish, outcome"]: "good",
    }
    assert filled(sheet, answers).splitlines() == [
        "```calc",
        "measured bore 1 = 16.009 mm ±0.003",
        "```",
        "",
        "into the setup at winch/bush.md:21 (turning, finish, outside):",
        "",
        "ran:",
        "  speed: 290 rpm",
        "outcome: good",
    ]
    assert PAGE.splitlines()[20] == "```setup"
    pasted = PAGE.replace("mate bore", "measured bore 1 = 16.009 mm ±0.003\nmate bore")
    pasted = pasted.replace(
        "  depth of cut: 0.2 mm\n", "  depth of cut: 0.2 mm\nran:\n  speed: 290 rpm\n"
    )
    log = read_log({"bush.md": pasted}, shop_profile=SHOP)
    assert [one.text for one in log.problems if one.grade == "problem"] == []


def test_blanks_that_are_not_written_over_are_a_problem_on_the_page(sheet):
    lines = filled(sheet, {})
    assert lines.startswith("```calc\nmeasured bore 1 = …\n")
    log = read_log({"a.md": "```calc\nbore = 16 mm H7\nmeasured bore = …\n```\n"})
    assert log.counts.problems == 1


@pytest.mark.parametrize(
    ("key", "answer", "wrong"),
    [
        ("bore 1", "16.009 mm", ""),
        ("bore 1", "17 mm", ""),
        ("bore 1", "16.009", "reading"),
        ("bore 1", "16,009 mm", "comma"),
        ("2. turning, finish, speed", "290 rpm", ""),
        ("2. turning, finish, speed", "290 mm", "spindle speed"),
        ("2. turning, finish, outcome", "god", "one of good, usable, poor, spoiled"),
    ],
)
def test_an_answer_that_a_page_would_not_take_is_told(sheet, key, answer, wrong):
    box = next(box for box in boxes_of(sheet) if box.key == key)
    found = mistake_in(box, answer)
    assert bool(found) == bool(wrong)
    assert wrong in found


def test_another_run_has_its_own_outcome_where_the_page_has_one(sheet):
    boxes = {box.key: box for box in boxes_of(sheet)}
    answers = {boxes["1. facing, speed"]: "180 rpm", boxes["1. facing, outcome"]: "good"}
    lines = filled(sheet, answers).splitlines()
    assert lines[-3:] == ["ran:", "  speed: 180 rpm", "  outcome: good"]
    pasted = PAGE.replace("  feed: by hand\n", "  feed: by hand\n" + "\n".join(lines[-3:]) + "\n")
    log = read_log({"bush.md": pasted}, shop_profile=SHOP)
    assert [one.text for one in log.problems if one.grade == "problem"] == []


def test_the_boxes_of_a_batch_stand_below_each_size():
    log = read_log({"a.md": "---\nmade: 9\n---\n# A\n\n```calc\na = 3 mm ±0.1\n```\n"})
    html = sheets_html([sheet_of(log.pages["a.md"])], "A5")
    assert html.count('<span class="shoplog-box">') == 9
    assert '<td class="shoplog-box">' not in html
    assert "no. 1" not in html
    assert "paper of their own" not in html


def test_a_batch_that_has_no_room_on_the_sheet_is_told_so():
    log = read_log({"a.md": "---\nmade: 20\n---\n# A\n\n```calc\na = 3 mm ±0.1\n```\n"})
    html = sheets_html([sheet_of(log.pages["a.md"])], "A5")
    assert html.count('<span class="shoplog-box">') == 12
    assert "Nos. 13 to 20 are written on paper of their own." in html


def test_a_sheet_names_its_page_within_the_log_wherever_it_was_made(sheet):
    log = read_log({"winch/bush.md": PAGE}, root="../../far/docs/")
    made = sheet_of(log.pages["winch/bush.md"], page="winch/bush.md")
    assert made.path == "../../far/docs/winch/bush.md"
    assert words(sheets_html([made], "A4")).endswith("winch/bush.md")
    assert "far" not in sheets_html([made], "A4")
