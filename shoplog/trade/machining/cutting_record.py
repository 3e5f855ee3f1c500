"""The range of a cut and how a cut lies in it, as pages read them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi

from shoplog.trade.declare import (
    MetrePerMinute,
    Millimetre,
    MillimetrePerRev,
    MillimetrePerTooth,
    Number,
    RevPerMinute,
)
from shoplog.units import unit
from shoplog.values import Value

__all__ = ["CutRating", "CuttingRange"]

GENTLE, ORDINARY = 1 / 3, 2 / 3
ROUNDING = 1e-9
# Strokes have none, and the diameter asked with in grinding is the work's.
WITHOUT_SPINDLE_SPEED = ("shaping", "broaching", "grinding")


@dataclass(frozen=True, slots=True)
class CuttingRange:
    """Cutting speed and feed that a cut bears, as bands; what does not apply is left out."""

    operation: str
    stage: str | None
    """`rough` or `finish`, where it was asked for."""
    material: str
    """As it was asked for."""
    group: str
    """The group of materials that the figures hold for."""
    iso_group: str
    """The application group of ISO 513."""
    cutter: str
    rigidity: str
    diameter: Millimetre | None
    """Of the cutter; in turning, of the work."""
    speed_min: MetrePerMinute | None
    speed_max: MetrePerMinute | None
    feed_per_rev_min: MillimetrePerRev | None
    feed_per_rev_max: MillimetrePerRev | None
    feed_per_tooth_min: MillimetrePerTooth | None
    feed_per_tooth_max: MillimetrePerTooth | None
    feed_per_stroke_min: Millimetre | None
    """In shaping."""
    feed_per_stroke_max: Millimetre | None
    depth_max: Millimetre | None
    """The deepest cut that is usual, where a source has one."""
    family: str
    """The operation that this one is a kind of: turning, milling, drilling, or itself."""
    source: str
    notes: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def feed_min(self) -> Value | None:
        """Least feed, in mm/rev, mm/tooth or mm a stroke as it fits."""
        return self._feed("min")

    @property
    def feed_max(self) -> Value | None:
        """Greatest feed, in mm/rev, mm/tooth or mm a stroke as it fits."""
        return self._feed("max")

    @property
    def spindle_speed_min(self) -> RevPerMinute | None:
        """Spindle speed at the least cutting speed, where the diameter is known."""
        return self._spindle_speed(self.speed_min)

    @property
    def spindle_speed_max(self) -> RevPerMinute | None:
        """Spindle speed at the greatest cutting speed, where the diameter is known."""
        return self._spindle_speed(self.speed_max)

    def feed_band(self) -> tuple[float, float, str] | None:
        """Least and greatest feed with their unit; nothing where there is no feed."""
        bands = (
            (self.feed_per_rev_min, self.feed_per_rev_max, "mm/rev"),
            (self.feed_per_tooth_min, self.feed_per_tooth_max, "mm/tooth"),
            (self.feed_per_stroke_min, self.feed_per_stroke_max, "mm"),
        )
        return next(
            (
                (least, most, name)
                for least, most, name in bands
                if least is not None and most is not None
            ),
            None,
        )

    def describe(self) -> str:
        """The range in one sentence."""
        parts = [
            f"{self.operation}{f' ({self.stage})' if self.stage else ''} of {self.group} "
            f"with {self.cutter}: {self._speed_words()}"
        ]
        if band := self.feed_band():
            unit_words = {"mm/tooth": "mm a tooth", "mm/rev": "mm a turn", "mm": "mm a stroke"}
            parts.append(f"{band[0]:.2g} to {band[1]:.2g} {unit_words[band[2]]}")
        if self.depth_max is not None:
            parts.append(f"to {self.depth_max:.2g} mm deep")
        return ", ".join(parts) + "."

    def _speed_words(self) -> str:
        if self.speed_min is None or self.speed_max is None:
            return "by hand"
        if self.speed_max - self.speed_min < ROUNDING:
            return f"{_short(self.speed_min)} m/min"
        return f"{_short(self.speed_min)} to {_short(self.speed_max)} m/min"

    def _feed(self, end: str) -> Value | None:
        band = self.feed_band()
        if band is None:
            return None
        return Value(band[0] if end == "min" else band[1], unit(band[2]))

    def _spindle_speed(self, speed: float | None) -> float | None:
        if speed is None or self.diameter is None or self.operation in WITHOUT_SPINDLE_SPEED:
            return None
        return 1000 * speed / (pi * self.diameter)


@dataclass(frozen=True, slots=True)
class CutRating:
    """How a cut lies in its range: each share is 0 at the band's least and 1 at its greatest."""

    speed: str | None
    """`under the band`, `gentle`, `ordinary`, `brisk` or `over the band`."""
    feed: str | None
    depth: str | None
    speed_share: Number | None
    feed_share: Number | None
    depth_share: Number | None
    notes: tuple[str, ...]

    @classmethod
    def of(
        cls, speed: float | None, feed: float | None, depth: float | None, notes: Iterable[str]
    ) -> CutRating:
        """The rating of three shares."""
        words = [rating_word(share) for share in (speed, feed, depth)]
        return cls(words[0], words[1], words[2], speed, feed, depth, tuple(notes))

    def describe(self) -> str:
        """The rating in one sentence.

        >>> CutRating.of(0.4, 0.8, None, ()).describe()
        'An ordinary speed and a brisk feed.'
        """
        said = (("speed", self.speed), ("feed", self.feed), ("depth", self.depth))
        parts = [_phrase(what, word) for what, word in said if word]
        text = " and ".join(filter(None, (", ".join(parts[:-1]), parts[-1])))
        return f"{text[0].upper()}{text[1:]}."


def rating_word(share: float | None) -> str | None:
    """The word for a share of a band; by thirds.

    >>> rating_word(0.5), rating_word(1.2), rating_word(None)
    ('ordinary', 'over the band', None)
    """
    if share is None:
        return None
    if share < -ROUNDING:
        return "under the band"
    if share > 1 + ROUNDING:
        return "over the band"
    return "gentle" if share < GENTLE else "ordinary" if share < ORDINARY else "brisk"


def _short(speed: float) -> str:
    return f"{speed:.0f}" if speed >= 100 else f"{speed:.3g}"


def _phrase(what: str, word: str) -> str:
    if "band" in word:
        return f"a {what} {word}"
    return f"{'an' if word[0] == 'o' else 'a'} {word} {what}"
