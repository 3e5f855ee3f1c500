"""The MkDocs plugin: hands a log's pages to the library, and what comes out to the site."""

from __future__ import annotations

import logging
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from mkdocs.config.base import Config
from mkdocs.config.config_options import Optional, Type
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.utils import get_relative_url

from shoplog.find.history import Days
from shoplog.find.whole import work_out_log
from shoplog.log import Log, report_of_text
from shoplog.markdown import CHANGED, STRAY, ShoplogExtension
from shoplog.problems import Grade, Problem, counted
from shoplog.render import PageHtml, page_script, script_name, style_name, style_sheet
from shoplog.render.setup_region import past_seen_from
from shoplog_mkdocs.links import link_from, pages_root
from shoplog_mkdocs.made import add_made_pages

if TYPE_CHECKING:
    from collections.abc import Iterable

    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.pages import Page

__all__ = ["ShoplogConfig", "ShoplogPlugin"]

log = get_plugin_logger("shoplog")
SHOP_PROFILE = "shop.yml"
STYLE, SCRIPT = f"assets/{style_name()}", f"assets/{script_name()}"


class ShoplogConfig(Config):
    """What `mkdocs.yml` may say under `shoplog:`."""

    shop_profile = Optional(Type(str))
    """The shop profile's file, from the folder of mkdocs.yml; without it, shop.yml if it is there.
    """


class ShoplogPlugin(BasePlugin[ShoplogConfig]):
    """Works out every page of a log before the first one is shown.

    One object serves every rebuild of `mkdocs serve`; what belongs to a build is made anew by
    `on_pre_build` and let go at its end, however it ends.
    """

    def __init__(self) -> None:
        self._serving = False
        self._extension = ShoplogExtension()
        self._forget()

    def _forget(self) -> None:
        self._log: Log | None = None
        self._views: dict[str, PageHtml] = {}
        self._styled: set[str] = set()
        self._extension.view = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Keep this object from one rebuild to the next."""
        self._serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> None:
        """Add what shows the blocks, and watch the shop profile."""
        self._extension = ShoplogExtension(view_factory=_alone)
        config.markdown_extensions.append(self._extension)  # type: ignore[arg-type]
        profile = self._profile_file(config)
        if self.config.shop_profile and not profile.is_file():
            raise PluginError(f"shoplog: shop_profile: there is no file {self.config.shop_profile}")
        if profile.is_file():
            config.watch.append(str(profile))

    def _profile_file(self, config: MkDocsConfig) -> Path:
        return Path(config.config_file_path).parent / (self.config.shop_profile or SHOP_PROFILE)

    def on_pre_build(self, config: MkDocsConfig) -> None:
        """Begin with nothing of a build before."""
        self._forget()

    @event_priority(-100)  # last, so that pages made by other plugins are there
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Read and work out the whole log, and tell what is wrong in it."""
        level = InclusionLevel.is_in_serve if self._serving else InclusionLevel.is_included
        texts = {
            file.src_uri: text
            for file in files.documentation_pages(inclusion=level)
            if (text := _text_of(file)) is not None
        }
        whole = work_out_log(
            texts,
            shop_profile=self._profile(config),
            shop_path=self.config.shop_profile or SHOP_PROFILE,
            root=pages_root(config),
            days=Days(Path(config.docs_dir), texts),
        )
        self._log = whole.log
        seen_from = past_seen_from(whole.records)
        self._views = {
            uri: PageHtml(report, link_from(uri, files), seen_from(uri))
            for uri, report in whole.log.pages.items()
        }
        made = add_made_pages(whole, files, config)
        for note in made.notes:
            log.info(f"{pages_root(config)}{note}")
        self._styled = {uri for uri, view in self._views.items() if view.styled} | {*made.pages}
        if self._styled:
            files.append(File.generated(config, STYLE, content=style_sheet()))
            files.append(File.generated(config, SCRIPT, content=page_script()))
        _tell(self._log.problems)
        return files

    def _profile(self, config: MkDocsConfig) -> str | None:
        profile = self._profile_file(config)
        if not profile.is_file():
            return None
        try:
            return profile.read_text("utf-8-sig")
        except (OSError, UnicodeError) as error:
            raise PluginError(f"shoplog: {profile.name} cannot be read: {error}") from error

    @event_priority(100)  # first, so that a page whose text another plugin changes has its view
    def on_page_markdown(
        self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files
    ) -> None:
        """Show the blocks of this page next."""
        self._extension.view = self._views.get(page.file.src_uri)

    @event_priority(-100)  # last: nothing converts Markdown after it
    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Tell what another plugin changed; leave no view to what is converted between pages."""
        self._extension.view = None
        for shown, text in ((f"<p>{CHANGED}</p>", CHANGED), (f'"problem: {STRAY}"', STRAY)):
            if shown in html:
                log.warning(f"{pages_root(config)}{page.file.src_uri}: {text}")
        if (view := self._views.get(page.file.src_uri)) and page.present_anchor_ids is not None:
            page.present_anchor_ids |= view.anchors  # so that an author may link to a value
        if page.file.src_uri not in self._styled:
            return html
        # In the content, for a page that is swapped in without loading runs no other script.
        return f'{html}\n<script src="{get_relative_url(SCRIPT, page.url)}" defer></script>'

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Link the style sheet from a page with anything of ours, and from no other."""
        if page.file.src_uri not in self._styled:
            return output
        link = f'<link rel="stylesheet" href="{get_relative_url(STYLE, page.url)}">'
        before, head, after = output.partition("</head>")
        return f"{before}{link}{head}{after}" if head else f"{link}{output}"

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Say what the log holds."""
        if self._log is None:
            return
        counts, problems = self._log.counts, self._log.problems
        self._forget()
        log.info(counts.line)
        if config.strict and counts.problems and not log.isEnabledFor(logging.WARNING):
            # With --quiet, MkDocs drops warnings before it counts them, and would pass.
            first = next(found for found in problems if found.grade is Grade.PROBLEM)
            raise PluginError(f"{counted(counts.problems, 'problem')}; the first: {first.line}")

    def on_build_error(self, *, error: Exception) -> None:
        """Let go of a build that failed."""
        self._forget()


def _tell(problems: Iterable[Problem]) -> None:
    """Tell each finding once; MkDocs counts warnings, and fails by them where it is strict."""
    for problem in problems:
        if problem.grade is Grade.PROBLEM:
            log.warning(problem.text)
        else:
            log.info(problem.line)


def _alone(text: str) -> PageHtml:
    """A view of a text that is no page of the log, which another plugin has converted."""
    report = report_of_text(text, "(text from another plugin)")
    _tell(report.problems)
    return PageHtml(report)


def _text_of(file: File) -> str | None:
    """A page's text; nothing where it cannot be read, of which MkDocs will tell."""
    try:
        return file.content_string
    except (OSError, ValueError):
        return None
