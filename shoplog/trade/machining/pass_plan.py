"""A plan of passes: the depth of each, what they come to, and how it is read from a text."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, groupby
from math import fsum
from typing import Self

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, TradeError
from shoplog.trade.machining.cutting import LARGEST, MOST_PASSES, SMALLEST
from shoplog.units import convert, unit

__all__ = ["NEAR_MM", "PassPlan", "plan_of", "say_mm"]

# Sums nearer than half a micrometre are the same: no slide is set finer.
NEAR_MM = 0.0005
THIN_MM = 0.05
MOST_CHARACTERS = 200
_UNITS = {"mm": "mm", "um": "um", "µm": "um", "in": "in", "thou": "thou"}
_TERM = re.compile(
    r"(?:(?P<count>\d{1,9}) *(?:(?:passes|pass|cuts|cut) *(?:of|at)?|[x×*]) *)?"
    r"(?P<depth>\d+(?:\.\d+)?|\.\d+) *(?P<unit>mm|um|µm|in|thou)"
)
_BASIS = re.compile(r",? *(?:(?:on|off) *(?:the )?(?P<basis>radius|diameter)) *$")


@dataclass(frozen=True, slots=True)
class PassPlan:
    """The depths of the passes in their order, square to the surface: in turning on the radius."""

    depths: tuple[Millimetre, ...]
    finish_passes: int = 0
    """How many of the last are finishing passes."""
    diameters: tuple[Millimetre, ...] = ()
    """In turning, the diameter after each pass."""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def count(self) -> int:
        """How many passes there are."""
        return len(self.depths)

    @property
    def total(self) -> Millimetre:
        """What all of them come to; in turning on the radius."""
        return fsum(self.depths)

    @property
    def off_diameter(self) -> Millimetre:
        """What they take off the diameter of round work: twice the total."""
        return 2 * self.total

    @property
    def roughing_depth(self) -> Millimetre:
        """Depth of the deepest roughing pass; 0 where there is none."""
        return max(self.depths[: self.count - self.finish_passes], default=0.0)

    @property
    def finishing_allowance(self) -> Millimetre:
        """What the finishing passes take together; in turning on the radius."""
        return fsum(self.depths[self.count - self.finish_passes :])

    @property
    def infeeds(self) -> tuple[Millimetre, ...]:
        """How far in each pass is set from where the tool touched; in turning on the radius."""
        return tuple(accumulate(self.depths))

    def describe(self) -> str:
        """One plain sentence.

        >>> PassPlan.from_text("4 passes of 1.5 mm + 0.25 mm").describe()
        '4 passes of 1.5 mm and 1 pass of 0.25 mm: 6.25 mm in all'
        """
        roughing = self.count - self.finish_passes
        parts = [_say_passes(self.depths[:roughing], "roughing" if self.finish_passes else "")]
        parts.append(_say_passes(self.depths[roughing:], "finishing"))
        said = " and ".join(part for part in parts if part)
        if not self.diameters:
            return f"{said}: {say_mm(self.total)} in all"
        off = say_mm(self.off_diameter)
        return f"{said}: {say_mm(self.total)} on the radius, {off} of diameter"

    @classmethod
    def from_text(cls, text: str) -> Self:
        """A plan from words: `5 passes of 1.5 mm`, `4 x 0.06 in + 0.01 in on diameter`.

        Raises
        ------
        TradeError
            The text cannot be read, or says too many passes or no depth.
        """
        words = text.strip().lower()
        if len(words) > MOST_CHARACTERS:
            raise _unread(text)
        basis = _BASIS.search(words)
        halved = basis is not None and basis["basis"] == "diameter"
        if basis is not None:
            words = words[: basis.start()]
        depths: list[float] = []
        for term in re.split(r" *(?:\+|,|;|\band\b|\bthen\b) *", words):
            read = _TERM.fullmatch(term.strip())
            if read is None:
                raise _unread(text)
            depths += _repeated(read, 2 if halved else 1, len(depths))
        return cls(tuple(depths))


def plan_of(
    depths: Sequence[float], finish_passes: int, diameters: Sequence[float] = ()
) -> PassPlan:
    """A plan with the remarks that its last pass asks for."""
    cases = {"measure"} if finish_passes else set()
    if finish_passes and depths[-1] < THIN_MM:
        cases.add("thin")
    roughing = depths[: len(depths) - finish_passes]
    if finish_passes and roughing and depths[-1] > max(roughing) + NEAR_MM:
        cases.add("heavier")
    rows = table("passes_cautions").rows
    cautions, notes = (
        tuple(row["text"] for row in rows if row["grade"] == grade and row["when"] in cases)
        for grade in ("caution", "note")
    )
    return PassPlan(tuple(depths), finish_passes, tuple(diameters), cautions, notes)


def say_mm(length: float) -> str:
    """A length to the micrometre, without idle noughts.

    >>> say_mm(1.33333), say_mm(2)
    ('1.333 mm', '2 mm')
    """
    return f"{round(length, 3):.10g} mm"


def _say_passes(depths: Sequence[float], kind: str) -> str:
    runs = [(depth, len(list(same))) for depth, same in groupby(say_mm(depth) for depth in depths)]
    kind = f"{kind} " if kind else ""
    said = [f"{n} {kind}{'pass' if n == 1 else 'passes'} of {depth}" for depth, n in runs]
    return " and ".join(said) if len(said) < 3 else f"{', '.join(said[:-1])} and {said[-1]}"


def _repeated(read: re.Match[str], share: int, before: int) -> list[float]:
    count = int(read["count"] or 1)
    depth = convert(float(read["depth"]), unit(_UNITS[read["unit"]]), unit("mm")) / share
    if not 1 <= count <= MOST_PASSES - before:
        raise TradeError(
            f"the plan has {before + count} passes, there may be 1 to {MOST_PASSES}",
            argument="plan",
        )
    if not SMALLEST <= depth <= LARGEST:
        raise TradeError(f"a pass of {depth:g} mm takes nothing off", argument="plan")
    return [depth] * count


def _unread(text: str) -> TradeError:
    return TradeError(
        f"the plan {text[:40]!r} cannot be read",
        hint="write it as: 5 passes of 1.5 mm; 4 x 1.5 mm + 0.25 mm; 3 cuts of 2 mm on diameter",
        argument="plan",
    )
