"""The bench sheet on paper."""

import re

import pytest

from shoplog.log import read_folder
from shoplog.render.sheet.gather import sheet_of
from shoplog.render.sheet.layout import PAPERS, sheets_html
from shoplog.render.sheet.paper import print_pdf

from .conftest import ROOT

POINTS = {"A4": (595, 842), "A5": (420, 595), "Letter": (612, 792)}
# What is left of the paper between the margins, in pixels of CSS.
WIDTHS = {"A4": 718, "A5": 483, "Letter": 740}
PAGES = ("log/boat-winch/drum-shaft.md", "log/boat-winch/bearing-block.md")


@pytest.fixture(scope="module")
def sheets():
    log = read_folder(ROOT)
    return [sheet_of(log.pages[page], log.shop) for page in PAGES]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_pdf_has_the_paper_that_was_asked_for(sheets, paper, tmp_path):
    made = tmp_path / "sheet.pdf"
    print_pdf(sheets_html(sheets[:1], paper), made)
    boxes = re.findall(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", made.read_bytes())
    assert {tuple(round(float(side)) for side in box) for box in boxes} == {POINTS[paper]}
    assert len(boxes) <= {"A4": 2, "A5": 4, "Letter": 3}[paper]
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.pdf"]


@pytest.mark.parametrize("page", ["vise-screw/screw", "gate-hinge/pin", "tap-guide/block"])
def test_a_part_of_four_setups_or_five_has_room_on_the_two_sides_of_an_a4(page, tmp_path):
    log = read_folder(ROOT)
    sheet = sheet_of(log.pages[f"log/{page}.md"], log.shop)
    assert len(sheet.work) >= 4
    made = tmp_path / "sheet.pdf"
    print_pdf(sheets_html([sheet], "A4"), made)
    assert len(re.findall(rb"/MediaBox", made.read_bytes())) <= 2


@pytest.mark.parametrize(("paper", "least"), [("A4", 8), ("A5", 7.5), ("Letter", 8)])
def test_a_box_is_as_high_as_a_line_of_writing(sheets, paper, least, paper_page):
    paper_page.set_viewport_size({"width": WIDTHS[paper], "height": 1000})
    paper_page.emulate_media(media="print")
    paper_page.set_content(sheets_html(sheets, paper))
    heights = paper_page.locator(".shoplog-box").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect().height * 25.4 / 96)"
    )
    assert len(heights) > 4
    assert min(heights) >= least - 0.1


@pytest.fixture
def paper_page(chromium):
    context = chromium.new_context(java_script_enabled=True)
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_reaches_over_the_edge_of_the_paper(sheets, paper, paper_page):
    paper_page.set_viewport_size({"width": WIDTHS[paper], "height": 1000})
    paper_page.emulate_media(media="print")
    paper_page.set_content(sheets_html(sheets, paper))
    over = paper_page.evaluate(
        """() => [...document.querySelectorAll("article *")]
            .filter(one => one.getBoundingClientRect().right > innerWidth + 1)
            .map(one => `${one.tagName} ${one.className} ${one.textContent.slice(0, 40)}`)"""
    )
    assert over == []


@pytest.mark.parametrize("width", [390, 320])
def test_a_sheet_is_no_wider_than_a_telephone(sheets, width, paper_page):
    paper_page.set_viewport_size({"width": width, "height": 640})
    paper_page.set_content(sheets_html(sheets, "A4"))
    assert paper_page.evaluate("document.documentElement.scrollWidth") == width


def test_the_words_of_a_sheet_are_large_enough_for_a_bench(sheets, paper_page):
    paper_page.emulate_media(media="print")
    paper_page.set_content(sheets_html(sheets, "A4"))
    size = "one => parseFloat(getComputedStyle(one).fontSize) * 72 / 96"
    figures = paper_page.locator(".shoplog-figures strong").first.evaluate(size)
    stated = paper_page.locator(".shoplog-stated").first.evaluate(size)
    assert figures >= 12
    assert stated >= 11


def test_a_sheet_is_black_on_white_whatever_the_reader_prefers(sheets, paper_page):
    paper_page.emulate_media(media="print", color_scheme="dark")
    paper_page.set_content(sheets_html(sheets[:1], "A4"))
    colours = paper_page.locator("body").evaluate(
        "body => [getComputedStyle(body).color, getComputedStyle(body).backgroundColor]"
    )
    assert colours == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]


def test_each_page_of_a_project_begins_on_paper_of_its_own(sheets, paper_page):
    paper_page.emulate_media(media="print")
    paper_page.set_content(sheets_html(sheets, "A4"))
    second = paper_page.locator("article").nth(1)
    assert second.evaluate("one => getComputedStyle(one).breakBefore") == "page"


@pytest.mark.parametrize("paper", PAPERS)
def test_no_list_of_holes_is_cut_for_paper_cannot_be_scrolled(paper, paper_page):
    log = read_folder(ROOT)
    sheet = sheet_of(log.pages["log/drilling-jig/plate.md"], log.shop)
    paper_page.set_viewport_size({"width": WIDTHS[paper], "height": 1000})
    paper_page.emulate_media(media="print")
    paper_page.set_content(sheets_html([sheet], paper))
    boxes = paper_page.locator(".shoplog-scroll:has(.shoplog-coordinates)").evaluate_all(
        """boxes => boxes.map(box => [
            getComputedStyle(box).overflow, box.scrollWidth <= box.clientWidth + 1,
            box.getBoundingClientRect().right <= innerWidth + 1])"""
    )
    assert boxes
    assert all(box == ["visible", True, True] for box in boxes)
