"""What a judged cut says: each limit with its figure and bound, and what gives way first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from shoplog.trade.declare import Percent
from shoplog.trade.judging.in_both import InBoth
from shoplog.trade.judging.judging_setup import Setup
from shoplog.trade.machining.cutting_record import CutRating
from shoplog.trade.machining.force_estimates import ForceEstimate, PowerEstimate, TorqueEstimate
from shoplog.units import unit
from shoplog.values import Value

__all__ = [
    "AT_BOUND",
    "HARD",
    "CutForces",
    "JudgedCut",
    "Limit",
    "amount",
    "amount_of",
    "limit_at_least",
    "limit_at_most",
    "ranked",
    "with_change",
]

# What a machine can do, what is marked on a tool and what geometry forbids; the others are a
# chart's range, a rule of thumb, and what the page itself asked for.
HARD = ("rated", "marked", "geometry")
AT_BOUND = 100 * (1 + 1e-9)
_GIVES_WAY = {
    "range": "goes past what is usual",
    "rule of thumb": "goes past what is usual",
    "asked": "misses what is asked",
}
_SHOWN = {"um": "µm", "N*m": "N·m", "mm/tooth": "mm a tooth", "mm/rev": "mm a turn"}


def amount(number: float, name: str) -> str:
    """A number with its unit: three digits, whole from 100 up, W below 1 kW.

    >>> amount(0.0234, "mm/tooth"), amount(0.208, "kW"), amount(1816.4, "N"), amount(4, "")
    ('0.0234 mm a tooth', '208 W', '1816 N', '4 diameters')
    """
    if name == "kW" and abs(number) < 1:
        number, name = 1000 * number, "W"
    shown = f"{number:.0f}" if abs(number) >= 100 else f"{number:.3g}"
    return f"{shown} {_SHOWN.get(name, name) or 'diameters'}"


def amount_of(value: Value) -> str:
    """A value's nominal with its unit, as `amount` writes it."""
    return amount(value.nominal, value.unit.text)


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure of a cut against what it may be."""

    what: str
    """`power`, `cutting speed` …"""
    figure: Value
    bound: Value
    bound_is: str
    """`most` or `least`."""
    share: Percent
    """Of the bound that the figure takes: over 100 it is passed, by the most or by the least."""
    kind: str
    """`rated`, `marked`, `geometry`, `range`, `rule of thumb` or `asked`."""
    source: str
    spread: Percent = 0.0
    """How far off the figure may be, to either side; 0 where it is exact."""
    change: str = ""
    """The nearest change that helps, where the bound is or may be passed and one is known."""
    change_in_inches: str = ""

    @property
    def share_least(self) -> Percent:
        """The share if the figure is as low as it may be."""
        return self.share * (1 - self.spread / 100)

    @property
    def share_most(self) -> Percent:
        """The share if the figure is as high as it may be."""
        return self.share * (1 + self.spread / 100)

    @property
    def verdict(self) -> str:
        """`within`, `beyond`, or `cannot tell` where the bound lies within the spread."""
        if self.share_most <= AT_BOUND:
            return "within"
        return "beyond" if self.share_least > AT_BOUND else "cannot tell"

    @property
    def hard(self) -> bool:
        """Whether it is rated, marked or a matter of geometry, and no range or rule of thumb."""
        return self.kind in HARD

    def describe(self) -> str:
        """The limit in one sentence.

        >>> limit = Limit("power", Value(0.2, unit("kW")), Value(0.5, unit("kW")), "most", 40.0,
        ...     "rated", "", 20)
        >>> limit.describe()
        'power 200 W (±20 %), at most 500 W: 40 %, within.'
        """
        return f"{self.what} {self.against}: {self.share_text}, {self.verdict}."

    @property
    def gentle(self) -> bool:
        """Whether it is the low end of what is usual: nothing gives way by staying under it."""
        return self.kind == "range" and self.bound_is == "least"

    @property
    def against(self) -> str:
        """Figure and bound in words."""
        return self.against_as(amount_of)

    def against_as(self, written: Callable[[Value], str]) -> str:
        """Figure and bound in words, each as a function writes it."""
        return ", ".join(self.figure_and_bound(written))

    def figure_and_bound(self, written: Callable[[Value], str]) -> tuple[str, str]:
        """The figure with its spread, and the bound: `200 W (±20 %)` and `at most 500 W`."""
        about = f" (±{self.spread:g} %)" if self.spread else ""
        return f"{written(self.figure)}{about}", f"at {self.bound_is} {written(self.bound)}"

    @property
    def share_text(self) -> str:
        """The share in words."""
        return f"{self.share:.0f} %" if self.share >= 1 else f"{self.share:.1g} %"


@dataclass(frozen=True, slots=True)
class CutForces:
    """What a cut asks of cutter, work and machine, each with its spread."""

    tangential: ForceEstimate | None
    """Along the cutting speed; of a drill, its torque says it."""
    feed: ForceEstimate | None
    """Greatest push on the drive; nothing where it hangs on a direction that is not known."""
    side: ForceEstimate | None
    """Off the size: what bends cutter, bar or work."""
    torque: TorqueEstimate
    """At the spindle; in milling the peak of a turn."""
    motor_power: PowerEstimate
    source: str
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    def describe(self) -> str:
        """The forces in one sentence."""
        named = (("tangential", self.tangential), ("feed", self.feed), ("side", self.side))
        told = [f"{name} {force.describe()}" for name, force in named if force is not None]
        told += [f"torque {self.torque.describe()}", f"motor {self.motor_power.describe()}"]
        return f"{'; '.join(told)}."


@dataclass(frozen=True, slots=True)
class JudgedCut:
    """Every limit of a cut that could be judged, and what could not."""

    operation: str
    material: str
    cutter: str
    limits: tuple[Limit, ...]
    """Passed ones that are rated, marked or geometry first; then by their share."""
    rating: CutRating | None
    """Gentle, ordinary or brisk: speed, feed and depth in their bands."""
    forces: CutForces | None
    """Where they are known; never for a feed by hand."""
    missing: tuple[str, ...]
    """What is not known, whose it is, and what is not judged for want of it."""
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    _setup: Setup | None = field(default=None, repr=False, compare=False)

    def setup(self) -> Setup | None:
        """The cut that was judged, for judging it at other speeds and feeds; no value of a page."""
        return self._setup

    @property
    def first(self) -> str:
        """What gives way first, and the nearest change that helps."""
        return self.first_as(amount_of, in_inches=False)

    def first_as(self, written: Callable[[Value], str], *, in_inches: bool) -> str:
        """What gives way first, each figure as a function writes it."""
        if not self.limits:
            return "Nothing could be judged: see what is missing."
        gentle = [each for each in self.limits if each.gentle and each.verdict != "within"]
        loads = [each for each in self.limits if each not in gentle]
        # A spindle at its fastest step is no sign that anything is near to giving way.
        telling = [each for each in loads if each.what != "spindle speed"]
        nearest = telling[0] if self.bears and telling else (loads or gentle)[0]
        name = f"{nearest.what[0].upper()}{nearest.what[1:]}"
        told = f"{nearest.against_as(written)}: {nearest.share_text}"
        if nearest.verdict == "within":
            below = (
                f"{each.what.removeprefix('least ')} {each.against_as(written)}" for each in gentle
            )
            usual = "".join(f"; below what is usual: {text}" for text in below)
            return f"Nothing judged gives way; nearest is {nearest.what}, {told}{usual}."
        way = nearest.change_in_inches if in_inches else nearest.change
        change = f"; the nearest change that helps: {way}" if way else ""
        gives = _GIVES_WAY.get(nearest.kind, "gives way first")
        if nearest.verdict == "cannot tell":
            gives = "may give way first, within its spread"
        return f"{name} {gives}: {told}{change}."

    @property
    def holds(self) -> bool:
        """Whether every limit that could be judged is kept, spread and all."""
        return all(limit.verdict == "within" for limit in self.limits)

    @property
    def bears(self) -> bool:
        """Whether every limit is kept but, at most, the low end of what is usual."""
        return all(limit.verdict == "within" or limit.gentle for limit in self.limits)

    @property
    def beyond(self) -> tuple[str, ...]:
        """What is passed even at the low end of its spread."""
        return tuple(each.what for each in self.limits if each.verdict == "beyond")

    @property
    def spindle(self) -> Limit | None:
        """The spindle speed against the machine's."""
        return self.named("spindle speed")

    @property
    def speed(self) -> Limit | None:
        """The cutting speed against its band."""
        return self.named("cutting speed")

    @property
    def feed(self) -> Limit | None:
        """The feed against the greatest of its band."""
        return self.named("feed")

    @property
    def chip(self) -> Limit | None:
        """The chip's thickness against the edge's radius."""
        return self.named("chip thickness")

    @property
    def power(self) -> Limit | None:
        """Power at the motor."""
        return self.named("power")

    @property
    def torque(self) -> Limit | None:
        """Torque at the spindle's step."""
        return self.named("torque")

    @property
    def feed_force(self) -> Limit | None:
        """Force on the drive of table, carriage or quill."""
        return self.named("feed force")

    @property
    def bend(self) -> Limit | None:
        """How far cutter, bar or work bends, against the tolerance."""
        return self.named("bending")

    @property
    def overhang(self) -> Limit | None:
        """Length over diameter of what sticks out."""
        return self.named("overhang")

    @property
    def finish(self) -> Limit | None:
        """Theoretical Ra against the one that is wanted."""
        return self.named("finish")

    def named(self, what: str) -> Limit | None:
        """The limit of a name, where it was judged."""
        return next((limit for limit in self.limits if limit.what == what), None)

    def describe(self) -> str:
        """What gives way first."""
        return self.first


def with_change(limit: Limit, change: InBoth) -> Limit:
    """A limit with the nearest change that helps, where it is or may be passed."""
    if limit.share_most <= AT_BOUND:
        return limit
    return replace(limit, change=change.metric, change_in_inches=change.inch)


def ranked(limits: list[Limit]) -> tuple[Limit, ...]:
    """Hard limits that are passed before all else, then the greatest share; gentle ones last."""

    def rank(each: Limit) -> tuple[bool, bool, float]:
        return not (each.hard and each.share > AT_BOUND), each.gentle, -each.share

    return tuple(sorted(limits, key=rank))


def limit_at_most(
    what: str, figure: float, bound: float, name: str, kind: str, source: str, spread: float = 0.0
) -> Limit:
    """A limit whose figure must not pass a bound over 0."""
    pair = Value(figure, unit(name)), Value(bound, unit(name))
    return Limit(what, *pair, "most", 100 * abs(figure) / bound, kind, source, spread)


def limit_at_least(
    what: str, figure: float, bound: float, name: str, kind: str, source: str
) -> Limit:
    """A limit whose figure, over 0, must reach a bound."""
    pair = Value(figure, unit(name)), Value(bound, unit(name))
    return Limit(what, *pair, "least", 100 * bound / figure, kind, source)
