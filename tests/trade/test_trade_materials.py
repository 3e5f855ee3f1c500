"""Materials: their names, what a row says and leaves out, the unknown one, and elastic figures."""

from __future__ import annotations

import re

import pytest

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.materials import CUTTING_FORCE_SPREAD, Material, material, material_known
from shoplog.trade.press_fits.elastic import elastic_material
from shoplog.values import Hardness

ROWS = table("materials").rows
ROW_NAMES = [row["name"] for row in ROWS]
# What the columns from_memory and carried_over call the figures of the columns.
COLUMNS = {
    "hardness": ("hb_least", "hb_greatest"),
    "hardened": ("hrc_least", "hrc_greatest"),
    "density": ("density_kg_m3",),
    "modulus": ("youngs_modulus_gpa",),
    "poisson": ("poisson",),
    "expansion": ("expansion_um_m_k",),
    "cooling": ("expansion_cooling_um_m_k",),
    "yield": ("yield_least_mpa", "yield_greatest_mpa"),
    "tensile": ("tensile_least_mpa", "tensile_greatest_mpa"),
    "heat": ("heat_treatment",),
}
PLAUSIBLE = {
    "hb_least": (30, 400),
    "hb_greatest": (30, 400),
    "hrc_least": (30, 68),
    "hrc_greatest": (30, 68),
    "density_kg_m3": (900, 9000),
    "youngs_modulus_gpa": (0.4, 220),
    "poisson": (0.1, 0.5),
    "expansion_um_m_k": (8, 300),
    "expansion_cooling_um_m_k": (7, 20),
    "yield_least_mpa": (10, 1000),
    "yield_greatest_mpa": (10, 1000),
    "tensile_least_mpa": (20, 1200),
    "tensile_greatest_mpa": (20, 1400),
}

each_row = pytest.mark.parametrize("row", ROWS, ids=ROW_NAMES)


def bare(name: str) -> str:
    return re.sub(r"[\s_-]", "", name).casefold()


def names_of(row: dict[str, str]) -> set[str]:
    every = (row["name"], row["designation"], row["number"], *row["also"].split(";"))
    return {bare(name) for name in every if name}


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("1.0503", "C45"),
        ("W.-Nr. 1.0503", "C45"),
        ("low-carbon steel", "steel"),
        ("Low carbon steel", "steel"),
        ("AISI 1018", "C15"),
        ("SAE 1018", "C15"),
        ("UNS C36000", "brass"),
        ("EN8", "C40"),
        ("EN 8", "C40"),
        ("42 CrMo 4", "42CrMo4"),
        ("42CrMo4+A", "42CrMo4 annealed"),
        ("4140", "42CrMo4"),
        ("EN AW-6082", "aluminium 6082-T6"),
        ("aluminium 6082", "aluminium 6082-T6"),
        ("aluminum 7075", "aluminium 7075-T6"),
        ("stainless 316", "stainless 316L"),
        ("stainless steel 303", "stainless 303"),
        ("tool steel D2", "X153CrMoV12"),
        ("silver steel", "silver steel"),
        ("drill rod", "silver steel"),
        ("EN-GJL-250", "cast iron 250"),
        ("GG25", "cast iron 250"),
        ("Ti-6Al-4V", "titanium"),
        ("delivered  as POM", ""),
        ("unknown steel", "unknown steel"),
    ],
)
def test_a_material_is_found_by_its_number_its_symbol_or_an_everyday_name(
    text: str, name: str
) -> None:
    known = material_known(text)
    assert (known.name if known else "") == name


def test_no_name_finds_two_materials() -> None:
    seen: dict[str, str] = {}
    for row in ROWS:
        for name in names_of(row):
            assert seen.setdefault(name, row["name"]) == row["name"], name


@each_row
def test_every_name_of_a_row_finds_it(row: dict[str, str]) -> None:
    for name in filter(None, (row["designation"], row["number"], *row["also"].split(";"))):
        assert material(name).name == row["name"]


def test_the_table_holds_what_a_workshop_cuts() -> None:
    families = {row["family"] for row in ROWS}
    assert len(ROWS) >= 60
    assert families == set(
        "free-cutting steel;low-carbon steel;medium-carbon steel;high-carbon steel;alloy steel;"
        "tool steel;stainless steel;cast iron;aluminium;brass;bronze;copper;titanium;magnesium;"
        "nickel alloy;plastic;unknown".split(";")
    )


@each_row
def test_a_figure_is_read_carried_over_or_recalled_and_says_which(row: dict[str, str]) -> None:
    recalled, carried = set(row["from_memory"].split()), set(row["carried_over"].split())
    filled = {what for what, columns in COLUMNS.items() if any(row[c] for c in columns)}
    assert recalled.isdisjoint(carried)
    assert recalled | carried <= filled
    assert row["read"] or filled == recalled | carried


@each_row
def test_the_sources_of_a_row_are_in_the_head(row: dict[str, str]) -> None:
    for source in row["read"].split():
        assert f"{source} = " in table("materials").head["source"]


@each_row
def test_a_row_is_in_order_and_within_what_materials_are(row: dict[str, str]) -> None:
    for column, (least, most) in PLAUSIBLE.items():
        assert not row[column] or least <= float(row[column]) <= most, column
    for figure in ("hb_{}", "hrc_{}", "yield_{}_mpa", "tensile_{}_mpa"):
        low, high = (row[figure.format(end)] for end in ("least", "greatest"))
        assert not (low and high) or float(low) < float(high), figure
    if row["yield_least_mpa"] and row["tensile_least_mpa"] and row["family"] != "plastic":
        assert float(row["yield_least_mpa"]) <= float(row["tensile_least_mpa"])
    assert bool(row["basis"]) == any(row[c] for c in COLUMNS["yield"] + COLUMNS["tensile"])
    assert row["basis"] in ("", "least", "typical")
    assert row["iso513"] in "PMKNSH"
    assert row["condition"]


@each_row
def test_a_row_belongs_to_a_cutting_group_of_its_iso_group_or_to_none(row: dict[str, str]) -> None:
    groups = {group["group"]: group for group in table("materials_cutting_groups").rows}
    if row["cutting_group"]:
        assert groups[row["cutting_group"]]["iso513"] == row["iso513"]
    else:
        assert material(row["name"]).specific_cutting_force is None


def test_steel_of_a_stated_hardness_and_strength_agrees_with_the_conversion() -> None:
    from shoplog.trade.hardness import tensile_from_hardness

    for name in ("C45+QT", "42CrMo4", "34CrNiMo6", "X20Cr13+QT700", "1.4057"):
        made = material(name)
        assert made.hardness_least
        assert made.hardness_greatest
        soft, hard = map(tensile_from_hardness, (made.hardness_least, made.hardness_greatest))
        assert soft.least <= (made.tensile_least or 0) <= soft.greatest, name
        assert hard.least <= (made.tensile_greatest or 0) <= hard.greatest, name


def test_a_record_holds_the_row_and_leaves_out_what_is_not_known() -> None:
    made = material("16MnCr5")
    assert (made.number, made.iso_group, made.density) == ("1.7131", "P", 7850)
    assert (made.hardness_least, made.hardness_greatest) == (None, Hardness(207, "HB"))
    assert made.hardened_least == Hardness(58, "HRC")
    assert (made.yield_least, made.tensile_least, made.strength_basis) == (None, None, None)
    assert made.cutting_group == "6: low-alloy steel, under 5 % of alloy, annealed"
    assert (made.specific_cutting_force, made.chip_exponent) == (1775, 0.24)
    assert made.cutting_force_spread == CUTTING_FORCE_SPREAD
    assert made.recalled == ("hardness", "hardened", "poisson", "heat")
    assert material("acetal").specific_cutting_force is None
    assert material("hardened steel").chip_exponent is None


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        (
            "steel",
            "steel (S235JR, 1.0038), ISO group P, mild steel, hot rolled: 105 to 150 HB, yields at"
            " 210 MPa or more, tensile strength 360 to 510 MPa, 7850 kg/m³, kc1.1 1350 N/mm².",
        ),
        (
            "16MnCr5",
            "16MnCr5 (1.7131), ISO group P, soft annealed (+A): at most 207 HB, 7850 kg/m³,"
            " kc1.1 1775 N/mm².",
        ),
        (
            "aluminium",
            "aluminium 6061-T6 (EN AW-6061, 3.3211), ISO group N, heat treated and aged: 95 HB,"
            " yields at 276 MPa, tensile strength 310 MPa, 2710 kg/m³, kc1.1 800 N/mm².",
        ),
        (
            "cotton laminate",
            "cotton laminate (PF CC 201), ISO group N, cotton cloth in phenolic resin: tensile"
            " strength 80 MPa, 1350 kg/m³.",
        ),
    ],
)
def test_a_material_describes_itself_in_one_sentence(name: str, sentence: str) -> None:
    assert material(name).describe() == sentence


def test_a_material_says_what_was_recalled_or_carried_over() -> None:
    assert material("16MnCr5").notes == (
        "a bar's own certificate comes before these figures",
        "recalled, not read: hardness, hardened, poisson, heat",
        "a near relative's, not its own: density, modulus, expansion",
    )


def test_an_unknown_steel_says_what_not_knowing_costs() -> None:
    made = material("unknown steel")
    assert (made.yield_least, made.tensile_least, made.hardness_greatest) == (None, None, None)
    assert made.specific_cutting_force == 2500
    others = [material(row["name"]) for row in ROWS if row["iso513"] == "P"]
    assert made.specific_cutting_force == max(m.specific_cutting_force or 0 for m in others)
    mild = material("mild steel").specific_cutting_force or 0
    assert made.specific_cutting_force / mild == pytest.approx(1.85, abs=0.005)
    assert "up to 85 % more than mild steel asks" in made.notes[1]
    assert made.notes[0].startswith("no strength is known")
    assert "nothing that must bear" in made.cautions[0]


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("magnesium", "class D extinguisher"),
        ("cast magnesium", "no water-based coolant"),
        ("titanium", "chips and dust burn"),
        ("titanium grade 2", "chips and dust burn"),
        ("beryllium copper", "lasting lung disease"),
        ("12L14", "holds lead"),
        ("brass", "holds lead"),
        ("bronze", "holds lead"),
        ("aluminium 2011-T3", "holds lead"),
        ("cast iron", "fine and abrasive"),
        ("ductile iron 500", "fine and abrasive"),
        ("acetal", "formaldehyde"),
        ("PTFE", "poisonous fume"),
        ("PVC", "hydrogen chloride"),
        ("nylon", "melts and fumes"),
        ("FR4", "extract it"),
        ("hardened steel", "breaks without bending"),
    ],
)
def test_a_material_that_can_hurt_says_so(name: str, word: str) -> None:
    assert word in " ".join(material(name).cautions)


def test_every_caution_is_met_and_no_key_is_unknown() -> None:
    met = {key for row in ROWS for key in row["cautions"].split()}
    assert met == {row["key"] for row in table("materials_cautions").rows}


@pytest.mark.parametrize("family", ["magnesium", "titanium", "cast iron", "plastic"])
def test_a_whole_family_that_can_hurt_carries_a_caution(family: str) -> None:
    assert all(material(row["name"]).cautions for row in ROWS if row["family"] == family)


@pytest.mark.parametrize(
    ("name", "message", "hint"),
    [
        (
            "unobtainium",
            "'unobtainium' is not a material that is known here",
            "a number (1.0503, C36000), a symbol (C45), AISI 1018, an everyday name (brass), or"
            ' "unknown steel" where nobody knows',
        ),
        (
            "brasss",
            "'brasss' is not a material that is known here",
            "did you mean brass or red brass or 360 brass?",
        ),
        (
            "42CrMo5",
            "'42CrMo5' is not a material that is known here",
            "did you mean 42CrMo4 or 42CrMoS4 or 42CrMo4+A?",
        ),
        (
            "x" * 99,
            f"'{'x' * 40}' is not a material that is known here",
            "a number (1.0503, C36000), a symbol (C45), AISI 1018, an everyday name (brass), or"
            ' "unknown steel" where nobody knows',
        ),
        (
            "",
            "'' is not a material that is known here",
            "a number (1.0503, C36000), a symbol (C45), AISI 1018, an everyday name (brass), or"
            ' "unknown steel" where nobody knows',
        ),
    ],
)
def test_a_name_that_no_row_has_is_refused_with_a_near_hint(
    name: str, message: str, hint: str
) -> None:
    with pytest.raises(TradeError) as refused:
        material(name)
    assert (str(refused.value), refused.value.argument) == (message, "name")
    assert refused.value.hint == hint


def test_a_formula_may_take_a_material_from_its_name() -> None:
    assert Material.from_text("1.0503") == material("C45")


# The elastic figures of pressed joints come out of the same rows.


@pytest.mark.parametrize(
    ("name", "figures"),
    [
        ("steel", (207, 0.30, 210, 11.7, 8.5, 7850)),
        ("C45", (207, 0.30, 290, 11.3, 8.5, 7850)),
        ("42CrMo4", (207, 0.30, 650, 12.3, 8.5, 7850)),
        ("stainless 304", (193, 0.27, 207, 17.2, 12.9, 7860)),
        ("cast iron", (100, 0.25, 103, 10, 8, 7190)),
        ("ductile iron", (169, 0.29, 276, 11.2, 8.4, 7100)),
        ("brass", (97, 0.34, 125, 20.5, 16, 8500)),
        ("bronze", (100, 0.34, 125, 18, 14, 8930)),
        ("aluminium 6061-T6", (69, 0.33, 276, 23.6, 18, 2710)),
        ("aluminium 7075-T6", (71, 0.33, 505, 23.4, 18, 2800)),
        ("cast aluminium", (72.4, 0.33, 124, 21.5, 16.125, 2690)),
        ("copper", (115, 0.33, 69, 17.0, 12.75, 8890)),
        ("titanium", (120, 0.36, 924, 9.4, 7.05, 4430)),
    ],
)
def test_elastic_figures_are_those_that_the_pressed_joints_were_built_on(
    name: str, figures: tuple[float, ...]
) -> None:
    made = elastic_material(name)
    found = (
        made.youngs_modulus,
        made.poisson,
        made.yield_strength,
        made.expansion,
        made.expansion_on_cooling,
        made.density,
    )
    assert made.name == name
    assert found == pytest.approx(figures)


@pytest.mark.parametrize(
    "name",
    "mild steel;S235;1.0038;1020;1.0503;1040;1045;1.7225;4140;tempered steel;stainless;304;1.4301;"
    "grey iron;gray iron;EN-GJL-200;GG20;G3000;nodular iron;SG iron;EN-GJS-400;free-cutting brass;"
    "CuZn39Pb3;2.0401;CW614N;C36000;bearing bronze;gunmetal;C93200;SAE 660;aluminium;aluminum;6061;"
    "6082;6082-T6;7075;356;356.0;die-cast aluminium;C11000;Cu-ETP;Ti-6Al-4V;3.7165".split(";"),
)
def test_the_names_that_a_pressed_joint_knew_still_find_a_material(name: str) -> None:
    assert elastic_material(name).yield_strength


def test_an_unknown_steel_presses_nothing() -> None:
    made = elastic_material("unknown steel")
    assert made.yield_strength is None
    with pytest.raises(TradeError) as refused:
        made.needed("yield_strength")
    assert str(refused.value) == "unknown steel has no yield strength here, and it is needed"
