"""How a kind of value gets its picture: the function that draws it says so where it stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from shoplog.render.html import Html

__all__ = ["PICTURES", "Picture", "pictured"]

Drawn = TypeVar("Drawn", bound=Callable[[Any, str], Html | None])


@dataclass(frozen=True, slots=True)
class Picture:
    """How a kind of value is drawn."""

    draw: Callable[[Any, str], Html | None]
    """Takes the value and what the ids of the picture begin with; gives nothing where this one of
    its kind has no shape: a value without limits."""
    called: str
    """The kind of value in the words of a note: `a fit`."""
    shows: str
    """What the caption says."""


PICTURES: dict[type, Picture] = {}


def pictured(kind: type, called: str, shows: str) -> Callable[[Drawn], Drawn]:
    """Offer a function as the picture of a kind of value: of a fit, called `a fit`."""

    def offer(draw: Drawn) -> Drawn:
        PICTURES[kind] = Picture(draw, called, shows)
        return draw

    return offer
