"""Texts of a log in the Markdown of a made page: nothing in them is read as Markdown or HTML.

Names come from pages and shop profiles of strangers. What could mean something to Markdown, to one
of its extensions or to a template is written as a numeric character reference, which every host of
Python-Markdown leaves alone.
"""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Callable, Iterable
from itertools import chain, count
from urllib.parse import quote

from shoplog.find.clean import clean, clipped
from shoplog.render.html import Html, join, tag

__all__ = [
    "Addresses",
    "MadeLink",
    "block",
    "chart_block",
    "directory_link",
    "in_markdown",
    "listed",
    "page",
    "title",
    "words",
]

MOST_NAME = 120
MOST_SLUG = 60
MadeLink = Callable[[str, str, str], str]
"""From the page that links, the page that is linked to and an anchor on it, to an address."""

_INDEXES = frozenset(("index", "README"))
# What stays as it is: letters and digits, and what between two of them is never a mark.
_MARKS = re.compile(r"[^\w ,.-]|_|(?<!\d)\.|\.(?!\d)|(?<![^\W_])-|-(?![^\W_])")
_LOOKS_LIKE = str.maketrans('<>"', "‹›″")
# In finished HTML: what a preprocessor of Markdown or a template engine looks for.
_IN_HTML = {mark: f"&#{ord(mark)};" for mark in "[]{}`~"} | {"\n": " ", "\r": " "}


def words(text: str, most: int = MOST_NAME) -> str:
    """A text of a stranger as words of a Markdown page, in one line and not too long.

    >>> words("end mill 10"), words("*10* | <b>")
    ('end mill 10', '&#42;10&#42; &#124; &#60;b&#62;')
    """
    shown = clipped(" ".join(clean(text).split()), most)
    return _MARKS.sub(lambda found: f"&#{ord(found[0])};", shown)


def title(text: str) -> str:
    """The heading of a page by a name; what means something in HTML is shown by what looks like it.

    A theme may undo references in a title that it puts into the head of a page.

    >>> title('3/4" drill <b>')
    '# 3&#47;4&#8243; drill &#8249;b&#8250;'
    """
    return f"# {words(text.translate(_LOOKS_LIKE))}"


def block(*parts: str, class_: str = "", search: bool = True) -> str:
    """Finished HTML as one block of a Markdown page; `search` says whether a search reads it.

    >>> block(tag("p", "a [=b]"))
    '<div class="shoplog-block shoplog-made"><p>a &#91;=b&#93;</p></div>'
    """
    names = f"shoplog-block shoplog-made {class_}".strip()
    return in_markdown(tag("div", join(parts), class_=names, data_search_exclude=not search))


def chart_block(chart: Html, caption: str) -> str:
    """A chart with what it shows, as a block that no search reads."""
    told = tag("figcaption", caption)
    return block(tag("figure", chart, told, class_="shoplog-figure shoplog-chart"), search=False)


def in_markdown(html: Html) -> str:
    """Finished HTML in a line of Markdown."""
    text = str(html)
    for mark, reference in _IN_HTML.items():
        text = text.replace(mark, reference)
    return text


def page(*parts: str) -> str:
    """A page of its parts, an empty line between each; a part that is empty is left out."""
    return "\n\n".join(filter(None, parts)) + "\n"


def listed(parts: Iterable[str]) -> str:
    """Parts in a sentence.

    >>> listed(["11 good", "2 poor", "1 spoiled"])
    '11 good, 2 poor and 1 spoiled'
    """
    *before, last = parts
    return f"{', '.join(before)} and {last}" if before else last


def directory_link(here: str, there: str, anchor: str) -> str:
    """The address of a page as MkDocs gives it where it is not told otherwise.

    >>> directory_link("shop/bench-lathe.md", "log/boat winch/bush.md", "setup-2")
    '../../log/boat%20winch/bush/#setup-2'
    """
    base, target = _destination(here), _destination(there)
    way = posixpath.relpath(f"/{target}", f"/{base}")
    address = "./" if way == "." else f"{quote(way)}/"
    return f"{address}#{quote(anchor)}" if anchor else address


def _destination(uri: str) -> str:
    """The folder that a page becomes."""
    folder, name = posixpath.split(uri.removesuffix(".md"))
    return folder if name in _INDEXES else posixpath.join(folder, name)


class Addresses:
    """Gives each made page a path of its own, where no page of the author stands."""

    def __init__(self, taken: Iterable[str]) -> None:
        self._given = {_destination(uri).casefold() for uri in taken}

    def give(self, folder: str, name: str, otherwise: str) -> str:
        """A path made of a name, the same one at each build; `otherwise` where it has no letters.

        >>> places = Addresses(["shop/drill.md"])
        >>> places.give("shop", "Drill", "cutter"), places.give("shop", "ø", "cutter")
        ('shop/drill-2.md', 'shop/cutter.md')
        """
        slug = _slug(name) or otherwise
        numbered = (f"{folder}/{slug}-{number}" for number in count(2))
        wished = [] if slug in _INDEXES else [f"{folder}/{slug}"]
        made = next(one for one in chain(wished, numbered) if one not in self._given)
        self._given.add(made)
        return f"{made}.md"

    def index(self, folder: str) -> str:
        """The path of a folder's own page; nothing where its author has written one."""
        return "" if folder in self._given else f"{folder}/index.md"


def _slug(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.casefold()).strip("-")[:MOST_SLUG].strip("-")
