"""Words in a picture: how much room they take, numbers as a drawing writes them, and a key below.

A drawing's dimensions are written without the zeros that a table has; the key tells every size in
both systems.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import floor, log10

from shoplog.render.html import Html, join, tag
from shoplog.render.systems import INCH, METRIC
from shoplog.units import PLACES, convert, is_half, unit, write_number, write_quantity

__all__ = [
    "TEXT_SIZE",
    "Both",
    "Box",
    "Text",
    "from_to",
    "height",
    "key",
    "limit_sizes",
    "limits",
    "metres",
    "micrometres",
    "millimetres",
    "own_first",
    "plain",
    "size",
    "spread",
    "text_box",
    "text_width",
]

TEXT_SIZE = 12.0
"""At 320 units across, this is read at the width of a telephone."""
MOST_PLACES = 9
SMALL, LONGEST_SMALL = 1e-3, 9
"""A small number that would be longer than this is written with its power of ten."""
FAR_OFF = 0.05
"""Of a number: what four places of an inch may not be off by. 0.002 mm is not 0.0001 in."""
INCHES = ("in", "thou")
HUGE = 1e7
"""From here on no limits are told apart by more places."""
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
_NARROW = frozenset("iljtfrI.,:;'|!()[]/ ·°")
_WIDE = frozenset("mwMW@%…—µØ")


@dataclass(frozen=True, slots=True)
class Both:
    """Words in the system of what is drawn and in the other one, of which a page shows one.

    Shown is the first of them, unless the page's switch asks for the other.
    """

    own: str
    other: str
    in_inches: bool = False
    """Whether the first of them is the one in inches."""
    together: bool = False
    """Whether both are shown, the other in brackets, until the switch asks for one."""

    @property
    def longest(self) -> tuple[str, ...]:
        """All that a reader may see of them at a time."""
        return (self.own, self.other) if not self.together else (f"{self.own} ({self.other})",)


Text = str | Both
"""What is written in a picture."""


def text_width(text: Text, *, strong: bool = False) -> float:
    """About how wide words are: a little more than the fonts that a page may be in."""
    if isinstance(text, Both):
        return max(text_width(each, strong=strong) for each in text.longest)
    narrow = sum(character in _NARROW for character in text)
    wide = sum(character in _WIDE for character in text)
    share = 0.36 * narrow + 0.86 * wide + 0.58 * (len(text) - narrow - wide)
    return TEXT_SIZE * share * (1.07 if strong else 1.0)


@dataclass(frozen=True, slots=True)
class Box:
    """The room that words take."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Whether two of them overlap."""
        beside = self.right <= other.left or other.right <= self.left
        return not (beside or self.bottom <= other.top or other.bottom <= self.top)

    def moved(self, right: float, down: float) -> Box:
        """The same, elsewhere."""
        return Box(self.left + right, self.top + down, self.right + right, self.bottom + down)


def text_box(
    text: Text, x: float, y: float, anchor: str = "start", *,
    strong: bool = False, turned: bool = False,
) -> Box:  # fmt: skip
    """Where words stand that begin, are centred or end at a place on their line."""
    width = text_width(text, strong=strong)
    before = {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    above, below = 0.78 * TEXT_SIZE, 0.22 * TEXT_SIZE
    if turned:  # read from the right: the line runs upwards
        return Box(x - above, y + before - width, x + below, y + before)
    return Box(x - before, y - above, x - before + width, y + below)


def spread(
    wanted: Sequence[float], least: float = TEXT_SIZE + 1, low: float = 0.0, high: float = 1e9
) -> list[float]:
    """Places as near as can be to those wanted, in their order, and at least so far apart.

    Where they do not all fit between low and high, they start at low and go on.

    >>> spread([10, 11, 40], 5)
    [8.0, 13.0, 40.0]
    """
    order = sorted(range(len(wanted)), key=lambda index: wanted[index])
    # Groups of neighbours that touch are moved as one, about the middle of what they want.
    groups: list[list[int]] = []
    for index in order:
        groups.append([index])
        while len(groups) > 1:
            before, last = groups[-2], groups[-1]
            end = _first(wanted, before, least, low, high) + least * (len(before) - 1)
            if _first(wanted, last, least, low, high) - end >= least - 1e-9:
                break
            groups[-2:] = [before + last]
    found = [0.0] * len(wanted)
    for group in groups:
        first = _first(wanted, group, least, low, high)
        for number, index in enumerate(group):
            found[index] = first + number * least
    return found


def _first(
    wanted: Sequence[float], group: list[int], least: float, low: float, high: float
) -> float:
    middle = sum(wanted[index] for index in group) / len(group)
    half = least * (len(group) - 1) / 2
    return float(max(low, min(middle - half, high - 2 * half)))


# ---- numbers ----


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
