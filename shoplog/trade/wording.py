"""Plain words of the workshop, read into the traits that a table's rows are chosen by."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from shoplog.tables import table

__all__ = ["Reading", "best_row", "read_words"]

NEGATIONS = frozenset(("no", "not", "without", "never", "neither", "nor", "hardly", "little"))
MOST_CHARACTERS = 200


@dataclass(frozen=True, slots=True)
class Reading:
    """What a text asks for, in order, and the words in it that say nothing known."""

    asked: tuple[str, ...]
    refused: tuple[str, ...]
    unread: tuple[str, ...]


@cache
def _vocabulary(name: str) -> dict[str, tuple[str, str]]:
    return {row["word"]: (row["trait"], row["negated"]) for row in table(name).rows}


def read_words(text: str, vocabulary: str) -> Reading:
    """The traits that a text asks for, by a table of words.

    A negation holds for the next word that says something, and over `or`; a comma ends it.

    >>> read_words("pressed, not to turn", "fits_words")
    Reading(asked=('pressed', 'holds'), refused=(), unread=())
    >>> read_words("no shake or play, by hand, on the mandrel", "fits_words")
    Reading(asked=('close', 'hand'), refused=(), unread=('mandrel',))
    """
    known = _vocabulary(vocabulary)
    asked: dict[str, None] = {}
    refused: dict[str, None] = {}
    unread: dict[str, None] = {}
    for clause in re.split(r"[,;:.()]", text[:MOST_CHARACTERS].lower()):
        negated = False
        for word in re.findall(r"[^\W\d_]+", clause):
            if word in NEGATIONS:
                negated = True
                continue
            if word not in known:
                unread[word] = None
            trait, opposite = known.get(word, ("", ""))
            if trait and negated:
                (asked if opposite else refused)[opposite or trait] = None
                negated = _carried_on(clause, word)
            elif trait:
                asked[trait] = None
    return Reading(tuple(asked), tuple(refused), tuple(unread))


def _carried_on(clause: str, word: str) -> bool:
    """Whether `or` or `nor` follows a word, so that its negation goes on."""
    return re.search(rf"\b{word}\s+n?or\b", clause) is not None


def best_row(reading: Reading, name: str) -> dict[str, str] | None:
    """The row of a table whose `traits` and `also` answer a reading best; none where none does.

    Of rows that answer it equally well, the one with the fewest traits not asked for; then the
    first.
    """
    asked, refused = set(reading.asked), set(reading.refused)
    found: dict[str, str] | None = None
    most: tuple[int, int] | None = None
    for row in table(name).rows:
        traits, also = set(row["traits"].split()), set(row["also"].split())
        answered = len(asked & (traits | also)) - len(refused & (traits | also))
        score = (answered, -len(traits - asked))
        if answered > 0 and (most is None or score > most):
            found, most = row, score
    return found
