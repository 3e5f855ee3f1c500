"""What a page says of itself below its title: its part, its materials, checks and setups."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from shoplog.calc import tree as t
from shoplog.calc.results import CheckResult, MateResult, MeasuredResult, Verdict
from shoplog.log.report import PageReport
from shoplog.render.html import Html, join, tag
from shoplog.render.outcomes import SIGNS

__all__ = ["page_summary"]

MOST_MATERIALS = 4


def page_summary(report: PageReport) -> Html:
    """The summary; nothing for a page that works nothing out.

    Setups that are kept private are not counted, nor what they cut.
    """
    pairs = [
        tag("div", tag("dt", name), "\n", tag("dd", text)) for name, text in _facts(report) if text
    ]
    if not pairs or not report.blocks:
        return Html("")
    return tag(
        "section",
        tag("dl", join(pairs, "\n"), class_="shoplog-about"),
        class_="shoplog-page",
        aria_label="This page in short",
        data_search_exclude=True,
    )


def _facts(report: PageReport) -> Iterator[tuple[str, str]]:
    made = f", {report.made} made" if report.made else ""
    yield "Part", f"{report.part.replace('_', ' ')}{made}" if report.part else ""
    yield "Date", report.date.isoformat() if report.date else ""
    yield from _materials(report)
    yield "Checks", _held(report, t.Check, "hold")
    yield "Mates", _held(report, t.Mate, "mate")
    yield "Measured", _measured(report)
    yield "Setups", _setups(report)


def _materials(report: PageReport) -> Iterator[tuple[str, str]]:
    found = dict.fromkeys(
        block.setup.fields["material"].text
        for block in report.blocks
        if block.setup and not block.private and "material" in block.setup.fields
    )
    more = f" and {len(found) - MOST_MATERIALS} more" if len(found) > MOST_MATERIALS else ""
    word = "Material" if len(found) < 2 else "Materials"
    yield word, f"{', '.join([*found][:MOST_MATERIALS])}{more}"


def _held(report: PageReport, kind: type[t.Check | t.Mate], word: str) -> str:
    """How many hold, how many pass by a concession alone, and how many do not hold."""
    items = [item for block in report.blocks for item in block.items]
    stated = [item for item in items if isinstance(item.statement.node, kind)]
    found = [item for item in stated if isinstance(item, CheckResult | MateResult)]
    conceded = sum(bool(one.conceded) for one in found)
    good = sum(one.passes for one in found) - conceded
    bad = len(found) - good - conceded
    told = (
        (good, f"✓ {good} {word}"),
        (conceded, f"◑ {conceded} conceded"),
        (bad, f"✗ {bad} do{'es' if bad == 1 else ''} not"),
        (len(stated) - len(found), f"✗ {len(stated) - len(found)} not worked out"),
    )
    return ", ".join(text for number, text in told if number)


def _measured(report: PageReport) -> str:
    """The readings that count: in, out, or not to be told."""
    counts = Counter(
        item.verdict
        for block in report.blocks
        for item in block.items
        if isinstance(item, MeasuredResult) and item.counts
    )
    words = {
        Verdict.IN: "✓ {} in",
        Verdict.OUT: "✗ {} out",
        Verdict.CANNOT_TELL: "◑ {} cannot be told",
        Verdict.NOT_ASKED: "{} with no limits asked",
    }
    return ", ".join(text.format(counts[one]) for one, text in words.items() if counts[one])


def _setups(report: PageReport) -> str:
    """How many there are, and how those went that say so."""
    cards = [block.setup for block in report.blocks if block.setup and not block.private]
    if not cards:
        return ""
    outcomes = Counter(
        str(card.fields["outcome"].value) for card in cards if "outcome" in card.fields
    )
    told = [f"{sign} {outcomes[word]} {word}" for word, sign in SIGNS.items() if outcomes[word]]
    return f"{len(cards)}: {', '.join(told)}" if told else str(len(cards))
