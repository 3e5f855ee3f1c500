"""The command as a person runs it: what it prints and how it exits."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from mkdocs.commands.build import build
from mkdocs.config import load_config

from shoplog.cli import main


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


@pytest.mark.parametrize(
    ("expression", "line"),
    [
        ("spindle_speed(cutting_speed=30 m/min, diameter=10 mm) to rpm", "955 rpm"),
        ("7/32 in", "0.2188 in (5.556 mm)"),
        ("1-1/2 in", "1.5000 in (38.100 mm)"),
        ("5°42'38\"", "5.7106° (5°42'38\")"),
        ("1850 rpm", "1850 rpm"),
        ("6 in/min", "6.0 in/min (152 mm/min)"),
        ("0.9 thou", "0.9 thou (23 µm)"),
        ("150 degC", "150 degC (302 degF)"),
        ("-40 degF to degC", "-40 degC (-40 degF)"),
    ],
)
def test_calc_prints_a_value_in_both_systems(expression: str, line: str) -> None:
    for words in ((expression,), ("--", expression)):
        result = run("calc", *words)
        assert result.exit_code == 0
        assert result.stdout.splitlines()[0] == line


def test_calc_names_the_tap_drill() -> None:
    result = run("calc", 'tap_drill("M6x1")')
    assert result.exit_code == 0
    assert result.stdout.startswith("M6: drill 5.0 mm")


def test_calc_shows_the_limits_of_a_class() -> None:
    result = run("calc", "30 mm H7")
    assert result.stdout == "30 mm H7\n  30.000 to 30.021 mm\n  1.1811 to 1.1819 in\n"


def test_calc_describes_a_fit() -> None:
    result = run("calc", "fit(30 mm H7, 30 mm p6)")
    assert result.exit_code == 0
    assert result.stdout.splitlines()[0] == (
        "an interference fit of 1 to 35 µm:"
        " it locates the parts and is not to be counted on for torque"
    )


def test_calc_refuses_parts_of_different_nominal_size() -> None:
    result = run("calc", "fit(30 mm H7, 24 mm p6)")
    assert result.exit_code == 1
    assert result.stderr == (
        "expression:1:15: the nominal sizes differ: the hole is 30 mm (1.1811 in),"
        " the shaft 24 mm (0.9449 in)\n"
        "    fit(30 mm H7, 24 mm p6)\n"
        "                  ^^^^^^^^\n"
        "  hint: a fit is between a hole and a shaft of one nominal size\n"
    )


def test_calc_shows_steps_when_asked() -> None:
    result = run("calc", "--steps", "spindle_speed(30 m/min, 10 mm)")
    assert "  spindle_speed, with values: 1000 * 30.0 m/min / (pi * 10.000 mm)" in result.stdout


def test_calc_gives_json() -> None:
    result = run("calc", "--json", "30 mm H7")
    found = json.loads(result.stdout)
    assert found["value"] == {
        "number": 30.0,
        "unit": "mm",
        "min": 30.0,
        "max": 30.021,
        "class": "H7",
        "shown": "30.000 to 30.021 mm (1.1811 to 1.1819 in)",
    }
    assert found["problems"] == []


def test_calc_gives_its_problem_as_json() -> None:
    result = run("calc", "--json", "1/0")
    assert result.exit_code == 1
    found = json.loads(result.stdout)
    assert found["value"] is None
    assert found["problems"][0] | {"hint": ""} == {
        "grade": "problem",
        "code": "divided-by-zero",
        "message": "a division by zero",
        "hint": "",
        "path": "expression",
        "line": 1,
        "column": 1,
        "also": [],
    }


@pytest.mark.parametrize("expression", ["", "   ", "# note", "a = 3", "```\n```calc\nb = 1"])
def test_calc_takes_one_expression_and_nothing_else(expression: str) -> None:
    result = run("calc", "--", expression)
    assert result.exit_code == 1
    assert result.stdout == ""
    assert result.stderr.startswith("expression:1:")


def test_calc_takes_its_options_on_either_side_of_an_expression() -> None:
    for words in (("--json", "-5 mm"), ("-5 mm", "--json")):
        assert json.loads(run("calc", *words).stdout)["value"]["number"] == -5.0
    assert "EXPRESSION" in run("calc", "--help").stdout


def test_wrong_use_exits_with_2() -> None:
    assert run("calc").exit_code == 2
    assert run("nonsense").exit_code == 2
    assert run("check", "no-such-folder").exit_code == 2


def test_check_of_a_folder_without_pages_is_wrong_use(tmp_path: Path) -> None:
    result = run("check", str(tmp_path))
    assert result.exit_code == 2
    assert "holds no Markdown page" in result.stderr


@pytest.mark.parametrize("options", [(), ("--inch",)])
def test_a_started_log_checks_and_builds_at_once(tmp_path: Path, options: tuple[str, ...]) -> None:
    folder = tmp_path / "my log"
    result = run("start", str(folder), *options)
    assert result.exit_code == 0
    assert sorted(path.name for path in folder.rglob("*") if path.is_file()) == [
        ".shop.schema.json",
        "bush.md",
        "index.md",
        "mkdocs.yml",
        "readable.css",
        "shop.yml",
    ]
    checked = run("check", str(folder))
    assert checked.exit_code == 0
    assert checked.stdout.splitlines()[-1].startswith("2 pages, 6 results, 1 check, 1 setup,")
    config = load_config(str(folder / "mkdocs.yml"), strict=True)
    build(config)
    shown = (folder / "site" / "bush" / "bush" / "index.html").read_text("utf-8")
    assert "value-running" in shown


def test_start_writes_over_nothing(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text("name: mine\n")
    result = run("start", str(tmp_path))
    assert result.exit_code == 2
    assert f"{tmp_path / 'shop.yml'} is there already; nothing was written" in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["shop.yml"]


def test_a_workshops_name_may_hold_anything(tmp_path: Path) -> None:
    name = 'Ann\'s "shed": <b> [#1] & co'
    assert run("start", str(tmp_path / "log"), "--name", name).exit_code == 0
    config = load_config(str(tmp_path / "log" / "mkdocs.yml"))
    assert config.site_name == name
    assert run("check", str(tmp_path / "log")).exit_code == 0


def write(folder: Path, **pages: str) -> Path:
    for name, text in pages.items():
        (folder / f"{name}.md").write_text(text, "utf-8")
    return folder


def test_check_prints_problems_with_their_place_and_exits_with_1(tmp_path: Path) -> None:
    write(tmp_path, page="# Page\n\n```calc\na = 3 mm + 2 kg\n```\n")
    result = run("check", str(tmp_path))
    assert result.exit_code == 1
    assert result.stdout.splitlines()[0].endswith(
        "page.md:4:5: a length and a mass do not go together under +"
    )
    assert result.stdout.splitlines()[-1] == (
        "1 page, 0 results, 0 checks, 0 setups, 0 cautions, 0 concessions, 1 problem"
    )


def test_check_gives_json(tmp_path: Path) -> None:
    write(tmp_path, page="```calc\na = 3 mm\nb = c\n```\n")
    result = run("check", "--json", str(tmp_path))
    found = json.loads(result.stdout)
    assert found["counts"]["problems"] == 1
    assert found["problems"][0]["line"] == 3
    assert found["pages"][0]["results"][0]["name"] == "a"
    assert found["pages"][0]["results"][0]["value"]["number"] == 3.0


def test_check_takes_a_folder_and_reads_no_link_out_of_it(tmp_path: Path) -> None:
    (tmp_path / "log").mkdir()
    write(tmp_path / "log", page="```calc\na = 3 mm\n```\n")
    (tmp_path / "secret.txt").write_text("```calc\nsecret = 1/0\n```\n")
    (tmp_path / "log" / "link.md").symlink_to(tmp_path / "secret.txt")
    result = run("check", str(tmp_path / "log"))
    assert result.exit_code == 1
    assert "link.md:1:1: this page is a link to a file outside the log; it was not read" in (
        result.stdout
    )
    assert "secret =" not in result.stdout
    assert run("check", str(tmp_path / "log" / "page.md")).exit_code == 2


def test_check_of_one_project_works_it_out_with_the_rest_of_the_log(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text("site_name: x\n")
    (tmp_path / "shop.yml").write_text("machines:\n  - name: lathe\n    speeds: 100 rpm, 200 rpm\n")
    for name in ("one", "two"):
        (tmp_path / "docs" / name).mkdir(parents=True)
    write(tmp_path / "docs" / "one", a="```calc\nd = 16 mm\nbad = 1/0\n```\n")
    body = 'use "one/a" as a\nx = a.d\nstep = spindle_step(150 rpm, shop.lathe.speeds)\n'
    write(tmp_path / "docs" / "two", b=f"```calc\n{body}```\n")
    assert run("check", str(tmp_path)).exit_code == 1
    assert run("check", "-q", str(tmp_path / "docs" / "one")).stdout.count("1/0") == 1
    result = run("check", "-q", str(tmp_path / "docs" / "two"))
    assert (result.exit_code, result.stdout[:17]) == (0, "1 page, 2 results")


def test_check_gathers_a_caution_that_comes_again(tmp_path: Path) -> None:
    row = "{} = spindle_speed(30 m/min, 10 mm)\n"
    write(tmp_path, page="```calc\n" + "".join(row.format(name) for name in "abc") + "```\n")
    lines = run("check", str(tmp_path)).stdout.splitlines()
    assert len(lines) == 2
    assert "page.md:2:1 and 2 more: caution: never above the speed marked on the chuck" in lines[0]
    assert run("check", "-q", str(tmp_path)).stdout.splitlines() == lines[1:]


def test_check_names_a_file_that_is_not_text(tmp_path: Path) -> None:
    write(tmp_path, good="```calc\na = 3 mm\n```\n")
    (tmp_path / "bad.md").write_bytes(b"# \xff\n")
    result = run("check", str(tmp_path))
    assert result.exit_code == 1
    assert "bad.md:1:1: this file is not UTF-8 text: byte 3 cannot be read" in result.stdout
    assert "1 page, 1 result" in result.stdout


def test_check_passes_over_the_tags_of_a_sites_configuration(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: pages\nhooks: !ENV [HOOKS, []]\n"
        "markdown_extensions:\n  - x:\n      f: !!python/name:os.system\n"
    )
    (tmp_path / "pages").mkdir()
    write(tmp_path / "pages", page="```calc\na = 3 mm\n```\n")
    result = run("check", str(tmp_path))
    assert (result.exit_code, result.stdout[:16]) == (0, "1 page, 1 result")


def test_check_reads_a_byte_order_mark_as_nothing(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_bytes("\ufeff---\npart: a\n---\n\n```calc\nx = 1 mm\n```\n".encode())
    assert run("check", str(tmp_path)).exit_code == 0


def test_table_prints_a_row_and_says_where_it_comes_from() -> None:
    result = run("table", "drills_number", "#7")
    assert result.exit_code == 0
    title, empty, names, row, *rest = result.stdout.splitlines()
    assert (title[:6], empty) == ("Number", "")
    assert names.split() == ["size", "diameter_in"]
    assert row.split() == ["#7", "0.2010"]
    assert rest[1].startswith("source: ASME B94.11M")
    assert rest[2].startswith("from memory: ")


def test_table_takes_a_word_that_is_a_whole_cell_for_that_cell() -> None:
    rows = json.loads(run("table", "--json", "threads_metric", "6").stdout)["rows"]
    assert [row["size_mm"] for row in rows] == ["6", "64", "68"]  # 6 mm is the coarse pitch of both


def test_table_lists_every_table() -> None:
    names = json.loads(run("table", "--json").stdout)
    assert "iso286_grades" in names
    assert all(names.values())
    assert len(run("table").stdout.splitlines()) == len(names)


def test_table_without_a_match_exits_with_1_and_an_unknown_one_with_2() -> None:
    missed = run("table", "drills_number", "#99")
    assert missed.exit_code == 1
    assert "no row holds these words" in missed.stdout
    unknown = run("table", "drill_number")
    assert unknown.exit_code == 2
    assert "there is no table `drill_number`; did you mean drills_number?" in unknown.stderr
