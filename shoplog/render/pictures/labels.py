"""Words in a picture: in one system or in both, and how much room they take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["TEXT_SIZE", "Both", "Box", "Text", "spread", "text_box", "text_width"]

TEXT_SIZE = 12.0
"""At 320 units across, this is read at the width of a telephone."""
_NARROW = frozenset("iljtfrI.,:;'|!()[]/ ·°")
_WIDE = frozenset("mwMW@%…—µØ")


@dataclass(frozen=True, slots=True)
class Both:
    """Words in the system of what is drawn and in the other one, of which a page shows one.

    Shown is the first of them, unless the page's switch asks for the other.
    """

    own: str
    other: str
    in_inches: bool = False
    """Whether the first of them is the one in inches."""
    together: bool = False
    """Whether both are shown, the other in brackets, until the switch asks for one."""

    @property
    def longest(self) -> tuple[str, ...]:
        """All that a reader may see of them at a time."""
        return (self.own, self.other) if not self.together else (f"{self.own} ({self.other})",)


Text = str | Both
"""What is written in a picture."""


def text_width(text: Text, *, strong: bool = False) -> float:
    """About how wide words are: a little more than the fonts that a page may be in."""
    if isinstance(text, Both):
        return max(text_width(each, strong=strong) for each in text.longest)
    narrow = sum(character in _NARROW for character in text)
    wide = sum(character in _WIDE for character in text)
    share = 0.36 * narrow + 0.86 * wide + 0.58 * (len(text) - narrow - wide)
    return TEXT_SIZE * share * (1.07 if strong else 1.0)


@dataclass(frozen=True, slots=True)
class Box:
    """The room that words take."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Whether two of them overlap."""
        beside = self.right <= other.left or other.right <= self.left
        return not (beside or self.bottom <= other.top or other.bottom <= self.top)

    def moved(self, right: float, down: float) -> Box:
        """The same, elsewhere."""
        return Box(self.left + right, self.top + down, self.right + right, self.bottom + down)


def text_box(
    text: Text, x: float, y: float, anchor: str = "start", *,
    strong: bool = False, turned: bool = False,
) -> Box:  # fmt: skip
    """Where words stand that begin, are centred or end at a place on their line."""
    width = text_width(text, strong=strong)
    before = {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    above, below = 0.78 * TEXT_SIZE, 0.22 * TEXT_SIZE
    if turned:  # read from the right: the line runs upwards
        return Box(x - above, y + before - width, x + below, y + before)
    return Box(x - before, y - above, x - before + width, y + below)


def spread(
    wanted: Sequence[float], least: float = TEXT_SIZE + 1, low: float = 0.0, high: float = 1e9
) -> list[float]:
    """Places as near as can be to those wanted, in their order, and at least so far apart.

    Where they do not all fit between low and high, they start at low and go on.

    >>> spread([10, 11, 40], 5)
    [8.0, 13.0, 40.0]
    """
    order = sorted(range(len(wanted)), key=lambda index: wanted[index])
    # Groups of neighbours that touch are moved as one, about the middle of what they want.
    groups: list[list[int]] = []
    for index in order:
        groups.append([index])
        while len(groups) > 1:
            before, last = groups[-2], groups[-1]
            end = _first(wanted, before, least, low, high) + least * (len(before) - 1)
            if _first(wanted, last, least, low, high) - end >= least - 1e-9:
                break
            groups[-2:] = [before + last]
    found = [0.0] * len(wanted)
    for group in groups:
        first = _first(wanted, group, least, low, high)
        for number, index in enumerate(group):
            found[index] = first + number * least
    return found


def _first(
    wanted: Sequence[float], group: list[int], least: float, low: float, high: float
) -> float:
    middle = sum(wanted[index] for index in group) / len(group)
    half = least * (len(group) - 1) / 2
    return float(max(low, min(middle - half, high - 2 * half)))
