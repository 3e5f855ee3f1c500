"""How the stress of a joint runs through the walls of hub and shaft, to Lamé."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from shoplog.trade.declare import In, Millimetre, offered
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.press_fits.cylinders import LAME, require_hub, require_pressure, require_shaft

__all__ = ["WallStress", "hub_wall_stress", "shaft_wall_stress"]

Megapascal = Annotated[float, In("MPa")]


@dataclass(frozen=True, slots=True)
class WallStress:
    """The stress at one diameter of a wall; below 0 it is compression."""

    at: Millimetre
    """Diameter of the place in the wall."""
    hoop: Megapascal
    """Round the wall."""
    radial: Megapascal
    """Across the wall."""

    def describe(self) -> str:
        """The stress in one sentence."""
        return (
            f"at {self.at:.3f} mm diameter: {self.hoop:.1f} MPa round the wall,"
            f" {self.radial:.1f} MPa across it."
        )


@offered(source=f"{LAME}, eq. 3-49 and 3-50")
def hub_wall_stress(
    pressure: Megapascal, diameter: Millimetre, hub_diameter: Millimetre, at: Millimetre
) -> WallStress:
    """Stress in the wall of a hub, at a diameter between its bore and its outside.

    sigma_t = p D^2 / (Da^2 - D^2) (1 + Da^2 / x^2) round it, sigma_r the same with a minus.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    hub_diameter : float [mm]
        Outside of the hub, over the diameter.
    at : float [mm]
        The diameter asked about, from the joint's to the hub's.

    Returns
    -------
    WallStress [-]
        Hoop stress (tension) and radial stress (compression).

    Notes
    -----
    Elastic, and long beside its wall; a keyway or an oil hole raises it at its edge.

    Examples
    --------
    >>> found = hub_wall_stress(60, 30, 60, 30)
    >>> found.hoop, found.radial, hub_wall_stress(60, 30, 60, 60).hoop
    (100.0, -60.0, 40.0)

    References
    ----------
    Shigley, 8th ed. 2006, section 3-14 (eq. 3-49 and 3-50).
    """
    require_pressure(pressure)
    require_hub(diameter, hub_diameter)
    require_within("at", at, "mm", diameter, hub_diameter)
    inner, outer = (diameter / hub_diameter) ** 2, (hub_diameter / at) ** 2
    shared = pressure * inner / (1 - inner)
    return WallStress(at, shared * (1 + outer), shared * (1 - outer))


@offered(source=f"{LAME}, eq. 3-49 and 3-50")
def shaft_wall_stress(
    pressure: Megapascal, diameter: Millimetre, shaft_bore: Millimetre, at: Millimetre
) -> WallStress:
    """Stress in the wall of a shaft or a bush, at a diameter between its bore and the joint.

    sigma_t = -p D^2 / (D^2 - Di^2) (1 + Di^2 / x^2) round it, sigma_r with a minus; -p all through
    a solid shaft.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    shaft_bore : float [mm]
        0 for a solid shaft, below the diameter.
    at : float [mm]
        The diameter asked about, from the bore's to the joint's.

    Returns
    -------
    WallStress [-]
        Hoop stress and radial stress, both compression.

    Notes
    -----
    From the joint alone: bending and torque in the shaft come on top.

    Examples
    --------
    >>> found = shaft_wall_stress(30, 40, 20, 20)
    >>> found.hoop, found.radial, shaft_wall_stress(30, 40, 20, 40).hoop
    (-80.0, 0.0, -50.0)

    References
    ----------
    Shigley, 8th ed. 2006, section 3-14 (eq. 3-49 and 3-50).
    """
    require_pressure(pressure)
    require_shaft(diameter, shaft_bore)
    require_within("at", at, "mm", shaft_bore, diameter)
    # At the axis of a solid shaft there is no bore to divide by.
    inner = (shaft_bore / at) ** 2 if shaft_bore else 0.0
    shared = -pressure / (1 - (shaft_bore / diameter) ** 2)
    return WallStress(at, shared * (1 + inner), 0.0 + shared * (1 - inner))
