"""What something is, as a table of facts: each in both systems where it is a quantity."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shoplog.calc.results import PageValue
from shoplog.calc.show import Shown, show
from shoplog.find.clean import clean
from shoplog.render.html import Html, printed, scrolled, tag
from shoplog.render.systems import INCH, METRIC
from shoplog.render.values import column_heads
from shoplog.values import Value

__all__ = ["Told", "facts_table"]

Told = tuple[str, PageValue | Shown | tuple[str, ...] | tuple[Value, ...]]
"""A label, and a text, a quantity, several of one, or what is shown of one already."""
MOST_SHOWN = 60
MOST_WHOLE = 14


def facts_table(facts: Iterable[Told]) -> Html:
    """The facts in their order; those that say nothing are left out."""
    told = [(clean(label), _shown(value)) for label, value in facts if value not in (None, "", ())]
    if not told:
        return Html("")
    both = any(shown.metric != shown.inch for _, shown in told)
    rows = [tag("tr", tag("th", label, scope="row"), *_cells(shown, both)) for label, shown in told]
    heads = [tag("thead", tag("tr", *column_heads("", "Metric", "Inch")))] if both else []
    names = "shoplog-table shoplog-facts-table"
    return scrolled(tag("table", *heads, tag("tbody", *rows), class_=names), "What it is")


def _shown(value: object) -> Shown:
    """A fact in both systems; the same text in both where it has one only."""
    if isinstance(value, Shown):
        return value
    if isinstance(value, Value):
        return show(value)
    if isinstance(value, tuple):
        return _several(value)
    text = clean(str(value))
    return Shown(text, text, text)


def _several(values: tuple[object, ...]) -> Shown:
    """Several of one kind with commas between."""
    more = f", and {len(values) - MOST_SHOWN} more" if len(values) > MOST_SHOWN else ""
    shown = [_shown(one) for one in values[:MOST_SHOWN]]
    metric = ", ".join(_whole(one.metric) for one in shown) + more
    return Shown(metric, ", ".join(_whole(one.inch) for one in shown) + more, metric)


def _whole(text: str) -> str:
    """A short text that no line breaks."""
    return text.replace(" ", "\u00a0") if len(text) < MOST_WHOLE else text


def _cells(shown: Shown, both: bool) -> Iterator[Html]:
    if shown.metric == shown.inch:
        across = {"colspan": "2"} if both else {}
        yield tag("td", printed(shown.own), class_="shoplog-words", **across)
        return
    for text, system in ((shown.metric, METRIC), (shown.inch, INCH)):
        yield tag("td", printed(text), class_=f"shoplog-value {system}")
