"""A press fit as a picture: both walls in section, and the stress that runs through them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from shoplog.calc.show import other_system
from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    CURVE,
    DASHED_CURVE,
    DIMENSION,
    FALLING,
    OUTLINE,
    RISING,
    TEXT_SIZE,
    THIN,
    Both,
    Canvas,
    LineKind,
    Point,
    Tells,
    Text,
    limits,
    micrometres,
    millimetres,
    per_unit,
    picture,
    plain,
    size,
    spread,
    text_box,
    text_width,
)
from shoplog.trade.press_fits.bushes import PressedBush
from shoplog.trade.press_fits.press_record import PressFit
from shoplog.trade.press_fits.wall_stress import WallStress, hub_wall_stress, shaft_wall_stress
from shoplog.units import convert, unit, write_quantity

__all__ = ["draw_press_fit", "draw_pressed_bush"]

LEFT, RIGHT = 66.0, 254.0
LEAST_WALL = 56.0
"""Units that a wall is thick, at the least."""
TOP, TALL = 44.0, 150.0
"""Of the field that the stresses are drawn in."""
SECTION = 46.0
STEPS = 12
LEAST_BORE = 1e-9
SAME = 0.01


@dataclass(frozen=True, slots=True)
class _View:
    """Places across by the diameter, with a scale for each wall, and heights by the stress."""

    bore: float
    joint: float
    outside: float
    middle: float
    """Where the joint is, across the picture."""
    most: float
    per_stress: float

    def x(self, diameter: float) -> float:
        if diameter <= self.joint:
            share = (diameter - self.bore) / (self.joint - self.bore)
            return LEFT + share * (self.middle - LEFT)
        share = (diameter - self.joint) / (self.outside - self.joint)
        return self.middle + share * (RIGHT - self.middle)

    def y(self, stress: float) -> float:
        return TOP + (self.most - stress) * self.per_stress


Wall = list[WallStress]


@pictured(
    PressFit, "a press fit", "the stress through both walls, from the axis outwards, tightest pair"
)
def draw_press_fit(joint: PressFit, anchor: str) -> Html:
    """The walls of shaft and hub in section, and the hoop and radial stress through them."""
    return _drawn(joint, anchor, joint.describe(), _rows(joint))


@pictured(PressedBush, "a pressed bush", "the stress through bush and housing, tightest pair")
def draw_pressed_bush(bush: PressedBush, anchor: str) -> Html:
    """The joint of a bush with its housing."""
    rows = [
        ("bore before pressing", *limits(bush.bore_before.min, bush.bore_before.max)),
        ("bore after pressing", *limits(bush.bore_after.min, bush.bore_after.max)),
        *_rows(bush.joint),
    ]
    return _drawn(bush.joint, anchor, bush.describe(), rows)


def _drawn(
    joint: PressFit,
    anchor: str,
    description: str,
    rows: Iterator[tuple[str, ...]] | list[tuple[str, ...]],
) -> Html:
    canvas = Canvas(anchor)
    hub, shaft = _hub_wall(joint), _shaft_wall(joint)
    view = _view(canvas, joint, [*hub, *shaft])
    _field(canvas, view)
    for part, wall in (("hub", hub), ("shaft", shaft)):
        _curve(canvas, view, wall, CURVE, f"{part}_hoop", lambda stress: stress.hoop)
        _curve(canvas, view, wall, DASHED_CURVE, f"{part}_radial", lambda stress: stress.radial)
    _values(canvas, view, hub, shaft)
    _section(canvas, view, joint)
    title = f"Stress in a press fit of {plain(joint.diameter)} mm"
    return picture(canvas, title, description, rows)


def _hub_wall(joint: PressFit) -> Wall:
    inner, outer = joint.diameter, joint.hub_diameter
    return [hub_wall_stress(joint.pressure_max, inner, outer, at) for at in _steps(inner, outer)]


def _shaft_wall(joint: PressFit) -> Wall:
    bore, outer = joint.shaft_bore, joint.diameter
    return [shaft_wall_stress(joint.pressure_max, outer, bore, at) for at in _steps(bore, outer)]


def _steps(inner: float, outer: float) -> Iterator[float]:
    """Diameters through a wall, nearer to each other where its curves bend most: inside."""
    for step in range(STEPS):
        part = step / STEPS
        bends = inner > LEAST_BORE * outer
        at = inner * (outer / inner) ** part if bends else inner + (outer - inner) * part
        yield min(max(at, inner), outer)
    yield outer


def _view(canvas: Canvas, joint: PressFit, stresses: Wall) -> _View:
    walls = joint.diameter - joint.shaft_bore, joint.hub_diameter - joint.diameter
    room = RIGHT - LEFT
    share = room * walls[0] / (walls[0] + walls[1])
    middle = LEFT + min(max(share, LEAST_WALL), room - LEAST_WALL)
    times = ((RIGHT - middle) / walls[1]) / ((middle - LEFT) / walls[0])
    for part, other, many in (("hub", "shaft", times), ("shaft", "hub", 1 / times)):
        if many > 1 + SAME:
            canvas.note(
                f"the {part}'s wall is drawn {many:.3g} times as thick beside the {other}'s"
            )
    found = [number for stress in stresses for number in (stress.hoop, stress.radial)]
    most, least = max(*found, 0.0), min(*found, 0.0)
    scale = per_unit(TALL, most - least)
    return _View(joint.shaft_bore, joint.diameter, joint.hub_diameter, middle, most, scale)


def _field(canvas: Canvas, view: _View) -> None:
    """The zero line, the joint, and which line is which."""
    zero = view.y(0.0)
    canvas.line(THIN, (LEFT - 8, zero), (RIGHT + 8, zero), tells=Tells("zero", 0.0, "MPa"))
    canvas.line(THIN, (view.middle, TOP - 6), (view.middle, TOP + TALL + 10))
    x = LEFT
    for kind, name in ((CURVE, "round the wall"), (DASHED_CURVE, "across it")):
        canvas.line(kind, (x, 12), (x + 26, 12))
        canvas.write(name, x + 31, 16)
        x += 50 + text_width(name)
    canvas.write(Both("MPa", "psi"), 4, 16)


def _curve(
    canvas: Canvas, view: _View, wall: Wall, kind: LineKind, name: str,
    stress: Callable[[WallStress], float],
) -> None:  # fmt: skip
    points = [(view.x(place.at), view.y(stress(place))) for place in wall]
    at_joint = wall[0] if name.startswith("hub") else wall[-1]
    canvas.line(kind, *points, tells=Tells(name, stress(at_joint), "MPa"))


def _values(canvas: Canvas, view: _View, hub: Wall, shaft: Wall) -> None:
    """The stresses at the bore, the joint and the outside, beside their lines."""
    _labels(canvas, view, _told(shaft[0]), LEFT - 10, "end", LEFT)
    _labels(canvas, view, _told(hub[-1]), RIGHT + 10, "start", RIGHT)
    inside, outside = shaft[-1], hub[0]
    above = view.y(outside.hoop) - 4
    canvas.write(_number(outside.hoop), view.middle + 4, max(above, TOP - 4))
    told = _told(inside)
    for stress, y in zip(told, spread([view.y(each) + 13 for each in told], 14), strict=True):
        canvas.write(_number(stress), view.middle - 4, y, "end")


def _told(place: WallStress) -> list[float]:
    same = _number(place.hoop) == _number(place.radial)
    return [place.hoop] if same else [place.hoop, place.radial]


def _labels(
    canvas: Canvas, view: _View, stresses: Sequence[float], x: float, anchor: str, end: float
) -> None:
    heights = [view.y(stress) for stress in stresses]
    for stress, y, label in zip(stresses, heights, spread(heights, 14), strict=True):
        canvas.line(DIMENSION, (end, y), (x + (2 if anchor == "end" else -2), label))
        canvas.write(_number(stress), x, label + 4, anchor)


def _number(stress: float) -> Both:
    """A stress to the tenth of a MPa or to the psi, which is finer than it is known."""
    tenths = 1 if abs(stress) < 1000 else 0
    psi = convert(stress, unit("MPa"), unit("psi"))
    return Both(_signed(stress, tenths, 1e5), _signed(psi, 0, 1e6))


def _signed(number: float, places: int, huge: float) -> str:
    text = f"{number:+.{places}f}" if abs(number) < huge else f"{number:+.1e}"
    return "0" if float(text) == 0 else text.replace("-", "−")


def _section(canvas: Canvas, view: _View, joint: PressFit) -> None:
    """The walls below the field, on the same places across: the shaft left, the hub right."""
    top = TOP + TALL + 24
    low = top + SECTION
    for fill, left, right, name in (
        (RISING, LEFT, view.middle, "shaft"),
        (FALLING, view.middle, RIGHT, "hub"),
    ):
        corners: tuple[Point, ...] = (left, top), (right, top), (right, low), (left, low)
        canvas.area(fill, *corners)
        wall = joint.diameter - joint.shaft_bore
        thick = wall if name == "shaft" else joint.hub_diameter - joint.diameter
        canvas.line(OUTLINE, *corners, closed=True, tells=Tells(f"{name}_wall", thick / 2, "mm"))
        canvas.write(name, (left + right) / 2, low - SECTION / 2 + 4, "middle", strong=True)
    if not joint.shaft_bore:
        canvas.line(CENTRE, (LEFT, top - 8), (LEFT, low + 8))
    sizes = (
        (LEFT, joint.shaft_bore), (view.middle, joint.diameter), (RIGHT, joint.hub_diameter),
    )  # fmt: skip
    for x, diameter in sizes:
        text: Text = size(diameter, "Ø{}") if diameter else "axis"
        y = low + 16
        while not canvas.is_free(text_box(text, x, y, "middle")):
            y += TEXT_SIZE + 2
        canvas.write(text, x, y, "middle")


# ---- the key ------------------------------------------------------------------------------------


def _rows(joint: PressFit) -> Iterator[tuple[str, ...]]:
    inner, outer = _shaft_wall(joint), _hub_wall(joint)
    yield ("interference, tightest pair", *micrometres(joint.interference_max))
    yield ("interference, loosest pair", *micrometres(joint.interference_min))
    yield ("pressure, tightest pair", *_both(joint.pressure_max, "MPa"))
    yield ("pressure, loosest pair", *_both(joint.pressure_min, "MPa"))
    yield ("hub, round its bore", *_both(outer[0].hoop, "MPa"))
    yield ("hub, round its outside", *_both(outer[-1].hoop, "MPa"))
    yield ("shaft, round the joint", *_both(inner[-1].hoop, "MPa"))
    if joint.shaft_bore:
        yield ("shaft, round its bore", *_both(inner[0].hoop, "MPa"))
    for part, safety in (("hub", joint.hub_safety), ("shaft", joint.shaft_safety)):
        if safety is not None:
            yield (f"{part}, yields at", f"{safety:.3g} times this")
    yield ("it holds, at the least", *_both(joint.torque_min, "N*m"))
    yield ("joint", *millimetres(joint.diameter))


def _both(amount: float, of: str) -> tuple[str, ...]:
    metric, inch = other_system(unit(of))
    return tuple(
        write_quantity(convert(amount, unit(of), other), other) for other in (metric, inch)
    )
