"""Pictures of setting a lathe for a taper: their triangles, read back from what is drawn."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.taper_work.taper_indicating import indicator_finding, indicator_setting
from shoplog.trade.taper_work.taper_setting import SetOver, tailstock_set_over
from shoplog.trade.taper_work.tapers import Taper, taper_from_angle

ONE_IN_20 = Taper.from_text("1:20")
SET_OVERS = {
    "usual": tailstock_set_over(ONE_IN_20, 200, 4),
    "gentle": tailstock_set_over(Taper.from_text("1:1000"), 1000),
    "steep": tailstock_set_over(Taper.from_text("1:4"), 50),
    "next to nothing": SetOver(Taper("almost none", 1e-9), 10_000, 0.0),
}
SETTINGS = {
    "top slide": indicator_setting(Taper.from_text("Morse 3"), 60),
    "carriage": indicator_setting(ONE_IN_20, 50, "carriage"),
    "steep": indicator_setting(taper_from_angle(120), 50),
    "very steep": indicator_setting(taper_from_angle(179.9), 50, "carriage"),
    "next to nothing": indicator_setting(taper_from_angle(1e-6), 10_000),
}
FINDINGS = {
    "near": indicator_finding(ONE_IN_20, 50, 1.26),
    "nothing found": indicator_finding(Taper.from_text("1:2"), 50, 0),
    "too far": indicator_finding(ONE_IN_20, 50, 20, "carriage"),
}


def times(drawn, name):
    """How many times its size a side is drawn, as the picture says."""
    said = drawn.html.partition(f"The {name} is drawn ")[2]
    return float(said.partition(" ")[0]) if said else 1.0


@pytest.mark.parametrize("setting", SET_OVERS.values(), ids=SET_OVERS)
def test_the_set_over_is_drawn_as_large_as_it_says(setting):
    drawn = Drawn(setting)
    over, points = drawn.told("set_over"), drawn.told("between_points")
    assert over.value == pytest.approx(setting.set_over)
    assert points.value == pytest.approx(setting.between_points)
    ratio = over.length / points.length / (over.value / points.value)
    assert isclose(ratio, times(drawn, "set-over"), rel_tol=0.01)


def test_the_side_towards_the_tool_comes_out_along_the_spindle():
    drawn = Drawn(SET_OVERS["usual"])
    (work,) = [line for line in drawn.strokes("outline") if len(line) == 4]
    near = work[2:]
    assert isclose(near[0][1], near[1][1], abs_tol=0.5)
    assert {"headstock", "tailstock, towards you", "4.799", "192"} <= set(drawn.words)
    assert drawn.key[:4] == [
        ("tailstock set over", "4.799 mm", "0.1889 in"),
        ("work, from end to end", "200.000 mm", "7.8740 in"),
        ("each centre in the work", "4.000 mm", "0.1575 in"),
        ("between the points", "192.000 mm", "7.5591 in"),
    ]


@pytest.mark.parametrize("setting", SETTINGS.values(), ids=SETTINGS)
def test_the_rise_is_drawn_as_large_as_it_says(setting):
    drawn = Drawn(setting)
    rise, travel = drawn.told("rise"), drawn.told("travel")
    assert rise.value == pytest.approx(setting.rise)
    assert travel.value == setting.travel
    ratio = rise.length / travel.length / (rise.value / travel.value)
    assert isclose(ratio, times(drawn, "rise"), rel_tol=0.01)
    assert drawn.told("half_angle").value == pytest.approx(setting.taper.half_angle)


def test_every_length_is_told_in_both_systems():
    told = [sorted(Drawn(one).others) for one in (SET_OVERS["usual"], *SETTINGS.values())]
    assert told == [
        ["0.1889 in", "7.5591 in"],
        ["+0.0593 in", "0.0593 in", "2.3622 in"],
        ["+0.0492 in", "0.0492 in", "1.9685 in"],
        ["+1.7048 in", "1.7048 in", "1.9685 in"],
        ["+2255.7388 in", "1.9685 in", "2255.7388 in"],
        ["+0.0000034 in", "0.0000034 in", "393.7008 in"],
    ]
    assert Drawn(FINDINGS["near"]).others == []


def test_the_travel_is_told_along_what_travels():
    slide, carriage = (Drawn(SETTINGS[name]).told("travel") for name in ("top slide", "carriage"))
    assert slide.points[0][1] != slide.points[1][1]
    assert carriage.points[0][1] == carriage.points[1][1]


def test_the_indicator_reads_nothing_at_the_start_and_the_rise_at_the_end():
    drawn = Drawn(SETTINGS["top slide"])
    assert {"0", "+1.505", "60"} <= set(drawn.words)
    assert drawn.key[0] == ("rise of the indicator", "1.505 mm", "0.0593 in")


@pytest.mark.parametrize("finding", FINDINGS.values(), ids=FINDINGS)
def test_what_was_found_lies_beside_what_is_wanted(finding):
    drawn = Drawn(finding)
    wanted, found = drawn.told("wanted"), drawn.told("half_angle")
    assert (wanted.value, found.value) == pytest.approx(
        (finding.taper.half_angle, finding.half_angle)
    )
    assert wanted.points[0] == found.points[0]
    assert (found.top <= wanted.top) == (finding.half_angle >= finding.taper.half_angle)
    assert drawn.key[2][0] == "off"


@pytest.mark.parametrize("value", [*SET_OVERS.values(), *SETTINGS.values(), *FINDINGS.values()])
def test_no_words_meet_and_nothing_leaves_the_frame(value):
    drawn = Drawn(value)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@given(st.floats(1e-9, 179.99), st.floats(1e-3, 10_000), st.sampled_from(["top slide", "carriage"]))
def test_any_setting_is_drawn_without_a_fault(angle, travel, along):
    setting = indicator_setting(taper_from_angle(angle), travel, along, 0.0)
    assert faults(Drawn(setting)) == []


@given(st.floats(1e-9, 0.27), st.floats(1e-3, 10_000))
def test_any_set_over_is_drawn_without_a_fault(ratio, length):
    assert faults(Drawn(tailstock_set_over(Taper("any", ratio), length))) == []
