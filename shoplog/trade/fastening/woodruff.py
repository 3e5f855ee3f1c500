"""Woodruff keys and their keyways: ISO 3912 by size or shaft, ASME B17.2 by number."""

from __future__ import annotations

from collections.abc import Mapping

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.fastening.key_record import Key, KeyJoint, KeySeat
from shoplog.trade.fastening.keys import fit_classes, inch_size, keyway_width
from shoplog.trade.limits_and_fits.iso286 import limits_of
from shoplog.trade.machining.cutting import require_positive

__all__ = ["woodruff_key", "woodruff_key_for"]

MM_PER_INCH = 25.4
KEYSEAT_LESS_IN = 0.005
HUB_CLEARANCE_IN = 0.006
KEYSEAT_PLUS_IN = 0.005
KEY_HEIGHT_MINUS_IN = 0.005
SOURCE = "ISO 3912:1977 (from memory, checked against DIN 6888:1956 where it agrees); ASME B17.2"


@offered(source=SOURCE)
def woodruff_key(size: str, shaft_diameter: Millimetre, fit: str = "normal") -> KeyJoint:
    """Woodruff key by its size or number, with its keyways in a shaft and a hub.

    Parameters
    ----------
    size : str [-]
        Width, height and diameter in mm, `5x6.5x16`; or an inch number, `404`.
    shaft_diameter : float [mm]
        Over the depth in the shaft, and over the key's width.
    fit : str [-]
        Of a metric key's sides: `tight`, `normal` or `sliding`. An inch key has one.

    Returns
    -------
    KeyJoint [-]
        The key, and the seats of shaft and hub.

    Raises
    ------
    TradeError
        No such key, or a shaft too thin for it.

    Notes
    -----
    Depths of the inch keys follow a rule that the printed depths bear out: the height less half
    the width and 0.005 in in the shaft, half the width and 0.006 in in the hub. They are taken
    from the top of the round.

    Examples
    --------
    >>> round(woodruff_key("404", 12.7).shaft.depth.nominal / 25.4, 4)
    0.1355
    >>> woodruff_key("5x6.5x16", 17).shaft.over_opposite.nominal
    12.5

    References
    ----------
    ISO 3912:1977; ANSI/ASME B17.2-1967 (R2013).
    """
    require_positive("shaft_diameter", shaft_diameter, "mm")
    plain = "".join(size[:30].casefold().replace("×", "x").split())
    for row in table("keys_woodruff_metric").rows:
        if row["size"] == plain:
            return _fitting(_metric(row, shaft_diameter, fit), "shaft_diameter")
    for row in table("keys_woodruff_inch").rows:
        if row["number"] in (plain, plain.replace(".5", "½")):
            return _fitting(_inch(row, shaft_diameter), "shaft_diameter")
    raise TradeError(
        f'there is no Woodruff key "{size[:30]}"',
        hint='write "5x6.5x16", or an inch number such as "404"',
        argument="size",
    )


@offered(source=SOURCE)
def woodruff_key_for(shaft_diameter: Millimetre, fit: str = "normal") -> KeyJoint:
    """Metric Woodruff key for a shaft that it drives, with its keyways in shaft and hub.

    Parameters
    ----------
    shaft_diameter : float [mm]
        Over 3, at most 38.
    fit : str [-]
        Of the key's sides: `tight`, `normal` or `sliding`.

    Returns
    -------
    KeyJoint [-]
        The key, and the seats of shaft and hub.

    Raises
    ------
    TradeError
        Another fit, or a shaft outside the table.

    Notes
    -----
    A key that only locates, on a taper, may be smaller: take `woodruff_key` with its size.

    Examples
    --------
    >>> woodruff_key_for(15).key.designation
    'Woodruff 4x7.5x19'

    References
    ----------
    ISO 3912:1977, series 1 (from memory).
    """
    rows = table("keys_woodruff_metric").rows
    least, most = float(rows[0]["shaft_over_mm"]), float(rows[-1]["shaft_to_mm"])
    if not least < shaft_diameter <= most:
        raise OutOfRange(
            "shaft_diameter", shaft_diameter, "mm", over=least, most=most, source="ISO 3912"
        )
    row = next(row for row in rows if shaft_diameter <= float(row["shaft_to_mm"]))
    return _metric(row, shaft_diameter, fit)


def _metric(row: Mapping[str, str], shaft_diameter: float, fit: str) -> KeyJoint:
    number = {name[:-3]: float(cell) for name, cell in row.items() if name.endswith("_mm")}
    width, height = number["width"], number["height"]
    key = Key(
        f"Woodruff {row['size']}",
        "Woodruff",
        "ISO 3912",
        limits_of(width, "h9"),
        limits_of(height, "h11"),
        number["diameter"],
    )
    shaft_class, hub_class = fit_classes(fit)
    shaft_depth = Size(number["shaft_depth"], 0, number["shaft_depth_plus"])
    hub_depth = Size(number["hub_depth"], 0, number["hub_depth_plus"])
    return KeyJoint(
        key,
        KeySeat("shaft", key, shaft_diameter, keyway_width(width, shaft_class), shaft_depth),
        KeySeat("hub", key, shaft_diameter, keyway_width(width, hub_class), hub_depth),
        fit,
    )


def _inch(row: Mapping[str, str], shaft_diameter: float) -> KeyJoint:
    width, height = float(row["width_in"]), float(row["height_in"])
    key = Key(
        f"Woodruff {row['number']}",
        "Woodruff",
        "ASME B17.2",
        inch_size(width, 0, 0.001),
        inch_size(height, -KEY_HEIGHT_MINUS_IN, 0),
        float(row["diameter_in"]) * MM_PER_INCH,
    )
    seat = inch_size(width, 0, 0.002)
    shaft_depth = inch_size(height - width / 2 - KEYSEAT_LESS_IN, 0, KEYSEAT_PLUS_IN)
    hub_depth = inch_size(width / 2 + HUB_CLEARANCE_IN, 0, KEYSEAT_PLUS_IN)
    return KeyJoint(
        key,
        KeySeat("shaft", key, shaft_diameter, seat, shaft_depth),
        KeySeat("hub", key, shaft_diameter, seat, hub_depth),
        "standard",
    )


def _fitting(joint: KeyJoint, argument: str) -> KeyJoint:
    least = max(joint.key.width.nominal, joint.shaft.depth.max)
    if joint.shaft.diameter <= least:
        raise OutOfRange(
            argument,
            joint.shaft.diameter,
            "mm",
            over=least,
            source=f"key {joint.key.designation}",
        )
    return joint
