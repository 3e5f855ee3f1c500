"""The line of a cutter, put together from the columns that say something of it."""

from __future__ import annotations

from shoplog.find.taking.figures import SAME
from shoplog.log.profile.shop import ShopProfile
from shoplog.log.setups.cutters import Cutter, read_cutter
from shoplog.log.setups.quantities import Evaluate, literal
from shoplog.problems import Mistake
from shoplog.units import unit
from shoplog.values import Value

__all__ = ["CutterWords"]

_SIZES = {
    "cutter diameter": "diameter",
    "teeth": "teeth",
    "nose radius": "nose_radius",
    "width": "width",
}
MOST_NAME = 200


class CutterWords:
    """A cutter as a row says it: `text` is its line, `left` what found no place in it."""

    def __init__(self, shop: ShopProfile | None, evaluate: Evaluate) -> None:
        self._shop, self._evaluate = shop, evaluate
        self.text = ""
        self.left: list[str] = []
        self._known: Cutter | None = None

    def settle(self, text: str, words: dict[str, str]) -> None:
        """Put the line together.

        Parameters
        ----------
        text : str [-]
            What the column of the cutter says.
        words : dict of str to str [-]
            Its `kind`, `material`, `nose radius` and `width` of other columns, where they say any.
        """
        named = self._shop.cutter(text) if self._shop and text and len(text) < MOST_NAME else None
        self.text = text
        if not named:
            self.text = self._described(text, words)
        if self.text:
            self._known = named or read_cutter(self.text, self._evaluate).cutter()
        self.left = [
            f"cutter {key}: {word}" for key, word in words.items() if not self._holds(key, word)
        ]

    def _described(self, text: str, words: dict[str, str]) -> str:
        kind, material = words.get("kind", ""), words.get("material", "")
        text = text or kind
        if not text:
            return ""
        read = read_cutter(text, self._evaluate).cutter()
        if kind and read.kind.casefold() != kind.casefold():
            text = ", ".join(filter(None, (kind, material, text)))
        elif material and material.casefold() not in text.casefold():
            head, comma, rest = text.partition(", ")
            text = f"{head}, {material}{comma}{rest}"
        for key, known in (("nose radius", read.nose_radius), ("width", read.width)):
            if words.get(key) and not known:
                text = f"{text}, {key} {words[key]}"
        return text

    def _holds(self, key: str, word: str) -> bool:
        """Whether what another column says of the cutter stands in its line or its profile."""
        if self._known is None:
            return False
        if key in _SIZES:
            return self.says(key, word)
        return word.casefold() in self._known.describe().casefold()

    def _size(self, name: str) -> Value | None:
        found = getattr(self._known, name, None)
        return found if isinstance(found, Value) else None

    @property
    def diameter(self) -> float | None:
        """Its diameter in mm, where its line or the shop profile says it."""
        found = self._size("diameter")
        return found.to(unit("mm")).nominal if found else None

    @property
    def teeth(self) -> float | None:
        """How many teeth its line or the shop profile says it has."""
        found = self._size("teeth")
        return found.nominal if found else None

    def says(self, key: str, text: str) -> bool:
        """Whether its line or the shop profile says what another column does."""
        found = self._size(_SIZES[key])
        if not text or found is None:
            return False
        try:
            other = literal(text).to(found.unit, loose=True).nominal
        except (Mistake, ValueError):
            return False
        return abs(other - found.nominal) <= SAME * abs(found.nominal)
