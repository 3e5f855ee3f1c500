"""A screw thread as a record: what its designation says, and the basic sizes of its profile.

The sizes are the formulas of the basic profile, in parts of the pitch. Nothing is rounded before it
is shown, so the three places of a standard's table are a check and not the source.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from shoplog.trade.declare import Degree, Millimetre, Number, PerInch

__all__ = ["INCH", "PROFILES", "Profile", "Thread"]

INCH = 25.4


@dataclass(frozen=True, slots=True)
class Profile:
    """The profile of a family of threads; heights are on one side, in parts of the pitch."""

    family: str
    standard: str
    angle: float
    """Between the flanks, in degrees."""
    pitch_line: float
    """From the major diameter down to the pitch line."""
    height: float
    """From the major diameter down to the minor diameter of the internal thread."""
    whole: float
    """What 100 % of thread means in a tapped hole."""
    root: float
    """From the major diameter down to the root of the external thread, without clearance."""
    inch: bool
    """Whether the trade counts it in threads per inch."""

    @property
    def triangle(self) -> float:
        """Height of the fundamental triangle: 1 / (2 tan of half the angle)."""
        return 1 / (2 * tan(radians(self.angle / 2)))


def _sixty(family: str, standard: str, root: float, inch: bool) -> Profile:
    """A profile of ISO 68-1: heights are eighths of the triangle's; 100 % of thread is 3/4 H."""
    triangle = 1 / (2 * tan(radians(30)))
    return Profile(
        family,
        standard,
        60,
        pitch_line=3 / 8 * triangle,
        height=5 / 8 * triangle,
        whole=3 / 4 * triangle,
        root=root * triangle,
        inch=inch,
    )


def _even(family: str, standard: str, angle: float, height: float, inch: bool) -> Profile:
    """A profile whose pitch line halves its height."""
    return Profile(family, standard, angle, height / 2, height, height, height, inch)


_WHITWORTH = 2 / 3 / (2 * tan(radians(27.5)))

PROFILES = {
    profile.family: profile
    for profile in (
        _sixty("ISO metric", "ISO 68-1", 17 / 24, inch=False),
        _sixty("Unified", "ASME B1.1", 11 / 16, inch=True),
        _even("Whitworth", "BS 84", 55, _WHITWORTH, inch=True),
        _even("BA", "BS 93", 47.5, 0.6, inch=False),
        _even("Whitworth pipe", "ISO 7-1, ISO 228-1", 55, _WHITWORTH, inch=True),
        _even("ISO trapezoidal", "ISO 2901", 30, 0.5, inch=False),
        _even("Acme", "ASME B1.5", 29, 0.5, inch=True),
        _even("NPT", "ASME B1.20.1", 60, 0.8, inch=True),
    )
}


@dataclass(frozen=True, slots=True)
class Thread:
    """A screw thread: what its designation says, and the basic sizes of its profile.

    Of a taper thread the diameters are those at the gauge plane.
    """

    designation: str
    """As its standard writes it: `M8x1-6H-LH`, `1/4-20 UNC-2A`, `G1/2A`, `Tr 16x4-7e`."""
    series: str
    """`ISO metric coarse`, `ISO metric fine`, `UNC`, `UNF`, `UNEF`, `8-UN`, `BSW`, `BSF`, `BA`,
    `G`, `R`, `Rp`, `Rc`, `Tr`, `Acme` or `NPT`."""
    size: str
    """The nominal size in the designation: `M8`, `#10`, `1/4`."""
    major: Millimetre
    """Basic major diameter, D."""
    pitch: Millimetre
    """P, from one thread to the next."""
    hand: str
    """`right` or `left`."""
    side: str
    """`internal`, `external`, or nothing where the designation does not say."""
    tolerance_class: str
    choice: str
    """`first`, `second` or `third` choice of ISO 261; nothing for another thread."""
    notes: tuple[str, ...] = ()
    starts: int = 1
    family: str = "ISO metric"
    """The family, whose profile it has: `ISO metric`, `Unified`, `Whitworth`, `BA`,
    `Whitworth pipe`, `ISO trapezoidal`, `Acme` or `NPT`."""
    clearance: Millimetre = 0.0
    """Between crest and root of the mating thread, a_c; 0 but for a trapezoidal or Acme thread."""
    taper: Number = 0.0
    """Change of diameter in a length; 0 for a parallel thread, 1/16 for a taper pipe thread."""
    gauge_length: Millimetre = 0.0
    """From the small end of a taper external thread to its gauge plane."""
    useful_length: Millimetre = 0.0
    """Length of useful thread on a taper external thread."""

    @classmethod
    def from_text(cls, text: str) -> Thread:
        """The thread that a designation names."""
        from shoplog.trade.screw_threads.thread_reading import (
            read,  # the readers make threads, so they come late
        )

        return read(text)

    @property
    def _profile(self) -> Profile:
        return PROFILES[self.family]

    @property
    def metric(self) -> bool:
        """Whether it is an ISO metric thread."""
        return self.family == "ISO metric"

    @property
    def in_inches(self) -> bool:
        """Whether the trade counts it in threads per inch."""
        return self._profile.inch

    @property
    def thread_angle(self) -> Degree:
        """Between the flanks: 60 degrees for a metric or Unified thread."""
        return self._profile.angle

    @property
    def flank_angle(self) -> Degree:
        """Between a flank and the square to the axis: half the thread angle (ISO 5408)."""
        return self._profile.angle / 2

    @property
    def fundamental_height(self) -> Millimetre:
        """Height of the fundamental triangle: H = P / (2 tan of the flank angle)."""
        return self._profile.triangle * self.pitch

    @property
    def thread_height(self) -> Millimetre:
        """Height of the basic profile and of the internal thread: 5/8 H for a 60 degree thread, 2/3
        H for a Whitworth, 0.6 P for a BA, P/2 for a trapezoidal or Acme, 0.8 P for an NPT one.
        """
        return self._profile.height * self.pitch

    @property
    def whole_height(self) -> Millimetre:
        """Height that tap charts call 100 % of thread: 3/4 H for a metric or Unified thread, as
        Machinery's Handbook takes it; else the height of the thread.
        """
        return self._profile.whole * self.pitch

    @property
    def pitch_diameter(self) -> Millimetre:
        """Basic pitch diameter: D2 = D - 3/4 H for a metric or Unified thread, else D - height."""
        return self.major - 2 * self._profile.pitch_line * self.pitch

    @property
    def minor_diameter(self) -> Millimetre:
        """Basic minor diameter, of the internal thread: D1 = D - 2 x height."""
        return self.major - 2 * self._profile.height * self.pitch

    @property
    def root_diameter(self) -> Millimetre:
        """Minor diameter of the external thread at its root: d3 = d - 17/12 H for a metric one with
        rounded root, d - 11/8 H for a Unified one (UNR; ASME B1.1-2003), the basic minor diameter
        less twice the crest clearance for others.
        """
        return self.major - 2 * self._profile.root * self.pitch - 2 * self.clearance

    @property
    def internal_major_diameter(self) -> Millimetre:
        """Major diameter of the internal thread: D, or D4 = D + 2 a_c where there is clearance."""
        return self.major + 2 * self.clearance

    @property
    def threads_per_inch(self) -> PerInch:
        """Threads in an inch of length."""
        return INCH / self.pitch

    @property
    def lead(self) -> Millimetre:
        """Advance in one turn: pitch times starts."""
        return self.starts * self.pitch

    @property
    def major_at_end(self) -> Millimetre:
        """Major diameter at the small end of a taper external thread; D of a parallel one."""
        return self.major - self.taper * self.gauge_length

    @property
    def pitch_diameter_at_end(self) -> Millimetre:
        """Pitch diameter at the small end of a taper external thread (NPT: E0)."""
        return self.pitch_diameter - self.taper * self.gauge_length

    @property
    def minor_at_end(self) -> Millimetre:
        """Minor diameter at the small end of a taper external thread (NPT: K0)."""
        return self.minor_diameter - self.taper * self.gauge_length

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of a thread that seals on itself: who may make such a joint."""
        if self.series not in ("R", "Rp", "Rc", "NPT"):
            return ()
        return (
            "a joint under pressure is made and tested by the rules for what it carries; gas and"
            " mains water are often licensed work",
        )

    def describe(self) -> str:
        """The thread in one sentence, with its basic sizes."""
        side = f" {self.side}" if self.side else ""
        return (
            f"{self.designation}, {self.series},{side} {self.hand}-hand: major diameter"
            f" {self.major:.3f} mm, pitch {self._pitch_text}, pitch diameter"
            f" {self.pitch_diameter:.3f} mm, minor diameter {self.minor_diameter:.3f} mm"
            f"{self._starts_text}{self._taper_text}"
        )

    @property
    def _pitch_text(self) -> str:
        if not self.in_inches:
            return f"{self.pitch:g} mm"
        return f"{self.pitch:.3f} mm ({round(self.threads_per_inch, 6):g} threads per inch)"

    @property
    def _starts_text(self) -> str:
        return f", {self.starts} starts, lead {self.lead:g} mm" if self.starts > 1 else ""

    @property
    def _taper_text(self) -> str:
        if not self.taper:
            return ""
        return (
            f", at the gauge plane {self.gauge_length:.1f} mm from the small end of the external"
            f" thread, taper 1:{1 / self.taper:g}"
        )
