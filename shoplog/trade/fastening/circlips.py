"""Circlips for shafts and bores (DIN 471, DIN 472) and retaining washers (DIN 6799): grooves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import In, Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.fastening.fixing_cautions import fixing_cautions
from shoplog.trade.limits_and_fits.iso286 import limits_of
from shoplog.trade.machining.cutting import require_positive

__all__ = [
    "Circlip",
    "Kilonewton",
    "RetainingWasher",
    "circlip_for_bore",
    "circlip_for_shaft",
    "groove_wall",
    "retaining_washer",
]

Kilonewton = Annotated[float, In("kN")]

SHAFT, BORE, WASHER = "DIN 471:1981", "DIN 472:1981", "DIN 6799:1981"
AXIAL_USE = (
    "loads are for a groove of 200 MPa yield point and still load; shock, speed and a chamfered"
    " or rounded neighbour leave less"
)


@dataclass(frozen=True, slots=True)
class Circlip:
    """A circlip with the groove that it sits in."""

    designation: str
    """`DIN 471 - 25 x 1.2`."""
    diameter: Millimetre
    """Of the shaft, or of the bore."""
    thickness: Millimetre
    ring_free: Millimetre
    """Of the ring on the groove's side before it is fitted: bore of a DIN 471, outside of a DIN
    472.
    """
    groove: Size
    """Diameter of the groove."""
    groove_width: Size
    edge: Millimetre
    """Least width of material between the groove and the end of the part."""
    clear: Millimetre
    """Free diameter while it is fitted: at least this around a shaft's, at most this inside a
    bore's.
    """
    groove_load: Kilonewton
    ring_load: Kilonewton

    @property
    def groove_depth(self) -> Millimetre:
        """On the radius, at the nominal sizes."""
        return abs(self.diameter - self.groove.nominal) / 2

    @property
    def load(self) -> Kilonewton:
        """What groove and ring both bear along the axis."""
        return min(self.groove_load, self.ring_load)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of circlip pliers."""
        return fixing_cautions("circlip")

    @property
    def notes(self) -> tuple[str, ...]:
        """What the loads hold for."""
        return (AXIAL_USE,)

    def describe(self) -> str:
        """The circlip and its groove in one sentence."""
        width = self.groove_width
        return (
            f"{self.designation}: groove {_limits(self.groove)} in diameter, {_limits(width)} wide,"
            f" {self.edge:g} mm from the end at least; it bears {self.load:g} kN."
        )


@dataclass(frozen=True, slots=True)
class RetainingWasher:
    """A retaining washer that is pushed on from the side, with its groove."""

    designation: str
    """`DIN 6799 - 9`: by its groove."""
    diameter: Millimetre
    """Of the shaft."""
    thickness: Millimetre
    over: Millimetre
    """Outside, at most, when seated."""
    groove: Size
    groove_width: Size
    edge: Millimetre

    @property
    def shoulder(self) -> Millimetre:
        """Width of the shoulder that the shaft leaves, on the radius."""
        return (self.diameter - self.groove.nominal) / 2

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of levering it off."""
        return fixing_cautions("retaining washer")

    def describe(self) -> str:
        """The washer and its groove in one sentence."""
        return (
            f"{self.designation} on {self.diameter:g} mm: groove {_limits(self.groove)} in"
            f" diameter, {_limits(self.groove_width)} wide, {self.edge:g} mm from the end at least;"
            f" {self.over:g} mm over all."
        )


def _limits(size: Size) -> str:
    """A size with its two deviations, upper first; 0 has no sign."""
    upper, lower = (f"{part:+.3g}" if part else "0" for part in (size.upper, size.lower))
    return f"{size.nominal:g} mm {upper}/{lower} mm"


def _row_of(name: str, diameter: float, standard: str) -> Mapping[str, str]:
    rows = table(name).rows
    sizes = [float(row["diameter_mm"]) for row in rows]
    if not sizes[0] <= diameter <= sizes[-1]:
        raise OutOfRange(
            "diameter", diameter, "mm", least=sizes[0], most=sizes[-1], source=standard
        )
    for row, size in zip(rows, sizes, strict=True):
        if abs(size - diameter) < 1e-6:
            return row
    under = max(size for size in sizes if size < diameter)
    over = min(size for size in sizes if size > diameter)
    raise TradeError(
        f"{standard} has no circlip for {diameter:g} mm",
        hint=f"{under:g} or {over:g} mm",
        argument="diameter",
    )


def _circlip(row: Mapping[str, str], standard: str, lower: float, upper: float) -> Circlip:
    number = {name: float(cell) for name, cell in row.items()}
    return Circlip(
        f"{standard} - {row['diameter_mm']} x {row['thickness_mm']}",
        number["diameter_mm"],
        number["thickness_mm"],
        number["ring_free_mm"],
        Size(number["groove_mm"], lower, upper),
        limits_of(number["groove_width_mm"], "H13"),
        number["edge_mm"],
        number["clear_mm"],
        number["groove_kN"],
        number["ring_kN"],
    )


@offered(source=SHAFT)
def circlip_for_shaft(diameter: Millimetre) -> Circlip:
    """Circlip for a shaft, DIN 471 regular duty, with its groove.

    Parameters
    ----------
    diameter : float [mm]
        3 to 100; a diameter of the standard.

    Returns
    -------
    Circlip [-]
        Ring, groove with limits, edge, room to fit it, and loads.

    Raises
    ------
    TradeError
        The standard has no such diameter; the hint names the neighbours.

    Notes
    -----
    The groove's load side has a sharp corner. The ring wants a part with a sharp edge beside it.

    Examples
    --------
    >>> ring = circlip_for_shaft(25)
    >>> ring.groove.nominal, ring.groove_width.nominal
    (23.9, 1.3)

    References
    ----------
    DIN 471:1981, by open CAD part libraries.
    """
    row = _row_of("circlips_shaft", diameter, "DIN 471")
    return _circlip(row, "DIN 471", -float(row["groove_minus_mm"]), 0.0)


@offered(source=BORE)
def circlip_for_bore(diameter: Millimetre) -> Circlip:
    """Circlip for a bore, DIN 472 regular duty, with its groove.

    Parameters
    ----------
    diameter : float [mm]
        8 to 100; a diameter of the standard.

    Returns
    -------
    Circlip [-]
        Ring, groove with limits, edge, room to fit it, and loads.

    Raises
    ------
    TradeError
        The standard has no such diameter; the hint names the neighbours.

    Notes
    -----
    The groove's load side has a sharp corner. The ring wants a part with a sharp edge beside it.

    Examples
    --------
    >>> ring = circlip_for_bore(32)
    >>> ring.groove.nominal, ring.groove_width.nominal
    (33.7, 1.3)

    References
    ----------
    DIN 472:1981, by open CAD part libraries.
    """
    row = _row_of("circlips_bore", diameter, "DIN 472")
    return _circlip(row, "DIN 472", 0.0, float(row["groove_plus_mm"]))


@offered(source=WASHER)
def retaining_washer(diameter: Millimetre, groove: Millimetre | None = None) -> RetainingWasher:
    """Retaining washer for a shaft, DIN 6799, with its groove.

    Parameters
    ----------
    diameter : float [mm]
        1.4 to 42; of the shaft.
    groove : float [mm]
        Nominal size of the washer, which is the groove's diameter. If not given: the largest
        that the shaft allows.

    Returns
    -------
    RetainingWasher [-]
        Washer and groove with limits.

    Raises
    ------
    TradeError
        No washer for the shaft, no such size, or a size that is not for the shaft.

    Notes
    -----
    The largest leaves the most shaft and the least shoulder.

    Examples
    --------
    >>> retaining_washer(10).designation
    'DIN 6799 - 9'

    References
    ----------
    DIN 6799:1981, by a maker's sheet and an open CAD part library.
    """
    require_positive("diameter", diameter, "mm")
    row = _washer_row(diameter, groove)
    number = {name: float(cell) for name, cell in row.items()}
    return RetainingWasher(
        f"DIN 6799 - {row['groove_mm']}",
        diameter,
        number["thickness_mm"],
        number["over_mm"],
        limits_of(number["groove_mm"], "h11"),
        Size(number["groove_width_mm"], 0.0, number["groove_width_plus_mm"]),
        number["edge_mm"],
    )


def _washer_row(diameter: float, groove: float | None) -> Mapping[str, str]:
    rows = table("circlips_radial").rows
    fit = [
        row for row in rows if float(row["shaft_from_mm"]) <= diameter <= float(row["shaft_to_mm"])
    ]
    if not fit:
        least, most = float(rows[0]["shaft_from_mm"]), float(rows[-1]["shaft_to_mm"])
        raise OutOfRange("diameter", diameter, "mm", least=least, most=most, source="DIN 6799")
    if groove is None:
        return fit[-1]
    for row in fit:
        if abs(float(row["groove_mm"]) - groove) < 1e-6:
            return row
    sizes = " or ".join(row["groove_mm"] for row in fit)
    raise TradeError(
        f"DIN 6799 has no washer of {groove:g} mm for a shaft of {diameter:g} mm",
        hint=f"{sizes} mm",
        argument="groove",
    )


@offered(source="plane geometry")
def groove_wall(circlip: Circlip, other_diameter: Millimetre) -> Millimetre:
    """Wall that is left behind a circlip's groove: of a hollow shaft, or of a housing.

    (groove - bore) / 2 for a shaft, (outside - groove) / 2 for a housing, at the deepest groove.

    Parameters
    ----------
    circlip : Circlip [-]
        The circlip with its groove.
    other_diameter : float [mm]
        0 or more; the bore of the hollow shaft, or the outside of the housing.

    Returns
    -------
    float [mm]
        Wall behind the groove.

    Notes
    -----
    A wall thinner than three times the groove's depth bears less than the table says (common
    practice, no source).

    Examples
    --------
    >>> round(groove_wall(circlip_for_shaft(25), 12), 3)
    5.845

    References
    ----------
    Plane geometry.
    """
    groove = circlip.groove
    hint = "no wall is left behind the groove"
    if groove.nominal > circlip.diameter:
        require_positive("other_diameter", other_diameter, "mm")
        if other_diameter <= groove.max:
            raise OutOfRange("other_diameter", other_diameter, "mm", over=groove.max, hint=hint)
        return (other_diameter - groove.max) / 2
    if not 0 <= other_diameter < groove.min:
        raise OutOfRange(
            "other_diameter", other_diameter, "mm", least=0, below=groove.min, hint=hint
        )
    return (groove.min - other_diameter) / 2
