"""Tapping the families beside metric and Unified, and threads that a tap does not cut."""

from __future__ import annotations

import pytest

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, TradeError
from shoplog.trade.screw_threads.tapping import tap_drill, thread_percent
from shoplog.trade.screw_threads.thread_holes import greatest_hole
from shoplog.trade.screw_threads.threads import Thread


def tapped() -> list[str]:
    """Every thread of the families that a tap cuts."""
    found = [f"{row['number']} BA" for row in table("threads_ba").rows]
    for row in table("threads_whitworth").rows:
        held = [series for series in ("BSW", "BSF") if row[f"{series}_tpi"]]
        found += [f"{row['size']} {series}" for series in held]
    for row in table("threads_pipe").rows:
        found += [f"G{row['size']}"]
        found += [f"{one}{row['size']}" for one in ("Rp", "Rc") if row["gauge_length_mm"]]
    found += [f"{row['size']} NPT" for row in table("threads_npt").rows]
    return [name for name in found if Thread.from_text(name).major < 88]


@pytest.mark.parametrize(
    ("name", "asked", "drill"),
    [
        ("M6", 75, "5.0 mm"),
        ("2 BA", 75, "4.0 mm"),
        ("0 BA", 75, "5.1 mm"),
        ("1/4 BSW", 80, "5.0 mm"),
        ("1/2 BSW", 80, "10.5 mm"),
        ("G1/4", 80, "11.8 mm"),
        ("Rp3/4", 80, "24.5 mm"),
        ("1/8 NPT", 100, "Q"),
        ("Rc1/2", 100, "18.0 mm"),
    ],
)
def test_each_family_is_drilled_for_its_usual_percentage(
    name: str, asked: float, drill: str
) -> None:
    found = tap_drill(Thread.from_text(name))
    assert (found.asked, found.drill.designation) == (asked, drill)


def test_a_percentage_is_of_the_height_of_its_family() -> None:
    for name, part in (("1/4 BSW", 0.640327), ("2 BA", 0.6), ("M6", 0.649519)):
        thread = Thread.from_text(name)
        found = tap_drill(thread, 60)
        assert found.diameter == pytest.approx(thread.major - 1.2 * part * thread.pitch, abs=1e-5)
        assert thread_percent(thread, found.diameter) == pytest.approx(60)


def test_a_taper_thread_is_drilled_for_its_small_end() -> None:
    for name in ("1/4 NPT", "Rc1/4"):
        thread = Thread.from_text(name)
        found = tap_drill(thread)
        assert found.diameter == pytest.approx(thread.minor_at_end)
        assert thread_percent(thread, thread.minor_at_end) == pytest.approx(100)
    assert tap_drill(Thread.from_text("1/8 NPT")).describe() == (
        "1/8-27 NPT: drill Q (8.433 mm) for a minor diameter of 8.481 mm at the small end; in the"
        " other system 8.5 mm"
    )


def test_a_taper_thread_says_what_a_straight_hole_leaves() -> None:
    assert tap_drill(Thread.from_text("Rc1/2")).notes == (
        "a straight hole, which leaves a full thread at the small end only; reamed 1:16 before"
        " tapping, the taps cut less",
    )


def test_a_pipe_thread_that_seals_carries_its_caution() -> None:
    assert tap_drill(Thread.from_text("Rp1/2")).cautions == Thread.from_text("Rp1/2").cautions
    assert len(Thread.from_text("Rp1/2").cautions) == 1


@pytest.mark.parametrize(
    ("name", "percent", "argument", "message", "hint"),
    [
        (
            "R1/2",
            None,
            "thread",
            "R1/2 is an external thread; a tap cuts an internal one",
            "leave the class out, or write the one of the internal thread",
        ),
        (
            "G1/2A",
            None,
            "thread",
            "G1/2A is an external thread; a tap cuts an internal one",
            "leave the class out, or write the one of the internal thread",
        ),
        (
            "Tr 16x4",
            None,
            "thread",
            "Tr 16x4 is of the ISO trapezoidal family, which a common cutting tap does not cut",
            "bore it to its minor diameter, 12.000 mm, and cut it with a tool, or with special taps"
            " as their maker says",
        ),
        (
            "1/2-10 ACME-2G internal",
            None,
            "thread",
            "1/2-10 ACME-2G internal is of the Acme family, which a common cutting tap does not"
            " cut",
            "bore it to its minor diameter, 10.160 mm, and cut it with a tool, or with special taps"
            " as their maker says",
        ),
        (
            "M16xPh3P1.5",
            None,
            "thread",
            "M16xPh3P1.5 has 2 starts, which a common cutting tap does not cut",
            "bore it to its minor diameter, 14.376 mm, and cut it with a tool, or with special taps"
            " as their maker says",
        ),
        (
            "1/4 NPT",
            75,
            "percent",
            "a percentage of thread does not apply to 1/4-18 NPT: a taper thread is drilled for its"
            " minor diameter at the small end",
            "leave the percentage out",
        ),
        (
            "4-4 UNC",
            None,
            "sets",
            "no drill of the sets suits 4-4 UNC: it takes 95.413 mm, they are 0.343 to 88.900 mm",
            "bore it to 95.413 mm",
        ),
    ],
)
def test_what_no_tap_cuts_is_refused_with_what_would_do(
    name: str, percent: float | None, argument: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        tap_drill(Thread.from_text(name), percent)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == argument


@pytest.mark.parametrize("percent", [0, -1, 101, 1e100])
def test_a_percentage_outside_the_thread_is_refused_in_every_family(percent: float) -> None:
    for name in ("1/4 BSW", "2 BA", "G1/2"):
        with pytest.raises(OutOfRange) as refused:
            tap_drill(Thread.from_text(name), percent)
        assert refused.value.argument == "percent"


def test_a_hole_over_the_greatest_minor_diameter_has_a_caution() -> None:
    assert tap_drill(Thread.from_text("M10"), 55).cautions == (
        "the drill is larger than 8.676 mm, the greatest minor diameter by ISO 965-1 in class 6H",
    )
    assert tap_drill(Thread.from_text("M10-8H"), 60).cautions == ()
    assert tap_drill(Thread.from_text("1 BSW"), 75).cautions == (
        "the drill is larger than 22.147 mm, the greatest minor diameter by BS 84",
    )


@pytest.mark.parametrize(
    ("name", "most", "standard"),
    [
        ("M10", 8.676, "ISO 965-1 in class 6H"),
        ("M10-5H", 8.612, "ISO 965-1 in class 5H"),
        ("1/4-20 UNC", 5.258, "ASME B1.1 in class 2B"),
        ("G1/2", 19.173, "ISO 228-1"),
        ("1/4 BSW", 5.155, "BS 84"),
        ("1/4 BSF", 5.396, "BS 84"),
        ("2 BA", 4.032, "BS 93"),
    ],
)
def test_the_greatest_hole_is_that_of_the_standard(name: str, most: float, standard: str) -> None:
    found = greatest_hole(Thread.from_text(name))
    assert found == (pytest.approx(most, abs=6e-4), standard)


def test_a_thread_that_the_other_system_has_no_drill_for_says_so() -> None:
    found = tap_drill(Thread.from_text("G3"))
    assert (found.nearest_inch, found.nearest_inch_percent) == (None, None)
    assert found.describe().endswith("; the other system has no drill for it")


def test_no_greatest_hole_is_held_for_a_joint_on_the_thread() -> None:
    assert [greatest_hole(Thread.from_text(name)) for name in ("Rp1/2", "1/2 NPT")] == [None, None]


@pytest.mark.parametrize("name", tapped())
def test_every_thread_that_is_tapped_has_a_drill(name: str) -> None:
    thread = Thread.from_text(name)
    found = tap_drill(thread)
    assert found.drill.diameter < thread.major_at_end
    assert found.percent > 50
    most = greatest_hole(thread)
    if most is not None and thread.thread_angle == 55:
        assert found.drill.diameter <= most[0] or found.cautions
