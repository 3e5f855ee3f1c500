"""Holes on a circle as a picture, numbered, with the datum and a table of coordinates."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

import drawsvg as draw

from shoplog.render.html import Html, join, scrolled, tag
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import line, mark, svg, write
from shoplog.trade.hole_work.holes import Hole, HolePattern
from shoplog.units import convert, unit, write_number

__all__ = ["draw_holes"]

SIDE = 300.0
MARGIN = 34.0
FAR = 2.5
"""Radii from the centre beyond which the datum is told of and not drawn: the holes would shrink."""
LABEL_ROOM = 15.0


@dataclass(frozen=True, slots=True)
class _View:
    """Turns coordinates in mm, y up, into places in the picture, y down."""

    left: float
    top: float
    scale: float

    def at(self, x: float, y: float) -> tuple[float, float]:
        return MARGIN + (x - self.left) * self.scale, MARGIN + (self.top - y) * self.scale


@pictured(
    HolePattern,
    "a pattern of holes",
    "the holes' places, to scale; not the size of the holes",
)
def draw_holes(pattern: HolePattern, anchor: str) -> Html:
    """The pattern's holes to scale, each at its place; the size of the holes is not told by it."""
    near = hypot(pattern.centre_x, pattern.centre_y) <= FAR * pattern.diameter / 2
    view = _view(pattern, near)
    picture = draw.Drawing(SIDE, SIDE + (0 if near else 18))
    for part in (*_circle(pattern, view), *_datum(view, near), *_holes(pattern, view)):
        picture.append(part)
    title = f"{pattern.count} holes on a circle of {write_number(pattern.diameter, 'mm')} mm"
    shown = svg(picture, anchor, title, f"{pattern.describe()} {_datum_text(near)}")
    return join([shown, _table(pattern)])


def _view(pattern: HolePattern, near: bool) -> _View:
    radius = pattern.diameter / 2
    zero = [0.0] if near else []
    across = [pattern.centre_x - radius, pattern.centre_x + radius, *zero]
    upward = [pattern.centre_y - radius, pattern.centre_y + radius, *zero]
    wide, tall = max(across) - min(across), max(upward) - min(upward)
    scale = (SIDE - 2 * MARGIN) / max(wide, tall)
    spare = (SIDE - 2 * MARGIN) / scale
    return _View(min(across) - (spare - wide) / 2, max(upward) + (spare - tall) / 2, scale)


def _circle(pattern: HolePattern, view: _View) -> Iterator[draw.DrawingElement]:
    x, y = view.at(pattern.centre_x, pattern.centre_y)
    yield mark(x, y, pattern.diameter / 2 * view.scale, "shoplog-thin shoplog-pitch-circle")
    yield line(x - 7, y, x + 7, y, "shoplog-thin")
    yield line(x, y - 7, x, y + 7, "shoplog-thin")


def _datum_text(near: bool) -> str:
    return "The datum, x 0 and y 0, is marked." if near else "The datum lies outside the picture."


def _datum(view: _View, near: bool) -> Iterator[draw.DrawingElement]:
    if not near:
        yield write(_datum_text(near), 6, SIDE + 8)
        return
    x, y = view.at(0.0, 0.0)
    yield line(x, y, x + 26, y, "shoplog-datum")
    yield line(x, y, x, y - 26, "shoplog-datum")
    yield mark(x, y, 3.5, "shoplog-datum")
    yield write("x", x + 28, y + 4)
    yield write("y", x - 3, y - 29)


def _holes(pattern: HolePattern, view: _View) -> Iterator[draw.DrawingElement]:
    chord = (pattern.chord or pattern.diameter) * view.scale
    radius = max(1.0, min(8.0, 0.35 * chord))
    every = max(1, -(-int(LABEL_ROOM) // max(1, int(chord))))
    centre = view.at(pattern.centre_x, pattern.centre_y)
    for hole in pattern.points:
        x, y = view.at(hole.x, hole.y)
        yield mark(x, y, radius, "shoplog-drilled")
        if (hole.number - 1) % every == 0:
            yield _number(hole, (x, y), centre, radius)


def _number(
    hole: Hole, at: tuple[float, float], centre: tuple[float, float], radius: float
) -> draw.Text:
    """A hole's number, outward of it."""
    away_x, away_y = at[0] - centre[0], at[1] - centre[1]
    length = (
        hypot(away_x, away_y) or 1.0
    )  # a circle too small for its place to tell its holes apart
    out = radius + 11
    x, y = at[0] + away_x / length * out, at[1] + away_y / length * out
    return write(str(hole.number), x, y + 4, "middle")


def _table(pattern: HolePattern) -> Html:
    heads = ("Hole", "x mm", "y mm", "x in", "y in", "Angle")
    rows = [tag("tr", *map(_cell, _coordinates(hole))) for hole in pattern.points]
    table = tag(
        "table",
        tag("thead", tag("tr", *(tag("th", head, scope="col") for head in heads))),
        tag("tbody", *rows),
        class_="shoplog-table shoplog-coordinates",
    )
    return scrolled(table, "Coordinates")


def _cell(text: str) -> Html:
    return tag("td", text)


def _coordinates(hole: Hole) -> tuple[str, ...]:
    mm, inch = unit("mm"), unit("in")
    metric = [write_number(value, "mm") for value in (hole.x, hole.y)]
    inches = [write_number(convert(value, mm, inch), "in") for value in (hole.x, hole.y)]
    return (str(hole.number), *metric, *inches, f"{write_number(hole.angle, 'deg')}°")
