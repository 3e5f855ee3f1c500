"""How far work bends from the tool, however it is held, and the error of its diameter."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from shoplog.trade.declare import (
    In,
    Micrometre,
    Millimetre,
    Number,
    OutOfRange,
    Percent,
    TradeError,
    offered,
)
from shoplog.trade.machining.beams import Bar, bends_under_load, second_moment
from shoplog.trade.machining.bending import checked_force
from shoplog.trade.machining.chip_thickness import require_word
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.machining.force_estimates import BendEstimate, ForceEstimate, Newton
from shoplog.trade.machining.overhang import bending_cautions, overhang_of
from shoplog.trade.materials import Material

__all__ = ["WorkBending", "work_bending"]

Gigapascal = Annotated[float, In("GPa")]

BEAMS = (
    "beam tables: cantilever, fixed and supported, and two supports, load at any point"
    " (AISC and Roark, as piping-designer.com has them)"
)
HOLDINGS = ("chuck", "chuck and centre", "centres")
RULES = dict(
    zip(
        HOLDINGS,
        ("work in the chuck", "work in chuck and centre", "work between centres"),
        strict=True,
    )
)
MOST_PLACES = 50
SAMPLES = 20


@dataclass(frozen=True, slots=True)
class WorkBending:
    """How far work gives where the tool is, along its length, and what that makes of its size."""

    holding: str
    positions: tuple[Millimetre, ...]
    """From the chuck's jaws or the centre at the headstock."""
    deflections: tuple[Micrometre, ...]
    """Of the work where the tool is, away from it."""
    diameter_errors: tuple[Micrometre, ...]
    """By how much the work comes out larger than set there: twice the deflection."""
    spread: Percent
    """Of the force, so of every figure."""
    worst: BendEstimate
    """The greatest error on the diameter, anywhere along the length."""
    worst_at: Millimetre
    ratio: Number
    """Free length over diameter, the longest between supports."""
    within: bool
    """Whether the rule of length over diameter is kept."""
    cautions: tuple[str, ...]

    def describe(self) -> str:
        """The bending in one sentence."""
        return (
            f"Held {_held(self.holding)}, the work comes out at most {self.worst.describe()} large,"
            f" {self.worst_at:.3g} mm from the jaws or the headstock's centre."
        )


def _held(holding: str) -> str:
    return {"chuck": "in the chuck", "centres": "between centres"}.get(holding, f"in {holding}")


@offered(source=BEAMS)
def work_bending(
    radial_force: ForceEstimate | Newton,
    diameter: Millimetre,
    length: Millimetre,
    holding: str = "chuck",
    material: Material | Gigapascal = 206,
    positions: list[Millimetre] | None = None,
    steady_at: Millimetre | None = None,
    bore: Millimetre = 0,
) -> WorkBending:
    """Bending of work in the chuck, in chuck and centre, between centres or on a steady.

    y = F L^3 / (3 E I) at the end of work in the chuck, F L^3 / (48 E I) in the middle of work
    between centres, 7 F L^3 / (768 E I) in the middle of work in chuck and centre; the diameter
    comes out larger by twice that.

    Parameters
    ----------
    radial_force : ForceEstimate or float [N]
        Off the work along the cross slide; `turning_forces(…).radial`.
    diameter : float [mm]
        0.1 to 1000; as turned.
    length : float [mm]
        0.1 to 10000; from the jaws to the free end or to the centre, or between the centres.
    holding : str [-]
        `chuck`, `chuck and centre` or `centres`.
    material : Material or float [GPa]
        A material by its name, or its modulus: 0.1 to 1000.
    positions : list of float [mm]
        At most 50, each 0 to the length. Left out, at the quarters.
    steady_at : float [mm]
        Over 0, to the length; where a fixed steady holds the work.
    bore : float [mm]
        0, or the hole through the work.

    Returns
    -------
    WorkBending [-]
        Deflection and error on the diameter at each position, and the worst.

    Raises
    ------
    TradeError
        Another holding, or a position or steady beyond the work.

    Notes
    -----
    Chuck, centres and steady are taken as stiff and the work as of one diameter. Work turned half
    done is thinner to one side, and gives more. The tangential force lifts the work too; its error
    on the size is of second order.

    Examples
    --------
    >>> work_bending(60, 12, 100).worst.describe()
    '191 µm'
    >>> work_bending(60, 12, 100, "chuck and centre").worst.describe()
    '5.6 µm'

    References
    ----------
    AISC and Roark, beams with a load at any point, as piping-designer.com has them.
    """
    mean, spread = checked_force("radial_force", radial_force)
    require_within("diameter", diameter, "mm", 0.1, 1000)
    require_within("length", length, "mm", 0.1, 10000)
    require_word("holding", holding, HOLDINGS)
    if not 0 <= bore <= 0.99 * diameter:
        raise OutOfRange("bore", bore, "mm", least=0, most=0.99 * diameter)
    props = _props(holding, length, steady_at)
    places = _places(positions, length)
    moments = (second_moment(diameter, bore),)
    bar = Bar((length,), moments, _modulus(material), holding == "centres", props)
    bends = _bends(bar, mean, places)
    samples = [length * n / SAMPLES for n in range(SAMPLES + 1)]
    everywhere = dict(zip((*places, *samples), bends + _bends(bar, mean, samples), strict=True))
    worst_at = max(everywhere, key=lambda place: abs(everywhere[place]))
    ratio, within, cautions = _rule(holding, length, diameter, steady_at)
    return WorkBending(
        holding if steady_at is None else f"{holding} and steady",
        tuple(places),
        tuple(bends),
        tuple(2 * bend for bend in bends),
        spread,
        BendEstimate(2 * everywhere[worst_at], spread),
        worst_at,
        ratio,
        within,
        cautions,
    )


def _bends(bar: Bar, force: float, places: list[float]) -> list[float]:
    """Deflections in µm; none where a prop is, whatever the rounding leaves there."""
    stiff = {0.0, *bar.props}
    found = bends_under_load(bar, force, places)
    return [0.0 if at in stiff else 1000 * bend for at, bend in zip(places, found, strict=True)]


def _modulus(material: Material | float) -> float:
    """Young's modulus in MPa."""
    if isinstance(material, Material):
        if material.youngs_modulus is None:
            raise TradeError(
                f"no Young's modulus of {material.name} is known",
                hint="give it in GPa: material=70 GPa",
                argument="material",
            )
        return 1000 * material.youngs_modulus
    require_within("material", material, "GPa", 0.1, 1000)
    return 1000 * material


def _props(holding: str, length: float, steady_at: float | None) -> tuple[float, ...]:
    ends = () if holding == "chuck" else (length,)
    if steady_at is None:
        return ends
    if not 1e-3 * length <= steady_at <= length:
        raise OutOfRange("steady_at", steady_at, "mm", over=0, most=length)
    # A steady at the very centre does what the centre does.
    return ends if ends and steady_at > 0.999 * length else (steady_at, *ends)


def _places(positions: list[float] | None, length: float) -> list[float]:
    if positions is None:
        return [length * quarter / 4 for quarter in range(1, 5)]
    if not 1 <= len(positions) <= MOST_PLACES:
        raise TradeError(
            f"{len(positions)} positions are given, it must be 1 to {MOST_PLACES}",
            argument="positions",
        )
    for number, place in enumerate(positions, start=1):
        if not 0 <= place <= length:
            raise TradeError(
                f"position {number} is {place:g} mm, it must be at least 0 mm and at most"
                f" {length:g} mm",
                argument="positions",
            )
    return positions


def _rule(
    holding: str, length: float, diameter: float, steady_at: float | None
) -> tuple[float, bool, tuple[str, ...]]:
    """The longest free length over diameter, whether the rule is kept, and the cautions."""
    when = ["any"] + ["chuck"] * holding.startswith("chuck") + ["centre"] * ("centre" in holding)
    when += ["steady"] * (steady_at is not None)
    rules = [(RULES[holding], length)]
    if steady_at is not None:  # the bar to the steady, and what is past it
        carried = "work between centres" if holding == "centres" else "work in chuck and centre"
        past = "work in the chuck" if holding == "chuck" else "work between centres"
        rules = [(carried, steady_at), (past, length - steady_at)]
    found = [overhang_of(what, free, diameter) for what, free in rules if free > 1e-9]
    cautions = dict.fromkeys(
        caution for rule in found for caution in (*rule.cautions, *bending_cautions(*when))
    )
    free = max(rule.ratio for rule in found)
    return free, all(rule.within for rule in found), tuple(cautions)
