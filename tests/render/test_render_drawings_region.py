"""A setup over speed and feed: its bounds, steps and runs, read back from what is drawn."""

import re
from math import isclose, log
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults
from shapely.geometry import Point, Polygon

from shoplog.find.record import Figures, Record
from shoplog.log import read_log, report_of_text
from shoplog.render import PageHtml
from shoplog.render.pictures.region import draw_region
from shoplog.render.pictures.region_plot import Spot
from shoplog.render.setup_region import past_seen_from
from shoplog.trade.judging.judging import judged_cut
from shoplog.trade.judging.judging_region import region_of

MILLED = judged_cut(
    "slot milling", "mild steel", "HSS", spindle_speed=900.0, feed_per_tooth=0.03,
    depth_of_cut=3.0, cutter_diameter=10.0, teeth=4.0, stick_out=30.0, tolerance=0.08,
    direction="conventional", power=0.4, drive_force=800.0,
    spindle_steps=[200.0, 400.0, 900.0, 1600.0],
)  # fmt: skip
TURNED = judged_cut(
    "turning, rough", "C45", "HSS", spindle_speed=290.0, feed_per_rev=0.3, depth_of_cut=1.5,
    diameter=25.0, nose_radius=0.4, power=0.5,
)  # fmt: skip


class Region(Drawn):
    """A region drawn from its own numbers, not from a page's value."""

    def __init__(self, region, spots):
        self.html = str(draw_region(region, spots, "drawing-1"))
        self.svg = ElementTree.fromstring(re.search(r"<svg.*</svg>", self.html, re.DOTALL)[0])


def upright(told):
    return told.wide < 0.05 < told.tall


def level(told):
    return told.tall < 0.05 < told.wide


def test_each_bound_lies_where_its_number_says_over_scales_of_equal_ratios():
    drawn = Drawn(MILLED)
    region = region_of(MILLED)
    steps = {told.value: told.left for told in drawn.all("step")}
    scale = (steps[1600.0] - steps[200.0]) / log(1600 / 200)
    by_name = {bound.limit.what: bound for bound in region.bounds}
    for name in ("cutting_speed", "least_cutting_speed", "spindle_speed"):
        told, bound = drawn.told(name), by_name[name.replace("_", " ")]
        assert upright(told)
        expected = steps[200.0] + scale * log(bound.speed_at(0.03) / 200)
        assert isclose(told.left, expected, abs_tol=0.05)
    tall = drawn.told("feed").top - drawn.told("least_feed").top
    apart = log(by_name["feed"].feed_at(900) / by_name["least feed"].feed_at(900))
    for name in ("chip_thickness", "bending"):
        told, bound = drawn.told(name), by_name[name.replace("_", " ")]
        assert level(told)
        up = log(bound.feed_at(900) / by_name["least feed"].feed_at(900)) * tall / apart
        assert isclose(told.top, drawn.told("least_feed").top + up, abs_tol=0.1)


def test_power_falls_as_a_straight_line_through_its_own_numbers():
    drawn, region = Drawn(MILLED), region_of(MILLED)
    (power,) = [bound for bound in region.bounds if bound.limit.what == "power"]
    told = drawn.told("power")
    assert (told.value, told.unit) == (0.4, "kW")
    steps = {one.value: one.left for one in drawn.all("step")}
    scale = (steps[1600.0] - steps[200.0]) / log(8)
    (x, y), (x2, y2) = told.points
    low = drawn.told("least_feed")
    up = (drawn.told("feed").top - low.top) / log(drawn.told("feed").value / low.value)
    for across, height in ((x, y), (x2, y2)):
        speed = 200 * 2.718281828459045 ** ((across - steps[200.0]) / scale)
        feed = low.value * 2.718281828459045 ** ((height - low.top) / up)
        assert power.share_at(speed, feed) == pytest.approx(100, rel=0.01)


def test_the_machine_s_steps_are_lines_with_their_speeds():
    drawn = Drawn(MILLED)
    assert [told.value for told in drawn.all("step")] == [200, 400, 900, 1600]
    assert all(upright(told) for told in drawn.all("step"))
    assert {"200", "400", "900", "1600", "rpm", "mm/tooth", "thou/tooth"} <= set(drawn.words)
    assert not Drawn(TURNED).tells("step")


def test_each_system_has_its_own_scale_of_feeds_and_one_may_be_shown_alone():
    drawn = Drawn(MILLED)
    metric = {"mm/tooth", "0.005", "0.01", "0.02", "0.05", "0.1"}
    inch = {"thou/tooth", "0.5", "1", "2", "5"}
    assert metric | inch <= set(drawn.words)
    assert drawn.others == []
    assert metric < set(drawn.words_in("mm"))
    assert not inch & set(drawn.words_in("mm"))
    assert inch < set(drawn.words_in("inch"))
    assert not metric & set(drawn.words_in("inch"))
    for words in (drawn.words_in("mm"), drawn.words_in("inch")):
        assert {"rpm", "200", "1600", "the cut"} <= set(words)


def test_what_is_tinted_holds_and_what_is_not_does_not():
    drawn, region = Drawn(MILLED), region_of(MILLED)
    (tinted,) = drawn.of_class("shoplog-tint")
    polygon = Polygon(
        [tuple(map(float, at)) for at in re.findall(r"([\d.]+),([\d.]+)", tinted.get("d"))]
    )
    steps = {one.value: one.left for one in drawn.all("step")}
    scale = (steps[1600.0] - steps[200.0]) / log(8)
    low = drawn.told("least_feed")
    up = (drawn.told("feed").top - low.top) / log(drawn.told("feed").value / low.value)
    seen = set()
    for speed in (180, 260, 500, 850, 1100, 1300, 1550):
        for feed in (0.004, 0.008, 0.015, 0.022, 0.03, 0.05, 0.065):
            place = Point(
                steps[200.0] + scale * log(speed / 200), low.top + up * log(feed / low.value)
            )
            if polygon.exterior.distance(place) > 1:
                holds = region.holds(speed, feed)
                assert polygon.contains(place) == holds
                seen.add(holds)
    assert seen == {True, False}


def test_the_key_gives_each_bound_in_both_systems_under_its_letter():
    drawn = Drawn(MILLED)
    rows = {row[0].partition(": ")[2]: row[1:] for row in drawn.key}
    assert rows["power"] == ("at most 400 W", "at most 0.54 hp")
    assert rows["spindle speed"] == ("at most 1600 rpm",)
    assert rows["bending"] == ("at most 80 µm", "at most 3.1 thou")
    assert rows["chip thickness"] == ("at least 5 µm", "at least 0.2 thou")
    in_two = [row for row in drawn.key if len(row) == 3]
    for opening in ('<span class="shoplog-mm">', '<small class="shoplog-inch">'):
        assert drawn.html.count(f"{opening}at ") == len(in_two) == 9
    letters = [row[0].partition(":")[0] for row in drawn.key]
    assert letters == sorted(letters)
    assert set(letters) <= set(drawn.words)


def test_planned_ran_and_past_stand_at_their_speed_and_feed_by_shape_and_word():
    region = region_of(MILLED)
    spots = [
        Spot("planned", 900, 0.03),
        Spot("ran", 400, 0.05, "good"),
        Spot("past", 1600, 0.02, "poor"),
        Spot("past", 700, 0.012, "usable"),
        Spot("past", 650, 0.012, "usable"),
    ]
    drawn = Region(region, spots)
    steps = {one.value: one.left for one in drawn.all("step")}
    assert drawn.told("planned_feed").points[0][0] == pytest.approx(steps[900.0], abs=0.02)
    ran, (poor, *usable) = drawn.told("ran_feed"), drawn.all("past_feed")
    assert (ran.left + ran.right) / 2 == pytest.approx(steps[400.0], abs=0.02)
    assert (poor.left + poor.right) / 2 == pytest.approx(steps[1600.0], abs=0.02)
    assert [one.value for one in usable] == [0.012, 0.012]
    shapes = [re.sub(r"[\d.,-]+", "#", one.element.get("d")) for one in (ran, poor, usable[0])]
    assert len(set(shapes)) == 3
    assert {"planned", "ran"} <= set(drawn.words)
    assert drawn.key[-3:] == [("● good", "ran"), ("✕ poor", "past"), ("◇ usable", "past, 2 times")]
    assert "planned at 900 rpm and 0.03 mm/tooth: " in drawn.html
    assert "ran at 400 rpm and 0.05 mm/tooth, good: not within all of them." in drawn.html
    assert faults(drawn) == []


def test_a_run_far_off_is_told_and_not_drawn_and_one_of_another_depth_is_told():
    spots = [Spot("planned", 900, 0.03), Spot("ran", 90000, 0.03, "poor", other_depth=True)]
    drawn = Region(region_of(MILLED), spots)
    assert not drawn.tells("ran_feed")
    assert "Out of the picture: ran." in drawn.html
    assert "At another depth of cut than the limits are drawn for: ran." in drawn.html


@pytest.mark.parametrize("cut", [MILLED, TURNED], ids=["milled", "turned"])
def test_no_words_meet_and_nothing_leaves_the_frame(cut):
    drawn = Drawn(cut)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES + 1000  # with a row for each of ten bounds


@settings(deadline=None, max_examples=60)
@given(
    st.floats(0.1, 1e6),
    st.floats(1e-4, 5),
    st.floats(0.01, 20),
    st.floats(0.001, 1000),
    st.lists(st.floats(0.1, 1e6), max_size=30),
)
def test_any_cut_is_drawn_without_a_fault(speed, feed, depth, power, steps):
    cut = judged_cut(
        "turning, finish", "C45", "HSS", spindle_speed=speed, feed_per_rev=feed,
        depth_of_cut=depth, diameter=45.0, nose_radius=0.4, power=power, wanted_ra=1.6,
        tolerance=0.02, length=80.0, holding="chuck", spindle_steps=steps or None,
    )  # fmt: skip
    drawn = Drawn(cut)
    assert "<svg" in drawn.html
    assert [fault for fault in faults(drawn) if "meets" not in fault] == []


# ---- on the card of a setup ---------------------------------------------------------------------

SHOP = """\
machines:
  - name: bench lathe
    kind: lathe
    speeds: 180 rpm, 290 rpm, 460 rpm, 740 rpm, 1180 rpm
    power: 0.75 kW
"""
CARD = """\
# Spigot

```setup
operation: turning, finish
material: free-cutting steel
cutter: turning tool, HSS, nose radius 0.4 mm
machine: bench lathe
diameter: 16 mm
planned:
  speed: 740 rpm
  feed: 0.1 mm/rev
  depth of cut: 0.25 mm
ran:
  speed: 460 rpm
  feed: {feed}
  depth of cut: 0.2 mm
outcome: {outcome}
```
"""


def card(feed="0.08 mm/rev", outcome="good", past=None):
    log = read_log({"spigot.md": CARD.format(feed=feed, outcome=outcome)}, shop_profile=SHOP)
    return PageHtml(log.pages["spigot.md"], None, past).block_html(0)


def test_a_card_shows_the_setup_among_its_limits_in_a_closed_part():
    html = card()
    (part,) = re.findall(r"<details[^>]*><summary>What it can bear.*?</details>", html, re.DOTALL)
    assert part.startswith('<details class="shoplog-details" data-search-exclude>')
    assert 'data-shows="planned_feed" data-value="0.1"' in part
    assert 'data-shows="ran_feed" data-value="0.08"' in part
    assert "At another depth of cut than the limits are drawn for: ran." in part
    assert len(part) < MOST_BYTES


def test_a_setup_that_cannot_be_judged_has_no_such_part():
    html = PageHtml(report_of_text("```setup\noperation: turning\n```\n")).block_html(0)
    assert "What it can bear" not in html


@pytest.mark.parametrize("fault", [OverflowError("too large"), ValueError("nan is no place")])
def test_a_card_stands_where_its_picture_cannot_be_drawn(monkeypatch, fault):
    def broken(*_):
        raise fault

    monkeypatch.setattr("shoplog.render.setup_card.setup_region", broken)
    html = card()
    assert "what gives way first, planned" in html
    assert "What it can bear" not in html


def test_a_run_by_hand_is_left_out_and_the_plan_is_shown():
    html = card(feed="by hand")
    assert 'data-shows="planned_feed"' in html
    assert 'data-shows="ran_feed"' not in html


def record(page, outcome="good", **changes):
    figures = Figures(spindle_speed_rpm=500.0, cutting_speed_m_per_min=30.0, feed_per_rev_mm=0.12)
    given = {
        "page": page, "anchor": "setup", "outcome": outcome, "ran": figures,
        "operation_kind": "turning", "material_group": "free-cutting steel",
        "cutter_kind": "turning tool", "date": "2026-01-01",
    }  # fmt: skip
    return Record(**{**given, **changes})


def test_earlier_setups_of_the_same_kind_stand_in_the_picture_at_their_cutting_speed():
    records = [record("spigot.md"), record("bush.md", "poor"), record("b.md", material_group="x")]
    html = card(past=past_seen_from(records)("spigot.md"))
    assert html.count('data-shows="past_feed" data-value="0.12"') == 1
    assert "✕ poor" in html
    assert "Past setups stand at their cutting speed, at whatever depth they were cut." in html


def test_private_setups_those_that_never_ran_and_those_of_no_known_kind_are_not_shown():
    others = (
        record("private.md", private=True),
        record("plan.md", ran=None),
        record("odd.md", cutter_kind=""),
    )
    near = past_seen_from([record("spigot.md"), *others])("spigot.md")
    assert near("setup") == []


def test_what_is_not_known_sees_nothing_and_the_newest_come_first():
    seen_from = past_seen_from(
        [record("a.md"), *(record(f"{day}.md", date=f"2026-02-{day:02}") for day in range(1, 29))]
        + [record(f"more-{n}.md") for n in range(30)]
    )
    assert seen_from("elsewhere.md")("setup") == []
    near = seen_from("a.md")("setup")
    assert len(near) == 40
    assert [each.date for each in near[:2]] == ["2026-02-28", "2026-02-27"]
