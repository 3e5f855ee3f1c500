"""A cone from the side, for every picture of a taper: as steep as can be seen, and it says so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.render.pictures.parts import (
    CENTRE,
    DIMENSION,
    OUTLINE,
    Canvas,
    Point,
    Tells,
    lines,
    millimetres,
    plain,
)
from shoplog.trade.taper_work.tapers import Taper
from shoplog.units import degrees_minutes_seconds

__all__ = ["Cone", "angle_text", "cone_of", "taper_rows", "taper_symbol"]

LONGEST, SHORTEST = 164.0, 30.0
WIDEST, NARROWEST = 120.0, 40.0
LEAST_DROP = 9.0
"""Units that the side comes down, at the least, so that it is seen to."""
SAME = 0.01
MOST_TIMES = 1e12


@dataclass(frozen=True, slots=True)
class Cone:
    """How a cone is drawn: units of its length, its large and its small diameter."""

    left: float
    axis: float
    length: float
    large: float
    small: float
    steeper: float
    """How many times the drawn side is steeper than the real one."""
    wider: float
    """How many times the diameters are drawn larger than the lengths, where there are any."""

    @property
    def right(self) -> float:
        """Where the small end is, across the picture."""
        return self.left + self.length

    def corners(self) -> tuple[Point, Point, Point, Point]:
        """From the large end's upper corner, clockwise."""
        return (
            (self.left, self.axis - self.large / 2),
            (self.right, self.axis - self.small / 2),
            (self.right, self.axis + self.small / 2),
            (self.left, self.axis + self.large / 2),
        )

    def draw(self, canvas: Canvas) -> None:
        """Its outline and its axis, and what is not to scale."""
        canvas.line(OUTLINE, *self.corners(), closed=True)
        canvas.line(CENTRE, (self.left - 10, self.axis), (self.right + 10, self.axis))
        self.tell(canvas)

    def tell(self, canvas: Canvas) -> None:
        """Say what is not to scale."""
        by_itself = abs(self.steeper / self.wider - 1) > SAME
        if abs(self.steeper - 1) > SAME and by_itself:
            how = "steep" if self.steeper > 1 else "flat"
            times = self.steeper if self.steeper > 1 else 1 / self.steeper
            canvas.note(f"the taper is drawn {times:.3g} times as {how} as it is")
        if abs(self.wider - 1) > SAME:
            size, other = ("diameters", "lengths") if self.wider > 1 else ("lengths", "diameters")
            times = self.wider if self.wider > 1 else 1 / self.wider
            also = "" if by_itself else ", and the taper with them"
            canvas.note(f"{size} are drawn {times:.3g} times as large as {other}{also}")


def cone_of(taper: Taper, left: float, axis: float) -> Cone:
    """The cone of a taper; of one without sizes, a piece of it."""
    if taper.large_diameter is None or taper.length is None or taper.small_diameter is None:
        return _piece(taper, left, axis)
    large, length = taper.large_diameter, taper.length
    scale = min(LONGEST / length, WIDEST / large)
    across = max(scale, NARROWEST / large)
    long, wide = max(length * scale, SHORTEST), large * across
    drop = taper.ratio * length / 2 * across
    # A point stays one; else a little of the small end is left to be seen.
    most = wide / 2 if taper.small_diameter == 0 else max(drop, wide / 2 - 6)
    drawn = min(max(drop, LEAST_DROP), most)
    steeper = drawn / long / (taper.ratio / 2)
    wider = min(max(wide / large * length / long, 1 / MOST_TIMES), MOST_TIMES)
    return Cone(left, axis, long, wide, wide - 2 * drawn, steeper, wider)


def _piece(taper: Taper, left: float, axis: float) -> Cone:
    wide = 100.0
    long = min(LONGEST, max(SHORTEST, 0.7 * wide / taper.ratio))
    drop = min(max(taper.ratio * long / 2, LEAST_DROP), 0.4 * wide)
    steeper = drop / long / (taper.ratio / 2)
    return Cone(left, axis, long, wide, wide - 2 * drop, steeper, 1.0)


def taper_symbol(canvas: Canvas, cone: Cone, taper: Taper) -> None:
    """The rate of taper on a line to the side; the sign of ISO 3040 points to the small end."""
    part = 0.35
    drop = (cone.large - cone.small) / 2
    tip = cone.left + part * cone.length, cone.axis - cone.large / 2 + part * drop
    y = cone.axis - cone.large / 2 - 18
    x = tip[0] - 12
    text = f"1:{taper.one_in:.6g}"
    canvas.line(DIMENSION, tip, (x, y), (x + 90, y))
    sign = (x + 4, y - 11), (x + 4, y - 3), (x + 20, y - 7)
    canvas.path(DIMENSION, lines(sign, closed=True), sign)
    canvas.write(text, x + 25, y - 3, tells=Tells("one_in", taper.one_in))


def angle_text(degrees: float) -> str:
    """An angle to the second of arc, or to more where that is nothing."""
    return degrees_minutes_seconds(degrees) if degrees * 3600 >= 1 else f"{plain(degrees, 'deg')}°"


def taper_rows(taper: Taper) -> Iterator[tuple[str, ...]]:
    """The rows of a key that every taper has."""
    yield ("taper, on diameter", f"1:{taper.one_in:.6g}", f"{taper.taper_per_foot:.4f} in/ft")
    half, whole = taper.half_angle, taper.included_angle
    yield ("half-angle, to the axis", f"{plain(half, 'deg')}°", angle_text(half))
    yield ("included angle", f"{plain(whole, 'deg')}°", angle_text(whole))
    sizes = (
        ("large diameter", taper.large_diameter),
        ("small diameter", taper.small_diameter),
        ("length", taper.length),
    )
    for name, size in sizes:
        if size is not None:
            yield (name, *millimetres(size))
