"""Joints on a page that reads the shop profile: wheels, leadscrews, gauge blocks, drill sets."""

from __future__ import annotations

import pytest

from shoplog import Grade, read_log
from shoplog.calc.show import show

SHOP = """\
machines:
  - name: bench lathe
    kind: lathe
    leadscrew: 3 mm
  - name: old lathe
    kind: lathe
    leadscrew: 8 tpi
  - name: toolroom lathe
    kind: lathe
    leadscrew: 1/8 in
drills: metric, fractional, number
change wheels: 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 127
gauge blocks: 1.005 mm, 1.01 mm, 1.02 mm, 1.05 mm, 1.1 mm, 1.5 mm, 2 mm, 5 mm, 10 mm, 20 mm
"""


def told(body: str) -> tuple[str, list[str]]:
    """What the last line of a block gives in words, and the problems of its page."""
    log = read_log({"a.md": f"# Page\n\n```calc\n{body}\n```\n"}, shop_profile=SHOP)
    found = [each.line for each in log.problems if each.grade is Grade.PROBLEM]
    results = log.pages["a.md"].results
    return (show(results[-1].value).own if results else ""), found


@pytest.mark.parametrize(
    ("expression", "begins"),
    [
        (
            'change_wheels("M6x1", shop.bench_lathe.leadscrew, shop.change_wheels)',
            "Lead 1 mm with a leadscrew of 3 mm: drivers/driven 20/60: lead 1.00000 mm, exact.",
        ),
        (
            'change_wheels(thread("M6x1"), shop.old_lathe.leadscrew, shop.change_wheels)',
            "Lead 1 mm with a leadscrew of 3.175 mm: drivers/driven 40/127: lead 1.00000 mm, exact",
        ),
        (
            'change_wheels("1/4-20 UNC", shop.toolroom_lathe.leadscrew, shop.change_wheels)',
            "Lead 1.27 mm with a leadscrew of 3.175 mm: drivers/driven 20/50: lead 1.27000 mm, exa",
        ),
        (
            "gauge_block_stack(22.51 mm, shop.gauge_blocks)",
            "20 + 1.5 + 1.01 = 22.51 mm: 3 blocks, 2 wrung pairs, +0.00 µm off.",
        ),
        ("nearest_drill(6.9 mm, sets=shop.drills)", "6.9 mm is a drill of 6.900 mm"),
        ('tap_drill("M6x1", sets=shop.drills)', "M6: drill 5.0 mm (5.000 mm)"),
    ],
)
def test_a_formula_takes_what_the_shop_profile_gives(expression: str, begins: str) -> None:
    words, found = told(f"made = {expression}")
    assert found == []
    assert words.startswith(begins)


def test_blocks_of_the_shop_that_cannot_make_a_height_are_told() -> None:
    _, found = told("made = gauge_block_stack(0.3 mm, shop.gauge_blocks)")
    (line,) = found
    assert "no stack of up to 8 of these blocks is 0.3 mm high within 2.5 µm" in line


def test_a_text_that_is_no_leadscrew_is_told() -> None:
    _, found = told('made = change_wheels("M6", shop.drills, shop.change_wheels)')
    assert found == [
        'a.md:4:28: "metric, fractional, number" is no leadscrew (write 3 mm or "8 tpi")'
    ]
