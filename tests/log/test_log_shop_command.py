"""The shop profile at the terminal, on pages, and among the findings of a part of a log."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from shoplog import Grade, read_log
from shoplog.calc.show import show
from shoplog.cli import main
from shoplog.log import read_folder
from shoplog.log.profile.schema import shop_schema

SHOP = """\
name: The lean-to
machines:
  - name: bench lathe
    kind: lathe
    speeds:
      belt 1: {open: 400 rpm, back gear: 60 rpm}
      belt 2: {open: 800 rpm, back gear: 120 rpm}
    leadscrew: 8 tpi
    travel: 500 mm long
chucks:
  three-jaw: 3 jaws, marked speed 700 rpm
centres:
  live centre: marked speed 300 rpm
cutters:
  big saw: slitting saw, HSS, diameter 100 mm, 40 teeth, marked speed 200 rpm
taps: {coarse: M3 to M5}
reamers: [10 mm H7, 12 mm H7]
gauge blocks: metric 47
instruments:
  micrometer 0-25: micrometer, error 3 um
  0-150 caliper: error 20 um
dividing head: {ratio: 40, plates: {A: '15, 16', B: '21, 23'}}
materials: [brass]
change wheels: 20, 30, 40, 60
drills: metric
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


def page(body: str) -> tuple[dict[str, str], list[str]]:
    """What each name of a calculation block is in words, and the problems."""
    log = read_log({"a.md": f"# A\n\n```calc\n{body}\n```\n"}, shop_profile=SHOP)
    found = {one.name: show(one.value).own for one in log.pages["a.md"].results}
    return found, [one.line for one in log.problems if one.grade is Grade.PROBLEM]


# ---- on pages --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("expression", "shown"),
    [
        ("shop.bench_lathe.speeds", "[400 rpm, 60 rpm, 800 rpm, 120 rpm]"),
        ("shop.bench_lathe.greatest_speed", "800 rpm"),
        ("shop.bench_lathe.travel.long", "500.000 mm"),
        ("shop.bench_lathe.leadscrew to mm", "3.175 mm"),
        ("shop.three_jaw.marked_speed", "700 rpm"),
        ("shop.chucks[0].jaws", "3"),
        ("shop.big_saw.teeth * 0.02 mm", "0.800 mm"),
        ("shop.micrometer_0_25.error", "3 µm"),
        ("shop.dividing_head.plates", "[A: 15, 16, B: 21, 23]"),
        ("shop.dividing_head.circles", "[15, 16, 21, 23]"),
        ("shop.dividing_head.plates[1].circles[0]", "21"),
        ("shop.coarse.threads[1].pitch", "0.700 mm"),
        ("shop.taps[2].major", "5.000 mm"),
        ("shop.reamers[1].max", "12.018 mm"),
        ("shop.materials[0].material", "brass"),
        ("shop.change_wheels[3]", "60"),
        ("shop.drills", "metric"),
        ("shop.name", "The lean-to"),
        ("gauge_block_stack(22.51 mm, shop.gauge_blocks).height", "22.510 mm"),
    ],
)
def test_a_page_reads_what_a_thing_says(expression: str, shown: str) -> None:
    assert page(f"a = {expression}") == ({"a": shown}, [])


@pytest.mark.parametrize(
    ("expression", "found"),
    [
        (
            "shop.bench_lath.speeds",
            "a.md:4:10: the shop profile says nothing of `bench_lath`"
            " (did you mean shop.bench_lathe?)",
        ),
        ("shop.bench_lathe.power", "a.md:4:22: a machine says nothing of power"),
        (
            "shop.bench_lathe.sped",
            "a.md:4:22: a machine has no field `sped` (did you mean speeds?)",
        ),
        ("shop.bench_lathe.travel.cross", "a.md:4:29: an axis sizes says nothing of cross"),
        (
            "shop.zzz",
            "a.md:4:10: the shop profile says nothing of `zzz` (it has machines, chucks, centres,"
            " cutters, drills, taps, reamers, gauge_blocks)",
        ),
    ],
)
def test_what_a_page_asks_in_vain_is_told(expression: str, found: str) -> None:
    assert page(f"a = {expression}")[1] == [found]


# ---- in setups -------------------------------------------------------------------------------

SETUP = (
    "operation: turning\nmaterial: low-carbon steel\ncutter: turning tool, HSS\n"
    "machine: bench lathe\nholding: {holding}\ndiameter: 20 mm\nplanned:\n  {speed}\n"
    "  feed: 0.1 mm/rev\n  depth of cut: 0.5 mm\n"
)


def setup(body: str) -> tuple[list[str], list[str]]:
    """What is worked out of a plan, and its problems."""
    log = read_log({"a.md": f"# A\n\n```setup\n{body}```\n"}, shop_profile=SHOP)
    report = log.pages["a.md"].blocks[0].setup
    assert report is not None
    assert report.planned is not None
    told = [f"{one.label}: {one.note}" for one in report.planned.derived]
    return told, [one.line for one in log.problems if one.grade is Grade.PROBLEM]


def test_a_planned_cutting_speed_names_the_belt_and_gear_of_its_step() -> None:
    told, _ = setup(SETUP.format(holding="faceplate", speed="cutting speed: 30 m/min"))
    assert told[1].startswith("step: belt 1, open: 400 rpm, ")


@pytest.mark.parametrize(("holding", "marked"), [("three-jaw", 700), ("live centre", 300)])
def test_a_plan_is_held_to_what_is_marked_on_any_holder(holding: str, marked: int) -> None:
    _, found = setup(SETUP.format(holding=holding, speed="speed: 800 rpm"))
    assert found == [
        f"a.md:11:10: 800 rpm is beyond the marked speed of {holding}, {marked} rpm"
        " (its marking, the machine's manual and local rules decide)"
    ]


def test_a_plan_is_held_to_what_is_marked_on_its_cutter() -> None:
    body = SETUP.replace("turning tool, HSS", "big saw").replace("turning\n", "milling\n")
    body = body.replace("feed: 0.1 mm/rev", "feed: 0.02 mm/tooth")
    _, found = setup(body.format(holding="vise", speed="speed: 400 rpm") + "  width of cut: 2 mm\n")
    assert [line for line in found if "cutter's marked speed" in line] == [
        "a.md:10:1: cutter's marked speed is beyond its limit: 400 rpm, at most 200 rpm"
        " (the nearest change that helps: 120 rpm, the fastest step at or below 200 rpm)"
    ]


# ---- the command -----------------------------------------------------------------------------


def test_the_profile_is_printed_as_it_is_read(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text(SHOP, "utf-8")
    for path in (tmp_path, tmp_path / "shop.yml"):
        result = run("profile", str(path))
        assert result.exit_code == 0
        lines = result.output.splitlines()
        assert lines[:3] == ["The lean-to", "machine: bench lathe", "  kind: lathe"]
        assert "  error: 3 µm (0.1 thou)" in lines
        assert lines[-2:] == ["drills: metric", "change wheels: 20, 30, 40, 60"]


def test_a_profile_that_is_wrong_is_told_and_the_command_fails(tmp_path: Path) -> None:
    file = tmp_path / "shop.yml"
    file.write_text("machines:\n  - name: lathe\n    power: 750\n", "utf-8")
    result = run("profile", str(tmp_path))
    assert result.exit_code == 1
    assert result.output == (
        "machine: lathe\n"
        f"{file.as_posix()}:3:12: `power` is a power, and this is a plain number\n"
        "        power: 750\n               ^^^\n  hint: write its unit, such as kW\n"
    )


def test_a_caution_alone_does_not_fail_the_command(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text("materials: unobtainium\n", "utf-8")
    result = run("profile", str(tmp_path))
    assert result.exit_code == 0
    assert "caution: no row of the materials knows `unobtainium`" in result.output


def test_the_profile_is_data_for_programs(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_text(SHOP + "nmae: x\n", "utf-8")
    result = run("profile", str(tmp_path), "--json")
    data = json.loads(result.output)
    assert result.exit_code == 1
    assert data["name"] == "The lean-to"
    assert [one["code"] for one in data["problems"]] == ["shop-key"]
    found = next(one for one in data["things"] if one["name"] == "micrometer 0-25")
    assert found["what"] == "measuring instrument"
    assert found["facts"][1] == {
        "label": "error",
        "values": [{"number": 3.0, "unit": "µm", "shown": "3 µm (0.1 thou)"}],
    }


def test_the_schema_is_printed_without_a_profile(tmp_path: Path) -> None:
    result = run("profile", str(tmp_path), "--schema")
    assert result.exit_code == 0
    assert json.loads(result.output) == shop_schema()


def test_no_profile_is_wrong_use(tmp_path: Path) -> None:
    result = run("profile", str(tmp_path))
    assert result.exit_code == 2
    assert f"there is no {tmp_path / 'shop.yml'}" in result.output


def test_a_file_that_is_no_text_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "shop.yml").write_bytes(b"name: \xff\n")
    result = run("profile", str(tmp_path))
    assert result.exit_code == 1
    assert "this file is not UTF-8 text: byte 7 cannot be read" in result.output


# ---- a part of a log -------------------------------------------------------------------------


def test_a_folder_of_a_log_is_told_what_is_wrong_in_the_profile_that_it_stands_on(
    tmp_path: Path,
) -> None:
    (tmp_path / "mkdocs.yml").write_text("site_name: a\n")
    (tmp_path / "shop.yml").write_text("nmae: shed\n")
    for project in ("one", "two"):
        (tmp_path / "docs" / project).mkdir(parents=True)
        (tmp_path / "docs" / project / "a.md").write_text("```calc\nx = 1 mm + 2 s\n```\n")
    found = [one.line for one in read_folder(tmp_path / "docs" / "one").problems]
    assert [line.partition(": ")[0].rpartition("/")[2] for line in found] == [
        "shop.yml:1:1",
        "a.md:2:5",
    ]
    assert "two" not in "".join(found)
    result = run("check", str(tmp_path / "docs" / "one"))
    assert result.exit_code == 1
    assert "`nmae` is not a key of the shop profile" in result.output
    assert result.output.splitlines()[-1].endswith(" 2 problems")
