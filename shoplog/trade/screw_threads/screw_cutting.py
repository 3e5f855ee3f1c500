"""Single-point screw cutting on the lathe: depth, passes, and the ground tool.

The sizes come from the thread's own profile, so threads of 60, 55 and 47.5 degrees and those with a
flat root (trapezoidal, Acme) are cut by the same formulas.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, degrees, pi, radians, sin, sqrt, tan

from shoplog.trade.declare import Degree, Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import require_count, require_within
from shoplog.trade.screw_threads.thread_limits import thread_limits
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["ThreadInfeed", "ThreadingTool", "thread_infeed", "threading_tool"]

MOST_PASSES = 60
LIMITED = ("ISO metric", "Unified")
"""Families of V threads whose classes are held."""
FLATTEST = 20.0
"""Flank angle in degrees under which a thread is no V: trapezoidal and Acme."""
SLACK = 1e-9
"""In mm or degrees: what a rounding error may be over a limit."""
TURN_BY_HAND = (
    "before the first cut turn the spindle by hand through the whole thread: nothing may foul the"
    " chuck, the tailstock or a shoulder, and the half-nuts must open where the thread ends"
)
CLEAR_OF_CHUCK = (
    "hands, sleeves and rags stay away from the turning work and its sharp thread; slow down, or"
    " cut away from the chuck, where the run-out is short; the lathe's manual comes first"
)
LONG_STICK_OUT = (
    "thin work that stands out far springs away from the tool and can climb over it: support it"
    " with a centre or a steady"
)


@dataclass(frozen=True, slots=True)
class ThreadInfeed:
    """How deep a thread is cut and in which passes, by the cross slide or by the compound."""

    thread: Thread
    side: str
    """`external` or `internal`."""
    radial_depth: Millimetre
    """Square to the axis, from the blank's diameter or the bore to the root."""
    compound_angle: Degree
    """Of the compound slide, from the square to the axis."""
    least_pass: Millimetre
    total: tuple[Millimetre, ...]
    """Radial depth after each pass."""
    tool_width: Millimetre = 0.0
    """Of the tool's flat front, for a trapezoidal or Acme thread; 0 for a V."""

    @property
    def blank_diameter(self) -> Millimetre:
        """What is turned or bored before threading: the major diameter, or the bore."""
        return self.thread.major if self.side == "external" else self.thread.minor_diameter

    @property
    def compound_depth(self) -> Millimetre:
        """Travel of the compound slide for the whole depth."""
        return self.radial_depth / cos(radians(self.compound_angle))

    @property
    def passes(self) -> int:
        """How many there are, without spring passes."""
        return len(self.total)

    @property
    def each(self) -> tuple[Millimetre, ...]:
        """Radial depth of each pass."""
        before = (0.0, *self.total[:-1])
        return tuple(now - then for now, then in zip(self.total, before, strict=True))

    @property
    def compound_total(self) -> tuple[Millimetre, ...]:
        """Reading of the compound's dial after each pass, from 0 where the tool touches."""
        return tuple(depth / cos(radians(self.compound_angle)) for depth in self.total)

    @property
    def compound_each(self) -> tuple[Millimetre, ...]:
        """Travel of the compound slide for each pass."""
        return tuple(depth / cos(radians(self.compound_angle)) for depth in self.each)

    @property
    def notes(self) -> tuple[str, ...]:
        """What the dial and the last passes ask for."""
        found = ["a dial that reads diameter counts twice the radial depth"]
        if self.compound_angle:
            found.append(
                "the compound's angle is counted from the square to the axis; where its scale is 0"
                f" along the bed, it is set to {90 - self.compound_angle:g}°"
            )
        if self.tool_width:
            found.append(
                f"the tool's front is {self.tool_width:.3f} mm wide, the flat of the basic root; a"
                " chip so wide chatters: take more passes, or rough with a narrower tool"
            )
        found += self._class_text
        found.append("the last pass is repeated without infeed until the tool cuts no more")
        return tuple(found)

    @property
    def _class_text(self) -> tuple[str, ...]:
        if not self.thread.tolerance_class or self.thread.family not in LIMITED:
            return ()
        limits = thread_limits(self.thread)
        size, what = limits.major, "major diameter"
        if self.side == "internal":
            size, what = limits.minor_diameter, "bore"
        return (f"its class has a {what} of {size.min:.3f} to {size.max:.3f} mm",)

    def describe(self) -> str:
        """Depth and passes in one sentence."""
        steps = ", ".join(f"{depth:.3f}" for depth in self.each)
        along = ""
        if self.compound_angle:
            along = f", {self.compound_depth:.3f} mm along a compound at {self.compound_angle:g}°"
        count = f"{self.passes} passes" if self.passes > 1 else "1 pass"
        return (
            f"{self.thread.designation}, {self.side}: {self.radial_depth:.3f} mm deep square to the"
            f" axis{along}, in {count} of {steps} mm square to the axis."
        )


@offered(
    source="ISO 68-1:1998, BS 84:2007, ISO 2901:2016, ASME B1.5-1997 (profiles); equal chip area as"
    " the manual infeed formula of Sandvik Coromant, Threading, owner's manual, page 114",
    cautions=(TURN_BY_HAND, CLEAR_OF_CHUCK, LONG_STICK_OUT),
)
def thread_infeed(
    thread: Thread,
    passes: int = 8,
    compound_angle: Degree = 0,
    least_pass: Millimetre = 0.02,
    nose_radius: Millimetre | None = None,
) -> ThreadInfeed:
    """Depth of a thread cut with a single tool, and the depth of each pass.

    Every pass takes the same area of chip. In a V the depth after pass k of n is h sqrt(k/n); with
    a tool of front w, for a flat root, it is x with w x + x^2 tan(a) = k/n (w h + h^2 tan(a)). The
    compound moves h / cos(b), with h the radial depth, a the flank and b the compound's angle.

    Parameters
    ----------
    thread : Thread [-]
        Of any profile; external where its designation does not say internal.
    passes : int [-]
        1 to 60, without spring passes.
    compound_angle : float [deg]
        0 (straight in) to half the thread angle, from the square to the axis; 29.5 or 30 for a 60
        degree thread.
    least_pass : float [mm]
        0 to 1; no pass is lighter, for a tool that takes less rubs.
    nose_radius : float [mm]
        Of the tool, for a V; 0 for a sharp point. If left out: that of the standard's rounded root,
        or an internal root of the basic profile.

    Returns
    -------
    ThreadInfeed [-]
        Radial depth, travel of the compound, and the depth of each pass and after each.

    Raises
    ------
    TradeError
        A compound turned past the flank, a nose too round for the thread or on a tool with a flat
        front, or more passes than the least pass allows.

    Notes
    -----
    The blank is at the basic major diameter, or the bore at the basic minor one; a blank under size
    wants as much less. The sharper the tool the deeper: measure the pitch diameter, over wires, to
    finish. A maker's formula for machines divides by n - 1 passes and puts a light one before them.

    Examples
    --------
    >>> cut = thread_infeed(Thread.from_text("M10"), passes=4)
    >>> round(cut.radial_depth, 3), [round(depth, 3) for depth in cut.each]
    (0.92, [0.46, 0.191, 0.146, 0.123])

    References
    ----------
    ISO 68-1:1998, BS 84:2007, ISO 2901:2016, ASME B1.5-1997; Sandvik Coromant, Threading, owner's
    manual, page 114.
    """
    require_count("passes", passes, MOST_PASSES)
    require_within("least_pass", least_pass, "mm", 0, 1)
    _require_compound(compound_angle, thread.flank_angle)
    side = thread.side or "external"
    width = 0.0
    if thread.flank_angle < FLATTEST:
        _require_no_nose(thread, nose_radius)
        depth, width = _flat_root(thread, side)
    else:
        depth = _depth(thread, side, nose_radius)
    groove = _Groove(width, tan(radians(thread.flank_angle)))
    total = _totals(depth, int(passes), least_pass, groove)
    return ThreadInfeed(thread, side, depth, compound_angle, least_pass, total, width)


@dataclass(frozen=True, slots=True)
class ThreadingTool:
    """The angles that a threading tool needs, for the helix it follows."""

    thread: Thread
    working_clearance: Degree
    """Between flank and tool, on either side."""

    @property
    def helix_angle(self) -> Degree:
        """At the pitch diameter: lead over circumference."""
        return degrees(atan(self.thread.lead / (pi * self.thread.pitch_diameter)))

    @property
    def root_helix_angle(self) -> Degree:
        """At the minor diameter, where it is steepest."""
        return degrees(atan(self.thread.lead / (pi * self.thread.minor_diameter)))

    @property
    def leading_clearance(self) -> Degree:
        """Ground on the side that goes first, measured along the axis."""
        return self.working_clearance + self.root_helix_angle

    @property
    def trailing_clearance(self) -> Degree:
        """Ground on the side that follows; under 0 it leans over."""
        return self.working_clearance - self.root_helix_angle

    @property
    def leads_with(self) -> str:
        """Which side of the tool goes first, seen from the operator with the tool in front."""
        return "left" if self.thread.hand == "right" else "right"

    @property
    def included_angle(self) -> Degree:
        """Of the tool with a flat top, set at centre height."""
        return self.thread.thread_angle

    def describe(self) -> str:
        """The angles in one sentence."""
        return (
            f"{self.thread.designation}: helix {self.helix_angle:.2f}° at the pitch diameter and"
            f" {self.root_helix_angle:.2f}° at the root; a tool of {self.included_angle:g}° with"
            f" {self.leading_clearance:.1f}° of side clearance on the leading, {self.leads_with}"
            f" side and {self.trailing_clearance:.1f}° on the other."
        )


@offered(
    source="ISO 5408:2009 (lead angle); side clearance: common practice, no source",
    cautions=(TURN_BY_HAND, CLEAR_OF_CHUCK),
)
def threading_tool(thread: Thread, working_clearance: Degree = 3) -> ThreadingTool:
    """Helix angle of a thread, and the side clearance that its tool needs for it.

    tan(phi) = l / (pi d), with l the lead; at the pitch diameter, and at the minor diameter where
    it is steepest and decides the clearance.

    Parameters
    ----------
    thread : Thread [-]
        The thread to be cut, of any profile and number of starts.
    working_clearance : float [deg]
        0.5 to 15; what stays between the flank and the tool's side.

    Returns
    -------
    ThreadingTool [-]
        The two helix angles and the clearance of the leading and of the trailing side, measured
        along the axis.

    Notes
    -----
    The leading side is the one towards the chuck when a right-hand thread is cut towards it. For
    a top with rake the tool's angle changes, and is not worked out.

    Examples
    --------
    >>> tool = threading_tool(Thread.from_text("M6"))
    >>> round(tool.helix_angle, 2), round(tool.leading_clearance, 1)
    (3.4, 6.7)

    References
    ----------
    ISO 5408:2009; common practice, no source.
    """
    require_within("working_clearance", working_clearance, "deg", 0.5, 15)
    return ThreadingTool(thread, working_clearance)


# ---- depth and passes ------------------------------------------------------------------------


def _require_no_nose(thread: Thread, nose_radius: float | None) -> None:
    if nose_radius is not None:
        raise TradeError(
            f"{thread.designation} has a flat root, to which a nose radius does not belong",
            hint="leave nose_radius out: the tool is as wide as the root",
            argument="nose_radius",
        )


def _require_compound(angle: float, half: float) -> None:
    if not 0 <= angle <= half + SLACK:
        raise OutOfRange(
            "compound_angle",
            angle,
            "deg",
            least=0,
            most=round(half, 6),
            source="half the thread angle",
            hint="a compound turned past the flank leaves steps on it",
        )


def _depth(thread: Thread, side: str, nose_radius: float | None) -> float:
    """From the blank down to the root that the tool leaves."""
    if nose_radius is None:
        root = (thread.major - thread.root_diameter) / 2
        return root if side == "external" else (thread.major - thread.minor_diameter) / 2
    sharp = thread.fundamental_height / 2
    sharpening = 1 / sin(radians(thread.flank_angle)) - 1
    truncation = nose_radius * sharpening
    crest = _crest(thread, side)
    # The mating part's crest is where the root may not be fuller.
    most = sharp - _crest(thread, "internal" if side == "external" else "external")
    if not 0 <= truncation <= most + SLACK:
        raise OutOfRange(
            "nose_radius",
            nose_radius,
            "mm",
            least=0,
            most=round(most / sharpening, 6),
            source=thread.designation,
            hint="a rounder nose leaves a root that the other part binds on",
        )
    return crest + sharp - truncation


def _flat_root(thread: Thread, side: str) -> tuple[float, float]:
    """Depth from the blank to the flat root of the basic profile, and the width of that flat.

    A groove is half a pitch wide at the pitch diameter, and narrows from there to the root.
    """
    outer, inner = thread.major, thread.root_diameter
    below = (thread.pitch_diameter - inner) / 2
    if side == "internal":
        outer, inner = thread.internal_major_diameter, thread.minor_diameter
        below = (outer - thread.pitch_diameter) / 2
    width = thread.pitch / 2 - 2 * below * tan(radians(thread.flank_angle))
    return (outer - inner) / 2, width


def _crest(thread: Thread, side: str) -> float:
    """From the pitch line to the crest."""
    if side == "external":
        return (thread.major - thread.pitch_diameter) / 2
    return (thread.pitch_diameter - thread.minor_diameter) / 2


@dataclass(frozen=True, slots=True)
class _Groove:
    """What a tool cuts: its front's width, and how much each flank adds with the depth."""

    width: float
    slope: float

    def depth_of(self, share: float, whole: float) -> float:
        """The depth at which a share of the area of the whole depth is cut."""
        if not self.width:
            return whole * sqrt(share)
        area = share * (self.width * whole + self.slope * whole**2)
        return (sqrt(self.width**2 + 4 * self.slope * area) - self.width) / (2 * self.slope)


def _totals(depth: float, passes: int, least: float, groove: _Groove) -> tuple[float, ...]:
    """Depths after each pass: by equal areas, then by the least pass where that is more.

    The last passes are the lightest, so it is they that are raised to the least; the ones before
    share what is left, still by equal areas.
    """
    if passes * least > depth + SLACK:
        most = max(int(depth / least + SLACK), 1)
        raise TradeError(
            f"{passes} passes of at least {least:g} mm are {passes * least:.3f} mm, the thread is"
            f" {depth:.3f} mm deep",
            hint=f"{most} passes at most, or a lighter least pass",
            argument="passes",
        )
    for light in range(passes):
        equal, share = passes - light, depth - light * least
        if share - groove.depth_of((equal - 1) / equal, share) >= least - SLACK:
            front = tuple(groove.depth_of(k / equal, share) for k in range(1, equal + 1))
            tail = (share + k * least for k in range(1, light + 1))
            return (*front, *tail)
    return tuple(depth * k / passes for k in range(1, passes + 1))
