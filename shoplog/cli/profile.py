"""`shoplog profile`: the shop profile as it is read, and the schema that editors check it by."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from shoplog.cli.printing import print_json, problems_json
from shoplog.log.folder import read_shop_file
from shoplog.log.profile.schema import shop_schema
from shoplog.problems import Grade
from shoplog.render.profile_text import profile_json, profile_lines

__all__ = ["profile"]


@click.command()
@click.argument("path", type=click.Path(path_type=Path, exists=True), default=Path())
@click.option("--json", "as_json", is_flag=True, help="Print what was read as JSON.")
@click.option("--schema", is_flag=True, help="Print the JSON Schema of a shop profile.")
def profile(path: Path, as_json: bool, schema: bool) -> None:
    """Print the shop profile at PATH, a file or the folder of one, as it was read."""
    if schema:
        print_json(shop_schema())
        return
    file = path / "shop.yml" if path.is_dir() else path
    if not file.is_file():
        raise click.UsageError(f"there is no {file}")
    shop, problems = read_shop_file(file)
    if as_json:
        print_json({**profile_json(shop), "problems": problems_json(problems)})
    else:
        for line in profile_lines(shop):
            click.echo(line)
        for problem in problems:
            click.echo(problem.text)
    sys.exit(any(problem.grade is Grade.PROBLEM for problem in problems))
