"""The log: a folder of pages read, worked out together, and reported page by page."""

from shoplog.log.blocks import PageSource, read_page
from shoplog.log.folder import NoLog, read_folder
from shoplog.log.pages import Counts, Log, read_log, report_of_text
from shoplog.log.report import PageReport

__all__ = [
    "Counts",
    "Log",
    "NoLog",
    "PageReport",
    "PageSource",
    "read_folder",
    "read_log",
    "read_page",
    "report_of_text",
]
