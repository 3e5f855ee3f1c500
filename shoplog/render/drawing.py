"""Pictures of what a page draws: one for each kind of record that has a shape.

A picture is drawn from the numbers of the result, in the colours of the page around it, and says
in words what it shows.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from shoplog.calc.results import PageValue
from shoplog.calc.show import words
from shoplog.render.draw_fit import draw_fit
from shoplog.render.draw_holes import draw_holes
from shoplog.render.findings import note
from shoplog.render.html import Html, tag
from shoplog.trade.hole_work.holes import HolePattern
from shoplog.trade.limits_and_fits.fits import Fit

__all__ = ["drawing"]

_PICTURES: dict[type, tuple[Callable[[Any, str], Html], str]] = {
    Fit: (draw_fit, "the tolerance zones about the nominal size, to scale"),
    HolePattern: (draw_holes, "the holes' places, to scale; not the size of the holes"),
}


def drawing(value: PageValue, text: str, anchor: str) -> Html:
    """A value's picture, with ids that begin with `anchor`; a note where there is none yet."""
    picture = _PICTURES.get(type(value))
    if picture is None:
        kinds = "a fit and a pattern of holes"
        return note(f"drawing {text} ({words(value)}) comes later; {kinds} can be drawn now")
    draw, what = picture
    caption = tag("figcaption", tag("code", text), f": {what}")
    # A search reads the values in the table; the labels of a picture are no text of the page.
    return tag(
        "figure", draw(value, anchor), caption, class_="shoplog-figure", data_search_exclude=True
    )
