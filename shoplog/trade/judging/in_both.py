"""Words with lengths in them, in the metric and in the inch system."""

from __future__ import annotations

from dataclasses import dataclass

from shoplog.units import convert, unit

__all__ = ["NOTHING", "InBoth", "in_both"]


@dataclass(frozen=True, slots=True)
class InBoth:
    """A text in both systems; it holds where it says anything."""

    metric: str
    inch: str

    def __bool__(self) -> bool:
        return bool(self.metric)

    def __add__(self, other: InBoth) -> InBoth:
        """One behind the other."""
        return InBoth(self.metric + other.metric, self.inch + other.inch)


NOTHING = InBoth("", "")


def in_both(text: str, *lengths: float, digits: int = 6) -> InBoth:
    """A text with lengths in mm at its braces; `digits` are those of a metric one.

    An inch has three: what is proposed is set on a dial.

    >>> in_both("a feed of {} a turn", 0.065)
    InBoth(metric='a feed of 0.065 mm a turn', inch='a feed of 0.00256 in a turn')
    """
    if not lengths:
        return InBoth(text, text)
    metric = (f"{length:.{digits}g} mm" for length in lengths)
    inches = (convert(length, unit("mm"), unit("in")) for length in lengths)
    inch = (f"{length:.3g} in" for length in inches)
    return InBoth(text.format(*metric), text.format(*inch))
