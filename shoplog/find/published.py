"""`setups.json`: the records that a log publishes, and those of another log read back.

The schema is made from the declaration of a record, so a field is described once. A file of another
log is a stranger's: it is read within bounds, field by field, and nothing in it is believed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Any, NoReturn

from shoplog.find.clean import clean, clipped
from shoplog.find.published_fields import (
    DAY,
    MOST_TEXTS,
    MOST_WHOLE,
    PUBLISHED,
    REQUIRED,
    Reader,
)
from shoplog.find.record import FIGURES, Known, Record, told

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
DIGITS = 9  # that a number is published with


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
    day = {"pattern": DAY} if known.name == "date" else {}
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
            "required": list(REQUIRED),
            "properties": {
                **_properties(PUBLISHED),
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


def published_json(records: Iterable[Record], *, name: str, private: bool = False) -> str:
    """The text of `setups.json`: every record that is not private, one a line.

    Parameters
    ----------
    records : iterable of Record [-]
        Of the whole log.
    name : str [-]
        What the log is called.
    private : bool [-]
        Whether private ones are among them, for their author's own use; each is then marked by
        `"private":true`, which the published form does not know.

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
        _line(_published(record)) for record in records if private or not record.private
    )
    return f'{_line(head)[:-1]},"records":[\n{lines}\n]}}\n'


def _published(record: Record) -> dict[str, Any]:
    mark = {"private": True} if record.private else {}
    return {**mark, **_shown(told(record, PUBLISHED))}


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
    reader = Reader()
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
        data = json.loads(text, parse_constant=lambda _: None)
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
