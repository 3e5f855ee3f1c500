"""Results, setups and pictures as HTML: knows what came out, and nothing of how or of MkDocs."""

from shoplog.render.page import PageHtml, view_of_text
from shoplog.render.script import page_script, script_name
from shoplog.render.style import style_name, style_sheet

__all__ = ["PageHtml", "page_script", "script_name", "style_name", "style_sheet", "view_of_text"]
