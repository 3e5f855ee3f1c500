"""What something is, as a table of facts: each in both systems where it is a quantity."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shoplog.calc.results import PageValue
from shoplog.calc.show import Shown, show
from shoplog.find.clean import clean
from shoplog.render.html import Html, join, printed, scrolled, tag
from shoplog.render.systems import INCH, METRIC
from shoplog.render.values import column_heads
from shoplog.values import Value

__all__ = ["Told", "facts_table"]

Told = tuple[str, PageValue | Shown | tuple[str, ...] | tuple[Value, ...]]
"""A label, and a text, a quantity, several of one, or what is shown of one already."""
MOST_SHOWN = 60


def facts_table(facts: Iterable[Told]) -> Html:
    """The facts in their order; those that say nothing are left out."""
    rows = [
        tag("tr", tag("th", clean(label), scope="row"), *_cells(value))
        for label, value in facts
        if value not in (None, "", ())
    ]
    if not rows:
        return Html("")
    heads = column_heads("", "Metric", "Inch")
    table = tag(
        "table",
        tag("thead", tag("tr", *heads)),
        tag("tbody", *rows),
        class_="shoplog-table shoplog-facts-table",
    )
    return scrolled(table, "What it is")


def _cells(value: object) -> Iterator[Html]:
    if isinstance(value, Shown):
        yield from _both(value)
    elif isinstance(value, tuple):
        yield from _several(value)
    elif isinstance(value, Value):
        yield from _both(show(value))
    else:
        yield _across(printed(clean(str(value))))


def _both(shown: Shown) -> Iterator[Html]:
    if shown.metric == shown.inch:
        yield _across(printed(shown.own))
        return
    for text, system in ((shown.metric, METRIC), (shown.inch, INCH)):
        yield tag("td", printed(text), class_=f"shoplog-value {system}")


def _several(values: tuple[object, ...]) -> Iterator[Html]:
    """Several of one kind with commas between, in both systems where they have them."""
    more = f", and {len(values) - MOST_SHOWN} more" if len(values) > MOST_SHOWN else ""
    shown = [show(one) if isinstance(one, Value) else None for one in values[:MOST_SHOWN]]
    metric = [
        one.metric if one else clean(str(text)) for one, text in zip(shown, values, strict=False)
    ]
    inch = [one.inch if one else text for one, text in zip(shown, metric, strict=True)]
    texts = [", ".join(part) + more for part in (metric, inch)]
    yield from _both(Shown(texts[0], texts[1], texts[0]))


def _across(text: str) -> Html:
    return tag("td", join([text]), class_="shoplog-words", colspan="2")
