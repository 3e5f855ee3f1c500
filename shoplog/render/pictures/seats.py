"""Seats of screws in section: a counterbore with the head in it, and countersinks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import radians, tan

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    OUTLINE,
    PHANTOM,
    RISING,
    Canvas,
    Tells,
    across,
    angle_between,
    millimetres,
    picture,
    plain,
    size,
    text_width,
    upright,
)
from shoplog.render.pictures.section import AXIS, FACE, LEFT, RIGHT, Section, section_for
from shoplog.trade.fastening.counterbores import Counterbore, ScrewCountersink
from shoplog.trade.fastening.countersinks import Countersink
from shoplog.trade.fastening.screws import Screw

__all__ = ["draw_counterbore", "draw_countersink", "draw_screw_countersink"]

BELOW = 1.0
"""Of the hole's diameter, drawn below the seat: how thick the part is, is not known."""

LEAST_DEEP = 0.66
"""Of the seat's diameter, drawn in all."""


def _through(
    canvas: Canvas, section: Section, steps: Sequence[tuple[float, float]], tells: Tells
) -> None:
    """A hole that goes through: metal on both sides of it, broken off at the sides and below."""
    right = [section.at(radius, depth) for radius, depth in steps]
    left = [section.at(-radius, depth) for radius, depth in steps]
    low = right[-1][1]
    for wall, edge in ((right, RIGHT), (left, LEFT)):
        canvas.area(RISING, (edge, FACE), *wall, (edge, low))
        canvas.line(OUTLINE, (edge, FACE), *wall)
    canvas.line(OUTLINE, right[0], *right[1:], tells=tells)
    canvas.line(CENTRE, (AXIS, FACE - 8), (AXIS, low + 8))
    for one, other in zip(right[1:-1], left[1:-1], strict=True):
        canvas.line(OUTLINE, one, other)


def _sizes(
    canvas: Canvas, section: Section, diameter: float, hole: float, depth: float, total: float,
    *, inches: bool = False,
) -> None:  # fmt: skip
    """The seat's diameter above, its depth at the right, the hole's diameter below."""
    top = section.at(-diameter / 2, 0.0), section.at(diameter / 2, 0.0)
    told = Tells("diameter", diameter, "mm")
    across(canvas, *top, FACE - 14, size(diameter, "Ø{}", inches=inches), told)
    if hole:
        low = section.at(-hole / 2, total), section.at(hole / 2, total)
        told = Tells("hole", hole, "mm")
        across(canvas, *low, low[0][1] + 24, size(hole, "Ø{}", inches=inches), told)
    if depth:
        foot = section.at(max(hole, 0.0) / 2 if hole else 0.0, depth)
        told = Tells("depth", depth, "mm")
        upright(canvas, (RIGHT, FACE), foot, RIGHT + 24, size(depth, inches=inches), told)


@pictured(Counterbore, "a counterbore", "the seat in section with the widest head in it, to scale")
def draw_counterbore(bore: Counterbore, anchor: str) -> Html:
    """The counterbore, the clearance hole below it, and the widest head that it must pass."""
    canvas = Canvas(anchor)
    hole = min(bore.hole or bore.screw.diameter, bore.diameter)
    total = max(bore.depth + BELOW * max(hole, bore.diameter / 3), LEAST_DEEP * bore.diameter)
    section = section_for(max(bore.diameter, bore.screw.greatest_diameter), total)
    steps = [
        (bore.diameter / 2, 0.0), (bore.diameter / 2, bore.depth),
        (hole / 2, bore.depth), (hole / 2, total),
    ]  # fmt: skip
    _through(canvas, section, steps, Tells("seat", bore.diameter, "mm"))
    _screw(canvas, section, bore.screw, bore.depth, total)
    inches = bore.screw.thread.in_inches
    _sizes(canvas, section, bore.diameter, bore.hole or 0.0, bore.depth, total, inches=inches)
    section.tell_zoom(canvas)
    title = f"Counterbore for {bore.screw.designation}"
    return picture(canvas, title, bore.describe(), _counterbore_rows(bore))


def _screw(canvas: Canvas, section: Section, screw: Screw, depth: float, total: float) -> None:
    """The widest head on the seat, and the shank, as a part that is not this one's."""
    head, tall = screw.greatest_diameter / 2, screw.head_height or 0.0
    shank = screw.diameter / 2
    steps = [(shank, total), (shank, depth), (head, depth), (head, depth - tall)]
    right = [section.at(radius, at) for radius, at in steps]
    left = [section.at(-radius, at) for radius, at in reversed(steps)]
    told = Tells("head", screw.greatest_diameter, "mm")
    canvas.line(PHANTOM, *right, *left, tells=told)


def _counterbore_rows(bore: Counterbore) -> Iterator[tuple[str, ...]]:
    other = bore.standard if bore.standard != bore.diameter else None
    sizes = (
        ("counterbore", bore.diameter),
        (f"{bore.source} has", other),
        ("depth", bore.depth),
        ("hole below", bore.hole),
        ("widest head", bore.screw.greatest_diameter),
        ("play on the diameter", bore.play),
    )
    for name, length in sizes:
        if length is not None:
            yield (name, *millimetres(length, inches=bore.screw.thread.in_inches))
    yield ("passes it", "yes" if bore.passes else "no")


# ---- countersinks -------------------------------------------------------------------------------


@pictured(ScrewCountersink, "a screw's countersink", "the seat in section, to scale")
def draw_screw_countersink(sink: ScrewCountersink, anchor: str) -> Html:
    """The countersink for a screw's head, and its hole."""
    return _countersink(
        Countersink(sink.screw.designation, sink.diameter, sink.hole, sink.angle),
        anchor, sink.describe(),
    )  # fmt: skip


@pictured(Countersink, "a countersink", "the seat in section, to scale")
def draw_countersink(sink: Countersink, anchor: str) -> Html:
    """A countersink and its hole."""
    return _countersink(sink, anchor, sink.describe())


def _countersink(sink: Countersink, anchor: str, description: str) -> Html:
    canvas = Canvas(anchor)
    total = max(sink.depth + BELOW * max(sink.hole, sink.diameter / 3), LEAST_DEEP * sink.diameter)
    section = section_for(sink.diameter, total)
    steps = [(sink.diameter / 2, 0.0), (sink.hole / 2, sink.depth), (sink.hole / 2, total)]
    _through(canvas, section, steps, Tells("seat", sink.diameter, "mm"))
    _sizes(canvas, section, sink.diameter, sink.hole, sink.depth, total)
    _cone_angle(canvas, section, sink)
    section.tell_zoom(canvas)
    rows = (
        ("at the face", *millimetres(sink.diameter)),
        ("angle", f"{plain(sink.angle, 'deg')}°"),
        ("depth of the cone", *millimetres(sink.depth)),
        ("hole below", *millimetres(sink.hole)),
    )
    return picture(canvas, f"Countersink for {sink.size}", description, rows)


def _cone_angle(canvas: Canvas, section: Section, sink: Countersink) -> None:
    """The angle from the point of the cone, where it is not drawn out of shape."""
    apex = sink.diameter / 2 / tan(radians(sink.angle / 2))
    point = section.at(0.0, apex)
    told = Tells("angle", sink.angle, "deg")
    radius = max(14.0, 0.6 * (point[1] - FACE))
    text = f"{plain(sink.angle, 'deg')}°"
    place = AXIS - text_width(text) / 2, point[1] - radius - 3
    canvas.line(DIMENSION, section.at(-sink.hole / 2, sink.depth), point)
    canvas.line(DIMENSION, section.at(sink.hole / 2, sink.depth), point)
    if section.zoom == 1:
        half = sink.angle / 2
        angle_between(canvas, point, radius, 90 - half, 90 + half, text, told, place)
    else:
        canvas.write(text, *place, tells=told)
