"""Spelling traps: what people type that would be read wrongly, each with its own hint.

They run before the parser, even where the line would parse: `1/4-20` is a thread to its author and
a subtraction to a parser.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from shoplog.problems import Message, Mistake, Span, message
from shoplog.units import SIMPLE_UNITS, is_unit

__all__ = ["masked", "refuse_traps"]

DECIMAL_COMMA = message(
    "decimal-comma",
    "a comma between digits",
    hint="a decimal point is a point: {number}; after a comma between arguments comes a space",
    example="a = 3,5 mm",
)
TRAILING_POINT = message(
    "trailing-point", "a point needs a digit after it", hint="write {number}", example="a = 5. in"
)
THOUSANDS = message("thousands", "digits in groups", hint="write {number}", example="a = 1 000 mm")
EXPONENT_LETTER = message(
    "exponent-letter",
    "{text} is not a number",
    hint="an exponent has digits: 1e3",
    example="a = 1e mm",
)
DIAMETER_SIGN = message(
    "diameter-sign",
    "a diameter sign",
    hint="a diameter is a length: 16 mm",
    example="a = Ø16 mm",
)
VULGAR = message(
    "vulgar-fraction",
    "the character {text}",
    hint="write a fraction with its unit: 1/2 in, 1-1/2 in",
    example="a = ½ in",
)
CURLY = message(
    "curly-quote", "a curly quote", hint='text stands in straight quotes: "…"', example="a = “x”"
)
SINGLE = message(
    "single-quote",
    "a single quote",
    hint='text stands in double quotes: "…"; minutes of arc follow a degree sign: 8°25\'',
    example="a = drill('#7')",
)
DASH = message("dash", "a dash, which is not a minus", hint="write -", example="a = 3 mm – 1 mm")
INCH_MARK = message("inch-mark", "an inch mark", hint="inch is `in`: {number} in", example='a = 3"')
QUOTE = message("quote-unclosed", "this quote is not closed", example='a = drill("#7)')
THREAD = message(
    "designation",
    "{text} is a thread's designation",
    hint='quote it: thread("{text}")',
    example="a = 1/4-20",
)
TWO_CLASSES = message(
    "two-classes",
    "two classes on one size",
    hint="one class a size, then fit(hole, shaft)",
    example="a = 16 mm H7/g6",
)
SPACED_UNIT = message(
    "spaced-unit", "spaces in a unit", hint="no spaces in a unit: {text}", example="a = 25 mm / min"
)
INCH_MINUS = message(
    "inch-minus",
    "{text} could be a mixed number or a subtraction",
    hint="write {whole} {unit} - {fraction} {unit}, or {whole}-{fraction} {unit}",
    example="a = 3 - 1/2 in",
)
DEVIATIONS_ON = message(
    "limits-on-name",
    "limits belong to a number with a unit, not to a name or a bracket",
    hint="write limits(x, upper, lower)",
    example="b = 5 mm\na = b ±0.05",
)
NUMBER_SIGN = message(
    "number-sign",
    "`#` opens a note, so nothing stands here",
    hint='quote it: drill("#{number}")',
    example="a = drill(#7)",
)
CONTROL = message("control-character", "an unprintable character", example="a = 1\u0007")


@dataclass(frozen=True)
class Trap:
    """A pattern on masked code, its message, and the pattern's groups that fill it."""

    message: Message
    pattern: re.Pattern[str]


# `masked` has blanked what stands in quotes and angles, so no pattern meets them.
_TRAPS: tuple[tuple[Message, str], ...] = (
    (CONTROL, r"[\x00-\x09\x0b-\x1f\x7f]"),
    (CURLY, r"[“”„‟‘’‚]"),
    (DASH, r"[–—‒―]"),
    (DIAMETER_SIGN, r"[Øø⌀∅]"),
    (VULGAR, r"(?P<text>[¼½¾⅐-⅞])"),
    (INCH_MARK, r"(?P<number>\d)(?=\")"),
    (SINGLE, r"'"),
    (TWO_CLASSES, r"(?<=[^\W\d] )[A-Za-z]{1,2}\d{1,2}/[A-Za-z]{1,2}\d{1,2}(?!\w)"),
    (THREAD, r"(?<![\w.\"])(?P<text>M\d+(?:\.\d+)?(?:[x*]\d+(?:\.\d+)?)?(?:-\d\w{0,4})?)(?![\w.])"),
    (THREAD, r"(?<![\w.])(?P<text>\d+/\d+-\d+(?: UN\w+)?(?:-\d[AB])?)(?![\w./]| *(?:in|ft)\b)"),
    (DECIMAL_COMMA, r"(?<![\w.])(?P<whole>\d+),(?P<rest>\d+)"),
    (TRAILING_POINT, r"(?<![\w.])(?P<number>\d+)\.(?![\d.])"),
    (THOUSANDS, r"(?<![\w.])(?P<number>\d{1,3}(?: \d{3})+)(?![\w/.])"),
    (THOUSANDS, r"(?<![\w.])(?P<number>\d+(?:_\d+)+)"),
    (EXPONENT_LETTER, r"(?<![\w.])(?P<text>\d+(?:\.\d+)?[eE])(?![+-]?\d|\w)"),
    (INCH_MINUS, r"(?<![\w.])(?P<whole>\d+) +- +(?P<fraction>\d+/\d+) *(?P<unit>in|ft)(?!\w)"),
)


@cache
def _compiled() -> tuple[Trap, ...]:
    return tuple(Trap(found, re.compile(pattern)) for found, pattern in _TRAPS)


_HIDDEN = re.compile(
    r"""\d+°(?:\d+(?:'(?:\d+(?:\.\d+)?"?)?)?)?|(?P<text>(?<!\d)"[^"\n]*")|(?P<open>(?<!\d)"[^"\n]*)"""
)
_SPACED = re.compile(r"(?<![\w.])\d[\d./]* *(?P<over>[^\W\d]+) */ *(?P<under>[^\W\d]+)(?!\w)")
_LIMITED = re.compile(r"(?P<before>\w+|[)\]]) *(?:±|\+/-|[+-]\d*\.?\d+/(?:[+-]\d|0(?![\w.])))")


def masked(code: str) -> str:
    """Code of the same length with what stands in quotes and in angles blanked."""

    def blank(found: re.Match[str]) -> str:
        if found.lastgroup is None:  # an angle: keep its digits, hide its marks
            return found.group().replace("'", "0").replace('"', "0").replace("°", "0")
        return '"' + "\u2007" * (len(found.group()) - 2) + '"'

    return _HIDDEN.sub(blank, code)


def refuse_traps(code: str, note: str = "") -> None:
    """Raise the mistake of the first trap that a statement's code falls into."""
    for found in _HIDDEN.finditer(code):
        if found.lastgroup == "open":
            raise Mistake(QUOTE, Span(found.start(), found.start() + 1))
    text = masked(code)
    for trap in _compiled():
        met = trap.pattern.search(text)
        if met is not None:
            raise Mistake(trap.message, Span(*met.span()), **_filled(trap.message, met))
    _refuse_spaced_unit(text)
    _refuse_limits_on_name(text)
    number = re.match(r"#?(\w+)", note)
    if number and code.rstrip()[-1:] in ("(", "=", ","):
        end = len(code.rstrip())
        raise Mistake(NUMBER_SIGN, Span(end, end + 1), number=number[1])


def _filled(found: Message, met: re.Match[str]) -> dict[str, Any]:
    data: dict[str, Any] = dict(met.groupdict())
    if found is DECIMAL_COMMA:
        data["number"] = f"{met['whole']}.{met['rest']}"
    elif found is THOUSANDS:
        data["number"] = met["number"].replace(" ", "").replace("_", "")
    elif found is INCH_MINUS:
        data["text"] = met.group()
    return data


def _refuse_spaced_unit(text: str) -> None:
    """`25 mm / min`: units of two letters or more cannot be names, so it is a unit with spaces."""
    for met in _SPACED.finditer(text):
        over, under = met["over"], met["under"]
        spaced = met.end("over") != met.start("under") - 1
        if spaced and len(under) > 1 and over in SIMPLE_UNITS and under in SIMPLE_UNITS:
            joined = f"{over}/{under}"
            shown = joined if is_unit(joined) else f"{over}/{under} is not a unit of this log"
            raise Mistake(SPACED_UNIT, Span(met.start("over"), met.end()), text=shown)


def _refuse_limits_on_name(text: str) -> None:
    for met in _LIMITED.finditer(text):
        before = met["before"]
        if before[0].isdigit() or is_unit(before):
            continue
        if before in ("=", "measured"):
            continue
        raise Mistake(DEVIATIONS_ON, Span(met.end("before"), met.end()))
