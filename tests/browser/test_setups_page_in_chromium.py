"""The page of setups as a reader uses it: asked, shared, printed, by keyboard and without net."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from mkdocs.commands.build import build
from mkdocs.config import load_config

from .serving import ROOT, serving, visiting
from .test_site_in_chromium import contrast

HOSTILE = (
    "</script><script>alert(1)</script><img src=x onerror=alert(2)><!-- <b>bold</b>"
    ' " onmouseover=alert(3) javascript:alert(4)'
)
SETUP = """
```setup
date: {date}
operation: {operation}
feature: {feature}
material: {material}
cutter: {cutter}
machine: {machine}
diameter: {diameter} mm
ran:
  speed: {speed} rpm
  feed: {feed} mm/rev
  depth of cut: 0.5 mm
outcome: {outcome}
remarks: {remarks}
```
"""
TURNED = ("turning", "turning tool, HSS, nose radius 0.4 mm", "bench lathe")
PARTED = (TURNED[0], "parting tool 2", TURNED[2])  # the demo's shop profile says 2 mm wide
DRILLED = ("drilling", "drill, HSS, diameter {diameter} mm", "drill press")
MATERIALS = ("mild steel", "free-cutting brass", "aluminium 6082", "cast iron")
OUTCOMES = ("good", "good", "usable", "good", "poor", "spoiled")
COUNT = 60
ROWS_A_PAGE = 25


def setup(number):
    """One of many, so that each question has an answer of its own."""
    operation, cutter, machine = DRILLED if number % 3 == 2 else TURNED if number % 10 else PARTED
    diameter = 4 + number % 15
    return SETUP.format(
        date=f"2025-{1 + number // 28:02d}-{1 + number % 28:02d}",
        operation=operation,
        cutter=cutter.format(diameter=diameter),
        machine=machine,
        feature=f"shoulder {number}",
        material=MATERIALS[number % 4],
        diameter=diameter,
        speed=300 + 20 * number,
        feed=f"{0.05 + 0.002 * number:.3f}",
        outcome=OUTCOMES[number % 6],
        remarks="groove chattered" if number % 10 == 0 else "as before",
    )


def pages():
    """Two projects, a page of a stranger, and a page with nothing."""
    setups = [setup(number) for number in range(COUNT)]
    stranger = SETUP.format(
        **dict.fromkeys(("feature", "cutter", "machine", "remarks"), HOSTILE),
        operation=f"boring, {HOSTILE}",
        date="2024-01-01", material="mild steel", diameter=10, speed=500, feed=0.1, outcome="good",
    )  # fmt: skip
    return {
        "index.md": "# Bench\n\nSee [the setups](setups/index.md).\n",
        "winch/shaft.md": "# Winch shaft\n" + "".join(setups[: COUNT // 2]),
        "vice/screw.md": "# Vice screw\n" + "".join(setups[COUNT // 2 :]),
        "stranger.md": f"# {HOSTILE}\n{stranger}",
    }


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The folder of a site with many records, and the address that serves it."""
    folder = tmp_path_factory.mktemp("setups")
    for name, text in pages().items():
        (folder / "docs" / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / "docs" / name).write_text(text, "utf-8")
    settings = {"docs_dir": str(folder / "docs"), "site_dir": str(folder / "site")}
    with serving(folder) as address:
        build(load_config(str(ROOT / "mkdocs.yml"), **settings, site_url=address))
        yield folder / "site", address


@pytest.fixture
def open_setups(chromium, site):
    """Opens the page of setups with what is asked; each call is a new window of a new reader."""
    with visiting(chromium, site[1]) as go:
        yield lambda asked="", path="setups/", **settings: go(f"{path}{asked}", **settings)


def tick(page, facet, word):
    group = page.locator(".setups-facet", has=page.locator("legend", has_text=facet))
    group.get_by_label(re.compile(rf"^\W*{word}\b")).check()


def found(page):
    return page.locator(".setups-found").inner_text()


def settle(page):
    """Waits until the theme has noted how far a page was scrolled: it does so a tenth of a second
    later, and takes a link that is followed before then for one to that place.
    """
    page.wait_for_timeout(400)


def column(page, head):
    """What stands in a column of the table, without what is told in small below it."""
    return page.locator(f'.setups-records tbody [data-head^="{head}"]').evaluate_all(
        "cells => cells.map(cell => (cell.querySelector('a, strong') || cell.firstChild || cell)"
        ".textContent)"
    )


def asked(page):
    return page.evaluate("decodeURIComponent(location.search.replaceAll('+', ' '))")


# ---- asking ----


def test_a_question_of_two_facets_and_a_range_is_shared_and_read_in_inches(open_setups, site):
    page = open_setups()
    assert found(page) == f"All {COUNT + 1} records"
    tick(page, "Operation", "turning")
    tick(page, "Outcome", "good")
    page.get_by_role("group", name="Diameter").get_by_label("from").fill("8")
    page.get_by_role("group", name="Diameter").get_by_label("to").fill("12")
    page.get_by_role("button", name="Diameter").click()
    wanted = [
        4 + n % 15
        for n in range(COUNT)
        if n % 3 != 2 and OUTCOMES[n % 6] == "good" and 8 <= 4 + n % 15 <= 12
    ]
    assert [float(size) for size in column(page, "Diameter")] == sorted(wanted)
    assert set(column(page, "Outcome")) == {"✓ good"}
    assert set(column(page, "Setup")) == {"turning"}
    assert found(page) == f"{len(wanted)} of {COUNT + 1} records"
    sentence = "Asked for: operation turning; outcome good; diameter from 8 to 12 mm."
    assert page.locator(".setups-sentence").inner_text() == sentence
    assert asked(page) == ("?operation=turning&outcome=good&diameter=8..12&sort=diameter&units=mm")

    other = open_setups(base="", path=page.url)
    assert column(other, "Setup") == column(page, "Setup")
    assert column(other, "Diameter") == column(page, "Diameter")
    assert other.get_by_label("turning").first.is_checked()
    assert other.locator("#shoplog-diameter-low").input_value() == "8"

    other.get_by_role("radio", name="inch").check()
    sizes = [f"{size / 25.4:.4f}" for size in sorted(wanted)]
    assert column(other, "Diameter") == sizes
    assert other.locator("#shoplog-diameter-low").input_value() == "0.315"
    assert found(other) == found(page)
    assert "diameter=0.315..0.4724" in asked(other)
    speeds = other.locator('.setups-records [data-head^="Cutting speed"]').first
    assert speeds.get_attribute("data-head") == "Cutting speed, ft/min"

    before, address = column(other, "Diameter"), other.url
    link = other.locator(".setups-records tbody a").nth(2)
    link.scroll_into_view_if_needed()
    settle(other)
    link.click()
    other.wait_for_selector(".shoplog-setup:target")
    assert "turning" in other.locator(".shoplog-setup:target").inner_text()
    other.go_back()
    other.wait_for_selector(".setups-found")
    assert other.url == address
    assert column(other, "Diameter") == before


def test_each_value_says_how_many_it_would_find_under_the_other_filters(open_setups):
    page = open_setups()
    tick(page, "Operation", "drilling")
    drilled = [n for n in range(COUNT) if n % 3 == 2]
    counts = page.locator(".setups-facet", has_text="Outcome").locator("label").all_inner_texts()
    told = dict(text.split("\n") for text in counts)
    assert told == {
        f"{sign} {word}": str(sum(OUTCOMES[n % 6] == word for n in drilled))
        for sign, word in (("✓", "good"), ("◑", "usable"), ("✗", "poor"), ("✗", "spoiled"))
    }
    operations = page.locator(".setups-facet", has_text="Operation").inner_text()
    assert f"drilling\n{len(drilled)}" in operations
    turned = COUNT - len(drilled)
    assert f"turning\n{turned}" in operations, "its own values are counted as if none were picked"


@pytest.mark.parametrize("words", ["groove", "chatt", "GROOVE chattered", "gróove"])
def test_words_are_found_by_their_beginnings_whatever_their_case(open_setups, words):
    page = open_setups()
    page.get_by_label("Words").fill(words)
    assert found(page) == f"{COUNT // 10} of {COUNT + 1} records"


def test_a_material_is_found_under_a_name_that_nobody_wrote(open_setups):
    page = open_setups()
    page.get_by_label("Words").fill("S235JR")
    assert found(page) == f"{COUNT // 4 + 1} of {COUNT + 1} records"
    assert set(column(page, "Material")) == {"mild steel"}


def test_every_word_must_stand_somewhere_in_a_record(open_setups):
    page = open_setups("?words=groove+brass")
    wanted = [n for n in range(COUNT) if n % 10 == 0 and n % 4 == 1]
    assert found(page) == (
        f"{len(wanted)} of {COUNT + 1} records"
        if wanted
        else f"None of {COUNT + 1} records is like that"
    )


def test_a_column_is_sorted_up_then_down_then_not(open_setups):
    page = open_setups()
    newest = column(page, "Date")
    assert newest == sorted(newest, reverse=True)
    head = page.locator("thead th", has_text="Cutting speed")
    head.get_by_role("button").click()
    up = [float(text) for text in column(page, "Cutting speed")]
    assert up == sorted(up)
    assert head.get_attribute("aria-sort") == "ascending"
    head.get_by_role("button").click()
    down = [float(text) for text in column(page, "Cutting speed")]
    assert down == sorted(down, reverse=True)
    assert down != up
    assert head.get_attribute("aria-sort") == "descending"
    head.get_by_role("button").click()
    assert column(page, "Date") == newest
    assert head.get_attribute("aria-sort") is None


@pytest.mark.parametrize("choice", ["outcome", "-outcome"])
def test_outcomes_are_sorted_from_best_to_worst_and_not_by_their_letters(open_setups, choice):
    page = open_setups(f"?sort={choice}")
    order = ["✓ good", "◑ usable", "✗ poor", "✗ spoiled"]
    places = [order.index(word) for word in column(page, "Outcome")]
    assert places == sorted(places, reverse=choice.startswith("-"))
    assert page.locator("#shoplog-sort").input_value() == choice


def test_the_rows_stand_on_pages_and_the_address_says_which(open_setups):
    page = open_setups()
    first = column(page, "Date")
    assert len(first) == ROWS_A_PAGE
    page.get_by_role("button", name="Next").click()
    assert column(page, "Date")[0] <= first[-1]
    assert len(column(page, "Date")) == ROWS_A_PAGE
    assert "page=2" in asked(page)
    assert page.locator(".setups-pager span").inner_text() == "26 to 50 of 61"
    assert page.evaluate("document.activeElement.matches('.shoplog-scroll')")
    page.get_by_role("button", name="Next").click()
    assert len(column(page, "Date")) == COUNT + 1 - 2 * ROWS_A_PAGE
    assert page.get_by_role("button", name="Next").is_disabled()
    page.go_back()
    page.go_back()
    assert column(page, "Date") == first


def test_a_question_changed_is_one_step_back_and_typing_is_one_step(open_setups):
    page = open_setups()
    tick(page, "Outcome", "poor")
    page.get_by_label("Words").press_sequentially("groove")
    assert "words=groove" in asked(page)
    page.go_back()
    assert asked(page) == "?outcome=poor&units=mm"
    assert page.get_by_label("Words").input_value() == ""
    page.go_back()
    assert asked(page) == ""
    assert found(page) == f"All {COUNT + 1} records"
    page.go_forward()
    assert page.get_by_label("poor").is_checked()


def test_clear_asks_for_everything_again(open_setups):
    page = open_setups("?outcome=good&words=groove&diameter=5..&sort=-date")
    page.get_by_role("button", name="Clear all").click()
    assert found(page) == f"All {COUNT + 1} records"
    assert asked(page) == ""
    assert page.get_by_label("Words").input_value() == ""
    assert page.get_by_role("button", name="Clear all").is_disabled()


@pytest.mark.parametrize(
    "address",
    [
        "?outcome=nobody&operation=%F0%9F%94%A9&colour=blue",
        "?diameter=a..b&feed=..&cutting-speed=5&speed=1..2",
        "?sort=nothing&page=-4&units=cubits",
        "?page=1e9&sort=-",
        "?words=" + "%22%3Cimg%20src=x%20onerror=alert(1)%3E" * 30,
        "?__proto__=x&constructor=y&page=NaN",
        "?diameter=" + "9" * 500 + "..",
        "?" + "outcome=good&" * 3000,
        "?%E0%A4%A",
    ],
)
def test_an_address_with_nonsense_breaks_nothing(open_setups, address):
    page = open_setups(address)
    assert page.faults == []
    assert re.match(rf"(All|None of|\d+ of) {COUNT + 1}|\d+ of", found(page))
    page.get_by_label("Words").fill("groove")
    assert page.faults == []


@pytest.mark.parametrize(
    ("written", "least"),
    [("1/4", 0.25), ("1-1/4", 1.25), ("0,5", 0.5), (".3", 0.3), (" 0.4 ", 0.4)],
)
def test_a_figure_is_read_as_a_workshop_writes_it(open_setups, written, least):
    page = open_setups("?units=inch")
    page.locator("#shoplog-diameter-low").fill(written)
    wanted = [n for n in range(COUNT) if round((4 + n % 15) / 25.4, 4) >= least]
    wanted += [COUNT] if least <= 10 / 25.4 else []
    shown = found(page)
    assert shown.startswith(f"{len(wanted)} of" if wanted else "None of")
    assert f"diameter={least}.." in asked(page)


def test_a_figure_that_is_none_is_marked_and_left_out(open_setups):
    page = open_setups()
    box = page.locator("#shoplog-diameter-low")
    box.fill("1/0")
    assert box.get_attribute("aria-invalid") == "true"
    assert found(page) == f"All {COUNT + 1} records"
    box.fill("8")
    assert box.get_attribute("aria-invalid") == "false"


def test_a_range_holds_what_shows_within_it(open_setups):
    # 10 mm is 0.3937007... in, which is shown as 0.3937 and must be found by it.
    page = open_setups("?units=inch&diameter=0.3937..0.3937")
    wanted = sum(4 + n % 15 == 10 for n in range(COUNT)) + 1
    assert found(page) == f"{wanted} of {COUNT + 1} records"


def test_a_figure_that_no_record_tells_is_not_asked_for(open_setups):
    page = open_setups()
    ranges = page.locator(".setups-range legend")
    names = ["Diameter, mm", "Cutter width, mm", "Cutting speed, m/min", "Feed per tooth, mm"]
    assert ranges.all_inner_texts() == names

    def without_widths(route):
        text = re.sub(
            r'(\\"cutter-width\\":\[)([^\]]*)',
            lambda column: column[1] + re.sub(r"[\d.]+", "null", column[2]),
            route.fetch().text(),
        )
        route.fulfill(body=text, content_type="text/javascript")

    page.route("**/setups-data*.js", without_widths)
    page.reload()
    page.wait_for_selector(".setups-found")
    assert ranges.all_inner_texts() == [name for name in names if "width" not in name]
    assert page.faults == []


@pytest.mark.parametrize("bounds", ["diameter=..16", "diameter=6..11", "cutting-speed=20..30"])
def test_a_range_that_is_read_in_inches_and_back_is_what_it_was(open_setups, bounds):
    # 16 mm is shown as 0.6299 in, which is 15.999 mm, and would no longer find the 16 mm.
    page = open_setups(f"?{bounds}&units=mm")
    before = found(page), column(page, "Diameter")
    page.get_by_role("radio", name="inch").check()
    assert found(page) == before[0]
    page.get_by_role("radio", name="mm").check()
    assert asked(page) == f"?{bounds}&units=mm"
    assert (found(page), column(page, "Diameter")) == before


def test_a_cutter_is_found_by_its_width_which_stands_below_the_name_that_the_shop_has(
    open_setups,
):
    page = open_setups()
    page.get_by_role("group", name="Cutter width").get_by_label("to").fill("2")
    wanted = sum(n % 3 != 2 and n % 10 == 0 for n in range(COUNT))
    assert found(page) == f"{wanted} of {COUNT + 1} records"
    assert asked(page) == "?cutter-width=..2&units=mm"
    cutters = page.locator('.setups-records tbody [data-head="Cutter"]')
    assert set(cutters.all_inner_texts()) == {"parting tool 2\n2.000 mm wide"}
    page.get_by_role("radio", name="inch").check()
    assert set(cutters.all_inner_texts()) == {"parting tool 2\n0.0787 in wide"}
    assert found(page) == f"{wanted} of {COUNT + 1} records"


def test_the_units_are_kept_for_the_next_page_and_an_address_goes_before_them(open_setups):
    page = open_setups()
    page.get_by_role("radio", name="inch").check()
    page.goto(page.url.partition("?")[0])
    assert page.get_by_role("radio", name="inch").is_checked()
    page.goto(page.url.partition("?")[0] + "?h=groove")
    assert page.get_by_role("radio", name="inch").is_checked(), "a search of the site asks nothing"
    page.goto(page.url.partition("?")[0] + "?diameter=8..12")
    assert page.get_by_role("radio", name="mm").is_checked(), (
        "a range without units is in millimetres"
    )


# ---- the chart ----


def test_the_chart_follows_the_question_and_each_outcome_has_a_shape_of_its_own(open_setups):
    page = open_setups()
    caption = page.locator(".setups-scatter figcaption")
    assert caption.inner_text() == (
        f"Cutting speed against feed per tooth: {COUNT + 1} of {COUNT + 1} records tell both."
    )
    marks = page.locator(".setups-legend path").evaluate_all(
        "paths => paths.map(path => [path.getAttribute('d'), getComputedStyle(path).fill])"
    )
    assert len(marks) == 4
    assert len({shape for shape, _ in marks}) == 4
    assert len({colour for _, colour in marks}) == 4
    tick(page, "Outcome", "poor")
    items = page.locator(".setups-legend li").all_inner_texts()
    assert len(items) == 1
    assert items[0].strip().startswith("✗ poor 10: ")
    assert page.locator(".setups-board path[class^=shoplog-went]").count() == 1


def test_the_axes_say_what_they_are_in_the_units_chosen(open_setups):
    page = open_setups()
    words = page.locator(".setups-axes text").all_text_contents()
    assert {"Cutting speed, m/min", "Feed per tooth, mm"} <= set(words)
    page.get_by_role("radio", name="inch").check()
    words = page.locator(".setups-axes text").all_text_contents()
    assert {"Cutting speed, ft/min", "Feed per tooth, in"} <= set(words)


def place_of_first_point(page):
    """Where the first point was drawn, in the window."""
    board = page.locator(".setups-board")
    board.scroll_into_view_if_needed()
    shape = page.locator(".setups-board path[class^=shoplog-went]").first.get_attribute("d")
    x, y = (float(number) for number in re.match(r"M([\d.]+),([\d.]+)", shape).groups())
    box = board.bounding_box()
    return box["x"] + x + 3, box["y"] + y


def test_a_point_tells_its_setup_and_leads_to_it(open_setups):
    page = open_setups("?outcome=good&words=groove")
    place = place_of_first_point(page)
    page.mouse.move(*place)
    told = page.locator(".setups-point a").inner_text()
    assert told.startswith("✓ good: ")
    assert "shoulder" in told
    settle(page)
    page.mouse.click(*place)
    page.wait_for_selector(".shoplog-setup:target")
    assert re.search(r"shoulder \d+", told)[0] in page.locator(".shoplog-setup:target").inner_text()


def test_a_finger_is_told_first_and_led_there_by_its_next_touch(open_setups):
    page = open_setups("?outcome=good&words=groove", has_touch=True)
    place = place_of_first_point(page)
    settle(page)
    page.touchscreen.tap(*place)
    told = page.locator(".setups-point a")
    assert told.inner_text().startswith("✓ good: ")
    assert page.locator(".setups-found").is_visible()
    page.touchscreen.tap(*place)
    page.wait_for_selector(".shoplog-setup:target")


def test_the_points_are_gone_through_with_the_keyboard(open_setups):
    page = open_setups("?words=groove")
    slider = page.get_by_label("Go through the points")
    slider.focus()
    page.keyboard.press("ArrowRight")
    second = page.locator(".setups-point a").inner_text()
    assert slider.get_attribute("aria-valuetext") == second
    page.keyboard.press("End")
    assert page.locator(".setups-point a").inner_text() != second
    page.keyboard.press("Tab")
    settle(page)
    page.keyboard.press("Enter")
    page.wait_for_selector(".shoplog-setup:target")


def test_records_that_tell_no_speed_and_feed_are_told_in_words(open_setups):
    page = open_setups("?words=nothinglikethis")
    assert found(page) == f"None of {COUNT + 1} records is like that"
    assert "none of these records tells both" in page.locator(".setups-scatter").inner_text()
    assert page.locator(".setups-records").is_hidden()


# ---- for everyone ----


def test_a_question_is_asked_and_answered_with_the_keyboard_alone(open_setups):
    page = open_setups()
    press = page.keyboard.press

    def tab_to(selector, most=120):
        for _ in range(most):
            press("Tab")
            if page.evaluate("s => document.activeElement.matches(s)", selector):
                return
        raise AssertionError(f"the keyboard does not reach {selector}")

    tab_to("#shoplog-words")
    page.keyboard.type("shoulder")
    tab_to('input[value="turning"]')
    press("Space")
    tab_to('input[value="good"]')
    press("Space")
    tab_to("#shoplog-diameter-low")
    page.keyboard.type("8")
    tab_to("#shoplog-sort")
    press("ArrowDown")
    tab_to("thead button")
    press("Enter")
    tab_to("tbody a")
    assert asked(page).startswith(
        "?words=shoulder&operation=turning&outcome=good&diameter=8..&sort="
    )
    settle(page)
    press("Enter")
    page.wait_for_selector(".shoplog-setup:target")
    assert page.faults == []


def test_the_keyboard_may_leave_the_lists_out(open_setups):
    page = open_setups()
    page.get_by_role("radio", name="mm").focus()
    page.keyboard.press("Tab")
    skip = page.get_by_role("button", name="Go to the records")
    assert skip.evaluate("one => one === document.activeElement")
    assert skip.bounding_box()["height"] >= 24
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.matches('.shoplog-scroll')")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('thead') !== null")


def test_the_number_found_is_announced_without_haste(open_setups):
    page = open_setups()
    line = page.get_by_role("status").filter(has_text="records")
    assert line.get_attribute("aria-live") == "polite"
    tick(page, "Outcome", "poor")
    assert line.inner_text() == f"10 of {COUNT + 1} records"


@pytest.mark.parametrize(
    "settings",
    [
        {},
        {"color_scheme": "dark"},
        {"viewport": {"width": 320, "height": 640}},
        {"viewport": {"width": 1280, "height": 900}, "forced_colors": "active"},
    ],
    ids=["light", "dark", "phone", "forced"],
)
def test_axe_finds_nothing_serious(open_setups, settings):
    page = open_setups("?outcome=good&cutting-speed=5..&sort=diameter", **settings)
    if settings.get("viewport", {}).get("width") == 320:
        page.get_by_role("button", name="More filters").click()
    # The theme's own box for its search has no name; it is not ours to change.
    report = Axe().run(page, context={"exclude": [[".md-search"]]})
    assert report.response["passes"], "axe looked at nothing"
    faults = [
        (one["id"], node["target"])
        for one in report.response["violations"]
        if one["impact"] in ("serious", "critical")
        for node in one["nodes"]
    ]
    assert faults == []


def test_a_telephone_of_320_pixels_shows_cards_and_scrolls_down_only(open_setups):
    page = open_setups(viewport={"width": 320, "height": 640})
    page.get_by_role("button", name="More filters").click()
    assert page.evaluate("document.documentElement.scrollWidth") == 320
    boxes = page.locator(".shoplog-setups-page *:visible").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect()).filter(box => box.right > 320.5).length"
    )
    assert boxes == 0
    cells = page.locator(".setups-records tbody tr").first.locator("> *:visible")
    tops = [cells.nth(number).bounding_box()["y"] for number in range(cells.count())]
    assert tops == sorted(set(tops)), "one below the other"


def test_the_lists_are_folded_away_on_a_telephone_until_they_are_wanted(open_setups):
    page = open_setups(viewport={"width": 320, "height": 640})
    fold = page.get_by_role("button", name="More filters")
    assert fold.get_attribute("aria-expanded") == "false"
    assert page.locator(".setups-facet").first.is_hidden()
    fold.click()
    assert fold.get_attribute("aria-expanded") == "true"
    assert page.locator(".setups-facet").first.is_visible()


@pytest.mark.parametrize("width", [480, 700, 768, 1024, 1280, 1600])
def test_no_width_makes_the_page_wider_than_its_window(open_setups, width):
    page = open_setups(viewport={"width": width, "height": 900})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    cells = page.locator(".setups-records tbody tr").first.locator("> *")
    shown = [cells.nth(number).is_visible() for number in range(cells.count())]
    assert shown == [True] * 10, "and no cell of it is lost"


def test_text_twice_as_large_still_scrolls_down_only(open_setups):
    # 640 pixels at 200 % are 320 wide; here the text alone is twice as large.
    page = open_setups(viewport={"width": 800, "height": 900})
    page.evaluate("document.documentElement.style.fontSize = '250%'")
    assert page.evaluate("document.documentElement.scrollWidth") <= 800


def test_shapes_are_seen_where_the_reader_forces_colours(open_setups):
    page = open_setups(forced_colors="active")
    fills = page.locator(".setups-board path[class^=shoplog-went]").evaluate_all(
        "paths => [...new Set(paths.map(path => getComputedStyle(path).fill))]"
    )
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert len(fills) == 1
    assert fills[0] != ground


def test_nothing_moves_by_itself(open_setups):
    page = open_setups()
    moving = page.locator(".shoplog-setups-page *").evaluate_all(
        "all => all.filter(one => { const style = getComputedStyle(one); return"
        " style.animationName !== 'none' || !/^(0s(, )?)+$/.test(style.transitionDuration); })"
        ".map(one => one.tagName + '.' + one.className)"
    )
    assert [name for name in moving if not name.startswith("A.")] == []


# ---- paper ----


def test_paper_has_every_row_that_was_found_and_what_was_asked(open_setups):
    page = open_setups("?cutting-speed=5..&units=mm")
    page.evaluate(
        "addEventListener('beforeprint', () => {"
        " window.onPaper = document.querySelectorAll('.setups-records tbody tr').length; })"
    )
    shown = int(found(page).split()[0])
    assert shown > ROWS_A_PAGE
    assert page.pdf(format="A4").startswith(b"%PDF-")
    assert page.evaluate("window.onPaper") == shown
    after = page.locator(".setups-records tbody tr").count()
    assert after == ROWS_A_PAGE, "and then the page as it was"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_paper_can_be_read_whatever_the_screen_was(open_setups, scheme):
    page = open_setups(color_scheme=scheme)
    page.emulate_media(media="print")
    colours = page.locator(".setups-legend path, tbody strong").evaluate_all(
        "all => all.map(one => getComputedStyle(one)[one.tagName === 'path' ? 'fill' : 'color'])"
    )
    assert len(colours) > 4
    # WCAG 2.2, 1.4.3: 4.5 to 1 for text.
    assert [one for one in set(colours) if contrast(one, "rgb(255, 255, 255)") < 4.5] == []


def test_paper_has_no_controls_and_says_what_was_asked(open_setups):
    page = open_setups("?outcome=good")
    page.emulate_media(media="print")
    assert page.locator(".setups-asking").is_hidden()
    assert page.locator(".setups-pager").is_hidden()
    assert page.locator(".setups-sentence").inner_text() == "Asked for: outcome good."
    assert page.locator(".setups-found").is_visible()
    assert page.locator(".setups-records thead").is_visible()
    assert page.locator(".setups-board svg").is_visible()
    # Chromium repeats a head on each sheet only where no control stands in it.
    button = page.locator(".setups-records thead button").first
    assert button.evaluate("one => getComputedStyle(one).display") == "contents"


# ---- strangers ----


def test_what_a_stranger_wrote_is_shown_as_words_and_runs_nothing(open_setups):
    page = open_setups("?sort=date")
    first = page.locator(".setups-records tbody tr").first
    assert "<script>alert(1)</script>" in first.inner_text()
    assert first.locator("script, img, b").count() == 0
    page.get_by_label("Words").fill("onerror")
    assert found(page) == f"1 of {COUNT + 1} records"
    place = place_of_first_point(page)
    page.mouse.move(*place)
    assert "<script>alert(1)</script>" in page.locator(".setups-point").inner_text()
    hrefs = page.locator(".shoplog-setups-page a").evaluate_all(
        "links => links.map(link => link.getAttribute('href'))"
    )
    assert hrefs
    assert all(href.startswith("../") for href in hrefs)
    assert page.locator(".shoplog-setups-page :is(script, img, b)").count() == 0
    assert page.locator("[onmouseover], [onerror]").count() == 0
    assert page.faults == []


# ---- where it is read ----


def test_the_page_asks_no_other_host_for_anything(open_setups, site):
    page = open_setups("?words=groove")
    page.get_by_role("radio", name="inch").check()
    assert len(page.requests) > 4
    assert [url for url in page.requests if not url.startswith((site[1], "blob:", "data:"))] == []
    assert page.faults == []


def test_the_page_needs_no_net_once_it_is_there(open_setups):
    page = open_setups()
    page.context.set_offline(True)
    before = len(page.requests)
    page.get_by_label("Words").fill("groove")
    tick(page, "Outcome", "good")
    page.get_by_role("radio", name="inch").check()
    page.get_by_role("button", name="Diameter").click()
    page.mouse.move(*place_of_first_point(page))
    assert page.locator(".setups-point a").count() == 1
    assert len(column(page, "Diameter")) == int(found(page).split()[0])
    asked_for = [url for url in page.requests[before:] if "favicon" not in url]
    assert asked_for == [], "but for the sign that a browser draws beside an address"
    assert page.faults == []


def test_going_back_and_forth_through_questions_needs_no_net_and_loads_nothing(open_setups):
    page = open_setups()
    tick(page, "Outcome", "good")
    tick(page, "Operation", "turning")
    asked_for = found(page)
    page.context.set_offline(True)
    before = len(page.requests)
    page.evaluate("document.querySelector('.setups-asking').kept = true")
    page.go_back()
    page.go_back()
    assert found(page) == f"All {COUNT + 1} records"
    page.go_forward()
    page.go_forward()
    assert found(page) == asked_for
    settle(page)
    assert page.evaluate("document.querySelector('.setups-asking').kept") is True
    assert [url for url in page.requests[before:] if "favicon" not in url] == []
    assert page.faults == []


def test_the_page_works_from_a_disk(open_setups, site):
    page = open_setups(base=f"file://{site[0]}/", path="setups/index.html")
    tick(page, "Outcome", "poor")
    assert found(page) == f"10 of {COUNT + 1} records"
    assert "outcome=poor" in asked(page)
    page.reload()
    assert found(page) == f"10 of {COUNT + 1} records"
    assert page.faults == []


def test_without_a_script_the_records_are_a_plain_table(open_setups):
    page = open_setups(java_script_enabled=False)
    assert page.locator(".setups-records tbody tr").count() == COUNT + 1
    assert page.locator("noscript p").is_visible()
    assert page.locator(".setups-asking").count() == 0
    page.locator(".setups-records tbody a").first.click()
    page.wait_for_selector(".shoplog-setup:target")


def test_a_page_that_is_swapped_in_comes_to_life_each_time(open_setups):
    page = open_setups(path="")
    page.evaluate("window.stayed = true")
    for _ in range(2):
        page.locator("article a", has_text="the setups").click()
        page.wait_for_selector(".setups-found")
        assert page.locator(".setups-asking").count() == 1
        tick(page, "Outcome", "poor")
        assert found(page) == f"10 of {COUNT + 1} records"
        page.go_back()
        page.go_back()
        page.wait_for_selector("article a:has-text('the setups')")
    assert page.evaluate("window.stayed") is True, "the page was loaded anew"
    assert page.faults == []


def test_the_scripts_of_a_page_may_come_in_any_order(open_setups):
    page = open_setups(path="")
    page.route("**/table-core*", lambda route: (page.wait_for_timeout(300), route.continue_()))
    page.locator("article a", has_text="the setups").click()
    page.wait_for_selector(".setups-found")
    tick(page, "Outcome", "poor")
    assert found(page) == f"10 of {COUNT + 1} records"
    assert page.faults == []


def test_what_a_page_left_behind_does_nothing_to_the_next(open_setups):
    page = open_setups()
    page.locator(".md-nav__link", has_text="Bench").first.evaluate("link => link.click()")
    page.wait_for_selector("article a:has-text('the setups')")
    page.evaluate("dispatchEvent(new Event('beforeprint')); dispatchEvent(new Event('afterprint'))")
    assert page.faults == []
