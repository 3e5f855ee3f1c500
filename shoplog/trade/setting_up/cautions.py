"""What dividing and cutting stock can do to the person at the machine."""

from __future__ import annotations

from shoplog.tables import table

__all__ = ["setting_up_cautions"]


def setting_up_cautions(*when: str) -> tuple[str, ...]:
    """The cautions that belong to a kind of work."""
    rows = table("setting_up_cautions").rows
    return tuple(row["caution"] for row in rows if row["when"] in when)
