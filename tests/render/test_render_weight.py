"""What a page weighs: a workshop reads it on an old telephone, over a garden wall."""

import gzip

from shoplog.render import page_script, style_sheet, view_of_text

SETUP = """```setup
date: 2026-03-14
step: {step}
operation: turning, finish
feature: journal
material: bright mild steel
cutter: turning tool, HSS, nose radius 0.4 mm
diameter: 25.4 mm
planned:
  cutting speed: 25 m/min
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
ran:
  speed: 290 rpm
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
outcome: good
remarks: mirror finish after the edge was stoned
```
"""
PAGE = f"""# Journal

```calc
bore    = 25 mm H7                # in the bush
journal = 25 mm f7
running = fit(bore, journal)
screw   = thread("M8x1.25-6H")
drill   = tap_drill(screw)
holes   = bolt_circle(diameter=66 mm, holes=4, start_angle=45 deg)
wall    = (1-1/4 in - bore) / 2
speed   = spindle_speed(cutting_speed=25 m/min, diameter=journal) to rpm
seat    = taper("Morse 2")
length  = 45 mm ±0.1
play    = bore - journal
around  = pi * journal.nominal
check running.clearance_min > 15 um
check wall > 3 mm
check holes.chord > 3 * screw.major
draw running
draw holes
```

{SETUP.format(step=1)}

{SETUP.format(step=2)}
"""


def packed(text):
    return len(gzip.compress(text.encode(), 9))


def test_an_ordinary_page_adds_less_than_60_kilobytes_to_its_theme():
    view = view_of_text(PAGE)
    made = view.top_html() + "".join(view.block_html(number) for number in range(3))
    assert made.count("<figure") == 2
    assert made.count("<svg") == 4  # each setup among its limits too
    assert made.count('class="shoplog-block shoplog-setup"') == 2
    assert made.count("shoplog-is-good") == 3
    assert packed(made) < 60_000


def test_the_script_and_the_style_of_every_page_stay_under_40_kilobytes():
    assert packed(page_script()) + packed(style_sheet()) < 40_000
