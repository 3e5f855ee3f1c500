"""A log read and worked out: pages, parts, and the graph between names across pages.

The graph is between names, not pages: two pages may read each other, and only a name that hangs on
itself is a circle. Everything is worked out in one pass over the sorted graph, with no recursion.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import date
from graphlib import CycleError, TopologicalSorter

from shoplog.calc import tree as t
from shoplog.calc.evaluate import Budget, evaluate_text
from shoplog.calc.past import Answer
from shoplog.calc.results import CheckResult, Item, MateResult, PageValue, Unworked
from shoplog.calc.scope import Scope, Waits
from shoplog.calc.statements import Statement, split_statements
from shoplog.calc.work import declare, given_name, reads, work_out
from shoplog.log.blocks import Block, PageSource, read_page
from shoplog.log.header import PageKeys, key_place, read_keys
from shoplog.log.profile.scope import SHOP, ShopScope, shop_scope
from shoplog.log.profile.shop import ShopProfile, read_shop
from shoplog.log.report import BlockReport, PageReport, ProseReport
from shoplog.log.setups.reading import read_setup
from shoplog.problems import Grade, Mistake, Place, Problem, counted, message

__all__ = ["Counts", "Log", "Pasts", "pages_meant", "read_log", "report_of_text", "with_problems"]

CIRCLE = message("circle", "{name} hangs on itself: {way}", example="")
PART_TWICE = message(
    "part-twice",
    "the part `{part}` is given by {path} already",
    hint="one name, one page, within a project folder",
    example="",
)
OWN_NAME_FIRST = message(
    "own-name-first",
    "`{name}` is also the part of {path}; on this page its own name counts",
    example="",
    grade=Grade.CAUTION,
)
NEVER_MATED = message(
    "never-mated",
    "`mates` names `{part}`, and no `mate` between the two is stated",
    hint="write mate … with {part}.NAME",
    example="",
    grade=Grade.CAUTION,
)
NO_SUCH_PART = message(
    "mates-unknown", "`mates` names `{part}`, and no page of this project is that part", example=""
)
CONCEDES_NOTHING_NOW = message(
    "concession-idle",
    "nothing of `{name}` needs this concession",
    grade=Grade.CAUTION,
    example='a = 16 mm H7\nconcession a because "it was worn"',
)
USE_ITSELF = message(
    "use-itself",
    "`{page}` is this page itself",
    hint="its names are read as they are",
    example="",
)
USE_MANY = message(
    "use-many", "`{page}` could be {paths}", hint="write more of its path", example=""
)
WAITS = message("prose-waits", "`{name}` could not be worked out, so this has no value", example="")

TOO_MANY = message(
    "statements-too-many",
    "this page has more than {most} rows; those after them are left out",
    hint="split the page",
    example="",
)

OUR_FAULT = message(
    "our-fault",
    "shoplog itself failed here ({what})",
    hint="the page may well be right: please report this line",
    example="",
)

MOST_STATEMENTS = 4000
MOST_SHOWN = 8  # names of a circle; a longer one says how many more there are
Node = tuple[str, int]
Pasts = Callable[[str, date | None], Answer]


@dataclass(slots=True)
class _Page:
    """A page while it is worked out."""

    key: str
    source: PageSource
    keys: PageKeys
    project: str
    scope: Scope = field(default_factory=Scope)
    statements: list[Statement] = field(default_factory=list)
    block_of: list[int] = field(default_factory=list)
    items: dict[int, Item] = field(default_factory=dict)
    budget: Budget = field(default_factory=Budget)
    extra: list[Problem] = field(default_factory=list)
    declared: dict[int, Problem] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Counts:
    """What a log holds, for the line that a build ends with."""

    pages: int
    results: int
    checks: int
    setups: int
    problems: int
    cautions: int
    concessions: int

    @property
    def line(self) -> str:
        """The counts in one line, as a build ends with them."""
        told = (
            (self.pages, "page"),
            (self.results, "result"),
            (self.checks, "check"),
            (self.setups, "setup"),
            (self.cautions, "caution"),
            (self.concessions, "concession"),
            (self.problems, "problem"),
        )
        return ", ".join(counted(number, word) for number, word in told)


@dataclass(frozen=True, slots=True)
class Log:
    """A log as it came out. `problems` holds every finding, in the order of pages and lines."""

    pages: Mapping[str, PageReport]
    shop: ShopProfile | None
    problems: tuple[Problem, ...]

    @property
    def counts(self) -> Counts:
        """How many pages with something in them, results, checks, setups and findings."""
        reports = self.pages.values()
        checks = [check for report in reports for check in report.checks]
        grades = [problem.grade for problem in self.problems]
        return Counts(
            pages=len(self.pages),
            results=sum(len(report.results) for report in reports),
            checks=len(checks),
            setups=sum(block.setup is not None for report in reports for block in report.blocks),
            problems=grades.count(Grade.PROBLEM),
            cautions=grades.count(Grade.CAUTION),
            concessions=sum(problem.code == "conceded" for problem in self.problems),
        )

    def with_pages(self, pages: Mapping[str, PageReport]) -> Log:
        """The log with other reports of the same pages."""
        of_pages = sum(len(report.problems) for report in self.pages.values())
        before = self.problems[: len(self.problems) - of_pages]
        found = (problem for report in pages.values() for problem in report.problems)
        return Log(pages, self.shop, (*before, *found))


def read_log(
    texts: Mapping[str, str],
    *,
    shop_profile: str | None = None,
    shop_path: str = "shop.yml",
    root: str = "",
    pasts: Pasts | None = None,
) -> Log:
    """Read and work out a whole log.

    Parameters
    ----------
    texts : mapping of str to str [-]
        Each page's text by its path within the log, with `/` between folders. A folder is a
        project.
    shop_profile : str [-]
        The text of `shop.yml`, or None.
    shop_path, root : str [-]
        How problems name that file, and what they put before a page's path.
    pasts : function [-]
        What answers `past(…)` on a page, from the page's path and the day of its front matter;
        without it there are no records to look through.

    Returns
    -------
    Log [-]
        Every page's report. Never raises for what a page holds: that is in the problems.
    """
    shop, problems = read_shop(shop_profile, shop_path) if shop_profile is not None else (None, ())
    pages = {key: _page(key, root, text) for key, text in texts.items()}
    parts = _parts(pages.values())
    at_hand = shop_scope(shop) if shop is not None else None
    for page in pages.values():
        _connect(page, pages, parts, at_hand)
        page.scope.past = pasts(page.key, page.keys.date) if pasts else None
    _work_out(pages, parts)
    reports = {key: _report(page, shop) for key, page in pages.items()}
    for key, extra in _between_pages(pages, parts).items():
        reports[key] = with_problems(reports[key], extra)
    found = tuple(problem for report in reports.values() for problem in report.problems)
    return Log(reports, shop, (*problems, *found))


def report_of_text(text: str, path: str = "page.md") -> PageReport:
    """One page worked out alone."""
    return read_log({path: text}).pages[path]


def _page(key: str, root: str, text: str) -> _Page:
    source = read_page(root + key, text)
    keys, problems = read_keys(source)
    page = _Page(key, source, keys, posixpath.dirname(key), extra=list(problems))
    for index, block in enumerate(source.blocks):
        if block.kind != "calc":
            continue
        found = split_statements(source.path, block.lines)
        page.statements += found
        page.block_of += [index] * len(found)
        if len(page.statements) > MOST_STATEMENTS:
            place = found[-1].place()
            page.extra.append(Mistake(TOO_MANY, most=MOST_STATEMENTS).at(place))
            del page.statements[MOST_STATEMENTS:], page.block_of[MOST_STATEMENTS:]
            break
    page.scope.made = keys.made
    page.declared = declare(page.statements, page.scope)
    return page


Parts = dict[tuple[str, str], str]


def _parts(pages: Iterable[_Page]) -> Parts:
    """Each part's page, by project and part."""
    parts: Parts = {}
    for page in pages:
        if not page.keys.part:
            continue
        known = parts.setdefault((page.project, page.keys.part), page.key)
        if known != page.key:
            mistake = Mistake(PART_TWICE, part=page.keys.part, path=known)
            page.extra.append(mistake.at(key_place(page.source, "part")))
    return parts


def _connect(page: _Page, pages: dict[str, _Page], parts: Parts, at_hand: ShopScope | None) -> None:
    """Give a page's scope its way to other pages and the shop; say where names hide parts."""
    used = {name: _used(page, name, path, pages) for name, (path, _) in page.scope.uses.items()}

    def part(name: str) -> Scope | None:
        key = used.get(name) or parts.get((page.project, name))
        if key is None and name == SHOP:
            return at_hand
        return pages[key].scope if key and key != page.key else None

    page.scope.part = part
    page.scope.part_names = lambda: (
        *used,
        *(name for project, name in parts if project == page.project),
    )
    for name, entry in page.scope.entries.items():
        key = parts.get((page.project, name))
        if key is not None and key != page.key:
            mistake = Mistake(OWN_NAME_FIRST, entry.span, name=name, path=key)
            page.extra.append(entry.statement.problem(mistake))


def pages_meant(path: str, keys: Iterable[str]) -> list[str]:
    """Every page that a `use` may mean, by its whole path or the end of it.

    >>> pages_meant("shaft", ["winch/shaft.md", "shaft/index.md", "winch/crankshaft.md"])
    ['winch/shaft.md', 'shaft/index.md']
    """
    ends = tuple(f"/{end}" for end in _named_in_whole(path))
    return [key for key in keys if f"/{key}".endswith(ends)]


def _named_in_whole(path: str) -> tuple[str, str]:
    wanted = path.strip("/").removesuffix(".md")
    return f"{wanted}.md", f"{wanted}/index.md"


def _used(page: _Page, name: str, path: str, pages: dict[str, _Page]) -> str | None:
    """The page that a `use` names; one that it names in whole comes before the ends of others."""
    found = pages_meant(path, pages)
    exact = [key for key in found if key in _named_in_whole(path)]
    found = exact or found
    if len(found) > 1:
        _refuse_use(page, name, Mistake(USE_MANY, page=path, paths=" or ".join(found[:4])))
        return None
    if found == [page.key]:
        _refuse_use(page, name, Mistake(USE_ITSELF, page=path))
    return found[0] if found else None


def _refuse_use(page: _Page, name: str, mistake: Mistake) -> None:
    for order, statement in enumerate(page.statements):
        if isinstance(statement.node, t.Use) and statement.node.name == name:
            mistake.span = statement.node.page_span
            page.declared.setdefault(order, statement.problem(mistake))


def _work_out(pages: dict[str, _Page], parts: Parts) -> None:
    sorter: TopologicalSorter[Node] = TopologicalSorter()
    waits_for: dict[Node, list[Node]] = {}
    keys = {id(page.scope): key for key, page in pages.items()}
    for page in pages.values():
        for order in range(len(page.statements)):
            before = list(_before(page, order, pages, keys))
            waits_for[page.key, order] = before
            sorter.add((page.key, order), *before)
    done: set[Node] = set()
    for node in _sorted(sorter):
        done.add(node)
        page = pages[node[0]]
        page.items[node[1]] = _item(page, node[1])
    if len(done) < len(waits_for):
        _circles(pages, waits_for, done)


def _sorted(sorter: TopologicalSorter[Node]) -> Iterator[Node]:
    """Every node that no circle holds back, in an order that gives before it reads."""
    with suppress(CycleError):  # it still gives what it can; the rest is told as circles
        sorter.prepare()
    while ready := sorter.get_ready():
        yield from ready
        sorter.done(*ready)


def _before(
    page: _Page, order: int, pages: dict[str, _Page], keys: dict[int, str]
) -> Iterator[Node]:
    """The statements that one hangs on: those that give what it reads."""
    statement = page.statements[order]
    for chain in reads(statement.node):
        first, *rest = chain
        if first in page.scope.entries:
            yield from _givers(page, first, rest, order)
        elif rest and (scope := page.scope.part(first)) is not None:
            key = keys.get(id(scope))
            if key is not None:  # the shop profile is no page, and hangs on none
                yield from _givers(pages[key], rest[0], rest[1:], None)
    if isinstance(statement.node, t.Measured):
        # Readings of a name hang on one another in order, so the last one brings all of them.
        yield from _givers(page, statement.node.name, ["measured"], order)


def _givers(page: _Page, name: str, fields: list[str], order: int | None) -> Iterator[Node]:
    entry = page.scope.entries.get(name)
    if entry is not None and (order is None or entry.order < order):
        yield page.key, entry.order
    if fields[:1] == ["measured"]:
        reading = page.scope.last_reading(name, order)
        if reading is not None:
            yield page.key, reading


def _item(page: _Page, order: int) -> Item:
    statement = page.statements[order]
    if order in page.declared:
        given = given_name(statement)
        name = given[0] if given else ""
        return Unworked(statement, (page.declared[order],), name=name)
    try:
        return work_out(statement, order, page.scope, page.budget)
    except Exception as error:  # a fault of ours is told at its line and costs no other
        mistake = Mistake(OUR_FAULT, what=type(error).__name__)
        return Unworked(statement, (statement.problem(mistake),))


def _circles(pages: dict[str, _Page], waits_for: dict[Node, list[Node]], done: set[Node]) -> None:
    """Tell each circle, with the way round; what only waits for one says so."""
    left = [node for node in waits_for if node not in done]
    visited: set[Node] = set()
    in_circle: dict[Node, tuple[Node, ...]] = {}
    for start in left:
        way: dict[Node, None] = {}
        node = start
        while node not in visited and node not in way:
            way[node] = None
            node = next(one for one in waits_for[node] if one not in done)
        if node in way:
            nodes = tuple(way)
            circle = nodes[nodes.index(node) :]
            in_circle.update(dict.fromkeys(circle, circle))
        visited.update(way)
    for key, order in left:
        page = pages[key]
        circle_met = in_circle.get((key, order))
        if circle_met is None:
            page.items[order] = _item(page, order)
        else:
            page.items[order] = _circle_item(pages, (key, order), circle_met)


def _circle_item(pages: dict[str, _Page], node: Node, circle: tuple[Node, ...]) -> Item:
    at = circle.index(node)
    rest = [circle[(at + step) % len(circle)] for step in range(1, min(len(circle), MOST_SHOWN))]
    shown = [_called(pages, one) for one in (node, *rest)]
    if len(circle) > MOST_SHOWN:
        shown.append(f"… {len(circle) - MOST_SHOWN} more …")
    way = " → ".join([*shown, shown[0]])
    statement = pages[node[0]].statements[node[1]]
    also = tuple(pages[key].statements[order].place() for key, order in rest)
    given = given_name(statement)
    mistake = Mistake(CIRCLE, None, name=shown[0], way=way)
    return Unworked(statement, (statement.problem(mistake, *also),), "", given[0] if given else "")


def _called(pages: dict[str, _Page], node: Node) -> str:
    page = pages[node[0]]
    statement = page.statements[node[1]]
    given = given_name(statement)
    name = given[0] if given else " ".join(statement.code.split())
    return f"{page.keys.part or page.key.removesuffix('.md')}.{name}"


def _report(page: _Page, shop: ShopProfile | None) -> PageReport:
    blocks = []
    setups = 0
    for index, block in enumerate(page.source.blocks):
        orders = [order for order, of in enumerate(page.block_of) if of == index]
        made = _block_report(page, block, [page.items[order] for order in orders], shop)
        if made.setup is not None:
            setups += 1
            anchor = "setup" if setups == 1 else f"setup-{setups}"
            made = replace(made, setup=replace(made.setup, anchor=anchor))
        blocks.append(made)
    prose = {value.expression: _prose(page, value.expression) for value in page.source.prose}
    problems = [
        *page.source.problems,
        *page.extra,
        *_idle_concessions(page),
        *(problem for block in blocks for problem in block.problems),
        *_prose_problems(page, prose),
    ]
    return PageReport(
        page.source,
        page.source.path,
        page.keys.part,
        page.project,
        tuple(blocks),
        {text: report for text, (report, _) in prose.items()},
        _in_order(problems),
        page.keys.date,
        page.keys.records,
        page.keys.made,
    )


def _in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    kept = dict.fromkeys(problems)
    return tuple(sorted(kept, key=lambda found: (found.place.line, found.place.column)))


def _block_report(
    page: _Page, block: Block, items: list[Item], shop: ShopProfile | None
) -> BlockReport:
    if block.kind == "calc":
        found = tuple(problem for item in items for problem in item.problems)
        return BlockReport(block, tuple(items), None, found)

    def evaluate(text: str) -> PageValue:
        return evaluate_text(text, page.scope, budget=page.budget)[0]

    setup, problems = read_setup(block, page.source.path, evaluate, shop)
    return BlockReport(block, (), setup, problems)


def _prose(page: _Page, expression: str) -> tuple[ProseReport, Mistake | None]:
    try:
        value, _ = evaluate_text(expression, page.scope, budget=page.budget)
    except Waits as waits:
        mistake = Mistake(WAITS, name=waits.name)
    except Mistake as met:
        mistake = met
    else:
        return ProseReport(expression, value), None
    return ProseReport(expression, None, mistake.at(Place(page.source.path, 1, 1))), mistake


def _prose_problems(
    page: _Page, prose: dict[str, tuple[ProseReport, Mistake | None]]
) -> Iterator[Problem]:
    for value in page.source.prose:
        report, mistake = prose[value.expression]
        if mistake is None:
            continue
        span = mistake.span
        column = value.expression_column + (span.start if span else 0)
        width = span.end - span.start if span else len(value.expression)
        source = page.source.lines[value.line - 1]
        problem = mistake.at(Place(page.source.path, value.line, column, max(1, width), source))
        if report.problem is not None and report.problem.place.source == "":
            prose[value.expression] = replace(report, problem=problem), mistake
        if mistake.message is WAITS:
            problem = replace(problem, grade=Grade.NOTE)
        yield problem


def _idle_concessions(page: _Page) -> Iterator[Problem]:
    for order, statement in enumerate(page.statements):
        node = statement.node
        if not isinstance(node, t.Concession) or order in page.declared:
            continue
        if node.name in page.scope.entries and node.name not in page.scope.conceded:
            yield statement.problem(Mistake(CONCEDES_NOTHING_NOW, node.name_span, name=node.name))


def _between_pages(pages: dict[str, _Page], parts: Parts) -> dict[str, list[Problem]]:
    """What one page's statements say of another page: failures mirrored, mates never stated."""
    extra: dict[str, list[Problem]] = {}
    by_path = {page.source.path: key for key, page in pages.items()}
    mated: set[frozenset[str]] = set()
    for page in pages.values():
        for item in page.items.values():
            for problem in _mirrored(item):
                extra.setdefault(by_path[problem.place.path], []).append(problem)
            if isinstance(item.statement.node, t.Mate):
                mated.update(frozenset((page.key, key)) for key in _read_pages(page, item, parts))
    for page in pages.values():
        for part in page.keys.mates:
            key = parts.get((page.project, part))
            place = key_place(page.source, "mates")
            if key is None:
                extra.setdefault(page.key, []).append(Mistake(NO_SUCH_PART, part=part).at(place))
            elif frozenset((page.key, key)) not in mated:
                extra.setdefault(page.key, []).append(Mistake(NEVER_MATED, part=part).at(place))
    return extra


def _read_pages(page: _Page, item: Item, parts: Parts) -> Iterator[str]:
    for chain in reads(item.statement.node):
        key = parts.get((page.project, chain[0]))
        if key is not None and chain[0] not in page.scope.entries:
            yield key


def _mirrored(item: Item) -> Iterator[Problem]:
    if not isinstance(item, CheckResult | MateResult | Unworked):
        return
    failed = [found for found in item.problems if found.grade is Grade.PROBLEM]
    for place in item.mirrors:
        for found in failed:
            yield replace(found, place=place, also=(found.place,))


def with_problems(report: PageReport, extra: Iterable[Problem]) -> PageReport:
    """A page's report with more findings, in the file's order."""
    return replace(report, problems=_in_order((*report.problems, *extra)))
