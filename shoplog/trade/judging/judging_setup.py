"""A cut that is to be judged: what is known of it, what follows from that, and what is missing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import pi
from typing import TypeVar

from shoplog.trade.declare import OutOfRange, TradeError
from shoplog.trade.machining.chip_thickness import DIRECTIONS, require_word
from shoplog.trade.machining.cutting import MOST_PASSES, require_count, require_within
from shoplog.trade.machining.cutting_bands import family_of
from shoplog.trade.machining.cutting_naming import (
    named_coolant,
    named_cutter,
    named_operation,
    named_rigidity,
    work_group,
)
from shoplog.trade.machining.cutting_resistance import edge_radius_of
from shoplog.trade.machining.feed_direction import TABLES
from shoplog.trade.machining.work_bending import HOLDINGS
from shoplog.trade.materials import Material, material_known

__all__ = ["MOST_TEETH", "Kind", "Remarks", "Setup", "checked", "kind_of_cut"]

MOST_TEETH = 100
STROKED = ("shaping", "broaching")
# Operations whose chip and force are known here, by the law that gives them.
TURNED = ("turning", "facing", "boring", "single-point boring head", "facing head")
BORED = ("boring", "single-point boring head")
MILLED = ("milling", "slot milling", "profile milling", "side milling", "face milling", "slitting")
END_MILLED = ("milling", "slot milling", "profile milling")
DRILLED = ("drilling", "core drilling")
USUAL_NOSE, USUAL_POINT = 0.4, 118.0  # mm, deg

RANGES = {
    "cutter_diameter": ("mm", 0.1, 1000),
    "nose_radius": ("mm", 0, 100),
    "edge_radius": ("um", 0, 500),
    "entering_angle": ("deg", 10, 150),
    "stick_out": ("mm", 0.1, 1000),
    "flute_length": ("mm", 0.1, 1000),
    "shank_diameter": ("mm", 0.1, 1000),
    "diameter": ("mm", 0.1, 2000),
    "length": ("mm", 0.1, 10000),
    "drilled_before": ("mm", 0, 1000),
    "spindle_speed": ("rpm", 0.1, 1e6),
    "feed_per_rev": ("mm/rev", 1e-4, 5),
    "feed_per_tooth": ("mm/tooth", 1e-4, 5),
    "feed_rate": ("mm/min", 1e-3, 1e6),
    "depth_of_cut": ("mm", 1e-3, 500),
    "width_of_cut": ("mm", 1e-3, 1000),
    "slot_width": ("mm", 0.01, 1000),
    "total_depth": ("mm", 1e-3, 1000),
    "least_speed": ("rpm", 0.1, 1e6),
    "most_speed": ("rpm", 0.1, 1e6),
    "chuck_speed": ("rpm", 0.1, 1e6),
    "cutter_speed": ("rpm", 0.1, 1e6),
    "power": ("kW", 1e-3, 1000),
    "torque": ("N*m", 1e-3, 1e5),
    "efficiency": ("%", 10, 100),
    "drive_force": ("N", 0.1, 1e6),
    "backlash": ("mm", 0, 10),
    "tolerance": ("mm", 1e-4, 10),
    "wanted_ra": ("um", 0.005, 200),
}


T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Kind:
    """What sort of cut an operation is."""

    operation: str
    stage: str
    family: str

    @property
    def milled(self) -> bool:
        """Whether the cutter turns and is fed across its axis."""
        return self.family == "milling"

    @property
    def turned(self) -> bool:
        """Whether it is the work that turns; a head turns its tool as a lathe turns the work."""
        return self.family == "turning"


def kind_of_cut(operation: str) -> Kind:
    """The sort of cut that a text names, as `named_operation` reads it."""
    row, stage = named_operation(operation)
    return Kind(row["operation"], stage, family_of(row))


@dataclass(slots=True)
class Remarks:
    """What is gathered while a cut is judged."""

    missing: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def miss(self, what: str, home: str, judged: str) -> None:
        """Name what is missing, whose it is, and what is not judged for want of it."""
        self._keep(self.missing, f"{what} (of the {home}): no {judged}")

    def attempt(self, judged: str, work_out: Callable[[], T]) -> T | None:
        """What a formula gives; where it refuses, nothing, and its reason among the missing."""
        try:
            return work_out()
        except TradeError as error:
            self._keep(self.missing, f"{error.message}: no {judged}")
            return None

    def caution(self, *texts: str) -> None:
        """Keep cautions once."""
        for text in texts:
            self._keep(self.cautions, text)

    def note(self, *texts: str) -> None:
        """Keep notes once."""
        for text in texts:
            self._keep(self.notes, text)

    @staticmethod
    def _keep(texts: list[str], text: str) -> None:
        if text not in texts:
            texts.append(text)


@dataclass(frozen=True)
class Setup:
    """A cut and the machine that makes it; lengths in mm, the edge in µm, power in kW."""

    kind: Kind
    material: str
    known: Material | None
    cutter: str
    cutter_diameter: float | None = None
    teeth: float | None = None
    nose_radius: float | None = None
    edge_radius: float | None = None
    entering_angle: float | None = None
    stick_out: float | None = None
    flute_length: float | None = None
    shank_diameter: float | None = None
    diameter: float | None = None
    length: float | None = None
    holding: str | None = None
    drilled_before: float | None = None
    spindle_speed: float | None = None
    feed_per_rev: float | None = None
    feed_per_tooth: float | None = None
    feed_rate: float | None = None
    depth_of_cut: float | None = None
    width_of_cut: float | None = None
    slot_width: float | None = None
    passes: float | None = None
    total_depth: float | None = None
    direction: str | None = None
    spindle_steps: tuple[float, ...] = ()
    least_speed: float | None = None
    most_speed: float | None = None
    chuck_speed: float | None = None
    cutter_speed: float | None = None
    power: float | None = None
    torque: float | None = None
    efficiency: float | None = None
    drive_force: float | None = None
    backlash: float | None = None
    table: str = "free"
    tolerance: float | None = None
    wanted_ra: float | None = None
    rigidity: str = "ordinary"
    coolant: str = "flood"
    feed_by: str = "power"

    @property
    def by_hand(self) -> bool:
        """Whether the feed is by hand."""
        return self.feed_by == "hand"

    @property
    def turning_diameter(self) -> float | None:
        """What meets the edge: the work in turning, else the cutter, or the hole it makes."""
        if self.kind.turned:
            return self.diameter
        return self.cutter_diameter if self.cutter_diameter is not None else self.diameter

    @property
    def cutting_speed(self) -> float | None:
        """In m/min, where something turns and both are known."""
        if self.spindle_speed is None or self.turning_diameter is None:
            return None
        if self.kind.operation in STROKED:
            return None
        return pi * self.turning_diameter * self.spindle_speed / 1000

    @property
    def rev_feed(self) -> float | None:
        """Feed a turn, in mm, however it was given."""
        if self.feed_per_rev is not None:
            return self.feed_per_rev
        if self.feed_rate is not None:
            return self.feed_rate / self.spindle_speed if self.spindle_speed else None
        if self.feed_per_tooth is not None and self.teeth is not None:
            return self.feed_per_tooth * self.teeth
        return None

    @property
    def tooth_feed(self) -> float | None:
        """Feed a tooth, in mm, however it was given."""
        if self.feed_per_tooth is not None:
            return self.feed_per_tooth
        if self.rev_feed is None or self.teeth is None:
            return None
        return self.rev_feed / self.teeth

    @property
    def width(self) -> float | None:
        """Width of a milling cut: a slot is as wide as its cutter unless another width is said."""
        if self.width_of_cut is None and self.kind.operation == "slot milling":
            return self.turning_diameter
        return self.width_of_cut

    @property
    def edge_mm(self) -> float | None:
        """Radius of the edge, in mm: as given, or of a sharp edge of that cutter."""
        if self.edge_radius is not None:
            return self.edge_radius / 1000
        try:
            return edge_radius_of(self.force_cutter)
        except TradeError:
            return None

    @property
    def force_cutter(self) -> str:
        """The cutter by a word that the forces know, where one of its words is."""
        try:
            edge_radius_of(self.cutter)
        except TradeError:
            row, _ = named_cutter(self.cutter)
            return row["cutter"]
        return self.cutter

    @property
    def steps_and_ends(self) -> tuple[float | None, float | None]:
        """The machine's slowest and fastest speed, as far as they are known."""
        slow = min(self.spindle_steps) if self.spindle_steps else self.least_speed
        fast = max(self.spindle_steps) if self.spindle_steps else self.most_speed
        return slow, fast


def checked(
    operation: str,
    material: str | Material,
    cutter: str,
    spindle_steps: list[float] | None,
    **given: object,
) -> Setup:
    """A setup of what was given, refused only where it is nonsense."""
    kind = kind_of_cut(operation)
    named_cutter(cutter)
    text = material if isinstance(material, str) else material.name
    known = material_known(material) if isinstance(material, str) else material
    if known is None:
        work_group(text)
    figures = {name: value for name, value in given.items() if value is not None}
    for name, value in figures.items():
        if name in RANGES and isinstance(value, int | float):
            unit_name, least, most = RANGES[name]
            require_within(name, value, unit_name, least, most)
    _require_one_feed(figures)
    _require_order(figures)
    _require_words(figures)
    steps = tuple(spindle_steps or ())
    _require_steps(steps)
    return Setup(kind, text, known, cutter, spindle_steps=steps, **figures)  # type: ignore[arg-type]


def _require_words(figures: dict[str, object]) -> None:
    for name, most in (("teeth", MOST_TEETH), ("passes", MOST_PASSES)):
        number = figures.get(name)
        if isinstance(number, int | float):
            require_count(name, number, most)
    direction, holding = figures.get("direction"), figures.get("holding")
    if isinstance(direction, str):
        require_word("direction", direction, DIRECTIONS)
    if isinstance(holding, str):
        require_word("holding", holding, HOLDINGS)
    require_word("table", str(figures.get("table", "free")), TABLES)
    require_word("feed_by", str(figures.get("feed_by", "power")), ("power", "hand"))
    named_rigidity(str(figures.get("rigidity", "ordinary")))
    named_coolant(str(figures.get("coolant", "flood")))


def _require_one_feed(figures: dict[str, object]) -> None:
    feeds = [name for name in ("feed_per_rev", "feed_per_tooth", "feed_rate") if name in figures]
    if len(feeds) > 1:
        raise TradeError(
            f"the feed is given twice, as {feeds[0]} and as {feeds[1]}",
            hint="one of them: the others follow from the spindle speed and the teeth",
            argument=feeds[1],
        )


def _require_order(figures: dict[str, object]) -> None:
    least, most = figures.get("least_speed"), figures.get("most_speed")
    if isinstance(least, int | float) and isinstance(most, int | float) and least > most:
        raise OutOfRange("least_speed", least, "rpm", most=most)


def _require_steps(steps: tuple[float, ...]) -> None:
    for number, step in enumerate(steps, start=1):
        if not 0.1 <= step <= 1e6:
            raise TradeError(
                f"step {number} is {step:g} rpm, it must be at least 0.1 rpm and at most 1e+06 rpm",
                argument="spindle_steps",
            )
