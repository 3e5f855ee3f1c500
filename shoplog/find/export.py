"""A log's records as a spreadsheet takes them.

The columns are the fields of a record, then those of what was planned and of what ran; the unit is
in the name. A text that a spreadsheet would take for a formula gets an apostrophe before it, which
`unguarded` takes away again; a number is never touched.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Iterable, Iterator
from typing import Any

from shoplog.find.record import FIGURES, RECORD, Figures, Known, Record

__all__ = [
    "BYTE_ORDER_MARK",
    "COLUMNS",
    "guarded",
    "records_csv",
    "unguarded",
]

RUNS = ("planned", "ran")
COLUMNS = (
    *(known.name for known in RECORD),
    *(f"{kind}_{known.name}" for kind in RUNS for known in FIGURES),
)
BYTE_ORDER_MARK = "\ufeff"
"""What some spreadsheet programs know UTF-8 by."""
BETWEEN_TEXTS = ", "
DIGITS = 15
"""Digits that a number is written with: those that every spreadsheet keeps."""

# What opens a formula, at the front and behind a sign that another spreadsheet parts cells at; the
# wide forms are read as the narrow ones by some.
_OPENS = "=+@\uff1d\uff0b\uff0d\uff20\\-"
_FRONT = r"(?P<front>^|[;\t\r\n])"
_FORMULA = re.compile(rf"{_FRONT}(?='*[{_OPENS}\t\r\n])")
_GUARDED = re.compile(rf"{_FRONT}'(?='*[{_OPENS}\t\r\n])")


def guarded(text: str) -> str:
    """A text that no spreadsheet takes for a formula.

    >>> guarded("=1+1"), guarded("a = 1"), guarded("-0.02 off")
    ("'=1+1", 'a = 1', "'-0.02 off")
    """
    return _FORMULA.sub(r"\g<front>'", text)


def unguarded(text: str) -> str:
    """The text that was guarded; one that was not stays what it is.

    >>> unguarded("'=1+1"), unguarded("'tis good")
    ('=1+1', "'tis good")
    """
    return _GUARDED.sub(r"\g<front>", text)


def records_csv(records: Iterable[Record], *, private: bool = False) -> str:
    r"""Records as CSV (RFC 4180): a row of headings, then a record a row, in the order given.

    Parameters
    ----------
    records : iterable of Record [-]
        Of a whole log.
    private : bool [-]
        Whether private ones are among the rows.

    Returns
    -------
    str [-]
        Lines that end with `\r\n`. Numbers are written with a point; truths as `yes`
        and `no`; what is not known is an empty cell.
    """
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    writer.writerows(_row(record) for record in records if private or not record.private)
    return text.getvalue()


def _row(record: Record) -> Iterator[str]:
    for known in RECORD:
        yield _cell(known, getattr(record, known.name))
    for kind in RUNS:
        figures: Figures | None = getattr(record, kind)
        for known in FIGURES:
            yield _cell(known, getattr(figures, known.name)) if figures else ""


def _cell(known: Known, value: Any) -> str:
    if value is None:
        return ""
    if known.kind == "truth":
        return "yes" if value else "no"
    if known.kind == "texts":
        return guarded(BETWEEN_TEXTS.join(value))
    if known.kind == "text":
        return guarded(value)
    return f"{value:.{DIGITS}g}" if math.isfinite(value) else ""
