"""The day that a page's history gives, where neither its setup nor its front matter says one.

Git is asked once for all pages, when the first day is wanted. A log may be a stranger's repository,
whose own settings can name programs: those that `git log` would run are switched off, and it may
reach no other repository.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from shutil import which

__all__ = ["Days", "days_of"]

MOST_SECONDS = 20
_OURS = "@"  # begins the line of a commit's day; a path stands behind the letter of its change

# What a repository's settings could make `git log` run.
_QUIET = (
    *("-c", "log.showSignature=false"),
    *("-c", "core.fsmonitor=false"),
    *("-c", "core.pager=cat"),
    *("-c", "core.quotePath=false"),
)
_NOWHERE = {
    "GIT_ALLOW_PROTOCOL": "none",
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_TERMINAL_PROMPT": "0",
    "LC_ALL": "C",
}


def days_of(docs: Path, keys: Collection[str]) -> dict[str, str]:
    """The day that each page came into the history, as `2026-03-14`; a renamed file keeps its day.

    Parameters
    ----------
    docs : Path [-]
        The folder of the pages.
    keys : collection of str [-]
        Paths of pages within it.

    Returns
    -------
    dict of str to str [-]
        Only pages that the history knows; none where there is no git or no repository.
    """
    lines = _history(docs) if keys else []
    now = {key: key for key in keys}
    found: dict[str, str] = {}
    day = ""
    for line in lines:
        if line.startswith(_OURS):
            day = line[1:]
            continue
        kind, *paths = line.split("\t")
        key = now.get(paths[-1]) if paths else None
        if key is None:
            continue
        found[key] = day
        if kind.startswith("R"):  # older than this it had another name
            del now[paths[-1]]
            now.setdefault(paths[0], key)
        elif kind == "A":
            del now[paths[-1]]
    return found


def _history(docs: Path) -> list[str]:
    """The commits from the newest on: the day of each, then the pages that it changed."""
    git = which("git")
    if git is None:
        return []
    command = [
        *(git, *_QUIET, "log", "--format=@%as", "--name-status", "--find-renames=100%"),
        *("--relative", "--no-ext-diff", "--no-textconv", "--no-show-signature", "--", "*.md"),
    ]
    try:
        ran = subprocess.run(
            command,
            cwd=docs,
            env=os.environ | _NOWHERE,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=MOST_SECONDS,
            check=True,
        )
    except (OSError, subprocess.SubprocessError):
        return []
    return os.fsdecode(ran.stdout).split("\n")


class Days(Mapping[str, str]):
    """The days of pages by their history, asked for when the first is wanted."""

    def __init__(self, docs: Path, keys: Collection[str]) -> None:
        self._docs = docs
        self._keys = frozenset(keys)
        self._found: dict[str, str] | None = None
        self.asked: set[str] = set()
        """The pages whose day was wanted: theirs hangs on the history."""

    def __getitem__(self, key: str) -> str:
        self.asked.add(key)
        return self._days()[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._days())

    def __len__(self) -> int:
        return len(self._days())

    def __bool__(self) -> bool:
        """Whether there may be any; this asks nothing yet."""
        return bool(self._keys)

    def _days(self) -> dict[str, str]:
        if self._found is None:
            self._found = days_of(self._docs, self._keys)
        return self._found
