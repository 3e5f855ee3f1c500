"""Roughness as a picture: the marks that a rounded edge leaves at its feed, Rt and Ra.

Along the feed it is to scale; heights are drawn larger, by a factor that is told.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor, isclose, log10, sqrt

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    HIDDEN,
    OUTLINE,
    RISING,
    THIN,
    TINT,
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
from shoplog.trade.machining.finish_record import Finish

__all__ = ["Marks", "draw_finish", "marks_of"]

MARKS = 4
STEPS = 12
"""Of each arc."""
LEFT, WIDE, PEAK, MOST_TALL, SOLID = 12.0, 208.0, 56.0, 76.0, 34.0
MICROMETRES_PER_MM = 1000.0
DIGITS = 3
"""Of a height: more no one can measure."""


@dataclass(frozen=True, slots=True)
class Marks:
    """The shape that left the marks, in mm: an arc of a radius, and the flat between two arcs.

    A radius of 0 is a point, which leaves a saw-tooth.
    """

    spacing: float
    radius: float
    flat: float
    height: float

    def height_at(self, along: float) -> float:
        """The height over the valleys, at a place from a valley's middle, within half a spacing."""
        if not self.radius:
            return 2 * self.height * abs(along) / self.spacing
        out = max(abs(along) - self.flat / 2, 0.0)
        return out**2 / (self.radius + sqrt(max(self.radius**2 - out**2, 0.0)))

    @property
    def mean(self) -> float:
        """The mean line's height over the valleys."""
        count = 2000
        places = ((step + 0.5) / count * self.spacing / 2 for step in range(count))
        return sum(map(self.height_at, places)) / count


def marks_of(found: Finish) -> Marks | None:
    """The shape behind a finish; nothing where its edge covers the marks and no height is left.

    A finish keeps the heights of an arc and of the parabola in its place: the radius and the flat
    follow from the two.
    """
    height, parabola = found.rt / MICROMETRES_PER_MM, found.parabolic_rt / MICROMETRES_PER_MM
    if not height:
        return None
    if found.rt == found.parabolic_rt and isclose(found.ra, found.rt / 4):
        return Marks(found.spacing, 0.0, 0.0, height)
    half = found.spacing / 2
    radius = (half**2 + height**2) / (2 * height)
    if isclose(half**2 / (2 * radius), parabola, rel_tol=1e-9):
        return Marks(found.spacing, radius, 0.0, height)
    radius = height**2 / (2 * (height - parabola))
    return Marks(found.spacing, radius, found.spacing - sqrt(8 * radius * parabola), height)


@pictured(Finish, "a finish", "the marks of the edge by geometry alone, to scale along the feed")
def draw_finish(found: Finish, anchor: str) -> Html | None:
    """The marks of the feed with Rt, the mean line and Ra; nothing where no mark is left."""
    marks = marks_of(found)
    if marks is None:
        return None
    along = WIDE / (MARKS * marks.spacing)
    larger = _larger(MOST_TALL / (marks.height * along))
    up = along * larger
    canvas = Canvas(anchor)
    valley = PEAK + marks.height * up
    edge = [(LEFT + x * along, valley - y * up) for x, y in _profile(marks)]
    low = valley + SOLID
    canvas.area(RISING, *edge, (LEFT + WIDE, low), (LEFT, low))
    canvas.line(OUTLINE, *edge, tells=Tells("profile", marks.spacing, "mm"))
    canvas.reach(low)
    mean = valley - marks.mean * up
    _average(canvas, edge, mean, found)
    _heights(canvas, found, valley, mean, found.ra / MICROMETRES_PER_MM * up)
    first = LEFT + WIDE / MARKS
    peaks = (first, PEAK), (first + WIDE / MARKS, PEAK)
    across(canvas, *peaks, PEAK - 22, size(marks.spacing), Tells("spacing", marks.spacing, "mm"))
    if larger != 1:
        times = f"{larger:g} times" if larger > 1 else f"{larger:g} of"
        canvas.note(f"heights are drawn {times} their size along the feed")
    if not marks.radius:
        canvas.note("each tooth is drawn even; the angles of the tool make it lean")
    rows = [*_rows(found, marks)]
    return picture(canvas, f"Marks {plain(marks.spacing)} mm apart", f"{found.describe()}.", rows)


def _larger(most: float) -> float:
    """A round factor, 1, 2 or 5 of a power of ten, at most one that fits."""
    ten = 10.0 ** floor(log10(most))
    return float(f"{max(step * ten for step in (1, 2, 5) if step * ten <= most * (1 + 1e-9)):.3g}")


def _profile(marks: Marks) -> Iterator[Point]:
    """Place and height over some marks, from peak to peak."""
    for mark in range(MARKS):
        for step in range(STEPS + 1):
            off = (step / STEPS - 0.5) * marks.spacing
            if step or not mark:  # a peak belongs to two marks
                yield (mark + 0.5) * marks.spacing + off, marks.height_at(off)


def _average(canvas: Canvas, edge: list[Point], mean: float, found: Finish) -> None:
    """The mean line, and tinted what lies off it: Ra is its average height."""
    off = [*((x, min(y, mean)) for x, y in edge), (edge[-1][0], mean), (edge[0][0], mean)]
    canvas.area(TINT, *off)
    canvas.line(CENTRE, (LEFT - 6, mean), (LEFT + WIDE + 6, mean), tells=Tells("mean", found.ra))


def _heights(canvas: Canvas, found: Finish, valley: float, mean: float, ra: float) -> None:
    """Rt from peak to valley, and Ra as a band to either side of the mean line, at the right."""
    right = LEFT + WIDE
    for y in (PEAK, valley):
        canvas.line(DIMENSION, (right, y), (right + 24, y))
    ends = (right + 20, PEAK), (right + 20, valley)
    text = height(found.rt, "Rt {}", digits=DIGITS)
    upright(canvas, *ends, right + 20, text, Tells("rt", found.rt, "um"), beside="right")
    for y, name in ((mean - ra, "ra_above"), (mean + ra, "ra_below")):
        canvas.line(HIDDEN, (LEFT, y), (right, y), tells=Tells(name, found.ra, "um"))
    canvas.line(THIN, (right, mean - ra), (right, mean + ra))
    told = height(found.ra, "Ra {} to either side of the mean line", digits=DIGITS)
    canvas.write(told, LEFT, valley + SOLID + 16)


def _rows(found: Finish, marks: Marks) -> Iterator[tuple[str, ...]]:
    yield ("Rt", *micrometres(found.rt))
    yield ("Ra", *micrometres(found.ra))
    yield ("roughness grade", found.grade)
    yield ("from mark to mark", *millimetres(marks.spacing))
    yield ("radius of the edge", *(millimetres(marks.radius) if marks.radius else ("a point",)))
    if marks.flat > marks.spacing * 1e-6:
        yield ("flat of the edge", *millimetres(marks.flat))
