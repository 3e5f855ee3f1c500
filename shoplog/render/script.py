"""The script of a log's pages, as it ships with the package."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from importlib import resources

__all__ = ["page_script", "script_name"]


@cache
def page_script() -> str:
    """The text of the script that every page of a log loads."""
    return resources.files("shoplog.render").joinpath("assets/js/page.js").read_text("utf-8")


def script_name() -> str:
    """Its file name, which changes with its text, so that no browser keeps an old one."""
    return f"shoplog.{sha256(page_script().encode()).hexdigest()[:8]}.js"
