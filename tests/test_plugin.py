"""Whole sites built in a temporary folder: what the plugin adds to a build, and what it leaves."""

import logging
from pathlib import Path

import markdown
import pytest
import shoplog_mkdocs
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

PLAIN = "# Plain\n\nNo block here, only `[=code]`.\n\n```python\nbore = 16\n```\n"
BUSH = (
    "---\npart: bush\n---\n\n# Bush\n\n```calc\nbore = 16 mm H7  # reamed\n```\n\nIt is [=bore].\n"
)
SHAFT = (
    "---\npart: shaft\n---\n\n# Shaft\n\n```calc\njournal = 16 mm f7\n"
    'mate bush.bore with journal as "H7/f7"\n```\n'
)
BROKEN = "---\npart: ring\n---\n\n\n# Ring\n\n```calc\nbore = 16 mm H7\nwall = 2 * boor\n```\n"


@pytest.fixture
def site(tmp_path):
    return Site(tmp_path)


class Site:
    """A folder with a mkdocs.yml and pages, built as often as a test asks."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.docs = folder / "docs"
        self.docs.mkdir()
        self.config = folder / "mkdocs.yml"
        self.settings()

    def settings(self, *lines, plugin="shoplog", theme="mkdocs"):
        plugins = f"plugins: [{plugin}]" if plugin else "plugins: []"
        text = ["site_name: Log", f"theme: {theme}", plugins, *lines]
        self.config.write_text("\n".join(text) + "\n", "utf-8")

    def pages(self, **texts):
        for name, text in texts.items():
            (self.docs / f"{name}.md").write_text(text, "utf-8")
        return self

    def build(self, serving=False, **settings):
        config = load_config(str(self.config), site_dir=str(self.folder / "site"), **settings)
        self.last = config
        config.plugins.on_startup(command="serve" if serving else "build", dirty=False)
        build(config, serve_url="http://127.0.0.1:8000/" if serving else None)
        return config

    def html(self, address):
        return (self.folder / "site" / address).read_text("utf-8")


@pytest.fixture
def said(caplog):
    """The lines that MkDocs logs, by level."""
    caplog.set_level(logging.INFO, "mkdocs")
    return lambda level: [r.getMessage() for r in caplog.records if r.levelno == level]


def test_a_log_is_built_with_its_values_its_mates_and_a_line_that_counts(site, said):
    site.pages(index=PLAIN, bush=BUSH, shaft=SHAFT).build(strict=True)
    assert "<strong>16 mm H7</strong>" in site.html("bush/index.html")
    assert ">16 mm H7</bdi></span>" in site.html("bush/index.html")
    assert "✓ mates" in site.html("shaft/index.html")
    counted = "3 pages, 2 results, 1 check, 0 setups, 0 cautions, 0 concessions, 0 problems"
    assert [line for line in said(logging.INFO) if counted in line]


def test_a_problem_fails_a_strict_build(site):
    site.pages(index=BROKEN)
    with pytest.raises(Abort, match="Aborted with 1 warnings in strict mode!"):
        site.build(strict=True)


def test_a_problem_is_told_once_with_its_place_in_the_file(site, said):
    site.pages(index=BROKEN).build()
    (warning,) = said(logging.WARNING)
    assert warning == (
        "shoplog: docs/index.md:10:12: `boor` is not a name of this page\n"
        "    wall = 2 * boor\n"
        "               ^^^^\n"
        "  hint: did you mean bore?"
    )


def test_every_page_is_built_with_the_problem_shown_where_it_is(site):
    site.pages(index=PLAIN, bush=BUSH, ring=BROKEN).build()
    assert "✗ Problem" in site.html("ring/index.html")
    assert "docs/ring.md:10:12" in site.html("ring/index.html")
    assert "<strong>16 mm H7</strong>" in site.html("ring/index.html")
    assert "✗ Problem" not in site.html("bush/index.html")
    assert "<h1" in site.html("index.html")


def test_a_quiet_strict_build_fails_too(site, caplog):
    site.pages(index=BROKEN)
    caplog.set_level(logging.ERROR, "mkdocs")
    with pytest.raises(Abort):
        site.build(strict=True)
    (error,) = [record.getMessage() for record in caplog.records]
    assert error.startswith("1 problem; the first: docs/index.md:10:12: `boor` is not a name")


def test_a_caution_is_told_and_fails_nothing(site, said):
    page = "# Speed\n\n```calc\nn = spindle_speed(30 m/min, 20 mm)\n```\n"
    site.pages(index=page).build(strict=True)
    cautions = [line for line in said(logging.INFO) if "docs/index.md:4:1: caution: " in line]
    assert len(cautions) == 1


@pytest.mark.parametrize("theme", ["mkdocs", "{name: material, font: false}"])
@pytest.mark.parametrize("directory_urls", [True, False])
def test_a_page_with_no_block_is_byte_for_byte_what_it_is_without_the_plugin(
    site, theme, directory_urls
):
    urls = f"use_directory_urls: {str(directory_urls).lower()}"
    site.pages(index=PLAIN, other="# Other\n\nText.\n", bush=BUSH)
    site.settings(urls, plugin="", theme=theme)
    site.build()
    other = "other/index.html" if directory_urls else "other.html"
    without = {name: site.html(name) for name in ("index.html", other)}
    site.settings(urls, theme=theme)
    site.build()
    # The line that MkDocs ends the first page with says when it was built.
    for name, html in without.items():
        assert undated(site.html(name)) == undated(html)


def undated(html):
    return [line for line in html.splitlines() if not line.startswith("Build Date UTC")]


ANCHORS = "validation:\n  links:\n    anchors: warn"


def test_an_author_may_link_to_a_value_and_to_a_setup(site):
    setup = "\n```setup\noperation: turning\n```\n"
    links = "\n[own](#value-journal) [that](bush.md#value-bore) [card](bush.md#setup)\n"
    site.settings(ANCHORS)
    site.pages(index=PLAIN, bush=BUSH + setup, ring=SHAFT + links).build(strict=True)
    assert 'href="../bush/#value-bore"' in site.html("ring/index.html")


def test_a_link_to_a_value_that_is_not_there_is_told(site, said):
    site.settings(ANCHORS)
    site.pages(index=PLAIN, bush=BUSH + "\n[gone](#value-boor)\n").build()
    (warning,) = said(logging.WARNING)
    assert "contains a link '#value-boor', but there is no such anchor" in warning


@pytest.mark.parametrize(
    ("directory_urls", "address", "link"),
    [
        (True, "bush/index.html", f"../{shoplog_mkdocs.STYLE}"),
        (False, "bush.html", shoplog_mkdocs.STYLE),
    ],
)
def test_a_page_with_a_block_has_the_style_sheet_and_no_other_page_has(
    site, directory_urls, address, link
):
    site.settings(f"use_directory_urls: {str(directory_urls).lower()}")
    site.pages(index=PLAIN, bush=BUSH).build()
    assert f'<link rel="stylesheet" href="{link}"></head>' in site.html(address)
    assert "shoplog" not in site.html("index.html")
    assert site.html(shoplog_mkdocs.STYLE) == shoplog_mkdocs.style_sheet()


def test_a_log_without_blocks_has_no_style_sheet(site):
    site.pages(index=PLAIN).build()
    assert not (site.folder / "site" / shoplog_mkdocs.STYLE).exists()


def test_a_page_that_opens_with_a_key_and_a_colon_is_warned_of(site, said):
    site.pages(index="Feed: 120 mm/min\n\nThe plate is faced first.\n").build()
    (warning,) = said(logging.WARNING)
    assert warning.startswith(
        "shoplog: docs/index.md:1:1: MkDocs takes this line for a header, as `Feed:` opens the"
        " page, and would not show it"
    )
    assert "✗ Problem" in site.html("index.html")


@pytest.mark.parametrize("blank", [0, 1, 3])
@pytest.mark.parametrize("header", ["", "---\npart: ring\nmade: 2\n---\n"])
def test_a_problem_is_on_its_line_whatever_stands_before_the_body(site, said, header, blank):
    text = header + "\n" * blank + "# Ring\n\n```calc\nx = 1 * nothing\n```\n"
    line = text.split("\n").index("x = 1 * nothing") + 1
    site.pages(index=text).build()
    assert said(logging.WARNING)[0].startswith(f"shoplog: docs/index.md:{line}:9: ")


def test_a_rebuild_keeps_nothing_of_the_build_before(site, said):
    site.pages(index=BROKEN, gone=BUSH).build(serving=True)
    assert "✗ Problem" in site.html("index.html")
    (site.docs / "gone.md").unlink()
    config = site.pages(index=BROKEN.replace("boor\n", "bore\n")).build(serving=True)
    assert "✗ Problem" not in site.html("index.html")
    assert len(said(logging.WARNING)) == 1
    assert held(config.plugins["shoplog"]) == ({}, None, None)


def held(plugin):
    return plugin._views, plugin._log, plugin._extension.view


def test_a_build_that_fails_lets_go_of_what_it_read(site):
    (site.folder / "hooks.py").write_text(
        "from mkdocs.exceptions import PluginError\n\n"
        "def on_env(env, config, files):\n"
        "    config.extra['read'] = len(config.plugins['shoplog']._views)\n"
        "    raise PluginError('the theme is missing')\n",
        "utf-8",
    )
    site.settings("hooks: [hooks.py]")
    site.pages(index=BUSH)
    with pytest.raises(Abort):
        site.build()
    config = site.last
    assert config.extra["read"] == 1
    assert held(config.plugins["shoplog"]) == ({}, None, None)


def test_the_instance_serves_every_rebuild(site):
    site.pages(index=PLAIN)
    plugins = [load_config(str(site.config)).plugins["shoplog"] for _ in range(2)]
    assert plugins[0] is plugins[1]


def test_pages_that_another_plugin_makes_are_part_of_the_log(site, said):
    (site.folder / "hooks.py").write_text(
        "from mkdocs.structure.files import File\n\n"
        "def on_files(files, config):\n"
        f"    files.append(File.generated(config, 'made.md', content={BUSH!r}))\n",
        "utf-8",
    )
    site.settings("hooks: [hooks.py]")
    site.pages(index=PLAIN, shaft=SHAFT).build(strict=True)
    assert "<strong>16 mm H7</strong>" in site.html("made/index.html")
    assert "✓ mates" in site.html("shaft/index.html")


def test_the_shop_profile_is_read_and_watched(site, said):
    profile = site.folder / "shop.yml"
    profile.write_text("machines:\n  - name: bench lathe\n    speeds: 120 rpm, 300 rpm\n", "utf-8")
    config = site.pages(index=PLAIN).build(strict=True)
    assert str(profile) in config.watch


def test_a_problem_in_the_shop_profile_is_told_with_its_place(site, said):
    (site.folder / "shop.yml").write_text("machines:\n  - nam: bench lathe\n", "utf-8")
    site.pages(index=PLAIN).build()
    assert all(line.startswith("shoplog: shop.yml:") for line in said(logging.WARNING))
    assert said(logging.WARNING)


def test_a_shop_profile_that_is_named_and_missing_stops_the_build(site, said):
    site.settings(plugin="{shoplog: {shop_profile: tools.yml}}")
    site.pages(index=PLAIN)
    with pytest.raises(Abort):
        site.build()
    assert said(logging.ERROR) == ["shoplog: shop_profile: there is no file tools.yml"]


def test_a_page_that_cannot_be_read_is_left_to_mkdocs(site, said):
    site.pages(index=BUSH)
    (site.docs / "odd.md").write_bytes(b"# Odd \xff\n")
    with pytest.raises(UnicodeDecodeError):
        site.build()
    assert said(logging.ERROR)[0] == "Encoding error reading file: odd.md"


def test_a_draft_counts_where_it_is_shown(site, said):
    site.settings("draft_docs: draft.md")
    site.pages(index=PLAIN, draft=BROKEN)
    site.build(strict=True)
    assert said(logging.WARNING) == []
    site.build(serving=True)
    assert "docs/draft.md:10:12" in said(logging.WARNING)[0]


def test_markdown_that_another_plugin_converts_is_told_of_too(site, said):
    (site.folder / "hooks.py").write_text(
        "import markdown\n\n"
        "def on_env(env, config, files):\n"
        "    extensions = config.markdown_extensions\n"
        "    text = '```calc\\na = 1 * nothing\\n```'\n"
        "    config.extra['html'] = markdown.markdown(text, extensions=extensions)\n",
        "utf-8",
    )
    site.settings("hooks: [hooks.py]")
    config = site.pages(index=PLAIN).build()
    assert "✗ Problem" in config.extra["html"]
    assert [line for line in said(logging.WARNING) if "(text from another plugin):2:9" in line]


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ("markdown.replace('16 mm', '18 mm')", "docs/index.md: This block is not the one that"),
        (
            "markdown + '\\n\\nIt is [=bore + 1 mm].\\n'",
            "docs/index.md: this value is not worked out",
        ),
    ],
)
def test_a_block_or_value_that_another_plugin_changed_fails_a_strict_build(
    site, said, changed, told
):
    hook = f"def on_page_markdown(markdown, page, config, files):\n    return {changed}\n"
    (site.folder / "hooks.py").write_text(hook, "utf-8")
    site.settings("hooks: [hooks.py]")
    site.pages(index=BUSH).build()
    (warning,) = said(logging.WARNING)
    assert warning.startswith(f"shoplog: {told}")
    assert "18 mm H7" not in site.html("index.html")


def test_another_host_of_python_markdown_shows_a_page_alone():
    html = markdown.markdown(BUSH.split("---\n\n", 1)[1], extensions=["shoplog"])
    assert "<strong>16 mm H7</strong>" in html
    assert "<bdi>16 mm H7</bdi>" in html


def test_the_plugin_is_short_and_does_no_arithmetic():
    text = Path(shoplog_mkdocs.__file__).read_text("utf-8")
    assert len(text.splitlines()) < 200
