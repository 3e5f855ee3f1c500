"""What a reader can do on a page: read it in one system, copy a value, see what holds."""

import pytest


def switch(page, label):
    page.get_by_role("group", name="Values in").get_by_role(
        "button", name=label, exact=True
    ).click()


def cells(page, name):
    return page.locator(f"tr:has(#value-{name}) td.shoplog-value:visible").all_inner_texts()


def test_the_page_in_short_stands_below_its_title(open_page):
    page = open_page("bush/")
    about = page.get_by_role("region", name="This page in short")
    assert about.inner_text().split("\n")[:2] == ["Part", "bush"]
    assert "✓ 1 hold" in about.inner_text()
    assert about.bounding_box()["y"] > page.locator("h1").bounding_box()["y"]


def test_one_switch_shows_every_value_in_one_system(open_page):
    page = open_page("bush/")
    assert len(cells(page, "bore")) == 2
    switch(page, "inch")
    assert cells(page, "bore") == ["0.6299 to 0.6306 in"]
    stated = page.locator("tr:has(#value-bore) td.shoplog-inch").evaluate(
        "cell => getComputedStyle(cell, '::after').content"
    )
    assert stated == '"16 mm H7"'
    assert page.locator(".shoplog-prose").inner_text() == "0.6299 to 0.6306 in"
    switch(page, "mm")
    assert cells(page, "bore") == ["16 mm H7\n16.000 to 16.018 mm"]
    assert page.locator(".shoplog-prose").inner_text() == "16 mm H7"
    switch(page, "mm and inch")
    assert len(cells(page, "bore")) == 2


def test_a_setup_card_follows_the_switch(open_page):
    page = open_page("turning/")
    feed = page.locator(".shoplog-runs tr:has(th:text-is('feed')) td").first
    assert feed.inner_text() == "0.06 mm/rev\n(0.0024 in/rev)"
    switch(page, "inch")
    assert feed.inner_text().strip() == "0.0024 in/rev"


def test_the_choice_is_remembered_on_the_next_page_and_told_to_a_screen_reader(open_page):
    page = open_page("bush/")
    switch(page, "inch")
    page.locator(".md-nav--primary a", has_text="Turning").first.click()
    page.wait_for_url("**/turning/")
    pressed = page.locator(".shoplog-switch button[aria-pressed=true]")
    pressed.wait_for()
    assert pressed.inner_text() == "inch"
    assert page.locator("html").get_attribute("data-shoplog-units") == "inch"


def test_the_switch_works_from_the_keyboard(open_page):
    page = open_page("bush/")
    page.get_by_role("button", name="inch", exact=True).focus()
    page.keyboard.press("Enter")
    assert cells(page, "bore") == ["0.6299 to 0.6306 in"]


def test_a_browser_that_keeps_nothing_still_switches(open_page, address):
    page = open_page("", java_script_enabled=True)
    page.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('no'); }});"
    )
    page.goto(f"{address}bush/")
    switch(page, "mm")
    assert cells(page, "bore") == ["16 mm H7\n16.000 to 16.018 mm"]


@pytest.mark.parametrize(("name", "text"), [("bore", "16 mm H7"), ("wall", "0.1847 to 0.1850 in")])
def test_a_button_copies_the_value_as_it_stands(open_page, name, text):
    page = open_page("bush/", permissions=["clipboard-read", "clipboard-write"])
    button = page.get_by_role("button", name=f"Copy {name}", exact=True)
    button.focus()
    page.keyboard.press("Enter")
    page.get_by_role("status").filter(has_text=f"Copied {text}").wait_for()
    assert page.evaluate("navigator.clipboard.readText()") == text


def test_a_name_is_a_link_to_its_own_row(open_page):
    page = open_page("bush/")
    page.locator("#value-wall a").click()
    assert page.url.endswith("bush/#value-wall")


def test_a_check_that_holds_has_its_sign_at_the_margin(open_page):
    page = open_page("bush/")
    head = page.locator("tr.shoplog-is-good > :first-child").first
    sign = head.evaluate("cell => getComputedStyle(cell, '::before').content")
    assert sign.startswith('"✓"')


def test_paper_has_no_buttons(open_page):
    page = open_page("bush/")
    page.emulate_media(media="print")
    assert not page.locator(".shoplog-switch").is_visible()
    assert page.locator(".shoplog-copy:visible").count() == 0


# What is left of the paper between the margins of the log's style sheet, in pixels of CSS.
@pytest.mark.parametrize(("paper", "width"), [("A4", 695), ("Letter", 717), ("A5", 461)])
@pytest.mark.parametrize("name", ["bush/", "turning/", "ring/"])
def test_nothing_of_a_page_reaches_over_the_edge_of_the_paper(open_page, name, paper, width):
    page = open_page(name, viewport={"width": width, "height": 1000})
    page.emulate_media(media="print")
    over = page.locator("article *").evaluate_all(
        """all => all.filter(one => one.getBoundingClientRect().right > innerWidth + 1)
            .map(one => `${one.tagName} ${one.className} ${one.textContent.slice(0, 40)}`)"""
    )
    assert over == []


@pytest.mark.parametrize(("width", "display"), [(695, "table-row"), (717, "table-row")])
def test_a_table_is_a_table_on_a4_and_letter(open_page, width, display):
    page = open_page("bush/", viewport={"width": width, "height": 1000})
    page.emulate_media(media="print")
    rows = page.locator(".shoplog-calc > .shoplog-scroll > table > tbody > tr")
    assert rows.first.evaluate("one => getComputedStyle(one).display") == display


def test_the_margins_of_the_log_spare_paper_beside_those_of_the_theme(open_page):
    page = open_page("bush/")
    assert page.pdf(format="A4").count(b"/MediaBox") == 2
    page.add_style_tag(content="@page { margin: 25mm; }")  # as Material has them
    assert page.pdf(format="A4").count(b"/MediaBox") > 2


def test_what_gives_way_first_is_told_in_the_system_that_is_asked_for(open_page):
    page = open_page("turning/")
    first = page.locator(".shoplog-first").first
    told = first.inner_text()
    assert "m/min" in told
    assert "ft/min" not in told
    switch(page, "inch")
    assert "ft/min" in first.inner_text()
    assert "m/min" not in first.inner_text().replace("ft/min", "")
    switch(page, "mm and inch")
    assert first.inner_text() == told


def test_on_a_telephone_a_limit_stands_in_lines_above_its_source(open_page):
    page = open_page("turning/", viewport={"width": 320, "height": 640})
    page.locator("details", has=page.locator(".shoplog-limits")).first.evaluate(
        "one => { one.open = true; }"
    )
    table = page.locator(".shoplog-limits").first
    assert table.evaluate("one => one.scrollWidth <= one.parentElement.clientWidth")
    row = table.locator("tbody tr").first
    name, figure, *_, source = [cell.bounding_box() for cell in row.locator("> *").all()]
    assert name["y"] + name["height"] <= figure["y"]
    assert source["x"] == name["x"]
    assert source["width"] > 200
