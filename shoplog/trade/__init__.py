"""The formulas of the trade: plain functions on floats, one module a subject.

Importing this package offers them all: `OFFERS` then holds each under its name.
"""

from importlib import import_module
from pkgutil import iter_modules

from shoplog.trade.declare import OFFERS

__all__ = ["OFFERS"]

for _module in iter_modules(__path__):  # a new subject is offered by being here
    import_module(f"{__name__}.{_module.name}")
