"""The fences of a page that are blocks, and those that look like blocks and are none.

One pass over the lines tells live fences from shown ones and hands on the runs of prose.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shoplog.log.markup import TAB, Fence, Outline, RawHtml, fence_at, indent_of
from shoplog.log.source import Run, Slip
from shoplog.problems import Message, Mistake, message

__all__ = ["Block", "Line", "Scanner"]

KINDS = ("calc", "setup")
MAX_BLOCK = 64 * 1024
"""Characters that one block may hold."""
MAX_BLOCKS = 500
"""Blocks that one page may hold."""

FENCE_UNCLOSED = message(
    "fence-unclosed",
    "this {kind} block is not closed",
    hint="close it with a line that holds {sign} only",
    example="```calc\nbore = 16 mm H7\n",
)
FENCE_NAME = message(
    "fence-name",
    "`{info}` does not open a {kind} block, so it is shown as a listing and not worked out",
    hint="write {sign}{kind} and nothing after it",
    example="```Calc\nbore = 16 mm H7\n```\n",
)
FENCE_INDENTED = message(
    "fence-indented",
    "this {kind} fence is indented by {by}, so it is shown as code and not worked out",
    hint="begin its lines at the margin of the text around it; only to show it, put a longer"
    " fence around it",
    example="The bore.\n\n    ```calc\n    bore = 16 mm H7\n    ```\n",
)
FENCE_QUOTED = message(
    "fence-quoted",
    "a {kind} block cannot stand in a quotation, and this one is not worked out",
    hint="take the > signs away",
    example="> ```calc\n> bore = 16 mm H7\n> ```\n",
)
FENCE_ON_ITEM = message(
    "fence-on-item",
    "this {kind} fence stands on the line of a list item, and its block is not worked out",
    hint="put the fence on a line of its own, indented by four columns",
    example="- ```calc\n    bore = 16 mm H7\n    ```\n",
)
BLOCK_EMPTY = message(
    "block-empty",
    "this {kind} block holds nothing",
    hint="write a line into it, or take the fence away",
    example="```calc\n# to be measured\n```\n",
)
BLOCK_LARGE = message(
    "block-large",
    "this {kind} block has {size} characters; it may have {limit}, and none is read",
    hint="make several blocks of it",
)
BLOCKS_TOO_MANY = message(
    "blocks-too-many",
    "the page has more than {limit} blocks; those from here on are not worked out",
    hint="make several pages of it",
)


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a block as its author wrote it, the block's indent taken off.

    `number` is its line in the file and `column` that of its text's first character, from 1.
    """

    number: int
    column: int
    text: str


@dataclass(frozen=True, slots=True)
class Block:
    """A calc or setup block; its first and last line and its column are those of the fences.

    `indent` is the column, from 0, of the content of the list item or box that it stands in.
    An unclosed block ends with the page or with what contains it.
    """

    kind: str
    first_line: int
    last_line: int
    column: int
    lines: tuple[Line, ...]
    closed: bool
    indent: int = 0


_QUOTE = re.compile(r"[ \t]*>[> \t]*")
_MARKER = re.compile(r"[ \t]*(?:[-*+]|\d+[.)]|\[\^[^\]]*\]:|:)[ \t]+(?=`{3}|~{3})")
_MEANT = {kind: kind for kind in KINDS} | {
    "calcs": "calc",
    "calculate": "calc",
    "calculation": "calc",
    "calculations": "calc",
    "setups": "setup",
    "set-up": "setup",
}


def _offset(line: str, indent: int) -> int:
    """Characters of white space that make up the block's indent; a tab is never split."""
    columns = 0
    for offset, sign in enumerate(line):
        columns = columns + TAB - columns % TAB if sign == "\t" else columns + 1
        if sign not in " \t" or columns > indent:
            return offset
    return len(line)


def _meant(info: str) -> str:
    """The kind of block that an info string stands for in its author's mind, or nothing."""
    words = info.split(None, 1)
    return _MEANT.get(words[0].strip(".:,;=").casefold(), "") if words else ""


class Scanner:
    """One pass over the lines of a body; `at` is the line that is read next."""

    def __init__(self, lines: Sequence[str], first_line: int) -> None:
        self.lines = lines
        self.first = first_line
        self.at = 0
        self.outline = Outline()
        self.html = RawHtml(lines)
        self.raw_until = -1
        self.never_closed: dict[str, tuple[int, int]] = {}
        self.blocks: list[Block] = []
        self.runs: list[Run] = []
        self.slips: list[Slip] = []
        self.too_many = False

    def run(self) -> None:
        """Read every line; what was found is in `blocks`, `runs` and `slips`."""
        while self.at < len(self.lines):
            line = self.lines[self.at]
            if not line.strip():
                self.outline.break_off()
                self.at += 1
            elif not (self._fence(line) or self._misplaced(line)):
                self._text(line)

    def _slip(self, mistake: Mistake, fence: Fence) -> None:
        width = len(self.lines[self.at].rstrip()) - fence.offset
        self.slips.append(Slip(mistake, self.at + self.first, fence.offset + 1, width))

    def _fence(self, line: str) -> bool:
        """Read a fence and what it holds; one that is none for Markdown is left as text."""
        fence = fence_at(line)
        if not fence:
            return False
        indent = indent_of(line)
        content = self.outline.content_around(indent)
        if indent - content >= TAB:
            if fence.info in KINDS:
                by = "a tab" if "\t" in line[: fence.offset] else f"{indent - content} columns"
                self._slip(Mistake(FENCE_INDENTED, kind=fence.info, by=by), fence)
            return False
        if fence.info in KINDS:
            self.outline.close_to(indent)
            self._block(fence, indent, content)
            return True
        if kind := _meant(fence.info):
            info = fence.info[:40]
            self._slip(Mistake(FENCE_NAME, info=info, kind=kind, sign=fence.sign), fence)
        end = self._closing(fence, content)
        if end is not None:
            self.outline.close_to(indent)
            self._go_on(end + 1)
        return end is not None

    def _go_on(self, at: int) -> None:
        self.at = at
        self.outline.break_off()

    def _closing(self, opening: Fence, content: int) -> int | None:
        """The line that closes a listing; one that nothing closes is text for Markdown."""
        if self._is_never_closed("", opening):
            return None
        number = self.at
        for number in range(self.at + 1, len(self.lines)):
            line = self.lines[number]
            if content and line.strip() and indent_of(line) < content:
                break
            fence = fence_at(line)
            if fence and fence.closes(opening):
                return number
        self.never_closed[opening.sign[0]] = (len(opening.sign), number)
        return None

    def _is_never_closed(self, where: str, opening: Fence) -> bool:
        """Whether an earlier look for such a sign went past this line and found none."""
        length, until = self.never_closed.get(where + opening.sign[0], (0, -1))
        return self.at < until and len(opening.sign) >= length

    def _block(self, fence: Fence, indent: int, content: int) -> None:
        end, closed = self._block_end(fence, content)
        last = end if closed else end - 1
        if len(self.blocks) < MAX_BLOCKS:
            lines = self._block_lines(self.at + 1, end, indent)
            first, until = self.at + self.first, last + self.first
            block = Block(fence.info, first, until, fence.offset + 1, lines, closed, content)
            self.blocks.append(self._checked(block, fence))
        elif not self.too_many:
            self.too_many = True
            self._slip(Mistake(BLOCKS_TOO_MANY, limit=MAX_BLOCKS), fence)
        self._go_on(last + 1)

    def _block_end(self, opening: Fence, content: int) -> tuple[int, bool]:
        """The line after the block's last one and whether that line closes it.

        No statement begins like a fence, so a fence with a word ends a block that is not closed.
        """
        for number in range(self.at + 1, len(self.lines)):
            line = self.lines[number]
            if content and line.strip() and indent_of(line) < content:
                return number, False
            fence = fence_at(line)
            if fence and fence.closes(opening):
                return number, True
            if fence and fence.info:
                return number, False
        return len(self.lines), False

    def _block_lines(self, start: int, end: int, indent: int) -> tuple[Line, ...]:
        while end > start and not self.lines[end - 1].strip():
            end -= 1
        return tuple(
            Line(number + self.first, offset + 1, self.lines[number][offset:])
            for number in range(start, end)
            for offset in [_offset(self.lines[number], indent)]
        )

    def _checked(self, block: Block, fence: Fence) -> Block:
        size = sum(len(line.text) + 1 for line in block.lines)
        if not block.closed:
            self._slip(Mistake(FENCE_UNCLOSED, kind=block.kind, sign=fence.sign), fence)
        elif all(line.text.lstrip()[:1] in ("", "#") for line in block.lines):
            self._slip(Mistake(BLOCK_EMPTY, kind=block.kind), fence)
        if size > MAX_BLOCK:
            self._slip(Mistake(BLOCK_LARGE, kind=block.kind, size=size, limit=MAX_BLOCK), fence)
            return replace(block, lines=())
        return block

    def _misplaced(self, line: str) -> bool:
        """A fence behind a sign of quotation or a list marker, told of and stepped over."""
        if quote := _QUOTE.match(line):
            return self._skip(fence_at(line, quote.end()), FENCE_QUOTED, quoted=True)
        if marker := _MARKER.match(line):
            return self._skip(fence_at(line, marker.end()), FENCE_ON_ITEM, quoted=False)
        return False

    def _skip(self, fence: Fence | None, misplaced: Message, *, quoted: bool) -> bool:
        indent = indent_of(self.lines[self.at])
        is_ours = fence is not None and fence.info in KINDS
        if not fence or indent - self.outline.content_around(indent) >= TAB:
            return False
        if not is_ours and not quoted:
            return False
        if is_ours:
            self._slip(Mistake(misplaced, kind=fence.info), fence)
        end = self._quote_end(fence) if quoted else self._closing(fence, 0)
        if end is None and not is_ours:
            return False
        self._go_on((self.at if end is None else end) + 1)
        return True

    def _quote_end(self, opening: Fence) -> int | None:
        """The line that closes a fence within the lines of its quotation."""
        if self._is_never_closed(">", opening):
            return None
        number = self.at
        for number in range(self.at + 1, len(self.lines)):
            quote = _QUOTE.match(self.lines[number])
            if not quote:
                break
            fence = fence_at(self.lines[number], quote.end())
            if fence and fence.closes(opening):
                return number
        self.never_closed[">" + opening.sign[0]] = (len(opening.sign), number)
        return None

    def _text(self, line: str) -> None:
        indent = indent_of(line)
        is_code, begins = self.outline.read(line, indent)
        if not is_code and not self._html(line, indent):
            self._add(self.at, line, begins=begins)
        self.at += 1

    def _html(self, line: str, indent: int) -> bool:
        """Step over raw HTML, up to its last line; what stands before and after it is prose."""
        in_raw = self.at <= self.raw_until
        offset = len(line) - len(line.lstrip())
        end = self.html.verbatim(self.at, offset)
        if not end and (comment := self.html.open_comment(self.at)) is not None:
            offset, end = comment, self.html.verbatim(self.at, comment)
        if end:
            self._over_verbatim(line[:offset], end, in_raw=in_raw)
            return True
        if in_raw:
            return True
        last = self.html.element(self.at) if indent < TAB else None
        if last is not None:
            self.raw_until = last
        return last is not None

    def _over_verbatim(self, before: str, end: tuple[int, int], *, in_raw: bool) -> None:
        if not in_raw:
            self._add(self.at, before, begins=True)
        self.at, column = end
        self.outline.break_off()
        if not in_raw:
            self._add(self.at, " " * column + self.lines[self.at][column:], begins=True)

    def _add(self, number: int, text: str, *, begins: bool) -> None:
        if begins or not self.runs or self.runs[-1][-1][0] != number - 1:
            self.runs.append([])
        self.runs[-1].append((number, text))
