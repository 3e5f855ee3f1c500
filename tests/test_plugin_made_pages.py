"""Whole sites built in a temporary folder: the pages that the plugin makes beside the author's."""

import json
import logging
import re

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

BUSH = """# Bush

```setup
date: 2026-03-14
operation: turning
material: mild steel
machine: bench lathe
diameter: 16 mm
ran:
  speed: 500 rpm
  feed: 0.1 mm/rev
outcome: good
```
"""


@pytest.fixture
def site(tmp_path, caplog):
    """Builds pages with settings; gives the folder of the site."""
    caplog.set_level(logging.INFO, "mkdocs")

    def make(pages, *settings, strict=True):
        docs = tmp_path / "docs"
        for name, text in pages.items():
            (docs / name).parent.mkdir(parents=True, exist_ok=True)
            (docs / name).write_text(text, "utf-8")
        lines = ["site_name: Log <b>", "theme: {name: material, font: false}"]
        lines += ["plugins: [search, shoplog]", *settings]
        (tmp_path / "mkdocs.yml").write_text("\n".join(lines) + "\n", "utf-8")
        out = tmp_path / "site"
        build(load_config(str(tmp_path / "mkdocs.yml"), site_dir=str(out), strict=strict))
        return out

    return make


def read(folder, name):
    return (folder / name).read_text("utf-8")


def test_a_site_has_a_page_of_setups_in_its_navigation_and_the_published_file(site):
    out = site({"index.md": "# Log\n", "log/bush.md": BUSH})
    page = read(out, "setups/index.html")
    assert 'href="../log/bush/#setup"' in page
    assert 'href="setups/"' in read(out, "index.html")
    published = json.loads(read(out, "setups.json"))
    assert published["log"] == "Log <b>"
    assert [one["page"] for one in published["records"]] == ["log/bush.md"]


def test_a_site_without_setups_has_neither(site):
    out = site({"index.md": "# Log\n"})
    assert not (out / "setups").exists()
    assert not (out / "setups.json").exists()


def test_every_script_of_the_page_is_on_the_site_and_no_other_page_loads_it(site):
    out = site({"index.md": "# Log\n", "log/bush.md": BUSH})
    names = re.findall(r'src="((?:setups|table|mini)[^"]+\.js)"', read(out, "setups/index.html"))
    assert len(names) == 4
    assert all((out / "setups" / name).is_file() for name in names)
    for page in ("index.html", "log/bush/index.html"):
        assert "table-core" not in read(out, page)


def test_links_are_right_where_pages_are_files(site):
    out = site({"index.md": "# Log\n", "log/bush.md": BUSH}, "use_directory_urls: false")
    assert 'href="../log/bush.html#setup"' in read(out, "setups/index.html")
    (data,) = (out / "setups").glob("setups-data.*.js")
    assert '\\"addresses\\":[\\"../log/bush.html\\"]' in data.read_text("utf-8")


def test_a_page_of_the_author_wins_and_a_line_of_the_build_says_so(site, caplog):
    out = site({"index.md": "# Log\n", "bush.md": BUSH, "setups.md": "# My own\n"})
    assert "My own" in read(out, "setups/index.html")
    assert "shoplog-setups-page" not in read(out, "setups/index.html")
    said = [one.getMessage() for one in caplog.records if "stands in the place" in one.msg]
    assert said == [
        "shoplog: docs/setups.md stands in the place of the page of setups that is made from the"
        " records"
    ]


def test_a_navigation_that_names_its_pages_may_leave_it_out_or_name_it(site, caplog):
    pages = {"index.md": "# Log\n", "bush.md": BUSH}
    strict = "validation: {nav: {omitted_files: warn}}"
    site(pages, "nav: [index.md, bush.md]", strict)
    out = site(pages, "nav: [index.md, bush.md, setups/index.md]", strict)
    assert 'href="setups/"' in read(out, "index.html")
    assert [one for one in caplog.records if one.levelno >= logging.WARNING] == []


def test_an_author_who_wants_no_such_page_excludes_it(site):
    out = site({"index.md": "# Log\n", "bush.md": BUSH}, "exclude_docs: setups/")
    assert not (out / "setups" / "index.html").exists()


def test_a_search_of_the_site_finds_the_page_and_not_every_record(site):
    out = site({"index.md": "# Log\n", "bush.md": BUSH})
    found = json.loads(read(out, "search/search_index.json"))["docs"]
    (entry,) = [one for one in found if one["location"] == "setups/"]
    assert entry["title"] == "Setups"
    assert "mild steel" not in entry["text"]
    assert "1 setup: 1 good" in entry["text"]
