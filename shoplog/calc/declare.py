"""The names that statements give and read, before anything is worked out."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import suppress

from shoplog.calc import tree as t
from shoplog.calc.explain import dotted_name
from shoplog.calc.scope import Scope
from shoplog.calc.statements import Statement
from shoplog.calc.wrong import RESERVED
from shoplog.problems import Mistake, Problem, Span, message

__all__ = ["broken_name", "declare", "given_name", "reads"]

NO_REASON = message(
    "concession-reason",
    "a concession has a reason",
    hint='concession {name} because "the shaft was turned to suit"',
    example='a = 16 mm H7\nconcession a because ""',
)

_BROKEN_NAME = re.compile(
    r"\s*(?:(?P<assigned>[^\W\d]\w*)\s*=(?!=)|measured\s+(?P<read>[^\W\d]\w*)"
    r"|use\b[^#]*?\bas\s+(?P<used>[^\W\d]\w*)\s*$)"
)


def broken_name(statement: Statement) -> tuple[str, Span] | None:
    """The name that a statement with a mistake in it was about to give."""
    found = _BROKEN_NAME.match(statement.code) if statement.mistake is not None else None
    if found is None or found.lastgroup is None:
        return None
    name = found[found.lastgroup]
    return None if name in RESERVED else (name, Span(*found.span(found.lastgroup)))


def given_name(statement: Statement) -> tuple[str, t.Assign | t.Measured | t.Use] | None:
    """The name that a statement gives, where it gives one."""
    node = statement.node
    return (node.name, node) if isinstance(node, t.Assign | t.Measured | t.Use) else None


def declare(statements: Iterable[Statement], scope: Scope) -> dict[int, Problem]:
    """Enter every name of a page into its scope; the problems, by the statement's order."""
    problems: dict[int, Problem] = {}
    for order, statement in enumerate(statements):
        try:
            _declare(statement, order, scope)
        except Mistake as mistake:
            problems[order] = statement.problem(mistake)
    return problems


def _declare(statement: Statement, order: int, scope: Scope) -> None:
    broken = broken_name(statement)
    if broken is not None and broken[0] not in scope.entries:
        with suppress(Mistake):  # its own mistake is told; what reads the name waits for it
            scope.declare(*broken, statement, order)
    match statement.node:
        case t.Assign(name=name, name_span=span):
            scope.declare(name, span, statement, order)
        case t.Measured(name=name, name_span=span, piece=piece):
            if name not in scope.entries:
                scope.declare(name, span, statement, order)
            scope.measured_at.setdefault(name, []).append((order, statement.line))
            scope.last_of_piece[name, piece] = order
        case t.Concession(name=name, name_span=span, reason=reason):
            if not reason.strip():
                raise Mistake(NO_REASON, span, name=name)
            scope.concessions[name] = reason
        case t.Use(page=page, name=name, name_span=span):
            scope.declare_use(name, span, statement, page)


def reads(node: t.StatementNode | t.Node | None) -> Iterator[tuple[str, ...]]:
    """What a statement reads, as dotted chains: `("shaft", "journal", "measured")`."""
    match node:
        case None | t.Concession() | t.Use():
            return
        case t.Assign(expression=inner) | t.Measured(expression=inner) | t.Draw(expression=inner):
            yield from reads(inner)
        case t.Check(condition=inner) | t.Bare(expression=inner):
            yield from reads(inner)
        case t.Mate(one=one, other=other):
            yield from reads(one)
            yield from reads(other)
        case _:
            inside: set[int] = set()
            for part in t.walk(node):  # a chain is met before the chains inside it
                if id(part) in inside:
                    inside.update(id(child) for child in t.children(part))
                    continue
                dotted = dotted_name(part)
                if dotted:
                    yield tuple(dotted.split("."))
                    inside.update(id(child) for child in t.children(part))
