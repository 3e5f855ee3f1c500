"""The tables beside pictures of holes: every coordinate, in both systems."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from shoplog.render.html import Html, scrolled, tag
from shoplog.render.pictures.parts import millimetres
from shoplog.render.systems import INCH, METRIC
from shoplog.trade.hole_work.hole_readout import ReadoutLine
from shoplog.trade.hole_work.holes import Hole
from shoplog.units import write_number

__all__ = ["hole_table", "readout_table"]

STEP = "From the one before"


def hole_table(points: Sequence[Hole]) -> Html:
    """The coordinates of holes, and the angle of each from the datum or on its circle."""
    heads = ("Hole", "x mm", "y mm", "x in", "y in", "Angle")
    rows = [
        (
            str(hole.number),
            *_both(hole.x, hole.y),
            f"{write_number(hole.angle, 'deg')}°",
        )
        for hole in points
    ]
    return _coordinates(heads, rows)


def readout_table(lines: Sequence[ReadoutLine]) -> Html:
    """What a readout shows at each hole, and how far it is from the one before."""
    heads = ("Hole", "X mm", "Y mm", "X in", "Y in", f"{STEP}, mm", f"{STEP}, in")
    rows = [
        (
            str(line.number),
            *_both(line.x, line.y),
            *(_both(line.chord) if line.chord else ("", "")),
        )
        for line in lines
    ]
    return _coordinates(heads, rows)


def _both(*lengths: float) -> tuple[str, ...]:
    """Lengths in mm, then in inches, without their units."""
    told = [millimetres(length) for length in lengths]
    metric = (mm.removesuffix(" mm") for mm, _ in told)
    return (*metric, *(inch.removesuffix(" in") for _, inch in told))


def _coordinates(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> Html:
    body = [
        tag(
            "tr", *(tag("td", cell, **_system(head)) for head, cell in zip(heads, row, strict=True))
        )
        for row in rows
    ]
    table = tag(
        "table",
        tag("thead", tag("tr", *(tag("th", head, scope="col", **_system(head)) for head in heads))),
        tag("tbody", *body),
        class_="shoplog-table shoplog-coordinates",
    )
    return scrolled(table, "Coordinates")


def _system(head: str) -> dict[str, str]:
    """The mark of a column in one of the two systems, for the page's switch."""
    if head.endswith(" in"):
        return {"class_": INCH}
    return {"class_": METRIC} if head.endswith(" mm") else {}
