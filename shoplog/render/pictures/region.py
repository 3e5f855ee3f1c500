"""A setup among its limits: speed against feed, what bounds them, and where it was run.

Both scales are of equal ratios, where every limit is a straight line. What lies within all of them,
with the spread of the forces taken in, is tinted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from string import ascii_uppercase

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.outcome_marks import MARK, NOT_TOLD, draw_mark, known_outcome
from shoplog.render.pictures.parts import (
    CENTRE,
    CURVE,
    HIDDEN,
    INCH,
    METRIC,
    OUTLINE,
    THIN,
    TINT,
    WIDTH,
    Canvas,
    LineKind,
    Point,
    Tells,
    picture,
    plain,
    text_box,
)
from shoplog.render.pictures.ratio_scale import Scale, ticks
from shoplog.render.pictures.region_plot import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    Line,
    Plot,
    Spot,
    crossing,
    inside,
    plot_of,
)
from shoplog.render.values import amount_in_inches
from shoplog.trade.judging.judging_record import JudgedCut, amount_of
from shoplog.trade.judging.judging_region import Bound, CutRegion, region_of
from shoplog.units import convert, unit

__all__ = ["PAST", "PLANNED", "draw_judged", "draw_region"]

_KINDS: dict[str, LineKind] = {
    "rated": OUTLINE,
    "marked": OUTLINE,
    "geometry": OUTLINE,
    "range": HIDDEN,
    "asked": CENTRE,
}
_SIGNS = {"good": "●", "usable": "◇", "poor": "✕", "spoiled": "▲", NOT_TOLD: "○"}
PLANNED, PAST = "planned", "past"


@pictured(
    JudgedCut,
    "a judged cut",
    "speed against feed, both to scales of equal ratios; tinted is what every limit leaves",
)
def draw_judged(judged: JudgedCut, anchor: str) -> Html | None:
    """A cut among its limits; nothing where speed or feed is not known."""
    region = region_of(judged)
    if region is None:
        return None
    return draw_region(region, [Spot("the cut", region.speed, region.feed)], anchor)


def draw_region(region: CutRegion, spots: Sequence[Spot], anchor: str) -> Html:
    """The limits of a cut over speed and feed, with setups among them."""
    plot = plot_of(region, spots)
    canvas = Canvas(anchor)
    _axes(canvas, region, plot)
    left = inside(region, plot)
    if left:
        canvas.area(TINT, *(plot.at(*place) for place in left))
    shown = [*crossing(region.bounds, plot)]
    _lines(canvas, plot, shown)
    drawn = [spot for spot in spots if plot.holds(spot)]
    _spots(canvas, plot, drawn)
    _letters(canvas, plot, shown)
    _notes(canvas, region, [*spots], drawn, bool(left))
    names = dict(zip(ascii_uppercase, (line.bound for line in shown), strict=False))
    title = f"{region.setup.kind.operation} over speed and feed"
    bounded = ", ".join(bound.limit.what for bound in names.values())
    said = " ".join([f"Bounded by {bounded}.", *(_told(region, spot) for spot in spots[:8])])
    return picture(canvas, title, said, [*_rows(names), *_marks(drawn)])


# ---- axes ---------------------------------------------------------------------------------------


def _axes(canvas: Canvas, region: CutRegion, plot: Plot) -> None:
    canvas.line(OUTLINE, (LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM), (RIGHT, TOP))
    _speeds(canvas, region, plot.across)
    with canvas.only(METRIC):
        _feeds(canvas, plot.up, region.feed_unit)
    with canvas.only(INCH):
        _inch_feeds(canvas, plot.up, region.feed_unit)
    canvas.write("rpm", RIGHT, BOTTOM + 29, "end")


def _feeds(canvas: Canvas, up: Scale, metric: str) -> None:
    """Round feeds at the left."""
    for tick in ticks(up.least, up.most):
        y = up.at(tick)
        canvas.line(OUTLINE, (LEFT - 3, y), (LEFT, y))
        canvas.write(f"{tick:g}", LEFT - 5, y + 4, "end")
    canvas.write(metric, 2, 12)


def _inch_feeds(canvas: Canvas, up: Scale, metric: str) -> None:
    """Round feeds in thousandths at the right."""
    inch = metric.replace("mm", "thou")
    of, thou = unit(metric), unit(inch)
    for tick in ticks(*(convert(end, of, thou) for end in (up.least, up.most))):
        y = up.at(convert(tick, thou, of))
        canvas.line(OUTLINE, (RIGHT, y), (RIGHT + 3, y))
        canvas.write(f"{tick:g}", RIGHT + 5, y + 4)
    canvas.write(inch, WIDTH - 2, 12, "end")


def _speeds(canvas: Canvas, region: CutRegion, across: Scale) -> None:
    """The steps of the machine as lines; round numbers where it has none there."""
    steps = [step for step in region.setup.spindle_steps if across.holds(step)]
    for speed in steps or ticks(across.least, across.most):
        x = across.at(speed)
        top = TOP if steps else BOTTOM - 3
        tells = Tells("step", speed, "rpm") if steps else None
        canvas.line(THIN, (x, top), (x, BOTTOM + 3), tells=tells)
        box = text_box(f" {plain(speed, 'rpm')} ", x, BOTTOM + 15, "middle")
        if canvas.is_free(box):
            canvas.write(plain(speed, "rpm"), x, BOTTOM + 15, "middle")
    words = "steps of the spindle" if steps else "spindle speed"
    canvas.write(words, LEFT, BOTTOM + 29)


# ---- bounds -------------------------------------------------------------------------------------


def _lines(canvas: Canvas, plot: Plot, shown: Iterable[Line]) -> None:
    for line in shown:
        limit = line.bound.limit
        sloped = line.bound.speed_power and line.bound.feed_power
        kind = CURVE if sloped else _KINDS.get(limit.kind, HIDDEN)
        ends = [plot.at(*end) for end in line.ends]
        tells = Tells(limit.what.replace(" ", "_"), limit.bound.nominal, limit.bound.unit.text)
        canvas.line(kind, *ends, tells=tells)


def _letters(canvas: Canvas, plot: Plot, shown: Iterable[Line]) -> None:
    """A letter on each line, where it stands clear of the others."""
    for letter, line in zip(ascii_uppercase, shown, strict=False):
        one, other = (plot.at(*end) for end in line.ends)
        places = [
            (one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1]) + 4)
            for share in (0.93, 0.07, 0.8, 0.2, 0.65, 0.35, 0.5, 0.87, 0.13, 0.73, 0.27)
        ]
        free = (at for at in places if _is_clear(canvas, letter, at))
        canvas.write(letter, *next(free, places[0]), "middle", strong=True)


def _is_clear(canvas: Canvas, letter: str, at: Point) -> bool:
    """Whether a letter there stands apart from other words, not only beside them."""
    return canvas.is_free(text_box(f"  {letter}  ", *at, "middle", strong=True))


# ---- setups -------------------------------------------------------------------------------------


def _spots(canvas: Canvas, plot: Plot, drawn: Sequence[Spot]) -> None:
    for spot in sorted(drawn, key=lambda one: one.what != PAST):
        at = plot.at(spot.speed, spot.feed)
        tells = Tells(f"{spot.what.replace(' ', '_')}_feed", spot.feed)
        if spot.what in (PLANNED, "the cut"):
            x, y = at
            r = MARK + 3
            canvas.circle(CURVE, at, MARK, tells)
            canvas.line(OUTLINE, (x - r, y), (x + r, y))
            canvas.line(OUTLINE, (x, y - r), (x, y + r))
        else:
            draw_mark(canvas, spot.outcome, at, tells)
        if spot.what != PAST:
            _named(canvas, spot.what, at)


def _named(canvas: Canvas, text: str, at: Point) -> None:
    places = (
        (at[0] + 10, at[1] - 5, "start"), (at[0] + 10, at[1] + 13, "start"),
        (at[0] - 10, at[1] - 5, "end"), (at[0] - 10, at[1] + 13, "end"),
        (at[0] + 10, at[1] - 18, "start"), (at[0] + 10, at[1] + 26, "start"),
    )  # fmt: skip
    free = (place for place in places if canvas.is_free(text_box(text, *place)))
    place = next(free, None)
    if place is not None:
        canvas.write(text, *place)


def _notes(
    canvas: Canvas, region: CutRegion, spots: list[Spot], drawn: list[Spot], any_left: bool
) -> None:
    spread = max((bound.limit.spread for bound in region.bounds), default=0)
    if not any_left:
        canvas.note("no speed and feed of the picture is within every limit")
    elif spread:
        canvas.note(f"tinted is what holds, even with a force that is {spread:g} % higher")
    if region.whatever:
        canvas.note(f"beyond its limit at every speed and feed: {', '.join(region.whatever)}")
    deep = [spot.what for spot in spots if spot.other_depth]
    if deep:
        canvas.note(f"at another depth of cut than the limits are drawn for: {', '.join(deep)}")
    if any(spot.what == PAST for spot in drawn):
        canvas.note("past setups stand at their cutting speed, at whatever depth they were cut")
    lost = [spot.what for spot in spots if spot not in drawn and spot.what != PAST]
    if lost:
        canvas.note(f"out of the picture: {', '.join(lost)}")


# ---- words --------------------------------------------------------------------------------------


def _rows(names: dict[str, Bound]) -> Iterator[tuple[str, ...]]:
    for letter, bound in names.items():
        limit = bound.limit
        texts = (limit.figure_and_bound(written)[1] for written in (amount_of, amount_in_inches))
        yield (f"{letter}: {limit.what}", *dict.fromkeys(texts))


def _marks(drawn: Iterable[Spot]) -> Iterator[tuple[str, ...]]:
    """What each mark means that is in the picture, and how many there are."""
    told: dict[tuple[str, str], int] = {}
    for spot in drawn:
        if spot.what in (PLANNED, "the cut"):
            continue
        kind = PAST if spot.what == PAST else "ran"
        outcome = known_outcome(spot.outcome)
        told[kind, outcome] = told.get((kind, outcome), 0) + 1
    for (kind, outcome), count in told.items():
        yield f"{_SIGNS[outcome]} {outcome}", kind if count == 1 else f"{kind}, {count} times"


def _told(region: CutRegion, spot: Spot) -> str:
    went = f", {spot.outcome}" if spot.outcome else ""
    within = "within" if region.holds(spot.speed, spot.feed) else "not within"
    feed = f"{plain(spot.feed, region.feed_unit)} {region.feed_unit}"
    return f"{spot.what} at {plain(spot.speed, 'rpm')} rpm and {feed}{went}: {within} all of them."
