"""The marks of a feed: height and average roughness of a row of equal arcs, exactly.

A round edge that moves on by a spacing each time leaves arcs side by side; a flat edge leaves a
flat between them. Nothing here is offered to pages: the finishes of turning and milling use it.
"""

from __future__ import annotations

from math import asin, cos, sin, sqrt

__all__ = [
    "MOST_RATIO",
    "PARABOLIC_RA",
    "arc_roughness",
    "parabolic_roughness",
    "radius_for_ra",
    "spacing_for_ra",
]

# Ra of a row of parabolas is f^2 / (18 sqrt(3) r): the 31.2 of the handbooks.
PARABOLIC_RA = 18 * sqrt(3)
# Below this half angle the differences of nearly equal numbers lose more than the series does.
SMALL = 0.01
# The radius over the spacing: beyond this no mark is left that can be measured.
MOST_RATIO = 1e6


def arc_roughness(spacing: float, radius: float, flat: float = 0) -> tuple[float, float]:
    """Rt and Ra of arcs of a radius at a spacing, all in one unit of length.

    The caller has seen to it that `0 <= flat` and `spacing - flat <= 2 radius`. Where the flat
    covers the spacing, both are 0.

    >>> rt, ra = arc_roughness(0.2, 0.8)
    >>> round(1000 * rt, 4), round(1000 * ra, 4)
    (6.2746, 1.6088)
    """
    half = (spacing - flat) / 2
    if half <= 0:
        return 0.0, 0.0
    height = half**2 / (radius + sqrt(max(radius**2 - half**2, 0)))
    mean = 2 * half / spacing * _mean_height(half, radius)
    # The arc crosses the mean line where it has turned by this angle from its lowest point.
    turned = 2 * asin(sqrt(mean / (2 * radius)))
    below = flat * mean + radius**2 * _turn_less_sine(turned)
    return height, 2 * below / spacing


def parabolic_roughness(spacing: float, radius: float, flat: float = 0) -> tuple[float, float]:
    """Rt and Ra of the same row with a parabola for each arc, as the handbooks have it."""
    width = max(spacing - flat, 0)
    height = width**2 / (8 * radius)
    mean = width / spacing * height / 3
    return height, 2 * mean / spacing * (flat + 4 / 3 * sqrt(2 * radius * mean))


def spacing_for_ra(ra: float, radius: float) -> float:
    """The spacing of plain arcs that gives an Ra, in their unit; at most two radii.

    >>> round(spacing_for_ra(0.0016, 0.8), 5)
    0.19945
    """
    least, most = 0.0, min(sqrt(PARABOLIC_RA * radius * ra), 2 * radius)
    for _ in range(100):  # the exact Ra grows with the spacing, and is above the parabola's
        middle = (least + most) / 2
        if arc_roughness(middle, radius)[1] < ra:
            least = middle
        else:
            most = middle
    return (least + most) / 2


def radius_for_ra(ra: float, spacing: float) -> float:
    """The radius of plain arcs at a spacing that gives an Ra, in their unit.

    >>> round(radius_for_ra(0.0004, 0.1), 5)
    0.8025
    """
    least, most = spacing / 2, MOST_RATIO * spacing
    for _ in range(200):  # the Ra falls as the radius grows
        middle = sqrt(least * most)
        if arc_roughness(spacing, middle)[1] > ra:
            least = middle
        else:
            most = middle
    return sqrt(least * most)


def _mean_height(half: float, radius: float) -> float:
    """Mean height of an arc over its lowest point, from its middle to `half` at either side."""
    angle = asin(min(half / radius, 1.0))
    if angle < SMALL:
        return radius * (angle**2 / 6 - 11 * angle**4 / 360)
    return radius * (1 - (cos(angle) + angle / sin(angle)) / 2)


def _turn_less_sine(angle: float) -> float:
    """angle - sin(angle) cos(angle), without loss where the angle is small."""
    if angle < SMALL:
        return 2 / 3 * angle**3 - 2 / 15 * angle**5
    return angle - sin(angle) * cos(angle)
