"""The shop profile as pages read it: `shop.bench_lathe.speeds`, `shop.change_wheels`.

`shop` goes by the name of a part, so a page whose part is `shop`, or an own name, comes first.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from shoplog.calc.results import PageValue
from shoplog.calc.scope import Scope
from shoplog.log.header import part_name
from shoplog.log.quantities import literal
from shoplog.log.shop import Machine, ShopProfile
from shoplog.problems import Mistake, Place, Span, message, near
from shoplog.trade.declare import RevPerMinute
from shoplog.units import unit
from shoplog.values import Value

__all__ = ["SHOP", "ShopMachine", "ShopScope", "shop_scope"]

SHOP = "shop"
NOT_IN_SHOP = message(
    "shop-name-unknown", "the shop profile says nothing of `{name}`", hint="", example=""
)


@dataclass(frozen=True, slots=True)
class ShopMachine:
    """A machine of the shop profile, as a page reads it."""

    name: str
    kind: str
    speeds: tuple[RevPerMinute, ...]
    """Its steps, in the profile's order; none for a drive without steps."""
    greatest_speed: RevPerMinute | None
    leadscrew: str
    """As the profile writes it: `2 mm`, `8 tpi`."""

    def describe(self) -> str:
        """The machine in one line."""
        steps = f", {len(self.speeds)} speeds" if self.speeds else ""
        return f"{self.name}{steps}"


@dataclass(slots=True)
class ShopScope(Scope):
    """The names of the shop profile."""

    known: dict[str, PageValue] = field(default_factory=dict)

    def read_from(self, part: str, name: str, span: Span) -> PageValue:
        """The value of a name of the profile."""
        if name not in self.known:
            close = near(name, self.known)
            hint = f"did you mean {part}.{close}?" if close else f"it has {_listed(self.known)}"
            raise Mistake(NOT_IN_SHOP, span, hint=hint, name=name)
        return self.known[name]

    def place_of(self, name: str) -> Place | None:
        """Nothing: the profile is no page."""
        return None


def shop_scope(shop: ShopProfile) -> ShopScope:
    """The names that a profile gives to pages: its machines, and its lists of sizes and counts."""
    known: dict[str, PageValue] = {}
    for machine in shop.machines:
        known.setdefault(_name(machine.name), _machine(machine))
    if shop.drill_sets:
        known.setdefault("drills", ", ".join(shop.drill_sets))
    for key, text in shop.kept.items():
        known.setdefault(_name(key), _kept(text))
    return ShopScope(known=known)


def _name(text: str) -> str:
    return part_name(text).casefold()


def _listed(names: Iterable[str]) -> str:
    shown = list(names)[:8]
    return ", ".join(shown) if shown else "no machine and no list"


def _machine(machine: Machine) -> ShopMachine:
    rpm = unit("rpm")
    limit = machine.limit
    return ShopMachine(
        machine.name,
        machine.kind,
        tuple(step.to(rpm, loose=True).nominal for step in machine.steps),
        limit.to(rpm, loose=True).nominal if limit is not None else None,
        str(machine.kept.get("leadscrew", "")),
    )


def _kept(text: object) -> PageValue:
    """A list of sizes or counts where every item is one; else the text as it was written."""
    items = text if isinstance(text, list) else str(text).split(",")
    values: list[Value] = []
    for item in items:
        try:
            values.append(literal(str(item).strip()))
        except Mistake:
            return str(text)
    one_kind = len({value.unit.dimension for value in values}) == 1
    return tuple(values) if one_kind and len(items) > 1 else str(text)
