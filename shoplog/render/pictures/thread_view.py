"""What the pictures of threads share: two pitches to scale, diameters told at their right."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import radians, tan

from shoplog.render.pictures.parts import (
    DIMENSION,
    THIN,
    Canvas,
    LineKind,
    Point,
    Tells,
    across,
    millimetres,
    plain,
    size,
    spread,
)
from shoplog.trade.screw_threads.thread_profile import PITCHES, Profile
from shoplog.trade.screw_threads.thread_record import Thread
from shoplog.units import unit, write_quantity

__all__ = [
    "LABELS",
    "LEFT",
    "RIGHT",
    "SOLID",
    "TOP",
    "Diameter",
    "View",
    "pitch_and_angle",
    "pitch_texts",
    "told_diameters",
    "view_of",
]

LEFT, WIDE = 10.0, 190.0
RIGHT = LEFT + WIDE
LABELS = RIGHT + 20
SOLID = 26.0
"""Of each part, drawn beyond its thread."""
TOP = 34.0


@dataclass(frozen=True, slots=True)
class View:
    """Turns places of the profile, in mm, into places of the picture; one scale both ways."""

    scale: float
    outermost: float
    """Radius that is highest in the picture."""
    top: float

    def y(self, radius: float) -> float:
        """The height of a radius."""
        return self.top + (self.outermost - radius) * self.scale

    def at(self, place: Point) -> Point:
        """Where a place of the profile goes."""
        return LEFT + place[0] * self.scale, self.y(place[1])


@dataclass(frozen=True, slots=True)
class Diameter:
    """A diameter that is told: its field, its symbol by ISO 5408, its name, and the line's kind."""

    field: str
    symbol: str
    name: str
    value: float
    kind: LineKind = THIN


def view_of(pitch: float, profiles: Iterable[Profile]) -> View:
    """The view of two pitches of profiles in each other."""
    return View(WIDE / (PITCHES * pitch), max(one.top for one in profiles), TOP + SOLID)


def told_diameters(canvas: Canvas, view: View, diameters: Sequence[Diameter], inches: bool) -> None:
    """A line at each diameter, and its size at the right, clear of the others."""
    heights = [view.y(one.value / 2) for one in diameters]
    for one, y, label in zip(diameters, heights, spread(heights, 15), strict=True):
        tells = Tells(one.field, one.value, "mm")
        canvas.line(one.kind, (LEFT - 4, y), (RIGHT + 4, y), tells=tells)
        canvas.line(DIMENSION, (RIGHT + 4, y), (LABELS - 2, label))
        canvas.write(size(one.value, f"{one.symbol} {{}}", inches=inches), LABELS, label + 4)


def pitch_and_angle(
    canvas: Canvas, view: View, pitch: float, angle: float, profile: Profile, inches: bool
) -> None:
    """The pitch from ridge to ridge above, the angle of the flanks in the groove between."""
    ends = [view.at((part * pitch, profile.top)) for part in (0.5, 1.5)]
    feet = [(x, TOP) for x, _ in ends]
    told = size(pitch, "P {}", inches=inches)
    across(canvas, feet[0], feet[1], TOP - 14, told, Tells("pitch", pitch, "mm"))
    for x, y in ends:
        canvas.line(DIMENSION, (x, TOP), (x, y))
    apex = view.at((pitch, profile.middle - pitch / 4 / tan(radians(angle))))
    radius = apex[1] - view.y(profile.middle)
    text = f"{plain(2 * angle, 'deg')}°"
    above = apex[0], apex[1] - radius - 4
    canvas.arc(
        DIMENSION, apex, radius, 90 - angle, 90 + angle, Tells("thread_angle", 2 * angle, "deg")
    )
    canvas.write(text, *above, "middle")


def pitch_texts(thread: Thread) -> tuple[str, str]:
    """The pitch in both systems; of an inch thread as threads per inch."""
    if not thread.in_inches:
        return millimetres(thread.pitch)
    per_inch = f"{round(thread.threads_per_inch, 6):g} threads per inch"
    return per_inch, write_quantity(thread.pitch, unit("mm"))
