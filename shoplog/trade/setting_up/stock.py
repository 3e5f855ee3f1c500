"""Bars cut into pieces: which pieces come from which bar, what the saw takes, what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, fsum

from shoplog.problems import counted
from shoplog.trade.declare import Millimetre, Number, OutOfRange, Percent, TradeError, offered
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.setting_up.cautions import setting_up_cautions

__all__ = ["BarCuts", "CutBar", "cut_bar"]

FIRST_FIT = (
    "arithmetic; the order is first fit, the longest piece first: common practice, no source"
)
MOST_PIECES = 500
LONGEST = 100_000.0
NEAR_MM = 1e-6
"""Lengths nearer than this are the same: a float's own error, no saw's."""
WAYS = ("saw", "lathe")


@dataclass(frozen=True, slots=True)
class CutBar:
    """One bar: its pieces in the order they are cut, and what is left."""

    pieces: tuple[Millimetre, ...]
    """Finished lengths."""
    cuts: int
    rest: Millimetre
    """What is left over, the end that is held among it."""


@dataclass(frozen=True, slots=True)
class BarCuts:
    """Every bar with its pieces."""

    bar_length: Millimetre
    kerf: Millimetre
    allowance: Millimetre
    """Added to each piece, for facing it."""
    clamping_rest: Millimetre
    way: str
    bars: tuple[CutBar, ...]

    @property
    def count(self) -> int:
        """How many bars it takes."""
        return len(self.bars)

    @property
    def pieces(self) -> int:
        """How many pieces there are."""
        return sum(len(bar.pieces) for bar in self.bars)

    @property
    def cuts(self) -> int:
        """How many cuts there are."""
        return sum(bar.cuts for bar in self.bars)

    @property
    def rests(self) -> tuple[Millimetre, ...]:
        """What is left of each bar."""
        return tuple(bar.rest for bar in self.bars)

    @property
    def longest_rest(self) -> Millimetre:
        """The longest that is left of one bar."""
        return max(self.rests)

    @property
    def used(self) -> Percent:
        """How much of the bars becomes pieces."""
        lengths = fsum(length for bar in self.bars for length in bar.pieces)
        return 100 * lengths / (self.count * self.bar_length)

    @property
    def least_bars(self) -> int:
        """Fewer bars than this hold not even the lengths and the cuts between them."""
        each = fsum(
            length + self.allowance + self.kerf for bar in self.bars for length in bar.pieces
        )
        # Without a held end the last piece of a bar needs no cut behind it.
        room = self.bar_length - self.clamping_rest + (0 if self.clamping_rest else self.kerf)
        return max(1, ceil(each / room - NEAR_MM))

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of the saw, or of a bar in the spindle."""
        return setting_up_cautions("saw" if self.way == "saw" else "spindle")

    @property
    def notes(self) -> tuple[str, ...]:
        """Whether it could be fewer, and how lengths are meant."""
        found = []
        if self.count > self.least_bars:
            found.append(
                f"the longest first is not always the best order: {self.least_bars} might be enough"
            )
        if self.allowance:
            found.append(f"each piece is cut {self.allowance:g} mm longer than its finished length")
        return tuple(found)

    def describe(self) -> str:
        """The cutting in one sentence."""
        bars = counted(self.count, "bar")
        left = ", ".join(f"{rest:.5g}" for rest in self.rests[:6])
        more = " …" if self.count > 6 else ""
        return (
            f"{counted(self.pieces, 'piece')} from {bars} of"
            f" {self.bar_length:g} mm, {counted(self.cuts, 'cut')}; left are"
            f" {left}{more} mm."
        )


@offered(source=FIRST_FIT)
def cut_bar(
    bar_length: Millimetre,
    piece_lengths: list[Millimetre],
    kerf: Millimetre,
    counts: list[Number] | None = None,
    allowance: Millimetre = 0,
    clamping_rest: Millimetre = 0,
    way: str = "saw",
) -> BarCuts:
    """Pieces laid on bars of one length, with the width of each cut and what is left of each bar.

    The longest piece goes on the first bar that has room for it, then the next.

    Parameters
    ----------
    bar_length : float [mm]
        Over 0 to 100 000.
    piece_lengths : list of float [mm]
        Each over 0; 1 to 500 pieces in all.
    kerf : float [mm]
        0 or more; what the saw or the parting tool takes.
    counts : list of float [-]
        How many of each length; left out, one of each.
    allowance : float [mm]
        0 or more; what each piece is cut longer, for facing.
    clamping_rest : float [mm]
        0 or more; the end of each bar that cannot be cut up, for it is held.
    way : str [-]
        `saw`, or `lathe` for pieces that are parted off a bar in the spindle.

    Returns
    -------
    BarCuts [-]
        Each bar with its pieces in their order, its cuts and what is left.

    Raises
    ------
    TradeError
        A piece is longer than a bar leaves room for, or there are too many.

    Notes
    -----
    The order is a good one and not always the best; the notes say where fewer bars might do. A
    piece that takes the whole of what is left needs no cut behind it.

    Examples
    --------
    >>> cut_bar(1000, [300, 240, 180], 2, counts=[2, 2, 1]).describe()
    '5 pieces from 2 bars of 1000 mm, 5 cuts; left are 154, 576 mm.'

    References
    ----------
    Common practice, no source.
    """
    require_within("bar_length", bar_length, "mm", NEAR_MM, LONGEST)
    for name, length in (("kerf", kerf), ("allowance", allowance)):
        require_within(name, length, "mm", 0, bar_length)
    if not 0 <= clamping_rest < bar_length:
        raise OutOfRange("clamping_rest", clamping_rest, "mm", least=0, below=bar_length)
    _require_way(way)
    room = bar_length - (clamping_rest + kerf if clamping_rest else 0)
    wanted = sorted(_wanted(piece_lengths, counts), reverse=True)
    _require_room(wanted[0] + allowance, room, clamping_rest)
    laid = _lay(wanted, room, kerf, allowance)
    bars = tuple(_bar(bar, bar_length, kerf, allowance) for bar in laid)
    return BarCuts(bar_length, kerf, allowance, clamping_rest, way, bars)


def _wanted(lengths: Sequence[float], counts: Sequence[float] | None) -> list[float]:
    """Every piece by its length."""
    if not lengths:
        raise TradeError("there is no piece to cut", argument="piece_lengths")
    each = counts if counts is not None else [1.0] * len(lengths)
    if len(each) != len(lengths):
        raise TradeError(
            f"there are {len(lengths)} lengths and {len(each)} counts, there must be as many",
            argument="counts",
        )
    for length in lengths:
        require_positive("piece_length", length, "mm")
    for count in each:
        if count != round(count) or not 0 <= count <= MOST_PIECES:
            raise TradeError(
                f"a count is {count:g}, it must be a whole number from 0 to {MOST_PIECES}",
                argument="counts",
            )
    found = [length for length, count in zip(lengths, each, strict=True) for _ in range(int(count))]
    if not 1 <= len(found) <= MOST_PIECES:
        raise TradeError(
            f"there are {len(found)} pieces, there may be 1 to {MOST_PIECES}",
            argument="piece_lengths",
        )
    return found


def _lay(wanted: Sequence[float], room: float, kerf: float, allowance: float) -> list[list[float]]:
    """First fit: each piece on the first bar that has room behind the cuts before it."""
    bars: list[list[float]] = []
    taken: list[float] = []
    for length in wanted:
        long = length + allowance
        for number, used in enumerate(taken):
            if used + long <= room + NEAR_MM:
                bars[number].append(length)
                taken[number] += long + kerf
                break
        else:
            bars.append([length])
            taken.append(long + kerf)
    return bars


def _bar(pieces: Sequence[float], length: float, kerf: float, allowance: float) -> CutBar:
    whole = fsum(pieces) + len(pieces) * allowance
    behind = whole + (len(pieces) - 1) * kerf
    if behind >= length - NEAR_MM:  # the last piece is what is left of the bar
        return CutBar(tuple(pieces), len(pieces) - 1, 0.0)
    return CutBar(tuple(pieces), len(pieces), max(0.0, length - whole - len(pieces) * kerf))


def _require_room(longest: float, room: float, clamping_rest: float) -> None:
    if longest > room + NEAR_MM:
        held = f" beside the {clamping_rest:g} mm that are held" if clamping_rest else ""
        raise TradeError(
            f"a piece takes {longest:g} mm, a bar has room for {max(room, 0):g} mm{held}",
            argument="piece_lengths",
        )


def _require_way(way: str) -> None:
    if way not in WAYS:
        raise TradeError(
            f"the bar is cut by {way[:20]!r}, it must be by 'saw' or 'lathe'", argument="way"
        )
