"""A part of a table's cell as markup, in the reader's language."""
from __future__ import annotations

from django.utils.html import conditional_escape
from django.utils.safestring import SafeData, SafeString

from core.words.said import said


def cell_text(part: str) -> SafeString:
    """Escaped, and said where a room worded it: finished markup and what a person wrote stay."""
    return conditional_escape(part if isinstance(part, SafeData) else said(part))
