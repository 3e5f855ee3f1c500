"""The JSON Schema of the shop profile, made from its declared keys: for editors, not for reading.

By it an editor completes the keys and marks what is wrong while it is typed. What only the tables
know (a thread, a taper, a material) and what a thing says in one line is left to the reader.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

from shoplog.log.profile import patterns
from shoplog.log.profile.keys import AXES, SHOP, THINGS, Reads, ShopKey, ShopThing
from shoplog.log.profile.patterns import Pattern, whole

__all__ = ["SCHEMA_FILE", "shop_schema"]

SCHEMA_ID = "urn:shoplog:shop-profile:1"
SCHEMA_FILE = ".shop.schema.json"
"""How a new log calls it, beside `shop.yml`."""

Schema = dict[str, Any]
# A text may look like a number or a truth to YAML, and is read as it is written.
_TEXT: Schema = {"type": ["string", "number", "boolean"], "pattern": r"\S"}
_LINE: Schema = {"type": ["string", "number", "boolean", "null"]}


@cache
def shop_schema() -> Schema:
    """The schema of `shop.yml`, by JSON Schema 2020-12."""
    values = {_slug(key): _VALUES[key.reads](key) for key in _shared()}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": SCHEMA_ID,
        "title": "Shop profile",
        "description": "What a workshop has. See the reference: shop profile keys.",
        "type": ["object", "null"],
        "additionalProperties": False,
        "properties": {key.name: _top(key) for key in SHOP.keys},
        "$defs": {**{_called(thing): _thing(thing) for thing in THINGS.values()}, **values},
    }


def _shared() -> Iterator[ShopKey]:
    """The keys whose values are defined once; a choice stands where it is."""
    for thing in (SHOP, *THINGS.values()):
        for key in thing.keys:
            if key.reads not in (Reads.CHOICE, Reads.CHOICES, Reads.THING, Reads.THINGS):
                yield key


def _called(thing: ShopThing) -> str:
    return thing.title.lower().replace(" ", "-")


def _slug(key: ShopKey) -> str:
    """What a kind of value is called: by what its key reads, and of which units."""
    either_way = "-either-way" if key.name == "error" else ""
    zero = "-or-0" if key.zero else ""
    words = re.sub(r"[^a-z0-9]+", "-", f"{key.reads.name.lower()} {' '.join(key.units)}".lower())
    return f"{words.strip('-')}{either_way}{zero}"


def _thing(thing: ShopThing) -> Schema:
    return {
        "title": thing.title,
        "type": "object",
        "additionalProperties": False,
        "properties": {key.name: _key(key) for key in thing.keys},
    }


def _key(key: ShopKey) -> Schema:
    """The schema of a value, with what the key is for."""
    told: Schema = {"description": key.doc}
    if key.examples:
        told["examples"] = list(key.examples)
    return {**told, **_value(key)}


def _value(key: ShopKey) -> Schema:
    if key.reads in (Reads.CHOICE, Reads.CHOICES):
        return _VALUES[key.reads](key)
    return {"$ref": f"#/$defs/{_slug(key)}"}


def _top(key: ShopKey) -> Schema:
    if key.name in THINGS:
        return {"description": key.doc, **_things(THINGS[key.name])}
    return _key(key)


# ---- things --------------------------------------------------------------------------------------


def _things(thing: ShopThing) -> Schema:
    """A list of things, their names with what stands behind each, one thing, or names in a line."""
    ref: Schema = {"$ref": f"#/$defs/{_called(thing)}"}
    alone = thing.lump or thing.alone
    line = _value(thing.by_name[thing.whole]) if thing.whole else _TEXT
    named = {
        **ref,
        "anyOf": [{"required": [one]} for one in dict.fromkeys(("name", thing.known_as))],
    }
    single = ref if alone else {**ref, "required": ["name"]}
    refused = list(thing.by_name) if alone else ["name"]
    by_name = {
        "type": "object",
        "minProperties": 1,
        "propertyNames": {"pattern": r"\S", "not": {"enum": refused}},
        "additionalProperties": {"anyOf": [ref, line if thing.whole else _LINE]},
    }
    several = {"type": "array", "items": {"anyOf": [named, _item(thing, line)]}}
    return {"anyOf": [single, by_name, several, line if thing.lump else _item(thing, line)]}


def _item(thing: ShopThing, line: Schema) -> Schema:
    """A thing of a list in one line."""
    key = thing.by_name[thing.whole] if thing.whole else None
    if key is not None and key.reads is Reads.SIZE:
        return _string(patterns.several(Pattern(key.units).size))
    return line


# ---- values --------------------------------------------------------------------------------------


def _string(pattern: str) -> Schema:
    return {"type": "string", "pattern": whole(pattern)}


def _list_of(one: Schema, several: str) -> Schema:
    """A list, or a text with commas between."""
    return {
        "anyOf": [_string(several), {"type": "array", "items": {"anyOf": [one, _string(several)]}}]
    }


def _text(_key: ShopKey) -> Schema:
    return dict(_TEXT)


def _remarks(_key: ShopKey) -> Schema:
    return {"anyOf": [_TEXT, {"type": "array", "items": _TEXT}]}


def _choice(key: ShopKey) -> Schema:
    words: list[str | int] = list(key.choices)
    words += [int(word) for word in key.choices if word.isdigit()]
    return {"anyOf": [{"enum": words}, _string(patterns.one_of(key.choices))]}


def _choices(key: ShopKey) -> Schema:
    one = {"enum": list(key.choices)}
    several = _list_of(one, patterns.several(patterns.one_of(key.choices)))
    return {"anyOf": [one, *several["anyOf"]]}


def _of(key: ShopKey) -> Pattern:
    return Pattern(key.units, zero=key.zero)


def _quantity(key: ShopKey) -> Schema:
    of = _of(key)
    return _string(of.error if key.name == "error" else of.with_words)


def _ends(key: ShopKey) -> Schema:
    """A line from: and a line to:."""
    of = _of(key)
    start = {"anyOf": [_string(f"{of.quantity}|{of.bare}"), {"type": "number", "minimum": 0}]}
    return {
        "type": "object",
        "additionalProperties": False,
        "required": ["from", "to"],
        "properties": {"from": start, "to": _string(of.quantity)},
    }


def _range(key: ShopKey) -> Schema:
    return {"anyOf": [_string(_of(key).range), _ends(key)]}


def _steps(key: ShopKey) -> Schema:
    of = _of(key)
    listed = _list_of(_string(of.quantity), of.list)
    row = {"type": "object", "additionalProperties": _string(of.quantity)}
    table = {
        "type": "object",
        "propertyNames": {"not": {"enum": ["from", "to"]}},
        "additionalProperties": {"anyOf": [*listed["anyOf"], row]},
    }
    return {"anyOf": [*listed["anyOf"], _string(of.range), _ends(key), table]}


def _axes(key: ShopKey) -> Schema:
    size = _string(_of(key).quantity)
    lines = {
        "type": "object",
        "additionalProperties": False,
        "minProperties": 1,
        "properties": dict.fromkeys(AXES, size),
        "patternProperties": {whole(patterns.AXIS): size},
    }
    listed = _list_of(_string(_of(key).axes), _of(key).axes)
    return {"anyOf": [*listed["anyOf"], lines]}


def _count(_key: ShopKey) -> Schema:
    number = {"type": "integer", "minimum": 1, "maximum": 1000}
    return {"anyOf": [number, _string(patterns.COUNT)]}


def _counts(key: ShopKey) -> Schema:
    one = _count(key)
    return {"anyOf": [*one["anyOf"], *_list_of(one, patterns.several(patterns.COUNT))["anyOf"]]}


def _ratio(_key: ShopKey) -> Schema:
    number = {"type": "number", "minimum": 1, "maximum": 1000}
    return {"anyOf": [number, _string(patterns.RATIO)]}


def _lengths(key: ShopKey) -> Schema:
    return _list_of(_string(_of(key).quantity), _of(key).list)


def _bar(key: ShopKey) -> Schema:
    return _string(_of(key).bar)


def _size(key: ShopKey) -> Schema:
    return _string(_of(key).size)


def _threads(_key: ShopKey) -> Schema:
    return {"anyOf": [_TEXT, {"type": "array", "items": _TEXT}]}


def _blocks(key: ShopKey) -> Schema:
    return {"anyOf": [*_choice(key)["anyOf"], *_lengths(key)["anyOf"]]}


def _plates(key: ShopKey) -> Schema:
    circles = _counts(key)
    rows = {"type": "object", "additionalProperties": circles}
    return {"anyOf": [*circles["anyOf"], rows, {"type": "array", "items": circles}]}


_VALUES: dict[Reads, Callable[[ShopKey], Schema]] = {
    Reads.TEXT: _text,
    Reads.REMARKS: _remarks,
    Reads.CHOICE: _choice,
    Reads.CHOICES: _choices,
    Reads.QUANTITY: _quantity,
    Reads.RANGE: _range,
    Reads.STEPS: _steps,
    Reads.AXES: _axes,
    Reads.COUNT: _count,
    Reads.COUNTS: _counts,
    Reads.RATIO: _ratio,
    Reads.LENGTHS: _lengths,
    Reads.BAR: _bar,
    Reads.SIZE: _size,
    Reads.LEADSCREW: _quantity,
    Reads.TAPER: _text,
    Reads.THREADS: _threads,
    Reads.BLOCKS: _blocks,
    Reads.PLATES: _plates,
    Reads.MATERIAL: _text,
}
