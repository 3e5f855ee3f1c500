"""A thread as a picture: two pitches of its profile to scale, its diameters and its angle."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    FALLING,
    OUTLINE,
    RISING,
    Canvas,
    Tells,
    millimetres,
    picture,
)
from shoplog.render.pictures.thread_view import (
    LEFT,
    RIGHT,
    SOLID,
    TOP,
    Diameter,
    View,
    pitch_and_angle,
    pitch_texts,
    told_diameters,
    view_of,
)
from shoplog.trade.screw_threads.thread_profile import Profile, nut_of, screw_of
from shoplog.trade.screw_threads.thread_record import Thread

__all__ = ["draw_thread"]

TAPER_LEFT_OUT = "drawn at the gauge plane, without its taper of 1:{:g}"


@pictured(
    Thread, "a thread", "two pitches of its profile, to scale; the axis lies far below the picture"
)
def draw_thread(thread: Thread, anchor: str) -> Html:
    """The basic profile of a thread: of the screw, of the nut, or of both in each other."""
    canvas = Canvas(anchor)
    screw = None if thread.side == "internal" else screw_of(thread)
    nut = None if thread.side == "external" else nut_of(thread)
    view = view_of(thread.pitch, [one for one in (screw, nut) if one])
    _parts(canvas, view, screw, nut)
    diameters = [*_diameters(thread, screw is not None, nut is not None)]
    shown = screw or nut_of(thread)
    pitch_and_angle(canvas, view, thread.pitch, thread.flank_angle, shown, thread.in_inches)
    told_diameters(canvas, view, diameters, thread.in_inches)
    _taper(canvas, thread)
    rows = [*_rows(thread, diameters)]
    return picture(canvas, f"Profile of {thread.designation}", f"{thread.describe()}.", rows)


def _parts(canvas: Canvas, view: View, screw: Profile | None, nut: Profile | None) -> None:
    """The screw below, the nut above."""
    low = view.y(min(one.bottom for one in (screw, nut) if one)) + SOLID
    if nut:
        edge = [view.at(place) for place in nut.line()]
        canvas.area(FALLING, *edge, (RIGHT, TOP), (LEFT, TOP))
        canvas.line(OUTLINE, *edge, tells=Tells("nut_profile", nut.pitch, "mm"))
    if screw:
        edge = [view.at(place) for place in screw.line()]
        canvas.area(RISING, *edge, (RIGHT, low), (LEFT, low))
        canvas.line(OUTLINE, *edge, tells=Tells("screw_profile", screw.pitch, "mm"))
    canvas.reach(low)


def _diameters(thread: Thread, screw: bool, nut: bool) -> Iterator[Diameter]:
    both = screw and nut
    inner = thread.internal_major_diameter
    if nut and inner != thread.major:
        name = "major diameter, nut"
        yield Diameter("internal_major_diameter", "D4", name, inner)
    if screw or inner == thread.major:
        symbol = "d" if screw else "D"
        yield Diameter("major", symbol, "major diameter", thread.major)
    symbol = "d2" if screw else "D2"
    yield Diameter("pitch_diameter", symbol, "pitch diameter", thread.pitch_diameter, CENTRE)
    if nut:
        name = "minor diameter, nut" if both else "minor diameter"
        yield Diameter("minor_diameter", "D1", name, thread.minor_diameter)
    if screw and not (both and thread.root_diameter == thread.minor_diameter):
        name = "minor diameter at the root"
        yield Diameter("root_diameter", "d3", name, thread.root_diameter)


def _taper(canvas: Canvas, thread: Thread) -> None:
    if thread.taper:
        canvas.note(TAPER_LEFT_OUT.format(1 / thread.taper))


def _rows(thread: Thread, diameters: Iterable[Diameter]) -> Iterator[tuple[str, ...]]:
    inches = thread.in_inches
    for one in diameters:
        yield (f"{one.symbol}: {one.name}", *millimetres(one.value, inches=inches))
    yield ("P: pitch", *pitch_texts(thread))
    if thread.starts > 1:
        name = f"lead of {thread.starts} starts"
        yield (name, *millimetres(thread.lead, inches=inches))
    yield ("height of the thread", *millimetres(thread.thread_height, inches=inches))
