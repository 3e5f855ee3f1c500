"""Statements worked out, one at a time, against a scope: what each gives, and what is wrong."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import replace

from shoplog.calc import tree as t
from shoplog.calc.evaluate import Budget, Evaluator
from shoplog.calc.explain import dotted_name
from shoplog.calc.formulas import kind_of
from shoplog.calc.mates import Mating, mating
from shoplog.calc.results import (
    CheckResult,
    ConcessionResult,
    DrawResult,
    Item,
    MateResult,
    MeasuredResult,
    Operand,
    PageValue,
    Result,
    Truth,
    Unworked,
    UseResult,
    Verdict,
    Working,
)
from shoplog.calc.scope import BELOW, Scope, Waits
from shoplog.calc.show import show
from shoplog.calc.statements import Statement
from shoplog.calc.wrong import RESERVED
from shoplog.problems import Grade, Mistake, Place, Problem, Span, message, near
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
OUT_OF_LIMITS = message(
    "measured-out",
    "{name} was measured {found}, outside {wanted}",
    hint='make it right, or write concession {name} because "…"',
    example="a = 16 mm H7\nmeasured a = 16.1 mm",
)
CANNOT_TELL = message(
    "measured-unsure",
    "{name} was measured {found}: this instrument cannot tell whether it is inside {wanted}",
    example="a = 16 mm H7\nmeasured a = 16.017 mm ±0.003",
    grade=Grade.CAUTION,
)
READING_KIND = message(
    "reading-kind",
    "{name} is {wanted}; this reading is {found}",
    example="a = 16 mm H7\nmeasured a = 16 s",
)
READING_CLASS = message(
    "reading-class",
    "a reading has an uncertainty, not a class",
    hint="write 16.009 mm ±0.003",
    example="a = 16 mm H7\nmeasured a = 16.009 mm H7",
)
PIECES = message(
    "reading-pieces",
    "piece {piece} of {name}: {why}",
    example="a = 16 mm H7\nmeasured a 2 = 16.009 mm",
)
CONCEDED = message("conceded", "conceded: {reason}", grade=Grade.CAUTION, example="")
CONCEDES_NOTHING = message(
    "concession-unknown",
    "`{name}` is not a name of this page, so nothing is conceded",
    example='concession bore because "turned to suit"',
)
NO_REASON = message(
    "concession-reason",
    "a concession has a reason",
    hint='concession {name} because "the shaft was turned to suit"',
    example='a = 16 mm H7\nconcession a because ""',
)
USE_UNKNOWN = message(
    "use-unknown", "there is no page `{page}` in this log", example='use "nowhere/page" as there'
)
CAUTION = message("formula-caution", "{text}", grade=Grade.CAUTION, example="")


_BROKEN_NAME = re.compile(
    r"\s*(?:(?P<assigned>[^\W\d]\w*)\s*=(?!=)|measured\s+(?P<read>[^\W\d]\w*)"
    r"|use\b[^#]*?\bas\s+(?P<used>[^\W\d]\w*)\s*$)"
)


def _broken_name(statement: Statement) -> tuple[str, Span] | None:
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
    broken = _broken_name(statement)
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


def work_out(statement: Statement, order: int, scope: Scope, budget: Budget) -> Item:
    """What a statement gives. Never raises: what is wrong is in the item."""
    name = given_name(statement) or _broken_name(statement)
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
            return _measured(statement, node, order, scope, evaluator)
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


def _conceded(working: Working, scope: Scope) -> str:
    for dotted in working.names:
        for where, name in _owners(dotted, scope):
            if name in where.concessions:
                where.conceded.add(name)
                return where.concessions[name]
    return ""


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
    conceded = _conceded(working, scope) if made.fault else ""
    mirrors: tuple[Place, ...] = ()
    if conceded:
        problems += (statement.problem(Mistake(CONCEDED, reason=conceded)),)
    elif made.fault:
        mirrors = _places_elsewhere(working, scope)
        mistake = Mistake(
            MATE_FAILS, None, one=operands[0].text, other=operands[1].text, fault=made.fault
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


def _measured(
    statement: Statement, node: t.Measured, order: int, scope: Scope, evaluator: Evaluator
) -> MeasuredResult:
    value = evaluator.value(node.expression)
    entry = scope.entries[node.name]
    begins = entry.statement is statement
    if entry.order > order:
        raise Mistake(BELOW, node.name_span, name=node.name, line=entry.statement.line)
    _refuse_piece(node, scope)
    value = _reading(value, node)
    wanted = None
    if not begins and not isinstance(entry.statement.node, t.Measured):
        wanted = scope.value_of(node.name)
    verdict = _verdict(value, wanted, node)
    evaluator.working.names.setdefault(node.name, value)
    conceded = _conceded(evaluator.working, scope) if verdict is Verdict.OUT else ""
    counts = scope.last_of_piece[node.name, node.piece] == order  # earlier ones are history
    problems = (
        _measured_problems(statement, node, value, wanted, verdict, conceded) if counts else ()
    )
    if begins:
        entry.value = value
    made = MeasuredResult(
        statement,
        node.name,
        node.label,
        node.piece,
        value,
        wanted,
        verdict,
        evaluator.working,
        conceded,
        problems,
    )
    scope.readings.setdefault(node.name, []).append((order, made))
    return made


def _refuse_piece(node: t.Measured, scope: Scope) -> None:
    if node.piece is None:
        return
    why = ""
    if scope.made is None:
        why = "the front matter does not say how many are made"
    elif not 1 <= node.piece <= scope.made:
        why = f"{scope.made} are made, numbered from 1"
    if why:
        hint = "" if scope.made else f"write made: {max(2, node.piece)}"
        raise Mistake(PIECES, node.name_span, hint=hint, piece=node.piece, name=node.name, why=why)


def _reading(value: PageValue, node: t.Measured) -> PageValue:
    if not isinstance(value, Value):
        return value
    if value.tolerance_class:
        raise Mistake(READING_CLASS, node.expression.span)
    return replace(value, uncertain=True) if value.has_limits else value


def _verdict(value: PageValue, wanted: PageValue | None, node: t.Measured) -> Verdict:
    if wanted is None:
        return Verdict.NOT_ASKED
    if not isinstance(value, Value) or not isinstance(wanted, Value):
        if type(value) is not type(wanted):
            raise Mistake(
                READING_KIND,
                node.expression.span,
                name=node.name,
                wanted=kind_of(wanted),
                found=kind_of(value),
            )
        return Verdict.NOT_ASKED
    if value.unit.dimension != wanted.unit.dimension or value.unit.point != wanted.unit.point:
        raise Mistake(
            READING_KIND,
            node.expression.span,
            name=node.name,
            wanted=wanted.unit.kind,
            found=value.unit.kind,
        )
    if not wanted.has_limits:
        return Verdict.NOT_ASKED
    read = value.to(wanted.unit)
    slack = 1e-9 * max(1.0, abs(wanted.nominal))
    if wanted.min - slack <= read.min and read.max <= wanted.max + slack:
        return Verdict.IN
    if read.min > wanted.max or read.max < wanted.min:
        return Verdict.OUT
    return Verdict.CANNOT_TELL


def _measured_problems(
    statement: Statement,
    node: t.Measured,
    value: PageValue,
    wanted: PageValue | None,
    verdict: Verdict,
    conceded: str,
) -> tuple[Problem, ...]:
    if conceded:
        return (statement.problem(Mistake(CONCEDED, node.expression.span, reason=conceded)),)
    found = {Verdict.OUT: OUT_OF_LIMITS, Verdict.CANNOT_TELL: CANNOT_TELL}.get(verdict)
    if found is None:
        return ()
    mistake = Mistake(
        found,
        node.expression.span,
        name=node.name,
        found=show(value).own,
        wanted=show(wanted).own,
    )
    return (statement.problem(mistake),)
