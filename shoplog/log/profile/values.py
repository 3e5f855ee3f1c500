"""The values of the shop profile that are one text: words, quantities, counts, names of the tables.

What is wrong is nothing, and a problem at its place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import yaml

from shoplog.calc import tree as t
from shoplog.calc.literals import sized
from shoplog.calc.parse import parse_expression
from shoplog.calc.statements import code_of
from shoplog.log.profile.keys import ShopKey
from shoplog.log.profile.nodes import Given, Piece, ShopFile, given, kind_of_node
from shoplog.log.setups.lines import clipped, nearest
from shoplog.log.setups.quantities import NOT_WHOLE, literal, quantity, whole
from shoplog.problems import Grade, Mistake, message
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting_naming import work_group
from shoplog.trade.materials import material_known
from shoplog.trade.taper_work.taper_names import read_taper
from shoplog.units import alike, unit
from shoplog.values import Value, plain

__all__ = ["MOST_ITEMS", "ShopTexts"]

MOST_ITEMS = 200

NOT_ONE = message(
    "shop-not-one",
    "`{key}` is {wanted}, and this is {found}",
    example="machines:\n  - name: lathe\n    power: [1 kW]\n",
)
NO_VALUE = message(
    "shop-empty",
    "`{key}` has no value",
    hint="leave the line out until there is one",
    example="machines:\n  - name: lathe\n    power:\n",
)
CHOICE = message(
    "shop-choice",
    "`{key}` is {choices}, and this is `{found}`",
    example="machines:\n  - name: lathe\n    dial reads: both\n",
)
LIKELY = message(
    "shop-likely",
    "`{found}` as `{key}` says nothing to what is worked out",
    hint="{near}",
    grade=Grade.CAUTION,
    example="machines:\n  - name: lathe\n    kind: lathee\n",
)
REFUSED = message(
    "shop-refused", "{what}", example="machines:\n  - name: lathe\n    spindle taper: Morse 12\n"
)
NO_MATERIAL = message(
    "shop-material",
    "no row of the materials knows `{name}`",
    hint="{near}",
    grade=Grade.CAUTION,
    example="materials: unobtainium\n",
)
ITEMS_MOST = message(
    "shop-items", "`{key}` has {most} values at most, and this has {found}", example=""
)

COMMA = re.compile(",")
BESIDE = re.compile(r"×|(?<=\s)x(?=\s)|(?<=\d)x(?=\d)")
_BARE = re.compile(r"\d+(?:\.\d+)?|\.\d+|\d+/\d+", re.ASCII)
_UNIT = re.compile(r"[^\W\d].*")
_ASIDE = re.compile(r",\s+(?=[^\W\d])")
_RATIO = re.compile(r"(\d+(?:\.\d+)?)(?:\s*:\s*1)?", re.ASCII)
_EITHER_WAY = re.compile(r"(?:±|\+/-)\s*")


class ShopTexts:
    """Reads values that are one text. `asides` are the words that stood behind quantities."""

    def __init__(self, file: ShopFile) -> None:
        self.file = file
        self.asides: list[str] = []

    def piece(self, key: ShopKey, value: Given) -> Piece | None:
        """The text of a key; nothing, and a problem, where it is none or empty."""
        if not isinstance(value, Piece):
            mistake = Mistake(NOT_ONE, key=key.name, wanted=key.wanted, found=kind_of_node(value))
            self.file.at(mistake, value)
            return None
        if not value.text:
            self.file.at(Mistake(NO_VALUE, key=key.name), value)
            return None
        return value

    def text(self, key: ShopKey, value: Given) -> str | None:
        """A text as it stands; a caution where it is probably misspelt."""
        piece = self.piece(key, value)
        if piece is None:
            return None
        known = piece.text.casefold() in key.examples
        if key.likely and not known and (hint := nearest(piece.text, key.examples)):
            found = clipped(piece.text)
            self.file.at(Mistake(LIKELY, key=key.name, found=found, near=hint), piece)
        return piece.text

    def remarks(self, key: ShopKey, value: Given) -> str | None:
        """A text, or several as one."""
        if not isinstance(value, yaml.SequenceNode):
            return self.text(key, value)
        texts = [self.text(key, given(item)) for item in value.value]
        return "; ".join(text for text in texts if text)

    def choice(self, key: ShopKey, value: Given) -> str | None:
        """One of the words of a closed list."""
        piece = self.piece(key, value)
        return self._word(key, piece) if piece else None

    def choices(self, key: ShopKey, value: Given) -> tuple[str, ...]:
        """Several words of a closed list, each once."""
        words = [self._word(key, piece) for piece in self.items(key, value)]
        return tuple(dict.fromkeys(word for word in words if word))

    def _word(self, key: ShopKey, piece: Piece) -> str | None:
        word = " ".join(piece.text.casefold().split())
        if word in key.choices:
            return word
        hint = nearest(piece.text, key.choices)
        found = clipped(piece.text)
        self.file.at(
            Mistake(CHOICE, hint=hint, key=key.name, choices=key.wanted, found=found), piece
        )
        return None

    def items(self, key: ShopKey, value: Given) -> Iterator[Piece]:
        """The texts of a list, or of a text with commas between."""
        found = self._items(key, value)
        if len(found) > MOST_ITEMS:
            mistake = Mistake(ITEMS_MOST, key=key.name, most=MOST_ITEMS, found=len(found))
            self.file.at(mistake, found[MOST_ITEMS])
        yield from found[:MOST_ITEMS]

    def _items(self, key: ShopKey, value: Given) -> list[Piece]:
        if not isinstance(value, yaml.SequenceNode):
            piece = self.piece(key, value)
            return piece.split(COMMA) if piece else []
        pieces = [self.piece(key, given(item)) for item in value.value]
        return [part for piece in pieces if piece for part in piece.split(COMMA)]

    def quantity(self, key: ShopKey, value: Given) -> Value | None:
        """A quantity; words may stand behind a comma, and are kept aside."""
        piece = self._without_words(key, value)
        if piece is None:
            return None
        sign = _EITHER_WAY.match(piece.text) if key.name == "error" else None
        return self.amount(key, piece.part(sign.end()) if sign else piece)

    def _without_words(self, key: ShopKey, value: Given) -> Piece | None:
        """The text of a key; words behind a comma are kept aside."""
        piece = self.piece(key, value)
        words = _ASIDE.search(piece.text) if piece else None
        if piece is None or words is None:
            return piece
        self.asides.append(f"{key.name}: {piece.text[words.end() :]}")
        return piece.part(0, words.start())

    def amount(self, key: ShopKey, piece: Piece, last: Piece | None = None) -> Value | None:
        """The quantity that a piece is; a bare number takes the unit of the last of its kind."""
        text = piece.text
        if last is not None and _BARE.fullmatch(text) and (of := _UNIT.search(last.text)):
            text = f"{text} {of[0]}"
        try:
            return quantity(key.name, text, literal, key.kind, key.units, zero=key.zero)
        except Mistake as mistake:
            self.file.at(mistake, piece)
            return None

    def size(self, key: ShopKey, value: Given) -> Value | None:
        """A length, with the limits that a class or deviations give it."""
        piece = self.piece(key, value)
        if piece is None:
            return None
        try:
            return quantity(key.name, piece.text, _sized, key.kind, key.units, zero=key.zero)
        except Mistake as mistake:
            self.file.at(mistake, piece)
            return None

    def lengths(self, key: ShopKey, value: Given) -> tuple[Value, ...]:
        """Lengths, in the order written."""
        found = [self.amount(key, piece) for piece in self.items(key, value)]
        return tuple(size for size in found if size is not None)

    def bar(self, key: ShopKey, value: Given) -> tuple[Value, ...]:
        """One to three lengths with `x` between; a number without a unit takes the last one's."""
        piece = self.piece(key, value)
        parts = piece.split(BESIDE)[:3] if piece else []
        found = [self.amount(key, part, parts[-1]) for part in parts]
        return tuple(size for size in found if size is not None)

    def count(self, key: ShopKey, value: Given) -> Value | None:
        """A count from 1."""
        piece = self.piece(key, value)
        return self._whole(key, piece) if piece else None

    def counts(self, key: ShopKey, value: Given) -> tuple[Value, ...]:
        """Counts from 1, in the order written."""
        found = [self._whole(key, piece) for piece in self.items(key, value)]
        return tuple(count for count in found if count is not None)

    def _whole(self, key: ShopKey, piece: Piece) -> Value | None:
        try:
            return whole(key.name, piece.text, literal, 1)
        except Mistake as mistake:
            if mistake.message.code != NOT_WHOLE.code:
                found = f"`{clipped(piece.text)}`"
                mistake = Mistake(NOT_ONE, key=key.name, wanted="a whole number", found=found)
            self.file.at(mistake, piece)
            return None

    def ratio(self, key: ShopKey, value: Given) -> Value | None:
        """Turns for one turn: `40` or `40:1`."""
        piece = self.piece(key, value)
        met = _RATIO.fullmatch(piece.text) if piece and len(piece.text) < 20 else None
        if met and 1 <= float(met[1]) <= 1000:
            return plain(float(met[1]))
        if piece:
            wanted, found = "a ratio from 1:1 to 1000:1", f"`{clipped(piece.text)}`"
            self.file.at(Mistake(NOT_ONE, key=key.name, wanted=wanted, found=found), piece)
        return None

    def leadscrew(self, key: ShopKey, value: Given) -> Value | None:
        """The lead of a screw; threads per inch are turned into it."""
        found = self.quantity(key, value)
        if found is None or alike(found.unit, unit("mm")):
            return found
        return Value(1 / found.to(unit("tpi")).nominal, unit("in"))

    def taper(self, key: ShopKey, value: Given) -> str | None:
        """The name of a taper as the tables have it; words behind a comma are kept aside."""
        piece = self._without_words(key, value)
        try:
            return read_taper(piece.text).designation if piece else None
        except TradeError as error:
            assert piece is not None
            self.refused(error, piece)
            return None

    def material(self, key: ShopKey, value: Given) -> str | None:
        """The name of a material as it is written; one that no row knows gets a caution."""
        piece = self.piece(key, value)
        if piece is None:
            return None
        try:
            if material_known(piece.text) is None:
                work_group(piece.text)
        except TradeError as error:
            mistake = Mistake(NO_MATERIAL, name=clipped(piece.text), near=error.hint)
            self.file.at(mistake, piece)
        return piece.text

    def refused(self, error: TradeError, piece: Piece) -> None:
        """What a table or a formula refuses, at its place."""
        self.file.at(Mistake(REFUSED, hint=error.hint, what=error.message), piece)


def _sized(text: str) -> Value:
    """A literal, with limits where it has them."""
    node, _ = parse_expression(code_of(text))
    return sized(node, frozenset()) if isinstance(node, t.Sized) else literal(text)
