"""What `past(…)` answers, as pages read it: figures, their spread, and the setups behind them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.trade.declare import (
    MetrePerMinute,
    Millimetre,
    MillimetrePerMinute,
    MillimetrePerRev,
    MillimetrePerTooth,
    RevPerMinute,
)
from shoplog.trade.machining.cutting_naming import operation_known
from shoplog.units import Unit, convert, unit, write_number, write_quantity

__all__ = ["FIGURE_UNITS", "NO_FIGURES", "Past", "PastSetup", "Spread", "feed_figure"]

NO_FIGURES = "no speed or feed was written down"

FIGURE_UNITS = {
    "cutting_speed": "m/min",
    "feed_per_tooth": "mm/tooth",
    "feed_per_rev": "mm/rev",
    "feed_rate": "mm/min",
    "depth_of_cut": "mm",
    "width_of_cut": "mm",
    "speed": "rpm",
}
"""The figures of a `Past`, each with its least and its most, and the unit of each."""


@dataclass(frozen=True, slots=True)
class PastSetup:
    """One time that a setup ran: its place in the log, and how it went."""

    page: str
    """The page, by its path within the log."""
    anchor: str
    """The id of its card."""
    line: int
    title: str
    """The page's heading."""
    date: str
    outcome: str
    fault: str
    material: str
    figures: str
    """Its speed and feed, in words."""

    def describe(self) -> str:
        """Its page and line, and its day."""
        return f"{self.page}:{self.line}{f', {self.date}' if self.date else ''}"


@dataclass(frozen=True, slots=True)
class Spread:
    """A figure with its spread, in a metric unit."""

    words: str
    """What stands before it."""
    unit: Unit
    middle: float
    least: float | None
    most: float | None

    @property
    def text(self) -> str:
        """As it is shown in its own unit.

        >>> Spread("", unit("m/min"), 24, 20, 28).text
        '24.0 m/min (20.0 to 28.0)'
        """
        middle, spread = self.in_unit(self.unit)
        return f"{self.words}{middle}{spread}"

    def in_unit(self, of: Unit) -> tuple[str, str]:
        """Its middle and its spread as they are shown in a unit; one figure alone has no spread."""
        ends = [
            write_number(convert(number, self.unit, of), of.text)
            for number in (self.least, self.most)
            if number is not None
        ]
        spread = f" ({' to '.join(ends)})" if len({*ends}) == 2 else ""
        return write_quantity(convert(self.middle, self.unit, of), of), spread


@dataclass(frozen=True, slots=True)
class Past:
    """What ran and went well: the middle (the median) of each figure, its least and its most.

    Where no record went well the figures are the handbook's: the middle and the ends of its range.
    """

    operation: str
    material: str
    """The material whose records count, or its group."""
    count: int
    """How many records are behind the figures; 0 where they are the handbook's."""
    good: int
    """How many that are like it went so; so too the next three."""
    usable: int
    poor: int
    spoiled: int
    cutting_speed: MetrePerMinute | None = None
    cutting_speed_least: MetrePerMinute | None = None
    cutting_speed_most: MetrePerMinute | None = None
    feed_per_tooth: MillimetrePerTooth | None = None
    feed_per_tooth_least: MillimetrePerTooth | None = None
    feed_per_tooth_most: MillimetrePerTooth | None = None
    feed_per_rev: MillimetrePerRev | None = None
    feed_per_rev_least: MillimetrePerRev | None = None
    feed_per_rev_most: MillimetrePerRev | None = None
    feed_rate: MillimetrePerMinute | None = None
    feed_rate_least: MillimetrePerMinute | None = None
    feed_rate_most: MillimetrePerMinute | None = None
    depth_of_cut: Millimetre | None = None
    depth_of_cut_least: Millimetre | None = None
    depth_of_cut_most: Millimetre | None = None
    width_of_cut: Millimetre | None = None
    width_of_cut_least: Millimetre | None = None
    width_of_cut_most: Millimetre | None = None
    speed: RevPerMinute | None = None
    speed_least: RevPerMinute | None = None
    speed_most: RevPerMinute | None = None
    oldest: str = ""
    """The day of the oldest record behind the figures, as 2026-03-14."""
    newest: str = ""
    setups: tuple[PastSetup, ...] = ()
    """The newest records behind the figures."""
    went_poorly: tuple[PastSetup, ...] = ()
    """The newest that are like it and went poor or were spoiled."""
    from_handbook: str = ""
    """Whose range the figures are, where no record went well."""
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    def describe(self) -> str:
        """The figures with their spread, and what is behind them, in one line."""
        figures = ", ".join(one.text for one in self.spreads()) or NO_FIGURES
        return "; ".join([f"{self.behind()}: {figures}", *self.besides()])

    def behind(self) -> str:
        """What is behind the figures: how many setups, or that it is the handbook."""
        if not self.count:
            return "no record that went well; the handbook's"
        counted = ((self.good, "good"), (self.count - self.good, "usable"))
        words = " and ".join(f"{number} {word}" for number, word in counted if number)
        return f"{words} setup{'' if self.count == 1 else 's'}"

    def besides(self) -> Iterator[str]:
        """What else is to be said in a few words: how many went poorly, and the newest day."""
        counted = ((self.poor, "poor"), (self.spoiled, "spoiled"))
        badly = [f"{number} {word}" for number, word in counted if number]
        if badly:
            yield " and ".join(badly)
        if self.newest:
            yield f"newest {self.newest}"

    def spreads(self) -> Iterator[Spread]:
        """The figures that a reader wants first: speed, feed as the operation has it, depth."""
        feed = feed_figure(self.operation, self.feed_per_tooth is not None)
        words = {"cutting_speed": "", feed: "", "depth_of_cut": "depth of cut "}
        for name, word in words.items():
            middle = getattr(self, name)
            if middle is not None:
                ends = getattr(self, f"{name}_least"), getattr(self, f"{name}_most")
                yield Spread(word, unit(FIGURE_UNITS[name]), middle, *ends)


def feed_figure(operation: str, per_tooth: bool) -> str:
    """The feed that an operation is given by: of a tooth in milling, else of a revolution.

    Of an operation that no row has, as `per_tooth` says.
    """
    known = operation_known(operation)
    tooth = known[0]["feed"] == "tooth" if known else per_tooth
    return "feed_per_tooth" if tooth else "feed_per_rev"
