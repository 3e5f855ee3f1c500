"""A sine bar on its gauge blocks as a picture, and a stack of blocks alone."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import asin, degrees, radians, sin

from shoplog.render.html import Html
from shoplog.render.pictures.cone import angle_text
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    DIMENSION,
    FALLING,
    OUTLINE,
    PHANTOM,
    RISING,
    THIN,
    TINT,
    Both,
    Canvas,
    Point,
    Tells,
    along,
    angle_between,
    micrometres,
    millimetres,
    on_circle,
    own_first,
    picture,
    plain,
    size,
    spread,
    text_width,
    upright,
)
from shoplog.trade.taper_work.gauge_blocks import BlockStack
from shoplog.trade.taper_work.sine_bars import SineBar

__all__ = ["draw_block_stack", "draw_sine_bar"]

BAR = 140.0
"""Units from roller to roller."""
ROLLER = 7.0
LEFT = 56.0
TOP = 46.0
LEAST_RISE = 10.0
THICK = 13.0
LABEL = 14.0
"""From the size of a block to the next."""
BLOCK = 26.0
"""Width of a gauge block."""
PLATE = 10.0
TALL = 150.0
FINEST = 6
"""Places of a micrometre; beyond them stands only what counting in binary leaves."""


@pictured(SineBar, "a sine bar", "the bar on its blocks, from the side")
def draw_sine_bar(bar: SineBar, anchor: str) -> Html:
    """The bar with its rollers on the plate and on the blocks, its height and its angle."""
    canvas = Canvas(anchor)
    true = BAR * sin(radians(bar.angle))
    rise = max(true, LEAST_RISE)
    if rise > true * 1.005:
        canvas.note(f"the height is drawn {rise / true:.3g} times its size")
    plate = TOP + rise + 2 * ROLLER + THICK + 16
    reach = (BAR**2 - rise**2) ** 0.5
    low, high = (LEFT, plate - ROLLER), (LEFT + reach, plate - ROLLER - rise)
    _plate(canvas, plate)
    _stack(canvas, bar.stack, high[0], plate, rise)
    _bar(canvas, low, high)
    _told(canvas, bar, low, high, plate)
    title = f"Sine bar at {plain(bar.angle, 'deg')}°"
    return picture(canvas, title, bar.describe(), _rows(bar))


def _plate(canvas: Canvas, y: float) -> None:
    right = LEFT + BAR + 40
    corners = (LEFT - 20, y), (right, y), (right, y + PLATE), (LEFT - 20, y + PLATE)
    canvas.area(FALLING, *corners)
    canvas.line(OUTLINE, corners[0], corners[1])


def _bar(canvas: Canvas, low: Point, high: Point) -> None:
    """The rollers, and the bar that lies on both, parallel to the line of their centres."""
    way = (high[0] - low[0]) / BAR, (high[1] - low[1]) / BAR
    up = way[1], -way[0]
    for centre in (low, high):
        canvas.circle(OUTLINE, centre, ROLLER)

    def at(centre: Point, forward: float, above: float) -> Point:
        return (
            centre[0] + way[0] * forward + up[0] * above,
            centre[1] + way[1] * forward + up[1] * above,
        )

    corners = (
        at(low, -10, ROLLER), at(high, 10, ROLLER),
        at(high, 10, ROLLER + THICK), at(low, -10, ROLLER + THICK),
    )  # fmt: skip
    canvas.area(RISING, *corners)
    canvas.line(OUTLINE, *corners, closed=True)


def _stack(canvas: Canvas, stack: BlockStack | None, x: float, plate: float, tall: float) -> None:
    """The blocks under the upper roller, each to scale, their sizes at the right; or their room."""
    right = x + BLOCK / 2
    if stack is None:
        canvas.rectangle(PHANTOM, right - BLOCK, plate - tall, BLOCK, tall)
        return
    edges, scale = [plate], tall / stack.height
    for block in stack.blocks:
        edges.append(edges[-1] - block * scale)
    middles = [(one + other) / 2 for one, other in pairwise(edges)]
    # Below the line to the height, if all of them have room there.
    low = edges[-1] + 9
    clear = low + LABEL * (len(middles) - 1) <= plate - 4
    labels = spread(middles, LABEL, low=low if clear else 0.0, high=plate - 4)
    for number, block in enumerate(stack.blocks):
        top, bottom = edges[number + 1], edges[number]
        corners = (right - BLOCK, top), (right, top), (right, bottom), (right - BLOCK, bottom)
        canvas.area(TINT, *corners)
        canvas.line(THIN, *corners, closed=True, tells=Tells("block", block, "mm"))
        canvas.line(DIMENSION, (right, middles[number]), (right + 14, labels[number]))
        canvas.write(_fine(block, _in_inches(stack)), right + 17, labels[number] + 4)
    canvas.rectangle(OUTLINE, right - BLOCK, edges[-1], BLOCK, plate - edges[-1])


def _fine(length: float, inches: bool) -> Both:
    return size(length, inches=inches, fine=True)


def _in_inches(stack: BlockStack) -> bool:
    """Whether its blocks are marked in inches, as its own sentence has it."""
    return " in:" in stack.describe()


def _told(canvas: Canvas, bar: SineBar, low: Point, high: Point, plate: float) -> None:
    """Length between the rollers above, height below the upper one, and the angle."""
    out = ROLLER + THICK + 18
    length = Tells("centres", bar.centres, "mm")
    inches = bar.stack is not None and _in_inches(bar.stack)
    along(canvas, low, high, out, size(bar.centres, inches=inches), length)
    _height(canvas, bar.stack or bar, (high[0] + BLOCK / 2, high[1] + ROLLER), plate)
    canvas.line(DIMENSION, low, (low[0] + 74, low[1]))
    drawn = degrees(asin((low[1] - high[1]) / BAR))
    told, text = Tells("angle", bar.angle, "deg"), angle_text(bar.angle)
    beside = on_circle(low, 66, drawn / 2)
    free = beside[0] + text_width(text) < high[0] - BLOCK / 2 - 4 and drawn >= 20
    place = (beside[0], beside[1] + 4) if free else (low[0] + 2, plate + PLATE + 13)
    angle_between(canvas, low, 60, 0, drawn, text, told, place)


def _height(canvas: Canvas, of: BlockStack | SineBar, top: Point, plate: float) -> None:
    """From the plate to the top of the blocks, right of their sizes."""
    told = Tells("height", of.height, "mm")
    inches = isinstance(of, BlockStack) and _in_inches(of)
    upright(canvas, (top[0], plate), top, top[0] + 92, _fine(of.height, inches), told,
            beside="turned")  # fmt: skip


def _rows(bar: SineBar) -> Iterator[tuple[str, ...]]:
    yield ("angle", f"{plain(bar.angle, 'deg')}°", angle_text(bar.angle))
    inches = bar.stack is not None and _in_inches(bar.stack)
    yield ("between the rollers", *millimetres(bar.centres, inches=inches))
    yield ("height", *_height_texts(bar.height, inches))
    if bar.stack is not None:
        yield from _stack_rows(bar.stack)
        yield ("the angle that they make", angle_text(bar.angle_made),
               f"{bar.angle_error * 3600:+.1f} seconds of arc off")  # fmt: skip


def _stack_rows(stack: BlockStack) -> Iterator[tuple[str, ...]]:
    inches = _in_inches(stack)
    yield ("blocks", *_blocks(stack, inches))
    yield ("their height", *_height_texts(stack.height, inches))
    yield ("off what was asked", *micrometres(round(stack.error, FINEST)))


def _height_texts(height: float, inches: bool) -> tuple[str, str]:
    return own_first(f"{height:.4f} mm", f"{height / 25.4:.5f} in", inches)


def _blocks(stack: BlockStack, inches: bool) -> tuple[str, str]:
    """What they are in both systems, each unit once."""
    told = [_fine(block, inches=False) for block in stack.blocks]
    imperial = " + ".join(one.other.removesuffix(" in") for one in told)
    return own_first(f"{' + '.join(one.own for one in told)} mm", f"{imperial} in", inches)


@pictured(BlockStack, "a stack of gauge blocks", "the blocks, to scale")
def draw_block_stack(stack: BlockStack, anchor: str) -> Html:
    """The blocks on a plate, each to scale, with the height of all."""
    canvas = Canvas(anchor)
    plate = TOP + TALL
    _plate(canvas, plate)
    _stack(canvas, stack, LEFT + 60, plate, TALL)
    _height(canvas, stack, (LEFT + 60 + BLOCK / 2, TOP), plate)
    title = f"{len(stack.blocks)} gauge blocks"
    return picture(canvas, title, stack.describe(), _stack_rows(stack))
