"""The nearest past setups: what counts, in which order, and why each is near."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.find.asking import Answer, Source, answer, nearest_to
from shoplog.find.indexing.rows import page_rows
from shoplog.find.indexing.stamps import Stamp
from shoplog.find.indexing.store import Store
from shoplog.find.indexing.stored import PageRow
from shoplog.find.nearness import Likeness
from shoplog.find.questions import Question
from shoplog.find.record import Figures, Record
from shoplog.find.wrong import WrongQuestion

SLOT = {
    "operation": "slot milling, finish",
    "operation_kind": "slot milling",
    "material": "bright mild steel",
    "material_row": "C15",
    "material_group": "low-carbon steel",
    "cutter": "end mill, HSS, diameter 10 mm",
    "cutter_kind": "end mill",
    "cutter_material": "HSS",
    "cutter_diameter_mm": 10.0,
}
MILD = {"material": "mild steel", "material_row": "steel", "material_group": "low-carbon steel"}
C45 = {"material": "C45", "material_row": "C45", "material_group": "medium-carbon steel"}
BRASS = {"material": "brass", "material_row": "brass", "material_group": "free-cutting brass"}


def record(page: str, **given: Any) -> Record:
    ran = Figures(spindle_speed_rpm=500.0)
    usual = {"anchor": "setup", "line": 3, "run": 1, "ran": ran}
    return Record(page=page, **{**usual, **SLOT, **given})


def filled(*records: Record) -> Store:
    store = Store.in_memory()
    pages: dict[str, list[Record]] = {}
    for one in records:
        pages.setdefault(one.page, []).append(one)
    for page, of_page in pages.items():
        store.replace(page, page_rows(of_page))
        store.set_page(page, PageRow(Stamp(1, 1, 1), 1, "digest"))
    return store


def near(store: Store, setup: str, **given: Any) -> Answer:
    own = Source(store, "docs/")
    like, except_for = nearest_to(own, setup)
    return answer(Question(**given), [own], like=like, except_for=except_for)


def pages(found: Answer) -> list[str]:
    return [one.record.page for one in found.found]


def test_what_has_more_in_common_is_nearer() -> None:
    records = (
        record("asked.md"),
        record("brass.md", **BRASS),
        record("iso.md", **C45),
        record("group.md", **MILD),
        record("same.md"),
        record("size.md", cutter_diameter_mm=40.0),
        record("edge.md", cutter_material="carbide"),
        record("rough.md", operation="slot milling, rough"),
        record("cutter.md", cutter_kind="slot drill"),
        record("kin.md", operation="face milling, finish", operation_kind="face milling"),
    )
    with closing(filled(*records)) as store:
        found = near(store, "asked.md#setup")
        assert pages(found) == [
            "same.md",
            *("cutter.md", "edge.md", "group.md", "rough.md"),  # a point less each
            "kin.md",
            *("iso.md", "size.md"),
            "brass.md",
        ]
        assert found.count == 9


def test_each_answer_says_why_it_is_near() -> None:
    records = (
        record("asked.md"),
        record("same.md"),
        record("kin.md", operation_kind="face milling", operation="face milling", **C45),
        record("far.md", cutter_diameter_mm=50.0, cutter_kind="", cutter_material="", **BRASS),
    )
    with closing(filled(*records)) as store:
        why = {one.record.page: one.why for one in near(store, "asked.md#setup").found}
    assert why == {
        "same.md": (
            "also slot milling",
            "the same material (C15)",
            "10 mm against 10 mm",
            "also to finish",
            "the same kind of cutter (end mill)",
            "the same edge (HSS)",
        ),
        "kin.md": (
            "10 mm against 10 mm",
            "face milling, also milling",
            "the same ISO 513 group (P)",
            "the same kind of cutter (end mill)",
            "the same edge (HSS)",
        ),
        "far.md": ("also slot milling", "also to finish"),
    }


def test_only_what_ran_and_is_of_its_kind_counts_and_never_the_setup_itself() -> None:
    records = (
        record("asked.md"),
        record("asked.md", run=2),
        record("other.md"),
        record("planned.md", run=0, ran=None),
        record("turning.md", operation="turning", operation_kind="turning"),
    )
    with closing(filled(*records)) as store:
        found = near(store, "asked.md#setup")
        assert pages(found) == ["other.md"]
    with closing(filled(record("asked.md"))) as store:
        assert near(store, "asked.md#setup").count == 0


def test_nearness_and_conditions_go_together() -> None:
    records = (record("asked.md"), record("a.md", outcome="good"), record("b.md", outcome="poor"))
    with closing(filled(*records)) as store:
        assert pages(near(store, "asked.md#setup", outcomes=("poor",))) == ["b.md"]
        none = near(store, "asked.md#setup", outcomes=("spoiled",))
        assert none.loosened == (("--outcome spoiled", 2),)


def test_a_setup_without_an_operation_is_near_by_the_rest() -> None:
    nothing = {"operation": "", "operation_kind": ""}
    records = (record("asked.md", **nothing), record("other.md"), record("x.md", **BRASS))
    with closing(filled(*records)) as store:
        assert pages(near(store, "asked.md#setup")) == ["other.md", "x.md"]


def test_another_logs_setups_are_near_too() -> None:
    with (
        closing(filled(record("asked.md"), record("b.md", **MILD))) as store,
        closing(filled(record("asked.md"))) as other,
    ):
        own, theirs = Source(store), Source(other, whose="Other log")
        like, except_for = nearest_to(own, "asked.md")
        found = answer(Question(), [own, theirs], like=like, except_for=except_for)
        assert [(one.record.page, one.whose) for one in found.found] == [
            ("asked.md", "Other log"),
            ("b.md", ""),
        ]


@pytest.fixture(scope="module")
def store() -> Iterator[Store]:
    records = (
        record("boat/bush.md"),
        record("boat/bush.md", anchor="setup-2"),
        record("mill/bush.md"),
        record("boat/shaft.md"),
    )
    pages: dict[str, list[Record]] = {}
    for one in records:
        pages.setdefault(one.page, []).append(one)
    with closing(filled()) as made:
        for page, of_page in pages.items():
            made.replace(page, page_rows(of_page))
            made.set_page(page, PageRow(Stamp(1, 1, 1), 1, "digest"))
        made.set_page("boat/none.md", PageRow(Stamp(1, 1, 1), 1, "digest"))
        yield made


@pytest.mark.parametrize(
    ("asked", "setup"),
    [
        ("boat/shaft.md#setup", ("boat/shaft.md", "setup")),
        ("boat/shaft.md", ("boat/shaft.md", "setup")),
        ("boat/shaft", ("boat/shaft.md", "setup")),
        ("shaft", ("boat/shaft.md", "setup")),
        ("docs/boat/shaft.md#setup", ("boat/shaft.md", "setup")),
        ("./boat/shaft.md#setup", ("boat/shaft.md", "setup")),
        ("boat\\shaft.md#setup", ("boat/shaft.md", "setup")),
        ("boat/bush.md#setup-2", ("boat/bush.md", "setup-2")),
        ("boat/bush.md#setup-2.3", ("boat/bush.md", "setup-2")),
    ],
)
def test_a_setup_is_named_by_its_page_and_its_anchor(
    store: Store, asked: str, setup: tuple[str, str]
) -> None:
    assert nearest_to(Source(store, "docs/"), asked)[1] == setup


@pytest.mark.parametrize("asked", ["bush #2.md", "bush #2.md#setup"])
def test_a_file_s_name_may_hold_the_mark_of_an_anchor(asked: str) -> None:
    with closing(filled(record("boat/bush #2.md"), record("boat/bush.md"))) as store:
        assert nearest_to(Source(store), asked)[1] == ("boat/bush #2.md", "setup")


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ("bush", "--like: `bush.md` could be boat/bush.md or mill/bush.md"),
        (
            "boat/shaf.md",
            "--like: there is no page `boat/shaf.md`; did you mean boat/shaft.md?",
        ),
        ("zzz", "--like: there is no page `zzz.md`"),
        ("", "--like: there is no page `.md`"),
        ("\x1b[2J", "--like: there is no page `�[2J.md`"),
        (
            "boat/bush.md#setup-9",
            "--like: boat/bush.md has no setup `setup-9`; it has setup, setup-2",
        ),
        ("boat/none.md", "--like: boat/none.md has no setup `setup`; it has no setup"),
    ],
)
def test_a_setup_that_there_is_not_is_refused(store: Store, asked: str, why: str) -> None:
    with pytest.raises(WrongQuestion) as refused:
        nearest_to(Source(store, "docs/"), asked)
    assert str(refused.value) == why


SETUPS = st.tuples(
    *(st.sampled_from(["", "slot milling", "milling"]), st.sampled_from(["", "finish"])),
    *(st.sampled_from(["", "C15"]), st.sampled_from(["", "steel"]), st.sampled_from(["", "P"])),
    *(st.sampled_from(["", "end mill"]), st.sampled_from(["", "HSS"])),
    st.none() | st.floats(0.01, 1e4),
)


@given(SETUPS, SETUPS)
def test_nearness_is_mutual_and_nothing_is_nearer_than_the_same(one: Any, other: Any) -> None:
    here, there = Likeness(*one), Likeness(*other)
    assert here.score(*other) == pytest.approx(there.score(*one))
    assert 0 <= here.score(*other) <= here.score(*one) + 1e-9
    assert len(here.why(*other)) <= 6


@given(st.floats(0.1, 100), st.floats(0.1, 100))
def test_a_size_that_differs_more_counts_less(one: float, other: float) -> None:
    """By the ratio, whichever way round: twice counts as half does."""
    like = Likeness("", "", "", "", "", "", "", 10.0)
    blank = ("", "", "", "", "", "", "")
    assert like.score(*blank, 20.0) == pytest.approx(1.0)
    assert like.score(*blank, 5.0) == pytest.approx(1.0)
    assert like.score(*blank, 40.0) == 0
    nearer, farther = sorted((one, other), key=lambda size: max(size / 10, 10 / size))
    assert like.score(*blank, nearer) >= like.score(*blank, farther) - 1e-9
