"""What a socket set screw holds on a shaft."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, OutOfRange, Percent, TradeError, offered
from shoplog.trade.fastening.tightening import (
    OVERTIGHTENING,
    Kilonewton,
    NewtonMetre,
    require_torque,
    torque_factor,
)
from shoplog.trade.machining.cutting import require_within
from shoplog.trade.screw_threads.thread_record import INCH
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["SetScrewHold", "set_screw_hold"]

LBF = 4.4482216152605
"""Newtons in a pound-force."""
POINTS = {"cup": 1.0, "cone": 1.07, "flat": 0.92, "dog": 0.92, "oval": 0.90}
"""Holding power against that of a cup point: a screw maker's engineering guide, point selection."""
HOLDS_LITTLE = (
    "a set screw alone must not hold what can hurt when it slips: add a flat, a dimple, a key or a"
    " pin; no screw head may stand out of a turning part"
)


@dataclass(frozen=True, slots=True)
class SetScrewHold:
    """What set screws hold on a shaft, from tests of cup-point screws."""

    thread: Thread
    shaft_diameter: Millimetre
    point: str
    seating_torque: NewtonMetre
    """Of a screw of that size."""
    torque: NewtonMetre
    force: Kilonewton
    """One screw, along the shaft or round it, before it moves 0.25 mm."""
    preload: Kilonewton
    """Likely thrust of the point on the shaft."""
    spread: Percent
    """Either way of the preload."""
    notes: tuple[str, ...] = ()

    @property
    def least_preload(self) -> Kilonewton:
        """What the thrust may be at least."""
        return self.preload * (1 - self.spread / 100)

    @property
    def most_preload(self) -> Kilonewton:
        """What the thrust may be at most: the thread in the hub must bear it."""
        return self.preload * (1 + self.spread / 100)

    @property
    def shaft_torque(self) -> NewtonMetre:
        """That one screw holds."""
        return self.force * self.shaft_diameter / 2

    @property
    def working_force(self) -> Kilonewton:
        """Half of the force: for a steady load."""
        return self.force / 2

    @property
    def working_torque(self) -> NewtonMetre:
        """A quarter of the torque: for a load that changes."""
        return self.shaft_torque / 4

    def describe(self) -> str:
        """What it holds in one sentence."""
        return (
            f"{self.thread.size} set screw, {self.point} point, {self.torque:.2f} N·m, on a shaft"
            f" of {self.shaft_diameter:g} mm: holds about {self.force:.2f} kN along the shaft or"
            f" {self.shaft_torque:.2f} N·m round it, with a thrust of {self.least_preload:.2f} to"
            f" {self.most_preload:.2f} kN; use half for a steady load, an eighth to a quarter for"
            " one that changes."
        )


@offered(
    source="Shigley, Mechanical Engineering Design, 9th ed. 2011, table 7-4 (from memory) and table"
    " 8-15; a screw maker's engineering guide (points, hardness, factors)",
    cautions=(OVERTIGHTENING, HOLDS_LITTLE),
)
def set_screw_hold(
    thread: Thread,
    shaft_diameter: Millimetre,
    torque: NewtonMetre | None = None,
    point: str = "cup",
    condition: str = "oiled",
) -> SetScrewHold:
    """Force and torque that one socket set screw holds on a shaft.

    The force of the table times torque / seating torque, and times 1.07 for a cone, 0.92 for a flat
    or dog, 0.90 for an oval point; round the shaft, force x radius. The point's thrust is
    T / (K d), with d the major diameter and K the torque factor.

    Parameters
    ----------
    thread : Thread [-]
        Of the set screw: ISO metric M1.6 to M24, or Unified #0 to 1 in.
    shaft_diameter : float [mm]
        Over 0, at most 500; about twice the screw's is usual.
    torque : float [N*m]
        Over 0, to the seating torque, which is taken if left out.
    point : str [-]
        `cup`, `cone`, `flat`, `dog` or `oval`.
    condition : str [-]
        Of the thread, for the thrust: `black`, `zinc plated`, `oiled`, `cadmium plated` or
        `anti-seize`.

    Returns
    -------
    SetScrewHold [-]
        Seating torque, the force and torque that it holds, and the thrust of its point.

    Raises
    ------
    TradeError
        A size or point that the table has not, or a torque over the seating torque.

    Notes
    -----
    For alloy screws on a shaft of 15 HRC or less that is at least 10 HRC softer than the screw; up
    to 15 % less on a harder one. For metric sizes the table, which is for inch screws, is read
    between its sizes. A second screw beside the first adds less than as much again.

    Examples
    --------
    >>> round(set_screw_hold(Thread.from_text("1/4-20"), 12.7).force, 2)
    4.45

    References
    ----------
    Shigley, 9th ed. 2011, table 7-4 (from memory).
    """
    require_within("shaft_diameter", shaft_diameter, "mm", 0.5, 500)
    kind = point.strip().lower()
    if kind not in POINTS:
        raise TradeError(
            f'"{point}" is no point of a set screw',
            hint=f"points are {', '.join(POINTS)}",
            argument="point",
        )
    seating, force, notes = _set_screw(thread)
    given = seating if torque is None else torque
    require_torque("torque", given)
    if given > seating * (1 + 1e-9):
        raise OutOfRange(
            *("torque", given, "N*m"),
            most=round(seating, 3),
            source=f"seating torque of {thread.size}",
            hint="more strips the socket or bursts the hub",
        )
    holds = POINTS[kind] * force * given / seating
    _, factor, spread = torque_factor(condition)
    thrust = given / (factor * thread.major)
    return SetScrewHold(
        *(thread, shaft_diameter, kind, seating, given, holds, thrust, spread, notes),
    )


# ---- the table -------------------------------------------------------------------------------


def _set_screw(thread: Thread) -> tuple[float, float, tuple[str, ...]]:
    """Seating torque in N·m and force in kN of a set screw, read between the table's sizes."""
    rows = [
        (
            float(r["diameter_in"]) * INCH,
            float(r["torque_lbf_in"]),
            float(r["force_lbf"]),
            r["size"],
        )
        for r in table("screws_set_hold").rows
    ]
    if thread.family not in ("ISO metric", "Unified") or not (
        rows[0][0] - 1e-6 <= thread.major <= rows[-1][0] + 1e-6
    ):
        raise TradeError(
            f"the holding power of a {thread.designation} set screw is not held",
            hint="it is for M1.6 to M24 and #0 to 1 in",
            argument="thread",
        )
    for (low, t1, f1, one), (high, t2, f2, two) in pairwise(rows):
        if thread.major <= high + 1e-6:
            part = min(max((thread.major - low) / (high - low), 0.0), 1.0)
            torque, force = t1 + part * (t2 - t1), f1 + part * (f2 - f1)
            between = (
                ()
                if part in (0.0, 1.0) or not thread.metric
                else (f"between {one} and {two} in of a table for inch screws",)
            )
            return torque * LBF * INCH / 1000, force * LBF / 1000, between
    raise AssertionError("a size within the table is in one of its steps")
