"""Thick cylinders to Lamé: the pressure of an interference, and the stress and change of size.

A hub (the outer part) on a shaft (the inner part), both long and round, in plane stress and in the
elastic range, as DIN 7190-1 takes them. A shaft without a bore has a bore of 0.
"""

from __future__ import annotations

from math import sqrt
from typing import Annotated

from shoplog.trade.declare import In, Micrometre, Millimetre, Number, TradeError, offered
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within

__all__ = [
    "bore_closure",
    "hub_equivalent_stress",
    "hub_hoop_stress",
    "lame_interference",
    "lame_pressure",
    "require_hub",
    "require_pressure",
    "require_shaft",
    "shaft_equivalent_stress",
    "shaft_hoop_stress",
]

Gigapascal = Annotated[float, In("GPa")]
Megapascal = Annotated[float, In("MPa")]

LAME = "Lamé's thick cylinder; Shigley, Mechanical Engineering Design, 8th ed. 2006, 3-14 to 3-16"
DIN_7190 = "DIN 7190-1:2017 (as quoted in a university's formula sheet)"
# A thinner wall is a foil: and below it the squares of two diameters can no longer be told apart.
LEAST_WALL = 1e-6  # of the diameter


def require_hub(diameter: float, hub_diameter: float) -> None:
    """Refuse a joint of no size, or a hub without a wall."""
    require_positive("diameter", diameter, "mm")
    require_positive("hub_diameter", hub_diameter, "mm")
    if not hub_diameter >= diameter * (1 + LEAST_WALL):
        raise TradeError(
            f"the hub's wall is {(hub_diameter - diameter) / 2:g} mm thick, it must be over 0 mm:"
            f" {hub_diameter:g} mm outside on {diameter:g} mm",
            hint="hub_diameter is the outside of the hub",
            argument="hub_diameter",
        )


def require_shaft(diameter: float, shaft_bore: float) -> None:
    """Refuse a joint of no size, or a hollow shaft without a wall."""
    require_positive("diameter", diameter, "mm")
    require_within("shaft_bore", shaft_bore, "mm", 0, LARGEST)
    if not shaft_bore * (1 + LEAST_WALL) <= diameter:
        raise TradeError(
            f"the shaft's wall is {(diameter - shaft_bore) / 2:g} mm thick, it must be over 0 mm:"
            f" {shaft_bore:g} mm bored in {diameter:g} mm",
            hint="shaft_bore is the hole through the inner part; 0 mm for a solid one",
            argument="shaft_bore",
        )


def _require_elastic(part: str, modulus: float, poisson: float) -> None:
    require_within(f"{part}_modulus", modulus, "GPa", 0.01, 1000)
    require_within(f"{part}_poisson", poisson, "", 0, 0.5)


def require_pressure(pressure: float) -> None:
    """Refuse a pressure below 0, or of no workshop."""
    require_within("pressure", pressure, "MPa", 0, LARGEST)


@offered(source=f"{LAME}, eq. 3-56; {DIN_7190}")
def lame_pressure(
    interference: Micrometre,
    diameter: Millimetre,
    hub_diameter: Millimetre,
    shaft_bore: Millimetre = 0,
    hub_modulus: Gigapascal = 207,
    hub_poisson: Number = 0.3,
    shaft_modulus: Gigapascal = 207,
    shaft_poisson: Number = 0.3,
) -> Megapascal:
    """Pressure in the joint that an interference on diameter makes.

    p = U / (D (((Da^2 + D^2)/(Da^2 - D^2) + va)/Ea + ((D^2 + Di^2)/(D^2 - Di^2) - vi)/Ei)).

    Parameters
    ----------
    interference : float [um]
        0 or more, on diameter: what is left after the surfaces are smoothed.
    diameter : float [mm]
        Over 0; of the joint.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.
    shaft_bore : float [mm]
        0 for a solid shaft, below the diameter.
    hub_modulus : float [GPa]
        0.01 to 1000; Young's modulus.
    hub_poisson : float [-]
        0 to 0.5.
    shaft_modulus : float [GPa]
        0.01 to 1000.
    shaft_poisson : float [-]
        0 to 0.5.

    Returns
    -------
    float [MPa]
        Pressure in the joint.

    Notes
    -----
    Even along the joint; at the ends of a hub on a longer shaft it is higher. Elastic only.

    Examples
    --------
    >>> round(lame_pressure(59, 40, 80), 1)
    114.5

    References
    ----------
    Shigley, 8th ed. 2006, section 3-16 (eq. 3-56, its number from memory); DIN 7190-1:2017.
    """
    require_within("interference", interference, "µm", 0, LARGEST)
    require_hub(diameter, hub_diameter)
    require_shaft(diameter, shaft_bore)
    _require_elastic("hub", hub_modulus, hub_poisson)
    _require_elastic("shaft", shaft_modulus, shaft_poisson)
    return interference / (
        diameter
        * (
            ((hub_diameter**2 + diameter**2) / (hub_diameter**2 - diameter**2) + hub_poisson)
            / hub_modulus
            + ((diameter**2 + shaft_bore**2) / (diameter**2 - shaft_bore**2) - shaft_poisson)
            / shaft_modulus
        )
    )


@offered(source=f"{LAME}, eq. 3-56; {DIN_7190}")
def lame_interference(
    pressure: Megapascal,
    diameter: Millimetre,
    hub_diameter: Millimetre,
    shaft_bore: Millimetre = 0,
    hub_modulus: Gigapascal = 207,
    hub_poisson: Number = 0.3,
    shaft_modulus: Gigapascal = 207,
    shaft_poisson: Number = 0.3,
) -> Micrometre:
    """Interference on diameter that a pressure in the joint asks for.

    U = p D (((Da^2 + D^2)/(Da^2 - D^2) + va)/Ea + ((D^2 + Di^2)/(D^2 - Di^2) - vi)/Ei).

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.
    shaft_bore : float [mm]
        0 for a solid shaft, below the diameter.
    hub_modulus : float [GPa]
        0.01 to 1000; Young's modulus.
    hub_poisson : float [-]
        0 to 0.5.
    shaft_modulus : float [GPa]
        0.01 to 1000.
    shaft_poisson : float [-]
        0 to 0.5.

    Returns
    -------
    float [um]
        Interference, to which the loss by smoothing is added.

    Notes
    -----
    `lame_pressure` the other way round.

    Examples
    --------
    >>> round(lame_interference(30, 250, 300, 200, 200, 0.3, 200, 0.3))
    379

    References
    ----------
    Shigley, 8th ed. 2006, section 3-16 (eq. 3-56, its number from memory); DIN 7190-1:2017.
    """
    require_pressure(pressure)
    require_hub(diameter, hub_diameter)
    require_shaft(diameter, shaft_bore)
    _require_elastic("hub", hub_modulus, hub_poisson)
    _require_elastic("shaft", shaft_modulus, shaft_poisson)
    return (
        pressure
        * diameter
        * (
            ((hub_diameter**2 + diameter**2) / (hub_diameter**2 - diameter**2) + hub_poisson)
            / hub_modulus
            + ((diameter**2 + shaft_bore**2) / (diameter**2 - shaft_bore**2) - shaft_poisson)
            / shaft_modulus
        )
    )


@offered(source=f"{LAME}, eq. 3-50")
def hub_hoop_stress(
    pressure: Megapascal, diameter: Millimetre, hub_diameter: Millimetre
) -> Megapascal:
    """Pull round the bore of a hub under the pressure of its joint.

    sigma = p (Da^2 + D^2) / (Da^2 - D^2), the greatest in the hub, and tension.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.

    Returns
    -------
    float [MPa]
        Hoop stress at the bore.

    Notes
    -----
    A keyway or an oil hole in the hub raises it two to three times at its edge.

    Examples
    --------
    >>> round(hub_hoop_stress(22.5, 1, 2), 1)
    37.5

    References
    ----------
    Shigley, 8th ed. 2006, eq. 3-50.
    """
    require_pressure(pressure)
    require_hub(diameter, hub_diameter)
    return pressure * (hub_diameter**2 + diameter**2) / (hub_diameter**2 - diameter**2)


@offered(source=f"{LAME}, eq. 3-49")
def shaft_hoop_stress(
    pressure: Megapascal, diameter: Millimetre, shaft_bore: Millimetre = 0
) -> Megapascal:
    """Greatest squeeze round a shaft under the pressure of its joint, as a negative stress.

    sigma = -2 p D^2 / (D^2 - Di^2) at the bore of a hollow shaft, and -p all through a solid one.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    shaft_bore : float [mm]
        0 for a solid shaft, below the diameter.

    Returns
    -------
    float [MPa]
        Hoop stress, below 0: compression.

    Notes
    -----
    However small a bore is, it doubles the stress at its edge.

    Examples
    --------
    >>> shaft_hoop_stress(50, 40), shaft_hoop_stress(50, 40, 20)
    (-50.0, -133.33)

    References
    ----------
    Shigley, 8th ed. 2006, eq. 3-49.
    """
    require_pressure(pressure)
    require_shaft(diameter, shaft_bore)
    if shaft_bore == 0:
        return -1.0 * pressure
    return -2 * pressure * diameter**2 / (diameter**2 - shaft_bore**2)


@offered(source=f"{LAME}; von Mises' equivalent stress of the two")
def hub_equivalent_stress(
    pressure: Megapascal, diameter: Millimetre, hub_diameter: Millimetre
) -> Megapascal:
    """Equivalent stress at the bore of a hub, to compare with its yield strength.

    sigma_v = p sqrt(3 Da^4 + D^4) / (Da^2 - D^2): von Mises of the hoop stress and of -p.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.

    Returns
    -------
    float [MPa]
        Equivalent stress at the bore, the greatest in the hub.

    Notes
    -----
    DIN 7190-1 takes sqrt(3) p / (1 - (D/Da)^2), which is up to 13 % less in a thin hub.

    Examples
    --------
    >>> round(hub_equivalent_stress(60, 30, 60), 1)
    140.0

    References
    ----------
    Shigley, 8th ed. 2006, eq. 3-50 and 5-13 (from memory); DIN 7190-1:2017.
    """
    require_pressure(pressure)
    require_hub(diameter, hub_diameter)
    return pressure * sqrt(3 * hub_diameter**4 + diameter**4) / (hub_diameter**2 - diameter**2)


@offered(source=f"{LAME}; von Mises' equivalent stress")
def shaft_equivalent_stress(
    pressure: Megapascal, diameter: Millimetre, shaft_bore: Millimetre = 0
) -> Megapascal:
    """Equivalent stress in a shaft under the pressure of its joint, to compare with yield.

    sigma_v = 2 p D^2 / (D^2 - Di^2) at the bore of a hollow shaft, and p in a solid one.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    shaft_bore : float [mm]
        0 for a solid shaft, below the diameter.

    Returns
    -------
    float [MPa]
        Equivalent stress, the greatest in the shaft.

    Notes
    -----
    From the joint alone: bending and torque in the shaft come on top. DIN 7190-1 allows 15 % more.

    Examples
    --------
    >>> shaft_equivalent_stress(50, 40), round(shaft_equivalent_stress(50, 40, 20), 2)
    (50.0, 133.33)

    References
    ----------
    Shigley, 8th ed. 2006, eq. 3-49 and 5-13 (from memory); DIN 7190-1:2017.
    """
    return -1 * shaft_hoop_stress(pressure, diameter, shaft_bore)


@offered(source=f"{LAME}: displacement at the bore, u = 2 p b^2 a / (E (b^2 - a^2))")
def bore_closure(
    pressure: Megapascal,
    diameter: Millimetre,
    bore: Millimetre,
    modulus: Gigapascal = 207,
) -> Micrometre:
    """How much the bore of a bush or hollow shaft closes under the pressure of its joint.

    closure = 2 p D^2 d / (E (D^2 - d^2)), on the diameter d of the bore.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint, which is the outside of the bush.
    bore : float [mm]
        Over 0, below the diameter.
    modulus : float [GPa]
        0.01 to 1000; Young's modulus of the bush.

    Returns
    -------
    float [um]
        By how much the bore is smaller, on diameter.

    Notes
    -----
    Elastic and evenly round; a thin bush takes the housing's errors of form on besides.

    Examples
    --------
    >>> round(bore_closure(25, 20, 16, 100), 1)
    22.2

    References
    ----------
    Shigley, 8th ed. 2006, section 3-16, with the displacement of Lamé's solution (from memory).
    """
    require_pressure(pressure)
    require_positive("bore", bore, "mm")
    require_shaft(diameter, bore)
    require_within("modulus", modulus, "GPa", 0.01, 1000)
    return 2 * pressure * diameter**2 * bore / (modulus * (diameter**2 - bore**2))
