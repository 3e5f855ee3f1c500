"""Workshop materials: what each is called, bears and weighs, how it cuts, and what it can do.

Each is a row of a table, in a stated condition. What the table does not know is left out, never
guessed; a row says which of its figures were recalled or taken from a near relative.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from typing import Annotated, Self

from shoplog.tables import table
from shoplog.trade.declare import In, Number, Percent, TradeError, offered
from shoplog.values import Hardness

__all__ = ["Material", "material", "material_known"]

Gigapascal = Annotated[float, In("GPa")]
Megapascal = Annotated[float, In("MPa")]
MicrometrePerMetreKelvin = Annotated[float, In("um/m/K")]
KilogramPerCubicMetre = Annotated[float, In("kg/m^3")]
NewtonPerSquareMillimetre = Annotated[float, In("N/mm^2")]

# Between makers' tables of the same group; the table of the groups says more.
CUTTING_FORCE_SPREAD = 25.0  # %
UNKNOWN = "unknown steel"
LONGEST_NAME = 40
LONGEST_TEXT = 60
# What stands before a number in speech and does not tell two rows apart.
_BEFORE = re.compile(
    r"^(aisi/sae|aisi|sae|uns|enaw|aw|astm|w\.?nr\.?|din|iso|bs|type|grade|alloy|aluminium|aluminum"
    r"|toolsteel|stainlesssteel|stainless|steel)"
)
ALWAYS = "a bar's own certificate comes before these figures"
UNKNOWN_COSTS = (
    "no strength is known: nothing that must bear or press can be worked out from it",
    "its cutting force is taken as that of tempered high-alloy steel, the toughest that is cut"
    " soft: up to 85 % more than mild steel asks, so cuts come out lighter than they need be",
    "no hardening is promised: try a file, then an offcut in water or oil",
    "the cost ends when its hardness is measured (tensile_from_hardness) or its grade is found",
)


@dataclass(frozen=True, slots=True)
class Material:
    """A material in a stated condition; what is not known is left out."""

    name: str
    designation: str | None
    """The symbol of EN or ISO."""
    number: str | None
    """The number of EN: `1.0503`."""
    other_names: tuple[str, ...]
    family: str
    iso_group: str
    """The application group of ISO 513: P, M, K, N, S or H."""
    condition: str
    """The state that the figures hold for."""
    hardness_least: Hardness | None
    """As supplied in that state, in Brinell."""
    hardness_greatest: Hardness | None
    hardened_least: Hardness | None
    """What hardening reaches, in Rockwell C; of a case-hardening steel, its skin."""
    hardened_greatest: Hardness | None
    density: KilogramPerCubicMetre | None
    youngs_modulus: Gigapascal | None
    poisson: Number | None
    """Poisson's ratio."""
    expansion: MicrometrePerMetreKelvin | None
    """On heating from 20 degC."""
    expansion_on_cooling: MicrometrePerMetreKelvin | None
    """On cooling from 20 degC."""
    yield_least: Megapascal | None
    yield_greatest: Megapascal | None
    tensile_least: Megapascal | None
    tensile_greatest: Megapascal | None
    strength_basis: str | None
    """`least` where a standard guarantees it, or `typical`."""
    brittle: bool
    """Whether it breaks before it yields."""
    cutting_group: str | None
    """The group that its cutting force is that of."""
    specific_cutting_force: NewtonPerSquareMillimetre | None
    """kc1.1: on a chip 1 mm thick and 1 mm wide; kc = kc1.1 h^-mc."""
    chip_exponent: Number | None
    """mc: how fast the specific cutting force grows as the chip gets thinner."""
    cutting_force_spread: Percent
    """How far makers' tables of it differ."""
    heat_treatment: str | None
    """In outline."""
    recalled: tuple[str, ...]
    """The figures that were recalled and not read in a source."""
    carried_over: tuple[str, ...]
    """The figures that are a near relative's."""
    notes: tuple[str, ...]
    cautions: tuple[str, ...]

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The material of any of its names: `1.0503`, `low-carbon steel`, `AISI 1018`."""
        row = _row(text)
        if row is None:
            raise TradeError(
                f"{' '.join(text.split())[:LONGEST_NAME]!r} is not a material that is known here",
                hint=_nearest(text),
                argument="name",
            )
        return cls._from_row(row)

    @classmethod
    def _from_row(cls, row: dict[str, str]) -> Self:
        group = _groups().get(row["cutting_group"], {})
        return cls(
            name=row["name"],
            designation=row["designation"] or None,
            number=row["number"] or None,
            other_names=tuple(filter(None, row["also"].split(";"))),
            family=row["family"],
            iso_group=row["iso513"],
            condition=row["condition"],
            hardness_least=_hardness(row["hb_least"], "HB"),
            hardness_greatest=_hardness(row["hb_greatest"] or row["hb_least"], "HB"),
            hardened_least=_hardness(row["hrc_least"], "HRC"),
            hardened_greatest=_hardness(row["hrc_greatest"], "HRC"),
            density=_number(row["density_kg_m3"]),
            youngs_modulus=_number(row["youngs_modulus_gpa"]),
            poisson=_number(row["poisson"]),
            expansion=_number(row["expansion_um_m_k"]),
            expansion_on_cooling=_number(row["expansion_cooling_um_m_k"]),
            yield_least=_number(row["yield_least_mpa"]),
            yield_greatest=_number(row["yield_greatest_mpa"]),
            tensile_least=_number(row["tensile_least_mpa"]),
            tensile_greatest=_number(row["tensile_greatest_mpa"]),
            strength_basis=row["basis"] or None,
            brittle=row["brittle"] == "yes",
            cutting_group=_group_words(group),
            specific_cutting_force=_number(group.get("kc11_n_mm2", "")),
            chip_exponent=_number(group.get("mc", "")),
            cutting_force_spread=CUTTING_FORCE_SPREAD,
            heat_treatment=row["heat_treatment"] or None,
            recalled=tuple(row["from_memory"].split()),
            carried_over=tuple(row["carried_over"].split()),
            notes=_notes(row),
            cautions=_cautions(row["cautions"]),
        )

    def describe(self) -> str:
        """The material in one sentence.

        >>> material("16MnCr5").describe()
        '16MnCr5 (1.7131), ISO group P, soft annealed (+A): at most 207 HB, 7850 kg/m³, kc1.1...'
        """
        said = [
            _band(self.hardness_least, self.hardness_greatest, "HB"),
            _after("yields at", self._strength(self.yield_least, self.yield_greatest)),
            _after("tensile strength", self._strength(self.tensile_least, self.tensile_greatest)),
            f"{self.density:g} kg/m³" if self.density is not None else "",
            f"kc1.1 {self.specific_cutting_force:g} N/mm²" if self.specific_cutting_force else "",
        ]
        names = dict.fromkeys(filter(None, (self.designation, self.number)))
        known = ", ".join(name for name in names if name != self.name)
        title = f"{self.name} ({known})" if known else self.name
        figures = ", ".join(filter(None, said))
        return f"{title}, ISO group {self.iso_group}, {self.condition}: {figures}."

    def _strength(self, least: float | None, greatest: float | None) -> str:
        text = _band(least, greatest, "MPa")
        open_above = text and greatest is None and self.strength_basis == "least"
        return f"{text} or more" if open_above else text


@offered(
    source="EN and ISO standards as makers reprint them; Callister, 3rd ed. 2007, Appendix B;"
    " cutting forces of the groups of VDI 3323 (the heads of the tables name the rest)",
)
def material(name: str) -> Material:
    """A workshop material, by any of its names.

    Parameters
    ----------
    name : str [-]
        An EN number (`1.0503`), a symbol (`C45`, `42CrMo4+A`), an AISI or UNS number (`AISI 1018`,
        `C36000`), an old one (`EN8`) or an everyday name (`low-carbon steel`, `brass`). Capitals,
        spaces and hyphens do not count. `unknown steel` where nobody knows.

    Returns
    -------
    Material [-]
        Its figures, in the condition that it names.

    Raises
    ------
    TradeError
        No row has this name.

    Notes
    -----
    For a first sum. A figure that is not known is left out; `recalled` and `carried_over` name
    those that were not read of this very material.

    Examples
    --------
    >>> material("1.0503").name, material("AISI 1045").tensile_least
    ('C45', 520.0)

    References
    ----------
    EN 10025-2, EN 10083, EN 10088-3, EN 10277, EN 754-2, EN 755-2, EN 1561, EN 1563, EN 1982 and
    ISO 4957 as reprinted by makers; Callister, Fundamentals of Materials Science and Engineering,
    3rd ed. 2007, Appendix B; ISCAR turning catalogue 2017, page 558, after VDI 3323.
    """
    return Material.from_text(name)


def material_known(name: str) -> Material | None:
    """The material of a name, or nothing where no row has it."""
    row = _row(name)
    return None if row is None else Material._from_row(row)


def _row(text: str) -> dict[str, str] | None:
    if len(text) > LONGEST_TEXT:
        return None
    key = _key(text)
    return _names().get(key) or _names().get(_BEFORE.sub("", key))


def _key(text: str) -> str:
    return re.sub(r"[\s_‐–-]", "", text).casefold()


@cache
def _names() -> dict[str, dict[str, str]]:
    return {
        _key(name): row
        for row in table("materials").rows
        for name in (row["name"], row["designation"], row["number"], *row["also"].split(";"))
        if name
    }


@cache
def _spelt() -> dict[str, str]:
    """The names as they are written, by their keys."""
    columns = ("name", "designation", "number")
    rows = table("materials").rows
    names = (n for row in rows for n in (*row["also"].split(";"), *map(row.get, columns)) if n)
    return {_key(name): name for name in names}


def _nearest(text: str) -> str:
    """A near hint: names spelt alike, else what may be asked for."""
    close = get_close_matches(_key(text[:LONGEST_TEXT]), _spelt(), n=3, cutoff=0.7)
    if close:
        return f"did you mean {' or '.join(_spelt()[key] for key in close)}?"
    return (
        "a number (1.0503, C36000), a symbol (C45), AISI 1018, an everyday name (brass), or"
        f' "{UNKNOWN}" where nobody knows'
    )


@cache
def _groups() -> dict[str, dict[str, str]]:
    return {row["group"]: row for row in table("materials_cutting_groups").rows}


def _group_words(group: dict[str, str]) -> str | None:
    if not group:
        return None
    state = f", {group['state']}" if group["state"] else ""
    return f"{group['group']}: {group['material']}{state}"


@cache
def _cautions(keys: str) -> tuple[str, ...]:
    known = {row["key"]: row["caution"] for row in table("materials_cautions").rows}
    return tuple(known[key] for key in keys.split())


def _notes(row: dict[str, str]) -> tuple[str, ...]:
    if row["name"] == UNKNOWN:
        return UNKNOWN_COSTS
    told = (
        ("from_memory", "recalled, not read"),
        ("carried_over", "a near relative's, not its own"),
    )
    words = (f"{what}: {', '.join(row[column].split())}" for column, what in told if row[column])
    return (ALWAYS, *words)


def _number(cell: str) -> float | None:
    return float(cell) if cell else None


def _hardness(cell: str, scale: str) -> Hardness | None:
    return Hardness(float(cell), scale) if cell else None


def _after(word: str, text: str) -> str:
    return f"{word} {text}" if text else ""


def _band(least: float | Hardness | None, greatest: float | Hardness | None, unit: str) -> str:
    low, high = (x.number if isinstance(x, Hardness) else x for x in (least, greatest))
    if low is None and high is None:
        return ""
    if low is None:
        return f"at most {high:g} {unit}"
    return f"{low:g} {unit}" if high in (None, low) else f"{low:g} to {high:g} {unit}"
