"""YAML of which nothing can run or grow: no references, no depth without end, each fault placed.

What a fault is called is the matter of who reads: a page's header, a shop profile, a mapping file.
"""

from __future__ import annotations

import yaml

__all__ = ["Reference", "TooDeep", "Unread", "Unreadable", "compose"]


class Unread(Exception):
    """A text that is not read: where, from 0 as YAML counts, and how many characters wide."""

    def __init__(self, line: int, column: int, width: int = 1) -> None:
        super().__init__(line, column, width)
        self.line, self.column, self.width = line, column, width


class Unreadable(Unread):
    """It is no YAML, for a reason in words."""

    def __init__(self, why: str, line: int, column: int) -> None:
        super().__init__(line, column)
        self.why = why


class Reference(Unread):
    """It uses a reference, which could grow without end: its sign, as `&name` or `*name`."""

    def __init__(self, sign: str, line: int, column: int) -> None:
        super().__init__(line, column, len(sign))
        self.sign = sign


class TooDeep(Unread):
    """Lists and mappings stand in one another more often than is read."""


def compose(text: str, most_depth: int) -> yaml.Node | None:
    """The root node of a text; nothing where it is empty.

    Parameters
    ----------
    text : str [-]
        The text; its length is the caller's to limit.
    most_depth : int [-]
        How many lists and mappings may stand in one another.

    Raises
    ------
    Unread
        As one of its kinds, with the place.
    """
    try:
        _refuse(text, most_depth)  # before any tree is built
        found: yaml.Node | None = yaml.compose(text, Loader=yaml.SafeLoader)
    except yaml.MarkedYAMLError as error:
        mark, last = error.problem_mark, max(0, len(text.splitlines()) - 1)
        if mark is None or mark.line > last:  # the end was met: what is open there is the place
            mark = error.context_mark
        line, column = (mark.line, mark.column) if mark and mark.line <= last else (last, 0)
        why = error.problem or error.context or "it is not YAML"
        raise Unreadable(why, line, column) from error
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position)
        column = error.position - (text.rfind("\n", 0, error.position) + 1)
        why = f"the character U+{ord(text[error.position]):04X} may not stand in it"
        raise Unreadable(why, line, column) from error
    return found


def _refuse(text: str, most_depth: int) -> None:
    depth = 0
    for event in yaml.parse(text, Loader=yaml.SafeLoader):
        depth += isinstance(event, yaml.CollectionStartEvent)
        depth -= isinstance(event, yaml.CollectionEndEvent)
        mark = event.start_mark
        line, column = (mark.line, mark.column) if mark else (0, 0)
        if depth > most_depth:
            raise TooDeep(line, column)
        if name := getattr(event, "anchor", None):
            sign = f"{'*' if isinstance(event, yaml.AliasEvent) else '&'}{name}"
            raise Reference(sign, line, column)
