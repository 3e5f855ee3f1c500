"""What fit two measured parts make: the clearance with its uncertainty."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from shoplog.trade.declare import Micrometre, Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.limits_and_fits.fits import cautions_of

__all__ = ["MeasuredFit", "checked_size", "measured_fit", "near_size", "to_tenth"]

# Two parts further apart are not meant for each other: of the size, and at least in mm.
MOST_APART = 0.05
MOST_APART_MM = 0.3


@dataclass(frozen=True, slots=True)
class MeasuredFit:
    """What two measured parts make together. A clearance below 0 is an interference."""

    hole: Size
    shaft: Size
    clearance: Micrometre
    """The hole as read less the shaft as read."""
    uncertainty: Micrometre
    """Of the clearance: both instruments' taken together as root sum of squares."""
    clearance_min: Micrometre
    """Should both readings be as wrong as they may, the tight way."""
    clearance_max: Micrometre
    kind: str
    """`clearance`, `interference`, or `cannot tell` where the readings leave both open."""
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def interference(self) -> Micrometre:
        """The shaft as read less the hole as read; below 0 it is a clearance."""
        return 0.0 - self.clearance

    def describe(self) -> str:
        """One plain sentence.

        >>> measured_fit(Size(16.009, -0.003, 0.003), Size(15.985, -0.004, 0.004)).describe()
        '24 µm of clearance, ±5 µm; 17 to 31 µm at the worst'
        """
        what = "clearance" if self.clearance >= 0 else "interference"
        least, most = sorted((abs(self.clearance_min), abs(self.clearance_max)))
        said = f"{to_tenth(abs(self.clearance))} µm of {what}, ±{to_tenth(self.uncertainty)} µm"
        if self.kind == "cannot tell":
            tight, loose = (
                to_tenth(0 - self.clearance_min),
                to_tenth(self.clearance_max),
            )
            return f"{said}; anything from {tight} µm interference to {loose} µm clearance"
        return f"{said}; {to_tenth(least)} to {to_tenth(most)} µm at the worst"


@offered(source="difference of two readings; the uncertainty as JCGM 100:2008 (GUM), 5.1.2")
def measured_fit(hole: Size | Millimetre, shaft: Size | Millimetre) -> MeasuredFit:
    """What a measured hole and a measured shaft make together.

    The clearance is the hole less the shaft; its uncertainty is the root of the sum of the squares
    of both, and at the worst their sum.

    Parameters
    ----------
    hole : Size or float [mm]
        The hole as measured, with the instrument's uncertainty as its limits: `bore.measured`.
    shaft : Size or float [mm]
        The shaft as measured, likewise. Within 5 % of the hole, or 0.3 mm.

    Returns
    -------
    MeasuredFit [-]
        The clearance with its uncertainty and its range, and whether it is one.

    Raises
    ------
    TradeError
        The two are too far apart to belong together, or limits are the wrong way round.
    OutOfRange
        A size is not over 0.

    Notes
    -----
    It holds where both were measured and both are at one temperature; one degree between them is
    0.2 µm on 16 mm of steel. Readings in several places tell more than one does: a bore that is
    bell-mouthed or a shaft that is out of round has no single size.

    Examples
    --------
    >>> found = measured_fit(Size(16.009, -0.003, 0.003), Size(15.985, -0.004, 0.004))
    >>> found.clearance, found.uncertainty, found.clearance_min, found.clearance_max
    (24.0, 5.0, 17.0, 31.0)
    >>> found.kind
    'clearance'

    References
    ----------
    JCGM 100:2008 (GUM), 5.1.2; ISO 286-1:2010, clause 3.
    """
    bore, journal = checked_size("hole", hole), checked_size("shaft", shaft)
    middle = [(size.min + size.max) / 2 for size in (bore, journal)]
    half = [1000 * (size.upper - size.lower) / 2 for size in (bore, journal)]
    if not near_size(*middle):
        raise TradeError(
            f"the hole is {middle[0]:.6g} mm and the shaft {middle[1]:.6g} mm:"
            " they are not one size",
            hint="a fit is between a hole and a shaft of about one size; is a unit wrong?",
            argument="shaft",
        )
    least, most = _clean(1000 * (bore.min - journal.max)), _clean(1000 * (bore.max - journal.min))
    clearance = _clean(1000 * (middle[0] - middle[1]))
    kind = "clearance" if least >= 0 else "interference" if most <= 0 else "cannot tell"
    exact = [part for part, width in zip(("hole", "shaft"), half, strict=True) if not width]
    notes = [f"the {part} is taken as exact: it states no uncertainty" for part in exact]
    return MeasuredFit(
        bore,
        journal,
        clearance,
        _clean(hypot(*half)),
        least,
        most,
        kind,
        cautions_of(least, most),
        tuple(notes),
    )


def checked_size(part: str, size: Size | float) -> Size:
    """A part as a size with limits; a plain length has none to either side.

    Raises
    ------
    TradeError
        Its limits are the wrong way round, or its least size is not over 0.
    OutOfRange
        It is not over 0.
    """
    found = size if isinstance(size, Size) else Size(size, 0.0, 0.0)
    if not found.nominal > 0:
        raise OutOfRange(part, found.nominal, "mm", over=0)
    if found.upper < found.lower:
        raise TradeError(
            f"the {part}'s upper deviation ({found.upper:+g} mm) is below its lower one"
            f" ({found.lower:+g} mm)",
            hint="the upper deviation comes first",
            argument=part,
        )
    if not found.min > 0:
        raise TradeError(
            f"the {part}'s least size is {found.min:g} mm, it must be over 0 mm", argument=part
        )
    return found


def near_size(one: float, other: float) -> bool:
    """Whether two lengths are close enough to be meant for each other."""
    return abs(one - other) <= max(MOST_APART * one, MOST_APART_MM)


def to_tenth(micrometres: float) -> str:
    """Micrometres as a sentence has them, to a tenth."""
    return f"{round(micrometres, 1):g}"


def _clean(micrometres: float) -> float:
    # A picometre is below what any reading means.
    return round(micrometres, 6) + 0.0
