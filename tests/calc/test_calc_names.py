"""Names between rows and pages: what waits, what is below, circles, parts and `use`."""

from __future__ import annotations

from calc_page import block, codes, findings, items, lines_of, project

from shoplog.calc.results import Result, Unworked
from shoplog.log import Log, read_log


def names_of(log: Log, page: str) -> list[str]:
    return [
        item.name for item in log.pages[f"{page}.md"].blocks[0].items if isinstance(item, Result)
    ]


def test_a_broken_row_costs_only_those_that_hang_on_it() -> None:
    text = "a = 1/0\nb = a + 1\nc = b\nd = 2\ne = d + 1"
    found = items(text)
    assert [type(item) for item in found] == [Unworked, Unworked, Unworked, Result, Result]
    assert [item.waits_for for item in found if isinstance(item, Unworked)] == ["", "a", "b"]
    assert codes(text) == ["divided-by-zero"]


def test_a_row_that_cannot_be_read_still_gives_its_name_to_wait_for() -> None:
    text = "a = 3 +\nb = a\nmeasured c = 5 furlong\nd = c\nuse x as e\nf = e.g\nh = 1"
    assert codes(text) == ["ends-too-soon", "unit-unknown", "wanted"]
    waits = [item.waits_for for item in items(text) if isinstance(item, Unworked)]
    assert waits == ["", "a", "", "c", "", "e"]


def test_every_kind_of_row_waits_without_a_finding_of_its_own() -> None:
    text = (
        "a = 1/0\ncheck a > 3\ncheck 1 < 2 or a > 3\nmate a with a\nmeasured a = 3\ndraw a\n"
        "b = [a]\nc = max(a, 3)\nd = a.x\ne = a[0]\nf = a.measured\ng = not a\nh = -a to mm"
    )
    assert codes(text) == ["divided-by-zero"]
    assert all(isinstance(item, Unworked) for item in items(text))


def test_what_waits_for_another_page_says_for_what() -> None:
    log = project(gear="a = shaft.x\nb = a\nc = 3 mm", shaft="x = 1/0")
    assert lines_of(log) == ["shaft.md:5:5: a division by zero"]
    found = log.pages["gear.md"].blocks[0].items
    assert [item.waits_for for item in found if isinstance(item, Unworked)] == ["shaft.x", "a"]


def test_a_name_is_given_above_where_it_is_used() -> None:
    hint = "(a name is given before it is used: move it up)"
    assert findings("check a > 3 mm\na = 5 mm") == [f"1:7 `a` is given below, at line 3 {hint}"]
    assert findings("a = b\nb = a") == [f"1:5 `b` is given below, at line 3 {hint}"]


def test_blocks_of_a_page_share_their_names_in_order() -> None:
    log = read_log({"a.md": block("a = 3 mm") + "\nProse.\n\n" + block("b = a + 1 mm")})
    assert lines_of(log) == []
    assert [found.value.nominal for found in log.pages["a.md"].results] == [3, 4]


def test_two_pages_may_read_each_other() -> None:
    log = project(gear="a = shaft.x + 1 mm\nb = 2 mm", shaft="x = gear.b\ny = gear.a")
    assert lines_of(log) == []
    assert [found.value.nominal for found in log.pages["shaft.md"].results] == [2, 3]


def test_a_name_that_hangs_on_itself_is_a_circle_with_the_way_round() -> None:
    log = project(
        gear="a = shaft.x + 1 mm\nb = a\nc = 3 mm", shaft="x = bush.z", bush="z = gear.a\nfree = 1"
    )
    assert lines_of(log) == [
        "gear.md:5:1: gear.a hangs on itself: gear.a → shaft.x → bush.z → gear.a"
        " [see shaft.md:5:1] [see bush.md:5:1]",
        "shaft.md:5:1: shaft.x hangs on itself: shaft.x → bush.z → gear.a → shaft.x"
        " [see bush.md:5:1] [see gear.md:5:1]",
        "bush.md:5:1: bush.z hangs on itself: bush.z → gear.a → shaft.x → bush.z"
        " [see gear.md:5:1] [see shaft.md:5:1]",
    ]
    assert names_of(log, "gear") == ["c"]
    assert names_of(log, "bush") == ["free"]


def test_a_part_alone_and_a_name_that_its_page_lacks() -> None:
    log = project(
        gear="a = shaft\nb = shaft.jurnal\nc = shaft.nothing_like_it\nd = shaft.journal.nope",
        shaft="journal = 16 mm f7",
    )
    assert lines_of(log) == [
        "gear.md:5:5: `shaft` is the part of another page; a name of that page is wanted"
        " (write shaft.NAME)",
        "gear.md:6:11: `jurnal` is not a name of the page of `shaft` (did you mean shaft.journal?)",
        "gear.md:7:11: `nothing_like_it` is not a name of the page of `shaft`",
        "gear.md:8:19: a length has no field `nope` (a size has min, max, nominal, middle,"
        " tolerance, upper, lower, rss, measured)",
    ]


def test_a_part_that_is_misspelt_has_a_near_hint() -> None:
    log = project(gear="a = shfat.journal", shaft="journal = 16 mm f7")
    assert lines_of(log) == [
        "gear.md:5:5: `shfat` is not a name of this page (did you mean shaft?)"
    ]


def test_a_page_s_own_name_comes_before_a_part_with_a_caution() -> None:
    log = project(gear="shaft = 5 mm\na = shaft + 1 mm", shaft="journal = 16 mm f7")
    assert lines_of(log) == [
        "gear.md:5:1: caution: `shaft` is also the part of shaft.md;"
        " on this page its own name counts"
    ]
    assert log.pages["gear.md"].results[1].value.nominal == 6


def test_use_gives_a_page_of_another_project_a_name() -> None:
    log = read_log(
        {
            "one/gear.md": block('use "two/shaft" as other\na = other.journal', "part: gear"),
            "two/shaft.md": block("journal = 16 mm f7", "part: shaft"),
        }
    )
    assert lines_of(log) == []
    assert log.pages["one/gear.md"].results[0].value.tolerance_class == "f7"


def test_a_page_that_is_not_there_is_told_once() -> None:
    log = project(gear='use "nowhere" as other\na = other.journal\nb = 1', shaft="x = 1")
    assert lines_of(log) == ["gear.md:5:5: there is no page `nowhere` in this log"]
    assert names_of(log, "gear") == ["b"]


def test_a_name_of_use_is_given_once() -> None:
    log = project(gear='use "shaft" as s2\ns2 = 3', shaft="x = 1")
    assert lines_of(log) == [
        "gear.md:6:1: `s2` is given at line 5 already"
        " (a name is given once on a page; give this one another)"
    ]
