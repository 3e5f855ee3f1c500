"""Designations of Whitworth, BA, ISO trapezoidal and Acme threads."""

from __future__ import annotations

import re
from functools import cache

from shoplog.tables import table
from shoplog.trade.screw_threads.thread_reading import (
    SIZE,
    Endings,
    Rules,
    endings,
    number,
    refused,
    written_size,
)
from shoplog.trade.screw_threads.thread_record import INCH, Thread

__all__ = ["READERS", "inches", "nearest_size"]

_WHITWORTH = re.compile(
    rf"({SIZE})(?: ?in)?\.?(?: ?- ?([0-9.]+))? ?-? ?(BSW|BSF|B\.S\.W\.?|B\.S\.F\.?|WHIT)([- ].*)?"
)
_BA = re.compile(r"(?:No\.? ?|#)?([0-9]+) ?-? ?(?:BA|B\.A\.?)([- ].*)?")
_TRAPEZOIDAL = re.compile(r"Tr ?([0-9.]+)(?: ?x ?([0-9.]+)(?: ?\(?P ?([0-9.]+)\)?)?)?(.*)")
_ACME = re.compile(
    rf"({SIZE})(?: ?in)?(?: ?- ?([0-9.]+))? ?-? ?A(?:CME|cme)((?:[- ].*)?)", re.ASCII
)


def no_class(word: str) -> tuple[str, str] | None:
    """A family without tolerance classes in its designation."""
    return None


def _trapezoidal_class(word: str) -> tuple[str, str] | None:
    if word in ("7H", "8H", "9H"):
        return word, "internal"
    return (word, "external") if word in ("7e", "8e", "8c", "9c") else None


def _acme_class(word: str) -> tuple[str, str] | None:
    """Its classes are the same on screw and nut, so they say no side."""
    return (word, "") if word in ("2G", "3G", "4G") else None


BA_RULES = Rules("BS 93", '"LH", "internal" or "external"', no_class, sides=True)
WHITWORTH_RULES = Rules(
    "BS 84", '"LH", "internal" or "external"', no_class, sides=True, starts=True
)
TRAPEZOIDAL_RULES = Rules(
    "ISO 2903",
    '"7H", "7e", "8c" or "LH"',
    _trapezoidal_class,
    groups=("N", "L"),
    hand_first=True,
    says_side="7e is external, 7H is internal",
)
ACME_RULES = Rules(
    "ASME B1.5",
    '"2G", "LH", "2 STARTS", "internal" or "external"',
    _acme_class,
    sides=True,
    starts=True,
)


def inches(size: str) -> float:
    """An inch size in inches: `1-1/2`, `3/8` or a decimal."""
    whole, _, fraction = size.rpartition("-")
    over, _, under = fraction.partition("/")
    part = float(over) / float(under) if under else float(over)
    return part + float(whole or 0)


def nearest_size(text: str, size: str, sizes: list[str], standard: str, name: str) -> str:
    """The size of a table that a text names, written as the table has it.

    Raises
    ------
    TradeError
        The table has no such size.
    """
    wanted = written_size(size)
    if wanted in sizes:
        return wanted
    try:
        asked = inches(wanted)
    except (ValueError, ZeroDivisionError):
        raise refused(f'{size} in "{text}" is no size of {name} ({standard})') from None
    near = min(sizes, key=lambda known: abs(inches(known) - asked))
    if abs(inches(near) - asked) <= 0.0005:
        return near
    raise refused(
        f"{size} is no size of {name} that is held ({standard}); they run from {sizes[0]} to"
        f" {sizes[-1]}",
        f'the nearest is "{near}"',
    )


# ---- Whitworth -------------------------------------------------------------------------------


@cache
def _whitworth_rows(series: str) -> dict[str, float]:
    """Threads per inch by size."""
    rows = table("threads_whitworth").rows
    return {row["size"]: float(row[f"{series}_tpi"]) for row in rows if row[f"{series}_tpi"]}


def _whitworth(text: str, size: str, count: str | None, series: str, rest: str | None) -> Thread:
    name = "BSF" if "F" in series else "BSW"
    rows = _whitworth_rows(name)
    found = nearest_size(text, size, list(rows), "BS 84", name)
    tpi = rows[found]
    if count is not None and number(text, count) != tpi:
        other = _whitworth_rows("BSW" if name == "BSF" else "BSF").get(found)
        also = f", {found} {'BSW' if name == 'BSF' else 'BSF'} {other:g}" if other else ""
        raise refused(
            f"{found}-{count} {name} is not in BS 84; {found} {name} has {tpi:g} threads per"
            f" inch{also}",
            f'write "{found}-{tpi:g} {name}"',
        )
    end = endings(text, rest or "", WHITWORTH_RULES)
    return _made(f"{found}-{tpi:g} {name}", name, found, inches(found) * INCH, INCH / tpi, end)


def _made(
    name: str,
    series: str,
    size: str,
    major: float,
    pitch: float,
    end: Endings,
    family: str = "Whitworth",
    clearance: float = 0.0,
    notes: tuple[str, ...] = (),
) -> Thread:
    """A thread of a family whose designation is its name and the usual endings."""
    return Thread(
        designation=name + end.text,
        series=series,
        size=size,
        major=major,
        pitch=pitch,
        hand=end.hand,
        side=end.side,
        tolerance_class=end.tolerance_class,
        choice="",
        notes=(*notes, *end.notes),
        starts=end.starts,
        family=family,
        clearance=clearance,
    )


# ---- BA --------------------------------------------------------------------------------------


@cache
def _ba_rows() -> dict[str, tuple[float, float]]:
    """Pitch and major diameter in mm by number."""
    rows = table("threads_ba").rows
    return {row["number"]: (float(row["pitch_mm"]), float(row["major_mm"])) for row in rows}


def _ba(text: str, given: str, rest: str | None) -> Thread:
    size = str(int(given)) if len(given) < 4 else given
    if size not in _ba_rows():
        raise refused(f"{size} BA is not held: they run from 0 BA to 16 BA (BS 93)")
    pitch, major = _ba_rows()[size]
    end = endings(text, rest or "", BA_RULES)
    return _made(f"{size} BA", "BA", f"{size} BA", major, pitch, end, family="BA")


# ---- ISO trapezoidal -------------------------------------------------------------------------


@cache
def _trapezoidal_rows() -> dict[float, tuple[float, ...]]:
    """Pitches in mm by diameter in mm."""
    rows = table("threads_trapezoidal").rows
    return {float(r["size_mm"]): tuple(float(p) for p in r["pitches_mm"].split()) for r in rows}


@cache
def _clearances() -> dict[float, float]:
    """Crest clearance by pitch, both in mm."""
    rows = table("threads_iso2903").rows
    return {float(row["pitch_mm"]): float(row["clearance_mm"]) for row in rows}


def _trapezoidal(text: str, size: str, first: str | None, inner: str | None, rest: str) -> Thread:
    major = number(text, size)
    pitches = _trapezoidal_pitches(text, size, major)
    listed = ", ".join(f"Tr {major:g}x{pitch:g}" for pitch in pitches)
    if first is None:
        raise refused(f"the pitch of Tr {major:g} must be written; ISO 2902 has {listed}")
    lead = number(text, first)
    pitch = lead if inner is None else number(text, inner)
    if pitch not in pitches:
        raise refused(
            f"Tr {major:g} with pitch {pitch:g} mm is not in ISO 2902, which has {listed}"
        )
    starts = lead / pitch
    if abs(starts - round(starts)) > 1e-6 or not 1 <= starts <= 12:
        raise refused(
            f"a lead of {lead:g} mm is {starts:.3g} pitches of {pitch:g} mm; it must be a whole"
            f" number, 1 to 12",
            f'"Tr {major:g}x{2 * pitch:g}(P{pitch:g})" has two starts',
        )
    end = endings(text, rest, TRAPEZOIDAL_RULES)
    several = f"x{lead:g}(P{pitch:g})" if round(starts) > 1 else f"x{pitch:g}"
    hand = "LH" if end.hand == "left" else ""
    return Thread(
        designation=f"Tr {major:g}{several}{hand}{end.text.removesuffix('-LH')}",
        series="Tr",
        size=f"Tr {major:g}",
        major=major,
        pitch=pitch,
        hand=end.hand,
        side=end.side,
        tolerance_class=end.tolerance_class,
        choice="",
        notes=end.notes,
        starts=round(starts),
        family="ISO trapezoidal",
        clearance=_clearances()[pitch],
    )


def _trapezoidal_pitches(text: str, size: str, major: float) -> tuple[float, ...]:
    rows = _trapezoidal_rows()
    if major not in rows:
        near = min(rows, key=lambda known: abs(known - major))
        raise refused(
            f"Tr {size} is not in ISO 2902, of which Tr 8 to Tr 200 are held",
            f"the nearest is Tr {near:g}",
        )
    return rows[major]


# ---- Acme ------------------------------------------------------------------------------------


@cache
def _acme_rows() -> dict[str, tuple[float, tuple[float, ...]]]:
    """Threads per inch of the standard series, and what is also made, by size."""
    return {
        row["size"]: (float(row["tpi"]), tuple(float(c) for c in row["also_made_tpi"].split()))
        for row in table("threads_acme").rows
    }


def _acme(text: str, size: str, count: str | None, rest: str) -> Thread:
    rows = _acme_rows()
    found = nearest_size(text, size, list(rows), "ASME B1.5", "the Acme series")
    series, also = rows[found]
    tpi = series if count is None else number(text, count)
    if tpi not in (series, *also):
        made = f"; {', '.join(f'{c:g}' for c in also)} are also made" if also else ""
        raise refused(
            f"{found}-{count} ACME is not held: the standard series of ASME B1.5 has"
            f" {found}-{series:g} ACME{made}",
            f'did you mean "{found}-{series:g} ACME"',
        )
    notes: tuple[str, ...] = ()
    if tpi != series:
        notes = (f"the standard series of ASME B1.5 has {found}-{series:g} ACME",)
    end = endings(text, rest, ACME_RULES)
    clearance = (0.010 if tpi <= 10 else 0.005) * INCH
    return _made(
        f"{found}-{tpi:g} ACME",
        "Acme",
        found,
        inches(found) * INCH,
        INCH / tpi,
        end,
        family="Acme",
        clearance=clearance,
        notes=notes,
    )


READERS = (
    (_TRAPEZOIDAL, _trapezoidal),
    (_BA, _ba),
    (_WHITWORTH, _whitworth),
    (_ACME, _acme),
)
