"""Measuring the pitch diameter of an external thread over three wires, and back.

Wires of equal diameter lie in the grooves, two on one side and one on the other. The lead angle
lifts them a little; the correction for it is always worked out and shown.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sin, tan

from shoplog.trade.declare import Micrometre, Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within
from shoplog.trade.screw_threads.thread_limits import thread_limits
from shoplog.trade.screw_threads.threads import Thread

__all__ = [
    "ThreadWires",
    "WireMeasurement",
    "over_wires",
    "pitch_diameter_over_wires",
    "thread_wires",
]

H28 = (
    "NBS Handbook H28 (1969), Screw-Thread Standards for Federal Services, appendix on wires"
    " (from memory); EURAMET cg-10, v. 2.1, 2012 (lead correction, from memory)"
)
STEEPEST = 10.0
"""Lead angle in degrees to which the short form of the lead correction is used."""
ROUNDED = ("Whitworth", "Whitworth pipe", "BA")
"""Families whose crests are arcs."""
MATTERS = 2.5
"""Lead correction in micrometres from which it is said: H28 leaves out less than 0.0001 in."""


@dataclass(frozen=True, slots=True)
class ThreadWires:
    """Wires that suit a thread: the best, and the range that still works."""

    thread: Thread
    least: Millimetre
    """Flush with the crests: a thinner wire is not reached by the anvil."""
    best: Millimetre
    """Touches at the pitch line, where an error of the flank angle does least harm."""
    most: Millimetre
    """Touches where the straight flank ends."""

    def describe(self) -> str:
        """The wires in one sentence."""
        return (
            f"{self.thread.designation}: best wire {self.best:.3f} mm, usable from"
            f" {self.least:.3f} to {self.most:.3f} mm."
        )


@dataclass(frozen=True, slots=True)
class WireMeasurement:
    """A thread over three wires: pitch diameter, reading, and what the lead adds to it."""

    thread: Thread
    wire: Millimetre
    pitch_diameter: Millimetre
    measurement: Millimetre
    """Over the wires."""
    lead_correction: Micrometre
    """What the lead angle adds to the measurement."""
    notes: tuple[str, ...] = ()

    @property
    def off_basic(self) -> Micrometre:
        """Pitch diameter less the basic one."""
        return 1000 * (self.pitch_diameter - self.thread.pitch_diameter)

    @property
    def without_lead(self) -> Millimetre:
        """The measurement without the lead correction, as most tables for wires print it."""
        return self.measurement - self.lead_correction / 1000

    @property
    def least(self) -> Millimetre | None:
        """Measurement of the least pitch diameter of the thread's class, where it has one."""
        return self._at_limit(upper=False)

    @property
    def most(self) -> Millimetre | None:
        """Measurement of the greatest pitch diameter of the thread's class, where it has one."""
        return self._at_limit(upper=True)

    def _at_limit(self, *, upper: bool) -> float | None:
        if not self.thread.tolerance_class:
            return None
        size = thread_limits(self.thread).pitch_diameter
        pitch = size.max if upper else size.min
        return pitch + _rise(self.thread, self.wire) + _lead_lift(self.thread, self.wire, pitch)

    def describe(self) -> str:
        """The measurement in one sentence."""
        within = ""
        if self.least is not None:
            within = f"; its class goes from {self.least:.4f} to {self.most:.4f} mm over them"
        return (
            f"{self.thread.designation}: {self.measurement:.4f} mm over wires of {self.wire:.4f} mm"
            f" is a pitch diameter of {self.pitch_diameter:.4f} mm, {self.off_basic:+.0f} µm from"
            f" the basic one (lead correction {self.lead_correction:.1f} µm){within}."
        )


@offered(source=H28)
def thread_wires(thread: Thread) -> ThreadWires:
    """The best wire to measure a thread with, and the thinnest and thickest that work.

    The best touches at the pitch line: w = P / (2 cos a), with a half the thread angle; 0.57735 P
    for 60 degrees, 0.56369 P for 55.

    Parameters
    ----------
    thread : Thread [-]
        An external thread of any symmetrical profile.

    Returns
    -------
    ThreadWires [-]
        The best wire and the least and greatest usable diameters.

    Raises
    ------
    TradeError
        The thread is internal.

    Notes
    -----
    The range is for basic sizes: 0.505 P to 1.010 P for 60 degrees; a thread over or under size
    shifts it. For 55 degrees a maker of gauges states 0.826 P as the thickest where the
    rounded crest of BS 84 begins at 0.853 P, which is followed.

    Examples
    --------
    >>> round(thread_wires(Thread.from_text("M10")).best, 3)
    0.866

    References
    ----------
    NBS Handbook H28 (1969), appendix on the measurement of pitch diameter with wires (from memory).
    """
    _require_external(thread)
    _require_parallel(thread)
    half = radians(thread.flank_angle)
    groove = thread.fundamental_height / 2
    crest = (thread.major - thread.pitch_diameter) / 2
    return ThreadWires(
        thread,
        least=2 * (groove + crest) / (1 + 1 / sin(half)),
        best=thread.pitch / (2 * cos(half)),
        most=2 * (groove + _flank_top(thread)) * sin(half) / cos(half) ** 2,
    )


@offered(source=H28)
def over_wires(
    thread: Thread, wire: Millimetre | None = None, pitch_diameter: Millimetre | None = None
) -> WireMeasurement:
    """Measurement over three wires that a pitch diameter gives.

    M = E - P/2 cot(a) + w (1 + 1/sin(a)) + c, with E the pitch diameter, w the wire and a half the
    thread angle; the lead adds c = w/2 tan(l)^2 cos(a) cot(a), with l the lead angle.

    Parameters
    ----------
    thread : Thread [-]
        An external thread of any symmetrical profile.
    wire : float [mm]
        Diameter of the three wires; the best wire if left out.
    pitch_diameter : float [mm]
        The pitch diameter wanted, such as a limit of a class; the basic one if left out.

    Returns
    -------
    WireMeasurement [-]
        The measurement over the wires and the lead correction in it.

    Raises
    ------
    TradeError
        An internal thread, a wire outside the usable range, or a lead angle over 10 degrees.

    Notes
    -----
    For parallel threads. The pull of the micrometer presses the wires in by a micrometre or two.
    The short form of the correction holds to a lead angle of about 5 degrees.

    Examples
    --------
    >>> round(over_wires(Thread.from_text("M10"), 0.866).measurement, 3)
    10.326

    References
    ----------
    NBS Handbook H28 (1969); EURAMET cg-10, v. 2.1, 2012 (from memory).
    """
    wire = _usable(thread, wire)
    pitch = thread.pitch_diameter if pitch_diameter is None else pitch_diameter
    _require_pitch_diameter(thread, pitch)
    lift = _lead_lift(thread, wire, pitch)
    return _made(thread, wire, pitch, pitch + _rise(thread, wire) + lift, lift)


@offered(source=H28)
def pitch_diameter_over_wires(
    thread: Thread, measurement: Millimetre, wire: Millimetre | None = None
) -> WireMeasurement:
    """Pitch diameter from a measurement over three wires.

    E = M + P/2 cot(a) - w (1 + 1/sin(a)) - c, solved for the E that its own lead angle gives.

    Parameters
    ----------
    thread : Thread [-]
        An external thread of any symmetrical profile.
    measurement : float [mm]
        Over the wires, as read.
    wire : float [mm]
        Diameter of the three wires; the best wire if left out.

    Returns
    -------
    WireMeasurement [-]
        The pitch diameter, and how far it is from the basic one.

    Raises
    ------
    TradeError
        An internal thread, a wire outside the usable range, or a measurement that is no thread of
        that designation.

    Notes
    -----
    An error of the pitch counts 1.7 times, one of the wire 3 times, in a 60 degree thread.

    Examples
    --------
    >>> round(pitch_diameter_over_wires(Thread.from_text("M10"), 10.30, 0.866).pitch_diameter, 3)
    9.0

    References
    ----------
    NBS Handbook H28 (1969); EURAMET cg-10, v. 2.1, 2012 (from memory).
    """
    wire = _usable(thread, wire)
    require_within("measurement", measurement, "mm", 0, LARGEST)
    plain = measurement - _rise(thread, wire)
    _require_pitch_diameter(thread, plain, "measurement")
    pitch = plain
    for _ in range(40):  # each step is thousands of times nearer
        pitch = plain - _lead_lift(thread, wire, pitch)
    return _made(thread, wire, pitch, measurement, plain - pitch)


# ---- the geometry ----------------------------------------------------------------------------


def _require_external(thread: Thread) -> None:
    if thread.side == "internal":
        raise TradeError(
            f"{thread.designation} is an internal thread; wires measure an external one",
            hint="an internal thread is checked with a plug gauge or the screw itself",
            argument="thread",
        )


def _require_parallel(thread: Thread) -> None:
    if thread.taper:
        raise TradeError(
            f"{thread.designation} is a taper thread, on which wires tilt; it is not held",
            hint="a taper pipe thread is checked with a ring gauge",
            argument="thread",
        )


def _usable(thread: Thread, wire: float | None) -> float:
    wires = thread_wires(thread)
    if wire is None:
        return wires.best
    require_positive("wire", wire, "mm")
    if not wires.least - 1e-9 <= wire <= wires.most + 1e-9:
        raise OutOfRange(
            "wire",
            wire,
            "mm",
            least=round(wires.least, 4),
            most=round(wires.most, 4),
            source=thread.designation,
            hint=f"the best wire is {wires.best:.3f} mm",
        )
    return wire


def _require_pitch_diameter(thread: Thread, pitch: float, argument: str = "pitch_diameter") -> None:
    """A pitch diameter outside the thread's own height is another thread or a wrong reading."""
    least, most = thread.minor_diameter, thread.major
    if not least < pitch < most:
        raise TradeError(
            f"the pitch diameter would be {pitch:.3f} mm; that of {thread.designation} is about"
            f" {thread.pitch_diameter:.3f} mm, between {least:.3f} and {most:.3f} mm",
            hint="check the reading, the wires and the pitch",
            argument=argument,
        )


def _rise(thread: Thread, wire: float) -> float:
    half = radians(thread.flank_angle)
    return wire * (1 + 1 / sin(half)) - thread.pitch / (2 * tan(half))


def _lead_lift(thread: Thread, wire: float, pitch_diameter: float) -> float:
    half = radians(thread.flank_angle)
    slope = thread.lead / (pi * pitch_diameter)
    return wire / 2 * slope**2 * cos(half) / tan(half)


def _flank_top(thread: Thread) -> float:
    """From the pitch line to where the straight flank ends: under the crest if that is rounded."""
    crest = (thread.major - thread.pitch_diameter) / 2
    half = radians(thread.flank_angle)
    sharp = thread.fundamental_height / 2 - crest
    if thread.family not in ROUNDED:
        return crest
    radius = sharp / (1 / sin(half) - 1)
    return crest - radius * (1 - sin(half))


def _made(
    thread: Thread, wire: float, pitch: float, measurement: float, lift: float
) -> WireMeasurement:
    notes = []
    steep = thread.lead / (pi * pitch)
    if steep > tan(radians(STEEPEST)):
        raise TradeError(
            f"the lead angle of {thread.designation} is over {STEEPEST:g}°, where the lead"
            " correction is not held",
            hint="measure it against a master thread, or over one ball",
            argument="thread",
        )
    if 1000 * lift >= MATTERS:
        notes.append(
            f"the lead adds {1000 * lift:.1f} µm to the measurement; tables for single threads"
            " leave that out"
        )
    return WireMeasurement(thread, wire, pitch, measurement, 1000 * lift, tuple(notes))
