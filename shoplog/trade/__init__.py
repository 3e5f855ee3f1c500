"""The formulas of the trade: plain functions on floats, one module a subject, in rooms by subject.

Importing this package imports none of them, so that who needs one pays for one. All that pages may
call is in `shoplog.trade.offers`.
"""
