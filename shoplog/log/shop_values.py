"""The values of the shop profile: speeds, steps, sizes, counts and words of a closed list."""

from __future__ import annotations

import re
from collections.abc import Iterator

import yaml

from shoplog.log.quantities import literal, quantity, shifted, whole
from shoplog.log.setup_lines import clipped, nearest
from shoplog.log.shop_yaml import ShopFile
from shoplog.problems import Mistake, Span, message
from shoplog.trade.hole_work.drills import SETS
from shoplog.units import convert, unit
from shoplog.values import Value

__all__ = ["ShopValues", "rpm_of"]

MOST_STEPS = 200

CHOICE = message(
    "shop-choice",
    "`{key}` is one of {choices}, and this is `{found}`",
    example="machines:\n  - name: lathe\n    dial reads: both\n",
)
RANGE_ENDS = message(
    "shop-range",
    "a range of speeds has a `from` and a higher `to`",
    hint="write from: 100 rpm and to: 2500 rpm",
    example="machines:\n  - name: lathe\n    speeds: 900 rpm to 100 rpm\n",
)
STEPS_MOST = message(
    "shop-steps", "a machine has {most} steps at most, and this one has {found}", example=""
)

_PART = re.compile(r"[^\s,](?:[^,]*[^\s,])?")


def rpm_of(speed: Value) -> float:
    """A speed of a spindle in rpm; a revolution may be left out of its unit."""
    return convert(speed.nominal, speed.unit, unit("rpm"), loose=True)


class ShopValues:
    """Reads values from the nodes of a file; what is wrong is nothing, and a problem."""

    def __init__(self, file: ShopFile) -> None:
        self.file = file

    def text_of(self, lines: dict[str, yaml.Node], key: str) -> str:
        """The text of a line, or nothing."""
        return self.file.text(key, lines[key]) if key in lines else ""

    def speeds(
        self, node: yaml.Node | None
    ) -> tuple[tuple[Value, ...], Value | None, Value | None]:
        """The steps of a machine, or the ends of its range."""
        if isinstance(node, yaml.MappingNode):
            keys = {"from": "The slowest.", "to": "The fastest."}
            ends = dict(self.file.pairs(node, "`speeds`", keys))
            return (), *self._ends(
                node, self.speed("from", ends.get("from")), self.speed("to", ends.get("to"))
            )
        if isinstance(node, yaml.ScalarNode) and "," not in node.value and " to " in node.value:
            middle = node.value.index(" to ")
            begins = 5 if node.value.startswith("from ") else 0
            one = self.speed("speeds", node, begins, middle)
            return (), *self._ends(node, one, self.speed("speeds", node, middle + 4))
        return self._steps(node), None, None

    def _ends(
        self, node: yaml.Node, slowest: Value | None, fastest: Value | None
    ) -> tuple[Value | None, Value | None]:
        if slowest and fastest and rpm_of(slowest) >= rpm_of(fastest):
            self.file.problem(Mistake(RANGE_ENDS), node)
            return None, None
        return slowest, fastest

    def _steps(self, node: yaml.Node | None) -> tuple[Value, ...]:
        if node is None:
            return ()
        parts = list(self._items(node, "speeds"))
        if len(parts) > MOST_STEPS:
            self.file.problem(Mistake(STEPS_MOST, most=MOST_STEPS, found=len(parts)), node)
        found = [self.speed("speeds", *part) for part in parts[:MOST_STEPS]]
        return tuple(speed for speed in found if speed is not None)

    def _items(self, node: yaml.Node, key: str) -> Iterator[tuple[yaml.Node, int, int]]:
        """The parts of a list: of a YAML list, or of a text with commas between."""
        nodes = node.value if isinstance(node, yaml.SequenceNode) else [node]
        for one in nodes:
            if not isinstance(one, yaml.ScalarNode):
                self.file.text(key, one)
                continue
            for part in _PART.finditer(one.value):
                yield one, *part.span()

    def drills(self, node: yaml.Node) -> tuple[str, ...]:
        """The sets of drills that are named."""
        made = []
        for one, start, end in self._items(node, "drills"):
            word = one.value[start:end].casefold()
            if word in SETS:
                made.append(word)
            else:
                self._choice("drills", SETS, one, start, end)
        return tuple(dict.fromkeys(made))

    def dial(self, node: yaml.Node | None) -> str:
        """What a dial reads, or nothing."""
        if node is None:
            return ""
        word = self.file.text("dial reads", node).casefold()
        if word and word not in ("radius", "diameter"):
            self._choice("dial reads", ("radius", "diameter"), node, 0, len(node.value))
            return ""
        return word

    def _choice(
        self, key: str, choices: tuple[str, ...], node: yaml.Node, start: int, end: int
    ) -> None:
        word = node.value[start:end]
        listed = ", ".join(choices)
        mistake = Mistake(
            CHOICE, hint=nearest(word, choices), key=key, choices=listed, found=clipped(word)
        )
        self.file.problem(mistake, node, Span(start, end))

    def speed(
        self, key: str, node: yaml.Node | None, start: int = 0, end: int | None = None
    ) -> Value | None:
        """A speed of a spindle."""
        return self._quantity(key, node, "a spindle speed", ("rpm", "1/min"), start, end)

    def length(self, key: str, node: yaml.Node | None) -> Value | None:
        """A length."""
        return self._quantity(key, node, "a length", ("mm",))

    def _quantity(
        self,
        key: str,
        node: yaml.Node | None,
        wanted: str,
        units: tuple[str, ...],
        start: int = 0,
        end: int | None = None,
    ) -> Value | None:
        """The quantity of a scalar, or of a part of its text; a problem and nothing else."""
        if node is None or not isinstance(node, yaml.ScalarNode):
            self._not_scalar(key, node)
            return None
        text = node.value[start:end]
        try:
            return quantity(key, text, literal, wanted, units, zero=False)
        except Mistake as mistake:
            self.file.problem(mistake, node, shifted(mistake, start, len(text)))
            return None

    def count(self, key: str, node: yaml.Node | None) -> Value | None:
        """A count from 1."""
        if node is None or not isinstance(node, yaml.ScalarNode):
            self._not_scalar(key, node)
            return None
        try:
            return whole(key, node.value, literal, 1)
        except Mistake as mistake:
            self.file.problem(mistake, node, shifted(mistake, 0, len(node.value)))
            return None

    def _not_scalar(self, key: str, node: yaml.Node | None) -> None:
        if node is not None:
            self.file.text(key, node)
