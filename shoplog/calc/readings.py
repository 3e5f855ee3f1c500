"""Readings: what was found of a size, beside what was wanted."""

from __future__ import annotations

from dataclasses import replace

from shoplog.calc import tree as t
from shoplog.calc.evaluate import Evaluator
from shoplog.calc.formulas import kind_of
from shoplog.calc.results import MeasuredResult, PageValue, Verdict
from shoplog.calc.scope import BELOW, Scope
from shoplog.calc.show import show
from shoplog.calc.statements import Statement
from shoplog.problems import Grade, Mistake, Problem, message, near
from shoplog.values import Value

__all__ = ["CONCEDED", "reading"]

CONCEDED = message("conceded", "conceded: {reason}", grade=Grade.CAUTION, example="")
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
NEAR_NAME = message(
    "measured-new",
    "`{name}` begins a new name; nothing wanted goes by it",
    hint="did you mean {close}?",
    example="bore = 16 mm H7\nmeasured boer = 16.05 mm",
    grade=Grade.CAUTION,
)
PIECES = message(
    "reading-pieces",
    "piece {piece} of {name}: {why}",
    example="a = 16 mm H7\nmeasured a 2 = 16.009 mm",
)


def reading(
    statement: Statement, node: t.Measured, order: int, scope: Scope, evaluator: Evaluator
) -> MeasuredResult:
    """What a `measured` statement gives: the reading, beside what was wanted.

    Raises
    ------
    Mistake
        The name is given below, the piece is none of those made, or the reading is of another kind.
    """
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
    counts = scope.last_of_piece[node.name, node.piece] == order
    conceded = scope.concede(node.name) if counts and verdict is Verdict.OUT else ""
    problems = (
        _measured_problems(statement, node, value, wanted, verdict, conceded) if counts else ()
    )
    if begins:
        entry.value = value
        problems += _misspelt(statement, node, order, scope)
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
        counts,
    )
    scope.readings.setdefault(node.name, []).append((order, made))
    return made


def _misspelt(
    statement: Statement, node: t.Measured, order: int, scope: Scope
) -> tuple[Problem, ...]:
    """A reading of a name that is nearly that of a wanted size, and so is held to no limits."""
    wanted = [
        name
        for name, entry in scope.entries.items()
        if entry.order < order and isinstance(entry.statement.node, t.Assign)
    ]
    close = near(node.name, wanted)
    if not close:
        return ()
    return (statement.problem(Mistake(NEAR_NAME, node.name_span, name=node.name, close=close)),)


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
