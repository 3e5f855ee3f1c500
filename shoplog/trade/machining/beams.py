"""Round bars under a side load: stepped, and held as lathes and mills hold them.

By virtual work, closed for each step: the bar is cut free to a cantilever, and the forces of what
props it are those that leave it unmoved there. The theory of slender beams, without shear.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

__all__ = ["Bar", "bend_at", "bends_under_load", "second_moment"]


def second_moment(diameter: float, bore: float = 0) -> float:
    """Second moment of area of a round section, in mm^4."""
    moment: float = pi / 64 * (diameter**4 - bore**4)
    return moment


@dataclass(frozen=True, slots=True)
class Bar:
    """A stepped bar: lengths in mm and second moments in mm^4 from its left end; modulus in MPa.

    Its left end is held fast, or pinned as on a centre; props are where something stiff carries it.
    A pinned bar has one prop at the least.
    """

    lengths: tuple[float, ...]
    second_moments: tuple[float, ...]
    modulus: float
    pinned: bool = False
    props: tuple[float, ...] = ()

    @property
    def length(self) -> float:
        """Its whole length."""
        return sum(self.lengths)


def bend_at(bar: Bar, force: float, load_at: float, read_at: float) -> float:
    """How far the bar moves at one place, in mm, for a side force in N at another."""
    *reactions, slope = _carried(bar, load_at)
    moved = _flexibility(bar, read_at, load_at) + slope * read_at
    for prop, reaction in zip(bar.props, reactions, strict=True):
        moved += reaction * _flexibility(bar, read_at, prop)
    return force * moved


def bends_under_load(bar: Bar, force: float, places: Sequence[float]) -> list[float]:
    """How far the bar gives under a force that travels along it, at each place."""
    return [bend_at(bar, force, place, place) for place in places]


def _flexibility(bar: Bar, one: float, other: float) -> float:
    """Movement at one place of the cantilever for a force of 1 N at the other."""
    reach = min(one, other)
    start = total = 0.0
    for length, moment in zip(bar.lengths, bar.second_moments, strict=True):
        end = min(start + length, reach)
        if end <= start:
            break
        total += _work(one - start, other - start, end - start) / (bar.modulus * moment)
        start += length
    return total


def _work(one: float, other: float, along: float) -> float:
    """Integral of (one - s) (other - s) over s from 0 to a length."""
    return one * other * along - (one + other) * along**2 / 2 + along**3 / 3


def _carried(bar: Bar, load_at: float) -> list[float]:
    """Force of each prop, and the slope at a pinned end, for a load of 1 N."""
    props = bar.props
    matrix = [[_flexibility(bar, row, column) for column in props] for row in props]
    right = [-_flexibility(bar, prop, load_at) for prop in props]
    if not bar.pinned:
        return [*_solved(matrix, right), 0.0]
    # No moment at the pin: the props' forces and the load balance about it.
    matrix = [[*row, prop] for row, prop in zip(matrix, props, strict=True)]
    return _solved([*matrix, [*props, 0.0]], [*right, -load_at])


def _solved(matrix: list[list[float]], right: list[float]) -> list[float]:
    """Solve a few equations by elimination with pivots."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for number in range(len(rows)):
        best = max(range(number, len(rows)), key=lambda row: abs(rows[row][number]))
        rows[number], rows[best] = rows[best], rows[number]
        pivot = rows[number]
        for other in rows[:number] + rows[number + 1 :]:
            share = other[number] / pivot[number]
            other[:] = [value - share * of for value, of in zip(other, pivot, strict=True)]
    return [row[-1] / row[number] for number, row in enumerate(rows)]
