"""A setup's runs are judged: what gives way first, graded as a plan or as history."""

from __future__ import annotations

from shoplog import Grade, PageReport, read_log

SHOP = """\
machines:
  - name: small lathe
    kind: lathe
    speeds: 100 rpm, 200 rpm, 400 rpm, 800 rpm
    power: 0.1 kW
  - name: mill
    kind: mill
    speeds: 100 rpm to 3000 rpm
    power: 3/4 hp, at the motor
    backlash: 6 thou on the long travel
"""
ROUGH = (
    "operation: turning, rough\nmaterial: low-carbon steel\ncutter: turning tool, HSS\n"
    "machine: small lathe\ndiameter: 40 mm\n{kind}:\n  speed: 200 rpm\n"
    "  feed: 0.3 mm/rev\n  depth of cut: 3 mm\n"
)


def page(body: str) -> PageReport:
    log = read_log({"a.md": f"# A\n\n```setup\n{body}```\n"}, shop_profile=SHOP)
    return log.pages["a.md"]


def told(report: PageReport, grade: Grade) -> list[str]:
    return [found.line for found in report.problems if found.grade is grade]


def test_a_plan_beyond_the_motor_is_a_problem_at_its_line() -> None:
    report = page(ROUGH.format(kind="planned"))
    (found,) = (line for line in told(report, Grade.PROBLEM) if "power" in line)
    assert found.startswith("a.md:9:1: power is beyond its limit: ")
    assert "at most 100 W (the nearest change that helps: a depth of cut of " in found
    setup = report.blocks[0].setup
    assert setup is not None
    assert setup.planned is not None
    judged = setup.planned.judged
    assert judged is not None
    assert judged.first.startswith("Torque gives way first: ")


def test_the_same_as_history_is_a_caution() -> None:
    report = page(ROUGH.format(kind="ran"))
    assert told(report, Grade.PROBLEM) == []
    assert any("power is beyond its limit" in line for line in told(report, Grade.CAUTION))


def test_work_by_hand_has_no_force() -> None:
    report = page(
        "operation: drilling\nmaterial: low-carbon steel\ncutter: drill, HSS, diameter 8 mm\n"
        "machine: mill\nplanned:\n  speed: 900 rpm\n  feed: by hand\n"
    )
    setup = report.blocks[0].setup
    assert setup is not None
    assert setup.planned is not None
    judged = setup.planned.judged
    assert judged is not None
    assert judged.forces is None
    assert {limit.what for limit in judged.limits}.isdisjoint({"power", "torque", "feed force"})


def test_what_the_profile_says_in_words_is_read_to_its_number() -> None:
    report = page(
        "operation: slot milling\nmaterial: low-carbon steel\n"
        "cutter: slot drill, HSS, diameter 5/32 in, 2 teeth\nmachine: mill\nplanned:\n"
        "  speed: 2200 rpm\n  feed: 100 mm/min\n  depth of cut: 0.25 mm\n"
    )
    setup = report.blocks[0].setup
    assert setup is not None
    assert setup.planned is not None
    judged = setup.planned.judged
    assert judged is not None
    power = judged.power
    assert power is not None
    assert round(power.bound.nominal, 3) == 0.559  # 3/4 hp in kW
    assert told(report, Grade.PROBLEM) == []


def test_a_setup_that_says_too_little_is_not_judged() -> None:
    report = page("operation: turning\nplanned:\n  speed: 200 rpm\n")
    setup = report.blocks[0].setup
    assert setup is not None
    assert setup.planned is not None
    assert setup.planned.judged is None


def test_a_material_that_no_row_knows_is_said_and_costs_nothing_else() -> None:
    report = page(ROUGH.format(kind="planned").replace("low-carbon steel", "unobtainium"))
    setup = report.blocks[0].setup
    assert setup is not None
    assert setup.planned is not None
    assert setup.planned.judged is None
    assert any(note.startswith("not judged: ") for note in setup.planned.notes)
    (found,) = told(report, Grade.PROBLEM)
    assert found.startswith("a.md:5:11: no row of the materials knows `unobtainium` (")
    assert len(report.blocks[0].setup.planned.derived) == 3
    ran = page(ROUGH.format(kind="ran").replace("low-carbon steel", "unobtainium"))
    assert told(ran, Grade.PROBLEM) == []
    assert any("no row of the materials knows" in line for line in told(ran, Grade.CAUTION))
