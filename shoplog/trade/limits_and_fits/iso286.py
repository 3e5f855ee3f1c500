"""ISO 286-1: standard tolerances, fundamental deviations, and the limits of a tolerance class.

The tables hold nominal sizes over 0 to 3150 mm, grades IT01 to IT18, holes A to ZC and shafts a
to zc.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, Size, TradeError

__all__ = [
    "GREATEST",
    "NEARNESS_MM",
    "SOURCE",
    "deviations",
    "grade_named",
    "grade_tolerance",
    "limits_of",
    "tolerance_classes",
]

SOURCE = "ISO 286-1"
GREATEST = 3150.0
# Over this size the standard has rules of its own: fewer letters and no deltas.
ORDINARY = 500.0
IT01 = -1  # a grade is its number, so that finer is less
GRADES = range(IT01, 19)
CLEARANCE_LETTERS = ("A", "B", "C", "CD", "D", "E", "EF", "F", "FG", "G", "H")
DELTA_LETTERS = ("K", "M", "N", "P", "R", "S", "T", "U", "V", "X", "Y", "Z", "ZA", "ZB", "ZC")
LETTERS = (*CLEARANCE_LETTERS, "JS", "J", *DELTA_LETTERS)
COARSEST_WITH_DELTA = {"K": 8, "M": 8, "N": 8} | dict.fromkeys(DELTA_LETTERS[3:], 7)
FINEST_WITH_DELTA = 3
# J has no formula: the standard gives it for these grades only.
J_GRADES = {"J": (6, 7, 8), "j": (5, 6, 7, 8)}
# As close as two nominal sizes must be to be one: 25.4 mm may come as a sum of inches.
NEARNESS_MM = 1e-9
ASK_LIMITS = "give the limits themselves, upper first, such as 16 mm +0.02/-0.01"


@dataclass(frozen=True, slots=True)
class _Class:
    letters: str
    grade: int

    @property
    def hole(self) -> bool:
        return self.letters.isupper()

    def __str__(self) -> str:
        return f"{self.letters}{_grade_name(self.grade)}"


@dataclass(frozen=True, slots=True)
class _Row:
    """The row of a table that a nominal size falls in; a cell that is blank there is absent."""

    to: float
    cells: dict[str, float]


@cache
def _rows(name: str) -> tuple[_Row, ...]:
    return tuple(
        _Row(
            float(row["to_mm"]),
            {key[:-3]: float(cell) for key, cell in row.items() if key.endswith("_um") and cell},
        )
        for row in table(name).rows
    )


def _cells(name: str, nominal: float) -> dict[str, float]:
    return next(row.cells for row in _rows(name) if nominal <= row.to + NEARNESS_MM)


@cache
def tolerance_classes() -> tuple[str, ...]:
    """Every class that the tables give at some size, holes first: `H7`, `js6`.

    >>> len(tolerance_classes()), "H7" in tolerance_classes(), "J9" in tolerance_classes()
    (1027, True, False)
    """
    every = (*LETTERS, *(letters.lower() for letters in LETTERS))
    return tuple(
        f"{letters}{_grade_name(grade)}"
        for letters in every
        for grade in J_GRADES.get(letters, GRADES)
        if grade >= FINEST_WITH_DELTA or letters not in DELTA_LETTERS
    )


def limits_of(nominal_mm: float, tolerance_class: str) -> Size:
    """The size with the limits of an ISO 286 tolerance class.

    Parameters
    ----------
    nominal_mm : float [mm]
        Nominal size, over 0 and at most 3150.
    tolerance_class : str [-]
        As the standard writes it: a capital for a hole (`H7`), small for a shaft (`js6`).

    Returns
    -------
    Size [mm]
        The nominal size, its lower and upper deviation, and the class.

    Raises
    ------
    TradeError
        The class is unknown, or the standard does not give it at this size; the hint says what
        would do.
    OutOfRange
        The nominal size is outside the tables.

    Notes
    -----
    JS and js keep the half micrometre of an odd tolerance. The editions before 2010 let it be
    rounded down for grades 7 to 11.

    Examples
    --------
    >>> limits_of(30, "H7")
    Size(nominal=30, lower=0.0, upper=0.021, tolerance_class='H7')

    References
    ----------
    ISO 286-1:2010, tables of standard tolerances and fundamental deviations.
    """
    lower, upper = deviations(nominal_mm, tolerance_class)
    size = Size(nominal_mm, lower / 1000, upper / 1000, tolerance_class)
    if size.min <= 0:
        raise TradeError(
            f"{tolerance_class} at {nominal_mm:g} mm has a least size of {size.min:.3g} mm,"
            " it must be over 0 mm",
            hint="a finer grade, or a letter nearer to H or h",
        )
    return size


def deviations(nominal_mm: float, tolerance_class: str) -> tuple[float, float]:
    """Lower and upper deviation of a class at a nominal size, in micrometres.

    Raises
    ------
    TradeError
        The class is unknown, or the standard does not give it at this size.
    OutOfRange
        The nominal size is outside the tables.
    """
    asked = _read_class(tolerance_class)
    _check_nominal("nominal_size", nominal_mm)
    return _deviations(asked, nominal_mm)


def grade_tolerance(grade: int, nominal: float, *, argument: str = "nominal_size") -> float:
    """The standard tolerance of a grade at a nominal size, in micrometres.

    Raises
    ------
    TradeError
        The grade is not -1 (IT01) to 18, is 14 or coarser at a size up to 1 mm, or is IT01 or IT0
        over 500 mm.
    OutOfRange
        The nominal size is outside the tables.
    """
    shown = f"IT{_grade_name(grade)}"
    _check_grade(shown, grade)
    _check_nominal(argument, nominal)
    if grade >= 14 and nominal <= 1 + NEARNESS_MM:
        raise TradeError(
            f"{shown} is not used for {nominal:g} mm: {SOURCE} gives it over 1 mm",
            hint=f"IT13, or {ASK_LIMITS}",
        )
    found = _cells("iso286_grades", nominal).get(shown)
    if found is None:
        raise TradeError(
            f"{shown} is not given at {nominal:g} mm: {SOURCE} has it to {ORDINARY:g} mm",
            hint="IT1, or a coarser grade",
        )
    return found


def _grade_name(grade: int) -> str:
    return "01" if grade == IT01 else str(grade)


def grade_named(text: str) -> int | None:
    """The grade of a number as the standard writes it: `7`, `0`, and `01` as -1.

    >>> grade_named("7"), grade_named("01"), grade_named("07")
    (7, -1, None)
    """
    if text == "01":
        return IT01
    return int(text) if re.fullmatch(r"0|[1-9][0-9]?", text) else None


def _check_nominal(argument: str, nominal: float) -> None:
    if 0 < nominal <= GREATEST + NEARNESS_MM:
        return
    hint = ""
    if GREATEST < nominal <= 1000 * GREATEST:
        hint = f"`m` is the metre; {nominal / 1000:g} mm has a class. Else {ASK_LIMITS}"
    raise OutOfRange(argument, nominal, "mm", over=0, most=GREATEST, source=SOURCE, hint=hint)


def _check_grade(shown: str, grade: int) -> None:
    if grade not in GRADES:
        raise TradeError(
            f"{shown} has no grade in {SOURCE}: its grades are 01, 0, and 1 to {GRADES[-1]}",
            hint=ASK_LIMITS,
        )


def _read_class(text: str) -> _Class:
    found = re.fullmatch(r"([A-Za-z]{1,2})(\d{1,2})", text, re.ASCII)
    grade = grade_named(found[2]) if found else None
    if not found or grade is None:
        raise _unknown(text, "is not a tolerance class")
    letters = found[1]
    if letters not in LETTERS and letters.upper() not in LETTERS:
        raise _unknown(text, f"is not a tolerance class: {SOURCE} has no letter {letters}")
    if not (letters.isupper() or letters.islower()):
        raise _unknown(text, "is not a tolerance class")
    _check_grade(text, grade)
    return _Class(letters, grade)


def _unknown(text: str, what: str) -> TradeError:
    plain = re.sub(r"(?<=[A-Za-z])0+(?=[1-9])", "", text)  # H07 is H7
    same = [known for known in tolerance_classes() if known == plain] or [
        known for known in tolerance_classes() if known.casefold() == plain.casefold()
    ]
    close = same or (get_close_matches(text, tolerance_classes(), 2, 0.75) if len(text) < 8 else [])
    meant = " or ".join(close)
    hint = f"did you mean {meant}?" if meant else "a letter and a grade, such as H7 or js6"
    return TradeError(f"{text[:20]} {what}", hint=hint)


def _deviations(asked: _Class, nominal: float) -> tuple[float, float]:
    """Lower and upper deviation, in micrometres."""
    tolerance = grade_tolerance(asked.grade, nominal)
    if asked.letters.upper() == "JS":
        return -tolerance / 2, tolerance / 2
    cells = _cells("iso286_holes" if asked.hole else "iso286_shafts", nominal)
    deviation = next((cells[key] for key in _columns(asked) if key in cells), None)
    if deviation is None or not _used(asked, nominal):
        raise _not_given(asked, nominal)
    deviation += _delta(asked, cells)
    below = asked.hole == (asked.letters.upper() in CLEARANCE_LETTERS)
    # For A to H and for j to zc the deviation is the lower one, for J to ZC and a to h the upper.
    return (deviation, deviation + tolerance) if below else (deviation - tolerance, deviation)


def _columns(asked: _Class) -> Iterable[str]:
    """The columns that may hold the deviation, the most particular first."""
    if asked.letters == "k":
        return ("k4_k7",) if 4 <= asked.grade <= 7 else ("k",)
    if asked.letters in ("K", "M", "N"):
        return str(asked), f"{asked.letters}_{'to' if asked.grade <= 8 else 'over'}_8"
    return str(asked), asked.letters


def _delta(asked: _Class, cells: dict[str, float]) -> float:
    last = COARSEST_WITH_DELTA.get(asked.letters, 0)
    if asked.grade > last or str(asked) in cells:
        return 0.0
    return cells.get(f"delta{asked.grade}", 0.0)


def _used(asked: _Class, nominal: float) -> bool:
    """Whether the standard uses the letter at this grade, and at a size up to 1 mm."""
    letters, grade = asked.letters, asked.grade
    not_up_to_1 = letters.upper() in ("A", "B") or (letters == "N" and grade > 8)
    return (
        grade in J_GRADES.get(letters, GRADES)
        and (letters not in DELTA_LETTERS or grade >= FINEST_WITH_DELTA)
        and not (not_up_to_1 and nominal <= 1 + NEARNESS_MM)
    )


def _not_given(asked: _Class, nominal: float) -> TradeError:
    return TradeError(
        f"{asked} is not given at {nominal:g} mm: the tables have {_extent(asked)}",
        hint=_instead(asked, nominal),
    )


def _extent(asked: _Class) -> str:
    """Where the tables give a letter: its grades, its sizes."""
    letters = asked.letters
    if letters in J_GRADES:
        return {
            "J": "J6, J7 and J8 to 500 mm only",
            "j": "j5, j6 and j7 to 500 mm, and j8 to 3 mm",
        }[letters]
    if letters in DELTA_LETTERS and asked.grade < FINEST_WITH_DELTA:
        return f"{letters} from grade {FINEST_WITH_DELTA}"
    if letters in ("K", "N") and asked.grade > 8:
        where = "to 3 mm and over 500 mm" if letters == "K" else "over 1 mm"
        return f"{letters} above grade 8 {where} only"
    name = "iso286_holes" if asked.hole else "iso286_shafts"
    given = [row for row in _rows(name) if letters in row.cells or f"{letters}_to_8" in row.cells]
    first = next(i for i, row in enumerate(_rows(name)) if row is given[0])
    least = _rows(name)[first - 1].to if first else 1 if letters.upper() in ("A", "B") else 0
    over = f"over {least:g}" if least else ""
    to = f"to {given[-1].to:g}" if given[-1].to < GREATEST else ""
    return f"{letters} {over}{' ' * bool(over and to)}{to} mm only"


def _instead(asked: _Class, nominal: float) -> str:
    """The classes of the same grade whose letters stand on either side and are given."""
    if asked.letters in J_GRADES or asked.letters == "K":
        name = "JS" if asked.hole else "js"
        return f"{name}{_grade_name(asked.grade)} lies evenly about the nominal size"
    if asked.letters in DELTA_LETTERS and asked.grade < FINEST_WITH_DELTA:
        return f"{asked.letters}{FINEST_WITH_DELTA}, or H with a tighter shaft"
    if asked.letters == "N":
        return "N8, or H with a shaft n"
    place = LETTERS.index(asked.letters.upper())
    sides = [reversed(LETTERS[:place]), LETTERS[place + 1 :]]
    near = [
        next((c for c in (_like(asked, n) for n in side) if _given(c, nominal)), None)
        for side in sides
    ]
    found = [str(one) for one in near if one]
    how = "lie on either side of it" if len(found) > 1 else "is the nearest"
    return f"{' and '.join(found)} {how}"


def _like(asked: _Class, letters: str) -> _Class:
    return _Class(letters if asked.hole else letters.lower(), asked.grade)


def _given(asked: _Class, nominal: float) -> bool:
    cells = _cells("iso286_holes" if asked.hole else "iso286_shafts", nominal)
    return _used(asked, nominal) and any(key in cells for key in _columns(asked))
