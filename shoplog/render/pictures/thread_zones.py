"""The limits of a thread as a picture: the room that they leave its profile."""

from __future__ import annotations

from collections.abc import Iterator

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    FALLING,
    OUTLINE,
    RISING,
    THIN,
    TINT,
    Canvas,
    Tells,
    limit_sizes,
    limits,
    picture,
    spread,
)
from shoplog.render.pictures.thread_view import (
    LABELS,
    LEFT,
    RIGHT,
    SOLID,
    TOP,
    View,
    pitch_and_angle,
    pitch_texts,
    view_of,
)
from shoplog.trade.screw_threads.thread_limits import ThreadLimits
from shoplog.trade.screw_threads.thread_profile import ROUNDED, Profile
from shoplog.trade.screw_threads.thread_record import Thread

__all__ = ["draw_thread_limits"]


@pictured(
    ThreadLimits,
    "limits of a thread",
    "the room that the limits leave the profile, in two pitches to scale",
)
def draw_thread_limits(found: ThreadLimits, anchor: str) -> Html:
    """The profile at its most and at its least metal, with the limits of each diameter."""
    internal = found.pitch_diameter.upper > 0
    sizes = (found.major, found.pitch_diameter, found.minor_diameter)
    least = _profile_at(found.thread, *(zone.min / 2 for zone in sizes))
    most = _profile_at(found.thread, *(zone.max / 2 for zone in sizes))
    canvas = Canvas(anchor)
    view = view_of(found.thread.pitch, [least, most])
    lower, upper = ([view.at(place) for place in one.line()] for one in (least, most))
    solid, low = FALLING if internal else RISING, view.y(least.bottom) + SOLID
    body = [*upper, (RIGHT, TOP), (LEFT, TOP)] if internal else [*lower, (RIGHT, low), (LEFT, low)]
    canvas.area(solid, *body)
    canvas.area(TINT, *upper, *reversed(lower))
    pitch = found.thread.pitch
    canvas.line(OUTLINE, *lower, tells=Tells("least_profile", pitch, "mm"))
    canvas.line(OUTLINE, *upper, tells=Tells("greatest_profile", pitch, "mm"))
    canvas.reach(low)
    pitch_and_angle(canvas, view, pitch, found.thread.flank_angle, most, found.thread.in_inches)
    _told_limits(canvas, view, found, internal)
    rows = [*_limit_rows(found)]
    title = f"Limits of {found.thread.designation} in {found.tolerance_class}"
    return picture(canvas, title, f"{found.describe()}.", rows)


def _profile_at(thread: Thread, top: float, middle: float, bottom: float) -> Profile:
    rounded = thread.family in ROUNDED
    return Profile(thread.pitch, thread.flank_angle, top, middle, bottom, rounded, rounded)


def _told_limits(canvas: Canvas, view: View, found: ThreadLimits, internal: bool) -> None:
    """The limits of each diameter at the right: the greatest above the least."""
    inches = found.thread.in_inches
    told = (
        ("major", "D" if internal else "d", found.major),
        ("pitch_diameter", "D2" if internal else "d2", found.pitch_diameter),
        ("minor_diameter", "D1" if internal else "d1", found.minor_diameter),
    )
    wanted = [view.y((zone.min + zone.max) / 4) for _, _, zone in told]
    for (field, symbol, zone), label in zip(told, spread(wanted, 30, low=26.0), strict=True):
        kind = CENTRE if field == "pitch_diameter" else THIN
        lower, upper = limit_sizes(zone.min, zone.max, f"{symbol} {{}}", inches=inches)
        edges = ("max", zone.max, upper, label - 7), ("min", zone.min, lower, label + 7)
        for name, edge, text, at in edges:
            y = view.y(edge / 2)
            tells = Tells(f"{field}_{name}", edge, "mm")
            canvas.line(kind, (LEFT - 4, y), (RIGHT + 4, y), tells=tells)
            canvas.line(DIMENSION, (RIGHT + 4, y), (LABELS - 2, at))
            canvas.write(text, LABELS, at + 4)


def _limit_rows(found: ThreadLimits) -> Iterator[tuple[str, ...]]:
    names = (
        ("major diameter", found.major),
        ("pitch diameter", found.pitch_diameter),
        ("minor diameter", found.minor_diameter),
    )
    for name, zone in names:
        yield (name, *limits(zone.min, zone.max, inches=found.thread.in_inches))
    yield ("pitch", *pitch_texts(found.thread))
