"""Pages that a site has beside its author's own, made from records and the shop profile."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from shoplog.find.published import published_json
from shoplog.find.record import Record
from shoplog.find.whole import WholeLog
from shoplog.render.made_pages.made_text import MadeLink, directory_link
from shoplog.render.made_pages.reference_cards import reference_pages
from shoplog.render.made_pages.setups_page import SETUPS_PAGE, setups_page

__all__ = ["SETUPS_JSON", "MadePages", "made_pages"]

SETUPS_JSON = "setups.json"


@dataclass(frozen=True, slots=True)
class MadePages:
    """What a site gets beside its author's pages."""

    pages: Mapping[str, str] = field(default_factory=dict)
    """Markdown, by its path among the pages."""
    files: Mapping[str, str | bytes] = field(default_factory=dict)
    """Other files, by their path on the site."""
    notes: tuple[str, ...] = ()
    """What was left out, and why."""


def made_pages(whole: WholeLog, *, name: str, link: MadeLink = directory_link) -> MadePages:
    """The pages and files made from a log, none of which takes the place of a page of its author.

    Parameters
    ----------
    whole : WholeLog [-]
        The log as it came out; records that are private are left out here.
    name : str [-]
        What the log is called.
    link : MadeLink [-]
        Gives the address of a page and anchor as seen from a page; by default as MkDocs gives it
        where every page is a folder.
    """
    pages = reference_pages(whole, link)
    records = tuple(one for one in whole.records if not one.private)
    if not records:
        return MadePages(pages)
    return _with_setups(whole, records, pages, name, link)


def _with_setups(
    whole: WholeLog,
    records: tuple[Record, ...],
    pages: dict[str, str],
    name: str,
    link: MadeLink,
) -> MadePages:
    files: dict[str, str | bytes] = {SETUPS_JSON: published_json(records, name=name)}
    taken = next((uri for uri in (SETUPS_PAGE, "setups.md") if uri in whole.log.pages), "")
    if taken:
        note = f"{taken} stands in the place of the page of setups that is made from the records"
        return MadePages(pages, files, (note,))
    made = setups_page(records, link)
    return MadePages({**pages, SETUPS_PAGE: made.text}, {**files, **made.files})
