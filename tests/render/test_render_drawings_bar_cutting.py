"""Bars cut into pieces: pieces, cuts and remnants to scale, read back from what is drawn."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.setting_up.stock import cut_bar

CUTS = {
    "mixed": cut_bar(1000, [300, 240, 180], 2, counts=[2, 2, 1]),
    "parted off": cut_bar(
        900, [62, 40], 1.5, counts=[30, 9], allowance=1, clamping_rest=60, way="lathe"
    ),
    "thin": cut_bar(3000, [7], 1, counts=[500]),
    "whole": cut_bar(1000, [1000], 3),
    "no kerf": cut_bar(100, [50, 25, 25], 0),
    "many bars": cut_bar(100, [float(60 + number) for number in range(30)], 2),
    "tiny": cut_bar(1e-3, [1e-4], 1e-5),
    "huge": cut_bar(100_000, [1.0, 99_000], 4),
}


def test_each_piece_is_as_long_as_it_is_in_the_scale_of_the_bar():
    drawn = Drawn(CUTS["mixed"])
    bar = drawn.told("bar_length")
    assert (bar.value, bar.unit) == (1000, "mm")
    scale = bar.wide / 1000
    pieces = drawn.all("piece")
    assert [told.value for told in pieces] == [300, 300, 240, 240, 180]
    for told in pieces:
        assert told.wide == pytest.approx(told.value * scale, abs=0.02)
    for told, rest in zip(drawn.all("rest"), (154, 576), strict=True):
        assert told.value == pytest.approx(rest)
        assert told.wide == pytest.approx(rest * scale, abs=0.02)


def test_the_pieces_lie_side_by_side_with_a_cut_between():
    drawn = Drawn(CUTS["mixed"])
    scale = drawn.told("bar_length").wide / 1000
    first, second, third, *_ = drawn.all("piece")
    assert second.left - first.right == pytest.approx(2 * scale, abs=0.02)
    assert third.left - second.right == pytest.approx(2 * scale, abs=0.02)
    assert first.left == drawn.told("bar_length").left


def test_an_allowance_makes_each_piece_longer_than_its_number():
    drawn = Drawn(CUTS["parted off"])
    scale = drawn.told("bar_length").wide / 900
    assert {told.value for told in drawn.all("piece")} == {62, 40}
    first = drawn.all("piece")[0]
    assert first.wide == pytest.approx(63 * scale, abs=0.02)
    assert "The end that is held is marked by a chain line." in drawn.html


def test_pieces_too_short_to_draw_are_drawn_together_and_that_is_said():
    drawn = Drawn(CUTS["thin"])
    assert [told.value for told in drawn.all("pieces")] == [375, 125]
    assert "Pieces too short to draw each are drawn together." in drawn.html
    assert "125 of 7" in drawn.words
    assert len(drawn.html) < MOST_BYTES


def test_bars_that_are_cut_alike_are_drawn_once():
    drawn = Drawn(CUTS["parted off"])
    assert {"bars 1 to 2", "bar 3"} <= set(drawn.words)
    told = "13 of 62; left 61.5 mm", "13 of 2.4409 in; left 2.4213 in"
    assert drawn.key[0] == ("bars 1 to 2", *told)


def test_the_key_says_what_each_bar_gives_and_what_is_left():
    assert Drawn(CUTS["mixed"]).key == [
        (
            "bar 1",
            "2 of 300, 1 of 240; left 154 mm",
            "2 of 11.811 in, 1 of 9.4488 in; left 6.063 in",
        ),
        (
            "bar 2",
            "1 of 240, 1 of 180; left 576 mm",
            "1 of 9.4488 in, 1 of 7.0866 in; left 22.6772 in",
        ),
        ("each cut takes", "2.000 mm", "0.0787 in"),
        ("cuts", "5"),
        ("becomes pieces", "63 %"),
    ]


def test_a_piece_has_its_length_in_both_systems_and_a_short_remnant_above_it():
    drawn = Drawn(CUTS["mixed"])
    told = ["300", "300", "240", "240", "180", "576", "1000", "154 left"]
    assert drawn.words == ["bar 1", "bar 2", *told]
    assert drawn.others == [
        *("11.811 in", "11.811 in", "9.4488 in", "9.4488 in", "7.0866 in", "22.6772 in"),
        *("39.3701 in", "6.063 in left"),
    ]


def test_pieces_with_no_room_for_their_length_have_it_once_above_them():
    drawn = Drawn(CUTS["parted off"])
    told = ["13 of 62", "4 of 62", "9 of 40", "259.5", "900", "61.5 left"]
    assert drawn.words == ["bars 1 to 2", "bar 3", *told]
    assert drawn.others == [
        *("13 of 2.4409 in", "4 of 2.4409 in", "9 of 1.5748 in", "10.2165 in", "35.4331 in"),
        "2.4213 in left",
    ]
    boxes = dict(drawn.boxes())
    pieces = drawn.all("piece")[:13]
    middle = (pieces[0].left + pieces[-1].right) / 2
    assert boxes["13 of 62"].bottom < pieces[0].top
    assert (boxes["13 of 62"].left + boxes["13 of 62"].right) / 2 == pytest.approx(middle, abs=0.1)


def test_words_above_the_first_pieces_stand_beside_the_name_of_the_bar():
    drawn = Drawn(cut_bar(900, [300, 240, 101.6], 2, counts=[1, 2, 3]))
    boxes = dict(drawn.boxes())
    piece, last = [told for told in drawn.all("piece") if told.value == 101.6][1:]
    assert boxes["bar 2"].right < boxes["2 of 101.6"].left
    middle = (boxes["2 of 101.6"].left + boxes["2 of 101.6"].right) / 2
    assert piece.left < middle < last.right
    assert "2 of 4 in" in drawn.others


def test_of_many_bars_the_first_are_drawn_and_that_is_said():
    drawn = Drawn(CUTS["many bars"])
    assert len(drawn.all("rest")) == 12
    assert "12 of 30 bars are drawn." in drawn.html


def test_a_cut_that_would_be_thinner_than_a_line_is_told():
    assert "Cuts are drawn wider than they are." in Drawn(CUTS["mixed"]).html
    assert "wider than they are" not in Drawn(CUTS["no kerf"]).html


@pytest.mark.parametrize("found", CUTS.values(), ids=CUTS)
def test_no_words_meet_and_nothing_leaves_the_frame(found):
    drawn = Drawn(found)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES + 3000


@settings(deadline=None)
@given(
    st.floats(1, 1e5), st.lists(st.floats(1e-3, 0.9), min_size=1, max_size=40), st.floats(0, 0.05)
)
def test_any_bar_is_drawn_without_a_fault(length, parts, kerf):
    found = cut_bar(length, [part * length for part in parts], kerf * length)
    assert faults(Drawn(found)) == []


def test_in_the_key_a_list_of_pieces_may_be_broken_and_a_size_may_not():
    html = Drawn(CUTS["mixed"]).html
    assert html.count('<td class="shoplog-list">') == 2  # of each bar
    assert '<td><span class="shoplog-mm">2.000 mm</span>' in html
