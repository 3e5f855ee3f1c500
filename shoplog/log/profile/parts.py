"""What the things of a shop profile are made of: drives, ranges, sizes by their axes, plates.

Each tells facts under the label of the key that gives it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.log.profile.keys import AXES
from shoplog.units import convert, unit, write_quantity
from shoplog.values import Value

__all__ = [
    *("AxisSizes", "BlockContent", "Drive", "Fact", "FactValue", "Plate", "SizeRange"),
    *("rpm_of", "shown"),
]

FactValue = str | Value | tuple[str, ...] | tuple[Value, ...]
Fact = tuple[str, FactValue]
"""A label, and a text, a quantity, or several of one."""


def rpm_of(speed: Value) -> float:
    """A speed of a spindle in rpm; a revolution may be left out of its unit."""
    return convert(speed.nominal, speed.unit, unit("rpm"), loose=True)


def shown(value: Value) -> str:
    """A quantity in its own unit."""
    return write_quantity(value.nominal, value.unit)


@dataclass(frozen=True, slots=True)
class Drive:
    """What a drive gives: steps, each with a name where it has one, or a range."""

    steps: tuple[Value, ...] = ()
    """In the profile's order."""
    names: tuple[str, ...] = ()
    """Of the steps, `belt 2, back gear`; none where a plain list gives them."""
    least: Value | None = None
    """The slow end of a range."""
    greatest: Value | None = None

    def name_of(self, speed: Value) -> str:
        """The name of the step of a speed of a spindle, each where two give it; or nothing."""
        return " or ".join(
            name
            for step, name in zip(self.steps, self.names, strict=False)
            if abs(rpm_of(step) - rpm_of(speed)) <= 1e-9 * rpm_of(speed)
        )

    def facts(self, label: str) -> Iterator[Fact]:
        """Its steps with their names, or the ends of its range."""
        if self.names:
            named = zip(self.steps, self.names, strict=True)
            yield label, tuple(f"{shown(step)} ({name})" for step, name in named)
        elif self.steps:
            yield label, self.steps
        if self.least is not None:
            yield f"{label} from", self.least
        if self.greatest is not None:
            yield f"{label} to", self.greatest

    def describe(self) -> str:
        """In one line."""
        if self.least is not None and self.greatest is not None:
            return f"{shown(self.least)} to {shown(self.greatest)}"
        return f"{len(self.steps)} steps"


@dataclass(frozen=True, slots=True)
class SizeRange:
    """From a least to a greatest size."""

    least: Value
    greatest: Value

    def facts(self, label: str) -> Iterator[Fact]:
        """Its two ends."""
        yield f"{label} from", self.least
        yield f"{label} to", self.greatest

    def describe(self) -> str:
        """In one line."""
        return f"{shown(self.least)} to {shown(self.greatest)}"


@dataclass(frozen=True, slots=True)
class AxisSizes:
    """A size of each slide or screw; `every` where one is given for all."""

    every: Value | None = None
    x: Value | None = None
    y: Value | None = None
    z: Value | None = None
    long: Value | None = None
    cross: Value | None = None
    vertical: Value | None = None
    top_slide: Value | None = None
    quill: Value | None = None
    tailstock: Value | None = None

    @property
    def _given(self) -> dict[str, Value]:
        named = {axis: getattr(self, axis.replace(" ", "_")) for axis in AXES}
        return {axis: value for axis, value in named.items() if value is not None}

    @property
    def largest(self) -> Value | None:
        """The largest of them."""
        every = () if self.every is None else (self.every,)
        values = (*every, *self._given.values())
        return max(values, key=lambda one: one.to(unit("mm")).nominal, default=None)

    def facts(self, label: str) -> Iterator[Fact]:
        """Each by its slide."""
        if self.every is not None:
            yield label, self.every
        for axis, value in self._given.items():
            yield f"{label}, {axis}", value

    def describe(self) -> str:
        """In one line."""
        every = [] if self.every is None else [shown(self.every)]
        return ", ".join([*every, *(f"{axis} {shown(size)}" for axis, size in self._given.items())])


@dataclass(frozen=True, slots=True)
class Plate:
    """A dividing plate: how many holes its circles have."""

    name: str
    circles: tuple[Value, ...]

    def facts(self, label: str) -> Iterator[Fact]:
        """Its circles under its name."""
        yield f"{label}: {self.name}", self.circles

    def describe(self) -> str:
        """In one line."""
        return f"{self.name}: {', '.join(f'{one.nominal:g}' for one in self.circles)}"


@dataclass(frozen=True, slots=True)
class BlockContent:
    """Which gauge blocks: the name of a set that is known, where it is one, and their lengths."""

    known_set: str
    sizes: tuple[Value, ...]

    def facts(self, label: str) -> Iterator[Fact]:
        """The set's name and how many blocks it has; else the length of each."""
        if self.known_set:
            yield label, f"{self.known_set}: {len(self.sizes)} blocks"
        elif self.sizes:
            yield label, self.sizes

    def describe(self) -> str:
        """In one line."""
        return self.known_set or f"{len(self.sizes)} blocks"
