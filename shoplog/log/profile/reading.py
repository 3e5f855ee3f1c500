"""The things of the shop profile, read from lists, lines and single lines, each with its name."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import yaml

from shoplog.log.profile.forms import ShopValues
from shoplog.log.profile.keys import Reads, ShopKey, ShopThing
from shoplog.log.profile.nodes import (
    Given,
    Piece,
    ShopFile,
    given,
    kind_of_node,
    unknown_key,
    words_of,
)
from shoplog.log.profile.values import COMMA
from shoplog.log.setups.lines import clipped
from shoplog.problems import Mistake, message, near

__all__ = ["Named", "ThingReader"]

UNNAMED = message(
    "shop-unnamed",
    "{what} has no name",
    hint="give it a line `name: …`",
    example="machines:\n  - kind: lathe\n",
)
NAME_TWICE = message(
    "shop-name-twice",
    "{what} `{name}` is given at line {line} already",
    hint="a page finds it by its name; give this one another",
    example="machines:\n  - name: lathe\n  - name: lathe\n",
)
NOT_LISTED = message(
    "shop-not-list",
    "`{key}` is a list, and this is {found}",
    example="machines:\n",
)
TWICE_IN_LINE = message(
    "shop-twice-in-line",
    "`{key}` is given twice in this line",
    hint="keep one of them",
    example="cutters:\n  mill: end mill, HSS, 4 teeth, teeth 2\n",
)

_PARTS = re.compile(r",(?=\s|$)")
_WORD_AND_NUMBER = re.compile(r"([^\W\d][\w -]{1,38}?)\s+[±.\d].*", re.ASCII)
_COUNTED = re.compile(r"(\d{1,4})\s+(\w{1,20})", re.ASCII)
_LENGTH = r"(?:\d[\d./]*(?:[- ]\d+/\d+)?|\.\d+)\s*[a-z]{0,5}"
_ACROSS = re.compile(
    rf"(?P<form>\D*?)(?P<size>(?<!\S){_LENGTH}(?:\s*[x×]\s*{_LENGTH}){{0,2}})", re.ASCII
)
MOST_SLOT = 100
"""Characters of a text that is looked at for a size."""
_ANY_TEXT = (Reads.TEXT, Reads.TAPER, Reads.CHOICE, Reads.MATERIAL)
_NOT_IN_LINE = ("name", "remarks")

Named = tuple[Piece | None, str, Given]
"""Where a thing says its name, the name, and what stands behind it."""


class ThingReader:
    """Reads the things of a profile; what is wrong is a problem at its place."""

    def __init__(self, file: ShopFile) -> None:
        self.file = file
        self.values = ShopValues(file)

    # ---- names -------------------------------------------------------------------------------

    def things(
        self, key: str, thing: ShopThing, node: yaml.Node, first: dict[str, Piece]
    ) -> Iterator[tuple[str, dict[str, Any]]]:
        """Each thing of a list: its name, and its attributes by what its keys read.

        `first` is where each name was given first; a name given again is a problem, and left out.
        So is what has no name of its own and nothing right behind it.
        """
        for name_piece, name, value in self._named(key, thing, node):
            if name_piece is not None and not thing.repeats:
                if name.casefold() in first:
                    self._twice(thing, name, name_piece, first[name.casefold()])
                    continue
                first[name.casefold()] = name_piece
            told = self.attributes(thing, value)
            if told or name_piece is not None:
                yield name, told

    def _twice(self, thing: ShopThing, name: str, piece: Piece, before: Piece) -> None:
        place = self.file.place_of(before.node, before.span)
        mistake = Mistake(NAME_TWICE, what=thing.noun, name=clipped(name), line=place.line)
        self.file.problem(mistake, piece.node, piece.span, place)

    def _named(self, key: str, thing: ShopThing, node: yaml.Node) -> Iterator[Named]:
        """The things behind a key: in a list, by their names, or one alone."""
        value = given(node)
        if self._is_one(thing, value):
            yield self._named_lines(key, value)
        elif isinstance(value, yaml.MappingNode):
            for name, behind in self.file.named(value, f"`{key}`"):
                piece = Piece.of(name)
                yield piece, " ".join(piece.text.split()), given(behind)
        elif isinstance(value, yaml.SequenceNode):
            for item in value.value:
                yield from self._item(thing, given(item))
        elif isinstance(value, Piece) and value.text:
            parts = value.split(COMMA) if thing.commas else [value]
            for part in parts:
                yield from self._item(thing, part)
        else:
            self.file.problem(Mistake(NOT_LISTED, key=key, found=kind_of_node(value)), node)

    def _is_one(self, thing: ShopThing, value: Given) -> bool:
        """Whether a value is one thing, and no list of them."""
        whole = thing.lump or thing.alone
        if isinstance(value, yaml.MappingNode):
            own = {*thing.by_name} if whole else {"name"}
            return bool(own & words_of(value))
        if isinstance(value, yaml.SequenceNode):
            return thing.lump and all(isinstance(item, yaml.ScalarNode) for item in value.value)
        return whole and bool(value.text)

    def _named_lines(self, key: str, value: Given) -> Named:
        """One thing by itself; the key is its name where it gives none."""
        found = _line_of(value, "name") if isinstance(value, yaml.MappingNode) else None
        return found, " ".join(found.text.split()) if found else key, value

    def _item(self, thing: ShopThing, value: Given) -> Iterator[Named]:
        """A thing of a list: its lines, or a text that begins with its name."""
        if isinstance(value, Piece):
            parts = value.split(_PARTS)
            named_whole = thing.whole or thing.known_as != "name"
            if parts:
                name = value if thing.whole else parts[0]
                after = value.part(parts[0].end - value.start)
                rest = value if named_whole else after.part(1 if after.text[:1] == "," else 0)
                yield name, " ".join(name.text.split()), rest
                return
        elif isinstance(value, yaml.MappingNode):
            found = _line_of(value, "name") or _line_of(value, thing.known_as)
            if found:
                yield found, " ".join(found.text.split()), value
                return
        self.file.at(Mistake(UNNAMED, what=f"this {thing.noun}"), value)

    # ---- what a thing says -------------------------------------------------------------------

    def attributes(self, thing: ShopThing, value: Given) -> dict[str, Any]:
        """What a thing says, by the attributes that its keys name."""
        self.values.asides = []
        found: dict[str, Any] = {}
        texts: list[str] = []
        if thing.whole and not isinstance(value, yaml.MappingNode):
            self._keep(found, thing.by_name[thing.whole], value)
        elif isinstance(value, Piece):
            texts = self._in_line(thing, value, found)
        else:
            for name, node in self.file.pairs(value, thing.what, thing.words):
                self._keep(found, thing.by_name[name], given(node))
        return self._with_remarks(thing, found, [*texts, *self.values.asides])

    def _keep(self, found: dict[str, Any], key: ShopKey, value: Given) -> None:
        if key.name == "name":
            self.values.text(key, value)
            return
        read = self.values.read(key, value)
        if read is not None and read != ():
            found[key.held] = read

    def _with_remarks(
        self, thing: ShopThing, found: dict[str, Any], texts: list[str]
    ) -> dict[str, Any]:
        """The remarks as one text, with the words that stood behind values."""
        held = thing.by_name["remarks"].held
        told = [text for text in (found.pop(held, ""), *texts) if text]
        if told:
            found[held] = tuple(told) if held == "other" else "; ".join(told)
        return found

    def _in_line(self, thing: ShopThing, piece: Piece, found: dict[str, Any]) -> list[str]:
        """Read `kind, key value, key value…`; gives the texts that no key takes."""
        texts: list[Piece] = []
        for part in piece.split(_PARTS):
            key, value = _keyed(thing, part)
            if key is None:
                texts.append(part)
            elif key.held in found:
                self.file.at(Mistake(TWICE_IN_LINE, key=key.name), part)
            else:
                self._keep(found, key, value)
        rest = self._slots(thing, texts, found)
        for part in rest:
            self._near_key(thing, part)
        return [part.text for part in rest]

    def _slots(self, thing: ShopThing, texts: list[Piece], found: dict[str, Any]) -> list[Piece]:
        """Read texts by their places in the line; gives those that have none.

        A text that begins with a figure is no kind and no material: `75 mm` of a vise.
        """
        slots = [thing.by_name[name] for name in thing.in_line]
        rest = []
        for part in texts:
            sized = part.text[:1].isdigit() and thing.known_as == "name"
            if slots and not (sized and slots[0].reads is Reads.TEXT):
                self._slot(thing, found, slots.pop(0), part)
            else:
                rest.append(part)
        return rest

    def _slot(self, thing: ShopThing, found: dict[str, Any], key: ShopKey, part: Piece) -> None:
        """A text by its place in the line; `round bar 25 mm` is a form and a size."""
        across = thing.by_name.get("size")
        sized = across is not None and key.name == "form" and across.held not in found
        met = _ACROSS.fullmatch(part.text) if sized and len(part.text) < MOST_SLOT else None
        if met and across:
            self._keep(found, across, part.part(met.start("size")))
            part = part.part(0, met.end("form"))
            if not part.text:
                return
        self._keep(found, key, part)

    def _near_key(self, thing: ShopThing, part: Piece) -> None:
        """Say so where a text that no key takes is nearly `key value`."""
        met = _WORD_AND_NUMBER.fullmatch(part.text)
        known = {word: key for word, key in thing.words.items() if key not in _NOT_IN_LINE}
        if met and near(met[1], known):
            self.file.at(unknown_key(met[1], thing.what, known), part.part(0, met.end(1)))


def _keyed(thing: ShopThing, part: Piece) -> tuple[ShopKey | None, Piece]:
    """The key that a part of a line names, and its value: `nose radius 0.4 mm`, `4 teeth`."""
    for key in sorted(thing.keys, key=lambda one: -len(one.name)):
        if key.name in _NOT_IN_LINE or key.name in thing.in_line:
            continue
        value = part.part(len(key.name))
        begins = part.text.casefold().startswith(f"{key.name} ")
        if begins and (key.reads in _ANY_TEXT or value.text[:1] in "±+.0123456789"):
            return key, value
        met = _COUNTED.fullmatch(part.text) if key.reads is Reads.COUNT else None
        if met and met[2].casefold() in _counted_as(key):
            return key, part.part(0, met.end(1))
        if key.behind and part.text[:1].isdigit() and part.text.endswith(f" {key.behind}"):
            return key, part.part(0, -len(key.behind))
    return None, part


def _counted_as(key: ShopKey) -> set[str]:
    """What stands behind a count in a line: `4 teeth`, `1 tooth`, `2 flutes`, `3 jaws`."""
    words = {key.name, *key.also}
    return {*words, *(word.removesuffix("s") for word in words), *key.one}


def _line_of(node: yaml.MappingNode, wanted: str) -> Piece | None:
    """The text of a line of a mapping, where it has one."""
    for key, value in node.value:
        if isinstance(value, yaml.ScalarNode) and key.value == wanted and value.value.strip():
            return Piece.of(value)
    return None
