"""Numbers as a drawing writes them, and sizes in both systems.

A drawing's dimensions are written without the zeros that a table has.
"""

from __future__ import annotations

from math import floor, log10

from shoplog.render.pictures.labels import Both
from shoplog.units import PLACES, convert, is_half, unit, write_number, write_quantity

__all__ = [
    "from_to",
    "height",
    "limit_sizes",
    "limits",
    "metres",
    "micrometres",
    "millimetres",
    "own_first",
    "plain",
    "size",
]

MOST_PLACES = 9
SMALL, LONGEST_SMALL = 1e-3, 9
"""A small number that would be longer than this is written with its power of ten."""
FAR_OFF = 0.05
"""Of a number: what four places of an inch may not be off by. 0.002 mm is not 0.0001 in."""
INCHES = ("in", "thou")
HUGE = 1e7
"""From here on no limits are told apart by more places."""


def plain(number: float, of: str = "mm", sign: bool = False) -> str:
    """A number as a drawing writes it, without needless zeros: 16, 14.701, −0.02.

    >>> plain(16.0), plain(14.7010), plain(-16, "µm", sign=True), plain(0.0, sign=True)
    ('16', '14.701', '−16', '0')
    >>> plain(0.4, "in"), plain(0.00008, "in")
    ('0.4', '0.00008')
    """
    return _as_drawn(
        _inch_text(number, of) if of in INCHES else write_number(number, of), number, sign
    )


def _as_drawn(text: str, number: float, sign: bool) -> str:
    if "." in text and "e" not in text:
        text = text.rstrip("0").rstrip(".")
    if text in ("0", "-0"):
        return "0"
    if abs(number) < SMALL and len(text) > LONGEST_SMALL:
        text = f"{number:.3g}"
    return f"{'+' if sign and number > 0 else ''}{text}".replace("-", "−")


def size(
    length: float, around: str = "{}", *, inches: bool = False, sign: bool = False,
    fine: bool = False,
) -> Both:  # fmt: skip
    """A length in mm as a drawing writes it, in both systems, with words around it.

    A number without a unit is in millimetres, as drawings have it; inches are named. `inches` has
    them first; `fine` has one place more, as gauge blocks are counted.

    >>> size(16, "Ø{}")
    Both(own='Ø16', other='Ø0.6299 in', in_inches=False, together=False)
    >>> size(0.002).other, size(1.0005, fine=True)
    ('0.000079 in', Both(own='1.0005', other='0.03939 in', in_inches=False, together=False))
    """
    number = convert(length, unit("mm"), unit("in"))
    metric = _as_drawn(_finer(length, "mm") if fine else write_number(length, "mm"), length, sign)
    inch = _as_drawn(_finer(number, "in") if fine else _inch_text(number), number, sign)
    texts = around.format(metric), around.format(f"{inch} in")
    return Both(*(texts[::-1] if inches else texts), inches)


def height(
    length: float, around: str = "{}", *, inches: bool = False, sign: bool = False,
    digits: int = 0,
) -> Both:  # fmt: skip
    """A small length in µm as a chart writes it, in both systems, each named.

    `inches` has thou first; the µm have so many `digits` at the most, where that is given.

    >>> height(18, sign=True), height(5.4126, "A {}", digits=3).own
    (Both(own='+18 µm', other='+0.7 thou', in_inches=False, together=False), 'A 5.41 µm')
    """
    thou = convert(length, unit("um"), unit("thou"))
    metric = plain(length, "µm", sign)
    if digits:
        metric = plain(float(f"{length:.{digits}g}"), "um", sign)
    inch = _as_drawn(_inch_text(thou, "thou"), thou, sign)
    texts = around.format(f"{metric} µm"), around.format(f"{inch} thou")
    return Both(*(texts[::-1] if inches else texts), inches)


def _inch_text(number: float, of: str = "in") -> str:
    """To the tenth of a thou, or to two digits where that would be far from the number."""
    text = write_number(number, of)
    if abs(float(text) - number) <= FAR_OFF * abs(number):
        return text
    return f"{number:.{1 - floor(log10(abs(number)))}f}"


def _finer(number: float, of: str) -> str:
    text = f"{number:.{PLACES[of] + 1}f}"
    return text if float(text) and abs(number) < HUGE else write_number(number, of)


def millimetres(length: float, *, inches: bool = False) -> tuple[str, str]:
    """A length in mm, in both systems; `inches` has them first.

    >>> millimetres(6.35), millimetres(0.002, inches=True)
    (('6.350 mm', '0.2500 in'), ('0.000079 in', '0.002 mm'))
    """
    inch = f"{_inch_text(convert(length, unit('mm'), unit('in')))} in"
    return own_first(write_quantity(length, unit("mm")), inch, inches)


def own_first(metric: str, inch: str, inches: bool) -> tuple[str, str]:
    """Words in both systems, those of what is drawn first."""
    return (inch, metric) if inches else (metric, inch)


def micrometres(length: float) -> tuple[str, str]:
    """A length in micrometres, in both systems.

    >>> micrometres(16), micrometres(1.56)
    (('16 µm', '0.6 thou'), ('1.56 µm', '0.061 thou'))
    """
    thou = _inch_text(convert(length, unit("um"), unit("thou")), "thou")
    return write_quantity(length, unit("um")), f"{thou} thou"


def metres(length: float) -> tuple[str, str]:
    """A length in metres, in both systems."""
    return _both(length, "m", "ft")


def limits(least: float, most: float, *, inches: bool = False) -> tuple[str, str]:
    """Two limits in mm, in both systems; one where they are the same. `inches` has them first.

    >>> limits(16, 16.018), limits(10, 10.0005)[0]
    (('16.000 to 16.018 mm', '0.6299 to 0.6306 in'), '10.0000 to 10.0005 mm')
    """
    mm, inch = unit("mm"), unit("in")
    if least == most:
        return millimetres(least, inches=inches)
    edges = [convert(edge, mm, inch) for edge in (least, most)]
    metric, imperial = from_to(least, most), from_to(edges[0], edges[1], "in")
    return own_first(f"{' to '.join(metric)} mm", f"{' to '.join(imperial)} in", inches)


def limit_sizes(
    least: float, most: float, around: str = "{}", *, inches: bool = False
) -> tuple[Both, Both]:
    """Two limits in mm as a drawing writes them, told apart as `limits` has them.

    >>> [one.other for one in limit_sizes(5.5245, 5.649, "D2 {}", inches=True)]
    ['D2 5.5245', 'D2 5.649']
    """
    ends = [convert(edge, unit("mm"), unit("in")) for edge in (least, most)]
    texts = zip(_edges(least, most, "mm"), _edges(ends[0], ends[1], "in"), strict=True)
    lower, upper = (
        Both(*own_first(around.format(metric), around.format(f"{inch} in"), inches), inches)
        for metric, inch in texts
    )
    return lower, upper


def _edges(least: float, most: float, of: str) -> list[str]:
    texts = from_to(least, most, of)
    return [_as_drawn(text, edge, False) for text, edge in zip(texts, (least, most), strict=True)]


def from_to(least: float, most: float, of: str = "mm") -> tuple[str, str]:
    """Two limits, with as many places more as it takes to tell them apart.

    One that ends on half a micrometre is not rounded outward.
    """
    texts = write_number(least, of), write_number(most, of)
    if max(abs(least), abs(most)) >= HUGE:
        return texts
    places = len(texts[0].partition(".")[2])
    half = of == "mm" and (is_half(least * 1000) or is_half(most * 1000))
    while (half or (texts[0] == texts[1] and least != most)) and places < MOST_PLACES:
        places, half = places + 1, False
        texts = f"{least:.{places}f}", f"{most:.{places}f}"
    return texts


def _both(amount: float, one: str, other: str) -> tuple[str, str]:
    here, there = unit(one), unit(other)
    return write_quantity(amount, here), write_quantity(convert(amount, here, there), there)
