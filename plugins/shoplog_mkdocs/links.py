"""Addresses between the pages of a site."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from mkdocs.structure.files import Files

__all__ = ["link_from"]


def link_from(page: str, files: Files) -> Callable[[str, str], str]:
    """What gives the address of an anchor on another page, as seen from a page; or nothing."""
    here = files.get_file_from_path(page)

    def link(other: str, anchor: str) -> str:
        there = files.get_file_from_path(other)
        if here is None or there is None:
            return ""
        return f"{there.url_relative_to(here)}#{anchor}"

    return link
