"""Limits of ISO metric threads (ISO 965-1) and of ISO trapezoidal threads (ISO 2903)."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from shoplog.trade.declare import Size, TradeError
from shoplog.trade.screw_threads.thread_record import PROFILES, Thread
from shoplog.trade.screw_threads.thread_tolerances import (
    iso965_crest,
    iso965_deviation,
    iso965_pitch_tolerance,
    iso965_unlisted,
    iso2903_row,
)

__all__ = ["LARGEST", "PITCHES", "Limits", "metric_limits", "trapezoidal_limits"]

LARGEST = 355
"""In mm: where the ranges of ISO 965-1 end."""
PITCHES = (0.2, 8)
"""In mm: least and greatest pitch of its tables."""
ROOT_RADIUS = 0.125
"""Least root radius of an external thread in parts of the pitch (ISO 965-1)."""
TRIANGLE = sqrt(3) / 2
INTERNAL_ROOT = 11 / 12 * TRIANGLE
"""Above the pitch diameter, to a root flat of P/24: the reference limit of ASME B1.13M."""
OF_STARTS = {1: 1.0, 2: 1.12, 3: 1.25, 4: 1.4}
"""Factor on the pitch diameter tolerance of a trapezoidal thread of more starts (ISO 2903)."""
MANY_STARTS = 1.6
FROM_MEMORY = "abcdef"


@dataclass(frozen=True, slots=True)
class Limits:
    """Three diameters with their limits, in mm, and what is to be said of them."""

    major: Size
    pitch: Size
    minor: Size
    notes: tuple[str, ...] = ()


def metric_limits(diameter: float, pitch: float, name: str, side: str) -> Limits:
    """Limits of a metric thread in a class of ISO 965-1, both read before.

    Raises
    ------
    TradeError
        The standard has no such position for the pitch.
    """
    of_pitch, of_crest = name[:2], name[2:] or name[:2]
    kinds = ("TD2", "TD1") if side == "internal" else ("Td2", "Td")
    deviations = [_deviation(part[1], pitch) / 1000 for part in (of_pitch, of_crest)]
    grades = int(of_pitch[0]), int(of_crest[0])
    pitch_tolerance = iso965_pitch_tolerance(kinds[0], grades[0], pitch, diameter) / 1000
    crest = iso965_crest(kinds[1], grades[1], pitch) / 1000
    notes = tuple(
        f"ISO 965-1 lists no grade {grade} of {kind} for a pitch of {pitch:g} mm; it is by formula"
        for kind, grade in zip(kinds, grades, strict=True)
        if iso965_unlisted(kind, grade, pitch)
    )
    notes += _recalled(of_pitch[1])
    make = _internal if side == "internal" else _external
    return make(diameter, pitch, deviations, pitch_tolerance, crest, notes)


def _deviation(letter: str, pitch: float) -> float:
    found = iso965_deviation(letter, pitch)
    if found is None:
        raise TradeError(
            f"ISO 965-1 has no position {letter} for a pitch of {pitch:g} mm",
            hint="positions g and h are for every pitch",
            argument="tolerance_class",
        )
    return found


def _recalled(letter: str) -> tuple[str, ...]:
    if letter not in FROM_MEMORY:
        return ()
    return (f"the deviation of position {letter} was recalled and not read in the standard",)


def _external(
    diameter: float,
    pitch: float,
    deviations: list[float],
    pitch_tolerance: float,
    crest: float,
    notes: tuple[str, ...],
) -> Limits:
    """The minor diameter ends where a root of radius P/8 does, under the least pitch diameter."""
    es, es_crest = deviations
    basic, minor = _basic(diameter, pitch)
    size = Size(basic, es - pitch_tolerance, es)
    least_minor = size.min - (TRIANGLE - 2 * ROOT_RADIUS) * pitch
    return Limits(
        Size(diameter, es_crest - crest, es_crest),
        size,
        Size(minor, least_minor - minor, es),
        notes,
    )


def _internal(
    diameter: float,
    pitch: float,
    deviations: list[float],
    pitch_tolerance: float,
    crest: float,
    notes: tuple[str, ...],
) -> Limits:
    ei, ei_crest = deviations
    basic, minor = _basic(diameter, pitch)
    size = Size(basic, ei, ei + pitch_tolerance)
    greatest_major = size.max + INTERNAL_ROOT * pitch
    return Limits(
        Size(diameter, ei, greatest_major - diameter),
        size,
        Size(minor, ei_crest, ei_crest + crest),
        notes,
    )


def _basic(diameter: float, pitch: float) -> tuple[float, float]:
    """Basic pitch and minor diameter."""
    profile = PROFILES["ISO metric"]
    return diameter - 2 * profile.pitch_line * pitch, diameter - 2 * profile.height * pitch


# ---- ISO trapezoidal -------------------------------------------------------------------------


def trapezoidal_limits(thread: Thread, name: str) -> Limits:
    """Limits of a trapezoidal thread in a class of ISO 2903: crests are always h and H, grade 4.

    Td3 = 1.25 Td2 + es, the tolerance of the external minor diameter.
    """
    row = iso2903_row(thread.pitch)
    kind = "TD2" if name[1].isupper() else "Td2"
    tolerance = iso965_pitch_tolerance(kind, int(name[0]), thread.pitch, thread.major)
    tolerance *= OF_STARTS.get(thread.starts, MANY_STARTS) / 1000
    if name[1] == "H":
        return Limits(
            Size(thread.internal_major_diameter, 0.0, tolerance),
            Size(thread.pitch_diameter, 0.0, tolerance),
            Size(thread.minor_diameter, 0.0, row["TD1_4_um"] / 1000),
        )
    es = row[f"{name[1]}_um"] / 1000
    return Limits(
        Size(thread.major, -row["Td_4_um"] / 1000, 0.0),
        Size(thread.pitch_diameter, -es - tolerance, -es),
        Size(thread.root_diameter, -(1.25 * tolerance + es), 0.0),
        _trapezoidal_notes(thread, name),
    )


def _trapezoidal_notes(thread: Thread, name: str) -> tuple[str, ...]:
    if name[1] == "c" or thread.pitch == 6:
        what = "position c" if name[1] == "c" else "pitch 6 mm"
        return (f"the deviation of {what} was recalled and not read in ISO 2903",)
    return ()
