"""What a milling cut asks: forces on the cutter and the table, torque and power, mean and peak.

Each tooth's force follows its chip from entry to exit. The mean is worked out in closed form at
the mean chip, as handbooks do; the peaks by turning the cutter through one pitch of its teeth.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from math import cos, hypot, pi, radians, sin, tan

from shoplog.trade.declare import (
    Degree,
    Micrometre,
    Millimetre,
    MillimetrePerTooth,
    Number,
    OutOfRange,
    Percent,
    RevPerMinute,
    ToothPerRev,
    offered,
)
from shoplog.trade.machining.chip_thickness import (
    DIRECTIONS,
    EdgeInCut,
    MillingChip,
    chip_thickness_milling,
    edge_in_cut,
    immersion_angle,
    require_chip_over_edge,
    require_word,
)
from shoplog.trade.machining.cutting import require_count, require_positive, require_within
from shoplog.trade.machining.cutting_resistance import (
    Work,
    cautions_of,
    correction_of,
    resistance_of,
)
from shoplog.trade.machining.force_estimates import ForceEstimate, PowerEstimate, TorqueEstimate
from shoplog.trade.machining.forces import (
    EFFICIENCY,
    THRUST_SHARE,
    THRUST_SPREAD,
    checked_edge_radius,
    thin_chip_remarks,
)

__all__ = ["Cut", "MillingForces", "milling_forces", "sweep"]

MILLING = "Kienzle's law; ISCAR, Mitsubishi and Dijet, formulas of milling catalogues"
MOST_TEETH = 100
TURNS, SLICES, STEPS = 90, 12, 200  # of a pitch, of the depth of helical teeth, of a tooth's arc


@dataclass(frozen=True, slots=True)
class MillingForces:
    """What a milling cut asks of cutter, work and machine."""

    direction: str
    chip: MillingChip
    teeth_in_cut: Number
    """On average."""
    tangential: ForceEstimate
    """Along the cutting speed, all teeth together, mean of a turn."""
    tangential_peak: ForceEstimate
    feed: ForceEstimate
    """What the table's drive must push with, mean; negative where the cutter pulls the table."""
    feed_push: ForceEstimate
    """The greatest push of a turn."""
    feed_pull: ForceEstimate
    """The greatest pull of a turn along the feed; nothing where it never pulls."""
    radial: ForceEstimate
    """Across the feed, mean; positive off the finished wall, so that the cutter leaves stock."""
    radial_peak: ForceEstimate
    """The greatest across the feed, to either side."""
    axial: ForceEstimate
    """Along the spindle, mean, by the edge's lean and nose; what a helix adds is left out."""
    side_peak: ForceEstimate
    """The greatest across the cutter, whatever its direction: what bends it."""
    torque: TorqueEstimate
    torque_peak: TorqueEstimate
    power: PowerEstimate
    """At the cutter."""
    motor_power: PowerEstimate
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    def describe(self) -> str:
        """The forces in one sentence."""
        table = (
            f"pushes with {self.feed.describe()}"
            if self.feed.mean >= 0
            else f"is pulled with {ForceEstimate(-self.feed.mean, self.feed.spread).describe()}"
        )
        return (
            f"Tangential {self.tangential.describe()}, {self.tangential_peak.mean:.3g} N at its"
            f" peak; the table's drive {table}; {self.motor_power.describe()} at the motor."
        )


@dataclass(frozen=True, slots=True)
class Sweep:
    """The mean and the greatest forces of one turn, in N."""

    feed: float
    feed_push: float
    feed_pull: float
    radial: float
    radial_peak: float
    tangential_peak: float
    side_peak: float


@dataclass(frozen=True, slots=True)
class Cut:
    """A milling cut as the sweep takes it: angles in radians, lengths in mm, kc1.1 corrected.

    Angles run from where a tooth moves against the table's feed, so its chip is fz sin(angle).
    """

    kc1_1: float
    mc: float
    edge: EdgeInCut
    feed_per_tooth: float
    entry: float
    exit: float
    teeth: int
    lag: float
    """How far the top of the cut lags behind its bottom, by the helix."""

    def tooth_force(self, feed: float) -> float:
        """Tangential force on a tooth that advances by a feed square to its path."""
        chip = feed * self.edge.thinning
        return self.kc1_1 * chip ** (1 - self.mc) * self.edge.length if chip > 0 else 0.0

    def on_tooth(self, angle: float) -> tuple[float, float, float]:
        """Tangential force of a tooth, its push on the table and its force across the feed."""
        force = self.tooth_force(self.feed_per_tooth * sin(angle))
        thrust = THRUST_SHARE * self.edge.thinning * force
        return (
            force,
            force * cos(angle) + thrust * sin(angle),
            force * sin(angle) - thrust * cos(angle),
        )

    def at(self, turn: float) -> tuple[float, float, float]:
        """The same of all teeth together, at one place of a turn."""
        slices = SLICES if self.lag else 1
        lags = [self.lag * (part + 0.5) / slices for part in range(slices)]
        angles = (
            (turn + 2 * pi * tooth / self.teeth - lag) % (2 * pi)
            for tooth in range(self.teeth)
            for lag in lags
        )
        return _summed(
            (self.on_tooth(angle) for angle in angles if self.entry <= angle <= self.exit), slices
        )

    def mean(self) -> tuple[float, float, float]:
        """The same of all teeth, mean of a turn: a helix does not change it."""
        reach = (self.exit - self.entry) / STEPS
        angles = (self.entry + (step + 0.5) * reach for step in range(STEPS))
        return _summed(map(self.on_tooth, angles), 2 * pi / (self.teeth * reach))


def _summed(
    forces: Iterable[tuple[float, float, float]], share: float
) -> tuple[float, float, float]:
    tangential = along = across = 0.0
    for one, other, third in forces:
        tangential += one
        along += other
        across += third
    return tangential / share, along / share, across / share


@lru_cache(maxsize=256)
def sweep(cut: Cut) -> Sweep:
    """Forces while a cutter turns through one pitch of its teeth."""
    pitch = 2 * pi / cut.teeth
    # With straight teeth the peaks lie where a tooth enters, leaves or has its thickest chip.
    ends = () if cut.lag else (cut.entry + 1e-9, cut.exit - 1e-9, pi / 2)
    turns = (*(pitch * (n + 0.5) / TURNS for n in range(TURNS)), *(end % pitch for end in ends))
    seen = [cut.at(turn) for turn in turns]
    _, feed, radial = cut.mean()
    return Sweep(
        feed,
        max(0.0, *(force[1] for force in seen)),
        max(0.0, *(-force[1] for force in seen)),
        radial,
        max(abs(force[2]) for force in seen),
        max(force[0] for force in seen),
        max(hypot(force[1], force[2]) for force in seen),
    )


def arc_of(angle: float, direction: str, position: str) -> tuple[float, float]:
    """Where a tooth enters and leaves, in radians from where it moves against the feed."""
    if position == "centred":
        return (pi - angle) / 2, (pi + angle) / 2
    return (0.0, angle) if direction == "conventional" else (pi - angle, pi)


@offered(source=MILLING)
def milling_forces(
    work: Work,
    cutter_diameter: Millimetre,
    teeth: ToothPerRev,
    feed_per_tooth: MillimetrePerTooth,
    depth_of_cut: Millimetre,
    width_of_cut: Millimetre,
    spindle_speed: RevPerMinute,
    direction: str = "conventional",
    position: str = "side",
    helix: Degree = 30,
    entering_angle: Degree = 90,
    nose_radius: Millimetre = 0,
    slot_width: Millimetre | None = None,
    mc: Number | None = None,
    cutter: str = "HSS",
    edge: str = "sharp",
    rake: Degree | None = None,
    efficiency: Percent = EFFICIENCY,
    edge_radius: Micrometre | None = None,
    correction: Number | None = None,
) -> MillingForces:
    """Forces, torque and power of a milling cut, by end, side or face.

    Ft = kc1.1 h^-mc K b h on a tooth, with h its mean chip and b its edge in the cut, times the
    teeth in the cut; P = Ft v, which is kc ap ae vf. The thrust on each tooth is 0.6 of Ft.

    Parameters
    ----------
    work : float, Material or CuttingResistance [N/mm^2]
        A material by its name, or its kc1.1: 10 to 30000.
    cutter_diameter : float [mm]
        0.05 to 1000.
    teeth : float [tooth/rev]
        Whole, 1 to 100.
    feed_per_tooth : float [mm/tooth]
        0.0001 to 5.
    depth_of_cut : float [mm]
        0.001 to 500; along the cutter's axis.
    width_of_cut : float [mm]
        Over 0, to the cutter's diameter; across the feed.
    spindle_speed : float [rpm]
        Over 0.
    direction : str [-]
        `conventional` (against the feed) or `climb` (with it).
    position : str [-]
        `side`, the cutter beside the work or in its slot, or `centred`, the work under its middle.
    helix : float [deg]
        0 to 60; of the teeth. It smooths the peaks.
    entering_angle : float [deg]
        10 to 150; 90 for an end mill or a shoulder cutter.
    nose_radius : float [mm]
        0 to 100; half the diameter of a round insert.
    slot_width : float [mm]
        Of the slot that is to come out, where it is one.
    mc : float [-]
        0 to 0.9; needed where kc1.1 is a figure.
    cutter : str [-]
        `HSS`, `carbide`, `carbide insert` …
    edge : str [-]
        `sharp` or `worn`.
    rake : float [deg]
        -40 to 40; left out, no correction is made for it.
    efficiency : float [%]
        10 to 100; from the motor to the cut.
    edge_radius : float [um]
        0 to 500; of the edge's rounding. Left out, that of a sharp edge of the cutter.
    correction : float [-]
        0.1 to 10; in place of what cutter, edge and rake make.

    Returns
    -------
    MillingForces [-]
        Forces on cutter and table, torque and power, mean and peak, each with its spread.

    Raises
    ------
    TradeError
        The cutter is wider than its slot, the width over the cutter, or the chip bears.

    Notes
    -----
    Tangential force, torque and power are good to ±20 or 25 %, the others to 10 % more. All teeth
    are taken to cut alike: a cutter that runs out loads one of them with more.

    Examples
    --------
    >>> cut = milling_forces(1500, 10, 4, 0.05, 5, 1, 900, mc=0.22)
    >>> cut.tangential.describe(), round(cut.teeth_in_cut, 2), cut.power.describe()
    ('143 N (115 to 172 N)', 0.41, '67.5 W (54 to 81 W)')

    References
    ----------
    ISCAR, milling user guide 2022; Dijet, catalogue 2018; Mitsubishi Materials, cutting power for
    face milling; Dietrich and Tschätsch, 11th ed. 2014.
    """
    require_count("teeth", teeth, MOST_TEETH)
    require_positive("spindle_speed", spindle_speed, "rpm")
    require_word("direction", direction, DIRECTIONS)
    require_within("helix", helix, "deg", 0, 60)
    require_within("efficiency", efficiency, "%", 10, 100)
    require_within("depth_of_cut", depth_of_cut, "mm", 1e-3, 500)
    chip = chip_thickness_milling(
        feed_per_tooth,
        cutter_diameter,
        width_of_cut,
        position,
        entering_angle,
        depth_of_cut,
        nose_radius,
    )
    _require_slot(slot_width, cutter_diameter)
    law = resistance_of(work, mc)
    factor = correction_of(law, "milling", cutter, edge, rake, correction)
    rounding = checked_edge_radius(edge_radius, cutter)
    require_chip_over_edge(chip.thickest, rounding, "feed_per_tooth")
    angle = immersion_angle(cutter_diameter, width_of_cut, position)
    cut = Cut(
        law.kc1_1 * factor,
        law.mc,
        edge_in_cut(depth_of_cut, entering_angle, nose_radius),
        feed_per_tooth,
        *arc_of(angle, direction, position),
        int(teeth),
        2 * depth_of_cut * tan(radians(helix)) / cutter_diameter,
    )
    run = (cutter_diameter, spindle_speed, efficiency, rounding)
    always = cautions_of("milling", work)
    return _milled(law.spread, chip, cut, teeth * angle / (2 * pi), direction, run, always)


def _require_slot(slot_width: float | None, cutter_diameter: float) -> None:
    if slot_width is None:
        return
    require_positive("slot_width", slot_width, "mm")
    if cutter_diameter > slot_width * (1 + 1e-9):
        raise OutOfRange(
            "cutter_diameter",
            cutter_diameter,
            "mm",
            over=0,
            most=slot_width,
            hint="a cutter wider than its slot cannot make it",
        )


def _milled(
    spread: float,
    chip: MillingChip,
    cut: Cut,
    teeth_in_cut: float,
    direction: str,
    run: tuple[float, float, float, float],
    always: tuple[str, ...],
) -> MillingForces:
    diameter, speed, efficiency, rounding = run
    wide = spread + THRUST_SPREAD
    turned = sweep(cut)
    tangential = cut.tooth_force(chip.mean / cut.edge.thinning) * teeth_in_cut
    peak = max(tangential, turned.tangential_peak)
    power = tangential * pi * diameter * speed / 6e7
    off_the_wall = -turned.radial if direction == "conventional" else turned.radial
    cautions, notes = thin_chip_remarks(chip.mean, rounding)
    return MillingForces(
        direction,
        chip,
        teeth_in_cut,
        ForceEstimate(tangential, spread),
        ForceEstimate(peak, spread),
        ForceEstimate(turned.feed, wide),
        ForceEstimate(turned.feed_push, wide),
        ForceEstimate(turned.feed_pull, wide),
        ForceEstimate(off_the_wall, wide),
        ForceEstimate(turned.radial_peak, wide),
        ForceEstimate(THRUST_SHARE * tangential * cut.edge.along / cut.edge.length, wide),
        ForceEstimate(turned.side_peak, wide),
        TorqueEstimate(tangential * diameter / 2000, spread),
        TorqueEstimate(peak * diameter / 2000, spread),
        PowerEstimate(power, spread),
        PowerEstimate(power * 100 / efficiency, spread),
        (*cautions, *_pull(direction, turned.feed_pull), *always),
        notes,
    )


def _pull(direction: str, pull: float) -> tuple[str, ...]:
    if direction != "climb" or pull <= 0:
        return ()
    return (
        f"the cutter pulls the table along with up to {pull:.3g} N: with slack in its screw the"
        " table jumps, so lock or compensate it, or take a light finishing pass only",
    )
