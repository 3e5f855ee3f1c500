"""A press fit as a record: its friction, its two walls, and what the figures of both give."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Annotated, Self

from shoplog.tables import table
from shoplog.trade.declare import In, Micrometre, Millimetre, Number, TradeError
from shoplog.trade.press_fits.cylinders import (
    bore_closure,
    hub_equivalent_stress,
    hub_hoop_stress,
    lame_interference,
    lame_pressure,
    shaft_equivalent_stress,
    shaft_hoop_stress,
)
from shoplog.trade.press_fits.elastic import ElasticMaterial
from shoplog.trade.press_fits.joint_capacity import joint_force, joint_torque

__all__ = ["JointFriction", "PressFit", "Wall", "press_cautions", "unknown_friction"]

Megapascal = Annotated[float, In("MPa")]
Kilonewton = Annotated[float, In("kN")]
NewtonMetre = Annotated[float, In("N*m")]


def press_cautions(*when: str) -> tuple[str, ...]:
    """The cautions that belong to a kind of work."""
    return tuple(row["caution"] for row in table("press_cautions").rows if row["when"] in when)


@dataclass(frozen=True, slots=True)
class JointFriction:
    """The friction of a joint: what it is counted on for, and what it may reach."""

    state: str
    least: Number
    greatest: Number

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The friction of a state in the table: `pressed dry`, `shrunk degreased`."""
        rows = {row["state"]: row for row in table("press_friction").rows}
        row = rows.get(" ".join(text.split()).casefold()) if len(text) <= 60 else None
        if row is None:
            raise TradeError(
                f"{text[:40]!r} is not a state of a joint that is known here",
                hint=f"there are {', '.join(rows)}; or joint_friction(0.1, 0.16)",
                argument="friction",
            )
        return cls(row["state"], float(row["least"]), float(row["greatest"]))

    def describe(self) -> str:
        """The friction in one sentence."""
        return f"Friction {self.least:g} to {self.greatest:g} ({self.state})."


@dataclass(frozen=True, slots=True)
class Wall:
    """The two parts of a joint by their diameters and materials; a solid shaft has a bore of 0."""

    diameter: float
    hub_diameter: float
    shaft_bore: float
    hub: ElasticMaterial
    shaft: ElasticMaterial

    def pressure(self, interference: float) -> float:
        """Pressure of an interference; none where there is a gap."""
        return lame_pressure(max(interference, 0.0), *self._figures())

    def interference(self, pressure: float) -> float:
        """Interference of a pressure."""
        return lame_interference(pressure, *self._figures())

    def _figures(self) -> tuple[float, ...]:
        return (
            *(self.diameter, self.hub_diameter, self.shaft_bore),
            *(self.hub.youngs_modulus, self.hub.poisson),
            *(self.shaft.youngs_modulus, self.shaft.poisson),
        )

    def equivalent(self, part: str, pressure: float) -> float:
        """Equivalent stress in the hub or the shaft."""
        if part == "hub":
            return hub_equivalent_stress(pressure, self.diameter, self.hub_diameter)
        return shaft_equivalent_stress(pressure, self.diameter, self.shaft_bore)

    def safety(self, part: str, pressure: float) -> float | None:
        """Yield strength over equivalent stress, where the strength is known."""
        strength = (self.hub if part == "hub" else self.shaft).yield_strength
        return None if strength is None else strength / self.equivalent(part, pressure)

    def closure(self, pressure: float) -> float:
        """How much the inner part's bore closes; 0 for a solid one."""
        if not self.shaft_bore:
            return 0.0
        modulus = self.shaft.youngs_modulus
        return bore_closure(pressure, self.diameter, self.shaft_bore, modulus)

    def growth(self, pressure: float) -> float:
        """How much the outside of the hub grows."""
        squares = self.hub_diameter**2 - self.diameter**2
        return (
            2
            * pressure
            * self.diameter**2
            * self.hub_diameter
            / (self.hub.youngs_modulus * squares)
        )


@dataclass(frozen=True, slots=True)
class PressFit:
    """A pressed or shrunk joint at room temperature and at rest."""

    diameter: Millimetre
    length: Millimetre
    hub_diameter: Millimetre
    shaft_bore: Millimetre
    hub: ElasticMaterial
    shaft: ElasticMaterial
    friction: JointFriction
    interference_min: Micrometre
    """On diameter, of the loosest pair, before smoothing; below 0 it is a gap."""
    interference_max: Micrometre
    smoothing: Micrometre
    """Lost when the surfaces are smoothed."""

    @property
    def pressure_min(self) -> Megapascal:
        """Of the loosest pair; 0 where it has no interference left."""
        return self.wall().pressure(self.interference_min - self.smoothing)

    @property
    def pressure_max(self) -> Megapascal:
        """Of the tightest pair."""
        return self.wall().pressure(self.interference_max - self.smoothing)

    @property
    def hub_hoop_max(self) -> Megapascal:
        """Pull round the hub's bore, tightest pair."""
        return hub_hoop_stress(self.pressure_max, self.diameter, self.hub_diameter)

    @property
    def shaft_hoop_max(self) -> Megapascal:
        """Squeeze round the shaft, tightest pair; below 0."""
        return shaft_hoop_stress(self.pressure_max, self.diameter, self.shaft_bore)

    @property
    def hub_stress_max(self) -> Megapascal:
        """Equivalent stress in the hub, tightest pair."""
        return self.wall().equivalent("hub", self.pressure_max)

    @property
    def shaft_stress_max(self) -> Megapascal:
        """Equivalent stress in the shaft, tightest pair."""
        return self.wall().equivalent("shaft", self.pressure_max)

    @property
    def hub_safety(self) -> Number | None:
        """Yield strength of the hub over its equivalent stress."""
        return self.wall().safety("hub", self.pressure_max)

    @property
    def shaft_safety(self) -> Number | None:
        """Yield strength of the shaft over its equivalent stress."""
        return self.wall().safety("shaft", self.pressure_max)

    @property
    def gives_way_first(self) -> str | None:
        """`hub` or `shaft`: which of the two would yield first."""
        hub, shaft = self.hub_safety, self.shaft_safety
        if hub is None or shaft is None:
            return None
        return "hub" if hub <= shaft else "shaft"

    @property
    def force_min(self) -> Kilonewton:
        """Along the axis, held by the loosest pair at the least friction."""
        return joint_force(self.pressure_min, self.diameter, self.length, self.friction.least)

    @property
    def press_force_max(self) -> Kilonewton:
        """To press the tightest pair together, at the end of the stroke, at the most friction."""
        return joint_force(self.pressure_max, self.diameter, self.length, self.friction.greatest)

    @property
    def torque_min(self) -> NewtonMetre:
        """Held by the loosest pair at the least friction."""
        return joint_torque(self.pressure_min, self.diameter, self.length, self.friction.least)

    @property
    def torque_max(self) -> NewtonMetre:
        """At which the tightest pair may still hold, at the most friction."""
        return joint_torque(self.pressure_max, self.diameter, self.length, self.friction.greatest)

    @property
    def bore_closure_min(self) -> Micrometre:
        """How much the shaft's bore closes, loosest pair; 0 for a solid shaft."""
        return self.wall().closure(self.pressure_min)

    @property
    def bore_closure_max(self) -> Micrometre:
        """How much the shaft's bore closes, tightest pair."""
        return self.wall().closure(self.pressure_max)

    @property
    def hub_growth_max(self) -> Micrometre:
        """How much the outside of the hub grows, tightest pair."""
        return self.wall().growth(self.pressure_max)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of pressing; of a brittle hub where it is one."""
        brittle = ("brittle",) if self.hub.brittle else ()
        return press_cautions("pressing", "welding", *brittle)

    @property
    def notes(self) -> tuple[str, ...]:
        """What was taken for granted, and what the figures do not say."""
        made = [
            f"{self.smoothing:.3g} µm of the interference is counted as lost to smoothing"
            f" (DIN 7190-1)",
            f"the hub is taken as {_state(self.hub)}, the shaft as {_state(self.shaft)}",
        ]
        if not self.pressure_min:
            made.append("the loosest pair has no interference left: it holds nothing")
        return tuple(made)

    def wall(self) -> Wall:
        """The two parts, for the sums over them."""
        return Wall(self.diameter, self.hub_diameter, self.shaft_bore, self.hub, self.shaft)

    def describe(self) -> str:
        """The joint in one sentence."""
        first = self.gives_way_first
        safety = self.hub_safety if first == "hub" else self.shaft_safety
        margin = f"; the {first} would give way first, at {safety:.2g} times this" if first else ""
        return (
            f"a joint of {self.diameter:g} mm by {self.length:g} mm at"
            f" {self.pressure_min:.3g} to {self.pressure_max:.3g} MPa: it holds"
            f" {self.torque_min:.3g} N·m or {self.force_min:.3g} kN at the least, and takes up to"
            f" {self.press_force_max:.3g} kN to press{margin}."
        )


def _state(material: ElasticMaterial) -> str:
    return f"{material.name} ({material.condition})" if material.condition else material.name


@cache
def unknown_friction() -> JointFriction:
    """The whole band of the standard, where a page says nothing."""
    return JointFriction.from_text("unknown")
