"""Spelling traps: what people type that would be read wrongly, each with its own hint.

They run before the parser, even where the line would parse: `1/4-20` is a thread to its author and
a subtraction to a parser.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from shoplog.problems import Message, Mistake, Span, message
from shoplog.units import SIMPLE_UNITS, SPELT_AS_POWERS, is_unit

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
ANGLE_SPACES = message(
    "angle-spaces",
    "spaces in an angle",
    hint="an angle stands without spaces: 8°25'30\"",
    example="a = 8° 25' 30\"",
)
ANGLE_MARKS = message(
    "angle-marks",
    "`{text}` is not an angle",
    hint="whole degrees, minutes and seconds have their marks: 8°25'30\", 8°25', 8.5°",
    example="a = 8°25",
)
DEGREE_SIGN = message(
    "degree-sign", "`{text}` is not the degree sign", hint="write °, or deg", example="a = 8º"
)
ANGLE_SIXTY = message(
    "angle-sixty",
    "minutes and seconds of arc are below 60: `{text}`",
    example="a = 8°75'",
)
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
UNQUOTED_FIT = message(
    "fit-unquoted",
    "what is asked stands in quotes",
    hint='write as "{text}"',
    example="a = 16 mm H7\nb = 16 mm f7\nmate a with b as H7/f7",
)
SPACED_CLASS = message(
    "class-spaced",
    "a class is one word",
    hint="write {letter}{grade}",
    example="a = 16 mm H 7",
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
    hint='quote it: {call}("#{number}")',
    example="a = drill(#7)",
)
CONTROL = message("control-character", "an unprintable character", example="a = 1\u0007")
UNSEEN = message(
    "unseen-character",
    "a character that cannot be seen, U+{number}",
    hint="delete it",
    example="a = 1\u200b",
)
FOREIGN_DIGIT = message(
    "foreign-digit",
    "`{text}` is not a digit of this language",
    hint="names and numbers have the digits 0 to 9: {number}",
    example="a = ３ mm",
)
LONG_WORD = message(
    "word-too-long",
    "a name or a number of {length} characters, {most} at most",
    example="a = " + "9" * 400,
)
MIXED_UNIT = message(
    "mixed-unit",
    "a mixed number is in inches or feet, not in {unit}",
    hint="write {number} {unit}",
    example="a = 1-1/2 mm",
)
LIMITS_SPACED = message(
    "limits-spaced",
    "spaces in limits",
    hint="write {text}",
    example="a = 16 mm + 0.02 / -0.01",
)
LIMITS_UNIT = message(
    "limits-unit",
    "limits follow a number with a unit",
    hint="write {number} mm {text}",
    example="a = 16 ±0.05",
)
LIMITS_TWICE = message(
    "limits-twice",
    "a class and limits on one size",
    hint="give one of the two",
    example="a = 16 mm H7 ±0.05",
)
SPREAD = message(
    "spread",
    "after {sign} stands one number, as a decimal and without a sign",
    hint="such as ±0.05, or ±5 um",
    example="a = 16 mm ±1/64 in",
)
SIGN = message(
    "compare-sign", "`{text}` is no sign here", hint="write {number}", example="check 1 => 2"
)


@dataclass(frozen=True)
class Trap:
    """A pattern on masked code, its message, and the pattern's groups that fill it."""

    message: Message
    pattern: re.Pattern[str]


MOST_WORD = 80
_UNSEEN = r"\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\uffff"
_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"

# `masked` has blanked what stands in quotes and angles, so no pattern meets them. No pattern
# repeats without end what another part of it could also take, so none is slow on any text.
_CLASS_LETTERS = "[A-HJKM-Za-hjkm-z]|JS|js|CD|cd|EF|ef|FG|fg|Z[ABC]|z[abc]"
_TRAPS: tuple[tuple[Message, str], ...] = (
    (CONTROL, r"[\x00-\x09\x0b-\x1f\x7f-\x9f]"),
    (UNSEEN, rf"(?P<text>[{_UNSEEN}])"),
    (LONG_WORD, rf"\w{{{MOST_WORD + 1}}}\w*"),
    (FOREIGN_DIGIT, r"(?P<text>(?![0-9])\d+)"),
    (CURLY, r"[“”„‟‘’‚]"),
    (DASH, r"[–—‒―‐‑]"),
    (DEGREE_SIGN, r"(?P<text>[º˚])"),
    (SIGN, r"(?P<text>=>|=<|<>|===|!==|&&|\|\|)"),
    (DIAMETER_SIGN, r"[Øø⌀∅]"),
    (VULGAR, r"(?P<text>[¼½¾⅐-⅞])"),
    (INCH_MARK, r"(?P<number>(?<![\w./-])(?:\d+-)?\d+(?:[./]\d+)?|\d)(?=\")"),
    (SINGLE, r"'"),
    (TWO_CLASSES, r"(?<=\w )(?<!as )[A-Za-z]{1,2}\d{1,2}/[A-Za-z]{1,2}\d{1,2}(?!\w)"),
    (UNQUOTED_FIT, r"(?<=as )(?P<text>[A-Za-z]{1,2}\d{1,2}/[A-Za-z]{1,2}\d{1,2})(?!\w)"),
    (
        SPACED_CLASS,
        rf"(?<=\d )(?:mm|in|cm) (?P<letter>{_CLASS_LETTERS}) (?P<grade>\d{{1,2}})(?![\w./])",
    ),
    (THREAD, r"(?<![\w.\"])(?P<text>M\d+(?:\.\d+)?(?:[x*]\d+(?:\.\d+)?)?(?:-\d\w{0,4})?)(?![\w.])"),
    (
        THREAD,
        r"(?<![\w./-])(?P<text>(?:\d+-)?\d+/\d+-\d+(?: UN\w+)?(?:-\d[AB])?)"
        r"(?![\w./]| *(?:in|ft)\b)",
    ),
    (THREAD, r"(?<![\w./-])(?P<text>\d+-\d+ UN\w+(?:-\d[AB])?)(?!\w)"),
    (DECIMAL_COMMA, r"(?P<whole>\d+(?:\.\d+)?),(?P<rest>\d+)"),
    (TRAILING_POINT, r"(?<![\w.])(?P<number>\d+)\.(?![\d.])"),
    (THOUSANDS, r"(?<![\w.])(?P<number>\d{1,3}(?: \d{3})+(?:\.\d+)?)(?![\w/])"),
    (THOUSANDS, r"(?<![\w.])(?P<number>\d+(?:_\d+)+)"),
    (EXPONENT_LETTER, r"(?<![\w.])(?P<text>\d+(?:\.\d+)?[eE])(?![+-]?\d|\w)"),
    (
        INCH_MINUS,
        r"(?<![\w./*])(?<![/*] )(?P<whole>\d+)(?: {1,9}- {0,9}|- {1,9})(?P<fraction>\d+/\d+)"
        r" *(?P<unit>in|ft)(?!\w)",
    ),
    (
        MIXED_UNIT,
        r"(?<![\w./*])(?<![/*] )(?P<whole>\d+)[- ](?P<over>\d+)/(?P<under>\d+) {0,9}"
        r"(?P<unit>(?!(?:in|ft)(?!\w))[^\W\d]\w*(?:/\w+)?)",
    ),
    (SPREAD, rf"(?P<sign>±|\+/-)(?! *{_NUMBER}(?![\d.]*(?:/|[eE]\d|[eE][+-])))"),
)


@cache
def _compiled() -> tuple[Trap, ...]:
    return tuple(Trap(found, re.compile(pattern)) for found, pattern in _TRAPS)


_HIDDEN = re.compile(
    r"""(?P<angle>(?<![\w.])\d{1,9}(?:\.\d{1,9})?°"""
    r"""(?:\d{1,9}(?:\.\d{1,9})?(?:'(?:\d{1,9}(?:\.\d{1,9})?"?)?)?)?)"""
    r"""|(?P<text>(?<!\d)"[^"\n]*")|(?P<open>(?<!\d)"[^"\n]*)"""
)
_ANGLE = re.compile(
    r"""\d+°(?P<minutes>\d+)'(?:(?P<seconds>\d+(?:\.\d+)?)")?|\d+°(?P<decimal>\d+\.\d+)'|\d+(?:\.\d+)?°"""
)
_SPACED = re.compile(
    r"(?<![\w.])\d[\d./]{0,24} {0,9}(?P<over>[^\W\d]+) {0,9}(?P<sign>[/*]) {0,9}"
    r"(?P<under>[^\W\d]+)(?!\w| *\()"
)
_SPACED_LIMITS = re.compile(
    rf"(?<=\d) {{0,9}}(?P<unit>[^\W\d]+|°) {{0,9}}(?P<text>[+-] {{0,9}}{_NUMBER} {{0,9}}/ {{0,9}}"
    rf"(?:[+-] {{0,9}}{_NUMBER}|0(?![\w.])))"
)
_SPACED_ANGLE = re.compile(
    r"\d[°º˚](?: {1,9}\d+(?:\.\d+)? ?['′]|\d+ {1,9}['′]|\d+['′] {1,9}\d+(?:\.\d+)? ?[\"″])"
    r"(?: {0,9}\d+(?:\.\d+)? ?[\"″])?"
)
_LIMITED = re.compile(
    r"(?P<before>\w+|[)\]]) {0,9}"
    rf"(?P<text>(?:±|\+/-) {{0,9}}{_NUMBER}|[+-]{_NUMBER}/(?:[+-]{_NUMBER}|(?P<zero>0(?![\w.]))))"
)
_CLASS = re.compile(r"[A-Za-z]{1,2}\d{1,2}")


@lru_cache(maxsize=256)
def masked(code: str) -> str:
    """Code of the same length with what stands in quotes and in angles blanked."""

    def blank(found: re.Match[str]) -> str:
        if found.lastgroup == "angle":  # keep its digits, hide its marks
            return found.group().replace("'", "0").replace('"', "0").replace("°", "0")
        return '"' + "\u2007" * (len(found.group()) - 2) + '"'

    return _HIDDEN.sub(blank, code)


def refuse_traps(code: str, note: str = "") -> None:
    """Raise the mistake of the first trap that a statement's code falls into."""
    for found in _HIDDEN.finditer(code):
        if found.lastgroup == "open":
            raise Mistake(QUOTE, Span(found.start(), found.start() + 1))
        if found.lastgroup == "angle":
            _refuse_angle(found)
    text = masked(code)
    _refuse_spaced_angle(code, text)
    for trap in _compiled():
        for met in trap.pattern.finditer(text):
            if trap.message is THREAD and _is_class(text, met):
                continue
            raise Mistake(trap.message, Span(*met.span()), **_filled(trap.message, met))
    _refuse_foreign_number(text)
    _refuse_spaced_unit(text)
    _refuse_spaced_limits(text)
    _refuse_limits_on_name(code, text)
    number = _NUMBERED.match(note)
    if number and code.rstrip()[-1:] in tuple("(=,["):
        end = len(code.rstrip())
        call = "thread" if "-" in number[1] else "drill"
        raise Mistake(NUMBER_SIGN, Span(end, end + 1), number=number[1], call=call)


def _is_class(text: str, met: re.Match[str]) -> bool:
    """Whether an `M7` is a tolerance class, for it follows a length: `30 mm M7`."""
    before = text[max(0, met.start() - 30) : met.start()]
    sized = re.search(r"\d {0,9}(?P<unit>[^\W\d]{1,6}) {1,9}$", before)
    return bool(sized and is_unit(sized["unit"]) and _CLASS.fullmatch(met["text"]))


# What a designation such as #7 or #10-32 UNF leaves behind where its # opened the note.
_NUMBERED = re.compile(r"#?(\d{1,2}(?:-\d{1,2}(?: UN\w{1,2})?(?:-\d[AB])?)?)\s*(?:$|[)\],])")


def _refuse_angle(found: re.Match[str]) -> None:
    text = found.group()
    # A unit such as °C, or a whole word, stands behind the degree sign.
    read = _ANGLE.fullmatch(text)
    if read is None:
        raise Mistake(ANGLE_MARKS, Span(*found.span()), text=text)
    parts = (read["minutes"], read["seconds"], read["decimal"])
    if any(part and float(part) >= 60 for part in parts):
        raise Mistake(ANGLE_SIXTY, Span(*found.span()), text=text)


def _filled(found: Message, met: re.Match[str]) -> dict[str, Any]:
    data: dict[str, Any] = dict(met.groupdict())
    if found is DECIMAL_COMMA:
        data["number"] = _comma(met["whole"], met["rest"])
    elif found is THOUSANDS:
        data["number"] = met["number"].replace(" ", "").replace("_", "")
    elif found is INCH_MINUS:
        data["text"] = met.group()
    elif found is UNSEEN:
        data["number"] = f"{ord(met['text']):04X}"
    elif found is FOREIGN_DIGIT:
        data["number"] = "".join(str(unicodedata.digit(c, c)) for c in met["text"])
    elif found is LONG_WORD:
        data |= {"length": len(met.group()), "most": MOST_WORD}
    elif found is THREAD:
        data["text"] = met["text"].replace("*", "x")
    elif found is SIGN:
        data["number"] = _SIGNS[met["text"]]
    elif found is MIXED_UNIT:
        over, under = int(met["over"]), int(met["under"])
        data["number"] = f"{int(met['whole']) + over / under:g}" if under else "a decimal number"
    return data


_SIGNS = {"=>": ">=", "=<": "<=", "<>": "!=", "===": "==", "!==": "!=", "&&": "and", "||": "or"}


def _comma(whole: str, rest: str) -> str:
    grouped = len(rest) == 3 and "." not in whole
    return f"{whole}{rest} or {whole}.{rest}" if grouped else f"{whole.replace('.', '')}.{rest}"


def _refuse_spaced_unit(text: str) -> None:
    """`25 mm / min`: units of two letters or more cannot be names, so it is a unit with spaces."""
    for met in _SPACED.finditer(text):
        over, under = met["over"], met["under"]
        spaced = met.end("over") != met.start("under") - 1
        if spaced and len(under) > 1 and over in SIMPLE_UNITS and under in SIMPLE_UNITS:
            joined = f"{over}{met['sign']}{under}"
            shown = joined if is_unit(joined) else f"{joined} is not a unit of this log"
            raise Mistake(SPACED_UNIT, Span(met.start("over"), met.end()), text=shown)


def _refuse_spaced_angle(code: str, text: str) -> None:
    for met in _SPACED_ANGLE.finditer(code):
        if text[met.start()].isdigit():  # not in quotes
            raise Mistake(ANGLE_SPACES, Span(*met.span()))


def _refuse_foreign_number(text: str) -> None:
    """Numerals such as ① and Ⅳ, which pass for letters; powers of units stay."""
    if text.isascii():
        return
    for place, sign in enumerate(text):
        if unicodedata.category(sign) in ("No", "Nl") and sign not in SPELT_AS_POWERS:
            number = f"{unicodedata.numeric(sign):g}"
            raise Mistake(FOREIGN_DIGIT, Span(place, place + 1), text=sign, number=number)


def _refuse_spaced_limits(text: str) -> None:
    for met in _SPACED_LIMITS.finditer(text):
        if " " in met["text"] and is_unit(met["unit"]):
            together = met["text"].replace(" ", "")
            raise Mistake(LIMITS_SPACED, Span(met.start("text"), met.end()), text=together)


def _refuse_limits_on_name(code: str, text: str) -> None:
    if "±" not in text and "/" not in text:
        return
    for met in _LIMITED.finditer(text):
        before = met["before"]
        span = Span(met.start("text"), met.end())
        if code[met.end("before") - 1] in "°'\"":  # an angle, whose marks are masked
            continue
        if before.isdigit():
            if met["zero"] is None:
                raise Mistake(LIMITS_UNIT, span, number=before, text=met["text"])
            continue
        if before[0].isdigit() or is_unit(before):
            continue
        sized = re.search(
            r"\d {0,9}[^\W\d]{1,6} {1,9}$", text[max(0, met.start() - 30) : met.start()]
        )
        if _CLASS.fullmatch(before) and sized:
            raise Mistake(LIMITS_TWICE, span)
        raise Mistake(DEVIATIONS_ON, span)
