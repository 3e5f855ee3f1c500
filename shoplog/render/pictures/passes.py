"""Passes as a picture: the stock in layers, to scale, with the size that each pass leaves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    HIDDEN,
    OUTLINE,
    RISING,
    THIN,
    TINT,
    Both,
    Canvas,
    Tells,
    Text,
    millimetres,
    picture,
    size,
    spread,
)
from shoplog.trade.machining.cutting import SMALLEST
from shoplog.trade.machining.pass_plan import PassPlan
from shoplog.trade.screw_threads.screw_cutting import ThreadInfeed

__all__ = ["draw_infeed", "draw_passes"]

LEFT, RIGHT, TOP, TALL, SOLID = 84.0, 226.0, 30.0, 200.0, 30.0
LABELS = RIGHT + 12
MOST_LINES = 40
"""Passes that have a line of their own."""
LINE = 14.0
MOST_LABELS = int(TALL / LINE) + 1


@dataclass(frozen=True, slots=True)
class _Layer:
    """What one pass takes: from one depth below the stock's surface to another, in mm."""

    number: int
    start: float
    end: float
    finishing: bool
    leaves: Text
    """The size that is left, as it is written beside its line."""


@pictured(PassPlan, "a plan of passes", "the stock in layers, to scale across the passes")
def draw_passes(plan: PassPlan, anchor: str) -> Html | None:
    """Stock to size: a layer for each pass, its depth, and the diameter or depth reached.

    Nothing where the passes come to nothing that could be seen.
    """
    if plan.total < SMALLEST:
        return None
    ends = [*plan.infeeds]
    starts = [0.0, *ends[:-1]]
    round_work = bool(plan.diameters)
    sizes = [_bare(each, "Ø") for each in plan.diameters] or [_bare(end) for end in ends]
    roughing = plan.count - plan.finish_passes
    layers = [
        _Layer(number, start, end, number > roughing, left)
        for number, (start, end, left) in enumerate(zip(starts, ends, sizes, strict=True), 1)
    ]
    canvas = Canvas(anchor)
    before = _bare(plan.diameters[0] + 2 * plan.depths[0], "Ø") if round_work else "0"
    _stock(canvas, layers, before)
    canvas.write(_head("depth"), 2, 12)
    canvas.write(_head("leaves" if round_work else "reaches"), LABELS, 12)
    if round_work:
        canvas.note("only the stock is drawn, not the work down to its axis")
    title = f"{plan.count} passes" if plan.count > 1 else "1 pass"
    return picture(canvas, title, f"{plan.describe()}.", [*_rows(plan)])


@pictured(ThreadInfeed, "a thread's infeed", "the depth of thread in layers, to scale")
def draw_infeed(infeed: ThreadInfeed, anchor: str) -> Html:
    """The passes of a thread: each layer of its radial depth, and the dial of the compound."""
    ends = [*infeed.total]
    starts = [0.0, *ends[:-1]]
    layers = [
        _Layer(number, start, end, False, _bare(dial))
        for number, (start, end, dial) in enumerate(
            zip(starts, ends, infeed.compound_total, strict=True), 1
        )
    ]
    canvas = Canvas(anchor)
    _stock(canvas, layers, "0")
    canvas.write(_head("radial depth"), 2, 12)
    canvas.write(_head("compound" if infeed.compound_angle else "slide"), LABELS, 12)
    rows = [
        ("passes", str(infeed.passes)),
        ("depth of thread", *millimetres(infeed.radial_depth)),
        ("travel of the compound", *millimetres(infeed.compound_depth)),
        ("first pass", *millimetres(infeed.each[0])),
        ("last pass", *millimetres(infeed.each[-1])),
    ]
    title = f"Infeed of {infeed.thread.designation}"
    return picture(canvas, title, f"{infeed.describe()}", rows)


def _head(words: str) -> Both:
    """What a column is of, with its unit."""
    return Both(f"{words}, mm", f"{words}, in")


def _bare(length: float, before: str = "") -> Both:
    """A length in a column: its unit stands above."""
    both = size(length, f"{before}{{}}")
    return Both(both.own, both.other.removesuffix(" in"))


def _stock(canvas: Canvas, layers: Sequence[_Layer], before: Text) -> None:
    """The layers from the stock's surface down to the work, with what each pass leaves."""
    scale = TALL / layers[-1].end
    low = TOP + TALL
    canvas.area(RISING, (LEFT, low), (RIGHT, low), (RIGHT, low + SOLID), (LEFT, low + SOLID))
    canvas.reach(low + SOLID)
    _bands(canvas, layers, scale)
    canvas.note("hatched is what stays")
    canvas.line(OUTLINE, (LEFT, TOP), (RIGHT, TOP), tells=Tells("stock", 0.0, "mm"))
    shown = _spaced(layers)
    for layer in shown:
        last = layer is layers[-1]
        y = TOP + layer.end * scale
        kind = OUTLINE if last else CENTRE if layer.finishing else HIDDEN
        tells = Tells(f"pass_{layer.number}", layer.end, "mm")
        canvas.line(kind, (LEFT, y), (RIGHT, y), tells=tells)
    if len(shown) < len(layers):
        canvas.note(f"of {len(layers)} passes {len(shown)} are drawn as lines, the last among them")
    _sizes(canvas, layers, scale, before)
    _depths(canvas, layers, scale)


def _bands(canvas: Canvas, layers: Sequence[_Layer], scale: float) -> None:
    """Roughing plain, what the finishing passes take tinted and named."""
    finishing = [layer for layer in layers if layer.finishing]
    if finishing:
        top, low = (TOP + edge * scale for edge in (finishing[0].start, finishing[-1].end))
        canvas.area(TINT, (LEFT, top), (RIGHT, top), (RIGHT, low), (LEFT, low))
        canvas.note("what the finishing passes take is tinted")


def _spaced(layers: Sequence[_Layer]) -> list[_Layer]:
    """As many as have lines that can be told apart."""
    every = -(-len(layers) // MOST_LINES)
    return [layer for layer in layers if layer.number % every == 0 or layer is layers[-1]]


def _sizes(canvas: Canvas, layers: Sequence[_Layer], scale: float, before: Text) -> None:
    """What is left after each pass, at the right, clear of the others."""
    told = [(TOP, before), *((TOP + each.end * scale, each.leaves) for each in _labelled(layers))]
    places = spread([y for y, _ in told], LINE, low=TOP - 6)
    for place, (y, text) in zip(places, told, strict=True):
        canvas.line(THIN, (RIGHT, y), (LABELS - 2, place))
        canvas.write(text, LABELS, place + 4)


def _depths(canvas: Canvas, layers: Sequence[_Layer], scale: float) -> None:
    """The number and the depth of each pass, at the left."""
    told = _labelled(layers)
    middles = [TOP + (each.start + each.end) / 2 * scale for each in told]
    for place, y, each in zip(spread(middles, LINE, low=TOP), middles, told, strict=True):
        canvas.line(THIN, (LEFT - 10, place), (LEFT, y))
        text = _bare(each.end - each.start, f"{each.number}: ")
        canvas.write(text, LEFT - 12, place + 4, "end")
    if len(told) < len(layers):
        canvas.note(f"{len(told)} of the passes are named")


def _labelled(layers: Sequence[_Layer]) -> list[_Layer]:
    """Those that there is room to name: the first, the last, and as many between as fit."""
    every = -(-len(layers) // (MOST_LABELS - 1))
    return [each for each in layers if (each.number - 1) % every == 0 or each is layers[-1]]


def _rows(plan: PassPlan) -> Iterator[tuple[str, ...]]:
    on_radius = ", on the radius" if plan.diameters else ""
    roughing = plan.count - plan.finish_passes
    if plan.finish_passes:
        yield "roughing", f"{roughing} {'pass' if roughing == 1 else 'passes'}"
    if roughing:
        yield (f"deepest roughing pass{on_radius}", *millimetres(plan.roughing_depth))
    if plan.finish_passes:
        yield (f"{plan.finish_passes} to finish{on_radius}", *millimetres(plan.finishing_allowance))
    yield (f"in all{on_radius}", *millimetres(plan.total))
    if plan.diameters:
        yield ("off the diameter", *millimetres(plan.off_diameter))
        yield ("diameter at the end", *millimetres(plan.diameters[-1]))
