"""Which of several feeds and speeds of a row is the one that was set, and which follow from it.

A setup says one feed, and its other figures are worked out. A row may say several. The one with the
fewest digits is taken for the one that was set; another is left out only where it follows to the
last digit.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isclose, pi

from shoplog.log.setups.operations import operation_of
from shoplog.log.setups.quantities import literal, matching_unit
from shoplog.problems import Mistake
from shoplog.units import unit

__all__ = ["Edge", "amount", "one_feed", "one_speed"]

SAME = 1e-6
_EDGES = {"turning": 1.0, "drilling": 2.0}
_FEEDS = ("mm/rev", "mm/tooth", "mm/min")


def amount(text: str, wanted: str) -> float | None:
    """A quantity's number in a unit; nothing where it cannot be read, or is of another kind.

    >>> amount("1/4 in", "mm")
    6.35
    """
    if not text:
        return None
    try:
        return literal(text).to(unit(wanted), loose=True).nominal
    except (Mistake, ValueError):
        return None


@dataclass(frozen=True, slots=True)
class Edge:
    """What moves past the work: the diameter that it moves on, and how many edges there are."""

    diameter: float | None
    """In mm."""
    edges: float | None
    mills: bool = False
    counted: bool = False
    """Whether the edges were counted; a drill has two by its nature, and no card reckons so."""

    @classmethod
    def of(
        cls, operation: str, diameter: float | None, cutter: float | None, teeth: float | None
    ) -> Edge:
        """The edge of a setup, as its card works it out."""
        known = operation_of(operation)
        turns = known is not None and known.family == "turning"
        if cutter and not turns and (known or diameter is None):
            diameter = cutter
        edges = teeth or (_EDGES.get(known.family) if known else None)
        mills = known is not None and known.family == "milling"
        return cls(diameter, edges, mills, counted=bool(teeth))


def one_speed(speed: str, cutting_speed: str, edge: Edge) -> tuple[str, str]:
    """A speed and a cutting speed, less the one that follows from the other."""
    if not (speed and cutting_speed):
        return speed, cutting_speed
    turns, past = amount(speed, "rpm"), amount(cutting_speed, "m/min")
    if not (turns and past and edge.diameter):
        return speed, cutting_speed
    if not isclose(past, pi * edge.diameter * turns / 1000, rel_tol=SAME):
        return speed, cutting_speed
    return ("", cutting_speed) if _digits(cutting_speed) < _digits(speed) else (speed, "")


def one_feed(feeds: list[str], edge: Edge, speed: str, cutting_speed: str) -> tuple[str, list[str]]:
    """The feed that was set, and those that do not follow from it."""
    if len(feeds) == 1:
        return feeds[0], []
    turns, past = amount(speed, "rpm"), amount(cutting_speed, "m/min")
    if not turns and past and edge.diameter:
        turns = past * 1000 / (pi * edge.diameter)
    chosen = min(
        feeds, key=lambda feed: (_leads_nowhere(feed, edge), _digits(feed), _likely(feed, edge))
    )
    base = _per_rev(chosen, edge, turns)
    others = []
    for feed in feeds:
        found = _per_rev(feed, edge, turns)
        follows = base and found and isclose(base, found, rel_tol=SAME)
        if feed is not chosen and not follows:
            others.append(feed)
    return chosen, others


def _leads_nowhere(feed: str, edge: Edge) -> bool:
    """Whether no card works out other feeds from this one."""
    return feed.endswith("/tooth") and not edge.counted


def _digits(text: str) -> int:
    """How many digits of a number say something: of `0.060 mm` it is 1."""
    return len(text.partition(" ")[0].replace(".", "").strip("0"))


def _likely(feed: str, edge: Edge) -> int:
    """The rank of a feed's kind: a mill is fed by the tooth, a lathe by the turn."""
    kinds = ("/tooth", "/rev", "/min") if edge.mills else ("/rev", "/tooth", "/min")
    return next((rank for rank, kind in enumerate(kinds) if feed.endswith(kind)), len(kinds))


def _per_rev(feed: str, edge: Edge, turns: float | None) -> float | None:
    """A feed in mm a revolution, where that is known."""
    try:
        value = literal(feed)
    except Mistake:
        return None
    kind = matching_unit(value, _FEEDS)
    if kind is unit("mm/min"):
        rate = amount(feed, "mm/min")
        return rate / turns if rate and turns else None
    if kind is unit("mm/tooth"):
        per_tooth = amount(feed, "mm/tooth")
        return per_tooth * edge.edges if per_tooth and edge.edges else None
    return amount(feed, "mm/rev")
