"""The names that a statement can read: its page's own, in order, and those of other pages."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from shoplog.calc.results import MeasuredResult, NotMeasured, PageValue
from shoplog.calc.statements import Statement
from shoplog.calc.wrong import EVERYDAY_UNITS, NAME_IS_UNIT, UNIT_ALONE
from shoplog.problems import Mistake, Place, Span, message, near
from shoplog.units import SIMPLE_UNITS

if TYPE_CHECKING:
    from shoplog.calc.past import Answer

__all__ = ["Entry", "Scope", "Waits", "refuse_name"]

UNKNOWN_NAME = message(
    "name-unknown", "`{name}` is not a name of this page", example="a = bore + 1 mm"
)
UNKNOWN_IN_PART = message(
    "name-unknown-there", "`{name}` is not a name of the page of `{part}`", example=""
)
BELOW = message(
    "name-below",
    "`{name}` is given below, at line {line}",
    hint="a name is given before it is used: move it up",
    example="a = b + 1 mm\nb = 3 mm",
)
IS_PART = message(
    "part-alone",
    "`{name}` is the part of another page; a name of that page is wanted",
    hint="write {name}.NAME",
    example="",
)
GIVEN_TWICE = message(
    "name-twice",
    "`{name}` is given at line {line} already",
    hint="a name is given once on a page; give this one another",
    example="a = 1 mm\na = 2 mm",
)
NO_READING = message(
    "not-measured",
    "`{name}` has not been measured",
    hint="write measured {name} = …",
    example="a = 16 mm H7\nb = a.measured",
)
CANNOT_NAME = message("name-taken", "`{name}` cannot be a name: it is {what}", example="pi = 3")
MOST_NEAR = 1000
ONE_LETTER_UNITS = frozenset(text for text in SIMPLE_UNITS if len(text) == 1 and text.isalpha())


class Waits(Exception):
    """A statement reads a name that could not be worked out, and says nothing more itself."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


@dataclass(slots=True)
class Entry:
    """A name of a page: where it is given, and its value once it is worked out."""

    statement: Statement
    order: int
    span: Span
    value: PageValue | None = None


@dataclass(slots=True)
class Scope:
    """A page's names. `part` finds the scope of another page by the name it goes by here."""

    entries: dict[str, Entry] = field(default_factory=dict)
    readings: dict[str, list[tuple[int, MeasuredResult]]] = field(default_factory=dict)
    measured_at: dict[str, list[tuple[int, int]]] = field(default_factory=dict)
    """The order and the line of each reading of a name, before any is worked out."""
    last_of_piece: dict[tuple[str, int | None], int] = field(default_factory=dict)
    """The order of the reading that counts, for a name and a numbered piece of it."""
    uses: dict[str, tuple[str, int]] = field(default_factory=dict)
    """The pages that go by a name here, by `use`, and the line that says so."""
    concessions: dict[str, str] = field(default_factory=dict)
    """The reason for each name conceded on the page."""
    conceded: set[str] = field(default_factory=set)
    """The names whose concession let something pass."""
    made: int | None = None
    """How many pieces are made, where the page says so: readings are then numbered."""
    hints_left: int = 50
    """How many more unknown names are looked up among the known ones: each costs a search."""
    part: Callable[[str], Scope | None] = lambda _name: None
    part_names: Callable[[], Iterable[str]] = tuple
    past: Answer | None = None
    """What answers `past(…)` on this page; none where there are no records to look through."""

    def declare(self, name: str, span: Span, statement: Statement, order: int) -> None:
        """Enter a name before anything is worked out.

        Raises
        ------
        Mistake
            It is given already, or is a unit, or pi.
        """
        refuse_name(name, span)
        self._refuse_given(name, span)
        self.entries[name] = Entry(statement, order, span)

    def declare_use(self, name: str, span: Span, statement: Statement, page: str) -> None:
        """Enter a name for another page."""
        refuse_name(name, span)
        self._refuse_given(name, span)
        self.uses[name] = (page, statement.line)

    def _refuse_given(self, name: str, span: Span) -> None:
        known = self.entries.get(name)
        line = known.statement.line if known else self.uses[name][1] if name in self.uses else 0
        if line:
            raise Mistake(GIVEN_TWICE, span, name=name, line=line)

    def read(self, name: str, span: Span, order: int) -> PageValue:
        """The value of a name of this page, for a statement at a place in its order."""
        entry = self.entries.get(name)
        if entry is None:
            if name in self.uses and self.part(name) is None:
                raise Waits(name)
            raise self._unknown(name, span)
        if entry.order >= order:
            raise Mistake(BELOW, span, name=name, line=entry.statement.line)
        return self.value_of(name)

    def value_of(self, name: str) -> PageValue:
        """The value of a known name."""
        value = self.entries[name].value
        if value is None:
            raise Waits(name)
        return value

    def read_from(self, part: str, name: str, span: Span) -> PageValue:
        """The value of a name of this page, for another page that calls it `part`."""
        if name not in self.entries:
            near_name = self._near(name, self.entries)
            hint = f"did you mean {part}.{near_name}?" if near_name else ""
            raise Mistake(UNKNOWN_IN_PART, span, hint=hint, name=name, part=part)
        try:
            return self.value_of(name)
        except Waits:
            raise Waits(f"{part}.{name}") from None

    def reading(
        self, name: str, span: Span, before: int | None = None, called: str = ""
    ) -> PageValue:
        """What was measured of a name: the last reading, or a list where pieces are numbered.

        `before` is the order of the statement that asks, on the same page; `called` is how the
        name is written there.
        """
        called = called or name
        found = [made for order, made in self.readings.get(name, []) if _is_before(order, before)]
        if not found:
            stated = self.measured_at.get(name)
            if stated is None:
                hint = f"write measured {name} = … on its page" if called != name else None
                raise Mistake(NO_READING, span, hint=hint, name=called)
            first, line = stated[0]
            if not _is_before(first, before):
                raise Mistake(BELOW, span, name=f"{called}.measured", line=line)
            raise Waits(f"{called}.measured")
        if found[-1].piece is None:
            return found[-1].value
        pieces = {one.piece: one.value for one in found if one.piece is not None}
        return tuple(
            pieces[piece] if piece in pieces else NotMeasured(piece)
            for piece in range(1, max(pieces) + 1)
        )

    def last_reading(self, name: str, before: int | None) -> int | None:
        """The order of the last reading of a name, or of the last before a statement."""
        orders = [order for order, _ in self.measured_at.get(name, [])]
        if before is None:
            return orders[-1] if orders else None
        index = bisect_left(orders, before)
        return orders[index - 1] if index else None

    def concede(self, name: str) -> str:
        """The reason of a name's concession, now that it lets something pass; or nothing."""
        if name in self.concessions:
            self.conceded.add(name)
        return self.concessions.get(name, "")

    def place_of(self, name: str) -> Place | None:
        """Where a name is given."""
        entry = self.entries.get(name)
        return entry.statement.place(entry.span) if entry else None

    def taken_units(self) -> frozenset[str]:
        """One-letter units that are names here, and so no units."""
        return ONE_LETTER_UNITS & self.entries.keys()

    def _near(self, name: str, known: Iterable[str]) -> str:
        """The name nearest to an unknown one. A page of unknown names gets few of these hints."""
        self.hints_left -= 1
        if self.hints_left < 0:
            return ""
        alike = [one for one in known if one != name and abs(len(one) - len(name)) <= 3]
        return near(name, alike[:MOST_NEAR])

    def _unknown(self, name: str, span: Span) -> Mistake:
        if self.part(name) is not None:
            return Mistake(IS_PART, span, name=name)
        if name in SIMPLE_UNITS:
            return Mistake(UNIT_ALONE, span, word=name)
        if name == "π":
            return Mistake(UNKNOWN_NAME, span, hint="did you mean pi?", name=name)
        if len(name) <= 4 and name[:1].isalpha() and name[-1:].isdigit() and _is_class(name):
            return Mistake(
                UNKNOWN_NAME, span, hint=f"a class follows a length: 16 mm {name}", name=name
            )
        close = self._near(name, [*self.entries, *self.part_names()])
        hint = f"did you mean {close}?" if close else ""
        if not hint and name in EVERYDAY_UNITS:
            hint = f"a unit follows a number; did you mean {EVERYDAY_UNITS[name]}?"
        return Mistake(UNKNOWN_NAME, span, hint=hint, name=name)


def _is_before(order: int, before: int | None) -> bool:
    return before is None or order < before


def _is_class(name: str) -> bool:
    letters = name.rstrip("0123456789")
    two = ("cd", "ef", "fg", "js", "za", "zb", "zc")
    one_case = letters.isupper() or letters.islower()
    known = (len(letters) == 1 and letters.lower() not in "iloqw") or letters.lower() in two
    return one_case and known and len(name) - len(letters) in (1, 2)


def refuse_name(name: str, span: Span) -> None:
    """Refuse a name that is a unit of two letters or more, or pi."""
    if name == "pi":
        raise Mistake(CANNOT_NAME, span, name=name, what="3.14159…")
    if len(name) > 1 and name in SIMPLE_UNITS:
        raise Mistake(NAME_IS_UNIT, span, word=name)
