"""How a name is compared with others: what is spelt apart and means the same has one key."""

from __future__ import annotations

import re
from collections.abc import Iterator

from shoplog.trade.machining.stages import STAGES

__all__ = ["ends_of", "key_of", "operation_key", "stage_of"]

_APART = re.compile(r"[\s,;_‐–-]+")


def key_of(text: str) -> str:
    """What a name is compared by: capitals, spaces, commas and hyphens do not count.

    >>> key_of("Low-carbon steel") == key_of("low carbon  steel")
    True
    """
    return _APART.sub("", text).casefold()


def stage_of(text: str) -> str:
    """Whether an operation is said to be `rough` or `finish`, or nothing.

    >>> stage_of("turning, finish"), stage_of("finish turning"), stage_of("turning")
    ('finish', 'finish', '')
    """
    words = _APART.split(text.casefold())
    return next((STAGES[word] for word in words if word in STAGES), "")


def operation_key(text: str) -> str:
    """What an operation is compared by: its stage may stand on either side of it.

    >>> operation_key("finish turning") == operation_key("turning, finishing")
    True
    """
    words = _APART.split(text.casefold())
    stages = dict.fromkeys(STAGES[word] for word in words if word in STAGES)
    return "".join([*(word for word in words if word not in STAGES), *stages])


def ends_of(text: str) -> Iterator[str]:
    """A name of several words, then the name without its first words.

    >>> list(ends_of("bench lathe"))
    ['bench lathe', 'lathe']
    """
    words = text.split()
    for start in range(min(len(words), 6)):
        yield " ".join(words[start:])
