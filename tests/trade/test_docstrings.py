"""Every offered formula says in its docstring what its signature says, and where it comes from."""

from __future__ import annotations

import inspect
import re

import pytest

from shoplog.calc.wrong import RESERVED
from shoplog.trade.declare import In, Offer, Size, readable_fields
from shoplog.trade.offers import OFFERS

PARAMETER = re.compile(r"(\w+) : .+ \[([^\]]+)\]")
RETURN = re.compile(r"\S.* \[([^\]]+)\]")

formulas = pytest.mark.parametrize("offer", OFFERS.values(), ids=OFFERS)


def sections(offer: Offer) -> dict[str, list[str]]:
    """The docstring's sections by their heading, each as its lines."""
    lines = (inspect.getdoc(offer.function) or "").splitlines()
    found: dict[str, list[str]] = {"": []}
    heading = ""
    for line, below in zip(lines, [*lines[1:], ""], strict=True):
        if line and set(below) == {"-"} and len(below) == len(line):
            heading = line
            found[heading] = []
        elif not (line and set(line) == {"-"}):
            found[heading].append(line)
    return found


def heads(lines: list[str]) -> list[str]:
    """The lines of a section that are not indented: one an entry."""
    return [line for line in lines if line and not line.startswith(" ")]


def unit_of(kinds: tuple[object, ...]) -> str:
    """What a docstring writes between the brackets: a unit, or `-` where there is none."""
    inner = [kind.__args__[0] if hasattr(kind, "__args__") else kind for kind in kinds]
    units = {kind.unit for kind in inner if isinstance(kind, In)}
    units |= {"mm" for kind in inner if kind is Size}  # a length with limits
    assert len(units) <= 1, f"units of one parameter differ: {units}"
    return (units.pop() if units else "") or "-"


def written_parameters(offer: Offer) -> list[tuple[str, str] | str]:
    """Name and unit of each parameter as the docstring has them; a line that has neither, whole."""
    lines = heads(sections(offer).get("Parameters", []))
    return [(m[1], m[2]) if (m := PARAMETER.fullmatch(line)) else line for line in lines]


def test_formulas_are_offered() -> None:
    assert {"spindle_speed", "taper", "bolt_circle"} <= set(OFFERS)


@formulas
def test_docstring_opens_with_one_plain_sentence(offer: Offer) -> None:
    assert re.fullmatch(r"[A-Z].*[.]", offer.summary)


@formulas
def test_parameters_are_those_of_the_signature_in_order_with_their_units(offer: Offer) -> None:
    assert written_parameters(offer) == [
        (parameter.name, unit_of(parameter.kinds)) for parameter in offer.parameters
    ]


@formulas
def test_return_has_the_unit_of_the_signature(offer: Offer) -> None:
    written = heads(sections(offer).get("Returns", []))
    assert [m[1] if (m := RETURN.fullmatch(line)) else line for line in written] == [
        unit_of(offer.returns)
    ]


@formulas
def test_examples_can_be_run(offer: Offer) -> None:
    assert any(line.startswith(">>> ") for line in sections(offer).get("Examples", []))


@formulas
def test_references_are_given(offer: Offer) -> None:
    assert "".join(sections(offer).get("References", [])).strip()


@formulas
def test_source_is_given(offer: Offer) -> None:
    assert offer.source.strip()


@pytest.mark.parametrize(
    ("docstring", "wrong"),
    [
        ("A sum.\n\nParameters\n----------\none : float [in]\n    It.\n", [("one", "in")]),
        ("A sum.\n\nParameters\n----------\none : float\n    It.\n", ["one : float"]),
        ("A sum.\n", []),
    ],
    ids=["another unit", "no unit", "no section"],
)
def test_a_docstring_that_differs_from_its_signature_is_seen(
    docstring: str, wrong: list[object]
) -> None:
    def formula(one: float) -> float:
        return one

    formula.__doc__ = docstring
    written = written_parameters(Offer("formula", formula, ""))
    assert written == wrong
    assert written != [("one", "-")]


@pytest.mark.parametrize("offer", OFFERS.values(), ids=OFFERS)
def test_no_argument_or_field_bears_a_word_of_the_language(offer: Offer) -> None:
    """Or no page could write it: `o_ring_groove(…, use="static")`."""
    names = {parameter.name for parameter in offer.parameters}
    for kind in offer.returns:
        if hasattr(kind, "__dataclass_fields__"):
            names |= readable_fields(kind).keys()
    assert names.isdisjoint(set(RESERVED) - {"measured"})
