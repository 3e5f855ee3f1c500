"""A log over several pages: parts, projects, the graph between names, front matter."""

from __future__ import annotations

import pytest

from shoplog import Grade, Log, read_log, report_of_text
from shoplog.calc.results import Result, Unworked
from shoplog.calc.show import show


def page(body: str, **front: str) -> str:
    """A page with front matter and one calculation block."""
    header = "".join(f"{key}: {value}\n" for key, value in front.items())
    top = f"---\n{header}---\n" if front else ""
    return f"{top}# Page\n\n```calc\n{body}\n```\n"


def problems(log: Log) -> list[str]:
    return [found.line for found in log.problems if found.grade is Grade.PROBLEM]


def cautions(log: Log) -> list[str]:
    return [found.line for found in log.problems if found.grade is Grade.CAUTION]


def value(log: Log, path: str, name: str) -> str:
    return next(show(found.value).both for found in log.pages[path].results if found.name == name)


def test_two_pages_may_read_each_other() -> None:
    log = read_log(
        {
            "p/gear.md": page("bore = 16 mm H7\ngap = bore - shaft.journal", part="gear"),
            "p/shaft.md": page("journal = 16 mm f7\nseat = gear.bore", part="shaft"),
        }
    )
    assert problems(log) == []
    assert value(log, "p/gear.md", "gap") == "0.016 to 0.052 mm (0.0006 to 0.0020 in)"
    assert value(log, "p/shaft.md", "seat") == "16.000 to 16.018 mm (0.6299 to 0.6306 in)"


def test_a_name_that_hangs_on_itself_is_told_with_the_way_round() -> None:
    log = read_log(
        {
            "a.md": page("x = b.y + 1 mm\nfree = 2 mm\nwaits = x", part="a"),
            "b.md": page("y = c.z", part="b"),
            "c.md": page("z = a.x", part="c"),
        }
    )
    assert problems(log) == [
        "a.md:7:1: a.x hangs on itself: a.x → b.y → c.z → a.x [see b.md:7:1] [see c.md:7:1]",
        "b.md:7:1: b.y hangs on itself: b.y → c.z → a.x → b.y [see c.md:7:1] [see a.md:7:1]",
        "c.md:7:1: c.z hangs on itself: c.z → a.x → b.y → c.z [see a.md:7:1] [see b.md:7:1]",
    ]
    assert value(log, "a.md", "free") == "2.000 mm (0.0787 in)"
    last = log.pages["a.md"].blocks[0].items[2]
    assert isinstance(last, Unworked)
    assert last.waits_for == "x"


def test_a_chain_of_two_thousand_names_over_pages_is_worked_out() -> None:
    pages = {
        f"p/n{n}.md": page(f"x = n{n + 1}.x + 1 mm" if n < 1999 else "x = 1 mm", part=f"n{n}")
        for n in range(2000)
    }
    log = read_log(pages)
    assert problems(log) == []
    assert value(log, "p/n0.md", "x") == "2000.000 mm (78.7402 in)"


def test_parts_are_found_within_their_project_only() -> None:
    log = read_log(
        {
            "one/shaft.md": page("d = 16 mm", part="shaft"),
            "two/gear.md": page("a = shaft.d", part="gear"),
        }
    )
    assert problems(log) == ["two/gear.md:7:5: `shaft` is not a name of this page"]


def test_another_projects_page_is_read_by_use() -> None:
    texts = {
        "one/drive-shaft.md": page("d = 16 mm", part="drive shaft"),
        "two/gear.md": page('use "one/drive-shaft" as shaft\na = shaft.d', part="gear"),
    }
    log = read_log(texts)
    assert problems(log) == []
    assert value(log, "two/gear.md", "a") == "16.000 mm (0.6299 in)"
    texts["two/gear.md"] = page('use "one/drive-shift" as shaft', part="gear")
    assert problems(read_log(texts)) == [
        "two/gear.md:7:5: there is no page `one/drive-shift` in this log"
    ]


def test_a_page_that_could_be_two_is_asked_for_more_of_its_path() -> None:
    log = read_log(
        {
            "a/x/shaft.md": page("d = 1 mm"),
            "b/x/shaft.md": page("d = 2 mm"),
            "gear.md": page('use "x/shaft" as shaft'),
        }
    )
    assert problems(log) == [
        "gear.md:4:5: `x/shaft` could be a/x/shaft.md or b/x/shaft.md (write more of its path)"
    ]


def test_a_page_uses_no_page_that_is_itself() -> None:
    log = read_log({"one/shaft.md": page('use "one/shaft" as other\nd = 16 mm')})
    assert problems(log) == [
        "one/shaft.md:4:5: `one/shaft` is this page itself (its names are read as they are)"
    ]


def test_a_long_circle_is_told_in_short() -> None:
    pages = {f"n{n}.md": page(f"x = n{(n + 1) % 500}.x", part=f"n{n}") for n in range(500)}
    told = problems(read_log(pages))
    assert len(told) == 500
    way = " → ".join(f"n{n}.x" for n in range(8))
    assert told[0].startswith(f"n0.md:7:1: n0.x hangs on itself: {way} → … 492 more … → n0.x [")
    assert max(map(len, told)) < 400


SHOP = """\
machines:
  - name: Bench lathe
    kind: lathe
    speeds: 110 rpm, 180 rpm, 290 rpm
    leadscrew: 8 tpi
  - name: mill
    speeds: 100 rpm to 2000 rpm
change wheels: 20, 30, 40, 60
gauge blocks: [1.005 mm, 1.01 mm]
remarks: a drawer full of reamers
"""


def test_a_page_reads_the_shop_profile() -> None:
    body = (
        "step = spindle_step(200 rpm, shop.bench_lathe.speeds)\n"
        "screw = shop.bench_lathe.leadscrew\n"
        "top = shop.mill.greatest_speed\nwheel = shop.change_wheels[1]\n"
        "block = shop.gauge_blocks[0]\nwords = shop.remarks"
    )
    log = read_log({"a.md": page(body)}, shop_profile=SHOP)
    assert problems(log) == []
    found = {result.name: show(result.value).own for result in log.pages["a.md"].results}
    assert found["step"].startswith("180 rpm")
    assert (found["screw"], found["top"], found["wheel"]) == ("0.1250 in", "2000 rpm", "30")
    assert (found["block"], found["words"]) == ("1.005 mm", "a drawer full of reamers")


def test_what_the_shop_profile_does_not_say_is_told() -> None:
    log = read_log({"a.md": page("a = shop.bench_lath.speeds\nb = shop")}, shop_profile=SHOP)
    assert problems(log) == [
        "a.md:4:10: the shop profile says nothing of `bench_lath` (did you mean shop.bench_lathe?)",
        "a.md:5:5: `shop` is the part of another page; a name of that page is wanted"
        " (write shop.NAME)",
    ]
    alone = read_log({"a.md": page("a = shop.bench_lathe.speeds")})
    assert problems(alone) == ["a.md:4:5: `shop` is not a name of this page"]


def test_a_part_and_an_own_name_come_before_the_shop() -> None:
    texts = {"a.md": page("a = shop.d", part="a"), "b.md": page("d = 3 mm", part="shop")}
    log = read_log(texts, shop_profile=SHOP)
    assert value(log, "a.md", "a") == "3.000 mm (0.1181 in)"


def test_a_concession_of_one_side_does_not_hide_a_difference_in_nominal_size() -> None:
    said = 'concession journal because "turned to suit"'
    texts = {
        "p/gear.md": page("bore = 30 mm H7\nmate bore with shaft.journal", part="gear"),
        "p/shaft.md": page(f"journal = 24 mm p6\n{said}", part="shaft"),
    }
    told = problems(read_log(texts))
    assert len(told) == 2
    assert "(a difference in nominal size takes a concession on both sizes)" in told[0]
    texts["p/gear.md"] = page(
        'bore = 30 mm H7\nmate bore with shaft.journal\nconcession bore because "a sleeve goes in"',
        part="gear",
    )
    assert problems(read_log(texts)) == []
    texts["p/gear.md"] = page(
        'bore = 24 mm H7\nmate bore with shaft.journal as "H7/f7"', part="gear"
    )
    assert problems(read_log(texts)) == []


def test_an_earlier_reading_is_history() -> None:
    report = report_of_text(
        '```calc\na = 16 mm H7\nmeasured a "first" = 16.1 mm\nmeasured a = 16.01 mm\n```\n'
    )
    assert report.problems == ()
    assert [getattr(item, "counts", None) for item in report.blocks[0].items] == [None, False, True]


def test_a_part_is_given_once_in_a_project() -> None:
    log = read_log(
        {
            "p/a.md": page("x = 1 mm", part="drive shaft"),
            "p/b.md": page("x = 1 mm", part="drive-shaft"),
            "q/c.md": page("x = 1 mm", part="drive shaft"),
        }
    )
    assert problems(log) == [
        "p/b.md:2:1: the part `drive_shaft` is given by p/a.md already"
        " (one name, one page, within a project folder)"
    ]


def test_a_pages_own_name_comes_before_a_part_and_says_so() -> None:
    log = read_log(
        {
            "p/a.md": page("shaft = 3 mm\nx = shaft + 1 mm", part="a"),
            "p/b.md": page("d = 1 mm", part="shaft"),
        }
    )
    assert problems(log) == []
    assert cautions(log) == [
        "p/a.md:7:1: caution: `shaft` is also the part of p/b.md; on this page its own name counts"
    ]
    assert value(log, "p/a.md", "x") == "4.000 mm (0.1575 in)"


def test_a_mate_that_misses_is_a_problem_on_both_pages() -> None:
    log = read_log(
        {
            "p/gear.md": page("bore = 30 mm H7\nmate bore with shaft.journal", part="gear"),
            "p/shaft.md": page("journal = 24 mm p6", part="shaft"),
        }
    )
    said = (
        "bore and shaft.journal do not mate: the nominal sizes differ:"
        " the hole is 30 mm (1.1811 in), the shaft 24 mm (0.9449 in)"
    )
    assert problems(log) == [
        f"p/gear.md:8:1: {said} [see p/gear.md:7:1] [see p/shaft.md:7:1]",
        f"p/shaft.md:7:1: {said} [see p/gear.md:8:1]",
    ]


def test_a_failed_check_names_the_other_page_too() -> None:
    log = read_log(
        {
            "p/gear.md": page("depth = 2 mm\ncheck depth == shaft.groove", part="gear"),
            "p/shaft.md": page("groove = 1.5 mm", part="shaft"),
        }
    )
    said = "this check does not hold: depth is 2.000 mm; shaft.groove is 1.500 mm"
    assert problems(log) == [
        f"p/gear.md:8:7: {said} [see p/shaft.md:7:1]",
        f"p/shaft.md:7:1: {said} [see p/gear.md:8:7]",
    ]


def test_mates_named_and_never_stated_are_a_caution() -> None:
    texts = {
        "p/gear.md": page("bore = 16 mm H7", part="gear", mates="[shaft]"),
        "p/shaft.md": page("journal = 16 mm f7", part="shaft", mates="gear"),
    }
    said = "and no `mate` between the two is stated (write mate … with"
    assert cautions(read_log(texts)) == [
        f"p/gear.md:3:1: caution: `mates` names `shaft`, {said} shaft.NAME)",
        f"p/shaft.md:3:1: caution: `mates` names `gear`, {said} gear.NAME)",
    ]
    texts["p/gear.md"] = page(
        "bore = 16 mm H7\nmate bore with shaft.journal", part="gear", mates="[shaft]"
    )
    assert cautions(read_log(texts)) == []


def test_mates_with_a_part_that_is_not_there_are_a_problem() -> None:
    log = read_log({"p/gear.md": page("bore = 16 mm H7", part="gear", mates="[shaft]")})
    assert problems(log) == [
        "p/gear.md:3:1: `mates` names `shaft`, and no page of this project is that part"
    ]


@pytest.mark.parametrize(
    ("front", "said"),
    [
        ({"made": "several"}, "`made` in the front matter is a whole number from 1 to 1000;"
         " this is the text `several`"),
        ({"made": "0"}, "`made` in the front matter is a whole number from 1 to 1000; this is `0`"),
        ({"mates": "{a: b}"}, "`mates` in the front matter is a list of parts, such as [gear];"
         " this is a group of keys"),
        ({"date": "last spring"}, "`date` in the front matter is a date such as 2026-03-14;"
         " this is the text `last spring`"),
        ({"part": "[a]"}, "`part` in the front matter is a text; this is a list"),
        ({"part": "check"}, "`check` cannot be the name of a part: it is a word of the language"),
        ({"part": "mm"}, "`mm` cannot be the name of a part: it is a unit"),
        ({"part": "2nd shaft"}, "`2nd shaft` cannot be the name of a part:"
         " a name is letters, digits and _, a letter first"),
    ],
)  # fmt: skip
def test_front_matter_is_read_or_refused_at_its_line(front: dict[str, str], said: str) -> None:
    log = read_log({"a.md": page("x = 1 mm", title="A", **front)})
    assert problems(log) == [f"a.md:3:1: {said}"]


def test_values_in_prose_may_read_names_below_and_are_placed_exactly() -> None:
    text = "# The [=bore] page\n\nIt is [=bore to in], not [=bare] or [=1/0].\n\n"
    report = report_of_text(text + "```calc\nbore = 16 mm\n```\n")
    assert show(report.prose["bore to in"].value).own == "0.6299 in"
    assert [found.line for found in report.problems] == [
        "page.md:3:28: `bare` is not a name of this page (did you mean bore?)",
        "page.md:3:39: a division by zero",
    ]


def test_prose_that_reads_a_broken_name_says_what_it_waits_for() -> None:
    report = report_of_text("It is [=a].\n\n```calc\na = 1/0\n```\n")
    assert [found.line for found in report.problems] == [
        "page.md:1:9: note: `a` could not be worked out, so this has no value",
        "page.md:4:5: a division by zero",
    ]


def test_blocks_of_a_page_share_their_names_in_order() -> None:
    report = report_of_text(
        "```calc\na = 2 mm\n```\n\n- a list\n\n    ```calc\n    b = a + 1 mm\n    ```\n"
    )
    assert [found.name for found in report.results] == ["a", "b"]
    assert report.problems == ()


def test_a_broken_line_costs_only_its_dependants() -> None:
    report = report_of_text("```calc\na = 3 +\nb = a\nc = 2 mm\n```\n")
    kinds = [type(item) for item in report.blocks[0].items]
    assert kinds == [Unworked, Unworked, Result]
    assert [found.line for found in report.problems] == [
        "page.md:2:8: the line ends too soon: a value is wanted"
    ]


def test_a_page_has_a_bound_on_its_rows() -> None:
    rows = "\n".join(f"a{n} = {n} mm" for n in range(4100))
    report = report_of_text(f"```calc\n{rows}\n```\n")
    assert len(report.results) == 4000
    assert [found.line for found in report.problems] == [
        "page.md:4101:1: this page has more than 4000 rows; those after them are left out"
        " (split the page)"
    ]


def test_counts_are_of_the_whole_log() -> None:
    log = read_log({"a.md": page("x = 1 mm\ncheck x > 2 mm"), "b.md": "# Nothing\n"})
    assert log.counts.line == (
        "2 pages, 1 result, 1 check, 0 setups, 0 cautions, 0 concessions, 1 problem"
    )


def test_a_setup_reads_the_names_of_its_page() -> None:
    text = (
        "```calc\nstock = 20 mm\n```\n\n```setup\noperation: turning\nmaterial: brass\n"
        "diameter: stock\nplanned:\n  speed: 500 rpm\n```\n"
    )
    report = report_of_text(text)
    setup = report.blocks[1].setup
    assert setup is not None
    assert setup.planned is not None
    figures = {found.label: show(found.value).own for found in setup.planned.derived}
    assert figures["cutting speed"] == "31.4 m/min"
    assert [found for found in report.problems if found.grade is Grade.PROBLEM] == []


def test_a_fault_of_ours_costs_one_line_and_not_the_log(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise RuntimeError

    text = "```calc\na = 2 mm\nb = a + 1 mm\n```\n"
    monkeypatch.setattr("shoplog.log.pages.work_out", fails)
    assert [found.line for found in report_of_text(text).problems] == [
        f"page.md:{line}:1: shoplog itself failed here (RuntimeError)"
        " (the page may well be right: please report this line)"
        for line in (2, 3)
    ]


@pytest.mark.parametrize(
    ("top", "told"),
    [
        ("title: My doc\nAuthors: me\n\n# H\n", 0),
        ("template: main.html\n\n# H\n", 0),
        ("Feed: 120 mm/min\n\n# H\n", 1),
        ("title: My doc\nFeed: 120 mm/min\n\n# H\n", 1),
    ],
)
def test_a_header_in_mkdocs_own_style_is_no_lost_line(top: str, told: int) -> None:
    assert len(report_of_text(top).problems) == told


@pytest.mark.parametrize(("key", "close"), [("prat", "part"), ("licence", "license")])
def test_a_misspelt_key_of_the_front_matter_is_told(key: str, close: str) -> None:
    log = read_log({"a.md": page("x = 1 mm", title="A", **{key: "b"})})
    assert cautions(log) == [
        f"a.md:3:1: caution: `{key}` in the front matter is no key of the log"
        f" (did you mean {close}?)"
    ]
    assert cautions(read_log({"a.md": page("x = 1 mm", authors="me", template="x.html")})) == []
