"""Values in prose: where they are found, where not, and what Markdown would make of some."""

from __future__ import annotations

import pytest

from shoplog.log.blocks import PageSource, read_page


def page(*lines: str) -> PageSource:
    return read_page("page.md", "\n".join(lines) + "\n")


def found(source: PageSource) -> list[tuple[int, int, str]]:
    return [(value.line, value.column, value.expression) for value in source.prose]


def said(source: PageSource) -> list[str]:
    return [str(problem) for problem in source.problems]


def test_a_value_has_its_place_in_the_file_and_so_has_its_expression() -> None:
    source = page("---", "part: a", "---", "", "# Bore", "", "It is [=  bore to in ] wide.")
    (value,) = source.prose
    assert (value.line, value.column) == (7, 7)
    assert (value.expression, value.expression_column) == ("bore to in", 11)
    assert value.raw == "[=  bore to in ]"


@pytest.mark.parametrize(
    "lines",
    [
        ["# Bore [=bore]"],
        ["Bore", "wide [=bore]", "===="],
        ["- item", "- and [=bore]"],
        ["1. item", "", "    more [=bore]"],
        ["> and [=bore]"],
        ["!!! note", "    and [=bore]"],
        ['!!! note "and [=bore]"'],
        ['=== "Tab"', "", "    and [=bore]"],
        ["[^1]: and [=bore]"],
        ["Bore", ":   and [=bore]"],
        ["| a | b |", "|---|---|", "| 1 | [=bore] |"],
        ["**and *[=bore]***"],
        ["![the bore, [=bore]](bore.png)"],
        ["[the bore, [=bore]](bore.md)"],
        ['[bore](bore.md "and [=bore]")'],
        ["<b>and</b> [=bore]"],
        ["<div markdown>", "and [=bore]", "</div>"],
        ["<!-- no --> [=bore]"],
        ["<!-- no", "no --> [=bore]"],
        ["`code` [=bore] `code`"],
        ["a ` b [=bore]"],
        ["It costs $3 and is [=bore] wide, or $4."],
        ["```python", "```", "and [=bore]"],
        ["text", "    goes on [=bore]"],
        ["[=bore]: the bore"],
        ["*[=bore]: the bore"],
    ],
)
def test_a_value_is_found_in_every_kind_of_prose(lines: list[str]) -> None:
    source = page(*lines)
    number = next(i for i, line in enumerate(lines) if "[=bore]" in line)
    assert found(source) == [(number + 1, lines[number].index("[=bore]") + 1, "bore")]
    assert said(source) == []


@pytest.mark.parametrize(
    "lines",
    [
        ["`[=bore]`"],
        ["``a ` [=bore]``"],
        ["`begins", "[=bore]", "ends`"],
        ["```", "[=bore]", "```"],
        ["```calc", "a = 1  # [=bore]", "```"],
        ["Text.", "", "    [=bore]"],
        ["- item", "", "        [=bore]"],
        ["<!-- [=bore] -->"],
        ["Text <!-- [=bore] --> goes on."],
        ["Text <!--", "", "[=bore]", "", "-->"],
        ['<img alt="[=bore]">'],
        ['Text <b title="[=bore]">goes</b> on.'],
        ["<div>", "[=bore]", "</div>"],
        ["<div>", "<div>", "</div>", "[=bore]", "</div>"],
        ["<pre>", "[=bore]", "</pre>"],
        ["<script>[=bore]</script>"],
        ["$a_{[=bore]}$"],
        ["$$", "[=bore]", "$$"],
        [r"\( [=bore] \)"],
        [r"\[ [=bore] \]"],
        [r"\[=bore]"],
        [r"\\\[=bore]"],
    ],
)
def test_nothing_is_a_value_in_code_html_mathematics_or_after_a_backslash(
    lines: list[str],
) -> None:
    assert found(page(*lines)) == []
    assert found(page(*lines, "", "[=after]")) == [(len(lines) + 2, 1, "after")]


def test_an_element_that_nothing_closes_is_raw_to_the_end_of_the_page() -> None:
    source = page("[=bore]", "", "<div>", "[=a]", "", "[=b]", "", "```calc", "c = 1", "```")
    assert found(source) == [(1, 1, "bore")]
    assert len(source.blocks) == 1


def test_an_escaped_backslash_escapes_no_value() -> None:
    assert found(page(r"\\[=bore]")) == [(1, 3, "bore")]


@pytest.mark.parametrize(
    "expression",
    [
        "sizes[0]",
        "max([a, b[1]])",
        'thread("M10x1.5-6H").pitch',
        'drill("#7]").size',
        'drill("[").size',
        "8°25'30\"",
        "45° + 8°25'30\"",
        "sin(8°25')",
        '3"',
        "a < b",
        "(a + b",
    ],
)
def test_a_value_ends_by_its_brackets_and_knows_texts_and_angles(expression: str) -> None:
    source = page(f"It is [={expression}] wide, [=b] deep.")
    assert [value.expression for value in source.prose] == [expression, "b"]
    assert said(source) == []


def test_two_inch_signs_make_no_text_of_what_is_between_them() -> None:
    source = page('It is [=3"] or [=4"] wide.')
    assert [value.expression for value in source.prose] == ['3"', '4"']


def test_values_stand_side_by_side() -> None:
    assert found(page("[=a][=b]")) == [(1, 1, "a"), (1, 5, "b")]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "It is [=] wide.",
            "page.md:1:7: there is nothing to work out between `[=` and `]` (write a name or an"
            r" expression, as [=bore]; to show the signs themselves, \[=])",
        ),
        (
            "It is [=bore wide.",
            "page.md:1:7: this value has no closing `]` on its line (close it on the line it begins"
            r" on, as [=bore]; to show the signs themselves, \[=)",
        ),
        (
            "It is [=max([a, b] wide.",
            "page.md:1:7: this value has no closing `]` on its line (close it on the line it begins"
            r" on, as [=bore]; to show the signs themselves, \[=)",
        ),
        (
            "It is [=bore](bore.md) wide.",
            "page.md:1:7: the `(` after `[=bore]` makes it the text of a link, and the value is not"
            " shown (put a space before the bracket; a link around a value is [[=bore]](page.md))",
        ),
        (
            "It is [=bore][drawing] wide.",
            "page.md:1:7: the `[` after `[=bore]` makes it the text of a link, and the value is not"
            " shown (put a space and a word before the bracket; a link around a value is"
            " [[=bore]][name])",
        ),
        (
            "It is [=bore | 2] wide.",
            "page.md:1:7: the `|` inside `[=bore | 2]` begins a new cell in a table, and no"
            " expression holds one (leave the `|` out)",
        ),
    ],
)
def test_what_markdown_would_lose_is_a_problem(text: str, message: str) -> None:
    source = page(text, "It is [=deep].")
    assert said(source) == [message]
    assert found(source) == [(2, 7, "deep")]


def test_a_value_that_is_not_closed_hides_none_after_it() -> None:
    source = page("It is [=bore and [=depth] deep.")
    assert [str(one.place) for one in source.problems] == ["page.md:1:7"]
    assert found(source) == [(1, 18, "depth")]


def test_a_pipe_in_a_row_of_a_table_is_told_at_its_value() -> None:
    source = page("| a | b |", "|---|:-:|", "| [=a|b] | `code |", "| [=c] | ` |")
    assert [one.code for one in source.problems] == ["value-cell"]
    assert found(source) == [(4, 3, "c")]


def test_code_goes_on_over_lines_of_one_paragraph_only() -> None:
    assert found(page("a ` b", "", "[=bore] ` c")) == [(3, 1, "bore")]
    assert found(page("- a ` b", "- [=bore] ` c")) == [(2, 3, "bore")]


def test_a_page_has_at_most_two_thousand_values() -> None:
    source = page(*["[=a] [=b]"] * 1001)
    assert len(source.prose) == 2000
    assert said(source) == [
        "page.md:1001:1: the prose of this page holds more than 2000 values; those from here on are"
        " left out (make several pages of it)"
    ]
