"""The index of a log: it says what the pages say, whatever happened to it or to them."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shoplog.find.indexing import rework as rework_module
from shoplog.find.indexing import store as store_module
from shoplog.find.indexing import update as update_module
from shoplog.find.indexing.index import Index, ask_index
from shoplog.find.indexing.rows import page_rows
from shoplog.find.indexing.stamps import Stamp, content_digest, engine_stamp, page_stamps
from shoplog.find.indexing.store import Store, index_file
from shoplog.find.indexing.stored import COLUMNS, PageRow
from shoplog.log import NoLog

SETUP = "```setup\noperation: turning\nmaterial: brass\nremarks: {remarks}\n```\n"
LONG_AGO = 1_700_000_000_000_000_000


def page(remarks: str, *, head: str = "", calc: str = "") -> str:
    block = f"```calc\n{calc}\n```\n\n" if calc else ""
    return f"{head}# Page\n\n{block}{SETUP.format(remarks=remarks)}"


def write(home: Path, **pages: str) -> None:
    """Write pages below `docs`; `__` in a name stands for `/`."""
    for name, text in pages.items():
        file = home / "docs" / f"{name.replace('__', '/')}.md"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
        os.utime(file, ns=(LONG_AGO, LONG_AGO))


@pytest.fixture(autouse=True)
def one_engine(monkeypatch: pytest.MonkeyPatch) -> None:
    """An engine whose files nobody edits while the tests run."""
    monkeypatch.setattr(update_module, "engine_stamp", lambda: "this version")


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A log with two pages."""
    (tmp_path / "mkdocs.yml").write_text("site_name: Bench log\n")
    write(tmp_path, a=page("first"), b=page("second"))
    return tmp_path


def remarks(index: Index) -> list[str]:
    """Every page with its remarks."""
    run = index.store.connection.execute
    sql = (
        "SELECT page, json_extract(told, '$.remarks') FROM records JOIN kept USING (id)"
        " ORDER BY page, place"
    )
    return [f"{key}: {text}" for key, text in run(sql)]


def ask(folder: Path) -> list[str]:
    return ask_index(folder, remarks)


def notes(folder: Path) -> tuple[str, ...]:
    return ask_index(folder, lambda index: index.notes)


def dump(store: Store) -> dict[str, Any]:
    """All that an index answers with, whatever the numbers of its rows are."""
    run = store.connection.execute
    columns = ", ".join(COLUMNS)
    sql = f"SELECT {columns}, told, words FROM records JOIN kept USING (id) ORDER BY page, place"
    found = [one for (one,) in run("SELECT rowid FROM search WHERE search MATCH 'brass*'")]
    return {
        "records": run(sql).fetchall(),
        "names": run("SELECT * FROM names ORDER BY 1, 2, 3").fetchall(),
        "sizes": run("SELECT page, line, name, kind, shown FROM sizes ORDER BY 1, 2, 3").fetchall(),
        "found": len(found),
        "pages": {key: (p.digest, p.rows) for key, p in store.pages().items()},
    }


@contextmanager
def worked(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[set[str]]]:
    """Which pages are worked out, each time that any are."""
    kept: list[set[str]] = []
    real = rework_module.work_out_log

    def work_out_log(texts: dict[str, str], **given: Any) -> Any:
        kept.append(set(texts))
        return real(texts, **given)

    with monkeypatch.context() as patched:
        patched.setattr(rework_module, "work_out_log", work_out_log)
        yield kept


def test_an_index_says_what_the_pages_say(home: Path) -> None:
    assert ask(home) == ["a.md: first", "b.md: second"]
    assert index_file(home) == home / ".shoplog" / "setups.sqlite"
    assert index_file(home).is_file()


def test_git_and_what_publishes_pages_pass_the_index_over(home: Path) -> None:
    ask(home)
    assert (home / ".shoplog" / ".gitignore").read_text().splitlines()[-1] == "*"
    subprocess.run(["git", "init", "--quiet"], cwd=home, check=True)
    listed = subprocess.run(
        ["git", "status", "--porcelain", "--untracked-files=all"],
        cwd=home,
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    assert "docs/a.md" in listed
    assert ".shoplog" not in listed


def test_a_log_without_a_site_keeps_its_index_beside_its_pages(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text(page("first"))
    assert ask(tmp_path) == ["a.md: first"]
    assert ask(tmp_path) == ["a.md: first"]


def test_nothing_is_worked_out_where_nothing_changed(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with worked(monkeypatch) as kept:
        assert ask(home) == ask(home) == ask(home)
    assert kept == [{"a.md", "b.md"}]


def test_what_was_asked_of_an_index_loads_no_engine(home: Path) -> None:
    ask(home)
    program = (
        "import sys; from pathlib import Path; from shoplog.find.indexing.index import ask_index;"
        "from shoplog.find.indexing import update; update.engine_stamp = lambda: 'this version';"
        "from shoplog.find.asking import Source, answer;"
        "from shoplog.find.questions import Question;"
        "question = Question(words=('brass',));"
        "found = ask_index(Path('.'), lambda i: answer(question, [Source(i.store)]));"
        "rooms = {'log', 'calc', 'trade', 'tables', 'units', 'render'};"
        "print(found.count, sorted(m for m in sys.modules"
        " if m == 'pint' or m.startswith('shoplog.') and m.split('.')[1] in rooms))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program], cwd=home, check=True, capture_output=True, text=True
    )
    words_alone = ["shoplog.trade", "shoplog.trade.machining", "shoplog.trade.machining.stages"]
    assert ran.stdout == f"2 {words_alone}\n"


def test_a_changed_page_is_worked_out_with_its_project_and_no_other(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(home, one__c=page("third"), two__d=page("fourth"))
    ask(home)
    write(home, one__c=page("third, again"))
    with worked(monkeypatch) as kept:
        assert ask(home) == [
            "a.md: first",
            "b.md: second",
            "one/c.md: third, again",
            "two/d.md: fourth",
        ]
    assert kept == [{"one/c.md"}]


def test_a_page_that_reads_a_changed_one_is_worked_out_too(home: Path) -> None:
    head = "---\npart: shaft\n---\n"
    reads = "# Bush\n\n```setup\noperation: turning\ndiameter: shaft.size\n```\n"
    write(home, p__shaft=page("x", head=head, calc="size = 16 mm"), p__bush=reads)

    def diameters(index: Index) -> list[float]:
        run = index.store.connection.execute
        return [d for (d,) in run("SELECT diameter_mm FROM records WHERE page = 'p/bush.md'")]

    assert ask_index(home, diameters) == [16.0]
    write(home, p__shaft=page("x", head=head, calc="size = 17 mm"))
    assert ask_index(home, diameters) == [17.0]


def test_a_page_that_uses_a_changed_one_is_worked_out_too(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    uses = 'use "one/shaft" as shaft'
    reads = f"# Bush\n\n```calc\n{uses}\nd = shaft.size\n```\n\n```setup\ndiameter: d\n```\n"
    write(home, one__shaft=page("x", calc="size = 16 mm"), two__bush=reads, three__c=page("third"))
    ask(home)
    write(home, one__shaft=page("x", calc="size = 17 mm"))

    def diameters(index: Index) -> list[float]:
        run = index.store.connection.execute
        return [d for (d,) in run("SELECT diameter_mm FROM records WHERE page = 'two/bush.md'")]

    with worked(monkeypatch) as kept:
        assert ask_index(home, diameters) == [17.0]
    assert kept == [{"one/shaft.md", "two/bush.md"}]


def test_where_a_page_asks_the_past_everything_is_worked_out(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asks = 'went = past(operation="turning", material="brass", diameter=16 mm)'
    write(home, one__c=page("third", calc=asks), two__d=page("fourth"))
    ask(home)
    write(home, two__d=page("fourth, again"))
    with worked(monkeypatch) as kept:
        ask(home)
    assert kept == [{"a.md", "b.md", "one/c.md", "two/d.md"}]


def test_a_new_page_is_found_and_a_deleted_one_is_gone(home: Path) -> None:
    ask(home)
    write(home, c=page("third"))
    assert ask(home) == ["a.md: first", "b.md: second", "c.md: third"]
    (home / "docs" / "a.md").unlink()
    assert ask(home) == ["b.md: second", "c.md: third"]

    def left(index: Index) -> list[Any]:
        run = index.store.connection.execute
        return [
            *run("SELECT * FROM search WHERE search MATCH 'first'"),
            *run("SELECT * FROM kept WHERE words LIKE '%first%'"),
            *(key for key in index.store.pages() if key == "a.md"),
        ]

    assert ask_index(home, left) == []


def test_the_names_of_what_no_record_has_are_gone(home: Path) -> None:
    write(home, a=page("first").replace("brass", "bronze"))
    ask(home)

    def materials(index: Index) -> list[str]:
        sql = "SELECT DISTINCT value FROM names WHERE field = 'material' ORDER BY value"
        return [value for (value,) in index.store.connection.execute(sql)]

    assert ask_index(home, materials) == ["brass", "bronze"]
    (home / "docs" / "a.md").unlink()
    assert ask_index(home, materials) == ["brass"]


def test_a_page_that_cannot_be_read_any_more_has_no_records(home: Path) -> None:
    ask(home)
    (home / "docs" / "a.md").write_bytes(b"# P\xff\n")
    assert ask(home) == ["b.md: second"]
    assert ask(home) == ["b.md: second"]


def test_a_page_that_was_only_touched_is_not_worked_out(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(home)
    os.utime(home / "docs" / "a.md")
    with worked(monkeypatch) as kept:
        assert ask(home) == ["a.md: first", "b.md: second"]
    assert kept == []


def test_a_page_changed_in_the_same_tick_of_the_clock_is_seen(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The size and both times stay what they were, as a coarse clock leaves them."""
    now = time.time_ns()
    stamps = {key: Stamp(now, now, 100) for key in ("a.md", "b.md")}
    monkeypatch.setattr(update_module, "page_stamps", lambda _: stamps)
    assert ask(home) == ["a.md: first", "b.md: second"]
    write(home, a=page("later"))
    assert ask(home) == ["a.md: later", "b.md: second"]


def test_an_old_stamp_is_believed(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stamps = {key: Stamp(LONG_AGO, LONG_AGO, 100) for key in ("a.md", "b.md")}
    monkeypatch.setattr(update_module, "page_stamps", lambda _: stamps)
    ask(home)
    monkeypatch.setattr(
        update_module, "content_digest", lambda path: pytest.fail(f"{path} was read")
    )
    write(home, a=page("later"))
    assert ask(home) == ["a.md: first", "b.md: second"]


@pytest.mark.parametrize("file", ["shop.yml", "mkdocs.yml"])
def test_what_all_pages_hang_on_is_followed(home: Path, file: str) -> None:
    ask(home)
    if file == "shop.yml":
        cutter = "cutters:\n  knife:\n    kind: turning tool\n    material: HSS\n"
        write(home, a=page("first").replace("material:", "cutter: knife\nmaterial:"))
        ask(home)
        (home / file).write_text(cutter)
    else:
        (home / "pages").mkdir()
        (home / "pages" / "c.md").write_text(page("third"))
        (home / file).write_text("site_name: Bench log\ndocs_dir: pages\n")

    def cutters(index: Index) -> list[str]:
        sql = "SELECT page || ' ' || cutter_kind FROM records ORDER BY page"
        return [found for (found,) in index.store.connection.execute(sql)]

    wanted = {"shop.yml": ["a.md turning tool", "b.md "], "mkdocs.yml": ["c.md "]}
    assert ask_index(home, cutters) == wanted[file]


def test_a_change_of_the_site_that_moves_no_page_works_nothing_out(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(home)
    (home / "mkdocs.yml").write_text("site_name: Another name\n")
    with worked(monkeypatch) as kept:
        ask(home)
        ask(home)
    assert kept == []


def test_another_engine_works_out_everything(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ask(home)
    monkeypatch.setattr(update_module, "engine_stamp", lambda: "another version")
    with worked(monkeypatch) as kept:
        ask(home)
        ask(home)
    assert kept == [{"a.md", "b.md"}]


def test_the_stamp_of_an_engine_is_that_of_its_modules_and_its_tables(tmp_path: Path) -> None:
    was = engine_stamp(tmp_path)
    for name in ("module.py", "table.csv", "units.txt", "grammar.lark"):
        (tmp_path / name).write_text("one")
        now = engine_stamp(tmp_path)
        assert now != was
        (tmp_path / name).write_text("other, and longer")
        assert engine_stamp(tmp_path) not in (was, now)
        was = engine_stamp(tmp_path)
    (tmp_path / "note.md").write_text("no part of it")
    (tmp_path / "__pycache__").mkdir()
    assert engine_stamp(tmp_path) == was


def test_this_engine_has_a_stamp_of_its_own_that_stays(tmp_path: Path) -> None:
    assert engine_stamp() == engine_stamp() != engine_stamp(tmp_path)


def test_a_commit_gives_a_page_its_day(home: Path) -> None:
    def days(index: Index) -> list[str]:
        sql = "SELECT page || ' ' || date FROM records ORDER BY page"
        return [day for (day,) in index.store.connection.execute(sql)]

    def git(*arguments: str) -> None:
        named = {
            "GIT_AUTHOR_DATE": "2021-02-03T12:00:00Z",
            "GIT_COMMITTER_DATE": "2021-02-03T12:00:00Z",
        }
        who = ("-c", "user.name=Someone", "-c", "user.email=someone@example.org")
        command = ["git", *who, "-c", "commit.gpgSign=false", *arguments]
        subprocess.run(command, cwd=home, check=True, env=os.environ | named, capture_output=True)

    git("init", "--quiet")
    write(home, b=page("second", head="---\ndate: 2026-03-01\n---\n"))
    assert ask_index(home, days) == ["a.md ", "b.md 2026-03-01"]
    git("add", "docs")
    git("commit", "-m", "pages")
    assert ask_index(home, days) == ["a.md 2021-02-03", "b.md 2026-03-01"]


def test_a_folder_among_the_pages_is_asked_about_with_its_whole_log(home: Path) -> None:
    write(home, one__c=page("third"), one__two__d=page("fourth"))
    asked = home / "docs" / "one"
    for _ in range(2):
        assert ask_index(asked, lambda index: index.within) == "one/"
        assert index_file(home).is_file()
        assert not (asked / ".shoplog").exists()
    assert ask_index(home / "docs", lambda index: index.within) == ""


def test_a_folder_beside_the_pages_is_a_log_of_its_own(home: Path) -> None:
    other = home / "other"
    other.mkdir()
    (other / "x.md").write_text(page("apart"))
    for _ in range(2):
        assert ask(other) == ["x.md: apart"]
    ask(home)
    assert ask(other) == ["x.md: apart"]


def test_the_place_of_pages_is_told_from_where_one_stands(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(home)
    assert ask_index(Path(), lambda index: index.root) == "docs/"
    monkeypatch.chdir(home / "docs")
    assert ask_index(Path(), lambda index: index.root) == ""
    monkeypatch.chdir("/")
    assert ask_index(home, lambda index: index.root) == f"{(home / 'docs').relative_to('/')}/"


@pytest.mark.parametrize("name", ["empty", "docs"])
def test_a_folder_without_a_log_is_refused(tmp_path: Path, name: str) -> None:
    folder = tmp_path / name
    folder.mkdir()
    with pytest.raises(NoLog, match="holds no Markdown page"):
        ask(folder)
    assert list(folder.iterdir()) == []


def test_settings_that_name_no_folder_are_refused(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text("docs_dir: nowhere\n")
    with pytest.raises(NoLog, match="names the folder nowhere, which is not there"):
        ask(tmp_path)


def break_header(file: Path) -> None:
    file.write_bytes(b"This was an index once, and is a text now. " * 100)


def break_middle(file: Path) -> None:
    data = bytearray(file.read_bytes())
    data[4096 : 4096 + 3 * len(data) // 4] = b"\xa5" * (3 * len(data) // 4)
    file.write_bytes(data[: file.stat().st_size])


def cut_short(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:5000])


def make_empty(file: Path) -> None:
    file.write_bytes(b"")


def make_older(file: Path) -> None:
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("ALTER TABLE records RENAME COLUMN anchor TO place_on_page")
        connection.commit()


def make_another(file: Path) -> None:
    file.unlink()
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("CREATE TABLE notes (text)")
        connection.commit()


def make_trap(file: Path) -> None:
    """Tables of the right names that would never end."""
    file.unlink()
    endless = "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT"
    with closing(sqlite3.connect(file)) as connection:
        connection.execute(f"CREATE VIEW meta AS {endless} x AS key, x AS value FROM n")
        connection.execute(f"CREATE VIEW pages AS {endless} x AS key FROM n")
        connection.commit()


def lose_rows(file: Path) -> None:
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("DELETE FROM meta")
        connection.execute("DELETE FROM records")
        connection.commit()


@pytest.mark.parametrize(
    "harm",
    [
        *(break_header, break_middle, cut_short, make_empty),
        *(make_older, make_another, make_trap, lose_rows, Path.unlink),
    ],
)
def test_whatever_is_wrong_with_an_index_it_is_made_anew(
    home: Path, harm: Callable[[Path], Any]
) -> None:
    ask(home)
    harm(index_file(home))
    assert ask(home) == ["a.md: first", "b.md: second"]
    assert notes(home) == ()
    with closing(Store.in_folder(home)) as store:
        assert store.is_sound()


def test_an_index_that_breaks_while_it_is_asked_is_made_anew_and_asked_again(home: Path) -> None:
    ask(home)
    asked = []

    def breaks_once(index: Index) -> list[str]:
        asked.append(1)
        if len(asked) == 1:
            error = sqlite3.DatabaseError("database disk image is malformed")
            error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
            raise error
        return remarks(index)

    assert ask_index(home, breaks_once) == ["a.md: first", "b.md: second"]
    assert len(asked) == 2


def test_what_goes_wrong_in_asking_is_not_swallowed(home: Path) -> None:
    def wrong(index: Index) -> None:
        index.store.connection.execute("SELECT 1 FROM nowhere")

    with pytest.raises(sqlite3.OperationalError, match="no such table: nowhere"):
        ask_index(home, wrong)


def test_a_locked_index_is_done_without_and_a_note_says_so(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(home)
    monkeypatch.setattr(store_module, "BUSY_SECONDS", 0.05)
    write(home, a=page("changed"))
    with closing(sqlite3.connect(index_file(home), isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        assert ask(home) == ["a.md: changed", "b.md: second"]
        assert notes(home) == (
            "the index is in use by another process; this was worked out without it",
        )
        other.execute("ROLLBACK")
    assert notes(home) == ()
    assert ask(home) == ["a.md: changed", "b.md: second"]


def test_an_index_that_others_only_read_is_read_too(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(home)
    monkeypatch.setattr(store_module, "BUSY_SECONDS", 0.05)
    os.utime(home / "docs" / "a.md")
    with closing(sqlite3.connect(index_file(home), isolation_level=None)) as other:
        other.execute("BEGIN")
        other.execute("SELECT * FROM records").fetchone()
        assert (ask(home), notes(home)) == (["a.md: first", "b.md: second"], ())


@pytest.mark.parametrize(
    ("code", "said"),
    [
        (sqlite3.SQLITE_READONLY, "attempt to write a readonly database"),
        (sqlite3.SQLITE_FULL, "database or disk is full"),
        (sqlite3.SQLITE_IOERR | 4 << 8, "disk I/O error"),
    ],
)
def test_an_index_that_takes_no_change_is_done_without(
    home: Path, monkeypatch: pytest.MonkeyPatch, code: int, said: str
) -> None:
    ask(home)
    write(home, a=page("changed"))
    real = Store.writing

    @contextmanager
    def refused(store: Store) -> Iterator[None]:
        if store.connection.execute("PRAGMA database_list").fetchone()[2]:
            error = sqlite3.OperationalError(said)
            error.sqlite_errorcode = code
            raise error
        with real(store):
            yield

    monkeypatch.setattr(Store, "writing", refused)
    assert ask(home) == ["a.md: changed", "b.md: second"]
    assert notes(home) == (
        f"{index_file(home)} cannot be used ({said}); this was worked out without an index",
    )


def test_where_no_index_can_be_made_it_is_done_without(home: Path) -> None:
    (home / ".shoplog").write_text("a file stands where the folder would be")
    assert ask(home) == ["a.md: first", "b.md: second"]
    assert notes(home) == (
        f"{home / '.shoplog'} cannot be written: File exists; this was worked out without an index",
    )


def test_an_index_that_leads_out_of_the_log_is_not_followed(home: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (home / ".shoplog").symlink_to(elsewhere)
    assert ask(home) == ["a.md: first", "b.md: second"]
    assert list(elsewhere.iterdir()) == []
    assert notes(home) == (
        f"{home / '.shoplog'} leads out of the log; this was worked out without an index",
    )


def test_an_index_that_came_with_a_log_is_not_believed(home: Path, tmp_path: Path) -> None:
    """A file that was copied or unpacked is another file, whatever it says of itself."""
    import shutil

    ask(home)
    with closing(Store.in_folder(home)) as store, store.writing():
        store.connection.execute('UPDATE kept SET told = \'{"remarks":"forged"}\'')
    assert "forged" in ask(home)[0]
    copy = tmp_path / "copy"
    shutil.copytree(home, copy, ignore=lambda folder, _: ["copy"] if folder == str(home) else [])
    assert ask(copy) == ["a.md: first", "b.md: second"]


def test_a_write_that_another_process_was_quicker_with_is_looked_at_again(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both see the old page; the second finds the index changed and looks again."""
    ask(home)
    write(home, a=page("changed"))
    real, meanwhile = update_module._is_written, []

    def is_written(store: Store, *rest: Any) -> bool:
        if not meanwhile:
            meanwhile.append(1)
            ask(home)
        return real(store, *rest)

    monkeypatch.setattr(update_module, "_is_written", is_written)
    with worked(monkeypatch) as kept:
        assert ask(home) == ["a.md: changed", "b.md: second"]
    assert len(kept) == 2  # each worked it out; one wrote it


PROCESS = """
import sys, time
from pathlib import Path
from shoplog.find.indexing.index import ask_index

def asked(index):
    run = index.store.connection.execute
    return run("SELECT count(*), count(DISTINCT page) FROM records").fetchone(), index.notes

home, own = Path(sys.argv[1]), int(sys.argv[2])
for turn in range(6):
    text = (home / "docs" / "a.md").read_text()
    (home / "docs" / f"own-{own}.md").write_text(text.replace("first", f"of {own} in turn {turn}"))
    found, notes = ask_index(home, asked)
    assert found[0] == found[1] >= 3, found
"""


@pytest.mark.slow
def test_several_processes_at_once_do_no_harm(home: Path) -> None:
    started = [
        subprocess.Popen(
            [sys.executable, "-c", PROCESS, str(home), str(number)],
            stderr=subprocess.PIPE,
            text=True,
        )
        for number in range(4)
    ]
    for process in started:
        _, said = process.communicate(timeout=300)
        assert (process.returncode, said) == (0, "")
    assert ask(home) == [
        *("a.md: first", "b.md: second"),
        *(f"own-{number}.md: of {number} in turn 5" for number in range(4)),
    ]
    with closing(Store.in_folder(home)) as store:
        assert store.is_sound()


@pytest.mark.slow
def test_a_process_that_is_killed_while_it_writes_leaves_the_old_index(home: Path) -> None:
    ask(home)
    program = (
        "import os, sys; from pathlib import Path; from shoplog.find.indexing.store import Store\n"
        "store = Store.in_folder(Path(sys.argv[1]))\n"
        "with store.writing():\n"
        "    store.connection.execute('PRAGMA cache_size = 1')\n"
        "    store.empty()\n"
        "    for n in range(3000): store.set_meta(**{f'k{n}': 'x' * 900})\n"
        "    os.kill(os.getpid(), 9)\n"
    )
    killed = subprocess.run([sys.executable, "-c", program, str(home)], check=False)
    assert killed.returncode == -9
    assert index_file(home).with_name("setups.sqlite-journal").exists()
    assert ask(home) == ["a.md: first", "b.md: second"]
    assert notes(home) == ()


def test_of_a_long_remark_the_index_has_what_a_record_keeps(home: Path) -> None:
    write(home, a=page("x" * 60_000))
    assert ask(home) == [f"a.md: {'x' * 1999}…", "b.md: second"]
    assert index_file(home).stat().st_size < 1_000_000


def test_a_block_of_megabytes_is_no_setup_and_costs_no_other(home: Path) -> None:
    write(home, a=page("x" * 12_000_000))
    assert ask(home) == ["b.md: second"]


def test_a_page_file_of_fifty_megabytes_is_left_out(home: Path) -> None:
    write(home, a=page("x" * 50_000_000))
    assert ask(home) == ["b.md: second"]


def test_pages_are_found_as_the_site_finds_them(home: Path) -> None:
    write(home, one__c=page("third"), templates__t=page("no page"))
    hidden = home / "docs" / ".hidden"
    hidden.mkdir()
    (hidden / "x.md").write_text(page("hidden"))
    (home / "docs" / "note.txt").write_text("no page")
    assert list(page_stamps(home / "docs")) == ["a.md", "b.md", "one/c.md"]
    assert ask(home) == ["a.md: first", "b.md: second", "one/c.md: third"]


def test_a_files_mark_of_utf8_is_no_content(tmp_path: Path) -> None:
    one, other = tmp_path / "one.md", tmp_path / "other.md"
    one.write_bytes(b"\xef\xbb\xbftext")
    other.write_bytes(b"text")
    assert content_digest(one) == content_digest(other) != ""
    assert content_digest(tmp_path / "none.md") == ""


EDITS = st.lists(
    st.tuples(
        st.sampled_from(["a", "p/shaft", "p/bush", "q/bush", "q/other", "r/lone"]),
        st.sampled_from(["write", "delete"]),
        st.integers(10, 13),
        st.sampled_from(["", "part", "use", "past"]),
    ),
    min_size=1,
    max_size=4,
)


def edited(number: int, kind: str) -> str:
    head = "---\npart: shaft\n---\n" if kind == "part" else ""
    asked = 'past(operation="turning", material="brass", diameter=size)'
    calc = {
        "use": f'use "p/shaft" as other\nsize = other.size + {number} mm',
        "past": f"size = {number} mm\nw = {asked}",
    }.get(kind, f"size = {number} mm\nlimited = {number} mm H7")
    return (
        f"{head}# Page\n\n```calc\n{calc}\n```\n\n"
        f"```setup\noperation: turning\nmaterial: brass\ndiameter: shaft.size\n```\n\n"
        f"```setup\noperation: turning\nmaterial: brass\ndiameter: size\nremarks: {number}\n```\n"
    )


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(EDITS, min_size=1, max_size=4))
def test_an_index_that_was_followed_is_the_one_that_is_made_anew(
    tmp_path_factory: pytest.TempPathFactory, rounds: list[list[tuple[str, str, int, str]]]
) -> None:
    home = tmp_path_factory.mktemp("log")
    (home / "mkdocs.yml").write_text("site_name: Bench log\n")
    write(home, always=page("always"))
    for edits in rounds:
        for key, what, number, kind in edits:
            file = home / "docs" / f"{key}.md"
            if what == "delete":
                file.unlink(missing_ok=True)
            else:
                write(home, **{key.replace("/", "__"): edited(number, kind)})
        followed = ask_index(home, lambda index: dump(index.store))
        with closing(Store.in_memory()) as store:
            update_module.bring_up_to_date(store, home)
            assert followed == dump(store)


def test_a_page_row_comes_back_as_it_was_put() -> None:
    row = PageRow(Stamp(1, 2, 3), 4, "digest", ("one", "other"), False, True, "rows")
    with closing(Store.in_memory()) as store:
        store.set_page("a.md", row)
        store.set_page("b.md", PageRow(Stamp(1, 2, 3), 4, "digest"))
        assert store.pages() == {"a.md": row, "b.md": PageRow(Stamp(1, 2, 3), 4, "digest")}


def test_rows_that_are_replaced_leave_nothing_behind() -> None:
    from shoplog.find.record import Record

    with closing(Store.in_memory()) as store:
        for remarks_now in ("old", "new"):
            record = Record(page="a.md", anchor="setup", remarks=remarks_now, fault=("burr",))
            store.replace("a.md", page_rows([record]))
        run = store.connection.execute
        for table in ("records", "kept", "faults"):
            assert run(f"SELECT count(*) FROM {table}").fetchone() == (1,)
        found = {
            word: run("SELECT count(*) FROM search WHERE search MATCH ?", (word,)).fetchone()[0]
            for word in ("old", "new")
        }
        assert found == {"old": 0, "new": 1}
        store.remove("a.md")
        assert run("SELECT count(*) FROM kept").fetchone() == (0,)
        run("INSERT INTO search (search) VALUES ('integrity-check')")
