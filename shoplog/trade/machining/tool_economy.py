"""The tool life and the cutting speed at which a job costs least, or takes least time."""

from __future__ import annotations

from shoplog.trade.declare import MetrePerMinute, Minute, Number, offered
from shoplog.trade.machining.cutting import require_positive, require_within
from shoplog.trade.machining.taylor import (
    LEAST_MINUTES,
    LEAST_SPEED,
    MOST_MINUTES,
    MOST_SPEED,
    no_life,
    require_exponent,
)

__all__ = ["economic_life", "economic_speed"]

LEAST_COST = (
    "Ghosh and Mallik, Manufacturing Science, examples 4.26 and 4.28; Rao, Manufacturing"
    " Technology 2, 2nd ed. 2009, eq. 2.109 and 2.110"
)


@offered(source=LEAST_COST)
def economic_life(
    exponent: Number,
    change_time: Minute,
    edge_cost: Number = 0,
    cost_per_minute: Number = 1,
) -> Minute:
    """Life of an edge at which a job costs least; with no price of the edge, takes least time.

    T = (1/n - 1) (tc + Ce/Cm), with tc the time to change the edge, Ce what an edge costs and Cm
    what a minute of machine and hand costs.

    Parameters
    ----------
    exponent : float [-]
        0.04 to 0.95; n of the cutter material.
    change_time : float [min]
        0 to 1000; to change or to sharpen and set the edge.
    edge_cost : float [-]
        0 or more; in any money.
    cost_per_minute : float [-]
        Over 0; in the same money.

    Returns
    -------
    float [min]
        Tool life to aim at.

    Raises
    ------
    OutOfRange
        A value is outside its range, or edges cost and take nothing.

    Notes
    -----
    The cost is flat about the least: a life of half or of twice this costs little more.

    Examples
    --------
    >>> economic_life(0.25, 2)
    6.0

    References
    ----------
    Ghosh and Mallik, Manufacturing Science, examples 4.26 and 4.28; Rao, Manufacturing
    Technology 2, 2nd ed. 2009, eq. 2.109 and 2.110.
    """
    _require_costs(exponent, change_time, edge_cost, cost_per_minute)
    return (1 / exponent - 1) * (change_time + edge_cost / cost_per_minute)


@offered(source=LEAST_COST)
def economic_speed(
    constant: MetrePerMinute,
    exponent: Number,
    change_time: Minute,
    edge_cost: Number = 0,
    cost_per_minute: Number = 1,
) -> MetrePerMinute:
    """Cutting speed at which a job costs least; with no price of the edge, takes least time.

    v = C / T^n at T = (1/n - 1) (tc + Ce/Cm).

    Parameters
    ----------
    constant : float [m/min]
        Over 0; C of this cutter, work, feed and depth.
    exponent : float [-]
        0.04 to 0.95; n of the cutter material.
    change_time : float [min]
        0 to 1000; to change or to sharpen and set the edge.
    edge_cost : float [-]
        0 or more; in any money.
    cost_per_minute : float [-]
        Over 0; in the same money.

    Returns
    -------
    float [m/min]
        Cutting speed.

    Raises
    ------
    OutOfRange
        A value is outside its range, or edges cost and take nothing.

    Notes
    -----
    A small machine seldom has the power for it; in a one-person workshop sharpening is the dear
    part, and a lower speed the better one.

    Examples
    --------
    >>> round(economic_speed(75, 0.25, 2, 2.5, 0.15), 2)
    27.42

    References
    ----------
    Ghosh and Mallik, Manufacturing Science, examples 4.26 and 4.28; Rao, Manufacturing
    Technology 2, 2nd ed. 2009, eq. 2.109 and 2.110.
    """
    require_within("constant", constant, "m/min", LEAST_SPEED, MOST_SPEED)
    _require_costs(exponent, change_time, edge_cost, cost_per_minute)
    return float(
        constant / ((1 / exponent - 1) * (change_time + edge_cost / cost_per_minute)) ** exponent
    )


def _require_costs(exponent: float, change: float, edge: float, minute: float) -> None:
    require_exponent(exponent)
    require_within("change_time", change, "min", 0, 1000)
    require_within("edge_cost", edge, "", 0, 1e9)
    require_positive("cost_per_minute", minute, "")
    life = (1 / exponent - 1) * (change + edge / minute)
    if not LEAST_MINUTES <= life <= MOST_MINUTES:
        hint = "give the time to change the edge, or what the edge costs"
        raise no_life(life, "change_time", hint)
