"""No number, however odd, leaves a formula of holes, keys and standard parts as another error."""

from __future__ import annotations

from math import inf, nan
from typing import Any

import pytest

from shoplog.trade.declare import In, TradeError
from shoplog.trade.fastening.circlips import circlip_for_shaft
from shoplog.trade.fastening.keys import parallel_key
from shoplog.trade.fastening.o_rings import ORing
from shoplog.trade.hole_work.centre_drills import CentreDrill
from shoplog.trade.hole_work.hole_patterns import hole_row
from shoplog.trade.offers import OFFERS

TOPICS = {
    *("hole_patterns", "hole_readout", "hole_walls", "drilling", "centre_drills", "keys"),
    *("woodruff", "flats", "circlips", "pins", "o_rings", "countersinks"),
}
GOOD: dict[str, dict[str, Any]] = {
    "blind_hole": {"thickness": 20.0, "full_depth": 10.0, "diameter": 8.0, "point_angle": 118.0},
    "centre_depth": {"drill": CentreDrill.from_text("A 2.5"), "cone_diameter": 5.0},
    "centre_drill_for": {"work_diameter": 20.0},
    "circlip_for_bore": {"diameter": 32.0},
    "circlip_for_shaft": {"diameter": 25.0},
    "countersink_depth": {"diameter": 10.0, "hole": 5.0, "angle": 90.0},
    "countersink_diameter": {"depth": 2.0, "hole": 5.0, "angle": 90.0},
    "d_flat_across": {"diameter": 10.0, "depth": 2.0, "flats": 1},
    "distance_over_pins": {"distance": 50.0, "pin": 6.0, "other_pin": 8.0},
    "drilling_order": {"diameter": 20.0, "finish": "ream", "most_step": 5.0},
    "edge_wall": {"centre_to_edge": 12.0, "diameter": 8.0},
    "finishing_allowance": {"diameter": 12.0},
    "flat_depth": {"diameter": 10.0, "width": 6.0},
    "flat_width": {"diameter": 10.0, "depth": 1.0},
    "groove_wall": {"circlip": circlip_for_shaft(25), "other_diameter": 12.0},
    "hole_arc": {
        "diameter": 80.0,
        "holes": 3,
        "start_angle": 0.0,
        "end_angle": 90.0,
        "centre_x": 1.0,
        "centre_y": 1.0,
    },
    "hole_distance": {"pattern": hole_row(3, 20), "first": 1, "second": 3},
    "hole_grid": {
        "columns": 3,
        "rows": 2,
        "column_spacing": 40.0,
        "row_spacing": 30.0,
        "angle": 10.0,
        "first_x": 1.0,
        "first_y": 1.0,
    },
    "hole_readout": {"pattern": hole_row(3, 20), "zero_x": 1.0, "zero_y": 1.0},
    "hole_row": {"holes": 3, "spacing": 20.0, "angle": 10.0, "first_x": 1.0, "first_y": 1.0},
    "hub_wall": {"outside_diameter": 50.0, "seat": parallel_key(25).hub},
    "inch_parallel_key": {"shaft_diameter": 25.4},
    "keyway_across": {"diameter": 30.0, "depth": 4.0},
    "keyway_depth": {"diameter": 30.0, "depth_from_flat": 3.5, "width": 8.0},
    "mirrored_holes": {"pattern": hole_row(3, 20), "across": "x", "at": 5.0},
    "moved_holes": {"pattern": hole_row(3, 20), "along_x": 5.0, "along_y": 5.0},
    "o_ring_groove": {"section": 3.53},
    "o_ring_in_bore": {"rod": 12.0, "section": 2.62},
    "o_ring_on_piston": {"bore": 30.0, "section": 3.53},
    "o_ring_stretch": {"ring": ORing.from_text("210"), "groove_diameter": 19.0},
    "parallel_key": {"shaft_diameter": 25.0},
    "parallel_pin": {"diameter": 6.0},
    "pilot_drill": {"diameter": 20.0},
    "polygon_on_round": {"diameter": 20.0, "sides": 6, "across_flats": 17.0},
    "retaining_washer": {"diameter": 10.0, "groove": 9.0},
    "round_for_polygon": {"across_flats": 17.0, "sides": 6},
    "spring_pin": {"diameter": 4.0},
    "square_hole": {"side": 6.45, "leave": 0.1},
    "through_travel": {
        "thickness": 12.0,
        "diameter": 8.0,
        "point_angle": 118.0,
        "overrun": 1.0,
    },
    "turned_holes": {"pattern": hole_row(3, 20), "angle": 10.0, "about_x": 1.0, "about_y": 1.0},
    "wall_between": {"distance": 30.0, "diameter": 8.0, "other_diameter": 12.0},
    "woodruff_key": {"size": "5x6.5x16", "shaft_diameter": 17.0},
    "woodruff_key_for": {"shaft_diameter": 17.0},
}
ODD = (0.0, -1.0, 1e-300, 5e-324, 1e-9, 0.3, 7.3, 1e9, 1e100, -1e100, inf, -inf, nan)


def takes_a_number(name: str) -> bool:
    kinds = [kind for parameter in OFFERS[name].parameters for kind in parameter.kinds]
    return any(isinstance(kind, In) or kind is int for kind in kinds)


def test_every_formula_that_takes_a_number_is_tried() -> None:
    offered = {name for name, offer in OFFERS.items() if offer.topic in TOPICS}
    assert {name for name in offered if takes_a_number(name)} == set(GOOD)


def outcome(name: str, given: dict[str, Any]) -> tuple[str, str]:
    """The argument at fault and why, or `""` and what was given back."""
    try:
        made = OFFERS[name].function(**given)
    except TradeError as refused:
        return refused.argument or "the call", refused.message
    return "", made.describe() if hasattr(made, "describe") else str(made)


@pytest.mark.parametrize("name", GOOD)
def test_the_good_numbers_are_answered(name: str) -> None:
    assert outcome(name, GOOD[name])[0] == ""


@pytest.mark.parametrize("name", GOOD)
@pytest.mark.parametrize("odd", ODD)
def test_an_odd_number_is_answered_or_refused_by_the_name_of_its_argument(
    name: str, odd: float
) -> None:
    arguments = {parameter.name for parameter in OFFERS[name].parameters}
    for argument, value in GOOD[name].items():
        if isinstance(value, float | int):
            fault, text = outcome(name, GOOD[name] | {argument: odd})
            assert text
            if fault:
                assert fault in {*arguments, "the call"}, text
            else:
                assert "nan" not in text
                assert "inf " not in text
