"""Reads a picture as a program would: the numbers that it tells, and where it draws them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import dist, isfinite
from xml.etree import ElementTree

from shoplog.render.pictures.drawing import drawing
from shoplog.render.pictures.labels import Box, text_box

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
SYSTEMS = ("shoplog-mm", "shoplog-inch")
MOST_BYTES = 7 * 1024
"""What an ordinary picture may weigh, its key with it, and its words in both systems."""


@dataclass(frozen=True)
class Told:
    """Something drawn, and the number that it tells."""

    value: float
    unit: str
    element: ElementTree.Element

    @property
    def points(self) -> list[tuple[float, float]]:
        """The corners of its line or area; of a circle the centre."""
        if self.element.tag == f"{SVG}circle":
            return [(float(self.element.get("cx")), float(self.element.get("cy")))]
        if self.element.tag == f"{SVG}text":
            return [(float(self.element.get("x")), float(self.element.get("y")))]
        return points(self.element.get("d"))

    @property
    def length(self) -> float:
        """From the first of its points to the last."""
        first, *_, last = self.points
        return dist(first, last)

    @property
    def tall(self) -> float:
        ys = [y for _, y in self.points]
        return max(ys) - min(ys)

    @property
    def wide(self) -> float:
        xs = [x for x, _ in self.points]
        return max(xs) - min(xs)

    @property
    def top(self) -> float:
        return min(y for _, y in self.points)

    @property
    def bottom(self) -> float:
        return max(y for _, y in self.points)

    @property
    def left(self) -> float:
        return min(x for x, _ in self.points)

    @property
    def right(self) -> float:
        return max(x for x, _ in self.points)


class Drawn:
    """A picture that was drawn: its HTML and its SVG."""

    def __init__(self, value, text="it", anchor="drawing"):
        self.html = str(drawing(value, text, anchor))
        self.svg = ElementTree.fromstring(re.search(r"<svg.*</svg>", self.html, re.DOTALL)[0])

    def all(self, name) -> list[Told]:
        """Everything that tells a number of this name, as it was drawn."""
        return [
            Told(float(part.get("data-value")), part.get("data-unit", ""), part)
            for part in self.svg.iter()
            if part.get("data-shows") == name
        ]

    def told(self, name) -> Told:
        """The line or the area that tells a number of this name, not its words."""
        (found,) = [one for one in self.all(name) if one.element.tag != f"{SVG}text"]
        return found

    def tells(self, name) -> bool:
        return bool(self.all(name))

    @property
    def names(self) -> set[str]:
        return {part.get("data-shows") for part in self.svg.iter() if part.get("data-shows")}

    @property
    def words(self) -> list[str]:
        """What is written in the picture, of words in two systems those that are shown first."""
        return ["".join(part.itertext()) for part, (_, first), _ in self._texts() if first]

    @property
    def others(self) -> list[str]:
        """What is written instead where the page's switch asks for the other system."""
        return ["".join(part.itertext()) for part, (_, first), _ in self._texts() if not first]

    def words_in(self, units: str) -> list[str]:
        """What is written where the page's switch asks for `mm` or `inch`."""
        shown = ("", f"shoplog-{units}")
        return [
            "".join(
                piece
                for piece, part in zip(_pieces(text), (text, *text), strict=True)
                if part.tag == f"{SVG}text" or part.get("class") in shown
            )
            for text, (system, _), _ in self._texts()
            if system in shown
        ]

    def _texts(self) -> Iterator[tuple[ElementTree.Element, tuple[str, bool], str]]:
        """Each of its words; of which system it is, and whether it is shown from the beginning;
        the end that it is held at."""

        def within(part, layer, anchor):
            anchor = part.get("text-anchor", anchor)
            if part.tag == f"{SVG}g" and part.get("class") in SYSTEMS:
                layer = part.get("class"), part.get("display") != "none"
            if part.tag == f"{SVG}text":
                yield part, layer, anchor
            for inner in part:
                yield from within(inner, layer, anchor)

        return within(self.svg, ("", True), "start")

    @property
    def key(self) -> list[tuple[str, ...]]:
        """The rows of its key: a name, and a size in one or two systems."""
        rows = re.search(r'<table class="shoplog-table shoplog-key">(.*?)</table>', self.html)
        plain = re.sub(r"<span[^>]*>(.*?)</span>", r"\1", rows[1])
        found = re.findall(
            r"<th[^>]*>(.*?)</th><td[^>]*>(.*?)(?:<small[^>]*>(.*?)</small>)?</td>", plain
        )
        return [tuple(filter(None, row)) for row in found]

    def of_class(self, name) -> list[ElementTree.Element]:
        return [part for part in self.svg.iter() if name in part.get("class", "").split()]

    def strokes(self, kind) -> list[list[tuple[float, float]]]:
        """The points of every line of a kind."""
        found = []
        for group in self.of_class(f"shoplog-{kind}"):
            for part in group.iter(f"{SVG}path"):
                found += [points(piece) for piece in re.findall(r"M[^M]*", part.get("d"))]
        return found

    @property
    def frame(self) -> tuple[float, float]:
        width, height = map(float, self.svg.get("viewBox").split()[2:])
        return width, height

    def boxes(self) -> Iterator[tuple[str, Box]]:
        """The room that its words take, by our estimate of a font."""
        return ((text, box) for text, box, _ in self.places())

    def places(self) -> Iterator[tuple[str, Box, tuple[str, bool]]]:
        """Words with their room, and for whom they are."""
        for part, layer, anchor in self._texts():
            place = float(part.get("x")), float(part.get("y"))
            strong, turned = bool(part.get("class")), bool(part.get("transform"))
            text = "".join(part.itertext())
            yield text, text_box(text, *place, anchor, strong=strong, turned=turned), layer


def _pieces(text) -> list[str]:
    """What stands in an element itself, then what stands in each of those within it."""
    return [text.text or "", *(part.text or "" for part in text)]


def _seen_together(one: tuple[str, bool], other: tuple[str, bool]) -> bool:
    """Whether two layers are shown at a time, with or without the switch."""
    if "" in (one[0], other[0]) or one[0] == other[0]:
        return True
    return one[1] and other[1]


def points(d) -> list[tuple[float, float]]:
    """The points of path data; of an arc its end."""
    found = []
    for command, rest in re.findall(r"([MLAZ])([^MLAZ]*)", d):
        numbers = [float(number) for number in NUMBER.findall(rest)]
        if command != "Z":
            found.append((numbers[-2], numbers[-1]))
    return found


def faults(drawn) -> list[str]:
    """What no picture may have: words that meet or leave the frame, places that are none,
    anything from elsewhere, an id that is not its own, more weight than a picture needs."""
    width, height = drawn.frame
    boxes = list(drawn.places())
    found = [
        f"{text!r} leaves the frame"
        for text, box, _ in boxes
        if box.left < -1 or box.top < -1 or box.right > width + 1 or box.bottom > height + 1
    ]
    for number, (text, box, layer) in enumerate(boxes):
        inner = Box(box.left + 1, box.top + 1.5, box.right - 1, box.bottom - 1.5)
        found += [
            f"{text!r} meets {other!r}"
            for other, at, its in boxes[number + 1 :]
            if inner.meets(at) and _seen_together(layer, its)
        ]
    found += _places(drawn, width, height)
    found += [f"reaches out to {address}" for address in _addresses(drawn.html)]
    ids = re.findall(r' id="([^"]*)"', drawn.html)
    found += [f"id {name} is not its own" for name in ids if not name.startswith("drawing-")]
    if len(ids) != len(set(ids)):
        found.append("an id is given twice")
    return found


def _places(drawn, width, height) -> Iterator[str]:
    for part in drawn.svg.iter():
        for number in NUMBER.findall(part.get("d", "")):
            if not isfinite(float(number)):
                yield f"{number} is no place"
        if re.search("nan|inf", part.get("d", "")):
            yield "a place that is no number"
        for x, y in points(part.get("d", "")) if part.tag == f"{SVG}path" else ():
            if not (-2 <= x <= width + 2 and -2 <= y <= height + 2):
                yield f"{x:g},{y:g} is out of the frame of {width:g} by {height:g}"


def _addresses(html) -> list[str]:
    links = re.findall(r"\w+://[^\"' ]*", html) + re.findall(r'(?:href|src)="([^"]*)"', html)
    uses = re.findall(r"url\((?!#drawing-)[^)]*\)", html)
    return [one for one in links + uses if one != "http://www.w3.org/2000/svg"]
