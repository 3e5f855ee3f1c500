"""Ranges of cutting speed on one scale, and one's own setups on them by how they went."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shoplog.outcomes import OUTCOMES
from shoplog.problems import counted
from shoplog.render.html import Html
from shoplog.render.made_pages.setup_rows import from_to
from shoplog.render.pictures.outcome_marks import MARK, NOT_TOLD, draw_mark, known_outcome
from shoplog.render.pictures.parts import (
    INCH,
    METRIC,
    OUTLINE,
    THIN,
    TINT,
    WIDTH,
    Both,
    Canvas,
    Point,
    Tells,
    Text,
    text_box,
    text_width,
)
from shoplog.render.pictures.ratio_scale import Scale, drawable, scale_of, ticks

__all__ = ["BandRow", "Ran", "band_chart"]

LEFT, RIGHT = 10.0, WIDTH - 10.0
LANE = 13.0
MOST_LANES = 12
MOST_NUMBERED = 60
FEET_PER_METRE = 1000 / 304.8


@dataclass(frozen=True, slots=True)
class Ran:
    """A setup that ran: its number in the table below, its cutting speed in m/min, how it went."""

    number: int
    speed: float
    outcome: str


@dataclass(frozen=True, slots=True)
class BandRow:
    """A range of cutting speed in m/min, where a source has one, and the setups that it is for."""

    label: str
    band: tuple[float, float] | None
    ran: tuple[Ran, ...]

    def describe(self) -> str:
        """The row in a sentence, for who cannot see it."""
        known = "no range is known"
        if self.band:
            known = f"the range is {from_to(*self.band, 'm/min', 'ft/min').both}"
        said = [_spread(word, self.ran) for word in (*OUTCOMES, NOT_TOLD) if _of(word, self.ran)]
        return f"{self.label}: {'; '.join([known, *said])}."


def _of(word: str, ran: Iterable[Ran]) -> list[float]:
    return [one.speed for one in ran if known_outcome(one.outcome) == word]


def _spread(word: str, ran: Iterable[Ran]) -> str:
    speeds = _of(word, ran)
    return f"{len(speeds)} {word} at {from_to(min(speeds), max(speeds), 'm/min', 'ft/min').metric}"


# ---- the picture ----


def band_chart(rows: Sequence[BandRow], anchor: str, title: str) -> Html:
    """The rows one below another, with a scale in both systems and what each mark means."""
    canvas = Canvas(anchor)
    ends = [end for row in rows for end in row.band or ()]
    speeds = [one.speed for row in rows for one in row.ran]
    scale = scale_of(ends, speeds, LEFT + 6, RIGHT - 6)
    numbered = sum(len(row.ran) for row in rows) <= MOST_NUMBERED
    y = 6.0
    for row in rows:
        y = _row(canvas, row, scale, y, numbered)
    y = _axes(canvas, scale, y)
    _legend(canvas, rows, y + 10)
    return canvas.html(title, " ".join(row.describe() for row in rows))


def _row(canvas: Canvas, row: BandRow, scale: Scale, y: float, numbered: bool) -> float:
    """A row from y on: its words, its range, and the setups in lanes; where the next begins."""
    canvas.write(_fitted(row.label), LEFT - 6, y + 10, strong=True)
    canvas.write(_told(row), LEFT - 6, y + 24)
    top = y + 30
    shown = [one for one in row.ran if drawable(one.speed)]
    lanes = _lanes(shown, scale, numbered)
    bottom = top + LANE * max(1, 1 + max((lane for _, lane in lanes), default=0)) + 4
    _grid(canvas, scale, top, bottom)
    if row.band:
        _band(canvas, row.band, scale, top, bottom)
    for one, lane in lanes:
        at = scale.at(one.speed), top + 2 + LANE * (lane + 0.5)
        draw_mark(canvas, one.outcome, at, Tells("cutting speed", one.speed, "m/min"))
        if numbered:
            _number(canvas, one, at)
    _beyond(canvas, row.ran, scale)
    return bottom + 12


def _told(row: BandRow) -> Text:
    if row.band is None:
        return "no range is known"
    shown = from_to(*row.band, "m/min", "ft/min")
    return Both(shown.metric, shown.inch, together=True)


def _grid(canvas: Canvas, scale: Scale, top: float, bottom: float) -> None:
    """The scale's round numbers through a row; those in inch where the page is in inch."""
    for system, factor in ((METRIC, 1.0), (INCH, FEET_PER_METRE)):
        with canvas.only(system, first=system == METRIC):
            for tick in ticks(scale.least * factor, scale.most * factor):
                x = scale.at(tick / factor)
                canvas.line(THIN, (x, top), (x, bottom))


def _fitted(text: str) -> str:
    """Words that are no wider than the picture."""
    while text_width(text, strong=True) > WIDTH - 8:
        text = f"{text[:-2]}…"
    return text


def _band(
    canvas: Canvas, band: tuple[float, float], scale: Scale, top: float, bottom: float
) -> None:
    left, right = (scale.at(end) for end in band)
    left, right = (left, right) if right - left >= 2 else (left - 1, right + 1)
    canvas.area(TINT, (left, top), (right, top), (right, bottom), (left, bottom))
    for x, name, end in zip((left, right), ("least", "most"), band, strict=True):
        canvas.line(OUTLINE, (x, top), (x, bottom), tells=Tells(name, end, "m/min"))
    canvas.line(OUTLINE, (left, top), (right, top))
    canvas.line(OUTLINE, (left, bottom), (right, bottom))


def _lanes(ran: Sequence[Ran], scale: Scale, numbered: bool) -> list[tuple[Ran, int]]:
    """Each setup in the first lane where its mark meets no other; the last lanes take the rest."""
    ends = [-1.0] * MOST_LANES
    placed = []
    for order, one in enumerate(sorted(ran, key=lambda one: (one.speed, one.number))):
        x = scale.at(one.speed)
        free = (lane for lane, end in enumerate(ends) if end <= x - MARK)
        lane = next(free, order % MOST_LANES)
        room = text_width(str(one.number)) + 3 if numbered else 0
        ends[lane] = x + MARK + 2 + room
        placed.append((one, lane))
    return placed


def _number(canvas: Canvas, one: Ran, at: Point) -> None:
    """A setup's number beside its mark, on the side where there is room."""
    text = str(one.number)
    for x, anchor in ((at[0] + MARK + 2, "start"), (at[0] - MARK - 2, "end")):
        if canvas.is_free(text_box(text, x, at[1] + 4, anchor)):
            canvas.write(text, x, at[1] + 4, anchor)
            return


def _beyond(canvas: Canvas, ran: Iterable[Ran], scale: Scale) -> None:
    beyond = sum(drawable(one.speed) and not scale.holds(one.speed) for one in ran)
    odd = sum(not drawable(one.speed) for one in ran)
    if odd:
        canvas.note(f"{counted(odd, 'setup')} of no possible speed cannot be drawn")
    if beyond:
        stands = "stands" if beyond == 1 else "stand"
        canvas.note(f"{counted(beyond, 'setup')} beyond the scale {stands} at its edge")


# ---- the axes and the legend ----


def _axes(canvas: Canvas, scale: Scale, y: float) -> float:
    """One line with the numbers in inch above it and those in metric below; where it ends."""
    line = y + 14
    canvas.line(OUTLINE, (LEFT, line), (RIGHT, line))
    with canvas.only(INCH):
        _ticks(canvas, scale, (line, -3.0), y + 8, FEET_PER_METRE, "ft/min")
    with canvas.only(METRIC):
        _ticks(canvas, scale, (line, 3.0), line + 15, 1.0, "m/min")
    return line + 22


def _ticks(
    canvas: Canvas, scale: Scale, line: tuple[float, float], y: float, factor: float, name: str
) -> None:
    """The round numbers of a system, each at its tick, from the line so far up or down."""
    unit_box = canvas.write(name, WIDTH - 2, y, "end")
    for tick in ticks(scale.least * factor, scale.most * factor):
        x = scale.at(tick / factor)
        canvas.line(OUTLINE, (x, line[0]), (x, sum(line)), tells=Tells("tick", tick, name))
        box = text_box(f"{tick:g}", x, y, "middle")
        if canvas.is_free(box) and box.right < unit_box.left - 4:
            canvas.write(f"{tick:g}", x, y, "middle")


def _legend(canvas: Canvas, rows: Sequence[BandRow], y: float) -> None:
    """What each mark means that stands in the picture, in lines."""
    found = Counter(known_outcome(one.outcome) for row in rows for one in row.ran)
    x = LEFT
    if any(row.band for row in rows):
        canvas.area(TINT, (x - 5, y - 9), (x + 9, y - 9), (x + 9, y + 1), (x - 5, y + 1))
        corners = ((x - 5, y - 9), (x + 9, y - 9), (x + 9, y + 1), (x - 5, y + 1))
        canvas.line(OUTLINE, *corners, closed=True)
        box = canvas.write("handbook range", x + 14, y)
        x = box.right + 14
    for word in (*OUTCOMES, NOT_TOLD):
        if not found[word]:
            continue
        width = text_width(word)
        if x + 10 + width > WIDTH:
            x, y = LEFT, y + 17
        draw_mark(canvas, word, (x, y - 4))
        canvas.write(word, x + 9, y)
        x += 9 + width + 16
    canvas.reach(y + 4)
