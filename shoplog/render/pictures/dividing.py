"""A dividing plate as a picture: its circles, the holes of the one to use, the sector's arms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    ARROW,
    CENTRE,
    CURVE,
    DIMENSION,
    OUTLINE,
    THIN,
    TINT,
    WIDTH,
    Canvas,
    Point,
    Tells,
    arrow,
    circle,
    lines,
    on_circle,
    picture,
    text_box,
)
from shoplog.trade.setting_up.indexing_record import Indexing

__all__ = ["draw_indexing"]

CENTRE_AT = WIDTH / 2, 152.0
EDGE, OUTER, INNER, HUB = 136.0, 116.0, 56.0, 14.0
MOST_CIRCLES = 12
MOST_HOLES = 72
"""Holes that are drawn each; of a circle with more, the two of the pin are."""
TOP = 90.0
HOLE = 3.0
BESIDE = 0.35
"""How far an arm stands beside its hole, in spaces."""
ROOM = 22.0
"""Between two numbers on the circle."""


@pictured(Indexing, "a division", "the plate seen from the crank, turned clockwise")
def draw_indexing(found: Indexing, anchor: str) -> Html:
    """The plate with its circles; on the chosen one the holes, the pin and the sector's arms."""
    canvas = Canvas(anchor)
    canvas.circle(OUTLINE, CENTRE_AT, EDGE)
    canvas.circle(OUTLINE, CENTRE_AT, HUB)
    shown = _shown(found)
    radii = dict(zip(shown, _radii(len(shown)), strict=True))
    for holes, radius in radii.items():
        kind = CENTRE if holes == found.holes else THIN
        canvas.circle(kind, CENTRE_AT, radius, Tells("circle", holes))
    if len(shown) < len(found.on_plate):
        canvas.note(f"{len(shown)} of {len(found.on_plate)} circles are drawn")
    if found.circle is None:
        canvas.note("whole turns: any circle, and back to the same hole")
    else:
        _sector(canvas, found, radii[found.holes])
    if found.circle is not None and found.circle.plate:
        canvas.note(f"circles of this plate: {', '.join(map(str, found.on_plate))}")
    title = f"Dividing {found.divisions}" if found.divisions else f"Turning {found.asked:.6g}°"
    return picture(canvas, title, found.describe(), [*_rows(found)])


def _shown(found: Indexing) -> Sequence[int]:
    """The circles that are drawn, the fewest holes innermost, the chosen one among them."""
    circles = sorted(set(found.on_plate))
    if len(circles) <= MOST_CIRCLES:
        return circles
    every = -(-len(circles) // (MOST_CIRCLES - 1))
    return sorted({*circles[::every], *([found.holes] if found.circle else [])})


def _radii(count: int) -> Iterator[float]:
    for number in range(count):
        yield INNER + (OUTER - INNER) * (number / (count - 1) if count > 1 else 1.0)


def _sector(canvas: Canvas, found: Indexing, radius: float) -> None:
    """The holes from the pin on, clockwise, between two arms."""
    space = 360 / found.holes
    size = max(0.8, min(HOLE, 0.3 * radius * 6.283 / found.holes))
    every_hole = found.holes <= MOST_HOLES
    drawn = range(found.holes) if every_hole else (0, found.spaces)
    rings = "".join(circle(on_circle(CENTRE_AT, radius, TOP - n * space), size) for n in drawn)
    around = [on_circle(CENTRE_AT, radius + HOLE, angle) for angle in (0, 90, 180, 270)]
    canvas.path(OUTLINE, rings, around, Tells("holes", found.holes))
    if not every_hole:
        canvas.note("the holes of the chosen circle are too many to draw each")
    ends = TOP + BESIDE * space, TOP - (found.spaces + BESIDE) * space
    _arms(canvas, found, radius, ends)
    for number, name in ((0, "pin_from"), (found.spaces, "pin_to")):
        at = on_circle(CENTRE_AT, radius, TOP - number * space)
        canvas.region(ARROW, circle(at, size + 1.2), (), Tells(name, number), front=True)
    _numbers(canvas, found, radius, space)


def _arms(canvas: Canvas, found: Indexing, radius: float, ends: tuple[float, float]) -> None:
    """Both arms, what lies between them tinted, and which way the crank goes."""
    out = min(EDGE - 2, radius + 14)
    first, last = ends
    steps = max(2, int((first - last) / 6))
    rim = [
        on_circle(CENTRE_AT, out, first - (first - last) * step / steps)
        for step in range(steps + 1)
    ]
    canvas.region(TINT, lines((CENTRE_AT, *rim), closed=True))
    for angle, name in ((first, "arm_from"), (last, "arm_to")):
        ends_at = on_circle(CENTRE_AT, HUB, angle), on_circle(CENTRE_AT, out, angle)
        canvas.line(CURVE, *ends_at, tells=Tells(name, found.between_arms))
    turn = max(TOP - 40, last) if first - last > 12 else last
    canvas.arc(DIMENSION, CENTRE_AT, 30.0, TOP, turn, Tells("spaces", found.spaces))
    tip = on_circle(CENTRE_AT, 30.0, turn)
    arrow(canvas, on_circle(CENTRE_AT, 30.0, turn + 14), tip)


def _numbers(canvas: Canvas, found: Indexing, radius: float, space: float) -> None:
    """The holes counted from the pin's, which is 0, as many as there is room for."""
    apart = radius * 6.283 / found.holes
    every = next(step for step in (1, 2, 5, 10, 20, 50, 100, 200, 1000) if step * apart >= ROOM)
    told = [*range(0, found.spaces, every), found.spaces]
    for number in reversed(told):  # the last one first: it is the one that matters
        place = on_circle(CENTRE_AT, radius - 13, TOP - number * space)
        text, at = str(number), (place[0], place[1] + 4)
        strong = number in (0, found.spaces)
        if _free(canvas, text, at):
            canvas.write(text, *at, "middle", strong=strong)


def _free(canvas: Canvas, text: str, at: Point) -> bool:
    return canvas.is_free(text_box(text, *at, "middle", strong=True))


def _rows(found: Indexing) -> Iterator[tuple[str, ...]]:
    yield "whole turns of the crank", str(found.turns)
    if found.circle is not None:
        where = f", {found.circle.plate}" if found.circle.plate else ""
        yield "circle", f"{found.holes} holes{where}"
        yield "spaces besides", str(found.spaces)
        yield "holes between the arms", f"{found.between_arms}, the pin's own counted"
    if found.error:
        yield "off what was asked", f"{3600 * found.error:+.1f} seconds of arc"
