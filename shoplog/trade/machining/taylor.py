"""Taylor's law of tool life, v T^n = C, there and back."""

from __future__ import annotations

from math import exp, log

from shoplog.trade.declare import MetrePerMinute, Minute, Number, TradeError, offered
from shoplog.trade.machining.cutting import require_positive, require_within

__all__ = [
    "LEAST_MINUTES",
    "LEAST_SPEED",
    "MOST_MINUTES",
    "MOST_SPEED",
    "no_life",
    "require_exponent",
    "taylor_constant",
    "taylor_exponent",
    "taylor_life",
    "taylor_speed",
]

TAYLOR = "F. W. Taylor 1907, v T^n = C; Groover, 4th ed. 2010, eq. 23.1 (from memory)"
LEAST_EXPONENT, MOST_EXPONENT = 0.04, 0.95
# Beyond these no edge is worn in a workshop: a tenth of a second, and two years of cutting.
LEAST_MINUTES, MOST_MINUTES = 1e-3, 1e6
LEAST_SPEED, MOST_SPEED = 1e-3, 1e6


def require_exponent(exponent: float) -> None:
    """Refuse what is no exponent of any cutter material."""
    require_within("exponent", exponent, "", LEAST_EXPONENT, MOST_EXPONENT)


@offered(source=TAYLOR)
def taylor_speed(tool_life: Minute, constant: MetrePerMinute, exponent: Number) -> MetrePerMinute:
    """Cutting speed at which an edge lasts a time.

    v = C / T^n, with C the speed for one minute and T in minutes.

    Parameters
    ----------
    tool_life : float [min]
        0.001 to 1000000.
    constant : float [m/min]
        Over 0; C of this cutter, work, feed and depth.
    exponent : float [-]
        0.04 to 0.95; n of the cutter material.

    Returns
    -------
    float [m/min]
        Cutting speed.

    Raises
    ------
    OutOfRange
        A value is outside its range.

    Notes
    -----
    Drawn through tests of about 5 to 120 minutes, at one feed, depth and limit of wear.

    Examples
    --------
    >>> round(taylor_speed(60, 100, 0.125), 2)
    59.94

    References
    ----------
    F. W. Taylor 1907; Groover, 4th ed. 2010, eq. 23.1 (from memory).
    """
    require_within("tool_life", tool_life, "min", LEAST_MINUTES, MOST_MINUTES)
    require_within("constant", constant, "m/min", LEAST_SPEED, MOST_SPEED)
    require_exponent(exponent)
    return float(constant / tool_life**exponent)


@offered(source=TAYLOR)
def taylor_life(
    cutting_speed: MetrePerMinute, constant: MetrePerMinute, exponent: Number
) -> Minute:
    """Time that an edge lasts at a cutting speed.

    T = (C / v)^(1/n), with C the speed for one minute.

    Parameters
    ----------
    cutting_speed : float [m/min]
        0.001 to 1000000.
    constant : float [m/min]
        Over 0; C of this cutter, work, feed and depth.
    exponent : float [-]
        0.04 to 0.95; n of the cutter material.

    Returns
    -------
    float [min]
        Tool life.

    Raises
    ------
    OutOfRange
        A value is outside its range, or the life is beyond any sense.

    Notes
    -----
    As for `taylor_speed`. A small error of the speed is a large one of the life.

    Examples
    --------
    >>> round(taylor_life(50, 100, 0.25), 6)
    16.0

    References
    ----------
    F. W. Taylor 1907; Groover, 4th ed. 2010, eq. 23.1 (from memory).
    """
    require_within("cutting_speed", cutting_speed, "m/min", LEAST_SPEED, MOST_SPEED)
    require_positive("constant", constant, "m/min")
    require_exponent(exponent)
    _require_life(log(constant / cutting_speed) / exponent)
    return float((constant / cutting_speed) ** (1 / exponent))


@offered(source=TAYLOR)
def taylor_constant(
    cutting_speed: MetrePerMinute, tool_life: Minute, exponent: Number
) -> MetrePerMinute:
    """Taylor's constant from one run: the speed at which that edge would last one minute.

    C = v T^n.

    Parameters
    ----------
    cutting_speed : float [m/min]
        0.001 to 1000000; of the run.
    tool_life : float [min]
        0.001 to 1000000; how long the edge lasted.
    exponent : float [-]
        0.04 to 0.95; n of the cutter material.

    Returns
    -------
    float [m/min]
        The constant C.

    Raises
    ------
    OutOfRange
        A value is outside its range.

    Notes
    -----
    No speed to run at: it holds the law in place.

    Examples
    --------
    >>> round(taylor_constant(25, 60, 0.125), 2)
    41.71

    References
    ----------
    F. W. Taylor 1907; Groover, 4th ed. 2010, eq. 23.1 (from memory).
    """
    require_within("cutting_speed", cutting_speed, "m/min", LEAST_SPEED, MOST_SPEED)
    require_within("tool_life", tool_life, "min", LEAST_MINUTES, MOST_MINUTES)
    require_exponent(exponent)
    return float(cutting_speed * tool_life**exponent)


@offered(source=TAYLOR)
def taylor_exponent(
    first_speed: MetrePerMinute,
    first_life: Minute,
    second_speed: MetrePerMinute,
    second_life: Minute,
) -> Number:
    """Taylor's exponent from two runs that differ in speed alone.

    n = ln(v1/v2) / ln(T2/T1).

    Parameters
    ----------
    first_speed : float [m/min]
        0.001 to 1000000.
    first_life : float [min]
        0.001 to 1000000.
    second_speed : float [m/min]
        Another than the first.
    second_life : float [min]
        Another than the first; longer at the lower speed.

    Returns
    -------
    float [-]
        The exponent n.

    Raises
    ------
    TradeError
        The two runs are alike, or the faster one lasted longer.

    Notes
    -----
    Two runs tell little: an edge's life scatters by half and more. Repeat them.

    Examples
    --------
    >>> round(taylor_exponent(60, 81, 90, 36), 6)
    0.5

    References
    ----------
    F. W. Taylor 1907; Groover, 4th ed. 2010, eq. 23.1 (from memory).
    """
    for argument, speed in (("first_speed", first_speed), ("second_speed", second_speed)):
        require_within(argument, speed, "m/min", LEAST_SPEED, MOST_SPEED)
    for argument, life in (("first_life", first_life), ("second_life", second_life)):
        require_within(argument, life, "min", LEAST_MINUTES, MOST_MINUTES)
    if (first_speed - second_speed) * (second_life - first_life) <= 0:
        raise TradeError(
            f"{first_speed:g} m/min lasted {first_life:g} min and {second_speed:g} m/min"
            f" {second_life:g} min: the faster run must be the shorter",
            hint="something else changed, or a built-up edge broke the law",
            argument="second_life",
        )
    return log(first_speed / second_speed) / log(second_life / first_life)


def _require_life(logarithm: float) -> None:
    """Refuse a life beyond any sense by its logarithm; the life itself may be too large to hold."""
    if not log(LEAST_MINUTES) <= logarithm <= log(MOST_MINUTES):
        life = exp(min(max(logarithm, -200.0), 200.0))
        hint = "this speed is too far from what the constant was found at"
        raise no_life(life, "cutting_speed", hint)


def no_life(life: float, argument: str, hint: str) -> TradeError:
    """What is said of a life beyond any sense."""
    return TradeError(
        f"the tool life comes to {life:.3g} min, it must be at least {LEAST_MINUTES:g} min and"
        f" at most {MOST_MINUTES:.0f} min",
        hint=hint,
        argument=argument,
    )
