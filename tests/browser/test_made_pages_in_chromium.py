"""Pages made of a log as a reader meets them: on a wide screen, on a telephone, on paper."""

import shutil

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from .serving import ROOT, serving, visiting
from .test_site_in_chromium import contrast, style

SHOP = """\
machines:
  - name: bench lathe
    kind: lathe
    speeds: 110 rpm, 180 rpm, 290 rpm, 460 rpm, 740 rpm, 1180 rpm
  - name: bench mill
    kind: mill
    speeds: 160 rpm to 1600 rpm
chucks:
  - name: three-jaw chuck
    marked speed: 2500 rpm
cutters:
  right-hand knife: turning tool, HSS, nose radius 0.4 mm
"""
SETUP = """
```setup
date: 2026-03-{day:02}
operation: {operation}
feature: journal {day}
material: {material}
cutter: right-hand knife
machine: {machine}
holding: three-jaw chuck
diameter: {diameter} mm
ran:
  speed: {speed} rpm
  feed: 0.1 mm/rev
  depth of cut: 0.5 mm
outcome: {outcome}
fault: {fault}
```
"""
OUTCOMES = ("good", "usable", "poor", "spoiled")


def setups():
    for day in range(1, 13):
        yield SETUP.format(
            day=day,
            operation="turning, finish" if day % 3 else "facing",
            material="C45" if day < 9 else "free-cutting brass",
            machine="bench lathe" if day != 5 else "bench mill",
            diameter=20 + 2 * day,
            speed=(290, 460, 740)[day % 3],
            outcome=OUTCOMES[day % 4],
            fault="chatter" if day % 4 else "none",
        )


@pytest.fixture(scope="module")
def made_site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("made")
    (folder / "docs" / "log").mkdir(parents=True)
    (folder / "docs" / "index.md").write_text("# Bench\n\nA log.\n", "utf-8")
    (folder / "docs" / "log" / "shaft.md").write_text("# Drum shaft\n" + "".join(setups()), "utf-8")
    (folder / "shop.yml").write_text(SHOP, "utf-8")
    shutil.copy(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    with serving(folder) as address:
        build(load_config(str(folder / "mkdocs.yml"), site_url=address, strict=True))
        yield address


@pytest.fixture
def open_made(chromium, made_site):
    with visiting(chromium, made_site) as go:
        yield go


PAGES = (
    "shop/", "shop/bench-lathe/", "shop/bench-mill/", "shop/right-hand-knife/", "materials/",
    "materials/c45/", "operations/turning/",
)  # fmt: skip
CHARTS = ("shop/bench-lathe/", "shop/bench-mill/", "materials/c45/", "operations/turning/")


@pytest.mark.parametrize("path", PAGES)
def test_no_made_page_asks_another_host_or_fails(open_made, made_site, path):
    page = open_made(path)
    assert page.requests
    assert [url for url in page.requests if not url.startswith((made_site, "blob:", "data:"))] == []
    assert page.faults == []


@pytest.mark.parametrize("path", PAGES)
def test_a_made_page_fits_a_telephone_of_320_pixels(open_made, path):
    page = open_made(path, viewport={"width": 320, "height": 640})
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_on_a_telephone_each_setup_stands_as_lines_with_the_heads_of_its_columns(open_made):
    page = open_made("shop/bench-lathe/", viewport={"width": 320, "height": 640})
    row = page.locator(".shoplog-setups tbody tr").first
    tops = [cell.bounding_box()["y"] for cell in row.locator("> *").all()]
    assert tops == sorted(set(tops))
    assert not page.locator(".shoplog-setups thead").is_visible()
    said = row.locator("td").nth(3).evaluate("e => getComputedStyle(e, '::before').content")
    assert said == '"Speed"'


def test_on_a_wide_screen_a_setup_is_one_row(open_made):
    row = open_made("shop/bench-lathe/").locator(".shoplog-setups tbody tr").first
    assert len({cell.bounding_box()["y"] for cell in row.locator("> *").all()}) == 1


@pytest.mark.parametrize("path", CHARTS)
def test_the_words_of_a_chart_can_be_read_at_the_width_of_a_telephone(open_made, path):
    page = open_made(path, viewport={"width": 360, "height": 640})
    heights = page.locator("svg.shoplog-picture text").evaluate_all(
        # Words of the other system are not shown, nor have they a height.
        "all => all.map(e => e.getBoundingClientRect().height).filter(height => height)"
    )
    assert len(heights) > 3
    assert min(heights) >= 11


def test_a_row_leads_to_its_card_and_back(open_made):
    page = open_made("shop/bench-lathe/")
    page.locator(".shoplog-setups a", has_text="facing").first.click()
    page.wait_for_url("**/log/shaft/#setup-12")
    card = page.locator("#setup-12")
    card.wait_for(state="visible")
    assert "journal 12" in card.inner_text()
    page.go_back()
    page.wait_for_url("**/shop/bench-lathe/")


@pytest.mark.parametrize(
    ("path", "found"),
    [
        ("shop/bench-lathe/", "11 of 12 records"),
        ("operations/facing/", "4 of 12 records"),
        ("materials/c45/", "8 of 12 records"),
    ],
)
def test_the_link_above_the_list_opens_the_page_of_setups_at_the_same_question(
    open_made, path, found
):
    page = open_made(path)
    page.locator("article a", has_text="See them among all setups").click()
    page.wait_for_url("**/setups/?*")
    status = page.locator(".setups-found")
    status.wait_for(state="visible")
    assert status.inner_text() == found
    assert page.faults == []


def test_the_switch_of_the_page_shows_the_list_in_one_system(open_made):
    page = open_made("shop/bench-lathe/")
    cell = page.locator(".shoplog-setups tbody tr").first.locator("td").nth(3)
    assert "ft/min" in cell.inner_text()
    assert "m/min" in cell.inner_text()
    page.get_by_role("button", name="inch", exact=True).or_(
        page.get_by_role("radio", name="inch", exact=True)
    ).first.click()
    assert "m/min" not in cell.inner_text()
    assert "ft/min" in cell.inner_text()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_outcomes_and_marks_stand_out_from_the_ground_in_light_and_in_dark(open_made, scheme):
    page = open_made("materials/c45/", color_scheme=scheme)
    ground = style(page, "body", "background-color")
    for word in OUTCOMES:
        assert contrast(style(page, f".shoplog-went-{word} strong", "color"), ground) >= 4.5
        mark = style(page, f"svg .shoplog-went-{word}", "fill")
        assert contrast(mark, ground) >= 3


@pytest.mark.parametrize("path", ["materials/c45/", "shop/right-hand-knife/"])
def test_paper_can_be_read_whatever_the_screen_was(open_made, path):
    page = open_made(path, color_scheme="dark")
    page.emulate_media(media="print")
    words = '[class^="shoplog-went-"] strong, .shoplog-caution strong, .shoplog-made th'
    colours = page.locator(words).evaluate_all("all => all.map(one => getComputedStyle(one).color)")
    assert len(colours) > 8
    # WCAG 2.2, 1.4.3: 4.5 to 1 for text.
    assert [one for one in set(colours) if contrast(one, "rgb(255, 255, 255)") < 4.5] == []


def test_marks_are_seen_in_forced_colours(open_made):
    page = open_made("materials/c45/", forced_colors="active")
    ground = style(page, "body", "background-color")
    for word in OUTCOMES:
        assert contrast(style(page, f"svg .shoplog-went-{word}", "fill"), ground) >= 3


@pytest.mark.parametrize("path", PAGES)
def test_nothing_of_a_made_page_is_wider_than_the_paper(open_made, path):
    page = open_made(path, viewport={"width": 718, "height": 1000})  # A4 within its margins
    page.emulate_media(media="print")
    outside = page.evaluate(
        "[...document.querySelectorAll('article *')]"
        ".filter(e => e.getBoundingClientRect().right > innerWidth + 1)"
        ".map(e => e.outerHTML.slice(0, 90))"
    )
    assert outside == []


def test_a_table_that_must_be_scrolled_can_be_reached_by_the_keyboard(open_made):
    page = open_made("shop/bench-lathe/", viewport={"width": 320, "height": 640})
    region = page.get_by_role("group", name="Cutting speed of each step, by diameter")
    region.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function("document.activeElement.scrollLeft > 0")
    assert region.evaluate("element => element === document.activeElement")


def test_the_pages_stand_in_the_navigation_by_their_names(open_made):
    page = open_made("shop/bench-lathe/")
    names = page.locator(".md-nav--primary a.md-nav__link").all_inner_texts()
    assert {"bench lathe", "bench mill", "three-jaw chuck", "right-hand knife"} <= {
        name.strip() for name in names
    }
