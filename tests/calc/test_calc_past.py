"""`past(…)` where there is no log around it: what it refuses, and the handbook's range."""

from __future__ import annotations

import pytest
from calc_page import findings, items, only, value

from shoplog.calc.past import PAST, ask_of
from shoplog.calc.past_record import Past, PastSetup, Spread
from shoplog.calc.results import Result
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.cutting_data import cutting_range
from shoplog.units import unit


def problems(text: str) -> list[str]:
    """The problems of a block; the handbook's cautions are left out."""
    return [told for told in findings(text) if "caution: " not in told]


def test_nothing_asked_is_a_problem_with_an_example() -> None:
    assert only("a = past()") == (
        "1:5",
        "past needs at least one of operation, material, cutter, cutter_material, machine and"
        " diameter",
        'past(operation="turning", material="mild steel", diameter=20 mm)',
    )
    assert only('a = past(machine="")')[1].startswith("past needs at least one of")


@pytest.mark.parametrize(
    ("asked", "place", "message", "hint"),
    [
        (
            'past(operation="turnin")',
            "1:20",
            '"turnin" is not an operation that is known here',
            "did you mean turning?",
        ),
        (
            'past(operation="turning", material="brss")',
            "1:40",
            '"brss" is not a material that is known here',
            "did you mean brass?",
        ),
        (
            'past(operation="turning", cutter_material="brazed carbid")',
            "1:47",
            '"brazed carbid" is not a cutter that is known here',
            "did you mean brazed carbide?",
        ),
        (
            "past(material=3 mm)",
            "1:19",
            "material of past is a text in quotes; this is a length",
            "",
        ),
        (
            'past(operation="turning", material=12)',
            "1:40",
            "material of past is a text in quotes; this is a plain number",
            "",
        ),
        (
            'past(operation="turning", diameter=10 s)',
            "1:40",
            "diameter of past is a length; this is a time",
            "",
        ),
        (
            'past(operation="turning", diameter=0 mm)',
            "1:40",
            "diameter is 0 mm, it must be at least 0.1 mm and at most 2000 mm",
            "",
        ),
        (
            'past(operaton="turning")',
            "1:10",
            "past has no argument `operaton`",
            "did you mean operation?",
        ),
        (
            'past("turning", operation="turning")',
            "1:21",
            "operation of past is given twice, by its place and by its name",
            "",
        ),
        (
            'past(operation="turning, rough finish", material="brass")',
            "1:20",
            '"turning, rough finish" is rough and finish at once',
            "",
        ),
    ],
)
def test_what_is_asked_wrongly_is_told_at_its_place(
    asked: str, place: str, message: str, hint: str
) -> None:
    assert only(f"a = {asked}") == (place, message, hint)


def test_a_misspelt_past_is_told_as_a_formula_is() -> None:
    assert only('a = pst("turning")') == ("1:5", "there is no formula `pst`", "did you mean past?")


@pytest.mark.parametrize(
    ("asked", "message", "hint"),
    [
        (
            'machine="bench lathe"',
            "no records were looked through, and a handbook's range goes by operation and material",
            "give operation=… and material=…",
        ),
        (
            'operation="turning"',
            "no records were looked through, and a handbook's range goes by operation and material",
            "give material=…",
        ),
        (
            'material="brass"',
            "no records were looked through, and a handbook's range goes by operation and material",
            "give operation=…",
        ),
        (
            'operation="hand reaming", material="brass"',
            "no records were looked through, and hand reaming has no range in a handbook",
            "",
        ),
    ],
)
def test_what_no_handbook_can_answer_is_a_problem(asked: str, message: str, hint: str) -> None:
    assert only(f"a = past({asked})") == ("1:5", message, hint)


def test_a_cutter_that_no_source_has_is_told_at_the_cutter_s_material() -> None:
    asked = 'past("milling", "brass", cutter_material="ceramic insert")'
    place, message, hint = only(f"a = {asked}")
    assert place == "1:46"
    assert message == (
        "no records were looked through, and no source gives milling of free-cutting brass with"
        " ceramic insert"
    )
    assert hint.startswith("cutter_material: HSS or ")


def test_without_records_the_figures_are_the_handbook_s_and_it_says_so() -> None:
    found = value('past(operation="turning", material="mild steel", diameter=20 mm)')
    band = cutting_range("turning", "mild steel", "HSS", 20)
    assert isinstance(found, Past)
    assert band.speed_min is not None
    assert band.speed_max is not None
    assert (found.cutting_speed_least, found.cutting_speed_most) == (band.speed_min, band.speed_max)
    assert found.cutting_speed == (band.speed_min + band.speed_max) / 2
    assert (found.feed_per_rev_least, found.feed_per_rev_most) == (
        band.feed_per_rev_min,
        band.feed_per_rev_max,
    )
    assert (found.speed_least, found.speed_most) == (band.spindle_speed_min, band.spindle_speed_max)
    assert found.depth_of_cut_most == band.depth_max
    assert (found.count, found.setups, found.newest) == (0, (), "")
    assert found.from_handbook == band.source
    assert found.cautions == band.cautions
    assert found.notes[:2] == (
        "no records were looked through: these figures are the handbook's, and nobody's own",
        "HSS is taken for the cutter: cutter_material says another",
    )


def test_the_cutter_s_material_that_is_asked_for_is_the_one_taken() -> None:
    found = value('past("turning", "mild steel", cutter_material="carbide", diameter=20 mm)')
    band = cutting_range("turning", "mild steel", "carbide", 20)
    assert found.cutting_speed_most == band.speed_max
    assert not [note for note in found.notes if note.startswith("HSS is taken")]


def test_a_stage_is_taken_to_the_handbook_too() -> None:
    finish = value('past("turning, finish", "brass", diameter=20 mm)')
    band = cutting_range("turning, finish", "brass", "HSS", 20)
    assert finish.feed_per_rev_most == band.feed_per_rev_max
    assert finish.feed_per_rev_most != cutting_range("turning", "brass").feed_per_rev_max


def test_its_fields_are_values_with_units_and_reckoned_with() -> None:
    before = 'p = past("turning", "mild steel", diameter=20 mm)'
    assert value("p.cutting_speed_least to m/min < 25 m/min", before) is True
    assert value("p.feed_per_rev > 0.1 mm/rev", before) is True
    assert value("p.count == 0", before) is True
    wrong = problems(f"{before}\na = p.feed_per_tooth\nb = p.cuting_speed")
    assert wrong == [
        "2:7 a past says nothing of feed_per_tooth",
        "3:7 a past has no field `cuting_speed` (did you mean cutting_speed?)",
    ]


def test_a_diameter_with_limits_counts_by_its_nominal() -> None:
    (_, item) = items('d = 20 mm h7\np = past("turning", "mild steel", diameter=d)')
    assert isinstance(item, Result)
    assert "diameter is taken at its nominal size, 20.000 mm" in item.working.notes


def test_its_steps_name_what_was_asked_and_its_source_is_the_handbook() -> None:
    (item,) = items('p = past("turning", "mild steel", diameter=20 mm)')
    assert isinstance(item, Result)
    (use,) = item.working.formulas
    assert use.offer.name == PAST.name
    assert [*use.arguments] == ["operation", "material", "diameter"]
    assert item.working.sources[0].startswith("the handbook: databook 9-2")


def test_it_says_itself_in_one_line() -> None:
    found = value('past(operation="turning", material="mild steel", diameter=20 mm)')
    assert found.describe() == (
        "no record that went well; the handbook's: 35.1 m/min (24.4 to 45.7),"
        " 0.238 mm/rev (0.076 to 0.400)"
    )


def test_a_spread_is_shown_where_there_is_one() -> None:
    speed = unit("m/min")
    assert Spread("", speed, 24, 20, 28).text == "24.0 m/min (20.0 to 28.0)"
    assert Spread("", speed, 24, 24, 24).text == "24.0 m/min"
    assert Spread("", speed, 24, None, None).text == "24.0 m/min"
    assert Spread("", speed, 24, 20, 28).in_unit(unit("ft/min")) == ("79 ft/min", " (66 to 92)")


def test_words_are_read_into_rows() -> None:
    ask = ask_of("turning, finish", "EN8", " End  Mill ", "high-speed steel", "Bench Lathe", 20)
    assert (ask.operation, ask.stage) == ("turning", "finish")
    assert (ask.material, ask.group) == ("C40", "medium-carbon steel")
    assert (ask.cutter, ask.cutter_material, ask.machine) == ("end mill", "HSS", "bench lathe")
    assert (ask_of(material="ISO P").material, ask_of(material="ISO P").group) != ("", "")
    with pytest.raises(TradeError, match="is not a cutter that is known here") as met:
        ask_of(cutter_material="cheese")
    assert met.value.argument == "cutter_material"


def test_a_setup_names_its_page_its_line_and_its_day() -> None:
    one = PastSetup("a/b.md", "setup", 12, "B", "2026-03-14", "good", "", "brass", "")
    assert one.describe() == "a/b.md:12, 2026-03-14"
