"""Patterns of holes as a picture, numbered, with the datum and a table of coordinates."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot

from shoplog.render.html import Html, join, scrolled, tag
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    OUTLINE,
    TEXT_SIZE,
    THIN,
    WIDTH,
    Box,
    Canvas,
    Point,
    Tells,
    across,
    arrow,
    leader,
    millimetres,
    on_circle,
    plain,
    text_box,
    upright,
)
from shoplog.trade.hole_work.hole_patterns import HoleLayout
from shoplog.trade.hole_work.hole_readout import Readout, ReadoutLine
from shoplog.trade.hole_work.holes import Hole, HolePattern
from shoplog.units import write_number

__all__ = ["draw_circle_of_holes", "draw_layout", "draw_readout"]

LEFT, RIGHT, TOP, BELOW = 52.0, 34.0, 34.0, 46.0
SIDE = WIDTH - LEFT - RIGHT
FAR = 2.5
"""Sizes of the pattern beyond which the datum is told of and not drawn: the holes would shrink."""
LARGEST_MARK, LEAST_MARK = 6.0, 1.2
EVERY = (1, 2, 5, 10, 20, 50, 100)
"""Which holes are numbered, where there is no room for all."""
OUT_OF_VIEW = "the datum, x 0 and y 0, lies outside the picture"


@dataclass(frozen=True, slots=True)
class _View:
    """Turns coordinates in mm, y up, into places in the picture, y down."""

    left: float
    top: float
    scale: float
    across: float
    tall: float

    def at(self, x: float, y: float) -> Point:
        return LEFT + (x - self.left) * self.scale, TOP + (self.top - y) * self.scale

    @property
    def bottom(self) -> float:
        """Of the view, in the picture."""
        return TOP + self.tall * self.scale


@pictured(
    HolePattern,
    "a pattern of holes",
    "the holes' places, to scale; not the size of the holes",
)
def draw_circle_of_holes(pattern: HolePattern, anchor: str) -> Html:
    """The holes of a circle to scale, each at its place; the size of the holes is not told."""
    radius = pattern.diameter / 2
    centre = pattern.centre_x, pattern.centre_y
    ends = [(centre[0] + sign * radius, centre[1] + sign * radius) for sign in (-1, 1)]
    near = hypot(*centre) <= FAR * radius
    view = _view([*ends, *([(0.0, 0.0)] if near else [])])
    canvas = Canvas(anchor)
    middle = view.at(*centre)
    _circle(canvas, pattern, view, middle)
    _datum(canvas, view, near)
    _holes(canvas, pattern.points, view, middle)
    title = f"{pattern.count} holes on a circle of {write_number(pattern.diameter, 'mm')} mm"
    shown = canvas.html(title, pattern.describe())
    return join([shown, _table(pattern.points)])


def _circle(canvas: Canvas, pattern: HolePattern, view: _View, middle: Point) -> None:
    """The circle through the holes with its axes, its diameter, and the angle of hole 1."""
    radius = pattern.diameter / 2 * view.scale
    diameter = Tells("diameter", pattern.diameter, "mm")
    canvas.circle(CENTRE, middle, radius, tells=diameter)
    for right, up in ((1, 0), (0, 1)):
        out = radius + 8
        one, other = (
            (middle[0] + sign * right * out, middle[1] + sign * up * out) for sign in (-1, 1)
        )
        canvas.line(CENTRE, one, other)
    tip = on_circle(middle, radius, _gap_angle(pattern))
    left = tip[0] < middle[0]
    knee = (LEFT - 14 if left else WIDTH - RIGHT + 4), view.bottom + 22
    text = f"Ø{plain(pattern.diameter)}"
    leader(canvas, tip, knee, text, "end" if not left else "start")


def _gap_angle(pattern: HolePattern) -> float:
    """An angle in the lower right where the circle has no hole."""
    if pattern.count > 60:
        return -50.0
    angles = [hole.angle for hole in pattern.points]
    return max(
        range(-70, -20, 2), key=lambda a: min(abs((a - o + 180) % 360 - 180) for o in angles)
    )


@pictured(
    HoleLayout,
    "a layout of holes",
    "the holes' places, to scale; not the size of the holes",
)
def draw_layout(layout: HoleLayout, anchor: str) -> Html:
    """Holes by their coordinates, with what they spread over."""
    canvas = Canvas(anchor)
    _spread_out(canvas, layout.points)
    shown = canvas.html(f"{layout.count} holes ({layout.kind})", layout.describe())
    return join([shown, _table(layout.points)])


@pictured(Readout, "a readout of holes", "the holes' places from the readout's zero, to scale")
def draw_readout(readout: Readout, anchor: str) -> Html:
    """Holes as a readout shows them, from its zero."""
    points = tuple(Hole(line.number, line.x, line.y, 0.0) for line in readout.lines)
    canvas = Canvas(anchor)
    _spread_out(canvas, points)
    shown = canvas.html(f"{len(points)} holes from the readout's zero", readout.describe())
    return join([shown, _steps(readout.lines)])


def _spread_out(canvas: Canvas, points: Sequence[Hole]) -> None:
    places = [(hole.x, hole.y) for hole in points]
    (left, low), (right, high) = _extent(places)
    size = max(right - left, high - low)
    near = hypot(*_nearest_to_datum(left, right, low, high)) <= FAR * size
    view = _view([*places, *([(0.0, 0.0)] if near or not size else [])])
    _datum(canvas, view, near or not size)
    _holes(canvas, points, view, None)
    _overall(canvas, points, view)


def _nearest_to_datum(left: float, right: float, low: float, high: float) -> Point:
    """The place of the pattern's rectangle that is nearest to the datum."""
    return max(left, min(0.0, right)), max(low, min(0.0, high))


def _overall(canvas: Canvas, points: Sequence[Hole], view: _View) -> None:
    """How far the holes spread along x, below them, and along y, left of them."""
    by_x, by_y = sorted(points, key=lambda hole: hole.x), sorted(points, key=lambda hole: hole.y)
    wide, tall = by_x[-1].x - by_x[0].x, by_y[-1].y - by_y[0].y
    if wide:
        ends = view.at(by_x[0].x, by_x[0].y), view.at(by_x[-1].x, by_x[-1].y)
        y = view.bottom + 34
        across(canvas, *ends, y, plain(wide), Tells("across_x", wide, "mm"))
    if tall:
        ends = view.at(by_y[0].x, by_y[0].y), view.at(by_y[-1].x, by_y[-1].y)
        upright(canvas, *ends, LEFT - 30, plain(tall), Tells("across_y", tall, "mm"))


def _extent(places: Iterable[Point]) -> tuple[Point, Point]:
    xs, ys = zip(*places, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def _view(places: Iterable[Point]) -> _View:
    (left, low), (right, high) = _extent(places)
    wide, tall = right - left, high - low
    # A row is not spread over a square of nothing; a single hole stands in the middle of a little.
    scale = SIDE / (max(wide, tall) or 1.0)
    spare = (SIDE / scale - wide) / 2
    return _View(left - spare, high, scale, wide, tall)


def _datum(canvas: Canvas, view: _View, near: bool) -> None:
    if not near:
        canvas.note(OUT_OF_VIEW)
        return
    x, y = view.at(0.0, 0.0)
    for end, name, place in (
        ((x + 24, y), "x", (x + 26, y + 4)),
        ((x, y - 24), "y", (x - 3, y - 26)),
    ):
        canvas.line(DIMENSION, (x, y), end)
        arrow(canvas, (x, y), end)
        canvas.write(name, *place)
    canvas.circle(THIN, (x, y), 3.5, tells=Tells("datum", 0.0, "mm"))


def _holes(canvas: Canvas, points: Sequence[Hole], view: _View, centre: Point | None) -> None:
    places = [view.at(hole.x, hole.y) for hole in points]
    radius = max(LEAST_MARK, min(LARGEST_MARK, 0.32 * _closest(places)))
    for hole, place in zip(points, places, strict=True):
        canvas.circle(OUTLINE, place, radius, tells=Tells("hole", hole.number))
    boxes = [
        _number_box(hole, place, centre, radius) for hole, place in zip(points, places, strict=True)
    ]
    every = next((step for step in EVERY if _all_free(canvas, points, boxes, step)), EVERY[-1])
    for hole, (box, x, y, anchor) in zip(points, boxes, strict=True):
        if _numbered(hole, every) and canvas.is_free(box):
            canvas.write(str(hole.number), x, y, anchor)
    if every > 1:
        canvas.note(f"every {every}th hole is numbered, they follow each other in order")


def _numbered(hole: Hole, every: int) -> bool:
    return hole.number == 1 or hole.number % every == 0


Label = tuple[Box, float, float, str]


def _number_box(hole: Hole, at: Point, centre: Point | None, radius: float) -> Label:
    """Where a hole's number goes: outward of a circle, else above and to the right."""
    text = str(hole.number)
    if centre is None:
        x, y = at[0] + radius + 1.5, at[1] - radius - 0.5
        return text_box(text, x, y), x, y, "start"
    away = at[0] - centre[0], at[1] - centre[1]
    length = hypot(*away) or 1.0  # a circle too small for its place to tell its holes apart
    out = radius + 4 + TEXT_SIZE / 2
    x, y = at[0] + away[0] / length * out, at[1] + away[1] / length * out + 4
    return text_box(text, x, y, "middle"), x, y, "middle"


def _all_free(canvas: Canvas, points: Sequence[Hole], boxes: Sequence[Label], every: int) -> bool:
    """Whether the numbers of every so many holes stand clear of each other and of other words."""
    chosen = [box for hole, (box, *_) in zip(points, boxes, strict=True) if _numbered(hole, every)]
    for number, box in enumerate(chosen):
        if any(box.meets(other) for other in chosen[number + 1 :]):
            return False
    clear = sum(canvas.is_free(box) for box in chosen)
    return clear >= len(chosen) - 1  # one may give way to the datum's letters


def _closest(places: Sequence[Point]) -> float:
    """The least distance of two holes that follow each other, in the picture."""
    if len(places) < 2:
        return 2 * LARGEST_MARK / 0.32
    ordered = sorted(places)
    gaps = [
        hypot(other[0] - one[0], other[1] - one[1])
        for number, one in enumerate(ordered)
        for other in ordered[number + 1 : number + 24]
    ]
    return min(gaps)


# ---- the tables ----


def _table(points: Sequence[Hole]) -> Html:
    heads = ("Hole", "x mm", "y mm", "x in", "y in", "Angle")
    rows = [
        (
            str(hole.number),
            *_both(hole.x, hole.y),
            f"{write_number(hole.angle, 'deg')}°",
        )
        for hole in points
    ]
    return _coordinates(heads, rows)


def _steps(lines: Sequence[ReadoutLine]) -> Html:
    heads = ("Hole", "X mm", "Y mm", "X in", "Y in", "From the one before, mm")
    rows = [
        (
            str(line.number),
            *_both(line.x, line.y),
            write_number(line.chord, "mm") if line.chord else "",
        )
        for line in lines
    ]
    return _coordinates(heads, rows)


def _both(x: float, y: float) -> tuple[str, ...]:
    """Two coordinates in mm, then in inches, without their units."""
    told = [millimetres(value) for value in (x, y)]
    metric = (mm.removesuffix(" mm") for mm, _ in told)
    return (*metric, *(inch.removesuffix(" in") for _, inch in told))


def _coordinates(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> Html:
    body = [tag("tr", *(tag("td", cell) for cell in row)) for row in rows]
    table = tag(
        "table",
        tag("thead", tag("tr", *(tag("th", head, scope="col") for head in heads))),
        tag("tbody", *body),
        class_="shoplog-table shoplog-coordinates",
    )
    return scrolled(table, "Coordinates")
