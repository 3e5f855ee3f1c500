"""The depth of cut that a machine's power or a force allows, for a given specific cutting force."""

from __future__ import annotations

from typing import Annotated

from shoplog.tables import table
from shoplog.trade.declare import (
    In,
    MetrePerMinute,
    Millimetre,
    MillimetrePerRev,
    Percent,
    offered,
)
from shoplog.trade.machining.cutting import require_positive, require_within

__all__ = ["depth_for_force", "depth_for_power"]

Kilowatt = Annotated[float, In("kW")]
Newton = Annotated[float, In("N")]
Megapascal = Annotated[float, In("MPa")]

POWER = "P = kc a f v / 60000, Mitsubishi Materials, formulae for cutting power, turning"
(NOT_THE_ONLY_LIMIT,) = (
    row["text"] for row in table("passes_cautions").rows if row["when"] == "power"
)


@offered(source=POWER, cautions=(NOT_THE_ONLY_LIMIT,))
def depth_for_power(
    power: Kilowatt,
    specific_cutting_force: Megapascal,
    cutting_speed: MetrePerMinute,
    feed_per_rev: MillimetrePerRev,
    efficiency: Percent = 75,
    reserve: Percent = 20,
) -> Millimetre:
    """Greatest depth of cut that the motor's power bears in turning.

    a = 60000 P eta (1 - reserve) / (kc f v), with P the motor's power and kc the specific cutting
    force at this chip.

    Parameters
    ----------
    power : float [kW]
        Over 0; of the motor.
    specific_cutting_force : float [MPa]
        1 to 100000; kc of the material at the chip thickness of this feed.
    cutting_speed : float [m/min]
        Over 0.
    feed_per_rev : float [mm/rev]
        Over 0.
    efficiency : float [%]
        1 to 100; from the motor to the spindle.
    reserve : float [%]
        0 to 90; kept back, since forces are known to about a fifth.

    Returns
    -------
    float [mm]
        Depth of cut, on the radius.

    Raises
    ------
    OutOfRange
        A value is outside its range.

    Notes
    -----
    A motor with a frequency drive has its power at its rated speed only.

    Examples
    --------
    >>> round(depth_for_power(0.75, 2100, 25, 0.15), 2)
    3.43

    References
    ----------
    Mitsubishi Materials, formulae for cutting power, turning.
    """
    require_positive("power", power, "kW")
    _require_specific_force(specific_cutting_force)
    require_positive("cutting_speed", cutting_speed, "m/min")
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_within("efficiency", efficiency, "%", 1, 100)
    require_within("reserve", reserve, "%", 0, 90)
    return (
        60000
        * power
        * (efficiency / 100)
        * (1 - reserve / 100)
        / (specific_cutting_force * feed_per_rev * cutting_speed)
    )


@offered(source="F = kc a f, ISO 3002-4 symbols", cautions=(NOT_THE_ONLY_LIMIT,))
def depth_for_force(
    force: Newton,
    specific_cutting_force: Megapascal,
    feed_per_rev: MillimetrePerRev,
    reserve: Percent = 20,
) -> Millimetre:
    """Greatest depth of cut that a cutting force allows in turning.

    a = F (1 - reserve) / (kc f), with kc the specific cutting force at this chip.

    Parameters
    ----------
    force : float [N]
        Over 0; the cutting force that work, holding or tool may bear.
    specific_cutting_force : float [MPa]
        1 to 100000; kc of the material at the chip thickness of this feed.
    feed_per_rev : float [mm/rev]
        Over 0.
    reserve : float [%]
        0 to 90; kept back, since forces are known to about a fifth.

    Returns
    -------
    float [mm]
        Depth of cut, on the radius.

    Raises
    ------
    OutOfRange
        A value is outside its range.

    Notes
    -----
    The feed force and the radial force are others; a large nose radius raises the radial one.

    Examples
    --------
    >>> round(depth_for_force(500, 2100, 0.15), 2)
    1.27

    References
    ----------
    ISO 3002-4 (from memory).
    """
    require_positive("force", force, "N")
    _require_specific_force(specific_cutting_force)
    require_positive("feed_per_rev", feed_per_rev, "mm/rev")
    require_within("reserve", reserve, "%", 0, 90)
    return force * (1 - reserve / 100) / (specific_cutting_force * feed_per_rev)


def _require_specific_force(specific_cutting_force: float) -> None:
    require_within("specific_cutting_force", specific_cutting_force, "MPa", 1, 1e5)
