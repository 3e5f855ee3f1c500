"""`shoplog export`: the records of a log, for a spreadsheet or another program."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from shoplog.cli.working import worked_out
from shoplog.files import write_whole
from shoplog.find.export import BYTE_ORDER_MARK, records_csv
from shoplog.find.published import published_json
from shoplog.find.record import Record
from shoplog.problems import counted

__all__ = ["export"]


@click.command()
@click.argument(
    "log", type=click.Path(path_type=Path, exists=True, file_okay=False), default=Path()
)
@click.option(
    "--format",
    "form",
    type=click.Choice(("csv", "json")),
    help="csv, unless the file that is written ends with .json.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The file to write; else it is printed.",
)
@click.option("--force", is_flag=True, help="Write over a file that is there.")
@click.option("--private/--public", help="With the private setups, or without them.")
@click.option(
    "--spreadsheet",
    is_flag=True,
    help="Begin a CSV file with the mark by which spreadsheet programs know UTF-8.",
)
def export(
    log: Path, form: str | None, out: Path | None, force: bool, private: bool, spreadsheet: bool
) -> None:
    """Write out every setup of a LOG, a row for each time that it ran.

    LOG is the folder of mkdocs.yml, or a folder of pages. Units are in the names of the columns.
    """
    form = form or ("json" if out and out.suffix.casefold() == ".json" else "csv")
    if spreadsheet and form != "csv":
        raise click.UsageError("--spreadsheet is for CSV")
    records, name = _records(log)
    kept = [record for record in records if private or not record.private]
    if not kept:
        click.echo(f"{log} has no setups to write out", err=True)
        sys.exit(1)
    if form == "json":
        text = published_json(kept, name=name, private=private)
    else:
        text = (BYTE_ORDER_MARK if spreadsheet else "") + records_csv(kept, private=private)
    _write(text, out, force=force)
    if out:
        click.echo(f"wrote {out}: {counted(len(kept), 'setup')}")


def _records(log: Path) -> tuple[tuple[Record, ...], str]:
    """The records of a log, and what the log is called."""
    whole = worked_out(log)
    shop = whole.log.shop
    return whole.records, (shop.name if shop else "") or log.resolve().name


def _write(text: str, out: Path | None, *, force: bool) -> None:
    """Print a text, or write it into a file; its line ends stay as they are."""
    if out is None:
        click.echo(text.encode("utf-8", "replace"), nl=False)
        return
    try:
        write_whole(out, text, over=force)
    except FileExistsError as error:
        raise click.UsageError(f"{error}; --force writes over it") from None
    except OSError as error:
        raise click.UsageError(f"{out} cannot be written: {error.strerror}") from None
