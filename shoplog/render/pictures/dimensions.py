"""Dimensions as ISO 129-1 has them: extension lines, slender filled arrows, the number on the line.

A number is written above its line, and read from below or from the right. Where the arrows do not
fit between the extension lines they stand outside; where the number does not, it stands beyond.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import atan2, cos, degrees, hypot, radians, sin, tan

from shoplog.render.pictures.canvas import Canvas
from shoplog.render.pictures.labels import Text, text_box, text_width
from shoplog.render.pictures.strokes import (
    ARROW,
    DIMENSION,
    Point,
    Tells,
    apart,
    lines,
    on_circle,
)

__all__ = ["across", "along", "angle_between", "arrow", "leader", "upright"]

HEAD = 9.0
HALF_HEAD = HEAD * tan(radians(7.5))  # a head of 15°
GAP = 1.5
"""Between an outline and its extension line."""
BEYOND = 3.0
"""Of the extension line beyond the dimension line."""
ABOVE = 2.5
"""Of the number above its line."""


def across(
    canvas: Canvas, one: Point, other: Point, y: float, text: Text, tells: Tells | None = None
) -> None:
    """The distance of two places along x, on a line at y."""
    first, last = sorted((one, other))
    ends = (first[0], y), (last[0], y)
    _extension(canvas, first, ends[0])
    _extension(canvas, last, ends[1])
    _line(canvas, *ends, tells)
    for words in canvas.each(text):
        _write_across(canvas, words, *ends)


def _write_across(canvas: Canvas, text: Text, one: Point, other: Point) -> None:
    """Above the line; where it is too short, on the line carried on to the right or the left."""
    middle, room, y = (one[0] + other[0]) / 2, other[0] - one[0], one[1]
    width, base = text_width(text), y - ABOVE
    beyond = HEAD + width + 4
    right, left = (other[0] + HEAD + 3, base), (one[0] - HEAD - 3, base)
    if width + 4 <= room:
        canvas.write(text, middle, base, "middle")
    elif canvas.is_free(text_box(text, *right)):
        canvas.line(DIMENSION, other, (other[0] + beyond, y))
        canvas.write(text, *right)
    elif canvas.is_free(text_box(text, *left, "end")):
        canvas.line(DIMENSION, one, (one[0] - beyond, y))
        canvas.write(text, *left, "end")
    else:
        canvas.write(text, middle, base, "middle")


def upright(
    canvas: Canvas, one: Point, other: Point, x: float, text: Text, tells: Tells | None = None,
    *, beside: str = "",
) -> None:  # fmt: skip
    """The distance of two places along y, on a line at x.

    `beside` writes the number level, `right` or `left` of the line, which a short one has anyway,
    or `turned` along it, or along the line carried on, however short it is.
    """
    first, last = sorted((one, other), key=lambda point: point[1])
    ends = (x, first[1]), (x, last[1])
    _extension(canvas, first, ends[0])
    _extension(canvas, last, ends[1])
    _line(canvas, *ends, tells, way=-90)
    for words in canvas.each(text):
        _write_upright(canvas, words, *ends, beside)


def _write_upright(canvas: Canvas, text: Text, one: Point, other: Point, beside: str) -> None:
    x, middle, room = one[0], (one[1] + other[1]) / 2, other[1] - one[1]
    right, left = (x + 4, middle + 4), (x - 4, middle + 4)
    fits = text_width(text) + 4 <= room
    turned = beside == "turned" or (not beside and fits)
    if beside == "right" or (not turned and canvas.is_free(text_box(text, *right))):
        canvas.write(text, *right)
    elif beside == "left" or (not turned and canvas.is_free(text_box(text, *left, "end"))):
        canvas.write(text, *left, "end")
    elif fits or not _carried_on(canvas, text, one, other):
        canvas.write(text, x - ABOVE, middle, "middle", turned=True)


def _carried_on(canvas: Canvas, text: Text, one: Point, other: Point) -> bool:
    """Write it along the line carried on above or below; whether there is room for it."""
    x, half = one[0], text_width(text) / 2
    for end, way in ((one[1], -1), (other[1], 1)):
        place = x - ABOVE, end + way * (HEAD + 3 + half)
        if canvas.is_free(text_box(text, *place, "middle", turned=True)):
            canvas.line(DIMENSION, (x, end), (x, end + way * (HEAD + 4 + 2 * half)))
            canvas.write(text, *place, "middle", turned=True)
            return True
    return False


def along(
    canvas: Canvas, one: Point, other: Point, away: float, text: Text, tells: Tells | None = None
) -> None:
    """The straight distance of two places, on a line so far to the left of the way between them."""
    length = apart(one, other) or 1.0
    left = (other[1] - one[1]) / length * away, -(other[0] - one[0]) / length * away
    ends = (one[0] + left[0], one[1] + left[1]), (other[0] + left[0], other[1] + left[1])
    _extension(canvas, one, ends[0])
    _extension(canvas, other, ends[1])
    _line(canvas, *ends, tells)
    out = 9.0 if away >= 0 else -9.0
    x = (ends[0][0] + ends[1][0]) / 2 + left[0] / (abs(away) or 1.0) * abs(out)
    y = (ends[0][1] + ends[1][1]) / 2 + left[1] / (abs(away) or 1.0) * abs(out)
    canvas.write(text, x, y + 4, "middle" if abs(left[0]) < 0.7 * abs(left[1]) else
                 "start" if left[0] > 0 else "end")  # fmt: skip


def angle_between(
    canvas: Canvas, centre: Point, radius: float, start: float, end: float, text: Text,
    tells: Tells | None = None, place: Point | None = None,
) -> None:  # fmt: skip
    """An angle at a place, on an arc from one angle to another, in degrees, counter-clockwise.

    The number stands at the middle of the arc, outside, or at a place that is given.
    """
    canvas.arc(DIMENSION, centre, radius, start, end, tells)
    if radius * abs(radians(end - start)) > 2 * HEAD:
        for angle, way in ((start, -90), (end, 90)):
            tip = on_circle(centre, radius, angle)
            # A head on an arc lies on the chord of its own length.
            turn = way + (1 if way > 0 else -1) * degrees(HEAD / radius / 2)
            _head(canvas, tip, angle + turn)
    if place is None:
        middle = on_circle(centre, radius + 6, (start + end) / 2)
        left = middle[0] < centre[0] - radius / 3
        canvas.write(text, middle[0], middle[1] + 4, "end" if left else "start")
    else:
        canvas.write(text, *place)


def leader(
    canvas: Canvas, tip: Point, knee: Point, text: Text, anchor: str = "start",
    tells: Tells | None = None, *, dot: bool = False,
) -> None:  # fmt: skip
    """Words with a line to what they name: an arrow on an edge, a dot in an area (ISO 128-22)."""
    width = text_width(text) + 2
    if anchor == "start":
        knee = max(2.0, min(knee[0], canvas.width - 2 - width)), knee[1]
    else:
        knee = min(canvas.width - 2, max(knee[0], width + 2)), knee[1]
    canvas.line(DIMENSION, tip, knee)
    if dot:
        canvas.region(ARROW, _dot(tip), front=True)
    else:
        arrow(canvas, knee, tip)
    way = 1.0 if anchor == "start" else -1.0
    for words in canvas.each(text):
        canvas.line(DIMENSION, knee, (knee[0] + way * (text_width(words) + 2), knee[1]))
    canvas.write(text, knee[0] + way, knee[1] - ABOVE, anchor, tells=tells)


def arrow(canvas: Canvas, tail: Point, tip: Point) -> None:
    """The head of an arrow that points from a place to another."""
    _head(canvas, tip, degrees(atan2(tail[1] - tip[1], tip[0] - tail[0])))


# ---- pieces ----


def _extension(canvas: Canvas, foot: Point, end: Point) -> None:
    """From beside the outline to beyond the dimension line."""
    length = apart(foot, end)
    if length <= GAP:
        return
    part = (end[0] - foot[0]) / length, (end[1] - foot[1]) / length
    start = foot[0] + GAP * part[0], foot[1] + GAP * part[1]
    canvas.line(DIMENSION, start, (end[0] + BEYOND * part[0], end[1] + BEYOND * part[1]))


def _line(canvas: Canvas, one: Point, other: Point, tells: Tells | None, way: float = 0) -> None:
    """The dimension line with its arrows; `way` is its direction where it has no length."""
    canvas.line(DIMENSION, one, other, tells=tells)
    length = hypot(other[0] - one[0], other[1] - one[1])
    inside = length >= 2 * HEAD + 4
    way = degrees(atan2(one[1] - other[1], other[0] - one[0])) if length else way
    for tip, direction in ((one, way + 180), (other, way)):
        _head(canvas, tip, direction if inside else direction + 180)
        if not inside:
            tail = on_circle(tip, HEAD + 3, direction)
            canvas.line(DIMENSION, tip, tail)


def _head(canvas: Canvas, tip: Point, direction: float) -> None:
    """An arrow's head that points in a direction in degrees, counter-clockwise from the right."""
    turn = radians(direction)
    back = tip[0] - HEAD * cos(turn), tip[1] + HEAD * sin(turn)
    side = HALF_HEAD * sin(turn), HALF_HEAD * cos(turn)
    corners: Iterable[Point] = (
        tip,
        (back[0] + side[0], back[1] + side[1]),
        (back[0] - side[0], back[1] - side[1]),
    )
    canvas.region(ARROW, lines(corners, closed=True), front=True)


def _dot(centre: Point) -> str:
    x, y = centre
    return lines(((x - 1.5, y - 1.5), (x + 1.5, y - 1.5), (x + 1.5, y + 1.5), (x - 1.5, y + 1.5)),
                 closed=True)  # fmt: skip
