"""The canvas of a picture: it gathers lines, areas and words, and gives one SVG with a title."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

import drawsvg as draw

from shoplog.render.html import Html, capital, join, tag
from shoplog.render.pictures.labels import TEXT_SIZE, Box, Text, text_box
from shoplog.render.pictures.layers import ALL, Layer, apart, words_of
from shoplog.render.pictures.strokes import (
    ARROW,
    KINDS,
    Fill,
    LineKind,
    Point,
    Tells,
    arc,
    circle,
    coordinate,
    lines,
    on_circle,
)

__all__ = ["WIDTH", "Canvas"]

WIDTH = 320.0
"""Units across a picture: about the pixels of a telephone's column, where 12 units are read."""
MARGIN = 4.0
_ANCHORS = ("start", "middle", "end")


@dataclass(frozen=True, slots=True)
class _Area:
    fill: Fill
    d: str
    tells: Tells | None


class Canvas:
    """Gathers what is drawn, and gives it out as one SVG, the back first and the words last.

    x runs from 0 to `width`, y downwards from 0; the height is what was drawn.
    """

    def __init__(self, anchor: str, width: float = WIDTH) -> None:
        self.width = width
        self.notes: list[str] = []
        """What a reader must know of how it is drawn: `the gap is drawn 50 times its size`."""
        self._anchor = anchor
        self._layer = ALL
        self._layers = {ALL: None}
        self._strokes: dict[tuple[Layer, str], list[str]] = defaultdict(list)
        self._told: dict[tuple[Layer, str], list[draw.DrawingElement]] = defaultdict(list)
        self._areas: list[_Area] = []
        self._fronts: list[_Area] = []
        self._words: dict[tuple[Layer, str], list[Html]] = defaultdict(list)
        self._boxes: list[tuple[Layer, Box]] = []
        self._patterns: dict[Fill, draw.Pattern] = {}
        self._bottom = 0.0

    @contextmanager
    def only(self, system: str, *, first: bool = True) -> Iterator[None]:
        """What is drawn and written meanwhile is for one system, `METRIC` or `INCH`; not areas.

        The page's switch hides them where it asks for the other. Those that are not `first` are
        not seen before it asks for theirs, so they may stand where the first ones of the other do.
        """
        with self._for(Layer(system, first)):
            yield

    def each(self, text: Text) -> Iterator[Text]:
        """Words in both systems, each by itself: what is drawn meanwhile is for its readers."""
        for layer, words in apart(text, self._layer):
            with self._for(layer):
                yield words

    @contextmanager
    def _for(self, layer: Layer) -> Iterator[None]:
        before, self._layer = self._layer, layer
        self._layers[layer] = None
        yield
        self._layer = before

    # ---- lines and areas ----

    def line(
        self, kind: LineKind, *points: Point, closed: bool = False, tells: Tells | None = None
    ) -> None:
        """A line through points."""
        self.path(kind, lines(points, closed=closed), points, tells)

    def path(
        self, kind: LineKind, d: str, points: Iterable[Point] = (), tells: Tells | None = None
    ) -> None:
        """A line by its path data; `points` are those that the picture must be high enough for."""
        self._reach(points)
        if tells is None:
            self._strokes[self._layer, kind.name].append(d)
        else:
            self._told[self._layer, kind.name].append(draw.Path(d=d, **tells.attributes()))

    def rectangle(
        self, kind: LineKind, x: float, y: float, width: float, height: float,
        tells: Tells | None = None,
    ) -> None:  # fmt: skip
        """A rectangle by its upper left corner."""
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
        self.line(kind, *corners, closed=True, tells=tells)

    def circle(
        self, kind: LineKind, centre: Point, radius: float, tells: Tells | None = None
    ) -> None:
        """A circle."""
        if tells is None:
            self.path(kind, circle(centre, radius), _round(centre, radius))
            return
        self._reach(_round(centre, radius))
        place = dict(zip(("cx", "cy", "r"), map(coordinate, (*centre, radius)), strict=True))
        self._told[self._layer, kind.name].append(draw.Circle(**place, **tells.attributes()))

    def arc(
        self, kind: LineKind, centre: Point, radius: float, start: float, end: float,
        tells: Tells | None = None,
    ) -> None:  # fmt: skip
        """An arc, from one angle to another in degrees, counter-clockwise from the right."""
        ends = [on_circle(centre, radius, angle) for angle in (start, end)]
        self.path(kind, arc(centre, radius, start, end), ends, tells)

    def area(
        self, fill: Fill, *points: Point, tells: Tells | None = None, front: bool = False
    ) -> None:
        """A filled polygon behind the lines, or before them."""
        self.region(fill, lines(points, closed=True), points, tells, front)

    def region(
        self, fill: Fill, d: str, points: Iterable[Point] = (), tells: Tells | None = None,
        front: bool = False,
    ) -> None:  # fmt: skip
        """A filled area by its path data; where two outlines overlap, there is a hole."""
        self._reach(points)
        areas = self._fronts if front else self._areas
        if tells is None and areas and areas[-1].fill is fill is ARROW and areas[-1].tells is None:
            areas[-1] = _Area(fill, areas[-1].d + d, None)  # one path for the heads of all arrows
        else:
            areas.append(_Area(fill, d, tells))

    # ---- words ----

    def write(
        self, text: Text, x: float, y: float, anchor: str = "start", *,
        strong: bool = False, turned: bool = False, tells: Tells | None = None,
    ) -> Box:  # fmt: skip
        """Words that begin, are centred or end at a place; y is that of the line they stand on.

        `turned` words are read from the right, about the same place. They are moved into the
        picture where they would leave its sides or its top.
        """
        box = text_box(text, x, y, anchor, strong=strong, turned=turned)
        into = max(0.0, 2 - box.left) or min(0.0, self.width - 2 - box.right)
        down = max(0.0, 1 - box.top)
        x, y, box = x + into, y + down, box.moved(into, down)
        place = {"x": coordinate(x), "y": coordinate(y)}
        if strong:
            place["class_"] = "shoplog-letter"
        if turned:
            place["transform"] = f"rotate(-90 {coordinate(x)} {coordinate(y)})"
        for number, (layer, shown) in enumerate(apart(text, self._layer)):
            self._layers[layer] = None
            extra = {} if tells is None or number else tells.attributes()
            self._words[layer, anchor].append(tag("text", words_of(shown), **place, **extra))
        self._boxes.append((self._layer, box))
        self._bottom = max(self._bottom, box.bottom)
        return box

    def is_free(self, box: Box) -> bool:
        """Whether no words are seen there, and it is within the picture's sides."""
        inside = box.left >= 0 and box.right <= self.width and box.top >= 0
        return inside and not any(
            box.meets(other) for layer, other in self._boxes if layer.shows_with(self._layer)
        )

    @property
    def bottom(self) -> float:
        """The lowest place of what was drawn."""
        return self._bottom

    def reach(self, y: float) -> None:
        """Make the picture at least so high."""
        self._bottom = max(self._bottom, y)

    def note(self, text: str) -> None:
        """Say how it is drawn, once: below the picture and in its description."""
        if text not in self.notes:
            self.notes.append(text)

    # ---- the SVG ----

    def html(self, title: str, description: str) -> Html:
        """The picture as an element of the page, named and described for who cannot see it."""
        names = f"{self._anchor}-title", f"{self._anchor}-text"
        said = " ".join([description, *(f"{capital(note)}." for note in self.notes)])
        picture = draw.Drawing(
            _size(self.width), _size(self._bottom + MARGIN), role="img",
            aria_labelledby=" ".join(names), class_="shoplog-picture",
            fill="none", stroke="currentColor",
        )  # fmt: skip
        for name, id_, text in zip(("title", "desc"), names, (title, said), strict=True):
            picture.append(draw.Raw(tag(name, text, id=id_)))
        for group in (*self._filled(self._areas), *self._lines(), *self._filled(self._fronts)):
            picture.append(group)
        settings = {"class_": "shoplog-words", "fill": "currentColor", "stroke": "none"}
        words = tag("g", *self._written(), font_size=f"{TEXT_SIZE:g}", **settings)
        picture.append(draw.Raw(words))
        notes = [tag("p", f"{capital(note)}.", class_="shoplog-drawn") for note in self.notes]
        return tag("div", Html(_short(picture.as_svg(header=""))), *notes, class_="shoplog-drawing")

    def _reach(self, points: Iterable[Point]) -> None:
        for point in points:
            self._bottom = max(self._bottom, point[1])

    def _lines(self) -> Iterable[draw.Group]:
        for kind in KINDS:
            drawn = [part for layer in self._layers for part in self._drawn(layer, kind)]
            if drawn:
                dashes = {"stroke_dasharray": kind.dashes} if kind.dashes else {}
                yield draw.Group(
                    drawn, class_=f"shoplog-{kind.name}", stroke_width=kind.width, **dashes
                )

    def _drawn(self, layer: Layer, kind: LineKind) -> Iterable[draw.DrawingElement]:
        """The lines of a kind that are for every reader, or the group of those for some."""
        strokes, told = self._strokes[layer, kind.name], self._told[layer, kind.name]
        parts = [draw.Path(d="".join(strokes)), *told] if strokes else told
        if parts and layer is not ALL:
            return [draw.Group(parts, **layer.attributes())]
        return parts

    def _written(self) -> Iterator[Html]:
        """The words for every reader, then a group of those for some, by where they are held."""
        for layer in self._layers:
            held = [(anchor, join(self._words[layer, anchor])) for anchor in _ANCHORS]
            groups = [_grouped(words, text_anchor=anchor) for anchor, words in held[1:] if words]
            words = join([held[0][1], *groups])
            if words:
                yield _grouped(words, **layer.attributes())

    def _filled(self, areas: Sequence[_Area]) -> Iterable[draw.Group]:
        group = draw.Group(stroke="none")
        for area in areas:
            more: dict[str, object] = {} if area.tells is None else {**area.tells.attributes()}
            if area.fill is ARROW:
                more["fill"] = "currentColor"
            elif area.fill.slant is not None:
                more["fill"] = self._pattern(area.fill, area.fill.slant)
            if area.d.count("M") > 1 and area.fill is not ARROW:  # one outline within another
                more["fill_rule"] = "evenodd"
            group.append(draw.Path(d=area.d, class_=f"shoplog-{area.fill.name}", **more))
        if areas:
            yield group

    def _pattern(self, fill: Fill, slant: float) -> draw.Pattern:
        if fill not in self._patterns:
            step = _size(fill.step)
            self._patterns[fill] = draw.Pattern(
                *(step, step),
                id=f"{self._anchor}-{fill.name}",
                patternTransform=f"rotate({90 - slant:g})",
            )
            d = f"M{coordinate(fill.step / 2)},0V{coordinate(fill.step)}"
            line = draw.Path(d=d, class_="shoplog-hatch")
            self._patterns[fill].append(line)
        return self._patterns[fill]


def _grouped(words: Html, **attributes: str) -> Html:
    return tag("g", words, **attributes) if attributes else words


def _round(centre: Point, radius: float) -> tuple[Point, Point]:
    return (centre[0] - radius, centre[1] - radius), (centre[0] + radius, centre[1] + radius)


def _size(number: float) -> float | int:
    return int(number) if number == int(number) else round(number, 1)


def _short(svg: str) -> str:
    """The text without what HTML does not ask for."""
    for needless in (' xmlns:xlink="http://www.w3.org/1999/xlink"', "<defs>\n</defs>\n"):
        svg = svg.replace(needless, "")
    svg = svg.replace("\n     width", " width").replace(" />", "/>")
    return svg.replace(">\n", ">")
