"""How the library prints a value, a name with a date, and a text that names rows of evidence."""
from __future__ import annotations

from datetime import datetime

from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.quantities import QUANTITIES
from teardowns.reading.evidence_refs import PATTERN

from .evidence_names import quantity_label
from .links import anchor
from .numbers import as_recorded

__all__ = ["linked", "moment", "quantity_label", "value_text"]


def value_text(code: str, value: float | None) -> str:
    """`12 W`, and `yes` or `no` of what is there or not."""
    quantity = QUANTITIES.get(code)
    if value is None:
        return "unknown"
    if quantity is None:
        return f"{value:g}"
    if quantity.is_flag:
        return "yes" if value > 0.5 else "no"
    return as_recorded(value, quantity.unit)


def moment(at: datetime | None) -> str:
    return f"{at:%Y-%m-%d %H:%M} UTC" if at else ""


def linked(text: str) -> SafeString:
    """Paragraphs of a plain text; a row of evidence that it names leads to that row."""
    paragraphs = [part for part in text.replace("\r\n", "\n").split("\n\n") if part.strip()]
    return format_html_join("", "<p>{}</p>", ((_with_links(one),) for one in paragraphs))


def _with_links(text):
    pieces, end = [], 0
    for found in PATTERN.finditer(text):
        unit, kind, key = found.groups()
        address = f"{reverse('unit_detail', args=[int(unit)])}#{anchor(f'{kind}/{key}')}"
        pieces += [format_html("{}", text[end:found.start()]),
                   format_html('<a href="{}">{}</a>', address, found.group())]
        end = found.end()
    pieces.append(format_html("{}", text[end:]))
    return mark_safe("".join(pieces).replace("\n", "<br>"))
