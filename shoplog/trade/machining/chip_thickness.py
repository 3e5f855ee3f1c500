"""How thick a chip is: by the edge's angle and nose in turning, by the immersion in milling.

The feed is not the thickness of the chip. An edge that leans, a round nose and a light side cut
all spread the same feed over more edge, and the chip gets thinner.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, asin, cos, degrees, pi, radians, sin, sqrt

from shoplog.trade.declare import (
    Degree,
    Millimetre,
    MillimetrePerRev,
    MillimetrePerTooth,
    Number,
    OutOfRange,
    TradeError,
    offered,
)
from shoplog.trade.machining.cutting import require_positive, require_within

__all__ = [
    "EdgeInCut",
    "MillingChip",
    "TurningChip",
    "chip_thickness_milling",
    "chip_thickness_turning",
    "edge_in_cut",
    "feed_for_chip",
    "require_chip_over_edge",
]

MAKERS = "Sandvik Coromant, ISCAR, Dijet and Palbit, formulas of turning and milling catalogues"
LEAST_ANGLE, MOST_ANGLE = 10.0, 150.0  # deg
MOST_NOSE = 100.0  # mm
LARGEST_CUTTER, MOST_DEPTH, MOST_FEED = 1000.0, 500.0, 5.0  # mm
DIRECTIONS = ("conventional", "climb")
POSITIONS = ("side", "centred")


@dataclass(frozen=True, slots=True)
class EdgeInCut:
    """The part of an edge that cuts: its length, its reach along the feed, its steepest angle."""

    depth: float
    length: float
    along: float
    """How far it reaches along the feed; less than nothing where it leans back."""
    steepest: float
    """Sine of the greatest angle between edge and feed."""

    @property
    def thinning(self) -> float:
        """Mean thickness of the chip for each millimetre of feed."""
        return self.depth / self.length


def edge_in_cut(depth: float, entering_angle: float, nose_radius: float) -> EdgeInCut:
    """The edge that cuts at a depth: first round the nose, then straight.

    The feed's own small scallop is left out, as handbooks do. A round insert is a nose of half its
    diameter.
    """
    angle = radians(entering_angle)
    nose_height = nose_radius * (1 - cos(angle))
    if depth <= nose_height:
        turn = 2 * asin(sqrt(depth / (2 * nose_radius)))
        steepest = 1.0 if turn > pi / 2 else sin(turn)
        return EdgeInCut(depth, nose_radius * turn, nose_radius * sin(turn), steepest)
    straight = (depth - nose_height) / sin(angle)
    steepest = 1.0 if nose_radius and angle > pi / 2 else sin(angle)
    length = nose_radius * angle + straight
    along = nose_radius * sin(angle) + straight * cos(angle)
    return EdgeInCut(depth, length, 0.0 if abs(along) < 1e-12 * length else along, steepest)


def require_edge(depth: float, entering_angle: float, nose_radius: float) -> None:
    """Refuse a depth, an angle or a nose that no tool has."""
    require_within("depth_of_cut", depth, "mm", 1e-3, MOST_DEPTH)
    require_within("entering_angle", entering_angle, "deg", LEAST_ANGLE, MOST_ANGLE)
    require_within("nose_radius", nose_radius, "mm", 0, MOST_NOSE)


def require_chip_over_edge(thickest: float, edge_radius: float, argument: str) -> None:
    """Refuse a chip that is nowhere as thick as the edge is round: it bears and does not cut."""
    if thickest < edge_radius * (1 - 1e-9):
        raise TradeError(
            f"the chip is {1000 * thickest:.3g} µm at its thickest, thinner than the edge's radius"
            f" of {1000 * edge_radius:.3g} µm: it bears and does not cut",
            hint="a greater feed, a sharper edge or a wider cut",
            argument=argument,
        )


@dataclass(frozen=True, slots=True)
class TurningChip:
    """The chip of a turning cut, before it is cut."""

    feed: Millimetre
    mean: Millimetre
    """The section of the chip over the length of edge that cuts it."""
    thickest: Millimetre
    edge_length: Millimetre
    """How much of the edge cuts: the width of the chip."""
    chord_angle: Degree
    """Angle to the feed of the line between the ends of the edge that cuts."""

    @property
    def feed_factor(self) -> Number:
        """How much more feed makes the chip as thick as this feed alone would be."""
        return self.feed / self.thickest

    def describe(self) -> str:
        """The chip in one sentence."""
        return (
            f"{self.mean:.3g} mm thick on average and {self.thickest:.3g} mm at most, over"
            f" {self.edge_length:.3g} mm of edge, from {self.feed:.3g} mm of feed."
        )


@offered(source=MAKERS)
def chip_thickness_turning(
    feed_per_rev: MillimetrePerRev,
    depth_of_cut: Millimetre,
    entering_angle: Degree = 90,
    nose_radius: Millimetre = 0,
) -> TurningChip:
    """Thickness of the chip that a turning tool cuts, with its nose.

    h = f a / b on average, with f the feed, a the depth and b the length of edge in the cut.

    Parameters
    ----------
    feed_per_rev : float [mm/rev]
        Over 0, to 5.
    depth_of_cut : float [mm]
        0.001 to 500; radial.
    entering_angle : float [deg]
        10 to 150; between the edge and the direction of feed. A lead or approach angle is 90 less
        this one.
    nose_radius : float [mm]
        0 to 100; half the diameter of a round insert.

    Returns
    -------
    TurningChip [-]
        Mean and greatest thickness, and the length of edge that cuts.

    Notes
    -----
    The small scallop that the feed leaves is not in the length of the edge: the depth should be
    over the feed.

    Examples
    --------
    >>> chip_thickness_turning(0.14, 0.9, nose_radius=3).describe()
    '0.0528 mm thick on average and 0.1 mm at most, over 2.39 mm of edge, from 0.14 mm of feed.'

    References
    ----------
    Sandvik Coromant, Heat resistant super alloys, application guide, page 19 (round inserts);
    general turning, formulas and definitions.
    """
    require_within("feed_per_rev", feed_per_rev, "mm/rev", 1e-4, MOST_FEED)
    require_edge(depth_of_cut, entering_angle, nose_radius)
    edge = edge_in_cut(depth_of_cut, entering_angle, nose_radius)
    chord = acos(max(-1.0, min(1.0, edge.along / sqrt(edge.along**2 + depth_of_cut**2))))
    return TurningChip(
        feed_per_rev,
        feed_per_rev * edge.thinning,
        feed_per_rev * edge.steepest,
        edge.length,
        degrees(chord),
    )


def immersion_angle(cutter_diameter: float, width_of_cut: float, position: str) -> float:
    """Angle over which each tooth cuts, in radians."""
    share = min(1.0, width_of_cut / cutter_diameter)
    return 2 * asin(sqrt(share)) if position == "side" else 2 * asin(share)


def require_immersion(cutter_diameter: float, width_of_cut: float, position: str) -> None:
    """Refuse a width that the cutter cannot cut."""
    require_within("cutter_diameter", cutter_diameter, "mm", 0.05, LARGEST_CUTTER)
    require_positive("width_of_cut", width_of_cut, "mm")
    if width_of_cut > cutter_diameter * (1 + 1e-9):
        raise OutOfRange(
            "width_of_cut",
            width_of_cut,
            "mm",
            over=0,
            most=cutter_diameter,
            hint=f"the cutter is {cutter_diameter:g} mm across: a larger one, or two cuts",
        )
    if width_of_cut < 1e-6 * cutter_diameter:
        raise OutOfRange("width_of_cut", width_of_cut, "mm", least=1e-6 * cutter_diameter)
    require_word("position", position, POSITIONS)


def require_word(argument: str, word: str, words: tuple[str, ...]) -> None:
    """Refuse a word that is not one of a few."""
    if word not in words:
        names = ", ".join(f'"{name}"' for name in words)
        raise TradeError(
            f'"{word[:20]}" is no {argument} that is known here',
            hint=f"one of {names}",
            argument=argument,
        )


@dataclass(frozen=True, slots=True)
class MillingChip:
    """The chip of one tooth of a milling cutter, before it is cut."""

    feed_per_tooth: Millimetre
    mean: Millimetre
    """Over the angle that the tooth cuts through."""
    thickest: Millimetre
    immersion: Degree
    """The angle that the tooth cuts through."""
    edge_length: Millimetre | None = None

    @property
    def feed_factor(self) -> Number:
        """How much more feed makes the chip as thick as this feed alone would be."""
        return self.feed_per_tooth / self.thickest

    def describe(self) -> str:
        """The chip in one sentence."""
        return (
            f"{self.mean:.3g} mm thick on average and {self.thickest:.3g} mm at most, over"
            f" {self.immersion:.3g}° of turn, from {self.feed_per_tooth:.3g} mm of feed a tooth."
        )


@offered(source=MAKERS)
def chip_thickness_milling(
    feed_per_tooth: MillimetrePerTooth,
    cutter_diameter: Millimetre,
    width_of_cut: Millimetre,
    position: str = "side",
    entering_angle: Degree = 90,
    depth_of_cut: Millimetre | None = None,
    nose_radius: Millimetre = 0,
) -> MillingChip:
    """Thickness of the chip that each tooth of a milling cutter cuts.

    h = 2 fz (ae/D) sin(κ) / φ on average, with fz the feed per tooth, ae the width, D the cutter,
    κ the entering angle and φ the angle that a tooth cuts through.

    Parameters
    ----------
    feed_per_tooth : float [mm/tooth]
        0.0001 to 5.
    cutter_diameter : float [mm]
        0.05 to 1000.
    width_of_cut : float [mm]
        Over 0, to the cutter's diameter; radial.
    position : str [-]
        `side`, the cutter beside the work or in its slot, or `centred`, the work under its middle.
    entering_angle : float [deg]
        10 to 150; 90 for an end mill or a shoulder cutter.
    depth_of_cut : float [mm]
        0.001 to 500; axial. Needed where the nose is round.
    nose_radius : float [mm]
        0 to 100; half the diameter of a round insert.

    Returns
    -------
    MillingChip [-]
        Mean and greatest thickness, and the angle.

    Notes
    -----
    Makers' short form fz sqrt(ae/D) is 4 % high at a fifth of the cutter and 57 % high in a slot.
    A tooth that runs out cuts more, and the one after it less.

    Examples
    --------
    >>> chip = chip_thickness_milling(0.05, 10, 1)
    >>> round(chip.mean, 4), round(chip.thickest, 3), round(chip.immersion, 1)
    (0.0155, 0.03, 36.9)

    References
    ----------
    Dijet, catalogue 2018, and Palbit, catalogue: average chip thickness; ISCAR, Machining titanium,
    2019, table 11.
    """
    require_within("feed_per_tooth", feed_per_tooth, "mm/tooth", 1e-4, MOST_FEED)
    require_immersion(cutter_diameter, width_of_cut, position)
    if depth_of_cut is None and nose_radius:
        raise TradeError(
            f"depth of cut is not given with a nose radius of {nose_radius:g} mm",
            hint="how much of the nose cuts hangs on the depth",
            argument="depth_of_cut",
        )
    depth = 1.0 if depth_of_cut is None else depth_of_cut
    require_edge(depth, entering_angle, nose_radius)
    edge = edge_in_cut(depth, entering_angle, nose_radius)
    angle = immersion_angle(cutter_diameter, width_of_cut, position)
    middle = 2 * feed_per_tooth * width_of_cut / cutter_diameter / angle
    reach = 1.0 if position == "centred" or angle > pi / 2 else sin(angle)
    return MillingChip(
        feed_per_tooth,
        middle * edge.thinning,
        feed_per_tooth * reach * edge.steepest,
        degrees(angle),
        None if depth_of_cut is None else edge.length,
    )


@offered(source=MAKERS)
def feed_for_chip(
    chip_thickness: Millimetre,
    cutter_diameter: Millimetre,
    width_of_cut: Millimetre,
    entering_angle: Degree = 90,
    position: str = "side",
) -> MillimetrePerTooth:
    """Feed per tooth that gives a mean chip thickness at a width of cut.

    fz = h φ D / (2 ae sin κ), with h the mean chip, φ the angle that a tooth cuts through, D the
    cutter, ae the width and κ the entering angle.

    Parameters
    ----------
    chip_thickness : float [mm]
        0.0005 to 5; mean.
    cutter_diameter : float [mm]
        0.05 to 1000.
    width_of_cut : float [mm]
        Over 0, to the cutter's diameter; radial.
    entering_angle : float [deg]
        10 to 150; 90 for an end mill or a shoulder cutter.
    position : str [-]
        `side` or `centred`.

    Returns
    -------
    float [mm/tooth]
        Feed per tooth.

    Notes
    -----
    In a light side cut the table may move several times as fast for the same chip. The wall's
    scallops, the spindle's speed and the teeth's room for chips set an end to it.

    Examples
    --------
    >>> round(feed_for_chip(0.02, 10, 1), 4)
    0.0644

    References
    ----------
    Dijet, catalogue 2018, and Palbit, catalogue: average chip thickness.
    """
    require_within("chip_thickness", chip_thickness, "mm", 0.0005, MOST_FEED)
    require_immersion(cutter_diameter, width_of_cut, position)
    require_within("entering_angle", entering_angle, "deg", LEAST_ANGLE, MOST_ANGLE)
    angle = immersion_angle(cutter_diameter, width_of_cut, position)
    return (
        chip_thickness * angle * cutter_diameter / (2 * width_of_cut * sin(radians(entering_angle)))
    )
