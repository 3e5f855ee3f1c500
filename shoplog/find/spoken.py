"""What the tables of the trade call a material, an operation or an edge that is asked for."""

from __future__ import annotations

from shoplog.find.records import material_names
from shoplog.tables import table
from shoplog.trade.machining.cutting_naming import cutter_known, operation_known

__all__ = ["called_in_tables", "names_in_tables"]

_TABLES = {
    "material": (
        ("materials", ("name", "designation", "number", "also")),
        ("cutting_work_groups", ("group", "words", "wider")),
    ),
    "operation": (("cutting_operations", ("operation", "words")),),
    "cutter_material": (("cutting_cutters", ("cutter", "words", "wider")),),
}


def called_in_tables(named: str, text: str) -> str:
    """The name that records go by, of any name of a material, an operation or an edge.

    >>> called_in_tables("material", "AISI 1018"), called_in_tables("operation", "slot drilling")
    ('C15', 'slot milling')
    """
    if named == "operation":
        row, stage = operation_known(text) or ({"operation": ""}, "")
        return f"{row['operation']}, {stage}" if stage else row["operation"]
    if named == "cutter_material":
        edge = cutter_known(text)
        return edge["cutter"] if edge else ""
    return next(iter(material_names(text)), "")


def names_in_tables(named: str) -> tuple[str, ...]:
    """Every name that a table has for what is asked."""
    cells = (
        row[column]
        for name, columns in _TABLES[named]
        for row in table(name).rows
        for column in columns
    )
    return tuple(dict.fromkeys(name for cell in cells for name in cell.split(";") if name))
