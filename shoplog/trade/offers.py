"""Every formula that pages may call: importing this module offers them all.

`OFFERS` then holds each under its name.
"""

from importlib import import_module
from pkgutil import walk_packages

from shoplog import trade
from shoplog.trade.declare import OFFERS

__all__ = ["OFFERS"]

# A new subject is offered by being here.
for _module in walk_packages(trade.__path__, f"{trade.__name__}."):
    import_module(_module.name)
