"""Forces, torques, powers and bends as they can be known: a mean and how far it may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from shoplog.trade.declare import In, Micrometre, Percent

__all__ = [
    "BendEstimate",
    "ForceEstimate",
    "Kilowatt",
    "Newton",
    "NewtonMetre",
    "PowerEstimate",
    "TorqueEstimate",
    "force_and_spread",
]

Newton = Annotated[float, In("N")]
NewtonMetre = Annotated[float, In("N*m")]
Kilowatt = Annotated[float, In("kW")]


def _digits(number: float) -> str:
    """Three digits, and whole from 100 up."""
    return f"{number:.0f}" if abs(number) >= 100 else f"{number:.3g}"


def _band(mean: float, spread: float, unit: str) -> str:
    """A mean and its band in words, with three digits.

    >>> _band(1816.4, 20, "N"), _band(50, 0, "N")
    ('1816 N (1453 to 2180 N)', '50 N')
    """
    if not spread or not mean:
        return f"{_digits(mean)} {unit}"
    off = abs(mean) * spread / 100
    return f"{_digits(mean)} {unit} ({_digits(mean - off)} to {_digits(mean + off)} {unit})"


@dataclass(frozen=True, slots=True)
class ForceEstimate:
    """A force; negative where it acts against the direction that its field names."""

    mean: Newton
    spread: Percent
    """How far off it may be, to either side."""

    @property
    def least(self) -> Newton:
        """The lower end of what it may be."""
        return self.mean - abs(self.mean) * self.spread / 100

    @property
    def most(self) -> Newton:
        """The upper end of what it may be."""
        return self.mean + abs(self.mean) * self.spread / 100

    def describe(self) -> str:
        """The force and its band."""
        return _band(self.mean, self.spread, "N")


@dataclass(frozen=True, slots=True)
class TorqueEstimate:
    """A torque."""

    mean: NewtonMetre
    spread: Percent
    """How far off it may be, to either side."""

    @property
    def least(self) -> NewtonMetre:
        """The lower end of what it may be."""
        return self.mean * (1 - self.spread / 100)

    @property
    def most(self) -> NewtonMetre:
        """The upper end of what it may be."""
        return self.mean * (1 + self.spread / 100)

    def describe(self) -> str:
        """The torque and its band."""
        return _band(self.mean, self.spread, "N·m")


@dataclass(frozen=True, slots=True)
class PowerEstimate:
    """A power."""

    mean: Kilowatt
    spread: Percent
    """How far off it may be, to either side."""

    @property
    def least(self) -> Kilowatt:
        """The lower end of what it may be."""
        return self.mean * (1 - self.spread / 100)

    @property
    def most(self) -> Kilowatt:
        """The upper end of what it may be."""
        return self.mean * (1 + self.spread / 100)

    def describe(self) -> str:
        """The power and its band, in W where it is under 1 kW."""
        small = self.mean < 1
        return _band(1000 * self.mean if small else self.mean, self.spread, "W" if small else "kW")


@dataclass(frozen=True, slots=True)
class BendEstimate:
    """How far something bends, or the error on a diameter that comes of it."""

    mean: Micrometre
    spread: Percent
    """How far off it may be, to either side: that of the force."""

    @property
    def least(self) -> Micrometre:
        """The lower end of what it may be."""
        return self.mean - abs(self.mean) * self.spread / 100

    @property
    def most(self) -> Micrometre:
        """The upper end of what it may be."""
        return self.mean + abs(self.mean) * self.spread / 100

    def describe(self) -> str:
        """The bend and its band, in mm where it is 1 mm or more."""
        large = abs(self.mean) >= 1000
        return _band(self.mean / 1000 if large else self.mean, self.spread, "mm" if large else "µm")


def force_and_spread(force: float | ForceEstimate) -> tuple[float, float]:
    """A force in N and its spread in per cent; a plain force has none."""
    if isinstance(force, ForceEstimate):
        return force.mean, force.spread
    return force, 0.0
