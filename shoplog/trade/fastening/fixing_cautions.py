"""The cautions of keyways, circlips, pins, flats and drilled holes, from their table."""

from __future__ import annotations

from shoplog.tables import table

__all__ = ["fixing_cautions"]


def fixing_cautions(*when: str) -> tuple[str, ...]:
    """The cautions that belong to a kind of work, in the table's order.

    >>> len(fixing_cautions("keyway", "circlip"))
    3
    """
    return tuple(row["caution"] for row in table("fixings_cautions").rows if row["when"] in when)
