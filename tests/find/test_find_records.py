"""Records of setups: what of a page is kept, and which day counts."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

from shoplog.find import history
from shoplog.find.clean import MOST_TEXT
from shoplog.find.history import Days, days_of
from shoplog.find.record import Figures, Record
from shoplog.find.records import material_iso, material_names, records_of
from shoplog.log import read_log

SHOP = """\
machines:
  - name: bench lathe
    kind: lathe
    speeds: 290 rpm, 1180 rpm
cutters:
  right-hand knife:
    kind: turning tool
    material: HSS
    nose radius: 0.4 mm
"""
JOURNAL = """\
---
part: shaft
date: 2026-03-01
---
# Shaft of [=journal]

```calc
journal = 16 mm f7
stock = 16.4 mm
```

```setup
date: 2026-03-14
step: 4
operation: turning, finish
feature: journal
material: bright mild steel
cutter: right-hand knife
machine: Bench Lathe
holding: three-jaw chuck
stick-out: 40 mm
diameter: stock
planned:
  cutting speed: 60 m/min
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
ran:
  speed: 1180 rpm
  feed: 0.0025 in/rev
  depth of cut: 0.4 mm off diameter
  coolant: none
outcome: good
fault: burr, own words
remarks: mirror finish: after the edge was stoned
pictures: one.jpg, two.jpg
```
"""


def records(*pages: str, **texts: str) -> list[Record]:
    """The records of pages that are given as texts, or by name."""
    named = {f"page-{number}.md": text for number, text in enumerate(pages, 1)}
    return list(records_of(read_log({**named, **texts}, shop_profile=SHOP)))


def setup(lines: str, *, head: str = "", title: str = "# Page") -> str:
    return f"{head}{title}\n\n```setup\n{lines}```\n"


def test_a_record_holds_what_the_setup_says_and_what_it_was_resolved_to() -> None:
    (found,) = records(**{"boat/shaft.md": JOURNAL})
    assert found == Record(
        page="boat/shaft.md",
        anchor="setup",
        line=12,
        run=1,
        date="2026-03-14",
        date_from="block",
        project="boat",
        part="shaft",
        title="Shaft of 16 mm f7",
        step=4,
        feature="journal",
        operation="turning, finish",
        operation_kind="turning",
        material="bright mild steel",
        material_row="C15",
        material_group="low-carbon steel",
        cutter="right-hand knife",
        cutter_name="right-hand knife",
        cutter_kind="turning tool",
        cutter_material="HSS",
        nose_radius_mm=0.4,
        machine="bench lathe",
        holding="three-jaw chuck",
        stick_out_mm=40.0,
        diameter_mm=16.4,
        outcome="good",
        fault=("burr", "own words"),
        remarks="mirror finish: after the edge was stoned",
        pictures=("one.jpg", "two.jpg"),
        planned=found.planned,
        ran=found.ran,
    )
    assert found.id == "boat/shaft.md#setup"


@pytest.mark.parametrize(
    ("cutter", "width"),
    [
        ("slitting saw", 1.6),
        ("parting tool, HSS, width 2 mm", 2.0),
        ("grooving tool, HSS, 1/16 in wide", 1.5875),
        ("grooving tool, HSS", None),
    ],
)
def test_the_width_of_a_cutter_is_in_its_record(cutter: str, width: float | None) -> None:
    shop = "cutters:\n  slitting saw: slitting saw, HSS, diameter 63 mm, 1.6 mm wide\n"
    page = setup(f"operation: grooving\ncutter: {cutter}\nran:\n  speed: 290 rpm\n")
    (found,) = records_of(read_log({"page.md": page}, shop_profile=shop))
    assert found.cutter_width_mm == pytest.approx(width)


def test_the_figures_of_a_record_are_in_the_units_that_their_names_say() -> None:
    (found,) = records(JOURNAL)
    assert found.planned is not None
    assert found.ran is not None
    # n = 1000 v / (pi D); a step of the machine is taken where its speeds are known.
    assert found.planned.feed_per_rev_mm == pytest.approx(0.06)
    assert found.ran.spindle_speed_rpm == pytest.approx(1180)
    assert found.ran.cutting_speed_m_per_min == pytest.approx(60.796, abs=1e-3)
    assert found.ran.feed_per_rev_mm == pytest.approx(0.0635)
    assert found.ran.feed_per_tooth_mm == pytest.approx(0.0635)
    assert found.ran.feed_rate_mm_per_min == pytest.approx(74.93)
    assert found.ran.depth_of_cut_mm == pytest.approx(0.2)
    assert found.ran.coolant == "none"
    assert found.figures is found.ran


def test_each_time_that_it_ran_is_a_record_with_its_own_outcome() -> None:
    text = setup(
        "operation: drilling\ncutter: drill, HSS, diameter 6 mm\n"
        "ran:\n  speed: 290 rpm\n  outcome: poor\n  remarks: it wandered\n"
        "ran:\n  speed: 1180 rpm\n  outcome: good\n"
        "remarks: in the vise\n"
    )
    one, two = records(text)
    assert [(r.run, r.outcome, r.remarks) for r in (one, two)] == [
        (1, "poor", "in the vise; it wandered"),
        (2, "good", "in the vise"),
    ]
    assert [one.id, two.id] == ["page-1.md#setup", "page-1.md#setup.2"]
    assert two.figures.spindle_speed_rpm == 1180


def test_a_plan_that_has_not_run_is_a_record_of_its_own() -> None:
    (found,) = records(setup("operation: turning\nplanned:\n  speed: 290 rpm\n"))
    assert (found.run, found.ran) == (0, None)
    assert found.figures == found.planned == Figures(spindle_speed_rpm=290.0)


def test_a_setup_without_figures_is_a_record_too() -> None:
    (found,) = records(setup("operation: filing by hand\n"))
    assert (found.operation_kind, found.planned, found.ran) == ("filing by hand", None, None)
    assert found.figures == Figures()


def test_a_feed_by_hand_and_a_feed_a_minute_are_kept() -> None:
    text = setup(
        "operation: slot milling\ncutter: slot drill, HSS, diameter 6 mm, 2 teeth\n"
        "ran:\n  speed: 500 rpm\n  feed: by hand\n"
        "ran:\n  speed: 500 rpm\n  feed: 60 mm/min\n"
    )
    by_hand, fed = records(text)
    assert by_hand.figures.by_hand
    assert by_hand.figures.feed_per_tooth_mm is None
    assert not fed.figures.by_hand
    assert fed.figures.feed_per_rev_mm == pytest.approx(0.12)
    assert fed.figures.feed_per_tooth_mm == pytest.approx(0.06)
    assert (fed.teeth, fed.size_mm) == (2, 6.0)


def test_a_drill_has_two_lips_and_a_turning_tool_one_edge() -> None:
    drill, tool = records(
        setup("operation: drilling\nran:\n  speed: 290 rpm\n  feed: 0.1 mm/rev\n"),
        setup("operation: turning\nran:\n  speed: 290 rpm\n  feed: 0.1 mm/rev\n"),
    )
    assert drill.figures.feed_per_tooth_mm == pytest.approx(0.05)
    assert tool.figures.feed_per_tooth_mm == pytest.approx(0.1)
    assert (drill.teeth, tool.teeth) == (None, None)


def test_no_edges_are_made_up_for_a_reamer() -> None:
    bare, told = records(
        setup("operation: reaming\nran:\n  speed: 62 rpm\n  feed: 0.2 mm/rev\n"),
        setup("operation: reaming\nteeth: 6\nran:\n  speed: 62 rpm\n  feed: 0.3 mm/rev\n"),
    )
    assert bare.figures.feed_per_rev_mm == pytest.approx(0.2)
    assert bare.figures.feed_per_tooth_mm is None
    assert told.figures.feed_per_tooth_mm == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("title", "shown"),
    [
        ("# Plain", "Plain"),
        ("# Shaft of [=bore]", "Shaft of 16.000 mm"),
        ("# [=bore] and [=bore to in] again", "16.000 mm and 0.6299 in again"),
        ("# Shaft of [=nothing]", "Shaft of [=nothing]"),
        ("# `[=bore]` as text", "`[=bore]` as text"),
        ("No heading", ""),
    ],
)
def test_a_title_is_shown_with_its_values(title: str, shown: str) -> None:
    text = f"{title}\n\n```calc\nbore = 16 mm\n```\n\n```setup\noperation: turning\n```\n"
    (found,) = records(text)
    assert found.title == shown


def test_a_private_setup_is_a_record_and_marked() -> None:
    (found,) = records(setup("operation: turning\nprivate: yes\n"))
    assert found.private


def test_a_word_that_is_no_outcome_is_kept_as_it_was_written() -> None:
    (found,) = records(setup("operation: turning\nran:\n  speed: 290 rpm\noutcome: so-so\n"))
    assert found.outcome == "so-so"


def test_a_material_of_no_row_is_kept_as_it_was_written() -> None:
    (found,) = records(setup("operation: turning\nmaterial: mystery bar\n"))
    assert (found.material, found.material_row, found.material_group) == ("mystery bar", "", "")
    assert material_names("mystery bar") == ()
    assert material_iso("mystery bar") == ""


def test_a_material_goes_by_its_names_its_group_and_its_letter() -> None:
    names = material_names("bright mild steel plate, annealed")
    assert {"C15", "1.0401", "1018", "EN32", "low-carbon steel", "mild steel", "ISO P"} <= {*names}
    assert "1045" not in names
    assert material_names("low-carbon steel")[0] == "steel"
    assert material_iso("free-cutting brass") == "N"


def test_a_text_is_one_line_without_what_steers_and_no_longer_than_is_kept() -> None:
    (found,) = records(setup(f"operation: turning\nremarks: a\x1b[31m\u202e b {'x' * 5000}\n"))
    assert found.remarks.startswith("a�[31m� b xxx")
    assert len(found.remarks) == MOST_TEXT


def test_the_day_is_that_of_the_block_else_of_the_page_else_of_its_history() -> None:
    head = "---\ndate: 2026-03-01\n---\n"
    texts = {
        "block.md": setup("date: 2026-03-14\noperation: turning\n", head=head),
        "page.md": setup("operation: turning\n", head=head),
        "git.md": setup("operation: turning\n"),
        "none.md": setup("operation: turning\n"),
    }
    days = dict.fromkeys(("block.md", "page.md", "git.md"), "2020-01-01")
    found = {r.page: (r.date, r.date_from) for r in records_of(read_log(texts), days)}
    assert found == {
        "block.md": ("2026-03-14", "block"),
        "page.md": ("2026-03-01", "page"),
        "git.md": ("2020-01-01", "git"),
        "none.md": ("", ""),
    }


def test_the_history_is_asked_for_the_pages_that_need_it_and_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[set[str]] = []

    def days(_docs: Path, keys: frozenset[str]) -> dict[str, str]:
        asked.append(set(keys))
        return {"b.md": "2020-01-01"}

    monkeypatch.setattr(history, "days_of", days)
    texts = {
        "a.md": setup("date: 2026-03-14\noperation: turning\n"),
        "b.md": setup("operation: turning\n"),
        "c.md": setup("operation: turning\n"),
    }
    of_pages = Days(tmp_path, texts)
    found = list(records_of(read_log({"a.md": texts["a.md"]}), of_pages))
    assert (asked, of_pages.asked) == ([], set())
    found = list(records_of(read_log(texts), of_pages))
    assert [r.date for r in found] == ["2026-03-14", "2020-01-01", ""]
    assert (asked, of_pages.asked) == ([{"a.md", "b.md", "c.md"}], {"b.md", "c.md"})


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """A folder of pages in a repository, whose commits are made by `commit`."""
    git(tmp_path, "init", "--quiet")
    docs = tmp_path / "docs"
    docs.mkdir()
    return docs


def git(folder: Path, *arguments: str, day: str = "2020-01-01") -> None:
    who = {"NAME": "Someone", "EMAIL": "someone@example.org", "DATE": f"{day}T12:00:00+0000"}
    named = {
        f"GIT_{role}_{key}": value for role in ("AUTHOR", "COMMITTER") for key, value in who.items()
    }
    subprocess.run(
        ["git", "-c", "commit.gpgSign=false", *arguments],
        cwd=folder,
        check=True,
        env=os.environ | named,
        capture_output=True,
    )


def commit(docs: Path, day: str) -> None:
    git(docs, "add", "--all", day=day)
    git(docs, "commit", "--quiet", "-m", day, day=day)


def test_a_page_has_the_day_that_it_came_into_the_history(repository: Path) -> None:
    (repository / "a.md").write_text("one\n")
    commit(repository, "2021-01-01")
    (repository / "a.md").write_text("two\n")
    (repository / "mür b.md").write_text("other\n")
    commit(repository, "2022-02-02")
    (repository / "new.md").write_text("never committed\n")
    assert days_of(repository, ["a.md", "mür b.md", "new.md"]) == {
        "a.md": "2021-01-01",
        "mür b.md": "2022-02-02",
    }
    assert days_of(repository, []) == {}


def test_a_page_that_was_renamed_keeps_its_day(repository: Path) -> None:
    (repository / "old.md").write_text("one\n")
    commit(repository, "2021-01-01")
    (repository / "sub").mkdir()
    git(repository, "mv", "old.md", "sub/new.md")
    commit(repository, "2022-02-02")
    (repository / "old.md").write_text("another page of that name\n")
    commit(repository, "2023-03-03")
    assert days_of(repository, ["sub/new.md", "old.md"]) == {
        "sub/new.md": "2021-01-01",
        "old.md": "2023-03-03",
    }


def test_without_git_or_a_repository_there_are_no_days(
    tmp_path: Path, repository: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (repository / "a.md").write_text("one\n")
    commit(repository, "2021-01-01")
    alone = tmp_path / "alone"
    alone.mkdir()
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    assert days_of(alone, ["a.md"]) == {}
    monkeypatch.setattr(history, "which", lambda _: None)
    assert days_of(repository, ["a.md"]) == {}


def test_programs_that_a_repository_names_are_not_run(repository: Path) -> None:
    (repository / "a.md").write_text("one\n")
    commit(repository, "2021-01-01")
    mark = repository.parent / "ran"
    program = repository.parent / "program"
    program.write_text(f"#!/bin/sh\ntouch '{mark}'\nexit 1\n")
    program.chmod(0o755)
    for key, value in (
        ("log.showSignature", "true"),
        ("gpg.program", str(program)),
        ("core.fsmonitor", str(program)),
        ("core.pager", str(program)),
        ("diff.external", str(program)),
        ("diff.own.command", str(program)),
        ("diff.own.textconv", str(program)),
    ):
        git(repository, "config", key, value)
    (repository.parent / ".gitattributes").write_text("*.md diff=own\n")
    # A signed commit: showing it asks the program whether the signature is good.
    signed = subprocess.run(
        ["git", "cat-file", "commit", "HEAD"], cwd=repository, check=True, capture_output=True
    ).stdout.replace(
        b"\n\n",
        b"\ngpgsig -----BEGIN PGP SIGNATURE-----\n \n x\n -----END PGP SIGNATURE-----\n\n",
        1,
    )
    made = (
        subprocess.run(
            ["git", "hash-object", "-t", "commit", "-w", "--stdin"],
            cwd=repository,
            input=signed,
            check=True,
            capture_output=True,
        )
        .stdout.decode()
        .strip()
    )
    git(repository, "update-ref", "HEAD", made)
    mark.unlink(missing_ok=True)
    subprocess.run(["git", "log"], cwd=repository, check=False, capture_output=True)
    assert mark.exists(), "this repository would have run its program"
    mark.unlink()
    assert days_of(repository, ["a.md"]) == {"a.md": "2021-01-01"}
    assert not mark.exists()


@pytest.mark.parametrize(
    ("teeth", "operation", "figures", "fed"),
    [
        (4, "slot milling", Figures(feed_per_tooth_mm=0.05, feed_per_rev_mm=0.2), (0.05, "tooth")),
        (2, "drilling", Figures(feed_per_tooth_mm=0.05, feed_per_rev_mm=0.1), (0.1, "rev")),
        (None, "turning", Figures(feed_per_tooth_mm=0.1, feed_per_rev_mm=0.1), (0.1, "rev")),
        (None, "slot milling", Figures(feed_per_tooth_mm=0.05), (0.05, "tooth")),
        (4, "face milling", Figures(feed_rate_mm_per_min=60.0), (60.0, "min")),
        (4, "face milling", Figures(), None),
    ],
)
def test_a_feed_is_told_as_the_trade_tells_it(
    teeth: int | None, operation: str, figures: Figures, fed: tuple[float, str] | None
) -> None:
    assert Record(teeth=teeth, operation_kind=operation, ran=figures).fed == fed
