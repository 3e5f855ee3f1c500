"""The keys of a setup block, each declared once.

Reading, near hints, and the page of the reference that lists the keys come from this one table.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from shoplog.outcomes import OUTCOMES

__all__ = ["SETUP_KEYS", "Reads", "SetupKey"]


class Reads(StrEnum):
    """What a key reads its text as."""

    TEXT = "text"
    WORDS = "texts with commas between"
    CUTTER = "a cutter"
    QUANTITY = "a quantity"
    WHOLE = "a whole number"
    DATE = "a date"
    ONE_OF = "one of"
    LINES = "lines below it"


@dataclass(frozen=True, slots=True)
class SetupKey:
    """A key: where it may stand, what it reads, and what it is for."""

    name: str
    where: tuple[str, ...]
    """Some of `setup`, `planned`, `ran`."""
    reads: Reads
    doc: str
    units: tuple[str, ...] = ()
    """For a quantity: a unit of each kind that it may be of."""
    choices: tuple[str, ...] = ()
    """For `one of`: which. For words: those with a meaning; others are kept."""
    least: int = 1
    """Of a whole number; 0 lets a quantity be 0."""

    @property
    def stands(self) -> str:
        """Where it may stand, in the words of a message."""
        under = [f"`{name}:`" for name in self.where if name != "setup"]
        places = ["at the margin"] if "setup" in self.where else []
        return " or ".join([*places, *([f"under {' or '.join(under)}"] if under else [])])

    @property
    def wanted(self) -> str:
        """What it reads, in the words of a message."""
        if self.units:
            kinds = {"mm": "a length", "rpm": "a spindle speed", "m/min": "a cutting speed"}
            return kinds.get(self.units[0], "a feed per rev, tooth or minute")
        if self.reads is Reads.ONE_OF:
            return f"one of {', '.join(self.choices)}"
        return self.reads.value


_TOP, _RUN, _FACT = ("setup",), ("planned", "ran"), ("setup", "ran")
_LENGTH, _SPEED, _FEED = ("mm",), ("rpm", "1/min"), ("mm/rev", "mm/min", "mm/tooth")

# `taper` and `drill` say what is cut or drilled, as text; a page's own values reckon with them.
# Outcome, fault and remarks stand at the margin for the setup as a whole, and where `ran` comes
# more than once, under each for that run.
SETUP_KEYS: dict[str, SetupKey] = {
    key.name: key
    for key in (
        SetupKey("date", _TOP, Reads.DATE, "The day of the work, as 2026-03-14."),
        SetupKey("step", _TOP, Reads.WHOLE, "Its place in the order of the work.", least=0),
        SetupKey("operation", _TOP, Reads.TEXT, "What is done: `turning, finish`."),
        SetupKey("feature", _TOP, Reads.TEXT, "What it is done to; a label, never looked up."),
        SetupKey("diameter", _TOP, Reads.QUANTITY, "The size before the cut.", _LENGTH),
        SetupKey("length", _TOP, Reads.QUANTITY, "The length of the cut.", _LENGTH),
        SetupKey("material", _TOP, Reads.TEXT, "What is cut."),
        SetupKey(
            "cutter", _TOP, Reads.CUTTER, "A name of the shop profile, or `kind, material, …`."
        ),
        SetupKey("cutter diameter", _TOP, Reads.QUANTITY, "The size of the cutter.", _LENGTH),
        SetupKey(
            "slot width",
            _TOP,
            Reads.QUANTITY,
            "The slot that is to come out; a slot's width of cut stands for it.",
            _LENGTH,
        ),
        SetupKey(
            "total depth", _TOP, Reads.QUANTITY, "What the passes must come to together.", _LENGTH
        ),
        SetupKey("teeth", _TOP, Reads.WHOLE, "How many teeth the cutter has."),
        SetupKey("machine", _TOP, Reads.TEXT, "A machine of the shop profile, or any other."),
        SetupKey("holding", _TOP, Reads.TEXT, "What holds the work: a chuck, a vise, centres."),
        SetupKey("stick-out", _TOP, Reads.QUANTITY, "How far work or tool stands out.", _LENGTH),
        SetupKey(
            "direction",
            _TOP,
            Reads.ONE_OF,
            "How the edge meets the work in milling.",
            choices=("climb", "conventional"),
        ),
        SetupKey(
            "tolerance",
            _TOP,
            Reads.QUANTITY,
            "What bending may cost: the diameter in turning and boring, the wall in milling.",
            _LENGTH,
        ),
        SetupKey("roughness", _TOP, Reads.QUANTITY, "The Ra that is wanted: `1.6 um`.", _LENGTH),
        SetupKey("taper", _TOP, Reads.TEXT, "The taper that is cut: `1:50`. A text."),
        SetupKey("drill", _TOP, Reads.TEXT, "The drill by its size or name: `#30`. A text."),
        SetupKey("planned", _TOP, Reads.LINES, "What is meant; once."),
        SetupKey("ran", _TOP, Reads.LINES, "What was done; once for each time."),
        SetupKey("speed", _RUN, Reads.QUANTITY, "The speed of the spindle.", _SPEED),
        SetupKey("cutting speed", _RUN, Reads.QUANTITY, "How fast the edge cuts.", ("m/min",)),
        SetupKey(
            "feed",
            _RUN,
            Reads.QUANTITY,
            "A revolution, a tooth or a minute; `by hand` for a hand feed.",
            _FEED,
        ),
        SetupKey(
            "depth of cut",
            _RUN,
            Reads.QUANTITY,
            "Radial in turning (`off diameter` where it was read so), axial in milling.",
            _LENGTH,
            least=0,
        ),
        SetupKey("width of cut", _RUN, Reads.QUANTITY, "Radial, in milling.", _LENGTH),
        SetupKey("passes", _RUN, Reads.WHOLE, "How many cuts."),
        SetupKey("coolant", _RUN, Reads.TEXT, "`none`, or what it was."),
        SetupKey(
            "outcome",
            _FACT,
            Reads.ONE_OF,
            "How it went.",
            choices=OUTCOMES,
        ),
        SetupKey(
            "fault",
            _FACT,
            Reads.WORDS,
            "What went wrong, in these or in other words; several with commas.",
            choices=("chatter", "taper", "burr", "broke", "rubbed", "wandered"),
        ),
        SetupKey("remarks", (*_TOP, *_RUN), Reads.TEXT, "What else is worth keeping."),
        SetupKey("pictures", _TOP, Reads.WORDS, "Names of picture files; several with commas."),
        SetupKey(
            "private", _TOP, Reads.ONE_OF, "`yes` keeps it off the site.", choices=("yes", "no")
        ),
    )
}
