"""The verbatim text of plate, box or listing, with the words behind each claim marked."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.markup import element, escape

from . import evidence_cells as cells
from .cell_text import cell_text
from .links import anchor


@dataclass(frozen=True, slots=True)
class PrintedText:
    anchor: str
    source: str
    text: SafeString
    looked: SafeString | None
    provenance: list[SafeString]
    review: SafeString


def printed_texts(texts: Sequence, claims: Sequence) -> list[PrintedText]:
    return [_printed(row, [c for c in claims if c.printed_text_id == row.pk]) for row in texts]


def _printed(row, claims: Sequence) -> PrintedText:
    spans = [(claim.start, claim.end, anchor(claim.ref)) for claim in claims
             if claim.start is not None and claim.end is not None]
    return PrintedText(
        anchor=anchor(row.ref), source=row.get_source_display(),
        text=mark_safe(marked(row.text, spans)), looked=cells.looked(row),
        provenance=[cell_text(part) for part in (*cells.source(row), cells.entered(row))],
        review=cells.review(row),
    )


def marked(text: str, spans: Sequence[tuple[int, int, str]]) -> str:
    """The text as markup; each span links to its claim, the inner of two nested ones wins."""
    owner = [""] * len(text)
    for start, end, target in sorted(spans, key=lambda s: s[0] - s[1]):   # the longest first
        end = min(end, len(text))
        owner[start:end] = [target] * max(0, end - start)
    pieces, start = [], 0
    for place in range(1, len(text) + 1):
        if place == len(text) or owner[place] != owner[start]:
            pieces.append(_piece(text[start:place], owner[start]))
            start = place
    return "".join(pieces)


def _piece(text: str, target: str) -> str:
    if not target:
        return escape(text)
    return element("mark", element("a", escape(text), href=f"#{target}"))
