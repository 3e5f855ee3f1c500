"""What commands print as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

import click

from shoplog.calc.results import Item, Result
from shoplog.problems import Problem
from shoplog.render.terminal import value_json

__all__ = ["item_json", "print_json", "problems_json"]


def print_json(data: object) -> None:
    """Print data as JSON, for programs."""
    click.echo(json.dumps(data, ensure_ascii=False, indent=2))


def item_json(item: Item | None) -> dict[str, Any]:
    """A result's value, notes and sources; a value of null for what has none."""
    if not isinstance(item, Result):
        return {"value": None}
    return {
        "value": value_json(item.value),
        "notes": item.working.notes,
        "sources": item.working.sources,
    }


def problems_json(problems: Iterable[Problem]) -> list[dict[str, Any]]:
    """Findings, each with its place."""
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
