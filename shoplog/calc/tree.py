"""The expression tree: what a statement says, with the span of each part in its text.

Nothing here evaluates. `Shown` is the one node that no parser makes: it stands for a value put in
where a name stood, when steps are explained.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shoplog.problems import Span

__all__ = [
    "Angle",
    "Asked",
    "Assign",
    "Bare",
    "Binary",
    "Call",
    "Check",
    "Compare",
    "Concession",
    "Draw",
    "Field",
    "Group",
    "HardnessLiteral",
    "Index",
    "Items",
    "Logic",
    "Mate",
    "Measured",
    "Name",
    "Negative",
    "Node",
    "Not",
    "Number",
    "Quantity",
    "Shown",
    "Sized",
    "StatementNode",
    "Text",
    "To",
    "Use",
    "children",
    "depth",
    "walk",
]


@dataclass(frozen=True, slots=True)
class Number:
    """A plain number."""

    number: float
    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with a unit; `form` is `decimal`, `fraction` or `mixed`."""

    number: float
    text: str
    unit: str
    form: str
    span: Span


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle in degrees, minutes and seconds."""

    degrees: float
    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Sized:
    """A literal with limits: a class, or an upper and a lower deviation in a unit of their own."""

    base: Quantity | Angle
    tolerance_class: str
    upper: float
    lower: float
    unit: str
    text: str
    span: Span
    spread: bool = False


@dataclass(frozen=True, slots=True)
class HardnessLiteral:
    """A hardness on a scale."""

    number: float
    scale: str
    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Text:
    """A text in quotes."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Name:
    """A name."""

    name: str
    span: Span


@dataclass(frozen=True, slots=True)
class Field:
    """`base.name`; `span` covers all of it."""

    base: Node
    name: str
    span: Span
    name_span: Span


@dataclass(frozen=True, slots=True)
class Index:
    """`base[number]`, from 0."""

    base: Node
    index: int
    span: Span


@dataclass(frozen=True, slots=True)
class Call:
    """`name(positional, name=...)`."""

    name: str
    positional: tuple[Node, ...]
    named: tuple[tuple[str, Node, Span], ...]
    span: Span
    name_span: Span


@dataclass(frozen=True, slots=True)
class Items:
    """A list `[a, b]`."""

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Group:
    """What stands in brackets."""

    inner: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Negative:
    """`-x`."""

    inner: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Binary:
    """`left sign right`, with the sign one of `+ - * / **`."""

    sign: str
    left: Node
    right: Node
    span: Span


@dataclass(frozen=True, slots=True)
class To:
    """`inner to unit`."""

    inner: Node
    unit: str
    span: Span


@dataclass(frozen=True, slots=True)
class Compare:
    """`a < b < c`: as many signs as sides less one."""

    sides: tuple[Node, ...]
    signs: tuple[str, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Logic:
    """`left and right`, `left or right`."""

    word: str
    left: Node
    right: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Not:
    """`not inner`."""

    inner: Node
    span: Span


@dataclass(frozen=True, slots=True)
class Shown:
    """A value put in where a name stood, as it is shown: a number's text and its unit's text."""

    text: str
    unit: str
    span: Span


Node = (
    Number
    | Quantity
    | Angle
    | Sized
    | HardnessLiteral
    | Text
    | Name
    | Field
    | Index
    | Call
    | Items
    | Group
    | Negative
    | Binary
    | To
    | Compare
    | Logic
    | Not
    | Shown
)


@dataclass(frozen=True, slots=True)
class Assign:
    """`name = expression`."""

    name: str
    name_span: Span
    expression: Node


@dataclass(frozen=True, slots=True)
class Check:
    """`check condition`."""

    condition: Node


@dataclass(frozen=True, slots=True)
class Asked:
    """What a mate is asked to be: a text such as `H7/f7`, or a kind with bounds or without."""

    text: str
    kind: str
    least: Quantity | None
    most: Quantity | None
    span: Span


@dataclass(frozen=True, slots=True)
class Mate:
    """`mate one with other as asked`."""

    one: Node
    other: Node
    asked: Asked | None


@dataclass(frozen=True, slots=True)
class Measured:
    """`measured name "label" = expression`, or `measured name 2 = …` for a numbered piece."""

    name: str
    name_span: Span
    label: str
    piece: int | None
    expression: Node


@dataclass(frozen=True, slots=True)
class Concession:
    """`concession name because "reason"`."""

    name: str
    name_span: Span
    reason: str


@dataclass(frozen=True, slots=True)
class Draw:
    """`draw expression`."""

    expression: Node


@dataclass(frozen=True, slots=True)
class Use:
    """`use "project/page" as name`."""

    page: str
    page_span: Span
    name: str
    name_span: Span


@dataclass(frozen=True, slots=True)
class Bare:
    """An expression that stands alone, which is not a statement of the language."""

    expression: Node


StatementNode = Assign | Check | Mate | Measured | Concession | Draw | Use | Bare


def children(node: Node) -> tuple[Node, ...]:
    """The nodes right under a node."""
    match node:
        case Field(base=inner) | Index(base=inner):
            return (inner,)
        case Group(inner=inner) | Negative(inner=inner) | To(inner=inner) | Not(inner=inner):
            return (inner,)
        case Binary(left=left, right=right) | Logic(left=left, right=right):
            return (left, right)
        case Compare(sides=sides):
            return sides
        case Items(items=items):
            return items
        case Call(positional=positional, named=named):
            return (*positional, *(node for _, node, _ in named))
    return ()


def walk(node: Node) -> Iterator[Node]:
    """A node and all under it, in the order of the text; no recursion, so no depth is too great."""
    waiting = [node]
    while waiting:
        found = waiting.pop()
        yield found
        waiting.extend(reversed(children(found)))


def depth(node: Node) -> int:
    """How deep a tree is."""
    deepest = 0
    waiting = [(node, 1)]
    while waiting:
        found, level = waiting.pop()
        deepest = max(deepest, level)
        waiting.extend((child, level + 1) for child in children(found))
    return deepest
