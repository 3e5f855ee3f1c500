"""A log worked out as a whole: its pages with their records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from shoplog.find.history import Days
from shoplog.find.pasts import Pasts, TooSoon, waiting_runs
from shoplog.find.record import Record
from shoplog.find.records import records_of
from shoplog.find.repeats import with_repeats
from shoplog.log import Log, read_log
from shoplog.log.folder import folder_texts, part_of

__all__ = ["WholeLog", "work_out_folder", "work_out_log"]


@dataclass(frozen=True, slots=True)
class WholeLog:
    """A log as it came out, and the records of its setups, private ones too."""

    log: Log
    records: tuple[Record, ...]


def work_out_log(
    texts: Mapping[str, str],
    *,
    shop_profile: str | None = None,
    shop_path: str = "shop.yml",
    root: str = "",
    days: Mapping[str, str] | None = None,
) -> WholeLog:
    """Read and work out a whole log with its records.

    Where a page asks `past(…)`, the log is worked out twice: the first time for the records, with
    what asks left waiting, and then with the answers. A record that itself hangs on an answer is
    none that can be asked, so nothing goes round in a circle. Setups that repeat one that went
    poorly are told so.

    Parameters
    ----------
    texts, shop_profile, shop_path, root [-]
        As `shoplog.log.read_log` takes them.
    days : mapping of str to str [-]
        For pages that give no date, the day that their history says, by their path in the log.

    Returns
    -------
    WholeLog [-]
        Never raises for what a page holds.
    """
    read = partial(read_log, texts, shop_profile=shop_profile, shop_path=shop_path, root=root)
    too_soon = TooSoon()
    log = read(pasts=too_soon)
    records = tuple(records_of(log, days))
    if too_soon.asked:
        log = read(pasts=Pasts(records, waiting_runs(log)))
        records = tuple(records_of(log, days))
    return WholeLog(with_repeats(log, records), records)


def work_out_folder(folder: Path) -> WholeLog:
    """Read and work out the log in a folder: one with mkdocs.yml, or one with pages.

    Of a folder among the pages of a log, only what was found there is given, and its records; it
    is worked out with all others of the log. A setup that says no day, on a page that says none,
    has that of the page's history.

    Raises
    ------
    NoLog
        There is nothing to read there.
    """
    found = folder_texts(folder)
    whole = work_out_log(
        found.texts,
        shop_profile=found.shop_profile,
        shop_path=found.shop_path,
        root=found.root,
        days=Days(found.docs, found.texts),
    )
    records = tuple(one for one in whole.records if one.page.startswith(found.within))
    return WholeLog(part_of(whole.log, found), records)
