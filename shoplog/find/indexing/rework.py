"""Pages worked out again for the index: all of them, or those that a change can reach.

A page reads sizes of pages of its own project, and of those that a `use` names; one that asks
`past(…)` reads the records of all. So a change reaches the projects that hang together with that of
the changed page, and no further; where a page asks the past, or a `use` may mean another page than
before, everything is worked out.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from shoplog.find.history import Days
from shoplog.find.indexing.rows import page_rows
from shoplog.find.indexing.stamps import digest_of
from shoplog.find.indexing.stored import PageRow, PageRows
from shoplog.find.record import Record
from shoplog.find.sizes import sizes_of
from shoplog.find.whole import work_out_log
from shoplog.log.folder import folder_texts
from shoplog.log.pages import pages_meant

__all__ = ["Worked", "reached", "rework"]

_PAST = re.compile(r"\bpast\s*\(")
_USE = re.compile(r'\buse\s*"([^"\n]*)"')


@dataclass(frozen=True, slots=True)
class Worked:
    """A page as it came out for the index."""

    digest: str
    uses: tuple[str, ...]
    alone: bool
    by_history: bool
    rows: PageRows


def rework(home: Path, known: Mapping[str, PageRow], *, whole: bool) -> dict[str, Worked]:
    """Work out the pages of the log in a folder that a change can reach.

    Parameters
    ----------
    home : Path [-]
        The folder of the log.
    known : mapping of str to PageRow [-]
        What the index knows of its pages.
    whole : bool [-]
        Whether everything is to be worked out in any case.

    Returns
    -------
    dict of str to Worked [-]
        The pages that were worked out. A page of the index that is not on disk is not among them.

    Raises
    ------
    NoLog
        There is nothing to read there.
    """
    found = folder_texts(home)
    texts = found.texts
    if not whole and (keys := reached(texts, known)) is not None:
        texts = {key: text for key, text in texts.items() if key in keys}
    days = Days(found.docs, texts)
    worked = work_out_log(
        texts,
        shop_profile=found.shop_profile,
        shop_path=found.shop_path,
        root=found.root,
        days=days,
    )
    records: dict[str, list[Record]] = {key: [] for key in texts}
    for record in worked.records:
        records[record.page].append(record)
    return {
        key: Worked(
            digest_of(text.encode()),
            tuple(_USE.findall(text)),
            not _PAST.search(text),
            key in days.asked,
            page_rows(records[key], sizes_of(worked.log.pages[key])),
        )
        for key, text in texts.items()
    }


def reached(texts: Mapping[str, str], known: Mapping[str, PageRow]) -> set[str] | None:
    """The pages of the projects that a change can reach; nothing where it can reach all.

    Parameters
    ----------
    texts : mapping of str to str [-]
        Every page as it is now.
    known : mapping of str to PageRow [-]
        Every page as it was when it was last worked out.
    """
    uses = {key: page.uses for key, page in known.items() if key in texts}
    alone = all(page.alone for page in known.values())
    changed = known.keys() - texts.keys()
    for key, text in texts.items():
        was = known.get(key)
        if was is None or was.digest != digest_of(text.encode()):
            changed.add(key)
            uses[key] = tuple(_USE.findall(text))
            alone = alone and not _PAST.search(text)
    moved = texts.keys() ^ known.keys()
    if not alone or (moved and any(uses.values())):
        return None
    projects = _joined({posixpath.dirname(key) for key in changed}, uses)
    return {key for key in texts if posixpath.dirname(key) in projects}


def _joined(projects: set[str], uses: Mapping[str, Iterable[str]]) -> set[str]:
    """Projects, and all that hang together with them by what their pages use."""
    links: dict[str, set[str]] = {}
    for key, paths in uses.items():
        own = posixpath.dirname(key)
        for path in paths:
            for other in pages_meant(path, uses):
                links.setdefault(own, set()).add(posixpath.dirname(other))
                links.setdefault(posixpath.dirname(other), set()).add(own)
    found: set[str] = set()
    waiting = list(projects)
    while waiting:
        project = waiting.pop()
        if project not in found:
            found.add(project)
            waiting += links.get(project, ())
    return found
