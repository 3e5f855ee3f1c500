"""Tolerances of screw threads by the formulas and tables of their standards.

ISO 965-1 (metric) and ISO 2903 (trapezoidal) work in micrometres and round to the R 40 series of
preferred numbers; ASME B1.1 (Unified) and B1.5 (Acme) work in inches and round to four places.
Where a standard's table departs from its own formula, the table counts and is in `data/`.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from itertools import pairwise
from math import floor, log10, sqrt

from shoplog.tables import table

__all__ = [
    "acme_allowance",
    "acme_pitch_tolerance",
    "iso965_crest",
    "iso965_deviation",
    "iso965_pitch_tolerance",
    "iso965_unlisted",
    "iso2903_row",
    "preferred_number",
    "round_inch",
    "unified_minor_tolerance",
    "unified_pitch_tolerance",
]

R40 = (
    *(1.00, 1.06, 1.12, 1.18, 1.25, 1.32, 1.40, 1.50, 1.60, 1.70),
    *(1.80, 1.90, 2.00, 2.12, 2.24, 2.36, 2.50, 2.65, 2.80, 3.00),
    *(3.15, 3.35, 3.55, 3.75, 4.00, 4.25, 4.50, 4.75, 5.00, 5.30),
    *(5.60, 6.00, 6.30, 6.70, 7.10, 7.50, 8.00, 8.50, 9.00, 9.50),
)
"""ISO 3: forty steps to ten times as much."""
DIAMETERS = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180, 355)
"""Bounds in mm of the diameter ranges of ISO 965-1; a size is over the first, to the second."""
MIDDLE_GRADE = 6
STEPS_PER_GRADE = 4
"""Of R 40: each grade is 1.25 times the one below it, in preferred numbers."""
STEPS_OF_INTERNAL = 5
"""Of R 40: TD2 is 1.32 times Td2 of the same grade."""
FORMULA = {"e": (50, 11), "f": (30, 11), "g": (15, 11)}
"""Deviation in um: the first and the second times the pitch in mm."""
LEAST_PITCH = {
    "Td": {4: 0.2, 6: 0.2, 8: 0.8},
    "TD1": {4: 0.2, 5: 0.2, 6: 0.3, 7: 0.5, 8: 0.8},
    "Td2": {3: 0.2, 4: 0.2, 5: 0.2, 6: 0.2, 7: 0.35, 8: 0.8, 9: 0.8},
    "TD2": {4: 0.2, 5: 0.25, 6: 0.3, 7: 0.5, 8: 0.8},
}
"""From which pitch in mm ISO 965-1 lists a grade of each tolerance."""


# ---- preferred numbers -----------------------------------------------------------------------


def _place(value: float) -> int:
    """Which R 40 number is nearest, counted from 1."""
    start = floor(log10(value)) * 40
    return min(range(start - 1, start + 42), key=lambda step: abs(_number(step) - value))


def _number(place: int) -> float:
    tens, step = divmod(place, 40)
    return float(R40[step] * 10.0**tens)


def preferred_number(value: float, steps: int = 0) -> float:
    """The R 40 number nearest to a value, and so many steps from it; whole from 1 up.

    >>> preferred_number(207.0), preferred_number(118.0, 4)
    (212.0, 150.0)
    """
    return float(round(_number(_place(value) + steps)))


# ---- ISO 965-1 -------------------------------------------------------------------------------


@cache
def _deviations() -> dict[float, dict[str, float]]:
    """Amounts in um by pitch in mm and letter."""
    return {
        float(row["pitch_mm"]): {
            letter: float(row[f"{letter}_um"]) for letter in "abcdefg" if row[f"{letter}_um"]
        }
        for row in table("threads_iso965_deviations").rows
    }


def iso965_deviation(letter: str, pitch: float) -> float | None:
    """Fundamental deviation in um: es of a to h, negative; EI of G and H. Nothing where the
    standard has none for the pitch.
    """
    low = letter.lower()
    if low == "h":
        return 0.0
    listed = _deviations().get(pitch)
    amount = listed.get(low) if listed is not None else _by_formula(low, pitch)
    if amount is None:
        return None
    return amount if letter.isupper() else -amount


def _by_formula(letter: str, pitch: float) -> float | None:
    """For a pitch that the table does not list."""
    if letter not in FORMULA:
        return None
    base, slope = FORMULA[letter]
    return float(round(base + slope * pitch))


@cache
def _exceptions() -> tuple[tuple[str, float, float, float, float], ...]:
    return tuple(
        (
            row["tolerance"],
            float(row["pitch_mm"]),
            float(row["over_mm"]),
            float(row["to_mm"]),
            float(row["grade_6_um"]),
        )
        for row in table("threads_iso965_exceptions").rows
    )


def _excepted(kind: str, pitch: float, diameter: float) -> float | None:
    """The table's grade 6 where it departs from the formula."""
    for name, listed, over, to, amount in _exceptions():
        if name == kind and listed == pitch and over < diameter <= to:
            return amount
    return None


def _graded(kind: str, formula: float, pitch: float, diameter: float, steps: int) -> float:
    known = _excepted(kind, pitch, diameter)
    return preferred_number(formula if known is None else known, steps)


def iso965_crest(kind: str, grade: int, pitch: float) -> float:
    """Crest tolerance in um: Td of the external major, TD1 of the internal minor diameter.

    Grade 6: Td = 180 P^(2/3) - 3.15 / sqrt(P); TD1 = 433 P - 190 P^1.22 below 1 mm of pitch, else
    230 P^0.7.
    """
    if kind == "Td":
        formula = 180 * pitch ** (2 / 3) - 3.15 / sqrt(pitch)
    elif pitch < 1:
        formula = 433 * pitch - 190 * pitch**1.22
    else:
        formula = 230 * pitch**0.7
    return _graded(kind, formula, pitch, 1.0, STEPS_PER_GRADE * (grade - MIDDLE_GRADE))


def iso965_pitch_tolerance(kind: str, grade: int, pitch: float, diameter: float) -> float:
    """Pitch diameter tolerance in um: Td2 of the external, TD2 of the internal thread.

    Grade 6: Td2 = 90 P^0.4 d^0.1, with d the geometric mean of the range that the diameter is in;
    TD2 = 1.32 Td2.
    """
    over, to = _range(diameter)
    formula = 90 * pitch**0.4 * sqrt(over * to) ** 0.1
    steps = STEPS_PER_GRADE * (grade - MIDDLE_GRADE)
    return _graded(
        "Td2", formula, pitch, diameter, steps + (STEPS_OF_INTERNAL if kind == "TD2" else 0)
    )


def _range(diameter: float) -> tuple[float, float]:
    return next((over, to) for over, to in pairwise(DIAMETERS) if over < diameter <= to)


def iso965_unlisted(kind: str, grade: int, pitch: float) -> bool:
    """Whether the standard's table lists no such grade for the pitch."""
    return pitch < LEAST_PITCH[kind].get(grade, 1e9)


# ---- ISO 2903 --------------------------------------------------------------------------------


@cache
def iso2903_row(pitch: float) -> dict[str, float]:
    """Deviations and crest tolerances in um of a trapezoidal thread, by pitch in mm."""
    rows = table("threads_iso2903").rows
    found = next(row for row in rows if float(row["pitch_mm"]) == pitch)
    return {name: float(value) for name, value in found.items()}


# ---- ASME B1.1 -------------------------------------------------------------------------------


def round_inch(value: float, places: int = 4) -> float:
    """Rounded half up in decimal, as the tables of ASME B1.1 are.

    >>> round_inch(0.00485), round_inch(0.002549625)
    (0.0049, 0.0025)
    """
    decimal = Decimal(repr(round(value, 12)))  # without the last bits of binary arithmetic
    return float(decimal.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP))


def unified_pitch_tolerance(diameter: float, pitch: float, engagement: float) -> float:
    """Td2 of class 2A in inches: 0.0015 D^(1/3) + 0.0015 sqrt(Le) + 0.015 P^(2/3)."""
    return round_inch(
        0.0015 * diameter ** (1 / 3) + 0.0015 * sqrt(engagement) + 0.015 * pitch ** (2 / 3), 6
    )


def unified_minor_tolerance(diameter: float, pitch: float, grade: str) -> float:
    """Tolerance in inches of the internal minor diameter in class 1B, 2B or 3B."""
    formula: float = 0.05 * pitch ** (2 / 3) + 0.03 * pitch / diameter - 0.002
    if grade == "3B":
        least = 0.23 * pitch - 1.5 * pitch**2 if pitch < 1 / 12.5 else 0.120 * pitch
        return max(least, min(formula, 0.394 * pitch))
    if pitch > 0.25:
        return 0.15 * pitch
    usual = 0.25 * pitch - 0.4 * pitch**2
    return usual if diameter >= 0.25 else max(usual, min(formula, 0.394 * pitch))


# ---- ASME B1.5 -------------------------------------------------------------------------------

ACME_TOLERANCE = {"2G": (0.030, 0.006), "3G": (0.014, 0.0028), "4G": (0.010, 0.002)}
ACME_ALLOWANCE = {"2G": 0.008, "3G": 0.006, "4G": 0.004}


def acme_pitch_tolerance(diameter: float, pitch: float, grade: str) -> float:
    """Pitch diameter tolerance in inches: 0.030 sqrt(P) + 0.006 sqrt(D) in class 2G."""
    of_pitch, of_diameter = ACME_TOLERANCE[grade]
    return of_pitch * sqrt(pitch) + of_diameter * sqrt(diameter)


def acme_allowance(diameter: float, grade: str) -> float:
    """Pitch diameter allowance of the screw in inches: 0.008 sqrt(D) in class 2G."""
    return ACME_ALLOWANCE[grade] * sqrt(diameter)
