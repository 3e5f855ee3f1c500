"""Blind tapped holes: how deep to drill and how deep to tap for a length of full thread."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import Degree, Millimetre, Number, OutOfRange, TradeError, offered
from shoplog.trade.hole_work.holes import drill_point_depth
from shoplog.trade.machining.cutting import LARGEST, require_positive, require_within
from shoplog.trade.screw_threads.tapping import tap_drill
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["TAP_BREAKS", "TapLead", "TappedHole", "tapped_hole", "thread_in_hole"]

TAP_BREAKS = (
    "a tap breaks when it reaches the bottom, packs with chips or is leant on: turn it by hand with"
    " a wrench square to the hole, back it off, clear the chips and use cutting oil; a broken tap"
    " is hard and sharp, wear eye protection"
)


@dataclass(frozen=True, slots=True)
class TapLead:
    """The taper on the end of a tap, in threads."""

    tap: str
    least: Number
    most: Number


@dataclass(frozen=True, slots=True)
class TappedHole:
    """Depths of a blind tapped hole, from its face."""

    thread: Thread
    full_thread: Millimetre
    """Depth to which every thread is full."""
    tap: str
    lead: Millimetre
    """Length of the tap's lead."""
    room: Millimetre
    """Left under the tap for chips."""
    drill: Millimetre
    point: Millimetre
    """Length of the drill's point."""

    @property
    def tap_depth(self) -> Millimetre:
        """To the end of the tap."""
        return self.full_thread + self.lead

    @property
    def drill_depth(self) -> Millimetre:
        """At the drill's full diameter."""
        return self.tap_depth + self.room

    @property
    def tip_depth(self) -> Millimetre:
        """To the tip of the drill; something must be left under it."""
        return self.drill_depth + self.point

    @property
    def tap_turns(self) -> Number:
        """Turns of the tap from where it first bites to its depth."""
        return self.tap_depth / self.thread.lead

    def describe(self) -> str:
        """The depths in one sentence."""
        return (
            f"{self.thread.designation}, {self.full_thread:.2f} mm of full thread with a"
            f" {self.tap} tap: drill {self.drill:.2f} mm to {self.drill_depth:.2f} mm at the full"
            f" diameter ({self.tip_depth:.2f} mm to the tip), tap to {self.tap_depth:.2f} mm."
        )


@offered(
    source="DIN 352 and DIN 2197:1997 (lead of taps); sum of lengths, and a room of two pitches:"
    " common practice, no source",
    cautions=(TAP_BREAKS,),
)
def tapped_hole(
    thread: Thread,
    full_thread: Millimetre,
    tap: str = "second",
    drill: Millimetre | None = None,
    room: Millimetre | None = None,
    point_angle: Degree = 118,
) -> TappedHole:
    """Depth to drill and to tap a blind hole for a length of full thread.

    tap depth = full thread + lead x pitch; drill depth = tap depth + room; tip = drill depth +
    D / (2 tan(theta / 2)), with D the drill and theta its point angle.

    Parameters
    ----------
    thread : Thread [-]
        An internal thread, or one whose class is not stated.
    full_thread : float [mm]
        Over 0; of full thread, at least the engagement wanted.
    tap : str [-]
        The last tap that goes in: `taper`, `second` or `bottoming`; `inch taper`, `inch plug`,
        `inch bottoming`; or a form of DIN 2197, `form A` to `form F`.
    drill : float [mm]
        Tapping drill; that of 75 % of thread if left out.
    room : float [mm]
        0 or more, for chips under the tap; two pitches if left out.
    point_angle : float [deg]
        Over 0, at most 180; of the drill.

    Returns
    -------
    TappedHole [-]
        Depths of the tap, of the drill at its full diameter, and of its tip.

    Raises
    ------
    TradeError
        An external thread, no such tap, or a drill that does not suit the thread.

    Notes
    -----
    The longest lead that the standard allows the tap is counted. For a through hole let the lead
    come out at the far side.

    Examples
    --------
    >>> hole = tapped_hole(Thread.from_text("M6"), 12, "bottoming")
    >>> round(hole.tap_depth, 2), round(hole.drill_depth, 2), round(hole.tip_depth, 2)
    (14.0, 16.0, 17.5)

    References
    ----------
    DIN 352; DIN 2197:1997; common practice, no source.
    """
    require_positive("full_thread", full_thread, "mm")
    return _hole(thread, full_thread, tap, drill, room, point_angle)


@offered(
    source="DIN 352 and DIN 2197:1997 (lead of taps); sum of lengths, and a room of two pitches:"
    " common practice, no source",
    cautions=(TAP_BREAKS,),
)
def thread_in_hole(
    thread: Thread,
    drill_depth: Millimetre,
    tap: str = "second",
    drill: Millimetre | None = None,
    room: Millimetre | None = None,
    point_angle: Degree = 118,
) -> TappedHole:
    """Length of full thread that a blind hole of a depth can be tapped to.

    full thread = drill depth - room - lead x pitch.

    Parameters
    ----------
    thread : Thread [-]
        An internal thread, or one whose class is not stated.
    drill_depth : float [mm]
        Over 0; at the drill's full diameter, without its point.
    tap : str [-]
        The last tap that goes in, as for `tapped_hole`.
    drill : float [mm]
        Tapping drill; that of 75 % of thread if left out.
    room : float [mm]
        0 or more, for chips under the tap; two pitches if left out.
    point_angle : float [deg]
        Over 0, at most 180; of the drill.

    Returns
    -------
    TappedHole [-]
        The full thread, and the depths of tap and drill.

    Raises
    ------
    TradeError
        No thread is left, or as for `tapped_hole`.

    Notes
    -----
    As for `tapped_hole`.

    Examples
    --------
    >>> round(thread_in_hole(Thread.from_text("M6"), 18).full_thread, 2)
    12.0

    References
    ----------
    DIN 352; DIN 2197:1997; common practice, no source.
    """
    require_positive("drill_depth", drill_depth, "mm")
    spent = _hole(thread, 0.0, tap, drill, room, point_angle).drill_depth
    if drill_depth <= spent:
        raise OutOfRange(
            *("drill_depth", drill_depth, "mm"),
            over=spent,
            source=f"lead of a {_tap(tap).tap} tap and room under it",
            hint="a bottoming tap and less room want less",
        )
    return _hole(thread, drill_depth - spent, tap, drill, room, point_angle)


def _hole(
    thread: Thread,
    full_thread: float,
    tap: str,
    drill: float | None,
    room: float | None,
    point_angle: float,
) -> TappedHole:
    found = tap_drill(thread).drill.diameter if drill is None else drill
    if not thread.major - 2 * thread.whole_height - 1e-9 <= found < thread.major:
        raise OutOfRange(
            "drill",
            found,
            "mm",
            least=round(thread.major - 2 * thread.whole_height, 4),
            below=thread.major,
            source=thread.designation,
        )
    space = 2 * thread.pitch if room is None else room
    require_within("room", space, "mm", 0, LARGEST)
    lead = _tap(tap).most * thread.pitch
    point = drill_point_depth(found, point_angle)
    return TappedHole(thread, full_thread, _tap(tap).tap, lead, space, found, point)


# ---- the taps --------------------------------------------------------------------------------


@cache
def _taps() -> dict[str, TapLead]:
    found = {}
    for row in table("screws_taps").rows:
        lead = TapLead(row["tap"], float(row["least"]), float(row["most"]))
        for name in (row["tap"], *filter(None, row["also"].split(";"))):
            found[name.lower()] = lead
    return found


def _tap(name: str) -> TapLead:
    found = _taps().get(" ".join(name.split()).lower())
    if found is None:
        known = dict.fromkeys(lead.tap for lead in _taps().values())
        raise TradeError(
            f'"{name}" is no tap that is held', hint=f"taps are {', '.join(known)}", argument="tap"
        )
    return found
