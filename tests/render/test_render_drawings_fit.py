"""A fit's picture: its zones, limits and plays, read back from what is drawn."""

from math import isclose

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.declare import Size
from shoplog.trade.limits_and_fits.bearings import bearing_shaft_seat
from shoplog.trade.limits_and_fits.fit_duties import fit_for
from shoplog.trade.limits_and_fits.fits import fit, limits_of
from shoplog.trade.limits_and_fits.inch_fits import inch_fit

FITS = {
    "clearance": fit(limits_of(16, "H7"), limits_of(16, "f7")),
    "transition": fit(limits_of(30, "H7"), limits_of(30, "k6")),
    "interference": fit(limits_of(30, "H7"), limits_of(30, "p6")),
    "wide": fit(limits_of(25, "H11"), limits_of(25, "c11")),
    "thin and far": fit(Size(10, 0, 0.0005), Size(10, -0.4, -0.3995)),
    "large and fine": fit(Size(500, 0, 0.005), Size(500, -0.005, 0)),
    "no zones": fit(Size(10, 0.02, 0.02), Size(10, -0.01, -0.01)),
    "line to line": fit(Size(10, 0, 0.01), Size(10, -0.01, 0)),
    "equal": fit(Size(10, 0.02, 0.02), Size(10, 0.02, 0.02)),
}


def edges(drawn, name):
    zone = drawn.told(f"{name}_zone")
    return zone.bottom, zone.top


@pytest.mark.parametrize("found", FITS.values(), ids=FITS)
def test_the_zones_are_the_limits_to_scale_about_the_zero_line(found):
    drawn = Drawn(found)
    zero = drawn.told("zero").points[0][1]
    heights = [zero - edge for name in ("hole", "shaft") for edge in edges(drawn, name)]
    sizes = (found.hole, found.shaft)
    deviations = [1000 * edge for size in sizes for edge in (size.lower, size.upper)]
    largest = max(range(4), key=lambda number: abs(deviations[number]))
    scale = heights[largest] / deviations[largest] if deviations[largest] else 1
    assert scale > 0
    for height, deviation in zip(heights, deviations, strict=True):
        assert isclose(height, deviation * scale, abs_tol=0.02)


def test_the_zones_are_as_high_to_each_other_as_their_tolerances():
    drawn = Drawn(FITS["transition"])
    hole, shaft = drawn.told("hole_zone"), drawn.told("shaft_zone")
    assert (hole.value, round(shaft.value, 9)) == (21, 13)
    assert isclose(hole.tall / shaft.tall, 21 / 13, rel_tol=1e-3)


@pytest.mark.parametrize("found", FITS.values(), ids=FITS)
def test_the_arrows_reach_over_the_least_and_the_greatest_clearance(found):
    drawn = Drawn(found)
    hole, shaft = edges(drawn, "hole"), edges(drawn, "shaft")
    for name, play, ends in (
        ("clearance_min", found.clearance_min, (hole[0], shaft[1])),
        ("clearance_max", found.clearance_max, (hole[1], shaft[0])),
    ):
        told = drawn.told(name)
        assert isclose(told.value, play, abs_tol=1e-9)
        assert told.unit == "um"
        assert sorted(y for _, y in told.points) == sorted(ends)
        # The shaft's edge lies below the hole's where there is clearance.
        assert (ends[1] - ends[0]) * play >= 0


def test_the_deviations_are_told_beside_the_zones_and_the_play_in_the_key_in_both_systems():
    drawn = Drawn(FITS["clearance"])
    assert {"hole H7", "shaft f7", "+18 µm", "−16 µm", "−34 µm", "0", "A", "B"} <= set(drawn.words)
    assert drawn.key == [
        ("hole H7", "16.000 to 16.018 mm", "0.6299 to 0.6306 in"),
        ("shaft f7", "15.966 to 15.984 mm", "0.6286 to 0.6293 in"),
        ("A: least clearance", "16 µm", "0.6 thou"),
        ("B: greatest clearance", "52 µm", "2.0 thou"),
    ]


def test_the_deviations_stand_in_the_other_system_too():
    assert Drawn(FITS["clearance"]).others == ["−0.6 thou", "−1.3 thou", "+0.7 thou"]
    inch = Drawn(inch_fit("RC3", 1.0))
    assert inch.others == ["−20 µm", "−33 µm", "+20 µm"]
    assert {"+0.8 thou", "0"} <= set(inch.words_in("inch"))
    assert {"+20 µm", "0"} <= set(inch.words_in("mm"))


def test_the_edges_of_a_thin_zone_are_told_apart_in_both_systems():
    drawn = Drawn(FITS["thin and far"])
    assert {"−399.5 µm", "−400 µm", "+0.5 µm"} <= set(drawn.words)
    assert drawn.others == ["−15.73 thou", "−15.75 thou", "+0.02 thou"]


def test_an_interference_is_called_one():
    names = [row[:2] for row in Drawn(FITS["interference"]).key][2:]
    assert names == [("A: greatest interference", "35 µm"), ("B: least interference", "1 µm")]


def test_limits_that_differ_by_half_a_micrometre_are_told_apart():
    assert Drawn(FITS["thin and far"]).key[0][1] == "10.0000 to 10.0005 mm"


def test_hole_and_shaft_are_told_apart_by_their_hatching_and_their_names():
    drawn = Drawn(FITS["clearance"])
    turns = [part.get("patternTransform") for part in drawn.svg.iter() if "pattern" in part.tag]
    assert turns == ["rotate(45)", "rotate(135)"]
    fills = [part.get("fill") for part in drawn.svg.iter() if "url" in part.get("fill", "")]
    assert fills == ["url(#drawing-rising)", "url(#drawing-falling)"]


def test_an_inch_fit_is_told_in_inches_first():
    found = inch_fit("RC3", 1.0)
    drawn = Drawn(found)
    assert drawn.told("clearance_min").value == pytest.approx(found.clearance_min * 25.4)
    assert {"+0.8 thou", "−0.8 thou", "−1.3 thou"} <= set(drawn.words)
    assert drawn.key[0] == ("hole", "1.0000 to 1.0008 in", "25.400 to 25.420 mm")
    assert drawn.key[2] == ("A: least clearance", "0.8 thou", "20 µm")
    title = drawn.svg.find("{http://www.w3.org/2000/svg}title").text
    assert title == "Tolerance zones of 1 in RC3"


def test_a_fit_for_a_duty_and_a_bearings_seat_are_drawn_as_their_fits():
    duty, seat = fit_for("runs freely", 20), bearing_shaft_seat(25)
    for found in (duty, seat):
        assert (
            Drawn(found).html.partition("<figcaption")[0]
            == (Drawn(found.fit).html.partition("<figcaption")[0])
        )


@pytest.mark.parametrize("found", FITS.values(), ids=FITS)
def test_no_words_meet_and_nothing_leaves_the_frame(found):
    drawn = Drawn(found)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@given(st.lists(st.integers(-900_000, 900_000), min_size=4, max_size=4))
def test_any_two_sizes_are_drawn_without_a_fault(micrometres):
    one, two, three, four = (micrometre / 1000 for micrometre in micrometres)
    assume(not one == two == 0 and not three == four == 0)  # a size without limits
    hole = Size(2000, min(one, two), max(one, two))
    shaft = Size(2000, min(three, four), max(three, four))
    assert faults(Drawn(fit(hole, shaft))) == []
