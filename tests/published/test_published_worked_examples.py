"""Worked examples of joints and of cutting from books: that there are enough of them.

Each value is worked out by the test of its own file; here it is only counted, by its source.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

JOINTS = (
    *("pressing", "threads", "screw_cutting", "tapped_holes", "taper_setting", "tapers"),
    *("fits", "holes", "drilling"),
)
CUTTING = ("cutting", "forces", "bending", "passes", "finish", "tool_life")
EXAMPLE = re.compile(r"\b(?:examples?|problem|exercise|worked)\b", re.IGNORECASE)
# What was read of these books, each example by itself.
BOOKS = (
    "Shigley, Mechanical Engineering Design",
    "Bhandari, Design of Machine Elements",
    "Bhavikatti, Strength of Materials",
    "Juvinall and Marshek, Fundamentals of Machine Component Design",
    "F. D. Jones, Turning and Boring, 1914",
    "J. Rose, Modern Machine-Shop Practice",
    "Machine Drawing",
)


def examples(name: str) -> dict[str, list[dict[str, Any]]]:
    """The worked examples of a file: what a source says up to its first remark, with its values."""
    lists = json.loads(Path(__file__).with_name(f"{name}.json").read_text("utf-8"))
    found: dict[str, list[dict[str, Any]]] = {}
    for values in lists.values():
        for value in values if isinstance(values, list) else ():
            source = value.get("source", "") if isinstance(value, dict) else ""
            if EXAMPLE.search(source) and value.get("confidence", "read") == "read":
                found.setdefault(re.split(r" \(|[;:]", source)[0], []).append(value)
    return found


ALL = {source: values for name in JOINTS for source, values in examples(name).items()}
# An example that is also read backwards is one example.
FROM_BOOKS = [each for each in ALL if each.startswith(BOOKS) and "backwards" not in each]


def test_at_least_fifteen_worked_examples_were_read_in_textbooks_and_handbooks() -> None:
    assert len(FROM_BOOKS) >= 15, FROM_BOOKS
    assert len(ALL) >= 30, list(ALL)


def test_at_least_twenty_worked_examples_of_cutting_were_read() -> None:
    per_file = {name: list(examples(name)) for name in CUTTING}
    assert all(per_file.values()), per_file
    assert len({source for sources in per_file.values() for source in sources}) >= 20


@pytest.mark.parametrize("book", BOOKS)
def test_each_book_that_is_counted_has_an_example(book: str) -> None:
    assert any(source.startswith(book) for source in FROM_BOOKS)


def test_shrink_fits_are_among_them() -> None:
    shrunk = [value for value in ALL[_of("Shigley", "3-68")] if value["formula"] == "lame_pressure"]
    assert shrunk
    assert all(value["expected"][0] > 0 for value in shrunk)
    heated = [v for values in examples("pressing").values() for v in values]
    assert any(v.get("formula") == "heated_diameter_growth" for v in heated)


def _of(book: str, number: str) -> str:
    (found,) = (each for each in ALL if each.startswith(book) and each.endswith(number))
    return found
