"""Records of another log, read field by field: what is not of its kind is left out and told."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

from shoplog.find.clean import clean, clipped
from shoplog.find.record import FIGURES, RECORD, Figures, Known, Record

__all__ = ["DAY", "KINDS", "MOST_TEXTS", "MOST_WHOLE", "PUBLISHED", "REQUIRED", "Reader"]

MOST_TEXTS = 100
MOST_WHOLE = 2**53  # what every reader of JSON keeps exactly
MOST_NAMED = 5
DAY = r"^\d{4}-\d{2}-\d{2}$"
_IS_DAY = re.compile(DAY, re.ASCII)

PUBLISHED = tuple(known for known in RECORD if known.name != "private")
"""The fields of a record that are published."""
REQUIRED = ("page", "anchor")
"""Those without which it is none."""


class _Wrong(ValueError):
    """A field that is not of its kind."""


class Reader:
    """Reads records one by one and keeps what was wrong with those that it left out."""

    def __init__(self) -> None:
        self.skipped = 0
        self.first = ""
        self.unknown: dict[str, None] = {}

    def records(self, listed: list[Any]) -> Iterator[Record]:
        """The records that are as the schema says."""
        for number, data in enumerate(listed, 1):
            try:
                yield self._record(data)
            except _Wrong as wrong:
                self.skipped += 1
                self.first = self.first or f"record {number}: {wrong}"

    def _record(self, data: Any) -> Record:
        if not isinstance(data, dict):
            raise _Wrong("it is no object")
        found = self._fields(data, PUBLISHED, ("planned", "ran"))
        for name in REQUIRED:
            if not found.get(name):
                raise _Wrong(f"it has no `{name}`")
        for kind in ("planned", "ran"):
            if kind in data:
                found[kind] = self._figures(kind, data[kind])
        return Record(**found)

    def _figures(self, kind: str, data: Any) -> Figures:
        if not isinstance(data, dict):
            raise _Wrong(f"`{kind}` is no object")
        return Figures(**self._fields(data, FIGURES))

    def _fields(
        self, data: dict[str, Any], declared: tuple[Known, ...], others: tuple[str, ...] = ()
    ) -> dict[str, Any]:
        names = {known.name: known for known in declared}
        found = {}
        for name, value in data.items():
            if name in names:
                found[name] = _value(names[name], value)
            elif name not in others and len(self.unknown) <= MOST_NAMED:
                self.unknown[clipped(clean(name), 40)] = None
        return found

    def notes(self, source: str) -> Iterator[str]:
        """What was left out, each kind in a sentence."""
        if self.skipped:
            were = "record was" if self.skipped == 1 else "records were"
            yield f"{source}: {self.skipped} {were} skipped; {self.first}"
        if self.unknown:
            shown = [f"`{name}`" for name in self.unknown][:MOST_NAMED]
            more = " and others" if len(self.unknown) > MOST_NAMED else ""
            yield f"{source}: fields that are not known were left aside: {', '.join(shown)}{more}"


def _value(known: Known, value: Any) -> Any:
    """A field's value; raises where it is not of the field's kind."""
    made = _READS[known.kind](value)
    if made is None:
        raise _Wrong(f"`{known.name}` is not {KINDS[known.kind]}")
    if known.name == "date" and made and not _is_day(made):
        raise _Wrong("`date` is not a day such as 2026-03-14")
    return made


def _text(value: Any) -> str | None:
    return clean(value) if isinstance(value, str) else None


def _texts(value: Any) -> tuple[str, ...] | None:
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        return None
    return tuple(map(clean, value[:MOST_TEXTS]))


def _number(value: Any) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        made = float(value)
    except OverflowError:
        return None
    return made if math.isfinite(made) else None


def _whole(value: Any) -> int | None:
    made = _number(value)
    return int(made) if made is not None and made.is_integer() and abs(made) <= MOST_WHOLE else None


def _truth(value: Any) -> bool | None:
    return value if isinstance(value, bool) else None


def _is_day(text: str) -> bool:
    try:
        return bool(_IS_DAY.match(text)) and bool(date.fromisoformat(text))
    except ValueError:
        return False


_READS: dict[str, Callable[[Any], Any]] = {
    "text": _text,
    "texts": _texts,
    "number": _number,
    "whole": _whole,
    "truth": _truth,
}
KINDS = {
    "text": "a text",
    "texts": "a list of texts",
    "number": "a number",
    "whole": "a whole number",
    "truth": "true or false",
}
