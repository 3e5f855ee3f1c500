"""What to leave for the reamer or the boring tool, and in which order drills open a hole up."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.fastening.fixing_cautions import fixing_cautions
from shoplog.trade.hole_work.drills import Drill, choose, drills_of
from shoplog.trade.machining.cutting import require_positive, require_within

__all__ = [
    "DrillingOrder",
    "FinishingAllowance",
    "drilling_order",
    "finishing_allowance",
    "pilot_drill",
    "reamer_limits",
]

LARGEST_DRILL = 100.0  # mm: where the sets and the table of allowances end
FINISHES = ("drill", "ream", "bore")
MATERIALS = {"ordinary": 1.0, "light metal": 1.5, "tough": 1.5}
OVERCUT = 0.05  # mm, what a twist drill is reckoned to cut over its size
WEB = 0.15  # of the drill's diameter; published as 12 to 15 %
PILOT_OVER_WEB = 1.1
NO_PILOT_TO = 10.0  # mm; common practice, no source
LEAST_STEP = 0.5  # mm on diameter, less only rubs; common practice, no source
REAMING = (
    "Institut fuer Berufliche Entwicklung, Technique for manual working of materials, manual"
    " reaming, section 5.3; a workshop course's table (Under Sizes of Reaming); boring: common"
    " practice, no source"
)
PILOT = (
    "web of 12 to 15 % of the diameter (machinistpost.com, pilot holes); pilot a tenth over the web"
    " (fairburyfastener.com, drills); from which size: common practice, no source"
)


@dataclass(frozen=True, slots=True)
class FinishingAllowance:
    """What is left on the diameter for a reamer or a boring tool: a band."""

    diameter: Millimetre
    """Of the finished hole."""
    finish: str
    least: Millimetre
    most: Millimetre

    @property
    def largest_before(self) -> Millimetre:
        """Largest diameter that the hole may have before it is finished."""
        return self.diameter - self.least

    @property
    def smallest_before(self) -> Millimetre:
        """Smallest diameter that the hole may have before it is finished."""
        return self.diameter - self.most

    def describe(self) -> str:
        """The allowance in one sentence."""
        return (
            f"Leave {self.least:.2f} to {self.most:.2f} mm on the diameter: a hole of"
            f" {self.smallest_before:.2f} to {self.largest_before:.2f} mm before the {self.finish}"
            f" to {self.diameter:g} mm."
        )


@dataclass(frozen=True, slots=True)
class DrillingOrder:
    """The drills for a hole, the first one first, and how it is finished."""

    diameter: Millimetre
    finish: str
    drills: tuple[Drill, ...]
    allowance: FinishingAllowance | None

    @property
    def designations(self) -> tuple[str, ...]:
        """How the drills are called, in order."""
        return tuple(each.designation for each in self.drills)

    @property
    def last(self) -> Drill:
        """The drill before the finish."""
        return self.drills[-1]

    @property
    def left(self) -> Millimetre:
        """What is left on the diameter after the last drill, if it cuts its own size."""
        return self.diameter - self.last.diameter

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of drilling, and of opening up where there is more than one drill."""
        enlarging = ("enlarging",) if len(self.drills) > 1 else ()
        return fixing_cautions("drilling", *enlarging)

    @property
    def notes(self) -> tuple[str, ...]:
        """That no drill of the sets falls in the band, and what a drill cuts."""
        found = []
        band = self.allowance
        if band and not band.least - 1e-6 <= self.left - OVERCUT <= band.most + 1e-6:
            found.append(
                f"no drill of the sets leaves {band.least:.2f} to {band.most:.2f} mm: the last one"
                f" leaves {self.left - OVERCUT:.2f} mm"
            )
        if band:
            found.append(f"a twist drill is reckoned to cut {OVERCUT:g} mm over its size")
        return tuple(found)

    def describe(self) -> str:
        """The order in one sentence."""
        steps = ", ".join(self.designations)
        if self.finish == "drill":
            return f"Drill {steps}."
        return f"Drill {steps}, then {self.finish} to {self.diameter:g} mm."


def _one_of(argument: str, text: str, known: tuple[str, ...]) -> str:
    if text not in known:
        names = ", ".join(f'"{each}"' for each in known)
        raise TradeError(
            f'"{text[:30]}" is no {argument}', hint=f"one of {names}", argument=argument
        )
    return text


@offered(source=REAMING)
def finishing_allowance(
    diameter: Millimetre, finish: str = "ream", material: str = "ordinary"
) -> FinishingAllowance:
    """Stock to leave in a hole, on the diameter, for a reamer or a boring tool.

    Parameters
    ----------
    diameter : float [mm]
        Over 0, at most 100; of the finished hole.
    finish : str [-]
        `ream` or `bore`.
    material : str [-]
        `ordinary` (steel, cast iron, brass), `light metal` or `tough`: the last two have half as
        much again for the reamer.

    Returns
    -------
    FinishingAllowance [-]
        The band, and the hole before finishing.

    Raises
    ------
    TradeError
        Another finish or material, or a diameter outside the table.

    Notes
    -----
    A reamer follows the hole that it is given: where the place or the squareness counts, bore
    before reaming. Less than the band and the reamer rubs; more and it cuts rough and large.

    Examples
    --------
    >>> finishing_allowance(12).describe()
    'Leave 0.20 to 0.30 mm on the diameter: a hole of 11.70 to 11.80 mm before the ream to 12 mm.'

    References
    ----------
    Institut fuer Berufliche Entwicklung, manual reaming, section 5.3.
    """
    _one_of("finish", finish, FINISHES[1:])
    _one_of("material", material, tuple(MATERIALS))
    if not 0 < diameter <= LARGEST_DRILL:
        raise OutOfRange("diameter", diameter, "mm", over=0, most=LARGEST_DRILL)
    more = MATERIALS[material] if finish == "ream" else 1.0
    row = next(
        row
        for row in table("finishing_allowances").rows
        if row["finish"] == finish and diameter <= float(row["to_mm"])
    )
    least, most = float(row["least_mm"]) * more, float(row["most_mm"]) * more
    if most >= diameter:
        raise OutOfRange(
            "diameter",
            diameter,
            "mm",
            over=most,
            hint="so small a hole is drilled or bored to size",
        )
    return FinishingAllowance(diameter, finish, least, most)


@offered(source=PILOT)
def pilot_drill(diameter: Millimetre, sets: str = "") -> Drill:
    """Pilot drill that relieves the chisel edge of a larger drill.

    The least drill at or over 1.1 x 0.15 D: a tenth over the web of the larger drill.

    Parameters
    ----------
    diameter : float [mm]
        Over 0, at most 100; of the larger drill.
    sets : str [-]
        Which sets: some of `metric`, `fractional`, `number`, `letter`, with commas; metric if
        empty.

    Returns
    -------
    Drill [-]
        The pilot drill.

    Notes
    -----
    Measure the web of the drill if it has been ground back: it is thicker there. Split points need
    no pilot. A pilot much larger than the web lets the lips grab and the hole go out of round.

    Examples
    --------
    >>> pilot_drill(25).designation
    '4.2 mm'

    References
    ----------
    Published rules for pilot holes (web of 12 to 15 %, a tenth over the web).
    """
    require_positive("diameter", diameter, "mm")
    require_within("diameter", diameter, "mm", 0, LARGEST_DRILL)
    drills = drills_of(sets or "metric")
    least = min(each.diameter for each in drills)
    return choose(max(least, WEB * PILOT_OVER_WEB * diameter), drills).at_or_over


@offered(source=f"{REAMING}; {PILOT}")
def drilling_order(
    diameter: Millimetre,
    finish: str = "drill",
    material: str = "ordinary",
    sets: str = "",
    most_step: Millimetre | None = None,
) -> DrillingOrder:
    """Drills for a hole in order: pilot, steps that a light machine can turn, last drill, finish.

    Parameters
    ----------
    diameter : float [mm]
        Over 0, at most 100; of the finished hole.
    finish : str [-]
        `drill`, `ream` or `bore`.
    material : str [-]
        `ordinary`, `light metal` or `tough`.
    sets : str [-]
        Which sets: some of `metric`, `fractional`, `number`, `letter`, with commas; metric if
        empty.
    most_step : float [mm]
        0.5 or more; the most that one drill may open the hole up on the diameter, after the
        pilot. No steps if not given.

    Returns
    -------
    DrillingOrder [-]
        The drills, the allowance that is left, and how the hole is finished.

    Raises
    ------
    TradeError
        The sets have no drill that leaves at least the least allowance.

    Notes
    -----
    The last drill is the one that leaves most nearly the middle of the band, cutting 0.05 mm over
    its size. Holes to 10 mm get no pilot: centre drill or spot first.

    Examples
    --------
    >>> drilling_order(16, "ream").designations
    ('2.6 mm', '15.75 mm')
    >>> drilling_order(25, most_step=8).designations
    ('4.2 mm', '11.1 mm', '18.0 mm', '25.0 mm')

    References
    ----------
    Institut fuer Berufliche Entwicklung, manual reaming, section 5.3; published rules for pilots.
    """
    _one_of("finish", finish, FINISHES)
    if finish == "drill":
        _one_of("material", material, tuple(MATERIALS))
    if most_step is not None:
        require_within("most_step", most_step, "mm", LEAST_STEP, LARGEST_DRILL)
    band = None if finish == "drill" else finishing_allowance(diameter, finish, material)
    last = _last_drill(diameter, band, sets or "metric")
    opening = _before(last, sets or "metric", most_step)
    return DrillingOrder(diameter, finish, (*opening, last), band)


def _last_drill(diameter: float, band: FinishingAllowance | None, sets: str) -> Drill:
    drills = drills_of(sets)
    if band is None:
        return choose(diameter, drills).nearest
    fit = [each for each in drills if each.diameter + OVERCUT <= band.largest_before + 1e-6]
    if not fit:
        raise TradeError(
            f"no drill of the sets is under {band.largest_before - OVERCUT:.3f} mm",
            hint="other sets",
            argument="sets",
        )
    middle = (band.largest_before + band.smallest_before) / 2 - OVERCUT
    return min(fit, key=lambda each: (round(abs(each.diameter - middle), 6), each.diameter))


def _before(last: Drill, sets: str, most_step: float | None) -> list[Drill]:
    """The drills before the last one, smallest first."""
    if last.diameter <= NO_PILOT_TO:
        return []
    pilot = pilot_drill(last.diameter, sets)
    if most_step is None:
        return [pilot]
    return _in_steps(pilot, last, sets, most_step)


def _in_steps(pilot: Drill, last: Drill, sets: str, most_step: float) -> list[Drill]:
    """The pilot and the fewest steps of which none is over the most, even where drills allow it."""
    drills = sorted(drills_of(sets), key=lambda each: each.diameter)
    largest = _largest_steps(pilot, last, drills, most_step)
    rise = last.diameter - pilot.diameter
    for steps in (len(largest), len(largest) + 1):
        targets = (pilot.diameter + rise * k / steps for k in range(1, steps))
        even = [pilot, *dict.fromkeys(choose(target, drills).nearest for target in targets)]
        sizes = [each.diameter for each in (*even, last)]
        if max(b - a for a, b in pairwise(sizes)) <= most_step + 1e-6:
            return even
    return largest


def _largest_steps(pilot: Drill, last: Drill, drills: list[Drill], most_step: float) -> list[Drill]:
    """The pilot and the drills, each the largest that the step allows."""
    order = [pilot]
    while last.diameter - order[-1].diameter > most_step + 1e-6:
        most = order[-1].diameter + most_step + 1e-6
        step = drills[bisect_right(drills, most, key=lambda each: each.diameter) - 1]
        if step.diameter <= order[-1].diameter:
            raise TradeError(
                f"the sets have no drill from {order[-1].designation} to {most:.3f} mm",
                hint="more sets, or a larger step",
                argument="most_step",
            )
        order.append(step)
    return order


@offered(
    source="a reamer maker's guide to DIN 1420 (dormertools.com, reaming tolerance limits), read"
)
def reamer_limits(hole: Size) -> Size:
    """Limits of size for a reamer that is made or ground for a hole of a tolerance.

    Greatest: the hole's greatest less 0.15 of its tolerance; least: that less 0.35 of the
    tolerance; both parts rounded up to 1 um.

    Parameters
    ----------
    hole : Size [mm]
        The hole with its limits; tolerance over 0.

    Returns
    -------
    Size [mm]
        The reamer with its limits, about the hole's nominal size.

    Notes
    -----
    For steel; a reamer cuts a little over its size, by more in brass when new. Try it in scrap.

    Examples
    --------
    >>> made = reamer_limits(Size(10, 0.040, 0.062, "D8"))
    >>> round(made.min, 3), round(made.max, 3)
    (10.05, 10.058)

    References
    ----------
    DIN 1420 by a maker's guide, worked example of 10 D8.
    """
    tolerance = hole.upper - hole.lower
    if not tolerance > 0:
        raise TradeError(
            f"the hole's tolerance is {tolerance:g} mm, it must be over 0 mm", argument="hole"
        )
    upper = hole.upper - _up_to_micrometre(0.15 * tolerance)
    return Size(hole.nominal, upper - _up_to_micrometre(0.35 * tolerance), upper)


def _up_to_micrometre(length: float) -> float:
    return ceil(round(length * 1000, 6)) / 1000
