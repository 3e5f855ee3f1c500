"""A compiler for workshop logs: Markdown pages calculate, prove their mates and become a site.

What stands here is the public way in; everything else may move between versions.
"""

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
