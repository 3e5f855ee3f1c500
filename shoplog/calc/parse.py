"""Statement text to tree, by the grammar in `grammar.lark`; spelling traps run before it.

Each result, tree or mistake, is memoised by the statement's text.
"""

from __future__ import annotations

from functools import cache, lru_cache
from importlib import resources
from typing import Any

from lark import Lark, UnexpectedInput

from shoplog.calc import tree as t
from shoplog.calc.build import tree_builder
from shoplog.calc.spelling import masked, refuse_traps
from shoplog.calc.wrong import RESERVED, refuse_unknown_compound, wrong_word
from shoplog.problems import Mistake, Span, message
from shoplog.units import unit_texts
from shoplog.values import HARDNESS_SCALES

__all__ = ["parse_expression", "parse_statement"]

MOST_BRACKETS = 60
MOST_DEPTH = 120

MOST_LENGTH = 4000

TOO_LONG = message(
    "statement-too-long",
    "this statement is {length} characters long, {most} at most",
    hint="give a part of it a name",
    example="a = " + "1 + " * 1200 + "1",
)
NESTED = message(
    "nesting",
    "brackets stand {found} deep, {most} at most",
    hint="give a part of it a name",
    example="a = " + "(" * 61 + "1" + ")" * 61,
)
BRACKET = message("bracket-unclosed", "this bracket is not closed", example="a = (1 + 2")
BRACKET_CLOSED = message("bracket-unopened", "this bracket closes nothing", example="a = 1 + 2)")
DEEP = message(
    "too-many-parts",
    "too many parts in one expression, {most} deep at most",
    hint="give a part of it a name",
    example="a = " + "1 + " * 130 + "1",
)
BARE_CONDITION = message(
    "condition-alone", "a condition needs `check`", hint="write check {text}", example="a == 3"
)
BARE_VALUE = message(
    "value-alone", "a value needs a name", hint="write name = {text}", example="5 mm + 3 mm"
)


def parse_statement(code: str, note: str = "") -> tuple[t.StatementNode | None, Mistake | None]:
    """A statement's tree, or its mistake with its span in the code."""
    return _parsed(code, "statement", note if note[:1].isalnum() or note[:1] == "#" else "")


def parse_expression(code: str) -> tuple[t.Node | None, Mistake | None]:
    """An expression's tree, or its mistake with its span in the code."""
    if len(code) > MOST_LENGTH:  # before it is kept, as well as before it is parsed
        return None, Mistake(TOO_LONG, Span(0, 1), length=len(code), most=MOST_LENGTH)
    return _parsed(code, "condition", "")


@lru_cache(maxsize=20_000)
def _parsed(code: str, start: str, note: str) -> tuple[Any, Mistake | None]:
    try:
        refuse_traps(code, note)
        refuse_unknown_compound(masked(code))
        _refuse_brackets(code)
        node = _tree(code, start, note)
        _refuse_depth(node)
        _refuse_bare(node, code)
    except Mistake as mistake:
        return None, mistake.with_traceback(None)
    return node, None


def _tree(code: str, start: str, note: str) -> Any:
    try:
        return _parser().parse(code, start=start)
    except UnexpectedInput as unexpected:
        raise wrong_word(code, unexpected, note) from None


def _refuse_brackets(code: str) -> None:
    opened: list[tuple[str, int]] = []
    for place, sign in enumerate(masked(code)):
        if sign in "([":
            opened.append((sign, place))
            if len(opened) > MOST_BRACKETS:
                raise Mistake(NESTED, Span(place, place + 1), found=len(opened), most=MOST_BRACKETS)
        elif sign in ")]":
            if not opened or opened[-1][0] != {")": "(", "]": "["}[sign]:
                raise Mistake(BRACKET_CLOSED, Span(place, place + 1))
            opened.pop()
    if opened:
        raise Mistake(BRACKET, Span(opened[-1][1], opened[-1][1] + 1))


def _refuse_bare(node: Any, code: str) -> None:
    if not isinstance(node, t.Bare):
        return
    inner = node.expression
    while isinstance(inner, t.Group):
        inner = inner.inner
    condition = isinstance(inner, t.Compare | t.Logic | t.Not)
    found = BARE_CONDITION if condition else BARE_VALUE
    raise Mistake(found, node.expression.span, text=code.strip())


def _refuse_depth(node: Any) -> None:
    parts = [getattr(node, name) for name in getattr(node, "__slots__", ())]
    nodes = [node] if isinstance(node, t.Node) else [p for p in parts if isinstance(p, t.Node)]
    for found in nodes:
        if t.depth(found) > MOST_DEPTH:
            raise Mistake(DEEP, found.span, most=MOST_DEPTH)


@cache
def _parser() -> Lark:
    grammar = resources.files("shoplog.calc").joinpath("grammar.lark").read_text("utf-8")
    edge = {text: r"(?!\w)" if text[-1].isalnum() else "" for text in unit_texts()}
    units = "|".join(_escaped(text) + after for text, after in edge.items())
    for word, filling in (
        ("%units%", units),
        ("%scales%", "|".join(sorted(HARDNESS_SCALES, key=len, reverse=True))),
        ("%reserved%", "|".join(RESERVED)),
    ):
        grammar = grammar.replace(word, filling)
    return Lark(
        grammar,
        parser="lalr",
        lexer="contextual",
        start=["statement", "condition"],
        transformer=tree_builder(),
        maybe_placeholders=True,
        postlex=_AcceptBad(),
    )


class _AcceptBad:
    """Makes the lexer take BAD in every state, so that every failure carries what was met."""

    always_accept = ("BAD",)

    def process(self, stream: Any) -> Any:
        return stream


def _escaped(text: str) -> str:
    """A unit's text inside a regular expression of the grammar."""
    return "".join(f"\\{c}" if c in "^*/" else c for c in text)
