"""`shoplog sheet` at the terminal."""

import io
import shutil

import pytest
from click.testing import CliRunner

from shoplog.cli import main
from shoplog.render.sheet import paper

BUSH = """# Bush

```calc
bore = 16 mm H7
```

```setup
operation: turning
planned:
  speed: 290 rpm
```
"""


@pytest.fixture
def log(tmp_path, monkeypatch):
    (tmp_path / "winch").mkdir()
    (tmp_path / "winch" / "bush.md").write_text(BUSH, "utf-8")
    (tmp_path / "winch" / "pin.md").write_text("# Pin\n\n```calc\npin = 16 mm f7\n```\n", "utf-8")
    (tmp_path / "jig").mkdir()
    (tmp_path / "jig" / "bush.md").write_text("# Jig bush\n\n```calc\nb = 3 in ±\n```\n", "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments, given=None):
    return CliRunner().invoke(main, ["sheet", *arguments], input=given)


def test_a_page_becomes_a_document_beside_you(log):
    made = run("winch/bush")
    assert (made.exit_code, made.output) == (0, "wrote bush-bench-sheet.html: 1 sheet for A4\n")
    assert "<h1>Bush</h1>" in (log / "bush-bench-sheet.html").read_text("utf-8")
    assert sorted(path.name for path in log.iterdir() if path.is_file()) == [
        "bush-bench-sheet.html"
    ]


def test_a_project_becomes_a_sheet_for_each_of_its_pages(log):
    made = run("winch", "--paper", "a5", "--out", "w.html")
    assert (made.exit_code, made.output) == (0, "wrote w.html: 2 sheets for A5\n")
    assert (log / "w.html").read_text("utf-8").count("<article") == 2


def test_a_page_with_a_problem_has_its_sheet_and_a_status_of_1(log):
    made = run("jig/bush", "--out", "j.html")
    assert made.exit_code == 1
    assert made.stdout == "wrote j.html: 1 sheet for A4\n"
    assert made.stderr == "1 problem on it: the sheet says so at its top\n"


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("bush", "`bush` could be jig/bush.md or winch/bush.md"),
        ("winch/bsh", "the log has no page and no project `winch/bsh`; did you mean winch/bush?"),
        ("../../etc/passwd", "the log has no page and no project `../../etc/passwd`"),
    ],
)
def test_a_page_that_is_not_there_is_told(log, asked, said):
    made = run(asked)
    assert made.exit_code == 2
    assert made.stderr.endswith(f"Error: {said}\n")


def test_a_folder_without_a_log_is_told(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    made = run("bush")
    assert (made.exit_code, made.stderr.splitlines()[-1]) == (2, "Error: . holds no Markdown page")


def test_what_the_boxes_hold_is_asked_for_and_printed_to_be_pasted(log):
    made = run("winch/bush", "--fill", given="16.009 mm\n280 rpm\n\n\ngood\nsang a little\n")
    assert made.exit_code == 0
    assert made.stdout == (
        "```calc\nmeasured bore = 16.009 mm\n```\n\n"
        "into the setup at winch/bush.md:7 (turning):\n\n"
        "ran:\n  speed: 280 rpm\noutcome: good\nremarks: sang a little\n"
    )
    assert "bore: 16 mm H7, as measured" in made.stderr


def test_an_answer_that_cannot_be_read_stops_where_nobody_can_be_asked_again(log):
    made = run("winch/bush", "--fill", given="16.009\n")
    assert made.exit_code == 1
    wrong = "bore is a length; this reading is a plain number; write its unit too"
    assert made.stderr.endswith(f"Error: bore: `16.009`: {wrong}\n")


class Interrupted(io.BytesIO):
    """What is typed, and then Ctrl-C."""

    def read1(self, size=-1, /):
        text = super().read1(size)
        if not text:
            raise KeyboardInterrupt
        return text


@pytest.mark.parametrize(
    ("typed", "printed"),
    [(b"", ""), (b"16.009 mm\n", "```calc\nmeasured bore = 16.009 mm\n```\n")],
)
def test_stopping_by_hand_ends_the_asking_and_loses_no_answer(log, typed, printed):
    made = run("winch", "--fill", given=Interrupted(typed))
    assert (made.exit_code, made.stdout) == (1, printed)
    assert made.stderr.endswith("Aborted!\n")
    assert made.stderr.count("as measured") == 1


def test_without_a_browser_the_html_is_offered(log, monkeypatch):
    monkeypatch.setattr(paper, "find_browser", lambda: None)
    made = run("winch/bush", "--pdf")
    assert made.exit_code == 1
    assert made.stderr == (
        "Error: there is no Chromium on the PATH to make a PDF with; print the HTML instead\n"
    )
    assert not (log / "bush-bench-sheet.pdf").exists()


def test_a_browser_that_fails_leaves_an_older_file_as_it_was(log, monkeypatch):
    old = log / "bush-bench-sheet.pdf"
    old.write_text("old", "utf-8")
    monkeypatch.setattr(paper, "find_browser", lambda: shutil.which("false"))
    assert run("winch/bush", "--pdf").exit_code == 1
    assert old.read_text("utf-8") == "old"
    assert [path.name for path in log.iterdir() if path.is_file()] == [old.name]


def test_a_file_that_cannot_be_written_is_told(log):
    (log / "taken").write_text("", "utf-8")
    made = run("winch/bush", "--out", "taken/sheet.html")
    assert made.exit_code == 1
    assert "Not a directory" in made.stderr


def test_a_sheet_is_written_with_its_folder(log):
    assert run("winch/bush", "--out", "sheets/winch/bush.html").exit_code == 0
    assert (log / "sheets/winch/bush.html").read_text("utf-8").startswith("<!DOCTYPE html>")
