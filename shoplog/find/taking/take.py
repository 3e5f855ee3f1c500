"""A spreadsheet of past setups taken into a log, as pages: nothing there is written over."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from shoplog.files import site_above, write_whole
from shoplog.find.taking.mapping import Mapping, read_mapping
from shoplog.find.taking.pages import NewPage, pages_of, parts_in
from shoplog.find.taking.plan import Plan, mapping_text, plan
from shoplog.find.taking.rows import RowReader, Taken
from shoplog.find.taking.sheet import Sheet, read_sheet
from shoplog.find.taking.text import NotTaken
from shoplog.log.folder import NoLog, folder_texts
from shoplog.log.profile.shop import ShopProfile, read_shop
from shoplog.problems import Mistake, Place, Problem, message

__all__ = ["NotTaken", "Taking", "mapping_path", "take"]

MOST_MAPPING = 1024 * 1024

THERE = message(
    "take-page-there",
    "{path} is there already; {rows} not taken",
    hint="take them into another folder, or move the page away",
    example="",
)
NOT_WRITTEN = message(
    "take-page-unwritten",
    "{path} could not be written: {why}; {rows} not taken",
    example="",
)
LEADS_OUT = message(
    "take-leads-out",
    "{path} leads out of the folder by a link; {rows} not taken",
    example="",
)


@dataclass(slots=True)
class Taking:
    """What came of taking a file."""

    sheet: Sheet
    plan: Plan
    mapping: Path
    """The mapping file, whether or not it is there."""
    mapped: bool = False
    """Whether a mapping file was read."""
    mapping_written: bool = False
    problems: list[Problem] = field(default_factory=list)
    """What is wrong in the mapping file, or with rows and pages that were not taken."""
    pages: dict[Path, NewPage] = field(default_factory=dict)
    """The pages that were written, or would be."""

    @property
    def asks(self) -> bool:
        """Whether the mapping file must be filled in before anything is taken."""
        return bool(self.plan.questions) or not self.plan.used

    @property
    def rows(self) -> int:
        """How many rows the sheet has."""
        return len(self.sheet)

    @property
    def taken(self) -> int:
        """How many rows became setups of pages."""
        return sum(len(page.setups) for page in self.pages.values())


def mapping_path(file: Path) -> Path:
    """Where the mapping file of a spreadsheet stands: `old.csv` has `old.mapping.yml`."""
    return file.with_suffix(".mapping.yml")


def take(
    file: Path, *, into: Path | None = None, mapping: Path | None = None, dry_run: bool = False
) -> Taking:
    """Take the setups of a CSV file into a log.

    Parameters
    ----------
    file : Path [-]
        CSV with a row of headings; see the guide for what it may look like.
    into : Path [-]
        A log, or a folder of pages; made where it is missing. Where the current folder is a log,
        its pages by themselves.
    mapping : Path [-]
        The mapping file; the one beside the CSV file where it is there and none is named.
    dry_run : bool [-]
        Whether nothing is to be written.

    Returns
    -------
    Taking [-]
        See `Taking.asks` for whether anything was taken at all.

    Raises
    ------
    NotTaken
        The file or the mapping file cannot be read.
    """
    sheet = read_sheet(file)
    path = mapping or mapping_path(file)
    said, problems = _mapping(path, sheet, wanted=mapping is not None)
    made = Taking(sheet, Plan() if problems else plan(sheet, said), path, said is not None)
    made.problems += problems
    if problems:
        return made
    if made.asks:
        if not path.exists() and not dry_run:
            _write_mapping(made)
        return made
    folder = _Folder.of(into or Path())
    reader = RowReader(sheet, made.plan, folder.shop)
    setups: list[Taken] = []
    for row in sheet.body():
        found, wrong = reader.read(row)
        made.problems += wrong
        setups += [found] if found else []
    for page in pages_of(setups, file.stem, folder.parts, paths=sheet.own):
        _put(made, folder.pages / page.path, page, folder, dry_run=dry_run)
    return made


def _mapping(
    path: Path, sheet: Sheet, *, wanted: bool
) -> tuple[Mapping | None, tuple[Problem, ...]]:
    if not path.exists() and not wanted:
        return None, ()
    try:
        with path.open("rb") as file:
            text = file.read(MOST_MAPPING).decode("utf-8-sig")
    except OSError as error:
        raise NotTaken(f"{path} cannot be read: {error.strerror}") from None
    except UnicodeDecodeError as error:
        raise NotTaken(f"{path} is not UTF-8 text: byte {error.start + 1}") from None
    return read_mapping(path, text, sheet.headings)


def _write_mapping(made: Taking) -> None:
    try:
        write_whole(made.mapping, mapping_text(made.plan, made.sheet.path.name))
    except OSError as error:
        why = error.strerror or str(error)
        raise NotTaken(f"{made.mapping} could not be written: {why}") from None
    made.mapping_written = True


@dataclass(frozen=True, slots=True)
class _Folder:
    """Where the pages go, with the log that it is of."""

    pages: Path
    shop: ShopProfile | None
    parts: Callable[[str], set[str]]

    @classmethod
    def of(cls, into: Path) -> _Folder:
        """The pages of the log that a folder is or is in; the folder itself without one."""
        asked = into.resolve()
        home = site_above(into)
        try:
            found = folder_texts(Path(os.path.relpath(home)) if home else into)
        except (NoLog, OSError):
            return cls(into, None, lambda _: set())
        pages = into / os.path.relpath(found.docs.resolve(), asked) if home == asked else into
        profile = found.shop_profile
        shop = read_shop(profile, found.shop_path)[0] if profile is not None else None
        inside = pages.resolve()
        docs = found.docs.resolve()
        ahead = inside.relative_to(docs).as_posix() if inside.is_relative_to(docs) else None

        @cache
        def parts(folder: str) -> set[str]:
            within = folder if ahead in (".", None) else f"{ahead}/{folder}"
            pairs = found.texts.items()
            return parts_in((key, text) for key, text in pairs if key.rpartition("/")[0] == within)

        return cls(pages, shop, parts)


def _put(made: Taking, path: Path, page: NewPage, folder: _Folder, *, dry_run: bool) -> None:
    """Write a page, or keep why it was not written."""
    count = len(page.setups)
    data = {"path": path.as_posix(), "rows": _told(count)}
    mistake = None
    if not path.parent.resolve().is_relative_to(folder.pages.resolve()):
        mistake = Mistake(LEADS_OUT, None, hint=None, **data)
    elif path.exists():
        mistake = Mistake(THERE, None, hint=None, **data)
    elif not dry_run:
        try:
            write_whole(path, page.text(made.sheet.path.name))
        except OSError as error:
            why = error.strerror or str(error)
            mistake = Mistake(NOT_WRITTEN, None, hint=None, why=why, **data)
    if mistake:
        made.problems.append(mistake.at(Place(str(made.sheet.path), page.setups[0].line, 1)))
    else:
        made.pages[path] = page


def _told(count: int) -> str:
    return "1 row of this file was" if count == 1 else f"{count} rows of this file were"
