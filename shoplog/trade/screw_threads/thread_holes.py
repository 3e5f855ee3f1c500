"""How large and how small a hole may be that is tapped: the limits of the minor diameter."""

from __future__ import annotations

from shoplog.trade.screw_threads.thread_limits import thread_limits
from shoplog.trade.screw_threads.thread_record import INCH, Thread

__all__ = ["greatest_hole", "outside_limits"]

EQUAL = 1e-6
USUAL_CLASS = {"ISO metric": "6H", "Unified": "2B"}
BS_84_CREST = ((25.5, 0.004), (21, 0.005), (0, 0.007))
"""From how many threads per inch, and inches added to 0.2 P for the internal minor diameter."""


def greatest_hole(thread: Thread) -> tuple[float, str] | None:
    """Greatest minor diameter in mm of an internal thread, and by what; nothing where not held.

    BS 84:1956 adds 0.2 P + 0.004 to 0.007 in to the basic minor diameter (as reprinted from
    Machinery's Handbook), BS 93:2008 0.375 P (annex B).
    """
    if thread.family == "Whitworth":
        added = next(inch for least, inch in BS_84_CREST if thread.threads_per_inch > least)
        return thread.minor_diameter + 0.2 * thread.pitch + added * INCH, "BS 84"
    if thread.family == "BA":
        return thread.minor_diameter + 0.375 * thread.pitch, "BS 93"
    if thread.series == "G":
        return thread_limits(thread).minor_diameter.max, "ISO 228-1"
    if thread.family not in USUAL_CLASS:
        return None
    name = thread.tolerance_class or USUAL_CLASS[thread.family]
    standard = "ISO 965-1" if thread.metric else "ASME B1.1"
    return thread_limits(thread, name).minor_diameter.max, f"{standard} in class {name}"


def outside_limits(thread: Thread, diameter: float) -> list[str]:
    """That a hole is smaller or larger than the standard lets the minor diameter be."""
    least = thread.minor_diameter
    standard = _standard(thread)
    if diameter < least - EQUAL:
        return [
            f"the drill is smaller than the basic minor diameter {least:.3f} mm, the least that"
            f" {standard} allows; the tap binds and may break"
        ]
    most = greatest_hole(thread)
    if most and diameter > most[0] + EQUAL:
        return [
            f"the drill is larger than {most[0]:.3f} mm, the greatest minor diameter by {most[1]}"
        ]
    return []


def _standard(thread: Thread) -> str:
    """The standard that has the limits of a thread."""
    named = {"ISO metric": "ISO 965-1", "Unified": "ASME B1.1", "Whitworth": "BS 84", "BA": "BS 93"}
    return named.get(thread.family, "ISO 228-1" if thread.series == "G" else "ISO 7-1")
