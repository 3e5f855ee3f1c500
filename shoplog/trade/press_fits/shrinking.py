"""Shrinking: how much heat and cold move a diameter, and the temperatures to join two parts at."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import (
    In,
    Micrometre,
    Millimetre,
    Size,
    TradeError,
    offered,
)
from shoplog.trade.limits_and_fits.fits import fit
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within
from shoplog.trade.press_fits.cylinders import DIN_7190
from shoplog.trade.press_fits.elastic import ElasticMaterial, material_or_steel
from shoplog.trade.press_fits.press_record import press_cautions

__all__ = [
    "ShrinkTemperatures",
    "assembly_temperatures",
    "heated_diameter_growth",
    "interference_at_temperature",
    "require_temperature",
]

Celsius = Annotated[float, In("degC")]
Expansion = Annotated[float, In("um/m/K")]

ROOM = 20.0  # degC, ISO 1
LIQUID_NITROGEN, DRY_ICE = -196.0, -78.0  # degC
HOTTEST = 350.0  # degC, plain steel; DIN 7190-1, from memory
SLIP_SHARE = 1.0  # µm of slip for a mm of diameter: DIN 7190, 0.001 D


@offered(source=f"{DIN_7190}: linear expansion")
def heated_diameter_growth(
    diameter: Millimetre, temperature: Celsius, expansion: Expansion = 11.7, room: Celsius = ROOM
) -> Micrometre:
    """How much a diameter grows when its part is heated; below 0 when it is cooled.

    growth = alpha D (T - T0).

    Parameters
    ----------
    diameter : float [mm]
        Over 0.
    temperature : float [degC]
        -196 to 350; of the whole part.
    expansion : float [um/m/K]
        0.1 to 500.
    room : float [degC]
        -196 to 350; at which the diameter was measured.

    Returns
    -------
    float [um]
        Growth on diameter.

    Notes
    -----
    A hole grows as if it were filled. Cooled far below room a part shrinks less for each degree.

    Examples
    --------
    >>> round(heated_diameter_growth(60, 120), 1)
    70.2

    References
    ----------
    DIN 7190-1:2017; Callister, 3rd ed. 2007, Table B.6 (steel 11.7).
    """
    require_positive("diameter", diameter, "mm")
    require_temperature("temperature", temperature)
    require_within("expansion", expansion, "µm/m/K", 0.1, 500)
    require_temperature("room", room)
    return expansion * diameter * (temperature - room) / 1000


@offered(source=f"{DIN_7190}: U + alphaI D (TI - T0) - alphaA D (TA - T0)")
def interference_at_temperature(
    interference: Micrometre,
    diameter: Millimetre,
    hub_temperature: Celsius,
    shaft_temperature: Celsius,
    hub_expansion: Expansion = 11.7,
    shaft_expansion: Expansion = 11.7,
    room: Celsius = ROOM,
) -> Micrometre:
    """Interference that is left when hub and shaft run at their temperatures.

    U + alpha_shaft D (T_shaft - T0) - alpha_hub D (T_hub - T0).

    Parameters
    ----------
    interference : float [um]
        On diameter, at room temperature; below 0 it is a gap.
    diameter : float [mm]
        Over 0; of the joint.
    hub_temperature : float [degC]
        -196 to 350.
    shaft_temperature : float [degC]
        -196 to 350.
    hub_expansion : float [um/m/K]
        0.1 to 500.
    shaft_expansion : float [um/m/K]
        0.1 to 500.
    room : float [degC]
        -196 to 350; at which the interference was measured.

    Returns
    -------
    float [um]
        Interference at those temperatures; below 0 it is a gap, and the joint is loose.

    Notes
    -----
    A hub that grows more than its shaft (aluminium on steel) loosens as both warm.

    Examples
    --------
    >>> round(interference_at_temperature(40, 30, 100, 100, 23.6, 11.7), 1)
    11.4

    References
    ----------
    DIN 7190-1:2017.
    """
    require_within("interference", interference, "µm", -LARGEST, LARGEST)
    require_positive("diameter", diameter, "mm")
    require_temperature("hub_temperature", hub_temperature)
    require_temperature("shaft_temperature", shaft_temperature)
    require_within("hub_expansion", hub_expansion, "µm/m/K", 0.1, 500)
    require_within("shaft_expansion", shaft_expansion, "µm/m/K", 0.1, 500)
    require_temperature("room", room)
    return (
        interference
        + shaft_expansion * diameter * (shaft_temperature - room) / 1000
        - hub_expansion * diameter * (hub_temperature - room) / 1000
    )


def require_temperature(argument: str, value: float) -> None:
    """Refuse a temperature that the expansions do not hold for."""
    require_within(argument, value, "degC", LIQUID_NITROGEN, HOTTEST)


@dataclass(frozen=True, slots=True)
class ShrinkTemperatures:
    """The ways to join two parts without force: heat the outer, cool the inner, or both."""

    interference_max: Micrometre
    slip: Micrometre
    """Gap that the tightest pair is to have while it goes together."""
    heat_hub_to: Celsius
    """The hub alone."""
    cool_shaft_to: Celsius | None
    """The shaft alone; none where liquid nitrogen (-196 degC) is not cold enough."""
    cold_shaft: Celsius
    heat_hub_with_cold_shaft: Celsius
    """The hub, while the shaft is cooled to `cold_shaft`."""
    ceiling: Celsius
    """What the hub bears."""
    part: str

    @property
    def growth(self) -> Micrometre:
        """What heat and cold must bring together: interference and slip."""
        return self.interference_max + self.slip

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of heat and cold; and of a hub heated beyond what it bears."""
        made = press_cautions("heating", "cooling", "welding")
        if self.heat_hub_to <= self.ceiling:
            return made
        return (
            f"heating the hub alone goes beyond its ceiling of {self.ceiling:g} °C ({self.part}):"
            " cool the shaft too",
            *made,
        )

    @property
    def notes(self) -> tuple[str, ...]:
        """What is needed, and what cannot be done."""
        made = [
            f"{self.interference_max:.0f} µm of interference and {self.slip:.0f} µm of slip are to"
            " be won; parts cool fast, so work without a pause"
        ]
        if self.cool_shaft_to is None:
            made.append("cooling the shaft alone is not enough, even with liquid nitrogen")
        return tuple(made)

    def describe(self) -> str:
        """The temperatures in one sentence."""
        cold = (
            "" if self.cool_shaft_to is None else f", or the shaft to {self.cool_shaft_to:.0f} °C"
        )
        return (
            f"heat the hub to {self.heat_hub_to:.0f} °C{cold}, or the hub to"
            f" {self.heat_hub_with_cold_shaft:.0f} °C with the shaft at {self.cold_shaft:g} °C."
        )


@offered(source=f"{DIN_7190}: T = T0 + (U + S) / (alpha D), with S = 0.001 D")
def assembly_temperatures(
    hole: Size,
    shaft: Size,
    hub: ElasticMaterial | None = None,
    shaft_material: ElasticMaterial | None = None,
    slip: Micrometre | None = None,
    cold_shaft: Celsius = DRY_ICE,
    part: str = "plain steel",
    room: Celsius = ROOM,
) -> ShrinkTemperatures:
    """Temperatures at which a hub and a shaft go together without force.

    T = T0 + (U + S) / (alpha D) for the tightest pair, with a slip S to move by; for the shaft the
    expansion on cooling, with the sign turned.

    Parameters
    ----------
    hole : Size [mm]
        The bore of the outer part, with a class or limits.
    shaft : Size [mm]
        The inner part, with a class or limits and the same nominal size.
    hub : ElasticMaterial [-]
        Such as `"aluminium"`; plain steel where nothing is said.
    shaft_material : ElasticMaterial [-]
        Plain steel where nothing is said.
    slip : float [um]
        0 or more, on diameter; a thousandth of the diameter where nothing is said.
    cold_shaft : float [degC]
        -196 to room; what the shaft is cooled to if both are done. Dry ice gives -78.
    part : str [-]
        What the hub is: `open bearing`, `sealed bearing`, `hardened steel`, …, for its ceiling.
    room : float [degC]
        0 to 50.

    Returns
    -------
    ShrinkTemperatures [-]
        The hub alone, the shaft alone, and both.

    Raises
    ------
    TradeError
        There is no interference, or even both ways together do not keep below the ceiling.

    Notes
    -----
    Cold rolled parts and castings move out of round when heated; heat slowly and evenly.

    Examples
    --------
    >>> hole, shaft = Size(30, 0, 0.021, "H7"), Size(30, 0.035, 0.048, "s6")
    >>> assembly_temperatures(hole, shaft).describe()
    'heat the hub to 242 °C, or the hub to 171 °C with the shaft at -78 °C.'

    References
    ----------
    DIN 7190-1:2017; SKF, mounting rolling bearings (ceilings of bearings).
    """
    pair = fit(hole, shaft)
    if pair.interference_max <= 0:
        raise TradeError(
            f"these two sizes have a clearance of {pair.clearance_min:.3g} µm or more: they go"
            " together cold",
            argument="shaft",
        )
    if slip is None:
        slip = SLIP_SHARE * hole.nominal
    require_within("slip", slip, "µm", 0, LARGEST)
    require_within("room", room, "degC", 0, 50)
    require_within("cold_shaft", cold_shaft, "degC", LIQUID_NITROGEN, room)
    ceiling, why = _ceiling(part)
    heats = material_or_steel(hub).needed("expansion") * hole.nominal / 1000
    cools = material_or_steel(shaft_material).needed("expansion_on_cooling") * hole.nominal / 1000
    growth = pair.interference_max + slip
    coldest = room - growth / cools
    both = room + max(0.0, growth - cools * (room - cold_shaft)) / heats
    if both > ceiling:
        raise TradeError(
            f"with the shaft at {cold_shaft:g} °C the hub must still be heated to {both:.0f} °C,"
            f" beyond its ceiling of {ceiling:g} °C ({part}: {why})",
            hint="a looser class, less slip, or a colder shaft",
            argument="shaft",
        )
    return ShrinkTemperatures(
        pair.interference_max,
        slip,
        room + growth / heats,
        coldest if coldest >= LIQUID_NITROGEN else None,
        cold_shaft,
        both,
        ceiling,
        part,
    )


def _ceiling(part: str) -> tuple[float, str]:
    rows = {row["part"]: row for row in table("press_ceilings").rows}
    row = rows.get(part)
    if row is None:
        raise TradeError(
            f"{part[:40]!r} is not a part whose ceiling is known here",
            hint=f"there are {', '.join(rows)}",
            argument="part",
        )
    return float(row["ceiling_degc"]), row["why"]
