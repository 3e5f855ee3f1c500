"""The rows of a calculation block: one or two for each item, in the order of the page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shoplog.calc.explain import explain, steps
from shoplog.calc.past_record import Past
from shoplog.calc.results import (
    CheckResult,
    ConcessionResult,
    DrawResult,
    Item,
    MateResult,
    MeasuredResult,
    Operand,
    PageValue,
    Result,
    Truth,
    Unworked,
    UseResult,
    Verdict,
    Working,
)
from shoplog.calc.show import show
from shoplog.problems import Grade, Problem
from shoplog.render.anchors import MOST_PICTURES, Anchors
from shoplog.render.findings import cautions, finding, note
from shoplog.render.html import Html, join, paragraph, printed, tag
from shoplog.render.past import Link, past_links
from shoplog.render.pictures.drawing import drawing
from shoplog.render.values import cells, details, one_line
from shoplog.trade.declare import Size
from shoplog.values import Value

__all__ = ["COLUMNS", "item_rows"]

COLUMNS = 4
TOO_MANY_PICTURES = f"this page draws more than {MOST_PICTURES} pictures; this one is left out"
_TRUTH_MARKS = {Truth.YES: "✓", Truth.NO: "✗", Truth.SOMETIMES: "◑"}
_TRUTH_STATES = {Truth.YES: "good", Truth.NO: "bad", Truth.SOMETIMES: "part"}
_VERDICTS = {
    Verdict.IN: ("good", "✓ in: within the limits asked"),
    Verdict.OUT: ("bad", "✗ out: beyond the limits asked"),
    Verdict.CANNOT_TELL: ("part", "◑ cannot tell: the reading's uncertainty reaches over a limit"),
    Verdict.NOT_ASKED: ("none", "– no limits asked"),
}


def item_rows(
    item: Item, problems: Iterable[Problem], anchors: Anchors, link: Link | None = None
) -> Html:
    """The rows of an item, and below them what it is to be minded and what is wrong with it.

    `problems` are the findings on its lines, those that another page has with it too.
    """
    rows = [*_rows(item, anchors)]
    if isinstance(item, Result) and isinstance(item.value, Past):
        rows += [_across(line) for line in past_links(item.value, link)]
    working: Working | None = getattr(item, "working", None)
    said = working.cautions if working else []
    rows += [_across(minded) for minded in cautions(said, anchors)]
    rows += [_across(note(text)) for text in (working.notes if working else [])]
    rows += [
        _across(finding(problem, anchors.problem(problem)))
        for problem in problems
        if problem.grade is Grade.PROBLEM or not (problem.message in said or _conceded(item))
    ]
    rows += [_across(found) for found in _more(item)]
    return join(rows, "\n")


def _conceded(item: Item) -> bool:
    """Whether its row says that it is conceded, and why, so that no note need."""
    return bool(getattr(item, "conceded", ""))


def _rows(item: Item, anchors: Anchors) -> Iterator[Html]:
    match item:
        case Result():
            yield _result(item, anchors)
        case CheckResult():
            yield _check(item)
        case MateResult():
            yield _mate(item)
        case MeasuredResult():
            yield _measured(item, anchors)
        case ConcessionResult(statement=statement, name=name, reason=reason):
            text = join([tag("code", name), " because ", tag("q", reason)])
            yield _row(_kind("concession"), _wide(text), _last(statement.note))
        case UseResult(statement=statement, name=name, page=page):
            text = join([tag("code", name), " is the page ", tag("q", page)])
            yield _row(_kind("use"), _wide(text), _last(statement.note))
        case DrawResult(text=text, value=value):
            anchor = anchors.picture()
            yield _across(drawing(value, text, anchor) if anchor else note(TOO_MANY_PICTURES))
        case Unworked():
            yield from _unworked(item)


def _more(item: Item) -> Iterator[Html]:
    match item:
        case Result(working=working, value=value):
            found = details(steps(item), working, value)
        case CheckResult(condition=condition, working=working):
            found = details(explain(condition, working), working)
        case MateResult(working=working, fit=fit):
            found = details((), working, fit)
        case _:
            return
    if found is not None:
        yield found


def _row(*children: Html, state: str = "") -> Html:
    """A row; one with a verdict has its state at the margin too."""
    # A line end between cells keeps their words apart where a search reads the text alone.
    return tag("tr", join(children, "\n"), **({"class_": f"shoplog-is-{state}"} if state else {}))


def _across(content: Html) -> Html:
    return tag("tr", tag("td", content, colspan=str(COLUMNS)), class_="shoplog-more")


def _kind(word: str) -> Html:
    return tag("th", word, scope="row", class_="shoplog-kind")


def _wide(content: Html) -> Html:
    return tag("td", content, colspan="2", class_="shoplog-words")


def _last(note_text: str, *before: Html) -> Html:
    """The last cell: a verdict where there is one, and the row's note."""
    parts = [*before]
    if note_text:
        parts.append(tag("p", note_text))
    return tag("td", join(parts, "\n"), class_="shoplog-remark")


def _verdict(state: str, text: str, conceded: str = "") -> Html:
    verdict = tag("strong", text)
    if conceded:
        state = "conceded"
        verdict = join([verdict, f"; conceded: {conceded}"])
    return paragraph(f"shoplog-verdict shoplog-{state}", verdict)


def _named(name: str, anchor: str, *after: Html) -> Html:
    link = tag("a", tag("code", name), href=f"#{anchor}", title=f"Link to {name}")
    return tag("th", link, *after, scope="row", id=anchor)


def _result(item: Result, anchors: Anchors) -> Html:
    remark = _last(item.statement.note)
    return _row(_named(item.name, anchors.give(f"value-{item.name}")), *cells(item.value), remark)


def _operand(side: Operand) -> Iterator[Html]:
    """What a side is, unless it is written out already."""
    text = one_line(side.value)
    shown = show(side.value)
    if side.text.strip() not in (shown.own, shown.nominal, shown.metric, shown.inch):
        yield tag("div", tag("code", side.text), f" is {text}")


def _check(item: CheckResult) -> Html:
    condition = item.statement.code.strip().removeprefix("check").strip()
    sides = [made for side in item.sides for made in _operand(side)]
    verdict = _verdict(
        _TRUTH_STATES[item.truth],
        f"{_TRUTH_MARKS[item.truth]} {item.truth.value}",
        item.conceded,
    )
    content = join([tag("code", condition), *sides], "\n")
    remark = _last(item.statement.note, verdict)
    state = "conceded" if item.conceded else _TRUTH_STATES[item.truth]
    return _row(_kind("check"), _wide(content), remark, state=state)


def _mate(item: MateResult) -> Html:
    lines = [
        tag("div", tag("code", side.text), *_is(side.value)) for side in (item.one, item.other)
    ]
    if item.asked:
        lines.append(tag("div", f"asked: {item.asked}"))
    if item.found:
        lines.append(tag("div", f"found: {item.found}"))
    if item.fault and not item.problems:
        lines.append(tag("div", f"fault: {item.fault}"))
    state, text = ("bad", "✗ does not mate") if item.fault else ("good", "✓ mates")
    remark = _last(
        item.statement.note,
        _verdict(state, text, item.conceded),
    )
    shown = "conceded" if item.conceded else state
    return _row(_kind("mate"), _wide(join(lines, "\n")), remark, state=shown)


def _is(value: PageValue) -> Iterator[str]:
    """What a side of a mate is, in a few words: a record's own sentence is beside its name."""
    if isinstance(value, Value | Size):
        yield f" is {one_line(value)}"
    elif designation := getattr(value, "designation", ""):
        yield f" is {printed(str(designation))}"


def _measured(item: MeasuredResult, anchors: Anchors) -> Html:
    which = f" {item.label}" if item.label else f" piece {item.piece}" if item.piece else ""
    after = tag("small", f" measured{which}")
    state, text = _VERDICTS[item.verdict]
    if item.counts:
        parts = [_verdict(state, text, item.conceded)]
    else:
        parts = [tag("p", "an earlier reading: a later one counts")]
    if item.wanted is not None:
        wanted = show(item.wanted)
        parts.append(tag("p", f"wanted: {printed(wanted.nominal or wanted.both)}"))
    name = _named(item.name, anchors.give(f"measured-{item.name}"), after)
    shown = "" if not item.counts else "conceded" if item.conceded else state
    return _row(name, *cells(item.value), _last(item.statement.note, *parts), state=shown)


def _unworked(item: Unworked) -> Iterator[Html]:
    """A line that is wrong is shown with its problem; one that waits says what it waits for."""
    name = tag("th", tag("code", item.name), scope="row") if item.name else _kind("line")
    line = tag("code", item.statement.code.strip(), class_="shoplog-line")
    if item.waits_for:
        waits = tag("div", "waits for ", tag("code", item.waits_for))
        line = join([line, waits], "\n")
    state = "part" if item.waits_for else "bad"
    verdict = _verdict(state, f"{'◑' if item.waits_for else '✗'} not worked out")
    yield _row(name, _wide(line), _last(item.statement.note, verdict), state=state)
