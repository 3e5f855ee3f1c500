"""Limits and fits to ISO 286: what a hole and a shaft make together, and in plain words."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import Micrometre, Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.limits_and_fits.iso286 import (
    NEARNESS_MM,
    ORDINARY,
    deviations,
    grade_named,
    grade_tolerance,
    limits_of,
    tolerance_classes,
)

__all__ = [
    "Fit",
    "cautions_of",
    "fit",
    "limits_of",
    "same_nominal",
    "standard_tolerance",
    "tolerance_classes",
]

MM_PER_INCH = 25.4
# When a pair is no longer called near to a preferred fit: common practice, no source.
COARSER = 2.0  # times the preferred fit's spread between least and greatest clearance
BEYOND = 1.5  # times the clearance or interference that the preferred fit guarantees most


@dataclass(frozen=True, slots=True)
class Fit:
    """A hole and a shaft of one nominal size, and what they make together (ISO 286-1, clause 3).

    A clearance below 0 is an interference.
    """

    hole: Size
    shaft: Size
    kind: str
    """`clearance`, `transition` or `interference`."""
    clearance_min: Micrometre
    """The smallest hole less the largest shaft."""
    clearance_max: Micrometre
    """The largest hole less the smallest shaft."""
    description: str
    """What the fit is for, in plain words."""
    cautions: tuple[str, ...]

    @property
    def interference_min(self) -> Micrometre:
        """The smallest shaft less the largest hole; below 0 it is a clearance."""
        return 0.0 - self.clearance_max

    @property
    def interference_max(self) -> Micrometre:
        """The largest shaft less the smallest hole; below 0 it is a clearance."""
        return 0.0 - self.clearance_min

    @property
    def designation(self) -> str:
        """The fit as a drawing states it: `30 mm H7/p6`."""
        nominal = f"{_number(self.hole.nominal)} mm"
        if self.hole.tolerance_class and self.shaft.tolerance_class:
            return f"{nominal} {self.hole.tolerance_class}/{self.shaft.tolerance_class}"
        return f"{nominal}, hole {_limits_text(self.hole)}, shaft {_limits_text(self.shaft)}"

    def describe(self) -> str:
        """One plain sentence.

        >>> fit(limits_of(30, "H7"), limits_of(30, "g6")).describe()
        'a clearance fit of 7 to 41 µm: it slides and turns by hand and locates accurately...'
        """
        least, most = _shown(self.clearance_min), _shown(self.clearance_max)
        if self.kind == "clearance":
            extent = f"a clearance fit of {least} to {most} µm"
        elif self.kind == "interference":
            least, most = _shown(self.interference_min), _shown(self.interference_max)
            extent = f"an interference fit of {least} to {most} µm"
        else:
            tight = _shown(self.interference_max)
            extent = f"a transition fit, from {tight} µm interference to {most} µm clearance"
        return f"{extent}: {self.description}"


@offered(
    source="ISO 286-1:2010, clause 3 (fits); words after the preferred fits of ANSI B4.2-1978",
)
def fit(hole: Size, shaft: Size) -> Fit:
    """What a hole and a shaft of one nominal size make together.

    clearance_min = hole.min - shaft.max and clearance_max = hole.max - shaft.min; the fit is a
    clearance fit where the first is not below 0, an interference fit where the second is not
    above 0, and a transition fit between.

    Parameters
    ----------
    hole : Size [mm]
        The inner feature, with a class or limits.
    shaft : Size [mm]
        The outer feature, with a class or limits and the same nominal size.

    Returns
    -------
    Fit [-]
        Its kind, least and greatest clearance and interference, and what it is for.

    Raises
    ------
    TradeError
        The nominal sizes differ, a size has no limits, or a class stands on the wrong side.
    OutOfRange
        A size is not over 0.

    Notes
    -----
    Both parts are taken at 20 degC (ISO 1) and without errors of form. The words are those of the
    preferred fit that the pair is, or that guarantees most nearly as much clearance or
    interference at this size (for a transition fit: whose middle is nearest). Where the pair is
    much coarser, looser or tighter than that one, or over 500 mm, they say no more than the kind.

    Examples
    --------
    >>> press = fit(limits_of(30, "H7"), limits_of(30, "p6"))
    >>> press.kind, press.interference_min, press.interference_max
    ('interference', 1.0, 35.0)

    References
    ----------
    ISO 286-1:2010, clause 3; ANSI B4.2-1978, preferred fits.
    """
    _check_size("hole", hole)
    _check_size("shaft", shaft)
    _check_nominals(hole, shaft)
    play = _Play(_micrometres(hole.lower - shaft.upper), _micrometres(hole.upper - shaft.lower))
    limits = (play.least, play.most)
    words = _words(hole, shaft, play)
    return Fit(hole, shaft, play.kind, play.least, play.most, words, cautions_of(*limits))


@offered(source="ISO 286-1:2010, Table 1")
def standard_tolerance(grade: str, diameter: Millimetre) -> Micrometre:
    """The standard tolerance of an ISO 286 grade: how far apart the limits of a size lie.

    Read from the table; its values follow i = 0.45 D^(1/3) + 0.001 D up to 500 mm and
    I = 0.004 D + 2.1 above, rounded.

    Parameters
    ----------
    grade : str [-]
        `IT01`, `IT0`, and `IT1` to `IT18`, or the number alone.
    diameter : float [mm]
        Nominal size, over 0 and at most 3150; over 1 from IT14, and at most 500 for IT01 and IT0.

    Returns
    -------
    float [um]
        The standard tolerance.

    Raises
    ------
    TradeError
        There is no such grade.
    OutOfRange
        The diameter is outside the table.

    Examples
    --------
    >>> standard_tolerance("IT7", 30)
    21.0

    References
    ----------
    ISO 286-1:2010, Table 1.
    """
    number = grade_named(grade.removeprefix("IT"))
    if number is None:
        raise TradeError(
            f"{grade[:20]} is not a standard tolerance grade",
            hint="IT01, IT0, and IT1 to IT18, such as IT7",
            argument="grade",
        )
    return grade_tolerance(number, diameter, argument="diameter")


def same_nominal(one: float, other: float) -> bool:
    """Whether two nominal sizes in mm are one: 1 in and 25.4 mm are."""
    return abs(one - other) <= max(NEARNESS_MM, 1e-9 * max(abs(one), abs(other)))


def _check_size(part: str, size: Size) -> None:
    if not size.nominal > 0:
        raise OutOfRange(part, size.nominal, "mm", over=0)
    shown = f"{_number(size.nominal)} mm"
    letter = size.tolerance_class[:1]
    if letter and letter.isupper() != (part == "hole"):
        raise TradeError(
            f"{size.tolerance_class} is a class for a {'hole' if letter.isupper() else 'shaft'},"
            f" and is given as the {part}",
            hint="the hole comes first, with a capital: fit(30 mm H7, 30 mm p6)",
            argument=part,
        )
    if not size.tolerance_class and size.lower == size.upper == 0:
        raise TradeError(
            f"the {part}, {shown}, has no limits",
            hint=f"give it a class or limits, such as {shown} {'H7' if part == 'hole' else 'h6'}"
            f" or {shown} ±0.05",
            argument=part,
        )
    if size.upper < size.lower:
        raise TradeError(
            f"the {part}'s upper deviation ({size.upper:+g} mm) is below its lower one"
            f" ({size.lower:+g} mm)",
            hint="the upper deviation comes first",
            argument=part,
        )
    if size.min <= 0:
        raise TradeError(
            f"the {part}'s least size is {size.min:g} mm, it must be over 0 mm", argument=part
        )


def _check_nominals(hole: Size, shaft: Size) -> None:
    if not same_nominal(hole.nominal, shaft.nominal):
        raise TradeError(
            f"the nominal sizes differ: the hole is {_both(hole.nominal)},"
            f" the shaft {_both(shaft.nominal)}",
            hint="a fit is between a hole and a shaft of one nominal size",
            argument="shaft",
        )


def _both(length: float) -> str:
    return f"{_number(length)} mm ({_number(round(length / MM_PER_INCH, 4))} in)"


def _number(value: float) -> str:
    return f"{value:.12g}"


def _shown(micrometres: float) -> str:
    return f"{round(micrometres, 2):g}"


def _limits_text(size: Size) -> str:
    if size.tolerance_class:
        return size.tolerance_class
    if size.upper == -size.lower:
        return f"±{size.upper:.6g}"
    upper, lower = (f"{d:+.6g}" if d else "0" for d in (size.upper, size.lower))
    return f"{upper}/{lower}"


def _micrometres(millimetres: float) -> float:
    # A picometre is below what any limit means; without it 0.021 - 0.022 mm is not quite 1 µm.
    return round(1000 * millimetres, 6) + 0.0


@dataclass(frozen=True, slots=True)
class _Play:
    """Least and greatest clearance of a pair, in micrometres."""

    least: float
    most: float

    @property
    def kind(self) -> str:
        # ISO 286-1: limits that just meet still make a clearance or an interference fit.
        if self.least >= 0:
            return "clearance"
        return "interference" if self.most <= 0 else "transition"

    @property
    def guaranteed(self) -> float:
        """What every pair has at the least, or the middle of a transition fit."""
        middle = (self.least + self.most) / 2
        return {"clearance": self.least, "interference": -self.most}.get(self.kind, middle)

    @property
    def spread(self) -> float:
        return self.most - self.least


@dataclass(frozen=True, slots=True)
class _Preferred:
    """A row of the preferred fits; one without a pair has the words for the rest of its kind."""

    hole_basis: str
    shaft_basis: str
    kind: str
    words: str

    def play(self, nominal: float) -> _Play:
        hole, shaft = (deviations(nominal, name) for name in self.hole_basis.split("/"))
        return _Play(hole[0] - shaft[1], hole[1] - shaft[0])


@cache
def _preferred(kind: str) -> tuple[_Preferred, ...]:
    names = ("hole_basis", "shaft_basis", "kind", "words")
    rows = (_Preferred(*(row[name] for name in names)) for row in table("iso286_fit_words").rows)
    return tuple(row for row in rows if row.kind == kind)


def _words(hole: Size, shaft: Size, play: _Play) -> str:
    rows = _preferred(play.kind)
    pair = f"{hole.tolerance_class}/{shaft.tolerance_class}"
    named = next((row for row in rows if pair in (row.hole_basis, row.shaft_basis)), None)
    if named:
        return named.words
    general = next(row.words for row in rows if not row.hole_basis)
    if hole.nominal > ORDINARY + NEARNESS_MM:
        return general
    near, how = _nearest(rows, play, hole.nominal)
    return f"{how} {near.hole_basis}, {general if how != 'near to' else near.words}"


def _nearest(rows: tuple[_Preferred, ...], play: _Play, nominal: float) -> tuple[_Preferred, str]:
    """The preferred fit of the same kind at this size that guarantees most nearly as much."""
    known = [(row, row.play(nominal)) for row in rows if row.hole_basis]
    known = [(row, given) for row, given in known if given.kind == play.kind]
    near, given = min(known, key=lambda pair: abs(pair[1].guaranteed - play.guaranteed))
    if play.spread > COARSER * given.spread:
        return near, "coarser than"
    extreme = max(other.guaranteed for _, other in known)
    if play.kind != "transition" and play.guaranteed > BEYOND * extreme:
        return near, "looser than" if play.kind == "clearance" else "tighter than"
    return near, "near to"


def cautions_of(clearance_min: float, clearance_max: float) -> tuple[str, ...]:
    """What stands beside a pair that may have to be pressed or shrunk, by its clearance in um."""
    play = _Play(clearance_min, clearance_max)
    tight = play.kind == "transition" and play.guaranteed < 0
    when = "mostly tight" if tight else play.kind
    return tuple(row["caution"] for row in table("iso286_fit_cautions").rows if row["when"] == when)
