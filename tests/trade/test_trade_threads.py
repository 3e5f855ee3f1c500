"""Designations of screw threads, what is refused, and which threads go together."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.threads import Thread, ThreadMate, mates, thread, thread_mate


def every_thread() -> list[str]:
    """Every thread of the tables, as its standard writes it."""
    found = []
    for row in table("threads_metric").rows:
        name = f"M{row['size_mm']}"
        found += [name] if row["coarse_mm"] else []
        found += [f"{name}x{pitch}" for pitch in row["fine_mm"].split()]
    for row in table("threads_unified").rows:
        for series in ("UNC", "UNF"):
            if count := row[f"{series}_tpi"]:
                found.append(f"{row['size']}-{count} {series}")
    return found


EVERY = every_thread()


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("M6", "M6"),
        ("M6x1", "M6"),
        ("M6×1", "M6"),
        ("M6X1.0", "M6"),
        (" M 6 x 1 ", "M6"),
        ("M10x1.25", "M10x1.25"),
        ("M10x1.5-6H", "M10-6H"),
        ("M8-6g", "M8-6g"),
        ("M10x1.5-5g6g", "M10-5g6g"),
        ("M10-6H6H", "M10-6H"),
        ("M8x1 LH", "M8x1-LH"),
        ("M8x1-6H-LH", "M8x1-6H-LH"),
        ("M20-6g-L-LH", "M20-6g-L-LH"),
        ("M5.5x0.5", "M5.5x0.5"),
        ("1/4-20 UNC", "1/4-20 UNC"),
        ("1/4 - 20 UNC-2A", "1/4-20 UNC-2A"),
        ("1/4-28 UNF-2B", "1/4-28 UNF-2B"),
        ("1/4-20 UNC-2A-LH", "1/4-20 UNC-2A-LH"),
        ("#10-32 UNF-2B", "#10-32 UNF-2B"),
        ("10-24 UNC", "#10-24 UNC"),
        ("No. 10-32 UNF", "#10-32 UNF"),
        ("1-1/2-6 UNC", "1-1/2-6 UNC"),
        ("1 1/2-6 UNC", "1-1/2-6 UNC"),
        ("1-8 UNC", "1-8 UNC"),
        ("1-64 UNC", "#1-64 UNC"),
        ("M16xPh3P1.5", "M16xPh3P1.5"),
        ("M16 x Ph 3 P 1.5-6H-LH", "M16xPh3P1.5-6H-LH"),
        ("M16xPh1.5P1.5", "M16x1.5"),
        ("2-4.5 UNC-2B", "2-4.5 UNC-2B"),
        ("1-1/8-8 UN-2A", "1-1/8-8 UN-2A"),
        ("1/4-32 UNEF", "1/4-32 UNEF"),
        ("1-8 UN", "1-8 UNC"),
        ("3/4-16 UNF-2A-2 STARTS", "3/4-16 UNF-2A-2 STARTS"),
        ("3/4-16 UNF-2A-LH (3 STARTS)", "3/4-16 UNF-2A-LH-3 STARTS"),
        ("0.190-32 UNF", "#10-32 UNF"),
        (".250-20 UNC-2A", "1/4-20 UNC-2A"),
        ("0.4375-20 UNF", "7/16-20 UNF"),
    ],
)
def test_a_designation_is_read_and_written_as_the_standard_writes_it(
    text: str, written: str
) -> None:
    assert thread(text).designation == written


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("M7x2", "M7x2 is not in ISO 261; M7 has pitches 1 and 0.75 mm", 'did you mean "M7x1"'),
        ("M5.5x1", "M5.5x1 is not in ISO 261; M5.5 has pitch 0.5 mm", 'did you mean "M5.5x0.5"'),
        ("M13", "M13 is not in ISO 261, of which M1 to M300 are held", "the nearest is M12"),
        ("M320", "M320 is not in ISO 261, of which M1 to M300 are held", "the nearest is M300"),
        (
            "M72",
            "M72 has no coarse pitch in ISO 261, so its pitch must be written;"
            " M72 has pitches 6, 4, 3, 2 and 1.5 mm",
            '"M72x6"',
        ),
        (
            "M10-6H external",
            "ISO 965-1 writes no external: the class says which side of the pair a thread is on",
            "6g is external, 6H is internal",
        ),
        (
            "M10 Internal",
            "ISO 965-1 writes no Internal: the class says which side of the pair a thread is on",
            "6g is external, 6H is internal",
        ),
        (
            "1/4-20 UNC-2B external",
            "ASME B1.1 writes no external: the class says which side of the pair a thread is on",
            "2A is external, 2B is internal",
        ),
        (
            "Tr 16x4-7e external",
            "ISO 2903 writes no external: the class says which side of the pair a thread is on",
            "7e is external, 7H is internal",
        ),
        (
            "M15",
            "M15 has no coarse pitch in ISO 261, so its pitch must be written;"
            " M15 has pitches 1.5 and 1 mm",
            '"M15x1.5"',
        ),
        ("m6", '"m6" is no thread that is held', 'a metric thread begins with a capital M: "M6"'),
        (
            "Rd 20x1/8",
            '"Rd 20x1/8" is no thread that is held',
            "held are ISO metric (M6x1), UNC, UNF, UNEF and UN (1/4-20 UNC), BSW and BSF (1/4 BSW),"
            " BA (2 BA), G, R, Rp and Rc (G1/2), Tr (Tr 16x4), Acme (1/2-10 ACME) and NPT"
            " (1/4-18 NPT)",
        ),
        ("M6x0,75", '"M6x0,75" has a decimal comma', "write a decimal point"),
        ("M6..5", '6..5 in "M6..5" is no number', ""),
        (
            "M16xPh4P1.5",
            'the lead of "M16xPh4P1.5" is 2.67 pitches; it must be a whole number, 1 to 12',
            "Ph3P1.5 has two starts",
        ),
        (
            "3/4-16 UNF-2A-0 STARTS",
            '"3/4-16 UNF-2A-0 STARTS" has 0 starts; 1 to 12 are worked with',
            "",
        ),
        (
            "M6-6g-2 STARTS",
            "2 is nothing that ISO 965-1 writes here",
            '"6H", "6g", "5g6g" or "LH" may follow',
        ),
        (
            "M10x1.5-6H/6g",
            '"M10x1.5-6H/6g" states both threads of a pair',
            "one class a thread, then mate them",
        ),
        (
            "M10-5g",
            "5g is nothing that ISO 965-1 writes here",
            '"6H", "6g", "5g6g" or "LH" may follow',
        ),
        (
            "M6-6Hg",
            "6Hg is nothing that ISO 965-1 writes here",
            '"6H", "6g", "5g6g" or "LH" may follow',
        ),
        (
            "1/4-20 UNC-4B",
            "4B is nothing that ASME B1.1 writes here",
            '"2A", "2B" or "LH" may follow',
        ),
        (
            "1/4-21 UNC",
            "1/4-21 UNC is not in ASME B1.1; held are 1/4-20 UNC, 1/4-28 UNF, 1/4-32 UNEF",
            'did you mean "1/4-20 UNC"',
        ),
        (
            "1/4-20 UNF",
            "1/4-20 UNF is not in ASME B1.1; held are 1/4-20 UNC, 1/4-28 UNF, 1/4-32 UNEF",
            'did you mean "1/4-28 UNF"',
        ),
        (
            "#0-80 UNC",
            "#0-80 UNC is not in ASME B1.1; held are #0-80 UNF",
            'did you mean "#0-80 UNF"',
        ),
        ("1/4 UNC", '"1/4 UNC" does not say how many threads per inch', 'write "1/4-20 UNC"'),
        (
            "1/4",
            '"1/4" does not say how many threads per inch',
            'write "1/4-20 UNC" or "1/4-28 UNF" or "1/4-32 UNEF"',
        ),
        (
            "1/4-20 NC",
            "NC is not a series that is held: UNC, UNF, UNEF and UN (ASME B1.1)",
            'did you mean "UNC"',
        ),
        (
            "1/4-28 UNEF",
            "1/4-28 UNEF is not in ASME B1.1; held are 1/4-20 UNC, 1/4-28 UNF, 1/4-32 UNEF",
            'did you mean "1/4-32 UNEF"',
        ),
        (
            "7/8-9 UN",
            "7/8-9 UN is not in ASME B1.1; held are 7/8-9 UNC, 7/8-14 UNF, 7/8-20 UNEF, 7/8-12 UN,"
            " 7/8-16 UN, 7/8-28 UN, 7/8-32 UN",
            'did you mean "7/8-12 UN"',
        ),
        (
            "1/4-27 UNS",
            "UNS is not a series that is held: UNC, UNF, UNEF and UN (ASME B1.1)",
            "",
        ),
        (
            "#13-20 UNC",
            "#13 is no size of the Unified series, #0 to 4 in are held (ASME B1.1)",
            "",
        ),
        ("M" + "6" * 60, "a thread designation has at most 60 characters, this has 61", ""),
    ],
)
def test_what_is_no_thread_is_refused_with_what_exists(text: str, message: str, hint: str) -> None:
    with pytest.raises(TradeError) as refused:
        thread(text)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == "designation"


def test_a_thread_without_its_series_is_taken_with_a_note() -> None:
    found = thread("1/4-20-2B")
    assert (found.designation, found.series) == ("1/4-20 UNC-2B", "UNC")
    assert found.notes == ("1/4-20 is written without its series; of those held it is UNC",)


def test_a_length_of_engagement_is_read_with_a_note() -> None:
    assert thread("M20-6g-L").notes == ("length of engagement L is read and not worked with",)


@pytest.mark.parametrize(
    ("text", "side", "tolerance"),
    [
        ("M8", "", ""),
        ("M8-6H", "internal", "6H"),
        ("M8-5H6H", "internal", "5H6H"),
        ("M8-6g", "external", "6g"),
        ("M8-5g6g", "external", "5g6g"),
        ("1/4-20 UNC-2A", "external", "2A"),
        ("1/4-20 UNC-3B", "internal", "3B"),
    ],
)
def test_the_class_says_which_side_a_thread_is_on(text: str, side: str, tolerance: str) -> None:
    assert (thread(text).side, thread(text).tolerance_class) == (side, tolerance)


def test_a_thread_has_its_fields() -> None:
    found = thread("M8x1-LH")
    assert (found.size, found.series, found.choice) == ("M8", "ISO metric fine", "first")
    assert (found.hand, found.starts, found.lead) == ("left", 1, 1.0)
    assert found.threads_per_inch == 25.4
    assert thread("1/2-13 UNC").threads_per_inch == pytest.approx(13)
    assert thread("1/2-13 UNC").major == pytest.approx(12.7)


def test_a_thread_describes_itself() -> None:
    assert thread("M8-6H-LH").describe() == (
        "M8-6H-LH, ISO metric coarse, internal left-hand: major diameter 8.000 mm, pitch 1.25 mm,"
        " pitch diameter 7.188 mm, minor diameter 6.647 mm"
    )
    assert thread("1/4-20 UNC").describe() == (
        "1/4-20 UNC, UNC, right-hand: major diameter 6.350 mm, pitch 1.270 mm (20 threads per"
        " inch), pitch diameter 5.525 mm, minor diameter 4.975 mm"
    )


def test_the_tables_hold_every_size_of_their_range() -> None:
    assert len(table("threads_metric").rows) == 53 + 53
    assert len(table("threads_unified").rows) == 55
    assert len(EVERY) == len(set(EVERY)) == 162 + 190 + 33 + 24


@pytest.mark.parametrize("text", EVERY)
def test_every_thread_reads_back_and_has_diameters_in_order(text: str) -> None:
    found = thread(text)
    assert found.designation == text
    assert 0 < found.root_diameter < found.minor_diameter < found.pitch_diameter < found.major
    assert found.major - found.minor_diameter == pytest.approx(2 * found.thread_height)


CLASSES = ["", "-6H", "-6g", "-5g6g", "-LH", "-6H-LH", "-4H5H-S-LH"]
INCH_CLASSES = ["", "-2A", "-2B", "-3B-LH", "-LH"]


@given(st.sampled_from(EVERY), st.sampled_from(CLASSES), st.sampled_from(INCH_CLASSES))
def test_what_is_written_reads_back_to_the_same_thread(name: str, metric: str, inch: str) -> None:
    found = thread(name + (metric if name.startswith("M") else inch))
    assert Thread.from_text(found.designation) == found


@given(
    st.one_of(
        st.text(max_size=60),
        st.text("M0123456789x.,-/#HgLUNCFAB \t×−", max_size=60),
        st.from_regex(
            r"(M|#)?[0-9./]{1,8}[x-][0-9.]{0,5} ?(UNC|UNF)?[-0-9HgAB]{0,9}", fullmatch=True
        ),
    )
)
def test_any_text_is_a_thread_or_refused(text: str) -> None:
    try:
        found = thread(text)
    except TradeError as refused:
        said = (str(refused) != "", refused.argument)
    else:
        said = (thread(found.designation).major == found.major > 0, "designation")
    assert said == (True, "designation")


@pytest.mark.parametrize(
    ("one", "other", "fault"),
    [
        ("M8-6H", "M8-6g", ""),
        ("M8", "M8", ""),
        ("M8x1-6H", "M8x1-6g", ""),
        ("1/4-20 UNC-2B", "1/4-20 UNC-3A", ""),
        (
            "M8",
            "M10",
            "the diameters differ, 8 mm and 10 mm; the pitches differ, 1.25 mm and 1.5 mm",
        ),
        ("M8", "M8x1", "the pitches differ, 1.25 mm and 1 mm"),
        (
            "1/4-20 UNC",
            "1/4-28 UNF",
            "the pitches differ, 20 threads per inch and 28 threads per inch",
        ),
        ("M8-6H", "M8-6g-LH", "one is right-hand, the other left-hand"),
        ("M8-6H", "M8-5H", "both are internal threads"),
        ("1/4-20 UNC-2A", "1/4-20 UNC-3A", "both are external threads"),
        (
            "1/4-20 UNC-2A",
            "M6-6H",
            "1/4-20 UNC-2A is UNC, M6-6H is ISO metric coarse; the diameters differ, 6.35 mm and"
            " 6 mm; the pitches differ, 20 threads per inch and 1 mm",
        ),
    ],
)
def test_mates_says_why_two_threads_do_not_go_together(one: str, other: str, fault: str) -> None:
    assert mates(thread(one), thread(other)) == fault
    assert bool(mates(thread(other), thread(one))) is bool(fault)


@pytest.mark.parametrize(
    ("one", "other", "caution"),
    [
        ("M8-6H", "M8-6g", ""),
        ("M8", "M8-6g", "no tolerance class says whether M8 is internal or external"),
        ("M8", "M8", "no tolerance class says whether M8 is internal or external"),
        (
            "M8",
            "M8-LH",
            "no tolerance class says whether M8 and M8-LH are internal or external",
        ),
    ],
)
def test_an_unstated_side_is_a_caution(one: str, other: str, caution: str) -> None:
    assert thread_mate(thread(one), thread(other)).caution == caution


def test_a_mate_is_a_fault_and_a_caution() -> None:
    assert thread_mate(thread("M8-6H"), thread("M8-6g")) == ThreadMate("", "")
