"""A cutter as a line describes it: `kind, material, key value…`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from shoplog.calc.show import nominal_text
from shoplog.log.profile.keys import THINGS
from shoplog.log.profile.things import ShopRecord
from shoplog.log.setups.quantities import Evaluate, quantity, shifted, whole
from shoplog.problems import Mistake, Span
from shoplog.units import write_quantity
from shoplog.values import Value

__all__ = ["CUTTER_SIZES", "Cutter", "CutterRead", "read_cutter"]

CUTTER_SIZES = ("diameter", "nose radius", "width")
MOST_PARTS = 50

_COMMA = re.compile(r",(?=\s|$)")
_SIZE = re.compile(rf"({'|'.join(CUTTER_SIZES)}|teeth)\s+(?=[\d.])")
_TEETH = re.compile(r"(\d{1,4}) (?:teeth|tooth|flutes?)")
_WIDE = re.compile(r"([\d.].*\S)\s+wide")


@dataclass(frozen=True, slots=True)
class Cutter(ShopRecord):
    """A cutter: what it is, what it is made of, and the sizes that are known."""

    _declared = THINGS["cutters"]

    kind: str
    material: str = ""
    diameter: Value | None = None
    teeth: Value | None = None
    nose_radius: Value | None = None
    name: str = ""
    """What the shop profile calls it; nothing for a cutter that a setup describes."""
    other: tuple[str, ...] = ()
    """What else is said of it, as text."""
    corner_radius: Value | None = None
    width: Value | None = None
    cutting_length: Value | None = None
    shank: Value | None = None
    point_angle: Value | None = None
    marked_speed: Value | None = None
    """The greatest speed that is marked on it, as on a wheel or a large saw."""

    def describe(self) -> str:
        """The cutter in one line."""
        sizes = [
            f"{key} {nominal_text(value) or write_quantity(value.nominal, value.unit)}"
            for key, value in (
                ("diameter", self.diameter),
                ("teeth", self.teeth),
                ("nose radius", self.nose_radius),
                ("width", self.width),
            )
            if value is not None
        ]
        told = ", ".join(part for part in (self.kind, self.material, *sizes, *self.other) if part)
        return f"{self.name}: {told}" if self.name else told


@dataclass(slots=True)
class CutterRead:
    """What a line says of a cutter, word by word; a mistake comes with its span in the line."""

    texts: list[str] = field(default_factory=list)
    sizes: dict[str, Value] = field(default_factory=dict)
    mistakes: list[tuple[Mistake, Span]] = field(default_factory=list)

    @property
    def unread(self) -> tuple[str, ...]:
        """What could not be read, and is kept as text."""
        return tuple(self.texts[2:])

    def cutter(self, name: str = "") -> Cutter:
        """The cutter: its kind first, its material second."""
        kind, material, *other = [*self.texts, "", ""][: max(2, len(self.texts))]
        return Cutter(
            kind,
            material,
            self.sizes.get("diameter"),
            self.sizes.get("teeth"),
            self.sizes.get("nose radius"),
            name,
            tuple(other),
            width=self.sizes.get("width"),
        )


def read_cutter(text: str, evaluate: Evaluate) -> CutterRead:
    """Read `kind, material, key value…`; the keys are diameter, teeth, nose radius and width.

    `4 teeth` and `2 mm wide` stand for their keys.

    Raises
    ------
    Waits
        A size reads a name that could not be worked out.
    """
    made = CutterRead()
    for start, part in _parts(text):
        size = _SIZE.match(part) if made.texts else None
        teeth = _TEETH.fullmatch(part) if made.texts else None
        wide = _WIDE.fullmatch(part) if made.texts else None
        if teeth:
            _keep(made, "teeth", teeth[1], start, evaluate)
        elif wide:
            _keep(made, "width", wide[1], start, evaluate)
        elif size:
            _keep(made, size[1], part[size.end() :], start + size.end(), evaluate)
        else:
            made.texts.append(part)
    return made


def _keep(made: CutterRead, key: str, text: str, start: int, evaluate: Evaluate) -> None:
    try:
        if key == "teeth":
            made.sizes[key] = whole(key, text, evaluate, 1)
        else:
            made.sizes[key] = quantity(key, text, evaluate, "a length", ("mm",), zero=False)
    except Mistake as mistake:
        made.mistakes.append((mistake, shifted(mistake, start, len(text))))


def _parts(text: str) -> Iterator[tuple[int, str]]:
    """The parts between commas, each with where it begins; a comma in a number parts nothing."""
    begins = 0
    commas = [found.start() for found in _COMMA.finditer(text)][: MOST_PARTS - 1]
    for end in (*commas, len(text)):
        part = text[begins:end]
        if part.strip():
            yield begins + len(part) - len(part.lstrip()), part.strip()
        begins = end + 1
