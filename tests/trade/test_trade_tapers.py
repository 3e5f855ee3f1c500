"""Tapers: designations, angles there and back, the setting of a lathe, and what mates."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import atan, degrees, isfinite, nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError, readable_fields
from shoplog.trade.offers import OFFERS
from shoplog.trade.taper_work import tapers as t

# A slow machine is no fault of a formula.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

HINT = (
    'write "Morse 2", "7:24 ISO 40" or a ratio such as "1:20"; there are also Metric, Jarno,'
    " Brown & Sharpe, Jacobs and collet tapers, B7 to B45 and taper pins"
)


def refused_argument(call: Callable[[], float]) -> str:
    """The argument at fault where a call is refused; `""` where it gives a finite number."""
    try:
        number = call()
    except TradeError as refused:
        return refused.argument
    return "" if isfinite(number) else "none: it gave a number that is not finite"


@pytest.mark.parametrize(
    ("text", "designation"),
    [
        *[(text, "Morse 2") for text in ("Morse 2", "morse 2", "MORSE No. 2", "Morse no 2")],
        *[(text, "Morse 2") for text in ("Morse taper 2", "Morse taper No. 2", "Morse #2")],
        *[(text, "Morse 2") for text in ("MT2", "mt 2", "2MT", "2 mt", "MK2", "  Morse   2 ")],
        ("Morse 0", "Morse 0"),
        ("Morse 7", "Morse 7"),
        ("MT02", "Morse 2"),
        *[(text, "7:24 ISO 40") for text in ("7:24 ISO 40", "7/24 ISO 40", "ISO 40", "iso40")],
        *[(text, "7:24 ISO 40") for text in ("7:24 No. 40", "7:24 No 40", "7:24 40")],
        *[(text, "1:50") for text in ("1:50", "1 : 50", "1/50", "1 in 50")],
        ("7:24", "7:24"),
        *[(text, "Jarno 8") for text in ("Jarno 8", "jarno no. 8", "Jarno taper #8")],
        *[(text, "Brown & Sharpe 7") for text in ("Brown & Sharpe 7", "B&S 7", "b & s no. 7")],
        ("Brown and Sharpe taper No. 10", "Brown & Sharpe 10"),
        *[(text, "Jacobs 33") for text in ("Jacobs 33", "JT33", "jacobs taper no. 33")],
        *[(text, "Jacobs 2 short") for text in ("Jacobs 2 short", "JT2S", "ISO 239-J2s")],
        *[(text, "B16") for text in ("B16", "b 16", "ISO 239-B16", "taper ISO 239 – B16")],
        *[(text, "Metric 80") for text in ("Metric 80", "ME80", "metric taper No. 80")],
        *[(text, "ISO 15488 collet 32") for text in ("ISO 15488 collet 32", "collet 32")],
        ("ISO 15488-32", "ISO 15488 collet 32"),
        *[(text, "taper pin 6x30") for text in ("taper pin 6x30", "taper pin 6 x 30 mm")],
        ("taper pin ISO 2339-A-6 x 30", "taper pin 6x30"),
        *[(text, "taper pin No. 4") for text in ("taper pin No. 4", "taper pin #4")],
        *[(text, "taper pin No. 7/0") for text in ("taper pin 7/0", "pin no. 7/0")],
        ("1:19.212", "1:19.212"),
        ("0.624:12", "0.624:12"),
    ],
)
def test_designation_is_read_as_it_is_written(text: str, designation: str) -> None:
    assert t.taper(text).designation == designation


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ("Brown 4", "'Brown 4' is not a taper that is known", HINT),
        ("", "'' is not a taper that is known", HINT),
        ("Morse", "'Morse' is not a taper that is known", HINT),
        ("Morse two", "'Morse two' is not a taper that is known", HINT),
        ("Morse ٢", "'Morse ٢' is not a taper that is known", HINT),
        ("1:-20", "'1:-20' is not a taper that is known", HINT),
        ("1:1e9", "'1:1e9' is not a taper that is known", HINT),
        ("1:50\n<b>", "'1:50\\n<b>' is not a taper that is known", HINT),
        ("9" * 5000, f"'{'9' * 60}' is not a taper that is known", HINT),
        ("1:0", "1:0 is no taper: both numbers must be over 0", HINT),
        ("0:20", "0:20 is no taper: both numbers must be over 0", HINT),
        (
            "Morse 8",
            "there is no taper Morse 8",
            "there are Morse 0, Morse 1, Morse 2, Morse 3, Morse 4, Morse 5, Morse 6, Morse 7",
        ),
        (
            "ISO 42",
            "there is no taper 7:24 ISO 42",
            "there are 7:24 ISO 30, 7:24 ISO 40, 7:24 ISO 45, 7:24 ISO 50, 7:24 ISO 60",
        ),
        ("Jacobs", "'Jacobs' is not a taper that is known", HINT),
        ("B&S seven", "'B&S seven' is not a taper that is known", HINT),
        (
            "JT7",
            "there is no taper Jacobs 7",
            "there are Jacobs 0, Jacobs 1, Jacobs 2, Jacobs 2 short, Jacobs 3, Jacobs 4, Jacobs 5,"
            " Jacobs 6, Jacobs 33",
        ),
        (
            "JT3S",
            "there is no taper Jacobs 3 short",
            "there are Jacobs 0, Jacobs 1, Jacobs 2, Jacobs 2 short, Jacobs 3, Jacobs 4, Jacobs 5,"
            " Jacobs 6, Jacobs 33",
        ),
        (
            "B14",
            "there is no taper B14",
            "there are B7, B10, B12, B16, B18, B22, B24, B32, B45",
        ),
        (
            "Metric 5",
            "there is no taper Metric 5",
            "there are Metric 4, Metric 6, Metric 80, Metric 100, Metric 120, Metric 160,"
            " Metric 200",
        ),
        (
            "collet 30",
            "there is no taper ISO 15488 collet 30",
            "there are ISO 15488 collet 8, ISO 15488 collet 11, ISO 15488 collet 16,"
            " ISO 15488 collet 20, ISO 15488 collet 25, ISO 15488 collet 32,"
            " ISO 15488 collet 40, ISO 15488 collet 50",
        ),
        (
            "taper pin 7x30",
            "there is no metric taper pin of 7 mm",
            "there are 0.6, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 40,"
            " 50 mm",
        ),
        ("taper pin 6x0", "the taper pin is 0 mm long, it must be over 0 mm", ""),
        (
            "taper pin No. 15",
            "there is no inch taper pin No. 15",
            "there are No. 7/0, 6/0, 5/0, 4/0, 3/0, 2/0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12,"
            " 13, 14",
        ),
        ("taper pin 6", "'taper pin 6' is not a taper that is known", HINT),
    ],
)
def test_what_is_no_taper_is_refused(text: str, message: str, hint: str) -> None:
    with pytest.raises(TradeError) as caught:
        t.taper(text)
    assert (str(caught.value), caught.value.hint) == (message, hint)
    assert caught.value.argument == "designation"


@given(st.text(max_size=80))
def test_any_text_is_a_taper_or_is_refused(text: str) -> None:
    assert refused_argument(lambda: t.taper(text).one_in) in ("", "designation")


def test_every_row_of_the_tables_is_found() -> None:
    for name, key, form in (("tapers_morse", "number", "MT{}"), ("tapers_7_24", "size", "ISO {}")):
        for row in table(name).rows:
            found = t.taper(form.format(row[key]))
            assert found.large_diameter == float(row["large_diameter_mm"])


@pytest.mark.parametrize(
    ("name", "key", "form"),
    [
        ("tapers_jarno", "number", "Jarno {}"),
        ("tapers_brown_sharpe", "number", "B&S {}"),
        ("tapers_jacobs", "number", "JT{}"),
        ("tapers_morse_short", "number", "B{}"),
        ("tapers_metric", "number", "ME{}"),
        ("tapers_collet", "size", "collet {}"),
    ],
)
def test_every_taper_with_a_name_has_both_ends_and_a_length(name: str, key: str, form: str) -> None:
    for row in table(name).rows:
        found = t.taper(form.format(row[key]))
        assert found.large_diameter is not None
        assert found.small_diameter is not None
        assert found.length is not None
        assert 0 < found.small_diameter < found.large_diameter
        assert found.large_diameter == pytest.approx(
            t.large_diameter_of(found.small_diameter, found.ratio, found.length)
        )


def test_a_shortened_morse_taper_is_a_part_of_its_morse_taper() -> None:
    for row in table("tapers_morse_short").rows:
        short, whole = t.taper(f"B{row['number']}"), t.taper(f"MT{row['morse']}")
        assert short.ratio == whole.ratio
        assert short.large_diameter is not None
        assert whole.large_diameter is not None
        assert short.large_diameter <= whole.large_diameter


def test_an_inch_pin_has_its_large_end_and_a_metric_one_gets_it_from_its_length() -> None:
    assert t.taper("taper pin No. 4").large_diameter == 0.25 * 25.4
    assert t.taper("taper pin No. 4").length is None
    metric = t.taper("taper pin 6x30")
    assert (metric.ratio, metric.length) == (1 / 50, 30)
    assert metric.large_diameter == pytest.approx(6.6)
    assert metric.small_diameter == pytest.approx(6)


def test_a_collet_is_set_to_8_degrees_from_the_axis_not_8_included() -> None:
    found = t.taper("collet 25")
    assert (found.half_angle, found.included_angle) == pytest.approx((8, 16))


def test_brown_and_sharpe_10_is_no_half_inch_to_the_foot() -> None:
    assert [
        row["number"]
        for row in table("tapers_brown_sharpe").rows
        if abs(t.taper(f"B&S {row['number']}").taper_per_foot - 0.5) > 0.01
    ] == ["10"]


def test_morse_taper_in_full() -> None:
    found = t.taper("Morse 2")
    assert found.ratio == pytest.approx(1 / 20.02)
    assert (found.large_diameter, found.length) == (17.78, 2.5625 * 25.4)
    assert found.small_diameter == pytest.approx(14.529, abs=5e-4)
    assert found.describe() == (
        "Morse 2 (17.780 mm at the gauge): 1:20.02 on diameter, 0.5994 in/ft, 2.8613° included."
    )


def test_a_ratio_has_no_size() -> None:
    found = t.taper("1:50")
    assert (found.large_diameter, found.length, found.small_diameter) == (None, None, None)
    assert found.describe() == "1:50: 1:50 on diameter, 0.2400 in/ft, 1.1459° included."


def test_a_7_24_taper_has_no_length_because_shanks_differ() -> None:
    found = t.taper("ISO 40")
    assert (found.large_diameter, found.length) == (44.45, None)
    assert "length" in table("tapers_7_24").head


def test_a_page_reads_size_angles_and_taper_per_foot() -> None:
    assert {"ratio", "one_in", "included_angle", "half_angle", "taper_per_foot"} <= set(
        readable_fields(t.Taper)
    )


cones = st.tuples(st.floats(1, 500), st.floats(0, 0.999), st.floats(1, 1000))


@given(cones)
def test_included_angle_is_twice_the_half_angle(cone: tuple[float, float, float]) -> None:
    large, part, length = cone
    half = t.taper_half_angle(large, part * large, length)
    assert t.taper_included_angle(large, part * large, length) == pytest.approx(2 * half)


@given(cones)
def test_angle_and_ratio_lead_back_to_the_small_diameter(
    cone: tuple[float, float, float],
) -> None:
    large, part, length = cone
    small = part * large
    angle = t.taper_included_angle(large, small, length)
    ratio = t.taper_from_angle(angle).ratio
    assert ratio == pytest.approx(t.taper_ratio(large, small, length))
    assert t.large_diameter_of(small, ratio, length) == pytest.approx(large)


@given(st.floats(1, 500), st.floats(0.001, 1), st.floats(0.001, 0.999))
def test_small_and_large_diameter_undo_each_other(large: float, ratio: float, part: float) -> None:
    length = part * large / ratio
    small = t.small_diameter_of(large, ratio, length)
    assert t.large_diameter_of(small, ratio, length) == pytest.approx(large)


@given(st.floats(0.01, 179))
def test_angle_there_and_back(angle: float) -> None:
    assert t.taper_from_angle(angle).included_angle == pytest.approx(angle)
    assert t.taper_per_foot_of(angle) == pytest.approx(t.taper_from_angle(angle).taper_per_foot)


@given(st.integers(1, 500))
def test_one_in_is_what_was_written(run: int) -> None:
    assert t.taper(f"1:{run}").one_in == pytest.approx(run)


def test_half_of_the_wrong_angle_is_not_the_half_angle() -> None:
    # A common slip: atan((D - d) / L), halved. At 1:4 it misses by 6 minutes of arc.
    right = t.taper_half_angle(40, 20, 80)
    wrong = degrees(atan((40 - 20) / 80)) / 2
    assert right == pytest.approx(7.1250, abs=5e-5)
    assert (right - wrong) * 60 == pytest.approx(6.41, abs=0.01)


def test_compound_is_set_to_the_half_angle_and_its_complement() -> None:
    setting = t.compound_setting(t.taper("1:20"))
    assert setting.angle == pytest.approx(1.43209618, abs=5e-9)
    assert setting.angle + setting.from_cross_slide == 90
    assert setting.describe() == (
        "1:20: top slide 1.4321° from the axis (88.5679° if the scale is 0 along the cross slide)."
    )
    assert setting.notes == (
        "the swivel scale is too coarse for a taper that must hold: set with an indicator along a"
        " gauge or a good taper, then try with marking blue",
    )


def test_a_swung_top_slide_carries_its_caution() -> None:
    assert OFFERS["compound_setting"].cautions == (t.SWUNG_SLIDE,)


def test_a_designation_can_stand_where_a_taper_is_wanted() -> None:
    (parameter,) = OFFERS["compound_setting"].parameters
    (kind,) = parameter.kinds
    assert kind.from_text("MT2") == t.taper("Morse 2")


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: t.taper_half_angle(20, 20, 50),
            "the small diameter (20 mm) is not less than the large one (20 mm)",
            "small_diameter",
        ),
        (
            lambda: t.taper_included_angle(20, 30, 50),
            "the small diameter (30 mm) is not less than the large one (20 mm)",
            "small_diameter",
        ),
        (
            lambda: t.taper_ratio(30, 20, 0),
            "length is 0 mm, it must be over 0 mm",
            "length",
        ),
        (
            lambda: t.taper_half_angle(30, 20, -50),
            "length is -50 mm, it must be over 0 mm",
            "length",
        ),
        (
            lambda: t.taper_half_angle(30, -1, 50),
            "small diameter is -1 mm, it must be at least 0 mm",
            "small_diameter",
        ),
        (
            lambda: t.taper_per_foot_of(0),
            "included angle is 0 deg, it must be over 0 deg",
            "included_angle",
        ),
        (
            lambda: t.taper_from_angle(180),
            "included angle is 180 deg, it must be below 180 deg",
            "included_angle",
        ),
        (
            lambda: t.small_diameter_of(20, 0, 50),
            "ratio is 0, it must be over 0",
            "ratio",
        ),
        (
            lambda: t.small_diameter_of(20, 0.5, 60),
            "the cone comes to a point 40 mm from its large end,"
            " it must be longer than the 60 mm asked",
            "length",
        ),
        (
            lambda: t.large_diameter_of(-2, 0.5, 60),
            "small diameter is -2 mm, it must be at least 0 mm and at most 1e+09 mm",
            "small_diameter",
        ),
    ],
)
def test_wrong_input_is_refused_with_value_and_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as caught:
        call()
    assert str(caught.value) == message
    assert caught.value.argument == argument


@pytest.mark.parametrize("odd", [0.0, -1.0, 1e-300, 5e-324, 1e100, -1e100, nan])
@pytest.mark.parametrize(
    ("formula", "good"),
    [
        (t.taper_half_angle, (30.0, 20.0, 50.0)),
        (t.taper_included_angle, (30.0, 20.0, 50.0)),
        (t.taper_ratio, (30.0, 20.0, 50.0)),
        (t.taper_per_foot_of, (10.0,)),
        (t.small_diameter_of, (30.0, 0.1, 50.0)),
        (t.large_diameter_of, (30.0, 0.1, 50.0)),
    ],
)
def test_no_float_gets_past_as_an_error_of_another_kind(
    formula: Callable[..., float], good: tuple[float, ...], odd: float
) -> None:
    names = [parameter.name for parameter in OFFERS[formula.__name__].parameters]
    for place in range(len(good)):
        call = partial(formula, *good[:place], odd, *good[place + 1 :])
        assert refused_argument(call) in ("", *names)


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        ("Morse 2", "MT2", ""),
        ("Morse 2", "1:20.020", ""),
        ("Morse 7", "1:19.231", ""),
        ("7:24 ISO 40", "7:24", ""),
        ("1:50", "2:100", ""),
        (
            "Morse 2",
            "Morse 3",
            "the tapers differ: Morse 2 is 1:20.02 and Morse 3 is 1:19.922",
        ),
        ("Morse 2", "1:20", "the tapers differ: Morse 2 is 1:20.02 and 1:20 is 1:20"),
        (
            "ISO 40",
            "ISO 50",
            "the sizes differ: 7:24 ISO 40 is 44.450 mm at the gauge and 7:24 ISO 50 is 69.850 mm",
        ),
        ("Jarno 8", "1:20", ""),
        ("JT33", "jacobs taper no. 33", ""),
        (
            "B16",
            "MT2",
            "the sizes differ: B16 is 15.733 mm at the gauge and Morse 2 is 17.780 mm",
        ),
        ("B18", "Morse 2", ""),
        (
            "JT6",
            "JT33",
            "the tapers differ: Jacobs 6 is 1:19.2641 and Jacobs 33 is 1:15.7493",
        ),
        (
            "taper pin No. 4",
            "taper pin 6x30",
            "the tapers differ: taper pin No. 4 is 1:48 and taper pin 6x30 is 1:50",
        ),
    ],
)
def test_tapers_mate_where_ratio_and_size_agree(one: str, other: str, why: str) -> None:
    assert t.tapers_mate(t.taper(one), t.taper(other)) == why


def test_no_two_morse_tapers_mate() -> None:
    morse = [t.taper(f"MT{number}") for number in range(8)]
    assert [(a, b) for a in morse for b in morse if a != b and not t.tapers_mate(a, b)] == []
