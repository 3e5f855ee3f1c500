"""Bars cut into pieces as a picture: every bar to scale, its pieces, the cuts, and what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    ARROW,
    OUTLINE,
    PHANTOM,
    RISING,
    TINT,
    WIDTH,
    Box,
    Canvas,
    Point,
    Tells,
    Text,
    across,
    millimetres,
    picture,
    size,
    text_box,
    text_width,
)
from shoplog.trade.setting_up.stock import BarCuts, CutBar

__all__ = ["draw_bars"]

LEFT, WIDE, TOP, TALL, APART = 10.0, WIDTH - 20.0, 52.0, 20.0, 44.0
MOST_BARS = 12
MOST_TOLD = 60
"""Pieces that carry their number each."""
LEAST_PIECE = 4.0
"""Pieces that would be narrower are drawn together."""
APART_WORDS = 3.0
THINNEST = 0.8
"""Of a cut that would be thinner than a line."""


@dataclass(frozen=True, slots=True)
class _Like:
    """Bars that are cut alike, by their first number."""

    first: int
    count: int
    bar: CutBar

    @property
    def name(self) -> str:
        last = self.first + self.count - 1
        return f"bar {self.first}" if self.count == 1 else f"bars {self.first} to {last}"


@pictured(
    BarCuts, "a bar's pieces", "every bar to scale, its pieces from the left; hatched is left"
)
def draw_bars(found: BarCuts, anchor: str) -> Html:
    """The bars one below another, each with its pieces in the order they are cut."""
    canvas = Canvas(anchor)
    alike = [*_alike(found.bars)]
    shown = alike[:MOST_BARS]
    told = sum(len(each.bar.pieces) for each in shown) <= MOST_TOLD
    for row, each in enumerate(shown):
        _bar(canvas, found, each, TOP + row * APART, told)
    ends = (LEFT, TOP), (LEFT + WIDE, TOP)
    length = Tells("bar_length", found.bar_length, "mm")
    across(canvas, *ends, TOP - 34, size(found.bar_length), length)
    if any((length + found.allowance) * WIDE / found.bar_length < LEAST_PIECE
           for each in shown for length in each.bar.pieces[-1:]):  # fmt: skip
        canvas.note("pieces too short to draw each are drawn together")
    if len(shown) < len(alike):
        canvas.note(f"{sum(each.count for each in shown)} of {found.count} bars are drawn")
    if found.kerf * WIDE / found.bar_length < THINNEST and found.kerf:
        canvas.note("cuts are drawn wider than they are")
    if found.clamping_rest:
        canvas.note("the end that is held is marked by a chain line")
    rows = [*_rows(found, shown)]
    return picture(canvas, f"{found.pieces} pieces from {found.count}", found.describe(), rows)


def _alike(bars: Sequence[CutBar]) -> Iterator[_Like]:
    first = 1
    for bar, group in groupby(bars):
        count = len([*group])
        yield _Like(first, count, bar)
        first += count


def _bar(canvas: Canvas, found: BarCuts, each: _Like, top: float, told: bool) -> None:
    scale = WIDE / found.bar_length
    after = canvas.write(each.name, LEFT, top - 6).right + 2 * APART_WORDS
    x, number = 0.0, 0
    for length, same in groupby(each.bar.pieces):
        count, one = len([*same]), length + found.allowance
        many = 1 if one * scale >= LEAST_PIECE else count
        long = many * one + (many - 1) * found.kerf
        places = []
        for _ in range(count // many):
            places.append((LEFT + x * scale, LEFT + (x + long) * scale))
            tells = Tells("piece", length, "mm") if many == 1 else Tells("pieces", count)
            shown = tells if told or many > 1 else None
            canvas.line(OUTLINE, *_box(*places[-1], top, top + TALL), closed=True, tells=shown)
            x, number = x + long, number + many
            if number <= each.bar.cuts:
                _cut(canvas, found, places[-1][1], top)
                x += found.kerf
        after = _lengths(canvas, length, count, places, top, after)
    _left(canvas, found, each.bar, x * scale, top)


def _cut(canvas: Canvas, found: BarCuts, start: float, top: float) -> None:
    # A cut that is thinner than a line is drawn as wide as one.
    wide = max(found.kerf * WIDE / found.bar_length, THINNEST) if found.kerf else 0.0
    end = min(start + wide, LEFT + WIDE)
    canvas.area(ARROW, *_box(start, end, top - 3, top + TALL + 3), front=True)


def _lengths(
    canvas: Canvas, length: float, count: int, places: Sequence[Point], top: float, after: float
) -> float:
    """The length of pieces that are alike: in each of them, or above all where it has no room.

    `after` is from where on there is room above the bar; what is given is the same for the next.
    """
    together = size(length, f"{count} of {{}}") if count > 1 else size(length)
    text = size(length) if len(places) == count else together
    if _fits(text, *places[0]):
        for ends in places:
            canvas.write(text, sum(ends) / 2, top + TALL - 6, "middle")
        return after
    start, end = places[0][0], places[-1][1]
    middle = max((start + end) / 2, after + text_width(together) / 2)
    if middle > end:
        return after
    _above(canvas, together, middle, top, "middle")
    return middle + text_width(together) / 2 + 2 * APART_WORDS


def _fits(text: Text, start: float, end: float) -> bool:
    return text_width(text) + 4 <= end - start


def _above(canvas: Canvas, text: Text, x: float, top: float, anchor: str) -> None:
    """Words above a bar, where there is room; the key has them anyway."""
    box = text_box(text, x, top - 6, anchor)
    if canvas.is_free(Box(box.left - APART_WORDS, box.top, box.right + APART_WORDS, box.bottom)):
        canvas.write(text, x, top - 6, anchor)


def _left(canvas: Canvas, found: BarCuts, bar: CutBar, x: float, top: float) -> None:
    """What is left, hatched, with its length where there is room."""
    start, end, low = min(LEFT + x, LEFT + WIDE), LEFT + WIDE, top + TALL
    canvas.area(RISING, *_box(start, end, top, low))
    canvas.line(OUTLINE, *_box(start, end, top, low), closed=True, tells=Tells("rest", bar.rest))
    if found.clamping_rest:
        held = end - found.clamping_rest * WIDE / found.bar_length
        canvas.area(TINT, *_box(held, end, top, low))
        canvas.line(PHANTOM, (held, top - 3), (held, low + 3))
    rest = round(bar.rest, 3)
    if _fits(size(rest), start, end):
        canvas.write(size(rest), (start + end) / 2, low - 6, "middle")
    elif rest > 0:
        _above(canvas, size(rest, "{} left"), end - APART_WORDS, top, "end")


def _box(left: float, right: float, top: float, low: float) -> tuple[Point, ...]:
    return (left, top), (right, top), (right, low), (left, low)


def _rows(found: BarCuts, shown: Sequence[_Like]) -> Iterator[tuple[str, ...]]:
    for each in shown:
        counted = [(length, len([*same])) for length, same in groupby(each.bar.pieces)]
        rest = size(round(each.bar.rest, 3))
        sizes = [size(length, f"{count} of {{}}") for length, count in counted[:8]]
        more = " …" if len(counted) > 8 else ""
        told = (
            f"{', '.join(pieces)}{more}; left {left}"
            for pieces, left in (
                ([one.own for one in sizes], f"{rest.own} mm"),
                ([one.other for one in sizes], rest.other),
            )
        )
        yield (each.name, *told)
    yield ("each cut takes", *millimetres(found.kerf))
    if found.allowance:
        yield ("each piece is longer by", *millimetres(found.allowance))
    yield "cuts", str(found.cuts)
    yield "becomes pieces", f"{found.used:.0f} %"
