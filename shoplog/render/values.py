"""A value in both systems, a result's steps, and what a record holds."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import is_dataclass

from shoplog.calc import tree as t
from shoplog.calc.explain import Step, argument_texts
from shoplog.calc.past_record import Past, PastSetup
from shoplog.calc.results import FormulaUse, PageValue, Working
from shoplog.calc.show import Shown, show
from shoplog.log.report import SetupField
from shoplog.render.html import Html, join, printed, scrolled, tag
from shoplog.render.mathml import math
from shoplog.render.past import past_words
from shoplog.render.systems import INCH, METRIC
from shoplog.trade.declare import In, Size, TradeError, readable_fields
from shoplog.trade.judging.judging_record import amount_of
from shoplog.units import unit
from shoplog.values import Value

MOST_STEP = 6000
"""Characters of one step; a statement may have 4000."""

__all__ = [
    "amount_in_inches",
    "as_written",
    "cells",
    "column_heads",
    "details",
    "in_inches",
    "inline",
    "one_line",
    "prose",
    "sources",
]


def cells(value: PageValue) -> tuple[Html, ...]:
    """The cells of a value: metric and inch, or one across both where only one system applies."""
    if isinstance(value, Past):
        return (tag("td", past_words(value), class_="shoplog-words", colspan="2"),)
    shown = show(value)
    if not isinstance(value, Value | Size):
        return (tag("td", printed(shown.own), class_="shoplog-words", colspan="2"),)
    if shown.metric == shown.inch:
        return (tag("td", _stated(shown, shown.own), class_="shoplog-value", colspan="2"),)
    both = ((shown.metric, METRIC), (shown.inch, INCH))
    return tuple(
        tag("td", _stated(shown, text), class_=f"shoplog-value {system}", **_alone(shown, text))
        for text, system in both
    )


def _alone(shown: Shown, text: str) -> dict[str, str]:
    """A size as it was stated, for where the other system stands alone: its class is kept."""
    if text == shown.own or not shown.nominal or "±" in shown.own:
        return {}
    return {"data_stated": printed(shown.nominal)}


def _stated(shown: Shown, text: str) -> Html:
    """A size as a drawing states it over its least and greatest, in the system that it is in."""
    if shown.nominal and text == shown.own and "±" not in text:
        stated = tag("strong", printed(shown.nominal))
        return join([stated, tag("br"), tag("small", printed(text))])
    return tag("strong", printed(text)) if text == shown.own else join([printed(text)])


def column_heads(*names: str) -> Iterator[Html]:
    """The heads of a table of values; those of the two systems go with their columns."""
    marks = {"Metric": {"class_": METRIC}, "Inch": {"class_": INCH}}
    for name in names:
        yield tag("th", name, scope="col", **marks.get(name, {})) if name else tag("td")


def inline(value: PageValue) -> tuple[str, str]:
    """A value as it stands in a sentence, and in both systems with its limits."""
    shown = show(value)
    return printed(shown.stated), one_line(value)


def prose(value: PageValue) -> Html:
    """A value in a sentence as it was given; the switch of the page puts in what it holds ready."""
    text, full = inline(value)
    shown = show(value)
    ready: dict[str, str] = {}
    if shown.metric != shown.inch:
        stated = {"data_mm": shown.metric, "data_inch": shown.inch}
        own = "data_mm" if shown.own == shown.metric else "data_inch"
        ready = {key: printed(words) for key, words in (stated | {own: text}).items()}
    return tag("span", tag("bdi", text), class_="shoplog-prose", title=full, **ready)


def one_line(value: PageValue) -> str:
    """A value in one line: as stated, its least and greatest, the other system in brackets."""
    shown = show(value)
    if isinstance(value, Value) and value.written and not value.has_limits:
        return printed(f"{shown.nominal} ({', '.join(shown.beside)})")
    if shown.nominal and "±" not in shown.own:
        return printed(f"{shown.nominal}: {shown.both}")
    return printed(shown.both)


def as_written(text: str, value: Value) -> str:
    """A quantity as its author wrote it; one that names a size or reckons, as what it comes to."""
    if re.fullmatch(rf"\d[\d./ -]*{re.escape(value.unit.text)}", text.strip()):
        return text.strip()
    return printed(show(value).stated)


def amount_in_inches(value: Value) -> str:
    """A figure of a cut as an inch page shows it; one that has one system as elsewhere."""
    shown = show(value)
    return shown.inch if shown.inch != shown.metric else amount_of(value)


def in_inches(fields: Iterable[SetupField]) -> bool:
    """Whether what was set is in the inch system; what is worked out from it is then told in it.

    The first quantity that has two systems tells; a speed of the spindle has one.
    """
    for fact in fields:
        shown = show(fact.value) if isinstance(fact.value, Value) else None
        if shown and shown.metric != shown.inch:
            return shown.own == shown.inch
    return False


def sources(working: Working) -> tuple[str, ...]:
    """Where a result's formulas and tables come from, each once, in order."""
    found = [*working.sources, *(use.offer.source for use in working.formulas)]
    return tuple(dict.fromkeys(source for source in found if source))


def details(
    steps: tuple[Step, ...], working: Working, value: PageValue | None = None
) -> Html | None:
    """The steps, formulas and full digits of a result, to be opened; nothing where there are none.

    A search does not look into it: the signs of formulas are no words.
    """
    parts = [
        *(_steps(steps) if steps else ()),
        *_formulas(working.formulas),
        *_full(value, bool(steps)),
        *_fields(value),
    ]
    known = sources(working)
    if not parts and not known:
        return None
    label = " and ".join([*(["steps"] if steps else ["more"] if parts else []), *_source(known)])
    if known:
        parts.append(tag("p", "Source: ", "; ".join(known), class_="shoplog-sources"))
    return tag(
        "details",
        tag("summary", label.capitalize()),
        scrolled(join(parts), label.capitalize(), "shoplog-steps"),
        class_="shoplog-details",
        data_search_exclude=True,
    )


def _source(known: tuple[str, ...]) -> Iterator[str]:
    if known:
        yield "source" if len(known) == 1 else "sources"


def _steps(steps: tuple[Step, ...]) -> Iterator[Html]:
    for step in steps:
        yield tag("p", step.label, class_="shoplog-step-label")
        if _length(step.tree) > MOST_STEP:
            yield tag("p", "too long to be shown")
            continue
        yield tag("div", math(step.tree), class_="shoplog-step")


def _length(tree: t.Node) -> int:
    """About how many characters a tree is shown with: a value put in may be long, and often."""
    return sum(1 + len(getattr(node, "text", "")) for node in t.walk(tree))


def _formulas(uses: list[FormulaUse]) -> Iterator[Html]:
    for use in uses:
        given = "; ".join(
            f"{name.replace('_', ' ')} {printed(text)}"
            for name, text in argument_texts(use).items()
        )
        name = tag("code", use.offer.name)
        yield tag("p", name, f" with {given}. " if given else ". ", f"Source: {use.offer.source}")


def _full(value: PageValue | None, worked: bool) -> Iterator[Html]:
    if worked and isinstance(value, Value):
        yield tag("p", "In full: ", printed(show(value).full))


def _fields(value: PageValue | None) -> Iterator[Html]:
    """What a page may read of a record, by name."""
    if not is_dataclass(value) or isinstance(value, Value | type):
        return
    rows = [
        tag("tr", tag("th", tag("code", name), scope="row"), *cells(found))
        for name, found in _readable(value)
    ]
    if rows:
        heads = column_heads("Field", "Metric", "Inch")
        table = tag(
            "table", tag("thead", tag("tr", *heads)), tag("tbody", *rows), class_="shoplog-table"
        )
        yield scrolled(table, "Fields")


def _readable(record: PageValue) -> Iterator[tuple[str, PageValue]]:
    class_: type = type(record)
    for name, kinds in readable_fields(class_).items():
        try:
            found = getattr(record, name)
        except (TradeError, ValueError, ArithmeticError):
            continue  # a field that this record has no value for
        if found is None or found == "" or found == ():
            continue
        if isinstance(found, tuple) and isinstance(found[0], PastSetup):
            continue  # the row leads to them
        kind = kinds[0] if kinds else None
        if isinstance(kind, In) and isinstance(found, int | float) and not isinstance(found, bool):
            found = Value(float(found), unit(kind.unit))
        yield name, found
