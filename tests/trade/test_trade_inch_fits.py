"""Inch fits: what holds for every class and size, and what is refused, word for word."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import OutOfRange, TradeError, readable_fields
from shoplog.trade.limits_and_fits.inch_fits import InchFit, inch_fit

CLASSES = [row["fit_class"] for row in table("fits_inch_classes").rows]
LIMITS = table("fits_inch_limits").rows
# Over this size these begin.
FROM = {"LT3": 0.24, "LT4": 0.24, "FN3": 0.95}


def rows_of(name: str) -> list[dict[str, str]]:
    return [row for row in LIMITS if row["fit_class"] == name]


def test_every_class_of_the_standard_is_there() -> None:
    counts = {"RC": 9, "LC": 11, "LT": 6, "LN": 3, "FN": 5}
    every = [f"{group}{n}" for group, most in counts.items() for n in range(1, most + 1)]
    assert every == CLASSES


@pytest.mark.parametrize("name", CLASSES)
def test_the_ranges_of_a_class_join_up_to_the_last_size(name: str) -> None:
    rows = rows_of(name)
    assert float(rows[0]["over_in"]) == FROM.get(name, 0)
    assert float(rows[-1]["to_in"]) == 19.69
    assert [row["over_in"] for row in rows[1:]] == [row["to_in"] for row in rows[:-1]]


@pytest.mark.parametrize("name", CLASSES)
def test_limits_grow_with_the_size(name: str) -> None:
    holes = [float(row["hole_upper_thou"]) for row in rows_of(name)]
    outer = [
        max(abs(float(row["shaft_upper_thou"])), abs(float(row["shaft_lower_thou"])))
        for row in rows_of(name)
    ]
    assert holes == sorted(holes)
    assert outer == sorted(outer)


# The ABC system: classes that share a symbol share a tolerance, by the symbols of each class.
@pytest.mark.parametrize("name", CLASSES)
def test_classes_with_one_hole_symbol_have_one_hole(name: str) -> None:
    symbols = {row["fit_class"]: row["hole"] for row in table("fits_inch_classes").rows}
    for other in CLASSES:
        if symbols[other] == symbols[name]:
            for row in rows_of(name):
                size = float(row["to_in"])
                if size > FROM.get(other, 0):
                    assert inch_fit(other, size).hole_upper == inch_fit(name, size).hole_upper


@pytest.mark.parametrize(
    ("one", "other", "grade"),
    [
        ("RC2", "LC1", "5"),
        ("RC3", "LC2", "6"),
        ("RC4", "LC3", "7"),
        ("RC8", "LC4", "9"),
        ("LC5", "LC2", "6"),
        ("LC7", "LC4", "9"),
        ("LT5", "LC2", "6"),
        ("LT6", "LC3", "7"),
        ("LN2", "LC2", "6"),
        ("FN2", "LC2", "6"),
    ],
)
def test_shafts_of_one_grade_have_one_tolerance(one: str, other: str, grade: str) -> None:
    for row in rows_of(one):
        size = float(row["to_in"])
        first, second = inch_fit(one, size), inch_fit(other, size)
        assert first.shaft_upper - first.shaft_lower == pytest.approx(
            second.shaft_upper - second.shaft_lower, abs=0.06
        ), (size, grade)


@given(st.sampled_from(CLASSES), st.floats(min_value=0.96, max_value=19.69))
def test_a_class_is_of_its_kind_and_its_fit_agrees(name: str, diameter: float) -> None:
    made = inch_fit(name, diameter)
    assert made.kind == made.fit.kind
    assert made.fit.clearance_min == pytest.approx(25.4 * made.clearance_min, abs=1e-3)
    assert made.fit.clearance_max == pytest.approx(25.4 * made.clearance_max, abs=1e-3)
    assert made.interference_max == -made.clearance_min
    assert made.interference_min == -made.clearance_max
    assert made.hole.lower == 0
    assert made.hole.nominal == made.shaft.nominal == 25.4 * diameter
    assert made.describe().startswith(f"{name}, a ")


@pytest.mark.parametrize(
    ("name", "diameter", "described"),
    [
        (
            "RC4",
            0.75,
            "RC4, a close running fit of 0.8 to 2.8 thou clearance: it runs with little play, for"
            " accurate machines at moderate speed and load",
        ),
        (
            "lt 3",
            0.75,
            "LT3, a locational transition fit of 0.6 thou interference to 0.7 thou clearance: it"
            " locates without play, tapped together; a pair may come out a little loose or a"
            " little tight",
        ),
        (
            "FN-2",
            0.75,
            "FN2, a medium drive fit of 0.6 to 1.9 thou interference: it drives ordinary steel"
            " parts, pressed or shrunk on, and is about the tightest that cast iron bears",
        ),
    ],
)
def test_a_class_is_described_in_plain_words(name: str, diameter: float, described: str) -> None:
    assert inch_fit(name, diameter).describe() == described


def test_a_size_at_the_end_of_a_range_belongs_to_it() -> None:
    assert inch_fit("RC4", 0.71).hole_upper == 1.0
    assert inch_fit("RC4", 0.71 + 1e-12).hole_upper == 1.0
    assert inch_fit("RC4", 0.7101).hole_upper == 1.2


def test_a_press_fit_carries_the_cautions_of_pressing_and_shrinking() -> None:
    assert [caution.split(":")[0] for caution in inch_fit("FN4", 2).cautions] == [
        "pressing",
        "shrinking",
    ]
    assert inch_fit("RC5", 2).cautions == ()


def test_a_page_can_read_the_fields_of_an_inch_fit() -> None:
    assert sorted(readable_fields(InchFit)) == [
        "character",
        "clearance_max",
        "clearance_min",
        "description",
        "fit",
        "fit_class",
        "hole",
        "hole_upper",
        "interference_max",
        "interference_min",
        "kind",
        "notes",
        "shaft",
        "shaft_lower",
        "shaft_upper",
    ]


GROUPS = "there are RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5"


@pytest.mark.parametrize(
    ("name", "diameter", "message", "hint"),
    [
        ("RC10", 1, "'RC10' is not an inch fit class", GROUPS),
        ("H7", 1, "'H7' is not an inch fit class", GROUPS),
        ("", 1, "'' is not an inch fit class", GROUPS),
        ("RC" * 500, 1, f"'{'RC' * 10}' is not an inch fit class", GROUPS),
        (
            "LT3",
            0.2,
            "LT3 is not given at 0.2 in: ANSI B4.1 has it over 0.24 in",
            "at this size there are LT1, LT2, LT5, LT6",
        ),
        (
            "FN3",
            0.5,
            "FN3 is not given at 0.5 in: ANSI B4.1 has it over 0.95 in",
            "at this size there are FN1, FN2, FN4, FN5",
        ),
    ],
)
def test_a_class_that_is_not_given_is_refused(
    name: str, diameter: float, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        inch_fit(name, diameter)
    assert (str(refused.value), refused.value.hint) == (message, hint)
    assert refused.value.argument == "fit_class"


@pytest.mark.parametrize("diameter", [0, -1, 19.7, 1e100])
def test_a_size_outside_the_tables_is_refused(diameter: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        inch_fit("RC4", diameter)
    assert str(refused.value) == (
        f"diameter is {diameter:g} in, it must be over 0 in and at most 19.69 in (ANSI B4.1)"
    )
