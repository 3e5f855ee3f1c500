"""Quantities that may carry limits, and hardnesses: the values that a page works with.

A value with limits is an affine form: a nominal and, for each named contributor, a coefficient of
that contributor's deviation. Sums and differences carry the contributors on, so the worst case is
exact and `x - x` is 0 ± 0. The root-sum-square is an estimate and has a name of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from shoplog.problems import Mistake, message
from shoplog.units import Unit, UnitMismatch, alike, convert, divide, multiply, power, unit

__all__ = ["Contributor", "Hardness", "Value", "plain"]

DIFFER = message(
    "units-differ",
    "{one} and {other} do not go together under {sign}",
    example="a = 5 mm + 3 kg",
)
TEMPERATURES = message(
    "temperature",
    "{what}",
    hint="degC and degF are temperatures, K is a difference between two of them",
    example="a = 20 degC + 5 degC",
)
PERCENT = message(
    "percent",
    "a percentage stands under * and / and with another percentage, not under {sign} with {other}",
    hint="write 1.05 * x, or 5 % * x",
    example="a = 100 mm + 5 %",
)
ZERO = message("divided-by-zero", "a division by zero", example="a = 1/0")
REACHES_ZERO = message(
    "divided-by-range",
    "a division by a size whose limits reach 0",
    example="a = 1 mm ±1\nb = 1 / a",
)
NOT_REAL = message(
    "not-a-number", "{what} is not a real, finite number", example="a = (0 - 4)**0.5"
)
EXPONENT = message(
    "exponent",
    "an exponent is a plain number between -{most} and {most}; this one is {found}",
    example="a = 9**9**9**9",
)
MAGNITUDE = message(
    "magnitude",
    "the number grew beyond {most:.0e}",
    hint="is a unit or an exponent wrong?",
    example="a = 10**100 * 10**100 * 10**100",
)

ABSOLUTE_ZERO = message(
    "absolute-zero",
    "{found} is below absolute zero, {least}",
    hint="degC and degF are temperatures, K is a difference between two of them",
    example="a = -300 degC",
)

MOST_EXPONENT = 100
MOST_MAGNITUDE = 1e250
SAME_RELATIVE = 1e-9
SAME_LENGTH = 1e-12  # of a metre: 1e-9 mm


@dataclass(frozen=True, slots=True, eq=False)
class Contributor:
    """A named source of deviation, in base units. Each is itself and equals no other."""

    name: str
    lower: float
    upper: float


@dataclass(frozen=True, slots=True)
class Value:
    """A number with its unit, and limits where it carries them.

    `nominal` is in `unit`; a part's coefficient turns the contributor's deviation, which is in base
    units, into this value's deviation in base units. `tolerance_class` stays with a literal such as
    `16 mm H7` and is lost by arithmetic; so is `written`, the number as its author wrote it where
    that is a fraction: `5/8`, `1-1/4`. `uncertain` marks a reading: its limits are the instrument's
    uncertainty.
    """

    nominal: float
    unit: Unit
    parts: tuple[tuple[Contributor, float], ...] = ()
    tolerance_class: str = ""
    uncertain: bool = False
    written: str = field(default="", compare=False)

    @property
    def has_limits(self) -> bool:
        """Whether it carries limits, be they zero."""
        return bool(self.parts)

    @property
    def lower(self) -> float:
        """Lower deviation, in its unit: worst case."""
        return self._worst(min)

    @property
    def upper(self) -> float:
        """Upper deviation, in its unit: worst case."""
        return self._worst(max)

    def _worst(self, pick: Callable[[float, float], float]) -> float:
        total = math.fsum(pick(k * source.lower, k * source.upper) for source, k in self.parts)
        return total / self.unit.factor

    @property
    def min(self) -> float:
        """Least value, in its unit."""
        return self.nominal + self.lower

    @property
    def max(self) -> float:
        """Greatest value, in its unit."""
        return self.nominal + self.upper

    def rss(self) -> Value:
        """The root-sum-square estimate about the middle of the limits, as a value with ± limits."""
        half = math.sqrt(
            math.fsum((k * (source.upper - source.lower) / 2) ** 2 for source, k in self.parts)
        )
        middle = (self.min + self.max) / 2
        return replace(
            self,
            nominal=middle,
            parts=((Contributor("root-sum-square estimate", -half, half), 1.0),),
            tolerance_class="",
            written="",
        )

    def only(self, nominal: float) -> Value:
        """A number in this value's unit, without limits."""
        return Value(nominal, self.unit)

    def to(self, want: Unit, *, loose: bool = False) -> Value:
        """The same value in another unit."""
        factor = 1.0
        if self.parts and not self.unit.point and not want.point:
            # A contributor's deviation is in base units, which differ where a percent vanishes.
            factor = convert(1.0, self.unit, want, loose=loose) * want.factor / self.unit.factor
        nominal = convert(self.nominal, self.unit, want, loose=loose)
        parts = self.parts if factor == 1 else scaled(self.parts, factor)
        written = self.written if want is self.unit else ""
        return replace(self, nominal=nominal, unit=want, parts=parts, written=written)

    def base(self) -> float:
        """The nominal in base units."""
        return self.nominal * self.unit.factor

    def __neg__(self) -> Value:
        if self.unit.point:
            raise Mistake(
                TEMPERATURES, what="a temperature has no negative: -(20 degC) means nothing"
            )
        return Value(-self.nominal, self.unit, scaled(self.parts, -1.0))

    def __add__(self, other: Value) -> Value:
        if self.unit.point or other.unit.point:
            return _add_temperatures(self, other)
        _same_kind(self, other, "+")
        number = convert(other.nominal, other.unit, self.unit)
        return _checked(self.nominal + number, self.unit, _joined(self.parts, other.parts, 1.0))

    def __sub__(self, other: Value) -> Value:
        if self.unit.point or other.unit.point:
            return _subtract_temperatures(self, other)
        _same_kind(self, other, "-")
        number = convert(other.nominal, other.unit, self.unit)
        return _checked(self.nominal - number, self.unit, _joined(self.parts, other.parts, -1.0))

    def __mul__(self, other: Value) -> Value:
        one, two = _factor(self), _factor(other)
        made, scale = multiply(one.unit, two.unit)
        parts: tuple[tuple[Contributor, float], ...] = ()
        if one.parts and not two.parts:
            parts = scaled(one.parts, two.base() * _lost(one.unit, two.unit, made, scale))
        elif two.parts and not one.parts:
            parts = scaled(two.parts, one.base() * _lost(one.unit, two.unit, made, scale))
        elif one.parts and two.parts:
            ends = [a * b * scale for a in (one.min, one.max) for b in (two.min, two.max)]
            return _between(one.nominal * two.nominal * scale, made, ends, "product")
        return _checked(one.nominal * two.nominal * scale, made, parts)

    def __truediv__(self, other: Value) -> Value:
        one, two = _factor(self), _factor(other)
        if two.nominal == 0:
            raise Mistake(ZERO)
        made, scale = divide(one.unit, two.unit)
        parts: tuple[tuple[Contributor, float], ...] = ()
        if one.parts and not two.parts:
            parts = scaled(one.parts, 1 / two.base())
        elif two.parts:
            if two.min <= 0 <= two.max:
                raise Mistake(REACHES_ZERO)
            ends = [a / b * scale for a in (one.min, one.max) for b in (two.min, two.max)]
            return _between(one.nominal / two.nominal * scale, made, ends, "ratio")
        return _checked(one.nominal / two.nominal * scale, made, parts)

    def __pow__(self, other: Value) -> Value:
        one, exponent = _factor(self), _factor(other)
        if not exponent.unit.plain or abs(exponent.nominal) > MOST_EXPONENT:
            found = f"{exponent.nominal:.4g}" if exponent.unit.plain else exponent.unit.kind
            raise Mistake(EXPONENT, most=MOST_EXPONENT, found=found)
        if one.nominal == 0 and exponent.nominal < 0:
            raise Mistake(ZERO)
        if one.nominal < 0 and exponent.nominal != int(exponent.nominal):
            raise Mistake(NOT_REAL, what=f"{one.nominal:g} to the power {exponent.nominal:g}")
        made, scale = power(one.unit, exponent.nominal)
        try:
            number = one.nominal**exponent.nominal
            if one.parts and exponent.nominal:
                ends = [end * scale for end in _powers(one, exponent.nominal)]
                return _between(number * scale, made, ends, "power")
        except OverflowError:
            raise Mistake(MAGNITUDE, most=MOST_MAGNITUDE) from None
        return _checked(number * scale, made, ())

    def compared(self, other: Value, sign: str) -> tuple[Value, Value]:
        """Both sides of a comparison in one unit; only 0 may stand without a unit."""
        if other.unit.plain and other.nominal == 0 and not other.parts and not self.unit.point:
            return self, Value(0.0, self.unit)
        if self.unit.plain and self.nominal == 0 and not self.parts and not other.unit.point:
            return Value(0.0, other.unit), other
        if self.unit.point != other.unit.point:
            raise Mistake(
                TEMPERATURES, what="a temperature and a temperature difference do not compare"
            )
        _same_kind(self, other, sign)
        return self, other.to(self.unit)


def difference_of(of: Unit) -> Unit:
    """The unit that a difference of two values of a unit is in: K for a temperature."""
    return unit("K") if of.point else of


def limited(nominal: Value, source: Contributor) -> Value:
    """A value with the limits of one contributor.

    Raises
    ------
    Mistake
        The limits are beyond what this log reckons with.
    """
    return _checked(nominal.nominal, nominal.unit, ((source, 1.0),))


def _between(nominal: float, made: Unit, ends: list[float], name: str) -> Value:
    """A value known by its ends, every corner of what it came from: one contributor stands for it.

    Where the same size stands on both sides this is wider than need be, and never narrower.
    """
    lower, upper = ((end - nominal) * made.factor for end in (min(ends), max(ends)))
    return _checked(nominal, made, ((Contributor(name, lower, upper), 1.0),))


def _powers(base: Value, exponent: float) -> list[float]:
    """The powers of the ends of a range, and 0 where an even power turns there."""
    whole = exponent == int(exponent)
    if exponent < 0 and base.min <= 0 <= base.max:
        raise Mistake(REACHES_ZERO)
    if base.min < 0 and not whole:
        raise Mistake(NOT_REAL, what=f"{base.min:g} to the power {exponent:g}")
    turns = [0.0] if base.min < 0 < base.max and exponent % 2 == 0 else []
    return [base.min**exponent, base.max**exponent, *turns]


def plain(number: float) -> Value:
    """A number without unit."""
    return Value(float(number), unit(""))


def same(one: float, other: float, of: Unit) -> bool:
    """Whether two numbers of a unit are equal, as `==` means it: 1e-9 relative, 1e-9 mm."""
    absolute = SAME_LENGTH / of.factor if of.dimension == (("length", 1.0),) else 0.0
    return math.isclose(one, other, rel_tol=SAME_RELATIVE, abs_tol=absolute)


def _checked(nominal: float, made: Unit, parts: tuple[tuple[Contributor, float], ...]) -> Value:
    if not abs(nominal) <= MOST_MAGNITUDE or any(
        not max(abs(k * source.lower), abs(k * source.upper)) <= MOST_MAGNITUDE
        for source, k in parts
    ):
        raise Mistake(MAGNITUDE, most=MOST_MAGNITUDE)
    return Value(nominal, made, parts)


_ABSOLUTE_ZERO = {"degC": -273.15, "degF": -459.67}


def real_temperature(value: Value) -> Value:
    """A temperature on a scale, refused where it is below absolute zero; any other value as is."""
    if value.unit.point:
        least = _ABSOLUTE_ZERO[value.unit.text]
        if value.nominal < least - 1e-9:
            scale = value.unit.text
            raise Mistake(
                ABSOLUTE_ZERO, found=f"{value.nominal:g} {scale}", least=f"{least:g} {scale}"
            )
    return value


def _factor(value: Value) -> Value:
    """A value as an operand of `*` and `/`: a percentage is a hundredth there."""
    if value.unit.point:
        raise Mistake(TEMPERATURES, what="a temperature does not multiply or divide")
    if value.unit.dimension == (("percent", 1.0),):
        return value.to(unit(""), loose=True)
    return value


def _lost(one: Unit, two: Unit, made: Unit, scale: float) -> float:
    """What base units lose where reducing turned mm/m into a plain number (always 1 otherwise)."""
    return made.factor * scale / (one.factor * two.factor)


def _same_kind(one: Value, other: Value, sign: str) -> None:
    if alike(one.unit, other.unit):
        return
    percent = (("percent", 1.0),)
    for this, that in ((one, other), (other, one)):
        if this.unit.dimension == percent:
            raise Mistake(PERCENT, sign=sign, other=that.unit.kind)
    hint = _vanishing_hint(one.unit, other.unit)
    raise Mistake(DIFFER, hint=hint, one=one.unit.kind, other=other.unit.kind, sign=sign)


def _vanishing_hint(one: Unit, other: Unit) -> str:
    if alike(one, other, loose=True):
        return f"`to {one.text or other.text}` lets a revolution or a tooth appear or vanish"
    return ""


def _add_temperatures(one: Value, other: Value) -> Value:
    if one.unit.point and other.unit.point:
        raise Mistake(TEMPERATURES, what="two temperatures do not add")
    point, change = (one, other) if one.unit.point else (other, one)
    return _moved(point, change, 1.0, "+")


def _subtract_temperatures(one: Value, other: Value) -> Value:
    if one.unit.point and other.unit.point:
        against = convert(other.nominal, other.unit, one.unit)
        # Two scales meet in floats: what differs by less than a float can tell is no difference.
        alike_here = math.isclose(one.nominal, against, rel_tol=1e-12, abs_tol=1e-12)
        kelvin = 0.0 if alike_here else (one.nominal - against) * one.unit.factor
        return _checked(kelvin, unit("K"), _joined(one.parts, other.parts, -1.0))
    if other.unit.point:
        raise Mistake(TEMPERATURES, what=f"a temperature is not taken from {one.unit.kind}")
    return _moved(one, other, -1.0, "-")


def _moved(point: Value, change: Value, way: float, sign: str) -> Value:
    """A temperature moved by a difference; the limits of both are carried on."""
    nominal = point.nominal + way * _degrees(change, point.unit, sign)
    return real_temperature(_checked(nominal, point.unit, _joined(point.parts, change.parts, way)))


def _degrees(change: Value, scale: Unit, sign: str) -> float:
    try:
        return convert(change.nominal, change.unit, unit("K")) / scale.factor
    except UnitMismatch:
        raise Mistake(
            DIFFER, one="a temperature", other=change.unit.kind, sign=sign, hint=""
        ) from None


def scaled(
    parts: tuple[tuple[Contributor, float], ...], factor: float
) -> tuple[tuple[Contributor, float], ...]:
    """Contributions times a factor."""
    return tuple((source, k * factor) for source, k in parts)


def _joined(
    one: tuple[tuple[Contributor, float], ...],
    other: tuple[tuple[Contributor, float], ...],
    sign: float,
) -> tuple[tuple[Contributor, float], ...]:
    if not other:
        return one
    together = dict(one)
    for source, k in other:
        together[source] = together.get(source, 0.0) + sign * k
    return tuple(together.items())


@dataclass(frozen=True, slots=True)
class Hardness:
    """A hardness on its scale, `52 HRC`; scales do not mix and nothing is added to one."""

    number: float
    scale: str

    def __str__(self) -> str:
        return f"{self.number:g} {self.scale}"


HARDNESS_SCALES = ("HRC", "HRB", "HRA", "HV", "HB", "HBW")
"""Scales that a literal may name (ISO 6506-1, ISO 6507-1, ISO 6508-1)."""
