"""Texts as they may be shown anywhere: nothing in them steers a terminal or turns a line round.

Pages and other people's files come from strangers. A text of theirs is one line of characters; what
would move a cursor, colour a screen or change the direction of the text is shown as U+FFFD.
"""

from __future__ import annotations

import re

__all__ = ["MOST_TEXT", "clean", "clipped"]

MOST_TEXT = 2000
"""Characters of a text that a record keeps; the page has all of it."""

# Control characters and what is no character; then the marks that change the direction of text
# (Unicode, UAX 9), by which a line can be made to read as another.
_STEERS = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff"
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]"
)
_BREAKS = re.compile("[\t\n\r\x85\u2028\u2029]+")


def clean(text: str) -> str:
    r"""A text in one line, no longer than a record keeps, with nothing in it that steers.

    >>> clean("\x1b[31mred\nfeed")
    '�[31mred feed'
    """
    if text.isprintable() and len(text) <= MOST_TEXT:
        return text  # as nearly all are; no sign below is printable
    text = text[: MOST_TEXT + 1]
    return clipped(_BREAKS.sub(" ", _STEERS.sub("\ufffd", text)), MOST_TEXT)


def clipped(text: str, most: int) -> str:
    """A text of at most so many characters; a cut is shown by an ellipsis.

    >>> clipped("chatter at the shoulder", 10)
    'chatter a…'
    """
    return text if len(text) <= most else f"{text[: most - 1]}…"
