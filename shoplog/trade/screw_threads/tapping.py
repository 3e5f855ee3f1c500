"""The drill to tap a thread with, and how much thread a hole leaves."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.trade.declare import Millimetre, OutOfRange, Percent, TradeError, offered
from shoplog.trade.hole_work.drill_sets import EQUAL, INCH_SETS, Drill, drills_of
from shoplog.trade.screw_threads.thread_holes import greatest_hole, outside_limits
from shoplog.trade.screw_threads.thread_record import Thread

__all__ = ["TapDrill", "tap_drill", "thread_percent"]

USUAL = 75
"""Percentage of thread that is asked for where none is said."""
USUAL_WHITWORTH = 80
"""Of Whitworth form: the drills of BS 1157 leave 77 to 87 %."""
DRILLED_IN_INCHES = ("Unified", "Acme", "NPT")


@dataclass(frozen=True, slots=True)
class TapDrill:
    """The drill to tap a thread with: asked, exact, chosen, and what the choice really gives."""

    thread: Thread
    asked: Percent
    diameter: Millimetre
    """The exact diameter for the percentage asked."""
    drill: Drill
    nearest_metric: Drill | None
    """Nothing where no metric drill leaves a thread."""
    nearest_inch: Drill | None

    @property
    def percent(self) -> Percent:
        """The percentage of thread that the chosen drill gives; of a taper thread, at its small
        end.
        """
        return thread_percent(self.thread, self.drill.diameter)

    @property
    def nearest_metric_percent(self) -> Percent | None:
        """The percentage of thread that the nearest metric drill gives."""
        return self._percent_of(self.nearest_metric)

    @property
    def nearest_inch_percent(self) -> Percent | None:
        """The percentage of thread that the nearest fractional, number or letter drill gives."""
        return self._percent_of(self.nearest_inch)

    def _percent_of(self, drill: Drill | None) -> float | None:
        return None if drill is None else thread_percent(self.thread, drill.diameter)

    @property
    def cautions(self) -> tuple[str, ...]:
        """A hole outside the limits of the minor diameter, less than half a thread, or a drill far
        off.
        """
        found = list(self.thread.cautions)
        if not self.thread.taper:
            found += outside_limits(self.thread, self.drill.diameter)
        if self.percent < 50:
            found.append("less than half a thread may strip (common practice, no source)")
        if abs(self.percent - self.asked) > 10:
            found.append(
                f"no drill of the sets is near: {self.percent:.1f} % where {self.asked:g} % was"
                f" asked; bore or ream to {self.diameter:.3f} mm"
            )
        return tuple(found)

    @property
    def notes(self) -> tuple[str, ...]:
        """What the rule D - P would give, which tap a left-hand thread takes, a taper reamer."""
        found = list(self.thread.notes)
        rule = self.thread.major - self.thread.pitch
        if self.thread.metric and abs(rule - self.drill.diameter) > EQUAL:
            found.append(
                f"charts made by the rule D - P give {rule:g} mm"
                f" ({thread_percent(self.thread, rule):.1f} %)"
            )
        if self.thread.hand == "left":
            found.append("it takes a left-hand tap")
        if self.thread.taper:
            found.append(
                f"a straight hole, which leaves a full thread at the small end only; reamed"
                f" 1:{1 / self.thread.taper:g} before tapping, the taps cut less"
            )
        return tuple(found)

    def describe(self) -> str:
        """The choice in one sentence, with the percentages and the drill of the other system."""
        choice = f"{self.thread.designation}: drill {self.drill.designation}"
        if self.thread.taper:
            return (
                f"{choice} ({self.drill.diameter:.3f} mm) for a minor diameter of"
                f" {self.diameter:.3f} mm at the small end{self._in_other_system}"
            )
        return (
            f"{choice} ({self.drill.diameter:.3f} mm) for {self.percent:.1f} % of thread; asked"
            f" {self.asked:g} % is {self.diameter:.3f} mm{self._in_other_system}"
        )

    @property
    def _in_other_system(self) -> str:
        other = self.nearest_inch if self.drill.set_name == "metric" else self.nearest_metric
        if other is None:
            return "; the other system has no drill for it"
        found = f"; in the other system {other.designation}"
        return found if self.thread.taper else f"{found} ({self._percent_of(other):.1f} %)"


@offered(source="Machinery's Handbook, 31st edition, Diameter of Tap Drill, table 2")
def thread_percent(thread: Thread, drill: Millimetre) -> Percent:
    """Percentage of thread that is left when a hole is drilled and tapped.

    100 (D - d) / (2 h), with D the major diameter, d the drill and h the whole height: 3/4 H =
    0.6495 P for a metric or Unified thread, 0.6403 P for a Whitworth, 0.6 P for a BA thread.

    Parameters
    ----------
    thread : Thread [-]
        The internal thread; of a taper one, what is left at its small end.
    drill : float [mm]
        Diameter of the hole; over 0, below the major diameter.

    Returns
    -------
    float [%]
        Percentage of thread; of a metric or Unified thread 83.3 % is a hole of the basic minor
        diameter.

    Notes
    -----
    The whole of a 60 degree thread is 3/4 H, the height of the old American National thread, as tap
    charts take it. Some texts take 5/8 H = 0.5413 P instead; their 90 % is 75 % here.

    Examples
    --------
    >>> round(thread_percent(Thread.from_text("M6"), 5.0), 1)
    77.0

    References
    ----------
    Machinery's Handbook, 31st edition, Diameter of Tap Drill, table 2 (percentages of full thread).
    """
    _hole(thread, drill)
    return 100 * (thread.major_at_end - drill) / (2 * thread.whole_height)


@offered(
    source="Machinery's Handbook, 31st edition, Diameter of Tap Drill, table 2; BS 1157:1975 for"
    " Whitworth and BA; ASME B1.20.1-1983 for NPT",
    cautions=(
        "for a cutting tap; a forming tap wants a larger hole, by its maker's table",
        "a tap that binds breaks and can throw splinters: wear eye protection, keep to the tap"
        " maker's advice and the rules of the workshop",
    ),
)
def tap_drill(thread: Thread, percent: Percent | None = None, sets: str = "") -> TapDrill:
    """Drill to tap a thread with a cutting tap.

    d = D - 2 h x percent / 100, with h the whole height (3/4 H of a 60 degree thread); then the
    nearest drill. For a taper pipe thread d is the minor diameter at its small end.

    Parameters
    ----------
    thread : Thread [-]
        An internal thread, or one whose side is not stated: metric, Unified, Whitworth, BA, pipe.
    percent : float [%]
        Percentage of thread asked for; over 0, at most 100. If left out: 75, or 80 for a Whitworth
        form. Not for a taper thread.
    sets : str [-]
        Which drills to choose from: some of `metric`, `fractional`, `number`, `letter`, with
        commas. If empty: the three inch sets for a Unified or NPT thread, metric for others.

    Returns
    -------
    TapDrill [-]
        The exact diameter, the drill, the percentage that it really gives, and the nearest metric
        and inch drills.

    Raises
    ------
    TradeError
        An external thread, one that a cutting tap is not for (trapezoidal, Acme, several starts), a
        set of another name, or no drill of the sets suits the thread.

    Notes
    -----
    The percentage decides, but that a Whitworth form without one gets no drill over the greatest
    minor diameter of its standard. Metric charts made by the rule D - P (77 % at any pitch) differ
    by 0.1 mm here and there, at M12 above all: a note gives their figure. Of two metric drills
    whose distance is the same to 0.01 mm, the one nearer to D - P is taken.

    Examples
    --------
    >>> tap_drill(Thread.from_text("M6x1")).drill.designation
    '5.0 mm'
    >>> tap_drill(Thread.from_text("7/16-20 UNF")).drill.designation
    '25/64 in'
    >>> tap_drill(Thread.from_text("1/8 NPT")).drill.designation
    'Q'

    References
    ----------
    Machinery's Handbook, 31st edition, Diameter of Tap Drill, table 2; BS 1157:1975;
    ASME B1.20.1-1983.
    """
    asked = _asked(thread, percent)
    exact = thread.major_at_end - asked / 100 * 2 * thread.whole_height
    inch = ",".join(INCH_SETS)
    own = inch if thread.family in DRILLED_IN_INCHES else "metric"
    most_mm = _most_allowed(thread, percent)
    drill = _for_tapping(thread, exact, sets or own, most_mm)
    if drill is None:
        raise _no_drill(thread, exact, sets or own, asked=bool(sets))
    return TapDrill(
        thread=thread,
        asked=asked,
        diameter=exact,
        drill=drill,
        nearest_metric=_for_tapping(thread, exact, "metric", most_mm),
        nearest_inch=_for_tapping(thread, exact, inch, most_mm),
    )


def _most_allowed(thread: Thread, percent: float | None) -> float:
    """The diameter that no drill is to be over: of a Whitworth form without a percentage asked, the
    greatest minor diameter. Charts for 60 degree threads go by the percentage alone.
    """
    most = greatest_hole(thread) if percent is None and thread.thread_angle == 55 else None
    return most[0] if most else thread.major_at_end


def _hole(thread: Thread, diameter: float) -> None:
    if not 0 < diameter < thread.major_at_end:
        raise OutOfRange(
            "drill", diameter, "mm", over=0, below=thread.major_at_end, source=thread.designation
        )


def _asked(thread: Thread, percent: float | None) -> float:
    """The percentage that is meant, once the thread is one to tap."""
    _tappable(thread)
    if thread.taper:
        if percent is not None:
            raise TradeError(
                f"a percentage of thread does not apply to {thread.designation}: a taper thread is"
                " drilled for its minor diameter at the small end",
                hint="leave the percentage out",
                argument="percent",
            )
        return 100
    if percent is None:
        return USUAL_WHITWORTH if thread.thread_angle == 55 else USUAL
    if not 0 < percent <= 100:
        raise OutOfRange("percent", percent, "%", over=0, most=100)
    return percent


def _tappable(thread: Thread) -> None:
    if thread.side == "external":
        raise TradeError(
            f"{thread.designation} is an external thread; a tap cuts an internal one",
            hint="leave the class out, or write the one of the internal thread",
            argument="thread",
        )
    if thread.family in ("ISO trapezoidal", "Acme") or thread.starts > 1:
        why = (
            f"has {thread.starts} starts"
            if thread.starts > 1
            else f"is of the {thread.family} family"
        )
        raise TradeError(
            f"{thread.designation} {why}, which a common cutting tap does not cut",
            hint=f"bore it to its minor diameter, {thread.minor_diameter:.3f} mm, and cut it with a"
            " tool, or with special taps as their maker says",
            argument="thread",
        )


def _for_tapping(thread: Thread, exact: float, sets: str, most: float) -> Drill | None:
    """The drill nearest to the exact diameter, of those that leave from 0 to 100 % of thread, and
    of these one that leaves no more than the greatest minor diameter if there is one.

    Metric ties to 0.01 mm go by the rule D - P: that is less than a drill's own tolerance, and
    charts have 12.0 mm for M14. The hole of a taper thread may be a little under its small end.
    """
    rule = thread.major - thread.pitch
    whole = thread.major_at_end - (2.5 if thread.taper else 2) * thread.whole_height

    def distance(each: Drill) -> tuple[float, float]:
        near = abs(each.diameter - exact)
        return (round(near, 2), abs(each.diameter - rule)) if thread.metric else (near, 0.0)

    inside = thread.major_at_end - EQUAL
    fit = [each for each in drills_of(sets) if whole <= each.diameter < inside]
    allowed = [each for each in fit if each.diameter <= most + EQUAL]
    return min(allowed or fit, key=distance, default=None)


def _no_drill(thread: Thread, exact: float, sets: str, *, asked: bool) -> TradeError:
    sizes = [each.diameter for each in drills_of(sets)]
    return TradeError(
        f"no drill of the sets {'asked ' if asked else ''}suits {thread.designation}: it takes"
        f" {exact:.3f} mm, they are {min(sizes):.3f} to {max(sizes):.3f} mm",
        hint="leave the sets out" if asked else f"bore it to {exact:.3f} mm",
        argument="sets",
    )
