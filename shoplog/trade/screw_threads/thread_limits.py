"""Limits of the major, pitch and minor diameter that a tolerance class gives a thread."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.trade.declare import Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.screw_threads.thread_acme import acme_limits
from shoplog.trade.screw_threads.thread_metric import (
    LARGEST,
    PITCHES,
    Limits,
    metric_limits,
    trapezoidal_limits,
)
from shoplog.trade.screw_threads.thread_pipes import pipe_size
from shoplog.trade.screw_threads.thread_record import Thread
from shoplog.trade.screw_threads.thread_series import metric_class
from shoplog.trade.screw_threads.thread_unified import unified_limits

__all__ = ["ThreadLimits", "metric_thread_limits", "thread_limits"]

SOURCE = (
    "ISO 965-1:1998 and 2013, clause on formulas; ASME B1.1-2003, tables and section 5;"
    " ISO 228-1:2000, table 1; ISO 2903:2016; ASME B1.5-1997"
)
EXAMPLES = {
    "ISO metric": ("6g", "6H"),
    "Unified": ("2A", "2B"),
    "ISO trapezoidal": ("7e", "7H"),
    "Acme": ("2G external", "2G internal"),
}


@dataclass(frozen=True, slots=True)
class ThreadLimits:
    """The limits of a thread in its tolerance class; each diameter is a size with limits."""

    thread: Thread
    tolerance_class: str
    """As its standard writes it; `internal` for a pipe thread G without a letter."""
    major: Size
    pitch_diameter: Size
    minor_diameter: Size
    notes: tuple[str, ...] = ()

    def describe(self) -> str:
        """The limits in one sentence."""
        sizes = (
            ("major diameter", self.major),
            ("pitch diameter", self.pitch_diameter),
            ("minor diameter", self.minor_diameter),
        )
        said = ", ".join(f"{name} {size.min:.3f} to {size.max:.3f} mm" for name, size in sizes)
        return f"{self.thread.designation} in {self.tolerance_class}: {said}"


@offered(source=SOURCE)
def thread_limits(thread: Thread, tolerance_class: str = "") -> ThreadLimits:
    """Limits of the diameters of a thread in a tolerance class.

    The deviation moves all diameters away from the basic profile, and the tolerance of each lies
    beyond it: downwards for an external thread, upwards for an internal one.

    Parameters
    ----------
    thread : Thread [-]
        An ISO metric, Unified, ISO trapezoidal, Acme or G thread.
    tolerance_class : str [-]
        Such as `6g`, `5H6H`, `2A`, `7e`; needed where the thread's designation has none.

    Returns
    -------
    ThreadLimits [-]
        Major, pitch and minor diameter, each as a size with limits.

    Raises
    ------
    TradeError
        No class is said, the class is not the standard's, or its standard's limits are not held.

    Notes
    -----
    For a normal length of engagement. The standards give no greatest major diameter of an internal
    thread and no least minor diameter of an external one; what is shown there is where the least
    root that they allow ends. A combination that the standard's table does not list is worked out
    by its formula, with a note.

    Examples
    --------
    >>> found = thread_limits(Thread.from_text("M10x1.5-6g"))
    >>> round(found.pitch_diameter.min, 3), round(found.pitch_diameter.max, 3)
    (8.862, 8.994)

    References
    ----------
    ISO 965-1:1998 and 2013; ASME B1.1-2003; ISO 228-1:2000; ISO 2903:2016; ASME B1.5-1997.
    """
    name = _class_of(thread, tolerance_class)
    if thread.family == "ISO metric":
        found = _metric(thread.major, thread.pitch, name)
    elif thread.family == "Unified":
        found = unified_limits(thread, _known(name, ("1A", "2A", "3A", "1B", "2B", "3B"), thread))
    elif thread.family == "ISO trapezoidal":
        known = ("7H", "8H", "9H", "7e", "8e", "8c", "9c")
        found = trapezoidal_limits(thread, _known(name, known, thread))
    elif thread.family == "Acme":
        found = acme_limits(thread, _known(name, ("2G", "3G", "4G"), thread))
    else:
        found = _pipe(thread)
    return ThreadLimits(thread, name, found.major, found.pitch, found.minor, found.notes)


@offered(source="ISO 965-1:1998 and 2013, clause on formulas and tables 1 to 5")
def metric_thread_limits(
    diameter: Millimetre, pitch: Millimetre, tolerance_class: str
) -> ThreadLimits:
    """Limits of a metric thread of any diameter and pitch, by the formulas of ISO 965-1.

    Td2 = 90 P^0.4 d^0.1, Td = 180 P^(2/3) - 3.15 / sqrt(P), TD1 = 230 P^0.7, TD2 = 1.32 Td2 um in
    grade 6, rounded to the R 40 series, with P the pitch and d the middle of the diameter range.

    Parameters
    ----------
    diameter : float [mm]
        Nominal major diameter; 1 to 355 mm.
    pitch : float [mm]
        0.2 to 8 mm, and below half the diameter.
    tolerance_class : str [-]
        Such as `6g`, `4g6g`, `6H`, `5H6H`; grades 3 to 9, positions a to h, G and H.

    Returns
    -------
    ThreadLimits [-]
        Major, pitch and minor diameter, each as a size with limits.

    Raises
    ------
    TradeError
        The class is not one of ISO 965-1, or its position is not given for the pitch.

    Notes
    -----
    For threads that ISO 261 does not have; `thread_limits` takes one by its designation.

    Examples
    --------
    >>> round(metric_thread_limits(45, 1, "6H").pitch_diameter.max, 3)
    44.52

    References
    ----------
    ISO 965-1:1998 and 2013.
    """
    if not 1 <= diameter <= LARGEST:
        raise OutOfRange("diameter", diameter, "mm", least=1, most=LARGEST, source="ISO 965-1")
    most = min(PITCHES[1], diameter / 2)
    if not PITCHES[0] <= pitch <= most:
        raise OutOfRange("pitch", pitch, "mm", least=PITCHES[0], most=most, source="ISO 965-1")
    found = _metric(diameter, pitch, tolerance_class)
    side = "internal" if tolerance_class[-1:].isupper() else "external"
    thread = Thread(
        designation=f"M{diameter:g}x{pitch:g}-{tolerance_class}",
        series="ISO metric, by formula",
        size=f"M{diameter:g}",
        major=diameter,
        pitch=pitch,
        hand="right",
        side=side,
        tolerance_class=tolerance_class,
        choice="",
    )
    return ThreadLimits(thread, tolerance_class, found.major, found.pitch, found.minor, found.notes)


def _metric(diameter: float, pitch: float, name: str) -> Limits:
    read = metric_class(name)
    if read is None:
        raise TradeError(
            f'"{name}" is no tolerance class of ISO 965-1',
            hint="such as 6g or 5g6g for an external thread, 6H or 5H6H for an internal one",
            argument="tolerance_class",
        )
    return metric_limits(diameter, pitch, *read)


def _class_of(thread: Thread, asked: str) -> str:
    """The class that is meant: the one asked for, else the designation's."""
    if thread.series == "G":
        if asked not in ("", thread.tolerance_class):
            raise TradeError(
                f"a thread G says its class itself, {thread.designation} is {thread.side}",
                hint=f'"G{thread.size}" is internal, "G{thread.size}A" and B are external',
                argument="tolerance_class",
            )
        return thread.tolerance_class or "internal"
    if thread.family not in EXAMPLES:
        raise TradeError(
            f"limits of {thread.series} threads are not held",
            hint="they are for ISO metric, Unified, ISO trapezoidal, Acme and G threads;"
            f" {_instead(thread)}",
            argument="thread",
        )
    name = asked or thread.tolerance_class
    if not name:
        one, other = EXAMPLES[thread.family]
        raise TradeError(
            f"{thread.designation} has no tolerance class",
            hint=f'write "{thread.designation}-{one}" or "{thread.designation}-{other}"',
            argument="thread",
        )
    _same_side(thread, name)
    return name


def _instead(thread: Thread) -> str:
    """What can be asked of a thread whose limits are not held."""
    name = f'"{thread.designation}"'
    said = f"thread({name}) has the basic sizes"
    if thread.side != "external":
        said += f", tap_drill({name}) the drill"
    if not thread.taper and thread.side != "internal":
        said += f", over_wires({name}) a pitch diameter to measure"
    return said


def _same_side(thread: Thread, name: str) -> None:
    """That a class is not one of the other side of the pair; Acme classes are of both."""
    if thread.family == "Acme" or not thread.side:
        return
    internal = name[-1:] == "B" if thread.family == "Unified" else name[-1:].isupper()
    if internal != (thread.side == "internal"):
        usual = EXAMPLES[thread.family][thread.side == "internal"]
        raise TradeError(
            f"{thread.designation} is {thread.side}, {name} is a class of"
            f" {'internal' if internal else 'external'} threads",
            hint=f"a class of {thread.side} threads is {usual}",
            argument="tolerance_class",
        )


def _known(name: str, known: tuple[str, ...], thread: Thread) -> str:
    if name not in known:
        raise TradeError(
            f'"{name}" is no class of {thread.series} threads',
            hint=f"classes are {', '.join(known)}",
            argument="tolerance_class",
        )
    return name


def _pipe(thread: Thread) -> Limits:
    """ISO 228-1: no deviation; the standard has no tolerance at the roots."""
    row = pipe_size(thread.size)
    if thread.side == "internal":
        pitch = Size(thread.pitch_diameter, 0.0, row.internal_pitch / 1000)
        major = Size(thread.major, 0.0, pitch.upper)
        minor = Size(thread.minor_diameter, 0.0, row.internal_minor / 1000)
        return Limits(major, pitch, minor)
    tolerance = row.external_pitch[thread.tolerance_class] / 1000
    pitch = Size(thread.pitch_diameter, -tolerance, 0.0)
    major = Size(thread.major, -row.external_major / 1000, 0.0)
    return Limits(major, pitch, Size(thread.minor_diameter, -tolerance, 0.0))
