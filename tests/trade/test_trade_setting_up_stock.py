"""Bars cut into pieces: nothing is lost, nothing overlaps, and few bars are wasted."""

from __future__ import annotations

from functools import cache
from math import fsum

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.trade.declare import TradeError
from shoplog.trade.setting_up.stock import cut_bar


@given(
    st.lists(st.floats(1, 900), min_size=1, max_size=40),
    st.floats(0, 10),
    st.floats(0, 5),
    st.sampled_from([0.0, 40.0]),
)
def test_every_piece_is_cut_once_and_a_bar_is_never_longer_than_it_is(
    lengths, kerf, allowance, held
):
    found = cut_bar(1000, lengths, kerf, allowance=allowance, clamping_rest=held)
    assert sorted(length for bar in found.bars for length in bar.pieces) == sorted(lengths)
    for bar in found.bars:
        taken = fsum(bar.pieces) + allowance * len(bar.pieces) + bar.cuts * kerf
        # The last cut may run out of the end of the bar.
        assert taken + bar.rest == pytest.approx(1000, abs=kerf + 1e-6)
        assert bar.rest >= held - 1e-6
        assert bar.cuts in (len(bar.pieces), len(bar.pieces) - 1)
        assert list(bar.pieces) == sorted(bar.pieces, reverse=True)
    assert found.least_bars <= found.count


def fewest(lengths, room, kerf):
    """The least number of bars, by trying every set of pieces: bits of a number are the pieces."""
    fits = [
        sum(lengths[n] for n in range(len(lengths)) if bits >> n & 1)
        + kerf * (bits.bit_count() - 1)
        <= room + 1e-9
        for bits in range(1 << len(lengths))
    ]

    @cache
    def bars(left):
        if not left:
            return 0
        part, best = left, len(lengths)
        while part:
            if fits[part]:
                best = min(best, 1 + bars(left & ~part))
            part = (part - 1) & left
        return best

    return bars((1 << len(lengths)) - 1)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(50, 600), min_size=1, max_size=7), st.integers(0, 5))
def test_it_takes_no_more_than_a_bar_beyond_the_best_order(lengths, kerf):
    """First fit, longest first, is known to take at most 11/9 of the best and 6/9 of a bar."""
    best = fewest(lengths, 1000, kerf)
    found = cut_bar(1000, [float(length) for length in lengths], kerf)
    assert found.least_bars <= best <= found.count <= 11 / 9 * best + 6 / 9


def test_a_plan_says_its_bars_cuts_and_rests():
    found = cut_bar(1000, [300, 240, 180], 2, counts=[2, 2, 1])
    assert [bar.pieces for bar in found.bars] == [(300, 300, 240), (240, 180)]
    assert found.rests == (154, 576)
    assert (found.count, found.pieces, found.cuts, found.longest_rest) == (2, 5, 5, 576)
    assert found.used == pytest.approx(63)
    assert found.describe() == "5 pieces from 2 bars of 1000 mm, 5 cuts; left are 154, 576 mm."


def test_a_piece_that_is_the_rest_of_the_bar_needs_no_cut():
    assert cut_bar(1000, [1000], 3).cuts == 0
    assert cut_bar(203, [100, 100], 3).bars[0].cuts == 1
    (bar,) = cut_bar(204, [100, 100], 3).bars
    assert (bar.cuts, bar.rest) == (2, 0)


def test_an_end_that_is_held_stays_whole_behind_the_last_cut():
    assert cut_bar(1000, [900], 3, clamping_rest=97).rests == (97,)
    with pytest.raises(TradeError):
        cut_bar(1000, [900], 3, clamping_rest=98)


def test_where_fewer_bars_might_do_the_notes_say_so():
    found = cut_bar(10, [6, 5, 5, 4], 0)
    assert found.count == found.least_bars == 2
    worse = cut_bar(12, [6, 4, 4, 4, 3, 3], 0)
    assert (worse.count, worse.least_bars) == (3, 2)
    assert worse.notes == ("the longest first is not always the best order: 2 might be enough",)


def test_a_bar_in_the_lathe_carries_its_own_cautions():
    assert "both sides of the cut" in cut_bar(500, [100], 2).cautions[0]
    spindle = cut_bar(500, [100], 2, way="lathe").cautions
    assert len(spindle) == 2
    assert "whips" in spindle[0]
    assert "part off close to the chuck" in spindle[1]


def test_an_allowance_is_told():
    assert cut_bar(500, [100], 2, allowance=1).notes == (
        "each piece is cut 1 mm longer than its finished length",
    )


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: cut_bar(1000, [1001], 2),
            "a piece takes 1001 mm, a bar has room for 1000 mm",
            "piece_lengths",
        ),
        (
            lambda: cut_bar(1000, [960], 2, clamping_rest=50),
            "a piece takes 960 mm, a bar has room for 948 mm beside the 50 mm that are held",
            "piece_lengths",
        ),
        (lambda: cut_bar(1000, [], 2), "there is no piece to cut", "piece_lengths"),
        (
            lambda: cut_bar(1000, [1.0], 2, counts=[501.0]),
            "a count is 501, it must be a whole number from 0 to 500",
            "counts",
        ),
        (
            lambda: cut_bar(1000, [1.0], 2, counts=[0.0]),
            "there are 0 pieces, there may be 1 to 500",
            "piece_lengths",
        ),
        (
            lambda: cut_bar(1000, [1.0, 2.0], 2, counts=[1.0]),
            "there are 2 lengths and 1 counts, there must be as many",
            "counts",
        ),
        (
            lambda: cut_bar(1000, [-1], 2),
            "piece length is -1 mm, it must be over 0 mm",
            "piece_length",
        ),
        (
            lambda: cut_bar(0, [1], 2),
            "bar length is 0 mm, it must be at least 1e-06 mm and at most 100000 mm",
            "bar_length",
        ),
        (
            lambda: cut_bar(1000, [1], -1),
            "kerf is -1 mm, it must be at least 0 mm and at most 1000 mm",
            "kerf",
        ),
        (
            lambda: cut_bar(1000, [1], 1, clamping_rest=1000),
            "clamping rest is 1000 mm, it must be at least 0 mm and below 1000 mm",
            "clamping_rest",
        ),
        (
            lambda: cut_bar(1000, [1], 1, way="teeth"),
            "the bar is cut by 'teeth', it must be by 'saw' or 'lathe'",
            "way",
        ),
    ],
)
def test_what_cannot_be_is_refused(call, message, argument):
    with pytest.raises(TradeError) as caught:
        call()
    assert (str(caught.value), caught.value.argument) == (message, argument)
