"""How cutters, bars and work bend: second opinions by other numbers, identities, bad input."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise
from math import isfinite, nan, pi
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplog.tables import table
from shoplog.trade.declare import TradeError
from shoplog.trade.machining.beams import Bar, bend_at, second_moment
from shoplog.trade.machining.bending import bar_deflection, boring_bar_bending, end_mill_bending
from shoplog.trade.machining.force_estimates import ForceEstimate
from shoplog.trade.machining.overhang import overhang
from shoplog.trade.machining.work_bending import work_bending
from shoplog.trade.materials import Material
from shoplog.trade.offers import OFFERS

FLOATS = (0.0, -1.0, 1e-300, 5e-324, 1e100, -1e100, nan)
diameters, lengths = st.floats(1, 100), st.floats(5, 1000)
parts = st.floats(0.02, 0.98)


# A second opinion: the bar cut into beam elements, solved as a whole by elimination.


def element(rigid: float, reach: float) -> list[list[float]]:
    """Stiffness of a plain beam between two nodes, each with a deflection and a slope."""
    a, b, c, d = 12, 6 * reach, 4 * reach**2, 2 * reach**2
    rows = [[a, b, -a, b], [b, c, -b, d], [-a, -b, a, -b], [b, d, -b, c]]
    return [[rigid / reach**3 * value for value in row] for row in rows]


def moment_at(bar: Bar, place: float) -> float:
    end = 0.0
    for length, moment in zip(bar.lengths, bar.second_moments, strict=True):
        end += length
        if place < end:
            return moment
    return bar.second_moments[-1]


def by_elements(bar: Bar, force: float, load_at: float) -> dict[float, float]:
    """Deflection at every node of a bar in 24 pieces and more, under a force at one of them."""
    steps = [sum(bar.lengths[:n]) for n in range(len(bar.lengths) + 1)]
    even = [bar.length * n / 24 for n in range(25)]
    nodes = sorted({*even, *steps, *bar.props, load_at})
    nodes = [a for a, b in pairwise([*nodes, bar.length + 1]) if b - a > 1e-9]
    count = 2 * len(nodes)
    matrix = [[0.0] * (count + 1) for _ in range(count)]
    for number, (start, end) in enumerate(pairwise(nodes)):
        rigid = bar.modulus * moment_at(bar, (start + end) / 2)
        for row, values in enumerate(element(rigid, end - start)):
            for column, value in enumerate(values):
                matrix[2 * number + row][2 * number + column] += value
    matrix[2 * nodes.index(load_at)][count] = force
    held = {0} | ({1} if not bar.pinned else set()) | {2 * nodes.index(p) for p in bar.props}
    for freedom in held:
        matrix[freedom] = [0.0] * (count + 1)
        matrix[freedom][freedom] = 1.0
    moved = solved(matrix)
    return {node: moved[2 * number] for number, node in enumerate(nodes)}


def solved(matrix: list[list[float]]) -> list[float]:
    size = len(matrix)
    for pivot in range(size):
        best = max(range(pivot, size), key=lambda row: abs(matrix[row][pivot]))
        matrix[pivot], matrix[best] = matrix[best], matrix[pivot]
        for row in range(pivot + 1, size):
            share = matrix[row][pivot] / matrix[pivot][pivot]
            if share:
                for column in range(pivot, size + 1):
                    matrix[row][column] -= share * matrix[pivot][column]
    found = [0.0] * size
    for row in reversed(range(size)):
        rest = sum(matrix[row][column] * found[column] for column in range(row + 1, size))
        found[row] = (matrix[row][size] - rest) / matrix[row][row]
    return found


STEPPED = ((60.0, 25.0, 40.0), (second_moment(16), second_moment(10), second_moment(12)))
HELD = {
    "fast": Bar(*STEPPED, 206000),
    "fast and propped at its end": Bar(*STEPPED, 206000, props=(125.0,)),
    "between two": Bar(*STEPPED, 206000, pinned=True, props=(125.0,)),
    "fast, propped inside": Bar(*STEPPED, 206000, props=(70.0,)),
    "fast, propped inside and at its end": Bar(*STEPPED, 206000, props=(70.0, 125.0)),
    "pinned and propped twice": Bar(*STEPPED, 206000, pinned=True, props=(50.0, 125.0)),
    "pinned, propped inside": Bar(*STEPPED, 206000, pinned=True, props=(90.0,)),
}


@pytest.mark.parametrize("bar", HELD.values(), ids=HELD)
@pytest.mark.parametrize("load_at", [30.0, 60.0, 80.0, 110.0])
def test_a_stepped_bar_bends_as_its_elements_do(bar: Bar, load_at: float) -> None:
    nodes = by_elements(bar, 100, load_at)
    greatest = max(map(abs, nodes.values()))
    for node, moved in nodes.items():
        assert bend_at(bar, 100, load_at, node) == pytest.approx(moved, abs=1e-7 * greatest)


@pytest.mark.parametrize("bar", HELD.values(), ids=HELD)
def test_a_force_here_moves_there_what_a_force_there_moves_here(bar: Bar) -> None:
    for here, there in ((20.0, 100.0), (65.0, 80.0), (33.0, 120.0)):
        one, other = bend_at(bar, 50, here, there), bend_at(bar, 50, there, here)
        assert one == pytest.approx(other, abs=1e-12)


def by_virtual_work(lengths: tuple[float, ...], moments: tuple[float, ...], arm: float) -> float:
    """Tip deflection of a stepped cantilever under 1 N an arm before its tip, in small steps."""
    total, start, whole = 0.0, 0.0, sum(lengths)
    for length, moment in zip(lengths, moments, strict=True):
        steps = 4000
        for n in range(steps):
            place = start + length * (n + 0.5) / steps
            lever = max(0.0, whole - arm - place)
            total += lever * (whole - place) * length / steps / moment
        start += length
    return total


@pytest.mark.parametrize("load_from_tip", [0, 4, 11])
@pytest.mark.parametrize("shank", [None, 6, 12])
def test_an_end_mill_bends_as_virtual_work_finds_in_small_steps(
    load_from_tip: float, shank: float | None
) -> None:
    bent = end_mill_bending(100, 8, 16, 30, shank, "carbide", load_from_tip)
    moments = (second_moment(shank or 8), second_moment(6.4))
    worked = by_virtual_work((14, 16), moments, load_from_tip) * 100 / 600000
    assert bent.deflection.mean == pytest.approx(1000 * worked, rel=1e-6)


# Identities


@given(diameters, lengths, parts)
def test_a_plain_bar_in_the_chuck_is_the_cantilever_of_the_textbook(
    diameter: float, length: float, part: float
) -> None:
    bent = work_bending(50, diameter, length, positions=[part * length, length])
    expected = [bar_deflection(50, reach, diameter) for reach in (part * length, length)]
    assert [b / 1000 for b in bent.deflections] == pytest.approx(expected)


@given(diameters, lengths)
def test_twice_the_overhang_bends_eight_times_and_twice_the_diameter_a_sixteenth(
    diameter: float, length: float
) -> None:
    plain = bar_deflection(10, length, diameter)
    assert bar_deflection(10, 2 * length, diameter) == pytest.approx(8 * plain)
    assert bar_deflection(10, length, 2 * diameter) == pytest.approx(plain / 16)
    assert bar_deflection(-20, length, diameter) == pytest.approx(-2 * plain)


@given(diameters, st.floats(1, 30), st.floats(1, 100))
def test_an_end_mill_whose_neck_is_as_thick_as_its_flutes_bend_is_a_plain_bar(
    diameter: float, flutes: float, neck: float
) -> None:
    bent = end_mill_bending(10, diameter, flutes, flutes + neck, 0.8 * diameter, "steel")
    plain = bar_deflection(10, flutes + neck, 0.8 * diameter)
    assert bent.deflection.mean / 1000 == pytest.approx(plain)
    assert bent.stiffness == pytest.approx(10 / plain)


@given(diameters, lengths, parts)
def test_work_between_centres_bends_alike_from_either_end(
    diameter: float, length: float, part: float
) -> None:
    bent = work_bending(
        50, diameter, length, "centres", positions=[part * length, (1 - part) * length]
    )
    assert bent.deflections[0] == pytest.approx(bent.deflections[1])


@given(diameters, lengths, parts)
def test_every_support_more_leaves_less_to_bend(
    diameter: float, length: float, part: float
) -> None:
    place = [part * length]
    held = [
        work_bending(50, diameter, length, positions=place),
        work_bending(50, diameter, length, "centres", positions=place),
        work_bending(50, diameter, length, "chuck and centre", positions=place),
        work_bending(
            50, diameter, length, "chuck and centre", positions=place, steady_at=length / 2
        ),
    ]
    bends = [bent.deflections[0] for bent in held]
    assert bends[2] <= min(bends[0], bends[1]) * (1 + 1e-9)
    assert bends[3] <= bends[2] * (1 + 1e-9) + 1e-12
    assert all(bend >= 0 for bend in bends)


def test_the_error_on_the_diameter_is_twice_the_bend_and_grows_to_the_free_end() -> None:
    bent = work_bending(60, 12, 100)
    assert bent.positions == (25, 50, 75, 100)
    assert bent.diameter_errors == pytest.approx([2 * bend for bend in bent.deflections])
    assert list(bent.diameter_errors) == sorted(bent.diameter_errors)
    assert bent.worst.mean == bent.diameter_errors[-1]
    assert bent.worst_at == 100


def test_work_between_centres_is_barrelled_and_stiff_where_it_is_held() -> None:
    bent = work_bending(60, 12, 150, "centres", positions=[0, 37.5, 75, 112.5, 150])
    assert bent.deflections[0] == bent.deflections[4] == 0
    assert bent.worst_at == 75
    assert bent.worst.mean == pytest.approx(2000 * 60 * 150**3 / (48 * 206000 * second_moment(12)))


def test_a_steady_holds_the_work_where_it_stands_and_at_the_end_does_what_a_centre_does() -> None:
    middle = work_bending(60, 12, 150, "centres", steady_at=75, positions=[75])
    assert middle.deflections == (0.0,)
    end = work_bending(60, 12, 150, steady_at=150)
    centre = work_bending(60, 12, 150, "chuck and centre")
    assert end.deflections == pytest.approx(centre.deflections)
    doubled = work_bending(60, 12, 150, "chuck and centre", steady_at=150)
    assert doubled.deflections == centre.deflections


def test_the_spread_of_a_force_is_carried_into_the_bend() -> None:
    bent = work_bending(ForceEstimate(60, 30), 12, 100)
    assert bent.spread == bent.worst.spread == 30
    assert bent.worst.most == pytest.approx(1.3 * bent.worst.mean)
    cutter = end_mill_bending(ForceEstimate(60, 30), 6, 13, 24)
    assert (cutter.deflection.spread, cutter.at_load.spread) == (30, 30)
    bar = boring_bar_bending(ForceEstimate(60, 30), 12, 50, ForceEstimate(200, 20))
    assert (bar.bore_error.spread, bar.down.spread) == (30, 20)


def test_the_material_of_the_work_counts_by_its_modulus() -> None:
    steel, brass, given_gpa = (
        work_bending(60, 12, 100, material=material).worst.mean
        for material in (206.0, Material.from_text("brass"), 100.0)
    )
    modulus = Material.from_text("brass").youngs_modulus
    assert modulus is not None
    assert brass == pytest.approx(steel * 206 / modulus)
    assert given_gpa == pytest.approx(steel * 2.06)


def test_a_tube_bends_as_the_difference_of_its_sections() -> None:
    bent = work_bending(60, 20, 100, bore=16, positions=[100])
    moment = pi / 64 * (20**4 - 16**4)
    assert bent.deflections[0] == pytest.approx(1000 * 60 * 100**3 / (3 * 206000 * moment))


def test_carbide_bends_a_third_of_steel() -> None:
    steel, carbide = (
        boring_bar_bending(60, 12, 50, material=material).bore_error.mean
        for material in ("steel", "carbide")
    )
    assert carbide / steel == pytest.approx(206 / 600)


def test_a_boring_bar_leaves_the_bore_small_by_twice_its_bend() -> None:
    bent = boring_bar_bending(60, 12, 50, 220)
    assert bent.bore_error.mean == pytest.approx(2 * bent.off_the_wall.mean)
    assert bent.down.mean / bent.off_the_wall.mean == pytest.approx(220 / 60)
    assert bent.describe() == (
        "The tip gives 11.9 µm and sinks 43.7 µm: the bore comes out 23.8 µm small."
    )


def test_the_stress_of_a_cutter_is_greatest_where_the_flutes_begin_or_at_the_holder() -> None:
    thick = end_mill_bending(100, 6, 13, 24, 10)
    assert thick.stress == pytest.approx(32 * 100 * 13 / (pi * 4.8**3))
    slender = end_mill_bending(100, 6, 13, 60, 5)
    assert slender.stress == pytest.approx(32 * 100 * 60 / (pi * 5**3))
    fluted = end_mill_bending(100, 6, 24, 24)
    assert fluted.stress == pytest.approx(32 * 100 * 24 / (pi * 4.8**3))


def test_a_cutter_is_described_by_its_bend_and_its_stiffness() -> None:
    assert end_mill_bending(100, 6, 13, 24).describe() == (
        "The tip gives 42.4 µm; it is as stiff as 2359 N/mm and sticks out 4 diameters."
    )


# The rule of length over diameter


@pytest.mark.parametrize("row", table("overhang_limits").rows, ids=lambda row: row["what"])
def test_each_rule_is_kept_up_to_its_limit_and_says_what_to_do_past_it(row: dict[str, str]) -> None:
    most = float(row["most"])
    kept, past = (overhang(row["what"], 10 * most * times, 10) for times in (1, 1.2))
    assert kept.within
    assert not past.within
    assert past.longest == pytest.approx(10 * most)
    assert past.share == pytest.approx(1.2)
    assert past.describe().endswith(f"is common: {row['beyond']}.")
    assert past.cautions[0].endswith(row["beyond"])
    assert not any(row["beyond"] in caution for caution in kept.cautions)


def test_long_work_in_the_chuck_asks_for_the_tailstock() -> None:
    bent = work_bending(60, 12, 60)
    assert not bent.within
    assert bent.cautions[0] == (
        "work in the chuck: 5 times its diameter is over 3: bring up the tailstock centre, or hold"
        " the end in a steady"
    )
    assert work_bending(60, 12, 60, "chuck and centre").within


def test_slender_work_carries_the_caution_of_whip_and_a_chuck_that_of_its_marked_speed() -> None:
    whip = "slender work whips"
    marked = "never above the speed marked on the chuck"
    long, short = work_bending(60, 12, 200), work_bending(60, 12, 30)
    assert any(caution.startswith(whip) for caution in long.cautions)
    assert not any(caution.startswith(whip) for caution in short.cautions)
    assert all(any(c.startswith(marked) for c in bent.cautions) for bent in (long, short))


def test_every_bend_defers_to_the_machines_manual() -> None:
    for bent in (
        work_bending(60, 12, 30),
        end_mill_bending(10, 6, 13, 20),
        boring_bar_bending(60, 12, 40),
    ):
        assert any("the machine's manual and local rules come first" in c for c in bent.cautions)


def test_a_steady_is_judged_by_its_own_free_lengths() -> None:
    bent = work_bending(60, 12, 240, "chuck and centre", steady_at=120)
    assert bent.within
    assert bent.ratio == pytest.approx(10)
    assert not work_bending(60, 12, 240, "chuck and centre").within
    assert not work_bending(60, 12, 200, steady_at=120).within  # 80 mm out past the steady


@pytest.mark.parametrize(
    ("call", "message", "argument"),
    [
        (
            lambda: work_bending(60, 12, 100, "vice"),
            '"vice" is no holding that is known here',
            "holding",
        ),
        (
            lambda: work_bending(60, 12, 100, positions=[10, 120]),
            "position 2 is 120 mm, it must be at least 0 mm and at most 100 mm",
            "positions",
        ),
        (
            lambda: work_bending(60, 12, 100, positions=[]),
            "0 positions are given, it must be 1 to 50",
            "positions",
        ),
        (
            lambda: work_bending(60, 12, 100, steady_at=120),
            "steady at is 120 mm, it must be over 0 mm and at most 100 mm",
            "steady_at",
        ),
        (
            lambda: work_bending(60, 12, 100, bore=12),
            "bore is 12 mm, it must be at least 0 mm and at most 11.88 mm",
            "bore",
        ),
        (
            lambda: end_mill_bending(60, 6, 30, 24),
            "flute length is 30 mm, it must be at least 0.1 mm and at most 24 mm",
            "flute_length",
        ),
        (
            lambda: end_mill_bending(60, 6, 13, 24, load_from_tip=30),
            "load from tip is 30 mm, it must be at least 0 mm and at most 23.976 mm",
            "load_from_tip",
        ),
        (
            lambda: end_mill_bending(60, 6, 13, 24, material="wood"),
            '"wood" is no material of a tool that is known here',
            "material",
        ),
        (
            lambda: boring_bar_bending(2e6, 12, 50),
            "radial force is 2e+06 N, it must be at least -1e+06 N and at most 1e+06 N",
            "radial_force",
        ),
        (
            lambda: overhang("a bench vice", 50, 10),
            '"a bench vice" is nothing whose overhang is known here',
            "what",
        ),
        (
            lambda: bar_deflection(60, 0, 10),
            "overhang is 0 mm, it must be at least 0.1 mm and at most 10000 mm",
            "overhang",
        ),
    ],
)
def test_wrong_input_is_refused_with_value_and_limit(
    call: Callable[[], object], message: str, argument: str
) -> None:
    with pytest.raises(TradeError) as caught:
        call()
    assert str(caught.value) == message
    assert caught.value.argument == argument


GOOD: dict[Callable[..., Any], dict[str, float]] = {
    bar_deflection: {
        "force": 60.0,
        "overhang": 50.0,
        "diameter": 12.0,
        "bore": 4.0,
        "modulus": 206.0,
    },
    end_mill_bending: {
        "force": 60.0,
        "cutter_diameter": 6.0,
        "flute_length": 13.0,
        "stick_out": 24.0,
        "shank_diameter": 6.0,
        "load_from_tip": 2.0,
    },
    boring_bar_bending: {
        "radial_force": 60.0,
        "bar_diameter": 12.0,
        "overhang": 50.0,
        "tangential_force": 200.0,
        "bar_bore": 4.0,
    },
    work_bending: {
        "radial_force": 60.0,
        "diameter": 12.0,
        "length": 100.0,
        "material": 206.0,
        "steady_at": 60.0,
        "bore": 4.0,
    },
}


def numbers_in(result: Any) -> list[float]:
    """Every number of a result, its records' and lists' too."""
    if isinstance(result, int | float):
        return [float(result)]
    if isinstance(result, tuple):
        return [number for item in result for number in numbers_in(item)]
    names = getattr(result, "__dataclass_fields__", {})
    return [number for name in names for number in numbers_in(getattr(result, name))]


def refused_argument(call: Callable[[], Any]) -> str:
    """The argument at fault where a call is refused; `""` where it gives finite numbers."""
    try:
        result = call()
    except TradeError as refused:
        return refused.argument
    return "" if all(map(isfinite, numbers_in(result))) else "none: a number is not finite"


@pytest.mark.parametrize("formula", GOOD, ids=lambda formula: formula.__name__)
@pytest.mark.parametrize("odd", FLOATS)
def test_no_float_gets_past_as_an_error_of_another_kind(
    formula: Callable[..., Any], odd: float
) -> None:
    good = GOOD[formula]
    assert refused_argument(partial(formula, **good)) == ""
    names = {parameter.name for parameter in OFFERS[formula.__name__].parameters}
    for name in good:
        assert refused_argument(partial(formula, **(good | {name: odd}))) in {"", *names}
    assert refused_argument(partial(overhang, "end mill", odd, 10.0)) in ("", "length")
    assert refused_argument(partial(overhang, "end mill", 10.0, odd)) in ("", "diameter")
    assert refused_argument(partial(work_bending, 60.0, 12.0, 100.0, positions=[odd])) in (
        "",
        "positions",
    )


def test_the_smallest_and_the_largest_bars_bend_by_finite_numbers() -> None:
    for diameter, length in ((0.1, 10000.0), (1000.0, 0.1), (0.1, 0.1), (1000.0, 10000.0)):
        for holding in ("chuck", "chuck and centre", "centres"):
            for steady_at in (None, length / 3, length):
                bent = work_bending(1e6, diameter, length, holding, 0.1, steady_at=steady_at)
                assert all(map(isfinite, numbers_in(bent)))
