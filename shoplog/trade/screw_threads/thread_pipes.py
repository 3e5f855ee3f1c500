"""Designations of pipe threads: G (ISO 228-1), R, Rp and Rc (ISO 7-1), NPT (ASME B1.20.1)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import NoReturn

from shoplog.tables import table
from shoplog.trade.screw_threads.thread_families import nearest_size, no_class
from shoplog.trade.screw_threads.thread_reading import (
    SIZE,
    Endings,
    Rules,
    endings,
    number,
    refused,
)
from shoplog.trade.screw_threads.thread_record import INCH, Thread

__all__ = ["READERS", "PipeSize", "pipe_size"]

TAPER = 1 / 16
_PIPE = re.compile(rf"(G|Rp|Rc|R) ?({SIZE})(?: ?in)? ?(A|B)?((?:[- ].*)?)")
_BSP = re.compile(rf"(?:BSP[PT]?|({SIZE})(?: ?in)? ?-? ?BSP[PT]?)(.*)")
_NPT = re.compile(rf"({SIZE})(?: ?in)?(?: ?- ?([0-9.]+))? ?-? ?(NP[A-Z]{{1,3}})((?:[- ].*)?)")
SIDES = {"R": "external", "Rp": "internal", "Rc": "internal"}
ISO_228_RULES = Rules("ISO 228-1", '"LH"', no_class)
ISO_7_RULES = Rules("ISO 7-1", '"LH"', no_class)
NPT_RULES = Rules("ASME B1.20.1", '"LH", "internal" or "external"', no_class, sides=True)


@dataclass(frozen=True, slots=True)
class PipeSize:
    """A size of pipe thread of Whitworth form: lengths in mm, tolerances in um."""

    size: str
    tpi: float
    major: float
    gauge_length: float
    """0 where ISO 7-1 has no such size."""
    useful_length: float
    internal_pitch: float
    external_pitch: dict[str, float]
    """By class, A or B."""
    internal_minor: float
    external_major: float


@cache
def _pipe_rows() -> dict[str, PipeSize]:
    return {row["size"]: _pipe_row(row) for row in table("threads_pipe").rows}


def _pipe_row(row: dict[str, str]) -> PipeSize:
    return PipeSize(
        row["size"],
        float(row["tpi"]),
        float(row["major_mm"]),
        gauge_length=float(row["gauge_length_mm"] or 0),
        useful_length=float(row["useful_length_mm"] or 0),
        internal_pitch=float(row["TD2_um"]),
        external_pitch={"A": float(row["Td2_A_um"]), "B": float(row["Td2_B_um"])},
        internal_minor=float(row["TD1_um"]),
        external_major=float(row["Td_um"]),
    )


def pipe_size(size: str) -> PipeSize:
    """The row of a size that the tables have."""
    return _pipe_rows()[size]


def _pipe(text: str, letter: str, size: str, grade: str | None, rest: str) -> Thread:
    of_iso_7 = letter != "G"
    standard = "ISO 7-1" if of_iso_7 else "ISO 228-1"
    held = [name for name, row in _pipe_rows().items() if row.gauge_length or not of_iso_7]
    name = nearest_size(text, size, held, standard, letter)
    if of_iso_7 and grade:
        raise refused(
            f"{letter}{name} has no class {grade} in ISO 7-1",
            f'a parallel external thread of class {grade} is "G{name}{grade}"',
        )
    row = pipe_size(name)
    end = endings(text, rest, ISO_7_RULES if of_iso_7 else ISO_228_RULES)
    return Thread(
        designation=f"{letter}{name}{grade or ''}{end.text}",
        series=letter,
        size=name,
        major=row.major,
        pitch=INCH / row.tpi,
        hand=end.hand,
        side=SIDES.get(letter) or ("external" if grade else "internal"),
        tolerance_class=grade or "",
        choice="",
        notes=_pipe_notes(letter, name, grade) + end.notes,
        family="Whitworth pipe",
        taper=TAPER if letter in ("R", "Rc") else 0.0,
        gauge_length=row.gauge_length if of_iso_7 else 0.0,
        useful_length=row.useful_length if of_iso_7 else 0.0,
    )


def _pipe_notes(letter: str, name: str, grade: str | None) -> tuple[str, ...]:
    if letter == "G" and not grade:
        said = f"ISO 228-1 writes an internal thread G{name}, an external one G{name}A or G{name}B"
        return (said,)
    return ()


def _bsp(text: str, size: str | None, rest: str) -> NoReturn:
    named = size or "1/2"
    raise refused(
        f'"{text}" does not say which pipe thread: parallel, or taper and made to seal',
        f'write "G{named}" or "G{named}A" for parallel, "R{named}", "Rp{named}" or "Rc{named}" for'
        " a joint that seals on the thread",
    )


# ---- NPT -------------------------------------------------------------------------------------


@cache
def _npt_rows() -> dict[str, tuple[float, float, float]]:
    """Outside diameter of the pipe, threads per inch and L1, in inches, by size."""
    rows = table("threads_npt").rows
    return {r["size"]: (float(r["outside_in"]), float(r["tpi"]), float(r["L1_in"])) for r in rows}


def _npt(text: str, size: str, count: str | None, kind: str, rest: str) -> Thread:
    if kind != "NPT":
        raise refused(f"{kind} is not held, of the American pipe threads NPT is (ASME B1.20.1)")
    name = nearest_size(text, size, list(_npt_rows()), "ASME B1.20.1", "NPT")
    outside, tpi, hand_tight = _npt_rows()[name]
    if count is not None and number(text, count) != tpi:
        raise refused(
            f"{name}-{count} NPT is not in ASME B1.20.1; {name} NPT has {tpi:g} threads per inch",
            f'did you mean "{name}-{tpi:g} NPT"',
        )
    return _npt_thread(name, outside, tpi, hand_tight, endings(text, rest, NPT_RULES))


def _npt_thread(name: str, outside: float, tpi: float, hand_tight: float, end: Endings) -> Thread:
    """E0 = D - (0.05 D + 1.1) P, E1 = E0 + L1/16, L2 = (0.8 D + 6.8) P; D is the pipe's outside."""
    pitch = 1 / tpi
    at_end = outside - (0.05 * outside + 1.1) * pitch
    at_gauge = at_end + hand_tight * TAPER
    return Thread(
        designation=f"{name}-{tpi:g} NPT{end.text}",
        series="NPT",
        size=name,
        major=(at_gauge + 0.8 * pitch) * INCH,
        pitch=pitch * INCH,
        hand=end.hand,
        side=end.side,
        tolerance_class="",
        choice="",
        notes=end.notes,
        family="NPT",
        taper=TAPER,
        gauge_length=hand_tight * INCH,
        useful_length=(0.8 * outside + 6.8) * pitch * INCH,
    )


READERS = ((_PIPE, _pipe), (_BSP, _bsp), (_NPT, _npt))
