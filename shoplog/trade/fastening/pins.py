"""Parallel pins (ISO 2338, ISO 8734) and spring pins (ISO 8752, ISO 8748) with their holes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, Size, TradeError, offered
from shoplog.trade.fastening.circlips import Kilonewton
from shoplog.trade.fastening.fixing_cautions import fixing_cautions
from shoplog.trade.limits_and_fits.fits import Fit, fit, same_nominal
from shoplog.trade.limits_and_fits.iso286 import limits_of

__all__ = ["ParallelPin", "SpringPin", "parallel_pin", "pins_mate", "spring_pin"]

CLASSES = {"m6": ("ISO 2338", "ISO 8734"), "h8": ("ISO 2338",)}
PRESS_HOLE, SLIP_HOLE, SPRING_HOLE = "H7", "F7", "H12"


@dataclass(frozen=True, slots=True)
class ParallelPin:
    """A parallel pin (dowel), the hole that holds it and the hole that slips over it."""

    designation: str
    """`ISO 8734 - 6 m6`."""
    size: Size
    chamfer: Millimetre
    hardened: bool

    @property
    def hole(self) -> Size:
        """The hole that it is driven into: H7."""
        return limits_of(self.size.nominal, PRESS_HOLE)

    @property
    def slip_hole(self) -> Size:
        """The hole of the part that comes off: F7, which slides over the pin."""
        return limits_of(self.size.nominal, SLIP_HOLE)

    @property
    def fit(self) -> Fit:
        """What the pin and its hole make together."""
        return fit(self.hole, self.size)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of driving a hardened pin, and of blind holes."""
        driving = ("parallel pin",) if self.hardened else ()
        return fixing_cautions(*driving, "blind pin")

    def describe(self) -> str:
        """The pin in one sentence."""
        return (
            f"{self.designation}: {self.size.min:.3f} to {self.size.max:.3f} mm, hole"
            f" {self.hole.tolerance_class} {self.hole.min:.3f} to {self.hole.max:.3f} mm; in the"
            f" part that comes off {self.slip_hole.tolerance_class} {self.slip_hole.min:.3f} to"
            f" {self.slip_hole.max:.3f} mm."
        )


@dataclass(frozen=True, slots=True)
class SpringPin:
    """A spring pin and the hole that it is driven into."""

    designation: str
    """`ISO 8752 - 4`."""
    diameter: Millimetre
    """Nominal: that of the hole."""
    free: Size
    """The pin before it is driven in."""
    wall: Millimetre
    shear: Kilonewton
    """Least double shear load, of spring steel."""

    @property
    def hole(self) -> Size:
        """The hole that it is driven into: H12, which a drill makes."""
        return limits_of(self.diameter, SPRING_HOLE)

    @property
    def squeeze(self) -> Size:
        """How much the hole closes the pin on the diameter."""
        nominal = self.free.nominal - self.diameter
        return Size(
            nominal,
            self.free.min - self.hole.max - nominal,
            self.free.max - self.hole.min - nominal,
        )

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of driving it."""
        return fixing_cautions("spring pin")

    def describe(self) -> str:
        """The pin in one sentence."""
        return (
            f"{self.designation}: hole {self.hole.min:.3f} to {self.hole.max:.3f} mm, pin"
            f" {self.free.min:g} to {self.free.max:g} mm before it is driven in, wall"
            f" {self.wall:g} mm; {self.shear:g} kN in double shear."
        )


def _row_of(rows: list[Mapping[str, str]], diameter: float, standard: str) -> Mapping[str, str]:
    for row in rows:
        if abs(float(row["diameter_mm"]) - diameter) < 1e-6:
            return row
    sizes = ", ".join(row["diameter_mm"] for row in rows)
    raise TradeError(
        f"{standard} has no pin of {diameter:g} mm", hint=f"it has {sizes} mm", argument="diameter"
    )


@offered(source="ISO 2338:1997; ISO 8734:1997; ISO 286-1")
def parallel_pin(
    diameter: Millimetre, standard: str = "ISO 8734", tolerance_class: str = "m6"
) -> ParallelPin:
    """Parallel pin (dowel) by its diameter, with its holes.

    Parameters
    ----------
    diameter : float [mm]
        0.6 to 50 of ISO 2338, 1 to 20 of ISO 8734; a diameter of the standard.
    standard : str [-]
        `ISO 2338` (unhardened) or `ISO 8734` (hardened).
    tolerance_class : str [-]
        `m6`, or `h8` of ISO 2338.

    Returns
    -------
    ParallelPin [-]
        Size with limits, chamfer, the hole H7 that holds it, the hole F7 that slips over it.

    Raises
    ------
    TradeError
        No such standard, class or diameter.

    Notes
    -----
    Two pins far apart place a part; a third fights them. Ream both parts in one clamping. Which
    classes the holes take is common practice, no source.

    Examples
    --------
    >>> parallel_pin(6).size.max
    6.012

    References
    ----------
    ISO 2338:1997; ISO 8734:1997.
    """
    if standard not in CLASSES["m6"]:
        raise TradeError(
            f'"{standard[:20]}" is no standard of parallel pins',
            hint='"ISO 2338" or "ISO 8734"',
            argument="standard",
        )
    if standard not in CLASSES.get(tolerance_class, ()):
        known = " or ".join(name for name, where in CLASSES.items() if standard in where)
        raise TradeError(
            f"{standard} has no class {tolerance_class[:10]}",
            hint=known,
            argument="tolerance_class",
        )
    hardened = standard == "ISO 8734"
    rows: list[Mapping[str, str]] = [
        row for row in table("pins_parallel").rows if row["hardened"] == "yes" or not hardened
    ]
    row = _row_of(rows, diameter, standard)
    nominal = float(row["diameter_mm"])
    return ParallelPin(
        f"{standard} - {row['diameter_mm']} {tolerance_class}",
        limits_of(nominal, tolerance_class),
        float(row["chamfer_mm"]),
        hardened,
    )


@offered(source="ISO 8752:2009; ISO 8748:2007")
def spring_pin(diameter: Millimetre, kind: str = "slotted") -> SpringPin:
    """Spring pin by its diameter, with its hole.

    Parameters
    ----------
    diameter : float [mm]
        1 to 20 slotted, 2 to 20 coiled; a nominal diameter of the standard, that of the hole.
    kind : str [-]
        `slotted` (ISO 8752, heavy duty) or `coiled` (ISO 8748, heavy duty).

    Returns
    -------
    SpringPin [-]
        Hole with limits, the pin before it is driven in, wall and double shear load.

    Raises
    ------
    TradeError
        No such kind or diameter.

    Notes
    -----
    Drill to the nominal size; a reamer is not wanted. Turn the slot along the load or opposite it,
    never across a bore that it weakens.

    Examples
    --------
    >>> pin = spring_pin(4)
    >>> pin.free.min, pin.free.max, round(pin.hole.max, 2)
    (4.4, 4.6, 4.12)

    References
    ----------
    ISO 8752:2009; ISO 8748:2007, by a maker's tables.
    """
    standards = {"slotted": "ISO 8752", "coiled": "ISO 8748"}
    if kind not in standards:
        raise TradeError(
            f'"{kind[:20]}" is no kind of spring pin', hint='"slotted" or "coiled"', argument="kind"
        )
    rows: list[Mapping[str, str]] = [
        row for row in table("pins_spring").rows if row["kind"] == kind
    ]
    row = _row_of(rows, diameter, standards[kind])
    least, most = float(row["free_from_mm"]), float(row["free_to_mm"])
    return SpringPin(
        f"{standards[kind]} - {row['diameter_mm']}",
        float(row["diameter_mm"]),
        Size(least, 0.0, most - least),
        float(row["wall_mm"]),
        float(row["shear_kN"]),
    )


def pins_mate(pin: ParallelPin | SpringPin, hole: Size) -> str:
    """Why a pin does not go with a hole, or nothing where it does.

    A parallel pin wants a hole of its nominal size; what fit they make is for the one who asks. A
    spring pin wants its hole within H12, for a larger one lets it go.
    """
    nominal = pin.size.nominal if isinstance(pin, ParallelPin) else pin.diameter
    if not same_nominal(nominal, hole.nominal):
        return f"the diameters differ: pin {nominal:g} mm, hole {hole.nominal:g} mm"
    if isinstance(pin, ParallelPin):
        return ""
    allowed = pin.hole
    if hole.min < allowed.min - 1e-9 or hole.max > allowed.max + 1e-9:
        return (
            f"the hole is {hole.min:.3f} to {hole.max:.3f} mm, {pin.designation} wants"
            f" {allowed.min:.3f} to {allowed.max:.3f} mm (H12)"
        )
    return ""
