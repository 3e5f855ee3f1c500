"""Flats on a round as a picture: a D-shaft, two flats, a square, a hexagon, a square hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import acos, cos, degrees, radians

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    FALLING,
    OUTLINE,
    PHANTOM,
    RISING,
    THIN,
    Canvas,
    Point,
    Tells,
    across,
    circle,
    leader,
    lines,
    millimetres,
    on_circle,
    picture,
    plain,
    size,
    upright,
)
from shoplog.trade.hole_work.d_shafts import FlattedRound
from shoplog.trade.hole_work.flats import Polygon, SquareHole

__all__ = ["draw_flatted_round", "draw_polygon", "draw_square_hole"]

MIDDLE: Point = (130.0, 116.0)
RADIUS = 66.0
SIZE_AT, DEPTH_AT = 20.0, 44.0
"""How far right of the round its sizes stand."""
LEAST_DEPTH = 4.0
"""Units that a flat is deep, at the least."""


def _shallow(canvas: Canvas, depth: float, scale: float, sides: int = 2) -> float:
    """Units that a flat's depth is drawn with; says so where it is not to scale.

    Deeper than to the corners no flat of so many can be.
    """
    most = RADIUS * (1 - cos(radians(180 / sides))) if sides > 2 else RADIUS
    drawn = max(depth * scale, min(LEAST_DEPTH, most))
    if drawn > 1.005 * depth * scale:
        canvas.note(f"the depth of the flats is drawn {drawn / (depth * scale):.3g} times its size")
    return drawn


def _flatted(canvas: Canvas, angles: Sequence[float], across_flats: float, tells: Tells) -> None:
    """A round with flats at angles, each so far from the middle (in units, as its half)."""
    half = degrees(acos(min(1.0, across_flats / RADIUS)))
    d = ""
    for number, angle in enumerate(angles):
        start, end = (on_circle(MIDDLE, RADIUS, angle + way * half) for way in (-1, 1))
        after = angles[number + 1] if number + 1 < len(angles) else angles[0] + 360
        gap = after - angle - 2 * half
        following = on_circle(MIDDLE, RADIUS, after - half)
        d += lines((start, end)) if not d else "L" + lines((start, end))[1:]
        if gap > 1e-6:
            d += f"A{RADIUS:g} {RADIUS:g} 0 {int(gap > 180)} 0 {lines((following,))[1:]}"
    low = MIDDLE[0], MIDDLE[1] + RADIUS
    canvas.region(RISING, d + "Z", (low,))
    canvas.path(OUTLINE, d + "Z", (low,), tells)


def _axes(canvas: Canvas) -> None:
    x, y = MIDDLE
    out = RADIUS + 8
    canvas.line(CENTRE, (x - out, y), (x + out, y))
    canvas.line(CENTRE, (x, y - out), (x, y + out))


def _round(canvas: Canvas, diameter: float, angle: float = 215.0) -> None:
    """The round stock, and its diameter."""
    canvas.circle(PHANTOM, MIDDLE, RADIUS, tells=Tells("diameter", diameter, "mm"))
    tip = on_circle(MIDDLE, RADIUS, angle)
    leader(canvas, tip, (tip[0] - 20, MIDDLE[1] + RADIUS + 24), size(diameter, "Ø{}"), "end")


@pictured(FlattedRound, "a round with flats", "the section square to the axis, to scale")
def draw_flatted_round(found: FlattedRound, anchor: str) -> Html:
    """The round with its flats: width, depth and the size to measure."""
    canvas = Canvas(anchor)
    scale = 2 * RADIUS / found.diameter
    depth = _shallow(canvas, found.depth, scale)
    angles = (90.0,) if found.flats == 1 else (90.0, 270.0)
    _flatted(canvas, angles, RADIUS - depth, Tells("flats", found.flats))
    _round(canvas, found.diameter)
    _axes(canvas)
    top = MIDDLE[1] - RADIUS
    half = (RADIUS**2 - (RADIUS - depth) ** 2) ** 0.5
    corners = (MIDDLE[0] - half, top + depth), (MIDDLE[0] + half, top + depth)
    told = Tells("width", found.width, "mm")
    across(canvas, *corners, top - 22, size(found.width), told)
    low = MIDDLE[0], MIDDLE[1] + RADIUS - (depth if found.flats == 2 else 0)
    told = Tells("across", found.across, "mm")
    upright(canvas, corners[1], low, MIDDLE[0] + RADIUS + SIZE_AT, size(found.across), told)
    told = Tells("depth", found.depth, "mm")
    upright(canvas, (MIDDLE[0], top), corners[1], MIDDLE[0] + RADIUS + DEPTH_AT, size(found.depth),
            told, beside="right")  # fmt: skip
    rows = (
        ("round", *millimetres(found.diameter)),
        ("depth of a flat", *millimetres(found.depth)),
        ("width of a flat", *millimetres(found.width)),
        (
            "from flat to flat" if found.flats == 2 else "from the flat to the far side",
            *millimetres(found.across),
        ),
    )
    return picture(canvas, "A round with flats", found.describe(), rows)


@pictured(Polygon, "a polygon on a round", "the section square to the axis, to scale")
def draw_polygon(found: Polygon, anchor: str) -> Html:
    """The polygon in the round that it is cut from."""
    canvas = Canvas(anchor)
    scale = 2 * RADIUS / found.diameter
    depth = _shallow(canvas, found.flat_depth, scale, found.sides) if found.flat_depth else 0.0
    angles = [90 + number * 360 / found.sides for number in range(found.sides)]
    _flatted(canvas, angles, RADIUS - depth, Tells("sides", found.sides))
    _round(canvas, found.diameter, 270 - 180 / found.sides - 20)
    _axes(canvas)
    canvas.circle(
        THIN, MIDDLE, RADIUS - depth, tells=Tells("across_flats", found.across_flats, "mm")
    )
    top = MIDDLE[0], MIDDLE[1] - RADIUS + depth
    even = found.sides % 2 == 0
    low = MIDDLE[0], MIDDLE[1] + RADIUS - (depth if even else 0)
    over = found.across_flats if even else found.over_round
    name = "flat_to_flat" if even else "over_round"
    upright(canvas, top, low, MIDDLE[0] + RADIUS + SIZE_AT, size(over), Tells(name, over, "mm"))
    half = found.flat_width / 2 * (RADIUS - depth) / (found.across_flats / 2)
    half = min(half, (RADIUS**2 - (RADIUS - depth) ** 2) ** 0.5)
    ends = (MIDDLE[0] - half, top[1]), (MIDDLE[0] + half, top[1])
    told = Tells("flat_width", found.flat_width, "mm")
    across(canvas, *ends, MIDDLE[1] - RADIUS - 22, size(found.flat_width), told)
    told = Tells("flat_depth", found.flat_depth, "mm")
    above = MIDDLE[0], MIDDLE[1] - RADIUS
    upright(canvas, above, top, MIDDLE[0] + RADIUS + DEPTH_AT, size(found.flat_depth), told,
            beside="right")  # fmt: skip
    return picture(canvas, f"{found.sides} sides on a round", found.describe(), _rows(found))


def _rows(found: Polygon) -> Iterator[tuple[str, ...]]:
    sizes = (
        ("round", found.diameter),
        ("across flats" if found.sides % 2 == 0 else "circle inside", found.across_flats),
        ("across corners, sharp", found.corners),
        ("depth of a flat", found.flat_depth),
        ("width of a flat", found.flat_width),
        ("from a flat to the far side of the round", found.over_round),
    )
    for name, length in sizes:
        yield (name, *millimetres(length))
    yield ("turn from flat to flat", f"{plain(found.step, 'deg')}°")


@pictured(SquareHole, "a square hole", "the hole and the drill before it, to scale")
def draw_square_hole(found: SquareHole, anchor: str) -> Html:
    """The square, the drilled hole in it, and what is left in a corner."""
    canvas = Canvas(anchor)
    half = 52.0
    x, y = MIDDLE
    square = (x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)
    out = half + 26
    frame = (x - out, y - out), (x + out, y - out), (x + out, y + out), (x - out, y + out)
    canvas.region(FALLING, lines(frame, closed=True) + lines(square, closed=True), frame)
    canvas.line(OUTLINE, *square, closed=True, tells=Tells("side", found.side, "mm"))
    radius = half * found.drill.diameter / found.side
    told = Tells("drill", found.drill.diameter, "mm")
    canvas.path(PHANTOM, circle(MIDDLE, radius), frame, told)
    canvas.line(CENTRE, (x - out - 6, y), (x + out + 6, y))
    canvas.line(CENTRE, (x, y - out - 6), (x, y + out + 6))
    across(canvas, square[3], square[2], y + out + 22, size(found.side),
           Tells("across", found.side, "mm"))  # fmt: skip
    tip = on_circle(MIDDLE, radius, 60)
    leader(canvas, tip, (x + out + 8, y - out + 6), size(found.drill.diameter, "Ø{} drill"))
    rows = (
        ("side", *millimetres(found.side)),
        (f"drill {found.drill.designation}", *millimetres(found.drill.diameter)),
        ("across corners", *millimetres(found.corners)),
        ("left on each flat", *millimetres(found.flat_left)),
        ("left in each corner", *millimetres(found.corner_left)),
    )
    return picture(canvas, f"Square hole of {plain(found.side)} mm", found.describe(), rows)
