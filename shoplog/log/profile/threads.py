"""The threads of a set of taps that is written as a range: `M3 to M12`, `0 BA to 10 BA`."""

from __future__ import annotations

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.screw_threads.thread_record import Thread

__all__ = ["threads_between"]


def threads_between(first: str, last: str) -> tuple[Thread, ...]:
    """Every thread of a series between two of it, both ends too.

    Of ISO metric threads those with a coarse pitch that are first choice in ISO 261.

    >>> [thread.designation for thread in threads_between("M3", "M6")]
    ['M3', 'M4', 'M5', 'M6']

    Raises
    ------
    TradeError
        An end is no thread that is known, the ends are of two series, or of one whose sizes are
        not listed here.
    """
    ends = Thread.from_text(first), Thread.from_text(last)
    series, other = (end.series for end in ends)
    if series != other:
        raise TradeError(
            f"a range of threads stays in one series, and this goes from {series} to {other}",
            hint="write the designations out, with commas between",
        )
    listed = _listed(series)
    if not listed:
        raise TradeError(
            f"the sizes of {series} are not listed for a range",
            hint="write the designations out, with commas between",
        )
    low, high = sorted(end.major for end in ends)
    within = [Thread.from_text(text) for text in listed]
    found = [thread for thread in within if low <= thread.major <= high]
    given = {thread.designation: thread for thread in (*ends, *found)}
    falls = series == "BA"  # a greater number is a smaller thread
    return tuple(sorted(given.values(), key=lambda one: -one.major if falls else one.major))


def _listed(series: str) -> list[str]:
    """Designations of a series; none for one that is not listed."""
    if series == "ISO metric coarse":
        rows = table("threads_metric").rows
        return [
            f"M{row['size_mm']}" for row in rows if row["coarse_mm"] and row["choice"] == "first"
        ]
    if series in ("UNC", "UNF", "UNEF"):
        rows, count = table("threads_unified").rows, f"{series}_tpi"
        return [f"{row['size']}-{row[count]} {series}" for row in rows if row[count]]
    if series in ("BSW", "BSF"):
        rows, count = table("threads_whitworth").rows, f"{series}_tpi"
        return [f"{row['size']} {series}" for row in rows if row[count]]
    if series == "BA":
        return [f"{row['number']} BA" for row in table("threads_ba").rows]
    return []
