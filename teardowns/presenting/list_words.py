"""The list of units in words: how many, which of them, what narrows them."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from django.utils.safestring import SafeString, mark_safe

from core.words.said import said
from teardowns.reading.printing import NARROW_SPACE

from .cell_text import cell_text

Condition = tuple[str, str, str]        # label, value in words, address of the list without it


def and_between(words: Sequence[str]) -> str:
    """`A`, `A and B`, `A, B and C`."""
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def number_of(units: int) -> str:
    return f"{grouped(units)} unit{'' if units == 1 else 's'}"


def span(first: int, shown: int, total: int) -> str:
    """`26 to 50 of 1 234`, or nothing where all are shown."""
    if shown in (0, total):
        return ""
    return f"{grouped(first)} to {grouped(first + shown - 1)} of {grouped(total)}"


def grouped(number: int) -> str:
    return f"{number:,}".replace(",", NARROW_SPACE)


def narrowed(conditions: Iterable[Condition]) -> SafeString:
    """What narrows the list, each with a link to the list without it."""
    return mark_safe("".join(
        f"<li>{label}: <strong>{words}</strong> <a href=\"{escape(address)}\">{said('remove')}"
        f'<span class="off"> {label}: {words}</span></a></li>'
        for label, words, address in
        ((cell_text(label), cell_text(words), address) for label, words, address in conditions)))


def name_of(conditions: Iterable[Condition]) -> str:
    """What a saved search is called until somebody renames it."""
    return " · ".join(words for _, words, _ in conditions)[:120]


def options(orders: Iterable[tuple[str, str]], chosen: str) -> SafeString:
    return mark_safe("".join(
        f'<option value="{code}"{" selected" if code == chosen else ""}>{cell_text(label)}</option>'
        for code, label in orders))
