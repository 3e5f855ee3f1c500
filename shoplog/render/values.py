"""A value in both systems, a result's steps, and what a record holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import is_dataclass

from shoplog.calc import tree as t
from shoplog.calc.explain import Step, argument_texts
from shoplog.calc.results import FormulaUse, PageValue, Working
from shoplog.calc.show import Shown, show
from shoplog.render.html import Html, join, printed, scrolled, tag
from shoplog.render.mathml import math
from shoplog.trade.declare import In, Size, TradeError, readable_fields
from shoplog.units import unit
from shoplog.values import Value

MOST_STEP = 6000
"""Characters of one step; a statement may have 4000."""

__all__ = ["cells", "details", "inline", "one_line", "sources"]


def cells(value: PageValue) -> tuple[Html, ...]:
    """The cells of a value: metric and inch, or one across both where only one system applies."""
    shown = show(value)
    if not isinstance(value, Value | Size):
        return (tag("td", printed(shown.own), class_="shoplog-words", colspan="2"),)
    if shown.metric == shown.inch:
        return (tag("td", _stated(shown, shown.own), class_="shoplog-value", colspan="2"),)
    return tuple(tag("td", _stated(shown, text), class_="shoplog-value") for text in _both(shown))


def _both(shown: Shown) -> tuple[str, str]:
    return shown.metric, shown.inch


def _stated(shown: Shown, text: str) -> Html:
    """A size as a drawing states it over its least and greatest, in the system that it is in."""
    if shown.nominal and text == shown.own and "±" not in text:
        stated = tag("strong", printed(shown.nominal))
        return join([stated, tag("br"), tag("small", printed(text))])
    return tag("strong", printed(text)) if text == shown.own else join([printed(text)])


def inline(value: PageValue) -> tuple[str, str]:
    """A value as it stands in a sentence, and in both systems with its limits."""
    shown = show(value)
    return printed(shown.nominal or shown.own), one_line(value)


def one_line(value: PageValue) -> str:
    """A value in one line: as stated, its least and greatest, the other system in brackets."""
    shown = show(value)
    if shown.nominal and "±" not in shown.own:
        return printed(f"{shown.nominal}: {shown.both}")
    return printed(shown.both)


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
    if not parts:
        return None
    label = "Steps" if steps else "More"
    return tag(
        "details",
        tag("summary", label),
        tag("div", *parts, class_="shoplog-steps"),
        class_="shoplog-details",
        data_search_exclude=True,
    )


def _steps(steps: tuple[Step, ...]) -> Iterator[Html]:
    for step in steps:
        yield tag("p", step.label, class_="shoplog-step-label")
        if _length(step.tree) > MOST_STEP:
            yield tag("p", "too long to be shown")
            continue
        yield tag("div", math(step.tree), class_="shoplog-scroll shoplog-step")


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
        heads = (tag("th", head, scope="col") for head in ("Field", "Metric", "Inch"))
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
        kind = kinds[0] if kinds else None
        if isinstance(kind, In) and isinstance(found, int | float) and not isinstance(found, bool):
            found = Value(float(found), unit(kind.unit))
        yield name, found
