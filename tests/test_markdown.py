"""The Python-Markdown extension: what a page becomes, with and without Material's extensions."""

from __future__ import annotations

from html import escape
from importlib.metadata import entry_points
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown import Markdown

from shoplog.log.blocks import PageSource, read_page
from shoplog.markdown import CHANGED, STRAY, ShoplogExtension, makeExtension

MATERIAL: dict[str, dict[str, Any]] = {
    "abbr": {},
    "admonition": {},
    "attr_list": {},
    "def_list": {},
    "footnotes": {},
    "md_in_html": {},
    "tables": {},
    "toc": {"permalink": True},
    "pymdownx.arithmatex": {"generic": True},
    "pymdownx.betterem": {},
    "pymdownx.details": {},
    "pymdownx.highlight": {"use_pygments": False},
    "pymdownx.inlinehilite": {},
    "pymdownx.keys": {},
    "pymdownx.mark": {},
    "pymdownx.smartsymbols": {},
    "pymdownx.superfences": {},
    "pymdownx.tabbed": {"alternate_style": True},
    "pymdownx.tasklist": {},
    "pymdownx.tilde": {},
}
PLAIN: dict[str, dict[str, Any]] = {
    "fenced_code": {}, "tables": {}, "footnotes": {}, "def_list": {}, "admonition": {}, "toc": {},
}  # fmt: skip
HOSTS = [pytest.param(MATERIAL, id="material"), pytest.param(PLAIN, id="plain")]
Host = dict[str, dict[str, Any]]


class ShownPlainly:
    """A view that shows a block by its number, kind and lines, and a value by its expression."""

    def __init__(self, text: str, top: str = "") -> None:
        self.source: PageSource = read_page("page.md", text)
        self.top = top

    def block_html(self, index: int) -> str:
        block = self.source.blocks[index]
        lines = escape("; ".join(line.text for line in block.lines))
        return f'<div class="block">{index} {block.kind}: {lines}</div>'

    def prose_html(self, expression: str) -> str:
        return f'<span class="value" title="full">{escape(expression)}</span>'

    def prose_text(self, expression: str) -> str:
        return f"value of {expression}"

    def top_html(self) -> str:
        return self.top


def converter(host: Host, extension: ShoplogExtension | None = None) -> Markdown:
    extensions: list[Any] = list(host)
    return Markdown(
        extensions=extensions + ([extension] if extension else []), extension_configs=host
    )


def html_of(text: str, host: Host = MATERIAL) -> str:
    return converter(host, ShoplogExtension(view_factory=ShownPlainly)).convert(text)


BLOCK = '<div class="block">0 calc: a = 1</div>'
VALUE = '<span class="value" title="full">bore</span>'


# Blocks


@pytest.mark.parametrize("host", [*HOSTS, pytest.param({}, id="bare")])
def test_a_block_stands_between_the_paragraphs_about_it(host: Host) -> None:
    expected = f"<p>Before.</p>\n{BLOCK}\n<p>After.</p>"
    assert html_of("Before.\n\n```calc\na = 1\n```\n\nAfter.", host) == expected
    assert html_of("Before.\n~~~~ calc\na = 1\n~~~~\nAfter.", host) == expected


@pytest.mark.parametrize("host", HOSTS)
@pytest.mark.parametrize("gap", ["", "\n"])
def test_a_block_stays_in_its_list_item(host: Host, gap: str) -> None:
    text = f"- one\n{gap}    ```calc\n    a = 1\n    ```\n- two"
    expected = f"<ul>\n<li>\n<p>one</p>\n{BLOCK}\n</li>\n<li>\n<p>two</p>\n</li>\n</ul>"
    assert html_of(text, host) == expected


@pytest.mark.parametrize("host", HOSTS)
def test_a_block_stays_in_a_list_within_a_list(host: Host) -> None:
    text = "1. one\n\n    - two\n\n        ```calc\n        a = 1\n        ```\n\n2. three"
    inner = f"<ul>\n<li>\n<p>two</p>\n{BLOCK}\n</li>\n</ul>"
    expected = f"<ol>\n<li>\n<p>one</p>\n{inner}\n</li>\n<li>\n<p>three</p>\n</li>\n</ol>"
    assert html_of(text, host) == expected


@pytest.mark.parametrize("host", HOSTS)
@pytest.mark.parametrize("gap", ["", "\n"])
def test_a_block_stays_in_its_admonition(host: Host, gap: str) -> None:
    text = f'!!! note "Bore"\n{gap}    ```calc\n    a = 1\n    ```\n    More.\n\nAfter.'
    title = '<p class="admonition-title">Bore</p>'
    expected = f'<div class="admonition note">\n{title}\n{BLOCK}\n<p>More.</p>\n</div>'
    assert html_of(text, host) == f"{expected}\n<p>After.</p>"


def test_a_block_stays_in_details_and_in_tabs() -> None:
    block = "```calc\na = 1\n```".replace("\n", "\n    ")
    details = html_of(f'??? note "Bore"\n    {block}\n')
    assert details == f'<details class="note">\n<summary>Bore</summary>\n{BLOCK}\n</details>'
    tabs = html_of(f'=== "Lathe"\n\n    {block}\n\n=== "Mill"\n\n    Text.\n')
    assert f'<div class="tabbed-block">\n{BLOCK}\n</div>' in tabs
    assert '<div class="tabbed-block">\n<p>Text.</p>\n</div>' in tabs


@pytest.mark.parametrize("host", HOSTS)
@pytest.mark.parametrize("gap", ["", "\n"])
def test_a_block_stays_in_its_footnote_before_the_link_back(host: Host, gap: str) -> None:
    html = html_of(f"Text.[^1]\n\n[^1]: Note.\n{gap}    ```calc\n    a = 1\n    ```\n", host)
    assert f'<li id="fn:1">\n<p>Note.</p>\n{BLOCK}\n<p>&#160;<a class="footnote-backref"' in html


@pytest.mark.parametrize("host", HOSTS)
def test_a_block_stays_in_its_definition(host: Host) -> None:
    html = html_of("Bore\n:   Wide.\n\n    ```calc\n    a = 1\n    ```\n", host)
    assert html == f"<dl>\n<dt>Bore</dt>\n<dd>\n<p>Wide.</p>\n{BLOCK}\n</dd>\n</dl>"


def test_a_block_stays_in_an_element_with_markdown_in_it() -> None:
    html = html_of('<div class="x" markdown>\n\n```calc\na = 1\n```\n\n</div>')
    assert html == f'<div class="x">\n{BLOCK}\n</div>'


@pytest.mark.parametrize("host", HOSTS)
def test_a_block_that_is_only_shown_stays_a_listing(host: Host) -> None:
    html = html_of("````text\n```calc\na = 1\n```\n[=bore]\n````\n\n```calc\na = 1\n```", host)
    assert "```calc\na = 1\n```\n[=bore]" in html
    assert html.count("block") == 1


def test_a_fence_that_is_indented_is_code_as_its_problem_says() -> None:
    html = html_of("Text.\n\n    ```calc\n    a = 1\n    ```\n\n[=bore]", PLAIN)
    assert "<pre><code>```calc\na = 1\n```\n</code></pre>" in html


@given(
    st.lists(
        st.tuples(
            st.sampled_from([0, 0, 4, 8]),
            st.sampled_from(
                ["- a", "1. b", "text", "!!! note", "??? note", '=== "T"', "", "", "BLOCK", "BLOCK"]
            ),
        ),
        max_size=7,
    )
)
def test_every_block_that_is_read_is_shown_once(parts: list[tuple[int, str]]) -> None:
    lines = [
        " " * indent + line if line else ""
        for indent, part in parts
        for line in (["```calc", "a = 1", "```", ""] if part == "BLOCK" else [part])
    ]
    text = "\n".join(["Text.", "", *lines])
    html = html_of(text)
    blocks = read_page("page.md", text).blocks
    assert [html.count(f'<div class="block">{n} calc') for n in range(len(blocks))] == [1] * len(
        blocks
    )


# A block that was changed on its way


def test_a_block_that_another_extension_changed_is_told_and_never_shown_with_old_results() -> None:
    view = ShownPlainly("```calc\na = 1\n```\n\n```calc\nb = 2\n```\n")
    md = converter(MATERIAL, ShoplogExtension(view))
    html = md.convert("```calc\na = 9\n```\n\n```calc\nb = 2\n```\n")
    told = f'<div class="shoplog-problem" role="note"><p>{CHANGED}</p></div>'
    assert html == f'{told}\n<div class="block">1 calc: b = 2</div>'


def test_blocks_that_were_put_in_or_taken_out_do_not_move_the_others() -> None:
    view = ShownPlainly("```calc\na = 1\n```\n\n```calc\nb = 2\n```\n")
    put_in = "```calc\nx = 0\n```\n\n```calc\na = 1\n```\n\n```calc\nb = 2\n```\n"
    html = converter(MATERIAL, ShoplogExtension(view)).convert(put_in)
    assert [html.count("0 calc: a = 1"), html.count("1 calc: b = 2"), html.count(CHANGED)] == [
        1
    ] * 3
    html = converter(MATERIAL, ShoplogExtension(view)).convert("```calc\nb = 2\n```\n")
    assert html == '<div class="block">1 calc: b = 2</div>'


def test_front_matter_tabs_and_line_ends_change_no_block() -> None:
    text = "---\r\npart: a\r\n---\r\n\r\n- one\r\n\r\n\t```calc\r\n\ta =\t1\r\n\t```\r\n"
    view = ShownPlainly(text)
    html = converter(MATERIAL, ShoplogExtension(view)).convert(text.split("---\r\n\r\n")[1])
    assert '<div class="block">0 calc: a =\t1</div>' in html


# Values in prose


@pytest.mark.parametrize("host", HOSTS)
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("It is [=bore] wide.", f"<p>It is {VALUE} wide.</p>"),
        ("**[=bore]** and *[=bore]*", f"<p><strong>{VALUE}</strong> and <em>{VALUE}</em></p>"),
        ("- [=bore]", f"<ul>\n<li>{VALUE}</li>\n</ul>"),
        ("> [=bore]", f"<blockquote>\n<p>{VALUE}</p>\n</blockquote>"),
        ("Bore\n:   [=bore]", f"<dl>\n<dt>Bore</dt>\n<dd>{VALUE}</dd>\n</dl>"),
        ("[see [=bore]](a.md)", f'<p><a href="a.md">see {VALUE}</a></p>'),
        ("[[=bore]](a.md)", f'<p><a href="a.md">{VALUE}</a></p>'),
        ("`[=bore]`", "<p><code>[=bore]</code></p>"),
        (r"\[=bore]", "<p>[=bore]</p>"),
        (r"\\[=bore]", f"<p>\\{VALUE}</p>"),
        ('<b title="[=bore]">x</b>', '<p><b title="[=bore]">x</b></p>'),
        ("x <!-- [=bore] -->", "<p>x <!-- [=bore] --></p>"),
        ("<div>\n[=bore]\n</div>", "<div>\n[=bore]\n</div>"),
        ("[=bore][=bore]", f"<p>{VALUE}{VALUE}</p>"),
        ("Watch![=bore]", f"<p>Watch!{VALUE}</p>"),
        ("Text ![the [=bore]](a.png)", '<p>Text <img alt="the value of bore" src="a.png" /></p>'),
        (
            '[a](b.md "is [=bore]")',
            '<p><a href="b.md" title="is value of bore">a</a></p>',
        ),
    ],
)
def test_a_value_is_shown_where_prose_may_hold_one(host: Host, text: str, expected: str) -> None:
    assert html_of(text, host) == expected


@pytest.mark.parametrize("host", HOSTS)
def test_a_value_is_shown_in_a_table_and_in_a_footnote(host: Host) -> None:
    html = html_of("| a | b |\n|---|---|\n| [=bore] | `[=b]` |\n\nText.[^1]\n\n[^1]: [=bore]", host)
    assert f"<td>{VALUE}</td>\n<td><code>[=b]</code></td>" in html
    assert f'<li id="fn:1">\n<p>{VALUE}&#160;' in html


@pytest.mark.parametrize("host", HOSTS)
def test_an_expression_reaches_the_view_as_its_author_wrote_it(host: Host) -> None:
    expression = 'drill("#7]").size * 8°25\'30" \\* a_b*c*d < 3 & 2'
    html = html_of(f"It is [={expression}].", host)
    assert html == f'<p>It is <span class="value" title="full">{escape(expression)}</span>.</p>'


def test_code_in_an_expression_is_no_part_of_it() -> None:
    html = html_of("It is [=`a`].", PLAIN)
    assert html == '<p>It is <span class="value" title="full">`a`</span>.</p>'
    assert f'title="problem: {STRAY}">[=`…`]</span>' in html_of("It is [=`a`].", MATERIAL)


@pytest.mark.parametrize("host", HOSTS)
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("[=bore]: 16 mm", f"<p>{VALUE}: 16 mm</p>"),
        ("[=bore]: http://example.org", f"<p>{VALUE}: http://example.org</p>"),
        ("*[=bore]: the bore", f"<p>*{VALUE}: the bore</p>"),
        ("*[=bore] : the bore", f"<p>*{VALUE} : the bore</p>"),
        ("- [=bore]: wide", f"<ul>\n<li>{VALUE}: wide</li>\n</ul>"),
        ("> [=bore]: wide", f"<blockquote>\n<p>{VALUE}: wide</p>\n</blockquote>"),
    ],
)
def test_a_value_that_markdown_takes_for_a_definition_still_appears(
    host: Host, text: str, expected: str
) -> None:
    assert html_of(text, host) == expected


@pytest.mark.parametrize("before", ["[=]", "[=a|b]"])
def test_a_mistake_that_markdown_takes_for_a_definition_still_appears(before: str) -> None:
    assert before in html_of(f"{before}: wide")


@pytest.mark.parametrize(
    ("text", "shown", "left", "why"),
    [
        ("[=] x", "[=]", " x", "there is nothing to work out between `[=` and `]`"),
        ("[=a<b", "[=", "a&lt;b", "this value has no closing `]` on its line"),
        (
            "[=a](b.md)",
            "[=a]",
            "(b.md)",
            "the `(` after `[=a]` makes it the text of a link, and the value is not shown",
        ),
        (
            "[=a<b][c]",
            "[=a&lt;b]",
            "[c]",
            "the `[` after `[=a&lt;b]` makes it the text of a link, and the value is not shown",
        ),
    ],
)
def test_what_is_no_value_is_marked_with_its_problem(
    text: str, shown: str, left: str, why: str
) -> None:
    mark = f'<span class="shoplog-problem" title="problem: {why}">{shown}</span>'
    assert html_of(text) == f"<p>{mark}{left}</p>"


def test_a_value_that_is_not_the_page_files_own_is_marked_and_not_asked_for() -> None:
    view = ShownPlainly("It is [=bore] wide, not $[=math]$.")
    text = "It is [=bore] wide, [=put_in] deep, not $[=math]$."
    html = converter(PLAIN, ShoplogExtension(view)).convert(text)
    marks = [
        f'<span class="shoplog-problem" title="problem: {STRAY}">[={name}]</span>'
        for name in ("put_in", "math")
    ]
    assert html == f"<p>It is {VALUE} wide, {marks[0]} deep, not ${marks[1]}$.</p>"


# Headings


def test_a_heading_is_known_by_the_plain_text_of_its_values() -> None:
    md = converter(MATERIAL, ShoplogExtension(view_factory=ShownPlainly))
    html = md.convert("# The `bore` [=bore] & more\n\n## The [=bore]\n\n## The [=bore]\n\n## Last")
    link = 'class="headerlink" href="#the-bore-value-of-bore-more" title="Permanent link"'
    assert html.startswith(
        f'<h1 id="the-bore-value-of-bore-more">The <code>bore</code> {VALUE} &amp; more'
        f"<a {link}>&para;</a></h1>"
    )
    (top,) = md.toc_tokens  # type: ignore[attr-defined]
    assert top["name"] == "The bore value of bore &amp; more"
    assert [(one["id"], one["name"]) for one in top["children"]] == [
        ("the-value-of-bore", "The value of bore"),
        ("the-value-of-bore_1", "The value of bore"),
        ("last", "Last"),
    ]


def test_a_heading_keeps_the_anchor_and_the_label_that_its_author_gave() -> None:
    md = converter(MATERIAL, ShoplogExtension(view_factory=ShownPlainly))
    html = md.convert("# The [=bore] { #own data-toc-label='Own' }")
    assert html.startswith(f'<h1 id="own">The {VALUE}<a')
    assert md.toc_tokens[0]["name"] == "Own"  # type: ignore[attr-defined]


def test_the_problems_of_the_page_stand_below_its_title() -> None:
    top = '<div class="top">problem</div>'
    for text, expected in (
        ("# Bush\n\nText.", f'<h1 id="bush">Bush</h1>\n{top}\n<p>Text.</p>'),
        ("Text.", f"{top}\n<p>Text.</p>"),
    ):
        md = converter(PLAIN, ShoplogExtension(ShownPlainly(text, top)))
        assert md.convert(text) == expected


# A page without anything of ours

FEATURES = """\
# Setup of a *lathe* { #own .x }

Text with `calc`, **setup**, [a link](a.md "t"), [ref], [ref][ref], ![img](a.png), <b>raw</b>,
a [list = of] things, $a = b$ and \\[ c \\], "quotes" -- (c), ++ctrl+c++, ==mark==, H~2~O.[^1]

[ref]: http://example.org "Title"
*[HSS]: high speed steel
[^1]: A note.

    ```python
    calc = 1
    ```

| a | b |
|---|:-:|
| `x|y` | HSS |

- [ ] task
    - nested

        ```text
        setup
        ```

1. one
2. two

        code

!!! note "Setup"
    ~~~calculus
    x
    ~~~

??? note
    text

=== "Calc"

    text

=== "Setup"

    text

Term
:   Definition

````markdown
```python
calc
```
````

<div class="x" markdown>
*inside*
</div>

<div>
<!-- calc --> *raw*
</div>

> quote
> ```text
> setup
> ```

    indented = [ = ]

***

```
unclosed
"""


@pytest.mark.parametrize("host", [*HOSTS, pytest.param({}, id="bare")])
@pytest.mark.parametrize("has_view", [True, False])
def test_a_page_without_blocks_and_values_is_the_same_as_without_the_extension(
    host: Host, has_view: bool
) -> None:
    def no_view(text: str) -> ShownPlainly:
        raise AssertionError("a page that shows nothing of ours needs no view")

    extension = ShoplogExtension(ShownPlainly(FEATURES) if has_view else None, no_view)
    assert converter(host, extension).convert(FEATURES) == converter(host).convert(FEATURES)
    for part in FEATURES.split("\n\n"):
        expected = converter(host).convert(part)
        assert converter(host, extension).convert(part) == expected


@given(st.text(alphabet="`~-> \n[]()\"\\<!/div$|:#*1.a'^_&;", max_size=120).filter(
    lambda text: "[=" not in text
))  # fmt: skip
def test_any_text_without_ours_is_the_same_as_without_the_extension(text: str) -> None:
    view = ShownPlainly(text)
    html = converter(PLAIN, ShoplogExtension(view)).convert(text)
    assert html == converter(PLAIN).convert(text)


# Nothing gets into the page but by the view

MARKS = "\x02wzxhzdk:0\x03 \x02klzzwxh:0000\x03 wzxhzdk:0 klzzwxh:0000 \x0242\x03"


def test_the_text_of_a_block_reaches_the_page_by_the_view_only() -> None:
    class Silent(ShownPlainly):
        def block_html(self, index: int) -> str:
            return "<div>shown</div>"

        def prose_html(self, expression: str) -> str:
            return "<i>value</i>"

        def prose_text(self, expression: str) -> str:
            return "value"

    text = "# [=secret]\n\n```calc\n<script>secret</script> = [=secret]\n```\n\n![[=secret]](a.png)"
    html = converter(MATERIAL, ShoplogExtension(view_factory=Silent)).convert(text)
    assert "secret" not in html
    assert "<div>shown</div>" in html


@pytest.mark.parametrize("host", HOSTS)
def test_the_text_of_a_page_forges_no_placeholder(host: Host) -> None:
    text = f"{MARKS}\n\n```calc\na = 1  # {MARKS}\n```\n\n[={MARKS}]\n\n`{MARKS}`\n\n# {MARKS}\n"
    html = html_of(text, host)
    assert html.count('<div class="block">') == 1
    assert "\x02" not in html
    assert "\x03" not in html
    assert "<p>wzxhzdk:0 klzzwxh:0000 wzxhzdk:0 klzzwxh:0000 42</p>" in html


def test_a_view_that_shows_marks_forges_no_placeholder_either() -> None:
    class Marked(ShownPlainly):
        def block_html(self, index: int) -> str:
            return f"<div>{MARKS}</div>"

        def prose_html(self, expression: str) -> str:
            return f"<i>{MARKS}</i>"

        def prose_text(self, expression: str) -> str:
            return MARKS

        def top_html(self) -> str:
            return f"<div>{MARKS}</div>"

    md = converter(MATERIAL, ShoplogExtension(view_factory=Marked))
    html = md.convert("# [=a]\n\n```calc\na = 1\n```\n\n[=a] ![[=a]](b.png)\n")
    shown = MARKS.replace("\x02", "").replace("\x03", "")
    assert html.count(f"<div>{shown}</div>") == 2
    assert html.count(f"<i>{shown}</i>") == 2
    assert f'alt="{shown}"' in html


@pytest.mark.parametrize(
    "evil", ["<script>x</script>", '"><script>x</script>', "a<img src=x onerror=y>"]
)
def test_what_is_marked_as_a_problem_is_escaped(evil: str) -> None:
    for text in (f"[={evil}](a.md)", f"[={evil}|b]", f"[={evil}]: [=", f"[={evil}][a]"):
        html = html_of(text, PLAIN)
        assert "<script" not in html
        assert "<img" not in html


# Hosts


def test_one_extension_serves_many_pages_each_with_its_own_view() -> None:
    extension = ShoplogExtension()
    pages = [f"# [=a{n}]\n\n```calc\na = {n}\n```\n" for n in range(3)]
    for text in pages:
        extension.view = ShownPlainly(text)
        html = converter(MATERIAL, extension).convert(text)
        assert html.count('<div class="block">0 calc: a = ' + text[-6]) == 1


def test_one_markdown_object_converts_again_and_again() -> None:
    md = converter(MATERIAL, ShoplogExtension(view_factory=ShownPlainly))
    text = "# [=bore]\n\n```calc\na = 1\n```\n"
    first = md.convert(text)
    assert md.reset().convert("Text.") == "<p>Text.</p>"
    assert md.reset().convert(text) == first
    assert md.convert(text).count("block") == 1


def test_the_extension_is_found_by_its_name() -> None:
    (point,) = entry_points(group="markdown.extensions", name="shoplog")
    assert point.load() is ShoplogExtension
    assert Markdown(extensions=["shoplog"]).convert("*a*") == "<p><em>a</em></p>"
    assert isinstance(makeExtension(), ShoplogExtension)


def test_without_a_view_a_page_is_worked_out_alone() -> None:
    html = Markdown(extensions=["shoplog"]).convert(
        "It is [=bore] wide.\n\n```calc\nbore = 16 mm\n```\n"
    )
    sentence, _, block = html.partition("</p>")
    assert "16.0" in sentence
    assert "bore" in block
    assert "problem" not in html
    assert "```" not in html


def test_a_page_with_thousands_of_values_shows_the_first_two_thousand() -> None:
    html = html_of("\n\n".join(["[=bore]"] * 2003), PLAIN)
    assert html.count(VALUE) == 2000
    assert html.count("<p>[=bore]</p>") == 3
