"""What every picture shares: one SVG with a title, its strokes, its hatching and its words."""

from __future__ import annotations

from collections.abc import Iterator

import drawsvg as draw

from shoplog.render.html import Html, tag

__all__ = ["hatch", "line", "mark", "rectangle", "svg", "write"]

TEXT_SIZE = 12  # at 300 units across, this is read at the width of a telephone
_SVG = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(picture: draw.Drawing, anchor: str, title: str, description: str) -> Html:
    """The picture as an element of the page, named and described for who cannot see it."""
    names = f"{anchor}-title", f"{anchor}-text"
    for name, id_, text in zip(("title", "desc"), names, (title, description), strict=True):
        picture.append(draw.Raw(tag(name, text, id=id_)))
    picture.svg_args |= {
        "role": "img",
        "aria-labelledby": " ".join(names),
        "class": "shoplog-picture",
    }
    text = picture.as_svg(header="").replace(f" {_SVG}", "").replace("<defs>\n</defs>\n", "")
    return tag("div", Html(text), class_="shoplog-drawing")


def line(x1: float, y1: float, x2: float, y2: float, class_: str) -> draw.Line:
    """A line; its stroke is the text's colour where there is no style sheet."""
    return draw.Line(x1, y1, x2, y2, class_=class_, stroke="currentColor", fill="none")


def rectangle(x: float, y: float, width: float, height: float, class_: str) -> draw.Rectangle:
    """A rectangle by its upper left corner."""
    return draw.Rectangle(
        x, y, width, height, class_=class_, stroke="currentColor", fill="none", stroke_width=1.5
    )


def hatch(
    x: float, y: float, width: float, height: float, rising: bool, class_: str
) -> Iterator[draw.Line]:
    """Slanting lines over a rectangle, cut at its edges; the slant tells two parts apart."""
    step = 7.0
    offset = step
    while offset < width + height:
        # The line u + v = offset through the rectangle, v measured down (or up) from a corner.
        first_u, last_u = max(0.0, offset - height), min(width, offset)
        first_v, last_v = offset - first_u, offset - last_u
        if rising:
            yield line(x + first_u, y + first_v, x + last_u, y + last_v, class_)
        else:
            bottom = y + height
            yield line(x + first_u, bottom - first_v, x + last_u, bottom - last_v, class_)
        offset += step


def mark(x: float, y: float, radius: float, class_: str) -> draw.Circle:
    """A circle by its centre."""
    return draw.Circle(x, y, radius, class_=class_, stroke="currentColor", fill="none")


def write(text: str, x: float, y: float, anchor: str = "start", class_: str = "") -> draw.Text:
    """Words beginning, centred or ending at a place; y is that of the line they stand on."""
    return draw.Text(
        text,
        TEXT_SIZE,
        x,
        y,
        text_anchor=anchor,
        class_=f"shoplog-word {class_}".strip(),
        fill="currentColor",
    )
