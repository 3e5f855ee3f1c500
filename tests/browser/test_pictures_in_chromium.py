"""Pictures as a reader meets them: on a desk, a telephone, in the dark, on paper, in mm or inch."""

from __future__ import annotations

import re
import shutil

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from .serving import ROOT, serving, visiting

pytestmark = pytest.mark.slow

GUIDE = ROOT / "docs" / "guide" / "seeing"
SHOWN = {
    "": 28,
    "cutting/": 10,
    "shop/bench-lathe/": 1,
    "operations/turning/": 1,
}
"""The pages with pictures, and how many there are at the least."""
SETUPS = """# Turned

```setup
operation: turning
material: C45
cutter: turning tool, HSS, nose radius 0.4 mm
diameter: 20 mm
ran:
  speed: 290 rpm
  feed: 0.1 mm/rev
outcome: good
```

```setup
operation: turning
material: free-cutting brass
cutter: turning tool, HSS, nose radius 0.4 mm
diameter: 20 mm
ran:
  speed: 740 rpm
  feed: 0.1 mm/rev
outcome: poor
```
"""
TELEPHONE = {"viewport": {"width": 360, "height": 740}, "device_scale_factor": 2}
LEAST_PIXELS = 11.5
CONTRAST = 4.5
"""What WCAG 2.2 AA asks of words; lines need 3."""

# In units of the picture: where words stand, and which of them meet or leave it.
WORDS = """svg => {
  const frame = svg.getBoundingClientRect(), units = svg.viewBox.baseVal.width / frame.width;
  const shown = [...svg.querySelectorAll("text")].filter(text => text.getClientRects().length);
  const texts = shown.map(text => {
    const box = text.getBoundingClientRect();
    return {text: text.textContent, left: (box.left - frame.left) * units,
      right: (box.right - frame.left) * units, top: (box.top - frame.top) * units,
      bottom: (box.bottom - frame.top) * units};
  });
  const faults = [];
  texts.forEach((one, number) => {
    if (one.left < -2 || one.right > svg.viewBox.baseVal.width + 2) faults.push("out: " + one.text);
    for (const other of texts.slice(number + 1)) {
      const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      // A line of text is higher than its letters.
      const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) - 4;
      if (across > 1 && down > 0) faults.push(one.text + " meets " + other.text);
    }
  });
  return faults;
}"""

# What is read in the pictures of a page and in the figures of their keys, by picture.
READ = """() => {
  const seen = element => {
    const walk = document.createTreeWalker(element, NodeFilter.SHOW_TEXT), found = [];
    while (walk.nextNode())
      if (walk.currentNode.parentElement.getClientRects().length) found.push(walk.currentNode.data);
    return found.join("");
  };
  return [...document.querySelectorAll(".shoplog-drawing")].map(drawing => {
    const key = drawing.parentElement.querySelectorAll(":scope > .shoplog-key td");
    const words = [...drawing.querySelectorAll("text"), ...key].map(seen).filter(text => text);
    return [drawing.querySelector("title").textContent, words];
  });
}"""
NAMED = {
    "mm": re.compile(r"\b(mm|µm|m/min|MPa|k?N|k?W|N[·*]m)\b(?! x)"),
    "inch": re.compile(r"\b(thou|psi|lbf|hp|ft|ft/min|in/\w+)\b|\d in\b|(^|, )in$"),
}

# The contrast of two colours (WCAG 2.2), with what is half transparent laid over the ground.
INK = """(element, name) => {
  const read = text => {
    const at = document.createElement("canvas").getContext("2d", {willReadFrequently: true});
    at.fillStyle = text; at.fillRect(0, 0, 1, 1);
    return [...at.getImageData(0, 0, 1, 1).data].slice(0, 3);
  };
  const light = rgb => {
    const part = rgb.map(v => v / 255)
      .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * part[0] + 0.7152 * part[1] + 0.0722 * part[2];
  };
  const ink = light(read(getComputedStyle(element)[name]));
  const ground = light(read(getComputedStyle(document.body).backgroundColor));
  return (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
}"""


@pytest.fixture(scope="module")
def guide_address(tmp_path_factory):
    """The address of a site with the guide's two pages of pictures, and the shop's."""
    folder = tmp_path_factory.mktemp("pictures")
    docs = folder / "docs"
    docs.mkdir()
    shutil.copy(GUIDE / "pictures-joints.md", docs / "index.md")
    shutil.copy(GUIDE / "pictures-cutting.md", docs / "cutting.md")
    (docs / "setups-of-turning.md").write_text(SETUPS, "utf-8")
    settings = {"docs_dir": str(docs), "site_dir": str(folder / "site")}
    with serving(folder) as address:
        build(load_config(str(ROOT / "mkdocs.yml"), **settings, site_url=address))
        yield address


@pytest.fixture
def pictures(chromium, guide_address):
    """Opens a page of pictures."""
    with visiting(chromium, guide_address) as go:
        yield go


def drawings(page, least=28):
    found = page.locator(".shoplog-drawing svg")
    assert found.count() >= least
    return [found.nth(number) for number in range(found.count())]


def faults_of(page, least=28):
    return {
        drawing.locator("title").text_content(): faults
        for drawing in drawings(page, least)
        if (faults := drawing.evaluate(WORDS))
    }


@pytest.mark.parametrize("settings", [{}, TELEPHONE], ids=["desk", "telephone"])
@pytest.mark.parametrize("path", SHOWN)
def test_no_words_meet_in_the_fonts_of_a_browser_in_either_system(pictures, settings, path):
    page = pictures(path, **settings)
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
    for units in ("both", "mm", "inch"):
        switch_to(page, units)
        assert faults_of(page, SHOWN[path]) == {}, units


def switch_to(page, units):
    """What the page's script does when its switch is used."""
    page.evaluate(
        "units => { if (units === 'both') delete document.documentElement.dataset.shoplogUnits;"
        " else document.documentElement.dataset.shoplogUnits = units; }",
        units,
    )


@pytest.mark.parametrize("path", SHOWN)
@pytest.mark.parametrize(("units", "other"), [("mm", "inch"), ("inch", "mm")])
def test_the_switch_leaves_no_word_of_the_other_system_in_a_picture(pictures, path, units, other):
    page = pictures(path)
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
    switch_to(page, units)
    read = page.evaluate(READ)
    assert len(read) >= SHOWN[path]
    named = {title: [word for word in words if NAMED[other].search(word)] for title, words in read}
    assert {title: words for title, words in named.items() if words} == {}
    assert any(NAMED[units].search(word) for _, words in read for word in words)


def words_of(page, title):
    return dict(page.evaluate(READ))[title]


def test_the_switch_of_the_page_reaches_its_pictures_and_is_remembered_on_the_next(
    pictures, guide_address
):
    page = pictures()
    zones = "Tolerance zones of 16 mm H7/f7"
    assert {"+18 µm", "16 µm0.6 thou"} <= set(words_of(page, zones))  # two lines of one cell
    page.locator(".shoplog-switch button[value=inch]").click()
    assert {"+0.7 thou", "0.6 thou"} <= set(words_of(page, zones))
    assert "+18 µm" not in words_of(page, zones)
    page.goto(f"{guide_address}cutting/")
    page.wait_for_selector("html[data-shoplog-units=inch]", state="attached")
    assert {"depth, in", "leaves, in", "Ø0.9843"} <= set(words_of(page, "6 passes"))


def test_words_are_read_on_a_telephone_and_nothing_scrolls_sideways(pictures):
    page = pictures(**TELEPHONE)
    for drawing in drawings(page):
        width = drawing.bounding_box()["width"]
        units = drawing.evaluate("svg => svg.viewBox.baseVal.width")
        assert 12 * width / units >= LEAST_PIXELS
        assert width <= 360
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 360


def test_the_key_stands_beside_the_picture_on_a_desk_and_below_it_on_a_telephone(pictures):
    for settings, beside in (({}, True), (TELEPHONE, False)):
        page = pictures(**settings)
        drawing = page.locator(".shoplog-with-key .shoplog-drawing").first.bounding_box()
        key = page.locator(".shoplog-with-key .shoplog-key").first.bounding_box()
        assert (key["x"] >= drawing["x"] + drawing["width"]) is beside


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_lines_and_words_stand_out_from_the_ground(pictures, scheme):
    page = pictures(color_scheme=scheme)
    for name, property_name, least in (
        (".shoplog-outline", "stroke", 3),
        (".shoplog-dimension", "stroke", 3),
        (".shoplog-curve", "stroke", 3),
        (".shoplog-words", "fill", CONTRAST),
        (".shoplog-arrow", "fill", 3),
    ):
        found = page.locator(f".shoplog-drawing {name}").first
        assert found.evaluate(INK, property_name) >= least, name


def test_a_wide_line_is_twice_a_narrow_one(pictures):
    page = pictures()
    widths = [
        page.locator(f".shoplog-drawing .shoplog-{kind}").first.evaluate(
            "line => parseFloat(getComputedStyle(line).strokeWidth)"
        )
        for kind in ("outline", "dimension", "centre", "thin")
    ]
    assert widths == [1.4, 0.7, 0.7, 0.7]


def test_on_paper_a_picture_is_dark_on_white_and_is_not_cut(pictures):
    page = pictures(color_scheme="dark")
    page.emulate_media(media="print")
    figure = page.locator(".shoplog-figure").first
    assert figure.evaluate("figure => getComputedStyle(figure).breakInside") == "avoid"
    assert drawings(page)[0].bounding_box()["width"] <= 420  # 11 cm


def test_with_forced_colours_everything_is_drawn_in_them(pictures):
    page = pictures(forced_colors="active")
    ink = page.locator(".shoplog-drawing .shoplog-outline").first
    assert ink.evaluate(INK, "stroke") >= CONTRAST
    words = page.locator(".shoplog-drawing .shoplog-words").first
    assert words.evaluate(INK, "fill") >= CONTRAST


def test_the_switch_of_the_page_shows_one_system_in_the_key(pictures):
    page = pictures()
    key = page.locator(".shoplog-key").first
    assert key.locator(".shoplog-inch:visible").count() == 4
    assert key.locator(".shoplog-mm:visible").count() == 4
    page.evaluate("document.documentElement.dataset.shoplogUnits = 'mm'")
    assert key.locator(".shoplog-inch:visible").count() == 0
    assert key.locator(".shoplog-mm:visible").count() == 4


def test_every_picture_has_a_name_and_a_description_that_a_reader_of_screens_hears(pictures):
    page = pictures()
    names = []
    for drawing in drawings(page):
        ids = drawing.get_attribute("aria-labelledby").split()
        title, text = (page.locator(f"#{name}").text_content() for name in ids)
        names.append(title)
        assert title
        assert any(character.isdigit() for character in text)
    assert "Tolerance zones of 16 mm H7/f7" in names
    assert page.locator("[role=img]").count() == len(names)


def test_a_long_table_of_holes_scrolls_in_its_own_box(pictures):
    page = pictures()
    boxes = page.locator(".shoplog-scroll:has(> .shoplog-coordinates)")
    tall = boxes.nth(boxes.count() - 1)
    assert tall.evaluate("box => box.scrollHeight > box.clientHeight + 100")
    assert tall.get_attribute("tabindex") == "0"


def test_the_pictures_ask_nothing_of_another_host(pictures, guide_address):
    page = pictures()
    assert page.faults == []
    assert [url for url in page.requests if not url.startswith(guide_address)] == []
