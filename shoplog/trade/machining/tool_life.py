"""Tool life by Taylor's law, v T^n = C, with the spread of its exponent by cutter material.

C is the speed at which an edge lasts one minute. It belongs to one cutter, work, feed and depth;
two runs of one's own tell it better than any table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from math import log
from typing import Self

from shoplog.problems import near
from shoplog.tables import table
from shoplog.trade.declare import MetrePerMinute, Minute, Number, TradeError, offered
from shoplog.trade.machining.cutting import require_positive
from shoplog.trade.machining.taylor import taylor_constant, taylor_life, taylor_speed

__all__ = [
    "ExponentSpread",
    "LifeRange",
    "SpeedRange",
    "speed_for_life",
    "taylor_exponents",
    "tool_life_at",
]

SPREAD = "exponents of handbooks and makers' tables of speed factors, see the table's head"
TESTED_MINUTES = (5.0, 120.0)
FAR = 1.5  # speed over the known one, or under its inverse


@dataclass(frozen=True, slots=True)
class ExponentSpread:
    """Taylor's exponent of a cutter material: its usual value and the band that tests give."""

    material: str
    least: Number
    usual: Number
    most: Number

    def describe(self) -> str:
        """One plain sentence.

        >>> taylor_exponents("HSS").describe()
        'HSS: n about 0.125, between 0.08 and 0.2'
        """
        return f"{self.material}: n about {self.usual:g}, between {self.least:g} and {self.most:g}"

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The spread of a cutter material by its name.

        Raises
        ------
        TradeError
            The table has no such material.
        """
        rows = _rows()
        row = rows.get(text.strip().lower())
        if row is None:
            close = near(text.strip().lower(), rows)
            known = ", ".join(dict.fromkeys(row["material"] for row in rows.values()))
            raise TradeError(
                f"no exponent is known for a cutter of {text[:30]!r}",
                hint=f"did you mean {close}?" if close else f"there are {known}",
                argument="cutter_material",
            )
        return cls(row["material"], *(float(row[key]) for key in ("least", "usual", "most")))


@dataclass(frozen=True, slots=True)
class LifeRange:
    """How long an edge is likely to last at a speed, by the spread of the exponent."""

    least: Minute
    usual: Minute
    most: Minute
    spread: ExponentSpread
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    def describe(self) -> str:
        """One plain sentence.

        >>> tool_life_at(36, 30, 60, "HSS").describe()
        'about 14 min, between 6.14 and 24.1 min (HSS, n between 0.08 and 0.2)'
        """
        return (
            f"about {self.usual:.3g} min, between {self.least:.3g} and {self.most:.3g} min"
            f" ({self.spread.material}, n between {self.spread.least:g} and {self.spread.most:g})"
        )


@dataclass(frozen=True, slots=True)
class SpeedRange:
    """The speed that is likely to give a life, by the spread of the exponent."""

    least: MetrePerMinute
    usual: MetrePerMinute
    most: MetrePerMinute
    spread: ExponentSpread
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    def describe(self) -> str:
        """One plain sentence.

        >>> speed_for_life(120, 30, 60, "HSS").describe()
        'about 27.5 m/min, between 26.1 and 28.4 m/min (HSS, n between 0.08 and 0.2)'
        """
        return (
            f"about {self.usual:.3g} m/min, between {self.least:.3g} and {self.most:.3g} m/min"
            f" ({self.spread.material}, n between {self.spread.least:g} and {self.spread.most:g})"
        )


@offered(source=SPREAD)
def taylor_exponents(cutter_material: str) -> ExponentSpread:
    """Taylor's exponent of a cutter material, with its spread.

    Parameters
    ----------
    cutter_material : str [-]
        `carbon steel`, `HSS`, `cast alloy`, `brazed carbide`, `carbide`, `coated carbide` or
        `ceramic`.

    Returns
    -------
    ExponentSpread [-]
        Least, usual and greatest n.

    Raises
    ------
    TradeError
        The table has no such material.

    Notes
    -----
    The work, the feed and the wear that is borne move n as well; that is what the spread is for.

    Examples
    --------
    >>> taylor_exponents("carbide").usual
    0.25

    References
    ----------
    The sources of the table `tool_life_exponents`.
    """
    return ExponentSpread.from_text(cutter_material)


@offered(source=f"Taylor's law about a known run; {SPREAD}")
def tool_life_at(
    cutting_speed: MetrePerMinute,
    known_speed: MetrePerMinute,
    known_life: Minute,
    cutter_material: str,
) -> LifeRange:
    """Life of an edge at another speed than the one at which its life is known, as a range.

    T = T1 (v1/v)^(1/n), over the spread of n.

    Parameters
    ----------
    cutting_speed : float [m/min]
        Over 0.
    known_speed : float [m/min]
        Over 0; of a run of your own, or of a chart: most hold for 60 minutes in HSS, 15 in inserts.
    known_life : float [min]
        Over 0; at the known speed, with the same feed, depth and work.
    cutter_material : str [-]
        As for `taylor_exponents`.

    Returns
    -------
    LifeRange [-]
        Least, usual and greatest life.

    Raises
    ------
    TradeError
        The table has no such material, or the life lies beyond any sense.

    Notes
    -----
    Only the exponent's spread is in the range. Far from the known speed it is a guess.

    Examples
    --------
    >>> round(tool_life_at(40, 30, 60, "carbide").usual, 2)
    18.98

    References
    ----------
    Taylor's law; the sources of the table `tool_life_exponents`.
    """
    spread = ExponentSpread.from_text(cutter_material)

    def at(exponent: float) -> float:
        constant = taylor_constant(known_speed, known_life, exponent)
        return taylor_life(cutting_speed, constant, exponent)

    require_positive("cutting_speed", cutting_speed, "m/min")
    least, usual, most = _three(at, spread)
    cases = _cases(cutting_speed, known_speed, (least, most))
    return LifeRange(least, usual, most, spread, _said("caution", cases), _said("note", cases))


@offered(source=f"Taylor's law about a known run; {SPREAD}")
def speed_for_life(
    tool_life: Minute,
    known_speed: MetrePerMinute,
    known_life: Minute,
    cutter_material: str,
) -> SpeedRange:
    """Speed for a wanted life of an edge whose life is known at one speed, as a range.

    v = v1 (T1/T)^n, over the spread of n.

    Parameters
    ----------
    tool_life : float [min]
        Over 0; what is wanted.
    known_speed : float [m/min]
        Over 0.
    known_life : float [min]
        Over 0; at the known speed, with the same feed, depth and work.
    cutter_material : str [-]
        As for `taylor_exponents`.

    Returns
    -------
    SpeedRange [-]
        Least, usual and greatest speed; the least is the safe one.

    Raises
    ------
    TradeError
        The table has no such material, or a speed or life lies beyond any sense.

    Notes
    -----
    As for `tool_life_at`.

    Examples
    --------
    >>> round(speed_for_life(60, 100, 15, "carbide").usual, 2)
    70.71

    References
    ----------
    Taylor's law; the sources of the table `tool_life_exponents`.
    """
    spread = ExponentSpread.from_text(cutter_material)

    def at(exponent: float) -> float:
        return taylor_speed(tool_life, taylor_constant(known_speed, known_life, exponent), exponent)

    require_positive("tool_life", tool_life, "min")
    least, usual, most = _three(at, spread)
    cases = _cases(usual, known_speed, (tool_life, tool_life))
    return SpeedRange(least, usual, most, spread, _said("caution", cases), _said("note", cases))


@cache
def _rows() -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = {}
    for row in table("tool_life_exponents").rows:
        for name in (row["material"], *filter(None, row["also"].split(";"))):
            found[name.lower()] = row
    return found


def _three(at: Callable[[float], float], spread: ExponentSpread) -> tuple[float, float, float]:
    ends = at(spread.least), at(spread.most)
    return min(ends), at(spread.usual), max(ends)


def _cases(speed: float, known_speed: float, lives: tuple[float, float]) -> set[str]:
    cases = {"always"}
    if lives[0] < TESTED_MINUTES[0] or lives[1] > TESTED_MINUTES[1]:
        cases.add("stretched")
    if abs(log(speed / known_speed)) > log(FAR):
        cases.add("far")
    if speed > known_speed:
        cases.add("fast")
    return cases


def _said(grade: str, cases: set[str]) -> tuple[str, ...]:
    rows = table("tool_life_cautions").rows
    return tuple(row["text"] for row in rows if row["grade"] == grade and row["when"] in cases)
