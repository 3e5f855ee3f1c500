"""A setup's picture over speed and feed: what bounds it, its runs, and earlier ones of its kind."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence

from shoplog.find.record import Record
from shoplog.log.report import Run, SetupReport
from shoplog.render.html import Html
from shoplog.render.pictures.region import PAST, draw_region
from shoplog.render.pictures.region_plot import Spot
from shoplog.trade.judging.judging_bands import feed_of
from shoplog.trade.judging.judging_region import CutRegion, region_of

__all__ = ["MOST_PAST", "Past", "past_seen_from", "setup_region"]

MOST_PAST = 40
"""Earlier setups that a picture shows; the newest come first."""

Past = Callable[[str], Sequence[Record]]
"""From the anchor of a setup on one page to what ran elsewhere in its kind of cut, newest first."""


def past_seen_from(records: Iterable[Record]) -> Callable[[str], Past]:
    """For each page, what ran of the same operation, material and kind of cutter; none private."""
    kinds: dict[tuple[str, ...], list[Record]] = defaultdict(list)
    own: dict[tuple[str, str], tuple[str, ...]] = {}
    for record in records:
        kind = _kind(record)
        if not record.private and all(kind):
            own[record.page, record.anchor] = kind
            if record.ran is not None:
                kinds[kind].append(record)
    for found in kinds.values():
        found.sort(key=lambda record: record.date, reverse=True)

    def seen_from(page: str) -> Past:
        def near(anchor: str) -> Sequence[Record]:
            kind = own.get((page, anchor))
            alike = kinds[kind] if kind else []
            others = (each for each in alike if (each.page, each.anchor) != (page, anchor))
            return [each for each, _ in zip(others, range(MOST_PAST), strict=False)]

        return near

    return seen_from


def _kind(record: Record) -> tuple[str, ...]:
    return record.operation_kind, record.material_group, record.cutter_kind


def setup_region(setup: SetupReport, anchor: str, past: Past | None = None) -> Html | None:
    """The picture; nothing where fewer than two limits hang on speed and feed."""
    runs = [run for run in (setup.planned, *setup.ran) if run is not None]
    regions = (region_of(run.judged) for run in runs if run.judged is not None)
    region = next((found for found in regions if found is not None), None)
    if region is None:
        return None
    spots = [*_runs(setup, region)]
    if past is not None:
        spots += _earlier(past(setup.anchor), region)
    return draw_region(region, spots, anchor)


def _runs(setup: SetupReport, region: CutRegion) -> Iterator[Spot]:
    if setup.planned is not None:
        yield from _spot(setup.planned, "planned", "", region)
    for number, run in enumerate(setup.ran, 1):
        what = f"ran {number}" if len(setup.ran) > 1 else "ran"
        yield from _spot(run, what, _outcome(setup, run), region)


def _spot(run: Run, what: str, outcome: str, region: CutRegion) -> Iterator[Spot]:
    cut = run.judged.setup() if run.judged is not None else None
    if cut is None or cut.spindle_speed is None:
        return
    feed = feed_of(cut, region.feed_unit)
    if feed is not None:
        deep = cut.depth_of_cut is not None and cut.depth_of_cut != region.setup.depth_of_cut
        yield Spot(what, cut.spindle_speed, feed, outcome, other_depth=deep)


def _outcome(setup: SetupReport, run: Run) -> str:
    fact = run.fields.get("outcome") or setup.fields.get("outcome")
    return fact.text.casefold().strip() if fact else ""


def _earlier(records: Iterable[Record], region: CutRegion) -> Iterator[Spot]:
    """At the speed that cuts as fast on this diameter: what an edge bears is its cutting speed."""
    cut = region.setup
    for record in records:
        figures = record.figures
        feed = (
            figures.feed_per_tooth_mm if region.feed_unit == "mm/tooth" else figures.feed_per_rev_mm
        )
        speed = figures.cutting_speed_m_per_min
        if feed and speed and cut.cutting_speed and cut.spindle_speed:
            rpm = cut.spindle_speed * speed / cut.cutting_speed
            yield Spot(PAST, rpm, feed, record.outcome)
