"""The one registry of units: reads unit texts, converts, multiplies, and writes numbers.

Pint does the algebra, from a short definition file of ours (`data/units.txt`); the results are
memoised, so a page pays for a unit once. Only the closed list below is known to the language, and
only that list reaches pint's parser.

A revolution, a tooth, a radian and a per cent are dimensions of their own in sums and comparisons.
`convert` with `loose=True`, which is what `to` and the arguments of a formula use, lets a
revolution, a tooth and a per cent appear or vanish. So rpm to 1/s has no 2 pi in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import pint

__all__ = [
    "COMPOUND_UNITS",
    "SIMPLE_UNITS",
    "Unit",
    "UnitMismatch",
    "convert",
    "degrees_minutes_seconds",
    "divide",
    "is_unit",
    "multiply",
    "power",
    "unit",
    "unit_texts",
    "write_number",
    "write_quantity",
]

# As a page writes them, and what the definition file calls them.
SIMPLE_UNITS: dict[str, str] = {
    **{
        name: name
        for name in (
            "mm cm m km um thou ft uin s min h rad deg arcmin arcsec rev tooth rpm N kN lbf W kW hp"
            " Pa kPa MPa GPa bar psi kg g lb K degC degF Hz tpi"
        ).split()
    },
    "in": "inch",
    "µm": "um",
    "°": "deg",
    "°C": "degC",
    "°F": "degF",
    "%": "percent",
}

# Powers, products and ratios that a page may write; no others are read.
COMPOUND_UNITS: tuple[str, ...] = (
    *("mm^2", "cm^2", "m^2", "in^2", "ft^2", "mm^3", "cm^3", "m^3", "in^3", "ft^3", "mm^4", "in^4"),
    *("mm/min", "cm/min", "m/min", "in/min", "ft/min", "mm/s", "m/s", "in/s", "ft/s", "mm/h"),
    *("mm/rev", "um/rev", "in/rev", "thou/rev", "mm/tooth", "um/tooth", "in/tooth", "thou/tooth"),
    *("tooth/rev", "rev/min", "rev/s", "tooth/min", "1/min", "1/s", "1/h", "1/rev", "1/mm", "1/in"),
    *("mm^3/min", "cm^3/min", "in^3/min", "mm^3/s", "mm^2/min"),
    *("N*m", "N*mm", "kN*m", "lbf*in", "in*lbf", "ft*lbf", "lbf*ft", "N/mm", "N/m", "lbf/in"),
    *("N/mm^2", "N/m^2", "kN/mm^2", "lbf/in^2", "kg/m^3", "g/cm^3", "lb/in^3"),
    *("um/m", "mm/m", "um/mm", "thou/in", "in/ft", "mm/mm", "in/in", "m/s^2"),
    *("1/K", "um/m/K", "mm/K", "um/K", "deg/min", "deg/s", "rad/s", "rad/min", "deg/rev", "deg/mm"),
)

SPELT_AS_POWERS = {"²": "^2", "³": "^3", "⁴": "^4"}
VANISHING = frozenset({"revolution", "tooth", "percent"})

Dimension = tuple[tuple[str, float], ...]


class UnitMismatch(ValueError):
    """Two units of different dimension, where one was to become the other."""

    def __init__(self, have: Unit, want: Unit) -> None:
        super().__init__(have, want)
        self.have = have
        self.want = want

    def __str__(self) -> str:
        return f"{self.have.kind} ({self.have.text or '1'}) is not {self.want.kind}"


@dataclass(frozen=True, slots=True, eq=False)
class Unit:
    """A unit: how it is written, its factor to the base units, and its dimension. One object each.

    `point` marks a temperature on a scale (degC, degF), which neither multiplies nor mixes with a
    temperature difference (K).
    """

    text: str
    factor: float
    dimension: Dimension
    pint: pint.Unit
    point: bool = False

    @property
    def kind(self) -> str:
        """What it measures, in words a message can use."""
        if self.point:
            return "a temperature"
        name = _KINDS.get(self.dimension)
        return name or f"a quantity in {self.text}"

    @property
    def plain(self) -> bool:
        """Whether it is a plain number."""
        return not self.dimension and self.factor == 1

    def __repr__(self) -> str:
        return f"Unit({self.text!r})"


@cache
def _registry() -> pint.UnitRegistry[float]:
    text = resources.files("shoplog.data").joinpath("units.txt").read_text("utf-8")
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None, cache_folder=None)
    registry.load_definitions(text.splitlines())
    return registry


_interned: dict[object, Unit] = {}


def _intern(units: Any, text: str | None = None) -> Unit:
    """The one Unit for a pint unit; the first text it was written as stays."""
    found = _interned.get(units)
    if found is None:
        registry = _registry()
        if str(units) in ("degC", "degF"):
            dimension: Dimension = (("temperature", 1.0),)
            degree = float(registry.Quantity(1.0, f"delta_{units}").to("K").magnitude)
            found = Unit(text or str(units), degree, dimension, units, point=True)
        else:
            dimension = tuple(
                sorted(
                    (name.strip("[]"), float(str(e))) for name, e in units.dimensionality.items()
                )
            )
            factor = float(registry.Quantity(1.0, units).to_root_units().magnitude)
            found = Unit(_write_unit(units) if text is None else text, factor, dimension, units)
        _interned[units] = found
    return found


def _write_unit(units: pint.Unit) -> str:
    """A unit that came from algebra, as a page would write it: `N*mm/min`."""
    parts = sorted((name, float(str(e))) for name, e in units._units.items())
    shown = {"inch": "in", "um": "µm", "percent": "%"}

    def power_of(name: str, exponent: float) -> str:
        name = shown.get(name, name)
        return name if exponent == 1 else f"{name}^{exponent:g}"

    over = "*".join(power_of(n, e) for n, e in parts if e > 0)
    under = "".join(f"/{power_of(n, -e)}" for n, e in parts if e < 0)
    text = (over or "1") + under if over or under else ""
    return _ONE_SPELLING.get(text, text)


# One unit, one text, whichever page or sum came first.
_ONE_SPELLING = {
    **{"um": "µm", "°": "deg", "°C": "degC", "°F": "degF"},
    **{"lbf*in": "in*lbf", "lbf*ft": "ft*lbf", "µm/K/m": "µm/m/K"},
}


@cache
def unit(text: str) -> Unit:
    """The unit that a text of the closed list names; `""` is a plain number.

    >>> unit("mm/min").kind
    'a feed or speed'

    Raises
    ------
    KeyError
        The text is not on the list.
    """
    if text == "":
        return _intern(_registry().dimensionless, "")
    plain = text
    for sign, spelt in SPELT_AS_POWERS.items():
        plain = plain.replace(sign, spelt)
    if plain not in SIMPLE_UNITS and plain not in _COMPOUND:
        raise KeyError(text)
    words: list[str] = []
    over = 1
    for word in _split(plain):
        if word in "*/":
            over = -1 if word == "/" else 1
        elif word != "1":
            name, _, exponent = word.partition("^")
            words.append(f"{SIMPLE_UNITS[name]}**{over * int(exponent or 1)}")
    shown = plain if plain in SIMPLE_UNITS or plain in COMPOUND_UNITS else None
    if shown is not None:
        shown = _ONE_SPELLING.get(shown, shown.replace("um/", "µm/"))
    return _intern(_registry().parse_units("*".join(words)), shown)


def _split(text: str) -> Iterator[str]:
    word = ""
    for character in text:
        if character in "*/":
            yield word
            yield character
            word = ""
        else:
            word += character
    yield word


_COMPOUND = frozenset(COMPOUND_UNITS) | {name.replace("um", "µm") for name in COMPOUND_UNITS}


def is_unit(text: str) -> bool:
    """Whether a text names a unit of the closed list."""
    for sign, spelt in SPELT_AS_POWERS.items():
        text = text.replace(sign, spelt)
    return text in SIMPLE_UNITS or text in _COMPOUND


def unit_texts() -> Iterable[str]:
    """Every text that names a unit, compounds first, longest first."""
    spelt = {
        text.replace(power, sign)
        for text in _COMPOUND
        for sign, power in SPELT_AS_POWERS.items()
        if power in text
    }
    return sorted({*SIMPLE_UNITS, *_COMPOUND, *spelt}, key=lambda text: (-len(text), text))


@cache
def multiply(one: Unit, other: Unit) -> tuple[Unit, float]:
    """The unit of a product, and the factor that reducing it (mm with in, say) asks for."""
    return _combine(one.pint * other.pint)


@cache
def divide(one: Unit, other: Unit) -> tuple[Unit, float]:
    """The unit of a ratio, and the factor that reducing it asks for."""
    return _combine(one.pint / other.pint)


@cache
def power(one: Unit, exponent: float) -> tuple[Unit, float]:
    """The unit of a power, and the factor that reducing it asks for."""
    return _combine(one.pint**exponent)


# Ratios with a name of their own; in a product they are written out, so mm/rev * rpm is mm/min.
_WRITTEN_OUT = {"rpm": "rev/min", "tpi": "1/inch", "Hz": "1/s"}
_ALONE = tuple({name: 1} for name in _WRITTEN_OUT)


def _combine(units: Any) -> tuple[Unit, float]:  # pint's own types do not meet
    if dict(units._units.items()) not in _ALONE:
        for name, ratio in _WRITTEN_OUT.items():
            exponent = units._units.get(name, 0)
            if exponent:
                named, out = _registry().parse_units(name), _registry().parse_units(ratio)
                units = units / named**exponent * out**exponent
    reduced = _registry().Quantity(1.0, units).to_reduced_units()
    made = _intern(reduced.units)
    factor = float(reduced.magnitude)
    if not made.dimension and made.factor != 1:  # mm/m and the like are plain numbers
        return unit(""), factor * made.factor
    return made, factor


def convert(number: float, have: Unit, want: Unit, *, loose: bool = False) -> float:
    """A number of one unit in another.

    `loose` lets a revolution, a tooth and a per cent appear or vanish. A temperature becomes a
    temperature only, never a difference.

    >>> round(convert(-40, unit("degF"), unit("degC")), 9)
    -40.0
    >>> convert(60, unit("rpm"), unit("1/s"), loose=True)
    1.0

    Raises
    ------
    UnitMismatch
        The dimensions differ.
    """
    if have is want:
        return number
    if have.point or want.point:
        if not (have.point and want.point):
            raise UnitMismatch(have, want)
        registry = _registry()
        return float(registry.Quantity(number, have.pint).to(want.pint).magnitude)
    if not alike(have, want, loose=loose):
        raise UnitMismatch(have, want)
    return number * _ratio(have, want)


@cache
def _ratio(have: Unit, want: Unit) -> float:
    hundredths = dict(have.dimension).get("percent", 0) - dict(want.dimension).get("percent", 0)
    return float(have.factor / want.factor * 0.01**hundredths)


@cache
def alike(one: Unit, other: Unit, *, loose: bool = False) -> bool:
    """Whether two units measure the same thing."""
    if one.point != other.point:
        return False
    if one.dimension == other.dimension:
        return True
    return loose and _bare(one.dimension) == _bare(other.dimension)


def _bare(dimension: Dimension) -> Dimension:
    return tuple(part for part in dimension if part[0] not in VANISHING)


# How many decimal places a unit is shown with, by the habits of the workshop: mm to the micrometre,
# inch to the tenth of a thou. Never by counting the digits that a page gave.
PLACES: dict[str, int] = {
    **{"mm": 3, "in": 4, "cm": 4, "m": 4, "ft": 4, "µm": 0, "uin": 0, "thou": 1},
    **{"rpm": 0, "rev/min": 0, "1/min": 0, "deg": 4, "arcmin": 2, "arcsec": 0, "rad": 5},
    **{"mm/min": 0, "in/min": 1, "m/min": 1, "ft/min": 0, "mm/rev": 3, "in/rev": 4},
    **{"mm/tooth": 3, "in/tooth": 4, "thou/tooth": 1, "thou/rev": 1, "µm/tooth": 0, "µm/rev": 0},
    **{"cm^3/min": 2, "in^3/min": 3, "%": 1, "degC": 0, "degF": 0, "K": 1, "N": 0, "tpi": 2},
    **{"kN": 2, "lbf": 0, "N*m": 2, "N*mm": 0, "in*lbf": 1, "ft*lbf": 2, "MPa": 1, "GPa": 1},
    **{"psi": 0, "bar": 2, "W": 0, "kW": 2, "hp": 2, "kg": 3, "g": 1, "lb": 3},
    **{"min": 2, "s": 1, "tooth": 0, "tooth/rev": 0, "rev": 2, "mm^3/min": 0},
}


def write_number(number: float, unit_text: str = "") -> str:
    """A number with the places that its unit is shown with; a plain one with six digits at most.

    >>> write_number(16.0, "mm"), write_number(954.93, "rpm"), write_number(0.5), write_number(-0.0)
    ('16.000', '955', '0.5', '0')
    """
    if number == 0:
        number = 0.0  # never "-0"
    places = PLACES.get(unit_text)
    if places is None:
        text = f"{number:.6g}"
        return text if "e" not in text else f"{number:.4g}"
    small = 0.5 * 10**-places
    if number and abs(number) <= small:  # a size that would be shown as nothing
        places = min(12, places + 1 - math.floor(math.log10(abs(number) / small)))
        text = f"{number:.{places}f}".rstrip("0")
        return text if float(text) else f"{number:.3g}"
    if unit_text == "µm" and is_half(number):
        places = 1  # ISO 286 halves js: 4.5 µm is not 4
    elif unit_text == "µm" and abs(number) < 10:  # a roughness: Ra 1.61 µm
        return f"{number:.2f}".rstrip("0").rstrip(".")
    if abs(number) >= 1e9:
        return f"{number:.6g}"
    text = f"{number:.{places}f}"
    return text.lstrip("-") if float(text) == 0 else text


def is_half(number: float) -> bool:
    """Whether a number ends on a half, as a halved tolerance does: 4.5."""
    return abs(abs(number) % 1 - 0.5) < 1e-6


def write_quantity(number: float, unit: Unit) -> str:
    """A number and its unit, as the log shows them.

    >>> write_quantity(30.0, unit("m/min"))
    '30.0 m/min'
    """
    return f"{write_number(number, unit.text)}{_joined(unit.text)}"


def _joined(text: str) -> str:
    return "" if not text else f" {text}"


def degrees_minutes_seconds(degrees: float) -> str:
    """An angle to the second of arc.

    >>> degrees_minutes_seconds(5.7105931)
    '5°42\\'38"'
    """
    seconds = round(abs(degrees) * 3600)
    sign = "-" if degrees < 0 and seconds else ""
    return f"{sign}{seconds // 3600}°{seconds // 60 % 60:02d}'{seconds % 60:02d}\""


def _kinds() -> dict[Dimension, str]:
    named = {
        "": "a plain number",
        "mm": "a length",
        "s": "a time",
        "kg": "a mass",
        "K": "a temperature difference",
        "deg": "an angle",
        "rev": "a number of revolutions",
        "tooth": "a number of teeth",
        "rpm": "a spindle speed",
        "1/min": "a rate",
        "mm/min": "a feed or speed",
        "mm/rev": "a feed per revolution",
        "mm/tooth": "a feed per tooth",
        "tooth/rev": "teeth per revolution",
        "N": "a force",
        "N*m": "a torque or energy",
        "W": "a power",
        "MPa": "a pressure or stress",
        "%": "a percentage",
        "mm^2": "an area",
        "mm^3": "a volume",
        "cm^3/min": "a removal rate",
        "1/mm": "a count per length",
        "kg/m^3": "a density",
    }
    return {unit(text).dimension: kind for text, kind in named.items()}


_KINDS: dict[Dimension, str] = {}
_KINDS.update(_kinds())
