"""Hardness of steels from one scale to another, and the tensile strength that goes with it.

A hardness is a number on a scale and nothing more: scales have no formula between them, only
tables of steels that were measured on both. So nothing here reaches beyond its table.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import dataclass
from functools import cache
from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import In, Number, OutOfRange, TradeError, offered
from shoplog.values import HARDNESS_SCALES, Hardness

__all__ = [
    "HardnessConversion",
    "TensileEstimate",
    "hardness_from_tensile",
    "hardness_read",
    "hardness_to",
    "tensile_from_hardness",
]

Megapascal = Annotated[float, In("MPa")]

SOURCE = "ISO 18265, Table A.1 (as reprinted; see the table's head)"
TABLE = "ISO 18265, Table A.1"
# The spread that ISO 18265 names for some 700 readings of the round trials behind the table.
TENSILE_SPREAD = 85.0  # MPa to either side
TENSILE_STEP = 5.0  # MPa: the table's own step
WHOLE_FROM = 100.0  # Vickers and Brinell numbers are whole from here up
LONGEST_TEXT = 30
COLUMNS = {"HV": "hv", "HB": "hb", "HBW": "hb", "HRB": "hrb", "HRC": "hrc", "HRA": "hra"}
SPELT = {"HRBW": "HRB", "HRBS": "HRB", "HBS": "HB", "BHN": "HB", "VPN": "HV", "RC": "HRC"}
HOLDS_FOR = (
    "converted by a table of unalloyed and low-alloy steels, hot formed or heat treated: for"
    " cold-drawn, stainless, high-speed or case-hardened steel, cast iron and other metals it is"
    " off; give the measured number and its scale beside it"
)
# A number and a scale, in either order, with a load or a ball behind the scale: 600 HV 30.
_NUMBER_FIRST = re.compile(r"(\d+(?:\.\d+)?)\s*([A-Za-z]+)(?:\s*\d+(?:/\d+)*)?")
_SCALE_FIRST = re.compile(r"([A-Za-z]+)\s*(\d+(?:\.\d+)?)")


@dataclass(frozen=True, slots=True)
class HardnessConversion:
    """A hardness, and about what it is on another scale."""

    hardness: Hardness
    number: Number
    """The number of it, as the table's digits go."""
    scale: str
    measured: Hardness | None
    """What it was converted from; nothing where that was a tensile strength."""
    notes: tuple[str, ...] = (HOLDS_FOR,)

    def describe(self) -> str:
        """One plain sentence."""
        of = f"{self.measured} is" if self.measured else "Steel of this strength has"
        return f"{of} about {self.hardness} ({TABLE})."


@dataclass(frozen=True, slots=True)
class TensileEstimate:
    """The tensile strength that a steel of a hardness has, with the spread of the estimate."""

    tensile_strength: Megapascal
    least: Megapascal
    greatest: Megapascal
    measured: Hardness
    notes: tuple[str, ...] = (
        HOLDS_FOR,
        "an estimate: of all that ISO 18265 converts, tensile strength is the least reliable",
    )

    def describe(self) -> str:
        """One plain sentence."""
        return (
            f"Steel of {self.measured} bears about {self.tensile_strength:g} MPa in tension,"
            f" {self.least:g} to {self.greatest:g} MPa ({TABLE})."
        )


@offered(source=SOURCE)
def hardness_to(hardness: Hardness | str, scale: str) -> HardnessConversion:
    """About what a hardness of a steel is on another scale.

    Read between the rows of the table on a straight line.

    Parameters
    ----------
    hardness : Hardness or str [-]
        `52 HRC`, or as text, `"52 HRC"`, `"600 HV 30"`.
    scale : str [-]
        `HV`, `HB` (or `HBW`), `HRB`, `HRC` or `HRA`.

    Returns
    -------
    HardnessConversion [-]
        The hardness on the other scale, in the digits of the table.

    Raises
    ------
    TradeError
        The text is no hardness, or there is no such scale.
    OutOfRange
        The hardness is outside the rows that have both scales.

    Notes
    -----
    For unalloyed and low-alloy steels and cast steel, hot formed or heat treated. Vickers from 80
    to 940, Brinell to 618, Rockwell B from 41 to 99.5, C from 20.3 to 68, A from 60.7 to 85.6.

    Examples
    --------
    >>> hardness_to("52 HRC", "HV").number
    545.0

    References
    ----------
    ISO 18265:2013, Metallic materials - Conversion of hardness values, Table A.1.
    """
    read = hardness_read(hardness)
    wanted = _scale(scale, "scale")
    found = _interpolated(read, COLUMNS[wanted], f"{TABLE}, to {wanted}")
    made = _rounded(found, wanted)
    return HardnessConversion(Hardness(made, wanted), made, wanted, read)


@offered(source=f"{SOURCE}; spread of the round trials as ISO 18265 names it")
def tensile_from_hardness(hardness: Hardness | str) -> TensileEstimate:
    """About what tensile strength a steel of a hardness has, with its spread.

    Read between the rows of the table on a straight line, to 5 MPa; the spread is 85 MPa to
    either side.

    Parameters
    ----------
    hardness : Hardness or str [-]
        `240 HB`, or as text; 80 to 650 HV, 76 to 618 HB, 41 to 99.5 HRB, 20.3 to 57.8 HRC,
        60.7 to 80 HRA.

    Returns
    -------
    TensileEstimate [-]
        The strength, and the band that it lies in.

    Raises
    ------
    TradeError
        The text is no hardness.
    OutOfRange
        The hardness is outside the rows that have a strength.

    Notes
    -----
    For unalloyed and low-alloy steels and cast steel, hot formed or heat treated. It is the least
    reliable of what the standard converts, and takes no certificate's place.

    Examples
    --------
    >>> tensile_from_hardness("238 HB").tensile_strength
    800.0

    References
    ----------
    ISO 18265:2013, Metallic materials - Conversion of hardness values, Table A.1; the spread of
    85 MPa from some 700 readings, as quoted from the standard in public.
    """
    read = hardness_read(hardness)
    found = _interpolated(read, "tensile_mpa", f"{TABLE}, to tensile strength")
    strength = TENSILE_STEP * round(found / TENSILE_STEP)
    return TensileEstimate(strength, strength - TENSILE_SPREAD, strength + TENSILE_SPREAD, read)


@offered(source=SOURCE)
def hardness_from_tensile(tensile_strength: Megapascal, scale: str = "HB") -> HardnessConversion:
    """About what hardness a steel of a tensile strength has.

    Read between the rows of the table on a straight line.

    Parameters
    ----------
    tensile_strength : float [MPa]
        255 to 2180; 770 at least for Rockwell C and A, and 800 at most for Rockwell B.
    scale : str [-]
        `HV`, `HB` (or `HBW`), `HRB`, `HRC` or `HRA`.

    Returns
    -------
    HardnessConversion [-]
        The hardness, in the digits of the table.

    Raises
    ------
    TradeError
        There is no such scale.
    OutOfRange
        The strength is outside the rows that have this scale.

    Examples
    --------
    >>> str(hardness_from_tensile(800).hardness)
    '238 HB'

    References
    ----------
    ISO 18265:2013, Metallic materials - Conversion of hardness values, Table A.1.
    """
    wanted = _scale(scale, "scale")
    rows = _pairs("tensile_mpa", COLUMNS[wanted])
    least, most = rows[0][0], rows[-1][0]
    if not least <= tensile_strength <= most:
        raise OutOfRange(
            "tensile_strength",
            tensile_strength,
            "MPa",
            least=least,
            most=most,
            source=f"{TABLE}, to {wanted}",
        )
    made = _rounded(_between(rows, tensile_strength), wanted)
    return HardnessConversion(Hardness(made, wanted), made, wanted, None)


def hardness_read(hardness: Hardness | str) -> Hardness:
    """A hardness as it is, or from its text: `52 HRC`, `HRC 52`, `600 HV 30`, `350 HBW 5/750`.

    Raises
    ------
    TradeError
        The text is no hardness on a scale that is known.
    """
    if isinstance(hardness, Hardness):
        return hardness
    text = hardness.strip()
    if found := _NUMBER_FIRST.fullmatch(text[: LONGEST_TEXT + 1]):
        number, scale = found[1], found[2]
    elif found := _SCALE_FIRST.fullmatch(text[: LONGEST_TEXT + 1]):
        number, scale = found[2], found[1]
    else:
        raise TradeError(
            f"{text[:LONGEST_TEXT]!r} is not a hardness",
            hint='a number and a scale: "52 HRC", "240 HB", "600 HV"',
            argument="hardness",
        )
    return Hardness(float(number), _scale(scale, "hardness"))


def _scale(text: str, argument: str) -> str:
    word = text.strip().upper()
    word = SPELT.get(word, word)
    if word not in HARDNESS_SCALES:
        raise TradeError(
            f"{text.strip()[:LONGEST_TEXT]!r} is not a scale of hardness that is known here",
            hint="HV, HB, HRB, HRC or HRA",
            argument=argument,
        )
    return word


@cache
def _pairs(one: str, other: str) -> tuple[tuple[float, float], ...]:
    """The rows that have both columns, in order."""
    rows = table("hardness_steels").rows
    return tuple((float(r[one]), float(r[other])) for r in rows if r[one] and r[other])


def _interpolated(read: Hardness, column: str, source: str) -> float:
    rows = _pairs(COLUMNS[read.scale], column)
    least, most = rows[0][0], rows[-1][0]
    if not least <= read.number <= most:
        raise OutOfRange(
            "hardness",
            read.number,
            read.scale,
            least=least,
            most=most,
            source=source,
            hint=_reaching(read),
        )
    return _between(rows, read.number)


def _reaching(read: Hardness) -> str:
    """The scales that a hardness can be converted to."""
    scales = [
        scale
        for scale in ("HV", "HB", "HRB", "HRC", "HRA")
        if COLUMNS[scale] != COLUMNS[read.scale]
        and _pairs(COLUMNS[read.scale], COLUMNS[scale])[0][0]
        <= read.number
        <= _pairs(COLUMNS[read.scale], COLUMNS[scale])[-1][0]
    ]
    return f"{read} can be converted to {', '.join(scales)}" if scales else ""


def _between(rows: tuple[tuple[float, float], ...], at: float) -> float:
    high = max(1, bisect_left(rows, (at,)))
    (x0, y0), (x1, y1) = rows[high - 1], rows[high]
    return y0 + (y1 - y0) * (at - x0) / (x1 - x0)


def _rounded(number: float, scale: str) -> float:
    whole = scale[:2] != "HR" and number >= WHOLE_FROM
    return float(round(number)) if whole else round(number, 1)
