"""The site's style sheets and marks, as drawings on paper use them."""
from functools import cache

from django.conf import settings
from django.template.loader import render_to_string

from core.words.said import said
from teardowns.typesetting.drawings import Ink, symbols_in
from teardowns.typesetting.html_tree import tree_of
from teardowns.typesetting.styles import colours, styles

SHEETS = ("marks", "charts", "winding", "safety", "log-chart", "photo")


@cache
def site_ink() -> Ink:
    folder = settings.BASE_DIR / "static/css"
    variables = colours((folder / "tokens.css").read_text("utf-8"))
    sheets = [(folder / f"{name}.css").read_text("utf-8") for name in SHEETS]
    marks = tree_of(render_to_string("teardowns/_marks.html"))
    return Ink(styles(sheets, variables), symbols_in(marks), variables["--ink"],
               say=said)
