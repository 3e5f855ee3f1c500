"""Our own formulas of cutting against other people's numerics: SciPy and Shapely."""

from __future__ import annotations

from math import cos, degrees, pi, radians, sin
from typing import Any

import pytest
from scipy.integrate import quad, solve_bvp, solve_ivp
from shapely import LineString, Point, Polygon, box
from shapely.affinity import translate

from shoplog.tables import table
from shoplog.trade.machining.bending import boring_bar_bending, end_mill_bending
from shoplog.trade.machining.chip_thickness import chip_thickness_milling, chip_thickness_turning
from shoplog.trade.machining.finish import turned_finish
from shoplog.trade.machining.finish_milling import ball_nose_finish
from shoplog.trade.machining.work_bending import work_bending

FINE = 2048  # pieces of a quarter of a circle


def tool_shape(angle: float, nose: float) -> Polygon:
    """A tool that is fed to the left, its lowest point at the origin: edge, nose, trailing edge."""
    turn = radians(angle)
    touch = (-nose * sin(turn), nose - nose * cos(turn))
    end = (touch[0] - 100 * cos(turn), touch[1] + 100 * sin(turn))
    behind = Polygon([touch, end, (100, 100), (100, 40), (0, nose)])
    return behind.union(Point(0, nose).buffer(nose, FINE)) if nose else behind


@pytest.mark.parametrize(
    ("feed", "depth", "angle", "nose"),
    [(0.1, 1.0, 90, 0.4), (0.3, 2.0, 75, 0.8), (0.2, 3.0, 45, 0.0), (0.1, 0.3, 90, 1.2)],
)
def test_a_turned_chip_is_the_polygon_between_two_places_of_the_tool(
    feed: float, depth: float, angle: float, nose: float
) -> None:
    now = tool_shape(angle, nose)
    chip = now.intersection(box(-100, 0, 100, depth)).difference(translate(now, feed))
    ahead = box(-100, -1, 0, 100)  # what cuts, without the trailing side of the tool
    edge = chip.boundary.intersection(now.boundary.buffer(1e-6)).intersection(ahead).length
    made = chip_thickness_turning(feed, depth, angle, nose)
    assert made.mean * made.edge_length == pytest.approx(chip.area, rel=0.01)
    assert made.edge_length == pytest.approx(edge, rel=0.002)


@pytest.mark.parametrize("width", [1.0, 5.0, 10.0, 15.0, 20.0])
@pytest.mark.parametrize("feed", [0.02, 0.1])
def test_a_milled_chip_is_the_polygon_between_two_teeth(feed: float, width: float) -> None:
    diameter = 20.0
    cutter = Point(0, 0).buffer(diameter / 2, FINE)
    band = box(0, -diameter / 2, diameter, width - diameter / 2)
    chip = cutter.intersection(band).difference(translate(cutter, -feed))
    made = chip_thickness_milling(feed, diameter, width)
    arc = diameter / 2 * radians(made.immersion)
    assert made.mean * arc == pytest.approx(chip.area, rel=0.01)
    outer = LineString(cutter.exterior.coords).intersection(band).length
    assert degrees(outer / (diameter / 2)) == pytest.approx(made.immersion, rel=0.001)


def modulus(material: str) -> float:
    """Of a tool, in MPa, from the table alone."""
    (row,) = (row for row in table("tool_moduli").rows if row["material"] == material)
    return 1000 * float(row["modulus_gpa"])


def second_moment(diameter: float) -> float:
    return pi * diameter**4 / 64


def bent_tip(force: float, pieces: list[tuple[float, float]], elastic: float) -> float:
    """What the tip of a bar gives that is held at its first piece: y'' = M/(E I), step by step."""
    length = sum(reach for reach, _ in pieces)
    place, state = 0.0, [0.0, 0.0]
    for reach, diameter in pieces:
        stiff = elastic * second_moment(diameter)
        solved = solve_ivp(
            lambda x, y, stiff=stiff: [y[1], force * (length - x) / stiff],
            (place, place + reach),
            state,
            rtol=1e-10,
            atol=1e-14,
        )
        place, state = place + reach, [float(each) for each in solved.y[:, -1]]
    return state[0]


@pytest.mark.parametrize("material", ["HSS", "carbide"])
@pytest.mark.parametrize(
    ("cutter", "flute", "out", "shank"), [(6, 15, 30, 10), (3, 9, 32, 6), (12, 26, 53, 12)]
)
def test_a_stepped_end_mill_bends_as_the_beam_solved_by_steps(
    material: str, cutter: float, flute: float, out: float, shank: float
) -> None:
    made = end_mill_bending(100.0, cutter, flute, out, shank, material)
    pieces = [(out - flute, float(shank)), (flute, made.effective_diameter)]
    assert made.deflection.mean == pytest.approx(1000 * bent_tip(100, pieces, modulus(material)))


def test_a_boring_bar_bends_as_the_beam_solved_by_steps() -> None:
    made = boring_bar_bending(100.0, 12, 60)
    tip = 1000 * bent_tip(100, [(60, 12.0)], modulus("steel"))
    assert made.off_the_wall.mean == pytest.approx(tip)


def test_work_between_centres_bends_as_the_beam_solved_at_its_ends() -> None:
    force, length, stiff = 200.0, 200.0, 206000 * second_moment(12.0)
    place = 50.0
    left = force * (length - place) / length

    def slopes(x: Any, y: Any) -> list[Any]:
        moment = left * x - force * (x - place) * (x > place)
        return [y[1], -moment / stiff]

    grid = [length * n / 400 for n in range(401)]
    flat = [[0.0] * 401, [0.0] * 401]
    solved = solve_bvp(slopes, lambda a, b: [a[0], b[0]], grid, flat, tol=1e-9, max_nodes=9999)
    made = work_bending(force, 12, length, "centres", positions=[place])
    assert solved.success
    assert made.deflections[0] == pytest.approx(1000 * float(solved.sol(place)[0]), rel=1e-4)


@pytest.mark.parametrize(("feed", "nose"), [(0.1, 0.4), (0.3, 0.8), (0.5, 0.4), (0.05, 1.2)])
def test_a_turned_profile_is_as_rough_as_its_integral(feed: float, nose: float) -> None:
    rt, ra = arcs(feed, nose)
    made = turned_finish(feed, nose)
    assert made.rt == pytest.approx(rt, rel=1e-6)
    assert made.ra == pytest.approx(ra, rel=1e-6)


@pytest.mark.parametrize(("step", "diameter"), [(0.3, 6.0), (1.0, 10.0), (4.0, 6.0)])
def test_a_ball_nosed_profile_is_as_rough_as_its_integral(step: float, diameter: float) -> None:
    rt, ra = arcs(step, diameter / 2)
    made = ball_nose_finish(step, diameter)
    assert made.rt == pytest.approx(rt, rel=1e-6)
    assert made.ra == pytest.approx(ra, rel=1e-6)


def arcs(spacing: float, radius: float) -> tuple[float, float]:
    """Rt and Ra, in µm, of arcs side by side, by quadrature."""
    half = spacing / 2

    def height(x: float) -> float:
        return radius - (radius**2 - x**2) ** 0.5

    mean = quad(height, 0, half)[0] / half
    crossing = (radius**2 - (radius - mean) ** 2) ** 0.5
    off = quad(lambda x: abs(height(x) - mean), 0, half, points=[crossing])[0] / half
    return 1000 * height(half), 1000 * off
