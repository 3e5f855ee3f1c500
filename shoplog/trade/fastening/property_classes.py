"""Strength of screws by their property class or grade."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import In, TradeError, offered
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["HARD", "HARD_SCREWS", "Megapascal", "PropertyClass", "property_class"]

Megapascal = Annotated[float, In("MPa")]

USUAL = 10.0
"""Major diameter in mm where no thread is said."""
HARD_SCREWS = (
    "screws of class 12.9, A574 and 45H are hard: plated, pickled or rusted they can break hours"
    " after tightening"
)
HARD = 1100
"""Tensile strength in MPa over which a screw is hard enough for that."""


@dataclass(frozen=True, slots=True)
class PropertyClass:
    """Least stresses of a property class or grade, for a range of diameters."""

    name: str
    proof_stress: Megapascal
    yield_strength: Megapascal
    tensile_strength: Megapascal

    @property
    def cautions(self) -> tuple[str, ...]:
        """What a hard screw asks for."""
        return (HARD_SCREWS,) if self.tensile_strength > HARD else ()

    def describe(self) -> str:
        """The class in one sentence."""
        return (
            f"Class {self.name}: proof stress {self.proof_stress:g} MPa, yield"
            f" {self.yield_strength:g} MPa, tensile strength {self.tensile_strength:g} MPa, each at"
            " least."
        )


@offered(source="ISO 898-1:2013; SAE J429; ASTM A574; ISO 3506-1:2009 (A2, A4 from memory)")
def property_class(name: str, thread: Thread | None = None) -> PropertyClass:
    """Proof stress, yield and tensile strength of a property class or grade of screws.

    Parameters
    ----------
    name : str [-]
        `4.6` to `12.9` of ISO 898-1, `A2-70` and others of ISO 3506-1, `grade 2`, `grade 5`,
        `grade 8` of SAE J429, `A574` for inch socket head cap screws.
    thread : Thread [-]
        Of the screw, for a class whose figures change with the diameter; M10 if left out.

    Returns
    -------
    PropertyClass [-]
        The least stresses.

    Raises
    ------
    TradeError
        No such class, or not for that diameter.

    Notes
    -----
    The first figure of a metric class is a hundredth of the tensile strength; the second, a tenth
    of the ratio of yield to it. Set screws have hardness classes (45H) and no such stresses.

    Examples
    --------
    >>> property_class("8.8").proof_stress
    580.0
    >>> property_class("8.8", Thread.from_text("M20")).proof_stress
    600.0

    References
    ----------
    ISO 898-1:2013; SAE J429; ASTM A574; ISO 3506-1:2009.
    """
    major = USUAL if thread is None else thread.major
    wanted = " ".join(name.split()).lower()
    rows = [row for row in table("screws_classes").rows if row["name"].lower() == wanted]
    if not rows:
        known = dict.fromkeys(row["name"] for row in table("screws_classes").rows)
        raise TradeError(
            f'"{name}" is no property class that is held',
            hint=f"classes are {', '.join(known)}",
            argument="name",
        )
    for row in rows:
        if float(row["over_mm"]) < major <= float(row["to_mm"]) + 1e-6:
            stresses = (float(row[f"{what}_mpa"]) for what in ("proof", "yield", "tensile"))
            return PropertyClass(name.strip(), *stresses)
    most = max(float(row["to_mm"]) for row in rows)
    raise TradeError(
        f"class {name} goes to a diameter of {most:g} mm, the thread has {major:g} mm",
        argument="name",
    )
