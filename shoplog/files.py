"""Files on disk: the site that a folder is of, how a folder is named, a file written whole."""

from __future__ import annotations

import os
from errno import ENOTDIR
from pathlib import Path
from secrets import token_hex

__all__ = ["SITE", "shown_folder", "site_above", "write_whole"]

SITE = "mkdocs.yml"


def site_above(folder: Path) -> Path | None:
    """The folder of the site's settings that a folder is or is in; nothing where there is none."""
    asked = folder.resolve()
    return next((one for one in (asked, *asked.parents) if (one / SITE).is_file()), None)


def shown_folder(folder: Path) -> str:
    """A folder as places name it: from here, with its last `/`."""
    shown = Path(os.path.relpath(folder)).as_posix()
    return "" if shown == "." else f"{shown}/"


def write_whole(path: Path, content: str | bytes, *, over: bool = False) -> None:
    """Write a file, text as UTF-8: all of it or none, whatever happens on the way.

    Parameters
    ----------
    path : Path [-]
        The file; its folder is made where it is missing.
    content : str or bytes [-]
        What it is to hold; line ends are not changed.
    over : bool [-]
        Whether a file that is there is replaced.

    Raises
    ------
    FileExistsError
        The file is there, and is not to be replaced.
    OSError
        It cannot be written.
    """
    if path.exists() and not over:
        raise FileExistsError(f"{path} is there already")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise NotADirectoryError(ENOTDIR, "Not a directory", str(path.parent)) from None
    data = content if isinstance(content, bytes) else content.encode("utf-8", "replace")
    made = path.with_name(f".{path.name[:40]}.{token_hex(8)}")
    try:
        with made.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        _put(made, path, over=over)
    finally:
        made.unlink(missing_ok=True)


def _put(made: Path, path: Path, *, over: bool) -> None:
    """Give a written file its name; a link does so only where no file has it yet."""
    if over:
        made.replace(path)
        return
    try:
        os.link(made, path)
    except FileExistsError:
        raise FileExistsError(f"{path} is there already") from None
    except OSError:  # a disk without links, as a memory card's
        if path.exists():
            raise FileExistsError(f"{path} is there already") from None
        made.rename(path)
