"""Blocks and headers of a page: where they are, which are none, and what each mistake says."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mkdocs.utils.meta import get_data

from shoplog.log import fences, prose, source
from shoplog.log.blocks import PageSource, read_page
from shoplog.problems import CATALOGUE, Message

MESSAGES = [
    one for room in (fences, prose, source) for one in vars(room).values() if type(one) is Message
]


def page(*lines: str) -> PageSource:
    return read_page("page.md", "\n".join(lines) + "\n")


def said(read: PageSource) -> list[str]:
    return [str(problem) for problem in read.problems]


def places(read: PageSource) -> list[tuple[str, int, int, int]]:
    return [(one.kind, one.first_line, one.last_line, one.column) for one in read.blocks]


def texts(read: PageSource) -> list[list[tuple[int, int, str]]]:
    return [[(line.number, line.column, line.text) for line in one.lines] for one in read.blocks]


# Where a block stands


@pytest.mark.parametrize("sign", ["```", "~~~", "`````", "~~~~"])
@pytest.mark.parametrize("kind", ["calc", "setup"])
def test_a_fence_that_says_calc_or_setup_is_a_block(sign: str, kind: str) -> None:
    read = page("# Bush", "", f"{sign}{kind}", "a: 1", "  b: 2", sign)
    assert places(read) == [(kind, 3, 6, 1)]
    assert texts(read) == [[(4, 1, "a: 1"), (5, 1, "  b: 2")]]
    assert read.blocks[0].closed
    assert said(read) == []


@pytest.mark.parametrize("opening", ["``` calc", "```calc   ", "```\tcalc", "   ```calc"])
def test_blanks_about_the_fence_make_no_difference(opening: str) -> None:
    read = page(opening, "a = 1", "```")
    assert [one.kind for one in read.blocks] == ["calc"]
    assert said(read) == []


def test_a_longer_fence_closes_a_block_and_a_shorter_one_does_not() -> None:
    read = page("````calc", "a = 1", "```", "b = 2", "`````")
    assert texts(read) == [[(2, 1, "a = 1"), (3, 1, "```"), (4, 1, "b = 2")]]


def test_lines_are_counted_in_the_file_with_its_front_matter() -> None:
    read = page("---", "part: bush", "---", "", "", "```calc", "a = 1", "```")
    assert read.body_line == 6
    assert places(read) == [("calc", 6, 8, 1)]
    assert texts(read) == [[(7, 1, "a = 1")]]


@pytest.mark.parametrize(
    "opener",
    [
        "- the bore",
        "* the bore",
        "1. the bore",
        "!!! note",
        '!!! note "The bore"',
        "??? note",
        '???+ note "The bore"',
        '=== "Lathe"',
        "[^1]: The bore",
        ":   The bore",
    ],
)
@pytest.mark.parametrize("gap", [[], [""]])
def test_a_block_stands_in_a_container(opener: str, gap: list[str]) -> None:
    lines = [opener, *gap, "    ```calc", "    a = 1", "      b = 2", "    ```", "", "After."]
    read = page("Before.", "", *lines)
    first = 4 + len(gap)
    assert places(read) == [("calc", first, first + 3, 5)]
    assert texts(read) == [[(first + 1, 5, "a = 1"), (first + 2, 5, "  b = 2")]]
    assert read.blocks[0].indent == 4
    assert said(read) == []


def test_a_block_stands_in_containers_within_containers() -> None:
    read = page(
        "- one",
        "",
        "    1. two",
        "",
        '        === "Tab"',
        "",
        "            ```setup",
        "            date: 2026-03-14",
        "            ```",
        "    ```calc",
        "    a = 1",
        "    ```",
    )
    assert places(read) == [("setup", 7, 9, 13), ("calc", 10, 12, 5)]
    assert [one.indent for one in read.blocks] == [12, 4]
    assert texts(read) == [[(8, 13, "date: 2026-03-14")], [(11, 5, "a = 1")]]


def test_a_tab_is_as_good_as_four_blanks_in_a_container() -> None:
    read = page("- one", "", "\t```calc", "\ta = 1", "\t\tb = 2", "\t```")
    assert texts(read) == [[(4, 2, "a = 1"), (5, 2, "\tb = 2")]]
    assert said(read) == []


def test_items_indented_by_two_or_three_columns_contain_a_block_at_four() -> None:
    read = page("- one", "  - two", "    ```calc", "    a = 1", "    ```")
    assert places(read) == [("calc", 3, 5, 5)]


def test_a_text_that_goes_on_does_not_close_its_item() -> None:
    read = page("- one", "goes on", "", "    ```calc", "    a = 1", "    ```")
    assert places(read) == [("calc", 4, 6, 5)]


# What is no block


def test_a_longer_fence_only_shows_a_block() -> None:
    read = page("````markdown", "```calc", "a = 1", "```", "````")
    assert read.blocks == ()
    assert said(read) == []


@pytest.mark.parametrize("info", ["python", "", "{.calc}", '{.calc title="x"}', "text calc"])
def test_another_fence_is_a_listing(info: str) -> None:
    read = page(f"```{info}", "a = 1", "```", "", "```calc", "a = 1", "```")
    assert places(read) == [("calc", 5, 7, 1)]
    assert said(read) == []


@pytest.mark.parametrize(
    ("begin", "end"),
    [
        ("<!--", "-->"),
        ("Text <!-- left out", "--> goes on"),
        ("<pre>", "</pre>"),
        ('<PRE class="x">', "</PRE>"),
        ("<script>", "</script>"),
        ("<style>", "</style>"),
    ],
)
def test_a_fence_in_a_comment_or_in_raw_text_is_no_block(begin: str, end: str) -> None:
    read = page(begin, "", "```calc", "a = 1", "```", end, "", "```calc", "b = 1", "```")
    assert places(read) == [("calc", 8, 10, 1)]


def test_a_comment_that_nothing_ends_hides_no_block() -> None:
    assert places(page("<!-- to do", "", "```calc", "a = 1", "```")) == [("calc", 3, 5, 1)]


def test_a_comment_sign_in_code_hides_no_block() -> None:
    read = page("Write `<!--` first.", "", "```calc", "a = 1", "```", "", "-->")
    assert places(read) == [("calc", 3, 5, 1)]


def test_a_listing_that_nothing_closes_hides_no_block() -> None:
    assert places(page("~~~python", "", "```calc", "a = 1", "```")) == [("calc", 3, 5, 1)]


@pytest.mark.parametrize("html", ["<div markdown>", "<div>", '<details markdown="1">'])
def test_a_block_may_stand_in_an_element(html: str) -> None:
    read = page(html, "", "```calc", "a = 1", "```", "", "</div>")
    assert places(read) == [("calc", 3, 5, 1)]


# What is wrong with a block


@pytest.mark.parametrize(
    ("lines", "message"),
    [
        (
            ["Text.", "", "```calc", "a = 1"],
            "page.md:3:1: this calc block is not closed (close it with a line that holds ``` only)",
        ),
        (
            ["~~~setup", "# to be done", "~~~"],
            "page.md:1:1: this setup block holds nothing"
            " (write a line into it, or take the fence away)",
        ),
        (
            ["```calc", "```"],
            "page.md:1:1: this calc block holds nothing"
            " (write a line into it, or take the fence away)",
        ),
        (
            ["Text.", "", "     ```calc", "     a = 1", "     ```"],
            "page.md:3:6: this calc fence is indented by 5 columns, so it is shown as code and not"
            " worked out (begin its lines at the margin of the text around it; only to show it,"
            " put a longer fence around it)",
        ),
        (
            ["Text.", "", "\t```setup", "\ta: 1", "\t```"],
            "page.md:3:2: this setup fence is indented by a tab, so it is shown as code and not"
            " worked out (begin its lines at the margin of the text around it; only to show it,"
            " put a longer fence around it)",
        ),
        (
            ["- item", "", "        ```calc", "        a = 1", "        ```"],
            "page.md:3:9: this calc fence is indented by 4 columns, so it is shown as code and not"
            " worked out (begin its lines at the margin of the text around it; only to show it,"
            " put a longer fence around it)",
        ),
        (
            ["> Text.", ">", "> ```calc", "> a = 1", "> ```"],
            "page.md:3:3: a calc block cannot stand in a quotation, and this one is not worked out"
            " (take the > signs away)",
        ),
        (
            ["1. ```setup", "    a: 1", "    ```"],
            "page.md:1:4: this setup fence stands on the line of a list item, and its block is not"
            " worked out (put the fence on a line of its own, indented by four columns)",
        ),
    ],
)
def test_a_block_that_is_wrong_is_a_problem_at_its_fence(lines: list[str], message: str) -> None:
    assert said(page(*lines)) == [message]


@pytest.mark.parametrize(
    ("info", "kind"),
    [
        ("Calc", "calc"),
        ("CALC", "calc"),
        ("calc bore", "calc"),
        ("calc:", "calc"),
        ('calc title="x"', "calc"),
        ("calculation", "calc"),
        ("Setup", "setup"),
        ("setups", "setup"),
        ("setup, finish", "setup"),
    ],
)
def test_an_info_string_that_is_nearly_ours_is_a_problem(info: str, kind: str) -> None:
    read = page("", f"```{info}", "a = 1", "```")
    assert read.blocks == ()
    assert said(read) == [
        f"page.md:2:1: `{info}` does not open a {kind} block, so it is shown as a listing and not"
        f" worked out (write ```{kind} and nothing after it)"
    ]


def test_the_lines_of_an_unclosed_block_are_kept_up_to_the_end_of_the_page() -> None:
    read = page("```calc", "a = 1", "", "b = 2", "")
    assert texts(read) == [[(2, 1, "a = 1"), (3, 1, ""), (4, 1, "b = 2")]]
    assert not read.blocks[0].closed


def test_an_unclosed_block_in_a_container_ends_with_it() -> None:
    read = page("- item", "    ```calc", "    a = 1", "", "Text.", "", "```calc", "b = 2", "```")
    assert texts(read) == [[(3, 5, "a = 1")], [(8, 1, "b = 2")]]
    assert [one.closed for one in read.blocks] == [False, True]
    assert [str(one.place) for one in read.problems] == ["page.md:2:5"]


def test_a_fence_with_a_word_ends_an_unclosed_block() -> None:
    read = page("```calc", "a = 1", "", "```setup", "date: 2026-03-14", "```")
    assert texts(read) == [[(2, 1, "a = 1")], [(5, 1, "date: 2026-03-14")]]
    assert [str(one.place) for one in read.problems] == ["page.md:1:1"]


def test_a_block_that_is_too_large_is_kept_without_its_lines() -> None:
    read = page("```calc", *["# a long note"] * 5000, "a = 1", "```")
    assert [one.lines for one in read.blocks] == [()]
    assert said(read) == [
        "page.md:1:1: this calc block has 70006 characters; it may have 65536, and none is read"
        " (make several blocks of it)"
    ]


def test_a_page_has_at_most_five_hundred_blocks() -> None:
    read = page(*["```calc", "a = 1", "```"] * 502)
    assert len(read.blocks) == 500
    assert said(read) == [
        "page.md:1501:1: the page has more than 500 blocks; those from here on are not worked out"
        " (make several pages of it)"
    ]


def test_a_problem_shows_its_line_with_a_caret() -> None:
    (problem,) = page("- item", "", "    ```calc", "    a = 1").problems
    assert problem.text == (
        "page.md:3:5: this calc block is not closed\n"
        "        ```calc\n"
        "        ^^^^^^^\n"
        "  hint: close it with a line that holds ``` only"
    )


# The header


def test_the_header_is_read_with_the_line_of_each_key() -> None:
    read = page("---", "part: shaft", "made: 4", "date: 2026-03-14", "---", "", "# Shaft")
    assert read.front_matter == {"part": "shaft", "made": 4, "date": datetime.date(2026, 3, 14)}
    assert read.front_matter_lines == {"part": 2, "made": 3, "date": 4}
    assert read.body_line == 7
    assert said(read) == []


@pytest.mark.parametrize(
    ("header", "message"),
    [
        (
            ["part: shaft", "mates: [gear"],
            "page.md:3:8: the header cannot be read: expected ',' or ']', but got '<stream end>';"
            " MkDocs would show it as text (put a text that holds a colon or a sign in quotes)",
        ),
        (
            ["date: 2026-13-45"],
            "page.md:2:7: the header cannot be read: month must be in 1..12; MkDocs would show it"
            " as text (put a text that holds a colon or a sign in quotes)",
        ),
        (
            ["made: !!timestamp x"],
            "page.md:2:7: the header cannot be read: the value is not what its tag says; MkDocs"
            " would show it as text (put a text that holds a colon or a sign in quotes)",
        ),
        (
            ["part: a\0b"],
            "page.md:2:8: the header cannot be read: the character U+0000 may not stand in it;"
            " MkDocs would show it as text (put a text that holds a colon or a sign in quotes)",
        ),
        (
            ["shaft"],
            "page.md:1:1: the header holds no `key: value` lines, so MkDocs would show it as text"
            " (write `part: name` and the like, or leave the --- lines out)",
        ),
        (
            ["- shaft"],
            "page.md:1:1: the header holds no `key: value` lines, so MkDocs would show it as text"
            " (write `part: name` and the like, or leave the --- lines out)",
        ),
    ],
)
def test_a_header_that_mkdocs_shows_as_text_is_a_problem(header: list[str], message: str) -> None:
    text = "\n".join(["---", *header, "---", "", "# Shaft", ""])
    read = read_page("page.md", text)
    assert said(read) == [message]
    assert read.front_matter == {}
    assert read.body_line == 1
    if "\0" not in text:  # the other reader of YAML that MkDocs may have takes this one
        assert get_data(text) == (text, {})


def test_a_header_without_its_end_is_a_problem() -> None:
    read = page("---", "part: shaft", "", "# Shaft")
    assert said(read) == [
        "page.md:1:1: the header has no closing --- line, so MkDocs would show it as text (close it"
        " with a line that holds --- only, and an empty line)"
    ]


def test_a_key_that_is_given_twice_is_a_problem() -> None:
    read = page("---", "part: shaft", "part: bush", "---", "", "# Shaft")
    assert read.front_matter == {"part": "bush"}
    assert said(read) == [
        "page.md:3:1: the header gives `part` twice: here and on line 2 (keep one of them)"
    ]


def test_a_yaml_reference_is_refused_before_it_can_unfold() -> None:
    laughs = ["a0: &a0 [x, x]", *(f"a{n}: &a{n} [{f'*a{n - 1}, ' * 9}x]" for n in range(1, 30))]
    read = page("---", *laughs, "---", "", "# Shaft")
    assert read.front_matter == {}
    assert read.body_line == 34
    assert said(read) == [
        "page.md:2:5: the header uses `&a0`, a YAML reference, which is not read here"
        ' (write the value out, or in quotes if it is a text: "&a0")'
    ]


def test_a_header_that_is_too_deep_or_too_large_is_refused() -> None:
    deep = page("---", "part: " + "[" * 30_000, "---", "", "# Shaft")
    assert said(deep) == [
        "page.md:2:26: the header nests lists and mappings more than 20 deep"
        " (a header takes short lines, as `mates: [gear, bush]`)"
    ]
    large = page("---", "part: " + "a" * 70_000, "---", "", "# Shaft")
    assert said(large) == [
        "page.md:1:1: the header has 70007 characters; it may have 65536"
        " (put the text into the page)"
    ]
    assert large.body_line == 5


@pytest.mark.parametrize(
    ("lines", "shown", "key"),
    [
        (["Feed: 120 mm/min", "", "Text."], "this line", "Feed"),
        (["Feed: 120 mm/min", "Speed: 300 rpm", "Text."], "these 2 lines", "Feed"),
        (["Feed: 120 mm/min", "    or so", "Text."], "these 2 lines", "Feed"),
        (["  cut-1:", "Text."], "this line", "cut-1"),
    ],
)
def test_lines_that_mkdocs_takes_for_a_header_are_a_problem(
    lines: list[str], shown: str, key: str
) -> None:
    read = page(*lines)
    assert said(read) == [
        f"page.md:1:1: MkDocs takes {shown} for a header, as `{key}:` opens the page, and would not"
        " show it (open the page with a heading or an empty line)"
    ]
    assert lines[read.body_line - 1] == "Text."
    body, taken = get_data("\n".join(lines))
    assert body == "Text."
    assert taken


@pytest.mark.parametrize("opening", ["# Bush", "", "   "])
def test_a_heading_or_an_empty_line_keeps_the_lines_that_mkdocs_would_take(opening: str) -> None:
    text = f"{opening}\nFeed: 120 mm/min\n"
    assert said(read_page("page.md", text)) == []
    assert "Feed: 120 mm/min" in get_data(text)[0]


@pytest.mark.parametrize("text", ["http://example.org\n", "Text: goes on", "Ø16: a bore\n"])
def test_only_what_mkdocs_takes_is_told_of(text: str) -> None:
    is_taken = get_data(text)[0] != text.lstrip("\n")
    assert [one.code for one in read_page("p", text).problems] == ["line-lost"] * is_taken


@given(
    st.lists(
        st.sampled_from(
            ["---", "--- ", "...", "a: 1", "b: [c]", "", "", "  ", "Text.", "    more", "[x", "# H"]
        ),
        max_size=9,
    ),
    st.booleans(),
)
def test_the_body_begins_where_mkdocs_begins_it(lines: list[str], ends: bool) -> None:
    text = "\n".join(lines) + "\n" * ends
    read = read_page("page.md", text)
    body = "\n".join(read.lines[read.body_line - 1 :])
    assert body.lstrip("\n") == get_data(text)[0].lstrip("\n")


# What any file may hold


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_every_line_end_counts_as_one(end: str) -> None:
    read = read_page("page.md", end.join(["---", "part: a", "---", "```calc", "a = 1", "```", ""]))
    assert places(read) == [("calc", 4, 6, 1)]
    assert read.front_matter == {"part": "a"}
    assert "\r" not in read.text


def test_a_byte_order_mark_takes_no_column() -> None:
    read = read_page("page.md", "\ufeff```calc\na = 1\n")
    assert [str(one.place) for one in read.problems] == ["page.md:1:1"]
    assert read.lines[0] == "```calc"


@pytest.mark.parametrize("text", ["", "\n", "\0", "\ufeff", "```calc", "---", "---\n---\n", "[="])
def test_the_smallest_pages_are_read(text: str) -> None:
    read = read_page("page.md", text)
    assert 1 <= read.body_line <= len(read.lines) + 1


@given(st.text(alphabet="`~-> \t\n[]=\"\\<!/prediv$|:#*1.ac'°\r\0", max_size=200))
def test_any_text_is_read_and_every_place_lies_in_it(text: str) -> None:
    read = read_page("page.md", text)
    for problem in read.problems:
        line = read.lines[problem.place.line - 1]
        assert problem.place.source == line
        assert 1 <= problem.place.column <= max(1, len(line))
    for block in read.blocks:
        assert 1 <= block.first_line <= block.last_line <= len(read.lines)
        for one in block.lines:
            assert read.lines[one.number - 1][one.column - 1 :] == one.text
    for value in read.prose:
        line = read.lines[value.line - 1]
        assert line[value.column - 1 :].startswith(value.raw)
        assert line[value.expression_column - 1 :].startswith(value.expression)


@pytest.mark.parametrize(
    "text",
    [
        "`" * 1_000_000,
        "```\n" * 60_000,
        "~~~x\n" * 60_000,
        "> ```x\n" * 60_000,
        "[=" * 500_000,
        "[" * 1_000_000,
        '[="' * 300_000,
        "<!--\n" * 60_000,
        "<div>\n" * 60_000,
        "<a [=" * 200_000,
        "$a " * 300_000,
        "\\( " * 300_000,
        "|" + " " * 500_000 + "x\n" + " " * 500_000 + "-x\n[=a]",
    ],
    ids=lambda text: repr(text[:6]),
)
def test_a_page_made_to_be_slow_is_read_in_one_pass(text: str) -> None:
    """Read by a way that is not linear, any of these takes minutes."""
    assert read_page("page.md", text).blocks == ()


@pytest.mark.parametrize("code", [one.code for one in MESSAGES if one.example])
def test_the_example_of_a_message_causes_it(code: str) -> None:
    assert code in [one.code for one in read_page("page.md", CATALOGUE[code].example).problems]
