"""What drilling and tapping ask: thrust, torque and power."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians, sin, tan

from shoplog.tables import table
from shoplog.trade.declare import (
    Degree,
    Micrometre,
    Millimetre,
    MillimetrePerRev,
    Number,
    OutOfRange,
    Percent,
    RevPerMinute,
    TradeError,
    offered,
)
from shoplog.trade.machining.chip_thickness import require_chip_over_edge, require_word
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.machining.cutting_resistance import (
    FORCE_SPREAD,
    NewtonPerSquareMillimetre,
    Work,
    cautions_of,
    correction_of,
    resistance_of,
)
from shoplog.trade.machining.force_estimates import ForceEstimate, PowerEstimate, TorqueEstimate
from shoplog.trade.machining.forces import EFFICIENCY, checked_edge_radius, thin_chip_remarks

__all__ = ["DrillingForces", "TappingTorque", "drilling_forces", "tapping_torque"]

DRILLING = (
    "Kienzle's law on two lips (Dietrich and Tschätsch, 2014), with a handbook's D^1.8 below 16 mm"
    " (Machinery's Handbook, 31st ed., Machining power, table 9)"
)
TAPPING = "Yamawa, general catalogue 2016-2017, page 781"
# The torque of small drills falls slower than their section: the handbook's factor is D^1.8.
SIZE_FROM, SIZE_EXPONENT = 16.0, 0.2  # mm
# Thrusts by this law, a handbook's, Tungaloy's and a maker's sheet (0.7 kc f D/2) lie within it.
THRUST_SPREAD = 40.0  # %
TAP_SHARES = ("steel", "cast iron or aluminium", "brass")


@dataclass(frozen=True, slots=True)
class DrillingForces:
    """What a twist drill asks of the hand, the clamp and the machine."""

    chip_thickness: Millimetre
    """On each lip."""
    thrust: ForceEstimate
    """Along the spindle: what feeds the drill and what the work must bear."""
    torque: TorqueEstimate
    """What turns the work if it is not held."""
    power: PowerEstimate
    """At the drill."""
    motor_power: PowerEstimate
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    def describe(self) -> str:
        """The forces in one sentence."""
        return (
            f"Thrust {self.thrust.describe()}, torque {self.torque.describe()};"
            f" {self.motor_power.describe()} at the motor."
        )


@offered(source=DRILLING)
def drilling_forces(
    work: Work,
    diameter: Millimetre,
    feed_per_rev: MillimetrePerRev,
    spindle_speed: RevPerMinute,
    drilled_before: Millimetre = 0,
    point_angle: Degree = 118,
    mc: Number | None = None,
    cutter: str = "HSS",
    edge: str = "sharp",
    efficiency: Percent = EFFICIENCY,
    edge_radius: Micrometre | None = None,
    correction: Number | None = None,
) -> DrillingForces:
    """Thrust, torque and power of a twist drill, from the solid or in a hole.

    M = kc f (D^2 - d^2) / 8000 and F = kc f (D - d) / 2 sin(point/2), with kc at h = f/2
    sin(point/2), f the feed, D the drill and d the hole that is there. Below 16 mm the torque is
    (16 mm / D)^0.2 times that.

    Parameters
    ----------
    work : float, Material or CuttingResistance [N/mm^2]
        A material by its name, or its kc1.1: 10 to 30000.
    diameter : float [mm]
        0.1 to 200.
    feed_per_rev : float [mm/rev]
        0.0002 to 5.
    spindle_speed : float [rpm]
        Over 0.
    drilled_before : float [mm]
        0, or the hole that is there, below the drill.
    point_angle : float [deg]
        60 to 180.
    mc : float [-]
        0 to 0.9; needed where kc1.1 is a figure.
    cutter : str [-]
        `HSS`, `carbide` …
    edge : str [-]
        `sharp` or `worn`.
    efficiency : float [%]
        10 to 100; from the motor to the drill.
    edge_radius : float [um]
        0 to 500; of the lips' rounding. Left out, that of a sharp edge of the cutter.
    correction : float [-]
        0.1 to 10; in place of what cutter, edge and size make.

    Returns
    -------
    DrillingForces [-]
        Thrust ±40 %, torque and power ±20 or 25 %.

    Raises
    ------
    TradeError
        The hole is not smaller than the drill, or the chip is thinner than the lips are round.

    Notes
    -----
    For a two-lipped drill of ordinary grind in metal. Half of the thrust is the chisel edge's: a
    split point or a pilot hole as wide as the web saves that. Chips that jam add torque without
    limit. Makers differ by half over thrust, and cast iron often asks less than this.

    Examples
    --------
    >>> made = drilling_forces(1500, 10, 0.15, 700, mc=0.22)
    >>> made.thrust.describe(), made.torque.describe(), made.motor_power.describe()
    ('2540 N (1524 to 3556 N)', '8.14 N·m (6.51 to 9.77 N·m)', '795 W (636 to 954 W)')

    References
    ----------
    Dietrich and Tschätsch, 11th ed. 2014 (the thrust from memory); Machinery's Handbook, 31st ed.,
    pages 1152 and 1153; held against it, Tungaloy, catalogue 2020-2021, page 1656, and Common
    drilling formulas, a maker's sheet.
    """
    require_within("diameter", diameter, "mm", 0.1, 200)
    require_within("feed_per_rev", feed_per_rev, "mm/rev", 2e-4, 5)
    require_positive("spindle_speed", spindle_speed, "rpm")
    require_within("point_angle", point_angle, "deg", 60, 180)
    require_within("efficiency", efficiency, "%", 10, 100)
    if not 0 <= drilled_before < diameter:
        raise OutOfRange("drilled_before", drilled_before, "mm", least=0, below=diameter)
    law = resistance_of(work, mc)
    factor = correction_of(law, "drilling", cutter, edge, None, correction)
    rounding = checked_edge_radius(edge_radius, cutter)
    chip = feed_per_rev / 2 * sin(radians(point_angle / 2))
    require_chip_over_edge(chip, rounding, "feed_per_rev")
    resistance = law.at(chip) * factor
    torque = resistance * feed_per_rev * (diameter**2 - drilled_before**2) / 8000
    if correction is None:
        torque *= max(1.0, SIZE_FROM / diameter) ** SIZE_EXPONENT
    thrust = resistance * (diameter - drilled_before) * chip
    power = pi * spindle_speed * torque / 30000
    cautions, notes = thin_chip_remarks(chip, rounding)
    return DrillingForces(
        chip,
        ForceEstimate(thrust, max(THRUST_SPREAD, law.spread)),
        TorqueEstimate(torque, law.spread),
        PowerEstimate(power, law.spread),
        PowerEstimate(power * 100 / efficiency, law.spread),
        cautions + cautions_of("drilling", work),
        notes,
    )


@dataclass(frozen=True, slots=True)
class TappingTorque:
    """The torque of a cutting tap once its lead is in the hole."""

    torque: TorqueEstimate
    thread_depth: Millimetre
    """How deep the tap cuts, on one side."""
    cautions: tuple[str, ...]

    def describe(self) -> str:
        """The torque in one sentence."""
        return f"{self.torque.describe()} on the tap, cutting {self.thread_depth:.3g} mm deep."


def _rows(what: str) -> dict[str, tuple[str, str]]:
    return {
        name.casefold(): (row["name"], row["values"])
        for row in table("tapping_forces").rows
        if row["what"] == what
        for name in (row["name"], *row["also"].split(";"))
        if name
    }


def _named(what: str, name: str) -> tuple[str, str]:
    row = _rows(what).get(" ".join(name.split()).casefold())
    if row is None:
        known = dict.fromkeys(f'"{found}"' for found, _ in _rows(what).values())
        raise TradeError(
            f'"{name[:20]}" is no {what} that the tapping table knows',
            hint=f"one of {', '.join(known)}",
            argument=what,
        )
    return row


def _tap_factor(tap: str, share: str, fine: bool) -> float:
    name, values = _named("tap", tap)
    place = 2 * TAP_SHARES.index(share) + int(fine)
    factors = values.split()
    if place >= len(factors):
        raise TradeError(
            f"there is no figure for a {name} tap in a fine thread in brass",
            hint="a plug or a spiral point",
            argument="tap",
        )
    return float(factors[place])


def _work_force(work: str | float) -> tuple[float, str]:
    if not isinstance(work, str):
        require_within("work", work, "N/mm^2", 10, 30000)
        return work, "steel"
    name, values = _named("work", work)
    share = {
        "brass": "brass",
        "cast aluminium": "cast iron or aluminium",
        "cast iron": "cast iron or aluminium",
    }
    return float(values), share.get(name, "steel")


@offered(source=TAPPING)
def tapping_torque(
    work: str | NewtonPerSquareMillimetre,
    diameter: Millimetre,
    drilled: Millimetre,
    tap: str = "plug",
    thread: str = "coarse",
    thread_angle: Degree = 60,
    edge: str = "sharp",
) -> TappingTorque:
    """Torque of a cutting tap in a drilled hole.

    M = tan(angle/2) kc K (D - d)^2 (D + 2 d) / 24000, with D the tap, d the drilled hole and K the
    factor of the tap.

    Parameters
    ----------
    work : str or float [N/mm^2]
        `steel`, `C45`, `stainless steel`, `cast iron`, `brass`, `aluminium` …, or the specific
        cutting force in tapping, 10 to 30000, some two and a half times kc1.1.
    diameter : float [mm]
        0.5 to 200; nominal, of the thread.
    drilled : float [mm]
        Half of the diameter to below it; the hole that is drilled.
    tap : str [-]
        `plug`, `bottoming`, `spiral flute` or `spiral point`.
    thread : str [-]
        `coarse` or `fine`.
    thread_angle : float [deg]
        20 to 90; 60 for metric and unified threads, 55 for Whitworth.
    edge : str [-]
        `sharp` or `worn`.

    Returns
    -------
    TappingTorque [-]
        Torque at its highest, ±20 %, and the depth of the thread cut.

    Notes
    -----
    For machine taps with oil, cutting freely. A taper hand tap asks less and takes longer; a blind
    hole full of chips and the way back add to it. Roll taps ask two or three times as much.

    Examples
    --------
    >>> tapping_torque("C45", 6, 5).describe()
    '2.03 N·m (1.62 to 2.43 N·m) on the tap, cutting 0.5 mm deep.'

    References
    ----------
    Yamawa, general catalogue 2016-2017, page 781; 2022-2023, pages 1157 and 1158.
    """
    require_within("diameter", diameter, "mm", 0.5, 200)
    require_word("thread", thread, ("coarse", "fine"))
    require_within("thread_angle", thread_angle, "deg", 20, 90)
    if not diameter / 2 <= drilled < diameter:
        raise OutOfRange("drilled", drilled, "mm", least=diameter / 2, below=diameter)
    force, share = _work_force(work)
    factor = _tap_factor(tap, share, thread == "fine") * correction_of(
        resistance_of(force, 0), "milling", "carbide", edge, None, None
    )
    torque = (
        tan(radians(thread_angle / 2))
        * force
        * factor
        * (diameter - drilled) ** 2
        * (diameter + 2 * drilled)
        / 24000
    )
    return TappingTorque(
        TorqueEstimate(torque, FORCE_SPREAD),
        (diameter - drilled) / 2,
        cautions_of("tapping", force),
    )
