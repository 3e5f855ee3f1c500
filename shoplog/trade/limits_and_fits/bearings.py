"""Rolling bearings: the limits of their bore and outside diameter, and the seats they ask for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import Micrometre, Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.limits_and_fits.fits import Fit, fit
from shoplog.trade.limits_and_fits.iso286 import NEARNESS_MM, limits_of

__all__ = [
    "BearingSeat",
    "bearing_bore",
    "bearing_housing_seat",
    "bearing_outside",
    "bearing_shaft_seat",
]

SOURCE = "ISO 492"
SEAT_SOURCE = "seat tolerances in the catalogues of bearing makers (SKF, NTN), radial ball bearings"
TURNING = ("shaft", "housing", "either")
LOADS = ("light", "normal", "heavy", "axial")


@dataclass(frozen=True, slots=True)
class BearingSeat:
    """The seat that a radial ball bearing asks for, and what it makes with the bearing."""

    seat: Size
    """The shaft or the housing bore with its class."""
    fit: Fit
    """The bearing's ring and the seat, in their limits."""
    why: str
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def tolerance_class(self) -> str:
        """The class of the seat: `k5`, `H7`."""
        return self.seat.tolerance_class

    @property
    def clearance_min(self) -> Micrometre:
        """Between ring and seat; below 0 it is an interference."""
        return self.fit.clearance_min

    @property
    def clearance_max(self) -> Micrometre:
        """Between ring and seat; below 0 it is an interference."""
        return self.fit.clearance_max

    def describe(self) -> str:
        """One plain sentence.

        >>> bearing_shaft_seat(20).describe()
        '20 mm k5, from 2 to 21 µm of interference: the inner ring must not creep round the shaft'
        """
        least, most = self.clearance_min, self.clearance_max
        if most <= 0:
            extent = f"from {0 - most:g} to {0 - least:g} µm of interference"
        elif least < 0:
            extent = f"from {0 - least:g} µm interference to {most:g} µm clearance"
        else:
            extent = f"from {least:g} to {most:g} µm of clearance"
        return f"{self.seat.nominal:g} mm {self.tolerance_class}, {extent}: {self.why}"


@offered(source="ISO 492, radial bearings, normal class (JIS B 1514-1:2017, class 0)")
def bearing_bore(diameter: Millimetre) -> Size:
    """The bore of a radial rolling bearing with its limits, normal class.

    The tolerance is minus: the bore is never over its nominal size, so a shaft fits tighter in it
    than in an H hole.

    Parameters
    ----------
    diameter : float [mm]
        Nominal bore, over 0.6 and at most 500.

    Returns
    -------
    Size [mm]
        The bore with its limits.

    Raises
    ------
    OutOfRange
        The diameter is outside the table.

    Notes
    -----
    The limits are those of the mean diameter in one plane; a thin ring may be out of round by more
    until it is seated. Not for taper roller bearings, nor for inch series.

    Examples
    --------
    >>> bearing_bore(17)
    Size(nominal=17, lower=-0.008, upper=0.0, tolerance_class='')

    References
    ----------
    ISO 492, tolerances of radial bearings, normal class.
    """
    return _ring("bore", diameter)


@offered(source="ISO 492, radial bearings, normal class (JIS B 1514-1:2017, class 0)")
def bearing_outside(diameter: Millimetre) -> Size:
    """The outside diameter of a radial rolling bearing with its limits, normal class.

    The tolerance is minus, as that of an h shaft.

    Parameters
    ----------
    diameter : float [mm]
        Nominal outside diameter, over 2.5 and at most 500.

    Returns
    -------
    Size [mm]
        The outside diameter with its limits.

    Raises
    ------
    OutOfRange
        The diameter is outside the table.

    Notes
    -----
    As for `bearing_bore`.

    Examples
    --------
    >>> bearing_outside(40)
    Size(nominal=40, lower=-0.011, upper=0.0, tolerance_class='')

    References
    ----------
    ISO 492, tolerances of radial bearings, normal class.
    """
    return _ring("outside", diameter)


@offered(source=SEAT_SOURCE)
def bearing_shaft_seat(
    diameter: Millimetre, turning: str = "shaft", load: str = "normal"
) -> BearingSeat:
    """The class of the shaft that a radial ball bearing's inner ring asks for.

    The ring that turns against its load must be tight on its seat, or it creeps and wears; the
    other may be loose, so that one bearing can find its place.

    Parameters
    ----------
    diameter : float [mm]
        Nominal bore of the bearing, over 0.6 and at most 500.
    turning : str [-]
        What turns against the load: `shaft` (a belt's pull or a weight on a turning shaft),
        `housing` (a wheel on a still axle), `either` where it is not sure.
    load : str [-]
        `light` (up to 0.05 of the bearing's dynamic rating), `normal`, `heavy`, or `axial` (thrust
        alone).

    Returns
    -------
    BearingSeat [-]
        The shaft's class and limits, and what it makes with the bearing's bore.

    Raises
    ------
    TradeError
        A word is not one of these, or the table gives no class.
    OutOfRange
        The diameter is outside the tables.

    Notes
    -----
    For solid steel shafts and bearings of normal class. The table reaches to 0.1 of the dynamic
    rating: `heavy` gives the class of `normal`, and beyond, as for roller bearings and hollow
    shafts, more is asked; the bearing maker's catalogue comes first. A load that turns with the
    shaft, as of an unbalanced wheel, counts as the housing turning.

    Examples
    --------
    >>> bearing_shaft_seat(17).tolerance_class, bearing_shaft_seat(20).tolerance_class
    ('j5', 'k5')
    >>> bearing_shaft_seat(17, "housing").tolerance_class
    'h6'

    References
    ----------
    SKF, seat tolerances for standard conditions, radial ball bearings.
    """
    ring = bearing_bore(diameter)
    row = _row("shaft", diameter, turning, load)
    seat = limits_of(diameter, row["tolerance_class"])
    return _seat(seat, fit(ring, seat), row["why"])


@offered(source=SEAT_SOURCE)
def bearing_housing_seat(
    diameter: Millimetre, turning: str = "shaft", load: str = "normal"
) -> BearingSeat:
    """The class of the housing bore that a radial ball bearing's outer ring asks for.

    As for `bearing_shaft_seat`: the ring that turns against its load must be tight.

    Parameters
    ----------
    diameter : float [mm]
        Nominal outside diameter of the bearing, over 2.5 and at most 500.
    turning : str [-]
        What turns against the load: `shaft`, `housing`, or `either` where it is not sure.
    load : str [-]
        `light`, `normal` or `heavy`.

    Returns
    -------
    BearingSeat [-]
        The housing bore's class and limits, and what it makes with the bearing.

    Raises
    ------
    TradeError
        A word is not one of these, or the table gives no class.
    OutOfRange
        The diameter is outside the tables.

    Notes
    -----
    For one-piece housings of cast iron or steel at about the bearing's temperature. Aluminium
    grows more when warm and asks for a tighter class; a split housing for H7 or a looser one.

    Examples
    --------
    >>> bearing_housing_seat(40).tolerance_class
    'H7'
    >>> bearing_housing_seat(40, "housing", "normal").tolerance_class
    'N7'

    References
    ----------
    NTN, bearing fits, Table 6.2 (2); gold-stone.org, shaft and housing tolerances.
    """
    ring = bearing_outside(diameter)
    row = _row("housing", diameter, turning, load)
    seat = limits_of(diameter, row["tolerance_class"])
    return _seat(seat, fit(seat, ring), row["why"])


@cache
def _rows(part: str) -> tuple[tuple[float, float, float], ...]:
    return tuple(
        (float(row["over_mm"]), float(row["to_mm"]), float(row["lower_um"]))
        for row in table("bearings_tolerances").rows
        if row["part"] == part
    )


def _ring(part: str, diameter: float) -> Size:
    rows = _rows(part)
    for over, to, lower in rows:
        if over + NEARNESS_MM < diameter <= to + NEARNESS_MM:
            return Size(diameter, lower / 1000, 0.0)
    raise OutOfRange("diameter", diameter, "mm", over=rows[0][0], most=rows[-1][1], source=SOURCE)


def _row(seat: str, diameter: float, turning: str, load: str) -> dict[str, str]:
    _check_word("turning", turning, TURNING)
    _check_word("load", load, LOADS if seat == "shaft" else LOADS[:3])
    # A shaft is held as firmly where it is not sure what turns, and at heavy as at normal load.
    turns = "shaft" if seat == "shaft" and turning == "either" else turning
    loaded = "normal" if seat == "shaft" and load == "heavy" else load
    for row in table("bearings_seats").rows:
        if (
            row["seat"] == seat
            and row["turning"] in (turns, "any")
            and row["load"] in (loaded, "any")
            and float(row["over_mm"]) < diameter <= float(row["to_mm"]) + NEARNESS_MM
        ):
            return row
    raise TradeError(
        f"no class is given for a {seat} of {diameter:g} mm with {load} load",
        hint="the bearing maker's catalogue says",
        argument="diameter",
    )


def _check_word(argument: str, word: str, words: tuple[str, ...]) -> None:
    if word not in words:
        raise TradeError(
            f"{argument} is {word[:20]!r}, it must be one of: {', '.join(words)}",
            argument=argument,
        )


def _seat(seat: Size, made: Fit, why: str) -> BearingSeat:
    when = ("always", "tight") if made.clearance_min < 0 else ("always",)
    said = [row for row in table("bearings_cautions").rows if row["when"] in when]
    cautions = tuple(row["text"] for row in said if row["grade"] == "caution")
    notes = tuple(row["text"] for row in said if row["grade"] == "note")
    return BearingSeat(seat, made, why, cautions, notes)
