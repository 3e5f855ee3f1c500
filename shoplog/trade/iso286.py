"""ISO 286-1: standard tolerances, fundamental deviations, and the limits of a tolerance class.

The tables hold nominal sizes over 0 to 500 mm, grades IT1 to IT14, holes C to S and shafts c to s.
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
    "grade_tolerance",
    "limits_of",
    "tolerance_classes",
]

SOURCE = "ISO 286-1"
GREATEST = 500.0
GRADES = range(1, 15)
CLEARANCE_LETTERS = ("C", "CD", "D", "E", "EF", "F", "FG", "G", "H")
LETTERS = (*CLEARANCE_LETTERS, "JS", "J", "K", "M", "N", "P", "R", "S")
# The standard's other letters, which the tables here do not hold.
OTHER_LETTERS = ("A", "B", "T", "U", "V", "X", "Y", "Z", "ZA", "ZB", "ZC")
# J has no formula: the standard gives it for these grades only.
J_GRADES = {"J": (6, 7, 8), "j": (5, 6, 7, 8)}
LAST_OF_ISO_286 = 3150.0
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
        return f"{self.letters}{self.grade}"


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
    (443, True, False)
    """
    every = (*LETTERS, *(letters.lower() for letters in LETTERS))
    return tuple(
        f"{letters}{grade}"
        for letters in every
        for grade in J_GRADES.get(letters, GRADES)
        if grade > 2 or letters not in ("K", "M", "N", "P", "R", "S")
    )


def limits_of(nominal_mm: float, tolerance_class: str) -> Size:
    """The size with the limits of an ISO 286 tolerance class.

    Parameters
    ----------
    nominal_mm : float [mm]
        Nominal size, over 0 and at most 500.
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
        The grade is not 1 to 14, or is 14 at a size up to 1 mm.
    OutOfRange
        The nominal size is outside the tables.
    """
    _check_grade(f"IT{grade}", grade)
    _check_nominal(argument, nominal)
    if grade == 14 and nominal <= 1 + NEARNESS_MM:
        raise TradeError(
            f"IT14 is not used for {nominal:g} mm: {SOURCE} gives it over 1 mm",
            hint=f"IT13, or {ASK_LIMITS}",
        )
    return _cells("iso286_grades", nominal)[f"IT{grade}"]


def _check_nominal(argument: str, nominal: float) -> None:
    if 0 < nominal <= GREATEST + NEARNESS_MM:
        return
    hint = ""
    if nominal > LAST_OF_ISO_286:
        hint = f"`m` is the metre; {nominal / 1000:g} mm has a class" if nominal <= 500e3 else ""
    elif nominal > GREATEST:
        hint = f"the tables here end at {GREATEST:g} mm: {ASK_LIMITS}"
    raise OutOfRange(argument, nominal, "mm", over=0, most=GREATEST, source=SOURCE, hint=hint)


def _check_grade(shown: str, grade: int) -> None:
    if grade not in GRADES:
        raise TradeError(
            f"{shown} has no grade here: grades {GRADES[0]} to {GRADES[-1]} are given",
            hint=ASK_LIMITS,
        )


def _read_class(text: str) -> _Class:
    found = re.fullmatch(r"([A-Za-z]{1,2})([1-9][0-9]?)", text)
    if not found:
        raise _unknown(text, "is not a tolerance class")
    letters, grade = found[1], int(found[2])
    if letters.upper() in OTHER_LETTERS and (letters.isupper() or letters.islower()):
        span = "C to S for a hole" if letters.isupper() else "c to s for a shaft"
        raise TradeError(f"{text} is outside the letters given here: {span}", hint=ASK_LIMITS)
    if letters not in LETTERS and letters.upper() not in LETTERS:
        raise _unknown(text, f"is not a tolerance class: {SOURCE} has no letter {letters}")
    if not (letters.isupper() or letters.islower()):
        raise _unknown(text, "is not a tolerance class")
    _check_grade(text, grade)
    return _Class(letters, grade)


def _unknown(text: str, what: str) -> TradeError:
    same = [known for known in tolerance_classes() if known.casefold() == text.casefold()]
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
    _check_given(asked, nominal)
    deviation = next((cells[key] for key in _columns(asked) if key in cells), None)
    if deviation is None:
        raise _not_given(asked, nominal)
    deviation += _delta(asked, cells)
    below = asked.hole == (asked.letters.upper() in CLEARANCE_LETTERS)
    # For C to H and for j to s the deviation is the lower one, for J to S and c to h the upper.
    return (deviation, deviation + tolerance) if below else (deviation - tolerance, deviation)


def _columns(asked: _Class) -> Iterable[str]:
    """The columns that may hold the deviation, the most particular first."""
    if asked.letters == "k":
        return ("k4_k7",) if 4 <= asked.grade <= 7 else ("k",)
    if asked.letters in ("K", "M", "N"):
        return str(asked), f"{asked.letters}_{'to' if asked.grade <= 8 else 'over'}_8"
    return str(asked), asked.letters


def _delta(asked: _Class, cells: dict[str, float]) -> float:
    last = {"K": 8, "M": 8, "N": 8, "P": 7, "R": 7, "S": 7}.get(asked.letters, 0)
    if asked.grade > last or str(asked) in cells:
        return 0.0
    return cells[f"delta{asked.grade}"]


def _check_given(asked: _Class, nominal: float) -> None:
    if asked.letters in J_GRADES and asked.grade not in J_GRADES[asked.letters]:
        raise _not_given(asked, nominal)
    if asked.letters in ("K", "M", "N", "P", "R", "S") and asked.grade < 3:
        raise _not_given(asked, nominal)
    if asked.letters == "N" and asked.grade > 8 and nominal <= 1 + NEARNESS_MM:
        raise _not_given(asked, nominal)


def _not_given(asked: _Class, nominal: float) -> TradeError:
    grade, letters = asked.grade, asked.letters
    extent, instead = {
        "J": ("J6, J7 and J8 only", f"JS{grade} lies evenly about the nominal size"),
        "j": ("j5, j6, j7, and j8 to 3 mm", f"js{grade} lies evenly about the nominal size"),
        "K": ("K from grade 3, and above grade 8 to 3 mm only", f"JS{grade}, or K8"),
        "N": ("N from grade 3, and above grade 8 over 1 mm only", "N8, or H with a shaft n"),
        "CD": ("CD to 10 mm only", f"C{grade} and D{grade} lie on either side of it"),
        "cd": ("cd to 10 mm only", f"c{grade} and d{grade} lie on either side of it"),
        "EF": ("EF to 10 mm only", f"E{grade} and F{grade} lie on either side of it"),
        "ef": ("ef to 10 mm only", f"e{grade} and f{grade} lie on either side of it"),
        "FG": ("FG to 10 mm only", f"F{grade} and G{grade} lie on either side of it"),
        "fg": ("fg to 10 mm only", f"f{grade} and g{grade} lie on either side of it"),
    }.get(letters, (f"{letters} from grade 3", f"{letters}3, or H{grade} with a tighter shaft"))
    return TradeError(
        f"{asked} is not given at {nominal:g} mm: the tables have {extent}", hint=instead
    )
