"""Screws by their standards, clearance holes, counterbores, countersinks and property classes."""

from __future__ import annotations

import pytest

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.fastening.clearance_holes import clearance_hole
from shoplog.trade.fastening.counterbores import counterbore, screw_countersink
from shoplog.trade.fastening.property_classes import property_class
from shoplog.trade.fastening.screws import KINDS, Screw, screw
from shoplog.trade.screw_threads.threads import Thread

EVERY = [(kind.name, row["size"]) for kind in KINDS.values() for row in table(kind.rows).rows]


def thread(text: str) -> Thread:
    return Thread.from_text(text)


@pytest.mark.parametrize(
    ("text", "written", "length"),
    [
        ("ISO 4762 M6", "ISO 4762 M6", None),
        ("ISO 4762 M6x20", "ISO 4762 M6x20", 20),
        ("ISO 4762 – M6 × 20", "ISO 4762 M6x20", 20),
        ("ISO4762 - M6x20 mm", "ISO 4762 M6x20", 20),
        ("EN ISO 4029 M6x10", "ISO 4029 M6x10", 10),
        ("ASME B18.3 cap 1/4-20", "B18.3 cap 1/4-20", None),
        ("B18.3 cap 1/4", "B18.3 cap 1/4-20", None),
        ("B18.3 cap 1/4-28 UNF", "B18.3 cap 1/4-28", None),
        ("B18.3 cap 1-8", "B18.3 cap 1-8", None),
        ("B18.3 cap 1-1/4", "B18.3 cap 1-1/4-7", None),
        ("B18.3 set #10-32", "B18.3 set #10-32", None),
        ("B18.3 set #0", "B18.3 set #0-80", None),
    ],
)
def test_a_screw_is_read_by_its_standard_and_size(
    text: str, written: str, length: float | None
) -> None:
    found = screw(text)
    assert (found.designation, found.length) == (written, length)
    assert Screw.from_text(found.designation) == found


@pytest.mark.parametrize(("name", "size"), EVERY, ids=lambda part: part)
def test_every_screw_of_the_tables_is_whole(name: str, size: str) -> None:
    found = screw(f"{name} {size}")
    assert found.size == size
    if found.head == "none":
        assert found.key is not None
        assert found.key < found.diameter
        assert found.greatest_diameter == found.diameter
        return
    assert found.head_diameter is not None
    assert found.head_height is not None
    assert found.greatest_diameter >= found.head_diameter > found.diameter
    if found.key is not None:
        assert found.key < found.head_diameter


@pytest.mark.parametrize("name", [name for name in KINDS if "screws_cap" in KINDS[name].rows])
def test_sizes_rise_down_every_table(name: str) -> None:
    sizes = [screw(f"{name} {row['size']}") for row in table(KINDS[name].rows).rows]
    for part in ("diameter", "greatest_diameter", "head_height"):
        values = [getattr(each, part) for each in sizes]
        assert values == sorted(set(values)), part


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        (
            "M6",
            '"M6" names no screw that is held',
            'write the standard and the size: "ISO 4762 M6x20"; held are ISO 4762, ISO 10642, ISO'
            " 4014, ISO 4017, ISO 4032, ISO 4026, ISO 4027, ISO 4028, ISO 4029, B18.3 cap, B18.3"
            " set",
        ),
        (
            "ISO 10642 M24",
            "ISO 10642 has no M24 here: it has M2, M2.5, M3, M4, M5, M6, M8, M10, M12, M14, M16 and"
            " M20",
            "",
        ),
        (
            "ISO 4762 6x20",
            '"6x20" is no size of ISO 4762',
            'write "M6" or "M6x20", 20 the length in mm',
        ),
        ("ISO 4762 M6x0", "a length of 0 mm is not held: they are 1 to 1000 mm", ""),
        ("ISO 4762 M6x1.2.3", '"1.2.3" is no length', ""),
        (
            "B18.3 cap 1/4-21",
            "1/4-21 is no Unified thread",
            'leave the threads per inch out: "1/4"',
        ),
        (
            "ISO 4762 " + "M" * 60,
            "a screw's designation has at most 60 characters, this has 69",
            "",
        ),
    ],
)
def test_what_is_no_screw_is_refused(text: str, message: str, hint: str) -> None:
    with pytest.raises(TradeError) as refused:
        screw(text)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == "designation"


def test_a_screw_describes_itself() -> None:
    assert screw("ISO 4762 M6x20").describe() == (
        "ISO 4762 M6x20, socket head cap screw: thread M6, head 10 mm, knurled head 10.22 mm,"
        " height 6 mm, key 5 mm"
    )
    assert screw("ISO 4029 M6").describe() == (
        "ISO 4029 M6, socket set screw, cup point: thread M6, key 3 mm, point 3 mm"
    )


def test_a_countersunk_head_brings_its_caution() -> None:
    assert len(screw("ISO 10642 M6").cautions) == 1
    assert screw("ISO 4762 M6").cautions == ()


# ---- holes -----------------------------------------------------------------------------------


def test_the_series_have_their_names_in_both_systems() -> None:
    for metric, inch in (("fine", "close"), ("medium", "normal"), ("coarse", "loose")):
        assert clearance_hole(thread("M8"), metric) == clearance_hole(thread("M8"), inch)
        assert clearance_hole(thread("M8"), metric).series == metric
        assert clearance_hole(thread("1/4-20 UNC"), metric).series == inch


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_a_coarser_series_has_a_larger_hole_and_all_pass_the_screw(system: str) -> None:
    for row in table(f"screws_clearance_{system}").rows:
        size = row["size"]
        if system == "inch":
            size = screw(f"B18.3 set {size}").thread.designation
        holes = [clearance_hole(thread(size), name) for name in ("fine", "medium", "coarse")]
        diameters = [hole.diameter for hole in holes]
        assert diameters == sorted(set(diameters)), size
        assert holes[0].play > 0
        assert all(hole.drill.diameter >= hole.diameter - 0.05 for hole in holes), size


def test_a_hole_describes_itself() -> None:
    assert clearance_hole(thread("M6")).describe() == (
        "Clearance hole for M6, medium: 6.600 mm (drill 6.6 mm), play 0.600 mm."
    )
    assert clearance_hole(thread("M6")).shift == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("text", "series", "message"),
    [
        ("M6", "wide", '"wide" is no series of clearance holes'),
        ("G1/4", "medium", "there is no clearance hole for G1/4"),
        ("1/4 BSW", "medium", "there is no clearance hole for 1/4-20 BSW"),
        ("Tr 16x4", "medium", "there is no clearance hole for Tr 16x4"),
        ("M9", "medium", "there is no clearance hole for M9"),
    ],
)
def test_a_hole_that_no_standard_has_is_refused(text: str, series: str, message: str) -> None:
    with pytest.raises(TradeError) as refused:
        clearance_hole(thread(text), series)
    assert str(refused.value) == message


# ---- counterbores ----------------------------------------------------------------------------


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_a_standard_counterbore_passes_its_own_head(system: str) -> None:
    name = {"metric": "ISO 4762", "inch": "B18.3 cap"}[system]
    for row in table(f"screws_cap_{system}").rows:
        found = counterbore(screw(f"{name} {row['size']}"))
        assert found.passes, row["size"]
        assert found.depth >= (found.screw.head_height or 0)


def test_10_mm_passes_a_set_screw_and_a_tool_but_no_m6_cap_screw() -> None:
    found = counterbore(screw("ISO 4762 M6"), 10)
    assert (found.passes, found.passes_plain_head, found.passes_set_screw) == (False, False, True)
    assert found.play == pytest.approx(-0.22)
    assert found.describe() == (
        "ISO 4762 M6: head at most 10.00 mm plain, 10.22 mm knurled; a counterbore of 10.00 mm does"
        " not pass it with clearance (-0.22 mm); DIN 974-1 has 11.00 mm; 6.40 mm deep hides the"
        " head. It passes a set screw of M6, 6.00 mm, or a tool."
    )
    set_screw = counterbore(screw("ISO 4026 M6"), 10)
    assert set_screw.passes
    assert set_screw.describe() == (
        "A counterbore of 10.00 mm passes ISO 4026 M6, a screw without a head of 6.00 mm (+4.00"
        " mm)."
    )


def test_between_plain_and_knurled_only_the_plain_head_passes() -> None:
    found = counterbore(screw("ISO 4762 M6"), 10.4)
    assert (found.passes_plain_head, found.passes) == (True, False)


def test_a_hexagon_is_judged_by_its_corners() -> None:
    bolt = screw("ISO 4014 M10")
    assert bolt.head_diameter == pytest.approx(16 / 0.8660254)
    assert not counterbore(bolt, 18).passes
    assert counterbore(bolt, 22).passes


def test_a_hexagon_has_a_counterbore_for_the_wrench_that_goes_in() -> None:
    bolt = screw("ISO 4014 M8x40")
    assert [counterbore(bolt, wrench=w).diameter for w in ("", "socket", "ring", "narrow")] == [
        24,
        24,
        26,
        18,
    ]
    assert counterbore(bolt).describe() == (
        "ISO 4014 M8x40: head at most 15.01 mm; a counterbore of 24.00 mm passes it with 8.99 mm of"
        " play; 5.90 mm deep hides the head."
    )
    assert counterbore(bolt).notes == (
        "series 1 of DIN 974-2, room for a hand socket (DIN 3124) or a box spanner",
    )
    assert "DIN 974-2 has 26.00 mm" in counterbore(bolt, 24, "ring").describe()
    assert counterbore(screw("ISO 4032 M8")).diameter == 24


@pytest.mark.parametrize("row", table("screws_counterbores_hex").rows, ids=lambda row: row["size"])
def test_every_hexagon_passes_its_counterbores_and_the_rule_agrees_with_the_standard(
    row: dict[str, str],
) -> None:
    for kind in ("ISO 4014", "ISO 4017", "ISO 4032"):
        part = screw(f"{kind} {row['size']}")
        narrow, socket, ring = (
            counterbore(part, wrench=w).diameter for w in ("narrow", "socket", "ring")
        )
        assert counterbore(part, wrench="narrow").passes
        assert narrow < socket <= ring
        assert 4 / 3 * part.greatest_diameter + 3 == pytest.approx(socket, rel=0.1)


@pytest.mark.parametrize(("size", "diameter"), [("M2", 10), ("M3.5", 13), ("M48", 119)])
def test_a_hexagon_that_the_standard_has_not_goes_by_a_rule_and_says_so(
    size: str, diameter: float
) -> None:
    found = counterbore(screw(f"ISO 4017 {size}"))
    assert (found.diameter, found.standard) == (diameter, None)
    assert found.source == "common practice, no source"
    assert found.notes == (
        f"DIN 974-2 has no {size} here: 4/3 of the width across corners and 3 mm, for a hand socket"
        " (common practice, no source); measure the socket",
    )


@pytest.mark.parametrize(
    ("text", "wrench", "message", "hint"),
    [
        (
            "ISO 4014 M8",
            "cap",
            '"cap" is no wrench that a counterbore is held for',
            "it is socket, ring or narrow",
        ),
        (
            "ISO 4762 M8",
            "socket",
            "ISO 4762 M8 has no hexagon to put a wrench round",
            "leave the wrench out",
        ),
        (
            "ISO 4014 M48",
            "ring",
            "no ring series of counterbores is held for ISO 4014 M48",
            "DIN 974-2 is held for M3 and M4 to M45; a socket has a rule beyond",
        ),
    ],
)
def test_a_wrench_that_a_counterbore_has_no_room_for_is_refused(
    text: str, wrench: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        counterbore(screw(text), wrench=wrench)
    assert (str(refused.value), refused.value.hint, refused.value.argument) == (
        message,
        hint,
        "wrench",
    )


def test_a_countersink_takes_the_sharp_cone() -> None:
    found = screw_countersink(screw("ISO 10642 M6"))
    assert (found.diameter, found.angle, found.hole) == (13.44, 90, 6.6)
    assert found.describe() == (
        "ISO 10642 M6: countersink 90° to 13.44 mm, 3.42 mm deep into a hole of 6.60 mm."
    )


@pytest.mark.parametrize(
    ("text", "diameter", "message", "hint"),
    [
        (
            "ISO 10642 M6",
            None,
            "ISO 10642 M6 has a countersunk head, it has no counterbore",
            'screw_countersink("ISO 10642 M6")',
        ),
        (
            "ISO 4026 M6",
            None,
            "no standard counterbore is held for ISO 4026 M6",
            "it has no head: give the diameter of the counterbore above its thread",
        ),
        (
            "ISO 4762 M6",
            0.0,
            "diameter is 0 mm, it must be at least 0.5 mm and at most 500 mm",
            "",
        ),
    ],
)
def test_a_counterbore_that_cannot_be_is_refused(
    text: str, diameter: float | None, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        counterbore(screw(text), diameter)
    assert (str(refused.value), refused.value.hint) == (message, hint)


def test_a_countersink_is_for_countersunk_heads() -> None:
    with pytest.raises(TradeError, match="ISO 4762 M6 has no countersunk head"):
        screw_countersink(screw("ISO 4762 M6"))


# ---- property classes ------------------------------------------------------------------------


def test_a_class_changes_with_the_diameter() -> None:
    assert property_class("8.8", thread("M16")).proof_stress == 580
    assert property_class("8.8", thread("M20")).proof_stress == 600
    assert property_class("Grade 5", thread("1/2-13 UNC")).proof_stress == pytest.approx(586.1)


@pytest.mark.parametrize("row", table("screws_classes").rows, ids=lambda row: row["name"])
def test_proof_is_under_yield_and_yield_under_tensile(row: dict[str, str]) -> None:
    proof, yields, tensile = (float(row[f"{n}_mpa"]) for n in ("proof", "yield", "tensile"))
    assert proof <= yields < tensile


def test_a_class_describes_itself_and_a_hard_one_cautions() -> None:
    assert property_class("10.9").describe() == (
        "Class 10.9: proof stress 830 MPa, yield 940 MPa, tensile strength 1040 MPa, each at least."
    )
    assert property_class("12.9").cautions
    assert not property_class("10.9").cautions


@pytest.mark.parametrize(
    ("name", "of", "message"),
    [
        ("8.9", "M6", '"8.9" is no property class that is held'),
        ("", "M6", '"" is no property class that is held'),
        ("9.8", "M20", "class 9.8 goes to a diameter of 16 mm, the thread has 20 mm"),
    ],
)
def test_a_class_that_is_not_held_is_refused(name: str, of: str, message: str) -> None:
    with pytest.raises(TradeError) as refused:
        property_class(name, thread(of))
    assert str(refused.value) == message
