"""Readings and concessions: what was found, beside what was wanted."""

from __future__ import annotations

import pytest
from calc_page import codes, findings, items, limits, lines_of, number, only, project, value, values

from shoplog.calc.results import CheckResult, MateResult, MeasuredResult, Verdict
from shoplog.calc.show import show

BORE = "bore = 16 mm H7\n"


def verdicts(text: str, front: str = "") -> list[Verdict]:
    return [item.verdict for item in items(text, front) if isinstance(item, MeasuredResult)]


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [
        ("16.009 mm ±0.003", Verdict.IN),
        ("16.018 mm", Verdict.IN),
        ("16 mm", Verdict.IN),
        ("16.015 mm ±0.003", Verdict.IN),
        ("0.63 in", Verdict.IN),
        ("16.017 mm ±0.003", Verdict.CANNOT_TELL),
        ("15.999 mm ±0.003", Verdict.CANNOT_TELL),
        ("16.019 mm", Verdict.OUT),
        ("15.999 mm", Verdict.OUT),
        ("16.022 mm ±0.003", Verdict.OUT),
        ("-16 mm", Verdict.OUT),
    ],
)
def test_a_reading_is_in_out_or_cannot_be_told(reading: str, verdict: Verdict) -> None:
    assert verdicts(f"{BORE}measured bore = {reading}") == [verdict]


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            "measured bore = 16.1 mm",
            "2:17",
            "bore was measured 16.100 mm, outside 16.000 to 16.018 mm",
            'make it right, or write concession bore because "…"',
        ),
        (
            "measured bore = 16.017 mm ±0.003",
            "2:17",
            "caution: bore was measured 16.017 ± 0.003 mm: this instrument cannot tell whether it"
            " is inside 16.000 to 16.018 mm",
            "",
        ),
        (
            "measured bore = 16 s",
            "2:17",
            "bore is a length; this reading is a time",
            "",
        ),
        ('measured bore = "ok"', "2:17", "bore is a length; this reading is a text", ""),
        (
            "measured bore = 16.009 mm H7",
            "2:17",
            "a reading has an uncertainty, not a class",
            "write 16.009 mm ±0.003",
        ),
        (
            "measured bore 2 = 16.009 mm",
            "2:10",
            "piece 2 of bore: the front matter does not say how many are made",
            "write made: 2",
        ),
        ("x = bore.measured", "2:5", "`bore` has not been measured", "write measured bore = …"),
        (
            "measured bore = bore.measured",
            "2:17",
            "`bore.measured` is given below, at line 3",
            "a name is given before it is used: move it up",
        ),
        (
            "x = (16 mm H7).measured",
            "2:5",
            "`.measured` follows a name",
            "",
        ),
    ],
)
def test_a_reading_that_is_wrong(text: str, place: str, message: str, hint: str) -> None:
    assert only(BORE + text) == (place, message, hint)


def test_a_size_without_limits_asks_nothing_of_a_reading() -> None:
    assert verdicts("a = 16 mm\nmeasured a = 17 mm") == [Verdict.NOT_ASKED]
    assert verdicts('a = "rough"\nmeasured a = "smooth"') == [Verdict.NOT_ASKED]


def test_a_reading_is_a_value_and_its_limits_are_the_uncertainty() -> None:
    before = f"{BORE}measured bore = 16.009 mm ±0.003"
    assert limits("bore.measured", "mm", before) == (16.006, 16.012)
    assert limits("bore.measured + 1 mm", "mm", before) == (17.006, 17.012)
    assert show(value("bore.measured", before)).own == "16.009 ± 0.003 mm"
    assert codes(f"{before}\ncheck bore.measured > 16 mm") == []
    assert codes(f"{before}\ncheck bore.measured > 16.009 mm") == ["check-fails"]


def test_a_reading_may_begin_a_name() -> None:
    before = "measured slot = 5.02 mm ±0.01"
    assert verdicts(before) == [Verdict.NOT_ASKED]
    assert number("slot", "mm", before) == number("slot.measured", "mm", before) == 5.02


def test_the_last_reading_counts_and_earlier_ones_are_history() -> None:
    text = (
        f'{BORE}measured bore "before" = 15.9 mm\n'
        "first = bore.measured\n"
        'measured bore "after" = 16.01 mm\n'
        "last = bore.measured\n"
    )
    assert findings(text) == []
    assert verdicts(text) == [Verdict.OUT, Verdict.IN]
    given = values(text)
    assert (given["first"].nominal, given["last"].nominal) == (15.9, 16.01)
    assert codes(f"{BORE}measured bore = 16.01 mm\nmeasured bore = 15.9 mm") == ["measured-out"]


PIECES = (
    f"{BORE}measured bore 1 = 16.001 mm\nmeasured bore 3 = 16.003 mm\nmeasured bore 1 = 16.002 mm\n"
)


def test_numbered_pieces_have_readings_of_their_own() -> None:
    given = values(f"{PIECES}a = bore.measured[0]\nb = bore.measured[2]", "made: 4")
    assert (given["a"].nominal, given["b"].nominal) == (16.002, 16.003)
    assert show(values(f"{PIECES}a = bore.measured", "made: 4")["a"]).own == (
        "[16.002 mm, not measured, 16.003 mm]"
    )


def test_a_piece_without_a_reading_never_gives_that_of_another() -> None:
    assert only(f"{PIECES}a = bore.measured[1]", "made: 4") == (
        "5:5",
        "piece 2 of these has not been measured",
        "the first piece is [0]",
    )
    assert only(f"{PIECES}a = bore.measured[3]", "made: 4") == (
        "5:5",
        "this list has 3 items, [0] to [2]",
        "",
    )


@pytest.mark.parametrize("piece", [0, 5])
def test_a_piece_is_one_of_those_that_are_made(piece: int) -> None:
    assert only(f"{BORE}measured bore {piece} = 16.001 mm", "made: 4") == (
        "2:10",
        f"piece {piece} of bore: 4 are made, numbered from 1",
        "",
    )


def test_each_piece_is_judged_by_its_last_reading() -> None:
    text = f"{BORE}measured bore 1 = 15 mm\nmeasured bore 2 = 15.1 mm\nmeasured bore 1 = 16.001 mm"
    assert findings(text, "made: 4") == [
        "3:19 bore was measured 15.100 mm, outside 16.000 to 16.018 mm"
        ' (make it right, or write concession bore because "…")'
    ]


def test_the_reading_of_another_page_is_its_last() -> None:
    log = project(
        gear="a = shaft.journal.measured\nb = shaft.journal.measured - 1 mm",
        shaft="journal = 16 mm f7\nmeasured journal = 15.97 mm\nmeasured journal = 15.98 mm ±0.002",
    )
    assert lines_of(log) == []
    first, second = log.pages["gear.md"].results
    assert show(first.value).own == "15.980 ± 0.002 mm"
    assert second.value.nominal == pytest.approx(14.98)


def test_a_reading_that_another_page_lacks() -> None:
    log = project(gear="a = shaft.journal.measured", shaft="journal = 16 mm f7")
    assert lines_of(log) == [
        "gear.md:5:5: `shaft.journal` has not been measured"
        " (write measured journal = … on its page)"
    ]


def test_a_reading_of_an_unknown_name_is_told_as_that() -> None:
    assert findings("boar = 16 mm H7\nx = bore.measured") == [
        "2:5 `bore` is not a name of this page (did you mean boar?)"
    ]
    log = project(gear="a = shaft.jurnal.measured\nb = shaft.measured", shaft="journal = 3 mm")
    assert lines_of(log) == [
        "gear.md:5:11: `jurnal` is not a name of the page of `shaft` (did you mean shaft.journal?)",
        "gear.md:6:5: `shaft` is the part of another page; a name of that page is wanted"
        " (write shaft.NAME)",
    ]


def test_a_concession_lets_a_reading_a_check_and_a_mate_pass_and_is_told() -> None:
    text = (
        f"{BORE}journal = 16 mm f7\n"
        'concession bore because "the shaft was turned to suit"\n'
        "measured bore = 16.5 mm\n"
        "check bore > 20 mm\n"
        'mate bore with journal as "H7/g6"'
    )
    assert findings(text) == [
        "4:17 caution: conceded: the shaft was turned to suit",
        "5:7 caution: conceded: the shaft was turned to suit",
        "6:1 caution: conceded: the shaft was turned to suit",
    ]
    conceded = [
        item for item in items(text) if isinstance(item, MeasuredResult | CheckResult | MateResult)
    ]
    assert [item.conceded for item in conceded] == ["the shaft was turned to suit"] * 3
    assert all(item.passes for item in conceded if not isinstance(item, MeasuredResult))


@pytest.mark.parametrize("page", ["housing", "shaft"])
def test_a_mate_is_conceded_on_either_page(page: str) -> None:
    texts = {
        "housing": "bore = 30 mm H7\nmate bore with shaft.journal as interference",
        "shaft": "journal = 30 mm f7",
    }
    name = {"housing": "bore", "shaft": "journal"}[page]
    texts[page] += f'\nconcession {name} because "a bush goes between"'
    assert lines_of(project(**texts)) == ["housing.md:6:1: caution: conceded: a bush goes between"]


@pytest.mark.parametrize(
    ("text", "place", "message", "hint"),
    [
        (
            'concession bore because "worn"',
            "1:12",
            "`bore` is not a name of this page, so nothing is conceded",
            "",
        ),
        (
            'boar = 3 mm\nconcession bore because "worn"',
            "2:12",
            "`bore` is not a name of this page, so nothing is conceded",
            "did you mean boar?",
        ),
        (
            'a = 16 mm H7\nconcession a because " "',
            "2:12",
            "a concession has a reason",
            'concession a because "the shaft was turned to suit"',
        ),
        (
            'a = 16 mm H7\nconcession a because "worn"',
            "2:12",
            "caution: nothing of `a` needs this concession",
            "",
        ),
    ],
)
def test_a_concession_that_is_wrong(text: str, place: str, message: str, hint: str) -> None:
    assert only(text) == (place, message, hint)
