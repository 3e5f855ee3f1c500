"""Mates: what goes together, what does not, and that a miss is told at both places."""

from __future__ import annotations

import pytest
from calc_page import codes, findings, items, lines_of, only, project

from shoplog.calc.results import MateResult
from shoplog.log import Log


def pair(one: str, other: str, asked: str = "") -> Log:
    """A housing that mates its bore with the journal of a shaft on another page."""
    mate = f"mate bore with shaft.journal {asked}".strip()
    return project(housing=f"bore = {one}\n{mate}", shaft=f"journal = {other}")


def mate_of(log: Log) -> MateResult:
    (found,) = (
        item for item in log.pages["housing.md"].blocks[0].items if isinstance(item, MateResult)
    )
    return found


@pytest.mark.parametrize(
    ("one", "other", "asked"),
    [
        ("16 mm H7", "16 mm f7", ""),
        ("16 mm f7", "16 mm H7", ""),
        ("16 mm H7", "16 mm f7", 'as "H7/f7"'),
        ("16 mm H7", "16 mm f7", 'as "H7 / f7"'),
        ("16 mm f7", "16 mm H7", 'as "H7/f7"'),
        ("16 mm H7", "16 mm f7", "as clearance"),
        ("16 mm H7", "16 mm f7", "as clearance 16 um..52 um"),
        ("16 mm H7", "16 mm f7", "as clearance 0.016 mm .. 0.052 mm"),
        ("16 mm H7", "16 mm f7", "as clearance 1/2 thou..3 thou"),
        ("16 mm H7", "16 mm s6", "as interference"),
        ("16 mm H7", "16 mm s6", "as interference 10 um..39 um"),
        ("1 in H7", "25.4 mm f7", ""),
        ("25.4 mm H7", "1 in f7", 'as "H7/f7"'),
        ("16 mm ±0.05", "16 mm -0.1/-0.2", ""),
        ("16 mm ±0.05", "16 mm -0.1/-0.2", "as clearance 50 um..250 um"),
        ("16 mm H7", "15.9 mm f7", "as clearance 0 um..200 um"),
        ("6.6 mm H13", 'thread("M6x1-6g")', "as clearance"),
        ('thread("M6x1-6g")', "6.6 mm H13", "as clearance 0.5 mm..1 mm"),
        ("6.6 mm ±0.1", 'thread("M6")', "as clearance"),
        ('thread("M6x1-6H")', 'thread("M6x1-6g")', ""),
        ('thread("1/4-20 UNC-2B")', 'thread("1/4-20 UNC-2A")', ""),
        ('taper("Morse 2")', 'taper("Morse 2")', ""),
        ("bolt_circle(50 mm, 4)", "bolt_circle(50 mm, 4, start_angle=90 deg)", ""),
    ],
)
def test_what_goes_together(one: str, other: str, asked: str) -> None:
    log = pair(one, other, asked)
    assert [found.code for found in log.problems if found.code != "formula-caution"] == []
    assert mate_of(log).passes


@pytest.mark.parametrize(
    ("one", "other", "asked", "fault"),
    [
        (
            "30 mm H7",
            "24 mm p6",
            "",
            "the nominal sizes differ: the hole is 30 mm (1.1811 in), the shaft 24 mm (0.9449 in)",
        ),
        (
            "16 mm H7",
            "15.9 mm f7",
            "as clearance",
            "the nominal sizes differ: the hole is 16 mm (0.6299 in), the shaft 15.9 mm (0.626 in)",
        ),
        ("16 mm H7", "16 mm g6", 'as "H7/f7"', "H7/f7 is asked, the sizes are H7/g6"),
        ("16 mm ±0.05", "16 mm f7", 'as "H7/f7"', "H7/f7 is asked, the sizes are no class/f7"),
        (
            "16 mm H7",
            "16 mm f7",
            "as clearance 20 um..55 um",
            "clearance 20 um to 55 um is asked, the limits give a clearance of 16 µm to 52 µm",
        ),
        (
            "16 mm H7",
            "16 mm f7",
            "as interference",
            "interference is asked, the limits give a clearance of 16 µm to 52 µm",
        ),
        (
            "16 mm H7",
            "16 mm s6",
            "as clearance",
            "clearance is asked, the limits give an interference of 10 µm to 39 µm",
        ),
        (
            "16 mm H7",
            "16 mm k6",
            "as clearance",
            "clearance is asked, the limits give 12 µm of interference to 17 µm of clearance",
        ),
        (
            "16 mm H7",
            "16.5 mm f7",
            "as clearance 15 um..55 um",
            "clearance 15 um to 55 um is asked, the limits give an interference of 448 µm"
            " to 484 µm",
        ),
        ("16 mm H7", "16 mm H8", "", "H8 is a class for a hole, and is given as the shaft"),
        ("16 mm f7", "16 mm g6", "", "f7 is a class for a shaft, and is given as the hole"),
        (
            "5 mm H13",
            'thread("M6x1-6g")',
            "as clearance",
            "clearance is asked, the limits give an interference of 820 µm to 1000 µm",
        ),
        (
            "6.6 mm H13",
            'thread("M6x1-6H")',
            "as clearance",
            "M6-6H is an internal thread, so it goes into no hole",
        ),
        ('thread("M6x1-6H")', 'thread("M6x1-6H")', "", "both are internal threads"),
        (
            'thread("M6x1-6H")',
            'thread("M8-6g")',
            "",
            "the diameters differ, 6 mm and 8 mm; the pitches differ, 1 mm and 1.25 mm",
        ),
        (
            'taper("Morse 2")',
            'taper("Morse 3")',
            "",
            "the tapers differ: Morse 2 is 1:20.02 and Morse 3 is 1:19.922",
        ),
        (
            "bolt_circle(50 mm, 4)",
            "bolt_circle(50 mm, 6)",
            "",
            "the numbers of holes differ: 4 and 6",
        ),
    ],
)
def test_a_miss_is_told_at_both_lines(one: str, other: str, asked: str, fault: str) -> None:
    log = pair(one, other, asked)
    assert not mate_of(log).passes
    told = f"bore and shaft.journal do not mate: {fault}"
    assert [line for line in lines_of(log) if "caution" not in line] == [
        f"housing.md:6:1: {told} [see housing.md:5:1] [see shaft.md:5:1]",
        f"shaft.md:5:1: {told} [see housing.md:6:1]",
    ]


def test_a_mate_stated_on_a_third_page_is_told_on_all_three() -> None:
    log = project(
        assembly="mate housing.bore with shaft.journal",
        housing="bore = 30 mm H7",
        shaft="journal = 24 mm p6",
    )
    assert [line.split(": ")[0] for line in lines_of(log)] == [
        "assembly.md:5:1",
        "housing.md:5:1",
        "shaft.md:5:1",
    ]


def test_a_fit_of_sizes_that_differ_is_told_at_both_lines() -> None:
    log = project(housing="running = fit(30 mm H7, shaft.journal)", shaft="journal = 24 mm p6")
    what = (
        "the nominal sizes differ: the hole is 30 mm (1.1811 in), the shaft 24 mm (0.9449 in)"
        " (a fit is between a hole and a shaft of one nominal size)"
    )
    assert lines_of(log) == [
        f"housing.md:5:25: {what} [see shaft.md:5:1]",
        f"shaft.md:5:1: {what} [see housing.md:5:25]",
    ]


def test_a_check_that_fails_is_told_where_the_other_page_gives_its_name() -> None:
    log = project(
        housing="bore = 16 mm H7\ncheck bore.max < shaft.journal.min", shaft="journal = 16 mm f7"
    )
    what = "this check does not hold: bore.max is 16.018 mm; shaft.journal.min is 15.966 mm"
    assert lines_of(log) == [
        f"housing.md:6:7: {what} [see shaft.md:5:1]",
        f"shaft.md:5:1: {what} [see housing.md:6:7]",
    ]


def test_where_neither_has_a_class_the_first_is_the_hole_and_a_note_says_so() -> None:
    (_, _, found) = items("a = 16 mm ±0.05\nb = 16 mm -0.1/-0.2\nmate a with b")
    assert found.working.notes == ["neither has a class, so the first is taken as the hole"]


SIZES = 'a = 16 mm H7\nb = 16 mm f7\nt = thread("M6x1-6g")\n'


@pytest.mark.parametrize(
    ("mate", "place", "message", "hint"),
    [
        (
            'mate a with b as "close"',
            "4:18",
            "`close` is not a fit",
            'such as "H7/f7", or clearance 15 um..55 um, or interference 20 um..40 um',
        ),
        (
            'mate a with b as "f7/H7"',
            "4:18",
            "`f7/H7` is not a fit",
            'such as "H7/f7", or clearance 15 um..55 um, or interference 20 um..40 um',
        ),
        (
            "mate a with b as clearance 55 um..15 um",
            "4:18",
            "the bounds of the clearance are the wrong way round: 55 um is over 15 um",
            "",
        ),
        (
            "mate a with b as interference 15 s..55 s",
            "4:31",
            "the bounds of the interference are lengths; this is a time",
            "",
        ),
        (
            "mate a with 16 mm",
            "4:13",
            "16.000 mm has no limits, so nothing proves that it mates",
            "give it a class or limits: 16 mm H7, 16 mm ±0.05",
        ),
        (
            "mate a with 16 s",
            "4:6",
            "a length and a time do not mate",
            "a mate takes two round sizes, threads, tapers, hole patterns, a key and its seats,"
            " or a pin and its hole",
        ),
        (
            "mate a with t",
            "4:6",
            "a length and a thread do not mate",
            "a screw in its clearance hole is a mate `as clearance`",
        ),
        ('mate t with t as "H7/f7"', "4:18", "two threads take no `as`", ""),
        (
            'mate taper("1:20") with taper("1:20") as clearance',
            "4:42",
            "two tapers take no `as`",
            "",
        ),
    ],
)
def test_a_mate_that_cannot_be_judged(mate: str, place: str, message: str, hint: str) -> None:
    assert only(SIZES + mate) == (place, message, hint)


def test_a_fit_that_presses_or_shrinks_carries_its_cautions() -> None:
    found = findings("a = 16 mm H7\nb = 16 mm s6\nmate a with b")
    assert [line.split(":")[2].split()[0] for line in found] == ["pressing", "shrinking"]
    assert codes("a = 16 mm H7\nb = 16 mm s6\nmate a with b") == ["formula-caution"] * 2


KEYED = "joint = parallel_key(25 mm)\nother = parallel_key(40 mm)\n"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (f"{KEYED}mate joint.shaft with joint.hub", []),
        (f"{KEYED}mate joint.key with joint.shaft", []),
        (
            f"{KEYED}mate joint.key with other.hub",
            ["3:1 joint.key and other.hub do not mate: the widths differ: key 8 mm, keyway 12 mm"],
        ),
        ("pin = parallel_pin(6 mm)\nhole = 6 mm H7\nmate hole with pin", []),
        ("inner = bearing_bore(17 mm)\nmate inner with bearing_shaft_seat(17 mm)", []),
        (
            "pin = parallel_pin(6 mm)\nhole = 8 mm H7\nmate hole with pin",
            ["3:1 hole and pin do not mate: the diameters differ: pin 6 mm, hole 8 mm"],
        ),
        ("pin = spring_pin(6 mm)\nhole = 6 mm H12\nmate pin with hole", []),
        (
            "pin = spring_pin(6 mm)\nhole = 6.2 mm\nmate pin with hole",
            ["3:15 6.200 mm has no limits, so nothing proves that it mates"],
        ),
        (
            "plate = bolt_circle(60 mm, 4)\nholes = hole_arc(60 mm, 4, 0 deg, 270 deg)\n"
            "mate plate with holes",
            [],
        ),
        (
            "plate = bolt_circle(60 mm, 4)\nholes = hole_row(4, 20 mm)\nmate plate with holes",
            ["3:1 plate and holes do not mate: hole"],
        ),
        (
            'pin = parallel_pin(6 mm)\nt = thread("M6-6H")\nmate pin with t',
            ["3:6 a parallel pin and a thread do not mate"],
        ),
    ],
)
def test_keys_pins_and_layouts_mate_or_say_why_not(text: str, found: list[str]) -> None:
    said = [line for line in findings(text) if " caution: " not in line and " note: " not in line]
    assert len(said) == len(found)
    assert all(line.startswith(start) for line, start in zip(said, found, strict=True))
