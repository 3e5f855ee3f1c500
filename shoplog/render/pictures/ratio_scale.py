"""A scale of equal ratios for a chart, and the round numbers on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor, log10

__all__ = ["Scale", "drawable", "scale_of", "ticks"]

WIDEST = 1000.0
"""How far the ends of a scale are apart at most; a setup beyond it stands at the edge."""
MOST_TICKS = 7
LEAST, GREATEST = 1e-9, 1e9
"""What no number that was ever set on a machine lies outside of."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale of equal ratios: from a least number at a place to a greatest at another."""

    least: float
    most: float
    start: float
    end: float

    def at(self, number: float) -> float:
        """Where a number stands; at the edge where it is beyond."""
        inside = min(max(number, self.least), self.most)
        share = log10(inside / self.least) / log10(self.most / self.least)
        return self.start + share * (self.end - self.start)

    def holds(self, number: float) -> bool:
        """Whether it is within."""
        return self.least <= number <= self.most


def drawable(number: float) -> bool:
    """Whether a number has a place on such a scale."""
    return LEAST <= number <= GREATEST


def scale_of(ranges: Iterable[float], numbers: Iterable[float], start: float, end: float) -> Scale:
    """A scale that holds the ends of ranges, and every number that is not absurdly far from them.

    >>> scale_of([20.0, 40.0], [30.0, 1e9], 0, 100).most < 100
    True
    """
    found = sorted(filter(drawable, numbers))
    about = [*filter(drawable, ranges)] or found[len(found) // 2 :][:1] or [1.0]
    least, most = min(about), max(about)
    room = max(1.0, WIDEST / (most / least)) ** 0.5
    near = [one for one in found if least / room <= one <= most * room]
    least, most = min((least, *near)), max((most, *near))
    widen = max(1.12, (4 / (most / least)) ** 0.5)  # a scale of one number still has a length
    return Scale(least / widen, most * widen, start, end)


def ticks(least: float, most: float) -> list[float]:
    """Round numbers between two: 1, 2 and 5 of each ten, more where few are between, or fewer.

    >>> ticks(7, 130), ticks(20, 43)
    ([10.0, 20.0, 50.0, 100.0], [20.0, 30.0, 40.0])
    """
    tens = range(floor(log10(least)), ceil(log10(most)) + 1)
    for steps in ((1, 1.5, 2, 3, 4, 5, 6, 8), (1, 2, 5), (1,)):
        found = [step * 10.0**ten for ten in tens for step in steps]
        found = [one for one in found if least <= one <= most]
        if len(found) <= MOST_TICKS:
            break
    return found
