"""`setups.json`: what is published, its schema, and files of other logs read within bounds."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, ValidationError

from shoplog.find import published
from shoplog.find.clean import MOST_TEXT
from shoplog.find.published import (
    SCHEMA,
    NotPublished,
    published_json,
    read_published,
    read_published_file,
    read_published_log,
)
from shoplog.find.published_fields import KINDS
from shoplog.find.record import FIGURES, RECORD, Figures, Record, record_from, told
from shoplog.find.records import records_of
from shoplog.log import read_folder, read_log

ROOT = Path(__file__).parent.parent.parent
RAN = Figures(
    spindle_speed_rpm=290.0,
    cutting_speed_m_per_min=23.5,
    feed_per_rev_mm=0.0635,
    by_hand=True,
    passes=3,
    coolant="none",
)
FULL = Record(
    page="boat-winch/bush.md",
    anchor="setup-2",
    line=12,
    run=1,
    date="2026-03-14",
    date_from="block",
    teeth=4,
    fault=("chatter", "burr"),
    remarks="ran well",
    diameter_mm=25.75,
    planned=Figures(),
    ran=RAN,
)
VALIDATOR = Draft202012Validator(SCHEMA)


def document(*records: Any, **head: Any) -> str:
    """A file with records as they are given, and a right head unless it is given."""
    right = {"schema": "urn:shoplog:setups:1", "version": 1, "log": "Other log"}
    return json.dumps({**right, "records": list(records), **head})


def one(**given: Any) -> dict[str, Any]:
    return {"page": "a.md", "anchor": "setup", **given}


def is_valid(text: str) -> bool:
    try:
        VALIDATOR.validate(json.loads(text))
    except ValidationError:
        return False
    return True


def test_the_schema_is_a_schema_and_describes_every_field_that_is_published() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    record, figures = SCHEMA["$defs"]["record"], SCHEMA["$defs"]["figures"]
    assert set(record["properties"]) == {one.name for one in fields(Record)} - {"private"}
    assert set(figures["properties"]) == {one.name for one in fields(Figures)}
    assert record["properties"]["diameter_mm"] == {
        "description": "The size before the cut: of the work, or the hole. In mm.",
        "type": "number",
    }
    assert {known.kind for known in (*RECORD, *FIGURES)} == set(KINDS)


def test_a_record_comes_back_as_it_was_published() -> None:
    text = published_json([FULL], name="Saltmarsh Lane")
    assert is_valid(text)
    found = read_published_log(text, "setups.json")
    assert found.records == (FULL,)
    assert (found.name, found.notes) == ("Saltmarsh Lane", ())
    assert read_published(text, "setups.json") == (FULL,)


def test_what_is_not_known_is_left_out() -> None:
    text = published_json([Record(page="a.md", anchor="setup", run=0)], name="Log")
    assert json.loads(text)["records"] == [{"page": "a.md", "anchor": "setup", "run": 0}]


def test_a_number_is_published_with_the_digits_that_mean_something() -> None:
    record = replace(FULL, ran=Figures(cutting_speed_m_per_min=200 / 3))
    (found,) = json.loads(published_json([record], name="Log"))["records"]
    assert found["ran"]["cutting_speed_m_per_min"] == 66.6666667


def test_a_private_record_is_not_published() -> None:
    secret = replace(FULL, page="hidden.md", private=True)
    text = published_json([secret, FULL], name="Log")
    assert "hidden" not in text
    assert "private" not in text
    assert read_published(text, "setups.json") == (FULL,)


def test_the_private_ones_are_there_where_their_author_asks_and_say_so() -> None:
    both = [FULL, replace(FULL, anchor="setup-3", private=True, remarks='{"a": 1}\n')]
    text = published_json(both, name="x", private=True)
    found = json.loads(text)["records"]
    assert [one.get("private", False) for one in found] == [False, True]
    assert [one["anchor"] for one in found] == ["setup-2", "setup-3"]
    assert [one.private for one in read_published(text, "x")] == [False, False]
    assert published_json([], name="x", private=True).endswith('"records":[\n\n]}\n')


def test_the_text_may_stand_in_a_script_as_it_is() -> None:
    record = replace(FULL, remarks="</script><script>alert(1)</script>")
    text = published_json([record], name="<!--")
    assert "<" not in text
    assert read_published(text, "setups.json") == (record,)


def test_the_records_of_the_demo_are_as_the_schema_says() -> None:
    records = list(records_of(read_folder(ROOT)))
    text = published_json(records, name="Saltmarsh Lane")
    assert len(records) >= 10
    VALIDATOR.validate(json.loads(text))
    found = read_published_log(text, "setups.json")
    assert found.notes == ()
    assert [record.id for record in found.records] == [
        record.id for record in records if not record.private
    ]


def test_a_record_is_the_same_after_it_was_told() -> None:
    private = replace(FULL, private=True)
    assert record_from(json.loads(json.dumps(told(private)))) == private


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        (one(diameter_mm="16"), "record 1: `diameter_mm` is not a number"),
        (one(diameter_mm=True), "record 1: `diameter_mm` is not a number"),
        (one(diameter_mm=[16]), "record 1: `diameter_mm` is not a number"),
        (one(teeth=2.5), "record 1: `teeth` is not a whole number"),
        (one(teeth=2**60), "record 1: `teeth` is not a whole number"),
        (one(remarks=3), "record 1: `remarks` is not a text"),
        (one(remarks=None), "record 1: `remarks` is not a text"),
        (one(fault="chatter"), "record 1: `fault` is not a list of texts"),
        (one(fault=["chatter", 1]), "record 1: `fault` is not a list of texts"),
        (one(date="14.3.2026"), "record 1: `date` is not a day such as 2026-03-14"),
        (one(ran=[]), "record 1: `ran` is no object"),
        (one(ran={"by_hand": "yes"}), "record 1: `by_hand` is not true or false"),
        (one(page=""), "record 1: it has no `page`"),
        ({"page": "a.md"}, "record 1: it has no `anchor`"),
        ("a.md", "record 1: it is no object"),
    ],
)
def test_a_record_that_is_not_as_the_schema_says_is_skipped_and_told(wrong: Any, why: str) -> None:
    text = document(wrong, one(remarks="this one is right"))
    found = read_published_log(text, "other.json")
    assert [record.remarks for record in found.records] == ["this one is right"]
    assert found.notes == (f"other.json: 1 record was skipped; {why}",)
    # An empty text is no page, which no schema of ours says; all else the schema refuses too.
    assert is_valid(text) == (isinstance(wrong, dict) and wrong.get("page") == "")


def test_a_day_that_is_on_no_calendar_is_told() -> None:
    found = read_published_log(document(one(date="2026-02-30")), "other.json")
    assert found.records == ()
    assert found.notes == (
        "other.json: 1 record was skipped; record 1: `date` is not a day such as 2026-03-14",
    )


def test_a_number_that_is_not_finite_is_no_number() -> None:
    for number in ("NaN", "Infinity", "1e999"):
        text = document(one()).replace('"anchor"', f'"diameter_mm": {number}, "anchor"')
        found = read_published_log(text, "other.json")
        assert found.records == ()
        assert found.notes == (
            "other.json: 1 record was skipped; record 1: `diameter_mm` is not a number",
        )


def test_several_skipped_records_are_counted_and_the_first_is_told() -> None:
    found = read_published_log(document(one(teeth="x"), one(), one(run="y")), "other.json")
    assert found.notes == (
        "other.json: 2 records were skipped; record 1: `teeth` is not a whole number",
    )


def test_fields_that_are_not_known_are_left_aside_and_told() -> None:
    text = document(one(colour="blue", private=True, ran={"noise": 3}))
    assert is_valid(text)
    (record,) = (found := read_published_log(text, "other.json")).records
    assert record == Record(page="a.md", anchor="setup", ran=Figures())
    assert found.notes == (
        "other.json: fields that are not known were left aside: `colour`, `private`, `noise`",
    )


def test_no_more_than_a_few_unknown_fields_are_named() -> None:
    found = read_published_log(document(one(**{f"x{n}": n for n in range(100)})), "other.json")
    assert found.notes[0].endswith("`x0`, `x1`, `x2`, `x3`, `x4` and others")


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "is not JSON: Expecting value at line 1, column 1"),
        ("{", "is not JSON: Expecting property name enclosed in double quotes at line 1, column 2"),
        ("[]", "is JSON, and not the setups of a log"),
        ("3", "is JSON, and not the setups of a log"),
        ('{"records": []}', "is JSON, and not the setups of a log"),
        (document(schema="urn:other"), "is JSON, and not the setups of a log"),
        (document(version="1"), "does not say which version of the schema it is of"),
        (document(version=True), "does not say which version of the schema it is of"),
        (document(version=2), "does not say which version of the schema it is of"),
        (
            document(version=2, schema="urn:shoplog:setups:2"),
            "is of version 2 of the schema; version 1 is read",
        ),
        (document(records={}), "has no list of `records`"),
        (document(records=None), "has no list of `records`"),
        ("[" * 100_000, "is nested too deeply; it was not read"),
        (
            document(one()).replace('"anchor"', f'"teeth": {"9" * 5000}, "anchor"'),
            "holds a number that is too long; it was not read",
        ),
    ],
)
def test_a_text_that_is_no_file_of_setups_is_refused(text: str, why: str) -> None:
    with pytest.raises(NotPublished) as refused:
        read_published(text, "other.json")
    assert str(refused.value) == f"other.json {why}"


def test_a_text_beyond_the_bounds_is_not_read(monkeypatch: pytest.MonkeyPatch) -> None:
    text = document(one(), one(), one())
    for bound, most, why in (
        ("MOST_BYTES", 100, "is larger than 100 bytes, and was not read"),
        ("MOST_RECORDS", 2, "holds 3 records, 2 at most; it was not read"),
        ("MOST_MARKS", 5, "holds more lists and values than a log has; it was not read"),
    ):
        with monkeypatch.context() as patched:
            patched.setattr(published, bound, most)
            with pytest.raises(NotPublished, match=f"^other.json {why}$"):
                read_published(text, "other.json")


def test_a_long_text_is_cut_to_what_a_record_keeps() -> None:
    (record,) = read_published(document(one(remarks="x" * 50_000_000)), "other.json")
    assert record.remarks == "x" * (MOST_TEXT - 1) + "…"


def test_what_steers_a_terminal_or_turns_a_line_is_taken_out_of_texts() -> None:
    remarks = "\x1b[2J\x1b]0;title\x07 \u202egnp.exe\u2066 \ud800 a\nb\r\nc\u2028d \U0001f600"
    (record,) = read_published(document(one(remarks=remarks, fault=["\x9b31m"])), "other.json")
    assert record.remarks == "�[2J�]0;title� �gnp.exe� � a b c d \U0001f600"
    assert record.fault == ("�31m",)
    published_json([record], name="Log").encode()


def test_a_file_is_read_with_its_mark_of_utf8(tmp_path: Path) -> None:
    file = tmp_path / "setups.json"
    file.write_bytes(b"\xef\xbb\xbf" + document(one(remarks="Messing, Ø 8")).encode())
    assert read_published_file(file).records[0].remarks == "Messing, Ø 8"


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (lambda file: None, "is not there"),
        (lambda file: file.mkdir(), "is no file"),
        (lambda file: file.write_bytes(b"\xff\xfe"), "is not UTF-8 text: byte 1 cannot be read"),
    ],
)
def test_a_file_that_cannot_be_read_is_refused(
    make: Callable[[Path], Any], why: str, tmp_path: Path
) -> None:
    file = tmp_path / "other.json"
    make(file)
    with pytest.raises(NotPublished) as refused:
        read_published_file(file)
    assert str(refused.value) == f"{file} {why}"


def test_no_more_of_a_file_is_read_than_its_bound(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(published, "MOST_BYTES", 1000)
    file = tmp_path / "other.json"
    file.write_text("x" * 1001)
    with pytest.raises(NotPublished, match=r"is larger than 1000 bytes, and was not read$"):
        read_published_file(file)


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=10,
)
NAMES = st.sampled_from([known.name for known in RECORD] + ["planned", "ran", "other"])


@given(st.lists(st.dictionaries(NAMES, ANYTHING, max_size=6) | ANYTHING, max_size=4))
def test_whatever_records_hold_nothing_but_a_refusal_comes_of_them(listed: list[Any]) -> None:
    text = document(*listed)
    try:
        found = read_published_log(text, "other.json")
    except NotPublished:
        return
    skipped = len(listed) - len(found.records)
    assert bool(skipped) == any("skipped" in note for note in found.notes)
    again = published_json(found.records, name=found.name)
    VALIDATOR.validate(json.loads(again))


@given(st.text())
def test_any_text_is_read_or_refused(text: str) -> None:
    with pytest.raises(NotPublished):
        read_published(text, "other.json")


def test_a_page_that_is_not_kept_as_records_publishes_none() -> None:
    page = "---\nrecords: no\n---\n# Page\n\n```setup\noperation: turning\n```\n"
    assert list(records_of(read_log({"page.md": page}))) == []


def test_the_page_of_the_form_lists_every_field_as_it_is_declared() -> None:
    text = (ROOT / "docs" / "reference" / "setups-json.md").read_text("utf-8")
    kinds = {
        "text": "text",
        "texts": "list of texts",
        "number": "number",
        "whole": "whole number",
        "truth": "true or false",
    }
    head, record, figures = (part.split("\n## ")[0] for part in text.split("\n## ")[1:4])
    for part, declared in ((record, RECORD), (figures, FIGURES)):
        rows = [line for line in part.splitlines() if line.startswith("| `")]
        wanted = [
            f"| `{known.name}` | {known.doc} |"
            f" {', '.join(filter(None, (kinds[known.kind], known.unit)))} |"
            for known in declared
            if known.name != "private"
        ]
        assert [row for row in rows if "| figures |" not in row] == wanted
    assert [f"| `{name}` |" in head for name in SCHEMA["properties"]] == [True] * 5
    assert f"`{published.SCHEMA_ID}`" in head
