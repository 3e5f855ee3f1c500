"""The scripts of the page of setups: ours, and the libraries that ship with it."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from importlib import resources

__all__ = ["hashed", "kept_libraries", "setups_page_script"]

_ASSETS = resources.files("shoplog.render").joinpath("assets")


@cache
def setups_page_script() -> str:
    """The script of the page: the files of `assets/js/setups-page/` in order, as one."""
    folder = _ASSETS.joinpath("js/setups-page")
    files = sorted(folder.iterdir(), key=lambda file: file.name)
    parts = "\n".join(file.read_text("utf-8") for file in files)
    return f'(() => {{\n"use strict";\n{parts}}})();\n'


@cache
def kept_libraries() -> dict[str, str]:
    """The libraries that the page loads, as their makers publish them; by file name.

    The README beside them says of each its version, its source and its licence.
    """
    folder = _ASSETS.joinpath("vendor")
    scripts = sorted(file.name for file in folder.iterdir() if file.name.endswith(".js"))
    return {name: folder.joinpath(name).read_text("utf-8") for name in scripts}


def hashed(name: str, text: str) -> str:
    """A file name that changes with the text, so that no browser keeps an old one.

    >>> hashed("setups-page.js", "")
    'setups-page.e3b0c442.js'
    """
    stem, _, suffix = name.rpartition(".")
    return f"{stem}.{sha256(text.encode()).hexdigest()[:8]}.{suffix}"
