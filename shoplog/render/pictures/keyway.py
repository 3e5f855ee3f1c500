"""A key in its seats as a picture: the section square to the axis, measured as it is measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    CLOSE,
    FALLING,
    OUTLINE,
    RISING,
    THIN,
    Canvas,
    Point,
    Tells,
    across,
    circle,
    coordinate,
    limits,
    lines,
    millimetres,
    picture,
    plain,
    size,
    upright,
)
from shoplog.trade.declare import Size
from shoplog.trade.fastening.key_record import Key, KeyJoint, KeySeat

__all__ = ["draw_key", "draw_key_joint", "draw_key_seat"]

MIDDLE: Point = (160.0, 138.0)
RADIUS = 56.0
"""Of the shaft, in the picture."""
ROOM = 72.0
"""For the shaft's radius and the hub's keyway beyond it."""
HUB = 26.0
"""Of the hub that is drawn about the shaft, at the least; what it has beyond is not known."""
NARROWEST = 15.0
"""Units that the key is wide, at the least."""
BEYOND = 16.0
APART = 28.0
"""From one dimension line to the next."""


@dataclass(frozen=True, slots=True)
class _View:
    """The scale of the round, and that of the key and its depths where they were too small."""

    scale: float
    of_key: float
    radius: float

    def half(self, width: Size) -> float:
        """Half of a keyway's width, and never more than the shaft has."""
        return min(width.nominal / 2 * self.of_key, 0.98 * self.radius)

    def above(self, height: float) -> float:
        """The place of a height above the top of the round."""
        return MIDDLE[1] - self.radius - height * self.of_key

    def on_round(self, half: float) -> float:
        """Where the sides of a keyway meet the round."""
        return MIDDLE[1] - sqrt(self.radius**2 - half**2)


def _view(canvas: Canvas, seat: KeySeat, deep: float = 0.0) -> _View:
    """The view of a seat; `deep` is how far the hub's keyway goes beyond the round."""
    radius = min(RADIUS, ROOM / (1 + 2 * deep / seat.diameter))
    scale = 2 * radius / seat.diameter
    of_key = max(scale, NARROWEST / seat.width.nominal)
    if of_key > 1.005 * scale:
        canvas.note(f"the key is drawn {of_key / scale:.3g} times its size beside the shaft")
    return _View(scale, of_key, radius)


@pictured(KeyJoint, "a key in its seats", "the section square to the axis, to scale")
def draw_key_joint(joint: KeyJoint, anchor: str) -> Html:
    """Shaft, hub and key in section; each depth from where it is measured."""
    canvas = Canvas(anchor)
    view = _view(canvas, joint.shaft, joint.hub.depth.nominal)
    _hub(canvas, view, joint.hub)
    _shaft(canvas, view, joint.shaft)
    _key(canvas, view, joint.key, -joint.shaft.depth.nominal)
    _axes(canvas, _hub_radius(view, joint.hub))
    out = _hub_radius(view, joint.hub)
    _depths(canvas, view, joint.shaft, out, 1)
    _depths(canvas, view, joint.hub, out, -1)
    _width(canvas, view, joint.key.width, out, _in_inches(joint.key))
    rows = [*_key_rows(joint.key), *_seat_rows(joint.shaft), *_seat_rows(joint.hub)]
    gap = limits(joint.clearance.min, joint.clearance.max, inches=_in_inches(joint.key))
    rows.append(("key to the hub's floor", *gap))
    title = f"Key {joint.key.designation} at {plain(joint.shaft.diameter)} mm"
    return picture(canvas, title, joint.describe(), rows)


@pictured(KeySeat, "a keyway", "the section square to the axis, to scale")
def draw_key_seat(seat: KeySeat, anchor: str) -> Html:
    """The keyway of a shaft, or of a hub, alone."""
    canvas = Canvas(anchor)
    hub = seat.side == "hub"
    view = _view(canvas, seat, seat.depth.nominal if hub else 0.0)
    (_hub if hub else _shaft)(canvas, view, seat)
    out = _hub_radius(view, seat) if hub else view.radius
    _axes(canvas, out)
    _depths(canvas, view, seat, out, -1 if hub else 1)
    _width(canvas, view, seat.width, out, _in_inches(seat.key))
    title = f"Keyway in the {seat.side}"
    return picture(canvas, title, seat.describe(), _seat_rows(seat))


def _arc(view: _View, half: float) -> str:
    """The round from the keyway's right side, below, to its left side."""
    edge, r = view.on_round(half), coordinate(view.radius)
    start, end = (lines(((MIDDLE[0] + side * half, edge),)) for side in (1, -1))
    return f"{start}A{r} {r} 0 1 1 {end.removeprefix('M')}"


def _contour(view: _View, seat: KeySeat, way: int) -> str:
    """The round with its keyway: cut into it (way -1) or out of it (way 1)."""
    half = view.half(seat.width)
    floor = view.above(way * seat.depth.nominal)
    slot = lines(((MIDDLE[0] - half, floor), (MIDDLE[0] + half, floor)), closed=True)
    return f"{_arc(view, half)}L{slot.removeprefix('M')}"


def _shaft(canvas: Canvas, view: _View, seat: KeySeat) -> None:
    contour = _contour(view, seat, -1)
    low = MIDDLE[0], MIDDLE[1] + view.radius
    canvas.region(RISING, contour, (low,))
    canvas.path(OUTLINE, contour, (low,), Tells("shaft_width", seat.width.nominal, "mm"))


def _hub_radius(view: _View, seat: KeySeat) -> float:
    return view.radius + seat.depth.nominal * view.of_key + HUB


def _hub(canvas: Canvas, view: _View, seat: KeySeat) -> None:
    """The bore with its keyway; where the hub ends is not known, so it is broken off."""
    contour = _contour(view, seat, 1)
    out = _hub_radius(view, seat)
    low = MIDDLE[0], MIDDLE[1] + out
    canvas.region(FALLING, circle(MIDDLE, out) + contour, (low,))
    canvas.circle(THIN, MIDDLE, out)
    canvas.path(OUTLINE, contour, (low,), Tells("hub_width", seat.width.nominal, "mm"))


def _key(canvas: Canvas, view: _View, key: Key, foot: float) -> None:
    half = view.half(key.width)
    bottom, top = view.above(foot), view.above(foot + key.height.nominal)
    corners = (
        (MIDDLE[0] - half, top), (MIDDLE[0] + half, top),
        (MIDDLE[0] + half, bottom), (MIDDLE[0] - half, bottom),
    )  # fmt: skip
    canvas.area(CLOSE, *corners, front=False)
    canvas.line(OUTLINE, *corners, closed=True, tells=Tells("key_height", key.height.nominal, "mm"))


def _axes(canvas: Canvas, out: float) -> None:
    x, y = MIDDLE
    canvas.line(CENTRE, (x - out - 6, y), (x + out + 6, y))
    canvas.line(CENTRE, (x, y - out - 6), (x, y + out + 6))


def _depths(canvas: Canvas, view: _View, seat: KeySeat, out: float, way: int) -> None:
    """The depth from the top of the round, and the size over the far side, at one side."""
    shaft, inches = seat.side == "shaft", _in_inches(seat.key)
    half = view.half(seat.width) * way
    floor = MIDDLE[0] + half, view.above(-seat.depth.nominal if shaft else seat.depth.nominal)
    top, bottom = (MIDDLE[0], MIDDLE[1] - view.radius), (MIDDLE[0], MIDDLE[1] + view.radius)
    x = MIDDLE[0] + way * (out + BEYOND)
    over = seat.over_opposite.nominal
    name = f"{seat.side}_over_opposite"
    upright(canvas, floor, bottom, x, size(over, inches=inches), Tells(name, over, "mm"))
    depth = seat.depth.nominal
    tells = Tells(f"{seat.side}_depth", depth, "mm")
    upright(canvas, top, floor, x + way * APART, size(depth, inches=inches), tells, beside="turned")


def _width(canvas: Canvas, view: _View, width: Size, out: float, inches: bool) -> None:
    half = view.half(width)
    y = MIDDLE[1] - out - 18
    edge = view.on_round(half)
    ends = (MIDDLE[0] - half, edge), (MIDDLE[0] + half, edge)
    text = size(width.nominal, "b {}", inches=inches)
    across(canvas, *ends, y, text, Tells("width", width.nominal, "mm"))


def _in_inches(key: Key) -> bool:
    return key.standard.startswith("ASME")


# ---- a key alone --------------------------------------------------------------------------------


@pictured(Key, "a key", "its section, to scale")
def draw_key(key: Key, anchor: str) -> Html:
    """The section of a key."""
    canvas = Canvas(anchor)
    scale = 80.0 / max(key.width.nominal, key.height.nominal)
    wide, tall = (max(6.0, side.nominal * scale) for side in (key.width, key.height))
    left, top = 160 - wide / 2, 40.0
    corners = (left, top), (left + wide, top), (left + wide, top + tall), (left, top + tall)
    canvas.area(CLOSE, *corners)
    canvas.line(OUTLINE, *corners, closed=True)
    width, height = key.width.nominal, key.height.nominal
    texts = [size(length, inches=_in_inches(key)) for length in (width, height)]
    across(canvas, corners[0], corners[1], 22, texts[0], Tells("width", width, "mm"))
    told = Tells("height", height, "mm")
    upright(canvas, corners[1], corners[2], left + wide + 20, texts[1], told)
    return picture(canvas, f"Key {key.designation}", key.describe(), _key_rows(key))


def _key_rows(key: Key) -> Iterator[tuple[str, ...]]:
    inches = _in_inches(key)
    yield ("key, width b", *limits(key.width.min, key.width.max, inches=inches))
    yield ("key, height", *limits(key.height.min, key.height.max, inches=inches))
    if key.diameter is not None:
        yield ("key, diameter of its disc", *millimetres(key.diameter, inches=inches))


def _seat_rows(seat: KeySeat) -> Iterator[tuple[str, ...]]:
    side, inches, over = seat.side, _in_inches(seat.key), seat.over_opposite
    far = "over the far side" if side == "shaft" else "from the far side of the bore"
    for name, zone in (("width b", seat.width), ("depth", seat.depth), (far, over)):
        yield (f"{side}, {name}", *limits(zone.min, zone.max, inches=inches))
    if side == "shaft":
        below = millimetres(seat.depth_from_flat, inches=inches)
        yield ("shaft, depth below a flat as wide", *below)
