"""Angles that a high-speed-steel lathe tool bit is ground to, by what it cuts.

The angles are those of ASME B94.50 and of the shop: rake on the face, relief on the flanks, and the
lie of both edges in plan.
"""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.tables import table
from shoplog.trade.declare import Degree, TradeError, offered
from shoplog.trade.machining.cutting_naming import work_group
from shoplog.trade.materials import Material

__all__ = ["ANGLES", "BitAngles", "ToolBit", "tool_bit_angles"]

SOURCE = (
    "F. Marlow, Machine Shop Essentials, 2004, table A-I-1; cutting edges and less usual materials"
    " after Kalpakjian, Manufacturing Engineering and Technology, 3rd ed. (from memory)"
)
ANGLES = {
    "back_rake": "back rake",
    "side_rake": "side rake",
    "end_relief": "end relief",
    "side_relief": "side relief",
    "end_cutting_edge": "end cutting edge",
    "side_cutting_edge": "side cutting edge",
}
"""Field and name of each angle, in the order that a tool is designated by."""
_COLUMNS = ("back_rake", "side_rake", "end_relief", "side_relief", "end_edge", "side_edge")


def _cautions(*when: str) -> tuple[str, ...]:
    rows = table("tool_grinding_cautions").rows
    return tuple(row["caution"] for row in rows if row["when"] in when)


@dataclass(frozen=True, slots=True)
class BitAngles:
    """The six angles of a tool bit."""

    back_rake: Degree
    """Of the face, falling from the nose along the bit; below 0 it rises."""
    side_rake: Degree
    """Of the face, falling from the side cutting edge across the bit."""
    end_relief: Degree
    """Of the flank under the end, from square."""
    side_relief: Degree
    """Of the flank under the side cutting edge, from square."""
    end_cutting_edge: Degree
    """Of the end in plan, from square to the bit."""
    side_cutting_edge: Degree
    """Of the side cutting edge in plan, from the bit's own side."""

    def describe(self) -> str:
        """The six in their order."""
        return ", ".join(f"{name} {getattr(self, field):g}°" for field, name in ANGLES.items())


@dataclass(frozen=True, slots=True)
class ToolBit:
    """What a tool bit is ground to for a material: the usual range of each angle."""

    material: str
    """As it was asked for."""
    group: str
    """The group of materials that the figures hold for."""
    least: BitAngles
    most: BitAngles
    from_memory: bool
    """Whether rake and relief were recalled and not read."""
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def back_rake(self) -> Degree:
        """The middle of its range; so with the five others."""
        return self._middle("back_rake")

    @property
    def side_rake(self) -> Degree:
        """The middle of its range."""
        return self._middle("side_rake")

    @property
    def end_relief(self) -> Degree:
        """The middle of its range."""
        return self._middle("end_relief")

    @property
    def side_relief(self) -> Degree:
        """The middle of its range."""
        return self._middle("side_relief")

    @property
    def end_cutting_edge(self) -> Degree:
        """The middle of its range."""
        return self._middle("end_cutting_edge")

    @property
    def side_cutting_edge(self) -> Degree:
        """The middle of its range."""
        return self._middle("side_cutting_edge")

    @property
    def wedge(self) -> Degree:
        """What is left of the edge across the bit: 90° less side rake and side relief."""
        return 90 - self.side_rake - self.side_relief

    def _middle(self, name: str) -> float:
        least: float = getattr(self.least, name)
        most: float = getattr(self.most, name)
        return (least + most) / 2

    def describe(self) -> str:
        """The angles in one sentence."""
        told = (f"{name} {self.range_of(field)}" for field, name in ANGLES.items())
        return f"For {self.group}: {', '.join(told)}."

    def range_of(self, name: str) -> str:
        """An angle in words: one number, or from the least to the greatest."""
        least, most = getattr(self.least, name), getattr(self.most, name)
        return f"{least:g}°" if least == most else f"{least:g}° to {most:g}°"


@offered(source=SOURCE, cautions=_cautions("always"))
def tool_bit_angles(material: str | Material) -> ToolBit:
    """Usual rake, relief and edge angles of a high-speed-steel lathe tool bit for a material.

    Parameters
    ----------
    material : str or Material [-]
        Any name of a material or of a group: `brass`, `C45`, `ISO M`.

    Returns
    -------
    ToolBit [-]
        Six angles, each as a range with its middle, and the cautions of grinding.

    Raises
    ------
    TradeError
        No row knows the material, or high-speed steel does not cut it.

    Notes
    -----
    To start from, for a right-hand turning tool whose holder is level: a holder that tilts the bit
    adds its tilt to the back rake and takes it off the end relief. Handbooks differ by a few
    degrees; a tool that rubs has too little relief, one that chips has too little metal behind.

    Examples
    --------
    >>> bit = tool_bit_angles("mild steel")
    >>> bit.side_rake, bit.side_relief, bit.wedge
    (15.0, 11.0, 64.0)

    References
    ----------
    F. Marlow, Machine Shop Essentials, 2004; S. Kalpakjian, 3rd ed. (from memory).
    """
    text = material if isinstance(material, str) else material.name
    group = work_group(text)
    row = next((row for row in _rows() if group.name in row["groups"].split(";")), None)
    if row is None:
        raise TradeError(
            f"no tool bit of high-speed steel is ground for {group.name}",
            hint="grind it, or turn it with a tipped tool by its maker's data",
            argument="material",
        )
    ranges = [tuple(map(float, row[column].split())) for column in _COLUMNS]
    least, most = (BitAngles(*(ends[side] for ends in ranges)) for side in (0, 1))
    recalled = row["rows"] == "handbook"
    return ToolBit(
        text,
        group.name,
        least,
        most,
        recalled,
        _cautions("always", row["case"]),
        (*group.notes, *_notes(recalled)),
    )


def _rows() -> tuple[dict[str, str], ...]:
    return table("tool_bit_angles").rows


def _notes(recalled: bool) -> tuple[str, ...]:
    found = ("hone the edge after grinding, and give the nose a small radius",)
    return (*found, "rake and relief are recalled, not read") if recalled else found
