"""A spreadsheet of past setups becomes pages: whatever it looks like, and nothing of it is lost."""

from __future__ import annotations

import re
from dataclasses import replace
from math import isclose
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from shoplog.find.export import COLUMNS, records_csv
from shoplog.find.record import FIGURES, RECORD, Record
from shoplog.find.records import records_of
from shoplog.find.taking import take as taking
from shoplog.find.taking import text as take_text
from shoplog.find.taking.cells import one_line
from shoplog.find.taking.columns import TARGETS, heading_guess
from shoplog.find.taking.days import day_order, read_day
from shoplog.find.taking.numbers import decimal_sign, read_number, read_sized, unit_of
from shoplog.find.taking.pages import MOST_SETUPS, file_name
from shoplog.find.taking.take import NotTaken, Taking, mapping_path, take
from shoplog.log import read_folder, read_log
from shoplog.log.setups.keys import SETUP_KEYS, Reads
from shoplog.problems import Grade, Mistake
from shoplog.render import view_of_text

HEAD = "date,operation,material,tool,diameter (mm),rpm,feed (mm/rev),result,notes\n"
ROW = '2026-03-14,turning,brass,"turning tool, HSS",16.4,1180,0.06,good,fine\n'


def sheet(folder: Path, text: str | bytes, name: str = "old.csv") -> Path:
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8"))
    return path


def taken(folder: Path, text: str | bytes, said: str = "", **how: Any) -> Taking:
    """What came of a file, with a mapping file beside it that says something."""
    path = sheet(folder, text)
    if said:
        mapping_path(path).write_text(said, "utf-8")
    return take(path, into=folder / "log", **how)


def lines_of(made: Taking) -> list[str]:
    """The problems, each without the folder of its file."""
    return [problem.line[problem.line.index("old.") :] for problem in made.problems]


def texts_of(folder: Path) -> dict[str, str]:
    log = folder / "log"
    return {
        path.relative_to(log).as_posix(): path.read_text("utf-8")
        for path in sorted(log.rglob("*.md"))
    }


def blocks_of(folder: Path) -> list[str]:
    """The text of every setup block that was written."""
    whole = "\n".join(texts_of(folder).values())
    return re.findall(r"^```setup\n(.*?)\n```$", whole, re.M | re.S)


def records_in(folder: Path) -> list[Record]:
    """The records of what was written, which has no problem."""
    log = read_log(texts_of(folder))
    assert [found.line for found in log.problems if found.grade is Grade.PROBLEM] == []
    return list(records_of(log))


# What is written


def test_a_row_becomes_a_setup_with_what_it_says(tmp_path: Path) -> None:
    made = taken(tmp_path, HEAD + ROW)
    assert (made.problems, made.taken, made.rows) == ([], 1, 1)
    assert texts_of(tmp_path) == {
        "old/2026.md": (
            "# old, 2026\n\nTaken from old.csv: 1 setup.\n\n```setup\ndate: 2026-03-14\n"
            "operation: turning\ndiameter: 16.4 mm\nmaterial: brass\ncutter: turning tool, HSS\n"
            "ran:\n  speed: 1180 rpm\n  feed: 0.06 mm/rev\noutcome: good\nremarks: fine\n```\n"
        )
    }


def test_the_pages_read_back_as_the_records_that_the_rows_say(tmp_path: Path) -> None:
    taken(tmp_path, HEAD + ROW)
    (record,) = records_in(tmp_path)
    assert (record.date, record.date_from, record.project) == ("2026-03-14", "block", "old")
    assert (record.outcome, record.remarks, record.cutter_material) == ("good", "fine", "HSS")
    assert record.planned is None
    assert record.ran is not None
    assert (record.ran.spindle_speed_rpm, record.ran.feed_per_rev_mm) == (1180, 0.06)
    assert record.ran.feed_rate_mm_per_min == pytest.approx(70.8)


def test_what_is_planned_stands_in_columns_of_its_own(tmp_path: Path) -> None:
    taken(tmp_path, "operation,planned rpm,rpm,planned doc (mm)\nturning,1200,1180,0.2\n")
    assert blocks_of(tmp_path) == [
        "operation: turning\nplanned:\n  speed: 1200 rpm\n  depth of cut: 0.2 mm\n"
        "ran:\n  speed: 1180 rpm"
    ]


def test_a_page_has_a_project_s_part_else_its_year(tmp_path: Path) -> None:
    taken(
        tmp_path,
        "project,part,date,operation\n"
        "Boat winch,bush,2025-01-02,turning\nBoat winch,bush,2026-01-02,turning\n"
        "Boat winch,,2025-02-02,milling\n,,2026-01-01,drilling\n,,,reaming\n",
    )
    texts = texts_of(tmp_path)
    assert list(texts) == [
        "boat-winch/2025.md",
        "boat-winch/bush.md",
        "old/2026.md",
        "old/undated.md",
    ]
    assert texts["boat-winch/bush.md"].startswith('---\npart: "bush"\n---\n# Boat winch: bush\n')
    assert [record.part for record in records_in(tmp_path)] == ["", "bush", "bush", "", ""]


def test_a_part_that_a_page_of_the_log_is_already_is_not_said_again(tmp_path: Path) -> None:
    page = tmp_path / "log" / "boat-winch" / "index.md"
    page.parent.mkdir(parents=True)
    page.write_text("---\npart: bush\n---\n\n# Bush\n", "utf-8")
    (tmp_path / "mkdocs.yml").write_text("docs_dir: log\n", "utf-8")
    taken(tmp_path, "project,part,operation\nBoat winch,bush,turning\n")
    assert texts_of(tmp_path)["boat-winch/bush.md"].startswith("# Boat winch: bush\n")
    assert read_log(texts_of(tmp_path)).problems == ()


@pytest.mark.parametrize("part", ["3/8 bush", "check", "mm", "a: [b", "*x"])
def test_a_part_that_can_be_no_name_is_said_in_the_heading_alone(tmp_path: Path, part: str) -> None:
    taken(tmp_path, f'part,operation\n"{part}",turning\n')
    (text,) = texts_of(tmp_path).values()
    assert text.startswith("# old: ")
    assert len(records_in(tmp_path)) == 1


def test_more_setups_than_a_page_takes_go_on_in_a_next_page(tmp_path: Path) -> None:
    taken(tmp_path, "date,operation\n" + "2026-01-01,turning\n" * (MOST_SETUPS + 1))
    counts = {path: text.count("```setup") for path, text in texts_of(tmp_path).items()}
    assert counts == {"old/2026.md": MOST_SETUPS, "old/2026-2.md": 1}
    assert len(records_in(tmp_path)) == MOST_SETUPS + 1


def test_into_a_log_goes_into_the_folder_of_its_pages_and_reads_its_shop_profile(
    tmp_path: Path,
) -> None:
    home = tmp_path / "log"
    (home / "pages").mkdir(parents=True)
    (home / "pages" / "index.md").write_text("# Log\n", "utf-8")
    (home / "mkdocs.yml").write_text("site_name: x\ndocs_dir: pages\n", "utf-8")
    (home / "shop.yml").write_text(
        "cutters:\n  - name: big drill\n    kind: drill\n    material: HSS\n    diameter: 13 mm\n",
        "utf-8",
    )
    made = taken(
        tmp_path,
        "tool,tool dia (mm),tool material,rpm\nbig drill,13,HSS,400\nbig drill,12,HSS,400\n",
    )
    assert [path.relative_to(home).as_posix() for path in made.pages] == ["pages/old/undated.md"]
    assert blocks_of(tmp_path)[0] == "cutter: big drill\nran:\n  speed: 400 rpm"
    assert "cutter diameter: 12 mm" in blocks_of(tmp_path)[1]


def test_the_words_of_a_cutter_are_put_together(tmp_path: Path) -> None:
    taken(
        tmp_path,
        "tool,tool material,flutes,tool dia (mm),nose radius (mm),tool width (mm),rpm\n"
        "end mill,HSS,4,6,,,900\n"
        '"end mill, HSS, diameter 6 mm, 4 teeth",HSS,4,6,,,900\n'
        "turning tool,HSS,,,0.4,,900\n"
        "parting tool,HSS,,,,2,900\n"
        ",carbide,,,,,900\n",
    )
    assert [block.partition("\nran:")[0] for block in blocks_of(tmp_path)] == [
        "cutter: end mill, HSS\ncutter diameter: 6 mm\nteeth: 4",
        "cutter: end mill, HSS, diameter 6 mm, 4 teeth",
        "cutter: turning tool, HSS, nose radius 0.4 mm",
        "cutter: parting tool, HSS, width 2 mm",
        "ran:\n  speed: 900 rpm\nremarks: cutter material: carbide",
    ]


def test_what_a_column_says_of_a_cutter_and_its_line_does_not_is_kept_as_a_remark(
    tmp_path: Path,
) -> None:
    home = tmp_path / "log"
    home.mkdir()
    (home / "mkdocs.yml").write_text("site_name: x\n", "utf-8")
    (home / "docs").mkdir()
    (home / "docs" / "index.md").write_text("# Log\n", "utf-8")
    (home / "shop.yml").write_text("cutters:\n  blade: parting tool, HSS, width 2 mm\n", "utf-8")
    taken(
        tmp_path,
        "tool,tool material,tool width (mm),nose radius (mm),rpm\n"
        "blade,HSS,2,,900\n"
        "blade,carbide,3,0.1,900\n"
        '"parting tool, HSS, 1.5 mm wide",HSS,2,,900\n',
    )
    kept = [line for block in blocks_of(tmp_path) for line in block.splitlines() if ": " in line]
    assert [line for line in kept if line.startswith(("cutter", "remarks"))] == [
        "cutter: blade",
        "cutter: blade",
        "remarks: cutter material: carbide; cutter width: 3 mm; cutter nose radius: 0.1 mm",
        "cutter: parting tool, HSS, 1.5 mm wide",
        "remarks: cutter width: 2 mm",
    ]


# Nothing is lost, nothing is written over


def test_a_page_that_is_there_is_left_alone_and_the_others_are_written(tmp_path: Path) -> None:
    page = tmp_path / "log" / "old" / "2026.md"
    page.parent.mkdir(parents=True)
    page.write_text("# Mine\n", "utf-8")
    made = taken(tmp_path, HEAD + ROW + ROW + ROW.replace("2026", "2025"))
    assert page.read_text("utf-8") == "# Mine\n"
    assert (made.taken, made.rows) == (1, 3)
    assert [problem.code for problem in made.problems] == ["take-page-there"]
    assert made.problems[0].message.endswith(
        "log/old/2026.md is there already; 2 rows of this file were not taken"
    )
    assert "old/2025.md" in texts_of(tmp_path)


def test_taken_twice_changes_nothing(tmp_path: Path) -> None:
    taken(tmp_path, HEAD + ROW)
    before = texts_of(tmp_path)
    assert taken(tmp_path, HEAD + ROW).taken == 0
    assert texts_of(tmp_path) == before


def test_a_dry_run_writes_nothing(tmp_path: Path) -> None:
    made = taken(tmp_path, HEAD + ROW, dry_run=True)
    assert made.taken == 1
    assert not (tmp_path / "log").exists()
    asks = taken(tmp_path, "widget\nx\n", dry_run=True)
    assert asks.asks
    assert [path.name for path in tmp_path.iterdir()] == ["old.csv"]


def test_a_row_that_cannot_be_taken_is_told_and_the_others_are_taken(tmp_path: Path) -> None:
    made = taken(tmp_path, HEAD + ROW + ROW.replace("1180", "fast").replace("0.06", "x") + ROW)
    assert (made.taken, made.rows) == (2, 3)
    assert lines_of(made) == [
        "old.csv:3:51: rpm: `fast` is not one number",
        "old.csv:3:56: feed (mm/rev): `x` is not one number",
    ]


def test_a_page_that_cannot_be_written_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(taking, "write_whole", full)
    made = taken(tmp_path, HEAD + ROW)
    assert made.taken == 0
    assert made.problems[0].message.endswith(
        "log/old/2026.md could not be written: No space left on device;"
        " 1 row of this file was not taken"
    )


def test_a_link_that_leads_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "log").mkdir()
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "log" / "old").symlink_to(tmp_path / "elsewhere")
    made = taken(tmp_path, HEAD + ROW)
    assert [problem.code for problem in made.problems] == ["take-leads-out"]
    assert list((tmp_path / "elsewhere").iterdir()) == []


@pytest.mark.parametrize(
    ("project", "folder"),
    [
        ("../../etc", "etc"),
        ("/etc/passwd", "etc-passwd"),
        ("C:\\", "c"),
        ("C:\\Windows\\System32", "c-windows-system32"),
        ("3/8 jig", "3-8-jig"),
        ("con", "con-log"),
        ("COM1", "com1-log"),
        ("templates", "templates-log"),
        (".git", "git"),
        ("..", "old"),
        ("a\nb", "a-b"),
        ("Ærøskøbing jig", "ærøskøbing-jig"),
        ("x" * 500, "x" * 60),
        ("🙂", "old"),
    ],
)
def test_a_project_that_looks_like_a_path_stays_in_the_folder(
    tmp_path: Path, project: str, folder: str
) -> None:
    taken(tmp_path, f'project,operation\n"{project}",turning\n')
    assert list(texts_of(tmp_path)) == [f"{folder}/undated.md"]
    assert len(records_in(tmp_path)) == 1


@pytest.mark.parametrize(
    ("project", "page", "path"),
    [
        ("log/boat-winch", "log/boat-winch/bush.md", "log/boat-winch/bush.md"),
        ("", "index.md", "old/index.md"),
        ("../../etc", "../../etc/passwd", "etc/passwd.md"),
        ("a/b/c/d/e/f", "x", "c/d/e/f/x.md"),
    ],
)
def test_a_project_of_our_own_export_is_a_path_within_the_folder(
    tmp_path: Path, project: str, page: str, path: str
) -> None:
    one = Record(page=page, anchor="setup", project=project, operation="turning")
    taken(tmp_path, records_csv([one]))
    assert list(texts_of(tmp_path)) == [path]


@given(st.text(max_size=80))
def test_a_file_name_is_one_name_anywhere(text: str) -> None:
    name = file_name(text)
    assert re.fullmatch(r"[^\W_]*(?:-[^\W_]+)*", name)
    assert len(name) <= 64


# How a file may look

DOUBTED = "it is no UTF-8 text, and was read as {}: look whether its letters are right"


@pytest.mark.parametrize(
    ("encoding", "told"),
    [
        ("utf-8", []),
        ("utf-8-sig", []),
        ("utf-16", ["it was read as UTF-16"]),
        ("cp1252", [DOUBTED.format("Windows-1252")]),
        ("latin-1", [DOUBTED.format("Windows-1252")]),
    ],
)
def test_letters_are_read_in_every_usual_encoding(
    tmp_path: Path, encoding: str, told: list[str]
) -> None:
    made = taken(tmp_path, (HEAD + ROW.replace("fine", "schön 50 µm")).encode(encoding))
    assert blocks_of(tmp_path)[0].endswith("remarks: schön 50 µm")
    assert list(made.sheet.notes) == told


def test_bytes_that_windows_1252_lacks_are_read_as_latin_1(tmp_path: Path) -> None:
    made = taken(tmp_path, (HEAD + ROW).encode() + b"2026-01-02,turning,,,,,,,\x81\xe4\n")
    assert "remarks: \ufffdä" in blocks_of(tmp_path)[1]
    assert made.sheet.notes == (DOUBTED.format("Latin-1"),)


@pytest.mark.parametrize(("sign", "word"), [(";", "semicolons"), ("\t", "tabs")])
def test_semicolons_and_tabs_part_cells_too(tmp_path: Path, sign: str, word: str) -> None:
    text = (HEAD + ROW).replace('"turning tool, HSS"', "turning tool").replace(",", sign)
    made = taken(tmp_path, text.replace("0.06", "0,06"))
    assert made.sheet.notes == (f"its cells are parted by {word}",)
    assert "feed: 0.06 mm/rev" in blocks_of(tmp_path)[0]


def test_a_first_line_may_name_the_separator(tmp_path: Path) -> None:
    made = taken(tmp_path, "sep=;\nrpm;notes\n500;a, b, c, d\n")
    assert blocks_of(tmp_path) == ["ran:\n  speed: 500 rpm\nremarks: a, b, c, d"]
    assert made.sheet.notes == ("its cells are parted by semicolons",)


def test_old_line_ends_and_empty_rows_are_passed_over(tmp_path: Path) -> None:
    made = taken(tmp_path, f"{HEAD}\n,,,,\n{ROW}\n\n{ROW}".replace("\n", "\r"))
    assert (made.taken, made.rows) == (2, 2)
    assert taken(tmp_path, f"{HEAD}{ROW}".replace("\n", "\r\n"), dry_run=True).rows == 1


def test_rows_above_the_headings_are_told_and_left_out(tmp_path: Path) -> None:
    made = taken(tmp_path, "My lathe,,\nkept since 2019,,\n\n" + HEAD + ROW)
    assert made.sheet.notes == ("lines 1 to 2 above the headings: left out",)
    assert (made.sheet.head.line, made.taken) == (4, 1)


def test_headings_that_stand_twice_get_a_number(tmp_path: Path) -> None:
    made = taken(tmp_path, "rpm,notes,notes\n500,first,second\n")
    assert made.sheet.headings == ("rpm", "notes", "notes (2)")
    assert made.sheet.notes == (
        "the heading `notes` stands there again; the column is called `notes (2)`",
    )
    assert blocks_of(tmp_path) == ["ran:\n  speed: 500 rpm\nremarks: first; second"]


def test_quoted_cells_may_hold_line_ends_quotes_and_separators(tmp_path: Path) -> None:
    text = 'rpm,notes,operation\n500,"one ""two"",\nthree",turning\n600,fine,fast\n'
    made = taken(tmp_path, text.replace("600", "x"))
    assert blocks_of(tmp_path) == [
        'operation: turning\nran:\n  speed: 500 rpm\nremarks: one "two",; three'
    ]
    assert lines_of(made) == ["old.csv:4:1: rpm: `x` is not one number"]


def test_a_problem_in_a_row_of_several_lines_is_at_its_own_line(tmp_path: Path) -> None:
    made = taken(tmp_path, 'notes,rpm\n"one\ntwo",fast\n')
    assert lines_of(made) == ["old.csv:3:6: rpm: `fast` is not one number"]
    assert made.problems[0].text.splitlines()[1:3] == ['    two",fast', "         ^^^^"]


def test_a_quote_that_is_never_closed_is_a_sign_and_said(tmp_path: Path) -> None:
    made = taken(tmp_path, 'rpm,notes\n500,"stray\n600,fine\n')
    assert made.taken == 2
    assert made.sheet.notes == ("the quote that line 2 opens is never closed; it is a sign",)
    assert 'remarks: "stray' in blocks_of(tmp_path)[0]


def test_an_inch_mark_behind_a_number_is_no_quote(tmp_path: Path) -> None:
    taken(tmp_path, 'tool,tool dia (in),rpm\n3/8" drill,3/8",500\n"1/4"" drill","1/4""",500\n')
    assert [block.partition("\nran:")[0] for block in blocks_of(tmp_path)] == [
        'cutter: 3/8" drill\ncutter diameter: 3/8 in',
        'cutter: 1/4" drill\ncutter diameter: 1/4 in',
    ]


def test_a_row_with_more_cells_than_headings_is_told_and_one_with_fewer_is_taken(
    tmp_path: Path,
) -> None:
    made = taken(tmp_path, "operation,rpm,notes\nturning,500,slow, then fast\nturning,500\n,,,,\n")
    assert (made.taken, made.rows) == (1, 2)
    assert lines_of(made) == [
        "old.csv:2:18: the row has 4 cells, and there are 3 headings"
        " (a cell that holds the separator stands in quotes)"
    ]


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "is empty"),
        (b"\xef\xbb\xbf", "is empty"),
        (b" \n\r\n\t\n", "is empty"),
        (b"date,rpm\n", "has headings on line 1, and no row below them"),
        (b"PK\x03\x04....", "is a workbook or another packed file and no CSV; save the sheet"),
        (b"%PDF-1.7 ...", "is a PDF and no CSV"),
        (b"date,rpm\n2026-01-01,5\x0000\n", "holds NUL characters, so it is no text"),
        ("date,rpm\n2026-01-01,500\n".encode("utf-16-le"), "holds NUL characters"),
        (b"\xff\xfed\x00a", "begins as UTF-16 and goes on otherwise"),
        (bytes(range(256)) * 40, "holds NUL characters"),
        (b",".join([b"a"] * 300) + b"\n1\n", "has more than 200 columns"),
    ],
)
def test_a_file_of_which_nothing_can_be_taken_is_refused(
    tmp_path: Path, data: bytes, why: str
) -> None:
    with pytest.raises(NotTaken, match=re.escape(why)):
        taken(tmp_path, data)
    assert [path.name for path in tmp_path.iterdir()] == ["old.csv"]


def test_a_file_of_more_bytes_or_rows_than_are_read_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(take_text, "MOST_ROWS", 3)
    assert taken(tmp_path, HEAD + ROW * 3, dry_run=True).taken == 3
    with pytest.raises(NotTaken, match=r"old\.csv has more than 3 rows; take it in parts"):
        taken(tmp_path, HEAD + ROW * 4)
    monkeypatch.setattr(take_text, "MOST_BYTES", 100)
    with pytest.raises(NotTaken, match="is larger than 100 bytes"):
        taken(tmp_path, HEAD + ROW)


def test_a_remark_of_fifty_megabytes_costs_its_row_alone(tmp_path: Path) -> None:
    long = 'ab"";,\n' * (50 * 1024 * 1024 // 7)
    made = taken(tmp_path, f'rpm,notes\n500,fine\n510,"{long}"\n520,fine\n')
    assert (made.taken, made.rows) == (2, 3)
    (problem,) = made.problems
    assert re.fullmatch(
        r"notes: this cell has \d{8} characters; it may have 32000", problem.message
    )
    assert (problem.place.line, problem.place.column) == (3, 5)
    assert len(problem.text) < 1000


def test_a_row_of_more_than_a_block_holds_is_told(tmp_path: Path) -> None:
    made = taken(tmp_path, "rpm,notes,notes,notes\n500" + f",{'x' * 30_000}" * 3 + "\n")
    assert [problem.code for problem in made.problems] == ["take-long-row"]


# Numbers, units, days


@pytest.mark.parametrize(
    ("text", "decimal", "number"),
    [
        ("1180", "", "1180"),
        ("1,180.5", "", "1180.5"),
        ("1.180,5", "", "1180.5"),
        ("0,06", "", "0.06"),
        ("0.060", "", "0.060"),
        (".002", "", "0.002"),
        (",002", "", "0.002"),
        ("5.", "", "5"),
        ("1 180", "", "1180"),
        ("1'180", "", "1180"),
        ("1\u202f180,5", "", "1180.5"),
        ("1,234,567", "", "1234567"),
        ("1.234.567", "", "1234567"),
        ("1,180", "point", "1180"),
        ("1,180", "comma", "1.180"),
        ("1.180", "point", "1.180"),
        ("1.180", "comma", "1180"),
        ("0,06", "point", "0.06"),
        ("1.18E+03", "", "1.18E+03"),
        ("-0.5", "", "-0.5"),
        ("+3", "", "3"),
    ],
)
def test_a_number_is_read_as_it_was_meant(text: str, decimal: str, number: str) -> None:
    assert read_number(text, decimal) == number


@pytest.mark.parametrize("text", ["", "fast", "600-700", "~600", "1,2,3", "1.2.3", "12,34,567"])
def test_what_is_no_number_is_none(text: str) -> None:
    with pytest.raises(Mistake, match="is not one number"):
        read_number(text, "")


@pytest.mark.parametrize(
    ("text", "other"), [("1,180", "1180 or 1.180"), ("1.180", "1.180 or 1180")]
)
def test_a_number_that_could_be_two_is_doubtful(text: str, other: str) -> None:
    with pytest.raises(Mistake, match=f"`{text}` could be {other}"):
        read_number(text, "")


def test_the_rest_of_a_file_tells_its_decimal_sign(tmp_path: Path) -> None:
    assert decimal_sign(["1.180", "450"]) == ""
    taken(tmp_path, "rpm;feed (mm/rev)\n1.180;0,06\n2.400;0,1\n")
    assert [re.findall(r": (\S+) ", block) for block in blocks_of(tmp_path)] == [
        ["1180", "0.06"],
        ["2400", "0.1"],
    ]


def test_a_file_with_both_decimal_signs_is_told_column_by_column(tmp_path: Path) -> None:
    text = 'rpm,doc (mm)\n"1,180.0","0,5"\n"1,200",0.5\n"1,250","1,125"\n'
    assert taken(tmp_path, text, dry_run=True).asks
    made = taken(tmp_path, 'rpm,doc (mm)\n"1,180.0","0,5"\n"1,200","1,125"\n')
    assert made.taken == 2
    assert "speed: 1200 rpm\n  depth of cut: 1.125 mm" in blocks_of(tmp_path)[1]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("6", ("6", "")),
        ("6 mm", ("6", "mm")),
        ("6,5mm", ("6.5", "mm")),
        ('1/4"', ("1/4", "in")),
        ("1/4 in", ("1/4", "in")),
        ("1 1/2 inch", ("1-1/2", "in")),
        ("1-1/2″", ("1-1/2", "in")),
        ("½ in", ("1/2", "in")),
        ("1½ in", ("1-1/2", "in")),
        ("Ø 6 mm", ("6", "mm")),
        ("0.002 ipr", ("0.002", "in/rev")),
        ("250 SFM", ("250", "ft/min")),
        ("0.1 mm per rev", ("0.1", "mm/rev")),
        ("1 180 rpm", ("1180", "rpm")),
        ("5 thou", ("5", "thou")),
        ("8 µm", ("8", "um")),
    ],
)
def test_a_cell_may_say_its_unit(text: str, found: tuple[str, str]) -> None:
    assert read_sized(text, "") == found


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("6 furlong", "`furlong` is no unit that is known here"),
        ("600-700", "`600-700` is not one number"),
        ("#REF!", "`#REF!` is not one number"),
        ("=A1*2", "`=A1*2` is not one number"),
        ("about 600", "`about 600` is not one number"),
        (" " * 500 + "1" + " " * 500, "is not one number"),
        ("9" * 500, "is not one number"),
    ],
)
def test_a_cell_of_anything_else_is_told(text: str, why: str) -> None:
    with pytest.raises(Mistake, match=re.escape(why)):
        read_sized(text, "")


def test_columns_in_mm_and_in_inch_stand_beside_each_other(tmp_path: Path) -> None:
    made = taken(
        tmp_path,
        "tool,tool dia mm,tool_dia_in,doc,rpm\ndrill,6,,1 mm,500\ndrill,,1/4,0.1 in,500\n"
        "drill,6.35,0.25,1 mm,500\ndrill,6,1/4,1 mm,500\n",
    )
    sizes = [re.findall(r"diameter: (.*)", block)[0] for block in blocks_of(tmp_path)]
    assert sizes == ["6 mm", "1/4 in", "6.35 mm"]
    assert lines_of(made) == [
        "old.csv:5:9: tool_dia_in: it says cutter diameter is `1/4 in`, and the column"
        " `tool dia mm` says `6 mm` (take one of the two columns; the mapping file may `skip`"
        " the other)"
    ]


def test_a_unit_of_another_kind_is_told(tmp_path: Path) -> None:
    made = taken(tmp_path, "rpm,doc (mm)\n500,1 rpm\n30 m/min,1\n")
    assert lines_of(made) == [
        "old.csv:2:5: doc (mm): `1 rpm` is in rpm, and a depth of cut is in mm"
    ]
    assert "cutting speed: 30 m/min" in blocks_of(tmp_path)[0]


@pytest.mark.parametrize(
    ("text", "order", "day"),
    [
        ("2026-03-14", "", "2026-03-14"),
        ("2026/3/4", "", "2026-03-04"),
        ("2026-03-14 10:22", "", "2026-03-14"),
        ("2026-03-14T10:22:05Z", "", "2026-03-14"),
        ("14.3.2026", "", "2026-03-14"),
        ("4.3.26", "", "2026-03-04"),
        ("1.2.98", "", "1998-02-01"),
        ("3/14/2026", "month first", "2026-03-14"),
        ("14/3/2026", "day first", "2026-03-14"),
        ("3/3/2026", "", "2026-03-03"),
        ("14 March 2026", "", "2026-03-14"),
        ("14-Mar-26", "", "2026-03-14"),
        ("Mar 14, 2026", "", "2026-03-14"),
        ("March 1st, 2026", "", "2026-03-01"),
    ],
)
def test_a_day_is_read_as_it_is_written(text: str, order: str, day: str) -> None:
    assert read_day(text, order) == day


@pytest.mark.parametrize(
    "text", ["2026", "30.2.2026", "2026-13-01", "3/4/2026", "yesterday", "45000", "14 Foo 2026"]
)
def test_what_is_no_day_is_told(text: str) -> None:
    with pytest.raises(Mistake, match=f"`{text}` is not a day"):
        read_day(text, "")


def test_the_order_of_days_is_told_by_the_column_as_a_whole(tmp_path: Path) -> None:
    assert day_order(["13/1/2026", "1/13/2026"]) == ("", True)
    taken(tmp_path, "date,rpm\n3/14/2026,500\n2/1/2026,500\n")
    assert [block[:16] for block in blocks_of(tmp_path)] == [
        "date: 2026-03-14",
        "date: 2026-02-01",
    ]


@given(st.text(max_size=60))
def test_no_text_of_a_cell_breaks_a_reader(text: str) -> None:
    for read in (lambda: read_sized(text, ""), lambda: read_day(text, "day first")):
        try:
            number = read()
        except Mistake:
            continue
        assert number
    unit_of(text)
    heading_guess(text)


# What is of several


def test_one_of_several_feeds_is_set_and_what_does_not_follow_is_a_remark(tmp_path: Path) -> None:
    taken(
        tmp_path,
        "operation,rpm,feed (mm/rev),feed (mm/min)\n"
        "turning,1000,0.06,60\nturning,1000,0.06,75\nturning,1000,by hand,75\n",
    )
    told = [re.findall(r"(?:feed|remarks): (.*)", block) for block in blocks_of(tmp_path)]
    assert told == [
        ["0.06 mm/rev"],
        ["0.06 mm/rev", "feed (mm/min): 75 mm/min"],
        ["by hand", "feed (mm/min): 75 mm/min"],
    ]


def test_a_speed_and_a_cutting_speed_both_stand_unless_one_follows(tmp_path: Path) -> None:
    taken(
        tmp_path,
        "operation,diameter (mm),rpm,vc (m/min)\nturning,10,1000,31.41592653589793\n"
        "turning,10,1000,31.4\n",
    )
    assert [re.findall(r"(\w*) ?speed: (.*)", block) for block in blocks_of(tmp_path)] == [
        [("", "1000 rpm")],
        [("", "1000 rpm"), ("cutting", "31.4 m/min")],
    ]


def test_what_a_log_would_call_a_problem_is_one_of_its_row(tmp_path: Path) -> None:
    made = taken(
        tmp_path,
        "operation,material,rpm,planned woc (mm),tool dia (mm),direction\n"
        "milling,steel,500,8,6,\nmilling,steel,500,,6,sideways\nmilling,unobtainium,500,,6,climb\n",
    )
    assert lines_of(made) == [
        "old.csv:2:19: planned woc (mm): a width of cut of 8.000 mm is more than the cutter,"
        " 6.000 mm",
        "old.csv:3:22: direction: `direction` is one of climb, conventional, and this is"
        " `sideways`",
    ]
    assert made.taken == 1


@pytest.mark.parametrize(
    ("words", "found"),
    [("chatter; burr", "chatter, burr"), ("chatter|burr\nbroke", "chatter, burr, broke")],
)
def test_faults_are_words_with_commas(tmp_path: Path, words: str, found: str) -> None:
    taken(tmp_path, f'rpm,fault\n500,"{words}"\n')
    assert f"fault: {found}" in blocks_of(tmp_path)[0]


def test_a_row_that_says_nothing_of_a_setup_is_told(tmp_path: Path) -> None:
    made = taken(tmp_path, "date,operation,notes\n2026-01-01,,total: 5\n")
    assert lines_of(made) == ["old.csv:2:1: nothing of a setup stands in this row"]


def test_a_private_row_is_a_private_setup(tmp_path: Path) -> None:
    taken(tmp_path, "rpm,private\n500,x\n600,no\n700,\n")
    assert [record.private for record in records_in(tmp_path)] == [True, False, False]


# Strangers


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "```\n# Heading\n<script>alert(1)</script>",
        "~~~\n\n<img src=x onerror=alert(1)>",
        "[=1 + 1]",
        "[click](javascript:alert(1)) ![](https://host.example/x.png)",
        "=HYPERLINK(A1)",
        "---\npart: shaft\n---",
        "\u2028# Heading\x0b<b>",
        "ran:\n  speed: 1 rpm",
        "{{ 7 * 7 }} {% raw %}",
        "&lt;b&gt; \\ ` * _",
    ],
)
def test_no_text_of_a_cell_is_anything_but_text_on_the_page(tmp_path: Path, text: str) -> None:
    cell = text.replace('"', '""')
    taken(tmp_path, f'operation,project,rpm,notes\nturning,"{cell}",500,"{cell}"\n')
    ((path, page),) = texts_of(tmp_path).items()
    (record,) = records_in(tmp_path)
    assert record.remarks == " ".join(one_line(text).split())
    log = read_log({path: page}).pages[path]
    assert (log.part, len(log.blocks), log.prose) == ("", 1, {})
    view = view_of_text(page, path)
    shown = view.block_html(0) + view.top_html()
    assert not re.search(r"<(?:script|img|b|h1)\b", shown)


def test_the_script_of_a_cell_is_escaped_in_the_card(tmp_path: Path) -> None:
    taken(tmp_path, "rpm,notes\n500,<script>alert(1)</script>\n")
    ((path, page),) = texts_of(tmp_path).items()
    html = view_of_text(page, path).block_html(0)
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html
    assert "<script" not in html


def test_the_heading_of_a_page_is_text(tmp_path: Path) -> None:
    taken(tmp_path, 'project,rpm\n"<img src=x> [=a] *b* {.c} ![](u)",500\n')
    (page,) = texts_of(tmp_path).values()
    assert page.startswith("# &lt;img src=x&gt; \\[=a\\] \\*b\\* \\{.c\\} !\\[\\](u), undated\n")


def test_a_cell_that_was_guarded_against_formulas_is_what_it_was(tmp_path: Path) -> None:
    taken(tmp_path, "rpm,notes\n500,'=1+1\n")
    assert "remarks: =1+1" in blocks_of(tmp_path)[0]


# The mapping file


def test_what_cannot_be_told_is_asked_in_a_mapping_file(tmp_path: Path) -> None:
    made = taken(
        tmp_path,
        'when,Drehzahl,Feed,Result,Date\n1/2/2026,"1,180",0.06,ok,\n'.replace(",Date", ""),
    )
    assert made.asks
    assert made.mapping_written
    assert not (tmp_path / "log").exists()
    assert [(one.about, one.part) for one in made.plan.questions] == [
        ("Drehzahl", "columns"),
        ("Feed", "columns"),
        ("dates", "dates"),
        ("ok", "outcomes"),
    ]
    text = mapping_path(tmp_path / "old.csv").read_text("utf-8")
    assert text.partition("columns:\n")[2] == (
        '  "when": date\n  "Result": outcome\n'
        "  # it could not be told what it is: 1,180\n"
        '  "Drehzahl":\n'
        "  # its unit (mm/rev, mm/min, mm/tooth) is not said: 0.06\n"
        '  "Feed": feed,\n'
        "\n# Each is one of good, usable, poor, spoiled, or skip.\noutcomes:\n"
        '  "ok":\n'
        "\n# does the day or the month come first in 1/2/2026?\n"
        "# day first or month first\ndates:\n"
    )


def test_a_mapping_file_that_is_filled_in_is_followed(tmp_path: Path) -> None:
    text = 'when,Drehzahl,Feed,Result,Shop temp\n1/2/2026,"1,180",0.002,ok,21\n'
    made = taken(
        tmp_path,
        text,
        'columns:\n  "Drehzahl": speed, rpm\n  Feed: feed, in/rev\n  Shop temp: remarks\n'
        "outcomes: {ok: usable}\ndates: day first\ndecimal: point\n",
    )
    assert lines_of(made) == []
    assert blocks_of(tmp_path) == [
        "date: 2026-02-01\nran:\n  speed: 1180 rpm\n  feed: 0.002 in/rev\noutcome: usable\n"
        "remarks: Shop temp: 21"
    ]


def test_a_mapping_file_as_it_was_written_is_not_filled_in(tmp_path: Path) -> None:
    text = "Drehzahl,Feed,Result\n500,0.06,ok\n"
    taken(tmp_path, text)
    path = mapping_path(tmp_path / "old.csv")
    before = path.read_text("utf-8")
    made = taken(tmp_path, text)
    assert [(problem.code, problem.message) for problem in made.problems] == [
        ("mapping-unfilled", "`Drehzahl` is still to be filled in"),
        ("mapping-unfilled", "`Feed` is still to be filled in"),
        ("mapping-unfilled", "`ok` is still to be filled in"),
    ]
    assert not made.mapping_written
    assert path.read_text("utf-8") == before


def test_a_mapping_file_that_leaves_a_question_is_not_written_over(tmp_path: Path) -> None:
    made = taken(tmp_path, "rpm,Widget,Gadget\n500,x,y\n", "columns: {Widget: skip}\n")
    assert [one.about for one in made.plan.questions] == ["Gadget"]
    assert not made.mapping_written
    assert mapping_path(tmp_path / "old.csv").read_text("utf-8") == "columns: {Widget: skip}\n"


def test_another_mapping_file_may_be_named(tmp_path: Path) -> None:
    other = tmp_path / "mine.yml"
    other.write_text("columns: {Widget: coolant}\n", "utf-8")
    taken(tmp_path, "rpm,Widget\n500,oil\n", mapping=other)
    assert "coolant: oil" in blocks_of(tmp_path)[0]


@pytest.mark.parametrize(
    ("mapping", "line"),
    [
        ("columns:\n  Widget: speeed, rpm\n", "2:11: `speeed` is nothing that a column can be"),
        ("columns:\n  Widget: speed, mm\n", "2:11: `mm` is no unit for speed"),
        ("columns:\n  Widget: speed, furlong\n", "2:11: `furlong` is no unit for speed"),
        ("columns:\n  Widget: coolant, mm\n", "2:11: coolant has no unit"),
        ("columns:\n  Widgt: skip\n", "2:3: the spreadsheet has no column `Widgt`"),
        ("columns:\n  Widget: [skip]\n", "2:11: `Widget` is a text on its line"),
        ("columns:\n  Widget: skip\n  Widget: skip\n", "3:3: `Widget` is given at line 2 already"),
        ("columns: [Widget]\n", "1:10: `columns` is lines `name: text` below it"),
        ("colums:\n  Widget: skip\n", "1:1: `colums` is not a key of a mapping file"),
        ("outcomes:\n  ok: god\n", "2:7: `ok` is one of good, usable, poor, spoiled, skip, and"),
        ("dates: american\n", "1:8: `dates` is one of day first, month first, and this is"),
        ("decimal:\n", "1:9: `decimal` is still to be filled in"),
        ("columns: &a {Widget: skip}\n", "1:10: `&a` is a YAML reference"),
        ("columns: {Widget: *a}\n", "1:19: `*a` is a YAML reference"),
        ("columns: {Widget: skip\n", "1:10: the mapping file cannot be read: "),
        ("columns: " + "[" * 30 + "]" * 30 + "\n", "1:19: the mapping file cannot be read: lists"),
        ("columns:\n  Widget: \x07\n", "2:11: the mapping file cannot be read: the character U+"),
        ("- columns\n", "1:1: `the mapping file` is lines `name: text` below it"),
        ("? [a]\n: b\n", "1:3: `a name` is a text on its line"),
        ("columns:\n  Widget: !!python/object:os.system skip\n", ""),
        ("# " + "x" * 300_000 + "\n", "1:1: the mapping file has 300003 characters; it may have"),
    ],
)
def test_a_mistake_in_a_mapping_file_is_a_problem_at_its_line(
    tmp_path: Path, mapping: str, line: str
) -> None:
    made = taken(tmp_path, "rpm,Widget\n500,x\n", mapping)
    if line:
        assert lines_of(made)[0].startswith(f"old.mapping.yml:{line}")
        assert made.taken == 0
        assert not (tmp_path / "log").exists()
    else:  # a tag is passed over: nothing of YAML is made into an object
        assert made.taken == 1


def test_a_mapping_file_that_is_no_text_is_refused(tmp_path: Path) -> None:
    path = sheet(tmp_path, "rpm\n500\n")
    mapping_path(path).write_bytes(b"columns: \xff\n")
    with pytest.raises(NotTaken, match=r"old\.mapping\.yml is not UTF-8 text: byte 10"):
        take(path, into=tmp_path / "log")


def test_with_nothing_to_map_nothing_is_taken(tmp_path: Path) -> None:
    made = taken(tmp_path, "Name,Phone\nA,1\n", "columns: {Name: skip, Phone: skip}\n")
    assert made.taken == 0
    assert lines_of(made) == []
    assert made.asks
    assert made.plan.questions == []
    assert not (tmp_path / "log").exists()


@given(
    st.lists(
        st.text(
            alphabet=st.characters(exclude_categories=["Cs"], exclude_characters="\0"),
            min_size=1,
            max_size=20,
        ),
        min_size=1,
        max_size=4,
    )
)
@settings(max_examples=60)
def test_any_headings_give_a_mapping_file_that_reads_back(
    tmp_path_factory: pytest.TempPathFactory, headings: list[str]
) -> None:
    folder = tmp_path_factory.mktemp("any")
    head = ",".join('"' + heading.replace('"', '""') + '"' for heading in ["rpm", *headings])
    text = f"{head},Widget\n500" + ",x" * len(headings) + ",x\n"
    made = taken(folder, text)
    assert made.mapping_written
    again = taken(folder, text)
    assert {problem.code for problem in again.problems} == {"mapping-unfilled"}
    assert len(again.problems) == len(made.plan.questions)


# Headings


@pytest.mark.parametrize(
    ("heading", "name", "unit"),
    [
        ("RPM", "speed", "rpm"),
        ("Spindle speed", "speed", ""),
        ("speed (m/min)", "speed", "m/min"),
        ("Vc m/min", "cutting speed", "m/min"),
        ("cutting_speed_m_per_min", "cutting speed", "m/min"),
        ("SFM", "cutting speed", "ft/min"),
        ("diameter (in)", "diameter", "in"),
        ("Tool dia., mm", "cutter diameter", "mm"),
        ("feed_mm_rev", "feed", "mm/rev"),
        ("Feed rate [mm/min]", "feed", "mm/min"),
        ("IPM", "feed", "in/min"),
        ("chip load (in)", "feed", "in/tooth"),
        ("feed per rev (mm)", "feed", "mm/rev"),
        ("planned feed mm/rev", "planned feed", "mm/rev"),
        ("Actual RPM", "speed", "rpm"),
        ("DOC", "depth of cut", ""),
        ("WOC (thou)", "width of cut", "thou"),
        ("Ra (µm)", "roughness", "um"),
        ("Work", "material", ""),
        ("Stick-out [mm]", "stick-out", "mm"),
        ("Op #", "step", ""),
        ("Comments", "remarks", ""),
    ],
)
def test_a_heading_is_known_by_what_people_call_it(heading: str, name: str, unit: str) -> None:
    found = heading_guess(heading)
    assert found.target is not None
    assert (found.target.name, found.unit) == (name, unit)


@pytest.mark.parametrize(
    "heading", ["", "Drehzahl", "mm", "diameter (rpm)", "skip", "planned", "x"]
)
def test_a_heading_that_names_nothing_is_not_guessed(heading: str) -> None:
    assert heading_guess(heading).target is None


def test_every_key_of_a_setup_may_be_a_column() -> None:
    keys = {key.name for key in SETUP_KEYS.values() if key.reads is not Reads.LINES}
    assert keys <= set(TARGETS)
    assert all(heading_guess(key).target is TARGETS[key] for key in keys)


def test_every_column_of_the_export_is_known() -> None:
    assert [name for name in COLUMNS if heading_guess(name, own=True).target is None] == []


def test_the_feed_of_a_drill_whose_lips_nobody_counted_comes_back_by_the_turn(
    tmp_path: Path,
) -> None:
    # 0.06 mm a tooth has a digit less than 0.12 mm a turn, and leads to no other feed.
    text = "operation: drilling\ncutter: drill, HSS, diameter 9 mm\n"
    page = f"# Block\n\n```setup\n{text}ran:\n  speed: 520 rpm\n  feed: 0.12 mm/rev\n```\n"
    sheet = records_csv(records_of(read_log({"block.md": page})), private=True)
    taken(tmp_path, sheet)
    (block,) = blocks_of(tmp_path)
    assert "  feed: 0.12 mm/rev" in block.splitlines()


# There and back

_WORD = st.text("abcdefgh =+-@';<>[]`#:é", min_size=1, max_size=12).map(str.strip).filter(bool)
_SIZE = st.sampled_from(["6 mm", "16.4 mm", "1/4 in", "0.375 in", "12 mm", "1-1/2 in"])
_TOP = {
    "date": st.dates().filter(lambda day: day.year > 1000).map(str),
    "step": st.integers(0, 99).map(str),
    "operation": st.sampled_from(["turning, finish", "side milling", "drilling", "filing"]),
    "feature": _WORD,
    "diameter": _SIZE,
    "length": _SIZE,
    "material": st.sampled_from(["brass", "mild steel", "an old file"]),
    "cutter": st.sampled_from(
        [
            *("turning tool, HSS, nose radius 0.4 mm", "drill, HSS, diameter 6 mm"),
            *("end mill, 4 teeth", "parting tool, HSS, width 2 mm", "parting tool, 1/16 in wide"),
        ]
    ),
    "cutter diameter": _SIZE,
    "teeth": st.integers(1, 12).map(str),
    "machine": _WORD,
    "holding": _WORD,
    "stick-out": _SIZE,
    "direction": st.sampled_from(["climb", "conventional"]),
    "outcome": st.sampled_from(["good", "usable", "poor", "spoiled"]),
    "fault": st.lists(_WORD, min_size=1, max_size=3).map(", ".join),
    "remarks": _WORD,
    "pictures": st.sampled_from(["a.jpg", "a.jpg, b.jpg"]),
    "private": st.sampled_from(["yes", "no"]),
}
_RUN = {
    "speed": st.integers(10, 5000).map("{} rpm".format),
    "feed": st.sampled_from(
        [
            *("0.06 mm/rev", "0.12 mm/rev", "by hand", "0.002 in/rev"),
            *("0.03 mm/tooth", "75 mm/min", "3 in/min"),
        ]
    ),
    "depth of cut": _SIZE,
    "width of cut": _SIZE,
    "passes": st.integers(1, 20).map(str),
    "coolant": _WORD,
}


def some_of(keys: dict[str, Any], always: str) -> st.SearchStrategy[dict[str, str]]:
    others = {key: texts for key, texts in keys.items() if key != always}
    return st.fixed_dictionaries({always: keys[always]}, optional=others)


@st.composite
def setup_blocks(draw: st.DrawFn) -> str:
    top = draw(some_of(_TOP, "operation"))
    runs = draw(st.lists(some_of(_RUN, "speed"), max_size=2))
    lines = [f"{key}: {text}" for key, text in top.items()]
    plans = draw(st.lists(some_of(_RUN, "speed"), max_size=1))
    for kind, run in [*(("planned", plan) for plan in plans), *(("ran", run) for run in runs)]:
        lines += [f"{kind}:", *(f"  {key}: {text}" for key, text in run.items())]
    return "```setup\n" + "\n".join(lines) + "\n```\n"


# What hangs on the place of a setup in its log, and not on the setup. The sentence of what gives
# way first may speak of a feed a minute where the one before spoke of a feed a turn.
_OF_PLACE = {"page", "anchor", "line", "run", "date_from", "title", "project"}


def same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return isclose(one, other, rel_tol=1e-12)
    return one == other


def differences(one: Record, other: Record) -> list[tuple[str, object, object]]:
    fields = [known.name for known in RECORD if known.name not in _OF_PLACE]
    pairs = [(name, getattr(one, name), getattr(other, name)) for name in fields]
    for run in ("planned", "ran"):
        first, second = getattr(one, run), getattr(other, run)
        pairs.append((run, first is None, second is None))
        if first and second:
            names = [known.name for known in FIGURES if known.name != "gives_way_first"]
            pairs += [(f"{run} {n}", getattr(first, n), getattr(second, n)) for n in names]
    return [pair for pair in pairs if not same(pair[1], pair[2])]


@given(st.lists(setup_blocks(), min_size=1, max_size=3))
@settings(max_examples=80)
def test_what_is_exported_and_taken_again_is_the_same_to_the_last_figure(
    tmp_path_factory: pytest.TempPathFactory, blocks: list[str]
) -> None:
    folder = tmp_path_factory.mktemp("back")
    page = "---\npart: bush\n---\n\n# Bush\n\n" + "\n".join(blocks)
    log = read_log({"boat-winch/bush.md": page})
    assume(all(found.grade is not Grade.PROBLEM for found in log.problems))
    records = list(records_of(log))
    made = taken(folder, records_csv(records, private=True))
    assert lines_of(made) == []
    back = records_in(folder)
    assert len(back) == len(records)
    for one, other in zip(records, back, strict=True):
        assert differences(one, replace(other, title="")) == []


def test_the_folder_reads_as_a_log(tmp_path: Path) -> None:
    taken(tmp_path, HEAD + ROW * 3)
    assert read_folder(tmp_path / "log").counts.line == (
        "1 page, 0 results, 0 checks, 3 setups, 0 cautions, 0 concessions, 0 problems"
    )
