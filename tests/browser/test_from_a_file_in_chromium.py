"""A site read from a disk, with no server: what works there, and what the guide says does not."""

from pathlib import Path
from urllib.parse import unquote, urldefrag, urlparse

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from shoplog.log import read_folder
from shoplog.render.sheet.gather import sheet_of
from shoplog.render.sheet.layout import sheets_html

from .every_kind import COPIED, KINDS, built
from .serving import visiting


@pytest.fixture(scope="module")
def log_folder(tmp_path_factory):
    """A log in a folder whose name an address must spell out; its site has a file for each page."""
    folder = tmp_path_factory.mktemp("disk") / "shop log, 100 %"
    folder.mkdir()
    built(folder, use_directory_urls=False)
    return folder


@pytest.fixture
def open_file(chromium, log_folder):
    """Opens a page of the site from the disk."""
    address = f"{(log_folder / 'site').as_uri()}/"
    with visiting(chromium, address, missing=True) as go:
        yield lambda page_name, **settings: go(f"{page_name}.html", **settings)


def unnamed(addresses, folder):
    """Those that lie outside a folder, whichever way a browser spells it."""
    root = unquote((folder / "site").as_uri())
    return [one for one in addresses if not unquote(one).startswith((root, "blob:", "data:"))]


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_from_a_disk_reads_its_own_files_and_leads_to_them(open_file, log_folder, kind):
    page = open_file(KINDS[kind])
    assert len(page.requests) > 3
    assert unnamed(page.requests, log_folder) == []
    assert page.faults == []
    blocks = page.locator(".shoplog-block:not(.shoplog-setups-page)")
    if blocks.count():
        look = blocks.first.evaluate("one => getComputedStyle(one).borderTopStyle")
        assert look == "solid"
    links = page.locator("article a[href]").evaluate_all("all => all.map(one => one.href)")
    assert links
    if f"{kind}.md" in COPIED:
        return  # they lead to pages of the guide that this log does not have
    assert unnamed(links, log_folder) == []
    for link in dict.fromkeys(links):
        address, anchor = urldefrag(link)
        text = Path(unquote(urlparse(address).path)).read_text("utf-8")
        assert not anchor or f'id="{unquote(anchor)}"' in text, link


def test_pictures_are_drawn_from_a_disk(open_file):
    page = open_file("pictures")
    flat = page.locator("svg.shoplog-picture").evaluate_all(
        "all => all.filter(one => one.getBoundingClientRect().height < 20).length"
    )
    assert page.locator("svg.shoplog-picture").count() > 30
    assert flat == 0
    pattern = page.locator(".shoplog-drawing [fill^=url]").first.get_attribute("fill")
    assert page.locator(pattern.removeprefix("url(").removesuffix(")")).count() == 1


def test_the_units_that_were_chosen_are_kept_for_the_next_file(open_file):
    page = open_file("prose")
    page.get_by_role("button", name="inch", exact=True).click()
    assert page.locator(".shoplog-prose").first.inner_text() == "0.1220 to 0.1299 in"
    page.locator(".md-nav--primary a", has_text="Bush").click()
    page.wait_for_url("**/findings.html")
    page.locator(".shoplog-switch [aria-pressed=true]", has_text="inch").wait_for()
    assert page.locator("#value-bore ~ td.shoplog-mm").is_hidden()


def test_a_value_is_copied_from_a_disk(open_file):
    page = open_file("findings", permissions=["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy bore", exact=True).first.focus()
    page.keyboard.press("Enter")
    page.get_by_role("status").filter(has_text="Copied 16 mm H7").wait_for()


def test_steps_are_opened_and_a_problem_is_led_to(open_file):
    page = open_file("findings")
    page.locator(".shoplog-details summary").first.click()
    assert page.locator(".shoplog-steps").first.is_visible()
    page.locator(".shoplog-summary a").first.click()
    assert page.locator(".shoplog-problem:target").is_visible()


def test_setups_are_found_led_to_and_come_back_to_from_a_disk(open_file):
    page = open_file("setups/index")
    page.get_by_label("Words").fill("chatter")
    assert page.locator(".setups-found").inner_text() == "1 of 8 records"
    page.get_by_role("radio", name="inch").check()
    asked = page.url
    assert "words=chatter" in asked
    page.locator(".setups-records tbody a").click()
    page.wait_for_url("**/turning.html#setup-2")
    assert "chatter" in page.locator(".shoplog-setup:target").inner_text()
    page.go_back()
    page.wait_for_selector(".setups-found")
    assert page.url == asked
    assert page.locator(".setups-found").inner_text() == "1 of 8 records"


def test_a_made_page_leads_to_its_setups_among_all(open_file):
    page = open_file("shop/bench-lathe")
    page.get_by_role("link", name="See them among all setups").click()
    page.wait_for_selector(".setups-found")
    assert page.locator(".setups-found").inner_text() == "5 of 8 records"
    assert page.faults == []


def test_the_theme_has_no_search_on_a_disk(open_file):
    page = open_file("index")
    assert page.locator(".md-search").is_hidden()


def test_a_page_in_a_folder_of_its_own_is_not_led_to_on_a_disk(chromium, log_folder, tmp_path):
    settings = {"docs_dir": str(tmp_path / "docs"), "site_dir": str(tmp_path / "site")}
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "index.md").write_text("# Bench\n\nSee [the bush](bush.md).\n", "utf-8")
    (tmp_path / "docs" / "bush.md").write_text("# Bush\n", "utf-8")
    build(load_config(str(log_folder / "mkdocs.yml"), **settings))
    page = chromium.new_page()
    page.goto((tmp_path / "site" / "index.html").as_uri())
    page.locator("article a", has_text="the bush").click()
    page.wait_for_url("**/bush/")
    heading = page.locator("h1").inner_text()
    page.close()
    assert heading.startswith("Index of"), "the browser shows a folder, and no page"


def test_a_bench_sheet_is_one_file(chromium, log_folder, tmp_path):
    log = read_folder(log_folder)
    sheet = tmp_path / "sheet.html"
    sheet.write_text(sheets_html([sheet_of(log.pages["turning.md"], log.shop)], "A5"), "utf-8")
    page = chromium.new_page()
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(sheet.as_uri())
    page.wait_for_load_state("networkidle")
    assert page.locator("h1").inner_text() == "Turning"
    page.close()
    assert asked == [sheet.as_uri()]
