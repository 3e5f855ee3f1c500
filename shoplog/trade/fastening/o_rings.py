"""O-rings by dash number (AS568, ISO 3601-1) and the grooves for inch and metric sections."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, OutOfRange, Percent, Size, TradeError, offered
from shoplog.trade.machining.cutting import require_positive

__all__ = [
    "ORing",
    "ORingGroove",
    "o_ring",
    "o_ring_groove",
    "o_ring_in_bore",
    "o_ring_on_piston",
    "o_ring_stretch",
]

DUTIES = ("static", "face", "dynamic")
RINGS = "ISO 3601-1:2012 and AS568D size codes, by an open CAD part library"
GROOVES = (
    "an O-ring maker's gland tables for inch sections (read in mm and in inches), another maker's"
    " housing table for metric sections"
)


@dataclass(frozen=True, slots=True)
class ORing:
    """An O-ring: inside diameter and section (cord), with their tolerances."""

    dash: str
    inside: Size
    section: Size

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The O-ring of a dash number: `014`, `-214`."""
        plain = text[:20].strip().lstrip("-")
        for row in table("o_rings_as568").rows:
            if row["dash"] == plain.zfill(3):
                inside, section = (
                    Size(float(row[f"{name}_mm"]), -tolerance, tolerance)
                    for name in ("inside", "section")
                    for tolerance in (float(row[f"{name}_tolerance_mm"]),)
                )
                return cls(row["dash"], inside, section)
        raise TradeError(
            f'the table has no O-ring "{text[:20]}"',
            hint="001 to 050, 102 to 178, 201 to 258, 309 to 361, 425 to 437",
            argument="dash",
        )

    def describe(self) -> str:
        """The O-ring in one sentence."""
        return (
            f"O-ring {self.dash}: inside {self.inside.nominal:g} mm ±{self.inside.upper:g} mm,"
            f" section {self.section.nominal:g} mm ±{self.section.upper:g} mm."
        )


@dataclass(frozen=True, slots=True)
class ORingGroove:
    """A groove for an O-ring of a section."""

    section: Millimetre
    duty: str
    depth: Size
    """From the groove's floor to the other part: the gap between the parts is in it."""
    width: Size
    radius: Millimetre
    """Of the corners at the floor, at most."""

    @property
    def squeeze_min(self) -> Percent:
        """Least squeeze, of the nominal section in the deepest groove."""
        return 100 * (self.section - self.depth.max) / self.section

    @property
    def squeeze_max(self) -> Percent:
        """Greatest squeeze, of the nominal section in the shallowest groove."""
        return 100 * (self.section - self.depth.min) / self.section

    @property
    def notes(self) -> tuple[str, ...]:
        """Where the depth is measured to."""
        if self.duty == "face":
            return ("in a flat face the depth of the groove is the whole depth",)
        return ("the depth is to the other part: bore less twice the depth is the groove's floor",)

    def describe(self) -> str:
        """The groove in one sentence."""
        return (
            f"Groove for a section of {self.section:g} mm ({self.duty}): {self.depth.min:.3f} to"
            f" {self.depth.max:.3f} mm deep, {self.width.min:.3f} to {self.width.max:.3f} mm wide,"
            f" corners to {self.radius:g} mm; squeeze {self.squeeze_min:.0f} to"
            f" {self.squeeze_max:.0f} %."
        )


@offered(source=RINGS)
def o_ring(dash: str) -> ORing:
    """Size of an O-ring by its dash number.

    Parameters
    ----------
    dash : str [-]
        `001` to `050`, `102` to `178`, `201` to `258`, `309` to `361`, `425` to `437`.

    Returns
    -------
    ORing [-]
        Inside diameter and section, with tolerances.

    Raises
    ------
    TradeError
        The table has no such number.

    Notes
    -----
    The fractions in old lists name the groove's sizes, not the ring's.

    Examples
    --------
    >>> o_ring("214").describe()
    'O-ring 214: inside 24.99 mm ±0.25 mm, section 3.53 mm ±0.1 mm.'

    References
    ----------
    ISO 3601-1:2012; AS568D.
    """
    return ORing.from_text(dash)


@offered(source=GROOVES)
def o_ring_groove(section: Millimetre, duty: str = "static") -> ORingGroove:
    """Groove for an O-ring of a section: depth, width and corner.

    Parameters
    ----------
    section : float [mm]
        1 to 7; a section of the tables, inch (1.02, 1.27, 1.52, 1.78, 2.62, 3.53, 5.33, 6.99) or
        metric.
    duty : str [-]
        `static` (round about a piston or rod that does not move), `face` (in a flat face) or
        `dynamic` (it moves along).

    Returns
    -------
    ORingGroove [-]
        Depth and width with limits, corner radius, squeeze.

    Raises
    ------
    TradeError
        No such duty, a section that the tables do not have, or one too thin to move.

    Notes
    -----
    For rubber of 70 to 90 Shore A and no back-up rings. The ring maker's own table comes first.

    Examples
    --------
    >>> o_ring_groove(3.53).depth.max
    2.95
    >>> o_ring_groove(2, "dynamic").depth.nominal
    1.65

    References
    ----------
    O-ring makers' gland tables, as the data files name them.
    """
    if duty not in DUTIES:
        names = ", ".join(f'"{name}"' for name in DUTIES)
        raise TradeError(
            f'"{duty[:20]}" is no duty of an O-ring', hint=f"one of {names}", argument="duty"
        )
    for name, made in (("o_ring_grooves_inch", _inch), ("o_ring_grooves_metric", _metric)):
        for row in table(name).rows:
            if abs(float(row["section_mm"]) - section) < 1e-6:
                return made(row, duty)
    raise _no_section(section)


def _inch(row: Mapping[str, str], duty: str) -> ORingGroove:
    least, most = float(row[f"{duty}_from_mm"]), float(row[f"{duty}_to_mm"])
    width = float(row["dynamic_width_mm" if duty == "dynamic" else "static_width_mm"])
    return ORingGroove(
        float(row["section_mm"]),
        duty,
        Size(least, 0.0, most - least),
        Size(width, -0.13, 0.13),
        float(row["radius_to_mm"]),
    )


def _metric(row: Mapping[str, str], duty: str) -> ORingGroove:
    section = float(row["section_mm"])
    cell = row["face_depth_mm" if duty == "face" else f"{duty}_depth_mm"]
    if not cell:
        raise TradeError(
            f"a section of {section:g} mm is too thin for moving parts",
            hint="1.5 mm or more",
            argument="section",
        )
    face = duty == "face"
    depth, width = float(cell), float(row["face_width_mm" if face else "width_mm"])
    return ORingGroove(
        section,
        duty,
        Size(depth, 0.0, 0.1) if face else Size(depth, -0.05, 0.0),
        Size(width, 0.0, 0.2 if face else 0.25),
        float(row["radius_mm"]) + 0.2,
    )


def _no_section(section: float) -> TradeError:
    sizes = sorted(
        float(row["section_mm"])
        for name in ("o_ring_grooves_inch", "o_ring_grooves_metric")
        for row in table(name).rows
    )
    if not sizes[0] <= section <= sizes[-1]:
        return OutOfRange("section", section, "mm", least=sizes[0], most=sizes[-1])
    near = sorted(sizes, key=lambda size: abs(size - section))[:2]
    return TradeError(
        f"the tables have no groove for a section of {section:g} mm",
        hint=f"{near[0]:g} or {near[1]:g} mm",
        argument="section",
    )


@offered(source=GROOVES)
def o_ring_on_piston(bore: Millimetre, section: Millimetre, duty: str = "static") -> Size:
    """Diameter of the groove's floor on a piston or plug that goes into a bore.

    d = B - 2 t, with t the depth of the groove to the bore.

    Parameters
    ----------
    bore : float [mm]
        Over twice the groove's depth; that the piston goes into, as measured.
    section : float [mm]
        1 to 7; a section of the tables.
    duty : str [-]
        `static` or `dynamic`.

    Returns
    -------
    Size [mm]
        The floor's diameter, with the limits that the depth gives.

    Notes
    -----
    The limits are for the bore as given: what it may be larger comes off the squeeze.

    Examples
    --------
    >>> floor = o_ring_on_piston(30, 3.53, "dynamic")
    >>> round(floor.min, 2), round(floor.max, 2)
    (23.76, 23.96)

    References
    ----------
    O-ring makers' gland tables, as the data files name them.
    """
    groove = _radial(section, duty)
    require_positive("bore", bore, "mm")
    if bore <= 2 * groove.depth.max:
        raise OutOfRange("bore", bore, "mm", over=2 * groove.depth.max)
    middle = bore - groove.depth.min - groove.depth.max
    half = groove.depth.max - groove.depth.min
    return Size(middle, -half, half)


@offered(source=GROOVES)
def o_ring_in_bore(rod: Millimetre, section: Millimetre, duty: str = "static") -> Size:
    """Diameter of the groove's floor in a housing that a rod goes through.

    D = d + 2 t, with t the depth of the groove to the rod.

    Parameters
    ----------
    rod : float [mm]
        Over 0; that goes through, as measured.
    section : float [mm]
        1 to 7; a section of the tables.
    duty : str [-]
        `static` or `dynamic`.

    Returns
    -------
    Size [mm]
        The floor's diameter, with the limits that the depth gives.

    Notes
    -----
    The limits are for the rod as given: what it may be smaller comes off the squeeze. The ring is
    a little larger outside than the floor, so that it stays in.

    Examples
    --------
    >>> floor = o_ring_in_bore(12, 2.62, "dynamic")
    >>> round(floor.min, 2), round(floor.max, 2)
    (16.42, 16.58)

    References
    ----------
    O-ring makers' gland tables, as the data files name them.
    """
    depth = _radial(section, duty).depth
    require_positive("rod", rod, "mm")
    half = depth.max - depth.min
    return Size(rod + depth.min + depth.max, -half, half)


def _radial(section: float, duty: str) -> ORingGroove:
    """The groove for a piston or a rod."""
    if duty == "face":
        raise TradeError(
            "a groove in a face has no bore", hint='"static" or "dynamic"', argument="duty"
        )
    return o_ring_groove(section, duty)


@offered(source="plane geometry; to 5 %: common practice, no source")
def o_ring_stretch(ring: ORing, groove_diameter: Millimetre) -> Percent:
    """How much an O-ring is stretched on the floor of its groove.

    100 (d - d1) / d1, with d1 the ring's inside.

    Parameters
    ----------
    ring : ORing [-]
        The ring, or its dash number as text.
    groove_diameter : float [mm]
        From the ring's inside to 1.5 times it; of the groove's floor.

    Returns
    -------
    float [%]
        Stretch; to 5 % is common, more thins the section.

    Notes
    -----
    A ring for a piston is a little smaller than its groove's floor, never larger.

    Examples
    --------
    >>> round(o_ring_stretch(ORing.from_text("210"), 19), 1)
    1.9

    References
    ----------
    Plane geometry.
    """
    inside = ring.inside.nominal
    if not inside <= groove_diameter <= 1.5 * inside:
        raise OutOfRange(
            "groove_diameter",
            groove_diameter,
            "mm",
            least=inside,
            most=1.5 * inside,
            source=f"O-ring {ring.dash}",
        )
    return 100 * (groove_diameter - inside) / inside
