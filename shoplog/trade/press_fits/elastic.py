"""What a material does under stress and heat: out of the table of materials, or as a page gives it.

The figures that pressed and shrunk joints need. A part's own certificate comes before a table's
figures, so each of them can be given.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Self

from shoplog.trade.declare import In, Number, OutOfRange, TradeError, offered
from shoplog.trade.materials import Material, material_known

__all__ = ["ElasticMaterial", "elastic_material", "material_or_steel"]

Gigapascal = Annotated[float, In("GPa")]
Megapascal = Annotated[float, In("MPa")]
MicrometrePerMetreKelvin = Annotated[float, In("um/m/K")]
KilogramPerCubicMetre = Annotated[float, In("kg/m^3")]

# DIN 7190's own pairs lie at 0.77 to 0.89 of the figure for heating: this asks for more cold.
COOLING_SHARE = 0.75
LONGEST_NAME = 40
SUCH_AS = ("steel", "C45", "42CrMo4", "stainless 304", "cast iron")
_RANGES = {
    "youngs_modulus": ("GPa", 0.01, 1000.0),
    "poisson": ("", 0.0, 0.5),
    "yield_strength": ("MPa", 0.1, 5000.0),
    "expansion": ("um/m/K", 0.1, 500.0),
    "density": ("kg/m^3", 100.0, 25000.0),
}


@dataclass(frozen=True, slots=True)
class ElasticMaterial:
    """A material's elastic, thermal and strength figures; what is not known is left out."""

    name: str
    youngs_modulus: Gigapascal
    poisson: Number
    """Poisson's ratio."""
    yield_strength: Megapascal | None = None
    """Half of the tensile strength where the material is brittle (DIN 7190)."""
    expansion: MicrometrePerMetreKelvin | None = None
    """On heating from 20 degC."""
    density: KilogramPerCubicMetre | None = None
    brittle: bool = False
    condition: str = ""
    """The state that the figures hold for."""
    cooling: MicrometrePerMetreKelvin | None = None

    @classmethod
    def from_text(cls, text: str) -> Self:
        """The material of a name in the table: `steel`, `cast iron`, `1.0503`."""
        known = material_known(text)
        if known is None or known.youngs_modulus is None or known.poisson is None:
            raise TradeError(
                f"{text[:LONGEST_NAME]!r} is not a material that is known here",
                hint=f"there are {', '.join(SUCH_AS)} and all that material(…) finds; for another"
                " give its figures:"
                ' elastic_material("my alloy", youngs_modulus=70 GPa, poisson=0.33)',
                argument="name",
            )
        return cls._of(known, known.youngs_modulus, known.poisson)

    @classmethod
    def _of(cls, known: Material, youngs_modulus: float, poisson: float) -> Self:
        return cls(
            known.name,
            youngs_modulus,
            poisson,
            _strength(known),
            known.expansion,
            known.density,
            known.brittle,
            known.condition,
            known.expansion_on_cooling,
        )

    @property
    def expansion_on_cooling(self) -> MicrometrePerMetreKelvin | None:
        """On cooling from 20 degC; three quarters of the other where no figure is known."""
        if self.cooling is None and self.expansion is not None:
            return COOLING_SHARE * self.expansion
        return self.cooling

    def needed(self, figure: str) -> float:
        """A figure that a formula cannot do without.

        Raises
        ------
        TradeError
            It is not known.
        """
        found = getattr(self, figure)
        if found is None:
            words = figure.replace("_", " ")
            figure = figure.removesuffix("_on_cooling")
            raise TradeError(
                f"{self.name} has no {words} here, and it is needed",
                hint=f'give it: elastic_material("{self.name}", {figure}=…)',
            )
        return float(found)

    def describe(self) -> str:
        """The material in one sentence."""
        known = [f"E = {self.youngs_modulus:g} GPa", f"Poisson's ratio {self.poisson:g}"]
        if self.yield_strength is not None:
            word = "half its tensile strength is" if self.brittle else "yields at"
            known.append(f"{word} {self.yield_strength:g} MPa")
        if self.expansion is not None:
            known.append(f"grows {self.expansion:g} µm/m/K")
        if self.density is not None:
            known.append(f"{self.density:g} kg/m³")
        state = f" ({self.condition})" if self.condition else ""
        return f"{self.name}{state}: {', '.join(known)}."


def _strength(known: Material) -> float | None:
    """What a sum may load it to: it yields there, or it is half of what breaks it (DIN 7190)."""
    if not known.brittle:
        return known.yield_least
    return None if known.tensile_least is None else float(known.tensile_least // 2)


def material_or_steel(material: ElasticMaterial | None) -> ElasticMaterial:
    """A material, or plain steel where none is said."""
    return ElasticMaterial.from_text("steel") if material is None else material


@offered(
    source="Callister, 3rd ed. 2007, Appendix B; Hibbeler; Philpot; standards as reprinted (see the"
    " head of the table of materials)"
)
def elastic_material(
    name: str,
    youngs_modulus: Gigapascal | None = None,
    poisson: Number | None = None,
    yield_strength: Megapascal | None = None,
    expansion: MicrometrePerMetreKelvin | None = None,
    density: KilogramPerCubicMetre | None = None,
) -> ElasticMaterial:
    """Elastic and thermal figures of a material, from the table or as given.

    A figure that is given takes the place of the table's. A name that is not in the table needs
    Young's modulus and Poisson's ratio at the least.

    Parameters
    ----------
    name : str [-]
        As `material` takes it: `steel`, `C45` or `1.0503`, `cast iron`, …; or one of your own.
    youngs_modulus : float [GPa]
        0.01 to 1000.
    poisson : float [-]
        0 to 0.5.
    yield_strength : float [MPa]
        0.1 to 5000.
    expansion : float [um/m/K]
        0.1 to 500, on heating from 20 degC.
    density : float [kg/m^3]
        100 to 25000.

    Returns
    -------
    ElasticMaterial [-]
        The figures, and the state that they hold for.

    Notes
    -----
    Typical or least values, for a first sum; the certificate of the bar comes before them. Of a
    brittle material half of the tensile strength stands for the yield strength.

    Examples
    --------
    >>> elastic_material("1.0503", yield_strength=430).yield_strength
    430

    References
    ----------
    Callister, Fundamentals of Materials Science and Engineering, 3rd ed. 2007, Appendix B; the head
    of the table names the others and what is from memory.
    """
    given = {
        "youngs_modulus": youngs_modulus,
        "poisson": poisson,
        "yield_strength": yield_strength,
        "expansion": expansion,
        "density": density,
    }
    known = {figure: value for figure, value in given.items() if value is not None}
    for figure, value in known.items():
        unit, least, most = _RANGES[figure]
        if not least <= value <= most:
            raise OutOfRange(figure, value, unit, least=least, most=most)
    if youngs_modulus is None or poisson is None or material_known(name) is not None:
        base = ElasticMaterial.from_text(name)
        cooling = {"cooling": None} if expansion is not None else {}
        return replace(base, **known, **cooling)  # type: ignore[arg-type]
    return ElasticMaterial(
        name[:LONGEST_NAME], youngs_modulus, poisson, yield_strength, expansion, density
    )
