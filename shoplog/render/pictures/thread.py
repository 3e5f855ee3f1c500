"""A thread as a picture: two pitches of its profile to scale, its diameters and its angle."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import radians, tan

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    FALLING,
    OUTLINE,
    PHANTOM,
    RISING,
    THIN,
    TINT,
    Canvas,
    LineKind,
    Point,
    Tells,
    across,
    limits,
    millimetres,
    picture,
    plain,
    spread,
)
from shoplog.trade.screw_threads.tapping import TapDrill
from shoplog.trade.screw_threads.thread_limits import ThreadLimits
from shoplog.trade.screw_threads.thread_profile import PITCHES, ROUNDED, Profile, nut_of, screw_of
from shoplog.trade.screw_threads.thread_record import INCH, Thread
from shoplog.units import unit, write_quantity

__all__ = ["draw_tap_drill", "draw_thread", "draw_thread_limits"]

LEFT, WIDE = 10.0, 190.0
RIGHT = LEFT + WIDE
LABELS = RIGHT + 20
SOLID = 26.0
"""Of each part, drawn beyond its thread."""
TOP = 34.0
TAPER_LEFT_OUT = "drawn at the gauge plane, without its taper of 1:{:g}"


@dataclass(frozen=True, slots=True)
class _View:
    """Turns places of the profile, in mm, into places of the picture; one scale both ways."""

    scale: float
    outermost: float
    """Radius that is highest in the picture."""
    top: float

    def y(self, radius: float) -> float:
        return self.top + (self.outermost - radius) * self.scale

    def at(self, place: Point) -> Point:
        return LEFT + place[0] * self.scale, self.y(place[1])


@dataclass(frozen=True, slots=True)
class _Diameter:
    """A diameter that is told: its field, its symbol by ISO 5408, its name, and the line's kind."""

    field: str
    symbol: str
    name: str
    value: float
    kind: LineKind = THIN


def _view(pitch: float, profiles: Iterable[Profile]) -> _View:
    return _View(WIDE / (PITCHES * pitch), max(one.top for one in profiles), TOP + SOLID)


@pictured(
    Thread, "a thread", "two pitches of its profile, to scale; the axis lies far below the picture"
)
def draw_thread(thread: Thread, anchor: str) -> Html:
    """The basic profile of a thread: of the screw, of the nut, or of both in each other."""
    canvas = Canvas(anchor)
    screw = None if thread.side == "internal" else screw_of(thread)
    nut = None if thread.side == "external" else nut_of(thread)
    view = _view(thread.pitch, [one for one in (screw, nut) if one])
    _parts(canvas, view, screw, nut)
    diameters = [*_diameters(thread, screw is not None, nut is not None)]
    shown = screw or nut_of(thread)
    _pitch_and_angle(canvas, view, thread.pitch, thread.flank_angle, shown, thread.in_inches)
    _told_diameters(canvas, view, diameters, thread.in_inches)
    _taper(canvas, thread)
    rows = [*_rows(thread, diameters)]
    return picture(canvas, f"Profile of {thread.designation}", f"{thread.describe()}.", rows)


def _parts(canvas: Canvas, view: _View, screw: Profile | None, nut: Profile | None) -> None:
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


def _diameters(thread: Thread, screw: bool, nut: bool) -> Iterator[_Diameter]:
    both = screw and nut
    inner = thread.internal_major_diameter
    if nut and inner != thread.major:
        name = "major diameter, nut"
        yield _Diameter("internal_major_diameter", "D4", name, inner)
    if screw or inner == thread.major:
        symbol = "d" if screw else "D"
        yield _Diameter("major", symbol, "major diameter", thread.major)
    symbol = "d2" if screw else "D2"
    yield _Diameter("pitch_diameter", symbol, "pitch diameter", thread.pitch_diameter, CENTRE)
    if nut:
        name = "minor diameter, nut" if both else "minor diameter"
        yield _Diameter("minor_diameter", "D1", name, thread.minor_diameter)
    if screw and not (both and thread.root_diameter == thread.minor_diameter):
        name = "minor diameter at the root"
        yield _Diameter("root_diameter", "d3", name, thread.root_diameter)


def _told_diameters(
    canvas: Canvas, view: _View, diameters: Sequence[_Diameter], inches: bool
) -> None:
    """A line at each diameter, and its size at the right, clear of the others."""
    heights = [view.y(one.value / 2) for one in diameters]
    for one, y, label in zip(diameters, heights, spread(heights, 15), strict=True):
        tells = Tells(one.field, one.value, "mm")
        canvas.line(one.kind, (LEFT - 4, y), (RIGHT + 4, y), tells=tells)
        canvas.line(DIMENSION, (RIGHT + 4, y), (LABELS - 2, label))
        canvas.write(f"{one.symbol} {_size(one.value, inches)}", LABELS, label + 4)


def _size(length: float, inches: bool) -> str:
    return f"{plain(length / INCH, 'in')} in" if inches else plain(length)


def _pitch_and_angle(
    canvas: Canvas, view: _View, pitch: float, angle: float, profile: Profile, inches: bool
) -> None:
    """The pitch from ridge to ridge above, the angle of the flanks in the groove between."""
    ends = [view.at((part * pitch, profile.top)) for part in (0.5, 1.5)]
    text = f"P {_size(pitch, inches)}"
    feet = [(x, TOP) for x, _ in ends]
    across(canvas, feet[0], feet[1], TOP - 14, text, Tells("pitch", pitch, "mm"))
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


def _taper(canvas: Canvas, thread: Thread) -> None:
    if thread.taper:
        canvas.note(TAPER_LEFT_OUT.format(1 / thread.taper))


def _rows(thread: Thread, diameters: Iterable[_Diameter]) -> Iterator[tuple[str, ...]]:
    for one in diameters:
        yield (f"{one.symbol}: {one.name}", *_sizes(one.value, thread.in_inches))
    yield ("P: pitch", *_pitch(thread))
    if thread.starts > 1:
        name = f"lead of {thread.starts} starts"
        yield (name, *_sizes(thread.lead, thread.in_inches))
    yield ("height of the thread", *_sizes(thread.thread_height, thread.in_inches))


def _sizes(length: float, inches: bool) -> tuple[str, ...]:
    both = millimetres(length)
    return both[::-1] if inches else both


def _pitch(thread: Thread) -> tuple[str, str]:
    if not thread.in_inches:
        return millimetres(thread.pitch)
    per_inch = f"{round(thread.threads_per_inch, 6):g} threads per inch"
    return per_inch, write_quantity(thread.pitch, unit("mm"))


# ---- the drill ----------------------------------------------------------------------------------


@pictured(TapDrill, "a tap drill", "the thread that the drill leaves, in two pitches to scale")
def draw_tap_drill(found: TapDrill, anchor: str) -> Html:
    """The internal thread cut into a hole of the drill chosen, beside its basic profile."""
    thread, drill = found.thread, found.drill.diameter
    basic = nut_of(thread)
    drop = thread.taper * thread.gauge_length / 2  # of a taper thread, to its small end
    left = Profile(
        thread.pitch, thread.flank_angle, basic.top - drop, basic.middle - drop, drill / 2,
        basic.round_top,
    )  # fmt: skip
    canvas = Canvas(anchor)
    view = _view(thread.pitch, [left])
    edge = [view.at(place) for place in left.line()]
    canvas.area(FALLING, *edge, (RIGHT, TOP), (LEFT, TOP))
    canvas.line(OUTLINE, *edge, tells=Tells("nut_profile", thread.pitch, "mm"))
    _pitch_and_angle(canvas, view, thread.pitch, thread.flank_angle, left, thread.in_inches)
    diameters = (
        _Diameter("major", "D", "major diameter", 2 * left.top),
        _Diameter("minor_diameter", "D1", "minor diameter", 2 * (basic.bottom - drop)),
        _Diameter("drill", "drill", f"drill {found.drill.designation}", drill, PHANTOM),
    )
    _told_diameters(canvas, view, diameters, thread.in_inches)
    if thread.taper:
        canvas.note("drawn at the small end of the taper thread")
    else:
        percent = f"{found.percent:.1f} % of thread"
        middle = (LEFT + RIGHT) / 2, view.y(min(left.bottom, basic.bottom)) + 22
        canvas.write(percent, *middle, "middle", tells=Tells("percent", found.percent, "%"))
    rows = [
        *(
            (f"{one.symbol}: {one.name}", *_sizes(one.value, thread.in_inches))
            for one in diameters[:2]
        ),
        (diameters[2].name, *_sizes(drill, thread.in_inches)),
    ]
    if not thread.taper:
        rows.append(("thread left", f"{found.percent:.1f} %, asked {found.asked:g} %"))
    title = f"Drill {found.drill.designation} for {thread.designation}"
    return picture(canvas, title, f"{found.describe()}.", rows)


# ---- limits -------------------------------------------------------------------------------------


@pictured(
    ThreadLimits,
    "limits of a thread",
    "the room that the limits leave the profile, in two pitches to scale",
)
def draw_thread_limits(found: ThreadLimits, anchor: str) -> Html:
    """The profile at its most and at its least metal, with the limits of each diameter."""
    internal = found.pitch_diameter.upper > 0
    sizes = (found.major, found.pitch_diameter, found.minor_diameter)
    least = _profile_at(found.thread, *(size.min / 2 for size in sizes))
    most = _profile_at(found.thread, *(size.max / 2 for size in sizes))
    canvas = Canvas(anchor)
    view = _view(found.thread.pitch, [least, most])
    lower, upper = ([view.at(place) for place in one.line()] for one in (least, most))
    solid, low = FALLING if internal else RISING, view.y(least.bottom) + SOLID
    body = [*upper, (RIGHT, TOP), (LEFT, TOP)] if internal else [*lower, (RIGHT, low), (LEFT, low)]
    canvas.area(solid, *body)
    canvas.area(TINT, *upper, *reversed(lower))
    pitch = found.thread.pitch
    canvas.line(OUTLINE, *lower, tells=Tells("least_profile", pitch, "mm"))
    canvas.line(OUTLINE, *upper, tells=Tells("greatest_profile", pitch, "mm"))
    canvas.reach(low)
    _pitch_and_angle(canvas, view, pitch, found.thread.flank_angle, most, found.thread.in_inches)
    _told_limits(canvas, view, found, internal)
    rows = [*_limit_rows(found)]
    title = f"Limits of {found.thread.designation} in {found.tolerance_class}"
    return picture(canvas, title, f"{found.describe()}.", rows)


def _profile_at(thread: Thread, top: float, middle: float, bottom: float) -> Profile:
    rounded = thread.family in ROUNDED
    return Profile(thread.pitch, thread.flank_angle, top, middle, bottom, rounded, rounded)


def _told_limits(canvas: Canvas, view: _View, found: ThreadLimits, internal: bool) -> None:
    """The limits of each diameter at the right: the greatest above the least."""
    inches = found.thread.in_inches
    told = (
        ("major", "D" if internal else "d", found.major),
        ("pitch_diameter", "D2" if internal else "d2", found.pitch_diameter),
        ("minor_diameter", "D1" if internal else "d1", found.minor_diameter),
    )
    wanted = [view.y((size.min + size.max) / 4) for _, _, size in told]
    for (field, symbol, size), label in zip(told, spread(wanted, 30, low=26.0), strict=True):
        kind = CENTRE if field == "pitch_diameter" else THIN
        for name, edge, at in (("max", size.max, label - 7), ("min", size.min, label + 7)):
            y = view.y(edge / 2)
            tells = Tells(f"{field}_{name}", edge, "mm")
            canvas.line(kind, (LEFT - 4, y), (RIGHT + 4, y), tells=tells)
            canvas.line(DIMENSION, (RIGHT + 4, y), (LABELS - 2, at))
            canvas.write(f"{symbol} {_size(edge, inches)}", LABELS, at + 4)


def _limit_rows(found: ThreadLimits) -> Iterator[tuple[str, ...]]:
    names = (
        ("major diameter", found.major),
        ("pitch diameter", found.pitch_diameter),
        ("minor diameter", found.minor_diameter),
    )
    for name, size in names:
        both = limits(size.min, size.max)
        yield (name, *(both[::-1] if found.thread.in_inches else both))
    yield ("pitch", *_pitch(found.thread))
