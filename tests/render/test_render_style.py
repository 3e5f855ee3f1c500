"""The style sheets that ship with the package, and where they are used again."""

from pathlib import Path

from shoplog.log.starter import STYLE, start_log
from shoplog.render.style import readable_sheet, style_sheet

ROOT = Path(__file__).parents[2]


def test_the_demo_and_a_new_log_have_the_same_sheet_for_the_theme(tmp_path):
    start_log(tmp_path, readable=readable_sheet())
    written = (tmp_path / "docs" / STYLE).read_text("utf-8")
    assert written == readable_sheet()
    assert (ROOT / "docs" / STYLE).read_text("utf-8") == readable_sheet()
    assert f"- {STYLE}" in (ROOT / "mkdocs.yml").read_text("utf-8")


def test_a_log_s_own_sheet_leaves_the_theme_alone():
    assert "text-decoration: underline" in readable_sheet()
    assert readable_sheet() not in style_sheet()
    assert ".md-copyright" not in style_sheet()
