"""What the README shows is what comes out, and what it and DEVELOPERS.md name is there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from shoplog import Grade, Log, read_log

TOP = Path(__file__).resolve().parent.parent
README = (TOP / "README.md").read_text("utf-8")
PULLEY, SHAFT = re.findall(r"^````markdown\n(.*?)^````$", README, re.M | re.S)
(SHOWN,) = re.findall(r"^```text\n(.*?)\n```$", README, re.M | re.S)


def worked_out(shaft: str) -> Log:
    return read_log({"pump/pulley.md": PULLEY, "pump/shaft.md": shaft}, root="docs/")


def test_the_pages_of_the_readme_have_no_problem() -> None:
    log = worked_out(SHAFT)
    assert [found.line for found in log.problems if found.grade is Grade.PROBLEM] == []
    assert [check.passes for check in log.pages["pump/pulley.md"].checks] == [True, True]


def test_the_problem_in_the_readme_is_the_one_that_its_change_gives() -> None:
    wrong = SHAFT.replace("16 mm f7", "15 mm f7")
    assert wrong != SHAFT
    texts = [found.text for found in worked_out(wrong).problems]
    assert SHOWN in texts
    assert [text for text in texts if text.startswith("docs/pump/shaft.md:7:1: bore and")]


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_the_files_and_folders_that_are_named_are_there(page: str) -> None:
    named = re.findall(
        r"`((?:shoplog|tests|data|plugins|benchmarks)/[\w./-]*)`", (TOP / page).read_text("utf-8")
    )
    assert named
    assert [path for path in named if not (TOP / path).exists()] == []


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md", "changelog.d/README.md"])
def test_the_links_of_a_page_outside_the_site_lead_to_files(page: str) -> None:
    text = (TOP / page).read_text("utf-8")
    linked = re.findall(r"\]\((?!https?:)([^)#]+)\)", text)
    assert [path for path in linked if not (TOP / page).parent.joinpath(path).exists()] == []
