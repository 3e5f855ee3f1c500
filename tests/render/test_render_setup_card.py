"""The setup card: what gives way first and every limit, in the system that the page is read in."""

from __future__ import annotations

import re
from collections.abc import Callable

from shoplog.log import PageReport
from shoplog.render.page import PageHtml

SETUP = """```setup
operation: turning
material: low-carbon steel
cutter: turning tool, HSS, nose radius 0.4 mm
diameter: 25 mm
planned:
  speed: 900 rpm
  feed: 0.4 mm/rev
  depth of cut: 0.5 mm
```
"""


def card(work_out: Callable[..., PageReport]) -> str:
    report = work_out(SETUP)
    return PageHtml(report).block_html(0)


def both(html: str) -> list[tuple[str, str]]:
    """What stands in mm, and what stands in its place in inches."""
    pair = (
        r'<span class="shoplog-mm">([^<]*)</span>'
        r'<span class="shoplog-instead shoplog-inch" data-search-exclude>([^<]*)</span>'
    )
    return [(metric, inch) for metric, inch in re.findall(pair, html)]


def test_what_gives_way_first_stands_in_both_systems(work_out: Callable[..., PageReport]) -> None:
    html = card(work_out)
    said = html[html.index("what gives way first, planned") : html.index("Every limit, planned")]
    assert both(said) == [
        (
            "Cutting speed goes past what is usual: 70.7 m/min, at most 45.7 m/min: 155 %; the"
            " nearest change that helps: 582 rpm at most.",
            "Cutting speed goes past what is usual: 232 ft/min, at most 150 ft/min: 155 %; the"
            " nearest change that helps: 582 rpm at most.",
        )
    ]


def test_every_limit_stands_in_both_systems(work_out: Callable[..., PageReport]) -> None:
    html = card(work_out)
    table = html[html.index("Every limit, planned") :]
    assert both(table)[:4] == [
        ("70.7 m/min", "232 ft/min"),
        ("at most 45.7 m/min", "at most 150 ft/min"),
        ("0.4 mm a turn", "0.0157 in/rev"),
        ("at most 0.5 mm a turn", "at most 0.0197 in/rev"),
    ]


def test_the_change_that_helps_is_told_in_inches_too(work_out: Callable[..., PageReport]) -> None:
    html = card(lambda text: work_out(text.replace("0.4 mm/rev", "1.2 mm/rev")))
    (said, *_) = both(html)
    assert said[0].endswith("the nearest change that helps: a feed of 0.5 mm a turn.")
    assert said[1].endswith("the nearest change that helps: a feed of 0.0197 in a turn.")
