"""A round with flats as a record."""

from __future__ import annotations

from math import hypot

import pytest

from shoplog.trade.declare import TradeError
from shoplog.trade.hole_work.d_shafts import flatted_round
from shoplog.trade.hole_work.flats import d_flat_across, flat_width


def test_one_flat_goes_to_the_far_side_and_two_from_flat_to_flat() -> None:
    one, two = flatted_round(20, 3), flatted_round(20, 3, 2)
    assert (one.across, two.across) == (17, 14)
    assert one.across == d_flat_across(20, 3)
    assert one.width == two.width == flat_width(20, 3)
    # A right triangle from the middle: half the width, the distance to the flat, the radius.
    assert hypot(one.width / 2, 10 - 3) == pytest.approx(10)


def test_the_sentence_names_what_is_measured() -> None:
    assert flatted_round(6, 1.5).describe() == (
        "Round 6.000 mm with a flat 1.500 mm deep, 5.196 mm wide: 4.500 mm to the far side."
    )
    assert flatted_round(20, 3, 2).describe().endswith("14.000 mm from flat to flat.")


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((0, 1), "diameter is 0 mm, it must be over 0 mm"),
        ((6, 3.5), "depth is 3.5 mm, it must be over 0 mm and at most 3 mm"),
        ((6, 3, 2), "depth is 3 mm, it must be over 0 mm and below 3 mm"),
        ((6, 1, 3), "flats is 3, it must be at least 1 and at most 2"),
        ((6, 1, 1.5), "flats is 1.5, it must be a whole number"),
    ],
)
def test_what_is_no_flat_is_refused(arguments: tuple[float, ...], message: str) -> None:
    with pytest.raises(TradeError) as told:
        flatted_round(*arguments)  # type: ignore[arg-type]
    assert str(told.value).startswith(message)
