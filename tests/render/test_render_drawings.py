"""Pictures: their coordinates are those of the result, and they say in words what they show."""

import re
from math import hypot, isclose
from xml.etree import ElementTree

import pytest

from shoplog.render.pictures.drawing import drawing
from shoplog.trade.declare import Size
from shoplog.trade.hole_work.holes import bolt_circle
from shoplog.trade.limits_and_fits.fits import fit, limits_of

SVG = "{http://www.w3.org/2000/svg}"


def picture(value, anchor="drawing"):
    html = drawing(value, "running", anchor)
    return ElementTree.fromstring(re.search(r"<svg.*</svg>", html, flags=re.DOTALL)[0])


def of_class(svg, name):
    return [part for part in svg.iter() if name in part.get("class", "").split()]


def ends(line):
    numbers = [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?(?:e-?\d+)?", line.get("d"))]
    return numbers[:2], numbers[2:]


def words(svg):
    return [part.text for part in svg.iter(f"{SVG}text")]


FITS = {
    "clearance": fit(limits_of(16, "H7"), limits_of(16, "f7")),
    "transition": fit(limits_of(30, "H7"), limits_of(30, "k6")),
    "interference": fit(limits_of(30, "H7"), limits_of(30, "p6")),
    "wide": fit(limits_of(25, "H11"), limits_of(25, "c11")),
    "thin": fit(Size(10, 0, 0.0005), Size(10, -0.4, -0.3995)),
}


@pytest.mark.parametrize("found", FITS.values(), ids=FITS)
def test_the_zones_of_a_fit_are_its_limits_to_scale_about_the_zero_line(found):
    svg = picture(found)
    (_, zero), _ = ends(of_class(svg, "shoplog-zero")[0])
    sizes = (found.hole, found.shaft)
    deviations = [1000 * edge for size in sizes for edge in (size.lower, size.upper)]
    edges = []
    for name in ("shoplog-hole", "shoplog-shaft"):
        (zone,) = [part for part in of_class(svg, name) if part.tag == f"{SVG}rect"]
        top = float(zone.get("y"))
        edges += [top + float(zone.get("height")), top]
    heights = [zero - edge for edge in edges]
    largest = max(range(4), key=lambda number: abs(deviations[number]))
    scale = heights[largest] / deviations[largest]
    assert scale > 0
    for height, deviation in zip(heights, deviations, strict=True):
        assert isclose(height, deviation * scale, abs_tol=0.01)


@pytest.mark.parametrize("found", FITS.values(), ids=FITS)
def test_the_arrows_of_a_fit_reach_over_its_least_and_greatest_clearance(found):
    svg = picture(found)
    (hole,) = [part for part in of_class(svg, "shoplog-hole") if part.tag == f"{SVG}rect"]
    scale = float(hole.get("height")) / (1000 * (found.hole.upper - found.hole.lower))
    for name, play in (("a", found.clearance_min), ("b", found.clearance_max)):
        (_, hole_y), (_, shaft_y) = ends(of_class(svg, f"shoplog-arrow-{name}")[0])
        assert isclose((shaft_y - hole_y) / scale, play, abs_tol=0.5)


def test_a_fit_names_its_limits_and_its_play_in_both_systems():
    shown = words(picture(FITS["clearance"]))
    assert {"hole H7", "shaft f7", "+18 µm", "−16 µm", "−34 µm", "0", "A", "B"} <= set(shown)
    assert "A  least clearance 16 µm (0.6 thou)" in shown
    assert "B  greatest clearance 52 µm (2.0 thou)" in shown
    assert "hole  16.000 mm to 16.018 mm" in shown
    assert "shaft  0.6286 in to 0.6293 in" in shown


def test_an_interference_is_called_one():
    shown = words(picture(FITS["interference"]))
    assert "A  greatest interference 35 µm (1.4 thou)" in shown
    assert any(text.startswith("B  least interference 1 µm") for text in shown)


def test_hole_and_shaft_are_told_apart_by_their_hatching_and_their_names():
    svg = picture(FITS["clearance"])

    def slants(name):
        lines = [part for part in of_class(svg, name) if "shoplog-hatch" in part.get("class")]
        assert lines
        return {(x2 - x1) * (y2 - y1) > 0 for (x1, y1), (x2, y2) in map(ends, lines) if x1 != x2}

    assert slants("shoplog-hole") == {False}
    assert slants("shoplog-shaft") == {True}


@pytest.mark.parametrize("found", FITS.values(), ids=FITS)
def test_the_hatching_stays_inside_its_zone(found):
    svg = picture(found)
    for name in ("shoplog-hole", "shoplog-shaft"):
        (zone,) = [part for part in of_class(svg, name) if part.tag == f"{SVG}rect"]
        x, y, width, height = (float(zone.get(key)) for key in ("x", "y", "width", "height"))
        for part in of_class(svg, name):
            if part is zone:
                continue
            for across, down in ends(part):
                assert x - 0.01 <= across <= x + width + 0.01
                assert y - 0.01 <= down <= y + height + 0.01


PATTERNS = {
    "five": bolt_circle(40, 5, 10),
    "off centre": bolt_circle(40, 4, 0, 15, -8),
    "far": bolt_circle(20, 3, 0, 500, 400),
    "one": bolt_circle(20, 1),
    "many": bolt_circle(100, 200),
}


@pytest.mark.parametrize("pattern", PATTERNS.values(), ids=PATTERNS)
def test_each_hole_is_at_its_coordinates_to_scale(pattern):
    svg = picture(pattern)
    (circle,) = of_class(svg, "shoplog-pitch-circle")
    centre = float(circle.get("cx")), float(circle.get("cy"))
    scale = float(circle.get("r")) / (pattern.diameter / 2)
    drilled = of_class(svg, "shoplog-drilled")
    assert len(drilled) == pattern.count
    for hole, shown in zip(pattern.points, drilled, strict=True):
        assert isclose(float(shown.get("cx")), centre[0] + (hole.x - pattern.centre_x) * scale)
        assert isclose(float(shown.get("cy")), centre[1] - (hole.y - pattern.centre_y) * scale)


def test_the_datum_is_where_x_and_y_are_nothing():
    pattern = PATTERNS["off centre"]
    svg = picture(pattern)
    (circle,) = of_class(svg, "shoplog-pitch-circle")
    scale = float(circle.get("r")) / (pattern.diameter / 2)
    (datum,) = [part for part in of_class(svg, "shoplog-datum") if part.tag == f"{SVG}circle"]
    assert isclose(float(datum.get("cx")), float(circle.get("cx")) - 15 * scale)
    assert isclose(float(datum.get("cy")), float(circle.get("cy")) - 8 * scale)


def test_a_datum_far_away_is_told_of():
    svg = picture(PATTERNS["far"])
    assert not of_class(svg, "shoplog-datum")
    assert "The datum lies outside the picture." in words(svg)


@pytest.mark.parametrize("pattern", PATTERNS.values(), ids=PATTERNS)
def test_holes_are_numbered_and_no_number_covers_another(pattern):
    svg = picture(pattern)
    numbered = [part for part in svg.iter(f"{SVG}text") if part.text.isdigit()]
    assert numbered[0].text == "1"
    places = [(float(part.get("x")), float(part.get("y"))) for part in numbered]
    for one, here in enumerate(places):
        for there in places[one + 1 :]:
            assert hypot(here[0] - there[0], here[1] - there[1]) > 12


def test_the_table_beside_the_holes_has_every_coordinate_in_both_systems():
    html = drawing(PATTERNS["five"], "holes", "drawing")
    row = "".join(f"<td>{text}</td>" for text in ("1", "19.696", "3.473", "0.7754", "0.1367"))
    assert row in html
    assert html.count("<tr>") == 6


@pytest.mark.parametrize("value", [*FITS.values(), *PATTERNS.values()])
def test_a_picture_stays_inside_its_frame_and_needs_nothing_from_elsewhere(value):
    html = drawing(value, "it", "drawing")
    svg = picture(value)
    width, height = map(float, svg.get("viewBox").split()[2:])
    for part in svg.iter(f"{SVG}text"):
        across, down = float(part.get("x")), float(part.get("y"))
        assert 0 <= across <= width
        assert 8 <= down <= height
    drawn = {part.tag.removeprefix(SVG) for part in svg.iter()}
    assert drawn <= {"svg", "title", "desc", "path", "rect", "circle", "text"}
    assert re.findall(r"\w+://[^\"' ]*", html) == ["http://www.w3.org/2000/svg"]


def test_a_picture_has_a_name_and_a_description_with_ids_of_its_own():
    svg = picture(FITS["clearance"], "drawing-2")
    assert svg.get("role") == "img"
    assert svg.get("aria-labelledby") == "drawing-2-title drawing-2-text"
    named = {part.get("id"): part.text for part in svg.iter() if part.get("id")}
    assert named["drawing-2-title"] == "Tolerance zones of 16 mm H7/f7"
    assert named["drawing-2-text"].startswith("A  least clearance 16 µm")


def test_a_circle_that_is_lost_beside_its_distance_is_still_drawn() -> None:
    pattern = bolt_circle(1e-9, 4, 0, 1e9, 3)
    assert "<svg" in str(drawing(pattern, "far", "far"))
