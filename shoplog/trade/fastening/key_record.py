"""Keys and their seats as records: sizes with limits, depths as they are measured, what mates."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from shoplog.trade.declare import Millimetre, Size
from shoplog.trade.fastening.fixing_cautions import fixing_cautions
from shoplog.trade.limits_and_fits.fits import same_nominal

__all__ = ["Key", "KeyJoint", "KeySeat", "keys_mate", "width_below"]


def width_below(diameter: float, width: float) -> float:
    """How far below the top of a round a flat of a width lies: (D - sqrt(D^2 - b^2)) / 2."""
    return (diameter - sqrt(diameter * diameter - width * width)) / 2


@dataclass(frozen=True, slots=True)
class Key:
    """A key: how it is called, its width and height with limits."""

    designation: str
    """`8x7 mm`, `1/4x1/4 in`, `Woodruff 5x6.5x16` or `Woodruff 404`."""
    kind: str
    """`parallel` or `Woodruff`."""
    standard: str
    width: Size
    height: Size
    diameter: Millimetre | None = None
    """Of the disc that a Woodruff key is cut from."""

    def describe(self) -> str:
        """The key in one sentence."""
        disc = "" if self.diameter is None else f", diameter {self.diameter:.4g} mm"
        return (
            f"Key {self.designation} ({self.standard}): {_limits(self.width)} wide,"
            f" {_limits(self.height)} high{disc}."
        )


@dataclass(frozen=True, slots=True)
class KeySeat:
    """The keyway of a shaft or of a hub: width and depth with limits, and how it is measured.

    The depth is reckoned from the top of the round, in the middle of the keyway, as DIN 6885 has
    it (t1 in the shaft, t2 in the hub).
    """

    side: str
    """`shaft` or `hub`."""
    key: Key
    diameter: Millimetre
    """Of the shaft, which is the hub's bore."""
    width: Size
    depth: Size

    @property
    def over_opposite(self) -> Size:
        """From the keyway's floor to the far side of the round: shaft d - t1, hub d + t2."""
        if self.side == "hub":
            return Size(self.diameter + self.depth.nominal, self.depth.lower, self.depth.upper)
        return Size(self.diameter - self.depth.nominal, -self.depth.upper, -self.depth.lower)

    @property
    def flat(self) -> Millimetre:
        """How far below the top a flat as wide as the keyway lies: where the cutter's full width
        first shows.
        """
        return width_below(self.diameter, self.width.nominal)

    @property
    def depth_from_flat(self) -> Millimetre:
        """Depth from that flat, which is also the depth at the keyway's side."""
        below = self.flat if self.side == "shaft" else -self.flat
        return self.depth.nominal - below

    def describe(self) -> str:
        """The keyway in one sentence."""
        across = "over the far side" if self.side == "shaft" else "from the far side of the bore"
        return (
            f"Keyway in the {self.side} of {self.diameter:g} mm: {_limits(self.width)} wide,"
            f" {_limits(self.depth)} deep, {_limits(self.over_opposite)} {across}."
        )


@dataclass(frozen=True, slots=True)
class KeyJoint:
    """A key with its seats in shaft and hub."""

    key: Key
    shaft: KeySeat
    hub: KeySeat
    fit: str

    @property
    def clearance(self) -> Size:
        """Between the top of the key and the floor of the hub's keyway."""
        nominal = self.shaft.depth.nominal + self.hub.depth.nominal - self.key.height.nominal
        lower = self.shaft.depth.lower + self.hub.depth.lower - self.key.height.upper
        upper = self.shaft.depth.upper + self.hub.depth.upper - self.key.height.lower
        return Size(nominal, lower, upper)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of cutting keyways."""
        return fixing_cautions("keyway")

    def describe(self) -> str:
        """The joint in one sentence."""
        return (
            f"Key {self.key.designation} at {self.shaft.diameter:g} mm, {self.fit} fit: shaft"
            f" {_limits(self.shaft.width)} wide, {_limits(self.shaft.over_opposite)} over the far"
            f" side; hub {_limits(self.hub.width)} wide, {_limits(self.hub.over_opposite)} from the"
            f" far side of the bore."
        )


def _limits(size: Size) -> str:
    if size.lower == size.upper:
        return f"{size.nominal:.4g} mm"
    return f"{size.nominal:.4g} mm {_micrometres(size.upper)}/{_micrometres(size.lower)} µm"


def _micrometres(length: float) -> str:
    """A deviation with its sign; 0 has none."""
    return f"{length * 1000:+.3g}" if length else "0"


def keys_mate(one: Key | KeySeat, other: Key | KeySeat) -> str:
    """Why a key and a seat, or the seats of shaft and hub, do not go together; or nothing.

    Compared are the nominal widths, the kind and disc of the key, for two seats the side, diameter
    and height of the key that they are for, and that the key does not stand on the hub's floor.
    """
    if isinstance(one, KeySeat):
        return _seats_mate(one, other) if isinstance(other, KeySeat) else _key_mates(other, one)
    if isinstance(other, KeySeat):
        return _key_mates(one, other)
    return "both are keys: a key goes with a keyway"


def _key_mates(key: Key, seat: KeySeat) -> str:
    if not same_nominal(key.width.nominal, seat.width.nominal):
        return (
            f"the widths differ: key {key.width.nominal:.4g} mm, keyway {seat.width.nominal:.4g} mm"
        )
    if seat.side == "shaft" and (key.diameter is None) != (seat.key.diameter is None):
        return f"a {key.kind} key does not fit a keyway for a {seat.key.kind} key"
    if not same_nominal(key.height.nominal, seat.key.height.nominal):
        return (
            f"the heights differ: key {key.height.nominal:.4g} mm, keyway for"
            f" {seat.key.height.nominal:.4g} mm"
        )
    discs = key.diameter, seat.key.diameter
    if seat.side == "shaft" and discs[0] and discs[1] and not same_nominal(discs[0], discs[1]):
        return f"the diameters of the key differ: {discs[0]:.4g} mm and {discs[1]:.4g} mm"
    return ""


def _seats_mate(one: KeySeat, other: KeySeat) -> str:
    if one.side == other.side:
        return f"both keyways are of the {one.side}"
    shaft, hub = (one, other) if one.side == "shaft" else (other, one)
    if not same_nominal(shaft.diameter, hub.diameter):
        return f"the diameters differ: {shaft.diameter:.4g} mm and {hub.diameter:.4g} mm"
    if not same_nominal(shaft.width.nominal, hub.width.nominal):
        return (
            f"the widths differ: shaft {shaft.width.nominal:.4g} mm, hub {hub.width.nominal:.4g} mm"
        )
    if not same_nominal(shaft.key.height.nominal, hub.key.height.nominal):
        return (
            f"the keyways are for keys of {shaft.key.height.nominal:.4g} mm and"
            f" {hub.key.height.nominal:.4g} mm in height"
        )
    clearance = KeyJoint(shaft.key, shaft, hub, "").clearance.min
    if clearance < -1e-9:
        return f"the key stands on the hub's floor by up to {-clearance:.3f} mm"
    return ""
