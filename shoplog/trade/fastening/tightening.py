"""Tightening: the preload that a torque makes, and the spread that comes of friction."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import pi
from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import In, Number, OutOfRange, Percent, TradeError, offered
from shoplog.trade.fastening.property_classes import PropertyClass, property_class
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.screw_threads.threads import Thread

__all__ = [
    "OVERTIGHTENING",
    "Kilonewton",
    "Millimetre2",
    "NewtonMetre",
    "Preload",
    "preload_from_torque",
    "require_torque",
    "stress_area",
    "tensile_stress_area",
    "torque_factor",
    "torque_for_preload",
]

NewtonMetre = Annotated[float, In("N*m")]
Kilonewton = Annotated[float, In("kN")]
Millimetre2 = Annotated[float, In("mm^2")]

FULL_LOAD = 75.0
OVERTIGHTENING = (
    "an overtightened screw yields or snaps without warning, and tools slip off: pull a wrench"
    " towards you, stand so that a slip does not throw you, and follow the maker's torque where"
    " there is one"
)
SPREADS = (
    "preload from torque is a guess with a wide spread: where a joint must hold for safety, a"
    " licensed engineer and the maker's instruction decide"
)
SCREW_TORQUE = (
    "Shigley, Mechanical Engineering Design, 9th ed. 2011, eq. 8-27 and table 8-15; NASA RP-1228,"
    " 1990 (spread)"
)


@offered(source="ISO 898-1:2013, clause on stress area; ASME B1.1-2003, formula for thread stress")
def tensile_stress_area(thread: Thread) -> Millimetre2:
    """Area of a screw that breaks in tension, as its standard has it.

    A_s = pi/4 ((d2 + d3) / 2)^2 for a metric thread, pi/4 (D - 0.9743 / n)^2 for a Unified one,
    with d2 the pitch and d3 the root diameter, n threads in a length.

    Parameters
    ----------
    thread : Thread [-]
        ISO metric or Unified.

    Returns
    -------
    float [mm^2]
        Nominal stress area.

    Raises
    ------
    TradeError
        Another family of thread.

    Notes
    -----
    From basic sizes. Unified screws of over 100000 psi are given a smaller area by some texts.

    Examples
    --------
    >>> round(tensile_stress_area(Thread.from_text("M6")), 1)
    20.1

    References
    ----------
    ISO 898-1:2013; ASME B1.1-2003.
    """
    return stress_area(thread)


@dataclass(frozen=True, slots=True)
class Preload:
    """The preload of a tightened screw, with the spread that comes of friction."""

    thread: Thread
    property_class: PropertyClass
    condition: str
    factor: Number
    """K in T = K F d."""
    spread: Percent
    """Either way of the preload."""
    torque: NewtonMetre
    force: Kilonewton
    """Most likely."""

    @property
    def least(self) -> Kilonewton:
        """What may be of it."""
        return self.force * (1 - self.spread / 100)

    @property
    def most(self) -> Kilonewton:
        """What may be of it at most."""
        return self.force * (1 + self.spread / 100)

    @property
    def proof_load(self) -> Kilonewton:
        """That the screw bears without a lasting stretch."""
        return stress_area(self.thread) * self.property_class.proof_stress / 1000

    @property
    def of_proof(self) -> Percent:
        """The likely preload in per cent of the proof load."""
        return 100 * self.force / self.proof_load

    @property
    def most_of_proof(self) -> Percent:
        """The greatest preload in per cent of the proof load."""
        return 100 * self.most / self.proof_load

    @property
    def cautions(self) -> tuple[str, ...]:
        """That it may yield, and what a hard screw asks for."""
        found = list(self.property_class.cautions)
        if self.most_of_proof > 100:
            found.append(
                f"at that torque the preload may be {self.most:.1f} kN, over the proof load of"
                f" {self.proof_load:.1f} kN: the screw may yield"
            )
        return tuple(found)

    def describe(self) -> str:
        """The preload in one sentence."""
        return (
            f"{self.thread.designation}, class {self.property_class.name}, {self.condition}:"
            f" {self.torque:.2f} N·m makes about {self.force:.2f} kN, from {self.least:.2f} to"
            f" {self.most:.2f} kN (±{self.spread:g} %); that is {self.of_proof:.0f} % of the proof"
            f" load."
        )


@offered(source=SCREW_TORQUE, cautions=(OVERTIGHTENING, SPREADS))
def preload_from_torque(
    thread: Thread,
    torque: NewtonMetre,
    property_class: str = "8.8",
    condition: str = "oiled",
    factor: Number | None = None,
) -> Preload:
    """Preload that a torque makes in a screw, with its spread.

    F = T / (K d), with T the torque, d the major diameter and K the torque factor.

    Parameters
    ----------
    thread : Thread [-]
        ISO metric or Unified, of a screw whose head or nut turns on its seat.
    torque : float [N*m]
        Over 0, at most 10000.
    property_class : str [-]
        Such as `8.8`, `12.9`, `A2-70`, `grade 5`, `A574`.
    condition : str [-]
        `black`, `zinc plated`, `oiled`, `cadmium plated` or `anti-seize`.
    factor : float [-]
        0.05 to 0.6; K where it is known, in place of the condition's.

    Returns
    -------
    Preload [-]
        Likely, least and greatest preload, and its share of the proof load.

    Raises
    ------
    TradeError
        No such class or condition, another family of thread, or a figure out of range.

    Notes
    -----
    The spread is that of a torque wrench: 25 % where the thread is oiled, 35 % where it is dry. A
    dry thread that is oiled gets half as much again from the same torque. For a set screw, whose
    point turns on the shaft, see `set_screw_hold`.

    Examples
    --------
    >>> made = preload_from_torque(Thread.from_text("M8"), 24)
    >>> round(made.force, 2), round(made.least, 2), round(made.most, 2)
    (16.67, 12.5, 20.83)

    References
    ----------
    Shigley, 9th ed. 2011, eq. 8-27 (from memory) and table 8-15; NASA RP-1228, 1990.
    """
    require_torque("torque", torque)
    name, known, spread = torque_factor(condition, factor)
    strength = _class_of(property_class, thread)
    stress_area(thread)
    return Preload(thread, strength, name, known, spread, torque, torque / (known * thread.major))


@offered(source=SCREW_TORQUE, cautions=(OVERTIGHTENING, SPREADS))
def torque_for_preload(
    thread: Thread,
    property_class: str = "8.8",
    share: Percent = FULL_LOAD,
    condition: str = "oiled",
    factor: Number | None = None,
) -> Preload:
    """Torque that makes a share of the proof load in a screw, with the spread of the preload.

    T = K d F, with F = share x A_s x proof stress.

    Parameters
    ----------
    thread : Thread [-]
        ISO metric or Unified.
    property_class : str [-]
        Such as `8.8`, `12.9`, `A2-70`, `grade 5`, `A574`.
    share : float [%]
        Of the proof load, over 0 to 100; 75 for a joint that comes apart again, 90 for one that
        does not.
    condition : str [-]
        `black`, `zinc plated`, `oiled`, `cadmium plated` or `anti-seize`.
    factor : float [-]
        0.05 to 0.6; K where it is known, in place of the condition's.

    Returns
    -------
    Preload [-]
        The torque, and the preload with its spread.

    Raises
    ------
    TradeError
        No such class or condition, another family of thread, or a figure out of range.

    Notes
    -----
    The thread it is tapped in must bear it: see `least_engagement`.

    Examples
    --------
    >>> round(torque_for_preload(Thread.from_text("M8"), "8.8", condition="zinc plated").torque, 1)
    25.5

    References
    ----------
    Shigley, 9th ed. 2011, eq. 8-27 and 8-31, table 8-15 (from memory).
    """
    if not 0 < share <= 100:
        raise OutOfRange("share", share, "%", over=0, most=100)
    name, known, spread = torque_factor(condition, factor)
    strength = _class_of(property_class, thread)
    force = share / 100 * stress_area(thread) * strength.proof_stress / 1000
    return Preload(thread, strength, name, known, spread, known * force * thread.major, force)


# ---- the sums and tables ---------------------------------------------------------------------


def stress_area(thread: Thread) -> float:
    """Nominal tensile stress area in mm²."""
    if thread.family == "ISO metric":
        middle = (thread.pitch_diameter + thread.root_diameter) / 2
        return pi / 4 * middle**2
    if thread.family == "Unified":
        return pi / 4 * (thread.major - 0.9743 * thread.pitch) ** 2
    raise TradeError(
        f"the stress area of {thread.series} threads is not held",
        hint="it is for ISO metric and Unified threads",
        argument="thread",
    )


def _class_of(name: str, thread: Thread) -> PropertyClass:
    try:
        return property_class(name, thread)
    except TradeError as error:
        raise TradeError(error.message, hint=error.hint, argument="property_class") from None


def require_torque(argument: str, torque: float) -> None:
    """Refuse a torque that is not over 0 or that no hand pulls."""
    require_positive(argument, torque, "N*m")
    require_within(argument, torque, "N*m", 0, 10000)


@cache
def _conditions() -> dict[str, tuple[str, float, float]]:
    found = {}
    for row in table("screws_friction").rows:
        kept = row["condition"], float(row["factor"]), float(row["spread_percent"])
        for name in (row["condition"], *row["also"].split(";")):
            found[name] = kept
    return found


def torque_factor(condition: str, factor: float | None = None) -> tuple[str, float, float]:
    """Name of a condition, its torque factor K and its spread in per cent."""
    known = _conditions().get(" ".join(condition.split()).lower())
    if known is None:
        names = dict.fromkeys(name for name, _, _ in _conditions().values())
        raise TradeError(
            f'"{condition}" is no condition that is held',
            hint=f"conditions are {', '.join(names)}",
            argument="condition",
        )
    if factor is None:
        return known
    require_within("factor", factor, "", 0.05, 0.6)
    return known[0], factor, known[2]
