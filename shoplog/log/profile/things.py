"""What a workshop has, as records: machines, holders, instruments and the rest of a shop profile.

Each has the attributes that its keys in `shoplog.log.profile.keys` name, and tells them by `facts`.
A page reads the same attributes: `shop.bench_lathe.speeds`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from shoplog.log.profile.keys import THINGS, ShopThing
from shoplog.log.profile.parts import (
    AxisSizes,
    BlockContent,
    Drive,
    Fact,
    FactValue,
    Plate,
    SizeRange,
    rpm_of,
    shown,
)
from shoplog.trade.screw_threads.thread_record import Thread
from shoplog.units import unit
from shoplog.values import Value

__all__ = [
    "AxisSizes",
    "BlockContent",
    "DividingHead",
    "Drive",
    "Fact",
    "FactValue",
    "GaugeBlockSet",
    "Holder",
    "Instrument",
    "Machine",
    "Plate",
    "Reamer",
    "ShopRecord",
    "SizeRange",
    "Stock",
    "TapSet",
    "facts_of",
    "rpm_of",
]

_NO_DRIVE = Drive()
_NO_BLOCKS = BlockContent("", ())


def facts_of(record: Any, thing: ShopThing) -> list[Fact]:
    """What a record says of itself by the keys of its kind, in their order; its name aside."""
    found: list[Fact] = []
    for key in thing.keys:
        value = None if key.name == "name" else getattr(record, key.held)
        found += _facts(key.name, value)
    return found


def _facts(label: str, value: Any) -> Iterator[Fact]:
    if value is None or value in ("", ()):
        return
    if isinstance(value, tuple) and hasattr(value[0], "facts"):
        for one in value:
            yield from one.facts(label)
    elif isinstance(value, tuple) and len(value) == 1 and isinstance(value[0], Value):
        yield label, value[0]
    elif isinstance(value, tuple) and isinstance(value[0], Thread):
        yield label, tuple(thread.designation for thread in value)
    elif hasattr(value, "facts"):
        yield from value.facts(label)
    else:
        yield label, value


class ShopRecord:
    """A thing of the workshop: it has a name, and tells the rest."""

    __slots__ = ()
    _declared: ClassVar[ShopThing]
    name: str

    @property
    def _thing(self) -> ShopThing:
        return self._declared

    def facts(self) -> list[Fact]:
        """Each thing that the profile says of it, in the order of the reference; its name aside."""
        return facts_of(self, self._thing)

    def what_it_is(self) -> str:
        """Its kind of thing, in words: `machine`, `set of collets`."""
        return self._thing.noun

    def describe(self) -> str:
        """It in one line."""
        return self.name


@dataclass(frozen=True, slots=True)
class Machine(ShopRecord):
    """A machine. It has steps of speed, or a slowest and a fastest speed, or neither is known."""

    _declared = THINGS["machines"]

    name: str
    kind: str = ""
    drive: Drive = _NO_DRIVE
    rated_speed: Value | None = None
    """As the profile gives it; `greatest_speed` is what counts."""
    feed_drive: Drive = _NO_DRIVE
    power_feed: tuple[str, ...] = ()
    power: Value | None = None
    torque: Value | None = None
    feed_force: Value | None = None
    travel: AxisSizes | None = None
    backlash: AxisSizes | None = None
    table_lock: str = ""
    dial_reads: str = ""
    """`radius`, `diameter`, or nothing where it is not said."""
    dial_division: AxisSizes | None = None
    spindle_taper: str = ""
    spindle_bore: Value | None = None
    tailstock_taper: str = ""
    swing: Value | None = None
    swing_over_slide: Value | None = None
    centre_height: Value | None = None
    between_centres: Value | None = None
    leadscrew: Value | None = None
    """Its lead: a length, also where the profile counts threads per inch."""
    change_wheels: tuple[Value, ...] = ()
    remarks: str = ""

    @property
    def steps(self) -> tuple[Value, ...]:
        """The speeds of its spindle in the profile's order; none for a drive without steps."""
        return self.drive.steps

    @property
    def speeds(self) -> tuple[Value, ...]:
        """As `steps`: what the profile calls them."""
        return self.drive.steps

    @property
    def slowest(self) -> Value | None:
        """The slow end of its range."""
        return self.drive.least

    @property
    def fastest(self) -> Value | None:
        """The fast end of its range."""
        return self.drive.greatest

    @property
    def greatest_speed(self) -> Value | None:
        """What counts: the speed it is rated for, else its fastest step or end of range."""
        if self.rated_speed or self.fastest:
            return self.rated_speed or self.fastest
        return max(self.steps, key=rpm_of, default=None)

    @property
    def limit(self) -> Value | None:
        """As `greatest_speed`."""
        return self.greatest_speed

    @property
    def feeds(self) -> tuple[Value, ...]:
        """The steps of its power feed."""
        return self.feed_drive.steps

    def facts(self) -> list[Fact]:
        """As every thing of the workshop; a leadscrew in inches by its threads per inch."""
        return [
            (label, _threads_per_inch(value)) if label == "leadscrew" else (label, value)
            for label, value in facts_of(self, self._thing)
        ]

    def describe(self) -> str:
        """It in one line."""
        steps = f", {len(self.steps)} speeds" if self.steps else ""
        return f"{self.name}{steps}"


def _threads_per_inch(lead: Any) -> Any:
    return f"{1 / lead.nominal:.6g} tpi" if lead.unit is unit("in") else lead


@dataclass(frozen=True, slots=True)
class Holder(ShopRecord):
    """What holds work or cutter: a chuck, a faceplate, collets, a vise, a centre, a steady."""

    name: str
    kind: str
    """`chuck`, `faceplate`, `collets`, `vise`, `centre` or `steady`."""
    marked_speed: Value | None = None
    form: str = ""
    """Which kind of it, in the profile's words: `self-centring`, `live`."""
    diameter: Value | None = None
    jaws: Value | None = None
    grips: SizeRange | None = None
    sizes: tuple[Value, ...] = ()
    bore: Value | None = None
    jaw_width: Value | None = None
    opening: Value | None = None
    jaw_height: Value | None = None
    taper: str = ""
    point_angle: Value | None = None
    runout: Value | None = None
    remarks: str = ""

    @property
    def _thing(self) -> ShopThing:
        return THINGS[HOLDER_LISTS[self.kind]]


HOLDER_LISTS: Mapping[str, str] = {
    "chuck": "chucks",
    "faceplate": "faceplates",
    "collets": "collets",
    "vise": "vises",
    "centre": "centres",
    "steady": "steadies",
}
"""Each kind of holder, and the key of the profile that lists it."""


@dataclass(frozen=True, slots=True)
class Instrument(ShopRecord):
    """A measuring instrument."""

    _declared = THINGS["instruments"]

    name: str
    kind: str = ""
    range: SizeRange | None = None
    division: Value | None = None
    """What its scale or display steps by."""
    error: Value | None = None
    """How far it may be off, either way."""
    set_with: str = ""
    remarks: str = ""


@dataclass(frozen=True, slots=True)
class Reamer(ShopRecord):
    """A reamer: its size, with the limits of its class where it has one, or its taper."""

    _declared = THINGS["reamers"]

    name: str
    size: Value | None = None
    taper: str = ""
    kind: str = ""
    material: str = ""
    remarks: str = ""


@dataclass(frozen=True, slots=True)
class TapSet(ShopRecord):
    """Taps or dies that belong together."""

    _declared = THINGS["taps"]

    name: str
    cuts: str = "taps"
    """`taps` or `dies`."""
    threads: tuple[Thread, ...] = ()
    kind: str = ""
    material: str = ""
    remarks: str = ""

    def what_it_is(self) -> str:
        """A set of taps, or of dies."""
        return f"set of {self.cuts}"


@dataclass(frozen=True, slots=True)
class GaugeBlockSet(ShopRecord):
    """A set of gauge blocks."""

    _declared = THINGS["gauge blocks"]

    name: str
    content: BlockContent = _NO_BLOCKS
    grade: str = ""
    remarks: str = ""

    @property
    def sizes(self) -> tuple[Value, ...]:
        """The length of each block."""
        return self.content.sizes


@dataclass(frozen=True, slots=True)
class DividingHead(ShopRecord):
    """A dividing head or a rotary table, with its plates."""

    _declared = THINGS["dividing head"]

    name: str
    kind: str = "dividing head"
    """`dividing head` or `rotary table`."""
    ratio: Value | None = None
    """Turns of the handle for one of the work."""
    plates: tuple[Plate, ...] = ()
    centre_height: Value | None = None
    spindle_taper: str = ""
    marked_speed: Value | None = None
    remarks: str = ""

    @property
    def circles(self) -> tuple[Value, ...]:
        """The holes of every circle of every plate, each once, fewest first."""
        found = {one.nominal: one for plate in self.plates for one in plate.circles}
        return tuple(found[number] for number in sorted(found))

    def what_it_is(self) -> str:
        """Which of the two."""
        return self.kind


@dataclass(frozen=True, slots=True)
class Stock(ShopRecord):
    """A material on the rack."""

    _declared = THINGS["materials"]

    name: str
    material: str = ""
    form: str = ""
    size: tuple[Value, ...] = ()
    """A diameter, or width and thickness."""
    length: Value | None = None
    count: Value | None = None
    remarks: str = ""

    def describe(self) -> str:
        """It in one line."""
        across = " x ".join(shown(one) for one in self.size)
        return ", ".join(filter(None, (self.name, self.form, across)))
