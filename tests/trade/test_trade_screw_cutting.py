"""Depth and passes of a thread, its tool, change wheels, and measurement over wires."""

from __future__ import annotations

from math import prod, radians, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from shoplog.trade.declare import OutOfRange, TradeError
from shoplog.trade.screw_threads.change_wheels import ChangeWheels, change_wheels
from shoplog.trade.screw_threads.over_wires import (
    over_wires,
    pitch_diameter_over_wires,
    thread_wires,
)
from shoplog.trade.screw_threads.screw_cutting import thread_infeed, threading_tool
from shoplog.trade.screw_threads.threads import Thread

INCH = 25.4
V_THREADS = ["M3", "M6", "M10x1.25", "M20-6g", "1/4-20 UNC", "1/2-13 UNC-2A", "1/4 BSW", "2 BA"]
WIRED = [*V_THREADS, "Tr 16x4", "1/2-10 ACME", "M16xPh3P1.5", "G1/2A"]


def thread(text: str) -> Thread:
    return Thread.from_text(text)


# ---- depth and passes ------------------------------------------------------------------------


def test_a_metric_thread_is_cut_17_24ths_of_h_deep_and_an_internal_one_5_8ths() -> None:
    one = thread("M10")
    assert thread_infeed(one).radial_depth == pytest.approx(17 / 24 * one.fundamental_height)
    inside = thread_infeed(thread("M10-6H"))
    assert inside.side == "internal"
    assert inside.radial_depth == pytest.approx(5 / 8 * one.fundamental_height)
    assert inside.blank_diameter == pytest.approx(8.376, abs=5e-4)


def test_the_compound_moves_further_than_the_cross_slide() -> None:
    cut = thread_infeed(thread("M10"), 4, compound_angle=30)
    assert cut.compound_depth == pytest.approx(cut.radial_depth / 0.8660254)
    assert cut.compound_total[-1] == pytest.approx(cut.compound_depth)
    assert sum(cut.compound_each) == pytest.approx(cut.compound_depth)


def test_a_sharp_tool_cuts_deeper_and_the_standard_nose_as_deep_as_the_standard() -> None:
    one = thread("M10")
    height = one.fundamental_height
    assert thread_infeed(one, nose_radius=0).radial_depth == pytest.approx(7 / 8 * height)
    assert thread_infeed(one, nose_radius=height / 6).radial_depth == pytest.approx(
        17 / 24 * height
    )
    whitworth = thread("1/2 BSW")
    radius = 0.137329 * whitworth.pitch
    sunk = thread_infeed(whitworth, nose_radius=radius).radial_depth
    assert sunk == pytest.approx(0.640327 * whitworth.pitch, rel=1e-5)


def test_no_pass_is_lighter_than_the_least_and_the_first_ones_take_what_is_left() -> None:
    cut = thread_infeed(thread("M10"), 12, least_pass=0.05)
    assert min(cut.each) == pytest.approx(0.05)
    assert cut.each == pytest.approx(sorted(cut.each, reverse=True))
    assert thread_infeed(thread("M10"), 1).each == (cut.radial_depth,)


@given(
    text=st.sampled_from(V_THREADS),
    passes=st.integers(1, 60),
    least=st.floats(0, 0.1),
    angle=st.floats(0, 23),
)
def test_the_passes_add_up_to_the_depth(text: str, passes: int, least: float, angle: float) -> None:
    one = thread(text)
    assume(passes * least <= thread_infeed(one).radial_depth)
    cut = thread_infeed(one, passes, angle, least)
    assert len(cut.each) == cut.passes == passes
    assert sum(cut.each) == pytest.approx(cut.radial_depth)
    assert min(cut.each) >= least - 1e-9
    assert list(cut.total) == sorted(cut.total)


@given(text=st.sampled_from(V_THREADS), passes=st.integers(1, 40))
def test_every_pass_takes_the_same_area_where_no_least_is_set(text: str, passes: int) -> None:
    cut = thread_infeed(thread(text), passes, least_pass=0)
    squares = [0.0, *(depth**2 for depth in cut.total)]
    areas = [now - then for now, then in zip(squares[1:], squares[:-1], strict=True)]
    assert areas == pytest.approx([areas[0]] * passes)


FLAT_ROOTS = ["Tr 16x4", "Tr 40x14(P7)LH-7H", "1/2-10 ACME external", "1/2-10 ACME internal"]


@pytest.mark.parametrize("text", ["Tr 10x2", "Tr 16x4", "Tr 16x4-7H", "Tr 32x6", "Tr 40x14(P7)LH"])
def test_a_trapezoidal_thread_has_the_depth_and_the_root_of_iso_2901(text: str) -> None:
    # ISO 2901: h3 = H4 = 0.5 P + ac, and a root of 0.366 P - 0.536 ac (DIN 103, from memory).
    one = thread(text)
    clearance = 0.25 if one.pitch <= 5 else 0.5
    cut = thread_infeed(one)
    assert cut.radial_depth == pytest.approx(0.5 * one.pitch + clearance)
    assert cut.tool_width == pytest.approx(0.366 * one.pitch - 0.536 * clearance, abs=2e-3)


def test_an_acme_thread_has_the_depth_and_the_root_of_asme_b1_5() -> None:
    # ASME B1.5: h = 0.5 P + 0.01 in, and a root of 0.3707 P - 0.0052 in (from memory).
    cut = thread_infeed(thread("1/2-10 ACME external"))
    assert cut.radial_depth / INCH == pytest.approx(0.060)
    assert cut.tool_width / INCH == pytest.approx(0.03707 - 0.0052, abs=5e-5)


@given(text=st.sampled_from(FLAT_ROOTS), passes=st.integers(1, 40))
def test_a_tool_with_a_flat_front_takes_the_same_area_in_every_pass(text: str, passes: int) -> None:
    one = thread(text)
    cut = thread_infeed(one, passes, least_pass=0)
    slope = tan(radians(one.flank_angle))
    areas = [0.0, *(cut.tool_width * depth + slope * depth**2 for depth in cut.total)]
    steps = [now - then for now, then in zip(areas[1:], areas[:-1], strict=True)]
    assert steps == pytest.approx([steps[0]] * passes)
    assert cut.total[-1] == pytest.approx(cut.radial_depth)


def test_a_flat_front_says_how_wide_it_is() -> None:
    assert thread_infeed(thread("Tr 16x4"), 20).notes[1] == (
        "the tool's front is 1.330 mm wide, the flat of the basic root; a chip so wide chatters:"
        " take more passes, or rough with a narrower tool"
    )
    assert thread_infeed(thread("M10")).tool_width == 0


def test_the_notes_tell_the_dial_the_class_and_the_scale() -> None:
    assert thread_infeed(thread("M10-6g"), compound_angle=29.5).notes == (
        "a dial that reads diameter counts twice the radial depth",
        "the compound's angle is counted from the square to the axis; where its scale is 0 along"
        " the bed, it is set to 60.5°",
        "its class has a major diameter of 9.732 to 9.968 mm",
        "the last pass is repeated without infeed until the tool cuts no more",
    )


def test_an_infeed_describes_itself() -> None:
    assert thread_infeed(thread("M6"), 3, 30).describe() == (
        "M6, external: 0.613 mm deep square to the axis, 0.708 mm along a compound at 30°, in 3"
        " passes of 0.354, 0.147, 0.113 mm square to the axis."
    )


@pytest.mark.parametrize(
    ("text", "given_", "message", "hint"),
    [
        (
            "Tr 16x4",
            {"nose_radius": 0.1},
            "Tr 16x4 has a flat root, to which a nose radius does not belong",
            "leave nose_radius out: the tool is as wide as the root",
        ),
        (
            "Tr 16x4",
            {"compound_angle": 16},
            "compound angle is 16 deg, it must be at least 0 deg and at most 15 deg (half the"
            " thread angle)",
            "a compound turned past the flank leaves steps on it",
        ),
        ("M6", {"passes": 0}, "passes is 0, it must be at least 1 and at most 60", ""),
        ("M6", {"passes": 61}, "passes is 61, it must be at least 1 and at most 60", ""),
        (
            "M6",
            {"passes": 10, "least_pass": 0.1},
            "10 passes of at least 0.1 mm are 1.000 mm, the thread is 0.613 mm deep",
            "6 passes at most, or a lighter least pass",
        ),
        (
            "M6",
            {"compound_angle": 31},
            "compound angle is 31 deg, it must be at least 0 deg and at most 30 deg (half the"
            " thread angle)",
            "a compound turned past the flank leaves steps on it",
        ),
        (
            "M6",
            {"nose_radius": 0.5},
            "nose radius is 0.5 mm, it must be at least 0 mm and at most 0.216506 mm (M6)",
            "a rounder nose leaves a root that the other part binds on",
        ),
        (
            "M6",
            {"least_pass": -1},
            "least pass is -1 mm, it must be at least 0 mm and at most 1 mm",
            "",
        ),
    ],
)
def test_what_cannot_be_cut_is_refused(
    text: str, given_: dict[str, float], message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        thread_infeed(thread(text), **given_)  # type: ignore[arg-type]
    assert (str(refused.value), refused.value.hint) == (message, hint)


def test_the_tool_leans_with_the_helix() -> None:
    tool = threading_tool(thread("M10"), 3)
    assert tool.helix_angle == pytest.approx(3.028, abs=1e-3)
    assert tool.root_helix_angle > tool.helix_angle
    assert tool.leading_clearance - tool.trailing_clearance == pytest.approx(
        2 * tool.root_helix_angle
    )
    assert (tool.leads_with, threading_tool(thread("M10-LH")).leads_with) == ("left", "right")
    assert tool.included_angle == 60
    assert tool.describe() == (
        "M10: helix 3.03° at the pitch diameter and 3.26° at the root; a tool of 60° with 6.3° of"
        " side clearance on the leading, left side and -0.3° on the other."
    )


def test_two_starts_have_twice_the_lead() -> None:
    one, two = threading_tool(thread("M16x1.5")), threading_tool(thread("M16xPh3P1.5"))
    assert two.helix_angle == pytest.approx(2 * one.helix_angle, rel=0.01)


# ---- over wires ------------------------------------------------------------------------------


@pytest.mark.parametrize("text", WIRED)
def test_the_best_wire_is_within_the_usable_ones(text: str) -> None:
    wires = thread_wires(thread(text))
    assert wires.least < wires.best < wires.most


@given(text=st.sampled_from(WIRED), share=st.floats(0, 1), off=st.floats(-0.2, 0.2))
def test_wires_there_and_back(text: str, share: float, off: float) -> None:
    one = thread(text)
    wires = thread_wires(one)
    wire = wires.least + share * (wires.most - wires.least)
    pitch = one.pitch_diameter + off * one.pitch
    there = over_wires(one, wire, pitch)
    back = pitch_diameter_over_wires(one, there.measurement, wire)
    assert back.pitch_diameter == pytest.approx(pitch, rel=1e-9)
    assert back.lead_correction == pytest.approx(there.lead_correction, abs=1e-6)


def test_a_class_gives_the_readings_between_which_the_thread_is_good() -> None:
    found = over_wires(thread("M10-6g"))
    assert (round(found.least or 0, 3), round(found.most or 0, 3)) == (10.163, 10.295)
    assert over_wires(thread("M10")).least is None
    middle = pitch_diameter_over_wires(thread("M10-6g"), found.least or 0)
    assert middle.pitch_diameter == pytest.approx(8.862, abs=5e-4)


def test_the_lead_correction_grows_with_the_starts_and_is_said() -> None:
    one, four = over_wires(thread("M16x1.5")), over_wires(thread("M16xPh6P1.5"))
    assert four.lead_correction == pytest.approx(16 * one.lead_correction)
    assert one.notes == ()
    assert four.notes == (
        "the lead adds 10.5 µm to the measurement; tables for single threads leave that out",
    )


def test_a_measurement_describes_itself() -> None:
    assert pitch_diameter_over_wires(thread("M10"), 10.30, 0.866).describe() == (
        "M10: 10.3000 mm over wires of 0.8660 mm is a pitch diameter of 8.9992 mm, -27 µm from the"
        " basic one (lead correction 1.8 µm)."
    )
    assert thread_wires(thread("M10")).describe() == (
        "M10: best wire 0.866 mm, usable from 0.758 to 1.516 mm."
    )


@pytest.mark.parametrize(
    ("text", "given_", "message"),
    [
        (
            "M10-6H",
            {},
            "M10-6H is an internal thread; wires measure an external one",
        ),
        ("1/2-14 NPT", {}, "1/2-14 NPT is a taper thread, on which wires tilt; it is not held"),
        (
            "M10",
            {"wire": 2.0},
            "wire is 2 mm, it must be at least 0.7578 mm and at most 1.5155 mm (M10)",
        ),
        ("M10", {"wire": 0.0}, "wire is 0 mm, it must be over 0 mm"),
        (
            "M10",
            {"pitch_diameter": 12.0},
            "the pitch diameter would be 12.000 mm; that of M10 is about 9.026 mm, between 8.376"
            " and 10.000 mm",
        ),
        (
            "M6xPh6P1",
            {},
            "the lead angle of M6xPh6P1 is over 10°, where the lead correction is not held",
        ),
    ],
)
def test_what_wires_do_not_measure_is_refused(
    text: str, given_: dict[str, float], message: str
) -> None:
    with pytest.raises(TradeError) as refused:
        over_wires(thread(text), **given_)
    assert str(refused.value) == message


@pytest.mark.parametrize("reading", [0.0, 9.0, 14.0, 1e9])
def test_a_reading_of_another_thread_is_refused(reading: float) -> None:
    with pytest.raises(TradeError, match="the pitch diameter would be") as refused:
        pitch_diameter_over_wires(thread("M10"), reading)
    assert refused.value.argument == "measurement"
    assert refused.value.hint == "check the reading, the wires and the pitch"


# ---- change wheels ---------------------------------------------------------------------------


def trains_or_none(
    wanted: float, leadscrew: float, wheels: list[int], length: float, clear: int
) -> ChangeWheels | None:
    """What is found, or nothing where no train comes near; any other refusal goes on."""
    try:
        return change_wheels(wanted, leadscrew, wheels, length, clear_teeth=clear)
    except TradeError as refused:
        if "no train of these wheels" not in str(refused):
            raise
        return None


SET = [20, 25, 30, 35, 40, 45, 50, 55, 60, 63, 65, 70, 75, 80]


def test_an_exact_train_comes_first_and_the_simple_one_before_the_compound() -> None:
    found = change_wheels(thread("M10"), 3, SET)
    assert found.best.exact
    assert not found.best.compound
    assert found.best.ratio == pytest.approx(0.5)
    assert found.error == pytest.approx(0)


def test_a_set_without_127_makes_a_metric_thread_nearly() -> None:
    found = change_wheels(1.5, "8 tpi", SET, length=20)
    assert not found.best.exact
    assert found.best.describe() == (
        "drivers/driven 30/50 × 63/80: lead 1.50019 mm, +2.5 µm over 20 mm."
    )
    assert abs(found.error) < 3
    with_127 = change_wheels(1.5, "8 tpi", [*SET, 127], length=20)
    assert with_127.best.exact
    assert 127 in with_127.driven


@given(
    wheels=st.lists(st.integers(16, 130), min_size=2, max_size=30),
    wanted=st.floats(0.2, 6),
    leadscrew=st.floats(1, 6),
    length=st.floats(1, 100),
    clear=st.integers(0, 20),
)
def test_every_train_cuts_the_ratio_of_its_wheels_and_meshes(
    wheels: list[int], wanted: float, leadscrew: float, length: float, clear: int
) -> None:
    found = trains_or_none(wanted, leadscrew, wheels, length, clear)
    if found is None:
        return
    errors = [round(abs(train.lead / wanted - 1), 9) for train in found.trains]
    assert errors == sorted(errors)
    assert errors[0] <= 0.01
    for train in found.trains:
        used = [*train.drivers, *train.driven]
        assert all(used.count(teeth) <= wheels.count(teeth) for teeth in used)
        assert train.lead / leadscrew == pytest.approx(prod(train.drivers) / prod(train.driven))
        assert train.ratio == pytest.approx(train.lead / leadscrew)
        assert train.error == pytest.approx(1000 * length * (train.lead / wanted - 1), abs=1e-6)
        if train.compound:
            (first, second), (low, last) = train.drivers, train.driven
            assert first + low >= second + clear
            assert second + last >= low + clear


def test_no_better_train_is_missed_where_all_can_be_tried() -> None:
    wheels, wanted = [20, 28, 33, 41, 47, 59, 63], 1.27
    found = change_wheels(wanted, 3, wheels, clear_teeth=0)
    tried = [a / b for a in wheels for b in wheels if a != b]
    tried += [
        a * c / (b * d)
        for a in wheels
        for b in wheels
        for c in wheels
        for d in wheels
        if len({a, b, c, d}) == 4
    ]
    best = min(abs(3 * ratio / wanted - 1) for ratio in tried)
    assert abs(found.lead / wanted - 1) == pytest.approx(best, abs=1e-9)


def test_limits_on_two_meshing_wheels_are_kept() -> None:
    found = change_wheels(1.5, 3, [20, 25, 40, 50, 60], least_sum=75, most_sum=80)
    assert found.best.compound is False  # with an idler from the wheels left over
    only = change_wheels(1.5, 3, [25, 50], least_sum=75, most_sum=80)
    assert only.drivers == (25,)
    with pytest.raises(TradeError) as refused:
        change_wheels(1.5, 3, [20, 40], least_sum=75, most_sum=80)
    assert str(refused.value) == (
        "no train of these wheels that meshes comes within 1 % of a lead of 1.5 mm"
    )


def test_wheels_twice_on_hand_are_two_wheels() -> None:
    assert change_wheels(3, 3, [40, 40]).best.ratio == 1
    with pytest.raises(TradeError):
        change_wheels(3, 3, [40, 50])


@pytest.mark.parametrize(
    "wheels", [list(range(271, 301)), list(range(10, 40)), [30] * 30, [*range(286, 301)] * 2]
)
def test_any_thirty_wheels_are_worked_through(wheels: list[int]) -> None:
    assert len(change_wheels(3.0, 3.0, wheels, clear_teeth=0).trains) <= 8


@pytest.mark.parametrize(
    ("given_", "message", "hint"),
    [
        (
            {"thread": 1.27, "leadscrew": 3.0, "wheels": [20, 30, 40]},
            "no train of these wheels that meshes comes within 1 % of a lead of 1.27 mm; the"
            " nearest simple one cuts 1.5000 mm",
            "drivers to driven must be as 127 to 300; or the limits on the wheels are too narrow",
        ),
        (
            {"thread": 1.5, "leadscrew": 3.0, "wheels": [20]},
            "there is 1 wheel, it must be 2 to 30",
            "leave out those that no train will use",
        ),
        (
            {"thread": 1.5, "leadscrew": 3.0, "wheels": [20] * 31},
            "there are 31 wheels, it must be 2 to 30",
            "leave out those that no train will use",
        ),
        (
            {"thread": 1.5, "leadscrew": 3.0, "wheels": [20, 0]},
            "a wheel has 0 teeth, it must be a whole number from 10 to 300",
            "",
        ),
        (
            {"thread": 1.5, "leadscrew": "coarse", "wheels": [20, 40]},
            '"coarse" is no leadscrew',
            'write 3 mm or "8 tpi"',
        ),
        (
            {"thread": 1.5, "leadscrew": "3 cm", "wheels": [20, 40]},
            '"3 cm" is no leadscrew',
            'write 3 mm or "8 tpi"',
        ),
        (
            {"thread": 1.5, "leadscrew": "1/0 in", "wheels": [20, 40]},
            '"1/0 in" is no leadscrew',
            'write 3 mm or "8 tpi"',
        ),
        (
            {"thread": 1.5, "leadscrew": "60 mm", "wheels": [20, 40]},
            "leadscrew is 60 mm, it must be at least 0.5 mm and at most 50 mm",
            "",
        ),
        (
            {"thread": 1.5, "leadscrew": "0 tpi", "wheels": [20, 40]},
            "leadscrew is 0 threads per inch, it must be at least 0.5 threads per inch and at most"
            " 50 threads per inch",
            "",
        ),
        (
            {"thread": 0.0, "leadscrew": 3.0, "wheels": [20, 40]},
            "thread is 0 mm, it must be at least 0.05 mm and at most 100 mm",
            "",
        ),
        (
            {"thread": 1.5, "leadscrew": 1e100, "wheels": [20, 40]},
            "leadscrew is 1e+100 mm, it must be at least 0.5 mm and at most 50 mm",
            "",
        ),
    ],
)
def test_wheels_that_cannot_do_it_are_refused(
    given_: dict[str, object], message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        change_wheels(**given_)  # type: ignore[arg-type]
    assert (str(refused.value), refused.value.hint) == (message, hint)


@pytest.mark.parametrize(
    ("text", "lead"),
    [("3 mm", 3.0), ("1.5mm", 1.5), ("1/8 in", 3.175), ("0.125 in", 3.175), ("8 tpi", 3.175)],
)
def test_a_leadscrew_may_be_the_text_of_a_shop_profile(text: str, lead: float) -> None:
    assert change_wheels(lead / 2, text, [20, 40]).leadscrew == pytest.approx(lead)


def test_out_of_range_is_told_with_its_limits() -> None:
    with pytest.raises(OutOfRange) as refused:
        change_wheels(1.5, 3.0, [20, 40], length=0)
    assert refused.value.bounds["at least"] == 0.1
