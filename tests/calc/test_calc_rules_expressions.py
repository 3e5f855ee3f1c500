"""Rules 18 to 21 of the language: `to`, chains, lists, arguments, readings."""

from __future__ import annotations

import pytest
from calc_page import codes, findings, number, only, value, values

from shoplog.values import Value


@pytest.mark.parametrize(
    ("expression", "unit", "expected"),
    [
        ("x + y to mm", "mm", 27.4),
        ("(x to mm) + y", "mm", 27.4),
        ("-x to mm", "mm", -25.4),
        ("max(x to mm, y to in)", "mm", 25.4),
    ],
)
def test_to_is_below_sums_and_last(expression: str, unit: str, expected: float) -> None:
    """Rule 18."""
    assert number(expression, unit, "x = 1 in\ny = 2 mm") == pytest.approx(expected)


def test_to_gives_the_unit_that_it_names() -> None:
    """Rule 18."""
    found = value("x + y to mm", "x = 1 in\ny = 2 mm")
    assert isinstance(found, Value)
    assert found.unit.text == "mm"


def test_to_is_above_comparison_and_stands_in_arguments_lists_mates_and_readings() -> None:
    """Rule 18."""
    assert findings("check 1 in to mm == 25.4 mm\ncheck 25.4 mm == 1 in to mm") == []
    given = values(
        "n = spindle_speed(30 m/min to m/min, diameter=1 in to mm)\np = [1 in to mm, 2 in to mm]"
    )
    assert given["n"].nominal == pytest.approx(1000 * 30 / (3.141592653589793 * 25.4))
    assert [item.unit.text for item in given["p"]] == ["mm", "mm"]
    assert (
        findings("a = 16 mm H7\nb = 16 mm f7\nmeasured a = 16.005 mm to in\nmate a to in with b")
        == []
    )


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = 1 in to mm + 3 mm",
            "1:16",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) + …",
        ),
        (
            "a = 1 in to mm - 3 mm",
            "1:16",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) - …",
        ),
        (
            "a = 1 in to mm * 2",
            "1:16",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) * …",
        ),
        (
            "a = 1 in to mm ** 2",
            "1:16",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) ** …",
        ),
        (
            "a = 1 in to mm/2",
            "1:15",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) / …",
        ),
        (
            "a = 1 in to mm to in",
            "1:16",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) to …",
        ),
        (
            "a = (1 in to mm to in)",
            "1:17",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) to …",
        ),
        (
            "a = max(1 in to mm + 3 mm, 2 mm)",
            "1:20",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) + …",
        ),
        (
            "check 1 in to mm + 3 mm > 2 mm",
            "1:18",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm) + …",
        ),
        (
            "a = 30 m/min / (pi*10 mm) to rpm/2",
            "1:33",
            "`to` comes last in an expression, and once",
            "bracket it: (30 m/min / (pi*10 mm) to rpm) / …",
        ),
        (
            "a = 1 in to mm.x",
            "1:15",
            "`to` comes last in an expression, and once",
            "bracket it: (1 in to mm).…",
        ),
        ("a = 1 in to (mm)", "1:13", "`(` is not a unit of this log", "such as mm or rpm"),
    ],
)
def test_to_comes_last_and_once(text: str, place: str, message: str, hint: str) -> None:
    """Rule 18."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("condition", "holds"),
    [
        ("1 mm < 1.5 mm < 2 mm", True),
        ("1 mm < 2.5 mm < 2 mm", False),
        ("3 mm > 2 mm >= 2 mm", True),
        ("1 mm == 1 mm == 1 mm", True),
        ("1 < 2 <= 2 < 3", True),
        ("1 < 2 < 3 < 2", False),
    ],
)
def test_a_chain_means_each_of_its_comparisons(condition: str, holds: bool) -> None:
    """Rule 19."""
    assert value(condition) is holds


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "check 1 mm < 3 mm > 2 mm",
            "1:7",
            "a chain of comparisons goes one way",
            "write two checks",
        ),
        (
            "check 1 mm < 2 mm == 2 mm",
            "1:7",
            "a chain of comparisons goes one way",
            "write two checks",
        ),
        ("check 1 < 2 != 3", "1:7", "a chain of comparisons goes one way", "write two checks"),
    ],
)
def test_a_chain_goes_one_way(text: str, place: str, message: str, hint: str) -> None:
    """Rule 19."""
    assert only(text) == (place, message, hint)


def test_lists_of_one_dimension_are_read_from_0() -> None:
    """Rule 20."""
    assert number("p[1]", "mm", "p = [1 in, 2 mm]") == 2
    assert number("[1 mm, 2 mm][0]", "mm") == 1
    assert number("bolt_circle(diameter=50 mm, holes=4).points[0].x", "mm") == pytest.approx(25)
    assert values('a = [1 mm,]\nb = []\nc = ["x", "y"]').keys() == {"a", "b", "c"}


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "p = [1 mm, 2 s]",
            "1:12",
            "a list holds things of one kind, this one a length and a time",
            "",
        ),
        (
            "p = [1 mm, 0]",
            "1:12",
            "a list holds things of one kind, this one a length and a plain number",
            "",
        ),
        (
            'p = [1 mm, "b"]',
            "1:12",
            "a list holds things of one kind, this one a length and a text",
            "",
        ),
        ("p = [[1 mm], [2 mm]]", "1:6", "a list holds no lists", ""),
        ("q = [1 mm]\np = [q]", "2:6", "a list holds no lists", ""),
        (
            "p = [1 < 2, 3]",
            "1:13",
            "a list holds things of one kind, this one true or false and a plain number",
            "",
        ),
        ("p = [1 mm]\na = p[1]", "2:5", "this list has 1 item, [0]", ""),
        ("p = []\na = p[0]", "2:5", "this list has no items", ""),
        ("p = [1 mm, 2 mm]\na = p[2]", "2:5", "this list has 2 items, [0] to [1]", ""),
        ("p = [1 mm]\na = p[-1]", "2:7", "a whole number, such as [0], is wanted before `-`", ""),
        ("p = [1 mm]\na = p[0.5]", "2:8", "an operator or the end is wanted before `.`", ""),
        ("p = [1 mm]\na = p[p]", "2:7", "a whole number, such as [0], is wanted before `p`", ""),
        ("p = [1 mm]\na = p[]", "2:7", "a whole number, such as [0], is wanted before `]`", ""),
        ("a = 3 mm\nb = a[0]", "2:5", "a length is not a list", ""),
        ("p = [1 mm]\na = p.x", "2:7", "a list has no field `x`", ""),
        ("p = [1 mm]\na = p + 1 mm", "2:5", "+ takes quantities; this is a list", ""),
        ("p = [1 mm,, 2 mm]", "1:11", "a value is wanted before `,`", ""),
        ("p = [1 mm 2 mm]", "1:11", "an operator or the end is wanted before `2`", ""),
    ],
)
def test_what_a_list_is_not(text: str, place: str, message: str, hint: str) -> None:
    """Rule 20."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = spindle_speed(diameter=1 mm, diameter=2 mm)",
            "1:34",
            "the argument diameter is given twice",
            "",
        ),
        (
            "a = spindle_speed(diameter=10 mm, 30 m/min)",
            "1:35",
            "an argument without a name stands before those with one",
            "",
        ),
        (
            "a = spindle_speed(30 m/min, cutting_speed=20 m/min)",
            "1:29",
            "cutting_speed of spindle_speed is given twice, by its place and by its name",
            "",
        ),
        (
            "a = spindle_speed(30 m/min, 10 mm, 3)",
            "1:36",
            "spindle_speed takes 2 arguments at most, this is one more",
            "",
        ),
        (
            "a = spindle_speed(30 m/min)",
            "1:5",
            "spindle_speed needs diameter, a length",
            "spindle_speed(cutting_speed, diameter)",
        ),
        (
            "a = spindle_speed()",
            "1:5",
            "spindle_speed needs cutting_speed, a feed or speed",
            "spindle_speed(cutting_speed, diameter)",
        ),
        (
            "a = spindle_speed(30 m/min, 10 s)",
            "1:29",
            "diameter of spindle_speed is a length; this is a time",
            "",
        ),
        (
            "a = spindle_speed(30, 10 mm)",
            "1:19",
            "cutting_speed of spindle_speed is a feed or speed; this is a plain number",
            "write 30 m/min",
        ),
        (
            'a = spindle_speed(30 m/min, "x")',
            "1:29",
            "diameter of spindle_speed is a length; this is a text",
            "",
        ),
        ("a = spindle_speed(30 m/min, 0 mm)", "1:29", "diameter is 0 mm, it must be over 0 mm", ""),
        ("a = spindle_speed(30 m/min, 0)", "1:29", "diameter is 0 mm, it must be over 0 mm", ""),
        (
            "a = spindle_speed(cutting_speed=30 m/min, dimeter=10 mm)",
            "1:43",
            "spindle_speed has no argument `dimeter`",
            "did you mean diameter?",
        ),
        (
            "a = spindel(3 mm)",
            "1:5",
            "there is no formula `spindel`",
            "did you mean spindle_speed?",
        ),
        ("a = frobnicate(3)", "1:5", "there is no formula `frobnicate`", ""),
        (
            "a = table_feed(0.05 mm/tooth, 2.5, 900 rpm)",
            "1:31",
            "teeth is 2.5, it must be a whole number",
            "",
        ),
        (
            "a = fit(16 mm, 16 mm f7)",
            "1:9",
            "hole of fit is a size with limits; this one has none",
            "give it a class or limits: 16 mm H7, 16 mm ±0.05",
        ),
        (
            'a = fit(16 mm H7, "f7")',
            "1:19",
            "shaft of fit is a size with limits; this is a text",
            "",
        ),
        (
            "a = thread(6 mm)",
            "1:12",
            "designation of thread is a text in quotes; this is a length",
            "",
        ),
        (
            'a = thread("M6x{0}")',
            "1:12",
            "x{0} is nothing that ISO 965-1 writes here",
            '"6H", "6g", "5g6g" or "LH" may follow',
        ),
        (
            'a = thread("M6x1").mayor',
            "1:20",
            "a thread has no field `mayor`",
            "did you mean major?",
        ),
        (
            'a = thread("M6x1").mayor.x',
            "1:20",
            "a thread has no field `mayor`",
            "did you mean major?",
        ),
        ('a = taper("1:50").large_diameter', "1:19", "a taper says nothing of large_diameter", ""),
        (
            "a = nearest_drill(10 mm, sets=3)",
            "1:31",
            "sets of nearest_drill is a text in quotes; this is a plain number",
            "",
        ),
    ],
)
def test_an_argument_that_is_wrong(text: str, place: str, message: str, hint: str) -> None:
    """Rule 20."""
    assert only(text) == (place, message, hint)


def test_a_formula_takes_the_nominal_of_a_size_with_limits_and_says_so() -> None:
    """Design: a formula that is not made for limits takes the nominal."""
    from calc_page import items

    (found,) = items("n = cutting_speed(spindle_speed=500 rpm, diameter=16 mm H7)")
    assert found.working.notes == ["diameter is taken at its nominal size, 16.000 mm"]
    (found,) = items("n = sin(limits(30 deg, 1 deg, -1 deg))")
    assert found.working.notes == ["sin is not made for limits: the nominal was taken"]
    (found,) = items("n = 2**limits(2, 0.1, -0.1)")
    assert found.working.notes == ["** does not carry these limits: the nominal was taken"]


def test_a_bare_0_stands_for_any_quantity_in_a_call() -> None:
    """Rule 13."""
    call = "milling_time(length=100 mm, table_feed=200 mm/min, approach=0, overrun=0, passes=1)"
    assert number(call, "min") == 0.5


def test_a_reading_names_a_size_above_it_or_begins_a_name() -> None:
    """Rule 21."""
    assert findings("a = 16 mm H7\nmeasured a = 16.01 mm\nmeasured b = 3 mm\nc = b + 1 mm") == []
    assert codes("measured a = 16.01 mm\na = 16 mm H7") == ["name-twice"]
    assert codes("b = a.measured\nmeasured a = 3 mm") == ["name-below"]
