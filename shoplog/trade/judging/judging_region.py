"""Where the limits of a cut lie over speed and feed, from the formulas that judged it.

Within the feeds of a workshop each share is a product of powers of speed and feed, so a limit is a
straight line over scales of equal ratios. The powers are found by asking the formulas again at
another speed and feed: nothing of their physics is repeated here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import log, pow

from shoplog.trade.declare import TradeError
from shoplog.trade.judging.judging_bands import (
    EDGE,
    MACHINE,
    cut_range,
    feed_of,
    thickest_chip,
)
from shoplog.trade.judging.judging_finish import finish_limits
from shoplog.trade.judging.judging_forces import MAKERS, known_forces
from shoplog.trade.judging.judging_record import (
    AT_BOUND,
    JudgedCut,
    Limit,
    limit_at_least,
)
from shoplog.trade.judging.judging_setup import Remarks, Setup

__all__ = ["Bound", "CutRegion", "region_of"]

ELSEWHERE = 2.0
"""How much faster, and with how much more feed, the formulas are asked again."""
NONE_AT_ALL = 1e-6
LEAST_BOUNDS = 2
_BY_SPEED = ("spindle speed", "slowest spindle speed", "chuck's marked speed",
             "cutter's marked speed", "cutting speed")  # fmt: skip
_BY_FEED = ("feed", "least feed")


@dataclass(frozen=True, slots=True)
class Bound:
    """A limit over speed and feed: its share grows as powers of both."""

    limit: Limit
    """At the cut that was judged."""
    speed: float
    """Spindle speed of that cut, in rpm."""
    feed: float
    """Its feed, in the region's unit."""
    speed_power: float
    feed_power: float

    @property
    def bars(self) -> bool:
        """Whether it keeps a cut out: what is under a handbook's usual range only costs time."""
        return self.limit.kind != "range" or self.limit.bound_is == "most"

    def share_at(self, speed: float, feed: float, *, surely: bool = False) -> float:
        """The share at a speed and a feed, in %; `surely` at the high end of its spread."""
        share = self.limit.share_most if surely else self.limit.share
        faster = pow(speed / self.speed, self.speed_power)
        return share * faster * pow(feed / self.feed, self.feed_power)

    def speed_at(self, feed: float) -> float | None:
        """The speed in rpm at which it is reached; nothing where speed is nothing to it."""
        if not self.speed_power:
            return None
        return self.speed * pow(100 / self.share_at(self.speed, feed), 1 / self.speed_power)

    def feed_at(self, speed: float) -> float | None:
        """The feed at which it is reached; nothing where feed is nothing to it."""
        if not self.feed_power:
            return None
        return self.feed * pow(100 / self.share_at(speed, self.feed), 1 / self.feed_power)


@dataclass(frozen=True, slots=True)
class CutRegion:
    """A cut among its limits over speed and feed, all else being as it is."""

    setup: Setup
    speed: float
    """Spindle speed of the cut, in rpm."""
    feed: float
    feed_unit: str
    """`mm/tooth` in milling, else `mm/rev`."""
    bounds: tuple[Bound, ...]
    whatever: tuple[str, ...]
    """Limits that are passed at every speed and feed."""

    def holds(self, speed: float, feed: float) -> bool:
        """Whether a speed and a feed are within every bound that bars, its spread included."""
        barring = (each for each in self.bounds if each.bars)
        return all(each.share_at(speed, feed, surely=True) <= AT_BOUND for each in barring)


def region_of(judged: JudgedCut) -> CutRegion | None:
    """The limits of a judged cut over speed and feed.

    Nothing where its speed or feed is not known, or where fewer than two limits hang on them.
    """
    setup = judged.setup()
    if setup is None or setup.by_hand or setup.spindle_speed is None:
        return None
    unit_name = "mm/tooth" if setup.kind.milled else "mm/rev"
    feed = feed_of(setup, unit_name)
    if feed is None:
        return None
    bounds = _bounds(setup, feed, judged.limits)
    if len(bounds) < LEAST_BOUNDS:
        return None
    known = {each.limit.what for each in bounds}
    whatever = [
        each.what for each in judged.limits if each.verdict == "beyond" and each.what not in known
    ]
    return CutRegion(setup, setup.spindle_speed, feed, unit_name, bounds, tuple(whatever))


@lru_cache(maxsize=512)  # the plan and each run of a setup are often the same cut
def _bounds(setup: Setup, feed: float, judged: tuple[Limit, ...]) -> tuple[Bound, ...]:
    speed = setup.spindle_speed or 0.0
    found = {
        each.limit.what: each
        for each in (
            *_simple(judged, speed, feed),
            *_from_range(setup, speed, feed),
            *_asked_again(setup, speed, feed),
        )
    }
    return tuple(_each_line_once(found.values()))


def _each_line_once(bounds: Iterable[Bound]) -> Iterator[Bound]:
    """Without those that lie on another: torque on power, where the motor alone bounds both."""
    seen: list[tuple[float, ...]] = []
    for each in bounds:
        line = (each.limit.share, each.speed_power, each.feed_power)
        if not any(_same(line, other) for other in seen):
            seen.append(line)
            yield each


def _same(one: Iterable[float], other: Iterable[float]) -> bool:
    return all(abs(a - b) <= NONE_AT_ALL * abs(a) for a, b in zip(one, other, strict=True))


def _simple(judged: Iterable[Limit], speed: float, feed: float) -> Iterator[Bound]:
    """Limits of the speed itself and of the feed itself."""
    for limit in judged:
        way = 1.0 if limit.bound_is == "most" else -1.0
        if limit.what in _BY_SPEED:
            yield Bound(limit, speed, feed, way, 0.0)
        elif limit.what in _BY_FEED:
            yield Bound(limit, speed, feed, 0.0, way)


def _from_range(setup: Setup, speed: float, feed: float) -> Iterator[Bound]:
    """The low ends: of the machine, and of the handbooks' range of speed and feed."""
    slow = setup.steps_and_ends[0]
    if slow is not None:
        limit = limit_at_least("slowest spindle speed", speed, slow, "rpm", "rated", MACHINE)
        yield Bound(limit, speed, feed, -1.0, 0.0)
    cut = cut_range(setup, Remarks())
    if cut is None:
        return
    if cut.speed_min and setup.cutting_speed:
        pair = (setup.cutting_speed, cut.speed_min)
        limit = limit_at_least("least cutting speed", *pair, "m/min", "range", cut.source)
        yield Bound(limit, speed, feed, -1.0, 0.0)
    band = cut.feed_band()
    if band is not None and band[0] and feed_of(setup, band[2]):
        pair = (feed_of(setup, band[2]) or feed, band[0])
        limit = limit_at_least("least feed", *pair, band[2], "range", cut.source)
        yield Bound(limit, speed, feed, 0.0, -1.0)


def _asked_again(setup: Setup, speed: float, feed: float) -> Iterator[Bound]:
    """Limits whose powers only their formulas know: at this cut, at twice its speed and feed."""
    here, faster, fuller = (
        _limits_at(setup, speed * more, feed * fed)
        for more, fed in ((1, 1), (ELSEWHERE, 1), (1, ELSEWHERE))
    )
    for what, limit in here.items():
        if what in faster and what in fuller and limit.share:
            by_speed, by_feed = (
                _power(limit.share, other[what].share) for other in (faster, fuller)
            )
            if by_speed or by_feed:
                yield Bound(limit, speed, feed, by_speed, by_feed)


def _power(here: float, there: float) -> float:
    found = log(there / here) / log(ELSEWHERE) if here > 0 and there > 0 else 0.0
    return found if abs(found) > NONE_AT_ALL else 0.0


def _limits_at(setup: Setup, speed: float, feed: float) -> dict[str, Limit]:
    """Force, chip and finish of the same cut at a speed and a feed."""
    milled = setup.kind.milled
    cut = replace(
        setup,
        spindle_speed=speed,
        feed_rate=None,
        feed_per_rev=None if milled else feed,
        feed_per_tooth=feed if milled else None,
    )
    found = []
    try:
        forces = known_forces(cut)
        found += [make(cut, forces) for make in MAKERS.values()] if forces else []
    except TradeError:
        pass  # what has no force here has no bound by force
    found += [_chip(cut), next(finish_limits(cut, Remarks()), None)]
    return {limit.what: limit for limit in found if limit is not None}


def _chip(cut: Setup) -> Limit | None:
    chip, edge = Remarks().attempt("chip thickness", lambda: thickest_chip(cut)), cut.edge_mm
    if not chip or not edge:
        return None
    return limit_at_least("chip thickness", 1000 * chip, 1000 * edge, "um", "geometry", EDGE)
