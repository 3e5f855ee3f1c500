"""What is wrong, what to mind and what to know, at the place in the page where it arises."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from shoplog.problems import Grade, Place, Problem, counted
from shoplog.render.anchors import Anchors
from shoplog.render.html import Html, join, paragraph, tag

__all__ = ["caution", "cautions", "finding", "note", "problem_in_prose", "said", "summary"]

MOST_AROUND = 100
"""Characters of a line that are shown on each side of a fault."""

# A word and a sign: a grade is never told by colour alone.
_HEADS = {Grade.PROBLEM: "✗ Problem", Grade.CAUTION: "⚠ Caution", Grade.NOTE: "Note"}


_QUOTED = re.compile(r"`([^`]+)`")


def said(text: str) -> Html:
    """What the log says, with each word that it quotes from a page set as code."""
    parts = _QUOTED.split(text)
    return join(tag("code", part) if order % 2 else part for order, part in enumerate(parts))


def caution(text: str, *after: Html) -> Html:
    """A caution that a result carries, and what stands behind it."""
    head = tag("strong", _HEADS[Grade.CAUTION])
    return paragraph("shoplog-caution", head, " ", said(text), *after)


def cautions(texts: Iterable[str], anchors: Anchors) -> Iterator[Html]:
    """Cautions in full; those that stand further up the page already, to be opened."""
    told = [*dict.fromkeys(texts)]
    new = [text for text in told if anchors.first_time(text)]
    yield from map(caution, new)
    again = [text for text in told if text not in new]
    if again:
        count = counted(len(again), "caution")
        yield tag(
            "details",
            tag("summary", f"⚠ {count} as further up this page"),
            *map(caution, again),
            class_="shoplog-details shoplog-again",
            data_search_exclude=True,
        )


def note(text: str) -> Html:
    """An explanation that a result carries."""
    return paragraph("shoplog-note", tag("strong", _HEADS[Grade.NOTE]), " ", said(text))


def finding(problem: Problem, anchor: str = "") -> Html:
    """A finding with the author's line, the place marked in it, and the hint.

    `anchor` is the id that the summary at the top of the page leads to.
    """
    if problem.grade is not Grade.PROBLEM:
        made = caution if problem.grade is Grade.CAUTION else note
        return made(f"{problem.message} ({problem.hint})" if problem.hint else problem.message)
    head = tag("strong", _HEADS[Grade.PROBLEM])
    label = f"{problem.place.path} line {problem.place.line}"
    return tag(
        "div",
        paragraph("shoplog-problem-head", head, " ", said(problem.message)),
        _marked(problem.place) if problem.place.source else "",
        paragraph("shoplog-hint", "Hint: ", said(problem.hint)) if problem.hint else "",
        paragraph("shoplog-place", str(problem.place), *map(_also, problem.also)),
        class_="shoplog-problem",
        role="group",
        aria_label=f"Problem, {label}",
        **({"id": anchor} if anchor else {}),
    )


def _also(place: Place) -> str:
    return f" · see also {place}"


def _marked(place: Place) -> Html:
    """The author's line with the fault marked, and a caret below it as a compiler prints it."""
    before, fault, after = _around(place)
    caret = " " * len(before) + "^" * max(1, len(fault))
    return tag(
        "pre",
        before,
        tag("mark", fault) if fault else "",
        after,
        "\n",
        tag("span", caret, class_="shoplog-caret", aria_hidden="true"),
        class_="shoplog-source-line",
        data_search_exclude=True,
    )


def _around(place: Place) -> tuple[str, str, str]:
    """A line without its margin, before the fault, at it and after it; clipped where it is long."""
    source = place.source.replace("\t", " ")
    start = min(place.column - 1, len(source))
    end = min(len(source), start + max(1, place.width))
    before, fault, after = source[:start].lstrip(), source[start:end], source[end:].rstrip()
    if len(before) > MOST_AROUND:
        before = f"…{before[-MOST_AROUND:]}"
    if len(fault) > MOST_AROUND:
        fault, after = f"{fault[:MOST_AROUND]}…", ""
    return before, fault, after if len(after) <= MOST_AROUND else f"{after[:MOST_AROUND]}…"


def problem_in_prose(expression: str, problem: Problem) -> Html:
    """What stands in a sentence where a value could not be shown."""
    hint = f" ({problem.hint})" if problem.hint else ""
    return tag(
        "span",
        tag("code", f"[={expression}]"),
        " ",
        tag("strong", _HEADS[Grade.PROBLEM]),
        tag("bdi", said(f" {problem.message}{hint}")),
        class_="shoplog-prose-problem",
    )


def summary(problems: Iterable[tuple[Problem, str]]) -> Html:
    """A line at the top of a page that has problems, leading to each that has an anchor."""
    found = [*problems]
    if not found:
        return Html("")
    count = counted(len(found), "problem")
    items = [tag("li", _link(problem, anchor)) for problem, anchor in found]
    return tag(
        "div",
        paragraph("shoplog-problem-head", tag("strong", f"✗ This page has {count}")),
        tag("ul", join(items)),
        class_="shoplog-problem shoplog-summary",
        role="group",
        aria_label="Problems of this page",
        data_search_exclude=True,
    )


def _link(problem: Problem, anchor: str) -> Html:
    text = said(f"line {problem.place.line}: {problem.message}")
    return tag("a", text, href=f"#{anchor}") if anchor else join([text])
