"""Circlips, pins, O-rings and countersinks: good input, bad input, identities, and what mates."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import Size, TradeError
from shoplog.trade.fastening import circlips as c
from shoplog.trade.fastening import countersinks as s
from shoplog.trade.fastening import o_rings as o
from shoplog.trade.fastening import pins as p
from shoplog.trade.limits_and_fits.iso286 import limits_of

shaft_sizes = [float(row["diameter_mm"]) for row in table("circlips_shaft").rows]
bore_sizes = [float(row["diameter_mm"]) for row in table("circlips_bore").rows]


def test_a_shaft_circlip_has_its_groove_with_limits() -> None:
    ring = c.circlip_for_shaft(25)
    assert ring.groove == Size(23.9, -0.21, 0.0)
    assert ring.groove_width == limits_of(1.3, "H13")
    assert ring.groove_depth == pytest.approx(0.55)
    assert ring.describe() == (
        "DIN 471 - 25 x 1.2: groove 23.9 mm 0/-0.21 mm in diameter, 1.3 mm +0.14/0 mm wide, 1.7 mm"
        " from the end at least; it bears 7.05 kN."
    )
    assert ring.cautions == (
        "a circlip springs off the pliers: wear eye protection, keep a hand or a rag over it, and"
        " use pliers whose points fit the holes",
    )
    assert ring.notes == (c.AXIAL_USE,)


def test_a_bore_circlip_bears_what_the_weaker_of_ring_and_groove_bears() -> None:
    ring = c.circlip_for_bore(32)
    assert (ring.groove_load, ring.ring_load, ring.load) == (14.6, 13.8, 13.8)
    assert ring.groove == Size(33.7, 0.0, 0.25)


@pytest.mark.parametrize("diameter", shaft_sizes)
def test_a_groove_in_a_shaft_is_smaller_than_the_shaft_and_larger_than_the_free_ring(
    diameter: float,
) -> None:
    ring = c.circlip_for_shaft(diameter)
    assert ring.ring_free < ring.groove.max < diameter
    assert ring.clear > diameter
    assert ring.groove_width.min > ring.thickness


@pytest.mark.parametrize("diameter", bore_sizes)
def test_a_groove_in_a_bore_is_larger_than_the_bore_and_smaller_than_the_free_ring(
    diameter: float,
) -> None:
    ring = c.circlip_for_bore(diameter)
    assert diameter < ring.groove.min < ring.ring_free
    assert ring.clear < diameter
    assert ring.groove_width.min > ring.thickness


@pytest.mark.parametrize("name", ["circlips_shaft", "circlips_bore", "circlips_radial"])
def test_larger_circlips_are_never_thinner(name: str) -> None:
    rows = table(name).rows
    for one, other in pairwise(rows):
        assert float(one["thickness_mm"]) <= float(other["thickness_mm"])
        assert float(one["groove_mm"]) < float(other["groove_mm"])


def test_the_wall_behind_a_groove() -> None:
    assert c.groove_wall(c.circlip_for_shaft(25), 12) == pytest.approx((23.69 - 12) / 2)
    assert c.groove_wall(c.circlip_for_shaft(25), 0) == pytest.approx(23.69 / 2)
    assert c.groove_wall(c.circlip_for_bore(32), 40) == pytest.approx((40 - 33.95) / 2)


def test_a_retaining_washer_is_the_largest_for_the_shaft_or_the_one_asked() -> None:
    washer = c.retaining_washer(10)
    assert washer.designation == "DIN 6799 - 9"
    assert washer.describe() == (
        "DIN 6799 - 9 on 10 mm: groove 9 mm 0/-0.09 mm in diameter, 1.15 mm +0.08/0 mm wide, 2 mm"
        " from the end at least; 18.8 mm over all."
    )
    assert washer.shoulder == 0.5
    assert c.retaining_washer(10, 7).designation == "DIN 6799 - 7"
    assert washer.cautions[0].startswith("a retaining washer springs off its groove")


@given(st.floats(1.4, 42))
def test_every_shaft_of_the_table_has_a_washer_that_leaves_a_shoulder(diameter: float) -> None:
    assert c.retaining_washer(diameter).shoulder > 0


def test_a_dowel_has_a_hole_that_holds_it_and_one_that_slips() -> None:
    pin = p.parallel_pin(6)
    assert (pin.size, pin.hole, pin.slip_hole) == (
        limits_of(6, "m6"),
        limits_of(6, "H7"),
        limits_of(6, "F7"),
    )
    assert pin.fit.kind == "transition"
    assert pin.slip_hole.min > pin.hole.min
    assert pin.describe() == (
        "ISO 8734 - 6 m6: 6.004 to 6.012 mm, hole H7 6.000 to 6.012 mm; in the part that comes off"
        " F7 6.010 to 6.022 mm."
    )
    assert len(pin.cautions) == 2
    assert len(p.parallel_pin(6, "ISO 2338", "h8").cautions) == 1


def test_a_spring_pin_is_larger_than_the_hole_that_it_is_driven_into() -> None:
    for kind in ("slotted", "coiled"):
        for row in table("pins_spring").rows:
            if row["kind"] == kind:
                pin = p.spring_pin(float(row["diameter_mm"]), kind)
                assert pin.squeeze.min > 0, row
                assert pin.squeeze.max < 0.35 * pin.diameter, row


def test_a_spring_pin_describes_itself() -> None:
    assert p.spring_pin(4).describe() == (
        "ISO 8752 - 4: hole 4.000 to 4.120 mm, pin 4.4 to 4.6 mm before it is driven in, wall"
        " 0.8 mm; 11.24 kN in double shear."
    )


@pytest.mark.parametrize(
    ("pin", "hole", "why"),
    [
        (p.parallel_pin(6), limits_of(6, "H7"), ""),
        (p.parallel_pin(6), limits_of(8, "H7"), "the diameters differ: pin 6 mm, hole 8 mm"),
        (p.spring_pin(4), limits_of(4, "H12"), ""),
        (p.spring_pin(4), limits_of(4, "H11"), ""),
        (
            p.spring_pin(4),
            limits_of(4, "H13"),
            "the hole is 4.000 to 4.180 mm, ISO 8752 - 4 wants 4.000 to 4.120 mm (H12)",
        ),
        (p.spring_pin(5), limits_of(4, "H12"), "the diameters differ: pin 5 mm, hole 4 mm"),
    ],
)
def test_pins_mate_with_the_hole_of_their_size(
    pin: p.ParallelPin | p.SpringPin, hole: Size, why: str
) -> None:
    assert p.pins_mate(pin, hole) == why


def test_an_o_ring_by_its_number_however_written() -> None:
    assert o.o_ring("14") == o.o_ring("-014") == o.o_ring(" 014 ")
    assert o.o_ring("214").describe() == (
        "O-ring 214: inside 24.99 mm ±0.25 mm, section 3.53 mm ±0.1 mm."
    )


def test_o_rings_of_a_section_grow_and_have_a_groove() -> None:
    rows = table("o_rings_as568").rows
    for one, other in pairwise(rows):
        assert int(other["dash"]) > int(one["dash"])
        if one["section_mm"] == other["section_mm"]:
            assert float(one["inside_mm"]) < float(other["inside_mm"])
    for section in {row["section_mm"] for row in rows}:
        assert o.o_ring_groove(float(section)).squeeze_min > 0


@pytest.mark.parametrize("duty", o.DUTIES)
@pytest.mark.parametrize("name", ["o_ring_grooves_inch", "o_ring_grooves_metric"])
def test_every_groove_squeezes_its_ring_and_is_wider_than_it(name: str, duty: str) -> None:
    for row in table(name).rows:
        section = float(row["section_mm"])
        if duty == "dynamic" and not row.get("dynamic_depth_mm", "-"):
            continue
        groove = o.o_ring_groove(section, duty)
        assert 5 < groove.squeeze_min < groove.squeeze_max < 40, row
        assert groove.width.min > section, row
        # The ring's section must have room in the groove when it swells.
        assert groove.width.min * groove.depth.min > 0.785 * section**2, row


def test_a_dynamic_groove_squeezes_less_than_a_static_one() -> None:
    for section in (1.78, 2, 2.62, 3, 3.53, 5, 5.33, 6.99, 7):
        moving, still = o.o_ring_groove(section, "dynamic"), o.o_ring_groove(section)
        assert moving.squeeze_max < still.squeeze_max


def test_a_groove_describes_itself() -> None:
    assert o.o_ring_groove(3, "face").describe() == (
        "Groove for a section of 3 mm (face): 2.300 to 2.400 mm deep, 4.000 to 4.200 mm wide,"
        " corners to 0.8 mm; squeeze 20 to 23 %."
    )
    assert o.o_ring_groove(3, "face").notes == (
        "in a flat face the depth of the groove is the whole depth",
    )


@given(st.floats(10, 300), st.sampled_from([1.78, 2, 2.62, 3.53]), st.sampled_from(["static"]))
def test_the_floor_on_a_piston_is_the_bore_less_twice_the_depth(
    bore: float, section: float, duty: str
) -> None:
    floor, depth = o.o_ring_on_piston(bore, section, duty), o.o_ring_groove(section, duty).depth
    assert (bore - floor.max) / 2 == pytest.approx(depth.min)
    assert (bore - floor.min) / 2 == pytest.approx(depth.max)


@given(st.floats(3, 300), st.sampled_from([1.78, 2, 2.62, 3.53]))
def test_the_floor_about_a_rod_is_the_rod_and_twice_the_depth(rod: float, section: float) -> None:
    floor, depth = o.o_ring_in_bore(rod, section), o.o_ring_groove(section).depth
    assert (floor.min - rod) / 2 == pytest.approx(depth.min)
    assert (floor.max - rod) / 2 == pytest.approx(depth.max)


def test_the_stretch_of_a_ring() -> None:
    assert o.o_ring_stretch(o.o_ring("210"), 18.64 * 1.03) == pytest.approx(3)


@given(st.floats(0.1, 50), st.floats(0, 50), st.floats(20, 150))
def test_depth_and_diameter_of_a_countersink_there_and_back(
    depth: float, hole: float, angle: float
) -> None:
    diameter = s.countersink_diameter(depth, hole, angle)
    assert s.countersink_depth(diameter, hole, angle) == pytest.approx(depth, rel=1e-6)


def test_a_countersink_for_a_screw() -> None:
    sink = s.countersink_for("m5")
    assert sink.describe() == (
        "M5: countersink 10.4 mm at 90°, 2.450 mm deep, over a hole of 5.5 mm."
    )
    assert sink.depth == pytest.approx(s.countersink_depth(10.4, 5.5))


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: c.circlip_for_shaft(2),
            "diameter is 2 mm, it must be at least 3 mm and at most 100 mm (DIN 471)",
            "diameter",
        ),
        (lambda: c.circlip_for_shaft(23), "DIN 471 has no circlip for 23 mm", "diameter"),
        (lambda: c.circlip_for_bore(25.4), "DIN 472 has no circlip for 25.4 mm", "diameter"),
        (
            lambda: c.retaining_washer(50),
            "diameter is 50 mm, it must be at least 1.4 mm and at most 42 mm (DIN 6799)",
            "diameter",
        ),
        (
            lambda: c.retaining_washer(10, 3.2),
            "DIN 6799 has no washer of 3.2 mm for a shaft of 10 mm",
            "groove",
        ),
        (
            lambda: c.groove_wall(c.circlip_for_shaft(25), 24),
            "other diameter is 24 mm, it must be at least 0 mm and below 23.69 mm",
            "other_diameter",
        ),
        (
            lambda: c.groove_wall(c.circlip_for_bore(32), 33),
            "other diameter is 33 mm, it must be over 33.95 mm",
            "other_diameter",
        ),
        (lambda: p.parallel_pin(7), "ISO 8734 has no pin of 7 mm", "diameter"),
        (
            lambda: p.parallel_pin(6, "DIN 7"),
            '"DIN 7" is no standard of parallel pins',
            "standard",
        ),
        (
            lambda: p.parallel_pin(6, "ISO 8734", "h8"),
            "ISO 8734 has no class h8",
            "tolerance_class",
        ),
        (lambda: p.spring_pin(4, "split"), '"split" is no kind of spring pin', "kind"),
        (lambda: p.spring_pin(1, "coiled"), "ISO 8748 has no pin of 1 mm", "diameter"),
        (lambda: o.o_ring("100"), 'the table has no O-ring "100"', "dash"),
        (lambda: o.o_ring_groove(3, "rotary"), '"rotary" is no duty of an O-ring', "duty"),
        (
            lambda: o.o_ring_groove(3.2),
            "the tables have no groove for a section of 3.2 mm",
            "section",
        ),
        (
            lambda: o.o_ring_groove(8),
            "section is 8 mm, it must be at least 1 mm and at most 7 mm",
            "section",
        ),
        (
            lambda: o.o_ring_groove(1, "dynamic"),
            "a section of 1 mm is too thin for moving parts",
            "section",
        ),
        (
            lambda: o.o_ring_on_piston(5, 3.53),
            "bore is 5 mm, it must be over 5.9 mm",
            "bore",
        ),
        (lambda: o.o_ring_in_bore(0, 3.53), "rod is 0 mm, it must be over 0 mm", "rod"),
        (lambda: o.o_ring_on_piston(50, 3.53, "face"), "a groove in a face has no bore", "duty"),
        (
            lambda: o.o_ring_stretch(o.o_ring("210"), 18),
            "groove diameter is 18 mm, it must be at least 18.64 mm and at most 27.96 mm"
            " (O-ring 210)",
            "groove_diameter",
        ),
        (
            lambda: s.countersink_depth(5, 6),
            "hole is 6 mm, it must be at least 0 mm and at most 5 mm",
            "hole",
        ),
        (
            lambda: s.countersink_depth(5, 2, 180),
            "angle is 180 deg, it must be at least 1 deg and below 180 deg",
            "angle",
        ),
        (lambda: s.countersink_for("M12"), 'there is no countersink for "M12"', "size"),
    ],
)
def test_wrong_input_is_refused_with_value_and_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as caught:
        call()
    assert str(caught.value) == message
    assert caught.value.argument == argument
