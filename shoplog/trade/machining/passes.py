"""Stock to size in passes: equal ones or as deep as may be, with finishing passes at the end."""

from __future__ import annotations

from math import ceil, fsum

from shoplog.trade.declare import Millimetre, OutOfRange, TradeError, offered
from shoplog.trade.machining.cutting import (
    MOST_PASSES,
    require_count,
    require_positive,
    require_within,
)
from shoplog.trade.machining.pass_plan import NEAR_MM, PassPlan, plan_of, say_mm

__all__ = ["PRACTICE", "stock_passes", "turning_passes"]

PRACTICE = "arithmetic of the stock; the split is common practice, no source"
SPLITS = ("equal", "greatest")


@offered(source=PRACTICE)
def stock_passes(
    stock: Millimetre,
    greatest_depth: Millimetre,
    finishing_depth: Millimetre = 0,
    finish_passes: int = 1,
    split: str = "equal",
) -> PassPlan:
    """The passes that take a thickness of stock off a face, with a finishing pass at the end.

    Roughing takes n = ceil((H - i e)/a) passes, H the stock, a the greatest depth, i finishing
    passes of depth e.

    Parameters
    ----------
    stock : float [mm]
        Over 0; square to the surface. In turning it is on the radius: `turning_passes` takes
        diameters.
    greatest_depth : float [mm]
        Over 0; of a roughing pass.
    finishing_depth : float [mm]
        0 or more, of each finishing pass; 0 for none.
    finish_passes : int [-]
        1 to 20.
    split : str [-]
        `equal` for equal roughing passes, `greatest` for the greatest depth first and the rest
        last.

    Returns
    -------
    PassPlan [-]
        The depth of each pass; their sum is the stock.

    Raises
    ------
    OutOfRange
        The finishing passes ask for more than there is, or there would be over 1000 passes.
    TradeError
        The split is another word.

    Notes
    -----
    A spring pass, at no new setting, is not counted.

    Examples
    --------
    >>> stock_passes(6, 1.6, 0.25).describe()
    '4 roughing passes of 1.438 mm and 1 finishing pass of 0.25 mm: 6 mm in all'

    References
    ----------
    Common practice, no source.
    """
    require_positive("stock", stock, "mm")
    depths, finishing = _split(stock, greatest_depth, finishing_depth, finish_passes, split)
    return plan_of(depths, finishing)


@offered(source=PRACTICE)
def turning_passes(
    stock_diameter: Millimetre,
    finished_diameter: Millimetre,
    greatest_depth: Millimetre,
    finishing_depth: Millimetre = 0,
    finish_passes: int = 1,
    split: str = "equal",
) -> PassPlan:
    """The passes that turn or bore a diameter to size, with a finishing pass at the end.

    The stock is half the difference of the diameters: every depth is on the radius, and takes
    twice as much off the diameter.

    Parameters
    ----------
    stock_diameter : float [mm]
        Over 0; what is there.
    finished_diameter : float [mm]
        Over 0; what is wanted: smaller in turning, larger in boring.
    greatest_depth : float [mm]
        Over 0; of a roughing pass, on the radius.
    finishing_depth : float [mm]
        0 or more, of each finishing pass, on the radius; 0 for none.
    finish_passes : int [-]
        1 to 20.
    split : str [-]
        `equal` for equal roughing passes, `greatest` for the greatest depth first and the rest
        last.

    Returns
    -------
    PassPlan [-]
        The depth of each pass on the radius and the diameter after it; the last is the finished
        diameter.

    Raises
    ------
    OutOfRange
        The finishing passes ask for more than there is, or there would be over 1000 passes.
    TradeError
        The two diameters are the same, or the split is another word.

    Notes
    -----
    A cross slide whose dial reads diameter is set by twice the depth.

    Examples
    --------
    >>> turning_passes(60, 50, 2).describe()
    '3 passes of 1.667 mm: 5 mm on the radius, 10 mm of diameter'

    References
    ----------
    Common practice, no source.
    """
    require_positive("stock_diameter", stock_diameter, "mm")
    require_positive("finished_diameter", finished_diameter, "mm")
    stock = abs(stock_diameter - finished_diameter) / 2
    if stock < NEAR_MM:
        raise TradeError(
            f"the stock and the finished diameter are both {say_mm(stock_diameter)}",
            argument="finished_diameter",
        )
    depths, finishing = _split(stock, greatest_depth, finishing_depth, finish_passes, split)
    sign = -2 if finished_diameter < stock_diameter else 2
    diameters = [stock_diameter + sign * fsum(depths[: n + 1]) for n in range(len(depths) - 1)]
    return plan_of(depths, finishing, [*diameters, finished_diameter])


def _split(
    stock: float, greatest: float, finishing: float, finish_passes: int, split: str
) -> tuple[list[float], int]:
    """The depth of each pass, which come to the stock, and how many of them finish."""
    require_positive("greatest_depth", greatest, "mm")
    require_within("finishing_depth", finishing, "mm", 0, stock)
    require_count("finish_passes", finish_passes, 20)
    if split not in SPLITS:
        raise TradeError(
            f"the split is {split[:20]!r}, it must be {' or '.join(SPLITS)}", argument="split"
        )
    fine = [finishing] * finish_passes if finishing else []
    rest = stock - fsum(fine)
    if rest < -NEAR_MM:
        raise OutOfRange(
            "finishing_depth",
            finishing,
            "mm",
            most=stock / finish_passes,
            source=f"{finish_passes} finishing passes of a stock of {say_mm(stock)}",
        )
    rough = _roughing(rest, greatest, split == "equal") if rest > NEAR_MM else []
    depths = [*rough, *fine]
    if not depths or abs(fsum(depths) - stock) > NEAR_MM:
        raise TradeError(
            f"the passes come to {say_mm(fsum(depths))}, the stock is {say_mm(stock)}",
            argument="greatest_depth",
        )
    return depths, len(fine)


def _roughing(rest: float, greatest: float, equal: bool) -> list[float]:
    if rest > MOST_PASSES * greatest:
        raise OutOfRange(
            "greatest_depth",
            greatest,
            "mm",
            least=rest / MOST_PASSES,
            source=f"{MOST_PASSES} passes at most",
        )
    count = max(ceil((rest - NEAR_MM) / greatest), 1)
    if equal:
        return [rest / count] * count
    return [*[greatest] * (count - 1), rest - (count - 1) * greatest]
