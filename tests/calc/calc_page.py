"""Small pages for the tests of the calculation language: what a block gives and what is wrong."""

from __future__ import annotations

from typing import Any

from shoplog.calc.results import Item, Result
from shoplog.log import Log, read_log
from shoplog.problems import Grade, Problem
from shoplog.units import convert, unit
from shoplog.values import Value


def block(text: str, front: str = "") -> str:
    """A page with one calculation block, and what its front matter says."""
    header = f"---\n{front}\n---\n" if front else ""
    return f"{header}```calc\n{text}\n```\n"


def log_of(text: str, front: str = "") -> Log:
    return read_log({"page.md": block(text, front)})


def items(text: str, front: str = "") -> tuple[Item, ...]:
    """What each row of a block gives, in order."""
    return log_of(text, front).pages["page.md"].blocks[0].items


def told(problem: Problem, first: int = 1) -> str:
    """A finding as `line:column message (hint)`, the block's first row being line 1."""
    grade = "" if problem.grade is Grade.PROBLEM else f"{problem.grade}: "
    hint = f" ({problem.hint})" if problem.hint else ""
    return f"{problem.place.line - first}:{problem.place.column} {grade}{problem.message}{hint}"


def findings(text: str, front: str = "") -> list[str]:
    """Every finding of a block, in order."""
    first = 1 + (len(front.splitlines()) + 2 if front else 0)
    return [told(found, first) for found in log_of(text, front).problems]


def only(text: str, front: str = "") -> tuple[str, str, str]:
    """The place, the message and the hint of the one finding of a block."""
    first = 1 + (len(front.splitlines()) + 2 if front else 0)
    (found,) = log_of(text, front).problems
    grade = "" if found.grade is Grade.PROBLEM else f"{found.grade}: "
    place = f"{found.place.line - first}:{found.place.column}"
    return place, f"{grade}{found.message}", found.hint


def codes(text: str, front: str = "") -> list[str]:
    """The codes of every finding of a block."""
    return [found.code for found in log_of(text, front).problems]


def values(text: str, front: str = "") -> dict[str, Any]:
    """The value of each name that a block gives."""
    return {item.name: item.value for item in items(text, front) if isinstance(item, Result)}


def value(expression: str, before: str = "") -> Any:
    """The value of an expression, which nothing may be wrong with."""
    text = f"{before}\nanswer = {expression}".strip()
    problems = [found for found in findings(text) if "caution: " not in found]
    assert problems == []
    return values(text)["answer"]


def number(expression: str, unit_text: str = "", before: str = "") -> float:
    """The number of an expression in a unit."""
    found = value(expression, before)
    assert isinstance(found, Value)
    return convert(found.nominal, found.unit, unit(unit_text))


def limits(expression: str, unit_text: str, before: str = "") -> tuple[float, float]:
    """The least and the greatest value of an expression in a unit, to 9 places."""
    found = value(expression, before)
    assert isinstance(found, Value)
    assert found.has_limits
    wanted = unit(unit_text)
    ends = (convert(end, found.unit, wanted) for end in (found.min, found.max))
    least, most = (round(end, 9) for end in ends)
    return least, most


def project(**pages: str) -> Log:
    """A project of parts, one page and one block each; a block's first row is line 5."""
    return read_log({f"{part}.md": block(text, f"part: {part}") for part, text in pages.items()})


def lines_of(log: Log) -> list[str]:
    """Every finding of a log in one line each."""
    return [found.line for found in log.problems]
