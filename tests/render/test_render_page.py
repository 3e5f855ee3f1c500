"""A page of the log as HTML: what a reader finds in a table, on a card, and at a mistake."""

import re
from html.parser import HTMLParser

import pytest

from shoplog.log import read_log
from shoplog.render import PageHtml, view_of_text

VOID = {"br"}


class Outline(HTMLParser):
    """Elements, attributes and text of a piece of HTML; complains of one that is not closed."""

    def __init__(self, html):
        super().__init__()
        self.open, self.elements, self.text = [], [], []
        self.feed(html)
        self.close()
        assert not self.open, f"never closed: {self.open}"

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text.append(data)

    @property
    def words(self):
        return " ".join(" ".join(self.text).split())

    def ids(self):
        return [attributes["id"] for _, attributes in self.elements if "id" in attributes]


def calc(*lines, before=""):
    return "\n".join([before + "# Page", "", "```calc", *lines, "```", ""])


def setup(*lines):
    return "\n".join(["# Page", "", "```setup", *lines, "```", ""])


def shown(text, index=0):
    return Outline(view_of_text(text).block_html(index))


def rows(text):
    """The words of each row of a calculation block's table, steps left out."""
    html = re.sub(r"<details.*?</details>", "", view_of_text(text).block_html(0), flags=re.DOTALL)
    return [Outline(row).words for row in re.findall(r"<tr.*?</tr>", html, flags=re.DOTALL)]


def test_a_length_stands_in_both_systems_with_its_limits_and_its_note():
    assert rows(calc("bore = 16 mm H7  # reamed after pressing")) == [
        "Name Metric Inch Note",
        "bore 16 mm H7 16.000 to 16.018 mm 0.6299 to 0.6306 in reamed after pressing",
    ]


def test_an_inch_size_stands_as_its_drawing_states_it():
    assert rows(calc("bore = 3/4 in ±0.002"))[1] == (
        "bore 18.999 to 19.101 mm 3/4 in ±0.002 0.7480 to 0.7520 in"
    )


def test_a_fraction_stands_as_it_was_written_over_its_decimal():
    assert rows(calc("stock = 1-1/4 in"))[1] == "stock 31.750 mm 1-1/4 in 1.2500 in"
    assert rows(calc("pair = [1/4 in, 3/8 in]"))[1] == "pair [1/4 in, 3/8 in]"


def test_a_value_of_one_system_only_stands_once():
    assert rows(calc("n = 900 rpm"))[1] == "n 900 rpm"


def test_a_name_is_an_anchor_that_the_page_can_lead_to():
    html = shown(calc("bore = 16 mm H7"))
    assert ("th", {"scope": "row", "id": "value-bore"}) in html.elements
    assert "#value-bore" in [attributes.get("href") for _, attributes in html.elements]


def test_steps_open_on_demand_and_a_search_does_not_read_them():
    html = shown(calc("a = 3 * 0.5 mm"))
    details = [attributes for tag, attributes in html.elements if tag == "details"]
    assert details == [{"class": "shoplog-details", "data-search-exclude": None}]
    assert "as written 3 × 0.5 \u00a0mm" in " ".join(html.text).replace("  ", " ")
    assert "In full: 1.5 mm" in html.words


def test_a_literal_has_no_steps():
    assert "details" not in [tag for tag, _ in shown(calc("a = 3 mm")).elements]


def test_a_formula_shows_its_equation_its_source_and_its_caution():
    words = shown(calc("n = spindle_speed(30 m/min, 20 mm)")).words
    assert "⚠ Caution never above the speed marked on the chuck" in words
    assert "Source: ISO 3002-3:1984" in words
    assert "spindle_speed, with values" in words


def test_a_check_says_in_words_and_with_a_sign_whether_it_holds():
    text = calc("a = 16 mm ±0.1", "check a > 15 mm", "check a > 16 mm", "check a > 17 mm")
    verdicts = re.findall(r"<strong>([✓✗◑][^<]*)</strong>", view_of_text(text).block_html(0))
    assert verdicts[0] == "✓ holds"
    assert "◑ holds for some of the sizes only" in verdicts
    assert "✗ does not hold" in verdicts


def test_a_check_shows_what_its_sides_are():
    assert rows(calc("a = 3 mm", "check a < 4 mm"))[2] == (
        "check a < 4 mm a is 3.000 mm (0.1181 in) ✓ holds"
    )


def test_a_mate_shows_both_parts_what_was_asked_and_what_was_found():
    text = calc("bore = 16 mm H7", "pin = 16 mm f7", 'mate bore with pin as "H7/f7"')
    row = rows(text)[3]
    assert "bore is 16 mm H7: 16.000 to 16.018 mm (0.6299 to 0.6306 in)" in row
    assert "asked: H7/f7" in row
    assert "found: 16 mm H7/f7: a clearance fit of 16 to 52 µm" in row
    assert row.endswith("✓ mates")


def test_a_mate_that_fails_is_a_problem_below_its_row():
    text = calc("bore = 16 mm H7", "pin = 17 mm f7", "mate bore with pin")
    html = shown(text)
    assert "✗ does not mate" in html.words
    assert "✗ Problem" in html.words


def test_a_concession_is_printed_with_its_reason_where_it_counts():
    text = calc("a = 3 mm", "check a > 4 mm", 'concession a because "shimmed"')
    words = rows(text)
    assert "✗ does not hold ; conceded: shimmed" in words[2]
    assert words[-1] == "concession a because shimmed"


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [
        ("16.009 mm ±0.003", "✓ in: within the limits asked"),
        ("16.1 mm ±0.003", "✗ out: beyond the limits asked"),
        ("16.018 mm ±0.003", "◑ cannot tell: the reading's uncertainty reaches over a limit"),
    ],
)
def test_a_reading_has_its_verdict_in_words(reading, verdict):
    row = rows(calc("bore = 16 mm H7", f"measured bore = {reading}"))[2]
    assert verdict in row
    assert "wanted: 16 mm H7" in row


def test_a_reading_without_a_wanted_size_says_so():
    assert rows(calc("measured bore = 16 mm ±0.003"))[1] == (
        "bore measured 16.000 ± 0.003 mm 0.6299 ± 0.0001 in – no limits asked"
    )


def test_readings_of_one_name_have_ids_of_their_own():
    text = calc("measured bore = 16 mm ±0.003", 'measured bore "later" = 16 mm ±0.003')
    assert shown(text).ids() == ["measured-bore", "measured-bore-2"]


PROBLEM = calc("bore = 3 mm", "b = 2 * boor  # twice", "c = b + 1 mm")


def test_a_problem_stands_in_its_place_with_the_line_a_caret_and_the_hint():
    html = view_of_text(PROBLEM, "docs/page.md").block_html(0)
    assert Outline(html).words.count("✗ Problem") == 1
    assert "b = 2 * <mark>boor</mark>  # twice\n" in html
    assert '<span class="shoplog-caret" aria-hidden="true">        ^^^^</span>' in html
    assert "Hint: did you mean bore?" in html
    assert "docs/page.md:5:9" in html
    assert 'role="group" aria-label="Problem, docs/page.md line 5"' in html


def test_a_line_that_waits_says_for_what():
    assert rows(PROBLEM)[-1] == "c c = b + 1 mm waits for b ◑ not worked out"


def test_the_top_of_a_page_leads_to_each_problem():
    view = view_of_text(PROBLEM)
    html = view.top_html()
    assert "✗ This page has 1 problem<" in html
    targets = re.findall(r'href="#([^"]+)"', html)
    assert targets == ["problem-line-5"]
    assert f'id="{targets[0]}"' in view.block_html(0)


def test_a_page_without_problems_has_nothing_above_it():
    assert view_of_text(calc("a = 3 mm")).top_html() == ""


def test_a_problem_of_the_page_as_a_whole_stands_above_it():
    view = view_of_text("---\npart: [shaft\n---\n\n# Shaft\n")
    assert "✗ Problem" in Outline(view.top_html()).words
    assert view.top_html().startswith('<div class="shoplog-problem"')
    assert "part: <mark>[shaft</mark>" in view.top_html()


def test_a_failed_mate_is_told_on_the_other_page_too_beside_its_row():
    texts = {
        "a.md": calc("bore = 16 mm H7", "mate bore with shaft.journal"),
        "b.md": calc("journal = 17 mm f7", before="---\npart: shaft\n---\n"),
    }
    view = PageHtml(read_log(texts).pages["b.md"])
    assert "✗ Problem" in Outline(view.block_html(0)).words
    assert "see also a.md:5" in view.block_html(0)


def test_asking_twice_gives_the_same_html():
    view = view_of_text(PROBLEM)
    assert view.block_html(0) == view.block_html(0)
    assert view.top_html() == view.top_html()


def test_no_id_is_given_twice_on_a_page():
    block = "```calc\ndraw bolt_circle(40 mm, 3)\ndraw bolt_circle(40 mm, 3)\nx = 1 * zz\n```\n"
    view = view_of_text(f"{block}\n{block}")
    ids = Outline(view.block_html(0)).ids() + Outline(view.block_html(1)).ids()
    assert len(ids) == len(set(ids)) > 6


def test_a_drawing_that_does_not_exist_yet_says_so():
    words = shown(calc("a = 3 mm", "draw a")).words
    assert "Note a (3.000 mm) has no picture; what can be drawn: a fit, a pattern of" in words


def test_a_value_in_prose_keeps_its_limits_at_hand():
    view = view_of_text(calc("bore = 16 mm H7") + "\nThe bore is [=bore].\n")
    assert view.prose_html("bore") == (
        '<span class="shoplog-prose" title="16 mm H7: 16.000 to 16.018 mm (0.6299 to 0.6306 in)"'
        ' data-mm="16 mm H7" data-inch="0.6299 to 0.6306 in">'
        "<bdi>16 mm H7</bdi></span>"
    )
    assert view.prose_text("bore") == "16 mm H7"


def test_a_broken_value_in_prose_is_a_problem_in_its_place():
    view = view_of_text(calc("bore = 16 mm H7") + "\nThe bore is [=boor].\n")
    words = Outline(view.prose_html("boor")).words
    assert words.startswith("[=boor] ✗ Problem boor is not a name of this page")
    assert view.prose_text("boor").startswith("[=boor] ✗ Problem: ")


SETUP = setup(
    "date: 2026-03-14",
    "operation: turning, finish",
    "feature: journal",
    "material: free-cutting brass",
    "cutter: turning tool, HSS",
    "diameter: 16.4 mm",
    "planned:",
    "  cutting speed: 60 m/min",
    "  feed: 0.06 mm/rev",
    "  depth of cut: 0.2 mm",
    "ran:",
    "  speed: 1180 rpm",
    "  feed: 0.06 mm/rev",
    "  depth of cut: 0.2 mm",
    "ran:",
    "  speed: 900 rpm",
    "  feed: 0.06 mm/rev",
    "  depth of cut: 0.2 mm",
    "  outcome: poor",
    "outcome: good",
    "remarks: mirror finish: after the edge was stoned",
)


def test_a_setup_card_has_planned_beside_each_run():
    assert rows(SETUP)[0] == "planned ran 1 ran 2"
    speed = next(row for row in rows(SETUP) if row.startswith("speed"))
    assert speed == "speed 1165 rpm at the diameter, 16.400 mm 1180 rpm 900 rpm"


def test_a_setup_card_shows_its_figures_with_their_source():
    card = shown(SETUP).words
    assert any(row.startswith("removal rate 0.72 cm³/min ( 0.044 in³/min )") for row in rows(SETUP))
    assert "Source of spindle speed, cutting speed: ISO 3002-3:1984" in card


@pytest.mark.parametrize(
    ("feed", "told"),
    [
        ("0.004 in/rev", "feed a minute 1.6 in/min ( 41 mm/min )"),
        ("0.1 mm/rev", "feed a minute 40 mm/min ( 1.6 in/min )"),
    ],
)
def test_what_a_setup_card_works_out_is_told_in_the_system_that_was_set(feed, told):
    text = setup("operation: turning", "planned:", "  speed: 400 rpm", f"  feed: {feed}")
    assert told in rows(text)


def test_a_setup_card_gives_a_quantity_as_written_and_what_a_name_stands_for():
    text = setup("operation: turning", "diameter: 1-1/4 in", "length: 2 * 0.5 in")
    told = shown(text).words
    assert "diameter 1-1/4 in ( 31.750 mm )" in told
    assert "length 2 * 0.5 in 1.0000 in ( 25.400 mm )" in told


def test_a_setup_card_says_in_words_how_it_went():
    card = shown(SETUP).words
    assert "outcome: ✓ good" in card
    assert "✗ poor" in card
    assert "remarks: mirror finish: after the edge was stoned" in card


def test_one_run_is_not_numbered():
    assert rows(setup("planned:", "  speed: 90 rpm", "ran:", "  speed: 80 rpm"))[0] == "planned ran"


def test_a_setup_card_keeps_its_cautions_and_its_problems():
    words = shown(setup("operation: turning", "planned:", "  speed: 12 mm")).words
    assert "✗ Problem speed is a spindle speed, and this is a length" in words
    assert "Caution never above the speed marked" in shown(SETUP).words


@pytest.mark.parametrize("word", ["yes", "Yes", "perhaps"])
def test_a_private_setup_stays_off_the_page_with_all_that_it_says(word):
    view = view_of_text(setup("material: sterling", f"private: {word}", "diameter: sorrel"))
    html = view.block_html(0) + view.top_html()
    assert "A setup is kept private." in html
    assert "sterling" not in html
    assert "sorrel" not in html


def test_a_setup_that_is_not_private_is_shown():
    assert "sterling" in shown(setup("material: sterling", "private: no")).words


HOSTILE = '<script>alert(1)</script><img src=x onerror="alert(1)">&amp;\x02wzxhzdk:0\x03'
TAGS = {
    *"section div table thead tbody tr th td p a code strong small br details summary".split(),
    *"math mrow mfrac msup msub msqrt mi mn mo mtext span bdi q mark pre ul li dl dt dd".split(),
    *"figure figcaption svg title desc path rect circle text".split(),
}
CHANNELS = {
    "note": calc(f"a = 3 mm  # {HOSTILE}"),
    "text value": calc(f'a = "{HOSTILE.replace(chr(34), "")}"'),
    "label": calc(f'measured a "{HOSTILE.replace(chr(34), "")}" = 3 mm ±0.1'),
    "reason": calc("a = 3 mm", f'concession a because "{HOSTILE.replace(chr(34), "")}"'),
    "wrong line": calc(f"a = 3 mm + {HOSTILE}"),
    "wrong name": calc(f"{HOSTILE} = 3 mm"),
    "asked": calc("a = 3 mm H7", "b = 3 mm f7", f'mate a with b as "{HOSTILE[:25]}"'),
    "use": calc(f'use "{HOSTILE.replace(chr(34), "")}" as other'),
    "header": f"---\n{HOSTILE}: [\n---\n\n# Page\n",
    "prose": calc("a = 3 mm") + f"\n[=a + {HOSTILE}]\n",
    "setup values": setup(*(f"{key}: {HOSTILE}" for key in ("operation", "material", "remarks"))),
    "setup keys": setup(f"{HOSTILE}: 3", "planned:", f"  {HOSTILE}: 3"),
    "setup quantity": setup(f"diameter: {HOSTILE}", "ran:", f"  speed: {HOSTILE}"),
    "setup words": setup(f"cutter: {HOSTILE}", f"outcome: {HOSTILE}", f"fault: {HOSTILE}"),
}


@pytest.mark.parametrize("channel", CHANNELS)
def test_no_text_of_a_page_becomes_html(channel):
    view = view_of_text(CHANNELS[channel], f"docs/{HOSTILE}.md")
    pieces = [view.block_html(index) for index in range(len(view.source.blocks))]
    pieces += [view.prose_html(value.expression) for value in view.source.prose]
    pieces.append(view.top_html())
    for piece in pieces:
        html = Outline(piece)
        assert {tag for tag, _ in html.elements} <= TAGS
        names = {name for _, attributes in html.elements for name in attributes}
        assert not {name for name in names if name.startswith("on") or name == "src"}
        assert not {"\x02", "\x03"} & set(piece)
    assert "script" in "".join(pieces)


def test_a_long_line_is_shown_around_its_fault():
    html = view_of_text(calc(f"a = {'1 + ' * 29}nothing{' + 1' * 29}")).block_html(0)
    assert f"…{'1 + ' * 25}<mark>nothing</mark>{' + 1' * 25}…\n" in html


def test_a_text_that_is_put_in_a_thousand_times_makes_no_giant_of_a_page():
    text = "x" * 3000
    lines = [f'a = "{text}"', *(f"l{number} = [{'a, ' * 900}a]" for number in range(8))]
    assert len(view_of_text(calc(*lines)).block_html(0)) < 400_000


def test_a_page_that_draws_too_much_says_where_it_stops():
    html = view_of_text(calc(*["draw bolt_circle(40 mm, 200)"] * 62)).block_html(0)
    assert html.count("<svg") == 60
    assert html.count("this page draws more than 60 pictures; this one is left out") == 2


def test_many_readings_of_one_name_are_no_slow_thing():
    view = view_of_text(calc(*["measured bore = 16 mm ±0.003"] * 900))
    ids = Outline(view.block_html(0)).ids()
    assert ids[-1] == "measured-bore-900"
    assert len(set(ids)) == 900


ABOUT = """---
part: drum shaft
made: 2
date: 2026-03-14
---

# Shaft

```calc
bore = 16 mm H7
pin = 16 mm f7
loose = 17 mm f7
mate bore with pin
mate bore with loose
mate bore with thing
check pin.min > 15 mm
check bore.max < 15 mm
concession bore because "it turns slowly"
measured bore = 16.01 mm
measured pin = 15 mm
```

```setup
material: bronze
outcome: good
```

```setup
material: cast iron
private: yes
outcome: poor
```

```setup
material: bronze
```
"""


def test_a_page_says_in_short_what_it_holds():
    facts = re.findall(r"<dt>(.*?)</dt>\n<dd>(.*?)</dd>", view_of_text(ABOUT).top_html())
    assert facts == [
        ("Part", "drum shaft, 2 made"),
        ("Date", "2026-03-14"),
        ("Material", "bronze"),
        ("Checks", "✓ 1 hold, ◑ 1 conceded"),
        ("Mates", "✓ 1 mate, ✗ 1 does not, ✗ 1 not worked out"),
        ("Measured", "✓ 1 in, ✗ 1 out"),
        ("Setups", "2: ✓ 1 good"),
    ]


def test_what_a_page_says_of_itself_is_escaped():
    text = "```setup\nmaterial: <script>alert(1)</script>\n```\n"
    assert "&lt;script&gt;" in view_of_text(text).top_html()


def test_each_system_is_marked_so_that_one_can_be_shown_alone():
    html = view_of_text(calc("bore = 16 mm H7\nangle = 30 deg")).block_html(0)
    assert '<th scope="col" class="shoplog-mm">Metric</th>' in html
    assert (
        '<td class="shoplog-value shoplog-inch" data-stated="16 mm H7">0.6299 to 0.6306 in</td>'
        in html
    )
    assert html.count("shoplog-mm") == 2  # the head and the size; an angle has no other system


@pytest.mark.parametrize(
    ("line", "state"),
    [
        ("check a < 4 mm", "good"),
        ("check a < 2 mm", "bad"),
        ("measured a = 3.2 mm", "bad"),
        ("b = c + 1 mm", "bad"),
    ],
)
def test_a_row_with_a_verdict_has_its_state_at_the_margin(line, state):
    html = view_of_text(calc(f"a = 3 mm ±0.1\n{line}")).block_html(0)
    assert re.findall(r'<tr class="shoplog-is-(\w+)">', html) == [state]


def test_a_caution_stands_in_full_once_and_can_be_opened_further_down():
    one, other = (calc(f'{name} = tap_drill("{of}")') for name, of in (("a", "M6"), ("b", "M8")))
    view = view_of_text(f"{one}\n{other}")
    text = "a tap that binds breaks and can throw splinters"
    first, second = view.block_html(0), view.block_html(1)
    assert f'<p class="shoplog-caution"><strong>⚠ Caution</strong> {text}' in first
    assert "further up this page" not in first
    again = re.search(r"<summary>⚠ (.*?) as further up this page</summary>(.*?)</details>", second)
    assert again[1] == "2 cautions"
    assert text in again[2]
    assert second.count(text) == 1
