"""Parallel keys and keyways, metric (ISO 773, DIN 6885-1) and inch (ASME B17.1)."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, OutOfRange, Size, TradeError, offered
from shoplog.trade.fastening.key_record import Key, KeyJoint, KeySeat, keys_mate, width_below
from shoplog.trade.limits_and_fits.iso286 import deviations, limits_of
from shoplog.trade.machining.cutting import require_positive

__all__ = [
    "Key",
    "KeyJoint",
    "KeySeat",
    "hub_wall",
    "inch_parallel_key",
    "keys_mate",
    "keyway_across",
    "keyway_depth",
    "parallel_key",
]

METRIC = "ISO 773:1969; DIN 6885-1:1968"
INCH_STANDARD = "ASME B17.1-1967 (R2013)"
MM_PER_INCH = 25.4
# Class of the keyway's width, shaft and hub, by the fit's name (ISO 773; letters read in makers'
# sheets to DIN 6885-1).
FITS = {"tight": ("P9", "P9"), "normal": ("N9", "JS9"), "sliding": ("H9", "D10")}
HUB_CLEARANCE_IN = 0.005
SHAFT_MINUS_IN = 0.015  # on the depth over the far side: +0.000 -0.015
HUB_PLUS_IN = 0.010


def fit_classes(fit: str) -> tuple[str, str]:
    """The classes of the keyway's width in shaft and hub, by the name of a fit."""
    if fit not in FITS:
        names = ", ".join(f'"{name}"' for name in FITS)
        raise TradeError(f'"{fit[:20]}" is no fit of a key', hint=f"one of {names}", argument="fit")
    return FITS[fit]


def keyway_width(width: float, letters: str) -> Size:
    """The width of a keyway with the limits of a class.

    The standards of keys have N9 for keys of 1 mm too, with the deviations of 1 to 3 mm.
    """
    lower, upper = deviations(max(width, 2.0), letters)
    return Size(width, lower / 1000, upper / 1000, letters)


@offered(source=METRIC)
def parallel_key(shaft_diameter: Millimetre, fit: str = "normal") -> KeyJoint:
    """Metric parallel key for a shaft, with its keyways in shaft and hub.

    Parameters
    ----------
    shaft_diameter : float [mm]
        6 to 500.
    fit : str [-]
        Of the key's sides: `tight` (P9 in both), `normal` (N9 in the shaft, JS9 in the hub) or
        `sliding` (H9, D10: the hub slides along).

    Returns
    -------
    KeyJoint [-]
        The key, and the seats of shaft and hub with width, depth and the depth over the far side,
        each with limits.

    Raises
    ------
    TradeError
        Another fit, or a shaft outside the table.

    Notes
    -----
    A larger key does not fit the standard's depths; a smaller one is used on a stepped shaft, with
    its own depths. Depths hold for the shaft's finished diameter: measured before grinding, add
    half of what is ground off.

    Examples
    --------
    >>> joint = parallel_key(25)
    >>> joint.key.designation, joint.shaft.over_opposite.nominal, joint.hub.over_opposite.nominal
    ('8x7 mm', 21.0, 28.3)

    References
    ----------
    ISO 773:1969 and DIN 6885-1:1968, by makers' tables.
    """
    rows = table("keys_parallel_metric").rows
    least, most = float(rows[0]["over_mm"]), float(rows[-1]["to_mm"])
    if not least <= shaft_diameter <= most:
        raise OutOfRange(
            "shaft_diameter",
            shaft_diameter,
            "mm",
            least=least,
            most=most,
            source="DIN 6885-1",
            hint="a pin, or a Woodruff key" if shaft_diameter < least else "",
        )
    row = next(row for row in rows if shaft_diameter <= float(row["to_mm"]))
    classes = fit_classes(fit)
    width, height = float(row["width_mm"]), float(row["height_mm"])
    key = Key(
        f"{width:g}x{height:g} mm",
        "parallel",
        "DIN 6885-1",
        limits_of(width, "h9"),
        limits_of(height, "h9" if width == height else "h11"),
    )
    plus = float(row["depth_plus_mm"])
    shaft, hub = (
        KeySeat(
            side,
            key,
            shaft_diameter,
            keyway_width(width, letters),
            Size(float(row[depth]), 0, plus),
        )
        for side, letters, depth in zip(
            ("shaft", "hub"), classes, ("shaft_depth_mm", "hub_depth_mm"), strict=True
        )
    )
    return KeyJoint(key, shaft, hub, fit)


@offered(source=INCH_STANDARD)
def inch_parallel_key(shaft_diameter: Millimetre, shape: str = "square") -> KeyJoint:
    """Inch parallel key for a shaft, with its keyseats in shaft and hub.

    S = D - H/2 - y over the shaft and T = D + H/2 - y + c from the far side of the bore, with
    y = (D - sqrt(D^2 - W^2)) / 2 and c = 0.005 in.

    Parameters
    ----------
    shaft_diameter : float [mm]
        5/16 in to 6-1/2 in; 5/16 in itself takes the least key.
    shape : str [-]
        `square` or `flat`.

    Returns
    -------
    KeyJoint [-]
        The key, and the seats of shaft and hub with width, depth and the depth over the far side,
        each with limits.

    Raises
    ------
    TradeError
        Another shape, no flat key at that shaft, or a shaft outside the table.

    Notes
    -----
    The standard measures half the key's height at the side of the keyseat. `depth` here is from
    the top of the round, deeper by y in the shaft and less by y in the hub. Widths are of class 1
    and bar stock, by memory.

    Examples
    --------
    >>> joint = inch_parallel_key(25.4)
    >>> round(joint.shaft.over_opposite.nominal / 25.4, 3)
    0.859
    >>> round(joint.hub.over_opposite.nominal / 25.4, 3)
    1.114

    References
    ----------
    ASME B17.1-1967 (R2013), table 1 and the depth control values.
    """
    diameter = shaft_diameter / MM_PER_INCH
    row = _inch_row(shaft_diameter)
    if shape not in ("square", "flat"):
        raise TradeError(
            f'"{shape[:20]}" is no shape of a key', hint='"square" or "flat"', argument="shape"
        )
    if not row[f"{shape}_height_in"]:
        raise TradeError(
            f"there is no flat key for a shaft of {diameter:g} in",
            hint="a square key",
            argument="shape",
        )
    width, height = float(row["width_in"]), float(row[f"{shape}_height_in"])
    minus = -float(row["key_minus_in"])
    key = Key(
        f"{_fraction(width)}x{_fraction(height)} in",
        "parallel",
        "ASME B17.1",
        inch_size(width, minus, 0),
        inch_size(height, minus, 0),
    )
    below = width_below(diameter, width)
    seat = inch_size(width, 0, float(row["keyseat_plus_in"]))
    return KeyJoint(
        key,
        KeySeat(
            "shaft", key, shaft_diameter, seat, inch_size(height / 2 + below, 0, SHAFT_MINUS_IN)
        ),
        KeySeat(
            "hub",
            key,
            shaft_diameter,
            seat,
            inch_size(height / 2 - below + HUB_CLEARANCE_IN, 0, HUB_PLUS_IN),
        ),
        "class 1",
    )


def _inch_row(shaft_diameter: float) -> dict[str, str]:
    rows = table("keys_parallel_inch").rows
    least, most = (float(rows[n][key]) * MM_PER_INCH for n, key in ((0, "over_in"), (-1, "to_in")))
    if not least - 1e-9 <= shaft_diameter <= most + 1e-9:
        raise OutOfRange(
            "shaft_diameter", shaft_diameter, "mm", least=least, most=most, source="ASME B17.1"
        )
    return next(row for row in rows if shaft_diameter <= float(row["to_in"]) * MM_PER_INCH + 1e-9)


def inch_size(nominal: float, lower: float, upper: float) -> Size:
    """A size and its deviations, given in inches."""
    return Size(nominal * MM_PER_INCH, lower * MM_PER_INCH, upper * MM_PER_INCH)


def _fraction(inch: float) -> str:
    whole, rest = divmod(Fraction(inch), 1)
    return "-".join(str(part) for part in (whole, rest) if part)


def _round_and_depth(diameter: float, depth: float, side: str) -> None:
    require_positive("diameter", diameter, "mm")
    if side not in ("shaft", "hub"):
        raise TradeError(f'"{side[:20]}" is no side', hint='"shaft" or "hub"', argument="side")
    if not 0 < depth < diameter:
        raise OutOfRange("depth", depth, "mm", over=0, below=diameter)


@offered(source="DIN 6885-1: d - t1 and d + t2")
def keyway_across(diameter: Millimetre, depth: Millimetre, side: str = "shaft") -> Millimetre:
    """Size from a keyway's floor to the far side of the round, to measure its depth by.

    d - t1 for the shaft, d + t2 for the hub.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; as measured, of the shaft or of the bore.
    depth : float [mm]
        Over 0, below the diameter; from the top of the round, in the middle of the keyway.
    side : str [-]
        `shaft` or `hub`.

    Returns
    -------
    float [mm]
        Size across.

    Notes
    -----
    Take the diameter that is there, not the nominal one: half of a wrong diameter goes into the
    depth.

    Examples
    --------
    >>> keyway_across(30, 4)
    26

    References
    ----------
    DIN 6885-1:1968.
    """
    _round_and_depth(diameter, depth, side)
    return diameter - depth if side == "shaft" else diameter + depth


@offered(source="plane geometry: the height of a segment")
def keyway_depth(
    diameter: Millimetre, depth_from_flat: Millimetre, width: Millimetre
) -> Millimetre:
    """Depth of a shaft's keyway from the top of the round, from the depth below a cut flat.

    t1 = f + (D - sqrt(D^2 - b^2)) / 2, with f from the flat where the cutter's full width shows.

    Parameters
    ----------
    diameter : float [mm]
        Over 0; of the shaft.
    depth_from_flat : float [mm]
        Over 0; also the depth at the keyway's side.
    width : float [mm]
        Over 0, below the diameter; of the keyway.

    Returns
    -------
    float [mm]
        Depth from the top of the round.

    Notes
    -----
    The way to cut it: feed until the cutter's full width just shows, set the dial to 0, go down by
    `depth_from_flat` of the key's seat.

    Examples
    --------
    >>> round(keyway_depth(30, 3.451, 8), 3)
    4.0

    References
    ----------
    Plane geometry.
    """
    require_positive("diameter", diameter, "mm")
    require_positive("depth_from_flat", depth_from_flat, "mm")
    if not 0 < width < diameter:
        raise OutOfRange("width", width, "mm", over=0, below=diameter)
    return depth_from_flat + (diameter - sqrt(diameter**2 - width**2)) / 2


@offered(source="plane geometry")
def hub_wall(outside_diameter: Millimetre, seat: KeySeat) -> Millimetre:
    """Wall of a hub that is left above its keyway, at the deepest that the limits allow.

    (D - d) / 2 - t2.

    Parameters
    ----------
    outside_diameter : float [mm]
        Over the bore and twice the keyway's depth; of the hub.
    seat : KeySeat [-]
        The hub's keyway, such as `joint.hub`.

    Returns
    -------
    float [mm]
        Wall above the keyway.

    Notes
    -----
    A hub about twice the bore in diameter is common; a thin wall above the keyway splits.

    Examples
    --------
    >>> round(hub_wall(50, parallel_key(25).hub), 3)
    9.0

    References
    ----------
    Plane geometry.
    """
    if seat.side != "hub":
        raise TradeError(
            f"this is the keyway of the {seat.side}", hint="the joint's `hub`", argument="seat"
        )
    least = seat.diameter + 2 * seat.depth.max
    if not least < outside_diameter:
        raise OutOfRange(
            "outside_diameter",
            outside_diameter,
            "mm",
            over=least,
            hint="no wall is left above the keyway",
        )
    require_positive("outside_diameter", outside_diameter, "mm")
    return (outside_diameter - seat.diameter) / 2 - seat.depth.max
