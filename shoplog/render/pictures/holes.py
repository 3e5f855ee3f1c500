"""Patterns of holes as a picture, numbered, with the datum and a table of coordinates."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot

from shoplog.render.html import Html, join
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.hole_tables import hole_table, readout_table
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
    on_circle,
    size,
    text_box,
    upright,
)
from shoplog.trade.hole_work.hole_patterns import HoleLayout
from shoplog.trade.hole_work.hole_readout import Readout
from shoplog.trade.hole_work.holes import Hole, HolePattern
from shoplog.units import write_number

__all__ = ["draw_circle_of_holes", "draw_layout", "draw_readout"]

LEFT, RIGHT, TOP = 52.0, 34.0, 42.0
SIDE = WIDTH - LEFT - RIGHT
FAR = 2.5
"""Sizes of the pattern beyond which the datum is told of and not drawn: the holes would shrink."""
LARGEST_MARK, LEAST_MARK = 6.0, 1.2
EVERY = {2: "second", 5: "fifth", 10: "tenth", 20: "twentieth", 50: "fiftieth"}
"""Which holes are numbered, where there is no room for all."""
MARK = 0.22
"""A mark's radius in distances of two holes, at most."""
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
    # From the circle's own centre: beside a large distance a small circle would be lost.
    datum = -pattern.centre_x, -pattern.centre_y
    near = hypot(*datum) <= FAR * radius
    view = _view([(-radius, -radius), (radius, radius), *([datum] if near else [])])
    canvas = Canvas(anchor)
    middle = view.at(0.0, 0.0)
    _circle(canvas, pattern, view, middle)
    _datum(canvas, view.at(*datum) if near else None)
    drawn = radius * view.scale
    places = [on_circle(middle, drawn, hole.angle) for hole in pattern.points]
    _holes(canvas, places, middle)
    title = f"{pattern.count} holes on a circle of {write_number(pattern.diameter, 'mm')} mm"
    shown = canvas.html(title, pattern.describe())
    return join([shown, hole_table(pattern.points)])


def _circle(canvas: Canvas, pattern: HolePattern, view: _View, middle: Point) -> None:
    """The circle through the holes with its axes and its diameter."""
    radius = pattern.diameter / 2 * view.scale
    canvas.circle(CENTRE, middle, radius, tells=Tells("diameter", pattern.diameter, "mm"))
    for right, up in ((1, 0), (0, 1)):
        out = radius + 8
        one, other = (
            (middle[0] + sign * right * out, middle[1] + sign * up * out) for sign in (-1, 1)
        )
        canvas.line(CENTRE, one, other)
    tip = on_circle(middle, radius, _gap_angle(pattern))
    text = size(pattern.diameter, "Ø{}")
    leader(canvas, tip, (WIDTH - RIGHT + 4, view.bottom + 22), text, "end")


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
    return join([shown, hole_table(layout.points)])


@pictured(Readout, "a readout of holes", "the holes' places from the readout's zero, to scale")
def draw_readout(readout: Readout, anchor: str) -> Html:
    """Holes as a readout shows them, from its zero."""
    points = tuple(Hole(line.number, line.x, line.y, 0.0) for line in readout.lines)
    canvas = Canvas(anchor)
    _spread_out(canvas, points)
    shown = canvas.html(f"{len(points)} holes from the readout's zero", readout.describe())
    return join([shown, readout_table(readout.lines)])


def _spread_out(canvas: Canvas, points: Sequence[Hole]) -> None:
    places = [(hole.x, hole.y) for hole in points]
    (left, low), (right, high) = _extent(places)
    extent = max(right - left, high - low)
    near = hypot(*_nearest_to_datum(left, right, low, high)) <= FAR * extent
    view = _view([*places, *([(0.0, 0.0)] if near or not extent else [])])
    _datum(canvas, view.at(0.0, 0.0) if near or not extent else None)
    _holes(canvas, [view.at(*place) for place in places], None)
    _overall(canvas, points, view)
    if len(points) == 1:
        _single(canvas, points[0], view)


def _single(canvas: Canvas, hole: Hole, view: _View) -> None:
    """One hole, by its distances from the datum."""
    datum, place = view.at(0.0, 0.0), view.at(hole.x, hole.y)
    if hole.x:
        across(canvas, datum, place, view.bottom + 34, size(hole.x), Tells("x", hole.x, "mm"))
    if hole.y:
        upright(canvas, datum, place, LEFT - 30, size(hole.y), Tells("y", hole.y, "mm"))


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
        across(canvas, *ends, y, size(wide), Tells("across_x", wide, "mm"))
    if tall:
        ends = view.at(by_y[0].x, by_y[0].y), view.at(by_y[-1].x, by_y[-1].y)
        upright(canvas, *ends, LEFT - 30, size(tall), Tells("across_y", tall, "mm"))


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


def _datum(canvas: Canvas, place: Point | None) -> None:
    if place is None:
        canvas.note(OUT_OF_VIEW)
        return
    x, y = place
    axes = (((x + 24, y), "x", (x + 26, y + 4)), ((x, y - 24), "y", (x - 3, y - 26)))
    for end, name, at in axes:
        canvas.line(DIMENSION, place, end)
        arrow(canvas, place, end)
        canvas.write(name, *at)
    canvas.circle(THIN, place, 3.5, tells=Tells("datum", 0.0, "mm"))


def _holes(canvas: Canvas, places: Sequence[Point], centre: Point | None) -> None:
    """The holes by their places in the picture, numbered from 1."""
    radius = max(LEAST_MARK, min(LARGEST_MARK, MARK * _closest(places)))
    for number, place in enumerate(places, start=1):
        canvas.circle(OUTLINE, place, radius, tells=Tells("hole", number))
    labels = [_label(number, at, centre, radius) for number, at in enumerate(places, start=1)]
    every = next((step for step in (1, *EVERY) if _clear(labels, step)), 1000)
    for label in labels:
        if _numbered(label, every) and canvas.is_free(label.box):
            canvas.write(label.text, label.x, label.y, label.anchor)
    if every in EVERY:
        canvas.note(f"every {EVERY[every]} hole is numbered; they follow in the order of the table")
    elif every > 1:
        canvas.note("of the holes only the first is numbered")


@dataclass(frozen=True, slots=True)
class _Label:
    """A hole's number, and where it goes."""

    text: str
    x: float
    y: float
    anchor: str

    @property
    def box(self) -> Box:
        """The room that it takes."""
        return text_box(self.text, self.x, self.y, self.anchor)


def _numbered(label: _Label, every: int) -> bool:
    number = int(label.text)
    return number == 1 or number % every == 0


def _label(number: int, at: Point, centre: Point | None, radius: float) -> _Label:
    """Outward of a circle, else above and to the right."""
    text = str(number)
    if centre is None:
        return _Label(text, at[0] + radius + 1, at[1] - radius - 2.5, "start")
    away = at[0] - centre[0], at[1] - centre[1]
    length = hypot(*away) or 1.0  # a circle too small for its place to tell its holes apart
    out = radius + 4 + TEXT_SIZE / 2
    x, y = at[0] + away[0] / length * out, at[1] + away[1] / length * out
    return _Label(text, x, y + 4, "middle")


def _clear(labels: Sequence[_Label], every: int) -> bool:
    """Whether the numbers of every so many holes stand clear of each other, but for one or two:
    the last of a full circle comes beside the first.
    """
    boxes = [label.box for label in labels if _numbered(label, every)]
    wide = [Box(box.left - 3, box.top, box.right + 3, box.bottom) for box in boxes]
    meeting = sum(
        any(box.meets(other) for other in wide[number + 1 :]) for number, box in enumerate(wide)
    )
    return meeting <= (0 if every == 1 else 2)


def _closest(places: Sequence[Point]) -> float:
    """The least distance of two holes, in the picture."""
    ordered = sorted(places)
    return min(
        (
            hypot(other[0] - one[0], other[1] - one[1])
            for number, one in enumerate(ordered)
            for other in ordered[number + 1 : number + 24]
        ),
        default=SIDE,
    )
