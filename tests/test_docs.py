"""The docs folder is held to what it says: pages are clean, examples do what stands beside them."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from click.testing import CliRunner

from shoplog.calc.functions import FUNCTIONS
from shoplog.calc.parse import MOST_BRACKETS
from shoplog.calc.past import PAST
from shoplog.calc.past_record import FIGURE_UNITS
from shoplog.calc.results import Result
from shoplog.calc.wrong import RESERVED
from shoplog.cli import main
from shoplog.find.pasts import MOST_PASTS
from shoplog.find.whole import work_out_log
from shoplog.log import Log, read_log
from shoplog.log.header import PageKeys
from shoplog.problems import CATALOGUE, Grade, Problem
from shoplog.trade.offers import OFFERS

ROOT = Path(__file__).parent.parent
DOCS = ROOT / "docs"

_COMMENT = re.compile(r"^<!-- (expect|says|file): ?(.*?) ?-->$|^<!-- (says) -->$")
_FENCE = re.compile(r"^(`{3,})(\w*)$")


@dataclass
class Listing:
    """A fence of a page, and the comment above it that says what it is for."""

    page: str
    line: int
    language: str
    purpose: str
    detail: str
    lines: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        return "\n".join(self.lines) + "\n"

    @property
    def where(self) -> str:
        return f"{self.page}:{self.line}"


def texts_of(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text("utf-8")
        for path in sorted(folder.rglob("*.md"))
    }


def listings(page: str, text: str) -> Iterator[Listing]:
    """Every fence at the margin of a page, with the comment that stands above it."""
    purpose, detail, fence = "", "", ""
    made: Listing | None = None
    for number, line in enumerate(text.splitlines(), start=1):
        if made is not None:
            if line == fence:
                yield made
                made, purpose, detail = None, "", ""
            else:
                made.lines.append(line)
        elif comment := _COMMENT.match(line):
            purpose, detail = comment[1] or comment[3], comment[2] or ""
        elif found := _FENCE.match(line):
            fence = found[1]
            made = Listing(page, number, found[2], purpose, detail)
        elif line.strip():
            purpose, detail = "", ""


def work_out(texts: dict[str, str]) -> Log:
    return work_out_log(texts, shop_profile=(ROOT / "shop.yml").read_text("utf-8")).log


def problems_of(log: Log) -> list[Problem]:
    return [found for found in log.problems if found.grade is Grade.PROBLEM]


TEXTS = texts_of(DOCS)
DECLARED = tuple(CATALOGUE)  # before any other test adds to it
LISTINGS = [one for page, text in TEXTS.items() for one in listings(page, text)]
EXPECTED = [
    (one, LISTINGS[n + 1]) for n, one in enumerate(LISTINGS[:-1]) if one.purpose == "expect"
]
WITH_CONSOLE = sorted({one.page for one in LISTINGS if one.language == "console"})


@pytest.fixture(scope="module")
def log() -> Log:
    return work_out(TEXTS)


def test_no_page_of_the_docs_has_a_problem(log: Log) -> None:
    assert [found.text for found in problems_of(log)] == []


def test_the_demo_has_two_projects_and_every_kind_of_statement(log: Log) -> None:
    pages = {key: page for key, page in log.pages.items() if key.startswith("log/")}
    kinds = {
        type(item).__name__
        for page in pages.values()
        for block in page.blocks
        for item in block.items
    }
    assert {"log/boat-winch", "log/drilling-jig"} <= {page.project for page in pages.values()}
    assert kinds == {
        *("Result", "CheckResult", "MateResult", "MeasuredResult"),
        *("ConcessionResult", "DrawResult", "UseResult"),
    }
    assert sum(block.setup is not None for page in pages.values() for block in page.blocks) >= 10


def test_every_mate_and_check_of_the_demo_was_worked_out(log: Log) -> None:
    for key, page in log.pages.items():
        stated = len(re.findall(r"^ *(?:check|mate) ", "\n".join(page_code(TEXTS[key])), re.M))
        assert len(page.checks) == stated, key
        assert all(check.passes for check in page.checks), key


def page_code(text: str) -> Iterator[str]:
    """The lines of a page's calculation blocks, indented ones too."""
    fence = ""
    for line in text.splitlines():
        opened = re.match(r"^ *(`{3,})(.*)$", line)
        if opened and not fence:
            fence, calc = opened[1], opened[2] == "calc"
        elif opened and opened[1] == fence and not opened[2]:
            fence = ""
        elif fence and calc:
            yield line


@pytest.mark.parametrize(
    ("page", "right", "wrong", "also"),
    [
        ("bush.md", "bore = 25 mm H7", "bore = 26 mm H7", "drum-shaft.md"),
        ("drum-shaft.md", "journal  = 25 mm f7", "journal  = 24 mm f7", "bush.md"),
        ("drum-shaft.md", "journal  = 25 mm f7", "journal  = 25 mm g7", "bush.md"),
        ("bearing-block.md", "bore    = 32 mm H7", "bore    = 33 mm H7", "bush.md"),
        ("crank.md", 'socket = taper("1:10")', 'socket = taper("1:12")', "drum-shaft.md"),
        ("assembly.md", "diameter=66 mm, holes=4", "diameter=65 mm, holes=4", "bearing-block.md"),
        ("assembly.md", 'thread("M8-6H")', 'thread("M8x1-6H")', "bearing-block.md"),
    ],
)
def test_one_digit_of_a_mating_size_is_a_problem_on_both_pages(
    page: str, right: str, wrong: str, also: str
) -> None:
    key = f"log/boat-winch/{page}"
    assert TEXTS[key].count(right) == 1
    broken = work_out({**TEXTS, key: TEXTS[key].replace(right, wrong)})
    paths = {found.place.path for found in problems_of(broken) if found.code == "mate-fails"}
    assert {key, f"log/boat-winch/{also}"} <= paths
    assert problems_of(work_out({**TEXTS, key: TEXTS[key].replace(right, right)})) == []


def test_the_guide_says_the_digit_to_change_as_the_demo_has_it() -> None:
    line = "bore = 25 mm H7 "
    assert line in TEXTS["log/boat-winch/bush.md"]
    assert "`25 mm H7`" in TEXTS["guide/fits-and-mates.md"]
    assert "`bore = 25 mm H7`" in TEXTS["log/index.md"]


def test_every_formula_is_used_on_a_page_of_the_guide_or_the_log(log: Log) -> None:
    pages = [page for key, page in log.pages.items() if key.startswith(("guide/", "log/"))]
    items = [item for page in pages for block in page.blocks for item in block.items]
    used = {
        use.offer.name
        for item in items
        if isinstance(item, Result)
        for use in item.working.formulas
    }
    assert used == {*OFFERS, PAST.name}


def test_every_message_stands_on_the_messages_page() -> None:
    text = TEXTS["reference/messages.md"]
    assert len(CATALOGUE) > 150
    assert [code for code in DECLARED if f"{{#{code}}}" not in text] == []


def test_every_link_to_a_message_names_one() -> None:
    linked = {
        code for text in TEXTS.values() for code in re.findall(r"messages\.md#([\w-]+)\)", text)
    }
    assert linked
    assert linked <= set(CATALOGUE)


def test_every_message_has_a_group_of_its_own() -> None:
    assert "\n## Others\n" not in TEXTS["reference/messages.md"]


def test_the_page_of_the_language_lists_every_function() -> None:
    text = TEXTS["reference/language.md"]
    listed = re.findall(r"^\| `(\w+)` \| `(.+?)` \|", text, re.M)
    assert listed == [(name, usage) for name, (*_, usage) in FUNCTIONS.items()]


def test_the_page_of_the_language_lists_every_figure_of_the_past() -> None:
    text = TEXTS["reference/language.md"]
    listed = re.findall(r"^\| `(\w+)` \| (\S+) \| `(\w+)`, `(\w+)` \|$", text, re.M)
    assert listed == [
        (name, unit, f"{name}_least", f"{name}_most") for name, unit in FIGURE_UNITS.items()
    ]
    assert f"at most {MOST_PASTS} different things" in text


def test_the_page_of_the_language_lists_every_reserved_word_and_bound() -> None:
    text = TEXTS["reference/language.md"]
    assert f"Not these words: `{' '.join(RESERVED)}`." in text
    assert f"brackets stand at most {MOST_BRACKETS} deep" in text
    for word in ("check", "mate", "measured", "concession", "draw", "use"):
        assert f"| `{word} " in text


def test_the_page_of_the_front_matter_lists_every_key() -> None:
    text = TEXTS["reference/front-matter.md"]
    listed = re.findall(r"^\| `(\w+)` \|", text, re.M)
    assert listed == list(PageKeys.__dataclass_fields__)


@pytest.mark.parametrize(
    ("listing", "after"), EXPECTED, ids=[one.where for one, _ in EXPECTED] or None
)
def test_an_example_that_is_wrong_on_purpose_is_wrong_in_that_way(
    listing: Listing, after: Listing
) -> None:
    is_page = any(line.startswith(("```", "---")) for line in listing.lines)
    page = listing.text if is_page else f"```calc\n{listing.text}```\n"
    found = read_log({"page.md": page}).problems
    assert set(listing.detail.split(", ")) == {
        one.code for one in found if one.grade is not Grade.NOTE
    }
    if after.purpose == "says" and after.page == listing.page:
        said = [f"{one.message}\n" + (f"hint: {one.hint}\n" if one.hint else "") for one in found]
        assert after.text in said


SHOWN_BESIDE = [
    (one, LISTINGS[n - 1] if n else None)
    for n, one in enumerate(LISTINGS)
    if one.language == "calc"
    and (one.page.startswith("guide/") or one.page.endswith("language.md"))
]


@pytest.mark.parametrize(
    ("block", "before"), SHOWN_BESIDE, ids=[block.where for block, _ in SHOWN_BESIDE]
)
def test_a_block_of_the_guide_stands_below_the_text_that_makes_it(
    block: Listing, before: Listing | None
) -> None:
    assert before is not None
    assert before.page == block.page
    shown = before.lines[1:-1] if before.lines[0] == "```calc" else before.lines
    assert shown == block.lines


def commands(listing: Listing) -> Iterator[tuple[str, str]]:
    """The commands of a console listing, each with what it prints."""
    command, printed = "", ""
    for line in listing.lines:
        if line.startswith("$ "):
            if command:
                yield command, printed
            command, printed = line[2:], ""
        else:
            printed += f"{line}\n"
    yield command, printed


@pytest.mark.parametrize("page", WITH_CONSOLE)
def test_what_the_console_shows_is_what_the_command_prints(
    page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import shlex

    monkeypatch.chdir(tmp_path)
    ran = 0
    for listing in listings(page, TEXTS[page]):
        if listing.purpose == "file":
            path = tmp_path / listing.detail
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(listing.text, "utf-8")
        elif listing.language == "console":
            for command, printed in commands(listing):
                program, *arguments = shlex.split(command)
                assert program == "shoplog", command
                result = CliRunner().invoke(main, arguments)
                assert result.output == printed, command
                ran += 1
    assert ran


def test_the_programs_of_the_guide_run() -> None:
    programs = [one for one in LISTINGS if one.language == "python"]
    names: dict[str, object] = {"text": "# Bore\n\n```calc\nbore = 16 mm H7\n```\n"}
    for program in programs:
        exec(compile(program.text, program.where, "exec"), names)
    log = names["log"]
    assert isinstance(log, Log)
    assert [found.text for found in log.problems] == []
    assert log.counts.checks == 1
    assert "16.018 mm" in str(names["html"])


def test_the_pages_link_to_pages_that_are_there() -> None:
    for page, text in TEXTS.items():
        for link in re.findall(r"\]\(([^)#\s]+\.md)(?:#[^)]*)?\)", text):
            target = (DOCS / page).parent / link
            if not link.startswith("page"):
                assert os.path.normpath(target) in {str(DOCS / key) for key in TEXTS}, (page, link)
