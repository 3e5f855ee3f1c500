"""A tool bit as a picture: from above, from the front and from the side, with its angles."""

from __future__ import annotations

from math import radians, tan

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    OUTLINE,
    PHANTOM,
    TINT,
    Canvas,
    Point,
    Tells,
    picture,
    plain,
)
from shoplog.trade.setting_up.tool_angles import ANGLES, ToolBit

__all__ = ["draw_tool_bit"]

SIDE = 76.0
"""Of the square bit."""
LEFT, PLAN_TOP, PLAN_LOW = 52.0, 44.0, 176.0
EDGE = 58.0
"""Height of the side cutting edge in the view from above."""
FRONT_TOP, SIDE_LEFT, LENGTH, GROUND = 226.0, 190.0, 120.0, 58.0
ARC = 50.0
LETTERS = dict(zip(ANGLES, "ABCDEF", strict=True))


@pictured(ToolBit, "a tool bit", "a right-hand bit in three views, its angles to scale")
def draw_tool_bit(bit: ToolBit, anchor: str) -> Html:
    """The bit at the middle of each range: plan, front and side."""
    canvas = Canvas(anchor)
    _plan(canvas, bit)
    _front(canvas, bit)
    _from_the_side(canvas, bit)
    if bit.least != bit.most:
        canvas.note("where an angle has a range, its middle is drawn")
    rows = [(f"{LETTERS[name]}: {word}", bit.range_of(name)) for name, word in ANGLES.items()]
    rows.append(("metal behind the edge, across", f"{plain(bit.wedge, 'deg')}°"))
    return picture(canvas, f"Tool bit for {bit.group}", bit.describe(), rows)


def _plan(canvas: Canvas, bit: ToolBit) -> None:
    """From above, the nose upward: both cutting edges."""
    right, foot = LEFT + SIDE, (LEFT, PLAN_TOP + EDGE)
    nose = LEFT + EDGE * _tan(bit.side_cutting_edge), PLAN_TOP
    corner = right, PLAN_TOP + (right - nose[0]) * _tan(bit.end_cutting_edge)
    canvas.line(OUTLINE, (LEFT, PLAN_LOW), foot, nose, corner, (right, PLAN_LOW))
    canvas.line(PHANTOM, (LEFT, PLAN_LOW), (right, PLAN_LOW))
    canvas.area(TINT, foot, nose, corner, (right, foot[1]))
    canvas.line(CENTRE, foot, (LEFT, PLAN_TOP - 8))
    canvas.line(CENTRE, nose, (right + 14, PLAN_TOP))
    _angle(canvas, bit, "side_cutting_edge", foot, 90.0, -1, (LEFT - 5, PLAN_TOP + 14), "end")
    _angle(canvas, bit, "end_cutting_edge", nose, 0.0, -1, (right + 6, PLAN_TOP + 16), "start")
    canvas.write("from above", LEFT, 14)


def _front(canvas: Canvas, bit: ToolBit) -> None:
    """From the front: the face falls away from the cutting edge, the flank runs in under it."""
    edge, right, low = (LEFT, FRONT_TOP), LEFT + SIDE, FRONT_TOP + SIDE
    far = right, FRONT_TOP + SIDE * _tan(bit.side_rake)
    foot = LEFT + SIDE * _tan(bit.side_relief), low
    canvas.area(TINT, edge, far, (right, low), foot)
    canvas.line(OUTLINE, edge, far, (right, low), foot, closed=True)
    canvas.line(CENTRE, edge, (right + 14, FRONT_TOP))
    canvas.line(CENTRE, edge, (LEFT, low + 8))
    _angle(canvas, bit, "side_rake", edge, 0.0, -1, (right + 6, FRONT_TOP + 17), "start")
    _angle(canvas, bit, "side_relief", edge, -90.0, 1, (LEFT, low + 22), "middle")
    canvas.write("from the front", LEFT, FRONT_TOP - 22)


def _from_the_side(canvas: Canvas, bit: ToolBit) -> None:
    """From the side, the nose at the left: the face falls along the bit."""
    nose, right, low = (SIDE_LEFT, FRONT_TOP), SIDE_LEFT + LENGTH, FRONT_TOP + SIDE
    end = SIDE_LEFT + GROUND, FRONT_TOP + GROUND * _tan(bit.back_rake)
    foot = SIDE_LEFT + SIDE * _tan(bit.end_relief), low
    top = end[0], FRONT_TOP
    canvas.area(TINT, nose, end, top, (right, FRONT_TOP), (right, low), foot)
    canvas.line(OUTLINE, (right, low), foot, nose, end, top, (right, FRONT_TOP))
    canvas.line(PHANTOM, (right, low), (right, FRONT_TOP))
    canvas.line(CENTRE, nose, top)
    canvas.line(CENTRE, nose, (SIDE_LEFT, low + 8))
    _angle(canvas, bit, "back_rake", nose, 0.0, -1, (SIDE_LEFT + 12, FRONT_TOP - 5), "start")
    _angle(canvas, bit, "end_relief", nose, -90.0, 1, (SIDE_LEFT, low + 22), "middle")
    canvas.write("from the side", SIDE_LEFT, FRONT_TOP - 22)


def _angle(
    canvas: Canvas, bit: ToolBit, name: str, centre: Point, start: float, way: int,
    place: Point, anchor: str,
) -> None:  # fmt: skip
    """An angle on its arc, from a reference line, with its letter and its number."""
    angle: float = getattr(bit, name)
    ends = start, start + way * angle
    canvas.arc(DIMENSION, centre, ARC, min(ends), max(ends), Tells(name, angle, "deg"))
    canvas.write(f"{LETTERS[name]} {plain(angle, 'deg')}°", *place, anchor)


def _tan(angle: float) -> float:
    return tan(radians(angle))
