"""What contains a line of Markdown: list items, admonitions, tabs, footnotes, raw HTML.

Only as much of Markdown is read as tells a live fence from one that is shown as code, and prose
from what is no prose. The rules are those of Python-Markdown: a container's content stands four
columns further in, whatever its marker.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Fence", "Outline", "RawHtml", "fence_at", "indent_of"]

TAB = 4

_FENCE = re.compile(r"[ \t]*(?P<sign>`{3,}|~{3,})(?P<info>.*)")


@dataclass(frozen=True, slots=True)
class Fence:
    """A line that could open or close a fence."""

    offset: int
    sign: str
    info: str

    def closes(self, opening: Fence) -> bool:
        """Whether this line ends the fence that the other one opens."""
        same = self.sign[0] == opening.sign[0] and len(self.sign) >= len(opening.sign)
        return same and not self.info


def fence_at(line: str, offset: int = 0) -> Fence | None:
    """The fence of a line, read from an offset; a backtick fence has no backtick after it."""
    found = _FENCE.match(line, offset)
    if not found or (found["sign"][0] == "`" and "`" in found["info"]):
        return None
    return Fence(found.start("sign"), found["sign"], found["info"].strip())


def indent_of(line: str) -> int:
    r"""Columns of white space before a line's text; a tab goes on to the next multiple of 4.

    >>> indent_of("  \tx")
    4
    """
    return len(line[: len(line) - len(line.lstrip(" \t"))].expandtabs(TAB))


_ITEM = re.compile(r"(?:[-*+]|\d+\.)[ \t]")
_NOTE = re.compile(r"(?:\[\^[^\]]*\]:|:[ ]{1,3}\S)")
_WORDS = r"[\w-]+(?: +[\w-]+)*"
_BOX = re.compile(
    rf"!!! ?{_WORDS}(?: +\".*\")? *$|\?\?\?\+? ?(?:{_WORDS}(?: +\".*\")?|\".*\") *$"
    r"|===(?:\+!|!\+|!|\+)? +\".*\" *$"
)


@dataclass(frozen=True, slots=True)
class _Container:
    content: int  # the column at which its content begins, first is 0
    is_box: bool  # a box ends at the first line that stands further out; a list item may go on


class Outline:
    """The containers that are open at a line, fed with the lines from the top."""

    def __init__(self) -> None:
        self._open: list[_Container] = []
        self._fresh = True  # the line begins a block of its own, as after an empty line
        self._in_list = False
        self._in_code = False

    @property
    def content(self) -> int:
        """The column at which the innermost container's content begins; 0 on the page itself."""
        return self._open[-1].content if self._open else 0

    def break_off(self) -> None:
        """Tell of an empty line, or of a block that ends here."""
        self._fresh, self._in_list, self._in_code = True, False, False

    def content_around(self, indent: int) -> int:
        """The content column of the innermost container that a line of this indent is in."""
        return next((box.content for box in reversed(self._open) if box.content <= indent), 0)

    def close_to(self, indent: int) -> None:
        """Close the containers that a line of this indent is not in."""
        while self._open and self._open[-1].content > indent:
            self._open.pop()

    def read(self, line: str, indent: int) -> tuple[bool, bool]:
        """Take a line that has text. Whether it is an indented code line; whether it begins
        a run of prose of its own.
        """
        self._settle(indent)
        if indent - self.content >= TAB and (self._fresh or self._in_code):
            self._in_code, self._fresh = True, False
            return True, False
        begins, self._fresh = self._fresh, False
        return False, self._read_opener(line.strip(), indent, begins) or begins

    def _settle(self, indent: int) -> None:
        if self._in_code and indent - self.content_around(indent) < TAB:
            self.break_off()
        if self._open and self._open[-1].is_box and self.content > indent:
            self.break_off()
        if self._fresh:
            self.close_to(indent)

    def _read_opener(self, text: str, indent: int, begins: bool) -> bool:
        inner = self.content_around(indent)
        if indent - inner >= TAB:
            return False
        if _BOX.match(text) and indent == inner:
            self._enter(indent, inner, is_box=True)
            self.break_off()
            return True
        if self._is_item(text, begins) or _NOTE.match(text):
            self._enter(indent, inner, is_box=False)
            return True
        if text.startswith("#") and indent == inner:
            self.close_to(indent)
            self.break_off()
            return True
        return False

    def _is_item(self, text: str, begins: bool) -> bool:
        """Whether this is a list item: a list begins in no paragraph that goes on."""
        if not _ITEM.match(text) or not (begins or self._in_list) or _is_rule(text):
            return False
        self._in_list = True
        return True

    def _enter(self, indent: int, inner: int, *, is_box: bool) -> None:
        self.close_to(indent)
        self._open.append(_Container(inner + TAB, is_box))


def _is_rule(text: str) -> bool:
    signs = text.replace(" ", "")
    return len(signs) >= 3 and signs[0] in "-*_" and signs.count(signs[0]) == len(signs)


_VERBATIM = re.compile(r"<(?:!--|(?P<name>pre|script|style|textarea)(?=[\s>/]|$))", re.IGNORECASE)
_ELEMENT = re.compile(r"<(?P<name>[a-z][a-z0-9]*)(?=[\s>/]|$)", re.IGNORECASE)
_BLOCK_LEVEL = frozenset(
    "address article aside blockquote body canvas center dd details dialog dir div dl dt fieldset"
    " figcaption figure footer form frameset h1 h2 h3 h4 h5 h6 header hgroup html iframe legend li"
    " main map math menu nav noframes noscript object ol optgroup option output p picture progress"
    " section select summary svg table tbody td tfoot th thead tr ul video".split()
)


class RawHtml:
    """Where raw HTML ends; every kind is looked through once, however often it is begun."""

    def __init__(self, lines: Sequence[str]) -> None:
        self._lines = lines
        self._never: dict[str, int] = {}
        self._elements: dict[str, dict[int, int]] = {}

    def verbatim(self, line: int, start: int) -> tuple[int, int] | None:
        """Where a comment, `pre`, `script` or `style` that begins here ends: line and column."""
        found = _VERBATIM.match(self._lines[line], start)
        if not found:
            return None
        close = rf"</{found['name'].lower()}\s*>" if found["name"] else "-->"
        return self._after(close, line, found.end())

    def open_comment(self, line: int) -> int | None:
        """The column of a comment in a line that ends on a later one; none where there is none."""
        text = self._lines[line]
        start = text.rfind("<!--")
        in_code = text.count("`", 0, max(start, 0)) % 2
        return None if start < 0 or in_code or "-->" in text[start:] else start

    def _after(self, close: str, line: int, column: int) -> tuple[int, int] | None:
        end = re.compile(close, re.IGNORECASE)
        for number in range(line, self._never.get(close, len(self._lines))):
            if found := end.search(self._lines[number], column if number == line else 0):
                return number, found.end()
        self._never[close] = min(line, self._never.get(close, line))
        return None

    def element(self, line: int) -> int | None:
        """The last line of the block-level element that begins this line, with its text raw.

        One that nothing closes goes on to the end of the page, as it does for Python-Markdown.
        """
        found = _ELEMENT.match(self._lines[line].lstrip(" "))
        if not found or found["name"].lower() not in _BLOCK_LEVEL:
            return None
        if "markdown" in self._lines[line]:  # its text is Markdown again
            return None
        return self._pairs(found["name"].lower()).get(line, len(self._lines) - 1)

    def _pairs(self, name: str) -> dict[int, int]:
        if name not in self._elements:
            self._elements[name] = self._match(name)
        return self._elements[name]

    def _match(self, name: str) -> dict[int, int]:
        tag = re.compile(rf"<(/?){name}(?=[\s>/]|$)", re.IGNORECASE)
        pairs: dict[int, int] = {}
        opened: list[int] = []
        for number, line in enumerate(self._lines):
            for found in tag.finditer(line) if "<" in line else ():
                if not found[1]:
                    opened.append(number)
                elif opened:
                    pairs[opened.pop()] = number
        return pairs
