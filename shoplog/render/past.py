"""What one's own records say, as a page shows it: the figures, and links to what is behind them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from shoplog.calc.past_record import NO_FIGURES, Past, PastSetup, Spread
from shoplog.calc.show import Shown, other_system
from shoplog.log.report import Repeats
from shoplog.render.findings import caution
from shoplog.render.html import Html, join, paragraph, printed, tag
from shoplog.render.systems import in_line

__all__ = ["MOST_LINKS", "Link", "past_links", "past_words", "repeats_caution"]

Link = Callable[[str, str], str]
"""From a page's path within the log and an anchor on it to an address, as seen from one page; no
address where there is none."""

MOST_LINKS = 8
"""Setups that a row leads to; the newest come first."""


def past_words(past: Past) -> Html:
    """The figures with their spread in both systems, and what is behind them."""
    figures = [tag("div", _spread(one)) for one in past.spreads()] or [tag("div", NO_FIGURES)]
    besides = "; ".join(past.besides())
    lines = [tag("div", f"{past.behind()}:"), *figures]
    return join([*lines, *([tag("div", besides)] if besides else [])], "\n")


def _spread(spread: Spread) -> Html:
    both = [spread.in_unit(of) for of in other_system(spread.unit)]
    (middle, around), (metric, inch) = both[0], ("".join(text) for text in both)
    own = join([tag("strong", printed(middle)), printed(around)])
    return join([spread.words, in_line(own, Shown(metric, inch, metric))])


def past_links(past: Past, link: Link | None) -> Iterator[Html]:
    """Lines that lead to the setups behind the figures, and to those that went poorly."""
    if past.setups:
        yield _line("Own records: ", past.setups, past.count, link)
    if past.went_poorly:
        yield _line("Went poorly: ", past.went_poorly, past.poor + past.spoiled, link)


def _line(words: str, setups: Iterable[PastSetup], count: int, link: Link | None) -> Html:
    shown = [*setups][:MOST_LINKS]
    more = f" and {count - len(shown)} more" if count > len(shown) else ""
    return paragraph("shoplog-past", words, join((_named(one, link) for one in shown), "; "), more)


def _named(setup: PastSetup, link: Link | None) -> Html:
    """A setup by its page's heading and its day, with what went wrong; by its line without link."""
    day = f", {setup.date}" if setup.date else ""
    place = _led_to(setup, f"{setup.title or setup.page}{day}", link)
    told = [
        word for word in (setup.outcome if setup.outcome != "good" else "", setup.fault) if word
    ]
    return join([place, f" ({', '.join(told)})" if told else ""])


def _led_to(setup: PastSetup, text: str, link: Link | None) -> Html:
    address = link(setup.page, setup.anchor) if link else ""
    return tag("a", text, href=address) if address else join([setup.describe()])


def repeats_caution(repeats: Repeats, link: Link | None) -> Html:
    """That a setup repeats one that went poorly, with what it leads to."""
    parts = [": ", _seen("what went poorly", repeats.poorly, link)]
    if repeats.well is not None:
        parts += [", ", _seen("what went well", repeats.well, link)]
    return caution(repeats.message, join(parts))


def _seen(words: str, setup: PastSetup, link: Link | None) -> Html:
    if link and link(setup.page, setup.anchor):
        return _led_to(setup, words, link)
    return join([f"{words} is at {setup.page}:{setup.line}"])
