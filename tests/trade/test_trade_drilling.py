"""Allowances, drilling order, pilots, reamers and centre drills: good input, bad, identities."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.trade.declare import Size, TradeError
from shoplog.trade.hole_work import centre_drills as c
from shoplog.trade.limits_and_fits.iso286 import limits_of
from shoplog.trade.machining import drilling as d


def test_an_allowance_is_a_band_and_light_metal_has_half_as_much_again() -> None:
    steel, light = d.finishing_allowance(12), d.finishing_allowance(12, material="light metal")
    assert (steel.least, steel.most) == (0.2, 0.3)
    assert (light.least, light.most) == pytest.approx((0.3, 0.45))
    assert (light.smallest_before, light.largest_before) == pytest.approx((11.55, 11.7))


def test_boring_leaves_the_same_in_every_material() -> None:
    assert d.finishing_allowance(25, "bore", "tough") == d.finishing_allowance(25, "bore")


@given(st.floats(2, 100), st.sampled_from(["ream", "bore"]), st.sampled_from(list(d.MATERIALS)))
def test_the_last_drill_leaves_the_band_or_a_note_says_so(
    diameter: float, finish: str, material: str
) -> None:
    order = d.drilling_order(diameter, finish, material)
    band = order.allowance
    assert band is not None
    left = order.left - d.OVERCUT
    assert left >= band.least - 1e-6
    assert (left <= band.most + 1e-6) or any("no drill of the sets" in n for n in order.notes)


@given(st.floats(0.5, 100), st.floats(1, 30))
def test_drills_grow_and_no_step_after_the_pilot_is_over_the_most(
    diameter: float, most: float
) -> None:
    order = d.drilling_order(diameter, most_step=most)
    sizes = [each.diameter for each in order.drills]
    assert sizes == sorted(set(sizes))
    assert all(b - a <= most + 1e-6 for a, b in pairwise(sizes))
    assert order.last.diameter == pytest.approx(diameter, abs=0.51)


def test_small_holes_get_no_pilot_and_large_ones_one() -> None:
    assert d.drilling_order(10).designations == ("10.0 mm",)
    assert d.drilling_order(20).designations == ("3.3 mm", "20.0 mm")


def test_an_order_says_what_it_does_and_warns() -> None:
    order = d.drilling_order(16, "ream")
    assert order.describe() == "Drill 2.6 mm, 15.75 mm, then ream to 16 mm."
    assert order.notes == ("a twist drill is reckoned to cut 0.05 mm over its size",)
    assert [text.partition(":")[0] for text in order.cautions] == [
        "drilling",
        "a drill that opens up a hole grabs, most of all in brass, thin sheet and as it breaks"
        " through",
    ]
    assert len(d.drilling_order(8).cautions) == 1
    assert d.drilling_order(8).describe() == "Drill 8.0 mm."


def test_no_drill_in_the_band_is_noted() -> None:
    order = d.drilling_order(11, "ream", sets="letter")
    assert order.designations[-1] == "Z"
    assert order.notes[0] == (
        "no drill of the sets leaves 0.20 to 0.30 mm: the last one leaves 0.46 mm"
    )


@given(st.floats(1, 100))
def test_a_pilot_is_over_the_web_and_far_under_the_drill(diameter: float) -> None:
    pilot = d.pilot_drill(diameter).diameter
    assert d.WEB * diameter < pilot
    assert pilot <= max(0.2, 0.165 * diameter + 0.5)


@given(st.floats(1.1, 100), st.sampled_from(["H6", "H7", "H8", "F7", "D8", "G7"]))
def test_a_reamer_lies_within_its_hole(nominal: float, letters: str) -> None:
    hole = limits_of(nominal, letters)
    reamer = d.reamer_limits(hole)
    assert hole.min < reamer.min < reamer.max < hole.max


def test_a_centre_drill_is_read_in_every_way_it_is_written() -> None:
    texts = ["A 2.5", "a2.5", "A 2.5x5.3", "A 2.5/5.3"]
    assert {c.centre_drill(text).designation for text in texts} == {"A 2.5/5.3"}
    assert {c.centre_drill(text).designation for text in ["#4", "No. 4", "no 4"]} == {"#4"}


def test_centre_drills_describe_themselves() -> None:
    assert c.centre_drill("B 3.15").describe() == (
        "Centre drill B 3.15/6.7 (with protecting countersink): pilot 3.15 mm, 3.9 mm long, body"
        " 11.2 mm, cone 6.7 mm, centre hole 6.8 mm deep, protecting countersink 10 mm."
    )
    assert c.centre_drill("#2").describe() == (
        "Centre drill #2 (plain type): pilot 1.98 mm, 1.98 mm long, body 4.762 mm."
    )
    assert c.centre_drill("A 4").cautions[0].startswith("work between centres can leave them")


def test_a_pilot_is_narrower_than_its_cone_and_that_than_the_body() -> None:
    from shoplog.tables import table

    for row in table("centre_drills").rows:
        pilot, cone, body = (float(row[f"{name}_mm"]) for name in ("pilot", "cone", "body"))
        assert pilot < cone <= body, row
        assert 2.0 < cone / pilot < 2.2, row
        if row["protection_mm"]:
            assert cone < float(row["protection_mm"]) < body, row


@given(st.sampled_from(["A 1", "A 2.5", "A 6.3", "B 2", "#3"]), st.floats(0.01, 1))
def test_a_wider_cone_is_deeper(name: str, share: float) -> None:
    drill = c.centre_drill(name)
    cone = drill.pilot + share * (drill.largest_cone - drill.pilot)
    assert c.centre_depth(drill, cone) > drill.pilot_length
    assert c.centre_depth(drill, cone) <= c.centre_depth(drill, drill.largest_cone)


@given(st.floats(0.5, 100))
def test_the_cone_of_a_centre_is_smaller_than_the_work(diameter: float) -> None:
    drill = c.centre_drill_for(diameter)
    assert drill.pilot < diameter or diameter <= 0.5
    assert drill.cone is not None
    assert drill.cone < diameter or diameter < 2


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (lambda: d.finishing_allowance(12, "lap"), '"lap" is no finish', "finish"),
        (
            lambda: d.finishing_allowance(12, "ream", "cheese"),
            '"cheese" is no material',
            "material",
        ),
        (
            lambda: d.finishing_allowance(120),
            "diameter is 120 mm, it must be over 0 mm and at most 100 mm",
            "diameter",
        ),
        (
            lambda: d.finishing_allowance(0.1),
            "diameter is 0.1 mm, it must be over 0.2 mm",
            "diameter",
        ),
        (lambda: d.drilling_order(12, "punch"), '"punch" is no finish', "finish"),
        (lambda: d.drilling_order(12, material="x"), '"x" is no material', "material"),
        (
            lambda: d.drilling_order(5, "ream", sets="letter"),
            "no drill of the sets is under 4.850 mm",
            "sets",
        ),
        (
            lambda: d.drilling_order(25, most_step=0.1),
            "most step is 0.1 mm, it must be at least 0.5 mm and at most 100 mm",
            "most_step",
        ),
        (
            lambda: d.drilling_order(76.2, sets="fractional", most_step=0.6),
            "the sets have no drill from 1-3/4 in to 45.050 mm",
            "most_step",
        ),
        (
            lambda: d.pilot_drill(0),
            "diameter is 0 mm, it must be over 0 mm",
            "diameter",
        ),
        (
            lambda: d.reamer_limits(Size(10, 0.01, 0.01)),
            "the hole's tolerance is 0 mm, it must be over 0 mm",
            "hole",
        ),
        (lambda: c.centre_drill("Q 4"), "'Q 4' names no centre drill", "designation"),
        (lambda: c.centre_drill("#9"), "'#9' names no centre drill", "designation"),
        (lambda: c.centre_drill("B 0.5"), "there is no centre drill B 0.5", "designation"),
        (
            lambda: c.centre_drill_for(150),
            "work diameter is 150 mm, it must be over 0 mm and at most 100 mm",
            "work_diameter",
        ),
        (
            lambda: c.centre_drill_for(5, "B"),
            "work diameter is 5 mm, it must be over 6 mm",
            "work_diameter",
        ),
        (lambda: c.centre_drill_for(20, "C"), '"C" is no form', "form"),
        (
            lambda: c.centre_depth(c.centre_drill("A 2.5"), 8),
            "cone diameter is 8 mm, it must be over 2.5 mm and at most 6.3 mm (A 2.5/5.3)",
            "cone_diameter",
        ),
        (
            lambda: c.centre_depth(c.centre_drill("R 2.5"), 5),
            "R 2.5/5.3 has a curved flank, not a cone",
            "drill",
        ),
    ],
)
def test_wrong_input_is_refused_with_value_and_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as caught:
        call()
    assert str(caught.value) == message
    assert caught.value.argument == argument
