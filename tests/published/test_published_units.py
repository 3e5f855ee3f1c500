"""Units against what is published: NIST SP 811 (2008), and pint's own default definitions.

NIST Special Publication 811, 2008 edition, Appendix B.8, gives each factor to seven digits, exact
ones in bold. The factors marked READ were read in a reprint of that table (the unit library
of the open language SysML v2); those marked MEMORY are from memory. Pint's default definitions
carry the exact values and are a second source for all of them.
"""

from __future__ import annotations

import pint
import pytest

from shoplog.units import SIMPLE_UNITS, convert, unit

READ, MEMORY = "read", "from memory"

# A unit, the SI unit that the table gives it in, the factor, and how the value is known.
NIST_SP_811_B8 = [
    ("in", "m", 2.54e-2, READ),
    ("ft", "m", 3.048e-1, READ),
    ("thou", "m", 2.54e-5, READ),  # mil (0.001 in)
    ("uin", "m", 2.54e-8, READ),  # microinch
    ("lb", "kg", 4.535924e-1, READ),  # pound (avoirdupois)
    ("lbf", "N", 4.448222e0, READ),
    ("hp", "W", 7.456999e2, READ),  # horsepower (550 ft lbf/s)
    ("ft*lbf", "N*m", 1.355818e0, READ),
    ("in*lbf", "N*m", 1.129848e-1, MEMORY),
    ("psi", "Pa", 6.894757e3, MEMORY),
    ("lbf/in^2", "Pa", 6.894757e3, MEMORY),
    ("lbf/in", "N/m", 1.751268e2, MEMORY),
    ("lb/in^3", "kg/m^3", 2.767990e4, MEMORY),
    ("in^2", "m^2", 6.4516e-4, MEMORY),
    ("ft^2", "m^2", 9.290304e-2, MEMORY),
    ("in^3", "m^3", 1.638706e-5, MEMORY),
    ("in/s", "m/s", 2.54e-2, MEMORY),
    ("ft/min", "m/s", 5.08e-3, MEMORY),
    ("ft/s", "m/s", 3.048e-1, MEMORY),
    ("bar", "Pa", 1e5, MEMORY),
    ("deg", "rad", 1.745329e-2, MEMORY),
    ("arcmin", "rad", 2.908882e-4, MEMORY),
    ("arcsec", "rad", 4.848137e-6, MEMORY),
    ("h", "s", 3.6e3, MEMORY),
    ("min", "s", 60.0, MEMORY),
]


@pytest.mark.parametrize(("text", "si", "factor", "known"), NIST_SP_811_B8)
def test_a_unit_has_the_factor_of_nist_sp_811(
    text: str, si: str, factor: float, known: str
) -> None:
    assert known in (READ, MEMORY)
    # Seven digits are printed, so half a unit of the seventh is what the table can tell.
    assert convert(1.0, unit(text), unit(si)) == pytest.approx(factor, rel=3e-7)


# BIPM, The International System of Units, 9th edition 2019, section 2.3.1 and Table 8: prefixes,
# newton, watt, pascal, and t/degC = T/K - 273.15 (from memory).
SI = [
    ("km", "m", 1e3),
    ("cm", "m", 1e-2),
    ("mm", "m", 1e-3),
    ("um", "m", 1e-6),
    ("g", "kg", 1e-3),
    ("kN", "N", 1e3),
    ("kW", "W", 1e3),
    ("kPa", "Pa", 1e3),
    ("MPa", "Pa", 1e6),
    ("GPa", "Pa", 1e9),
    ("N/mm^2", "MPa", 1.0),
    ("Hz", "1/s", 1.0),
    ("h", "min", 60.0),
]


@pytest.mark.parametrize(("text", "si", "factor"), SI)
def test_a_unit_is_that_multiple_in_the_si(text: str, si: str, factor: float) -> None:
    assert convert(1.0, unit(text), unit(si)) == pytest.approx(factor, rel=1e-15)


# NIST SP 811, B.8, degree Fahrenheit: t/degC = (t/degF - 32)/1.8, exactly (from memory).
@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [(32, 0), (212, 100), (-40, -40), (68, 20), (98.6, 37), (-459.67, -273.15)],
)
def test_temperatures_convert_by_the_definition_of_the_degree(
    fahrenheit: float, celsius: float
) -> None:
    assert convert(fahrenheit, unit("degF"), unit("degC")) == pytest.approx(celsius, abs=1e-9)
    assert convert(celsius, unit("degC"), unit("degF")) == pytest.approx(fahrenheit, abs=1e-9)


# What pint's default registry calls what `data/units.txt` defines. Revolution, tooth and per cent
# are dimensions of their own there, and a thread count is no unit of pint's.
DEFAULT_NAMES = {
    **{name: name for name in "m cm mm km um thou ft s h rad kg g lb K N kN lbf W kW".split()},
    **{name: name for name in "Pa kPa MPa GPa bar psi Hz degC degF arcmin arcsec".split()},
    **{"in": "inch", "uin": "microinch", "min": "minute", "deg": "degree", "hp": "horsepower"},
    **{"°": "degree", "µm": "um", "°C": "degC", "°F": "degF"},
}
OUR_OWN = {"rev", "tooth", "rpm", "tpi", "%"}


@pytest.fixture(scope="module")
def default() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


def test_every_unit_is_compared_or_is_our_own() -> None:
    assert set(SIMPLE_UNITS) == set(DEFAULT_NAMES) | OUR_OWN


@pytest.mark.parametrize("text", sorted(DEFAULT_NAMES))
def test_a_unit_is_what_the_default_definitions_say(
    text: str, default: pint.UnitRegistry[float]
) -> None:
    ours = unit(text)
    theirs = default.Unit(DEFAULT_NAMES[text])
    if ours.point:
        for number in (-40.0, 0.0, 20.0, 451.0):
            wanted = default.Quantity(number, theirs).to("degC").magnitude
            assert convert(number, ours, unit("degC")) == pytest.approx(wanted, abs=1e-9)
        return
    factor = default.Quantity(1.0, theirs).to_base_units().magnitude
    if ours.dimension and ours.dimension[0][0] == "mass":
        factor = default.Quantity(1.0, theirs).to("kg").magnitude
    elif "gram" in str(default.Quantity(1.0, theirs).to_base_units().units):
        si = {"a force": "N", "a power": "W", "a pressure or stress": "Pa"}[ours.kind]
        factor = default.Quantity(1.0, theirs).to(si).magnitude
    assert ours.factor == pytest.approx(factor, rel=1e-12)
