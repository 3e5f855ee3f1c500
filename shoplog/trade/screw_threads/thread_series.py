"""Designations of ISO metric threads (ISO 261, ISO 965-1) and Unified inch threads (ASME B1.1)."""

from __future__ import annotations

import re
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.thread_reading import (
    SIZE,
    Rules,
    endings,
    number,
    refused,
    written_size,
)
from shoplog.trade.screw_threads.thread_record import INCH, Thread

__all__ = ["READERS", "metric_class"]

_METRIC = re.compile(r"M ?([0-9.]+)(?: ?x ?(?:Ph ?([0-9.]+) ?P ?)?([0-9.]+))?(.*)")
_UNIFIED = re.compile(
    rf"({SIZE})(?: ?- ?([0-9]+(?:\.[0-9]+)?))?(?: ?-? ?([A-Z]{{2,5}}))?((?: ?-.*| LH.*)?)"
)
_INTERNAL = re.compile(r"[4-8][GH](?:[4-8][GH])?")
_EXTERNAL = re.compile(r"[468][a-h]|[3-9][a-h][468][a-h]")
NAMED = ("UNC", "UNF", "UNEF")
CONSTANT = (4, 6, 8, 12, 16, 20, 28, 32)
"""Threads per inch of the constant-pitch series."""


def metric_class(word: str) -> tuple[str, str] | None:
    """A tolerance class of ISO 965-1 and its side: internal ones have capitals."""
    short = word[:2] if word[:2] == word[2:] else word
    if _INTERNAL.fullmatch(short):
        return short, "internal"
    return (short, "external") if _EXTERNAL.fullmatch(short) else None


def _unified_class(word: str) -> tuple[str, str] | None:
    found = re.fullmatch("[123][AB]", word)
    return (word, "external" if word[1] == "A" else "internal") if found else None


METRIC_RULES = Rules(
    "ISO 965-1",
    '"6H", "6g", "5g6g" or "LH"',
    metric_class,
    groups=("S", "N", "L"),
    says_side="6g is external, 6H is internal",
)
UNIFIED_RULES = Rules(
    "ASME B1.1",
    '"2A", "2B" or "LH"',
    _unified_class,
    starts=True,
    says_side="2A is external, 2B is internal",
)


# ---- metric ----------------------------------------------------------------------------------


@cache
def _metric_rows() -> dict[float, tuple[str, str, tuple[float, ...]]]:
    """Choice, coarse pitch as text, and every pitch, by diameter in mm."""
    return {
        float(row["size_mm"]): (
            row["choice"],
            row["coarse_mm"],
            tuple(float(p) for p in f"{row['coarse_mm']} {row['fine_mm']}".split()),
        )
        for row in table("threads_metric").rows
    }


def _metric(text: str, size: str, lead: str | None, pitch: str | None, rest: str) -> Thread:
    major = number(text, size)
    rows = _metric_rows()
    if major not in rows:
        near = min(rows, key=lambda known: abs(known - major))
        raise refused(
            f"M{size} is not in ISO 261, of which M1 to M300 are held", f"the nearest is M{near:g}"
        )
    choice, coarse, _ = rows[major]
    name = f"M{major:g}"
    given = _metric_pitch(text, name, major, pitch)
    starts = _metric_starts(text, lead, given)
    is_coarse = bool(coarse) and given == float(coarse)
    end = endings(text, rest, METRIC_RULES)
    written = "" if is_coarse else f"x{given:g}"
    return Thread(
        designation=name
        + (f"xPh{starts * given:g}P{given:g}" if starts > 1 else written)
        + end.text,
        series="ISO metric coarse" if is_coarse else "ISO metric fine",
        size=name,
        major=major,
        pitch=given,
        hand=end.hand,
        side=end.side,
        tolerance_class=end.tolerance_class,
        choice=choice,
        notes=end.notes,
        starts=starts,
    )


def _metric_pitch(text: str, name: str, major: float, pitch: str | None) -> float:
    """The pitch that is meant: the one written, or the coarse one."""
    _, coarse, pitches = _metric_rows()[major]
    listed = f"{name} has {_listed(pitches)} mm"
    if pitch is None and not coarse:
        raise refused(
            f"{name} has no coarse pitch in ISO 261, so its pitch must be written; {listed}",
            f'"{name}x{pitches[0]:g}"',
        )
    given = float(coarse) if pitch is None else number(text, pitch)
    if given not in pitches:
        near = min(pitches, key=lambda known: abs(known - given))
        raise refused(
            f"{name}x{pitch} is not in ISO 261; {listed}", f'did you mean "{name}x{near:g}"'
        )
    return given


def _metric_starts(text: str, lead: str | None, pitch: float) -> int:
    """How many starts a lead stands for: a whole number of pitches."""
    if lead is None:
        return 1
    starts = number(text, lead) / pitch
    whole = round(starts)
    if abs(starts - whole) > 1e-6 or not 1 <= whole <= 12:
        raise refused(
            f'the lead of "{text}" is {starts:.3g} pitches; it must be a whole number, 1 to 12',
            f"Ph{2 * pitch:g}P{pitch:g} has two starts",
        )
    return whole


def _listed(pitches: tuple[float, ...]) -> str:
    *most, last = (f"{pitch:g}" for pitch in pitches)
    return f"pitches {', '.join(most)} and {last}" if most else f"pitch {last}"


# ---- Unified ---------------------------------------------------------------------------------

Row = tuple[str, str, float]
"""Size, series and threads per inch."""


@cache
def _unified_rows() -> dict[str, tuple[float, tuple[Row, ...]]]:
    """Major diameter in inch, and the threads of each size, coarse first."""
    found = {}
    for row in table("threads_unified").rows:
        size = row["size"]
        named = [(size, s, float(row[f"{s}_tpi"])) for s in NAMED if row[f"{s}_tpi"]]
        constant = [(size, f"{count}-UN", float(count)) for count in row["UN_tpi"].split()]
        found[size] = float(row["major_in"]), (*named, *constant)
    return found


def _unified(text: str, size: str, count: str | None, series: str | None, rest: str) -> Thread:
    if series == "LH":
        series, rest = None, f"-LH{rest}"
    name, found, tpi = _unified_row(text, size, count, series)
    end = endings(text, rest, UNIFIED_RULES)
    said: tuple[str, ...] = ()
    if series is None:
        said = (f"{name}-{tpi:g} is written without its series; of those held it is {found}",)
    elif series == "UN" and found in NAMED:
        said = (f"{name}-{tpi:g} of the {tpi:g}-UN series is the {found} thread",)
    return Thread(
        designation=f"{name}-{tpi:g} {_short(found)}{end.text}",
        series=found,
        size=name,
        major=_unified_rows()[name][0] * INCH,
        pitch=INCH / tpi,
        hand=end.hand,
        side=end.side,
        tolerance_class=end.tolerance_class,
        choice="",
        notes=(*said, *end.notes),
        starts=end.starts,
        family="Unified",
    )


def _short(series: str) -> str:
    """A series as a designation has it: the constant-pitch ones are all UN."""
    return series if series in NAMED else "UN"


def _unified_row(text: str, size: str, count: str | None, series: str | None) -> Row:
    """The one row that is meant."""
    names = _unified_sizes(size)
    if not names:
        raise refused(f"{size} is no size of the Unified series, #0 to 4 in are held (ASME B1.1)")
    if series not in (None, "UN", *NAMED):
        hint = f'did you mean "U{series}"' if series in ("NC", "NF", "NEF") else ""
        raise refused(
            f"{series} is not a series that is held: UNC, UNF, UNEF and UN (ASME B1.1)", hint
        )
    held = [row for name in names for row in _unified_rows()[name][1]]
    meant = [row for row in held if _is_meant(row, series)]
    if count is None:
        raise _without_count(text, meant)
    wanted = float(count)
    if found := [row for row in meant if row[2] == wanted]:
        return found[0]
    near = min(held, key=lambda row: (series not in (None, _short(row[1])), abs(row[2] - wanted)))
    raise refused(
        f"{size}-{count}{f' {series}' if series else ''} is not in ASME B1.1; held are"
        f" {_rows_listed(held)}",
        f'did you mean "{_row_written(near)}"',
    )


def _is_meant(row: Row, series: str | None) -> bool:
    """Whether a row may be the one of a series: some of the constant-pitch UN have other names."""
    return series in (None, row[1]) or (series == "UN" and row[2] in CONSTANT)


def _without_count(text: str, meant: list[Row]) -> TradeError:
    named = [row for row in meant if row[1] in NAMED] or meant
    hint = " or ".join(f'"{_row_written(row)}"' for row in named)
    return refused(
        f'"{text}" does not say how many threads per inch', f"write {hint}" if hint else ""
    )


def _row_written(row: Row) -> str:
    return f"{row[0]}-{row[2]:g} {_short(row[1])}"


def _rows_listed(rows: list[Row]) -> str:
    """The rows by size: `1/4-20 UNC, 1/4-28 UNF; UN 20 and 28`."""
    named = ", ".join(_row_written(row) for row in rows if row[1] in NAMED)
    constant = ", ".join(_row_written(row) for row in rows if row[1] not in NAMED)
    return ", ".join(part for part in (named, constant) if part)


def _unified_sizes(size: str) -> list[str]:
    """The sizes that a text may mean: a bare number is a number size or whole inches."""
    rows = _unified_rows()
    if "." in size and not size.startswith("No"):
        return [name for name, row in rows.items() if abs(row[0] - float(size)) <= 0.0005]
    bare = written_size(size)
    return [name for name in (bare, f"#{bare}") if name in rows]


READERS = ((_METRIC, _metric), (_UNIFIED, _unified))
