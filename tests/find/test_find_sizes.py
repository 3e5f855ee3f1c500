"""Named sizes of pages: threads, lengths with limits and tapers, and which equals what is asked."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.find.asking import Source, find_sizes
from shoplog.find.indexing.rows import page_rows
from shoplog.find.indexing.store import Store
from shoplog.find.sizes import sizes_of
from shoplog.find.sizes_asked import SizeAsked, asked_size, asked_taper, asked_thread
from shoplog.find.wrong import WrongQuestion
from shoplog.log import read_log
from shoplog.problems import Grade

PAGES = {
    "boat/bush.md": (
        "# Bush\n\n```calc\n"
        "bore = 14 mm H7\n"
        "same = 14 mm +0.018/0\n"
        "wide = 14 mm ±0.1\n"
        "inch = 0.5 in ±0.001\n"
        "plain = 14 mm\n"
        "heavy = 14 kg ±0.1\n"
        "measured bore = 14.009 mm ±0.003\n"
        "```\n"
    ),
    "boat/screw.md": (
        "# Screw\n\n```calc\n"
        'coarse = thread("M8")\n'
        'screw = thread("M8x1.25-6g")\n'
        'fine = thread("M8x1-6g")\n'
        'left = thread("M8x1.25-6g-LH")\n'
        'unc = thread("1/4-20 UNC-2A")\n'
        'unf = thread("1/4-28 UNF-2A")\n'
        'pipe = thread("G1/2A")\n'
        'taper_pipe = thread("R1/2")\n'
        'hole = tap_drill("M8x1.25-6H")\n'
        "```\n"
    ),
    "mill/arbor.md": (
        "# Arbor\n\n```calc\n"
        'nose = taper("Morse 2")\n'
        'pin = taper("1:50")\n'
        'socket = taper("1:20.020")\n'
        'big = taper("Morse 3")\n'
        "```\n"
    ),
}


@pytest.fixture(scope="module")
def store() -> Iterator[Store]:
    log = read_log(PAGES)
    assert [found.line for found in log.problems if found.grade is Grade.PROBLEM] == []
    with closing(Store.in_memory()) as made:
        for key, report in log.pages.items():
            made.replace(key, page_rows((), sizes_of(report)))
        yield made


def names(store: Store, asked: SizeAsked) -> str:
    return " ".join(one.name for one in find_sizes(Source(store), asked))


@pytest.mark.parametrize(
    ("asked", "wanted"),
    [
        ("M8", "coarse screw left hole.thread"),
        ("M8x1.25", "coarse screw left hole.thread"),
        ("M8x1.25-6g", "screw left"),
        ("M8-LH", "left"),
        ("M8x1", "fine"),
        ("1/4-20 UNC", "unc"),
        ("1/4-28 UNF", "unf"),
        ("G1/2", "pipe"),
        ("R1/2", "taper_pipe"),
        ("M10", ""),
    ],
)
def test_threads_are_equal_by_family_diameter_and_pitch(
    store: Store, asked: str, wanted: str
) -> None:
    assert names(store, asked_thread(asked)) == wanted


@pytest.mark.parametrize(
    ("asked", "wanted"),
    [
        ("14 mm", "bore same wide"),
        ("14mm", "bore same wide"),
        ("14 mm H7", "bore same"),
        ("14 mm +0.018/0", "bore same"),
        ("14 mm ±0.1", "wide"),
        ("14 mm ±100 um", "wide"),
        ("14 mm H8", ""),
        ("1.4 cm", "bore same wide"),
        ("0.5 in", "inch"),
        ("1/2 in", "inch"),
        ("12.7 mm", "inch"),
        ("12.7 mm ±0.0254", "inch"),
        ("1/2 in ±0.002", ""),
        ("15 mm", ""),
    ],
)
def test_sizes_are_equal_by_nominal_and_limits_in_whichever_system(
    store: Store, asked: str, wanted: str
) -> None:
    assert names(store, asked_size(asked)) == wanted


@pytest.mark.parametrize(
    ("asked", "wanted"),
    [
        ("Morse 2", "nose"),
        ("MT2", "nose"),
        ("Morse 3", "big"),
        ("1:50", "pin"),
        ("1:20.02", "nose socket"),
        ("1:20", ""),
        ("Jarno 8", ""),
    ],
)
def test_tapers_are_equal_by_name_and_a_ratio_by_what_it_is(
    store: Store, asked: str, wanted: str
) -> None:
    assert names(store, asked_taper(asked)) == wanted


def test_a_size_says_where_it_stands_and_what_it_is(store: Store) -> None:
    source = Source(store, "docs/", "boat/")
    assert [
        (one.place, one.name, one.shown) for one in find_sizes(source, asked_size("14 mm H7"))
    ] == [
        ("docs/boat/bush.md:4", "bore", "14 mm H7 (14.000 to 14.018 mm)"),
        ("docs/boat/bush.md:5", "same", "14 mm +0.018/0 (14.000 to 14.018 mm)"),
    ]
    assert find_sizes(Source(store, within="mill/"), asked_size("14 mm")) == ()
    (thread,) = find_sizes(source, asked_thread("M8x1"))
    assert (thread.place, thread.shown) == ("docs/boat/screw.md:6", "M8x1-6g")


def test_readings_plain_numbers_and_other_kinds_are_no_sizes(store: Store) -> None:
    kept = {name for (name,) in store.connection.execute("SELECT name FROM sizes")}
    assert {"plain", "heavy"} & kept == set()
    assert [name for name in kept if name.startswith("bore")] == ["bore"]


Ask = Callable[[str], SizeAsked]
LENGTH = "--size is a length such as 14 mm, 9/16 in, 14 mm H7 or 14 mm ±0.02"


@pytest.mark.parametrize(
    ("ask", "text", "why"),
    [
        (asked_size, "big", LENGTH),
        (asked_size, "14", LENGTH),
        (asked_size, "14 mm + 1 mm", LENGTH),
        (asked_size, "14 kg", "--size is a length, and 14 kg is a mass"),
        (
            asked_size,
            "14H7",
            "--size: a class follows a length, and 14 has no unit (write 14 mm H7)",
        ),
        (
            asked_taper,
            "Morse 99",
            "--taper: there is no taper Morse 99 (there are Morse 0, Morse 1, Morse 2, Morse 3,"
            " Morse 4, Morse 5, Morse 6, Morse 7)",
        ),
    ],
)
def test_what_is_no_such_size_is_refused(ask: Ask, text: str, why: str) -> None:
    with pytest.raises(WrongQuestion) as refused:
        ask(text)
    assert str(refused.value) == why


def test_what_is_no_thread_is_refused_with_a_hint() -> None:
    with pytest.raises(WrongQuestion) as refused:
        asked_thread("m8")
    assert str(refused.value).startswith('--thread: "m8" is no thread that is held (')
    with pytest.raises(WrongQuestion, match=r"^--thread: .*�\[31m"):
        asked_thread("\x1b[31m")


@given(st.sampled_from([asked_thread, asked_size, asked_taper]), st.text(max_size=30))
def test_any_text_is_a_size_or_refused(ask: Ask, text: str) -> None:
    try:
        found = ask(text)
    except WrongQuestion:
        return
    assert found.condition.count("?") == len(found.values)
