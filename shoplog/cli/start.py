"""`shoplog start`: a new log."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from shoplog.log.starter import start_log
from shoplog.render.style import readable_sheet

__all__ = ["start"]


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--inch", is_flag=True, help="Write the worked page in inches.")
@click.option("--name", default="", help="What the workshop is called.")
def start(folder: Path, inch: bool, name: str) -> None:
    """Start a new log in FOLDER: a site, a shop profile, and one worked page to learn from."""
    if not name and sys.stdin.isatty():
        name = click.prompt("What is the workshop called?", default="My workshop")
    try:
        made = start_log(folder, readable=readable_sheet(), inch=inch, name=name or "My workshop")
    except FileExistsError as error:
        raise click.UsageError(f"{error}; nothing was written") from None
    for path in made:
        click.echo(f"wrote {path}")
    click.echo(f"now: cd {folder} && mkdocs serve")
