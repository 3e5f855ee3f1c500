"""Statements worked out, one at a time, against a scope: what each gives, and what is wrong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shoplog.calc import tree as t
from shoplog.calc.declare import broken_name, declare, given_name, reads
from shoplog.calc.evaluate import Budget, Evaluator
from shoplog.calc.mates import Mating, mating
from shoplog.calc.readings import CONCEDED, reading
from shoplog.calc.results import (
    CheckResult,
    ConcessionResult,
    DrawResult,
    Item,
    MateResult,
    Operand,
    Result,
    Truth,
    Unworked,
    UseResult,
    Working,
)
from shoplog.calc.scope import Scope, Waits
from shoplog.calc.show import show
from shoplog.calc.statements import Statement
from shoplog.problems import Grade, Mistake, Place, Problem, message, near
from shoplog.values import Contributor, Value

__all__ = ["declare", "given_name", "reads", "work_out"]

CHECK_FAILS = message(
    "check-fails",
    "this check {truth}: {sides}",
    example="check 3 mm < 2 mm",
)
MATE_FAILS = message(
    "mate-fails",
    "{one} and {other} do not mate: {fault}",
    example="a = 30 mm H7\nb = 24 mm p6\nmate a with b",
)
CONCEDES_NOTHING = message(
    "concession-unknown",
    "`{name}` is not a name of this page, so nothing is conceded",
    example='concession bore because "turned to suit"',
)
USE_UNKNOWN = message(
    "use-unknown", "there is no page `{page}` in this log", example='use "nowhere/page" as there'
)
CAUTION = message("formula-caution", "{text}", grade=Grade.CAUTION, example="")


def work_out(statement: Statement, order: int, scope: Scope, budget: Budget) -> Item:
    """What a statement gives. Never raises: what is wrong is in the item."""
    name = given_name(statement) or broken_name(statement)
    shown = name[0] if name else ""
    if statement.mistake is not None:
        return Unworked(statement, (statement.problem(statement.mistake),), name=shown)
    working = Working()
    try:
        return _work_out(statement, order, scope, Evaluator(scope, order, working, budget))
    except Waits as waits:
        return Unworked(statement, (), waits_for=waits.name, name=shown)
    except Mistake as mistake:
        mirrors = _places_elsewhere(working, scope) if _is_fit(statement.node) else ()
        return Unworked(statement, (statement.problem(mistake, *mirrors),), "", shown, mirrors)


def _is_fit(node: t.StatementNode | None) -> bool:
    """Whether a statement brings two parts together, so that a failure is one of both pages."""
    if isinstance(node, t.Mate):
        return True
    return isinstance(node, t.Assign | t.Draw | t.Check) and any(
        isinstance(part, t.Call) and part.name == "fit"
        for part in t.walk(node.condition if isinstance(node, t.Check) else node.expression)
    )


def _work_out(statement: Statement, order: int, scope: Scope, evaluator: Evaluator) -> Item:
    match statement.node:
        case t.Assign(name=name, expression=expression):
            return _assign(statement, name, expression, scope, evaluator)
        case t.Check(condition=condition):
            return _check(statement, condition, scope, evaluator)
        case t.Mate() as node:
            return _mate(statement, node, scope, evaluator)
        case t.Measured() as node:
            return reading(statement, node, order, scope, evaluator)
        case t.Concession(name=name, name_span=span, reason=reason):
            if name not in scope.entries:
                close = near(name, scope.entries)
                hint = f"did you mean {close}?" if close else ""
                raise Mistake(CONCEDES_NOTHING, span, hint=hint, name=name)
            return ConcessionResult(statement, name, reason)
        case t.Draw(expression=expression):
            value = evaluator.value(expression)
            text = _text(statement, expression)
            return DrawResult(statement, text, value)
        case t.Use(page=page, page_span=span, name=name):
            if scope.part(name) is None:
                raise Mistake(USE_UNKNOWN, span, page=page)
            return UseResult(statement, name, page)
    raise TypeError("a bare expression is refused when it is parsed")


def _assign(
    statement: Statement, name: str, expression: t.Node, scope: Scope, evaluator: Evaluator
) -> Result:
    value = evaluator.value(expression)
    if isinstance(value, Value) and len(value.parts) == 1 and _states_limits(expression):
        value = _named(value, name)
    scope.entries[name].value = value
    problems = _cautions(statement, evaluator.working)
    return Result(statement, name, value, expression, evaluator.working, problems)


def _states_limits(expression: t.Node) -> bool:
    """Whether an expression is a literal with limits, or states them by `limits(…)`."""
    while isinstance(expression, t.Group):
        expression = expression.inner
    return isinstance(expression, t.Sized) or (
        isinstance(expression, t.Call) and expression.name == "limits"
    )


def _named(value: Value, name: str) -> Value:
    """A literal's limits under the name it was given, so that a stack-up can tell who adds what."""
    contributor, coefficient = value.parts[0]
    source = Contributor(name, contributor.lower, contributor.upper)
    return replace(value, parts=((source, coefficient),))


def _cautions(statement: Statement, working: Working) -> tuple[Problem, ...]:
    return tuple(statement.problem(Mistake(CAUTION, text=text)) for text in working.cautions)


def _check(
    statement: Statement, condition: t.Node, scope: Scope, evaluator: Evaluator
) -> CheckResult:
    truth = evaluator.truth(condition)
    working = evaluator.working
    sides = tuple(_sides(statement, condition, evaluator))
    conceded = "" if truth is Truth.YES else _conceded(working, scope)
    problems = _cautions(statement, working)
    mirrors: tuple[Place, ...] = ()
    if conceded:
        problems += (statement.problem(Mistake(CONCEDED, condition.span, reason=conceded)),)
    elif truth is not Truth.YES:
        mirrors = _places_elsewhere(working, scope)
        told = "; ".join(f"{side.text} is {show(side.value).own}" for side in sides)
        mistake = Mistake(
            CHECK_FAILS,
            condition.span,
            truth=truth.value,
            sides=told or "it reads no name",
        )
        problems += (statement.problem(mistake, *mirrors),)
    return CheckResult(statement, condition, truth, sides, working, conceded, problems, mirrors)


def _sides(statement: Statement, condition: t.Node, evaluator: Evaluator) -> Iterator[Operand]:
    """The sides of a condition's comparisons that are not plain literals, with their values."""
    # What was met on the way is kept from the first time round, so here it goes to a spare.
    again = Evaluator(evaluator.scope, evaluator.order, Working(), evaluator.budget)
    seen = set()
    for node in _compared(condition):
        text = _text(statement, node)
        if text not in seen:
            seen.add(text)
            yield Operand(text, again.value(node))


def _compared(condition: t.Node) -> Iterator[t.Node]:
    """What a condition compares, and what it takes as true or false: all but literals."""
    literal = t.Number | t.Quantity | t.Text | t.Angle | t.Sized | t.HardnessLiteral
    waiting = [condition]
    while waiting:
        match waiting.pop():
            case t.Logic(left=left, right=right):
                waiting += [right, left]
            case t.Not(inner=inner) | t.Group(inner=inner):
                waiting.append(inner)
            case t.Compare(sides=sides):
                yield from (side for side in sides if not isinstance(side, literal))
            case other:
                yield other


def _text(statement: Statement, node: t.Node) -> str:
    return " ".join(statement.code[node.span.start : node.span.end].split())


def _conceded(working: Working, scope: Scope, *, every: bool = False) -> str:
    """The reason that lets a failure pass; with `every`, only if each name read is conceded."""
    owners = [owner for dotted in working.names for owner in _owners(dotted, scope)]
    conceded = [(where, name) for where, name in owners if name in where.concessions]
    if not conceded or (every and len(conceded) < len(owners)):
        return ""
    reasons = [where.concede(name) for where, name in conceded]  # each has let something pass
    return reasons[0]


def _owners(dotted: str, scope: Scope) -> Iterator[tuple[Scope, str]]:
    first, _, rest = dotted.partition(".")
    if first in scope.entries:
        yield scope, first
    elif rest:
        other = scope.part(first)
        if other is not None:
            yield other, rest.partition(".")[0]


def _places_elsewhere(working: Working, scope: Scope) -> tuple[Place, ...]:
    """Where the names of other pages that were read are given."""
    places = []
    for dotted in working.names:
        for where, name in _owners(dotted, scope):
            place = where.place_of(name) if where is not scope else None
            if place is not None and place not in places:
                places.append(place)
    return tuple(places)


def _mate(statement: Statement, node: t.Mate, scope: Scope, evaluator: Evaluator) -> MateResult:
    one, other = evaluator.value(node.one), evaluator.value(node.other)
    working = evaluator.working
    made: Mating = mating(node, one, other)
    operands = (
        Operand(_text(statement, node.one), one),
        Operand(_text(statement, node.other), other),
    )
    working.cautions += [text for text in made.cautions if text not in working.cautions]
    for note in made.notes:
        working.note(note)
    problems = _cautions(statement, working)
    conceded = _conceded(working, scope, every=made.nominal_differs) if made.fault else ""
    mirrors: tuple[Place, ...] = ()
    if conceded:
        problems += (statement.problem(Mistake(CONCEDED, reason=conceded)),)
    elif made.fault:
        mirrors = _places_elsewhere(working, scope)
        one_side = made.nominal_differs and _conceded(working, scope)
        hint = "a difference in nominal size takes a concession on both sizes" if one_side else ""
        mistake = Mistake(
            MATE_FAILS,
            None,
            hint=hint,
            one=operands[0].text,
            other=operands[1].text,
            fault=made.fault,
        )
        own = tuple(_places_here(working, scope))
        problems += (statement.problem(mistake, *own, *mirrors),)
    return MateResult(
        statement,
        *operands,
        made.asked,
        made.found,
        made.fit,
        made.fault,
        conceded,
        working,
        problems,
        mirrors,
    )


def _places_here(working: Working, scope: Scope) -> Iterator[Place]:
    for dotted in working.names:
        place = scope.place_of(dotted.partition(".")[0])
        if place is not None:
            yield place
