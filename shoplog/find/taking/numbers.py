"""Numbers and units as people write them in spreadsheets.

A decimal comma and a comma between thousands look alike. A number is read where only one reading is
possible, or where the rest of its file or column says which is meant; else it is doubtful.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

from shoplog.log.setups.lines import clipped
from shoplog.problems import Mistake, message
from shoplog.units import SIMPLE_UNITS

__all__ = [
    "DECIMALS",
    "decimal_sign",
    "has_unit",
    "is_doubtful",
    "read_number",
    "read_sized",
    "unit_of",
]

NOT_NUMBER = message("take-number", "`{text}` is not one number", example="")
DOUBTFUL = message(
    "take-doubtful",
    "`{text}` could be {point} or {comma}",
    hint="say in the mapping file which is meant: `decimal: point` or `decimal: comma`",
    example="",
)
NOT_UNIT = message("take-unit", "`{text}` is no unit that is known here", example="")


DECIMALS = ("point", "comma")
MOST_NUMBER = 80

# Every unit that a spreadsheet may name in a setup, with the ways it is written there, in small
# letters and without spaces.
_SPELT = {
    "mm": "mm millimetre millimetres millimeter millimeters",
    "cm": "cm",
    "um": "um µm μm micron microns",
    "in": "in in. inch inches \" ” ″ ''",
    "thou": "thou",
    "ft": "ft feet foot",
    "rpm": "rpm r/min rev/min revs/min 1/min min-1 min^-1 u/min /min",
    "m/min": "m/min smm",
    "ft/min": "ft/min sfm sfpm fpm",
    "mm/rev": "mm/rev mm/r mm/u",
    "in/rev": "in/rev ipr in/r inch/rev",
    "thou/rev": "thou/rev",
    "mm/tooth": "mm/tooth mm/z",
    "in/tooth": "in/tooth ipt inch/tooth",
    "thou/tooth": "thou/tooth",
    "mm/min": "mm/min",
    "in/min": "in/min ipm inch/min",
    "m/s": "m/s",
    "mm/s": "mm/s",
}
_UNITS = {word: name for name, words in _SPELT.items() for word in words.split()}

_GROUPED = r"[1-9]\d{{0,2}}(?:{sign}\d{{3}})+"
_EXPONENT = r"(?:[eE][+-]?\d{1,3})?"
_STYLES = {
    "point": re.compile(
        rf"(?:{_GROUPED.format(sign=',')}(?:\.\d+)?|\d+\.?\d*|\.\d+){_EXPONENT}", re.ASCII
    ),
    "comma": re.compile(
        rf"(?:{_GROUPED.format(sign='[.]')}(?:,\d+)?|\d+,?\d*|,\d+){_EXPONENT}", re.ASCII
    ),
}
# Signs between thousands that are nothing else: spaces of all kinds and the apostrophe.
_APART = re.compile(r"(?<=\d)[ \u00a0\u2009\u202f'’](?=\d{3}(?!\d))", re.ASCII)
_FRACTION = re.compile(r"(?:(\d{1,4})(?:\s*-\s*|\s+))?(\d{1,4})\s*[/\u2044]\s*(\d{1,4})", re.ASCII)
_NUMERAL = re.compile(r"[+-]?[\d.,]+(?:[eE][+-]?\d{1,3})?", re.ASCII)
_VULGAR = re.compile(r"(\d*)\s*([¼½¾⅐-⅞])")


def unit_of(text: str) -> str:
    """The unit that a text names, as a page writes it; nothing where it names none.

    >>> unit_of("mm per rev"), unit_of("IPM"), unit_of('"'), unit_of("furlong")
    ('mm/rev', 'in/min', 'in', '')
    """
    if len(text) > MOST_NUMBER:
        return ""
    word = re.sub(r"\s+per\s+|\s*/\s*", "/", text.strip().casefold())
    word = re.sub(r"\s+", "", word)
    return _UNITS.get(word, word if word in SIMPLE_UNITS and len(word) > 1 else "")


def readings(text: str) -> dict[str, str]:
    """What a number is by each decimal sign, as a page writes it.

    >>> readings("1.180"), readings("0,06")
    ({'point': '1.180', 'comma': '1180'}, {'comma': '0.06'})
    """
    text = _APART.sub("", text.strip()).lstrip("+")
    found = {}
    for style, pattern in _STYLES.items():
        if len(text) <= MOST_NUMBER and pattern.fullmatch(text.removeprefix("-")):
            apart, sign = (",", ".") if style == "point" else (".", ",")
            plain = text.replace(apart, "").replace(sign, ".")
            plain = re.sub(r"\.(?=$|[eE])", "", plain)
            found[style] = re.sub(r"^(-?)\.", r"\g<1>0.", plain)
    return found


def decimal_sign(texts: Iterable[str]) -> str:
    """The decimal sign that some texts of numbers have; nothing where they do not say, or differ.

    >>> decimal_sign(["1180", "0,06"]), decimal_sign(["1.180"]), decimal_sign(["0.1", "0,1"])
    ('comma', '', '')
    """
    said: set[str] = set()
    for text in texts:
        numeral = _NUMERAL.match(_APART.sub("", text.strip()))
        found = readings(numeral.group()) if numeral else {}
        if len(found) == 1:
            said |= found.keys()
    return said.pop() if len(said) == 1 else ""


def is_doubtful(text: str) -> bool:
    """Whether a number has two readings that differ."""
    numeral = _NUMERAL.match(_APART.sub("", text.strip()))
    return len(set(readings(numeral.group()).values())) > 1 if numeral else False


def read_number(text: str, decimal: str) -> str:
    """A number as a page writes it.

    Raises
    ------
    Mistake
        It is no number, or is doubtful and nothing says how it is meant.
    """
    found = readings(text)
    if not found:
        raise Mistake(NOT_NUMBER, text=clipped(text))
    if len(set(found.values())) == 1:
        return next(iter(found.values()))
    if decimal in found:
        return found[decimal]
    point, comma = found["point"], found["comma"]
    raise Mistake(DOUBTFUL, text=clipped(text), point=point, comma=comma)


def read_sized(text: str, decimal: str) -> tuple[str, str]:
    """A number or a fraction, and the unit behind it, each as a page writes it.

    >>> read_sized('1 1/2"', ""), read_sized("0,06 mm/rev", ""), read_sized("Ø6", "")
    (('1-1/2', 'in'), ('0.06', 'mm/rev'), ('6', ''))

    Raises
    ------
    Mistake
        It is no such thing.
    """
    if len(text) > MOST_NUMBER:
        raise _no_number(text)
    rest = _VULGAR.sub(_spelt_out, text.strip()).strip().lstrip("Øø⌀∅ ")
    fraction = _FRACTION.match(rest)
    if fraction:
        whole, over, under = fraction.groups()
        number = f"{whole}-{over}/{under}" if whole else f"{over}/{under}"
        behind = rest[fraction.end() :]
    else:
        joined = _APART.sub("", rest)
        numeral = _NUMERAL.match(joined)
        if numeral is None:
            raise Mistake(NOT_NUMBER, text=clipped(text))
        number, behind = read_number(numeral.group(), decimal), joined[numeral.end() :]
    behind = behind.strip()
    unit = unit_of(behind)
    if behind and not unit:
        known = behind[:1].isalpha() and len(behind) <= 20
        raise Mistake(NOT_UNIT, text=clipped(behind)) if known else _no_number(text)
    return number, unit


def _no_number(text: str) -> Mistake:
    return Mistake(NOT_NUMBER, text=clipped(text))


def _spelt_out(found: re.Match[str]) -> str:
    over, _, under = unicodedata.normalize("NFKC", found[2]).partition("\u2044")
    return f"{found[1]}-{over}/{under}" if found[1] else f"{over}/{under}"


def has_unit(text: str) -> bool:
    """Whether a cell says its unit; a hand feed needs none, and what is no number is told later.

    >>> has_unit("6 mm"), has_unit("1/4"), has_unit("by hand")
    (True, False, True)
    """
    numeral = _FRACTION.match(text.strip()) or _NUMERAL.match(_APART.sub("", text.strip()))
    return numeral is None or bool(numeral.string[numeral.end() :].strip())
