"""The YAML of the shop profile as nodes that know their places; nothing in it can run or grow.

Every scalar stays the text that was written: `no`, `010` and `1:50` are not turned into others.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import yaml

from shoplog.log import strict_yaml
from shoplog.log.setups.lines import clipped
from shoplog.problems import Mistake, Place, Problem, Span, message, near

__all__ = [
    "Given",
    "Piece",
    "ShopFile",
    "compose",
    "given",
    "kind_of_node",
    "unknown_key",
    "words_of",
]

MOST_TEXT = 64 * 1024
MOST_DEPTH = 20
MOST_WORD = 40

SHOP_LARGE = message(
    "shop-large", "the shop profile has {size} characters; it may have {most}, and none is read"
)
SHOP_YAML = message("shop-yaml", "the shop profile cannot be read: {why}", example="name: [a\n")
SHOP_DEEP = message(
    "shop-deep",
    "the shop profile nests lists and keys more than {most} deep",
    example="name: " + "[" * 21 + "]" * 21 + "\n",
)
SHOP_ALIAS = message(
    "shop-alias",
    "`{sign}` is a YAML reference, which is not read here",
    hint="write the value out, or in quotes if it is a text",
    example="name: &a shop\n",
)
NOT_KEYS = message(
    "shop-not-keys",
    "{what} is lines `key: value`, and this is {found}",
    example="- bench lathe\n",
)
NOT_TEXT = message(
    "shop-not-text", "{key} is a text, and this is {found}", example="? [a, b]\n: shed\n"
)
KEY_UNKNOWN = message("shop-key", "`{key}` is not a key of {what}", example="nmae: shed\n")
KEY_TWICE = message(
    "shop-key-twice",
    "`{key}` is given at line {line} already",
    hint="keep one of them",
    example="name: shed\nname: shop\n",
)


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a scalar's text, without the spaces around it."""

    node: yaml.ScalarNode
    start: int
    end: int

    @classmethod
    def of(cls, node: yaml.ScalarNode) -> Piece:
        """All that a scalar says."""
        return cls(node, 0, len(node.value)).part(0, len(node.value))

    @property
    def text(self) -> str:
        """What it says."""
        return str(self.node.value[self.start : self.end])

    @property
    def span(self) -> Span:
        """Where it stands in the scalar's text."""
        return Span(self.start, max(self.end, self.start + 1))

    def part(self, start: int, end: int | None = None) -> Piece:
        """A part of it, by offsets in its own text."""
        text = self.text[start:end]
        begins = self.start + start + len(text) - len(text.lstrip())
        return Piece(self.node, begins, begins + len(text.strip()))

    def split(self, separator: re.Pattern[str]) -> list[Piece]:
        """The parts between separators; none is empty."""
        parts, begins = [], 0
        for met in (*separator.finditer(self.text), None):
            parts.append(self.part(begins, met.start() if met else len(self.text)))
            begins = met.end() if met else begins
        return [part for part in parts if part.text]


Given = Piece | yaml.MappingNode | yaml.SequenceNode
"""What stands behind a key: a text or a part of one, lines, or a list."""


def given(node: yaml.Node) -> Given:
    """A node, a scalar as the piece that all of it is."""
    if isinstance(node, yaml.MappingNode | yaml.SequenceNode):
        return node
    assert isinstance(node, yaml.ScalarNode)
    return Piece.of(node)


@dataclass(slots=True)
class ShopFile:
    """The lines of a shop profile, and the problems found in it."""

    path: str
    lines: list[str]
    problems: list[Problem] = field(default_factory=list)

    def place(self, line: int, column: int, width: int) -> Place:
        """A place by the numbers from 0 that YAML counts with."""
        line = min(line, len(self.lines) - 1)
        source = self.lines[line]
        column = min(column, len(source))
        return Place(self.path, line + 1, column + 1, max(1, width), source)

    def place_of(self, node: yaml.Node, span: Span | None = None) -> Place:
        """The place of a node, or of a span of its text where that stands on one line."""
        start, end = node.start_mark, node.end_mark
        one_line = start.line == end.line
        if span is None or not one_line or not isinstance(node, yaml.ScalarNode):
            width = end.column - start.column if one_line else 1
            return self.place(start.line, start.column, width)
        quote = 1 if node.style in ("'", '"') else 0
        column = start.column + quote + span.start
        return self.place(start.line, column, min(span.end, len(node.value) + 1) - span.start)

    def problem(
        self, mistake: Mistake, node: yaml.Node, span: Span | None = None, *also: Place
    ) -> None:
        """Keep a mistake at a node, or at a span of its text."""
        self.problems.append(mistake.at(self.place_of(node, span), *also))

    def pairs(
        self, node: yaml.Node, what: str, known: Mapping[str, str]
    ) -> Iterator[tuple[str, yaml.Node]]:
        """The keys that a mapping gives and that are known, each once, with their nodes.

        `known` gives for each word what is meant by it: itself, or the key that others call so.
        """
        for key, value in self.named(node, what):
            if known.get(key.value) == key.value:
                yield key.value, value
            else:
                mistake = unknown_key(key.value, what, known)
                self.problem(mistake, key)

    def at(self, mistake: Mistake, value: Given) -> None:
        """Keep a mistake at its span in a piece; at all of a value where it has none."""
        if not isinstance(value, Piece):
            self.problem(mistake, value)
            return
        span = mistake.span
        if span is not None:
            start = value.start + span.start
            span = Span(start, max(start + 1, value.start + span.end))
        self.problem(mistake, value.node, span or value.span)

    def named(self, node: yaml.Node, what: str) -> Iterator[tuple[yaml.ScalarNode, yaml.Node]]:
        """Every key of a mapping, each once, with its node."""
        if not isinstance(node, yaml.MappingNode):
            self.problem(Mistake(NOT_KEYS, what=what, found=kind_of_node(node)), node)
            return
        first: dict[str, yaml.Node] = {}
        for key, value in node.value:
            if not isinstance(key, yaml.ScalarNode):
                mistake = Mistake(NOT_TEXT, key=f"a key of {what}", found=kind_of_node(key))
                self.problem(mistake, key)
            elif key.value in first:
                place = self.place_of(first[key.value])
                mistake = Mistake(KEY_TWICE, key=clipped(key.value), line=place.line)
                self.problem(mistake, key, None, place)
            else:
                first[key.value] = key
                yield key, value


def unknown_key(word: str, what: str, known: Mapping[str, str]) -> Mistake:
    """That a word is no key, with the key that is near or that means the same."""
    plain = word.replace("_", " ")[: MOST_WORD + 1]
    close = plain if plain in known else near(plain, known) if len(plain) <= MOST_WORD else ""
    hint = f"did you mean {known[close]}?" if close else ""
    return Mistake(KEY_UNKNOWN, hint=hint, key=clipped(word), what=what)


def compose(file: ShopFile, text: str) -> yaml.Node | None:
    """The root node of a profile's text; nothing where it is empty or cannot be read."""
    if len(text) > MOST_TEXT:
        mistake = Mistake(SHOP_LARGE, size=len(text), most=MOST_TEXT)
        file.problems.append(mistake.at(file.place(0, 0, 1)))
        return None
    try:
        return strict_yaml.compose(text, MOST_DEPTH)
    except strict_yaml.Unread as fault:
        place = file.place(fault.line, fault.column, fault.width)
        file.problems.append(_mistake(fault).at(place))
        return None


def _mistake(fault: strict_yaml.Unread) -> Mistake:
    match fault:
        case strict_yaml.Reference():
            return Mistake(SHOP_ALIAS, sign=clipped(fault.sign))
        case strict_yaml.Unreadable():
            return Mistake(SHOP_YAML, why=fault.why)
        case _:
            return Mistake(SHOP_DEEP, most=MOST_DEPTH)


def words_of(node: yaml.MappingNode) -> set[str]:
    """The keys of a mapping that are words; whatever else stands there is told where it is read."""
    return {key.value for key, _ in node.value if isinstance(key, yaml.ScalarNode)}


def kind_of_node(node: yaml.Node | Given) -> str:
    """What a node is, in words a message can use."""
    if isinstance(node, yaml.MappingNode):
        return "lines `key: value`"
    if isinstance(node, yaml.SequenceNode):
        return "a list"
    text = node.text if isinstance(node, Piece) else node.value
    return "a text" if text else "empty"
