"""What was written in the boxes of a bench sheet, as lines to be pasted into its page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from shoplog.log import report_of_text
from shoplog.problems import Grade
from shoplog.render.sheet.gather import Sheet
from shoplog.render.sheet.work import WorkLine

__all__ = ["Box", "boxes_of", "filled", "mistake_in"]

BLANK = "…"
"""Stands where nothing was given; a page does not take it for a value, so it cannot be forgotten.
"""
_RAN = ("speed", "feed", "depth of cut", "width of cut", "passes", "coolant")


@dataclass(frozen=True, slots=True)
class Box:
    """A box of a sheet: what it is called, what was asked, and the line that it becomes."""

    key: str
    asked: str
    where: int
    """The line of the setup on the page; 0 for a measured size."""
    line: str
    """What stands before the answer in the page."""
    stated: str = ""
    """For a measured size: the size as it was asked, which the answer must be of the kind of."""


def boxes_of(sheet: Sheet) -> Iterator[Box]:
    """The boxes of a sheet, from top to bottom."""
    for size in sheet.sizes:
        stated = size.shown.stated
        for piece in range(1, size.boxes + 1):
            number = f" {piece}" if size.boxes > 1 else ""
            start = f"measured {size.name}{number} = "
            yield Box(f"{size.name}{number}", f"{stated}, as measured", 0, start, size.asked)
    for order, work in enumerate(sheet.work, 1):
        yield from _boxes_of_work(work, order)


def _boxes_of_work(work: WorkLine, order: int) -> Iterator[Box]:
    known = {figure.label: figure.own for figure in work.figures}
    called = f"{work.step or order}. {work.operation}"
    for key in _RAN:
        if key in known or key in ("speed", "feed", "depth of cut"):
            planned = f" (planned {known[key]})" if key in known else ""
            yield Box(f"{called}, {key}", f"{key} that ran{planned}", work.line, f"  {key}: ")
    under = "  " if work.has_run else ""
    outcomes = "good, usable, poor or spoiled"
    yield Box(f"{called}, outcome", outcomes, work.line, f"{under}outcome: ")
    yield Box(f"{called}, remarks", "remarks", work.line, f"{under}remarks: ")


def mistake_in(box: Box, answer: str) -> str:
    """What a page would say is wrong with an answer, or nothing.

    >>> bore = Box("bore", "16 mm H7, as measured", 0, "measured bore = ", "16 mm")
    >>> mistake_in(bore, "16.01 mm"), mistake_in(bore, "16.01")
    ('', 'bore is a length; this reading is a plain number; write its unit too')
    """
    if box.where:
        under = "ran:\n" if box.line.startswith("  ") else ""
        text = f"```setup\n{under}{box.line}{answer}\n```\n"
    else:
        name = box.key.partition(" ")[0]
        text = f"```calc\n{name} = {box.stated}\nmeasured {name} = {answer}\n```\n"
    problems = report_of_text(text, "answer").problems
    wrong = next((one.message for one in problems if one.grade is Grade.PROBLEM), "")
    return f"{wrong}; write its unit too" if wrong.endswith(" a plain number") else wrong


def filled(sheet: Sheet, answers: Mapping[Box, str]) -> str:
    """The lines to paste: measured sizes in a calculation block, `ran:` for each setup.

    Without any answer the lines are given with blanks to be written over.
    """
    boxes = list(boxes_of(sheet))
    given = {box: answers.get(box, "") for box in boxes}
    if not any(given.values()):
        given = dict.fromkeys(boxes, BLANK)
    parts = [*_measured(given), *_ran(sheet, given)]
    return "\n\n".join(parts)


def _measured(given: Mapping[Box, str]) -> Iterator[str]:
    lines = [f"{box.line}{text}" for box, text in given.items() if text and not box.where]
    if lines:
        yield "\n".join(["```calc", *lines, "```"])


def _ran(sheet: Sheet, given: Mapping[Box, str]) -> Iterator[str]:
    for work in sheet.work:
        lines = [(box.line, text) for box, text in given.items() if text and box.where == work.line]
        if not lines:
            continue
        feature = f", {work.feature}" if work.feature else ""
        head = f"into the setup at {sheet.path}:{work.line} ({work.operation}{feature}):"
        yield "\n".join([head, "", *_in_order(lines)])


def _in_order(lines: Iterable[tuple[str, str]]) -> Iterator[str]:
    """The lines under `ran:`, then those at the margin."""
    found = [f"{start}{text}" for start, text in lines]
    under = [line for line in found if line.startswith("  ")]
    if under:
        yield "ran:"
        yield from under
    yield from (line for line in found if not line.startswith("  "))
