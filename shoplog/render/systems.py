"""A value in the metric and in the inch system, so marked that a switch on the page can show one.

Without the switch both stand there. What has one system only carries no mark, and always shows.
"""

from __future__ import annotations

from shoplog.calc.show import Shown
from shoplog.render.html import Html, join, printed, tag

__all__ = ["BRACKET", "INCH", "METRIC", "in_line", "instead", "systems"]

METRIC, INCH = "shoplog-mm", "shoplog-inch"
BRACKET = "shoplog-bracket"
"""What stands only between the two of them, where both are shown."""


def systems(shown: Shown) -> tuple[str, str]:
    """The marks of a value's own system and of the other; nothing where there is one only."""
    if shown.metric == shown.inch:
        return "", ""
    return (METRIC, INCH) if shown.own == shown.metric else (INCH, METRIC)


def instead(metric: str, inch: str) -> Html:
    """Words in the metric system, in whose place a page's switch can show those in inches."""
    if metric == inch:
        return join([metric])
    other = tag("span", inch, class_=f"shoplog-instead {INCH}", data_search_exclude=True)
    return join([tag("span", metric, class_=METRIC), other])


def in_line(own: str, shown: Shown) -> Html:
    """A value's own text, and behind it the other system in brackets."""
    mine, other = systems(shown)
    if not other:
        return join([own])
    inside = [
        tag("span", "(", class_=BRACKET),
        printed(shown.other),
        tag("span", ")", class_=BRACKET),
    ]
    return join(
        [
            tag("span", own, class_=mine),
            " ",
            tag("span", *inside, class_=f"shoplog-other {other}"),
        ]
    )
