"""A compiler for workshop logs: Markdown pages calculate, prove their mates and become a site.

What stands here is the public way in; everything else may move between versions. A name is imported
when it is first asked for, so that a command which needs no formula loads none.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from shoplog.log import (
        Log,
        NoLog,
        PageReport,
        read_folder,
        read_log,
        report_of_text,
    )
    from shoplog.problems import Grade, Place, Problem

__all__ = [
    "Grade",
    "Log",
    "NoLog",
    "PageReport",
    "Place",
    "Problem",
    "read_folder",
    "read_log",
    "report_of_text",
]

_IN_PROBLEMS = ("Grade", "Place", "Problem")


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    room = "shoplog.problems" if name in _IN_PROBLEMS else "shoplog.log"
    return getattr(import_module(room), name)


def __dir__() -> list[str]:
    return sorted(__all__)
