"""Questions asked of an index: words and conditions, each as SQL with its values apart.

Nothing of what is asked becomes a part of a statement: texts are values, words are quoted for the
search, and what is left to choose from stands here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from shoplog.find.clean import clean, clipped
from shoplog.find.indexing.store import Store
from shoplog.find.names import key_of, operation_key
from shoplog.find.ranges import Range
from shoplog.find.wrong import WrongQuestion
from shoplog.outcomes import OUTCOMES
from shoplog.problems import near

__all__ = ["SORTS", "Condition", "Question", "conditions_of", "read_day", "read_outcomes"]

MOST_SHOWN = 40
MOST_WORDS = 30
MOST_NEAR = 5000

_BY_OUTCOME = " ".join(f"WHEN '{word}' THEN {rank}" for rank, word in enumerate(OUTCOMES))
SORTS: dict[str, tuple[str, bool]] = {
    "date": ("nullif(date, '')", True),
    "outcome": (f"CASE outcome {_BY_OUTCOME} END", False),
    "cutting-speed": ("cutting_speed_m_per_min", False),
    "feed": ("coalesce(feed_per_tooth_mm, feed_per_rev_mm)", False),
    "diameter": ("coalesce(diameter_mm, cutter_diameter_mm)", False),
}
"""What answers are sorted by, and whether the greatest comes first where nothing else is said."""


@dataclass(frozen=True, slots=True)
class Condition:
    """A part of a question: as it was asked, and as SQL with its values."""

    text: str
    sql: str
    values: tuple[Any, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked of past setups; every part narrows it, and several values of one part widen."""

    words: tuple[str, ...] = ()
    named: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Names by the field that they are asked for in: a column of `NAMED`, or `fault`."""
    ranges: tuple[Range, ...] = ()
    outcomes: tuple[str, ...] = ()
    since: str = ""
    until: str = ""
    ran: bool | None = None
    """Only what ran, or only what was planned and did not."""
    private: bool = True
    """Whether private records count: they do in the author's own index."""


def read_outcomes(text: str) -> tuple[str, ...]:
    """Outcomes between commas.

    Raises
    ------
    WrongQuestion
        One of them is none.
    """
    words = tuple(word.strip().casefold() for word in text.split(",") if word.strip())
    for word in words:
        if word not in OUTCOMES:
            close = near(word, OUTCOMES)
            hint = f"; did you mean {close}?" if close else ""
            shown = clipped(clean(word), MOST_SHOWN)
            raise WrongQuestion(f"--outcome is {', '.join(OUTCOMES)}; this is `{shown}`{hint}")
    if not words:
        raise WrongQuestion(f"--outcome is {', '.join(OUTCOMES)}, or several between commas")
    return words


_DAY = re.compile(r"\d{4}(?:-(?:0[1-9]|1[0-2])(?:-(?:0[1-9]|[12]\d|3[01]))?)?", re.ASCII)


def read_day(option: str, text: str) -> str:
    """A day, a month or a year, as the beginning of a date.

    Raises
    ------
    WrongQuestion
        It is none of them.
    """
    text = text.strip()
    if not _DAY.fullmatch(text):
        shown = clipped(clean(text), MOST_SHOWN)
        raise WrongQuestion(f"--{option} is a day, a month or a year, as 2026-03-14; not `{shown}`")
    return text


def conditions_of(question: Question, stores: Iterable[Store]) -> tuple[Condition, ...]:
    """A question as conditions on the table of records.

    Raises
    ------
    WrongQuestion
        A name is asked for that no record, and no table, knows.
    """
    return tuple(_conditions(question, tuple(stores)))


def _conditions(question: Question, stores: tuple[Store, ...]) -> Iterator[Condition]:
    if len(question.words) > MOST_WORDS:
        raise WrongQuestion(f"{len(question.words)} words are asked for, {MOST_WORDS} at most")
    yield from map(_word, question.words)
    for named, values in question.named.items():
        yield _named(named, values, stores)
    yield from map(_range, question.ranges)
    if question.outcomes:
        marks = _marks(question.outcomes)
        text = f"--outcome {','.join(question.outcomes)}"
        yield Condition(text, f"outcome IN ({marks})", question.outcomes)
    if question.since:
        yield Condition(f"--since {question.since}", "date >= ?", (question.since,))
    if question.until:
        beyond = f"{question.until}~"  # behind every day of a month or a year that is given alone
        yield Condition(f"--until {question.until}", "date <> '' AND date <= ?", (beyond,))
    if question.ran is not None:
        text, sign = ("--ran", ">") if question.ran else ("--planned-only", "=")
        yield Condition(text, f"run {sign} 0")
    if not question.private:
        yield Condition("--no-private", "NOT private")


def _marks(values: tuple[str, ...]) -> str:
    return ", ".join("?" * len(values))


def _word(word: str) -> Condition:
    """A word, or several that stand together; the last may go on.

    What has no letter and no figure is no word for the search, and is looked for as it is.
    """
    shown = clipped(clean(word), MOST_SHOWN)
    if not any(map(str.isalnum, word)):
        sql = "id IN (SELECT id FROM kept WHERE instr(words, ?))"
        return Condition(shown, sql, (clean(word),))
    asked = dict.fromkeys((_quoted(word), _quoted(key_of(word))))
    sql = "id IN (SELECT rowid FROM search WHERE search MATCH ?)"
    return Condition(shown, sql, (" OR ".join(asked),))


def _quoted(word: str) -> str:
    """A word as a text of the search's own language, of which it then holds nothing."""
    doubled = clean(word).replace('"', '""')
    return f'"{doubled}"*'


def _range(asked: Range) -> Condition:
    parts, values = [], []
    for sign, end in ((">=", asked.least), ("<=", asked.most)):
        if end is not None:
            parts.append(f"{asked.column} {sign} ?")
            values.append(end)
    return Condition(f"--{asked.option} {asked.text}", " AND ".join(parts), tuple(values))


def _named(named: str, values: tuple[str, ...], stores: tuple[Store, ...]) -> Condition:
    keys = tuple(_key(named, value, stores) for value in values)
    found = f"SELECT value FROM names WHERE field = ? AND key IN ({_marks(keys)})"
    sql = f"{named} IN ({found})"
    if named == "fault":
        sql = f"id IN (SELECT record FROM faults WHERE fault IN ({found}))"
    text = " ".join(f"--{named.replace('_', '-')} {clean(value)}" for value in values)
    return Condition(text, sql, (named, *keys))


def _key(named: str, value: str, stores: tuple[Store, ...]) -> str:
    """The key of a name that a record knows, or of what the tables call it.

    Raises
    ------
    WrongQuestion
        Nothing goes by that name.
    """
    value = value.strip()
    keyed = operation_key if named == "operation" else key_of
    own = keyed(value)
    if any(_is_known(store, named, own) for store in stores):
        return own
    called = _in_tables(named, value)
    if called:
        return keyed(called)
    what = named.replace("_", " ")
    shown = clipped(clean(value), MOST_SHOWN)
    close = near(value[:MOST_SHOWN], _names(named, stores))
    hint = f"; did you mean {close}?" if close else ""
    raise WrongQuestion(f"no setup has the {what} `{shown}`, and no table knows it{hint}")


def _is_known(store: Store, named: str, key: str) -> bool:
    sql = "SELECT 1 FROM names WHERE field = ? AND key = ?"
    return store.connection.execute(sql, (named, key)).fetchone() is not None


def _names(named: str, stores: tuple[Store, ...]) -> Iterator[str]:
    """The names of a field that are near enough to be hinted at: the tables', then the records'."""
    for store in stores:
        sql = "SELECT DISTINCT name FROM names WHERE field = ? LIMIT ?"
        yield from (name for (name,) in store.connection.execute(sql, (named, MOST_NEAR)))
    if named in ("material", "operation", "cutter_material"):
        from shoplog.find.spoken import names_in_tables

        yield from names_in_tables(named)


def _in_tables(named: str, value: str) -> str:
    """What the tables of the trade call a name; they are read when no record knows it."""
    if named not in ("material", "operation", "cutter_material"):
        return ""
    from shoplog.find.spoken import called_in_tables

    return called_in_tables(named, value)
