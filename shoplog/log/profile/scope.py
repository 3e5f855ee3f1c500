"""The shop profile as pages read it: `shop.bench_lathe.speeds`, `shop.change_wheels`.

`shop` goes by the name of a part, so a page whose part is `shop`, or an own name, comes first.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from shoplog.calc.results import PageValue
from shoplog.calc.scope import Scope
from shoplog.log.header import part_name
from shoplog.log.profile.shop import ShopProfile
from shoplog.log.profile.things import HOLDER_LISTS
from shoplog.problems import Mistake, Place, Span, message, near

__all__ = ["SHOP", "ShopScope", "shop_scope"]

SHOP = "shop"
NOT_IN_SHOP = message(
    "shop-name-unknown", "the shop profile says nothing of `{name}`", hint="", example=""
)


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
    """The names that a profile gives to pages: each thing by its name, and each list by its key.

    A list of sizes, counts or threads is of those alone; any other is of its things.
    """
    known = {_name(key): value for key, value in _lists(shop).items() if value}
    for thing in shop.things:
        known.setdefault(_name(thing.name), thing)
    return ShopScope(known=known)


def _lists(shop: ShopProfile) -> dict[str, PageValue]:
    """What stands behind the keys of a profile, as pages reckon with it."""
    holders = {
        listed: tuple(one for one in shop.holders if one.kind == kind)
        for kind, listed in HOLDER_LISTS.items()
    }
    return {
        "machines": shop.machines,
        **holders,
        "cutters": shop.cutters,
        "drills": ", ".join(shop.drill_sets),
        **{cuts: _threads(shop, cuts) for cuts in ("taps", "dies")},
        "reamers": tuple(one.size for one in shop.reamers if one.size is not None),
        "gauge blocks": tuple(size for one in shop.block_sets for size in one.sizes),
        "instruments": shop.instruments,
        "materials": shop.stock,
        "change wheels": shop.change_wheels,
        "name": shop.name,
        "remarks": shop.remarks,
    }


def _threads(shop: ShopProfile, cuts: str) -> tuple[PageValue, ...]:
    return tuple(thread for one in shop.tap_sets if one.cuts == cuts for thread in one.threads)


def _name(text: str) -> str:
    return part_name(text).casefold()


def _listed(names: Iterable[str]) -> str:
    """The first of the names that a page can write."""
    shown = [name for name in names if name.isidentifier()][:8]
    return ", ".join(shown) if shown else "nothing that a page can read"
