"""What a page's front matter says to the log: its part, what it mates with, its date and so on."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass

from shoplog.calc.wrong import RESERVED
from shoplog.log.blocks import PageSource
from shoplog.log.source import SITE_KEYS
from shoplog.problems import Grade, Mistake, Place, Problem, message, near
from shoplog.units import SIMPLE_UNITS

__all__ = ["PageKeys", "part_name", "read_keys"]

KEY_KIND = message(
    "front-matter-value",
    "`{key}` in the front matter is {wanted}; this is {found}",
    example="---\nmade: several\n---\n# Page\n",
)
PART_NAME = message(
    "part-name",
    "`{part}` cannot be the name of a part: {why}",
    example="---\npart: check\n---\n# Page\n",
)

NEAR_KEY = message(
    "front-matter-key",
    "`{key}` in the front matter is no key of the log",
    hint="did you mean {close}?",
    example="---\nprat: shaft\n---\n# Page\n",
    grade=Grade.CAUTION,
)

_NAME = re.compile(r"[^\W\d]\w*")


@dataclass(frozen=True, slots=True)
class PageKeys:
    """The front matter keys that the log reads; others belong to the site."""

    part: str = ""
    made: int | None = None
    mates: tuple[str, ...] = ()
    date: datetime.date | None = None
    license: str = ""
    author: str = ""
    records: bool = True
    """Whether its setups are kept as records; those of a page of examples are not."""


def part_name(text: str) -> str:
    """A part as a name: spaces and hyphens are read as `_`.

    >>> part_name("drive shaft")
    'drive_shaft'
    """
    return re.sub(r"[\s-]+", "_", text.strip())


def read_keys(source: PageSource) -> tuple[PageKeys, tuple[Problem, ...]]:
    """The keys of a page, and what is wrong with them."""
    problems: list[Problem] = []
    values: dict[str, object] = {}
    for key, read in _READERS.items():
        if source.front_matter.get(key) is None:
            continue
        try:
            values[key] = read(key, source.front_matter[key])
        except Mistake as mistake:
            problems.append(mistake.at(key_place(source, key)))
    for key in source.front_matter.keys() - _READERS.keys() - SITE_KEYS:
        close = near(key, _READERS)
        if close and close not in source.front_matter:
            problems.append(Mistake(NEAR_KEY, key=key, close=close).at(key_place(source, key)))
    return PageKeys(**values), tuple(problems)  # type: ignore[arg-type]


def key_place(source: PageSource, key: str) -> Place:
    """Where a key of the front matter stands."""
    line = source.front_matter_lines.get(key, 1)
    text = source.lines[line - 1] if line <= len(source.lines) else ""
    return Place(source.path, line, 1, max(1, len(text.rstrip())), text)


def _found(value: object) -> str:
    if isinstance(value, str):
        return f"the text `{value[:40]}`"
    if isinstance(value, list):
        return "a list"
    return "a group of keys" if isinstance(value, dict) else f"`{value}`"


def _text(key: str, value: object) -> str:
    if isinstance(value, str | int | float) and not isinstance(value, bool):
        return str(value)
    raise Mistake(KEY_KIND, key=key, wanted="a text", found=_found(value))


def _part(key: str, value: object) -> str:
    text = _text(key, value)
    name = part_name(text)
    if not _NAME.fullmatch(name):
        raise Mistake(PART_NAME, part=text, why="a name is letters, digits and _, a letter first")
    if name in RESERVED or name == "pi":
        raise Mistake(PART_NAME, part=text, why="it is a word of the language")
    if len(name) > 1 and name in SIMPLE_UNITS:
        raise Mistake(PART_NAME, part=text, why="it is a unit")
    return name


def _made(key: str, value: object) -> int:
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 1000:
        return value
    raise Mistake(KEY_KIND, key=key, wanted="a whole number from 1 to 1000", found=_found(value))


def _mates(key: str, value: object) -> tuple[str, ...]:
    items = value if isinstance(value, list) else [value]
    if not all(isinstance(item, str) for item in items):
        raise Mistake(
            KEY_KIND, key=key, wanted="a list of parts, such as [gear]", found=_found(value)
        )
    return tuple(part_name(str(item)) for item in items)


def _date(key: str, value: object) -> datetime.date:
    if isinstance(value, datetime.datetime):
        return value.date()
    if isinstance(value, datetime.date):
        return value
    raise Mistake(KEY_KIND, key=key, wanted="a date such as 2026-03-14", found=_found(value))


def _yes_or_no(key: str, value: object) -> bool:
    if isinstance(value, bool):
        return value
    raise Mistake(KEY_KIND, key=key, wanted="yes or no", found=_found(value))


_READERS = {
    "part": _part,
    "made": _made,
    "mates": _mates,
    "date": _date,
    "license": _text,
    "author": _text,
    "records": _yes_or_no,
}
