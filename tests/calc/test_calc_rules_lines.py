"""Rules 1 to 5 of the language: lines, reserved words, names, notes, conditions."""

from __future__ import annotations

import pytest
from calc_page import codes, findings, items, number, only, value, values

from shoplog.calc.results import Unworked


def test_a_bracket_goes_on_over_indented_and_blank_lines() -> None:
    """Rule 1."""
    assert number("(1 +\n  2)") == 3
    assert number("(1 +\n\n\t2 +\n\n  3)") == 6
    assert values("a = (1 +  # one\n  2)  # two\nb = 4").keys() == {"a", "b"}


def test_an_indented_line_without_an_open_bracket_is_a_statement() -> None:
    """Rule 1."""
    assert values("a = 3\n  b = 4").keys() == {"a", "b"}


def test_an_open_bracket_costs_one_statement() -> None:
    """Rule 1."""
    found = items("a = (1 +\nb = 3\nc = (2 +\nd = 4")
    assert [isinstance(item, Unworked) for item in found] == [True, False, True, False]


def test_a_bracket_in_a_text_or_a_note_opens_nothing() -> None:
    """Rule 1."""
    assert values('a = "("\nb = 3 mm  # (\nc = 4').keys() == {"a", "b", "c"}


def test_the_notes_of_a_statement_over_lines_are_joined() -> None:
    """Rule 1."""
    (found,) = items("a = (1 +  # one\n  2)  # two")
    assert found.statement.note == "one two"


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = (1 +\nb = 3", "1:5", "this bracket is not closed", ""),
        ("a = (1 +\n  2\nc = 1", "1:5", "this bracket is not closed", ""),
        ("a = (1 + 2]", "1:11", "this bracket closes nothing", ""),
        ("a = 1 + 2)", "1:10", "this bracket closes nothing", ""),
        ('a = drill("#7)', "1:11", "this quote is not closed", ""),
        ("a =", "1:4", "the line ends too soon: a value is wanted", ""),
        ("a = 3 +", "1:8", "the line ends too soon: a value is wanted", ""),
        ("mate a", "1:7", "the line ends too soon: `with` is wanted", ""),
        (
            "mate a with b as",
            "1:17",
            (
                'the line ends too soon: a fit such as "H7/f7", or `clearance 15 um..55 '
                "um`, is wanted"
            ),
            "",
        ),
        ("concession a", "1:13", 'the line ends too soon: `because "…"` is wanted', ""),
        ("measured a", "1:11", "the line ends too soon: `=` is wanted", ""),
        ('use "x"', "1:8", "the line ends too soon: `as` is wanted", ""),
        (
            "= 3 mm",
            "1:1",
            "`=` begins no statement",
            "a row is `name = expression`, or begins with check, mate, measured and the like",
        ),
    ],
)
def test_an_unclosed_or_unfinished_line(text: str, place: str, message: str, hint: str) -> None:
    """Rule 1."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "check = 3",
            "1:1",
            "`check` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "measured = 3",
            "1:1",
            "`measured` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "mate = 3",
            "1:1",
            "`mate` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "with = 3",
            "1:1",
            "`with` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "concession = 3",
            "1:1",
            "`concession` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "because = 3",
            "1:1",
            "`because` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "draw = 3",
            "1:1",
            "`draw` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "use = 3",
            "1:1",
            "`use` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "as = 3",
            "1:1",
            "`as` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "to = 3",
            "1:1",
            "`to` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "and = 3",
            "1:1",
            "`and` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "or = 3",
            "1:1",
            "`or` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "not = 3",
            "1:1",
            "`not` is a word of the language and cannot stand here",
            "give the name another word",
        ),
    ],
)
def test_a_reserved_word_is_no_name(text: str, place: str, message: str, hint: str) -> None:
    """Rule 2."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = to + 3",
            "1:5",
            "`to` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "a = b.with",
            "1:7",
            "`with` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "a = spindle_speed(to=3)",
            "1:19",
            "`to` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "a = check",
            "1:5",
            "`check` is a word of the language and cannot stand here",
            "give the name another word",
        ),
        (
            "check and",
            "1:7",
            "`and` is a word of the language and cannot stand here",
            "give the name another word",
        ),
    ],
)
def test_a_reserved_word_is_no_field_argument_or_value(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 2."""
    assert only(text) == (place, message, hint)


def test_a_name_may_begin_with_a_reserved_word() -> None:
    """Rule 2."""
    assert values("totem = 3\nandy = 4\nnotch = 5 mm\nuses = 6").keys() == {
        "totem",
        "andy",
        "notch",
        "uses",
    }


def test_names_have_letters_of_any_script() -> None:
    """Rule 3."""
    text = "Länge = 1\nλ_1 = 2\nдлина = 3\n_x = 4\nड्रिल = 5\nＡ = 6"
    assert len(values(text)) == 6


def test_names_are_composed_and_never_folded() -> None:
    """Rule 3: NFC makes one name of two spellings; NFKC would make one of `ﬁt` and `fit`."""
    assert number("café + 1", before="cafe\u0301 = 3") == 4
    assert codes("ﬁt = 3\na = fit + 1") == ["name-unknown"]


def test_columns_stay_true_behind_a_composed_letter() -> None:
    """Rule 3."""
    assert only("a = cafe\u0301 + 1")[0] == "1:5"
    assert only("cafe\u0301 = 3\na = cafe\u0301 + bore")[0] == "2:13"


@pytest.mark.parametrize("name", list("mhsgNWK"))
def test_a_one_letter_unit_may_be_a_name(name: str) -> None:
    """Rule 3."""
    assert number(f"2 * {name}", before=f"{name} = 4") == 8


def test_a_compound_keeps_its_one_letter_where_the_letter_is_a_name() -> None:
    """Rule 3."""
    assert number("100 m/min", "m/min", before="m = 3 mm") == 100


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("pi = 3", "1:1", "`pi` cannot be a name: it is 3.14159…", ""),
        ("mm = 3", "1:1", "`mm` is a unit and cannot be a name", "give the name another word"),
        ("min = 3 mm", "1:1", "`min` is a unit and cannot be a name", "give the name another word"),
        ("um = 3", "1:1", "`um` is a unit and cannot be a name", "give the name another word"),
        ("μm = 3", "1:1", "`µm` is a unit and cannot be a name", "give the name another word"),
        ("tpi = 8", "1:1", "`tpi` is a unit and cannot be a name", "give the name another word"),
        (
            "x٣ = 3",
            "1:2",
            "`٣` is not a digit of this language",
            "names and numbers have the digits 0 to 9: 3",
        ),
        (
            "x３ = 3",
            "1:2",
            "`３` is not a digit of this language",
            "names and numbers have the digits 0 to 9: 3",
        ),
        ("x² = 3", "1:2", "`²` stands in units only", "a power is **"),
        ("1x = 3", "1:2", "`x` is not a unit of this log", ""),
        (
            "x-y = 3",
            "1:1",
            "`x-y` is not a name, so it can be given no value",
            "a name is one word of letters, digits and _, and no digit comes first",
        ),
        ("x y = 3", "1:3", "`=` is wanted before `y`", "a name is one word: x_y"),
        (
            "a.b = 3 mm",
            "1:1",
            "`a.b` is not a name, so it can be given no value",
            "a name is one word of letters, digits and _, and no digit comes first",
        ),
        (
            "a[0] = 3",
            "1:1",
            "`a[0]` is not a name, so it can be given no value",
            "a name is one word of letters, digits and _, and no digit comes first",
        ),
        (
            "2 = a",
            "1:1",
            "`2` is not a name, so it can be given no value",
            "a name is one word of letters, digits and _, and no digit comes first",
        ),
        ("a, b = 3", "1:2", "`=` is wanted before `,`", ""),
        (
            "a = Ⅳ",
            "1:5",
            "`Ⅳ` is not a digit of this language",
            "names and numbers have the digits 0 to 9: 4",
        ),
        ("measured pi = 3", "1:10", "`pi` cannot be a name: it is 3.14159…", ""),
    ],
)
def test_a_name_that_cannot_be(text: str, place: str, message: str, hint: str) -> None:
    """Rule 3."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "m = 3 mm\nb = 2 m",
            "2:5",
            "`m` is a name on this page, so it is no unit here",
            "write 2 * m for the name, or give the name another letter",
        ),
        (
            "K = 2\nb = 20 degC + 5 K",
            "2:15",
            "`K` is a name on this page, so it is no unit here",
            "write 5 * K for the name, or give the name another letter",
        ),
        (
            "m = 3 mm\nb = 3 mm to m",
            "2:5",
            "`m` is a name on this page, so it is no unit here",
            "give the name another letter",
        ),
        (
            "s = 2\nb = 16 mm ±2 s",
            "2:5",
            "`s` is a name on this page, so it is no unit here",
            "give the name another letter",
        ),
    ],
)
def test_a_one_letter_name_is_no_unit_on_its_page(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 3."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a = bore + 1 mm", "1:5", "`bore` is not a name of this page", ""),
        (
            "boar = 3 mm\na = bore + 1 mm",
            "2:5",
            "`bore` is not a name of this page",
            "did you mean boar?",
        ),
        (
            "a = b\nb = 3",
            "1:5",
            "`b` is given below, at line 3",
            "a name is given before it is used: move it up",
        ),
        (
            "a = a + 1",
            "1:5",
            "`a` is given below, at line 2",
            "a name is given before it is used: move it up",
        ),
        (
            "a = 3 mm\na = 4 mm",
            "2:1",
            "`a` is given at line 2 already",
            "a name is given once on a page; give this one another",
        ),
        ("a = π", "1:5", "`π` is not a name of this page", "did you mean pi?"),
        (
            "a = 3 * mm",
            "1:9",
            "`mm` is a unit, and a unit follows a number",
            "write 1 mm; a unit in two parts has no spaces: m/s, N*m",
        ),
        (
            "a = 10 m / s",
            "1:12",
            "`s` is a unit, and a unit follows a number",
            "write 1 s; a unit in two parts has no spaces: m/s, N*m",
        ),
        (
            "a = 2 N * m",
            "1:11",
            "`m` is a unit, and a unit follows a number",
            "write 1 m; a unit in two parts has no spaces: m/s, N*m",
        ),
        ("a = H7", "1:5", "`H7` is not a name of this page", "a class follows a length: 16 mm H7"),
        ("a = MT2", "1:5", "`MT2` is not a name of this page", ""),
        (
            "a = inches * 2",
            "1:5",
            "`inches` is not a name of this page",
            "a unit follows a number; did you mean in?",
        ),
    ],
)
def test_a_name_that_cannot_be_read(text: str, place: str, message: str, hint: str) -> None:
    """Rule 3."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "a = drill(#7)",
            "1:11",
            "`#` opens a note, so nothing stands here",
            'quote it: drill("#7")',
        ),
        ("a = #7", "1:4", "`#` opens a note, so nothing stands here", 'quote it: drill("#7")'),
        (
            "a = fit(3 mm, #7",
            "1:14",
            "`#` opens a note, so nothing stands here",
            'quote it: drill("#7")',
        ),
        ("a = [#7]", "1:6", "`#` opens a note, so nothing stands here", 'quote it: drill("#7")'),
        (
            "a = thread(#10-32 UNF)",
            "1:12",
            "`#` opens a note, so nothing stands here",
            'quote it: thread("#10-32 UNF")',
        ),
        ("a = # to be measured", "1:4", "the line ends too soon: a value is wanted", ""),
    ],
)
def test_a_number_sign_opens_a_note(text: str, place: str, message: str, hint: str) -> None:
    """Rule 4."""
    assert only(text) == (place, message, hint)


def test_a_note_is_kept_and_a_quoted_sign_is_none() -> None:
    """Rule 4."""
    (found,) = items('a = drill("#7")  # the tap drill')
    assert found.statement.note == "the tap drill"
    assert found.value.diameter == pytest.approx(5.105, abs=5e-4)


def test_a_line_with_nothing_but_a_note_gives_nothing() -> None:
    """Rule 4."""
    assert len(items("# first\na = 3\n   # last")) == 1


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("a == 3", "1:1", "a condition needs `check`", "write check a == 3"),
        ("a < 3 mm", "1:1", "a condition needs `check`", "write check a < 3 mm"),
        ("not 1 < 2", "1:1", "a condition needs `check`", "write check not 1 < 2"),
        ("(1 < 2)", "1:1", "a condition needs `check`", "write check (1 < 2)"),
        ("5 mm", "1:1", "a value needs a name", "write name = 5 mm"),
        (
            "spindle_speed(30 m/min, 10 mm)",
            "1:1",
            "a value needs a name",
            "write name = spindle_speed(30 m/min, 10 mm)",
        ),
    ],
)
def test_a_condition_stands_under_check_only(
    text: str, place: str, message: str, hint: str
) -> None:
    """Rule 5."""
    assert only(text) == (place, message, hint)


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        ("check x = 3", "1:9", "`=` gives a name", "equality is =="),
        ("check 1 => 2", "1:9", "`=>` is no sign here", "write >="),
        ("check 1 <> 2", "1:9", "`<>` is no sign here", "write !="),
        ("check 1 =< 2", "1:9", "`=<` is no sign here", "write <="),
        ("check 1 === 2", "1:9", "`===` is no sign here", "write =="),
        ("check 3 mm", "1:7", "a condition is wanted; this is a length", ""),
        ('check "x"', "1:7", "a condition is wanted; this is a text", ""),
        ("a = 1\ncheck a", "2:7", "a condition is wanted; this is a plain number", ""),
        ("a = 1 < 2 and 3", "1:15", "a condition is wanted; this is a plain number", ""),
        ("a = b = 3", "1:7", "`=` gives a name", "equality is =="),
        ("ok = 1 < 2\nx = ok + 1", "2:5", "+ takes quantities; this is true or false", ""),
        ("a = 3 && 4", "1:7", "`&&` is no sign here", "write and"),
        ("check not 3 mm", "1:11", "a condition is wanted; this is a length", ""),
    ],
)
def test_a_check_is_true_or_false(text: str, place: str, message: str, hint: str) -> None:
    """Rule 5."""
    assert only(text) == (place, message, hint)


def test_a_truth_may_have_a_name() -> None:
    """Rule 5."""
    assert values("a = 1 mm\nok = a < 2 mm\ncheck ok\nbad = not ok")["bad"] is False
    assert value("ok == (1 < 2)", before="ok = 3 > 2") is True
    assert findings("ok = 3 < 2\ncheck ok") == ["2:7 this check does not hold: ok is no"]
