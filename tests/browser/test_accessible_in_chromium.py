"""WCAG 2.2 AA on every kind of page: by axe-core, and by what axe-core cannot see."""

import json
from dataclasses import dataclass
from functools import cache

import pytest
from axe_playwright_python.sync_playwright import Axe
from click.testing import CliRunner
from mkdocs.commands.build import build
from mkdocs.config import load_config

from shoplog.calc.results import DrawResult
from shoplog.cli.start import start
from shoplog.log import read_folder
from shoplog.render.pictures.declare import PICTURES
from shoplog.render.sheet.gather import sheet_of
from shoplog.render.sheet.layout import sheets_html
from shoplog.trade.declare import Size

from .every_kind import KINDS, address_of, built
from .seen_on_a_page import FORCED, IDS, REACHABLE, SPACED, lost, walk
from .serving import serving
from .test_site_in_chromium import contrast

WIDE, NARROW = {"width": 1280, "height": 900}, {"width": 320, "height": 640}
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
NOT_OURS = {
    # Material leaves its search dialog without a name.
    "aria-dialog-name": ".md-search",
    # Material's entries in a section of the navigation are 18 px high, 22 px apart.
    "target-size": ".md-nav__link",
    # Material wraps a table of Markdown by a script; the keyboard reaches it all the same.
    "scrollable-region-focusable": ".md-typeset__scrollwrap",
    # Material calls each section of its navigation, and the buttons of each listing, a landmark.
    "landmark-unique": ".md-nav, .md-code__nav",
}
"""What is the theme's own, by the rule of axe-core and the element; nothing else is let pass."""


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The folder of the log, and the address of its site."""
    folder = tmp_path_factory.mktemp("every")
    with serving(folder) as address:
        built(folder, site_url=address)
        yield folder, address


@pytest.fixture
def open_kind(chromium, site):
    """Opens the page of a kind as soon as it is there."""
    contexts = []

    def go(kind, anchor="", **settings):
        context = chromium.new_context(**{"viewport": WIDE, "reduced_motion": "reduce", **settings})
        contexts.append(context)
        return opened(context, site[1], kind, anchor)

    yield go
    for context in contexts:
        context.close()


def opened(context, address, kind, anchor=""):
    """The page of a kind, at an anchor; `requests` are the addresses that it asked for."""
    page = context.new_page()
    page.requests, page.faults = [], []
    page.on("request", lambda request: page.requests.append(request.url))
    page.on("pageerror", lambda error: page.faults.append(str(error)))
    page.goto(f"{address}{address_of(KINDS[kind])}{anchor}", wait_until="load")
    page.wait_for_function("!document.documentElement.classList.contains('no-js')")
    return page


def unfold(page):
    """Open everything that can be opened."""
    page.evaluate(
        """() => {
            for (const one of document.querySelectorAll('details')) one.open = true;
            document.querySelector('.setups-fold[aria-expanded=false]')?.click();
        }"""
    )


def violations(page):
    """What axe-core finds that is not the theme's own: its rule, the element, and why."""
    options = {"runOnly": {"type": "tag", "values": RULES}, "resultTypes": ["violations"]}
    report = Axe().run(page, options=options).response
    assert report["passes"], "axe-core looked at nothing"
    return [
        (one["id"], node["html"][:120], node["failureSummary"])
        for one in report["violations"]
        for node in one["nodes"]
        if not _not_ours(page, one["id"], node["target"][-1])
    ]


def _not_ours(page, rule, target):
    return rule in NOT_OURS and page.evaluate(
        "([target, ours]) => document.querySelector(target).matches(ours)", [target, NOT_OURS[rule]]
    )


# ---- the pages that are asked ----


def test_every_picture_that_exists_stands_on_the_page_of_pictures(site):
    report = read_folder(site[0]).pages["pictures.md"]
    items = [item for block in report.blocks for item in block.items]
    assert [problem.text for problem in report.problems] == []
    drawn = {type(item.value) for item in items if isinstance(item, DrawResult)}
    # A size that a formula gives is a value with limits by the time that a page reads it.
    assert {kind.__name__ for kind in {*PICTURES} - {Size}} == {kind.__name__ for kind in drawn}


# ---- one visit to each kind ----


@dataclass
class Visit:
    """What was found on the page of a kind."""

    violations: dict[str, list]
    """By axe-core, in light on a wide screen and in the dark on a telephone."""
    lost: dict[str, list]
    """Over the edge, cut off, or over other words, by how the page was shown."""
    ids: list
    """Those that are given twice, and those that are named and not there."""
    requests: list
    faults: list


@pytest.fixture(scope="module")
def visit(chromium, site):
    """Visits the page of a kind, once however many tests ask for it: a browser takes its time."""

    @cache
    def go(kind):
        context = chromium.new_context(viewport=WIDE, reduced_motion="reduce")
        page = opened(context, site[1], kind)
        page.wait_for_load_state("networkidle")
        found = Visit({}, {}, page.evaluate(IDS), page.requests, page.faults)
        unfold(page)
        found.violations["light, wide"] = violations(page)
        found.lost["as it comes"] = lost(page)
        # 1280 pixels at 400 % (WCAG 2.2, 1.4.10).
        page.set_viewport_size(NARROW)
        page.emulate_media(color_scheme="dark", reduced_motion="reduce")
        page.wait_for_function("document.body.dataset.mdColorScheme === 'slate'")
        unfold(page)
        found.violations["dark, narrow"] = violations(page)
        found.lost["at 320 pixels"] = lost(page)
        page.set_viewport_size({"width": 640, "height": 450})
        found.lost["at 200 %"] = lost(page)
        # The theme's own size of letters is 125 %.
        page.set_viewport_size(WIDE)
        page.evaluate("document.documentElement.style.fontSize = '250%'")
        found.lost["with letters of 200 %"] = lost(page)
        page.evaluate("document.documentElement.style.fontSize = ''")
        page.add_style_tag(content=SPACED)
        found.lost["with a reader's spacing"] = lost(page)
        context.close()
        return found

    return go


@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing_of_ours(visit, kind):
    assert visit(kind).violations == {"light, wide": [], "dark, narrow": []}


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_lost_where_a_page_is_larger_or_narrower(visit, kind):
    lost = visit(kind).lost
    assert len(lost) == 5
    assert {shown: found for shown, found in lost.items() if found} == {}


@pytest.mark.parametrize("kind", KINDS)
def test_no_id_is_given_twice_and_none_that_is_named_is_missing(visit, kind):
    assert visit(kind).ids == [[], []]


@pytest.mark.parametrize("kind", KINDS)
def test_no_kind_of_page_asks_another_host_or_fails(visit, site, kind):
    found = visit(kind)
    assert len(found.requests) > 3
    ours = (site[1], "blob:", "data:")
    assert [url for url in found.requests if not url.startswith(ours)] == []
    assert found.faults == []


def test_a_page_at_200_percent_on_a_fine_screen_is_as_it_is_at_half_the_width(open_kind):
    page = open_kind("setups", viewport={"width": 640, "height": 450}, device_scale_factor=2)
    assert page.evaluate("devicePixelRatio") == 2
    unfold(page)
    assert lost(page) == []


# ---- the site of a new log ----


@pytest.fixture(scope="module")
def new_log(tmp_path_factory):
    """The address of the site that `shoplog start` makes."""
    folder = tmp_path_factory.mktemp("new")
    assert CliRunner().invoke(start, [str(folder)]).exit_code == 0
    with serving(folder) as address:
        build(load_config(str(folder / "mkdocs.yml"), site_url=address))
        yield address


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", ["", "bush/bush/"])
def test_a_new_log_can_be_read_by_everyone(chromium, new_log, name, scheme):
    context = chromium.new_context(viewport=WIDE, reduced_motion="reduce", color_scheme=scheme)
    page = context.new_page()
    page.goto(f"{new_log}{name}", wait_until="load")
    wanted = {"light": "default", "dark": "slate"}[scheme]
    page.wait_for_function("one => document.body.dataset.mdColorScheme === one", arg=wanted)
    unfold(page)
    assert violations(page) == []
    link = page.locator(".md-typeset p > a:not([class])")
    assert name or link.evaluate("one => getComputedStyle(one).textDecorationLine") == "underline"
    context.close()


# ---- axe-core, where a page is used ----


@pytest.mark.parametrize("anchor", ["value-bore", "problem-line-17"])
def test_what_a_link_led_to_can_be_read_on_its_ground(open_kind, anchor):
    page = open_kind("calculations with every finding", f"#{anchor}", color_scheme="dark")
    assert page.locator(":target").is_visible()
    assert violations(page) == []


def test_axe_finds_nothing_while_the_page_of_setups_is_asked(open_kind):
    page = open_kind("the page of setups")
    page.get_by_label("Words").fill("turning")
    page.get_by_role("radio", name="inch").check()
    page.get_by_label("Go through the points").focus()
    page.keyboard.press("ArrowRight")
    assert page.locator(".setups-point a").count() == 1
    assert violations(page) == []
    page.get_by_label("Words").fill("nothing is like this")
    assert violations(page) == []


@pytest.fixture(scope="module")
def bench_sheet(site):
    log = read_folder(site[0])
    sheets = [sheet_of(log.pages[f"{name}.md"], log.shop) for name in ("findings", "turning")]
    return sheets_html(sheets, "A4")


@pytest.mark.parametrize("viewport", [WIDE, NARROW], ids=["wide", "narrow"])
def test_axe_finds_nothing_on_a_bench_sheet(chromium, bench_sheet, viewport):
    page = chromium.new_page(viewport=viewport)
    page.set_content(bench_sheet)
    found = violations(page)
    page.close()
    assert found == []


# ---- the keyboard ----

WALKED = (
    "calculations with every finding",
    "setups",
    "setups that repeat a poor one",
    "the page of setups",
    "a lathe",
    "values in sentences",
)


@pytest.mark.parametrize("kind", WALKED)
def test_the_keyboard_reaches_everything_in_order_and_shows_where_it_is(open_kind, kind):
    page = open_kind(kind)
    unfold(page)
    page.evaluate("scrollTo(0, 0)")
    reachable = page.evaluate(REACHABLE)
    assert len(reachable) > 3
    for key in ("Tab", "Shift+Tab"):
        ours = [one for one in walk(page, key) if one["ours"]]
        order = [one["at"] for one in ours]
        wanted = reachable if key == "Tab" else reachable[::-1]
        assert [at for at in order if at in reachable] == wanted
        assert [one["name"] for one in ours if not one["seen"]] == [], f"hidden at {key}"
        for one in ours:
            line, width, colour = one["outline"]
            assert line != "none", one["name"]
            assert width >= 2, one["name"]
            assert contrast(colour, "rgb(255, 255, 255)") >= 3, one["name"]


def test_the_first_stop_leads_past_the_navigation(open_kind):
    page = open_kind("calculations with every finding")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.matches('.md-skip')")
    assert page.locator(".md-skip").is_visible()
    page.evaluate("document.querySelector('article').dataset.met = ''")
    page.keyboard.press("Enter")
    # Material fetches the page again at the first step within it, and swaps what it shows.
    page.wait_for_selector("article:not([data-met])")
    assert page.evaluate("location.hash") == "#bush"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('article') !== null")


def test_details_open_and_close_with_the_keyboard(open_kind):
    page = open_kind("calculations with every finding")
    details = page.locator(".shoplog-details").first
    details.locator("summary").focus()
    for key, opened in (("Enter", True), ("Space", False)):
        page.keyboard.press(key)
        assert details.evaluate("one => one.open") is opened


def test_steps_that_are_wider_than_a_telephone_are_scrolled_with_the_keyboard(open_kind):
    page = open_kind("calculations with every finding", viewport=NARROW)
    unfold(page)
    box = page.locator(".shoplog-steps").filter(has=page.locator("math")).first
    box.locator("math").first.evaluate("one => { one.style.width = '1000px'; }")
    box.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function("document.activeElement.scrollLeft > 0")


def test_a_table_of_the_theme_that_must_be_scrolled_is_reached_too(open_kind):
    # What `NOT_OURS` lets pass; axe-core asks for an attribute that Chromium does without.
    page = open_kind("reference/units", viewport=NARROW)
    page.wait_for_selector(".md-typeset__scrollwrap", state="attached")
    reached = [one["name"] for one in walk(page, "Tab") if "md-typeset__scrollwrap" in one["name"]]
    wide = page.locator(".md-typeset__scrollwrap").evaluate_all(
        "all => all.filter(one => one.scrollWidth > one.clientWidth && !one.querySelector('a'))"
        ".length"
    )
    assert wide > 0
    assert len(reached) == wide


# ---- what a reader asks of colours and of movement ----


@pytest.mark.parametrize("kind", ["setups", "the page of setups", "pictures", "a lathe"])
def test_nothing_of_ours_moves(open_kind, kind):
    for reduced_motion in ("reduce", "no-preference"):
        page = open_kind(kind, reduced_motion=reduced_motion)
        moving = page.evaluate(
            """() => document.getAnimations().map(one => one.effect.target)
                .concat([...document.querySelectorAll('[class*=shoplog]')].filter(one => {
                    const style = getComputedStyle(one);
                    return style.animationName !== 'none' || style.transitionProperty !== 'color'
                        && style.transitionProperty !== 'background-color'
                        && !/^0s(, 0s)*$/.test(style.transitionDuration);
                }))
                .filter(one => one.closest('[class*=shoplog]'))
                .map(one => one.outerHTML.slice(0, 90))"""
        )
        assert moving == []


@pytest.mark.parametrize(("reader", "theme"), [("dark", "default"), ("light", "slate")])
@pytest.mark.parametrize(
    ("kind", "parts"),
    [
        ("pictures", {"words", "outlines", "hatching"}),
        ("the page of setups", {"words", "marks"}),
        ("a material", {"words", "marks", "borders"}),
        ("calculations with every finding", {"borders", "signs"}),
        ("setups", {"borders", "signs"}),
    ],
)
def test_forced_colours_hide_nothing_whatever_the_theme(open_kind, kind, parts, reader, theme):
    page = open_kind(kind, forced_colors="active", color_scheme=reader)
    page.evaluate("theme => { document.body.dataset.mdColorScheme = theme; }", theme)
    found = page.evaluate(FORCED)
    assert parts <= {part for part, colours in found.items() if colours}
    hidden = {
        part: colours[0]
        for part, colours in found.items()
        if any(contrast(colour, ground) < 3 for colour, ground in map(tuple, colours))
    }
    assert hidden == {}


def test_focus_and_the_unit_that_is_chosen_are_seen_in_forced_colours(open_kind):
    page = open_kind("calculations with every finding", forced_colors="active")
    chosen = page.locator(".shoplog-switch [aria-pressed=true]")
    assert chosen.evaluate("one => getComputedStyle(one).outlineStyle") == "solid"
    page.keyboard.press("Tab")
    button = page.get_by_role("button", name="mm", exact=True)
    button.focus()
    outline = button.evaluate(
        "one => [getComputedStyle(one).outlineStyle, getComputedStyle(one).outlineWidth]"
    )
    assert outline == ["solid", "2px"]


def test_quiet_words_and_rules_are_as_strong_as_the_rest_where_more_contrast_is_asked(open_kind):
    page = open_kind("calculations with every finding", contrast="more")
    colours = page.locator(".shoplog-block").first.evaluate(
        """block => ['.shoplog-kind', '.shoplog-value strong', 'thead th'].map(
            one => getComputedStyle(block.querySelector(one)).color)"""
    )
    assert len(set(colours)) == 1


# ---- what is heard ----


def heard(locator):
    """The roles, names and words that assistive technology is given, as lines."""
    return [line.strip() for line in locator.aria_snapshot().splitlines()]


def test_a_table_of_results_is_heard_with_its_heads_and_the_name_of_each_row(open_kind):
    page = open_kind("values in sentences")
    block = page.get_by_role("group", name="Calculation")
    lines = heard(block)
    for line in (
        '- row "Name Metric Inch Note":',
        '- columnheader "Metric"',
        '- rowheader "cover Copy cover":',
        '- link "cover":',
        '- button "Copy cover"',
        "- group: Steps and source",
    ):
        assert line in lines, json.dumps(lines, indent=1)
    assert any(line.startswith('- cell "3.2 mm ±0.1') for line in lines)


def test_a_verdict_is_heard_in_words(open_kind):
    page = open_kind("calculations with every finding")
    row = page.get_by_role("row").filter(has_text="running.clearance_max < 60")
    assert '- rowheader "check"' in heard(row)
    assert row.get_by_role("cell").last.inner_text() == "✓ holds"
    problem = page.get_by_role("group", name="Problem, docs/findings.md line 17")
    assert "this check holds for some of the sizes only" in problem.inner_text()
    assert "^" not in problem.aria_snapshot()


def test_a_setup_card_is_a_landmark_of_its_own_name(open_kind):
    page = open_kind("setups")
    card = page.get_by_role("region", name="Setup: turning, finish, journal, 2026-03-14")
    lines = heard(card)
    assert '- term: "material:"' in lines
    assert "- definition: free-cutting brass" in lines
    assert '- group "Planned and ran":' in lines
    assert '- columnheader "ran 1"' in lines
    assert '- rowheader "depth of cut"' in lines
    assert "- strong: ✓ good" in lines


def test_setups_that_are_alike_are_told_apart_by_a_number(open_kind):
    page = open_kind("setups")
    names = (
        page.get_by_role("region")
        .filter(has_text="shoulder")
        .evaluate_all("all => all.map(one => one.ariaLabel)")
    )
    assert names == [
        "Setup: turning, shoulder, 2026-03-15",
        "Setup: turning, shoulder, 2026-03-15, no. 2",
    ]


def test_a_picture_is_heard_as_one_image_with_a_name_and_a_description(open_kind):
    page = open_kind("pictures")
    image = page.get_by_role("img", name="Tolerance zones of 16 mm H7").first
    name = heard(image)[0]
    assert 'img "Tolerance zones of 16 mm H7/f7 hole H7 16.000 to 16.018 mm' in name
    assert "A: least clearance 16 µm" in name
    nameless = page.locator(".shoplog-figure svg").evaluate_all(
        """all => all.filter(one => one.getAttribute('role') !== 'img'
            || one.getAttribute('aria-labelledby').split(' ').some(
                id => !document.getElementById(id)?.textContent.trim()))
            .map(one => one.outerHTML.slice(0, 200))"""
    )
    assert nameless == []


def test_the_chart_of_setups_is_heard_as_its_caption_and_its_counts(open_kind):
    page = open_kind("the page of setups")
    lines = heard(page.locator(".setups-scatter"))
    assert any(
        "Cutting speed against feed per tooth: 6 of 8 records tell both." in line for line in lines
    )
    assert "- strong: ✓ good" in lines
    assert '- text: "2: 28.9 to 60.8 m/min, 0.060 to 0.100 mm"' in lines
    slider = page.get_by_label("Go through the points")
    slider.focus()
    page.keyboard.press("ArrowRight")
    assert slider.get_attribute("aria-valuetext") == page.locator(".setups-point a").inner_text()
    assert "- img" not in lines, "a picture without a name"


def test_the_switch_of_units_tells_which_is_chosen(open_kind):
    page = open_kind("values in sentences")
    switch = page.get_by_role("group", name="Values in")
    assert heard(switch) == [
        '- group "Values in":',
        '- button "mm and inch" [pressed]',
        '- button "mm"',
        '- button "inch"',
    ]
    switch.get_by_role("button", name="inch", exact=True).click()
    assert '- button "inch" [pressed]' in heard(switch)
    assert '- button "mm and inch"' in heard(switch)
