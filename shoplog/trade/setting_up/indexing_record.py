"""How a dividing head's crank is turned: whole turns, spaces on a circle, and the sector's arms."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shoplog.problems import counted
from shoplog.trade.declare import Degree
from shoplog.trade.setting_up.cautions import setting_up_cautions

__all__ = ["HoleCircle", "Indexing"]


@dataclass(frozen=True, slots=True)
class HoleCircle:
    """A circle of holes on a plate, and how many of its spaces a turn is carried on by."""

    holes: int
    """How many holes the circle has."""
    spaces: int
    """From the hole that the pin is in to the one it goes to, besides the whole turns."""
    plate: str = ""

    @property
    def between_arms(self) -> int:
        """Holes that the sector's arms show, the pin's own among them: one more than spaces."""
        return self.spaces + 1

    def describe(self) -> str:
        """In one line."""
        where = f" ({self.plate})" if self.plate else ""
        return f"{self.spaces} spaces on the circle of {self.holes}{where}"


@dataclass(frozen=True, slots=True)
class Indexing:
    """How the crank is turned from one division to the next."""

    asked: Degree
    """The angle from one division to the next."""
    divisions: int
    """Of the whole turn; 0 where an angle was asked for."""
    ratio: int
    turns: int
    """Whole turns of the crank."""
    circle: HoleCircle | None
    """The circle for the rest of a turn; nothing where whole turns are all."""
    others: tuple[HoleCircle, ...]
    """Circles that do as well, the largest first."""
    on_plate: tuple[int, ...]
    """Every circle of the plate that the chosen one is on, or all that were given."""

    @property
    def holes(self) -> int:
        """How many holes the chosen circle has; 0 where none is needed."""
        return self.circle.holes if self.circle else 0

    @property
    def spaces(self) -> int:
        """Spaces on it besides the whole turns."""
        return self.circle.spaces if self.circle else 0

    @property
    def between_arms(self) -> int:
        """Holes between the sector's arms, the pin's own counted."""
        return self.circle.between_arms if self.circle else 0

    @property
    def made(self) -> Degree:
        """The angle that the work is turned by."""
        part = Fraction(self.spaces, self.holes) if self.circle else Fraction(0)
        return float(360 * (self.turns + part) / self.ratio)

    @property
    def error(self) -> Degree:
        """What is made less what was asked; 0 for a division."""
        return 0.0 if self.divisions else self.made - self.asked

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of a head between two cuts."""
        return setting_up_cautions("dividing")

    @property
    def notes(self) -> tuple[str, ...]:
        """How the arms are used, and which other circles do."""
        found = ["always turn one way: past a hole means back by half a turn and up to it again"]
        if self.circle:
            found.append(
                f"set the arms to {self.between_arms} holes, the pin's own counted, and move them"
                " on after every cut"
            )
        if self.others:
            found.append(f"the same: {'; '.join(each.describe() for each in self.others)}")
        return tuple(found)

    def describe(self) -> str:
        """The indexing in one sentence."""
        turns = counted(self.turns, "turn")
        parts = [turns] if self.turns or not self.circle else []
        parts += [self.circle.describe()] if self.circle else []
        what = f"{self.divisions} divisions" if self.divisions else f"{self.asked:.6g}°"
        off = f", {3600 * self.error:+.1f} seconds of arc off" if abs(self.error) > 1e-9 else ""
        return f"{what} at {self.ratio}:1: {' and '.join(parts)}{off}."
