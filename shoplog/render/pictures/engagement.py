"""A screw in its tapped hole as a picture: how far it is engaged, and what gives first."""

from __future__ import annotations

from collections.abc import Iterator

from shoplog.calc.show import other_system
from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    OUTLINE,
    RISING,
    THIN,
    TINT,
    Both,
    Canvas,
    Tells,
    across,
    millimetres,
    own_first,
    per_unit,
    picture,
    plain,
    size,
    upright,
)
from shoplog.render.pictures.section import AXIS, FACE, LEFT, RIGHT, Section, section_for
from shoplog.trade.screw_threads.engagement import Engagement
from shoplog.units import convert, unit, write_quantity

__all__ = ["draw_engagement"]

ABOVE = 24.0
"""Of the screw, drawn above the face."""
BAR, ROW, LONGEST = 9.0, 30.0, 292.0


@pictured(
    Engagement, "a thread's engagement", "the screw in its hole to scale, and what each bears"
)
def draw_engagement(found: Engagement, anchor: str) -> Html:
    """The screw engaged in the hole, the least length, and the loads of the three that may give."""
    canvas = Canvas(anchor)
    deep = max(found.length, found.least)
    section = section_for(found.thread.major, deep)
    low = _hole(canvas, section, found, deep)
    _lengths(canvas, section, found)
    _loads(canvas, found, max(low, canvas.bottom - 10) + 34)
    section.tell_zoom(canvas)
    title = f"{found.thread.designation} engaged by {plain(found.length)} mm"
    return picture(canvas, title, found.describe(), _rows(found))


def _hole(canvas: Canvas, section: Section, found: Engagement, deep: float) -> float:
    """The hole's metal up to the screw, and the screw, its crest wide and its root narrow."""
    crest, root, minor = (
        section.at(diameter / 2, 0.0)[0] - AXIS
        for diameter in (
            found.thread.major, found.thread.root_diameter, found.thread.minor_diameter,
        )
    )  # fmt: skip
    face, end = FACE + ABOVE, section.at(0.0, found.length)[1] + ABOVE
    low = max(section.at(0.0, deep)[1] + ABOVE, end) + 14
    for side, edge in ((1, RIGHT), (-1, LEFT)):
        wall, inner, hole = AXIS + side * crest, AXIS + side * root, AXIS + side * minor
        canvas.area(RISING, (edge, face), (wall, face), (wall, end), (hole, end), (hole, low),
                    (edge, low))  # fmt: skip
        canvas.line(OUTLINE, (edge, face), (wall, face))
        told = Tells("major", found.thread.major, "mm") if side > 0 else None
        canvas.line(OUTLINE, (wall, FACE), (wall, end), tells=told)
        canvas.line(THIN, (inner, FACE), (inner, end))
        # Below the screw the hole shows its own thread: the crest wide, the root narrow.
        canvas.line(OUTLINE, (hole, end), (hole, low))
        canvas.line(THIN, (wall, end), (wall, low))
    canvas.line(OUTLINE, (AXIS - crest, end), (AXIS + crest, end))
    canvas.line(CENTRE, (AXIS, FACE - 6), (AXIS, low + 2))
    canvas.reach(low)
    return low


def _lengths(canvas: Canvas, section: Section, found: Engagement) -> None:
    crest = found.thread.major / 2
    ends = section.at(-crest, 0.0)[0], section.at(crest, 0.0)[0]
    across(canvas, (ends[0], FACE), (ends[1], FACE), FACE - 14, found.thread.designation)
    sizes = (
        ("length", found.length, LEFT - 30, LEFT, ends[0], "{}"),
        ("least", found.least, RIGHT + 32, RIGHT, ends[1], "{} least"),
    )
    for name, length, x, face, foot, around in sizes:
        y = section.at(0.0, length)[1] + ABOVE
        told = Tells(name, length, "mm")
        text = size(length, around, inches=found.thread.in_inches)
        upright(canvas, (face, FACE + ABOVE), (foot, y), x, text, told, beside="turned")


def _loads(canvas: Canvas, found: Engagement, top: float) -> None:
    """A bar for each load, on one scale."""
    loads = _told(found)
    scale = per_unit(LONGEST, max(load for _, load, _ in loads))
    inches = found.thread.in_inches
    first = min(loads, key=lambda load: load[1])[0]
    for row, (name, load, field) in enumerate(loads):
        y = top + row * ROW
        strong = name == first
        canvas.write(name, 4, y - 4, strong=strong)
        text = Both(*own_first(f"{load:.3g} kN", _pounds(load), inches), inches)
        canvas.write(text, canvas.width - 4, y - 4, "end", strong=strong)
        wide = load * scale
        corners = (6.0, y), (6.0 + wide, y), (6.0 + wide, y + BAR), (6.0, y + BAR)
        if strong:
            canvas.area(TINT, *corners)
        canvas.line(OUTLINE, *corners, closed=True, tells=Tells(field, load, "kN"))
    canvas.line(DIMENSION, (6, top - 16), (6, top + 2 * ROW + BAR + 4))


def _told(found: Engagement) -> tuple[tuple[str, float, str], ...]:
    return (
        ("the screw breaks", found.breaking_load, "breaking_load"),
        ("the screw's thread strips", found.screw_strips_at, "screw_strips_at"),
        ("the hole's thread strips", found.hole_strips_at, "hole_strips_at"),
    )


def _pounds(load: float) -> str:
    """A load in kN, in the other system."""
    metric, inch = other_system(unit("N"))
    return write_quantity(convert(1000 * load, metric, inch), inch)


def _rows(found: Engagement) -> Iterator[tuple[str, ...]]:
    inches = found.thread.in_inches
    yield ("full thread engaged", *millimetres(found.length, inches=inches))
    yield ("least for the screw to break first", *millimetres(found.least, inches=inches))
    for name, load, _ in _told(found):
        yield (name, *own_first(f"{load:.1f} kN", _pounds(load), inches))
    yield ("what gives first", found.gives_first)
