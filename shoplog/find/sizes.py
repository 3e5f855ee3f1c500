"""The named sizes of a page, for the index: threads, lengths with limits, and tapers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from shoplog.calc.results import PageValue
from shoplog.calc.show import from_size, nominal_text, show
from shoplog.find.clean import clean
from shoplog.find.indexing.stored import SizeRow
from shoplog.find.sizes_asked import thread_key, thread_more
from shoplog.log.report import PageReport
from shoplog.trade.declare import Size
from shoplog.trade.screw_threads.thread_record import Thread
from shoplog.trade.taper_work.tapers import Taper
from shoplog.units import UnitMismatch, unit
from shoplog.values import Value

__all__ = ["sizes_of"]


def sizes_of(report: PageReport) -> Iterator[SizeRow]:
    """The named sizes of a page; those in a record too, as `hole.thread`."""
    for result in report.results:
        line = result.statement.line
        made = _row(line, result.name, result.value)
        if made is not None:
            yield made
        else:
            yield from _in_record(line, result.name, result.value)


def _in_record(line: int, name: str, value: PageValue) -> Iterator[SizeRow]:
    if not is_dataclass(value) or isinstance(value, Value | type):
        return
    for one in fields(value):
        made = _row(line, f"{name}.{one.name}", getattr(value, one.name))
        if made is not None:
            yield made


def _row(line: int, name: str, value: PageValue) -> SizeRow | None:
    match value:
        case Thread():
            more = thread_more(value)
            shown = value.designation
            return SizeRow(line, name, "thread", clean(shown), thread_key(value), more, 0.0)
        case Taper():
            shown = value.designation
            return SizeRow(line, name, "taper", clean(shown), shown.casefold(), "", value.ratio)
        case Size():
            return _length_row(line, name, from_size(value, ""))
        case Value() if value.has_limits and not value.uncertain:
            return _length_row(line, name, value)
    return None


def _length_row(line: int, name: str, value: Value) -> SizeRow | None:
    try:
        mm = value.to(unit("mm"))
    except UnitMismatch:
        return None
    stated = nominal_text(value)
    shown = f"{stated} ({show(value).own})" if stated else show(value).own
    limits = (mm.nominal, mm.lower, mm.upper)
    return SizeRow(line, name, "size", clean(shown), value.tolerance_class, "", *limits)
