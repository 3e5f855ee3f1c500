"""A taper as a picture: its diameters, its length and its half-angle."""

from __future__ import annotations

from dataclasses import replace
from math import atan, degrees

from shoplog.render.html import Html
from shoplog.render.pictures.cone import Cone, angle_text, cone_of, taper_rows, taper_symbol
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    OUTLINE,
    TINT,
    Canvas,
    Point,
    Tells,
    across,
    angle_between,
    leader,
    on_circle,
    picture,
    plain,
    size,
    upright,
)
from shoplog.trade.taper_work.taper_pins import TaperPin
from shoplog.trade.taper_work.tapers import CompoundSetting, Taper

__all__ = ["draw_compound_setting", "draw_taper", "draw_taper_pin"]

LEFT, AXIS = 62.0, 100.0


@pictured(Taper, "a taper", "the cone from the side")
def draw_taper(taper: Taper, anchor: str) -> Html:
    """The cone with its diameters, its length, its rate of taper and its half-angle."""
    canvas = Canvas(anchor)
    cone = cone_of(taper, LEFT, AXIS)
    cone.draw(canvas)
    taper_symbol(canvas, cone, taper)
    _half_angle(canvas, cone, taper.half_angle)
    _sizes(canvas, cone, taper)
    rows = [*taper_rows(taper)]
    return picture(canvas, f"Taper {taper.designation}", taper.describe(), rows)


@pictured(TaperPin, "a taper pin", "the pin from the side")
def draw_taper_pin(pin: TaperPin, anchor: str) -> Html:
    """The pin as the cone that it is."""
    whole = replace(pin.taper, large_diameter=pin.large_diameter, length=pin.length)
    return draw_taper(whole, anchor)


def _sizes(canvas: Canvas, cone: Cone, taper: Taper) -> None:
    """The diameters at both ends and the length; letters where the taper has no size."""
    upper, small_up, small_low, lower = cone.corners()
    large, small, length = taper.large_diameter, taper.small_diameter, taper.length
    text = "D" if large is None else size(large, "Ø{}")
    tells = _tells("large_diameter", large)
    upright(canvas, upper, lower, cone.left - 24, text, tells, beside="turned")
    text = "d" if small is None else size(small, "Ø{}")
    upright(canvas, small_up, small_low, cone.right + 22, text, _tells("small_diameter", small))
    text = "L" if length is None else size(length)
    low = lower[1] + 44
    across(canvas, lower, small_low, low, text, _tells("length", length))
    if large is None:
        rule = f"D − d = L / {taper.one_in:.6g}"
        canvas.write(rule, (cone.left + cone.right) / 2, low + 18, "middle")


def _tells(name: str, length: float | None) -> Tells | None:
    return None if length is None else Tells(name, length, "mm")


def _half_angle(canvas: Canvas, cone: Cone, half_angle: float) -> None:
    """Between the side and a line along the axis through the small end's lower corner."""
    vertex, lower = cone.corners()[2:]
    radius = 0.62 * cone.length
    drawn = degrees(atan((cone.large - cone.small) / 2 / cone.length))
    canvas.line(DIMENSION, vertex, (vertex[0] - radius - 12, vertex[1]))
    tells = Tells("half_angle", half_angle, "deg")
    canvas.arc(DIMENSION, vertex, radius, 180, 180 + drawn, tells)
    middle = on_circle(vertex, radius, 180 + drawn / 2)
    leader(canvas, middle, (middle[0] + 8, lower[1] + 20), angle_text(half_angle))


# ---- the top slide ------------------------------------------------------------------------------


@pictured(CompoundSetting, "a top slide's setting", "the slide swung to the side of the cone")
def draw_compound_setting(setting: CompoundSetting, anchor: str) -> Html:
    """The top slide beside the cone, seen from above, at its angle from the spindle's axis."""
    taper = setting.taper
    canvas = Canvas(anchor)
    cone = cone_of(taper, LEFT, AXIS)
    cone.draw(canvas)
    taper_symbol(canvas, cone, taper)
    drawn = degrees(atan((cone.large - cone.small) / 2 / cone.length))
    pivot = (cone.left + 60, cone.axis + cone.large / 2 + 72)
    _slide(canvas, pivot, drawn)
    canvas.line(CENTRE, (pivot[0] - 50, pivot[1]), (pivot[0] + 150, pivot[1]))
    tells = Tells("angle", setting.angle, "deg")
    end = on_circle(pivot, 132, drawn / 2)
    place = end[0] + 6, end[1] - 6
    angle_between(canvas, pivot, 132, 0, drawn, angle_text(setting.angle), tells, place)
    canvas.write("along the spindle", pivot[0] + 152, pivot[1] + 27, "end")
    rows = [
        ("slide, from the spindle's axis", f"{plain(setting.angle, 'deg')}°",
         angle_text(setting.angle)),
        ("slide, from the cross slide", f"{plain(setting.from_cross_slide, 'deg')}°",
         angle_text(setting.from_cross_slide)),
        *taper_rows(taper),
    ]  # fmt: skip
    title = f"Top slide for {taper.designation}"
    return picture(canvas, title, setting.describe(), rows)


def _slide(canvas: Canvas, pivot: Point, drawn: float) -> None:
    """A long rectangle that lies along the side of the cone."""
    ends = on_circle(pivot, 108, drawn), on_circle(pivot, 40, drawn + 180)
    half = 11.0
    corners = [on_circle(end, half, drawn + way) for way in (90, -90) for end in ends]
    corners = [corners[0], corners[1], corners[3], corners[2]]
    canvas.area(TINT, *corners)
    canvas.line(OUTLINE, *corners, closed=True)
    leader(canvas, on_circle(pivot, 24, drawn + 180), (pivot[0] - 20, pivot[1] + 40), "top slide",
           dot=True)  # fmt: skip
