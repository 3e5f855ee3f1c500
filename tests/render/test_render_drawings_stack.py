"""A size with limits as a picture: its zone, or the contributors of a stack-up."""

from math import isclose, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.render.pictures.drawing import drawing
from shoplog.trade.declare import Size
from shoplog.units import unit
from shoplog.values import Contributor, Value, limited

MM, INCH = unit("mm"), unit("in")


def size(name, nominal, lower, upper, of=MM):
    return limited(Value(nominal, of), Contributor(name, lower * of.factor, upper * of.factor))


def end_float():
    bar = size("tie_bar", 4.75, -0.005, 0.005, INCH)
    washers = [size(name, 1.5, -0.05, 0.05) for name in ("washer_left", "washer_right")]
    whole = bar - size("shoulders", 116.5, -0.1, 0.1) - washers[0] - washers[1]
    return whole.to(MM)


def test_each_contributor_has_a_bar_as_long_as_its_share_the_most_first():
    drawn = Drawn(end_float())
    bars = drawn.all("contributor")
    assert [bar.value for bar in bars] == pytest.approx([0.254, 0.2, 0.1, 0.1])
    scale = bars[0].wide / 0.254
    for bar in bars:
        assert isclose(bar.wide, bar.value * scale, abs_tol=0.02)
    names = [text for text in drawn.words if text in ("tie_bar", "shoulders", "washer_left")]
    assert names == ["tie_bar", "shoulders", "washer_left"]
    assert [text for text in drawn.words if "%" in text] == ["39 %", "31 %", "15 %", "15 %"]


def test_the_bars_together_are_as_long_as_the_worst_case():
    drawn = Drawn(end_float())
    worst = drawn.told("worst_case")
    assert worst.value == pytest.approx(0.654)
    assert isclose(sum(bar.wide for bar in drawn.all("contributor")), worst.wide, abs_tol=0.05)


def test_the_estimate_has_the_root_of_the_sum_of_the_squares_about_the_middle():
    drawn = Drawn(end_float())
    rss, worst = drawn.told("rss"), drawn.told("worst_case")
    assert rss.value == pytest.approx(sqrt(0.254**2 + 0.2**2 + 2 * 0.1**2))
    assert isclose(rss.wide / worst.wide, rss.value / worst.value, rel_tol=1e-3)
    assert isclose(rss.left + rss.right, worst.left + worst.right, abs_tol=0.05)


def test_the_key_has_both_totals_and_every_contributor_in_both_systems():
    key = Drawn(end_float()).key
    assert key[:4] == [
        ("worst case", "0.823 to 1.477 mm", "0.0324 to 0.0581 in"),
        ("root-sum-square, an estimate", "0.974 to 1.326 mm", "0.0383 to 0.0522 in"),
        ("nominal", "1.150 mm", "0.0453 in"),
        ("tie_bar, 39 %", "0.254 mm", "0.0100 in"),
    ]


def test_the_totals_stand_in_the_other_system_too():
    drawn = Drawn(end_float())
    assert {"0.823 to 1.477", "0.974 to 1.326", "nominal 1.15"} <= set(drawn.words)
    wanted = ["nominal 0.0453 in", "0.0324 to 0.0581 in", "0.0383 to 0.0522 in"]
    assert sorted(drawn.others) == sorted(wanted)


def test_a_bar_lies_on_the_side_of_the_nominal_that_its_limits_are_on():
    drawn = Drawn(size("hole", 16, 0, 0.018) - size("shaft", 16, -0.034, -0.016))
    nominal = drawn.told("nominal").left
    hole, shaft = sorted(drawn.all("contributor"), key=lambda bar: bar.left)
    assert isclose(hole.left, nominal, abs_tol=0.02)  # from 0 to 18
    assert isclose((shaft.left - nominal) / (hole.right - nominal), 16 / 18, rel_tol=1e-3)


def test_more_contributors_than_there_is_room_for_are_one_bar():
    total = size("first", 5, -1, 1)
    for number in range(40):
        total = total + size(f"p{number}", 1, -0.1, 0.1)
    drawn = Drawn(total)
    assert len(drawn.all("contributor")) == 12
    assert "30 more" in drawn.words
    assert drawn.key[-1] == ("and 29 more", "less than these")
    assert isclose(
        sum(bar.wide for bar in drawn.all("contributor")),
        drawn.told("worst_case").wide,
        abs_tol=0.2,
    )


def test_a_size_of_one_contributor_is_its_zone_about_the_nominal():
    drawn = Drawn(size("pin", 16, -0.034, -0.016))
    zone, nominal = drawn.told("tolerance"), drawn.told("nominal")
    assert (round(zone.value, 9), nominal.value) == (0.018, 16)
    assert isclose((nominal.left - zone.right) / zone.wide, 16 / 18, rel_tol=1e-3)
    assert {"15.966", "15.984", "0.018"} <= set(drawn.words)
    assert drawn.others == ["0.6286 in", "0.6299 in", "0.0007 in", "0.6293 in"]
    assert drawn.key[0] == ("limits", "15.966 to 15.984 mm", "0.6286 to 0.6293 in")


def test_a_size_in_inches_is_told_in_inches_first():
    drawn = Drawn(size("bar", 0.75, -0.002, 0.002, INCH))
    assert drawn.words == ["0.7480 in", "0.75 in ±0.002", "0.004 in", "0.7520 in"]
    assert drawn.others == ["18.999", "19.05 mm ±0.0508", "0.102", "19.101"]
    assert drawn.key[0] == ("limits", "0.7480 to 0.7520 in", "18.999 to 19.101 mm")


def test_a_size_that_a_formula_gave_is_drawn_alike():
    assert "16.018" in Drawn(Size(16, 0, 0.018, "H7")).words


def test_a_name_that_is_too_long_is_cut_in_the_picture_and_whole_in_the_key():
    name = "a_very_long_name_that_goes_on_and_on_and_on_for_ever"
    drawn = Drawn(size(name, 5, -1, 1) + size("b", 1, -0.1, 0.1))
    assert any(text.startswith("a_very_long_name") and text.endswith("…") for text in drawn.words)
    assert drawn.key[3][0] == f"{name}, 91 %"


def test_a_temperature_has_both_scales_and_an_angle_has_one():
    room = limited(Value(20.0, unit("degC")), Contributor("room", -2, 2))
    drawn = Drawn(room)
    assert drawn.words == ["4 K", "18 degC", "20 degC ±2", "22 degC"]
    assert drawn.others == ["64 degF", "68 degF ±3.6", "72 degF"]
    square = Drawn(limited(Value(90.0, unit("deg")), Contributor("square", -0.001, 0.001)))
    assert {"89.9427°", "90.0573°", "0.1146°"} <= set(square.words)
    assert square.others == []


@pytest.mark.parametrize("value", [Value(3.0, MM), size("bore", 16, 0, 1) * Value(0.0, MM)])
def test_what_has_no_limits_has_no_picture(value):
    html = str(drawing(value, "it", "drawing"))
    assert ("has no picture" in html) == (not value.has_limits)


@pytest.mark.parametrize(
    "value",
    [
        end_float(),
        size("bore", 16, 0, 0.018),
        size("none", 16, 0, 0),
        size("a", 10, 5, 6) - size("b", 20, 5, 6),
        size("a", 1e240, -1e200, 1e230),
        size("a", 1e-9, -1e-12, 0) + size("b", 1e9, 0, 1e3),
        limited(Value(20.0, unit("degC")), Contributor("room", -2, 2)),
        limited(Value(90.0, unit("deg")), Contributor("square", -0.001, 0.001)),
    ],
)
def test_no_words_meet_and_nothing_leaves_the_frame(value):
    drawn = Drawn(value)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


@given(
    st.lists(
        st.tuples(st.text(max_size=30), st.floats(-1e6, 1e6), st.floats(-1e6, 1e6)), min_size=1,
        max_size=20,
    ),
    st.floats(-1e9, 1e9),
)  # fmt: skip
def test_any_stack_up_is_drawn_without_a_fault(parts, nominal):
    total = Value(nominal, MM)
    for name, one, other in parts:
        total = total + size(name, 0.0, min(one, other), max(one, other))
    assert faults(Drawn(total)) == []
