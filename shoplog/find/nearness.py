"""How near a past setup is to another: a score, and the same in words.

===================================  ======
the same operation                        3
one of its kind (another milling)         1.5
the same stage (rough, finish)            1
the same material                         3
one of its group                          2
one of its ISO 513 letter                 1
the same kind of cutter                   1
the same material of its edge             1
the same diameter at the edge             2
===================================  ======

Of the diameter, what is left of 2 falls with the logarithm of the ratio, to nothing at 4 times.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import log

__all__ = ["NEAR_COLUMNS", "Likeness", "likeness"]

NEAR_COLUMNS = (
    *("operation_kind", "stage", "material_row", "material_group", "material_iso"),
    *("cutter_kind", "edge", "coalesce(cutter_diameter_mm, diameter_mm)"),
)
"""The columns of the index that are compared, in the order of `Likeness.compared`."""

MOST_APART = 4.0  # times: beyond this a diameter counts for nothing


@dataclass(frozen=True, slots=True)
class Likeness:
    """The setup that others are compared with."""

    operation: str
    stage: str
    row: str
    group: str
    iso: str
    cutter: str
    edge: str
    size: float | None

    @property
    def kin(self) -> str:
        """The last word of its operation, which those of its kind share."""
        return self.operation.rpartition(" ")[2]

    def score(self, *compared: object) -> float:
        """How near another is, by its columns."""
        return sum(points for points, _ in self._points(*compared))

    def why(self, *compared: object) -> tuple[str, ...]:
        """What another has in common with it, in words, the weightiest first."""
        return tuple(words for _, words in sorted(self._points(*compared), key=lambda one: -one[0]))

    def _points(
        self,
        operation: object,
        stage: object,
        row: object,
        group: object,
        iso: object,
        cutter: object,
        edge: object,
        size: object,
    ) -> Iterator[tuple[float, str]]:
        if operation and operation == self.operation:
            yield 3.0, f"also {operation}"
        elif self.kin and str(operation).rpartition(" ")[2] == self.kin:
            yield 1.5, f"{operation}, also {self.kin}"
        if stage and stage == self.stage:
            yield 1.0, f"also to {stage}"
        if row and row == self.row:
            yield 3.0, f"the same material ({row})"
        elif group and group == self.group:
            yield 2.0, f"the same group of materials ({group})"
        elif iso and iso == self.iso:
            yield 1.0, f"the same ISO 513 group ({iso})"
        if cutter and cutter == self.cutter:
            yield 1.0, f"the same kind of cutter ({cutter})"
        if edge and str(edge).casefold() == self.edge.casefold():
            yield 1.0, f"the same edge ({edge})"
        if self.size and isinstance(size, float | int) and size > 0:
            apart = abs(log(size / self.size)) / log(MOST_APART)
            if apart < 1:
                yield 2 * (1 - apart), f"{size:.4g} mm against {self.size:.4g} mm"


def likeness(columns: Sequence[object]) -> Likeness:
    """What a setup is compared by, from its columns in the order of `NEAR_COLUMNS`."""
    operation, stage, row, group, iso, cutter, edge = (str(text or "") for text in columns[:-1])
    size = columns[-1]
    known = float(size) if isinstance(size, float | int) and size > 0 else None
    return Likeness(operation, stage, row, group, iso, cutter, edge, known)
