"""Pictures of flats on a round and of a square hole, read back from what is drawn."""

from math import hypot, isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.hole_work.d_shafts import flatted_round
from shoplog.trade.hole_work.flats import polygon_on_round, round_for_polygon, square_hole

ROUNDS = {
    "D-shaft": flatted_round(6, 1.5),
    "two flats": flatted_round(20, 3, 2),
    "half": flatted_round(10, 5),
    "shallow": flatted_round(1000, 0.001),
}
POLYGONS = {
    "hexagon": round_for_polygon(17),
    "rounded square": polygon_on_round(20, 4, 15),
    "pentagon": round_for_polygon(17, 5),
    "triangle": round_for_polygon(10, 3),
    "a hundred": round_for_polygon(17, 100),
    "scratched": polygon_on_round(100, 6, 99.9999),
}


@pytest.mark.parametrize("name", ["D-shaft", "two flats", "half"])
def test_a_flat_is_as_wide_and_as_deep_as_it_is_to_scale(name):
    found = ROUNDS[name]
    drawn = Drawn(found)
    scale = 2 * float(drawn.told("diameter").element.get("r")) / found.diameter
    for field in ("width", "depth", "across"):
        told = drawn.told(field)
        assert told.value == pytest.approx(getattr(found, field))
        assert isclose(told.length, told.value * scale, abs_tol=0.03)


def test_a_shallow_flat_says_that_it_is_drawn_deeper():
    drawn = Drawn(ROUNDS["shallow"])
    said = float(drawn.html.partition("The depth of the flats is drawn ")[2].partition(" ")[0])
    scale = 2 * float(drawn.told("diameter").element.get("r")) / 1000
    assert isclose(drawn.told("depth").length, 0.001 * scale * said, rel_tol=0.01)


@pytest.mark.parametrize("name", ["hexagon", "rounded square", "pentagon", "triangle"])
def test_a_polygon_has_its_sides_at_their_distance_to_scale(name):
    found = POLYGONS[name]
    drawn = Drawn(found)
    circle = drawn.told("diameter").element
    centre = float(circle.get("cx")), float(circle.get("cy"))
    scale = 2 * float(circle.get("r")) / found.diameter
    flats = [drawn.told("sides").points[n : n + 2] for n in range(0, 2 * found.sides, 2)]
    if found.full:  # the corners are sharp, so no arc stands between two flats
        corners = drawn.told("sides").points
        assert all(
            isclose(hypot(x - centre[0], y - centre[1]), found.corners / 2 * scale, abs_tol=0.03)
            for x, y in corners
        )
    (x, y), (x2, y2) = flats[0]
    assert isclose(y, y2, abs_tol=0.01)
    assert isclose(centre[1] - y, found.across_flats / 2 * scale, abs_tol=0.03)
    assert isclose(abs(x2 - x), found.flat_width * scale, abs_tol=0.03)
    size = drawn.told("flat_to_flat" if found.sides % 2 == 0 else "over_round")
    assert isclose(size.length, size.value * scale, abs_tol=0.03)


def test_the_key_names_across_flats_and_across_corners_in_both_systems():
    key = Drawn(POLYGONS["hexagon"]).key
    assert ("across flats", "17.000 mm", "0.6693 in") in key
    assert ("across corners, sharp", "19.630 mm", "0.7728 in") in key
    assert ("turn from flat to flat", "60°") in key


def test_a_square_hole_is_drawn_with_the_drill_that_goes_before_it():
    found = square_hole(10)
    drawn = Drawn(found)
    side, drill = drawn.told("side"), drawn.told("drill")
    assert (side.value, drill.value) == (10, 9.9)
    assert isclose(drill.wide / side.wide, 0.99, rel_tol=1e-3)
    assert ("left in each corner", "2.121 mm", "0.0835 in") in drawn.key


@pytest.mark.parametrize(
    ("found", "words", "others"),
    [
        (
            ROUNDS["two flats"],
            ["3", "14.283", "14", "Ø20"],
            ["0.1181 in", "0.5623 in", "0.5512 in", "Ø0.7874 in"],
        ),
        (
            POLYGONS["hexagon"],
            ["1.315", "17", "9.815", "Ø19.63"],
            ["0.0518 in", "0.6693 in", "0.3864 in", "Ø0.7728 in"],
        ),
        (square_hole(10), ["Ø9.9 drill", "10"], ["Ø0.3898 in drill", "0.3937 in"]),
    ],
)
def test_every_size_is_told_in_both_systems(found, words, others):
    drawn = Drawn(found)
    assert sorted(drawn.words) == sorted(words)
    assert sorted(drawn.others) == sorted(others)


def test_a_scratch_of_a_flat_is_not_rounded_to_a_tenth_of_a_thou():
    others = Drawn(POLYGONS["a hundred"]).others  # its flats are 0.004 mm deep
    assert "0.00017 in" in others


@pytest.mark.parametrize("value", [*ROUNDS.values(), *POLYGONS.values(), square_hole(10)])
def test_no_words_meet_and_nothing_leaves_the_frame(value):
    drawn = Drawn(value)
    assert faults(drawn) == []
    assert len(drawn.html) < (MOST_BYTES if getattr(value, "sides", 0) < 100 else 2 * MOST_BYTES)


@given(st.floats(1e-3, 1e6), st.floats(1e-9, 0.49), st.sampled_from([1, 2]))
def test_any_round_with_flats_is_drawn_without_a_fault(diameter, part, flats):
    assert faults(Drawn(flatted_round(diameter, diameter * part, flats))) == []


@given(st.floats(1e-3, 1e6), st.integers(3, 100))
def test_any_polygon_is_drawn_without_a_fault(size, sides):
    assert faults(Drawn(round_for_polygon(size, sides))) == []
