"""The values of the shop profile that have a form of their own: steps, ranges, axes, taps, plates.

What is wrong is nothing, and a problem at its place.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

import yaml

from shoplog.log.profile.keys import AXES, Reads, ShopKey
from shoplog.log.profile.nodes import Given, Piece, given, words_of
from shoplog.log.profile.parts import AxisSizes, BlockContent, Drive, Plate, SizeRange
from shoplog.log.profile.threads import threads_between
from shoplog.log.profile.values import MOST_ITEMS, ShopTexts
from shoplog.log.setups.lines import clipped
from shoplog.problems import Mistake, message, near
from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.thread_record import Thread
from shoplog.trade.taper_work.gauge_blocks import gauge_block_set
from shoplog.units import UnitMismatch, unit
from shoplog.values import Value

__all__ = ["AXIS_FILLERS", "AXIS_WORDS", "ShopValues"]

RANGE_ENDS = message(
    "shop-range",
    "a range goes from a lower value to a higher one",
    hint="write {such}, or a line from: and a line to:",
    example="machines:\n  - name: lathe\n    speeds: 900 rpm to 100 rpm\n",
)
STEPS_MOST = message(
    "shop-steps", "a machine has {most} steps at most, and this one has {found}", example=""
)
AXIS = message(
    "shop-axis",
    "`{word}` is no slide or axis that is known",
    hint="{near}",
    example="machines:\n  - name: mill\n    travel: 400 mm sidways\n",
)
AXIS_TWICE = message(
    "shop-axis-twice",
    "`{key}` gives {axis} twice",
    hint="keep one of them",
    example="machines:\n  - name: mill\n    travel: 400 mm long, 300 mm long\n",
)

_TO = re.compile(r"(?<=\s)to(?=\s)|\.\.|…")
_FROM = re.compile(r"from\s+")
_ENDS = {"from": "from", "to": "to"}
_SIZE_AND_WORDS = re.compile(
    r"(?P<size>\d[\d./]*(?:[- ]\d+/\d+)?\s*[^\W\d][\w^*/]*)(?P<words>\s+.*)?", re.ASCII
)
AXIS_FILLERS = (
    "on",
    "of",
    "in",
    "the",
    "along",
    "across",
    "travel",
    "slide",
    "axis",
    "screw",
    "way",
)
_FILLERS = re.compile(rf"\b(?:{'|'.join(AXIS_FILLERS)})\b")
AXIS_WORDS = {
    **{axis: axis for axis in AXES},
    **{"longitudinal": "long", "carriage": "long", "table": "long", "saddle": "cross"},
    **{"knee": "vertical", "top": "top slide", "compound": "top slide", "barrel": "tailstock"},
}


class ShopValues(ShopTexts):
    """Reads the value of any key of the profile."""

    def read(self, key: ShopKey, value: Given) -> Any:
        """What a key's value is, by what it reads; nothing where it is wrong."""
        return self._reader(key)(key, value)

    def _reader(self, key: ShopKey) -> Callable[[ShopKey, Given], Any]:
        readers: dict[Reads, Callable[[ShopKey, Given], Any]] = {
            Reads.TEXT: self.text,
            Reads.REMARKS: self.remarks,
            Reads.CHOICE: self.choice,
            Reads.CHOICES: self.choices,
            Reads.QUANTITY: self.quantity,
            Reads.RANGE: self.range,
            Reads.STEPS: self.steps,
            Reads.AXES: self.axes,
            Reads.COUNT: self.count,
            Reads.COUNTS: self.counts,
            Reads.RATIO: self.ratio,
            Reads.LENGTHS: self.lengths,
            Reads.BAR: self.bar,
            Reads.SIZE: self.size,
            Reads.LEADSCREW: self.leadscrew,
            Reads.TAPER: self.taper,
            Reads.THREADS: self.threads,
            Reads.BLOCKS: self.blocks,
            Reads.PLATES: self.plates,
            Reads.MATERIAL: self.material,
        }
        return readers[key.reads]

    # ---- ranges and steps --------------------------------------------------------------------

    def range(self, key: ShopKey, value: Given) -> SizeRange | None:
        """`3 mm to 20 mm`, `3 to 20 mm`, or a line from: and a line to:."""
        if isinstance(value, yaml.MappingNode):
            return self._range_of_lines(key, value)
        piece = self.piece(key, value)
        return self._range_of_text(key, piece) if piece else None

    def _range_of_lines(self, key: ShopKey, node: yaml.MappingNode) -> SizeRange | None:
        ends = {
            name: self.piece(key, given(end))
            for name, end in self.file.pairs(node, f"`{key.name}`", _ENDS)
        }
        if set(ends) != set(_ENDS):
            words = [name.value for name, _ in node.value if isinstance(name, yaml.ScalarNode)]
            if len(words) == len(node.value) and _ENDS.keys() >= {*words}:  # else told already
                self.file.at(self._no_range(key), node)
            return None
        return self._ends(key, ends["from"], ends["to"], node)

    def _range_of_text(self, key: ShopKey, piece: Piece) -> SizeRange | None:
        begins = _FROM.match(piece.text)
        parts = piece.part(begins.end() if begins else 0).split(_TO)
        if len(parts) != 2:
            self.file.at(self._no_range(key), piece)
            return None
        return self._ends(key, parts[0], parts[1], piece)

    def _ends(
        self, key: ShopKey, low: Piece | None, high: Piece | None, where: Given
    ) -> SizeRange | None:
        least = self.amount(key, low, high) if low else None
        greatest = self.amount(key, high) if high else None
        if least is None or greatest is None:
            return None
        try:
            rises = least.to(greatest.unit, loose=True).nominal < greatest.nominal
        except UnitMismatch:
            rises = False
        if rises:
            return SizeRange(least, greatest)
        self.file.at(self._no_range(key), where)
        return None

    def _no_range(self, key: ShopKey) -> Mistake:
        such = next((one for one in key.examples if _TO.search(one)), "a lower to a higher one")
        return Mistake(RANGE_ENDS, such=such)

    def steps(self, key: ShopKey, value: Given) -> Drive | None:
        """The steps of a drive, as a list or as a table of its belts and gears; or its range."""
        if isinstance(value, yaml.MappingNode):
            if {"from", "to"} & words_of(value):
                return _drive(self._range_of_lines(key, value))
            return self._table(key, value)
        if isinstance(value, Piece) and "," not in value.text and _TO.search(value.text):
            return _drive(self._range_of_text(key, value))
        found = [self.amount(key, piece) for piece in self._step_items(key, value)]
        steps = tuple(step for step in found if step is not None)
        return Drive(steps) if steps else None

    def _step_items(self, key: ShopKey, value: Given) -> Iterator[Piece]:
        """The steps of a list; a drive has a bounded number of them."""
        found = self._items(key, value)
        if len(found) > MOST_ITEMS:
            self.file.at(Mistake(STEPS_MOST, most=MOST_ITEMS, found=len(found)), value)
        yield from found[:MOST_ITEMS]

    def _table(self, key: ShopKey, node: yaml.MappingNode) -> Drive | None:
        """A row for each belt or gear: one step, several, or one for each gear by its name."""
        named: list[tuple[str, Value]] = []
        for row, value in self._rows(node, key):
            for name, piece in self._steps_of_row(key, row, value):
                found = self.amount(key, piece)
                if found is not None:
                    named.append((name, found))
        if len(named) > MOST_ITEMS:
            self.file.at(Mistake(STEPS_MOST, most=MOST_ITEMS, found=len(named)), node)
        kept = named[:MOST_ITEMS]
        if not kept:
            return None
        return Drive(tuple(step for _, step in kept), tuple(name for name, _ in kept))

    def _rows(self, node: yaml.MappingNode, key: ShopKey) -> Iterator[tuple[str, Given]]:
        for name, value in self.file.named(node, f"`{key.name}`"):
            yield " ".join(name.value.split()), given(value)

    def _steps_of_row(self, key: ShopKey, row: str, value: Given) -> Iterator[tuple[str, Piece]]:
        if isinstance(value, yaml.MappingNode):
            for column, cell in self._rows(value, key):
                piece = self.piece(key, cell)
                if piece:
                    yield f"{row}, {column}", piece
            return
        pieces = list(self._items(key, value))
        for number, piece in enumerate(pieces, 1):
            yield (row if len(pieces) == 1 else f"{row}, step {number}"), piece

    # ---- axes --------------------------------------------------------------------------------

    def axes(self, key: ShopKey, value: Given) -> AxisSizes | None:
        """`0.1 mm`, `6 thou long, 4 thou cross`, or a line for each slide."""
        found: dict[str, Value] = {}
        if isinstance(value, yaml.MappingNode):
            for name, node in self.file.named(value, f"`{key.name}`"):
                piece = self.piece(key, given(node))
                if piece:
                    self._keep_axis(key, found, Piece.of(name), piece)
            return AxisSizes(**found) if found else None
        for piece in self.items(key, value):
            met = _SIZE_AND_WORDS.fullmatch(piece.text)
            size = piece.part(0, met.end("size")) if met else piece
            words = piece.part(met.end("size")) if met else piece.part(len(piece.text))
            self._keep_axis(key, found, words, size)
        return AxisSizes(**found) if found else None

    def _keep_axis(self, key: ShopKey, found: dict[str, Value], words: Piece, size: Piece) -> None:
        axis = _axis(words.text)
        if not axis:
            close = near(words.text[:MOST_ITEMS], AXIS_WORDS)
            hint = f"did you mean {AXIS_WORDS[close]}?" if close else ""
            hint = hint or f"there are {', '.join(AXES)}"
            self.file.at(Mistake(AXIS, word=clipped(words.text), near=hint), words)
            return
        held = axis.replace(" ", "_")
        if held in found:
            self.file.at(
                Mistake(AXIS_TWICE, key=key.name, axis=axis), words if words.text else size
            )
            return
        value = self.amount(key, size)
        if value is not None:
            found[held] = value

    # ---- what the tables know ----------------------------------------------------------------

    def threads(self, key: ShopKey, value: Given) -> tuple[Thread, ...]:
        """Threads by their designations; `M3 to M12` is every size of first choice between."""
        found: list[Thread] = []
        for piece in self.items(key, value):
            ends = [end.text for end in piece.split(_TO)]
            try:
                if len(ends) == 2:
                    found += threads_between(*ends)
                else:
                    found.append(Thread.from_text(piece.text))
            except TradeError as error:
                self.refused(error, piece)
        return tuple(dict.fromkeys(found))

    def blocks(self, key: ShopKey, value: Given) -> BlockContent | None:
        """A set of gauge blocks that is known, or blocks by their lengths."""
        if isinstance(value, Piece) and _may_name_a_set(value.text):
            try:
                found = gauge_block_set(value.text)
            except TradeError as error:
                self.refused(error, value)
                return None
            name = "in" if found.name.startswith("inch") else "mm"
            mm, of = unit("mm"), unit(name)
            return BlockContent(found.name, tuple(Value(size, mm).to(of) for size in found.sizes))
        sizes = self.lengths(key, value)
        return BlockContent("", sizes) if sizes else None

    def plates(self, key: ShopKey, value: Given) -> tuple[Plate, ...]:
        """The circles of each plate: by its name, or in a list."""
        if isinstance(value, yaml.MappingNode):
            rows = list(self._rows(value, key))
        elif isinstance(value, yaml.SequenceNode):
            rows = [(f"plate {n}", given(item)) for n, item in enumerate(value.value, 1)]
        else:
            rows = [("plate 1", value)]
        plates = [Plate(name, self.counts(key, circles)) for name, circles in rows[:MOST_ITEMS]]
        return tuple(plate for plate in plates if plate.circles)


def _drive(found: SizeRange | None) -> Drive | None:
    return Drive(least=found.least, greatest=found.greatest) if found else None


def _axis(words: str) -> str:
    """The axis of words such as `on the cross slide`; `every` where they say none."""
    if not words:
        return "every"
    plain = " ".join(words.casefold().split())
    return AXIS_WORDS.get(plain) or AXIS_WORDS.get(" ".join(_FILLERS.sub(" ", plain).split()), "")


def _may_name_a_set(text: str) -> bool:
    """Whether a text is the name of a set and no length: it begins with a letter."""
    return bool(text) and text[0].isalpha()
