"""Roughness grade numbers N1 to N12, and how much rougher than its geometry a surface comes out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Annotated, Self

from shoplog.tables import table
from shoplog.trade.declare import In, Micrometre, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import require_positive

__all__ = [
    "LikelyRoughness",
    "RoughnessGrade",
    "grade_for",
    "grade_met",
    "likely_roughness",
    "roughness_grade",
]

Microinch = Annotated[float, In("uin")]
GRADES = "ISO 1302:1992, roughness grade numbers; ISO 21920-1 writes the Ra itself"
REAL = "Sumitomo Electric, SUMIBORON catalogue, page L100 (steel); makers' guides (cast iron)"
# An Ra that was worked out and comes to a grade's own limit is not beyond it.
NEARNESS = 1 + 1e-9


@dataclass(frozen=True, slots=True)
class RoughnessGrade:
    """A grade number and the greatest Ra that meets it."""

    name: str
    ra: Micrometre
    ra_inch: Microinch
    """The value of inch drawings, which is rounded its own way: 63 µin for 1.6 µm."""

    def describe(self) -> str:
        """One plain sentence.

        >>> roughness_grade("N7").describe()
        'N7: Ra 1.6 µm (63 µin) at most'
        """
        return f"{self.name}: Ra {self.ra:g} µm ({self.ra_inch:g} µin) at most"

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The grade of a name such as `N7`.

        Raises
        ------
        TradeError
            There is no such grade.
        """
        for row in table("finish_grades").rows:
            if row["grade"] == text.strip().upper():
                return cls(row["grade"], float(row["ra_um"]), float(row["ra_uin"]))
        raise TradeError(
            f"there is no roughness grade {text[:20]!r}",
            hint="the grades are N1 to N12",
            argument="name",
        )


@dataclass(frozen=True, slots=True)
class LikelyRoughness:
    """The band that a measured roughness is likely to lie in."""

    least: Micrometre
    most: Micrometre

    def describe(self) -> str:
        """One plain sentence.

        >>> likely_roughness(0.8).describe()
        'likely between 1.2 and 2.4 µm when measured'
        """
        return f"likely between {self.least:.3g} and {self.most:.3g} µm when measured"


@offered(source=GRADES)
def roughness_grade(name: str) -> RoughnessGrade:
    """The Ra of a roughness grade number of older drawings.

    Parameters
    ----------
    name : str [-]
        `N1` to `N12`.

    Returns
    -------
    RoughnessGrade [-]
        The grade with its Ra in micrometres and in microinches.

    Raises
    ------
    TradeError
        There is no such grade.

    Notes
    -----
    A grade is an upper limit. Newer drawings write the Ra itself.

    Examples
    --------
    >>> roughness_grade("N8").ra
    3.2

    References
    ----------
    ISO 1302:1992.
    """
    return RoughnessGrade.from_text(name)


@offered(source=GRADES)
def grade_met(ra: Micrometre) -> RoughnessGrade:
    """The finest roughness grade that a surface of an Ra still meets.

    Parameters
    ----------
    ra : float [um]
        Over 0 and at most 50.

    Returns
    -------
    RoughnessGrade [-]
        The grade; anything finer than N1 is N1.

    Raises
    ------
    OutOfRange
        The surface is rougher than N12.

    Notes
    -----
    A surface just rougher than a grade belongs to the next coarser one.

    Examples
    --------
    >>> grade_met(1.7).name
    'N8'

    References
    ----------
    ISO 1302:1992.
    """
    require_positive("ra", ra, "um")
    name = grade_for(ra)
    if not name.startswith("N"):
        raise OutOfRange("ra", ra, "um", most=50, source="N12, the coarsest grade")
    return RoughnessGrade.from_text(name)


@offered(source=REAL)
def likely_roughness(theoretical: Micrometre, material: str = "steel") -> LikelyRoughness:
    """What a turned surface is likely to measure where its geometry alone gives a roughness.

    Parameters
    ----------
    theoretical : float [um]
        Over 0; the theoretical Ra, Rz or Rt.
    material : str [-]
        `steel` or `cast iron`.

    Returns
    -------
    LikelyRoughness [-]
        The band, in the same parameter as was given.

    Raises
    ------
    TradeError
        No factor is known for the material.

    Notes
    -----
    For carbide at its proper speed. A built-up edge (HSS in steel at 10 to 50 m/min or so), a worn
    nose or chatter makes more; brass and free-cutting steel come nearer to the geometry.

    Examples
    --------
    >>> likely_roughness(2).most
    6.0

    References
    ----------
    Sumitomo Electric, SUMIBORON catalogue, page L100: steel 1.5 to 3 times. Cast iron 3 to 5 times
    is from memory.
    """
    require_positive("theoretical", theoretical, "um")
    known = {row["material"]: row for row in table("finish_real").rows}
    row = known.get(material.strip().lower())
    if row is None:
        raise TradeError(
            f"no factor is known for {material[:20]!r}",
            hint=f"there are factors for {' and '.join(known)}",
            argument="material",
        )
    return LikelyRoughness(theoretical * float(row["least"]), theoretical * float(row["most"]))


@cache
def _limits() -> tuple[tuple[float, str], ...]:
    return tuple((float(row["ra_um"]), row["grade"]) for row in table("finish_grades").rows)


def grade_for(ra: float) -> str:
    """The name of the finest grade that an Ra in µm meets, or `rougher than N12`."""
    for limit, name in _limits():
        if ra <= limit * NEARNESS:
            return name
    return "rougher than N12"
