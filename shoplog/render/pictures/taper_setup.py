"""Setting a lathe for a taper as a picture: a tailstock set over, an indicator along a travel.

Both are right triangles whose short side is far too short to be seen: it is drawn larger, and the
picture says how many times.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, degrees, radians, tan

from shoplog.render.html import Html
from shoplog.render.pictures.cone import angle_text, taper_rows
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    OUTLINE,
    PHANTOM,
    RISING,
    THIN,
    TINT,
    Canvas,
    Point,
    Tells,
    Text,
    across,
    along,
    arrow,
    leader,
    micrometres,
    millimetres,
    on_circle,
    picture,
    plain,
    size,
    text_width,
    upright,
)
from shoplog.trade.taper_work.taper_indicating import (
    IndicatorFinding,
    IndicatorSetting,
)
from shoplog.trade.taper_work.taper_setting import SetOver

__all__ = ["draw_indicator_finding", "draw_indicator_setting", "draw_set_over"]

LEFT = 52.0
LONG = 190.0
LEAST, MOST = 26.0, 110.0
"""Units that a short side is drawn over."""
LEAST_OVER = 14.0


def _short(canvas: Canvas, length: float, side: float, name: str, least: float = LEAST) -> float:
    """Units for the short side beside a long one of `LONG`; says so where it is not to scale."""
    true = LONG * side / length
    drawn = min(max(true, least), MOST)
    if not 0.995 < drawn / true < 1.005:
        times = f"{drawn / true:.3g} {'times' if drawn > true else 'of'} its size"
        canvas.note(f"the {name} is drawn {times}")
    return drawn


# ---- a tailstock set over -----------------------------------------------------------------------


@pictured(SetOver, "a tailstock set over", "the work between the centres, seen from above")
def draw_set_over(setting: SetOver, anchor: str) -> Html:
    """The work between centres, the tailstock's beside the spindle's axis, and how far."""
    canvas = Canvas(anchor)
    over = _short(canvas, setting.between_points, setting.set_over, "set-over", LEAST_OVER)
    top = 58.0 + over
    head, tail = (LEFT, top), (LEFT + (LONG**2 - over**2) ** 0.5, top + over)
    canvas.line(CENTRE, (head[0] - 34, head[1]), (LEFT + LONG + 62, head[1]))
    _work(canvas, head, tail)
    for point, way in ((head, -1), (tail, 1)):
        _centre(canvas, point, way)
    text = size(setting.between_points)
    told = Tells("between_points", setting.between_points, "mm")
    along(canvas, head, tail, over + 30, text, told)
    told = Tells("set_over", setting.set_over, "mm")
    foot = tail[0], head[1]
    x = LEFT + LONG + 52
    text = size(setting.set_over)
    low = head[1] + max(over + 34, over / 2 + text_width(text) / 2 + 14)
    canvas.write("headstock", 4, low)
    canvas.write("tailstock, towards you", canvas.width - 4, low, "end")
    upright(canvas, foot, tail, x, text, told, beside="turned")
    title = f"Tailstock set over for {setting.taper.designation}"
    return picture(canvas, title, setting.describe(), _set_over_rows(setting))


def _work(canvas: Canvas, head: Point, tail: Point) -> None:
    """A bar whose near side comes out along the spindle's axis: its small end at the tailstock."""
    way = (tail[0] - head[0]) / LONG, (tail[1] - head[1]) / LONG
    side = -way[1], way[0]
    over = tail[1] - head[1]
    half, small = over + 12.0, 12.0

    def at(point: Point, out: float, forward: float) -> Point:
        return (
            point[0] + side[0] * out + way[0] * forward,
            point[1] + side[1] * out + way[1] * forward,
        )

    corners = at(head, -half, 2), at(tail, -small, -2), at(tail, small, -2), at(head, half, 2)
    canvas.area(TINT, *corners)
    canvas.line(OUTLINE, *corners, closed=True)
    canvas.line(CENTRE, head, tail)


def _centre(canvas: Canvas, point: Point, way: int) -> None:
    x, y = point
    corners = (x, y), (x + way * 16, y - 9), (x + way * 34, y - 9), (x + way * 34, y + 9),\
        (x + way * 16, y + 9)  # fmt: skip
    canvas.line(THIN, *corners, closed=True)


def _set_over_rows(setting: SetOver) -> Iterator[tuple[str, ...]]:
    yield ("tailstock set over", *millimetres(setting.set_over))
    yield ("work, from end to end", *millimetres(setting.length))
    if setting.centre_depth:
        yield ("each centre in the work", *millimetres(setting.centre_depth))
    yield ("between the points", *millimetres(setting.between_points))
    yield from taper_rows(setting.taper)


# ---- an indicator along a travel ----------------------------------------------------------------


@pictured(IndicatorSetting, "an indicator's setting", "the rise of the indicator over the travel")
def draw_indicator_setting(setting: IndicatorSetting, anchor: str) -> Html:
    """The slope that an indicator runs along, where it starts, where it ends, and what it reads."""
    canvas = Canvas(anchor)
    straight = setting.along == "carriage"
    rise = _short(canvas, setting.travel, setting.rise, "rise")
    reach = LONG if straight else (LONG**2 - rise**2) ** 0.5
    low, high = (LEFT, 84.0 + rise), (LEFT + reach, 84.0)
    _slope(canvas, low, high)
    travel = Tells("travel", setting.travel, "mm")
    if straight:
        across(canvas, low, high, low[1] + 50, size(setting.travel), travel)
    else:
        along(canvas, low, high, 14, size(setting.travel), travel)
    _slope_angle(canvas, low, high, setting.taper.half_angle, "half_angle")
    readings: tuple[tuple[Point, Text], ...] = (
        (low, "0"), (high, size(setting.rise, sign=True)),
    )  # fmt: skip
    for place, reading in readings:
        _indicator(canvas, place, reading)
    told = Tells("rise", setting.rise, "mm")
    corner = (high[0], low[1])
    x = high[0] + 46
    upright(canvas, high, corner, x, size(setting.rise), told, beside="turned")
    title = f"Indicator for {setting.taper.designation} along the {setting.along}"
    return picture(canvas, title, setting.describe(), _setting_rows(setting))


def _slope(canvas: Canvas, low: Point, high: Point) -> None:
    canvas.area(RISING, low, high, (high[0], low[1]))
    canvas.line(OUTLINE, low, high)
    canvas.line(CENTRE, (low[0] - 30, low[1]), (high[0] + 14, low[1]))


def _slope_angle(canvas: Canvas, low: Point, high: Point, angle: float, name: str) -> None:
    drawn = degrees(atan((low[1] - high[1]) / (high[0] - low[0])))
    tells = Tells(name, angle, "deg")
    canvas.arc(DIMENSION, low, 96, 0, drawn, tells)
    middle = on_circle(low, 96, drawn / 2)
    leader(canvas, middle, (middle[0] + 10, low[1] + 24), angle_text(angle))


def _indicator(canvas: Canvas, place: Point, reading: Text) -> None:
    """A dial with its plunger on the slope, square to the axis."""
    x, y = place
    canvas.line(THIN, (x, y), (x, y - 22))
    canvas.circle(OUTLINE, (x, y - 36), 14)
    canvas.line(DIMENSION, (x, y - 36), (x + 6, y - 44))
    arrow(canvas, (x, y - 36), (x + 6, y - 44))
    canvas.write(reading, x, y - 54, "middle")


def _setting_rows(setting: IndicatorSetting) -> Iterator[tuple[str, ...]]:
    yield ("rise of the indicator", *millimetres(setting.rise))
    yield (f"travel of the {setting.along}", *millimetres(setting.travel))
    yield ("an error of the reading of", *millimetres(setting.reading_error))
    yield ("makes of the half-angle", angle_text(setting.angle_error))
    yield from taper_rows(setting.taper)


@pictured(
    IndicatorFinding, "an indicator's finding", "the angle that was found beside the one wanted"
)
def draw_indicator_finding(finding: IndicatorFinding, anchor: str) -> Html:
    """The slope that was found beside the one that is wanted."""
    canvas = Canvas(anchor)
    wanted, found = finding.taper.half_angle, finding.half_angle
    steepest = LONG * tan(radians(max(wanted, found)))
    zoom = min(max(steepest, LEAST), MOST) / steepest
    if not 0.995 < zoom < 1.005:
        times = zoom if zoom > 1 else 1 / zoom
        canvas.note(
            f"both are drawn {times:.3g} times as {'steep' if zoom > 1 else 'flat'} as they are"
        )
    low = LEFT, 40.0 + max(LEAST, steepest * zoom)
    ends = [(LEFT + LONG, low[1] - LONG * tan(radians(a)) * zoom) for a in (wanted, found)]
    canvas.line(CENTRE, (low[0] - 20, low[1]), (LEFT + LONG + 20, low[1]))
    canvas.line(PHANTOM, low, ends[0], tells=Tells("wanted", wanted, "deg"))
    canvas.line(OUTLINE, low, ends[1], tells=Tells("half_angle", found, "deg"))
    above = ends[1][1] <= ends[0][1]
    for (x, y), name, over in ((ends[0], "wanted", not above), (ends[1], "found", above)):
        canvas.write(name, x + 6, y + (0 if over else 12))
    title = f"Indicator finding for {finding.taper.designation}"
    return picture(canvas, title, finding.describe(), _finding_rows(finding))


def _finding_rows(finding: IndicatorFinding) -> Iterator[tuple[str, ...]]:
    yield ("half-angle found", f"{plain(finding.half_angle, 'deg')}°",
           angle_text(finding.half_angle))  # fmt: skip
    wanted = finding.taper.half_angle
    yield ("half-angle wanted", f"{plain(wanted, 'deg')}°", angle_text(wanted))
    yield ("off", f"{finding.angle_error * 60:+.2f} minutes of arc")
    yield ("on diameter over 100 mm (3.937 in)", *micrometres(finding.diameter_error_per_100))
    if finding.diameter_error is not None:
        yield ("on diameter over its length", *micrometres(finding.diameter_error))
