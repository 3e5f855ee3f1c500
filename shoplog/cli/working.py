"""A log worked out for a command that is given its folder."""

from __future__ import annotations

from pathlib import Path

import click

from shoplog.find.whole import WholeLog, work_out_folder
from shoplog.log import NoLog

__all__ = ["worked_out"]


def worked_out(folder: Path) -> WholeLog:
    """The log of a folder.

    Raises
    ------
    click.UsageError
        There is no log to read there.
    """
    try:
        return work_out_folder(folder)
    except NoLog as error:
        raise click.UsageError(str(error)) from None
