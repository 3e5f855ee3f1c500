"""The shop profile, `shop.yml`: what a workshop has, so that a page can call it by name.

Everything works without a profile. `shoplog.log.profile.keys` declares what it may say.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

import yaml

from shoplog.log.header import part_name
from shoplog.log.profile.keys import SHOP, THINGS, Reads
from shoplog.log.profile.nodes import Piece, ShopFile, compose, given
from shoplog.log.profile.reading import ThingReader
from shoplog.log.profile.things import (
    HOLDER_LISTS,
    DividingHead,
    Fact,
    FactValue,
    GaugeBlockSet,
    Holder,
    Instrument,
    Machine,
    Reamer,
    ShopRecord,
    Stock,
    TapSet,
)
from shoplog.log.setups.cutters import Cutter
from shoplog.log.setups.lines import clipped
from shoplog.problems import Grade, Mistake, Problem, message
from shoplog.values import Value

__all__ = ["Holder", "Machine", "ShopProfile", "read_shop"]

SAME_ON_PAGES = message(
    "shop-same-name",
    "pages read `shop.{name}` as what line {line} gives, and not as this",
    hint="give one of them another name",
    grade=Grade.CAUTION,
    example="machines: [lathe]\nchucks: [lathe]\n",
)


@dataclass(frozen=True, slots=True)
class ShopProfile:
    """What a workshop has."""

    name: str = ""
    machines: tuple[Machine, ...] = ()
    cutters: tuple[Cutter, ...] = ()
    holders: tuple[Holder, ...] = ()
    """Chucks, faceplates, collets, vises, centres and steadies."""
    drill_sets: tuple[str, ...] = ()
    instruments: tuple[Instrument, ...] = ()
    reamers: tuple[Reamer, ...] = ()
    tap_sets: tuple[TapSet, ...] = ()
    """Of taps and of dies."""
    block_sets: tuple[GaugeBlockSet, ...] = ()
    dividing_heads: tuple[DividingHead, ...] = ()
    """Dividing heads and rotary tables."""
    stock: tuple[Stock, ...] = ()
    change_wheels: tuple[Value, ...] = ()
    remarks: str = ""

    @property
    def things(self) -> tuple[ShopRecord, ...]:
        """All that has a name and tells facts."""
        return (
            *(*self.machines, *self.holders, *self.cutters, *self.tap_sets, *self.reamers),
            *(*self.block_sets, *self.instruments, *self.dividing_heads, *self.stock),
        )

    def facts(self) -> list[Fact]:
        """What it says beside its name and its things."""
        told: list[tuple[str, FactValue]] = [
            ("drills", ", ".join(self.drill_sets)),
            ("change wheels", self.change_wheels),
            ("remarks", self.remarks),
        ]
        return [(label, value) for label, value in told if value]

    def machine(self, name: str) -> Machine | None:
        """The machine of a name, in whichever case."""
        return _named(name, self.machines)

    def cutter(self, name: str) -> Cutter | None:
        """The cutter of a name, in whichever case."""
        return _named(name, self.cutters)

    def holder(self, name: str) -> Holder | None:
        """What holds work or cutter, by its name, in whichever case."""
        return _named(name, self.holders)

    def instrument(self, name: str) -> Instrument | None:
        """The instrument of a name, in whichever case."""
        return _named(name, self.instruments)


Thing = TypeVar("Thing", Machine, Cutter, Holder, Instrument)


def _named(name: str, things: tuple[Thing, ...]) -> Thing | None:
    wanted = " ".join(name.casefold().split())
    return next((one for one in things if one.name.casefold() == wanted), None)


def read_shop(text: str, path: str = "shop.yml") -> tuple[ShopProfile, tuple[Problem, ...]]:
    """Read a shop profile; what is wrong is left out of it and is a problem at its place.

    >>> shop, problems = read_shop("machines:\\n  - name: lathe\\n    speeds: 120 rpm, 200 rpm\\n")
    >>> len(shop.machine("Lathe").steps), problems
    (2, ())
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    file = ShopFile(path, text.split("\n"))
    node = compose(file, text)
    profile = ShopProfile() if node is None else _Profile(file).read(node)
    order = sorted(file.problems, key=lambda found: (found.place.line, found.place.column))
    return profile, tuple(order)


def _machine(name: str, kind: str = "", **told: Any) -> Machine:
    return Machine(name, kind.casefold(), **told)


def _cutter(name: str, kind: str = "", **told: Any) -> Cutter:
    return Cutter(kind or name, name=name, **told)


_MAKERS: dict[str, Callable[..., Any]] = {
    "machines": _machine,
    "cutters": _cutter,
    "taps": TapSet,
    "dies": TapSet,
    "reamers": Reamer,
    "gauge blocks": GaugeBlockSet,
    "instruments": Instrument,
    "dividing head": DividingHead,
    "rotary table": DividingHead,
    "materials": Stock,
    **dict.fromkeys(HOLDER_LISTS.values(), Holder),
}
_ALSO: dict[str, dict[str, str]] = {
    "taps": {"cuts": "taps"},
    "dies": {"cuts": "dies"},
    "dividing head": {"kind": "dividing head"},
    "rotary table": {"kind": "rotary table"},
    **{listed: {"kind": kind} for kind, listed in HOLDER_LISTS.items()},
}
# Things that are found by one lookup: no two of them have one name.
_LOOKUPS = {**dict.fromkeys(HOLDER_LISTS.values(), "holders")}


class _Profile:
    """Reads the nodes of a profile, key by key."""

    def __init__(self, file: ShopFile) -> None:
        self.file = file
        self.reader = ThingReader(file)
        self.first: dict[str, dict[str, Piece]] = {}
        self.keys: dict[str, Piece] = {}
        """Where the keys at the margin stand, by what pages call them."""

    def read(self, node: yaml.Node) -> ShopProfile:
        lines = dict(self.file.pairs(node, SHOP.what, SHOP.words))
        self.keys = {
            part_name(key.value): Piece.of(key)
            for key, _ in (node.value if isinstance(node, yaml.MappingNode) else ())
            if isinstance(key, yaml.ScalarNode) and key.value in lines
        }
        plain = {
            key.held: read
            for key in SHOP.keys
            if key.name in lines and key.reads not in (Reads.THING, Reads.THINGS)
            if (read := self.reader.values.read(key, given(lines[key.name]))) is not None
        }
        made = {key: tuple(self._things(key, lines[key])) for key in THINGS if key in lines}
        self._same_on_pages()
        return ShopProfile(
            **plain,
            machines=made.get("machines", ()),
            cutters=made.get("cutters", ()),
            holders=_joined(made, *HOLDER_LISTS.values()),
            instruments=made.get("instruments", ()),
            reamers=made.get("reamers", ()),
            tap_sets=_joined(made, "taps", "dies"),
            block_sets=made.get("gauge blocks", ()),
            dividing_heads=_joined(made, "dividing head", "rotary table"),
            stock=made.get("materials", ()),
        )

    def _things(self, key: str, node: yaml.Node) -> Iterator[Any]:
        first = self.first.setdefault(_LOOKUPS.get(key, key), {})
        for name, told in self.reader.things(key, THINGS[key], node, first):
            yield _MAKERS[key](name=name, **told, **_ALSO.get(key, {}))

    def _same_on_pages(self) -> None:
        """Say so where two things of different kinds go by one name on pages."""
        first = dict(self.keys)
        for names in self.first.values():
            for piece in names.values():
                name = part_name(piece.text).casefold()
                before = first.setdefault(name, piece)
                if before is not piece:
                    place = self.file.place_of(before.node, before.span)
                    mistake = Mistake(SAME_ON_PAGES, name=clipped(name), line=place.line)
                    self.file.problem(mistake, piece.node, piece.span, place)


def _joined(made: Mapping[str, tuple[Any, ...]], *keys: str) -> tuple[Any, ...]:
    return tuple(one for key in keys for one in made.get(key, ()))
