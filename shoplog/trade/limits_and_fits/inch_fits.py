"""The inch fits RC, LC, LT, LN and FN of ANSI B4.1: limits of hole and shaft, in thousandths."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache
from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import In, Inch, OutOfRange, Size, TradeError, offered
from shoplog.trade.limits_and_fits.fits import Fit, fit

__all__ = ["InchFit", "inch_fit"]

Thou = Annotated[float, In("thou")]

MM_PER_INCH = 25.4
MM_PER_THOU = 0.0254
NEARNESS_IN = 1e-9
GREATEST = 19.69
SOURCE = "ANSI B4.1"
GROUPS = "RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5"


@dataclass(frozen=True, slots=True)
class InchFit:
    """A class of the inch fits at a basic size. A clearance below 0 is an interference."""

    fit_class: str
    character: str
    """What the standard calls the class."""
    hole: Size
    shaft: Size
    hole_upper: Thou
    """The hole's upper deviation; its lower one is 0."""
    shaft_upper: Thou
    shaft_lower: Thou
    description: str
    """What the class is for, in plain words."""
    kind: str
    """`clearance`, `transition` or `interference`."""
    notes: tuple[str, ...] = ()

    @property
    def clearance_min(self) -> Thou:
        """The smallest hole less the largest shaft."""
        return round(0 - self.shaft_upper, 6) + 0.0

    @property
    def clearance_max(self) -> Thou:
        """The largest hole less the smallest shaft."""
        return round(self.hole_upper - self.shaft_lower, 6) + 0.0

    @property
    def interference_min(self) -> Thou:
        """The smallest shaft less the largest hole; below 0 it is a clearance."""
        return 0.0 - self.clearance_max

    @property
    def interference_max(self) -> Thou:
        """The largest shaft less the smallest hole; below 0 it is a clearance."""
        return 0.0 - self.clearance_min

    @property
    def fit(self) -> Fit:
        """The same pair as any other fit, to be drawn or checked in micrometres."""
        return fit(self.hole, self.shaft)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Those of a pair that is pressed or shrunk together."""
        return self.fit.cautions

    def noting(self, notes: tuple[str, ...]) -> InchFit:
        """The same with further notes."""
        return replace(self, notes=(*self.notes, *notes))

    def describe(self) -> str:
        """One plain sentence.

        >>> inch_fit("RC4", 0.75).describe()
        'RC4, a close running fit of 0.8 to 2.8 thou clearance: it runs with little play, for...'
        """
        least, most = self.clearance_min, self.clearance_max
        if self.kind == "interference":
            extent = f"{0 - most:g} to {0 - least:g} thou interference"
        elif self.kind == "transition":
            extent = f"{0 - least:g} thou interference to {most:g} thou clearance"
        else:
            extent = f"{least:g} to {most:g} thou clearance"
        return f"{self.fit_class}, a {self.character} fit of {extent}: {self.description}"


@offered(source="ANSI B4.1-1967 (R2009), Tables 1 to 5")
def inch_fit(fit_class: str, diameter: Inch) -> InchFit:
    """The limits of hole and shaft of an inch fit class at a basic size.

    Read from the tables; every class is on the basic hole, whose least size is the basic size.

    Parameters
    ----------
    fit_class : str [-]
        `RC1` to `RC9` (running and sliding), `LC1` to `LC11`, `LT1` to `LT6`, `LN1` to `LN3`
        (locating), `FN1` to `FN5` (force and shrink); a space before the number may stand.
    diameter : float [in]
        Basic size, over 0 and at most 19.69.

    Returns
    -------
    InchFit [-]
        Hole and shaft with their limits, and least and greatest clearance.

    Raises
    ------
    TradeError
        There is no such class, or the standard does not give it at this size.
    OutOfRange
        The diameter is outside the tables.

    Notes
    -----
    Both parts are taken at 20 degC (68 degF).

    Examples
    --------
    >>> close = inch_fit("RC4", 0.75)
    >>> close.hole_upper, close.shaft_upper, close.shaft_lower
    (1.2, -0.8, -1.6)
    >>> close.clearance_min, close.clearance_max
    (0.8, 2.8)

    References
    ----------
    ANSI B4.1-1967 (R2009), Tables 1 to 5.
    """
    name = _class_named(fit_class)
    if not 0 < diameter <= GREATEST + NEARNESS_IN:
        raise OutOfRange("diameter", diameter, "in", over=0, most=GREATEST, source=SOURCE)
    about = _about()[name]
    upper, shaft_upper, shaft_lower = _limits(name, diameter)
    nominal = diameter * MM_PER_INCH
    return InchFit(
        fit_class=name,
        character=about["character"],
        hole=Size(nominal, 0.0, upper * MM_PER_THOU),
        shaft=Size(nominal, shaft_lower * MM_PER_THOU, shaft_upper * MM_PER_THOU),
        hole_upper=upper,
        shaft_upper=shaft_upper,
        shaft_lower=shaft_lower,
        description=about["words"],
        kind=about["kind"],
    )


@cache
def _about() -> dict[str, dict[str, str]]:
    return {row["fit_class"]: row for row in table("fits_inch_classes").rows}


@cache
def _ranges(name: str) -> tuple[tuple[float, ...], ...]:
    columns = ("over_in", "to_in", "hole_upper_thou", "shaft_upper_thou", "shaft_lower_thou")
    return tuple(
        tuple(float(row[column]) for column in columns)
        for row in table("fits_inch_limits").rows
        if row["fit_class"] == name
    )


def _limits(name: str, diameter: float) -> tuple[float, float, float]:
    rows = _ranges(name)
    for over, to, hole_upper, shaft_upper, shaft_lower in rows:
        if over + NEARNESS_IN < diameter <= to + NEARNESS_IN:
            return hole_upper, shaft_upper, shaft_lower
    others = [other for other in _about() if other[:2] == name[:2] and _ranges(other)[0][0] == 0]
    raise TradeError(
        f"{name} is not given at {diameter:g} in: {SOURCE} has it over {rows[0][0]:g} in",
        hint=f"at this size there are {', '.join(others)}",
        argument="fit_class",
    )


def _class_named(text: str) -> str:
    found = re.fullmatch(r"\s*([A-Za-z]{2})[ -]?(\d{1,2})\s*", text, re.ASCII)
    name = f"{found[1].upper()}{found[2]}" if found else ""
    if name in _about():
        return name
    raise TradeError(
        f"{text[:20]!r} is not an inch fit class", hint=f"there are {GROUPS}", argument="fit_class"
    )
