"""`shoplog sheet`: a page or a project as paper for the machine."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

import click

from shoplog.cli.working import worked_out
from shoplog.files import write_whole
from shoplog.log import Log, PageReport
from shoplog.problems import counted, near
from shoplog.render.sheet.fill import Box, boxes_of, filled, mistake_in
from shoplog.render.sheet.gather import Sheet, sheet_of
from shoplog.render.sheet.layout import PAPERS, sheets_html
from shoplog.render.sheet.paper import NoPaper, print_pdf

__all__ = ["sheet"]


@click.command()
@click.argument("page")
@click.option(
    "--log",
    "folder",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    default=Path(),
    help="The folder of the log.",
)
@click.option(
    "--paper", type=click.Choice([*PAPERS], case_sensitive=False), default="A4", help="Its size."
)
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), help="The file to write.")
@click.option("--pdf", is_flag=True, help="Make a PDF, with the Chromium of this machine.")
@click.option("--fill", is_flag=True, help="Ask for what the boxes hold; print the lines to paste.")
def sheet(page: str, folder: Path, paper: str, out: Path | None, pdf: bool, fill: bool) -> None:
    """Make the bench sheet of a PAGE, or one for each page of a project's folder.

    It holds sizes with their limits, the work in order, tools, cautions, and boxes to write in. It
    is written here as HTML; print it from any browser, or ask for a PDF.
    """
    log = worked_out(folder).log
    sheets = [sheet_of(log.pages[key], log.shop, key) for key in _pages(log, page)]
    if fill:
        _fill(sheets)
        return
    html = sheets_html(sheets, paper, log.shop.name if log.shop else "")
    target = out or Path(f"{_stem(page)}-bench-sheet.{'pdf' if pdf else 'html'}")
    _write(html, target, pdf)
    click.echo(f"wrote {target}: {counted(len(sheets), 'sheet')} for {paper}")
    wrong = sum(one.problems for one in sheets)
    if wrong:
        click.echo(f"{counted(wrong, 'problem')} on it: the sheet says so at its top", err=True)
    sys.exit(wrong > 0)


def _pages(log: Log, asked: str) -> list[str]:
    """The page that is asked for by its path or the end of it; or the pages of a folder."""
    wanted = asked.replace("\\", "/").strip("/").removeprefix("./").removesuffix(".md")
    bare = {key.removesuffix(".md"): key for key in log.pages}
    files = {key: log.pages[key].path.removesuffix(".md") for key in bare.values()}
    exact = [key for name, key in bare.items() if wanted in (name, files[key])]
    ends = [key for name, key in bare.items() if f"/{name}".endswith(f"/{wanted}")]
    for found in (exact, ends):
        if len(found) > 1:
            paths = " or ".join(log.pages[key].path for key in found[:4])
            raise click.UsageError(f"`{asked}` could be {paths}")
        if found:
            return found
    inside = [key for name, key in bare.items() if _is_inside(log.pages[key], name, wanted)]
    if not inside:
        close = near(wanted, bare) or near(wanted, [name.rpartition("/")[2] for name in bare])
        hint = f"; did you mean {close}?" if close else ""
        raise click.UsageError(f"the log has no page and no project `{asked}`{hint}")
    return inside


def _is_inside(report: PageReport, name: str, folder: str) -> bool:
    """Whether a page that works something out is in a folder, by its path or the end of it."""
    within = f"/{report.project}".endswith(f"/{folder}") or name.startswith(f"{folder}/")
    return bool(report.blocks) and within


def _stem(page: str) -> str:
    return Path(page.replace("\\", "/").strip("/")).name.removesuffix(".md") or "log"


def _write(html: str, target: Path, pdf: bool) -> None:
    try:
        if pdf:
            print_pdf(html, target)
        else:
            write_whole(target, html, over=True)
    except (NoPaper, OSError) as error:
        raise click.ClickException(str(error)) from None


def _fill(sheets: list[Sheet]) -> None:
    """Ask for each box, on the side; what is printed is only what is to be pasted."""
    answers: list[dict[Box, str]] = [{} for _ in sheets]
    try:
        for one, given in zip(sheets, answers, strict=True):
            for box in boxes_of(one):
                given[box] = _answer(box)
    except click.Abort:  # stopped by hand: what was written so far is not lost
        _print_filled(sheets, [given if any(given.values()) else None for given in answers])
        raise
    _print_filled(sheets, answers)


def _print_filled(sheets: list[Sheet], answers: Sequence[dict[Box, str] | None]) -> None:
    parts = [
        filled(one, given) for one, given in zip(sheets, answers, strict=True) if given is not None
    ]
    if any(parts):
        click.echo("\n\n".join(part for part in parts if part))


def _answer(box: Box) -> str:
    """What is in a box, as a page can read it; nothing for an empty one."""
    while text := _ask(f"{box.key}: {box.asked}"):
        wrong = mistake_in(box, text)
        if not wrong:
            return text
        if not sys.stdin.isatty():
            raise click.ClickException(f"{box.key}: `{text}`: {wrong}")
        click.echo(f"  {wrong}", err=True)
    return ""


def _ask(question: str) -> str:
    try:
        text: str = click.prompt(question, default="", show_default=False, err=True)
    except click.Abort as stopped:
        if isinstance(stopped.__context__, KeyboardInterrupt):
            raise
        return ""  # the end of what was given: the rest is left out
    return " ".join(text.split())
