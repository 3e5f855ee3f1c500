"""A bench sheet as PDF, by a Chromium that is on the machine."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

from shoplog.files import write_whole

__all__ = ["NoPaper", "find_browser", "print_pdf"]

BROWSERS = ("chromium", "chromium-browser", "chrome", "google-chrome", "google-chrome-stable")
LONGEST = 120
"""Seconds that a browser may take."""
SWITCHES = (
    "--headless",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-pdf-header-footer",
)


class NoPaper(RuntimeError):
    """A PDF could not be made: why not."""


def find_browser() -> str | None:
    """The path of a Chromium, or None."""
    return next((path for name in BROWSERS if (path := shutil.which(name))), None)


def print_pdf(html: str, out: Path) -> None:
    """Print a document that asks for nothing but itself, and put it in place when it is whole.

    Raises
    ------
    NoPaper
        There is no Chromium, or it did not print.
    """
    browser = find_browser()
    if browser is None:
        raise NoPaper("there is no Chromium on the PATH to make a PDF with; print the HTML instead")
    with tempfile.TemporaryDirectory() as folder:
        page, made = Path(folder) / "sheet.html", Path(folder) / "sheet.pdf"
        page.write_text(html, "utf-8")
        call = [browser, *SWITCHES, *_as_root(), f"--user-data-dir={folder}/profile"]
        call += [f"--print-to-pdf={made}", page.as_uri()]
        _run(call)
        if not made.is_file():
            raise NoPaper("Chromium made no PDF; print the HTML instead")
        write_whole(out, made.read_bytes(), over=True)


def _as_root() -> tuple[str, ...]:
    """Chromium has no sandbox for root; the document is our own and runs no script."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return ("--no-sandbox",) if root else ()


def _run(call: list[str]) -> None:
    try:
        subprocess.run(call, check=True, capture_output=True, timeout=LONGEST)
    except subprocess.TimeoutExpired:
        raise NoPaper(f"Chromium took more than {LONGEST} s; print the HTML instead") from None
    except (OSError, subprocess.CalledProcessError) as error:
        raise NoPaper(f"Chromium failed ({error}); print the HTML instead") from None
