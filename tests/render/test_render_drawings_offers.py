"""Whatever record a formula of the joints gives, its picture is drawn without a fault."""

from __future__ import annotations

from math import inf, nan
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from picture_reader import Drawn, faults

from shoplog.log import report_of_text
from shoplog.problems import Grade
from shoplog.render.page import view_of_text
from shoplog.render.pictures.declare import PICTURES
from shoplog.render.pictures.drawing import USUAL, drawing
from shoplog.trade.declare import Size, TradeError
from shoplog.trade.fastening.screws import Screw
from shoplog.trade.hole_work.hole_patterns import hole_row
from shoplog.trade.limits_and_fits.fits import limits_of
from shoplog.trade.offers import OFFERS
from shoplog.trade.press_fits.elastic import ElasticMaterial
from shoplog.trade.screw_threads.threads import Thread
from shoplog.trade.taper_work.gauge_blocks import BlockSet
from shoplog.trade.taper_work.tapers import Taper

JOINTS = {
    *("engagement", "fit", "flats", "holes", "keyway", "press_fit", "seats", "sine_bar"),
    *("stack", "tap_drill", "taper", "taper_setup", "tapped_hole", "thread", "thread_zones"),
}
KINDS = {kind for kind, one in PICTURES.items() if one.draw.__module__.split(".")[-1] in JOINTS}
H7, S6, M8 = limits_of(30, "H7"), limits_of(30, "s6"), Thread.from_text("M8")
STEEL, BLOCKS = ElasticMaterial.from_text("42CrMo4"), BlockSet.from_text("metric 88")
ROW, ONE_IN_20 = hole_row(3, 20), Taper.from_text("1:20")
GOOD: dict[str, dict[str, Any]] = {
    "bearing_bore": {"diameter": 25.0},
    "bearing_housing_seat": {"diameter": 52.0},
    "bearing_outside": {"diameter": 52.0},
    "bearing_shaft_seat": {"diameter": 25.0},
    "bolt_circle": {"diameter": 66.0, "holes": 4, "start_angle": 45.0, "centre_x": 1.0},
    "compound_setting": {"taper": ONE_IN_20},
    "counterbore": {"screw": Screw.from_text("ISO 4762 M6"), "diameter": 11.0},
    "countersink_for": {"size": "M5"},
    "engagement_strength": {"thread": M8, "length": 8.0, "screw": 800.0, "hole": 300.0},
    "fit": {"hole": H7, "shaft": S6},
    "fit_for": {"duty": "runs freely", "diameter": 20.0},
    "flatted_round": {"diameter": 6.0, "depth": 1.5, "flats": 1},
    "gauge_block_stack": {"height": 37.456, "blocks": BLOCKS},
    "hole_arc": {"diameter": 80.0, "holes": 3, "start_angle": 0.0, "end_angle": 90.0},
    "hole_grid": {"columns": 3, "rows": 2, "column_spacing": 40.0, "row_spacing": 30.0},
    "hole_readout": {"pattern": ROW, "zero_x": 1.0, "zero_y": 1.0},
    "hole_row": {"holes": 3, "spacing": 20.0, "angle": 10.0, "first_x": 1.0, "first_y": 1.0},
    "holes_at": {"x": [0.0, 40.0], "y": [0.0, 12.5]},
    "inch_fit": {"fit_class": "RC3", "diameter": 1.0},
    "inch_fit_for": {"duty": "runs freely", "diameter": 1.0},
    "inch_parallel_key": {"shaft_diameter": 25.4},
    "indicator_finding": {"taper": ONE_IN_20, "travel": 50.0, "rise": 1.26},
    "indicator_setting": {"taper": ONE_IN_20, "travel": 50.0, "reading_error": 0.01},
    "least_engagement": {"thread": M8, "screw": 800.0, "hole": 300.0, "shear_share": 0.5},
    "metric_thread_limits": {"diameter": 45.0, "pitch": 1.0, "tolerance_class": "6H"},
    "mirrored_holes": {"pattern": ROW, "across": "x", "at": 5.0},
    "moved_holes": {"pattern": ROW, "along_x": 5.0, "along_y": 5.0},
    "o_ring_in_bore": {"rod": 12.0, "section": 2.62},
    "o_ring_on_piston": {"bore": 30.0, "section": 3.53},
    "parallel_key": {"shaft_diameter": 25.0},
    "polygon_on_round": {"diameter": 20.0, "sides": 6, "across_flats": 17.0},
    "press_fit": {
        "hole": H7, "shaft": S6, "length": 25.0, "hub_diameter": 60.0, "hub": STEEL,
        "shaft_material": STEEL, "shaft_bore": 10.0, "hub_roughness": 6.3,
    },
    "pressed_bush": {
        "hole": H7, "bush": S6, "bore": limits_of(20, "H7"), "length": 25.0,
        "housing_diameter": 60.0, "bush_material": STEEL, "housing": STEEL,
    },
    "reamer_limits": {"hole": H7},
    "round_for_polygon": {"across_flats": 17.0, "sides": 6},
    "screw_countersink": {"screw": Screw.from_text("ISO 10642 M5")},
    "sine_bar": {"centres": 100.0, "angle": 25.0, "blocks": BLOCKS, "within": 1.0},
    "square_hole": {"side": 10.0, "leave": 0.1},
    "tailstock_set_over": {"taper": ONE_IN_20, "length": 200.0, "centre_depth": 4.0},
    "tap_drill": {"thread": M8, "percent": 75.0},
    "taper": {"designation": "Morse 2"},
    "taper_from_angle": {"included_angle": 60.0},
    "taper_from_set_over": {"set_over": 2.0, "length": 200.0, "centre_depth": 4.0},
    "taper_pin": {"designation": "6 mm", "length": 30.0},
    "tapped_hole": {"thread": M8, "full_thread": 12.0, "room": 2.0, "point_angle": 118.0},
    "thread": {"designation": "M8"},
    "thread_in_hole": {"thread": M8, "drill_depth": 24.0, "room": 2.0, "point_angle": 118.0},
    "thread_limits": {"thread": M8, "tolerance_class": "6g"},
    "turned_holes": {"pattern": ROW, "angle": 10.0, "about_x": 1.0, "about_y": 1.0},
    "woodruff_key": {"size": "5x6.5x16", "shaft_diameter": 17.0},
    "woodruff_key_for": {"shaft_diameter": 17.0},
}  # fmt: skip
ODD = (
    0.0,
    -1.0,
    1e-300,
    1e-9,
    1e-4,
    0.3,
    1.0,
    7.3,
    29.999,
    99.0,
    200.0,
    3150.0,
    1e9,
    1e100,
    inf,
    nan,
)


def drawn_kinds(name: str) -> set[Any]:
    return KINDS & set(OFFERS[name].returns)


def test_every_formula_that_gives_a_joint_with_a_picture_is_tried() -> None:
    assert {name for name in OFFERS if drawn_kinds(name)} == set(GOOD)


@pytest.mark.parametrize("name", GOOD)
def test_what_a_formula_gives_is_drawn(name: str) -> None:
    value = OFFERS[name].function(**GOOD[name])
    drawn = Drawn(value)
    assert faults(drawn) == []
    assert drawn.names


@pytest.mark.parametrize("name", GOOD)
def test_an_odd_number_that_a_formula_takes_is_drawn_too(name: str) -> None:
    for argument, good in GOOD[name].items():
        for odd in ODD if isinstance(good, float | int) else ():
            try:
                value = OFFERS[name].function(**GOOD[name] | {argument: odd})
            except TradeError:
                continue
            assert faults(Drawn(value)) == [], f"{argument} = {odd}"


FLOATS = st.one_of(
    st.floats(1e-6, 1e6), st.floats(0.1, 200), st.floats(-1e6, 1e6), st.integers(0, 200)
)


@pytest.mark.parametrize("name", [name for name in GOOD if name not in ("fit", "reamer_limits")])
@settings(max_examples=25, suppress_health_check=[HealthCheck.filter_too_much])
@given(data=st.data())
def test_numbers_drawn_by_lot_are_drawn_without_a_fault(name: str, data: st.DataObject) -> None:
    given_here = dict(GOOD[name])
    for argument, good in GOOD[name].items():
        if isinstance(good, float | int):
            given_here[argument] = data.draw(FLOATS, argument)
    try:
        value = OFFERS[name].function(**given_here)
    except TradeError:
        return
    assert faults(Drawn(value)) == []


@given(st.floats(0.001, 3000), st.floats(-50, 50), st.floats(0, 50))
def test_any_size_is_drawn_without_a_fault(nominal: float, lower: float, spread: float) -> None:
    size = Size(nominal, lower, lower + spread)
    assert faults(Drawn(size)) == []


PAGE = """# Joints

```calc
running = fit(16 mm H7, 16 mm f7)
draw running
stay    = 4-3/4 in ±0.005
gap     = stay - 116.5 mm ±0.1 to mm
draw gap
draw gap.min
screw   = thread("M8")
draw screw
draw screw.major
alloy   = elastic_material("<b onload=x>&", youngs_modulus=70 GPa, poisson=0.33)
pressed = press_fit(30 mm H7, 30 mm s6, 25 mm, 60 mm, hub=alloy)
draw pressed
key     = parallel_key(30 mm)
draw key.shaft
```
"""


def test_a_page_draws_values_and_says_of_others_that_they_have_no_picture() -> None:
    html = view_of_text(PAGE).block_html(0)
    assert html.count("<svg") == 5
    assert html.count("has no picture; what can be drawn: ") == 2
    assert "screw.major (8.000 mm) has no picture" in html
    assert "<b onload" not in html
    assert report_of_text(PAGE, "page.md").count(Grade.PROBLEM) == 0


def test_a_note_names_the_usual_kinds_and_counts_the_others() -> None:
    html = str(drawing("words", "name", "drawing"))
    kinds, _, more = html.partition("what can be drawn: ")[2].partition("<")[0].partition(" and ")
    assert set(kinds.split(", ")) == USUAL
    assert more == f"{len(PICTURES) - len(USUAL)} kinds more"
    called = [one.called for one in PICTURES.values()]
    assert len(called) == len(set(called))
