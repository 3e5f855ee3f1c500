"""A page of the log as HTML, piece by piece, for whoever puts the page together."""

from __future__ import annotations

from shoplog.calc.results import Item
from shoplog.log.blocks import PageSource
from shoplog.log.report import BlockReport, PageReport
from shoplog.problems import Grade, Problem
from shoplog.render.anchors import Anchors
from shoplog.render.findings import finding, problem_in_prose, summary
from shoplog.render.html import Html, join, tag
from shoplog.render.page_summary import page_summary
from shoplog.render.past import Link
from shoplog.render.rows import item_rows
from shoplog.render.setup_card import kept_private, setup_card
from shoplog.render.setup_region import Past
from shoplog.render.values import column_heads, inline, prose

__all__ = ["Link", "PageHtml", "view_of_text"]

_COLUMNS = ("Name", "Metric", "Inch", "Note")


class PageHtml:
    """What a page report looks like: its blocks, its values in prose, and its problems.

    Every id is given once on a page, in the order of the page, however often a piece is asked for.
    Without `link`, what is on another page is named by its page and line; without `past`, no setup
    shows earlier ones of its kind.
    """

    def __init__(
        self, report: PageReport, link: Link | None = None, past: Past | None = None
    ) -> None:
        self._report = report
        self._link, self._past = link, past
        self._anchors = Anchors()
        self._blocks = tuple(map(self._block, report.blocks))

    @property
    def source(self) -> PageSource:
        """The page as it was read."""
        return self._report.source

    @property
    def styled(self) -> bool:
        """Whether anything of ours stands in the page, so that it wants the style sheet."""
        report = self._report
        return bool(report.blocks or report.prose or report.count(Grade.PROBLEM))

    @property
    def anchors(self) -> frozenset[str]:
        """The ids of what is ours on the page."""
        return self._anchors.given

    def block_html(self, index: int) -> str:
        """The block of this number, from 0, as HTML."""
        return self._blocks[index]

    def prose_html(self, expression: str) -> str:
        """A value in a sentence, as HTML; the problem in its place where it has none."""
        found = self._report.prose[expression]
        if found.problem is not None and found.problem.grade is Grade.PROBLEM:
            return problem_in_prose(expression, found.problem)
        return prose(found.value)

    def prose_text(self, expression: str) -> str:
        """A value in a sentence, as plain text."""
        found = self._report.prose[expression]
        if found.problem is not None and found.problem.grade is Grade.PROBLEM:
            return f"[={expression}] ✗ Problem: {found.problem.message}"
        return inline(found.value)[0]

    def top_html(self) -> str:
        """What stands below the title: the page in short, and what is wrong in it."""
        report = self._report
        by_block = [(block, _findings(report, block)) for block in report.blocks]
        placed = {problem for _, found in by_block for problem in found}
        hidden = {p for block, found in by_block if block.private for p in found}
        placed |= {found.problem for found in report.prose.values() if found.problem}
        whole = [problem for problem in report.problems if problem not in placed]
        wrong = [p for p in report.problems if p.grade is Grade.PROBLEM and p not in hidden]
        shown = [finding(problem, self._anchors.problem(problem)) for problem in whole]
        links = [(problem, self._anchors.of(problem)) for problem in wrong]
        first = [summary(links)] if len(wrong) > len(whole) else []
        return join([page_summary(report), *first, *shown], "\n").strip()

    def _block(self, block: BlockReport) -> Html:
        found = _findings(self._report, block)
        if block.private:
            return kept_private(found)
        if block.setup is not None:
            return setup_card(block.setup, found, self._anchors, self._link, self._past)
        rows = []
        for item in block.items:
            own = [*item.problems, *_on_lines(found, item)]
            found = [problem for problem in found if problem not in own]
            rows.append(item_rows(item, dict.fromkeys(own), self._anchors, self._link))
        rest = (finding(problem, self._anchors.problem(problem)) for problem in found)
        return tag(
            "div",  # a group: a section would be a landmark, and a page has many blocks
            _table(rows) if rows else "",
            *rest,
            class_=f"shoplog-block shoplog-{block.block.kind}",
            role="group",
            aria_label="Calculation" if block.block.kind == "calc" else "Setup",
        )


def _findings(report: PageReport, block: BlockReport) -> list[Problem]:
    """The findings in a block's lines: its own, and what another page says of them."""
    first, last = block.block.first_line, block.block.last_line
    found = [p for p in report.problems if first <= p.place.line <= last]
    return [*dict.fromkeys([*block.problems, *found])]


def _on_lines(found: list[Problem], item: Item) -> list[Problem]:
    lines = {line.number for line in item.statement.lines}
    return [problem for problem in found if problem.place.line in lines]


def _table(rows: list[Html]) -> Html:
    heads = join(column_heads(*_COLUMNS), "\n")
    table = tag(
        "table",
        tag("thead", tag("tr", heads), data_search_exclude=True),
        tag("tbody", join(rows, "\n")),
        class_="shoplog-table",
    )
    return tag("div", table, class_="shoplog-scroll")


def view_of_text(text: str, path: str = "page.md") -> PageHtml:
    """A page worked out alone, with no log around it: it can read no other page."""
    from shoplog.log import report_of_text

    return PageHtml(report_of_text(text, path))
