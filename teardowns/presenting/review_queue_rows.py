"""One work that waits for a review, as a row of the queue."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.urls import reverse


@dataclass(frozen=True, slots=True)
class QueueRow:
    address: str              # of the page that takes it on, or of the review that is held
    title: str
    origin: str               # maker, model and kind, as far as known
    work: str                 # "new record", "correction"
    since: str                # ISO date
    reasons: str              # "a serious finding, reach not known, …"
    claims: str               # who reviews it, since when
    refusal: str
    lapses: str               # ISO date, of a claim of one's own


def queue_row(entry: Any) -> QueueRow:
    unit = entry.unit
    page = "review_sheet" if entry.is_held else "review_claim"
    return QueueRow(
        address=reverse(page, args=[unit.pk]), title=unit.title,
        origin=" · ".join(filter(None, (unit.maker, unit.model, unit.get_kind_display()))),
        work="correction" if entry.is_correction else "new record",
        since=entry.since.date().isoformat(), reasons=", ".join(entry.reasons),
        claims="; ".join(_people(entry)), refusal=entry.refusal,
        lapses=entry.lapses.date().isoformat() if entry.lapses else "")


def _people(entry):
    yield from (f"{claim.reviewer} since {claim.since.date().isoformat()}"
                for claim in entry.claims)
    if entry.reviewed:
        yield f"reviewed by {entry.reviewed}, a second person is asked for"
