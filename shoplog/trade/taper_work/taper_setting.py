"""Setting a lathe for a taper: how far a tailstock is set over, and how far a plug goes in.

Every angle here is half of the cone's, between its axis and its side.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, sin

from shoplog.tables import table
from shoplog.trade.declare import Micrometre, Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.taper_work.tapers import Taper

__all__ = [
    "SetOver",
    "plug_travel",
    "removal_for_travel",
    "require_length",
    "tailstock_set_over",
    "taper_cautions",
    "taper_from_set_over",
]

SET_OVER = (
    "F. D. Jones, Turning and Boring, 1914, offset-center method; depth of the centres after"
    " F. H. Colvin, Turning and Boring Tapers, 1902"
)
# Half-angles; common practice, no source.
MOST_SET_OVER = 8.0
STEEP_SET_OVER = 2.0
LONGEST = 10_000.0


def taper_cautions(*when: str) -> tuple[str, ...]:
    """The cautions that belong to a kind of work."""
    return tuple(row["caution"] for row in table("tapers_cautions").rows if row["when"] in when)


@dataclass(frozen=True, slots=True)
class SetOver:
    """How far a tailstock is set over for a taper on the outside of work between centres."""

    taper: Taper
    length: Millimetre
    """Of the work, from end to end."""
    centre_depth: Millimetre
    """By which each centre stands in the work."""
    bearing: Millimetre | None = None
    """Width of the 60° bearing in the centre hole, along its side."""

    @property
    def between_points(self) -> Millimetre:
        """From the point of one centre to that of the other."""
        return self.length - 2 * self.centre_depth

    @property
    def set_over(self) -> Millimetre:
        """Of the tailstock, from the spindle's axis."""
        return self.between_points * sin(radians(self.taper.half_angle))

    @property
    def by_the_rule(self) -> Millimetre:
        """What the workshop's rule gives: half the taper over the whole length of the work."""
        return self.length * self.taper.ratio / 2

    @property
    def opening(self) -> Micrometre | None:
        """How far the centre hole gapes on one side of its bearing, where its width is known."""
        if self.bearing is None:
            return None
        return 1000 * self.bearing * sin(radians(self.taper.half_angle))

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of work on offset centres; a steep one has another."""
        steep = ("steep-set-over",) if self.taper.half_angle > STEEP_SET_OVER else ()
        return taper_cautions("set-over", *steep)

    @property
    def notes(self) -> tuple[str, ...]:
        """What to know when setting it."""
        made = [
            "every piece of the batch must have this length and these centre depths: the taper"
            " changes with them"
        ]
        off = self.by_the_rule - self.set_over
        if abs(off) >= 0.005:
            made.append(
                f"half the taper over the whole length would be {self.by_the_rule:.3f} mm,"
                f" {abs(off):.3f} mm too {'far' if off > 0 else 'little'}"
            )
        if self.opening is not None:
            made.append(
                f"the centre hole gapes by {self.opening:.0f} µm across its bearing; a ball centre"
                " does not mind"
            )
        return tuple(made)

    def describe(self) -> str:
        """The setting in one sentence."""
        return (
            f"{self.taper.designation} on work {self.length:g} mm long: tailstock"
            f" {self.set_over:.3f} mm over, towards you for a small end at the tailstock."
        )


@offered(source=SET_OVER)
def tailstock_set_over(
    taper: Taper,
    length: Millimetre,
    centre_depth: Millimetre = 0.0,
    travel: Millimetre | None = None,
    bearing: Millimetre | None = None,
    surface: str = "outside",
) -> SetOver:
    """How far to set a tailstock over to turn a taper on work held between centres.

    S = (L - 2 t) sin(alpha / 2), with L the length of the work and t the depth of each centre.

    Parameters
    ----------
    taper : Taper [-]
        A taper, or its designation as text; its half-angle at most 8°.
    length : float [mm]
        Over 0, at most 10 000; of the whole work, not of the tapered part.
    centre_depth : float [mm]
        0 or more, less than half the length; by which each centre's point stands in the work.
    travel : float [mm]
        Over 0; how far this tailstock can be set over, if that is known.
    bearing : float [mm]
        Over 0; width of the 60° bearing in the centre hole along its side, if that is known.
    surface : str [-]
        `outside`; a taper in a `bore` is refused.

    Returns
    -------
    SetOver [-]
        The set-over, that of the workshop's rule, and how the centre hole gapes.

    Raises
    ------
    TradeError
        The taper is in a bore, too steep, or asks more than the tailstock has.

    Notes
    -----
    Calculate to get near; then turn, measure at two places and correct. The limit of 8° is common
    practice, no source.

    Examples
    --------
    >>> made = tailstock_set_over(Taper.from_text("1:20"), 200, centre_depth=4)
    >>> round(made.set_over, 3), made.by_the_rule
    (4.799, 5.0)

    References
    ----------
    F. D. Jones, Turning and Boring, 1914; F. H. Colvin, Turning and Boring Tapers, 1902.
    """
    _require_outside(surface)
    require_length("length", length)
    if not 0 <= centre_depth < length / 2:
        raise OutOfRange("centre_depth", centre_depth, "mm", least=0, below=length / 2)
    if bearing is not None:
        require_positive("bearing", bearing, "mm")
    _require_gentle(taper)
    made = SetOver(taper, length, centre_depth, bearing)
    if travel is not None:
        _require_travel(made, travel)
    return made


def _require_outside(surface: str) -> None:
    if surface == "bore":
        raise TradeError(
            "a set-over tailstock tapers the outside of work between centres, not a bore",
            hint="swing the top slide (compound_setting) or use a taper attachment",
            argument="surface",
        )
    if surface != "outside":
        raise TradeError(
            f"the surface is {surface[:20]!r}, it must be 'outside' or 'bore'", argument="surface"
        )


def require_length(argument: str, length: float) -> None:
    """Refuse what is no length of work or of a travel."""
    require_positive(argument, length, "mm")
    if length > LONGEST:
        raise OutOfRange(argument, length, "mm", over=0, most=LONGEST)


def _require_gentle(taper: Taper) -> None:
    if taper.half_angle > MOST_SET_OVER:
        raise TradeError(
            f"{taper.designation} has a half-angle of {taper.half_angle:.2f}°, a tailstock is set"
            f" over for at most {MOST_SET_OVER:g}°",
            hint="swing the top slide (compound_setting) for a steep taper",
            argument="taper",
        )


def _require_travel(made: SetOver, travel: float) -> None:
    require_positive("travel", travel, "mm")
    if made.set_over > travel:
        longest = 2 * made.centre_depth + travel / sin(radians(made.taper.half_angle))
        raise TradeError(
            f"the set-over is {made.set_over:.3f} mm, this tailstock has at most {travel:g} mm",
            hint=f"work up to {longest:.4g} mm long can be turned so; else swing the top slide or"
            " use a taper attachment",
            argument="travel",
        )


@offered(source=SET_OVER)
def taper_from_set_over(
    set_over: Millimetre, length: Millimetre, centre_depth: Millimetre = 0.0
) -> Taper:
    """The taper that a tailstock's set-over turns, or turned by mistake.

    C = 2 tan(asin(S / (L - 2 t))), with S the set-over, L the length and t each centre's depth.

    Parameters
    ----------
    set_over : float [mm]
        Over 0, less than the distance of the centres' points.
    length : float [mm]
        Over 0, at most 10 000; of the whole work.
    centre_depth : float [mm]
        0 or more, less than half the length.

    Returns
    -------
    Taper [-]
        Ratio and angles.

    Notes
    -----
    A lathe whose tailstock is 0.02 mm out tapers work 100 mm long by 0.04 mm on diameter.

    Examples
    --------
    >>> round(taper_from_set_over(2, 200).one_in, 2)
    49.99

    References
    ----------
    F. D. Jones, Turning and Boring, 1914.
    """
    require_length("length", length)
    if not 0 <= centre_depth < length / 2:
        raise OutOfRange("centre_depth", centre_depth, "mm", least=0, below=length / 2)
    require_positive("set_over", set_over, "mm")
    apart = length - 2 * centre_depth
    if not set_over < 0.9 * apart:
        raise OutOfRange("set_over", set_over, "mm", over=0, below=0.9 * apart)
    along = ((apart - set_over) * (apart + set_over)) ** 0.5
    return Taper(f"{set_over:g} mm set over on {length:g} mm", 2 * set_over / along)


@offered(source="ISO 3040:2016, rate of taper (from memory)")
def plug_travel(taper: Taper, removal: Millimetre) -> Millimetre:
    """How far a plug goes further in for a removal on the diameter of its hole or of itself.

    x = r / C, with r the removal on diameter and C the ratio of the taper.

    Parameters
    ----------
    taper : Taper [-]
        A taper, or its designation as text.
    removal : float [mm]
        0 to 1 000 000; on diameter: twice the feed of a cross slide whose dial reads radius.

    Returns
    -------
    float [mm]
        Along the axis.

    Notes
    -----
    At 1:20 a hundredth on diameter is a fifth of a millimetre along the axis: leave the plug proud
    by this while the bore is not finished.

    Examples
    --------
    >>> round(plug_travel(Taper.from_text("1:20"), 0.01), 6)
    0.2

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    require_within("removal", removal, "mm", 0, 1e6)
    return removal / taper.ratio


@offered(source="ISO 3040:2016, rate of taper (from memory)")
def removal_for_travel(taper: Taper, travel: Millimetre) -> Millimetre:
    """What to take off the diameter so that a plug goes further in by a travel.

    r = x C, with x the travel along the axis and C the ratio of the taper.

    Parameters
    ----------
    taper : Taper [-]
        A taper, or its designation as text.
    travel : float [mm]
        0 to 1 000 000; along the axis, such as what the plug stands proud of its line.

    Returns
    -------
    float [mm]
        On diameter.

    Notes
    -----
    With the angle right first: no removal mends a wrong angle.

    Examples
    --------
    >>> round(removal_for_travel(Taper.from_text("Morse 2"), 3), 4)
    0.1499

    References
    ----------
    ISO 3040:2016 (from memory).
    """
    require_within("travel", travel, "mm", 0, 1e6)
    return travel * taper.ratio
