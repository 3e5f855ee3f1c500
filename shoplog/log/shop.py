"""The shop profile, `shop.yml`: the machines, cutters, chucks and drills of a workshop.

Everything works without a profile. What is listed in the design and not used yet (vises, centres,
instruments and the like) is known here and kept as it was written.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

import yaml

from shoplog.log.cutters import CUTTER_SIZES, Cutter, read_cutter
from shoplog.log.quantities import literal
from shoplog.log.setup_lines import clipped
from shoplog.log.shop_values import ShopValues, rpm_of
from shoplog.log.shop_yaml import ShopFile, compose, kind_of_node, plain_data
from shoplog.problems import Mistake, Problem, message
from shoplog.trade.hole_work.drills import SETS
from shoplog.values import Value

__all__ = ["CUTTER_KEYS", "HOLDER_KEYS", "MACHINE_KEYS", "SHOP_KEYS"]
__all__ += ["Holder", "Machine", "ShopProfile", "read_shop"]

UNNAMED = message(
    "shop-unnamed",
    "{what} has no name",
    hint="give it a line `name: …`",
    example="machines:\n  - kind: lathe\n",
)
NAME_TWICE = message(
    "shop-name-twice",
    "{what} `{name}` is given at line {line} already",
    hint="a setup finds it by its name; give this one another",
    example="machines:\n  - name: lathe\n  - name: lathe\n",
)
NOT_LISTED = message(
    "shop-not-list",
    "`{key}` is a list, and this is {found}",
    example="machines: lathe\n",
)
# Each key of the file and what it is for; the reference page lists them from here.
SHOP_KEYS: dict[str, str] = {
    "name": "What the workshop is called.",
    "machines": "A list of machines.",
    "cutters": "Each cutter's name, and under it its sizes or `kind, material, key value…`.",
    "chucks": "A list of chucks with their marked speed.",
    "faceplates": "A list of faceplates with their marked speed.",
    "drills": f"The sets at hand, some of {', '.join(SETS)}.",
    **dict.fromkeys(
        (
            *("collets", "vises", "centres", "steadies", "taps", "reamers", "gauge blocks"),
            *("instruments", "dividing head", "materials", "change wheels", "remarks"),
        ),
        "Kept as it is written.",
    ),
}
MACHINE_KEYS: dict[str, str] = {
    "name": "What a setup calls it.",
    "kind": "lathe, mill, drill press, grinder, or another.",
    "speeds": "Its steps with commas between, or `100 rpm to 2500 rpm`.",
    "greatest speed": "The greatest speed that it is rated for.",
    "dial reads": "radius or diameter.",
    "power": "Of its motor: `0.55 kW`, `3/4 hp`.",
    "torque": "The most that its spindle gives.",
    "feed force": "The most that the drive of table or carriage gives.",
    "backlash": "Of the table's screw; words may stand behind it.",
    "table lock": "What bears a climbing cut: `both slides`, `compensated screws`, or `none`.",
    "leadscrew": "Its pitch: `3 mm`, `8 tpi`.",
    **dict.fromkeys(
        (*("feeds", "travel", "spindle taper", "change wheels", "remarks"),),
        "Kept as it is written.",
    ),
}
HOLDER_KEYS: dict[str, str] = {
    "name": "What a setup calls it.",
    "marked speed": "The greatest speed that is marked on it.",
    **dict.fromkeys(("diameter", "jaws", "remarks"), "Kept as it is written."),
}
CUTTER_KEYS: dict[str, str] = {
    "name": "What a setup calls it.",
    "kind": "turning tool, end mill, drill, or another.",
    "material": "HSS, carbide, or another.",
    "diameter": "Of a cutter that turns.",
    "teeth": "How many.",
    "nose radius": "Of a turning tool.",
    "remarks": "Kept as it is written.",
}


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine. It has steps of speed, or a slowest and a fastest speed, or neither is known."""

    name: str
    kind: str = ""
    steps: tuple[Value, ...] = ()
    slowest: Value | None = None
    fastest: Value | None = None
    greatest_speed: Value | None = None
    """As the profile gives it; `limit` is what counts."""
    dial_reads: str = ""
    """`radius`, `diameter`, or nothing where it is not said."""
    kept: dict[str, object] = field(default_factory=dict)

    @property
    def limit(self) -> Value | None:
        """The greatest speed: the one it is rated for, else its fastest step or end of range."""
        if self.greatest_speed or self.fastest:
            return self.greatest_speed or self.fastest
        return max(self.steps, key=rpm_of, default=None)


@dataclass(frozen=True, slots=True)
class Holder:
    """A chuck or a faceplate, and the greatest speed that is marked on it."""

    name: str
    kind: str
    """`chuck` or `faceplate`."""
    marked_speed: Value | None = None
    kept: dict[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ShopProfile:
    """What a workshop has."""

    name: str = ""
    machines: tuple[Machine, ...] = ()
    cutters: tuple[Cutter, ...] = ()
    holders: tuple[Holder, ...] = ()
    drill_sets: tuple[str, ...] = ()
    kept: dict[str, object] = field(default_factory=dict)

    def machine(self, name: str) -> Machine | None:
        """The machine of a name, in whichever case."""
        return _named(name, self.machines)

    def cutter(self, name: str) -> Cutter | None:
        """The cutter of a name, in whichever case."""
        return _named(name, self.cutters)

    def holder(self, name: str) -> Holder | None:
        """The chuck or faceplate of a name, in whichever case."""
        return _named(name, self.holders)


Thing = TypeVar("Thing", Machine, Cutter, Holder)


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


class _Profile:
    """Reads the nodes of a profile, part by part."""

    def __init__(self, file: ShopFile) -> None:
        self.file = file
        self.values = ShopValues(file)

    def read(self, node: yaml.Node) -> ShopProfile:
        found = dict(self.file.pairs(node, "the shop profile", SHOP_KEYS))
        used = ("name", "machines", "cutters", "chucks", "faceplates", "drills")
        holders = (
            *self._list(found, "chucks", self._holder, "chuck"),
            *self._list(found, "faceplates", self._holder, "faceplate"),
        )
        return ShopProfile(
            self.file.text("name", found["name"]) if "name" in found else "",
            tuple(self._list(found, "machines", self._machine, "machine")),
            tuple(self._list(found, "cutters", self._cutter, "cutter")),
            holders,
            self.values.drills(found["drills"]) if "drills" in found else (),
            {key: plain_data(value) for key, value in found.items() if key not in used},
        )

    def _list(
        self,
        found: dict[str, yaml.Node],
        key: str,
        reads: Callable[[str, str, yaml.Node], Thing | None],
        what: str,
    ) -> list[Thing]:
        """What stands in a list, each with a name of its own."""
        made = []
        first: dict[str, yaml.Node] = {}
        for name_node, name, node in self._named_nodes(key, what, found.get(key)):
            if name.casefold() in first:
                place = self.file.place_of(first[name.casefold()])
                mistake = Mistake(NAME_TWICE, what=what, name=clipped(name), line=place.line)
                self.file.problem(mistake, name_node, None, place)
                continue
            first[name.casefold()] = name_node
            one = reads(what, name, node)
            if one is not None:
                made.append(one)
        return made

    def _named_nodes(
        self, key: str, what: str, node: yaml.Node | None
    ) -> Iterator[tuple[yaml.Node, str, yaml.Node]]:
        """Each thing of a list with its name: `- name: …` and its lines, or `name:` and its lines
        under it.
        """
        if isinstance(node, yaml.MappingNode):
            for name_node, value in self.file.named(node, f"`{key}`"):
                yield name_node, " ".join(name_node.value.split()), value
        elif isinstance(node, yaml.SequenceNode):
            for item in node.value:
                named = _name_of(item)
                if named is None:
                    self.file.problem(Mistake(UNNAMED, what=f"this {what}"), item)
                else:
                    yield named, " ".join(named.value.split()), item
        elif node is not None:
            self.file.problem(Mistake(NOT_LISTED, key=key, found=kind_of_node(node)), node)

    def _machine(self, what: str, name: str, node: yaml.Node) -> Machine:
        if isinstance(node, yaml.ScalarNode):
            return Machine(name)
        lines = dict(self.file.pairs(node, f"a {what}", MACHINE_KEYS))
        steps, slowest, fastest = self.values.speeds(lines.get("speeds"))
        used = ("name", "kind", "speeds", "greatest speed", "dial reads")
        return Machine(
            name,
            self.values.text_of(lines, "kind").casefold(),
            steps,
            slowest,
            fastest,
            self.values.speed("greatest speed", lines.get("greatest speed")),
            self.values.dial(lines.get("dial reads")),
            {key: plain_data(value) for key, value in lines.items() if key not in used},
        )

    def _holder(self, what: str, name: str, node: yaml.Node) -> Holder:
        if isinstance(node, yaml.ScalarNode):
            return Holder(name, what)
        lines = dict(self.file.pairs(node, f"a {what}", HOLDER_KEYS))
        marked = self.values.speed("marked speed", lines.get("marked speed"))
        used = ("name", "marked speed")
        kept = {key: plain_data(value) for key, value in lines.items() if key not in used}
        return Holder(name, what, marked, kept)

    def _cutter(self, what: str, name: str, node: yaml.Node) -> Cutter:
        if isinstance(node, yaml.ScalarNode):
            return self._described(name, node)
        lines = dict(self.file.pairs(node, f"a {what}", CUTTER_KEYS))
        sizes = {key: self.values.length(key, lines.get(key)) for key in CUTTER_SIZES}
        remarks = self.values.text_of(lines, "remarks")
        return Cutter(
            self.values.text_of(lines, "kind") or name,
            self.values.text_of(lines, "material"),
            sizes["diameter"],
            self.values.count("teeth", lines.get("teeth")),
            sizes["nose radius"],
            name,
            (remarks,) if remarks else (),
        )

    def _described(self, name: str, node: yaml.ScalarNode) -> Cutter:
        """A cutter in one line: `kind, material, key value…`; or a name and nothing more."""
        made = read_cutter(node.value, literal)
        for mistake, span in made.mistakes:
            self.file.problem(mistake, node, span)
        return made.cutter(name) if made.texts else Cutter(name, name=name)


def _name_of(node: yaml.Node) -> yaml.ScalarNode | None:
    """Where a thing of a list says its name: its line `name:`, or itself where it is a text."""
    if isinstance(node, yaml.ScalarNode):
        return node if node.value.strip() else None
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            if isinstance(value, yaml.ScalarNode) and key.value == "name" and value.value.strip():
                return value
    return None
