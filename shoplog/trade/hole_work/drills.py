"""Drills by their designations, and the nearest drill of the standard sets to a size."""

from __future__ import annotations

from shoplog.trade.declare import Millimetre, offered
from shoplog.trade.hole_work.drill_sets import (
    SETS,
    Drill,
    DrillChoice,
    choose,
    drills_of,
    read_drill,
)
from shoplog.trade.screw_threads.tapping import TapDrill, tap_drill, thread_percent

__all__ = [
    "SETS",
    "Drill",
    "DrillChoice",
    "TapDrill",
    "choose",
    "drill",
    "drills_of",
    "nearest_drill",
    "tap_drill",
    "thread_percent",
]


@offered(source="ASME B94.11M-1993; BS 328-1:1959; ISO 235:1980")
def drill(designation: str) -> Drill:
    """Diameter of the drill that a designation names.

    Parameters
    ----------
    designation : str [-]
        `#1` to `#80`, `A` to `Z`, a fraction of an inch (`5/32 in`, `1-1/8 in`), or mm (`6.8 mm`,
        up to 100 mm). Without a unit a fraction is in inches and a decimal in mm.

    Returns
    -------
    Drill [-]
        Designation, diameter and set.

    Raises
    ------
    TradeError
        The text names no drill, or might name two (`7`).

    Notes
    -----
    A metric or decimal inch size that no set has is taken as it is, with the set `none`.

    Examples
    --------
    >>> drill("#7").diameter
    5.1054
    >>> drill("25/64").designation
    '25/64 in'

    References
    ----------
    ASME B94.11M-1993; BS 328-1:1959; ISO 235:1980.
    """
    return read_drill(designation)


@offered(source="ASME B94.11M-1993; BS 328-1:1959; ISO 235:1980")
def nearest_drill(diameter: Millimetre, sets: str = "") -> DrillChoice:
    """Drills of the standard sets nearest to a diameter.

    Parameters
    ----------
    diameter : float [mm]
        From the least to the greatest drill of the sets; 0.2 mm to 100 mm for all of them.
    sets : str [-]
        Which sets: some of `metric`, `fractional`, `number`, `letter`, with commas; all if empty.

    Returns
    -------
    DrillChoice [-]
        The nearest drill, the one at or under, the one at or over, and the differences.

    Raises
    ------
    TradeError
        A set has another name, or the diameter is outside the sets.

    Notes
    -----
    Of two drills equally near, the smaller is taken. Drills drill larger than they measure, by an
    amount that depends on point, work and machine; that is not allowed for.

    Examples
    --------
    >>> nearest_drill(6.6, "letter").nearest.designation
    'G'

    References
    ----------
    ASME B94.11M-1993; BS 328-1:1959; ISO 235:1980.
    """
    return choose(diameter, drills_of(sets))
