"""Questions asked of an index: words, conditions, ranges, order, and what nothing knows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import closing
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.find.asking import Answer, Source, answer
from shoplog.find.indexing.rows import page_rows
from shoplog.find.indexing.store import Store
from shoplog.find.indexing.stored import NUMBERS
from shoplog.find.questions import Question, read_day, read_outcomes
from shoplog.find.ranges import RANGED, read_range
from shoplog.find.record import Figures, Record, known_fields
from shoplog.find.wrong import WrongQuestion


def record(name: str, **given: Any) -> Record:
    """A record whose feature names it; figures are those of what ran."""
    figures = {known.name for known in known_fields(Figures)}
    ran = {key: value for key, value in given.items() if key in figures}
    own = {key: value for key, value in given.items() if key not in figures}
    own.setdefault("page", f"{name}.md")
    own.setdefault("run", 1)
    return Record(**{"anchor": "setup", "line": 3, "feature": name, **own}, ran=Figures(**ran))


RECORDS = (
    record(
        "journal",
        page="boat-winch/shaft.md",
        part="shaft",
        project="boat-winch",
        title="Shaft of the winch",
        date="2026-03-14",
        operation="turning, finish",
        operation_kind="turning",
        material="bright mild steel",
        cutter="right-hand knife",
        cutter_name="right-hand knife",
        cutter_kind="turning tool",
        cutter_material="HSS",
        machine="bench lathe",
        diameter_mm=16.0,
        outcome="good",
        remarks="mirror finish: after the edge was stoned",
        spindle_speed_rpm=1180.0,
        cutting_speed_m_per_min=59.3,
        feed_per_rev_mm=0.06,
        feed_per_tooth_mm=0.06,
        depth_of_cut_mm=0.2,
    ),
    record(
        "groove",
        date="2026-01-05",
        operation="slot drilling",
        operation_kind="slot milling",
        material="EN8",
        cutter="slot drill, high-speed steel, diameter 6.35 mm, 2 teeth",
        cutter_kind="slot drill",
        cutter_material="high-speed steel",
        cutter_diameter_mm=6.35,
        machine="small mill",
        outcome="poor",
        fault=("chatter", "burr"),
        remarks="Über the edge: 😀 50 % slower next time",
        spindle_speed_rpm=460.0,
        feed_rate_mm_per_min=36.8,
        feed_per_rev_mm=0.08,
        feed_per_tooth_mm=0.04,
    ),
    record(
        "bore",
        date="2025-11-30",
        operation="drilling",
        operation_kind="drilling",
        material="EN 1A",
        cutter="drill, HSS",
        cutter_kind="drill",
        cutter_material="HSS",
        machine="drill press",
        diameter_mm=8.0,
        cutter_width_mm=1.5,
        outcome="usable",
        private=True,
        by_hand=True,
    ),
    record("later", operation="turning", operation_kind="turning", material="mystery bar", run=0),
)


@pytest.fixture(scope="module")
def store() -> Iterator[Store]:
    with closing(filled(RECORDS)) as made:
        yield made


def filled(records: Iterable[Record]) -> Store:
    store = Store.in_memory()
    for one in records:
        store.replace(one.page, page_rows([one]))
    return store


def ask(
    store: Store, *words: str, sort: str = "date", limit: int | None = None, **given: Any
) -> Answer:
    """Ask with conditions as the command line spells them; ranges and names by their option."""
    ranges = [read_range(name, given.pop(_key(name))) for name in RANGED if _key(name) in given]
    own = {key: given.pop(key) for key in list(given) if key in Question.__dataclass_fields__}
    named = {key: (value,) if isinstance(value, str) else value for key, value in given.items()}
    question = Question(words=words, named=named, ranges=tuple(ranges), **own)
    return answer(question, [Source(store)], sort=sort, limit=limit)


def _key(name: str) -> str:
    return name.replace("-", "_")


def features(found: Answer) -> list[str]:
    return [one.record.feature for one in found.found]


def test_without_a_question_everything_is_found_the_latest_first(store: Store) -> None:
    found = ask(store)
    assert features(found) == ["journal", "groove", "bore", "later"]
    assert found.count == 4


def test_a_record_comes_out_as_it_went_in(store: Store) -> None:
    found = {one.record.feature: one.record for one in ask(store).found}
    assert found == {one.feature: one for one in RECORDS}


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("journal", "journal"),
        ("JOURNAL", "journal"),
        ("jour", "journal"),
        ("stoned mirror", "journal"),
        ("stoned groove", ""),
        ("turning", "journal later"),
        ("winch", "journal"),
        ("shaft", "journal"),
        ("knife", "journal"),
        ("lathe", "journal"),
        ("chatter", "groove"),
        ("uber", "groove"),
        ("Über", "groove"),
        ("slot", "groove"),
        # by every name of a material, and by its group
        ("S235JR", ""),
        ("1018", "journal"),
        ("low-carbon", "journal"),
        ("C15", "journal"),
        ("1.0511", "groove"),
        ("C40", "groove"),
        ("medium-carbon", "groove"),
        ("11SMn30", "bore"),
        ("EN1A", "bore"),
        ("mystery", "later"),
    ],
)
def test_words_are_found_wherever_they_may_stand(store: Store, words: str, wanted: str) -> None:
    assert " ".join(features(ask(store, *words.split()))) == wanted


def test_words_in_one_text_stand_together(store: Store) -> None:
    assert features(ask(store, "edge was stoned")) == ["journal"]
    assert features(ask(store, "stoned was edge")) == []
    assert features(ask(store, "EN 1A")) == ["bore"]


@pytest.mark.parametrize(
    "word",
    [
        *(
            "AND",
            "OR",
            "NOT",
            "NEAR(",
            "*",
            '"',
            '""',
            "a*",
            "words:",
            "-",
            "^",
            "(",
            ")",
            "{a b}:",
        ),
        *("' OR 1=1 --", "\\", "%", "_", "\x00", "a\x00b", "\ud800", "😀" * 40),
        ";DROP TABLE kept",
    ],
)
def test_no_word_is_a_part_of_the_searchs_language(store: Store, word: str) -> None:
    found = ask(store, word)
    assert set(features(found)) <= {"journal", "groove", "bore", "later"}
    assert ask(store).count == 4


@pytest.mark.parametrize(
    ("word", "wanted"),
    [("😀", "groove"), ("%", "groove"), (":", "journal groove"), ("*", ""), ("_", "")],
)
def test_what_has_no_letter_is_looked_for_as_it_is(store: Store, word: str, wanted: str) -> None:
    assert " ".join(features(ask(store, word))) == wanted


@given(st.lists(st.text(max_size=20), max_size=4))
def test_any_words_can_be_asked(words: list[str]) -> None:
    with closing(filled(RECORDS)) as store:
        found = ask(store, *(word for word in words if word.strip()))
        assert found.count <= 4


@pytest.mark.parametrize(
    ("asked", "wanted"),
    [
        ({"material": "bright mild steel"}, "journal"),
        ({"material": "Bright-Mild  Steel"}, "journal"),
        ({"material": "1018"}, "journal"),
        ({"material": "AISI 1018"}, "journal"),
        ({"material": "mild steel"}, "journal"),
        ({"material": "low-carbon steel"}, "journal"),
        ({"material": "1.0511"}, "groove"),
        ({"material": "080M40"}, "groove"),
        ({"material": "P"}, "journal groove bore"),
        ({"material": "mystery bar"}, "later"),
        ({"material": ("EN8", "EN1A")}, "groove bore"),
        ({"operation": "turning"}, "journal later"),
        ({"operation": "finish turning"}, "journal"),
        ({"operation": "turning, finishing"}, "journal"),
        ({"operation": "slot milling"}, "groove"),
        ({"operation": "keyway milling"}, "groove"),
        ({"operation": "milling"}, "groove"),
        ({"operation": "slot drilling"}, "groove"),
        ({"operation": "drilling"}, "bore"),
        ({"operation": "twist drilling"}, "bore"),
        ({"cutter": "turning tool"}, "journal"),
        ({"cutter": "tool"}, "journal"),
        ({"cutter": "right-hand knife"}, "journal"),
        ({"cutter": "slot drill"}, "groove"),
        ({"cutter": "drill"}, "groove bore"),
        ({"cutter_material": "HSS"}, "journal groove bore"),
        ({"cutter_material": "high speed steel"}, "journal groove bore"),
        ({"machine": "lathe"}, "journal"),
        ({"machine": ("lathe", "mill")}, "journal groove"),
        ({"project": "boat-winch"}, "journal"),
        ({"project": "Boat Winch"}, "journal"),
        ({"part": "shaft"}, "journal"),
        ({"fault": "burr"}, "groove"),
        ({"fault": "chatter", "material": "EN8"}, "groove"),
        ({"fault": "chatter", "material": "EN1A"}, ""),
        ({"outcomes": ("good", "usable")}, "journal bore"),
        ({"since": "2026"}, "journal groove"),
        ({"since": "2026-01-05"}, "journal groove"),
        ({"since": "2026-01-06"}, "journal"),
        ({"until": "2025"}, "bore"),
        ({"until": "2026-01"}, "groove bore"),
        ({"since": "2025-11", "until": "2026-01-04"}, "bore"),
        ({"ran": True}, "journal groove bore"),
        ({"ran": False}, "later"),
        ({"private": False}, "journal groove later"),
        # in the units of the one who asks
        ({"diameter": "16mm"}, "journal"),
        ({"diameter": "16 mm"}, "journal"),
        ({"diameter": "8..16mm"}, "journal bore"),
        ({"diameter": "5/16in..5/8in"}, "bore"),
        ({"diameter": "10mm.."}, "journal"),
        ({"diameter": "..0.5in"}, "bore"),
        ({"diameter": "1cm..1in"}, "journal"),
        ({"cutter_diameter": "1/4 in"}, "groove"),
        ({"cutter_diameter": "6mm..1/4in"}, "groove"),
        ({"cutter_width": "1..2mm"}, "bore"),
        ({"cutter_width": "1/32in..1/16in"}, "bore"),
        ({"speed": "400..500 rpm"}, "groove"),
        ({"speed": "1180"}, "journal"),
        ({"cutting_speed": "50..60 m/min"}, "journal"),
        ({"cutting_speed": "190..200 ft/min"}, "journal"),
        ({"feed": "0.05..0.07 mm/rev"}, "journal"),
        ({"feed": "..0.05 mm/tooth"}, "groove"),
        ({"feed": "1..2 in/min"}, "groove"),
        ({"feed": "0.002..0.0025in/rev"}, "journal"),
        ({"depth": "..0.01in"}, "journal"),
    ],
)
def test_a_condition_narrows_the_answer(store: Store, asked: dict[str, Any], wanted: str) -> None:
    assert " ".join(features(ask(store, **asked))) == wanted


def test_words_and_conditions_narrow_together(store: Store) -> None:
    assert features(ask(store, "slot", material="C40", outcomes=("poor",))) == ["groove"]
    assert features(ask(store, "slot", material="C40", outcomes=("good",))) == []


def test_every_column_that_is_asked_by_a_range_is_a_number_of_the_index() -> None:
    asked = {column for kinds in RANGED.values() for _, column in kinds}
    assert asked == set(NUMBERS)


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        (
            {"material": "bras"},
            "no setup has the material `bras`, and no table knows it; did you mean brass?",
        ),
        (
            {"material": "xyzzy"},
            "no setup has the material `xyzzy`, and no table knows it",
        ),
        (
            {"operation": "turnin"},
            "no setup has the operation `turnin`, and no table knows it; did you mean turning?",
        ),
        (
            {"machine": "lath"},
            "no setup has the machine `lath`, and no table knows it; did you mean lathe?",
        ),
        (
            {"cutter_material": "carbid"},
            "no setup has the cutter material `carbid`, and no table knows it;"
            " did you mean carbide?",
        ),
        (
            {"fault": "chater"},
            "no setup has the fault `chater`, and no table knows it; did you mean chatter?",
        ),
        ({"part": "\x1b[31m"}, "no setup has the part `�[31m`, and no table knows it"),
        ({"project": "x" * 500}, f"no setup has the project `{'x' * 39}…`, and no table knows it"),
    ],
)
def test_a_name_that_nothing_knows_is_refused_with_a_near_one(
    store: Store, asked: dict[str, Any], why: str
) -> None:
    with pytest.raises(WrongQuestion) as refused:
        ask(store, **asked)
    assert str(refused.value) == why


def test_a_name_that_a_table_knows_and_no_record_has_finds_nothing(store: Store) -> None:
    for asked in ({"material": "brass"}, {"operation": "knurling"}, {"cutter_material": "carbide"}):
        assert ask(store, **asked).count == 0


LENGTH = "--diameter is a length, such as 16 mm, 3..5mm or 1/4in; this is "
FEED = "--feed is a feed, such as 0.05..0.1 mm/rev, 0.02 mm/tooth or 2..4 in/min; this is "


@pytest.mark.parametrize(
    ("option", "text", "why"),
    [
        (
            "diameter",
            "5..3mm",
            "--diameter 5..3mm ends below where it begins; the lesser end comes first",
        ),
        ("diameter", "3..5", f"{LENGTH}`3..5`, without its unit"),
        ("diameter", "..", f"{LENGTH}`..`"),
        ("diameter", "", f"{LENGTH}``"),
        ("diameter", "big", f"{LENGTH}`big`"),
        ("diameter", "-3mm", f"{LENGTH}`-3mm`"),
        ("diameter", "3,5mm", f"{LENGTH}`3,5mm`; did you mean 3.5mm?"),
        ("diameter", "3-5mm", f"{LENGTH}`3-5mm`; did you mean 3..5mm?"),
        ("diameter", "3 to 5 mm", f"{LENGTH}`3 to 5 mm`; did you mean 3..5 mm?"),
        ("diameter", "3 – 5", f"{LENGTH}`3 – 5`"),
        ("diameter", 'Ø1/4"', f'{LENGTH}`Ø1/4"`; did you mean 1/4in?'),
        (
            "diameter",
            "3...5mm",
            "--diameter 3...5mm ends below where it begins; the lesser end comes first;"
            " did you mean 3..5mm?",
        ),
        ("diameter", "1/0in", f"{LENGTH}`1/0in`"),
        ("diameter", "5 furlong", f"{LENGTH}`5 furlong`"),
        ("diameter", "5 rpm", f"{LENGTH}`5 rpm`, a spindle speed"),
        ("diameter", "5 arcminn", f"{LENGTH}`5 arcminn`; did you mean arcmin?"),
        ("feed", "0.1 mm", f"{FEED}`0.1 mm`, a length"),
        (
            "feed",
            "1mm/rev..2mm/min",
            "--feed 1mm/rev..2mm/min: the two ends are of different kinds",
        ),
        (
            "speed",
            "10 m/min",
            "--speed is a spindle speed, such as 300..600 rpm; this is `10 m/min`, a feed or speed",
        ),
        (
            "cutting-speed",
            "20",
            "--cutting-speed is a cutting speed, such as 20..30 m/min or 90 ft/min; this is `20`,"
            " without its unit",
        ),
        (
            "depth",
            "\x1b[2J",
            "--depth is a length, such as 0.5 mm or ..0.02in; this is `�[2J`",
        ),
    ],
)
def test_a_range_that_cannot_be_read_says_what_is_wanted(option: str, text: str, why: str) -> None:
    with pytest.raises(WrongQuestion) as refused:
        read_range(option, text)
    assert str(refused.value) == why


def test_a_single_value_is_what_is_shown_as_that_value() -> None:
    """Lengths are shown to 0.001 mm and 0.0001 in, speeds to 0.1 m/min and to a turn."""
    for option, text, least, most in (
        ("diameter", "5 mm", 4.9995, 5.0005),
        ("diameter", "1/4 in", 6.35 - 0.00127, 6.35 + 0.00127),
        ("cutting-speed", "30 m/min", 29.95, 30.05),
        ("speed", "290 rpm", 289.5, 290.5),
        ("feed", "0.1 mm/rev", 0.0995, 0.1005),
    ):
        found = read_range(option, text)
        assert (found.least, found.most) == (pytest.approx(least), pytest.approx(most))


@given(st.sampled_from(sorted(RANGED)), st.text(max_size=12))
def test_any_text_is_a_range_or_refused(option: str, text: str) -> None:
    try:
        found = read_range(option, text)
    except WrongQuestion:
        return
    assert found.least is not None or found.most is not None


@pytest.mark.parametrize(
    ("sort", "wanted"),
    [
        ("date", "journal groove bore later"),
        ("-date", "bore groove journal later"),
        ("outcome", "journal bore groove later"),
        ("-outcome", "groove bore journal later"),
        ("cutting-speed", "journal bore groove later"),
        ("feed", "groove journal bore later"),
        ("-feed", "journal groove bore later"),
        ("diameter", "groove bore journal later"),
        ("-diameter", "journal bore groove later"),
    ],
)
def test_answers_are_sorted_and_what_has_no_value_comes_last(
    store: Store, sort: str, wanted: str
) -> None:
    assert " ".join(features(ask(store, sort=sort))) == wanted


def test_an_order_that_there_is_not_is_refused(store: Store) -> None:
    with pytest.raises(WrongQuestion) as refused:
        ask(store, sort="dat")
    assert str(refused.value) == (
        "--sort is date, outcome, cutting-speed, feed, diameter, a - before it turns it;"
        " not `dat`; did you mean date?"
    )


def test_all_are_counted_and_as_many_given_as_are_wanted(store: Store) -> None:
    found = ask(store, limit=2)
    assert (features(found), found.count) == (["journal", "groove"], 4)


def test_records_of_one_day_come_in_the_order_of_pages_and_of_the_page() -> None:
    records = [record(name, page=f"{name}.md", date="2026-01-01") for name in "cab"]
    with closing(filled(records)) as store:
        store.replace("b.md", page_rows([record(n, page="b.md", date="2026-01-01") for n in "yxz"]))
        assert features(ask(store)) == ["a", "y", "x", "z", "c"]


def test_where_nothing_answers_it_is_told_what_kept_the_rest_out(store: Store) -> None:
    found = ask(store, "slot", material="C40", outcomes=("good",), diameter="1..100mm")
    assert (found.count, found.found, found.loosened) == (0, (), ())
    found = ask(store, "slot", material="C40", outcomes=("good",))
    assert found.loosened == (("--outcome good", 1),)
    found = ask(store, "journal", outcomes=("poor",))
    assert found.loosened == (("journal", 1), ("--outcome poor", 1))


def test_an_index_without_records_has_nothing_that_could_be_asked(store: Store) -> None:
    with closing(Store.in_memory()) as empty:
        assert not ask(empty).asked
        assert not ask(empty, "word").asked
    assert ask(store, "nothing", "like", "this").asked


def test_too_many_words_are_refused(store: Store) -> None:
    with pytest.raises(WrongQuestion, match=r"^31 words are asked for, 30 at most$"):
        ask(store, *(["word"] * 31))


def test_several_indexes_answer_in_one_order_and_each_says_whose_it_is(store: Store) -> None:
    theirs = [record("theirs", date="2026-02-01", outcome="good"), record("old", date="2000-01-01")]
    with closing(filled(theirs)) as other:
        sources = [Source(store, "docs/"), Source(other, whose="Other log")]
        found = answer(Question(), sources, limit=3)
        assert [(one.record.feature, one.whose) for one in found.found] == [
            ("journal", ""),
            ("theirs", "Other log"),
            ("groove", ""),
        ]
        assert found.count == 6
        assert [one.place for one in found.found][:2] == [
            "docs/boat-winch/shaft.md:3",
            "theirs.md:3",
        ]


def test_a_name_that_only_another_log_knows_is_known(store: Store) -> None:
    with closing(filled([record("theirs", machine="shaper")])) as other:
        question = Question(named={"machine": ("shaper",)})
        found = answer(question, [Source(store), Source(other, whose="Other log")])
        assert features(found) == ["theirs"]


def test_only_what_is_below_a_folder_is_asked_about(store: Store) -> None:
    found = answer(Question(), [Source(store, within="boat-winch/")])
    assert (features(found), found.count) == (["journal"], 1)
    assert answer(Question(), [Source(store, within="boat_winch/")]).count == 0


def test_a_page_that_is_named_to_steer_a_terminal_is_shown_cleaned() -> None:
    with closing(filled([record("x", page="a\x1b[31m.md", line=7)])) as store:
        (found,) = ask(store).found
        assert found.place == "a�[31m.md:7"


@pytest.mark.parametrize("text", ["2026-03-14", "2026-03", "2026", " 2026-03-14 "])
def test_a_day_may_be_a_month_or_a_year(text: str) -> None:
    assert read_day("since", text) == text.strip()


@pytest.mark.parametrize("text", ["14.3.2026", "26", "2026-13", "2026-3-1", "2026-03-32", "", "’"])
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(WrongQuestion) as refused:
        read_day("since", text)
    assert str(refused.value) == (
        f"--since is a day, a month or a year, as 2026-03-14; not `{text}`"
    )


def test_outcomes_stand_between_commas() -> None:
    assert read_outcomes("good, Usable,") == ("good", "usable")


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("god", "--outcome is good, usable, poor, spoiled; this is `god`; did you mean good?"),
        ("good,x", "--outcome is good, usable, poor, spoiled; this is `x`"),
        ("", "--outcome is good, usable, poor, spoiled, or several between commas"),
        (",", "--outcome is good, usable, poor, spoiled, or several between commas"),
    ],
)
def test_what_is_no_outcome_is_refused(text: str, why: str) -> None:
    with pytest.raises(WrongQuestion) as refused:
        read_outcomes(text)
    assert str(refused.value) == why
