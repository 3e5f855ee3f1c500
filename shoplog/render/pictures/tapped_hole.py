"""A blind tapped hole in section, after ISO 6410-1: narrow lines for the root, wide ones inside."""

from __future__ import annotations

from collections.abc import Iterator

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    THIN,
    Canvas,
    Tells,
    across,
    leader,
    millimetres,
    picture,
    size,
    upright,
)
from shoplog.render.pictures.section import AXIS, FACE, LEFT, RIGHT, Section, section_for
from shoplog.trade.screw_threads.tapped_holes import TappedHole

__all__ = ["draw_tapped_hole"]

COLUMNS = {"full_thread": 52.0, "tap_depth": 22.0, "drill_depth": 264.0, "tip_depth": 296.0}
"""Where each depth is told, left and right of the hole."""


@pictured(TappedHole, "a tapped hole", "the hole in section, to scale")
def draw_tapped_hole(hole: TappedHole, anchor: str) -> Html:
    """Full thread, its runout, the room below and the drill's point, each with its depth."""
    canvas = Canvas(anchor)
    section = section_for(hole.thread.major, hole.tip_depth)
    drilled = [(hole.drill / 2, 0.0), (hole.drill / 2, hole.drill_depth), (0.0, hole.tip_depth)]
    section.wall(canvas, drilled, Tells("drill", hole.drill, "mm"))
    section.edge(canvas, hole.drill / 2, hole.drill_depth)
    _thread(canvas, section, hole)
    _depths(canvas, section, hole)
    _diameters(canvas, section, hole)
    section.tell_zoom(canvas)
    return picture(canvas, f"Tapped hole {hole.thread.designation}", hole.describe(), _rows(hole))


def _thread(canvas: Canvas, section: Section, hole: TappedHole) -> None:
    """The thread's root as narrow lines, its end across, and the incomplete threads slanting."""
    root, crest = hole.thread.internal_major_diameter / 2, hole.drill / 2
    for side in (-1, 1):
        full = section.at(side * root, hole.full_thread)
        major = Tells("major", hole.thread.major, "mm") if side > 0 else None
        canvas.line(THIN, section.at(side * root, 0.0), full, tells=major)
        canvas.line(THIN, full, section.at(side * crest, hole.tap_depth))
    section.edge(canvas, root, hole.full_thread, Tells("thread_end", hole.full_thread, "mm"))


def _depths(canvas: Canvas, section: Section, hole: TappedHole) -> None:
    crest, root = hole.drill / 2, hole.thread.internal_major_diameter / 2
    from_axis = {
        "full_thread": -root, "tap_depth": -crest, "drill_depth": crest, "tip_depth": 0.0,
    }  # fmt: skip
    inches = hole.thread.in_inches
    for name, x in COLUMNS.items():
        depth: float = getattr(hole, name)
        foot = section.at(from_axis[name], depth)
        face = (LEFT if x < AXIS else RIGHT), FACE
        upright(canvas, face, foot, x, size(depth, inches=inches), Tells(name, depth, "mm"))


def _diameters(canvas: Canvas, section: Section, hole: TappedHole) -> None:
    """The thread above the face; the drill, on its wall below the thread."""
    root = hole.thread.internal_major_diameter / 2
    ends = section.at(-root, 0.0), section.at(root, 0.0)
    across(canvas, *ends, FACE - 14, hole.thread.designation)
    bottom = section.at(0.0, hole.tip_depth)[1]
    tip = section.at(hole.drill / 2, (hole.tap_depth + hole.drill_depth) / 2)
    text = size(hole.drill, "Ø{} drill", inches=hole.thread.in_inches)
    leader(canvas, tip, (tip[0] + 14, bottom + 34), text)


def _rows(hole: TappedHole) -> Iterator[tuple[str, ...]]:
    sizes = (
        ("full thread", hole.full_thread),
        (f"runout of the {hole.tap} tap", hole.lead),
        ("to the end of the tap", hole.tap_depth),
        ("room below it", hole.room),
        ("drill, to its full diameter", hole.drill_depth),
        ("drill, to its tip", hole.tip_depth),
        ("drill", hole.drill),
    )
    for name, length in sizes:
        yield (name, *millimetres(length, inches=hole.thread.in_inches))
