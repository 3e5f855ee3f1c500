"""What to say where the parser stopped: the wrong word from the source, and the nearest hint.

Hints in order: a reserved word; what the spot is known for; a near unit with everyday spellings;
else what could stand there.
"""

from __future__ import annotations

import re
from typing import Any

from lark import UnexpectedInput, UnexpectedToken

from shoplog.calc.spelling import LIMITS_TWICE, MOST_WORD, TWO_CLASSES
from shoplog.problems import Mistake, Span, message, near
from shoplog.units import SIMPLE_UNITS, SPELT_AS_POWERS, is_unit, unit_texts

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
    hint="give the name another word",
    example="mm = 3",
)
UNIT_ALONE = message(
    "unit-alone",
    "`{word}` is a unit, and a unit follows a number",
    hint="write 1 {word}; a unit in two parts has no spaces: m/s, N*m",
    example="a = 3 * mm",
)
NOT_A_NAME = message(
    "not-a-name",
    "`{text}` is not a name, so it can be given no value",
    hint="a name is one word of letters, digits and _, and no digit comes first",
    example="a.b = 3 mm",
)
EQUALITY = message("equality", "`=` gives a name", hint="equality is ==", example="check a = 3")
POWER_SIGN = message(
    "power-sign", "`{word}` stands in units only", hint="a power is **", example="a = 3^2"
)
TO_LAST = message(
    "to-last",
    "`to` comes last in an expression, and once",
    hint="bracket it: ({text}){word}…",
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
    "a class follows a length, and {number} has no unit",
    hint="write {number} mm {word}",
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
    **dict.fromkeys(
        ("millimetre", "millimeter", "millimetres", "millimeters", "MM", "Mm", "mn", "nm"), "mm"
    ),
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
    **dict.fromkeys(("sqmm",), "mm^2"),
    **dict.fromkeys(("cc", "ccm"), "cm^3"),
    **dict.fromkeys(("lb/in^2",), "psi"),
    **dict.fromkeys(("Nm", "NM"), "N*m"),
    **dict.fromkeys(("Mpa", "mpa"), "MPa"),
    **dict.fromkeys(("C", "celsius"), "degC"),
    **dict.fromkeys(("F", "fahrenheit"), "degF"),
    **dict.fromkeys(("HP", "bhp"), "hp"),
    **dict.fromkeys(("TPI",), "tpi"),
    **dict.fromkeys(("lbs", "pound", "pounds"), "lb"),
    **dict.fromkeys(("kilo", "kilos", "kgs"), "kg"),
}
POWER_SIGNS = frozenset({"^", *SPELT_AS_POWERS})
TO_SIGNS = frozenset("+ - * / ** . [ to".split())
_WORD = re.compile(r"[^\W\d](?:[\w/^]|\*(?=[^\W\d]))*|\d[\w.]*|\*\*|\S")
_CLASS = re.compile(r"[A-Za-z]{1,2}\d{1,2}")
_UNIT_RUN = re.compile(
    r"(?<![\w.])\d[\d./]{0,24} {0,9}(?P<run>[^\W\d]+(?:[/*][^\W\d]+(?:\^\d)?)+)(?![\w^]| *\()"
)
_POWERED = re.compile(
    r"(?<![\w.])\d[\d./]{0,24} {0,9}(?P<run>(?P<first>[^\W\d²³⁴]+)[\w/*^]*[\^²³⁴][\w.]*)"
)


# Looked for first: one letter beside `mm` is nearer to the bench than one beside `min`.
_FREQUENT = ("mm", "in", "um", "deg", "rpm", "mm/min", "m/min", "mm/rev", "mm/tooth", "in/min")


def near_unit(word: str) -> str:
    """A hint for a misspelt unit, or nothing.

    >>> near_unit("inches"), near_unit("in3")
    ('did you mean in?', 'did you mean in^3?')
    """
    power = re.fullmatch(r"([^\W\d]+)(\d)", word)
    powered = f"{power[1]}^{power[2]}" if power else ""
    found = EVERYDAY_UNITS.get(word) or (powered if is_unit(powered) else "")
    found = found or near(word[:MOST_WORD], _FREQUENT) or near(word[:MOST_WORD], unit_texts())
    return f"did you mean {found}?" if found else ""


def refuse_unknown_compound(text: str) -> None:
    """Refuse `3 mm/kg`: no name can be `kg`, so it is meant as a unit, and none is so called."""
    for met in _UNIT_RUN.finditer(text):
        words = re.split(r"[/*]", met["run"])
        known = all(word.partition("^")[0] in SIMPLE_UNITS for word in words)
        if known and len(words[-1]) > 1 and not is_unit(met["run"]):
            word = met["run"]
            sign = word[-len(words[-1]) - 1]
            hint = EVERYDAY_UNITS.get(word, f"write it with numbers: … {sign} (1 {words[-1]})")
            raise Mistake(UNKNOWN_UNIT, Span(*met.span("run")), hint=hint, word=word)


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
    value_wanted = "NUMBER" in accepts
    if word in RESERVED and (value_wanted or not before or "NAME" in accepts):
        return Mistake(RESERVED_WORD, span, word=word)
    if re.search(r"(?<!\w)to$", before):
        return Mistake(UNKNOWN_UNIT, span, word=word, hint=near_unit(word) or "such as mm or rpm")
    if word == "=":
        return _equals(code, before, span)
    if word in POWER_SIGNS:
        return _power_sign(code, word, span)
    if "EQUAL" in accepts and (meant := _statement_meant(before, word)):
        return Mistake(WANTED, span, hint=meant, word=word, wanted="`=`")
    if value_wanted or "EQUAL" in accepts or not ({"PLUS", "COMPARE", "AND", "$END"} & accepts):
        return Mistake(WANTED, span, word=word, wanted=_wanted(accepts))
    return (
        _to_last(before, word, span)
        or _after_literal(code, before, word, span)
        or _after_value(before, word, span)
    )


def _statement_meant(before: str, word: str) -> str:
    """What a line that opens with two words meant: `chek a`, `my bore`."""
    if not before or not before.replace("_", "").isalnum() or not word[:1].isalpha():
        return ""
    close = near(before, [one for one in _OPENING if one != before])
    if close:
        return f"did you mean {close}?"
    return f"a name is one word: {before}_{word.split('/')[0]}"


_OPENING = ("check", "measured", "mate", "concession", "draw", "use")


def _equals(code: str, before: str, span: Span) -> Mistake:
    start = len(code) - len(code.lstrip())
    first = before.split(maxsplit=1)[0] if before else ""
    if not before:
        return Mistake(STATEMENT, span, word="=")
    if before in RESERVED:
        return Mistake(RESERVED_WORD, Span(start, start + len(before)), word=before)
    if first in RESERVED or "=" in before:
        return Mistake(EQUALITY, span)
    return Mistake(NOT_A_NAME, Span(start, len(before)), text=before.strip())


def _power_sign(code: str, word: str, span: Span) -> Mistake:
    """A power sign: part of a unit that is none (`3 mm^5`), or where a power is meant."""
    line = code[max(0, span.start - 2 * MOST_WORD) :]
    for met in _POWERED.finditer(line):
        start = max(0, span.start - 2 * MOST_WORD) + met.start("run")
        if start <= span.start < start + len(met["run"]) and met["first"] in SIMPLE_UNITS:
            run = met["run"]
            return Mistake(
                UNKNOWN_UNIT, Span(start, start + len(run)), hint=near_unit(run), word=run
            )
    return Mistake(POWER_SIGN, span, word=word)


def _to_last(before: str, word: str, span: Span) -> Mistake | None:
    found = re.search(r"(?<!\w)to\s{1,9}[^\s()\[\],]{1,80}$", before)
    if not found or word not in TO_SIGNS:
        return None
    start, depth = found.start(), 0
    while start > 0:
        sign = before[start - 1]
        depth += {")": 1, "]": 1, "(": -1, "[": -1}.get(sign, 0)
        if depth < 0 or (depth == 0 and sign in ",="):
            break
        start -= 1
    text = re.sub(r"^(?:check|draw|mate|not)\b", "", before[start:].strip()).strip()
    return Mistake(TO_LAST, span, text=text, word=word if word == "." else f" {word} ")


def _after_literal(code: str, before: str, word: str, span: Span) -> Mistake | None:
    near_by = before[-MOST_WORD:]
    literal = re.search(
        r"(?<![\w.])[\d./°'\"-]{0,30}\d[\d./°'\"]{0,9}\s{0,9}[^\s()\d]{0,9}(?: \w{1,4})?$", near_by
    )
    if not literal:
        return None
    if word == ".":
        field = _word_at(code, span.start + 1)
        if not (field[:1].isalpha() or field[:1] == "_"):
            return None
        return Mistake(FIELD_ON_LITERAL, span, text=literal.group().strip(), word=field)
    limits = re.search(r"(?:±|\+/-|[+-][\d.]{1,30}/)[+-]?\s{0,9}[\d.]{1,30}$", near_by)
    shape = _CLASS.fullmatch(word)
    if limits and shape:
        return Mistake(LIMITS_TWICE, span)
    bare = re.search(r"(?<![\w.])[\d./-]{1,30}$", near_by)
    if bare and (word[0].isalpha() or word in "µ°"):
        return _no_unit(code, before, bare.group(), word, span)
    return None


def _no_unit(code: str, before: str, number: str, word: str, span: Span) -> Mistake:
    """A word that is no unit, right behind a number."""
    if word[0] in "xX" and word[1:2].isdigit() and code[span.start - 1].isdigit():
        return Mistake(QUOTED, span, word=word)
    hint = near_unit(word)
    sized = re.fullmatch(r"(?P<unit>[^\W\d]+)(?P<shape>[A-Za-z]{1,2}\d{1,2})", word)
    if sized and sized["unit"] in SIMPLE_UNITS and not is_unit_power(word):
        hint = f"write {number} {sized['unit']} {sized['shape']}"
    elif _CLASS.fullmatch(word) and word not in EVERYDAY_UNITS and not is_unit_power(word):
        return Mistake(LONE_CLASS, span, word=word, number=number)
    return Mistake(UNKNOWN_UNIT, span, word=word, hint=hint)


def is_unit_power(word: str) -> bool:
    """Whether a word is a unit with its power behind it, `mm3`."""
    return word[-1:].isdigit() and is_unit(f"{word[:-1]}^{word[-1]}")


def _after_value(before: str, word: str, span: Span) -> Mistake:
    hint = ""
    if is_unit(word) and word[0].isalpha() and before:
        hint = f"a unit follows a number: … * 1 {word}, or `to {word}`"
    elif before[-1:].isdigit() and word[0].isdigit():
        hint = "a mixed number has its unit behind it, in or ft: 1 1/2 in"
    elif _CLASS.fullmatch(word) and re.search(r"(?<!\w)[A-Za-z]{1,2}\d{1,2}$", before):
        return Mistake(TWO_CLASSES, span)
    elif word == "to":
        hint = "bounds stand as 15 um..55 um"
    elif word == "%":
        hint = "`%` is a per cent and follows a number"
    return Mistake(OPERATOR, span, hint=hint, word=word)


def _wanted(accepts: set[str]) -> str:
    if "NUMBER" in accepts:
        return "a value"
    if "UNIT" in accepts and "PLUS" not in accepts:
        return "a unit"
    for terminal, words in (
        ("NAME", "a name"),
        ("WITH", "`with`"),
        ("BECAUSE", '`because "…"`'),
        ("KIND_OF_FIT", 'a fit such as "H7/f7", or `clearance 15 um..55 um`,'),
        ("EQUAL", "`=`"),
        ("STRING", "a text in quotes"),
        ("AS", "`as`"),
        ("_DOTS", "`..` and the other bound"),
        ("INTEGER", "a whole number, such as [0],"),
    ):
        if terminal in accepts:
            return words
    return "an operator or the end"
