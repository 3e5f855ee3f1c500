"""A press fit at work: what is left of it at its running temperatures and its running speed."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from shoplog.trade.declare import Micrometre, Number, RevPerMinute, TradeError, offered
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.press_fits.cylinders import DIN_7190, Megapascal, hub_hoop_stress
from shoplog.trade.press_fits.joint_capacity import (
    Kilonewton,
    NewtonMetre,
    joint_force,
    joint_torque,
)
from shoplog.trade.press_fits.press_record import PressFit
from shoplog.trade.press_fits.shrinking import ROOM, Celsius, require_temperature
from shoplog.trade.press_fits.spinning import (
    FLIES,
    centrifugal_loss,
    loosening_speed,
    spinning_hub_stress,
)

__all__ = ["RunningJoint", "running_joint"]


@dataclass(frozen=True, slots=True)
class RunningJoint:
    """A joint at its running temperatures and speed."""

    joint: PressFit
    hub_temperature: Celsius
    shaft_temperature: Celsius
    speed: RevPerMinute
    interference_min: Micrometre
    """Left in the loosest pair, after smoothing; below 0 it is loose."""
    interference_max: Micrometre

    @property
    def pressure_min(self) -> Megapascal:
        """Of the loosest pair; 0 where it is loose."""
        return self.joint.wall().pressure(self.interference_min)

    @property
    def pressure_max(self) -> Megapascal:
        """Of the tightest pair."""
        return self.joint.wall().pressure(self.interference_max)

    @property
    def torque_min(self) -> NewtonMetre:
        """Held by the loosest pair at the least friction."""
        joint = self.joint
        return joint_torque(self.pressure_min, joint.diameter, joint.length, joint.friction.least)

    @property
    def force_min(self) -> Kilonewton:
        """Along the axis, held by the loosest pair at the least friction."""
        joint = self.joint
        return joint_force(self.pressure_min, joint.diameter, joint.length, joint.friction.least)

    @property
    def loosening_speed(self) -> RevPerMinute | None:
        """At which the loosest pair lets go, at these temperatures; none where none is known."""
        if self.joint.hub.density is None or self.joint.shaft.density is None:
            return None
        still = self.interference_min + self._lost(self.speed)
        if still <= 0:
            return 0.0
        return loosening_speed(still, *_spun(self.joint)) if self._lost(1.0) > 0 else None

    def _lost(self, speed: float) -> float:
        return centrifugal_loss(speed, *_spun(self.joint))

    @property
    def hub_stress_max(self) -> Megapascal:
        """Equivalent stress at the hub's bore from pressure and speed together, tightest pair."""
        joint, pressure = self.joint, self.pressure_max
        hoop = hub_hoop_stress(pressure, joint.diameter, joint.hub_diameter)
        if self.speed:
            density, poisson = joint.hub.needed("density"), joint.hub.poisson
            hoop += spinning_hub_stress(
                self.speed, joint.diameter, joint.hub_diameter, density, poisson
            )
        return sqrt(hoop**2 + hoop * pressure + pressure**2)

    @property
    def hub_safety(self) -> Number | None:
        """Yield strength of the hub, at room temperature, over its equivalent stress."""
        strength, stress = self.joint.hub.yield_strength, self.hub_stress_max
        return None if strength is None or not stress else strength / stress

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of a joint that turns."""
        return (FLIES,) if self.speed else ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What the figures do not say."""
        made = ["strengths are those at room temperature; a start or a stop may be worse"]
        if self.interference_min <= 0:
            made.append("the loosest pair is loose at this temperature and speed: it holds nothing")
        return tuple(made)

    def describe(self) -> str:
        """The joint in one sentence."""
        return (
            f"at {self.speed:.0f} rpm, hub {self.hub_temperature:g} °C and shaft"
            f" {self.shaft_temperature:g} °C, {self.interference_min:.0f} to"
            f" {self.interference_max:.0f} µm are left: it holds {self.torque_min:.3g} N·m or"
            f" {self.force_min:.3g} kN at the least."
        )


def _spun(joint: PressFit) -> tuple[float, ...]:
    hub, shaft = joint.hub, joint.shaft
    return (
        *(joint.diameter, joint.hub_diameter, joint.shaft_bore),
        *(hub.needed("density"), hub.youngs_modulus, hub.poisson),
        *(shaft.needed("density"), shaft.youngs_modulus, shaft.poisson),
    )


@offered(source=f"{DIN_7190}; rotating discs, Timoshenko, Strength of Materials II (from memory)")
def running_joint(
    joint: PressFit,
    hub_temperature: Celsius = ROOM,
    shaft_temperature: Celsius = ROOM,
    speed: RevPerMinute = 0,
) -> RunningJoint:
    """What is left of a press fit at running temperatures and at a running speed.

    The interference after smoothing, with what the two parts grow by heat, less what the hub
    leaves the shaft by when both turn.

    Parameters
    ----------
    joint : PressFit [-]
        As `press_fit` gives it.
    hub_temperature : float [degC]
        -196 to 350.
    shaft_temperature : float [degC]
        -196 to 350.
    speed : float [rpm]
        0 to 1e6.

    Returns
    -------
    RunningJoint [-]
        Interference, pressure, torque and force left, its loosening speed, and the hub's stress.

    Raises
    ------
    TradeError
        The hub would yield, or a figure of a material is not known.

    Notes
    -----
    Hub and shaft each at one temperature all through, and the hub a plain ring of its outside
    diameter: arms and teeth pull on it harder.

    Examples
    --------
    >>> from shoplog.trade.declare import Size
    >>> from shoplog.trade.press_fits.elastic import ElasticMaterial
    >>> from shoplog.trade.press_fits.pressing import press_fit
    >>> hole, shaft = Size(30, 0, 0.021, "H7"), Size(30, 0.035, 0.048, "s6")
    >>> joint = press_fit(hole, shaft, 25, 60, hub=ElasticMaterial.from_text("aluminium"))
    >>> round(running_joint(joint, 60, 60).interference_max, 1)
    23.6

    References
    ----------
    DIN 7190-1:2017; Timoshenko, Strength of Materials, Part II (from memory).
    """
    require_temperature("hub_temperature", hub_temperature)
    require_temperature("shaft_temperature", shaft_temperature)
    require_within("speed", speed, "rpm", 0, 1e6)
    change = -_lost_to_speed(joint, speed) + _won_by_heat(joint, hub_temperature, shaft_temperature)
    least, most = (
        raw - joint.smoothing + change for raw in (joint.interference_min, joint.interference_max)
    )
    made = RunningJoint(joint, hub_temperature, shaft_temperature, speed, least, most)
    safety = made.hub_safety
    if safety is not None and safety < 1:
        raise TradeError(
            f"the hub gives way at this temperature and speed: its equivalent stress is"
            f" {made.hub_stress_max:.0f} MPa, and {joint.hub.name} bears"
            f" {joint.hub.yield_strength:g} MPa",
            hint="a lower speed, less interference or a stronger hub",
            argument="speed" if speed else "joint",
        )
    return made


def _lost_to_speed(joint: PressFit, speed: float) -> float:
    return centrifugal_loss(speed, *_spun(joint)) if speed else 0.0


def _won_by_heat(joint: PressFit, hub_temperature: float, shaft_temperature: float) -> float:
    won = 0.0
    for material, temperature, sign in (
        (joint.shaft, shaft_temperature, 1),
        (joint.hub, hub_temperature, -1),
    ):
        if temperature != ROOM:
            figure = "expansion" if temperature > ROOM else "expansion_on_cooling"
            won += sign * material.needed(figure) * joint.diameter * (temperature - ROOM) / 1000
    return won
