"""Counterbores and countersinks for the heads of screws, and what a counterbore lets pass."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from math import ceil

from shoplog.tables import table
from shoplog.trade.declare import Degree, Millimetre, TradeError, offered
from shoplog.trade.fastening.clearance_holes import clearance_hole, drill_text
from shoplog.trade.fastening.screws import Screw
from shoplog.trade.hole_work.drills import Drill
from shoplog.trade.machining.cutting import require_within

__all__ = [
    "Counterbore",
    "ScrewCountersink",
    "counterbore",
    "screw_countersink",
]

LEAST_PLAY = 0.3
"""Between a head and its counterbore, on the diameter, in mm: less and a chip or a burr jams it."""
FULLEST = 500.0
WRENCHES = {
    "socket": "series 1 of DIN 974-2, room for a hand socket (DIN 3124) or a box spanner",
    "ring": "series 2 of DIN 974-2, room for a ring spanner or a power socket (DIN 3129)",
    "narrow": "series 3 of DIN 974-2, for a tight place: try whether the wrench goes in",
}
RULE = "common practice, no source"
BY_RULE = (
    "DIN 974-2 has no {size} here: 4/3 of the width across corners and 3 mm, for a hand socket"
    " (common practice, no source); measure the socket"
)
HOLE_HIDES = "a counterbore takes away what the head bears on: see that enough is left under it"


@dataclass(frozen=True, slots=True)
class Counterbore:
    """A counterbore for a screw: what its standard has, or one asked about, and what passes it."""

    screw: Screw
    diameter: Millimetre
    depth: Millimetre
    """For the head to be flush or below, with the standard's allowance."""
    standard: Millimetre | None = None
    """The diameter that the standard gives for this head; nothing where it has none."""
    hole: Millimetre | None = None
    """Clearance hole below, medium or normal."""
    source: str = ""
    notes: tuple[str, ...] = ()
    _asked: bool = field(default=False, repr=False)

    @property
    def play(self) -> Millimetre:
        """Counterbore less the widest head that the standard allows; 0 or less: none passes."""
        return self.diameter - self.screw.greatest_diameter

    @property
    def passes(self) -> bool:
        """Whether the widest head, or the set screw, passes with at least 0.3 mm of play."""
        return self.play >= LEAST_PLAY - 1e-9

    @property
    def passes_plain_head(self) -> bool:
        """Whether a plain, unknurled head at its greatest passes with at least 0.3 mm of play."""
        widest = self.screw.head_diameter or self.screw.diameter
        return self.diameter - widest >= LEAST_PLAY - 1e-9

    @property
    def passes_set_screw(self) -> bool:
        """Whether a set screw of the same thread passes, or the tap for it."""
        return self.diameter - self.screw.diameter >= LEAST_PLAY - 1e-9

    @property
    def cautions(self) -> tuple[str, ...]:
        """What a counterbore asks for."""
        return () if self.screw.head == "none" else (HOLE_HIDES,)

    def describe(self) -> str:
        """What the counterbore passes, in one or two sentences."""
        if self.screw.head == "none":
            return self._set_screw_text()
        widest = f"head at most {self.screw.greatest_diameter:.2f} mm"
        if self.screw.knurled_head_diameter and self.screw.head_diameter:
            widest = (
                f"head at most {self.screw.head_diameter:.2f} mm plain,"
                f" {self.screw.knurled_head_diameter:.2f} mm knurled"
            )
        verdict = f"passes it with {self.play:.2f} mm of play"
        if not self.passes:
            verdict = f"does not pass it with clearance ({self.play:+.2f} mm)"
        wants = ""
        if self._asked and self.standard is not None:
            wants = f"; {self.source} has {self.standard:.2f} mm"
        small = ""
        if not self.passes and self.passes_set_screw:
            small = (
                f" It passes a set screw of {self.screw.size}, {self.screw.diameter:.2f} mm, or a"
                " tool."
            )
        return (
            f"{self.screw.designation}: {widest}; a counterbore of {self.diameter:.2f} mm"
            f" {verdict}{wants}; {self.depth:.2f} mm deep hides the head.{small}"
        )

    def _set_screw_text(self) -> str:
        verdict = "passes" if self.passes else "does not pass"
        return (
            f"A counterbore of {self.diameter:.2f} mm {verdict} {self.screw.designation}, a screw"
            f" without a head of {self.screw.diameter:.2f} mm ({self.play:+.2f} mm)."
        )


@offered(
    source="DIN 974-1:2008, row 1 (ISO 4762 heads); DIN 974-2:1991 (hexagons); ASME B18.3-2003,"
    " Table A-1 (from memory); for hexagons that DIN 974-2 has not and the least play of 0.3 mm:"
    " common practice, no source"
)
def counterbore(screw: Screw, diameter: Millimetre | None = None, wrench: str = "") -> Counterbore:
    """Counterbore for a screw's head, and what one of a stated diameter lets pass.

    Parameters
    ----------
    screw : Screw [-]
        Such as `ISO 4762 M6`; a set screw tells whether it passes a counterbore above its thread.
    diameter : float [mm]
        Of the counterbore asked about, 0.5 to 500; the standard's if left out.
    wrench : str [-]
        For a hexagon, what must go in beside the head: `socket`, `ring` or `narrow`; a socket if
        left out.

    Returns
    -------
    Counterbore [-]
        Diameter, depth, play about the widest head, and whether the head, a plain head, or a set
        screw of the same thread passes.

    Raises
    ------
    TradeError
        A countersunk head, no standard diameter and none given, or a wrench that is not one.

    Notes
    -----
    A counterbore as wide as the head passes no head with clearance: M6 of ISO 4762 has a head of
    10 mm, 10.22 mm where it is knurled, and wants 11 mm; 10 mm passes a set screw or a tool. A
    hexagon's spanner or socket wants more room than its corners, and DIN 974-2 has a series for
    each; M1.6 to M2.5, M3.5 and over M45 it is 4/3 of the corners and 3 mm.

    Examples
    --------
    >>> found = counterbore(Screw.from_text("ISO 4762 M6"), 10)
    >>> found.passes, found.passes_set_screw, found.standard
    (False, True, 11.0)
    >>> bolt = Screw.from_text("ISO 4014 M8x40")
    >>> counterbore(bolt).diameter, counterbore(bolt, wrench="narrow").diameter
    (24.0, 18.0)

    References
    ----------
    DIN 974-1:2008; DIN 974-2:1991; ASME B18.3-2003, Table A-1; common practice, no source.
    """
    if screw.head == "countersunk":
        raise TradeError(
            f"{screw.designation} has a countersunk head, it has no counterbore",
            hint=f'screw_countersink("{screw.designation}")',
            argument="screw",
        )
    if diameter is not None:
        require_within("diameter", diameter, "mm", 0.5, FULLEST)
    usual, depth, source, notes = _standard(screw, wrench)
    chosen = usual if diameter is None else diameter
    if chosen is None:
        raise TradeError(
            f"no standard counterbore is held for {screw.designation}",
            hint="it has no head: give the diameter of the counterbore above its thread",
            argument="screw",
        )
    hole = None if screw.head in ("none", "nut") else clearance_hole(screw.thread).diameter
    asked = diameter is not None
    standard = None if source == RULE else usual
    return Counterbore(screw, chosen, depth, standard, hole, source, notes, asked)


@dataclass(frozen=True, slots=True)
class ScrewCountersink:
    """A countersink that takes every head of a size flush or below."""

    screw: Screw
    diameter: Millimetre
    angle: Degree
    hole: Millimetre

    @property
    def depth(self) -> Millimetre:
        """From the face to where the cone meets the clearance hole."""
        return (self.diameter - self.hole) / 2  # 90 degrees: as deep as it is wide on one side

    def describe(self) -> str:
        """The countersink in one sentence."""
        return (
            f"{self.screw.designation}: countersink {self.angle:g}° to {self.diameter:.2f} mm,"
            f" {self.depth:.2f} mm deep into a hole of {self.hole:.2f} mm."
        )


@offered(source="ISO 10642:2004, theoretical head diameter; ISO 273:1979")
def screw_countersink(screw: Screw) -> ScrewCountersink:
    """Countersink for the head of an ISO 10642 screw, to lie flush or below.

    Parameters
    ----------
    screw : Screw [-]
        Such as `ISO 10642 M5`.

    Returns
    -------
    ScrewCountersink [-]
        Diameter at the face, angle, depth, and the hole below.

    Raises
    ------
    TradeError
        The head is not countersunk.

    Notes
    -----
    To the greatest sharp cone of the standard; real heads are flattened at the rim and lie deeper.
    Inch heads are 82 degrees and are not held.

    Examples
    --------
    >>> screw_countersink(Screw.from_text("ISO 10642 M5")).diameter
    11.2

    References
    ----------
    ISO 10642:2004; ISO 273:1979.
    """
    if screw.head != "countersunk" or screw.head_diameter is None:
        raise TradeError(
            f"{screw.designation} has no countersunk head",
            hint='a countersunk screw is "ISO 10642 M5"',
            argument="screw",
        )
    return ScrewCountersink(screw, screw.head_diameter, 90, clearance_hole(screw.thread).diameter)


# ---- the tables ------------------------------------------------------------------------------


Found = tuple[float | None, float, str, tuple[str, ...]]
"""Diameter, depth for the head, which standard or the rule, and notes."""


def _standard(screw: Screw, wrench: str) -> Found:
    """What a standard, or the rule, has for a head; a set screw has none."""
    if screw.head in ("hexagon", "nut"):
        return _hexagon(screw, _known_wrench(wrench))
    if wrench:
        raise TradeError(
            f"{screw.designation} has no hexagon to put a wrench round",
            hint="leave the wrench out",
            argument="wrench",
        )
    height = screw.head_height or 0.0
    if screw.head != "cap":
        return None, height, "", ()
    if screw.thread.metric:
        row = _rows("screws_cap_metric")[screw.size]
        bore, depth = float(row["counterbore_mm"]), float(row["counterbore_depth_mm"])
        return bore, depth, "DIN 974-1", ()
    drill = drill_text(_rows("screws_cap_inch")[screw.size]["counterbore"])
    return Drill.from_text(drill).diameter, height, "ASME B18.3", ()


def _known_wrench(wrench: str) -> str:
    asked = wrench.strip().lower() or "socket"
    if asked not in WRENCHES:
        raise TradeError(
            f'"{wrench}" is no wrench that a counterbore is held for',
            hint=f"it is {', '.join(list(WRENCHES)[:-1])} or {list(WRENCHES)[-1]}",
            argument="wrench",
        )
    return asked


def _hexagon(screw: Screw, wrench: str) -> Found:
    """DIN 974-2, or the rule where it has no such size."""
    rows, height = _rows("screws_counterbores_hex"), screw.head_height or 0.0
    if row := rows.get(screw.size):
        depth = height + float(row["allowance_mm"])
        return float(row[f"{wrench}_mm"]), depth, "DIN 974-2", (WRENCHES[wrench],)
    if wrench != "socket":
        raise TradeError(
            f"no {wrench} series of counterbores is held for {screw.designation}",
            hint="DIN 974-2 is held for M3 and M4 to M45; a socket has a rule beyond",
            argument="wrench",
        )
    by_rule = float(ceil(4 / 3 * screw.greatest_diameter + 3))
    return by_rule, height + _allowance(screw), RULE, (BY_RULE.format(size=screw.size),)


def _allowance(screw: Screw) -> float:
    """What a depth has over the head: of the nearest size that is held."""
    rows = _rows("screws_counterbores_hex").values()
    near = min(rows, key=lambda row: abs(float(row["size"][1:]) - screw.diameter))
    return float(near["allowance_mm"])


@cache
def _rows(name: str) -> dict[str, dict[str, str]]:
    return {row["size"]: row for row in table(name).rows}
