"""Countersinks: depth from diameter and back, and the countersink for a screw's head."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from shoplog.tables import table
from shoplog.trade.declare import Degree, Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import require_positive, require_within

__all__ = [
    "Countersink",
    "countersink_depth",
    "countersink_diameter",
    "countersink_for",
]

CONE = "plane geometry of the cone: depth = (D - d) / (2 tan(angle / 2))"


@dataclass(frozen=True, slots=True)
class Countersink:
    """A countersink for a screw with a countersunk head, and the screw's hole."""

    size: str
    diameter: Millimetre
    """At the face."""
    hole: Millimetre
    angle: Degree

    @property
    def depth(self) -> Millimetre:
        """Of the cone, from the face to where it meets the hole."""
        return (self.diameter - self.hole) / (2 * tan(radians(self.angle / 2)))

    def describe(self) -> str:
        """The countersink in one sentence."""
        return (
            f"{self.size}: countersink {self.diameter:g} mm at {self.angle:g}°,"
            f" {self.depth:.3f} mm deep, over a hole of {self.hole:g} mm."
        )


def _require_angle(angle: float) -> None:
    if not 1 <= angle < 180:
        raise OutOfRange("angle", angle, "deg", least=1, below=180)


@offered(source=CONE)
def countersink_depth(diameter: Millimetre, hole: Millimetre = 0, angle: Degree = 90) -> Millimetre:
    """Depth of a countersink from the face to where its cone meets the hole.

    t = (D - d) / (2 tan(angle / 2)).

    Parameters
    ----------
    diameter : float [mm]
        Over the hole; of the countersink at the face.
    hole : float [mm]
        0 or more; 0 for a sharp cone.
    angle : float [deg]
        1 to below 180; 90 for metric screws, 82 for inch screws, 60 for centres.

    Returns
    -------
    float [mm]
        Depth.

    Notes
    -----
    Set the stop from where the countersink touches the hole's edge: from there it goes this deep.

    Examples
    --------
    >>> round(countersink_depth(10.4, 5.5), 2)
    2.45

    References
    ----------
    Plane geometry.
    """
    require_positive("diameter", diameter, "mm")
    require_within("hole", hole, "mm", 0, diameter)
    _require_angle(angle)
    return (diameter - hole) / (2 * tan(radians(angle / 2)))


@offered(source=CONE)
def countersink_diameter(depth: Millimetre, hole: Millimetre = 0, angle: Degree = 90) -> Millimetre:
    """Diameter of a countersink at the face, from its depth.

    D = d + 2 t tan(angle / 2).

    Parameters
    ----------
    depth : float [mm]
        Over 0; from where the countersink touches the hole's edge.
    hole : float [mm]
        0 or more; 0 for a sharp cone.
    angle : float [deg]
        1 to below 180.

    Returns
    -------
    float [mm]
        Diameter at the face.

    Notes
    -----
    At 90° each 0.1 mm of depth makes 0.2 mm of diameter.

    Examples
    --------
    >>> round(countersink_diameter(2.45, 5.5), 2)
    10.4

    References
    ----------
    Plane geometry.
    """
    require_positive("depth", depth, "mm")
    require_within("hole", hole, "mm", 0, 1e9)
    _require_angle(angle)
    return hole + 2 * depth * tan(radians(angle / 2))


@offered(source="ISO 15065:2005; hole ISO 273:1979, medium")
def countersink_for(size: str) -> Countersink:
    """Countersink of 90° for a metric screw with the common countersunk head.

    Parameters
    ----------
    size : str [-]
        `M1.6` to `M10`.

    Returns
    -------
    Countersink [-]
        Diameter at the face, hole, and depth.

    Raises
    ------
    TradeError
        The table has no such screw.

    Notes
    -----
    For ISO 2009, ISO 2010, ISO 7046 and ISO 7047. Socket screws of ISO 10642 have larger heads.

    Examples
    --------
    >>> countersink_for("M5").describe()
    'M5: countersink 10.4 mm at 90°, 2.450 mm deep, over a hole of 5.5 mm.'

    References
    ----------
    ISO 15065:2005, by an open CAD program's data.
    """
    plain = "".join(size[:12].upper().split())
    rows = table("countersinks").rows
    for row in rows:
        if row["size"] == plain:
            return Countersink(plain, float(row["countersink_mm"]), float(row["hole_mm"]), 90.0)
    raise TradeError(
        f'there is no countersink for "{size[:20]}"',
        hint=f"there are {', '.join(row['size'] for row in rows)}",
        argument="size",
    )
