"""Marks of setups in a chart: each outcome has a shape of its own, and a colour beside it."""

from __future__ import annotations

from shoplog.outcomes import OUTCOMES
from shoplog.render.pictures.parts import Canvas, Fill, Point, Tells, circle, lines

__all__ = ["MARK", "NOT_TOLD", "draw_mark", "known_outcome"]

MARK = 4.2
"""Half the width of a mark."""
NOT_TOLD = "not told"


def known_outcome(outcome: str) -> str:
    """The outcome, or that none is told."""
    return outcome if outcome in OUTCOMES else NOT_TOLD


def draw_mark(canvas: Canvas, outcome: str, at: Point, tells: Tells | None = None) -> None:
    """A setup by how it went: each outcome has a shape of its own, and a colour beside it."""
    outcome = known_outcome(outcome)
    x, y = at
    r = MARK
    around = ((x - r, y - r), (x + r, y + r))
    name = f"went-{outcome.replace(' ', '-')}"
    canvas.region(Fill(name), _SHAPES[outcome](x, y, r), around, tells, front=True)


def _polygon(x: float, y: float, *points: Point) -> str:
    return lines(((x + across, y + down) for across, down in points), closed=True)


def _disc(x: float, y: float, r: float) -> str:
    return circle((x, y), r)


def _ring(x: float, y: float, r: float) -> str:
    return circle((x, y), r) + circle((x, y), r - 1.6)


def _diamond(x: float, y: float, r: float) -> str:
    """Empty, with a thick edge."""
    outer, inner = r + 1.0, r - 1.6
    return "".join(
        _polygon(x, y, (0, -size), (size, 0), (0, size), (-size, 0)) for size in (outer, inner)
    )


def _cross(x: float, y: float, r: float) -> str:
    """A saltire with thick arms."""
    arm, waist = r * 0.42, r
    return _polygon(
        x, y,
        (-waist, -waist + arm), (-waist + arm, -waist), (0, -arm), (waist - arm, -waist),
        (waist, -waist + arm), (arm, 0), (waist, waist - arm), (waist - arm, waist), (0, arm),
        (-waist + arm, waist), (-waist, waist - arm), (-arm, 0),
    )  # fmt: skip


def _triangle(x: float, y: float, r: float) -> str:
    return _polygon(x, y, (0, -r - 0.6), (r + 0.6, r), (-r - 0.6, r))


_SHAPES = {
    "good": _disc,
    "usable": _diamond,
    "poor": _cross,
    "spoiled": _triangle,
    NOT_TOLD: _ring,
}
