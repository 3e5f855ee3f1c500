"""What a key of the shop profile is, and what a thing is that has such keys.

`shoplog.log.profile.keys` declares them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from shoplog.units import unit

__all__ = ["Reads", "ShopKey", "ShopThing"]


class Reads(StrEnum):
    """What a key of the profile reads its value as."""

    TEXT = "text"
    REMARKS = "text, or a list of them"
    CHOICE = "one of"
    CHOICES = "some of"
    QUANTITY = "a quantity"
    RANGE = "a range"
    STEPS = "steps, a table of steps, or a range"
    AXES = "a size, or one for each axis"
    COUNT = "a whole number"
    COUNTS = "whole numbers"
    RATIO = "a ratio"
    LENGTHS = "lengths"
    BAR = "a length, or two or three with x between"
    SIZE = "a length, with a class or limits where it has them"
    LEADSCREW = "a lead or threads per inch"
    TAPER = "the name of a taper"
    THREADS = "designations of threads"
    BLOCKS = "a set of gauge blocks, or their lengths"
    PLATES = "the circles of each plate"
    MATERIAL = "the name of a material"
    THING = "its lines"
    THINGS = "a list"


@dataclass(frozen=True, slots=True)
class ShopKey:
    """A key: what it reads, what it is for, and the attribute that holds what it read."""

    name: str
    reads: Reads
    doc: str
    units: tuple[str, ...] = ()
    """Of a quantity: a unit of each kind that it may be of."""
    choices: tuple[str, ...] = ()
    """Of `one of` and `some of`: which. Of gauge blocks: the sets that are known."""
    examples: tuple[str, ...] = ()
    """Values that may be written; tests read each."""
    attribute: str = ""
    """Where it is not the key with `_` for a space."""
    zero: bool = False
    """Whether a quantity may be 0."""
    also: tuple[str, ...] = ()
    """What others call it: not read, and hinted at."""
    one: tuple[str, ...] = ()
    """What stands behind a count of 1, where it is not the key without its `s`."""
    likely: bool = False
    """Whether a text that is near to one of its examples was probably meant for that."""
    behind: str = ""
    """The word behind a quantity that means this key in a line: `2 mm wide`."""

    @property
    def held(self) -> str:
        """The attribute that holds what it read."""
        return self.attribute or self.name.replace(" ", "_").replace("-", "_")

    @property
    def wanted(self) -> str:
        """What it reads, in the words of a message."""
        if self.choices and self.reads in (Reads.CHOICE, Reads.CHOICES):
            return f"{self.reads} {', '.join(self.choices)}"
        if self.reads is Reads.QUANTITY:
            return self.kind
        return self.reads.value

    @property
    def kind(self) -> str:
        """What its quantities measure, in words."""
        if self.units and self.units[0] in ("mm/rev", "mm/min"):
            return "a feed per rev or per minute"
        kinds = [*dict.fromkeys(unit(text).kind for text in self.units if text != "1/min")]
        return " or ".join(filter(None, (", ".join(kinds[:-1]), *kinds[-1:])))


@dataclass(frozen=True, slots=True)
class ShopThing:
    """A kind of thing: what it is called, and its keys in the order in which it tells them."""

    title: str
    what: str
    """With its article: `a machine`."""
    keys: tuple[ShopKey, ...]
    in_line: tuple[str, ...] = ()
    """The keys of a line's texts in order, where a thing is written in one line."""
    whole: str = ""
    """The key that a whole line is read as, where it is not `key value` between commas."""
    known_as: str = "name"
    """The key that gives the name where no line says it."""
    repeats: bool = False
    """Whether two may go by one name."""
    alone: bool = False
    """Whether the key that holds it holds one, and no list."""
    commas: bool = True
    """Whether a text behind its key names several with commas between."""

    @property
    def lump(self) -> bool:
        """Whether one of it is read from a whole list: a set of taps, of gauge blocks."""
        return bool(self.whole) and self.by_name[self.whole].reads in (Reads.THREADS, Reads.BLOCKS)

    @property
    def words(self) -> dict[str, str]:
        """Each word that is a key or that others call one so, and the key that it means."""
        own = {key.name: key.name for key in self.keys}
        return own | {word: key.name for key in self.keys for word in key.also}

    @property
    def by_name(self) -> dict[str, ShopKey]:
        """Its keys by their names."""
        return {key.name: key for key in self.keys}

    @property
    def noun(self) -> str:
        """What it is, without an article."""
        return self.what.partition(" ")[2]
