"""`shoplog calc`: one expression, at the terminal."""

from __future__ import annotations

import sys
from dataclasses import replace

import click

from shoplog.calc.explain import explain
from shoplog.calc.results import Result
from shoplog.cli.printing import item_json, print_json, problems_json
from shoplog.log import report_of_text
from shoplog.problems import Grade, Place, Problem
from shoplog.render.terminal import value_lines, written

__all__ = ["calc"]


class _ExpressionCommand(click.Command):
    """Takes an expression that begins with a minus as what it is, and no option for it."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        known = {name for option in self.get_params(ctx) for name in option.opts}
        options = [word for word in args if word in known]
        rest = [word for word in args if word not in known and word != "--"]
        return super().parse_args(ctx, [*options, "--", *rest])


@click.command(cls=_ExpressionCommand)
@click.argument("expression")
@click.option("--json", "as_json", is_flag=True, help="Print the value as JSON.")
@click.option("--steps", is_flag=True, help="Show the steps.")
def calc(expression: str, as_json: bool, steps: bool) -> None:
    """Work out one EXPRESSION, such as '30 mm H7' or 'tap_drill("M6x1")'."""
    page = report_of_text(f"```calc\nvalue = {expression}\n```\n", "expression")
    found = [_of_expression(problem) for problem in page.problems]
    item = page.blocks[0].items[0] if page.blocks and page.blocks[0].items else None
    if as_json:
        print_json({"expression": expression, **item_json(item), "problems": problems_json(found)})
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
