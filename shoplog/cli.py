"""The `shoplog` command: start a log, work out an expression, check a log, read a table.

Exit status 0 is fine, 1 is problems found, 2 is wrong use.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

import click

from shoplog.calc.explain import explain
from shoplog.calc.results import Item, Result
from shoplog.log import Log, NoLog, PageReport, read_folder, report_of_text
from shoplog.log.starter import start_log
from shoplog.problems import Grade, Place, Problem, near
from shoplog.render.terminal import rows_with, table_lines, value_json, value_lines, written
from shoplog.tables import table as read_table
from shoplog.tables import table_names

__all__ = ["main"]


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="shoplog")
def main() -> None:
    """Work out, check and publish a workshop log."""


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--inch", is_flag=True, help="Write the worked page in inches.")
@click.option("--name", default="", help="What the workshop is called.")
def start(folder: Path, inch: bool, name: str) -> None:
    """Start a new log in FOLDER: a site, a shop profile, and one worked page to learn from."""
    if not name and sys.stdin.isatty():
        name = click.prompt("What is the workshop called?", default="My workshop")
    try:
        made = start_log(folder, inch=inch, name=name or "My workshop")
    except FileExistsError as error:
        raise click.UsageError(f"{error}; nothing was written") from None
    for path in made:
        click.echo(f"wrote {path}")
    click.echo(f"now: cd {folder} && mkdocs serve")


class _ExpressionCommand(click.Command):
    """Takes an expression that begins with a minus as what it is, and no option for it."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        known = {name for option in self.get_params(ctx) for name in option.opts}
        options = [word for word in args if word in known]
        rest = [word for word in args if word not in known and word != "--"]
        return super().parse_args(ctx, [*options, "--", *rest])


@main.command(cls=_ExpressionCommand)
@click.argument("expression")
@click.option("--json", "as_json", is_flag=True, help="Print the value as JSON.")
@click.option("--steps", is_flag=True, help="Show the steps.")
def calc(expression: str, as_json: bool, steps: bool) -> None:
    """Work out one EXPRESSION, such as '30 mm H7' or 'tap_drill("M6x1")'."""
    page = report_of_text(f"```calc\nvalue = {expression}\n```\n", "expression")
    found = [_of_expression(problem) for problem in page.problems]
    item = page.blocks[0].items[0] if page.blocks and page.blocks[0].items else None
    if as_json:
        _print_json({"expression": expression, **_item_json(item), "problems": _problems(found)})
    else:
        if isinstance(item, Result):
            for line in value_lines(item.value):
                click.echo(line)
            if steps:
                for step in explain(item.expression, item.working):
                    click.echo(f"  {step.label}: {written(step.tree)}")
            for note in item.working.notes:
                click.echo(f"note: {note}")
            for source in item.working.sources:
                click.echo(f"source: {source}")
        for problem in found:
            line = problem.line if problem.grade is Grade.CAUTION else problem.text
            click.echo(_without_place(line, problem), err=problem.grade is Grade.PROBLEM)
    sys.exit(any(problem.grade is Grade.PROBLEM for problem in found))


def _of_expression(problem: Problem) -> Problem:
    """A finding with its column counted from the expression's first character."""
    ahead = len("value = ")
    place = problem.place
    column = max(1, place.column - ahead)
    moved = Place(place.path, 1, column, place.width, place.source[ahead:])
    return replace(problem, place=moved)


def _without_place(text: str, problem: Problem) -> str:
    if problem.grade is Grade.CAUTION:
        return text.removeprefix(f"{problem.place}: ")
    return text


@main.command()
@click.argument(
    "log", type=click.Path(path_type=Path, exists=True, file_okay=False), default=Path()
)
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON.")
@click.option("--quiet", "-q", is_flag=True, help="Print problems only, no cautions.")
def check(log: Path, as_json: bool, quiet: bool) -> None:
    """Check every page of a LOG: the folder of mkdocs.yml, or a folder of pages."""
    try:
        found = read_folder(log)
    except NoLog as error:
        raise click.UsageError(str(error)) from None
    if as_json:
        _print_json(_log_json(found))
    else:
        for problem in found.problems:
            if problem.grade is Grade.PROBLEM:
                click.echo(problem.text)
        if not quiet:
            for line in _gathered(found.problems):
                click.echo(line)
        click.echo(found.counts.line)
    sys.exit(found.counts.problems > 0)


@main.command()
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
        _print_json({"name": name, "head": found.head, "rows": rows})
    else:
        for line in table_lines(found, rows):
            click.echo(line)
    sys.exit(not rows)


def _list_tables(as_json: bool) -> None:
    heads = {name: read_table(name).head["title"] for name in table_names()}
    if as_json:
        _print_json(heads)
        return
    width = max(map(len, heads))
    for name, title in heads.items():
        click.echo(f"{name:<{width}}  {title}")


def _gathered(problems: Iterable[Problem]) -> Iterable[str]:
    """Cautions and notes: each text once, with its first place and how many more there are."""
    places: dict[tuple[Grade, str], list[Place]] = {}
    for problem in problems:
        if problem.grade is not Grade.PROBLEM:
            places.setdefault((problem.grade, problem.message), []).append(problem.place)
    for (grade, text), found in places.items():
        more = f" and {len(found) - 1} more" if len(found) > 1 else ""
        yield f"{found[0]}{more}: {grade}: {text}"


def _print_json(data: object) -> None:
    click.echo(json.dumps(data, ensure_ascii=False, indent=2))


def _log_json(log: Log) -> dict[str, Any]:
    return {
        "counts": asdict(log.counts),
        "problems": _problems(log.problems),
        "pages": [_page_json(page) for page in log.pages.values()],
    }


def _page_json(page: PageReport) -> dict[str, Any]:
    return {
        "path": page.path,
        "part": page.part,
        "results": [{"name": item.name, **_item_json(item)} for item in page.results],
    }


def _item_json(item: Item | None) -> dict[str, Any]:
    if not isinstance(item, Result):
        return {"value": None}
    return {
        "value": value_json(item.value),
        "notes": item.working.notes,
        "sources": item.working.sources,
    }


def _problems(problems: Iterable[Problem]) -> list[dict[str, Any]]:
    return [
        {
            "grade": problem.grade.value,
            "code": problem.code,
            "message": problem.message,
            "hint": problem.hint,
            "path": problem.place.path,
            "line": problem.place.line,
            "column": problem.place.column,
            "also": [str(place) for place in problem.also],
        }
        for problem in problems
    ]
