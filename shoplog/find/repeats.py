"""Setups that do again what went poorly: told at their line and on their card.

A setup repeats another where operation, material (or its group), kind of cutter and its material
are the same, and size and figures are near. Only what is known to be earlier counts, and only until
something went well at nearly the same figures. A setup that itself went well repeats nothing.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from shoplog.find.alike import edge_material, edge_size, setup_of
from shoplog.find.record import Figures, Record
from shoplog.log import Log, PageReport
from shoplog.log.pages import with_problems
from shoplog.log.report import BlockReport, Repeats, SetupReport
from shoplog.outcomes import POORLY, WELL
from shoplog.problems import Grade, Mistake, Place, Problem, message

__all__ = ["CUT_SHARE", "FEED_SHARE", "SIZE_SHARE", "SPEED_SHARE", "with_repeats"]

REPEATS = message(
    "setup-repeats",
    "this repeats a setup{material} that {outcome}{day}{at}{fault}{well}",
    grade=Grade.CAUTION,
    example="",
)

SPEED_SHARE = 0.15
"""How far the cutting speed may be from the other's, as a share of it; the next three likewise."""
FEED_SHARE = 0.25
SIZE_SHARE = 0.25
CUT_SHARE = 0.25
"""Of depth and width of cut, where both setups say them."""
MOST_LOOKED_AT = 100
"""The newest so many of each kind are compared with a setup."""

_OUTCOMES = {"poor": "went poorly", "spoiled": "was spoiled"}
Key = tuple[str, str, str, str]


def with_repeats(log: Log, records: Iterable[Record]) -> Log:
    """A log whose setups are told where they repeat one that went poorly.

    What is private is told at private setups alone: nothing of it may reach the site by another.
    """
    kept = tuple(records)
    public = _Known(record for record in kept if not record.private)
    every = _Known(kept) if any(record.private for record in kept) else public
    told: dict[str, dict[str, tuple[Record, _Repeated]]] = {}
    for record in kept:
        if record.anchor in told.get(record.page, {}):
            continue
        found = (every if record.private else public).repeated_by(record)
        if found is not None:
            told.setdefault(record.page, {})[record.anchor] = record, found
    if not told:
        return log
    pages = dict(log.pages)
    for key, by_anchor in told.items():
        pages[key] = _told(log, pages[key], by_anchor)
    return log.with_pages(pages)


@dataclass(frozen=True, slots=True)
class _Repeated:
    """What a record does again, and what near it went well: since then, where something did."""

    poorly: Record
    well: Record | None


@dataclass(slots=True)
class _Dated:
    """Records of one kind in the order of their days, and each page's own in the page's order."""

    days: list[str] = field(default_factory=list)
    by_day: list[Record] = field(default_factory=list)
    by_page: dict[str, list[Record]] = field(default_factory=dict)

    def add(self, record: Record) -> None:
        """Keep a record; those with a day come in the order of their days."""
        self.by_page.setdefault(record.page, []).append(record)
        if record.date:
            self.days.append(record.date)
            self.by_day.append(record)

    def until(self, day: str) -> list[Record]:
        """The newest up to a day; of all of them where no day is given."""
        end = bisect_right(self.days, day) if day else len(self.days)
        return self.by_day[max(0, end - MOST_LOOKED_AT) : end]

    def newest(self, page: str) -> Iterator[Record]:
        """The newest of all, and the last of a page."""
        yield from self.until("")
        yield from self.by_page.get(page, ())[-MOST_LOOKED_AT:]


class _Known:
    """The records that went poorly and those that went well, by what makes two setups alike."""

    def __init__(self, records: Iterable[Record]) -> None:
        self._poorly: dict[Key, _Dated] = {}
        self._well: dict[Key, _Dated] = {}
        for record in sorted(records, key=lambda one: one.date):
            key = _key(record)
            into = {WELL[0]: self._well} | dict.fromkeys(POORLY, self._poorly)
            if key is not None and record.outcome in into:
                into[record.outcome].setdefault(key, _Dated()).add(record)

    def repeated_by(self, record: Record) -> _Repeated | None:
        """What a plan or a run does again, if anything."""
        key = _key(record)
        if key is None or key not in self._poorly or record.outcome in WELL:
            return None
        alike = [one for one in self._before(key, record) if _is_near(record, one)]
        if not alike:
            return None
        poorly = max(alike, key=lambda one: (one.material_row == record.material_row, one.date))
        well = list(self._well_near(key, record))
        since = [one for one in well if _is_since(one, poorly)]
        if any(_is_near(record, one) for one in since):
            return None
        other = since or [one for one in well if not _is_near(record, one)]
        return _Repeated(
            poorly, min(other, key=lambda one: _speed_apart(one, record), default=None)
        )

    def _before(self, key: Key, record: Record) -> Iterator[Record]:
        """What went poorly before: on an earlier day, or above it on its own page."""
        kept = self._poorly[key]
        if record.date or record.run == 0:  # a plan without a day is of what comes next
            for one in kept.until(record.date):
                if one.page != record.page and (one.date < record.date or not record.date):
                    yield one
        own = kept.by_page.get(record.page, [])
        for one in own[-MOST_LOOKED_AT:]:
            if one.anchor != record.anchor and _is_above(one, record):
                yield one

    def _well_near(self, key: Key, record: Record) -> Iterator[Record]:
        kept = self._well.get(key, _Dated())
        for one in kept.newest(record.page):
            if one.ran is not None and _is_alike(edge_size(record), edge_size(one), SIZE_SHARE):
                yield one


def _key(record: Record) -> Key | None:
    """What two setups must have the same; nothing for a setup that does not say enough."""
    material = record.material_group or record.material.casefold()
    if not (record.operation_kind and material):
        return None
    edge = edge_material(record.cutter_material)
    return record.operation_kind, material, record.cutter_kind, edge


def _is_above(one: Record, record: Record) -> bool:
    """Whether one comes before another of its page: by their days, else by their lines."""
    if one.date and record.date and one.date != record.date:
        return one.date < record.date
    return (one.line or 0, one.run or 0) < (record.line or 0, record.run or 0)


def _is_since(well: Record, poorly: Record) -> bool:
    if well.page == poorly.page:
        return _is_above(poorly, well)
    return bool(poorly.date) and well.date >= poorly.date


def _is_near(record: Record, other: Record) -> bool:
    """Whether a plan or a run has nearly the size and the figures of another."""
    mine, its = record.figures, other.figures
    if mine.cutting_speed_m_per_min is None or its.cutting_speed_m_per_min is None:
        return False
    return (
        _is_alike(edge_size(record), edge_size(other), SIZE_SHARE)
        and _is_alike(mine.cutting_speed_m_per_min, its.cutting_speed_m_per_min, SPEED_SHARE)
        and _is_fed_alike(mine, its)
        and _may_be_alike(mine.depth_of_cut_mm, its.depth_of_cut_mm)
        and _may_be_alike(mine.width_of_cut_mm, its.width_of_cut_mm)
    )


def _is_alike(mine: float | None, its: float | None, share: float) -> bool:
    """Whether two figures are within a share of the second, or neither is known."""
    if mine is None or its is None:
        return mine is its
    return abs(mine - its) <= share * its * (1 + 1e-9)


def _may_be_alike(mine: float | None, its: float | None) -> bool:
    return mine is None or its is None or _is_alike(mine, its, CUT_SHARE)


def _is_fed_alike(mine: Figures, its: Figures) -> bool:
    """Whether two feeds are near, in what both are given by; two feeds by hand are."""
    if mine.by_hand or its.by_hand:
        return mine.by_hand and its.by_hand
    pairs = (
        (mine.feed_per_tooth_mm, its.feed_per_tooth_mm),
        (mine.feed_per_rev_mm, its.feed_per_rev_mm),
        (mine.feed_rate_mm_per_min, its.feed_rate_mm_per_min),
    )
    for one, other in pairs:
        if one is not None and other is not None:
            return _is_alike(one, other, FEED_SHARE)
    return False


def _speed_apart(one: Record, other: Record) -> float:
    speeds = one.figures.cutting_speed_m_per_min, other.figures.cutting_speed_m_per_min
    return abs(speeds[0] - speeds[1]) if None not in speeds else float("inf")  # type: ignore[operator]


def _told(log: Log, page: PageReport, by_anchor: dict[str, tuple[Record, _Repeated]]) -> PageReport:
    """A page whose setups say what they repeat."""
    blocks: list[BlockReport] = []
    problems: list[Problem] = []
    for block in page.blocks:
        setup = block.setup
        if setup is None or setup.anchor not in by_anchor:
            blocks.append(block)
            continue
        record, found = by_anchor[setup.anchor]
        mistake = _mistake(record, found)
        also = [_place_of(log, one) for one in (found.poorly, found.well) if one is not None]
        problem = mistake.at(_place_in(page, setup, record), *also)
        repeats = Repeats(
            str(mistake),
            setup_of(found.poorly),
            setup_of(found.well) if found.well else None,
            _other_material(record, found.poorly),
        )
        problems.append(problem)
        made = replace(setup, repeats=repeats)
        blocks.append(replace(block, setup=made, problems=(*block.problems, problem)))
    return replace(with_problems(page, problems), blocks=tuple(blocks))


def _mistake(record: Record, found: _Repeated) -> Mistake:
    poorly = setup_of(found.poorly)
    material = _other_material(record, found.poorly)
    well = setup_of(found.well) if found.well else None
    went = f"; {well.figures or 'another'} went well{_on(well.date)}" if well else ""
    return Mistake(
        REPEATS,
        material=f" in {material}" if material else "",
        outcome=_OUTCOMES[poorly.outcome],
        day=_on(poorly.date),
        at=f" at {poorly.figures}" if poorly.figures else "",
        fault=f" ({poorly.fault})" if poorly.fault else "",
        well=went,
    )


def _on(day: str) -> str:
    return f" on {day}" if day else ""


def _other_material(record: Record, poorly: Record) -> str:
    """The other's material, where it is another row of the same group."""
    if record.material_row == poorly.material_row:
        return ""
    return setup_of(poorly).material


def _place_of(log: Log, record: Record) -> Place:
    return Place(log.pages[record.page].path, record.line or 1, 1)


def _place_in(page: PageReport, setup: SetupReport, record: Record) -> Place:
    """Where a plan or a run begins on its page."""
    run = setup.ran[record.run - 1] if record.run else setup.planned
    line = run.line if run else record.line or 1
    source = page.source.lines[line - 1]
    text = source.strip()
    return Place(page.path, line, len(source) - len(source.lstrip()) + 1, max(1, len(text)), source)
