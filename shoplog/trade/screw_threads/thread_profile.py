"""The line of a thread's profile in the plane of the axis, from a record's own numbers.

Places are (along the axis, from the axis), both in mm. A screw's ridge is as wide as its groove at
the pitch diameter; from there the flanks fix everything. A rounded crest or root is the arc that
touches both flanks and reaches the diameter: of radius H/6 at the root of an ISO screw, 0.1373 P in
a Whitworth thread, 2/11 P in a BA one, as their standards have it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin, tan

from shoplog.trade.screw_threads.thread_record import Thread

__all__ = ["ROUNDED", "Profile", "nut_of", "screw_of"]

ROUNDED = frozenset({"Whitworth", "Whitworth pipe", "BA"})
"""Families with round crests and roots on both sides."""
ROUND_ROOT = frozenset({"ISO metric", "Unified"})
"""Families whose screw has a round root."""
PITCHES = 2
STEPS = 4
"""Straight pieces that half of an arc is drawn with."""

Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Profile:
    """A profile by its radii: where it is furthest from the axis, its pitch line, and nearest."""

    pitch: float
    flank_angle: float
    """In degrees, between a flank and the square to the axis."""
    top: float
    middle: float
    bottom: float
    round_top: bool = False
    round_bottom: bool = False

    def line(self) -> list[Place]:
        """Over two pitches, from the middle of a groove to the middle of another."""
        ridge = [*self._end(self.top, 1.0, self.round_top)]
        groove = [*self._end(self.bottom, -1.0, self.round_bottom)]
        found: list[Place] = []
        for number in range(PITCHES):
            start, centre = number * self.pitch, (number + 0.5) * self.pitch
            found += [(start + x, y) for x, y in groove]
            found += [(centre - x, y) for x, y in reversed(ridge)]
            found += [(centre + x, y) for x, y in ridge]
            found += [(start + self.pitch - x, y) for x, y in reversed(groove)]
        return _without_doubles(found)

    @property
    def top_width(self) -> float:
        """Width in mm of the ridge's flat crest, or of what the flanks leave for its arc."""
        return 2 * self._left(self.top, 1.0) * tan(radians(self.flank_angle))

    @property
    def bottom_width(self) -> float:
        """Width in mm of the groove's flat root, or of what the flanks leave for its arc."""
        return 2 * self._left(self.bottom, -1.0) * tan(radians(self.flank_angle))

    @property
    def top_radius(self) -> float:
        """In mm, of the arc that rounds the crest; 0 where it is flat."""
        return self._radius(self.top, 1.0) if self.round_top else 0.0

    @property
    def bottom_radius(self) -> float:
        """In mm, of the arc that rounds the root; 0 where it is flat."""
        return self._radius(self.bottom, -1.0) if self.round_bottom else 0.0

    def _left(self, radius: float, way: float) -> float:
        """From where the two flanks would meet to a radius: outwards (way 1) or inwards (-1)."""
        apex = self.middle + way * self.pitch / 4 / tan(radians(self.flank_angle))
        return max(0.0, way * (apex - radius))

    def _radius(self, radius: float, way: float) -> float:
        return self._left(radius, way) / (1 / sin(radians(self.flank_angle)) - 1)

    def _end(self, radius: float, way: float, rounded: bool) -> Iterator[Place]:
        """Half of a crest (way 1) or a root (way -1), from its middle to where the flank begins."""
        angle = radians(self.flank_angle)
        yield 0.0, radius
        if not rounded:
            yield self._left(radius, way) * tan(angle), radius
            return
        size = self._radius(radius, way)
        centre = radius - way * size
        for step in range(1, STEPS + 1):
            turn = step / STEPS * (radians(90) - angle)
            yield size * sin(turn), centre + way * size * cos(turn)


def _without_doubles(line: list[Place]) -> list[Place]:
    return [here for number, here in enumerate(line) if number == 0 or here != line[number - 1]]


def screw_of(thread: Thread) -> Profile:
    """The basic profile of the external thread."""
    rounded = thread.family in ROUNDED
    return Profile(
        thread.pitch,
        thread.flank_angle,
        thread.major / 2,
        thread.pitch_diameter / 2,
        thread.root_diameter / 2,
        rounded,
        rounded or thread.family in ROUND_ROOT,
    )


def nut_of(thread: Thread) -> Profile:
    """The basic profile of the internal thread."""
    rounded = thread.family in ROUNDED
    return Profile(
        thread.pitch,
        thread.flank_angle,
        thread.internal_major_diameter / 2,
        thread.pitch_diameter / 2,
        thread.minor_diameter / 2,
        rounded,
        rounded,
    )
