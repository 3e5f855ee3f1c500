"""The formulas of the trade: plain functions on floats, one module a subject.

Importing this package offers them all: `OFFERS` then holds each under its name.
"""

from shoplog.trade import cutting, drills, fits, holes, tapers, threads
from shoplog.trade.declare import OFFERS

__all__ = ["OFFERS", "cutting", "drills", "fits", "holes", "tapers", "threads"]
