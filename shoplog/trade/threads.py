"""Screw threads as their standards write them: ISO metric (ISO 261) and Unified (ASME B1.1).

A designation is read into a record whose sizes are the formulas of the basic profile. Nothing is
rounded before it is shown, so the three places of ISO 724 are a check and not the source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from math import sqrt
from typing import NoReturn

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, PerInch, TradeError, offered

__all__ = ["Thread", "ThreadMate", "mates", "thread", "thread_mate"]

INCH = 25.4
LONGEST = 60
HELD = "ISO metric M1 to M64, UNC and UNF #0 to 1-1/2 in"


@dataclass(frozen=True, slots=True)
class Thread:
    """A screw thread: what its designation says, and the basic sizes of its profile."""

    designation: str
    """As its standard writes it: `M8x1-6H-LH`, `1/4-20 UNC-2A`."""
    series: str
    """`ISO metric coarse`, `ISO metric fine`, `UNC` or `UNF`."""
    size: str
    """The nominal size in the designation: `M8`, `#10`, `1/4`."""
    major: Millimetre
    """Basic major diameter, D."""
    pitch: Millimetre
    """P, from one thread to the next."""
    hand: str
    """`right` or `left`."""
    side: str
    """`internal`, `external`, or nothing where no tolerance class is stated."""
    tolerance_class: str
    choice: str
    """`first`, `second` or `third` choice of ISO 261; nothing for an inch thread."""
    notes: tuple[str, ...] = ()
    starts: int = 1

    @classmethod
    def from_text(cls, text: str) -> Thread:
        """The thread that a designation names."""
        return _read(text)

    @property
    def metric(self) -> bool:
        """Whether it is an ISO metric thread."""
        return self.series.startswith("ISO")

    @property
    def fundamental_height(self) -> Millimetre:
        """Height of the fundamental triangle, H = sqrt(3)/2 P (ISO 68-1; ASME B1.1)."""
        return sqrt(3) / 2 * self.pitch

    @property
    def thread_height(self) -> Millimetre:
        """Height of the basic profile and of the internal thread, 5/8 H."""
        return 5 / 8 * self.fundamental_height

    @property
    def pitch_diameter(self) -> Millimetre:
        """Basic pitch diameter, D2 = D - 3/4 H."""
        return self.major - 3 / 4 * self.fundamental_height

    @property
    def minor_diameter(self) -> Millimetre:
        """Basic minor diameter, of the internal thread, D1 = D - 5/4 H."""
        return self.major - 5 / 4 * self.fundamental_height

    @property
    def root_diameter(self) -> Millimetre:
        """Minor diameter of the external thread with rounded root: d3 = d - 17/12 H for a metric
        one, d - 11/8 H for a Unified one (UNR; ASME B1.1-2003).
        """
        share = 17 / 12 if self.metric else 11 / 8
        return self.major - share * self.fundamental_height

    @property
    def threads_per_inch(self) -> PerInch:
        """Threads in an inch of length."""
        return INCH / self.pitch

    @property
    def lead(self) -> Millimetre:
        """Advance in one turn: pitch times starts."""
        return self.starts * self.pitch

    def describe(self) -> str:
        """The thread in one sentence, with its basic sizes."""
        pitch = f"{self.pitch:g} mm"
        if not self.metric:
            pitch = f"{self.pitch:.3f} mm ({self.threads_per_inch:.0f} threads per inch)"
        side = f" {self.side}" if self.side else ""
        return (
            f"{self.designation}, {self.series},{side} {self.hand}-hand: major diameter"
            f" {self.major:.3f} mm, pitch {pitch}, pitch diameter {self.pitch_diameter:.3f} mm,"
            f" minor diameter {self.minor_diameter:.3f} mm"
        )


@dataclass(frozen=True, slots=True)
class ThreadMate:
    """Whether two threads go together: why not, and what is only assumed; empty if all is well."""

    fault: str
    caution: str


@offered(source="ISO 68-1:1998, ISO 261:1998, ISO 724:1993, ISO 965-1:1998; ASME B1.1-2003")
def thread(designation: str) -> Thread:
    """Sizes of the screw thread that a designation names.

    H = sqrt(3)/2 P, D2 = D - 3/4 H, D1 = D - 5/4 H, with P the pitch and D the major diameter.

    Parameters
    ----------
    designation : str [-]
        As the standard writes it: `M6`, `M10x1.25`, `M8x1-6H-LH`, `1/4-20 UNC`, `#10-32 UNF-2B`.
        M1 to M64 of ISO 261; UNC and UNF of ASME B1.1, #0 to 1-1/2 in.

    Returns
    -------
    Thread [-]
        Major, pitch, minor and root diameters, pitch, heights, hand, class and side.

    Raises
    ------
    TradeError
        The text is no designation, or its standard has no such thread.

    Notes
    -----
    Basic sizes only: a class says which side a thread is on, and its limits are not worked out.
    Threads of more than one start are refused.

    Examples
    --------
    >>> round(thread("M10x1.25").pitch_diameter, 3)
    9.188
    >>> thread("1/4 - 20 UNC-2B").designation
    '1/4-20 UNC-2B'

    References
    ----------
    ISO 68-1:1998, ISO 261:1998, ISO 724:1993, ISO 965-1:1998; ASME B1.1-2003.
    """
    return _read(designation)


def mates(one: Thread, other: Thread) -> str:
    """Why two threads do not go together, as a clause; nothing when they do."""
    return thread_mate(one, other).fault


def thread_mate(one: Thread, other: Thread) -> ThreadMate:
    """Whether two threads go together: size, pitch, hand, starts, one internal and one external."""
    faults = []
    if one.metric != other.metric:
        faults.append(f"{one.designation} is {one.series}, {other.designation} is {other.series}")
    if abs(one.major - other.major) > 1e-6:
        faults.append(f"the diameters differ, {one.major:g} mm and {other.major:g} mm")
    if abs(one.pitch - other.pitch) > 1e-6:
        faults.append(f"the pitches differ, {_pitch(one)} and {_pitch(other)}")
    if one.hand != other.hand:
        faults.append(f"one is {one.hand}-hand, the other {other.hand}-hand")
    if one.starts != other.starts:
        faults.append(f"the starts differ, {one.starts} and {other.starts}")
    if one.side and one.side == other.side:
        faults.append(f"both are {one.side} threads")
    unstated = [each.designation for each in (one, other) if not each.side]
    names = list(dict.fromkeys(unstated))
    verb = "is" if len(names) == 1 else "are"
    caution = f"no tolerance class says whether {' and '.join(names)} {verb} internal or external"
    return ThreadMate("; ".join(faults), caution if names else "")


def _pitch(one: Thread) -> str:
    return f"{one.pitch:g} mm" if one.metric else f"{one.threads_per_inch:.0f} threads per inch"


# ---- reading a designation -------------------------------------------------------------------

_SAME = str.maketrans({"×": "x", "X": "x", "−": "-", "–": "-", "\u00a0": " ", "\t": " "})
_METRIC = re.compile(r"M ?([0-9.]+)(?: ?x ?([0-9.]+))?(.*)")
_SIZE = r"(?:#|No\. ?|No )?[0-9]+(?:[- ][0-9]+/[0-9]+|/[0-9]+)?|[0-9]*\.[0-9]+"
_INCH = re.compile(rf"({_SIZE})(?: ?- ?([0-9]+))?(?: ?-? ?([A-Z]{{2,5}}))?((?: ?-.*| LH)?)")
_INTERNAL = re.compile(r"[4-8][GH](?:[4-8][GH])?")
_EXTERNAL = re.compile(r"[468][a-h]|[3-9][a-h][468][a-h]")
_MANY_STARTS = re.compile(r"[xX×] ?Ph|start", re.IGNORECASE)


def _refuse(message: str, hint: str = "") -> NoReturn:
    raise TradeError(message, hint=hint, argument="designation")


@cache
def _metric_rows() -> dict[float, tuple[str, str, tuple[float, ...]]]:
    """Choice, coarse pitch as text, and every pitch, by diameter in mm."""
    rows = table("threads_metric").rows
    return {
        float(row["size_mm"]): (
            row["choice"],
            row["coarse_mm"],
            tuple(float(p) for p in f"{row['coarse_mm']} {row['fine_mm']}".split()),
        )
        for row in rows
    }


@cache
def _inch_rows() -> dict[str, tuple[float, dict[str, int]]]:
    """Major diameter in inch, and threads per inch by series, by size."""
    return {
        row["size"]: (
            float(row["major_in"]),
            {s: int(row[f"{s}_tpi"]) for s in ("UNC", "UNF") if row[f"{s}_tpi"]},
        )
        for row in table("threads_unified").rows
    }


@lru_cache(maxsize=1024)
def _read(text: str) -> Thread:
    if len(text) > LONGEST:
        _refuse(f"a thread designation has at most {LONGEST} characters, this has {len(text)}")
    if _MANY_STARTS.search(text):
        _refuse(f'"{text}" has more than one start, which is not worked out yet')
    if re.search(r"[0-9],[0-9]", text):
        _refuse(f'"{text}" has a decimal comma', "write a decimal point")
    plain = " ".join(text.translate(_SAME).split())
    if found := _METRIC.fullmatch(plain):
        return _metric(text, *found.groups())
    if found := _INCH.fullmatch(plain):
        return _unified(text, *found.groups())
    hint = 'a metric thread begins with a capital M: "M6"' if re.match("m ?[0-9]", plain) else ""
    _refuse(f'"{text}" is no thread that is held', hint or f"held are {HELD}")


def _metric(text: str, size: str, pitch: str | None, rest: str) -> Thread:
    major = _number(text, size)
    rows = _metric_rows()
    if major not in rows:
        near = min(rows, key=lambda known: abs(known - major))
        _refuse(
            f"M{size} is not in ISO 261, of which M1 to M64 are held", f"the nearest is M{near:g}"
        )
    choice, coarse, pitches = rows[major]
    name = f"M{major:g}"
    listed = f"{name} has {_listed(pitches)} mm"
    if pitch is None and not coarse:
        _refuse(
            f"{name} has no coarse pitch in ISO 261, so its pitch must be written; {listed}",
            f'"{name}x{pitches[0]:g}"',
        )
    given = float(coarse) if pitch is None else _number(text, pitch)
    if given not in pitches:
        near = min(pitches, key=lambda known: abs(known - given))
        _refuse(f"{name}x{pitch} is not in ISO 261; {listed}", f'did you mean "{name}x{near:g}"')
    is_coarse = bool(coarse) and given == float(coarse)
    ending, hand, side, tolerance, notes = _endings(text, rest, metric=True)
    return Thread(
        designation=name + ("" if is_coarse else f"x{given:g}") + ending,
        series="ISO metric coarse" if is_coarse else "ISO metric fine",
        size=name,
        major=major,
        pitch=given,
        hand=hand,
        side=side,
        tolerance_class=tolerance,
        choice=choice,
        notes=notes,
    )


def _unified(text: str, size: str, count: str | None, series: str | None, rest: str) -> Thread:
    if series == "LH":
        series, rest = None, f"-LH{rest}"
    name, found, tpi = _inch_row(text, size, count, series)
    ending, hand, side, tolerance, notes = _endings(text, rest, metric=False)
    if series is None:
        said = f"{name}-{tpi} is written without its series; of UNC and UNF it is {found}"
        notes = (said, *notes)
    return Thread(
        designation=f"{name}-{tpi} {found}{ending}",
        series=found,
        size=name,
        major=_inch_rows()[name][0] * INCH,
        pitch=INCH / tpi,
        hand=hand,
        side=side,
        tolerance_class=tolerance,
        choice="",
        notes=notes,
    )


def _inch_row(text: str, size: str, count: str | None, series: str | None) -> tuple[str, str, int]:
    """Size, series and threads per inch of the one row that is meant."""
    names = _inch_sizes(size)
    if not names:
        _refuse(f"{size} is no size of UNC or UNF, #0 to 1-1/2 in are held (ASME B1.1)")
    if series not in (None, "UNC", "UNF"):
        hint = f'did you mean "U{series}"' if series in ("NC", "NF") else ""
        _refuse(f"{series} is not a series that is held: UNC and UNF (ASME B1.1)", hint)
    held = [(name, s, tpi) for name in names for s, tpi in _inch_rows()[name][1].items()]
    meant = [row for row in held if series in (None, row[1])]
    if count is None:
        hint = " or ".join(f'"{name}-{tpi} {s}"' for name, s, tpi in meant)
        _refuse(f'"{text}" does not say how many threads per inch', f"write {hint}" if hint else "")
    wanted = int(count)
    if found := [row for row in meant if row[2] == wanted]:
        return found[0]
    have = ", ".join(f"{name}-{tpi} {s}" for name, s, tpi in held)
    near = min(held, key=lambda row: (series not in (None, row[1]), abs(row[2] - wanted)))
    _refuse(
        f"{size}-{count}{f' {series}' if series else ''} is not in ASME B1.1; held are {have}",
        f'did you mean "{near[0]}-{near[2]} {near[1]}"',
    )


def _inch_sizes(size: str) -> list[str]:
    """The sizes that a text may mean: a bare number is a number size or whole inches."""
    rows = _inch_rows()
    if "." in size and not size.startswith("No"):
        return [name for name, row in rows.items() if abs(row[0] - float(size)) <= 0.0005]
    bare = re.sub(r"No\.? ?", "#", size).replace(" ", "-")
    return [name for name in (bare, f"#{bare}") if name in rows]


def _endings(text: str, rest: str, *, metric: bool) -> tuple[str, str, str, str, tuple[str, ...]]:
    """What follows the size: the ending as the standard writes it, hand, side, class and notes."""
    hand, side, tolerance, group = "right", "", "", ""
    words = [word for word in rest.replace("-", " ").split(" ") if word]
    for word in words:
        if word == "LH" and hand == "right":
            hand = "left"
        elif "/" in word:
            _refuse(f'"{text}" states both threads of a pair', "one class a thread, then mate them")
        elif metric and word in ("S", "N", "L") and not group:
            group = word
        elif not tolerance and hand == "right" and (found := _class(word, metric=metric)):
            tolerance, side = found
        else:
            standard = "ISO 965-1" if metric else "ASME B1.1"
            example = '"6H", "6g", "5g6g" or "LH"' if metric else '"2A", "2B" or "LH"'
            _refuse(f"{word} is nothing that {standard} writes here", f"{example} may follow")
    notes = (f"length of engagement {group} is read and not worked with",) if group else ()
    parts = (tolerance, group, "LH" if hand == "left" else "")
    return "".join(f"-{part}" for part in parts if part), hand, side, tolerance, notes


def _class(word: str, *, metric: bool) -> tuple[str, str] | None:
    """A tolerance class and its side: metric internal ones have capitals, inch ones the B."""
    if not metric:
        found = re.fullmatch("[123][AB]", word)
        return (word, "external" if word[1] == "A" else "internal") if found else None
    short = word[:2] if word[:2] == word[2:] else word
    if _INTERNAL.fullmatch(short):
        return short, "internal"
    return (short, "external") if _EXTERNAL.fullmatch(short) else None


def _number(text: str, number: str) -> float:
    if not re.fullmatch(r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+", number):
        _refuse(f'{number} in "{text}" is no number')
    return float(number)


def _listed(pitches: tuple[float, ...]) -> str:
    *most, last = (f"{pitch:g}" for pitch in pitches)
    return f"pitches {', '.join(most)} and {last}" if most else f"pitch {last}"
