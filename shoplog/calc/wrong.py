"""What to say where the parser stopped: the wrong word from the source, and the nearest hint.

Hints in order: a reserved word; what the spot is known for; a near unit with everyday spellings;
else what could stand there.
"""

from __future__ import annotations

import re
from typing import Any

from lark import UnexpectedInput, UnexpectedToken

from shoplog.problems import Mistake, Span, message, near
from shoplog.units import unit_texts

__all__ = ["EVERYDAY_UNITS", "RESERVED", "near_unit", "wrong_word"]

RESERVED_WORD = message(
    "reserved-word",
    "`{word}` is a word of the language and cannot stand here",
    hint="give the name another word",
    example="to = 3 mm",
)
UNKNOWN_UNIT = message(
    "unit-unknown", "`{word}` is not a unit of this log", example="a = 5 furlong"
)
UNIT_WANTED = message(
    "unit-wanted", "a unit is wanted after `to`", hint="such as {unit}", example="a = 5 mm to"
)
NAME_IS_UNIT = message(
    "name-is-unit",
    "`{word}` is a unit and cannot be a name",
    hint="a unit follows a number; give the name another word",
    example="mm = 3",
)
EQUALITY = message("equality", "`=` gives a name", hint="equality is ==", example="check a = 3")
POWER_SIGN = message(
    "power-sign", "`^` stands in units only", hint="a power is **", example="a = 3^2"
)
TO_LAST = message(
    "to-last",
    "`to` comes last in an expression, and once",
    hint="bracket it: ({text}) {word} …",
    example="a = 5 mm to in + 3 mm",
)
FIELD_ON_LITERAL = message(
    "field-on-literal",
    "a field cannot follow a literal",
    hint="bracket it: ({text}).{word}",
    example="a = 16 mm H7.max",
)
ENDS = message("ends-too-soon", "the line ends too soon: {wanted} is wanted", example="a =")
OPERATOR = message(
    "operator-wanted",
    "an operator or the end is wanted before `{word}`",
    example="a = 3 4",
)
WANTED = message("wanted", "{wanted} is wanted before `{word}`", example="a = * 3")
LONE_CLASS = message(
    "class-alone",
    "a class follows a length: 16 mm {word}",
    example="a = 16 H7",
)
QUOTED = message(
    "quoted-designation",
    "`{word}` cannot stand here",
    hint='quote a designation: thread("M10x1.5-6H"), drill("#7")',
    example="a = thread(10x1.5)",
)
STATEMENT = message(
    "not-a-statement",
    "`{word}` begins no statement",
    hint="a row is `name = expression`, or begins with check, mate, measured and the like",
    example="= 3 mm",
)

RESERVED = tuple("check measured mate with concession because draw use as to and or not".split())

# Everyday spellings and the unit that this log writes.
EVERYDAY_UNITS: dict[str, str] = {
    **dict.fromkeys(("inch", "inches", "ins", "IN", "In"), "in"),
    **dict.fromkeys(("millimetre", "millimeter", "millimetres", "millimeters", "MM", "Mm"), "mm"),
    **dict.fromkeys(("metre", "meter", "metres", "meters"), "m"),
    **dict.fromkeys(("micron", "microns", "micrometre", "mu"), "um"),
    **dict.fromkeys(("foot", "feet"), "ft"),
    **dict.fromkeys(("mil", "mils", "thous", "tenths"), "thou"),
    **dict.fromkeys(("ipm", "inpm"), "in/min"),
    **dict.fromkeys(("ipr",), "in/rev"),
    **dict.fromkeys(("ipt",), "in/tooth"),
    **dict.fromkeys(("sfm", "sfpm", "fpm"), "ft/min"),
    **dict.fromkeys(("smm", "mpm"), "m/min"),
    **dict.fromkeys(("minute", "minutes", "mins"), "min"),
    **dict.fromkeys(("second", "seconds", "sec", "secs"), "s"),
    **dict.fromkeys(("hour", "hours", "hr"), "h"),
    **dict.fromkeys(("degree", "degrees"), "deg"),
    **dict.fromkeys(("teeth", "flutes", "flute"), "tooth"),
    **dict.fromkeys(("revs", "turn", "turns", "revolutions"), "rev"),
    **dict.fromkeys(("RPM", "Rpm"), "rpm"),
    **dict.fromkeys(("mm2",), "mm^2"),
    **dict.fromkeys(("mm3",), "mm^3"),
    **dict.fromkeys(("cm3", "cc"), "cm^3"),
    **dict.fromkeys(("Nm", "NM"), "N*m"),
    **dict.fromkeys(("Mpa", "mpa"), "MPa"),
    **dict.fromkeys(("C", "celsius"), "degC"),
    **dict.fromkeys(("F", "fahrenheit"), "degF"),
    **dict.fromkeys(("HP", "bhp"), "hp"),
    **dict.fromkeys(("TPI",), "tpi"),
    **dict.fromkeys(("lbs", "pound", "pounds"), "lb"),
    **dict.fromkeys(("kilo", "kilos", "kgs"), "kg"),
}
_WORD = re.compile(r"[^\W\d][\w/*^²³]*|\d[\w.]*|\S")
_VALUE = {"NAME", "NUMBER", "INTEGER", "LPAR"}


def near_unit(word: str) -> str:
    """A hint for a misspelt unit, or nothing.

    >>> near_unit("inches")
    'did you mean in?'
    """
    found = EVERYDAY_UNITS.get(word) or near(word, unit_texts())
    return f"did you mean {found}?" if found else ""


def wrong_word(code: str, error: UnexpectedInput, note: str) -> Mistake:
    """The mistake that a failed parse is."""
    accepts = _accepts(error)
    token = getattr(error, "token", None)
    if token is None or token.type == "$END":
        end = len(code.rstrip())
        return _ended(code[:end], Span(end, end + 1), accepts)
    start = token.start_pos
    word = _word_at(code, start)
    return _met(code, word, Span(start, start + len(word)), accepts)


def _accepts(error: UnexpectedInput) -> set[str]:
    if isinstance(error, UnexpectedToken):
        parser: Any = error.interactive_parser
        return set(parser.accepts() if parser else error.accepts) - {"BAD"}
    return set()


def _word_at(code: str, start: int) -> str:
    found = _WORD.match(code, start)
    return found.group() if found else code[start : start + 1]


def _ended(code: str, span: Span, accepts: set[str]) -> Mistake:
    if re.search(r"\bto$", code):
        return Mistake(UNIT_WANTED, span, unit="mm")
    return Mistake(ENDS, span, wanted=_wanted(accepts))


def _met(code: str, word: str, span: Span, accepts: set[str]) -> Mistake:
    before = code[: span.start].rstrip()
    value_wanted = bool(_VALUE & accepts)
    if word in RESERVED and word != "to" and not value_wanted and before:
        return _to_last(before, word, span) or Mistake(OPERATOR, span, word=word)
    if word in RESERVED and (value_wanted or not before or "NAME" in accepts):
        return Mistake(RESERVED_WORD, span, word=word)
    if re.search(r"(?<!\w)to$", before):
        return Mistake(UNKNOWN_UNIT, span, word=word, hint=near_unit(word) or "such as mm or rpm")
    if word == "=":
        return Mistake(EQUALITY, span) if before else Mistake(STATEMENT, span, word=word)
    if word == "^":
        return Mistake(POWER_SIGN, span)
    if value_wanted or "NAME" in accepts:
        return Mistake(WANTED, span, word=word, wanted=_wanted(accepts))
    return (
        _to_last(before, word, span)
        or _after_literal(code, before, word, span)
        or Mistake(OPERATOR, span, word=word)
    )


def _to_last(before: str, word: str, span: Span) -> Mistake | None:
    found = re.search(r"(?:^|[=(,\[]|\bcheck\b|\bdraw\b)\s*([^=(,\[]*\bto\s+\S+)$", before)
    if found and not word[0].isalnum():
        return Mistake(TO_LAST, span, text=found[1].strip(), word=word)
    if found and word in ("to", "and", "or"):
        return Mistake(TO_LAST, span, text=found[1].strip(), word=word)
    return None


def _after_literal(code: str, before: str, word: str, span: Span) -> Mistake | None:
    literal = re.search(r"(?<![\w.])[\d./°'\"-]*\d[\d./°'\"]*\s*[^\s()\d]*(?: \w+\d+)?$", before)
    if not literal:
        return None
    if word == ".":
        field = _word_at(code, span.start + 1)
        return Mistake(FIELD_ON_LITERAL, span, text=literal.group().strip(), word=field)
    bare_number = re.search(r"(?<![\w.])[\d.]+$", before)
    if (
        bare_number
        and re.fullmatch(r"[A-Za-z]{1,2}\d{1,2}", word)
        and before.endswith(" ") is False
    ):
        if word[0] in "xX" and code[span.start - 1 : span.start].isdigit():
            return Mistake(QUOTED, span, word=word)
        return Mistake(LONE_CLASS, span, word=word)
    if bare_number and word[0].isalpha():
        if word[0] in "xX" and word[1:2].isdigit():
            return Mistake(QUOTED, span, word=word)
        return Mistake(UNKNOWN_UNIT, span, word=word, hint=near_unit(word))
    return None


def _wanted(accepts: set[str]) -> str:
    if "NUMBER" in accepts:
        return "a value"
    if "UNIT" in accepts and "PLUS" not in accepts:
        return "a unit"
    for terminal, words in (
        ("NAME", "a name"),
        ("WITH", "`with`"),
        ("BECAUSE", '`because "…"`'),
        ("KIND_OF_FIT", 'a fit such as "H7/f7", or `clearance 15 um..55 um`'),
        ("STRING", "a text in quotes"),
        ("EQUAL", "`=`"),
        ("AS", "`as`"),
    ):
        if terminal in accepts:
            return words
    return "something else"
