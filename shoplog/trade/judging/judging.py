"""One question for a whole cut: what of cutter, machine, holding and finish gives way first."""

from __future__ import annotations

from typing import Annotated

from shoplog.trade.declare import (
    Degree,
    In,
    Micrometre,
    Millimetre,
    MillimetrePerMinute,
    MillimetrePerRev,
    MillimetrePerTooth,
    Percent,
    RevPerMinute,
    ToothPerRev,
    offered,
)
from shoplog.trade.judging.judging_bands import (
    band_limits,
    chip_limits,
    cut_range,
    direction_limits,
    overhang_limits,
    rated,
    spindle_limits,
    width_limits,
)
from shoplog.trade.judging.judging_finish import finish_limits
from shoplog.trade.judging.judging_forces import force_limits, forces_of
from shoplog.trade.judging.judging_passes import pass_limits
from shoplog.trade.judging.judging_record import JudgedCut, Limit, ranked
from shoplog.trade.judging.judging_setup import Remarks, Setup, checked
from shoplog.trade.machining.cutting import MARKED_SPEED
from shoplog.trade.machining.force_estimates import Kilowatt, Newton, NewtonMetre
from shoplog.trade.materials import Material

__all__ = ["JudgedCut", "Limit", "judged_cut"]

SOURCES = (
    "each limit names its own: handbooks' ranges (`cutting_range`), Kienzle's law"
    " (`turning_forces`, `milling_forces`, `drilling_forces`), beam theory, and what is given of"
    " the machine"
)


@offered(source=SOURCES)
def judged_cut(
    operation: str,
    material: str | Material,
    cutter: str = "HSS",
    spindle_speed: RevPerMinute | None = None,
    feed_per_rev: MillimetrePerRev | None = None,
    feed_per_tooth: MillimetrePerTooth | None = None,
    feed_rate: MillimetrePerMinute | None = None,
    depth_of_cut: Millimetre | None = None,
    width_of_cut: Millimetre | None = None,
    diameter: Millimetre | None = None,
    cutter_diameter: Millimetre | None = None,
    teeth: ToothPerRev | None = None,
    nose_radius: Millimetre | None = None,
    edge_radius: Micrometre | None = None,
    entering_angle: Degree | None = None,
    stick_out: Millimetre | None = None,
    flute_length: Millimetre | None = None,
    shank_diameter: Millimetre | None = None,
    length: Millimetre | None = None,
    holding: str | None = None,
    drilled_before: Millimetre | None = None,
    slot_width: Millimetre | None = None,
    passes: int | None = None,
    total_depth: Millimetre | None = None,
    direction: str | None = None,
    backlash: Millimetre | None = None,
    table: str = "free",
    spindle_steps: list[RevPerMinute] | None = None,
    least_speed: RevPerMinute | None = None,
    most_speed: RevPerMinute | None = None,
    chuck_speed: RevPerMinute | None = None,
    cutter_speed: RevPerMinute | None = None,
    power: Kilowatt | None = None,
    torque: NewtonMetre | None = None,
    efficiency: Percent | None = None,
    drive_force: Newton | None = None,
    tolerance: Millimetre | None = None,
    wanted_ra: Annotated[float, In("um")] | None = None,
    rigidity: str = "ordinary",
    coolant: str = "flood",
    feed_by: str = "power",
) -> JudgedCut:
    """Every limit of a cut at once, and in one sentence what gives way first.

    Each limit is a figure against its bound; share = figure / bound, or bound / figure where the
    bound is a least one. Nothing is guessed: what is not given is named in `missing`.

    Parameters
    ----------
    operation : str [-]
        `turning, finish`, `slot milling`, `drilling` … as for `cutting_range`.
    material : str or Material [-]
        Any name of a material; a group such as `ISO M` has a range, and no force.
    cutter : str [-]
        `HSS`, `cobalt HSS`, `carbon steel`, `brazed carbide`, `indexable carbide` …
    spindle_speed : float [rpm]
        0.1 to 1000000; the speed that it runs at.
    feed_per_rev : float [mm/rev]
        0.0001 to 5. One of the three feeds.
    feed_per_tooth : float [mm/tooth]
        0.0001 to 5.
    feed_rate : float [mm/min]
        0.001 to 1000000.
    depth_of_cut : float [mm]
        0.001 to 500; radial in turning, axial in milling, of the hole in drilling.
    width_of_cut : float [mm]
        0.001 to 1000; radial, in milling. A slot is taken as wide as its cutter.
    diameter : float [mm]
        0.1 to 2000; of the work before the cut, of the bore, or of the hole that is drilled.
    cutter_diameter : float [mm]
        0.1 to 1000; of a milling cutter, a drill or a wheel.
    teeth : float [tooth/rev]
        Whole, 1 to 100.
    nose_radius : float [mm]
        0 to 100.
    edge_radius : float [um]
        0 to 500; of the edge's rounding. Left out, that of a sharp edge of the cutter.
    entering_angle : float [deg]
        10 to 150; 90 where it is left out.
    stick_out : float [mm]
        0.1 to 1000; of the end mill or the boring bar.
    flute_length : float [mm]
        0.1 to 1000; of the end mill.
    shank_diameter : float [mm]
        0.1 to 1000; of the boring bar, or of the end mill's shank.
    length : float [mm]
        0.1 to 10000; of the work, free or to the centre.
    holding : str [-]
        `chuck`, `chuck and centre` or `centres`.
    drilled_before : float [mm]
        0 to 1000; the hole that is there.
    slot_width : float [mm]
        0.01 to 1000; of the slot that is to come out.
    passes : int [-]
        Whole, 1 to 1000; all of the same depth of cut.
    total_depth : float [mm]
        0.001 to 1000; what the passes must come to together, in turning on the radius.
    direction : str [-]
        `climb` or `conventional`.
    backlash : float [mm]
        0 to 10; of the table's screw.
    table : str [-]
        `free`, `locked` or `compensated`.
    spindle_steps : list of float [rpm]
        Each 0.1 to 1000000.
    least_speed : float [rpm]
        0.1 to 1000000; of a machine without steps.
    most_speed : float [rpm]
        0.1 to 1000000; of a machine without steps.
    chuck_speed : float [rpm]
        0.1 to 1000000; marked on the chuck or faceplate.
    cutter_speed : float [rpm]
        0.1 to 1000000; marked on the cutter or wheel.
    power : float [kW]
        0.001 to 1000; of the motor.
    torque : float [N*m]
        0.001 to 100000; what the spindle bears at this step. Left out, what the motor gives there.
    efficiency : float [%]
        10 to 100; from motor to cut, 75 where it is left out.
    drive_force : float [N]
        0.1 to 1000000; of the feed's drive along it, as `table_drive_force` gives it.
    tolerance : float [mm]
        0.0001 to 10; what bending may cost the wall, in turning and boring the diameter.
    wanted_ra : float [um]
        0.005 to 200.
    rigidity : str [-]
        `rigid`, `ordinary` or `light`.
    coolant : str [-]
        `flood`, `brushed` or `dry`.
    feed_by : str [-]
        `power` or `hand`; no force is worked out for a feed by hand.

    Returns
    -------
    JudgedCut [-]
        The limits in order, what gives way first, and what is missing.

    Raises
    ------
    TradeError
        A word that no row knows, a value that no cut has, or a feed given twice. A limit that is
        passed is no error: it is in the record with a share over 100 %.

    Notes
    -----
    Forces are good to ±20 % at best, and each limit carries its spread; where the bound lies
    within the spread its verdict is `cannot tell`. Rated, marked and geometric limits that are
    passed come first, then the greatest share.

    Examples
    --------
    >>> cut = judged_cut("turning", "C45", spindle_speed=290, feed_per_rev=0.1, depth_of_cut=1,
    ...     diameter=25, nose_radius=0.4, power=0.25)
    >>> round(cut.power.share), cut.power.verdict
    (63, 'within')

    References
    ----------
    Those of the formulas that it asks, each named in its limit.
    """
    setup = checked(
        operation,
        material,
        cutter,
        spindle_steps,
        spindle_speed=spindle_speed,
        feed_per_rev=feed_per_rev,
        feed_per_tooth=feed_per_tooth,
        feed_rate=feed_rate,
        depth_of_cut=depth_of_cut,
        width_of_cut=width_of_cut,
        diameter=diameter,
        cutter_diameter=cutter_diameter,
        teeth=teeth,
        nose_radius=nose_radius,
        edge_radius=edge_radius,
        entering_angle=entering_angle,
        stick_out=stick_out,
        flute_length=flute_length,
        shank_diameter=shank_diameter,
        length=length,
        holding=holding,
        drilled_before=drilled_before,
        slot_width=slot_width,
        passes=passes,
        total_depth=total_depth,
        direction=direction,
        backlash=backlash,
        table=table,
        least_speed=least_speed,
        most_speed=most_speed,
        chuck_speed=chuck_speed,
        cutter_speed=cutter_speed,
        power=power,
        torque=torque,
        efficiency=efficiency,
        drive_force=drive_force,
        tolerance=tolerance,
        wanted_ra=wanted_ra,
        rigidity=rigidity,
        coolant=coolant,
        feed_by=feed_by,
    )
    return _judged(setup)


def _judged(setup: Setup) -> JudgedCut:
    remarks = Remarks()
    cut = cut_range(setup, remarks)
    if not any("marked" in caution for caution in remarks.cautions):
        remarks.caution(MARKED_SPEED)
    unforced = [
        *spindle_limits(setup, remarks),
        *band_limits(setup, cut, remarks),
        *chip_limits(setup, remarks),
        *width_limits(setup),
        *pass_limits(setup, remarks),
        *direction_limits(setup, remarks),
        *overhang_limits(setup, remarks),
    ]
    forces = forces_of(setup, remarks)
    limits = [
        *unforced,
        *force_limits(setup, forces, remarks),
        *finish_limits(setup, remarks),
    ]
    return JudgedCut(
        f"{setup.kind.operation}, {setup.kind.stage}" if setup.kind.stage else setup.kind.operation,
        setup.material,
        setup.cutter,
        ranked(limits),
        remarks.attempt("rating", lambda: rated(setup, cut)),
        forces,
        tuple(remarks.missing),
        tuple(remarks.cautions),
        tuple(remarks.notes),
        setup,
    )
