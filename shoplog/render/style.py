"""The style sheets of a log, as they ship with the package."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from importlib import resources

__all__ = ["readable_sheet", "style_name", "style_sheet"]


@cache
def style_sheet() -> str:
    """The text of the style sheet: the sheets of `assets/css/`, by their names."""
    folder = resources.files("shoplog.render").joinpath("assets/css")
    sheets = sorted(folder.iterdir(), key=lambda sheet: sheet.name)
    return "\n".join(sheet.read_text("utf-8") for sheet in sheets)


def style_name() -> str:
    """The sheet's file name, which changes with its text, so that no browser keeps an old one."""
    return f"shoplog.{sha256(style_sheet().encode()).hexdigest()[:8]}.css"


def readable_sheet() -> str:
    """The sheet for what Material leaves to a site that is to be read by everyone.

    It is no part of a log's own sheet: it changes the theme, and so it is its author's to keep.
    """
    return resources.files("shoplog.render").joinpath("assets/readable.css").read_text("utf-8")
