"""A tap drill as a picture: the thread that is left in the hole that it drills."""

from __future__ import annotations

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    FALLING,
    OUTLINE,
    PHANTOM,
    Canvas,
    Tells,
    millimetres,
    picture,
)
from shoplog.render.pictures.thread_view import (
    LEFT,
    RIGHT,
    TOP,
    Diameter,
    pitch_and_angle,
    told_diameters,
    view_of,
)
from shoplog.trade.screw_threads.tapping import TapDrill
from shoplog.trade.screw_threads.thread_profile import Profile, nut_of

__all__ = ["draw_tap_drill"]


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
    view = view_of(thread.pitch, [left])
    edge = [view.at(place) for place in left.line()]
    canvas.area(FALLING, *edge, (RIGHT, TOP), (LEFT, TOP))
    canvas.line(OUTLINE, *edge, tells=Tells("nut_profile", thread.pitch, "mm"))
    pitch_and_angle(canvas, view, thread.pitch, thread.flank_angle, left, thread.in_inches)
    diameters = (
        Diameter("major", "D", "major diameter", 2 * left.top),
        Diameter("minor_diameter", "D1", "minor diameter", 2 * (basic.bottom - drop)),
        Diameter("drill", "drill", f"drill {found.drill.designation}", drill, PHANTOM),
    )
    told_diameters(canvas, view, diameters, thread.in_inches)
    if thread.taper:
        canvas.note("drawn at the small end of the taper thread")
    else:
        percent = f"{found.percent:.1f} % of thread"
        middle = (LEFT + RIGHT) / 2, view.y(min(left.bottom, basic.bottom)) + 22
        canvas.write(percent, *middle, "middle", tells=Tells("percent", found.percent, "%"))
    rows: list[tuple[str, ...]] = [
        *(
            (f"{one.symbol}: {one.name}", *millimetres(one.value, inches=thread.in_inches))
            for one in diameters[:2]
        ),
        (diameters[2].name, *millimetres(drill, inches=thread.in_inches)),
    ]
    if not thread.taper:
        rows.append(("thread left", f"{found.percent:.1f} %, asked {found.asked:g} %"))
    title = f"Drill {found.drill.designation} for {thread.designation}"
    return picture(canvas, title, f"{found.describe()}.", rows)
