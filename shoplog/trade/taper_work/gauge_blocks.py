"""Gauge blocks: sets of them, and the fewest of those on hand that make a height.

Sizes are counted in whole nanometres, in which every metric and inch block is exact, so a stack
adds up without rounding. Which heights k blocks reach is kept as one long number with a bit for
each height; a block is added to all of them by a shift, so the work is bounded by the length of
that number, whatever blocks a page lists.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from math import ceil, floor, gcd
from typing import Self

from shoplog.problems import counted
from shoplog.tables import table
from shoplog.trade.declare import Micrometre, Millimetre, Number, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import require_positive

__all__ = ["BlockSet", "BlockStack", "as_blocks", "gauge_block_set", "gauge_block_stack", "stacked"]

STACKING = "common practice, no source: the fewest blocks; NPL, how to select gauge blocks"
NM_PER_MM = 1_000_000
HIGHEST = 2000.0
MOST_BLOCKS = 150
MOST_IN_STACK = 8
# Heights that are told apart; a metric set of 88 has 200 000 of them to 100 mm.
MOST_HEIGHTS = 1_200_000
FINEST = 0.25  # um; below this the wringing film and the grade of the blocks decide


@dataclass(frozen=True, slots=True)
class BlockSet:
    """A set of gauge blocks."""

    name: str
    sizes: tuple[Millimetre, ...]

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The set of a name: `metric 47`, `metric 88`, `inch 81`."""
        sets = _sets()
        plain = " ".join(text.split()).casefold()[:40]
        if plain not in sets:
            raise TradeError(
                f"{text[:40]!r} is not a set of gauge blocks that is known",
                hint="there are " + ", ".join(sets) + "; or give the sizes as a list",
                argument="name",
            )
        return cls(plain, sets[plain])

    @property
    def count(self) -> Number:
        """Of its blocks."""
        return float(len(self.sizes))

    def describe(self) -> str:
        """The set in one sentence."""
        inch = _in_inches([_nanometres(size) for size in self.sizes])
        return (
            f"{self.name}: {len(self.sizes)} blocks from {_size(min(self.sizes), inch)} to"
            f" {_size(max(self.sizes), inch)}."
        )


@cache
def _sets() -> dict[str, tuple[float, ...]]:
    made: dict[str, tuple[float, ...]] = {}
    for row in table("gauge_blocks_sets").rows:
        unit = 25.4 if row["set"].startswith("inch") else 1.0
        first, step = float(row["first"]), float(row["step"])
        series = [round((first + n * step) * unit, 6) for n in range(int(row["count"]))]
        made[row["set"]] = (*made.get(row["set"], ()), *series)
    return made


def _nanometres(size: float) -> int:
    return round(size * NM_PER_MM)


def _in_inches(sizes: list[int]) -> bool:
    """Whether blocks are marked in inches: whole ten-thousandths of an inch, not of 0.5 um."""
    return all(not nm % 2540 for nm in sizes) and any(nm % 500 for nm in sizes)


def _size(millimetres: float, inch: bool) -> str:
    return f"{millimetres / 25.4:.4f} in" if inch else f"{round(millimetres, 4):g} mm"


@dataclass(frozen=True, slots=True)
class BlockStack:
    """Gauge blocks wrung together, in the order of their sizes."""

    asked: Millimetre
    blocks: tuple[Millimetre, ...]
    grade: str = ""
    _inches: bool = False

    @property
    def height(self) -> Millimetre:
        """Of the stack, from the sizes marked on its blocks."""
        return sum(map(_nanometres, self.blocks)) / NM_PER_MM

    @property
    def error(self) -> Micrometre:
        """Of the height against what was asked: over 0 where the stack is too high."""
        return 1000 * (self.height - self.asked)

    @property
    def count(self) -> Number:
        """Of the blocks."""
        return float(len(self.blocks))

    @property
    def wrung_pairs(self) -> Number:
        """Joints between blocks."""
        return float(len(self.blocks) - 1)

    @property
    def block_error(self) -> Micrometre | None:
        """Either way, if every block is at the limit of its grade; where a grade was given."""
        if not self.grade:
            return None
        return sum(_limit(self.grade, block) for block in self.blocks)

    @property
    def notes(self) -> tuple[str, ...]:
        """What to know when wringing it."""
        return (
            "wring clean blocks and let hands' warmth leave them: the marked sizes hold at 20 °C,"
            " and each joint is a film of a few hundredths of a micrometre",
        )

    def describe(self) -> str:
        """The stack in one sentence."""
        sizes = " + ".join(_size(block, self._inches).split(" ")[0] for block in self.blocks)
        own = self.block_error
        grade = "" if own is None else f", and ±{own:.2f} µm of grade {self.grade} blocks"
        return (
            f"{sizes} = {_size(self.height, self._inches)}:"
            f" {counted(len(self.blocks), 'block')},"
            f" {counted(len(self.blocks) - 1, 'wrung pair')}, {_rounded(self.error):+.2f} µm"
            f" off{grade}."
        )


def _rounded(error: float) -> float:
    return round(error, 2) + 0.0


def _limit(grade: str, block: float) -> float:
    for row in table("gauge_blocks_grades").rows:
        if block <= float(row["to_mm"]):
            return float(row[f"{grade}_um"])
    raise OutOfRange("blocks", block, "mm", most=1000, source="ISO 3650")


def as_blocks(blocks: BlockSet | list[Millimetre]) -> tuple[float, ...]:
    """The sizes on hand, in mm.

    Raises
    ------
    TradeError
        There are none or too many, or one is not over 0.
    """
    sizes = blocks.sizes if isinstance(blocks, BlockSet) else tuple(blocks)
    if not 1 <= len(sizes) <= MOST_BLOCKS:
        raise OutOfRange("blocks", len(sizes), "", least=1, most=MOST_BLOCKS)
    for size in sizes:
        if not 1e-3 <= size <= HIGHEST:
            raise TradeError(
                f"a block is {size:g} mm, it must be at least 0.001 mm and at most {HIGHEST:g} mm",
                argument="blocks",
            )
    return sizes


@offered(source="the lists named in the head of the table gauge_blocks_sets")
def gauge_block_set(name: str) -> BlockSet:
    """The sizes of a usual set of gauge blocks.

    Parameters
    ----------
    name : str [-]
        `metric 45`, `metric 47`, `metric 78`, `metric 88`, `metric 112` or `inch 81`.

    Returns
    -------
    BlockSet [-]
        The sizes of the blocks.

    Raises
    ------
    TradeError
        There is no such set.

    Notes
    -----
    Sets of one count differ between makers: compare with the lid of your own case, and give your
    sizes as a list where they differ.

    Examples
    --------
    >>> gauge_block_set("metric 88").describe()
    'metric 88: 88 blocks from 0.5 mm to 100 mm.'

    References
    ----------
    The head of the table gauge_blocks_sets.
    """
    return BlockSet.from_text(name)


@offered(source=STACKING)
def gauge_block_stack(
    height: Millimetre,
    blocks: BlockSet | list[Millimetre],
    within: Micrometre | None = None,
    grade: str = "",
) -> BlockStack:
    """The fewest gauge blocks of those on hand that make a height.

    Parameters
    ----------
    height : float [mm]
        Over 0, at most 2000.
    blocks : BlockSet or list of float [mm]
        A set or its name, or the sizes on hand: 1 to 150 of them, each used once.
    within : float [um]
        0 to 10 000; how far off the stack may be. Where nothing is said, half of the finest step
        that the blocks have in common, and at least 0.25.
    grade : str [-]
        `0`, `1` or `2` of ISO 3650, for what the blocks themselves may be off; or nothing.

    Returns
    -------
    BlockStack [-]
        The blocks, the height, how far it is off, and the wrung pairs.

    Raises
    ------
    TradeError
        The blocks cannot make the height so near; the nearest that they can make is named.

    Notes
    -----
    Of the stacks with the fewest blocks, one that is nearest. At most 8 blocks are stacked.

    Examples
    --------
    >>> gauge_block_stack(58.345, BlockSet.from_text("metric 112")).describe()
    '50 + 6 + 1.34 + 1.005 = 58.345 mm: 4 blocks, 3 wrung pairs, +0.00 µm off.'

    References
    ----------
    National Physical Laboratory (UK), how to select gauge blocks; ISO 3650:1998 for the grades.
    """
    require_positive("height", height, "mm")
    if height > HIGHEST:
        raise OutOfRange("height", height, "mm", over=0, most=HIGHEST)
    if grade not in ("", "0", "1", "2"):
        raise TradeError(
            f"there is no grade {grade[:20]!r} of gauge blocks",
            hint='ISO 3650 has the grades "0", "1" and "2" for use',
            argument="grade",
        )
    if within is not None and not 0 <= within <= 10_000:
        raise OutOfRange("within", within, "um", least=0, most=10_000)
    return stacked(height, as_blocks(blocks), within, grade)


def stacked(
    height: float, sizes: tuple[float, ...], within: float | None, grade: str = ""
) -> BlockStack:
    """The stack; `gauge_block_stack` says how."""
    heights = _Heights.of(sizes, height)
    asked = height * NM_PER_MM
    slack = 1000 * (max(heights.step / 2000, FINEST) if within is None else within)
    chosen = heights.fewest(asked, slack + 1e-6 * heights.step)
    inch = _in_inches(list(heights.sizes))
    if chosen is None:
        raise _cannot(height, slack / 1000, heights, inch)
    blocks = sorted(chosen, reverse=True)
    return BlockStack(height, tuple(nm / NM_PER_MM for nm in blocks), grade, inch)


def _cannot(height: float, within: float, heights: _Heights, inch: bool) -> TradeError:
    near = [nm / NM_PER_MM for nm in heights.nearest(height * NM_PER_MM)]
    said = " and ".join(_size(made, inch) for made in near)
    unit = "in" if inch else "mm"
    asked = f"{height / 25.4:.6g}" if inch else f"{height:.7g}"
    return TradeError(
        f"no stack of up to {MOST_IN_STACK} of these blocks is {asked} {unit} high within"
        f" {within:.3g} µm, the nearest {'is' if len(near) == 1 else 'are'} {said}",
        hint="ask for a height that they make, allow more with within=, or add blocks",
        argument="blocks",
    )


@dataclass(frozen=True, slots=True)
class _Heights:
    """Which heights can be made: bit n of a number stands for n steps."""

    sizes: tuple[int, ...]
    step: int
    limit: int

    @classmethod
    def of(cls, sizes: tuple[float, ...], height: float) -> Self:
        whole = tuple(sorted(map(_nanometres, sizes)))
        step = gcd(*whole)
        limit = ceil((height * NM_PER_MM + whole[0]) / step) + 1
        if limit > MOST_HEIGHTS:
            raise TradeError(
                f"these blocks have only {step} nm in common, which is too fine to search to"
                f" {height:g} mm",
                hint="give blocks of one system, with the sizes marked on them",
                argument="blocks",
            )
        return cls(whole, step, limit)

    def reached(self, count: int) -> Iterator[list[int]]:
        """After each block: the heights that 0 to `count` of the blocks so far make."""
        mask = (1 << (self.limit + 1)) - 1
        made = [1] + [0] * count
        for size in self.sizes:
            steps = size // self.step
            if steps <= self.limit:
                for used in range(count, 0, -1):
                    made[used] |= (made[used - 1] << steps) & mask
            yield made

    def fewest(self, asked: float, slack: float) -> list[int] | None:
        """The sizes of the fewest blocks whose height is within the slack, one that is nearest."""
        low = max(0, ceil((asked - slack) / self.step))
        high = min(self.limit, floor((asked + slack) / self.step))
        if high < low:
            return None
        for count, bits in enumerate(self.most()[1:], start=1):
            window = (bits & ((1 << (high + 1)) - 1)) >> low << low
            near = _beside(window, floor(asked / self.step))
            if near:
                return self.chosen(min(near, key=lambda n: abs(n * self.step - asked)), count)
        return None

    def most(self) -> list[int]:
        """The heights that 0, 1, 2 and so on of all the blocks make."""
        *_, made = self.reached(min(MOST_IN_STACK, len(self.sizes)))
        return made

    def chosen(self, height: int, count: int) -> list[int]:
        """Blocks that make a height which so many of them can make.

        The block after which the height first can be made is the greatest of its stack; what is
        left is made by smaller ones. So the search is run once for each block of the stack.
        """
        blocks: list[int] = []
        while count:
            for size, made in zip(self.sizes, self.reached(count), strict=True):
                if made[count] >> height & 1:
                    blocks.append(size)
                    height, count = height - size // self.step, count - 1
                    break
        return blocks

    def nearest(self, asked: float) -> list[int]:
        """The next height below and the next above that can be made, in nanometres."""
        bits = 0
        for some in self.most()[1:]:
            bits |= some
        return [height * self.step for height in _beside(bits, floor(asked / self.step))]


def _beside(bits: int, at: int) -> list[int]:
    """The last bit up to a place and the first after it, those of them that there are."""
    below, above = bits & ((1 << (at + 1)) - 1), bits >> (at + 1)
    found = [below.bit_length() - 1] if below else []
    return [*found, at + (above & -above).bit_length()] if above else found
