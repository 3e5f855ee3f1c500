"""A site built with the demo's configuration, served on this machine, and Chromium to read it."""

import shutil

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import sync_playwright

from .serving import ROOT, serving, visiting

SWITCHES = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
    " --disable-component-update --disable-sync"
).split()

INDEX = """# Bench

Nothing is worked out here. See [the bush](bush.md).
"""
BUSH = """---
part: bush
---

# Bush

```calc
bore    = 16 mm H7   # reamed in the bush after pressing, wellhidden
pin     = 16 mm f7
running = fit(bore, pin)
wall    = (1 in - bore) / 2
speed   = spindle_speed(cutting_speed=8 m/min, diameter=bore) to rpm
check running.clearance_max < 60 um
mate bore with pin as "H7/f7"
measured bore = 16.009 mm ±0.003
holes   = bolt_circle(40 mm, 5, 10 deg)
draw running
draw holes
a_rather_long_name_for_one_value_of_a_page = 12345.678 mm
```

The bore is [=bore].
"""
SHAFT = """# Turning

```setup
date: 2026-03-14
operation: turning, finish
feature: journal
material: free-cutting brass
cutter: turning tool, HSS, nose radius 0.4 mm
diameter: 16.4 mm
planned:
  cutting speed: 60 m/min
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
ran:
  speed: 1180 rpm
  feed: 0.06 mm/rev
  depth of cut: 0.2 mm
ran:
  speed: 900 rpm
  feed: 0.002 in/rev
  depth of cut: 0.1 mm
  outcome: poor
outcome: good
remarks: mirror finish: after the edge was stoned
```
"""
RING = """# Ring

```calc
bore = 16 mm H7
wall = 2 * boor
next = wall + 1 mm
```
"""


@pytest.fixture(scope="session")
def address(tmp_path_factory):
    """The address of the site."""
    folder = tmp_path_factory.mktemp("log")
    docs = folder / "docs"
    docs.mkdir()
    pages = {"index": INDEX, "bush": BUSH, "turning": SHAFT, "ring": RING}
    for name, text in pages.items():
        (docs / f"{name}.md").write_text(text, "utf-8")
    settings = {"docs_dir": str(docs), "site_dir": str(folder / "site")}
    with serving(folder) as address:
        build(load_config(str(ROOT / "mkdocs.yml"), **settings, site_url=address))
        yield address


@pytest.fixture(scope="session")
def chromium():
    """The system's Chromium; without it these tests fail, as nothing else shows what they show."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        pytest.fail("there is no Chromium on this machine; `make test` installs it", pytrace=False)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, headless=True, args=SWITCHES)
        yield browser
        browser.close()


@pytest.fixture
def open_page(chromium, address):
    """Opens a page of the site."""
    with visiting(chromium, address) as go:
        yield go
