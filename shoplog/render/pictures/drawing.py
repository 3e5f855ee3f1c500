"""Pictures of what a page draws: one for each kind of value that has a shape.

A picture is drawn from the numbers of the result, in the colours of the page around it, and says
in words what it shows.
"""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

from shoplog.calc.results import PageValue
from shoplog.calc.show import words
from shoplog.render import pictures
from shoplog.render.findings import note
from shoplog.render.html import Html, tag
from shoplog.render.pictures.declare import PICTURES

__all__ = ["drawing"]

USUAL = frozenset(
    ("a size with limits", "a fit", "a thread", "a tapped hole", "a taper", "a pattern of holes")
)
"""What a note names where something else was asked for; the guide shows all kinds."""

# A new picture is offered by being here.
for _module in iter_modules(pictures.__path__, f"{pictures.__name__}."):
    if _module.name != __name__:
        import_module(_module.name)


def drawing(value: PageValue, text: str, anchor: str) -> Html:
    """A value's picture, with ids that begin with `anchor`; a note where it has none."""
    picture = PICTURES.get(type(value))
    try:
        drawn = picture.draw(value, anchor) if picture else None
    except (ArithmeticError, ValueError) as fault:  # numbers that no drawing holds: the page stands
        return note(f"{text} ({words(value)}) cannot be drawn: {fault}")
    if picture is None or drawn is None:
        kinds = [one.called for one in PICTURES.values() if one.called in USUAL]
        more = len(PICTURES) - len(kinds)
        told = f"{', '.join(sorted(kinds))} and {more} kinds more"
        return note(f"{text} ({words(value)}) has no picture; what can be drawn: {told}")
    caption = tag("figcaption", tag("code", text), f": {picture.shows}")
    # A search reads the values in the table; the labels of a picture are no text of the page.
    return tag("figure", drawn, caption, class_="shoplog-figure", data_search_exclude=True)
