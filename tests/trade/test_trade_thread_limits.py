"""The limits that a tolerance class gives a thread, what is refused, and what always holds."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, TradeError
from shoplog.trade.screw_threads.thread_limits import (
    ThreadLimits,
    metric_thread_limits,
    thread_limits,
)
from shoplog.trade.screw_threads.thread_tolerances import (
    iso965_deviation,
    iso965_pitch_tolerance,
    preferred_number,
    round_inch,
)
from shoplog.trade.screw_threads.threads import Thread

METRIC = [
    f"M{row['size_mm']}x{pitch}"
    for row in table("threads_metric").rows
    for pitch in f"{row['coarse_mm']} {row['fine_mm']}".split()
]
UNIFIED = [
    f"{row['size']}-{count} {series}"
    for row in table("threads_unified").rows
    for series in ("UNC", "UNF", "UNEF", "UN")
    for count in row[f"{series}_tpi"].split()
]
EXTERNAL = ("3g4g", "4h", "5g6g", "6g", "6h")
INTERNAL = ("4H", "5H6H", "6H", "6G", "7H", "8H")


def limits(text: str, of_class: str = "") -> ThreadLimits:
    return thread_limits(Thread.from_text(text), of_class)


def test_the_class_comes_from_the_designation_or_is_given() -> None:
    assert limits("M10-6g").pitch_diameter == limits("M10", "6g").pitch_diameter
    assert limits("M10-6g", "4g6g").tolerance_class == "4g6g"


def test_limits_describe_themselves() -> None:
    assert limits("M10x1.5-6g").describe() == (
        "M10-6g in 6g: major diameter 9.732 to 9.968 mm, pitch diameter 8.862 to 8.994 mm, minor"
        " diameter 7.938 to 8.344 mm"
    )


def test_a_class_of_two_parts_has_the_pitch_diameter_first() -> None:
    both, pitch, crest = (limits("M10", name) for name in ("5g6g", "5g6g", "6g"))
    assert both.pitch_diameter == pitch.pitch_diameter
    assert both.major == crest.major
    assert both.pitch_diameter.lower > crest.pitch_diameter.lower


@pytest.mark.parametrize(
    ("thread", "of_class", "argument", "message", "hint"),
    [
        ("M6", "", "thread", "M6 has no tolerance class", 'write "M6-6g" or "M6-6H"'),
        (
            "1/2-10 ACME",
            "",
            "thread",
            "1/2-10 ACME has no tolerance class",
            'write "1/2-10 ACME-2G external" or "1/2-10 ACME-2G internal"',
        ),
        (
            "1/2-10 ACME-2G",
            "",
            "thread",
            "1/2-10 ACME-2G does not say whether it is internal or external",
            'write "1/2-10 ACME-2G external" or "1/2-10 ACME-2G internal"',
        ),
        (
            "2 BA",
            "",
            "thread",
            "limits of BA threads are not held",
            "they are for ISO metric, Unified, ISO trapezoidal, Acme and G threads;"
            ' thread("2 BA") has the basic sizes, tap_drill("2 BA") the drill, over_wires("2 BA") a'
            " pitch diameter to measure",
        ),
        (
            "1/4 BSW internal",
            "",
            "thread",
            "limits of BSW threads are not held",
            "they are for ISO metric, Unified, ISO trapezoidal, Acme and G threads;"
            ' thread("1/4-20 BSW internal") has the basic sizes, tap_drill("1/4-20 BSW internal")'
            " the drill",
        ),
        (
            "R1/2",
            "",
            "thread",
            "limits of R threads are not held",
            "they are for ISO metric, Unified, ISO trapezoidal, Acme and G threads;"
            ' thread("R1/2") has the basic sizes',
        ),
        (
            "M10",
            "6Z",
            "tolerance_class",
            '"6Z" is no tolerance class of ISO 965-1',
            "such as 6g or 5g6g for an external thread, 6H or 5H6H for an internal one",
        ),
        (
            "M1.6-6e",
            "",
            "tolerance_class",
            "ISO 965-1 has no position e for a pitch of 0.35 mm",
            "positions g and h are for every pitch",
        ),
        (
            "M10-6H",
            "6g",
            "tolerance_class",
            "M10-6H is internal, 6g is a class of external threads",
            "a class of internal threads is 6H",
        ),
        (
            "1/4-20 UNC-2A",
            "2B",
            "tolerance_class",
            "1/4-20 UNC-2A is external, 2B is a class of internal threads",
            "a class of external threads is 2A",
        ),
        (
            "1/4-20 UNC",
            "4B",
            "tolerance_class",
            '"4B" is no class of UNC threads',
            "classes are 1A, 2A, 3A, 1B, 2B, 3B",
        ),
        (
            "Tr 16x4",
            "6g",
            "tolerance_class",
            '"6g" is no class of Tr threads',
            "classes are 7H, 8H, 9H, 7e, 8e, 8c, 9c",
        ),
        (
            "G1/2",
            "A",
            "tolerance_class",
            "a thread G says its class itself, G1/2 is internal",
            '"G1/2" is internal, "G1/2A" and B are external',
        ),
    ],
)
def test_a_class_that_the_thread_cannot_have_is_refused(
    thread: str, of_class: str, argument: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        limits(thread, of_class)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == argument


@pytest.mark.parametrize(
    ("diameter", "pitch", "message"),
    [
        (0, 1, "diameter is 0 mm, it must be at least 1 mm and at most 355 mm (ISO 965-1)"),
        (-5, 1, "diameter is -5 mm, it must be at least 1 mm and at most 355 mm (ISO 965-1)"),
        (
            1e100,
            1,
            "diameter is 1e+100 mm, it must be at least 1 mm and at most 355 mm (ISO 965-1)",
        ),
        (20, 0, "pitch is 0 mm, it must be at least 0.2 mm and at most 8 mm (ISO 965-1)"),
        (20, 9, "pitch is 9 mm, it must be at least 0.2 mm and at most 8 mm (ISO 965-1)"),
        (4, 2.5, "pitch is 2.5 mm, it must be at least 0.2 mm and at most 2 mm (ISO 965-1)"),
    ],
)
def test_a_metric_thread_outside_the_tables_is_refused(
    diameter: float, pitch: float, message: str
) -> None:
    with pytest.raises(OutOfRange) as refused:
        metric_thread_limits(diameter, pitch, "6g")
    assert str(refused.value) == message


@pytest.mark.parametrize("name", ["", "g", "6", "6Hg", "H6", "66", "6g6H", "10g"])
def test_a_word_that_is_no_class_is_refused(name: str) -> None:
    with pytest.raises(TradeError) as refused:
        metric_thread_limits(10, 1.5, name)
    assert str(refused.value) == f'"{name}" is no tolerance class of ISO 965-1'


def test_a_thread_by_formula_is_that_of_the_standard_where_there_is_one() -> None:
    ours, standard = metric_thread_limits(10, 1.5, "6g"), limits("M10-6g")
    assert ours.pitch_diameter == standard.pitch_diameter
    assert ours.major == standard.major
    assert (ours.thread.designation, ours.thread.side) == ("M10x1.5-6g", "external")


def test_a_grade_that_the_table_does_not_list_has_a_note() -> None:
    assert limits("M3-8H").notes == (
        "ISO 965-1 lists no grade 8 of TD2 for a pitch of 0.5 mm; it is by formula",
        "ISO 965-1 lists no grade 8 of TD1 for a pitch of 0.5 mm; it is by formula",
    )
    assert limits("M10-6H").notes == limits("M10-6g").notes == ()


def test_a_deviation_from_memory_has_a_note() -> None:
    said = "the deviation of position {} was recalled and not read in the standard"
    assert limits("M10-6e").notes == (said.format("e"),)
    assert limits("M10-8a").notes == (said.format("a"),)
    assert limits("Tr 16x4-8c").notes == (
        "the deviation of position c was recalled and not read in ISO 2903",
    )


def test_a_rounded_unified_root_is_a_note() -> None:
    assert limits("1/4-20 UNC-2A").notes == (
        "with the rounded root of UNR the minor diameter is at most 4.811 mm",
    )


def test_a_first_class_outside_the_standards_list_has_a_note() -> None:
    said = "ASME B1.1 lists class {} for UNC and UNF from 1/4 in only; it is by formula"
    assert limits("#10-24 UNC-1B").notes == (said.format("1B"),)
    assert limits("1-1/8-8 UN-1A").notes[1:] == (said.format("1A"),)
    assert limits("1/4-20 UNC-1B").notes == ()


def test_positions_move_away_from_the_basic_profile_in_their_order() -> None:
    es = [iso965_deviation(letter, 1.5) for letter in "abcdefgh"]
    assert es == [-300, -212, -140, -95, -67, -45, -32, 0]
    assert (iso965_deviation("G", 1.5), iso965_deviation("H", 1.5)) == (32, 0)
    assert iso965_deviation("e", 0.35) is None
    assert iso965_deviation("g", 0.9) == -25  # 15 + 11 P, for a pitch that the table has not


@given(st.sampled_from(METRIC), st.sampled_from(EXTERNAL))
def test_an_external_metric_thread_lies_within_its_basic_profile(name: str, of_class: str) -> None:
    found = limits(name, of_class)
    for size in (found.major, found.pitch_diameter, found.minor_diameter):
        assert 0 < size.min < size.max <= size.nominal
    assert found.minor_diameter.max < found.pitch_diameter.min


@given(st.sampled_from(METRIC), st.sampled_from(INTERNAL))
def test_an_internal_metric_thread_lies_outside_its_basic_profile(name: str, of_class: str) -> None:
    found = limits(name, of_class)
    for size in (found.major, found.pitch_diameter, found.minor_diameter):
        assert size.nominal <= size.min < size.max


@given(st.sampled_from(METRIC), st.sampled_from(INTERNAL), st.sampled_from(EXTERNAL))
def test_any_internal_and_external_class_of_a_metric_thread_go_together(
    name: str, internal: str, external: str
) -> None:
    hole, screw = limits(name, internal), limits(name, external)
    assert screw.pitch_diameter.max <= hole.pitch_diameter.min
    assert screw.major.max <= hole.major.min
    assert screw.minor_diameter.max <= hole.minor_diameter.min


@given(st.sampled_from(UNIFIED))
def test_unified_classes_get_closer_from_one_to_three(name: str) -> None:
    for one, two, three in (("1A", "2A", "3A"), ("1B", "2B", "3B")):
        widths = [
            limits(name, of_class).pitch_diameter.upper
            - limits(name, of_class).pitch_diameter.lower
            for of_class in (one, two, three)
        ]
        assert widths == sorted(widths, reverse=True)
        assert widths[2] > 0


@given(st.sampled_from(UNIFIED))
def test_unified_screws_enter_their_nuts(name: str) -> None:
    for internal, external in (("1B", "1A"), ("2B", "2A"), ("3B", "3A"), ("2B", "3A")):
        hole, screw = limits(name, internal), limits(name, external)
        assert screw.pitch_diameter.max <= hole.pitch_diameter.min + 1e-9
        assert screw.major.max <= hole.major.min + 1e-9


def test_trapezoidal_threads_of_more_starts_have_wider_pitch_diameters() -> None:
    one = limits("Tr 40x7-7H").pitch_diameter.upper
    for text, factor in (
        ("Tr 40x14(P7)-7H", 1.12),
        ("Tr 40x21(P7)-7H", 1.25),
        ("Tr 40x28(P7)-7H", 1.4),
        ("Tr 40x35(P7)-7H", 1.6),
    ):
        assert limits(text).pitch_diameter.upper == pytest.approx(factor * one)


def test_acme_classes_get_closer_and_the_nut_clears_the_screw() -> None:
    screws = [limits(f"1-5 ACME-{name} external") for name in ("2G", "3G", "4G")]
    nuts = [limits(f"1-5 ACME-{name} internal") for name in ("2G", "3G", "4G")]
    for kind in (screws, nuts):
        widths = [each.pitch_diameter.upper - each.pitch_diameter.lower for each in kind]
        assert widths == sorted(widths, reverse=True)
    for screw, nut in zip(screws, nuts, strict=True):
        assert screw.major.max < nut.major.min
        assert screw.minor_diameter.max < nut.minor_diameter.min


@given(st.integers(0, 79))
def test_each_step_of_preferred_numbers_is_about_six_per_cent(place: int) -> None:
    value = preferred_number(1000 * 10 ** (place / 40))
    assert 1.02 < preferred_number(value, 1) / value < 1.11


def test_a_middle_grade_is_the_formula_to_the_nearest_preferred_number() -> None:
    assert iso965_pitch_tolerance("Td2", 6, 1.5, 10) == 132  # 90 x 1.5^0.4 x 7.92^0.1 = 130.2
    assert iso965_pitch_tolerance("TD2", 6, 1.5, 10) == 180
    assert iso965_pitch_tolerance("Td2", 4, 1.5, 10) == 85


def test_inches_are_rounded_half_up_in_decimal() -> None:
    assert round_inch(0.00485) == 0.0049
    assert round_inch(0.12345, 4) == 0.1235
    assert round_inch(0.002549625) == 0.0025
