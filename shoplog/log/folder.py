"""A log on disk: which files are its pages, and where its shop profile is."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from shoplog.files import SITE, shown_folder, site_above
from shoplog.log.pages import Log, read_log
from shoplog.log.profile.shop import ShopProfile, read_shop
from shoplog.problems import Mistake, Place, Problem, message

__all__ = ["FolderTexts", "NoLog", "folder_texts", "part_of", "read_folder", "read_shop_file"]

NOT_UTF8 = message(
    "page-not-utf8",
    "this file is not UTF-8 text: byte {byte} cannot be read",
    hint="save it as UTF-8",
    example="",
)
TOO_LARGE = message(
    "page-too-large",
    "this file is {size} bytes, {most} at most; it was not read",
    example="",
)
LEADS_OUT = message(
    "page-leads-out",
    "this page is a link to a file outside the log; it was not read",
    hint="copy the file into the log",
    example="",
)
MOST_BYTES = 16 * 1024 * 1024


class NoLog(ValueError):
    """A folder that holds no log: why not."""


class _SiteLoader(yaml.SafeLoader):
    """Reads mkdocs.yml for its plain values; tags that name Python objects are passed over."""


_SiteLoader.add_multi_constructor("", lambda _loader, _suffix, _node: None)


@dataclass(frozen=True, slots=True)
class FolderTexts:
    """The texts of the log in a folder, before anything is worked out."""

    texts: dict[str, str]
    """Each page's text by its path within the log."""
    shop_profile: str | None
    shop_path: str
    root: str
    """How problems name the folder of the pages."""
    within: str
    """What the keys of the pages that were asked about begin with; nothing for all of them."""
    problems: tuple[Problem, ...]
    """Why a file could not be read."""
    docs: Path
    """The folder of the pages."""


def folder_texts(folder: Path) -> FolderTexts:
    """Read the files of the log in a folder: one with mkdocs.yml, or one with pages.

    A folder among the pages of a log is read with its whole log.

    Raises
    ------
    NoLog
        There is nothing to read there.
    """
    home = _home_of(folder)
    docs, shop = _docs_of(home), home / "shop.yml"
    within = "" if home is folder else _within(folder, docs)
    problems: list[Problem] = []
    root, shop_path = shown_folder(docs), shown_folder(home) + "shop.yml"
    texts = _texts(docs, root, problems)
    if not problems and not any(key.startswith(within) for key in texts):
        raise NoLog(f"{shown_folder(folder) or '.'} holds no Markdown page")
    profile = _text(shop, shop_path, problems) if shop.is_file() else None
    return FolderTexts(texts, profile, shop_path, root, within, tuple(problems), docs)


def read_folder(folder: Path) -> Log:
    """Read and work out the log in a folder: one with mkdocs.yml, or one with pages.

    Of a folder among the pages of a log, only what was found there is given.

    Raises
    ------
    NoLog
        There is nothing to read there.
    """
    found = folder_texts(folder)
    log = read_log(
        found.texts,
        shop_profile=found.shop_profile,
        shop_path=found.shop_path,
        root=found.root,
    )
    return part_of(log, found)


def read_shop_file(path: Path) -> tuple[ShopProfile, tuple[Problem, ...]]:
    """Read a shop profile from its file; one that is no text is empty, and a problem."""
    problems: list[Problem] = []
    text = _text(path, path.as_posix(), problems)
    if text is None:
        return ShopProfile(), tuple(problems)
    return read_shop(text, path.as_posix())


def _within(folder: Path, docs: Path) -> str:
    """What the keys of a folder's pages begin with; nothing for all of them."""
    inside = folder.resolve().relative_to(docs.resolve()).as_posix()
    return "" if inside == "." else f"{inside}/"


def _texts(docs: Path, root: str, problems: list[Problem]) -> dict[str, str]:
    """The text of every page that can be read; why the others cannot is added to the problems."""
    texts: dict[str, str] = {}
    inside = docs.resolve()
    for path in _page_files(docs):
        key = path.relative_to(docs).as_posix()
        if not path.resolve().is_relative_to(inside):
            problems.append(Mistake(LEADS_OUT).at(Place(root + key, 1, 1)))
            continue
        text = _text(path, root + key, problems)
        if text is not None:
            texts[key] = text
    return texts


def part_of(log: Log, folder: FolderTexts) -> Log:
    """Of a whole log, the pages that were asked about and what was found on them.

    What kept a file from being read is added; what is wrong in the shop profile, that they stand
    on, is told with them.
    """
    problems = (*folder.problems, *log.problems)
    if not folder.within:
        return Log(log.pages, log.shop, problems)
    pages = {key: report for key, report in log.pages.items() if key.startswith(folder.within)}
    asked = folder.root + folder.within
    found = tuple(
        one
        for one in problems
        if one.place.path.startswith(asked) or one.place.path == folder.shop_path
    )
    return Log(pages, log.shop, found)


def _home_of(folder: Path) -> Path:
    """The folder of the mkdocs.yml whose pages a folder is among, or the folder itself.

    A page is worked out with all others of its log and with the shop profile, whichever folder is
    asked about.
    """
    asked = folder.resolve()
    above = site_above(asked)
    if above is None or above == asked:
        return folder
    home = Path(os.path.relpath(above))
    try:
        docs = _docs_of(home).resolve()
    except NoLog:
        return folder
    return home if asked.is_relative_to(docs) else folder


def _docs_of(folder: Path) -> Path:
    site = folder / SITE
    if not site.is_file():
        return folder
    try:
        config: Any = yaml.load(site.read_text("utf-8"), Loader=_SiteLoader)
    except (yaml.YAMLError, UnicodeDecodeError) as error:
        raise NoLog(f"{site} cannot be read: {error}") from None
    named = config.get("docs_dir", "docs") if isinstance(config, dict) else "docs"
    docs = folder / str(named)
    if not docs.is_dir():
        raise NoLog(f"{site} names the folder {named}, which is not there")
    return docs


def _page_files(docs: Path) -> Iterator[Path]:
    """The Markdown files that MkDocs would publish: none below a folder that begins with a dot."""
    for path in sorted(docs.rglob("*.md")):
        inside = path.relative_to(docs).parts
        hidden = any(part.startswith(".") for part in inside) or inside[0] == "templates"
        if not hidden and path.is_file():
            yield path


def _text(path: Path, shown: str, problems: list[Problem]) -> str | None:
    place = Place(shown, 1, 1)
    size = path.stat().st_size
    if size > MOST_BYTES:
        problems.append(Mistake(TOO_LARGE, size=size, most=MOST_BYTES).at(place))
        return None
    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        problems.append(Mistake(NOT_UTF8, byte=error.start + 1).at(place))
        return None
