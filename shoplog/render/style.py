"""The style sheet of a log, as it ships with the package."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from importlib import resources

__all__ = ["style_name", "style_sheet"]


@cache
def style_sheet() -> str:
    """The text of the style sheet: the sheets of `assets/css/`, by their names."""
    folder = resources.files("shoplog.render").joinpath("assets/css")
    sheets = sorted(folder.iterdir(), key=lambda sheet: sheet.name)
    return "\n".join(sheet.read_text("utf-8") for sheet in sheets)


def style_name() -> str:
    """The sheet's file name, which changes with its text, so that no browser keeps an old one."""
    return f"shoplog.{sha256(style_sheet().encode()).hexdigest()[:8]}.css"
