"""A row of a sheet as the lines of a setup block, held to what a setup block may say."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from shoplog.calc.evaluate import Budget, evaluate_text
from shoplog.calc.results import PageValue
from shoplog.calc.scope import Scope
from shoplog.find.export import unguarded
from shoplog.find.taking.cells import cell_value, one_line
from shoplog.find.taking.cutter import CutterWords
from shoplog.find.taking.figures import Edge, amount, one_feed, one_speed
from shoplog.find.taking.plan import BLANKS, Column, Plan
from shoplog.find.taking.sheet import Sheet
from shoplog.find.taking.text import Row
from shoplog.log.blocks import Block, Line
from shoplog.log.fences import MAX_BLOCK
from shoplog.log.profile.shop import ShopProfile
from shoplog.log.setups.figures import BY_HAND
from shoplog.log.setups.keys import SETUP_KEYS, Reads
from shoplog.log.setups.lines import clipped
from shoplog.log.setups.quantities import Evaluate
from shoplog.log.setups.reading import read_setup
from shoplog.problems import Grade, Mistake, Problem, message

__all__ = ["RowReader", "Taken"]

MOST_CELL = 32_000
"""Characters of a cell; the block that it goes into has a bound of its own."""

LONG = message("take-long", "this cell has {size} characters; it may have {most}", example="")
LONG_ROW = message(
    "take-long-row", "this row has {size} characters; a setup may have {most}", example=""
)
EXTRA = message(
    "take-extra",
    "the row has {found} cells, and there are {wanted} headings",
    hint="a cell that holds the separator stands in quotes",
    example="",
)
DIFFER = message(
    "take-differ",
    "it says {key} is `{text}`, and the column `{other}` says `{before}`",
    hint="take one of the two columns; the mapping file may `skip` the other",
    example="",
)
NOTHING = message("take-nothing", "nothing of a setup stands in this row", example="")

# What a row may say and yet be no setup.
_BESIDE = frozenset(
    ("date", "step", "feature", "outcome", "fault", "remarks", "pictures", "private")
)


@dataclass(frozen=True, slots=True)
class Taken:
    """A row that became a setup: the text of its block, and what its page is known by."""

    line: int
    """The line of the file that the row begins on."""
    text: str
    project: str
    page: str
    part: str
    date: str


@dataclass(slots=True)
class _Said:
    """What a row says, by where it goes and its key, each with the column that says it."""

    values: dict[tuple[str, str], tuple[str, Column | None]] = field(default_factory=dict)
    feeds: dict[str, list[tuple[str, Column]]] = field(default_factory=dict)
    remarks: list[str] = field(default_factory=list)
    page: dict[str, str] = field(default_factory=dict)
    cutter: dict[str, str] = field(default_factory=dict)

    def text(self, key: str, under: str = "setup") -> str:
        return self.values.get((under, key), ("", None))[0]

    def put(self, key: str, text: str, under: str = "setup") -> None:
        """Change what is said, or take it away; the column stays the one that said it."""
        column = self.values.pop((under, key), ("", None))[1]
        if text:
            self.values[under, key] = (text, column)


class RowReader:
    """Reads the rows of a sheet one by one.

    Parameters
    ----------
    sheet : Sheet [-]
        Where problems are placed.
    plan : Plan [-]
        What its columns become; with no question left.
    shop : ShopProfile [-]
        That of the log which the rows go to, where it has one.
    """

    def __init__(self, sheet: Sheet, plan: Plan, shop: ShopProfile | None) -> None:
        self._sheet, self._plan, self._shop = sheet, plan, shop
        self._columns = plan.used

    def read(self, row: Row) -> tuple[Taken | None, list[Problem]]:
        """A row as a setup, or every reason why it is none."""
        said, problems = _Said(), []
        wanted = len(self._sheet.headings)
        if any(cell.strip() for cell in row.cells[wanted:]):
            mistake = Mistake(EXTRA, found=len(row.cells), wanted=wanted)
            problems.append(mistake.at(self._sheet.rows.place(row, wanted)))
        for column in self._columns:
            try:
                if column.index < len(row.cells):
                    self._take(said, column, row.cells[column.index])
            except Mistake as mistake:
                problems.append(self._problem(mistake, row, column))
        if problems:
            return None, problems
        self._settle(said)
        return self._checked(row, said)

    def _problem(self, mistake: Mistake, row: Row, column: Column | None) -> Problem:
        found = mistake.at(self._sheet.rows.place(row, column.index if column else 0))
        return _of_column(found, column)

    def _take(self, said: _Said, column: Column, cell: str) -> None:
        """Keep what a cell says where its column goes."""
        target = column.target
        if len(cell) > MOST_CELL:
            raise Mistake(LONG, size=len(cell), most=MOST_CELL)
        text = unguarded(cell.strip())
        if not text or (target.reads not in _TEXTS and text.casefold() in BLANKS):
            return
        if target.name == "remarks":
            told = one_line(text)
            said.remarks.append(f"{column.heading}: {told}" if column.named else told)
        elif target.under in ("page", "cutter"):
            into = said.page if target.under == "page" else said.cutter
            into.setdefault(target.key, cell_value(column, text, self._plan)[1])
        else:
            self._keep(said, column, *cell_value(column, text, self._plan))

    def _keep(self, said: _Said, column: Column, key: str, text: str) -> None:
        under = column.target.under
        if not text:
            return
        if key == "feed":
            said.feeds.setdefault(under, []).append((text, column))
            return
        before, other = said.values.setdefault((under, key), (text, column))
        if other is not None and other is not column and not _same(before, text, column):
            data = {"key": key, "text": clipped(text), "other": other.heading}
            raise Mistake(DIFFER, None, hint=None, before=clipped(before), **data)

    def _settle(self, said: _Said) -> None:
        """Put together what several columns say of one thing."""
        cutter = CutterWords(self._shop, self._evaluate())
        cutter.settle(said.text("cutter"), said.cutter)
        said.put("cutter", cutter.text)
        said.remarks += cutter.left
        for key in ("cutter diameter", "teeth"):
            if cutter.says(key, said.text(key)):
                said.put(key, "")
        edge = Edge.of(
            said.text("operation"),
            amount(said.text("diameter"), "mm"),
            amount(said.text("cutter diameter"), "mm") or cutter.diameter,
            amount(said.text("teeth"), "") or cutter.teeth,
        )
        for under in ("planned", "ran"):
            self._settle_run(said, under, edge)
        if said.remarks:
            said.values["setup", "remarks"] = ("; ".join(said.remarks), None)

    def _settle_run(self, said: _Said, under: str, edge: Edge) -> None:
        speed, cutting = said.text("speed", under), said.text("cutting speed", under)
        feeds = said.feeds.get(under, [])
        by_hand = [one for one in feeds if one[0] == BY_HAND]
        told = [one for one in feeds if one[0] != BY_HAND]
        chosen, others = "", []
        if by_hand:
            said.values[under, "feed"] = by_hand[0]
            others = [text for text, _ in told]
        elif told:
            chosen, others = one_feed([text for text, _ in told], edge, speed, cutting)
            said.values[under, "feed"] = next(one for one in told if one[0] == chosen)
        for text, column in told:
            if text in others:
                said.remarks.append(f"{column.heading}: {text}")
        speed, cutting = one_speed(speed, cutting, edge)
        said.put("speed", speed, under)
        said.put("cutting speed", cutting, under)

    def _checked(self, row: Row, said: _Said) -> tuple[Taken | None, list[Problem]]:
        """The setup, if a block of a page may hold it."""
        lines = list(_lines(said))
        keys = {key for under, key in said.values if under == "setup"}
        if not keys - _BESIDE and not any(under != "setup" for under, _ in said.values):
            return None, [self._problem(Mistake(NOTHING), row, None)]
        size = sum(len(text) + 1 for text, _ in lines)
        if size > MAX_BLOCK:
            mistake = Mistake(LONG_ROW, size=size, most=MAX_BLOCK)
            return None, [self._problem(mistake, row, None)]
        numbered = tuple(Line(n, 1, text) for n, (text, _) in enumerate(lines))
        block = Block("setup", 0, len(lines), 1, numbered, closed=True)
        found = read_setup(block, self._sheet.rows.path, self._evaluate(), self._shop)[1]
        wrong = [
            self._moved(one, row, lines[one.place.line][1])
            for one in found
            if one.grade is Grade.PROBLEM
        ]
        if wrong:
            return None, wrong
        page = said.page
        return Taken(
            row.line,
            "\n".join(text for text, _ in lines),
            page.get("project", ""),
            page.get("page", ""),
            page.get("part", ""),
            said.text("date"),
        ), []

    def _moved(self, found: Problem, row: Row, column: Column | None) -> Problem:
        """A finding of the block at the cell that it comes from."""
        place = self._sheet.rows.place(row, column.index if column else 0)
        return _of_column(replace(found, place=place, also=()), column)

    def _evaluate(self) -> Evaluate:
        """Works out a text by itself: no name of any page is known to it."""
        scope, budget = Scope(), Budget()

        def evaluate(text: str) -> PageValue:
            return evaluate_text(text, scope, budget=budget)[0]

        return evaluate


_TEXTS = (Reads.TEXT, Reads.CUTTER, Reads.WORDS)


def _of_column(found: Problem, column: Column | None) -> Problem:
    named = f"{column.heading}: {found.message}" if column else found.message
    return replace(found, message=named)


def _same(one: str, other: str, column: Column) -> bool:
    """Whether two texts say the same; sizes may differ as rounding to another unit makes them."""
    if one.casefold() == other.casefold():
        return True
    unit_text = column.target.units[0] if column.target.units else ""
    first, second = amount(one, unit_text), amount(other, unit_text)
    return bool(first and second and abs(first - second) <= 0.005 * abs(first))


def _lines(said: _Said) -> Iterator[tuple[str, Column | None]]:
    """The lines of the block, in the order of the keys, each with the column that it is from."""
    for key in SETUP_KEYS.values():
        if key.reads is Reads.LINES:
            yield from _section(key.name, said)
        elif ("setup", key.name) in said.values:
            text, column = said.values["setup", key.name]
            yield f"{key.name}: {text}", column


def _section(under: str, said: _Said) -> Iterable[tuple[str, Column | None]]:
    found = [
        (f"  {name}: {said.values[under, name][0]}", said.values[under, name][1])
        for name in SETUP_KEYS
        if (under, name) in said.values
    ]
    return [(f"{under}:", found[0][1]), *found] if found else []
