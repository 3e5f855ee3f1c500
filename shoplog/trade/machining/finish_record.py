"""What a finish gives: the theoretical roughness with its parabolic form, grade and remarks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import Micrometre, Millimetre, Percent
from shoplog.trade.machining.finish_profile import arc_roughness, parabolic_roughness
from shoplog.trade.machining.roughness_grades import grade_for

__all__ = ["ARCS", "Finish", "arcs_finish", "remarks"]

ARCS = (
    "geometry of circular arcs; closed forms in Qu and Shih, Machining Science and Technology 7"
    " (2003) 281-294; parabolic: Rt = f^2/(8 r), makers' catalogues, and Ra = f^2/(18 sqrt(3) r),"
    " Rao, Manufacturing Technology 2, 2nd ed. 2009, page 62"
)


@dataclass(frozen=True, slots=True)
class Finish:
    """The roughness that the geometry of a cut leaves, with nothing added for a real cut."""

    rt: Micrometre
    """Height from valley to peak, exactly."""
    ra: Micrometre
    """Average deviation from the mean line, exactly."""
    parabolic_rt: Micrometre
    """Rt as the handbooks have it, with a parabola for the arc."""
    parabolic_ra: Micrometre
    """Ra as the handbooks have it, with a parabola for the arc."""
    spacing: Millimetre
    """From one mark to the next."""
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def parabolic_error(self) -> Percent:
        """How far the parabolic Rt is from the exact one; below 0 where it is less."""
        return 100 * (self.parabolic_rt - self.rt) / self.rt if self.rt else 0.0

    @property
    def grade(self) -> str:
        """The finest roughness grade that the theoretical Ra meets."""
        return grade_for(self.ra)

    def describe(self) -> str:
        """One plain sentence.

        >>> arcs_finish(0.1, 0.8).describe()
        'Rt 1.564 µm and Ra 0.401 µm by geometry alone (N6), marks 0.1 mm apart'
        """
        return (
            f"Rt {self.rt:.4g} µm and Ra {self.ra:.3g} µm by geometry alone ({self.grade}),"
            f" marks {self.spacing:g} mm apart"
        )


def arcs_finish(spacing: float, radius: float, flat: float = 0, when: Iterable[str] = ()) -> Finish:
    """The finish of arcs of a radius at a spacing (mm), with the remarks of the cases it is in."""
    exact = arc_roughness(spacing, radius, flat)
    parabolic = parabolic_roughness(spacing, radius, flat)
    cases = {*when, "real"} | ({"flat"} if flat >= spacing else set())
    rt, ra, parabolic_rt, parabolic_ra = (1000 * height for height in (*exact, *parabolic))
    cautions, notes = remarks("caution", cases), remarks("note", cases)
    return Finish(rt, ra, parabolic_rt, parabolic_ra, spacing, cautions, notes)


@cache
def _rows() -> tuple[dict[str, str], ...]:
    return table("finish_cautions").rows


def remarks(grade: str, cases: Iterable[str]) -> tuple[str, ...]:
    """The cautions or notes of some cases, in the table's order."""
    wanted = set(cases)
    return tuple(row["text"] for row in _rows() if row["grade"] == grade and row["when"] in wanted)
