"""A part of a table's cell as markup, in the reader's language."""
from __future__ import annotations

from django.utils.html import conditional_escape
from django.utils.safestring import SafeData, SafeString

from core.words.as_written import AsWritten
from core.words.said import said


def cell_text(part: str) -> SafeString:
    """Escaped, and said where a room worded it: finished markup and what a person wrote stay."""
    if not isinstance(part, (SafeData, AsWritten)):
        part = said(part)
    return conditional_escape(part)
