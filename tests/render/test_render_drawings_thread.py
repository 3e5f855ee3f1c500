"""A thread's picture: its profile and its diameters, read back from what is drawn."""

from itertools import pairwise
from math import atan2, degrees, isclose

import pytest
from picture_reader import MOST_BYTES, Drawn, faults

from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.tapping import tap_drill
from shoplog.trade.screw_threads.thread_limits import metric_thread_limits, thread_limits
from shoplog.trade.screw_threads.threads import Thread

NAMES = (
    "M8", "M8-6g", "M8-6H", "M1.6", "1/4-20 UNC-2B", "1/4 BSW", "2 BA", "G1/2A", "Tr 16x4",
    "Tr 40x14(P7)LH", "1/2-10 ACME", "1/2 NPT", "Rc1/2", "Tr 200x32",
)  # fmt: skip
FIELDS = ("internal_major_diameter", "major", "pitch_diameter", "minor_diameter", "root_diameter")


@pytest.mark.parametrize("name", NAMES)
def test_the_diameters_are_lines_to_scale_with_the_pitch(name):
    thread = Thread.from_text(name)
    drawn = Drawn(thread)
    scale = drawn.told("pitch").length / thread.pitch
    lines = {field: drawn.told(field) for field in FIELDS if drawn.tells(field)}
    assert len(lines) >= 3
    for one in lines.values():
        assert isclose(one.top, one.bottom)  # level
    for field, told in lines.items():
        assert told.value == pytest.approx(getattr(thread, field))
        drop = (thread.pitch_diameter - told.value) / 2 * scale
        assert isclose(told.top - lines["pitch_diameter"].top, drop, abs_tol=0.03)


@pytest.mark.parametrize("name", NAMES)
def test_the_flanks_are_drawn_at_their_angle_and_reach_the_diameters(name):
    thread = Thread.from_text(name)
    drawn = Drawn(thread)
    assert drawn.told("thread_angle").value == pytest.approx(thread.thread_angle)
    for part, outer, inner in (
        ("screw", thread.major, thread.root_diameter),
        ("nut", thread.internal_major_diameter, thread.minor_diameter),
    ):
        if not drawn.tells(f"{part}_profile"):
            continue
        profile = drawn.told(f"{part}_profile")
        scale = profile.wide / (2 * thread.pitch)
        assert isclose(profile.tall, (outer - inner) / 2 * scale, abs_tol=0.03)
        steep = max(
            pairwise(profile.points),
            key=lambda piece: abs(piece[1][1] - piece[0][1]),
        )
        (x, y), (x2, y2) = steep
        assert isclose(degrees(atan2(abs(x2 - x), abs(y2 - y))), thread.flank_angle, abs_tol=0.1)


def test_a_class_says_which_part_is_drawn():
    screw, nut, both = (Drawn(Thread.from_text(name)) for name in ("M8-6g", "M8-6H", "M8"))
    told = [
        [one.tells(f"{part}_profile") for part in ("screw", "nut")] for one in (screw, nut, both)
    ]
    assert told == [[True, False], [False, True], [True, True]]
    assert {"d 8", "d2 7.188", "d3 6.466"} <= set(screw.words)
    assert {"D 8", "D2 7.188", "D1 6.647"} <= set(nut.words)


def test_the_key_names_every_diameter_in_both_systems_its_own_first():
    assert Drawn(Thread.from_text("M8")).key == [
        ("d: major diameter", "8.000 mm", "0.3150 in"),
        ("d2: pitch diameter", "7.188 mm", "0.2830 in"),
        ("D1: minor diameter, nut", "6.647 mm", "0.2617 in"),
        ("d3: minor diameter at the root", "6.466 mm", "0.2546 in"),
        ("P: pitch", "1.250 mm", "0.0492 in"),
        ("height of the thread", "0.677 mm", "0.0266 in"),
    ]
    unified = Drawn(Thread.from_text("1/4-20 UNC-2B"))
    assert unified.key[0] == ("D: major diameter", "0.2500 in", "6.350 mm")
    assert ("P: pitch", "20 threads per inch", "1.270 mm") in unified.key
    assert "P 0.05 in" in unified.words


@pytest.mark.parametrize(
    ("value", "others"),
    [
        (
            Thread.from_text("M8"),
            ["d 0.315 in", "d2 0.283 in", "D1 0.2617 in", "d3 0.2546 in", "P 0.0492 in"],
        ),
        (Thread.from_text("1/4-20 UNC-2B"), ["D 6.35", "D2 5.525", "D1 4.975", "P 1.27"]),
        (
            tap_drill(Thread.from_text("M8")),
            ["D 0.315 in", "D1 0.2617 in", "drill 0.2677 in", "P 0.0492 in"],
        ),
        (
            tap_drill(Thread.from_text("1/4-20 UNC")),
            ["D 6.35", "D1 4.975", "drill 5.105", "P 1.27"],
        ),
        (
            thread_limits(Thread.from_text("M10x1.5-6g")),
            [
                *("d 0.3924 in", "d 0.3831 in", "d2 0.3541 in", "d2 0.3489 in"),
                *("d1 0.3285 in", "d1 0.3125 in", "P 0.0591 in"),
            ],
        ),
        (
            thread_limits(Thread.from_text("1/4-20 UNC-2B")),
            ["D 6.657", "D 6.35", "D2 5.649", "D2 5.5245", "D1 5.258", "D1 4.978", "P 1.27"],
        ),
    ],
)
def test_every_diameter_and_the_pitch_are_told_in_both_systems(value, others):
    assert sorted(Drawn(value).others) == sorted(others)


def test_a_trapezoidal_thread_has_its_clearance_and_its_lead():
    drawn = Drawn(Thread.from_text("Tr 40x14(P7)LH"))
    outer, major = drawn.told("internal_major_diameter"), drawn.told("major")
    assert (outer.value, major.value) == (41, 40)
    assert outer.top < major.top
    assert ("lead of 2 starts", "14.000 mm", "0.5512 in") in drawn.key


def test_a_taper_thread_says_that_its_taper_is_left_out():
    html = Drawn(Thread.from_text("1/2 NPT")).html
    assert "Drawn at the gauge plane, without its taper of 1:16." in html


def test_a_tap_drill_shows_the_thread_that_it_leaves():
    found = tap_drill(Thread.from_text("M8"))
    drawn = Drawn(found)
    assert drawn.told("drill").value == 6.8
    assert drawn.all("percent")[0].value == pytest.approx(found.percent)
    scale = drawn.told("pitch").length / 1.25
    drop = drawn.told("minor_diameter").top - drawn.told("drill").top
    assert isclose(drop, (6.8 - found.thread.minor_diameter) / 2 * scale, abs_tol=0.03)
    profile = drawn.told("nut_profile")
    assert isclose(profile.bottom, drawn.told("drill").top, abs_tol=0.01)
    assert f"{found.percent:.1f} % of thread" in drawn.words
    assert ("drill 6.8 mm", "6.800 mm", "0.2677 in") in drawn.key


def test_the_drill_of_a_taper_thread_is_drawn_at_its_small_end_without_a_percentage():
    drawn = Drawn(tap_drill(Thread.from_text("Rc1/2")))
    assert "Drawn at the small end of the taper thread." in drawn.html
    assert not drawn.tells("percent")
    thread = Thread.from_text("Rc1/2")
    assert drawn.told("major").value == pytest.approx(thread.major_at_end)
    assert drawn.told("minor_diameter").value == pytest.approx(thread.minor_at_end)


LIMITS = {
    "external": thread_limits(Thread.from_text("M10x1.5-6g")),
    "internal": thread_limits(Thread.from_text("1/4-20 UNC-2B")),
    "trapezoidal": thread_limits(Thread.from_text("Tr 16x4-7e")),
    "pipe": thread_limits(Thread.from_text("G1/2A")),
    "a diameter of its own": metric_thread_limits(45, 1, "6H"),
    "coarse class, fine pitch": metric_thread_limits(350, 2, "9g8g"),
}


@pytest.mark.parametrize("found", LIMITS.values(), ids=LIMITS)
def test_each_limit_of_a_thread_is_a_line_to_scale(found):
    drawn = Drawn(found)
    scale = drawn.told("pitch").length / found.thread.pitch
    top = drawn.told("major_max")
    for field in ("major", "pitch_diameter", "minor_diameter"):
        size = getattr(found, field)
        for name, edge in (("max", size.max), ("min", size.min)):
            told = drawn.told(f"{field}_{name}")
            assert told.value == pytest.approx(edge)
            assert isclose(told.top - top.top, (found.major.max - edge) / 2 * scale, abs_tol=0.03)
    assert drawn.key[0][0] == "major diameter"


@pytest.mark.parametrize(
    "value",
    [
        *map(Thread.from_text, NAMES),
        *(tap_drill(Thread.from_text(name)) for name in ("M8", "Rc1/2", "1/2 NPT", "0 BA", "M64")),
        *LIMITS.values(),
    ],
)
def test_no_words_meet_and_nothing_leaves_the_frame(value):
    drawn = Drawn(value)
    assert faults(drawn) == []
    assert len(drawn.html) < MOST_BYTES


def test_every_metric_thread_that_is_held_is_drawn_without_a_fault():
    drawn = 0
    for size in range(1, 65):
        try:
            thread = Thread.from_text(f"M{size}")
        except TradeError:
            continue
        drawn += 1
        assert faults(Drawn(thread)) == []
        assert faults(Drawn(tap_drill(thread))) == []
    assert drawn > 20
