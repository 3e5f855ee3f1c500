"""Small logs for the tests of past setups: a setup block, a page of them, what is told."""

from __future__ import annotations

from typing import Any

from shoplog.calc.past_record import Past
from shoplog.calc.results import Result
from shoplog.find.whole import WholeLog, work_out_log
from shoplog.problems import Grade


def setup(
    day: str = "2026-01-10",
    *,
    operation: str = "turning",
    material: str = "mild steel",
    cutter: str = "turning tool, HSS",
    diameter: str = "20 mm",
    speed: str = "400 rpm",
    feed: str = "0.1 mm/rev",
    depth: str = "0.5 mm",
    outcome: str = "good",
    fault: str = "",
    ran: bool = True,
    more: str = "",
) -> str:
    """A setup block; what is empty is left out. One that did not run is a plan alone."""
    above = {
        "date": day,
        "operation": operation,
        "material": material,
        "cutter": cutter,
        "diameter": diameter,
    }
    runs = {"  speed": speed, "  feed": feed, "  depth of cut": depth}
    below = {"outcome": outcome, "fault": fault}
    lines = [f"{key}: {text}" for key, text in above.items() if text]
    lines += [more] if more else []
    lines += ["ran:" if ran else "planned:"]
    lines += [f"{key}: {text}" for key, text in runs.items() if text]
    lines += [f"{key}: {text}" for key, text in below.items() if text and ran]
    return "```setup\n" + "\n".join(lines) + "\n```\n\n"


def plan(day: str = "", **given: str) -> str:
    """A setup block that has not run."""
    return setup(day, ran=False, **given)  # type: ignore[arg-type]


def calc(text: str, front: str = "") -> str:
    """A page of one calculation block; its first row is line 2, or below the front matter."""
    header = f"---\n{front}\n---\n" if front else ""
    return f"{header}```calc\n{text}\n```\n"


def page(*setups: str, title: str = "Bush", front: str = "") -> str:
    header = f"---\n{front}\n---\n" if front else ""
    return f"{header}# {title}\n\n{''.join(setups)}"


def whole_of(**pages: str) -> WholeLog:
    """A log of pages; `a__b` is the page `a/b.md`."""
    return work_out_log({f"{name.replace('__', '/')}.md": text for name, text in pages.items()})


def value_of(whole: WholeLog, name: str, key: str = "ask.md") -> Any:
    """The value of a name of a page."""
    results = [item for item in whole.log.pages[key].results if item.name == name]
    return results[0].value if results else None


def answer(expression: str, front: str = "", **pages: str) -> Past:
    """What `past(…)` gives on a page beside others; nothing may be wrong on the page."""
    whole = whole_of(**pages, ask=calc(f"answer = {expression}", front))
    assert [p.line for p in whole.log.problems if p.grade is Grade.PROBLEM] == []
    found = value_of(whole, "answer")
    assert isinstance(found, Past)
    return found


def notes_of(found: WholeLog, name: str = "answer", key: str = "ask.md") -> list[str]:
    (item,) = [one for one in found.log.pages[key].results if one.name == name]
    assert isinstance(item, Result)
    return item.working.notes


def problems_of(whole: WholeLog, key: str = "ask.md") -> list[str]:
    """The problems of a page in one line each."""
    found = whole.log.pages[key].problems
    return [one.line for one in found if one.grade is Grade.PROBLEM]


def repeats_of(whole: WholeLog) -> list[str]:
    """What is told of repeats in a log, in one line each."""
    return [one.line for one in whole.log.problems if one.code == "setup-repeats"]
