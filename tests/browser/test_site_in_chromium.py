"""The built site as a reader meets it."""

import re

import pytest

PAGES = ("", "bush/", "turning/", "ring/")


def style(page, selector, name):
    return page.locator(selector).first.evaluate(
        "(element, name) => getComputedStyle(element).getPropertyValue(name)", name
    )


def styled(page):
    return style(page, ".shoplog-block", "border-top-style") == "solid"


def test_a_table_shows_a_size_in_both_systems_with_its_note(open_page):
    cells = open_page("bush/").locator("tr:has(#value-bore) > *").all_inner_texts()
    assert [cell.strip() for cell in cells] == [
        "bore",
        "16 mm H7\n16.000 to 16.018 mm",
        "0.6299 to 0.6306 in",
        "reamed in the bush after pressing, wellhidden",
    ]


def test_the_columns_stand_beside_each_other_on_a_wide_screen(open_page):
    cells = open_page("bush/").locator("tr:has(#value-bore) > *")
    tops = {round(cells.nth(number).bounding_box()["y"]) for number in range(cells.count())}
    assert len(tops) == 1


def test_a_setup_card_shows_planned_and_ran_in_columns(open_page):
    page = open_page("turning/")
    heads = page.locator(".shoplog-runs thead tr > *").all_inner_texts()
    assert heads == ["", "planned", "ran 1", "ran 2"]
    assert "✓ good" in page.locator(".shoplog-setup").inner_text()


def test_steps_are_closed_and_open_on_a_click(open_page):
    page = open_page("bush/")
    details = page.locator("tr:has(#value-wall) + tr details")
    steps = details.locator("math").first
    assert not steps.is_visible()
    details.locator("summary").click()
    assert steps.is_visible()
    assert steps.locator("mfrac").count() == 1
    assert "In full: 0.184" in details.inner_text()


def test_a_fraction_is_set_as_one(open_page):
    page = open_page("bush/")
    page.locator("tr:has(#value-wall) + tr summary").click()
    over, under = (
        page.locator("tr:has(#value-wall) + tr mfrac").first.locator(":scope > *").nth(number)
        for number in (0, 1)
    )
    assert over.bounding_box()["y"] + 5 < under.bounding_box()["y"]


def test_a_problem_stands_on_its_page_and_the_top_leads_to_it(open_page):
    page = open_page("ring/")
    page.locator(".shoplog-summary a").click()
    page.locator(".shoplog-problem:target").wait_for(state="visible")
    caret = page.locator(".shoplog-block .shoplog-caret").bounding_box()
    mark = page.locator(".shoplog-block mark").bounding_box()
    assert abs(caret["x"] + caret["width"] - mark["x"] - mark["width"]) < 3


@pytest.mark.parametrize("path", PAGES)
def test_no_page_asks_another_host_for_anything(open_page, address, path):
    page = open_page(path)
    assert page.requests
    assert [url for url in page.requests if not url.startswith((address, "blob:", "data:"))] == []


@pytest.mark.parametrize("path", PAGES)
def test_no_script_of_a_page_fails(open_page, path):
    assert open_page(path).faults == []


def numbers(colour):
    """Red, green and blue from 0 to 255, and how far the colour covers what is below it."""
    red, green, blue, *cover = (float(number) for number in re.findall(r"[\d.]+", colour))
    full = 255 if colour.startswith("color(srgb") else 1  # a mixed colour is told from 0 to 1
    return (red * full, green * full, blue * full), (cover or [1.0])[0]


def brightness(parts):
    """Relative luminance, as WCAG 2.2 defines it."""
    red, green, blue = (
        (part / 255 / 12.92) if part <= 10 else ((part / 255 + 0.055) / 1.055) ** 2.4
        for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(colour, ground):
    below, _ = numbers(ground)
    parts, cover = numbers(colour)
    seen = [part * cover + under * (1 - cover) for part, under in zip(parts, below, strict=True)]
    low, high = sorted((brightness(seen), brightness(below)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(
    ("path", "selector"),
    [
        ("bush/", ".shoplog-value strong"),
        ("bush/", ".shoplog-good"),
        ("bush/", ".shoplog-value small"),
        ("bush/", ".shoplog-sources"),
        ("bush/", ".shoplog-kind"),
        ("turning/", ".shoplog-bad"),
        ("bush/", ".shoplog-caution strong"),
        ("ring/", ".shoplog-part"),
        ("ring/", ".shoplog-problem-head strong"),
    ],
)
def test_words_can_be_read_in_light_and_in_dark(open_page, scheme, path, selector):
    page = open_page(path, color_scheme=scheme)
    ground = style(page, "body", "background-color")
    bright = brightness(numbers(ground)[0])
    assert bright > 0.5 if scheme == "light" else bright < 0.1
    # WCAG 2.2, 1.4.3: 4.5 to 1 for text.
    assert style(page, selector, "opacity") == "1"
    assert contrast(style(page, selector, "color"), ground) >= 4.5


def test_a_picture_takes_the_colours_of_the_page(open_page):
    for scheme in ("light", "dark"):
        page = open_page("bush/", color_scheme=scheme)
        ground = style(page, "body", "background-color")
        assert contrast(style(page, ".shoplog-drawing text", "fill"), ground) >= 4.5
        assert (
            contrast(style(page, ".shoplog-drawing .shoplog-outline path", "stroke"), ground) >= 3
        )


def test_a_page_reached_by_instant_navigation_is_styled(open_page):
    page = open_page("")
    assert "shoplog" not in page.content()
    page.evaluate("window.stayed = true")
    page.locator("article a", has_text="the bush").click()
    page.wait_for_selector("#value-bore")
    assert page.evaluate("window.stayed") is True, "the page was loaded anew"
    page.wait_for_function(
        "getComputedStyle(document.querySelector('.shoplog-block')).borderTopStyle === 'solid'"
    )
    assert styled(page)
    page.locator(".md-nav a", has_text="Ring").first.click()
    page.wait_for_selector("#problem-line-5")
    assert page.evaluate("window.stayed") is True
    assert styled(page)


@pytest.mark.parametrize("words", ["running", "wellhidden", "brass"])
def test_the_search_finds_a_value_by_its_name_by_its_note_and_a_setup(open_page, words):
    page = open_page("")
    page.locator(".md-search__input").click()
    page.keyboard.type(words)
    page.wait_for_selector(".md-search-result__link", state="attached")
    links = page.locator(".md-search-result__link")
    hrefs = [links.nth(number).get_attribute("href") for number in range(links.count())]
    wanted = "turning/" if words == "brass" else "bush/"
    assert any(wanted in href for href in hrefs)


def test_the_search_index_has_no_signs_of_formulas_and_no_labels_of_pictures(open_page, address):
    page = open_page("")
    index = page.request.get(f"{address}search/search_index.json").json()
    text = " ".join(entry["text"] for entry in index["docs"] if entry["location"] == "bush/")
    assert "reamed in the bush" in text
    assert "16 mm H7" in text
    for noise in (
        "Metric Inch",
        "as written",
        "In full",
        "Tolerance zones",
        "shaft f7",
        "−34 µm",
        "0.7754",
    ):
        assert noise not in text


def test_words_of_neighbouring_cells_stay_apart_in_the_search_index(open_page, address):
    index = open_page("").request.get(f"{address}search/search_index.json").json()
    text = " ".join(entry["text"] for entry in index["docs"])
    assert re.search(r"bore</code>\s+16 mm H7", text)


@pytest.mark.parametrize("path", PAGES)
def test_a_telephone_of_320_pixels_is_wide_enough(open_page, path):
    page = open_page(path, viewport={"width": 320, "height": 640})
    for details in page.locator("details.shoplog-details").all():
        details.evaluate("element => element.open = true")
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    outside = page.evaluate(
        """() => [...document.querySelectorAll('.shoplog-block, .shoplog-block *')]
            .filter(element => !element.closest('.shoplog-scroll .shoplog-scroll, pre, svg')
                && !element.closest('.shoplog-setup .shoplog-scroll, .shoplog-coordinates')
                && !element.closest('.shoplog-step')
                && element.getBoundingClientRect().right > 321)
            .map(element => element.outerHTML.slice(0, 80))"""
    )
    assert outside == []


def test_a_picture_can_be_read_at_320_pixels(open_page):
    page = open_page("bush/", viewport={"width": 320, "height": 640})
    scale = page.locator(".shoplog-drawing svg").first.evaluate(
        "svg => svg.getBoundingClientRect().width / svg.viewBox.baseVal.width"
    )
    assert 12 * scale >= 9.5


def test_print_shows_whole_tables_and_no_closed_steps(open_page):
    page = open_page("bush/", viewport={"width": 700, "height": 900})
    page.emulate_media(media="print")
    assert page.locator("#value-bore").is_visible()
    assert page.locator(".shoplog-details").first.is_hidden()
    assert style(page, ".shoplog-scroll", "overflow-x") == "visible"
    cut = page.evaluate(
        """() => [...document.querySelectorAll('.shoplog-table')].filter(
            table => table.getBoundingClientRect().right > document.documentElement.clientWidth
        ).length"""
    )
    assert cut == 0
    assert page.pdf(format="A4").startswith(b"%PDF")


def test_paper_is_spared_the_steps_that_the_theme_opens_to_print(open_page):
    page = open_page("bush/")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    page.emulate_media(media="print")
    assert page.locator("tr:has(#value-wall)").first.is_visible()
    assert page.locator(".shoplog-details").first.is_hidden()
    assert page.locator("tr:has(#value-wall) + tr math").first.is_hidden()


def test_forced_colours_keep_the_words_and_the_marks(open_page):
    page = open_page("ring/", forced_colors="active")
    assert page.locator(".shoplog-problem-head strong").first.inner_text().startswith("✗")
    assert styled(page)


def test_each_picture_has_a_name_for_who_cannot_see_it(open_page):
    page = open_page("bush/")
    assert page.get_by_role("img", name="Tolerance zones of 16 mm H7").count() == 1
    assert page.get_by_role("img", name="5 holes on a circle of 40.000 mm").count() == 1
