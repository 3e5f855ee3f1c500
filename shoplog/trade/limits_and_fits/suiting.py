"""The size to turn or to bore to, so that a part suits the one that is there."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from shoplog.tables import table
from shoplog.trade.declare import Micrometre, Millimetre, Size, TradeError, offered
from shoplog.trade.limits_and_fits.fits import cautions_of
from shoplog.trade.limits_and_fits.iso286 import LETTERS, deviations
from shoplog.trade.limits_and_fits.measured_fits import checked_size, near_size, to_tenth

__all__ = ["SuitedSize", "hole_for", "shaft_for"]

SOURCE_OF_LIMITS = "ISO 286-1:2010, clause 3 (fits), turned round"


@dataclass(frozen=True, slots=True)
class SuitedSize:
    """The limits a part is to be made to, so that it gives with another what was asked."""

    size: Size
    clearance_min: Micrometre
    """What is asked at the least; below 0 an interference."""
    clearance_max: Micrometre
    wanted: str
    """The fit, or `stated`."""
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def min(self) -> Millimetre:
        """Least size to make."""
        return self.size.min

    @property
    def max(self) -> Millimetre:
        """Greatest size to make."""
        return self.size.max

    @property
    def aim(self) -> Millimetre:
        """The middle of the limits."""
        return (self.size.min + self.size.max) / 2

    def describe(self) -> str:
        """One plain sentence.

        >>> shaft_for(Size(16.009, -0.003, 0.003), "f7").describe()
        'make it 15.951 to 15.990 mm, aiming at 15.971 mm: H8/f7, 16 to 61 µm of clearance'
        """
        least, most = self.clearance_min, self.clearance_max
        if most <= 0:
            extent = f"{to_tenth(0 - most)} to {to_tenth(0 - least)} µm of interference"
        elif least < 0:
            extent = f"{to_tenth(0 - least)} µm interference to {to_tenth(most)} µm clearance"
        else:
            extent = f"{to_tenth(least)} to {to_tenth(most)} µm of clearance"
        name = "" if self.wanted == "stated" else f"{self.wanted}, "
        return (
            f"make it {self.min:.3f} to {self.max:.3f} mm, aiming at {self.aim:.3f} mm:"
            f" {name}{extent}"
        )


@offered(source=SOURCE_OF_LIMITS)
def shaft_for(
    hole: Size | Millimetre,
    wanted: str = "",
    clearance: list[Micrometre] | None = None,
    interference: list[Micrometre] | None = None,
    nominal: Millimetre | None = None,
) -> SuitedSize:
    """The limits to make a shaft to, so that it gives with this hole what is asked.

    shaft.max = hole.min - clearance_min and shaft.min = hole.max - clearance_max, with the hole as
    measured: what the hole used up of the fit's spread, or left over, the shaft has.

    Parameters
    ----------
    hole : Size or float [mm]
        The hole as measured, with its uncertainty as limits (`bore.measured`), or as it is to be.
    wanted : str [-]
        A fit, `H8/f7`, or the shaft's class alone, `f7`: then the hole is the H of the preferred
        fit with that class, or else of the grade above the shaft's up to grade 8.
    clearance : list of float [um]
        Instead of a fit: the least and the greatest clearance, `[15 um, 55 um]`.
    interference : list of float [um]
        Instead of a fit: the least and the greatest interference, `[20 um, 40 um]`.
    nominal : float [mm]
        The nominal size that the fit is taken at; else the hole rounded to 0.1 mm.

    Returns
    -------
    SuitedSize [-]
        The shaft's limits and what to aim at.

    Raises
    ------
    TradeError
        Nothing or too much is asked, the fit is unknown, the amounts are the wrong way round, or
        the hole is known less exactly than the fit asks.
    OutOfRange
        The hole is not over 0, or the nominal size is outside ISO 286.

    Notes
    -----
    The limits hold for every size that the hole may have within its uncertainty. A class alone
    stands for the whole fit: the f7 of H8/f7 gives at 16 mm a clearance of 16 to 61 um, not of 16
    to 34 um, which would be the class with a hole of exactly 16 mm.

    Examples
    --------
    >>> suited = shaft_for(Size(16.009, -0.003, 0.003), "f7")
    >>> round(suited.min, 3), round(suited.max, 3), suited.wanted
    (15.951, 15.99, 'H8/f7')
    >>> round(shaft_for(Size(16.009, -0.003, 0.003), interference=[20, 40]).aim, 3)
    16.039

    References
    ----------
    ISO 286-1:2010, clause 3 (fits).
    """
    part = checked_size("hole", hole)
    asked = _asked(part, "hole", wanted, clearance, interference, nominal)
    return _suited(asked, part.max - asked.most / 1000, part.min - asked.least / 1000, "hole")


@offered(source=SOURCE_OF_LIMITS)
def hole_for(
    shaft: Size | Millimetre,
    wanted: str = "",
    clearance: list[Micrometre] | None = None,
    interference: list[Micrometre] | None = None,
    nominal: Millimetre | None = None,
) -> SuitedSize:
    """The limits to make a hole to, so that it gives with this shaft what is asked.

    hole.min = shaft.max + clearance_min and hole.max = shaft.min + clearance_max, with the shaft as
    measured.

    Parameters
    ----------
    shaft : Size or float [mm]
        The shaft as measured, with its uncertainty as limits, or as it is to be.
    wanted : str [-]
        A fit, `H8/f7`, or the hole's class alone, `F8`: then the shaft is the h of the preferred
        fit with that class, or else of the grade below the hole's. `H7` alone says no fit.
    clearance : list of float [um]
        Instead of a fit: the least and the greatest clearance, `[15 um, 55 um]`.
    interference : list of float [um]
        Instead of a fit: the least and the greatest interference, `[20 um, 40 um]`.
    nominal : float [mm]
        The nominal size that the fit is taken at; else the shaft rounded to 0.1 mm.

    Returns
    -------
    SuitedSize [-]
        The hole's limits and what to aim at.

    Raises
    ------
    TradeError
        Nothing or too much is asked, the fit is unknown, the amounts are the wrong way round, or
        the shaft is known less exactly than the fit asks.
    OutOfRange
        The shaft is not over 0, or the nominal size is outside ISO 286.

    Notes
    -----
    As for `shaft_for`.

    Examples
    --------
    >>> suited = hole_for(Size(15.98, -0.004, 0.004), "H8/f7")
    >>> round(suited.min, 3), round(suited.max, 3)
    (16.0, 16.037)

    References
    ----------
    ISO 286-1:2010, clause 3 (fits).
    """
    part = checked_size("shaft", shaft)
    asked = _asked(part, "shaft", wanted, clearance, interference, nominal)
    return _suited(asked, part.max + asked.least / 1000, part.min + asked.most / 1000, "shaft")


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is asked of a pair, in micrometres of clearance, and the nominal size it is asked at."""

    least: float
    most: float
    wanted: str
    nominal: float
    notes: tuple[str, ...]


def _suited(asked: _Asked, least: float, most: float, given: str) -> SuitedSize:
    if not least < most:
        spread = asked.most - asked.least
        known = spread + 1000 * (least - most)
        raise TradeError(
            f"the {given} is known to {to_tenth(known)} µm, and what is asked lies within"
            f" {to_tenth(spread)} µm: no size is sure to give it",
            hint=f"measure the {given} more closely, or ask for more spread",
            argument=given,
        )
    size = Size(asked.nominal, _mm(least - asked.nominal), _mm(most - asked.nominal))
    if size.min <= 0:
        raise TradeError(
            f"the least size to make would be {size.min:.3g} mm, it must be over 0 mm",
            argument=given,
        )
    cautions = cautions_of(asked.least, asked.most)
    return SuitedSize(size, asked.least, asked.most, asked.wanted, cautions, asked.notes)


def _asked(
    part: Size,
    given: str,
    wanted: str,
    clearance: Sequence[float] | None,
    interference: Sequence[float] | None,
    nominal: float | None,
) -> _Asked:
    ways = [way for way in (wanted, clearance, interference) if way]
    if len(ways) != 1:
        raise TradeError(
            "nothing is asked of the fit" if not ways else "the fit is asked for in two ways",
            hint='one of: "H8/f7", clearance=[15 um, 55 um], interference=[20 um, 40 um]',
            argument="wanted",
        )
    size, notes = _nominal(part, nominal, bool(wanted))
    if wanted:
        pair = _pair(wanted.strip(), given)
        hole, shaft = (deviations(size, name) for name in pair)
        return _Asked(hole[0] - shaft[1], hole[1] - shaft[0], "/".join(pair), size, notes)
    name = "clearance" if clearance else "interference"
    least, most = _bounds(name, ways[0])
    if interference:
        least, most = 0.0 - most, 0.0 - least
    return _Asked(least, most, "stated", size, notes)


def _bounds(name: str, amounts: Sequence[float] | str) -> tuple[float, float]:
    if len(amounts) != 2 or isinstance(amounts, str):
        raise TradeError(
            f"the {name} has {len(amounts)} bounds, it must have 2",
            hint=f"the least and the greatest: {name}=[15 um, 55 um]",
            argument=name,
        )
    least, most = amounts
    if not least < most:
        raise TradeError(
            f"the bounds of the {name} are {to_tenth(least)} and {to_tenth(most)} µm:"
            " the least comes first",
            hint=f"{name}=[15 um, 55 um]",
            argument=name,
        )
    return least, most


def _nominal(part: Size, nominal: float | None, told: bool) -> tuple[float, tuple[str, ...]]:
    middle = (part.min + part.max) / 2
    if nominal is not None:
        if not near_size(middle, nominal):
            raise TradeError(
                f"the nominal size is {nominal:.6g} mm, and the part is {middle:.6g} mm",
                hint="the nominal size is the one on the drawing, close to the part's",
                argument="nominal",
            )
        return nominal, ()
    if part.tolerance_class:
        return part.nominal, ()
    size = round(middle, 1) or middle
    note = f"the fit is taken at a nominal size of {size:g} mm; give nominal= where it is another"
    return size, (note,) if told else ()


def _pair(wanted: str, given: str) -> tuple[str, str]:
    """Hole and shaft class of a fit, or of the class of the part that is to be made."""
    found = re.fullmatch(r"([A-Za-z]{1,2})(\d{1,2})(?:/([a-z]{1,2}\d{1,2}))?", wanted, re.ASCII)
    letters = found[1] if found else ""
    if found and found[3] and letters.isupper():
        return f"{letters}{found[2]}", found[3]
    right = letters.islower() if given == "hole" else letters.isupper()
    if not found or found[3] or not right or letters.upper() not in LETTERS or letters == "H":
        raise _no_fit(wanted, given)
    return _preferred_pair(wanted, given) or _usual_pair(letters, int(found[2]), given)


def _preferred_pair(name: str, given: str) -> tuple[str, str] | None:
    column, place = ("hole_basis", 1) if given == "hole" else ("shaft_basis", 0)
    for row in table("iso286_fit_words").rows:
        pair = row[column].split("/")
        if len(pair) == 2 and pair[place] == name:
            return pair[0], pair[1]
    return None


def _usual_pair(letters: str, grade: int, given: str) -> tuple[str, str]:
    # Common practice, no source: up to grade 8 a hole is one grade coarser than its shaft.
    if given == "hole":
        return f"H{grade + 1 if grade < 8 else grade}", f"{letters}{grade}"
    return f"{letters}{grade}", f"h{grade - 1 if 1 < grade <= 8 else grade}"


def _no_fit(wanted: str, given: str) -> TradeError:
    if given == "shaft" and re.fullmatch(r"H\d{1,2}", wanted):
        return TradeError(
            f"{wanted} alone says no fit: with an h it is one, with an s another",
            hint=f"name both, {wanted}/g6",
            argument="wanted",
        )
    example = "f7" if given == "hole" else "F8"
    return TradeError(
        f"{wanted[:20]!r} is not a fit with this {given}",
        hint=f"such as H8/f7, or {example}",
        argument="wanted",
    )


def _mm(length: float) -> float:
    return round(length, 9) + 0.0
