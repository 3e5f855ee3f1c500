"""The key of a picture, which tells every size in both systems."""

from __future__ import annotations

from collections.abc import Iterable

from shoplog.render.html import Html, join, tag
from shoplog.render.systems import INCH, METRIC

__all__ = ["key"]

LONGEST_SIZE = 30
"""Letters of a key's cell that stand on one line: a size with its limits. A list is broken."""
_INCH_UNITS = (
    " in", " thou", " ft", " psi", "lbf", " per inch", " ft/min", " in/rev", " in/tooth", " in/min",
    " hp",
)  # fmt: skip
_METRIC_UNITS = (
    "mm", " µm", " m", "Pa", "N*m", " N·m", " N", " kN", " m/min", " mm/rev", " mm a turn",
    " mm/tooth", " mm a tooth", " mm/min", " W", " kW",
)  # fmt: skip
_TAPER_PER_FOOT = " in/ft"


def key(rows: Iterable[tuple[str, ...]]) -> Html:
    """The key of a picture: what each line is and its size, in both systems where there are two."""
    body = [tag("tr", tag("th", name, scope="row"), _cell(*sizes)) for name, *sizes in rows]
    return tag("table", tag("tbody", join(body)), class_="shoplog-table shoplog-key")


def _cell(size: str, other: str = "") -> Html:
    """A size over the other system's, marked so that the page's switch can show one of them."""
    wraps = {"class_": "shoplog-list"} if max(len(size), len(other)) > LONGEST_SIZE else {}
    if not other or other == size:
        return tag("td", size, **wraps)
    mine, theirs = _systems(size, other)
    first = tag("span", size, class_=mine) if mine else size
    second = tag("small", other, **({"class_": theirs} if theirs else {}))
    return tag("td", first, second, **wraps)


def _systems(size: str, other: str) -> tuple[str, str]:
    """Whose unit each is in; nothing where the two are not one size in two systems."""
    if other.endswith(_TAPER_PER_FOOT):  # a ratio is of both
        return "", INCH
    inch = [text.endswith(_INCH_UNITS) for text in (size, other)]
    metric = [text.endswith(_METRIC_UNITS) for text in (size, other)]
    if inch == [False, True] and metric[0]:
        return METRIC, INCH
    return (INCH, METRIC) if inch == [True, False] and metric[1] else ("", "")
