"""A setup as a card: what was meant beside what was done, and how it went."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from shoplog.calc.show import show
from shoplog.log.report import Derived, Run, SetupField, SetupReport
from shoplog.problems import Grade, Problem
from shoplog.render.anchors import Anchors
from shoplog.render.findings import cautions, finding, note
from shoplog.render.html import Html, join, paragraph, printed, scrolled, tag
from shoplog.render.outcomes import NO_SIGN, SIGNS, STATES
from shoplog.render.past import Link, repeats_caution
from shoplog.render.setup_region import Past, setup_region
from shoplog.render.systems import in_line, instead
from shoplog.render.values import amount_in_inches, as_written, in_inches
from shoplog.trade.judging.judging_record import JudgedCut, Limit, amount_of
from shoplog.values import Value

__all__ = ["kept_private", "setup_card"]

_HEAD_KEYS = ("operation", "feature", "outcome", "fault", "remarks")


def setup_card(
    setup: SetupReport,
    problems: Iterable[Problem],
    anchors: Anchors,
    link: Link | None = None,
    past: Past | None = None,
) -> Html:
    """The card of a setup, with its cautions, notes and problems below its table."""
    runs = [run for run in (setup.planned, *setup.ran) if run is not None]
    minded = [text for run in runs for text in run.cautions]
    notes = [*setup.notes, *(text for run in runs for text in run.notes)]
    repeats = [setup.repeats] if setup.repeats else []
    said = {*minded, *notes, *(one.message for one in repeats)}
    told = {
        p.message: p for p in problems if p.grade is not Grade.PROBLEM and p.message not in said
    }
    found = [p for p in problems if p.grade is Grade.PROBLEM or told.get(p.message) is p]
    return tag(
        "section",
        _title(setup.fields),
        _facts(setup.fields),
        _runs_table(runs) if runs else "",
        *_judged(runs),
        *_region(setup, anchors, past),
        _sources(runs),
        *_ending(setup.fields),
        *(repeats_caution(one, link) for one in repeats),
        *cautions(minded, anchors),
        *map(note, dict.fromkeys(notes)),
        *(finding(problem, anchors.problem(problem)) for problem in found),
        class_="shoplog-block shoplog-setup",
        id=anchors.give(setup.anchor or "setup"),
        aria_label=anchors.name(_label(setup.fields)),
    )


def kept_private(problems: Iterable[Problem]) -> Html:
    """What stands on the site for a setup that is kept off it: nothing that it says."""
    wrong = sum(problem.grade is Grade.PROBLEM for problem in problems)
    text = "A setup is kept private."
    if wrong:
        text += " It has a problem." if wrong == 1 else f" It has {wrong} problems."
    return tag("section", paragraph("shoplog-note", text), class_="shoplog-block shoplog-private")


def _label(fields: dict[str, SetupField]) -> str:
    """What a card is called where cards are listed: its operation, its feature, its day."""
    told = (fields[key].text for key in ("operation", "feature", "date") if key in fields)
    return printed(": ".join(filter(None, ("Setup", ", ".join(told)))))


def _title(fields: dict[str, SetupField]) -> Html:
    operation = fields["operation"].text if "operation" in fields else "Setup"
    feature = f": {fields['feature'].text}" if "feature" in fields else ""
    return paragraph("shoplog-title", tag("strong", operation), feature)


def _facts(fields: dict[str, SetupField]) -> Html:
    pairs = [
        tag("div", tag("dt", key), "\n", tag("dd", _field_text(fact)))
        for key, fact in fields.items()
        if key not in _HEAD_KEYS and key != "private"
    ]
    return tag("dl", join(pairs, "\n"), class_="shoplog-facts") if pairs else Html("")


def _field_text(fact: SetupField) -> Html:
    """A line as written, with the other system in brackets where it is a quantity.

    One that names a size of the page is given with the value that the name stands for.
    """
    if not isinstance(fact.value, Value):
        return join([fact.text])
    told = as_written(fact.text, fact.value)
    shown = in_line(told, show(fact.value))
    return shown if told == fact.text else join([tag("code", fact.text), " ", shown])


def _runs_table(runs: list[Run]) -> Html:
    heads = [tag("td"), *(tag("th", name, scope="col") for name in _names(runs))]
    labels = dict.fromkeys(
        label
        for run in runs
        for label in (*run.fields, *(_row_of(derived.label) for derived in run.derived))
    )
    told = [(run, in_inches(run.fields.values())) for run in runs]
    rows = [_row(label, [_cell(run, label, inch) for run, inch in told]) for label in labels]
    table = tag(
        "table",
        tag("thead", tag("tr", join(heads, "\n")), data_search_exclude=True),
        tag("tbody", join(rows, "\n")),
        class_="shoplog-table shoplog-runs",
    )
    return scrolled(table, "Planned and ran")


def _names(runs: list[Run]) -> Iterator[str]:
    ran = sum(run.kind == "ran" for run in runs)
    number = 0
    for run in runs:
        number += run.kind == "ran"
        yield f"ran {number}" if run.kind == "ran" and ran > 1 else run.kind


def _row(label: str, cells: list[Html]) -> Html:
    return tag("tr", join([tag("th", label, scope="row"), *cells], "\n"))


def _row_of(label: str) -> str:
    """The row of a figure: what one run was set to and another works out stand side by side."""
    return "speed" if label == "spindle speed" else label


def _cell(run: Run, label: str, inch: bool) -> Html:
    """What a run was given for a row, and the figures worked out for it."""
    found = [derived for derived in run.derived if _row_of(derived.label) == label]
    figures = [_figure(derived, inch) for derived in found]
    fact = run.fields.get(label)
    if fact is not None and fact.key == "outcome":
        state, sign = _outcome(fact.text)
        return tag("td", f"{sign} {fact.text}", class_=f"shoplog-{state}")
    given = [_field_text(fact)] if fact is not None else []
    return tag("td", join([*given, *figures] or ["–"], " "))


def _figure(derived: Derived, inch: bool) -> Html:
    value = show(derived.value)
    value = replace(value, own=value.inch) if inch else value
    shown = in_line(tag("strong", printed(value.own)), value)
    note_text = tag("small", derived.note) if derived.note else ""
    return tag("span", shown, note_text, class_="shoplog-derived")


def _sources(runs: list[Run]) -> Html:
    """Where the figures come from: each source once, with the figures that it is for."""
    figures: dict[str, dict[str, None]] = {}
    for run in runs:
        for derived in run.derived:
            if derived.source:
                figures.setdefault(derived.source, {})[derived.label] = None
    texts = [f"{', '.join(labels)}: {source}" for source, labels in figures.items()]
    return paragraph("shoplog-sources", "Source of ", "; ".join(texts)) if texts else Html("")


def _judged(runs: list[Run]) -> Iterator[Html]:
    """What gives way first in a sentence; every limit, the forces, what is missing on demand."""
    for name, run in zip(_names(runs), runs, strict=True):
        if run.judged is None or not run.judged.limits:
            continue
        state = "good" if run.judged.bears else "part"
        words = tag("span", f"what gives way first, {name}: ")
        yield paragraph(f"shoplog-first shoplog-{state}", words, tag("strong", _first(run.judged)))
        yield tag(
            "details",
            tag("summary", f"Every limit, {name}"),
            _limits(run.judged),
            *_asides(run.judged),
            class_="shoplog-details",
            data_search_exclude=True,
        )


def _region(setup: SetupReport, anchors: Anchors, past: Past | None) -> Iterator[Html]:
    """The setup among its limits, on demand."""
    if not any(run.judged for run in (setup.planned, *setup.ran) if run is not None):
        return
    anchor = anchors.picture()
    try:
        drawn = setup_region(setup, anchor, past) if anchor else None
    except (ArithmeticError, ValueError):  # numbers that no drawing holds: the card stands
        drawn = None
    if drawn is not None:
        yield tag(
            "details",
            tag("summary", "What it can bear, over speed and feed"),
            tag("div", drawn, class_="shoplog-figure"),
            class_="shoplog-details",
            data_search_exclude=True,
        )


def _first(judged: JudgedCut) -> Html:
    return instead(judged.first, judged.first_as(amount_in_inches, in_inches=True))


def _against(limit: Limit) -> Iterator[Html]:
    """The cells of a figure and of its bound."""
    texts = (limit.figure_and_bound(written) for written in (amount_of, amount_in_inches))
    for metric, inch in zip(*texts, strict=True):
        yield tag("td", instead(metric, inch))


def _limits(judged: JudgedCut) -> Html:
    heads = ("limit", "figure", "bound", "share", "verdict", "source")
    rows = [
        tag(
            "tr",
            tag("th", limit.what, scope="row"),
            *_against(limit),
            tag("td", limit.share_text),
            tag("td", f"{_VERDICT_SIGNS[limit.verdict]} {limit.verdict}"),
            tag("td", tag("small", limit.source)),
        )
        for limit in judged.limits
    ]
    head = tag("thead", tag("tr", *(tag("th", text, scope="col") for text in heads)))
    class_ = "shoplog-table shoplog-limits"
    table = tag("table", head, tag("tbody", join(rows, "\n")), class_=class_)
    return scrolled(table, "Every limit")


_VERDICT_SIGNS = {"within": "✓", "beyond": "✗", "cannot tell": "◑"}


def _asides(judged: JudgedCut) -> Iterator[Html]:
    if judged.forces is not None:
        yield paragraph("shoplog-note", tag("strong", "Forces "), judged.forces.describe())
    for text in judged.notes:
        yield note(text)
    if judged.missing:
        yield paragraph("shoplog-note", tag("strong", "Not judged "), "; ".join(judged.missing))


def _ending(fields: dict[str, SetupField]) -> Iterator[Html]:
    if "outcome" in fields:
        word = fields["outcome"].text
        state, sign = _outcome(word)
        shown = tag("strong", f"{sign} {word}")
        yield paragraph(f"shoplog-verdict shoplog-{state}", "outcome: ", shown)
    for key in ("fault", "remarks"):
        if key in fields:
            yield paragraph("shoplog-remarks", tag("span", f"{key}: "), fields[key].text)


def _outcome(word: str) -> tuple[str, str]:
    known = word.casefold().strip()
    return STATES.get(known, "part"), SIGNS.get(known, NO_SIGN)
