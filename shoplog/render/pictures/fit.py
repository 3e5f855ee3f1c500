"""A fit as a picture: the tolerance zones of hole and shaft about the zero line, to scale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    DIMENSION,
    FALLING,
    OUTLINE,
    RISING,
    THIN,
    Both,
    Canvas,
    Fill,
    Tells,
    Text,
    from_to,
    limits,
    micrometres,
    per_unit,
    picture,
    plain,
    spread,
    upright,
)
from shoplog.trade.declare import Size
from shoplog.trade.limits_and_fits.bearings import BearingSeat
from shoplog.trade.limits_and_fits.fit_duties import SuggestedFit
from shoplog.trade.limits_and_fits.fits import Fit
from shoplog.trade.limits_and_fits.inch_fits import InchFit
from shoplog.units import convert, unit

__all__ = ["draw_fit"]

TOP = 40.0
TALL = 160.0
"""Height that the whole of the deviations is drawn over."""
ZONE = 62.0
HOLE_X, SHAFT_X = 70.0, 190.0
PLAY_X = (148.0, 174.0)
"""Where the least and the greatest play are told, between the zones."""
MICROMETRES_PER_MM = 1000.0
MICROMETRES_PER_THOU = 25.4
MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class _Scale:
    """Turns a deviation in micrometres into a height of the picture."""

    most: float
    per_micrometre: float

    def y(self, deviation: float) -> float:
        return TOP + (self.most - deviation) * self.per_micrometre


@dataclass(frozen=True, slots=True)
class _Side:
    name: str
    size: Size
    x: float
    fill: Fill

    @property
    def deviations(self) -> tuple[float, float]:
        return self.size.lower * MICROMETRES_PER_MM, self.size.upper * MICROMETRES_PER_MM


SHOWS = "the tolerance zones about the nominal size, to scale"


@pictured(Fit, "a fit", SHOWS)
def draw_fit(found: Fit, anchor: str) -> Html:
    """The zones of a fit, its limits, and what the pair has at the least and at the most."""
    pair = _Pair(found.hole, found.shaft, found.clearance_min, found.clearance_max)
    return _zones(pair, found.designation, anchor)


@pictured(SuggestedFit, "a fit for a duty", SHOWS)
def draw_suggested_fit(found: SuggestedFit, anchor: str) -> Html:
    """The zones of the fit that was found for a duty."""
    return draw_fit(found.fit, anchor)


@pictured(BearingSeat, "a bearing's seat", SHOWS)
def draw_bearing_seat(found: BearingSeat, anchor: str) -> Html:
    """The zones of a seat and of the bearing on it."""
    return draw_fit(found.fit, anchor)


@pictured(InchFit, "an inch fit", SHOWS)
def draw_inch_fit(found: InchFit, anchor: str) -> Html:
    """The zones of a fit of the inch standard, in inches first."""
    plays = (found.clearance_min * MICROMETRES_PER_THOU, found.clearance_max * MICROMETRES_PER_THOU)
    pair = _Pair(found.hole, found.shaft, *plays, inches=True)
    size = plain(found.hole.nominal / MM_PER_INCH, "in")
    return _zones(pair, f"{size} in {found.fit_class}", anchor)


@dataclass(frozen=True, slots=True)
class _Pair:
    """A hole and a shaft, and their clearance in micrometres at the least and at the most."""

    hole: Size
    shaft: Size
    least: float
    most: float
    inches: bool = False


def _zones(pair: _Pair, designation: str, anchor: str) -> Html:
    sides = _Side("hole", pair.hole, HOLE_X, RISING), _Side("shaft", pair.shaft, SHAFT_X, FALLING)
    edges = [edge for side in sides for edge in side.deviations] + [0.0]
    scale = _Scale(max(edges), per_unit(TALL, max(edges) - min(edges)))
    canvas = Canvas(anchor)
    zero = scale.y(0.0)
    canvas.line(THIN, (6, zero), (canvas.width - 6, zero), tells=Tells("zero", 0.0, "um"))
    for side in sides:
        _zone(canvas, side, scale)
    _labels(canvas, sides[0], scale, HOLE_X - 5, "end", zero, pair.inches)
    _labels(canvas, sides[1], scale, SHAFT_X + ZONE + 5, "start", None, pair.inches)
    _plays(canvas, pair, sides, scale)
    rows = [*_rows(pair)]
    said = "; ".join(f"{name} {size}" for name, size, _ in rows)
    return picture(canvas, f"Tolerance zones of {designation}", f"{said}.", rows)


def _zone(canvas: Canvas, side: _Side, scale: _Scale) -> None:
    lower, upper = side.deviations
    top, bottom = scale.y(upper), scale.y(lower)
    corners = (side.x, top), (side.x + ZONE, top), (side.x + ZONE, bottom), (side.x, bottom)
    canvas.area(side.fill, *corners)
    canvas.line(
        OUTLINE, *corners, closed=True, tells=Tells(f"{side.name}_zone", upper - lower, "um")
    )
    name = f"{side.name} {side.size.tolerance_class}".strip()
    canvas.write(name, side.x + ZONE / 2, 15, "middle", strong=True)


def _labels(
    canvas: Canvas, side: _Side, scale: _Scale, x: float, anchor: str, zero: float | None,
    inches: bool,
) -> None:  # fmt: skip
    """The deviations beside a zone's edges, and `0` by the zero line, clear of each other."""
    lower, upper = side.deviations
    low, high = _deviations(lower, upper, inches)
    told: list[tuple[float, Text, float, str]]
    told = [(scale.y(upper) - 2, high, upper, f"{side.name}_upper")]
    if lower != upper:
        told.append((scale.y(lower) + 10, low, lower, f"{side.name}_lower"))
    if zero is not None and 0.0 not in (lower, upper):
        told.append((zero - 3, "0", 0.0, "zero"))
    places = spread([y for y, *_ in told])
    for y, (_, text, deviation, name) in zip(places, told, strict=True):
        canvas.write(text, x, y, anchor, tells=Tells(name, deviation, "um"))


def _deviations(lower: float, upper: float, inches: bool) -> list[Both]:
    """The lower and the upper one in both systems, told apart where a zone is thin."""
    systems = [_in_unit(lower, upper, of) for of in ("um", "thou")]
    own, other = systems[::-1] if inches else systems
    return [Both(*texts, inches) for texts in zip(own, other, strict=True)]


def _in_unit(lower: float, upper: float, of: str) -> list[str]:
    want = unit(of)
    ends = [convert(end, unit("um"), want) for end in (lower, upper)]
    texts = [plain(end, want.text, sign=True) for end in ends]
    if texts[0] == texts[1] and lower != upper:
        apart = from_to(ends[0], ends[1], want.text)
        texts = [text.replace("-", "−") if text[0] == "-" else f"+{text}" for text in apart]
    return [f"{text} {want.text}" if end else "0" for text, end in zip(texts, ends, strict=True)]


def _plays(canvas: Canvas, pair: _Pair, sides: tuple[_Side, _Side], scale: _Scale) -> None:
    """A and B: from the shaft's edge to the hole's, at the least and at the greatest clearance."""
    (hole_lower, hole_upper), (shaft_lower, shaft_upper) = (side.deviations for side in sides)
    plays = (
        ("A", hole_lower, shaft_upper, "clearance_min", pair.least),
        ("B", hole_upper, shaft_lower, "clearance_max", pair.most),
    )
    for (letter, hole, shaft, name, play), x in zip(plays, PLAY_X, strict=True):
        hole_y, shaft_y = scale.y(hole), scale.y(shaft)
        for y, edge in ((hole_y, HOLE_X + ZONE), (shaft_y, SHAFT_X)):
            canvas.line(DIMENSION, (edge, y), (x, y))
        ends = (x, hole_y), (x, shaft_y)
        upright(canvas, *ends, x, letter, Tells(name, play, "um"), beside="right")


def _rows(pair: _Pair) -> Iterator[tuple[str, str, str]]:
    turn = -1 if pair.inches else 1
    for name, size in (("hole", pair.hole), ("shaft", pair.shaft)):
        one, other = limits(size.min, size.max)[::turn]
        yield (f"{name} {size.tolerance_class}".strip(), one, other)
    plays = (
        ("A", pair.least, "least clearance", "greatest interference"),
        ("B", pair.most, "greatest clearance", "least interference"),
    )
    for letter, play, clear, tight in plays:
        one, other = micrometres(abs(play))[::turn]
        yield (f"{letter}: {clear if play >= 0 else tight}", one, other)
