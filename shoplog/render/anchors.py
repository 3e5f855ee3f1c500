"""What one page has given already: ids and names of landmarks, each once, and cautions in full."""

from __future__ import annotations

from collections import Counter
from itertools import count

from shoplog.problems import Problem

__all__ = ["MOST_PICTURES", "Anchors"]

MOST_PICTURES = 60
"""Pictures that one page may show; a page of a workshop has a few."""


class Anchors:
    """Gives ids in the order of a page."""

    def __init__(self) -> None:
        self._given: set[str] = set()
        self._asked: Counter[str] = Counter()
        self._problems: dict[Problem, str] = {}
        self._cautions: set[str] = set()
        self._names: set[str] = set()

    def give(self, wished: str) -> str:
        """An id near to the one wished for, which no other element of ours has on this page."""
        name = wished
        while name in self._given or not self._asked[wished]:
            self._asked[wished] += 1
            number = self._asked[wished]
            name = wished if number == 1 else f"{wished}-{number}"
        self._given.add(name)
        return name

    def name(self, wished: str) -> str:
        """A name that no other landmark of ours has on this page; a number tells those alike apart.

        >>> page = Anchors()
        >>> page.name("Setup: turning"), page.name("Setup: turning"), page.name("Setup: boring")
        ('Setup: turning', 'Setup: turning, no. 2', 'Setup: boring')
        """
        numbered = (wished if number == 1 else f"{wished}, no. {number}" for number in count(1))
        name = next(name for name in numbered if name not in self._names)
        self._names.add(name)
        return name

    @property
    def given(self) -> frozenset[str]:
        """Every id so far."""
        return frozenset(self._given)

    def first_time(self, caution: str) -> bool:
        """Whether a caution has not been said on this page yet; asking says it."""
        new = caution not in self._cautions
        self._cautions.add(caution)
        return new

    def picture(self) -> str:
        """An id for a picture; nothing where the page has too many."""
        name = self.give("drawing")
        return name if self._asked["drawing"] <= MOST_PICTURES else ""

    def problem(self, problem: Problem) -> str:
        """An id for a problem where it is shown first, and nothing where it is shown again."""
        if problem in self._problems:
            return ""
        self._problems[problem] = self.give(f"problem-line-{problem.place.line}")
        return self._problems[problem]

    def of(self, problem: Problem) -> str:
        """The id that a problem was given, or nothing."""
        return self._problems.get(problem, "")
