"""Speeds, feeds, rates and times against published tables and worked examples (cutting.json)."""

from __future__ import annotations

import json
from functools import reduce
from pathlib import Path
from typing import Any

import pytest

import shoplog.trade.hole_work.holes
import shoplog.trade.machining.cutting
import shoplog.trade.taper_work.tapers  # noqa: F401  offers what the three files of values call
from shoplog.trade.declare import In, readable_fields
from shoplog.trade.offers import OFFERS
from shoplog.units import convert, unit


def published(name: str) -> Any:
    """Parametrise a test with every value of a file, each under its own id."""
    text = Path(__file__).with_name(f"{name}.json").read_text("utf-8")
    values = json.loads(text)["values"]
    return pytest.mark.parametrize("value", values, ids=[value["id"] for value in values])


def found(value: dict[str, Any]) -> float:
    """What the formula gives for a published value, in the unit that it is published in."""
    offer = OFFERS[value["formula"]]
    kinds = {parameter.name: parameter.kinds for parameter in offer.parameters}
    given = {name: _argument(what, kinds[name]) for name, what in value["given"].items()}
    result = offer.function(**given)
    (kind,) = offer.returns
    for step in filter(None, value.get("field", "").split(".")):
        result, kind = _inside(result, kind, step)
    return convert(result, unit(kind.unit), unit(value["expected"][1]), loose=True)


def _argument(what: Any, kinds: tuple[Any, ...]) -> Any:
    """A quantity in the parameter's unit, a record from its text, or what stands there."""
    if isinstance(what, list):
        (wanted,) = (kind for kind in kinds if isinstance(kind, In))
        return convert(what[0], unit(what[1]), unit(wanted.unit), loose=True)
    reads = [kind.from_text for kind in kinds if hasattr(kind, "from_text")]
    return reduce(lambda text, read: read(text), reads, what)


def _inside(result: Any, kind: Any, step: str) -> tuple[Any, Any]:
    """A field of a record, or an item of a list, with its kind."""
    if step.isdecimal():
        return result[int(step)], kind.__args__[0]
    return getattr(result, step), readable_fields(kind)[step][0]


@published("cutting")
def test_cutting_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


@pytest.mark.parametrize("name", ["cutting", "tapers", "holes"])
def test_every_value_has_its_source_and_says_whether_it_was_read(name: str) -> None:
    values = published(name).args[1]
    assert all(value["source"] for value in values)
    assert {value["confidence"] for value in values} == {"read", "from memory"}


@pytest.mark.parametrize("name", ["cutting", "tapers", "holes"])
def test_a_value_that_is_off_would_be_seen(name: str) -> None:
    # A tolerance that swallows more than a twentieth of the value checks little.
    for value in published(name).args[1]:
        assert value["tolerance"] <= 0.05 * max(abs(value["expected"][0]), 0.15), value["id"]
