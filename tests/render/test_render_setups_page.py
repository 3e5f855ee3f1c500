"""The page of setups without a browser: what its Markdown, its table and its data hold."""

import csv
import json
import re
from dataclasses import replace
from hashlib import sha256
from html.parser import HTMLParser
from importlib import resources
from pathlib import Path

import markdown
import pytest

from shoplog.find.published import read_published
from shoplog.find.record import RECORD, Figures, Record
from shoplog.find.whole import WholeLog, work_out_log
from shoplog.log import read_log
from shoplog.outcomes import OUTCOMES
from shoplog.render.made_pages import made_pages
from shoplog.render.made_pages.made_text import directory_link
from shoplog.render.made_pages.setups_page import MOST_PLAIN, SETUPS_PAGE, setups_page
from shoplog.render.made_pages.setups_page_assets import (
    hashed,
    kept_libraries,
    setups_page_script,
)
from shoplog.render.made_pages.setups_page_columns import (
    COLUMNS,
    FACETS,
    FIGURES,
    TEXTS,
    declared,
    newest_first,
)
from shoplog.render.made_pages.setups_page_data import setups_data, setups_script
from shoplog.render.made_pages.setups_page_table import plain_table

HOSTILE = (
    "</script><script>alert(1)</script><img src=x onerror=alert(2)>"
    " <!-- [=bore] `x` {{ 7*7 }} \u2028"
)
TURNED = Record(
    page="log/bush.md",
    anchor="setup",
    run=1,
    date="2026-03-14",
    date_from="block",
    project="log",
    title="Bush",
    operation="turning, finish",
    operation_kind="turning",
    feature="journal",
    material="mild steel",
    material_group="low-carbon steel",
    cutter="right-hand knife",
    cutter_kind="turning tool",
    machine="bench lathe",
    diameter_mm=16.4,
    outcome="good",
    remarks="mirror finish",
    ran=Figures(
        spindle_speed_rpm=1180, cutting_speed_m_per_min=60.79, feed_per_tooth_mm=0.06,
        depth_of_cut_mm=0.2,
    ),
)  # fmt: skip
PLANNED = Record(page="log/bush.md", anchor="setup-2", run=0, operation="reaming")


class _Elements(HTMLParser):
    """The elements of a text, with their attributes, and its words."""

    def __init__(self, text):
        super().__init__()
        self.found, self.words = [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.words.append(data)

    def of(self, name):
        return [attributes for tag, attributes in self.found if tag == name]

    @property
    def text(self):
        return " ".join(" ".join(self.words).split())


def page_of(*records):
    return setups_page(records, directory_link)


def html_of(*records):
    body = page_of(*records).text.partition("---\n")[2].partition("---\n")[2]
    return _Elements(markdown.markdown(body, extensions=["attr_list", "md_in_html", "tables"]))


def data_of(*records):
    return setups_data(records, SETUPS_PAGE, directory_link)


def read_back(script):
    """What a browser would read out of the script that holds the data."""
    found = re.fullmatch(r"window\.shoplogSetups = JSON\.parse\((\".*\")\);\n", script)
    return json.loads(json.loads(found[1]))


def whole(texts, records=None):
    made = work_out_log(texts)
    return made if records is None else WholeLog(made.log, tuple(records))


# ---- the plain table ----


def test_each_record_is_a_row_that_leads_to_its_card():
    page = html_of(TURNED, PLANNED)
    links = [link["href"] for link in page.of("a") if "#" in link["href"]]
    assert links == ["../log/bush/#setup", "../log/bush/#setup-2"]
    assert "turning, finish journal, Bush 2026-03-14 mild steel" in page.text
    assert "16.400 60.8 1180 rpm 0.060 0.200 ✓ good mirror finish" in page.text


def test_the_heads_of_the_table_name_the_units():
    page = html_of(TURNED)
    head = page.text.partition("turning, finish")[0]
    assert "Setup Date Material Cutter Machine Diameter, mm Cutting speed, m/min" in head
    assert head.endswith("Feed per tooth, mm Depth of cut, mm Outcome ")


def test_a_size_is_shown_as_on_its_card_where_rounding_could_go_either_way():
    size = 3 / 16 * 25.4
    (sent,) = data_of(replace(TURNED, diameter_mm=size))["numbers"]["diameter"]
    assert f"{sent:.3f}" == f"{size:.3f}" == "4.762"
    assert data_of(replace(TURNED, diameter_mm=1 / 3))["numbers"]["diameter"] == [0.3333333]


def test_the_width_of_a_cutter_stands_below_the_name_that_the_shop_has_for_it():
    named = Record(page="a.md", anchor="setup", run=1, cutter="blade", cutter_name="blade",
                   cutter_width_mm=2.0)  # fmt: skip
    assert "blade 2.000 mm wide" in html_of(named).text
    written = replace(named, cutter="parting tool, HSS, 2 mm wide", cutter_name="")
    assert html_of(written).text.count(" wide") == 1


def test_an_outcome_is_a_sign_and_a_word():
    rows = [Record(page="a.md", anchor="setup", run=1, outcome=word) for word in OUTCOMES]
    text = html_of(*rows, PLANNED, Record(page="a.md", anchor="setup", run=1)).text
    for told in ("✓ good", "◑ usable", "✗ poor", "✗ spoiled", "– planned", "– not told"):
        assert told in text


def test_a_feed_by_hand_and_a_day_of_the_history_are_told():
    fed = Record(
        page="a.md",
        anchor="setup",
        date="2026-01-02",
        date_from="git",
        run=1,
        ran=Figures(by_hand=True),
    )
    text = html_of(fed).text
    assert "by hand" in text
    assert "2026-01-02 by its history" in text


def test_the_newest_stand_first_and_those_of_no_day_last():
    days = ("", "2025-05-01", "2026-01-01", "2024-12-31")
    records = [Record(page=f"{n}.md", anchor="setup", date=day) for n, day in enumerate(days)]
    assert [one.date for one in newest_first(records)] == [
        "2026-01-01",
        "2025-05-01",
        "2024-12-31",
        "",
    ]


def test_without_a_script_the_newest_are_shown_and_a_line_says_what_is_missing():
    records = [Record(page=f"{n}.md", anchor="setup", run=1) for n in range(MOST_PLAIN + 5)]
    page = html_of(*records)
    assert len(page.of("tr")) == MOST_PLAIN + 1
    assert f"The table has the newest {MOST_PLAIN} of {MOST_PLAIN + 5} records." in page.text
    assert "The table has every record." in html_of(TURNED).text


def test_a_site_search_leaves_the_records_out():
    (root,) = [one for one in html_of(TURNED).of("div") if "shoplog-setups-page" in one["class"]]
    assert "data-search-exclude" in root


def test_a_page_with_no_anchor_text_still_has_a_link():
    page = html_of(Record(page="index.md", anchor="setup", run=1))
    assert [one["href"] for one in page.of("a")][-1] == "../#setup"
    assert "setup index.md" in page.text


# ---- strangers' texts ----


@pytest.mark.parametrize("name", [one.name for one in RECORD if one.kind == "text"])
def test_no_text_of_a_record_makes_an_element_or_a_value(name):
    plain = html_of(TURNED).found
    made = html_of(Record(**{"page": "a.md", "anchor": "setup", "run": 1, name: HOSTILE})).found
    assert {tag for tag, _ in made} <= {tag for tag, _ in plain}
    assert [one for tag, one in made if any(key.startswith("on") for key in one)] == []
    for link in (one["href"] for tag, one in made if tag == "a"):
        assert link.startswith("../")


def test_nothing_of_a_record_is_left_for_markdown_or_a_template_to_read():
    text = page_of(Record(page="a.md", anchor="setup", run=1, remarks=HOSTILE)).text
    block = next(line for line in text.splitlines() if line.startswith("<div"))
    assert not re.search(r"[\[\]{}`]", block)
    assert "&#91;=bore&#93;" in block
    assert "&#123;&#123; 7*7 &#125;&#125;" in block


def test_the_data_hold_every_text_as_it_is_and_no_tag_can_end_their_script():
    record = Record(page="a.md", anchor="setup", run=1, remarks=HOSTILE)
    script = setups_script(data_of(record))
    assert "<" not in script
    assert "\u2028" not in script
    assert read_back(script)["texts"]["remarks"]["words"] == [HOSTILE.replace("\u2028", " ")]


def test_what_steers_a_screen_is_taken_out_of_the_data():
    record = Record(page="a.md", anchor="setup", run=1, feature="bore\u202edesrever\x1b[31m")
    assert data_of(record)["texts"]["feature"]["words"] == ["bore\ufffddesrever\ufffd[31m"]


# ---- the data ----


def test_the_data_are_columns_of_which_each_word_is_there_once():
    data = data_of(TURNED, PLANNED, TURNED)
    assert data["count"] == 3
    assert data["texts"]["operation"] == {"words": ["turning, finish", "reaming"], "at": [0, 1, 0]}
    assert data["texts"]["outcome"] == {"words": ["good", "planned"], "at": [0, 1, 0]}
    assert data["numbers"]["diameter"] == [16.4, None, 16.4]
    assert data["numbers"]["speed"] == [1180, None, 1180]
    assert data["addresses"] == ["../log/bush/"]


def test_every_column_is_as_long_as_there_are_records():
    data = data_of(TURNED, PLANNED)
    lengths = {len(column["at"]) for column in data["texts"].values()}
    assert lengths | {len(column) for column in data["numbers"].values()} == {2}
    assert set(data["texts"]) == {one.name for one in TEXTS}


def test_a_material_is_there_under_every_name_that_it_goes_by():
    (names,) = data_of(TURNED)["names"]
    assert "S235JR" in names
    assert "low-carbon steel" in names
    assert data_of(PLANNED)["names"] == [[]]


def test_a_number_that_is_none_is_left_out():
    record = Record(page="a.md", anchor="setup", run=1, diameter_mm=float("inf"))
    assert data_of(record)["numbers"]["diameter"] == [None]


def test_pages_whose_paths_are_shown_alike_share_an_address_and_no_link_fails():
    records = [Record(page=f"a{mark}b.md", anchor="setup") for mark in "\x1b\x07"]
    data = data_of(*records)
    assert len(data["addresses"]) == len(data["texts"]["page"]["words"])


def test_the_figures_turn_into_inches_by_the_international_inch():
    # ISO 31 / NIST SP 811: 1 in is 25.4 mm, 1 ft is 304.8 mm.
    figures = {one["name"]: one["inch"] for one in declared()["figures"]}
    assert figures["diameter"]["factor"] == pytest.approx(1 / 25.4, rel=1e-12)
    assert figures["feed"]["factor"] == pytest.approx(1 / 25.4, rel=1e-12)
    assert figures["cutting-speed"]["factor"] == pytest.approx(1 / 0.3048, rel=1e-12)
    assert figures["speed"]["factor"] == 1
    assert [figures[name]["unit"] for name in ("diameter", "cutting-speed", "feed")] == [
        "in",
        "ft/min",
        "in",
    ]


def test_what_is_declared_names_only_what_the_data_hold():
    texts, figures = {one.name for one in TEXTS}, {one.name for one in FIGURES}
    assert {one.text for one in FACETS} <= texts
    assert {name for name, _ in COLUMNS} <= texts | figures
    names = [one.name for one in FACETS] + [one.name for one in FIGURES]
    assert len(set(names)) == len(names), "an address could not tell them apart"
    # Material's search takes these out of an address for itself.
    assert not {"q", "h"} & set(names)


# ---- what comes beside the page ----


def test_the_page_loads_its_libraries_its_data_and_its_script_in_this_order():
    made = page_of(TURNED)
    names = re.findall(r'<script src="([^"]+)"></script>', made.text)
    assert [re.sub(r"\.[0-9a-f]{8}\.js$", "", name) for name in names] == [
        "minisearch-7.2.0",
        "table-core-8.21.3",
        "setups-data",
        "setups-page",
    ]
    assert set(made.files) == {f"setups/{name}" for name in names}


def test_a_file_whose_text_changes_changes_its_name():
    assert hashed("a.js", "one") != hashed("a.js", "two")
    (one,) = [name for name in page_of(TURNED).files if "data" in name]
    (other,) = [name for name in page_of(PLANNED).files if "data" in name]
    assert one != other


def vendor_rows():
    text = resources.files("shoplog.render").joinpath("assets/vendor/README.md").read_text("utf-8")
    rows = csv.reader((line for line in text.splitlines() if line.startswith("| `")), delimiter="|")
    return [[cell.strip(" `") for cell in row[1:-1]] for row in rows]


def test_each_kept_library_is_the_file_whose_sum_its_readme_tells():
    libraries = kept_libraries()
    assert {row[0] for row in vendor_rows()} == set(libraries)
    for name, _, licence, _, told in vendor_rows():
        assert sha256(libraries[name].encode()).hexdigest() == told
        kind, file = licence.replace("`", "").split(", ")
        folder = resources.files("shoplog.render").joinpath("assets/vendor")
        assert "Permission is hereby granted, free of charge" in folder.joinpath(file).read_text()
        assert kind == "MIT"


def test_our_script_makes_no_html_of_a_text_and_asks_nobody_for_anything():
    script = setups_page_script()
    for word in ("innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval("):
        assert word not in script
    for word in ("fetch(", "XMLHttpRequest", "import(", "WebSocket", "sendBeacon"):
        assert word not in script


def test_our_scripts_and_sheets_stay_small_beside_the_libraries():
    import gzip

    from shoplog.render import page_script, style_sheet

    ours = (setups_page_script(), page_script(), style_sheet())
    assert sum(len(gzip.compress(text.encode(), 9)) for text in ours) < 40_000


# ---- made pages ----

PAGE = """# Bush

```setup
operation: turning
material: mild steel
machine: bench lathe
diameter: 16 mm
ran:
  speed: 500 rpm
  feed: 0.1 mm/rev
outcome: good
{}
```
"""


def test_a_log_with_records_gets_the_page_and_the_published_file():
    made = made_pages(whole({"bush.md": PAGE.format("remarks: went well")}), name="A log")
    assert SETUPS_PAGE in made.pages
    (record,) = read_published(made.files["setups.json"], "setups.json")
    assert (record.page, record.remarks, record.outcome) == ("bush.md", "went well", "good")
    assert made.notes == ()


def test_a_log_with_no_record_gets_neither():
    for text in ("# Plain\n", PAGE.format("private: yes")):
        made = made_pages(whole({"bush.md": text}), name="A log")
        assert SETUPS_PAGE not in made.pages
        assert made.files == {}


def test_a_page_that_keeps_no_records_adds_none():
    text = f"---\nrecords: no\n---\n{PAGE.format('remarks: example')}"
    assert made_pages(whole({"bush.md": text}), name="A log").files == {}


def test_a_private_record_is_in_nothing_that_is_made():
    texts = {
        "a.md": PAGE.format("remarks: shown"),
        "b.md": PAGE.format("remarks: xyzzy\nprivate: yes"),
    }
    made = made_pages(whole(texts), name="A log")
    for text in (*made.pages.values(), *made.files.values()):
        assert "xyzzy" not in text
        assert "b.md" not in text
    assert any("shown" in text for text in made.files.values())


@pytest.mark.parametrize("own", [SETUPS_PAGE, "setups.md"])
def test_a_page_of_the_author_stands_in_its_place_and_a_note_says_so(own):
    made = made_pages(whole({"a.md": PAGE.format(""), own: "# Mine\n"}), name="A log")
    assert SETUPS_PAGE not in made.pages
    assert [*made.files] == ["setups.json"]
    assert made.notes == (
        f"{own} stands in the place of the page of setups that is made from the records",
    )


def test_addresses_are_those_that_the_host_gives():
    links = []

    def link(here, there, anchor):
        links.append((here, there, anchor))
        return f"../elsewhere.html{'#' if anchor else ''}{anchor}"

    made = made_pages(whole({"a.md": PAGE.format("")}), name="A log", link=link)
    assert (SETUPS_PAGE, "a.md", "setup") in links
    assert "../elsewhere.html#setup" in made.pages[SETUPS_PAGE]


def test_the_page_is_no_page_of_the_log_and_has_no_problem_of_its_own():
    made = made_pages(whole({"a.md": PAGE.format(f"remarks: {HOSTILE!r}")}), name="A log")
    assert read_log(dict(made.pages)).problems == ()


def test_no_script_of_ours_is_longer_than_a_module():
    folder = Path(str(resources.files("shoplog.render").joinpath("assets/js/setups-page")))
    lengths = {file.name: len(file.read_text().splitlines()) for file in folder.glob("*.js")}
    assert len(lengths) == 7
    assert {name: lines for name, lines in lengths.items() if lines > 300} == {}


def test_a_cutter_whose_teeth_nobody_told_shows_its_feed_by_the_turn():
    reamed = Record(
        page="a.md", anchor="setup", run=1, operation_kind="reaming",
        ran=Figures(feed_per_rev_mm=0.2),
    )  # fmt: skip
    data = data_of(reamed, TURNED)
    assert data["numbers"]["feed"][0] is None
    assert data["numbers"]["feed-per-rev"] == [0.2, None]
    assert "0.200 mm/rev" in plain_table([reamed], SETUPS_PAGE, directory_link)
