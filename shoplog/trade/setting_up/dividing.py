"""Simple indexing with a dividing head: whole turns, holes on a circle, and the sector's arms.

A turn of the crank turns the work by one part of the head's ratio. A division takes a circle that
gives it exactly; an angle takes the nearest hole.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from shoplog.tables import table
from shoplog.trade.declare import Degree, Number, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import require_count, require_within
from shoplog.trade.setting_up.cautions import setting_up_cautions
from shoplog.trade.setting_up.indexing_record import HoleCircle, Indexing

__all__ = ["HoleCircle", "Indexing", "dividing", "dividing_angle", "plate_sets"]

SOURCE = (
    "US Army, OD1644 Milling Machine Operations, plain and angular indexing; Machinery's Handbook,"
    " plain indexing table"
)
MOST_DIVISIONS, MOST_RATIO, MOST_HOLES, MOST_CIRCLES = 100_000, 1000, 1000, 100
LEAST_ANGLE, WHOLE_TURN = 1 / 3600, 360.0
USUAL_RATIO, USUAL_PLATES = 40.0, "three plates"
NEARBY = 200


@offered(source=SOURCE, cautions=setting_up_cautions("dividing"))
def dividing(
    divisions: Number,
    ratio: Number = USUAL_RATIO,
    circles: list[Number] | None = None,
    plates: str = USUAL_PLATES,
) -> Indexing:
    """Turns of the crank and holes of a plate that divide a whole turn into equal parts.

    n = R / N turns, with R the ratio of the head and N the number of divisions.

    Parameters
    ----------
    divisions : float [-]
        Whole, 2 to 100 000.
    ratio : float [-]
        Whole, 1 to 1000; turns of the crank for one of the work.
    circles : list of float [-]
        Holes of each circle, up to 100 of them, each 1 to 1000; left out, those of `plates`.
    plates : str [-]
        A set of plates: `three plates` (15 to 49) or `one plate` (24 to 66).

    Returns
    -------
    Indexing [-]
        Whole turns, spaces on the largest circle that does, and the others that do.

    Raises
    ------
    TradeError
        No circle gives the division exactly.

    Notes
    -----
    Simple indexing only: what no circle gives takes differential or compound indexing, or another
    plate. The largest circle is taken, whose holes are out of place by the least.

    Examples
    --------
    >>> dividing(6).describe()
    '6 divisions at 40:1: 6 turns and 26 spaces on the circle of 39 (plate 3).'

    References
    ----------
    US Army, OD1644; Machinery's Handbook.
    """
    if not 2 <= divisions <= MOST_DIVISIONS:
        raise OutOfRange("divisions", divisions, "", least=2, most=MOST_DIVISIONS)
    require_count("divisions", divisions, MOST_DIVISIONS)
    require_count("ratio", ratio, MOST_RATIO)
    known = _circles(circles, plates)
    turns = Fraction(int(ratio), int(divisions))
    whole, rest = divmod(turns, 1)
    fitting = [each for each in known if (rest * each.holes).denominator == 1]
    if rest and not fitting:
        raise _no_circle(int(divisions), int(ratio), rest, known)
    chosen = _with_spaces(fitting, rest) if rest else []
    return _indexing(360 / divisions, int(divisions), int(ratio), int(whole), chosen, known)


@offered(source=SOURCE, cautions=setting_up_cautions("dividing"))
def dividing_angle(
    angle: Degree,
    ratio: Number = USUAL_RATIO,
    circles: list[Number] | None = None,
    plates: str = USUAL_PLATES,
) -> Indexing:
    """Turns of the crank and holes of a plate that turn the work by an angle, as near as can be.

    n = R a / 360 turns, with R the ratio of the head and a the angle.

    Parameters
    ----------
    angle : float [deg]
        A second of arc to 360.
    ratio : float [-]
        Whole, 1 to 1000; turns of the crank for one of the work.
    circles : list of float [-]
        Holes of each circle, up to 100 of them, each 1 to 1000; left out, those of `plates`.
    plates : str [-]
        A set of plates: `three plates` (15 to 49) or `one plate` (24 to 66).

    Returns
    -------
    Indexing [-]
        The nearest hole of all circles, the largest circle of those that are as near; its error.

    Raises
    ------
    OutOfRange
        The angle or the ratio is none.

    Notes
    -----
    For one move: the error adds up over a row of them, and `dividing` makes none.

    Examples
    --------
    >>> made = dividing_angle(19)
    >>> made.turns, made.spaces, made.holes, made.error
    (2, 3, 27, 0.0)

    References
    ----------
    US Army, OD1644.
    """
    require_within("angle", angle, "deg", LEAST_ANGLE, WHOLE_TURN)
    require_count("ratio", ratio, MOST_RATIO)
    known = _circles(circles, plates)
    # The nearest fraction of a degree that a person would write: 8°50' is no decimal.
    asked = Fraction(angle).limit_denominator(3_600_000) * int(ratio) / 360
    nearest = min(abs(_rounded(asked, each.holes) - asked) for each in known)
    near = [each for each in known if abs(_rounded(asked, each.holes) - asked) == nearest]
    whole, rest = divmod(_rounded(asked, max(near, key=lambda each: each.holes).holes), 1)
    fitting = [each for each in near if (rest * each.holes).denominator == 1]
    chosen = _with_spaces(fitting, rest) if rest else []
    return _indexing(angle, 0, int(ratio), int(whole), chosen, known)


def plate_sets() -> dict[str, tuple[HoleCircle, ...]]:
    """The circles of every set of plates that is known by name."""
    found: dict[str, tuple[HoleCircle, ...]] = {}
    for row in table("dividing_plates").rows:
        made = tuple(HoleCircle(int(holes), 0, row["plate"]) for holes in row["circles"].split())
        found[row["set"]] = (*found.get(row["set"], ()), *made)
    return found


def _circles(given: Sequence[float] | None, plates: str) -> tuple[HoleCircle, ...]:
    if given is not None:
        if not 1 <= len(given) <= MOST_CIRCLES:
            raise TradeError(
                f"there are {len(given)} circles, there may be 1 to {MOST_CIRCLES}",
                argument="circles",
            )
        for number, holes in enumerate(given, 1):
            if not 1 <= holes <= MOST_HOLES or holes != round(holes):
                raise TradeError(
                    f"circle {number} has {holes:g} holes, it must have a whole number from 1 to"
                    f" {MOST_HOLES}",
                    argument="circles",
                )
        return tuple(HoleCircle(int(holes), 0) for holes in dict.fromkeys(given))
    sets = plate_sets()
    if plates.strip().casefold() not in sets:
        raise TradeError(
            f"no set of plates is called {plates[:30]!r}",
            hint=f"one of {', '.join(sets)}; or the circles themselves: circles=[15, 18, 20]",
            argument="plates",
        )
    return sets[plates.strip().casefold()]


def _rounded(turns: Fraction, holes: int) -> Fraction:
    return Fraction(round(turns * holes), holes)


def _with_spaces(circles: Iterable[HoleCircle], rest: Fraction) -> list[HoleCircle]:
    """The circles with their spaces, the largest first."""
    found = (HoleCircle(each.holes, int(rest * each.holes), each.plate) for each in circles)
    return sorted(found, key=lambda each: -each.holes)


def _indexing(
    asked: float, divisions: int, ratio: int, whole: int, chosen: Sequence[HoleCircle],
    known: Iterable[HoleCircle],
) -> Indexing:  # fmt: skip
    circle, others = (chosen[0], tuple(chosen[1:])) if chosen else (None, ())
    plate = [each.holes for each in known if circle is None or each.plate == circle.plate]
    return Indexing(asked, divisions, ratio, whole, circle, others, tuple(sorted(plate)))


def _no_circle(
    divisions: int, ratio: int, rest: Fraction, known: Sequence[HoleCircle]
) -> TradeError:
    def goes(number: int) -> bool:
        part = Fraction(ratio, number) % 1
        return any((part * each.holes).denominator == 1 for each in known)

    below = next((n for n in range(divisions - 1, max(1, divisions - NEARBY), -1) if goes(n)), None)
    above = next((n for n in range(divisions + 1, divisions + NEARBY) if goes(n)), None)
    near = " and ".join(str(number) for number in (below, above) if number)
    return TradeError(
        f"no circle gives {divisions} divisions at {ratio}:1: it takes a number of holes that"
        f" {rest.denominator} goes into",
        hint=f"differential or compound indexing, or another plate; nearest that go are {near}"
        if near
        else "differential or compound indexing, or another plate",
        argument="divisions",
    )
