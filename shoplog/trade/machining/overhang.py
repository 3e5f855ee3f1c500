"""How far a tool or work may stick out of its holding, and when it asks for a tailstock."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, Number, TradeError, offered
from shoplog.trade.machining.cutting import require_within

__all__ = ["Overhang", "bending_cautions", "overhang", "overhang_of"]

RULES = (
    "Kent USA, Three ways to avoid part deflection, 2019; Boring bars, deflection and chatter;"
    " common practice, no source (the table's head says which)"
)
# Work more slender than this may whip, however it is held; from memory.
SLENDER = 12.0


def bending_cautions(*when: str) -> tuple[str, ...]:
    """The cautions that belong to a way of holding, in the table's order."""
    return tuple(row["caution"] for row in table("bending_cautions").rows if row["when"] in when)


@dataclass(frozen=True, slots=True)
class Overhang:
    """How far something sticks out, over its diameter, against what is common."""

    what: str
    length: Millimetre
    diameter: Millimetre
    most: Number
    """The greatest length over diameter that is common."""
    beyond: str
    """What to do past it."""
    cautions: tuple[str, ...]

    @property
    def ratio(self) -> Number:
        """Length over diameter."""
        return self.length / self.diameter

    @property
    def share(self) -> Number:
        """The ratio as a part of the greatest that is common."""
        return self.ratio / self.most

    @property
    def within(self) -> bool:
        """Whether it is no longer than is common."""
        return self.ratio <= self.most * (1 + 1e-9)

    @property
    def longest(self) -> Millimetre:
        """How far it may stick out."""
        return self.most * self.diameter

    def describe(self) -> str:
        """The overhang in one sentence."""
        head = f"{self.what}: {self.ratio:.3g} times its diameter, {self.most:g} is common"
        return f"{head}." if self.within else f"{head}: {self.beyond}."


@cache
def _rows() -> dict[str, dict[str, str]]:
    return {
        name.casefold(): row
        for row in table("overhang_limits").rows
        for name in (row["what"], *row["also"].split(";"))
        if name
    }


def overhang_of(what: str, length: float, diameter: float) -> Overhang:
    """The overhang of a tool or of work by its name in the table."""
    row = _rows().get(" ".join(what.split()).casefold())
    if row is None:
        names = ", ".join(f'"{row["what"]}"' for row in table("overhang_limits").rows)
        raise TradeError(
            f'"{what[:30]}" is nothing whose overhang is known here',
            hint=f"one of {names}",
            argument="what",
        )
    work, most = row["what"].startswith("work"), float(row["most"])
    slender = work and length > min(SLENDER, most) * diameter * (1 + 1e-9)
    when = ["chuck"] * ("chuck" in row["what"]) + ["slender"] * slender
    when += ["boring bar"] * ("bar" in row["what"]) + ["end mill"] * (row["what"] == "end mill")
    cautions = bending_cautions(*when)
    if length > most * diameter * (1 + 1e-9):
        far = f"{row['what']}: {length / diameter:.3g} times its diameter is over {most:g}"
        cautions = (f"{far}: {row['beyond']}", *cautions)
    return Overhang(row["what"], length, diameter, most, row["beyond"], cautions)


@offered(source=RULES)
def overhang(what: str, length: Millimetre, diameter: Millimetre) -> Overhang:
    """How far a tool or work sticks out, against the rule of length over diameter.

    Parameters
    ----------
    what : str [-]
        `work in the chuck`, `work in chuck and centre`, `work between centres`, `steel boring bar`,
        `carbide boring bar`, `end mill`, `turning tool` …
    length : float [mm]
        0.1 to 10000; from the holding to the cut.
    diameter : float [mm]
        0.1 to 1000; the least along that length; of a turning tool, its height.

    Returns
    -------
    Overhang [-]
        The ratio, the greatest that is common, and what to do past it.

    Notes
    -----
    A rule of thumb. How far it really bends is in `work_bending`, `boring_bar_bending` and
    `end_mill_bending`.

    Examples
    --------
    >>> overhang("work in the chuck", 80, 20).describe()
    'work in the chuck: 4 times its diameter, 3 is common: bring up the tailstock centre, ...'

    References
    ----------
    Kent USA, Manual lathe operation: three ways to avoid part deflection, 2019; Boring bars,
    deflection and chatter (cuttingtoolsai.eu); common practice, no source.
    """
    require_within("length", length, "mm", 0.1, 10000)
    require_within("diameter", diameter, "mm", 0.1, 1000)
    return overhang_of(what, length, diameter)
