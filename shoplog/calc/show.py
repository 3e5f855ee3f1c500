"""How a value is shown: in its own system and in the other, by the design's digits."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.calc.results import PageValue, Truth
from shoplog.trade.declare import Size
from shoplog.units import (
    Unit,
    convert,
    degrees_minutes_seconds,
    is_half,
    unit,
    write_number,
    write_quantity,
)
from shoplog.values import Contributor, Hardness, Value

__all__ = ["Shown", "from_size", "nominal_text", "other_system", "show", "words"]

# Metric and inch units that measure the same thing; a value of one is also shown in the other.
_PAIRS: tuple[tuple[str, str], ...] = (
    ("mm", "in"),
    ("cm", "in"),
    ("m", "ft"),
    ("um", "thou"),
    ("mm^2", "in^2"),
    ("mm^3", "in^3"),
    ("mm/min", "in/min"),
    ("m/min", "ft/min"),
    ("mm/rev", "in/rev"),
    ("mm/tooth", "in/tooth"),
    ("cm^3/min", "in^3/min"),
    ("degC", "degF"),
    ("kg", "lb"),
    ("N", "lbf"),
    ("N*m", "ft*lbf"),
    ("MPa", "psi"),
    ("kW", "hp"),
)
_INCH = {unit(metric): unit(inch) for metric, inch in _PAIRS}
_METRIC = {
    **{unit(inch): unit(metric) for metric, inch in reversed(_PAIRS)},
    unit("ft"): unit("m"),
    unit("uin"): unit("um"),
    unit("thou/tooth"): unit("mm/tooth"),
    unit("thou/rev"): unit("mm/rev"),
    unit("ft/min"): unit("m/min"),
}
_DEGREE = unit("deg")
_MM = unit("mm")
_THOU = unit("thou")
FEW_THOU = 4
"""From here on a size in thousandths is shown in mm, below in µm: about 0.1 mm."""
MOST_STATED = 6  # decimal places of a nominal that someone wrote: 1/64 in has six


@dataclass(frozen=True, slots=True)
class Shown:
    """A value as text: `metric` and `inch` are the same where only one system applies."""

    metric: str
    inch: str
    own: str
    """In the unit that the page gave it."""
    nominal: str = ""
    """A size as a drawing or a stock list states it: `16 mm H7`, `16 mm +0.02/-0.01`, `5/8 in`.

    Nothing for a decimal number without limits: its own text says it.
    """
    full: str = ""
    """In full, with every digit."""

    @property
    def other(self) -> str:
        """In the system that is not its own; the same text where only one applies."""
        return self.inch if self.own == self.metric else self.metric

    @property
    def both(self) -> str:
        """Both systems in one line, its own first."""
        return self.own if self.other == self.own else f"{self.own} ({self.other})"

    @property
    def stated(self) -> str:
        """As a drawing states it; where none would, in its own unit."""
        return self.nominal or self.own

    @property
    def beside(self) -> tuple[str, ...]:
        """What it is beside that: its own text where that was a fraction, and the other system."""
        texts = dict.fromkeys((self.own, self.metric, self.inch))
        return tuple(text for text in texts if text != self.stated)


def other_system(of: Unit) -> tuple[Unit, Unit]:
    """The unit to show in metric and the unit to show in inch."""
    if of in _INCH:
        return of, _INCH[of]
    if of in _METRIC:
        return _METRIC[of], of
    return of, of


def show(value: PageValue) -> Shown:
    """A value as it is shown; a record by its own sentence."""
    if isinstance(value, Value):
        return _show_value(value)
    if isinstance(value, Size):
        return _show_value(from_size(value, ""))
    text = words(value)
    return Shown(text, text, text, full=text)


def words(value: PageValue) -> str:
    """A value that is no quantity, in words."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Truth):
        return "yes for some of the sizes only" if value is Truth.SOMETIMES else value.value
    if isinstance(value, int | float):
        return write_number(float(value))
    if isinstance(value, str | Hardness):
        return str(value)
    if isinstance(value, tuple):
        shown = [_one_of_many(item) for item in value[:12]]
        return f"[{', '.join(shown)}{', …' if len(value) > 12 else ''}]"
    if isinstance(value, Value | Size):
        return show(value).own
    describe = getattr(value, "describe", None)
    return str(describe()) if describe else type(value).__name__


def _one_of_many(value: PageValue) -> str:
    shown = show(value)
    fraction = isinstance(value, Value) and value.written and not value.has_limits
    return shown.nominal if fraction else shown.own


def from_size(size: Size, name: str) -> Value:
    """A size of the trade as a value with limits, in mm."""
    mm = unit("mm")
    source = Contributor(
        name or nominal_text_of(size), size.lower * mm.factor, size.upper * mm.factor
    )
    return Value(size.nominal, mm, ((source, 1.0),), size.tolerance_class)


def nominal_text_of(size: Size) -> str:
    """A size in mm as a drawing states it."""
    return f"{size.nominal:g} mm {size.tolerance_class}".strip()


def _show_value(value: Value) -> Shown:
    metric, inch = other_system(value.unit)
    if value.unit is _THOU and abs(value.nominal) >= FEW_THOU:
        metric = _MM  # 40 thou is a depth of cut, and 1016 µm says nothing
    full = f"{value.nominal!r} {value.unit.text}".strip()
    if value.has_limits:
        full = f"{value.min!r} to {value.max!r} {value.unit.text}".strip()
    return Shown(
        _in_unit(value, metric),
        _in_unit(value, inch),
        _in_unit(value, value.unit),
        nominal_text(value),
        full,
    )


def _in_unit(value: Value, want: Unit) -> str:
    if not value.has_limits:
        return _number(convert(value.nominal, value.unit, want), want)
    least = convert(value.min, value.unit, want)
    most = convert(value.max, value.unit, want)
    if value.uncertain:
        middle, half = (least + most) / 2, (most - least) / 2
        half_text = _trimmed(half, want) if want is value.unit else write_number(half, want.text)
        return f"{write_number(middle, want.text)} ± {half_text}{_unit_text(want)}"
    if want is _DEGREE:
        return f"{_number(least, want)} to {_number(most, want)}"
    return f"{_limit(least, want)} to {_limit(most, want)}{_unit_text(want)}"


def _limit(number: float, want: Unit) -> str:
    """A limit: one place more where it ends on half a micrometre: none is rounded outward."""
    if want is _MM and is_half(number * 1000):
        return f"{number:.4f}"
    return write_number(number, want.text)


def _number(number: float, want: Unit) -> str:
    """A number with its unit; an angle in degrees and to the second of arc."""
    if want is _DEGREE:
        return f"{write_number(number, 'deg')}° ({degrees_minutes_seconds(number)})"
    return write_quantity(number, want)


def _unit_text(want: Unit) -> str:
    if want is _DEGREE:
        return "°"
    return f" {want.text}" if want.text else ""


def nominal_text(value: Value) -> str:
    """A size as a drawing states it: with its class, ± or deviations; else nothing.

    The deviations are in the value's own unit, the upper first. A fraction stays the fraction that
    its author wrote, with limits and without: `5/8 in` is what stands on the drill.
    """
    if not value.has_limits:
        return f"{value.written} {value.unit.text}" if value.written else ""
    nominal = value.written or _trimmed(value.nominal, value.unit)
    if len(nominal.partition(".")[2]) > MOST_STATED:
        return ""  # it was converted: no drawing states 0.62992126 in H7
    base = f"{nominal} {value.unit.text}".strip()
    if value.tolerance_class:
        return f"{base} {value.tolerance_class}"
    lower, upper = value.lower, value.upper
    if abs(upper + lower) < 1e-9 * max(1.0, abs(upper)):
        return f"{base} ±{_deviation(upper, value.unit).lstrip('+')}"
    return f"{base} {_deviation(upper, value.unit)}/{_deviation(lower, value.unit)}"


def _trimmed(number: float, of: Unit) -> str:
    """A number as it was stated, never rounded to the places that its unit is shown with."""
    if abs(number) >= 1e9:
        return write_number(number, of.text)
    text = f"{number:.9f}".rstrip("0").rstrip(".")
    return text if text.strip("-0.") or number == 0 else f"{number:.3g}"


def _deviation(number: float, of: Unit) -> str:
    text = _trimmed(number, of)
    return text.lstrip("-") if not text.strip("-0.") else text if number < 0 else f"+{text}"
