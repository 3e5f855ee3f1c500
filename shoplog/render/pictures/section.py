"""A hole in section, as ISO 128-3 and ISO 6410-1 have it: hatched metal beside the axis.

The wall is given by what it is at each depth; the hatching stops at the wide line of the wall,
which in a tapped hole is the crest of its thread.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shoplog.render.pictures.parts import (
    CENTRE,
    OUTLINE,
    RISING,
    Canvas,
    Point,
    Tells,
)

__all__ = ["Section", "section_for"]

AXIS = 156.0
LEFT, RIGHT = 78.0, 234.0
"""Where the metal is broken off."""
FACE = 34.0
WIDEST, NARROWEST = 108.0, 34.0
"""Units that the greatest diameter is drawn over."""
DEEPEST, SHALLOWEST = 210.0, 70.0
FLOOR = 20.0
"""Metal drawn below the hole."""


@dataclass(frozen=True, slots=True)
class Section:
    """Where a hole's places go: its scale along the depth and across, equal but for extremes."""

    down: float
    across: float

    @property
    def zoom(self) -> float:
        """How many times wider than deep it is drawn."""
        return self.across / self.down

    def at(self, radius: float, depth: float) -> Point:
        """A place by its distance from the axis (to the right) and its depth from the face."""
        return AXIS + radius * self.across, FACE + depth * self.down

    def wall(
        self, canvas: Canvas, steps: Sequence[tuple[float, float]], tells: Tells | None = None
    ) -> None:
        """The hole's wall by (radius, depth) from the face to the axis, and the metal beside it."""
        right = [self.at(radius, depth) for radius, depth in steps]
        left = [self.at(-radius, depth) for radius, depth in reversed(steps)]
        low = max(y for _, y in right) + FLOOR
        canvas.area(RISING, (RIGHT, FACE), *right, *left, (LEFT, FACE), (LEFT, low), (RIGHT, low))
        canvas.line(OUTLINE, (LEFT, FACE), left[-1])
        canvas.line(OUTLINE, right[0], (RIGHT, FACE))
        canvas.line(OUTLINE, *right, *left, tells=tells)
        canvas.line(CENTRE, (AXIS, FACE - 8), (AXIS, low + 2))

    def edge(self, canvas: Canvas, radius: float, depth: float, tells: Tells | None = None) -> None:
        """An edge across the hole, seen beyond the section."""
        canvas.line(OUTLINE, self.at(-radius, depth), self.at(radius, depth), tells=tells)

    def tell_zoom(self, canvas: Canvas) -> None:
        """Say so where it is not drawn to one scale."""
        if self.zoom > 1.005:
            canvas.note(f"widths are drawn {self.zoom:.3g} times as large as depths")
        elif self.zoom < 0.995:
            canvas.note(f"depths are drawn {1 / self.zoom:.3g} times as large as widths")


def section_for(diameter: float, depth: float) -> Section:
    """The scale for a hole's greatest diameter and its depth, in mm; one, if it can be."""
    scale = min(WIDEST / diameter, DEEPEST / depth)
    across = max(scale, NARROWEST / diameter)
    down = max(scale, SHALLOWEST / depth)
    return Section(down, across)
