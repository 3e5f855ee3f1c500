"""`shoplog check`: every page of a log."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from typing import Any

import click

from shoplog.cli.printing import item_json, print_json, problems_json
from shoplog.cli.working import worked_out
from shoplog.log import Log, PageReport
from shoplog.problems import Grade, Problem

__all__ = ["check"]


@click.command()
@click.argument(
    "log", type=click.Path(path_type=Path, exists=True, file_okay=False), default=Path()
)
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON.")
@click.option("--quiet", "-q", is_flag=True, help="Print problems only, no cautions.")
def check(log: Path, as_json: bool, quiet: bool) -> None:
    """Check every page of a LOG: the folder of mkdocs.yml, or a folder of pages."""
    found = worked_out(log).log
    if as_json:
        print_json(_log_json(found))
    else:
        for problem in found.problems:
            if problem.grade is Grade.PROBLEM:
                click.echo(problem.text)
        if not quiet:
            for line in _gathered(found.problems):
                click.echo(line)
        click.echo(found.counts.line)
    sys.exit(found.counts.problems > 0)


def _gathered(problems: Iterable[Problem]) -> Iterable[str]:
    """Cautions and notes: each text once, with its first place and how many more there are."""
    found: dict[tuple[Grade, str], list[Problem]] = {}
    for problem in problems:
        if problem.grade is not Grade.PROBLEM:
            found.setdefault((problem.grade, problem.message), []).append(problem)
    for (grade, text), (first, *rest) in found.items():
        more = f" and {len(rest)} more" if rest else ""
        also = "".join(f" [see {place}]" for place in first.also)
        yield f"{first.place}{more}: {grade}: {text}{also}"


def _log_json(log: Log) -> dict[str, Any]:
    return {
        "counts": asdict(log.counts),
        "problems": problems_json(log.problems),
        "pages": [_page_json(page) for page in log.pages.values()],
    }


def _page_json(page: PageReport) -> dict[str, Any]:
    return {
        "path": page.path,
        "part": page.part,
        "results": [{"name": item.name, **item_json(item)} for item in page.results],
    }
