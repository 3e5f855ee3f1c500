"""`shoplog table`: the rows of a reference table."""

from __future__ import annotations

import sys

import click

from shoplog.cli.printing import print_json
from shoplog.problems import near
from shoplog.render.terminal import rows_with, table_lines
from shoplog.tables import table as read_table
from shoplog.tables import table_names

__all__ = ["table"]


@click.command()
@click.argument("name", default="")
@click.argument("words", nargs=-1)
@click.option("--json", "as_json", is_flag=True, help="Print the rows as JSON.")
def table(name: str, words: tuple[str, ...], as_json: bool) -> None:
    """Print the rows of the reference table NAME that hold all WORDS, and where they come from.

    Without a name, list the tables.
    """
    if not name:
        _list_tables(as_json)
        return
    if name not in table_names():
        close = near(name, table_names())
        hint = f"; did you mean {close}?" if close else ""
        raise click.UsageError(f"there is no table `{name}`{hint}")
    found = read_table(name)
    rows = rows_with(found, words)
    if as_json:
        print_json({"name": name, "head": found.head, "rows": rows})
    else:
        for line in table_lines(found, rows):
            click.echo(line)
    sys.exit(not rows)


def _list_tables(as_json: bool) -> None:
    heads = {name: read_table(name).head["title"] for name in table_names()}
    if as_json:
        print_json(heads)
        return
    width = max(map(len, heads))
    for name, title in heads.items():
        click.echo(f"{name:<{width}}  {title}")
