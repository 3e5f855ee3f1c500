"""`shoplog export` and `shoplog take` as a person runs them."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from shoplog.cli import main
from shoplog.find.published import read_published

PAGE = """\
# Bush

```setup
date: 2026-03-14
operation: turning, finish
material: free-cutting brass
diameter: 16.4 mm
ran:
  speed: 1180 rpm
  feed: 0.06 mm/rev
outcome: good
remarks: =edge stoned
```

```setup
operation: facing
ran:
  speed: 700 rpm
private: yes
```
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


@pytest.fixture
def log(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "log" / "winch").mkdir(parents=True)
    (tmp_path / "log" / "winch" / "bush.md").write_text(PAGE, "utf-8")
    return tmp_path / "log"


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_export_prints_a_row_for_each_setup_that_is_not_private(log: Path) -> None:
    result = run("export", "log")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout_bytes.count(b"\r\n") == 2
    (row,) = rows_of(result.stdout)
    assert (row["page"], row["anchor"], row["remarks"]) == (
        "winch/bush.md",
        "setup",
        "'=edge stoned",
    )
    assert (row["ran_spindle_speed_rpm"], row["diameter_mm"]) == ("1180", "16.4")


def test_export_with_the_private_ones(log: Path) -> None:
    rows = rows_of(run("export", "log", "--private").stdout)
    assert [row["private"] for row in rows] == ["no", "yes"]
    assert len(rows_of(run("export", "log", "--public").stdout)) == 1


def test_export_of_the_folder_that_one_is_in(log: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(log)
    assert len(rows_of(run("export").stdout)) == 1


def test_export_as_json_is_what_find_also_reads(log: Path) -> None:
    (log.parent / "mkdocs.yml").write_text("docs_dir: log\n", "utf-8")
    (log.parent / "shop.yml").write_text("name: Saltmarsh Lane\n", "utf-8")
    text = run("export", "--format", "json").stdout
    assert json.loads(text)["log"] == "Saltmarsh Lane"
    (record,) = read_published(text, "x")
    assert record.remarks == "=edge stoned"


def test_export_into_a_file_says_so_and_goes_by_its_ending(log: Path) -> None:
    result = run("export", "log", "--out", "all.json")
    assert (result.exit_code, result.stdout) == (0, "wrote all.json: 1 setup\n")
    assert json.loads(Path("all.json").read_text("utf-8"))["version"] == 1
    run("export", "log", "--out", "all.csv")
    assert Path("all.csv").read_bytes().startswith(b"page,anchor,line,")


def test_export_writes_over_no_file_unless_it_is_told_to(log: Path) -> None:
    Path("all.csv").write_text("mine", "utf-8")
    result = run("export", "log", "--out", "all.csv")
    assert result.exit_code == 2
    assert "all.csv is there already; --force writes over it" in result.stderr
    assert Path("all.csv").read_text("utf-8") == "mine"
    assert run("export", "log", "--out", "all.csv", "--force").exit_code == 0
    assert Path("all.csv").read_text("utf-8").startswith("page,")


def test_export_for_a_spreadsheet_begins_with_the_mark_of_utf_8(log: Path) -> None:
    run("export", "log", "--out", "all.csv", "--spreadsheet")
    assert Path("all.csv").read_bytes().startswith(b"\xef\xbb\xbfpage,")
    result = run("export", "log", "--out", "all.json", "--spreadsheet")
    assert result.exit_code == 2
    assert "--spreadsheet is for CSV" in result.stderr


def test_export_of_nothing_writes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "log").mkdir()
    assert run("export", "log").exit_code == 2
    (tmp_path / "log" / "index.md").write_text("# Log\n", "utf-8")
    result = run("export", "log", "--out", "all.csv")
    assert (result.exit_code, result.stderr) == (1, "log has no setups to write out\n")
    assert not (tmp_path / "all.csv").exists()


def test_export_where_nothing_can_be_written(log: Path) -> None:
    Path("file").write_text("", "utf-8")
    result = run("export", "log", "--out", "file/all.csv")
    assert result.exit_code == 2
    assert result.stderr.endswith("Error: file/all.csv cannot be written: Not a directory\n")


def test_what_was_exported_is_taken_into_another_log(log: Path) -> None:
    run("export", "log", "--out", "all.csv")
    result = run("take", "all.csv", "--into", "new")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == "wrote new/winch/bush.md: 1 setup\ntook 1 of 1 row into 1 page\n"
    assert run("check", "new").exit_code == 0
    back = rows_of(run("export", "new").stdout)
    (row,) = rows_of(run("export", "log").stdout)
    moved = ("line", "title")
    assert {k: v for k, v in row.items() if k not in moved} == {
        k: v for k, v in back[0].items() if k not in moved
    }


def test_take_asks_then_takes_and_tells_each_row_that_it_could_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    text = "Datum;rpm;Notes\n14.3.2026;500;=1+1\n15.3.2026;fast;\n16.3.2026;700;fine\n"
    Path("old.csv").write_text(text, "utf-8")
    asked = run("take", "old.csv", "--into", "log")
    assert (asked.exit_code, asked.stderr) == (1, "")
    assert asked.stdout.splitlines() == [
        "old.csv: its cells are parted by semicolons",
        "  rpm    speed, rpm",
        "  Notes  remarks",
        "  Datum: it could not be told what it is: 14.3.2026, 15.3.2026, 16.3.2026",
        "wrote old.mapping.yml: fill in what stands empty there, and run this again",
    ]
    again = run("take", "old.csv", "--into", "log")
    assert again.exit_code == 1
    assert "old.mapping.yml:55:11: `Datum` is still to be filled in" in again.stdout
    assert again.stdout.endswith("nothing was taken: put old.mapping.yml right first\n")
    mapping = Path("old.mapping.yml")
    mapping.write_text(mapping.read_text("utf-8").replace('"Datum":', '"Datum": date'), "utf-8")
    dry = run("take", "old.csv", "--into", "log", "--dry-run")
    assert dry.stdout.splitlines()[2:] == [
        "  Datum  date",
        "  rpm    speed, rpm",
        "  Notes  remarks",
        "old.csv:3:11: rpm: `fast` is not one number",
        "would write log/old/2026.md: 2 setups",
        "would take 2 of 3 rows into 1 page; 1 row would not be taken",
    ]
    assert not Path("log").exists()
    result = run("take", "old.csv", "--into", "log")
    assert result.exit_code == 1
    assert result.stdout.splitlines() == [
        "old.csv: its cells are parted by semicolons",
        "old.csv: its columns are as old.mapping.yml says",
        "old.csv:3:11: rpm: `fast` is not one number",
        "wrote log/old/2026.md: 2 setups",
        "took 2 of 3 rows into 1 page; 1 row was not taken",
    ]
    assert "remarks: =1+1" in Path("log/old/2026.md").read_text("utf-8")


def test_take_goes_into_the_log_that_one_is_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run("start", str(tmp_path / "log"))
    monkeypatch.chdir(tmp_path / "log")
    Path("old.csv").write_text("rpm,operation\n500,turning\n", "utf-8")
    result = run("take", "old.csv")
    assert result.stdout == ("wrote docs/old/undated.md: 1 setup\ntook 1 of 1 row into 1 page\n")
    assert run("check").exit_code == 0


def test_take_of_a_file_with_nothing_in_it_says_so(tmp_path: Path) -> None:
    path = tmp_path / "old.csv"
    path.write_text("", "utf-8")
    result = run("take", str(path))
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == f"{path} is empty\n"
    assert run("take", str(tmp_path / "none.csv")).exit_code == 2


def test_take_with_nothing_to_map(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("old.csv").write_text("Name,Phone\nA,1\n", "utf-8")
    dry = run("take", "old.csv", "--dry-run")
    assert dry.stdout.splitlines()[-1] == "would write old.mapping.yml, to be filled in"
    Path("mine.yml").write_text("columns: {Name: skip}\n", "utf-8")
    left = run("take", "old.csv", "--mapping", "mine.yml")
    assert left.stdout.splitlines()[-5:] == [
        "nothing was taken: add these lines to mine.yml, filled in",
        "# Each is a key of a setup with its unit behind a comma, or remarks, or skip.",
        "columns:",
        "  # it could not be told what it is: 1",
        '  "Phone":',
    ]
    Path("mine.yml").write_text("columns: {Name: skip, Phone: skip}\n", "utf-8")
    result = run("take", "old.csv", "--mapping", "mine.yml")
    assert result.exit_code == 1
    assert result.stdout.splitlines()[-1] == ("nothing was taken: no column is anything of a setup")


def test_nothing_of_a_file_steers_the_terminal(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    steer = "\x1b[31m\u202e"
    Path("old.csv").write_text(f"rpm,x{steer}\n{steer},{steer}\n", "utf-8")
    result = run("take", "old.csv")
    Path("old.mapping.yml").unlink()
    Path("old.csv").write_text(f"rpm,result,notes{steer}\n{steer},{steer},\n5,good,x\n", "utf-8")
    more = run("take", "old.csv", "--dry-run")
    assert "\x1b" not in result.stdout + more.stdout
    assert "\u202e" not in result.stdout + more.stdout
