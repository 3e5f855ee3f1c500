"""A fit for a duty in words: `slides by hand, no shake`, `pressed, not to turn`."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.trade.declare import (
    Inch,
    Micrometre,
    Millimetre,
    OutOfRange,
    Size,
    TradeError,
    offered,
)
from shoplog.trade.limits_and_fits.fits import Fit, fit
from shoplog.trade.limits_and_fits.inch_fits import InchFit, inch_fit
from shoplog.trade.limits_and_fits.iso286 import ORDINARY, limits_of
from shoplog.trade.wording import best_row, read_words

__all__ = ["SuggestedFit", "fit_for", "inch_fit_for"]

BASES = {"hole": "hole_basis", "shaft": "shaft_basis"}


@dataclass(frozen=True, slots=True)
class SuggestedFit:
    """A preferred fit of ISO 286 that suits a duty, and what it gives at a size."""

    fit: Fit
    duty: str
    """What the fit is for, in the table's words."""
    inch_class: str
    """The class of ANSI B4.1 that is nearest in kind."""
    notes: tuple[str, ...]

    @property
    def hole(self) -> Size:
        """The hole with its class."""
        return self.fit.hole

    @property
    def shaft(self) -> Size:
        """The shaft with its class."""
        return self.fit.shaft

    @property
    def designation(self) -> str:
        """The fit as a drawing states it: `16 mm H7/g6`."""
        return self.fit.designation

    @property
    def kind(self) -> str:
        """`clearance`, `transition` or `interference`."""
        return self.fit.kind

    @property
    def clearance_min(self) -> Micrometre:
        """The smallest hole less the largest shaft."""
        return self.fit.clearance_min

    @property
    def clearance_max(self) -> Micrometre:
        """The largest hole less the smallest shaft."""
        return self.fit.clearance_max

    @property
    def cautions(self) -> tuple[str, ...]:
        """Those of the fit."""
        return self.fit.cautions

    def describe(self) -> str:
        """One plain sentence."""
        return f"{self.designation}, {self.fit.describe()}"


@offered(
    source="preferred fits of ANSI B4.2-1978 and ISO 286-1; which one for a duty: common practice,"
    " no source",
)
def fit_for(duty: str, diameter: Millimetre, basis: str = "hole") -> SuggestedFit:
    """The preferred fit that suits what a joint is to do, at a size.

    The words are read one by one, with `no`, `not` and `without` before them; of the preferred
    fits, the one that answers most of them is given.

    Parameters
    ----------
    duty : str [-]
        In plain words: `slides by hand, no shake`; `runs freely, gets hot`; `pressed, not to turn`.
    diameter : float [mm]
        Nominal size, over 0 and at most 500.
    basis : str [-]
        `hole`: the hole is H and the shaft is made to suit, as reamers ask for. `shaft`: the shaft
        is h, as bought ground bar is.

    Returns
    -------
    SuggestedFit [-]
        The classes, their limits, what they give, and the inch class nearest in kind.

    Raises
    ------
    TradeError
        No word of the duty is known, or the basis is neither; the hint says what would do.
    OutOfRange
        The diameter is outside the preferred fits.

    Notes
    -----
    It is a suggestion: load, length, finish, heat and the material decide too, and a joint that
    must carry a load by its tightness is to be worked out. Words that were not read are said.

    Examples
    --------
    >>> fit_for("slides by hand, no shake", 16).designation
    '16 mm H7/g6'
    >>> fit_for("pressed, not to turn", 16, basis="shaft").designation
    '16 mm S7/h6'

    References
    ----------
    ANSI B4.2-1978, preferred fits; ISO 286-1:2010, annex on the choice of fits.
    """
    if basis not in BASES:
        raise TradeError(
            f"the basis is {basis[:20]!r}, it must be `hole` or `shaft`",
            hint="hole basis: H7 and a shaft to suit; shaft basis: h6 and a hole to suit",
            argument="basis",
        )
    row, notes = _answer(duty)
    _check_diameter(diameter)
    hole, shaft = (limits_of(diameter, name) for name in row[BASES[basis]].split("/"))
    return SuggestedFit(fit(hole, shaft), row["duty"], row["inch_class"], notes)


@offered(
    source="ANSI B4.1-1967; which class for a duty: common practice, no source",
)
def inch_fit_for(duty: str, diameter: Inch) -> InchFit:
    """The inch fit that suits what a joint is to do, at a size.

    As `fit_for`, with the class of ANSI B4.1 that is nearest in kind to the preferred fit.

    Parameters
    ----------
    duty : str [-]
        In plain words: `slides by hand, no shake`; `pressed, not to turn`.
    diameter : float [in]
        Basic size, over 0 and at most 19.69.

    Returns
    -------
    InchFit [-]
        The class, the limits of hole and shaft, and what they give.

    Raises
    ------
    TradeError
        No word of the duty is known, or the class is not given at this size.
    OutOfRange
        The diameter is outside the tables.

    Examples
    --------
    >>> inch_fit_for("runs in oil with little play", 0.75).fit_class
    'RC4'

    References
    ----------
    ANSI B4.1-1967 (R2009), Tables 1 to 5.
    """
    row, notes = _answer(duty)
    return inch_fit(row["inch_class"], diameter).noting(notes)


def _answer(duty: str) -> tuple[dict[str, str], tuple[str, ...]]:
    reading = read_words(duty, "fits_words")
    row = best_row(reading, "fits_duties")
    if row is None:
        raise TradeError(
            f"no word of {duty[:40]!r} says what the joint is to do",
            hint="words such as: turns, slides, stands still; freely, loosely, by hand, tapped,"
            " pressed, shrunk; no shake, not to turn, comes apart",
            argument="duty",
        )
    held = {*row["traits"].split(), *row["also"].split()}
    notes = [f"taken as a joint that {row['duty']}"]
    if other := [trait for trait in reading.asked if trait not in held]:
        notes.append(f"no preferred fit is all that is asked; left out here: {', '.join(other)}")
    if reading.unread:
        notes.append(f"not read: {', '.join(reading.unread)}")
    return row, tuple(notes)


def _check_diameter(diameter: float) -> None:
    if not 0 < diameter <= ORDINARY:
        raise OutOfRange(
            "diameter", diameter, "mm", over=0, most=ORDINARY, source="preferred fits of ANSI B4.2"
        )
