"""The nearest change that brings a cut within a limit, in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import floor, log10

from shoplog.trade.judging.in_both import InBoth, in_both
from shoplog.trade.judging.judging_setup import Setup

__all__ = ["feed_change", "floor_two", "held", "slower"]

TRIES = 12
LEAST_PART = 0.05
"""A change to less than a twentieth is no change of this cut: it is another cut."""
MARGIN = 0.999
"""A change aims a thousandth inside the bound, so that its own rounding does not pass it."""


def floor_two(number: float) -> float:
    """A number cut down to two digits, so that the change never asks for more than helps.

    >>> floor_two(0.2679), floor_two(1180), floor_two(3.97)
    (0.26, 1100.0, 3.9)
    """
    place = 10.0 ** (floor(log10(number)) - 1)
    return float(f"{floor(number / place * (1 + 1e-12)) * place:.12g}")


def slower(setup: Setup, most: float) -> InBoth:
    """The spindle speed to go to, at most a speed in rpm; nothing where the machine has none."""
    with_feed = ", and the feed a minute down with it" if setup.feed_rate is not None else ""
    if setup.spindle_steps:
        steps = [step for step in setup.spindle_steps if step <= most * (1 + 1e-9)]
        words = f"{max(steps):g} rpm, the fastest step at or below {most:.0f} rpm" if steps else ""
    else:
        least = setup.least_speed
        too_slow = most < 1 or (least is not None and least > most)
        words = "" if too_slow else f"{floor(most)} rpm at most"
    return in_both(words and f"{words}{with_feed}")


def feed_change(setup: Setup, feed: float, per_tooth: bool) -> InBoth:
    """A feed a tooth or a turn, and what it makes in a minute."""
    by = "a tooth" if per_tooth else "a turn"
    words = in_both(f"a feed of {{}} {by}", feed, digits=3)
    teeth = setup.teeth if per_tooth else 1
    if setup.spindle_speed is None or teeth is None or setup.feed_rate is None:
        return words
    return words + in_both(", {}/min", feed * teeth * setup.spindle_speed, digits=3)


def held(
    setup: Setup, name: str, share_most: Callable[[Setup], float | None], power: float = 1.0
) -> float | None:
    """The greatest value of a figure, cut down to two digits, at which a share keeps its bound.

    The share is taken to grow as the figure to a power, and worked out anew until it holds.
    """
    given: float = getattr(setup, name)
    value = given
    for _ in range(TRIES):
        share = share_most(_with(setup, name, value))
        if share is None or value < LEAST_PART * given:
            return None
        if share <= 100:
            return value
        value = floor_two(value * min(MARGIN, (100 * MARGIN / share) ** (1 / power)))
    return None


def _with(setup: Setup, name: str, value: float) -> Setup:
    if name == "depth_of_cut":
        return replace(setup, depth_of_cut=value)
    return replace(setup, feed_per_rev=value, feed_per_tooth=None, feed_rate=None)
