"""A round with one flat or two that face each other, as one record: what to cut and to measure."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.trade.declare import Millimetre, offered
from shoplog.trade.fastening.fixing_cautions import fixing_cautions
from shoplog.trade.hole_work.flats import SEGMENT, d_flat_across, flat_width

__all__ = ["FlattedRound", "flatted_round"]


@dataclass(frozen=True, slots=True)
class FlattedRound:
    """A round with a flat, or with two that face each other."""

    diameter: Millimetre
    depth: Millimetre
    """Of each flat, from the top of the round."""
    flats: int

    @property
    def width(self) -> Millimetre:
        """Of each flat across the round."""
        return flat_width(self.diameter, self.depth)

    @property
    def across(self) -> Millimetre:
        """From the flat to the far side, or from flat to flat."""
        return d_flat_across(self.diameter, self.depth, self.flats)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of filing and cutting flats."""
        return fixing_cautions("flats")

    def describe(self) -> str:
        """The round in one sentence."""
        flats = "a flat" if self.flats == 1 else "two flats"
        to = "to the far side" if self.flats == 1 else "from flat to flat"
        return (
            f"Round {self.diameter:.3f} mm with {flats} {self.depth:.3f} mm deep,"
            f" {self.width:.3f} mm wide: {self.across:.3f} mm {to}."
        )


@offered(source=SEGMENT)
def flatted_round(diameter: Millimetre, depth: Millimetre, flats: int = 1) -> FlattedRound:
    """Flat of a D-shaft, or two flats that face each other: depth, width, and size to measure.

    w = 2 sqrt(h (D - h)) wide, and D - n h across, with n flats of depth h.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the round.
    depth : float [mm]
        Over 0, at most the radius, below it for two flats; of each flat.
    flats : int [-]
        1 for a D-shaft, 2 for flats that face each other.

    Returns
    -------
    FlattedRound [-]
        The width of a flat and the size across, beside what was given.

    Notes
    -----
    `flat_depth` gives the depth where the width is what is known.

    Examples
    --------
    >>> made = flatted_round(6, 1.5)
    >>> made.across, round(made.width, 3)
    (4.5, 5.196)

    References
    ----------
    Plane geometry.
    """
    d_flat_across(diameter, depth, flats)  # refuses what is no flat
    return FlattedRound(diameter, depth, int(flats))
