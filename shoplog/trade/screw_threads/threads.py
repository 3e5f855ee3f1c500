"""Screw threads as their standards write them, and which of them go together.

The record is in `thread_record`; each family's designations are read by a module of their own, and
the limits that a tolerance class gives are in `thread_limits`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.trade.declare import offered
from shoplog.trade.screw_threads.thread_record import Thread

__all__ = ["Thread", "ThreadMate", "mates", "thread", "thread_mate"]

STANDARDS = (
    "ISO 68-1:1998, ISO 261:1998, ISO 724:1993, ISO 965-1:1998; ASME B1.1-2003; BS 84:1956;"
    " BS 93:1951; ISO 228-1:2000; ISO 7-1:1994; ISO 2901, ISO 2902, ISO 2903:2016;"
    " ASME B1.5-1997; ASME B1.20.1-1983"
)
SEALING = (frozenset({"R", "Rp"}), frozenset({"R", "Rc"}))
"""Pairs of ISO 7-1 that seal on the thread."""


@dataclass(frozen=True, slots=True)
class ThreadMate:
    """Whether two threads go together: why not, and what is only assumed; empty if all is well."""

    fault: str
    caution: str


@offered(source=STANDARDS)
def thread(designation: str) -> Thread:
    """Sizes of the screw thread that a designation names.

    Of a 60 degree thread: H = sqrt(3)/2 P, D2 = D - 3/4 H, D1 = D - 5/4 H, with P the pitch and D
    the major diameter. Of others D2 = D - h and D1 = D - 2 h, with h = 0.6403 P (Whitworth), 0.6 P
    (BA), P/2 (trapezoidal, Acme) or 0.8 P (NPT).

    Parameters
    ----------
    designation : str [-]
        As the standard writes it: `M6`, `M10x1.25`, `M8x1-6H-LH`, `M16xPh3P1.5`, `1/4-20 UNC`,
        `#10-32 UNF-2B`, `1-1/8-8 UN-2A`, `1/4 BSW`, `2 BA`, `G1/2A`, `R1/2`, `Rp1/2`, `Rc1/2`,
        `Tr 16x4-7e`, `Tr 40x14(P7)`, `1/2-10 ACME-2G`, `1/4-18 NPT`. M1 to M300 of ISO 261; Unified
        #0 to 4 in; BSW and BSF to 6 in; 0 BA to 16 BA; pipes 1/16 to 6; Tr 8 to Tr 200; Acme 1/4
        to 5 in.

    Returns
    -------
    Thread [-]
        Major, pitch, minor and root diameters, pitch, lead, heights, angles, taper, hand, class and
        side.

    Raises
    ------
    TradeError
        The text is no designation, or its standard has no such thread.

    Notes
    -----
    Basic sizes only: `thread_limits` gives the limits of a class. Where a standard's designation
    does not say which side of the pair a thread is on, `internal` or `external` may follow
    (`2 BA internal`).

    Examples
    --------
    >>> round(thread("M10x1.25").pitch_diameter, 3)
    9.188
    >>> thread("1/4 - 20 UNC-2B").designation
    '1/4-20 UNC-2B'
    >>> thread("Tr 40x14(P7)").starts
    2

    References
    ----------
    ISO 68-1:1998, ISO 261:1998, ISO 724:1993, ISO 965-1:1998; ASME B1.1-2003; BS 84:1956;
    BS 93:1951; ISO 228-1:2000; ISO 7-1:1994; ISO 2901, 2902 and 2903:2016; ASME B1.5-1997;
    ASME B1.20.1-1983.
    """
    return Thread.from_text(designation)


def mates(one: Thread, other: Thread) -> str:
    """Why two threads do not go together, as a clause; nothing when they do."""
    return thread_mate(one, other).fault


def thread_mate(one: Thread, other: Thread) -> ThreadMate:
    """Whether two threads go together: family, size, pitch, hand, starts, one of each side.

    R goes with Rp and Rc (ISO 7-1). G with any of them goes together and does not seal, which is a
    caution.
    """
    cautions = [clause for clause in (_unsealed(one, other), _unstated(one, other)) if clause]
    return ThreadMate("; ".join(_faults(one, other)), "; ".join(cautions))


def _faults(one: Thread, other: Thread) -> Iterator[str]:
    if one.family != other.family:
        yield f"{one.designation} is {one.series}, {other.designation} is {other.series}"
    if one.thread_angle != other.thread_angle:
        yield f"the thread angles differ, {one.thread_angle:g} and {other.thread_angle:g} degrees"
    if abs(one.major - other.major) > 1e-6:
        yield f"the diameters differ, {_millimetres(one.major)} and {_millimetres(other.major)}"
    if abs(one.pitch - other.pitch) > 1e-6:
        yield f"the pitches differ, {_pitch(one)} and {_pitch(other)}"
    if one.hand != other.hand:
        yield f"one is {one.hand}-hand, the other {other.hand}-hand"
    if one.starts != other.starts:
        yield f"the starts differ, {one.starts} and {other.starts}"
    if one.side and one.side == other.side:
        yield f"both are {one.side} threads"


def _millimetres(length: float) -> str:
    return f"{round(length, 4):g} mm"


def _pitch(one: Thread) -> str:
    if one.in_inches:
        return f"{round(one.threads_per_inch, 6):g} threads per inch"
    return f"{one.pitch:g} mm"


def _unsealed(one: Thread, other: Thread) -> str:
    """That a pair of pipe threads goes together and does not seal on the thread."""
    pair = frozenset({one.series, other.series})
    if one.family != "Whitworth pipe" or other.family != one.family or len(pair) == 1:
        return ""
    if pair in SEALING or "G" not in pair:
        return ""
    plain, taper = (one, other) if one.series == "G" else (other, one)
    return (
        f"{plain.designation} does not seal with {taper.designation} on the thread: G is fixed and"
        " sealed at a face (ISO 228-1); a joint that seals is R in Rp or Rc (ISO 7-1)"
    )


def _unstated(one: Thread, other: Thread) -> str:
    """That a designation does not say which side of the pair a thread is on."""
    names = list(dict.fromkeys(each.designation for each in (one, other) if not each.side))
    if not names:
        return ""
    verb = "is" if len(names) == 1 else "are"
    return f"no tolerance class says whether {' and '.join(names)} {verb} internal or external"
