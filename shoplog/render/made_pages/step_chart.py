"""Which cutting speed each step of a spindle gives, over the diameter at the edge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi

from shoplog.log.profile.shop import Machine
from shoplog.log.profile.things import rpm_of
from shoplog.render.html import Html
from shoplog.render.pictures.parts import (
    CURVE,
    INCH,
    METRIC,
    OUTLINE,
    THIN,
    TINT,
    WIDTH,
    Canvas,
    Point,
    Tells,
    plain,
    text_box,
    text_width,
)
from shoplog.render.pictures.ratio_scale import Scale, drawable, ticks
from shoplog.trade.machining.cutting import cutting_speed

__all__ = ["DIAMETERS", "spindle_lines", "step_chart"]

DIAMETERS = (3.0, 6.0, 12.0, 25.0, 50.0, 100.0)
"""Diameters in mm that a table of cutting speeds has."""
LEFT, RIGHT, TOP, BOTTOM = 30.0, WIDTH - 46.0, 34.0, 264.0
SMALLEST, LARGEST = 2.0, 200.0
SLOWEST, FASTEST = 2.0, 300.0
MOST_LINES = 24
MM_PER_INCH, MM_PER_FOOT = 25.4, 304.8
INCH_SIZES = {0.125: "1/8", 0.25: "1/4", 0.5: "1/2", 1.0: "1", 2.0: "2", 4.0: "4"}


@dataclass(frozen=True, slots=True)
class SpindleLine:
    """A speed of the spindle in rpm, and what it is called."""

    speed: float
    name: str


def spindle_lines(machine: Machine) -> list[SpindleLine]:
    """The steps of a machine, slowest first; the two ends of a range where it has one."""
    drive = machine.drive
    names = (*drive.names, *[""] * (len(drive.steps) - len(drive.names)))
    found = [(rpm_of(step), name) for step, name in zip(drive.steps, names, strict=True)]
    ends = ((drive.least, "slowest"), (drive.greatest, "fastest"))
    found += [(rpm_of(end), name) for end, name in ends if end is not None]
    return [SpindleLine(*one) for one in sorted(found) if drawable(one[0])]


def step_chart(machine: Machine, anchor: str) -> Html | None:
    """A line for each step, on scales of equal ratios; nothing where no step has one there."""
    lines = [one for one in spindle_lines(machine) if _ends(one.speed)]
    if not lines:
        return None
    canvas = Canvas(anchor)
    across = Scale(SMALLEST, LARGEST, LEFT, RIGHT)
    up = Scale(SLOWEST, FASTEST, BOTTOM, TOP)
    _grid(canvas, across, up)
    if machine.drive.least is not None and len(lines) == 2:
        _between(canvas, lines, across, up)
    shown = lines[:MOST_LINES]
    for one in shown:
        _line(canvas, one, across, up)
    if len(shown) < len(lines):
        canvas.note(f"the slowest {MOST_LINES} of {len(lines)} steps are drawn")
    return canvas.html(
        f"Cutting speeds of {machine.name}",
        " ".join(_described(lines[:MOST_LINES])),
    )


def _described(lines: Sequence[SpindleLine]) -> Iterator[str]:
    yield "Cutting speed in m/min over the diameter in mm, a line for each speed of the spindle."
    for one in lines:
        speed = plain(cutting_speed(one.speed, 25.0), "m/min")
        yield f"{plain(one.speed, 'rpm')} rpm gives {speed} m/min at 25 mm."


def _ends(speed: float) -> tuple[float, float] | None:
    """The diameters between which a step's cutting speed is within the picture."""
    first = max(SMALLEST, 1000 * SLOWEST / (pi * speed))
    last = min(LARGEST, 1000 * FASTEST / (pi * speed))
    return (first, last) if last > first * 1.05 else None


def _places(speed: float, across: Scale, up: Scale) -> list[Point]:
    ends = _ends(speed) or ()
    return [(across.at(size), up.at(cutting_speed(speed, size))) for size in ends]


def _line(canvas: Canvas, one: SpindleLine, across: Scale, up: Scale) -> None:
    places = _places(one.speed, across, up)
    canvas.line(CURVE, *places, tells=Tells("spindle speed", one.speed, "rpm"))
    x, y = places[-1]
    text = plain(one.speed, "rpm")
    beside = [(x + 4, y + 4), (x + 4, y - 5), (x + 4, y + 12)]
    half = text_width(text) / 2
    above = [(x - half, y - 4), (x - half, y - 18)]
    for place in above if x < RIGHT - 1 else beside:
        if canvas.is_free(text_box(f" {text} ", place[0] - 2, place[1])):
            canvas.write(text, *place)
            return


def _between(canvas: Canvas, lines: Sequence[SpindleLine], across: Scale, up: Scale) -> None:
    """All that a drive without steps can be set to."""
    slow, fast = (_places(one.speed, across, up) for one in lines)
    corner = [(RIGHT, TOP)] if fast[-1][0] < RIGHT - 1 else []
    low = [(LEFT, BOTTOM)] if slow[0][0] > LEFT + 1 else []
    canvas.area(TINT, *fast, *corner, *reversed(slow), *low)


def _grid(canvas: Canvas, across: Scale, up: Scale) -> None:
    """The scales with their lines: mm and m/min, or in and ft/min where the page is in inch.

    Diameters in inch stand below those in mm until the page asks for one of them.
    """
    canvas.line(OUTLINE, (LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM))
    canvas.write("rpm", WIDTH - 2, TOP - 20, "end")
    with canvas.only(METRIC):
        for size in (2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0):
            x = across.at(size)
            canvas.line(THIN, (x, TOP), (x, BOTTOM), tells=Tells("tick", size, "mm"))
            canvas.write(f"{size:g}", x, BOTTOM + 14, "middle")
        canvas.write("mm", RIGHT + 14, BOTTOM + 14)
        _speeds(canvas, up, "m/min", 1.0)
    with canvas.only(INCH):
        _inch_sizes(canvas, across)
    with canvas.only(INCH, first=False):
        for size in INCH_SIZES:
            x = across.at(size * MM_PER_INCH)
            canvas.line(THIN, (x, TOP), (x, BOTTOM))
        _speeds(canvas, up, "ft/min", 1000 / MM_PER_FOOT)


def _inch_sizes(canvas: Canvas, across: Scale) -> None:
    canvas.line(OUTLINE, (LEFT, BOTTOM + 20), (RIGHT, BOTTOM + 20))
    for size, text in INCH_SIZES.items():
        x = across.at(size * MM_PER_INCH)
        tells = Tells("tick", size, "in")
        canvas.line(OUTLINE, (x, BOTTOM + 17), (x, BOTTOM + 20), tells=tells)
        canvas.write(text, x, BOTTOM + 33, "middle")
    canvas.write("in", RIGHT + 14, BOTTOM + 33)


def _speeds(canvas: Canvas, up: Scale, name: str, factor: float) -> None:
    """Round cutting speeds at the left, with a line each."""
    for tick in ticks(SLOWEST * factor, FASTEST * factor):
        y = up.at(tick / factor)
        canvas.line(THIN, (LEFT, y), (RIGHT, y), tells=Tells("tick", tick, name))
        canvas.write(f"{tick:g}", LEFT - 4, y + 4, "end")
    canvas.write(name, 2, TOP - 20)
