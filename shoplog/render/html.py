"""HTML made by elements: every text is escaped unless it was itself made here.

Pages may come from strangers, so there is one way for a text to come into a page, and it escapes.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape

__all__ = ["Html", "capital", "join", "paragraph", "printed", "scrolled", "tag"]

MOST_TEXT = 400
_VOID = frozenset({"br", "link", "mspace"})

# Markdown marks what it has put aside with control characters (U+0002, U+0003). None of them is
# text, and one in a page could bring another part of the page in where it does not belong.
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")


class Html(str):
    """HTML that is ready. Any other text is escaped when it goes into an element."""

    __slots__ = ()


def tag(name: str, *children: str, **attributes: str | bool) -> Html:
    """An element; `class_` and `data_x` stand for the attributes `class` and `data-x`.

    >>> tag("td", "1 < 2", class_="shoplog-name")
    '<td class="shoplog-name">1 &lt; 2</td>'
    """
    shown = "".join(_attribute(*item) for item in attributes.items())
    if name in _VOID:
        return Html(f"<{name}{shown}>" if name != "mspace" else f"<{name}{shown}/>")
    return Html(f"<{name}{shown}>{join(children)}</{name}>")


def join(parts: Iterable[str], between: str = "") -> Html:
    """Several parts as one, each escaped where it is not HTML yet."""
    return Html(between.join(part if isinstance(part, Html) else _escaped(part) for part in parts))


def paragraph(class_: str, *children: str) -> Html:
    """A paragraph of a class."""
    return tag("p", *children, class_=class_)


def capital(text: str) -> str:
    """Words as a sentence begins, the rest as they are.

    >>> capital("end mill, HSS")
    'End mill, HSS'
    """
    return text[:1].upper() + text[1:]


def scrolled(content: Html, label: str, class_: str = "shoplog-scroll") -> Html:
    """What may be wider than a telephone; a keyboard can reach it and scroll it.

    A group and no landmark: a page has many.
    """
    settings = {"tabindex": "0", "role": "group", "aria_label": label}
    return tag("div", content, class_=class_, **settings)


def printed(text: str) -> str:
    """A value's text with raised powers, and no longer than a reader takes in.

    >>> printed("0.72 cm^3/min")
    '0.72 cm³/min'
    """
    text = text if len(text) <= MOST_TEXT else f"{text[:MOST_TEXT]}…"
    return re.sub(r"(?<=[a-z])\^([234])(?!\d)", lambda found: "²³⁴"[int(found[1]) - 2], text)


def _attribute(name: str, value: str | bool) -> str:
    name = name.rstrip("_").replace("_", "-")
    if isinstance(value, bool):
        return f" {name}" if value else ""
    return f' {name}="{_escaped(value)}"'


def _escaped(text: str) -> str:
    return escape(_CONTROL.sub("\ufffd", text), quote=True)
