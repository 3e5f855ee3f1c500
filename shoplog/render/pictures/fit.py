"""A fit as a picture: the tolerance zones of hole and shaft about the zero line, to scale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import drawsvg as draw

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import hatch, line, rectangle, svg, write
from shoplog.trade.declare import Size
from shoplog.trade.limits_and_fits.fits import Fit
from shoplog.units import convert, unit, write_quantity

__all__ = ["draw_fit"]

WIDTH = 300
TOP = 40
TALL = 170
"""Height that the whole of the deviations is drawn over."""
HOLE_X, SHAFT_X, ZONE = 66.0, 174.0, 60.0
MICROMETRES_PER_MM = 1000.0


@dataclass(frozen=True, slots=True)
class _Scale:
    """Turns a deviation in micrometres into a height of the picture."""

    most: float
    per_micrometre: float

    def y(self, deviation: float) -> float:
        return TOP + (self.most - deviation) * self.per_micrometre


@pictured(Fit, "a fit", "the tolerance zones about the nominal size, to scale")
def draw_fit(found: Fit, anchor: str) -> Html:
    """The zones of a fit, its limits, and what the pair has at the least and at the most."""
    deviations = [*_deviations(found.hole), *_deviations(found.shaft), 0.0]
    most, least = max(deviations), min(deviations)
    scale = _Scale(most, TALL / ((most - least) or 1.0))
    legend = [*_legend(found)]
    picture = draw.Drawing(WIDTH, TOP + TALL + 30 + 17 * len(legend))
    for part in (*_zero_line(scale), *_zones(found, scale), *_arrows(found, scale)):
        picture.append(part)
    for number, text in enumerate(legend):
        picture.append(write(text, 6, TOP + TALL + 38 + 17 * number))
    return svg(picture, anchor, f"Tolerance zones of {found.designation}", "; ".join(legend))


def _deviations(size: Size) -> tuple[float, float]:
    return size.lower * MICROMETRES_PER_MM, size.upper * MICROMETRES_PER_MM


def _zero_line(scale: _Scale) -> Iterator[draw.DrawingElement]:
    zero = scale.y(0.0)
    yield line(4, zero, WIDTH - 4, zero, "shoplog-zero")
    yield write("0", 4, zero - 3)


def _zones(found: Fit, scale: _Scale) -> Iterator[draw.DrawingElement]:
    sides = (
        ("hole", found.hole, HOLE_X, HOLE_X - 5, "end"),
        ("shaft", found.shaft, SHAFT_X, SHAFT_X + ZONE + 5, "start"),
    )
    for name, size, x, label_x, anchor in sides:
        lower, upper = _deviations(size)
        top, bottom = scale.y(upper), scale.y(lower)
        yield rectangle(x, top, ZONE, bottom - top, f"shoplog-zone shoplog-{name}")
        rising = name == "hole"
        yield from hatch(x, top, ZONE, bottom - top, rising, f"shoplog-hatch shoplog-{name}")
        yield write(f"{name} {size.tolerance_class}".strip(), x + ZONE / 2, 16, "middle")
        # Above and below its edges, so that the two never meet, however thin the zone is.
        yield write(_signed(upper), label_x, top - 3, anchor)
        yield write(_signed(lower), label_x, bottom + 11, anchor)


def _signed(micrometres: float) -> str:
    number = round(micrometres, 2)
    return f"{number:+g} µm".replace("-", "−") if number else "0"


def _arrows(found: Fit, scale: _Scale) -> Iterator[draw.DrawingElement]:
    """A and B: from the shaft's edge to the hole's, at the least and at the greatest clearance."""
    hole_lower, hole_upper = _deviations(found.hole)
    shaft_lower, shaft_upper = _deviations(found.shaft)
    pairs = (("A", hole_lower, shaft_upper, 138.0), ("B", hole_upper, shaft_lower, 160.0))
    for letter, hole_edge, shaft_edge, x in pairs:
        hole_y, shaft_y = scale.y(hole_edge), scale.y(shaft_edge)
        yield line(HOLE_X + ZONE, hole_y, x + 4, hole_y, "shoplog-thin")
        yield line(x - 4, shaft_y, SHAFT_X, shaft_y, "shoplog-thin")
        yield line(x, hole_y, x, shaft_y, f"shoplog-arrow shoplog-arrow-{letter.lower()}")
        yield from _heads(x, hole_y, shaft_y)
        yield write(letter, x + 3, (hole_y + shaft_y) / 2 + 4, class_="shoplog-letter")


def _heads(x: float, one: float, other: float) -> Iterator[draw.DrawingElement]:
    size = min(5.0, abs(one - other) / 2)
    for tip, inward in ((one, other), (other, one)):
        back = tip + (size if inward > tip else -size)
        yield draw.Lines(
            x - size / 2, back, x, tip, x + size / 2, back,
            class_="shoplog-arrow", stroke="currentColor", fill="none",
        )  # fmt: skip


def _legend(found: Fit) -> Iterator[str]:
    plays = (
        ("A", found.clearance_min, "least clearance", "greatest interference"),
        ("B", found.clearance_max, "greatest clearance", "least interference"),
    )
    for letter, play, clear, tight in plays:
        amount = write_quantity(abs(play), unit("um"))
        thou = write_quantity(convert(abs(play), unit("um"), unit("thou")), unit("thou"))
        yield f"{letter}  {clear if play >= 0 else tight} {amount} ({thou})"
    mm, inch = unit("mm"), unit("in")
    for name, size in (("hole", found.hole), ("shaft", found.shaft)):
        for of in (mm, inch):
            least, most = (
                write_quantity(convert(edge, mm, of), of) for edge in (size.min, size.max)
            )
            yield f"{name}  {least} to {most}"
