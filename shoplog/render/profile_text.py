"""A shop profile as it was read, in lines for the terminal and as data for programs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shoplog.calc.show import show
from shoplog.log.profile.shop import ShopProfile
from shoplog.log.profile.things import FactValue
from shoplog.render.terminal import value_json
from shoplog.render.values import one_line

__all__ = ["profile_json", "profile_lines"]


def profile_lines(shop: ShopProfile) -> Iterator[str]:
    """Each thing with its facts below it, sizes in both systems."""
    if shop.name:
        yield shop.name
    for thing in shop.things:
        yield f"{thing.what_it_is()}: {thing.name}"
        for label, value in thing.facts():
            yield f"  {label}: {_told(value)}"
    for label, value in shop.facts():
        yield f"{label}: {_told(value)}"


def _told(value: FactValue) -> str:
    if isinstance(value, tuple):
        return ", ".join(show(one).own for one in value)
    return one_line(value)


def profile_json(shop: ShopProfile) -> dict[str, Any]:
    """The same as data."""
    return {
        "name": shop.name,
        "things": [
            {
                "what": thing.what_it_is(),
                "name": thing.name,
                "facts": [_fact_json(*fact) for fact in thing.facts()],
            }
            for thing in shop.things
        ],
        "facts": [_fact_json(*fact) for fact in shop.facts()],
    }


def _fact_json(label: str, value: FactValue) -> dict[str, Any]:
    values = value if isinstance(value, tuple) else (value,)
    return {"label": label, "values": [value_json(one) for one in values]}
