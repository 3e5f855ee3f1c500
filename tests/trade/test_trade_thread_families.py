"""Designations of the thread families beside metric and Unified, and what mates across them."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.thread_record import PROFILES
from shoplog.trade.screw_threads.threads import Thread, thread, thread_mate

UNIFIED = ("UNC", "UNF", "UNEF", "UN")


def every_family() -> list[str]:
    """A designation of every row of the families' tables."""
    found = [f"{row['number']} BA" for row in table("threads_ba").rows]
    for row in table("threads_whitworth").rows:
        held = [series for series in ("BSW", "BSF") if row[f"{series}_tpi"]]
        found += [f"{row['size']}-{row[f'{series}_tpi']} {series}" for series in held]
    for row in table("threads_pipe").rows:
        found += [f"G{row['size']}", f"G{row['size']}A"]
        if row["gauge_length_mm"]:
            found += [f"{letter}{row['size']}" for letter in ("R", "Rp", "Rc")]
    for row in table("threads_trapezoidal").rows:
        found += [f"Tr {row['size_mm']}x{pitch}" for pitch in row["pitches_mm"].split()]
    for row in table("threads_acme").rows:
        counts = f"{row['tpi']} {row['also_made_tpi']}".split()
        found += [f"{row['size']}-{count} ACME-2G" for count in counts]
    found += [f"{row['size']}-{row['tpi']} NPT" for row in table("threads_npt").rows]
    for row in table("threads_unified").rows:
        for series in UNIFIED:
            found += [f"{row['size']}-{c} {series}" for c in row[f"{series}_tpi"].split()]
    return found


EVERY = every_family()


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("1/4 BSW", "1/4-20 BSW"),
        ("1/4-20 BSW", "1/4-20 BSW"),
        ("1/4 in BSF", "1/4-26 BSF"),
        ("1/4 B.S.F.", "1/4-26 BSF"),
        ("0.25 BSW", "1/4-20 BSW"),
        ("1 1/2 BSW-LH", "1-1/2-6 BSW-LH"),
        ("1/4 BSW internal", "1/4-20 BSW internal"),
        ("2BA", "2 BA"),
        ("No. 2 BA", "2 BA"),
        ("0 BA-LH external", "0 BA-LH external"),
        ("G1/2", "G1/2"),
        ("G 1/2 A", "G1/2A"),
        ("G1 1/2B-LH", "G1-1/2B-LH"),
        ("R1/2", "R1/2"),
        ("Rp 3/4", "Rp3/4"),
        ("Rc1-1/4-LH", "Rc1-1/4-LH"),
        ("Tr16x4", "Tr 16x4"),
        ("Tr 16×4-7e", "Tr 16x4-7e"),
        ("Tr 16x4LH-7H", "Tr 16x4LH-7H"),
        ("Tr 16x4-7H-LH", "Tr 16x4LH-7H"),
        ("Tr 40x14(P7)LH-7e", "Tr 40x14(P7)LH-7e"),
        ("Tr 40x14P7", "Tr 40x14(P7)"),
        ("Tr 40x7(P7)", "Tr 40x7"),
        ("1/2-10 ACME-2G", "1/2-10 ACME-2G"),
        ("0.750-6-ACME-2G-LH", "3/4-6 ACME-2G-LH"),
        ("1 ACME", "1-5 ACME"),
        ("3/4-6 ACME-3G-2 STARTS external", "3/4-6 ACME-3G-2 STARTS external"),
        ("1/4-18 NPT", "1/4-18 NPT"),
        ("1/4 NPT", "1/4-18 NPT"),
        ("1-11.5 NPT-LH internal", "1-11.5 NPT-LH internal"),
    ],
)
def test_a_designation_is_read_and_written_as_the_standard_writes_it(
    text: str, written: str
) -> None:
    assert thread(text).designation == written


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        (
            "1/4-22 BSW",
            "1/4-22 BSW is not in BS 84; 1/4 BSW has 20 threads per inch, 1/4 BSF 26",
            'write "1/4-20 BSW"',
        ),
        (
            "1/3 BSW",
            "1/3 is no size of BSW that is held (BS 84); they run from 1/16 to 6",
            'the nearest is "5/16"',
        ),
        ("1/0 BSW", '1/0 in "1/0 BSW" is no size of BSW (BS 84)', ""),
        ("17 BA", "17 BA is not held: they run from 0 BA to 16 BA (BS 93)", ""),
        ("99999 BA", "99999 BA is not held: they run from 0 BA to 16 BA (BS 93)", ""),
        (
            "2 BA-6H",
            "6H is nothing that BS 93 writes here",
            '"LH", "internal" or "external" may follow',
        ),
        (
            "R5/8",
            "5/8 is no size of R that is held (ISO 7-1); they run from 1/16 to 6",
            'the nearest is "1/2"',
        ),
        (
            "R1/2A",
            "R1/2 has no class A in ISO 7-1",
            'a parallel external thread of class A is "G1/2A"',
        ),
        (
            "1/2 BSP",
            '"1/2 BSP" does not say which pipe thread: parallel, or taper and made to seal',
            'write "G1/2" or "G1/2A" for parallel, "R1/2", "Rp1/2" or "Rc1/2" for a joint that'
            " seals on the thread",
        ),
        ("Tr 16", "the pitch of Tr 16 must be written; ISO 2902 has Tr 16x4, Tr 16x2", ""),
        (
            "Tr 16x3",
            "Tr 16 with pitch 3 mm is not in ISO 2902, which has Tr 16x4, Tr 16x2",
            "",
        ),
        (
            "Tr 13x2",
            "Tr 13 is not in ISO 2902, of which Tr 8 to Tr 200 are held",
            "the nearest is Tr 12",
        ),
        (
            "Tr 40x10(P7)",
            "a lead of 10 mm is 1.43 pitches of 7 mm; it must be a whole number, 1 to 12",
            '"Tr 40x14(P7)" has two starts',
        ),
        (
            "Tr 16x4-6g",
            "6g is nothing that ISO 2903 writes here",
            '"7H", "7e", "8c" or "LH" may follow',
        ),
        (
            "3/4-7 ACME",
            "3/4-7 ACME is not held: the standard series of ASME B1.5 has 3/4-6 ACME; 10, 8, 5 are"
            " also made",
            'did you mean "3/4-6 ACME"',
        ),
        (
            "1/4-20 NPT",
            "1/4-20 NPT is not in ASME B1.20.1; 1/4 NPT has 18 threads per inch",
            'did you mean "1/4-18 NPT"',
        ),
        (
            "1/4 NPTF",
            "NPTF is not held, of the American pipe threads NPT is (ASME B1.20.1)",
            "",
        ),
    ],
)
def test_what_a_family_does_not_have_is_refused_with_what_it_has(
    text: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        thread(text)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == "designation"


@pytest.mark.parametrize(
    ("text", "side", "tolerance"),
    [
        ("G1/2", "internal", ""),
        ("G1/2A", "external", "A"),
        ("R1/2", "external", ""),
        ("Rp1/2", "internal", ""),
        ("Rc1/2", "internal", ""),
        ("Tr 16x4-7e", "external", "7e"),
        ("Tr 16x4-8H", "internal", "8H"),
        ("1/2-10 ACME-2G", "", "2G"),
        ("1/2-10 ACME-2G internal", "internal", "2G"),
        ("2 BA external", "external", ""),
        ("1/4-18 NPT", "", ""),
    ],
)
def test_the_designation_says_the_side_where_its_standard_lets_it(
    text: str, side: str, tolerance: str
) -> None:
    assert (thread(text).side, thread(text).tolerance_class) == (side, tolerance)


@pytest.mark.parametrize(
    ("text", "angle", "height_in_pitches"),
    [
        ("M6", 60, 5 / 16 * sqrt(3)),
        ("1/4-20 UNC", 60, 5 / 16 * sqrt(3)),
        ("1/4 BSW", 55, 0.640327),
        ("G1/2", 55, 0.640327),
        ("2 BA", 47.5, 0.6),
        ("Tr 16x4", 30, 0.5),
        ("1/2-10 ACME", 29, 0.5),
        ("1/4 NPT", 60, 0.8),
    ],
)
def test_a_family_has_its_angle_and_its_height(
    text: str, angle: float, height_in_pitches: float
) -> None:
    found = thread(text)
    assert (found.thread_angle, found.flank_angle) == (angle, angle / 2)
    assert found.thread_height / found.pitch == pytest.approx(height_in_pitches, abs=1e-6)


def test_several_starts_multiply_the_lead_and_leave_the_pitch() -> None:
    for text, starts, pitch in (
        ("M16xPh3P1.5", 2, 1.5),
        ("Tr 40x14(P7)", 2, 7.0),
        ("3/4-6 ACME-3 STARTS", 3, 25.4 / 6),
        ("3/4-16 UNF-2 STARTS", 2, 25.4 / 16),
    ):
        found = thread(text)
        assert (found.starts, found.pitch) == (starts, pytest.approx(pitch))
        assert found.lead == pytest.approx(starts * pitch)


def test_a_taper_thread_is_smaller_at_its_end() -> None:
    for text in ("R1/2", "Rc1/2", "1/2 NPT"):
        found = thread(text)
        assert found.taper == 1 / 16
        assert found.major - found.major_at_end == pytest.approx(found.gauge_length / 16)
        assert found.minor_at_end < found.pitch_diameter_at_end < found.major_at_end
    assert (thread("Rp1/2").taper, thread("Rp1/2").major_at_end) == (0, thread("Rp1/2").major)


def test_a_clearance_lies_between_crest_and_root() -> None:
    found = thread("Tr 16x4")
    assert (found.root_diameter, found.internal_major_diameter) == (11.5, 16.5)
    assert thread("1/2-10 ACME").root_diameter == pytest.approx(0.38 * 25.4)
    assert thread("M6").internal_major_diameter == 6


def test_a_thread_outside_a_series_or_of_another_name_has_a_note() -> None:
    assert thread("3/4-10 ACME").notes == ("the standard series of ASME B1.5 has 3/4-6 ACME",)
    assert thread("1-8 UN").notes == ("1-8 of the 8-UN series is the UNC thread",)
    assert thread("G1/2").notes == (
        "ISO 228-1 writes an internal thread G1/2, an external one G1/2A or G1/2B",
    )


def test_a_thread_that_seals_on_itself_has_a_caution() -> None:
    said = (
        "a joint under pressure is made and tested by the rules for what it carries; gas and mains"
        " water are often licensed work",
    )
    assert [thread(t).cautions for t in ("R1/2", "Rp1/2", "Rc1/2", "1/2 NPT")] == [said] * 4
    assert thread("G1/2").cautions == thread("M6").cautions == ()


def test_a_taper_thread_describes_itself_with_its_gauge_plane() -> None:
    assert thread("R1/2").describe() == (
        "R1/2, R, external right-hand: major diameter 20.955 mm, pitch 1.814 mm (14 threads per"
        " inch), pitch diameter 19.793 mm, minor diameter 18.632 mm, at the gauge plane 8.2 mm from"
        " the small end of the external thread, taper 1:16"
    )
    assert thread("M16xPh3P1.5").describe().endswith("2 starts, lead 3 mm")


@pytest.mark.parametrize("text", EVERY)
def test_every_thread_reads_back_and_has_diameters_in_order(text: str) -> None:
    found = thread(text)
    assert Thread.from_text(found.designation).designation == found.designation
    assert found.family in PROFILES
    assert 0 < found.minor_diameter < found.pitch_diameter < found.major
    assert found.root_diameter <= found.minor_diameter + 1e-9
    assert found.major - found.minor_diameter == pytest.approx(2 * found.thread_height)


def test_every_row_of_the_tables_is_a_thread_of_its_own() -> None:
    assert len(EVERY) == len(set(EVERY))
    assert len(EVERY) > 500


@given(
    st.one_of(
        st.text("GRpcTrBASWFNPTACMExP()-/0123456789. LH", max_size=40),
        st.from_regex(
            r"(G|R|Rp|Rc|Tr ?)?[0-9./-]{1,7}( ?(BSW|BSF|BA|NPT|ACME|A|B))?"
            r"(x[0-9.]{1,4}(\(P[0-9]\))?)?(-7e|-2G|-LH)?( internal)?",
            fullmatch=True,
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


# ---- what goes together ----------------------------------------------------------------------

UNSEALED = (
    " on the thread: G is fixed and sealed at a face (ISO 228-1); a joint that seals is R in Rp or"
    " Rc (ISO 7-1)"
)


@pytest.mark.parametrize(
    ("one", "other", "fault", "caution"),
    [
        ("Rp1/2", "R1/2", "", ""),
        ("Rc1/2", "R1/2", "", ""),
        ("G1/2", "G1/2A", "", ""),
        ("G1/2", "R1/2", "", "G1/2 does not seal with R1/2" + UNSEALED),
        ("Rp1/2", "G1/2A", "", "G1/2A does not seal with Rp1/2" + UNSEALED),
        ("Rc1/2", "G1/2B", "", "G1/2B does not seal with Rc1/2" + UNSEALED),
        ("Rp1/2", "Rc1/2", "both are internal threads", ""),
        ("G1/2", "G1/2", "both are internal threads", ""),
        (
            "Rp1/2",
            "R3/4",
            "the diameters differ, 20.955 mm and 26.441 mm",
            "",
        ),
        (
            "1/2-14 NPT internal",
            "R1/2",
            "1/2-14 NPT internal is NPT, R1/2 is R; the thread angles differ, 60 and 55 degrees;"
            " the diameters differ, 21.2235 mm and 20.955 mm",
            "",
        ),
        (
            "1/4 BSW internal",
            "1/4-20 UNC-2A",
            "1/4-20 BSW internal is BSW, 1/4-20 UNC-2A is UNC; the thread angles differ, 55 and 60"
            " degrees",
            "",
        ),
        (
            "1/4 BSW internal",
            "1/4 BSF external",
            "the pitches differ, 20 threads per inch and 26 threads per inch",
            "",
        ),
        ("2 BA internal", "2 BA external", "", ""),
        (
            "2 BA",
            "2 BA external",
            "",
            "no tolerance class says whether 2 BA is internal or external",
        ),
        ("Tr 16x4-7H", "Tr 16x4-7e", "", ""),
        ("Tr 40x14(P7)-7H", "Tr 40x7-7e", "the starts differ, 2 and 1", ""),
        ("Tr 16x4-7H", "Tr 16x4LH-7e", "one is right-hand, the other left-hand", ""),
        ("1/2-10 ACME-2G internal", "1/2-10 ACME-2G external", "", ""),
        (
            "Tr 12x3-7H",
            "M12-6g",
            "Tr 12x3-7H is Tr, M12-6g is ISO metric coarse; the thread angles differ, 30 and 60"
            " degrees; the pitches differ, 3 mm and 1.75 mm",
            "",
        ),
    ],
)
def test_families_are_told_apart_and_pipe_threads_by_what_seals(
    one: str, other: str, fault: str, caution: str
) -> None:
    found = thread_mate(thread(one), thread(other))
    assert (found.fault, found.caution) == (fault, caution)
    turned = thread_mate(thread(other), thread(one))
    assert (bool(turned.fault), turned.caution) == (bool(fault), caution)
