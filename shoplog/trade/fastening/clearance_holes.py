"""Clearance holes for screws, by ISO 273 and ASME B18.2.8."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, TradeError, offered
from shoplog.trade.hole_work.drills import Drill, nearest_drill
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["ClearanceHole", "clearance_hole", "drill_text"]

SERIES = {
    "fine": ("fine", "close"),
    "close": ("fine", "close"),
    "medium": ("medium", "normal"),
    "normal": ("medium", "normal"),
    "coarse": ("coarse", "loose"),
    "loose": ("coarse", "loose"),
}
"""What may be asked, and its name in ISO 273 and in ASME B18.2.8."""


@dataclass(frozen=True, slots=True)
class ClearanceHole:
    """A hole that a screw passes, of one series."""

    thread: Thread
    series: str
    """As its standard has it: fine, medium, coarse; close, normal, loose."""
    diameter: Millimetre
    drill: Drill

    @property
    def play(self) -> Millimetre:
        """Hole less the screw's major diameter."""
        return self.diameter - self.thread.major

    @property
    def shift(self) -> Millimetre:
        """How far the screw may stand off the middle of its hole, either way."""
        return self.play / 2

    def describe(self) -> str:
        """The hole in one sentence."""
        return (
            f"Clearance hole for {self.thread.size}, {self.series}: {self.diameter:.3f} mm (drill"
            f" {self.drill.designation}), play {self.play:.3f} mm."
        )


@offered(source="ISO 273:1979; ASME B18.2.8-1999")
def clearance_hole(thread: Thread, series: str = "medium") -> ClearanceHole:
    """Hole that a screw of a thread passes.

    Parameters
    ----------
    thread : Thread [-]
        Of the screw: ISO metric, M1 to M64, or Unified, #0 to 1-1/2 in.
    series : str [-]
        `fine`, `medium` or `coarse`; for inch screws the same are `close`, `normal` and `loose`.

    Returns
    -------
    ClearanceHole [-]
        Diameter, drill, and the play of the screw.

    Raises
    ------
    TradeError
        Another series, or a size for which the standard has no hole.

    Notes
    -----
    Two parts with clearance holes can be off by the play, in sum; a screw tapped into one of them,
    by half of it.

    Examples
    --------
    >>> round(clearance_hole(Thread.from_text("M6")).diameter, 2)
    6.6

    References
    ----------
    ISO 273:1979; ASME B18.2.8-1999.
    """
    asked = series.strip().lower()
    if asked not in SERIES:
        raise TradeError(
            f'"{series}" is no series of clearance holes',
            hint="fine, medium or coarse; for inch screws close, normal or loose",
            argument="series",
        )
    metric, inch = SERIES[asked]
    name = metric if thread.metric else inch
    row = _hole_rows(thread.metric).get(thread.size) if _screws(thread) else None
    if row is None:
        raise TradeError(
            f"there is no clearance hole for {thread.designation}",
            hint="ISO 273 is held for M1 to M64, ASME B18.2.8 for #0 to 1-1/2 in",
            argument="thread",
        )
    if not thread.metric:
        drill = Drill.from_text(row[name] if row[name].startswith("#") else drill_text(row[name]))
        return ClearanceHole(thread, name, drill.diameter, drill)
    diameter = float(row[f"{metric}_mm"])
    return ClearanceHole(thread, name, diameter, nearest_drill(diameter, "metric").nearest)


# ---- the tables ------------------------------------------------------------------------------


def _screws(thread: Thread) -> bool:
    """Whether screws have this thread: pipes and leadscrews may share a size's name."""
    return thread.metric or thread.series.startswith("UN") or thread.series.endswith("-UN")


@cache
def _hole_rows(metric: bool) -> dict[str, dict[str, str]]:
    name = "screws_clearance_metric" if metric else "screws_clearance_inch"
    return {row["size"]: row for row in table(name).rows}


def drill_text(text: str) -> str:
    """A letter drill as it is, a fraction with its unit."""
    return text if text.isalpha() else f"{text} in"
