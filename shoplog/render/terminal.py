"""Values and steps as plain text, for the command."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from typing import Any

from shoplog.calc import tree as t
from shoplog.calc.formulas import taken_from
from shoplog.calc.results import PageValue
from shoplog.calc.show import Shown, show
from shoplog.tables import Table
from shoplog.trade.declare import readable_fields
from shoplog.values import Hardness, Value

__all__ = ["rows_with", "table_lines", "value_json", "value_lines", "written"]


def value_lines(value: PageValue) -> list[str]:
    """A value in lines: both systems, and a record's fields below its sentence."""
    shown = show(value)
    if isinstance(value, Value):
        if not value.has_limits:
            return [shown.both]
        stated = [shown.nominal] if shown.nominal else []
        return [*stated, f"  {shown.own}", *_other(shown)]
    if isinstance(value, tuple):
        return [show(item).both for item in value]
    if not is_dataclass(value) or isinstance(value, Hardness):
        return [shown.own]
    read = _read(value)
    width = max((len(name) for name in read), default=0)
    return [shown.own, *(f"  {name:<{width}}  {_one_line(found)}" for name, found in read.items())]


def _other(shown: Shown) -> list[str]:
    return [] if shown.other == shown.own else [f"  {shown.other}"]


def _one_line(value: PageValue) -> str:
    shown = show(value)
    if isinstance(value, Value) and value.has_limits and shown.nominal:
        return f"{shown.nominal} ({shown.own})"
    return shown.both


def _read(record: Any) -> dict[str, PageValue]:
    """The fields of a record that say something, as a page would read them."""
    cls: Any = type(record)
    known = readable_fields(cls)
    order = [field.name for field in fields(record)]
    names = sorted(known, key=lambda name: order.index(name) if name in order else len(order))
    found = {name: getattr(record, name) for name in names if name != "notes"}
    return {
        name: taken_from(value, known[name], name)
        for name, value in found.items()
        if value is not None and value != "" and value != ()
    }


def rows_with(table: Table, words: Sequence[str]) -> list[dict[str, str]]:
    """The rows of a table that hold every word: as a whole cell, or else within one.

    A word that is some row's whole cell is looked for as a whole cell, so `M6` is not `M60`.
    """
    rows = [dict(row) for row in table.rows]
    for word in words:
        asked = word.casefold()
        whole = [row for row in rows if asked in (cell.casefold() for cell in row.values())]
        within = [row for row in rows if any(asked in cell.casefold() for cell in row.values())]
        rows = whole or within
    return rows


def table_lines(table: Table, rows: Sequence[dict[str, str]]) -> list[str]:
    """Rows in columns, under the table's title and over where it comes from."""
    columns = [name for name in table.columns if any(row[name] for row in rows)]
    widths = {name: max(len(name), *(len(row[name]) for row in rows)) for name in columns}
    shown = [dict(zip(columns, columns, strict=True)), *rows] if rows else []
    lines = [table.head["title"], ""]
    lines += ["  ".join(f"{row[n]:<{widths[n]}}" for n in columns).rstrip() for row in shown]
    lines += [] if rows else ["no row holds these words"]
    lines += ["", f"source: {table.source}", f"from memory: {table.head['from memory']}"]
    return lines


def value_json(value: PageValue) -> Any:
    """A value as JSON: numbers with their units, limits where it has them."""
    if isinstance(value, Value):
        made: dict[str, Any] = {"number": value.nominal, "unit": value.unit.text}
        if value.has_limits:
            made |= {"min": value.min, "max": value.max}
        if value.tolerance_class:
            made["class"] = value.tolerance_class
        return made | {"shown": show(value).both}
    if isinstance(value, Hardness):
        return {"number": value.number, "scale": value.scale}
    if isinstance(value, bool | str | int | float):
        return value
    if isinstance(value, tuple):
        return [value_json(item) for item in value]
    return {
        "kind": type(value).__name__,
        "shown": show(value).own,
        **{name: value_json(found) for name, found in _read(value).items()},
    }


def written(node: t.Node) -> str:
    """A tree as the language writes it.

    >>> from shoplog.calc.parse import parse_expression
    >>> written(parse_expression('fit( 16 mm H7 ,x.y )+ 1/2 in to mm')[0])
    'fit(16 mm H7, x.y) + 1/2 in to mm'
    """
    match node:
        case t.Number(text=text) | t.Angle(text=text) | t.HardnessLiteral(text=text):
            return text
        case t.Quantity(text=text, unit=unit):
            return f"{text} {unit}"
        case t.Shown(text=text, unit=unit):
            return f"{text} {unit}".strip()
        case t.Sized(base=base, text=text, unit=unit):
            own = unit if isinstance(base, t.Quantity) and unit not in ("", base.unit) else ""
            return f"{written(base)} {text} {own}".strip()
        case t.Text(text=text):
            return f'"{text}"'
        case t.Name(name=name):
            return name
        case t.Field(base=base, name=name):
            return f"{written(base)}.{name}"
        case t.Index(base=base, index=index):
            return f"{written(base)}[{index}]"
        case t.Group(inner=inner):
            return f"({written(inner)})"
        case t.Negative(inner=inner):
            return f"-{written(inner)}"
        case t.Not(inner=inner):
            return f"not {written(inner)}"
        case t.To(inner=inner, unit=unit):
            return f"{written(inner)} to {unit}"
        case t.Binary(sign=sign, left=left, right=right):
            space = "" if sign == "**" else " "
            return f"{written(left)}{space}{sign}{space}{written(right)}"
        case t.Logic(word=word, left=left, right=right):
            return f"{written(left)} {word} {written(right)}"
        case t.Compare(sides=sides, signs=signs):
            rest = zip(signs, sides[1:], strict=True)
            return written(sides[0]) + "".join(f" {sign} {written(side)}" for sign, side in rest)
        case t.Items(items=items):
            return f"[{', '.join(written(item) for item in items)}]"
        case t.Call(name=name, positional=positional, named=named):
            arguments = [written(item) for item in positional]
            arguments += [f"{key}={written(item)}" for key, item, _ in named]
            return f"{name}({', '.join(arguments)})"
