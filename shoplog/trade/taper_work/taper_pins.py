"""Taper pins: the two ends of a pin, and what to drill and ream for it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, TradeError, offered
from shoplog.trade.machining.cutting import require_positive
from shoplog.trade.taper_work.taper_names import inch_pin, metric_pin
from shoplog.trade.taper_work.taper_setting import taper_cautions
from shoplog.trade.taper_work.tapers import Taper

__all__ = ["TaperPin", "taper_pin"]

_METRIC = re.compile(
    r"(?:iso 2339[ -]?(?:[ab][ -]?)?)?([0-9]{1,3}(?:\.[0-9])?) ?mm|iso 2339[ -]?([0-9.]{1,5})"
)
_INCH = re.compile(r"(?:no\.? ?|# ?)([0-9]{1,2}(?:/0)?)|([0-9]/0)")
LONGEST = 1000.0


@dataclass(frozen=True, slots=True)
class TaperPin:
    """A taper pin of a length: metric by its small end, inch by its large one."""

    taper: Taper
    length: Millimetre
    system: str
    """`metric` or `inch`."""

    @property
    def large_diameter(self) -> Millimetre:
        """At the large end."""
        return self.taper.large_diameter or 0.0

    @property
    def small_diameter(self) -> Millimetre:
        """At the small end: a drill of this size or just under goes through before the reamer."""
        return self.large_diameter - self.taper.ratio * self.length

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of driving pins out."""
        return taper_cautions("pin")

    @property
    def notes(self) -> tuple[str, ...]:
        """How the hole is made, and whether the length is a usual one."""
        steep = "1:50" if self.system == "metric" else "1:48 (1/4 in to the foot)"
        made = [
            f"drill for the small end, then ream {steep} with both parts clamped together, trying"
            f" the pin as you go: 0.1 mm on diameter lets it in by {0.1 / self.taper.ratio:.1f} mm"
        ]
        return (*made, *self._unusual())

    def _unusual(self) -> tuple[str, ...]:
        if self.system == "inch":
            return ()
        size = self.small_diameter
        for row in table("tapers_pins_metric").rows:
            short, long = float(row["shortest_mm"]), float(row["longest_mm"])
            if abs(float(row["diameter_mm"]) - size) < 1e-6 and not short <= self.length <= long:
                return (f"pins of {size:g} mm are usual from {short:g} to {long:g} mm long",)
        return ()

    def describe(self) -> str:
        """The pin in one sentence."""
        return (
            f"{self.taper.designation}, {self.length:.4g} mm long: {self.small_diameter:.3f} mm at"
            f" the small end, {self.large_diameter:.3f} mm at the large end."
        )


@offered(source="ISO 2339:1986 (metric, 1:50); ASME B18.8.2 (inch, 1/4 in to the foot)")
def taper_pin(designation: str, length: Millimetre) -> TaperPin:
    """The two ends of a taper pin of a length.

    A metric pin is named by its small end, D = d + L / 50; an inch pin by a number that stands for
    its large end, d = D - L / 48.

    Parameters
    ----------
    designation : str [-]
        Metric `6 mm` or `ISO 2339-6`; inch `No. 4`, `#4` or `7/0`.
    length : float [mm]
        Over 0, at most 1000.

    Returns
    -------
    TaperPin [-]
        The ends; the taper, for a setting or a mate.

    Raises
    ------
    TradeError
        There is no such pin, or it would come to a point within the length.

    Notes
    -----
    An inch and a metric pin of one size are not one taper: 1:48 and 1:50.

    Examples
    --------
    >>> taper_pin("6 mm", 40).describe()
    'taper pin 6x40, 40 mm long: 6.000 mm at the small end, 6.800 mm at the large end.'

    References
    ----------
    ISO 2339:1986; ASME B18.8.2-2000.
    """
    require_positive("length", length, "mm")
    if length > LONGEST:
        raise TradeError(
            f"length is {length:g} mm, it must be at most {LONGEST:g} mm", argument="length"
        )
    plain = " ".join(designation.split()).casefold() if len(designation) <= 40 else ""
    if found := _METRIC.fullmatch(plain):
        return _metric(found[1] or found[2], length)
    if found := _INCH.fullmatch(plain):
        return _inch(found[1] or found[2], length)
    raise TradeError(
        f"{designation[:40]!r} is not a taper pin that is known",
        hint='write "6 mm" for a metric pin, "No. 4" or "7/0" for an inch one',
        argument="designation",
    )


def _metric(size: str, length: float) -> TaperPin:
    diameter = float(size) if re.fullmatch(r"[0-9]+(\.[0-9]+)?", size) else 0.0
    named = metric_pin(diameter, length)
    taper = Taper(named.designation, named.ratio, named.large_diameter, named.length)
    return TaperPin(taper, length, "metric")


def _inch(number: str, length: float) -> TaperPin:
    named = inch_pin(number)
    large = named.large_diameter or 0.0
    if not named.ratio * length < large:
        raise TradeError(
            f"an inch taper pin No. {number} comes to a point {large / named.ratio:.4g} mm from its"
            f" large end, it must be longer than the {length:g} mm asked",
            argument="length",
        )
    taper = Taper(named.designation, named.ratio, large, length)
    return TaperPin(taper, length, "inch")
