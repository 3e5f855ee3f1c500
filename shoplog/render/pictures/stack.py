"""A size with limits as a picture: its zone, or what contributes to it, the most first.

Every bar stands on one scale about the nominal: the contributors' bars together are as long as the
bar of the worst case.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from shoplog.calc.show import from_size, nominal_text, other_system, show
from shoplog.render.html import Html
from shoplog.render.pictures.declare import pictured
from shoplog.render.pictures.parts import (
    CENTRE,
    FALLING,
    LEAST_EXTENT,
    OUTLINE,
    RISING,
    THIN,
    TINT,
    WIDTH,
    Both,
    Canvas,
    Fill,
    Tells,
    Text,
    across,
    from_to,
    lines,
    picture,
    plain,
    text_width,
)
from shoplog.trade.declare import Size
from shoplog.units import Unit, convert, write_quantity
from shoplog.values import Value, difference_of

__all__ = ["draw_limits", "draw_size"]

LEFT, RIGHT = 14.0, WIDTH - 14.0
BAR = 9.0
ROW = 30.0
_AFTER = {"": "", "deg": "°"}
MOST_BARS = 12
"""Contributors that are drawn one by one; the rest are one bar."""


@dataclass(frozen=True, slots=True)
class _Part:
    """What a contributor makes of the value, from its nominal, in the value's unit."""

    name: str
    lower: float
    upper: float

    @property
    def spread(self) -> float:
        return self.upper - self.lower


@dataclass(frozen=True, slots=True)
class _Scale:
    """Turns a deviation from the nominal into a place across the picture."""

    least: float
    per_unit: float

    def x(self, deviation: float) -> float:
        return LEFT + (deviation - self.least) * self.per_unit


def _scale(edges: Sequence[float]) -> _Scale:
    least, most = min(*edges, 0.0), max(*edges, 0.0)
    room = RIGHT - LEFT
    if most - least > LEAST_EXTENT:
        return _Scale(least, room / (most - least))
    return _Scale(-room / 2, 1.0)  # nothing to tell apart: the line is in the middle


@pictured(Value, "a size with limits", "its limits, and what contributes to them, on one scale")
def draw_limits(value: Value, anchor: str) -> Html | None:
    """A value's zone, or the stack-up that it is; nothing where it has no limits."""
    if not value.has_limits:
        return None
    parts = sorted(_parts(value), key=lambda part: -part.spread)
    return _stack(value, parts, anchor) if len(parts) > 1 else _zone(value, anchor)


@pictured(Size, "a size", "its limits about the nominal, to scale")
def draw_size(size: Size, anchor: str) -> Html:
    """The zone of a size that a formula gave."""
    return _zone(from_size(size, ""), anchor)


def _parts(value: Value) -> Iterator[_Part]:
    for source, share in value.parts:
        ends = sorted(share * end / value.unit.factor for end in (source.lower, source.upper))
        if ends != [0.0, 0.0]:
            yield _Part(source.name, *ends)


# ---- one contributor -------------------------------------------------------------------------


def _zone(value: Value, anchor: str) -> Html:
    """The zone of a size between its limits, beside its nominal."""
    canvas = Canvas(anchor)
    scale = _scale((value.lower, value.upper))
    top, bottom = 26.0, 50.0
    low, high = scale.x(value.lower), scale.x(value.upper)
    corners = (low, top), (high, top), (high, bottom), (low, bottom)
    canvas.area(RISING, *corners)
    unit = value.unit.text
    spread = value.upper - value.lower
    canvas.line(OUTLINE, *corners, closed=True, tells=Tells("tolerance", spread, unit))
    nominal = scale.x(0.0)
    line = Tells("nominal", value.nominal, unit)
    canvas.line(CENTRE, (nominal, top - 8), (nominal, bottom + 8), tells=line)
    stated = _in_both(value.unit, lambda of: _stated(value.to(of)))
    canvas.write(stated, nominal, 12, "middle", strong=True)
    between = _length(spread, difference_of(value.unit))
    across(canvas, (low, bottom), (high, bottom), bottom + 26, between)
    _ends(canvas, value, low, high, bottom + 42)
    rows = [*_rows(value)]
    title = f"Limits of {_stated(value)}"
    return picture(canvas, title, _sentence(rows), rows)


def _stated(value: Value) -> str:
    """As a drawing states it, unless no drawing would state such deviations."""
    stated = nominal_text(value)
    fits = stated and text_width(stated, strong=True) <= WIDTH - 8
    return stated if fits else write_quantity(value.nominal, value.unit)


def _ends(canvas: Canvas, value: Value, low: float, high: float, y: float) -> None:
    """The least size below the zone's left edge, the greatest below its right one."""
    unit = value.unit.text
    least, most = (_in_both(value.unit, partial(_end, value, end)) for end in (0, 1))
    if low == high:
        canvas.write(least, low, y, "middle", tells=Tells("min", value.min, unit))
        return
    canvas.write(least, low, y, "start", tells=Tells("min", value.min, unit))
    room = high - low >= text_width(least) + text_width(most) + 10
    canvas.write(most, high, y if room else y + 15, "end", tells=Tells("max", value.max, unit))


# ---- several contributors --------------------------------------------------------------------


def _stack(value: Value, parts: list[_Part], anchor: str) -> Html:
    """The bars of a stack-up: worst case, the estimate, and each contributor, the most first."""
    canvas = Canvas(anchor)
    likely = value.rss()
    centre = likely.nominal - value.nominal
    worst = _Part("worst case", value.lower, value.upper)
    rss = _Part("root-sum-square", centre + likely.lower, centre + likely.upper)
    shown = _shown(parts)
    scale = _scale([edge for part in (worst, rss, *shown) for edge in (part.lower, part.upper)])
    unit = value.unit.text
    _bar(canvas, worst, 0, scale, RISING, _range(value), Tells("worst_case", worst.spread, unit))
    _bar(canvas, rss, 1, scale, FALLING, _range(likely), Tells("rss", rss.spread, unit))
    for row, part in enumerate(shown, start=2):
        share = f"{_percent(part, worst)} %"
        _bar(canvas, part, row, scale, TINT, share, Tells("contributor", part.spread, unit))
    _nominal(canvas, value, scale.x(0.0), len(shown) + 2)
    totals, each = [*_rows(value, likely)], [*_part_rows(parts, worst, value.unit)]
    title = f"Stack-up of {len(parts)} contributors"
    said = _sentence([*totals, *((name, f"{own}, {share}") for name, share, own, *_ in each)])
    rows = [*totals, *((f"{name}, {share}", *sizes) for name, share, *sizes in each)]
    if len(parts) > MOST_BARS:
        rows.append((f"and {len(parts) - MOST_BARS} more", "less than these"))
    return picture(canvas, title, said, rows)


def _nominal(canvas: Canvas, value: Value, x: float, rows: int) -> None:
    """The nominal through every bar, but not through the names between them."""
    ends = [(x, edge) for row in range(rows) for edge in (_top(row) - 3, _top(row) + BAR + 3)]
    d = "".join(lines(ends[row : row + 2]) for row in range(0, len(ends), 2))
    unit = value.unit.text
    canvas.path(THIN, d, ends, Tells("nominal", value.nominal, unit))
    text = _length(value.nominal, value.unit, "nominal {}")
    canvas.write(text, x, ends[-1][1] + 11, "middle")


def _shown(parts: list[_Part]) -> list[_Part]:
    """Those that are drawn: the last bar stands for all that have no room."""
    if len(parts) <= MOST_BARS:
        return parts
    rest = parts[MOST_BARS - 1 :]
    ends = sum(part.lower for part in rest), sum(part.upper for part in rest)
    return [*parts[: MOST_BARS - 1], _Part(f"{len(rest)} more", *ends)]


def _top(row: int) -> float:
    return 18.0 + row * ROW


def _bar(
    canvas: Canvas, part: _Part, row: int, scale: _Scale, fill: Fill, text: Text, tells: Tells
) -> None:
    """A bar over what a part spreads, below its name and its size."""
    top = _top(row)
    low, high = scale.x(part.lower), scale.x(part.upper)
    corners = (low, top), (high, top), (high, top + BAR), (low, top + BAR)
    canvas.area(fill, *corners)
    canvas.line(OUTLINE, *corners, closed=True, tells=tells)
    size = canvas.write(text, canvas.width - 4, top - 4, "end")
    room = size.left - 4 - 10
    canvas.write(_cut(part.name, room), 4, top - 4, strong=row < 2)


def _cut(text: str, room: float) -> str:
    """A name that is not longer than its room; the key has it whole."""
    if text_width(text, strong=True) <= room:
        return text
    while text and text_width(f"{text}…", strong=True) > room:
        text = text[:-1]
    return f"{text}…"


def _range(value: Value) -> Text:
    return _in_both(value.unit, lambda of: _named(" to ".join(_edges(value.to(of))), of))


def _end(value: Value, end: int, of: Unit) -> str:
    return _named(_edges(value.to(of))[end], of)


def _edges(value: Value) -> list[str]:
    texts = from_to(value.min, value.max, value.unit.text)
    return [text.replace("-", "−") for text in texts]


def _length(amount: float, of: Unit, around: str = "{}") -> Text:
    def text(want: Unit) -> str:
        return around.format(_named(plain(convert(amount, of, want), want.text), want))

    return _in_both(of, text)


def _in_both(of: Unit, text: Callable[[Unit], str]) -> Text:
    """Words in a unit, and in that of the other system where there is one."""
    metric, inch = other_system(of)
    if metric == inch:
        return text(of)
    return Both(text(of), text(metric if of == inch else inch), of == inch)


def _named(text: str, of: Unit) -> str:
    """A number without a unit is in millimetres, as drawings have it."""
    return text if of.text == "mm" else f"{text}{_AFTER.get(of.text, f' {of.text}')}"


def _percent(part: _Part, whole: _Part) -> str:
    percent = 100 * part.spread / whole.spread if whole.spread else 0.0
    return f"{percent:.0f}" if percent >= 1 else f"{percent:.1g}"


# ---- the key ---------------------------------------------------------------------------------


def _rows(value: Value, likely: Value | None = None) -> Iterator[tuple[str, ...]]:
    shown = show(value)
    name = "worst case" if likely else "limits"
    yield name, shown.own, shown.other
    if likely is not None:
        guess = show(likely)
        yield "root-sum-square, an estimate", guess.own, guess.other
    else:
        yield ("tolerance", *_both(value.upper - value.lower, difference_of(value.unit)))
    yield ("nominal", *_both(value.nominal, value.unit))


def _part_rows(parts: list[_Part], whole: _Part, unit: Unit) -> Iterator[tuple[str, ...]]:
    for part in parts[:MOST_BARS]:
        sizes = _both(part.spread, difference_of(unit))
        yield (part.name, f"{_percent(part, whole)} %", *sizes)


def _both(amount: float, of: Unit) -> tuple[str, ...]:
    """An amount in its own unit, then in the other system."""
    metric, inch = other_system(of)
    units = (of, inch if of == metric else metric)
    return tuple(write_quantity(convert(amount, of, want), want) for want in units)


def _sentence(rows: Sequence[tuple[str, ...]]) -> str:
    return f"{'; '.join(f'{row[0]} {row[1]}' for row in rows)}."
