"""A question answered from one's own index, and with it from the published setups of other logs."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from shoplog.find.clean import clean, clipped
from shoplog.find.indexing.store import Store
from shoplog.find.nearness import NEAR_COLUMNS, Likeness, likeness
from shoplog.find.questions import SORTS, Condition, Question, conditions_of
from shoplog.find.record import Record, record_from
from shoplog.find.wrong import WrongQuestion
from shoplog.problems import near

if TYPE_CHECKING:
    from shoplog.find.sizes_asked import SizeAsked

__all__ = ["Answer", "Found", "FoundSize", "Source", "answer", "find_sizes", "nearest_to"]

MOST_NEAR = 5000


@dataclass(frozen=True, slots=True)
class Source:
    """An index that is asked, and whose it is: one's own log has no name here."""

    store: Store
    root: str = ""
    """What a place puts before a page's path."""
    within: str = ""
    """What the paths of the pages that are asked about begin with."""
    whose: str = ""


@dataclass(frozen=True, slots=True)
class Found:
    """A record that answers, whose it is, and why it is near where that was asked."""

    record: Record
    root: str = ""
    whose: str = ""
    why: tuple[str, ...] = ()

    @property
    def place(self) -> str:
        """The page and the line, which most terminals make a link of; another log has no pages."""
        path = clean(f"{self.root}{self.record.page}")
        return f"{path}:{self.record.line}" if self.record.line else path


@dataclass(frozen=True, slots=True)
class Answer:
    """The records that answer a question, in order; how many there are; what kept others out."""

    found: tuple[Found, ...]
    count: int
    loosened: tuple[tuple[str, int], ...] = ()
    """Where nothing answers: each condition, and how many would answer without it."""
    asked: bool = True
    """Whether any condition was put, to any record."""


@dataclass(frozen=True, slots=True)
class FoundSize:
    """A named size that answers, and where it stands."""

    place: str
    name: str
    shown: str


@dataclass(frozen=True, slots=True)
class _Order:
    """What answers are sorted by: an expression of SQL, and whether the greatest comes first."""

    sql: str
    falling: bool
    values: tuple[Any, ...] = ()


def answer(
    question: Question,
    sources: Sequence[Source],
    *,
    sort: str = "date",
    limit: int | None = None,
    like: Likeness | None = None,
    except_for: tuple[str, str] = ("", ""),
) -> Answer:
    """Answer a question.

    Parameters
    ----------
    question : Question [-]
        What is asked.
    sources : sequence of Source [-]
        The indexes that are asked, one's own first.
    sort : str [-]
        A key of `SORTS`; a `-` before it turns the order round.
    limit : int [-]
        The most that are given; all are counted.
    like : Likeness [-]
        A setup: those that ran and do the same or one of its kind come in the order of their
        nearness to it.
    except_for : tuple of str [-]
        The page and the anchor of a setup of one's own log that does not count.

    Raises
    ------
    WrongQuestion
        It names what nothing knows, or an order that there is not.
    """
    conditions = conditions_of(question, [one.store for one in sources])
    order = _order(sort)
    if like is not None:
        conditions = (*conditions, *_of_its_kind(like))
        order = _Order(f"nearness({', '.join(NEAR_COLUMNS)})", True)
        for one in sources:
            one.store.connection.create_function("nearness", len(NEAR_COLUMNS), like.score)
    count = sum(_count(one, conditions, except_for) for one in sources)
    if not count:
        loosened = tuple(_loosened(conditions, sources, except_for))
        any_at_all = any(_count(one, (), ("", "")) for one in sources)
        return Answer((), 0, loosened, asked=bool(conditions) and any_at_all)
    rows = [
        (value, whose, page, place, own)
        for whose, one in enumerate(sources)
        for value, page, place, own in _rows(one, conditions, except_for, order, limit)
    ]
    return Answer(
        tuple(
            _found(sources[whose], own, like) for _, whose, *_, own in _sorted(rows, order, limit)
        ),
        count,
    )


def _order(sort: str) -> _Order:
    turned = sort.startswith("-")
    name = sort.removeprefix("-")
    if name not in SORTS:
        close = near(name, SORTS)
        hint = f"; did you mean {close}?" if close else ""
        shown = clipped(clean(name), 40)
        raise WrongQuestion(
            f"--sort is {', '.join(SORTS)}, a - before it turns it; not `{shown}`{hint}"
        )
    sql, falling = SORTS[name]
    return _Order(sql, falling != turned)


def _of_its_kind(like: Likeness) -> tuple[Condition, ...]:
    """What could be near at all: it ran, and does the same or one of its kind."""
    ran = Condition("--like (which asks for what ran)", "run > 0")
    if not like.operation:
        return (ran,)
    kind = "(operation_kind = ? OR operation_kind LIKE '% ' || ?)"
    return (ran, Condition(f"--like ({like.operation})", kind, (like.kin, like.kin)))


def _where(
    source: Source, conditions: Iterable[Condition], except_for: tuple[str, str]
) -> tuple[str, list[Any]]:
    parts = [f"({one.sql})" for one in conditions]
    values = [value for one in conditions for value in one.values]
    if source.within:
        parts.append("substr(page, 1, ?) = ?")
        values += [len(source.within), source.within]
    if except_for[0] and not source.whose:
        parts.append("NOT (page = ? AND anchor = ?)")
        values += except_for
    return " AND ".join(parts) or "1", values


def _count(source: Source, conditions: Iterable[Condition], except_for: tuple[str, str]) -> int:
    where, values = _where(source, tuple(conditions), except_for)
    run = source.store.connection.execute
    (count,) = run(f"SELECT count(*) FROM records WHERE {where}", values).fetchone()
    return int(count)


def _rows(
    source: Source,
    conditions: tuple[Condition, ...],
    except_for: tuple[str, str],
    order: _Order,
    limit: int | None,
) -> list[tuple[Any, str, int, int]]:
    where, values = _where(source, conditions, except_for)
    sql = (
        f"SELECT {order.sql} AS value, page, place, id FROM records WHERE {where}"
        f" ORDER BY value IS NULL, value {'DESC' if order.falling else 'ASC'}, page, place LIMIT ?"
    )
    found = source.store.connection.execute(sql, [*values, -1 if limit is None else limit])
    return found.fetchall()


def _sorted(rows: list[Any], order: _Order, limit: int | None) -> list[Any]:
    """Rows of several indexes in one order; what has no value comes last."""
    told = [row for row in rows if row[0] is not None]
    told.sort(key=lambda row: row[0], reverse=order.falling)  # those that are equal keep theirs
    return [*told, *(row for row in rows if row[0] is None)][:limit]


def _found(source: Source, own: int, like: Likeness | None) -> Found:
    run = source.store.connection.execute
    (data,) = run("SELECT told FROM kept WHERE id = ?", (own,)).fetchone()
    why: tuple[str, ...] = ()
    if like is not None:
        columns = ", ".join(NEAR_COLUMNS)
        why = like.why(*run(f"SELECT {columns} FROM records WHERE id = ?", (own,)).fetchone())
    return Found(record_from(json.loads(data)), source.root, source.whose, why)


def _loosened(
    conditions: tuple[Condition, ...], sources: Sequence[Source], except_for: tuple[str, str]
) -> Iterable[tuple[str, int]]:
    """How many would answer without each condition, where any would."""
    for left_out in conditions:
        others = [one for one in conditions if one is not left_out]
        count = sum(_count(one, others, except_for) for one in sources)
        if count:
            yield left_out.text, count


def nearest_to(source: Source, setup: str) -> tuple[Likeness, tuple[str, str]]:
    """What a setup of one's own log is compared by, and its page and anchor.

    Parameters
    ----------
    source : Source [-]
        One's own index.
    setup : str [-]
        `PAGE#setup`, the page from the folder of the pages, from here, or by the end of its path;
        without an anchor the page's first.

    Raises
    ------
    WrongQuestion
        There is no such setup, or several pages end so.
    """
    page, mark, anchor = setup.rpartition("#")
    if not mark or anchor.endswith(".md"):  # a name of a file may hold a mark of its own
        page, anchor = setup, ""
    key = _page_of(source, page)
    anchor = anchor.partition(".")[0] or "setup"
    run = source.store.connection.execute
    columns = ", ".join(NEAR_COLUMNS)
    sql = f"SELECT {columns} FROM records WHERE page = ? AND anchor = ? ORDER BY place LIMIT 1"
    found = run(sql, (key, anchor)).fetchone()
    if found is None:
        known = [
            name for (name,) in run("SELECT DISTINCT anchor FROM records WHERE page = ?", (key,))
        ]
        hint = f"; it has {', '.join(known)}" if known else "; it has no setup"
        raise WrongQuestion(
            f"--like: {clean(key)} has no setup `{clipped(clean(anchor), 40)}`{hint}"
        )
    return likeness(found), (key, anchor)


def _page_of(source: Source, page: str) -> str:
    """The key of a page as someone writes it."""
    wanted = page.strip().replace("\\", "/").removeprefix("./")
    wanted = wanted if wanted.endswith(".md") else f"{wanted}.md"
    keys = [key for (key,) in source.store.connection.execute("SELECT key FROM pages")]
    exact = [key for key in keys if wanted in (key, f"{source.root}{key}")]
    ending = exact or [key for key in keys if key.endswith(f"/{wanted}")]
    if len(ending) == 1:
        return str(ending[0])
    shown = clipped(clean(wanted), 80)
    if ending:
        several = " or ".join(clean(key) for key in ending[:4])
        raise WrongQuestion(f"--like: `{shown}` could be {several}")
    close = near(wanted, keys[:MOST_NEAR])
    hint = f"; did you mean {clean(close)}?" if close else ""
    raise WrongQuestion(f"--like: there is no page `{shown}`{hint}")


def find_sizes(source: Source, asked: SizeAsked) -> tuple[FoundSize, ...]:
    """The named sizes that are the one that is asked for, in the order of pages and lines."""
    where, values = asked.condition, list(asked.values)
    if source.within:
        where += " AND substr(page, 1, ?) = ?"
        values += [len(source.within), source.within]
    sql = f"SELECT page, line, name, shown FROM sizes WHERE {where} ORDER BY page, line, id"
    rows = source.store.connection.execute(sql, values)
    return tuple(
        FoundSize(clean(f"{source.root}{page}:{line}"), name, shown)
        for page, line, name, shown in rows
    )
