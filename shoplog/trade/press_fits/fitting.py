"""What lets a joint go together: lead chamfers, and the gap that a retaining compound wants."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from shoplog.tables import table
from shoplog.trade.declare import (
    Degree,
    Micrometre,
    Millimetre,
    OutOfRange,
    Size,
    TradeError,
    offered,
)
from shoplog.trade.limits_and_fits.fits import fit
from shoplog.trade.machining.cutting import require_positive
from shoplog.trade.press_fits.press_record import press_cautions

__all__ = ["LeadChamfer", "RetainingGap", "bush_chamfer", "lead_chamfer", "retaining_gap"]

STEEPEST_LEAD = 5.0  # degrees to the axis (DIN 7190-1, from memory)
GREATEST = 500.0


@dataclass(frozen=True, slots=True)
class LeadChamfer:
    """A chamfer that leads a part in."""

    angle: Degree
    """To the axis."""
    width: Millimetre
    """Along the axis."""
    width_tolerance: Millimetre
    front_diameter: Millimetre
    """At the end that enters first, or where the bore begins."""

    def describe(self) -> str:
        """The chamfer in one sentence."""
        give = f" ±{self.width_tolerance:g}" if self.width_tolerance else ""
        return (
            f"a lead of {self.angle:g}° over {self.width:.1f}{give} mm,"
            f" {self.front_diameter:.2f} mm at its front."
        )


@offered(source="DIN 7190-1, joining by pressing in: 5° over the cube root of D (from memory)")
def lead_chamfer(diameter: Millimetre, angle: Degree = STEEPEST_LEAD) -> LeadChamfer:
    """Lead chamfer of a shaft that is pressed into a hub.

    l = D^(1/3) in mm, at 5 degrees to the axis or less; the front is D - 2 l tan(angle).

    Parameters
    ----------
    diameter : float [mm]
        Over 0, at most 500; of the joint.
    angle : float [deg]
        Over 0, at most 5; to the axis.

    Returns
    -------
    LeadChamfer [-]
        Width along the axis, and the diameter at the front.

    Notes
    -----
    The chamfer holds nothing: the joint's length is counted without it. A steeper one shaves the
    hub instead of spreading it.

    Examples
    --------
    >>> lead_chamfer(27).describe()
    'a lead of 5° over 3.0 mm, 26.48 mm at its front.'

    References
    ----------
    DIN 7190-1:2017 (from memory).
    """
    require_positive("diameter", diameter, "mm")
    if not diameter <= GREATEST:
        raise OutOfRange("diameter", diameter, "mm", most=GREATEST)
    if not 0 < angle <= STEEPEST_LEAD:
        raise OutOfRange(
            "angle", angle, "deg", over=0, most=STEEPEST_LEAD, hint="a steeper lead shaves the hub"
        )
    width = diameter ** (1 / 3)
    front = diameter - 2 * width * tan(radians(angle))
    if not front > 0:
        least = (2 * tan(radians(angle))) ** 1.5
        raise OutOfRange("diameter", diameter, "mm", over=least)
    return LeadChamfer(angle, width, 0.0, front)


@offered(source="Motorservice (KS Permaglide), Plain bearing mounting, housing, Table 1")
def bush_chamfer(bore: Millimetre) -> LeadChamfer:
    """Lead chamfer of a housing bore that a thin bush is pressed into.

    Parameters
    ----------
    bore : float [mm]
        Over 0, at most 500; of the housing.

    Returns
    -------
    LeadChamfer [-]
        Angle and width along the bore, with its tolerance.

    Notes
    -----
    Of one maker of wrapped bushes; solid bushes go in well with it too.

    Examples
    --------
    >>> bush_chamfer(20).describe()
    'a lead of 20° over 0.8 ±0.3 mm, 20.58 mm at its front.'

    References
    ----------
    Motorservice (KS Permaglide), Plain bearing mounting, design of the housing, Table 1.
    """
    require_positive("bore", bore, "mm")
    for row in table("press_chamfers").rows:
        if bore <= float(row["to_mm"]):
            angle, width = float(row["angle_deg"]), float(row["width_mm"])
            give = float(row["width_tolerance_mm"])
            return LeadChamfer(angle, width, give, bore + 2 * width * tan(radians(angle)))
    raise OutOfRange("bore", bore, "mm", most=GREATEST)


@dataclass(frozen=True, slots=True)
class RetainingGap:
    """The gap of two sizes beside what a retaining compound wants, all on diameter."""

    compound: str
    gap_min: Micrometre
    gap_max: Micrometre
    least: Micrometre
    """Below it the compound is wiped off."""
    strongest_from: Micrometre
    strongest_to: Micrometre
    most: Micrometre
    """Above it the compound does not cure through."""

    @property
    def suits(self) -> bool:
        """Whether every pair lies between least and most."""
        return self.least <= self.gap_min and self.gap_max <= self.most

    @property
    def notes(self) -> tuple[str, ...]:
        """What is outside the bands, and what to keep in mind."""
        made = []
        if self.gap_min < self.least:
            made.append(
                f"the tightest pair has {self.gap_min:.0f} µm of gap, and a {self.compound}"
                f" compound wants {self.least:.0f} µm at the least: it is wiped off"
            )
        if self.gap_max > self.most:
            made.append(
                f"the loosest pair has {self.gap_max:.0f} µm of gap, and a {self.compound}"
                f" compound fills {self.most:.0f} µm at the most"
            )
        return (*made, "the data sheet of the compound in hand comes first; both faces degreased")

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of the compound and its removal."""
        return press_cautions("retaining")

    def describe(self) -> str:
        """The gap in one sentence."""
        word = "suits" if self.suits else "does not suit"
        return (
            f"a gap of {self.gap_min:.0f} to {self.gap_max:.0f} µm on diameter {word} a"
            f" {self.compound} retaining compound ({self.least:.0f} to {self.most:.0f} µm,"
            f" strongest at {self.strongest_from:.0f} to {self.strongest_to:.0f} µm)."
        )


@offered(source="makers' and suppliers' pages on anaerobic retainers (see the table's head)")
def retaining_gap(hole: Size, shaft: Size, compound: str = "thin") -> RetainingGap:
    """Gap of a hole and a shaft beside what an anaerobic retaining compound wants.

    Parameters
    ----------
    hole : Size [mm]
        With a class or limits.
    shaft : Size [mm]
        With a class or limits and the same nominal size.
    compound : str [-]
        `thin` (fills to 0.15 mm on diameter) or `thick` (to 0.25 mm).

    Returns
    -------
    RetainingGap [-]
        The gap at the least and the most, and the bands of the compound.

    Notes
    -----
    A compound in a press or shrink fit is another case; its maker says what it adds.

    Examples
    --------
    >>> retaining_gap(Size(20, 0.04, 0.06), Size(20, -0.02, 0)).suits
    True

    References
    ----------
    A bearing maker, an adhesive supplier and a maker's data sheet; see the table's head.
    """
    rows = {row["compound"]: row for row in table("press_retaining_gaps").rows}
    row = rows.get(compound.strip().casefold())
    if row is None:
        raise TradeError(
            f"{compound[:40]!r} is not a compound that is known here",
            hint=f"{' or '.join(rows)}",
            argument="compound",
        )
    pair = fit(hole, shaft)
    bands = ("least_mm", "strongest_from_mm", "strongest_to_mm", "most_mm")
    figures = [1000 * float(row[band]) for band in bands]
    return RetainingGap(row["compound"], pair.clearance_min, pair.clearance_max, *figures)
