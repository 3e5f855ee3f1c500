"""The Python-Markdown extension: blocks and `[=values]` of a page in any host of Python-Markdown.

It places what a `PageView` shows and knows nothing of how that is made. The text of a block never
reaches the page by another way than the view.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from copy import deepcopy
from html import escape, unescape
from typing import TYPE_CHECKING, Protocol
from xml.etree.ElementTree import Element

from markdown import Extension
from markdown.extensions.toc import (
    TocTreeprocessor,
    remove_fnrefs,
    render_inner_html,
    strip_tags,
    unique,
)
from markdown.inlinepatterns import HtmlInlineProcessor, InlineProcessor
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import ETX, HTML_PLACEHOLDER_RE, INLINE_PLACEHOLDER_RE, STX

from shoplog.log.blocks import Block, Scan, scan
from shoplog.log.prose import MAX_VALUES, Found, value_at

if TYPE_CHECKING:
    from markdown import Markdown

    from shoplog.log.blocks import PageSource

__all__ = ["PageView", "ShoplogExtension", "makeExtension"]

CHANGED = (
    "This block is not the one that stands in the page's file: another extension changed it, so"
    " its results are not shown."
)

STRAY = (
    "this value is not worked out: it stands where none is read, or another extension put it here"
)

# Python-Markdown marks its placeholders with these; nothing that is shown may hold one.
_NO_MARKS = str.maketrans("", "", STX + ETX)
# What Python-Markdown makes of a placeholder in an attribute begins with a backslash.
_PLACEHOLDER = re.compile(rf"\\?({HTML_PLACEHOLDER_RE.pattern})")


_FENCE = re.compile(r"(?:`{3}|~{3})[ \t]*(?:calc|setup)[ \t]*$")


class PageView(Protocol):
    """A page as it is shown. All HTML is finished and safe; it is put into the page as it is."""

    @property
    def source(self) -> PageSource:
        """The page file that is shown."""
        ...

    def block_html(self, index: int) -> str:
        """The block of this index in the page, as a block-level element."""
        ...

    def prose_html(self, expression: str) -> str:
        """The value of a `[=expression]` of the page file, as inline HTML."""
        ...

    def prose_text(self, expression: str) -> str:
        """The same value as plain text: for headings' anchors, image texts and titles."""
        ...

    def top_html(self) -> str:
        """The problems of the page as a whole, or nothing."""
        ...


ViewFactory = Callable[[str], PageView]


def _view_of_text(text: str) -> PageView:
    from shoplog.render import view_of_text  # only a page that needs a view pays for it

    view: PageView = view_of_text(text)
    return view


class ShoplogExtension(Extension):
    """Shows the blocks and values of a page.

    A host that reads a whole log sets `view` before each conversion. Without one, a view of the
    page alone is made by `view_factory`, by default the one of `shoplog.render`.
    """

    def __init__(
        self,
        view: PageView | None = None,
        view_factory: ViewFactory | None = None,
        **config: object,
    ) -> None:
        super().__init__(**config)
        self.view = view
        self.view_factory = view_factory or _view_of_text

    def extendMarkdown(self, md: Markdown) -> None:
        """Register what one Markdown object needs; its conversion's state is its own."""
        run = _Conversion(self, md)
        # After white space is normalised (30), before superfences (25) and raw HTML (20).
        md.preprocessors.register(_Blocks(run), "shoplog-blocks", 28)
        # Below code (190) and escapes (180), above references and links (170, 160).
        md.inlinePatterns.register(_Tag("<", run), "shoplog-tag", 176)
        md.inlinePatterns.register(_Value(r"\[=", run), "shoplog-value", 175)
        # After inline text (20) and attribute lists (8), before the table of contents (5).
        md.treeprocessors.register(_Texts(run), "shoplog-texts", 6)


def makeExtension(**config: object) -> ShoplogExtension:
    """The extension, for a host that names the module."""
    return ShoplogExtension(**config)  # type: ignore[arg-type]


class _Conversion:
    """What one conversion of one page needs; begun anew by its preprocessor."""

    def __init__(self, extension: ShoplogExtension, md: Markdown) -> None:
        self.extension = extension
        self.md = md
        self.view: PageView | None = None
        self.known: frozenset[str] = frozenset()
        self.plain: dict[str, str] = {}
        self.blocks: set[str] = set()

    def begin(self, lines: list[str]) -> PageView | None:
        """The view of this conversion; none is made for a page that shows nothing of ours."""
        self.plain, self.blocks = {}, set()
        self.view = self.extension.view
        if self.view is None and any(map(_may_hold, lines)):
            self.view = self.extension.view_factory("\n".join(lines))
        values = self.view.source.prose if self.view else ()
        self.known = frozenset(value.expression for value in values)
        return self.view

    def store(self, html: str) -> str:
        return self.md.htmlStash.store(html.translate(_NO_MARKS))

    def value(self, expression: str, raw: str) -> str:
        """A placeholder for a value, known by its plain text too."""
        if self.view is None or expression not in self.known:
            return self.slip(raw, STRAY)
        placeholder = self.store(self.view.prose_html(expression))
        self.plain[placeholder] = self.view.prose_text(expression).translate(_NO_MARKS)
        return placeholder

    def slip(self, raw: str, why: str) -> str:
        """A placeholder for what is no value, shown as its author wrote it and marked."""
        title = escape(f"problem: {why}")
        shown = escape(raw.translate(_NO_MARKS), quote=False)
        placeholder = self.store(f'<span class="shoplog-problem" title="{title}">{shown}</span>')
        self.plain[placeholder] = raw
        return placeholder

    def plain_text(self, text: str) -> str:
        """A text with each value in it as plain text; other placeholders stay."""
        return _PLACEHOLDER.sub(lambda found: self.plain.get(found[1], found[0]), text)


def _may_hold(line: str) -> bool:
    return "[=" in line or _FENCE.search(line) is not None


class _Blocks(Preprocessor):
    """Puts placeholders in the place of blocks, and of values that Markdown would take away."""

    def __init__(self, run: _Conversion) -> None:
        super().__init__(run.md)
        self.conversion = run

    def run(self, lines: list[str]) -> list[str]:
        view = self.conversion.begin(lines)
        if view is None or not any(map(_may_hold, lines)):
            return lines
        found = scan(lines)
        lines = list(lines)
        self._guard(lines, found)
        shown = list(self._shown(view, found.blocks))
        for block, html in reversed(list(zip(found.blocks, shown, strict=True))):
            self.conversion.blocks.add(placeholder := self.conversion.store(html))
            _put(lines, block, " " * block.indent + placeholder)
        return lines

    def _shown(self, view: PageView, blocks: tuple[Block, ...]) -> Iterator[str]:
        """The HTML of each block: matched with the page's own in their order, by their text."""
        own = [_text_of(block) for block in view.source.blocks]
        begin = 0
        for block in blocks:
            text = _text_of(block)
            if text in own[begin:]:
                begin = own.index(text, begin) + 1
                yield view.block_html(begin - 1)
            else:
                yield f'<div class="shoplog-problem" role="note"><p>{CHANGED}</p></div>'

    def _guard(self, lines: list[str], found: Scan) -> None:
        """Replace values before a colon: Markdown takes `[=x]: …` for the definition of a link
        and `*[=x]: …` for that of an abbreviation, and shows neither.
        """
        starts = [(value.line, value.column) for value in found.prose]
        starts += [(slip.line, slip.column) for slip in found.slips]
        for number, column in sorted(starts, reverse=True):
            line = lines[number - 1]
            rest = line[column - 1 :]
            if rest.startswith("[=") and ("]:" in rest or "] :" in rest):
                value = value_at(line, column - 1)
                shown = _show(self.conversion, line, value)
                lines[number - 1] = line[: column - 1] + shown + line[value.end :]


def _put(lines: list[str], block: Block, placeholder: str) -> None:
    """Put a line in the place of a block, with an empty one around it and never with two: a
    footnote does not go on after two.
    """
    start, end = block.first_line - 1, block.last_line
    before = [""] if start and lines[start - 1].strip() else []
    after = [""] if end < len(lines) and lines[end].strip() else []
    lines[start:end] = [*before, placeholder, *after]


def _text_of(block: Block) -> tuple[str, ...]:
    """What makes two readings of a block the same one, however its white space was changed."""
    texts = (line.text.translate(_NO_MARKS).split() for line in block.lines)
    return (block.kind, *(" ".join(words) for words in texts))


def _show(run: _Conversion, text: str, value: Found) -> str:
    raw = text[value.start : value.end]
    return run.slip(raw, str(value.mistake)) if value.mistake else run.value(value.expression, raw)


class _Value(InlineProcessor):
    """A `[=expression]` in any inline text."""

    def __init__(self, pattern: str, run: _Conversion) -> None:
        super().__init__(pattern, run.md)
        self.conversion = run

    def handleMatch(  # type: ignore[override]
        self, m: re.Match[str], data: str
    ) -> tuple[Element | str | None, int | None, int | None]:
        """Put a placeholder in the place of the value."""
        if self.conversion.view is None or len(self.conversion.plain) >= MAX_VALUES:
            return None, None, None
        start, end = m.start(), value_at(data, m.start()).end
        written = self._as_written(data[start:end]) + data[end : end + 2]
        return _show(self.conversion, written, value_at(written, 0)), start, end

    def _as_written(self, text: str) -> str:
        """The text with the code and the escapes that were taken out of it before."""
        stash: dict[str, str | Element] = getattr(
            self.md.treeprocessors["inline"], "stashed_nodes", {}
        )

        def written(found: re.Match[str]) -> str:
            node = stash.get(found[1], "")
            if isinstance(node, str):
                number = node.translate(_NO_MARKS)
                return f"\\{chr(int(number))}" if number.isdecimal() else ""
            return f"`{node.text}`"

        return HTML_PLACEHOLDER_RE.sub("…", INLINE_PLACEHOLDER_RE.sub(written, text))


_TAG = re.compile(r"(<!--(?:(?!-->)[\s\S])*-->|</?[A-Za-z][^<>]*>)")


class _Tag(HtmlInlineProcessor):
    """A raw tag or comment with a `[=` in it, taken out before it is read as a value."""

    def __init__(self, pattern: str, run: _Conversion) -> None:
        super().__init__(pattern, run.md)
        self.conversion = run

    def handleMatch(  # type: ignore[override]
        self, m: re.Match[str], data: str
    ) -> tuple[Element | str | None, int | None, int | None]:
        """Store the tag as it is, as Python-Markdown does further down."""
        tag = _TAG.match(data, m.start()) if self.conversion.view is not None else None
        if not tag or "[=" not in tag[0]:
            return None, None, None
        return super().handleMatch(tag, data)


class _Texts(Treeprocessor):
    """Plain text where no HTML can stand: attributes, and what headings are known by."""

    def __init__(self, run: _Conversion) -> None:
        super().__init__(run.md)
        self.conversion = run

    def run(self, root: Element) -> None:
        if self.conversion.blocks:
            self._stand_alone(root)
        if self.conversion.plain:
            self._attributes(root)
            self._headings(root)
        self._top(root)

    def _stand_alone(self, root: Element) -> None:
        """Take blocks out of paragraphs with more in them, as of a footnote's link back."""
        for parent in list(root.iter()):
            for index in range(len(parent) - 1, -1, -1):
                child = parent[index]
                text = child.text or ""
                found = HTML_PLACEHOLDER_RE.match(text) if child.tag == "p" else None
                if (
                    found
                    and found[0] in self.conversion.blocks
                    and (len(child) or text != found[0])
                ):
                    child.text = text[found.end() :]
                    parent.insert(index, alone := Element("p"))
                    alone.text, alone.tail = found[0], "\n"

    def _attributes(self, root: Element) -> None:
        for element in root.iter():
            for name, text in element.items():
                if STX in text:
                    element.set(name, self.conversion.plain_text(text))

    def _headings(self, root: Element) -> None:
        """Name each heading that holds a value as the table of contents would its plain text."""
        tocs = (one for one in self.md.treeprocessors if isinstance(one, TocTreeprocessor))
        toc = next(tocs, None)
        if toc is None:
            return
        used = {element.attrib["id"] for element in root.iter() if "id" in element.attrib}
        for element in root.iter():
            if not isinstance(element.tag, str) or not toc.header_rgx.fullmatch(element.tag):
                continue
            if text := self._heading_text(element):
                name = strip_tags(text)
                if "id" not in element.attrib:
                    element.set("id", unique(toc.slugify(unescape(name), toc.sep), used))
                if "data-toc-label" not in element.attrib:
                    element.set("data-toc-label", unescape(name))

    def _heading_text(self, element: Element) -> str:
        """The inner HTML of a heading with its values as plain text; "" where it has none."""
        copy = remove_fnrefs(deepcopy(element))
        has_value = False
        for part in copy.iter():
            for name in ("text", "tail"):
                text = getattr(part, name) or ""
                plain = self.conversion.plain_text(text)
                has_value |= plain != text
                setattr(part, name, plain)
        return render_inner_html(copy, self.md) if has_value else ""

    def _top(self, root: Element) -> None:
        """Put the page's own problems below its title, which hosts look for at the very top."""
        html = self.conversion.view.top_html() if self.conversion.view else ""
        if html:
            element = Element("p")
            element.text, element.tail = self.conversion.store(html), "\n"
            root.insert(1 if len(root) and root[0].tag == "h1" else 0, element)
