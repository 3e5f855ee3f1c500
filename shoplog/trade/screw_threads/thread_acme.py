"""Limits of general purpose Acme threads in the classes 2G to 4G of ASME B1.5, by its formulas."""

from __future__ import annotations

from shoplog.trade.declare import Size, TradeError
from shoplog.trade.screw_threads.thread_metric import Limits
from shoplog.trade.screw_threads.thread_record import INCH, Thread
from shoplog.trade.screw_threads.thread_tolerances import (
    acme_allowance,
    acme_pitch_tolerance,
    round_inch,
)

__all__ = ["acme_limits"]

LEAST_CREST = 0.005
"""In inches: least tolerance of the external major and the internal minor diameter."""


def acme_limits(thread: Thread, name: str) -> Limits:
    """Limits of an Acme thread in mm.

    Crests have 0.05 P and at least 0.005 in; the screw's root has 1.5 times the pitch diameter's
    tolerance, the nut's root as much as its clearance on the diameter.

    Raises
    ------
    TradeError
        The designation does not say which side it is on; the classes do not.
    """
    if not thread.side:
        raise TradeError(
            f"{thread.designation} does not say whether it is internal or external",
            hint=f'write "{thread.designation} external" or "{thread.designation} internal"',
            argument="thread",
        )
    diameter, pitch = thread.major / INCH, thread.pitch / INCH
    inches = acme_pitch_tolerance(diameter, pitch, name)
    tolerance = round_inch(inches) * INCH
    crest = max(0.05 * pitch, LEAST_CREST) * INCH
    if thread.side == "internal":
        return Limits(
            Size(thread.internal_major_diameter, 0.0, 2 * thread.clearance),
            Size(thread.pitch_diameter, 0.0, tolerance),
            Size(thread.minor_diameter, 0.0, crest),
        )
    allowance = round_inch(acme_allowance(diameter, name)) * INCH
    return Limits(
        Size(thread.major, -crest, 0.0),
        Size(thread.pitch_diameter, -allowance - tolerance, -allowance),
        Size(thread.root_diameter, -round_inch(1.5 * inches) * INCH, 0.0),
    )
