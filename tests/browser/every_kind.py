"""A small log with every kind of page that a site has, for what must hold on all of them."""

import shutil

from mkdocs.commands.build import build
from mkdocs.config import load_config

from .serving import ROOT

INDEX = """# Bench

A log of [findings](findings.md), [setups](turning.md), [pictures](pictures.md) and
[values in sentences](prose.md); [the setups](setups/index.md) of all its pages.
"""
FINDINGS = """---
part: bush
made: 2
date: 2026-02-14
mates: [gear]
---

# Bush

```calc
bore    = 16 mm H7   # reamed in the bush after pressing
pin     = 16 mm f7
running = fit(bore, pin)
wall    = (1 in - bore) / 2
speed   = spindle_speed(cutting_speed=8 m/min, diameter=bore) to rpm
check running.clearance_max < 60 um
check bore < 16.01 mm
check wall > 5 mm
concession wall because "the old casting is no thicker"
mate bore with pin as "H7/f7"
mate bore with wall
measured bore "before pressing" = 16.009 mm ±0.003
measured bore = 16.017 mm ±0.003
measured pin = 15.950 mm ±0.003
concession pin because "it was turned to suit the old bush"
measured wall = 4.71 mm ±0.01
own     = past(operation="turning", material="free-cutting brass")
next    = boor + 1 mm
after   = next * 2
broken  = 16 mm +
a_rather_long_name_for_one_value_of_a_page = 12345.678 mm
```

The bore is [=bore] and the wall [=wall], but [=woll] is nothing.

```calc
# The same cautions again, to be opened.
again = spindle_speed(cutting_speed=12 m/min, diameter=bore) to rpm
```
"""
PROSE = """# A cover

```calc
cover = 3.2 mm ±0.1
screw = thread("M6x1-6g")
```

| what | size |
|---|---|
| cover | [=cover] |
| screw | [=screw.pitch to mm] |

## A cover of [=cover to in]

- The sheet is **[=cover]** thick, which is [=cover to in].
- Its screw has a pitch of [=screw.pitch].
"""
TURNING = """# Turning

```setup
date: 2026-03-14
step: 4
operation: turning, finish
feature: journal
material: free-cutting brass
cutter: right-hand knife
machine: bench lathe
holding: three-jaw chuck
stick-out: 40 mm
diameter: 16.4 mm
length: 32 mm
planned:
  cutting speed: 60 m/min
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
ran:
  speed: 1180 rpm
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
  coolant: none
ran:
  speed: 740 rpm
  feed: 0.002 in/rev
  depth of cut: 0.1 mm
  outcome: poor
outcome: good
remarks: mirror finish: after the edge was stoned
```

```setup
date: 2026-03-15
operation: turning
feature: shoulder
material: C45
cutter: right-hand knife
machine: bench lathe
diameter: 20 mm
ran:
  speed: 740 rpm
  feed: 0.1 mm/rev
  depth of cut: 0.5 mm
outcome: poor
fault: chatter
```

```setup
date: 2026-03-15
operation: turning
feature: shoulder
material: C45
cutter: right-hand knife
machine: bench lathe
diameter: 20 mm
ran:
  speed: 460 rpm
  feed: 0.1 mm/rev
  depth of cut: 0.5 mm
outcome: good
```

```setup
date: 2026-03-16
operation: boring
feature: a secret
material: C45
private: yes
ran:
  speed: 460 rpm
  feed: 0.1 mm/rev
```

```setup
operation: milling
material: nobody knows
planned:
  speed: 99999 rpm
  feed: wrong
```
"""
AGAIN = """# Turning again

```setup
date: 2026-04-01
operation: turning
feature: shoulder
material: C45
cutter: right-hand knife
machine: bench lathe
diameter: 20 mm
planned:
  speed: 740 rpm
  feed: 0.1 mm/rev
  depth of cut: 0.5 mm
```

```setup
date: 2026-04-02
operation: slot milling
feature: slot
material: mild steel
cutter: end mill 10
machine: bench mill
ran:
  speed: 700 rpm
  feed: 60 mm/min
  depth of cut: 2 mm
  width of cut: 10 mm
outcome: usable
fault: burr
```

```setup
date: 2026-04-03
operation: drilling
feature: hole
material: free-cutting brass
cutter: drill, HSS, diameter 6 mm
machine: drill press
ran:
  speed: 1150 rpm
  feed: by hand
outcome: spoiled
fault: broke
```
"""
DRAWN = (
    "fit(16 mm H7, 16 mm f7)",
    'fit_for("runs freely", 20 mm)',
    "bearing_shaft_seat(25 mm)",
    'inch_fit("RC3", 1 in)',
    'press_fit(30 mm H7, 30 mm s6, length=25 mm, hub_diameter=60 mm, hub="C45")',
    "pressed_bush(24 mm H7, 24 mm r6, bore=16 mm H7, length=20 mm, housing_diameter=50 mm,"
    ' bush_material="bronze", housing="cast iron")',
    'thread_limits("M10-6g")',
    'judged_cut("turning", "C45", spindle_speed=290 rpm, feed_per_rev=0.1 mm/rev,'
    " depth_of_cut=0.6 mm, diameter=25 mm, spindle_steps=[110 rpm, 180 rpm, 290 rpm],"
    " power=0.37 kW)",
    'tapped_hole("M8", full_thread=12 mm)',
    "flatted_round(6 mm, 1.5 mm)",
    "polygon_on_round(20 mm, 6)",
    "square_hole(10 mm)",
    "parallel_key(25 mm)",
    "parallel_key(25 mm).shaft",
    "parallel_key(25 mm).key",
    'thread("M8")',
    'counterbore("ISO 4762 M6")',
    'screw_countersink("ISO 10642 M5")',
    'countersink_for("M5")',
    "16 mm H7 + 3 mm ±0.1",
    "reamer_limits(16 mm H7)",
    'tailstock_set_over("1:50", length=200 mm, centre_depth=4 mm)',
    'indicator_setting("Morse 2", 50 mm)',
    'indicator_finding("Morse 2", 50 mm, rise=1.26 mm)',
    "bolt_circle(40 mm, 5, 10 deg)",
    "hole_row(3, 20 mm)",
    "hole_readout(hole_row(3, 20 mm), zero_x=1 mm, zero_y=1 mm)",
    'least_engagement("M8", "8.8", "mild steel")',
    'tap_drill("M8")',
    'taper("Morse 2")',
    'taper_pin("6 mm", 40 mm)',
    'compound_setting("1:20")',
    'sine_bar(100 mm, 25°, blocks="metric 88")',
    'gauge_block_stack(37.456 mm, "metric 88")',
    "stock_passes(10 mm, 2 mm)",
    'thread_infeed("M10", 8)',
    "head_tram(0.05 mm, 150 mm)",
    "tram_dish(0.02°, cutter_diameter=80 mm, width_of_cut=60 mm)",
    "turned_finish(0.1 mm/rev, 0.4 mm)",
    'tool_bit_angles("mild steel")',
    'dividing(31, plates="three plates")',
    "cut_bar(900 mm, [300 mm, 240 mm], kerf=2 mm, counts=[1, 2])",
)
"""A value for each kind of picture."""

SHOP = """\
name: Saltmarsh Lane
machines:
  - name: bench lathe
    kind: lathe
    speeds: 110 rpm, 180 rpm, 290 rpm, 460 rpm, 740 rpm, 1180 rpm
    power: 0.75 kW
    feeds: 0.06 mm/rev, 0.1 mm/rev
  - name: bench mill
    kind: mill
    speeds: 160 rpm to 1600 rpm
  - name: drill press
    kind: drill press
    speeds: 310 rpm, 520 rpm, 780 rpm, 1150 rpm
chucks:
  - name: three-jaw chuck
    marked speed: 2500 rpm
cutters:
  right-hand knife: turning tool, HSS, nose radius 0.4 mm
  end mill 10: end mill, HSS, diameter 10 mm, 4 teeth
instruments:
  - name: micrometer
    kind: micrometer
    range: 0 mm to 25 mm
    division: 0.01 mm
    error: 3 um
materials:
  - material: C45
    form: round bar
    size: 25 mm
"""
COPIED = (
    "guide/seeing/reading-a-page.md",
    "guide/the-command.md",
    "guide/past/other-logs.md",
    "reference/units.md",
    "reference/setup-keys.md",
)
"""Of the guide and of the made reference: with consoles, listings in colours, tables, links."""

KINDS = {
    "a page of words": "index",
    "calculations with every finding": "findings",
    "values in sentences": "prose",
    "setups": "turning",
    "setups that repeat a poor one": "again",
    "pictures": "pictures",
    "the page of setups": "setups/index",
    "the shop": "shop/index",
    "a lathe": "shop/bench-lathe",
    "a mill": "shop/bench-mill",
    "a cutter": "shop/right-hand-knife",
    "an instrument": "shop/micrometer",
    "materials": "materials/index",
    "a material": "materials/c45",
    "operations": "operations/index",
    "an operation": "operations/turning",
    **{name.removesuffix(".md"): name.removesuffix(".md") for name in COPIED},
}
"""Every kind of page, and one of its kind."""


def texts():
    """The pages that an author writes, by their names."""
    drawn = "\n".join(f"draw {one}" for one in DRAWN)
    return {
        "index": INDEX,
        "findings": FINDINGS,
        "prose": PROSE,
        "turning": TURNING,
        "again": AGAIN,
        "pictures": f"# Pictures\n\n```calc\n{drawn}\n```\n",
    }


def built(folder, **settings):
    """The folder of a site of these pages, built in a folder that is there."""
    docs = folder / "docs"
    docs.mkdir(exist_ok=True)
    for name, text in texts().items():
        (docs / f"{name}.md").write_text(text, "utf-8")
    for name in COPIED:
        (docs / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(ROOT / "docs" / name, docs / name)
    shutil.copytree(ROOT / "docs" / "stylesheets", docs / "stylesheets", dirs_exist_ok=True)
    (folder / "shop.yml").write_text(SHOP, "utf-8")
    shutil.copy(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    build(load_config(str(folder / "mkdocs.yml"), **settings))
    return folder / "site"


def address_of(page):
    """Where a page is below the site's address, where every page is a folder."""
    return f"{page.removesuffix('index').removesuffix('/')}/".lstrip("/")
