"""Limits and fits: what holds for every class and size, and what is refused, word for word."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, Size, TradeError, readable_fields
from shoplog.trade.limits_and_fits.fits import (
    Fit,
    fit,
    limits_of,
    standard_tolerance,
    tolerance_classes,
)
from shoplog.trade.limits_and_fits.iso286 import deviations
from shoplog.trade.offers import OFFERS

CLASSES = tolerance_classes()
HOLES = [name for name in CLASSES if name[0].isupper()]
SHAFTS = [name for name in CLASSES if name[0].islower()]
sizes = st.floats(min_value=0.4, max_value=3150)
STEPS = [float(row["to_mm"]) for row in table("iso286_holes").rows]
TO_500 = [to for to in STEPS if to <= 500]


def given_at(nominal: float, name: str) -> tuple[float, float] | None:
    try:
        return deviations(nominal, name)
    except TradeError:
        return None


# What holds for every class


@given(nominal=sizes, name=st.sampled_from(CLASSES))
def test_a_class_gives_a_size_with_its_tolerance_or_is_refused_with_a_hint(
    nominal: float, name: str
) -> None:
    size: Size | None = None
    hint = ""
    try:
        size = limits_of(nominal, name)
    except TradeError as refused:
        hint = refused.hint
    if size is None:
        assert hint
        return
    assert 0 < size.min < size.max
    grade = "".join(filter(str.isdigit, name))
    tolerance = standard_tolerance(grade, nominal)
    assert 1000 * (size.upper - size.lower) == pytest.approx(tolerance, abs=1e-9)
    assert size.tolerance_class == name


def test_every_class_that_is_offered_is_given_at_some_size() -> None:
    assert [name for name in CLASSES if not any(given_at(to, name) for to in STEPS)] == []


@pytest.mark.parametrize("to", STEPS)
@pytest.mark.parametrize("letter", ["A", "B", "C", "CD", "D", "E", "EF", "F", "FG", "G", "H", "JS"])
def test_a_hole_to_h_mirrors_the_shaft_of_its_letter(letter: str, to: float) -> None:
    hole, shaft = given_at(to, f"{letter}7"), given_at(to, f"{letter.lower()}7")
    assert (hole is None) == (shaft is None)
    assert hole is None or hole == (0 - shaft[1], 0 - shaft[0])


@pytest.mark.parametrize("to", STEPS)
@pytest.mark.parametrize(
    "name",
    ["M9", "P8", "R8", "S8", "T8", "U8", "V8", "X8", "Y8", "Z8", "ZA8", "ZB8", "ZC8", "P11", "R9"],
)
def test_a_hole_of_m_to_zc_without_delta_mirrors_the_shaft(name: str, to: float) -> None:
    hole, shaft = given_at(to, name), given_at(to, name.lower())
    assert (hole is None) == (shaft is None)
    assert hole is None or hole == (-shaft[1], -shaft[0])


@pytest.mark.parametrize("to", TO_500)
@pytest.mark.parametrize("grade", range(3, 9))
def test_a_delta_is_the_step_from_the_grade_below(grade: int, to: float) -> None:
    row = next(row for row in table("iso286_holes").rows if float(row["to_mm"]) == to)
    step = standard_tolerance(f"IT{grade}", to) - standard_tolerance(f"IT{grade - 1}", to)
    assert float(row[f"delta{grade}_um"]) == (step if to > 3 else 0)


@pytest.mark.parametrize("to", [to for to in STEPS if to > 500])
@pytest.mark.parametrize("name", ["K7", "M6", "N7", "P7", "R6", "S7", "T7", "U7"])
def test_over_500_mm_no_delta_is_added(name: str, to: float) -> None:
    lower, upper = deviations(to, name)
    assert deviations(to, name.lower()) == (0 - upper, 0 - lower)


# Within a range of the standard tolerances only these go up by the ranges between.
BETWEEN = set("A B C R S T U V X Y Z ZA ZB ZC".split())


@pytest.mark.parametrize("name", ["iso286_holes", "iso286_shafts"])
def test_only_a_to_c_and_r_to_zc_change_within_a_range_of_the_standard_tolerances(
    name: str,
) -> None:
    ends = [float(row["to_mm"]) for row in table("iso286_grades").rows]
    first: dict[float, dict[str, str]] = {}
    for row in table(name).rows:
        end = next(end for end in ends if float(row["to_mm"]) <= end)
        plain = {
            key: cell
            for key, cell in row.items()
            if key.endswith("_um") and key[:-3].upper() not in BETWEEN
        }
        assert first.setdefault(end, plain) == plain
    assert len(first) == len(ends)


# ISO 286-1: with the special rule for deltas the two bases give the same fit, for a hole one
# grade coarser than the shaft.
@pytest.mark.parametrize("to", [to for to in TO_500 if to > 3])
@pytest.mark.parametrize(
    "shaft", ["d6", "e6", "f6", "g6", "k6", "n6", "p6", "r6", "s6", "u6", "x6", "z6"]
)
def test_hole_basis_and_shaft_basis_give_the_same_fit(shaft: str, to: float) -> None:
    hole_basis = fit(limits_of(to, "H7"), limits_of(to, shaft))
    shaft_basis = fit(limits_of(to, shaft[0].upper() + "7"), limits_of(to, "h6"))
    assert (shaft_basis.clearance_min, shaft_basis.clearance_max) == (
        hole_basis.clearance_min,
        hole_basis.clearance_max,
    )


@given(nominal=st.floats(min_value=3.1, max_value=500), letter=st.sampled_from("bcdefghkmnprsuxz"))
def test_a_later_letter_makes_a_larger_shaft_and_a_smaller_hole(
    nominal: float, letter: str
) -> None:
    letters = "abcdefghkmnprsuxz"
    before = letters[letters.index(letter) - 1]
    assert deviations(nominal, f"{before}7")[1] < deviations(nominal, f"{letter}7")[1]
    assert (
        deviations(nominal, f"{before.upper()}7")[1] > deviations(nominal, f"{letter.upper()}7")[1]
    )


def test_a_size_a_hair_over_the_end_of_a_range_belongs_to_it() -> None:
    assert deviations(30 + 1e-12, "H7") == deviations(30, "H7")
    assert deviations(500 + 1e-12, "H7") == (0, 63)
    assert deviations(500.001, "H7") == (0, 70)
    assert deviations(3150 + 1e-12, "H7") == (0, 210)
    assert deviations(30.001, "H7") == (0, 25)


def test_the_special_cases_of_the_standard_are_kept() -> None:
    assert deviations(300, "M6") == (-41, -9)  # and not -11
    assert deviations(300, "M5") == (-36, -13)
    assert deviations(5, "N9") == (-30, 0)
    assert deviations(2, "K9") == (-25, 0)
    assert deviations(30, "k8") == (0, 33)
    assert deviations(2, "k8") == (0, 14)
    assert deviations(2, "j8") == (-6, 8)
    assert deviations(30, "k3") == (0, 4)
    assert deviations(30, "JS7") == (-10.5, 10.5)
    assert deviations(30, "H01") == (0, 0.6)
    assert deviations(30, "h0") == (-1, 0)
    assert deviations(600, "K9") == (-175, 0)


# Fits


@st.composite
def plain_sizes(draw: st.DrawFn, nominal: float) -> Size:
    ends = st.floats(min_value=-0.1, max_value=0.1).filter(lambda end: abs(end) > 1e-6)
    lower, upper = sorted((draw(ends), draw(ends)))
    return Size(nominal, lower, upper)


@given(st.data(), st.floats(min_value=0.5, max_value=2000))
def test_a_fit_read_backwards_is_the_extremes_of_the_two_parts(
    data: st.DataObject, nominal: float
) -> None:
    hole, shaft = data.draw(plain_sizes(nominal)), data.draw(plain_sizes(nominal))
    made = fit(hole, shaft)
    assert made.clearance_min == pytest.approx(1000 * (hole.min - shaft.max), abs=1e-5)
    assert made.clearance_max == pytest.approx(1000 * (hole.max - shaft.min), abs=1e-5)
    assert made.interference_min == -made.clearance_max
    assert made.interference_max == -made.clearance_min
    assert made.clearance_min <= made.clearance_max
    loose, tight = made.clearance_min >= 0, made.clearance_max <= 0
    assert made.kind == ("clearance" if loose else "interference" if tight else "transition")
    assert made.kind in made.describe()
    assert bool(made.cautions) == (made.clearance_min + made.clearance_max < 0)


@given(sizes, st.sampled_from(HOLES), st.sampled_from(SHAFTS))
def test_any_two_classes_make_a_fit_with_words(nominal: float, hole: str, shaft: str) -> None:
    try:
        parts = limits_of(nominal, hole), limits_of(nominal, shaft)
    except TradeError:
        return
    made = fit(*parts)
    assert made.designation == f"{nominal:.12g} mm {hole}/{shaft}"
    assert len(made.description) > 20


@pytest.mark.parametrize(
    ("nominal", "hole", "shaft", "described"),
    [
        (
            30,
            "H7",
            "p6",
            "an interference fit of 1 to 35 µm: it locates the parts and is not to be counted on"
            " for torque",
        ),
        (
            16,
            "H8",
            "f7",
            "a clearance fit of 16 to 61 µm: it runs with little play, for accurate machines at"
            " moderate speed and load",
        ),
        (
            25.4,
            "H7",
            "js6",
            "a transition fit, from 6.5 µm interference to 27.5 µm clearance: near to H7/k6, it"
            " locates accurately, and a pair may come out a little loose or a little tight",
        ),
        (
            30,
            "H11",
            "h11",
            "a clearance fit of 0 to 260 µm: coarser than H7/h6, the parts always go together by"
            " hand",
        ),
        (
            30,
            "C11",
            "c11",
            "a clearance fit of 220 to 480 µm: looser than H11/c11, the parts always go together"
            " by hand",
        ),
        (
            30,
            "S6",
            "s6",
            "an interference fit of 66 to 92 µm: tighter than H7/u6, the shaft is always larger"
            " than the hole, and the stress in the outer part is to be worked out before it is"
            " pressed",
        ),
        (
            2,
            "H7",
            "p6",
            "a transition fit, from 12 µm interference to 4 µm clearance: near to H7/n6, it"
            " locates more accurately still, and most pairs come out tight",
        ),
        (
            30,
            "H8",
            "s7",
            "an interference fit of 2 to 56 µm: near to H7/p6, it locates the parts and is not to"
            " be counted on for torque",
        ),
    ],
)
def test_a_fit_is_described_in_plain_words(
    nominal: float, hole: str, shaft: str, described: str
) -> None:
    assert fit(limits_of(nominal, hole), limits_of(nominal, shaft)).describe() == described


@pytest.mark.parametrize("row", table("iso286_fit_words").rows, ids=lambda row: row["hole_basis"])
def test_a_preferred_fit_has_its_own_words_on_either_basis(row: dict[str, str]) -> None:
    for basis in filter(None, (row["hole_basis"], row["shaft_basis"])):
        hole, shaft = basis.split("/")
        made = fit(limits_of(40, hole), limits_of(40, shaft))
        assert (made.kind, made.description) == (row["kind"], row["words"])
    assert row["words"]


def test_plain_limits_make_a_fit_too() -> None:
    made = fit(Size(16, -0.01, 0.02), Size(16, -0.04, -0.02))
    assert (made.kind, made.clearance_min, made.clearance_max) == ("clearance", 10, 60)
    assert made.designation == "16 mm, hole +0.02/-0.01, shaft -0.02/-0.04"
    assert made.describe() == (
        "a clearance fit of 10 to 60 µm: near to H7/g6, it slides and turns by hand and locates"
        " accurately, and is not meant to run freely"
    )


@pytest.mark.parametrize(
    ("hole", "shaft", "designation"),
    [
        (Size(30, 0.0, 0.021, "H7"), Size(30, 0.022, 0.035, "p6"), "30 mm H7/p6"),
        (Size(25.4, 0.0, 0.021, "H7"), Size(25.4, -0.05, 0), "25.4 mm, hole H7, shaft 0/-0.05"),
        (Size(8, -0.05, 0.05), Size(8, -0.015, 0, "h7"), "8 mm, hole ±0.05, shaft h7"),
    ],
)
def test_a_fit_has_a_designation(hole: Size, shaft: Size, designation: str) -> None:
    assert fit(hole, shaft).designation == designation


def test_a_size_over_500_mm_has_a_fit_but_no_preferred_one() -> None:
    made = fit(Size(800, 0, 0.1), Size(800, -0.3, -0.2))
    assert (
        made.describe() == "a clearance fit of 200 to 400 µm: the parts always go together by hand"
    )


def test_limits_that_just_meet_are_a_clearance_or_an_interference_fit() -> None:
    assert fit(Size(10, 0, 0.01), Size(10, -0.01, 0.0)).kind == "clearance"
    assert fit(Size(10, -0.01, 0.0), Size(10, 0.0, 0.01)).kind == "interference"


def test_an_inch_and_25_4_mm_are_one_nominal_size() -> None:
    assert fit(limits_of(0.1 + 25.3, "H7"), limits_of(25.4, "g6")).kind == "clearance"


def test_an_interference_fit_carries_the_cautions_of_pressing_and_shrinking() -> None:
    press = fit(limits_of(30, "H7"), limits_of(30, "s6"))
    assert [caution.split(":")[0] for caution in press.cautions] == ["pressing", "shrinking"]
    assert "stand out of line with the press" in press.cautions[0]
    tight = fit(limits_of(30, "H7"), limits_of(30, "n6"))
    assert [caution.split(":")[0] for caution in tight.cautions] == [
        "a tight pair may need a press"
    ]
    assert fit(limits_of(30, "H7"), limits_of(30, "k6")).cautions == ()


def test_fit_and_standard_tolerance_are_offered_and_limits_of_is_not() -> None:
    assert OFFERS["fit"].topic == OFFERS["standard_tolerance"].topic == "fits"
    assert "limits_of" not in OFFERS
    assert [parameter.name for parameter in OFFERS["fit"].parameters] == ["hole", "shaft"]


def test_a_page_can_read_the_fields_of_a_fit() -> None:
    assert sorted(readable_fields(Fit)) == [
        "clearance_max",
        "clearance_min",
        "description",
        "designation",
        "hole",
        "interference_max",
        "interference_min",
        "kind",
        "shaft",
    ]


# What is refused

ASK = "give the limits themselves, upper first, such as 16 mm +0.02/-0.01"
RANGE = "it must be over 0 mm and at most 3150 mm (ISO 286-1)"
GRADES = "its grades are 01, 0, and 1 to 18"


@pytest.mark.parametrize(
    ("nominal", "name", "message", "hint"),
    [
        (
            16,
            "Q7",
            "Q7 is not a tolerance class: ISO 286-1 has no letter Q",
            "a letter and a grade, such as H7 or js6",
        ),
        (
            16,
            "Hh7",
            "Hh7 is not a tolerance class: ISO 286-1 has no letter Hh",
            "did you mean h7 or H7?",
        ),
        (16, "Js7", "Js7 is not a tolerance class", "did you mean JS7 or js7?"),
        (16, "7H", "7H is not a tolerance class", "a letter and a grade, such as H7 or js6"),
        (16, "H07", "H07 is not a tolerance class", "did you mean H7?"),
        (16, "", " is not a tolerance class", "a letter and a grade, such as H7 or js6"),
        (
            16,
            "H" * 5000,
            "HHHHHHHHHHHHHHHHHHHH is not a tolerance class",
            "a letter and a grade, such as H7 or js6",
        ),
        (16, "H99", f"H99 has no grade in ISO 286-1: {GRADES}", ASK),
        (16, "h19", f"h19 has no grade in ISO 286-1: {GRADES}", ASK),
        (
            600,
            "H01",
            "IT01 is not given at 600 mm: ISO 286-1 has it to 500 mm",
            "IT1, or a coarser grade",
        ),
        (
            20,
            "t6",
            "t6 is not given at 20 mm: the tables have t over 24 mm only",
            "s6 and u6 lie on either side of it",
        ),
        (
            12,
            "V7",
            "V7 is not given at 12 mm: the tables have V over 14 to 500 mm only",
            "U7 and X7 lie on either side of it",
        ),
        (
            600,
            "ZA7",
            "ZA7 is not given at 600 mm: the tables have ZA to 500 mm only",
            "U7 is the nearest",
        ),
        (
            600,
            "c11",
            "c11 is not given at 600 mm: the tables have c to 500 mm only",
            "d11 is the nearest",
        ),
        (
            1,
            "a11",
            "a11 is not given at 1 mm: the tables have a over 1 to 500 mm only",
            "c11 is the nearest",
        ),
        (
            12,
            "cd8",
            "cd8 is not given at 12 mm: the tables have cd to 10 mm only",
            "c8 and d8 lie on either side of it",
        ),
        (
            12,
            "FG6",
            "FG6 is not given at 12 mm: the tables have FG to 10 mm only",
            "F6 and G6 lie on either side of it",
        ),
        (
            5,
            "J9",
            "J9 is not given at 5 mm: the tables have J6, J7 and J8 to 500 mm only",
            "JS9 lies evenly about the nominal size",
        ),
        (
            5,
            "j8",
            "j8 is not given at 5 mm: the tables have j5, j6 and j7 to 500 mm, and j8 to 3 mm",
            "js8 lies evenly about the nominal size",
        ),
        (
            5,
            "K9",
            "K9 is not given at 5 mm: the tables have K above grade 8 to 3 mm and over 500 mm only",
            "JS9 lies evenly about the nominal size",
        ),
        (
            1,
            "N9",
            "N9 is not given at 1 mm: the tables have N above grade 8 over 1 mm only",
            "N8, or H with a shaft n",
        ),
        (
            16,
            "P2",
            "P2 is not given at 16 mm: the tables have P from grade 3",
            "P3, or H with a tighter shaft",
        ),
        (
            0.5,
            "H14",
            "IT14 is not used for 0.5 mm: ISO 286-1 gives it over 1 mm",
            f"IT13, or {ASK}",
        ),
        (
            0.1,
            "c13",
            "c13 at 0.1 mm has a least size of -0.1 mm, it must be over 0 mm",
            "a finer grade, or a letter nearer to H or h",
        ),
        (
            30000,
            "H7",
            f"nominal size is 30000 mm, {RANGE}",
            f"`m` is the metre; 30 mm has a class. Else {ASK}",
        ),
        (
            3151,
            "H7",
            f"nominal size is 3151 mm, {RANGE}",
            f"`m` is the metre; 3.151 mm has a class. Else {ASK}",
        ),
        (1e100, "H7", f"nominal size is 1e+100 mm, {RANGE}", ""),
        (0, "H7", f"nominal size is 0 mm, {RANGE}", ""),
        (-16, "h6", f"nominal size is -16 mm, {RANGE}", ""),
    ],
)
def test_a_class_that_cannot_be_given_is_refused_by_name(
    nominal: float, name: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        limits_of(nominal, name)
    assert (str(refused.value), refused.value.hint) == (message, hint)


HOLE, SHAFT = limits_of(30, "H7"), limits_of(30, "p6")


@pytest.mark.parametrize(
    ("hole", "shaft", "argument", "message", "hint"),
    [
        (
            HOLE,
            limits_of(24, "p6"),
            "shaft",
            "the nominal sizes differ: the hole is 30 mm (1.1811 in), the shaft 24 mm (0.9449 in)",
            "a fit is between a hole and a shaft of one nominal size",
        ),
        (
            SHAFT,
            HOLE,
            "hole",
            "p6 is a class for a shaft, and is given as the hole",
            "the hole comes first, with a capital: fit(30 mm H7, 30 mm p6)",
        ),
        (
            HOLE,
            HOLE,
            "shaft",
            "H7 is a class for a hole, and is given as the shaft",
            "the hole comes first, with a capital: fit(30 mm H7, 30 mm p6)",
        ),
        (
            HOLE,
            Size(30, 0, 0),
            "shaft",
            "the shaft, 30 mm, has no limits",
            "give it a class or limits, such as 30 mm h6 or 30 mm ±0.05",
        ),
        (
            Size(12.5, 0, 0),
            SHAFT,
            "hole",
            "the hole, 12.5 mm, has no limits",
            "give it a class or limits, such as 12.5 mm H7 or 12.5 mm ±0.05",
        ),
        (
            Size(30, 0.1, -0.1),
            SHAFT,
            "hole",
            "the hole's upper deviation (-0.1 mm) is below its lower one (+0.1 mm)",
            "the upper deviation comes first",
        ),
        (
            HOLE,
            Size(0.1, -0.1, 0),
            "shaft",
            "the shaft's least size is 0 mm, it must be over 0 mm",
            "",
        ),
        (Size(-30, 0, 0.1), SHAFT, "hole", "hole is -30 mm, it must be over 0 mm", ""),
    ],
)
def test_two_sizes_that_make_no_fit_are_refused(
    hole: Size, shaft: Size, argument: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        fit(hole, shaft)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == argument


@pytest.mark.parametrize("grade", ["7", "IT7"])
def test_a_standard_tolerance_is_asked_for_by_its_grade(grade: str) -> None:
    assert standard_tolerance(grade, 30) == 21


@pytest.mark.parametrize("grade", ["", "H7", "IT", "IT00", "IT07", "it7", "IT7.5", "-7", "IT²"])
def test_what_is_no_grade_is_refused(grade: str) -> None:
    with pytest.raises(TradeError) as refused:
        standard_tolerance(grade, 30)
    assert str(refused.value) == f"{grade} is not a standard tolerance grade"
    assert refused.value.hint == "IT01, IT0, and IT1 to IT18, such as IT7"


def test_a_grade_or_diameter_outside_the_table_is_refused() -> None:
    with pytest.raises(TradeError, match=r"^IT19 has no grade in ISO 286-1: its grades are 01"):
        standard_tolerance("IT19", 30)
    with pytest.raises(OutOfRange, match=r"^diameter is 3200 mm, it must be over 0 mm and at most"):
        standard_tolerance("IT7", 3200)
    with pytest.raises(TradeError, match=r"^IT14 is not used for 1 mm"):
        standard_tolerance("IT14", 1)
