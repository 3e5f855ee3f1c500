"""Pages made of a log: machines, holders, cutters, instruments, materials and operations."""

import json
import logging
import re
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser
from math import inf, isclose, log10, nan, pi
from urllib.parse import parse_qs, unquote, urlsplit
from xml.etree import ElementTree

import markdown
import pytest
from hypothesis import given
from hypothesis import strategies as st
from mkdocs.commands.build import build
from mkdocs.config import load_config
from picture_reader import Drawn, faults

from shoplog.find.record import Figures, Record
from shoplog.find.whole import WholeLog, work_out_log
from shoplog.log.profile.shop import read_shop
from shoplog.outcomes import OUTCOMES
from shoplog.render.made_pages.band_chart import BandRow, Ran, band_chart
from shoplog.render.made_pages.made_text import Addresses, block, directory_link, title, words
from shoplog.render.made_pages.reference_cards import reference_pages
from shoplog.render.made_pages.setup_rows import MOST_LISTED, tally
from shoplog.render.made_pages.setups_page_columns import FACETS
from shoplog.render.made_pages.step_chart import step_chart
from shoplog.trade.machining.cutting_data import cutting_range
from shoplog.trade.materials import material

SHOP = """\
name: Saltmarsh Lane
machines:
  - name: bench lathe
    kind: lathe
    speeds: {slow belt: 110 rpm, fast belt: 460 rpm}
    dial reads: diameter
  - name: bench mill
    kind: mill
    speeds: 160 rpm to 1600 rpm
chucks:
  - name: three-jaw chuck
    marked speed: 2500 rpm
  - name: old chuck
cutters:
  right-hand knife: turning tool, HSS, nose radius 0.4 mm
  end mill 10: end mill, HSS, diameter 10 mm, 4 teeth
instruments:
  - name: small micrometer
    kind: micrometer
    range: 0 mm to 25 mm
    error: 3 um
taps: M6, M8
drills: metric
"""
SHAFT = """---
part: shaft
---

# Drum shaft

```setup
date: 2026-03-14
operation: turning, finish
feature: journal
material: C45
cutter: right-hand knife
machine: bench lathe
holding: three-jaw chuck, tailstock
diameter: 20 mm
ran:
  speed: 460 rpm
  feed: 0.1 mm/rev
  depth of cut: 0.25 mm
ran:
  speed: 110 rpm
  feed: 0.004 in/rev
  depth of cut: 0.5 mm
  outcome: poor
  fault: chatter
outcome: good
```

```setup
date: 2026-03-15
operation: slot milling
feature: keyway
material: 1.0503
cutter: end mill 10
machine: bench mill
length: 30 mm
planned:
  speed: 600 rpm
  feed: 48 mm/min
  depth of cut: 2 mm
  width of cut: 10 mm
```

```setup
date: 2026-03-16
operation: turning
material: C45
cutter: right-hand knife
machine: bench lathe
diameter: 30 mm
private: yes
remarks: wellhidden
ran:
  speed: 460 rpm
  feed: 0.1 mm/rev
outcome: spoiled
```
"""
BUSH = """# Bush

```setup
date: 2025-11-02
operation: engraving
material: unobtainium
ran:
  speed: 900 rpm
outcome: usable
```

```setup
operation: turning
material: ISO N
cutter: turning tool, carbide
diameter: 1 in
ran:
  cutting speed: 300 ft/min
  feed: 0.1 mm/rev
outcome: good
```
"""
PAGES = {"log/shaft.md": SHAFT, "log/bush.md": BUSH}


def whole(shop=SHOP, **pages):
    return work_out_log({**PAGES, **pages}, shop_profile=shop)


@pytest.fixture(scope="module")
def made():
    return reference_pages(whole())


class Reader(HTMLParser):
    """The cells of a page's tables, its links, and its elements."""

    def __init__(self, html):
        super().__init__()
        self.rows, self.links, self.tags, self.headings = [], [], [], []
        self.inside, self.attributes = [], []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += attrs
        if tag not in ("br", "input", "img", "link", "meta", "hr"):
            self.inside.append(tag)
        if tag == "tr":
            self.rows.append([])
        elif tag in ("th", "td"):
            self.rows[-1].append("")
        elif tag in ("h1", "h2"):
            self.headings.append("")
        elif tag == "a":
            self.links.append(dict(attrs).get("href", ""))

    def handle_endtag(self, tag):
        assert self.inside.pop() == tag

    def handle_data(self, data):
        if {"th", "td"} & set(self.inside):
            self.rows[-1][-1] += data
        elif {"h1", "h2"} & set(self.inside):
            self.headings[-1] += data

    @property
    def cells(self):
        return [[" ".join(cell.split()) for cell in row] for row in self.rows]


def shown(text):
    """A made page as a host with the demo's extensions shows it."""
    extensions = ["tables", "toc", "attr_list", "md_in_html", "footnotes", "pymdownx.superfences"]
    return markdown.markdown(text, extensions=[*extensions, "shoplog"])


def read(text):
    return Reader(shown(text))


def plain_words(text):
    """The sentences of a page, without its tables and pictures."""
    return unescape(re.sub(r"<div.*?</div>\n", "", text))


class Chart(Drawn):
    def __init__(self, html):
        self.html = str(html)
        svg = re.search(r"<svg.*</svg>", self.html, re.DOTALL)[0]
        self.svg = ElementTree.fromstring(svg)


# ---- which pages there are ----


def test_a_log_gets_a_page_for_each_thing_of_the_shop_and_each_thing_it_met(made):
    assert sorted(made) == [
        "materials/aluminium-group.md",
        "materials/c45.md",
        "materials/index.md",
        "operations/index.md",
        "operations/slot-milling.md",
        "operations/turning.md",
        "shop/bench-lathe.md",
        "shop/bench-mill.md",
        "shop/end-mill-10.md",
        "shop/index.md",
        "shop/old-chuck.md",
        "shop/right-hand-knife.md",
        "shop/small-micrometer.md",
        "shop/three-jaw-chuck.md",
    ]


def test_a_log_with_no_setup_and_no_shop_gets_no_page():
    assert reference_pages(work_out_log({"index.md": "# Home\n"})) == {}


def test_without_a_shop_profile_there_are_the_materials_and_operations_only():
    pages = reference_pages(work_out_log(PAGES))
    assert {uri.partition("/")[0] for uri in pages} == {"materials", "operations"}


def test_a_shop_that_ran_nothing_yet_has_its_pages_all_the_same():
    pages = reference_pages(work_out_log({}, shop_profile=SHOP))
    assert "Lathe with 2 speeds, 110 to 460 rpm. No setup yet.\n" in pages["shop/bench-lathe.md"]
    assert "## Setups" not in pages["shop/bench-lathe.md"]
    assert "materials/index.md" not in pages


def test_no_page_says_anything_of_a_setup_that_is_kept_private(made):
    assert "wellhidden" not in "".join(made.values())
    assert "2026-03-16" not in "".join(made.values())
    assert "spoiled" not in plain_words(made["shop/bench-lathe.md"])


def test_a_page_of_the_author_is_left_where_it_stands():
    pages = reference_pages(
        whole(**{"shop.md": "# Mine", "materials/C45.md": "# Mine", "operations/README.md": "# M"})
    )
    assert "shop/index.md" not in pages
    assert "operations/index.md" not in pages
    assert "materials/c45-2.md" in pages
    assert "materials/c45.md" not in pages
    assert not set(pages) & set(PAGES)


def test_names_that_make_the_same_address_get_addresses_of_their_own_in_order():
    places = Addresses([])
    names = ("10 mm", "10-mm!", "Index", "ReadMe", "", "ø★", "a" * 200, "a" * 199, "../../etc")
    given_ = [places.give("shop", name, "cutter") for name in names]
    assert given_ == [
        "shop/10-mm.md",
        "shop/10-mm-2.md",
        "shop/index-2.md",
        "shop/readme.md",
        "shop/cutter.md",
        "shop/cutter-2.md",
        f"shop/{'a' * 60}.md",
        f"shop/{'a' * 60}-2.md",
        "shop/etc.md",
    ]


# ---- what a page says ----


def test_a_setup_whose_outcome_is_told_without_its_run_counts_by_its_outcome():
    told, planned = Record(anchor="a", outcome="poor"), Record(anchor="b")
    assert tally([told, planned]) == "2 setups: 1 poor and 1 planned that has not run"


def test_the_runs_are_counted_where_one_setup_ran_twice_whatever_others_did():
    twice = [Record(anchor="a", run=run, outcome="good") for run in (1, 2)]
    planned = [Record(anchor=anchor, run=0) for anchor in "bc"]
    assert tally([*twice, *planned]) == (
        "3 setups, run 2 times: 2 good and 2 planned that have not run"
    )


def test_a_machine_is_told_in_a_sentence_with_how_its_setups_went(made):
    text = plain_words(made["shop/bench-lathe.md"])
    assert text.splitlines()[:3] == [
        "# bench lathe",
        "",
        "Lathe with 2 speeds, 110 to 460 rpm. 1 setup, run 2 times: 1 good and 1 poor,"
        " on 2026-03-14.",
    ]
    mill = plain_words(made["shop/bench-mill.md"])
    assert "Mill, 160 to 1600 rpm. 1 setup: 1 planned that has not run, on 2026-03-15." in mill


def test_the_facts_of_a_machine_stand_in_a_table(made):
    cells = read(made["shop/bench-lathe.md"]).cells
    assert ["speeds", "110 rpm (slow belt), 460 rpm (fast belt)"] in cells
    assert ["dial reads", "diameter"] in cells


def test_a_machine_and_an_unmarked_chuck_carry_their_caution_and_a_marked_chuck_none(made):
    assert "manual" in made["shop/bench-lathe.md"]
    assert "no marked speed is known" in made["shop/old-chuck.md"]
    assert "shoplog-caution" not in made["shop/three-jaw-chuck.md"]
    assert "Chuck, marked 2500 rpm. 1 setup" in made["shop/three-jaw-chuck.md"]


def test_an_instrument_has_its_range_and_error_and_speaks_of_no_setups(made):
    page = made["shop/small-micrometer.md"]
    cells = read(page).cells
    assert ["error", "3 µm", "0.1 thou"] in cells
    assert ["range to", "25.000 mm", "0.9843 in"] in cells
    assert "setup" not in page.casefold()


def test_each_run_is_a_row_in_both_systems_with_its_outcome_in_a_sign_and_a_word(made):
    rows = [row for row in read(made["shop/bench-lathe.md"]).cells if row[0] in ("1", "2")]
    assert rows == [
        [
            *(
                "1",
                "2026-03-14",
                "turning, finishjournal, Drum shaft, run 2",
                "C45right-hand knife",
            ),
            "6.9 m/min (23 ft/min)110 rpm⌀ 20.000 mm (0.7874 in)",
            "0.102 mm/rev (0.0040 in/rev)depth 0.500 mm (0.0197 in)",
            "✗ poorchatter",
        ],
        [
            *("2", "2026-03-14", "turning, finishjournal, Drum shaft", "C45right-hand knife"),
            "28.9 m/min (95 ft/min)460 rpm⌀ 20.000 mm (0.7874 in)",
            "0.100 mm/rev (0.0039 in/rev)depth 0.250 mm (0.0098 in)",
            "✓ good",
        ],
    ]


def test_a_plan_says_that_it_has_not_run_and_a_mill_feeds_by_the_tooth(made):
    (row,) = [row for row in read(made["shop/end-mill-10.md"]).cells if row[0] == "1"]
    assert row[3] == "1.0503bench mill"
    assert (
        row[5]
        == "0.020 mm/tooth (0.0008 in/tooth)depth 2.000 mm (0.0787 in)width 10.000 mm (0.3937 in)"
    )
    assert row[6] == "– planned"


def test_a_row_leads_to_its_card_and_to_the_pages_of_what_it_names(made):
    links = read(made["shop/bench-lathe.md"]).links
    assert "../../log/shaft/#setup" in links
    assert "../../materials/c45/" in links
    assert "../right-hand-knife/" in links
    assert "../bench-lathe/" not in links


def test_the_cutting_speeds_of_the_steps_are_worked_out_at_each_diameter(made):
    rows = {row[0]: row[1:] for row in read(made["shop/bench-lathe.md"]).cells if "rpm" in row[0]}
    assert rows["460 rpm"][0] == "fast belt"
    assert rows["110 rpm"][-1] == "34.6 m/min (113 ft/min)"  # pi * 100 * 110 / 1000
    assert rows["460 rpm"][3] == "17.3 m/min (57 ft/min)"  # pi * 12 * 460 / 1000


def test_a_material_has_the_figures_of_its_row_in_both_systems(made):
    cells = {row[0]: row[1:] for row in read(made["materials/c45.md"]).cells if len(row) < 4}
    known = material("C45")
    assert cells["Number"] == ["1.0503"]
    assert cells["Density"] == [f"{known.density:g} kg/m³"]
    assert cells["Yield strength (least)"] == [f"{known.yield_least:g} MPa", "42100 psi"]
    assert cells["Hardness"] == ["160 to 210 HB"]
    assert cells["Cutting speeds are those of"] == ["medium-carbon steel"]
    assert "recalled, not read: hardness, poisson" in made["materials/c45.md"]
    assert "Callister" in made["materials/c45.md"]


def test_a_material_by_any_of_its_names_is_one_page(made):
    assert plain_words(made["materials/index.md"]).splitlines()[4:6] == [
        "- [aluminium (group)](aluminium-group.md) (ISO N): 1 setup: 1 good",
        "- [C45](c45.md) (1.0503): 2 setups, run 2 times: 1 good, 1 poor and 1 planned that has not"
        " run, from 2026-03-14 to 2026-03-15",
    ]


def test_what_no_table_knows_is_named_in_the_list_and_has_no_page(made):
    assert "- unobtainium: 1 setup: 1 usable, on 2025-11-02" in made["materials/index.md"]
    assert "- engraving: 1 setup: 1 usable, on 2025-11-02" in made["operations/index.md"]
    assert "unobtainium" not in "".join(made[uri] for uri in made if "index" not in uri)


def test_the_ranges_of_a_material_are_those_of_the_handbooks_with_what_went_well(made):
    cells = {row[0]: row[1:] for row in read(made["materials/c45.md"]).cells if len(row) == 4}
    cut = cutting_range("turning", "C45", "HSS")
    assert cells["turning with HSS"] == [
        f"{cut.speed_min:.1f} to {cut.speed_max:.1f} m/min (65 to 140 ft/min)",
        "0.076 to 0.508 mm/rev (0.003 to 0.02 in/rev)",
        "28.9 m/min (95 ft/min)1 good",
    ]
    assert cells["slot milling with HSS"][1:] == ["goes with the diameter", "none yet"]


def test_a_range_that_no_source_gives_says_why_in_its_place():
    text = SHAFT.replace("slot milling", "broaching").replace("end mill 10", "broach, ceramic")
    page = reference_pages(whole(**{"log/shaft.md": text}))["materials/c45.md"]
    cells = {row[0]: row[1:] for row in read(page).cells if len(row) == 4}
    assert cells["broaching with ceramic insert"] == [
        "no source gives broaching of medium-carbon steel with ceramic insert", "–", "none yet",
    ]  # fmt: skip


def test_an_operation_is_told_by_group_of_materials(made):
    cells = {row[0]: row[1:] for row in read(made["operations/turning.md"]).cells if len(row) == 4}
    assert set(cells) == {"Cut", "medium-carbon steel with HSS", "aluminium with indexable carbide"}
    assert cells["aluminium with indexable carbide"][2] == "91.4 m/min (300 ft/min)1 good"
    facts = read(made["operations/slot-milling.md"]).cells
    assert ["A kind of", "milling"] in facts
    assert ["Its feed is given", "by the tooth"] in facts


def test_a_search_reads_the_facts_and_not_the_tables_of_setups(made):
    page = made["shop/bench-lathe.md"]
    (setups,) = [line for line in page.splitlines() if "shoplog-setups" in line]
    (facts,) = [line for line in page.splitlines() if "shoplog-facts-table" in line]
    assert setups.startswith('<div class="shoplog-block shoplog-made" data-search-exclude>')
    assert "data-search-exclude" not in facts


def test_the_page_of_the_shop_lists_what_it_has_with_and_without_a_page(made):
    page = read(made["shop/index.md"])
    assert page.headings == [
        "Saltmarsh Lane", "Machines", "Chucks", "Cutters", "Instruments", "Taps and dies", "Drills",
    ]  # fmt: skip
    assert page.links == [
        "bench-lathe.md", "bench-mill.md", "three-jaw-chuck.md", "old-chuck.md",
        "right-hand-knife.md", "end-mill-10.md", "small-micrometer.md",
    ]  # fmt: skip


# ---- what is drawn ----


def scale_of_ticks(chart, unit, axis=0):
    """The picture's scale, read from its ticks: from a place to the number that stands there."""
    told = [one for one in chart.all("tick") if one.unit == unit]
    (low, *_, high) = sorted(told, key=lambda one: one.value)
    first, last = low.points[0][axis], high.points[0][axis]
    per = log10(high.value / low.value) / (last - first)
    return lambda place: low.value * 10 ** ((place - first) * per)


def middle(told):
    return (told.left + told.right) / 2


ROWS = (
    BandRow(
        "turning with HSS",
        (19.8, 42.7),
        (Ran(1, 25.0, "good"), Ran(2, 60.0, "poor"), Ran(3, 25.0, "usable"), Ran(4, 12.0, "")),
    ),
    BandRow("reaming with HSS", (10.7, 22.9), (Ran(5, 11.0, "spoiled"),)),
    BandRow("engraving", None, (Ran(6, 8.0, "good"),)),
)


def test_each_range_and_each_setup_stands_at_its_place_on_the_scale():
    chart = Chart(band_chart(ROWS, "drawing", "Speeds"))
    for unit, factor in (("m/min", 1.0), ("ft/min", 1000 / 304.8)):
        number_at = scale_of_ticks(chart, unit)
        for name in ("least", "most", "cutting speed"):
            for told in chart.all(name):
                assert isclose(number_at(middle(told)), told.value * factor, rel_tol=0.01), name
    assert [one.value for one in chart.all("least")] == [19.8, 10.7]
    assert [one.value for one in chart.all("most")] == [42.7, 22.9]
    assert sorted(one.value for one in chart.all("cutting speed")) == [8, 11, 12, 25, 25, 60]


def test_the_switch_leaves_one_scale_and_one_system_of_a_chart_of_ranges():
    chart = Chart(band_chart(ROWS, "drawing", "Speeds"))
    assert "19.8 to 42.7 m/min (65 to 140 ft/min)" in chart.words
    metric, inch = set(chart.words_in("mm")), set(chart.words_in("inch"))
    assert metric - inch == {
        "19.8 to 42.7 m/min", "10.7 to 22.9 m/min", "m/min", "10", "20",
    }  # fmt: skip
    assert inch - metric == {"65 to 140 ft/min", "35 to 75 ft/min", "ft/min", "100"}
    assert faults(chart) == []


def test_a_setup_stands_in_the_height_of_its_own_range():
    chart = Chart(band_chart(ROWS, "drawing", "Speeds"))
    tops = {one.value: (one.top, one.bottom) for one in chart.all("least")}
    heights = {one.value: one.top for one in chart.all("cutting speed")}
    assert tops[19.8][0] < heights[60.0] < tops[19.8][1]
    assert tops[10.7][0] < heights[11.0] < tops[10.7][1]


def test_each_outcome_has_a_shape_of_its_own_and_is_named_below():
    rows = [
        BandRow(
            "turning", (20, 40), tuple(Ran(n, 30.0, word) for n, word in enumerate(("", *OUTCOMES)))
        )
    ]
    chart = Chart(band_chart(rows, "drawing", "Speeds"))
    shapes = set()
    for told in chart.all("cutting speed"):
        d = told.element.get("d")
        x, y = middle(told), (told.top + told.bottom) / 2
        shapes.add((re.sub(r"[-\d.,]+", "", d), round(told.wide, 1)))
        assert x > 0 < y
    assert len(shapes) == 5
    for word in (*OUTCOMES, "not told", "handbook range"):
        assert word in chart.words


def test_setups_at_one_speed_stand_below_each_other_with_their_numbers():
    rows = [BandRow("turning", (20, 40), tuple(Ran(n, 30.0, "good") for n in range(1, 6)))]
    chart = Chart(band_chart(rows, "drawing", "Speeds"))
    assert len({one.top for one in chart.all("cutting speed")}) == 5
    assert {"1", "2", "3", "4", "5"} <= set(chart.words)
    assert faults(chart) == []


def test_the_picture_says_in_words_what_it_shows():
    chart = Chart(band_chart(ROWS, "drawing", "Speeds in C45"))
    title, said = (
        chart.svg.find(f"{{http://www.w3.org/2000/svg}}{name}") for name in ("title", "desc")
    )
    assert title.text == "Speeds in C45"
    assert said.text == (
        "turning with HSS: the range is 19.8 to 42.7 m/min (65 to 140 ft/min); 1 good at 25 m/min;"
        " 1 usable at 25 m/min; 1 poor at 60 m/min; 1 not told at 12 m/min."
        " reaming with HSS: the range is 10.7 to 22.9 m/min (35 to 75 ft/min); 1 spoiled at"
        " 11 m/min."
        " engraving: no range is known; 1 good at 8 m/min."
    )
    assert chart.svg.get("role") == "img"


@pytest.mark.parametrize(
    "rows",
    [
        [BandRow("", None, (Ran(1, 1e-300, "good"),))],
        [BandRow("a", (20.0, 20.0), (Ran(1, 1e300, "good"), Ran(2, 1e-9, "poor")))],
        [BandRow("a", (1.0, 999.0), tuple(Ran(n, 5e4, "spoiled") for n in range(200)))],
        [BandRow("W" * 200, (20.0, 40.0), ()), BandRow("b", (1e-3, 2e-3), ())],
        [
            BandRow(
                "a", None, (Ran(1, nan, "good"), Ran(2, inf, ""), Ran(3, 0.0, ""), Ran(4, -1.0, ""))
            )
        ],
    ],
)
def test_a_picture_of_odd_numbers_stays_within_its_frame(rows):
    assert faults(Chart(band_chart(rows, "drawing", "Speeds"))) == []


@given(
    st.lists(st.floats(allow_nan=True, allow_infinity=True), max_size=12),
    st.one_of(st.none(), st.tuples(st.floats(0.1, 100), st.floats(100, 5000))),
)
def test_any_speeds_are_drawn_within_the_frame(speeds, band):
    ran = tuple(Ran(n, speed, "good") for n, speed in enumerate(speeds, 1))
    assert faults(Chart(band_chart([BandRow("turning", band, ran)], "drawing", "Speeds"))) == []


def test_a_setup_absurdly_far_from_the_others_stands_at_the_edge_and_this_is_said():
    rows = [BandRow("turning", (20, 40), (Ran(1, 30.0, "good"), Ran(2, 1e8, "poor")))]
    chart = Chart(band_chart(rows, "drawing", "Speeds"))
    assert "1 setup beyond the scale stands at its edge." in unescape(chart.html)
    assert max(one.right for one in chart.all("least")) > 50


def test_a_speed_that_no_machine_has_is_not_drawn_and_this_is_said():
    rows = [BandRow("turning", (20, 40), (Ran(1, 30.0, "good"), Ran(2, 0.0, ""), Ran(3, nan, "")))]
    chart = Chart(band_chart(rows, "drawing", "Speeds"))
    assert "2 setups of no possible speed cannot be drawn." in unescape(chart.html)
    assert [one.value for one in chart.all("cutting speed")] == [30]


def test_each_step_of_a_spindle_is_a_line_of_its_cutting_speeds():
    machine = read_shop(SHOP)[0].machine("bench lathe")
    chart = Chart(step_chart(machine, "drawing"))
    diameter_at = scale_of_ticks(chart, "mm")
    speed_at = scale_of_ticks(chart, "m/min", axis=1)
    lines = chart.all("spindle speed")
    assert [one.value for one in lines] == [110, 460]
    for one in lines:
        for x, y in one.points:
            wanted = pi * diameter_at(x) * one.value / 1000
            assert isclose(speed_at(y), wanted, rel_tol=0.01)
    assert {"110", "460"} <= set(chart.words)


def test_the_lines_of_a_spindle_stand_over_either_system():
    chart = Chart(step_chart(read_shop(SHOP)[0].machine("bench lathe"), "drawing"))
    metric = {"m/min", "mm", "2", "5", "10", "20", "50", "100", "200"}
    inch = {"ft/min", "in", "1/8", "1/4", "1/2", "1", "2", "4", "10", "20", "50", "100", "200"}
    beside = {"110", "460", "rpm"}
    assert set(chart.words_in("mm")) == metric | beside
    assert set(chart.words_in("inch")) == inch | beside | {"500"}
    feet, metres = scale_of_ticks(chart, "ft/min", axis=1), scale_of_ticks(chart, "m/min", axis=1)
    inches, mm = scale_of_ticks(chart, "in"), scale_of_ticks(chart, "mm")
    assert feet(100) == pytest.approx(metres(100) / 0.3048, rel=1e-3)
    assert inches(100) == pytest.approx(mm(100) / 25.4, rel=1e-3)
    assert faults(chart) == []


@pytest.mark.parametrize(
    "speeds",
    [
        "110 rpm, 460 rpm", "160 rpm to 1600 rpm", "1 rpm to 90000 rpm", "1 rpm", "1000000 rpm",
        ", ".join(f"{100 + 10 * n} rpm" for n in range(100)),
    ],
)  # fmt: skip
def test_a_spindle_of_any_speeds_is_drawn_within_the_frame_or_not_at_all(speeds):
    shop, problems = read_shop(f"machines:\n  - name: m\n    speeds: {speeds}\n")
    assert problems == ()
    drawn = step_chart(shop.machine("m"), "drawing")
    assert (drawn is None) == (speeds in ("1 rpm", "1000000 rpm", "1 rpm to 90000 rpm"))
    assert drawn is None or faults(Chart(drawn)) == []


def test_a_machine_of_no_known_speeds_has_no_section_of_speeds():
    pages = reference_pages(work_out_log({}, shop_profile="machines: [shaper]\n"))
    assert read(pages["shop/shaper.md"]).headings == ["shaper", "What it is"]


# ---- nobody gets hurt by a page ----

HOSTILE = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "a | b || c",
    "[here](https://evil.example)",
    "![x](https://evil.example/x.png)",
    "www.evil.example and <https://evil.example>",
    "`code` **bold** _it_ ~~no~~ ==m== ^^i^^",
    "[=1+1]: x",
    "*[HSS]: words",
    "[^1]: foot",
    "{{ config }} {% include 'x' %} {# c #}",
    "{: #id .class onclick=alert(1) }",
    '![[x]] --8<-- "mkdocs.yml"',
    "# heading",
    "1. one",
    "- - -",
    "&lt;b&gt; &amp; &#60;i&#62;",
    "\" onmouseover=alert(1) x='",
    "\u202ereversed\u2066",
    "\x02wzxhzdk:0\x03",
    "a\\nb \\\\ \\*",
    "🛠️ 旋盤 ø½",
    "x" * 200,
    "</div></table></section><h1>out</h1>",
    "javascript:alert(1)",
    "$$x$$ \\(y\\) :smile: @user #123",
]


def hostile_log(name):
    quoted = json.dumps(name)
    shop = "\n".join(
        [
            f"name: {quoted}",
            f"machines:\n  - name: {quoted}\n    kind: {quoted}\n    speeds: 100 rpm, 300 rpm",
            f"    remarks: {quoted}",
            f"chucks:\n  - name: {quoted}",
            f"cutters:\n  {quoted}: {{kind: {quoted}, material: {quoted}}}",
            f"instruments:\n  - name: {quoted}\n    set with: {quoted}",
        ]
    )
    record = Record(
        page="log/x y(1).md", anchor="setup", run=1, date="2026-01-01", operation=name,
        operation_kind="turning", material=name, material_row="C45",
        material_group="medium-carbon steel", cutter=name, cutter_name=name,
        cutter_material=name, machine=name, holding=name, feature=name, title=name, outcome="good",
        fault=(name,), remarks=name, ran=Figures(cutting_speed_m_per_min=20.0),
    )  # fmt: skip
    unknown = replace(record, operation_kind=name, material_row="", material_group="", run=2)
    log = work_out_log({"log/x y(1).md": "# X\n"}, shop_profile=shop).log
    return WholeLog(log, (record, unknown))


@pytest.mark.parametrize("name", HOSTILE)
def test_no_name_is_read_as_markdown_or_html(name):
    pages = reference_pages(hostile_log(name))
    assert len([uri for uri in pages if uri.startswith("shop/")]) >= 5
    for uri, text in pages.items():
        page = read(text)
        harmless = {"script", "img", "iframe", "b", "em", "del", "code", "sup", "abbr", "pre", "h3"}
        assert not harmless & set(page.tags), uri
        assert page.tags.count("h1") == 1
        assert not [value for key, value in page.attributes if key.startswith("on")], uri
        assert [link for link in page.links if not safe(link)] == [], uri
        assert "[=" not in text
        assert "{{" not in text
        assert "{%" not in text


def safe(link):
    parts = urlsplit(link)
    return not parts.scheme and not parts.netloc and not link.startswith("//")


@pytest.mark.parametrize(
    "name", [one for one in HOSTILE if "\u202e" not in one and "\x02" not in one]
)
def test_a_name_is_shown_as_it_was_written(name):
    assert read(f"## a {words(name, 300)}\n").headings[0] == f"a {' '.join(name.split())}"
    alike = name.replace("<", "‹").replace(">", "›").replace('"', "″")
    assert read(f"{title(name)}\n").headings[0][:100] == " ".join(alike.split())[:100]


@given(st.text(max_size=60))
def test_any_text_stays_one_line_of_words(text):
    page = read(f"# a{words(text)}a\n\nlast\n")
    assert page.tags == ["h1", "p"]


@given(st.text(max_size=60))
def test_any_text_in_a_block_stays_in_its_element(text):
    from shoplog.render.html import tag

    made = block(tag("p", text, title=text))
    page = read(f"before\n\n{made}\n\nafter\n")
    assert page.tags == ["p", "div", "p", "p"]


def test_the_address_of_a_page_with_odd_letters_is_quoted():
    assert directory_link("shop/a.md", "log/x y(1)#?.md", "set up") == (
        "../../log/x%20y%281%29%23%3F/#set%20up"
    )
    assert directory_link("shop/index.md", "shop/a.md", "") == "a/"
    assert directory_link("shop/a.md", "shop/index.md", "") == "../"
    assert directory_link("shop/a.md", "index.md", "") == "../../"
    assert directory_link("shop/a.md", "README.md", "") == "../../"


# ---- many records ----


def many(number):
    day = "2020-01-01"
    one = work_out_log(PAGES, shop_profile=SHOP).records[0]
    return [replace(one, date=day, line=n, anchor=f"setup-{n}") for n in range(number)]


def test_ten_thousand_setups_make_no_page_of_megabytes():
    log = whole()
    pages = reference_pages(WholeLog(log.log, tuple(many(10_000))))
    assert max(map(len, pages.values())) < 200_000
    page = read(pages["shop/bench-lathe.md"])
    assert sum(row[0].isdigit() for row in page.cells) == MOST_LISTED
    assert "10000 setups: 10000 good, on 2020-01-01." in pages["shop/bench-lathe.md"]
    assert f"The newest {MOST_LISTED} of 10000." in pages["shop/bench-lathe.md"]


def test_the_newest_setups_are_those_that_are_listed():
    days = [f"2024-{1 + n // 28:02}-{1 + n % 28:02}" for n in range(60)]
    one = many(1)[0]
    records = tuple(replace(one, date=day, anchor=day) for day in days)
    page = read(reference_pages(WholeLog(whole().log, records))["shop/bench-lathe.md"])
    dates = [row[1] for row in page.cells if row[0].isdigit()]
    assert dates == sorted(days, reverse=True)[:MOST_LISTED]


def asked(text):
    (link,) = [one for one in read(text).links if "/setups/" in one]
    return link.partition("?")[0], parse_qs(urlsplit(link).query)


def test_a_page_leads_to_its_setups_among_all_by_what_the_page_of_setups_can_be_asked(made):
    facets = {facet.name: facet.text for facet in FACETS}
    assert asked(made["shop/bench-lathe.md"]) == ("../../setups/", {"machine": ["bench lathe"]})
    assert asked(made["operations/slot-milling.md"])[1] == {"operation": ["slot milling"]}
    assert asked(made["shop/right-hand-knife.md"])[1] == {"words": ["right-hand knife"]}
    assert asked(made["shop/three-jaw-chuck.md"])[1] == {"words": ["three-jaw chuck"]}
    assert asked(made["materials/c45.md"])[1] == {
        "words": ["C45"],
        "material": ["medium-carbon steel"],
    }
    assert facets["machine"] == "machine"
    assert facets["operation"] == "operation_kind"
    assert facets["material"] == "material_group"


def test_where_the_author_has_a_page_of_setups_no_page_leads_to_the_one_that_is_not_made():
    pages = reference_pages(whole(**{"setups.md": "# Mine"}))
    assert "/setups/" not in "".join(pages.values())


# ---- a site ----


@pytest.fixture(scope="module", params=[True, False], ids=["folders", "files"])
def site(request, tmp_path_factory):
    """A strict build; a warning of MkDocs fails it."""
    folder = tmp_path_factory.mktemp("log")
    (folder / "mkdocs.yml").write_text(
        "site_name: Log\ntheme: material\nplugins: [search, shoplog]\nstrict: true\n"
        f"use_directory_urls: {str(request.param).lower()}\n"
        "markdown_extensions: [attr_list, md_in_html, pymdownx.superfences]\n"
        "validation: {omitted_files: warn, not_found: warn, anchors: warn, absolute_links: warn,"
        " unrecognized_links: warn}\n",
        "utf-8",
    )
    (folder / "shop.yml").write_text(SHOP, "utf-8")
    for uri, text in {**PAGES, "index.md": "# Home\n", "log/my page (1).md": BUSH}.items():
        file = folder / "docs" / uri
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    build(load_config(str(folder / "mkdocs.yml")))
    return folder / "site"


def made_files(site):
    return [
        file
        for folder in ("shop", "materials", "operations")
        for file in sorted((site / folder).rglob("*.html"))
    ]


@pytest.mark.slow
def test_every_link_of_a_made_page_leads_to_a_file_and_an_element_that_are_there(site):
    files = made_files(site)
    followed = set()
    for file in files:
        html = file.read_text("utf-8")
        content = html[html.index("<article") : html.index("</article>")]
        for link in Reader(content).links:
            parts = urlsplit(link)
            target = (file.parent / unquote(parts.path)).resolve() if parts.path else file
            target = target / "index.html" if target.is_dir() else target
            assert target.is_file(), (file, link)
            if parts.fragment and not parts.fragment.startswith("__"):
                text = target.read_text("utf-8")
                assert f'id="{unquote(parts.fragment)}"' in text, (file, link)
                followed.add((target.name, unquote(parts.fragment)))
    assert len(files) == 14
    assert {fragment for _, fragment in followed} >= {"setup", "setup-2"}


@pytest.mark.slow
def test_a_search_finds_a_machine_by_its_facts_and_no_setup_on_its_page(site):
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    lathe = [doc for doc in index["docs"] if doc["location"].startswith("shop/bench-lathe")]
    said = " ".join(f"{doc['title']} {doc['text']}" for doc in lathe)
    assert "bench lathe" in said
    assert "diameter" in said
    assert "journal" not in said
    assert "Drum shaft" not in said


@pytest.mark.slow
def test_a_made_page_has_the_style_and_its_title_in_the_navigation(site):
    page = next(file for file in made_files(site) if "bench-lathe" in str(file))
    html = page.read_text("utf-8")
    assert re.search(r'<link rel="stylesheet" href="[./]*assets/shoplog\.\w+\.css">', html)
    assert "<title>bench lathe - Log</title>" in html


@pytest.mark.slow
def test_a_hostile_name_is_harmless_in_the_title_the_navigation_and_the_search(tmp_path):
    name = '"></title><script>alert(1)</script> [=1+1] {{ x }}'
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "index.md").write_text("# Home\n", "utf-8")
    (tmp_path / "shop.yml").write_text(f"machines:\n  - name: {json.dumps(name)}\n", "utf-8")
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: Log\ntheme: material\nplugins: [search, shoplog]\nstrict: true\n", "utf-8"
    )
    build(load_config(str(tmp_path / "mkdocs.yml")))
    for file in (tmp_path / "site").rglob("*.html"):
        assert "<script>alert" not in file.read_text("utf-8"), file
    (page,) = (tmp_path / "site" / "shop").glob("*/index.html")
    html = page.read_text("utf-8")
    assert "<title>″›‹/title›‹script›alert(1)‹/script› [=1+1] {{ x }} - Log</title>" in html
    index = json.loads((tmp_path / "site" / "search" / "search_index.json").read_text("utf-8"))
    assert not any("<script" in doc["title"] + doc["text"] for doc in index["docs"])


def test_no_warning_is_given_by_a_page_that_is_made(caplog):
    caplog.set_level(logging.WARNING)
    reference_pages(whole())
    assert caplog.records == []
