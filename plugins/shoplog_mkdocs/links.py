"""Where the pages of a site are: addresses between them, and their folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files

__all__ = ["link_from", "pages_root"]


def link_from(page: str, files: Files) -> Callable[[str, str], str]:
    """What gives the address of an anchor on another page, as seen from a page; or nothing."""
    here = files.get_file_from_path(page)

    def link(other: str, anchor: str) -> str:
        there = files.get_file_from_path(other)
        if here is None or there is None:
            return ""
        return f"{there.url_relative_to(here)}#{anchor}"

    return link


def pages_root(config: MkDocsConfig) -> str:
    """What a page's path begins with, as seen from the folder of mkdocs.yml: `docs/`."""
    docs = Path(config.docs_dir)
    folder = Path(config.config_file_path).parent
    shown = docs.relative_to(folder) if docs.is_relative_to(folder) else Path(docs.name)
    return "" if shown == Path() else f"{shown.as_posix()}/"
