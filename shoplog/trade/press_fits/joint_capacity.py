"""What a pressed or shrunk joint holds by friction, and what smoothing takes from it."""

from __future__ import annotations

from math import pi
from typing import Annotated

from shoplog.trade.declare import In, Micrometre, Millimetre, Number, offered
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.press_fits.cylinders import DIN_7190, Megapascal, require_pressure

__all__ = ["joint_force", "joint_torque", "smoothing_loss"]

Kilonewton = Annotated[float, In("kN")]
NewtonMetre = Annotated[float, In("N*m")]


@offered(source=f"{DIN_7190}: G = 0.8 (RzA + RzI)")
def smoothing_loss(hub_roughness: Micrometre, shaft_roughness: Micrometre) -> Micrometre:
    """Interference lost when the peaks of the two surfaces are flattened.

    G = 0.8 (RzA + RzI), with Rz of the bore and of the shaft.

    Parameters
    ----------
    hub_roughness : float [um]
        0 to 1000; Rz of the bore.
    shaft_roughness : float [um]
        0 to 1000; Rz of the shaft.

    Returns
    -------
    float [um]
        Taken from the interference on diameter.

    Notes
    -----
    Rz, not Ra: a turned or bored surface has an Rz of about four to six times its Ra.

    Examples
    --------
    >>> round(smoothing_loss(6.3, 4), 2)
    8.24

    References
    ----------
    DIN 7190-1:2017 (from memory; the formula sheet that was read names G).
    """
    require_within("hub_roughness", hub_roughness, "µm", 0, 1000)
    require_within("shaft_roughness", shaft_roughness, "µm", 0, 1000)
    return 0.8 * (hub_roughness + shaft_roughness)


@offered(source=f"{DIN_7190}: F = mu p pi D L")
def joint_force(
    pressure: Megapascal, diameter: Millimetre, length: Millimetre, friction: Number
) -> Kilonewton:
    """Force along the axis that a joint holds, or that a press needs at the end of its stroke.

    F = mu p pi D L.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    length : float [mm]
        Over 0; of the joint, without chamfers.
    friction : float [-]
        0 to 1.

    Returns
    -------
    float [kN]
        Force along the axis.

    Notes
    -----
    Pressing in, it grows evenly with the length that is in.

    Examples
    --------
    >>> round(joint_force(63, 25, 20, 0.1), 2)
    9.9

    References
    ----------
    DIN 7190-1:2017; Shigley, 8th ed. 2006, section 7-8 (from memory).
    """
    require_pressure(pressure)
    require_positive("diameter", diameter, "mm")
    require_positive("length", length, "mm")
    require_within("friction", friction, "", 0, 1)
    return friction * pressure * pi * diameter * length / 1000


@offered(source=f"{DIN_7190}: T = mu p pi D^2 L / 2")
def joint_torque(
    pressure: Megapascal, diameter: Millimetre, length: Millimetre, friction: Number
) -> NewtonMetre:
    """Torque that a joint holds by friction.

    T = mu p pi D^2 L / 2.

    Parameters
    ----------
    pressure : float [MPa]
        0 or more.
    diameter : float [mm]
        Over 0; of the joint.
    length : float [mm]
        Over 0; of the joint, without chamfers.
    friction : float [-]
        0 to 1.

    Returns
    -------
    float [N*m]
        Torque at which it slips.

    Notes
    -----
    With a force along the axis at the same time the two add as the sides of a right triangle.

    Examples
    --------
    >>> round(joint_torque(60, 30, 25, 0.1), 1)
    212.1

    References
    ----------
    DIN 7190-1:2017; Shigley, 8th ed. 2006, section 7-8 (from memory).
    """
    require_pressure(pressure)
    require_positive("diameter", diameter, "mm")
    require_positive("length", length, "mm")
    require_within("friction", friction, "", 0, 1)
    return friction * pressure * pi * diameter**2 * length / 2000
