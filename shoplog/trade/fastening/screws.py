"""Screws by their standards: heads, keys and points."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from math import cos, radians
from typing import Any, NoReturn

from shoplog.tables import table
from shoplog.trade.declare import Millimetre, TradeError, offered
from shoplog.trade.hole_work.drills import Drill
from shoplog.trade.screw_threads.thread_record import INCH
from shoplog.trade.screw_threads.threads import Thread

__all__ = ["Screw", "screw"]

LONGEST = 60
COUNTERSUNK_WEAKER = (
    "a countersunk head with a socket breaks at about 80 % of the load of its class, and its key"
    " slips sooner: do not tighten it as a cap screw"
)


@dataclass(frozen=True, slots=True)
class _Kind:
    """A standard of screws: what it makes, the table of its sizes, and how its head is."""

    name: str
    words: str
    rows: str
    head: str
    """`cap`, `countersunk`, `hexagon`, `nut` or `none`."""
    inch: bool = False
    point: str = ""


KINDS = {
    kind.name: kind
    for kind in (
        _Kind("ISO 4762", "socket head cap screw", "screws_cap_metric", "cap"),
        _Kind("ISO 10642", "socket countersunk screw", "screws_countersunk_metric", "countersunk"),
        _Kind("ISO 4014", "hexagon bolt", "screws_hexagon_metric", "hexagon"),
        _Kind("ISO 4017", "hexagon screw", "screws_hexagon_metric", "hexagon"),
        _Kind("ISO 4032", "hexagon nut", "screws_hexagon_metric", "nut"),
        _Kind(
            "ISO 4026", "socket set screw, flat point", "screws_set_metric", "none", point="flat"
        ),
        _Kind(
            "ISO 4027", "socket set screw, cone point", "screws_set_metric", "none", point="cone"
        ),
        _Kind("ISO 4028", "socket set screw, dog point", "screws_set_metric", "none", point="dog"),
        _Kind("ISO 4029", "socket set screw, cup point", "screws_set_metric", "none", point="cup"),
        _Kind("B18.3 cap", "socket head cap screw", "screws_cap_inch", "cap", inch=True),
        _Kind("B18.3 set", "socket set screw", "screws_set_inch", "none", inch=True, point="cup"),
    )
}


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw or nut of a standard: its thread, head and drive. What it has not is left out."""

    designation: str
    """As it is read: `ISO 4762 M6x20`, `B18.3 cap 1/4-20`."""
    standard: str
    kind: str
    """In words: `socket head cap screw`."""
    head: str
    """`cap`, `countersunk`, `hexagon`, `nut`, or `none` for a set screw."""
    thread: Thread
    length: Millimetre | None = None
    head_diameter: Millimetre | None = None
    """Greatest, of a plain head; of a hexagon across its corners; of a countersunk head its sharp
    cone."""
    knurled_head_diameter: Millimetre | None = None
    """Greatest, of a cap screw with a knurled head."""
    head_height: Millimetre | None = None
    """Greatest; of a nut its own height."""
    key: Millimetre | None = None
    """Width of the socket: of the hexagon key."""
    across_flats: Millimetre | None = None
    socket_depth: Millimetre | None = None
    """Least."""
    point: str = ""
    """`flat`, `cone`, `dog` or `cup` for a set screw."""
    point_diameter: Millimetre | None = None
    notes: tuple[str, ...] = ()

    @classmethod
    def from_text(cls, text: str) -> Screw:
        """The screw that a designation names."""
        return _read(text)

    @property
    def size(self) -> str:
        """Nominal size, `M6` or `1/4`."""
        return self.thread.size

    @property
    def diameter(self) -> Millimetre:
        """Major diameter of its thread."""
        return self.thread.major

    @property
    def greatest_diameter(self) -> Millimetre:
        """Of all that a hole for it must let in: the widest head that the standard allows."""
        widest = self.knurled_head_diameter or self.head_diameter
        return self.diameter if widest is None else max(widest, self.diameter)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What its kind asks for."""
        return (COUNTERSUNK_WEAKER,) if self.head == "countersunk" else ()

    def describe(self) -> str:
        """The screw in one sentence."""
        parts = [
            ("head", self.head_diameter),
            ("knurled head", self.knurled_head_diameter),
            ("height", self.head_height),
            ("across flats", self.across_flats),
            ("key", self.key),
            ("point", self.point_diameter),
        ]
        said = [f"{name} {size:g} mm" for name, size in _rounded(parts)]
        return f"{self.designation}, {self.kind}: thread {self.thread.designation}" + "".join(
            f", {part}" for part in said
        )


def _rounded(parts: list[tuple[str, float | None]]) -> list[tuple[str, float]]:
    return [(name, round(size, 3)) for name, size in parts if size is not None]


@offered(
    source="ISO 4762:2004, ISO 10642:2004, ISO 4014, ISO 4017 and ISO 4032:2012, ISO 4026 to"
    " 4029:2003; ASME B18.3-2003 (data of open CAD part libraries; see the tables)"
)
def screw(designation: str) -> Screw:
    """Sizes of a screw or nut that a standard and a size name.

    Parameters
    ----------
    designation : str [-]
        The standard, the size, and the length for a metric screw: `ISO 4762 M6x20`, `ISO 10642 M5`,
        `ISO 4014 M10x60`, `ISO 4032 M10`, `ISO 4029 M6x10`, `B18.3 cap 1/4-20`, `B18.3 set #10`.
        Coarse thread where an inch size is written without its threads per inch.

    Returns
    -------
    Screw [-]
        Thread, greatest head, height, key or width across flats, and point.

    Raises
    ------
    TradeError
        The standard is not held, or has no screw of that size.

    Notes
    -----
    Of ISO 4762 both kinds of head are in use, plain and knurled; a counterbore is judged by the
    knurled one. Lengths are not checked against the standard's list.

    Examples
    --------
    >>> found = screw("ISO 4762 M3")
    >>> found.head_diameter, found.knurled_head_diameter, found.key
    (5.5, 5.68, 2.5)

    References
    ----------
    ISO 4762:2004, ISO 10642:2004, ISO 4014, 4017 and 4032:2012, ISO 4026 to 4029:2003; ASME
    B18.3-2003.
    """
    return _read(designation)


# ---- reading a designation -------------------------------------------------------------------

_DESIGNATION = re.compile(
    r"(?:(?:DIN )?(?:EN )?(ISO) ?([0-9]{4,5})|(?:ASME |ANSI )?(B18\.3) (cap|set))(?: ?-)? ?(.*)"
)
_METRIC_SIZE = re.compile(r"(M ?[0-9.]+)(?: ?[x×] ?([0-9.]+)(?: ?mm)?)?")


def _refuse(message: str, hint: str = "") -> NoReturn:
    raise TradeError(message, hint=hint, argument="designation")


@lru_cache(maxsize=1024)
def _read(text: str) -> Screw:
    if len(text) > LONGEST:
        _refuse(f"a screw's designation has at most {LONGEST} characters, this has {len(text)}")
    plain = " ".join(text.replace("–", "-").split())
    found = _DESIGNATION.fullmatch(plain)
    name = ""
    if found:
        name = f"ISO {found[2]}" if found[1] else f"{found[3]} {found[4]}"
    if found is None or name not in KINDS:
        _refuse(
            f'"{text}" names no screw that is held',
            'write the standard and the size: "ISO 4762 M6x20"; held are ' + ", ".join(KINDS),
        )
    kind = KINDS[name]
    return _inch(kind, found[5]) if kind.inch else _metric(kind, found[5])


@cache
def _sizes(rows: str) -> dict[str, dict[str, str]]:
    return {row["size"]: row for row in table(rows).rows}


def _row(kind: _Kind, size: str) -> dict[str, str]:
    rows = _sizes(kind.rows)
    if size not in rows:
        *most, last = rows
        _refuse(f"{kind.name} has no {size} here: it has {', '.join(most)} and {last}")
    return rows[size]


def _metric(kind: _Kind, rest: str) -> Screw:
    found = _METRIC_SIZE.fullmatch(rest)
    if not found:
        _refuse(f'"{rest}" is no size of {kind.name}', 'write "M6" or "M6x20", 20 the length in mm')
    size = found[1].replace(" ", "")
    row = _row(kind, size)
    length = _length(found[2])
    sizes = {name: float(cell) for name, cell in row.items() if cell and name != "size"}
    made = Screw(
        designation=f"{kind.name} {size}" + (f"x{length:g}" if length else ""),
        standard=kind.name,
        kind=kind.words,
        head=kind.head,
        thread=Thread.from_text(size),
        length=length,
        point=kind.point,
    )
    return replace(made, **_shape(kind, sizes))


def _length(text: str | None) -> float | None:
    if text is None:
        return None
    try:
        length = float(text)
    except ValueError:
        _refuse(f'"{text}" is no length')
    if not 1 <= length <= 1000:
        _refuse(f"a length of {length:g} mm is not held: they are 1 to 1000 mm")
    return length


def _shape(kind: _Kind, row: dict[str, float]) -> dict[str, Any]:
    """Head, key and point of a metric screw by the columns of its table."""
    if kind.head == "none":
        column = {"flat": "point_flat_mm", "cup": "point_cup_mm", "dog": "point_flat_mm"}
        return {
            "key": row["key_mm"],
            "socket_depth": row.get("socket_depth_mm", row["socket_depth_low_mm"]),
            "point_diameter": row.get(column.get(kind.point, "")),
        }
    if kind.head in ("hexagon", "nut"):
        flats = row["across_flats_mm"]
        height = row["head_height_mm" if kind.head == "hexagon" else "nut_height_mm"]
        corners = flats / cos(radians(30))
        return {"head_diameter": corners, "head_height": height, "across_flats": flats}
    return {
        "head_diameter": row.get("head_plain_mm", row.get("head_mm")),
        "knurled_head_diameter": row.get("head_knurled_mm"),
        "head_height": row["head_height_mm"],
        "key": row["key_mm"],
        "socket_depth": row["socket_depth_mm"],
    }


def _inch(kind: _Kind, rest: str) -> Screw:
    size, _, _ = rest.partition(" UN")
    number, _, count = size.rpartition("-") if re.search("-[0-9]{1,2}$", size) else (size, "", "")
    row = _row(kind, number)
    thread = _inch_thread(number, count)
    key = (
        Drill.from_text(f"{row['key']} in").diameter
        if "/" in row["key"]
        else (float(row["key"]) * INCH)
    )
    written = f"{kind.name} {thread.size}-{thread.threads_per_inch:.0f}"
    if kind.head == "none":
        depth, point = (float(row[name]) * INCH for name in ("engagement_in", "point_in"))
        return Screw(
            *(written, f"ASME {kind.name}", kind.words, kind.head, thread),
            key=key,
            socket_depth=depth,
            point=kind.point,
            point_diameter=point,
        )
    return Screw(
        *(written, f"ASME {kind.name}", kind.words, kind.head, thread),
        head_diameter=float(row["head_in"]) * INCH,
        head_height=float(row["head_height_in"]) * INCH,
        key=key,
        socket_depth=float(row["socket_depth_in"]) * INCH,
    )


def _inch_thread(size: str, count: str) -> Thread:
    """The thread of an inch size: the one written, else the coarse one, else the fine one."""
    for text in (f"{size}-{count}",) if count else _usual(size):
        try:
            return Thread.from_text(text)
        except TradeError:
            continue
    _refuse(f"{size}-{count} is no Unified thread", f'leave the threads per inch out: "{size}"')


@cache
def _usual(size: str) -> tuple[str, ...]:
    for row in table("threads_unified").rows:
        if row["size"] == size:
            return tuple(f"{size}-{row[s]}" for s in ("UNC_tpi", "UNF_tpi") if row[s])
    return ()
