"""A log worked out as a whole: twice where `past(…)` is asked, and never round in a circle."""

from __future__ import annotations

from pathlib import Path

import pytest
from past_pages import calc, notes_of, page, plan, problems_of, setup, value_of, whole_of

from shoplog.find import whole as whole_module
from shoplog.find.whole import work_out_folder, work_out_log
from shoplog.log import NoLog, read_folder, read_log

TURNING = 'past("turning", "mild steel")'


@pytest.fixture
def readings(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How often a log was worked out: one entry each time."""
    made: list[int] = []

    def counted(*args: object, **settings: object) -> object:
        made.append(1)
        return read_log(*args, **settings)  # type: ignore[arg-type]

    monkeypatch.setattr(whole_module, "read_log", counted)
    return made


def test_a_log_that_asks_nothing_is_worked_out_once(readings: list[int]) -> None:
    texts = {"bush.md": page(setup()), "note.md": "Here `past(…)` is a word, and past(x) another."}
    whole = work_out_log(texts)
    assert len(readings) == 1
    assert whole.log == read_log(texts)
    assert [record.id for record in whole.records] == ["bush.md#setup"]


def test_a_log_that_asks_is_worked_out_twice(readings: list[int]) -> None:
    whole = whole_of(bush=page(setup()), ask=calc(f"p = {TURNING}"))
    assert len(readings) == 2
    assert value_of(whole, "p").count == 1


def test_what_hangs_on_an_answer_waits_for_it_and_is_then_worked_out() -> None:
    text = calc(
        f"p = {TURNING}\nv = p.cutting_speed\nn = spindle_speed(v, 20 mm)\ncheck n < 500 rpm"
    )
    whole = whole_of(bush=page(setup()), ask=f"{text}\nTurn at [=v].\n")
    assert problems_of(whole) == []
    assert value_of(whole, "n").nominal == pytest.approx(400)
    prose = whole.log.pages["ask.md"].prose["v"].value
    assert prose is not None
    assert prose.nominal == pytest.approx(25.13, abs=0.01)


def test_a_plan_may_take_its_figures_from_the_past_directly() -> None:
    next_one = plan(speed="").replace(
        "planned:\n", f"planned:\n  cutting speed: {TURNING}.cutting_speed\n"
    )
    whole = whole_of(bush=page(setup()), next=page(next_one))
    (record,) = [one for one in whole.records if one.page == "next.md"]
    assert record.planned is not None
    assert record.planned.cutting_speed_m_per_min == pytest.approx(25.13, abs=0.01)


def asking(name: str, speed: str = "", material: str = "mild steel") -> str:
    """A page that asks, and whose setup ran at what it was told, or at a speed of its own."""
    asked = calc(f'{name} = past("turning", "{material}").speed')
    return asked + page(setup(speed=speed or name))


def test_two_pages_that_run_at_what_the_other_says_go_round_in_no_circle() -> None:
    whole = whole_of(a=asking("one"), b=asking("two"), c=page(setup(speed="300 rpm")))
    assert problems_of(whole, "a.md") == problems_of(whole, "b.md") == []
    assert [value_of(whole, "one", "a.md").nominal, value_of(whole, "two", "b.md").nominal] == [
        300,
        300,
    ]
    left_out = "1 record like it left out: what it ran at hangs on `past(…)` itself, or waits"
    assert notes_of(whole, "one", "a.md") == [left_out]


def test_a_circle_with_nothing_else_has_the_handbook_s_range_and_no_end() -> None:
    whole = whole_of(
        a=calc(f"p = {TURNING}\none = p.cutting_speed") + page(setup(speed="", more=""))
    )
    assert value_of(whole, "p", "a.md").count == 0
    two = whole_of(a=asking("one"), b=asking("two"))
    assert problems_of(two, "a.md") == ["a.md:2:37: a past says nothing of speed"]
    assert problems_of(two, "b.md") == ["b.md:2:37: a past says nothing of speed"]


def test_a_plan_from_the_past_does_not_keep_what_it_ran_at_from_being_asked() -> None:
    made = setup(speed="350 rpm").replace("ran:\n", f"planned:\n  speed: {TURNING}.speed\nran:\n")
    whole = whole_of(a=page(made), c=page(setup(speed="300 rpm")), ask=calc(f"p = {TURNING}"))
    found = value_of(whole, "p")
    assert (found.count, found.speed_least, found.speed_most) == (2, 300, 350)


def test_a_size_above_that_hangs_on_the_past_leaves_every_run_of_the_setup_out() -> None:
    above = calc(f"d = {TURNING}.depth_of_cut * 40") + page(setup(diameter="d", speed="900 rpm"))
    whole = whole_of(a=above, c=page(setup()), ask=calc(f"p = {TURNING}"))
    assert value_of(whole, "p").speed_most == 400


def test_a_name_of_another_page_that_asks_is_answered_as_that_page_asks() -> None:
    shaft = f"---\npart: shaft\n---\n{calc(f'n = {TURNING}.speed')}{page(setup(speed='700 rpm'))}"
    bush = page(setup(speed="300 rpm"))
    gear = f"---\npart: gear\n---\n{calc('m = shaft.n')}"
    whole = whole_of(shaft=shaft, bush=bush, gear=gear)
    assert value_of(whole, "m", "gear.md").nominal == 300


def folder(tmp_path: Path) -> Path:
    (tmp_path / "mkdocs.yml").write_text("site_name: Log\n", "utf-8")
    for key, text in {
        "one/bush.md": page(setup()),
        "two/ask.md": calc(f"p = {TURNING}"),
        "two/ring.md": page(setup(speed="500 rpm")),
    }.items():
        path = tmp_path / "docs" / key
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return tmp_path


def test_a_folder_is_worked_out_as_it_is_read(tmp_path: Path) -> None:
    home = folder(tmp_path)
    whole = work_out_folder(home)
    assert [*whole.log.pages] == [*read_folder(home).pages]
    assert [one.id for one in whole.records] == ["one/bush.md#setup", "two/ring.md#setup"]


def test_of_a_folder_in_a_log_only_its_pages_are_given_and_all_records_are_asked(
    tmp_path: Path,
) -> None:
    whole = work_out_folder(folder(tmp_path) / "docs" / "two")
    assert [*whole.log.pages] == ["two/ask.md", "two/ring.md"]
    assert [one.id for one in whole.records] == ["two/ring.md#setup"]
    assert value_of(whole, "p", "two/ask.md").count == 2


def test_a_folder_without_a_page_is_no_log(tmp_path: Path) -> None:
    with pytest.raises(NoLog, match="holds no Markdown page"):
        work_out_folder(tmp_path)


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    home = folder(tmp_path)
    (home / "docs" / "two" / "bad.md").write_bytes(b"\xff")
    assert [one.code for one in work_out_folder(home).log.problems] == ["page-not-utf8"]


def test_days_of_history_count_where_a_page_says_none() -> None:
    texts = {"bush.md": page(setup("")), "ask.md": calc(f"p = {TURNING}", "date: 2026-05-01")}
    known = work_out_log(texts, days={"bush.md": "2026-04-01"})
    assert value_of(known, "p").newest == "2026-04-01"
    assert known.records[0].date_from == "git"
    assert value_of(work_out_log(texts), "p").count == 0
