"""The kit that every picture is made with: the canvas, its dimensions, its words and its key.

A picture's module reads from here only. A drawing function takes the record and the anchor, gathers
lines, areas, dimensions and words on a `Canvas`, and gives out `picture(canvas, …)`.
"""

from __future__ import annotations

from collections.abc import Iterable

from shoplog.render.html import Html, tag
from shoplog.render.pictures.canvas import WIDTH, Canvas
from shoplog.render.pictures.dimensions import across, along, angle_between, arrow, leader, upright
from shoplog.render.pictures.key import key
from shoplog.render.pictures.labels import (
    TEXT_SIZE,
    Both,
    Box,
    Text,
    spread,
    text_box,
    text_width,
)
from shoplog.render.pictures.sizes import (
    from_to,
    height,
    limit_sizes,
    limits,
    micrometres,
    millimetres,
    own_first,
    plain,
    size,
)
from shoplog.render.pictures.strokes import (
    ARROW,
    CENTRE,
    CLOSE,
    CURVE,
    DASHED_CURVE,
    DIMENSION,
    FALLING,
    HIDDEN,
    LEAST_EXTENT,
    OUTLINE,
    PHANTOM,
    PLAIN,
    RISING,
    THIN,
    TINT,
    Fill,
    LineKind,
    Point,
    Tells,
    arc,
    circle,
    coordinate,
    lines,
    on_circle,
    per_unit,
)
from shoplog.render.systems import BRACKET, INCH, METRIC

__all__ = [
    "ARROW",
    "BRACKET",
    "CENTRE",
    "CLOSE",
    "CURVE",
    "DASHED_CURVE",
    "DIMENSION",
    "FALLING",
    "HIDDEN",
    "INCH",
    "LEAST_EXTENT",
    "METRIC",
    "OUTLINE",
    "PHANTOM",
    "PLAIN",
    "RISING",
    "TEXT_SIZE",
    "THIN",
    "TINT",
    "WIDTH",
    "Both",
    "Box",
    "Canvas",
    "Fill",
    "LineKind",
    "Point",
    "Tells",
    "Text",
    "across",
    "along",
    "angle_between",
    "arc",
    "arrow",
    "circle",
    "coordinate",
    "from_to",
    "height",
    "key",
    "leader",
    "limit_sizes",
    "limits",
    "lines",
    "micrometres",
    "millimetres",
    "on_circle",
    "own_first",
    "per_unit",
    "picture",
    "plain",
    "size",
    "spread",
    "text_box",
    "text_width",
    "upright",
]


def picture(
    canvas: Canvas, title: str, description: str, rows: Iterable[tuple[str, ...]] = ()
) -> Html:
    """A picture with its key beside or below it; `rows` are those of `key`."""
    drawn = canvas.html(title, description)
    shown = [*rows]
    if not shown:
        return drawn
    return tag("div", drawn, key(shown), class_="shoplog-with-key")
