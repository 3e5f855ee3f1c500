"""Change wheels for a lead: simple and compound trains from the wheels on hand, best first."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, permutations

from shoplog.trade.declare import Micrometre, Millimetre, Number, TradeError, offered
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.screw_threads.screw_cutting import CLEAR_OF_CHUCK, TURN_BY_HAND
from shoplog.trade.screw_threads.thread_record import INCH
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["ChangeWheels", "WheelTrain", "change_wheels"]

MOST_WHEELS = 30
MOST_TEETH = 300
FEWEST_TEETH = 10
SHOWN = 8
"""Trains that are kept, best first."""
FARTHEST = 0.01
"""A train that misses the lead by more of it than this is none."""
WHEELS_STOPPED = (
    "change wheels only with the machine switched off at the supply; close the guard before it runs"
)
COUNTED = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(?:tpi|TPI|threads per inch)")
LENGTH = re.compile(r"([0-9]+(?:\.[0-9]+)?)(?:/([1-9][0-9]*))? ?(mm|in)")


@dataclass(frozen=True, slots=True)
class WheelTrain:
    """One train: drivers and driven wheels, and the lead that it cuts."""

    drivers: tuple[int, ...]
    """Teeth, from the spindle's stud on."""
    driven: tuple[int, ...]
    """Teeth, the last on the leadscrew; each meshes with the driver of the same place."""
    lead: Millimetre
    """That it cuts."""
    wanted: Millimetre
    length: Millimetre
    """Over which the error is stated."""

    @property
    def compound(self) -> bool:
        """Whether it has two pairs of wheels."""
        return len(self.drivers) > 1

    @property
    def ratio(self) -> Number:
        """Turns of the leadscrew for one turn of the spindle."""
        top, bottom = _product(self.drivers), _product(self.driven)
        return top / bottom

    @property
    def error(self) -> Micrometre:
        """How much the thread is too long over the length; under 0 it is too short."""
        return 1000 * self.length * (self.lead - self.wanted) / self.wanted

    @property
    def exact(self) -> bool:
        """Whether the lead is the wanted one."""
        return abs(self.lead - self.wanted) <= 1e-9 * self.wanted

    def describe(self) -> str:
        """The train in one sentence."""
        pairs = " × ".join(
            f"{driver}/{driven}" for driver, driven in zip(self.drivers, self.driven, strict=True)
        )
        off = "exact" if self.exact else f"{self.error:+.1f} µm over {self.length:g} mm"
        return f"drivers/driven {pairs}: lead {self.lead:.5f} mm, {off}."


@dataclass(frozen=True, slots=True)
class ChangeWheels:
    """Trains for a lead, best first."""

    wanted: Millimetre
    leadscrew: Millimetre
    """Its lead."""
    length: Millimetre
    trains: tuple[WheelTrain, ...]

    @property
    def best(self) -> WheelTrain:
        """The train with the least error; of equals the simple one, and then fewer teeth."""
        return self.trains[0]

    @property
    def drivers(self) -> tuple[Number, ...]:
        """Of the best train."""
        return tuple(float(teeth) for teeth in self.best.drivers)

    @property
    def driven(self) -> tuple[Number, ...]:
        """Of the best train."""
        return tuple(float(teeth) for teeth in self.best.driven)

    @property
    def lead(self) -> Millimetre:
        """That the best train cuts."""
        return self.best.lead

    @property
    def error(self) -> Micrometre:
        """Of the best train, over the length."""
        return self.best.error

    @property
    def notes(self) -> tuple[str, ...]:
        """The next best trains, and what an idler does."""
        others = tuple(f"next: {train.describe()}" for train in self.trains[1:4])
        return (
            *others,
            "an idler between two wheels changes no lead; one more or one less changes the hand",
        )

    def describe(self) -> str:
        """The best train in one sentence."""
        return (
            f"Lead {self.wanted:g} mm with a leadscrew of {self.leadscrew:g} mm:"
            f" {self.best.describe()}"
        )


@offered(
    source="F. D. Jones, Turning and Boring, 1914, change gears for thread cutting; room for the"
    " wheels on the banjo: common practice, no source",
    cautions=(WHEELS_STOPPED, TURN_BY_HAND, CLEAR_OF_CHUCK),
)
def change_wheels(
    thread: Thread | Millimetre,
    leadscrew: str | Millimetre,
    wheels: list[int],
    length: Millimetre = 10,
    least_sum: int = 0,
    most_sum: int = 600,
    clear_teeth: int = 15,
) -> ChangeWheels:
    """Change wheels that cut a lead, from the wheels on hand, with the error of each train.

    drivers / driven = lead of the thread / lead of the leadscrew; the error over a length L is
    L (lead cut - lead wanted) / lead wanted.

    Parameters
    ----------
    thread : Thread or float [mm]
        The thread, or its lead; 0.05 to 100.
    leadscrew : str or float [mm]
        Its lead, `3 mm` or `1/8 in`; or as text, as a shop profile has it: `"3 mm"`, `"8 tpi"`.
    wheels : list of int [-]
        Teeth of each wheel on hand, 2 to 30 wheels of 10 to 300 teeth; a size twice is two wheels.
    length : float [mm]
        Length of engagement over which the error is stated; 0.1 to 10000.
    least_sum : int [-]
        Least teeth of two meshing wheels together that the banjo reaches; 0 to 600.
    most_sum : int [-]
        Most teeth of two meshing wheels together; 0 to 600.
    clear_teeth : int [-]
        0 to 100. In a compound train a wheel must clear the stud of the next pair: the two wheels
        of a pair together have this many teeth more than the wheel beside them.

    Returns
    -------
    ChangeWheels [-]
        Up to eight trains, best first; the drivers, driven wheels, lead and error of the best.

    Raises
    ------
    TradeError
        Fewer than two wheels, wheels that are none, or none that mesh and come within 1 %.

    Notes
    -----
    All wheels must be of one pitch (module). A simple train is taken to have an idler where its
    wheels do not reach each other, from a wheel that is left over. Fixed gears between spindle and
    stud must be one to one, or the leadscrew's lead be given with them counted in.

    Examples
    --------
    >>> found = change_wheels(Thread.from_text("M10"), 3, [20, 30, 40, 45, 60])
    >>> found.drivers, found.driven, found.best.exact
    ((20.0,), (40.0,), True)

    References
    ----------
    F. D. Jones, Turning and Boring, 1914; common practice, no source.
    """
    wanted, screw = _lead(thread), _leadscrew(leadscrew)
    teeth = _wheels(wheels)
    require_within("length", length, "mm", 0.1, 10000)
    require_within("least_sum", least_sum, "", 0, 600)
    require_within("most_sum", most_sum, "", 0, 600)
    require_within("clear_teeth", clear_teeth, "", 0, 100)
    banjo = _Banjo(least_sum, most_sum, clear_teeth)
    found = [
        WheelTrain(drivers, driven, screw * _product(drivers) / _product(driven), wanted, length)
        for drivers, driven in _trains(wanted / screw, teeth, banjo)
    ]
    near = [train for train in found if abs(train.lead / wanted - 1) <= FARTHEST]
    if not near:
        raise _none(wanted, screw, found, banjo)
    near.sort(key=_rank)
    return ChangeWheels(wanted, screw, length, tuple(_different(near)))


# ---- what is asked ---------------------------------------------------------------------------


def _lead(thread: Thread | float) -> float:
    lead = thread.lead if isinstance(thread, Thread) else thread
    require_within("thread", lead, "mm", 0.05, 100)
    return lead


def _leadscrew(leadscrew: float | str) -> float:
    if not isinstance(leadscrew, str):
        require_within("leadscrew", leadscrew, "mm", 0.5, 50)
        return leadscrew
    text = leadscrew.strip()[:40]
    if found := LENGTH.fullmatch(text):
        unit = INCH if found[3] == "in" else 1.0
        return _leadscrew(float(found[1]) / int(found[2] or 1) * unit)
    if not (found := COUNTED.fullmatch(text)):
        raise TradeError(
            f'"{leadscrew}" is no leadscrew', hint='write 3 mm or "8 tpi"', argument="leadscrew"
        )
    count = float(found[1])
    require_within("leadscrew", count, "threads per inch", 0.5, 50)
    return INCH / count


def _wheels(wheels: Sequence[int]) -> list[int]:
    if not 2 <= len(wheels) <= MOST_WHEELS:
        count = "is 1 wheel" if len(wheels) == 1 else f"are {len(wheels)} wheels"
        raise TradeError(
            f"there {count}, it must be 2 to {MOST_WHEELS}",
            hint="leave out those that no train will use",
            argument="wheels",
        )
    for teeth in wheels:
        if not FEWEST_TEETH <= teeth <= MOST_TEETH or teeth != int(teeth):
            raise TradeError(
                f"a wheel has {teeth:g} teeth, it must be a whole number from {FEWEST_TEETH} to"
                f" {MOST_TEETH}",
                argument="wheels",
            )
    return sorted(int(teeth) for teeth in wheels)


# ---- finding trains --------------------------------------------------------------------------

Pair = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Banjo:
    """What fits on the lathe."""

    least: int
    most: int
    clear: int

    def meshes(self, one: int, other: int) -> bool:
        return self.least <= one + other <= self.most

    def order(self, drivers: Pair, driven: Pair) -> tuple[Pair, Pair] | None:
        """The first order of two pairs in which every wheel clears the next stud."""
        for first, second in permutations(drivers):
            for low, last in permutations(driven):
                if (
                    self.meshes(first, low)
                    and self.meshes(second, last)
                    and first + low >= second + self.clear
                    and second + last >= low + self.clear
                ):
                    return (first, second), (low, last)
        return None


def _product(teeth: Iterable[int]) -> int:
    made = 1
    for each in teeth:
        made *= each
    return made


def _trains(ratio: float, teeth: list[int], banjo: _Banjo) -> Iterator[tuple[Pair, Pair]]:
    for driver, driven in sorted(set(permutations(teeth, 2))):
        if banjo.meshes(driver, driven) or len(teeth) > 2:
            yield (driver,), (driven,)
    yield from _compound(ratio, teeth, banjo)


def _compound(ratio: float, teeth: list[int], banjo: _Banjo) -> Iterator[tuple[Pair, Pair]]:
    """Trains of two pairs near a ratio: for each pair of drivers, the driven ones within 1 %.

    Bounded: 30 wheels make at most 435 pairs, and few of their products are so near each other.
    """
    have = Counter(teeth)
    pairs = sorted(set(combinations(teeth, 2)), key=lambda pair: (_product(pair), pair))
    products = [_product(pair) for pair in pairs]
    for drivers in pairs:
        wanted = _product(drivers) / ratio
        first = bisect_left(products, wanted / (1 + FARTHEST))
        last = bisect_right(products, wanted / (1 - FARTHEST))
        for driven in pairs[first:last]:
            if set(drivers) & set(driven) or any(
                count > have[size] for size, count in Counter(drivers + driven).items()
            ):
                continue  # a wheel that is on both sides does nothing
            placed = banjo.order(drivers, driven)
            if placed:
                yield placed


def _rank(train: WheelTrain) -> tuple[float, bool, int, Pair]:
    total = sum(train.drivers) + sum(train.driven)
    off = round(abs(train.lead / train.wanted - 1), 9)
    return off, train.compound, total, train.drivers


def _different(trains: list[WheelTrain]) -> list[WheelTrain]:
    """The best of the trains that cut the same lead twice over, so that all shown say something."""
    found: list[WheelTrain] = []
    seen: Counter[float] = Counter()
    for train in trains:
        lead = round(train.lead, 9)
        seen[lead] += 1
        if seen[lead] <= 2:
            found.append(train)
        if len(found) == SHOWN:
            break
    return found


def _none(wanted: float, screw: float, found: list[WheelTrain], banjo: _Banjo) -> TradeError:
    """Why there is no train, and the ratio that a wheel to buy or print would have to make."""
    exact = Fraction(wanted / screw).limit_denominator(1000)
    what = f"no train of these wheels that meshes comes within 1 % of a lead of {wanted:g} mm"
    if found:
        near = min(found, key=lambda train: abs(train.lead - wanted))
        what += f"; the nearest simple one cuts {near.lead:.4f} mm"
    hint = f"drivers to driven must be as {exact.numerator} to {exact.denominator}"
    if banjo.least or banjo.clear:
        hint += "; or the limits on the wheels are too narrow"
    return TradeError(what, hint=hint, argument="wheels")
