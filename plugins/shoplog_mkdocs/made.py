"""The pages and files that a site gets beside its author's own, as files of MkDocs."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING
from urllib.parse import quote

from mkdocs.structure.files import File, InclusionLevel

from shoplog.render.made_pages import MadePages, made_pages

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files

    from shoplog.find.whole import WholeLog
    from shoplog.render.made_pages.made_text import MadeLink

__all__ = ["add_made_pages"]


def add_made_pages(whole: WholeLog, files: Files, config: MkDocsConfig) -> MadePages:
    """Make the pages of a log and add them to the site's files.

    Where the author lists the pages of the navigation, these are in it if they are listed, and
    MkDocs says nothing of those that are not.
    """
    made = made_pages(whole, name=config.site_name, link=_link(files, config))
    inclusion = InclusionLevel.NOT_IN_NAV if config.nav else InclusionLevel.UNDEFINED
    for uri, text in made.pages.items():
        files.append(File.generated(config, uri, content=text, inclusion=inclusion))
    for uri, content in made.files.items():
        files.append(File.generated(config, uri, content=content))
    return made


def _link(files: Files, config: MkDocsConfig) -> MadeLink:
    """What gives addresses as MkDocs will, between pages that are there and pages to be made."""

    @cache
    def file(uri: str) -> File:
        return files.get_file_from_path(uri) or File.generated(config, uri, content="")

    def link(here: str, there: str, anchor: str) -> str:
        address = file(there).url_relative_to(file(here))
        return f"{address}#{quote(anchor)}" if anchor else address

    return link
