"""`setups.json`: the records that a log publishes, and those of another log read back.

The schema is made from the declaration of a record, so a field is described once. A file of another
log is a stranger's: it is read within bounds, field by field, and nothing in it is believed.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from importlib.metadata import version
from pathlib import Path
from typing import Any, NoReturn

from shoplog.find.clean import clean, clipped
from shoplog.find.record import FIGURES, RECORD, Figures, Known, Record, told

__all__ = [
    "MOST_BYTES",
    "MOST_RECORDS",
    "SCHEMA",
    "SCHEMA_ID",
    "SCHEMA_VERSION",
    "NotPublished",
    "Published",
    "published_json",
    "read_published",
    "read_published_file",
    "read_published_log",
]

SCHEMA_VERSION = 1
SCHEMA_ID = f"urn:shoplog:setups:{SCHEMA_VERSION}"
MOST_BYTES = 64 * 1024 * 1024
MOST_RECORDS = 100_000
MOST_MARKS = 8_000_000  # commas and brackets: what a parser makes objects of, so what it costs
MOST_TEXTS = 100
MOST_WHOLE = 2**53  # what every reader of JSON keeps exactly
MOST_NAMED = 5
DIGITS = 9  # that a number is published with
_DAY = r"^\d{4}-\d{2}-\d{2}$"
_IS = re.compile(_DAY, re.ASCII)
_REQUIRED = ("page", "anchor")
_PUBLISHED = tuple(known for known in RECORD if known.name != "private")
_NO_NUMBER = object()


class NotPublished(ValueError):
    """A text that is no file of published setups: why not, in a sentence."""


@dataclass(frozen=True, slots=True)
class Published:
    """What a file of another log holds."""

    name: str
    """What that log calls itself."""
    records: tuple[Record, ...]
    notes: tuple[str, ...]
    """What was left out and why."""


def _schema_of(known: Known) -> dict[str, Any]:
    doc = f"{known.doc} In {known.unit}." if known.unit else known.doc
    kinds: dict[str, dict[str, Any]] = {
        "text": {"type": "string"},
        "texts": {"type": "array", "items": {"type": "string"}, "maxItems": MOST_TEXTS},
        "number": {"type": "number"},
        "whole": {"type": "integer", "minimum": -MOST_WHOLE, "maximum": MOST_WHOLE},
        "truth": {"type": "boolean"},
    }
    day = {"pattern": _DAY} if known.name == "date" else {}
    return {"description": doc, **kinds[known.kind], **day}


def _properties(declared: Iterable[Known]) -> dict[str, Any]:
    return {known.name: _schema_of(known) for known in declared}


SCHEMA: dict[str, Any] = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "$id": SCHEMA_ID,
    "title": "Setups of a workshop log",
    "description": (
        "What was set up, how it ran and how it went. A field that is not known is left out; a"
        " number's name says its unit. Readers leave fields aside that they do not know."
    ),
    "type": "object",
    "required": ["schema", "version", "log", "records"],
    "properties": {
        "schema": {"const": SCHEMA_ID},
        "version": {"const": SCHEMA_VERSION},
        "log": {"type": "string", "description": "What the log is called."},
        "made_by": {"type": "string", "description": "The program that wrote the file."},
        "records": {
            "type": "array",
            "maxItems": MOST_RECORDS,
            "items": {"$ref": "#/$defs/record"},
        },
    },
    "$defs": {
        "record": {
            "description": "A setup as it was planned and one time that it ran.",
            "type": "object",
            "required": list(_REQUIRED),
            "properties": {
                **_properties(_PUBLISHED),
                "planned": {"$ref": "#/$defs/figures", "description": "What was meant."},
                "ran": {"$ref": "#/$defs/figures", "description": "What was done."},
            },
        },
        "figures": {
            "description": "What was set, given or worked out.",
            "type": "object",
            "properties": _properties(FIGURES),
        },
    },
}
"""The JSON Schema (2020-12) of what is published."""


def published_json(records: Iterable[Record], *, name: str) -> str:
    """The text of `setups.json`: every record that is not private, one a line.

    Parameters
    ----------
    records : iterable of Record [-]
        Of the whole log; private ones are left out here.
    name : str [-]
        What the log is called.

    Returns
    -------
    str [-]
        JSON as `SCHEMA` describes it. It holds no `<`, so it may stand in a script as it is.
    """
    head = {
        "schema": SCHEMA_ID,
        "version": SCHEMA_VERSION,
        "log": clean(name),
        "made_by": f"shoplog {version('shoplog')}",
    }
    lines = ",\n".join(
        _line(_shown(told(record, _PUBLISHED))) for record in records if not record.private
    )
    return f'{_line(head)[:-1]},"records":[\n{lines}\n]}}\n'


def _line(data: Mapping[str, Any]) -> str:
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return text.replace("<", "\\u003c")


def _shown(data: dict[str, Any]) -> dict[str, Any]:
    return {name: _shown_value(value) for name, value in data.items()}


def _shown_value(value: Any) -> Any:
    """A value as it is published: texts cleaned, numbers with the digits that mean something."""
    if isinstance(value, str):
        return clean(value)
    if isinstance(value, tuple):
        return [clean(text) for text in value[:MOST_TEXTS]]
    if isinstance(value, dict):
        return _shown(value)
    return float(f"{value:.{DIGITS}g}") if isinstance(value, float) else value


def read_published(text: str, source: str) -> tuple[Record, ...]:
    """The records of a text that another log published; see `read_published_log`.

    Raises
    ------
    NotPublished
        It is no such text.
    """
    return read_published_log(text, source).records


def read_published_file(path: Path) -> Published:
    """What a file of another log holds, read no further than its bound.

    Raises
    ------
    NotPublished
        It cannot be read, or holds no published setups.
    """
    source = clean(str(path))
    try:
        if not path.is_file():
            _refuse(source, "is no file" if path.exists() else "is not there")
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        _refuse(source, f"cannot be read: {error.strerror}")
    if len(data) > MOST_BYTES:
        _refuse(source, f"is larger than {MOST_BYTES} bytes, and was not read")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        _refuse(source, f"is not UTF-8 text: byte {error.start + 1} cannot be read")
    return read_published_log(text, source)


def read_published_log(text: str, source: str) -> Published:
    """What a text holds that another log published.

    A record that is not as the schema says is left out and counted; a field that this version does
    not know is left aside. Texts are cleaned and cut to what a record keeps.

    Parameters
    ----------
    text : str [-]
        The text; up to `MOST_BYTES` characters, `MOST_RECORDS` records.
    source : str [-]
        What the file is called in a message.

    Raises
    ------
    NotPublished
        It is no JSON, of another version, or holds more than the bounds allow.
    """
    data = _loaded(text, source)
    _same_version(data, source)
    listed = data.get("records")
    if not isinstance(listed, list):
        _refuse(source, "has no list of `records`")
    if len(listed) > MOST_RECORDS:
        _refuse(source, f"holds {len(listed)} records, {MOST_RECORDS} at most; it was not read")
    reader = _Reader()
    records = tuple(reader.records(listed))
    name = data.get("log")
    return Published(
        clean(name) if isinstance(name, str) else "", records, tuple(reader.notes(source))
    )


def _refuse(source: str, why: str) -> NoReturn:
    raise NotPublished(f"{source} {why}") from None


def _loaded(text: str, source: str) -> dict[str, Any]:
    if len(text) > MOST_BYTES:
        _refuse(source, f"is larger than {MOST_BYTES} bytes, and was not read")
    if sum(text.count(mark) for mark in ",[{") > MOST_MARKS:
        _refuse(source, "holds more lists and values than a log has; it was not read")
    try:
        data = json.loads(text, parse_constant=lambda _: _NO_NUMBER)
    except RecursionError:
        _refuse(source, "is nested too deeply; it was not read")
    except json.JSONDecodeError as error:
        _refuse(source, f"is not JSON: {error.msg} at line {error.lineno}, column {error.colno}")
    except ValueError:  # a whole number of thousands of digits
        _refuse(source, "holds a number that is too long; it was not read")
    if not isinstance(data, dict):
        _refuse(source, "is JSON, and not the setups of a log")
    return data


def _same_version(data: dict[str, Any], source: str) -> None:
    schema = data.get("schema")
    if not isinstance(schema, str) or not schema.startswith("urn:shoplog:setups:"):
        _refuse(source, "is JSON, and not the setups of a log")
    found = data.get("version")
    if type(found) is not int or schema != f"urn:shoplog:setups:{found}":
        _refuse(source, "does not say which version of the schema it is of")
    if found != SCHEMA_VERSION:
        shown = clipped(str(found), 20)
        _refuse(source, f"is of version {shown} of the schema; version {SCHEMA_VERSION} is read")


class _Wrong(ValueError):
    """A field that is not of its kind."""


class _Reader:
    """Reads records one by one and keeps what was wrong with those that it left out."""

    def __init__(self) -> None:
        self.wrong: list[str] = []
        self.unknown: dict[str, None] = {}

    def records(self, listed: list[Any]) -> Iterator[Record]:
        for number, data in enumerate(listed, 1):
            try:
                yield self.record(data)
            except _Wrong as wrong:
                self.wrong.append(f"record {number}: {wrong}")

    def record(self, data: Any) -> Record:
        if not isinstance(data, dict):
            raise _Wrong("it is no object")
        found = self.fields(data, _PUBLISHED, ("planned", "ran"))
        for name in _REQUIRED:
            if not found.get(name):
                raise _Wrong(f"it has no `{name}`")
        for kind in ("planned", "ran"):
            if kind in data:
                found[kind] = self.figures(kind, data[kind])
        return Record(**found)

    def figures(self, kind: str, data: Any) -> Figures:
        if not isinstance(data, dict):
            raise _Wrong(f"`{kind}` is no object")
        return Figures(**self.fields(data, FIGURES))

    def fields(
        self, data: dict[str, Any], declared: tuple[Known, ...], others: tuple[str, ...] = ()
    ) -> dict[str, Any]:
        names = {known.name: known for known in declared}
        found = {}
        for name, value in data.items():
            if name in names:
                found[name] = _value(names[name], value)
            elif name not in others and len(self.unknown) <= MOST_NAMED:
                self.unknown[clipped(clean(name), 40)] = None
        return found

    def notes(self, source: str) -> Iterator[str]:
        """What was left out, each kind in a sentence."""
        if self.wrong:
            count = len(self.wrong)
            skipped = "1 record was skipped" if count == 1 else f"{count} records were skipped"
            yield f"{source}: {skipped}; {self.wrong[0]}"
        if self.unknown:
            shown = [f"`{name}`" for name in self.unknown][:MOST_NAMED]
            more = " and others" if len(self.unknown) > MOST_NAMED else ""
            yield f"{source}: fields that are not known were left aside: {', '.join(shown)}{more}"


def _value(known: Known, value: Any) -> Any:
    """A field's value; raises where it is not of the field's kind."""
    made = _READS[known.kind](value)
    if made is None:
        raise _Wrong(f"`{known.name}` is not {_KINDS[known.kind]}")
    if known.name == "date" and made and not _is_day(made):
        raise _Wrong("`date` is not a day such as 2026-03-14")
    return made


def _text(value: Any) -> str | None:
    return clean(value) if isinstance(value, str) else None


def _texts(value: Any) -> tuple[str, ...] | None:
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        return None
    return tuple(map(clean, value[:MOST_TEXTS]))


def _number(value: Any) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        made = float(value)
    except OverflowError:
        return None
    return made if math.isfinite(made) else None


def _whole(value: Any) -> int | None:
    made = _number(value)
    return int(made) if made is not None and made.is_integer() and abs(made) <= MOST_WHOLE else None


def _truth(value: Any) -> bool | None:
    return value if isinstance(value, bool) else None


def _is_day(text: str) -> bool:
    try:
        return bool(_IS.match(text)) and bool(date.fromisoformat(text))
    except ValueError:
        return False


_READS: dict[str, Callable[[Any], Any]] = {
    "text": _text,
    "texts": _texts,
    "number": _number,
    "whole": _whole,
    "truth": _truth,
}
_KINDS = {
    "text": "a text",
    "texts": "a list of texts",
    "number": "a number",
    "whole": "a whole number",
    "truth": "true or false",
}
