"""Who sees what of a picture: every reader, or those whose page shows one of the two systems."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.render.html import Html, join, tag
from shoplog.render.pictures.labels import Both, Text
from shoplog.render.systems import BRACKET, INCH, METRIC

__all__ = ["ALL", "Layer", "apart", "words_of"]


@dataclass(frozen=True, slots=True)
class Layer:
    """What the page's switch shows and hides as one: for every reader, or for those of a system."""

    system: str = ""
    first: bool = True
    """Whether it is shown until the switch asks for a system."""

    def shows_with(self, other: Layer) -> bool:
        """Whether both may be seen at a time."""
        same = not self.system or not other.system or self.system == other.system
        return same or (self.first and other.first)

    def attributes(self) -> dict[str, str]:
        """As its group carries it."""
        hidden = {} if self.first else {"display": "none"}
        return {"class_": self.system, **hidden} if self.system else {}


ALL = Layer()


def apart(text: Text, layer: Layer) -> Iterator[tuple[Layer, Text]]:
    """Words with those for whom they are: of two systems the other is seen where the page asks."""
    if isinstance(text, str):
        yield layer, text
    elif text.own == text.other:
        yield layer, text.own
    elif text.together:
        yield layer, text
    else:
        own, other = _systems(text)
        yield Layer(own), text.own
        yield Layer(other, first=False), text.other


def words_of(text: Text) -> Html | str:
    """Words as they stand in the picture, both systems where they stand together."""
    if isinstance(text, str):
        return text
    own, other = _systems(text)
    opens, closes = (tag("tspan", sign, class_=BRACKET) for sign in (" (", ")"))
    one, two = tag("tspan", text.own, class_=own), tag("tspan", text.other, class_=other)
    return join([one, opens, two, closes])


def _systems(text: Both) -> tuple[str, str]:
    return (INCH, METRIC) if text.in_inches else (METRIC, INCH)
