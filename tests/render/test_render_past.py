"""How a page shows what one's own records say, and that a setup repeats one that went poorly."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest
from click.testing import CliRunner
from mkdocs.commands.build import build
from mkdocs.config import load_config

from shoplog.cli import main
from shoplog.find.whole import WholeLog, work_out_log
from shoplog.render import PageHtml
from shoplog.render.past import MOST_LINKS

ASK = '```calc\nown = past(operation="turning", material="mild steel")  # like the bush\n```\n'


def setup(
    day: str = "2026-01-10",
    outcome: str = "good",
    speed: str = "400 rpm",
    fault: str = "",
    more: str = "",
) -> str:
    return (
        f"```setup\ndate: {day}\noperation: turning\nmaterial: mild steel\n"
        f"cutter: turning tool, HSS\ndiameter: 20 mm\n{more}ran:\n  speed: {speed}\n"
        f"  feed: 0.1 mm/rev\noutcome: {outcome}\n{f'fault: {fault}' if fault else ''}\n```\n\n"
    )


def log_of(*setups: str, ask: str = ASK, title: str = "Bush") -> WholeLog:
    return work_out_log({"a/bush.md": f"# {title}\n\n{''.join(setups)}", "ask.md": ask})


def link(page: str, anchor: str) -> str:
    return f"../{page.removesuffix('.md')}/#{anchor}"


def html_of(whole: WholeLog, key: str = "ask.md", linked: bool = True) -> str:
    return PageHtml(whole.log.pages[key], link if linked else None).block_html(0)


def text_of(html: str) -> str:
    """What a reader reads, in one line."""
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", html)).split())


def test_the_row_says_the_figures_in_both_systems_and_what_is_behind_them() -> None:
    html = html_of(log_of(setup(), setup(speed="600 rpm"), setup(speed="500 rpm")))
    assert (
        "3 good setups: 31.4 m/min (25.1 to 37.7) ( 103 ft/min (82 to 124) )"
        " 0.100 mm/rev ( 0.0039 in/rev ) newest 2026-01-10 like the bush"
    ) in text_of(html)
    assert "<strong>31.4 m/min</strong> (25.1 to 37.7)" in html


def test_the_row_leads_to_the_cards_the_newest_first() -> None:
    html = html_of(log_of(setup("2026-01-10"), setup("2026-02-10")))
    assert (
        '<p class="shoplog-past">Own records: '
        '<a href="../a/bush/#setup-2">Bush, 2026-02-10</a>; '
        '<a href="../a/bush/#setup">Bush, 2026-01-10</a></p>'
    ) in html


def test_the_link_leads_to_an_id_that_the_other_page_has() -> None:
    whole = log_of(setup("2026-01-10"), setup("2026-02-10"))
    other = PageHtml(whole.log.pages["a/bush.md"], link)
    assert 'id="setup-2"' in other.block_html(1)


def test_what_went_poorly_is_led_to_with_its_outcome_and_fault() -> None:
    html = html_of(log_of(setup(), setup(outcome="poor", fault="rubbed, taper")))
    assert (
        '<p class="shoplog-past">Went poorly: '
        '<a href="../a/bush/#setup-2">Bush, 2026-01-10</a> (poor, rubbed, taper)</p>'
    ) in html


def test_without_links_the_page_and_the_line_stand_there() -> None:
    html = html_of(log_of(setup(), setup(outcome="poor")), linked=False)
    assert '<p class="shoplog-past">Own records: a/bush.md:3, 2026-01-10</p>' in html
    assert '<p class="shoplog-past">Went poorly: a/bush.md:16, 2026-01-10 (poor)</p>' in html
    assert "<a href=" not in html.replace('<a href="#value-own"', "")


def test_an_address_that_is_not_known_is_no_link() -> None:
    html = PageHtml(log_of(setup()).log.pages["ask.md"], lambda _page, _anchor: "").block_html(0)
    assert "Own records: a/bush.md:3, 2026-01-10</p>" in html


def test_a_row_leads_to_no_more_than_a_reader_takes_in() -> None:
    html = html_of(log_of(*(setup(f"2026-01-{n + 1:02}") for n in range(MOST_LINKS + 3))))
    assert html.count('<a href="../') == MOST_LINKS
    assert "and 3 more</p>" in html


def test_the_handbook_s_range_is_said_to_be_its_own() -> None:
    text = text_of(html_of(log_of(setup(outcome="poor"))))
    assert "no record that went well; the handbook's: 35.1 m/min (24.4 to 45.7)" in text
    assert (
        "Note no record of this log is like it and went well: these figures are the handbook's, and"
        " nobody's own"
    ) in text
    assert "Source: the handbook: databook 9-2" in text
    assert "Own records" not in text


def test_its_steps_say_what_was_asked_and_of_whom() -> None:
    text = text_of(html_of(log_of(setup())))
    assert "past with operation turning; material mild steel. Source: own records" in text
    assert "Source: own records" in text
    assert "cutting_speed_least 25.1 m/min 82 ft/min" in text


def test_a_title_of_another_page_is_text_and_nothing_else() -> None:
    title = '<img src=x onerror=alert(1)>"&'
    html = html_of(log_of(setup(fault="<b>x</b>", outcome="poor"), setup(), title=title))
    assert "<img" not in html
    assert "<b>" not in html
    assert "&lt;img src=x onerror=alert(1)&gt;&quot;&amp;, 2026-01-10</a>" in html


def test_a_repeated_poor_setup_is_told_on_the_card_with_links() -> None:
    whole = log_of(
        setup(outcome="poor", fault="rubbed, taper"),
        setup("2026-01-12", speed="600 rpm"),
        ask=setup("2026-02-01", outcome="poor"),
    )
    html = html_of(whole)
    assert (
        '<p class="shoplog-caution"><strong>⚠ Caution</strong> this repeats a setup that went'
        " poorly on 2026-01-10 at 25.1 m/min, 0.100 mm/rev (rubbed, taper); 37.7 m/min,"
        ' 0.100 mm/rev went well on 2026-01-12: <a href="../a/bush/#setup">what went poorly</a>, '
        '<a href="../a/bush/#setup-2">what went well</a></p>'
    ) in html
    assert html.count("this repeats a setup") == 1
    alone = html_of(whole, linked=False)
    assert "what went poorly is at a/bush.md:3, what went well is at a/bush.md:16</p>" in alone


def test_the_command_names_the_place_of_what_went_poorly(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pages(tmp_path, **{"bush.md": setup(outcome="poor"), "next.md": setup("2026-02-01", "poor")})
    monkeypatch.chdir(tmp_path)
    said = CliRunner().invoke(main, ["check", "."])
    assert said.exit_code == 0
    assert (
        "docs/next.md:7:1: caution: this repeats a setup that went poorly on 2026-01-10 at"
        " 25.1 m/min, 0.100 mm/rev [see docs/bush.md:1:1]\n"
    ) in said.output


def pages(folder: Path, **texts: str) -> None:
    (folder / "mkdocs.yml").write_text(
        "site_name: Log\ntheme: mkdocs\nplugins: [shoplog]\n", "utf-8"
    )
    for name, text in texts.items():
        path = folder / "docs" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")


def site_of(folder: Path, **texts: str) -> Path:
    pages(folder, **texts)
    site = folder / "site"
    build(load_config(str(folder / "mkdocs.yml"), site_dir=str(site)))
    return site


def test_on_a_site_the_links_lead_from_page_to_page(tmp_path: Path) -> None:
    texts = {"index.md": ASK, "a/bush.md": f"# Bush\n\n{setup()}", "b/deep/ask.md": ASK}
    site = site_of(tmp_path, **texts)
    assert 'href="a/bush/#setup"' in (site / "index.html").read_text("utf-8")
    assert 'href="../../../a/bush/#setup"' in (site / "b/deep/ask/index.html").read_text("utf-8")
    assert 'id="setup"' in (site / "a/bush/index.html").read_text("utf-8")


def test_nothing_of_a_private_setup_reaches_the_site_by_what_others_say(tmp_path: Path) -> None:
    secret = {"more": "private: yes\nmachine: hidden lathe\n", "fault": "secret fault"}
    site = site_of(
        tmp_path,
        **{
            "index.md": ASK + setup("2026-02-01", speed="973 rpm", outcome="poor"),
            "a/bush.md": "# Bush\n\n"
            + setup(speed="971 rpm", outcome="poor", **secret)
            + setup(speed="977 rpm", **secret)
            + setup(),
        },
    )
    texts = [
        path.read_text("utf-8") for path in site.rglob("*") if path.suffix in (".html", ".json")
    ]
    assert any("1 good setup" in text for text in texts)
    told = "\n".join(texts)
    # 20 mm at 971 and 977 rpm is 61.01 and 61.39 m/min
    for word in (
        "971",
        "977",
        "61.0 m/min",
        "61.4 m/min",
        "secret fault",
        "hidden lathe",
        "this repeats",
    ):
        assert word not in told, word
