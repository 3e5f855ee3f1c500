"""What a turning cut asks: its three forces, its torque and power, and what the spindle has."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from shoplog.trade.declare import (
    Degree,
    MetrePerMinute,
    Micrometre,
    Millimetre,
    MillimetrePerRev,
    Number,
    Percent,
    RevPerMinute,
    offered,
)
from shoplog.trade.machining.chip_thickness import (
    EdgeInCut,
    TurningChip,
    chip_thickness_turning,
    edge_in_cut,
    require_chip_over_edge,
    require_word,
)
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.machining.cutting_resistance import (
    KNOWN_FROM,
    Work,
    cautions_of,
    correction_of,
    edge_radius_of,
    resistance_of,
)
from shoplog.trade.machining.force_estimates import (
    ForceEstimate,
    Kilowatt,
    Newton,
    NewtonMetre,
    PowerEstimate,
    TorqueEstimate,
)

__all__ = [
    "TurningForces",
    "checked_edge_radius",
    "spindle_power",
    "spindle_torque",
    "table_drive_force",
    "thin_chip_remarks",
    "turning_forces",
]

TURNING = (
    "Kienzle's law; ISCAR turning catalogue 2017, page 558; Mitsubishi, cutting power for turning"
)
# Feed force some 55 % of the tangential one and radial force some 27 %, so together 0.6 of it
# (Erie Industrial Supply, Boring basics); the edge's direction parts it between the two.
THRUST_SHARE = 0.6
THRUST_SPREAD = 10.0  # %, more than that of the tangential force: half the source's bands
EFFICIENCY = 75.0  # %: Dormer Pramet 75, Kyocera 70 to 80, Sumitomo 70 to 85


@dataclass(frozen=True, slots=True)
class TurningForces:
    """What a turning or boring cut asks of tool, work and machine."""

    chip: TurningChip
    tangential: ForceEstimate
    """Down on the tool, along the cutting speed."""
    feed: ForceEstimate
    """Against the feed."""
    radial: ForceEstimate
    """Off the work, along the cross slide."""
    power: PowerEstimate
    """At the cut."""
    motor_power: PowerEstimate
    torque: TorqueEstimate | None
    """At the spindle; known where the diameter is."""
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    def describe(self) -> str:
        """The forces in one sentence."""
        return (
            f"Tangential {self.tangential.describe()}, feed {self.feed.describe()}, radial"
            f" {self.radial.describe()}; {self.motor_power.describe()} at the motor."
        )


def checked_edge_radius(edge_radius: float | None, cutter: str) -> float:
    """The radius of the edge in mm: the one given in µm, or that of a sharp edge of the cutter."""
    if edge_radius is None:
        return edge_radius_of(cutter)
    require_within("edge_radius", edge_radius, "um", 0, 500)
    return edge_radius / 1000


def thin_chip_remarks(mean: float, edge_radius: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """A caution where the mean chip bears, and a note where the law was not measured."""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    if mean < edge_radius:
        cautions = (
            f"the chip is {1000 * mean:.3g} µm on average, thinner than the edge's radius of"
            f" {1000 * edge_radius:.3g} µm: for part of the way the edge rubs",
        )
    if mean < KNOWN_FROM:
        notes = (
            f"a chip of {1000 * mean:.3g} µm is thinner than those the law was measured on"
            f" ({1000 * KNOWN_FROM:g} µm and more): the force may be more than this",
        )
    return cautions, notes


def thrust_of(edge: EdgeInCut, tangential: float, spread: float) -> tuple[ForceEstimate, ...]:
    """The forces across the depth and along it that the edge's direction makes of the thrust."""
    wide = spread + THRUST_SPREAD
    return tuple(
        ForceEstimate(THRUST_SHARE * tangential * reach / edge.length, wide)
        for reach in (edge.depth, edge.along)
    )


@offered(source=TURNING)
def turning_forces(
    work: Work,
    depth_of_cut: Millimetre,
    feed_per_rev: MillimetrePerRev,
    cutting_speed: MetrePerMinute,
    diameter: Millimetre | None = None,
    entering_angle: Degree = 90,
    nose_radius: Millimetre = 0.4,
    mc: Number | None = None,
    cutter: str = "HSS",
    edge: str = "sharp",
    rake: Degree | None = None,
    operation: str = "turning",
    efficiency: Percent = EFFICIENCY,
    edge_radius: Micrometre | None = None,
    correction: Number | None = None,
) -> TurningForces:
    """Forces, torque and power of a turning, facing or boring cut.

    Fc = kc1.1 h^-mc K a f, with h the mean chip, K the corrections, a the depth and f the feed;
    P = Fc v. The thrust, 0.6 Fc, is parted between feed and cross slide by the edge's direction.

    Parameters
    ----------
    work : float, Material or CuttingResistance [N/mm^2]
        A material by its name, or its kc1.1: 10 to 30000.
    depth_of_cut : float [mm]
        0.001 to 500; radial.
    feed_per_rev : float [mm/rev]
        0.0001 to 5.
    cutting_speed : float [m/min]
        Over 0.
    diameter : float [mm]
        Over 0; of the cut. Without it no torque is given.
    entering_angle : float [deg]
        10 to 150; between edge and feed, 90 less the lead or approach angle.
    nose_radius : float [mm]
        0 to 100; half the diameter of a round insert.
    mc : float [-]
        0 to 0.9; needed where kc1.1 is a figure.
    cutter : str [-]
        `HSS`, `carbide`, `carbide insert` …
    edge : str [-]
        `sharp` or `worn`.
    rake : float [deg]
        -40 to 40; left out, no correction is made for it.
    operation : str [-]
        `turning` or `boring`.
    efficiency : float [%]
        10 to 100; from the motor to the cut.
    edge_radius : float [um]
        0 to 500; of the edge's rounding. Left out, that of a sharp edge of the cutter.
    correction : float [-]
        0.1 to 10; in place of what cutter, edge, rake and operation make.

    Returns
    -------
    TurningForces [-]
        Each force, torque and power with its spread.

    Raises
    ------
    TradeError
        The chip is thinner than the edge is round, or no cutting force is known.

    Notes
    -----
    Good to ±20 or 25 %, feed and radial force to 10 % more. In facing to the centre the speed falls
    to nothing and the force stays.

    Examples
    --------
    >>> from shoplog.trade.materials import Material
    >>> cut = turning_forces(Material.from_text("C45"), 1, 0.1, 30, diameter=25)
    >>> cut.tangential.describe(), cut.torque.describe(), cut.motor_power.describe()
    ('313 N (234 to 391 N)', '3.91 N·m (2.93 to 4.88 N·m)', '208 W (156 to 260 W)')

    References
    ----------
    ISCAR turning catalogue 2017, page 558; Mitsubishi Materials, cutting power for turning;
    Dietrich and Tschätsch, 11th ed. 2014; Erie Industrial Supply, Boring basics.
    """
    require_positive("cutting_speed", cutting_speed, "m/min")
    require_within("efficiency", efficiency, "%", 10, 100)
    require_word("operation", operation, ("turning", "boring"))
    if diameter is not None:
        require_positive("diameter", diameter, "mm")
    law = resistance_of(work, mc)
    factor = correction_of(law, operation, cutter, edge, rake, correction)
    chip = chip_thickness_turning(feed_per_rev, depth_of_cut, entering_angle, nose_radius)
    rounding = checked_edge_radius(edge_radius, cutter)
    require_chip_over_edge(chip.thickest, rounding, "feed_per_rev")
    tangential = law.at(chip.mean) * factor * depth_of_cut * feed_per_rev
    in_cut = edge_in_cut(depth_of_cut, entering_angle, nose_radius)
    run = (cutting_speed, diameter, efficiency, rounding)
    return _turned(law.spread, chip, in_cut, tangential, run, cautions_of("turning", work))


def _turned(
    spread: float,
    chip: TurningChip,
    edge: EdgeInCut,
    tangential: float,
    run: tuple[float, float | None, float, float],
    always: tuple[str, ...],
) -> TurningForces:
    speed, diameter, efficiency, edge_radius = run
    power = tangential * speed / 60000
    feed, radial = thrust_of(edge, tangential, spread)
    cautions, notes = thin_chip_remarks(chip.mean, edge_radius)
    return TurningForces(
        chip,
        ForceEstimate(tangential, spread),
        feed,
        radial,
        PowerEstimate(power, spread),
        PowerEstimate(power * 100 / efficiency, spread),
        None if diameter is None else TorqueEstimate(tangential * diameter / 2000, spread),
        cautions + always,
        notes,
    )


@offered(source="Machinery's Handbook, 31st ed., Machining power: P = M N / 9550 in kW and N·m")
def spindle_torque(
    power: Kilowatt, spindle_speed: RevPerMinute, efficiency: Percent = 100
) -> NewtonMetre:
    """Torque that a motor's power gives at a spindle speed.

    M = 30000 P η / (pi n), with P the power, η the efficiency and n the spindle speed.

    Parameters
    ----------
    power : float [kW]
        Over 0; of the motor.
    spindle_speed : float [rpm]
        Over 0; the step that it runs at.
    efficiency : float [%]
        10 to 100; 70 to 85 through belts and gears.

    Returns
    -------
    float [N*m]
        Torque at the spindle.

    Notes
    -----
    A belt slips before the motor stalls. An induction motor on a frequency drive keeps its torque,
    not its power, below its rated speed, and this sum does not hold there.

    Examples
    --------
    >>> round(spindle_torque(0.55, 400, 75), 2)
    9.85

    References
    ----------
    Machinery's Handbook, 31st ed. 2020, Machining power, pages 1152 and 1153.
    """
    require_positive("power", power, "kW")
    require_positive("spindle_speed", spindle_speed, "rpm")
    require_within("efficiency", efficiency, "%", 10, 100)
    return 30000 * power * efficiency / 100 / (pi * spindle_speed)


@offered(source="Machinery's Handbook, 31st ed., Machining power: P = M N / 9550 in kW and N·m")
def spindle_power(torque: NewtonMetre, spindle_speed: RevPerMinute) -> Kilowatt:
    """Power that a torque takes at a spindle speed.

    P = pi n M / 30000, with n the spindle speed and M the torque.

    Parameters
    ----------
    torque : float [N*m]
        Over 0.
    spindle_speed : float [rpm]
        Over 0.

    Returns
    -------
    float [kW]
        Power at the spindle; the motor gives that over its efficiency.

    Notes
    -----
    Exact.

    Examples
    --------
    >>> round(spindle_power(10, 955), 2)
    1.0

    References
    ----------
    Machinery's Handbook, 31st ed. 2020, Machining power, page 1152.
    """
    require_positive("torque", torque, "N*m")
    require_positive("spindle_speed", spindle_speed, "rpm")
    return pi * spindle_speed * torque / 30000


@offered(source="common practice, no source")
def table_drive_force(torque: NewtonMetre, lead: Millimetre, efficiency: Percent = 30) -> Newton:
    """Force that a feed screw gives a table or carriage for a torque on it.

    F = 2000 pi M η / l, with M the torque, η the screw's efficiency and l its lead.

    Parameters
    ----------
    torque : float [N*m]
        Over 0; of the feed motor after its gears, or of a hand on the wheel.
    lead : float [mm]
        Over 0; the way for one turn.
    efficiency : float [%]
        1 to 100; 20 to 40 for a trapezoidal screw and its slides, 90 for a ball screw.

    Returns
    -------
    float [N]
        Force along the screw, less what the gibs hold back.

    Notes
    -----
    From the work of one turn. Dry slides or gibs set tight can eat half of it.

    Examples
    --------
    >>> round(table_drive_force(1.5, 2))
    1414

    References
    ----------
    Common practice, no source.
    """
    require_positive("torque", torque, "N*m")
    require_positive("lead", lead, "mm")
    require_within("efficiency", efficiency, "%", 1, 100)
    return 2000 * pi * torque * efficiency / 100 / lead
