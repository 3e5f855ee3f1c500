"""A page for each material that the log has cut: its row, handbooks' ranges, one's own setups."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shoplog.calc.show import Shown
from shoplog.find.record import Record
from shoplog.render.findings import caution, note
from shoplog.render.html import capital, paragraph
from shoplog.render.made_pages.cutting_ranges import ranges_section
from shoplog.render.made_pages.fact_tables import Told, facts_table
from shoplog.render.made_pages.made_text import block, page, title, words
from shoplog.render.made_pages.setup_rows import (
    Reference,
    from_to,
    keys_of,
    newest,
    setups_section,
    tally,
)
from shoplog.tables import table
from shoplog.trade.machining.cutting_naming import WorkGroup, work_group
from shoplog.trade.machining.cutting_remarks import sourced
from shoplog.trade.materials import Material
from shoplog.units import unit
from shoplog.values import Hardness, Value

__all__ = ["material_page", "material_title"]


def material_title(one: Record) -> str:
    """What the page of a record's material is called; nothing where no table knows it."""
    if one.material_row:
        return one.material_row
    return f"{one.material_group} (group)" if one.material_group else ""


def material_page(records: Sequence[Record], here: str, to: Reference) -> str:
    """The page of the material of some records, which all cut the same."""
    one = records[0]
    work = work_group(one.material_row or one.material_group)
    listed = newest(records)
    name = material_title(one)
    keyed = next(key for key in keys_of(one) if key[0] == "material")

    def ask(record: Record) -> tuple[str, str, str]:
        kind = record.operation_kind
        return kind, kind, one.material_row or one.material_group

    picture, ranges = ranges_section(records, listed, name, ask)
    return page(
        title(name),
        f"{words(_sentence(work), 400)}. {tally(records).capitalize()}.",
        "## What it is",
        _row(work),
        "## Cutting speed" if ranges else "",
        picture,
        ranges,
        *setups_section(records, listed, here, keyed, to),
    )


def _sentence(work: WorkGroup) -> str:
    if work.material is None:
        return f"A group of materials that are cut alike, ISO 513 group {work.row['iso513']}"
    names = [name for name in (work.material.designation, work.material.number) if name]
    also = f", {' or '.join(names)}" if names else ""
    return f"{capital(work.material.family)}{also}, {work.material.condition}"


def _row(work: WorkGroup) -> str:
    if work.material is None:
        return block(facts_table(_group(work)))
    one = work.material
    row = next(row for row in table("materials").rows if row["name"] == one.name)
    source = sourced("materials", row["read"]).removeprefix(f"{row['read']} (").removesuffix(")")
    return block(
        facts_table(_facts(one, work)),
        *map(caution, one.cautions),
        *map(note, one.notes),
        paragraph("shoplog-sources", f"Source of this row: {source or 'none that was read'}"),
    )


def _group(work: WorkGroup) -> Iterator[Told]:
    yield "Cutting group", work.name
    yield "Also called", tuple(filter(None, work.row["words"].split(";")))
    yield "ISO 513 group", work.row["iso513"]


def _facts(one: Material, work: WorkGroup) -> Iterator[Told]:
    yield "Designation", one.designation
    yield "Number", one.number
    yield "Also called", one.other_names
    yield "Family", one.family
    yield "Condition", one.condition
    yield "Hardness", _hardness(one.hardness_least, one.hardness_greatest)
    yield "Hardened", _hardness(one.hardened_least, one.hardened_greatest)
    basis = f" ({one.strength_basis})" if one.strength_basis else ""
    yield f"Yield strength{basis}", _range(one.yield_least, one.yield_greatest, "MPa", "psi")
    yield f"Tensile strength{basis}", _range(one.tensile_least, one.tensile_greatest, "MPa", "psi")
    yield "Breaks before it yields", "yes" if one.brittle else ""
    yield from _quantities(one)
    yield "Cutting speeds are those of", work.name
    yield "ISO 513 group", one.iso_group
    yield "Cutting force is that of", one.cutting_group
    yield "Heat treatment", one.heat_treatment


def _quantities(one: Material) -> Iterator[Told]:
    known = (
        ("Density", one.density, "kg/m^3"),
        ("Young's modulus", one.youngs_modulus, "GPa"),
        ("Poisson's ratio", one.poisson, ""),
        ("Expansion, warmed", one.expansion, "um/m/K"),
        ("Expansion, cooled", one.expansion_on_cooling, "um/m/K"),
        ("Specific cutting force kc1.1", one.specific_cutting_force, "N/mm^2"),
        ("Exponent mc", one.chip_exponent, ""),
    )
    for label, number, name in known:
        yield label, None if number is None else Value(number, unit(name))


def _hardness(least: Hardness | None, greatest: Hardness | None) -> str:
    if least is None:
        return f"at most {greatest}" if greatest is not None else ""
    return str(least) if greatest in (None, least) else f"{least.number:g} to {greatest}"


def _range(least: float | None, greatest: float | None, metric: str, inch: str) -> Shown | None:
    ends = [end for end in (least, greatest) if end is not None]
    if not ends:
        return None
    shown = from_to(min(ends), max(ends), metric, inch, digits=3)
    before = "" if least is not None else "at most "
    return Shown(before + shown.metric, before + shown.inch, before + shown.own)
