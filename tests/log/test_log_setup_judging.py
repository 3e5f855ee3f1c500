"""A setup's runs are judged: what gives way first, graded as a plan or as history."""

from __future__ import annotations

import pytest

from shoplog import Grade, PageReport, read_log
from shoplog.trade.judging.judging_record import JudgedCut

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
MILLED = (
    "operation: {operation}\nmaterial: low-carbon steel\n"
    "cutter: end mill, HSS, diameter 10 mm, 4 teeth\nmachine: mill\n{above}{kind}:\n"
    "  speed: 600 rpm\n  feed: {feed} mm/tooth\n  depth of cut: 1.5 mm\n"
)
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


def milled(kind: str, *, operation: str = "milling", above: str = "", feed: str = "0.02") -> str:
    return MILLED.format(kind=kind, operation=operation, above=above, feed=feed)


BAD = {
    "a chip thinner than the edge": (
        milled("{kind}", operation="slot milling", feed="0.002"),
        "chip thickness is beyond its limit: 2 µm, at least 5 µm",
    ),
    "a cutter wider than its slot": (
        milled("{kind}", above="slot width: 3/8 in\n") + "  width of cut: 3 mm\n",
        "cutter in its slot is beyond its limit: 10 mm, at most 9.52 mm",
    ),
    "a slot narrower than its cutter": (
        milled("{kind}", operation="slot milling") + "  width of cut: 9 mm\n",
        "cutter in its slot is beyond its limit: 10 mm, at most 9 mm",
    ),
    "climbing with backlash": (
        milled("{kind}", above="direction: climb\n") + "  width of cut: 3 mm\n",
        "bite if the table jumps is beyond its limit: 0.172 mm a tooth, at most 0.02 mm a tooth",
    ),
    "passes short of their depth": (
        milled("{kind}", above="total depth: 8 mm\n") + "  passes: 5\n",
        "depth of all passes is beyond its limit: 7.5 mm, at least 8 mm",
    ),
    "passes beyond their depth": (
        milled("{kind}", above="total depth: 8 mm\n") + "  passes: 6\n",
        "depth of all passes is beyond its limit: 9 mm, at most 8 mm",
    ),
    "a speed beyond the machine": (
        ROUGH.replace("speed: 200", "speed: 900"),
        "900 rpm is beyond the greatest speed of small lathe, 800 rpm",
    ),
    "a hardness that its scale does not reach": (
        ROUGH.replace("low-carbon steel", "C45, 70 HRC"),
        "the hardness is 70 HRC, it must be at least 20.3 HRC and at most 68 HRC"
        " (ISO 18265, Table A.1, to HV)",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_input_is_a_problem_as_a_plan_and_a_caution_as_history(name: str) -> None:
    body, text = BAD[name]
    planned, ran = (page(body.replace("{kind}", kind)) for kind in ("planned", "ran"))
    assert [text in line for line in told(planned, Grade.PROBLEM)].count(True) == 1
    assert told(ran, Grade.PROBLEM) == []
    assert [text in line for line in told(ran, Grade.CAUTION)].count(True) == 1


def test_a_slot_is_widened_where_its_width_is_said() -> None:
    body = milled("planned", operation="slot milling", above="slot width: 12 mm\n")
    assert told(page(body + "  width of cut: 2 mm\n"), Grade.PROBLEM) == []


def test_passes_that_come_to_their_depth_are_no_problem() -> None:
    body = milled("planned", above="total depth: 7.5 mm\n") + "  passes: 5\n"
    assert told(page(body), Grade.PROBLEM) == []


@pytest.mark.parametrize(
    ("lock", "good"),
    [
        ("both slides", True),
        ("yes", True),
        ("compensated screws", True),
        ("no", False),
        ("none", False),
        ("not compensated", False),
        ("''", False),
    ],
)
def test_a_table_lock_of_the_profile_bears_climbing(lock: str, good: bool) -> None:
    body = milled("planned", above="direction: climb\n") + "  width of cut: 3 mm\n"
    shop = f"{SHOP}    table lock: {lock}\n"
    report = read_log({"a.md": f"# A\n\n```setup\n{body}```\n"}, shop_profile=shop).pages["a.md"]
    assert (told(report, Grade.PROBLEM) == []) is good


def test_a_steel_harder_than_its_row_is_a_caution() -> None:
    hard = page(ROUGH.format(kind="planned").replace("low-carbon steel", "C45, 45 HRC"))
    found = [line for line in told(hard, Grade.CAUTION) if "harder" in line]
    assert found == [
        "a.md:5:11: caution: 45 HRC is harder than the row of C45, 210 HB at most: its speeds and"
        " forces are for that (a row of that condition, or `unknown steel`)"
    ]


@pytest.mark.parametrize("material", ["C45, 190 HB", "brass, 60 HB", "ISO M, 30 HRC", "C45"])
def test_a_hardness_that_fits_or_is_of_no_steel_is_left_alone(material: str) -> None:
    report = page(ROUGH.format(kind="planned").replace("low-carbon steel", material))
    assert not any("hard" in line for line in (each.line for each in report.problems))


def judged_of(body: str) -> JudgedCut:
    setup = page(body).blocks[0].setup
    assert setup is not None
    assert setup.planned is not None
    assert setup.planned.judged is not None
    return setup.planned.judged


BORED = (
    "operation: boring\nmaterial: low-carbon steel\nmachine: small lathe\ndiameter: 30 mm\n"
    "cutter: boring bar, HSS, diameter 12 mm, nose radius 0.4 mm\nstick-out: 60 mm\n"
    "tolerance: 0.02 mm\nroughness: 1.6 um\nplanned:\n  speed: 200 rpm\n"
    "  feed: 0.1 mm/rev\n  depth of cut: 0.5 mm\n"
)


def test_tolerance_roughness_and_the_bar_of_a_setup_are_judged() -> None:
    judged = judged_of(BORED)
    assert judged.bend is not None
    assert round(judged.bend.bound.nominal, 9) == 20  # µm
    assert judged.finish is not None
    assert round(judged.finish.figure.nominal, 2) == 0.80
    assert judged.finish.bound.nominal == 1.6
    assert judged.overhang is not None
    assert judged.overhang.figure.nominal == 5
    assert not any("of the setup" in missing for missing in judged.missing)


def test_what_a_setup_does_not_ask_for_is_named_or_left_alone() -> None:
    judged = judged_of(BORED.replace("tolerance: 0.02 mm\nroughness: 1.6 um\n", ""))
    assert "tolerance (of the setup): no bending" in judged.missing
    assert judged.bend is None
    assert judged.finish is None
