"""Screws, clearance holes, counterbores and property classes against what others publish.

Where sources disagree:

- Heads of ISO 4762. FreeCAD_FastenersWB has plain heads (M3 5.5 mm), bd_warehouse knurled (5.68);
  both are held, and a counterbore is judged by the wider.
- Sockets of set screws. FastenersWB has 1.6 mm for M3 where two have 2.0 mm, and so for other
  sizes: ISO 4026 to 4029 have a shallow socket for short screws. The deeper is followed, both are
  in the table. The key is the same in all.
- Counterbore of M3. FreeCAD and Somta have 6.0 mm, as the older DIN 74-2;
  DIN 974-1 has 6.5 mm (an older file of FreeCAD), which is followed.
- Countersink of M5. FreeCAD has 12.2 mm; ISO 10642 has a cone of 11.2 mm, which is
  followed.
- Width across flats of M10, M12, M14 and M22: 17, 19, 22 and 32 mm in DIN 931 and 933; 16, 18, 21
  and 34 mm in ISO 4014, which is followed.
- Clearance holes of inch cap screws from 1/2 in up: ASME B18.2.8 has 17/32 in as the close hole of
  1/2 in, ASME B18.3 has it as the normal one. `clearance_hole` follows B18.2.8.
"""

from __future__ import annotations

from typing import Any

import pytest
from test_published_cutting import found, published

from shoplog.trade.fastening.counterbores import counterbore
from shoplog.trade.fastening.screws import Screw


@published("screws")
def test_screw_agrees_with_what_is_published(value: dict[str, Any]) -> None:
    assert found(value) == pytest.approx(value["expected"][0], rel=0, abs=value["tolerance"]), (
        value["source"]
    )


def test_a_counterbore_of_10_mm_passes_an_m6_set_screw_and_no_m6_cap_screw_head() -> None:
    """Common practice, no source; and ISO 4762: heads of 10 mm plain and 10.22 mm knurled."""
    cap = counterbore(Screw.from_text("ISO 4762 M6"), 10.0)
    assert (cap.passes, cap.passes_plain_head, cap.passes_set_screw) == (False, False, True)
    assert counterbore(Screw.from_text("ISO 4026 M6"), 10.0).passes
    assert counterbore(Screw.from_text("ISO 4762 M6")).passes


def test_every_value_has_its_source_and_says_whether_it_was_read() -> None:
    values = published("screws").args[1]
    assert len(values) >= 300
    assert all(value["source"] for value in values)
    assert {value["confidence"] for value in values} == {"read", "from memory"}
