"""`shoplog find` as a person runs it: what it prints, and how it exits."""

from __future__ import annotations

import csv
import io
import json
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from shoplog.cli import main
from shoplog.find import published
from shoplog.find.answers import answer_lines, columns_of
from shoplog.find.asking import Answer, Found
from shoplog.find.indexing.index import index_file
from shoplog.find.published import published_json
from shoplog.find.record import Figures, Record

HINGE = """\
# Gate hinge

```setup
date: 2025-02-08
operation: grooving
feature: groove for the ring
material: mild steel
cutter: grooving tool, HSS
machine: bench lathe
diameter: 16 mm
ran:
  speed: 290 rpm
  feed: 0.04 mm/rev
outcome: good
remarks: oil, and no stop on the way in
```

```setup
date: 2025-02-09
operation: slot milling
material: brass
cutter: slot drill, HSS, diameter 4 mm, 2 teeth
machine: small mill
ran:
  speed: 1400 rpm
  feed: by hand
outcome: poor
fault: chatter
private: yes
```

```calc
bore = 14 mm H7
```
"""
VISE = """\
# Vise

```setup
operation: turning, finish
material: EN8
cutter: turning tool, HSS, nose radius 0.4 mm
diameter: 1 in
planned:
  speed: 290 rpm
```
"""


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder one stands in: a log of two pages."""
    (tmp_path / "docs").mkdir()
    (tmp_path / "mkdocs.yml").write_text("site_name: Bench log\n")
    (tmp_path / "docs" / "hinge.md").write_text(HINGE)
    (tmp_path / "docs" / "vise.md").write_text(VISE)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def find(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["find", *arguments])


def test_what_is_found_is_printed_in_a_table_with_its_place_first(home: Path) -> None:
    result = find("groove", "--metric")
    assert result.output == (
        "place            date        operation  material    cutter              diameter  speed"
        "    cutting speed  feed         outcome  remarks\n"
        "docs/hinge.md:3  2025-02-08  grooving   mild steel  grooving tool, HSS  16 mm     290 rpm"
        "  14.6 m/min     0.04 mm/rev  good     oil, and no stop on the way in\n"
        "\n"
        "1 setup\n"
    )
    assert result.exit_code == 0


@pytest.mark.parametrize(
    ("system", "shown"),
    [
        ((), "16 mm (0.6299 in)"),
        (("--metric",), "16 mm  "),
        (("--inch",), "0.6299 in  "),
    ],
)
def test_figures_are_shown_in_both_systems_or_in_one(
    home: Path, system: tuple[str, ...], shown: str
) -> None:
    assert shown in find("groove", *system).output


def test_an_outcome_is_shown_though_the_figures_of_the_run_were_not_written(home: Path) -> None:
    text = "# Pin\n\n```setup\noperation: facing\noutcome: poor\n```\n"
    (home / "docs" / "pin.md").write_text(text)
    assert find("facing").output.splitlines()[1].split()[-1] == "poor"


@pytest.mark.parametrize(
    ("record", "shown"),
    [
        (Record(page="a.md", operation_kind="drilling"), "0.1 mm/rev"),
        (Record(page="a.md", operation_kind="slot milling", teeth=2), "0.05 mm/tooth"),
        (Record(page="a.md", operation_kind="turning"), "0.1 mm/rev"),
    ],
)
def test_only_a_milling_cutter_is_fed_by_the_tooth(record: Record, shown: str) -> None:
    fed = replace(record, ran=Figures(feed_per_rev_mm=0.1, feed_per_tooth_mm=0.05))
    found = Found(fed, "docs/")
    assert f"  {shown}" in "\n".join(answer_lines(Answer((found,), 1), system="metric"))


def test_a_private_setup_is_found_in_ones_own_log_and_marked(home: Path) -> None:
    assert "poor (private)  chatter\n" in find("slot").output
    assert find("slot", "--no-private").exit_code == 1


def test_a_plan_is_told_from_what_ran(home: Path) -> None:
    result = find("--planned-only")
    assert "docs/vise.md:3" in result.output
    assert "planned" in result.output
    assert find("--ran").output.endswith("2 setups\n")


def test_the_words_and_conditions_of_the_guide_narrow_the_answer(home: Path) -> None:
    asked = "groove --material low-carbon-steel --diameter 3/8in..20mm --outcome good --sort date"
    assert find(*asked.split()).output.endswith("\n1 setup\n")
    assert find("--operation", "finish turning", "--diameter", "25.4 mm").exit_code == 0
    assert find("--machine", "mill", "--fault", "chatter", "--since", "2025-02").exit_code == 0


def test_where_nothing_is_found_it_is_told_what_to_loosen(home: Path) -> None:
    result = find("groove", "--outcome", "poor")
    assert result.exit_code == 1
    assert result.output == (
        "nothing found; without groove there is 1, without --outcome poor there is 1\n"
    )
    result = find("groove", "--outcome", "poor", "--diameter", "1mm")
    assert result.output == "nothing found, whichever one condition is left out\n"


@pytest.mark.parametrize("words", [(), ("groove",), ("groove", "--outcome", "good")])
def test_a_log_without_setups_says_so(tmp_path: Path, words: tuple[str, ...]) -> None:
    (tmp_path / "page.md").write_text("# Page\n")
    result = find(*words, "--log", str(tmp_path))
    assert (result.exit_code, result.output) == (1, "there are no setups here\n")


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (
            ("--material", "bras"),
            "no setup has the material `bras`, and no table knows it; did you mean brass?",
        ),
        (
            ("--diameter", "5..3mm"),
            "--diameter 5..3mm ends below where it begins; the lesser end comes first",
        ),
        (
            ("--outcome", "god"),
            "--outcome is good, usable, poor, spoiled; this is `god`; did you mean good?",
        ),
        (
            ("--since", "soon"),
            "--since is a day, a month or a year, as 2026-03-14; not `soon`",
        ),
        (
            ("--sort", "dat"),
            "--sort is date, outcome, cutting-speed, feed, diameter, a - before it turns it;"
            " not `dat`; did you mean date?",
        ),
        (("--like", "nowhere"), "--like: there is no page `nowhere.md`"),
        (("--ran", "--planned-only"), "--ran and --planned-only leave nothing; give one of them"),
        (("--thread", "M8", "--size", "14 mm"), "--thread is asked for alone"),
        (("--thread", "M8", "word"), "--thread is asked for alone"),
        (("--thread", "M8", "--also", "x.json"), "--thread is asked for alone"),
        (("--thread", "M8", "--diameter", "3mm"), "--thread is asked for alone"),
        (("--thread", "M8", "--outcome", "good"), "--thread is asked for alone"),
        (
            ("--size", "big"),
            "--size is a length such as 14 mm, 9/16 in, 14 mm H7 or 14 mm ±0.02",
        ),
    ],
)
def test_a_question_that_cannot_be_asked_is_wrong_use(
    home: Path, arguments: tuple[str, ...], why: str
) -> None:
    result = find(*arguments)
    assert result.exit_code == 2
    assert result.stderr.splitlines()[-1] == f"Error: {why}"


def test_a_folder_that_is_in_no_log_is_not_read_unasked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "notes.md").write_text(VISE)
    monkeypatch.chdir(tmp_path)
    result = find("turning")
    assert (result.exit_code, result.stderr.splitlines()[-1]) == (
        2,
        "Error: there is no mkdocs.yml here or above; name the folder of your pages with --log",
    )
    assert [path.name for path in tmp_path.iterdir()] == ["notes.md"]
    assert find("turning", "--log", str(tmp_path)).exit_code == 0


def test_a_folder_without_a_log_is_wrong_use(tmp_path: Path) -> None:
    result = find("--log", str(tmp_path))
    assert result.exit_code == 2
    assert "holds no Markdown page" in result.stderr
    assert find("--log", str(tmp_path / "nowhere")).exit_code == 2


def test_an_answer_is_given_as_json(home: Path) -> None:
    result = find("groove", "--json")
    found = json.loads(result.output)
    assert (result.exit_code, found["count"]) == (0, 1)
    (one,) = found["found"]
    assert (one["place"], one["log"]) == ("docs/hinge.md:3", "")
    assert one["record"]["material_row"] == "steel"
    assert one["record"]["ran"]["feed_per_rev_mm"] == pytest.approx(0.04)
    assert json.loads(find("zebra", "--json").output) == {"count": 0, "found": []}
    assert find("zebra", "--json").exit_code == 1


def test_an_answer_is_given_as_csv_with_units_in_its_columns(home: Path) -> None:
    result = find("--csv")
    rows = list(csv.DictReader(io.StringIO(result.output)))
    assert [row["page"] for row in rows] == ["hinge.md", "hinge.md", "vise.md"]
    assert rows[1]["diameter_mm"] == "16"
    assert rows[1]["ran_spindle_speed_rpm"] == "290"


def test_as_many_rows_are_printed_as_are_wanted_and_all_are_counted(home: Path) -> None:
    assert find("--limit", "1").output.endswith("\n1 of 3 setups; --limit 3 shows all\n")
    assert len(json.loads(find("--limit", "1", "--json").output)["found"]) == 1
    assert find("--limit", "0").exit_code == 2


def test_the_nearest_setups_say_why_they_are_near(home: Path) -> None:
    page = VISE.replace("EN8", "EN9").replace("planned:", "ran:").replace("1 in", "30 mm")
    (home / "docs" / "old.md").write_text(page)
    result = find("--like", "docs/vise.md#setup", "--metric")
    assert result.exit_code == 0
    assert "docs/old.md:3" in result.output
    assert "also turning, 30 mm against 25.4 mm, also to finish, the same ISO 513 group (P)" in (
        result.output
    )


def test_pages_that_have_a_size_are_told(home: Path) -> None:
    result = find("--size", "14 mm H7")
    assert result.output == (
        "place             name  size\n"
        "docs/hinge.md:33  bore  14 mm H7 (14.000 to 14.018 mm)\n"
        "\n"
        "1 size\n"
    )
    assert json.loads(find("--size", "14 mm", "--json").output)["found"][0]["name"] == "bore"
    rows = list(csv.DictReader(io.StringIO(find("--size", "14 mm", "--csv").output)))
    assert rows == json.loads(find("--size", "14 mm", "--json").output)["found"]
    assert find("--size", "15 mm", "--csv").output.splitlines() == ["place,name,shown"]
    none = find("--thread", "M8x1.25")
    assert (none.exit_code, none.output) == (1, "no page has --thread M8x1.25\n")


def test_pages_below_a_folder_are_asked_about_alone(home: Path) -> None:
    (home / "docs" / "sub").mkdir()
    (home / "docs" / "sub" / "page.md").write_text(VISE)
    result = find("--log", "docs/sub")
    assert result.output.endswith("\n1 setup\n")
    assert "docs/sub/page.md:3" in result.output


def test_a_note_of_the_index_goes_beside_the_answer(home: Path) -> None:
    (home / ".shoplog").write_text("a file in the way")
    for asked in (("groove",), ("--size", "14 mm")):
        result = find(*asked)
        assert result.exit_code == 0
        assert result.stderr == (
            "note: .shoplog cannot be written: File exists; this was worked out without an index\n"
        )


def test_a_broken_index_is_not_told_of(home: Path) -> None:
    find("groove")
    index_file(home).write_bytes(b"broken" * 1000)
    result = find("groove")
    assert (result.exit_code, result.stderr) == (0, "")


# ---- other people's logs ---------------------------------------------------------------------


def other(**given: Any) -> Record:
    record = {"page": "theirs.md", "anchor": "setup", "line": 7, "run": 1, "date": "2025-06-01"}
    ran = Figures(spindle_speed_rpm=600.0)
    return Record(**{**record, "operation": "grooving", "ran": ran, **given})


def write_other(home: Path, *records: Record, name: str = "Lane End") -> str:
    file = home / "other.json"
    file.write_text(published_json(records, name=name), "utf-8")
    return str(file)


def test_another_log_is_asked_the_same_and_each_row_says_whose_it_is(home: Path) -> None:
    file = write_other(home, other(remarks="went well"), other(operation="facing"))
    result = find("grooving", "--also", file, "--metric")
    assert (result.exit_code, result.stderr) == (0, "")
    lines = result.output.splitlines()
    assert lines[0].startswith("place            log       date")
    assert lines[1].startswith("theirs.md:7      Lane End  2025-06-01  grooving")
    assert lines[2].startswith("docs/hinge.md:3  this log  2025-02-08  grooving")
    assert lines[-1] == "2 setups"


def test_names_of_materials_are_known_of_other_logs_too(home: Path) -> None:
    file = write_other(home, other(material="11SMn30"))
    assert "theirs.md:7" in find("--material", "EN1A", "--also", file).output
    assert find("--material", "EN1A").exit_code == 1


def test_json_and_csv_say_whose_each_record_is(home: Path) -> None:
    file = write_other(home, other(), name="=1+1")
    found = json.loads(find("grooving", "--also", file, "--json").output)["found"]
    assert [one["log"] for one in found] == ["=1+1", ""]
    rows = list(csv.DictReader(io.StringIO(find("grooving", "--also", file, "--csv").output)))
    assert [row["log"] for row in rows] == ["'=1+1", ""]


def test_a_log_without_a_name_is_called_by_its_file(home: Path) -> None:
    assert "other.json" in find("grooving", "--also", write_other(home, other(), name="")).output


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (lambda file: None, "is not there"),
        (lambda file: file.write_text("{"), "is not JSON: "),
        (lambda file: file.write_text("[" * 100_000), "is nested too deeply; it was not read"),
        (lambda file: file.write_bytes(b"\xff"), "is not UTF-8 text: byte 1 cannot be read"),
        (lambda file: file.write_text("{}"), "is JSON, and not the setups of a log"),
        (lambda file: file.write_text("x" * 3000), "is larger than 2000 bytes, and was not read"),
    ],
)
def test_a_file_that_is_no_log_is_named_and_skipped(
    home: Path, make: Callable[[Path], Any], why: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    bad, good = home / "bad.json", write_other(home, other())
    make(bad)
    monkeypatch.setattr(published, "MOST_BYTES", 2000 if "larger" in why else 10**6)
    result = find("grooving", "--also", str(bad), "--also", good)
    assert result.exit_code == 0
    assert result.stderr.startswith(f"note: skipped: {bad} {why}")
    assert result.stdout.endswith("\n2 setups\n")


def test_records_that_were_skipped_are_told(home: Path) -> None:
    file = Path(write_other(home, other()))
    data = json.loads(file.read_text())
    data["records"].append({"page": "x.md"})
    file.write_text(json.dumps(data))
    result = find("grooving", "--also", str(file))
    assert result.stderr == (f"note: {file}: 1 record was skipped; record 2: it has no `anchor`\n")
    assert result.exit_code == 0


def test_a_script_and_what_steers_a_terminal_are_text(home: Path) -> None:
    remarks = "<script>alert(1)</script> \x1b[2J\x1b]8;;http://x\x07 \u202eevil \r\n$(reboot)"
    file = home / "other.json"
    head = {"schema": "urn:shoplog:setups:1", "version": 1, "log": "\x1b[31mred\nlog"}
    record = {"page": "a\x1b[0m.md", "anchor": "setup", "line": 1, "remarks": remarks}
    record |= {"operation": "grooving", "material": "\x9b2J", "fault": ["\u2066"]}
    file.write_text(json.dumps({**head, "records": [record]}))
    for form in ((), ("--csv",), ("--json",)):
        result = find("grooving", "--also", str(file), *form)
        assert result.exit_code == 0
        assert "<script>alert(1)</script> �[2J�]8;;http://x� �evil  $(reboot)" in result.output
        shown = result.output.replace("\r\n", "\n")
        assert not [sign for sign in shown if sign != "\n" and not sign.isprintable()]


# ---- the terminal ----------------------------------------------------------------------------

LONG = Found(
    Record(
        page="boat-winch/a-page-with-a-long-name.md",
        anchor="setup",
        line=123,
        run=1,
        date="2025-02-08",
        operation="turning, finish",
        material="bright mild steel",
        cutter="turning tool, HSS, nose radius 0.4 mm",
        diameter_mm=25.75,
        outcome="good",
        fault=("burr",),
        remarks="went well " * 20,
        ran=Figures(spindle_speed_rpm=290, cutting_speed_m_per_min=23.46, feed_per_rev_mm=0.0635),
    ),
    "docs/",
)


@pytest.mark.parametrize("width", [240, 160, 120, 100, 80, 60])
def test_no_line_is_wider_than_the_terminal_and_no_place_is_cut(width: int) -> None:
    lines = list(answer_lines(Answer((LONG, LONG), 2), width=width))
    assert max(map(columns_of, lines)) <= width
    assert sum("docs/boat-winch/a-page-with-a-long-name.md:123" in line for line in lines) == 2
    assert all(word in " ".join(lines) for word in ("290 rpm", "23.5 m/min", "0.0635 mm/rev"))


def test_a_narrow_terminal_gets_a_record_in_several_lines() -> None:
    lines = list(answer_lines(Answer((LONG,), 1), width=90))
    assert lines[:3] == [
        "docs/boat-winch/a-page-with-a-long-name.md:123  2025-02-08  good  turning, finish",
        "    bright mild steel; turning tool, HSS, nose radius 0.4 mm",
        "    25.75 mm (1.0138 in), 290 rpm, 23.5 m/min (77 ft/min), 0.0635 mm/rev (0.0025 in/rev)",
    ]
    assert lines[3].startswith("    burr; went well went well")
    assert lines[-2:] == ["", "1 setup"]


def test_a_place_wider_than_the_terminal_stands_whole_and_alone() -> None:
    lines = list(answer_lines(Answer((LONG,), 1), width=32))
    assert lines[:2] == [
        "docs/boat-winch/a-page-with-a-long-name.md:123",
        "    2025-02-08  good  turning, …",
    ]
    assert max(map(columns_of, lines[1:])) <= 32


def test_wide_characters_are_lined_up() -> None:
    records = [
        Record(page=page, anchor="setup", line=1, outcome="good") for page in ("真鍮.md", "ab.md")
    ]
    lines = list(answer_lines(Answer(tuple(map(Found, records)), 2)))
    assert [columns_of(line.partition("good")[0]) for line in lines[1:3]] == [11, 11]


def test_what_goes_elsewhere_is_not_cut(home: Path) -> None:
    (home / "docs" / "long.md").write_text(HINGE.replace("oil, and", f"oil, {'x ' * 300}and"))
    result = find("oil", "--material", "mild steel")
    assert "x x and no stop on the way in\n" in result.output


@pytest.mark.slow
def test_the_command_is_quick_where_nothing_changed_for_it_loads_little(home: Path) -> None:
    find("groove")
    program = (
        "import sys; from shoplog.cli import main\n"
        "try: main(['find', 'groove', '--outcome', 'good'])\n"
        "except SystemExit: pass\n"
        "rooms = {'log', 'calc', 'trade', 'tables', 'units', 'render'}\n"
        "print(sorted(m for m in sys.modules"
        " if m == 'pint' or m.startswith('shoplog.') and m.split('.')[1] in rooms))\n"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program], cwd=home, check=True, capture_output=True, text=True
    )
    words_alone = ["shoplog.trade", "shoplog.trade.machining", "shoplog.trade.machining.stages"]
    assert ran.stdout.splitlines()[-2:] == ["1 setup", str(words_alone)]


@pytest.mark.slow
def test_on_a_terminal_the_answer_is_as_wide_as_it_is(home: Path) -> None:
    pty = pytest.importorskip("pty")
    import fcntl
    import struct
    import termios

    find("groove")
    parent, child = pty.openpty()
    fcntl.ioctl(child, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 72, 0, 0))
    environment = {key: value for key, value in os.environ.items() if key != "COLUMNS"}
    with subprocess.Popen(
        [sys.executable, "-c", "from shoplog.cli import main; main(['find', 'groove'])"],
        cwd=home,
        stdout=child,
        env=environment,
    ) as process:
        os.close(child)
        printed = b""
        while chunk := _read(parent):
            printed += chunk
        assert process.wait() == 0
    os.close(parent)
    lines = printed.decode().splitlines()
    assert lines[0] == "docs/hinge.md:3  2025-02-08  good  grooving"
    assert max(map(len, lines)) <= 72


def _read(terminal: int) -> bytes:
    """What a terminal shows next; nothing once its program has ended."""
    try:
        return os.read(terminal, 4096)
    except OSError:
        return b""


def test_the_schema_of_what_is_published_is_printed() -> None:
    result = find("--schema")
    assert result.exit_code == 0
    assert json.loads(result.output) == published.SCHEMA
