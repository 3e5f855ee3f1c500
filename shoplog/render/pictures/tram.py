"""A head out of tram as a picture: the sweep of the indicator, and the dish or steps it leaves."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor, log10, pi, radians, sin, sqrt, tan

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    HIDDEN,
    OUTLINE,
    RISING,
    THIN,
    Canvas,
    Point,
    Tells,
    across,
    height,
    micrometres,
    millimetres,
    picture,
    plain,
    size,
    upright,
)
from shoplog.trade.setting_up.tram import HeadTram, TramDish

__all__ = ["draw_sweep", "draw_tram_dish"]

LEFT, RIGHT = 34.0, 214.0
MIDDLE = (LEFT + RIGHT) / 2
TILTED = 12.0
"""Degrees that a tilt is drawn at, however small it is."""
ARM_Y, TABLE_Y = 96.0, 150.0
TALL, SOLID = 44.0, 34.0
STEPS = 24
LEAST_PART = 1e-12
"""Of its room: a height under it is no height."""
STRIPS = 2


@pictured(HeadTram, "a head's tram", "the sweep of the indicator; the tilt is drawn larger")
def draw_sweep(found: HeadTram, anchor: str) -> Html:
    """The table, the leaning spindle with the indicator to either side, and the readings."""
    way = (found.indicator_difference > 0) - (found.indicator_difference < 0)
    rise = way * (RIGHT - LEFT) / 2 * tan(radians(TILTED))
    canvas = Canvas(anchor)
    canvas.area(RISING, *_box(LEFT - 24, TABLE_Y, RIGHT + 24, TABLE_Y + 16))
    canvas.line(OUTLINE, (LEFT - 24, TABLE_Y), (RIGHT + 24, TABLE_Y))
    canvas.write("table", MIDDLE, TABLE_Y + 32, "middle")
    left, right = (LEFT, ARM_Y - rise), (RIGHT, ARM_Y + rise)
    canvas.line(OUTLINE, left, right)
    _spindle(canvas, found, way)
    for end, name, word in ((left, "left", "left"), (right, "right", "right")):
        canvas.line(OUTLINE, end, (end[0], TABLE_Y))
        canvas.write(word, end[0], end[1] - 6, "middle")
        canvas.circle(THIN, end, 3, tells=Tells(name, 0.0))
    tips = (LEFT, TABLE_Y), (RIGHT, TABLE_Y)
    width = size(found.sweep_diameter, "Ø{}")
    across(canvas, *tips, TABLE_Y + 50, width, Tells("sweep", found.sweep_diameter, "mm"))
    if way:
        level = RIGHT, left[1]
        canvas.line(HIDDEN, left, level)
        text = size(abs(found.indicator_difference))
        tells = Tells("difference", abs(found.indicator_difference), "mm")
        upright(canvas, level, right, RIGHT + 30, text, tells, beside="right")
        canvas.note("the tilt is not to scale: the spindle is drawn leaning by 12°")
    title = f"Sweep of {plain(found.sweep_diameter)} mm"
    return picture(canvas, title, found.describe(), [*_sweep_rows(found)])


def _spindle(canvas: Canvas, found: HeadTram, way: int) -> None:
    """Its axis, square to the arm, and the tilt from the plumb line."""
    foot = MIDDLE, ARM_Y
    top = MIDDLE + way * 76 * tan(radians(TILTED)), 20.0
    canvas.line(CENTRE, foot, top)
    if way:
        canvas.line(CENTRE, foot, (MIDDLE, 20.0))
        low, high = min(90.0, 90.0 - way * TILTED), max(90.0, 90.0 - way * TILTED)
        text = f"{plain(abs(found.tilt), 'deg')}°"
        place = (MIDDLE - way * 8, 38.0)
        anchor = "end" if way > 0 else "start"
        canvas.arc(DIMENSION, foot, 62.0, low, high, Tells("tilt", found.tilt, "deg"))
        canvas.write(text, *place, anchor)


def _sweep_rows(found: HeadTram) -> Iterator[tuple[str, ...]]:
    yield ("difference of the readings", *millimetres(abs(found.indicator_difference)))
    yield ("sweep", *millimetres(found.sweep_diameter))
    yield "tilt", f"{abs(found.tilt):.4f}°"
    yield ("over 100 mm (3.937 in)", *micrometres(abs(found.per_100)))
    if found.indicator_difference:
        low = "right" if found.indicator_difference > 0 else "left"
        yield "lower side of the spindle", low
        yield "side of the head to raise", low


# ---- what it leaves -----------------------------------------------------------------------------


@pictured(TramDish, "a dish out of tram", "sections of the strip across the feed, heights larger")
def draw_tram_dish(found: TramDish, anchor: str) -> Html:
    """The dish with the lean along the feed above, the steps with the lean across it below."""
    canvas = Canvas(anchor)
    _dish(canvas, found, 66.0)
    _steps(canvas, found, 208.0)
    title = f"What {found.tilt:.4g}° of tilt leaves"
    rows = [
        ("width of the strip", *millimetres(found.width_of_cut)),
        ("cutter", *millimetres(found.cutter_diameter)),
        ("A: dish, leaning along the feed", *micrometres(found.dish)),
        ("B: step, leaning across the feed", *micrometres(found.step)),
    ]
    return picture(canvas, title, found.describe(), rows)


def _dish(canvas: Canvas, found: TramDish, top: float) -> None:
    """The strip across its width: its hollow is part of an ellipse."""
    wide = (RIGHT - LEFT) / found.width_of_cut
    larger = _larger(TALL, found.dish / 1000 * wide)
    radius, tilted = found.cutter_diameter / 2, found.dish / 1000 * wide * larger
    half = found.width_of_cut / 2
    places = [half * sin(pi * (step / STEPS - 0.5)) for step in range(STEPS + 1)]
    sag = [radius - sqrt(max(radius**2 - place**2, 0.0)) for place in places]
    deep = [1 - each / sag[0] if sag[0] else 0.0 for each in sag]
    edge = [
        (MIDDLE + place * wide, top + part * tilted)
        for place, part in zip(places, deep, strict=True)
    ]
    _solid(canvas, edge, top + tilted + SOLID)
    canvas.line(OUTLINE, *edge, tells=Tells("hollow", found.dish, "um"))
    canvas.line(HIDDEN, (LEFT, top), (RIGHT, top))
    ends = (LEFT, top), (RIGHT, top)
    width = Tells("width_of_cut", found.width_of_cut, "mm")
    across(canvas, *ends, top - 14, size(found.width_of_cut), width)
    canvas.write("leaning along the feed", LEFT, 14)
    middle = edge[STEPS // 2]
    canvas.line(DIMENSION, middle, (RIGHT + 24, middle[1]))
    canvas.line(DIMENSION, (RIGHT, top), (RIGHT + 24, top))
    _told(canvas, "A", found.dish, "dish", (top, middle[1]))
    _say_larger(canvas, "A", larger)


def _steps(canvas: Canvas, found: TramDish, top: float) -> None:
    """Strips side by side, each a slope."""
    wide = (RIGHT - LEFT) / STRIPS / found.width_of_cut
    larger = _larger(TALL, found.step / 1000 * wide)
    tall = found.step / 1000 * wide * larger
    edge: list[Point] = []
    for strip in range(STRIPS):
        start, end = (LEFT + (strip + part) * found.width_of_cut * wide for part in (0, 1))
        edge += [(start, top), (end, top + tall)]
    _solid(canvas, edge, top + tall + SOLID)
    canvas.line(OUTLINE, *edge, tells=Tells("slopes", found.step, "um"))
    canvas.write("leaning across the feed, strips side by side", LEFT, top - 12)
    canvas.line(DIMENSION, (RIGHT, top + tall), (RIGHT + 24, top + tall))
    canvas.line(HIDDEN, (LEFT, top), (RIGHT + 24, top))
    _told(canvas, "B", found.step, "step", (top, top + tall))
    _say_larger(canvas, "B", larger)


def _solid(canvas: Canvas, edge: list[Point], low: float) -> None:
    canvas.area(RISING, *edge, (edge[-1][0], low), (edge[0][0], low))
    canvas.line(THIN, edge[0], (edge[0][0], low))
    canvas.line(THIN, edge[-1], (edge[-1][0], low))
    canvas.reach(low)


def _told(canvas: Canvas, letter: str, tall: float, name: str, ends: tuple[float, float]) -> None:
    x = RIGHT + 20
    text = height(tall, f"{letter} {{}}", digits=3)
    upright(canvas, (x, ends[0]), (x, ends[1]), x, text, Tells(name, tall, "um"), beside="right")


def _larger(room: float, tall: float) -> float:
    """A round factor at which a height fits a room; 1 where there is none to speak of."""
    if tall <= room * LEAST_PART:
        return 1.0
    ten = 10.0 ** floor(log10(room / tall))
    found = max(step * ten for step in (1, 2, 5) if step * ten * tall <= room * (1 + 1e-9))
    return float(f"{found:.3g}")


def _say_larger(canvas: Canvas, letter: str, larger: float) -> None:
    if larger != 1:
        canvas.note(f"the height {letter} is drawn {larger:g} times its size across")


def _box(left: float, top: float, right: float, low: float) -> tuple[Point, ...]:
    return (left, top), (right, top), (right, low), (left, low)
