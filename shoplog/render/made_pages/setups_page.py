"""The page of setups: every record in a table that a reader filters, sorts and draws."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from shoplog.find.record import Record
from shoplog.render.html import Html, capital, paragraph, tag
from shoplog.render.made_pages.made_text import MadeLink, in_markdown, page, words
from shoplog.render.made_pages.setup_rows import tally
from shoplog.render.made_pages.setups_page_assets import (
    hashed,
    kept_libraries,
    setups_page_script,
)
from shoplog.render.made_pages.setups_page_columns import newest_first
from shoplog.render.made_pages.setups_page_data import setups_data, setups_script
from shoplog.render.made_pages.setups_page_table import plain_table

__all__ = ["SETUPS_PAGE", "SetupsPage", "setups_page"]

SETUPS_PAGE = "setups/index.md"
ROOT = "shoplog-setups-page"
MOST_PLAIN = 200
"""Records that the page shows without a script."""
MOST_TEXT = 400


@dataclass(frozen=True, slots=True)
class SetupsPage:
    """The page as Markdown, and the files beside it by their path on the site."""

    text: str
    files: dict[str, str | bytes]


def setups_page(records: Iterable[Record], link: MadeLink) -> SetupsPage:
    """The page of some records, none of them private, and what it loads.

    Parameters
    ----------
    records : iterable of Record [-]
        What the site shows.
    link : MadeLink [-]
        Gives the address of a page as seen from another.
    """
    shown = newest_first(records)
    scripts = {
        **kept_libraries(),
        "setups-data.js": setups_script(setups_data(shown, SETUPS_PAGE, link)),
        "setups-page.js": setups_page_script(),
    }
    files = {hashed(name, text): text for name, text in scripts.items()}
    text = page(
        "---\ntitle: Setups\nhide: [toc]\n---",
        "# Setups",
        f"{words(capital(tally(shown)), MOST_TEXT)}.",
        "[The same records as a file for other programs](../setups.json)",
        in_markdown(_root(shown, link)),
        "\n".join(tag("script", src=name) for name in files),
    )
    return SetupsPage(text, {f"setups/{name}": text for name, text in files.items()})


def _root(records: list[Record], link: MadeLink) -> Html:
    """What the script brings to life, and what a reader has without it."""
    plain = plain_table(records[:MOST_PLAIN], SETUPS_PAGE, link)
    told = _without_script(len(records))
    return tag("div", told, plain, class_=f"shoplog-block {ROOT}", data_search_exclude=True)


def _without_script(count: int) -> Html:
    which = f"the newest {MOST_PLAIN} of {count} records" if count > MOST_PLAIN else "every record"
    told = (
        "To filter, to sort, to read in inches and to draw speed against feed, this page needs a"
        f" script, which this browser does not run. The table has {which}."
    )
    return tag("noscript", paragraph("shoplog-note", told))
