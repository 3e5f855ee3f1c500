"""`shoplog take`: a spreadsheet of past setups, as pages of the log."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from shoplog.find.taking.plan import asked_lines
from shoplog.find.taking.take import NotTaken, Taking
from shoplog.find.taking.take import take as take_file
from shoplog.problems import counted

__all__ = ["take"]


@click.command()
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    help="The log or the folder of pages that they go to; else the log that you are in.",
)
@click.option(
    "--mapping",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="What the columns are; else FILE.mapping.yml beside it, where it is there.",
)
@click.option("--dry-run", is_flag=True, help="Say what would be done, and write nothing.")
def take(file: Path, into: Path | None, mapping: Path | None, dry_run: bool) -> None:
    """Take a spreadsheet of past setups, saved as CSV in FILE, into the log as new pages.

    No page that is there is changed. Columns that cannot be told are asked for: a mapping file is
    written beside FILE to be filled in.
    """
    try:
        made = take_file(file, into=into, mapping=mapping, dry_run=dry_run)
    except NotTaken as error:
        click.echo(str(error), err=True)
        sys.exit(1)
    for line in _lines(made, dry_run=dry_run):
        click.echo(line)
    sys.exit(bool(made.problems) or made.asks)


def _lines(made: Taking, *, dry_run: bool) -> Iterator[str]:
    yield from (f"{made.sheet.path}: {note}" for note in made.sheet.notes)
    if made.mapped:
        yield f"{made.sheet.path}: its columns are as {made.mapping} says"
    if made.asks or dry_run:
        yield from _columns(made)
    yield from (problem.line for problem in made.problems)
    if made.asks:
        yield from _asked(made, dry_run=dry_run)
        return
    for path, page in made.pages.items():
        count = len(page.setups)
        wrote = "would write" if dry_run else "wrote"
        yield f"{wrote} {path.as_posix()}: {counted(count, 'setup')}"
    yield _summary(made, dry_run=dry_run)


def _columns(made: Taking) -> Iterator[str]:
    """Each column with what it becomes."""
    known = {column.heading: column.told for column in made.plan.columns}
    known |= dict.fromkeys(made.plan.empty, "empty")
    width = max(map(len, made.sheet.headings))
    asked = {one.about for one in made.plan.questions if one.part == "columns"}
    for heading in made.sheet.headings:
        if heading in known and heading not in asked:
            yield f"  {heading:<{width}}  {known[heading]}"


def _asked(made: Taking, *, dry_run: bool) -> Iterator[str]:
    for one in made.plan.questions:
        yield f"  {one.about}: {one.why}"
    if made.mapping_written:
        yield f"wrote {made.mapping}: fill in what stands empty there, and run this again"
    elif made.problems:
        yield f"nothing was taken: put {made.mapping} right first"
    elif not made.plan.questions:
        yield "nothing was taken: no column is anything of a setup"
    elif dry_run and not made.mapping.exists():
        yield f"would write {made.mapping}, to be filled in"
    else:
        yield f"nothing was taken: add these lines to {made.mapping}, filled in"
        yield from "".join(asked_lines(made.plan)).strip().splitlines()


def _summary(made: Taking, *, dry_run: bool) -> str:
    took = "would take" if dry_run else "took"
    into = f" into {counted(len(made.pages), 'page')}" if made.pages else ""
    line = f"{took} {made.taken} of {counted(made.rows, 'row')}{into}"
    left = made.rows - made.taken
    if not left:
        return line
    be = "would not be" if dry_run else "was not" if left == 1 else "were not"
    return f"{line}; {counted(left, 'row')} {be} taken"
