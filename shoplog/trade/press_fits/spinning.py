"""A joint that turns: what its hub leaves the shaft by, when it lets go, and what pulls on it.

Hub and shaft as plain rings or discs of even thickness, in plane stress and elastic.
"""

from __future__ import annotations

from math import pi, sqrt
from typing import Annotated

from shoplog.trade.declare import (
    In,
    Micrometre,
    Millimetre,
    Number,
    RevPerMinute,
    TradeError,
    offered,
)
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within
from shoplog.trade.press_fits.cylinders import require_hub, require_shaft

__all__ = ["FLIES", "centrifugal_loss", "loosening_speed", "spinning_hub_stress"]

Gigapascal = Annotated[float, In("GPa")]
Megapascal = Annotated[float, In("MPa")]
KilogramPerCubicMetre = Annotated[float, In("kg/m^3")]

ROTATING_DISC = (
    "rotating discs: Ugural and Fenster, Advanced Strength and Applied Elasticity, chapter 8"
    " (from memory)"
)
FLIES = (
    "a joint that loosens at speed lets its part fly: guard it, stay well below this speed, and"
    " keep to the speed marked on the part; the machine's manual decides"
)


def _require_turning(
    diameter: float, hub_diameter: float, shaft_bore: float, figures: dict[str, float]
) -> None:
    require_hub(diameter, hub_diameter)
    require_shaft(diameter, shaft_bore)
    for argument, value in figures.items():
        if argument.endswith("density"):
            require_within(argument, value, "kg/m^3", 100, 25000)
        elif argument.endswith("modulus"):
            require_within(argument, value, "GPa", 0.01, 1000)
        else:
            require_within(argument, value, "", 0, 0.5)


@offered(source=ROTATING_DISC)
def centrifugal_loss(
    speed: RevPerMinute,
    diameter: Millimetre,
    hub_diameter: Millimetre,
    shaft_bore: Millimetre = 0,
    hub_density: KilogramPerCubicMetre = 7850,
    hub_modulus: Gigapascal = 207,
    hub_poisson: Number = 0.3,
    shaft_density: KilogramPerCubicMetre = 7850,
    shaft_modulus: Gigapascal = 207,
    shaft_poisson: Number = 0.3,
) -> Micrometre:
    """Interference on diameter that is lost when hub and shaft turn.

    The hub's bore grows by rho w^2 D ((3 + v) Da^2 + (1 - v) D^2) / (16 E), the shaft by
    rho w^2 D ((1 - v) D^2 + (3 + v) Di^2) / (16 E); the loss is the difference.

    Parameters
    ----------
    speed : float [rpm]
        0 to 1e6.
    diameter : float [mm]
        Over 0; of the joint.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.
    shaft_bore : float [mm]
        0 for a solid shaft, below the diameter.
    hub_density : float [kg/m^3]
        100 to 25000.
    hub_modulus : float [GPa]
        0.01 to 1000.
    hub_poisson : float [-]
        0 to 0.5.
    shaft_density : float [kg/m^3]
        100 to 25000.
    shaft_modulus : float [GPa]
        0.01 to 1000.
    shaft_poisson : float [-]
        0 to 0.5.

    Returns
    -------
    float [um]
        Loss on diameter; below 0 where a heavy hollow shaft grows more than its hub.

    Notes
    -----
    It grows with the square of the speed.

    Examples
    --------
    >>> round(centrifugal_loss(6900, 100, 500, 0, 7800, 200, 0.3, 7800, 200, 0.3), 1)
    105.0

    References
    ----------
    Ugural and Fenster, Advanced Strength and Applied Elasticity, chapter 8 (from memory).
    """
    require_within("speed", speed, "rpm", 0, 1e6)
    _require_turning(
        diameter,
        hub_diameter,
        shaft_bore,
        {
            "hub_density": hub_density,
            "hub_modulus": hub_modulus,
            "hub_poisson": hub_poisson,
            "shaft_density": shaft_density,
            "shaft_modulus": shaft_modulus,
            "shaft_poisson": shaft_poisson,
        },
    )
    return (
        (pi * speed / 30) ** 2
        * diameter
        / 16e12
        * (
            hub_density
            / hub_modulus
            * ((3 + hub_poisson) * hub_diameter**2 + (1 - hub_poisson) * diameter**2)
            - shaft_density
            / shaft_modulus
            * ((1 - shaft_poisson) * diameter**2 + (3 + shaft_poisson) * shaft_bore**2)
        )
    )


@offered(source=ROTATING_DISC, cautions=(FLIES,))
def loosening_speed(
    interference: Micrometre,
    diameter: Millimetre,
    hub_diameter: Millimetre,
    shaft_bore: Millimetre = 0,
    hub_density: KilogramPerCubicMetre = 7850,
    hub_modulus: Gigapascal = 207,
    hub_poisson: Number = 0.3,
    shaft_density: KilogramPerCubicMetre = 7850,
    shaft_modulus: Gigapascal = 207,
    shaft_poisson: Number = 0.3,
) -> RevPerMinute:
    """Speed at which the pressure in a joint is gone.

    The loss of interference grows with the square of the speed, so n = sqrt(U / loss at 1 rpm).

    Parameters
    ----------
    interference : float [um]
        0 or more, on diameter: what is left after smoothing, at the running temperature.
    diameter : float [mm]
        Over 0; of the joint.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.
    shaft_bore : float [mm]
        0 for a solid shaft, below the diameter.
    hub_density : float [kg/m^3]
        100 to 25000.
    hub_modulus : float [GPa]
        0.01 to 1000.
    hub_poisson : float [-]
        0 to 0.5.
    shaft_density : float [kg/m^3]
        100 to 25000.
    shaft_modulus : float [GPa]
        0.01 to 1000.
    shaft_poisson : float [-]
        0 to 0.5.

    Returns
    -------
    float [rpm]
        Speed at which it loosens; it holds no torque there.

    Raises
    ------
    TradeError
        The shaft grows more than the hub, so that speed tightens the joint.

    Notes
    -----
    The hub may burst before it loosens: see `spinning_hub_stress`.

    Examples
    --------
    >>> round(loosening_speed(105.2, 100, 500, 0, 7800, 200, 0.3, 7800, 200, 0.3))
    6907

    References
    ----------
    Ugural and Fenster, Advanced Strength and Applied Elasticity, chapter 8 (from memory).
    """
    require_within("interference", interference, "µm", 0, LARGEST)
    loss_at_1_rpm = centrifugal_loss(
        1,
        diameter,
        hub_diameter,
        shaft_bore,
        hub_density,
        hub_modulus,
        hub_poisson,
        shaft_density,
        shaft_modulus,
        shaft_poisson,
    )
    if not loss_at_1_rpm > 0:
        raise TradeError(
            "this joint does not loosen with speed: its shaft grows more than its hub",
            hint="the hub's own stress sets the limit: spinning_hub_stress",
            argument="hub_diameter",
        )
    return sqrt(interference / loss_at_1_rpm)


@offered(source=ROTATING_DISC, cautions=(FLIES,))
def spinning_hub_stress(
    speed: RevPerMinute,
    diameter: Millimetre,
    hub_diameter: Millimetre,
    density: KilogramPerCubicMetre = 7850,
    poisson: Number = 0.3,
) -> Megapascal:
    """Pull round the bore of a hub from its own speed, without the pressure of the joint.

    sigma = rho w^2 ((3 + v) Da^2 + (1 - v) D^2) / 16.

    Parameters
    ----------
    speed : float [rpm]
        0 to 1e6.
    diameter : float [mm]
        Over 0; of the bore.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.
    density : float [kg/m^3]
        100 to 25000.
    poisson : float [-]
        0 to 0.5.

    Returns
    -------
    float [MPa]
        Hoop stress at the bore, the greatest in the hub.

    Notes
    -----
    Of a plain disc; spokes, keyways and holes raise it.

    Examples
    --------
    >>> round(spinning_hub_stress(6900, 100, 500, 7800))
    212

    References
    ----------
    Ugural and Fenster, Advanced Strength and Applied Elasticity, chapter 8 (from memory).
    """
    require_within("speed", speed, "rpm", 0, 1e6)
    require_hub(diameter, hub_diameter)
    require_positive("density", density, "kg/m^3")
    require_within("density", density, "kg/m^3", 100, 25000)
    require_within("poisson", poisson, "", 0, 0.5)
    return (
        density
        * (pi * speed / 30) ** 2
        * ((3 + poisson) * hub_diameter**2 + (1 - poisson) * diameter**2)
        / 16e12
    )
