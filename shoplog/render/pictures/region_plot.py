"""Speed against feed as a plane: scales of equal ratios, and the limits of a cut in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import log

from shoplog.render.pictures.parts import WIDTH, Point
from shoplog.render.pictures.ratio_scale import Scale, drawable
from shoplog.trade.judging.judging_region import Bound, CutRegion

__all__ = [
    "BOTTOM",
    "LEFT",
    "RIGHT",
    "TOP",
    "Line",
    "Plot",
    "Spot",
    "crossing",
    "inside",
    "plot_of",
]

LEFT, RIGHT, TOP, BOTTOM = 44.0, WIDTH - 42.0, 24.0, 232.0
NEAR = 10.0
"""How many times the cut's speed or feed a bound may lie away and still be in the picture."""
LEAST_SPAN = 4.0


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a cut stands: its speed in rpm, its feed in the unit of the region, how it went."""

    what: str
    """`planned`, `ran`, `ran 2`; or `past`."""
    speed: float
    feed: float
    outcome: str = ""
    other_depth: bool = False
    """Whether it was cut at another depth than the bounds are for."""


@dataclass(frozen=True, slots=True)
class Plot:
    """The plane: speed to the right, feed upward."""

    across: Scale
    """Speed in rpm."""
    up: Scale
    """Feed."""

    def at(self, speed: float, feed: float) -> Point:
        """Where a speed and a feed stand."""
        return self.across.at(speed), self.up.at(feed)

    def holds(self, spot: Spot) -> bool:
        """Whether it is in the picture."""
        return self.across.holds(spot.speed) and self.up.holds(spot.feed)


def plot_of(region: CutRegion, spots: Iterable[Spot]) -> Plot:
    """Scales that hold the cut, the bounds near it, and setups near it."""
    speeds, feeds = [region.speed], [region.feed]
    for bound in region.bounds:
        speeds += _near(bound.speed_at(region.feed), region.speed)
        if not bound.speed_power:
            feeds += _near(bound.feed_at(region.speed), region.feed)
    for spot in spots:
        speeds += _near(spot.speed, region.speed)
        feeds += _near(spot.feed, region.feed)
    return Plot(_scale(speeds, LEFT, RIGHT), _scale(feeds, BOTTOM, TOP))


def _near(number: float | None, about: float) -> list[float]:
    if number is None or not drawable(number):
        return []
    return [number] if about / NEAR <= number <= about * NEAR else []


def _scale(numbers: Iterable[float], start: float, end: float) -> Scale:
    least, most = min(numbers), max(numbers)
    widen = max(1.25, (LEAST_SPAN / (most / least)) ** 0.5)
    return Scale(least / widen, most * widen, start, end)


@dataclass(frozen=True, slots=True)
class Line:
    """A bound within the picture, from one place of its edge to another, by speed and feed."""

    bound: Bound
    ends: tuple[Point, Point]


def inside(region: CutRegion, plot: Plot) -> list[Point]:
    """The corners of what is within every bound that bars; none where nothing is."""
    corners = _corners(plot)
    for bound in region.bounds:
        corners = _cut(corners, bound) if bound.bars else corners
    return corners


def _corners(plot: Plot) -> list[Point]:
    slow, fast, low, high = plot.across.least, plot.across.most, plot.up.least, plot.up.most
    return [(slow, low), (fast, low), (fast, high), (slow, high)]


def _cut(corners: Sequence[Point], bound: Bound) -> list[Point]:
    """A polygon without what lies beyond a bound; over scales of equal ratios both are straight."""
    over = [log(bound.share_at(*corner, surely=True) / 100) for corner in corners]
    pairs = zip([*corners, *corners[:1]], [*over, *over[:1]], strict=True)
    left: list[Point] = []
    for (one, out), (other, further) in pairwise(pairs):
        if out <= 0:
            left.append(one)
        if (out <= 0) != (further <= 0):
            left.append(_between(one, other, out / (out - further)))
    return left


def _between(one: Point, other: Point, share: float) -> Point:
    return one[0] * (other[0] / one[0]) ** share, one[1] * (other[1] / one[1]) ** share


def crossing(bounds: Iterable[Bound], plot: Plot) -> Iterator[Line]:
    """The bounds that lie within the picture."""
    corners = _corners(plot)
    for bound in bounds:
        over = [log(bound.share_at(*corner) / 100) for corner in corners]
        edges = zip(pairwise([*corners, corners[0]]), pairwise([*over, over[0]]), strict=True)
        ends = [
            _between(*edge, out / (out - further))
            for edge, (out, further) in edges
            if (out <= 0) != (further <= 0)
        ]
        if len(ends) == 2:
            yield Line(bound, (ends[0], ends[1]))
