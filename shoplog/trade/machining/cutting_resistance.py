"""How hard a material is to cut: the specific cutting force, its law and its corrections.

kc = kc1.1 h^-mc (Kienzle): the thinner the chip, the more force each square millimetre of it asks.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import log
from typing import Annotated, TypeAlias

from shoplog.tables import table
from shoplog.trade.declare import (
    Degree,
    In,
    Millimetre,
    Number,
    Percent,
    TradeError,
    offered,
)
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.materials import Material

__all__ = [
    "CuttingResistance",
    "ForceCorrection",
    "Work",
    "cautions_of",
    "correction_of",
    "cutting_resistance",
    "edge_radius_of",
    "force_correction",
    "resistance_of",
    "specific_cutting_force",
]

NewtonPerSquareMillimetre = Annotated[float, In("N/mm^2")]

KIENZLE = "Kienzle: kc = kc1.1 h^-mc, as in ISCAR and Dijet, milling catalogues"
DIETRICH = "Dietrich and Tschätsch, Praxis der Zerspantechnik, 11th ed. 2014"
FORCE_SPREAD = 20.0  # %, common practice, no source
STEEL_RAKE = 6.0  # deg
LEAST_FORCE, MOST_FORCE = 10.0, 30000.0  # N/mm^2
MOST_EXPONENT = 0.9
THINNEST, THICKEST = 0.0005, 10.0  # mm
# Where the law was measured; from memory.
KNOWN_FROM, KNOWN_TO = 0.05, 2.5  # mm
MOST_RAKE = 40.0  # deg


@dataclass(frozen=True, slots=True)
class CuttingResistance:
    """What a material asks of a cutter: kc = kc1.1 h^-mc."""

    kc1_1: NewtonPerSquareMillimetre
    """On a chip 1 mm thick and 1 mm wide."""
    mc: Number
    """How fast it grows as the chip gets thinner."""
    spread: Percent = FORCE_SPREAD
    base_rake: Degree = STEEL_RAKE
    """The rake that kc1.1 holds for."""
    name: str = ""

    def at(self, chip_thickness: float) -> float:
        """Specific cutting force on a chip, in N/mm^2."""
        force: float = self.kc1_1 * chip_thickness**-self.mc
        return force

    def describe(self) -> str:
        """The law in one sentence.

        >>> CuttingResistance(1500, 0.22).describe()
        'kc1.1 = 1500 N/mm², mc = 0.22, about ±20 %.'
        """
        of = f"{self.name}: " if self.name else ""
        return f"{of}kc1.1 = {self.kc1_1:.4g} N/mm², mc = {self.mc:.3g}, about ±{self.spread:g} %."


# The records first: a page shows an argument by the first kind that it may be.
Work: TypeAlias = Material | CuttingResistance | NewtonPerSquareMillimetre


def resistance_of(
    work: float | Material | CuttingResistance, mc: float | None
) -> CuttingResistance:
    """The cutting resistance of a material, or of a plain figure with its exponent."""
    if isinstance(work, CuttingResistance):
        return work
    if isinstance(work, Material):
        return _of_material(work)
    require_within("work", work, "N/mm^2", LEAST_FORCE, MOST_FORCE)
    if mc is None:
        raise TradeError(
            f"mc is not given with a specific cutting force of {work:g} N/mm^2",
            hint="mc=0.25 for most steels, mc=0 for a figure that holds at this very chip;"
            ' or name a material: "C45"',
            argument="mc",
        )
    require_within("mc", mc, "", 0, MOST_EXPONENT)
    return CuttingResistance(work, mc)


def _of_material(material: Material) -> CuttingResistance:
    force, exponent = material.specific_cutting_force, material.chip_exponent
    if force is None or exponent is None:
        raise TradeError(
            f"no cutting force of {material.name} is known",
            hint="give one that was measured, and mc with it: 900 N/mm^2, mc=0.2",
            argument="work",
        )
    rake = float(_corrections()["base rake", material.iso_group])
    spread = material.cutting_force_spread
    return CuttingResistance(force, exponent, spread, rake, material.name)


@cache
def _corrections() -> dict[tuple[str, str], str]:
    return {(row["what"], row["case"]): row["value"] for row in table("forces_corrections").rows}


@cache
def _cutters() -> dict[str, dict[str, str]]:
    return {
        name.casefold(): row
        for row in table("forces_cutters").rows
        for name in (row["cutter"], *row["also"].split(";"))
        if name
    }


def _cutter(cutter: str) -> dict[str, str]:
    row = _cutters().get(" ".join(cutter.split()).casefold())
    if row is None:
        names = ", ".join(f'"{row["cutter"]}"' for row in table("forces_cutters").rows)
        raise TradeError(
            f'"{cutter[:20]}" is no cutter material that is known here',
            hint=f"one of {names}",
            argument="cutter",
        )
    return row


def edge_radius_of(cutter: str) -> float:
    """Radius of a sharp edge of a cutter material, in mm."""
    return float(_cutter(cutter)["edge_radius_um"]) / 1000


def _case(what: str, case: str) -> float:
    value = _corrections().get((what, case))
    if value is None:
        names = ", ".join(f'"{name}"' for group, name in _corrections() if group == what)
        raise TradeError(
            f'"{case[:20]}" is no {what} that is known here', hint=f"one of {names}", argument=what
        )
    return float(value)


def cautions_of(operation: str, work: float | Material | CuttingResistance) -> tuple[str, ...]:
    """The cautions of every force, of an operation, and of the material that is cut."""
    rows = (row for row in table("forces_cautions").rows if row["when"] in ("any", operation))
    of_work = work.cautions if isinstance(work, Material) else ()
    return (*(row["caution"] for row in rows), *of_work)


@dataclass(frozen=True, slots=True)
class ForceCorrection:
    """What the cutter, the operation, the edge and the rake make of a cutting force, as factors."""

    speed: Number
    """1.2 at the speeds of high-speed steel, 1 at those of carbide."""
    operation: Number
    """1.2 where the chip is squeezed, as in boring and drilling."""
    edge: Number
    """1.3 for a worn edge."""
    rake: Number
    """One per cent less for each degree more than the rake that the figure holds for."""

    @property
    def total(self) -> Number:
        """All of them together."""
        return self.speed * self.operation * self.edge * self.rake

    def describe(self) -> str:
        """The correction in one sentence."""
        return (
            f"{self.total:.3g} times: {self.speed:g} for the cutter, {self.operation:g} for the"
            f" operation, {self.edge:g} for the edge, {self.rake:.3g} for the rake."
        )


@offered(source=DIETRICH)
def force_correction(
    cutter: str = "HSS",
    operation: str = "turning",
    edge: str = "sharp",
    rake: Degree | None = None,
    base_rake: Degree = STEEL_RAKE,
) -> ForceCorrection:
    """Factors on the cutting force for cutter, operation, wear and rake.

    Parameters
    ----------
    cutter : str [-]
        `HSS`, `cobalt HSS`, `carbon steel`, `carbide`, `brazed carbide` or `carbide insert`; it
        stands for the speed that it is run at.
    operation : str [-]
        `turning`, `milling`, `boring` or `drilling`.
    edge : str [-]
        `sharp` or `worn`.
    rake : float [deg]
        -40 to 40; left out, no correction is made for it.
    base_rake : float [deg]
        -40 to 40; the rake that kc1.1 holds for: 6 for steel, 2 for cast iron, 0 for aluminium and
        for makers' figures of a neutral insert.

    Returns
    -------
    ForceCorrection [-]
        Each factor, and their product.

    Notes
    -----
    Measured on steel. A dull edge in a workshop can ask twice the force of a sharp one.

    Examples
    --------
    >>> force_correction("HSS", "drilling", "worn").describe()
    '1.87 times: 1.2 for the cutter, 1.2 for the operation, 1.3 for the edge, 1 for the rake.'

    References
    ----------
    Dietrich and Tschätsch, Praxis der Zerspantechnik, 11th ed. 2014, as a published program after
    the book has it.
    """
    require_within("base_rake", base_rake, "deg", -MOST_RAKE, MOST_RAKE)
    if rake is not None:
        require_within("rake", rake, "deg", -MOST_RAKE, MOST_RAKE)
    return ForceCorrection(
        float(_cutter(cutter)["speed_factor"]),
        _case("operation", operation),
        _case("edge", edge),
        1.0 if rake is None else 1 - (rake - base_rake) / 100,
    )


def correction_of(
    resistance: CuttingResistance,
    operation: str,
    cutter: str,
    edge: str,
    rake: float | None,
    correction: float | None,
) -> float:
    """The factor on the cutting force: the one given, or that of cutter, edge and rake."""
    if correction is not None:
        require_within("correction", correction, "", 0.1, 10)
        return correction
    return force_correction(cutter, operation, edge, rake, resistance.base_rake).total


@offered(source=KIENZLE)
def specific_cutting_force(
    work: Work,
    chip_thickness: Millimetre,
    mc: Number | None = None,
    correction: Number = 1,
) -> NewtonPerSquareMillimetre:
    """Cutting force that each square millimetre of a chip's section asks.

    kc = kc1.1 h^-mc K, with h the chip's thickness and K the corrections.

    Parameters
    ----------
    work : float, Material or CuttingResistance [N/mm^2]
        A material by its name, or its kc1.1: 10 to 30000.
    chip_thickness : float [mm]
        0.0005 to 10; of the chip before it is cut, so of the feed seen square to the edge.
    mc : float [-]
        0 to 0.9; needed where kc1.1 is a figure.
    correction : float [-]
        0.1 to 10; the total of `force_correction`.

    Returns
    -------
    float [N/mm^2]
        Specific cutting force.

    Notes
    -----
    Measured on chips of 0.05 to 2.5 mm. On thinner ones the rounding of the edge takes over, and
    the force is more than this. Good to about ±20 %.

    Examples
    --------
    >>> round(specific_cutting_force(1500, 0.1, mc=0.22))
    2489

    References
    ----------
    Kienzle's law as in ISCAR and Dijet, milling catalogues; the figures of materials from the table
    of cutting groups.
    """
    require_within("chip_thickness", chip_thickness, "mm", THINNEST, THICKEST)
    require_within("correction", correction, "", 0.1, 10)
    return resistance_of(work, mc).at(chip_thickness) * correction


@offered(source=KIENZLE)
def cutting_resistance(
    thin_force: NewtonPerSquareMillimetre,
    thin_chip: Millimetre,
    thick_force: NewtonPerSquareMillimetre,
    thick_chip: Millimetre,
) -> CuttingResistance:
    """Law of a material's cutting force from two readings of a maker's table.

    mc = ln(k1/k2) / ln(h2/h1) and kc1.1 = k1 h1^mc.

    Parameters
    ----------
    thin_force : float [N/mm^2]
        10 to 30000; specific cutting force at the thinner chip.
    thin_chip : float [mm]
        0.0005 to 10.
    thick_force : float [N/mm^2]
        10 to 30000, and not over the other.
    thick_chip : float [mm]
        0.0005 to 10, and over the other.

    Returns
    -------
    CuttingResistance [-]
        kc1.1 and mc; it stands wherever a formula asks for the work.

    Notes
    -----
    Take readings far apart: 0.1 and 0.4 mm rather than 0.1 and 0.12 mm. Where the table goes by the
    feed, the chip is as thick as the feed only with the edge square to it.

    Examples
    --------
    >>> cutting_resistance(3610, 0.1, 2280, 0.6).describe()
    'kc1.1 = 2000 N/mm², mc = 0.256, about ±20 %.'

    References
    ----------
    Kienzle's law, as in ISCAR and Dijet, milling catalogues.
    """
    for name, force in (("thin_force", thin_force), ("thick_force", thick_force)):
        require_within(name, force, "N/mm^2", LEAST_FORCE, MOST_FORCE)
    for name, chip in (("thin_chip", thin_chip), ("thick_chip", thick_chip)):
        require_within(name, chip, "mm", THINNEST, THICKEST)
    if not thick_chip > thin_chip * 1.01:
        raise TradeError(
            f"thick chip is {thick_chip:g} mm, it must be over the thin one of {thin_chip:g} mm",
            argument="thick_chip",
        )
    exponent = log(thin_force / thick_force) / log(thick_chip / thin_chip)
    if not 0 <= exponent <= MOST_EXPONENT:
        raise TradeError(
            f"these readings make mc {exponent:.3g}, it must be at least 0 and at most"
            f" {MOST_EXPONENT:g}",
            hint="the force of a square millimetre falls as the chip gets thicker",
            argument="thick_force",
        )
    return CuttingResistance(thin_force * thin_chip**exponent, exponent)
