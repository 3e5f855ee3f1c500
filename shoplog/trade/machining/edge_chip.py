"""The chip at a rounded edge: how thick it is on a nose, and below what it is not cut at all."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from shoplog.trade.declare import Micrometre, Millimetre, MillimetrePerRev, offered
from shoplog.trade.machining.cutting import require_positive

__all__ = ["NOSE", "RubbingLimit", "nose_chip_thickness", "rubbing_limit"]

# The depth of a finishing cut, in nose radii, under which most of the force is radial.
NOSE = 2 / 3
# A chip thinner than this part of the edge radius is not lifted; the spread of the experiments.
LEAST_SHARE, MOST_SHARE = 0.2, 0.4
SHARE = (
    "least uncut chip thickness, 0.2 to 0.4 of the edge radius in steel (from memory); reviewed in"
    " Wojciechowski, Materials 15 (2022) 59"
)


@dataclass(frozen=True, slots=True)
class RubbingLimit:
    """The chip thickness below which an edge rubs: surely below `least`, perhaps up to `most`."""

    least: Micrometre
    most: Micrometre

    def describe(self) -> str:
        """One plain sentence.

        >>> rubbing_limit(20).describe()
        'a chip under 4 µm is rubbed, one over 8 µm is cut'
        """
        return f"a chip under {self.least:g} µm is rubbed, one over {self.most:g} µm is cut"


@offered(source=SHARE)
def rubbing_limit(edge_radius: Micrometre) -> RubbingLimit:
    """Chip thickness below which an edge of a roundness rubs instead of cutting.

    h = k r, with r the edge radius and k between 0.2 and 0.4.

    Parameters
    ----------
    edge_radius : float [um]
        Over 0; of the edge itself, not of the nose: about 5 for a stoned HSS edge, 10 to 80 for a
        honed insert.

    Returns
    -------
    RubbingLimit [-]
        The two ends of the band.

    Notes
    -----
    A finishing pass that rubs hardens the work, wears the edge and leaves the size as it was.

    Examples
    --------
    >>> rubbing_limit(10).least
    2.0

    References
    ----------
    The shares are from memory; Wojciechowski, Materials 15 (2022) 59, reviews the experiments.
    """
    require_positive("edge_radius", edge_radius, "um")
    return RubbingLimit(LEAST_SHARE * edge_radius, MOST_SHARE * edge_radius)


@offered(source="ISO 3002-3, geometry of the nose: cos(k) = 1 - a/r, h = f sin(k) (from memory)")
def nose_chip_thickness(
    feed_per_rev: MillimetrePerRev, depth_of_cut: Millimetre, nose_radius: Millimetre
) -> Millimetre:
    """Greatest thickness of the chip where the nose alone cuts.

    h = f sqrt(2 a/r - (a/r)^2), with f the feed, a the depth and r the nose radius; f itself where
    the depth is the nose radius or more.

    Parameters
    ----------
    feed_per_rev : float [mm/rev]
        Over 0.
    depth_of_cut : float [mm]
        Over 0; on the radius.
    nose_radius : float [mm]
        Over 0.

    Returns
    -------
    float [mm]
        Thickness square to the edge, before the chip is upset.

    Notes
    -----
    For a feed that is small beside the nose radius. It runs out to nothing at the finished surface.

    Examples
    --------
    >>> round(nose_chip_thickness(0.1, 0.1, 0.8), 4)
    0.0484

    References
    ----------
    ISO 3002-3 (from memory).
    """
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_positive("depth_of_cut", depth_of_cut, "mm")
    require_positive("nose_radius", nose_radius, "mm")
    return feed_per_rev * sqrt(
        min(depth_of_cut / nose_radius, 1) * (2 - min(depth_of_cut / nose_radius, 1))
    )
