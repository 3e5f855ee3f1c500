"""Limits of Unified inch threads in the classes 1A to 3B of ASME B1.1, by its formulas."""

from __future__ import annotations

from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import Size
from shoplog.trade.screw_threads.thread_metric import INTERNAL_ROOT, Limits
from shoplog.trade.screw_threads.thread_record import INCH, PROFILES, Thread
from shoplog.trade.screw_threads.thread_tolerances import (
    round_inch,
    unified_minor_tolerance,
    unified_pitch_tolerance,
)

__all__ = ["unified_limits"]

OF_CLASS = {"1A": 1.5, "2A": 1.0, "3A": 0.75, "1B": 1.95, "2B": 1.3, "3B": 0.975}
"""Pitch diameter tolerance of a class, in parts of that of class 2A."""
OF_DIAMETER = ("UNC", "UNF", "4-UN", "6-UN", "8-UN")
"""Series whose length of engagement is taken as the diameter; it is 9 P for the others."""
LISTED_FROM = 0.25
"""In inches: from where ASME B1.1 lists the classes 1A and 1B, of UNC and UNF."""
THREE_PLACES_FROM = 0.138
"""In inches: from #6 up the minor diameters of classes 1B and 2B have three places."""
ROOT = 0.75 * PROFILES["Unified"].triangle
"""From the pitch line down to a root flat of P/8, on the diameter."""


def unified_limits(thread: Thread, name: str) -> Limits:
    """Limits of a Unified thread, rounded as ASME B1.1 does and then in mm."""
    diameter, pitch = round(thread.major / INCH, 6), 1 / round(thread.threads_per_inch, 6)
    engagement = diameter if thread.series in OF_DIAMETER else 9 * pitch
    of_2a = unified_pitch_tolerance(diameter, pitch, engagement)
    known = _exceptions().get((thread.size, round(1 / pitch, 6)), {})
    tolerance = known.get(name, round_inch(of_2a * OF_CLASS[name]))
    if name[1] == "B":
        return _internal(thread, diameter, pitch, tolerance, name)
    allowance = 0.0 if name == "3A" else known.get("allowance", round_inch(0.3 * of_2a))
    return _external(thread, diameter, pitch, tolerance, allowance, name)


@cache
def _exceptions() -> dict[tuple[str, float], dict[str, float]]:
    """What the standard's table has, in inches, by size and threads per inch."""
    found: dict[tuple[str, float], dict[str, float]] = {}
    for row in table("threads_unified_exceptions").rows:
        kept = found.setdefault((row["size"], float(row["tpi"])), {})
        kept[row["what"]] = float(row["amount_in"])
    return found


def _basic(diameter: float, pitch: float) -> tuple[float, float]:
    """Basic pitch and minor diameter in inches, to four places."""
    profile = PROFILES["Unified"]
    return (
        round_inch(diameter - 2 * profile.pitch_line * pitch),
        round_inch(diameter - 2 * profile.height * pitch),
    )


def _external(
    thread: Thread, diameter: float, pitch: float, tolerance: float, allowance: float, name: str
) -> Limits:
    basic, minor = _basic(diameter, pitch)
    crest = round_inch((0.09 if name == "1A" else 0.06) * pitch ** (2 / 3))
    most = basic - allowance
    least = most - tolerance
    rounded = round_inch(diameter - allowance - 2 * PROFILES["Unified"].root * pitch)
    return Limits(
        _size(thread.major, diameter - allowance - crest, diameter - allowance),
        _size(thread.pitch_diameter, least, most),
        _size(thread.minor_diameter, least - ROOT * pitch, minor - allowance),
        (
            f"with the rounded root of UNR the minor diameter is at most {rounded * INCH:.3f} mm",
            *_unlisted(thread, diameter, name),
        ),
    )


def _internal(thread: Thread, diameter: float, pitch: float, tolerance: float, name: str) -> Limits:
    basic, minor = _basic(diameter, pitch)
    most_minor = minor + round_inch(unified_minor_tolerance(diameter, pitch, name))
    places = 3 if diameter >= THREE_PLACES_FROM else 4
    most = basic + tolerance
    return Limits(
        _size(thread.major, diameter, most + INTERNAL_ROOT * pitch),
        _size(thread.pitch_diameter, basic, most),
        _size(
            thread.minor_diameter,
            round_inch(minor, places),
            round_inch(most_minor, 4 if name == "3B" else places),
        ),
        _unlisted(thread, diameter, name),
    )


def _unlisted(thread: Thread, diameter: float, name: str) -> tuple[str, ...]:
    """That the standard has no such class for the size or series."""
    if name[0] != "1" or (thread.series in ("UNC", "UNF") and diameter >= LISTED_FROM):
        return ()
    return (f"ASME B1.1 lists class {name} for UNC and UNF from 1/4 in only; it is by formula",)


def _size(nominal: float, least: float, most: float) -> Size:
    """Limits in inches about a nominal size in mm, as a size in mm."""
    return Size(nominal, least * INCH - nominal, most * INCH - nominal)
