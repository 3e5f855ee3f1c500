"""A head out of tram: the sweep's readings and the dish, read back from what is drawn."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.setting_up.tram import head_tram, tram_dish

SWEEPS = {
    "right low": head_tram(0.08, 200),
    "left low": head_tram(-0.002, 150),
    "square": head_tram(0, 150),
    "far out": head_tram(100, 200),
    "tiny": head_tram(1e-9, 1e-6),
}
DISHES = {
    "ordinary": tram_dish(0.0229, 80, 60),
    "whole width": tram_dish(0.01, 63, 63),
    "no tilt": tram_dish(0, 63, 63),
    "steep": tram_dish(30, 500, 400),
    "narrow": tram_dish(0.001, 500, 0.001),
}


def test_the_tip_stands_lower_on_the_side_that_reads_more():
    for name, low, high in (("right low", "right", "left"), ("left low", "left", "right")):
        drawn = Drawn(SWEEPS[name])
        assert drawn.told(low).points[0][1] > drawn.told(high).points[0][1]


def test_the_readings_and_the_tilt_are_told_and_that_it_is_not_to_scale():
    drawn = Drawn(SWEEPS["right low"])
    told = drawn.told("difference")
    assert (told.value, told.unit) == (0.08, "mm")
    heights = [drawn.told(side).points[0][1] for side in ("left", "right")]
    assert told.tall == pytest.approx(abs(heights[0] - heights[1]), abs=0.02)
    assert drawn.told("tilt").value == pytest.approx(0.022918, abs=1e-6)
    sweep = drawn.told("sweep")
    wide = [drawn.told(side).points[0][0] for side in ("left", "right")]
    assert sweep.value == 200
    assert sweep.wide == pytest.approx(wide[1] - wide[0], abs=0.02)
    assert {"left", "right", "table", "Ø200", "0.08", "0.0229°"} <= set(drawn.words)
    assert drawn.others == ["0.0031 in", "Ø7.874 in"]
    assert "The tilt is not to scale: the spindle is drawn leaning by 12°." in drawn.html
    assert drawn.key == [
        ("difference of the readings", "0.080 mm", "0.0031 in"),
        ("sweep", "200.000 mm", "7.8740 in"),
        ("tilt", "0.0229°"),
        ("over 100 mm (3.937 in)", "40 µm", "1.6 thou"),
        ("lower side of the spindle", "right"),
        ("side of the head to raise", "right"),
    ]


def test_a_head_in_tram_is_drawn_level():
    drawn = Drawn(SWEEPS["square"])
    assert drawn.told("left").points[0][1] == drawn.told("right").points[0][1]
    assert not drawn.tells("difference")
    assert "not to scale" not in drawn.html


@pytest.mark.parametrize("found", DISHES.values(), ids=DISHES)
def test_dish_and_step_are_drawn_to_their_told_scales(found):
    drawn = Drawn(found)
    dish, step, width = drawn.told("dish"), drawn.told("step"), drawn.told("width_of_cut")
    assert dish.value == pytest.approx(found.dish)
    assert step.value == pytest.approx(found.step)
    assert width.value == found.width_of_cut
    for told, name, share in ((dish, "A", 1), (step, "B", 2)):
        if not told.value:
            assert told.tall == 0
            continue
        larger = told.tall / (told.value / 1000) / (width.wide / share / found.width_of_cut)
        said = f"The height {name} is drawn {float(f'{larger:.1g}'):g} times its size across."
        assert said in drawn.html or float(f"{larger:.1g}") == 1
        assert 17 < told.tall < 45


def test_the_hollow_that_is_drawn_is_part_of_the_tilted_circle():
    found = DISHES["ordinary"]
    drawn = Drawn(found)
    hollow = drawn.told("hollow")
    middle = (hollow.left + hollow.right) / 2
    wide, deep = hollow.wide / found.width_of_cut, hollow.tall
    radius = found.cutter_diameter / 2
    most = radius - (radius**2 - (found.width_of_cut / 2) ** 2) ** 0.5
    for x, y in hollow.points:
        place = (x - middle) / wide
        sag = radius - (radius**2 - place**2) ** 0.5
        assert y - hollow.top == pytest.approx(deep * (1 - sag / most), abs=0.05)


def test_the_key_gives_dish_and_step_in_both_systems():
    assert Drawn(DISHES["ordinary"]).key == [
        ("width of the strip", "60.000 mm", "2.3622 in"),
        ("cutter", "80.000 mm", "3.1496 in"),
        ("A: dish, leaning along the feed", "5.41 µm", "0.21 thou"),
        ("B: step, leaning across the feed", "24 µm", "0.9 thou"),
    ]


def test_dish_step_and_width_stand_in_the_other_system_too():
    drawn = Drawn(DISHES["ordinary"])
    assert {"A 5.41 µm", "B 24 µm", "60"} <= set(drawn.words)
    assert drawn.others == ["A 0.21 thou", "B 0.9 thou", "2.3622 in"]


@pytest.mark.parametrize("found", [*SWEEPS.values(), *DISHES.values()], ids=[*SWEEPS, *DISHES])
def test_no_words_meet_and_nothing_leaves_the_frame(found):
    drawn = Drawn(found)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@settings(deadline=None)
@given(st.floats(0, 30), st.floats(1e-3, 1e6), st.floats(1e-3, 1), st.floats(-0.5, 0.5))
def test_any_tilt_is_drawn_without_a_fault(tilt, diameter, part, reading):
    assert faults(Drawn(tram_dish(tilt, diameter, diameter * part))) == []
    assert faults(Drawn(head_tram(diameter * reading, diameter))) == []
