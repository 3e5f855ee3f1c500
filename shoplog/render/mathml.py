"""An expression tree as MathML, which browsers set without a script or a font from elsewhere."""

from __future__ import annotations

import re

from shoplog.calc import tree as t
from shoplog.render.html import Html, printed, tag

__all__ = ["math", "unit_shown"]

_SIGNS = {
    "+": "+",
    "-": "−",
    "*": "×",
    "<": "<",
    "<=": "≤",
    ">": ">",
    ">=": "≥",
    "==": "=",
    "!=": "≠",
}
_NUMBER = re.compile(r"-?\d[\d.]*(?:e[+-]?\d+)?")
_GREEK = {"pi": "π"}


def math(node: t.Node) -> Html:
    """A tree as a `math` element of its own line."""
    return tag("math", _shown(node), displaystyle="true")


def unit_shown(text: str) -> str:
    """A unit as it is printed.

    >>> unit_shown("N*mm^2")
    'N·mm²'
    """
    shown = printed(text).replace("*", "·").replace("um/", "µm/")
    return {"um": "µm", "deg": "°"}.get(shown, shown)


def _shown(node: t.Node) -> Html:
    """A node with all under it, as one element."""
    match node:
        case t.Number(text=text) | t.Angle(text=text):
            return _number(text)
        case t.Quantity():
            return _row(_quantity_number(node), *_unit(node.unit))
        case t.Sized():
            return _sized(node)
        case t.HardnessLiteral(text=text):
            return tag("mtext", text)
        case t.Text(text=text):
            return tag("mtext", f'"{text}"')
        case t.Shown():
            return _put_in(node)
        case t.Name(name=name):
            return _name(name)
        case t.Field():
            return _field(node)
        case t.Index(base=base, index=index):
            return tag("msub", _shown(base), _number(str(index)))
        case t.Group(inner=inner):
            return _bracketed(inner)
        case t.Negative(inner=inner):
            return _row(_sign("−"), _operand(inner))
        case t.Binary():
            return _binary(node)
    return _words(node)


def _words(node: t.Node) -> Html:
    """The nodes that are set with words, commas or brackets of their own."""
    match node:
        case t.Call():
            return _call(node)
        case t.Items(items=items):
            return _row(_bracket("["), *_commas([_shown(item) for item in items]), _bracket("]"))
        case t.To(inner=inner, unit=unit):
            return _row(_shown(inner), _word("to"), tag("mtext", unit_shown(unit)))
        case t.Compare(sides=sides, signs=signs):
            first, *rest = map(_shown, sides)
            pairs = zip(signs, rest, strict=True)
            return _row(first, *(part for sign, side in pairs for part in (_sign(sign), side)))
        case t.Logic(word=word, left=left, right=right):
            return _row(_shown(left), _word(word), _shown(right))
        case t.Not(inner=inner):
            return _row(_word("not"), _shown(inner))
    raise TypeError(f"there is no MathML for {type(node).__name__}")


def _row(*parts: Html) -> Html:
    return parts[0] if len(parts) == 1 else tag("mrow", *parts)


def _sign(sign: str) -> Html:
    return tag("mo", _SIGNS.get(sign, sign))


def _word(word: str) -> Html:
    return tag("mtext", f"\u00a0{word}\u00a0")


def _bracket(sign: str, *, tall: bool = False) -> Html:
    return tag("mo", sign) if tall else tag("mo", sign, stretchy="false")


def _number(text: str) -> Html:
    return tag("mn", text.replace("-", "−"))


def _name(name: str) -> Html:
    return tag("mi", _GREEK.get(name, name))


def _unit(text: str) -> tuple[Html, ...]:
    if not text:
        return ()
    shown = unit_shown(text)
    return (tag("mtext", shown if shown.startswith("°") else f"\u00a0{shown}"),)


def _quantity_number(node: t.Quantity) -> Html:
    if node.form == "decimal":
        return _number(node.text)
    *whole, fraction = re.split(r"[- ]+", node.text.strip())
    over, _, under = fraction.partition("/")
    made = tag("mfrac", _number(over), _number(under))
    return _row(*(_number(part) for part in whole), made)


def _sized(node: t.Sized) -> Html:
    base_unit = node.base.unit if isinstance(node.base, t.Quantity) else "deg"
    own = _unit(node.unit) if node.unit != base_unit or base_unit == "deg" else ()
    return _row(_shown(node.base), tag("mtext", f"\u00a0{node.text.replace('-', '−')}"), *own)


def _put_in(node: t.Shown) -> Html:
    if _NUMBER.fullmatch(node.text):
        return _row(_number(node.text), *_unit(node.unit))
    return _row(tag("mtext", node.text), *_unit(node.unit))


def _field(node: t.Field) -> Html:
    names = [node.name]
    base = node.base
    while isinstance(base, t.Field):
        names.append(base.name)
        base = base.base
    if isinstance(base, t.Name):
        return tag("mi", ".".join(reversed([*names, base.name])))
    put_in = isinstance(node.base, t.Shown)
    shown = _bracketed(node.base) if put_in else _shown(node.base)
    return _row(shown, tag("mi", f".{node.name}"))


def _bracketed(inner: t.Node) -> Html:
    tall = any(isinstance(node, t.Binary) and node.sign == "/" for node in t.walk(inner))
    return _row(_bracket("(", tall=tall), _shown(inner), _bracket(")", tall=tall))


def _binary(node: t.Binary) -> Html:
    if node.sign == "/":
        return tag("mfrac", _shown(_inside(node.left)), _shown(_inside(node.right)))
    if node.sign == "**":
        return tag("msup", _base(node.left), _shown(_inside(node.right)))
    return _row(_operand(node.left, node.sign), _sign(node.sign), _operand(node.right, node.sign))


def _inside(node: t.Node) -> t.Node:
    """What stands in brackets, where a fraction's bar or a raised line takes their place."""
    return node.inner if isinstance(node, t.Group) else node


def _operand(node: t.Node, sign: str = "*") -> Html:
    """A side of a sign; a value put in that has a sign or limits of its own gets brackets."""
    negative = isinstance(node, t.Shown) and node.text.startswith("-")
    spaced = isinstance(node, t.Shown) and not node.unit and " " in node.text and sign == "*"
    return _bracketed(node) if negative or spaced else _shown(node)


def _base(node: t.Node) -> Html:
    """The base of a power: in brackets where the exponent would seem to stand at its unit only."""
    plain = isinstance(node, t.Number | t.Name | t.Field | t.Index | t.Call | t.Group | t.Items)
    if isinstance(node, t.Shown):
        plain = not node.unit and bool(re.fullmatch(r"\d[\d.]*", node.text))
    return _shown(node) if plain else _bracketed(node)


def _call(node: t.Call) -> Html:
    named = [_row(_name(name), _sign("="), _shown(value)) for name, value, _ in node.named]
    arguments = [*map(_shown, node.positional), *named]
    if node.name == "sqrt" and len(arguments) == 1:
        return tag("msqrt", *arguments)
    if node.name == "abs" and len(arguments) == 1:
        return _row(_bracket("|"), *arguments, _bracket("|"))
    return _row(_name(node.name), _bracket("("), *_commas(arguments), _bracket(")"))


def _commas(parts: list[Html]) -> tuple[Html, ...]:
    made = [parts[0]] if parts else []
    for part in parts[1:]:
        made += [tag("mo", ",", separator="true"), part]
    return tuple(made)
