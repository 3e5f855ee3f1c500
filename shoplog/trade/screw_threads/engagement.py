"""How much thread must be engaged for a screw to break before its thread strips.

A broken screw is seen and drilled out, a stripped hole is lost.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from math import pi, radians, tan

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, Number, TradeError, offered
from shoplog.trade.fastening.property_classes import HARD, HARD_SCREWS, Megapascal, property_class
from shoplog.trade.fastening.tightening import Kilonewton, Millimetre2, stress_area
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.screw_threads.tapped_holes import TAP_BREAKS
from shoplog.trade.screw_threads.thread_limits import thread_limits
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["Engagement", "engagement_strength", "least_engagement", "shear_areas"]

ESTIMATE = (
    "an engagement by sum is an estimate for sound material, a true hole and a load along the"
    " screw; where a failure can hurt someone it is a licensed engineer's to decide"
)
FEDERAL = (
    "FED-STD-H28/2B, 1991, tensile stress area and thread shear areas, as Machinery's Handbook"
    " gives them; shear strength as half of the tensile strength"
)
CLASSES = {"ISO metric": ("6g", "6H"), "Unified": ("2A", "2B")}
"""The usual classes of screw and hole, taken where none is stated."""
SHEAR_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class Engagement:
    """A screw in its hole: what it takes to break it, and to strip either thread."""

    thread: Thread
    length: Millimetre
    """Of full thread engaged."""
    screw_strength: Megapascal
    """Tensile."""
    hole_strength: Megapascal
    stress_area: Millimetre2
    """Of the screw in tension, A_t."""
    screw_shear: Millimetre
    """Area of the external thread in shear, in each mm of length (mm²/mm)."""
    hole_shear: Millimetre
    """Area of the internal thread in shear, in each mm of length."""
    shear_share: Number
    """Shear strength as a share of tensile strength."""
    notes: tuple[str, ...] = ()

    @property
    def cautions(self) -> tuple[str, ...]:
        """What a hard screw asks for."""
        return (HARD_SCREWS,) if self.screw_strength > HARD else ()

    @property
    def breaking_load(self) -> Kilonewton:
        """That breaks the screw."""
        return self.stress_area * self.screw_strength / 1000

    @property
    def screw_strips_at(self) -> Kilonewton:
        """Load that strips the screw's thread."""
        return self._strips(self.screw_shear, self.screw_strength)

    @property
    def hole_strips_at(self) -> Kilonewton:
        """Load that strips the thread in the hole."""
        return self._strips(self.hole_shear, self.hole_strength)

    def _strips(self, area: float, strength: float) -> float:
        return area * self.length * self.shear_share * strength / 1000

    @property
    def least_for_screw(self) -> Millimetre:
        """Length at which the screw breaks as its own thread strips."""
        return (
            1000 * self.breaking_load / (self.screw_shear * self.shear_share * self.screw_strength)
        )

    @property
    def least_for_hole(self) -> Millimetre:
        """Length at which the screw breaks as the hole's thread strips."""
        return 1000 * self.breaking_load / (self.hole_shear * self.shear_share * self.hole_strength)

    @property
    def least(self) -> Millimetre:
        """Length of full thread from which the screw breaks first."""
        return max(self.least_for_screw, self.least_for_hole)

    @property
    def in_diameters(self) -> Number:
        """The least length over the major diameter."""
        return self.least / self.thread.major

    @property
    def screw_breaks_first(self) -> bool:
        """Whether the screw breaks before either thread strips."""
        return self.length >= self.least - 1e-9 * self.thread.major

    @property
    def gives_first(self) -> str:
        """What gives first: the screw, the thread of the screw, or the thread of the hole."""
        if self.screw_breaks_first:
            return "the screw breaks"
        if self.hole_strips_at <= self.screw_strips_at:
            return "the thread of the hole strips"
        return "the thread of the screw strips"

    @property
    def holds(self) -> Kilonewton:
        """Load at which the first of the three gives."""
        return min(self.breaking_load, self.screw_strips_at, self.hole_strips_at)

    def describe(self) -> str:
        """What gives first, and the least length, in one sentence."""
        return (
            f"{self.thread.designation}, {self.length:.2f} mm engaged: {self.gives_first} at about"
            f" {self.holds:.1f} kN; from {self.least:.2f} mm of full thread"
            f" ({self.in_diameters:.2f} diameters) the screw breaks first"
            f" ({self.breaking_load:.1f} kN)."
        )


@offered(source=FEDERAL, cautions=(TAP_BREAKS, ESTIMATE))
def least_engagement(
    thread: Thread,
    screw: str | Megapascal,
    hole: str | Megapascal,
    shear_share: Number = SHEAR_SHARE,
) -> Engagement:
    """Least length of full thread for a screw to break before either thread strips.

    L = A_t R_s / (A_s' q R_s) for the screw's thread and L = A_t R_s / (A_n' q R_n) for the hole's,
    with A_s' = pi n D1max (1/(2n) + tan(30)(d2min - D1max)) and A_n' = pi n dmin (1/(2n) + tan(30)
    (dmin - D2max)) in each mm, n threads in a mm, R the tensile strengths, q the shear share.

    Parameters
    ----------
    thread : Thread [-]
        ISO metric or Unified; where it says no class, 6g in 6H or 2A in 2B is taken.
    screw : str or float [MPa]
        Tensile strength of the screw, 10 to 3000, or its property class, such as `"8.8"`.
    hole : str or float [MPa]
        Tensile strength of the material that is tapped, 10 to 3000, or one that is held, such as
        `"aluminium 6082-T6"`.
    shear_share : float [-]
        0.3 to 1; shear strength as a share of tensile strength. 0.5 is the standard's; steel is
        nearer to 0.6.

    Returns
    -------
    Engagement [-]
        At that least length; both lengths, and the loads that break and strip.

    Raises
    ------
    TradeError
        Another family of thread, no such class or material, or a figure out of range.

    Notes
    -----
    The limits of the thread that are worst are taken. A stronger screw than stated wants more: of
    class 8.8 many reach 1000 MPa. The lead of the screw and of the tap do not count. Over about 1.5
    to 2 diameters more length adds less, for the first threads carry most.

    Examples
    --------
    >>> round(least_engagement(Thread.from_text("M8"), "8.8", "mild steel").least, 2)
    9.67

    References
    ----------
    FED-STD-H28/2B, 1991; Machinery's Handbook, 31st edition, strength of screw threads (from
    memory).
    """
    made = _engagement(thread, 1.0, screw, hole, shear_share)
    return replace(made, length=made.least)


@offered(source=FEDERAL, cautions=(TAP_BREAKS, ESTIMATE))
def engagement_strength(
    thread: Thread,
    length: Millimetre,
    screw: str | Megapascal,
    hole: str | Megapascal,
    shear_share: Number = SHEAR_SHARE,
) -> Engagement:
    """What a length of engaged thread bears, and whether the screw breaks before a thread strips.

    Parameters
    ----------
    thread : Thread [-]
        ISO metric or Unified; where it says no class, 6g in 6H or 2A in 2B is taken.
    length : float [mm]
        Over 0; of full thread engaged.
    screw : str or float [MPa]
        Tensile strength of the screw, 10 to 3000, or its property class, such as `"8.8"`.
    hole : str or float [MPa]
        Tensile strength of the material that is tapped, 10 to 3000, or one that is held, such as
        `"aluminium 6082-T6"`.
    shear_share : float [-]
        0.3 to 1; shear strength as a share of tensile strength.

    Returns
    -------
    Engagement [-]
        What gives first and at what load, and the length from which the screw breaks first.

    Raises
    ------
    TradeError
        Another family of thread, no such class or material, or a figure out of range.

    Notes
    -----
    As for `least_engagement`.

    Examples
    --------
    >>> engagement_strength(Thread.from_text("M8"), 8, "8.8", "aluminium 6082-T6").gives_first
    'the thread of the hole strips'

    References
    ----------
    FED-STD-H28/2B, 1991; Machinery's Handbook, 31st edition, strength of screw threads (from
    memory).
    """
    require_positive("length", length, "mm")
    return _engagement(thread, length, screw, hole, shear_share)


# ---- the sums --------------------------------------------------------------------------------


@cache
def _materials() -> dict[str, float]:
    found = {}
    for row in table("screws_hole_materials").rows:
        for name in (row["material"], *row["also"].split(";")):
            found[name.lower()] = float(row["tensile_mpa"])
    return found


def _screw_strength(screw: float | str, thread: Thread) -> float:
    if isinstance(screw, str):
        return property_class(screw, thread).tensile_strength
    require_within("screw", screw, "MPa", 10, 3000)
    return screw


def _hole_strength(hole: float | str) -> float:
    if not isinstance(hole, str):
        require_within("hole", hole, "MPa", 10, 3000)
        return hole
    found = _materials().get(" ".join(hole.split()).lower())
    if found is None:
        names = [row["material"] for row in table("screws_hole_materials").rows]
        raise TradeError(
            f'the strength of "{hole}" is not held',
            hint=f"give it in MPa; held are {', '.join(names)}",
            argument="hole",
        )
    return found


def shear_areas(
    thread: Thread, minor_max: float, pitch_min: float, major_min: float, pitch_max: float
) -> tuple[float, float]:
    """Areas in shear of the external and of the internal thread, in mm² for each mm of length.

    From the greatest minor diameter of the hole with the least pitch diameter of the screw, and
    from the least major diameter of the screw with the greatest pitch diameter of the hole.
    """
    slope, half = tan(radians(thread.flank_angle)), thread.pitch / 2
    external = pi * minor_max / thread.pitch * (half + slope * (pitch_min - minor_max))
    internal = pi * major_min / thread.pitch * (half + slope * (major_min - pitch_max))
    return external, internal


def _classes(thread: Thread) -> tuple[str, str]:
    """Classes of screw and hole: the one that the thread has, and the usual one for the other."""
    outside, inside = CLASSES[thread.family]
    if thread.side == "external":
        return thread.tolerance_class or outside, inside
    return outside, thread.tolerance_class or inside


def _engagement(
    thread: Thread, length: float, screw: float | str, hole: float | str, share: float
) -> Engagement:
    if thread.family not in CLASSES:
        raise TradeError(
            f"the strength of {thread.series} threads is not held",
            hint="it is for ISO metric and Unified threads",
            argument="thread",
        )
    require_within("shear_share", share, "", 0.3, 1)
    outside, inside = _classes(thread)
    bare = replace(thread, side="", tolerance_class="")
    male, female = thread_limits(bare, outside), thread_limits(bare, inside)
    areas = shear_areas(
        thread,
        female.minor_diameter.max,
        male.pitch_diameter.min,
        male.major.min,
        female.pitch_diameter.max,
    )
    strength = _screw_strength(screw, thread)
    area = stress_area(thread)
    return Engagement(
        *(thread, length, strength, _hole_strength(hole), area, *areas, share),
        notes=(f"worst limits of {outside} in {inside}",),
    )
