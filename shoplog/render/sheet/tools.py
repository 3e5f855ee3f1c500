"""What to lay out before a page's work begins: cutters, drills and taps by size, and holding."""

from __future__ import annotations

from collections.abc import Iterator

from shoplog.calc.results import Result
from shoplog.calc.show import show
from shoplog.log.report import PageReport, SetupField
from shoplog.log.setups.cutters import Cutter
from shoplog.render.sheet.work import setups_in_order
from shoplog.trade.declare import TradeError
from shoplog.trade.hole_work.centre_drills import CentreDrill
from shoplog.trade.hole_work.drill_sets import Drill, DrillChoice, read_drill
from shoplog.trade.screw_threads.tapping import TapDrill
from shoplog.units import unit
from shoplog.values import Value

__all__ = ["tools_of"]


def tools_of(report: PageReport, results: list[Result]) -> Iterator[str]:
    """What to lay out: cutters, drills and taps by their size, and what holds the work."""
    setups = [setup.fields for _, setup in setups_in_order(report)]
    for fields in setups:
        if "cutter" in fields:
            yield _cutter(fields["cutter"])
        if "drill" in fields:
            yield _named_drill(fields["drill"].text)
    for one in results:
        match one.value:
            case TapDrill(drill=drill, thread=thread):
                yield _drill(drill)
                yield f"tap {thread.designation}"
            case Drill() as drill:
                yield _drill(drill)
            case DrillChoice(nearest=drill):
                yield _drill(drill)
            case CentreDrill(designation=designation):
                yield f"centre drill {designation}"
    for fields in setups:
        if "holding" in fields:
            yield fields["holding"].text


def _cutter(fact: SetupField) -> str:
    """A cutter as its author wrote it; one of the shop profile with what it is."""
    cutter = fact.value
    return cutter.describe() if isinstance(cutter, Cutter) and cutter.name else fact.text


def _named_drill(text: str) -> str:
    """A drill by the name that a setup gives it; with its size, where the name is a drill's."""
    try:
        return _drill(read_drill(text))
    except TradeError:
        return f"drill {text}"


def _drill(drill: Drill) -> str:
    """A drill by what stands on it, and by what a caliper says of it.

    >>> _drill(read_drill("#7")), _drill(read_drill("6.8 mm"))
    ('drill #7 (0.2010 in, 5.105 mm)', 'drill 6.8 mm (0.2677 in)')
    """
    shown = show(Value(drill.diameter, unit("mm")))
    sizes = [shown.inch] if drill.designation.endswith("mm") else [shown.inch, shown.metric]
    return f"drill {drill.designation} ({', '.join(sizes)})"
