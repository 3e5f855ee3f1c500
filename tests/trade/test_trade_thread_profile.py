"""The line of a thread's profile: its flanks, its crests, its roots."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, degrees, isclose

import pytest

from shoplog.trade.screw_threads.thread_profile import Profile, nut_of, screw_of
from shoplog.trade.screw_threads.threads import Thread

DESIGNATIONS = (
    "M8", "1/4-20 UNC", "1/4 BSW", "2 BA", "G1/2", "Tr 16x4", "1/2-10 ACME", "1/2 NPT",
)  # fmt: skip


def flanks(line: list[tuple[float, float]]) -> list[float]:
    """Angles of the longest pieces, to the square to the axis."""
    pieces = sorted(pairwise(line), key=lambda p: abs(p[1][1] - p[0][1]))[-4:]
    return [abs(degrees(atan2(two[0] - one[0], two[1] - one[1]))) for one, two in pieces]


@pytest.mark.parametrize("name", DESIGNATIONS)
def test_the_flanks_have_the_angle_of_the_thread(name: str) -> None:
    thread = Thread.from_text(name)
    for profile in (screw_of(thread), nut_of(thread)):
        for angle in flanks(profile.line()):
            assert isclose(min(angle, 180 - angle), thread.flank_angle, abs_tol=1e-6)


@pytest.mark.parametrize("name", DESIGNATIONS)
def test_the_line_reaches_every_diameter_of_the_record_and_goes_over_two_pitches(name: str) -> None:
    thread = Thread.from_text(name)
    screw, nut = screw_of(thread).line(), nut_of(thread).line()
    assert 2 * max(y for _, y in screw) == pytest.approx(thread.major)
    assert 2 * min(y for _, y in screw) == pytest.approx(thread.root_diameter)
    assert 2 * max(y for _, y in nut) == pytest.approx(thread.internal_major_diameter)
    assert 2 * min(y for _, y in nut) == pytest.approx(thread.minor_diameter)
    assert (screw[0][0], screw[-1][0]) == pytest.approx((0, 2 * thread.pitch))
    assert [x for x, _ in screw] == sorted(x for x, _ in screw)


@pytest.mark.parametrize("name", DESIGNATIONS)
def test_at_the_pitch_diameter_ridge_and_groove_are_as_wide(name: str) -> None:
    thread = Thread.from_text(name)
    middle = thread.pitch_diameter / 2
    crossings = []
    for (x, y), (x2, y2) in pairwise(screw_of(thread).line()):
        if (y - middle) * (y2 - middle) < 0:
            crossings.append(x + (middle - y) / (y2 - y) * (x2 - x))
    gaps = [two - one for one, two in pairwise(crossings)]
    assert gaps == pytest.approx([thread.pitch / 2] * 3)


def test_a_crest_beyond_where_the_flanks_meet_has_no_width() -> None:
    profile = Profile(1, 30, 5, 4, 3.7)
    assert profile.top_width == 0
    assert profile.bottom_width > 0
