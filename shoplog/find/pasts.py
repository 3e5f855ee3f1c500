"""What the records of a log answer to `past(…)`.

A record counts where it ran, is of another page than the one that asks, is not private, and is like
what is asked. Where it is asked by a page with a day, later records do not count, so that what a
page says does not change with what is cut after it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from statistics import median
from typing import Any

from shoplog.calc.past import Answer, PastAsk, from_handbook
from shoplog.calc.past_record import Past
from shoplog.calc.scope import Waits
from shoplog.find.alike import (
    FIGURE_OF,
    MOST_WORDS,
    edge_material,
    edge_size,
    setup_of,
    short,
    stage_of,
)
from shoplog.find.record import Record
from shoplog.log import Log
from shoplog.outcomes import OUTCOMES, POORLY, WELL
from shoplog.problems import Mistake, counted, message, near
from shoplog.trade.declare import TradeError
from shoplog.units import unit, write_quantity

__all__ = ["LEAST_OF_ASKED", "MOST_OF_ASKED", "MOST_PASTS", "Pasts", "TooSoon", "waiting_runs"]

TOO_MANY_PASTS = message(
    "past-too-many",
    "this page asks the past for more than {most} different things",
    hint="split the page",
    example="",
)

LEAST_OF_ASKED, MOST_OF_ASKED = 0.5, 2.0
"""The diameters that count, as shares of the one asked for."""
ENOUGH_GOOD = 3
"""With fewer good records than this, the usable ones count too."""
MOST_PASTS = 50
MOST_NAMED = 20
MOST_NEAR = 300
"""Words of records that a misspelt one is held against."""

_NONE_WENT_WELL = "no record of this log is like it and went well"

RunId = tuple[str, str, int]
"""The page, the anchor and the number of a run."""


class TooSoon:
    """Answers nothing while the records are still being worked out; knows whether it was asked."""

    def __init__(self) -> None:
        self.asked = False

    def __call__(self, _page: str, _day: date | None) -> Answer:
        """What a page asks: every question waits."""

        def answer(_ask: PastAsk) -> Past:
            self.asked = True
            raise Waits("past")

        return answer


def waiting_runs(log: Log) -> frozenset[RunId]:
    """The runs with a figure that could not be worked out: what they cut with is not known."""
    return frozenset(
        (key, block.setup.anchor, number)
        for key, page in log.pages.items()
        for block in page.blocks
        if block.setup is not None
        for number, run in enumerate(block.setup.ran, 1)
        if any(one.waits for one in (*block.setup.fields.values(), *run.fields.values()))
    )


@dataclass(frozen=True, slots=True)
class _Kept:
    """A record that may count, with what it is compared by."""

    record: Record
    stage: str
    size: float | None
    edge: str
    waits: bool

    @property
    def went_well(self) -> bool:
        return self.record.outcome in WELL


@dataclass(slots=True)
class _Told:
    """What is said of an answer, in the order that it was found."""

    notes: list[str] = field(default_factory=list)

    def add(self, number: int, text: str) -> None:
        """A note of how many records something holds for; none where there are none."""
        if number:
            self.notes.append(f"{counted(number, 'record')} like it left out: {text}")


class Pasts:
    """The records that `past(…)` looks through, by their kind of operation.

    Parameters
    ----------
    records : iterable of Record [-]
        Of the whole log; private ones and those that never ran do not count.
    waiting : frozenset of tuples [-]
        The runs whose own figures hang on `past(…)`: none of them can be asked, or two pages could
        each answer with what the other says.
    """

    def __init__(self, records: Iterable[Record], waiting: frozenset[RunId] = frozenset()) -> None:
        self._all: list[_Kept] = []
        self._by_operation: dict[str, list[_Kept]] = {}
        for record in records:
            if record.ran is None or record.private:
                continue
            kept = _kept(record, (record.page, record.anchor, record.run or 0) in waiting)
            self._all.append(kept)
            self._by_operation.setdefault(record.operation_kind, []).append(kept)
        self._cutters = {
            word: None
            for kept in self._all
            for word in (kept.record.cutter_kind, kept.record.cutter_name.casefold())
        }
        self._machines = {kept.record.machine.casefold(): None for kept in self._all}

    def __call__(self, page: str, day: date | None) -> Answer:
        """What answers a page: its own records do not count, nor those after its day.

        Raises
        ------
        Mistake
            The page asks for more different things than `MOST_PASTS`.
        """
        known: dict[PastAsk, Past | TradeError] = {}

        def answer(ask: PastAsk) -> Past:
            if ask not in known:
                if len(known) >= MOST_PASTS:
                    raise Mistake(TOO_MANY_PASTS, most=MOST_PASTS)
                known[ask] = self._answer_or_why_not(ask, page, day.isoformat() if day else "")
            found = known[ask]
            if isinstance(found, TradeError):
                raise found
            return found

        return answer

    def _answer_or_why_not(self, ask: PastAsk, page: str, until: str) -> Past | TradeError:
        try:
            return self._answer(ask, page, until)
        except TradeError as error:
            return error

    def _answer(self, ask: PastAsk, page: str, until: str) -> Past:
        told = _Told()
        pool = self._by_operation.get(ask.operation, []) if ask.operation else self._all
        found = [kept for kept in pool if kept.record.page != page and _is_like(kept, ask)]
        found = list(_in_time(found, until, told))
        unnamed = list(self._unnamed(ask))
        told.notes += [*(why for _, why, _ in unnamed), *_on_diameter(ask)]
        material, found = _of_material(found, ask, told)
        found = _of_stage(found, ask, told)
        try:
            return _past(ask, material, found, tuple(told.notes))
        except TradeError as error:
            for argument, why, close in unnamed:
                if close:
                    raise TradeError(error.message, hint=why, argument=argument) from None
            raise

    def _unnamed(self, ask: PastAsk) -> Iterator[tuple[str, str, str]]:
        """Words that no record has: the argument, what to say, and the nearest that one has.

        They are free, so a misspelt one is no mistake by itself.
        """
        for word, known, what in (
            (ask.cutter, self._cutters, "cutter"),
            (ask.machine, self._machines, "machine"),
        ):
            if word and word not in known:
                close = near(word[:MOST_WORDS], list(known)[:MOST_NEAR])
                hint = f": did you mean {close}?" if close else ""
                yield what, f"no record names the {what} `{short(word)}`{hint}", close


def _kept(record: Record, waits: bool) -> _Kept:
    return _Kept(
        record,
        stage_of(record.operation),
        edge_size(record),
        edge_material(record.cutter_material),
        waits,
    )


def _on_diameter(ask: PastAsk) -> Iterator[str]:
    """Which diameters count, where one is asked for."""
    if ask.diameter is not None:
        mm = unit("mm")
        least = write_quantity(LEAST_OF_ASKED * ask.diameter, mm)
        most = write_quantity(MOST_OF_ASKED * ask.diameter, mm)
        yield f"diameters from {least} to {most} count: half to double"


def _is_like(kept: _Kept, ask: PastAsk) -> bool:
    record = kept.record
    if ask.group and record.material_group != ask.group:
        return False
    if ask.cutter and ask.cutter not in (record.cutter_kind, record.cutter_name.casefold()):
        return False
    if ask.cutter_material and kept.edge != ask.cutter_material:
        return False
    if ask.machine and record.machine.casefold() != ask.machine:
        return False
    if ask.diameter is None:
        return True
    size = kept.size
    return size is not None and (
        LEAST_OF_ASKED * ask.diameter <= size <= MOST_OF_ASKED * ask.diameter
    )


def _in_time(found: list[_Kept], until: str, told: _Told) -> Iterator[_Kept]:
    """Those that are known by a day, and whose own figures do not hang on `past(…)`."""
    told.add(
        sum(kept.waits for kept in found), "what it ran at hangs on `past(…)` itself, or waits"
    )
    found = [kept for kept in found if not kept.waits]
    if not until:
        yield from found
        return
    told.notes.append(f"records up to {until} count, the day of this page")
    undated = sum(not kept.record.date for kept in found)
    told.add(undated, "no day is known of it")
    yield from (kept for kept in found if kept.record.date and kept.record.date <= until)


def _of_material(found: list[_Kept], ask: PastAsk, told: _Told) -> tuple[str, list[_Kept]]:
    """Those of the material itself, else those of its group; and which of the two."""
    if not ask.material:
        return ask.group, found
    own = [kept for kept in found if kept.record.material_row == ask.material]
    if not any(kept.went_well for kept in own) and any(kept.went_well for kept in found):
        own_name = short(ask.material_text)
        told.notes.append(f"none in {own_name} itself went well: all {ask.group} counts")
        return ask.group, found
    return ask.material, own


def _of_stage(found: list[_Kept], ask: PastAsk, told: _Told) -> list[_Kept]:
    """Those of the stage that is asked for, where any that went well says it."""
    if not ask.stage:
        return found
    own = [kept for kept in found if kept.stage == ask.stage]
    if not any(kept.went_well for kept in own) and any(kept.went_well for kept in found):
        told.notes.append(f"none that went well says {ask.stage}: every cut counts")
        return found
    return own


def _past(ask: PastAsk, material: str, found: list[_Kept], notes: tuple[str, ...]) -> Past:
    records = sorted((kept.record for kept in found), key=lambda one: one.date, reverse=True)
    by_outcome = {word: [one for one in records if one.outcome == word] for word in OUTCOMES}
    badly = [one for one in records if one.outcome in POORLY]
    known: dict[str, Any] = {
        **{word: len(of) for word, of in by_outcome.items()},
        "went_poorly": tuple(map(setup_of, badly[:MOST_NAMED])),
    }
    good, usable = by_outcome["good"], by_outcome["usable"]
    counted = good
    if len(good) < ENOUGH_GOOD and usable:
        counted = sorted([*good, *usable], key=lambda one: one.date, reverse=True)
        notes = (*notes, f"usable ones count too: fewer than {ENOUGH_GOOD} went good")
    if not counted:
        return from_handbook(ask, _NONE_WENT_WELL, notes=notes, **known)
    figures, few = _spreads(counted)
    days = [one.date for one in counted if one.date]
    return Past(
        operation=ask.operation,
        material=material,
        count=len(counted),
        **figures,
        oldest=min(days, default=""),
        newest=max(days, default=""),
        setups=tuple(map(setup_of, counted[:MOST_NAMED])),
        notes=(*notes, *few),
        **known,
    )


def _spreads(records: list[Record]) -> tuple[dict[str, Any], list[str]]:
    """The middle, the least and the most of each figure; and which few records give one."""
    made: dict[str, Any] = {}
    few: list[str] = []
    for name, attribute in FIGURE_OF.items():
        numbers = [
            number
            for one in records
            if one.ran is not None and (number := getattr(one.ran, attribute)) is not None
        ]
        if not numbers:
            continue
        made |= {name: median(numbers), f"{name}_least": min(numbers), f"{name}_most": max(numbers)}
        if len(numbers) < len(records) and name in ("cutting_speed", "depth_of_cut"):
            few.append(f"{name.replace('_', ' ')} is of {len(numbers)} of the {len(records)}")
    return made, few
