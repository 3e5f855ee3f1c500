"""A sine bar: the height for an angle, with the blocks for it, and the angle of a height."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, cos, degrees, radians, sin

from shoplog.trade.declare import Degree, Micrometre, Millimetre, OutOfRange, offered
from shoplog.trade.machining.cutting import require_positive
from shoplog.trade.taper_work.gauge_blocks import BlockSet, BlockStack, gauge_block_stack
from shoplog.trade.taper_work.taper_setting import taper_cautions

__all__ = ["SineBar", "sine_bar", "sine_bar_angle"]

SOURCE = "Machinery's Handbook, 31st ed. 2020, sine-bars"
# Common practice, no source; up to 45 degrees the handbooks agree.
WELL_WITHIN, MOST_ANGLE = 45.0, 60.0
LONGEST = 2000.0


@dataclass(frozen=True, slots=True)
class SineBar:
    """A sine bar set to an angle, with the blocks under it where they were given."""

    centres: Millimetre
    """From roller to roller."""
    angle: Degree
    stack: BlockStack | None = None

    @property
    def height(self) -> Millimetre:
        """Of one roller over the other."""
        return self.centres * sin(radians(self.angle))

    @property
    def angle_made(self) -> Degree:
        """By the stack; the angle itself where there is none."""
        if self.stack is None:
            return self.angle
        return degrees(asin(min(1.0, self.stack.height / self.centres)))

    @property
    def angle_error(self) -> Degree:
        """Of the angle that the stack makes: over 0 where it is too steep."""
        return self.angle_made - self.angle

    @property
    def angle_per_micrometre(self) -> Degree:
        """Angle for a micrometre of height: it grows with the angle."""
        return degrees(1e-3 / (self.centres * cos(radians(self.angle))))

    @property
    def cautions(self) -> tuple[str, ...]:
        """Over 45 degrees."""
        return taper_cautions("steep-sine-bar") if self.angle > WELL_WITHIN else ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What to know when setting it."""
        made = ["a taper plug that lies on the bar is set to its included angle"]
        if self.stack is not None:
            made.append(
                f"the stack is {self.angle_error * 3600:+.1f} seconds of arc off;"
                f" a micrometre of height is {self.angle_per_micrometre * 3600:.1f}"
            )
        return tuple(made)

    def describe(self) -> str:
        """The setting in one sentence."""
        blocks = "" if self.stack is None else f" Blocks: {self.stack.describe()}"
        return (
            f"{self.angle:.4f}° on a {self.centres:g} mm sine bar: {self.height:.4f} mm"
            f" ({self.height / 25.4:.5f} in).{blocks}"
        )


@offered(source=SOURCE)
def sine_bar(
    centres: Millimetre,
    angle: Degree,
    blocks: BlockSet | list[Millimetre] | None = None,
    within: Micrometre | None = None,
    grade: str = "",
) -> SineBar:
    """Height of one roller of a sine bar over the other for an angle, and the blocks for it.

    H = L sin(alpha), with L the distance of the rollers.

    Parameters
    ----------
    centres : float [mm]
        Over 0, at most 2000; from roller to roller.
    angle : float [deg]
        Over 0, at most 60; over 45 with a caution. A taper plug on the bar has its included angle.
    blocks : BlockSet or list of float [mm]
        A set of gauge blocks or its name, or the sizes on hand; nothing for the height alone.
    within : float [um]
        0 to 10 000; how far off the stack may be, as in `gauge_block_stack`.
    grade : str [-]
        `0`, `1` or `2` of ISO 3650, or nothing.

    Returns
    -------
    SineBar [-]
        The height; the stack, the angle that it makes and how far that is off.

    Raises
    ------
    TradeError
        The angle is too steep, or the blocks cannot make the height.

    Notes
    -----
    The error of the angle is that of the height over L cos(alpha): at 60 degrees twice that at 0.

    Examples
    --------
    >>> sine_bar(100, 30).describe()
    '30.0000° on a 100 mm sine bar: 50.0000 mm (1.96850 in).'
    >>> sine_bar(100, 25, BlockSet.from_text("metric 88")).stack.describe()
    '40 + 1.26 + 1.002 = 42.262 mm: 3 blocks, 2 wrung pairs, +0.17 µm off.'

    References
    ----------
    Machinery's Handbook, 31st ed. 2020, sine-bars.
    """
    _require_centres(centres)
    require_positive("angle", angle, "deg")
    if angle > MOST_ANGLE:
        raise OutOfRange(
            "angle",
            angle,
            "deg",
            over=0,
            most=MOST_ANGLE,
            hint=f"set the complement, {90 - angle:g} deg, from a square face",
        )
    if blocks is None:
        return SineBar(centres, angle)
    height = centres * sin(radians(angle))
    return SineBar(centres, angle, gauge_block_stack(height, blocks, within, grade))


def _require_centres(centres: float) -> None:
    require_positive("centres", centres, "mm")
    if centres > LONGEST:
        raise OutOfRange("centres", centres, "mm", over=0, most=LONGEST)


@offered(source=SOURCE)
def sine_bar_angle(centres: Millimetre, height: Millimetre) -> Degree:
    """Angle of a sine bar from the height of one roller over the other.

    alpha = asin(H / L), with H the height and L the distance of the rollers.

    Parameters
    ----------
    centres : float [mm]
        Over 0, at most 2000; from roller to roller.
    height : float [mm]
        Over 0, at most that of 60 degrees; of the stack.

    Returns
    -------
    float [deg]
        Angle of the bar; the included angle of a taper plug whose upper side lies level on it.

    Notes
    -----
    `taper_from_angle` gives the taper of it.

    Examples
    --------
    >>> round(sine_bar_angle(127, 2.396 * 25.4), 2)
    28.63

    References
    ----------
    Machinery's Handbook, 31st ed. 2020, sine-bars.
    """
    _require_centres(centres)
    require_positive("height", height, "mm")
    most = centres * sin(radians(MOST_ANGLE))
    if height > most:
        raise OutOfRange("height", height, "mm", over=0, most=most)
    return degrees(asin(height / centres))
