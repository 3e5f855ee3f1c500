"""The records of a page of setups as columns, in a script: small, and nothing that can run.

A script and no request for data, as a browser lets a page from a disk ask for none; and no data
block in the page, for Material runs every script of a page that it swaps in, whatever its type.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from math import isfinite
from typing import Any

from shoplog.find.clean import clean
from shoplog.find.record import Record
from shoplog.find.records import material_names
from shoplog.render.made_pages.made_text import MadeLink
from shoplog.render.made_pages.setups_page_columns import FIGURES, TEXTS, declared
from shoplog.units import write_number

__all__ = ["setups_data", "setups_script"]

DIGITS = 7  # that a number is given with; one more than any that is shown


def setups_data(records: Sequence[Record], here: str, link: MadeLink) -> dict[str, Any]:
    """What the script of the page is given.

    Parameters
    ----------
    records : sequence of Record [-]
        In the order that the page shows them.
    here : str [-]
        The path of the page.
    link : MadeLink [-]
        Gives the address of a page as seen from another.

    Returns
    -------
    dict [-]
        `texts` by name, each as `words` and for every record the number of its word; `figures` by
        name in metric units, null where there is none; `addresses` of the words of `page`, and
        `names` that the words of `material` go by.
    """
    texts = {one.name: _column([clean(one.of(record)) for record in records]) for one in TEXTS}
    return {
        **declared(),
        "count": len(records),
        "texts": texts,
        "numbers": {
            one.name: [_number(one.of(record), one.units[0]) for record in records]
            for one in FIGURES
        },
        "addresses": [link(here, page, "") for page in _pages(records)],
        "names": [list(material_names(name)) for name in texts["material"]["words"]],
    }


def _column(values: Sequence[str]) -> dict[str, Any]:
    order = {word: number for number, word in enumerate(dict.fromkeys(values))}
    return {"words": list(order), "at": [order[value] for value in values]}


def _pages(records: Sequence[Record]) -> list[str]:
    """The path of each word of `page`, as it is and not as it is shown."""
    shown: dict[str, str] = {}
    for one in records:
        shown.setdefault(clean(one.page), one.page)
    return list(shown.values())


def _number(number: float | None, unit_name: str) -> float | int | None:
    """A number as short as it can be written, and still shown as on the page that it is from.

    3/16 in is 4.762499999999999 mm to a computer, shown as 4.762; 4.7625 would be 4.763.
    """
    if number is None or not isfinite(number):
        return None
    short = float(f"{number:.{DIGITS}g}")
    if write_number(short, unit_name) != write_number(number, unit_name):
        return number
    return int(short) if short.is_integer() else short


def setups_script(data: dict[str, Any]) -> str:
    """The data as a script that holds a text and reads it as JSON, which runs nothing.

    >>> setups_script({"words": ["</script>"]})
    'window.shoplogSetups = JSON.parse("{\\\\"words\\\\":[\\\\"\\\\\\\\u003c/script>\\\\"]}");\\n'
    """
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    quoted = json.dumps(text.replace("<", "\\u003c"), ensure_ascii=False)
    quoted = quoted.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f"window.shoplogSetups = JSON.parse({quoted});\n"
