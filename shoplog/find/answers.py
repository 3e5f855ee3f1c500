"""Answers as lines of text: a table as wide as the terminal, and data for programs."""

from __future__ import annotations

import csv
import io
import re
import textwrap
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict, astuple, fields
from typing import Any

from shoplog.find.asking import Answer, Found, FoundSize
from shoplog.find.clean import clean
from shoplog.find.record import Figures, Record, told
from shoplog.problems import counted

__all__ = [
    "answer_csv",
    "answer_json",
    "answer_lines",
    "size_lines",
    "sizes_csv",
    "sizes_json",
    "why_nothing",
]

MM_OF_INCH = 25.4
METRES_OF_FOOT = 0.3048
LEAST_WIDTH = 16
"""What a column that is cut keeps, in characters."""
LEAST_LAST = 30
"""What the last column keeps, which holds sentences."""
BETWEEN = "  "
BELOW = "    "

# On a narrow terminal, what stands in the row of a record; the rest is told in lines below it.
_IN_ROW = ("place", "log", "date", "outcome", "operation")
_BELOW = (
    (("material", "cutter"), "; "),
    (("diameter", "speed", "cutting speed", "feed"), ", "),
    (("why",), ""),
    (("remarks",), ""),
)
_SENTENCES = ("why", "remarks")
_NO_BREAK = "\u00a0"


def answer_lines(
    answer: Answer, *, system: str = "both", width: int | None = None, several: bool = False
) -> Iterator[str]:
    """The records that answer in a table, under it how many there are.

    Parameters
    ----------
    answer : Answer [-]
        With at least one record.
    system : str [-]
        `metric`, `inch` or `both`.
    width : int [-]
        Characters of a line of the terminal; nothing is cut without one.
    several : bool [-]
        Whether other logs were asked too, so that each row says whose it is.
    """
    rows = [dict(_cells(found, system)) for found in answer.found]
    for row in rows if not several else ():
        del row["log"]
    rows = _cleaned(rows)
    widths = _widths(rows)
    if width is None or _is_fitted(widths, width):
        yield from _table(rows, widths)
    else:
        yield from _stacked(rows, width)
    yield ""
    yield _how_many(answer)


def _how_many(answer: Answer) -> str:
    shown, count = len(answer.found), answer.count
    if shown < count:
        return f"{shown} of {count} setups; --limit {count} shows all"
    return counted(count, "setup")


def why_nothing(answer: Answer) -> str:
    """That nothing answers, and which condition kept what there is from answering."""
    if not answer.asked:
        return "there are no setups here"
    if not answer.loosened:
        return "nothing found, whichever one condition is left out"
    told = [f"without {clean(text)} {_are(count)}" for text, count in answer.loosened]
    return f"nothing found; {', '.join(told)}"


def _are(count: int) -> str:
    return "there is 1" if count == 1 else f"there are {count}"


def _cells(found: Found, system: str) -> Iterator[tuple[str, str]]:
    record, figures = found.record, found.record.figures
    yield "place", found.place
    yield "log", found.whose or "this log"
    yield "date", f"{record.date} (git)" if record.date_from == "git" else record.date
    yield "operation", record.operation
    yield "material", record.material
    yield "cutter", record.cutter
    yield "diameter", _length(record.size_mm, system)
    yield "speed", _with_unit(_plain(figures.spindle_speed_rpm, 0), "rpm")
    yield "cutting speed", _speed(figures, system)
    yield "feed", _feed(record, system)
    yield "outcome", _outcome(record)
    if found.why:
        yield "why", ", ".join(found.why)
    yield "remarks", "; ".join(filter(None, (*record.fault, record.remarks)))


def _outcome(record: Record) -> str:
    said = record.outcome or ("" if record.run else "planned")
    return f"{said} (private)".strip() if record.private else said


def _plain(number: float | None, places: int) -> str:
    """A number with its places, without zeros at the end that say nothing."""
    if number is None:
        return ""
    text = f"{number:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _with_unit(number: str, unit: str) -> str:
    return f"{number} {unit}" if number else ""


def _shown(metric: str, inch: str, system: str) -> str:
    if not metric:
        return ""
    return {"metric": metric, "inch": inch, "both": f"{metric} ({inch})"}[system]


def _length(mm: float | None, system: str) -> str:
    if mm is None:
        return ""
    return _shown(f"{_plain(mm, 3)} mm", f"{_plain(mm / MM_OF_INCH, 4)} in", system)


def _speed(figures: Figures, system: str) -> str:
    metres = figures.cutting_speed_m_per_min
    feet = None if metres is None else metres / METRES_OF_FOOT
    return _shown(
        _with_unit(_plain(metres, 1), "m/min"), _with_unit(_plain(feet, 0), "ft/min"), system
    )


def _feed(record: Record, system: str) -> str:
    if record.figures.by_hand:
        return "by hand"
    if record.fed is None:
        return ""
    mm, per = record.fed
    places = 0 if per == "min" else 4
    metric, inch = _plain(mm, places), _plain(mm / MM_OF_INCH, places + 1)
    return _shown(f"{metric} mm/{per}", f"{inch} in/{per}", system)


def _cleaned(rows: Sequence[dict[str, str]]) -> list[dict[str, str]]:
    """Rows as they may be printed, without the columns that are empty in all of them."""
    names = [name for name in rows[0] if any(row[name] for row in rows)]
    return [{name: clean(row[name]) for name in names} for row in rows]


def _widths(rows: Sequence[dict[str, str]]) -> dict[str, int]:
    """The width of each column: of its name, or of the longest text in it."""
    return {
        name: max(columns_of(name), *(columns_of(row[name]) for row in rows)) for name in rows[0]
    }


def _is_fitted(widths: dict[str, int], width: int) -> bool:
    """Whether a table can be as narrow as a terminal; its long columns are then cut to that."""
    cut = dict(widths)
    for name in ("cutter", *reversed(_SENTENCES)):
        if name in cut:
            least = LEAST_LAST if name in _SENTENCES else LEAST_WIDTH
            cut[name] -= max(0, min(_over(cut, width), cut[name] - least))
    fits = _over(cut, width) <= 0
    if fits:
        widths.update(cut)
    return fits


def _over(widths: dict[str, int], width: int) -> int:
    return sum(widths.values()) + len(BETWEEN) * (len(widths) - 1) - width


def _table(rows: Sequence[dict[str, str]], widths: dict[str, int]) -> Iterator[str]:
    """Rows in columns under their names."""
    for row in ({name: name for name in widths}, *rows):
        cells = (_fitted(row[name], size) for name, size in widths.items())
        yield BETWEEN.join(cells).rstrip()


def _stacked(rows: Sequence[dict[str, str]], width: int) -> Iterator[str]:
    """Each record in a row of its own and lines below it, none wider than the terminal.

    A place is never cut, for a cut one leads nowhere.
    """
    names = [name for name in _IN_ROW if name in rows[0]]
    widths = {name: max(columns_of(row[name]) for row in rows) for name in names}
    for row in rows:
        place, *cells = (_fitted(row[name], size) for name, size in widths.items())
        line = BETWEEN.join((place, *cells)).rstrip()
        if columns_of(line) <= width:
            yield line
        else:
            yield place.rstrip()
            yield _fitted(BELOW + BETWEEN.join(cells), max(20, width)).rstrip()
        rest = {name: text for name, text in row.items() if name not in widths and text}
        for together, between in _BELOW:
            shown = [_kept_together(rest[name]) for name in together if name in rest]
            lines = textwrap.wrap(between.join(shown), max(20, width - len(BELOW)))
            yield from (f"{BELOW}{line}".replace(_NO_BREAK, " ") for line in lines)


def _kept_together(text: str) -> str:
    """A figure whose unit never stands alone on the next line; a sentence as it is."""
    return re.sub(r"(?<=\d) (?=[a-z])", _NO_BREAK, text)


def columns_of(text: str) -> int:
    """How many columns of a terminal a text takes.

    >>> columns_of("Ø16"), columns_of("真鍮")
    (3, 4)
    """
    if text.isascii():
        return len(text)
    return sum(map(_columns_of_character, text))


def _columns_of_character(character: str) -> int:
    if unicodedata.combining(character) or unicodedata.category(character) in ("Cf", "Me", "Mn"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _fitted(text: str, width: int) -> str:
    """A text in so many columns: filled up, or cut with an ellipsis."""
    taken = columns_of(text)
    if taken <= width:
        return text + " " * (width - taken)
    kept, left = "", width - 1
    for character in text:
        left -= _columns_of_character(character)
        if left < 0:
            break
        kept += character
    return f"{kept}…".ljust(width)


def answer_json(answer: Answer) -> dict[str, Any]:
    """An answer as data for JSON: each record as `setups.json` has it, with its place."""
    return {
        "count": answer.count,
        "found": [
            {
                "place": one.place,
                "log": one.whose,
                **({"why": list(one.why)} if one.why else {}),
                "record": told(one.record),
            }
            for one in answer.found
        ],
    }


def answer_csv(answer: Answer, *, several: bool) -> str:
    """An answer as CSV with units in the names of its columns; whose each is, where it may differ.

    As `shoplog export` writes it.
    """
    from shoplog.find.export import guarded, records_csv

    text = records_csv((one.record for one in answer.found), private=True)
    if not several:
        return text
    head, *rows = csv.reader(io.StringIO(text))
    made = io.StringIO()
    writer = csv.writer(made)
    writer.writerow(("log", *head))
    writer.writerows(
        (guarded(one.whose), *row) for one, row in zip(answer.found, rows, strict=True)
    )
    return made.getvalue()


def size_lines(found: Iterable[FoundSize], width: int | None = None) -> Iterator[str]:
    """Named sizes in a table, and how many there are."""
    rows = _cleaned([{"place": one.place, "name": one.name, "size": one.shown} for one in found])
    widths = _widths(rows)
    if width is not None:
        widths["size"] = max(LEAST_WIDTH, widths["size"] - max(0, _over(widths, width)))
    yield from _table(rows, widths)
    yield ""
    yield counted(len(rows), "size")


def sizes_json(found: Sequence[FoundSize]) -> dict[str, Any]:
    """Named sizes as data for JSON."""
    return {"count": len(found), "found": [asdict(one) for one in found]}


def sizes_csv(found: Iterable[FoundSize]) -> str:
    """Named sizes as CSV, in the columns that their JSON has."""
    from shoplog.find.export import guarded

    made = io.StringIO()
    writer = csv.writer(made)
    writer.writerow(one.name for one in fields(FoundSize))
    writer.writerows(map(guarded, astuple(one)) for one in found)
    return made.getvalue()
