"""A page's title as a reader sees it."""

from __future__ import annotations

from shoplog.calc.show import show
from shoplog.log.prose import values_in
from shoplog.log.report import PageReport

__all__ = ["shown_title"]


def shown_title(report: PageReport) -> str:
    """The page's heading, with the values of the sizes that it names; nothing without one."""
    title, end = report.title, 0
    parts: list[str] = []
    for found in values_in(title):
        prose = report.prose.get(found.expression)
        if prose is not None and prose.value is not None:
            shown = show(prose.value)
            parts += [title[end : found.start], shown.stated]
            end = found.end
    return "".join((*parts, title[end:]))
