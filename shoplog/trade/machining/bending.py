"""How far a cutter or a boring bar bends, and what that makes of the wall or the bore."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import pi
from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import In, Millimetre, Number, OutOfRange, TradeError, offered
from shoplog.trade.machining.beams import Bar, bend_at, second_moment
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.machining.force_estimates import (
    BendEstimate,
    ForceEstimate,
    Newton,
    force_and_spread,
)
from shoplog.trade.machining.overhang import bending_cautions, overhang_of

__all__ = [
    "BarBending",
    "CutterBending",
    "bar_deflection",
    "boring_bar_bending",
    "checked_force",
    "end_mill_bending",
]

Gigapascal = Annotated[float, In("GPa")]
Megapascal = Annotated[float, In("MPa")]
NewtonPerMillimetre = Annotated[float, In("N/mm")]

CANTILEVER = "Isakov, Boring: calculating deflection, Cutting Tool Engineering, July 2019"
KOPS = "Kops and Vo, Determination of the equivalent diameter of an end mill, CIRP Annals 39, 1990"
FLUTE_SHARE = 0.8  # of the cutter's diameter; Kops and Vo, for two and four flutes
MOST_FORCE = 1e6  # N
BORING_BARS = {"steel": "steel boring bar", "carbide": "carbide boring bar"}
BORING_BARS["heavy metal"] = "heavy metal boring bar"


def checked_force(argument: str, force: float | ForceEstimate) -> tuple[float, float]:
    """A force and its spread, refused where no cut asks it."""
    mean, spread = force_and_spread(force)
    require_within(argument, mean, "N", -MOST_FORCE, MOST_FORCE)
    return mean, spread


@cache
def _moduli() -> dict[str, tuple[str, float]]:
    return {
        name.casefold(): (row["material"], float(row["modulus_gpa"]))
        for row in table("tool_moduli").rows
        for name in (row["material"], *row["also"].split(";"))
    }


def _tool(material: str) -> tuple[str, float]:
    """What a tool is made of, and its modulus in MPa."""
    row = _moduli().get(" ".join(material.split()).casefold())
    if row is None:
        names = ", ".join(f'"{row["material"]}"' for row in table("tool_moduli").rows)
        raise TradeError(
            f'"{material[:20]}" is no material of a tool that is known here',
            hint=f"one of {names}",
            argument="material",
        )
    return row[0], 1000 * row[1]


@offered(source=f"{CANTILEVER}; any textbook of beams: y = F L^3 / (3 E I)")
def bar_deflection(
    force: Newton,
    overhang: Millimetre,
    diameter: Millimetre,
    bore: Millimetre = 0,
    modulus: Gigapascal = 206,
) -> Millimetre:
    """Deflection of a round bar that is held at one end, under a side force at its other end.

    y = 64 F L^3 / (3 pi E (D^4 - d^4)), with F the force, L the overhang, E the modulus, D the
    diameter and d its bore.

    Parameters
    ----------
    force : float [N]
        -1000000 to 1000000.
    overhang : float [mm]
        0.1 to 10000.
    diameter : float [mm]
        0.1 to 1000.
    bore : float [mm]
        0, or below the diameter.
    modulus : float [GPa]
        0.1 to 1000; 206 for any steel.

    Returns
    -------
    float [mm]
        Deflection at the end.

    Notes
    -----
    For a bar longer than three diameters and a holding that does not give.

    Examples
    --------
    >>> round(bar_deflection(911.1, 101.6, 25.4), 4)
    0.0757

    References
    ----------
    Isakov, Boring: calculating deflection, Cutting Tool Engineering, July 2019.
    """
    require_within("force", force, "N", -MOST_FORCE, MOST_FORCE)
    require_within("overhang", overhang, "mm", 0.1, 10000)
    _require_section(diameter, bore)
    require_within("modulus", modulus, "GPa", 0.1, 1000)
    return 64 * force * overhang**3 / (3 * pi * 1000 * modulus * (diameter**4 - bore**4))


def _require_section(diameter: float, bore: float) -> None:
    require_within("diameter", diameter, "mm", 0.1, 1000)
    if not 0 <= bore <= 0.99 * diameter:
        raise OutOfRange("bore", bore, "mm", least=0, most=0.99 * diameter)


@dataclass(frozen=True, slots=True)
class CutterBending:
    """How far an end mill bends."""

    deflection: BendEstimate
    """At its tip: the error of the wall there."""
    at_load: BendEstimate
    """At the middle of the cut, where the force is."""
    stiffness: NewtonPerMillimetre
    """Of the cutter alone, for a force at its tip."""
    effective_diameter: Millimetre
    """Of a plain bar that bends as the flutes do."""
    stress: Megapascal
    """The greatest in bending, where the flutes begin or at the holder."""
    ratio: Number
    """Stick-out over the cutter's diameter."""
    cautions: tuple[str, ...]

    def describe(self) -> str:
        """The bending in one sentence."""
        return (
            f"The tip gives {self.deflection.describe()}; it is as stiff as"
            f" {self.stiffness:.0f} N/mm and sticks out {self.ratio:.3g} diameters."
        )


@offered(source=KOPS)
def end_mill_bending(
    force: ForceEstimate | Newton,
    cutter_diameter: Millimetre,
    flute_length: Millimetre,
    stick_out: Millimetre,
    shank_diameter: Millimetre | None = None,
    material: str = "HSS",
    load_from_tip: Millimetre = 0,
) -> CutterBending:
    """Bending of an end mill under a side force, its flutes as stiff as 0.8 of their diameter.

    Parameters
    ----------
    force : ForceEstimate or float [N]
        Across the cutter; `milling_forces(…).radial` for the wall, `.side_peak` for its strength.
    cutter_diameter : float [mm]
        0.1 to 1000; over the flutes.
    flute_length : float [mm]
        0.1 mm to the stick-out.
    stick_out : float [mm]
        0.1 to 1000; from the collet to the tip.
    shank_diameter : float [mm]
        0.1 to 1000; the cutter's diameter where it is left out.
    material : str [-]
        `HSS`, `carbide` or `steel`.
    load_from_tip : float [mm]
        0 to the stick-out; how far above the tip the force is: half of the depth of cut.

    Returns
    -------
    CutterBending [-]
        Deflection with the force's spread, stiffness and stress.

    Raises
    ------
    TradeError
        More flutes than stick out, another material, or a force above the cutter.

    Notes
    -----
    Collet, spindle and table give too, on a small mill often as much again. A long neck is to be
    given as the shank.

    Examples
    --------
    >>> bend = end_mill_bending(100, 6, 13, 24, material="HSS")
    >>> round(bend.deflection.mean, 1), round(bend.effective_diameter, 1)
    (42.4, 4.8)

    References
    ----------
    Kops and Vo, Determination of the equivalent diameter of an end mill based on its compliance,
    CIRP Annals 39 (1990).
    """
    mean, spread = checked_force("force", force)
    shank = cutter_diameter if shank_diameter is None else shank_diameter
    _require_cutter(cutter_diameter, flute_length, stick_out, shank, load_from_tip)
    _, modulus = _tool(material)
    flutes = FLUTE_SHARE * cutter_diameter
    neck = stick_out - flute_length
    lengths = (neck, flute_length) if neck > 1e-3 else (flute_length,)
    moments = (second_moment(shank), second_moment(flutes))[-len(lengths) :]
    bar = Bar(lengths, moments, modulus)
    load = bar.length - load_from_tip
    root = shank if len(lengths) > 1 else flutes
    held = overhang_of("end mill", stick_out, cutter_diameter)
    return CutterBending(
        BendEstimate(1000 * bend_at(bar, mean, load, bar.length), spread),
        BendEstimate(1000 * bend_at(bar, mean, load, load), spread),
        1 / bend_at(bar, 1, bar.length, bar.length),
        flutes,
        max(_stress(mean, load - neck, flutes), _stress(mean, load, root)),
        stick_out / cutter_diameter,
        held.cautions + bending_cautions("any"),
    )


def _stress(force: float, arm: float, diameter: float) -> float:
    stress: float = 32 * abs(force) * max(arm, 0) / (pi * diameter**3)
    return stress


def _require_cutter(
    diameter: float, flutes: float, stick_out: float, shank: float, load_from_tip: float
) -> None:
    require_within("cutter_diameter", diameter, "mm", 0.1, 1000)
    require_within("shank_diameter", shank, "mm", 0.1, 1000)
    require_within("stick_out", stick_out, "mm", 0.1, 1000)
    if flutes > stick_out:
        raise OutOfRange(
            "flute_length",
            flutes,
            "mm",
            least=0.1,
            most=stick_out,
            hint="hold a cutter by its shank, never by its flutes",
        )
    require_within("flute_length", flutes, "mm", 0.1, stick_out)
    require_within("load_from_tip", load_from_tip, "mm", 0, 0.999 * stick_out)


@dataclass(frozen=True, slots=True)
class BarBending:
    """How far a boring bar bends."""

    off_the_wall: BendEstimate
    """Of the tip, away from the wall that it cuts."""
    down: BendEstimate
    """Of the tip, along the cutting speed: it takes the edge off the centre's height."""
    bore_error: BendEstimate
    """By how much the bore comes out smaller than it was set to."""
    stiffness: NewtonPerMillimetre
    ratio: Number
    """Overhang over the bar's diameter."""
    cautions: tuple[str, ...]

    def describe(self) -> str:
        """The bending in one sentence."""
        return (
            f"The tip gives {self.off_the_wall.describe()} and sinks {self.down.describe()}: the"
            f" bore comes out {self.bore_error.describe()} small."
        )


@offered(source=CANTILEVER)
def boring_bar_bending(
    radial_force: ForceEstimate | Newton,
    bar_diameter: Millimetre,
    overhang: Millimetre,
    tangential_force: ForceEstimate | Newton = 0,
    material: str = "steel",
    bar_bore: Millimetre = 0,
) -> BarBending:
    """Bending of a boring bar, and by how much its bore comes out small.

    y = F L^3 / (3 E I) in each direction; the bore loses twice the radial one.

    Parameters
    ----------
    radial_force : ForceEstimate or float [N]
        Off the wall; `turning_forces(…, operation="boring").radial`.
    bar_diameter : float [mm]
        0.1 to 1000.
    overhang : float [mm]
        0.1 to 10000; from the holder to the edge.
    tangential_force : ForceEstimate or float [N]
        Along the cutting speed; 0 where only the size is asked.
    material : str [-]
        `steel`, `carbide` or `heavy metal`.
    bar_bore : float [mm]
        0, or the hole through the bar.

    Returns
    -------
    BarBending [-]
        Deflections and the bore's error with the force's spread, and the overhang rule.

    Notes
    -----
    The last pass lies nearer to size: what counts is how much the bend differs from pass to pass,
    so leave the setting and take the same cut again (a spring pass).

    Examples
    --------
    >>> bend = boring_bar_bending(60, 12, 50, tangential_force=220)
    >>> round(bend.bore_error.mean, 1), round(bend.down.mean, 1)
    (23.8, 43.7)

    References
    ----------
    Isakov, Boring: calculating deflection, Cutting Tool Engineering, July 2019.
    """
    radial, radial_spread = checked_force("radial_force", radial_force)
    down, down_spread = checked_force("tangential_force", tangential_force)
    require_within("bar_diameter", bar_diameter, "mm", 0.1, 1000)
    require_within("overhang", overhang, "mm", 0.1, 10000)
    if not 0 <= bar_bore <= 0.99 * bar_diameter:
        raise OutOfRange("bar_bore", bar_bore, "mm", least=0, most=0.99 * bar_diameter)
    name, modulus = _tool(material)
    give = 1000 * bar_deflection(1, overhang, bar_diameter, bar_bore, modulus / 1000)
    rule = overhang_of(BORING_BARS.get(name, "steel boring bar"), overhang, bar_diameter)
    return BarBending(
        BendEstimate(radial * give, radial_spread),
        BendEstimate(down * give, down_spread),
        BendEstimate(2 * radial * give, radial_spread),
        1000 / give,
        overhang / bar_diameter,
        rule.cautions + bending_cautions("any"),
    )
