"""Climb and conventional milling: what each does to the table, the finish and safety."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.tables import table as table_named
from shoplog.trade.declare import Millimetre, MillimetrePerTooth, TradeError, offered
from shoplog.trade.machining.chip_thickness import DIRECTIONS, require_word
from shoplog.trade.machining.cutting import require_within

__all__ = ["FeedDirection", "climb_fault", "feed_direction"]

TABLES = ("free", "locked", "compensated")
CUTS = ("roughing", "finishing")
CLIMB = (
    "climb milling draws the table through its backlash: lock or compensate the screw, keep the"
    " pass light, and let the machine's manual decide whether it is allowed at all"
)


@dataclass(frozen=True, slots=True)
class FeedDirection:
    """A direction of feed, and what it does."""

    direction: str
    feed_force: str
    """What it does to the force on the table's drive."""
    chip: str
    finish: str
    safety: str
    worst_chip: Millimetre | None
    """What a tooth may bite where the table jumps through its backlash."""
    cautions: tuple[str, ...]

    def describe(self) -> str:
        """What it does, in one sentence."""
        jump = f"; a jump would make a chip of {self.worst_chip:.3g} mm" if self.worst_chip else ""
        return f"{self.direction} milling: {self.feed_force}{jump}."


def climb_fault(direction: str, backlash: float | None, table: str, cut: str) -> str:
    """What is wrong with climb milling on a table that has slack; nothing where it is borne."""
    if direction != "climb" or table != "free" or cut == "finishing" or not backlash:
        return ""
    return (
        f"climb milling with a backlash of {backlash:g} mm and neither lock nor compensator is for"
        " a light finishing pass only"
    )


@offered(source="common practice, no source; Somta, user guide")
def feed_direction(
    direction: str,
    backlash: Millimetre | None = None,
    table: str = "free",
    cut: str = "roughing",
    feed_per_tooth: MillimetrePerTooth | None = None,
) -> FeedDirection:
    """What climb or conventional milling does to feed force, chip, finish and safety.

    Parameters
    ----------
    direction : str [-]
        `climb` or `conventional`.
    backlash : float [mm]
        0 to 10; of the table's screw along the feed. Left out, it is taken as there but not known.
    table : str [-]
        `free`, `locked` (a drag lock that holds against the cut) or `compensated` (the screw has no
        slack to jump).
    cut : str [-]
        `roughing`, or `finishing` for a light last pass.
    feed_per_tooth : float [mm/tooth]
        0.0001 to 5; with the backlash it gives the chip of a jump.

    Returns
    -------
    FeedDirection [-]
        Each in words; cautions where the table may be pulled.

    Raises
    ------
    TradeError
        Climb milling with backlash, no lock and no light pass.

    Notes
    -----
    A trapezoidal screw has slack even when it is new. What the cutter really pulls with is in
    `milling_forces`.

    Examples
    --------
    >>> feed_direction("climb", 0.15, cut="finishing", feed_per_tooth=0.02).worst_chip
    0.17

    References
    ----------
    Common practice, no source; Somta, user guide, Climb or conventional milling.
    """
    require_word("direction", direction, DIRECTIONS)
    if backlash is not None:
        require_within("backlash", backlash, "mm", 0, 10)
    if feed_per_tooth is not None:
        require_within("feed_per_tooth", feed_per_tooth, "mm/tooth", 1e-4, 5)
    require_word("table", table, TABLES)
    require_word("cut", cut, CUTS)
    fault = climb_fault(direction, backlash, table, cut)
    if fault:
        raise TradeError(
            fault,
            hint='feed the other way, "conventional"; or say table="compensated", table="locked" or'
            ' cut="finishing"',
            argument="direction",
        )
    row = next(row for row in table_named("feed_directions").rows if row["direction"] == direction)
    jumps = direction == "climb" and table == "free" and backlash != 0
    worst = backlash + feed_per_tooth if jumps and backlash and feed_per_tooth else None
    return FeedDirection(
        direction,
        row["feed_force"],
        row["chip"],
        row["finish"],
        row["safety"],
        worst,
        (CLIMB, row["safety"]) if jumps else (row["safety"],) * (direction == "conventional"),
    )
