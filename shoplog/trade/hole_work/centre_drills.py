"""Centre drills of 60 degrees by size, and the size for a piece of work."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import radians, tan
from typing import Self

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.fastening.fixing_cautions import fixing_cautions
from shoplog.trade.machining.cutting import require_positive

__all__ = ["CentreDrill", "centre_depth", "centre_drill", "centre_drill_for"]

INCH = 25.4
SOURCE = "ISO 866, ISO 2540, ISO 2541, ASME B94.11M (mostly from memory; the tables say what)"
FORMS = {
    "A": "without protecting countersink",
    "B": "with protecting countersink",
    "R": "curved",
    "plain": "plain type",
}
_METRIC = re.compile(r"([abr]) ?([0-9]{1,2}(?:\.[0-9]{1,3})?)(?: ?[x/] ?[0-9.]{1,6})?")
_INCH = re.compile(r"(?:#|no\.? ?)(00|[0-8])")


@dataclass(frozen=True, slots=True)
class CentreDrill:
    """A combined drill and countersink for centre holes."""

    designation: str
    form: str
    """`A`, `B` (protecting countersink), `R` (curved), or `plain` for the inch numbers."""
    pilot: Millimetre
    """Diameter of the drill at its point."""
    pilot_length: Millimetre
    body: Millimetre
    cone: Millimetre | None
    """Diameter of the 60° cone that the standard's depth gives; not said for inch numbers."""
    depth: Millimetre | None
    """Of the whole centre hole; not said where no table has it."""
    protection: Millimetre | None
    """Diameter of the protecting countersink; form B only."""

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The centre drill that a designation names: `A 2.5`, `B 4`, `R 3.15`, `#4`."""
        plain = " ".join(text.split()).casefold() if len(text) <= 40 else ""
        if found := _INCH.fullmatch(plain):
            return cls._of_number(found[1])
        if found := _METRIC.fullmatch(plain):
            return cls._of_form(found[1].upper(), float(found[2]))
        raise TradeError(
            f"{text[:40]!r} names no centre drill",
            hint='write "A 2.5", "B 4", "R 3.15" or "#4"',
            argument="designation",
        )

    @classmethod
    def _of_form(cls, form: str, pilot: float) -> Self:
        rows = [row for row in table("centre_drills").rows if row["form"] == form]
        row = next((row for row in rows if float(row["pilot_mm"]) == pilot), None)
        if row is None:
            sizes = ", ".join(row["pilot_mm"] for row in rows)
            raise TradeError(
                f"there is no centre drill {form} {pilot:g}",
                hint=f"form {form} has {sizes} mm",
                argument="designation",
            )
        cone, depth, protection = (
            float(row[key]) if row[key] else None
            for key in ("cone_mm", "depth_mm", "protection_mm")
        )
        length, body = float(row["pilot_length_mm"]), float(row["body_mm"])
        name = f"{form} {row['pilot_mm']}/{row['cone_mm']}"
        return cls(name, form, pilot, length, body, cone, depth, protection)

    @classmethod
    def _of_number(cls, number: str) -> Self:
        row = next(row for row in table("centre_drills_inch").rows if row["number"] == number)
        pilot, length, body = (
            float(row[key]) * INCH for key in ("pilot_in", "pilot_length_in", "body_in")
        )
        return cls(f"#{number}", "plain", pilot, length, body, None, None, None)

    @property
    def largest_cone(self) -> Millimetre:
        """The largest cone that it can cut: its body, or the protecting countersink's beginning."""
        return self.body if self.protection is None or self.cone is None else self.cone

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of work between centres."""
        return fixing_cautions("centre")

    def describe(self) -> str:
        """The centre drill in one sentence."""
        parts = [f"pilot {self.pilot:.3g} mm, {self.pilot_length:.3g} mm long"]
        parts.append(f"body {self.body:.4g} mm")
        if self.cone is not None:
            parts.append(f"cone {self.cone:g} mm")
        if self.depth is not None:
            parts.append(f"centre hole {self.depth:g} mm deep")
        if self.protection is not None:
            parts.append(f"protecting countersink {self.protection:g} mm")
        return f"Centre drill {self.designation} ({FORMS[self.form]}): {', '.join(parts)}."


@offered(source=SOURCE)
def centre_drill(designation: str) -> CentreDrill:
    """Dimensions of a centre drill and of the centre hole that it makes.

    Parameters
    ----------
    designation : str [-]
        `A 2.5`, `B 4`, `R 3.15` by the pilot in mm, or `#00` to `#8`.

    Returns
    -------
    CentreDrill [-]
        Pilot, body, cone, depth, and the protecting countersink of form B.

    Raises
    ------
    TradeError
        No such form or size; the hint lists the sizes.

    Notes
    -----
    ISO 6411 writes a centre hole as form, pilot and cone: A 2.5/5.3.

    Examples
    --------
    >>> centre_drill("A 2.5").cone
    5.3

    References
    ----------
    ISO 866:2016; ISO 2540:1973; ISO 2541:1972; ASME B94.11M-1993.
    """
    return CentreDrill.from_text(designation)


@offered(
    source="Institut fuer Berufliche Entwicklung, centring, drilling and counterboring, table 1"
)
def centre_drill_for(work_diameter: Millimetre, form: str = "A") -> CentreDrill:
    """Centre drill for a piece of work by its diameter.

    Parameters
    ----------
    work_diameter : float [mm]
        Over 0, at most 100; finished diameter at the end.
    form : str [-]
        `A`, `B` or `R`; B and R begin at a pilot of 1 mm, work over 6 mm.

    Returns
    -------
    CentreDrill [-]
        The centre drill.

    Raises
    ------
    TradeError
        Another form, a form that has no drill so small, or work outside the table.

    Notes
    -----
    For light and middling work. Heavy work, or a tailstock pressed hard, wants the next size up.

    Examples
    --------
    >>> centre_drill_for(30).designation
    'A 3.15/6.7'

    References
    ----------
    Institut fuer Berufliche Entwicklung, table 1; the older pilots 0.75 and 3 mm are taken as 0.8
    and 3.15 mm of ISO 866.
    """
    require_positive("work_diameter", work_diameter, "mm")
    rows = table("centre_drills_by_work").rows
    most = float(rows[-1]["to_mm"])
    if work_diameter > most:
        hint = "heavy work: choose the centre by its weight"
        raise OutOfRange("work_diameter", work_diameter, "mm", over=0, most=most, hint=hint)
    if form not in ("A", "B", "R"):
        raise TradeError(f'"{form[:20]}" is no form', hint='"A", "B" or "R"', argument="form")
    row = next(row for row in rows if work_diameter <= float(row["to_mm"]))
    pilot = float(row["pilot_mm"])
    if form != "A" and pilot < 1:
        raise OutOfRange("work_diameter", work_diameter, "mm", over=6, hint="form A goes smaller")
    return CentreDrill.from_text(f"{form} {pilot:g}")


@offered(source="plane geometry of the 60 degree cone")
def centre_depth(drill: CentreDrill, cone_diameter: Millimetre) -> Millimetre:
    """Depth to drill, from where the tip touches, for a 60° cone of a diameter at the face.

    t = l + (c - d) / (2 tan 30°), with d and l the pilot's diameter and length.

    Parameters
    ----------
    drill : CentreDrill [-]
        The centre drill, or its designation as text; not of form R.
    cone_diameter : float [mm]
        Over the pilot's diameter, at most the largest that it cuts: the body, or of form B the
        cone.

    Returns
    -------
    float [mm]
        Depth from the face to the tip.

    Notes
    -----
    The pilot's length is the least of the standard and holds its point; a drill ground back is
    shorter.

    Examples
    --------
    >>> round(centre_depth(CentreDrill.from_text("A 2.5"), 5.3), 2)
    5.52

    References
    ----------
    Plane geometry.
    """
    if drill.form == "R":
        raise TradeError(
            f"{drill.designation} has a curved flank, not a cone",
            hint="form A or B",
            argument="drill",
        )
    if not drill.pilot < cone_diameter <= drill.largest_cone:
        raise OutOfRange(
            "cone_diameter",
            cone_diameter,
            "mm",
            over=drill.pilot,
            most=drill.largest_cone,
            source=drill.designation,
        )
    return drill.pilot_length + (cone_diameter - drill.pilot) / (2 * tan(radians(30)))
