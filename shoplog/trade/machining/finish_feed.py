"""The turning feed or the nose radius that a wanted finish asks for."""

from __future__ import annotations

from math import sqrt

from shoplog.trade.declare import (
    Micrometre,
    Millimetre,
    MillimetrePerRev,
    Number,
    OutOfRange,
    offered,
)
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.machining.finish_profile import (
    MOST_RATIO,
    arc_roughness,
    radius_for_ra,
    spacing_for_ra,
)
from shoplog.trade.machining.finish_record import ARCS

__all__ = ["feed_for_ra", "feed_for_rt", "nose_radius_for_ra"]


@offered(source=ARCS)
def feed_for_ra(
    ra: Micrometre, nose_radius: Millimetre, rougher_by: Number = 1
) -> MillimetrePerRev:
    """Greatest turning feed that leaves an Ra, by geometry alone or with a reserve.

    The exact Ra of arcs, turned round; close to f = sqrt(31.2 r Ra).

    Parameters
    ----------
    ra : float [um]
        Over 0; what is wanted.
    nose_radius : float [mm]
        Over 0.
    rougher_by : float [-]
        1 to 10; how many times rougher than its geometry the surface is to be counted: in steel
        1.5 to 3.

    Returns
    -------
    float [mm/rev]
        Feed per revolution.

    Raises
    ------
    OutOfRange
        No feed of that nose leaves so rough a surface, or so fine a one.

    Notes
    -----
    Below about 0.05 mm/rev a finer feed seldom gives a finer surface: the edge rubs.

    Examples
    --------
    >>> round(feed_for_ra(1.6, 0.8), 3), round(feed_for_ra(1.6, 0.8, rougher_by=2), 3)
    (0.199, 0.141)

    References
    ----------
    As for `turned_finish`.
    """
    require_positive("ra", ra, "um")
    require_positive("nose_radius", nose_radius, "mm")
    require_within("rougher_by", rougher_by, "", 1, 10)
    most = 1000 * arc_roughness(2 * nose_radius, nose_radius)[1] * rougher_by
    least = 1000 * arc_roughness(nose_radius / MOST_RATIO, nose_radius)[1] * rougher_by
    if not least <= ra <= most:
        raise OutOfRange(
            "ra", ra, "um", least=least, most=most, source=f"nose radius {nose_radius:g} mm"
        )
    return spacing_for_ra(ra=ra / rougher_by / 1000, radius=nose_radius)


@offered(source=ARCS)
def feed_for_rt(rt: Micrometre, nose_radius: Millimetre) -> MillimetrePerRev:
    """Greatest turning feed that leaves marks of a height, by geometry alone.

    f = 2 sqrt(2 r Rt - Rt^2); close to sqrt(8 r Rt).

    Parameters
    ----------
    rt : float [um]
        Over 0 and at most the nose radius.
    nose_radius : float [mm]
        Over 0.

    Returns
    -------
    float [mm/rev]
        Feed per revolution.

    Raises
    ------
    OutOfRange
        The height is more than the nose radius.

    Notes
    -----
    A real surface is rougher: in steel ask for a half or a third of the height that is wanted.

    Examples
    --------
    >>> round(feed_for_rt(8, 0.8), 3)
    0.226

    References
    ----------
    As for `turned_finish`.
    """
    require_positive("rt", rt, "um")
    require_positive("nose_radius", nose_radius, "mm")
    if rt > 1000 * nose_radius:
        raise OutOfRange("rt", rt, "um", most=1000 * nose_radius, source="the nose radius")
    return 2 * sqrt(2 * nose_radius * rt / 1000 - (rt / 1000) ** 2)


@offered(source=ARCS)
def nose_radius_for_ra(ra: Micrometre, feed_per_rev: MillimetrePerRev) -> Millimetre:
    """Smallest nose radius that leaves an Ra at a turning feed, by geometry alone.

    The exact Ra of arcs, turned round; close to r = f^2 / (31.2 Ra).

    Parameters
    ----------
    ra : float [um]
        Over 0.
    feed_per_rev : float [mm/rev]
        Over 0.

    Returns
    -------
    float [mm]
        Nose radius.

    Raises
    ------
    OutOfRange
        No nose leaves so rough or so fine a surface at that feed.

    Notes
    -----
    A large nose pushes work and tool apart: slender work chatters under it, and springs.

    Examples
    --------
    >>> round(nose_radius_for_ra(0.4, 0.1), 2)
    0.8

    References
    ----------
    As for `turned_finish`.
    """
    require_positive("ra", ra, "um")
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    wanted = ra / 1000
    most = arc_roughness(feed_per_rev, feed_per_rev / 2)[1]
    least = arc_roughness(feed_per_rev, MOST_RATIO * feed_per_rev)[1]
    if not least <= wanted <= most:
        source = f"a feed of {feed_per_rev:g} mm/rev"
        raise OutOfRange("ra", ra, "um", least=1000 * least, most=1000 * most, source=source)
    return radius_for_ra(ra=wanted, spacing=feed_per_rev)
