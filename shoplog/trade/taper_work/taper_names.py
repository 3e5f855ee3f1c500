"""Tapers by the names that standards and the trade give them: read from text, found in a table."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import radians, tan

from shoplog.tables import table
from shoplog.trade.declare import TradeError

__all__ = ["HOW_TO_WRITE", "NamedTaper", "inch_pin", "metric_pin", "read_taper"]

HOW_TO_WRITE = (
    'write "Morse 2", "7:24 ISO 40" or a ratio such as "1:20"; there are also Metric, Jarno,'
    " Brown & Sharpe, Jacobs and collet tapers, B7 to B45 and taper pins"
)
MM_PER_INCH = 25.4
METRIC_PIN, INCH_PIN = 1 / 50, 1 / 48
LONGEST_TEXT = 60

_NUMBER = r"[0-9]{1,9}(?:\.[0-9]{1,9})?"
_NO = r" ?(?:no\.? ?|# ?)?"
_RATIO = re.compile(rf"({_NUMBER}) ?(?::|/|in) ?({_NUMBER})")
_METRIC_PIN = re.compile(
    rf"(?:taper )?pin (?:iso 2339[ -]?(?:[ab][ -]?)?)?({_NUMBER}) ?[x×] ?({_NUMBER})(?: ?mm)?"
)
_INCH_PIN = re.compile(
    r"(?:taper )?pin (?:no\.? ?|# ?)([0-9]{1,2}(?:/0)?)|(?:taper )?pin ([0-9]/0)"
)


@dataclass(frozen=True, slots=True)
class NamedTaper:
    """A taper as its name gives it: change of diameter over length, and sizes in mm if any."""

    designation: str
    ratio: float
    large_diameter: float | None = None
    length: float | None = None


@dataclass(frozen=True, slots=True)
class _Family:
    """Tapers that one table holds: how they are written, and how they are named in full."""

    text: re.Pattern[str]
    table: str
    key: str
    form: str


_FAMILIES = (
    _Family(
        re.compile(rf"(?:morse(?: taper)?|mt|mk){_NO}([0-9]{{1,3}})|([0-9]{{1,3}}) ?mt"),
        "tapers_morse",
        "number",
        "Morse {}",
    ),
    _Family(
        re.compile(r"(?:(?:7[:/]24 ?)?iso ?|7[:/]24 (?:no\.? ?)?)([0-9]{1,3})"),
        "tapers_7_24",
        "size",
        "7:24 ISO {}",
    ),
    _Family(
        re.compile(r"(?:(?:taper )?iso 239 ?[-–] ?|morse )?b ?([0-9]{1,2})"),
        "tapers_morse_short",
        "number",
        "B{}",
    ),
    _Family(
        re.compile(rf"jarno(?: taper)?{_NO}([0-9]{{1,3}})"), "tapers_jarno", "number", "Jarno {}"
    ),
    _Family(
        re.compile(
            rf"(?:brown ?(?:&|and) ?sharpe|b ?& ?s)(?: taper)?{_NO}([0-9]{{1,3}})",
        ),
        "tapers_brown_sharpe",
        "number",
        "Brown & Sharpe {}",
    ),
    _Family(
        re.compile(
            rf"(?:jacobs(?: taper)?|jt|(?:taper )?iso 239 ?[-–] ?j){_NO}"
            r"([0-9]{1,3}(?: ?(?:short|s))?)"
        ),
        "tapers_jacobs",
        "number",
        "Jacobs {}",
    ),
    _Family(
        re.compile(rf"(?:metric(?: taper)?|me){_NO}([0-9]{{1,3}})"),
        "tapers_metric",
        "number",
        "Metric {}",
    ),
    _Family(
        re.compile(r"(?:iso 15488(?: collet)?|collet(?: iso 15488)?)[ -]{1,3}([0-9]{1,3})"),
        "tapers_collet",
        "size",
        "ISO 15488 collet {}",
    ),
)


def read_taper(text: str) -> NamedTaper:
    """The taper that a designation names.

    Raises
    ------
    TradeError
        The text names no taper that is known, or a number that its table does not have.
    """
    plain = " ".join(text.split()).casefold() if len(text) <= LONGEST_TEXT else ""
    for family in _FAMILIES:
        if found := family.text.fullmatch(plain):
            return _in_table(family, next(filter(None, found.groups())))
    if found := _METRIC_PIN.fullmatch(plain):
        return metric_pin(float(found[1]), float(found[2]))
    if found := _INCH_PIN.fullmatch(plain):
        return inch_pin(found[1] or found[2])
    if found := _RATIO.fullmatch(plain):
        return NamedTaper(f"{found[1]}:{found[2]}", _ratio_of(found[1], found[2]))
    raise TradeError(
        f"{text[:LONGEST_TEXT]!r} is not a taper that is known",
        hint=HOW_TO_WRITE,
        argument="designation",
    )


def _in_table(family: _Family, size: str) -> NamedTaper:
    rows = {row[family.key]: row for row in table(family.table).rows}
    number = re.match("[0-9]+", size)
    plain = str(int(number[0])) if number else size
    key = f"{plain} short" if size.endswith(("s", "short")) else plain
    if key not in rows:
        known = ", ".join(family.form.format(size) for size in rows)
        raise TradeError(
            f"there is no taper {family.form.format(key)}",
            hint=f"there are {known}",
            argument="designation",
        )
    return _from_row(family.form.format(key), rows[key])


def _from_row(designation: str, row: dict[str, str]) -> NamedTaper:
    if "taper" in row:
        ratio = _ratio_of(*row["taper"].split(":"))
    else:
        ratio = 2 * tan(radians(float(row["setting_angle_deg"])))
    length = _millimetres(row, "length", "plug_depth")
    small = _millimetres(row, "small_diameter")
    if small is not None and length is not None:
        return NamedTaper(designation, ratio, small + ratio * length, length)
    return NamedTaper(designation, ratio, _millimetres(row, "large_diameter"), length)


def _millimetres(row: dict[str, str], *names: str) -> float | None:
    for name in names:
        if f"{name}_mm" in row:
            return float(row[f"{name}_mm"])
        if f"{name}_in" in row:
            return float(row[f"{name}_in"]) * MM_PER_INCH
    return None


def _ratio_of(rise: str, run: str) -> float:
    if not (float(rise) and float(run)):
        raise TradeError(
            f"{rise}:{run} is no taper: both numbers must be over 0",
            hint=HOW_TO_WRITE,
            argument="designation",
        )
    return float(rise) / float(run)


def metric_pin(diameter: float, length: float) -> NamedTaper:
    """The taper pin of a small end and a length, in mm (ISO 2339)."""
    sizes = [float(row["diameter_mm"]) for row in table("tapers_pins_metric").rows]
    if diameter not in sizes:
        raise TradeError(
            f"there is no metric taper pin of {diameter:g} mm",
            hint="there are " + ", ".join(f"{size:g}" for size in sizes) + " mm",
            argument="designation",
        )
    if not length > 0:
        raise TradeError(
            f"the taper pin is {length:g} mm long, it must be over 0 mm", argument="designation"
        )
    large = diameter + METRIC_PIN * length
    return NamedTaper(f"taper pin {diameter:g}x{length:g}", METRIC_PIN, large, length)


def inch_pin(number: str) -> NamedTaper:
    """The taper pin of a number (ASME B18.8.2): its large end; the length is the buyer's."""
    rows = {row["number"]: row for row in table("tapers_pins_inch").rows}
    if number not in rows:
        raise TradeError(
            f"there is no inch taper pin No. {number}",
            hint="there are No. " + ", ".join(rows),
            argument="designation",
        )
    large = float(rows[number]["large_diameter_in"]) * MM_PER_INCH
    return NamedTaper(f"taper pin No. {number}", INCH_PIN, large)
